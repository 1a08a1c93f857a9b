"""How siblings scatter: their middle, and a spread that one of them far out does not move."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median

# The median distance from the median, scaled so that it is the standard deviation of readings
# that scatter normally.
_NORMAL = 1.4826


def center_and_spread(values: Sequence[float]) -> tuple[float, float]:
    """The median and a robust spread, widened for few values; 0 where most are equal."""
    center = median(values)
    spread = _NORMAL * median([abs(v - center) for v in values])
    return center, spread * (1 + 2 / len(values))
