"""The builder's own arithmetic: the two lines that the formulas of a line take."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from openpyxl.utils import column_index_from_string

from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot

# Two cells of the same sheet, perhaps in thousandths, rounded or without a sign.
_OF_TWO = re.compile(
    r"(?:ABS\(|ROUND\()?\(?\s*\$?([A-Z]{1,3})\$?(\d+)\s*([-+])\s*\$?([A-Z]{1,3})\$?(\d+)\s*\)?"
    r"(?:\s*[*/]\s*[\d.]+)?(?:\s*[,;]\s*\d+)?\)?",
    re.IGNORECASE,
)

# A row and a column of a sheet.
_At = tuple[str, int, int]


class OfTwo(NamedTuple):
    """The lines that a line is worked out from: the first less the second, or both together.

    typed: whether no formula says it, only the numbers.
    """

    first: int
    second: int
    sign: str
    typed: bool = False


def made_of(lines: Sequence[tuple[SheetText, Sequence[Spot]]]) -> Mapping[int, OfTwo]:
    """The lines of which most cells are formulas of two others, by their numbers.

    lines: each with its sheet and its spots.
    """
    at: dict[_At, int] = {}
    found: dict[int, OfTwo] = {}
    for number, (cells, spots) in enumerate(lines):
        held = cells.sheet.cells
        worked = [
            cell.formula
            for spot in spots
            if (cell := held.get((spot.row, spot.column))) and cell.formula and not spot.inline
        ]
        pairs = [pair for formula in worked if (pair := of_two(formula)) is not None]
        if not pairs or len(pairs) * 2 <= len(spots):
            continue
        if not at:
            at = {
                (sheet.sheet.title, s.row, s.column): n
                for n, (sheet, several) in enumerate(lines)
                for s in several
            }
        title = cells.sheet.title
        taken = Counter(
            (at.get((title, *first)), at.get((title, *second)), sign)
            for first, sign, second in pairs
        )
        (one, other, sign), count = taken.most_common(1)[0]
        if one is not None and other is not None and count * 2 > len(pairs):
            found[number] = OfTwo(one, other, sign)
    return found


def of_two(formula: str) -> tuple[tuple[int, int], str, tuple[int, int]] | None:
    """The two cells that a formula takes the difference or sum of, None for any other."""
    told = _OF_TWO.fullmatch(formula)
    if told is None:
        return None
    column, row, sign, other_column, other_row = told.groups()
    return (
        (int(row), column_index_from_string(column.upper())),
        sign,
        (int(other_row), column_index_from_string(other_column.upper())),
    )
