"""What a typed cell means: the terms of the answer, and one number with its unit.

A unit comes from the cell, else from its column or label, else from what the book states, else
from the one system that the sizes of the whole book leave. The size of one cell only casts doubt
and never chooses; the sizes of a whole line and of the book may (see choice.py).
"""

from __future__ import annotations

import re
from functools import lru_cache
from statistics import median
from typing import Literal, NamedTuple

from workbook_tools import quantities
from workbook_tools.quantities import (
    LENGTH,
    POUNDS,
    ROTATION,
    SPELLINGS,
    Kind,
    Quantity,
    Refusal,
    RefusalCode,
    System,
    UnreadableText,
    even_unit,
    refuse,
    unit_expression,
)
from workbook_tools.quantities.nearest import nearest_unit

ContentKind = Literal[
    "value",  # one number that can be used
    "mean",  # one number, of readings that are not there
    "several",  # numbers that stay apart: readings, stages, two things in one cell
    "range",  # from one number to another
    "limits",  # a nominal size with its limits
    "bound",  # below or above a number, which is no value
    "doubt",  # a number that its writer doubts: kept out of means
    "standard size",  # "std": not zero, and no number without the nominal size
    "thread",  # a thread's size, not a number
    "rule",  # how to get a number
    "text",  # a date, a name, a job number, a label: read as what it is
    "empty",
    "not applicable",
    "not yet",
    "pointer",  # the value is somewhere else
    "error",  # an error of the book, not data
    "withdrawn",  # struck through
    "refused",
]


class Field(NamedTuple):
    """What is expected in a cell.

    meaning: a reading or job field of the vocabulary ("bore", "crown volume", "date");
    unit: what its column, its row or its label says; system: what the book states;
    signs: what a sign means in this book, "" where it does not say ("positive below" or
    "negative below" the deck; "positive dish" or "negative dish"); day_first: the order in
    this book's dates, None where it is not known; likely: least and most that is usual, in
    SI, which can only cast doubt; neighbors: the numbers beside it in the same row or column;
    zero: whether zero can be a reading, or only means that nobody measured.
    """

    meaning: str = ""
    kind: Kind = LENGTH
    unit: str = ""
    system: System | None = None
    signs: str = ""
    day_first: bool | None = None
    decimal_comma: bool = False
    likely: tuple[float, float] | None = None
    neighbors: tuple[float, ...] = ()
    from_1904: bool = False
    zero: bool = True


class Value(NamedTuple):
    """A number in its unit ("" for plain numbers); of: which one of several, as the cell says."""

    number: float
    unit: str = ""
    of: str = ""

    @property
    def text(self) -> str:
        """Number and unit as a text that any worksheet function reads."""
        return f"{self.number:.12g} {self.unit}".strip()


class Content(NamedTuple):
    """What a cell holds. raw is kept as it stands; reason says why it was refused.

    note: words beside the number, and what was odd; offer: what it may mean, never assumed;
    code: of a refusal that the text of a quantity got.
    """

    raw: object
    kind: ContentKind
    values: tuple[Value, ...] = ()
    note: str = ""
    reason: str = ""
    offer: str = ""
    text: str = ""
    code: RefusalCode | None = None

    @property
    def value(self) -> Value | None:
        """The one number that can be used, None where there is none."""
        return self.values[0] if self.kind in ("value", "mean") and len(self.values) == 1 else None

    def noted(self, note: str) -> Content:
        """The same with a further note."""
        if not note:
            return self
        return self._replace(note=f"{self.note}; {note}" if self.note else note)


# What only the builder can say of a cell, in words and told apart by them.
UNIT_NOT_SAID = Refusal(RefusalCode.UNIT_NOT_SAID).words
CROWN_SIGN_NOT_SAID = "dish or dome? neither the cell nor the book says what the sign means"
DECK_SIGN_NOT_SAID = "below or above the deck? the book does not say what the sign means"
WHICH_NOT_SAID = "one of two side by side, and no head says which one it is of"
FAR_FROM_USUAL = "far from what is usual: check the unit and the point"
MISSING = "is missing"

_SETTLED = {
    UNIT_NOT_SAID: "Write the unit into the cell or its heading, or say "
    'units = "inch" or "metric" in layout.toml.',
    CROWN_SIGN_NOT_SAID: "Write dish or dome beside it, or say crown_sign in layout.toml.",
    DECK_SIGN_NOT_SAID: "Write in the hole or out of it beside it, or say deck_sign in "
    "layout.toml.",
    WHICH_NOT_SAID: "Write the numbers of the cylinders over them, or name them in layout.toml.",
    FAR_FROM_USUAL: "Correct the cell; if it is right, name the cell in layout.toml.",
    MISSING: "Measure it and enter it.",
}


def how_to_settle(problem: str) -> str:
    """What to do about a reading that cannot be computed with, a sentence."""
    return _SETTLED.get(
        problem,
        "Put the number alone into the cell, with its unit where it differs from the book's, "
        "and the remark beside it.",
    )


def refused(raw: object, reason: str, offer: str = "") -> Content:
    """A cell that is not read, and why."""
    return Content(raw, "refused", reason=reason, offer=offer)


def not_read(raw: object, error: UnreadableText) -> Content:
    """A cell whose text is no quantity, for the reason of the error."""
    offer = error.refusal.expected if error.code is RefusalCode.LETTER_AMONG_DIGITS else ""
    return Content(raw, "refused", reason=str(error), offer=offer, code=error.code)


_INCH_UNITS = re.compile(r"inch|thou|foot|ft|lbf|pound|ounce|psi|ksi|degF|\bhp\b")


def is_unit(text: str) -> bool:
    """Whether a text is a unit that is known; pounds are one of weights, forces and pressures."""
    even = even_unit(text)
    return even in SPELLINGS or in_pounds(text) or (len(text) > 3 and _is_composed(text))


_STEP = re.compile(r"[+\-−–]\s?\d*[.,]\d+(?:\s?mm)?")


def is_step(text: str) -> bool:
    """Whether a text says how far under or over the standard size something is: "-.020"."""
    return _STEP.fullmatch(text.strip()) is not None


def in_pounds(text: str) -> bool:
    """Whether a unit is pounds: of a weight, a force or a pressure."""
    return even_unit(text) in POUNDS and text.strip() != "#"


def no_unit(text: object) -> str:
    """What to say behind a text that is no unit."""
    near = nearest_unit(str(text))
    return f"is not a unit that is known{f'; the nearest is {near}' if near else ''}"


@lru_cache(maxsize=4096)
def _is_composed(text: str) -> bool:
    """Whether a text is a unit made of several: lb ft, N.m, in-lb."""
    if not re.fullmatch(r"[^\W\d_]{1,3}\.?[ .·*/-] ?[^\W\d_]{1,3}\.?", text.strip()):
        return False
    try:
        quantities.unit_named(text)
    except UnreadableText:
        return False
    return True


_TICKED = re.compile(r"(?P<size>.*\d.*?)\s*[✓✔☑]")


def without_tick(text: str) -> str:
    """A size without the tick behind it: "38 Nm ✓"."""
    found = _TICKED.fullmatch(text)
    return found["size"] if found else text


@lru_cache(maxsize=4096)
def is_measured(text: str) -> bool:
    """Whether a text is one number, alone or with a unit that is known."""
    try:
        _, unit = quantities.split_quantity(text)
    except UnreadableText:
        return False
    return unit is None or is_unit(unit)


@lru_cache(maxsize=1024)
def _system_of(unit: str, fallback: System | None) -> System:
    """The system whose bare unit a spelled unit is told in."""
    spelled = unit_expression(unit)
    if not spelled:
        return fallback or "inch"
    return "inch" if _INCH_UNITS.search(spelled) else "metric"


def rounded(number: float) -> float:
    """A converted number without the last digits that conversion adds."""
    return float(f"{number:.12g}")


def with_point(text: str) -> str:
    """Decimal commas as points, grouping points left out."""
    text = re.sub(r"(?<=\d)\.(?=\d{3}(?:\.\d{3})*,)", "", text)
    return re.sub(r"(?<=\d),(?=\d)|(?<![\d,]),(?=\d)", ".", text)


N = r"[+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)"
UNSIGNED = r"(?:\d+(?:[.,]\d*)?|[.,]\d+)"


def plain_number(text: str) -> float:
    """A typed number without a unit, its comma a decimal one."""
    return float(text.replace(",", ".").replace("−", "-"))


def one(raw: object, text: str, field: Field, sign: int, note: str) -> Content:
    """A single quantity with the sign that a word gave it."""
    try:
        value = quantity(text, field)
    except UnreadableText as reason:
        return not_read(raw, reason)
    return Content(raw, "value", (value._replace(number=sign * value.number),), note)


_IN_WORDS = {"1/100 mm": "hundredths mm", "1/100": "hundredths mm", "1/1000 mm": "um",
             "1/1000 in": "thou"}  # fmt: skip


# What can be read in one way only: no grouped digits, no fraction, no unit.
_BARE = re.compile(r"[+-]?(?:\d{1,12}(?:\.\d{0,15})?|\.\d{1,15})")


def quantity(text: str, field: Field) -> Value:
    """One number with at most one unit, as a value of a field.

    Sizes of the shop (thou, tenths, micrometers) become the unit that a bare number of the
    same system has. Raises UnreadableText with the reason.
    """
    kind = field.kind
    # Turns may be grouped: 6.500 rpm.
    if kind.has_units and kind is not ROTATION and _BARE.fullmatch(text):
        stated = field.unit or (kind.unit(field.system) if field.system else "")
        system = _system_of(stated, field.system) if stated else None
        if system and stated == kind.unit(system):
            # There and back, as any text is read: SI has other last digits.
            si = quantities.to_si(float(text), kind, system)
            return Value(rounded(quantities.from_si(si, kind, system)), stated)
    return _quantity(text, field._replace(neighbors=(), likely=None))


@lru_cache(maxsize=8192)
def _quantity(text: str, field: Field) -> Value:
    if field.decimal_comma:
        text = with_point(text)
    kind = field.kind
    if not kind.has_units:
        share = _is_share(field) and quantities.split_quantity(text)[1] is None
        return Value(rounded(quantities.read_text(f"{text} %" if share else text, kind, "inch")))
    number_text, unit_text = quantities.split_quantity(text)
    if unit_text is not None:
        if field.system is None and even_unit(unit_text) in ("tenth", "tenths"):
            raise refuse(RefusalCode.DOUBTFUL_TENTH)
        system = _system_of(unit_text, field.system)
        if even_unit(unit_text) in ("tenth", "tenths"):
            system = field.system or "inch"
        return _value(quantities.read_quantity(text, kind, system))
    stated = field.unit or (kind.unit(field.system) if field.system else "")
    if not stated:
        raise refuse(RefusalCode.UNIT_NOT_SAID)
    system = _system_of(stated, field.system)
    # A bare number first, so that what may be two readings is not taken for a fraction.
    bare = quantities.read_quantity(text, kind, system)
    if stated == kind.unit(system):
        return _value(bare)
    # "5 1/100 mm" would be a mixed number.
    stated = _IN_WORDS.get(even_unit(stated), stated)
    return _value(quantities.read_quantity(f"{number_text} {stated}", kind, system))


def _is_share(field: Field) -> bool:
    """Whether bare numbers of a share are in percent."""
    return field.kind is quantities.FACTOR and field.unit == "%"


def _value(read: Quantity) -> Value:
    return Value(rounded(read.number), read.unit)


def number_value(number: float, field: Field) -> Value:
    """A number that stands in its cell as a number. Raises UnreadableText without a unit."""
    if not field.kind.has_units:
        return Value(rounded(number / 100) if _is_share(field) else float(number))
    if field.decimal_comma:
        field = field._replace(decimal_comma=False)
    return quantity(f"{number:.15g}", field)


def si(value: Value, field: Field) -> float:
    """A value in SI."""
    for system in quantities.SYSTEMS:
        if value.unit == field.kind.unit(system):
            return quantities.to_si(value.number, field.kind, system)
    return quantities.read_text(value.text, field.kind, _system_of(value.unit, field.system))


def doubted(content: Content, field: Field, bare: bool) -> Content:
    """What the size of a single number casts doubt on: flagged, or refused as likely thou.

    bare: whether the cell itself names no unit.
    """
    value = content.value
    if value is None:
        return content
    if value.number == 0 and not field.zero:
        return refused(content.raw, "zero, which this cannot be; perhaps not measured")
    if field.meaning.endswith("ring_gap") and 0.003 <= value.number <= 0.009:
        content = content.noted("looks like a gap per unit of bore, not a gap")
    elif field.likely is not None and value.number != 0:
        content = _against_usual(content, value, field, field.likely, bare)
    return _against_neighbors(content, value, field)


def _against_usual(
    content: Content, value: Value, field: Field, likely: tuple[float, float], bare: bool
) -> Content:
    low, high = likely
    size = si(value, field)
    size = size if low < 0 else abs(size)
    # A label that says thousandths has said it.
    if size > high and bare and value.unit == "in" and field.unit in ("", "in"):
        for parts, name in ((1000, "thousandths"), (10000, "tenths")):
            if low <= size / parts <= high:
                offer = f"{value.number / parts:.6g} in"
                return refused(content.raw, f"looks like {name} of an inch", offer)
    return content if low <= size <= high else content.noted(FAR_FROM_USUAL)


def _against_neighbors(content: Content, value: Value, field: Field) -> Content:
    if len(field.neighbors) >= 2 and value.number:
        low, high = min(field.neighbors), max(field.neighbors)
        if low > 0 and high < 8 * value.number < 64 * low:
            return content  # Far from ten times or a tenth of each, and so of their median.
        times = value.number / (median(field.neighbors) or value.number)
        if 8 <= times <= 12.5:
            content = content.noted("ten times its neighbors")
        elif 0.08 <= times <= 0.125:
            content = content.noted("a tenth of its neighbors")
    return content
