"""The geometry of strips: where each reading stands against its band, ready to draw."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import NamedTuple

from workbook_tools.summary.bands import Band

# Pixels from the lowest to the highest value that a strip shows, and the clear space that a
# mark needs above and below.
LENGTH = 38.0
MARGIN = 6.0
# Share of the band's width that is shown outside it on either side.
SURROUNDINGS = 0.45


class Gauge(NamedTuple):
    """One reading's place in its strip, in pixels from the top.

    shape: "ok", "low", "high", or "open" for a reading that nobody judged, "none" where
    there is no reading; mark: the middle of the shape; beyond: the reading lies further out
    than the strip reaches, so the mark stands at its edge; top, height: of the band; edges:
    the band's limits, an open side has none.
    """

    shape: str
    mark: str
    beyond: bool
    top: str
    height: str
    edges: tuple[str, ...]


def gauges(
    values: Sequence[float | None], bands: Sequence[Band | None], least_span: float
) -> tuple[Gauge, ...]:
    """One gauge for each reading, all to one scale.

    least_span: the least difference that the strip's whole height stands for where no band
    sets the scale, so that readings alike to the last digit look alike. Raises nothing.
    """
    low, high = _scale(values, [band for band in bands if band is not None], least_span)
    return tuple(_gauge(v, b, low, high) for v, b in zip(values, bands, strict=True))


def _scale(
    values: Sequence[float | None], bands: Sequence[Band], least_span: float
) -> tuple[float, float]:
    """The lowest and highest value shown."""
    measured = [v for v in values if v is not None]
    limits = [x for b in bands for x in (b.low, b.high) if x is not None]
    if limits and max(limits) > min(limits):
        room = SURROUNDINGS * (max(limits) - min(limits))
        return min(limits) - room, max(limits) + room
    # One limit, or none: the readings themselves set the scale.
    shown = measured + limits or [0.0]
    middle = (max(shown) + min(shown)) / 2
    # The last term keeps numbers of any size from a scale of no height.
    reach = max(0.6 * (max(shown) - min(shown)), least_span / 2, abs(middle) * 1e-9)
    return middle - reach, middle + reach


def _gauge(value: float | None, band: Band | None, low: float, high: float) -> Gauge:
    def down(at: float) -> float:
        share = (high - at) / (high - low)
        return MARGIN + LENGTH * min(max(share, 0.0), 1.0)

    top, height = "", ""
    edges: list[str] = []
    if band is not None and band.stated:
        upper = 0.0 if band.high is None else down(band.high)
        lower = LENGTH + 2 * MARGIN if band.low is None else down(band.low)
        top, height = _pixels(upper), _pixels(lower - upper)
        edges = [_pixels(down(x)) for x in (band.high, band.low) if x is not None]
    if value is None or not math.isfinite(value):
        return Gauge("none", _pixels(MARGIN + LENGTH / 2), False, top, height, tuple(edges))
    shape = (band.verdict if band else "") or "open"
    outside = value < low or value > high
    return Gauge(shape, _pixels(down(value)), outside, top, height, tuple(edges))


def _pixels(length: float) -> str:
    return f"{length:.1f}".removesuffix(".0")


def short_position(position: str) -> str:
    """A position where there is room for a few letters: "Cyl 3" is "3", "Front" "Front"."""
    number = re.fullmatch(r"\D*?([A-Za-z]?\d+)", position.strip())
    return number[1] if number else position.strip()[:6]
