"""The numbers of a sheet with the texts that speak of them: their own labels, heads and titles."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.blocks import Block, blocks
from workbook_tools.labels.cell_kinds import VALUES, At, CellKind, kind_of_text, kinds_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.conventions import states_units
from workbook_tools.labels.sentences import spoken
from workbook_tools.labels.vocabulary import NO_SIZES, Vocabulary, meaning_of, plain
from workbook_tools.labels.which import EITHER, NOTHING, Which, roman, sided, which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

# So many empty rows may part values from the head over them.
_MOST_ROWS_APART = 3
_MOST_SUBHEADS = 3
_MOST_WORDS_OF_A_TITLE = 5
FILLED_IN = re.compile(
    r"^(?P<label>[^\W\d_][^:_]{1,40}?)\s*(?::|_{2,}|\.{3,})[\s_]*(?P<value>\S.*?)[\s_]*$"
)


@dataclass(frozen=True)
class Spot:
    """A cell that texts speak of.

    label: what is measured; headings: what stands over and beside it, the nearest first;
    which: one of several alike, as the heads say; unit: of its column, row or neighbor; line:
    of the cells that share the label; origin: the label's own cell; inline: the text beside
    the label in one cell.
    """

    row: int
    column: int
    label: str
    headings: tuple[str, ...]
    which: Which
    unit: str
    line: tuple[object, ...]
    origin: At
    inline: str = ""


@dataclass
class Head:
    """The rows of heads over a table: texts of each column from the lowest up, and its index."""

    rows: list[int]
    block: Block
    texts: dict[int, list[str]] = field(default_factory=dict)
    index: dict[int, Which] = field(default_factory=dict)
    corner: list[str] = field(default_factory=list)

    def which(self, column: int) -> Which | None:
        """What the heads of a column say of which one it is, None where one says more."""
        if column in self.index:
            return self.index[column]
        told = NOTHING
        for text in self.texts.get(column, ()):
            said = which_of(text)
            if said is None:
                return None
            told = told.beside(said)
        return told if self.texts.get(column) else None


class Tables:
    """Reads the tables and the labeled values of one sheet."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.kinds: Mapping[At, CellKind] = kinds_of(sheet)
        self.indexes: set[At] = set()
        self.blocks = blocks(self.kinds)
        self._covered = _covered(sheet)

    def text(self, row: int, column: int) -> str:
        """The typed text that shows in a cell, "" for anything else."""
        cell = self.sheet.cells.get(self._covered.get((row, column), (row, column)))
        if cell is None or cell.formula or not isinstance(cell.value, str):
            return ""
        return " ".join(cell.value.split())

    def summed(self) -> set[At]:
        """The numbers of columns that a total below them adds up, with the total: prices."""
        found: set[At] = set()
        columns: dict[int, list[At]] = defaultdict(list)
        for at in self.kinds:
            if self.kinds[at] in VALUES:
                columns[at[1]].append(at)
        for cells in columns.values():
            run: list[At] = []
            total, last = 0.0, 0
            for at in cells:
                value = self.sheet.cells[at].value
                if not isinstance(value, (int, float)) or at[0] > last + 2:
                    run, total = [], 0.0
                if not isinstance(value, (int, float)):
                    continue
                adds_up = len(run) >= 2 and abs(total - value) <= 0.006 and value > 20
                if adds_up and not self._is_named(at):
                    found |= {*run, at}
                run.append(at)
                total, last = total + value, at[0]
        return found

    def _is_named(self, at: At) -> bool:
        """Whether a text before a number in its row names something measured."""
        texts = (self.text(at[0], column) for column in range(1, at[1]))
        return any(text and meaning_of(text).candidates for text in texts)

    def spots(self) -> Iterator[Spot]:
        """Every number that a text speaks of, and every empty cell beside others of its line."""
        last: Head | None = None
        for block in self.blocks:
            reader = _BlockReader(self, block, last)
            yield from reader.spots()
            last = reader.head or last
        yield from self._spoken()

    def _spoken(self) -> Iterator[Spot]:
        """The numbers within longer texts, and behind a colon in one cell."""
        for (row, column), kind in self.kinds.items():
            text = self.text(row, column)
            if kind not in ("text", "remark", "measured") or not re.search(r"\d", text):
                continue
            filled = FILLED_IN.match(text)
            if (
                filled
                and filled["value"]
                and kind_of_text(filled["value"]) in ("measured", "nothing")
            ):
                yield Spot(
                    row, column, filled["label"], (self.sheet.title,), NOTHING, "",
                    ("inline", row, column), (row, column), filled["value"],
                )  # fmt: skip
                continue
            if kind == "measured" or self.is_value((row, column + 1)):
                continue
            for mention in spoken(text):
                unit = mention.text.partition(" ")[2]
                label = f"{mention.label} ({unit})" if unit and is_unit(unit) else mention.label
                yield Spot(
                    row, column, label, (*mention.about, self.sheet.title), mention.which, "",
                    ("spoken", plain(label), mention.about[-1:]), (row, column), mention.text,
                )  # fmt: skip

    def is_value(self, at: At) -> bool:
        """Whether a cell holds a number or what stands in its place."""
        return self.kinds.get(at) in (*VALUES, "nothing")

    def down_from(self, at: At) -> At:
        """The first cell of a range that is merged over several rows, any other as it is."""
        first = self._covered.get(at, at)
        return first if first[1] == at[1] else at

    def is_covered(self, at: At) -> bool:
        """Whether a cell is one of a merged range, and not its first."""
        return at in self._covered

    def is_number(self, at: At) -> bool:
        """Whether a cell holds a number."""
        return self.kinds.get(at) in VALUES

    def whole_number(self, at: At) -> int | None:
        """A typed whole number below a hundred, else None."""
        cell = self.sheet.cells.get(at)
        value = cell.value if cell and not cell.formula else None
        if isinstance(value, str) and (found := re.fullmatch(r"\s*#?\s*(\d{1,3})\.?\s*", value)):
            value = int(found[1])
        if isinstance(value, float) and value.is_integer():
            value = int(value)
        good = isinstance(value, int) and not isinstance(value, bool) and 0 < value < 1000
        return value if good else None  # type: ignore[return-value]


def _covered(sheet: Sheet) -> dict[At, At]:
    """The first cell of the merged range that each cell stands in."""
    return {
        (r, c): (top, left)
        for (top, left), (bottom, right) in sheet.merged.items()
        if (bottom - top + 1) * (right - left + 1) <= 4000
        for r in range(top, bottom + 1)
        for c in range(left, right + 1)
        if (r, c) != (top, left)
    }


def is_run(numbers: Sequence[int | None]) -> bool:
    """Whether whole numbers count: 1 2 3, 1 3 5, 4 3 2 1, again from the first, one left out."""
    if len(numbers) < 2 or any(n is None for n in numbers):
        return False
    known = [n for n in numbers if n is not None]
    if len(set(known)) == 1 or (min(known) not in (1, 2) and len(known) < 3):
        return False
    steps = [b - a for a, b in pairwise(known) if not (b == known[0] or b in (1, 2))]
    return all(0 <= s <= 2 for s in steps) or all(-2 <= s <= 0 for s in steps)


def from_the_front(several: Mapping[int, Which]) -> dict[int, Which]:
    """The same with front and rear counted: a twin's cylinders, or the ends of a row of mains."""
    ends = {n: next((e for e in ("front", "rear") if e in w.at), "") for n, w in several.items()}
    named = {n: e for n, e in ends.items() if e and not several[n].number}
    between = sorted({w.number for w in several.values() if w.number})
    if set(named.values()) != {"front", "rear"} or between != [*range(2, 2 + len(between))]:
        return dict(several)
    last = len(between) + 2
    return {
        n: replace(w, number=1 if named[n] == "front" else last, at=()) if n in named else w
        for n, w in several.items()
    }


# A value of a row: its column, its label with its cell, the labels that take it in, its unit.
_Labeled = tuple[int, str, At, tuple[str, ...], str]


class _BlockReader:
    """Reads one block, row by row: titles, heads, then values."""

    def __init__(self, tables: Tables, block: Block, above: Head | None) -> None:
        self.tables = tables
        self.block = block
        self.kinds = tables.kinds
        self.above = above
        self.head: Head | None = None
        self.titles: list[str] = []
        self.side = ""
        self.rows = list(block.rows)

    def spots(self) -> Iterator[Spot]:
        """The spots of the block."""
        at = 0
        while at < len(self.rows):
            row = self.rows[at]
            if self._is_title(row):
                self._take_title(row)
                at += 1
                continue
            head = self._head_at(at)
            if head is not None:
                self.head = head
                at += len(head.rows)
                continue
            end = at + 1
            while end < len(self.rows) and not self._breaks(end):
                end += 1
            yield from self._values(self.rows[at:end])
            at = end

    def _breaks(self, at: int) -> bool:
        """Whether a title or a new head stands in a row."""
        return self._is_title(self.rows[at]) or self._head_at(at) is not None

    def _is_title(self, row: int) -> bool:
        columns = self.block.rows[row]
        if len(columns) != 1 or self.kinds[row, columns[0]] not in ("text", "remark"):
            return False
        text = self.tables.text(row, columns[0])
        if not text:
            return False
        # A text alone under values, and not where the names of rows stand, is a remark.
        first = row == self.rows[0]
        return first or columns[0] == self.block.left or (row - 1, columns[0]) not in self.kinds

    def _take_title(self, row: int) -> None:
        text = self.tables.text(row, self.block.rows[row][0])
        if self.kinds[row, self.block.rows[row][0]] == "text" and not states_units(text):
            said = which_of(text)
            if said is not None and said.side:
                self.side = said.side
            else:
                self.titles, self.side = [_first_clause(text), *self.titles][:2], ""

    def _head_at(self, at: int) -> Head | None:
        """The heads that begin in a row, None where none do."""
        row = self.rows[at]
        if not self._is_head(at):
            return None
        rows = [row]
        for below in self.rows[at + 1 : at + 1 + _MOST_SUBHEADS]:
            counted = below == rows[-1] + 1 and bool(self._index_of_row(below))
            if not counted and not self._is_subhead(below, rows[-1]):
                break
            if counted and self._index_of_row(rows[-1]):
                break
            rows.append(below)
        return self._read_head(rows)

    def _is_head(self, at: int) -> bool:
        row = self.rows[at]
        columns = self.block.rows[row]
        kinds = [self.kinds[row, c] for c in columns]
        if "date" in kinds or "formula" in kinds:
            return False
        index = self._index_of_row(row)
        if any(k in VALUES for k in kinds) and not index:
            return False
        below = self._first_values_below(at, columns)
        over = [c for c in columns if c in below and self.kinds[row, c] != "nothing"]
        if index:
            held = [c for c in index if c in below]
            return len(held) * 2 >= len(index) and self._not_counted_below(at, index)
        texts = [c for c in over if self.tables.text(row, c)]
        office = sum(self._is_job_field(row, c) for c in columns)
        if office >= 2 and not self._begins_with_a_job_field(at + 1, columns[0]):
            return bool(texts)
        told = [c for c in texts if self._speaks(row, c)]
        if not texts or (len(texts) * 2 < len(columns) - 1 and len(told) < 2):
            return False
        first = columns[0]
        named_below = self._named_below(at, first)
        if len(columns) == 1:
            leads = at == 0 or self._is_title(self.rows[at - 1])
            return leads and bool(below and told)
        if len(texts) >= 3:
            return len(told) >= 1
        if len(columns) == 2 and named_below and texts == [columns[1]]:
            said = which_of(self.tables.text(row, columns[1]))
            return said is not None and not self._is_job_field(row, first)
        field = len(columns) == 2 and self._is_job_field(row, first)
        return len(told) == len(texts) and not field

    def _begins_with_a_job_field(self, at: int, column: int) -> bool:
        return at < len(self.rows) and self._is_job_field(self.rows[at], column)

    def _is_job_field(self, row: int, column: int) -> bool:
        return bool(self.tables.vocabulary.job_field(self.tables.text(row, column)))

    def _speaks(self, row: int, column: int) -> bool:
        """Whether a text names something measured, or one of several alike."""
        text = self.tables.text(row, column)
        if which_of(text) is not None or counts(text) is not None:
            return True
        return self._measures(text)

    def _measures(self, text: str) -> bool:
        return bool(meaning_of(text, tuple(self.titles)).candidates)

    def _named_below(self, at: int, column: int) -> bool:
        """Whether the text below a row's first cell names something measured."""
        for row in self.rows[at + 1 : at + 2]:
            text = self.tables.text(row, column)
            if text:
                return which_of(text) is None and bool(meaning_of(text).candidates)
        return False

    def _index_of_row(self, row: int) -> list[int]:
        """The columns in which a row counts, [] where it does not."""
        columns = self.block.rows[row]
        numbers = [c for c in columns if self.kinds[row, c] in VALUES]
        counted = [self.tables.whole_number((row, c)) for c in numbers]
        if numbers and is_run(counted):
            before = [self.tables.text(row, c) for c in columns if c < numbers[0]]
            named = [t for t in before if counts(t) is None and which_of(t) is None]
            counts_on = counted == [*range(1, len(counted) + 1)] and len(counted) > 2
            if len(named) <= 1 or (counts_on and not any(self._measures(t) for t in named)):
                return numbers
        romans = [c for c in columns if roman(self.tables.text(row, c))]
        if len(romans) >= 2 and is_run([roman(self.tables.text(row, c)) for c in romans]):
            return romans
        return []

    def _not_counted_below(self, at: int, index: Sequence[int]) -> bool:
        """Whether what stands below an index is no index of its own."""
        if at + 1 >= len(self.rows):
            return False
        below = [self.tables.whole_number((self.rows[at + 1], c)) for c in index]
        return not (is_run(below) and below[0] in (1, 2))

    def _first_values_below(self, at: int, columns: Sequence[int]) -> set[int]:
        """The columns in which a value stands below, heads and units between left out."""
        found = set()
        for column in columns:
            for row in self.rows[at + 1 : at + 2 + _MOST_SUBHEADS]:
                here = (row, column)
                if here not in self.kinds:
                    continue
                if self.tables.is_value(here):
                    found.add(column)
                    break
                text = self.tables.text(row, column)
                if self.kinds[here] != "unit" and (not text or which_of(text) is None):
                    break
        return found

    def _is_subhead(self, row: int, over: int) -> bool:
        """Whether a row below heads holds more of them: units, V and H, min and max."""
        columns = self.block.rows[row]
        if any(self.kinds[row, c] in (*VALUES, "date", "remark") for c in columns):
            return False
        if row != over + 1:
            return False
        texts = [self.tables.text(row, c) for c in columns]
        if any(
            self.kinds[row, c] == "nothing" and which_of(t) is None
            for c, t in zip(columns, texts, strict=True)
        ):
            return False
        told = [which_of(t) is not None or is_unit(t) for t in texts]
        if 2 * sum(told) >= len(told) and (len(told) > 1 or columns[0] != self.block.left):
            return True
        at = self.rows.index(row)
        return len(columns) > 1 and self._is_head(at)

    def _read_head(self, rows: list[int]) -> Head:
        head = Head(rows, self.block)
        index_rows = {row: self._index_of_row(row) for row in rows}
        for column in range(self.block.left, self.block.right + 1):
            counts_here = [row for row in reversed(rows) if column in index_rows[row]]
            for row in counts_here:
                self._count(head, row, column)
            texts = self._texts_over(column, [r for r in rows if r not in counts_here], rows)
            if texts:
                head.texts[column] = texts
                said = [w for t in texts if (w := which_of(t)) is not None]
                for which in said if column in head.index else ():
                    head.index[column] = head.index[column].beside(which)
        plain = {c: w for c in head.texts if c not in head.index and (w := head.which(c))}
        counted = sided(from_the_front(plain))
        head.index |= {c: w for c, w in counted.items() if w is not plain[c]}
        for row, index in index_rows.items():
            self._read_corner(head, row, index)
        return head

    def _count(self, head: Head, row: int, column: int) -> None:
        """Take a number of a head for which one its column is of."""
        text = self.tables.text(row, column)
        count = roman(text) or self.tables.whole_number((row, column)) or 0
        head.index[column] = head.index.get(column, NOTHING).beside(Which(count))
        if not text:
            self.tables.indexes.add((row, column))

    def _texts_over(self, column: int, own: Sequence[int], rows: Sequence[int]) -> list[str]:
        """The texts over a column from the lowest up, with those that reach over it."""
        texts: list[str] = []
        for row in reversed(own):
            text = self.tables.text(row, column)
            spanned = row != rows[-1] or self.tables.is_covered((row, column))
            if not text and spanned and (row, column) not in self.kinds:
                text = self._spanning(row, column, rows)
            if text and text not in texts:
                texts.append(text)
        return texts

    def _read_corner(self, head: Head, row: int, index: Sequence[int]) -> None:
        """What stands before the numbers of a head: what they count, or what is measured."""
        for column in self.block.rows[row]:
            text = self.tables.text(row, column)
            if not index or column >= index[0] or not text:
                continue
            head.corner.append(text)
            of = counts(text)
            for at in index if of else ():
                head.index[at] = head.index[at].beside(Which(of=of or ""))

    def _spanning(self, row: int, column: int, rows: Sequence[int]) -> str:
        """The text of a head that reaches over a column from the left."""
        for at in range(column - 1, self.block.left - 1, -1):
            text = self.tables.text(row, at)
            if text:
                first = which_of(text)
                own = any((r, at) in self.kinds for r in rows if r != row)
                return text if own and (first is None or first.stage or first.tells) else ""
            if (row, at) in self.kinds:
                return ""
        return ""

    # Values below heads, or beside labels.

    def _values(self, rows: Sequence[int]) -> Iterator[Spot]:
        head = self.head or self._inherited(rows)
        if head is None:
            for row in rows:
                yield from self._labeled(row, None)
            return
        table = _Table(self, head, rows)
        yield from table.spots()

    def _inherited(self, rows: Sequence[int]) -> Head | None:
        """The heads of the table above, where these rows go on below them."""
        head = self.above
        if head is None or rows[0] - max(head.rows) > 120:
            return None
        beneath = self.block.left >= head.block.left and self.block.right <= head.block.right
        return head if beneath and all(self._goes_on(row, head) for row in rows) else None

    def _goes_on(self, row: int, head: Head) -> bool:
        """Whether a row is one more of the table above, and no label with its value."""
        columns = [c for c in self.block.rows[row] if self.tables.is_value((row, c))]
        if not columns or not all(c in head.texts or c in head.index for c in columns):
            return False
        labels = [
            t for c in self.block.rows[row] if c < columns[-1] and (t := self.tables.text(row, c))
        ]
        if len(labels) > 1:
            return False
        if not labels or which_of(labels[0]) is not None:
            return True
        return len(columns) > 1 and all(head.which(c) is not None for c in columns)

    def _labeled(self, row: int, head: Head | None) -> Iterator[Spot]:
        """The values of a row behind their own labels."""
        label, origin, unit = "", (row, 0), ""
        others: list[str] = []
        found: list[_Labeled] = []
        for column in self.block.rows[row]:
            kind, text = self.kinds[row, column], self.tables.text(row, column)
            if self.tables.is_value((row, column)) and label:
                found.append((column, label, origin, tuple(others), unit))
            elif kind == "unit" or (text and is_unit(text) and (found or label)):
                if found:
                    found = [(c, la, o, ot, u or text) for c, la, o, ot, u in found]
                else:
                    unit = text
            elif kind in ("text", "remark") and text:
                said = which_of(text)
                if said is not None and label and said.tells and not said.stage:
                    others = [*others, text]
                    continue
                yield from self._told(row, found, head)
                others = [label] if label and (not found or _takes_in(label, text)) else []
                label, origin, unit, found = text, (row, column), "", []
        yield from self._told(row, found, head)

    def _told(
        self,
        row: int,
        found: Sequence[_Labeled],
        head: Head | None,
    ) -> Iterator[Spot]:
        titles = (*self.titles, self.tables.sheet.title)
        for column, label, origin, others, unit in found:
            which = head.which(column) if head and len(found) > 1 else None
            beside = next((w for o in others if (w := which_of(o)) is not None), NOTHING)
            yield Spot(
                row, column, label,
                (*(o for o in others if which_of(o) is None), *titles),
                (which or NOTHING).beside(beside), unit, (origin,), origin,
            )  # fmt: skip


def _first_clause(title: str) -> str:
    """A title, of a longer one what stands before the first comma."""
    return title if len(title.split()) <= _MOST_WORDS_OF_A_TITLE else title.split(", ")[0]


def _takes_in(label: str, text: str) -> bool:
    """Whether a text behind a label's value is of the same part: "bore" behind a gasket."""
    both, first = meaning_of(text, (label,)).candidates, meaning_of(label).candidates
    if not both or not first:
        return False
    mine, theirs = find(both[0].measurand), find(first[0].measurand)
    return mine is not None and theirs is not None and mine.part == theirs.part


class _Table:
    """Values below heads: which of their texts say what is measured, and which say of which one."""

    def __init__(self, block: _BlockReader, head: Head, rows: Sequence[int]) -> None:
        self.reader = block
        self.tables = block.tables
        self.kinds = block.kinds
        self.head = head
        self.rows = rows
        columns = sorted({*head.index, *(c for row in rows for c in block.block.rows[row])})
        self.units = [c for c in columns if self._holds(c, "unit")]
        self.index = self._index_columns(columns)
        self.again = {c for c, told in self.index.items() if _repeats(told.values())}
        self.names = [c for c in columns if self._names(c)]
        aside = {*self.units, *self.index, *self.names}
        self.values = [c for c in columns if c not in aside]
        self.first = self.values[0] if self.values else block.block.right + 1
        self.only_which = not any(
            self.head.which(c) is None and c in self.head.texts for c in self.values
        )
        self.labels = self._labels_that_count()
        self.whiches = sided(
            from_the_front({row: self._said_by_row(row, self.first) for row in rows})
        )

    def _cells(self, column: int) -> list[At]:
        return [(row, column) for row in self.rows if (row, column) in self.kinds]

    def _holds(self, column: int, kind: CellKind) -> bool:
        cells = self._cells(column)
        return sum(self.kinds[at] == kind for at in cells) * 2 > len(cells)

    def _index_columns(self, columns: Sequence[int]) -> dict[int, dict[int, Which]]:
        """Columns that count the rows: {column: {row: which}}."""
        found: dict[int, dict[int, Which]] = {}
        for column in columns:
            cells = self._cells(column)
            numbered = [at for at in cells if self.kinds[at] in VALUES]
            texts = self.head.texts.get(column, [])
            of = next((c for t in texts if (c := counts(t)) is not None), None)
            whole = [self.tables.whole_number(at) for at in numbered]
            # A head that names a size makes no index of small sizes.
            first = column == columns[0] or not any(
                self.kinds[at] in VALUES for c in columns if c < column for at in self._cells(c)
            )
            named = bool(texts) and of is None and which_of(texts[0]) is None
            run = is_run(whole) or (column == columns[0] and self._numbers_items(column, whole))
            if len(numbered) >= 1 and None not in whole and (run or len(whole) == 1):
                headless = named and self._heads_the_next(column, columns)
                if (of is not None or (first and not named)) and len(numbered) * 2 >= len(cells):
                    ok = len(whole) > 1 or (of is not None and column == columns[0])
                elif headless and len(whole) > 1:
                    ok = True
                elif first and named and len(whole) >= 2 and not self._sized(texts):
                    ok, of = True, _counted_part(texts[0])
                else:
                    ok = False
                if ok:
                    found[column] = {
                        at[0]: Which(n or 0, of=of or "")
                        for at, n in zip(numbered, whole, strict=True)
                    }
                    self.tables.indexes |= {at for at in numbered if self.kinds[at] == "number"}
        return found

    def _numbers_items(self, column: int, whole: Sequence[int | None]) -> bool:
        """Whether a first column numbers the names behind it: 6. 7. 8."""
        steps = all(a and b and b - a == 1 for a, b in pairwise(whole))
        return steps and len(whole) > 1 and self._holds(column + 1, "text")

    def _heads_the_next(self, column: int, columns: Sequence[int]) -> bool:
        """Whether a head over a count speaks of the column behind it, which has none."""
        behind = column + 1
        return behind in columns and behind not in self.head.texts

    def _sized(self, texts: Sequence[str]) -> bool:
        """Whether a head names a property that small whole numbers can be sizes of."""
        meaning = meaning_of(texts[0])
        return bool(meaning.candidates) and meaning.candidates[0].cost < 2

    def _names(self, column: int) -> bool:
        """Whether a column holds the names of its rows."""
        if column in self.index or column in self.units:
            return False
        cells = self._cells(column)
        texts = [at for at in cells if self.kinds[at] in ("text", "remark")]
        return len(texts) * 2 > len(cells)

    def _row_texts(self, row: int, column: int) -> list[tuple[str, At]]:
        """The texts before a value in its row, the nearest first."""
        return [
            (text, (row, at))
            for at in sorted((*self.names, *self.index), reverse=True)
            if at < column and self.kinds.get(self.tables.down_from((row, at))) == "text"
            if (text := self.tables.text(row, at))
        ]

    def _row_which(self, row: int, column: int) -> Which:
        whole = self.whiches[row]
        own = self._said_by_row(row, column)
        if own.side != whole.side:
            own = replace(own, side=whole.side, other=whole.other)
        told = whole if whole.number and not own.number and own.tells else own
        return told.beside(Which(side=self.reader.side))

    def _said_by_row(self, row: int, column: int) -> Which:
        told = NOTHING
        again = False
        for at in sorted(self.index, reverse=True):
            if at < column and row in self.index[at]:
                own = self.index[at][row]
                if not (told.number and own.number):
                    told, again = told.beside(own), again or at in self.again
        for text, where in self._row_texts(row, column):
            if self._is_office(where[1]):
                continue
            said = which_of(text)
            if said is None and roman(text):
                said = Which(roman(text))
            if said is not None and said.number and again and told.of in ("", said.of):
                # "Rod 2" says more than the second of two numbers for one throw.
                told, again = replace(told, number=0, last=0, of=""), False
            if said is not None:
                told = told.beside(said)
        return told

    def spots(self) -> Iterator[Spot]:
        by_rows = self._by_rows()
        for row in self.rows:
            names = self._row_texts(row, self.first)
            if self._labels_its_values(row) or (not by_rows and self._own_label(row)):
                yield from self.reader._labeled(row, None)
                continue
            for column in self.values:
                if (row, column) in self.kinds and not self.tables.is_value((row, column)):
                    continue
                spot = self._by_row(row, column) if by_rows else self._by_column(row, column)
                headed = column in self.head.index or column in self.head.texts
                waits = headed and bool(names or self.index) and self._is_filled(row, by_rows)
                if spot is not None and ((row, column) in self.kinds or waits):
                    yield spot

    def _is_filled(self, row: int, by_rows: bool) -> bool:
        """Whether a row holds numbers, so that one that is missing in it was not measured."""
        held = any(self.tables.is_number((row, at)) for at in self.values)
        return held and (by_rows or self._row_which(row, self.first).tells)

    def _labels_its_values(self, row: int) -> bool:
        """Whether a label among the values of a row names the one behind it."""
        return any(
            self.kinds.get((row, at)) == "text"
            and self.tables.is_number((row, at + 1))
            and which_of(text := self.tables.text(row, at)) is None
            and (candidates := meaning_of(text).candidates)
            and candidates[0].cost <= 2
            and not meaning_of(text).unknown
            for at in self.values
        )

    def _own_label(self, row: int) -> bool:
        """Whether a row below heads of columns is a label with one value of its own."""
        columns = self.reader.block.rows[row]
        values = [c for c in columns if self.tables.is_value((row, c))]
        texts = self._row_texts(row, self.first)
        if len(values) != 1 or not texts or which_of(texts[0][0]) is not None:
            return False
        meaning = meaning_of(texts[0][0])
        return bool(meaning.candidates) and meaning.candidates[0].cost <= 2

    def _by_rows(self) -> bool:
        """Whether the names of rows say what is measured, and the heads of columns which one."""
        columns = [c for c in self.values if any(self.tables.is_value(a) for a in self._cells(c))]
        heads_tell = heads_measure = rows_tell = rows_measure = 0.0
        for column in columns:
            texts = self.head.texts.get(column, [])
            if self.head.which(column) is not None:
                heads_tell += 1 / len(columns)
            elif texts:
                heads_measure += self._measures(texts[0], texts[1:]) / len(columns)
        rows = [r for r in self.rows if not self._continues(r)]
        for row in rows:
            own = self._own_texts(row, self.first)
            if own:
                rows_measure += self._measures(own[0][0], [t for t, _ in own[1:]]) / len(rows)
            elif self._row_which(row, self.first).tells:
                rows_tell += 1 / len(rows)
        across, down = heads_tell + rows_measure, heads_measure + rows_tell
        return rows_measure > 0 and across > down + 1e-9

    def _labels_that_count(self) -> frozenset[str]:
        """Names of rows that say which one and what: "Main journal 2", where no head says what."""
        if not self.only_which:
            return frozenset()
        texts = {t for row in self.rows for t, _ in self._row_texts(row, self.first)}
        if any(which_of(t) is None and not roman(t) for t in texts):
            return frozenset()
        named = {t for t in texts if (m := meaning_of(t).candidates) and m[0].cost <= 2}
        counted = {t: counts(re.sub(r"\d+", "", t).strip(" #.")) for t in named}
        return frozenset(t for t in named if counted[t] not in ("", "cylinder"))

    def _own_texts(self, row: int, column: int) -> list[tuple[str, At]]:
        """The texts before a value in its row that say what is measured."""
        texts = self._row_texts(row, column)
        return [(t, at) for t, at in texts if self._is_label(t)]

    def _is_label(self, text: str) -> bool:
        said = which_of(text)
        if said is None:
            return not roman(text)
        # "Top ring" is a label where no head says what is measured.
        ring = said.side not in ("", "intake", "exhaust", EITHER)
        return text in self.labels or (ring and self.only_which)

    def _continues(self, row: int) -> bool:
        """Whether a row only says where on what the row above it measures."""
        own = self._own_texts(row, self.first)
        return not own and bool(self._labels_over(row, self.first))

    def _measures(self, text: str, headings: Sequence[str]) -> float:
        """How sure a text says what is measured, from 0 to 1."""
        meaning = meaning_of(text, (*headings, *self.head.corner, *self.reader.titles))
        if not meaning.candidates:
            return 0.0
        return max(0.1, 1 - meaning.candidates[0].cost / 8 - len(meaning.unknown) / 4)

    def _titles(self) -> tuple[str, ...]:
        return (*self.reader.titles, self.tables.sheet.title)

    def _by_row(self, row: int, column: int) -> Spot | None:
        """A value whose row says what it is."""
        texts = self._row_texts(row, column)
        own = [(t, at) for t, at in texts if self._is_label(t)]
        if not own and self._row_which(row, column).tells:
            own = self._labels_over(row, column)
        which = self._row_which(row, column)
        if not own and (which.tells or which.stage):
            about = (*self._corner(column), *self.head.corner)
            named = [t for t in about if counts(t) not in ("", "cylinder", "bearing")]
            own = [(t, (row, column)) for t in (*named, *self.reader.titles)][:1]
        if not own:
            return None
        # Of several names the one that says what is measured: not "dry" beside a bolt.
        own = sorted(own, key=lambda o: self._measures(o[0], ()) <= 0.2)
        (label, origin), *others = own
        which = self._row_which(row, column)
        told = self.head.which(column)
        if told is None:
            headed = (c for c in self.values if c in self.head.texts or c in self.head.index)
            if column in self.head.texts or any(self.tables.is_number((row, c)) for c in headed):
                return None  # Behind the values of a row stand remarks.
            told = NOTHING
        unit = self._unit_of_row(row) or told.unit or which.unit
        corner = dict.fromkeys((*self._corner(column), *self.head.corner))
        headings = (*(t for t, _ in others), *corner, *self._titles())
        return Spot(
            row, column, label, headings, told.beside(which), unit,
            ("row", label, *(t for t, _ in others), self.head.rows[0]), origin,
        )  # fmt: skip

    def _labels_over(self, row: int, column: int) -> list[tuple[str, At]]:
        """The labels of the nearest row above that has one, where this one only says where."""
        for above in reversed([r for r in self.rows if r < row]):
            texts = self._row_texts(above, column)
            own = [(t, at) for t, at in texts if self._is_label(t)]
            if own:
                at = own[0][1][1]
                return own if (row, at) not in self.kinds else []
        return []

    def _unit_of_row(self, row: int) -> str:
        for column in self.units:
            if self.kinds.get((row, column)) == "unit":
                return self.tables.text(row, column)
        return ""

    def _by_column(self, row: int, column: int) -> Spot | None:
        """A value whose column says what it is."""
        texts = self.head.texts.get(column)
        if not texts and column - 1 in self.index:
            texts = self.head.texts.get(column - 1)
        if not texts and column not in self.head.index:
            return None
        texts = texts or []
        own = [t for t in texts if which_of(t) is None and not self._is_finish(t, column)]
        told = self._told_over(column, texts)
        corner = [*dict.fromkeys((*self._corner(column), *self.head.corner))]
        which = told.beside(self._row_which(row, column))
        unit = told.unit or self._unit_of_row(row)
        if not own:
            about = self._about(row, column, told, corner)
            ring = next((t for t in texts if _names_a_ring(t, about)), "")
            own, corner = ([ring], about) if ring else (about[:1], about[1:])
        if not own:
            return None
        headings = (*own[1:], *corner, *self._titles())
        return Spot(
            row, column, own[0], headings, which, unit,
            ("column", column, self.head.rows[0]), (self.head.rows[-1], column),
        )  # fmt: skip

    def _told_over(self, column: int, texts: Sequence[str]) -> Which:
        """What the heads of a column say of which one it is, when, and in what unit."""
        told = NOTHING
        for text in texts:
            said = Which(stage="final") if self._is_finish(text, column) else which_of(text)
            if said is not None:
                told = told.beside(said)
        return told.beside(self.head.index[column]) if column in self.head.index else told

    def _about(self, row: int, column: int, told: Which, corner: Sequence[str]) -> list[str]:
        """What a column is about whose heads only say which one: the table says it."""
        about = [*(t for t in corner if counts(t) != "cylinder"), *self._titles()]
        # A limit is of the sizes before it.
        if told.stage in NO_SIZES and (before := self._labeled_before(column)):
            about = [before, *about]
        unnamed = not self.reader.titles and not any(_names_a_part(t) for t in about)
        of_cylinders = bool(told.stage) and self._row_which(row, column).of in ("cylinder", "")
        return ["bore", *about] if about and unnamed and of_cylinders else about

    def _is_finish(self, text: str, column: int) -> bool:
        """Whether "Finish" over a column means its finished size, by its decimals."""
        if text.strip(" .").casefold() not in ("finish", "fin", "finish size"):
            return False
        values = [self.tables.sheet.cells[at].value for at in self._cells(column)]
        digits = [len(f"{v:.10g}".partition(".")[2]) for v in values if isinstance(v, float)]
        return max(digits, default=0) >= 3

    def _labeled_before(self, column: int) -> str:
        """The label of the nearest column on the left that has one."""
        for at in reversed([c for c in self.values if c < column]):
            own = [t for t in self.head.texts.get(at, ()) if which_of(t) is None]
            if own:
                return own[0]
        return ""

    def _corner(self, column: int) -> list[str]:
        """The heads over the names and numbers of the rows."""
        beside = [c for c in (*self.index, *self.names) if c < column]
        beside = [c for c in beside if not self._is_office(c)]
        texts = [t for c in sorted(beside, reverse=True) for t in self.head.texts.get(c, ())]
        # "Cyl" or "No." over the names of rows says nothing of what is measured.
        return [
            t for t in dict.fromkeys(texts)
            if not is_unit(t) and counts(t) not in ("", "bearing")
        ]  # fmt: skip

    def _is_office(self, column: int) -> bool:
        """Whether a column holds fields of jobs: customers, engines, names."""
        job_field = self.tables.vocabulary.job_field
        return any(job_field(text) for text in self.head.texts.get(column, ()))


def _repeats(counted: Collection[Which]) -> bool:
    """Whether a column counts several rows as one and the same."""
    return len({which.number for which in counted}) < len(counted)


def _names_a_part(text: str) -> bool:
    """Whether a head names a part that is measured."""
    candidates = meaning_of(text).candidates
    return bool(candidates) and candidates[0].cost <= 3


def _names_a_ring(text: str, about: Sequence[str]) -> bool:
    """Whether a head that only says which one says which ring, by what its table is about."""
    candidates = meaning_of(text, tuple(about)).candidates
    term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 2 else None
    return term is not None and term.of == "ring"


def _counted_part(text: str) -> str:
    """What the numbers below a head count: mains below "Main", rods below "Crankpin"."""
    meaning = meaning_of(text)
    part = meaning.part
    if "main" in part:
        return "main"
    return "rod" if part in ("rod", "rod_journal", "rod_bearing", "big_end") else ""
