"""What the head of a row or column says besides what is measured: which one, when, in what unit."""

from __future__ import annotations

import re
from functools import lru_cache

from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.dates import without_day
from workbook_tools.labels.numbered_valves import SIDES_BY_WORD, numbered_valve, side_named
from workbook_tools.labels.runs import roman
from workbook_tools.labels.short_places import height_on_bore, short_place
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    Stage,
    in_grams,
    in_liters,
    meaning_of,
    ring_of_cylinder,
    stage_of,
    stage_said,
    unit_in,
)
from workbook_tools.labels.which import NOTHING, TAKEN, Which
from workbook_tools.measurands.lexicon import rules
from workbook_tools.measurands.position import counts, number_named_too, parse
from workbook_tools.measurands.words import says_which

_LETTERS = {
    "m": "main", "p": "rod", "h": "main", "c": "cylinder", "z": "cylinder", "k": "cylinder",
    "j": "",
}  # fmt: skip
_LETTERED = re.compile(r"(?P<letter>[mphczkj])[ .]?(?P<n>\d{1,2})", re.IGNORECASE)
# Two rods on one crankpin: "R1/2".
_LETTERED_PAIR = re.compile(
    r"(?P<letter>[pr])[ .]?(?P<n>\d{1,2})[/-](?P<last>\d{1,2})", re.IGNORECASE
)
_BRACKETS = re.compile(r"\s*[(\[][^()\[\]]*[)\]]\s*")
_IN_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
# Units that are no words of their own.
_PLAIN_UNITS = ("mm", "cc", "°", "nm", "µm")
# No engine has more of anything that is numbered: fuel of 91 octane is none of ninety-one.
_MOST_NUMBERED = 32
# A step over or under the standard size: "ground -20".
_STEP = re.compile(r"(?<=[^\W\d_]{3})(?<!split)\s[+\-−–]\d{2,3}$")
# Sides in short, which are words of other meanings within a label: "des segments".
_SIDES_IN_SHORT = {
    word: bank
    for pair in words_of("left_right")
    for word, bank in zip(pair.split("/"), "LR", strict=True)
    if len(word) > len("dx")
}
# What came in and what went out, and where: "In: top".
_IN_OR_OUT = re.compile(r"(?P<way>in|out)\s*[:–-]\s*(?P<place>[^\W\d_]{3,})", re.IGNORECASE)
# How deep a place lies: "oben (10)", "middle (60 mm)".
_DEPTH = re.compile(r"(?P<place>[^\W\d_]{3,}\.?) \(\d{1,3}(?:[.,]\d+)?\s?(?:mm|in|\")?\)")
# A property in two or three letters.
_SHORT_PROPERTY = re.compile(r"[a-z]/[a-z]|[a-z](?:[-.][a-z]){2}\.?", re.IGNORECASE)
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
# A stage is said in no more words: "after final honing".
_MOST_WORDS_OF_A_STAGE = 3
# What stands between a stage and what is counted: "Cyl 2 - found".
_JOINTS = " -–—:,/"
_ENDS = {"front", "rear"}


_PRICE = re.compile(r"[$€£]\s?\d|\d\s?[$€£]")


@lru_cache(maxsize=8192)
def which_of(text: str) -> Which | None:
    """What a head says, None where it says of something else what is measured."""
    if text.casefold().strip(" .:") in words_of("rings_in_short") or _PRICE.search(text):
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


def so_many(text: str) -> str:
    """The name of several behind which a text says how many there are, "" in any other."""
    many = _SO_MANY.fullmatch(text.strip(" :"))
    names = many["names"] if many else ""
    measured = names[-1:] in ("s", "S") and meaning_of(names).candidates
    return names if names and (measured or counts(names) is not None) else ""


# How much was taken off between before and after: "After .020 cut".
_SO_MUCH = re.compile(r"(?<=after|efore) [.,]?\d[\d.,]*\"? ?(?:thou|mm|in)?(?= [^\W\d_]{3})", re.I)


# Along the crankshaft or across it behind how high: "Haut long.", "Bas trav."
_ALONG_OR_ACROSS = re.compile(
    r"(?P<height>haut|bas|milieu|oben|mitte|unten|arriba|medio|abajo|alto|basso)\.? "
    rf"(?:(?P<along>{either_of('along')})|{either_of('across')})\.?$",
    re.IGNORECASE,
)


def _in_full(way: re.Match[str]) -> str:
    return f"{way['height']} {'longitudinal' if way['along'] else 'transversal'}"


def _which_of(text: str) -> Which | None:
    text = _ALONG_OR_ACROSS.sub(_in_full, _SO_MUCH.sub("", text))
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
    """Whether a few letters are a known word for what is measured, and no places or sides.

    "o/r" and "o-o-r" are out of round, and neither on top nor on the right.
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
        if where.number and not any(c.isdigit() for c in text) and (when := stage_said(text)):
            return Which(stage=when)  # "Prima" says before, and the first only beside a ring.
        return Which(where.number, where.last, where.bank, tuple(where.at), where.of)
    return _with_brackets(text) or _staged(text) or _by_words(text)


def _told_before(text: str) -> Which | None:
    """What a text says that ends with a word for before: "Relevé avant (haut)" names no front."""
    before, bracket, behind = text.partition(" (")
    words = before.casefold().split()
    if (
        len(words) < 2
        or words[-1] not in words_of("before_or_front")
        or stage_said(before) != "found"
    ):
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
    said: list[Stage] = [] if inside else [*map(stage_said, _IN_BRACKETS.findall(text))]
    return inner.beside(Which(unit=inside, stage=next(filter(None, said), "")))


def _staged(text: str) -> Which | None:
    """A stage before or behind what is counted: "Ist Zyl. 1", "Cyl 2 as found", "H1 neu"."""
    words = text.split()
    for cut in range(1, min(len(words), _MOST_WORDS_OF_A_STAGE + 1)):
        for said, rest in ((words[:cut], words[cut:]), (words[-cut:], words[:-cut])):
            others = " ".join(rest).strip(_JOINTS)
            told = _counted(others)
            place = height_on_bore(others) if told is None else None
            side = SIDES_BY_WORD.get(" ".join(said).casefold().strip(_JOINTS + "."), "")
            if side in ("intake", "exhaust") and (sided := told or _on_a_side(others)):
                return sided.beside(Which(side=side))
            of = told or place or _on_a_side(others)
            meaning = meaning_of(" ".join(said).strip(_JOINTS)) if of else None
            stage = stage_of(meaning) if meaning else ""
            only = meaning is not None and not (meaning.candidates or meaning.unknown)
            if of and stage and only and (told or stage in TAKEN):
                return of.beside(Which(stage=stage))
    return None


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


def _short(text: str) -> Which | None:
    """Letters and numbers: M2, 3 ex, IN 1, V."""
    if text == "A":
        return Which(bank=text)
    chamber = _LETTER_AND_CYLINDER.fullmatch(text)
    if chamber and (one := _which_of(chamber["one"])) and one.of == "cylinder":
        return one
    if placed := short_place(text):
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
    return numbered_valve(text)


def _by_words(text: str) -> Which | None:
    """Words of which none says what is measured: as found, min, exhaust, 1 rough."""
    if len(text) > 1 and says_which(text):
        return Which(side=side_named(text))
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
