"""Words of cells and sentences that name nothing measured, from cell_texts.toml."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.measurand import LANGUAGES

_FILE = Path(__file__).with_name("cell_texts.toml")


@cache
def _listed() -> Mapping[str, frozenset[str]]:
    return lists_from(_FILE.read_text("utf-8"))


def lists_from(text: str) -> dict[str, frozenset[str]]:
    """The words of each list, of all languages together.

    Raises ValueError for a language that is not known, and for a word that is not in lower case.
    """
    found = {}
    for name, by_language in own_toml(text).items():
        unknown = sorted(set(by_language) - {*LANGUAGES, "any"})
        if unknown:
            raise ValueError(f"{name}: unknown languages {unknown}; known are {LANGUAGES} and any")
        words = [word for listed in by_language.values() for word in listed]
        upper = [word for word in words if word != word.casefold()]
        if upper:
            raise ValueError(f"{name}: expected words in lower case, got {upper}")
        found[name] = frozenset(words)
    return found


def words_of(name: str) -> frozenset[str]:
    """The words of a list, in lower case. Raises KeyError for a list that there is not."""
    return _listed()[name]


def either_of(name: str) -> str:
    """A pattern for any word of a list, the longest first."""
    words = sorted(words_of(name), key=lambda word: (-len(word), word))
    return rf"(?:{'|'.join(map(re.escape, words))})\b"
