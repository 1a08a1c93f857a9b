"""What stands in a cell in place of a measurement: no value, doubt, people, marks."""

from __future__ import annotations

import datetime
import re

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import Content, refused

_NOT_YET = re.compile(r"(?:tbd|tba|later|waiting\b.*|on order|offen)", re.IGNORECASE)
_DASHES = {"-", "--", "---", "—", "–", "x"}
_POINTER = re.compile(
    r"(?:see\b.*|card|cam card|same as\b.*|as (?:above|before|#?\d+)\b.*)", re.IGNORECASE
)
_ERROR = re.compile(
    r"#(?:REF|DIV/0|VALUE|NAME|NUM|NULL|N/A|SPILL|CALC)[!?]?|Err:\d+", re.IGNORECASE
)
_MONEY = re.compile(r"[$€£]\s*[\d.,]+|\d+\s*%\s*dep(?:osit)?|paid|unpaid", re.IGNORECASE)


# Words that are refused as a number, and why.
_REFUSED = (
    (_DASHES, "a mark; ask what it means in this book"),
    (words_of("no_number"), "no number"),
    (words_of("no_measurement"), "not a measurement"),
    (words_of("ditto"), "says the same as another cell, but not which"),
)


# A box on a form, ticked or empty, and what stands behind it.
_BOX = re.compile(r"(?:\[\s*[xX✓✔*-]?\s*\]|\(\s*[xX✓✔]\s*\)|[☐☑☒□■])\s*(?P<rest>.*)", re.DOTALL)


def without_box(text: str) -> str:
    """A text without the box of a form that it begins with: "[x] Bore"; "" for a box alone."""
    found = _BOX.fullmatch(text)
    return found["rest"] if found else text


def no_value(raw: object, text: str) -> Content | None:
    """A text that says that there is no number, and which of the several ways."""
    even = text.lower()
    if text and not without_box(text):
        return Content(raw, "not applicable", note="a box of the form")
    if not text:
        return Content(raw, "empty", note="only spaces" if raw else "")
    if even in words_of("not_applicable"):
        return Content(raw, "not applicable")
    if even == "?":
        return Content(raw, "doubt", note="its writer asks")
    for words, reason in _REFUSED:
        if even in words:
            return refused(raw, reason, "0, not measured" if even == "flush" else "")
    return _of_a_pattern(raw, text)


def _of_a_pattern(raw: object, text: str) -> Content | None:
    """What a text says in place of a number by its form: later, an error, money."""
    if _NOT_YET.fullmatch(text):
        return Content(raw, "not yet", note=text)
    if re.fullmatch(r"#{3,}", text):
        return Content(raw, "error", note="the column is too narrow: read the cell under it")
    if _ERROR.fullmatch(text):
        return Content(raw, "error", note=text)
    if _POINTER.fullmatch(text):
        return Content(raw, "pointer", note=text, reason="the value stands elsewhere")
    if _MONEY.fullmatch(text):
        return refused(raw, "money or a payment, not a measurement")
    return None


def read_person(raw: object, text: str) -> Content:
    """Who signed; two names are kept as two."""
    names = [n.strip() for n in re.split(r"[/&+]| and ", text) if n.strip()]
    note = "two names: done and checked?" if len(names) == 2 else ""
    return Content(raw, "text", text=" / ".join(names), note=note)


_CYLINDER = re.compile(
    r"(?:#\s*|(?:cyl(?:inder)?|zyl(?:inder)?)\.?\s*(?:no\.?\s*)?#?\s*)?(\d{1,2})|(\d{1,2})\s?([LRAB])|([LRAB])\s?(\d{1,2})",
    re.IGNORECASE,
)


def read_position(raw: object, text: str) -> Content:
    """Which cylinder, bank or bearing a label names."""
    if isinstance(raw, datetime.date):
        return refused(raw, "a date: perhaps a list such as 1-3-5-7 that the program turned")
    if re.search(r"\b(?:main|rod|journal|bearing)s?\b", text, re.IGNORECASE):
        number = re.search(r"\d{1,2}", text)
        return Content(
            raw, "text", text=f"main {number[0]}" if number and "main" in text.lower() else text,
            note="a bearing, not a cylinder",
        )  # fmt: skip
    found = _CYLINDER.fullmatch(text)
    if found:
        count, side = found[1] or found[2] or found[5], (found[3] or found[4] or "").upper()
        scheme = "which end counts from 1 is for the scheme to say"
        return Content(raw, "text", text=f"{side}{count}", note=scheme)
    if re.fullmatch(r"\d{1,2}(?:-\d{1,2}){2,}", text):
        return Content(raw, "text", text=text, note="the cylinders of a bank, by the scheme")
    return Content(raw, "text", text=text, note="a label; the scheme has to say what it means")


def is_second_ring(text: str) -> bool:
    """Whether a text names the second ring by its place: "2nd" behind "Top ring gap"."""
    even = text.casefold().strip()
    return bool({even, even.strip(" .")} & words_of("second_rings"))
