"""Raimondi and Boyd's table of the full journal bearing, and what it has between its points."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence

# Raimondi & Boyd, ASLE Transactions 1 (1958), part III, most of it from memory: by eccentricity
# and by length over diameter the Sommerfeld number, friction (r / c) * f, flow Q / (r * c * N * l)
# and side flow Qs / Q.
_TABLE = {
    0.25: {
        0.1: (16.2, 322.0, 3.45, 0.180),
        0.2: (7.57, 153.0, 3.76, 0.330),
        0.4: (2.83, 61.1, 4.37, 0.567),
        0.6: (1.07, 26.7, 4.99, 0.746),
        0.8: (0.261, 8.80, 5.60, 0.884),
        0.9: (0.0736, 3.50, 5.91, 0.945),
        0.97: (0.0101, 0.922, 6.12, 0.984),
    },
    0.5: {
        0.1: (4.31, 85.6, 3.43, 0.173),
        0.2: (2.03, 40.9, 3.72, 0.318),
        0.4: (0.779, 17.0, 4.29, 0.552),
        0.6: (0.319, 8.10, 4.85, 0.730),
        0.8: (0.0923, 3.26, 5.41, 0.874),
        0.9: (0.0313, 1.60, 5.69, 0.939),
        0.97: (0.00609, 0.610, 5.88, 0.980),
    },
    1.0: {
        0.1: (1.33, 26.4, 3.37, 0.150),
        0.2: (0.631, 12.8, 3.59, 0.280),
        0.4: (0.264, 5.79, 3.99, 0.497),
        0.6: (0.121, 3.22, 4.33, 0.680),
        0.8: (0.0446, 1.70, 4.62, 0.842),
        0.9: (0.0188, 1.05, 4.74, 0.919),
        0.97: (0.00474, 0.514, 4.82, 0.973),
    },
}
_LENGTHS = tuple(_TABLE)
_ROWS = tuple(_TABLE[1.0])
SHORTEST = min(_LENGTHS)
LEAST_ECCENTRIC, MOST_ECCENTRIC = _ROWS[0], _ROWS[-1]


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


_LOG_LENGTHS = [math.log(length) for length in _LENGTHS]
# How far a table value exceeds the short bearing's grows with the square of the length; what
# remains is nearly a power of length and of least film, hence straight in logarithms.
_FILMS = [-math.log(1 - row) for row in _ROWS]
_EXCESS = [
    [
        math.log((_TABLE[length][row][0] / _short_bearing(row, length) - 1) / length**2)
        for length in _LENGTHS
    ]
    for row in _ROWS
]
# Friction over the Sommerfeld number starts with Petroff's 2 * pi**2 and then grows nearly with a
# power of 1 - e**2.
_BENDS = [-math.log(1 - row**2) for row in _ROWS]
_FRICTION = [
    [math.log(friction / number) for number, friction, *_ in (_TABLE[x][row] for x in _LENGTHS)]
    for row in _ROWS
]
_FLOW, _SIDE_FLOW = ([[_TABLE[x][row][at] for x in _LENGTHS] for row in _ROWS] for at in (2, 3))


def sommerfeld_by_eccentricity(slenderness: float) -> Callable[[float], float]:
    """The Sommerfeld number at an eccentricity, for one length over diameter."""
    length = math.log(slenderness)
    excess = [_on_line(length, _LOG_LENGTHS, row) for row in _EXCESS]

    def number(eccentricity: float) -> float:
        inner = max(-math.log(1 - eccentricity), _FILMS[0])
        power = math.exp(_on_line(inner, _FILMS, excess))
        return _short_bearing(eccentricity, slenderness) * (1 + power * slenderness**2)

    return number


def _between(
    table: Sequence[Sequence[float]], place: float, places: Sequence[float], slenderness: float
) -> float:
    """What a table has at a place among those of its rows, for one length over diameter."""
    length = math.log(slenderness)
    return _on_line(place, places, [_on_line(length, _LOG_LENGTHS, row) for row in table])


def friction(eccentricity: float, slenderness: float) -> float:
    """Friction (r / c) * f."""
    number = sommerfeld_by_eccentricity(slenderness)(eccentricity)
    bend = -math.log(1 - eccentricity**2)
    return number * math.exp(_between(_FRICTION, bend, _BENDS, slenderness))


def flow(eccentricity: float, slenderness: float) -> float:
    """Flow of the film, over radius, radial clearance, turns in a unit of time and length."""
    return _between(_FLOW, eccentricity, _ROWS, slenderness)


def side_flow(eccentricity: float, slenderness: float) -> float:
    """The share of the flow that leaves the bearing's ends."""
    return _between(_SIDE_FLOW, eccentricity, _ROWS, slenderness)
