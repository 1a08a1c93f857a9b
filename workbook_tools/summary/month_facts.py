"""What a month needs of a build, as plain data that outlives the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from workbook_tools.quantities import DISPLACEMENT, POWER, TORQUE, System, from_si, to_si
from workbook_tools.summary.data_rows import Rows
from workbook_tools.summary.month_fits import FitRow, measured_rows, month_fits, system_of
from workbook_tools.summary.runs import PowerRun
from workbook_tools.summary.summary import Summary

# Of these there is one for each cylinder, so that they tell how many an engine has.
_OF_EACH_CYLINDER = ("bore", "piston_diameter", "chamber_volume", "deck_clearance", "top_ring_gap")


class PeakRow(NamedTuple):
    """The most power or torque of a run: at what speed, in rpm, and corrected to what."""

    what: str
    value: float
    unit: str
    speed: float
    corrected: str


@dataclass(frozen=True)
class MonthFacts:
    """Texts, counts and rows of a build's book, besides the job and its findings.

    promised, waiting, kind, hours: as the book has them; open_items: (what, who, until, sheet,
    cell); parts: (part, what the book says, sheet, cell); unsigned: (line, of which row, what
    stands there, sheet, cell);
    displacement: m3, None where not known; cylinders: with a reading, 0 where none has;
    fits, peaks: in the units of the month; odd_fits: (fit and its cells, why its unit is not
    known); findings: by FINDING_COLUMNS, acceptances: who accepted
    each of them, "" where it is open; readings: by READING_COLUMNS. Only numbers, texts, truth
    values and None are in them, so that they can be kept as JSON.
    """

    promised: str = ""
    waiting: str = ""
    kind: str = ""
    hours: str = ""
    open_items: Rows = ()
    part_lists: int = 0
    parts: Rows = ()
    signature_lines: int = 0
    unsigned: Rows = ()
    displacement: float | None = None
    cylinders: int = 0
    fits: tuple[FitRow, ...] = ()
    odd_fits: tuple[tuple[str, str], ...] = ()
    peaks: tuple[PeakRow, ...] = ()
    findings: Rows = ()
    acceptances: tuple[str, ...] = ()
    readings: Rows = ()


def month_facts(summary: Summary, units: System) -> MonthFacts:
    """What a month needs of a build.

    units: that fits and power are told in, whatever those of the book. Raises nothing.
    """
    office, data = summary.office, summary.data
    fits, odd = month_fits(summary, units)
    return MonthFacts(
        promised=office.promised.text,
        waiting=office.waiting.text,
        kind=office.kind.text,
        hours=office.hours.text,
        open_items=tuple(
            (one.what, one.who, one.until, one.place.sheet, one.place.address)
            for one in office.open_items
        ),
        part_lists=office.part_lists,
        parts=tuple((p.part, p.said, p.place.sheet, p.place.address) for p in office.parts),
        signature_lines=len(summary.marks),
        unsigned=tuple(
            (mark.label.text, mark.label.position, mark.said, mark.place.sheet, mark.place.address)
            for mark in summary.marks
            if mark.state != "made"
        ),
        displacement=_displacement(summary),
        cylinders=_cylinders(data),
        fits=tuple(fits),
        odd_fits=tuple(odd),
        peaks=tuple(_peaks(summary.power, units)) if summary.power else (),
        findings=summary.finding_rows,
        acceptances=tuple(one["acceptance"] for one in data["findings"]),
        readings=summary.reading_rows,
    )


def _peaks(run: PowerRun, units: System) -> Iterator[PeakRow]:
    """The peaks of a run in the units of the month; one in another unit stays in it."""
    corrected = (run.standard.upper() or "as the book has it") if run.corrected else "as measured"
    for what, peak, kind in (("Power", run.power, POWER), ("Torque", run.torque, TORQUE)):
        if peak is None:
            continue
        value, unit, system = peak.value, peak.unit, system_of(kind, peak.unit)
        if system is not None:
            value, unit = from_si(to_si(value, kind, system), kind, units), kind.unit(units)
        yield PeakRow(what, float(f"{value:.12g}"), unit, peak.speed, corrected)


def _displacement(summary: Summary) -> float | None:
    """The first displacement of the whole engine, m3: from its nominal sizes where it has any."""
    for row in measured_rows(summary):
        system = system_of(DISPLACEMENT, row.unit)
        if row.measurand == "displacement" and system and (value := row.numbers[0].value):
            return float(f"{to_si(value, DISPLACEMENT, system):.9g}")
    return None


def _cylinders(data: Mapping[str, Any]) -> int:
    """How many cylinders the most complete of some readings has."""
    parts: dict[str, set[tuple[str, object]]] = {}
    for one in (*data["readings"], *data["results"]):
        part = one["part"]
        if one["measurand"] in _OF_EACH_CYLINDER and part["of"] == "cylinder" and part["number"]:
            parts.setdefault(one["measurand"], set()).add((part["bank"], part["number"]))
    return max(map(len, parts.values()), default=0)
