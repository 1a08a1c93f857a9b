"""Hot against cold: a number of a warm engine where a cold one belongs, and the other way."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.books.judged import judged_argument
from workbook_tools.books.records import Argument, Book, Label, Place, Reading, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import named, readings, words_of

_HOT = re.compile(r"\b(hot|warm|running)\b", re.IGNORECASE)
_COLD = re.compile(r"\bcold\b", re.IGNORECASE)
# Parameters that take a cold size although a hot one exists under the same name, and those
# that take a hot one. Bands of the catalog are for cold clearances.
_COLD_PARAMETERS = ("deck_clearance", "ring_gap", "clearance")
_HOT_PARAMETERS = ("hot_quench",)
# An oil film is a matter of the running engine.
_HOT_FUNCTIONS = ("FILM_ECCENTRICITY", "FILM_THICKNESS", "SOMMERFELD_NUMBER")
_COLD_BANDS = ("BEARING_BAND", "PISTON_CLEARANCE_BAND", "RING_GAP_BAND", "RING_GAP")
_LASH = re.compile(r"\blash\b", re.IGNORECASE)
_LASH_CHANGE = {"inch": "0.002 to 0.012 in", "metric": "0.05 to 0.3 mm"}
_WANTED = re.compile(
    r"\b(?:wanted|target|card|spec|figure|factory|maker'?s?|nominal|least|most|min|max|limit)\b",
    re.IGNORECASE,
)
_VALVE = re.compile(r"\b(?:(int(?:ake)?|inlet)|(exh?(?:aust)?))\b", re.IGNORECASE)
_WHAT_TO_DO = "Compare cold with cold: use the reading at room temperature, or a hot limit."


def check_heat(book: Book) -> Iterator[Finding]:
    """A finding for each call that takes or judges a hot size as a cold one, or the reverse."""
    makers = {r.place: r for r in book.records if r.whole and r.function is not None}
    told: set[Place] = set()
    for record in book.records:
        for finding in (*_taken(record, makers), *_judged(record, makers)):
            if finding.place is not None and finding.place not in told:
                told.add(finding.place)
                yield finding
    yield from (f for f in _lash(book) if f.place not in told)


def _state(argument: Argument, makers: dict[Place, Record]) -> str:
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
    text = words_of(label)
    hot, cold = _HOT.search(text), _COLD.search(text)
    return "" if bool(hot) == bool(cold) else "hot" if hot else "cold"


def _taken(record: Record, makers: dict[Place, Record]) -> Iterator[Finding]:
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
            "disagreement",
            place,
            f"{named(argument.label, place)} is a {found} size, but {record.name} in "
            f"{record.place.address} takes its {argument.name.replace('_', ' ')} {wanted}.",
            f"Refer to the {wanted} size, or use the function that is meant for the {found} one.",
        )


def _judged(record: Record, makers: dict[Place, Record]) -> Iterator[Finding]:
    judged = judged_argument(record)
    if judged is None:
        return
    state = _state(judged, makers)
    limits = [a for a in record.arguments if a.name in ("low", "high")]
    for limit in limits:
        other = _state(limit, makers)
        if state and other and state != other:
            yield Finding(
                "disagreement",
                judged.place or record.place,
                f"{named(judged.label, judged.place or record.place)} is a {state} size, but "
                f"{record.name} in {record.place.address} judges it by a {other} limit, "
                f"{named(limit.label, limit.place or record.place)}.",
                _WHAT_TO_DO,
            )
            return


@lru_cache(maxsize=4096)
def _names_lash(words: str) -> bool:
    return _LASH.search(words) is not None


def _lash(book: Book) -> Iterator[Finding]:
    """Lash set cold to the very figure that is wanted hot, or the other way round."""
    lashes = [r for r in readings(book) if _names_lash(words_of(r.label))]
    wanted = [r for r in lashes if _WANTED.search(str(r.label)) and _said(r.label)]
    told: set[tuple[str, str]] = set()
    for reading in lashes if wanted else ():
        label = reading.label
        state = _said(label) or _said(Label(book.office.lash.text))
        if label is None or not state or _WANTED.search(str(label)):
            continue
        of_valve = [w for w in wanted if _same_valve(label, w.label)]
        if any(_said(w.label) == state for w in of_valve):
            continue
        # A cold figure worked out from the hot one is another number.
        same = next((w for w in of_valve if w.value == reading.value), None)
        if same is None or (reading.place.sheet, label.text) in told:
            continue
        told.add((reading.place.sheet, label.text))
        yield Finding(
            "disagreement",
            reading.place,
            f"{reading.name} is {reading.shown}, taken {state}: the very figure that is wanted "
            f"{_said(same.label)}, {_where(same, reading)}. Lash changes by "
            f"{_LASH_CHANGE[reading.system]} as an engine warms up (common practice).",
            "Set it in the state that the figure is for, or work out the other figure for this "
            "engine: measure one pair of valves hot and cold.",
        )


def _where(wanted: Reading, reading: Reading) -> str:
    sheet = "" if wanted.place.sheet == reading.place.sheet else f" on {wanted.place.sheet}"
    return f"{wanted.name}{sheet}"


def _same_valve(one: Label, other: Label | None) -> bool:
    """Whether two labels are of intake or exhaust valves alike, or one of them says neither."""
    found = [_VALVE.search(str(label)) for label in (one, other)]
    sides = [bool(f[1]) if f else None for f in found]
    return None in sides or sides[0] == sides[1]
