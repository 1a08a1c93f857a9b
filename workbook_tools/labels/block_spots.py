"""The spots of one block, read row by row: titles, heads, then values."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from workbook_tools.labels.block_titles import ReachedBlock, is_of_job, is_title, with_title
from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.head import Head
from workbook_tools.labels.heads import begin_at, head_at
from workbook_tools.labels.labeled_values import labeled_values
from workbook_tools.labels.rows_below_tables import fills, head_over, is_beneath
from workbook_tools.labels.runs import is_firing_order
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.table_ends import card_at, leaves_table
from workbook_tools.labels.table_rows import table_of
from workbook_tools.labels.table_values import table_values
from workbook_tools.labels.vocabulary import meaning_of, plain, stage_of, unit_in
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of, without_stage
from workbook_tools.measurands import find
from workbook_tools.quantities import TORQUE

# "was" and "is now" over a form hold down to its end.
_FEWEST_STAGES = 2
# A title that leaves more to be assumed does not say what the rows below it measure.
_MOST_ASSUMED = 2
# What may stand behind the sizes of counted rows: their unit, and what is said of one.
_BEHIND = ("unit", "text", "remark")
# A bank of a V has so many cylinders.
_FEWEST_OF_A_BANK = 2
_BOLT_TORQUE = "bolt_torque"


def block_spots(
    cells: SheetText, block: Block, above: Head | None, title: str
) -> tuple[list[Spot], Head | None]:
    """The spots of a block with its last heads, all as found where a remark below them says so.

    above: the heads of a table above it; title: over it, with a gap.
    """
    titles = (title,) if title else ()
    reached = ReachedBlock(cells, block, [*block.rows], above, titles)
    found: list[Spot] = []
    at = 0
    while at < len(reached.rows):
        if (told := _told_at(reached, at)) is not None:
            reached, at = told
            continue
        if leaves_table(reached, at):
            # Labels with their values stand below it without a gap.
            reached = replace(reached, head=None)
        end = at + 1
        while end < len(reached.rows) and not (
            _begins_at(reached, end) or leaves_table(reached, end)
        ):
            end += 1
        found += _values(reached, reached.rows[at:end])
        at = end
    if _is_said_below(reached) and not any(s.which.stage or s.meaning.stage for s in found):
        found = [replace(spot, which=spot.which._replace(stage="found")) for spot in found]
    return found, reached.head


def _told_at(reached: ReachedBlock, at: int) -> tuple[ReachedBlock, int] | None:
    """A block with what begins in a row, and where this ends; None where values do."""
    row = reached.rows[at]
    if is_of_job(reached, row):
        return reached, at + 1
    if (card := card_at(reached, at)) is not None:
        return replace(reached, card=card), at + 1
    if is_title(reached, row):
        titled = with_title(reached, row)
        return replace(titled, head=_head_below_title(titled, at + 1)), at + 1
    head = head_at(reached, at)
    if head is None:
        return None
    above = reached.head or reached.above
    head = head.with_stages_of(above).with_rods_below(above).with_limits_of(above)
    return replace(reached, head=head.with_ones_of(above).below(above)), at + len(head.rows)


def _below_another_title(head: Head) -> Head:
    """The heads of a table above over rows below a title of their own, without their corner."""
    texts = {c: texts for c, texts in head.texts.items() if c != head.block.left}
    return replace(head, texts=texts, corner=[])


def _is_said_below(reached: ReachedBlock) -> bool:
    """Whether the last row is a remark alone that begins with "as found" or says worn."""
    row = reached.rows[-1]
    if reached.block.rows[row] != (reached.block.left,) or row == reached.rows[0]:
        return False
    text = reached.cells.text(row, reached.block.left)
    clauses = [re.split(r"\s[-–—]\s|,", one)[0] for one in re.split(r"[.;]\s+", text)]
    # Alone it may be the title of what stands further down.
    told = map(which_of, clauses if clauses != [text] else ())
    return any(w is not None and w.stage == "found" and not w.tells for w in told)


def _head_below_title(reached: ReachedBlock, at: int) -> Head | None:
    """The heads of the table so far over the rows below a title, from one of them on."""
    if reached.head is None or not reached.titles:
        return reached.head
    rows = itertools.takewhile(lambda r: not is_title(reached, r), reached.rows[at:])
    filled = max((len(reached.block.rows[row]) for row in rows), default=0)
    above = len(reached.block.rows.get(reached.head.rows[-1] + 1, ()))
    only_when = reached.head.has_only_places() or _names_what_is_counted(reached, at)
    if only_when and filled < above:
        return None  # "#1 | 2.4482" below "| top | bottom" is measured at neither.
    return reached.head.below_title(reached.titles[0], reached.rows[at - 1])


def _names_what_is_counted(reached: ReachedBlock, at: int) -> bool:
    """Whether a title surely measures something of the counted rows below it, one size each.

    "Pistons" below a table of bores as found and as finished.
    """
    rows = list(itertools.takewhile(lambda r: not is_title(reached, r), reached.rows[at:]))
    title = meaning_of(reached.titles[0])
    surely = bool(title.candidates) and title.candidates[0].cost <= _MOST_ASSUMED
    return surely and len(rows) > 1 and _is_counted_below_title(reached, rows)


def _begins_at(reached: ReachedBlock, at: int) -> bool:
    """Whether a title, heads, fields of the job or the card of one part begin in a row."""
    return begin_at(reached, at) or card_at(reached, at) is not None


def _on_card(reached: ReachedBlock, spot: Spot) -> Spot:
    """A value with the cylinder whose card it stands on; cards share their labels."""
    if reached.card is NOTHING:
        return spot
    shared = ("card", plain(spot.label), spot.headings[:1])
    return replace(spot, which=spot.which.beside(reached.card), line=shared)


def _values(reached: ReachedBlock, rows: Sequence[int]) -> Iterator[Spot]:
    """The values of rows below heads, or beside labels of their own."""
    if reached.head is None:
        counted = _counted_below_title(reached, rows)
        yield from _below_title(reached, rows[:counted])
        rows = rows[counted:]
    nearest = reached.head or reached.above
    further = [r for r in rows if nearest and _head_of_row(reached, r, nearest) is not nearest]
    yield from _values_below(
        reached, [r for r in rows if r not in further], reached.head, reached.above
    )
    if nearest is not None:
        yield from _values_below(reached, further, None, nearest.over)


def _head_of_row(reached: ReachedBlock, row: int, head: Head) -> Head:
    """The heads of a row: the nearest, or those further up that its values fit."""
    columns = reached.block.rows[row]
    return head.of_columns({c for c in columns if reached.cells.is_value((row, c))})


def _values_below(
    reached: ReachedBlock, rows: Sequence[int], own: Head | None, above: Head | None
) -> Iterator[Spot]:
    """The values of rows below heads of the block or of a table above it."""
    if not rows:
        return
    titles = reached.titles
    head = own or head_over(reached, rows, above)
    below = [] if head is None else rows
    if head is None and above is not None and is_beneath(reached, rows, above):
        # Lone values between the rows of a table are beside labels of their own.
        head, below = above, [r for r in rows if fills(reached, r, above)]
    if head is above and head is not None and titles:
        head = _below_another_title(head)
    yield from _beside_names(reached, [row for row in rows if row not in below])
    if head is not None and below:
        table = table_of(reached.cells, reached.block, head, below, reached.side, titles)
        found = list(table_values(table))
        yield from found
        told = {spot.row for spot in found}
        # Of a table above a gap a row with a name of its own may be none.
        alone = [row for row in below if own is None and row not in told]
        beside = _beside_names(reached, alone)
        yield from (s for s in beside if reached.cells.is_number((s.row, s.column)))


def _beside_names(reached: ReachedBlock, rows: Sequence[int]) -> Iterator[Spot]:
    """The values of rows beside labels of their own."""
    named: Spot | None = None
    above: Sequence[Spot] = ()
    for row in rows:
        goes_on = reached.block.left not in reached.block.rows[row]
        found = list(labeled_values(reached.cells, reached.block, row, reached.titles))
        found = found or _counted_on(reached, row, above)
        found = [_in_torque_above(_worked_after(spot, above), above) for spot in found]
        above = found
        if goes_on and named is not None:
            found = [_going_on(spot, named) for spot in found]
        elif not goes_on:
            named = next((s for s in found if s.origin == (row, reached.block.left)), None)
        for spot in found:
            yield _on_card(reached, _at_stage_above(reached, spot))


def _at_stage_above(reached: ReachedBlock, spot: Spot) -> Spot:
    """A value beside its name with the stage that a form's heads say above a gap of rows."""
    head = reached.above
    if reached.head is not None or head is None or head.block.left != reached.block.left:
        return spot
    # "Ground, front, vertical" is of the sizes of its own table alone.
    plain_ones = (c for c in head.texts if (w := head.which(c)) and not w.at)
    stages = {c: head.which_stage(c) for c in plain_ones if c != reached.block.left}
    named = sum(bool(stage) for stage in stages.values())
    if named < _FEWEST_STAGES or reached.block.right > head.block.right:
        return spot
    if stages.get(spot.origin[1]):
        return spot  # Where the form has limits, names with their values stand.
    if any(reached.cells.kinds.get((spot.row, c)) in ("unit", "text") for c in head.index):
        return spot  # Where the form has sizes, units and remarks stand.
    return replace(spot, which=spot.which.beside(Which(stage=stages.get(spot.column, ""))))


def _counted_below_title(reached: ReachedBlock, rows: Sequence[int]) -> int:
    """How many rows of which a title says what is measured count on, 0 where none do.

    Labels with values of their own may follow: "Grinder | 3" below those of "Main journals".
    """
    if not rows or not reached.titles:
        return 0
    index, *_ = reached.block.rows[rows[0]]
    named = (n for n, row in enumerate(rows) if _is_named(reached, (row, index)))
    end = next(named, len(rows))
    return end if end and _is_counted_below_title(reached, rows[:end]) else 0


def _is_named(reached: ReachedBlock, at: At) -> bool:
    """Whether a cell holds a name that counts nothing."""
    is_text = reached.cells.kinds.get(at) in ("text", "remark")
    return is_text and which_of(reached.cells.text(*at)) is None


def _is_counted_below_title(reached: ReachedBlock, rows: Sequence[int]) -> bool:
    """Whether rows are a number that counts with a value, and a title says of what."""
    columns = reached.block.rows[rows[0]]
    kinds = reached.cells.kinds
    if (
        len(columns) < 2
        or any(kinds[row, c] not in _BEHIND for row in rows for c in reached.block.rows[row][2:])
        or len(rows) == 1
        or any(reached.block.rows[row][:2] != columns[:2] for row in rows)
        or not all(reached.cells.is_value((row, columns[1])) for row in rows)
        or not any(meaning_of(title).candidates for title in reached.titles[:1])
    ):
        return False
    counted = [reached.cells.whole_number((row, columns[0])) for row in rows]
    pairs = [_pair_at(reached, (row, columns[0])) for row in rows]
    told = [(w.number, w.last) for w in pairs]
    of_pairs = told == [(n, n + 1) for n in range(1, 2 * len(rows), 2)]
    whole = counted == [*range(1, len(rows) + 1)] or is_firing_order(counted)
    return of_pairs or whole or _is_of_a_bank(counted)


def _below_title(reached: ReachedBlock, rows: Sequence[int]) -> Iterator[Spot]:
    """The values of counted rows of which the title over them says what they measure."""
    if not rows:
        return
    index, column = reached.block.rows[rows[0]][:2]
    title, *others = reached.titles
    reached.cells.indexes |= {(row, index) for row in rows}
    above = max((row for row in reached.rows if row < rows[0]), default=rows[0])
    for row in rows:
        number = reached.cells.whole_number((row, index)) or 0
        which = _pair_at(reached, (row, index)) if not number else Which(number)
        units = [c for c in reached.block.rows[row][2:] if reached.cells.kinds[row, c] == "unit"]
        unit = reached.cells.text(row, units[0]) if units else ""
        yield Spot(
            row, column, title, (*others, reached.cells.heading), which, unit,
            ("column", column, rows[0]), (above, reached.block.rows[above][0]),
        )  # fmt: skip


def _pair_at(reached: ReachedBlock, at: At) -> Which:
    """The two rods on a throw that a cell names, which share what is measured: "1-2"."""
    said = which_of(reached.cells.text(*at))
    return said._replace(of="rod") if said is not None and said.last and not said.of else NOTHING


def _counted_on(reached: ReachedBlock, row: int, above: Sequence[Spot]) -> list[Spot]:
    """Values behind a bare number that counts on from the row above: "2 | .0018" below "Rod 1"."""
    index = reached.block.rows[row][0]
    number = reached.cells.whole_number((row, index))
    if not number or {spot.origin for spot in above} != {(row - 1, index)}:
        return []
    last = above[0]
    told = last.which.number or last.meaning.number
    before, counted, behind = last.label.rpartition(str(number - 1))
    if not told or told != number - 1 or last.which.last:
        return []
    at = row, index
    reached.cells.indexes.add(at)
    which = last.which._replace(number=number if last.which.number else 0)
    label = f"{before}{number}{behind}" if counted else last.label
    return [
        replace(spot, row=row, label=label, which=which, line=(at,), origin=at)
        for spot in above
        if reached.cells.is_value((row, spot.column))
    ]


def _going_on(spot: Spot, above: Spot) -> Spot:
    """A value whose row only counts on below one with a name: "| #4 | .022" below "Top | #1 |"."""
    counted = which_of(spot.label) if above.which.number else None
    if counted is None or not counted.number or counted.stage:
        return spot
    which = spot.which if spot.which.number else counted.beside(spot.which)
    return replace(
        spot, label=above.label, headings=above.headings, which=which, line=above.line,
        origin=above.origin,
    )  # fmt: skip


def _worked_after(spot: Spot, above: Sequence[Spot]) -> Spot:
    """A value whose label only says after what work, of what the one above it says as found.

    "After mill" below "Warp found".
    """
    said = which_of(spot.label)
    if said is None or said.tells or said.stage not in ("machined", "final"):
        return spot
    for one in above:
        bare = without_stage(one.label)
        found = bare != one.label and stage_of(one.meaning) == "found"
        if found and one.origin == (spot.origin[0] - 1, spot.origin[1]):
            which = spot.which.beside(said)
            return replace(spot, label=bare, headings=one.headings, which=which)
    return spot


def _in_torque_above(spot: Spot, above: Sequence[Spot]) -> Spot:
    """A torque without a unit in the unit of the one right above it: "mains" below "Head (kgm)"."""
    if spot.unit or spot.meaning.unit:
        return spot
    for one in above:
        unit = one.unit or unit_in(one.label)
        if not unit or (one.row, one.column) != (spot.row - 1, spot.column):
            continue
        meant = meaning_of(f"{spot.label} ({unit})", spot.headings)
        term = find(meant.candidates[0].measurand) if meant.candidates else None
        if meant.unit == TORQUE.name and term is not None and term.property == _BOLT_TORQUE:
            return replace(spot, unit=unit)
    return spot


def _is_of_a_bank(counted: Sequence[int | None]) -> bool:
    """Whether numbers count every other one, as the cylinders of a bank: 1 3 5 7, 2 4 6 8."""
    every_other = [[*range(first, first + 2 * len(counted), 2)] for first in (1, 2)]
    return len(counted) >= _FEWEST_OF_A_BANK and list(counted) in every_other
