"""ISO 21940-11:2016, permissible residual unbalance (its formula as quoted elsewhere)."""

import pytest

SOURCE = "ISO 21940-11:2016, as quoted: U = 9549 G m / n"


@pytest.mark.parametrize(
    ("grade", "kilograms", "rpm"),
    [(6.3, 2, 10000), (16, 25, 7000), (2.5, 12, 8000), (40, 18, 3000)],
)
def test_permissible_unbalance(agree, eng, grade, kilograms, rpm):
    # g.mm, with the rounded 9549 of the usual form.
    got = eng("PERMISSIBLE_UNBALANCE", kilograms * 1000, rpm, grade, "metric")
    agree("PERMISSIBLE_UNBALANCE", SOURCE, 9549 * grade * kilograms / rpm, got, rel=1e-4)


@pytest.mark.parametrize(
    ("grade", "speed", "micrometers"), [(2.5, 3000, 7.958), (16, 6000, 25.465)]
)
def test_unbalance_is_mass_times_the_permissible_offset(agree, eng, grade, speed, micrometers):
    # Offset in micrometers = 1000 * grade / omega: of a rotor of 10 kg, ten times it in g.mm.
    source = "ISO 21940-11:2016, e = 1000 G / omega"
    got = eng("PERMISSIBLE_UNBALANCE", 10000, speed, grade, "metric")
    agree("PERMISSIBLE_UNBALANCE", source, 10 * micrometers, got, rel=1e-4)
    got = eng("UNBALANCE", 10000, f"{micrometers} um", "metric")
    agree("UNBALANCE", source, 10 * micrometers, got)
