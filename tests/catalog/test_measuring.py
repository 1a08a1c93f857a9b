"""Size at the reference temperature, uncertainty of a clearance, verdict with a guard band."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_a_warm_iron_bore_is_smaller_than_it_reads(eng):
    cold = eng("SIZE_AT_REFERENCE", 101.6, 30, "gray iron", 20, "steel", "metric")
    assert 101.6 - cold == pytest.approx(0.0116, abs=2e-4)
    inch = eng("SIZE_AT_REFERENCE", 4.0, 86, "gray iron")
    assert inch * 25.4 == pytest.approx(cold)
    assert eng("SIZE_AT_REFERENCE", 4.0, "30 C", "gray iron") == pytest.approx(inch)


def test_a_steel_part_and_a_steel_gauge_at_one_temperature_need_nothing(eng):
    assert eng("SIZE_AT_REFERENCE", 62.2, 31, "steel", 31, "steel", "metric") == pytest.approx(62.2)
    assert eng("SIZE_AT_REFERENCE", 62.2, 20, "aluminum", 20, "steel", "metric") == pytest.approx(
        62.2
    )


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("SIZE_AT_REFERENCE", (4, 700, "steel"), "part_temperature"),
        ("SIZE_AT_REFERENCE", (0, 70, "steel"), "size"),
        ("SIZE_AT_REFERENCE", (4, 70, "cheese"), "material"),
        ("CLEARANCE_UNCERTAINTY", (-0.0001, 0.0002), "hole_uncertainty"),
        ("GUARDED_VERDICT", (0.002, 0.003, 0.001, 0), "low"),
        ("GUARDED_VERDICT", (0.002, 0.001, 0.003, -0.0001), "uncertainty"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter


@pytest.mark.parametrize("value", [0.0014, 0.0015, 0.002, 0.0025, 0.0026])
def test_without_uncertainty_it_is_the_plain_verdict(eng, value):
    band = (value, 0.0015, 0.0025)
    assert eng("GUARDED_VERDICT", *band, 0) == eng("VERDICT", *band)


def test_a_band_narrower_than_the_uncertainty_proves_nothing_right(eng):
    assert eng("GUARDED_VERDICT", 0.0020, 0.0015, 0.0025, 0.0006) == "cannot tell"
    assert eng("GUARDED_VERDICT", 0.0008, 0.0015, 0.0025, 0.0006) == "low"
