"""Dates as builders write them: in numbers, with the month in a word, as a day number."""

from __future__ import annotations

import datetime
import re
import unicodedata
from collections.abc import Iterable

from workbook_tools.labels.cell_words import no_value
from workbook_tools.labels.content import Content, Field, refused

# Names of the months in English, German, French, Spanish and Italian, without accents.
_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january januar janner jaenner janv janvier ene enero gen genn gennaio",
            "feb february februar feber fev fevr fevrier febrero febb febbraio",
            "mar march marz maerz mrz mars marzo",
            "apr april avr avril abr abril aprile",
            "may mai mayo mag maggio",
            "jun june juni juno juin junio giu giugno",
            "jul july juli juil juill juillet julio lug luglio",
            "aug august aou aout ago agosto",
            "sep sept september septembre septiembre setiembre set sett settembre",
            "oct october okt oktober octobre octubre ott ottobre",
            "nov november novembre noviembre",
            "dec december dez dezember decembre dic diciembre dicembre",
        ),
        1,
    )
    for name in names.split()
}  # fmt: skip
_DAY_ZERO, _DAY_ZERO_1904 = datetime.date(1899, 12, 30), datetime.date(1904, 1, 1)

_WORD = r"(?P<month>[^\W\d_]{3,10})\.?"
_YEAR = r"(?P<year>\d{4}|'?\d{2})"
_DAY_FIRST = re.compile(
    rf"(?P<day>\d{{1,2}})(?:st|nd|rd|th|er|ro|o|[°º.])?[ .\-/]*(?:of |de |di )?{_WORD}"
    rf"[ ,.\-/]*(?:de |del )?{_YEAR}(?!\d)",
    re.IGNORECASE,
)
_MONTH_FIRST = re.compile(
    rf"{_WORD}[ .\-]*(?P<day>\d{{1,2}})(?:st|nd|rd|th)?(?:,[ ]*|[ \-]+){_YEAR}(?!\d)",
    re.IGNORECASE,
)
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[ T]\d{1,2}:\d{2}(?::\d{2})?)?(?!\d)")
_DOTTED = re.compile(r"(\d{1,2})\.\s?(0?[1-9]|1[0-2])\.\s?(\d{4}|'?\d{2})(?![\d.])")
_NUMBERS = re.compile(r"(\d{1,2})([/\-.])\s?(\d{1,2})\2\s?(\d{4}|'?\d{2})(?![\d/\-.]\d|\d)")
# A weekday before a date, in any of the five languages, says nothing that the date does not.
_WEEKDAY = re.compile(
    r"(?:mon|tue|wed|thu|fri|sat|sun|mo|di|mi|do|fr|sa|so|lun|mar|mer|jeu|ven|sam|dim|mie|jue|vie|sab"
    r"|dom|gio)[a-z]*\.?,? (?=\d|[a-z]{3,10}\.? \d)|(?:le|el|il|am|on|the|den) (?=\d)",
    re.IGNORECASE,
)
# "3 Feb", "12. März"; a set counts parts.
_DAY_OF_MONTH = re.compile(
    r"(?P<day>\d{1,2})(?:st|nd|rd|th|er|ro|o|[°º.])? ?(?:of |de |di )?(?P<month>[^\W\d_]{3,10})\.?",
    re.IGNORECASE,
)
_NO_MONTHS = {"set"}
# When something was, but not the day: a week, a month, a year.
_NO_DAY = re.compile(
    r"(?:kw|wk|week|cw|woche|semaine|semana|sett\w*)\.? ?\d{1,2}(?:[ /.\-]+'?\d{2,4})?"
    r"|(?P<month>[^\W\d_]{3,10})(?:\.? |\.?[-/])(?:de )?'?\d{2,4}|(?:0?[1-9]|1[0-2])[/.]\d{4}"
    r"|(?:mid|early|late|end|mitte|anfang|ende) .{3,20}|\d{4}",
    re.IGNORECASE,
)


def _plain(text: str) -> str:
    even = unicodedata.normalize("NFKD", text)
    return "".join(c for c in even if not unicodedata.combining(c))


def is_day_of_month(text: str) -> bool:
    """Whether a text is the day of a month without its year: "3 Feb"."""
    if not any(map(str.isdigit, text)):
        return False  # As most texts of a book.
    told = _DAY_OF_MONTH.fullmatch(_WEEKDAY.sub("", text, count=1))
    month = _plain(told["month"]).casefold() if told else ""
    return month in _MONTHS and month not in _NO_MONTHS


# A day of a month has two words: "3 Feb".
_WORDS_OF_A_DAY = 2


def without_day(text: str) -> str:
    """A text without the day of a month that it begins or ends with: "3 Feb as found"."""
    words = text.split()
    first, last = words[:_WORDS_OF_A_DAY], words[-_WORDS_OF_A_DAY:]
    if len(words) > _WORDS_OF_A_DAY and is_day_of_month(" ".join(first).strip(" ,:")):
        return " ".join(words[_WORDS_OF_A_DAY:]).strip(" ,:–-")
    if len(words) > _WORDS_OF_A_DAY and is_day_of_month(" ".join(last)):
        return " ".join(words[:-_WORDS_OF_A_DAY]).strip(" ,:–-")
    return text


def _day(raw: object, year: int, month: int, day: int, note: str = "") -> Content:
    century = (2000 if year < 70 else 1900) if year < 100 else 0
    try:
        date = datetime.date(year + century, month, day)
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
    content, rest = _first_date(raw, text, field)
    if content is not None and not rest:
        return content
    if re.match(r"\d{1,2}/\d{1,2}\b", text):
        return refused(raw, "the year is missing")
    return refused(raw, "not a whole date")


def leading_date(text: str) -> str:
    """The date that a text begins with, as written: "4/26/2024" of "4/26/2024, runs good"."""
    even = " ".join(text.split())
    content, rest = _first_date(even, even, Field())
    return even[: len(even) - len(rest)].strip() if content is not None else ""


def is_date_without_day(text: str) -> bool:
    """Whether a text tells when, but not the day: "KW 12/26", "May 2024"."""
    found = _NO_DAY.fullmatch(_plain(" ".join(text.split())))
    return found is not None and (found["month"] is None or found["month"].lower() in _MONTHS)


def _first_date(raw: object, text: str, field: Field) -> tuple[Content | None, str]:
    """The date at the beginning of a text, and what stands behind it; None where none does."""
    # Accents are dropped with as many characters left, so that the rest can be told by its length.
    even = text if text.isascii() else "".join(_plain(c)[:1] or c for c in text)
    weekday = _WEEKDAY.match(even)
    for start in (0, weekday.end()) if weekday else (0,):
        for pattern, as_date in _FORMS:
            found = pattern.match(even, start)
            content = as_date(raw, found, field) if found else None
            if found and content is not None:
                return content, text[found.end() :].strip()
    return None, text


def _year_first(raw: object, found: re.Match[str], _: Field) -> Content:
    return _day(raw, int(found[1]), int(found[2]), int(found[3]))


def _dotted(raw: object, found: re.Match[str], field: Field) -> Content:
    note = "" if int(found[1]) > 12 or field.day_first else "day first, as is the custom"
    return _day(raw, int(found[3].strip("'")), int(found[2]), int(found[1]), note)


def _named(raw: object, found: re.Match[str], _: Field) -> Content | None:
    """A date whose month is a word, None where the word is no month."""
    month = _MONTHS.get(found["month"].lower())
    return _day(raw, int(found["year"].strip("'")), month, int(found["day"])) if month else None


def _day_number(raw: object, number: float, field: Field) -> Content:
    if not 20000 <= number <= 80000:
        return refused(raw, "no date")
    zero = _DAY_ZERO_1904 if field.from_1904 else _DAY_ZERO
    date = zero + datetime.timedelta(days=int(number))
    base = "1904" if field.from_1904 else "1900"
    return Content(raw, "text", text=date.isoformat(), note=f"a day number, counted from {base}")


def _two_numbers(raw: object, found: re.Match[str], field: Field) -> Content:
    first, second, year = int(found[1]), int(found[3]), int(found[4].strip("'"))
    may_be_year = len(found[1]) == 2 and found[1] >= "20" and len(found[4]) == 2
    if may_be_year and first > 12 and second <= 12 and year <= 31 and not field.day_first:
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


_FORMS = (
    (_ISO, _year_first),
    (_DOTTED, _dotted),
    (_NUMBERS, _two_numbers),
    (_DAY_FIRST, _named),
    (_MONTH_FIRST, _named),
)


def day_first_by(dates: Iterable[str]) -> bool | None:
    """Whether the day comes first in dates of one hand: by those that leave no choice.

    A number over 12 is a day; where none is, the place of the day beside a month's name says
    it. None where nothing does, or where they contradict each other.
    """
    texts = [_plain(" ".join(text.split())) for text in dates]
    numbers = [(int(f[1]), int(f[3])) for text in texts if (f := _NUMBERS.match(text))]
    told = {first > 12 for first, second in numbers if (first > 12) != (second > 12)}
    if not told:
        named = {True: _DAY_FIRST, False: _MONTH_FIRST}
        told = {
            order
            for text in texts
            for order, pattern in named.items()
            if (f := pattern.match(text)) and f["month"].lower() in _MONTHS
        }
    return told.pop() if len(told) == 1 else None
