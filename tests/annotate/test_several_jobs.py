"""A file of several jobs, annotated: each job's results on its own cells, read as its own after."""

import openpyxl
import pytest
import xlsxwriter

from workbook_tools.annotate import annotate
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

BORES = {"2207": [4.0312, 4.0309, 4.0314, 4.0311], "2208": [3.7505, 3.7508, 3.7503, 3.7506]}
# Piston clearances by hand: 4.0312 - 4.0270 and so on, four of each engine.
PISTONS = {"2207": [4.0270, 4.0268, 4.0271, 4.0268], "2208": [3.7471, 3.7470, 3.7469, 3.7472]}
CLEARANCES = {
    "2207": [0.0042, 0.0041, 0.0043, 0.0043],
    "2208": [0.0034, 0.0038, 0.0034, 0.0034],
}


def written(path, sheets):
    """A book of these sheets, each rows of cells; a formula stands with its saved value."""
    book = xlsxwriter.Workbook(path)
    for title, rows in sheets.items():
        sheet = book.add_worksheet(title)
        for row, cells in enumerate(rows):
            for column, cell in enumerate(cells):
                if isinstance(cell, tuple):
                    sheet.write_formula(row, column, cell[0], None, cell[1])
                else:
                    sheet.write(row, column, cell)
    book.close()
    return path


def a_job(number, top=1):
    yield ["Job number", number]
    yield ["Customer", f"Owner of {number}"]
    yield ["Engine", "Inline four"]
    yield []
    yield ["Cyl", "Bore (in)", "Piston (in)", "Piston clearance (in)"]
    for n, (bore, piston) in enumerate(zip(BORES[number], PISTONS[number], strict=True), 1):
        row = top + 4 + n
        yield [n, bore, piston, (f"=B{row}-C{row}", bore - piston)]
    yield []


def on_sheets(path):
    return written(path, {f"Engine {number}": [*a_job(number)] for number in BORES})


def in_blocks(path):
    return written(path, {"Engines": [*a_job("2207", 1), *a_job("2208", 11)]})


def in_rows(path):
    rows = [["Job", "Customer", "Bore (in)", "Piston (in)", "Piston clearance (in)"]]
    for row, number in enumerate(BORES, 2):
        bore, piston = BORES[number][0], PISTONS[number][0]
        clearance = (f"=C{row}-D{row}", bore - piston)
        rows.append([number, f"Owner of {number}", bore, piston, clearance])
    return written(path, {"Engines": rows})


@pytest.fixture(params=[on_sheets, in_blocks, in_rows])
def book(request, tmp_path):
    path = tmp_path / "book.xlsx"
    request.param(path)
    return path, 1 if request.param is in_rows else 4


def test_each_job_has_its_own_results_on_the_sheet(book, tmp_path):
    path, each = book
    report = annotate(path, tmp_path / "new.xlsx")
    assert report.jobs == 2
    assert report.names == {}
    given = [c for number in CLEARANCES for c in CLEARANCES[number][:each]]
    found = [line.value for line in report.lines if line.call.startswith("ENG.PISTON_CLEARANCE")]
    assert found == pytest.approx(given, abs=1e-9)
    texts = [row[0].value for row in openpyxl.load_workbook(tmp_path / "new.xlsx")["ENG"]]
    heads = [text for text in texts if str(text).startswith("Results of")]
    assert len(heads) == 2


def test_read_again_each_call_is_of_its_own_job(book, tmp_path):
    path, each = book
    annotate(path, tmp_path / "new.xlsx")
    before, after = read_jobs(path), read_jobs(tmp_path / "new.xlsx")
    assert [job.part for job in after] == [job.part for job in before]
    for old, new, number in zip(before, after, CLEARANCES, strict=True):
        calls = [r for r in new.records if not r.computed_by_batch and r.place.sheet == "ENG"]
        clearances = [r.value for r in calls if r.name == "ENG.PISTON_CLEARANCE"]
        assert clearances == pytest.approx(CLEARANCES[number][:each], abs=1e-9)
        assert {record.state for record in calls} == {"same"}
        by_call = {r.place for r in new.readings if any(e.how == "call" for e in r.evidence)}
        assert {r.place for r in old.readings} == {r.place for r in new.readings}
        assert len(by_call) >= 2 * each
        assert new.job.number.text == number
        assert [(f.code, f.place) for f in check(new)] == [(f.code, f.place) for f in check(old)]


def test_calls_take_the_place_of_arithmetic_job_by_job(tmp_path):
    first, second = [*a_job("2207")], [*a_job("2208")]
    second[6][3] = 0.0040  # Typed over the formula, and another size.
    book = written(tmp_path / "book.xlsx", {"Engine 2207": first, "Engine 2208": second})
    report = annotate(book, tmp_path / "new.xlsx", replace=True)
    assert {one.place.sheet for one in report.replaced} == {"Engine 2207"}
    assert len(report.replaced) == 4
