"""Raimondi and Boyd's table of the full journal bearing, and what it has between its points."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence

# Raimondi & Boyd, ASLE Transactions 1 (1958), part III, most of it from memory: by eccentricity
# (rows) and length over diameter (columns) the Sommerfeld number, friction (r / c) * f, flow
# Q / (r * c * N * l) and side flow Qs / Q.
_LENGTHS = (0.25, 0.5, 1.0)
_SOMMERFELD = {
    0.1: (16.2, 4.31, 1.33),
    0.2: (7.57, 2.03, 0.631),
    0.4: (2.83, 0.779, 0.264),
    0.6: (1.07, 0.319, 0.121),
    0.8: (0.261, 0.0923, 0.0446),
    0.9: (0.0736, 0.0313, 0.0188),
    0.97: (0.0101, 0.00609, 0.00474),
}
_FRICTION = {
    0.1: (322.0, 85.6, 26.4),
    0.2: (153.0, 40.9, 12.8),
    0.4: (61.1, 17.0, 5.79),
    0.6: (26.7, 8.10, 3.22),
    0.8: (8.80, 3.26, 1.70),
    0.9: (3.50, 1.60, 1.05),
    0.97: (0.922, 0.610, 0.514),
}
_FLOW = {
    0.1: (3.45, 3.43, 3.37),
    0.2: (3.76, 3.72, 3.59),
    0.4: (4.37, 4.29, 3.99),
    0.6: (4.99, 4.85, 4.33),
    0.8: (5.60, 5.41, 4.62),
    0.9: (5.91, 5.69, 4.74),
    0.97: (6.12, 5.88, 4.82),
}
_SIDE_FLOW = {
    0.1: (0.180, 0.173, 0.150),
    0.2: (0.330, 0.318, 0.280),
    0.4: (0.567, 0.552, 0.497),
    0.6: (0.746, 0.730, 0.680),
    0.8: (0.884, 0.874, 0.842),
    0.9: (0.945, 0.939, 0.919),
    0.97: (0.984, 0.980, 0.973),
}
SHORTEST = min(_LENGTHS)
MOST_ECCENTRIC = max(_SOMMERFELD)
LEAST_ECCENTRIC = min(_SOMMERFELD)


def _short_bearing(eccentricity: float, slenderness: float) -> float:
    """Sommerfeld number of Ocvirk's short bearing, half Sommerfeld condition."""
    rest = 1 - eccentricity**2
    root = math.sqrt(math.pi**2 * rest + 16 * eccentricity**2)
    return rest**2 / (math.pi * eccentricity * root * slenderness**2)


def _on_line(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """The value at x of the line through neighboring points; the end lines go on outward."""
    right = min(max(bisect_right(xs, x), 1), len(xs) - 1)
    share = (x - xs[right - 1]) / (xs[right] - xs[right - 1])
    return ys[right - 1] + share * (ys[right] - ys[right - 1])


# How far a table value exceeds the short bearing's grows with the square of the length; what
# remains is nearly a power of length and of least film, hence straight in logarithms.
_FILMS = [-math.log(1 - row) for row in _SOMMERFELD]
_LOG_LENGTHS = [math.log(length) for length in _LENGTHS]
_LOG_FRICTION = {row: tuple(map(math.log, values)) for row, values in _FRICTION.items()}
_EXCESS = [
    [
        math.log((number / _short_bearing(row, length) - 1) / length**2)
        for length, number in zip(_LENGTHS, numbers, strict=True)
    ]
    for row, numbers in _SOMMERFELD.items()
]


def sommerfeld_by_eccentricity(slenderness: float) -> Callable[[float], float]:
    """The Sommerfeld number at an eccentricity, for one length over diameter."""
    length = math.log(slenderness)
    excess = [_on_line(length, _LOG_LENGTHS, row) for row in _EXCESS]

    def number(eccentricity: float) -> float:
        inner = max(-math.log(1 - eccentricity), _FILMS[0])
        power = math.exp(_on_line(inner, _FILMS, excess))
        return _short_bearing(eccentricity, slenderness) * (1 + power * slenderness**2)

    return number


def _between_rows(
    table: Mapping[float, Sequence[float]], eccentricity: float, slenderness: float
) -> float:
    length = math.log(slenderness)
    rows = [_on_line(length, _LOG_LENGTHS, row) for row in table.values()]
    return _on_line(eccentricity, list(table), rows)


def friction(eccentricity: float, slenderness: float) -> float:
    """Friction (r / c) * f, which is nearly straight in logarithms."""
    return math.exp(_between_rows(_LOG_FRICTION, eccentricity, slenderness))


def flow(eccentricity: float, slenderness: float) -> float:
    """Flow of the film, over radius, radial clearance, turns in a unit of time and length."""
    return _between_rows(_FLOW, eccentricity, slenderness)


def side_flow(eccentricity: float, slenderness: float) -> float:
    """The share of the flow that leaves the bearing's ends."""
    return _between_rows(_SIDE_FLOW, eccentricity, slenderness)
