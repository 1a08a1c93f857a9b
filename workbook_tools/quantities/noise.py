"""Where a result ends: 0.0041, where the arithmetic of doubles came to 0.00409999999999933."""

from __future__ import annotations

# A result that is the same to both of these numbers of digits ends there: what lies behind is
# the noise of sums of doubles.
LAST, NOISE = 9, 12


def ended(value: float) -> float:
    """A number as a cell is to hold it: without the noise of its arithmetic."""
    short = float(f"{value:.{NOISE}g}")
    return short if short == float(f"{value:.{LAST}g}") else value
