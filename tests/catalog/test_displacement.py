"""Displacement at the edges: units, ranges, impossible sizes."""

import pytest

from workbook_tools.catalog import ArgumentError, calculate, find


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        calculate(find(name), arguments)
    return str(raised.value)


def test_the_system_decides_the_unit_of_the_result():
    inch = calculate(find("DISPLACEMENT"), (4, 3.48, 8))
    metric = calculate(find("DISPLACEMENT"), (101.6, 88.392, 8, "metric"))
    assert (inch.unit, metric.unit) == ("cu in", "cc")
    assert inch.value * 16.387064 == pytest.approx(metric.value, rel=1e-12)
    assert calculate(find("CYLINDER_VOLUME"), (4, 3.48)).unit == "cc"


def test_a_displacement_in_liters(eng):
    assert eng("STROKE_FOR_DISPLACEMENT", "2.0 L", "86 mm", 4, "metric") == pytest.approx(
        86.0762, abs=5e-5
    )


def test_each_bore_of_a_block(eng):
    volumes = eng("CYLINDER_VOLUME", ((4.0300,), (4.0302,)), 3.480)
    assert volumes[0][0] < volumes[1][0]


@pytest.mark.parametrize("name", ["CYLINDER_VOLUME", "BORE_STROKE_RATIO"])
def test_a_bore_of_nothing_is_refused(name):
    assert refusal(name, 0, 3.48) == "bore: expected a length above 0, got 0"


def test_half_a_cylinder_is_refused():
    assert refusal("BORE_FOR_DISPLACEMENT", 350, 3.48, 7.5) == (
        "cylinders: expected a whole number 1 or more, got 7.5"
    )


def test_cylinders_may_be_typed_as_text(eng):
    assert eng("DISPLACEMENT", 4, 3.48, "8") == eng("DISPLACEMENT", 4, 3.48, 8)
    assert "a count takes no unit" in refusal("DISPLACEMENT", 4, 3.48, "8 cyl")


def test_square_engines(eng):
    assert eng("BORE_STROKE_RATIO", "86 mm", "86 mm") == pytest.approx(1)
    assert eng("BORE_STROKE_RATIO", 4, 3) > 1
