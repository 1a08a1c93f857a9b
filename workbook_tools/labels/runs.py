"""Whether whole numbers count, and Roman ones."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

_ROMAN = {
    "i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7, "viii": 8, "ix": 9, "x": 10,
    "xi": 11, "xii": 12,
}  # fmt: skip
# Cylinders in the order in which they fire, where that is not the one in which they stand.
_FIRING_ORDERS = (
    (1, 3, 4, 2), (1, 2, 4, 3), (1, 2, 4, 5, 3), (1, 5, 3, 6, 2, 4), (1, 4, 2, 6, 3, 5),
    (1, 4, 5, 2, 3, 6), (1, 6, 5, 4, 3, 2), (1, 8, 4, 3, 6, 5, 7, 2), (1, 5, 4, 2, 6, 3, 7, 8),
    (1, 3, 7, 2, 6, 5, 4, 8), (1, 8, 7, 2, 6, 5, 4, 3), (1, 5, 4, 8, 6, 3, 7, 2),
)  # fmt: skip


def roman(text: str) -> int:
    """The number that a text is as a Roman one, 0 for any other text."""
    return _ROMAN.get(text.strip(" .").casefold(), 0)


def is_firing_order(numbers: Sequence[int | None]) -> bool:
    """Whether whole numbers are those of cylinders in an order in which they fire."""
    return tuple(numbers) in _FIRING_ORDERS


def is_run(numbers: Sequence[int | None]) -> bool:
    """Whether whole numbers count: 1 2 3, 1 3 5, 4 3 2 1, again from the first, one left out.

    So do those of cylinders in the order in which they fire.
    """
    if len(numbers) < 2 or any(n is None for n in numbers):
        return False
    known = [n for n in numbers if n is not None]
    if is_firing_order(known):
        return True
    if len(set(known)) == 1 or (min(known) not in (1, 2) and len(known) < 3):
        return False
    if min(known) > 2 and len({b - a for a, b in pairwise(known)}) > 1:
        return False  # Readings about alike do not count: 78 77 78 76.
    down = all(b < a for a, b in pairwise(known))
    if not down and len(known) > 2 and min(map(len, _counted_anew(known))) < 2:
        return False  # Readings of a few hundredths do not count either: 1 2 1 1.
    steps = [b - a for a, b in pairwise(known) if not (b == known[0] or b in (1, 2))]
    return all(0 <= s <= 2 for s in steps) or all(-2 <= s <= 0 for s in steps)


def _counted_anew(numbers: Sequence[int]) -> list[list[int]]:
    """Numbers parted where they begin again: 1 2 3 and 1 2 3."""
    parts = [[numbers[0]]]
    for before, number in pairwise(numbers):
        if number < before and number in (1, 2, numbers[0]):
            parts.append([])
        parts[-1].append(number)
    return parts
