"""A workbook of all functions, by section: each with an example to play with, and what it says.

It carries the functions inside, so that a copied sheet brings them into another book. Beside
each live result stands the one that was expected, so that somebody with a program that we do
not have can tell us whether it agrees.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

from xlsxwriter.utility import xl_range_abs, xl_rowcol_to_cell
from xlsxwriter.worksheet import Worksheet

from workbook_tools.books.own_output import FUNCTIONS
from workbook_tools.catalog import UNITS_HELP, Function, Parameter, Result, calculate
from workbook_tools.catalog.example_calls import EXAMPLES
from workbook_tools.catalog.reference import by_section, traits
from workbook_tools.formulas.references import always_quoted
from workbook_tools.hosts.portable import portability, portable
from workbook_tools.render.cell_writer import NewBook

TITLE = "Worksheet functions for engine builders"
_START = "Start"
# Name, what it is, unit, then the cells to type into.
_WIDTHS = (26, 74, 9, 16, 13, 13, 13)
_VALUE = 3
_AGREES, _DIFFERS, _ADD_IN, _NONE = "agrees", "differs", "needs an add-in", "no result"
_LINE_HEIGHT = 13.5  # points
# Digits to which an expected value is kept, and how far a live one may be from it.
_DIGITS, _SLACK = 12, 1e-9
_ABOUT = (
    "Change the values in the boxes and watch the result. A bare number is in the unit beside it; "
    'in "units" say metric for millimeters.',
    "To use a function in your own book, copy its sheet into it (right click on the sheet's tab, "
    "Move or Copy): the functions come along as defined names. That is how Excel describes it; "
    "it was never tried by us in a real Excel.",
    "Results agree with what was expected only while no box has been changed. If they do not agree "
    "in a fresh copy of this book, please tell us which, and in which program.",
    "The numbers help a builder and do not replace one: the part maker's instructions, local codes "
    "and licensed practice come first.",
)


@dataclass
class _Page:
    """One sheet while it is written.

    room: characters that a line of its texts holds; row: the next free one, from 0.
    """

    new: NewBook
    sheet: Worksheet
    room: int
    row: int = 0

    def put(self, column: int, value: object, words: str = "", numbers: str = "") -> None:
        self.new.put(self.sheet, self.row, column, value, words, numbers=numbers)

    def words(self, text: str, words: str = "") -> None:
        """A text that may take several lines, which the row is made high enough for."""
        self.put(1, text, f"wrap top {words}")
        lines = sum(-(-max(len(line), 1) // self.room) for line in text.splitlines() or [""])
        if lines > 1:
            self.sheet.set_row(self.row, _LINE_HEIGHT * lines)

    def line(self, name: str, text: str, words: str = "") -> None:
        """A name with a text that may take several lines."""
        self.put(0, name, "soft top")
        self.words(text, words)
        self.row += 1


@dataclass(frozen=True)
class _Entry:
    """Where a function stands. portable: whether its formula works with no add-in."""

    function: Function
    sheet: str
    row: int
    portable: bool


def write_functions_book(out: Path) -> None:
    """Write the book. out: a new .xlsx file.

    Raises EditError where it cannot be written or exists already.
    """
    with tempfile.TemporaryDirectory() as folder:
        plain = Path(folder) / "functions.xlsx"
        plain.write_bytes(_plain_book())
        portable(plain, out)


def _plain_book() -> bytes:
    """The book before the functions are put into it."""
    new = NewBook(TITLE, "workbook-tools", FUNCTIONS)
    reasons = portability()
    start = _new_page(new, _START, (30, 96, 16))
    entries = [
        one
        for section, functions in by_section().items()
        for one in _section(new, section, functions, reasons)
    ]
    _start(start, entries)
    return new.done()


def _new_page(new: NewBook, title: str, widths: Sequence[int]) -> _Page:
    sheet = new.book.add_worksheet(title)
    for column, width in enumerate(widths):
        sheet.set_column(column, column, width)
    sheet.hide_gridlines(2)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    return _Page(new, sheet, widths[1])


def _start(page: _Page, entries: Sequence[_Entry]) -> None:
    page.new.put(page.sheet, 0, 0, TITLE, "bold", 16)
    page.row = 2
    for text in _ABOUT:
        page.words(text)
        page.row += 1
    page.row += 1
    column = xl_range_abs(0, _VALUE, 4000, _VALUE)
    sheets = list(dict.fromkeys(one.sheet for one in entries))

    def counted(word: str) -> str:
        return "+".join(f'COUNTIF({always_quoted(s)}!{column},"{word}")' for s in sheets)

    agree = counted(_AGREES)
    number = sum(one.portable for one in entries)
    rest = f"{counted(_DIFFERS)}+{counted(_NONE)}"
    formula = f'({agree})&" of "&({agree}+{rest})&" agree"'
    page.put(0, "With what was expected", "bold")
    style = page.new.style("bold", 12)
    page.sheet.write_formula(page.row, 1, f"={formula}", style, f"{number} of {number} agree")
    page.row += 2
    for section, of_section in groupby(entries, key=lambda one: one.sheet):
        for column, text in enumerate((section, "", "")):
            page.put(column, text, "section")
        page.row += 1
        for one in of_section:
            link = f"internal:{always_quoted(section)}!A{one.row + 1}"
            page.sheet.write_url(page.row, 0, link, page.new.style("look"), one.function.full_name)
            page.words(one.function.summary)
            page.put(2, "" if one.portable else _ADD_IN, "soft")
            page.row += 1


def _section(
    new: NewBook, section: str, functions: Sequence[Function], reasons: Mapping[str, str]
) -> list[_Entry]:
    page = _new_page(new, section, _WIDTHS)
    page.new.put(page.sheet, 0, 0, section, "bold", 16)
    page.row = 2
    return [_function(page, section, f, reasons[f.name]) for f in functions]


def _function(page: _Page, section: str, function: Function, reason: str) -> _Entry:
    """One function: what it is, its example, what it comes to, where it is from."""
    entry = _Entry(function, section, page.row, not reason)
    for column in range(len(_WIDTHS)):
        page.put(column, function.full_name if column == 0 else "", "section")
    page.row += 1
    page.line("", function.summary, "bold")
    page.line("In a cell", f"={function.signature}")
    if reason:
        page.line("Without an add-in", f"not available: {reason}", "look")
    given = [
        _argument(page, parameter, value)
        for parameter, value in zip(function.parameters, EXAMPLES[function.name], strict=True)
    ]
    if function.takes_units:
        page.put(0, "units", "top")
        page.words(UNITS_HELP, "soft")
        page.put(_VALUE, "inch", _BOX)
        given.append(xl_rowcol_to_cell(page.row, _VALUE))
        page.row += 1
    _result(page, function, f"{function.full_name}({','.join(given)})", reason)
    for name, text in (
        ("Equation", function.equation),
        ("Holds", function.validity),
        ("Source", function.source),
        ("Caution", function.caution),
    ):
        if text:
            page.line(name, text, "look" if name == "Caution" else "")
    page.row += 1
    return entry


_BOX = "box left"
# A cell with an error, for the function that tells about one: no gasket is 0 thick.
_REFUSED = "=ENG.QUENCH(0.002,0)"


def _argument(page: _Page, parameter: Parameter, value: object) -> str:
    """A parameter with its example in cells, and how a formula names these."""
    page.put(0, parameter.name, "top")
    page.words(f"{parameter.help} ({traits(parameter)})", "soft")
    page.put(2, parameter.kind.unit("inch"), "top")
    if parameter.cell:
        page.sheet.write_formula(page.row, _VALUE, _REFUSED, page.new.style(_BOX), "#VALUE!")
        page.row += 1
        return str(xl_rowcol_to_cell(page.row - 1, _VALUE))
    rows = value if isinstance(value, tuple) else ((value,),)
    top = page.row
    for row in rows:
        for column, cell in enumerate(row, _VALUE):
            page.put(column, "" if cell is None else cell, _BOX)
        page.row += 1
    last = xl_rowcol_to_cell(page.row - 1, _VALUE + len(rows[0]) - 1)
    first = xl_rowcol_to_cell(top, _VALUE)
    return str(first) if first == last else f"{first}:{last}"


def _result(page: _Page, function: Function, call: str, reason: str) -> None:
    """The live result, the expected one below it, and whether they agree."""
    page.put(0, "Result", "bold top")
    page.words(function.result_help, "soft")
    if function.sees_cell:
        page.sheet.write_formula(page.row, _VALUE, f"={call}", page.new.style("banded bold"))
        page.row += 1
        return
    result = calculate(function, EXAMPLES[function.name])
    page.put(2, result.unit, "top")
    cells = _flat(result)
    style = page.new.style("banded bold left")
    top = page.row
    if isinstance(result.value, tuple):
        last = _VALUE + len(cells) - 1
        page.sheet.write_array_formula(top, _VALUE, top, last, f"{{={call}}}", style, cells[0])
        for column, cell in enumerate(cells[1:], _VALUE + 1):
            page.put(column, cell, "banded bold left")
    else:
        page.sheet.write_formula(top, _VALUE, f"={call}", style, cells[0])
    page.row += 1
    page.put(0, "Expected", "soft")
    for column, cell in enumerate(cells, _VALUE):
        page.put(column, cell, "soft left")
    page.row += 1
    page.put(0, "Compared", "soft")
    tests = [_test(top, column, cell) for column, cell in enumerate(cells, _VALUE)]
    broken = _ADD_IN if reason else _NONE
    live = xl_rowcol_to_cell(top, _VALUE)
    formula = f'=IF(ISERROR({live}),"{broken}",IF(AND({",".join(tests)}),"{_AGREES}","{_DIFFERS}"))'
    page.sheet.write_formula(page.row, _VALUE, formula, page.new.style("bold left"), _AGREES)
    page.row += 1


def _flat(result: Result) -> list[float | str]:
    """The values of a result in a row, as they are kept; a table of one row, or one column."""
    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    values = [value for row in rows for value in row]
    return [v if isinstance(v, str) else float(f"{v:.{_DIGITS}g}") for v in values]


def _test(top: int, column: int, expected: float | str) -> str:
    """The comparison of one cell with the one below it."""
    live, kept = xl_rowcol_to_cell(top, column), xl_rowcol_to_cell(top + 1, column)
    if isinstance(expected, str):
        # LibreOffice finds a text out of a table equal to no other until it is put together.
        return f'{live}&""={kept}'
    return f"ABS({live}-{kept})<={max(abs(expected) * _SLACK, 1e-12):.3g}"
