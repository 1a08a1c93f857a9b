"""The skirt at the lowest point of its path, found by scipy from the crank's geometry."""

import math

import pytest
from scipy.optimize import minimize_scalar
from sources import independent

SOURCE = independent("lowest point of the pin's path", minimize_scalar)


@pytest.mark.parametrize(
    ("deck_height", "throw", "rod", "height", "below_pin", "sleeve"),
    [(221.0, 43.0, 145.0, 33.2, 22.0, 118.0), (228.6, 50.8, 152.4, 25.2, 19.5, 139.7)],
)
def test_exposure(agree, eng, deck_height, throw, rod, height, below_pin, sleeve):
    def pin(angle):
        return throw * math.cos(angle) + math.sqrt(rod**2 - (throw * math.sin(angle)) ** 2)

    lowest = minimize_scalar(pin, bounds=(2, 4), method="bounded", options={"xatol": 1e-9}).fun
    expected = (deck_height - sleeve) - (lowest - below_pin)
    deck_clearance = eng("DECK_CLEARANCE", deck_height, 2 * throw, rod, height, "metric")
    got = eng("SKIRT_EXPOSURE", deck_clearance, 2 * throw, height + below_pin, sleeve, "metric")
    agree("SKIRT_EXPOSURE", SOURCE, expected, got, abs=1e-8)
