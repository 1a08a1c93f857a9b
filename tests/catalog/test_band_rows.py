"""Rows for rings, pistons, bearings and bolts: in order, honest about where they come from."""

from pathlib import Path

import pytest
from each_case import each

from workbook_tools.catalog import ArgumentError, find, tables
from workbook_tools.catalog.tables_shown import rests_on
from workbook_tools.measurands import all_measurands

BANDS = list(tables.read_tables().bands.values())
USES = tables.read_tables().uses
ORIGINS = (
    "common practice, no source",
    "makers' service ranges of ",
    "makers' service data of ",
    "ISO ",
    "SAE ",
    "Shigley, ",
)
FUELS = (
    "atom balance of ",
    "US Department of Energy, ",
    "enthalpy of formation ",
    "common handbook ",
)
PISTONS = ("hypereutectic", "cast", "forged 4032", "forged 2618")


@each("band", BANDS)
def test_row(band):
    said = band.origin.removeprefix("the camshaft maker's figure comes first; ")
    assert said.startswith(FUELS if "fuel" in dict(band.conditions) else ORIGINS), band.origin
    use = dict(band.conditions).get("use")
    assert use is None or use in USES


def test_the_second_ring_has_no_less_gap_than_the_top_one_in_unboosted_engines():
    for use in ("street", "modified", "race", "road race", "marine", "diesel"):
        top = tables.factor("ring gap factor", use=use, ring="top")
        assert tables.factor("ring gap factor", use=use, ring="second") >= top


@each("use", USES)
def test_every_word_for_a_use_is_taken_by_every_table(eng, use):
    for piston in PISTONS:
        (low, high, _), *_ = eng("PISTON_CLEARANCE_BAND", 90, use, piston, "metric")
        assert 0 < low < high
    for ring in ("top", "second"):
        (low, high, _), *_ = eng("RING_GAP_BAND", 90, use, ring, "metric")
        assert low <= 90 * eng("RING_GAP_FACTOR", use, ring) <= high
    (low, high, _), *_ = eng("BEARING_BAND", 60, use, "metric")
    assert low <= 60 * eng("BEARING_CLEARANCE_FACTOR", use) <= high
    for measured in find("BAND").parameters[0].choices:
        if (measured, use) != ("rod bearing clearance", "aluminum block"):
            (low, high, _), *_ = eng("BAND", measured, use, 60, "any", "metric")
            assert 0 < low < high


def test_the_general_function_gives_what_each_table_s_own_gives(eng):
    for use in USES:
        for size in (40.0, 62.0, 100.0):
            for piston in PISTONS:
                of_piston = eng("BAND", "piston clearance", use, size, piston, "metric")
                assert of_piston == eng("PISTON_CLEARANCE_BAND", size, use, piston, "metric")
            for ring in ("top", "second"):
                gap = eng("BAND", f"{ring} ring gap", use, size, "any", "metric")
                assert gap == eng("RING_GAP_BAND", size, use, ring, "metric")
            main = eng("BAND", "main bearing clearance", use, size, "any", "metric")
            assert main == eng("BEARING_BAND", size, use, "metric")


def test_a_row_that_stands_in_or_is_scaled_says_so(eng):
    assert eng("BEARING_BAND", 60, "street", "metric")[0][2] == "common practice, no source"
    assert eng("BEARING_BAND", 60, "modified", "metric")[0][2].endswith("; as for street")
    assert eng("BEARING_BAND", 30, "drag", "metric")[0][2].endswith(
        "; as for race; beyond the sizes that it comes from"
    )


def test_a_rod_has_no_band_of_an_aluminum_block(eng):
    with pytest.raises(
        ArgumentError, match='rods, such as "street": "aluminum block" is for mains'
    ):
        eng("BAND", "rod bearing clearance", "aluminum block", 2.1)
    assert "never for rods" in find("BEARING_BAND").parameters[1].help
    assert '"aluminum block" only for mains' in find("BEARING_BAND").validity


@pytest.mark.parametrize("use", ["street", "race", "road race", "boosted", "marine", "diesel"])
def test_a_forged_piston_needs_no_less_than_a_cast_one(eng, use):
    bands = [eng("PISTON_CLEARANCE_BAND", 100, use, p, "metric")[0] for p in PISTONS[1:]]
    lows = [low for low, _, _ in bands]
    assert lows == sorted(lows)
    if use != "street":  # An old rule gives cast pistons 0.001 in an inch and more.
        highs = [high for _, high, _ in bands]
        assert highs == sorted(highs) or use == "diesel"
    assert bands[-1][0] > bands[0][0]


def test_more_clearance_for_what_is_cooled_by_air(eng):
    for piston in PISTONS:
        for cooled, use in (("air cooled", "service"), ("air cooled two-stroke", "two-stroke")):
            hot = eng("PISTON_CLEARANCE_BAND", 60, cooled, piston, "metric")[0]
            wet = eng("PISTON_CLEARANCE_BAND", 60, use, piston, "metric")[0]
            assert hot[0] > wet[0]
            assert hot[1] > wet[1]


@pytest.mark.parametrize(
    ("measured", "made"),
    [("crank end play", "cast"), ("quench", "bucket"), ("piston clearance", "steel")],
)
def test_what_a_band_does_not_depend_on_is_refused(eng, measured, made):
    with pytest.raises(ArgumentError, match=f"made: expected .*any.*got '{made}'"):
        eng("BAND", measured, "street", 4, made)


def test_a_size_that_a_band_needs_is_asked_for(eng):
    with pytest.raises(ArgumentError, match="size: expected the diameter of the journal"):
        eng("BAND", "main bearing clearance", "street")
    assert eng("BAND", "crank end play", "street")[0][0] > 0


def test_what_has_a_band_is_a_measurand():
    known = {one.name.lower() for one in all_measurands()}
    assert set(find("BAND").parameters[0].choices) <= known


def test_uses_that_are_like_each_other_come_to_an_end():
    assert {use.like for use in USES.values()} <= set(USES)
    for use in USES:
        assert tables.has_band("crank end play", use=use)


def test_the_manual_counts_what_the_rows_rest_on():
    chapter = Path(__file__).parents[2] / "workbook_tools" / "manual" / "bands.md"
    text = " ".join(chapter.read_text("utf-8").split())
    count = {ground: int(n) for n, ground in (line.split(maxsplit=1) for line in grounds())}
    few = count["makers' service ranges of a few engines, widened"]
    fitted = count["makers' service ranges"]
    memory = count["common practice, no source, figures from memory"]
    said = count["common practice, no source, as the trade says it"]
    assert sum(count.values()) == len(BANDS)
    assert f"Of the {len(BANDS)} rows of bands {fitted + few} are fitted" in text
    assert f"{fitted} of them so that they hold" in text
    assert f"and {few} for kinds with three engines or fewer" in text
    assert f"{memory + said} are common practice without a source, {memory} of them with" in text
    seen = count["standards and handbooks"]
    remembered = count["standards and handbooks, from memory"]
    assert f"and {seen + remembered} are from standards and handbooks, {remembered} of" in text


def grounds():
    return [line.strip() for line in rests_on(tables.read_tables())]
