"""Sizes of which only the last figures are typed: "mains 2.74__, pins 2.08__" over 91, 89, 90."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.labels.added_sizes import size_added_to, size_noted
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import plain_number
from workbook_tools.labels.line import Option, Over
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.weights import weights
from workbook_tools.measurands import Measurand, find
from workbook_tools.quantities import LENGTH, SYSTEMS, System

# The figures that all have, and a sign for each of those that are typed below: "4.0xx".
_BASE = re.compile(
    r"(?<![\w.,])(?P<base>\d{1,3}[.,]\d*)(?P<left>_{1,3}|x{1,3}|\*{2,3}|#{2,3}|-{2,3}|\.{2,3})(?!\w)",
    re.IGNORECASE,
)
# A size to which the row behind it adds last figures: "86.500 +", "Bore 3.1250 +".
_ADDED = re.compile(
    r"(?:\D*[^\W\d_]{2}\D*\s(?=\d+[.,]\d\d)|(?=\d+[.,]\d{3}))(?P<base>\d{1,3}[.,]\d{2,4})\s*\+"
)
_FIGURES_ADDED = 2
# Few texts leave out any.
_LEFT_OUT = re.compile(r"\d[.,]?\d*(?:_|x|\*\*|##|--|\.\.)", re.IGNORECASE)
_FIGURES = words_of("figures_left_out")
_CLAUSE = re.compile(r"[,;:.()]|\s{2,}")
# A note further up speaks of other numbers.
_MOST_ROWS_BELOW = 20
# What the last figures are of sizes with so many decimals.
_UNITS: Mapping[tuple[System, int], str] = {
    ("inch", 3): "thou", ("inch", 4): "tenth", ("metric", 2): "1/100 mm", ("metric", 3): "um",
}  # fmt: skip
# The units of sizes: of how smooth a face is no figures are left out.
_LENGTHS = (LENGTH.inch, LENGTH.metric)
_SIZE_UNITS: Mapping[System, str] = {"inch": "in", "metric": "mm"}
_CRANK = "crank"


class Base(NamedTuple):
    """The figures that several sizes share, how many are left out, and what they are of."""

    words: str
    number: float
    decimals: int
    left: int


@lru_cache(maxsize=8192)
def bases_in(text: str) -> tuple[Base, ...]:
    """What a text says that all sizes below it begin with, () for any other text."""
    found = [*_BASE.finditer(text)]
    if not found:
        return ()
    ends = [0, *(one.end() for one in found)]
    before = [
        _nearest(reversed(_CLAUSE.split(text[end : one.start()])))
        for end, one in zip(ends, found, strict=False)
    ]
    starts = [*(one.start() for one in found[1:]), len(text)]
    behind = [
        _nearest(_CLAUSE.split(text[one.end() : start])[:1])
        for one, start in zip(found, starts, strict=True)
    ]
    words = before if before[0] else behind
    return tuple(
        Base(said, plain_number(one["base"].rstrip(".,")), len(one["base"]) - 1
             - max(one["base"].find("."), one["base"].find(",")), len(one["left"]))
        for one, said in zip(found, words, strict=True)
    )  # fmt: skip


@lru_cache(maxsize=4096)
def _over_in_label(label: str) -> Base | None:
    """The size that a label says its numbers are over, and in which figures: "3.280 + tenths"."""
    told = size_added_to(label)
    return Base("", told.size, told.decimals, told.with_added - told.decimals) if told else None


def is_added_to(text: str) -> bool:
    """Whether a cell holds a size to which the numbers behind it add last figures."""
    return text.endswith("+") and _ADDED.fullmatch(text) is not None


@lru_cache(maxsize=1024)
def _added(text: str) -> tuple[Base, ...]:
    told = _ADDED.fullmatch(text)
    if told is None:
        return ()
    decimals = len(told["base"].replace(",", ".").partition(".")[2])
    number = plain_number(told["base"])
    return (Base("", number, decimals - _FIGURES_ADDED, _FIGURES_ADDED),)


@lru_cache(maxsize=4096)
def _noted(text: str) -> tuple[Base, ...]:
    """The size that a note gives, to which the cells below it add last figures."""
    told = size_noted(text)
    if told is None:
        return ()
    name, size = told
    words = _nearest(reversed(_CLAUSE.split(name)))
    left = size.with_added - size.decimals
    return (Base(words, size.size, size.decimals, left),) if words else ()


def _nearest(clauses: Iterable[str]) -> str:
    """The first of some clauses that names a size, "" where none does."""
    named = (" ".join(w for w in c.split() if w.casefold() not in _FIGURES) for c in clauses)
    return next((one for one in named if _lengths_named(one)), "")


def without_bases(text: str) -> str:
    """A text without what it says that sizes begin with, which are no sizes by themselves."""
    if _noted(text):
        return ""
    return _BASE.sub(" ", text) if _LEFT_OUT.search(text) else text


def last_figures(
    cells: SheetText, found: Sequence[tuple[Spot, float]], options: Sequence[Option], unit: str
) -> tuple[Over, Measurand] | None:
    """What whole numbers are the last figures of, and of which size; None for any others."""
    if not options or not found or any(spot.inline for spot, _ in found):
        return None
    if base := _over_in_label(found[0][0].label):
        return _told_by(base, found, options)
    if unit:
        return None
    if len(found) > 1 and [n for _, n in found] == [*range(1, len(found) + 1)]:
        return None  # They count what stands below them.
    row = min(spot.row for spot, _ in found)
    told = [
        (weight, base, term, system)
        for (at, _), text in cells.texts.items()
        if row - _MOST_ROWS_BELOW <= at <= row
        for base in (*bases_in(text), *(_added(text) if at == row else ()), *_noted(text))
        if all(n.is_integer() and 0 <= n < 10 ** (base.left or _FIGURES_ADDED) for _, n in found)
        for weight, term, system in _sizes(base, options)
    ]
    if not told:
        return None
    return _of_base(told, found)


def _told_by(
    base: Base, found: Sequence[tuple[Spot, float]], options: Sequence[Option]
) -> tuple[Over, Measurand] | None:
    """What numbers add to the size in their own label, None where no meaning has such a size."""
    told = [(weight, base, term, system) for weight, term, system in _sizes(base, options)]
    return _of_base(told, found) if told else None


def _of_base(
    told: Sequence[tuple[int, Base, Measurand, System]], found: Sequence[tuple[Spot, float]]
) -> tuple[Over, Measurand]:
    _, base, term, system = max(told, key=lambda one: one[0])
    decimals = base.decimals + base.left
    nominal = {(s.row, s.column): base.number for s, _ in found}
    figures = _UNITS[system, decimals]
    return Over(figures, _SIZE_UNITS[system], nominal, round(10**-decimals, decimals)), term


def _sizes(base: Base, options: Sequence[Option]) -> list[tuple[int, Measurand, System]]:
    """What the shared figures may be of, among the meanings of a line, with their weights."""
    named = _lengths_named(base.words)
    return [
        (option.weight + weights().words.said * (option.term.id in named[:1]), option.term, system)
        for option in options
        if option.term.bare_units == _LENGTHS and (not base.words or option.term.id in named)
        for system in SYSTEMS
        if (system, base.decimals + base.left) in _UNITS
        if option.term.is_usual(base.number * (si_factor(option.term, "", system) or 0.0))
    ]


@lru_cache(maxsize=1024)
def _lengths_named(words: str) -> tuple[str, ...]:
    """The sizes that words may name, those of a crank first; () where they name none."""
    if not words or re.search(r"\d", words):
        return ()
    of_crank, alone = meaning_of(words, (_CRANK,)), meaning_of(words)
    if alone.unknown:
        return ()
    found = sorted((*of_crank.candidates, *alone.candidates), key=lambda one: one.cost)
    terms = (find(one.measurand) for one in found)
    return tuple(dict.fromkeys(t.id for t in terms if t is not None and t.kind is LENGTH))
