"""Where on a part, or at what lift, a label says its numbers were taken: no part of its meaning."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache

from workbook_tools.measurands.lexicon import rules

# Before a lift or a height.
_AT = r"(?:@|\b(?:at|bei|à|a)\b)"


def _either(words: Mapping[str, Sequence[str]]) -> str:
    """A pattern for the words of all languages, the longest first."""
    listed = sorted({w for own in words.values() for w in own}, key=lambda w: (-len(w), w))
    return "|".join(map(re.escape, listed))


@cache
def _at_a_lift() -> re.Pattern[str]:
    """A lift at which timing is told, at the end of a label: "@ .050", "at 1 mm"."""
    return re.compile(
        rf"[\s,(]*{_AT}\s*(?:0?[.,]\d+(?:\s*(?:mm|in|inch|zoll)\b|\s*[\"”″])?"
        r"|\d+(?:[.,]\d+)?\s*(?:(?:mm|thou|inch|zoll)\b|[\"”″]))\.?"
        rf"(?:\s*(?:{_either(rules().lifts)}))?\)?(?!\s*\w)",
        re.IGNORECASE,
    )


@cache
def _at_a_said_lift() -> re.Pattern[str]:
    """The same with a word that says so, within a sentence: "timing at 1 mm lift"."""
    return re.compile(
        rf"[\s,(]*{_AT}\s*\d*[.,]?\d+\s*(?:(?:mm|in|inch|zoll|thou)\b\.?|[\"”″])?"
        rf"\s*(?:{_either(rules().lifts)})\b\)?",
        re.IGNORECASE,
    )


# A lift at which a duration is told, on either side of its side: 'dur .050" inlet'.
_OF_A_DURATION = re.compile(
    r"(?P<name>\bdur(?:ation)?\b\.?)\s*\(?(?:0?[.,]0\d{1,2}(?:\s*(?:in\b|[\"”″]))?|[2-5]0\s*thou\b)\)?",
    re.IGNORECASE,
)
# How far a journal was ground under its size, or a bore over it: ".010 under", "30 thou over".
_GRADE = re.compile(
    r"(?<![\d.,])[+-]?(?:0?[.,]\d{2,3}|\d{2}(?=\s*thou))\s*(?:[\"”″]|(?:thou|in|mm)\b\.?)?\s*"
    r"(?:(?P<under>under(?:size)?|u/s)|over(?:size)?|o/s)(?!\w|(?<=under)\s*[a-z]|(?<=over)\s*[a-z])",
    re.IGNORECASE,
)
# No piston stands so far below a deck, nor a valve below its face: a length in inches, in mm.
_LEAST_INCHES, _LEAST_MM = 0.25, 6.0


@cache
def _at_a_height() -> re.Pattern[str]:
    """A length with a word that makes it a place on the part, to the end of the label."""
    # Behind "at" or a bracket millimeters need not be said, "(à 40 du plan)", nor of so many up
    # from somewhere: "Piston 14 up from skirt".
    return re.compile(
        rf"(?:[\s,(@-]*(?:\b(?:at|bei|à|a)\s+)?\d+(?:[.,/]\d+)?\s*(?:[\"”″]|(?:mm|cm|in|inch|zoll)\b\.?)"
        rf"|\s*(?:\(|{_AT})(?:\s*(?:at|bei|à|a)\b)?\s*\d{{1,3}}(?![\d.,])"
        r"|[\s,]+\d{2,3}(?=\s+(?:(?:up|down)\s+)?from\b))"
        rf"\s*(?:{_either(rules().heights)})\b.*",
        re.IGNORECASE,
    )


def without_height(text: str) -> str:
    """A label without where it was measured, "" where it says no more than that."""
    if not any(c.isdigit() for c in text):
        return text
    text = _OF_A_DURATION.sub(lambda found: found["name"], text)
    return _at_a_lift().sub("", _at_a_height().sub("", without_grade(text)))


def without_lift(text: str) -> str:
    """A text without the lifts that it says something is told at."""
    return _at_a_said_lift().sub("", text)


def without_grade(text: str) -> str:
    """A text with a grade told in words alone: "Mains .010 under" are mains undersize."""
    return _GRADE.sub(lambda found: " undersize" if found["under"] else " oversize", text)


def is_height(text: str) -> bool:
    """Whether a text says only where on a bore or skirt something is measured: '1" down'."""
    found = _LENGTH.match(text)
    if found is None or _at_a_height().sub("", text).strip():
        return False
    whole, _, parts = found["size"].replace(",", ".").partition("/")
    size = float(whole) / (float(parts or 1) or 1)
    metric = found["unit"].casefold() in ("mm", "cm")
    return size >= (_LEAST_MM if metric else _LEAST_INCHES)


_LENGTH = re.compile(
    r"(?:@|at\s)?\s*(?P<size>\d+(?:[.,/]\d+)?)\s*(?P<unit>[\"”″]|(?:mm|cm|in|inch|zoll)\b)",
    re.IGNORECASE,
)
