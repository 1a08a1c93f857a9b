"""Gross limits of clearances, from the bands of common practice over all uses."""

from __future__ import annotations

from typing import NamedTuple

from workbook_tools.catalog.tables import current
from workbook_tools.quantities import System

# A band of common practice must be passed this many times over before it is doubted.
BELOW, ABOVE = 0.4, 1.6
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
    """Gross limits of a result, per unit of a size (or absolute where size is "")."""

    size: str
    low: float
    high: float
    words: str
    may_step: bool = True


def spread_of_table(table: str) -> tuple[float, float]:
    """The least and the most of a table of bands, over all uses."""
    bands = [b for (name, _), b in current().bands.items() if name == table]
    lows = [b.low for b in bands if b.low is not None]
    highs = [b.high for b in bands if b.high is not None]
    return min(lows), max(highs)


def usual_piston() -> Usual:
    """Clearance of a piston, per unit of its bore."""
    _, high = spread_of_table("piston clearance factor")
    return Usual("bore", COATING, high * ABOVE, "a piston clearance")


def usual_bearing() -> Usual:
    """Clearance of a bearing, per unit of its journal."""
    low, high = spread_of_table("bearing clearance factor")
    return Usual("journal", low * BELOW, high * ABOVE, "a bearing clearance")
