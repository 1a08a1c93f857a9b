"""Two-strokes: inverse calls, signs, units and refusals."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_height_and_duration_are_inverse(eng):
    edge = eng("PORT_EDGE_FOR_DURATION", 2.15, 4.33, 190)
    assert eng("PORT_DURATION", 2.15, 4.33, edge) == pytest.approx(190)
    assert edge == pytest.approx(
        eng("PORT_EDGE_FOR_DURATION", "54.61 mm", "109.982 mm", 190), rel=1e-9
    )


def test_a_higher_port_is_open_longer_and_traps_less(eng):
    assert eng("PORT_DURATION", 54.5, 110, 26, "metric") > eng(
        "PORT_DURATION", 54.5, 110, 28, "metric"
    )
    assert eng("TRAPPED_RATIO", 54, 54.5, 110, 200, 9.5, "metric") < eng(
        "TRAPPED_RATIO", 54, 54.5, 110, 180, 9.5, "metric"
    )


def test_squish_goes_inward_before_and_outward_after_top_dead_center(eng):
    band = (54, 54.5, 110, 38, 9, 1, 11000)
    before, after = (eng("SQUISH_VELOCITY", *band, at, "metric") for at in (-10, 10))
    assert before == pytest.approx(-after)
    assert before > 10
    assert eng("SQUISH_VELOCITY", *band, 0, "metric") == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "arguments", "words"),
    [
        ("PORT_DURATION", (54.5, 110, 60), "port_edge: expected less than the stroke"),
        ("PORT_EDGE_FOR_DURATION", (54.5, 110, 400), "port_duration: expected an angle above 0"),
        ("PORT_TIME_AREA", (42, 27, 55, 54.5, 110, 11000), "port_edge: expected less than the"),
        ("SQUISH_VELOCITY", (54, 54.5, 110, 58, 9, 1, 11000, -10), "bowl_diameter: expected less"),
        ("PREMIX_OIL", (5, 0.03), "premix_ratio: expected a ratio from 8 to 200"),
    ],
)
def test_refusals(eng, name, arguments, words):
    with pytest.raises(ArgumentError, match=words):
        eng(name, *arguments, "metric")
