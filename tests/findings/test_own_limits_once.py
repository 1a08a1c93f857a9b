"""A clearance that stands in a cell and that a call makes from its sizes too is one deviation."""

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_whole

# Worn and reground journals both ways, the bearing bore across the parting line, what is left.
HEADS = (
    ["MAINS", "journal worn", "", "journal reground", "", "brg vert", "vert. oil clr", "spec", ""],
    ["", "V", "H", "V", "H", "", "", "min", "max"],
)
ROWS = [
    [1, 2.6232, 2.6236, 2.6140, 2.6140, 2.6165, 0.0025, 0.002, 0.003],
    [2, 2.6229, 2.6234, 2.6140, 2.6140, 2.6166, 0.0026, 0.002, 0.003],
    [3, 2.6221, 2.6232, 2.6139, 2.6139, 2.6180, 0.0041, 0.002, 0.003],
    [4, 2.6230, 2.6235, 2.6140, 2.6140, 2.6164, 0.0024, 0.002, 0.003],
]


def test_it_is_told_once(written):
    book = written(*HEADS, *ROWS)
    assert any(record.computed_by_batch for record in book.records)
    found = [one for one in check(book) if one.code == "out-of-band"]
    assert [one.place.address for one in found] == ["G5"]
    assert "is 0.0041 in, 0.0011 in above the most" in found[0].message


def out_of_band(mean):
    cells = {
        (1, n): Cell(head) for n, head in enumerate(("Cylinder", "Bore (in)", "min", "max"), 1)
    }
    for row in (2, 3, 4):
        typed = (row - 1, None, 3.2845, 3.2855, 3.2845, 3.2844)
        cells |= {(row, n): Cell(v) for n, v in enumerate(typed, 1) if v is not None}
        cells[row, 2] = Cell(mean if row == 3 else 3.285, f"AVERAGE(E{row}:F{row})")
    book = read_whole(OpenBook("a.xlsx", "a", (Sheet("S", cells),), {}))
    return [f.place.address for f in check(book) if f.code == "out-of-band"]


def test_a_mean_is_rounded_before_it_is_judged():
    assert out_of_band(3.28445) == []
    assert out_of_band(3.2843) == ["B3"]
