"""Air and water by CoolProp: vapor pressure, density of moist air, speed of sound."""

import pytest
from CoolProp.CoolProp import PropsSI
from CoolProp.HumidAirProp import HAPropsSI
from each_case import each
from sources import independent

from workbook_tools.catalog import find


@pytest.mark.parametrize("celsius", [0.01, 10, 15, 20, 25, 30, 35, 40, 60])
def test_saturation_over_water(agree, eng, celsius):
    expected = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water") / 1000
    got = eng("VAPOR_PRESSURE", celsius, 1, "metric")
    agree("VAPOR_PRESSURE", independent("IAPWS-95", PropsSI), expected, got, rel=1e-3)


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "humidity"),
    [(101.325, 15, 0.0), (98.0, 30, 0.5), (95.0, 35, 0.8), (84.0, 20, 0.2), (101.3, 5, 0.6)],
)
def test_density_of_moist_air(agree, eng, kilopascal, celsius, humidity):
    state = ("T", celsius + 273.15, "P", kilopascal * 1000, "R", humidity)
    # Volume of moist air for one kilogram of it, water included.
    expected = 1 / HAPropsSI("Vha", *state)
    got = eng("AIR_DENSITY", kilopascal, celsius, humidity, "metric")
    agree("AIR_DENSITY", independent("real moist air", HAPropsSI), expected, got, rel=1e-3)


@each("celsius", [-10, 20, 60])
@each("kilopascal", [60, 80, 101.325])
@each("humidity", [0, 0.5, 1])
def test_density_is_as_near_as_its_help_tells(eng, kilopascal, celsius, humidity):
    state = ("T", celsius + 273.15, "P", kilopascal * 1000, "R", humidity)
    real = 1 / HAPropsSI("Vha", *state)
    got = eng("AIR_DENSITY", kilopascal, celsius, humidity, "metric")
    assert got == pytest.approx(real, rel=1.5e-3)
    assert "within 0.15 % of real moist air" in find("AIR_DENSITY").validity


@pytest.mark.parametrize("celsius", [0, 25, 60])
def test_mach_index_by_the_speed_of_sound(agree, eng, celsius):
    # Bore 86 mm, one valve of 44 mm, mean flow coefficient 0.35, 17.2 m/s of mean piston speed.
    sound = PropsSI("A", "T", celsius + 273.15, "P", 101325, "Air")
    expected = (86 / 44) ** 2 * 17.2 / (0.35 * sound)
    got = eng("INLET_MACH_INDEX", 86, 86, 6000, 44, 1, 0.35, celsius, "metric")
    agree(
        "INLET_MACH_INDEX", independent("speed of sound in air", PropsSI), expected, got, rel=1e-3
    )


def test_mach_index_of_a_mild_day_if_left_out(agree, eng):
    # The same cylinder at 77 deg F.
    sound = PropsSI("A", "T", 298.15, "P", 101325, "Air")
    expected = (86 / 44) ** 2 * 17.2 / (0.35 * sound)
    got = eng("INLET_MACH_INDEX", "86 mm", "86 mm", 6000, "44 mm", 1, 0.35)
    source = independent("speed of sound in air", PropsSI)
    agree("INLET_MACH_INDEX", source, expected, got, rel=1e-3)


def test_volumetric_efficiency_from_a_mass_flow(agree, eng):
    # 0.1 kg/s through 2 liters at 6000 rpm, four-stroke: 2 m / (density V N).
    density = 1 / HAPropsSI("Vha", "T", 298.15, "P", 100000, "R", 0.4)
    expected = 2 * 0.1 / (density * 2e-3 * 100)
    flow = 0.1 / eng("AIR_DENSITY", 100, 25, 0.4, "metric") * 60
    got = eng("VOLUMETRIC_EFFICIENCY", flow, 2000, 6000, 4, "metric")
    source = independent("mass of air drawn, moist air of CoolProp", HAPropsSI)
    agree("VOLUMETRIC_EFFICIENCY", source, expected, got, rel=1e-3)
