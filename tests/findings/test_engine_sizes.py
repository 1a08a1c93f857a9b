"""Recorded engine sizes against bore and stroke: open data with errors in it.

UCI Machine Learning Repository, Automobile data set (1985), CC BY 4.0; see
tests/published/data/README.md. The rows recorded wrong are listed and explained in
tests/published/test_uci_automobile.py, which finds them by computing alone; here a book is
made of each row, as a builder would write it.
"""

import csv
from pathlib import Path

from each_case import each
from published import test_uci_automobile as recorded

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_whole

DATA = Path(recorded.__file__).parent / "data" / "automobile_1985_engines.csv"
with DATA.open(encoding="utf-8") as file:
    ROWS = list(csv.DictReader(file))


def findings(row):
    bore, stroke = float(row["bore_in"]), float(row["stroke_in"])
    cells = {
        (1, 1): "Bore (in)", (1, 2): bore,
        (2, 1): "Stroke (in)", (2, 2): stroke,
        (3, 1): "Number of cylinders", (3, 2): int(row["cylinders"]),
        (4, 1): "Engine size (cu in)", (4, 2): float(row["engine_size_cu_in"]),
        (5, 1): "Displacement (cu in)",
    }  # fmt: skip
    made = {at: Cell(value) for at, value in cells.items()}
    made[5, 2] = Cell(None, "ENG.DISPLACEMENT(B1,B2,B3)")
    first = read_whole(OpenBook("a.xlsx", "a", (Sheet("Engine", made),), {}))
    made[5, 2] = Cell(first.records[0].value, "ENG.DISPLACEMENT(B1,B2,B3)")
    return check(read_whole(OpenBook("a.xlsx", "a", (Sheet("Engine", made),), {})))


def is_wrong(row):
    key = (float(row["bore_in"]), float(row["stroke_in"]), int(row["cylinders"]),
           float(row["engine_size_cu_in"]))  # fmt: skip
    return key in recorded.WRONG


@each("row", ROWS)
def test_a_row_has_a_finding_exactly_if_it_is_recorded_wrong(row):
    found = [(f.kind, f.place.address) for f in findings(row)]
    assert found == ([("disagreement", "B4")] if is_wrong(row) else [])


def test_the_data_has_rows_of_both_kinds():
    wrong = sum(is_wrong(row) for row in ROWS)
    assert wrong >= 15
    assert len(ROWS) - wrong >= 60


def test_what_would_fit_is_told():
    row = {"bore_in": "2.68", "stroke_in": "3.47", "cylinders": "6", "engine_size_cu_in": "152"}
    (finding,) = findings(row)
    assert "They agree if bore and stroke are exchanged" in finding.message
    assert "117.4 cu in" in finding.message
