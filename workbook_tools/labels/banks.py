"""Which cylinder of the engine the third of a bank is, where the book counts them through."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from functools import lru_cache

from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.numbering import named_by_position
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.which_told import which_of


@lru_cache(maxsize=1024)
def bank_of_title(title: str) -> str:
    """The bank that the name of a sheet ends or begins with, "" for any other: "Testa dx"."""
    words = re.split(r"[\s_\-]+", title.strip())
    if len(words) == 1:
        return ""
    told = (which_of(words[n]) for n in (0, -1))
    return next((w.bank for w in told if w and w.bank in ("L", "R") and not w.number), "")


def numbers_of_banks(spots: Iterable[Spot]) -> dict[str, list[int]]:
    """The cylinders of each bank in order, where the book numbers them through."""
    found: dict[str, set[int]] = defaultdict(set)
    for spot in spots:
        if spot.which.number and spot.which.bank and spot.which.of in ("", "cylinder"):
            found[spot.which.bank].add(spot.which.number)
    if len(found) != 2:
        return {}
    # "B2" counts on its bank, the eighth of bank B through.
    on_both = set.intersection(*found.values())
    own = {bank: sorted(numbers - on_both or numbers) for bank, numbers in found.items()}
    first, second = own.values()
    apart = not set(first) & set(second)
    return own if apart and (not on_both or len(first) == len(second)) else {}


def without_bank(candidate: Candidate, banks: Mapping[str, list[int]]) -> Candidate:
    """A candidate of the third of a bank as of the cylinder that the book counts through.

    Of a bank with one cylinder the bank alone says which: "left (1)", and elsewhere "left".
    """
    found = re.fullmatch(r"([LRAB])(\d*)", candidate.position)
    numbers = banks.get(found[1], []) if found else []
    if found is None or (not found[2] and len(numbers) > 1):
        return candidate
    count = int(found[2] or 1)
    if not 1 <= count <= len(numbers):
        return candidate
    return named_by_position(candidate, str(numbers[count - 1]))
