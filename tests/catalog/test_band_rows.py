"""Rows for rings, pistons, bearings and bolts: in order, honest about where they come from."""

import pytest

from workbook_tools.catalog import tables

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
