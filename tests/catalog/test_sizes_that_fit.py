"""Fits: what they refuse, and that they are the measurands of books."""

import pytest

from workbook_tools.catalog import ArgumentError, find


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("BEARING_CLEARANCE_FROM_BORE", (2.452, 2.2495), "journal"),
        ("BEARING_CLEARANCE_FROM_BORE", (2.4520, 2.6495), "journal"),
        ("PIN_CLEARANCE_IN_PISTON", (0.927, 0.9), "pin_diameter"),
        ("PIN_CLEARANCE_IN_ROD", (0.927, 0.866), "pin_diameter"),
        ("VALVE_GUIDE_CLEARANCE", (0.343, 0.3), "stem_diameter"),
        ("FIT", (1.625, 1.25), "shaft"),
    ],
)
def test_parts_that_do_not_belong_together(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError, match=f"{parameter}: expected a size within"):
        eng(name, *arguments)


@pytest.mark.parametrize(
    ("name", "measurands", "result"),
    [
        ("BEARING_CLEARANCE_FROM_BORE", ("bearing_bore", "journal"), "bearing_clearance"),
        ("PIN_CLEARANCE_IN_PISTON", ("pin_bore", "pin_diameter"), "pin_clearance"),
        ("PIN_CLEARANCE_IN_ROD", ("small_end_bore", "pin_diameter"), "small_end_clearance"),
        ("VALVE_GUIDE_CLEARANCE", ("guide_bore", "stem_diameter"), "stem_clearance"),
    ],
)
def test_they_take_and_give_measurands(name, measurands, result):
    function = find(name)
    assert tuple(p.measurand for p in function.parameters) == measurands
    assert function.measurand == result


def test_a_worn_pin_and_a_pressed_one(eng):
    assert eng("PIN_CLEARANCE_IN_PISTON", "23.560 mm", "23.552 mm", "metric") == pytest.approx(
        0.008
    )
    assert eng("PIN_CLEARANCE_IN_ROD", 0.9260, 0.9272) == pytest.approx(-0.0012)


def test_torqued_shells_read_as_reckoned_where_the_press_does_nothing(eng):
    reckoned = eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.4486)
    assert eng("BEARING_CLEARANCE_FROM_BORE", 2.6410 - 2 * 0.0950, 2.4486) == pytest.approx(
        reckoned
    )


def test_the_sign_is_told():
    assert "Positive: a clearance. Negative: an interference" in find("FIT").result_help
    assert "Negative for an interference" in find("BEARING_CLEARANCE_FROM_BORE").result_help
