"""What is written beside a builder's book: a line for each result, a name for each job field."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from openpyxl.formula.tokenizer import Token, Tokenizer
from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import Cell, OpenBook
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.catalog import ArgumentError
from workbook_tools.formulas.references import Place, always_quoted, fixed, unquoted
from workbook_tools.jobs.records import Book, Record

FIELDS = ("job_number", "customer", "engine", "builder", "started", "finished")


@dataclass(frozen=True)
class Line:
    """One result: what it is, the call that gives it, and what the builder has for it.

    call: without "=", each cell named with its sheet; figure: the formula that shows the
    builder's own number in the same unit, "" where the book has none; said: that number;
    slack: how far apart the two may be.
    """

    label: str
    unit: str
    call: str
    value: float
    figure: str = ""
    said: float | None = None
    slack: float = 0.0

    @property
    def agrees(self) -> bool | None:
        """Whether both are the same to the digits of the builder's; None where there is one."""
        return None if self.said is None else abs(self.value - self.said) <= self.slack


def result_records(book: Book, cells: OpenBook) -> tuple[tuple[Record, ...], tuple[Record, ...]]:
    """The results that the catalog gives for a job and that its book does not call.

    Returns those whose call gives the result from the book's cells, and those whose call does
    not: what stands in a cell as a text is known to the batch, but to SUM it is nothing.
    """
    values = Recalculation(cells)
    found = [r for r in book.records if r.computed_by_batch and is_number(r.value)]
    fit = {id(record) for record in found if _gives_its_value(values, record)}
    return (
        tuple(record for record in found if id(record) in fit),
        tuple(record for record in found if id(record) not in fit),
    )


def _gives_its_value(values: Recalculation, record: Record) -> bool:
    # A call on cells of several sheets stands on none, and names the sheet of each.
    sheet = values.book.sheet(record.place.sheet) or values.book.sheets[0]
    try:
        value = values.evaluate(values.parts(record.formula.removeprefix("=")), sheet)
    except (ArgumentError, CannotEvaluate, ValueError):
        return False
    return is_number(value) and math.isclose(value, record.value, rel_tol=1e-9)  # type: ignore[arg-type]


def result_lines(records: Sequence[Record], cells: OpenBook) -> tuple[Line, ...]:
    """A line for each result."""
    return tuple(_line(record, cell_of(cells, record.place)) for record in records)


def is_number(value: object) -> bool:
    """Whether a value is a number that can be compared."""
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return number and math.isfinite(value)  # type: ignore[arg-type]


def cell_of(cells: OpenBook, place: Place) -> Cell | None:
    """What the book holds at a place, None for what stands in no cell."""
    sheet = cells.sheet(place.sheet)
    if sheet is None or not place.address or ":" in place.address:
        return None
    return sheet.cells.get(coordinate_to_tuple(place.address))


def _line(record: Record, own: Cell | None) -> Line:
    assert isinstance(record.value, (int, float))
    value = _without_noise(record.value)
    call = with_sheets(record.formula.removeprefix("="), record.place.sheet)
    line = Line(str(record.label or record.name), record.unit, call, value)
    said = record.saved
    if not isinstance(said, (int, float)):
        return line
    figure = f"{said!r}"
    if own is not None and is_number(own.value):
        figure = f"{always_quoted(record.place.sheet)}!{record.place.address}"
        if not math.isclose(said, own.value, rel_tol=1e-9):  # type: ignore[arg-type]
            figure += f"*{said / own.value:.12g}"  # type: ignore[operator]
    return Line(line.label, line.unit, call, value, figure, float(said), _slack(float(said)))


def _without_noise(value: float) -> float:
    """A result without the digits that are but noise of the arithmetic."""
    return float(f"{value:.12g}")


def _slack(said: float) -> float:
    """Half of the last digit that a number is written with, of six at most."""
    _, _, decimals = f"{said:.6g}".partition(".")
    digits = 0 if "e" in decimals else len(decimals)
    return 0.5001 * 10.0**-digits if "e" not in f"{said:.6g}" else abs(said) * 1e-5


def with_sheets(formula: str, sheet: str) -> str:
    """A formula with each cell named with its sheet, so that it means the same on any other."""
    text = ""
    for token in Tokenizer("=" + formula).items:
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            title, mark, address = token.value.rpartition("!")
            text += f"{always_quoted(unquoted(title) if mark else sheet)}!{address}"
        else:
            text += token.value
    return text


def field_names(book: Book, cells: OpenBook) -> dict[str, str]:
    """The job's fields by name, each with the cell that holds it and nothing else.

    A name that the book has already is left as it is.
    """
    found: dict[str, str] = {}
    for field in FIELDS:
        told = getattr(book.job, "number" if field == "job_number" else field)
        if told.place is None or not told.text or field in _taken(cells):
            continue
        own = cell_of(cells, told.place)
        if own is not None and _says_only(own.value, told.text):
            found[field] = f"{always_quoted(told.place.sheet)}!{fixed(told.place.address)}"
    return found


def _taken(cells: OpenBook) -> Mapping[str, object]:
    names: dict[str, object] = dict(cells.names)
    for sheet in cells.sheets:
        names.update(sheet.names)
    return names


def _says_only(value: object, text: str) -> bool:
    """Whether a cell holds a field and no words beside it."""
    if isinstance(value, (int, float, datetime.date)):
        return True
    return isinstance(value, str) and value.strip() == text.strip()
