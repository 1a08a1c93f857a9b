"""The plane of a deck by its corners: least squares of numpy, a determinant."""

import numpy as np
import pytest
from sources import independent

from workbook_tools.catalog import ArgumentError

SOURCE = independent("plane through the corners by least squares", np.linalg.lstsq)
DECKS = [
    (234.70, 234.60, 234.80, 234.78),
    (221.005, 221.040, 220.980, 221.010),
    (180.0, 180.0, 180.0, 180.0),
]
# Along the crank and across, as shares of the deck: front and rear, intake and exhaust.
CORNERS = np.array([(0, 0), (0, 1), (1, 0), (1, 1)], dtype=float)


def plane(heights):
    rows = np.column_stack([CORNERS, np.ones(4)])
    return np.linalg.lstsq(rows, np.array(heights), rcond=None)[0]


@pytest.mark.parametrize("heights", DECKS)
def test_tilt(agree, eng, heights):
    along, across, _ = plane(heights)
    got = eng("DECK_TILT_ALONG", *heights, "metric")
    agree("DECK_TILT_ALONG", SOURCE, float(along), got, abs=1e-9)
    got = eng("DECK_TILT_ACROSS", *heights, "metric")
    agree("DECK_TILT_ACROSS", SOURCE, float(across), got, abs=1e-9)


@pytest.mark.parametrize("heights", DECKS)
@pytest.mark.parametrize("share", [0.0, 0.12, 0.5, 1.0])
def test_height_at_a_cylinder(agree, eng, heights, share):
    along, across, front = plane(heights)
    expected = float(front + along * share + across / 2)
    got = eng("DECK_HEIGHT_AT", *heights, 480, 480 * share, "metric")
    agree("DECK_HEIGHT_AT", SOURCE, expected, got)


@pytest.mark.parametrize("heights", DECKS)
def test_twist(agree, eng, heights):
    # Where the plane of the first three corners has the fourth.
    rows = np.column_stack([CORNERS[:3], np.ones(3)])
    coefficients = np.linalg.solve(rows, np.array(heights[:3]))
    source = independent("plane through three corners", np.linalg.solve)
    expected = heights[3] - float(coefficients.sum())
    got = eng("DECK_TWIST", *heights, "metric")
    agree("DECK_TWIST", source, expected, got, abs=1e-9)


def test_corners_of_two_decks_are_refused(eng):
    for name in ("DECK_TILT_ALONG", "DECK_TILT_ACROSS", "DECK_TWIST"):
        with pytest.raises(ArgumentError, match="heights of one deck"):
            eng(name, 234.7, 234.6, 234.8, 224.8, "metric")
    with pytest.raises(ArgumentError, match="distance: expected no more than"):
        eng("DECK_HEIGHT_AT", *DECKS[0], 480, 500, "metric")
