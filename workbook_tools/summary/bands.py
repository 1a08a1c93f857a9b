"""Bands and verdicts: which call of the book judges which number."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Record
from workbook_tools.jobs.verdicts import VERDICT_WORDS, Judged, judged_by
from workbook_tools.quantities import READING
from workbook_tools.summary.figures import Measure, figure, number_in

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


def bands_by_place(records: Iterable[Record]) -> dict[Place, tuple[Record, Band]]:
    """{cell: (the record that judges it, band)}; the worst where a cell is judged twice."""
    found: dict[Place, tuple[Record, Band]] = {}
    for record in records:
        for judged in judged_by(record):
            if judged.place is None:
                continue
            band = band_of(judged)
            if judged.place not in found or _weight(band) < _weight(found[judged.place][1]):
                found[judged.place] = (record, band)
    return found


def band_of_nested(record: Record, judges: Iterable[Record]) -> tuple[Record, Band] | None:
    """The verdict whose formula holds this call itself: =ENG.VERDICT(ENG.QUENCH(...), ...).

    judges: those of the same cell.
    """
    for judge in judges:
        for judged in judged_by(judge):
            if judged.place is None and record.value is not None and judged.value == record.value:
                return judge, band_of(judged)
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


def band_of(judged: Judged) -> Band:
    """The band and verdict of a number that the book judges."""
    record = judged.by
    low, high = (
        number_in(given.value, READING, record.system) if given and not given.problem else None
        for given in (judged.low, judged.high)
    )
    problem = "" if judged.verdict else record.problem
    return Band(low, high, judged.verdict, record.place, record.state, problem)


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
