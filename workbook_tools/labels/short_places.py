"""The place on a part that a short text names: how high, how deep, which way across, by a port."""

from __future__ import annotations

import re

from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.vocabulary import stage_said
from workbook_tools.labels.which import TAKEN, Which
from workbook_tools.measurands.heights import is_height
from workbook_tools.measurands.position import parse

# Where a piston that rocks is measured: the two stand apart.
_ROCKED = ("high side", "low side")
# Across a bore from the thrust side.
_NON_THRUST = ("non-thrust", "non thrust", "non-thrust side", "anti-thrust", "anti thrust")
# Where on a flange, as on a clock's face.
_CLOCK = re.compile(r"(?P<hour>1[0-2]|[1-9])(?::00|\s*(?:o['’]?\s?c(?:lock|lk)?|uhr|h)\.?)")
# How far along a bore or a skirt, as a place on it: 'Depth 1"', "30 mm down".
_AT_DEPTH = re.compile(
    r"(?:depth|at|@)\s*[1-9]\d?(?:[.,]\d+)?\s?(?:\"|''|in(?:ch)?|mm)\.?"
    r"|(?:[1-9]\d?(?:[.,]\d{1,2})?|0?[.,][257]5?)\s?(?:\"|''|in(?:ch)?|mm)\.?\s"
    r"(?:down|dn|deep|(?:below|from) (?:the )?(?:deck|top|bottom))"
)
# One of several places by its letter, and across it: "A 0°", "B 90°".
_LETTER_AND_ANGLE = re.compile(r"(?P<letter>[a-d])[ -]?(?P<angle>0|90) ?(?:°|deg)")
# How far from where a cap parts: "split +30", "near split", "90 to split".
_FROM_SPLIT = re.compile(
    r"(?:near |at |off )?(?:split|parting line)(?: ?[-+−±]? ?\d{1,2} ?(?:°|deg)?)?"
    r"|at (?P<across>90) ?(?:°|deg)?|90 ?(?:°|deg)? (?:to|from) (?:the )?(?:split|parting line)"
)
# A corner of a head, by its side and its end: "int side front".
_CORNER = re.compile(r"(?P<side>int(?:ake)?|exh?(?:aust)?)\.? side,? (?P<end>front|rear|fr|rr)\.?")
# How high on a bore, along the pin: "top pin" beside "top thrust".
_ALONG_PIN = re.compile(
    r"(?P<place>top|mid(?:dle)?|ctr|cent(?:er|re)|bottom|bot|btm)(?:[ /]|, ?| [-–—] )pin"
)
# How high on the bore of a two-stroke, with the way across: "above exh. port – thrust".
_BESIDE_PORT = re.compile(
    rf"(?P<where>{either_of('beside_ports')}) ?(?P<port>{either_of('exhaust_ports')}"
    rf"|{either_of('intake_ports')}|{either_of('transfer_ports')})(?P<way>(?: [-–—]|[,/]) ?.+)?"
)
_BESIDE_PIN = re.compile(r"(?P<side>left|right)(?: side)? of (?:the )?(?:wrist |piston )?pin")
# A size taken twice, across each other: "as received A", "as received B (90°)".
_ACROSS = re.compile(
    r"(?P<when>\D{3,}?)[ ,]+"
    r"(?:(?:[AX] ?)?[(]?0 ?°[)]?|[AX]|(?P<across>(?:[BY] ?)?[(]?90 ?°[)]?|[BY]))"
)
# How high in a bore and which way across, in short: "Alto trasv.", "Bas long.", "Haut A".
_HEIGHT_AND_WAY = re.compile(
    r"(?P<height>[^\W\d_]{3,}) "
    r"(?:(?P<across>trasv|transv|quer|perp)|(?P<letter>[AB])|long|längs)\.?",
    re.IGNORECASE,
)
_HEIGHTS = {"v": ("vertical",), "vert": ("vertical",), "h": ("horizontal",), "hor": ("horizontal",)}
# Ends in short, which are words of other meanings without a dot: "del.", "tras.".
_ENDS_IN_SHORT = {
    f"{word}.": end
    for pair in words_of("front_rear")
    for word, end in zip(pair.split("/"), ("front", "rear"), strict=True)
    if 1 < len(word) <= len("tras")
}
# One of several readings of a size that are told apart by letters.
_READING = re.compile(r"reading (?P<letter>[A-D])")
_PLACES = {"top", "middle", "bottom"}


def height_on_bore(text: str) -> Which | None:
    """A place on a bore alone: "top"; None for any other text."""
    where = parse(text) if text.isalpha() else None
    if where is None or where.number or where.of or where.bank or len(where.at) != 1:
        return None
    return Which(at=tuple(where.at)) if {*where.at} <= _PLACES else None


def short_place(text: str) -> Which | None:
    """Where on a part: 6 o'clock, THR, worn across, T."""
    even = text.casefold().strip(" .")
    if reading := _READING.fullmatch(text):
        return Which(at=(reading["letter"],))
    if clock := _CLOCK.fullmatch(even):
        return Which(at=(f"{clock['hour']} o'clock",))
    if at := _far_along(text.casefold().strip().rstrip(" .")):
        return Which(at=at)
    if text[:1] in "([" and is_height(bare := text.strip("()[] ")):
        return Which(at=(bare,))
    if even in _NON_THRUST:
        return Which(at=("non-thrust",))
    if even in _ROCKED:
        return Which(at=(even,))
    if end := _ENDS_IN_SHORT.get(text.casefold()):
        return Which(at=(end,))
    if (two := _HEIGHT_AND_WAY.fullmatch(text)) and (high := height_on_bore(two["height"])):
        way = two["letter"] or ("thrust" if two["across"] else "parallel")
        return high._replace(at=(*high.at, way))
    crossed = _ACROSS.fullmatch(text)
    if crossed and (when := stage_said(crossed["when"])) in TAKEN:
        return Which(at=("across",) if crossed["across"] else (), stage=when)
    return Which(at=_HEIGHTS[even]) if even in _HEIGHTS else None


def _far_along(even: str) -> tuple[str, ...]:
    """How far down, around or beside something a text says, () where it says none of it."""
    if even in _ROCKED or _AT_DEPTH.fullmatch(even):
        return (even,)
    if lettered := _LETTER_AND_ANGLE.fullmatch(even):
        across = ("across",) if lettered["angle"] == "90" else ()
        return (lettered["letter"].upper(), *across)
    if split := _FROM_SPLIT.fullmatch(even):
        return ("across" if split["across"] else even,)
    if along := _ALONG_PIN.fullmatch(even):
        where = parse(along["place"])
        return (*(where.at if where else ()), "parallel")
    if port := _BESIDE_PORT.fullmatch(even):
        return _beside_port(port["where"], port["port"], port["way"] or "")
    if corner := _CORNER.fullmatch(even):
        side = "intake" if corner["side"].startswith("i") else "exhaust"
        return (f"{side} side {'front' if corner['end'].startswith('f') else 'rear'}",)
    beside = _BESIDE_PIN.fullmatch(even)
    return (beside["side"],) if beside else ()


def _beside_port(where: str, port: str, way: str) -> tuple[str, ...]:
    """A place on a bore by a port, as "above exhaust port"; () where the rest says no place."""
    across = parse(way.strip(" –—-,/")) if way else None
    if way and (across is None or across.number or across.of or across.bank):
        return ()
    kinds = ("exhaust", "intake", "transfer")
    kind = next((k for k in kinds if port in words_of(f"{k}_ports")), "")
    side = "below" if where in words_of("below_ports") else "above"
    return (f"{side} {kind} port", *(across.at if across else ()))
