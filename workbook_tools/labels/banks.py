"""Which cylinder of the engine the third of a bank is, where the book counts them through."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping

from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.numbering import named_by_position
from workbook_tools.labels.spot import Spot


def numbers_of_banks(spots: Iterable[Spot]) -> dict[str, list[int]]:
    """The cylinders of each bank in order, where the book numbers them through."""
    found: dict[str, set[int]] = defaultdict(set)
    for spot in spots:
        if spot.which.number and spot.which.bank:
            found[spot.which.bank].add(spot.which.number)
    every = [n for numbers in found.values() for n in numbers]
    through = [b for b, numbers in found.items() if numbers - set(range(1, len(numbers) + 1))]
    if len(found) != 2 or not through:
        return {}
    last = through[0] if len(through) == 1 else ""
    own = {
        b: sorted(n for n in numbers if b != last or n > len(every) // 2)
        for b, numbers in found.items()
    }
    return own if len({n for ns in own.values() for n in ns}) == sum(map(len, own.values())) else {}


def without_bank(candidate: Candidate, banks: Mapping[str, list[int]]) -> Candidate:
    """A candidate of the third of a bank as of the cylinder that the book counts through."""
    found = re.fullmatch(r"([LRAB])(\d+)", candidate.position)
    numbers = banks.get(found[1], []) if found else []
    if found is None or not 1 <= int(found[2]) <= len(numbers):
        return candidate
    return named_by_position(candidate, str(numbers[int(found[2]) - 1]))
