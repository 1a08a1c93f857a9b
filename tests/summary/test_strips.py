"""Strips: the geometry is the numbers, so it is checked as numbers."""

import pytest

from workbook_tools.formulas.references import Place
from workbook_tools.summary.bands import Band
from workbook_tools.summary.strips import LENGTH, MARGIN, SURROUNDINGS, gauges


def band(low, high, verdict="ok"):
    return Band(low, high, verdict, Place("S", "A1"), "same")


def test_a_mark_in_the_middle_of_its_band_is_in_the_middle_of_the_strip():
    (gauge,) = gauges([0.05], [band(0.04, 0.06)], 0.001)
    assert float(gauge.mark) == MARGIN + LENGTH / 2
    assert float(gauge.top) + float(gauge.height) / 2 == pytest.approx(MARGIN + LENGTH / 2, abs=0.1)
    assert float(gauge.height) == pytest.approx(LENGTH / (1 + 2 * SURROUNDINGS), abs=0.1)


def test_high_is_up_and_the_edges_are_the_limits():
    low, high = gauges([0.041, 0.059], [band(0.04, 0.06)] * 2, 0.001)
    assert float(high.mark) < float(low.mark)
    top, bottom = (float(edge) for edge in low.edges)
    assert top < float(high.mark) < float(low.mark) < bottom
    assert (low.shape, high.shape) == ("ok", "ok")


@pytest.mark.parametrize(
    ("value", "verdict", "at"), [(0.4, "high", MARGIN), (0.0, "low", MARGIN + LENGTH)]
)
def test_a_reading_far_outside_stands_at_the_edge_and_is_marked_so(value, verdict, at):
    (gauge,) = gauges([value], [band(0.04, 0.06, verdict)], 0.001)
    assert (float(gauge.mark), gauge.shape, gauge.beyond) == (at, verdict, True)


def test_positions_share_one_scale_where_their_bands_differ():
    first, second = gauges([0.05, 0.05], [band(0.04, 0.06), band(0.045, 0.065)], 0.001)
    assert first.mark == second.mark
    assert float(second.top) < float(first.top)


def test_without_a_band_nothing_is_judged_and_no_band_is_drawn():
    first, second, gap = gauges([4.0305, 4.0315, None], [None] * 3, 0.0001)
    assert (first.shape, second.shape, gap.shape) == ("open", "open", "none")
    assert first.top == ""
    assert float(second.mark) < float(first.mark)


def test_readings_alike_to_the_last_digits_look_alike():
    first, second = gauges([4.0305, 4.0306], [None, None], 0.001)
    assert abs(float(first.mark) - float(second.mark)) < LENGTH / 9


@pytest.mark.parametrize("values", [[None, None], [0.0, 0.0], [1e300, 1e300], [5.0]])
def test_any_readings_can_be_drawn(values):
    for gauge in gauges(values, [None] * len(values), 0.001):
        assert MARGIN <= float(gauge.mark) <= MARGIN + LENGTH


def test_an_open_side_reaches_to_the_edge():
    (gauge,) = gauges([0.05], [band(0.04, None)], 0.001)
    assert float(gauge.top) == 0
    assert len(gauge.edges) == 1
