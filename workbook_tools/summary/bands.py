"""Bands and verdicts: which call of the book judges which number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from workbook_tools.findings.book_limits import own_limits
from workbook_tools.findings.evidence import evidence_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Record
from workbook_tools.jobs.verdicts import VERDICT_WORDS, Judged, judged_by
from workbook_tools.measurands import Position
from workbook_tools.quantities import READING, from_si
from workbook_tools.summary.figures import Measure, figure, number_in

# Limits of which the book does not say who says them.
THIS_BOOK = "this book"
_BY_WEIGHT = ("low", "high", "", "ok")


@dataclass(frozen=True)
class Band:
    """The limits that a number is judged by, in the number's own unit, and the verdict.

    low, high: None where that side is open; verdict: "ok", "low", "high", or "" where
    there is none, with the problem that says why; place: the cell of the verdict; origin: who
    says the limits, as far as the book does, else that the book itself has them.
    """

    low: float | None
    high: float | None
    verdict: str
    place: Place
    state: str
    problem: str = ""
    origin: str = ""

    @property
    def stated(self) -> bool:
        """Whether there is any limit."""
        return self.low is not None or self.high is not None


def bands_by_place(
    book: Book, records: Iterable[Record], origins: Mapping[Place, str]
) -> dict[Place, tuple[Record, Band]]:
    """{cell: (the record that judges it, band)}; the worst where a cell is judged twice.

    records: the book's, in the order that decides between alike; origins: what the book says of
    where a limit comes from, by the limit's cell.
    """
    verdicts = evidence_of(book).verdicts_by_call
    found: dict[Place, tuple[Record, Band]] = {}
    for record in records:
        for judged in verdicts.get(id(record), ()):
            if judged.place is None:
                continue
            band = band_of(judged, origins)
            if judged.place not in found or _weight(band) < _weight(found[judged.place][1]):
                found[judged.place] = (record, band)
    return found


def band_of_nested(
    record: Record, judges: Iterable[Record], origins: Mapping[Place, str]
) -> tuple[Record, Band] | None:
    """The verdict whose formula holds this call itself: =ENG.VERDICT(ENG.QUENCH(...), ...).

    judges: those of the same cell.
    """
    for judge in judges:
        for judged in judged_by(judge):
            if judged.place is None and record.value is not None and judged.value == record.value:
                return judge, band_of(judged, origins)
    return None


def fills_its_cell(record: Record) -> bool:
    """Whether a call's own value is what its cell shows, or shows a verdict on.

    It may be where the call is only a part of the formula: IF(B7="","",ENG.QUENCH(B7,B9)).
    """
    if record.value is None or record.gives_its_cell:
        return True
    return record.recomputed == record.value or record.recomputed in VERDICT_WORDS


def band_of(judged: Judged, origins: Mapping[Place, str]) -> Band:
    """The band and verdict of a number that the book judges."""
    record = judged.by
    low, high = (
        number_in(given.value, READING, record.system) if given and not given.problem else None
        for given in (judged.low, judged.high)
    )
    problem = "" if judged.verdict else record.problem
    said = (origins.get(a.place) for a in (judged.low, judged.high) if a is not None and a.place)
    origin = next(filter(None, said), THIS_BOOK)
    return Band(low, high, judged.verdict, record.place, record.state, problem, origin)


def own_bands(book: Book) -> dict[tuple[Place, str, Position], Band]:
    """The bands that the book writes beside its numbers without a call that judges by them.

    By cell, measurand and part, as what the batch computes stands in no cell.
    """
    said = dict(book.origins)
    found: dict[tuple[Place, str, Position], Band] = {}
    for size, own in own_limits(evidence_of(book)):
        ends = [limit for limit in (own.low, own.high) if limit is not None]
        low, high = (
            None if limit is None or limit.si is None else from_si(limit.si, size.kind, size.system)
            for limit in (own.low, own.high)
        )
        verdict = "ok" if own.missed is None else "low" if own.missed is own.low else "high"
        origin = next((said[limit.place] for limit in ends if limit.place in said), THIS_BOOK)
        band = Band(low, high, verdict, ends[0].place, "same", "", origin)
        found[size.place, size.measurand, size.part] = band
    return found


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
