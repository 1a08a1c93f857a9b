"""What a month needs of a build, as plain data that outlives the book."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.quantities import SYSTEMS, System, from_si, to_si
from workbook_tools.summary.data_rows import Rows, finding_rows, reading_rows
from workbook_tools.summary.fits import Fit, key_fits, numbers_of
from workbook_tools.summary.summary import Summary

FitRow = tuple[str, str, float, str, bool, int]


@dataclass(frozen=True)
class MonthFacts:
    """Texts, counts and rows of a build's book, besides the job and its findings.

    promised, waiting: as the book has them; parts: (part, what the book says, sheet, cell);
    unsigned: (line, sheet, cell); fits: (fit, position, value, unit, whether it is outside its
    band, digits); odd_fits: (fit and its cells, why its unit is not known); findings: by
    FINDING_COLUMNS; readings: by READING_COLUMNS. Only numbers, texts, truth values and None
    are in them, so that they can be kept as JSON.
    """

    promised: str = ""
    waiting: str = ""
    part_lists: int = 0
    parts: Rows = ()
    signature_lines: int = 0
    unsigned: Rows = ()
    fits: tuple[FitRow, ...] = ()
    odd_fits: tuple[tuple[str, str], ...] = ()
    findings: Rows = ()
    readings: Rows = ()


def month_facts(summary: Summary, units: System) -> MonthFacts:
    """What a month needs of a build.

    units: that the fits are told in, whatever those of the book. Raises nothing.
    """
    office = summary.office
    fits, odd = _fits(summary, units)
    return MonthFacts(
        promised=office.promised.text,
        waiting=office.waiting.text,
        part_lists=office.part_lists,
        parts=tuple((p.part, p.said, p.place.sheet, p.place.address) for p in office.parts),
        signature_lines=len(summary.marks),
        unsigned=tuple(
            (str(mark.label), mark.place.sheet, mark.place.address)
            for mark in summary.marks
            if mark.state != "made"
        ),
        fits=tuple(fits),
        odd_fits=tuple(odd),
        findings=finding_rows(summary.data),
        readings=reading_rows(summary.data),
    )


def _fits(summary: Summary, units: System) -> tuple[list[FitRow], list[tuple[str, str]]]:
    """Every number of every key fit, in one unit; and the fits whose unit is not told."""
    fits: list[FitRow] = []
    odd: list[tuple[str, str]] = []
    for key in key_fits(summary):
        fit, row = key.fit, key.row
        system = _system(fit, row.unit)
        if system is None:
            why = f"the unit {row.unit!r} is none of a {fit.kind.name}"
            why = why if row.unit else "the book does not tell its unit"
            odd.append((f"{fit.name} ({row.cells})", why))
            continue
        outside = {n.position: n.verdict in ("low", "high") for n in row.numbers}
        unit, digits = fit.kind.unit(units), fit.digits(units)
        for position, value in numbers_of(key):
            told = from_si(to_si(value, fit.kind, system), fit.kind, units)
            # Without the last digits that arithmetic adds, so that equals are equal.
            told = float(f"{told:.12g}")
            fits.append((fit.name, position, told, unit, outside[position], digits))
    return fits, odd


def _system(fit: Fit, unit: str) -> System | None:
    """The system that a number in this unit is of, None where the unit is no unit of the fit."""
    if not fit.kind.has_units:
        return "inch"
    return next((s for s in SYSTEMS if fit.kind.unit(s) == unit), None)
