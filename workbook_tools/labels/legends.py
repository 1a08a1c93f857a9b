"""Short names that a sheet explains itself: "c/h = compression height", "c = centièmes"."""

from __future__ import annotations

import re
from collections.abc import Mapping

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.words import read_label

_LEGEND = re.compile(
    r"(?<![^\s(,;])(?P<short>[A-Za-z][A-Za-z/]{0,4})\s*=\s*"
    r"(?P<long>[A-Za-z][\w ./#-]*?)\s*(?=[),;]|\s[A-Za-z][A-Za-z/]{0,4}\s*=|$)"
)
# Names with their letters behind them in a title: "Deck (D) and piston (P) heights, inches".
_LETTERED = re.compile(
    rf"(?:{either_of('joining')}\s)?(?P<name>[^\W\d_]{{3,}}(?: [^\W\d_]{{3,}})?) "
    r"\((?P<short>[A-Z]{1,2})\)",
    re.IGNORECASE,
)
_FEWEST_LETTERED = 2
# What is explained is a name or a position, and understood as such.
_MOST_ASSUMED = 2
_MOST_WORDS = 4
_FIRST_LETTER, _MOST_LETTERS = ord("A"), 12


def said_by_legends(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels with the short names that texts of the sheet explain written out."""
    legends = {
        one["short"]: told
        for text in texts.values()
        if "=" in text
        for one in _LEGEND.finditer(text)
        if (told := _told_by(one["long"]))
    }
    for text in texts.values():
        legends |= _behind_names(text) if text.count("(") >= _FEWEST_LETTERED else {}
    legends |= _lettered(legends)
    found = _with_units(texts)
    for at, text in texts.items() if legends else ():
        words = text.split()
        short = [word for word in words if word in legends]
        if "=" in text or len(words) > _MOST_WORDS or len(short) != 1:
            continue
        others = " ".join(word for word in words if word not in short)
        if len(short[0]) > 1 or _leaves_it_to_a_letter(others):
            found[at] = " ".join(legends.get(word, word) for word in words)
    return found


def _with_units(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels with the short units in brackets that a text explains: "c = centièmes"."""
    units = {
        f"({one['short']})": f"({one['long']})"
        for text in texts.values()
        if "=" in text
        for one in _LEGEND.finditer(text)
        if is_unit(one["long"])
    }
    return {
        at: text.replace(short, unit)
        for at, text in texts.items()
        for short, unit in units.items()
        if short in text
    }


def _behind_names(text: str) -> dict[str, str]:
    """The letters in brackets behind names that a title measures, with the noun that ends it."""
    told = [one for one in _LETTERED.finditer(text) if one["short"].isupper()]
    if len({one["short"] for one in told}) < _FEWEST_LETTERED:
        return {}
    noun = re.split(r"[,(;:]", text[told[-1].end() :])[0].strip()
    named = {one["short"]: f"{one['name']} {noun}".strip() for one in told}
    sure = [name for name in named.values() if _is_told(name)]
    measured = all(read_label(name).candidates for name in named.values())
    return named if measured and len(sure) >= _FEWEST_LETTERED else {}


def _leaves_it_to_a_letter(text: str) -> bool:
    """Whether what stands beside a letter leaves it to say which one: "In A", not "Temp C"."""
    even = text.casefold().strip(" .")
    return not even or even in words_of("intake") | words_of("exhaust") or counts(even) is not None


def _told_by(long: str) -> str:
    """What a short name stands for, "" where that says nothing: "worn" of "worn  all in mm" too."""
    if _is_told(long):
        return long
    words = [long, long.split()[0]]
    return next((w for w in words if (told := which_of(w)) and told == Which(stage=told.stage)), "")


def _is_told(text: str) -> bool:
    """Whether a text says which one, or surely what is measured."""
    if parse(text) is not None:
        return True
    meaning = read_label(text)
    sure = bool(meaning.candidates) and meaning.candidates[0].cost <= _MOST_ASSUMED
    return sure and not meaning.unknown


def _lettered(legends: Mapping[str, str]) -> dict[str, str]:
    """The letters that count, as two of them say: "A = No.1 cyl, F = No.6"."""
    told = {x: where for x, y in legends.items() if len(x) == 1 and (where := parse(y))}
    counted = {x: where.number for x, where in told.items() if where.number}
    if len(counted) < 2 or any(n != ord(x) - _FIRST_LETTER + 1 for x, n in counted.items()):
        return {}
    return {chr(_FIRST_LETTER + n): f"#{n + 1}" for n in range(_MOST_LETTERS)}
