"""The rows of the sheet ENG, as any kind of book can hold them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from workbook_tools.annotate.lines import Line

TITLE = "ENG"
WIDTHS = (36, 8, 12, 12, 10)  # characters
_HEADS = ("Result", "Unit", "By ENG", "In the book", "Compared")
_ABOUT = (
    "Results by ENG functions",
    "Written by workbook-tools annotate. Each call takes the book's own cells.",
)
_SHEET_ALONE = "Without the functions it shows an error; the rest of the book works as it did."
_REPLACED = "Without the functions it shows an error, as do the cells whose formula it replaced."


@dataclass(frozen=True)
class Text:
    """A cell with a text."""

    text: str
    bold: bool = False


@dataclass(frozen=True)
class Formula:
    """A cell with a formula, without "=", and what it comes to."""

    formula: str
    value: float | str


Row = tuple[Text | Formula | None, ...]


@dataclass(frozen=True)
class Results:
    """The results of one job; name: what tells it from other jobs of the file, "" for the only."""

    name: str
    lines: tuple[Line, ...]


def sheet_rows(results: Sequence[Results], *, replaced: bool) -> tuple[Row, ...]:
    """The sheet from its first row on. replaced: whether calls stand in the book's cells too."""
    rows: list[Row] = [(Text(_ABOUT[0], bold=True),), (Text(_ABOUT[1]),)]
    rows += [(Text(_REPLACED if replaced else _SHEET_ALONE),), ()]
    rows.append(tuple(Text(head, bold=True) for head in _HEADS))
    for job in results:
        if job.name and job.lines:
            rows += [(), (Text(f"Results of {job.name}", bold=True),)]
        rows += [_line(n, line) for n, line in enumerate(job.lines, len(rows) + 1)]
    return tuple(rows)


def _line(row: int, line: Line) -> Row:
    unit = Text(line.unit) if line.unit else None
    cells = (Text(line.label), unit, Formula(line.call, line.value))
    if line.said is None:
        return cells
    test = f'IF(ABS(C{row}-D{row})<={line.slack:.6g},"agrees","differs")'
    told = "agrees" if line.agrees else "differs"
    return (*cells, Formula(line.figure, line.said), Formula(test, told))


def formula_cells(rows: Sequence[Row]) -> Iterator[str]:
    """The addresses of the sheet's formulas."""
    for number, row in enumerate(rows, 1):
        for letter, cell in zip("ABCDE", row, strict=False):
            if isinstance(cell, Formula):
                yield f"{letter}{number}"
