"""Fits of many builds: one point a build, and what the builds of one engine kind come to."""

from __future__ import annotations

import math
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from workbook_tools.month.control import Control, Sign, control
from workbook_tools.summary.month_fits import FitRow


class FitPoint(NamedTuple):
    """All readings of one fit of one build, in the fewest numbers that still tell its spread.

    squares: the sum of the squared distances from the mean; least_at, largest_at: positions;
    outside: how many are out of their band.
    """

    fit: str
    unit: str
    digits: int
    readings: int
    mean: float
    squares: float
    least: float
    least_at: str
    largest: float
    largest_at: str
    outside: int


def fit_points(fits: Sequence[FitRow]) -> tuple[FitPoint, ...]:
    """One point for each fit of a build, in their order."""
    by_fit: dict[str, list[FitRow]] = {}
    for row in fits:
        by_fit.setdefault(row.fit, []).append(row)
    return tuple(_point(rows) for rows in by_fit.values())


def _point(rows: Sequence[FitRow]) -> FitPoint:
    values = [row.value for row in rows]
    mean = math.fsum(values) / len(values)
    least, largest = min(rows, key=lambda r: r.value), max(rows, key=lambda r: r.value)
    # Texts that all builds of a month have in common stand in memory once.
    return FitPoint(
        fit=sys.intern(rows[0].fit),
        unit=sys.intern(rows[0].unit),
        digits=rows[0].digits,
        readings=len(rows),
        mean=mean,
        squares=math.fsum((value - mean) ** 2 for value in values),
        least=least.value,
        least_at=sys.intern(least.position),
        largest=largest.value,
        largest_at=sys.intern(largest.position),
        outside=sum(row.outside for row in rows),
    )


class Placed(NamedTuple):
    """A point with the build that it is of, by its job and its number among the builds."""

    job: str
    at: int
    day: str
    point: FitPoint


@dataclass(frozen=True)
class FitSeries:
    """One fit of all builds of one engine kind, in the order in which they were finished."""

    fit: str
    kind: str
    points: tuple[Placed, ...]

    @cached_property
    def control(self) -> Control:
        """The individuals chart of the builds' means."""
        return control([placed.point.mean for placed in self.points])

    @property
    def unit(self) -> str:
        """The unit of all its numbers."""
        return self.points[0].point.unit

    @property
    def digits(self) -> int:
        """Decimals that a single reading of it is shown with."""
        return self.points[0].point.digits

    @property
    def readings(self) -> int:
        """How many readings there are in all."""
        return sum(placed.point.readings for placed in self.points)

    @property
    def mean(self) -> float:
        """The mean of all readings."""
        return math.fsum(p.point.mean * p.point.readings for p in self.points) / self.readings

    @property
    def deviation(self) -> float | None:
        """The sample's standard deviation of all readings; one reading has none."""
        if self.readings < 2:
            return None
        mean = self.mean
        squares = math.fsum(
            p.point.squares + p.point.readings * (p.point.mean - mean) ** 2 for p in self.points
        )
        return math.sqrt(squares / (self.readings - 1))

    @property
    def least(self) -> Placed:
        """The build with the smallest reading."""
        return min(self.points, key=lambda placed: placed.point.least)

    @property
    def largest(self) -> Placed:
        """The build with the largest reading."""
        return max(self.points, key=lambda placed: placed.point.largest)

    @property
    def outside(self) -> int:
        """How many readings are out of their band."""
        return sum(placed.point.outside for placed in self.points)

    @property
    def noticed(self) -> str:
        """What chance alone does not explain, in words, what still lasts first; "" for nothing."""
        last = len(self.points) - 1
        signs = sorted(
            self.control.signs, key=lambda sign: (sign.kind == "outside", sign.points[-1] != last)
        )
        return "; ".join(map(self._said, signs))

    def _said(self, sign: Sign) -> str:
        jobs = [self.points[n].job for n in sign.points]
        if sign.kind == "outside":
            many = len(jobs) > _MOST_NAMED
            return (
                f"{len(jobs)} beyond the limits"
                if many
                else f"beyond the limits: {', '.join(jobs)}"
            )
        since = sign.points[-1] == len(self.points) - 1
        when = f"since {jobs[0]}" if since else f"{jobs[0]} to {jobs[-1]}"
        if sign.kind in ("above", "below"):
            return f"{len(jobs)} in a row {sign.kind} the mean, {when}"
        return f"{sign.kind} over {len(jobs)} builds, {when}"


_MOST_NAMED = 3


def fit_series(placed: Iterable[tuple[str, Placed]], order: Sequence[str]) -> list[FitSeries]:
    """The series of each fit and engine kind.

    placed: (kind, point) of builds in the order in which they were finished; order: of fits.
    """
    found: dict[tuple[str, str], list[Placed]] = {}
    for kind, one in placed:
        found.setdefault((one.point.fit, kind), []).append(one)
    ranks = {name: n for n, name in enumerate(order)}
    keys = sorted(found, key=lambda key: (ranks[key[0]], key[1].casefold(), key[1]))
    return [FitSeries(fit, kind, tuple(found[fit, kind])) for fit, kind in keys]
