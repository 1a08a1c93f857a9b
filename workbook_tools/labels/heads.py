"""The heads that begin in a row of a block."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.labels.below_heads import (
    MOST_SUBHEADS,
    days_over_sizes,
    first_values_below,
    is_named_below,
    not_counted_below,
    over_names,
    stands_over_products,
)
from workbook_tools.labels.block_titles import (
    ReachedBlock,
    is_of_job,
    is_title,
    is_title_of_rows,
    measures,
    title_behind_letter,
)
from workbook_tools.labels.cell_kinds import VALUES
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import is_step, is_unit
from workbook_tools.labels.counting_heads import counted_columns
from workbook_tools.labels.head import Head
from workbook_tools.labels.head_of_rows import head_of_rows, is_of_a_list
from workbook_tools.labels.head_texts import DASHES
from workbook_tools.labels.labeled_values import says_a_size
from workbook_tools.labels.settled_heads import are_of_springs, height_told
from workbook_tools.labels.titles import surely_measures
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts

# So many side by side are a row of their own.
_FEWEST_BESIDE = 3


def begin_at(reached: ReachedBlock, at: int) -> bool:
    """Whether a title or heads begin in a row, or fields of the job."""
    return (
        is_of_job(reached, reached.rows[at])
        or is_title(reached, reached.rows[at])
        or head_at(reached, at) is not None
    )


def head_at(reached: ReachedBlock, at: int) -> Head | None:
    """The heads that begin in a row, None where none do."""
    if at not in reached.known:
        reached.known[at] = _find_head(reached, at)
    return reached.known[at]


def _find_head(reached: ReachedBlock, at: int) -> Head | None:
    row = reached.rows[at]
    if not _is_head(reached, at):
        return None
    rows = [row]
    for below in reached.rows[at + 1 : at + 1 + MOST_SUBHEADS]:
        counted = below == rows[-1] + 1 and bool(counted_columns(reached, below))
        if not counted and not _is_subhead(reached, below, rows[-1]):
            break
        if is_title_of_rows(reached, below) or is_of_job(reached, below):
            break
        if title_behind_letter(reached, below):
            break
        if counted and counted_columns(reached, rows[-1]):
            break
        rows.append(below)
    return head_of_rows(reached, rows)


def _is_head(reached: ReachedBlock, at: int) -> bool:
    row = reached.rows[at]
    columns = reached.block.rows[row]
    index = counted_columns(reached, row)
    if days_over_sizes(reached, row) or stands_over_products(reached, row):
        return True
    if _holds_more_than_heads(reached, row, index):
        return False
    if _says_when_over_heads(reached, at):
        return True
    below = first_values_below(reached, at, columns)
    over = [c for c in columns if c in below and reached.cells.kinds[row, c] != "nothing"]
    if index:
        held = [c for c in index if c in below]
        return len(held) * 2 >= len(index) and not_counted_below(reached, at, index)
    texts = _differing(reached, [c for c in over if reached.cells.text(row, c)], row)
    if not texts and over_names(reached, row):
        return True
    if reached.cells.job_fields(row, columns) >= 2 and not _begins_with_a_job_field(
        reached, at + 1, columns[0]
    ):
        return bool(texts)
    if texts and len(columns) > len(texts) + 1 and is_of_a_list(reached, row):
        return True
    return _heads_by_texts(reached, at, texts, bool(below))


def _heads_by_texts(
    reached: ReachedBlock, at: int, texts: Sequence[int], over_values: bool
) -> bool:
    """Whether the texts of a row that differ are heads, by what they speak of."""
    row = reached.rows[at]
    columns = reached.block.rows[row]
    told = [c for c in texts if _speaks(reached, row, c) or _tells_state(reached, row, c)]
    if any(reached.cells.kinds[row, c] == "unit" for c in told):
        # "Nm | plus degrees"
        told = [c for c in texts if c in told or unit_in(reached.cells.text(row, c))]
    few = len(texts) * 2 < len(columns) - 1 and len(told) < 2
    if not texts or (few and not _is_of_empty_columns(reached, row)):
        return False
    first = columns[0]
    named_below = is_named_below(reached, at, first)
    if len(columns) == 1:
        leads = at == 0 or is_title(reached, reached.rows[at - 1])
        return leads and bool(over_values and told)
    if len(texts) > 1 and is_of_a_list(reached, row):
        return True
    if columns[0] > reached.block.left and len({*texts}) > 1:
        parts = [meaning_of(reached.cells.text(row, c)).part for c in columns]
        if all(parts) and len({*parts}) == len(columns):
            return True  # "Block | Head" over what is measured of both.
    if len(texts) >= 3:
        return len(told) >= 1
    if len(columns) == 2 and named_below and texts == [columns[1]]:
        said = which_of(reached.cells.text(row, columns[1]))
        return said is not None and not reached.cells.is_job_field(row, first)
    field = len(columns) == 2 and reached.cells.is_job_field(row, first)
    return len(told) == len(texts) and not field


def _says_when_over_heads(reached: ReachedBlock, at: int) -> bool:
    """Whether the texts of a row over a row of heads only say when, or of which side."""
    row = reached.rows[at]
    told = [which_of(reached.cells.text(row, c)) or NOTHING for c in reached.block.rows[row]]
    when = all(w.stage and not w.tells for w in told) and len({w.stage for w in told}) > 1
    side = all(w == Which(side=w.side) for w in told) and len({w.side for w in told} - {""}) > 1
    below = reached.rows[at + 1 : at + 2]
    return (when or side) and below == [row + 1] and _is_head(reached, at + 1)


def _is_of_empty_columns(reached: ReachedBlock, row: int) -> bool:
    """Whether a row of texts heads columns of which few are filled in: most measure."""
    columns = reached.block.rows[row]
    told = sum(measures(reached, reached.cells.text(row, c)) for c in columns)
    if _counts_by_texts(reached, row):
        return True
    named = which_of(reached.cells.text(row + 1, columns[0])) is not None
    return named and told >= _FEWEST_BESIDE and told >= len(columns) - 1


def _counts_by_texts(reached: ReachedBlock, row: int) -> bool:
    """Whether texts of a row count cylinders on from the first: "CYLINDER | No.1 | No.2".

    A form that is printed for several serves an engine of one too.
    """
    told = (which_of(reached.cells.text(row, c)) or NOTHING for c in reached.block.rows[row])
    numbers = [w.number for w in told if w == Which(w.number, of=w.of) and w.number]
    first = counts(reached.cells.text(row, reached.block.rows[row][0]))
    counted = numbers == [*range(1, len(numbers) + 1)] and len(numbers) >= _FEWEST_BESIDE
    return counted and first == "cylinder"


def _holds_more_than_heads(reached: ReachedBlock, row: int, index: Sequence[int]) -> bool:
    """Whether a row holds dates, formulas, or numbers that do not count."""
    kinds = {reached.cells.kinds[row, c] for c in reached.block.rows[row]}
    return bool(kinds & {"date", "formula"}) or (bool(kinds & {*VALUES}) and not index)


def _differing(reached: ReachedBlock, columns: Sequence[int], row: int) -> Sequence[int]:
    """Columns with texts, none where all say the same: "not done" heads nothing."""
    texts = {reached.cells.text(row, c) for c in columns}
    return columns if len(columns) == 1 or len(texts) > 1 else ()


def _begins_with_a_job_field(reached: ReachedBlock, at: int, column: int) -> bool:
    return at < len(reached.rows) and reached.cells.is_job_field(reached.rows[at], column)


def _speaks(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a text names something measured, or one of several alike."""
    text = reached.cells.text(row, column)
    if says_a_size(text):
        return False  # "1st .014, 2nd .014" is what others are called for.
    if which_of(text) is not None or counts(text) is not None:
        return True
    if height_told(text) is not None:
        return are_of_springs(reached.titles)
    return text.casefold().strip(" .:#") in words_of("place_heads") or measures(reached, text)


def _tells_state(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a text names a state of what the first one of its row names: springs, open."""
    first = reached.block.rows[row][0]
    about = reached.cells.text(row, first) if column != first else ""
    if not about or not surely_measures(about):
        return False
    both = meaning_of(reached.cells.text(row, column), (about,))
    return bool(both.conditions and both.candidates) and both.candidates[0].cost == 0


def _is_subhead(reached: ReachedBlock, row: int, over: int) -> bool:
    """Whether a row below heads holds more of them: units, V and H, min and max."""
    columns = tuple(c for c in reached.block.rows[row] if not is_step(reached.cells.text(row, c)))
    if any(reached.cells.kinds[row, c] in (*VALUES, "date", "remark") for c in columns):
        return False
    if row != over + 1:
        return False
    columns = tuple(c for c in columns if reached.cells.text(row, c) not in DASHES)
    texts = [reached.cells.text(row, c) for c in columns]
    if not columns or any(
        reached.cells.kinds[row, c] == "nothing" and which_of(t) is None and c != reached.block.left
        for c, t in zip(columns, texts, strict=True)  # "No" before all is a number's head.
    ):
        return False
    told = [which_of(t) is not None or is_unit(t) for t in texts]
    if 2 * sum(told) >= len(told) and (len(told) > 1 or columns[0] != reached.block.left):
        return True
    at = reached.rows.index(row)
    return len(columns) > 1 and _is_head(reached, at)
