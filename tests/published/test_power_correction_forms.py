"""Forms that correct a measured power: older ones, DIN 70020, ISO 1585 for compression ignition.

No standard was seen: forms are as others quote them, what is missing there is from memory. The
two examples of the older form are an article's own, with the factors that it prints.
"""

import pytest
from sources import from_memory, printed

OLDER = printed("Corrected Horsepower, a public article", "Examples 1 and 2 (29.92 inHg, 60 F)")
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
