"""A look-up in a table as formula text: by words, or by the number of a row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from workbook_tools.hosts.portable.terms import BAD, Term, either, literal

Rows = Mapping[tuple[Any, ...], Term]


def by_words(stored: Sequence[str], rows: Rows, words: tuple[Any, ...] = ()) -> str:
    """What a table gives for the words in these names: IF in IF, like rows taken together.

    words: those that the first names are known to hold.
    """
    if len(words) == len(stored):
        return rows[words].text
    here = len(words)
    groups: dict[str, list[Any]] = {}
    for word in dict.fromkeys(key[here] for key in rows):
        groups.setdefault(by_words(stored, rows, (*words, word)), []).append(word)
    if len(groups) == 1:
        return next(iter(groups))
    text = BAD
    for found, same in groups.items():
        text = either(_is_one_of(stored[here], same), found, text)
    return text


def by_number(stored: str, rows: Rows) -> str:
    """What stands in the row of a number, by CHOOSE; each different value is written once."""
    most = max(number for (number,) in rows)
    texts = [rows[number,].text if (number,) in rows else BAD for number in range(1, most + 1)]
    values = list(dict.fromkeys(texts))
    places = ",".join(str(values.index(text) + 1) for text in texts)
    direct = f"CHOOSE({stored},{','.join(texts)})"
    twice = f"CHOOSE(CHOOSE({stored},{places}),{','.join(values)})"
    return min(direct, twice, key=len)


def _is_one_of(stored: str, words: Sequence[Any]) -> str:
    """A test for any of some words, which works element by element too."""
    tests = [f"{stored}={literal(word).text}" for word in words]
    return tests[0] if len(tests) == 1 else "+".join(f"({test})" for test in tests)
