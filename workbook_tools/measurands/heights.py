"""Where on a part, or at what lift, a label says its numbers were taken: no part of its meaning."""

from __future__ import annotations

import re
from functools import cache

from workbook_tools.measurands.lexicon import rules

# Words behind a lift.
_OF_LIFT = "de levée|di alzata|de alzada|ventilhub|hub|valve lift|lift"
# A lift at which timing is told: "@ .050", "at 1 mm".
_AT_A_LIFT = re.compile(
    r"[\s,(]*(?:@|\b(?:at|bei|à|a)\b)\s*(?:0?[.,]\d+(?:\s*(?:mm|in|inch|zoll)\b|\s*[\"”″])?"
    r"|\d+(?:[.,]\d+)?\s*(?:(?:mm|thou|inch|zoll)\b|[\"”″]))\.?"
    rf"(?:\s*(?:{_OF_LIFT}))?\)?(?!\s*\w)",
    re.IGNORECASE,
)
# The same within a sentence: "timing at 1 mm lift".
_AT_SAID_LIFT = re.compile(
    r"[\s,(]*(?:@|\b(?:at|bei|à|a)\b)\s*\d*[.,]?\d+\s*(?:(?:mm|in|inch|zoll|thou)\b\.?|[\"”″])?"
    rf"\s*(?:{_OF_LIFT})\b\)?",
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
    words = sorted({w for listed in rules().heights.values() for w in listed}, key=len)
    either = "|".join(re.escape(word) for word in reversed(words))
    # Behind "at" or a bracket millimeters need not be said: "(à 40 du plan)".
    return re.compile(
        rf"(?:[\s,(@-]*(?:\b(?:at|bei|à|a)\s+)?\d+(?:[.,/]\d+)?\s*(?:[\"”″]|(?:mm|cm|in|inch|zoll)\b\.?)"
        rf"|\s*(?:\(|@|\b(?:at|bei|à|a)\b)(?:\s*(?:at|bei|à|a)\b)?\s*\d{{1,3}}(?![\d.,]))"
        rf"\s*(?:{either})\b.*",
        re.IGNORECASE,
    )


def without_height(text: str) -> str:
    """A label without where it was measured, "" where it says no more than that."""
    if not any(c.isdigit() for c in text):
        return text
    return _AT_A_LIFT.sub("", _at_a_height().sub("", without_grade(text)))


def without_lift(text: str) -> str:
    """A text without the lifts that it says something is told at."""
    return _AT_SAID_LIFT.sub("", text)


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
