"""The head of a table above a gap that rows of a block go on, None where they go on none."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.labels.block_titles import ReachedBlock
from workbook_tools.labels.blocks import Block
from workbook_tools.labels.head import Head
from workbook_tools.labels.table_rows import is_aside
from workbook_tools.labels.vocabulary import BEARINGS, meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

# So many rows below the head of another block rows may go on its table.
_MOST_ROWS_BELOW = 120
# So many columns filled with the same kinds of cells make a row one of the table above.
_MANY_COLUMNS = 5
_MOSTLY = 0.75
# A head that counts so many columns has a table below it.
_FEWEST_COUNTED = 3
# A title that leaves more to be assumed does not say what the rows below it measure.
_MOST_ASSUMED = 2


def reaches_over(above: Block, block: Block) -> bool:
    """Whether a block is as wide as another, or wider."""
    return above.left <= block.left and block.right <= above.right


def head_over(reached: ReachedBlock, rows: Sequence[int], head: Head | None) -> Head | None:
    """The heads of the table above, where these rows go on below them."""
    if head is None or not is_beneath(reached, rows, head):
        return None
    return head if all(_goes_on(reached, row, head) for row in rows) else None


def is_beneath(reached: ReachedBlock, rows: Sequence[int], head: Head) -> bool:
    """Whether rows stand below a head that is as wide, and near enough to go on its table."""
    if rows[0] - max(head.rows) > _MOST_ROWS_BELOW:
        return False
    return reaches_over(head.block, reached.block) or _is_wider_by_a_remark(reached, head)


def _is_wider_by_a_remark(reached: ReachedBlock, head: Head) -> bool:
    """Whether only a limit or a remark behind a row reaches further than heads that count."""
    counted = sum(bool((w := head.which(c)) and w.number) for c in head.texts)
    if counted < _FEWEST_COUNTED or head.block.left > reached.block.left:
        return False
    beyond = [(r, c) for r in reached.rows for c in reached.block.rows[r] if c > head.block.right]
    one = {c for _, c in beyond} == {head.block.right + 1}
    return one and not any(reached.cells.kinds[at] in ("number", "formula") for at in beyond)


def fills(reached: ReachedBlock, row: int, head: Head) -> bool:
    """Whether a row has a value below each head that tells one from another."""
    told = {c for c in (*head.texts, *head.index) if (w := head.which(c)) and w.tells}
    held = {c for c in told if reached.cells.is_number((row, c))}
    return len(told) > 1 and held == told and _goes_on(reached, row, head)


def _goes_on(reached: ReachedBlock, row: int, head: Head) -> bool:
    """Whether a row is one more of the table above, and no label with its value."""
    if _looks_like_rows_of(reached, head, row):
        return True
    columns = [
        c
        for c in reached.block.rows[row]
        if reached.cells.is_value((row, c)) and not is_aside(reached.cells, head, c)
        if c <= head.block.right or reached.cells.kinds[row, c] != "measured"
    ]
    if not columns or not all(c in head.texts or c in head.index for c in columns):
        return False
    if any(
        counts(text) and not reached.cells.is_whole((row, c)) and not _heads_sizes(reached, head, c)
        for c in columns
        for text in head.texts.get(c, ())[:1]
    ):
        return False  # Where the table above counts, another has its sizes.
    labels = [
        reached.cells.text(row, c)
        for c in reached.block.rows[row]
        if c < columns[-1] and reached.cells.kinds[row, c] in ("text", "remark")
    ]
    if len(labels) > 1:
        return False
    told = which_of(labels[0]) if labels else None
    if told is not None and told.of in BEARINGS and _counts_others(head, told.of):
        return False  # "Main 1" below a table of cylinders.
    if labels and _counts_valves(head) and _is_of_no_valve(labels[0]):
        return False  # "Piston 271 | 272" below the valves of two cylinders.
    if not labels or told is not None:
        return True
    # A tick stands below a head that says what it ticks.
    sized = [c for c in columns if reached.cells.is_number((row, c))]
    return len(sized) > 1 and all(head.which(c) is not None for c in sized)


def _heads_sizes(reached: ReachedBlock, head: Head, column: int) -> bool:
    """Whether sizes stand below a head that can count: "Journal" over 2.4887."""
    below = ((r, column) for r in head.block.rows if r > max(head.rows))
    first = next((at for at in below if reached.cells.is_number(at)), None)
    return first is not None and not reached.cells.is_whole(first)


def _looks_like_rows_of(reached: ReachedBlock, head: Head, row: int) -> bool:
    """Whether a row holds the same kinds of cells as the first below heads, many of them."""
    kinds = reached.cells.kinds
    first = next((r for r in head.block.rows if r > max(head.rows)), None)
    if first is None or first == row:
        return False
    columns = head.block.rows[first]
    alike = sum(kinds.get((row, c)) == kinds[first, c] for c in columns)
    return len(columns) >= _MANY_COLUMNS and alike >= _MOSTLY * len(columns)


def _counts_valves(head: Head) -> bool:
    """Whether heads tell intake and exhaust valves from each other."""
    told = (head.which(c) for c in (*head.texts, *head.index))
    return {"intake", "exhaust"} <= {which.side for which in told if which is not None}


def _is_of_no_valve(label: str) -> bool:
    """Whether a label surely measures something of cylinders, rods or mains."""
    candidates = meaning_of(label).candidates[:1]
    term = (
        find(candidates[0].measurand)
        if candidates and candidates[0].cost <= _MOST_ASSUMED
        else None
    )
    return term is not None and not term.which and term.of in ("cylinder", "rod", "main")


def _counts_others(head: Head, of: str) -> bool:
    """Whether a table counts cylinders, and no bearings of a kind."""
    firsts = [counts(texts[0]) for texts in head.texts.values() if texts]
    counted = {*firsts, *(which.of for which in head.index.values())}
    return "cylinder" in counted and of not in counted
