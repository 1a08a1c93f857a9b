"""The blocks of a sheet: what stands together, parted by empty rows and columns."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import NamedTuple

from workbook_tools.labels.cell_kinds import VALUES, At, CellKind
from workbook_tools.labels.islands import by_islands, by_notes_on_the_left

# So many texts side by side over values are the heads of a table.
_LEAST_HEADS = 3
# And so many numbers below a head a column of it.
_LEAST_ROWS = 2
# A table with names has a head over them, and more over what it measures.
_FEWEST_HEADS = 2
# A table beside another begins so many columns before it at most.
_WIDEST_BESIDE = 12
# Units, the least and the most of that table take so many rows.
_MOST_BETWEEN = 4
# Cells of a sheet whose blocks are kept.
_MOST_KEPT = 4000


@dataclass(frozen=True)
class Block:
    """The filled cells of a rectangle: {row: columns in order}."""

    rows: Mapping[int, tuple[int, ...]]

    @cached_property
    def left(self) -> int:
        """Its first filled column."""
        return min(columns[0] for columns in self.rows.values())

    @cached_property
    def right(self) -> int:
        """Its last filled column."""
        return max(columns[-1] for columns in self.rows.values())


class Marks(NamedTuple):
    """What the texts of cells say that their kinds do not.

    told: heads that say which one; begun: heads of columns that count their rows, where one
    further left counts them too; counting: all heads over numbers that count; notes: texts with
    more words than labels have.
    """

    told: frozenset[At] = frozenset()
    begun: frozenset[At] = frozenset()
    counting: frozenset[At] = frozenset()
    notes: frozenset[At] = frozenset()


def blocks(kinds: Mapping[At, CellKind], marks: Marks | None = None) -> list[Block]:
    """The blocks of a sheet, from the top down and from the left.

    An empty row parts blocks; an empty column only where both sides have texts and numbers
    of their own, since labels may stand apart from their values.
    """
    # The sheets of a month are filled alike; one that is no log is parted once.
    few, marks = len(kinds) <= _MOST_KEPT, marks or Marks()
    return list(_blocks_alike(tuple(kinds.items()), marks)) if few else _blocks(kinds, marks)


@lru_cache(maxsize=64)
def _blocks_alike(kinds: tuple[tuple[At, CellKind], ...], marks: Marks) -> Sequence[Block]:
    return _blocks(dict(kinds), marks)


def _blocks(kinds: Mapping[At, CellKind], marks: Marks) -> list[Block]:
    ways = (
        lambda part: _by_rows(part, kinds) if len(part) > 1 else [part],
        lambda part: _by_columns(part, kinds, marks.told),
        lambda part: by_notes_on_the_left(part, kinds, marks.notes),
        lambda part: _by_second_count(part, kinds, marks.begun),
        lambda part: _by_heads_beside_labels(part, kinds),
        lambda part: _by_later_heads(part, kinds),
        lambda part: _by_pairs_on_the_right(part, kinds),
        lambda part: by_islands(part, kinds, marks.counting),
    )
    found = [_block(cells) for cells in _parted(sorted(kinds), ways)]
    return sorted(found, key=lambda block: (min(block.rows), block.left))


def _block(cells: Sequence[At]) -> Block:
    rows: dict[int, list[int]] = defaultdict(list)
    for row, column in cells:
        rows[row].append(column)
    return Block({row: tuple(sorted(columns)) for row, columns in sorted(rows.items())})


def _parted(
    cells: Sequence[At], ways: Sequence[Callable[[Sequence[At]], list[Sequence[At]]]]
) -> Iterator[Sequence[At]]:
    """Cells parted in the first way that does, and each part again, until none does."""
    waiting = [cells]
    while waiting:
        part = waiting.pop()
        if not part:
            continue
        smaller = next((found for way in ways if len(found := way(part)) > 1), [])
        waiting += smaller
        if not smaller:
            yield part


def _by_rows(cells: Sequence[At], kinds: Mapping[At, CellKind]) -> list[Sequence[At]]:
    parts: list[list[At]] = []
    last = -2
    for at in sorted(cells):
        if at[0] > last + 1 and not (parts and _heads_over_a_gap(parts[-1], at[0], cells, kinds)):
            parts.append([])
        parts[-1].append(at)
        last = at[0]
    return list(parts)


def _heads_over_a_gap(
    above: Sequence[At], row: int, cells: Sequence[At], kinds: Mapping[At, CellKind]
) -> bool:
    """Whether heads stand above a gap, where the table beside has units or limits."""
    top = above[-1][0]
    heads = [column for r, column in above if r == top]
    if (
        not top + 2 <= row <= top + _MOST_BETWEEN
        or len(heads) < _LEAST_HEADS
        or heads != [*range(heads[0], heads[-1] + 1)]
    ):
        return False
    if any(kinds[top, column] != "text" for column in heads) or len(above) > len(heads) + 1:
        return False
    below = [column for r, column in cells if r == row]
    beside = range(max(1, heads[0] - _WIDEST_BESIDE), heads[0])
    return (
        below == heads
        and all(kinds[row, column] in VALUES for column in below)
        and all(
            any((between, column) in kinds for column in beside) for between in range(top + 1, row)
        )
    )


def _by_columns(
    cells: Sequence[At], kinds: Mapping[At, CellKind], told: frozenset[At]
) -> list[Sequence[At]]:
    columns = sorted({column for _, column in cells})
    for before, after in pairwise(columns):
        if after == before + 1:
            continue
        left = [at for at in cells if at[1] <= before]
        right = [at for at in cells if at[1] >= after]
        apart = _stands_alone(left, kinds) and _stands_alone(right, kinds)
        lone = after + 1 not in columns
        if lone and not _names_rows(right, after, kinds):
            continue  # Columns with gaps between them are of one table.
        if _goes_on(left, right, kinds) or _is_a_label_before(left, right, after, kinds):
            continue
        if _is_a_bank_without_names(left, right, kinds):
            continue
        if apart and _has_names(right, kinds, told) and not _heads_a_row_of(left, right, kinds):
            return [left, right]
    return [cells]


def _is_a_label_before(
    left: Sequence[At], right: Sequence[At], column: int, kinds: Mapping[At, CellKind]
) -> bool:
    """Whether the one number of a column stands behind a label of its row: "Rod length | | 215"."""
    held = [at for at in right if at[1] == column]
    if len(held) != 1 or kinds[held[0]] not in VALUES:
        return False
    before = max((at for at in left if at[0] == held[0][0]), default=None)
    return before is not None and kinds[before] == "text"


def _names_rows(cells: Sequence[At], column: int, kinds: Mapping[At, CellKind]) -> bool:
    """Whether a column holds no sizes: names or counts."""
    return all(kinds[at] not in ("measured", "formula") for at in cells if at[1] == column)


def _goes_on(left: Sequence[At], right: Sequence[At], kinds: Mapping[At, CellKind]) -> bool:
    """Whether sizes without names stand in the rows of a table, under heads in a line with its own.

    The gap between them is then a column that nobody filled in.
    """
    sizes = sorted({row for row, column in right if kinds[row, column] in VALUES})
    if len(sizes) < _LEAST_ROWS:
        return False
    top, first = sizes[0] - 1, min(column for _, column in left)
    told = {kinds.get((row, first)) for row in sizes}
    headed = sum(kinds[at] == "text" for at in left if at[0] == top)
    counted = told == {"number"} or (told == {"text"} and headed > _FEWEST_HEADS)
    heads = [c for row, c in right if row == top and kinds[row, c] == "text"]
    bare = all(kinds[at] in ("measured", "formula") for at in right if at[0] in {*sizes})
    begun = min(row for row, _ in right) == top and len(heads) == len({c for _, c in right})
    return counted and bare and begun and kinds.get((top, first)) == "text"


def _is_a_bank_without_names(
    left: Sequence[At], right: Sequence[At], kinds: Mapping[At, CellKind]
) -> bool:
    """Whether a second bank leaves the names of its rows to the first one.

    "Left | 1 | 3 | | Right | 2 | 4": its one text and its numbers stand in the row of the first
    one's, and sizes alone below.
    """
    top = min(row for row, _ in right)
    texts = [at for at in right if kinds[at] == "text"]
    counts = [at for at in right if at[0] == top and kinds[at] == "number"]
    below = {row for row, _ in right if row > top}
    first = min(column for _, column in left)
    named = all(kinds.get((row, first)) in ("text", "unit") for row in below)
    counted = kinds.get((top, first)) == "text" and kinds.get((top, first + 1)) == "number"
    alone = len(texts) == 1 and texts[0][0] == top and len(counts) > 1
    return alone and counted and named and len(below) >= _LEAST_ROWS


def _heads_a_row_of(left: Sequence[At], right: Sequence[At], kinds: Mapping[At, CellKind]) -> bool:
    """Whether a lone column is the first of the table behind it, such as one that counts its rows.

    Its head stands in the row of theirs, which begins with texts, and its numbers in their rows.
    """
    numbers = [row for row, column in left if kinds[row, column] == "number"]
    if len({column for _, column in left}) > 1 or len(numbers) < _LEAST_ROWS:
        return False
    top, column = min(numbers) - 1, left[0][1]
    first = min(column for _, column in right)
    texts = all(kinds.get((top, c)) == "text" for c in (column, first, first + 1))
    return texts and {*numbers} <= {row for row, _ in right}


def _by_heads_beside_labels(
    cells: Sequence[At], kinds: Mapping[At, CellKind]
) -> list[Sequence[At]]:
    """A table whose heads begin in a row of a label with its value, apart from these labels.

    A label and its value stand left of the heads, with a gap, and again in the next row.
    """
    rows: dict[int, list[int]] = defaultdict(list)
    for row, column in cells:
        rows[row].append(column)
    for row, columns in sorted(rows.items()):
        for before, first in pairwise(columns):
            heads = [c for c in columns if c >= first]
            apart = first > before + 1 and heads == [*range(first, first + len(heads))]
            if not apart or len(heads) < _LEAST_HEADS:
                continue
            if not all(kinds[row, c] in ("text", "unit") for c in heads):
                continue
            under = sum(kinds.get((row + 1, c)) in VALUES for c in heads)
            label = [kinds[row, c] for c in columns if c < first]
            if label[:1] == ["text"] and label[-1] in VALUES and under * 2 > len(heads):
                return _cut_below(cells, row, first)
    return [cells]


# So many labels with their values below one another are a form; this share of their rows may
# have something right before them.
_LEAST_PAIRS, _MOST_BESIDE = 4, 0.25


def _by_pairs_on_the_right(cells: Sequence[At], kinds: Mapping[At, CellKind]) -> list[Sequence[At]]:
    """A form of labels with their values at the right of a table, apart from it."""
    first = max((column for _, column in cells), default=0) - 1
    labels = {row for row, column in cells if column == first}
    values = {row for row, column in cells if column == first + 1}
    before = [row for row, column in cells if column == first - 1 and row in labels]
    headed = _is_behind_heads(cells, first, kinds)
    least = _LEAST_PAIRS - headed
    if len(labels) < least or not values <= labels or 2 * len(values) < len(labels):
        return [cells]
    paired = all(kinds[row, first] in ("text", "unit") for row in labels)  # "cu in" is a label.
    # Two heads may stand over them: "Shopping | Price".
    heads = {min(labels)} & values if not headed else set[int]()
    paired = paired and all(kinds[row, first + 1] != "text" for row in values - heads)
    if not paired or (
        len(before) > _MOST_BESIDE * len(labels)
        and not headed
        and not _is_titled(cells, first, kinds)
        and not _is_below_heads(cells, first, kinds)
    ):
        return [cells]
    left = [at for at in cells if at[1] < first]
    return [left, [at for at in cells if at[1] >= first]] if left else [cells]


def _is_behind_heads(cells: Sequence[At], first: int, kinds: Mapping[At, CellKind]) -> bool:
    """Whether a label with its value stands right behind heads over a table of sizes.

    "Mains | 1 | 2 | 3 | end float | .005" over "journal | 2.748 | 2.7481 | 2.748 | stroke | 3.48",
    "cyl | bore | piston | stroke | 3.48" over "1 | 4.0305 | 4.0261 | rods | 5.7".
    """
    top = min((row for row, column in cells if column == first), default=0)
    over = [kinds[at] for at in sorted(cells) if at[0] == top and at[1] < first]
    pair = kinds.get((top, first)) == "text" and kinds.get((top, first + 1)) in VALUES
    counted = over[:1] == ["text"] and len(over) >= _LEAST_HEADS and {*over[1:]} == {"number"}
    under = [at for at in cells if at[0] == top + 1 and at[1] < first and kinds[at] in VALUES]
    headed = len(over) >= _LEAST_HEADS and {*over} == {"text"} and len(under) >= len(over) - 1
    return pair and (counted or headed)


def _is_below_heads(cells: Sequence[At], first: int, kinds: Mapping[At, CellKind]) -> bool:
    """Whether labels with their values begin right below heads that end before them.

    "ends | crank | shell | side" over "1 | 47.982 | 48.034 | 0.28 | stroke | 72.75".
    """
    top = min(row for row, column in cells if column == first) - 1
    heads = [at for at in cells if at[0] == top]
    fewest = len(heads) >= _LEAST_HEADS and max(column for _, column in heads) == first - 1
    return fewest and all(kinds[at] == "text" for at in heads)


def _is_titled(cells: Sequence[At], first: int, kinds: Mapping[At, CellKind]) -> bool:
    """Whether labels and their values have a title of their own beside that of a table."""
    top = min(row for row, _ in cells)
    over = sorted(column for row, column in cells if row == top)
    left = min(column for _, column in cells)
    return over == [left, first] and all(kinds[top, column] == "text" for column in over)


def _by_later_heads(cells: Sequence[At], kinds: Mapping[At, CellKind]) -> list[Sequence[At]]:
    """Two tables side by side below a wider one, apart from it, where their heads begin.

    Their row of heads has a gap that nothing fills below it, and something does above.
    """
    rows: dict[int, list[int]] = defaultdict(list)
    for row, column in cells:
        rows[row].append(column)
    first = min(rows)
    for row, columns in sorted(rows.items()):
        if row == first or len(columns) < 2 * _LEAST_HEADS - 1:
            continue
        gaps = [before + 1 for before, after in pairwise(sorted(columns)) if after == before + 2]
        if len(gaps) != 1 or any(kinds[row, c] != "text" for c in columns):
            continue
        under = sum(kinds.get((row + 1, c)) in VALUES for c in columns)
        held = {r for r, c in cells if c == gaps[0]}
        if held and max(held) < row and under * 2 > len(columns):
            above = [at for at in cells if at[0] < row]
            return [above, [at for at in cells if at[0] >= row]]
    return [cells]


def _by_second_count(
    cells: Sequence[At], kinds: Mapping[At, CellKind], begun: frozenset[At]
) -> list[Sequence[At]]:
    """Two tables side by side without a gap: the second counts its rows anew."""
    held = {*cells}
    for row, column in sorted(begun & held):
        left = [at for at in cells if at[0] >= row and at[1] < column]
        if not left:
            continue
        # Titles may stand over both, each over its first column, or one over the second alone.
        first = min(c for r, c in left if r == row) if any(r == row for r, _ in left) else column
        over = {at for at in held if at[0] == row - 1}
        placed = over in ({(row - 1, first), (row - 1, column)}, {(row - 1, column)})
        titled = placed and all(kinds[at] == "text" for at in over)
        return _cut_from(cells, row - 1 if titled else row, column)
    return [cells]


def _cut_from(cells: Sequence[At], row: int, first: int) -> list[Sequence[At]]:
    """Cells above a row, and from it on those left of a column and the others."""
    above = [at for at in cells if at[0] < row]
    left = [at for at in cells if at[0] >= row and at[1] < first]
    right = [at for at in cells if at[0] >= row and at[1] >= first]
    return [part for part in (above, left, right) if part]


def _cut_below(cells: Sequence[At], row: int, first: int) -> list[Sequence[At]]:
    """Cells above a row, and from it on those left of a column and the others.

    Where an empty column parts those above too, those on the left stay together.
    """
    above = [at for at in cells if at[0] < row]
    if all(column != first - 1 for _, column in above) and any(c < first for _, c in above):
        left = [at for at in cells if at[1] < first]
        over = [at for at in above if at[1] >= first]
        right = [at for at in cells if at[0] >= row and at[1] >= first]
        return [part for part in (left, over, right) if part]
    return _cut_from(cells, row, first)


def _stands_alone(cells: Sequence[At], kinds: Mapping[At, CellKind]) -> bool:
    """Whether cells hold texts and numbers: labels with what they name."""
    held = {kinds[at] for at in cells}
    return bool(held & {"text"}) and bool(held & {*VALUES, "date", "nothing"})


def _has_names(cells: Sequence[At], kinds: Mapping[At, CellKind], told: frozenset[At]) -> bool:
    """Whether the rows of cells begin with names or counts, or heads over them name sizes.

    Else what they measure stands further left.
    """
    first: dict[int, int] = {}
    for row, column in sorted(cells):
        first.setdefault(row, column)
    valued = {row for row, column in cells if kinds[row, column] in VALUES}
    top = min(valued, default=0)
    over = [kinds[at] for at in cells if at[0] == top]
    if len(over) > 1 and {*over} == {"number"}:
        valued.discard(top)  # Numbers over sizes count the columns.
    named = [row for row in valued if kinds[row, first[row]] not in ("measured", "formula")]
    if len(named) * 2 < len(valued):
        texts = [at for at in cells if kinds[at] == "text" and (at[0] + 1, at[1]) in kinds]
        heads = [at for at in texts if kinds[at[0] + 1, at[1]] in VALUES]
        return bool(heads) and not any(at in told for at in heads)
    lone = [row for row in named if kinds[row, first[row]] == "number"]
    held = Counter(row for row, _ in cells)
    # A form counts rows that nobody filled in: they stand below others that have more.
    begun = Counter(first[row] for row in lone if held[row] > 1)
    return all(held[row] > 1 or begun[first[row]] >= _LEAST_ROWS for row in lone)
