"""What is derived from a book's readings: by measurand, part and position, never by a default."""

import math

import pytest
from sample import CROWN, RATIO

from workbook_tools.catalog import OMITTED, calculate
from workbook_tools.jobs.derivable import derivables, read_derivables
from workbook_tools.jobs.known import Remembered
from workbook_tools.jobs.read import read_book


def derived(make_book, rows, measurand):
    """{position: record} of what is derived of a measurand from one sheet."""
    book = read_book(make_book({"S": rows}))
    found = [r for r in book.records if r.computed_by_batch and r.measurand == measurand]
    return {r.part.which: r for r in found}


def test_volumes_feed_the_ratio_and_a_size_for_all_serves_each(make_book):
    found = derived(make_book, [*RATIO, CROWN], "compression_ratio")
    assert sorted(found) == ["1", "2"]
    assert found["2"].formula == (
        "=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME(C3,B6),C5,"
        "ENG.GASKET_VOLUME(B7,B8),ENG.DECK_VOLUME(C3,C4),B9)"
    )
    assert found["1"].arguments[0].name == "cylinder_volume"


TWO_STROKE = [
    ["Bore (mm)", 54.0],
    ["Stroke (mm)", 54.5],
    ["Rod length (mm)", 110],
    ["Exhaust port duration (deg)", 190],
]


def test_a_two_stroke_s_trapped_ratio(make_book):
    measured = [*TWO_STROKE, ["Clearance volume (cc)", 9.5]]
    (found,) = derived(make_book, measured, "trapped_ratio").values()
    assert found.name == "ENG.TRAPPED_RATIO"
    # 26.65 mm from where the port closes to the top, by the triangle of crank and rod.
    closes = math.radians(180 - 95)
    edge = (
        27.25 * (1 - math.cos(closes)) + 110 - math.sqrt(110**2 - (27.25 * math.sin(closes)) ** 2)
    )
    assert found.value == pytest.approx(1 + math.pi / 4 * 5.4**2 * edge / 10 / 9.5)
    parts = [["Chamber volume (cc)", 8.1], ["Gasket bore (mm)", 55], ["Gasket thickness (mm)", 0.3],
             ["Deck clearance (mm)", 0], ["Crown volume (cc)", 0]]  # fmt: skip
    (found,) = derived(make_book, [*TWO_STROKE, *parts], "trapped_ratio").values()
    assert "ENG.CLEARANCE_VOLUME(" in found.formula
    # An intake valve's timing is none of a port's, and a port's opening no duration.
    assert not derived(make_book, [*measured[:3], measured[4]], "trapped_ratio")
    opened = [*measured[:3], ["Exhaust port opening (deg)", 85], measured[4]]
    assert not derived(make_book, opened, "trapped_ratio")


def test_questions_cost_what_they_do_where_every_result_is_worked_out_anew(make_book, monkeypatch):
    # A misspelled head is asked about, and with it all that rests on the gasket's volume.
    rows = [*RATIO[:6], ["Gskt bor", 4.1], *RATIO[7:], CROWN]
    book = make_book({"S": rows})
    once = read_book(book)
    assert [q.costs for q in once.questions if q.kind == "what"] == [
        ("compression ratio of 2 cylinders",)
    ]
    monkeypatch.setattr(Remembered, "once", lambda self, what, of, work: work())
    anew = read_book(book)
    assert (once.questions, once.records) == (anew.questions, anew.records)


@pytest.mark.parametrize("left_out", [2, 3, 4, 5, 6, 7, 8])
def test_nothing_is_derived_where_one_argument_lacks(make_book, left_out):
    rows = [row for at, row in enumerate([*RATIO, CROWN]) if at != left_out]
    assert not derived(make_book, rows, "compression_ratio")


def test_bearing_clearance_from_bore_and_journal_or_from_housing_and_shells(make_book):
    bored = [
        ["Mains (in)", 1, 2],
        ["Main bearing bore", 2.5025, 2.5027],
        ["Main journal", 2.5, 2.5],
    ]
    found = derived(make_book, bored, "main_bearing_clearance")
    assert {p: r.name for p, r in found.items()} == {
        "1": "ENG.BEARING_CLEARANCE_FROM_BORE",
        "2": "ENG.BEARING_CLEARANCE_FROM_BORE",
    }
    assert found["2"].value == pytest.approx(0.0027)
    shells = [
        ["Mains (in)", 1, 2],
        ["Main housing bore", 2.691, 2.6912],
        ["Main shell wall", 0.0943, 0.0943],
        ["Main journal", 2.5, 2.5],
    ]
    found = derived(make_book, shells, "main_bearing_clearance")
    assert {r.name for r in found.values()} == {"ENG.BEARING_CLEARANCE"}
    assert found["1"].value == pytest.approx(2.691 - 2 * 0.0943 - 2.5)


def test_mains_take_no_size_of_a_rod(make_book):
    rows = [["Main bearing bore (in)", 2.5025], ["Rod journal (in)", 2.1]]
    assert not derived(make_book, rows, "main_bearing_clearance")
    assert not derived(make_book, rows, "rod_bearing_clearance")


def test_a_measured_deck_clearance_goes_before_a_derived_one(make_book):
    sizes = [
        ["Deck height (in)", 9.025],
        ["Stroke (in)", 3.5],
        ["Rod length (in)", 5.7],
        ["Compression height (in)", 1.56],
        ["Gasket thickness (in)", 0.04],
    ]
    (quench,) = derived(make_book, sizes, "quench").values()
    assert quench.formula == "=ENG.QUENCH(ENG.DECK_CLEARANCE(B1,B2,B3,B4),B5)"
    assert quench.value == pytest.approx(0.055)
    (quench,) = derived(make_book, [*sizes, ["Deck clearance (in)", 0.012]], "quench").values()
    assert quench.formula == "=ENG.QUENCH(B6,B5)"


def test_contradicting_readings_are_not_replaced_by_a_derived_value(make_book):
    rows = [
        ["Deck height (in)", 9.025],
        ["Stroke (in)", 3.5],
        ["Rod length (in)", 5.7],
        ["Compression height (in)", 1.56],
        ["Gasket thickness (in)", 0.04],
        ["Deck clearance (in)", 0.012],
        [],
        ["Notes"],
        ["Deck clearance (in)", 0.02],
    ]
    assert not derived(make_book, rows, "deck_clearance")
    (quench,) = derived(make_book, rows, "quench").values()
    assert quench.value is None
    assert quench.problem.startswith("deck_clearance")


def test_the_formula_names_another_sheet_and_another_unit(make_book):
    book = read_book(
        make_book(
            {
                "Block": [["Deck clearance (in)", 0.005]],
                "Head gasket": [["Gasket thickness (mm)", 1.0]],
            }
        )
    )
    (record,) = [r for r in book.records if r.measurand == "quench"]
    assert record.value in (
        pytest.approx(0.005 + 1 / 25.4),
        pytest.approx(0.127 + 1.0),
    )
    assert "'Head gasket'!B1" in record.formula


def test_a_call_of_the_book_feeds_the_next_result(make_book):
    rows = [
        ["Deck height (in)", 9.025],
        ["Stroke (in)", 3.5],
        ["Rod length (in)", 5.7],
        ["Compression height (in)", 1.56],
        ["Deck clearance (in)", "=ENG.DECK_CLEARANCE(B1,B2,B3,B4)"],
        ["Gasket thickness (in)", 0.04],
    ]
    (quench,) = derived(make_book, rows, "quench").values()
    assert quench.formula == "=ENG.QUENCH(B5,B6)"


@pytest.mark.parametrize("bore", [3.5, 4.0, 4.03])
@pytest.mark.parametrize("clearance", [0.001, 0.0035, 0.006])
def test_a_derived_value_is_what_the_function_gives(make_book, bore, clearance):
    rows = [["Bore (in)", bore], ["Piston diameter (in)", bore - clearance]]
    (record,) = derived(make_book, rows, "piston_clearance").values()
    by_hand = calculate(record.function, [bore, bore - clearance, "inch"])
    assert record.value == by_hand.value


def test_every_derived_value_is_what_its_function_gives(make_book):
    book = read_book(make_book({"S": [*RATIO, CROWN]}))
    assert len(book.records) > 4
    for record in book.records:
        values = [a.value for a in record.arguments]
        values += [OMITTED] * (len(record.function.parameters) - len(values)) + [record.system]
        assert calculate(record.function, values).value == record.value


def test_every_entry_of_the_list_takes_all_that_its_function_needs():
    for entry in derivables().entries:
        for way in entry.ways:
            given = {*way.arguments, *way.words}
            assert {p.name for p in way.function.parameters if not p.optional} <= given


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[[derived]]\nmeasurand = "quench"\nfunctions = ["QUENSH"]', "not in the catalog"),
        ('[[derived]]\nmeasurand = "quench"\nfunctions = ["FIT"]', "gives no measurand"),
        ('[[derived]]\nmeasurand = "squish"\nfunctions = ["QUENCH"]', "table of measurands"),
        ('[[derived]]\nmeasurand = "quench"\nfunktions = ["QUENCH"]', "unknown or missing keys"),
    ],
)
def test_a_wrong_line_of_the_list_is_told(text, words):
    with pytest.raises(ValueError, match=words):
        read_derivables(text)


def test_what_a_book_lacks_is_told_alike_before_and_after_other_books(make_book):
    whole, part = [*RATIO, CROWN], [row for row in [*RATIO, CROWN] if row[0] != "Stroke"]

    def told(rows):
        book = read_book(make_book({"S": rows}))
        return [r.name for r in book.records], [t.message for t in book.troubles]

    together = [told(rows) for rows in (whole, part, TWO_STROKE, part, whole)]
    apart = []
    for rows in (whole, part, TWO_STROKE):
        derivables.cache_clear()
        apart.append(told(rows))
    assert together == [*apart, apart[1], apart[0]]
    assert apart[0] != apart[1]


def test_a_table_longer_than_the_engine_has_rods_lacks_nothing(make_book):
    rows = [
        ["All sizes in mm"],
        ["Cylinders", 2],
        ["No.", "Main journal", "Main bearing bore", "Rod journal", "Rod bearing bore"],
        [1, 60.0, 60.05, 50.0, 50.04],
        [2, 60.0, 60.05, 50.0, 50.04],
        [3, 60.0, 60.05],
    ]
    assert sorted(derived(make_book, rows, "rod_bearing_clearance")) == ["1", "2"]
    assert sorted(derived(make_book, rows, "main_bearing_clearance")) == ["1", "2", "3"]


def test_the_formula_shown_gives_the_derived_value_in_a_cell(make_book):
    sheets = {
        "Block": [*RATIO, CROWN, ["Piston diameter (mm)", 101.5, 101.5]],
        "Head gasket": [["Notes"]],
    }
    shown = [r for r in read_book(make_book(sheets)).records if r.value is not None]
    assert {r.measurand for r in shown} >= {"displacement", "compression_ratio", "piston_clearance"}
    below = [["", ""], *([r.name, r.formula] for r in shown)]
    book = read_book(make_book({**sheets, "Block": [*sheets["Block"], *below]}))
    called = {r.formula: r.value for r in book.records if not r.computed_by_batch and r.whole}
    for record in shown:
        assert called[record.formula] == pytest.approx(record.value, rel=1e-9)


def test_a_gap_that_is_meant_is_not_compared_with_the_gap_that_is_measured(make_book):
    rows = [
        ["Cyl", 1, 2],
        ["Bore (in)", 4.03, 4.031],
        ["Top ring gap (in)", 0.021, 0.022],
        ["Ring gap factor", 0.0045],
    ]
    found = derived(make_book, rows, "top_ring_gap")
    assert [(r.place.address, r.saved) for r in found.values()] == [("", None)] * 2
    # One call for all cylinders gives what is meant for each.
    called = [[], ["Gap wanted (in)", "=ENG.RING_GAP(4.03,B4)"]]
    assert not derived(make_book, [*rows, *called], "top_ring_gap")
