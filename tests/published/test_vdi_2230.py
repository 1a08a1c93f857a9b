"""VDI 2230 Part 1: what head, engaged thread, nut and tapped hole of a bolt give (from memory).

Substitution lengths: 0.5 d of the hexagon head and 0.4 d of a nut (0.33 d of a tapped hole) at
the thread's nominal section, 0.5 d of the engaged thread at its core d3. The pieces are springs in
a row, brought into equilibrium by numpy.
"""

import math

import numpy as np
import pytest
from sources import from_memory

SOURCE = from_memory("VDI 2230 Part 1", "substitution lengths; springs in a row by numpy")
MODULUS = 207e3  # N/mm2, alloy steel.
# ISO 898-1: core d3 of M10x1.5 and M8x1.25 in mm, from the thread's basic profile.
CORES = {("M10", 1.5): 8.160, ("M8", 1.25): 6.466}


def rate(pieces):
    """Force for each mm of stretch of pieces (length, diameter) in a row, one end held."""
    springs = [MODULUS * math.pi / 4 * d**2 / length for length, d in pieces]
    count = len(springs)
    stiffness = np.zeros((count + 1, count + 1))
    for i, k in enumerate(springs):
        stiffness[i : i + 2, i : i + 2] += k * np.array([[1, -1], [-1, 1]])
    force = np.zeros(count)
    force[-1] = 1
    return 1 / np.linalg.solve(stiffness[1:, 1:], force)[-1]


@pytest.mark.parametrize(("ends", "hold"), [("nut", 0.4), ("tapped hole", 0.33), ("bolt alone", 0)])
@pytest.mark.parametrize(
    ("size", "diameter", "pitch", "lengths", "diameters"),
    [
        ("M10", 10, 1.5, (20, 12), (10, 8.593)),
        ("M8", 8, 1.25, (80, 20), (7.1, 6.827)),
        ("M8", 8, 1.25, (6, 2), (8, 6.827)),
    ],
)
def test_bolts_with_their_ends(agree, eng, size, diameter, pitch, lengths, diameters, ends, hold):
    core = CORES[size, pitch]
    pieces = [*zip(lengths, diameters, strict=True), (0.5 * diameter, diameter)]
    pieces += [(0.5 * diameter, core), *([(hold * diameter, diameter)] if hold else [])]
    expected = rate(pieces)
    bolt = ((lengths,), (diameters,), diameter, pitch, ends, "alloy steel", "metric")
    # The cores are printed to a thousandth.
    agree("BOLT_RATE_WITH_ENDS", SOURCE, expected, eng("BOLT_RATE_WITH_ENDS", *bolt), rel=1e-4)
    stretch = 20e3 / expected
    got = eng("BOLT_STRETCH_WITH_ENDS", 20e3, *bolt)
    agree("BOLT_STRETCH_WITH_ENDS", SOURCE, stretch, got, rel=1e-4)
    got = eng("PRELOAD_FROM_STRETCH_WITH_ENDS", stretch, *bolt)
    agree("PRELOAD_FROM_STRETCH_WITH_ENDS", SOURCE, 20e3, got, rel=1e-4)


def test_a_short_rod_bolt(agree, eng):
    # 7/16-20, 1.10 in of 0.375 in and 0.45 in of free thread (0.1187 sq in), stretch 0.0063 in;
    # worked by hand with the root area 0.1090 sq in of Shigley, Table 8-2, and 0.33 d of hold.
    d = 0.4375
    give = 1.10 / 0.375**2 + 0.45 * math.pi / 4 / 0.1187
    give += (0.5 + 0.33) / d + 0.5 * d * math.pi / 4 / 0.1090
    expected = 0.0063 * 30.0228e6 * math.pi / 4 / give
    assert expected == pytest.approx(10410, abs=5)
    step = 2 * math.sqrt(0.1187 / math.pi)
    bolt = (((1.10, 0.45),), ((0.375, step),))
    got = eng(
        "PRELOAD_FROM_STRETCH_WITH_ENDS", 0.0063, *bolt, d, 0.05, "tapped hole", "alloy steel"
    )
    # ISO's core d3 lies 1 % above Shigley's root diameter.
    agree("PRELOAD_FROM_STRETCH_WITH_ENDS", SOURCE, expected, got, rel=3e-3)
    # Without the ends a third too much, as that function's help says.
    without = eng("PRELOAD_FROM_STRETCH", 0.0063, *bolt)
    assert without / got == pytest.approx(1.32, abs=0.01)


def test_a_long_stud_without_its_ends_is_a_tenth_too_stiff(eng):
    # A 7/16 in head stud of 5.5 in.
    bolt = (((4.5, 1.0),), ((0.4, 0.39),))
    ends = (0.4375, 0.05, "nut", "alloy steel")
    ratio = eng("BOLT_RATE", *bolt) / eng("BOLT_RATE_WITH_ENDS", *bolt, *ends)
    assert 1.07 < ratio < 1.13
