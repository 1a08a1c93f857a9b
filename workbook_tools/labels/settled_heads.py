"""What heads say beside each other: before and after, low and high, the second ring, ditto."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.cell_words import is_second_ring
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.head import Head
from workbook_tools.labels.titles import surely_measures
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    meaning_of,
    noun_named,
    stage_of,
    unit_in,
    without_unit,
)
from workbook_tools.labels.which import WORKED, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts
from workbook_tools.quantities import TORQUE

_FIRST_LETTER = re.compile(r"(?P<name>.*[^\W\d_]{3}[^A-Z]*[\s,])A(?P<behind>\W.*|)")


def _carry_letters(head: Head) -> None:
    """Write what the first of lettered heads names into those behind it: "Protrusion A | B | C"."""
    for first in list(head.texts):
        told = _FIRST_LETTER.fullmatch(head.texts[first][0])
        if told is None or not meaning_of(told["name"].strip(" ,")).candidates:
            continue
        for column, letter in enumerate("BCDEF", first + 1):
            texts = head.texts.get(column)
            if not texts or texts[0].strip(" .") != letter:
                break
            texts[0] = f"{told['name']}{letter}{told['behind']}"


# Before what a camshaft's card says, which is what is wanted.
CARDS = ("card", "cam card")
_AS_FOUND, _FINISHED = "as found", "finished"
# A head that leaves more to be assumed says nothing of the one beside it.
_MOST_ASSUMED = 2


def settle(head: Head, titles: Sequence[str]) -> None:
    """Write out what heads leave to those beside them and to the titles over them."""
    _leave_to_what_spans(head, titles)
    _settle_over_cylinders(head)
    _carry_letters(head)
    _settle_by_others(head)
    _settle_old_places(head)
    _end_ranges(head)
    _name_sum(head)
    _leave_out_both_sides(head)
    _name_banks(head)
    _say_what_was_worn(head)
    _say_what_was_taken_out(head)
    _take_ends_of_wear(head)
    _name_upright(head)
    _name_axes(head)
    _name_rings(head, titles)
    _name_second_rings(head)
    _write_out_ditto(head)
    _name_torques(head)
    _name_counts(head)
    _name_nips(head)
    _name_loads_at_heights(head, titles)


_AT_HEIGHT = re.compile(r"@\s*(\d*[.,]\d+|\d+)\s*(?:mm|in\.?|\")?")


def height_told(text: str) -> float | None:
    """The height that a head says and no more, at which a spring was loaded: "@1.800"."""
    at = _AT_HEIGHT.fullmatch(text)
    return float(at[1].replace(",", ".")) if at else None


def are_of_springs(titles: Sequence[str]) -> bool:
    """Whether a title over heads names springs."""
    return any(meaning_of(title).part == "spring" for title in titles)


def _name_loads_at_heights(head: Head, titles: Sequence[str]) -> None:
    """Say of "@1.800" and "@1.250" below springs that the load at the greater one is the seat's."""
    found = {c: height_told(t[0]) for c, t in head.texts.items() if len(t) == 1}
    heights = {c: height for c, height in found.items() if height is not None}
    if len({*heights.values()}) != 2 or not are_of_springs(titles):
        return
    unit = next((u for u in map(unit_in, titles) if u), "")
    for column, height in heights.items():
        load = "seat" if height == max(heights.values()) else "open"
        head.texts[column] = [f"Spring {load} load ({unit})" if unit else f"Spring {load} load"]


def _name_nips(head: Head) -> None:
    """Say of "Nip" beside the outside of a liner that it is how tight it sits, and no shell's."""
    own = {c: texts[0] for c, texts in head.texts.items()}
    if "liner_outside_diameter" not in map(_measured_by, own.values()):
        return
    for column, text in own.items():
        if _measured_by(text) == "bearing_crush" and not meaning_of(text).part:
            unit = unit_in(text)
            head.texts[column][0] = f"Liner interference ({unit})" if unit else "Liner interference"


# What a run on a dynamometer is told by beside its torque.
_OF_A_RUN = ("engine_speed", "power")
_AT = re.compile(r"@\s*(?P<unit>[^\W\d_][\w./-]*)")


def _name_torques(head: Head) -> None:
    """Say of a head that is a unit of torque that it is the engine's, beside speed or power.

    "rpm | kW | Nm"; and of "@ rpm" behind the most of either that it is a speed.
    """
    for texts in head.texts.values():
        if len(texts) == 1 and (at := _AT.fullmatch(texts[0])) and is_unit(at["unit"]):
            texts[0] = at["unit"]
    told = {c: _measured_by(texts[0]) for c, texts in head.texts.items() if len(texts) == 1}
    if not {*_OF_A_RUN} & {*told.values()}:
        return
    for column in told:
        unit = head.texts[column][0]
        if is_unit(unit) and meaning_of(unit).unit == TORQUE.name:
            head.texts[column] = [f"Engine torque ({unit})"]


def _measured_by(text: str) -> str:
    """The measurand that a head most likely names, "" where it names none."""
    candidates = meaning_of(text).candidates
    return candidates[0].measurand if candidates else ""


_COUNTED_BY = re.compile(r"(?P<counted>[^\W\d_]+\.?)\s*[/\\]\s*(?P<other>[^\W\d_]+)")


def _name_counts(head: Head) -> None:
    """Leave out what stands over the other heads in one corner with what the rows count.

    "cyl / wire".
    """
    first = min(head.texts, default=0)
    texts = head.texts.get(first, [])
    found = _COUNTED_BY.fullmatch(texts[0]) if len(texts) == 1 else None
    other = meaning_of(found["other"]).candidates[:1] if found else ()
    surely = any(candidate.cost < 1 for candidate in other)
    if found and counts(found["counted"]) == "cylinder" and not surely:
        head.texts[first] = [found["counted"]]


def _leave_to_what_spans(head: Head, titles: Sequence[str]) -> None:
    """Leave out of heads below one that spans them what says neither what is measured nor where.

    "top, dial way | bottom, dial way" below "Bore after honing", which may be a title too.
    """
    over = Counter(texts[1] for texts in head.texts.values() if len(texts) > 1)
    places = sum((w := head.which(c)) is not None and bool(w.at) for c in head.texts)
    titled = bool(titles) and places > 1 and surely_measures(titles[0])
    for texts in head.texts.values():
        spanned = len(texts) > 1 and over[texts[1]] > 1 and surely_measures(texts[1])
        if not spanned and not (titled and len(texts) == 1):
            continue
        least = min((c.cost for c in meaning_of(texts[0]).candidates), default=_NOTHING)
        if which_of(texts[0]) is not None or least <= _MOST_ASSUMED or is_unit(texts[0]):
            continue
        said = [
            word for word in re.split(r"[\s,;./-]+", texts[0]) if (w := which_of(word)) and w.at
        ]
        if said:
            texts[0] = " ".join(said)


_NOTHING = 99


def _settle_over_cylinders(head: Head) -> None:
    """Take before over a group of columns for the time where after stands over the next group."""
    over = {text.casefold().strip(" .:") for texts in head.texts.values() for text in texts[1:]}
    front = over & words_of("before_or_front")
    if front and over & words_of("after"):
        for texts in head.texts.values():
            texts[1:] = [_AS_FOUND if t.casefold().strip(" .:") in front else t for t in texts[1:]]


def _settle_by_others(head: Head) -> None:
    """Heads that another head settles: "measured" beside "finished" is before the work, "old"
    beside "new" too, and a "Hi" beside a "Lo" a limit.
    """
    own = {c: text for c, texts in head.texts.items() if (text := _first_said(texts))}
    stages = {c: stage_of(meaning_of(text)) for c, text in own.items()}
    weak = {c for c, text in own.items() if _words_in(text) & words_of("measured")}
    if any(stages[c] in WORKED for c in stages.keys() - weak):
        _come_before(head, weak)
    # "Ist | eingestellt"
    as_it_is = {c for c, text in own.items() if _words_in(text) <= words_of("as_it_is")}
    later = [c for c, stage in stages.items() if stage == "final" and c not in weak | as_it_is]
    _come_before(head, (c for c in as_it_is if c < max(later, default=0)))
    new = [c for c, text in own.items() if _words_in(text) & words_of("new")]
    old = [c for c, text in own.items() if _words_in(text) & words_of("old")]
    if new:
        _come_before(head, old)
    for column in new if old else ():
        # The size of the new part, which alone may be the one in the maker's list.
        if stages[column] == "target":
            head.texts[column] = [_FINISHED if t == own[column] else t for t in head.texts[column]]
    if any(stages[c] in WORKED and _says_when_alone(own[c]) for c in own):
        front = words_of("before_or_front")
        _come_before(head, (c for c, text in own.items() if text.casefold().strip(".") in front))
    if any(stages[c] in WORKED for c in own):
        # What the card of a cam says stands beside what was measured of it.
        for column in [c for c, text in own.items() if text.casefold().strip(" .:") in CARDS]:
            head.texts[column] = ["nominal" if t == own[column] else t for t in head.texts[column]]
    _settle_pairs(head, own)
    _settle_what_came_in(head, own, stages)
    _settle_what_went_out(head, own)
    _settle_behind_found(head, own, stages)
    if {text.casefold() for text in own.values()} >= {"lo", "hi"}:
        for column, text in own.items():
            limit = {"lo": "min", "hi": "max"}.get(text.casefold(), text)
            head.texts[column] = [limit if t == text else t for t in head.texts[column]]


def _settle_old_places(head: Head) -> None:
    """Say of an old place beside finished sizes when it was measured: "Alt oben | Fertigmaß".

    And of one before the work, in French no front: "Avant haut | Réalésé".
    """
    before = words_of("old") | words_of("before_or_front")
    said = [text for texts in head.texts.values() for text in texts]
    new = any(stage_of(meaning_of(t)) in WORKED or _words_in(t) & words_of("new") for t in said)
    for column, texts in head.texts.items() if new else ():
        for text in texts:
            place = " ".join(w for w in text.split() if not _words_in(w) & before)
            where = which_of(place) if place and place != text else None
            if where is not None and where.at and not where.stage:
                head.texts[column] = [*(place if t == text else t for t in texts), _AS_FOUND]


def _end_ranges(head: Head) -> None:
    """Say of the head behind the lower end of a range that it is the upper: "Soll von | bis"."""
    for column, texts in head.texts.items():
        before = which_of(_first_said(head.texts.get(column - 1, ())))
        ends = texts[0].casefold().strip(" .:") in words_of("up_to") if texts else False
        if ends and before is not None and before.stage == "limit_low":
            texts[0] = "max"


def _says_when_alone(text: str) -> bool:
    """Whether a head says when, and names nothing: "Finished", "Après rectif."."""
    said = which_of(text)
    return len(text.split()) == 1 or (said is not None and bool(said.stage) and not said.tells)


_OF_RINGS = {"ring_gap": "2nd ring gap", "ring_side_clearance": "2nd ring side clearance"}


_SUMS = ("total", "tot", "sum", "=")


def _name_sum(head: Head) -> None:
    """Say of the total behind others what the head before them all names: what they make.

    "Quench | Deck | Gasket | Total".
    """
    columns = sorted(head.texts)
    first, *others = columns if len(columns) > _FEWEST_SUMMED else (0, 0)
    own = {c: _first_said(head.texts[c]) for c in columns}
    if not others[-1] or own[others[-1]].casefold().strip(" .:") not in _SUMS:
        return
    named = {c: next(iter(meaning_of(own[c]).candidates), None) for c in columns}
    whole = named[first]
    parts = [named[c] for c in others[:-1]]
    alike = any(p is None or whole is None or p.measurand == whole.measurand for p in parts)
    term = find(whole.measurand) if whole is not None else None
    adds_up = term is not None and (term.noun == "clearance" or term.part == "rod")
    if whole is not None and whole.cost <= _MOST_ASSUMED and adds_up and not alike:
        head.texts[others[-1]] = [own[first]]


_ON_A_BANK = re.compile(
    r"(?P<bank>L|R|LH|RH)\.? (?P<name>[^\W\d_]{3,}(?: [^\W\d_]{3,})?)(?: (?P<end>[FR]))?"
)
_BANKS = {"L": "left", "R": "right"}
_ENDS = {"F": "front", "R": "rear"}


def _name_banks(head: Head) -> None:
    """Write out the banks and ends of heads side by side: "L deck F | L deck R | R deck F"."""
    own = {c: _first_said(texts) for c, texts in head.texts.items()}
    told = {c: found for c, text in own.items() if (found := _ON_A_BANK.fullmatch(text))}
    names = {bank: {f["name"].casefold() for f in told.values() if f["bank"][0] == bank}
             for bank in _BANKS}  # fmt: skip
    for column, found in told.items() if names["L"] == names["R"] else ():
        where = [_ENDS[found["end"]]] if found["end"] else []
        said = [found["name"], _BANKS[found["bank"][0]], *where]
        texts = head.texts[column]
        at = texts.index(own[column])
        head.texts[column] = [*texts[:at], *said, *texts[at + 1 :]]


_WORN = re.compile(
    r"(?P<name>.*\d[.,]\d.*?)\s*(?:\s[-–—]|,|\()\s*"
    r"(?P<when>[^\W\d_]+(?: [^\W\d_]+)?)\)?"
)


def _say_what_was_worn(head: Head) -> None:
    """Say when of a head that names the nominal size and ends with it: "Std bore 86.00 - worn"."""
    for column, texts in head.texts.items():
        told = _WORN.fullmatch(_first_said(texts))
        said = which_of(told["when"]) if told else None
        if told and said is not None and said.stage == "found" and not said.tells:
            head.texts[column] = [*texts, told["when"]]


_ENDS_OF_A_RANGE = (Which(stage="limit_low"), Which(stage="limit_high"))


def _take_ends_of_wear(head: Head) -> None:
    """Take "min" and "max" below "worn" for the least and the most measured, and no limits."""
    for column, texts in head.texts.items():
        said = [which_of(text) for text in texts[:2]]
        if len(said) > 1 and said[0] in _ENDS_OF_A_RANGE and said[1] == Which(stage="found"):
            head.texts[column] = texts[1:]


def _say_what_was_taken_out(head: Head) -> None:
    """Say of "Removed" beside "Re-ground" that it is when a part came out, and no cut."""
    stages = {w.stage for c in head.texts if (w := head.which(c)) is not None}
    for column, texts in head.texts.items() if "machined" in stages else ():
        if texts and texts[0].casefold().strip(" .:") == "removed":
            head.texts[column] = ["As removed", *texts[1:]]


_BOTH_SIDES = re.compile(
    r"(?P<name>.*[^\W\d_]{2})[\s,(–-]+(?P<sides>[^\W\d_]{1,4}\.?\s*/\s*[^\W\d_]{1,4})\.?\)?"
)


def _leave_out_both_sides(head: Head) -> None:
    """Leave "I / E" out of the head before columns that say which side each is of."""
    texts = head.texts.get(head.block.left, [])
    told = _BOTH_SIDES.fullmatch(texts[-1]) if texts else None
    sides = "".join(told["sides"].casefold().split()).replace(".", "") if told else ""
    if told is None or sides not in words_of("both_sides"):
        return
    said = {w.side for c in head.texts if (w := head.which(c)) is not None}
    if {"intake", "exhaust"} <= said:
        texts[-1] = told["name"]


# A sum has two parts at least, behind the name of the whole.
_FEWEST_SUMMED = 3
# Along the crank, beside a head for across it.
_PIN = ("pin", "pin side", "pin axis", "pin way", "axe", "sens axe", "spinotto", "bulón")


_UPRIGHT = re.compile(r"(?P<name>.*[^\W\d_]{3})[\s,]+V\.?")


def _name_upright(head: Head) -> None:
    """Write out V and H behind one name, side by side: "Bore V | Bore H"."""
    for column in list(head.texts):
        texts, beside = head.texts[column], head.texts.get(column + 1, [""])
        told = _UPRIGHT.fullmatch(texts[0])
        across = re.fullmatch(rf"{re.escape(told['name'])}[\s,]+H\.?", beside[0]) if told else None
        if told and across:
            texts[0], beside[0] = f"{told['name']} vert", f"{told['name']} horiz"


def _name_axes(head: Head) -> None:
    """Say of the heads "THR | PIN" side by side that they are of the two axes of a bore."""
    own = {c: _first_said(texts) for c, texts in head.texts.items()}
    for column, text in own.items():
        beside = which_of(own.get(column - 1, "")) or which_of(own.get(column + 1, ""))
        if text.casefold().strip(" .") in _PIN and beside and beside.at == ("thrust",):
            head.texts[column] = ["parallel" if t == text else t for t in head.texts[column]]


def _name_rings(head: Head, titles: Sequence[str]) -> None:
    """Say of the heads "Top | 2nd | Oil" side by side that they are of gaps of rings."""
    corner = head.texts.get(head.block.left, ())[-1:]
    about = (*corner, *titles[:1])
    meant = [c.measurand for title in about for c in meaning_of(title).candidates[:1]]
    what = "side clearance" if any(m.endswith("side_clearance") for m in meant) else "gap"
    own = {c: _first_said(texts) for c, texts in head.texts.items()}
    bare = {c: text.strip(" .").casefold() for c, text in own.items()}
    for column in [c for c, text in bare.items() if text in words_of("top_rings")]:
        if not is_second_ring(bare.get(column + 1, "")) or _is_of_rings(head, column):
            continue
        names = {column: f"Top ring {what}", column + 1: f"2nd ring {what}"}
        if bare.get(column + 2) in words_of("oil_rings"):
            names[column + 2] = f"Oil ring {what}"
        for at, name in names.items():
            head.texts[at] = [name if text == own[at] else text for text in head.texts[at]]


def _is_of_rings(head: Head, column: int) -> bool:
    """Whether what stands over a head says itself what is measured of the rings."""
    texts = head.texts[column]
    over = (meaning_of(text) for text in texts[texts.index(_first_said(texts)) + 1 :])
    return any(meaning.candidates or meaning.part for meaning in over)


def _name_second_rings(head: Head) -> None:
    """Say of a head that only says second what the first one beside it measures of a ring."""
    for column, texts in head.texts.items():
        if column in head.index or not is_second_ring(texts[0]):
            continue
        beside = head.texts.get(column - 1, ())
        meant = next((one for text in (*beside, *texts[1:]) if (one := _of_ring(text))), "")
        if meant:
            texts[0] = meant


_DITTO = re.compile(
    r"(?P<own>\S.*?)[\s,]+(?:do\.|(?:ditto|dto|idem)\.?)(?P<behind>.*)", re.IGNORECASE
)
_FIRST = re.compile(r"^(?:top|first|1st|2nd|second|upper|1\.|2\.|oberer|erster)\s+", re.IGNORECASE)


def _write_out_ditto(head: Head) -> None:
    """Write what the head before says into one that says ditto: "2nd do." behind "Top gap"."""
    for column in sorted(head.texts):
        texts, before = head.texts[column], head.texts.get(column - 1)
        told = _DITTO.fullmatch(texts[0]) if before else None
        if before and told:
            texts[0] = f"{told['own']} {_FIRST.sub('', before[0])}{told['behind']}"


def _of_ring(text: str) -> str:
    """What is measured of a second ring where a head says it of the first, "" for any other."""
    candidates = meaning_of(text).candidates
    name = candidates[0].measurand if candidates and candidates[0].cost <= _MOST_ASSUMED else ""
    return next((said for end, said in _OF_RINGS.items() if name.endswith(end)), "")


def _settle_pairs(head: Head, own: Mapping[int, str]) -> None:
    """Say of a head with before what another has with after: "Comp. avant", "Comp. après"."""
    bare = {column: without_unit(text) or text for column, text in own.items()}
    later = {
        " ".join(text.split()[:-1]).casefold()
        for text in bare.values()
        if text.split()[-1].casefold().strip(".") in words_of("after")
        or stage_of(meaning_of(text)) in WORKED
    }
    before: set[str] = set()
    for column, text in own.items():
        name, last = _name_and_last(bare[column])
        worked = _is_work_alone(own.get(column + 1, ""))  # "tourillon avant | rectifié"
        if last in words_of("before_or_front") and (worked or name.casefold() in later - {""}):
            before.add(name.casefold())
            _say_when(head, column, text, name, _AS_FOUND)
    for column, text in own.items():
        name, last = _name_and_last(bare[column])
        unsaid = not stage_of(meaning_of(text))  # "ap." alone says nothing.
        if last in words_of("after") and name.casefold() in before and unsaid:
            _say_when(head, column, text, name, _FINISHED)


def _is_work_alone(text: str) -> bool:
    """Whether a head is one word that says what was done: "reground"."""
    return len(text.split()) == 1 and stage_of(meaning_of(text)) in WORKED


def _name_and_last(text: str) -> tuple[str, str]:
    *words, last = text.split()
    return " ".join(words), last.casefold().strip(".")


def _say_when(head: Head, column: int, text: str, name: str, when: str) -> None:
    """Put a name in place of a head's text, and when it was measured behind it."""
    unit = unit_in(text)
    name = f"{name} ({unit})" if unit else name
    head.texts[column] = [*(name if t == text else t for t in head.texts[column]), when]


def _settle_behind_found(head: Head, own: Mapping[int, str], stages: Mapping[int, str]) -> None:
    """Say of a word nobody knows that it is after the work: "found | redone | found | redone"."""
    behind = [
        (c, own[c])
        for c in own
        if stages.get(c - 1) == "found" and not stages[c] and says_nothing(own[c])
    ]
    words = {text.casefold() for _, text in behind}
    found = sum(stage == "found" for stage in stages.values())
    if len(behind) < _FEWEST_AGAIN or len(words) != 1 or len(behind) < found:
        return
    for column, text in behind:
        head.texts[column] = [_FINISHED if t == text else t for t in head.texts[column]]


# What stands behind every one of so many is of each.
_FEWEST_AGAIN = 2


def says_nothing(text: str) -> bool:
    """Whether a text says neither what is measured nor of what, nor when."""
    meaning = meaning_of(text)
    return which_of(text) is None and not (meaning.candidates or meaning.part or meaning.section)


_IN_AND_OUT = re.compile(r"(?P<name>.*[^\W\d_]{3}) (?P<way>in|out) \(?(?P<unit>[^\W\d_]+)\)?")
# "Tip out (mm)" is how far it stands out, and not when it was measured.
_STANDS_OUT = "protrusion"
_CAME_IN = re.compile(r"(?P<name>.*[^\W\d_]{3}) in", re.IGNORECASE)


def _settle_what_came_in(head: Head, own: Mapping[int, str], stages: Mapping[int, str]) -> None:
    """Say that the one head that ends with "in" is of what came in, where another says finished.

    "Worst hole in | Finish | Piston" or "warp in | warp now": in inches are the others too.
    "comp in psi | comp out psi" has its unit besides.
    """
    told = {c: found for c, text in own.items() if (found := _CAME_IN.fullmatch(text))}
    finished = any(
        stage in WORKED or own[c].casefold().strip(".") in words_of("finish_heads")
        for c, stage in stages.items()
        if len(own[c].split()) == 1
    )
    later = {_name_and_last(own[c])[0].casefold() for c, stage in stages.items() if stage in WORKED}
    for column, found in told.items() if len(told) == 1 else ():
        name = found["name"]
        if stage_of(meaning_of(name)):
            continue  # "After running in": the word is of another.
        if not finished and name.casefold() not in later:
            continue
        texts = head.texts[column]
        head.texts[column] = [*(name if t == own[column] else t for t in texts), _AS_FOUND]
    in_and_out = {c: found for c, text in own.items() if (found := _IN_AND_OUT.fullmatch(text))}
    came, went = (
        {found["name"].casefold() for found in in_and_out.values() if found["way"] == way}
        for way in ("in", "out")
    )
    stand_out = {name for name in went - came if noun_named(f"{name} out") == _STANDS_OUT}
    for column, found in in_and_out.items():
        if found["name"].casefold() in went - stand_out and is_unit(found["unit"]):
            when = _FINISHED if found["way"] == "out" else _AS_FOUND
            _say_when(head, column, own[column], found["name"], when)


# Behind what came in these are no protrusion: "Entrada | Salida", "Entrée | Sortie".
_WENT_OUT = ("salida", "sortie", "uscita", "ausgang", "out")


def _settle_what_went_out(head: Head, own: Mapping[int, str]) -> None:
    """Say of a head that is the word for out that it is after the work, beside one for in."""
    came = [c for c, text in own.items() if (w := which_of(text)) and w.stage == "found"]
    alone = [c for c in came if len(own[c].split()) == 1]
    for column, text in own.items() if alone else ():
        if text.casefold().strip(" .:") in _WENT_OUT:
            head.texts[column] = [_FINISHED if t == text else t for t in head.texts[column]]


def _first_said(texts: Sequence[str]) -> str:
    """The lowest text of a column of heads that is no unit, "" where there is none."""
    return next((text for text in texts if not is_unit(text)), "")


def _come_before(head: Head, columns: Iterable[int]) -> None:
    """Say of columns that their sizes were taken before the work."""
    for column in columns:
        texts = head.texts[column]
        own = _first_said(texts)
        only = which_of(own) is not None or own.casefold() in words_of("old")
        head.texts[column] = (
            [_AS_FOUND if t == own else t for t in texts] if only else [*texts, _AS_FOUND]
        )


def _words_in(text: str) -> frozenset[str]:
    return frozenset(word.strip(".,:()") for word in text.casefold().split())


def count_bearings(head: Head) -> None:
    """What the text before heads P1 P2 P3 counts, mains or rods, whatever the letter stands for."""
    first = min(head.texts, default=0)
    texts = map(without_unit, head.texts.get(first, ()))
    of = next((of for text in texts if (of := counts(text)) in BEARINGS), None)
    for column in head.texts if of else ():
        told = head.which(column)
        if column != first and told and told.number and told.of in BEARINGS:
            head.index[column] = told._replace(of=of or "")
