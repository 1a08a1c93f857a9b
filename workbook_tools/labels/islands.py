"""Tables that stand apart from all around them, where no empty row or column parts the sheet."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Container, Mapping, Sequence

from workbook_tools.labels.cell_kinds import VALUES, At, CellKind

# A table apart has so many rows with numbers below its heads, and so many heads.
_LEAST_ROWS = 2
_LEAST_HEADS = 2
# A column of remarks has them in this share of the rows at most.
_MOST_REMARKS = 0.34


def by_islands(
    cells: Sequence[At], kinds: Mapping[At, CellKind], counting: Container[At]
) -> list[Sequence[At]]:
    """A table with heads and names of its own that touches nothing else, apart from the rest.

    What stands left or right of it may begin and end in other rows, and reach below it.
    counting: heads over numbers that count.
    """
    remarks = _remarks_in_gaps(cells, kinds)
    for island in _islands([at for at in cells if at not in remarks]):
        rest = [at for at in cells if at not in island]
        if (
            rest
            and _is_a_table(island, kinds, counting)
            and _has_values_beside(island, rest, kinds)
        ):
            return [sorted(island), rest]
    return [cells]


def by_notes_on_the_left(
    cells: Sequence[At], kinds: Mapping[At, CellKind], notes: Container[At]
) -> list[Sequence[At]]:
    """Notes in the first column, apart from a table with names of its own behind a gap.

    notes: texts of several words, as a label hardly has. They run on below one another in the
    rows of the table, and say nothing of these.
    """
    first = min((column for _, column in cells), default=0)
    left = [at for at in cells if at[1] == first]
    right = [at for at in cells if at[1] > first]
    if not right or min(column for _, column in right) == first + 1:
        return [cells]
    named: dict[int, At] = {}
    for at in sorted(right):
        named.setdefault(at[0], at)
    valued = {row for row, column in right if kinds[row, column] in VALUES}
    behind = Counter(row for row, column in right if kinds[row, column] in VALUES)
    bare = sum(
        kinds[at] != "text" and (kinds[at] != "number" or behind[row] == 1)
        for row, at in named.items()
        if row in valued
    )
    beside = [at for at in left if at[0] in valued]
    said = sum(at in notes for at in left)
    if bare * 2 > len(valued) or len(beside) < _LEAST_ROWS or said * 2 < len(left):
        return [cells]
    return [cells] if any(kinds[at] in VALUES for at in left) else [left, right]


def _remarks_in_gaps(cells: Sequence[At], kinds: Mapping[At, CellKind]) -> set[At]:
    """The remarks behind values in columns that hold nothing else, and few of them."""
    columns: dict[int, list[At]] = defaultdict(list)
    for at in cells:
        columns[at[1]].append(at)
    rows = len({row for row, _ in cells})
    return {
        at
        for held in columns.values()
        if len(held) <= _MOST_REMARKS * rows and all(_is_a_remark(at, kinds) for at in held)
        for at in held
    }


def _is_a_remark(at: At, kinds: Mapping[At, CellKind]) -> bool:
    """Whether a text stands right behind a value, with nothing over and below it."""
    row, column = at
    alone = not {(row - 1, column), (row + 1, column)} & kinds.keys()
    words = kinds[at] in ("text", "remark", "nothing")
    return words and alone and kinds.get((row, column - 1)) in VALUES


def _islands(cells: Sequence[At]) -> list[set[At]]:
    """The cells that touch one another at a side, in groups, those on the right first."""
    left = {*cells}
    found: list[set[At]] = []
    while left:
        waiting, group = [left.pop()], set[At]()
        while waiting:
            row, column = at = waiting.pop()
            group.add(at)
            near = {(row - 1, column), (row + 1, column), (row, column - 1), (row, column + 1)}
            waiting += near & left
            left -= near
        found.append(group)
    return sorted(found, key=lambda group: max(column for _, column in group), reverse=True)


def _is_a_table(island: set[At], kinds: Mapping[At, CellKind], counting: Container[At]) -> bool:
    """Whether heads stand over rows that each begin with a name, or are counted below a head."""
    rows: dict[int, list[int]] = defaultdict(list)
    for row, column in sorted(island):
        rows[row].append(column)
    valued = [row for row, columns in rows.items() if any(kinds[row, c] in VALUES for c in columns)]
    if len(valued) < _LEAST_ROWS:
        return False
    left, top = min(column for _, column in island), min(valued) - 1
    # "No" over a count is no tick.
    heads = [kinds[top, c] for c in rows.get(top, ()) if (top, c) not in counting]
    if len(rows.get(top, ())) < _LEAST_HEADS or not {*heads} <= {"text", "unit"}:
        return False
    named = ("text", "number") if (top, left) in counting else ("text",)
    return all(kinds.get((row, left)) in named and len(rows[row]) > 1 for row in valued)


def _has_values_beside(island: set[At], rest: Sequence[At], kinds: Mapping[At, CellKind]) -> bool:
    """Whether numbers of another table stand left or right of one, in its rows.

    Those on the right have names of their own: else the names on the left are theirs too.
    """
    rows, right = {row for row, _ in island}, max(column for _, column in island)
    beside = [at for at in rest if at[0] in rows]
    first: dict[int, At] = {}
    for at in sorted(at for at in beside if at[1] > right):
        first.setdefault(at[0], at)
    valued = {row for row, c in beside if c > right and kinds[row, c] in VALUES}
    bare = sum(kinds[first[row]] != "text" for row in valued)
    values = sum(kinds[at] in VALUES for at in beside)
    return values >= _LEAST_ROWS and bare * 2 <= len(valued)
