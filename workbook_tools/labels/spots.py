"""The numbers of a sheet with the texts that speak of them: labels, heads, titles, sentences."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy

from workbook_tools.labels.block_spots import block_spots
from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.flat_crowns import flat_crowns
from workbook_tools.labels.head import Head
from workbook_tools.labels.kept_blocks import ReadBlock, read_or_kept
from workbook_tools.labels.labeled_values import says_a_size
from workbook_tools.labels.last_figures import is_added_to
from workbook_tools.labels.number_columns import number_columns
from workbook_tools.labels.property_units import says_units
from workbook_tools.labels.rows_below_tables import reaches_over
from workbook_tools.labels.several_values import apart, beside, listed
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.side_limits import limits_of_sides
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.spots_in_texts import signed_across, spots_in_texts
from workbook_tools.labels.titled_spots import named_by_title
from workbook_tools.labels.titles import before_units, first_clause
from workbook_tools.labels.which_told import which_of
from workbook_tools.labels.written_limits import with_written_limits

# A title over a gap stands so many rows at most above its table, and has so many words.
_FARTHEST_TITLE, _MOST_WORDS_OF_A_TITLE = 2, 6


def spots(cells: SheetText) -> list[Spot]:
    """Every number that a text speaks of, and every empty cell beside others of its line."""
    found: list[Spot] = []
    heads: list[Head] = []
    titles = [at for block in cells.blocks if (at := _lone_title(cells, block))]
    for block in cells.blocks:
        title = _title_over(cells, block, titles) or _title_of_a_twin(cells, block)
        read = read_or_kept(cells, block, _head_over(block, heads), title, _read)
        found += read.spots
        cells.indexes |= read.indexes
        cells.aside |= read.aside
        heads += [read.head] if read.head else []
    # Most cells hold a number, and with it no more than one size.
    numbers = {at for at, cell in cells.sheet.cells.items() if isinstance(cell.value, (int, float))}
    known = {(one.row, one.column) for one in found}
    for beside_tables in (number_columns, spots_in_texts, signed_across):
        more = list(beside_tables(cells, known))
        known |= {(one.row, one.column) for one in more}
        found += more
    found += flat_crowns(cells, found)
    sizes = (one for one in found if not is_added_to(cells.text(one.row, one.column)))
    named = [named_by_title(spot) for spot in sizes]
    return listed(
        beside(
            [
                one
                for spot in (*with_written_limits(cells, named), *limits_of_sides(cells, named))
                for one in (
                    (spot,)
                    if (spot.row, spot.column) in numbers and not spot.inline
                    else apart(cells, spot)
                )
            ]
        )
    )


def _head_over(block: Block, heads: Sequence[Head]) -> Head | None:
    """The nearest heads that reach over a block, else the last ones."""
    last = heads[-1] if heads else None
    if last is not None and last.block.left == block.left:
        return last  # A table further up that is as wide is not gone on with.
    over = (h for h in reversed(heads) if reaches_over(h.block, block))
    return next(over, last)


def _lone_title(cells: SheetText, block: Block) -> At | None:
    """The cell of a block that holds one short text and no more."""
    if len(block.rows) != 1 or block.left != block.right:
        return None
    at = next(iter(block.rows)), block.left
    text = before_units(cells.text(*at)) or cells.text(*at)
    short = len(first_clause(text).split()) <= _MOST_WORDS_OF_A_TITLE
    short = short and cells.kinds[at] in ("text", "remark") and not says_units(text)
    short = short and not is_unit(first_clause(text))  # "mm, JM = John"
    return at if short and ":" not in text.rstrip(" :") and not says_a_size(text) else None


def _title_of_a_twin(cells: SheetText, block: Block) -> str:
    """The title over a table to the left whose heads a block repeats in their row: "L bank"."""
    top = min(block.rows)
    heads = [cells.text(top, c) for c in block.rows[top]][1:]
    first = which_of(cells.text(top, block.left))
    of_a_bank = first is not None and bool(first.bank) and len(block.rows[top]) > 1
    for twin in cells.blocks if len(heads) > 1 or of_a_bank else ():
        over, *below = twin.rows
        if twin.right >= block.left or below[:1] != [top] or len(twin.rows[over]) != 1:
            continue
        again = [cells.text(top, c) for c in twin.rows[top]][1:]
        if over == top - 1 and again == heads and twin.rows[over] == (twin.left,):
            return first_clause(cells.text(over, twin.left))
    return ""


def _title_over(cells: SheetText, block: Block, titles: Sequence[At]) -> str:
    """The title that stands over a block with a gap of rows, "" where none does."""
    first = min(block.rows)
    over = [
        (row, column)
        for row, column in titles
        if 1 < first - row <= _FARTHEST_TITLE and block.left <= column <= block.right
    ]
    text = cells.text(*max(over)) if over else ""
    return first_clause(before_units(text) or text)


def _read(cells: SheetText, block: Block, above: Head | None, title: str) -> ReadBlock:
    """What a block holds, apart from what was found on its sheet before."""
    own = copy(cells)
    own.indexes, own.aside, own.asked = set(), set(), {}
    found, head = block_spots(own, block, above, title)
    asked = tuple(own.asked.items())
    return ReadBlock(tuple(found), head, frozenset(own.indexes), frozenset(own.aside), asked)
