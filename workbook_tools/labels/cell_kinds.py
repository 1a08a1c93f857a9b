"""What kind of thing each cell of a sheet holds, before a word of it is looked up."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Literal

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.labels.cell_figures import angle_from_dead_center
from workbook_tools.labels.cell_words import no_value, without_box
from workbook_tools.labels.content import is_measured, is_unit, without_tick
from workbook_tools.labels.dates import is_day_of_month
from workbook_tools.labels.remarked import is_judged, sizes_with_remarks
from workbook_tools.labels.several_sizes import (
    named_sizes,
    placed_sizes,
    several_sizes,
    staged_size,
)
from workbook_tools.measurands.heights import is_height
from workbook_tools.measurands.position import number_named_too, numbers_listed, parse

CellKind = Literal[
    "number",  # typed
    "measured",  # a text that is one number with its unit, a mark or a note
    "formula",
    "date",
    "nothing",  # a word in place of a number: n/a, ok, a tick
    "unit",
    "text",
    "remark",  # a longer text
]
VALUES: tuple[CellKind, ...] = ("number", "measured", "formula")
At = tuple[int, int]

# A label is no longer than this; a longer text is a remark.
MOST_LETTERS = 60
_MOST_WORDS = 9
# Letters that name a place or a bank more often than a unit.
_PLACES = ("m", "l", "n", "k", "c", "f", "w", "h", "v")
_TICKS = {
    "y", "yes", "n", "no", "ok", "o.k.", "x", "ja", "nein", "oui", "non", "si", "sì", "sí", "✓",
    "✔", "done", "std", "zero", "nil", "none", "?", "*", "n/m", "n.m.", "nm.", "n.d.", "s/d",
    "n. gem.", "n.gem.", "nicht gem.", "nicht gemessen", "tbd", "tbc",
}  # fmt: skip
# Newtons per meter have a capital.
_NOT_MEASURED = "n/m"
_NUMBER = r"[+\-−–]?(?:\d+(?:[.,]\d+)*|[.,]\d+)"
# A range in words, and no exhaust of the third: "3 à 10".
_FROM_TO = re.compile(rf"{_NUMBER}\s+(?:à|a|to|bis)\s+{_NUMBER}", re.IGNORECASE)
# A number first, perhaps with a mark before it; no ordinal, and no number of a section.
NUMBER_FIRST = re.compile(
    r"(?![1-4]°\s*(?:seg|ane|anel|aro|ani|fasc)\w*)"
    r"(?!\d+(?:st|nd|rd|th|er|e|º|ª|°\s*[a-z])\b)(?!\d{1,2}[.)]\s+[^\W\d_]{3})"
    r"(?:['~<>≈±≤≥]|(?:ca|approx|about|min|max|env)\.?\s)?\s*" + _NUMBER,
    re.IGNORECASE,
)
_EXHAUST = ("ex", "exh", "exhaust")
_COUNTED = re.compile(r"(?:#?\d{1,4}|\d/\d)\s+(?P<word>[^\W\d_]+)\b.*", re.IGNORECASE)
# The first intake valve, and hardly one inch.
_SIDED = re.compile(r"#?\d{1,2}\s*(?:in|[iea])\.?", re.IGNORECASE)
# The front valve of the first cylinder, and hardly one degree: "1F".
_AT_AN_END = re.compile(r"#?\d{1,2}[FR]")
# The gap of a ring in short: "2G" beside "TG", "2RG" beside "TRG".
_RING_IN_SHORT = re.compile(r"[123]R?G")
# A ring by its groove: "1. Nut", "2nd groove".
_RING_OF_A_GROOVE = re.compile(
    r"[123](?:\.|[ªº°]|st|nd|rd|er?|[eè]me|re)\s*"
    r"(?:nut|ring|groove|gorge|segment|ranura|aro|cava|fascia)",
    re.IGNORECASE,
)
# At what lift a duration is taken: ".050 dur".
_CHECKED_AT = re.compile(r"[.,]?\d{2,3}\"?\s+(?:lift\s+)?(?:dur|duration)\b.*", re.IGNORECASE)
# A place on a flange as on a clock's face: "3:00".
_HOUR = re.compile(r"(?:1[0-2]|[1-9]):00")
# How far down a bore: no piston stands so far down in it.
_FAR_DOWN = re.compile(
    r"(?:[1-9]\d?(?:[.,]\d{1,2})?|0?[.,][257]5?)\s?(?:\"|''|in(?:ch)?)\.?\s"
    r"(?:down|dn|deep|(?:below|from) (?:the )?(?:deck|top|bottom))",
    re.IGNORECASE,
)
_NAMES_IN_SHORT = (
    _SIDED,
    _AT_AN_END,
    _RING_IN_SHORT,
    _RING_OF_A_GROOVE,
    _CHECKED_AT,
    _HOUR,
    _FAR_DOWN,
)
# What an oil is called by, and no size of anything: "20W-50".
_OIL_GRADE = re.compile(r"\d{1,2}\s?W[- ]?\d{2}\b", re.IGNORECASE)
_DATE = re.compile(
    r"\d{1,4}[./-]\d{1,2}[./-]\d{2,4}|\d{1,2}(?:st|nd|rd|th)?\.?\s+[^\W\d_]{3,}\.?,?\s+\d{2,4}"
    r"|[^\W\d_]{3,}\.?\s+\d{1,2},?\s+\d{4}",
    re.IGNORECASE,
)
_TOO_LONG_FOR_A_NUMBER = 34
# A size that is about so much, and no sixteenth of anything: "~.016".
_ABOUT = re.compile(r"[~≈]\s*\d*[.,]\d+")


def kinds_of(sheet: Sheet) -> Mapping[At, CellKind]:
    """The kind of each cell that holds something."""
    kinds = ((at, kind_of(cell)) for at, cell in sheet.cells.items())
    found = {at: kind for at, kind in kinds if kind is not None}
    for at, kind in found.items():
        if kind != "unit" or not is_in(sheet.cells[at].value):
            continue
        if _has_exhaust_beside(sheet, at) or is_above_out(sheet, at):
            found[at] = "text"
    found |= dict.fromkeys(_of_left_bank(sheet, found), "text")
    return found | dict.fromkeys(sizes_with_remarks(sheet, found), "measured")


# Which one on the left bank, and no liters, where others are on the right: "1L" beside "1R".
_ON_A_BANK = re.compile(r"\d{1,2}(?P<bank>[LR])")


def _of_left_bank(sheet: Sheet, kinds: Mapping[At, CellKind]) -> list[At]:
    """The cells that say which one of the left bank, in a row or column with some of the right."""
    told = {
        at: found["bank"]
        for at, kind in kinds.items()
        if kind in ("text", "measured")
        and (found := _ON_A_BANK.fullmatch(str(sheet.cells[at].value).strip()))
    }
    right = [at for at, bank in told.items() if bank == "R"]
    rows, columns = {row for row, _ in right}, {column for _, column in right}
    left = (at for at, bank in told.items() if bank == "L")
    return [at for at in left if at[0] in rows or at[1] in columns]


def is_in(value: object) -> bool:
    """Whether a cell's value is the word "in", which is an inch or the intake."""
    return isinstance(value, str) and value.strip(" .:").casefold() == "in"


def _has_exhaust_beside(sheet: Sheet, at: At) -> bool:
    """Whether a cell next to one with "In" says the exhaust: then it is the intake, no inch."""
    row, column = at
    near = ((0, 1), (0, -1), (1, 0), (-1, 0), (0, 2), (2, 0))  # "in | 0.12 | ex | 0.17"
    beside = (sheet.cells.get((row + r, column + c)) for r, c in near)
    return any(
        cell is not None
        and isinstance(cell.value, str)
        and cell.value.strip(" .:").casefold() in _EXHAUST
        for cell in beside
    )


def is_above_out(sheet: Sheet, at: At) -> bool:
    """Whether "Out" stands right below a cell with "In": what came and what went, no inch."""
    below = sheet.cells.get((at[0] + 1, at[1]))
    return (
        below is not None
        and isinstance(below.value, str)
        and below.value.strip(" .:").casefold() == "out"
    )


def kind_of(cell: Cell) -> CellKind | None:
    """The kind of a cell, None for one with nothing but spaces."""
    if cell.formula:
        return "text" if isinstance(cell.value, str) and not is_measured(cell.value) else "formula"
    value = cell.value
    if isinstance(value, float):
        return "number"  # As most of a book's cells are.
    if value is None:
        return None
    if isinstance(value, (datetime.date, datetime.time, datetime.timedelta)):
        return "date"
    if isinstance(value, bool):
        return "nothing"
    if isinstance(value, int):
        return "number"
    if not isinstance(value, str):
        return "nothing"
    text = " ".join(value.split())
    # "[x] Bore" is a label; a box alone stands for a tick.
    return kind_of_text(without_box(text) or text) if text else None


@lru_cache(maxsize=16384)
def kind_of_text(text: str) -> CellKind:
    """The kind of a typed text."""
    text = without_tick(text)
    even = text.casefold().strip(" :")
    if text != _NOT_MEASURED and is_unit(text) and even not in _PLACES and not _is_initials(text):
        return "unit"
    if even in _TICKS:
        return "nothing"
    from_to = _FROM_TO.fullmatch(text) is not None
    if not from_to and (_DATE.fullmatch(text) or is_day_of_month(text)):
        return "date"
    if _OIL_GRADE.match(text):
        return "remark"
    if _is_name_in_short(text):
        return "text"
    if from_to or _is_measured(text):
        return "measured"
    if parse(text) is not None:
        return "text"
    if no_value("", text) is not None:
        return "nothing"
    if _is_number_with_words(text):
        return "measured"
    long = len(text) > MOST_LETTERS or len(text.split()) > _MOST_WORDS
    return "remark" if long else "text"


def _is_name_in_short(text: str) -> bool:
    """Whether a text with a number in it says which one something is of, or how deep in a bore."""
    named = any(pattern.fullmatch(text) for pattern in _NAMES_IN_SHORT)
    return named or is_height(text) or bool(numbers_listed(text) or number_named_too(text))


def _is_measured(text: str) -> bool:
    """Whether a text is a size with its unit, several of them, or an angle from a dead center."""
    if not any(map(str.isnumeric, text)):
        return False  # As most texts of a book.
    if _ABOUT.fullmatch(text):
        return True
    sizes = is_measured(text) or several_sizes(text) or placed_sizes(text) or named_sizes(text)
    return bool(sizes) or bool(staged_size(text)[1]) or angle_from_dead_center(text) is not None


def _is_initials(text: str) -> bool:
    """Whether two capitals are somebody's initials rather than a unit."""
    return (
        len(text) == 2 and text.isupper() and text not in ("MM", "CC", "IN", "NM", "KG", "HP", "KW")
    )


def _is_number_with_words(text: str) -> bool:
    if NUMBER_FIRST.match(text) is None or len(text) > _TOO_LONG_FOR_A_NUMBER:
        return False
    counted = _COUNTED.fullmatch(text)
    # "1 rough", "2 shims", "1/4 lift": so many of something, so much, or which one of it.
    two = " ".join(text.split()[1:3])
    return counted is None or is_unit(counted["word"]) or is_unit(two) or is_judged(text)
