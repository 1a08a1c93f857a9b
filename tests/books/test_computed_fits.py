"""Fits that the batch computes from the sizes of both parts, as builders measure them.

The expected clearances are the differences of the sizes that stand in the book.
"""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def computed(make_book):
    """{(measurand, which): (function, result)} of what the batch computes from a sheet of rows."""

    def of(rows):
        book = read_book(make_book({"S": rows}))
        assert [f.message for f in check(book)] == []
        return {
            (r.measurand, r.part.which): (r.function.name, r.value)
            for r in book.records
            if r.computed_by_batch
        }

    return of


def table(head, *columns):
    """A table with what is counted down the first column."""
    rows = [[number, *sizes] for number, sizes in enumerate(zip(*columns, strict=True), 1)]
    return [list(head), *rows]


BORES, JOURNALS = (2.4514, 2.4515, 2.4513, 2.4516, 2.4514), (2.4490, 2.4491, 2.4489, 2.4490, 2.4491)


@pytest.mark.parametrize(
    ("part", "head"),
    [("main", "Main"), ("rod", "Rod"), ("cam", "Cam bearing")],
)
def test_bearings_with_their_shells_in(computed, part, head):
    heads = (head, f"{head.removesuffix(' bearing')} bearing bore (in)",
             f"{head.removesuffix(' bearing')} journal (in)")  # fmt: skip
    found = computed(table(heads, BORES, JOURNALS))
    for number, (bore, journal) in enumerate(zip(BORES, JOURNALS, strict=True), 1):
        name, value = found[f"{part}_bearing_clearance", str(number)]
        assert name == "BEARING_CLEARANCE_FROM_BORE"
        assert value == pytest.approx(bore - journal, abs=1e-9)


def test_the_bore_with_shells_is_taken_before_housing_and_wall(computed):
    heads = ("Main", "Main housing bore (in)", "Main shell wall (in)", "Main bearing bore (in)",
             "Main journal (in)")  # fmt: skip
    housings, walls = [2.6410] * 5, [0.0949] * 5
    found = computed(table(heads, housings, walls, BORES, JOURNALS))
    assert {name for name, _ in found.values()} == {"BEARING_CLEARANCE_FROM_BORE"}
    found = computed(table((*heads[:3], heads[4]), housings, walls, JOURNALS))
    assert {name for name, _ in found.values()} == {"BEARING_CLEARANCE"}


def test_pins_and_small_ends(computed):
    heads = ("Cylinder", "Pin bore (in)", "Pin diameter (in)", "Small end bore (in)")
    found = computed(table(heads, (0.9273, 0.9274), (0.9268, 0.9269), (0.9276, 0.9276)))
    assert found["pin_clearance", "2"] == (
        "PIN_CLEARANCE_IN_PISTON",
        pytest.approx(0.0005, abs=1e-9),
    )
    assert found["small_end_clearance", "1"] == (
        "PIN_CLEARANCE_IN_ROD",
        pytest.approx(0.0008, abs=1e-9),
    )


def test_guides_of_both_sides(computed):
    heads = ("Valve", "Intake guide bore (in)", "Intake stem diameter (in)",
             "Exhaust guide bore (in)", "Exhaust stem diameter (in)")  # fmt: skip
    sizes = ((0.3430, 0.3431), (0.3415, 0.3414), (0.3432, 0.3433), (0.3412, 0.3411))
    found = computed(table(heads, *sizes))
    assert found["intake_stem_clearance", "1"][1] == pytest.approx(0.0015, abs=1e-9)
    assert found["exhaust_stem_clearance", "2"][1] == pytest.approx(0.0022, abs=1e-9)
    assert {name for name, _ in found.values()} == {"VALVE_GUIDE_CLEARANCE"}
