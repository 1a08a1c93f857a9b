"""The pressure of the oil in a sentence about an engine that ran: "fired it, 58 psi hot"."""

from __future__ import annotations

import re
from functools import lru_cache

from workbook_tools.labels.cell_texts import either_of

_PRESSURE = re.compile(
    r"(?<![\w.,/-])(?P<size>\d{1,3}(?:[.,]\d)?)\s*"
    r"(?P<unit>psi|bar|kpa|kg/cm2|kg/cm²|(?P<pounds>lbs?|pounds|#))(?!\w|\s?(?:ft|in)\b)",
    re.IGNORECASE,
)
_OIL = re.compile(rf"(?<!\w){either_of('of_oil')}")
_RAN = re.compile(rf"(?<!\w)(?:{either_of('ran')}|{either_of('of_oil')})")
# Behind a number "min" are minutes.
_OF_OTHERS = re.compile(rf"(?<!\w){either_of('other_pressures')}|(?<!\d)(?<!\d )\b(?:min|max)\b")


@lru_cache(maxsize=8192)
def run_pressure(text: str) -> tuple[str, str]:
    """The one pressure that a text says the oil of a running engine had, and the text without it.

    Both are "" where it says none, names another pressure or several.
    """
    even = text.casefold()
    found = [*_PRESSURE.finditer(text)]
    if len(found) != 1 or not _RAN.search(even) or _OF_OTHERS.search(even):
        return "", ""
    if found[0]["pounds"] and not _OIL.search(even):
        return "", ""
    unit = "psi" if found[0]["pounds"] else found[0]["unit"]
    rest = f"{text[: found[0].start()]}, {text[found[0].end() :]}"
    return f"{found[0]['size']} {unit}", re.sub(_OIL.pattern, " ", rest, flags=re.IGNORECASE).strip(
        " ,"
    )
