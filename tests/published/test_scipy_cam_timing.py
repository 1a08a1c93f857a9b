"""Cam timing against a camshaft turned numerically: scipy finds where its lobes cross a lift.

The model is built in cam degrees from two lobes, their separation and an advance. The wheel
readings, in crank degrees, come from root finding on the lift, not from timing formulas.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq
from sources import independent

SOURCE = independent("a camshaft turned numerically", brentq)
BOTH_UP = independent("count of crank degrees with both valves up", np.count_nonzero)
LIFT, CHECK = 0.320, 0.050
HALF_BASE = {"intake": 80.0, "exhaust": 84.0}
SEPARATION, ADVANCE_CAM = 110.0, 2.0
# Straight up, the peaks stand half the separation either side of the cam's own zero.
PEAK = {
    "intake": SEPARATION / 2 - ADVANCE_CAM,
    "exhaust": -SEPARATION / 2 - ADVANCE_CAM,
}


def lobe_lift(valve, cam_degrees):
    """Tappet rise of a symmetric lobe at an angle of the camshaft."""
    away = (cam_degrees - PEAK[valve] + 180) % 360 - 180
    half = HALF_BASE[valve]
    return LIFT * math.cos(math.pi / 2 * away / half) ** 2 if abs(away) < half else 0.0


def crossing(valve, low, high):
    """Crank degrees, between two of them, at which the lobe passes the checking lift."""
    return brentq(lambda crank: lobe_lift(valve, crank / 2) - CHECK, low, high, xtol=1e-11)


@pytest.fixture(params=["intake", "exhaust"])
def valve(request):
    return request.param


@pytest.fixture
def readings(valve):
    """Opening and closing in crank degrees after top dead center, opening may be negative."""
    peak = 2 * PEAK[valve]
    half = 2 * HALF_BASE[valve]
    return crossing(valve, peak - half, peak), crossing(valve, peak, peak + half)


@pytest.mark.parametrize("turns", [0, 360, 720])
def test_duration_round_the_wheel(agree, eng, valve, readings, turns):
    opening, closing = readings
    wheel = opening % turns if turns else opening
    agree("CAM_DURATION", SOURCE, closing - opening, eng("CAM_DURATION", wheel, closing))


@pytest.mark.parametrize("turns", [0, 360, 720])
def test_centerline_round_the_wheel(agree, eng, valve, readings, turns):
    opening, closing = (r % turns if turns else r for r in readings)
    expected = 2 * PEAK["intake"] if valve == "intake" else -2 * PEAK["exhaust"]
    agree("LOBE_CENTERLINE", SOURCE, expected, eng("LOBE_CENTERLINE", valve, opening, closing))


def test_events(agree, eng, valve, readings):
    opening, closing = readings
    duration = eng("CAM_DURATION", opening, closing)
    center = eng("LOBE_CENTERLINE", valve, opening, closing)
    if valve == "intake":
        agree("INTAKE_OPENING", SOURCE, -opening, eng("INTAKE_OPENING", duration, center))
        agree("INTAKE_CLOSING", SOURCE, closing - 180, eng("INTAKE_CLOSING", duration, center))
    else:
        agree("EXHAUST_OPENING", SOURCE, -180 - opening, eng("EXHAUST_OPENING", duration, center))
        agree("EXHAUST_CLOSING", SOURCE, closing, eng("EXHAUST_CLOSING", duration, center))


def test_overlap_is_the_arc_with_both_valves_open(agree, eng):
    opening = crossing("intake", 2 * (PEAK["intake"] - HALF_BASE["intake"]), 2 * PEAK["intake"])
    closing = crossing("exhaust", 2 * PEAK["exhaust"], 2 * (PEAK["exhaust"] + HALF_BASE["exhaust"]))
    step = 0.01
    turn = [k * step for k in range(-36000, 36000)]
    both = np.count_nonzero(
        [min(lobe_lift(v, a / 2) for v in ("intake", "exhaust")) > CHECK for a in turn]
    )
    agree(
        "VALVE_OVERLAP",
        BOTH_UP,
        both * step,
        eng("VALVE_OVERLAP", -opening, closing),
        abs=2 * step,
    )


def test_separation_and_advance_are_those_of_the_camshaft(agree, eng):
    intake, exhaust = 2 * PEAK["intake"], -2 * PEAK["exhaust"]
    separation = eng("LOBE_SEPARATION", intake, exhaust)
    agree("LOBE_SEPARATION", SOURCE, SEPARATION, separation)
    agree("CAM_ADVANCE", SOURCE, 2 * ADVANCE_CAM, eng("CAM_ADVANCE", separation, intake))
