"""The numbers of a sheet with the texts that speak of them: labels, heads, titles, sentences."""

from __future__ import annotations

import itertools
import re
from collections.abc import Container, Iterable, Iterator, Sequence
from copy import copy
from dataclasses import replace

from workbook_tools.labels.block_titles import TitledBlock, is_of_job, is_title, with_title
from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import At, kind_of_text
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.dates import leading_date
from workbook_tools.labels.flat_crowns import flat_crowns
from workbook_tools.labels.head import Head
from workbook_tools.labels.heads import begin_at, head_at
from workbook_tools.labels.kept_blocks import ReadBlock, read_or_kept
from workbook_tools.labels.labeled_values import labeled_values, says_a_size
from workbook_tools.labels.last_figures import is_added_to
from workbook_tools.labels.named_heads import is_ordinal_of_rings
from workbook_tools.labels.number_columns import number_columns
from workbook_tools.labels.property_units import says_units
from workbook_tools.labels.run_pressure import run_pressure
from workbook_tools.labels.sentences import spoken
from workbook_tools.labels.several_sizes import placed_sizes, staged_size
from workbook_tools.labels.several_values import apart, beside, listed
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.side_limits import limits_of_sides
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.table_rows import is_aside, table_of
from workbook_tools.labels.table_values import table_values
from workbook_tools.labels.titles import before_units, first_clause
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    Stage,
    counts_parts,
    meaning_of,
    plain,
    stage_of,
)
from workbook_tools.labels.which import NOTHING, Which, which_of, without_stage
from workbook_tools.labels.written_limits import is_written_limit, with_written_limits
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

# So many rows below the head of another block rows may go on its table.
# "was" and "is now" over a form hold down to its end.
_FEWEST_STAGES = 2
_MOST_ROWS_BELOW = 120
# So many columns filled with the same kinds of cells make a row one of the table above.
_MANY_COLUMNS = 5
_MOSTLY = 0.75
# The card of a cylinder has its labels in the rows below, so many of the first of them measured.
_ROWS_OF_A_CARD, _LEAST_OF_A_CARD = 4, 2
# A row of names, each with its number, has so many of them.
_FEWEST_PAIRS = 2
# A head that counts so many columns has a table below it.
_FEWEST_COUNTED = 3
_DIGIT = re.compile(r"\d")
_A_RATIO = re.compile(r"\d\s?:\s?1\b")
_NAMED_BEHIND = re.compile(r"(?P<number>[-+]?\d*[.,]\d+)\s+(?P<name>[^\W\d_][^\d]{4,40})")
FILLED_IN = re.compile(
    r"^(?P<label>[^\W\d_][^:_]{1,40}?)\s*(?::|_{2,}|\.{3,})[\s_]*(?P<value>\S.*?)[\s_]*$"
)


def spots(cells: SheetText) -> list[Spot]:
    """Every number that a text speaks of, and every empty cell beside others of its line."""
    found: list[Spot] = []
    heads: list[Head] = []
    titles = [at for block in cells.blocks if (at := _lone_title(cells, block))]
    for block in cells.blocks:
        title = _title_over(cells, block, titles) or _title_of_a_twin(cells, block)
        read = read_or_kept(cells, block, _head_over(block, heads), title, _read)
        found += read.spots
        cells.indexes |= read.indexes
        cells.aside |= read.aside
        heads += [read.head] if read.head else []
    # Most cells hold a number, and with it no more than one size.
    numbers = {at for at, cell in cells.sheet.cells.items() if isinstance(cell.value, (int, float))}
    known = {(one.row, one.column) for one in found}
    for beside_tables in (number_columns, _spoken, _signed_across):
        more = list(beside_tables(cells, known))
        known |= {(one.row, one.column) for one in more}
        found += more
    found += flat_crowns(cells, found)
    sizes = (one for one in found if not is_added_to(cells.text(one.row, one.column)))
    named = [_named_by_title(spot) for spot in sizes]
    return listed(
        beside(
            [
                one
                for spot in (*with_written_limits(cells, named), *limits_of_sides(cells, named))
                for one in (
                    (spot,)
                    if (spot.row, spot.column) in numbers and not spot.inline
                    else apart(cells, spot)
                )
            ]
        )
    )


def _head_over(block: Block, heads: Sequence[Head]) -> Head | None:
    """The nearest heads that reach over a block, else the last ones."""
    last = heads[-1] if heads else None
    if last is not None and last.block.left == block.left:
        return last  # A table further up that is as wide is not gone on with.
    over = (h for h in reversed(heads) if _reaches_over(h.block, block))
    return next(over, last)


def _reaches_over(above: Block, block: Block) -> bool:
    return above.left <= block.left and block.right <= above.right


# A title that leaves more to be assumed does not say what the rows below it measure.
_MOST_ASSUMED = 2
_RINGS = 3
# What a label says that only counts.
_COUNTED_ALONE = (
    "", "cylinder", "bore", "main", "rod", "bearing", "main_bearing", "rod_bearing", "cam_bearing",
)  # fmt: skip
# The places that a title lists, of which each row names one.
_LISTED_PLACES = re.compile(r"[\s,:]*(?P<places>[^\W\d_]+(?:\s*[/,]\s*[^\W\d_]+)+)\s*(?=[(\[]|$)")


def _named_by_title(spot: Spot) -> Spot:
    """A spot whose label only says which one, with the title over it that says what is measured.

    "HL 1" below "Hauptzapfen", "Zyl. 1 oben" below "Ringstoß oben / Mitte / unten".
    """
    told = which_of(spot.label) if spot.label[-1:].isdigit() or spot.which.at else None
    if told is None or not told.number or not told.of or told.stage:
        return spot
    if meaning_of(spot.label).part not in _COUNTED_ALONE:
        return spot  # "main jnl 1" says more than which one.
    title = next((h for h in spot.headings[:-1] if _says_what(h)), "")
    if not title or not _names_rows(title) or _is_of_another_bearing(title, told):
        return spot
    at = told.at or spot.which.at
    place = spot.label.rpartition(str(told.number))[2].strip(" ,.:")
    listed = _LISTED_PLACES.search(title)
    places = re.split(r"\s*[/,]\s*", listed["places"].casefold()) if listed else []
    if listed and place.casefold() in places:
        # Of three rings the lowest is the oil ring.
        last = len(places) == _RINGS and place.casefold() == places[-1]
        place = "" if last else f" {place}"
        told = told._replace(at=(), side="oil" if last else told.side)
        at = ()
        title = f"{title[: listed.start()]}{place}{title[listed.end() :]}"
    return replace(
        spot,
        label=title,
        headings=spot.headings[-1:],
        which=told.beside(spot.which._replace(at=at)).beside(
            Which(stage=_stage_said(spot.headings))
        ),
        line=("titled", plain(title), spot.which.unit),
    )


def _stage_said(headings: Sequence[str]) -> Stage:
    """When the nearest title says that sizes were taken, one that says nothing else: "as found"."""
    said = which_of(headings[0])
    return said.stage if said is not None and not said.tells else ""


def _says_what(heading: str) -> bool:
    meaning = meaning_of(heading)
    return bool(meaning.candidates or meaning.part)


def _is_of_another_bearing(title: str, told: Which) -> bool:
    """Whether a title names what rods have of a label that counts the mains, or the like."""
    term = find(meaning_of(title).candidates[0].measurand)
    return term is not None and {term.of, told.of} == {"main", "rod"}


def _names_rows(title: str) -> bool:
    """Whether a title says without a doubt what is measured of the rows below it."""
    meaning = meaning_of(title)
    sure = bool(meaning.candidates) and meaning.candidates[0].cost <= _MOST_ASSUMED
    return sure and not meaning.unknown and which_of(title) is None


# A title over a gap stands so many rows at most above its table, and has so many words.
_FARTHEST_TITLE, _MOST_WORDS_OF_A_TITLE = 2, 6


def _lone_title(cells: SheetText, block: Block) -> At | None:
    """The cell of a block that holds one short text and no more."""
    if len(block.rows) != 1 or block.left != block.right:
        return None
    at = next(iter(block.rows)), block.left
    text = before_units(cells.text(*at)) or cells.text(*at)
    short = len(first_clause(text).split()) <= _MOST_WORDS_OF_A_TITLE
    short = short and cells.kinds[at] in ("text", "remark") and not says_units(text)
    short = short and not is_unit(first_clause(text))  # "mm, JM = John"
    return at if short and ":" not in text.rstrip(" :") and not says_a_size(text) else None


def _title_of_a_twin(cells: SheetText, block: Block) -> str:
    """The title over a table to the left whose heads a block repeats in their row: "L bank"."""
    top = min(block.rows)
    heads = [cells.text(top, c) for c in block.rows[top]][1:]
    for twin in cells.blocks if len(heads) > 1 else ():
        over, *below = twin.rows
        if twin.right >= block.left or below[:1] != [top] or len(twin.rows[over]) != 1:
            continue
        again = [cells.text(top, c) for c in twin.rows[top]][1:]
        if over == top - 1 and again == heads and twin.rows[over] == (twin.left,):
            return first_clause(cells.text(over, twin.left))
    return ""


def _title_over(cells: SheetText, block: Block, titles: Sequence[At]) -> str:
    """The title that stands over a block with a gap of rows, "" where none does."""
    first = min(block.rows)
    over = [
        (row, column)
        for row, column in titles
        if 1 < first - row <= _FARTHEST_TITLE and block.left <= column <= block.right
    ]
    text = cells.text(*max(over)) if over else ""
    return first_clause(before_units(text) or text)


def _below_another_title(head: Head) -> Head:
    """The heads of a table above over rows below a title of their own, without their corner."""
    texts = {c: texts for c, texts in head.texts.items() if c != head.block.left}
    return replace(head, texts=texts, corner=[])


def _read(cells: SheetText, block: Block, above: Head | None, title: str) -> ReadBlock:
    """What a block holds, apart from what was found on its sheet before."""
    own = copy(cells)
    own.indexes, own.aside, own.asked = set(), set(), {}
    reader = _BlockReader(own, block, above, title)
    found = tuple(reader.spots())
    asked = tuple(own.asked.items())
    return ReadBlock(found, reader.head, frozenset(own.indexes), frozenset(own.aside), asked)


class _BlockReader:
    """Reads one block, row by row: titles, heads, then values."""

    def __init__(self, cells: SheetText, block: Block, above: Head | None, title: str) -> None:
        self.cells = cells
        self.block = block
        self.above = above
        self.rows = list(block.rows)
        self.heads = TitledBlock(cells, block, self.rows, (title,) if title else ())
        self.head: Head | None = None
        self.card = NOTHING

    def spots(self) -> Iterator[Spot]:
        """The spots of the block, all as found where a remark below them says so."""
        found = list(self._spots())
        said = self._is_said_below() and not any(s.which.stage or s.meaning.stage for s in found)
        for spot in found:
            yield replace(spot, which=spot.which._replace(stage="found")) if said else spot

    def _is_said_below(self) -> bool:
        """Whether the last row is a remark alone that begins with "as found" or says worn."""
        row = self.rows[-1]
        if self.block.rows[row] != (self.block.left,) or row == self.rows[0]:
            return False
        text = self.cells.text(row, self.block.left)
        clauses = [re.split(r"\s[-–—]\s|,", one)[0] for one in re.split(r"[.;]\s+", text)]
        # Alone it may be the title of what stands further down.
        told = map(which_of, clauses if clauses != [text] else ())
        return any(w is not None and w.stage == "found" and not w.tells for w in told)

    def _spots(self) -> Iterator[Spot]:
        at = 0
        while at < len(self.rows):
            row = self.rows[at]
            if is_of_job(self.heads, row):
                at += 1
                continue
            if (card := self._card_at(at)) is not None:
                self.card = card
                at += 1
                continue
            if is_title(self.heads, row):
                self.heads = with_title(self.heads, row)
                at += 1
                self.head = self._head_below_title(at)
                continue
            head = head_at(self.heads, at)
            if head is not None:
                above = self.head or self.above
                head = head.with_stages_of(above).with_rods_below(above).with_limits_of(above)
                self.head = head.with_ones_of(above).below(above)
                at += len(head.rows)
                continue
            if self._leaves_table(at):
                self.head = None  # Labels with their values stand below it without a gap.
            end = at + 1
            while end < len(self.rows) and not (self._begins_at(end) or self._leaves_table(end)):
                end += 1
            yield from self._values(self.rows[at:end])
            at = end

    def _head_below_title(self, at: int) -> Head | None:
        """The heads of the table so far over the rows below a title, from one of them on."""
        if self.head is None or not self.heads.titles:
            return self.head
        rows = itertools.takewhile(lambda r: not is_title(self.heads, r), self.rows[at:])
        filled = max((len(self.block.rows[row]) for row in rows), default=0)
        above = len(self.block.rows.get(self.head.rows[-1] + 1, ()))
        only_when = self.head.has_only_places() or self._names_what_is_counted(at)
        if only_when and filled < above:
            return None  # "#1 | 2.4482" below "| top | bottom" is measured at neither.
        return self.head.below_title(self.heads.titles[0], self.rows[at - 1])

    def _names_what_is_counted(self, at: int) -> bool:
        """Whether a title surely measures something of the counted rows below it, one size each.

        "Pistons" below a table of bores as found and as finished.
        """
        rows = list(itertools.takewhile(lambda r: not is_title(self.heads, r), self.rows[at:]))
        title = meaning_of(self.heads.titles[0])
        surely = bool(title.candidates) and title.candidates[0].cost <= _MOST_ASSUMED
        return surely and len(rows) > 1 and self._is_counted_below_title(rows)

    def _begins_at(self, at: int) -> bool:
        return begin_at(self.heads, at) or self._card_at(at) is not None

    def _leaves_table(self, at: int) -> bool:
        """Whether from a row on labels stand where the heads count, one below the other."""
        if self.head is None:
            return False
        row = self.rows[at]
        if self._is_of_pairs(row) or self._is_before_and_after(row):
            return True
        if self._is_of_all(at) or self._names_among_values(at):
            return True
        if len(self.head.index) < _FEWEST_COUNTED or at + 1 >= len(self.rows):
            return False
        row, below = self.rows[at], self.rows[at + 1]
        kinds, text = self.cells.kinds, self.cells.text
        return any(
            kinds.get((row, c)) == "text" and kinds.get((below, c)) == "text"
            and text(row, c) != text(below, c) and self.cells.is_number((below, c + 1))
            for c in self.head.index
        )  # fmt: skip

    def _is_of_pairs(self, row: int) -> bool:
        """Whether a row holds names, each with its own number behind it, and nothing else."""
        columns = self.block.rows[row]
        names, numbers = columns[::2], columns[1::2]
        if len(numbers) < _FEWEST_PAIRS or len(names) != len(numbers):
            return False
        return all(
            n == c + 1 and self.cells.is_number((row, n)) and self.cells.kinds[row, c] == "text"
            and which_of(self.cells.text(row, c)) is None
            and meaning_of(self.cells.text(row, c)).candidates
            for c, n in zip(names, numbers, strict=True)
        )  # fmt: skip

    def _is_of_all(self, at: int) -> bool:
        """Whether a row names what is measured of the whole, below rows that say which one.

        "bend | 0.08 | pressed to | 0.02" below the rows M1 to P6 of a card.
        """
        row = self.rows[at]
        first, *others = self.block.rows[row]
        above = [r for r in self.rows[:at] if r > max(self.head.rows)] if self.head else []
        counted = [w for r in above[-2:] if (w := which_of(self.cells.text(r, first))) and w.number]
        if len(counted) < _FEWEST_PAIRS or which_of(self.cells.text(row, first)) is not None:
            return False
        candidates = meaning_of(self.cells.text(row, first)).candidates
        named = any(
            self.cells.kinds[row, c] == "text" and self.cells.is_number((row, c + 1))
            and self.cells.is_number((above[-1], c))
            for c in others
        )  # fmt: skip
        return bool(candidates) and candidates[0].cost <= _MOST_ASSUMED and named

    def _names_among_values(self, at: int) -> bool:
        """Whether names stand in a row where the one above has values of counted parts.

        "Fillet R | .156 | TIR, center main | | .0055" below a row of the journals M1 to M7.
        """
        row, counted = self.rows[at], self.head.index if self.head else {}
        if not at or self.rows[at - 1] in (self.head.rows if self.head else ()):
            return False
        columns = self.block.rows[row]
        names = [c for c in columns[1:] if c in counted and self.cells.kinds[row, c] == "text"]
        behind = {c: next((o for o in columns if o > c), 0) for c in names}
        return bool(names) and all(
            self.cells.is_number((self.rows[at - 1], c))
            and self.cells.is_number((row, behind[c]))
            and which_of(self.cells.text(row, c)) is None
            and meaning_of(self.cells.text(row, c)).candidates
            for c in names
        )

    def _is_before_and_after(self, row: int) -> bool:
        """Whether a row is a name with sizes that say when each was taken: "avant 0,12"."""
        first, *others = self.block.rows[row]
        said = [staged_size(self.cells.text(row, c))[1] for c in others]
        return bool(said) and all(said) and bool(meaning_of(self.cells.text(row, first)).candidates)

    def _card_at(self, at: int) -> Which | None:
        """Which one the labels below are of, where a row begins the card of one: "CYL 1"."""
        row = self.rows[at]
        first, *others = self.block.rows[row]
        card = which_of(self.cells.text(row, first))
        if card is None or not (card.number and card.of) or len(others) > 1:
            return None
        if any(self.cells.is_number((row, c)) for c in others):
            return None
        below = self.rows[at + 1 : at + 1 + _ROWS_OF_A_CARD]
        labels = [self.cells.text(r, first) for r in below if self.cells.is_number((r, first + 1))]
        measured = [t for t in labels if t and which_of(t) is None and meaning_of(t).candidates]
        return card if len(measured) >= _LEAST_OF_A_CARD else None

    def _on_card(self, spot: Spot) -> Spot:
        """A value with the cylinder whose card it stands on; cards share their labels."""
        if self.card is NOTHING:
            return spot
        shared = ("card", plain(spot.label), spot.headings[:1])
        return replace(spot, which=spot.which.beside(self.card), line=shared)

    def _values(self, rows: Sequence[int]) -> Iterator[Spot]:
        """The values of rows below heads, or beside labels of their own."""
        if self.head is None and self._is_counted_below_title(rows):
            yield from self._below_title(rows)
            return
        nearest = self.head or self.above
        further = [r for r in rows if nearest and self._of_row(r, nearest) is not nearest]
        yield from self._values_below([r for r in rows if r not in further], self.head, self.above)
        if nearest is not None:
            yield from self._values_below(further, None, nearest.over)

    def _of_row(self, row: int, head: Head) -> Head:
        """The heads of a row: the nearest, or those further up that its values fit."""
        columns = self.block.rows[row]
        return head.of_columns({c for c in columns if self.cells.is_value((row, c))})

    def _values_below(
        self, rows: Sequence[int], own: Head | None, above: Head | None
    ) -> Iterator[Spot]:
        """The values of rows below heads of the block or of a table above it."""
        if not rows:
            return
        titles = self.heads.titles
        head = own or self._over(rows, above)
        below = [] if head is None else rows
        if head is None and above is not None and self._is_beneath(rows, above):
            # Lone values between the rows of a table are beside labels of their own.
            head, below = above, [r for r in rows if self._fills(r, above)]
        if head is above and head is not None and titles:
            head = _below_another_title(head)
        yield from self._beside_names([row for row in rows if row not in below])
        if head is not None and below:
            table = table_of(self.cells, self.block, head, below, self.heads.side, titles)
            found = list(table_values(table))
            yield from found
            told = {spot.row for spot in found}
            # Of a table above a gap a row with a name of its own may be none.
            alone = [row for row in below if own is None and row not in told]
            beside = self._beside_names(alone)
            yield from (s for s in beside if self.cells.is_number((s.row, s.column)))

    def _beside_names(self, rows: Sequence[int]) -> Iterator[Spot]:
        """The values of rows beside labels of their own."""
        named: Spot | None = None
        above: Sequence[Spot] = ()
        for row in rows:
            goes_on = self.block.left not in self.block.rows[row]
            found = list(labeled_values(self.cells, self.block, row, self.heads.titles))
            found = above = [_worked_after(spot, above) for spot in found]
            if goes_on and named is not None:
                found = [_going_on(spot, named) for spot in found]
            elif not goes_on:
                named = next((s for s in found if s.origin == (row, self.block.left)), None)
            for spot in found:
                yield self._on_card(self._at_stage_above(spot))

    def _at_stage_above(self, spot: Spot) -> Spot:
        """A value beside its name with the stage that a form's heads say above a gap of rows."""
        head = self.above
        if self.head is not None or head is None or head.block.left != self.block.left:
            return spot
        # "Ground, front, vertical" is of the sizes of its own table alone.
        plain_ones = (c for c in head.texts if (w := head.which(c)) and not w.at)
        stages = {c: head.which_stage(c) for c in plain_ones if c != self.block.left}
        named = sum(bool(stage) for stage in stages.values())
        if named < _FEWEST_STAGES or self.block.right > head.block.right:
            return spot
        if stages.get(spot.origin[1]):
            return spot  # Where the form has limits, names with their values stand.
        if any(self.cells.kinds.get((spot.row, c)) in ("unit", "text") for c in head.index):
            return spot  # Where the form has sizes, units and remarks stand.
        return replace(spot, which=spot.which.beside(Which(stage=stages.get(spot.column, ""))))

    def _is_counted_below_title(self, rows: Sequence[int]) -> bool:
        """Whether rows are a number that counts with a value, and a title says of what."""
        columns = self.block.rows[rows[0]]
        if (
            len(columns) != 2
            or len(rows) == 1
            or any(self.block.rows[row] != columns for row in rows)
            or not all(self.cells.is_value((row, columns[1])) for row in rows)
            or not any(meaning_of(title).candidates for title in self.heads.titles[:1])
        ):
            return False
        counted = [self.cells.whole_number((row, columns[0])) for row in rows]
        pairs = [self._pair_at((row, columns[0])) for row in rows]
        told = [(w.number, w.last) for w in pairs]
        of_pairs = told == [(n, n + 1) for n in range(1, 2 * len(rows), 2)]
        return of_pairs or counted == [*range(1, len(rows) + 1)] or _is_of_a_bank(counted)

    def _below_title(self, rows: Sequence[int]) -> Iterator[Spot]:
        """The values of counted rows of which the title over them says what they measure."""
        index, column = self.block.rows[rows[0]]
        title, *others = self.heads.titles
        self.cells.indexes |= {(row, index) for row in rows}
        above = max((row for row in self.rows if row < rows[0]), default=rows[0])
        for row in rows:
            number = self.cells.whole_number((row, index)) or 0
            which = self._pair_at((row, index)) if not number else Which(number)
            yield Spot(
                row, column, title, (*others, self.cells.heading), which, "",
                ("column", column, rows[0]), (above, self.block.rows[above][0]),
            )  # fmt: skip

    def _pair_at(self, at: At) -> Which:
        """The two rods on a throw that a cell names, which share what is measured: "1-2"."""
        said = which_of(self.cells.text(*at))
        return (
            said._replace(of="rod") if said is not None and said.last and not said.of else NOTHING
        )

    def _over(self, rows: Sequence[int], head: Head | None) -> Head | None:
        """The heads of the table above, where these rows go on below them."""
        if head is None or not self._is_beneath(rows, head):
            return None
        return head if all(self._goes_on(row, head) for row in rows) else None

    def _is_beneath(self, rows: Sequence[int], head: Head) -> bool:
        if rows[0] - max(head.rows) > _MOST_ROWS_BELOW:
            return False
        return _reaches_over(head.block, self.block) or self._is_wider_by_a_remark(head)

    def _is_wider_by_a_remark(self, head: Head) -> bool:
        """Whether only a limit or a remark behind a row reaches further than heads that count."""
        counted = sum(bool((w := head.which(c)) and w.number) for c in head.texts)
        if counted < _FEWEST_COUNTED or head.block.left > self.block.left:
            return False
        beyond = [(r, c) for r in self.rows for c in self.block.rows[r] if c > head.block.right]
        one = {c for _, c in beyond} == {head.block.right + 1}
        return one and not any(self.cells.kinds[at] in ("number", "formula") for at in beyond)

    def _fills(self, row: int, head: Head) -> bool:
        """Whether a row has a value below each head that tells one from another."""
        told = {c for c in (*head.texts, *head.index) if (w := head.which(c)) and w.tells}
        held = {c for c in told if self.cells.is_number((row, c))}
        return len(told) > 1 and held == told and self._goes_on(row, head)

    def _goes_on(self, row: int, head: Head) -> bool:
        """Whether a row is one more of the table above, and no label with its value."""
        if self._looks_like_rows_of(head, row):
            return True
        columns = [
            c
            for c in self.block.rows[row]
            if self.cells.is_value((row, c)) and not is_aside(self.cells, head, c)
            if c <= head.block.right or self.cells.kinds[row, c] != "measured"
        ]
        if not columns or not all(c in head.texts or c in head.index for c in columns):
            return False
        if any(
            counts(text) and not self.cells.is_whole((row, c)) and not self._heads_sizes(head, c)
            for c in columns
            for text in head.texts.get(c, ())[:1]
        ):
            return False  # Where the table above counts, another has its sizes.
        labels = [
            self.cells.text(row, c)
            for c in self.block.rows[row]
            if c < columns[-1] and self.cells.kinds[row, c] in ("text", "remark")
        ]
        if len(labels) > 1:
            return False
        told = which_of(labels[0]) if labels else None
        if told is not None and told.of in BEARINGS and _counts_others(head, told.of):
            return False  # "Main 1" below a table of cylinders.
        if labels and _counts_valves(head) and _is_of_no_valve(labels[0]):
            return False  # "Piston 271 | 272" below the valves of two cylinders.
        if not labels or told is not None:
            return True
        # A tick stands below a head that says what it ticks.
        sized = [c for c in columns if self.cells.is_number((row, c))]
        return len(sized) > 1 and all(head.which(c) is not None for c in sized)

    def _heads_sizes(self, head: Head, column: int) -> bool:
        """Whether sizes stand below a head that can count: "Journal" over 2.4887."""
        below = ((r, column) for r in head.block.rows if r > max(head.rows))
        first = next((at for at in below if self.cells.is_number(at)), None)
        return first is not None and not self.cells.is_whole(first)

    def _looks_like_rows_of(self, head: Head, row: int) -> bool:
        """Whether a row holds the same kinds of cells as the first below heads, many of them."""
        kinds = self.cells.kinds
        first = next((r for r in head.block.rows if r > max(head.rows)), None)
        if first is None or first == row:
            return False
        columns = head.block.rows[first]
        alike = sum(kinds.get((row, c)) == kinds[first, c] for c in columns)
        return len(columns) >= _MANY_COLUMNS and alike >= _MOSTLY * len(columns)


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


# A bank of a V has so many cylinders.
_FEWEST_OF_A_BANK = 2


def _is_of_a_bank(counted: Sequence[int | None]) -> bool:
    """Whether numbers count every other one, as the cylinders of a bank: 1 3 5 7, 2 4 6 8."""
    every_other = [[*range(first, first + 2 * len(counted), 2)] for first in (1, 2)]
    return len(counted) >= _FEWEST_OF_A_BANK and list(counted) in every_other


def _counts_valves(head: Head) -> bool:
    """Whether heads tell intake and exhaust valves from each other."""
    told = (head.which(c) for c in (*head.texts, *head.index))
    return {"intake", "exhaust"} <= {which.side for which in told if which is not None}


def _is_of_no_valve(label: str) -> bool:
    """Whether a label surely measures something of cylinders, rods or mains."""
    candidates = meaning_of(label).candidates[:1]
    term = (
        find(candidates[0].measurand)
        if candidates and candidates[0].cost <= _MOST_ASSUMED
        else None
    )
    return term is not None and not term.which and term.of in ("cylinder", "rod", "main")


def _counts_others(head: Head, of: str) -> bool:
    """Whether a table counts cylinders, and no bearings of a kind."""
    firsts = [counts(texts[0]) for texts in head.texts.values() if texts]
    counted = {*firsts, *(which.of for which in head.index.values())}
    return "cylinder" in counted and of not in counted


def _spoken(cells: SheetText, known: Container[At]) -> Iterator[Spot]:
    """The numbers within longer texts, and behind a colon in one cell.

    known: cells whose numbers tables name.
    """
    for (row, column), kind in cells.kinds.items():
        text = cells.text(row, column) if kind in ("text", "remark", "measured") else ""
        if not _may_speak(cells, row, column, text):
            continue
        if (noted := _noted(cells, row, column, text)) is not None:
            yield from noted
            continue
        filled = _filled_in(text)
        if filled and kind_of_text(filled["value"]) in ("measured", "nothing"):
            yield Spot(
                row, column, filled["label"], (cells.heading,), _over_lines(cells, row, column), "",
                ("inline", row, column), (row, column), filled["value"],
            )  # fmt: skip
        elif _is_marked(cells, row, column):
            if (row, column) not in known:
                yield from _below_its_title(cells, row, column, text)
        elif _names_its_row(cells, row, column):
            continue  # "Bore mid 60 mm" says where the numbers behind it were measured.
        elif kind == "measured":
            yield from _behind_its_number(cells, row, column, text)
        elif says_a_size(text) or not _is_named(cells, row, column, text):
            yield from _in_sentence(cells, row, column, text)


_COUNTS_CYLINDERS = re.compile(r"\b\d{1,2}[ -]?(?:cyl|zyl|cil)", re.IGNORECASE)


def _may_speak(cells: SheetText, row: int, column: int, text: str) -> bool:
    """Whether a text may hold a size: no head, no limit, and not what the engine is called."""
    if _DIGIT.search(text) is None or _is_a_head(text) or is_written_limit(text):
        return False
    if (row, column) in cells.indexes:
        return False  # "Side .001" over what is so many times that.
    return not (_COUNTS_CYLINDERS.search(text) and cells.is_job_field(row, column - 1))


# "1 .022, 2 .023, 3 .022" says which one before each.
_COUNTED_SIZES = re.compile(r"[:=]\s*1 \d*[.,]\d+\s*[,;]?\s+2 \d*[.,]\d+")


def _filled_in(text: str) -> re.Match[str] | None:
    """A label with its one value behind a colon, None for several and any other text."""
    several = placed_sizes(text) or _A_RATIO.search(text) or _COUNTED_SIZES.search(text)
    return None if several else FILLED_IN.match(text)


def _noted(cells: SheetText, row: int, column: int, text: str) -> Iterable[Spot] | None:
    """What a note in the margin, or of a run of the engine, says; None for any other text."""
    pressure, rest = run_pressure(text)
    if not pressure or _is_named(cells, row, column, text):
        note = (row, column) in cells.notes
        return _in_sentence(cells, row, column, text) if note else None
    label = f"{_OIL_PRESSURE} ({pressure.partition(' ')[2]})"
    of_oil = Spot(
        row, column, label, (cells.heading,), NOTHING, "",
        ("spoken", _OIL_PRESSURE, row, column), (row, column), pressure,
    )  # fmt: skip
    return of_oil, *_in_sentence(cells, row, column, rest)


def _over_lines(cells: SheetText, row: int, column: int) -> Which:
    """When the text over lines of a label and its size each says that all was as it came."""
    above = row - 1
    while FILLED_IN.match(cells.text(above, column)):
        above -= 1
    last = re.split(r"\s[-–—/]\s|,\s", cells.text(above, column))[-1]
    said = which_of(last) if last else None
    came = said is not None and said.stage == "found" and not said.tells
    return Which(stage="found") if came else NOTHING


_FIRST_SIGNED = re.compile(r"(?P<label>[^\W\d_][^:#]{1,40}?)\s*:\s*#\s?1\s+(?P<size>\d*[.,]?\d+)")
_NEXT_SIGNED = re.compile(r"#\s?(?P<number>[1-9]\d?)\s+(?P<size>\d*[.,]?\d+)")


def _signed_across(cells: SheetText, known: Container[At]) -> Iterator[Spot]:
    """The numbers of cells that count on behind a name: "comp psi: #1 165 | #2 160 | #3 170"."""
    for (row, column), text in cells.texts.items():
        first = _FIRST_SIGNED.fullmatch(text)
        if first is None or (row, column) in known:
            continue
        sizes = [first["size"]]
        while told := _NEXT_SIGNED.fullmatch(cells.text(row, column + len(sizes))):
            if int(told["number"]) != len(sizes) + 1:
                break
            sizes.append(told["size"])
        for number, size in enumerate(sizes if len(sizes) >= _FEWEST_COUNTED else (), 1):
            yield Spot(
                row, column + number - 1, first["label"], (cells.heading,), Which(number), "",
                ("signed", row, column), (row, column), size,
            )  # fmt: skip


# The one of several that a label names, with the unit of what is measured: "chamber 1 cc".
_COUNTED_WITH_UNIT = re.compile(r"[^\d]+ \d{1,2} \(?(?P<unit>[^\W\d_]+)\)?")


def _is_named(cells: SheetText, row: int, column: int, text: str) -> bool:
    """Whether a text is the label of a value in its row: beside it, or further for a count."""
    if cells.is_value((row, column + 1)):
        return True
    counted = _COUNTED_WITH_UNIT.fullmatch(text)
    if counted is None or not is_unit(counted["unit"]):
        return False
    filled = (c for c in range(column + 1, column + 9) if (row, c) in cells.kinds)
    return cells.is_number((row, next(filled, 0)))


# A label with so many numbers in its row, in one line, names them.
_FEWEST_NAMED = 3


def _names_its_row(cells: SheetText, row: int, column: int) -> bool:
    """Whether a text stands before several numbers of a row in its block and is their name."""
    own = _row_of_block(cells, row, column)
    right = [c for c in own if column < c < column + 9 and cells.is_number((row, c))]
    before = any((row, c) in cells.kinds for c in range(1, column))
    return len(right) >= _FEWEST_NAMED and not before and not says_a_size(cells.text(row, column))


def _row_of_block(cells: SheetText, row: int, column: int) -> Sequence[int]:
    """The filled columns in the row of a cell that stand in its block."""
    return next((columns for columns in cells.rows_of_blocks[row] if column in columns), ())


def _is_a_head(text: str) -> bool:
    """Whether a text only says which one, or in what parts of an inch numbers are.

    The first in "Cyl 1 (L)" is on the left, in no liters, and "Fit .001s" says no fit.
    """
    if counts_parts(text):
        return True
    told = which_of(text)
    return told is not None and bool(told.number and told.of and told.bank)


_OIL_PRESSURE = "oil pressure"
# So many rows of marked sizes may stand below what they measure.
_MOST_ROWS_MARKED = 6


def _below_its_title(cells: SheetText, row: int, column: int, text: str) -> Iterator[Spot]:
    """A size with its mark below the title of a row of such: "#1 76.0 cc | #2 75.8 cc"."""
    if any(cells.text(row, c) and not _is_marked(cells, row, c) for c in range(1, column)):
        return
    for above in range(row - 1, max(0, row - 1 - _MOST_ROWS_MARKED), -1):
        over = [c for c in range(1, column + 1) if cells.text(above, c)]
        if not over or not _is_marked(cells, above, over[0]):
            title = first_clause(cells.text(above, over[0])) if over else ""
            which = which_of(placed_sizes(text)[0][0])
            if title and which is not None:
                yield Spot(
                    row, column, title, (cells.heading,), which, "",
                    ("marked", plain(title)), (above, over[0]), placed_sizes(text)[0][1],
                )  # fmt: skip
            return


def _is_marked(cells: SheetText, row: int, column: int) -> bool:
    return len(placed_sizes(cells.text(row, column))) == 1


def _behind_its_number(cells: SheetText, row: int, column: int, text: str) -> Iterator[Spot]:
    """A number with its name behind it, where none stands before: ".006 down in the hole"."""
    found = _NAMED_BEHIND.fullmatch(text)
    before = cells.text(row, column - 1)
    if found is None or (before and which_of(before) is None and not says_a_size(before)):
        return
    candidates = meaning_of(found["name"]).candidates
    if candidates and candidates[0].cost <= 1:
        yield Spot(
            row, column, found["name"], (cells.heading,), _told_before(cells, row, column), "",
            ("spoken", plain(found["name"])), (row, column), found["number"],
        )  # fmt: skip


def _told_before(cells: SheetText, row: int, column: int) -> Which:
    """Which one the texts before a cell say that its row is of."""
    before = (cells.text(row, c) for c in range(1, column))
    said = (which_of(t) for t in before if t and not leading_date(t))
    return next((which for which in said if which is not None), NOTHING)


# A label has its own value within so many columns.
_FARTHEST_VALUE = 4
# Sentences under one title are no more than this.
_MOST_SENTENCES = 20


def _title_of_sentences(cells: SheetText, row: int, column: int) -> str:
    """What the title over sentences in a column says they are of, "" where none says it."""
    for above in range(row - 1, max(0, row - _MOST_SENTENCES), -1):
        text = cells.text(above, column)
        if not text:
            return ""
        title = first_clause(text.partition(" - ")[0])
        if _DIGIT.search(title) is None and len(title.split()) <= _FEWEST_COUNTED:
            return title if meaning_of(title).candidates or meaning_of(title).part else ""
    return ""


def _is_where_it_is_measured(cells: SheetText, row: int, column: int, label: str) -> bool:
    """Whether a size in the label of a row says where: "Piston, 15 mm up | 87.45"."""
    if any((row, c) in cells.kinds for c in range(1, column)):
        return False
    own = _row_of_block(cells, row, column)
    filled = [c for c in own if column < c <= column + _FARTHEST_VALUE]
    named = meaning_of(label).candidates
    return bool(named and filled and cells.is_number((row, filled[0])))


def _label_of_row(cells: SheetText, row: int, column: int) -> Sequence[str]:
    """What the row of a remark is of: "Head gasket | 1.00 mm | annealed, hole 66 mm"."""
    first = next((c for c in range(1, column) if cells.text(row, c)), 0)
    text = cells.text(row, first) if first and cells.is_value((row, first + 1)) else ""
    return (text,) if text and which_of(text) is None and not says_a_size(text) else ()


def _in_sentence(cells: SheetText, row: int, column: int, text: str) -> Iterator[Spot]:
    beside = _told_before(cells, row, column)
    title = _title_of_sentences(cells, row, column)
    for mention in spoken(text, title):
        note = (row, column) in cells.notes
        if not note and _is_where_it_is_measured(cells, row, column, mention.label):
            continue
        known = not meaning_of(mention.label).unknown
        over = _label_of_row(cells, row, column) if known else ()
        unit = mention.text.partition(" ")[2]
        label = f"{mention.label} ({unit})" if unit and is_unit(unit) else mention.label
        if is_ordinal_of_rings(label) and meaning_of(title).part == "ring":
            label, over = f"{label} ring", (title, *over)  # "Top .0016" below "Ring gaps".
        wanted = Which(stage="target" if _has_a_tolerance(mention.text, text) else "")
        yield Spot(
            row, column, label, (*mention.about, *over, cells.heading),
            mention.which.beside(beside).beside(wanted), "",
            ("spoken", plain(label), mention.about), (row, column), mention.text,
        )  # fmt: skip


def _has_a_tolerance(size: str, text: str) -> bool:
    """Whether a size is wanted with so much more or less: "stretch .0058 +/-.0002"."""
    number = re.escape(size.partition(" ")[0])
    return (
        re.search(rf"{number}[^\d,;]{{0,6}}(?:\+\s?/?\s?[-–−]|±|\+(?=0?[.,]0))\s?\d*[.,]?\d", text)
        is not None
    )
