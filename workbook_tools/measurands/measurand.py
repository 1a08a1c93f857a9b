"""A measurand: what a number of an engine is meant to measure, and one entry of its table.

A measurand is a property of a part: bearing clearance of a main, gap of the second ring.
"""

from __future__ import annotations

import builtins
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal, get_args

from workbook_tools.measurands.order import Order, parse_order
from workbook_tools.quantities import (
    KINDS,
    Kind,
    System,
    UnreadableText,
    from_si,
    read_text,
    unit_named,
)

Of = Literal[
    "engine", "bank", "cylinder", "main", "rod", "cam_bearing", "bearing", "valve", "ring",
    "fastener_group",
]  # fmt: skip
OF: tuple[Of, ...] = get_args(Of)
Language = Literal["en", "de", "fr", "es", "it"]
LANGUAGES: tuple[Language, ...] = get_args(Language)


@dataclass(frozen=True)
class Measurand:
    """What a number is meant to measure.

    id: its name in data ("second_ring_gap"); name: as shown; part: whose property it is
    ("main_bearing"); which: which of several alike ("second", "intake", ""); noun: the
    property as words say it beside the part ("clearance"); property: as a function takes it
    for every part that has it ("bearing_clearance"); of: of what there is one; sign: what
    plus and minus mean, or how the value is taken; zero: whether a 0 can be a reading;
    chosen: whether it is ordered or set, so that many engines have the very same;
    possible: SI, outside it a value is refused; usual: SI, outside it doubted; ranges: who
    says so; digits: decimals to show in (inch, metric); bare_units: what a bare number means
    in (inch, metric); orders: how it stands to others; section, title, rank: its place on
    summaries; words: by language, labels that mean it and that parts and nouns do not make.
    """

    id: str
    name: str
    part: str
    which: str
    noun: str
    property: str
    kind: Kind
    of: Of
    sign: str
    zero: bool
    chosen: bool
    possible: tuple[float, float]
    usual: tuple[float, float]
    ranges: str
    digits: tuple[int, int]
    bare_units: tuple[str, str]
    orders: tuple[Order, ...]
    section: int
    title: str
    rank: int
    words: Mapping[str, tuple[str, ...]] = field(
        default_factory=lambda: MappingProxyType({}), repr=False, hash=False, compare=False
    )

    @builtins.property  # The name property is a field here.
    def number(self) -> int:
        """Its place among all measurands on a summary: section, then rank."""
        return self.section * 1000 + self.rank

    @builtins.property
    def signed(self) -> bool:
        """Whether it can be below zero."""
        return self.possible[0] < 0

    def is_possible(self, value: float) -> bool:
        """Whether an engine can have this value, in SI; a zero only where one can be read."""
        return self.possible[0] <= value <= self.possible[1] and (self.zero or value != 0)

    def is_usual(self, value: float) -> bool:
        """Whether a value, in SI, needs no doubt."""
        return self.usual[0] <= value <= self.usual[1] or (self.zero and value == 0)

    def bare_unit(self, system: System) -> str:
        """The unit that a bare number of it has in a book of this system."""
        return self.bare_units[0 if system == "inch" else 1]

    def shown_digits(self, system: System) -> int:
        """Decimals that it is shown with in this system."""
        return self.digits[0 if system == "inch" else 1]

    def possible_in(self, system: System) -> tuple[float, float]:
        """The possible range as bare numbers of this system."""
        return self._in(self.possible, system)

    def usual_in(self, system: System) -> tuple[float, float]:
        """The usual range as bare numbers of this system."""
        return self._in(self.usual, system)

    def _in(self, limits: tuple[float, float], system: System) -> tuple[float, float]:
        unit = self.bare_unit(system)
        if unit == self.kind.unit(system) or not self.kind.si:
            return from_si(limits[0], self.kind, system), from_si(limits[1], self.kind, system)
        factor = unit_named(unit)[1]
        return limits[0] / factor, limits[1] / factor


_NEEDED = ("name", "part", "noun", "kind", "of", "unit", "possible", "usual", "digits")
_MAY = ("which", "property", "sign", "zero", "chosen", "bare_units", "order", "ranges", "words")


def read_measurand(
    name: str, entry: Mapping[str, Any], *, section: int, title: str, ranges: str, rank: int
) -> Measurand:
    """The measurand that one entry of a table file describes.

    section, title, ranges: of its file; rank: its place there. Raises ValueError naming the
    key, what was expected and what was found.
    """
    _check_keys(entry)
    if entry["kind"] not in KINDS:
        raise ValueError(f"kind: expected one of {sorted(KINDS)}, got {entry['kind']!r}")
    kind = KINDS[entry["kind"]]
    if entry["of"] not in OF:
        raise ValueError(f"of: expected one of {OF}, got {entry['of']!r}")
    possible = _range("possible", entry["possible"], entry["unit"], kind)
    usual = _range("usual", entry["usual"], entry["unit"], kind)
    if not possible[0] <= usual[0] < usual[1] <= possible[1]:
        raise ValueError("usual: expected a range within the possible one")
    bare = entry.get("bare_units", [kind.inch, kind.metric])
    _check_pair("bare_units", bare, str)
    _check_pair("digits", entry["digits"], int)
    return Measurand(
        id=name,
        name=entry["name"],
        part=entry["part"],
        which=entry.get("which", ""),
        noun=entry["noun"],
        property=entry.get("property", name),
        kind=kind,
        of=entry["of"],
        sign=entry.get("sign", ""),
        zero=entry.get("zero", False),
        chosen=entry.get("chosen", False),
        possible=possible,
        usual=usual,
        ranges=entry.get("ranges", ranges),
        digits=(entry["digits"][0], entry["digits"][1]),
        bare_units=(bare[0], bare[1]),
        orders=tuple(parse_order(text) for text in entry.get("order", ())),
        section=section,
        title=title,
        rank=rank,
        words=_words(entry.get("words", {})),
    )


def _check_keys(entry: Mapping[str, Any]) -> None:
    unknown = sorted(set(entry) - set(_NEEDED) - set(_MAY))
    if unknown:
        raise ValueError(f"unknown keys {unknown}; known are {sorted((*_NEEDED, *_MAY))}")
    missing = [key for key in _NEEDED if key not in entry]
    if missing:
        raise ValueError(f"missing keys {missing}")


def _check_pair(key: str, pair: Any, kind: type) -> None:
    if len(pair) != 2 or not all(type(one) is kind for one in pair):
        raise ValueError(f"{key}: expected one each for inch and metric, got {pair!r}")


def _range(key: str, limits: Any, unit: str, kind: Kind) -> tuple[float, float]:
    if len(limits) != 2:
        raise ValueError(f"{key}: expected [low, high], got {limits!r}")
    low, high = (_in_si(key, limit, unit, kind) for limit in limits)
    if not low < high:
        raise ValueError(f"{key}: expected the low limit below the high one, got {limits!r}")
    return low, high


def _in_si(key: str, limit: float, unit: str, kind: Kind) -> float:
    if not kind.si:
        return float(limit)
    try:
        return read_text(f"{limit!r} {unit}", kind, "metric")
    except UnreadableText as error:
        raise ValueError(f"{key}: {limit!r} {unit!r} is no {kind.name}: {error}") from error


def _words(words: Mapping[str, list[str]]) -> Mapping[str, tuple[str, ...]]:
    unknown = sorted(set(words) - set(LANGUAGES))
    if unknown:
        raise ValueError(f"words: unknown languages {unknown}; known are {LANGUAGES}")
    return MappingProxyType({language: tuple(words[language]) for language in words})
