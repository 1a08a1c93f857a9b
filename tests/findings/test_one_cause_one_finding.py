"""What one number brings up twice is told once: its cause, with the limit that it misses."""

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_whole


def test_a_slip_is_told_with_the_limit_that_it_misses(written):
    heads = ["Cyl", "Top ring gap (in)", "min", "max"]
    rows = [[n, 0.0018 if n == 4 else 0.018 + n % 2 * 0.0005, 0.016, 0.020] for n in range(1, 9)]
    found = [f for f in check(written(heads, *rows)) if f.place and f.place.address == "B5"]
    assert [f.code for f in found] == ["slipped-decimal"]
    assert "0.0018 in is 0.0142 in below the least that the book itself gives" in found[0].message
    assert "C5" in {place.address for place in found[0].also}


def test_a_limit_missed_without_a_cause_stays_out_of_band(written):
    heads = ["Cyl", "Top ring gap (in)", "min", "max"]
    rows = [[n, 0.0225 if n == 4 else 0.018 + n % 2 * 0.0005, 0.016, 0.020] for n in range(1, 9)]
    found = [f for f in check(written(heads, *rows)) if f.place and f.place.address == "B5"]
    assert [f.code for f in found] == ["out-of-band"]


def test_a_number_typed_over_a_formula_is_not_told_to_contradict_its_sizes_too():
    heads = ("Cyl", "Bore (in)", "Piston (in)", "Clearance (in)")
    cells = {(1, n): Cell(head) for n, head in enumerate(heads, 1)}
    for row in range(2, 10):
        bore, piston = 4.0300 + row % 3 * 0.0001, 4.0255
        cells |= {(row, 1): Cell(row - 1), (row, 2): Cell(bore), (row, 3): Cell(piston)}
        clearance = round(bore - piston, 4)
        cells[row, 4] = Cell(0.0029) if row == 6 else Cell(clearance, f"B{row}-C{row}")
    book = read_whole(OpenBook("a.xlsx", "a", (Sheet("S", cells),), {}))
    found = [f for f in check(book) if f.place and f.place.address == "D6"]
    assert [f.code for f in found] == ["typed-over"]
