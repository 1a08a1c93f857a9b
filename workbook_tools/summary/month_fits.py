"""Fits that a month is told by: which row of a summary tells each, and its numbers in one unit."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib import resources
from typing import NamedTuple

from workbook_tools.measurands import Measurand, find
from workbook_tools.quantities import SYSTEMS, Kind, System, from_si, to_si
from workbook_tools.summary.fits import FITS, Fit, worth
from workbook_tools.summary.rows import Number, Row
from workbook_tools.summary.summary import Summary

# What a cell is known as: its measurand, and the stage at which it was taken.
_Known = Mapping[tuple[str, str], tuple[str, str]]
# A number of another state of the engine, or of what is wanted, is no fit of it.
_STAGES = ("", "final", "machined")


class FitRow(NamedTuple):
    """One number of a fit: at which position, in unit, and whether it is outside its band."""

    fit: str
    position: str
    value: float
    unit: str
    outside: bool
    digits: int


@cache
def _data() -> Mapping[str, Sequence[str]]:
    file = resources.files("workbook_tools.summary").joinpath("month_fits.toml")
    return tomllib.loads(file.read_text("utf-8"))


@cache
def fit_measurands() -> tuple[Measurand, ...]:
    """The measurands that are fits, in the order of the work on an engine.

    Raises ValueError where the list names one that the table does not have.
    """
    found = [(name, find(name)) for name in _data()["fits"]]
    unknown = [name for name, measurand in found if measurand is None]
    if unknown:
        raise ValueError(f"month_fits.toml: no such measurands: {unknown}")
    return tuple(measurand for _, measurand in found if measurand)


def month_fits(summary: Summary, units: System) -> tuple[list[FitRow], list[tuple[str, str]]]:
    """Every number of every fit of a build, in one unit; and (fit, why) where that is not told.

    units: that the fits are told in, whatever those of the book. Of several rows that tell
    one fit the one with most told apart, judged and calculated is taken. Raises nothing.
    """
    named = named_rows(summary)
    fits: list[FitRow] = []
    odd: list[tuple[str, str]] = []
    for measurand in fit_measurands():
        told = [row for name, row in named if name == measurand.id]
        told = told or [row for name, row in named if not name and _by_words(measurand, row)]
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


def named_rows(summary: Summary) -> list[tuple[str, Row]]:
    """(measurand, row) of every row with a number that tells of the engine as it is.

    measurand: "" where nothing says what its numbers measure. Raises nothing.
    """
    rows = [row for part in (*summary.sections, *summary.readings) for row in part.rows]
    known = _known(summary)
    return [(_measurand(r, known), r) for r in rows if r.measured and not _is_wanted(r)]


def _is_wanted(row: Row) -> bool:
    return row.function.removeprefix("ENG.") in _data()["wanted"]


def _known(summary: Summary) -> _Known:
    told = (*summary.data["readings"], *summary.data["results"])
    return {(one["sheet"], one["cell"]): (one["measurand"], one["stage"]) for one in told}


def _measurand(row: Row, known: _Known) -> str:
    """What all the numbers of a row measure, "" where nothing says it or they differ."""
    found = {known.get((n.place.sheet, n.place.address), ("", "")) for n in row.numbers}
    if len({measurand for measurand, _ in found}) != 1:
        return ""
    measurand, _ = next(iter(found))
    if all(stage in _STAGES for _, stage in found):
        return measurand
    # Something else than what its words would make of it.
    return f"{measurand}, wanted"


@cache
def _words() -> Mapping[str, Fit]:
    return {fit.measurand: fit for fit in FITS if fit.measurand}


def _by_words(measurand: Measurand, row: Row) -> bool:
    fit = _words().get(measurand.id)
    return fit is not None and fit.takes(row)


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
