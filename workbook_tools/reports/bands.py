"""Bands and verdicts: which VERDICT of the book judges which number."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from workbook_tools.books.records import Argument, Place, Record
from workbook_tools.reports.figures import Measure, figure, number_in
from workbook_tools.units import READING

VERDICT = "VERDICT"
VERDICT_WORDS = ("ok", "low", "high")
_BY_WEIGHT = ("low", "high", "", "ok")


@dataclass(frozen=True)
class Band:
    """The limits that a number is judged by, in the number's own unit, and the verdict.

    low, high: None where that side is open; verdict: "ok", "low", "high", or "" where
    there is none, with the problem that says why; place: the cell of the verdict.
    """

    low: float | None
    high: float | None
    verdict: str
    place: Place
    state: str
    problem: str = ""

    @property
    def stated(self) -> bool:
        """Whether there is any limit."""
        return self.low is not None or self.high is not None


def is_verdict(record: Record) -> bool:
    """Whether a record judges a number instead of being one."""
    return record.function is not None and record.function.name == VERDICT


def argument(record: Record, name: str) -> Argument | None:
    """The argument of this name, None where it was left out."""
    return next((a for a in record.arguments if a.name == name), None)


def bands_by_place(records: Iterable[Record]) -> dict[Place, tuple[Record, Band]]:
    """{cell: (the record that judges it, band)}; the worst where a cell is judged twice."""
    found: dict[Place, tuple[Record, Band]] = {}
    for record in records:
        judged = argument(record, "value") if is_verdict(record) else None
        if judged is None or judged.place is None:
            continue
        band = band_of(record)
        if judged.place not in found or _weight(band) < _weight(found[judged.place][1]):
            found[judged.place] = (record, band)
    return found


def band_of_nested(record: Record, verdicts: Iterable[Record]) -> tuple[Record, Band] | None:
    """The verdict whose formula holds this call itself: =ENG.VERDICT(ENG.QUENCH(...), ...).

    verdicts: those of the same cell.
    """
    for judge in verdicts:
        judged = argument(judge, "value")
        if (
            judged is not None
            and judged.place is None
            and record.value is not None
            and judged.value == record.value
        ):
            return judge, band_of(judge)
    return None


def fills_its_cell(record: Record) -> bool:
    """Whether a call's own value is what its cell shows, or shows a verdict on.

    It may be where the call is only a part of the formula: IF(B7="","",ENG.QUENCH(B7,B9)).
    """
    if record.whole or record.value is None:
        return True
    cell, value = record.recomputed, record.value
    if isinstance(cell, (int, float)) and isinstance(value, (int, float)):
        return math.isclose(cell, value, rel_tol=1e-9)
    return cell == value or cell in VERDICT_WORDS


def band_of(record: Record) -> Band:
    """The band and verdict that a VERDICT record states."""
    low, high = (
        number_in(given.value, READING, record.system) if given and not given.problem else None
        for given in (argument(record, "low"), argument(record, "high"))
    )
    verdict = record.value if isinstance(record.value, str) else ""
    return Band(low, high, verdict, record.place, record.state, record.problem)


def _weight(band: Band) -> int:
    return _BY_WEIGHT.index(band.verdict) if band.verdict in _BY_WEIGHT else 0


def band_text(band: Band, of: Measure, places: int) -> str:
    """The limits without their unit: "0.0350 to 0.0450", "at least 0.0350"."""
    low = None if band.low is None else figure(band.low, of, places)
    high = None if band.high is None else figure(band.high, of, places)
    if low is not None and high is not None:
        return f"{low} to {high}"
    if low is not None:
        return f"at least {low}"
    return f"at most {high}" if high is not None else ""
