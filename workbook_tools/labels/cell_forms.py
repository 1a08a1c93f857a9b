"""The trade's own ways of writing sizes, crowns, decks, torques, springs and cam figures.

Each form reads a whole cell of certain fields, or leaves it to the next.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from workbook_tools.labels.cell_figures import cam, tests
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import (
    CROWN_SIGN_NOT_SAID,
    DECK_SIGN_NOT_SAID,
    UNSIGNED,
    Content,
    Field,
    N,
    Value,
    not_read,
    one,
    plain_number,
    quantity,
    refused,
)
from workbook_tools.quantities import (
    ANGLE,
    FORCE,
    LENGTH,
    PRESSURE,
    RATIO,
    TORQUE,
    UnreadableText,
    split_quantity,
)

# The numbers of machine-screw threads and threads to the inch, so that 10-32 is no range.
_SCREWS = {"0", "1", "2", "3", "4", "5", "6", "8", "10", "12"}
_PITCHES = {"80", "72", "64", "56", "48", "44", "40", "36", "32", "28", "24"}


def thread(raw: object, text: str, _: Field) -> Content | None:
    """M10x1.25, 1/2-20, 7/16-14 x 3.25, 10-32: threads, which are no numbers."""
    found = re.fullmatch(r"M\d{1,2}(?:\.\d)?\s*[x×]\s*\d(?:[.,]\d+)?", text, re.IGNORECASE)
    if found:
        return Content(raw, "thread", text=text)
    found = re.fullmatch(rf"(\d+/\d+)-(\d{{1,2}})(?:\s*[x×]\s*({UNSIGNED}))?", text)
    if found and int(found[2]) >= 8 and not re.fullmatch(r"\d+/\d+-\d+/\d+", text):
        length = (Value(plain_number(found[3]), "in", "length"),) if found[3] else ()
        note = f"{found[1]} in, {found[2]} threads to the inch"
        return Content(raw, "thread", length, note, text=f"{found[1]}-{found[2]}")
    found = re.fullmatch(r"(\d{1,2})-(\d{2})", text)
    if found and found[1] in _SCREWS and found[2] in _PITCHES:
        return Content(raw, "thread", text=text)
    return None


def over_and_under(raw: object, text: str, field: Field) -> Content | None:
    """10 under, .010 U/S, 30 over, +30, 0.50 O/S, STD/.010, 10/20, std, 1st: sizes off standard."""
    even = text.lower()
    if even in ("std", "standard", "std."):
        return Content(raw, "standard size", note="needs the nominal size; not zero")
    if re.fullmatch(
        r"(?:1st|2nd|3rd|4th|first|second|third)(?: (?:rebore|grind|over|under))?", even
    ):
        return refused(raw, "which size that is needs a table")
    if re.fullmatch(rf"std/{N}|{N}/std", even):
        return refused(raw, "mains and rods apart; which comes first has to be asked")
    about = field.meaning in ("oversize", "undersize")
    if about and re.fullmatch(r"\d{1,2}/\d{1,2}", even):
        return refused(raw, "two undersizes; which is of the mains has to be asked")
    over, under = r"over|o/?s|oversize", r"under|u/?s|undersize"
    found = re.fullmatch(rf"({N})\s*(mm|in|\"|thou)?\s*(?:({over})|({under}))", even)
    if found:
        return _off_standard(raw, found[1], found[2] or "", 1 if found[3] else -1, field)
    found = re.fullmatch(r"\+(\d{2})", even)
    if found and field.meaning == "oversize":
        return _off_standard(raw, found[1], "", 1, field)
    if found:
        return refused(raw, "an oversize only where the column says so", f"{found[1]} thou over")
    return None


def _off_standard(raw: object, number: str, unit: str, sign: int, field: Field) -> Content:
    which = "over standard" if sign > 0 else "under standard"
    size = abs(plain_number(number))
    if not unit and size >= 5:
        if field.system != "inch":
            return refused(raw, "thousandths of an inch, or millimeters: the book is not in inches")
        return Content(raw, "value", (Value(sign * size / 1000, "in"),), which)
    if not unit and size >= 0.2 and field.system != "metric":
        return refused(raw, "a metric size, but the book is not known to be metric", f"{size} mm")
    return one(raw, f"{size:.12g} {unit}".strip(), field, sign, which)


def tolerance(raw: object, text: str, field: Field) -> Content | None:
    """4.030+.002, 4.030 +.002/-.000, 87.00 (+0.50), +-.5."""
    found = re.fullmatch(rf"({UNSIGNED})\s*\+\s*({UNSIGNED})\s*/\s*[-−]\s*({UNSIGNED})", text)
    if found:
        size, up, down = (plain_number(g) for g in found.groups())
        try:
            unit = quantity(found[1], field).unit
        except UnreadableText as reason:
            return not_read(raw, reason)
        sizes = ((size, "nominal"), (size - down, "low"), (size + up, "high"))
        values = tuple(Value(float(f"{number:.12g}"), unit, of) for number, of in sizes)
        return Content(raw, "limits", values)
    if re.fullmatch(rf"{UNSIGNED}\s*\+\s*{UNSIGNED}", text):
        return refused(raw, "a sum, a tolerance or a fit: the cell does not say")
    if re.fullmatch(rf"(?:\+/?-|±)\s*{UNSIGNED}.*", text):
        return refused(raw, "a tolerance without its nominal")
    found = re.fullmatch(rf"({UNSIGNED})\s*\(([+\-−]{UNSIGNED})\)", text)
    if found:
        return one(raw, found[1], field, 1, f"beside it ({found[2]})")
    return None


_PARTS = re.compile(r"(?P<parts>\d{1,3}(?:[.,]\d+)?)\s*/\s*(?P<of>100|1000)\s*(?:mm)?")
_TO_ONE = re.compile(
    rf"(?P<number>{UNSIGNED})\s*(?:/|:|to|zu|à|a|auf|su)\s*1(?:[.,]0)?"
    rf"|1\s*:\s*(?P<behind>(?!1(?:[.,]0*)?$){UNSIGNED})",
    re.IGNORECASE,
)


def ratio(raw: object, text: str, field: Field) -> Content | None:
    """10.5/1, 8,6 a 1, 1 : 7,0: a ratio, and not two readings."""
    found = _TO_ONE.fullmatch(text) if field.kind is RATIO else None
    if found is None:
        return None
    return one(raw, found["number"] or found["behind"], field, 1, "")


_ADDS = rf"dish(?:ed)?|bowl|reliefs?|\d?\s?vr|{either_of('crown_adds')}"
_TAKES = rf"domed?|pop-?up|{either_of('crown_takes')}"
_CC = r"cc|ccm|ml|cm[³3]|cu\.? ?in\.?"


def crown(raw: object, text: str, field: Field) -> Content | None:
    """8cc dish, +8 dome, FT, flat w/ 2VR 5cc, -5: what a crown adds to the volume."""
    if field.meaning not in ("crown_volume", "dish_volume", "dome_volume"):
        return None
    even = text.lower()
    if even in ("ft", "flat", "flat top", "flattop", "flach"):
        return Content(raw, "value", (Value(0.0, "cc"),), "flat; only if there are no reliefs")
    found = re.fullmatch(rf"(?:flat|ft)\s*(?:w/?|with)\s*(?:\d?\s?vr|reliefs?)\s*({N}\s*\w*)", even)
    if found:
        return one(raw, found[1], field, 1, "flat with reliefs, which add")
    found = re.fullmatch(rf"({N})\s*({_CC})?\s*(?:({_ADDS})|({_TAKES}))", even)
    if not found:
        found = re.fullmatch(rf"(?:({_ADDS})|({_TAKES}))\s*({N})\s*({_CC})?", even)
        if not found:
            return (
                crown_number(raw, text, field) if re.fullmatch(rf"{N}\s*(?:{_CC})?", even) else None
            )
        adds, takes, number, unit = found.groups()
    else:
        number, unit, adds, takes = found.groups()
    if number[0] in "-−" and adds:
        return refused(raw, "minus and dish pull apart in a sum of volumes; which sign is meant?")
    plain = f"{number.lstrip('+-−')} {unit or ''}".strip()
    note = "dome, takes away" if takes else "dish or reliefs, adds"
    if number[0] in "+-−":
        note += f"; written with {number[0]}"
    return one(raw, plain, field, -1 if takes else 1, note)


def crown_number(raw: object, text: str, field: Field) -> Content:
    """A crown volume without a word: only the field or the book's rule tells dish from dome."""
    negative = text.strip()[0] in "-−"
    plain = text.strip().lstrip("+-−").strip()
    if field.meaning == "dish_volume" and not negative:
        return one(raw, plain, field, 1, "dish, adds")
    if field.meaning == "dome_volume" and not negative:
        return one(raw, plain, field, -1, "dome, takes away")
    content = one(raw, plain, field, 1, "")
    if content.value is None or content.value.number == 0:
        return content
    if field.signs not in ("positive dish", "negative dish"):
        return refused(raw, CROWN_SIGN_NOT_SAID)
    sign = -1 if negative == (field.signs == "positive dish") else 1
    note = "dish, adds" if sign > 0 else "dome, takes away"
    return one(raw, plain, field, sign, f"{note}, by this book's rule")


_BELOW = r"down|in (?:the )?hole|below(?: deck)?|unter(?: deck)?|under deck"
_ABOVE = r"up|out(?: of (?:the )?hole)?|above(?: deck)?|proud|über(?: deck)?"


def deck(raw: object, text: str, field: Field) -> Content | None:
    """.008 down, .008 in hole, -.008, zero deck: positive is below the deck."""
    if field.meaning not in ("deck_clearance", "piston_protrusion"):
        return None
    even = text.lower()
    if even in ("zero deck", "zero", "0 deck"):
        unit = field.unit or field.kind.unit(field.system or "inch")
        return Content(raw, "value", (Value(0.0, unit),), "zero deck")
    found = re.fullmatch(rf"({N}\s*[^\s\d]*?)\s*(?:({_BELOW})|({_ABOVE}))", even)
    if found:
        if found[1][0] in "-−" and found[2]:
            return refused(raw, "minus and a word for below the deck; which is meant?")
        sign = 1 if found[2] else -1
        plain = found[1].lstrip("+-−").strip()
        return one(raw, plain, field, sign, "below the deck" if sign > 0 else "above the deck")
    try:
        split_quantity(text)
    except UnreadableText:
        return None
    return deck_number(raw, text, field)


def deck_number(raw: object, text: str, field: Field) -> Content:
    """A deck clearance without a word: the field's name, else the book's rule, gives the side."""
    text = text.strip()
    signed, negative = text[0] in "+-−", text[0] in "-−"
    plain = text.lstrip("+-−").strip()
    if field.meaning == "piston_protrusion":
        sign, note = (1, "below the deck") if negative else (-1, "above the deck")
        return one(raw, plain, field, sign, note)
    rule = field.signs in ("positive below", "negative below")
    if not rule and signed and re.search(r"[1-9]", plain):
        return refused(raw, DECK_SIGN_NOT_SAID)
    if not rule or (not signed and field.signs == "positive below"):
        return one(raw, plain, field, 1, "" if rule else "taken as below the deck")
    sign = 1 if negative == (field.signs == "negative below") else -1
    where = "below" if sign > 0 else "above"
    return one(raw, plain, field, sign, f"{where} the deck, by this book's rule")


def gasket(raw: object, text: str, field: Field) -> Content | None:
    """.041 x 4.180: thickness and bore; .041c: as compressed."""
    if field.meaning not in ("gasket_thickness", "gasket_bore"):
        return None
    found = re.fullmatch(rf"({UNSIGNED})\s*(?:c|crushed|compressed|comp\.?|gepresst)", text.lower())
    if found:
        return one(raw, found[1], field, 1, "compressed")
    both = _thickness_and_bore(text)
    if both:
        try:
            sizes = sorted((quantity(size, field) for size in both), key=lambda v: v.number)
        except UnreadableText as reason:
            return not_read(raw, reason)
        values = (sizes[0]._replace(of="thickness"), sizes[1]._replace(of="bore"))
        return Content(raw, "several", values, "which is which is told by size: confirm")
    return None


_GASKET_SIZE = re.compile(
    rf"(?P<size>{UNSIGNED})\s*(?P<unit>(?:mm|in|inch|inches)\b\.?|\")?", re.IGNORECASE
)
_FRACTION = re.compile(r"\d/\d")
# The bore of a gasket is wider than it is thick by far.
_WIDER = 15.0


def _thickness_and_bore(text: str) -> list[str]:
    """The two sizes of a gasket with their units, [] for any other text: ".045 in, hole 3.690"."""
    found = [*_GASKET_SIZE.finditer(text)]
    left = re.findall(r"[^\W\d_]+", _GASKET_SIZE.sub(" ", text.casefold()))
    if len(found) != 2 or _FRACTION.search(text) or set(left) - words_of("of_gaskets"):
        return []
    low, high = sorted(plain_number(one["size"]) for one in found)
    if high <= _WIDER * low:
        return []
    shared = found[0]["unit"] or found[1]["unit"] or ""
    return [f"{one['size']} {one['unit'] or shared}".strip() for one in found]


_FT_LB = r"(?:ft[\s.\-]?lbf?s?|lbf?[\s.\-]?ft|ft#|n[\s.\-]?m|in[\s.\-]?lbf?s?)"


# How a fastener is turned on: "+ 90°", "+ 90° + 90°", or in how many steps.
_THEN = re.compile(
    r"(?:\s*(?:\+|then|dann|puis|luego|poi)\s*\d{1,3}\s*(?:°|deg\w*|grad\w*|degr\w*))+"
    r"|,?\s+(?:in )?\d (?:steps?|stages?|goes|passes|stufen|étapes|pasos|passi)"
)


def last_torque(raw: object, text: str, field: Field) -> Content | None:
    """60 Nm + 90°, 110 ft-lb, 3 steps: the torque, and how it is reached as a note."""
    found = _THEN.search(text.lower()) if field.kind is TORQUE else None
    if found is None or found.end() < len(text) or field.meaning == "torque":
        return None
    content = one(raw, text[: found.start()].strip(), field, 1, "")
    return content.noted(text[found.start() :].strip(" ,+")) if content.values else None


# How fast the engine turned: "48 psi at 1800".
_AT_SPEED = re.compile(
    r"\s+(?:at|@|bei|à|a)\s*(?:about |ca\.? )?\d[\d.,]*"
    r"(?P<unit>\s*(?:rpm|r/min|u/min|tr/min|t/min|giri/min|giri\w*))?"
)


def size_at_speed(raw: object, text: str, field: Field) -> Content | None:
    """48 psi at 1800, 34 deg at 3,000 rpm: the pressure or angle, and the speed as a note."""
    found = _AT_SPEED.search(text.lower()) if field.kind in (PRESSURE, ANGLE) else None
    if found is None or found.end() < len(text) or (field.kind is ANGLE and not found["unit"]):
        return None  # A duration is measured at a lift: "232 at 0.050".
    content = one(raw, text[: found.start()].strip(), field, 1, "")
    return content.noted(text[found.start() :].strip()) if content.values else None


def torque(raw: object, text: str, field: Field) -> Content | None:
    """70 ft-lb + 90 deg, 20/40/60/70, 3 x 25, 65 lbs: stages are never added."""
    if field.meaning != "torque":
        return None
    even = text.lower()
    found = re.fullmatch(rf"({N}\s*{_FT_LB}?)\s*\+\s*(\d+)\s*(?:deg\w*|°)", even)
    if found:
        stage = one(raw, found[1].strip(), field, 1, "")
        if not stage.values:
            return stage
        values = (stage.values[0]._replace(of="stage 1"), Value(float(found[2]), "deg", "stage 2"))
        return Content(raw, "several", values, "a torque, then an angle")
    if re.fullmatch(rf"\d+\s*[x×]\s*{N}", even):
        return refused(raw, "so many steps to a torque, or so many times that torque?")
    if re.fullmatch(rf"{N}\s*(?:lbs?|#|kg)\.?", even):
        return refused(raw, "a weight, not a torque: ft-lb or in-lb?")
    if "/" in even and re.fullmatch(rf"{N}(?:/{N})+\s*{_FT_LB}?", even):
        return _listed(raw, even, field, "steps of a torque", [f"step {n}" for n in range(1, 9)])
    return None


def _listed(raw: object, text: str, field: Field, note: str, of: list[str]) -> Content:
    """Numbers parted by slashes, each with its name; a unit behind the last is of all."""
    parts = [part.strip() for part in text.split("/")]
    _, unit = split_quantity(parts[-1])
    try:
        parts = [f"{part} {unit}" if unit else part for part in parts[:-1]] + parts[-1:]
        values = [quantity(part, field) for part in parts]
    except UnreadableText as reason:
        return not_read(raw, reason)
    named = tuple(v._replace(of=name) for v, name in zip(values, of, strict=False))
    return Content(raw, "several", named, note)


def springs_and_lash(raw: object, text: str, field: Field) -> Content | None:
    """130@1.850, 130/340, .060 CB, .016H, .010/.012, 0 + 1/2 turn, 1.7965/1.8023."""
    even = text.lower()
    found = re.fullmatch(rf"({UNSIGNED})\s*(lbf?s?|n)?\s*@\s*({UNSIGNED})\s*(in|mm|\")?", even)
    if found and field.meaning == "spring load":
        load = "N" if found[2] == "n" or (not found[2] and field.system == "metric") else "lbf"
        length = "mm" if found[4] == "mm" or (not found[4] and load == "N") else "in"
        values = (
            Value(plain_number(found[1]), load, "load"),
            Value(plain_number(found[3]), length, "height"),
        )
        return Content(raw, "several", values, "a load at a height")
    two = re.fullmatch(rf"{UNSIGNED}/{UNSIGNED}", even)
    if two and field.meaning == "spring load":
        loads = field._replace(kind=FORCE)
        return _listed(raw, even, loads, "seat and open load; heights missing", ["seat", "open"])
    if two and field.meaning == "lash":
        return _listed(raw, even, field, "hot or cold is not said", ["intake", "exhaust"])
    if two and field.meaning == "bolt length":
        return _listed(raw, even, field, "the stretch is their difference", ["free", "tight"])
    found = re.fullmatch(rf"({UNSIGNED})\s*cb", even)
    if found and field.meaning == "coil bind margin":
        return one(raw, found[1], field, 1, "to coil bind")
    if found:
        return refused(raw, "a margin to coil bind or a shim: the column does not say")
    found = re.fullmatch(rf"({UNSIGNED}\s*(?:mm|in|\")?)\s*(h|hot|c|cold)", even)
    if found and field.meaning == "lash":
        return one(raw, found[1], field, 1, "hot" if found[2][0] == "h" else "cold")
    if re.fullmatch(r"0?\s*\+?\s*[\d/]+\s*turns?", even):
        return refused(raw, "turns; a length only with the pitch and the rocker ratio")
    return None


def rings(raw: object, text: str, field: Field) -> Content | None:
    """.019/.019, .018/.020/.018, 18/20, bore x .0045."""
    even = text.lower()
    found = re.fullmatch(rf"bore\s*[x×*]\s*({UNSIGNED})", even)
    if found:
        return Content(
            raw, "rule", (Value(plain_number(found[1]), "", "per unit of bore"),), "gap by the bore"
        )
    if not field.meaning.endswith("ring_gap") or "/" not in even:
        return None
    if two := re.fullmatch(r"(\d{1,2})/(\d{1,2})(?: ?thou)?", even):
        return refused(raw, "two gaps, likely in thousandths", f"0.0{two[1]}/0.0{two[2]}")
    if re.fullmatch(rf"{N}/{N}", even):
        return _listed(
            raw, even, field, "top and second, or two tries: the heading decides", ["", ""]
        )
    if re.fullmatch(rf"{N}/{N}/{N}", even):
        return _listed(raw, even, field, "perhaps top, second, rails", ["", "", ""])
    return None


def hundredths(raw: object, text: str, field: Field) -> Content | None:
    """10/100: so many hundredths of a millimeter, and not two readings."""
    found = _PARTS.fullmatch(text) if field.kind is LENGTH else None
    if found is None:
        return None
    return one(raw, f"{plain_number(found['parts']) / int(found['of']):g} mm", field, 1, "")


FORMS: tuple[Callable[[object, str, Field], Content | None], ...] = (
    ratio, hundredths, thread, over_and_under, tolerance, crown, deck, gasket, torque, last_torque,
    size_at_speed, springs_and_lash, rings, cam, tests,
)  # fmt: skip
