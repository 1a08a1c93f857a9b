"""The head that rows of heads make: what stands over each column, and which one it is of."""

from __future__ import annotations

import re

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.below_heads import (
    are_products,
    days_over_sizes,
    in_parts,
    is_over_ranges,
    is_size,
    over_names,
)
from workbook_tools.labels.block_titles import ReachedBlock
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.counting_heads import (
    count_column,
    count_spanned,
    counted_columns,
    counts_below,
    name_all_alike,
    take_banks_before,
)
from workbook_tools.labels.head import Head
from workbook_tools.labels.head_texts import (
    read_corner,
    read_unit_behind,
    take_units_over,
    texts_over,
)
from workbook_tools.labels.settled_heads import count_bearings, says_nothing, settle
from workbook_tools.labels.vocabulary import NO_SIZES, meaning_of
from workbook_tools.labels.which import NOTHING, WORKED, from_the_front, sided
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find

# A list with so many heads, one of them of units, has its sizes below "value".
_MANY_HEADS = 5
# What the numbers below may be so many of, or the size itself: "Mains .001". Of the size itself
# no number below is so many times as much.
_BARE_PARTS = re.compile(r"(?P<name>.*[^\W\d_]{2,}\.?) (?P<step>0?[.,]0{2,3}1)")
# A list's heads say two of these: which one, how much, in what unit.
_FEWEST_OF_A_LIST = 2
# What a head that says "value" beside limits says: no more than that a number stands below.
_PLAIN_HEAD = "size"
# What "Decked" says over sizes near those as found, and how near these are.
_CUT_TO = "machined"
# How far under or over size: "Rectificado -0,25".
_STEP_BEHIND = re.compile(r"\s[+\-−–]?\s?\d*[.,]?\d+$")
_NEAR = 0.05
# What a head says over ranges, whatever it is called.
_OVER_RANGES = "limits"


def is_of_a_list(reached: ReachedBlock, row: int) -> bool:
    """Whether a row heads a list of values: which one, how much, in what unit, its limit."""
    texts = [reached.cells.text(row, c) for c in reached.block.rows[row]]
    over = {text.casefold().strip(" .:#") for text in texts}
    kinds = ("value_heads", "unit_heads", "place_heads")
    limits = any(w is not None and w.stage in NO_SIZES for w in map(which_of, texts))
    found = sum(bool(over & words_of(kind)) for kind in kinds) + limits
    return found >= _FEWEST_OF_A_LIST


def head_of_rows(reached: ReachedBlock, rows: list[int]) -> Head:
    """The head that some rows of a block make together."""
    head = Head(rows, reached.block, is_list=is_of_a_list(reached, rows[0]))
    index_rows = {row: counted_columns(reached, row) for row in rows}
    for column in range(reached.block.left, reached.block.right + 1):
        counts_here = [row for row in reversed(rows) if column in index_rows[row]]
        for row in counts_here:
            count_column(reached, head, row, column)
        texts = texts_over(reached, column, [r for r in rows if r not in counts_here], rows)
        if texts and not counts_here and is_over_ranges(reached, texts[0], rows[-1], column):
            texts[0] = _OVER_RANGES
        if texts and (parts := _BARE_PARTS.fullmatch(texts[0])):
            texts[0] = in_parts(reached, parts, rows[-1], column)
        if texts:
            head.texts[column] = texts
            said = [w for t in texts if (w := which_of(t)) is not None]
            for which in said if column in head.index else ():
                head.index[column] = head.index[column].beside(which)
    for row, index in index_rows.items():
        take_banks_before(reached, head, row, index)
        if index and row != rows[-1]:
            count_spanned(reached, head, row, index)
    _take_days(reached, head)
    _reach_over_values(reached, head)
    take_units_over(reached, head)
    _mark_plain(head)
    _say_when_cut(reached, head)
    _say_when_finished(reached, head)
    _name_products(reached, head)
    settle(head, reached.titles)
    plain = {c: w for c in head.texts if c not in head.index and (w := head.which(c))}
    told = dict(sorted((plain | head.index).items()))
    counted = sided(told if counts_below(reached, rows[-1]) else from_the_front(told))
    head.index |= {c: w for c, w in counted.items() if c in plain and w is not plain[c]}
    for row, index in index_rows.items():
        read_corner(reached, head, row, index)
    read_unit_behind(reached, head)
    count_bearings(head)
    name_all_alike(head)
    return head


def _take_days(reached: ReachedBlock, head: Head) -> None:
    """Take the days over columns for heads that say nothing else of these."""
    head.days = days_over_sizes(reached, head.rows[0])
    for column in head.days:
        head.texts.pop(column, None)
        head.index[column] = NOTHING


def _reach_over_values(reached: ReachedBlock, head: Head) -> None:
    """Take the banks over names for the values behind these."""
    for column in over_names(reached, head.rows[0]) if len(head.rows) == 1 else ():
        head.texts[column + 1] = head.texts.pop(column)


def _mark_plain(head: Head) -> None:
    """Say of heads over values, "Reading" beside limits, that a number stands below them."""
    limits = [c for c in head.texts if (w := head.which(c)) and w.stage in NO_SIZES]
    over = {t.casefold() for texts in head.texts.values() for t in texts}
    listed = len(head.texts) >= _MANY_HEADS and over & words_of("unit_heads")
    for texts in head.texts.values() if limits or listed else ():
        staged = (w := which_of(texts[0])) is not None and w.stage
        if texts[0].casefold() in words_of("value_heads") and (limits or not staged):
            texts[0] = _PLAIN_HEAD


def _say_when_cut(reached: ReachedBlock, head: Head) -> None:
    """Say of "Decked" beside "Found" and over sizes near it that it is when, not how much."""
    taken = [c for c in head.texts if (w := head.which(c)) and w.stage == "found"]
    below = tuple(r for r in reached.rows if r > head.rows[-1])
    for column, texts in head.texts.items() if len(taken) == 1 else ():
        word = _STEP_BEHIND.sub("", texts[0])
        alone = len(texts) == 1 and len(word.split()) == 1
        if alone and _is_cut(word) and reached.cells.ask(_are_near, below, column, taken[0]):
            texts[0] = _CUT_TO


def _say_when_finished(reached: ReachedBlock, head: Head) -> None:
    """Say of the one head that says nothing, over numbers, that these are the finished sizes.

    "As found | Limit | Fitted | Init." or "Spec | Got", where no other head says so.
    """
    told = {c: w.stage for c in head.texts if (w := head.which(c)) and not w.tells}
    stages = {*told.values()}
    if head.index or not stages & ({"found", *NO_SIZES} - {"computed"}) or stages & {*WORKED}:
        return
    others = [c for c in head.texts if not told.get(c) and c > min(head.texts)]
    below = [r for r in reached.rows if r > head.rows[-1]]
    numbers = {c: [r for r in below if is_size(reached, r, c)] for c in others}
    sized = [c for c in others if len(numbers[c]) > 1]
    if len(sized) == 1 and says_nothing(head.texts[sized[0]][0]):
        head.texts[sized[0]] = ["finished", *head.texts[sized[0]][1:]]


def _name_products(reached: ReachedBlock, head: Head) -> None:
    """Say of three columns, where the third is so many times the first, what each of them is.

    "ea | x | g" over what each part of a bobweight weighs.
    """
    below = tuple(r for r in reached.rows if r > head.rows[-1])
    for first in [c for c in head.texts if {c + 1, c + 2} <= head.texts.keys()]:
        if {first, first + 1, first + 2} & head.index.keys():
            continue
        if reached.cells.ask(are_products, below, first):
            over = (*head.texts[first], *head.texts[first + 2])
            unit = next(filter(is_unit, over), "")
            head.texts[first] = [f"each ({unit})" if unit else "each"]
            head.texts[first + 1], head.texts[first + 2] = ["qty"], ["total"]
            return


def _is_cut(text: str) -> bool:
    """Whether a head names first how much came off."""
    candidates = meaning_of(text).candidates
    term = find(candidates[0].measurand) if candidates else None
    return term is not None and term.noun == "cut"


def _are_near(sheet: Sheet, rows: tuple[int, ...], column: int, other: int) -> bool:
    """Whether the numbers of two columns are sizes of the same things."""
    held = [[sheet.cells.get((row, c)) for c in (column, other)] for row in rows]
    sizes = [[cell.value for cell in pair if cell] for pair in held]
    numbers = [[n for n in pair if isinstance(n, (int, float))] for pair in sizes]
    pairs = [pair for pair in numbers if len(pair) == 2]
    return bool(pairs) and all(abs(a - b) <= _NEAR * abs(b) for a, b in pairs)
