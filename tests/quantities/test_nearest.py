"""What was likely meant by a name that is not known."""

import pytest

from workbook_tools.quantities.nearest import hint, nearest, nearest_unit


@pytest.mark.parametrize(
    ("word", "known", "found"),
    [
        ("unit", ("units", "paper"), "units"),
        ("Build Shet", ("Build sheet", "Cylinders"), "Build sheet"),
        ("QUNCH", ("RING_GAP", "QUENCH"), "QUENCH"),
        ("deck clearence", ("deck_clearance", "deck_growth"), "deck_clearance"),
        ("zzz", ("units", "paper"), ""),
        ("x", (), ""),
    ],
)
def test_the_name_spelled_alike_is_found_in_whatever_case(word, known, found):
    assert nearest(word, known) == found


def test_a_hint_names_the_nearest_or_all():
    assert hint("unit", ("units", "paper")) == "the nearest is units"
    assert hint("zzz", ("units", "paper")) == "choose one of units, paper"


@pytest.mark.parametrize(
    ("text", "unit"), [("thuo", "thou"), ("mmm", "mm"), ("inn", "in"), ("tight", ""), ("dome", "")]
)
def test_a_unit_is_suggested_where_one_is_spelled_alike(text, unit):
    assert nearest_unit(text) == unit
