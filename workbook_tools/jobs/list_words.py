"""Words of lists that a book keeps beside its measurements, and of what says nothing in them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Literal, NamedTuple

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.tokens import phrase, phrases

ListWord = Literal[
    "open", "who", "until", "closed", "hours", "hours_head", "work", "part", "short", "ordered",
    "received", "order_list", "fasteners", "origin", "origin_begins", "nothing", "not_closed",
    "all_there",
]  # fmt: skip
# A longer text is a remark.
_LONGEST = 60
# What is printed where nothing was filled in.
_BLANK = re.compile(r"[\s_.…·:\-–/]*")


class _Words(NamedTuple):
    lists: Mapping[str, frozenset[tuple[str, ...]]]
    office: Mapping[tuple[str, ...], str]


@cache
def _words() -> _Words:
    """The words that come with the program."""
    text = resources.files(__package__ or "").joinpath("list_words.toml").read_text("utf-8")
    data = own_toml(text)
    office = data.pop("office")
    return _Words(
        {name: phrases(told["words"]) for name, told in data.items()},
        {said: name for name, words in office.items() for said in phrases(words)},
    )


def is_word(text: str, name: ListWord) -> bool:
    """Whether a whole text is one of the words of this name."""
    return len(text) <= _LONGEST and phrase(text) in _words().lists[name]


def office_field(text: str) -> str:
    """What of the office a label names: "promised", "oil"; "" for any other text."""
    return _words().office.get(phrase(text), "") if len(text) <= _LONGEST else ""


def begins_with(text: str, name: ListWord) -> bool:
    """Whether a text begins with one of the words of this name."""
    said = phrase(text)
    return any(said[:end] in _words().lists[name] for end in range(1, len(said) + 1))


def says_nothing(text: str, name: ListWord) -> bool:
    """Whether a text only fills a cell, or says no more than the words of this name do."""
    return bool(_BLANK.fullmatch(text)) or is_word(text, "nothing") or is_word(text, name)
