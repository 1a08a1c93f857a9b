"""What the head of a row or column says besides what is measured: which one, when, in what unit."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.dates import without_day
from workbook_tools.labels.valve_names import valve_named
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    Stage,
    in_grams,
    in_liters,
    meaning_of,
    ring_of_cylinder,
    stage_of,
    unit_in,
)
from workbook_tools.measurands.heights import is_height
from workbook_tools.measurands.lexicon import rules
from workbook_tools.measurands.position import counts, number_named_too, parse
from workbook_tools.measurands.words import says_which


class Which(NamedTuple):
    """One of several alike: its number, bank and places on it, and what else a head says.

    side: words that tell an intake from an exhaust, or one ring from another; last: of a pair
    "1-2" its second; other: words that are not understood.
    """

    number: int = 0
    last: int = 0
    bank: str = ""
    at: tuple[str, ...] = ()
    of: str = ""
    side: str = ""
    stage: Stage = ""
    unit: str = ""
    other: str = ""

    @property
    def tells(self) -> bool:
        """Whether it tells one from the others."""
        return bool(self.number or self.bank or self.at or self.side)

    def beside(self, outer: Which) -> Which:
        """This head with what another one adds."""
        if outer is NOTHING:
            return self
        return Which(
            self.number or outer.number,
            self.last if self.number else outer.last,
            self.bank or outer.bank,
            tuple(dict.fromkeys((*outer.at, *self.at))) if outer.at or self.at else (),
            self.of or outer.of,
            self.side or outer.side,
            self.stage or outer.stage,
            self.unit or outer.unit,
            self.other or outer.other,
        )


NOTHING = Which()
# A letter that is the exhaust beside an I, and may be either side without one.
EITHER = "either side"
_SIDES = {
    word: side
    for side, listed in (("intake", "intake"), ("exhaust", "exhaust"), (EITHER, "either_side"))
    for word in words_of(listed)
}
_NUMBERED_SIDE = re.compile(
    r"(?:(?P<of>cyl|zyl|cil)\.?\s*)?#?(?P<n>\d{1,2})\s*[-./]?\s*(?P<side>[^\W\d_]{1,11})\.?"
    r"|(?P<first>[ei]|[^\W\d_]{2,11})\.?\s*[-./]?\s*#?(?P<last>\d{1,2})",
    re.IGNORECASE,
)
# Its side in two languages: "cyl 1 adm/E".
_SIDE_IN_TWO_WORDS = re.compile(
    r"(?:(?:cyl|zyl|cil)\.?\s*)?#?(?P<n>\d{1,2})\s*[-./]?\s*(?P<side>[^\W\d_]+\.?\s?/\s?[^\W\d_]+\.?)",
    re.IGNORECASE,
)
# Of two intake or two exhaust valves of a cylinder the left one: "1 IN L".
_PLACES_OF_VALVES = {
    "l": "left", "lh": "left", "left": "left", "r": "right", "rh": "right", "right": "right",
    "f": "front", "front": "front", "rear": "rear", "a": "A", "b": "B",
}  # fmt: skip
_VALVE_OF_TWO = re.compile(
    rf"(?P<valve>#?\d{{1,2}}\s*[-./]?\s*[^\W\d_]{{2,7}})\.?\s(?P<place>{'|'.join(_PLACES_OF_VALVES)})"
    r"|(?P<letter>[IE]\d{1,2}|\d{1,2}[IE])(?P<of_two>[abAB])",
    re.IGNORECASE,
)
# What E and A stand for beside the word for a cylinder: Einlass and Auslass, or the other way.
_LETTERS_OF_SIDES = {
    "zyl": {"e": "intake", "a": "exhaust"},
    "cyl": {"e": "exhaust", "a": "intake"},
    "cil": {"e": "exhaust", "a": "intake"},
}
_LETTERS = {
    "m": "main", "p": "rod", "h": "main", "c": "cylinder", "z": "cylinder", "k": "cylinder",
    "j": "",
}  # fmt: skip
_LETTERED = re.compile(r"(?P<letter>[mphczkj])[ .]?(?P<n>\d{1,2})", re.IGNORECASE)
# Two rods on one crankpin: "R1/2".
_LETTERED_PAIR = re.compile(
    r"(?P<letter>[pr])[ .]?(?P<n>\d{1,2})[/-](?P<last>\d{1,2})", re.IGNORECASE
)
_ROMAN = {
    "i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7, "viii": 8, "ix": 9, "x": 10,
    "xi": 11, "xii": 12,
}  # fmt: skip
_BRACKETS = re.compile(r"\s*[(\[][^()\[\]]*[)\]]\s*")
_IN_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
# Units that are no words of their own.
_PLAIN_UNITS = ("mm", "cc", "°", "nm", "µm")
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


def roman(text: str) -> int:
    """The number that a text is as a Roman one, 0 for any other text."""
    return _ROMAN.get(text.strip(" .").casefold(), 0)


# Cylinders in the order in which they fire, where that is not the one in which they stand.
_FIRING_ORDERS = (
    (1, 3, 4, 2), (1, 2, 4, 3), (1, 2, 4, 5, 3), (1, 5, 3, 6, 2, 4), (1, 4, 2, 6, 3, 5),
    (1, 4, 5, 2, 3, 6), (1, 6, 5, 4, 3, 2), (1, 8, 4, 3, 6, 5, 7, 2), (1, 5, 4, 2, 6, 3, 7, 8),
    (1, 3, 7, 2, 6, 5, 4, 8), (1, 8, 7, 2, 6, 5, 4, 3), (1, 5, 4, 8, 6, 3, 7, 2),
)  # fmt: skip


def is_firing_order(numbers: Sequence[int | None]) -> bool:
    """Whether whole numbers are those of cylinders in an order in which they fire."""
    return tuple(numbers) in _FIRING_ORDERS


def is_run(numbers: Sequence[int | None]) -> bool:
    """Whether whole numbers count: 1 2 3, 1 3 5, 4 3 2 1, again from the first, one left out.

    So do those of cylinders in the order in which they fire.
    """
    if len(numbers) < 2 or any(n is None for n in numbers):
        return False
    known = [n for n in numbers if n is not None]
    if is_firing_order(known):
        return True
    if len(set(known)) == 1 or (min(known) not in (1, 2) and len(known) < 3):
        return False
    if min(known) > 2 and len({b - a for a, b in pairwise(known)}) > 1:
        return False  # Readings about alike do not count: 78 77 78 76.
    down = all(b < a for a, b in pairwise(known))
    if not down and len(known) > 2 and min(map(len, _counted_anew(known))) < 2:
        return False  # Readings of a few hundredths do not count either: 1 2 1 1.
    steps = [b - a for a, b in pairwise(known) if not (b == known[0] or b in (1, 2))]
    return all(0 <= s <= 2 for s in steps) or all(-2 <= s <= 0 for s in steps)


def _counted_anew(numbers: Sequence[int]) -> list[list[int]]:
    """Numbers parted where they begin again: 1 2 3 and 1 2 3."""
    parts = [[numbers[0]]]
    for before, number in pairwise(numbers):
        if number < before and number in (1, 2, numbers[0]):
            parts.append([])
        parts[-1].append(number)
    return parts


def from_the_front(several: Mapping[int, Which]) -> dict[int, Which]:
    """The same with front and rear counted: a twin's cylinders, or the ends of a row of mains.

    Mains and rods in one list are counted apart; the mains of an upright crank have a top.
    """
    if whole := _from_end_to_end(several, "front", "rear"):
        return whole
    found: dict[int, Which] = {}
    for of in dict.fromkeys(w.of for w in several.values()):
        own = {n: w for n, w in several.items() if w.of == of}
        found |= _from_end_to_end(own, "front", "rear") or own
    if found == dict(several) and any(w.number for w in several.values()):
        found = _from_end_to_end(several, "top", "bottom") or found
    return {n: found[n] for n in several}


def _from_end_to_end(several: Mapping[int, Which], first: str, last: str) -> dict[int, Which]:
    """The same with two ends counted, {} where it is not the ends that have no number."""
    several = _with_center(several)
    ends = {n: next((e for e in (first, last) if e in w.at), "") for n, w in several.items()}
    named = {n: e for n, e in ends.items() if e and not several[n].number}
    between = sorted({w.number for w in several.values() if w.number})
    if {*named.values()} != {first, last} or between != [*range(2, 2 + len(between))]:
        return {}
    most = len(between) + 2
    return {
        n: w._replace(number=1 if named[n] == first else most, at=()) if n in named else w
        for n, w in several.items()
    }


def _with_center(several: Mapping[int, Which]) -> Mapping[int, Which]:
    """The same with the one between front and rear counted as the second of three."""
    places = [w.at for w in several.values() if not w.number and w.at]
    if sorted(set(places)) != [("front",), ("middle",), ("rear",)]:
        return several
    return {
        n: w._replace(number=2, at=()) if w.at == ("middle",) and not w.number else w
        for n, w in several.items()
    }


def sided(several: Mapping[int, Which]) -> dict[int, Which]:
    """The same with letters settled.

    An E beside an I is the exhaust, a B below an A a bank, an R or a B beside mains a rod, an R
    beside the front the rear.
    """
    lettered = {w.bank for w in several.values()} == {"", "R"}
    if lettered and any(w.at == ("front",) for w in several.values()):
        several = {
            n: w._replace(bank="", at=("rear",)) if w.bank and not w.number else w
            for n, w in several.items()
        }
    banks = {w.bank for w in several.values() if w.number and not w.of}
    if any(w.of == "main" for w in several.values()) and banks in ({"R"}, {"B"}):
        several = {
            n: w._replace(bank="", of="rod") if w.number and not w.of else w
            for n, w in several.items()
        }
    places = {place for which in several.values() for place in which.at}
    if any(w.bank == "A" for w in several.values()) and places == {"bottom"}:
        several = {
            n: w._replace(bank="B", at=()) if w.at == ("bottom",) else w for n, w in several.items()
        }
    sides = {which.side for which in several.values()}
    meant = "exhaust" if "intake" in sides else ""
    return {
        n: w._replace(side=meant, other=w.other if meant else "which side")
        if w.side == EITHER
        else w
        for n, w in several.items()
    }


# No engine has more of anything that is numbered: fuel of 91 octane is none of ninety-one.
_MOST_NUMBERED = 32


@lru_cache(maxsize=8192)
def which_of(text: str) -> Which | None:
    """What a head says, None where it says of something else what is measured."""
    if text.casefold().strip(" .:") in words_of("rings_in_short"):
        return None  # "2nd rg" is a ring's gap, and nothing on the left bank.
    if number := number_named_too(text):
        return Which(number)
    found = NOTHING if text.startswith(":") else _which_of(text)  # ":1" is the unit of a ratio.
    if (dated := without_day(text)) != text and (said := _which_of(dated)) and said.stage:
        found = None if said.tells else said  # "3 Feb as found" is of no third one.
    return None if found is not None and found.number > _MOST_NUMBERED else found


def without_stage(label: str) -> str:
    """A label without the stage that it ends with: "Runout before", "Bore as found"."""
    words = label.split()
    for cut in (-2, -1):
        said = which_of(" ".join(words[cut:])) if words[:cut] else None
        if said is not None and said.stage and not said.tells:
            return " ".join(words[:cut])
    return label


# A step over or under the standard size: "ground -20".
_STEP = re.compile(r"(?<=[^\W\d_]{3})(?<!split)\s[+\-−–]\d{2,3}$")


# Sides in short, which are words of other meanings within a label: "des segments".
_SIDES_IN_SHORT = {
    word: bank
    for pair in words_of("left_right")
    for word, bank in zip(pair.split("/"), "LR", strict=True)
    if len(word) > len("dx")
}


# Ends in short, which are words of other meanings without a dot: "del.", "tras.".
_ENDS_IN_SHORT = {
    f"{word}.": end
    for pair in words_of("front_rear")
    for word, end in zip(pair.split("/"), ("front", "rear"), strict=True)
    if 1 < len(word) <= len("tras")
}


# What came in and what went out, and where: "In: top".
_IN_OR_OUT = re.compile(r"(?P<way>in|out)\s*[:–-]\s*(?P<place>[^\W\d_]{3,})", re.IGNORECASE)
# How deep a place lies: "oben (10)", "middle (60 mm)".
_DEPTH = re.compile(r"(?P<place>[^\W\d_]{3,}\.?) \(\d{1,3}(?:[.,]\d+)?\s?(?:mm|in|\")?\)")


# A property in two letters.
_SHORT_PROPERTY = re.compile(r"[a-z]/[a-z]", re.IGNORECASE)
# One of several readings of a size that are told apart by letters.
_READING = re.compile(r"reading (?P<letter>[A-D])")
# Two that share a throw, each with its sign: "#1-#2".
_SIGNED_PAIR = re.compile(r"#\s?(\d{1,2})\s?[-–/&+]\s?#\s?(\d{1,2})")
# The sign of a number that is written as one with it: "No1", "Cyl nr2".
_SIGN_OF_NUMBER = re.compile(r"(?<![^\W_])n[or](?=\d{1,2}(?!\d))", re.IGNORECASE)


# How many there are, behind the name of several: "MAINS (5)".
_SO_MANY = re.compile(
    r"(?P<names>(?:[^\W\d_]{3,} )?[^\W\d_]{2,}s|[^\W\d_]{4,}) \((?:all )?\d{1,2}\)", re.IGNORECASE
)


# A letter that a builder gives a chamber, with the cylinder that it is of: "B (cyl 2)".
_LETTER_AND_CYLINDER = re.compile(r"[A-H] \((?P<one>[^()]+\d)\)")


def so_many(text: str) -> str:
    """The name of several behind which a text says how many there are, "" in any other."""
    many = _SO_MANY.fullmatch(text.strip(" :"))
    names = many["names"] if many else ""
    measured = names[-1:] in ("s", "S") and meaning_of(names).candidates
    return names if names and (measured or counts(names) is not None) else ""


def _which_of(text: str) -> Which | None:
    if several := so_many(text):
        return _which_of(several)
    text = _SIGN_OF_NUMBER.sub("no. ", _STEP.sub("", text.strip(" :")))
    text = _SIGNED_PAIR.sub(r"\1-\2", text)
    if (way := _IN_OR_OUT.fullmatch(text)) and (place := _which_of(way["place"])) and place.at:
        return place._replace(stage="found" if way["way"].casefold() == "in" else "final")
    if (deep := _DEPTH.fullmatch(text)) and (at := _which_of(deep["place"])) and at.at:
        return at
    if text[:1] + text[-1:] in ("[]", "()") and is_unit(text[1:-1].strip()):
        text = text[1:-1].strip()
    if not text:
        return None
    if is_unit(text) and text != "L/H" and text.casefold() not in ("l", "m", "c", "h", "v"):
        return None if meaning_of(text).unit in rules().tell_alone else Which(unit=text)
    if in_grams(text) or in_liters(text) or _is_a_property(text):
        return None
    if (side := _SIDES_IN_SHORT.get(text.casefold().strip("."))) is not None:
        return Which(bank=side)
    if text.casefold() in rules().plain_heads:
        return NOTHING
    found = _short(text)
    return _by_position(text) if found is None else found


def _is_a_property(text: str) -> bool:
    """Whether two letters are a known word for what is measured, and no places or sides.

    "o/r" is out of round, and neither on top nor on the right.
    """
    if _SHORT_PROPERTY.fullmatch(text) is None:
        return False
    meaning = meaning_of(text)
    known = bool(meaning.candidates) and meaning.candidates[0].cost <= 1
    return known and not (meaning.at or meaning.bank or says_which(text))


def _by_position(text: str) -> Which | None:
    """What a head says as a position, with a stage or a unit beside it."""
    if unit := _unit_and_where(text):
        return Which(unit=unit)
    if pot := _pot(text):
        return pot
    if (told := _told_before(text)) is not None:
        return told
    where = parse(text)
    if where is not None:
        if where.of == "ring":
            ring, number = ring_of_cylinder(text)
            return Which(number, side=ring or text)
        places = {"front", "rear"} | ({"middle"} if where.of != "rod" else set())  # "Rod centres"
        ends = where.of in BEARINGS and where.at and {*where.at} <= places
        if where.of and not (where.number or where.bank or ends):
            return None  # "brg vert" is measured, and where.
        if where.number and not any(c.isdigit() for c in text) and (when := _stage(text)):
            return Which(stage=when)  # "Prima" says before, and the first only beside a ring.
        return Which(where.number, where.last, where.bank, tuple(where.at), where.of)
    return _with_brackets(text) or _staged(text) or _by_words(text)


def _told_before(text: str) -> Which | None:
    """What a text says that ends with a word for before: "Relevé avant (haut)" names no front."""
    before, bracket, behind = text.partition(" (")
    words = before.casefold().split()
    if len(words) < 2 or words[-1] not in words_of("before_or_front") or _stage(before) != "found":
        return None
    place = _which_of(behind.rstrip(")")) if bracket else NOTHING
    return place._replace(stage="found") if place is not None and not place.number else None


def _pot(text: str) -> Which | None:
    """A cylinder or head by the end that it stands at: "Front cylinder", "Zylinder vorn"."""
    words = text.split()
    for end, rest in ((words[:1], words[1:]), (words[-1:], words[:-1])):
        named = " ".join(rest).casefold().strip(" .:") in words_of("pots")
        where = parse(end[0]) if named else None
        if where is not None and {*where.at} & _ENDS and not (where.number or where.of):
            return Which(at=tuple(where.at))
    return None


def _unit_and_where(text: str) -> str:
    """The unit that a head begins with, where the rest only says from where: "° ap. PMH"."""
    first, _, rest = text.partition(" ")
    if not rest or not is_unit(first) or (len(first) < 3 and first.casefold() not in _PLAIN_UNITS):
        return ""
    meaning = meaning_of(rest)
    says = meaning.candidates or meaning.part or meaning.section or meaning.stage
    return "" if says or len(rest.split()) > _MOST_WORDS_OF_A_STAGE else first


def _with_brackets(text: str) -> Which | None:
    """What stands outside of brackets says, with a unit or a stage inside them."""
    bare = _BRACKETS.sub(" ", text).strip()
    inner = which_of(bare) if bare and bare != text else None
    if inner is None:
        return None
    inside = unit_in(text)
    if inner.number and len(inside) == 1 and inside.isupper():
        inside = ""  # "Cyl 1 (L)" is on the left, and measured in no liters.
    said: list[Stage] = [] if inside else [*map(_stage, _IN_BRACKETS.findall(text))]
    return inner.beside(Which(unit=inside, stage=next(filter(None, said), "")))


# A stage is said in no more words: "after final honing".
_MOST_WORDS_OF_A_STAGE = 3
# What stands between a stage and what is counted: "Cyl 2 - found".
_JOINTS = " -–—:,/"


def _staged(text: str) -> Which | None:
    """A stage before or behind what is counted: "Ist Zyl. 1", "Cyl 2 as found", "H1 neu"."""
    words = text.split()
    for cut in range(1, min(len(words), _MOST_WORDS_OF_A_STAGE + 1)):
        for said, rest in ((words[:cut], words[cut:]), (words[-cut:], words[:-cut])):
            others = " ".join(rest).strip(_JOINTS)
            told = _counted(others)
            place = _place(others) if told is None else None
            side = _SIDES.get(" ".join(said).casefold().strip(_JOINTS + "."), "")
            if side in ("intake", "exhaust") and (sided := told or _on_a_side(others)):
                return sided.beside(Which(side=side))
            of = told or place or _on_a_side(others)
            meaning = meaning_of(" ".join(said).strip(_JOINTS)) if of else None
            stage = stage_of(meaning) if meaning else ""
            only = meaning is not None and not (meaning.candidates or meaning.unknown)
            if of and stage and only and (told or stage in TAKEN):
                return of.beside(Which(stage=stage))
    return None


_ENDS = {"front", "rear"}
# When something was measured, and no wish or limit: "as received, top".
TAKEN = ("found", "machined", "final")
_PLACES = {"top", "middle", "bottom"}


def _place(text: str) -> Which | None:
    """A place on a bore alone: "top"; None for any other text."""
    where = parse(text) if text.isalpha() else None
    if where is None or where.number or where.of or where.bank or len(where.at) != 1:
        return None
    return Which(at=tuple(where.at)) if {*where.at} <= _PLACES else None


def _on_a_side(text: str) -> Which | None:
    """A side or an end of the engine alone: "left", "front"; None for any other text."""
    if text == "F":
        return Which(at=("front",))
    where = parse(text)
    if where is None or where.number or where.of:
        return None
    if where.bank and not where.at:
        return Which(bank=where.bank)
    return Which(at=tuple(where.at)) if len(where.at) == 1 and {*where.at} <= _ENDS else None


def _counted(text: str) -> Which | None:
    """A counted part or a side with its number: "Zyl. 1", "L2", "H1"; None for any other text."""
    where = parse(text)
    if where is None:
        short = _short(text)
        return short if short is not None and short.number else None
    if not (where.number and (where.of or where.bank)) or where.of == "ring":
        return None
    return Which(where.number, where.last, where.bank, tuple(where.at), where.of)


def _stage(text: str) -> Stage:
    return stage_of(meaning_of(text))


def _short(text: str) -> Which | None:
    """Letters and numbers: M2, 3 ex, IN 1, V."""
    if text == "A":
        return Which(bank=text)
    chamber = _LETTER_AND_CYLINDER.fullmatch(text)
    if chamber and (one := _which_of(chamber["one"])) and one.of == "cylinder":
        return one
    if placed := _short_place(text):
        return placed
    first, _, end = text.partition(" ")
    if first.isdecimal() and end.casefold() == "port":
        return Which(int(first), bank="L")  # Beside "1 stbd".
    if roman(first) and (where := parse(end)) and {*where.at} & _ENDS and not where.number:
        return Which(roman(first))  # "I front"
    lettered = _LETTERED.fullmatch(text)
    if lettered:
        return Which(int(lettered["n"]), of=_LETTERS[lettered["letter"].lower()])
    pair = _LETTERED_PAIR.fullmatch(text)
    if pair and int(pair["last"]) == int(pair["n"]) + 1:
        return Which(int(pair["n"]), int(pair["last"]), of="rod")
    return _numbered_valve(text)


def _numbered_valve(text: str) -> Which | None:
    """A valve with its cylinder, and of two alike which one: "1 IN", "E3", "2 EX L"."""
    if not any(map(str.isdigit, text)):
        return None  # As most texts of a book.
    if named := valve_named(text):
        return Which(named.number, at=(named.place,), side=named.side)
    of_two = _VALVE_OF_TWO.fullmatch(text)
    if of_two and (one := _numbered_valve(of_two["valve"] or of_two["letter"])):
        place = _PLACES_OF_VALVES[(of_two["place"] or of_two["of_two"]).casefold()]
        return one._replace(at=(place,)) if one.side in ("intake", "exhaust", EITHER) else None
    if told := _SIDE_IN_TWO_WORDS.fullmatch(text):
        side = _side_named(told["side"])
        return Which(int(told["n"]), side=side) if side in ("intake", "exhaust") else None
    sided = _NUMBERED_SIDE.fullmatch(text)
    if sided:
        side = _SIDES.get((sided["side"] or sided["first"]).casefold().strip("."), "")
        if side == EITHER and sided["of"]:
            side = _LETTERS_OF_SIDES[sided["of"].casefold()][sided["side"].casefold().strip(".")]
        if side:
            return Which(int(sided["n"] or sided["last"]), side=side)
    return None


def _short_place(text: str) -> Which | None:
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
    if (two := _HEIGHT_AND_WAY.fullmatch(text)) and (high := _place(two["height"])):
        way = two["letter"] or ("thrust" if two["across"] else "parallel")
        return high._replace(at=(*high.at, way))
    crossed = _ACROSS.fullmatch(text)
    if crossed and (when := _stage(crossed["when"])) in TAKEN:
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


_WORD = re.compile(r"[^\W\d_]+")


def _side_named(text: str) -> str:
    """A side in the table's own word, another text as it stands.

    Beside a word that can only be the one, a letter is that word of another language: "E/adm".
    """
    whole = _SIDES.get(text.casefold().strip(" ."))
    sides = {_SIDES.get(word, "") for word in _WORD.findall(text.casefold())}
    said = sides - {EITHER}
    return whole or (next(iter(said)) if len(said) == 1 else "") or text


def _by_words(text: str) -> Which | None:
    """Words of which none says what is measured: as found, min, exhaust, 1 rough."""
    if len(text) > 1 and says_which(text):
        return Which(side=_side_named(text))
    meaning = meaning_of(text)
    if meaning.candidates or meaning.section or meaning.part:
        return None
    stage = stage_of(meaning)
    known = stage or meaning.at or meaning.bank or meaning.number
    odd = 0 if stage else len(meaning.unknown)
    if not known or odd > 1 or (odd and not text[0].isdigit()):
        return None
    return Which(
        number=meaning.number,
        bank=meaning.bank,
        at=meaning.at,
        stage=stage,
        unit=unit_in(text),
        other=" ".join(meaning.unknown) if odd else "",
    )
