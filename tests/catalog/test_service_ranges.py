"""Bands of makers' service ranges: as fitted, and held to the ranges of engines left out."""

import pytest
from service_ranges import BAND_OF, GROUPS, ranges

from workbook_tools.catalog import tables

FOLDS = 5


def engines(members):
    return sorted({r.engine for r in members})


def band_of(eng, measured, use, size):
    # Sizes that a document does not give are not needed where the band goes with none.
    (low, high, origin), *_ = eng(
        "BAND", measured, use, 0 if size != size else size, "any", "metric"
    )
    return low, high, origin


@pytest.mark.parametrize(("key", "group"), GROUPS.items(), ids=lambda x: str(x)[:60])
def test_a_row_is_the_fit_and_tells_how_many_engines(eng, key, group):
    members = group.members()
    sizes = [r.size for r in members if r.size == r.size]
    for size in (min(sizes), max(sizes)):
        low, high, origin = band_of(eng, *key, size)
        fitted = group.limits(members, size)
        # Rows have two digits.
        assert (low, high) == pytest.approx(fitted, rel=0.06)
        assert origin.startswith(f"makers' service ranges of {len(engines(members))} engines")
        assert "beyond" not in origin


def left_out(group):
    """(range, whether the band of the other folds' engines holds its middle), for each range."""
    members = group.members()
    known = engines(members)
    for fold in range(FOLDS):
        out = set(known[fold::FOLDS])
        rest = [r for r in members if r.engine not in out]
        for r in members:
            if r.engine in out:
                low, high = group.limits(rest, r.size)
                yield r, low <= r.middle <= high


@pytest.mark.parametrize(("key", "group"), GROUPS.items(), ids=lambda x: str(x)[:60])
def test_a_row_holds_nine_in_ten_of_the_engines_left_out(key, group):
    missed = [r for r, inside in left_out(group) if not inside]
    # One of fewer than ten is more than a tenth, and still no more than one.
    assert len(missed) <= max(1, len(group.members()) // 10), missed


def test_all_rows_together_hold_nine_in_ten_of_the_engines_left_out():
    inside = [held for group in GROUPS.values() for _, held in left_out(group)]
    assert len(inside) > 150
    assert sum(inside) >= 0.9 * len(inside)


def test_the_band_for_its_kind_of_engine_holds_the_middle_of_nearly_every_range(eng):
    missed, known = [], 0
    for r in ranges():
        measured = BAND_OF[r.measurand]
        sized = measured.endswith(("ring gap", "bearing clearance", "piston clearance")) or (
            measured.startswith("pin")
        )
        if sized and measured != "oil ring gap" and r.size != r.size:
            continue
        known += 1
        low, high, _ = band_of(eng, measured, r.kind, r.size)
        if not low <= r.middle <= high:
            missed.append(r)
    assert known > 160
    assert len(missed) <= 0.05 * known, missed
    # These rows come from too few engines to leave one out: they hold all of them.
    assert not [r for r in missed if r.kind in ("two-stroke", "air cooled", "motorcycle")]


def test_no_band_is_wider_than_makers_differ():
    """A band that holds everything says nothing."""
    for (measured, use), group in GROUPS.items():
        low, high = group.fit(group.members())
        lows = [r.low / group.shape(r.size) for r in group.members()]
        highs = [r.high / group.shape(r.size) for r in group.members()]
        assert low > min(lows) * 0.5 if min(lows) > 0 else low > 0, (measured, use)
        assert high < max(highs) * 1.5, (measured, use)


@pytest.mark.parametrize(
    ("measured", "use", "size", "made", "low", "high"),
    [
        # What earlier bands shut out, as makers give it.
        ("piston clearance", "two-stroke", 40, "cast", 0.060, 0.070),
        ("piston clearance", "air cooled two-stroke", 40, "cast", 0.060, 0.070),
        ("piston clearance", "diesel", 75, "cast", 0.050, 0.070),
        ("piston clearance", "diesel", 95, "cast", 0.044, 0.091),
        ("piston clearance", "diesel", 108, "cast", 0.064, 0.127),
        ("second ring gap", "diesel", 95, "any", 1.40, 1.66),
        ("main bearing clearance", "service", 55, "any", 0.020, 0.040),
        ("crank end play", "service", 0, "any", 0.050, 0.320),
        # 0.010 in and more on 5 in of steel barrel.
        ("piston clearance", "aircraft", 130.175, "cast", 0.254, 0.330),
    ],
)
def test_what_makers_ask_for_lies_in_the_band(eng, measured, use, size, made, low, high):
    (least, most, _), *_ = eng("BAND", measured, use, size, made, "metric")
    assert least <= low < high <= most


def test_the_use_of_each_kind_of_engine_is_a_word_of_the_table():
    assert {r.kind for r in ranges()} <= set(tables.use_names())
