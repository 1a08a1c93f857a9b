"""Typed totals of weighed parts that do not add up, where one slip of the hand explains it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.books.places import order_of
from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import MOST_ALSO, Finding, named
from workbook_tools.findings.slips import digits_exchanged
from workbook_tools.jobs.records import Reading
from workbook_tools.jobs.resolution import resolution
from workbook_tools.measurands import find
from workbook_tools.quantities import MASS

# A label that says no more than that something was added up.
_TOTAL = re.compile(
    r"(?:totals?|totale?|sum|summe|gesamt(?:gewicht)?|somme|suma|somma)"
    r"(?:\s+(?:weight|mass|gewicht|masse|poids|peso|grams?|g))?",
    re.IGNORECASE,
)
_FEWEST = 3
At = tuple[str, int, int]
Cells = Mapping[At, Reading]


def check_totals(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each typed total that the weights above or before it do not make.

    It is told only where a weight left out, two digits exchanged or one digit misread explains it:
    what a shop counts twice or by halves is its own affair.
    """
    totals = [r for r in evidence.readings if not r.uses and not r.measurand and _is_total(r)]
    if not totals:
        return
    cells = {order_of(r.place): r for r in evidence.readings if r.value is not None}
    for total in totals:
        runs = [_run(cells, order_of(total.place), step) for step in ((-1, 0), (0, -1))]
        runs = [run for run in runs if len(run) >= _FEWEST and all(map(_is_weighed, run))]
        if any(_adds_up(total, run) for run in runs):
            continue
        for run in runs:
            if why := _slip(total, run):
                yield _finding(total, run, why)
                break


def _is_total(reading: Reading) -> bool:
    return reading.label is not None and bool(_TOTAL.fullmatch(reading.label.text.strip(" :")))


def _is_weighed(reading: Reading) -> bool:
    term = find(reading.measurand)
    return term is not None and term.kind is MASS


def _run(cells: Cells, at: At, step: tuple[int, int]) -> Sequence[Reading]:
    """The typed numbers before a cell, up to the first that is none."""
    found = []
    while one := cells.get(at := (at[0], at[1] + step[0], at[2] + step[1])):
        found.append(one)
    return found[::-1]


def _adds_up(total: Reading, run: Sequence[Reading]) -> bool:
    # What was weighed to a tenth may be added up to whole grams.
    last_digit = 10.0 ** -len(f"{total.number:.6g}".partition(".")[2])
    return abs(total.number - _sum(run)) <= last_digit * 1.01


def _sum(run: Sequence[Reading]) -> float:
    return math.fsum(r.number for r in run)


def _slip(total: Reading, run: Sequence[Reading]) -> str:
    """Which one slip would explain that a total is not the sum, "" where none would."""
    step, whole = resolution([r.number for r in (total, *run)]), _sum(run)
    for one in run:
        if abs(whole - one.number - total.number) <= step / 2 and one.number > step:
            return f"it leaves out {named(one.label, one.place)}, {one.shown}"
    same = [n for n in digits_exchanged(total.number) if abs(n - whole) <= step / 2]
    if same:
        return "two of its digits are exchanged"
    written, made = f"{total.number:.6g}", f"{whole:.6g}"
    apart = sum(a != b for a, b in zip(written, made, strict=False))
    return "one digit is another" if len(written) == len(made) and apart == 1 else ""


def _finding(total: Reading, run: Sequence[Reading], why: str) -> Finding:
    here = frozenset({total.place})
    return Finding(
        "total-not-sum",
        total.place,
        f"{named(total.label, total.place)} is {total.number:.6g}; {run[0].place.address} to "
        f"{run[-1].place.address} make {_sum(run):.6g}: {why}.",
        "Weigh again what is in doubt, and let a formula add it up.",
        tuple(r.place for r in run[:MOST_ALSO]),
        explains=here,
        rests_on=here,
    )
