"""What was read of blocks, kept for blocks that look the same whatever their numbers.

The books of a month come from one form, so that most of their tables differ in nothing but
numbers. Texts, kinds of cells, formulas and merged ranges say what a block's spots are; where a
number has a say, since it may count, or a size tells one thing from another, it is asked of each
block anew.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import NamedTuple

from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.head import Head
from workbook_tools.labels.sheet_text import Asked, SheetText
from workbook_tools.labels.spot import Spot

# Cells of all blocks kept, the forms of several shops; a larger block is a log.
_MOST_CELLS = 40_000
_MOST_OF_A_BLOCK = 4_000
# So many blocks that look the same, with numbers that answer otherwise, are kept.
_MOST_ALIKE = 4


class ReadBlock(NamedTuple):
    """What was read of a block: its spots and heads, and what it adds to its sheet's cells.

    asked: what was asked of its numbers, with the answers.
    """

    spots: tuple[Spot, ...]
    head: Head | None
    indexes: frozenset[At]
    aside: frozenset[At]
    asked: tuple[tuple[Asked, object], ...]

    def holds(self, cells: SheetText) -> bool:
        """Whether the numbers of a sheet answer what was asked in the same way."""
        return all(asked.answer(cells.sheet) == answer for asked, answer in self.asked)


Read = Callable[[SheetText, Block, Head | None, str], ReadBlock]


@dataclass
class _Kept:
    """What is kept of blocks that look the same, the least recently used first; and their cells.

    blocks: of each look all its cells, and what was read, the latest first.
    """

    blocks: OrderedDict[Hashable, tuple[int, tuple[ReadBlock, ...]]] = field(
        default_factory=OrderedDict
    )
    cells: int = 0


_kept = _Kept()


def read_or_kept(
    cells: SheetText, block: Block, above: Head | None, title: str, read: Read
) -> ReadBlock:
    """What was read of a block that looks the same, else what reading this one gives.

    above: the heads of the table above, which may reach over it; title: over it, with a gap.
    """
    key = title, _looks_of(cells, block, above)
    # Taken out and put back as the latest, so that none is lost on another thread meanwhile.
    size, alike = _kept.blocks.pop(key, (0, ()))
    _kept.cells -= size
    found = next((one for one in alike if one.holds(cells)), None)
    if found is None:
        found = read(cells, block, above, title)
    size = sum(map(len, block.rows.values()))
    if size <= _MOST_OF_A_BLOCK:
        others = [one for one in alike if one is not found]
        kept = (found, *others[: _MOST_ALIKE - 1])
        _kept.blocks[key] = size * len(kept), kept
        _kept.cells += size * len(kept)
    while _kept.cells > _MOST_CELLS and _kept.blocks:
        _, (size, _) = _kept.blocks.popitem(last=False)
        _kept.cells -= size
    return found


def _looks_of(cells: SheetText, block: Block, above: Head | None) -> Hashable:
    """All that a block's spots depend on but numbers: its rows and those next to them.

    Blocks side by side share rows, and a label looks as far as its row reaches.
    """
    first, last = min(block.rows), max(block.rows)
    looks, covered = cells.looks, cells.covered_looks
    rows = range(first - 1, last + 2)
    return (
        cells.vocabulary,
        cells.heading,
        tuple(block.rows.items()),
        tuple([looks.get(row) for row in rows]),
        tuple([covered.get(row) for row in rows]) if covered else None,
        None if above is None else _head_looks(cells, above),
    )


def _head_looks(cells: SheetText, head: Head) -> Hashable:
    """How the heads of a table above look, and the rows that they stand in."""
    return (
        tuple(head.rows),
        tuple([cells.looks.get(row) for row in head.rows]),
        tuple([cells.covered_looks.get(row) for row in head.rows]),
        head.block.left,
        head.block.right,
        tuple((column, *texts) for column, texts in head.texts.items()),
        tuple(head.index.items()),
        (*head.corner, *head.corner_units),
        None if head.over is None else _head_looks(cells, head.over),
    )
