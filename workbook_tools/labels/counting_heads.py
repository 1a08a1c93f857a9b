"""The columns in which a row of heads counts, and which one each of them is of."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.below_heads import is_size
from workbook_tools.labels.block_titles import ReachedBlock
from workbook_tools.labels.cell_kinds import VALUES, At
from workbook_tools.labels.head import Head, counted_part, of_stations, picks_some
from workbook_tools.labels.runs import is_firing_order, is_run, roman
from workbook_tools.labels.sheet_text import whole_number
from workbook_tools.labels.titles import surely_measures
from workbook_tools.labels.vocabulary import meaning_of, without_unit
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts

# A part with its number: "Pin 1". So many side by side count.
_NUMBERED = re.compile(r"(?P<part>[^\W\d][^\d]*?)[ #.]*(?P<number>\d{1,2})")
_FEWEST_PARTS = 2
# Rows that count do so from the first ones.
_ROWS_COUNTED = 3
# Where on a flange: no parts are numbered so.
_AROUND = [12, 3, 6, 9]
# The first of them with its word: "12 o'clock | 3 | 6 | 9".
_AT_NOON = Which(at=("12 o'clock",))
# Ways across a bore or around a journal, in degrees.
_ANGLE = re.compile(r"\d{1,3}\s?°")
_TURNED = ((0, 90), (0, 45, 90), (0, 45, 90, 135), (0, 60, 120), (0, 120, 240), (0, 90, 180, 270))
# So many side by side are a row of their own.
_FEWEST_BESIDE = 3
# Two that are measured together: "1/2".
_PAIR = re.compile(r"(\d{1,2}) ?[/&+-] ?(\d{1,2})")
_BANKS = ("L", "R")

_FEWEST_COUNTED = 3


def _is_lash(text: str) -> bool:
    """Whether a text names the lash of valves, which is a few thousandths."""
    candidates = meaning_of(text).candidates
    return bool(candidates) and candidates[0].measurand in ("intake_lash", "exhaust_lash")


def counted_columns(reached: ReachedBlock, row: int) -> list[int]:
    """The columns in which a row counts, [] where it does not."""
    columns = reached.block.rows[row]
    numbers = _without_far(c for c in columns if reached.cells.kinds[row, c] in VALUES)
    places = tuple([(row, c) for c in numbers])
    if _goes_on_around(reached, places):
        return numbers
    if _is_one_of_a_count(reached, row):
        return []
    if counted := _numbers_of_row(reached, row, numbers):
        before = [reached.cells.text(row, c) for c in columns if c < numbers[0]]
        named = [t for t in before if counts(without_unit(t)) is None and which_of(t) is None]
        runs = len(counted) // max(counted)
        counts_on = counted == (*range(1, max(counted) + 1),) * runs and len(counted) > 2
        measured = any(surely_measures(text) for text in named)
        whole = sorted(counted) == [*range(1, len(counted) + 1)]
        if measured and is_firing_order(counted):
            return []  # Readings that happen to be one: "Leak % | 1 | 3 | 4 | 2".
        lashes = len(counted) < _FEWEST_COUNTED and any(map(_is_lash, named))
        if not whole and (lashes or (measured and _sizes_stand_over(reached, row, numbers))):
            # "Protrusion (1/100) | 6 | 5 | ? | 4" counts nothing, nor "Tappets, cold | 2 | 4".
            return []
        beside_others = bool(named) and _others_stand_over(reached, row, numbers)
        if beside_others or _goes_on_below_a_place(reached, row, numbers):
            # "Twist | 1 | 2" below "Bank | L | R" does not, nor "bottom | 2 | 3" below "top".
            return []
        if len(named) <= 1 or (
            counts_on and (not measured or _stands_over_sizes(reached, row, numbers))
        ):
            return numbers
    if between := _between_ends(reached, row) or _between_counts(reached, row):
        return between
    romans = [c for c in columns if roman(reached.cells.text(row, c))]
    if len(romans) >= 2 and is_run([roman(reached.cells.text(row, c)) for c in romans]):
        return romans
    return _in_pairs(reached, row) or _numbered_parts(reached, row) or [*_stations(reached, row)]


def _stands_over_sizes(reached: ReachedBlock, row: int, columns: Sequence[int]) -> bool:
    """Whether sizes stand below all of some columns, in the next row."""
    return all(is_size(reached, row + 1, c) for c in columns)


def _is_one_of_a_count(reached: ReachedBlock, row: int) -> bool:
    """Whether a row is a number that counts down and one size: "2 | 4" below "1 | 3"."""
    columns = reached.block.rows[row]
    if len(columns) != 2 or columns[0] != reached.block.left:
        return False
    at = [reached.cells.whole_number((r, columns[0])) for r in (row - 1, row, row + 1)]
    before, own, after = at
    return own is not None and (before == own - 1 or after == own + 1)


def _stations(reached: ReachedBlock, row: int) -> dict[int, Which]:
    """Which one each column is of where a row numbers mains and rods: "MB-1 | CR-1"."""
    texts = {c: reached.cells.text(row, c) for c in reached.block.rows[row]}
    first = min(texts)
    told = of_stations(texts) or of_stations({c: t for c, t in texts.items() if c != first})
    return told if len(told) >= _FEWEST_PARTS else {}


def _numbers_of_row(reached: ReachedBlock, row: int, columns: Sequence[int]) -> tuple[int, ...]:
    """The numbers of a row where they count, some of all behind "cyl"; () for sizes."""
    if len(columns) < 2:
        return ()
    of_cylinders = counts(reached.cells.text(row, reached.block.rows[row][0])) == "cylinder"
    return reached.cells.ask(_numbers_that_count, tuple([(row, c) for c in columns]), of_cylinders)


def _sizes_stand_over(reached: ReachedBlock, row: int, columns: Sequence[int]) -> bool:
    """Whether the row above holds values in the columns of one that may count."""
    return all(reached.cells.is_value((row - 1, c)) for c in columns)


def _goes_on_below_a_place(reached: ReachedBlock, row: int, columns: Sequence[int]) -> bool:
    """Whether a row and the one above it name places on each part, with values in some columns."""
    first = columns[0] - 1
    told = [which_of(reached.cells.text(r, first)) or NOTHING for r in (row - 1, row)]
    places = all(w.at and not w.number for w in told)
    return places and _sizes_stand_over(reached, row, columns)


def _others_stand_over(reached: ReachedBlock, row: int, columns: Sequence[int]) -> bool:
    """Whether the row above tells banks, or cylinders, in the columns of one that may count."""
    over = [which_of(reached.cells.text(row - 1, c)) or NOTHING for c in columns]
    return all(w.bank and not w.number for w in over) or all(
        w.of == "cylinder" and w.number for w in over
    )


def _between_ends(reached: ReachedBlock, row: int) -> list[int]:
    """The columns of 2 and 3 between "Front" and "Rear", [] where they do not count on."""
    columns = reached.block.rows[row]
    numbers = [c for c in columns if reached.cells.kinds[row, c] in VALUES]
    if not numbers:
        return []
    beside = (which_of(reached.cells.text(row, c)) for c in (numbers[0] - 1, numbers[-1] + 1))
    ends = [w.at if w and not w.number else () for w in beside]
    if ends != [("front",), ("rear",)]:
        return []
    counted = [reached.cells.whole_number((row, c)) for c in numbers]
    return numbers if counted == [*range(2, 2 + len(numbers))] else []


def _between_counts(reached: ReachedBlock, row: int) -> list[int]:
    """The columns of bare numbers that count on from texts that do: "#1", 2, "#3"."""
    columns = reached.block.rows[row]
    numbers = [c for c in columns if reached.cells.kinds[row, c] in VALUES]
    told = {c: which_of(reached.cells.text(row, c)) for c in columns if c not in numbers}
    counted = {c: w.number for c, w in told.items() if w and w == Which(w.number)}
    if not counted:
        return []
    every = sorted((*counted, *numbers))
    run = [counted.get(c) or reached.cells.whole_number((row, c)) for c in every]
    return numbers if run == [*range(1, len(run) + 1)] and run[2:] else []


def _in_pairs(reached: ReachedBlock, row: int) -> list[int]:
    """The columns in which a row counts in pairs: 1/2, 3/4, 5/6, or 1/5, 2/6, 3/7, 4/8."""
    texts = {c: reached.cells.text(row, c) for c in reached.block.rows[row]}
    pairs = {c: (int(t[1]), int(t[2])) for c in texts if (t := _PAIR.fullmatch(texts[c]))}
    many, found = len(pairs), [*pairs.values()]
    counted = [(n, n + 1) for n in range(1, 2 * many, 2)]
    across = [(n, n + many) for n in range(1, many + 1)]
    return [*pairs] if many >= 2 and found in (counted, across) else []


def _numbered_parts(reached: ReachedBlock, row: int) -> list[int]:
    """The columns in which a row counts parts that can be measured too: "Pin 1", "Pin 2"."""
    columns = reached.block.rows[row]
    named = {c: told for c in columns if (told := _NUMBERED.fullmatch(reached.cells.text(row, c)))}
    words = {told["part"].casefold() for told in named.values()}
    others = [reached.cells.text(row, c) for c in columns if c not in named]
    # "Min" and "Max" before them, "Mean" and "OK" behind them, count nothing.
    plain = [t for t in others[1:] if (w := which_of(t)) is None or w.tells]
    few = len(plain) > len(named) // 2 if len(named) > _FEWEST_PARTS else bool(plain)
    if len(words) != 1 or few or len(named) < _FEWEST_PARTS:
        return []
    counted = [int(told["number"]) for told in named.values()]
    one = reached.cells.text(row, next(iter(named)))
    return [*named] if counted_part(*words) and is_run(counted) and not which_of(one) else []


def take_banks_before(reached: ReachedBlock, head: Head, row: int, index: Sequence[int]) -> None:
    """Take the banks that stand before their numbers in a row: "Left | 1 | 2 | Right | 1"."""
    texts = {c: which_of(reached.cells.text(row, c)) for c in reached.block.rows[row]}
    banks = {c: w.bank for c, w in texts.items() if w and w == Which(bank=w.bank) and w.bank}
    if len({*banks.values()}) < len(_BANKS) or not index:
        return
    for column in index:
        before = [bank for c, bank in sorted(banks.items()) if c < column]
        if before and column in head.index:
            head.index[column] = head.index[column].beside(Which(bank=before[-1]))


def count_spanned(reached: ReachedBlock, head: Head, row: int, index: Sequence[int]) -> None:
    """Take the numbers of a row of heads for the columns behind them that they reach over.

    "1 | | 2" over "front | rear | front | rear": below each number stand the same heads.
    """
    counted = sorted(index)
    width = min((b - a for a, b in pairwise(counted)), default=1)
    groups = [[head.texts.get(c + n, [""])[0] for n in range(width)] for c in counted]
    alike = groups[0] == groups[-1] and all(groups[0]) and len({*groups[0]}) == width
    if width < 2 or len(counted) < 2 or not alike:
        return
    for first in counted:
        for column in range(first + 1, first + width):
            if (row, column) not in reached.cells.kinds and column not in head.index:
                told = [w for t in head.texts[column] if (w := which_of(t)) is not None]
                count = head.index[first]._replace(at=(), side="", stage="")
                head.index[column] = count.beside(told[0]) if told else count


def count_column(reached: ReachedBlock, head: Head, row: int, column: int) -> None:
    """Take a number of a head for which one its column is of."""
    text = reached.cells.text(row, column)
    if pair := _PAIR.fullmatch(text):
        both = Which(int(pair[1]), int(pair[2]))
        head.index[column] = head.index.get(column, NOTHING).beside(both)
        return
    if station := _stations(reached, row).get(column):
        head.index[column] = head.index.get(column, NOTHING).beside(station)
        return
    count = roman(text) or reached.cells.whole_number((row, column)) or 0
    if count in _AROUND and _goes_around(reached, row):
        place = Which(at=(f"{count} o'clock",))
        head.index[column] = head.index.get(column, NOTHING).beside(place)
        reached.cells.indexes.add((row, column))
        return
    numbers = [c for c in counted_columns(reached, row) if reached.cells.is_number((row, c))]
    if angles := reached.cells.ask(_angles, tuple([(row, c) for c in numbers])):
        place = Which(at=(f"{angles[numbers.index(column)]}°",))
        head.index[column] = head.index.get(column, NOTHING).beside(place)
        reached.cells.indexes.add((row, column))
        return
    if not count and (told := _NUMBERED.fullmatch(text)):
        part = Which(int(told["number"]), of=counted_part(told["part"]))
        head.index[column] = head.index.get(column, NOTHING).beside(part)
        return
    head.index[column] = head.index.get(column, NOTHING).beside(Which(count))
    if not text or text.isdecimal():
        reached.cells.indexes.add((row, column))


def _goes_around(reached: ReachedBlock, row: int) -> bool:
    """Whether a row counts the hours of a clock's face: 12, 3, 6, 9."""
    counted = [reached.cells.whole_number((row, c)) for c in counted_columns(reached, row)]
    return counted in (_AROUND, _AROUND[1:])


def counts_below(reached: ReachedBlock, row: int) -> bool:
    """Whether the rows below heads are counted, so that front and rear are places on each."""
    at = reached.rows.index(row)
    firsts = [
        (below, reached.block.left) for below in reached.rows[at + 1 : at + 1 + _ROWS_COUNTED]
    ]
    told = [which_of(reached.cells.text(*first)) for first in firsts]
    banks = {w.bank for w in told if w and not w.number} >= {"L", "R"}
    counted = bool(reached.cells.ask(_numbers_that_count, tuple(firsts), False))
    # "M1", "M2"; "I", "II"
    texts = [reached.cells.text(*first) for first in firsts]
    named = [roman(text) or (w.number if w else None) for w, text in zip(told, texts, strict=True)]
    return len(firsts) > 1 and (banks or counted or (all(named) and is_run(named)))


def _numbers_that_count(sheet: Sheet, cells: tuple[At, ...], of_cylinders: bool) -> tuple[int, ...]:
    """The numbers of cells that count, () where they do not.

    of_cylinders: whether they may also rise and be some of all: 1, 4, 6, 7.
    """
    whole = [whole_number(sheet, at) for at in cells]
    numbers = tuple([n for n in whole if n is not None])
    if len(numbers) < len(whole):
        return ()
    rising = of_cylinders and sorted(numbers) == [*numbers]
    return numbers if is_run(numbers) or (rising and picks_some(numbers)) else ()


def _goes_on_around(reached: ReachedBlock, places: tuple[At, ...]) -> bool:
    """Whether cells behind others hold the ways around a part, or those after "12 o'clock"."""
    if not places or places[0][1] <= reached.block.left:
        return False
    (row, first), *_ = places
    begun = which_of(reached.cells.text(row, first - 1)) == _AT_NOON
    ask = reached.cells.ask
    return ask(_are_ways_around, places) or (begun and ask(_are_hours_after_noon, places))


def _are_hours_after_noon(sheet: Sheet, cells: tuple[At, ...]) -> bool:
    """Whether numbers are the hours at which a part is measured around, behind "12 o'clock"."""
    return [whole_number(sheet, at) for at in cells] == _AROUND[1:]


def _are_ways_around(sheet: Sheet, cells: tuple[At, ...]) -> bool:
    """Whether numbers are the hours or the degrees at which a part is measured around."""
    hours = [whole_number(sheet, at) for at in cells] == _AROUND
    return hours or bool(_angles(sheet, cells))


def _angles(sheet: Sheet, cells: tuple[At, ...]) -> tuple[int, ...]:
    """The degrees at which a part is measured across or around, () for other numbers."""
    values = [cell.value if (cell := sheet.cells.get(at)) else None for at in cells]
    turned = [
        int(v.rstrip(" °")) if isinstance(v, str) and _ANGLE.fullmatch(v) else v for v in values
    ]
    return next((angles for angles in _TURNED if turned == [*angles]), ())


def name_all_alike(head: Head) -> None:
    """Leave out what heads say beside their numbers where they count: "1 mag", "2 center"."""
    told = {c: w for c in head.texts if (w := head.which(c)) and w.number}
    if len(told) > 1 and is_run([w.number for w in told.values()]):
        head.index |= {c: w._replace(other="") for c, w in told.items() if w.other}


def _without_far(columns: Iterable[int]) -> list[int]:
    """Columns without a last one that stands apart from several side by side: a price."""
    near = [*columns]
    apart = len(near) > _FEWEST_BESIDE and near[-1] - near[-2] > 1
    return near[:-1] if apart and near[-2] - near[0] == len(near) - 2 else near
