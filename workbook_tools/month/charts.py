"""Charts of the fits: small multiples, one panel an engine kind, on one scale for each fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from workbook_tools.month.fit_points import FitSeries

# A panel, in points of a print.
WIDTH, HEIGHT = 176.0, 112.0
LEFT, RIGHT, TOP, BOTTOM = 42.0, 8.0, 25.0, 17.0
# As many panels as fill two sheets; the table of fits has all.
MOST_PANELS = 24
_MOST_OF_A_FIT = 8
# Builds that still stand apart in a panel; of more, several that follow on one another are one
# mark.
MOST_MARKS = 300
_FEWEST_BUILDS = 2
# From a value to its height in a panel.
Scale = Callable[[float], float]
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True)
class Tick:
    """A value of the scale and where it stands."""

    y: float
    text: str


@dataclass(frozen=True)
class Mark:
    """One build: its least, mean and largest reading from top to bottom of the panel.

    Of very many builds it is several that follow on one another: the least, the mean of the
    means and the largest of all. out: whether a reading is out of its band; odd: whether a
    build is one of those that chance alone does not explain.
    """

    x: float
    largest: float
    mean: float
    least: float
    out: bool
    odd: bool


@dataclass(frozen=True)
class Panel:
    """One fit of one engine kind, build after build; center, low, high: of the builds' means."""

    title: str
    kind: str
    builds: str
    told: str
    ticks: tuple[Tick, ...]
    marks: tuple[Mark, ...]
    center: float
    low: float | None
    high: float | None
    first: str
    last: str

    @property
    def size(self) -> float:
        """How large marks are, from 1 down, so that those of many builds stand apart."""
        return round(max(0.3, min(1.0, 30.0 / len(self.marks))), 2)

    @property
    def dot(self) -> float:
        """The radius of a dot."""
        return round(1.7 * self.size, 2)

    @property
    def ring(self) -> float:
        """The radius of a ring around a dot."""
        return round(3.6 * self.size, 2)

    @property
    def line(self) -> str:
        """The means as the points of a line."""
        return " ".join(f"{mark.x:.2f},{mark.mean:.2f}" for mark in self.marks)


@dataclass(frozen=True)
class Figure:
    """The panels of one fit, which share a scale: from, to, in steps; series: what
    they are drawn from.
    """

    title: str
    panels: tuple[Panel, ...]
    series: tuple[FitSeries, ...]
    scale: tuple[float, float, float]


def figures(series: Sequence[FitSeries]) -> tuple[Figure, ...]:
    """The fits worth a chart, in the order of the series.

    Two builds of one kind with readings that differ are the fewest. Where there are more panels
    than two sheets hold, fits with something to look at come first, then those of most builds.
    """
    drawn = [one for one in series if len(one.points) >= _FEWEST_BUILDS and _varies(one)]
    by_fit: dict[str, list[FitSeries]] = {}
    for one in drawn:
        by_fit.setdefault(one.fit, []).append(one)
    for fit, some in by_fit.items():
        most = sorted(some, key=lambda s: (not s.noticed, -len(s.points)))[:_MOST_OF_A_FIT]
        by_fit[fit] = [one for one in some if one in most]
    wanted: list[str] = []
    room = MOST_PANELS
    for fit in sorted(by_fit, key=lambda name: _interest(by_fit[name])):
        if len(by_fit[fit]) <= room:
            wanted.append(fit)
            room -= len(by_fit[fit])
    return tuple(_figure(by_fit[fit]) for fit in by_fit if fit in wanted)


def _varies(one: FitSeries) -> bool:
    return one.largest.point.largest - one.least.point.least > 0.5 * 10.0**-one.digits


def _interest(series: Sequence[FitSeries]) -> tuple[bool, bool, int]:
    """What sorts the fits to look at first."""
    return (
        not any(one.noticed for one in series),
        not any(one.outside for one in series),
        -sum(len(one.points) for one in series),
    )


def _figure(series: Sequence[FitSeries]) -> Figure:
    about = series[0]
    ends = [e for one in series for e in _ends(one)]
    digits = max(one.digits for one in series)
    ticks = scale(min(ends), max(ends), digits)
    low, high = min(ticks[0], *ends), max(ticks[-1], *ends)

    def y(value: float) -> float:
        share = (value - low) / (high - low)
        return round(HEIGHT - BOTTOM - share * (HEIGHT - TOP - BOTTOM), 2)

    title = f"{about.fit}, {about.unit}" if about.unit else about.fit
    shown = tuple(Tick(y(tick), f"{tick:.{_needed(ticks, digits)}f}") for tick in ticks)
    panels = tuple(_panel(title, one, shown, y) for one in series)
    return Figure(title, panels, tuple(series), (low, high, ticks[1] - ticks[0]))


def _ends(one: FitSeries) -> list[float]:
    limits = [limit for limit in (one.control.low, one.control.high) if limit is not None]
    return [one.least.point.least, one.largest.point.largest, *limits]


def _needed(ticks: Sequence[float], digits: int) -> int:
    """The fewest decimals that tell the ticks apart as they are."""
    return next(n for n in range(digits + 2) if n > digits or _exact(ticks, n))


def _exact(ticks: Sequence[float], digits: int) -> bool:
    return all(math.isclose(round(t, digits), t, rel_tol=0, abs_tol=1e-9) for t in ticks)


def scale(low: float, high: float, digits: int) -> tuple[float, ...]:
    """Three to five round values that reach from one to another.

    digits: decimals of a reading; the steps are no finer. Raises nothing.
    """
    finest = 10.0**-digits
    span = max(high - low, finest)
    power = 10.0 ** math.floor(math.log10(span / 3))
    step = next(s * power for s in _STEPS if s * power * 3.0 >= span * 0.999)
    step = max(step, finest)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    last = max(last, first + 1)
    return tuple(round(n * step, 12) for n in range(first, last + 1))


def _panel(title: str, one: FitSeries, ticks: tuple[Tick, ...], y: Scale) -> Panel:
    odd = {n for sign in one.control.signs for n in sign.points}
    room = WIDTH - LEFT - RIGHT
    count = len(one.points)
    together = math.ceil(count / MOST_MARKS)
    marks = tuple(
        Mark(
            x=round(LEFT + room * (first + 0.5 * len(some)) / count, 2),
            largest=y(max(placed.point.largest for placed in some)),
            mean=y(math.fsum(placed.point.mean for placed in some) / len(some)),
            least=y(min(placed.point.least for placed in some)),
            out=any(placed.point.outside for placed in some),
            odd=not odd.isdisjoint(range(first, first + len(some))),
        )
        for first in range(0, count, together)
        for some in (one.points[first : first + together],)
    )
    chart = one.control
    first, last = one.points[0], one.points[-1]
    digits = one.digits
    told = (
        f"{one.fit}, {one.kind}: {count} builds, mean {one.mean:.{digits + 1}f}, from "
        f"{one.least.point.least:.{digits}f} to {one.largest.point.largest:.{digits}f} {one.unit}"
    )
    return Panel(
        title=title,
        kind=one.kind,
        builds=f"{count} builds" + (f", {together} a mark" if together > 1 else ""),
        told="; ".join(filter(None, (told.strip(), one.noticed))),
        ticks=ticks,
        marks=marks,
        center=y(chart.mean),
        low=None if chart.low is None else y(chart.low),
        high=None if chart.high is None else y(chart.high),
        first=first.day,
        last=last.day if last.day != first.day else "",
    )
