"""What the record of a finished job has to hold: the lists that come with the program."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from workbook_tools.kept_files import own_toml

_LISTS = ("measurands", "labels")


@dataclass(frozen=True)
class Section:
    """One thing that a record has to hold.

    part: of the engine that it is of, "bottom", "heads" or "whole", "" where it tells of none;
    measurands: any of these is enough; labels: words of what a call only judges; field: of what
    a book says for the office; torque, signature: whether a table of fasteners with figures, or
    a signed place, is meant.
    """

    name: str
    part: str = ""
    measurands: tuple[str, ...] = ()
    labels: tuple[str, ...] = ()
    field: str = ""
    torque: bool = False
    signature: bool = False


@dataclass(frozen=True)
class Scope:
    """How much of an engine was built: its name, a book's words for it, its sections."""

    name: str
    words: tuple[str, ...]
    sections: tuple[str, ...]


@cache
def sections() -> Mapping[str, Section]:
    """Every section that a list can name."""
    return {
        name: Section(name, **{**own, **{k: tuple(own.get(k, ())) for k in _LISTS}})
        for name, own in _data()["section"].items()
    }


@cache
def scopes() -> Mapping[str, Scope]:
    """The scopes with the lists that come with the program."""
    return {
        name: Scope(name, tuple(own["words"]), tuple(own["sections"]))
        for name, own in _data()["scope"].items()
    }


@cache
def _data() -> Mapping[str, Mapping[str, dict[str, Any]]]:
    text = resources.files("workbook_tools.settings").joinpath("finished.toml").read_text("utf-8")
    return own_toml(text)
