"""From a file to records: arguments traced, calls recomputed, states judged."""

import re

import pytest
import xlsxwriter

from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_book


def test_a_call_is_traced_to_cells_and_labels(records):
    record = records(
        [["Deck clearance (in)", 0.004], ["Gasket, compressed", 0.038, "in"],
         ["Quench", "=ENG.QUENCH(B1,B2)"]],
        saved={"B3": 0.042},
    )["B3"]  # fmt: skip
    assert record.state == "same"
    assert (record.name, record.function.name) == ("ENG.QUENCH", "QUENCH")
    assert (record.value, record.unit) == (pytest.approx(0.042), "in")
    deck, gasket = record.arguments
    assert (deck.value, deck.place, str(deck.label)) == (
        0.004,
        Place("Sheet", "B1"),
        "Deck clearance",
    )
    assert (gasket.label.text, gasket.label.unit, gasket.unit) == ("Gasket, compressed", "in", "in")


@pytest.mark.parametrize(
    ("saved", "state"),
    [
        (0.042, "same"),
        (0.0420000000000001, "same"),
        (0.0421, "stale"),
        ("#VALUE!", "stale"),
        ("#NAME?", "not saved"),
        (None, "not saved"),
    ],
)
def test_state_compares_what_was_saved(records, saved, state):
    rows = [[0.004, 0.038, "=ENG.QUENCH(A1,B1)"]]
    record = records(rows, saved={} if saved is None else {"C1": saved})["C1"]
    assert record.state == state
    assert record.recomputed == pytest.approx(0.042)


def test_zeros_of_a_program_that_cannot_calculate_are_no_results(tmp_path):
    # XlsxWriter saves 0 for every formula and asks for calculation when the book is opened.
    path = tmp_path / "book.xlsx"
    with xlsxwriter.Workbook(path) as workbook:
        sheet = workbook.add_worksheet()
        sheet.write_row(0, 0, [0.004, 0.038, "=ENG.QUENCH(A1,B1)", "=ENG.VERDICT(C1,0.035,0.05)"])
    quench, verdict = read_book(path).records
    assert (quench.state, quench.value) == ("not saved", pytest.approx(0.042))
    assert (verdict.state, verdict.value) == ("not saved", "ok")


def test_a_zero_beside_other_results_is_stale(records):
    rows = [[0.004, 0.038, "=ENG.QUENCH(A1,B1)", "=ENG.QUENCH(A1,B1)"]]
    found = records(rows, saved={"C1": 0, "D1": 0.042})
    assert [found[a].state for a in ("C1", "D1")] == ["stale", "same"]


def test_arguments_of_every_kind(records):
    found = records(
        [
            [0.004, "38 thou", "=ENG.QUENCH(A1,B1)"],
            [0.1, 0.9, '=ENG.QUENCH(A2,B2,"metric")'],
            ["metric", None, "=ENG.QUENCH(A2,B2,A3)"],
            [None, None, "=ENG.QUENCH(deck,-(-0.04))"],
            [None, None, "=ENG.QUENCH(A1+0.001,IF(A1>0,0.04,0.05))"],
            [None, None, "=ENG.QUENCH(ENG.QUENCH(A1,0.01),0.03)"],
            [None, None, "=ROUND(ENG.QUENCH(A1,B1)*2,3)"],
            [None, None, '=IF(ENG.VERDICT(A1,0,1)="ok","fits","no")'],
        ],
        names={"deck": "Sheet!$A$1"},
    )
    assert found["C1"].value == pytest.approx(0.042)
    assert (found["C2"].value, found["C2"].unit) == (pytest.approx(1.0), "mm")
    assert found["C3"].value == pytest.approx(1.0)
    assert found["C4"].value == pytest.approx(0.044)
    assert found["C5"].value == pytest.approx(0.045)
    assert found["C7"].recomputed == pytest.approx(0.084)
    assert found["C8"].recomputed == "fits"
    assert not found["C7"].whole


def test_a_call_in_a_let_is_traced_to_the_cells_behind_its_names(records):
    formula = "=_xlfn.LET(_xlpm.d,B1,_xlpm.g,B2*1,ENG.QUENCH(_xlpm.d,_xlpm.g))"
    rows = [["Deck clearance", 0.004], ["Gasket", 0.04], ["Quench", formula]]
    record = records(rows, saved={"B3": 0.044})["B3"]
    assert (record.state, record.whole) == ("same", True)
    assert [a.place and a.place.address for a in record.arguments] == ["B1", None]
    assert record.arguments[0].label.text == "Deck clearance"


def test_a_formula_that_cannot_be_followed_is_as_saved(records):
    rows = [
        ["Deck clearance", 0.004],
        ["Gasket", 0.04],
        ["Quench", "=ENG.QUENCH(B1,OFFSET(B1,1,0))"],
    ]
    assert records(rows, saved={"B3": 0.044})["B3"].state == "as saved"
    assert records(rows)["B3"].state == "error"


def test_both_calls_of_a_nested_formula_have_a_record(make_book):
    path = make_book({"S": [[0.004, "=ENG.QUENCH(ENG.QUENCH(A1,0.01),0.03)"]]})
    outer, inner = read_book(path).records
    assert (outer.value, inner.value) == (pytest.approx(0.044), pytest.approx(0.014))
    assert (outer.whole, inner.whole) == (True, False)


def test_a_label_gives_its_unit_to_a_reading_and_to_nothing_else(make_book):
    path = make_book(
        {
            "S": [
                ["Deck height, front", 9.0, "in"],
                ["Deck height, rear", 9.001, "in"],
                ["Deck height, mean", "=ENG.MEAN_READING(B1:B2,2)", "in"],
                ["Mean, no unit told", "=ENG.MEAN_READING(B1:B2,2)"],
                ["Deck volume", "=ENG.DECK_VOLUME(ENG.MEAN_READING(B1:B2,2),0.01)", "cc"],
                ["Gap", '=ENG.RING_GAP(4.03,ENG.RING_GAP_FACTOR("street","top"))', "in"],
            ]
        }
    )
    units = [(r.place.address, r.name, r.unit) for r in read_book(path).records]
    assert units == [
        ("B3", "ENG.MEAN_READING", "in"),
        ("B4", "ENG.MEAN_READING", "in"),
        ("B5", "ENG.DECK_VOLUME", "cc"),
        ("B5", "ENG.MEAN_READING", "in"),
        ("B6", "ENG.RING_GAP", "in"),
        ("B6", "ENG.RING_GAP_FACTOR", ""),
    ]


def test_a_range_becomes_a_record_for_each_cylinder(records):
    found = records(
        [["Cylinder", 1, 2, 3], ["Deck clearance", 0.001, None, 0.003],
         ["Quench", "{=ENG.QUENCH(B2:D2,0.04)} B3:D3"]],
    )  # fmt: skip
    assert [found[a].value for a in ("B3", "C3", "D3")] == [
        pytest.approx(0.041), None, pytest.approx(0.043)]  # fmt: skip
    assert found["C3"].missing
    assert found["D3"].arguments[0].place == Place("Sheet", "D2")
    assert str(found["D3"].label) == "Quench, Cylinder 3"


def test_an_array_of_empty_texts_was_calculated(records):
    formula = '{=IF(B1:C1="","",ENG.QUENCH(B1:C1,0.04))} B2:C2'
    found = records([["Deck clearance", None, None], ["Quench", formula]], saved={"B2": ""})
    assert [found[a].state for a in ("B2", "C2")] == ["same", "same"]


def test_an_empty_cell_is_missing_even_where_the_program_counted_it_as_zero(records):
    record = records(
        [["Deck clearance", None], ["Quench", "=ENG.QUENCH(B1,0.04)"]], saved={"B2": 0.04}
    )["B2"]
    assert (record.state, record.missing, record.blamed) == ("error", True, "deck_clearance")
    assert record.saved == 0.04


def test_cells_without_saved_values_are_computed_first(records):
    found = records(
        [[0.004, "=A1*2", "=ENG.QUENCH(B1,0.03)", "=ENG.QUENCH(C1,0.01)"]],
    )
    assert found["C1"].value == pytest.approx(0.038)
    assert found["D1"].value == pytest.approx(0.048)


def test_a_circle_is_told_with_its_cells(records):
    record = records([["=B1+1", "=A1+1", "=ENG.QUENCH(A1,0.04)"]])["C1"]
    assert record.state == "error"
    assert re.search("circle: (A1 → B1 → A1|B1 → A1 → B1)", record.problem)


def test_unknown_function_and_wrong_count(records):
    found = records([["=ENG.QUENSH(1)", "=ENG.QUENCH(1)", "=ENG.QUENCH(1,2,3,4)"]])
    assert "nearest is ENG.QUENCH" in found["A1"].problem
    assert "got 1" in found["B1"].problem
    assert "got 4" in found["C1"].problem


def test_a_formula_that_is_cut_off_is_told_and_the_rest_read(make_book):
    path = make_book({"S": [["=ENG.QUENCH(1,2", "=ENG.QUENCH(0.01,0.03)"]]})
    book = read_book(path)
    assert [t.place for t in book.troubles] == [Place("S", "A1")]
    assert [r.value for r in book.records] == [pytest.approx(0.04)]


def test_references_to_other_sheets_and_missing_ones(make_book):
    path = make_book(
        {
            "Sheet": [["=ENG.QUENCH('Left bank'!A1,0.04)", "=ENG.QUENCH(Gone!A1,0.04)"]],
            "Left bank": [[0.002]],
        }
    )
    good, gone = read_book(path).records
    assert good.value == pytest.approx(0.042)
    assert good.arguments[0].place == Place("Left bank", "A1")
    assert "there is no sheet 'Gone'" in gone.problem


def test_a_name_that_stands_for_itself_is_given_up(records):
    record = records([["=ENG.QUENCH(loop,0.04)"]], names={"loop": "pool", "pool": "loop"})["A1"]
    assert record.state == "error"
    assert "cannot be followed" in record.problem


def test_an_error_cell_is_passed_on_as_one(records):
    record = records([["=1/0", "=ENG.QUENCH(A1,0.04)"]], saved={"A1": "#DIV/0!"})["B1"]
    assert record.arguments[0].value == CellError("#DIV/0!")
    assert "the error #DIV/0!" in record.problem


def test_a_whole_column_reaches_as_far_as_the_sheet(records):
    record = records([[1.0, "=ENG.MEAN_READING(A:A,3)"], [2.0], [3.0]])["B1"]
    assert record.value == pytest.approx(2.0)


def test_job_fields_from_labels_and_from_names(make_book):
    rows = [["Customer", "Mara Holt", "Job no.", "24-017"], ["Engine: flat twin"],
            ["Built by", None, "R. Osei"], ["=ENG.QUENCH(0.01,0.03)"]]  # fmt: skip
    job = read_book(make_book({"S": rows})).job
    assert (job.number.text, job.customer.text) == ("24-017", "Mara Holt")
    assert (job.engine.text, job.builder.text) == ("flat twin", "R. Osei")
    assert job.number.place == Place("S", "D1")
    named = read_book(make_book({"S": [["x", "24-018"]]}, names={"job_number": "S!$B$1"})).job
    assert named.number.text == "24-018"


def test_a_named_job_field_left_empty_takes_nothing_from_labels(make_book):
    rows = [["Engine", None, "Casting"], ["Builder", "I. Marsh"]]
    path = make_book({"S": rows}, names={"engine": "S!$B$1"})
    job = read_book(path).job
    assert (job.engine.text, job.builder.text) == ("", "I. Marsh")


def test_a_job_field_left_empty_takes_nothing_from_the_next_line(make_book):
    rows = [["Job no.", "24-019"], ["Finished"], ["Cylinder", 1, 2], ["Builder"], ["Date in", "x"]]
    job = read_book(make_book({"S": rows})).job
    assert (job.finished.text, job.builder.text) == ("", "")


@pytest.mark.parametrize(
    ("title", "number"),
    [
        ("BEARING CLEARANCES - Job 25-140", "25-140"),
        ("Short block, job no. HF/0031, second sheet", "HF/0031"),
        ("Job card", ""),
        ("Odd jobs 2024", ""),
        ("Jobs of 2024", ""),
    ],
)
def test_a_title_can_bring_the_job_number(make_book, title, number):
    rows = [[title], [], ["Customer", "Mara Holt"]]
    assert read_book(make_book({"S": rows})).job.number.text == number


def test_job_fields_side_by_side_say_what_they_say_below(make_book):
    rows = [["Job no.", "Customer", "Engine"], ["24-020", "Mara Holt", None], ["Cylinder", 1, 2]]
    job = read_book(make_book({"S": rows})).job
    assert (job.number.text, job.customer.text, job.engine.text) == ("24-020", "Mara Holt", "")
    alone = read_book(make_book({"S": [["Customer"], ["Mara Holt"]]})).job
    assert alone.customer.text == "Mara Holt"


CYLINDERS_DOWN = [["Cyl", "Skirt", "Clearance"], [1, 4.026, 0.004], [2, "mic again", 0.004],
                  [3, 4.027, 0.003]]  # fmt: skip


@pytest.mark.parametrize(
    ("rows", "address", "label", "unit"),
    [
        ([["Bore (mm)", 86.5]], "B1", "Bore", "mm"),
        ([["Bore", 4.03, "in"]], "B1", "Bore", "in"),
        ([["Bore", None, 4.03]], "C1", "Bore", ""),
        ([["Bore, mm"], [86.5]], "A2", "Bore", "mm"),
        ([["Cyl", "Bore (in)", "Gap"], [1, 4.03, 0.02], [2, 4.03, 0.02]], "C3", "Gap, Cyl 2", ""),
        ([["", "Cyl 1", "Cyl 2"], ["Bore", 4.03, 4.031]], "C2", "Bore, Cyl 2", ""),
        ([["Journal", 1, 2, 3], ["Clearance", 0.002, 0.0021, 0.002]], "D2",
         "Clearance, Journal 3", ""),
        ([["Cylinder", None, 1, 2], ["Bore", "mm", 86.51, 86.52]], "C2", "Bore, Cylinder 1", "mm"),
        ([["Cylinder", None, 1, 2], ["Bore", "mm", 86.51, 86.52]], "D2", "Bore, Cylinder 2", "mm"),
        ([["Stroke", "mm", 86.0]], "C1", "Stroke", "mm"),
        ([["", "Left", "Right"], ["Bore", 92.01, 92.02, "mm"]], "B2", "Bore, Left", "mm"),
        ([["", "Left", "Right"], ["Bore", 92.01, 92.02, None, "mm"]], "B2", "Bore, Left", ""),
        ([["Bore", 92.01, "Stroke", 82.0, "mm"]], "B1", "Bore", ""),
        ([["", "Left", "Right"], ["Chamber", 62.0, "62,3 cc", "cc"]], "B2", "Chamber, Left", "cc"),
        ([["Stroke", 86.0, "mm", 0.5]], "D1", "Stroke", ""),
        ([["Item", "Wanted", "Measured"], ["Quench", 0.04, 0.041]], "C2", "Quench, Measured", ""),
        ([["Customer", "Mara Holt"], [None, 0.04]], "B2", "None", ""),
        # A remark where a table has values names nothing, beside it or below it.
        (CYLINDERS_DOWN, "C3", "Clearance, Cyl 2", ""),
        (CYLINDERS_DOWN, "B4", "Skirt, Cyl 3", ""),
        (CYLINDERS_DOWN, "C4", "Clearance, Cyl 3", ""),
        ([["", "Skirt", "Clearance"], ["Rod 1", "see card", 0.002], ["Rod 2", 2.1, 0.002]], "C2",
         "Clearance, Rod 1", ""),
        ([["Cyl", 1, 2, 3], ["Skirt", 4.026, "mic again", 4.027], ["Bore", 4.03, 4.03, 4.03]],
         "D2", "Skirt, Cyl 3", ""),
        ([["Cyl", 1, 2, 3], ["Skirt", 4.026, "mic again", 4.027], ["Bore", 4.03, 4.03, 4.03]],
         "C3", "Bore, Cyl 2", ""),
        # Labels over values, one pair below the other, are labels.
        ([["Bore"], [4.03], ["Stroke"], [3.5]], "A4", "Stroke", ""),
        # So are labels below and beside a numbered table.
        ([["Cyl", "Bore"], [1, 4.03], [2, 4.031], ["Stroke", 3.5]], "B4", "Stroke", ""),
        ([["Cyl", "Bore"], [1, 4.03, None, "Stroke", 3.5], [2, 4.031]], "E2", "Stroke", ""),
    ],
)  # fmt: skip
def test_labels(make_book, rows, address, label, unit):
    from openpyxl.utils.cell import coordinate_to_tuple

    from workbook_tools.books.opening import read_cells
    from workbook_tools.labels.nearest_text import find_label

    sheet = read_cells(make_book({"S": rows})).sheets[0]
    found = find_label(sheet, *coordinate_to_tuple(address))
    assert str(found) == label
    assert (found.unit if found else "") == unit


def test_table_columns_and_a_tables_own_row(make_book):
    import openpyxl
    from openpyxl.worksheet.table import Table

    path = make_book({"S": [["Cyl", "Deck", "Quench"],
        [1, 0.004, "=ENG.QUENCH(Decks[[#This Row],[Deck]],0.04)"],
        [2, 0.006, "=ENG.QUENCH(Decks[[#This Row],[Deck]],0.04)"],
        [None, None, "=ENG.MEAN_READING(Decks[Deck],2)"]]})  # fmt: skip
    workbook = openpyxl.load_workbook(path)
    workbook["S"].add_table(Table(displayName="Decks", ref="A1:C3"))
    workbook.save(path)
    first, second, mean = read_book(path).records
    assert (first.value, second.value) == (pytest.approx(0.044), pytest.approx(0.046))
    assert second.arguments[0].place == Place("S", "B3")
    assert mean.value == pytest.approx(0.005)


@pytest.mark.parametrize("guard", ['IF(A1="","",{})', 'IFERROR({},"")', 'IF(COUNT(A1)=1,{},"")'])
def test_a_guarded_call_that_is_blank_is_as_saved(records, guard):
    record = records([[None, "=" + guard.format("ENG.QUENCH(A1,0.04)")]], {"B1": ""})["B1"]
    assert record.recomputed == ""
    assert record.state in ("same", "not saved")
    assert (record.value, record.missing) == (None, True)


def test_a_head_that_says_where_numbers_no_row_of_heads(make_book):
    heads = ["Throw", None, "Rod journal, first axis (in)", "Taper (in)"]
    call = "=ENG.JOURNAL_TAPER(C4:C5)"
    rows = [["Band from", None, None, "common practice"], [], heads]
    rows += [["Throw 1", 1, 2.0651, call], [None, 2, 2.065]]
    (record,) = read_book(make_book({"S": rows})).records
    assert (record.label.text, record.label.position) == ("Taper", "Throw 1")
