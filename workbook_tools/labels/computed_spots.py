"""What spots are that take the mean, the spread or the difference of others."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache, lru_cache
from itertools import takewhile

from workbook_tools.formulas.references import read_reference
from workbook_tools.labels.arithmetic import of_two
from workbook_tools.labels.line_stages import stage_of_kept
from workbook_tools.labels.relations import formulas
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of, stage_of
from workbook_tools.measurands import find

# What is noted of several readings in place of all of them.
_STANDS_FOR_READINGS = ("mean", "largest", "smallest")
_MEAN = re.compile(r"=?(?:ROUND\()?AVERAGE\((?P<range>[^()]*)\)(?:[,;]\d+\))?")
# Means of more, or fewer, are none of readings of one part.
_FEWEST_READINGS_OF_ONE, _MOST_READINGS_OF_ONE = 2, 6
# Sizes are typed to a ten-thousandth, and what they leave is rounded as they are.
_LAST_DIGIT = 1e-6
_OTHER_CELLS = re.compile(r"[*^]|[A-Z]{1,3}\$?\d")
_OF_RANGE = re.compile(r"\b(?:AVERAGE|MAX|MIN|SUM|MEDIAN|STDEV)\w*\(([^()]*)\)")
_SHAPES = ("taper", "out_of_round")


def read_as_mean(
    cells: SheetText, spot: Spot, by_cell: Mapping[tuple[int, int], Spot]
) -> Spot | None:
    """A spot as what it is the mean of, None where a formula takes no mean of one part's sizes."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    mean = _MEAN.fullmatch(cell.formula) if cell and cell.formula and not spot.inline else None
    reference = read_reference(mean["range"]) if mean else None
    area = reference.area(cells.sheet.title) if reference else None
    if area is None or area.sheet != cells.sheet.title or area.size > _MOST_READINGS_OF_ONE:
        return None
    taken = [by_cell.get((c.top, c.left)) for c in area.cells()]
    sizes = [s for s in taken if s is not None and not s.is_computed]
    if len(sizes) < max(len(taken), _FEWEST_READINGS_OF_ONE):
        return None
    parts = {(s.which_one.number, s.which_one.bank, s.first_meant) for s in sizes}
    number, _, meant = next(iter(parts))
    mine = spot.which_one
    placed = all(s.which_one.at for s in sizes)  # At places of the only one there is.
    mine_too = (mine.number, mine.bank) == (number, sizes[0].which_one.bank)
    same = (number or placed) and meant and mine_too
    may_be = {find(c.measurand) for c in sizes[0].meaning.candidates}
    # "Mean" says nothing by itself; the sheet's name is of all that stands on it.
    other = bool(meaning_of(spot.label).candidates) and spot.first_meant not in {None, *may_be}
    if len(parts) > 1 or not same or other:
        return None
    which = spot.which._replace(stage=sizes[0].which.stage)
    label = _label_of_all([s.label for s in sizes])
    return replace(spot, label=label, headings=sizes[0].headings, which=which)


def _label_of_all(labels: Sequence[str]) -> str:
    """What labels of several places share, if it says what the first does: "Bore" of "Bore top"."""
    words = [label.split() for label in labels]
    shared = " ".join(w[0] for w in takewhile(lambda w: len({*w}) == 1, zip(*words, strict=False)))
    first = meaning_of(labels[0]).candidates[:1]
    told = meaning_of(shared).candidates[:1] if shared else ()
    same = [c.measurand for c in told] == [c.measurand for c in first]
    return shared if told and same else labels[0]


def is_difference_of_two(cells: SheetText, spot: Spot) -> bool:
    """Whether a formula under a bare "Diff." takes one size from another beside it."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    pair = of_two(cell.formula) if cell and cell.formula and not spot.inline else None
    head = cells.text(*spot.origin)
    return pair is not None and pair[1] == "-" and meaning_of(head).statistic == "spread"


def left_by_two(cells: SheetText, spot: Spot, by_cell: Mapping[tuple[int, int], Spot]) -> str:
    """The clearance that a typed number, called "diff.", is of two sizes before it."""
    row, column = spot.row, spot.column
    above = next((t for r in range(row - 1, 0, -1) if (t := cells.text(r, column))), "")
    texts = (above, *(cells.text(row, c) for c in range(1, column)))
    if not any(meaning_of(text).statistic == "spread" for text in texts if text):
        return ""
    for way in ((1, 0), (0, 1)):
        one, other = (by_cell.get((row - n * way[0], column - n * way[1])) for n in (2, 1))
        if one is None or other is None or one.first_meant is None or other.first_meant is None:
            continue
        numbers = [_typed(cells, s) for s in (one, other, spot)]
        whole = _difference_of(frozenset((one.first_meant.id, other.first_meant.id)))
        if whole and abs(abs(numbers[0] - numbers[1]) - numbers[2]) < _LAST_DIGIT:
            return whole
    return ""


def _typed(cells: SheetText, spot: Spot) -> float:
    """The number that is typed in a cell, one that makes no difference for any other cell."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    value = cell.value if cell is not None and not cell.formula else None
    return float(value) if isinstance(value, (int, float)) else math.nan


@cache
def _difference_of(names: frozenset[str]) -> str:
    """The name of the clearance that is one of two measurands less the other, "" for none."""
    for one, order in formulas():
        if order.is_difference and one.noun == "clearance" and {*order.names} == names:
            return one.name
    return ""


def is_of_its_column(cells: SheetText, spot: Spot) -> bool:
    """Whether a formula takes a mean, a sum or a spread of the numbers over it."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    formula = cell.formula if cell and not spot.inline else ""
    # How far a bore is from straight is what its heights over it differ by.
    of_places = spot.first_meant is not None and spot.first_meant.noun in _SHAPES
    taken = bool(formula) and _takes_its_column(formula, spot.row, spot.column)
    return taken and not (of_places and says_surely(spot.label))


def says_surely(label: str) -> bool:
    """Whether a label leaves no doubt of what is measured: a stroke is none of "Parts"."""
    candidates = meaning_of(label).candidates
    return bool(candidates) and candidates[0].cost <= 1


@lru_cache(maxsize=4096)
def _takes_its_column(formula: str, row: int, column: int) -> bool:
    if _OTHER_CELLS.search(_OF_RANGE.sub("", formula)):
        return False  # A displacement takes the mean of the bores over it, and a stroke.
    ranges = [read_reference(argument) for argument in _OF_RANGE.findall(formula)]
    areas = [reference.area("") for reference in ranges if reference is not None]
    return bool(areas) and all(
        area is not None and area.left == area.right == column and area.top < area.bottom < row
        for area in areas
    )


def stands_for_readings(cells: SheetText, spot: Spot, found: Sequence[Spot]) -> bool:
    """Whether a mean or a largest size was typed, and nothing that it is made of."""
    mine, cell = spot.first_meant, cells.sheet.cells.get((spot.row, spot.column))
    alone = spot.meaning.statistic in _STANDS_FOR_READINGS
    if mine is None or not alone or cell is None or cell.formula:
        return False
    stage = spot.which.stage or stage_of_kept(spot.meaning)
    return not any(
        other.first_meant is mine and other.origin != spot.origin and not other.is_computed
        for other in found
        if (other.which.stage or stage_of(other.meaning)) == stage and other.line[0] != "spoken"
    )
