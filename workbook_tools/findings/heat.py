"""Hot against cold: a number of a warm engine where a cold one belongs, and the other way."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding, call_of, named, words_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument, Reading, Record
from workbook_tools.jobs.verdicts import is_judge, judged_argument
from workbook_tools.labels.label import Label

_HOT = re.compile(r"\b(hot|warm|running)\b", re.IGNORECASE)
_COLD = re.compile(r"\bcold\b", re.IGNORECASE)
# Parameters that take a cold size although a hot one exists under the same name, and those
# that take a hot one. Bands of the catalog are for cold clearances.
_COLD_PARAMETERS = ("deck_clearance", "ring_gap", "clearance")
_HOT_PARAMETERS = ("hot_quench",)
# An oil film is a matter of the running engine.
_HOT_FUNCTIONS = ("FILM_ECCENTRICITY", "FILM_THICKNESS", "SOMMERFELD_NUMBER")
_COLD_BANDS = ("BEARING_BAND", "PISTON_CLEARANCE_BAND", "RING_GAP_BAND", "RING_GAP")
_LASH_CHANGE = {"inch": "0.002 to 0.012 in", "metric": "0.05 to 0.3 mm"}
_WANTED = re.compile(
    r"\b(?:wanted|target|card|spec|figure|factory|maker'?s?|nominal|least|most|min|max|limit)\b",
    re.IGNORECASE,
)
_WHAT_TO_DO = "Compare cold with cold: use the reading at room temperature, or a hot limit."


def check_heat(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each call that takes or judges a hot size as a cold one, or the reverse."""
    told: set[Place | None] = set()
    makers = evidence.makers
    for record in evidence.book.records:
        judged = _judged(record, makers) if is_judge(record) else ()
        for finding in (*_taken(record, makers), *judged):
            if finding.place not in told:
                told.add(finding.place)
                yield finding
    yield from (f for f in _lash(evidence) if f.place not in told)


def _state(argument: Argument, makers: Mapping[Place, Record]) -> str:
    """ "hot" or "cold" where the function that made a cell or its label says so, else ""."""
    maker = makers.get(argument.place) if argument.place else None
    if maker is not None and maker.function is not None:
        if maker.function.name.startswith("HOT_"):
            return "hot"
        if maker.function.name in _COLD_BANDS:
            return "cold"
    return _said(argument.label)


def _said(label: Label | None) -> str:
    """ "hot" or "cold" where a label says one of them.

    "Cold to hot" is about the way from one to the other.
    """
    return _said_in(words_of(label))


@lru_cache(maxsize=4096)
def _said_in(text: str) -> str:
    hot, cold = _HOT.search(text), _COLD.search(text)
    return "" if bool(hot) == bool(cold) else "hot" if hot else "cold"


def _taken(record: Record, makers: Mapping[Place, Record]) -> Iterator[Finding]:
    if record.function is None or record.function.name in _HOT_FUNCTIONS:
        return
    for argument in record.arguments:
        wanted = (
            "cold" if argument.name in _COLD_PARAMETERS
            else "hot" if argument.name in _HOT_PARAMETERS
            # A lift is as hot as the lash that is taken from it.
            else _said(record.label) if argument.name == "lash"
            else ""
        )  # fmt: skip
        found = _state(argument, makers) if wanted else ""
        if not found or found == wanted:
            continue
        place = argument.place or record.place
        yield Finding(
            "hot-for-cold",
            place,
            f"{named(argument.label, place)} is a {found} size, but "
            f"{call_of(record)} takes its {argument.name.replace('_', ' ')} {wanted}.",
            f"Refer to the {wanted} size, or use the function that is meant for the {found} one.",
            (record.place,) if record.place != place else (),
        )


def _judged(record: Record, makers: Mapping[Place, Record]) -> Iterator[Finding]:
    judged = judged_argument(record)
    if judged is None:
        return
    state = _state(judged, makers)
    limits = [a for a in record.arguments if a.name in ("low", "high")]
    for limit in limits:
        other = _state(limit, makers)
        if state and other and state != other:
            yield Finding(
                "hot-for-cold",
                judged.place or record.place,
                f"{named(judged.label, judged.place or record.place)} is a {state} size, but "
                f"{call_of(record)} judges it by a {other} limit, "
                f"{named(limit.label, limit.place or record.place)}.",
                _WHAT_TO_DO,
                tuple(p for p in (limit.place, record.place) if p and p != judged.place),
            )
            return


class _Lash(NamedTuple):
    """A typed lash, and whether it is of intake or exhaust valves, or may be of both."""

    reading: Reading
    valves: frozenset[str]


def _lash(evidence: Evidence) -> Iterator[Finding]:
    """Lash set cold to the very figure that is wanted hot, or the other way round."""
    lashes = [
        _Lash(r, frozenset(m.which for m in measures))
        for r in evidence.named
        if (measures := [m for m in evidence.measures(r) if m.property == "lash"])
    ]
    wanted = [w for w in lashes if _is_wanted(w.reading) and _said(w.reading.label)]
    told: set[tuple[str, str]] = set()
    for lash in lashes if wanted else ():
        reading = lash.reading
        state = _said(reading.label) or _said(Label(evidence.book.office.lash.text))
        if reading.label is None or not state or _is_wanted(reading):
            continue
        of_valve = [w.reading for w in wanted if lash.valves & w.valves]
        if any(_said(w.label) == state for w in of_valve):
            continue
        # A cold figure worked out from the hot one is another number.
        same = next((w for w in of_valve if w.value == reading.value), None)
        if same is None or (reading.place.sheet, reading.label.text) in told:
            continue
        told.add((reading.place.sheet, reading.label.text))
        sheet = "" if same.place.sheet == reading.place.sheet else f" on {same.place.sheet}"
        yield Finding(
            "lash-hot-for-cold",
            reading.place,
            f"{reading.name} is {reading.shown}, taken {state}: the very figure that is wanted "
            f"{_said(same.label)}, {same.name}{sheet}. Lash changes by "
            f"{_LASH_CHANGE[reading.system]} as an engine warms up (common practice).",
            "Set it in the state that the figure is for, or work out the other figure for this "
            "engine: measure one pair of valves hot and cold.",
            (same.place,),
        )


def _is_wanted(reading: Reading) -> bool:
    """Whether a lash is a figure to set it to; a card is no stage of a measurement."""
    return reading.stage == "target" or _WANTED.search(words_of(reading.label)) is not None
