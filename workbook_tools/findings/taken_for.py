"""Numbers that a call takes for what their labels say they are not.

Per side for a diameter, cam degrees for crank degrees, a free gasket for a compressed one, a
rocked reading for a clearance. Only words decide: a label that says neither is taken as it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import MORE, Finding, call_of, named, shown, words_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument, Record
from workbook_tools.jobs.verdicts import argument_of, is_judge, judged_argument
from workbook_tools.labels.label import Label
from workbook_tools.quantities import CAM_ANGLE, UnreadableText, unit_named


@dataclass(frozen=True, eq=False)
class Way:
    """Two ways to give a number that are taken for one another.

    code: of its finding; one, other: words of a label; one_is, other_is: what such a number
    is, in a sentence; harm: what comes of it; takes: parameters that want the other;
    takes_one: those that want the one; makes, makes_one: functions whose results are the
    other or the one.
    """

    code: str
    one: re.Pattern[str]
    other: re.Pattern[str]
    one_is: str
    other_is: str
    harm: str
    advice: str
    takes: frozenset[str] = frozenset()
    takes_one: frozenset[str] = frozenset()
    makes: frozenset[str] = frozenset()
    makes_one: frozenset[str] = frozenset()


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


# "Radial" is no word for it: a radial clearance is often the whole play across the bearing.
PER_SIDE = Way(
    "per-side-for-total",
    _words(r"\b(?:per|each) side\b|\bradius\b"),
    _words(r"\btotal\b|\bdiamet\w*|\bdia\b|\bboth sides\b|\bover all\b"),
    "per side",
    "over the whole diameter",
    "It is out by a factor of two.",
    "Double what is per side, and say in the label which of the two it is.",
    takes=frozenset({
        "bore", "bores", "old_bore", "new_bore", "gasket_bore", "piston_diameter", "pistons",
        "journal", "journal_diameter", "housing_bore", "bearing_bore", "pin_bore", "pin_diameter",
        "small_end_bore", "guide_bore", "stem_diameter", "hole", "shaft", "land_diameter",
        "groove_diameter", "plunger_diameter", "bearing_diameter", "valve_diameter",
        "mean_diameter", "diameter", "clearance", "stroke",
    }),
    takes_one=frozenset({"radius"}),
    makes=frozenset({
        "PISTON_CLEARANCE", "HOT_PISTON_CLEARANCE", "BEARING_CLEARANCE",
        "HOT_BEARING_CLEARANCE", "BEARING_BAND", "PISTON_CLEARANCE_BAND", "FIT",
        "BEARING_CLEARANCE_FROM_BORE", "PIN_CLEARANCE_IN_PISTON", "PIN_CLEARANCE_IN_ROD",
        "VALVE_GUIDE_CLEARANCE",
    }),
)  # fmt: skip
# A cam degree wheel is a wheel, mostly on the crank.
_DEGREES = (
    r"\b{0}(?:shaft)? ?(?:deg(?:rees?)?\b(?! wheel)|°)"
    r"|(?:\bdeg(?:rees?)?|°) ?(?:of the |at the )?{0}(?:shaft)?\s*$"
)
CAM_DEGREES = Way(
    "cam-for-crank-degrees",
    _words(_DEGREES.format("cam")),
    _words(_DEGREES.format("crank")),
    "in cam degrees",
    "in crank degrees",
    "One cam degree is two crank degrees.",
    "Read it off the wheel on the crank, or double the cam degrees; halve the other way round.",
    takes=frozenset({
        "crank_angle", "opening_reading", "closing_reading", "intake_duration", "exhaust_duration",
        "intake_centerline", "exhaust_centerline", "intake_opening", "intake_closing",
        "exhaust_closing",
    }),
    takes_one=frozenset({"lobe_separation"}),
    makes=frozenset({
        "CAM_DURATION", "LOBE_CENTERLINE", "INTAKE_OPENING", "INTAKE_CLOSING", "EXHAUST_OPENING",
        "EXHAUST_CLOSING", "VALVE_OVERLAP", "CAM_ADVANCE",
    }),
    makes_one=frozenset({"LOBE_SEPARATION"}),
)  # fmt: skip
FREE_GASKET = Way(
    "free-gasket-for-compressed",
    _words(r"\bfree\b|\bun-?(?:compressed|crushed)\b|\bnot (?:yet )?(?:compressed|crushed)\b"
           r"|\bbefore (?:torqu|crush|compress|tighten)\w*"),
    _words(r"(?<!un)(?<!un-)(?<!before )(?<!not )(?<!yet )\b(?:compressed|crushed)\b"
           r"|\bas (?:torqued|fitted)\b"),
    "uncompressed",
    "compressed",
    "Quench and gasket volume come out too large, the ratio too low.",
    "Use the gasket maker's compressed thickness, or measure a gasket that has been torqued.",
    takes=frozenset({"gasket_thickness", "thicknesses"}),
)  # fmt: skip
ROCKED = Way(
    "rocked-for-clearance",
    _words(r"\bwobbl\w*|\b(?:guide|stem|valve)\b.*\brock(?:ed|ing)?\b"
           r"|\brock(?:ed|ing)?\b.*\b(?:guide|stem|valve)\b"),
    _words(r"\bclearance\b"),
    "a rocked (wobble) reading",
    "a clearance",
    "Rocked at the gauge, a stem shows about twice its clearance (common practice).",
    "Halve the rocked reading, or take the clearance from guide bore and stem.",
    takes=frozenset({"clearance"}),
)  # fmt: skip
_WAYS = (PER_SIDE, CAM_DEGREES, FREE_GASKET, ROCKED)
_TAKES: dict[str, list[tuple[Way, bool]]] = {}
for _way in _WAYS:
    for _name in _way.takes:
        _TAKES.setdefault(_name, []).append((_way, False))
    for _name in _way.takes_one:
        _TAKES.setdefault(_name, []).append((_way, True))
# A half of a rocked reading is what it should be, as the words beside it say.
_HALVED = _words(r"/ ?2\b|\bhal(?:f|ves?|ved)\b|\bdivided\b")


@lru_cache(maxsize=4096)
def _says(way: Way, text: str, unit: str) -> str:
    """ "one" or "other" where a label says which, "" where it says neither or both."""
    one, other = (words.search(text) is not None for words in (way.one, way.other))
    if way is ROCKED and one:
        return "" if _HALVED.search(text) else "one"
    if way is CAM_DEGREES and not one and not other and unit:
        one, other = _is_cam_unit(unit), "crank" in unit.casefold()
    return "" if one == other else "one" if one else "other"


def _is_cam_unit(unit: str) -> bool:
    try:
        return unit_named(unit)[0] is CAM_ANGLE
    except UnreadableText:
        return False


def _said(way: Way, label: Label | None) -> str:
    return _says(way, words_of(label), label.unit) if label is not None else ""


@dataclass(frozen=True)
class _Doubt:
    way: Way
    argument: Argument
    place: Place
    said: str
    against: str
    by: Place


def check_taken_for(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each item that a call takes, or judges, as what its label says it is not."""
    makers = {p: r.function.name for p, r in evidence.makers.items() if r.function}
    for record in evidence.book.records:
        for doubt in (*_taken(record), *(_judged(record, makers) if is_judge(record) else ())):
            yield _finding(evidence, doubt)


def _taken(record: Record) -> Iterator[_Doubt]:
    for argument in record.arguments:
        for way, wants_one in _TAKES.get(argument.name, ()):
            said = _said(way, argument.label)
            if not said or (said == "one") == wants_one:
                continue
            name = argument.name.replace("_", " ")
            wanted = way.one_is if wants_one else way.other_is
            yield _Doubt(
                way,
                argument,
                argument.place or record.place,
                said,
                f"{call_of(record)} takes its {name} {wanted}"
                if way is not ROCKED
                else f"{call_of(record)} takes it for {wanted}",
                record.place,
            )


def _judged(record: Record, makers: dict[Place, str]) -> Iterator[_Doubt]:
    judged = judged_argument(record)
    if judged is None:
        return
    for way, said in zip(_WAYS, _states(judged, makers), strict=True):
        for name in ("low", "high") if said else ():
            limit = argument_of(record, name)
            if limit is None:
                continue
            other = _states(limit, makers)[_WAYS.index(way)]
            if other and other != said:
                is_ = way.one_is if other == "one" else way.other_is
                where = f", {named(limit.label, limit.place)}" if limit.place else ""
                limits = "a limit for" if way is ROCKED else "a limit that is"
                yield _Doubt(
                    way,
                    judged,
                    judged.place or record.place,
                    said,
                    f"{call_of(record)} judges it by {limits} {is_}{where}",
                    record.place,
                )
                break


def _states(argument: Argument, makers: dict[Place, str]) -> tuple[str, ...]:
    """What a number is by each of the ways: by the function that made it, else by its label."""
    maker = makers.get(argument.place, "") if argument.place else ""
    label = argument.label
    return _ways_said(maker, words_of(label) if label else "", label.unit if label else "")


@lru_cache(maxsize=4096)
def _ways_said(maker: str, text: str, unit: str) -> tuple[str, ...]:
    return tuple(
        "other" if maker in way.makes else "one" if maker in way.makes_one
        else _says(way, text, unit)
        for way in _WAYS
    )  # fmt: skip


def _finding(evidence: Evidence, doubt: _Doubt) -> Finding:
    way, argument, place = doubt.way, doubt.argument, doubt.place
    value = argument.value
    known = isinstance(value, (int, float)) and not isinstance(value, bool)
    number = f", {shown(float(f'{value:.6g}'), argument.unit)}" if known else ""
    is_ = way.one_is if doubt.said == "one" else way.other_is
    text = argument.label.text if argument.label else place.address
    return Finding(
        way.code,
        place,
        f"{named(argument.label, place)}{number}{MORE}, is {is_}, but {doubt.against}. "
        f"{way.harm}{_compressed(evidence) if way is FREE_GASKET else ''}",
        way.advice,
        (doubt.by,) if doubt.by.address and doubt.by != place else (),
        group=("taken for", place.sheet, text, way.code),
        explains=frozenset({place}),
    )


def _compressed(evidence: Evidence) -> str:
    """Where the book has the compressed thickness, if it has."""
    for written in evidence.book.readings:
        label = written.label
        if label is None or "thickness" not in label.text.casefold():
            continue
        if _said(FREE_GASKET, label) == "other":
            value = written.raw
            number = f"{value:.6g}" if isinstance(value, (int, float)) else value
            return f" {named(label, written.place)} is {number} {label.unit}".rstrip() + "."
    return ""
