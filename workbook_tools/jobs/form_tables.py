"""Tables that a book keeps beside its measurements: power runs, oil pressures, parts, gauges."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from typing import Literal, get_args

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import cell_text
from workbook_tools.jobs.paper_records import FormCell, FormRow
from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.tokens import phrase, phrases

Form = Literal["pull", "run", "part", "gauge"]
# A power run is often laid out across the sheet, a column a speed.
_ACROSS: tuple[Form, ...] = ("pull",)
_UNIT = re.compile(r"\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]\s*$")
# A head's unit without brackets around it.
_BARE_UNIT = re.compile(
    r"[\s,-]+(b?hp|kw|ps|cv|ch|n\.?m|lbf?\.?[- ]?ft|ft\.?[- ]?lbf?s?|rpm|1/min|psi|bar|kpa)\.?$",
    re.IGNORECASE,
)
# Heads that are a unit themselves.
_UNIT_HEADS = {"hp": "hp", "bhp": "hp", "kw": "kW", "ps": "PS", "rpm": "rpm"}
_LONGEST_HEAD = 60
_MOST_ROWS = 200
# A table goes on past one row without anything, not past two.
_MOST_EMPTY = 2


@dataclass(frozen=True)
class _Heads:
    needs: frozenset[str]
    one_of: frozenset[str]
    words: Mapping[str, frozenset[tuple[str, ...]]]


def form_rows(book: OpenBook) -> tuple[FormRow, ...]:
    """Every row of such tables, as the book is read. Raises nothing."""
    return tuple(row for sheet in book.sheets for row in _on_sheet(sheet))


def of_gauges(rows: Iterable[FormRow]) -> frozenset[Place]:
    """The cells of lists of gauges: what a gauge is off by is no size of the engine."""
    return frozenset(cell.place for row in rows if row.form == "gauge" for _, cell in row.cells)


def _on_sheet(sheet: Sheet) -> Iterator[FormRow]:
    heads: dict[int, dict[int, str]] = {}
    stubs: dict[int, dict[int, str]] = {}
    for row, column, text in sheet.texts:
        if len(text) <= _LONGEST_HEAD:
            heads.setdefault(row, {})[column] = text
            stubs.setdefault(column, {})[row] = text
    heads, stubs = _in_order(heads), _in_order(stubs)
    cells = sheet.cells
    for form in get_args(Form):
        yield from _tables(sheet.title, form, heads, cells, across=False)
    for form in _ACROSS:
        yield from _tables(sheet.title, form, stubs, cells, across=True)


def _in_order(lines: Mapping[int, Mapping[int, str]]) -> dict[int, dict[int, str]]:
    return {at: dict(sorted(texts.items())) for at, texts in sorted(lines.items())}


def _tables(
    title: str,
    form: Form,
    lines: Mapping[int, Mapping[int, str]],
    cells: Mapping[tuple[int, int], Cell],
    *,
    across: bool,
) -> Iterator[FormRow]:
    """The rows of tables of one form; lines: texts in their order; across: rows are columns."""
    known = _forms()[form]
    for at, texts in lines.items():
        columns: dict[str, tuple[int, str]] = {}
        for column, text in texts.items():
            role, unit = _role(form, text)
            if role:
                columns.setdefault(role, (column, unit))
        if known.needs <= columns.keys() and known.one_of & columns.keys():
            yield from _rows(title, form, at, columns, cells, across=across)


def _rows(
    title: str,
    form: Form,
    at: int,
    columns: Mapping[str, tuple[int, str]],
    cells: Mapping[tuple[int, int], Cell],
    *,
    across: bool,
) -> Iterator[FormRow]:
    needs = _forms()[form].needs
    empty = 0
    for row in range(at + 1, at + _MOST_ROWS):
        found = []
        for role, (column, unit) in columns.items():
            cell = cells.get((column, row) if across else (row, column))
            text = cell_text(cell)
            if cell is not None and text:
                place = Place.at(title, column, row) if across else Place.at(title, row, column)
                found.append((role, FormCell(place, text, _number(cell), unit)))
        said = {role for role, _ in found}
        if not said:
            empty += 1
            if empty == _MOST_EMPTY:
                return
            continue
        empty = 0
        if needs <= said and not _is_head(form, found):
            yield FormRow(form, tuple(found))


def _is_head(form: Form, found: list[tuple[str, FormCell]]) -> bool:
    """Whether a row is the heads of the next table: a power run has numbers, another no heads."""
    if form == "pull":
        return any(cell.number is None for role, cell in found if role == "speed")
    return sum(_role(form, cell.text)[0] == role for role, cell in found) > 1


@lru_cache(maxsize=16384)
def _role(form: Form, text: str) -> tuple[str, str]:
    """What a head says by its role in a form, "" for any other, and its unit."""
    even = " ".join(text.split()).rstrip(" :").casefold()
    bracketed, bare = _UNIT.search(text.strip()), _BARE_UNIT.search(even)
    unit = bracketed[1] if bracketed else bare[1] if bare else _UNIT_HEADS.get(even, "")
    names = [_UNIT.sub("", even)]
    if bare:
        names.append(even[: bare.start()].rstrip(" ,"))
    said = [phrase(name) for name in names]
    found = (role for one in said for role, known in _forms()[form].words.items() if one in known)
    return next(found, ""), unit


def _number(cell: Cell) -> float | None:
    value = cell.value
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return None
    return float(value)


@cache
def _forms() -> Mapping[str, _Heads]:
    text = resources.files(__package__ or "").joinpath("form_heads.toml").read_text("utf-8")
    return {
        form: _Heads(
            frozenset(data["needs"]),
            frozenset(data["one_of"]),
            {role: phrases(words) for role, words in data["heads"].items()},
        )
        for form, data in own_toml(text).items()
    }
