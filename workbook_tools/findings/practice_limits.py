"""Gross limits of clearances, from the bands of all uses."""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from workbook_tools.catalog.tables import current
from workbook_tools.findings.evidence import Size
from workbook_tools.jobs.records import Reading
from workbook_tools.quantities import System

# The bands of all uses must be passed by so much before a result is doubted.
BELOW, ABOVE = 0.4, 1.25
# Coated skirts measure up to this much over the bore, per unit of bore (common practice, no
# source): a small negative clearance on paper is no fault.
COATING = -0.0003


class Step(NamedTuple):
    """What a size may be out by (SI), in words; of: whose size, "" for any."""

    size: float
    words: str
    of: str = ""


# One turn of what it was read with, and undersizes of shells.
STEPS: dict[System, tuple[Step, ...]] = {
    "inch": (
        Step(0.025 * 0.0254, "a size was read one turn of the micrometer out (0.025 in)"),
        Step(0.100 * 0.0254, "a size was read one turn of the caliper out (0.100 in)"),
        Step(0.010 * 0.0254, "the shells are of the next undersize (0.010 in)", "journal"),
    ),
    "metric": (
        Step(0.5e-3, "a size was read one turn of the micrometer out (0.5 mm)"),
        Step(0.25e-3, "the shells are of the next undersize (0.25 mm)", "journal"),
    ),
}


class Usual(NamedTuple):
    """Where the gross limits of a result come from.

    table: of the bands; size: whose size they go with, "" for none and then no upper limit;
    words: what the result is; least: the lower limit per unit of the size where that of the
    table does not hold, or None; below: the part of the table's least that is still usual.
    """

    table: str
    size: str
    words: str
    least: float | None = None
    below: float = BELOW
    may_step: bool = True

    def limits(self, size: float) -> tuple[float, float]:
        """The gross limits for a size, in SI: from the bands of all uses, widened."""
        low, high = current().outermost(self.table, size)
        least = low * self.below if self.least is None else self.least * size
        return least, high * ABOVE if self.size else math.inf


PISTON = Usual("piston clearance factor", "bore", "a piston clearance", COATING)
BEARING = Usual("bearing clearance factor", "journal", "a bearing clearance")
QUENCH = Usual("quench", "", "a cold quench", below=0.75, may_step=False)
GAP = Usual("ring gap factor", "bore", "a ring gap", may_step=False)
# By the function that gives the result.
USUAL = {
    "PISTON_CLEARANCE": PISTON,
    "BEARING_CLEARANCE": BEARING,
    "BEARING_CLEARANCE_FROM_BORE": BEARING,
    "RING_GAP": GAP,
    "QUENCH": QUENCH,
}


# What is machined to fit a part that is bought.
_MACHINED = re.compile(r"bore|\w+_journal")


def may_be_older(one: Reading | Size, other: Reading | Size) -> bool:
    """Whether a size may be from before the work after which the other was fitted to it."""
    says_nothing = one.stage == "" and other.stage == "final"
    return says_nothing and _MACHINED.fullmatch(one.measurand) is not None
