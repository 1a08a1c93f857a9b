"""How the trade writes cam figures and the results of tests."""

from __future__ import annotations

import re

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import (
    UNSIGNED,
    Content,
    Field,
    Value,
    one,
    plain_number,
    refused,
)
from workbook_tools.quantities import ANGLE, FORCE, LENGTH

_FROM_WHERE = re.compile(
    r"(?P<angle>\d{1,3}(?:[.,]\d+)?)\s*(?P<sign>°|º|deg\b|grad\b)?\s*(?P<where>[^\d]+)"
)
# What leaves no doubt that a number without a sign of degrees is an angle: "44 BTDC".
_FROM_WHERE_ALONE = (
    "btdc", "atdc", "abdc", "bbdc", "vot", "not", "vut", "nut",
    "apms", "dpms", "apmi", "dpmi", "ppms", "ppmi",
)  # fmt: skip


def angle_from_dead_center(text: str) -> tuple[float, str] | None:
    """An angle with the dead center that it is counted from: "92° d. PMS"; None for any other."""
    found = _FROM_WHERE.fullmatch(text.casefold().strip())
    words = re.findall(r"[^\W\d_]+", found["where"]) if found else []
    if not found or not words or not {*words} <= words_of("from_dead_center"):
        return None
    if not found["sign"] and not any(word in _FROM_WHERE_ALONE for word in words):
        return None
    return float(found["angle"].replace(",", ".")), text.strip()[found.start("where") :]


def cam(raw: object, text: str, field: Field) -> Content | None:
    """106 ICL, 4 adv, +4, 2° cam, 232/240 @ .050, 272, 58 ABDC."""
    even = text.lower()
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(?:°|deg\w*)?\s*cam", even)
    if found:
        number = float(found[1])
        return Content(raw, "value", (Value(number, "deg cam"),), f"{2 * number:g} crank degrees")
    found = re.fullmatch(r"(\d+(?:\.\d+)?)/(\d+(?:\.\d+)?)\s*@\s*(\.\d+)", even)
    if found:
        lift = (Value(float(found[3]), "in", "lift"),)
        sides = tuple(
            Value(float(g), "deg", s)
            for g, s in zip(found.groups(), ("intake", "exhaust"), strict=False)
        )
        return Content(raw, "several", sides + lift, "durations at a lift")  # fmt: skip
    if field.kind is not ANGLE:
        return None
    counted = angle_from_dead_center(text)
    if counted is not None and not re.fullmatch(r"[ab][tb]dc", counted[1], re.IGNORECASE):
        return Content(raw, "value", (Value(counted[0], "deg"),), counted[1])
    angle = r"(\d+(?:\.\d+)?)\s*(?:°|deg)?\s*"
    if field.meaning == "intake centerline" and re.fullmatch(r"\d+/\d+", even):
        return refused(raw, "intake and exhaust, or centerline and separation? ask")
    ends = (
        (r"icl", "intake centerline after top dead center"),
        (r"abdc", "after bottom dead center"), (r"bbdc", "before bottom dead center"),
        (r"atdc", "after top dead center"), (r"btdc", "before top dead center"),
        (r"a(?:dv(?:ance|anced)?)?", "advanced"), (r"r(?:et(?:ard|arded)?)?", "retarded"),
    )  # fmt: skip
    for word, note in ends:
        found = re.fullmatch(angle + word, even)
        if found:
            sign = -1 if note == "retarded" else 1
            return Content(raw, "value", (Value(sign * float(found[1]), "deg"),), note)
    if (
        field.meaning == "cam advance"
        and re.fullmatch(r"[+\-]\d+(?:\.\d+)?", even)
        and not field.signs
    ):
        return refused(raw, "advanced or retarded? the column does not say")
    found = re.fullmatch(angle, even)
    if found and field.meaning == "duration":
        note = "at what lift is not said: no closing point from it"
        return Content(raw, "value", (Value(float(found[1]), "deg"),), note)
    return None


def tests(raw: object, text: str, field: Field) -> Content | None:
    """4%, .04, 76/80, 13 kg, 62 @ 6k hot, 10w-30, 487@6200."""
    even = text.lower()
    if re.fullmatch(r"\d{1,2}w-?\d{2}", even):
        return Content(raw, "text", text=text, note="an oil grade, not numbers")
    if field.meaning == "leak_down":
        return _leak_down(raw, even, field)
    found = re.fullmatch(rf"({UNSIGNED})\s*kg", even)
    if found and field.meaning in ("cranking_pressure", "oil_pressure"):
        return one(raw, f"{found[1]} kgf/cm2", field, 1, "kg taken as kgf/cm2")
    found = re.fullmatch(
        rf"({UNSIGNED}(?:\s*[a-z]+)?)\s*@\s*(\d+(?:\.\d+)?)(k?)(?:\s*rpm)?\s*(\w+)?", even
    )
    if found and field.kind not in (FORCE, LENGTH):
        speed = float(found[2]) * (1000 if found[3] else 1)
        content = one(raw, found[1], field, 1, found[4] or "")
        if not content.values:
            return content
        return Content(raw, "several", (*content.values, Value(speed, "rpm", "at")), content.note)
    return None


def _leak_down(raw: object, even: str, field: Field) -> Content | None:
    found = re.fullmatch(rf"({UNSIGNED})\s*(%?)", even)
    if found:
        number = plain_number(found[1])
        if found[2] or (field.unit == "%" and number >= 0.5):
            return Content(raw, "value", (Value(number, "%"),))
        if number < 0.5:
            return refused(raw, f"{100 * number:g} % or {number:g} %?")
        return refused(raw, "neither the cell nor its heading says percent")
    found = re.fullmatch(rf"({UNSIGNED})/({UNSIGNED})", even)
    if found:
        held, given = plain_number(found[1]), plain_number(found[2])
        if not held <= given or given == 0:
            return refused(raw, "more held than given")
        values = (Value(held, "psi", "held"), Value(given, "psi", "given"))
        return Content(raw, "several", values, f"a drop of {100 * (1 - held / given):.3g} %")
    return None
