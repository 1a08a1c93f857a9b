"""The one table of measurands: read once from the files in data, checked as it is read."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.measurand import Measurand, read_measurand

_OF_A_FILE = ("section", "title", "ranges")


def read_table(files: Mapping[str, str]) -> Mapping[str, Measurand]:
    """All measurands of table files, by id, in the order of summaries.

    files: {file name: text of TOML}. Raises ValueError with the file, the measurand and what
    is wrong: an unknown key, a range, an order that names no measurand, a name given twice.
    """
    found: dict[str, Measurand] = {}
    for file, text in files.items():
        for one in _read_file(file, text):
            if one.id in found:
                raise ValueError(f"{file}, {one.id}: this id is in another file already")
            found[one.id] = one
    ordered = {one.id: one for one in sorted(found.values(), key=lambda one: one.number)}
    _check_unique(ordered.values())
    _check_orders(ordered)
    return MappingProxyType(ordered)


def _read_file(file: str, text: str) -> list[Measurand]:
    try:
        data: dict[str, Any] = own_toml(text)
    except tomllib.TOMLDecodeError as error:
        raise ValueError(f"{file}: {error}") from error
    missing = [key for key in _OF_A_FILE if key not in data]
    if missing:
        raise ValueError(f"{file}: missing keys {missing}")
    of_file = {key: data.pop(key) for key in _OF_A_FILE}
    measurands = []
    for rank, (name, entry) in enumerate(data.items(), start=1):
        try:
            if not isinstance(entry, dict):
                raise ValueError("expected a table of keys")
            measurands.append(read_measurand(name, entry, rank=rank, **of_file))
        except ValueError as error:
            raise ValueError(f"{file}, {name}: {error}") from error
    return measurands


def _check_unique(measurands: Iterable[Measurand]) -> None:
    seen: dict[tuple[str, ...], str] = {}
    for one in measurands:
        for key in (
            ("name", one.name.casefold()),
            ("part, which and noun", one.part, one.which, one.noun),
            ("section and rank", str(one.number)),
        ):
            if key in seen:
                raise ValueError(f"{one.id}: has the same {key[0]} as {seen[key]}")
            seen[key] = one.id


def _check_orders(table: Mapping[str, Measurand]) -> None:
    known = set(table) | {one.property for one in table.values()}
    for one in table.values():
        for order in one.orders:
            unknown = [name for name in order.names if name not in known]
            if unknown:
                raise ValueError(f"{one.id}: an order names unknown measurands {unknown}")
            if order.relation != "=" and order.other == one.id:
                raise ValueError(f"{one.id}: an order names the measurand itself")


@cache
def _table() -> Mapping[str, Measurand]:
    folder = resources.files("workbook_tools.measurands").joinpath("data")
    files = sorted((f for f in folder.iterdir() if f.name.endswith(".toml")), key=lambda f: f.name)
    return read_table({file.name: file.read_text("utf-8") for file in files})


def all_measurands() -> tuple[Measurand, ...]:
    """Every measurand, in the order of summaries."""
    return tuple(_table().values())


def find(name: str) -> Measurand | None:
    """The measurand of this id, None where there is none."""
    return _table().get(name)


def of_property(name: str) -> tuple[Measurand, ...]:
    """The measurands that are this property of some part: bearing_clearance of main, rod, cam."""
    return _by_property().get(name, ())


@cache
def _by_property() -> Mapping[str, tuple[Measurand, ...]]:
    found: dict[str, tuple[Measurand, ...]] = {}
    for one in all_measurands():
        found[one.property] = (*found.get(one.property, ()), one)
    return found


def properties() -> tuple[str, ...]:
    """The names of all properties, in the order of summaries."""
    return tuple(dict.fromkeys(one.property for one in all_measurands()))


def of_part(part: str, noun: str) -> tuple[Measurand, ...]:
    """The measurands that words for a part and a noun make: several where it has several."""
    return _by_part_and_noun().get((part, noun), ())


@cache
def parts_with(noun: str) -> tuple[str, ...]:
    """The parts that have this noun, in the order of summaries."""
    return tuple(dict.fromkeys(one.part for one in all_measurands() if one.noun == noun))


@cache
def _by_part_and_noun() -> Mapping[tuple[str, str], tuple[Measurand, ...]]:
    found: dict[tuple[str, str], tuple[Measurand, ...]] = {}
    for one in all_measurands():
        key = (one.part, one.noun)
        found[key] = (*found.get(key, ()), one)
    return found


def beside(name: str, one: Measurand) -> tuple[Measurand, ...]:
    """What a name in an order of `one` stands for: the member of its own part or side.

    name: an id or a property. Several where nothing tells them apart, as the springs of both
    sides for a measurand that has no side.
    """
    exact = find(name)
    if exact is not None:
        return (exact,)
    members = of_property(name)
    for alike in ("part", "which", "of"):
        mine = getattr(one, alike)
        narrowed = tuple(m for m in members if mine and getattr(m, alike) == mine)
        if narrowed:
            return narrowed
    return members
