"""The geometry of one-line strips: all positions of a row on one scale, the band in its middle.

Bands of all rows begin and end at the same place, so that rows with different units compare.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from workbook_tools.summary.bands import Band

# The box that a strip is drawn in, and where the least and the most of a band stand in it.
WIDTH, HEIGHT = 100.0, 16.0
LEAST_AT, MOST_AT = 25.0, 75.0
_MARGIN = 4.0
# Where the reading that is farthest from an only limit stands, by the distance from that limit.
_REACH = 45.0


class Mark(NamedTuple):
    """One position's mark, from the left and the top of the box.

    shape: "ok", "low", "high", or "open" for one that nobody judged; beyond: it lies further
    out than the strip reaches, and stands at its edge.
    """

    position: str
    across: float
    down: float
    shape: str
    beyond: bool


class ScaleStrip(NamedTuple):
    """A row's strip: its marks, the band from edge to edge, and the edges that are limits."""

    marks: tuple[Mark, ...]
    band: tuple[float, float] | None
    edges: tuple[float, ...]


def scale_strip(
    positions: Sequence[str],
    values: Sequence[float | None],
    bands: Sequence[Band | None],
    least_span: float,
) -> ScaleStrip | None:
    """The strip of a row, None where it has no number.

    Each number is set against its own band. least_span: the least difference that a strip
    without a band stands for in its middle half. Raises nothing.
    """
    measured = [v for v in values if v is not None and math.isfinite(v)]
    if not measured:
        return None
    least, most = min(measured), max(measured)
    stated = [band for band in bands if band is not None and band.stated]
    marks = []
    for n, (position, value) in enumerate(zip(positions, values, strict=True)):
        if value is None or not math.isfinite(value):
            continue
        band = bands[n]
        own = band if band is not None and band.stated else None
        across = _across(value, own, least, most, least_span)
        kept = min(max(across, _MARGIN), WIDTH - _MARGIN)
        marks.append(
            Mark(position, _rounded(kept), _down(n, len(values)), _shape(band), kept != across)
        )
    edges = _edges(stated)
    band_at = None
    if edges:
        open_low = all(b.low is None for b in stated)
        open_high = all(b.high is None for b in stated)
        band_at = (0.0 if open_low else edges[0], WIDTH if open_high else edges[-1])
    return ScaleStrip(tuple(marks), band_at, edges)


def _shape(band: Band | None) -> str:
    return (band.verdict if band is not None else "") or "open"


def _edges(stated: Sequence[Band]) -> tuple[float, ...]:
    low = LEAST_AT if any(b.low is not None for b in stated) else None
    high = MOST_AT if any(b.high is not None for b in stated) else None
    return tuple(edge for edge in (low, high) if edge is not None)


def _across(value: float, band: Band | None, least: float, most: float, least_span: float) -> float:
    """How far from the left a value stands; least, most: of all that are measured."""
    low, high = (band.low, band.high) if band is not None else (None, None)
    if low is not None and high is not None and high > low:
        return LEAST_AT + (MOST_AT - LEAST_AT) * (value - low) / (high - low)
    limit = high if high is not None else low
    if limit is not None:
        edge = MOST_AT if high is not None else LEAST_AT
        farthest = max(abs(least - limit), abs(most - limit))
        return edge + _REACH * (value - limit) / farthest if farthest else edge
    middle = (most + least) / 2
    span = max(most - least, least_span, abs(middle) * 1e-9)
    return WIDTH / 2 + (MOST_AT - LEAST_AT) * (value - middle) / span


def _down(n: int, count: int) -> float:
    """How far from the top the nth of so many positions stands: the first is the highest."""
    if count == 1:
        return HEIGHT / 2
    return _rounded(_MARGIN / 2 + (HEIGHT - _MARGIN) * n / (count - 1))


def _rounded(length: float) -> float:
    return round(length, 1)
