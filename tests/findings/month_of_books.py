"""A month of fourteen filled build books, each an engine of its own, with known faults in them.

Made from the two example books that are filled in: every measured reading is moved by what a
gauge scatters, so that no two engines are alike, and whatever a program had saved is dropped, so
that every book is worked out anew. Cells are found by what stands above them and beside them.
"""

import random
import re
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import Cell
from workbook_tools.books.opening import read_cells

EXAMPLES = Path(__file__).parents[2] / "example_books"
# Books of even numbers are the inch V8, those of odd ones the metric four.
BASES = ("build_book_inch_v8", "build_book_metric_four")
BOOKS = 14
# What is chosen, bought or planned, and no engine's own.
PLANNED = {"Job", "Parts", "Gasket", "Assembly", "Release", "Notes", "Plan"}
# Rows of readings begin with the part that they are of.
PARTS = re.compile(r"(?:Cyl|Main|Throw|Rod|Bank|No\.?|Intake|Exhaust)\b.*\d|\d+")
# The last digit of what a micrometer gives, in inches and in millimeters.
STEPS = (0.0001, 0.001)
# Sheets with loads, pressures and percents, which are read in whole numbers.
LOADS = {"Power", "Running", "Heads"}


@dataclass(frozen=True)
class Fault:
    """What was done to a book, to which cells: (head or label, row or "", new content)."""

    book: int
    what: str
    cells: tuple[tuple[str, str, object], ...]


def column(head, rows, value=None):
    return tuple((head, row, value) for row in rows)


EIGHT, FOUR = ([f"Cyl {n}" for n in range(1, k + 1)] for k in (8, 4))
FAULTS = (
    Fault(0, "the heads' torque was seen by nobody", (("Seen by", "Cylinder head", None),)),
    Fault(0, "a bore one turn out", (("Bore, across the crank", "Cyl 3", 4.0401),)),
    Fault(1, "main caps are not marked", (("Marked", "Main caps", "no"),)),
    Fault(1, "a bore in inches", (("Bore, across the crank", "Cyl 2", 3.201),)),
    Fault(2, "nobody released it", (("Lead builder", "", None),)),
    Fault(2, "a slipped decimal", (("Top gap (", "Cyl 4", 0.205),)),
    Fault(3, "no firing order", (("Firing order", "", None),)),
    Fault(3, "no top gap of any cylinder", column("Top gap (", FOUR)),
    Fault(4, "steps that fall", tuple((f"Pass {n} (", "Cylinder head", torque)
                                      for n, torque in ((1, 80), (2, 60), (3, 30)))),
    Fault(4, "rod caps held dry", (("Lubricant", "Rod caps", "dry"),)),
    Fault(5, "no leak-down, no cranking pressure",
          (*column("Leakage, percent", FOUR), *column("Cranking pressure", FOUR))),
    Fault(5, "the rod caps' last pass was done by nobody", (("Final done by", "Rod caps", None),)),
    Fault(6, "no main bearing was measured",
          (*column("Main housing bore", [f"Main {n}" for n in range(1, 6)]),)),
    Fault(6, "finished before it was started", (("Finished", "", "2025-04-02"),)),
    Fault(7, "lash of one valve missing", (("Exhaust A lash or preload", "Cyl 2", None),)),
    Fault(8, "a housing bore was not read", (("Main housing bore", "Main 3", None),)),
    Fault(8, "the main caps were done by nobody", (("Final done by", "Main caps", None),)),
    Fault(9, "end play far out", (("Crank end play, after tightening", "", 0.9),)),
    Fault(9, "the heads' first pass by nobody", (("Pass 1 done by", "Cylinder head", None),)),
    Fault(10, "the bores are those of another engine", ()),
    Fault(11, "the oil pump's bolts are not marked", (("Marked", "Oil pump", "not yet"),)),
    Fault(11, "a lash ten times too large", (("Exhaust A lash or preload", "Cyl 3", 3.0),)),
    Fault(12, "a chamber ten times too large", (("Chamber (cc)", "Cyl 5", 640.0),)),
    Fault(12, "a second ring gap half of the others", (("Second gap (", "Cyl 5", 0.0115),)),
    Fault(13, "nobody saw it leave", (("Seen by", "", None),)),
    Fault(13, "the rod bolts' torque is missing", (("Final done by", "Rod caps", None),)),
)  # fmt: skip
# The book that the copied bores of one are from.
COPIED_FROM = 8


def find(book, head, row):
    """The cell below a head in a row, or beside a label where no row is named."""
    for sheet in book.sheets:
        for (top, left), cell in sheet.cells.items():
            if not _begins(cell, head) or sheet.title == "Notes":
                continue
            if not row:
                _, last = sheet.merged.get((top, left), (top, left))
                beside = range(last + 1, last + 4)
                at = next((c for c in beside if (top, c) in sheet.cells), None)
                if at is not None and not sheet.cells[top, at].formula:
                    return sheet, (top, at)
                continue
            for r in range(top + 1, top + 30):
                named = any(_is(sheet.cells.get((r, c)), row) for c in range(1, 7))
                entry = sheet.cells.get((r, left))
                if named and entry is not None and not entry.formula:
                    return sheet, (r, left)
    raise LookupError(f"{head} of {row}")


def _begins(cell, words):
    text = cell.value if isinstance(cell.value, str) and not cell.formula else ""
    return text == words or (len(words) > 4 and text.startswith(words))


def _is(cell, text):
    return cell is not None and cell.value == text


def with_fault(book, fault):
    """The book with a fault in it."""
    found = [(*find(book, head, row), value) for head, row, value in fault.cells]
    for sheet, at, value in found:
        book = _changed(book, sheet.title, at, value)
    if not fault.cells:
        source, title, area = engine(COPIED_FROM), *_bores(book)
        theirs = source.sheet(title).cells
        for at in area:
            book = _changed(book, title, at, theirs[at].value)
    return book


def _bores(book):
    sheet, (top, left) = find(book, "Bore, across the crank", "Cyl 1")
    rows = range(top, top + 24)
    return sheet.title, [(r, c) for r in rows for c in (left, left + 1) if (r, c) in sheet.cells]


def _changed(book, title, at, value):
    sheets = []
    for sheet in book.sheets:
        if sheet.title == title:
            cells = {place: cell for place, cell in sheet.cells.items() if place != at}
            if value is not None:
                cells[at] = Cell(value)
            sheet = replace(sheet, cells=cells)
        sheets.append(sheet)
    return replace(book, sheets=tuple(sheets))


@cache
def engine(number):
    """One engine's book without any fault."""
    base = read_cells(EXAMPLES / f"{BASES[number % 2]}.xlsx")
    rng = random.Random(number)
    sheets = []
    for sheet in base.sheets:
        filled = _filled_by_arrays(sheet)
        moved = {c: rng.choice((-2, -1, 1, 2)) for _, c in sheet.cells}
        cells = {}
        for at, cell in sheet.cells.items():
            if cell.formula:
                cells[at] = cell._replace(value=None)
            elif at not in filled:
                own = rng.choice((-1, 0, 1))
                cells[at] = cell._replace(
                    value=_scattered(
                        sheet, at, cell, own, moved[at[1]], 2 * number - BOOKS, number % 2
                    )
                )
        sheets.append(replace(sheet, cells=cells))
    made = replace(base, sheets=tuple(sheets), sha256=f"{number}", file_name=f"{number:02}.xlsx")
    sheet, at = find(made, "Job number", "")
    return _changed(made, sheet.title, at, f"MB-{number:02}")


def _scattered(sheet, at, cell, own, moved, offset, system):
    """A reading as another engine would give it."""
    value = cell.value
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return value
    if sheet.title in PLANNED or not _is_of_a_part(sheet, at[0]):
        return value
    digits = _digits(value)
    if _finest_in_column(sheet, at) >= 3 - system:
        # All sizes of an engine are as much off those of the next, one that ends in a zero too, so
        # that the clearances between them are as they were.
        size = offset if value > (0.2, 5)[system] else 0
        return round(value + (own + size) * STEPS[system], 4 - system)
    if sheet.title in ("Balance", "Volumes") and value > 20:
        return round(value + 0.1 * (moved + own), 2)
    if sheet.title in LOADS and (value > 50 or (digits == 0 and sheet.title == "Running")):
        return round(value + own + (moved if value > 20 else 0), digits)
    return value


def _digits(value):
    return len(repr(value).partition(".")[2]) if isinstance(value, float) else 0


def _finest_in_column(sheet, at):
    """The most digits of a reading in the table that a cell stands in, below one head."""
    row, column = at
    finest = 0
    for step in (-1, 1):
        r = row
        while _is_of_a_part(sheet, r):
            cell = sheet.cells.get((r, column))
            finest = max(finest, _digits(cell.value) if cell and not cell.formula else 0)
            r += step
    return finest


def _is_of_a_part(sheet, row):
    """Whether a row is of a part of the engine, or goes on with the one above it."""
    for r in range(row, max(0, row - 3), -1):
        cell = sheet.cells.get((r, 1))
        if cell is not None and cell.value is not None:
            return PARTS.fullmatch(str(cell.value)) is not None
    return False


def _filled_by_arrays(sheet):
    """The cells that array formulas fill, which hold nothing of their own."""
    found = set()
    for at, cell in sheet.cells.items():
        if cell.area:
            left, top, right, bottom = range_boundaries(cell.area)
            found |= {(r, c) for r in range(top, bottom + 1) for c in range(left, right + 1)} - {at}
    return found
