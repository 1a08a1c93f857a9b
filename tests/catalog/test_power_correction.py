"""Power corrections: the mark beside the factor, and what is refused all the same."""

import pytest

from workbook_tools.catalog import ArgumentError

INSIDE, OUTSIDE = "in the range of the standard", "outside the range of the standard"


@pytest.mark.parametrize("form", ["SAE J1349", "ISO 1585"])
def test_inside_the_range_it_is_the_standards_factor(eng, form):
    air = (form, 99, 25, 0.4, "metric")
    ((factor, mark),) = eng("POWER_CORRECTION", *air)
    assert factor == eng("WEATHER_CORRECTION", *air)
    assert mark == INSIDE


@pytest.mark.parametrize(
    ("form", "kilopascal", "celsius", "humidity"),
    [
        ("SAE J1349", 99, 8, 0.4),
        ("SAE J1349", 99, 39, 0.4),
        ("SAE J1349", 84, 25, 0.4),
        ("SAE J1349", 108, 25, 0),
        ("ISO 1585", 91, 33, 0.8),
        ("ISO 1585", 99, 40, 0.4),
    ],
)
def test_outside_the_range_there_is_a_factor_with_a_mark(eng, form, kilopascal, celsius, humidity):
    air = (form, kilopascal, celsius, humidity, "metric")
    with pytest.raises(ArgumentError):
        eng("WEATHER_CORRECTION", *air)
    ((factor, mark),) = eng("POWER_CORRECTION", *air)
    assert 0.85 < factor < 1.25
    assert mark == OUTSIDE


def test_a_form_must_be_named(eng):
    with pytest.raises(ArgumentError, match='form: expected one of "sae j1349", "iso 1585"'):
        eng("POWER_CORRECTION", "best", 29.1, 84, 0.4)


def diesel(eng, fuel, **changed):
    given = {"charging": "natural", "kilopascal": 95, "celsius": 30} | changed
    air = (given["charging"], given["kilopascal"], given["celsius"], 0.3)
    more = given.get("more", (1, 4))
    return eng("DIESEL_CORRECTION", *air, fuel, 6000, 2400, *more, "metric")[0]


def test_the_engine_factor_ends_where_the_standard_ends_it(eng):
    lean, leaner = diesel(eng, 10)[0], diesel(eng, 5)[0]
    rich, richer = diesel(eng, 40)[0], diesel(eng, 50)[0]
    assert lean == leaner
    assert rich == richer
    assert 1 < lean < rich


def test_a_diesel_outside_the_range_is_marked(eng):
    assert diesel(eng, 20)[1] == INSIDE
    assert diesel(eng, 20, celsius=45)[1] == OUTSIDE
    assert diesel(eng, 45, kilopascal=82)[1] == OUTSIDE


@pytest.mark.parametrize(
    ("fuel", "more", "words"),
    [
        (1000, (1, 4), "fuel_flow: expected a flow of 300 mg per cycle"),
        (20, (0.8, 4), "boost_ratio: expected a ratio from 1 to 10, got 0.8"),
        (20, (1, 3), "strokes: expected 4 or 2, got 3"),
    ],
)
def test_a_diesel_that_cannot_be(eng, fuel, more, words):
    with pytest.raises(ArgumentError, match=words):
        diesel(eng, fuel, more=more)
