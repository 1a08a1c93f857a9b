"""Fits that a month is told by: which row of a summary tells each, and its numbers in one unit."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from typing import NamedTuple

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands import Measurand, find
from workbook_tools.quantities import SYSTEMS, Kind, System, from_si, to_si
from workbook_tools.summary.key_facts import facts, is_of_the_engine, worth
from workbook_tools.summary.rows import Number, Row
from workbook_tools.summary.summary import Summary


class FitRow(NamedTuple):
    """One number of a fit: at which position, in unit, and whether it is outside its band."""

    fit: str
    position: str
    value: float
    unit: str
    outside: bool
    digits: int


@cache
def fit_measurands() -> tuple[Measurand, ...]:
    """The measurands that are fits, in the order of the work on an engine.

    Raises ValueError where the list names one that the table does not have.
    """
    text = resources.files(__package__ or "").joinpath("month_fits.toml").read_text("utf-8")
    found = [(name, find(name)) for name in own_toml(text)["fits"]]
    unknown = [name for name, measurand in found if measurand is None]
    if unknown:
        raise ValueError(f"month_fits.toml: no such measurands: {unknown}")
    return tuple(measurand for _, measurand in found if measurand)


def month_fits(summary: Summary, units: System) -> tuple[list[FitRow], list[tuple[str, str]]]:
    """Every number of every fit of a build, in one unit; and (fit, why) where that is not told.

    units: that the fits are told in, whatever those of the book. Of several rows that tell
    one fit the one with most told apart, judged and calculated is taken. Raises nothing.
    """
    rows = measured_rows(summary)
    fits: list[FitRow] = []
    odd: list[tuple[str, str]] = []
    for measurand in fit_measurands():
        told = [row for row in rows if row.measurand == measurand.id]
        told = told or [row for row in rows if not row.measurand and _by_words(measurand, row)]
        if not told:
            continue
        row = max(told, key=worth)
        system = system_of(measurand.kind, row.unit)
        if system is None:
            why = f"the unit {row.unit!r} is none of a {measurand.kind.name}"
            why = why if row.unit else "the book does not tell its unit"
            odd.append((f"{measurand.name} ({row.cells})", why))
            continue
        fits += _numbers(measurand, row, system, units)
    return fits, odd


def measured_rows(summary: Summary) -> list[Row]:
    """Every row with a number that tells of the engine as it is. Raises nothing."""
    rows = (row for part in (*summary.sections, *summary.readings) for row in part.rows)
    return [row for row in rows if row.measured and is_of_the_engine(row)]


@cache
def _words() -> Mapping[str, str]:
    return {name: fact.words for fact in facts() if fact.words for name in fact.measurands}


def _by_words(measurand: Measurand, row: Row) -> bool:
    words = _words().get(measurand.id)
    return words is not None and re.match(words, row.label, re.IGNORECASE) is not None


def _numbers(measurand: Measurand, row: Row, system: System, units: System) -> Iterator[FitRow]:
    unit = measurand.bare_unit(units)
    for number in row.numbers:
        if number.value is None:
            continue
        value = number.value
        if measurand.kind.has_units:
            value = from_si(to_si(value, measurand.kind, system), measurand.kind, units)
        # Without the last digits that arithmetic adds, so that equals are equal.
        told = float(f"{value:.12g}")
        yield FitRow(
            measurand.name, number.position, told, unit, _is_out(number),
            measurand.shown_digits(units),
        )  # fmt: skip


def _is_out(number: Number) -> bool:
    return number.verdict in ("low", "high")


def system_of(kind: Kind, unit: str) -> System | None:
    """The system that a number in this unit is of, None where the unit is none of its kind."""
    if not kind.has_units:
        return "inch"
    return next((s for s in SYSTEMS if kind.unit(s) == unit), None)
