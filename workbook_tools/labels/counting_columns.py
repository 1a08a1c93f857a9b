"""The columns of a table that count its rows, with which one each row is of."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import VALUES, At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.head import counted_part, picks_some
from workbook_tools.labels.row_names import is_code
from workbook_tools.labels.runs import is_run
from workbook_tools.labels.sheet_text import whole_number
from workbook_tools.labels.table import BareTable, holds, in_column
from workbook_tools.labels.vocabulary import meaning_of, noun_named
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts

_NUMBER_AND_WORD = re.compile(r"(?P<number>\d{1,2})\s+[^\W\d_]{2,}(?: end)?")
# Two that share a throw: "1/2".
_PAIR = re.compile(r"(?P<first>\d{1,2})\s?[-/&]\s?(?P<last>\d{1,2})")
_FEWEST_COUNTED = 2
# A column that counts on further than this numbers lines.
_MOST_OF_A_KIND = 24


def index_columns(
    table: BareTable, columns: Sequence[int]
) -> tuple[dict[int, dict[int, Which]], set[At]]:
    """Columns that count the rows, {column: {row: which}}, and their numbers behind a word."""
    found: dict[int, dict[int, Which]] = {}
    words: set[At] = set()
    for column in (c for c in columns if not _is_one_of_the_counted(table, c, columns)):
        first_one = column == columns[0]
        if told := _pairs_in(table, column) or (_counted_on(table, column) if first_one else {}):
            found[column] = told
            table.cells.indexes |= {(row, column) for row in told}
            continue
        cells = _without_note_below(table, in_column(table, column))
        numbered = [
            at for at in cells if table.cells.kinds[at] in VALUES and not _is_alone(table, at)
        ]
        worded = _counted_with_a_word(table, column) if numbered and column == columns[0] else {}
        words |= {*worded}
        numbered = sorted((*numbered, *worded))
        texts = table.head.texts.get(column, [])
        of = next((c for t in texts if (c := counts(t)) is not None), None)
        # A head that names a size makes no index of small sizes.
        first = column == columns[0] or not any(
            table.cells.kinds[at] in VALUES
            for c in columns
            if c < column
            for at in in_column(table, c)
        )
        named = bool(texts) and of is None and which_of(texts[0]) is None
        if column != columns[0] and (
            _says_where(table, texts, numbered) or _counts_each_name(table, column, numbered)
        ):
            found[column] = {at[0]: Which(table.cells.whole_number(at) or 0) for at in numbered}
            table.cells.indexes |= {at for at in numbered if table.cells.kinds[at] != "formula"}
            # What counts all rows before it numbers them, and says of none which one it is.
            if columns[0] in found and columns[0] != column - 1:
                found[columns[0]] = dict.fromkeys(found[columns[0]], NOTHING)
            continue
        headless = named and _heads_the_next(table, column, columns)
        # Whether sizes of what has a head of its own count is not asked.
        may = of is not None or first or headless
        may = may and (len(numbered) > 1 or (of is not None and column == columns[0]))
        rising = column == columns[0] and holds(table, column + 1, "text")
        some = column == columns[0] and bool(of)
        counted = tuple(numbered), tuple(worded.items())
        if may and (whole := table.cells.ask(_numbers_that_count, *counted, rising, some)):
            if (of is not None or (first and not named)) and len(numbered) * 2 >= len(cells):
                ok = len(whole) > 1 or whole[0] <= _MOST_OF_A_KIND
            elif headless and len(whole) > 1:
                ok = True
            elif first and named and len(whole) >= 2 and _only_counts(table, columns, whole):
                ok, of = True, counted_part(texts[0])
            else:
                ok = False
            if ok:
                lines = any(t.casefold().strip(" .:#") in words_of("line_heads") for t in texts)
                items = lines or (not of and _numbers_names(table, column, columns))
                found[column] = {
                    at[0]: NOTHING if items else Which(n, bank=_bank(texts), of=of or "")
                    for at, n in zip(numbered, whole, strict=True)
                }
                table.cells.indexes |= {at for at in numbered if table.cells.kinds[at] != "formula"}
    return found, words


def _is_one_of_the_counted(table: BareTable, column: int, columns: Sequence[int]) -> bool:
    """Whether heads count a column and others, behind names of rows that measure.

    "Bore 82.50 + | 1 | 2 | 2" below "cyl | 1 | 2 | 3": its first numbers count nothing.
    """
    counted = [c for c in columns if (w := table.head.index.get(c)) and w.number]
    names = [table.cells.text(*at) for at in in_column(table, columns[0])]
    measured = [t for t in names if t and which_of(t) is None and meaning_of(t).candidates]
    behind = column in counted and column != columns[0] and len(counted) > 1
    return behind and len(measured) * 2 > len(table.rows)


def _is_alone(table: BareTable, at: At) -> bool:
    """Whether a text stands alone in its row, as a limit below a table does: "max .060"."""
    alone = len(table.block.rows[at[0]]) == 1 and at[0] != table.rows[0]
    return alone and not table.cells.is_whole(at)


def _holds_fractions(table: BareTable, columns: Sequence[int]) -> bool:
    """Whether all numbers in some columns have digits behind a point."""
    places = tuple([at for c in columns for at in in_column(table, c)])
    return table.cells.ask(_are_fractions, places)


def _without_note_below(table: BareTable, cells: list[At]) -> list[At]:
    """Cells without a size with words alone in the last row: ".0058-.0065 per card"."""
    last = cells[-1] if len(cells) > _FEWEST_COUNTED else (0, 0)
    alone = last[0] == table.rows[-1] and len(table.block.rows[last[0]]) == 1
    return cells[:-1] if alone and table.cells.kinds[last] == "measured" else cells


def _only_counts(table: BareTable, columns: Sequence[int], whole: Sequence[int]) -> bool:
    """Whether a first column with a head of its own counts, and holds no sizes.

    "Valve clearance | In | Ex" over 1 2 3 4 says what the others leave out.
    """
    column = next(c for c in columns if c in table.head.texts)
    if not _is_sized(table.head.texts[column]):
        return True
    counted = [*whole] == [*range(1, len(whole) + 1)]
    if counted and len(whole) > _FEWEST_COUNTED and _holds_fractions(table, columns[1:]):
        return True  # "Lifter bores | bore | lifter" over 1 2 3 beside sizes.
    noun = noun_named(table.head.texts[column][0])
    others = [table.head.texts.get(c, ()) for c in columns if c != column]
    only = bool(noun) and all(
        texts and (which_of(texts[0]) is not None or noun_named(texts[0]) == noun)
        for texts in others
    )
    return only and len(others) > 1 and counted


def carry_down(
    table: BareTable, index: Mapping[int, dict[int, Which]], places: Sequence[int]
) -> set[int]:
    """The rows that only say where, or of which valve, which take the number above them.

    "1 | top", " | bottom"; "3 | in", " | ex".
    """
    begun_above = set()
    for column, told in index.items():
        last = NOTHING
        for row in table.rows:
            last = told.get(row, last)
            below = row not in told and (row, column) not in table.cells.kinds
            if below and last.number and any((row, c) in table.cells.kinds for c in places):
                told[row] = last
                begun_above.add(row)
    return begun_above


def _pairs_in(table: BareTable, column: int) -> dict[int, Which]:
    """The pairs that a column counts: 1/2, 3/4, 5/6; {} for any other column."""
    texts = {at: table.cells.text(*at) for at in in_column(table, column)}
    told = {at: found for at, text in texts.items() if (found := _PAIR.fullmatch(text))}
    pairs = [(int(found["first"]), int(found["last"])) for found in told.values()]
    if len(pairs) < _FEWEST_COUNTED or len(told) < len(texts):
        return {}
    if pairs != [(n, n + 1) for n in range(1, 2 * len(pairs), 2)]:
        return {}
    of = next((counted_part(t) for t in table.head.texts.get(column, ())), "")
    return {at[0]: Which(*pair, of=of) for at, pair in zip(told, pairs, strict=True)}


def _counted_on(table: BareTable, column: int) -> dict[int, Which]:
    """Which one each bare number of a column is of that counts on from a text: "Rod 1", 2, 3.

    {} where any number does not, or none stands below a text.
    """
    of = next((c for t in table.head.texts.get(column, ()) if (c := counts(t)) is not None), "")
    found: dict[int, Which] = {}
    last, named = Which(of=of), False
    for at in in_column(table, column):
        number = table.cells.whole_number(at) if table.cells.kinds[at] in VALUES else None
        if number is None:
            told = which_of(table.cells.text(*at)) or NOTHING
            last = told if told.number and told.of and not told.last else NOTHING
            continue
        if last is NOTHING or number != last.number + 1:
            return {}
        named = named or (last.number > 0 and at[0] - 1 not in found)
        last = found[at[0]] = last._replace(number=number)
    return found if named else {}


def _counted_with_a_word(table: BareTable, column: int) -> dict[At, int]:
    """The numbers of a count that a word stands behind, by cell: "1 snout", 2, "3 flange"."""
    told = {
        at: _NUMBER_AND_WORD.fullmatch(table.cells.text(*at)) for at in in_column(table, column)
    }
    if any(table.cells.kinds[at] not in VALUES for at, found in told.items() if found is None):
        return {}
    worded = {at: int(found["number"]) for at, found in told.items() if found}
    if not worded:
        return {}
    whole = [worded.get(at) or table.cells.whole_number(at) for at in sorted(told)]
    if whole != [*range(1, len(whole) + 1)]:
        return {}
    return worded


def _says_where(table: BareTable, texts: Sequence[str], numbered: Sequence[At]) -> bool:
    """Whether a column says which one each row is of, in whatever order."""
    head = texts[0].casefold().strip(" .:#") if texts else ""
    if not numbered or head not in words_of("place_heads"):
        return False
    whole = map(table.cells.whole_number, numbered)
    return all(n is not None and n <= _MOST_OF_A_KIND for n in whole)


def _counts_each_name(table: BareTable, column: int, numbered: Sequence[At]) -> bool:
    """Whether a column counts from 1 below each name before it: Bore 1 2 3, Piston 1 2 3."""
    names = [table.cells.text(row, column - 1) for row, _ in in_column(table, column)]
    if len(names) != len(numbered) or not all(names):
        return False
    begins = [n for n, (a, b) in enumerate(pairwise(names), 1) if a != b]
    expected = [n - max((b for b in begins if b <= n), default=0) + 1 for n in range(len(names))]
    if not begins or max(expected) <= 2:
        return False
    return [*map(table.cells.whole_number, numbered)] == expected


def _numbers_names(table: BareTable, column: int, columns: Sequence[int]) -> bool:
    """Whether a first column numbers the lines of a form, which measure different things."""
    rows = [row for row, _ in in_column(table, column)]
    if column != columns[0]:
        return False
    if len(rows) > _MOST_OF_A_KIND or any(_tells_places(table, c) for c in columns if c != column):
        return True
    names = [table.cells.text(row, column + 1) for row in rows]
    measured = [t for t in names if t and which_of(t) is None and meaning_of(t).candidates]
    return len({*measured}) * 2 > len(names) and len(measured) > 1


def _tells_places(table: BareTable, column: int) -> bool:
    """Whether a column says by texts of which one each row is: C1 C2 below "Repère"."""
    texts = [table.cells.text(*at) for at in in_column(table, column)]
    head = next(iter(table.head.texts.get(column, ())), "").casefold().strip(" .:#")
    coded = sum(is_code(text) for text in texts)
    return head in words_of("place_heads") and coded > 1 and coded * 2 > len(texts)


def _heads_the_next(table: BareTable, column: int, columns: Sequence[int]) -> bool:
    """Whether a head over a count speaks of the column behind it, which has none."""
    behind = column + 1
    return behind in columns and behind not in table.head.texts


def _is_sized(texts: Sequence[str]) -> bool:
    """Whether a head names a property that small whole numbers can be sizes of."""
    meaning = meaning_of(texts[0])
    return bool(meaning.candidates) and meaning.candidates[0].cost < 2


def _numbers_that_count(
    sheet: Sheet, cells: Sequence[At], worded: Sequence[tuple[At, int]], rising: bool, some: bool
) -> tuple[int, ...]:
    """The numbers of cells where they count, or there is but one; () where they are sizes.

    worded: those with words behind them; rising: whether they may number names: 6. 7. 8.;
    some: whether they may be some of what is counted.
    """
    told = dict(worded)
    whole = [told.get(at) or whole_number(sheet, at) for at in cells]
    numbers = tuple([n for n in whole if n is not None])
    if len(numbers) < len(whole):
        return ()
    counts_on = rising and all(a < b for a, b in pairwise(numbers))
    picked = some and picks_some(numbers)
    return numbers if len(numbers) == 1 or counts_on or picked or is_run(numbers) else ()


def _are_fractions(sheet: Sheet, cells: Sequence[At]) -> bool:
    """Whether cells hold numbers, and all of these have digits behind a point."""
    values = (sheet.cells[at].value for at in cells)
    numbers = [float(v) for v in values if isinstance(v, (int, float))]
    return len(numbers) > 1 and not any(map(float.is_integer, numbers))


def _bank(texts: Sequence[str]) -> str:
    """The bank that the head over a count names and no more: "L bank" over 1 2 3."""
    said = which_of(texts[0]) if texts else None
    return said.bank if said is not None and not said.number and not said.at else ""


def repeats(counted: Collection[Which]) -> bool:
    """Whether a column counts several rows as one and the same."""
    return len({which.number for which in counted}) < len(counted)
