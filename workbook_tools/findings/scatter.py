"""How siblings scatter: their middle, a spread that one far out does not move; what need not."""

from __future__ import annotations

import re
from collections.abc import Sequence
from statistics import median

# The median distance from the median, scaled so that it is the standard deviation of readings
# that scatter normally.
_NORMAL = 1.4826
# What each part has of its own, and what is chosen for each.
OWN = re.compile(
    r"runout|out_of_round|taper|choke|flatness|tilt|bend|twist|finish|_at_|shim|preload|reading"
)


def center_and_spread(values: Sequence[float]) -> tuple[float, float]:
    """The median and a robust spread, widened for few values; 0 where most are equal."""
    center = median(values)
    spread = _NORMAL * median([abs(v - center) for v in values])
    return center, spread * (1 + 2 / len(values))
