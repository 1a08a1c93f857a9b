"""The titles and heads of a block: what stands over its values."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import VALUES, At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import is_step, is_unit
from workbook_tools.labels.head import Head, counted_part, of_stations, picks_some
from workbook_tools.labels.labeled_values import says_a_size
from workbook_tools.labels.nominal_sizes import is_nominal
from workbook_tools.labels.settled_heads import (
    WORKED,
    are_of_springs,
    count_bearings,
    height_told,
    says_nothing,
    settle,
)
from workbook_tools.labels.several_sizes import placed_sizes
from workbook_tools.labels.sheet_text import SheetText, whole_number
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.titles import (
    MOST_WORDS_OF_A_TITLE,
    before_units,
    clause_of_a_corner,
    first_clause,
    is_of_units,
    leads_with_a_name,
    names_one_thing,
    parts_of_a_corner,
    surely_measures,
    without_limit_behind,
    without_nearness,
)
from workbook_tools.labels.vocabulary import (
    NO_SIZES,
    meaning_of,
    noun_named,
    unit_in,
    without_unit,
)
from workbook_tools.labels.which import (
    NOTHING,
    Which,
    from_the_front,
    is_firing_order,
    is_run,
    roman,
    sided,
    which_of,
)
from workbook_tools.labels.written_limits import limit_in, without_limit
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

# A list of steps has no size in its first ones.
_MOST_UNFILLED = 8
# Heads of more rows are none.
_MOST_SUBHEADS = 3
# A list with so many heads, one of them of units, has its sizes below "value".
_MANY_HEADS = 5
# What a sentence tells that is no title: "skimmed, now at 0.02".
_ENDS_WITH_A_SIZE = re.compile(r"[^\W\d_]{2,}\s+\d*[.,]\d{2,}$")
# What the numbers below may be so many of, or the size itself: "Mains .001". Of the size itself
# no number below is so many times as much.
_BARE_PARTS = re.compile(r"(?P<name>.*[^\W\d_]{2,}\.?) (?P<step>0?[.,]0{2,3}1)")
_MANY_STEPS = 100
_DASHES = ("-", "–", "—")
# A list's heads say two of these: which one, how much, in what unit.
_FEWEST_OF_A_LIST = 2
# What a head that says "value" beside limits says: no more than that a number stands below.
_PLAIN_HEAD = "size"
# A part with its number: "Pin 1". So many side by side count.
_NUMBERED = re.compile(r"(?P<part>[^\W\d][^\d]*?)[ #.]*(?P<number>\d{1,2})")
_FEWEST_PARTS = 2
# Rows that count do so from the first ones.
_ROWS_COUNTED = 3
# Where on a flange: no parts are numbered so.
_AROUND = [12, 3, 6, 9]
# What counts the parts of a form, before their titles.
_LETTER_OF_A_PART = re.compile(r"(?:[A-Z]|[IVX]{1,4}|\d{1,2}(?=[.)]))[.)]?")
# So many side by side are a row of their own.
_FEWEST_BESIDE = 3
# Two that are measured together: "1/2".
_PAIR = re.compile(r"(\d{1,2}) ?[/&+-] ?(\d{1,2})")
# A text with more than one tells what others are called for: "IN 0.20, EX 0.25".
_SIZE = re.compile(r"(?<![\d.,])\d*[.,]\d{2,}\b")
# "Guide wear by rocking. Ex only"
_ONE_SIDE = re.compile(r"\b([^\W\d_]{2,8})\.? only\b", re.IGNORECASE)
# What "Decked" says over sizes near those as found, and how near these are.
_CUT_TO = "machined"
# How far under or over size: "Rectificado -0,25".
_STEP_BEHIND = re.compile(r"\s[+\-−–]?\s?\d*[.,]?\d+$")
_NEAR = 0.05
_BANKS = ("L", "R")
# Of valves, over what is measured of each.
_SIDES = ("intake", "exhaust")


# What a head says over places on a bore: how high they lie.
_HOW_HIGH = ("height", "compression_height", "depth")


def says_where_alone(text: str) -> bool:
    """Whether a head over places says no more than that: "Height", "Direction"."""
    meaning = meaning_of(text)
    measures = bool(meaning.candidates or meaning.part) or which_of(text) is not None
    return (not meaning.part and noun_named(text) in _HOW_HIGH) or not measures


class Heads:
    """The titles and heads of one block, found from the top down.

    titles: those over the rows reached, the nearest first; side: the intake or exhaust that a
    title names.
    """

    def __init__(self, cells: SheetText, block: Block, title: str = "") -> None:
        self.cells = cells
        self.block = block
        self.kinds = cells.kinds
        self.rows = list(block.rows)
        self.titles: list[str] = [title] if title else []
        self.side = ""
        self._known: dict[int, Head | None] = {}

    def is_of_job(self, row: int) -> bool:
        """Whether the texts of a row are fields of the job with their values: "Customer: Smith"."""
        texts = [self.cells.text(row, c) for c in self.block.rows[row]]
        named = [text.partition(":") for text in texts]
        told = [field for field, colon, value in named if colon and value.strip()]
        filled = len(told) > 1 and len(told) >= len(texts) - 1
        return filled and any(map(self.cells.vocabulary.job_field, told))

    def begin_at(self, at: int) -> bool:
        """Whether a title or heads begin in a row, or fields of the job."""
        return (
            self.is_of_job(self.rows[at])
            or self.is_title(self.rows[at])
            or self.head_at(at) is not None
        )

    def is_title(self, row: int) -> bool:
        """Whether a row holds one text alone that stands over what is below it."""
        if self._title_behind_letter(row):
            return True
        columns = self.block.rows[row]
        dated = self._is_behind_a_date(row)
        columns = columns[1:] if dated else columns
        if len(columns) == 2 and self._says_no_head(row, columns[1]):
            columns = columns[:1]
        if len(columns) != 1 or self.kinds[row, columns[0]] not in ("text", "remark"):
            return False
        text = self.cells.text(row, columns[0])
        if not text or _ENDS_WITH_A_SIZE.search(without_limit_behind(text)):
            return False
        # A text alone under values, and not where the names of rows stand, is a remark.
        first = dated or row == self.rows[0]
        return first or columns[0] == self.block.left or (row - 1, columns[0]) not in self.kinds

    def _is_behind_a_date(self, row: int) -> bool:
        """Whether a row holds a date and a text: "3 Feb | Mic'd the cylinders"."""
        kinds = [self.kinds[row, c] for c in self.block.rows[row]]
        return kinds in (["date", "text"], ["date", "remark"])

    def _says_no_head(self, row: int, column: int) -> bool:
        """Whether a text beside a title heads nothing: a remark, a limit, or nothing below it."""
        said = self.cells.text(row, column)
        if self._is_remark(row, column) or limit_in(said).limit:
            return True
        if self.kinds[row, column] == "text" and len(_SIZE.findall(said)) > 1:
            return True
        below = [r for r in self.rows if r > row]
        text = self.kinds[row, column] in ("text", "remark")
        return text and bool(below) and not any((r, column) in self.kinds for r in below)

    def _title_behind_letter(self, row: int) -> str:
        """The title of a part of a form behind the letter that counts it: "B | PISTONS"."""
        columns = self.block.rows[row]
        if len(columns) != 2 or columns[0] != self.block.left:
            return ""
        letter, title = (self.cells.text(row, c) for c in columns)
        is_text = self.kinds[row, columns[1]] == "text"
        counted = _LETTER_OF_A_PART.fullmatch(letter) and is_text and which_of(title) is None
        below = self.cells.text(row + 1, columns[0])
        of_rows = _LETTER_OF_A_PART.fullmatch(below) and self._measures(title)
        return title if counted and not of_rows else ""

    def _is_remark(self, row: int, column: int) -> bool:
        """Whether a cell holds a sentence, with nothing below it that it could head."""
        words = self.cells.text(row, column).split()
        is_text = self.kinds[row, column] in ("text", "remark")
        below = self.kinds.get((row + 1, column))
        heads = below in (*VALUES, "unit") or which_of(self.cells.text(row + 1, column)) is not None
        return is_text and len(words) > _FEWEST_BESIDE and not heads

    def take_title(self, row: int) -> None:
        """Take a row for the title of what stands below it."""
        letter = self._title_behind_letter(row)
        first = self.block.rows[row][1 if self._is_behind_a_date(row) else 0]
        text = letter or self.cells.text(row, first)
        of_units = is_of_units(text)
        if of_units and (name := before_units(text)):
            text, of_units = name, False
        limited = without_limit_behind(text)
        of_a_limit = limited != text and len(limited.split()) <= MOST_WORDS_OF_A_TITLE
        kind = self.kinds[row, first]
        long = row == self.rows[0] and (names_one_thing(text) or leads_with_a_name(text))
        if (of_a_limit or kind == "text" or long) and not of_units:
            said = which_of(text)
            if said is not None and said.side:
                self.side = said.side
            else:
                only = _ONE_SIDE.search(text)
                side = which_of(only[1]) if only else None
                self.titles = [first_clause(text), *self._titles_kept(said)][:2]
                self.side = side.side if side else ""

    def _titles_kept(self, said: Which | None) -> list[str]:
        """The titles so far, without one that says when, where the next one says it again."""
        before = which_of(self.titles[0]) if self.titles else None
        again = said is not None and said.stage and before is not None and before.stage
        return self.titles[1:] if again else self.titles

    def head_at(self, at: int) -> Head | None:
        """The heads that begin in a row, None where none do."""
        if at not in self._known:
            self._known[at] = self._find_head(at)
        return self._known[at]

    def _find_head(self, at: int) -> Head | None:
        row = self.rows[at]
        if not self._is_head(at):
            return None
        rows = [row]
        for below in self.rows[at + 1 : at + 1 + _MOST_SUBHEADS]:
            counted = below == rows[-1] + 1 and bool(self._index_of_row(below))
            if not counted and not self._is_subhead(below, rows[-1]):
                break
            if self._is_title_of_rows(below) or self.is_of_job(below):
                break
            if self._title_behind_letter(below):
                break
            if counted and self._index_of_row(rows[-1]):
                break
            rows.append(below)
        return self._read_head(rows)

    def _is_title_of_rows(self, row: int) -> bool:
        """Whether a text alone says what the rows below it measure, and heads nothing."""
        columns = self.block.rows[row]
        return columns == (self.block.left,) and self._measures(self.cells.text(row, columns[0]))

    def _is_head(self, at: int) -> bool:
        row = self.rows[at]
        columns = self.block.rows[row]
        index = self._index_of_row(row)
        if self._days_over_sizes(row) or self._stands_over_products(row):
            return True
        if self._holds_more_than_heads(row, index):
            return False
        if self._says_when_over_heads(at):
            return True
        below = self._first_values_below(at, columns)
        over = [c for c in columns if c in below and self.kinds[row, c] != "nothing"]
        if index:
            held = [c for c in index if c in below]
            return len(held) * 2 >= len(index) and self._not_counted_below(at, index)
        texts = self._differing([c for c in over if self.cells.text(row, c)], row)
        if not texts and self._over_names(row):
            return True
        if self.cells.job_fields(row, columns) >= 2 and not self._begins_with_a_job_field(
            at + 1, columns[0]
        ):
            return bool(texts)
        if texts and len(columns) > len(texts) + 1 and self._is_of_a_list(row):
            return True
        return self._heads_by_texts(at, texts, bool(below))

    def _days_over_sizes(self, row: int) -> list[int]:
        """The columns headed by the days of their sizes: "Bore (mm) | 3 Feb | 19 Feb"."""
        first, *days = self.block.rows[row]
        about = self.cells.text(row, first)
        named = surely_measures(about) or (counts(about) is not None and bool(self.titles))
        all_days = all(self.kinds[row, c] == "date" for c in days)
        below = all(self.cells.is_number((row + 1, c)) for c in days)
        return days if len(days) > 1 and named and all_days and below else []

    def _over_names(self, row: int) -> list[int]:
        """The columns of banks that stand over names, each with its values in the next column.

        "Left | | Right" over "front | 62.4 | front | 62.6".
        """
        told = [c for c in self.block.rows[row] if c > self.block.left]
        banks = [w.bank for c in told if (w := which_of(self.cells.text(row, c))) and w.bank]
        over = all(
            (row, c + 1) not in self.kinds
            and self.kinds.get((row + 1, c)) == "text"
            and self.cells.is_number((row + 1, c + 1))
            for c in told
        )
        return told if over and len(told) > 1 and len({*banks}) == len(told) else []

    def _heads_by_texts(self, at: int, texts: Sequence[int], over_values: bool) -> bool:
        """Whether the texts of a row that differ are heads, by what they speak of."""
        row = self.rows[at]
        columns = self.block.rows[row]
        told = [c for c in texts if self._speaks(row, c) or self._tells_state(row, c)]
        if any(self.kinds[row, c] == "unit" for c in told):
            # "Nm | plus degrees"
            told = [c for c in texts if c in told or unit_in(self.cells.text(row, c))]
        few = len(texts) * 2 < len(columns) - 1 and len(told) < 2
        if not texts or (few and not self._is_of_empty_columns(row)):
            return False
        first = columns[0]
        named_below = self._named_below(at, first)
        if len(columns) == 1:
            leads = at == 0 or self.is_title(self.rows[at - 1])
            return leads and bool(over_values and told)
        if len(texts) > 1 and self._is_of_a_list(row):
            return True
        if columns[0] > self.block.left and len({*texts}) > 1:
            parts = [meaning_of(self.cells.text(row, c)).part for c in columns]
            if all(parts) and len({*parts}) == len(columns):
                return True  # "Block | Head" over what is measured of both.
        if len(texts) >= 3:
            return len(told) >= 1
        if len(columns) == 2 and named_below and texts == [columns[1]]:
            said = which_of(self.cells.text(row, columns[1]))
            return said is not None and not self.cells.is_job_field(row, first)
        field = len(columns) == 2 and self.cells.is_job_field(row, first)
        return len(told) == len(texts) and not field

    def _says_when_over_heads(self, at: int) -> bool:
        """Whether the texts of a row over a row of heads only say when, or of which side."""
        row = self.rows[at]
        told = [which_of(self.cells.text(row, c)) or NOTHING for c in self.block.rows[row]]
        when = all(w.stage and not w.tells for w in told) and len({w.stage for w in told}) > 1
        side = all(w == Which(side=w.side) for w in told) and len({w.side for w in told} - {""}) > 1
        below = self.rows[at + 1 : at + 2]
        return (when or side) and below == [row + 1] and self._is_head(at + 1)

    def _is_of_empty_columns(self, row: int) -> bool:
        """Whether a row of texts heads columns of which few are filled in: most measure."""
        columns = self.block.rows[row]
        told = sum(self._measures(self.cells.text(row, c)) for c in columns)
        if self._counts_by_texts(row):
            return True
        named = which_of(self.cells.text(row + 1, columns[0])) is not None
        return named and told >= _FEWEST_BESIDE and told >= len(columns) - 1

    def _counts_by_texts(self, row: int) -> bool:
        """Whether texts of a row count cylinders on from the first: "CYLINDER | No.1 | No.2".

        A form that is printed for several serves an engine of one too.
        """
        told = (which_of(self.cells.text(row, c)) or NOTHING for c in self.block.rows[row])
        numbers = [w.number for w in told if w == Which(w.number, of=w.of) and w.number]
        first = counts(self.cells.text(row, self.block.rows[row][0]))
        counted = numbers == [*range(1, len(numbers) + 1)] and len(numbers) >= _FEWEST_BESIDE
        return counted and first == "cylinder"

    def _holds_more_than_heads(self, row: int, index: Sequence[int]) -> bool:
        """Whether a row holds dates, formulas, or numbers that do not count."""
        kinds = {self.kinds[row, c] for c in self.block.rows[row]}
        return bool(kinds & {"date", "formula"}) or (bool(kinds & {*VALUES}) and not index)

    def _differing(self, columns: Sequence[int], row: int) -> Sequence[int]:
        """Columns with texts, none where all say the same: "not done" heads nothing."""
        texts = {self.cells.text(row, c) for c in columns}
        return columns if len(columns) == 1 or len(texts) > 1 else ()

    def _is_of_a_list(self, row: int) -> bool:
        """Whether a row heads a list of values: which one, how much, in what unit, its limit."""
        texts = [self.cells.text(row, c) for c in self.block.rows[row]]
        over = {text.casefold().strip(" .:#") for text in texts}
        kinds = ("value_heads", "unit_heads", "place_heads")
        limits = any(w is not None and w.stage in NO_SIZES for w in map(which_of, texts))
        found = sum(bool(over & words_of(kind)) for kind in kinds) + limits
        return found >= _FEWEST_OF_A_LIST

    def _begins_with_a_job_field(self, at: int, column: int) -> bool:
        return at < len(self.rows) and self.cells.is_job_field(self.rows[at], column)

    def _speaks(self, row: int, column: int) -> bool:
        """Whether a text names something measured, or one of several alike."""
        text = self.cells.text(row, column)
        if says_a_size(text):
            return False  # "1st .014, 2nd .014" is what others are called for.
        if which_of(text) is not None or counts(text) is not None:
            return True
        if height_told(text) is not None:
            return are_of_springs(self.titles)
        return text.casefold().strip(" .:#") in words_of("place_heads") or self._measures(text)

    def _tells_state(self, row: int, column: int) -> bool:
        """Whether a text names a state of what the first one of its row names: springs, open."""
        first = self.block.rows[row][0]
        about = self.cells.text(row, first) if column != first else ""
        if not about or not surely_measures(about):
            return False
        both = meaning_of(self.cells.text(row, column), (about,))
        return bool(both.conditions and both.candidates) and both.candidates[0].cost == 0

    def _measures(self, text: str) -> bool:
        return bool(meaning_of(text, tuple(self.titles)).candidates)

    def _named_below(self, at: int, column: int) -> bool:
        """Whether the text below a row's first cell names something measured."""
        for row in self.rows[at + 1 : at + 2]:
            text = self.cells.text(row, column)
            if text:
                alone = which_of(text) is None and counts(text) is None
                return alone and bool(meaning_of(text).candidates)
        return False

    def _index_of_row(self, row: int) -> list[int]:
        """The columns in which a row counts, [] where it does not."""
        columns = self.block.rows[row]
        numbers = _without_far(c for c in columns if self.kinds[row, c] in VALUES)
        places = tuple([(row, c) for c in numbers])
        around = len(places) == len(_AROUND) and numbers[0] > self.block.left
        if around and self.cells.ask(_are_hours, places):
            return numbers
        if self._is_one_of_a_count(row):
            return []
        if counted := self._counted(row, numbers):
            before = [self.cells.text(row, c) for c in columns if c < numbers[0]]
            named = [t for t in before if counts(without_unit(t)) is None and which_of(t) is None]
            runs = len(counted) // max(counted)
            counts_on = counted == (*range(1, max(counted) + 1),) * runs and len(counted) > 2
            measured = any(surely_measures(text) for text in named)
            whole = sorted(counted) == [*range(1, len(counted) + 1)]
            if measured and is_firing_order(counted):
                return []  # Readings that happen to be one: "Leak % | 1 | 3 | 4 | 2".
            if measured and not whole and self._sizes_stand_over(row, numbers):
                return []  # "Protrusion (1/100) | 6 | 5 | ? | 4" counts nothing.
            if named and self._others_stand_over(row, numbers):
                return []  # "Twist | 1 | 2" below "Bank | L | R" does not either.
            if len(named) <= 1 or (counts_on and (not measured or self._over_sizes(row, numbers))):
                return numbers
        if between := self._between_ends(row) or self._between_counts(row):
            return between
        romans = [c for c in columns if roman(self.cells.text(row, c))]
        if len(romans) >= 2 and is_run([roman(self.cells.text(row, c)) for c in romans]):
            return romans
        return self._in_pairs(row) or self._numbered_parts(row) or [*self._stations(row)]

    def _over_sizes(self, row: int, columns: Sequence[int]) -> bool:
        """Whether sizes stand below all of some columns, in the next row."""
        return all(self._is_size(row + 1, c) for c in columns)

    def _is_one_of_a_count(self, row: int) -> bool:
        """Whether a row is a number that counts down and one size: "2 | 4" below "1 | 3"."""
        columns = self.block.rows[row]
        if len(columns) != 2 or columns[0] != self.block.left:
            return False
        at = [self.cells.whole_number((r, columns[0])) for r in (row - 1, row, row + 1)]
        before, own, after = at
        return own is not None and (before == own - 1 or after == own + 1)

    def _stations(self, row: int) -> dict[int, Which]:
        """Which one each column is of where a row numbers mains and rods: "MB-1 | CR-1"."""
        texts = {c: self.cells.text(row, c) for c in self.block.rows[row]}
        first = min(texts)
        told = of_stations(texts) or of_stations({c: t for c, t in texts.items() if c != first})
        return told if len(told) >= _FEWEST_PARTS else {}

    def _counted(self, row: int, columns: Sequence[int]) -> tuple[int, ...]:
        """The numbers of a row where they count, some of all behind "cyl"; () for sizes."""
        if len(columns) < 2:
            return ()
        of_cylinders = counts(self.cells.text(row, self.block.rows[row][0])) == "cylinder"
        return self.cells.ask(_counted, tuple([(row, c) for c in columns]), of_cylinders)

    def _sizes_stand_over(self, row: int, columns: Sequence[int]) -> bool:
        """Whether the row above holds values in the columns of one that may count."""
        return all(self.cells.is_value((row - 1, c)) for c in columns)

    def _others_stand_over(self, row: int, columns: Sequence[int]) -> bool:
        """Whether the row above tells banks, or cylinders, in the columns of one that may count."""
        over = [which_of(self.cells.text(row - 1, c)) or NOTHING for c in columns]
        return all(w.bank and not w.number for w in over) or all(
            w.of == "cylinder" and w.number for w in over
        )

    def _between_ends(self, row: int) -> list[int]:
        """The columns of 2 and 3 between "Front" and "Rear", [] where they do not count on."""
        columns = self.block.rows[row]
        numbers = [c for c in columns if self.kinds[row, c] in VALUES]
        if not numbers:
            return []
        beside = (which_of(self.cells.text(row, c)) for c in (numbers[0] - 1, numbers[-1] + 1))
        ends = [w.at if w and not w.number else () for w in beside]
        if ends != [("front",), ("rear",)]:
            return []
        counted = [self.cells.whole_number((row, c)) for c in numbers]
        return numbers if counted == [*range(2, 2 + len(numbers))] else []

    def _between_counts(self, row: int) -> list[int]:
        """The columns of bare numbers that count on from texts that do: "#1", 2, "#3"."""
        columns = self.block.rows[row]
        numbers = [c for c in columns if self.kinds[row, c] in VALUES]
        told = {c: which_of(self.cells.text(row, c)) for c in columns if c not in numbers}
        counted = {c: w.number for c, w in told.items() if w and w == Which(w.number)}
        if not counted:
            return []
        every = sorted((*counted, *numbers))
        run = [counted.get(c) or self.cells.whole_number((row, c)) for c in every]
        return numbers if run == [*range(1, len(run) + 1)] and run[2:] else []

    def _in_pairs(self, row: int) -> list[int]:
        """The columns in which a row counts in pairs: 1/2, 3/4, 5/6, or 1/5, 2/6, 3/7, 4/8."""
        texts = {c: self.cells.text(row, c) for c in self.block.rows[row]}
        pairs = {c: (int(t[1]), int(t[2])) for c in texts if (t := _PAIR.fullmatch(texts[c]))}
        many, found = len(pairs), [*pairs.values()]
        counted = [(n, n + 1) for n in range(1, 2 * many, 2)]
        across = [(n, n + many) for n in range(1, many + 1)]
        return [*pairs] if many >= 2 and found in (counted, across) else []

    def _numbered_parts(self, row: int) -> list[int]:
        """The columns in which a row counts parts that can be measured too: "Pin 1", "Pin 2"."""
        columns = self.block.rows[row]
        named = {c: told for c in columns if (told := _NUMBERED.fullmatch(self.cells.text(row, c)))}
        words = {told["part"].casefold() for told in named.values()}
        others = [self.cells.text(row, c) for c in columns if c not in named]
        # "Min" and "Max" before them, "Mean" and "OK" behind them, count nothing.
        plain = [t for t in others[1:] if (w := which_of(t)) is None or w.tells]
        few = len(plain) > len(named) // 2 if len(named) > _FEWEST_PARTS else bool(plain)
        if len(words) != 1 or few or len(named) < _FEWEST_PARTS:
            return []
        counted = [int(told["number"]) for told in named.values()]
        one = self.cells.text(row, next(iter(named)))
        return [*named] if counted_part(*words) and is_run(counted) and not which_of(one) else []

    def _not_counted_below(self, at: int, index: Sequence[int]) -> bool:
        """Whether what stands below an index is no index of its own."""
        if at + 1 >= len(self.rows):
            return False
        below = tuple([(self.rows[at + 1], c) for c in index])
        return not self.cells.ask(_begins_to_count, below)

    def _first_values_below(self, at: int, columns: Sequence[int]) -> set[int]:
        """The columns in which a value stands below, heads and units between left out."""
        found = set()
        for column in columns:
            looked = 0
            of_several = self.rows[at] if self._reaches_on(self.rows[at], column) else 0
            for row in self.rows[at + 1 : at + 2 + _MOST_UNFILLED]:
                here = (row, column)
                if here not in self.kinds:
                    continue
                looked += 1
                if looked > 1 + _MOST_SUBHEADS:
                    break
                text = self.cells.text(row, column)
                if len(placed_sizes(text)) == 1:
                    break  # "#2 75.8 cc" is headed by a title, if by anything.
                if self.cells.is_value(here) or _A_RANGE.fullmatch(text):
                    found.add(column)
                    break
                is_head = text and (which_of(text) is not None or row == of_several + 1)
                if self.kinds[here] != "unit" and not is_head:
                    break
        return found

    def _reaches_on(self, row: int, column: int) -> bool:
        """Whether a head is over several columns with heads of their own: merged, or left empty."""
        over = self.cells.sheet.merged.get((row, column))
        if over is not None and over[1] > column:
            return True
        text = self.cells.text(row, column)
        below = {self.kinds.get((row + 1, c)) for c in (column, column + 1)}
        alone = (row, column + 1) not in self.kinds and below == {"text"}
        alone = alone and len(self.block.rows[row]) > 1
        said = which_of(text) if alone else None
        return alone and (bool(said.tells or said.stage) if said else surely_measures(text))

    def _is_subhead(self, row: int, over: int) -> bool:
        """Whether a row below heads holds more of them: units, V and H, min and max."""
        columns = tuple(c for c in self.block.rows[row] if not is_step(self.cells.text(row, c)))
        if any(self.kinds[row, c] in (*VALUES, "date", "remark") for c in columns):
            return False
        if row != over + 1:
            return False
        columns = tuple(c for c in columns if self.cells.text(row, c) not in _DASHES)
        texts = [self.cells.text(row, c) for c in columns]
        if not columns or any(
            self.kinds[row, c] == "nothing" and which_of(t) is None and c != self.block.left
            for c, t in zip(columns, texts, strict=True)  # "No" before all is a number's head.
        ):
            return False
        told = [which_of(t) is not None or is_unit(t) for t in texts]
        if 2 * sum(told) >= len(told) and (len(told) > 1 or columns[0] != self.block.left):
            return True
        at = self.rows.index(row)
        return len(columns) > 1 and self._is_head(at)

    def _read_head(self, rows: list[int]) -> Head:
        head = Head(rows, self.block, is_list=self._is_of_a_list(rows[0]))
        index_rows = {row: self._index_of_row(row) for row in rows}
        for column in range(self.block.left, self.block.right + 1):
            counts_here = [row for row in reversed(rows) if column in index_rows[row]]
            for row in counts_here:
                self._count(head, row, column)
            texts = self._texts_over(column, [r for r in rows if r not in counts_here], rows)
            if texts and not counts_here and self._is_over_ranges(texts[0], rows[-1], column):
                texts[0] = _OVER_RANGES
            if texts and (parts := _BARE_PARTS.fullmatch(texts[0])):
                texts[0] = self._in_parts(parts, rows[-1], column)
            if texts:
                head.texts[column] = texts
                said = [w for t in texts if (w := which_of(t)) is not None]
                for which in said if column in head.index else ():
                    head.index[column] = head.index[column].beside(which)
        for row, index in index_rows.items():
            self._take_banks_before(head, row, index)
            if index and row != rows[-1]:
                self._count_spanned(head, row, index)
        self._take_days(head)
        self._reach_over_values(head)
        self._take_units_over(head)
        self._mark_plain(head)
        self._say_when_cut(head)
        self._say_when_finished(head)
        self._name_products(head)
        settle(head, self.titles)
        plain = {c: w for c in head.texts if c not in head.index and (w := head.which(c))}
        told = dict(sorted((plain | head.index).items()))
        counted = sided(told if self._counts_below(rows[-1]) else from_the_front(told))
        head.index |= {c: w for c, w in counted.items() if c in plain and w is not plain[c]}
        for row, index in index_rows.items():
            self._read_corner(head, row, index)
        self._read_unit_behind(head)
        count_bearings(head)
        _name_all_alike(head)
        return head

    def _take_banks_before(self, head: Head, row: int, index: Sequence[int]) -> None:
        """Take the banks that stand before their numbers in a row: "Left | 1 | 2 | Right | 1"."""
        texts = {c: which_of(self.cells.text(row, c)) for c in self.block.rows[row]}
        banks = {c: w.bank for c, w in texts.items() if w and w == Which(bank=w.bank) and w.bank}
        if len({*banks.values()}) < len(_BANKS) or not index:
            return
        for column in index:
            before = [bank for c, bank in sorted(banks.items()) if c < column]
            if before and column in head.index:
                head.index[column] = head.index[column].beside(Which(bank=before[-1]))

    def _take_days(self, head: Head) -> None:
        """Take the days over columns for heads that say nothing else of these."""
        head.days = self._days_over_sizes(head.rows[0])
        for column in head.days:
            head.texts.pop(column, None)
            head.index[column] = NOTHING

    def _reach_over_values(self, head: Head) -> None:
        """Take the banks over names for the values behind these."""
        for column in self._over_names(head.rows[0]) if len(head.rows) == 1 else ():
            head.texts[column + 1] = head.texts.pop(column)

    def _read_unit_behind(self, head: Head) -> None:
        """The unit of all in brackets behind the heads, where nothing stands below it: "(thou)"."""
        column = max(head.texts, default=0)
        text = next(iter(head.texts.get(column, ())), "")
        unit = text[1:-1].strip() if text[:1] + text[-1:] == "()" else ""
        below = any(column in self.block.rows[row] for row in self.rows if row > head.rows[-1])
        if is_unit(unit) and not below:
            head.corner_units.append(unit)

    def _take_units_over(self, head: Head) -> None:
        """Take the units of a row over heads: each holds up to the next one, where it can."""
        row, unit = head.rows[0] - 1, ""
        if row not in self.block.rows or not self._holds_units(row):
            return
        for column in range(self.block.left, self.block.right + 1):
            unit = self.cells.text(row, column) or unit
            texts = head.texts.get(column, [])
            if unit and texts and not any(map(unit_in, texts)) and _can_be_in(texts[0], unit):
                texts.append(unit)

    def _mark_plain(self, head: Head) -> None:
        """Say of heads over values, "Reading" beside limits, that a number stands below them."""
        limits = [c for c in head.texts if (w := head.which(c)) and w.stage in NO_SIZES]
        over = {t.casefold() for texts in head.texts.values() for t in texts}
        listed = len(head.texts) >= _MANY_HEADS and over & words_of("unit_heads")
        for texts in head.texts.values() if limits or listed else ():
            staged = (w := which_of(texts[0])) is not None and w.stage
            if texts[0].casefold() in words_of("value_heads") and (limits or not staged):
                texts[0] = _PLAIN_HEAD

    def _say_when_cut(self, head: Head) -> None:
        """Say of "Decked" beside "Found" and over sizes near it that it is when, not how much."""
        taken = [c for c in head.texts if (w := head.which(c)) and w.stage == "found"]
        below = tuple(r for r in self.rows if r > head.rows[-1])
        for column, texts in head.texts.items() if len(taken) == 1 else ():
            word = _STEP_BEHIND.sub("", texts[0])
            alone = len(texts) == 1 and len(word.split()) == 1
            if alone and _is_cut(word) and self.cells.ask(_are_near, below, column, taken[0]):
                texts[0] = _CUT_TO

    def _say_when_finished(self, head: Head) -> None:
        """Say of the one head that says nothing, over numbers, that these are the finished sizes.

        "As found | Limit | Fitted | Init." or "Spec | Got", where no other head says so.
        """
        told = {c: w.stage for c in head.texts if (w := head.which(c)) and not w.tells}
        stages = {*told.values()}
        if head.index or not stages & ({"found", *NO_SIZES} - {"computed"}) or stages & {*WORKED}:
            return
        others = [c for c in head.texts if not told.get(c) and c > min(head.texts)]
        below = [r for r in self.rows if r > head.rows[-1]]
        numbers = {c: [r for r in below if self._is_size(r, c)] for c in others}
        sized = [c for c in others if len(numbers[c]) > 1]
        if len(sized) == 1 and says_nothing(head.texts[sized[0]][0]):
            head.texts[sized[0]] = ["finished", *head.texts[sized[0]][1:]]

    def _stands_over_products(self, row: int) -> bool:
        """Whether three texts stand over numbers of which the third are so many times the first."""
        below = tuple(r for r in self.rows if r > row)
        texts = [c for c in self.block.rows[row] if self.cells.text(row, c)]
        firsts = [c for c in texts[1:] if {c + 1, c + 2} <= {*texts}]
        return any(self.cells.ask(_are_products, below, first) for first in firsts)

    def _name_products(self, head: Head) -> None:
        """Say of three columns, where the third is so many times the first, what each of them is.

        "ea | x | g" over what each part of a bobweight weighs.
        """
        below = tuple(r for r in self.rows if r > head.rows[-1])
        for first in [c for c in head.texts if {c + 1, c + 2} <= head.texts.keys()]:
            if {first, first + 1, first + 2} & head.index.keys():
                continue
            if self.cells.ask(_are_products, below, first):
                over = (*head.texts[first], *head.texts[first + 2])
                unit = next(filter(is_unit, over), "")
                head.texts[first] = [f"each ({unit})" if unit else "each"]
                head.texts[first + 1], head.texts[first + 2] = ["qty"], ["total"]
                return

    def _is_size(self, row: int, column: int) -> bool:
        """Whether a cell holds a number that does not only count."""
        return self.cells.is_number((row, column)) and not self.cells.is_whole((row, column))

    def _count_spanned(self, head: Head, row: int, index: Sequence[int]) -> None:
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
                if (row, column) not in self.kinds and column not in head.index:
                    told = [w for t in head.texts[column] if (w := which_of(t)) is not None]
                    count = head.index[first]._replace(at=(), side="", stage="")
                    head.index[column] = count.beside(told[0]) if told else count

    def _is_over_ranges(self, text: str, row: int, column: int) -> bool:
        """Whether a head that names nothing stands over ranges: what it says are limits."""
        if which_of(text) is not None or surely_measures(text):
            return False
        below = [self.cells.text(r, column) for r in self.rows if r > row]
        held = [t for t in below if t]
        ranges = [t for t in held if _A_RANGE.match(t)]
        return len(ranges) >= _FEWEST_RANGES and len(ranges) * 2 > len(held)

    def _in_parts(self, head: re.Match[str], row: int, column: int) -> str:
        """A head with the size that the numbers below it are so many of marked as such."""
        below = tuple(r for r in self.rows if r > row and self.cells.is_value((r, column)))
        step = float(head["step"].replace(",", "."))
        many = self.cells.ask(_are_many_steps, below, column, step)
        if many:
            self.cells.indexes.add((row, column))  # It says no size of its own.
        return f"{head['name']} ({head['step']})" if many else head[0]

    def _count(self, head: Head, row: int, column: int) -> None:
        """Take a number of a head for which one its column is of."""
        text = self.cells.text(row, column)
        if pair := _PAIR.fullmatch(text):
            both = Which(int(pair[1]), int(pair[2]))
            head.index[column] = head.index.get(column, NOTHING).beside(both)
            return
        if station := self._stations(row).get(column):
            head.index[column] = head.index.get(column, NOTHING).beside(station)
            return
        count = roman(text) or self.cells.whole_number((row, column)) or 0
        if count in _AROUND and self._goes_around(row):
            place = Which(at=(f"{count} o'clock",))
            head.index[column] = head.index.get(column, NOTHING).beside(place)
            self.cells.indexes.add((row, column))
            return
        if not count and (told := _NUMBERED.fullmatch(text)):
            part = Which(int(told["number"]), of=counted_part(told["part"]))
            head.index[column] = head.index.get(column, NOTHING).beside(part)
            return
        head.index[column] = head.index.get(column, NOTHING).beside(Which(count))
        if not text or text.isdecimal():
            self.cells.indexes.add((row, column))

    def _goes_around(self, row: int) -> bool:
        """Whether a row counts the hours of a clock's face: 12, 3, 6, 9."""
        return [self.cells.whole_number((row, c)) for c in self._index_of_row(row)] == _AROUND

    def _texts_over(self, column: int, own: Sequence[int], rows: Sequence[int]) -> list[str]:
        """The texts over a column from the lowest up, with those that reach over it."""
        texts: list[str] = []
        for row in reversed(own):
            text = without_limit(self.cells.text(row, column))
            spanned = row != rows[-1] or self.cells.is_covered((row, column))
            if not text and spanned and (row, column) not in self.kinds:
                text = without_limit(self._spanning(row, column, rows))
            # A dash in a row of units stands for none.
            if text and text not in texts and not (text in _DASHES and row != rows[0]):
                texts.append(text)
        if texts and column == self.block.left:
            texts[-1:] = parts_of_a_corner(clause_of_a_corner(texts[-1]))
        return texts

    def _read_corner(self, head: Head, row: int, index: Sequence[int]) -> None:
        """What stands before the numbers of a head: what they count, or what is measured."""
        for column in self.block.rows[row]:
            text = self.cells.text(row, column)
            if not index or column >= index[0] or not text or is_nominal(text):
                continue
            if which_of(text) is not None and self._heads_values(row, column):
                continue  # "Spec" over limits beside the names of rows is of these alone.
            if is_unit(text):
                if self.kinds.get((row + 1, column)) != "date":  # "In" over the days of jobs.
                    head.corner_units.append(text)
                continue
            if self._says_how_high(row, column):
                continue
            head.corner.append(without_nearness(text))
            of = counts(text) or self._pins_of_a_crank(text)
            for at in index if of else ():
                head.index[at] = head.index[at].beside(Which(of=of or ""))

    def _says_how_high(self, row: int, column: int) -> bool:
        """Whether a head over places on a bore says how high they lie: "Height" over "Top"."""
        below = which_of(self.cells.text(row + 1, column))
        place = below is not None and bool(below.at)
        return place and says_where_alone(self.cells.text(row, column))

    def _pins_of_a_crank(self, text: str) -> str:
        """Rods, where numbered pins stand below the title of a crankshaft; else ""."""
        of_crank = any(meaning_of(title).part == "crank" for title in self.titles)
        return counted_part(text) if of_crank and meaning_of(text).part == "pin" else ""

    def _counts_below(self, row: int) -> bool:
        """Whether the rows below heads are counted, so that front and rear are places on each."""
        at = self.rows.index(row)
        firsts = [(below, self.block.left) for below in self.rows[at + 1 : at + 1 + _ROWS_COUNTED]]
        told = [which_of(self.cells.text(*first)) for first in firsts]
        banks = {w.bank for w in told if w and not w.number} >= {"L", "R"}
        counted = bool(self.cells.ask(_counted, tuple(firsts), False))
        named = [w.number if w else None for w in told]  # "M1", "M2"
        return len(firsts) > 1 and (banks or counted or (all(named) and is_run(named)))

    def _heads_values(self, row: int, column: int) -> bool:
        """Whether values stand in the column of a head, behind a column of texts."""
        at = self.rows.index(row)
        return column > self.block.left and column in self._first_values_below(at, [column])

    def _holds_units(self, row: int) -> bool:
        """Whether a row holds units and nothing else, several of them."""
        texts = [self.cells.text(row, c) for c in self.block.rows[row]]
        return len(texts) > 1 and all(map(is_unit, texts))

    def _spanning(self, row: int, column: int, rows: Sequence[int]) -> str:
        """The text of a head that reaches over a column from the left."""
        for at in range(column - 1, self.block.left - 1, -1):
            text = self.cells.text(row, at)
            merged = self.cells.sheet.merged.get((row, at))
            if self.cells.is_covered((row, at)) or (merged is not None and at < merged[1] < column):
                return ""  # What is merged reaches over its own columns.
            if text:
                first = which_of(text)
                own = any((r, at) in self.kinds for r in rows if r != row)
                return text if own and (first is None or first.stage or first.tells) else ""
            if (row, at) in self.kinds:
                return ""
        return ""


def _counted(sheet: Sheet, cells: tuple[At, ...], of_cylinders: bool) -> tuple[int, ...]:
    """The numbers of cells that count, () where they do not.

    of_cylinders: whether they may also rise and be some of all: 1, 4, 6, 7.
    """
    whole = [whole_number(sheet, at) for at in cells]
    numbers = tuple([n for n in whole if n is not None])
    if len(numbers) < len(whole):
        return ()
    rising = of_cylinders and sorted(numbers) == [*numbers]
    return numbers if is_run(numbers) or (rising and picks_some(numbers)) else ()


def _are_hours(sheet: Sheet, cells: tuple[At, ...]) -> bool:
    """Whether numbers are the hours at which a part is measured around."""
    return [whole_number(sheet, at) for at in cells] == _AROUND


def _begins_to_count(sheet: Sheet, cells: tuple[At, ...]) -> bool:
    """Whether numbers count from the first or second on, and are in no firing order."""
    whole = [whole_number(sheet, at) for at in cells]
    return is_run(whole) and whole[0] in (1, 2) and not is_firing_order(whole)


def _can_be_in(text: str, unit: str) -> bool:
    """Whether a head names something that is measured in a unit."""
    terms = (find(one.measurand) for one in meaning_of(text).candidates)
    return any(term is not None and si_factor(term, unit, None) is not None for term in terms)


def _are_many_steps(sheet: Sheet, rows: tuple[int, ...], column: int, step: float) -> bool:
    """Whether most numbers of a column are many times a step."""
    numbers = [sheet.cells[row, column].value for row in rows]
    many = [n for n in numbers if isinstance(n, (int, float)) and abs(n) >= _MANY_STEPS * step]
    return len(many) * 2 > len(numbers)


def _is_cut(text: str) -> bool:
    """Whether a head names first how much came off."""
    candidates = meaning_of(text).candidates
    term = find(candidates[0].measurand) if candidates else None
    return term is not None and term.noun == "cut"


# So many rows tell that a column is so many times another, by no more than this in an engine.
_FEWEST_PRODUCTS, _MOST_TIMES = 4, 16


def _are_products(sheet: Sheet, rows: tuple[int, ...], first: int) -> bool:
    """Whether numbers of a column times a small whole one behind each are the next behind.

    One may be mistyped.
    """
    held = [[sheet.cells.get((row, c)) for c in (first, first + 1, first + 2)] for row in rows]
    values = [[c.value for c in three if c and isinstance(c.value, (int, float))] for three in held]
    full = [three for three in values if len(three) == len(held[0])]
    whole = all(float(n).is_integer() and 0 < n <= _MOST_TIMES for _, n, _ in full)
    told = whole and len({n for _, n, _ in full}) > 1 and len(full) >= _FEWEST_PRODUCTS
    right = sum(math.isclose(one * n, all_, rel_tol=1e-3) for one, n, all_ in full)
    return told and right >= len(full) - 1


def _are_near(sheet: Sheet, rows: tuple[int, ...], column: int, other: int) -> bool:
    """Whether the numbers of two columns are sizes of the same things."""
    held = [[sheet.cells.get((row, c)) for c in (column, other)] for row in rows]
    sizes = [[cell.value for cell in pair if cell] for pair in held]
    numbers = [[n for n in pair if isinstance(n, (int, float))] for pair in sizes]
    pairs = [pair for pair in numbers if len(pair) == 2]
    return bool(pairs) and all(abs(a - b) <= _NEAR * abs(b) for a, b in pairs)


def _name_all_alike(head: Head) -> None:
    """Leave out what heads say beside their numbers where they count: "1 mag", "2 center"."""
    told = {c: w for c in head.texts if (w := head.which(c)) and w.number}
    if len(told) > 1 and is_run([w.number for w in told.values()]):
        head.index |= {c: w._replace(other="") for c, w in told.items() if w.other}


# So many ranges below a head are limits, whatever it is called.
_FEWEST_RANGES = 2
_OVER_RANGES = "limits"
_A_RANGE = re.compile(r"\d*[.,]?\d+\s*(?:-|–|÷|to|bis)\s*\d*[.,]?\d+", re.IGNORECASE)


def _without_far(columns: Iterable[int]) -> list[int]:
    """Columns without a last one that stands apart from several side by side: a price."""
    near = [*columns]
    apart = len(near) > _FEWEST_BESIDE and near[-1] - near[-2] > 1
    return near[:-1] if apart and near[-2] - near[0] == len(near) - 2 else near
