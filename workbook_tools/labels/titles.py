"""What a title or a long head names, apart from what else it says: a limit, units, a remark."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from workbook_tools.labels.added_sizes import size_added_to
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.conventions import states_units
from workbook_tools.labels.property_units import says_units
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    NO_SIZES,
    meaning_of,
    stage_of,
    unit_in,
    without_two_units,
)
from workbook_tools.labels.which import CAME_OR_GOES
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts

# A longer title is a sentence, of which the first clause is the title.
MOST_WORDS_OF_A_TITLE = 5
_MOST_WORDS_OF_A_NAME = 3
# What ends a clause: a comma or the point of a sentence, and none in brackets.
_CLAUSE = re.compile(r"(?:,|(?<=[^\W\d_]{4})\.|(?<=\d)\.) (?![^()]*\))")
# How far what a title names is to be ground or bored: "MAINS - grind .010".
_TO_BE_CUT = re.compile(r"\s+[-–—]+\s*[^\W\d_]+(?: [^\W\d_]+)?\s+\d*[.,]\d{2,}$")
# A word with so many steps to a meaning says little beside columns that count: "tolerancia".
_FEW_STEPS = 4
# What stands before the units of all sizes: "Soupapes d'admission – cotes en mm".
_BEFORE_UNITS = re.compile(r"(?P<name>[^–—:(]{3,}?)\s*(?:\s[-–—]\s|[–—:(]).*")
_CUT = re.compile(r"\s*(?:\s[-–—]\s|[–—:(,])")
# What the sizes below a title may be: "LINER PROTRUSION (in) spec .006-.011, max diff .002".
_LIMIT_BEHIND = re.compile(
    r"[\s,;/(\[–—-]+(?:spec|specs|limits?|want|wanted|max|min|soll|grenze|limite|tolerance|tol)\b\.?[^\d]*\d.*$",
    re.IGNORECASE,
)
# Of what size parts are new: "MAINS std 2.7490".
_STANDARD_SIZE = re.compile(
    r"(?P<name>[^\W\d_]{2}[^\d]*?)[\s,:(–-]+(?P<word>[^\W\d_]{3,8})\.?(?: size)?"
    r"[\s:=]+\d*[.,]\d{2,}(?:\s?(?:mm|in)\.?)?\)?"
)
# How near to each other they are: "Deck heights, all within a thou".
_NEAR_EACH_OTHER = re.compile(
    rf"[\s,;(\[–—-]+{either_of('near_each_other')}\s+(?:{either_of('one')}\s|\d*[.,]?\d).*$",
    re.IGNORECASE,
)
_HOW_MANY_PLACES = re.compile(rf"[\s,]+{either_of('how_many_places')}\.?$", re.IGNORECASE)
# What counts the parts of a form: "A. CYLINDERS", "3) Crankshaft".
_PART_OF_A_FORM = re.compile(r"^(?:[A-Z]|\d{1,2}|[IVX]{1,4})[.)]\s+(?=[^\W\d_]{3})")
# Units that no size says by itself: a title keeps them.
_PARTS_OF_UNITS = ("hundredths mm", "thou")
# A remark of several words in brackets at the end of a title.
_REMARK_BEHIND = re.compile(r"\s*\((?:[^\s()]+\s+){2,}[^\s()]+\)$")


def surely_measures(text: str) -> bool:
    """Whether a text says in few words what is measured."""
    candidates = meaning_of(text).candidates
    return bool(candidates) and candidates[0].cost <= _FEW_STEPS


def names_one_thing(text: str) -> bool:
    """Whether a long text says clearly what is measured, and names no other part behind it."""
    if (added := size_added_to(text)) and added.name:
        text = added.name
    title = first_clause(text)
    behind = re.split(r", | [-–—] ", text.partition(title)[2])
    own = meaning_of(title)
    first = own.candidates[0].measurand if own.candidates else ""
    others = any(
        (m.candidates and m.candidates[0].measurand != first)
        or (m.part and not m.candidates and m.part != own.part)
        for m in map(meaning_of, filter(None, behind))
    )
    return _names_surely(title) and not others


def _says_more(clause: str, first: str) -> bool:
    """Whether a clause says what is measured, as the first one, of a part alone, does not."""
    meaning = meaning_of(clause)
    clear = _cost(clause) <= 1 or not meaning.part
    return clear and not meaning.unknown and _cost(clause) <= _cost(first)


def _cost(text: str) -> int:
    """How many steps a text takes to what it means, many where it means nothing measured."""
    candidates = meaning_of(text).candidates
    return candidates[0].cost if candidates else _FEW_STEPS + 1


def is_of_units(text: str) -> bool:
    """Whether a text says in which units the numbers are."""
    return states_units(text) or says_units(text)


# "Protrusions in hundredths, the rest in mm" names one of what stands below.
_ALL_ELSE = re.compile(rf"\b{either_of('all_else')}", re.IGNORECASE)


def before_units(title: str) -> str:
    """What a title names before it says the units, "" where it names nothing measured."""
    if not is_of_units(title) or unit_in(title) in _PARTS_OF_UNITS or _ALL_ELSE.search(title):
        return ""
    ends = [cut.start() for cut in _CUT.finditer(title)]
    for end in reversed([n for n in ends if title.count("(", 0, n) == title.count(")", 0, n)]):
        # "Bores - block as received, mm": when it was measured is said before the units.
        taken = stage_of(meaning_of(title[:end])) not in ("", *NO_SIZES)
        sure = taken or _names_surely(first_clause(title[:end]))
        if sure and not is_of_units(title[:end]):
            return title[:end]
    found = _BEFORE_UNITS.fullmatch(title)
    named = meaning_of(found["name"]) if found else None
    names = named is not None and (named.part or named.candidates) and not named.unit
    return found["name"] if found and names and not says_units(found["name"]) else ""


def without_limit_behind(title: str) -> str:
    """A title without the limit or the size behind it."""
    cut = without_nearness(_TO_BE_CUT.sub("", title))
    if parts := _before_standard_size(cut):
        return parts
    return _LIMIT_BEHIND.sub("", cut) or cut


def _before_standard_size(title: str) -> str:
    """The parts that a title names before their standard size: "RODS std 2.2990", else ""."""
    told = _STANDARD_SIZE.fullmatch(title)
    counted = told is not None and counts(told["name"]) in ("cylinder", *BEARINGS)
    return (
        told["name"] if told and counted and stage_of(meaning_of(told["word"])) == "target" else ""
    )


def without_nearness(title: str) -> str:
    """A title without how near to each other the sizes below it are, or at how many places."""
    return _HOW_MANY_PLACES.sub("", _NEAR_EACH_OTHER.sub("", title)) or title


def clause_of_a_corner(text: str) -> str:
    """A long head over the names of rows that is their title too, without what is said further."""
    text = without_nearness(text)
    before, dash, behind = text.partition(" - ")
    if dash and meaning_of(before).unknown and meaning_of(behind).candidates:
        text = behind  # "Sheet 2 - rod bores"
    clause = first_clause(text)
    if meaning_of(clause).unknown:
        clause = _CLAUSE.split(clause)[0]
    named = unit_in(clause) == unit_in(text) and bool(meaning_of(clause).candidates)
    return clause if named else text


def parts_of_a_corner(text: str) -> list[str]:
    """A head over the numbers of rows, what it counts apart from what is measured of it.

    "Main / align bore", "Cap # / housing bore".
    """
    first, slash, last = text.partition(" / ")
    counted = bool(slash) and counts(first) in ("cylinder", *BEARINGS)
    named = meaning_of(last).candidates if counted else ()
    return (
        [last, first] if named and named[0].cost == 0 and not meaning_of(last).unknown else [text]
    )


def leads_with_a_name(text: str) -> bool:
    """Whether a long text begins with what is measured: "Wall thickness, sonic. All"."""
    clause, comma, _ = text.partition(", ")
    told = meaning_of(clause)
    sure = bool(told.candidates) and told.candidates[0].cost <= 1 and not told.unknown
    listed = ":" in text  # "Oil pressure, cold and hot: at idle, at speed" heads a form.
    return bool(comma) and sure and not listed and len(clause.split()) <= _MOST_WORDS_OF_A_NAME


def _names(text: str) -> bool:
    meaning = meaning_of(text)
    known = bool(meaning.candidates) and not meaning.unknown
    return known or bool(meaning.part or meaning.section) or counts(text) is not None


def _names_surely(text: str) -> bool:
    meaning = meaning_of(text)
    return bool(meaning.candidates) and meaning.candidates[0].cost <= 2 and not meaning.unknown


# "Crank - std, polished": of what size the part is, and none that is wanted of it.
_STANDARD = re.compile(r"(?<=\w)[\s,;(–—-]+(?:std\.?|standard)(?=$|[,;)])\)?", re.IGNORECASE)


# How strong an engine is, which no row of its sizes measures: "Stationary engine 6 hp, worn".
_POWER = re.compile(r"\s\d+(?:[.,]\d+)?\s?(?:ps|b?hp|ch|cv|kw)\b", re.IGNORECASE)
# The number of a job or of a part: "Crank R-4471".
_CODE = re.compile(r"\s[A-Z]{1,3}-\d{2,}\b")
_PARTS_OF_A_TITLE = re.compile(r",\s+|\s[-–—]\s")


@cache
def _before_and_after() -> re.Pattern[str]:
    """When sizes were taken of which the heads say each: "Heights before / after shimming"."""
    pairs = (pair.split("/") for pair in words_of("before_after"))
    both = "|".join(rf"{re.escape(a)}\s?[/&+]\s?{re.escape(b)}" for a, b in pairs)
    return re.compile(rf"[\s,(–-]+(?:{both})\b[^,]*", re.IGNORECASE)


def first_clause(title: str) -> str:
    """The clause of a title that says what is measured, with the one that says when.

    "Barn find, flathead four, as it came" is as found.
    """
    title = _POWER.sub("", _CODE.sub("", title)) or title
    clause = _clause_of(title)
    if clause == title or stage_of(meaning_of(clause)):
        return clause
    others = (one for one in _PARTS_OF_A_TITLE.split(title) if one not in clause)
    when = next((one for one in others if _says_when(one) or _was_taken(one)), "")
    return f"{clause}, {when}" if when else clause


def _was_taken(clause: str) -> bool:
    """Whether a clause says when a part was measured, and measures nothing: "block as received"."""
    meaning = meaning_of(clause)
    named = bool(meaning.candidates) and meaning.candidates[0].cost <= 1
    return stage_of(meaning) in CAME_OR_GOES and not meaning.unknown and not named


def _clause_of(title: str) -> str:
    """A title, of a longer one what stands before the first comma, or before at what.

    Where that names an engine or a part alone, what the next clause measures: "Head, six cylinder
    truck, valve recession after seat work".
    """
    if added := size_added_to(title):
        # 'BORES 4.155 + (tenths)   .5" down'
        title = added.name or " ".join(title[: added.end].split())
    title = without_two_units(_TO_BE_CUT.sub("", title.partition(" @")[0]))
    title = _before_and_after().sub("", title) or title
    title = _STANDARD.sub("", title) or title
    remark = _REMARK_BEHIND.search(title)
    if remark and not unit_in(title) and not _says_when(remark[0]):
        title = title[: remark.start()] or title
    title = _PART_OF_A_FORM.sub("", title) or title
    title = without_limit_behind(_behind_a_colon(title))
    short = len(title.split()) <= MOST_WORDS_OF_A_TITLE
    first, *others = _CLAUSE.split(title)
    if short:
        whole = first if surely_measures(first) and all(map(is_remark, others)) else title
        return _without_circumstance(whole)
    named = _without_circumstance(_clause_that_names(title, first, others))
    return _with_unit_of(title, named, others)


# What stands before why or how something was measured: "Piston protrusion for gasket choice (mm)".
# A gap "for each unit of bore" is no gap.
_CIRCUMSTANCE = re.compile(
    rf"\s{either_of('circumstance')}\s(?!{either_of('each')})", re.IGNORECASE
)
_UNIT_AT_END = re.compile(r"[\s,]*\([^()]*\)$")


def _without_circumstance(title: str) -> str:
    """A title without why or how something was measured, where that is not understood.

    What says when it was measured stays.
    """
    meaning = meaning_of(title)
    if meaning.candidates and not meaning.unknown:
        return title
    unit = _UNIT_AT_END.search(title)
    behind = unit[0] if unit and is_unit(unit[0].strip(" ,()")) else ""
    for found in _CIRCUMSTANCE.finditer(title):
        lead, rest = title[: found.start()], title[found.end() :]
        if _names_surely(lead) and not meaning_of(lead).unknown and not stage_of(meaning_of(rest)):
            return lead + behind
    return title


def _behind_a_colon(title: str) -> str:
    """What a title names behind the engine or part that it is of: "Diesel: liner protrusion"."""
    before, colon, behind = title.partition(":")
    named = meaning_of(before)
    said = named.stage or named.unit or which_of(before) is not None
    if not colon or said or not behind.startswith(" ") or _cost(before) <= _FEW_STEPS:
        return title
    return behind.strip() if _cost(behind) <= 2 and not meaning_of(behind).unknown else title


def _says_when(remark: str) -> bool:
    """Whether a remark in brackets only says when sizes were taken: "(final, after honing)"."""
    said = which_of(remark.strip(" ()"))
    return said is not None and said.stage in CAME_OR_GOES and not said.tells


def _clause_that_names(title: str, first: str, others: Sequence[str]) -> str:
    """The clause of a long title that says what is measured, or the first one."""
    before, *behind = re.split(r" [-–—] ", first)
    if behind and _names_surely(before) and not any(meaning_of(o).candidates for o in behind):
        return before  # "Piston clearance thou – a truck from up north, in firing order"
    if not surely_measures(title) and (_cost(first) > 1 or not _names_surely(first)):
        said = [o for o in re.split(r", | [-–—] ", title)[1:] if not unit_in(o)]
        if more := next((o for o in said if _says_more(o, first)), ""):
            return more
    clause = first
    if not _names(clause):
        # "Marine diesel. Bump clearance by lead wire": what the engine is measures nothing.
        clause = next((other for other in others if _names_surely(other)), clause)
    if others and not _names_surely(clause) and _names_surely(f"{clause} {others[0]}"):
        clause = f"{clause} {others[0]}"  # "Gudgeons, fit in boss": a part, and what of it.
    return clause


def _with_unit_of(title: str, clause: str, others: Sequence[str]) -> str:
    """A clause of a title with the unit that stands elsewhere in it."""
    unit = unit_in(title) if unit_in(title) in _PARTS_OF_UNITS else ""
    last = others[-1].strip(" .") if others else ""
    unit = unit or (last if is_unit(last) else "")
    return f"{clause} ({unit})" if unit and not unit_in(clause) else clause


def is_remark(text: str) -> bool:
    """Whether no word of a text says what is measured, of which part, when or in what unit."""
    meaning = meaning_of(text)
    said = meaning.candidates or meaning.part or meaning.section or meaning.stage or meaning.unit
    return not said and which_of(text) is None and bool(meaning.unknown)
