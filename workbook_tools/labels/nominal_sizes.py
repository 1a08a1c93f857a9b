"""Sizes written as so many parts of a millimeter or an inch over a nominal size.

"Nominal 98", and beside it 14 in hundredths: 98.14. The nominal size stands in a column of its
own, or in the words over the numbers: "bore, over 4.250 (thou)", "bore 86.00 + hundredths".
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from functools import cache, lru_cache

from workbook_tools.labels.added_sizes import SMALL_UNITS, size_added_to
from workbook_tools.labels.cell_texts import either_of
from workbook_tools.labels.content import plain_number
from workbook_tools.labels.line import Option, Over
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.quantities import LENGTH, SYSTEMS, System, UnreadableText, unit_named

# More than this share of the nominal size nothing is over it.
_MOST_OVER = 0.05
# A text further up speaks of other numbers.
_MOST_ROWS_BELOW = 12
# Sizes of one thing on parts of one engine are not so far from each other.
_MOST_APART = 1.25
# Beside numbers that are no sizes, a text that leaves more than this to be assumed names no other
# measurand: "tenths of a thou over 2.8150".
_NAMED = 1
_IN_METERS = {"mm": 0.001, "in": 0.0254}


def is_nominal(text: str) -> bool:
    """Whether a head says that nominal sizes stand below it."""
    return _nominal_words().search(text.casefold()) is not None


@cache
def _nominal_words() -> re.Pattern[str]:
    return re.compile(rf"\b{either_of('nominal')}")


def over_nominal(
    cells: SheetText, found: Sequence[tuple[Spot, float]], options: Sequence[Option], unit: str,
    system: System | None,
) -> Over | None:  # fmt: skip
    """What the numbers of a line are amounts over, None where they are sizes themselves.

    They are amounts where none of them is a size of what its words say likeliest, and over the
    nominal size beside them all of them are.
    """
    most = max((o.weight for o in options), default=0)
    sized = [o for o in options if o.term.kind is LENGTH and o.weight == most]
    found = [(s, n) for s, n in found if not s.inline] if sized else ()
    if not found:
        return None
    amounts = unit or _unit_of_amounts(cells)
    # Beside nominal sizes, and with a note that says in what they are, whole numbers are amounts.
    told = not unit and amounts and all((2 * n).is_integer() for _, n in found)
    if not told and any(_can_be(o, found, unit, system) for o in sized):
        return None
    scale = _scale(amounts)
    of = sized[0].term.id
    numbers = [n for _, n in found]
    most_assumed = _NAMED if max(numbers) > _MOST_APART * min(numbers) else math.inf
    nominal = {
        (s.row, s.column): _nominal_of(cells, s, of, most_assumed)
        for s, _ in (found if scale else ())
    }
    sizes = {at: size for at, size in nominal.items() if size is not None}
    if not sizes or len(sizes) < len(nominal):
        return None
    in_inches = amounts in ("thou", "tenth", "in", '"') or system == "inch"
    size_unit = "in" if in_inches else "mm"
    one = _IN_METERS[size_unit]
    over = Over(amounts, size_unit, sizes, scale / one)
    near = all(abs(n) * scale <= _MOST_OVER * sizes[s.row, s.column] * one for s, n in found)
    made = [over.size((s.row, s.column), n) * one for s, n in found]
    usual = any(all(map(o.term.is_usual, made)) for o in sized)
    return over if near and usual else None


def _can_be(
    option: Option, found: Sequence[tuple[Spot, float]], unit: str, system: System | None
) -> bool:
    """Whether a number of a line is a size itself that a meaning can have."""
    factors = [si_factor(option.term, unit, s) or 0.0 for s in ((system,) if system else SYSTEMS)]
    return any(option.term.is_possible(n * f) for _, n in found for f in factors if n * f)


def _scale(unit: str) -> float:
    """A unit of amounts in meters, 0 where it is no length."""
    try:
        kind, factor = unit_named(unit)[:2]
    except UnreadableText:
        return 0.0
    return factor if kind is LENGTH else 0.0


def _nominal_of(cells: SheetText, spot: Spot, of: str, most_assumed: float) -> float | None:
    """The nominal size beside a cell, or the one that a text over it names for a measurand.

    A text that leaves more to be assumed names no other measurand.
    """
    if spot.nominal is not None:
        cell = cells.sheet.cells.get(spot.nominal)
        value = cell.value if cell else None
        return float(value) if isinstance(value, (int, float)) and value else None
    over = [
        (row, size)
        for (row, _), text in cells.texts.items()
        if spot.row - _MOST_ROWS_BELOW <= row <= spot.row and (size := _nominal_in(text))
        if all(c.measurand == of for c in meaning_of(text).candidates[:1] if c.cost <= most_assumed)
    ]
    return max(over, default=(0, None), key=lambda one: one[0])[1]


@lru_cache(maxsize=4096)
def _nominal_in(text: str) -> float | None:
    """The nominal size that a text names, None where it names none."""
    found = _pattern().search(text.casefold())
    added = size_added_to(text)
    return plain_number(found["size"]) if found else added.size if added else None


@cache
def _pattern() -> re.Pattern[str]:
    words = either_of("nominal"), either_of("over_nominal")
    return re.compile(
        rf"\b(?:{'|'.join(words)})[^\d]{{0,20}}?(?P<size>(?:\d{{1,3}}[.,]\d+|[.,]\d{{2,}}|\d{{2,3}}))\b"
    )


# Asked for each line of a sheet.
@lru_cache(maxsize=1)
def _unit_of_amounts(cells: SheetText) -> str:
    """The unit of amounts that a note of the sheet names: "deviations in 1/100 mm"."""
    return next((unit for text in cells.texts.values() if (unit := unit_of_amounts_in(text))), "")


@lru_cache(maxsize=8192)
def unit_of_amounts_in(text: str) -> str:
    """The small unit that a note about amounts over nominal sizes names, "" for any other text."""
    even = text.casefold()
    if not _of_amounts().search(even) and _nominal_in(text) is None:
        return ""
    told = ((unit, words.search(even)) for unit, words in _small_units().items())
    at = {unit: found.start() for unit, found in told if found}
    return min(at, key=at.__getitem__, default="")  # "tenths of a thou" are no thou.


@cache
def _of_amounts() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{either_of('deviation')}|{either_of('nominal')})")


@cache
def _small_units() -> Mapping[str, re.Pattern[str]]:
    """The small units with the words for each."""
    return {u: re.compile(rf"(?<!\w){either_of(words)}") for u, (words, _) in SMALL_UNITS.items()}
