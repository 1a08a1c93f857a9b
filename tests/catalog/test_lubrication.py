"""Oil film and relief valve: where they end, and which way they go."""

import pytest

from workbook_tools.catalog import ArgumentError

BEARING = {"load": 8000, "journal": 54, "length": 19, "clearance": 0.05, "oil": 8, "rpm": 6000}


def film(eng, **changes):
    return eng("FILM_THICKNESS", *(BEARING | changes).values(), "metric")


def test_film_follows_load_speed_oil_and_length(eng):
    film_now = film(eng)
    assert film(eng, load=12000) < film_now < film(eng, load=5000)
    assert film(eng, rpm=3000) < film_now < film(eng, rpm=8000)
    assert film(eng, oil=5) < film_now < film(eng, oil=15)
    assert film(eng, length=16) < film_now < film(eng, length=22)


def test_film_and_eccentricity_make_up_the_clearance(eng):
    off = eng("FILM_ECCENTRICITY", *BEARING.values(), "metric")
    assert film(eng) == pytest.approx(0.025 * (1 - off), rel=1e-12)


def test_beyond_the_table_there_is_no_answer(eng):
    words = r"load: expected a steady load that leaves a film with this viscosity.*peak loads.*0.97"
    with pytest.raises(ArgumentError, match=words):
        film(eng, load=500000)
    with pytest.raises(ArgumentError, match="bearing_length: expected no longer than"):
        film(eng, length=60)
    with pytest.raises(ArgumentError, match="clearance: expected 2 % of the journal at most"):
        film(eng, clearance=1.1)
    with pytest.raises(ArgumentError, match="clearance: expected 2 % of the journal at most"):
        eng("SOMMERFELD_NUMBER", *(BEARING | {"clearance": 1.1}).values(), "metric")


def test_units_of_viscosity(eng):
    poise = eng("SOMMERFELD_NUMBER", 500, 1.5, 1.5, 0.003, 27.579, 1800)
    reyn = eng("SOMMERFELD_NUMBER", 500, 1.5, 1.5, 0.003, "4e-6 reyn", 1800)
    assert poise == pytest.approx(reyn, rel=1e-5)
    with pytest.raises(ArgumentError, match="viscosity: expected a viscosity"):
        eng("SOMMERFELD_NUMBER", 500, 1.5, 1.5, 0.003, "4 psi", 1800)


@pytest.mark.parametrize("oil", [0.010, "0.010 cP", 0, 1500, "2 Pa.s", "1e-8 reyn"])
def test_a_viscosity_in_another_unit_is_blamed_and_not_the_load(eng, oil):
    # 0.010 is that of warm oil in Pa.s.
    with pytest.raises(ArgumentError, match=r"viscosity: expected a viscosity from 0\.5"):
        film(eng, oil=oil)
    assert film(eng, oil="0.010 Pa.s") == film(eng, oil=10)
    assert film(eng, oil=1000) > film(eng, oil=15)


def test_the_shim_brings_the_wanted_pressure(eng):
    # 0.5 in plunger, 20 lbf/in: the spring gains rate times shim.
    load = 10.8
    pressure = eng("RELIEF_PRESSURE", load, 0.5)
    shim = eng("RELIEF_SHIM", pressure, 65, 20, 0.5)
    assert eng("RELIEF_PRESSURE", load + 20 * shim, 0.5) == pytest.approx(65, rel=1e-12)
