"""Which one a row of a table says that its values are of, or which two where they share one."""

from __future__ import annotations

import re
from collections.abc import Mapping

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.head import counted_part
from workbook_tools.labels.job_columns import is_office, place_columns
from workbook_tools.labels.row_names import CODE, COUNTED, is_name
from workbook_tools.labels.rows_told_apart import rows_told_apart
from workbook_tools.labels.runs import roman
from workbook_tools.labels.settled_heads import CARDS
from workbook_tools.labels.table import Table, in_column, told_before, told_once
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import EITHER, NOTHING, Which, from_the_front, sided
from workbook_tools.labels.which_told import which_of

_PAIR = re.compile(r"\b(?:pair|pr|paire|par|paar|coppia)\b", re.IGNORECASE)


def texts_before(table: Table, row: int, column: int) -> list[tuple[str, At]]:
    """The texts before a value in its row with their cells, the nearest first."""
    told = told_before(table, column)
    if (row, told) not in table.kept.texts:
        # Names between two columns of values are of both.
        telling = table.telling[:told] or table.names[:1]
        table.kept.texts[row, told] = [
            (text, (row, at))
            for at in reversed(telling)
            if (text := table.cells.text(row, at)) and is_name(table, row, at, text)
            if (row, at) not in table.words_of_counts
        ]
    return table.kept.texts[row, told]


def which_in_row(table: Table, row: int, column: int) -> Which:
    """Which one a row says that its value in a column is of."""
    told = told_before(table, column)
    if (row, told) not in table.kept.whiches:
        whole, own = _settled_rows(table, table.first)[row], _settled_rows(table, column)[row]
        if own.side != whole.side and own.side in ("", EITHER):
            own = own._replace(side=whole.side, other=whole.other)
        table.kept.whiches[row, told] = own.beside(Which(side=table.side))
    return table.kept.whiches[row, told]


def _settled_rows(table: Table, column: int) -> Mapping[int, Which]:
    """Which one each row says that its value in a column is of, told by all rows together."""
    told = told_before(table, column)
    if told not in table.kept.settled:
        said = {row: _said_by_row(table, row, column) for row in table.rows}
        # Below heads that count, front and rear are places on each.
        counted = any(w.number for w in table.head.index.values())
        table.kept.settled[told] = _rods(table, sided(said if counted else from_the_front(said)))
    return table.kept.settled[told]


def _rods(table: Table, rows: Mapping[int, Which]) -> Mapping[int, Which]:
    """Which one rows are of, R1 below "Rods" no cylinder of a bank, P1 below "Piston" no pin."""
    over = [t for c in table.names for t in table.head.texts.get(c, ())]
    if any(meaning_of(text).part == "piston" for text in over):
        return {row: w._replace(of="") if w.of == "rod" else w for row, w in rows.items()}
    banks = {w.bank for w in rows.values() if w.number}
    if banks != {"R"} or not any(counted_part(text) == "rod" for text in over):
        return rows
    return {row: w._replace(bank="", of="rod") if w.number else w for row, w in rows.items()}


def _by_counts(table: Table, row: int, column: int) -> tuple[Which, bool]:
    """Which one the counts before a value say, and whether these count rows twice."""
    told, again = NOTHING, False
    for at in sorted((at for at in table.index if at < column), reverse=True):
        if row in table.index[at]:
            own = table.index[at][row]
            if not (told.number and own.number):
                told, again = told.beside(own), again or at in table.again
        elif table.cells.text(row, at).casefold().strip(" .:") in CARDS:
            told = told.beside(Which(stage="target"))
        elif not told.number and (typed := which_of(table.cells.text(row, at))):
            # Among numbers that count a pair may stand, or a number as a text: "1-2".
            others = next((which.of for which in table.index[at].values()), "")
            told = told.beside(typed).beside(Which(of=others if typed.number else ""))
    return told, again


def _said_by_row(table: Table, row: int, column: int) -> Which:
    """Which one a row says by itself that its value in a column is of."""
    told, again = _by_counts(table, row, column)
    nearest = 0
    for text, where in texts_before(table, row, column):
        if is_office(table, where[1]):
            continue
        if told.number and nearest and any(where[1] < c < nearest for c in table.values):
            break  # What names the rows of the table to the left names none of this.
        said = table.counted.get(where) or which_of(text) or rows_told_apart(table).get(text)
        if where[1] in place_columns(table) and (code := CODE.fullmatch(text)):
            said = Which(int(code["number"]))  # Its letter is the list's own.
        if said is None and where[1] in place_columns(table) and (own := COUNTED.fullmatch(text)):
            of = counted_part(own["word"])
            said = Which(int(own["number"]), int(own["last"] or 0), of=of)
        if where not in table.counted and _is_roman(table, said, text, where):
            said = Which(roman(text))
        placed = said is not None and (bool(said.of) or where[1] in place_columns(table))
        if said is not None and said.number and placed and told.number and not told.of:
            told = told._replace(number=0, last=0)  # "Cyl 1" says more than a line's number.
        if said is not None and said.number and again and told.of in ("", said.of):
            # "Rod 2" says more than the second of two numbers for one throw.
            told, again = told._replace(number=0, last=0, of=""), False
        if said is not None:
            told, nearest = told.beside(said), where[1]
    told = told if told.number else told.beside(table.carried.get(row, NOTHING))
    return told.beside(Which(stage=table.stages[row])) if row in table.stages else told


def _is_roman(table: Table, said: Which | None, text: str, where: At) -> bool:
    """Whether a text is a Roman number: V says so below IV, and alone stands for vertical."""
    above = roman(table.cells.text(where[0] - 1, where[1]))
    return roman(text) > 0 and (said is None or 1 < roman(text) == above + 1)


def told_apart(table: Table, row: int, column: int, label: str) -> Which:
    """The place that a row names which says nothing more, below what its table measures.

    "inner" and "outer" below "Rod bolt stretch".
    """
    if column not in table.head.index or which_in_row(table, row, column).tells:
        return NOTHING
    told = texts_before(table, row, column)
    names = [t for t, at in told if not is_office(table, at[1])]
    bare = names[0] if names and label not in names else ""
    if not bare.isalpha() or which_of(bare) is not None or meaning_of(bare).candidates:
        return NOTHING  # More than one word may be anything.
    return Which(at=(bare.casefold(),))


def as_pair(table: Table, row: int, column: int, label: str, which: Which) -> Which:
    """A value of a pair, beside the first of two rows: "Side (pair)"."""
    alone = which.number and not which.last and (row + 1, column) not in table.cells.kinds
    pairs = _PAIR.search(label) is not None or column in _every_other(table)
    if not alone or row + 1 not in table.rows or not pairs:
        return which
    below = which_in_row(table, row + 1, column).number
    return which._replace(last=below) if below == which.number + 1 else which


def with_the_next(table: Table, row: int, column: int, label: str, told: Which) -> Which:
    """A value of a pair, below the first of two heads: "side, per pair"."""
    alone = told.number and not told.last and (row, column + 1) not in table.cells.kinds
    merged = table.cells.sheet.merged.get((row, column)) == (row, column + 1)
    if not alone or not (merged or _PAIR.search(label)):
        return told
    behind = table.head.which(column + 1)
    pair = behind is not None and behind.number == told.number + 1
    return told._replace(last=told.number + 1) if pair else told


@told_once
def _every_other(table: Table) -> frozenset[int]:
    """The columns with a size beside the first of every two rows, and no more."""
    firsts = {r for r in table.rows if which_in_row(table, r, table.first).number % 2}
    filled = {c: {r for r, _ in in_column(table, c)} for c in table.values}
    return frozenset(c for c, rows in filled.items() if len(rows) > 1 and rows == firsts)
