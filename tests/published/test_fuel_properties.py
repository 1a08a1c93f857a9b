"""Fuels: a public table, the atom balance solved as linear equations, and nozzles of a textbook."""

import math

import numpy
import pytest
from CoolProp.CoolProp import PropsSI
from fluids.flow_meter import differential_pressure_meter_solver
from sources import COMPANIONS, arithmetic, from_memory, independent, printed

ENERGY = printed(
    "US Department of Energy, Alternative Fuels Data Center, Properties of Fuels", "Table 2"
)
BALANCE = independent("atom balance as linear equations", numpy.linalg.solve)
MASSES = independent("atom balance as linear equations", numpy.linalg.solve, PropsSI)
GUPTA = printed(
    "H. N. Gupta, Fundamentals of Internal Combustion Engines", "Ex. 10.1, p. 332", COMPANIONS
)
ORIFICE = independent("orifice of ISO 5167", differential_pressure_meter_solver)
LEAN = from_memory("hobby tables of nitromethane", "air-fuel ratio 1.7")


@pytest.mark.parametrize(
    ("fuel", "heat", "density", "ratio"),
    [
        ("gasoline", 18676, 6.216, 14.7),
        ("diesel", 18394, 6.983, 14.7),
        ("methanol", 8637, 6.628, None),
        ("ethanol", 11585, 6.589, 9.0),
        ("propane", 19900, 4.234, None),
    ],
)
def test_the_table_of_the_department_of_energy(agree, eng, fuel, heat, density, ratio):
    # Btu/lb and lb per US gallon of 231 cu in.
    agree("FUEL_HEATING_VALUE", ENERGY, heat, eng("FUEL_HEATING_VALUE", fuel), rel=0.01)
    agree("FUEL_DENSITY", ENERGY, density * 1728 / 231, eng("FUEL_DENSITY", fuel), rel=1e-3)
    if ratio:
        got = eng("STOICHIOMETRIC_RATIO", fuel)
        agree("STOICHIOMETRIC_RATIO", ENERGY, ratio, got, rel=0.015)


def oxygen(c, h, o, n):
    """Mols of O2, CO2, H2O and N2 for a mol of fuel, the first taken from the air."""
    #              O2   CO2  H2O  N2
    elements = [
        [0, -1, 0, 0],  # C
        [0, 0, -2, 0],  # H
        [2, -2, -1, 0],  # O
        [0, 0, 0, -2],  # N
    ]
    return numpy.linalg.solve(numpy.array(elements, float), [-c, -h, -o, -n])[0]


@pytest.mark.parametrize(
    ("fuel", "atoms"),
    [
        ("ethanol", (2, 6, 1, 0)),
        ("methanol", (1, 4, 1, 0)),
        ("propane", (3, 8, 0, 0)),
        ("butane", (4, 10, 0, 0)),
    ],
)
def test_the_atom_balance_of_one_substance(agree, eng, fuel, atoms):
    mass = PropsSI("M", fuel if fuel != "butane" else "n-Butane")
    expected = oxygen(*atoms) / 0.2095 * PropsSI("M", "Air") / mass
    agree("STOICHIOMETRIC_RATIO", MASSES, expected, eng("STOICHIOMETRIC_RATIO", fuel), rel=5e-4)


@pytest.mark.parametrize(
    ("fuel", "atoms"),
    [("gasoline", (1, 1.87, 0, 0)), ("diesel", (1, 1.8, 0, 0)), ("nitromethane", (1, 3, 2, 1))],
)
def test_the_atom_balance_by_atomic_masses(agree, eng, fuel, atoms):
    mass = sum(n * m for n, m in zip(atoms, (12.011, 1.008, 15.999, 14.007), strict=True))
    expected = oxygen(*atoms) / 0.2095 * 28.9647 / mass
    agree("STOICHIOMETRIC_RATIO", BALANCE, expected, eng("STOICHIOMETRIC_RATIO", fuel), rel=5e-4)


def test_nitromethane_as_hobby_tables_have_it(agree, eng):
    agree("STOICHIOMETRIC_RATIO", LEAN, 1.7, eng("STOICHIOMETRIC_RATIO", "nitromethane"), rel=1e-2)


def test_a_blend_burns_what_its_parts_burn(agree, eng):
    # A liter: 150 cc of gasoline and 850 cc of ethanol, each with its own mass of air.
    grams = numpy.array([0.150 * 745, 0.850 * 789.5])
    expected = grams @ [eng("STOICHIOMETRIC_RATIO", f) for f in ("gasoline", "ethanol")]
    got = eng("STOICHIOMETRIC_RATIO", "gasoline", "ethanol", 0.85)
    agree("STOICHIOMETRIC_RATIO", arithmetic("masses of a liter"), expected / grams.sum(), got)
    assert got == pytest.approx(9.80, abs=0.005)


def test_injectors_of_a_textbook(agree, eng):
    # 0.3 kg/kWh, 250 kW, six cylinders, 1500 rpm, open over 15 deg of 720; 340 bar, 850 kg/m3,
    # coefficient 0.65: holes of 1.067 mm2 together, four of 0.583 mm.
    duty = 15 / 720
    size = eng("INJECTOR_SIZE", 75, 6, duty, 850, "metric")
    speed = 0.65 * math.sqrt(2 * 340e5 / 850)
    agree("INJECTOR_SIZE", GUPTA, 1.067, size / 60 / speed, rel=1e-3)
    printed_size = 1.067 * speed * 60
    got = eng("INJECTOR_DUTY", 75, 6, printed_size, 850, "metric")
    agree("INJECTOR_DUTY", GUPTA, duty, got, rel=1e-3)


def test_flow_at_another_pressure(agree, eng):
    def flow(bar):
        # Water through 3 mm in a pipe of 30 mm; the coefficient hangs a little on the speed.
        return differential_pressure_meter_solver(
            D=0.03, D2=0.003, P1=bar * 1e5 + 1e5, P2=1e5, rho=998.0, mu=1e-3, k=1.3,
            meter_type="ISO 5167 orifice", taps="corner", epsilon_specified=1.0,
        )  # fmt: skip

    got = eng("INJECTOR_FLOW_AT", 440, "3 bar", "4 bar")
    agree("INJECTOR_FLOW_AT", ORIFICE, 440 * flow(4) / flow(3), got, rel=2e-3)
    assert got == pytest.approx(508.07, abs=0.01)


def test_worked_by_hand(agree, eng):
    agree("LAMBDA_FROM_RATIO", arithmetic(), 0.85, eng("LAMBDA_FROM_RATIO", 12.495, 14.7))
    # 93 lb/h of 46.5 lb/cu ft are 2 cu ft/h: 14.961 US gal/h, half as much again 22.442.
    got = eng("PUMP_FLOW", 93, 46.5, 1.5)
    agree("PUMP_FLOW", arithmetic(), 3 * 1728 / 231, got)
