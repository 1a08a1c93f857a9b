"""What stands in a cell in place of a measurement: no value, doubt, dates, people, marks."""

from __future__ import annotations

import datetime
import re

from workbook_tools.labels.content import Content, Field, refused

_NOT_APPLICABLE = {"n/a", "na", "n.a", "n.a.", "not applicable", "entfällt"}
_NOT_YET = re.compile(r"(?:tbd|tba|later|waiting\b.*|on order|offen)", re.IGNORECASE)
_DASHES = {"-", "--", "---", "—", "–", "x"}
_NO_NUMBER = {
    "good", "ok", "okay", "checked", "within spec", "in spec", "per book", "pass", "yes", "no",
    "i.o.", "good to go", "fine",
}  # fmt: skip
_NO_MEASUREMENT = {"snug", "g-n-t", "gnt", "flush", "tight", "hand tight", "loose"}
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
    (_NO_NUMBER, "no number"),
    (_NO_MEASUREMENT, "not a measurement"),
    ({'"', "''", "ditto", "dto", "do."}, "says the same as another cell, but not which"),
)


def no_value(raw: object, text: str) -> Content | None:
    """A text that says that there is no number, and which of the several ways."""
    even = text.lower()
    if not text:
        return Content(raw, "empty", note="only spaces" if raw else "")
    if even in _NOT_APPLICABLE:
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


_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan januar january", "feb februar february", "mar mär mrz march märz", "apr april",
            "may mai", "jun june juni", "jul july juli", "aug august", "sep sept september",
            "oct okt october oktober", "nov november", "dec dez december dezember",
        ),
        1,
    )
    for name in names.split()
}  # fmt: skip
_DAY_ZERO, _DAY_ZERO_1904 = datetime.date(1899, 12, 30), datetime.date(1904, 1, 1)


def _day(raw: object, year: int, month: int, day: int, note: str = "") -> Content:
    try:
        date = datetime.date(year + (2000 if year < 100 else 0), month, day)
    except ValueError:
        return refused(raw, "no day of the calendar")
    return Content(raw, "text", text=date.isoformat(), note=note)


def read_date(raw: object, field: Field) -> Content:
    """A date as YYYY-MM-DD, or why it could be two days or none."""
    if isinstance(raw, datetime.datetime):
        return Content(raw, "text", text=raw.date().isoformat())
    if isinstance(raw, datetime.date):
        return Content(raw, "text", text=raw.isoformat())
    if isinstance(raw, bool) or raw is None:
        return Content(raw, "empty") if raw is None else refused(raw, "no date")
    if isinstance(raw, (int, float)):
        return _day_number(raw, float(raw), field)
    text = " ".join(str(raw).split())
    nothing = no_value(raw, text)
    if nothing is not None:
        return nothing
    if re.fullmatch(r"\d{5}", text):
        return _day_number(raw, float(text), field)
    return _with_month_named(raw, text) or _in_numbers(raw, text, field)


def _with_month_named(raw: object, text: str) -> Content | None:
    """A date whose month is a word, None for any other text."""
    found = re.fullmatch(r"(\d{1,2})[ .\-]+([A-Za-zä]+)\.?[ .\-]+(\d{2,4})", text)
    if found and found[2].lower() in _MONTHS:
        return _day(raw, int(found[3]), _MONTHS[found[2].lower()], int(found[1]))
    found = re.fullmatch(r"([A-Za-zä]+)\.? (\d{1,2}),? (\d{4})", text)
    if found and found[1].lower() in _MONTHS:
        return _day(raw, int(found[3]), _MONTHS[found[1].lower()], int(found[2]))
    return None


def _in_numbers(raw: object, text: str, field: Field) -> Content:
    """A date in numbers alone, or why it is none."""
    found = re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})(?:[ T]00:00(?::00)?)?", text)
    if found:
        return _day(raw, int(found[1]), int(found[2]), int(found[3]))
    found = re.fullmatch(r"(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})", text)
    if found:
        note = "" if int(found[1]) > 12 or field.day_first else "day first, as is the custom"
        return _day(raw, int(found[3]), int(found[2]), int(found[1]), note)
    found = re.fullmatch(r"(\d{1,2})[/\-.](\d{1,2})[/\-.](\d{4}|\d{2})", text)
    if found:
        return _two_numbers(raw, int(found[1]), int(found[2]), int(found[3]), found[1], field)
    if re.match(r"\d{1,2}/\d{1,2}\b", text):
        return refused(raw, "the year is missing")
    return refused(raw, "not a whole date")


def _day_number(raw: object, number: float, field: Field) -> Content:
    if not 20000 <= number <= 80000:
        return refused(raw, "no date")
    zero = _DAY_ZERO_1904 if field.from_1904 else _DAY_ZERO
    date = zero + datetime.timedelta(days=int(number))
    base = "1904" if field.from_1904 else "1900"
    return Content(raw, "text", text=date.isoformat(), note=f"a day number, counted from {base}")


def _two_numbers(
    raw: object, first: int, second: int, year: int, written: str, field: Field
) -> Content:
    if len(written) == 2 and first > 12 and second <= 12 and year <= 31 and written >= "20":
        return refused(raw, "the year may come first or last")
    if first > 12 and second <= 12:
        return _day(raw, year, second, first, "day first")
    if second > 12 and first <= 12:
        return _day(raw, year, first, second, "month first")
    if first == second:
        return _day(raw, year, first, second)
    if field.day_first is None:
        return refused(raw, "day and month may be either; the book does not say")
    day, month = (first, second) if field.day_first else (second, first)
    return _day(raw, year, month, day)


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
