"""A temperature typed where a call takes a temperature rise: 190 where 120 is meant."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence, Taken, measurand_taken, usual_range
from workbook_tools.findings.finding import Finding, call_of, named, shown, words_of
from workbook_tools.formulas.references import Place
from workbook_tools.quantities import TEMPERATURE_RISE

_TEMPERATURE = re.compile(
    r"\btemp(?:s|eratures?|eraturas?)?\b|\btempérature|temperatur(?:en)?\b", re.IGNORECASE
)
_RISE = re.compile(
    r"\bris(?:e|es|ing)\b|\bover\b|\babove\b|\bincrease|\bdiff|\bdelta\b|\bchange|\bextra\b"
    r"|\bwarm-? ?(?:up|er|ing)\b|\bhotter\b|Δ|∆|\bd ?t\b|\bgain"
    r"|anstieg|zunahme|erwärmung|differenz|unterschied"
    r"|élévation|échauffement|écart|augmentation|aumento|incremento|salto",
    re.IGNORECASE,
)
# Where parts are measured, 20 deg C or 68 deg F; what a warm engine is above it at most.
_SHOP = {"inch": 68.0, "metric": 20.0}


def check_temperature_rises(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each cell that a call takes as a rise and that looks like a temperature."""
    told: set[Place] = set()
    for taken in evidence.taken:
        if taken.parameter.kind is not TEMPERATURE_RISE or taken.place in told or not taken.number:
            continue
        why = _why(taken)
        if why:
            told.add(taken.place)
            yield _finding(taken, why)


def _why(taken: Taken) -> str:
    """Why a number is doubted as a rise, "" where it is not."""
    words = words_of(taken.argument.label)
    if _TEMPERATURE.search(words) and not _RISE.search(words):
        return "its label says a temperature and no rise"
    usual = usual_range(measurand_taken(taken.parameter))
    if usual is None or taken.si <= usual[1]:
        return ""
    rise = taken.si * (taken.number - _SHOP[taken.record.system]) / taken.number
    return "that is much for a rise" if rise <= usual[1] else ""


def _finding(taken: Taken, why: str) -> Finding:
    argument, record = taken.argument, taken.record
    shop = _SHOP[record.system]
    number = float(f"{taken.number:.6g}")
    rise = (
        f" From a shop at {shown(shop, argument.unit)} it would be a rise of "
        f"{shown(number - shop, argument.unit)}."
        if number > shop
        else ""
    )
    return Finding(
        "temperature-for-rise",
        taken.place,
        f"{named(argument.label, taken.place)} is {shown(number, argument.unit)}, but "
        f"{call_of(record)} takes it as a temperature rise: {why}.{rise}",
        "Enter by how much the part warms up from the temperature at which it was measured, and "
        "say rise in the label.",
        (record.place,) if record.place.address and record.place != taken.place else (),
        explains=frozenset({taken.place}),
    )
