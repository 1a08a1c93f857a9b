"""Places for initials, signatures and ticks, cell by cell, and whether each is filled in."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.mark_words import (
    LONGEST,
    MOST_WORDS,
    Sort,
    is_idle,
    is_index,
    mark_words,
    sort_of,
    state_of_text,
)
from workbook_tools.jobs.paper_records import Mark, MarkState
from workbook_tools.labels.dates import leading_date
from workbook_tools.labels.label import Label
from workbook_tools.labels.vocabulary import vocabulary
from workbook_tools.labels.written_limits import range_in
from workbook_tools.measurands.tokens import phrase

# Fewer texts side by side are no heads of a table; no table of an engine has more rows.
_FEWEST_HEADS = 3
_MOST_ROWS = 200
# How far to the right of its line a signature may stand, past merged cells.
_MOST_RIGHT = 6
# A merged range larger than this is a title or a picture's place.
_LARGEST_MERGED = 400
# So many numbers side by side above a line make it a row of a table, so many entries fill it
# cell by cell; a single one is meant for the whole row.
_ROW_OF_NUMBERS, _ROW_OF_MARKS = 3, 2
# What stands on a printed form where nothing was filled in; in a table a dash says "none".
_BLANK = re.compile(r"[\s_.…·:\-\[\]()/]*")
_DASH = re.compile(r"\s*[-–—]\s*")
# "R. L.", "RL", "R. Lund": who signed, where a head would be "On" or "Remarks".
_PERSON = re.compile(r"(?:[A-Z]\.\s?){1,3}(?:[A-Z][\w'-]+)?|[A-Z]{2,3}")
_NAME = re.compile(r"(?:[A-Z]\.\s?){1,3}[A-Z][\w'-]+")

At = tuple[int, int]


@dataclass(frozen=True)
class _Page:
    """A sheet with the cells that merged ranges cover, each by the first of its range."""

    sheet: Sheet

    @cached_property
    def covered(self) -> Mapping[At, At]:
        found: dict[At, At] = {}
        for first, last in self.sheet.merged.items():
            (top, left), (bottom, right) = first, last
            if (bottom - top + 1) * (right - left + 1) <= _LARGEST_MERGED:
                for row in range(top, bottom + 1):
                    found |= {(row, column): first for column in range(left, right + 1)}
        return found

    def anchor(self, at: At) -> At:
        return self.covered.get(at, at)

    def cell(self, at: At) -> Cell | None:
        return self.sheet.cells.get(self.anchor(at))

    def text(self, at: At) -> str:
        """The text that was typed into a cell, "" where there is none."""
        cell = self.cell(at)
        typed = cell is not None and isinstance(cell.value, str) and not cell.formula
        return " ".join(str(cell.value).split()) if cell is not None and typed else ""


class _Head(NamedTuple):
    """The head of a column of a table: its cell, what it is, the columns of the table."""

    at: At
    text: str
    sort: Sort
    span: range


def marks_of(book: OpenBook) -> Iterator[Mark]:
    """Every place for initials, a signature or a tick, in the order of the book."""
    for sheet in book.sheets:
        page = _Page(sheet)
        for row, column, content in sheet.texts:
            even = " ".join(content.split())
            text, colon, rest = even.partition(":")
            text = text.rstrip(" _.…")
            sort = None if _is_title(page, row, even) else sort_of(text)
            if sort is None:
                sort = "by" if colon and phrase(rest)[:1] == ("who",) else None
                text, rest = even, ""
            if sort is not None:
                yield from _marks(page, (row, column), text, sort, rest if colon else None)


# What counts the parts of a form before their titles: "6. Test run / final check".
_COUNTED = re.compile(r"(?:\d{1,2}|[A-Z]|[IVX]{1,4})[.)]\s+\S")


def _is_title(page: _Page, row: int, text: str) -> bool:
    """Whether a text is the counted title of a sheet, which nobody signs."""
    if _COUNTED.match(text) is None or row != page.sheet.texts[0][0]:
        return False
    return sum(r == row for r, _ in page.sheet.cells) == 1


def _marks(page: _Page, at: At, text: str, sort: Sort, rest: str | None) -> Iterator[Mark]:
    """The marks of one line or head; rest: what stands behind its colon, None without one."""
    span = _table_under(page, at) if not (rest or "").strip() else None
    if span is not None:
        yield from _in_column(page, _Head(at, text, sort, span))
    elif across := _across(page, at):
        yield from _in_row(page, at, text, across)
    elif sort == "by" or (sort == "done" and rest is not None):
        yield _line(page, at, text, rest or "")


def _table_under(page: _Page, at: At) -> range | None:
    """The columns of the table that a text is a head of, None where it heads no column.

    A table's heads stand side by side, with a row below that has something under several of
    them, and its first column names the rows.
    """
    row, column = at
    below = _bottom(page, at) + 1
    first = last = column
    while first > 1 and (page.text((row, first - 1)) or _is_unnamed(page, (row, first - 1), below)):
        first -= 1
    while page.text((row, last + 1)):
        last += 1
    span = range(first, last + 1)
    if page.anchor(at) == page.anchor((row, first)):
        return None
    if len({page.anchor((row, c)) for c in span}) < _FEWEST_HEADS:
        return None
    cells = [page.sheet.cells.get((r, c)) for r in (below, below + 1) for c in span]
    filled = [c for c in cells if c is not None and c.value is not None]
    return span if len(filled) >= 2 and not _is_pairs(page, at, span, below) else None


def _is_unnamed(page: _Page, at: At, below: int) -> bool:
    """Whether a column without a head numbers the readings of a row, beside one that names it."""
    row, column = at
    under = page.cell((below, column))
    return bool(page.text((row, column - 1))) and under is not None and _is_number(under)


def _is_pairs(page: _Page, at: At, span: range, below: int) -> bool:
    """Whether a row is one of labels, each with its value beside it, and no row of heads."""
    row, column = at
    job = vocabulary().job
    if leading_date(page.text((row, column + 1))):
        return True  # "Done | 7 Feb 2025" is a field of the job.
    named = page.text((below, span[0])), page.text((below, column))
    if any(job.labels(text.rstrip(" :")) for text in named if not is_index(text)):
        return True
    first, second = page.text((row, span[0])), page.text((row, span[0] + 1))
    worded = named[0] and not any(c.isdigit() for c in named[0])
    if worded and job.field(first.rstrip(" :")) and not job.labels(second.rstrip(" :")):
        return True
    # With entries below, initials beside a head are a head too: "HP". A name is none.
    entries = any(page.cell((below, c)) for c in (column, column + 1))
    beside = page.text((row, column + 1))
    signed = not entries and _PERSON.fullmatch(beside) is not None
    return signed or _NAME.fullmatch(beside) is not None or len(phrase(named[1])) > MOST_WORDS


def _bottom(page: _Page, at: At) -> int:
    """The last row of a cell, or of the merged range that it is the first of."""
    return page.sheet.merged.get(at, at)[0]


class _Row(NamedTuple):
    """A row of a table: its number, what it is of, its mark, whether anything else is in it."""

    row: int
    name: str
    cell: Cell | None
    in_use: bool


def _in_column(page: _Page, head: _Head) -> Iterator[Mark]:
    rows = list(_rows(page, head))
    entries = [r.cell for r in rows if r.cell is not None and not _is_blank(r.cell)]
    if head.sort != "by" and any(_is_figure(cell) for cell in entries):
        return
    if any(isinstance(cell.value, str) and range_in(cell.value).limit for cell in entries):
        return  # Nobody signs with limits.
    if head.sort == "may be" and not entries:
        return
    heads = Place.at(page.sheet.title, *head.at)
    for row in rows:
        state = _state(row.cell, in_table=True)
        if row.in_use or state == "made":
            place = Place.at(page.sheet.title, row.row, head.at[1])
            yield Mark(place, Label(head.text, row.name), entry(row.cell), state, heads)


def _rows(page: _Page, head: _Head) -> Iterator[_Row]:
    """The rows below a head that are somebody's to sign, as far as the table goes on."""
    top = _bottom(page, head.at) + 1
    telling = _telling(page, head)
    for row in range(top, top + _MOST_ROWS):
        filled = [c for c in head.span if (row, c) in page.sheet.cells]
        if (not filled and row > top) or _is_head_row(page, row, head):
            return
        own = page.anchor((row, head.at[1]))[0] == row
        name = _name(page, row, head) if filled and own else ""
        if not name:
            continue
        used = [c for c in filled if c in telling and _tells(page.sheet.cells[row, c])]
        in_use = bool(used) if telling else not is_index(name)
        yield _Row(row, name, page.cell((row, head.at[1])), in_use)


def _telling(page: _Page, head: _Head) -> frozenset[int]:
    """The columns of a table in which something tells that a row is used.

    Its first columns, up to one of names, are printed in many forms.
    """
    below = _bottom(page, head.at) + 1
    named = (c for c in head.span if not is_index(page.text((below, c))))
    names = range(head.span[0], next(named, head.span[0]) + 1)
    return frozenset(
        c
        for c in head.span
        if c not in names
        and sort_of(text := page.text((head.at[0], c))) is None
        and not is_idle(text)
        and phrase(text) not in mark_words().things
    )


def _is_head_row(page: _Page, row: int, head: _Head) -> bool:
    """Whether another table begins in a row: a head like this one, or three texts and no more."""
    text = page.text((row, head.at[1]))
    if text and sort_of(text) is not None:
        return True
    texts = [c for c in head.span if page.text((row, c))]
    alone = len({page.anchor((row, c)) for c in texts}) == 1
    wide = alone and len(texts) == len(head.span)
    return wide and len(head.span) >= _FEWEST_HEADS


def _name(page: _Page, row: int, head: _Head) -> str:
    """What a row is of, "" where nobody signs in it: a limit, a sum, a row further down."""
    first = page.sheet.cells.get((row, head.span[0]))
    if first is None or first.value is None or _is_blank(first):
        return ""
    said = [page.text((row, c)) for c in head.span if c != head.at[1]]
    texts = [t for t in said if any(c.isalpha() for c in t)]
    words = phrase(texts[0]) if texts else ()
    if any(words[:n] in mark_words().not_rows for n in (1, len(words)) if words):
        return ""  # "Total HT" is signed by nobody either.
    named = next((t for t in texts if not is_index(t)), "")
    index = page.text((row, head.span[0])) or f"{first.value:g}" if _is_number(first) else ""
    return (named if len(named) <= LONGEST else "") or index or texts[0] if texts else index


def _tells(cell: Cell) -> bool:
    if cell.formula:
        return _is_number(cell)
    return not _is_blank(cell) and phrase(str(cell.value)) not in mark_words().not_needed


def _across(page: _Page, at: At) -> Sequence[int]:
    """The columns of a row of marks in a table whose items go down and positions across.

    () where a line has numbers neither right above nor below it, or no more than one entry.
    """
    row, column = at
    numbers = max(
        (
            [c for (r, c), cell in page.sheet.cells.items() if r == near and c > column
             and _is_figure(cell)]
            for near in (row - 1, row + 1)
        ),
        key=len,
    )  # fmt: skip
    entries = [c for c in numbers if _state(page.cell((row, c)), in_table=True) != "empty"]
    if len(numbers) < _ROW_OF_NUMBERS or len(entries) < _ROW_OF_MARKS:
        return ()
    cells = [page.cell((row, c)) for c in entries]
    return () if any(c is not None and _is_figure(c) for c in cells) else numbers


def _in_row(page: _Page, at: At, text: str, columns: Sequence[int]) -> Iterator[Mark]:
    row, _ = at
    heads = Place.at(page.sheet.title, *at)
    for column in columns:
        top = row
        while top > 1 and page.cell((top - 1, column)) is not None:
            top -= 1
        first = page.cell((top, column))
        name = page.text((top, column)) or (str(first.value) if first and top < row else "")
        cell = page.cell((row, column))
        place = Place.at(page.sheet.title, row, column)
        state = _state(cell, in_table=True)
        yield Mark(place, Label(text, name), entry(cell), state, heads)


def _line(page: _Page, at: At, text: str, rest: str) -> Mark:
    """A mark beside its name, below it, or behind its colon."""
    place = Place.at(page.sheet.title, *at)
    if not _BLANK.fullmatch(rest):
        return Mark(place, Label(text), rest.strip(), state_of_text(rest), place)
    cell = _beside_or_below(page, at)
    state = _state(cell, in_table=False)
    return Mark(place, Label(text), entry(cell), state, place)


def _beside_or_below(page: _Page, at: At) -> Cell | None:
    row, column = at
    right = [
        page.cell((row, c))
        for c in range(column + 1, column + 1 + _MOST_RIGHT)
        if page.anchor((row, c)) != at
    ]
    beside = next((c for c in right if c is not None and not _is_blank(c)), None)
    if beside is not None and not _is_line(beside):
        return beside
    under = _bottom(page, at) + 1
    below = page.cell((under, column))
    if below is None or _is_blank(below) or _is_line(below):
        return None
    above = page.cell((row - 1, column))
    if above is not None and _is_line(above) and beside is None:
        return None  # In a list of lines, what stands below is the next one.
    # A text below with its own value beside it is the next line, no entry in a column.
    alone = page.cell((under, column + 1)) is None
    return below if alone or (beside is not None and beside is right[0]) else None


def _is_line(cell: Cell) -> bool:
    """Whether a text is itself the name of a line to be filled in."""
    if not isinstance(cell.value, str):
        return False
    even = " ".join(cell.value.split())
    text = even.rstrip(" :_.…").lower()
    return (
        even.endswith(":")
        or is_idle(text)
        or sort_of(text) is not None
        or any(label.sure for label in vocabulary().job.labels(text))
    )


def _is_blank(cell: Cell) -> bool:
    value = cell.value
    return value is None or (isinstance(value, str) and _BLANK.fullmatch(value) is not None)


def _is_number(cell: Cell) -> bool:
    return isinstance(cell.value, (int, float)) and not isinstance(cell.value, bool)


def _is_figure(cell: Cell) -> bool:
    """Whether a cell holds a number that is no tick, or a formula."""
    return bool(cell.formula) or (_is_number(cell) and cell.value not in (0, 1))


def entry(cell: Cell | None) -> str:
    """What stands in a cell, as text; "" where it is empty."""
    value = cell.value if cell is not None else None
    if isinstance(value, datetime.datetime):
        value = value.date()
    return " ".join(str(value).split()) if value is not None else ""


def _state(cell: Cell | None, *, in_table: bool) -> MarkState:
    if cell is None or cell.value is None:
        return "empty"
    if isinstance(cell.value, bool) or cell.value == 0:
        return "made" if cell.value else "no"
    if not isinstance(cell.value, str):
        return "made"
    if in_table and _DASH.fullmatch(cell.value):
        return "made"
    return "empty" if _BLANK.fullmatch(cell.value) else state_of_text(cell.value)
