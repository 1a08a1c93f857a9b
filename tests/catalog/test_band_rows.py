"""Rows for rings, pistons, bearings and bolts: in order, honest about where they come from."""

import pytest

from workbook_tools.catalog import find, tables

TABLES = ("ring gap factor", "piston clearance factor", "bearing clearance factor", "proof stress")
BANDS = [band for band in tables.read_tables().bands.values() if band.table in TABLES]


@pytest.mark.parametrize("band", BANDS, ids=lambda b: f"{b.table}: {dict(b.conditions)}")
def test_row(band):
    assert band.origin.startswith(("common practice", "ISO ", "SAE ")), band.origin
    if None not in (band.low, band.factor, band.high):
        assert band.low <= band.factor <= band.high


def test_the_second_ring_has_no_less_gap_than_the_top_one_in_unboosted_engines():
    for use in ("street", "modified", "race", "road race", "marine", "diesel"):
        top = tables.factor("ring gap factor", use=use, ring="top")
        assert tables.factor("ring gap factor", use=use, ring="second") >= top


def test_the_help_says_which_pistons_the_table_has_for_a_use():
    rows = [dict(b.conditions) for b in BANDS if b.table == "piston clearance factor"]
    has = {row["use"]: {r["piston"] for r in rows if r["use"] == row["use"]} for row in rows}
    every = set().union(*has.values())
    forged = {piston for piston in every if piston.startswith("forged")}
    uses = {
        ("street", "boosted", "marine"): every,
        ("race", "road race"): forged,
        ("diesel", "air cooled", "two-stroke"): {"cast"},
    }
    assert has == {use: kinds for group, kinds in uses.items() for use in group}
    assert (
        "every kind of piston for street, boosted and marine use, forged ones for race and road "
        "race, cast ones for diesel, air cooled and two-stroke"
    ) in find("PISTON_CLEARANCE_BAND").validity
