"""Read what a builder typed into a cell: value, unit, kind and note, or one plain refusal."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable

from workbook_tools.catalog import CellError
from workbook_tools.labels.cell_forms import FORMS, crown_number, deck_number
from workbook_tools.labels.cell_texts import either_of
from workbook_tools.labels.cell_words import no_value, read_person, read_position
from workbook_tools.labels.content import (
    Content,
    ContentKind,
    Field,
    N,
    Value,
    doubted,
    is_unit,
    not_read,
    number_value,
    quantity,
    refused,
    rounded,
    si,
    without_tick,
)
from workbook_tools.labels.dates import read_date
from workbook_tools.quantities import (
    COUNT,
    LENGTH,
    RATIO,
    TEXT,
    RefusalCode,
    UnreadableText,
    split_quantity,
    with_plain_signs,
)

DATES = ("date", "started", "finished")
_SIGNED = ("crown_volume", "dish_volume", "dome_volume", "deck_clearance", "piston_protrusion")
# Words behind a number that are a unit or a side nobody can be sure of, so never a mere note.
_DOUBTFUL = re.compile(
    r"(?:hundredths?|thousands?|lbs?|#|kg|min|max|minimum|maximum|over|under|of|cb|oz|turns?)\b|#",
    re.IGNORECASE,
)
# Thousands as the Swiss group them: 1'022.
_GROUPED = re.compile(r"(?<=\d)['’](?=\d{3}(?!\d))")
# "65 lb. ft. cold": a unit has no more words.
_MOST_WORDS_OF_A_UNIT = 2
# A remark in brackets behind a number with its unit: "1.5 mm (2 notches)".
_BRACKETED = re.compile(r"\([^()]{2,}\)")
# It may say how much was taken off: "430 ground 3 off".
_BESIDE = re.compile(r"(?:[+&–-] )?[A-Za-zÀ-ÿ(][^\d]*(?:(?<= )\d{1,2} [A-Za-zÀ-ÿ][^\d]*)?")
# "9 - opened to 10", "0.30 limé à 0.35": what it was and what it was made.
_WORKED_TO = re.compile(
    rf"(?P<was>{N}(?:\s*[^\W\d_]+)?)\s*[-–,;:>(]*\s*{either_of('worked_to')}\s*"
    rf"(?P<now>{N}(?:\s*[^\W\d_\s]+)?)\)?",
    re.IGNORECASE,
)
# The same in another unit behind it: "3.228 (82 mm)".
_IN_ANOTHER_UNIT = re.compile(rf"(?P<size>{N})\s*\((?P<other>{N}\s*[^\W\d_]+|{N}\s?\")\)")
_ALIKE = 2e-3


def read_content(
    raw: object, field: Field, struck: bool = False, nominal: Value | None = None
) -> Content:
    """What a cell holds, read for a field.

    raw: the cell's content as it stands; struck: whether it is struck through; nominal: the size
    that the number is an amount over. Never raises: what cannot be read is refused with its
    reason.
    """
    content = _over(raw, field, nominal) if nominal else _read(raw, field)
    if struck and content.kind != "empty":
        return content._replace(kind="withdrawn", note="struck through: withdrawn", reason="")
    return content


def _over(raw: object, field: Field, nominal: Value) -> Content:
    """A cell with an amount over a nominal size, as the size that both make."""
    text = raw.replace(" ", "") if isinstance(raw, str) else raw
    amount = _read(text, field._replace(likely=None, neighbors=(), zero=True))
    if amount.value is None or amount.value.unit != nominal.unit:
        return amount
    size = Value(rounded(nominal.number + amount.value.number), nominal.unit)
    content = Content(raw, "value", (size,), f"over the nominal {nominal.text}")
    return doubted(content, field._replace(neighbors=()), False)


def _read(raw: object, field: Field) -> Content:
    if isinstance(raw, float) and field.meaning not in DATES:
        return _number(raw, raw, field)
    if raw is None:
        return Content(raw, "empty")
    if isinstance(raw, CellError):
        return Content(raw, "error", note=raw.text)
    if field.meaning in DATES:
        return read_date(raw, field)
    if isinstance(raw, bool):
        return refused(raw, "TRUE or FALSE, not a measurement")
    if isinstance(raw, (datetime.date, datetime.time, datetime.timedelta)):
        if field.meaning == "position":
            return read_position(raw, "")
        return refused(
            raw, "a date or time; the program may have turned 3/8, 10-32 or 11:2 into it"
        )
    if isinstance(raw, (int, float)):
        return _number(raw, float(raw), field)
    text = without_tick(" ".join(str(raw).split()))
    if field.meaning == "number" or field.kind is TEXT:
        return _text(raw, text, field)
    content = _typed(raw, text, field)
    odd = "spaces around it" if str(raw) != str(raw).strip() and content.kind != "empty" else ""
    return content.noted(odd)


def _text(raw: object, text: str, field: Field) -> Content:
    if field.meaning == "number":
        return Content(raw, "text", text=text)
    nothing = no_value(raw, text)
    if nothing is not None and nothing.kind != "refused":
        return nothing
    if field.meaning == "position":
        return read_position(raw, text)
    if field.meaning == "builder":
        return read_person(raw, text)
    return Content(raw, "text", text=text)


def _number(raw: object, number: float, field: Field) -> Content:
    if field.kind is TEXT:
        return Content(raw, "text", text=f"{number:.15g}")
    if field.meaning in _SIGNED:
        typed = f"{number:.15g}"
        by_field = crown_number if "volume" in field.meaning else deck_number
        return doubted(by_field(raw, typed, field._replace(decimal_comma=False)), field, True)
    if field.meaning == "leak_down":
        return _typed(raw, f"{number:.15g}", field)
    try:
        value = number_value(number, field)
    except UnreadableText as reason:
        return not_read(raw, reason)
    return doubted(Content(raw, "value", (value,)), field, True)


def _typed(raw: object, text: str, field: Field) -> Content:
    nothing = no_value(raw, text)
    if nothing is not None:
        return nothing
    text = _GROUPED.sub("", with_plain_signs(text))
    if field.meaning.startswith("leakage"):
        text = text.removesuffix("%").strip()  # It is counted in percent.
    if text.startswith("'") and re.fullmatch(rf"'{N}", text):
        text = text[1:]
    for form in FORMS:
        content = form(raw, text, field)
        if content is not None:
            return doubted(content, field, _is_bare(text)) if content.value else content
    for read in (_worked_to, _twice, _marked, _doubtful_shapes, _single, _several, _with_note):
        content = read(raw, text, field)
        if content is not None:
            return content
    return refused(raw, "it is not one number with at most one unit")


def _is_bare(text: str) -> bool:
    return re.fullmatch(rf"'?{N}", text) is not None


_MEANT_FOR_ONE = (RefusalCode.LETTER_AMONG_DIGITS, RefusalCode.GROUPED_DIGITS)
# What other forms of a cell may still make something of.
_PERHAPS_SEVERAL = (
    RefusalCode.TWO_READINGS,
    RefusalCode.UNKNOWN_UNIT,
    RefusalCode.TAKES_NO_UNIT,
)


def _single(raw: object, text: str, field: Field) -> Content | None:
    """One number with at most one unit; a refusal only where that is what it was meant to be."""
    try:
        split_quantity(text)
    except UnreadableText as reason:
        if reason.code is RefusalCode.GROUPED_DIGITS and field.decimal_comma:
            return Content(raw, "value", (quantity(text, field),))
        if reason.code in _MEANT_FOR_ONE:
            return not_read(raw, reason)
        return None
    try:
        value = quantity(text, field)
    except UnreadableText as reason:
        if reason.code in _PERHAPS_SEVERAL:
            return None
        if reason.code is RefusalCode.DOUBTFUL_COMMA and _is_decimal(text, field):
            return _single(raw, text, field._replace(decimal_comma=True))
        return not_read(raw, reason)
    bare = _is_bare(text)
    content = Content(raw, "value", (value,), "stored as text" if bare else "")
    if text.endswith(("''", "’’")):
        content = content.noted("two apostrophes for an inch mark")
    return doubted(content, field, bare)


def _is_decimal(text: str, field: Field) -> bool:
    """Whether a comma that may group thousands gives a usual size only where it marks decimals."""
    if field.likely is None:
        return False
    try:
        value = quantity(text, field._replace(decimal_comma=True))
    except UnreadableText:
        return False
    low, high = field.likely
    size = abs(si(value, field))
    return low <= size <= high < 1000 * size


def _doubtful_shapes(raw: object, text: str, field: Field) -> Content | None:
    """Shapes that nobody can be sure of, refused with what they look like."""
    if re.fullmatch(r"\d+:\d+", text) and not re.fullmatch(r"[\d.]+:1", text):
        return refused(raw, "two numbers with a colon; it may have become a time of day")
    if re.fullmatch(rf"{N}\s*\+", text):
        return refused(raw, "a bit over, which is no number")
    if re.search(r"\d\.\.\d|\.\d+\.", text):
        return refused(raw, "a number with two points")
    if re.fullmatch(rf"{N}\s*[x×]\s*\d{{1,2}}", text) and field.kind.name == "mass":
        return refused(raw, "one for all: were all weighed?")
    found = re.fullmatch(rf"({N})\s*(hundredths?|thousands?)", text, re.IGNORECASE)
    if found:
        return refused(raw, f"{found[2]} of what?")
    found = re.fullmatch(r"(\.\d+)-(\d{1,3})", text)
    if found and len(found[2]) < len(found[1]) - 1:
        return refused(
            raw, "shorthand for a range", f"{found[1]} to {found[1][: -len(found[2])]}{found[2]}"
        )
    return None


def _worked_to(raw: object, text: str, field: Field) -> Content | None:
    """What something was made from what it was: "9 - opened to 10" is 10."""
    found = _WORKED_TO.fullmatch(text)
    if found is None:
        return None
    was = found["was"].strip()
    unit = was.lstrip("0123456789.,+-− ") if _is_bare(found["now"]) else ""
    content = _typed(raw, f"{found['now']} {unit}".strip(), field)
    return content.noted(f"was {was}") if content.value else content


def _twice(raw: object, text: str, field: Field) -> Content | None:
    """A size that is told again in another unit, where both are the same: "3.228 (82 mm)"."""
    found = _IN_ANOTHER_UNIT.fullmatch(text)
    if found is None or not field.kind.has_units:
        return None
    try:
        value, other = quantity(found["size"], field), quantity(found["other"], field)
    except UnreadableText:
        return None
    size, again = si(value, field), si(other, field)
    if abs(size - again) > _ALIKE * abs(size):
        return None
    return Content(raw, "value", (value,), f"also {found['other']}")


def _marked(raw: object, text: str, field: Field) -> Content | None:
    """A number with a mark that changes what it is worth: ~ < > ? avg (was ...)."""
    found = re.fullmatch(r"(?:~|≈|about|approx\.?|ca\.?)\s*(.+)", text, re.IGNORECASE)
    if found:
        content = _typed(raw, found[1], field)
        return content.noted("approximate") if content.value else content
    found = re.fullmatch(r"([<>≤≥])\s*(.+)", text)
    if found:
        content = _typed(raw, found[2], field)
        side = "upper" if found[1] in "<≤" else "lower"
        return _demoted(content, "bound", f"{side} bound, not a value")
    found = re.fullmatch(r"(.*\d.*?)\s*\?+", text)
    if found:
        content = _typed(raw, found[1], field)
        return _demoted(content, "doubt", "its writer doubts it")
    found = re.fullmatch(r"(?:avg|average|mean|Ø|mittel)\.?\s*(.+)", text, re.IGNORECASE)
    if found:
        content = _typed(raw, found[1], field)
        return _demoted(content, "mean", "a mean; its readings are missing")
    found = re.fullmatch(r"(.+?)\s*\(((?:was|before|war)\b[^()]*)\)", text, re.IGNORECASE)
    if found:
        return _typed(raw, found[1], field).noted(found[2])
    return None


def _demoted(content: Content, kind: ContentKind, note: str) -> Content:
    """A single value as something less; anything else as it is."""
    return content._replace(kind=kind).noted(note) if content.value else content


def _several(raw: object, text: str, field: Field) -> Content | None:
    """Several numbers in one cell: readings, a range, labeled readings."""
    found = re.fullmatch(
        rf"({N}\s*[^\d\s.,/\-–]*)\s*(?:-|–|÷|to|bis|a|à|hasta|fino a)\s*({N}\s*[^\d\s.,/\-–]*)",
        text,
    )
    if found and not text.startswith("-"):
        pair = _values([found[1].strip(), found[2].strip()], field)
        if isinstance(pair, str):
            return refused(raw, pair)
        if pair[0].number < pair[1].number:
            return Content(raw, "range", pair)
        return refused(raw, "two numbers with a dash between, but not a range upward")
    return _by_height(raw, text, field) or _in_a_row(raw, text, field)


def _by_height(raw: object, text: str, field: Field) -> Content | None:
    """Readings with the letters of their heights: "4.001 T 4.000 B"."""
    labeled = re.findall(rf"({N})\s*([TMB])\b", text)
    if len(labeled) >= 2 and not re.sub(rf"{N}\s*[TMB]\b[\s,;/]*", "", text):
        values = _values([number for number, _ in labeled], field)
        if isinstance(values, str):
            return refused(raw, values)
        names = {"T": "top", "M": "middle", "B": "bottom"}
        named = (v._replace(of=names[n]) for v, (_, n) in zip(values, labeled, strict=True))
        return Content(raw, "several", tuple(named), "readings by height")
    return None


def _in_a_row(raw: object, text: str, field: Field) -> Content | None:
    """Numbers one behind the other: with slashes, crosses or spaces between."""
    for pattern, note in (
        (r"\s*/\s*", "readings; which is which the cell does not say"),
        (r"\s*[x×]\s*", "readings, likely top, middle and bottom"),
        (r"\s*;\s*|\s+", "readings; in which order the cell does not say"),
    ):
        parts = [p for p in re.split(pattern, text) if p]
        if len(parts) < 2 or not all(re.fullmatch(rf"{N}", p) for p in parts[:-1]):
            continue
        if not re.fullmatch(rf"{N}(?:\s*[^\d\s]+)?", parts[-1]):
            continue
        if pattern.startswith(r"\s*[x") and len(parts) == 2 and field.kind is not LENGTH:
            return refused(raw, "two numbers with an x between: so many times one?")
        if max(map(len, parts)) > 2 * max(1, min(map(len, parts))) + 2 and field.kind is COUNT:
            continue
        values = _values(_with_last_unit(parts), field)
        if isinstance(values, str):
            return refused(raw, values)
        return Content(raw, "several", values, note)
    return None


def _with_last_unit(parts: list[str]) -> list[str]:
    """A unit behind the last number is of all of them."""
    try:
        _, unit = split_quantity(parts[-1])
    except UnreadableText:  # "350 4-bolt" is no two numbers, which is told when they are read.
        return parts
    return parts if unit is None else [*(f"{p} {unit}" for p in parts[:-1]), parts[-1]]


def _values(parts: Iterable[str], field: Field) -> tuple[Value, ...] | str:
    """Each text as a value, or the reason why one of them is none."""
    try:
        return tuple(quantity(part, field) for part in parts)
    except UnreadableText as reason:
        return str(reason)


def _with_note(raw: object, text: str, field: Field) -> Content | None:
    """A number with words behind it, which are kept as a note: ".0025 tight"."""
    found = re.match(rf"(?:\d+[- ]\d+/\d+|\d+/\d+|{N})", text)
    if found is None or found.end() == 0:
        return None
    number, rest = text[: found.end()], text[found.end() :].strip(" ,;:")
    words = rest.split(" ")
    lengths = (n for n in range(_MOST_WORDS_OF_A_UNIT, 0, -1) if n <= len(words))
    length = next((n for n in lengths if is_unit(" ".join(words[:n]))), 0)
    has_unit = length > 0 or words[0] in ("cc", "in", "mm")
    if has_unit:
        behind = max(length, 1)
        number = f"{number} {' '.join(words[:behind])}"
        rest = " ".join(words[behind:]).strip(" ,;:")
    if has_unit and _BRACKETED.fullmatch(rest):
        rest = rest.strip("()")
    elif not rest or not _BESIDE.fullmatch(rest) or _DOUBTFUL.match(rest):
        if rest and _DOUBTFUL.match(rest):
            return refused(raw, f"{rest!r} behind the number: the cell does not say what of")
        if rest and re.search(r"\d", rest):
            return refused(raw, "more numbers in the note than can be told apart")
        return None
    if field.kind is RATIO and rest.startswith(":"):
        return None
    try:
        value = quantity(number, field)
    except UnreadableText as reason:
        return not_read(raw, reason)
    return doubted(Content(raw, "value", (value,), rest), field, _is_bare(number))
