"""Tables and lines of a sheet: readings, what they come to, and the bands beside them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from openpyxl.worksheet.formula import ArrayFormula

from workbook_tools.buildbook.entry import doubt
from workbook_tools.buildbook.formulas import pulled, when_filled
from workbook_tools.buildbook.page import COMMON, ROW_HEIGHT, Limits, Page, lines_of
from workbook_tools.buildbook.quantities import Quantity
from workbook_tools.buildbook.style import Role
from workbook_tools.formulas.references import area_address, cell_address, fixed

Cells = Mapping[str, str]


@dataclass(frozen=True)
class Column:
    """A column of a table.

    head; role; quantity; formula: for computed columns, from the cells of the same row;
    judged: a verdict follows in the next column, against a band at the foot of the table;
    required: as for a page's cell; alike: its readings are of alike parts, and one that is many
    times the others is asked about; limits: the band that the book starts with; lines: filled on
    every line of a row, where rows have several; prompt, words: for typed columns; span: sheet
    columns it takes.
    """

    head: str
    role: Role = "reading"
    quantity: Quantity | None = None
    formula: Callable[[Cells], str] | None = None
    judged: bool = False
    limits: Limits | None = None
    lines: bool = False
    prompt: str = ""
    words: tuple[str, ...] = ()
    span: int = 1
    start: object = None
    required: bool | None = None
    alike: bool = True


@dataclass(frozen=True)
class Table:
    """Where a table's cells came to stand."""

    cells: tuple[Cells, ...]
    columns: Mapping[str, str]
    bands: Mapping[str, tuple[str, str]]
    title: str

    def column(self, head: str) -> str:
        """The range of one column, from the first row to the last."""
        return self.columns[head]


def table(
    page: Page,
    name: str,
    corner: str,
    rows: Sequence[str],
    columns: Sequence[Column],
    lines: Sequence[str] = (),
    starts: Sequence[Mapping[str, object]] = (),
) -> Table:
    """Lay out a table: a head, a row for each of `rows`, and bands at its foot.

    name: of the table, in the names of its cells; corner: head of the column of row names,
    which is a cylinder's or a journal's; lines: heights or places, where each row has a line
    for each of them; starts: contents by head that the book starts with, row by row.
    """
    first = 3 if lines else 2
    places = _places(columns, first)
    _head(page, corner, columns, places, bool(lines))
    top, deep = page.row, max(1, len(lines))
    foot = top + deep * len(rows)
    bands = {
        c.head: (cell_address(foot, places[c.head]), cell_address(foot + 1, places[c.head]))
        for c in columns
        if c.judged
    }
    found = []
    for number, row_name in enumerate(rows):
        row = page.next(deep)
        page.put(row, 1, row_name, "row")
        page.spread(row, 1, 1, deep - 1)
        for i in range(len(lines)):
            # A number that is shown as a word: a text here would be taken for a label.
            page.put(row + i, 2, i + 1, "unit")
            page.sheet.cell(row + i, 2).number_format = f'"{lines[i]}"'
        given = starts[number] if number < len(starts) else {}
        found.append(_row(page, name, row_name, row, columns, places, bands, lines, given))
    spans = {c.head: area_address(top, places[c.head], foot - 1, places[c.head]) for c in columns}
    _doubts(page, columns, places, spans, range(top, foot))
    if bands:
        _foot(page, name, columns, places)
    return Table(
        tuple(found), spans, {h: (fixed(a), fixed(b)) for h, (a, b) in bands.items()}, page.title
    )


def _places(columns: Sequence[Column], first: int) -> dict[str, int]:
    places = {}
    for column in columns:
        places[column.head] = first
        first += column.span + column.judged
    return places


def headed(page: Page, column: Column) -> str:
    """A column's head with its unit."""
    unit = column.quantity.unit(page.plan) if column.quantity else ""
    return f"{column.head} ({unit})" if unit else column.head


def _head(
    page: Page, corner: str, columns: Sequence[Column], places: Mapping[str, int], lined: bool
) -> None:
    row = page.next(plain=False)
    widths = {c.head: page.width(places[c.head], places[c.head] + c.span - 1) for c in columns}
    deep = max(lines_of(headed(page, c), widths[c.head] * 1.05) for c in columns)
    page.sheet.row_dimensions[row].height = 8 + 11 * deep
    page.put(row, 1, corner, "head")
    if lined:
        page.put(row, 2, None, "head")
    for column in columns:
        place = places[column.head]
        page.put(row, place, headed(page, column), "head")
        page.spread(row, place, place + column.span - 1)
        if column.judged:
            page.put(row, place + column.span, "Verdict", "head")


def _row(
    page: Page,
    name: str,
    row_name: str,
    row: int,
    columns: Sequence[Column],
    places: Mapping[str, int],
    bands: Mapping[str, tuple[str, str]],
    lines: Sequence[str],
    given: Mapping[str, object],
) -> Cells:
    """One row; returns its cells by head, ranges where a column has lines."""
    deep = max(1, len(lines))
    cells: dict[str, str] = {}
    for column in columns:
        place = places[column.head]
        if column.formula is None:
            cells[column.head] = area_address(row, place, row + (deep - 1) * column.lines, place)
            start = given.get(column.head, column.start)
            for i in range(deep if column.lines else 1):
                parts = [name, row_name, *([lines[i]] if column.lines and lines else [])]
                page.enter(
                    row + i,
                    place,
                    " / ".join([*parts, column.head]),
                    column.role,
                    column.quantity,
                    prompt=column.prompt,
                    words=column.words,
                    start=start,
                    required=column.required,
                )
        else:
            cells[column.head] = page.put(
                row, place, column.formula(cells), column.role, column.quantity
            )
        below = 0 if column.lines else deep - 1
        if column.span > 1 or below:
            page.spread(row, place, place + column.span - 1, below)
        if column.judged:
            low, high = (fixed(a) for a in bands[column.head])
            page.judge(row, place + column.span, cells[column.head], low, high)
            page.spread(row, place + column.span, place + column.span, below)
    return cells


def _doubts(
    page: Page,
    columns: Sequence[Column],
    places: Mapping[str, int],
    spans: Mapping[str, str],
    rows: range,
) -> None:
    """Beside each row what is asked about it, right of the paper."""
    asked = [
        c for c in columns
        if c.alike and c.role == "reading" and c.quantity and c.quantity.range(page.plan)[0] >= 0
    ]  # fmt: skip
    for row in rows if asked and len(rows) > 1 else ():
        texts = []
        for column in asked:
            first, last = spans[column.head].split(":")
            cell = cell_address(row, places[column.head])
            texts.append(doubt(cell, f"{fixed(first)}:{fixed(last)}", column.head))
        page.put(row, page.columns + 1, "=" + "&".join(texts), "doubt")


def block(cells: Cells, first: str, last: str) -> str:
    """The range from the first cell of one column to the last of another, in one row."""
    return f"{cells[first].split(':')[0]}:{cells[last].split(':')[-1]}"


def _foot(page: Page, name: str, columns: Sequence[Column], places: Mapping[str, int]) -> None:
    least, most, origin = (page.next(plain=False) for _ in range(3))
    page.sheet.row_dimensions[origin].height = 22
    for row, text in ((least, "Least"), (most, "Most"), (origin, "Band from")):
        page.put(row, 1, text, "note")
    for column in columns:
        if not column.judged:
            continue
        place, limits = places[column.head], column.limits
        if limits and not limits.typed:
            for row, content in ((least, limits.low), (most, limits.high)):
                page.put(row, place, content, "pulled", column.quantity)
            page.put(origin, place, limits.origin, "note")
            page.spread(origin, place, place + column.span)
            continue
        for row, what, start in (
            (least, "least", limits.low if limits else None),
            (most, "most", limits.high if limits else None),
        ):
            page.enter(
                row,
                place,
                f"{name} / {column.head}, {what}",
                "band",
                column.quantity,
                prompt=limits.note if limits else "The part maker's limit.",
                start=start,
            )
        page.enter(
            origin,
            place,
            f"{name} / {column.head}, band from",
            "origin",
            start=limits.origin if limits else None,
        )
        page.spread(origin, place, place + column.span)


JUDGED = ("Least", "Most", "Verdict", "Band from, notes")


@dataclass(frozen=True)
class Lines:
    """Single lines under one head: what, value, unit, band, verdict, who the band is from.

    label_columns: sheet columns that the label takes.
    """

    page: Page
    name: str
    label_columns: int = 3

    def head(self, *heads: str) -> None:
        """The heads of the columns after the unit's; the last takes what is left."""
        row = self.page.next(plain=False)
        self.page.put(row, 1, "What", "head")
        self.page.spread(row, 1, self.label_columns)
        for column, text in enumerate(("Value", "Unit", *heads), self.label_columns + 1):
            self.page.put(row, column, text or None, "head")
        self.page.spread(row, column, self.page.columns)

    def line(
        self,
        label: str,
        quantity: Quantity | None,
        formula: str = "",
        *,
        role: Role = "reading",
        limits: Limits | None = None,
        judged: bool = False,
        prompt: str = "",
        words: tuple[str, ...] = (),
        note: str = "",
        start: object = None,
        short: bool = False,
        required: bool | None = None,
    ) -> str:
        """One line; returns the address of its value. short: words that need no whole line."""
        page = self.page
        row = page.next()
        value_at = self.label_columns + 1
        page.put(row, 1, label, "label")
        page.spread(row, 1, self.label_columns)
        name = f"{self.name} / {label}"
        if formula:
            value = page.put(row, value_at, formula, "result", quantity)
        else:
            value = page.enter(
                row,
                value_at,
                name,
                role,
                quantity,
                prompt=prompt,
                words=words,
                start=start,
                required=required,
            )
        if role == "text" or (role == "spec" and quantity is None):
            page.spread(row, value_at, value_at + 1 if note or short else page.columns)
        elif quantity is not None and quantity.unit(page.plan):
            page.put(row, value_at + 1, quantity.unit(page.plan), "unit")
        if judged:
            ends = (limits.low, limits.high) if limits else (None, None)
            low, high = (
                page.enter(
                    row,
                    value_at + 2 + i,
                    f"{name}, {what}",
                    "band",
                    quantity,
                    prompt=limits.note if limits else "The part maker's limit.",
                    start=ends[i],
                )
                for i, what in enumerate(("least", "most"))
            )
            page.judge(row, value_at + 4, value, low, high)
            page.enter(
                row,
                value_at + 5,
                f"{name}, band from",
                "origin",
                start=limits.origin if limits else None,
            )
            page.spread(row, value_at + 5, page.columns)
        elif note:
            page.put(row, value_at + 2, note, "note")
            page.spread(row, value_at + 2, page.columns)
        return value

    def said(self, label: str, formula: str, rows: int = 1) -> None:
        """A line with a sentence that a formula makes; rows: of text that it may take."""
        page = self.page
        row = page.next(plain=rows == 1)
        page.sheet.row_dimensions[row].height = max(ROW_HEIGHT, 4 + 12 * rows)
        page.put(row, 1, label, "label")
        page.spread(row, 1, self.label_columns)
        page.put(row, self.label_columns + 1, formula, "said")
        page.spread(row, self.label_columns + 1, page.columns)

    def usual(self, label: str, quantity: Quantity, call: str, *needed: str) -> Limits:
        """A line whose band a worksheet function gives: least, most, and where they are from.

        call: of the function; needed: the cells that it waits for. Returns formulas that take
        the band over where something is judged by it.
        """
        page = self.page
        row = page.next()
        page.put(row, 1, label, "label")
        page.spread(row, 1, self.label_columns)
        first = self.label_columns + 3
        unit = quantity.unit(page.plan)
        page.sheet.row_dimensions[row].height = 24
        if unit:
            page.put(row, first - 1, unit, "unit")
        for column in (first, first + 1):
            page.put(row, column, None, "result", quantity)
        page.sheet[cell_address(row, first)] = ArrayFormula(
            area_address(row, first, row, first + 1), when_filled(call, *needed)
        )
        page.put(row, first + 2, when_filled(f"INDEX({call},1,3)", *needed), "said")
        page.spread(row, first + 2, page.columns)
        low, high, origin = (pulled(fixed(cell_address(row, first + i))) for i in (0, 1, 2))
        return Limits(low, high, origin)


__all__ = ["COMMON", "JUDGED", "Cells", "Column", "Lines", "Table", "block", "headed", "table"]
