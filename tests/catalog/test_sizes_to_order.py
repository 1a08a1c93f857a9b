"""Inverse functions for ordering: what they refuse, and both unit systems."""

import pytest

from workbook_tools.catalog import ArgumentError


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("COMPRESSION_HEIGHT_FOR_DECK", (0, 7.5, 3.54, 6.0), "deck_height"),
        ("COMPRESSION_HEIGHT_FOR_DECK", (0, 9.32, 3.54, 1.7), "rod_length"),
        ("CLOSING_FOR_DYNAMIC_RATIO", (10.3, 10.2, 3.54, 6.0), "dynamic_ratio"),
        ("CLOSING_FOR_DYNAMIC_RATIO", (8, 10.2, 12.54, 6.0), "rod_length"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter


def test_inch_and_metric(eng):
    inch = eng("COMPRESSION_HEIGHT_FOR_DECK", 0.005, 9.32, 3.54, 6.0)
    metric = eng("COMPRESSION_HEIGHT_FOR_DECK", 0.127, 236.728, 89.916, 152.4, "metric")
    assert metric == pytest.approx(25.4 * inch)
    assert eng("CLOSING_FOR_DYNAMIC_RATIO", 8.1, 10.2, 89.916, 152.4, "metric") == pytest.approx(
        eng("CLOSING_FOR_DYNAMIC_RATIO", 8.1, 10.2, 3.54, 6.0)
    )


def test_at_the_static_ratio_the_valve_closes_at_the_dead_center(eng):
    assert eng("CLOSING_FOR_DYNAMIC_RATIO", 10.2, 10.2, 3.54, 6.0) == pytest.approx(0, abs=1e-4)


def test_a_card_becomes_events_and_events_the_card(eng):
    center = eng("INTAKE_CENTERLINE", 110, 4)
    opening, closing = eng("INTAKE_OPENING", 228, center), eng("INTAKE_CLOSING", 228, center)
    assert (opening, closing) == (pytest.approx(8), pytest.approx(40))
    assert eng("LOBE_SEPARATION", center, eng("EXHAUST_CENTERLINE", 110, 4)) == pytest.approx(110)
