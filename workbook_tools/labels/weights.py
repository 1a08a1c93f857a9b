"""The weights by which lines of numbers are read, from weights.toml beside this module."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import Any

from workbook_tools.kept_files import own_toml

_FILE = Path(__file__).with_name("weights.toml")


@dataclass(frozen=True)
class Words:
    """What the words of a line say, and what they leave to be assumed."""

    said: int
    own_word: int
    a_step: int
    unheard: int
    how_done: int
    in_brackets: int
    misspelt: int
    elsewhere: int
    odd: int
    by_title: int
    without_headings: int
    other_than_alone: int
    clear: int
    vague: int
    a_difference: int
    most_options: int


@dataclass(frozen=True)
class Sizes:
    """What the sizes of a line say of a meaning."""

    fit: int
    doubtful: int
    impossible: int
    mostly: float


@dataclass(frozen=True)
class Relations:
    """What formulas between lines say."""

    by_formula: int
    of_many: int
    of_few: int
    many: int
    most_of: int
    most_tried: int
    same_words: int
    alike: int
    of_each: int
    behind: int
    taken: int
    least_said: int


@dataclass(frozen=True)
class Orders:
    """What the order of two sizes says of their meanings."""

    broken: int
    far: float


@dataclass(frozen=True)
class Choice:
    """What a meaning needs to be read or asked about."""

    to_read: int
    to_read_alone: int
    to_read_far: int
    to_read_only: int
    to_ask: int
    far_ahead: int
    far_alone: int
    ahead: int
    ahead_of_alike: int
    sure: int
    fewest_misspelt: int


@dataclass(frozen=True)
class Units:
    """What the sizes of a book need to settle its units."""

    said_enough: int
    fewest_sizes: int
    fewest_things: int
    one_against: int
    sure: int


@dataclass(frozen=True)
class Weights:
    """All weights; weights.toml says what each is for."""

    words: Words
    sizes: Sizes
    relations: Relations
    orders: Orders
    choice: Choice
    units: Units


_PARTS = {
    "words": Words,
    "sizes": Sizes,
    "relations": Relations,
    "orders": Orders,
    "choice": Choice,
    "units": Units,
}
# What is taken away has its sign in the file only where it is added as it stands.
_BELOW_ZERO = {"doubtful", "impossible", "of_each", "taken", "least_said", "broken"}


@cache
def weights() -> Weights:
    """The weights that the package comes with."""
    return weights_from(_FILE.read_text("utf-8"))


def weights_from(text: str) -> Weights:
    """The weights of a file's text.

    Raises ValueError, which names the entry, where one is missing, unknown, no number or of the
    wrong sign.
    """
    data = own_toml(text)
    unknown = data.keys() ^ _PARTS.keys()
    if unknown:
        raise ValueError(f"weights: expected the parts {', '.join(_PARTS)}; see {sorted(unknown)}")
    return Weights(**{name: _part(name, kind, data[name]) for name, kind in _PARTS.items()})


def _part(name: str, kind: type[Any], data: dict[str, object]) -> Any:
    names = {f.name: f.type for f in fields(kind)}
    odd = data.keys() ^ names.keys()
    if odd:
        raise ValueError(f"weights.{name}: expected {', '.join(names)}; see {sorted(odd)}")
    for entry, value in data.items():
        wanted = (int, float) if names[entry] == "float" else (int,)
        if isinstance(value, bool) or not isinstance(value, wanted):
            raise ValueError(f"weights.{name}.{entry}: expected a number, got {value!r}")
        if (value < 0) != (entry in _BELOW_ZERO):
            sign = "below zero" if entry in _BELOW_ZERO else "not below zero"
            raise ValueError(f"weights.{name}.{entry}: expected one {sign}, got {value!r}")
    return kind(**data)
