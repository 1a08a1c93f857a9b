"""What to order: the size searched by scipy until the engine comes out as wanted."""

import cmath
import math

import pytest
from scipy.optimize import brentq, minimize_scalar
from sources import independent


@pytest.mark.parametrize(
    ("ratio", "static", "stroke", "rod"),
    [(8.1, 10.2, 88.4, 151), (7.2, 9.5, 79, 130.5), (9.6, 9.9, 103, 160)],
)
def test_closing_searched_by_the_volume_trapped(agree, eng, ratio, static, stroke, rod):
    # The rod as a stiff link between the crank pin on its circle and the pin on the bore's axis.
    def pin(crank):
        throw = stroke / 2 * cmath.exp(1j * crank)
        return brentq(lambda x: abs(x - throw) - rod, throw.real, 2 * (rod + stroke), xtol=1e-13)

    clearance = stroke / (static - 1)

    def trapped(degrees):
        room = pin(0) - pin(math.pi + math.radians(degrees)) + clearance
        return room / clearance - ratio

    closing = brentq(trapped, 0, 179, xtol=1e-12)
    got = eng("CLOSING_FOR_DYNAMIC_RATIO", ratio, static, stroke, rod, "metric")
    source = independent("crank turned until the wanted volume is trapped", brentq)
    agree("CLOSING_FOR_DYNAMIC_RATIO", source, closing, got, rel=1e-8)
    assert eng("DYNAMIC_RATIO", static, stroke, rod, got, 0, "metric") == pytest.approx(ratio)


@pytest.mark.parametrize("deck", [-0.15, 0.0, 0.42])
def test_piston_searched_for_a_deck_clearance(agree, eng, deck):
    height, stroke, rod = 236.7, 89.9, 152.4

    def crown_below_deck(compression_height):
        # The highest place of the crown in a turn.
        def low(crank):
            throw = stroke / 2 * cmath.exp(1j * crank)
            return -(throw.real + math.sqrt(rod**2 - throw.imag**2))

        top = -minimize_scalar(low, bounds=(-1, 1), options={"xatol": 1e-9}).fun
        return height - top - compression_height

    found = brentq(lambda x: crown_below_deck(x) - deck, 10, 90, xtol=1e-12)
    got = eng("COMPRESSION_HEIGHT_FOR_DECK", deck, height, stroke, rod, "metric")
    source = independent("crown's highest place searched", brentq, minimize_scalar)
    agree("COMPRESSION_HEIGHT_FOR_DECK", source, found, got, rel=1e-8)
    back = eng("DECK_CLEARANCE", height, stroke, rod, got, "metric")
    assert back == pytest.approx(deck, abs=1e-9)


@pytest.mark.parametrize(("separation", "advance"), [(110, 4), (106, 0), (113.5, -2.5)])
def test_peaks_of_two_lobes_on_one_camshaft(agree, eng, separation, advance):
    # Lobes half the separation to each side of the mark that stands up at the overlap's dead
    # center; the camshaft turns at half speed and is set forward by the advance.
    def peak(lobe, start, end):
        def lift(crank):
            cam = crank / 2 + advance / 2
            return -math.cos(math.radians(cam - lobe))

        return minimize_scalar(lift, bounds=(start, end), options={"xatol": 1e-9}).x

    source = independent("highest lift searched", minimize_scalar)
    intake = peak(separation / 2, 0, 250)
    agree("INTAKE_CENTERLINE", source, intake, eng("INTAKE_CENTERLINE", separation, advance),
          abs=1e-5)  # fmt: skip
    exhaust = -peak(-separation / 2, -250, 0)
    agree("EXHAUST_CENTERLINE", source, exhaust, eng("EXHAUST_CENTERLINE", separation, advance),
          abs=1e-5)  # fmt: skip
    assert eng("CAM_ADVANCE", separation, eng("INTAKE_CENTERLINE", separation, advance)) == (
        pytest.approx(advance, abs=1e-9)
    )


@pytest.mark.parametrize("deck", [-0.1, 0.0, 0.4])
def test_gasket_searched_for_a_ratio(agree, eng, deck):
    bore, stroke, opening = 86.0, 86.0, 87.5

    def ratio(gasket):
        room = 44 + 3 + math.pi / 4 * (bore**2 * deck + opening**2 * gasket) / 1000
        return 1 + math.pi / 4 * bore**2 * stroke / 1000 / room

    found = brentq(lambda x: ratio(x) - 9.4, 0.01, 5, xtol=1e-12)
    ((gasket, quench),) = eng(
        "GASKET_WITH_QUENCH", 9.4, math.pi / 4 * bore**2 * stroke / 1000, 44, bore, deck, opening,
        3, "metric",
    )  # fmt: skip
    source = independent("gasket searched until the ratio is met", brentq)
    agree("GASKET_WITH_QUENCH", source, found, gasket, rel=1e-9)
    agree("GASKET_WITH_QUENCH", source, found + deck, quench, rel=1e-9)
