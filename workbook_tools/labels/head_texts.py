"""The texts of heads: those over each column, in the corner before them, and their units."""

from __future__ import annotations

import re
from collections.abc import Sequence

from workbook_tools.labels.below_heads import first_values_below
from workbook_tools.labels.block_titles import ReachedBlock
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.head import Head, counted_part
from workbook_tools.labels.nominal_sizes import is_nominal
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.titles import clause_of_a_corner, parts_of_a_corner, without_nearness
from workbook_tools.labels.vocabulary import meaning_of, noun_named, unit_in
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.labels.written_limits import without_limit
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

DASHES = ("-", "–", "—")
_AT_PRESSURE = re.compile(r"(?:@|at|bei|à|a)\s*\d+\s*(?:psi|bar|kPa)\.?", re.IGNORECASE)
# What a head says over places on a bore: how high they lie.
_HOW_HIGH = ("height", "compression_height", "depth")


def says_where_alone(text: str) -> bool:
    """Whether a head over places says no more than that: "Height", "Direction"."""
    meaning = meaning_of(text)
    measured = bool(meaning.candidates or meaning.part) or which_of(text) is not None
    return (not meaning.part and noun_named(text) in _HOW_HIGH) or not measured


def read_unit_behind(reached: ReachedBlock, head: Head) -> None:
    """The unit of all in brackets behind the heads, where nothing stands below it: "(thou)"."""
    column = max(head.texts, default=0)
    text = next(iter(head.texts.get(column, ())), "")
    unit = text[1:-1].strip() if text[:1] + text[-1:] == "()" else ""
    below = any(column in reached.block.rows[row] for row in reached.rows if row > head.rows[-1])
    if is_unit(unit) and not below:
        head.corner_units.append(unit)


def take_units_over(reached: ReachedBlock, head: Head) -> None:
    """Take the units of a row over heads: each holds up to the next one, where it can."""
    row, unit = head.rows[0] - 1, ""
    if row not in reached.block.rows or not _holds_units(reached, row):
        return
    for column in range(reached.block.left, reached.block.right + 1):
        unit = reached.cells.text(row, column) or unit
        texts = head.texts.get(column, [])
        if unit and texts and not any(map(unit_in, texts)) and _can_be_in(texts[0], unit):
            texts.append(unit)


def texts_over(
    reached: ReachedBlock, column: int, own: Sequence[int], rows: Sequence[int]
) -> list[str]:
    """The texts over a column from the lowest up, with those that reach over it."""
    texts: list[str] = []
    for row in reversed(own):
        text = without_limit(reached.cells.text(row, column))
        spanned = row != rows[-1] or reached.cells.is_covered((row, column))
        if not text and spanned and (row, column) not in reached.cells.kinds:
            text = without_limit(_spanning(reached, row, column, rows))
        # A dash in a row of units stands for none, and a pressure there says how it was tested.
        no_unit = text in DASHES or _AT_PRESSURE.fullmatch(text)
        if text and text not in texts and not (no_unit and row != rows[0]):
            texts.append(text)
    if texts and column == reached.block.left:
        texts[-1:] = parts_of_a_corner(clause_of_a_corner(texts[-1]))
    return texts


def read_corner(reached: ReachedBlock, head: Head, row: int, index: Sequence[int]) -> None:
    """What stands before the numbers of a head: what they count, or what is measured."""
    for column in reached.block.rows[row]:
        text = reached.cells.text(row, column)
        if not index or column >= index[0] or not text or is_nominal(text):
            continue
        if which_of(text) is not None and _heads_values(reached, row, column):
            continue  # "Spec" over limits beside the names of rows is of these alone.
        if is_unit(text):
            if reached.cells.kinds.get((row + 1, column)) != "date":  # "In" over the days of jobs.
                head.corner_units.append(text)
            continue
        if _says_how_high(reached, row, column):
            continue
        head.corner.append(without_nearness(text))
        of = counts(text) or _pins_of_a_crank(reached, text)
        for at in index if of else ():
            head.index[at] = head.index[at].beside(Which(of=of or ""))


def _says_how_high(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a head over places on a bore says how high they lie: "Height" over "Top"."""
    below = which_of(reached.cells.text(row + 1, column))
    place = below is not None and bool(below.at)
    return place and says_where_alone(reached.cells.text(row, column))


def _pins_of_a_crank(reached: ReachedBlock, text: str) -> str:
    """Rods, where numbered pins stand below the title of a crankshaft; else ""."""
    of_crank = any(meaning_of(title).part == "crank" for title in reached.titles)
    return counted_part(text) if of_crank and meaning_of(text).part == "pin" else ""


def _heads_values(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether values stand in the column of a head, behind a column of texts."""
    at = reached.rows.index(row)
    return column > reached.block.left and column in first_values_below(reached, at, [column])


def _holds_units(reached: ReachedBlock, row: int) -> bool:
    """Whether a row holds units and nothing else, several of them."""
    texts = [reached.cells.text(row, c) for c in reached.block.rows[row]]
    return len(texts) > 1 and all(map(is_unit, texts))


def _spanning(reached: ReachedBlock, row: int, column: int, rows: Sequence[int]) -> str:
    """The text of a head that reaches over a column from the left."""
    for at in range(column - 1, reached.block.left - 1, -1):
        text = reached.cells.text(row, at)
        merged = reached.cells.sheet.merged.get((row, at))
        if reached.cells.is_covered((row, at)) or (merged is not None and at < merged[1] < column):
            return ""  # What is merged reaches over its own columns.
        if text:
            first = which_of(text)
            own = any((r, at) in reached.cells.kinds for r in rows if r != row)
            return text if own and (first is None or first.stage or first.tells) else ""
        if (row, at) in reached.cells.kinds:
            return ""
    return ""


def _can_be_in(text: str, unit: str) -> bool:
    """Whether a head names something that is measured in a unit."""
    terms = (find(one.measurand) for one in meaning_of(text).candidates)
    return any(term is not None and si_factor(term, unit, None) is not None for term in terms)
