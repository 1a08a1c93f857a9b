"""Valve springs: refusals, signs, unit systems."""

import pytest

from workbook_tools.catalog import ArgumentError


@pytest.mark.parametrize(
    ("arguments", "blamed"),
    [((76, 1.32, 220, 1.80), "open_height"), ((220, 1.80, 76, 1.32), "open_load")],
)
def test_readings_the_wrong_way_round_are_refused(eng, arguments, blamed):
    with pytest.raises(ArgumentError, match=f"^{blamed}: expected"):
        eng("SPRING_RATE", *arguments)


def test_loads_are_forces_however_they_are_written(eng):
    assert eng("SPRING_RATE", "76 lb", "1.80 in", "220 lbf", 1.32) == pytest.approx(300)
    with pytest.raises(ArgumentError, match=r"installed_load: .*not a unit of force"):
        eng("SPRING_RATE", "76 psi", 1.80, 220, 1.32)


def test_a_coil_wound_tighter_than_its_wire_is_refused(eng):
    with pytest.raises(ArgumentError, match="mean_diameter"):
        eng("SPRING_RATE_FROM_WIRE", 0.200, 0.400, 5, 11.2e6)
    assert eng("SPRING_RATE_FROM_WIRE", 0.200, 0.410, 5, 11.2e6) > 0


@pytest.mark.parametrize(
    ("wire", "coil", "modulus", "system"), [(0.2, 1.0, 11.2, "inch"), (5, 25, 79.3, "metric")]
)
def test_a_modulus_in_another_unit_is_refused(eng, wire, coil, modulus, system):
    with pytest.raises(ArgumentError, match="shear_modulus: expected that of a spring wire"):
        eng("SPRING_RATE_FROM_WIRE", wire, coil, 5, modulus, system)


def test_an_unknown_wire_is_refused_with_the_choice(eng):
    with pytest.raises(ArgumentError, match='wire: expected one of "chrome silicon"'):
        eng("SHEAR_MODULUS", "rubber")


def test_a_spring_shorter_than_its_solid_height_is_refused(eng):
    with pytest.raises(ArgumentError, match="coil_bind_height"):
        eng("COIL_BIND_MARGIN", 1.150, 1.240, 0.1)


def test_coils_that_would_bind_read_negative(eng):
    assert eng("COIL_BIND_MARGIN", 1.800, 1.240, 0.600) == pytest.approx(-0.040)


def test_a_shim_cannot_lengthen(eng):
    assert eng("SPRING_SHIM", 1.850, 1.850) == 0
    with pytest.raises(ArgumentError, match="a shim cannot make the spring taller"):
        eng("SPRING_SHIM", 1.820, 1.850)


def test_more_active_coils_than_coils_are_refused(eng):
    with pytest.raises(ArgumentError, match="active_coils: expected no more than the total coils"):
        eng("SPRING_SURGE", 300, 110, 7, 6)


def test_surge_is_the_same_in_both_systems(eng):
    inch = eng("SPRING_SURGE", "40 N/mm", 110, 5, 7)
    metric = eng("SPRING_SURGE", "40 N/mm", 110, 5, 7, "metric")
    assert inch == pytest.approx(metric)
