"""What stands in a cell (38, "38 thou", "0,96 mm") as a quantity in SI, or refused with a reason.

What is ours is the trade's spelling of units and numbers.
"""

from __future__ import annotations

import math
import re
import unicodedata
from functools import lru_cache

from workbook_tools.quantities.kinds import (
    COUNT,
    FACTOR,
    NUMBER,
    RATIO,
    READING,
    READING_KINDS,
    ROTATION,
    TEMPERATURE,
    Kind,
    System,
)
from workbook_tools.quantities.quantity import Quantity
from workbook_tools.quantities.refusals import RefusalCode, refuse
from workbook_tools.quantities.scales import from_si, is_of, to_si, unit_scale
from workbook_tools.quantities.spellings import SPELLINGS, unit_expression

_SPACES = re.compile(r"[\s\u00a0\u2007\u202f]+")
# Hyphens, dashes and the minus sign, which programs put in place of the key that was typed.
_DASH = "\u2010\u2011\u2012\u2013\u2212"
_LEADING_DASH = re.compile(rf"[{_DASH}](?=[\d.,])")
_INNER_DASH = re.compile(rf"(?<=\d)[{_DASH}](?=\d+/\d)")
_VULGAR = {c: unicodedata.normalize("NFKC", c).replace("\u2044", "/") for c in "¼½¾⅓⅔⅛⅜⅝⅞"}
_VULGAR_AFTER = re.compile(rf"(\d?)\s*([{''.join(_VULGAR)}])")
_NUMBER = r"[+\-\u2212]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+\-]?\d+)?"
_MIXED = re.compile(r"([+\-\u2212]?\d+)(?:-|\s)(\d+)/(\d+)")
_FRACTION = re.compile(r"([+\-\u2212]?\d+)/(\d+)")
_WHOLE_TEXT = re.compile(
    rf"(?P<number>[+\-\u2212]?\d+(?:-|\s)\d+/\d+|[+\-\u2212]?\d+/\d+|{_NUMBER})\s*"
    r"(?P<unit>(?:[^\W\d_]|[\"”″'’°:]|1/(?i:min))[^@]*|%|#(?:/(?i:in(?:ch)?))?)?"
)
_RATIO_TO_ONE = re.compile(rf"({_NUMBER})\s*(?:[:/]|to)\s*1(?:[.,]0+)?", re.IGNORECASE)
_PERCENT = {"%", "percent", "per cent", "pct"}
_MOST_DIGITS = 100
_GROUPED = re.compile(r"[+\-\u2212]?\d{1,3}([.,]\d{3})+[.,]\d+(?![\d.,/])")
# Speeds of engines stand in whole turns: 6.500 rpm is more likely six thousand five hundred.
_GROUPED_TURNS = re.compile(r"[1-9]\d{0,2}\.\d{3}")
_WITHOUT_UNIT = {kind.name for kind in (RATIO, NUMBER, FACTOR, COUNT)}
_LOOKS_LIKE = {"o": "0", "l": "1", "i": "1"}


def with_plain_signs(text: str) -> str:
    """A text with plain spaces, minus signs and fractions: "–4½" is "-4 1/2"."""
    even = _SPACES.sub(" ", text).strip().replace("\u2044", "/")
    even = _INNER_DASH.sub("-", _LEADING_DASH.sub("-", even, count=1))
    return _VULGAR_AFTER.sub(lambda m: f"{m[1]} {_VULGAR[m[2]]}".strip(), even)


def _number(text: str, unit: str | None) -> float:
    if len(text) > _MOST_DIGITS:
        raise refuse(RefusalCode.TOO_MANY_DIGITS)
    mixed = _MIXED.fullmatch(text)
    fraction = _FRACTION.fullmatch(text)
    if mixed or fraction:
        parts = [int(g.replace("\u2212", "-")) for g in (mixed or fraction).groups()]  # type: ignore[union-attr]
        whole, top, bottom = parts if mixed else [0, *parts]
        if bottom == 0:
            raise refuse(RefusalCode.ZERO_BELOW_THE_LINE)
        # A fraction of an inch is halves to sixty-fourths; anything else (4.0305/4.0307,
        # 18/20) is more likely two readings, unless a unit stands behind it.
        if unit is None and (bottom not in (2, 4, 8, 16, 32, 64) or abs(top) >= bottom):
            raise refuse(RefusalCode.TWO_READINGS)
        size = abs(whole) + abs(top) / bottom
        return -size if text[0] in "-\u2212" else size
    body = text.replace("\u2212", "-")
    if "," in body:
        before, after = body.lstrip("+-").split(",", 1)
        if len(after) == 3 and before not in ("", "0"):
            raise refuse(RefusalCode.DOUBTFUL_COMMA)
        body = body.replace(",", ".")
    number = float(body)
    if math.isinf(number):
        raise refuse(RefusalCode.TOO_LARGE)
    return number


def _suggest_digits(text: str) -> str | None:
    """The number that was meant where a letter stands for a digit, None where that is not so."""
    text = text.rstrip("\"”″'’")
    swapped = "".join(_LOOKS_LIKE.get(c.lower(), c) for c in text)
    if swapped == text or not re.search(r"\d", text) or not re.fullmatch(_NUMBER, swapped):
        return None
    # "5l" is five liters, "5 l" too: at the end only an O is doubtful, which is no unit.
    return swapped if re.search(r"[a-zA-Z][\d.]|[oO]$", text) else None


def _spelled_unit(text: str, kind: Kind, system: System) -> str:
    """The pint expression of a unit as spelled in a cell."""
    known = unit_expression(text, kind.name)
    if known is None:
        raise refuse(RefusalCode.UNKNOWN_UNIT, got=text.strip())
    if known == "inch_tenth" and system == "metric":
        raise refuse(RefusalCode.DOUBTFUL_TENTH)
    return known


def split_quantity(text: str) -> tuple[str, str | None]:
    """The number and the unit of a text such as '38 thou' or '4.030"', both still as text.

    Raises UnreadableText, with the reason, where the text is not one number with at most
    one unit.
    """
    even = with_plain_signs(text)
    swapped = _suggest_digits(even.split(" ")[0])
    if swapped:
        raise refuse(RefusalCode.LETTER_AMONG_DIGITS, expected=swapped)
    found = _WHOLE_TEXT.fullmatch(even)
    if found is None:
        if _GROUPED.match(even):
            raise refuse(RefusalCode.GROUPED_DIGITS)
        raise refuse(RefusalCode.NOT_ONE_QUANTITY)
    return found["number"], found["unit"]


def read_text(text: str, kind: Kind, system: System) -> float:
    """The SI value of a text that holds one number and, mostly, its own unit.

    text: as typed ("38 thou", "0,05 mm", '3 5/8"', "0.038"); kind: what is wanted; system:
    what a number without a unit means. For a READING the result is not SI but the bare
    number that the same quantity would be in this system. Raises UnreadableText with the
    reason: no number, an unknown unit, another dimension, a doubtful comma.
    """
    to_one = _RATIO_TO_ONE.fullmatch(with_plain_signs(text)) if kind is RATIO else None
    if to_one:
        return _number(to_one[1], ":1")
    number_text, unit_text = split_quantity(text)
    number = _number(number_text, unit_text)
    if kind is ROTATION and _GROUPED_TURNS.fullmatch(number_text):
        raise refuse(RefusalCode.DOUBTFUL_POINT, expected=number_text.replace(".", ""))
    if unit_text is None:
        if "/" in number_text and kind.has_units and system == "metric":
            raise refuse(RefusalCode.BARE_FRACTION)
        return to_si(number, kind, system)
    if kind is FACTOR and unit_text.strip().lower() in _PERCENT:
        return number / 100
    if kind.name in _WITHOUT_UNIT:
        raise refuse(RefusalCode.TAKES_NO_UNIT, expected=kind.name)
    unit = _spelled_unit(unit_text, kind, system)
    if kind is READING:
        kind = _kind_of(unit, unit_text)
        shift, factor = unit_scale(unit, kind)
        return from_si((number + shift) * factor, kind, system)
    if not is_of(unit, kind):
        if unit_text in ("l", "I"):
            raise refuse(RefusalCode.LETTER_AMONG_DIGITS, expected=f"{number_text}1")
        raise refuse(RefusalCode.OTHER_KIND, expected=kind.name, got=unit_text.strip())
    shift, factor = unit_scale(unit, kind)
    return (number + shift) * factor


def read_quantity(text: str, kind: Kind, system: System) -> Quantity:
    """The quantity that a text holds, as the bare number that this system has for it.

    text, kind, system: as in read_text; kind: no READING. Raises UnreadableText with the reason.
    """
    return Quantity(from_si(read_text(text, kind, system), kind, system), kind, system)


def _kind_of(unit: str, spelled: str) -> Kind:
    if unit in ("degF", "degC"):
        return TEMPERATURE
    for kind in READING_KINDS:
        if unit in (SPELLINGS[kind.inch.lower()], SPELLINGS[kind.metric.lower()]):
            return kind
    for kind in READING_KINDS:
        if is_of(unit, kind):
            return kind
    raise refuse(RefusalCode.NO_READING_UNIT, got=spelled.strip())


def reading_unit(text: str, system: System) -> str:
    """The bare unit that READING converts this text to ("in" for "38 thou"), "" for a number."""
    _, unit_text = split_quantity(text)
    if unit_text is None:
        return ""
    return _kind_of(_spelled_unit(unit_text, READING, system), unit_text).unit(system)


@lru_cache(maxsize=4096)
def unit_named(text: str, wanted: Kind = READING) -> tuple[Kind, float]:
    """The kind of a unit as spelled in a table, and its factor to SI ("thou" is a length).

    wanted: what is measured, where a spelling's meaning depends on it: pounds. Raises
    UnreadableText for a unit that is not known or has no zero in common with SI.
    """
    unit = _spelled_unit(text, wanted, "inch")
    kind = _kind_of(unit, text)
    if kind is TEMPERATURE:
        raise refuse(RefusalCode.NO_TABLE_UNIT, got=text.strip())
    return kind, unit_scale(unit, kind)[1]


def system_named(text: str) -> System:
    """The unit system that a `units` argument names. Raises UnreadableText for another word."""
    word = text.strip().lower()
    if word == "inch" or word == "metric":
        return "inch" if word == "inch" else "metric"
    raise refuse(RefusalCode.NO_UNIT_SYSTEM, got=text.strip())
