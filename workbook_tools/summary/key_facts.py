"""What an engine is known by: the rows of its first page, each the best that its book has."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from importlib import resources
from typing import Any

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands import find
from workbook_tools.summary.rows import Row

_STAGES = ("", "final", "machined")


@dataclass(frozen=True)
class Fact:
    """A key fact as the list has it.

    measurands: the first that the book has tells it; words: of labels that mean it, where
    nothing else says what such a row measures; one: that it is a single number; least: that
    the row with the least number tells it; most: that only the largest counts; clearance: that
    it is one, between parts that must not touch nor knock.
    """

    group: str
    name: str
    measurands: tuple[str, ...]
    words: str = ""
    one: bool = False
    least: bool = False
    most: bool = False
    clearance: bool = False


@dataclass(frozen=True)
class KeyFact:
    """A key fact of a build, with the row that tells it best.

    most: whether only the largest number counts; note: what is said beside it; clearance:
    whether it is one.
    """

    group: str
    name: str
    row: Row
    most: bool = False
    note: str = ""
    clearance: bool = False

    @cached_property
    def unit(self) -> str:
        """The unit of its numbers, that of its measurand where the book writes none."""
        term = find(self.row.measurand)
        return self.row.unit or (term.bare_units[0] if term and "%" in term.bare_units else "")

    @cached_property
    def one(self) -> str:
        """The number where one says it all, "" where a least and a largest are told."""
        extent = self.row.extent
        if extent is None or extent.equal:
            return self.row.result or "no value"
        return extent.largest if self.most else ""

    @cached_property
    def where(self) -> str:
        """What is said beside a single number: where it is found, or how it is meant."""
        extent = self.row.extent
        if self.most and extent is not None:
            return ", ".join(filter(None, (f"at {extent.largest_at}", self.note)))
        count = sum(number.value is not None for number in self.row.numbers)
        alike = f"all {count} alike" if extent is not None and extent.equal else ""
        note = f"({self.note})" if self.note else ""
        return " ".join(filter(None, (alike, note)))

    @cached_property
    def is_drawn(self) -> bool:
        """Whether a strip says more than the number does."""
        row = self.row
        return not self.most and (len(row.numbers) > 1 or bool(row.band)) and row.strip is not None

    @property
    def least_at(self) -> str:
        """Where the least is."""
        return shortened(self.row.extent.least_at) if self.row.extent else ""

    @property
    def largest_at(self) -> str:
        """Where the largest is."""
        return shortened(self.row.extent.largest_at) if self.row.extent else ""

    @cached_property
    def gaps(self) -> str:
        """Where there is no value, "" where there is one everywhere or nowhere."""
        if not self.row.measured:
            return ""
        return shortened(", ".join(n.position for n in self.row.numbers if n.value is None))

    @cached_property
    def verdict(self) -> str:
        """What its band says of it in a word or two, "" where it has none."""
        row = self.row
        out = sum(number.verdict == row.worst for number in row.numbers)
        of_all = f", {out} of {len(row.numbers)}" if len(row.numbers) > 1 else ""
        told = {"ok": "within", "": ""}.get(row.worst, f"{row.worst}{of_all}")
        unsure = sum(number.unsure for number in row.numbers)
        if not unsure:
            return told
        some = f", {unsure} of {len(row.numbers)}" if len(row.numbers) > 1 else ""
        return f"{told}; cannot tell{some}"


@cache
def facts() -> tuple[Fact, ...]:
    """The key facts, in the order of a first page."""
    return tuple(
        Fact(**{**given, "measurands": tuple(given["measurands"])}) for given in _data()["fact"]
    )


@cache
def key_measurands() -> frozenset[str]:
    """What the key facts measure."""
    return frozenset(name for fact in facts() for name in fact.measurands)


def key_facts(rows: Sequence[Row], notes: Mapping[str, str]) -> tuple[KeyFact, ...]:
    """The key facts that the rows of a build tell; one that no row is about is left out.

    One that the book has cells for, and a number in none of them, is told without a value.
    Where several rows tell the same, what the book has itself comes before what the batch
    computes, all positions before a mean that hides the worst, then a judged row before one
    that is not. notes: what is said beside a measurand. Raises nothing.
    """
    told = [row for row in rows if is_of_the_engine(row)]
    return tuple(_told(told, notes))


_NUMBERED = re.compile(r"(\D+ )\d\S*")


def shortened(positions: str) -> str:
    """Positions with what they are of named once: "Cyl 3, Cyl 6" is "Cyl 3, 6"."""
    names = positions.split(", ")
    found = [_NUMBERED.fullmatch(name) for name in names]
    nouns = {match[1] for match in found if match}
    if not all(found) or len(nouns) != 1:
        return positions
    (noun,) = nouns
    return noun + ", ".join(name.removeprefix(noun) for name in names)


def fact_data(fact: KeyFact) -> dict[str, Any]:
    """A key fact as the data of a build has it."""
    row = fact.row
    measured = [(n.value, n.position) for n in row.numbers if n.value is not None]
    nothing: tuple[float | None, str] = (None, "")
    least = min(measured, key=lambda one: one[0], default=nothing)
    largest = max(measured, key=lambda one: one[0], default=nothing)
    return {
        "group": fact.group,
        "name": fact.name,
        "measurand": row.measurand,
        "unit": fact.unit,
        "count": len(measured),
        "least": least[0],
        "least_at": least[1],
        "largest": largest[0],
        "largest_at": largest[1],
        "low": row.low,
        "high": row.high,
        "origin": row.origin,
        "verdict": row.worst,
        "findings": list(row.told),
    }


def _told(rows: Sequence[Row], notes: Mapping[str, str]) -> Iterator[KeyFact]:
    by_measurand: dict[str, list[Row]] = {}
    for row in rows:
        by_measurand.setdefault(row.measurand, []).append(row)
    unnamed = by_measurand.pop("", [])
    for fact in facts():
        own = next((by_measurand[m] for m in fact.measurands if m in by_measurand), [])
        if fact.words:
            by_words = [r for r in unnamed if re.match(fact.words, r.label, re.IGNORECASE)]
            own = [*own, *by_words]
        if own:
            best = max(own, key=_single if fact.one else _least if fact.least else worth)
            note = notes.get(best.measurand, "")
            yield KeyFact(fact.group, fact.name, best, fact.most, note, fact.clearance)


def is_of_the_engine(row: Row) -> bool:
    """Whether a row tells what the engine has, and not what is wanted, usual or on sale.

    Raises nothing.
    """
    if row.stage not in _STAGES:
        return False
    if row.function.removeprefix("ENG.") in _data()["wanted"] or _is_a_wish(row.label):
        return False
    return not any(_is_a_choice(number.position) for number in row.numbers)


@lru_cache(maxsize=4096)
def _is_a_wish(label: str) -> bool:
    return re.search(_data()["wishes"], label, re.IGNORECASE) is not None


@lru_cache(maxsize=4096)
def _is_a_choice(position: str) -> bool:
    return re.fullmatch(_data()["choices"], position, re.IGNORECASE) is not None


def worth(row: Row) -> tuple[bool, bool, bool, bool, bool, bool, int]:
    """How well a row tells what it measures: of several the largest is taken. Raises nothing."""
    own = row.states != "computed"
    count = sum(number.value is not None for number in row.numbers)
    # A block of which no label says where each reading was taken stands behind its means.
    told_apart = any(number.position != number.place.address for number in row.numbers)
    return row.measured, _is_out(row), own, told_apart, count > 1, bool(row.verdict), count


def _single(row: Row) -> tuple[bool, bool, bool, bool]:
    return row.measured, _is_out(row), len(row.numbers) == 1, bool(row.verdict)


def _least(row: Row) -> tuple[bool, bool, float]:
    values = [n.value for n in row.numbers if n.value is not None]
    return row.measured, _is_out(row), -min(values, default=0.0)


def _is_out(row: Row) -> bool:
    """Whether any of a row is outside its band, which no better row must hide."""
    return row.worst in ("low", "high")


@cache
def _data() -> Mapping[str, Any]:
    text = resources.files(__package__ or "").joinpath("key_facts.toml").read_text("utf-8")
    return own_toml(text)
