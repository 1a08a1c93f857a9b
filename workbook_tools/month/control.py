"""Whether a fit drifts from build to build: an individuals chart after ISO 7870-2."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Literal

# ISO 7870-2:2013, chart of individuals with moving ranges of two: limits lie 3/d2 = 2.660 mean
# moving ranges from the mean, d2 = 1.128. From memory; the tests work it out another way.
LIMIT_FACTOR = 2.660
# The same standard wants limits from 20 points or more. From memory.
FEWEST_FOR_LIMITS = 20
# Nine points on one side of the mean, or seven that rise or fall, are a sign of a change. Nine is
# the rule of its predecessor, ISO 8258:1991 (from memory); seven on one side, which the standard
# names too, come about by chance in every few series of two dozen builds.
ON_ONE_SIDE = 9
IN_A_ROW = 7

SignKind = Literal["outside", "above", "below", "rising", "falling"]


@dataclass(frozen=True)
class Sign:
    """Points that chance alone does not explain: which, counted from 0, and what they do."""

    kind: SignKind
    points: tuple[int, ...]


@dataclass(frozen=True)
class Control:
    """Mean and limits of values in their order, limits None where there are too few of them."""

    mean: float
    low: float | None
    high: float | None
    signs: tuple[Sign, ...]


def control(values: Sequence[float]) -> Control:
    """The chart of one value a build, in the order in which the builds were finished.

    Limits are the mean and 2.66 times the mean moving range to both sides, of 20 values or
    more that are not all alike. Raises ValueError where there is no value.
    """
    if not values:
        raise ValueError("values: expected one or more, got none")
    mean = math.fsum(values) / len(values)
    low = high = None
    if len(values) >= FEWEST_FOR_LIMITS:
        moving = math.fsum(abs(b - a) for a, b in pairwise(values)) / (len(values) - 1)
        if moving > 0:
            low, high = mean - LIMIT_FACTOR * moving, mean + LIMIT_FACTOR * moving
    return Control(mean, low, high, tuple(_signs(values, mean, low, high)))


def _signs(
    values: Sequence[float], mean: float, low: float | None, high: float | None
) -> Iterator[Sign]:
    if low is not None and high is not None:
        beyond = tuple(n for n, value in enumerate(values) if not low <= value <= high)
        if beyond:
            yield Sign("outside", beyond)
    # Noise of the arithmetic must not put equal values on either side of their mean.
    near = 1e-9 * max(abs(value) for value in values)
    sides = [0 if abs(value - mean) <= near else 1 if value > mean else -1 for value in values]
    steps = [0 if abs(b - a) <= near else 1 if b > a else -1 for a, b in pairwise(values)]
    for begin, end, side in _runs(sides):
        if side and end - begin >= ON_ONE_SIDE:
            yield Sign("above" if side > 0 else "below", tuple(range(begin, end)))
    for begin, end, step in _runs(steps):
        if step and end - begin >= IN_A_ROW - 1:
            yield Sign("rising" if step > 0 else "falling", tuple(range(begin, end + 1)))


def _runs(signs: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """(first, one past the last, value) of each stretch of equal values."""
    at = 0
    for value, same in groupby(signs):
        count = len(list(same))
        yield at, at + count, value
        at += count
