"""Forms that correct a measured power: older ones, DIN 70020, ISO 1585 for compression ignition.

No standard was seen: forms are as others quote them, what is missing there is from memory. What
the forms with a square root mean, air that flows as fast as sound, is worked out by real air.
"""

import math

import pytest
from CoolProp.CoolProp import PropsSI
from scipy.optimize import minimize_scalar
from sources import from_memory, independent

OLDER = from_memory("older form of 29.92 inHg and 60 F", "examples as an article quotes them")
DIN = from_memory("DIN 70020", "formula as German texts quote it")
ISO = from_memory("ISO 1585", "compression ignition, exponents")


@pytest.mark.parametrize(
    ("inches", "fahrenheit", "humidity", "factor"),
    [(28.85, 85, 0.85, 1.1005), (30.10, 55, 0.35, 0.994)],
)
def test_the_older_form(agree, eng, inches, fahrenheit, humidity, factor):
    # The article rounds its vapor pressures.
    ((got, mark),) = eng("POWER_CORRECTION", "29.92 inHg 60 F", inches, fahrenheit, humidity)
    agree("POWER_CORRECTION", OLDER, factor, got, rel=8e-4)
    assert mark == "no range known"


def test_din_70020(agree, eng):
    ((got, _),) = eng("POWER_CORRECTION", "DIN 70020", 98.0, 28, 0.5, "metric")
    agree("POWER_CORRECTION", DIN, 1.0477, got, abs=5e-5)


@pytest.mark.parametrize(("charging", "factor"), [("natural", 1.0314), ("boosted", 1.0383)])
def test_iso_1585_compression_ignition(agree, eng, charging, factor):
    # Dry air of 95 kPa at 308 K, 45 mg per cycle and liter: 1.35 g/s for 1 l at 3600 rpm.
    air = (charging, 95, 35, 0)
    ((got, mark),) = eng("DIESEL_CORRECTION", *air, "1.35 g/s", 1000, 3600, 1, 4, "metric")
    agree("DIESEL_CORRECTION", ISO, factor, got, abs=5e-5)
    assert mark == "in the range of the standard"


def choked(pascal, kelvin):
    """The most dry air that an opening passes from a still room, kg/s for 1 m2."""
    entropy = PropsSI("S", "P", pascal, "T", kelvin, "Air")
    still = PropsSI("H", "P", pascal, "T", kelvin, "Air")

    def less(pressure):
        at = ("P", pressure, "S", entropy, "Air")
        return -PropsSI("D", *at) * math.sqrt(2 * max(still - PropsSI("H", *at), 0.0))

    return -minimize_scalar(less, bounds=(0.3 * pascal, 0.9 * pascal), method="bounded").fun


@pytest.mark.parametrize(
    ("form", "standard"), [("DIN 70020", (101.3e3, 293)), ("29.92 inHg 60 F", (101320.75, 288.71))]
)
@pytest.mark.parametrize(("kilopascal", "celsius"), [(98, 28), (90, 40), (103, 2)])
def test_forms_by_air_at_the_speed_of_sound(agree, eng, form, standard, kilopascal, celsius):
    expected = choked(*standard) / choked(kilopascal * 1e3, celsius + 273.15)
    source = independent("real air through a choked opening", PropsSI, minimize_scalar)
    ((got, _),) = eng("POWER_CORRECTION", form, kilopascal, celsius, 0, "metric")
    agree("POWER_CORRECTION", source, expected, got, rel=1.5e-3)
