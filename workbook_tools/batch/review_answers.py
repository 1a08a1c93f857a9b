"""The corrections of a review copy, as a layout that holds for all books of that form."""

from __future__ import annotations

import glob
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.batch.review_copy import ASKED, BY_FORMULA, FIRST_ROW, HEADS, KEPT
from workbook_tools.books.cells import BookError, Sheet
from workbook_tools.books.opening import read_cells
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.questions import text_of
from workbook_tools.labels.answers import NO_READING, AnswerError, read_answers
from workbook_tools.measurands import all_measurands

_KEYS = ("is", "of", "stage", "unit")


@dataclass(frozen=True)
class Corrections:
    """What was corrected in a review copy: how many numbers, and the layout that says so."""

    numbers: int
    layout: str


@dataclass(frozen=True)
class _Row:
    """A number of the list: its cell, its label as an answer names it, and what was corrected."""

    row: int
    place: Place
    about: str
    corrected: tuple[tuple[str, str], ...]


def corrections(path: Path) -> Corrections:
    """What the builder corrected in a review copy.

    Where all numbers of a label were corrected alike, the answer is about the label and holds for
    all books; any other is about its cell, in books of the reviewed one's name. Raises BookError
    for a file that cannot be read, is no review copy, or holds a name that is not known.
    """
    sheet = _list_of(path)
    rows = list(_rows(sheet))
    by_label: dict[str, list[_Row]] = defaultdict(list)
    for row in rows:
        if row.about:
            by_label[row.about].append(row)
    shared: list[str] = []
    own: list[str] = []
    for about, same in by_label.items():
        alike = {row.corrected for row in same}
        if len(alike) == 1 and same[0].corrected and "of" not in dict(same[0].corrected):
            shared.append(_line(about, same[0].corrected))
        else:
            own += [_line(_cells(row), row.corrected) for row in same if row.corrected]
    own += [_line(_cells(row), row.corrected) for row in rows if row.corrected and not row.about]
    file = _text(sheet, 2, 2)
    return Corrections(sum(bool(r.corrected) for r in rows), _layout(file, shared, own))


def _layout(file: str, shared: Sequence[str], own: Sequence[str]) -> str:
    lines = [f"## What was corrected in the review of {text_of(file)}.", ""]
    if shared:
        lines += ["## By their labels, in all books:", "answers = ["]
        lines += [f"  {line}" for line in dict.fromkeys(shared)] + ["]", ""]
    if own:
        lines += [
            "## By their cells: books of the same form may be added to files, as \"1042*\".",
            "[[book]]", f"files = [{text_of(glob.escape(file))}]", "answers = [",
            *(f"  {line}" for line in own), "]", "",
        ]  # fmt: skip
    return "\n".join(lines)


def _cells(row: _Row) -> str:
    return f"cells = {text_of(str(row.place))}"


def _line(about: str, corrected: Sequence[tuple[str, str]]) -> str:
    return f"{{ {about}, {', '.join(f'{key} = {text_of(text)}' for key, text in corrected)} }},"


def _list_of(path: Path) -> Sheet:
    """The list of a review copy, wherever its sheet was moved to."""
    for sheet in read_cells(path).sheets:
        heads = tuple(_text(sheet, FIRST_ROW - 1, n) for n in range(1, len(HEADS + KEPT) + 1))
        if heads == HEADS + KEPT:
            return sheet
    raise BookError(
        "its list of numbers is not there", "make a new copy with survey BOOK --marked COPY.xlsx"
    )


def _text(sheet: Sheet, row: int, column: int) -> str:
    cell = sheet.cells.get((row, column))
    return "" if cell is None or cell.value is None else " ".join(str(cell.value).split())


def _rows(sheet: Sheet) -> Iterator[_Row]:
    ids = {m.name.casefold(): m.id for m in all_measurands()} | {NO_READING: NO_READING}
    first, before = HEADS.index(ASKED[0]) + 1, len(HEADS) + 1
    for row in sorted({r for r, _ in sheet.cells if r >= FIRST_ROW}):
        if not _text(sheet, row, 2):
            continue
        corrected = []
        for n, key in enumerate(_KEYS):
            now, kept = _text(sheet, row, first + n), _text(sheet, row, before + n)
            if now != kept:
                said = _named(ids, now) if key == "is" else now
                corrected += [(key, said)] if said else []
        found = _Row(
            row,
            Place(_text(sheet, row, 1), _text(sheet, row, 2)),
            _text(sheet, row, before + len(_KEYS)),
            tuple(corrected),
        )
        _check(sheet, found)
        yield found


def _named(ids: Mapping[str, str], name: str) -> str:
    """The measurand of a name of the list; a cell that was emptied says that it is no reading."""
    if not name:
        return NO_READING
    return ids.get(name.casefold(), name)


def _check(sheet: Sheet, row: _Row) -> None:
    """Refuse what no layout can say, with the cell of the review copy where it stands."""
    if not row.corrected:
        return
    if row.about == BY_FORMULA:
        here = Place.at(sheet.title, row.row, HEADS.index(ASKED[0]) + 1)
        raise BookError(
            f"{here}: a formula takes {row.place} for what it is, before any answer",
            "correct the formula in the book, and leave this row as it was",
        )
    try:
        list(read_answers([{"cells": str(row.place), **dict(row.corrected)}]))
    except AnswerError as error:
        key = error.reason.partition(":")[0]
        column = HEADS.index(ASKED[_KEYS.index(key)]) if key in _KEYS else 0
        here = Place.at(sheet.title, row.row, column + 1)
        raise BookError(f"{here}: {error.reason}", "choose from the list of its cell") from None
