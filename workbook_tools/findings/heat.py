"""Hot against cold: a number of a warm engine where a cold one belongs, and the other way."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import named

_HOT = re.compile(r"\b(hot|warm|running)\b", re.IGNORECASE)
_COLD = re.compile(r"\bcold\b", re.IGNORECASE)
# Parameters that take a cold size although a hot one exists under the same name, and those
# that take a hot one. Bands of the catalog are for cold clearances.
_COLD_PARAMETERS = ("deck_clearance", "ring_gap", "clearance")
_HOT_PARAMETERS = ("hot_quench",)
# An oil film is a matter of the running engine.
_HOT_FUNCTIONS = ("FILM_ECCENTRICITY", "FILM_THICKNESS", "SOMMERFELD_NUMBER")
_COLD_BANDS = ("BEARING_BAND", "PISTON_CLEARANCE_BAND", "RING_GAP_BAND", "RING_GAP")
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


def _state(argument: Argument, makers: dict[Place, Record]) -> str:
    """ "hot" or "cold" where the function that made a cell or its label says so, else ""."""
    maker = makers.get(argument.place) if argument.place else None
    if maker is not None and maker.function is not None:
        if maker.function.name.startswith("HOT_"):
            return "hot"
        if maker.function.name in _COLD_BANDS:
            return "cold"
    text = argument.label.text if argument.label else ""
    hot, cold = _HOT.search(text), _COLD.search(text)
    # "cold to hot" is about the way from one to the other.
    return "" if bool(hot) == bool(cold) else "hot" if hot else "cold"


def _taken(record: Record, makers: dict[Place, Record]) -> Iterator[Finding]:
    if record.function is None or record.function.name in _HOT_FUNCTIONS:
        return
    for argument in record.arguments:
        wanted = (
            "cold" if argument.name in _COLD_PARAMETERS
            else "hot" if argument.name in _HOT_PARAMETERS
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
    if record.function is None or record.function.name not in ("VERDICT", "JUDGE"):
        return
    by_name = {a.name: a for a in record.arguments}
    judged = by_name.get("value") or by_name.get("readings")
    if judged is None:
        return
    state = _state(judged, makers)
    limits = [by_name[n] for n in ("low", "high") if n in by_name]
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
