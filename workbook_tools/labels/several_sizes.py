"""Texts that hold several sizes: "86 x 78.4 mm", ".010/.012"."""

from __future__ import annotations

import re
from functools import lru_cache

from workbook_tools.labels.cell_texts import either_of
from workbook_tools.labels.content import UNSIGNED, is_unit
from workbook_tools.measurands.stage import Stage

_SIZE = rf"(?:{UNSIGNED})"
_UNIT = r"(?:\s?(?![x×]\b)[^\W\d_/]+(?:[.\-·/\s](?![x×]\b)[^\W\d_/]+)?|[\"°%])?"
_BETWEEN = r"\s*[/x×*&|]\s*|\s+(?:by|auf|per|par|por|and|und|et|y|e|-|–)\s+"
_SEVERAL = re.compile(
    rf"[Øø⌀]?\s*{_SIZE}{_UNIT}(?:(?:{_BETWEEN})[Øø⌀]?\s*{_SIZE}{_UNIT}){{1,3}}", re.IGNORECASE
)
_PART = re.compile(rf"(?P<size>{_SIZE})(?P<unit>{_UNIT})")
# A size behind each of several positions: "cyl 1: 95.014   cyl 2: 95.015".
_PLACED = re.compile(
    rf"(?P<which>(?:[^\W\d_]+\.?\s?)?(?:\#|n[o°º]\.?\s?)?\d{{1,2}})\s*[:=]\s*(?P<size>{_SIZE}{_UNIT})"
)
# The same behind the sign of a number alone: "#1 165 #2 160 #3 170".
_SIGNED = re.compile(rf"#\s?(?P<which>[1-9]\d?)[ :=-]+(?P<size>{_SIZE})(?!\d)")
_FEWEST_SIGNED = 3
# One position marked as such before its size: "#1 76.0 cc", "(2) 1.6 thou", "3 = 1.15".
_MARKED = re.compile(
    rf"(?:\#\s?(?P<number>\d{{1,2}})|\((?P<bracketed>\d{{1,2}})\)|(?P<lettered>[JMPR]\d{{1,2}}))"
    rf"\s*[:=]?\s+(?P<size>{_SIZE}{_UNIT})"
    rf"|(?P<bare>\d{{1,2}})\s*(?:=|/(?=\s))\s*(?P<of_bare>{_SIZE}{_UNIT})",
    re.IGNORECASE,
)
# A side, a ring or a state of a spring named before or behind each: "in .010 ex .012", "130 seat".
_NAMES = ("intake", "exhaust", "either_side", "sides_in_full", "rings_in_order", "spring_states")
_NAME = rf"\b(?:{'|'.join(map(either_of, _NAMES))})[.:=]?"
# Units that no name can be taken for: "in" is a side as well.
_SURE_UNIT = r"(?:\s?(?:(?:mm|thou|lbs?|lbf|n|kg|dan)\b|[\"%°])|\s?in(?=\s*(?:[,;/]|$)))?"
_NAMED_FIRST = re.compile(rf"(?P<name>{_NAME})\s*(?P<size>{_SIZE}{_SURE_UNIT})", re.IGNORECASE)
_NAMED_LAST = re.compile(rf"(?P<size>{_SIZE}{_SURE_UNIT})\s*(?P<name>{_NAME})", re.IGNORECASE)
_STAGED = re.compile(
    rf"(?:(?P<before>{either_of('before_a_size')})|{either_of('after_a_size')})\.?\s*[:=]?\s*"
    rf"(?P<size>{_SIZE}{_UNIT})",
    re.IGNORECASE,
)
_FRACTION = re.compile(r"(?:\d+[ -])?\d+/(?:2|4|8|16|32|64)(?:\s*(?:\"|in|inch))?")


def several_sizes(text: str) -> list[str]:
    """The sizes that a text holds one beside the other, each with its unit; [] for any other."""
    return list(_sizes(" ".join(text.split())))


@lru_cache(maxsize=4096)
def placed_sizes(text: str) -> tuple[tuple[str, str], ...]:
    """The positions that a text names with the size of each, () for any other text."""
    if marked := _MARKED.fullmatch(text.strip()):
        size = (marked["size"] or marked["of_bare"]).strip()
        if marked["lettered"] and not size[-1].isdigit():
            return ()  # "M8 24.5 Nm" is the torque of a thread.
        which = marked["number"] or marked["bracketed"] or marked["lettered"]
        if _is_a_size(size) and (which or re.search(r"[.,]\d", size)):
            return ((which or marked["bare"], size),)
    if signed := _signed_sizes(text):
        return signed
    found = _word_by_word(
        [(one["which"].strip(), one["size"].strip()) for one in _PLACED.finditer(text)]
    )
    if len(found) < 2 or _PLACED.sub(" ", text).strip(" ,;/|-–"):
        return ()
    if len({which.rstrip("0123456789").strip(" #.").casefold() for which, _ in found}) > 1:
        return ()  # "Pistons 1=85.95 2=85.96" begins with what is measured.
    # "8:00 - 12:30" are times: a bare number says which one only before a size with a point.
    named = all(not which.isdecimal() or re.search(r"[.,]", size) for which, size in found)
    return tuple(found) if named else ()


def _signed_sizes(text: str) -> tuple[tuple[str, str], ...]:
    """The numbers behind # with the size of each, () for any other text: "#1 165 #2 160"."""
    found = tuple((one["which"], one["size"]) for one in _SIGNED.finditer(text))
    if len(found) < _FEWEST_SIGNED or _SIGNED.sub(" ", text).strip(" ,;/|-–"):
        return ()
    numbers = [int(which) for which, _ in found]
    return found if numbers == sorted({*numbers}) else ()


@lru_cache(maxsize=4096)
def named_sizes(text: str) -> tuple[tuple[str, str], ...]:
    """The sides, rings or states that a text names with the size of each, () for any other."""
    for pattern in (_NAMED_FIRST, _NAMED_LAST):
        found = tuple(
            (one["name"].rstrip(".:= "), one["size"].strip()) for one in pattern.finditer(text)
        )
        if len(found) > 1 and not pattern.sub(" ", text).strip(" ,;/|-–"):
            return found if all(map(_may_be_measured, (size for _, size in found))) else ()
    return ()


@lru_cache(maxsize=4096)
def staged_size(text: str) -> tuple[Stage, str]:
    """The stage that a text says before its one size, and that size; "" and "" for any other."""
    found = _STAGED.fullmatch(text.strip())
    if found is None or not re.search(r"[.,]\d", found["size"]):
        return "", ""
    return "found" if found["before"] else "final", found["size"].strip()


def _may_be_measured(size: str) -> bool:
    """Whether a number has a point, a unit or two digits: a bare one may be a count."""
    return re.search(r"[.,]\d|\d{2}|[^\W\d_\"]", size) is not None


def _is_a_size(text: str) -> bool:
    """Whether a number has a point or a unit: "#1 76.0 cc", but not "#1 good" or "#2 3"."""
    number, _, unit = text.strip().partition(" ")
    return bool(re.search(r"[.,]\d", number)) if not unit else is_unit(unit)


def _word_by_word(found: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Positions and sizes where a word behind a size that is no unit is of the next position."""
    parted = list(found)
    for at, (_, size) in enumerate(found[:-1]):
        number, _, word = size.rpartition(" ")
        if number and not is_unit(word) and found[at + 1][0].isdecimal():
            parted[at] = parted[at][0], number
            parted[at + 1] = f"{word} {found[at + 1][0]}", found[at + 1][1]
    return parted


@lru_cache(maxsize=4096)
def _sizes(text: str) -> tuple[str, ...]:
    if _FRACTION.fullmatch(text) or not _SEVERAL.fullmatch(text):
        return ()
    parts = [(found["size"], found["unit"].strip()) for found in _PART.finditer(text)]
    if any(unit and not is_unit(unit) for _, unit in parts):
        return ()
    # "1/2" or "3 & 4" says which ones; sizes have points, or more digits, or a unit.
    written = all(re.search(r"[.,]", size) or len(size) > 2 for size, _ in parts)
    if not (written or parts[-1][1] or re.search(r"\d\s*[x×]\s*[\d.,]", text)):
        return ()
    last = parts[-1][1]
    return tuple(f"{size} {unit or last}".strip() for size, unit in parts)
