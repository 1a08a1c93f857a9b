"""What can be derived from a job's readings, by which functions: read once from derived.toml."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, cached_property
from importlib import resources
from types import MappingProxyType
from typing import Any

from workbook_tools.catalog import Function, Parameter, find
from workbook_tools.kept_files import own_toml
from workbook_tools.measurands import Measurand, of_property
from workbook_tools.measurands import find as find_measurand

_NEEDED = ("measurand", "functions")
_MAY = ("with", "arguments", "words", "title", "step", "unless_read", "mean_square", "tell_with",
        "advice", "target")  # fmt: skip


@dataclass(frozen=True)
class Way:
    """One function that gives a measurand, and what each of its arguments is taken from.

    arguments: the measurands of each, in the order of the call, added up where there are
    several; words: texts that an argument is given as they stand.
    """

    function: Function
    arguments: Mapping[str, tuple[str, ...]]
    words: Mapping[str, str]

    @cached_property
    def measurands(self) -> tuple[str, ...]:
        """All measurands that it takes."""
        return tuple(name for names in self.arguments.values() for name in names)


@dataclass(frozen=True)
class Derivable:
    """A measurand that is derived where the book has what it takes, as derived.toml says."""

    measurand: Measurand
    title: str
    ways: tuple[Way, ...]
    step: bool = False
    target: bool = False
    unless_read: bool = False
    mean_square: str = ""
    tell_with: tuple[str, ...] = ()
    advice: str = ""


@dataclass
class Lacks:
    """What a job that has certain names does not have of what results take, as it is asked."""

    of_names: dict[str, tuple[str, ...]] = field(default_factory=dict)
    of_ways: dict[tuple[str, ...], list[str]] = field(default_factory=dict)


# Whose numbers count the cylinders.
COUNTED = ("bore", "chamber_volume", "deck_clearance", "piston_diameter")
# So many sets of names are kept, the forms of several shops with what their books leave open.
_MOST_KEPT = 64


@dataclass(frozen=True)
class Derivables:
    """What is derived, in the order of the file, and the sums that stand for a measurand."""

    entries: tuple[Derivable, ...]
    sums: Mapping[str, tuple[tuple[str, ...], ...]]
    _lacks: OrderedDict[tuple[frozenset[str], bool], Lacks] = field(
        default_factory=OrderedDict, repr=False, compare=False
    )

    def lacks_of(self, names: frozenset[str], counted: bool) -> Lacks:
        """What jobs lack that have these names and, or not, a number of cylinders."""
        found = self._lacks.pop((names, counted), None) or Lacks()
        self._lacks[names, counted] = found
        if len(self._lacks) > _MOST_KEPT:
            self._lacks.popitem(last=False)
        return found

    def of(self, measurand: str) -> tuple[Derivable, ...]:
        """The ways to a measurand; what one is meant to be is none."""
        return self._by_measurand.get(measurand, ())

    @cached_property
    def names(self) -> frozenset[str]:
        """Every measurand whose readings have a say in what is derived."""
        found = {"cylinder_count", "piston_protrusion", *COUNTED}
        for entry in self.entries:
            found |= {entry.measurand.id, entry.mean_square, *entry.tell_with}
            found.update(*(way.measurands for way in entry.ways))
        for name, sums in self.sums.items():
            found |= {name}.union(*sums)
        return frozenset(found)

    @cached_property
    def _by_measurand(self) -> Mapping[str, tuple[Derivable, ...]]:
        found: dict[str, tuple[Derivable, ...]] = {}
        for entry in self.entries:
            if not entry.target:
                name = entry.measurand.id
                found[name] = (*found.get(name, ()), entry)
        return found


@cache
def derivables() -> Derivables:
    """What the batch derives."""
    folder = resources.files("workbook_tools.jobs")
    return read_derivables(folder.joinpath("derived.toml").read_text("utf-8"))


def read_derivables(text: str) -> Derivables:
    """What a file such as derived.toml says.

    Raises ValueError with the entry and what is wrong: an unknown key, function or measurand,
    an argument that nothing tells the measurand of, an optional one after one left out.
    """
    data: dict[str, Any] = own_toml(text)
    unknown = sorted(data.keys() - {"derived", "sum"})
    if unknown:
        raise ValueError(f"unknown tables {unknown}; known are derived and sum")
    entries = tuple(_entry(entry) for entry in data.get("derived", ()))
    sums: dict[str, tuple[tuple[str, ...], ...]] = {}
    for one in data.get("sum", ()):
        names = tuple(_known(name).id for name in one["of"])
        sums[one["measurand"]] = (*sums.get(one["measurand"], ()), names)
    return Derivables(entries, MappingProxyType(sums))


def _entry(entry: Mapping[str, Any]) -> Derivable:
    wrong = sorted(entry.keys() - {*_NEEDED, *_MAY}) or [k for k in _NEEDED if k not in entry]
    if wrong:
        raise ValueError(f"derived: unknown or missing keys {wrong} in {dict(entry)}")
    measurand = _known(entry["measurand"])
    return Derivable(
        measurand=measurand,
        title=entry.get("title", measurand.name),
        ways=tuple(_way(measurand, entry, name) for name in entry["functions"]),
        step=entry.get("step", False),
        target=entry.get("target", False),
        unless_read=entry.get("unless_read", False),
        mean_square=entry.get("mean_square", ""),
        tell_with=tuple(_known(name).id for name in entry.get("tell_with", ())),
        advice=entry.get("advice", ""),
    )


def _known(name: str) -> Measurand:
    found = find_measurand(name)
    if found is None:
        raise ValueError(f"{name} is not in the table of measurands")
    return found


def _way(measurand: Measurand, entry: Mapping[str, Any], name: str) -> Way:
    function = find(name)
    if function is None:
        raise ValueError(f"{measurand.id}: {name} is not in the catalog")
    if function.measurand not in (measurand.id, measurand.property):
        raise ValueError(f"{measurand.id}: {name} gives {function.measurand or 'no measurand'}")
    taken = _taken(function, entry.get("with", ()), measurand)
    words = {p.name: entry["words"][p.name] for p in taken if p.name in entry.get("words", {})}
    arguments = {
        p.name: _measurands(measurand, p, entry.get("arguments", {}))
        for p in taken
        if p.name not in words
    }
    return Way(function, MappingProxyType(arguments), MappingProxyType(words))


def _taken(function: Function, more: Sequence[str], measurand: Measurand) -> list[Parameter]:
    """The parameters that are given: the required ones, and the optional ones that count."""
    optional = [p.name for p in function.parameters if p.optional]
    wanted = [name for name in more if name in optional]
    if wanted != optional[: len(wanted)]:
        raise ValueError(f"{measurand.id}: with leaves a gap among {optional} of {function.name}")
    return [p for p in function.parameters if not p.optional or p.name in wanted]


def _measurands(
    measurand: Measurand, parameter: Parameter, told: Mapping[str, Sequence[str]]
) -> tuple[str, ...]:
    """What a parameter is taken from: as told, or its measurand, of the part that is derived."""
    if parameter.name in told:
        return tuple(_known(name).id for name in told[parameter.name])
    own = find_measurand(parameter.measurand)
    members = of_property(parameter.measurand) or ((own,) if own else ())
    nearest = [m for m in members if (m.of, m.which) == (measurand.of, measurand.which)]
    beside = [m for m in members if m.which == measurand.which] if measurand.which else []
    for found in (nearest, beside, members):
        if len(found) == 1:
            return (found[0].id,)
    raise ValueError(f"{measurand.id}: nothing tells which {parameter.name} it takes")
