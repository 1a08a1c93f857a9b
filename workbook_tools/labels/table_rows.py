"""The rows of a table: which of its columns count and name them, and which one each is of."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import VALUES, At, CellKind
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.head import Head, counted_part, of_stations, picks_some
from workbook_tools.labels.job_labels import OTHER
from workbook_tools.labels.named_heads import is_ordinal_of_rings, names_a_ring
from workbook_tools.labels.settled_heads import CARDS
from workbook_tools.labels.sheet_text import SheetText, whole_number
from workbook_tools.labels.vocabulary import Stage, meaning_of, noun_named
from workbook_tools.labels.which import (
    EITHER,
    NOTHING,
    Which,
    from_the_front,
    is_run,
    roman,
    sided,
    which_of,
)
from workbook_tools.measurands.position import counts

_NUMBER_AND_WORD = re.compile(r"(?P<number>\d{1,2})\s+[^\W\d_]{2,}(?: end)?")
_COUNTED = re.compile(
    r"(?P<word>[^\W\d_]+)\.?\s*(?:n[o°º]\.?\s*)?#?(?P<number>\d{1,2})"
    r"(?:\s?[-/&]\s?(?P<last>\d{1,2}))?",
    re.IGNORECASE,
)
# Two that share a throw: "1/2".
_PAIR = re.compile(r"(?P<first>\d{1,2})\s?[-/&]\s?(?P<last>\d{1,2})")
# Which one in a list that has a column for it: "C1", "T3".
_CODE = re.compile(r"[^\W\d_]{1,2}[. ]?(?P<number>\d{1,2})")
_FEWEST_COUNTED = 2
# So many fields of jobs side by side head a list of jobs.
_FEWEST_FIELDS = 3
# A column that counts on further than this numbers lines.
_MOST_OF_A_KIND = 24


# One of two of a kind: the front inlet valve of a cylinder, the second bolt of a rod.
_ONE_OF_TWO = re.compile(r"#?(?P<number>\d{1,2})[ ./-]?(?P<letter>[FRAB])", re.IGNORECASE)
_TWO_OF_A_KIND = ({"f", "r"}, {"a", "b"})
_ENDS = {"f": ("front",), "r": ("rear",)}
# So many fields of jobs side by side head a list of jobs.
_FEWEST_OF_A_LIST = 4
# The same behind the word for a rebuild, which no other table has.
_FEWEST_OF_REBUILDS = 2
# Whose engine it is, and which, stand over no other list.
_OF_A_JOB = ("customer", "engine")
# So many heads of sizes make a table whose rows are named by what is counted.
_FEWEST_MEASURING = 3
# A column of these is of intake and exhaust valves, and of no Roman ones.
_VALVES = ({"i": "intake", "e": "exhaust"}, {"ein": "intake", "aus": "exhaust"})


class TableRows:
    """The rows below a head.

    index: columns that count the rows; names: those with texts, pistons: of these those that say
    whose rings a row measures; units: those with units;
    begun_above: rows of what is counted in a row above;
    values: the others, dates left out; first: the first of these; side: the intake or exhaust
    that a title over all rows names.
    """

    def __init__(
        self, cells: SheetText, block: Block, head: Head, rows: Sequence[int], side: str
    ) -> None:
        self.cells = cells
        self.kinds = cells.kinds
        self.block = block
        self.head = head
        self.rows = rows
        self.side = side
        self._columns: dict[int, list[At]] = {}
        own = {c for row in rows for c in block.rows[row]}
        # Of heads over a wider block those count no further that stand over another one here.
        beyond = (c for c in head.index if c not in own)
        others = {c for c in beyond if any((row, c) in self.kinds for row in rows)}
        columns = sorted({*head.index, *own} - others)
        self.units = [c for c in columns if self._holds(c, "unit")]
        self.words_of_counts: set[At] = set()
        self.index = self._index_columns(columns)
        self.begun_above: set[int] = set()
        self._carry_down([c for c in columns if c not in self.index and self._parts_each(c)])
        self.again = {c for c, told in self.index.items() if _repeats(told.values())}
        self.names = [c for c in columns if self._names(c)]
        notes = [c for c in columns if self._is_aside(c)]
        cells.aside |= {at for c in notes for at in self.in_column(c)}
        dates = [c for c in columns if self._holds(c, "date") or self._is_dated(c)]
        aside = {*self.units, *self.index, *self.names, *notes, *dates}
        self.values = [c for c in columns if c not in aside]
        self.first = self.values[0] if self.values else block.right + 1
        self.telling = sorted((*self.names, *self.index))
        self.pistons: set[int] = set()
        self.counted = {at: which for c in self.names for at, which in self._counted_names(c)}
        self._carried = self._carried_names()
        self.begun_above |= {*self._carried}
        self._offices: dict[int, bool] = {}
        self._texts: dict[At, list[tuple[str, At]]] = {}
        self.stages = {row: stage for c in self.names for row, stage in self._stages_in(c)}
        self._settled_at: dict[int, Mapping[int, Which]] = {}
        self._whiches: dict[At, Which] = {}

    def told_before(self, column: int) -> int:
        """How many columns before one name or count the rows: they say the same for all such."""
        return bisect_left(self.telling, column)

    def in_column(self, column: int) -> list[At]:
        """The filled cells of a column."""
        if column not in self._columns:
            self._columns[column] = [(r, column) for r in self.rows if (r, column) in self.kinds]
        return self._columns[column]

    def _holds(self, column: int, kind: CellKind) -> bool:
        cells = self.in_column(column)
        return sum(self.kinds[at] == kind for at in cells) * 2 > len(cells)

    def _is_aside(self, column: int) -> bool:
        """Whether a column holds remarks, part numbers or prices, and nothing measured."""
        own = self.head.texts.get(column, ())[:1]
        return any(self.cells.vocabulary.is_aside(text) for text in own)

    def _is_dated(self, column: int) -> bool:
        """Whether the head of a column says that it holds days."""
        own = self.head.texts.get(column, ())[:1]
        named = {text.casefold().strip(" .:") for text in own} & words_of("date_heads")
        if named == {"dia"}:
            # A day in one language is a diameter in another, which has decimals.
            numbers = (at for at in self.in_column(column) if self.kinds[at] == "number")
            return all(map(self.cells.is_whole, numbers))
        return bool(named)

    def _names(self, column: int) -> bool:
        """Whether a column holds the names of its rows."""
        if column in self.index or column in self.units:
            return False
        cells = self.in_column(column)
        texts = [at for at in cells if self.kinds[at] in ("text", "remark")]
        volumes = [at for at in cells if texts and self._is_name(*at, self.cells.text(*at))]
        return len({*texts, *volumes}) * 2 > len(cells)

    def _stages_in(self, column: int) -> list[tuple[int, Stage]]:
        """The stage of each row in a column behind the values that holds nothing but stages."""
        if column < self.first:
            return []
        said = [(row, which_of(self.cells.text(row, at))) for row, at in self.in_column(column)]
        only: list[tuple[int, Stage]] = [
            (row, w.stage) for row, w in said if w is not None and w.stage and not w.tells
        ]
        # What all rows say alike tells none from another: "to do".
        return only if len(only) == len(said) and len({s for _, s in only}) > 1 else []

    def _counted_names(self, column: int) -> Iterator[tuple[At, Which]]:
        """The names of rows that are one word, not understood, with a number that counts."""
        texts = {at: self.cells.text(*at) for at in self.in_column(column)}
        for at in self._finished(texts):
            yield at, Which(stage="final")
        yield from self._old_and_worked(texts)
        if own := self._in_short(texts):
            yield from own.items()
            return
        told = {at: found for at, text in texts.items() if (found := _COUNTED.fullmatch(text))}
        words = {found["word"].casefold() for found in told.values()}
        if len(words) == 1 and self._heads_rings(column) and _counts_pistons(*words):
            # "Piston 1" below heads of rings says whose they are, and no size of its own.
            self.pistons.add(column)
            for at, found in told.items():
                yield at, Which(int(found["number"]), of="cylinder")
            return
        if len(words) != 1 or len(told) < _FEWEST_COUNTED or which_of(texts[next(iter(told))]):
            return
        if not is_run([int(f["number"]) for f in told.values()]):
            return
        # "Pin 1" below heads of sizes is a crankpin, and what is measured of it they say.
        others = [w.of for at, text in texts.items() if at not in told and (w := which_of(text))]
        measured = self._measuring_heads() >= _FEWEST_MEASURING or "main" in others
        of = counted_part(*words) if measured else ""
        if of or not meaning_of(*words).candidates:
            for at, found in told.items():
                yield at, Which(int(found["number"]), int(found["last"] or 0), of=of)

    def _in_short(self, texts: Mapping[At, str]) -> Mapping[At, Which]:
        """The names of rows that are a valve's letter, a main's or a pin's, or one of two each."""
        letters = {at: text.casefold().strip(" .") for at, text in texts.items() if text}
        for valves in _VALVES:
            if {*letters.values()} == {*valves}:
                return {at: Which(side=valves[letter]) for at, letter in letters.items()}
        if {*letters.values()} == {*_ENDS}:
            return {at: Which(at=_ENDS[letter]) for at, letter in letters.items()}
        if own := of_stations(texts) or _mains_and_pins(texts) or _valves_by_hand(texts):
            return own
        of_two = _of_two(texts)
        self.cells.indexes |= {*of_two}  # "1F" is no temperature.
        return of_two

    def _finished(self, texts: Mapping[At, str]) -> Iterator[At]:
        """The names of rows that say "finish" of sizes, below a row of what was found."""
        found = any((w := which_of(text)) and w.stage == "found" for text in texts.values())
        for at, text in texts.items() if found else ():
            named = text.casefold().strip(" .:") in words_of("finish_heads")
            others = [c for c in self.block.rows[at[0]] if c > at[1]]
            places = tuple([(at[0], c) for c in others])
            if named and places and self.cells.ask(_are_sizes, places):
                yield at

    def _old_and_worked(self, texts: Mapping[At, str]) -> Iterator[tuple[At, Which]]:
        """The names of rows of sizes that say no more than that they were machined, or are old.

        "Rectificado" below numbered mains is no depth of a cut, and "alt" no height.
        """
        counting = [c for c, which in self.head.index.items() if which.number]
        if len(counting) < _FEWEST_COUNTED:
            return
        even = {at: text.casefold().strip(" .:") for at, text in texts.items()}
        worked = [at for at, text in even.items() if text in words_of("worked_sizes")]
        later = worked or [at for at in texts if (w := which_of(texts[at])) and w.stage in _DONE]
        for at, text in even.items():
            sizes = tuple([(at[0], c) for c in counting if self._fills(at, c)])
            if len(sizes) < _FEWEST_COUNTED or not self.cells.ask(_are_large, sizes):
                continue
            if at in worked:
                yield at, Which(stage="machined")
            elif later and text in words_of("old_sizes"):
                yield at, Which(stage="found")

    def _fills(self, at: At, column: int) -> bool:
        return self.cells.is_number((at[0], column))

    def _heads_rings(self, column: int) -> bool:
        """Whether several heads behind a column each name a ring, or one by its number."""
        about = self.head.texts.get(column, ())
        heads = [t[0] for c, t in self.head.texts.items() if c > column and t]
        rings = [t for t in heads if is_ordinal_of_rings(t) or names_a_ring(t, about)]
        sides = {w.side for t in heads if (w := which_of(t)) is not None}
        named = sides - {"", "intake", "exhaust", EITHER}
        first = [w.number for c, w in self.head.index.items() if c > column and w.number]
        if named and first[:2] == [1, 2]:
            return True  # "1º | 2º | Aceite"
        return len(rings) >= _FEWEST_COUNTED and len(rings) * 2 > len(heads)

    @cached_property
    def has_measuring_heads(self) -> bool:
        """Whether any head says what is measured below it."""
        return self._measuring_heads() > 0

    def _measuring_heads(self) -> int:
        """How many heads say what is measured below them."""
        texts = [own[0] for own in self.head.texts.values() if own and which_of(own[0]) is None]
        return sum(bool(meaning_of(text).candidates) for text in texts)

    def _index_columns(self, columns: Sequence[int]) -> dict[int, dict[int, Which]]:
        """Columns that count the rows: {column: {row: which}}."""
        found: dict[int, dict[int, Which]] = {}
        for column in (c for c in columns if not self._is_one_of_the_counted(c, columns)):
            if pairs := self._pairs_in(column):
                found[column] = pairs
                self.cells.indexes |= {(row, column) for row in pairs}
                continue
            cells = self._without_note_below(self.in_column(column))
            numbered = [at for at in cells if self.kinds[at] in VALUES and not self._is_alone(at)]
            worded = self._counted_with_a_word(column) if numbered and column == columns[0] else {}
            numbered = sorted((*numbered, *worded))
            texts = self.head.texts.get(column, [])
            of = next((c for t in texts if (c := counts(t)) is not None), None)
            # A head that names a size makes no index of small sizes.
            first = column == columns[0] or not any(
                self.kinds[at] in VALUES for c in columns if c < column for at in self.in_column(c)
            )
            named = bool(texts) and of is None and which_of(texts[0]) is None
            if column != columns[0] and (
                self._says_where(texts, numbered) or self._counts_each_name(column, numbered)
            ):
                found[column] = {at[0]: Which(self.cells.whole_number(at) or 0) for at in numbered}
                self.cells.indexes |= {at for at in numbered if self.kinds[at] != "formula"}
                # What counts all rows before it numbers them, and says of none which one it is.
                if columns[0] in found and columns[0] != column - 1:
                    found[columns[0]] = dict.fromkeys(found[columns[0]], NOTHING)
                continue
            headless = named and self._heads_the_next(column, columns)
            # Whether sizes of what has a head of its own count is not asked.
            may = of is not None or first or headless
            may = may and (len(numbered) > 1 or (of is not None and column == columns[0]))
            rising = column == columns[0] and self._holds(column + 1, "text")
            some = column == columns[0] and bool(of)
            counted = tuple(numbered), tuple(worded.items())
            if may and (whole := self.cells.ask(_counted, *counted, rising, some)):
                if (of is not None or (first and not named)) and len(numbered) * 2 >= len(cells):
                    ok = len(whole) > 1 or whole[0] <= _MOST_OF_A_KIND
                elif headless and len(whole) > 1:
                    ok = True
                elif first and named and len(whole) >= 2 and self._only_counts(columns, whole):
                    ok, of = True, counted_part(texts[0])
                else:
                    ok = False
                if ok:
                    lines = any(t.casefold().strip(" .:#") in words_of("line_heads") for t in texts)
                    items = lines or (not of and self._numbers_names(column, columns))
                    found[column] = {
                        at[0]: NOTHING if items else Which(n, bank=_bank(texts), of=of or "")
                        for at, n in zip(numbered, whole, strict=True)
                    }
                    self.cells.indexes |= {at for at in numbered if self.kinds[at] != "formula"}
        return found

    def _is_one_of_the_counted(self, column: int, columns: Sequence[int]) -> bool:
        """Whether heads count a column and others, behind names of rows that measure.

        "Bore 82.50 + | 1 | 2 | 2" below "cyl | 1 | 2 | 3": its first numbers count nothing.
        """
        counted = [c for c in columns if (w := self.head.index.get(c)) and w.number]
        names = [self.cells.text(*at) for at in self.in_column(columns[0])]
        measured = [t for t in names if t and which_of(t) is None and meaning_of(t).candidates]
        behind = column in counted and column != columns[0] and len(counted) > 1
        return behind and len(measured) * 2 > len(self.rows)

    def _is_alone(self, at: At) -> bool:
        """Whether a text stands alone in its row, as a limit below a table does: "max .060"."""
        alone = len(self.block.rows[at[0]]) == 1 and at[0] != self.rows[0]
        return alone and not self.cells.is_whole(at)

    def _holds_fractions(self, columns: Sequence[int]) -> bool:
        """Whether all numbers in some columns have digits behind a point."""
        places = tuple([at for c in columns for at in self.in_column(c)])
        return self.cells.ask(_are_fractions, places)

    def _without_note_below(self, cells: list[At]) -> list[At]:
        """Cells without a size with words alone in the last row: ".0058-.0065 per card"."""
        last = cells[-1] if len(cells) > _FEWEST_COUNTED else (0, 0)
        alone = last[0] == self.rows[-1] and len(self.block.rows[last[0]]) == 1
        return cells[:-1] if alone and self.kinds[last] == "measured" else cells

    def _only_counts(self, columns: Sequence[int], whole: Sequence[int]) -> bool:
        """Whether a first column with a head of its own counts, and holds no sizes.

        "Valve clearance | In | Ex" over 1 2 3 4 says what the others leave out.
        """
        column = next(c for c in columns if c in self.head.texts)
        if not self._sized(self.head.texts[column]):
            return True
        counted = [*whole] == [*range(1, len(whole) + 1)]
        if counted and len(whole) > _FEWEST_COUNTED and self._holds_fractions(columns[1:]):
            return True  # "Lifter bores | bore | lifter" over 1 2 3 beside sizes.
        noun = noun_named(self.head.texts[column][0])
        others = [self.head.texts.get(c, ()) for c in columns if c != column]
        only = bool(noun) and all(
            texts and (which_of(texts[0]) is not None or noun_named(texts[0]) == noun)
            for texts in others
        )
        return only and len(others) > 1 and counted

    def _parts_each(self, column: int) -> bool:
        """Whether a column only tells apart what is of one part: places, valves, rings, states."""
        if self.names_places(column) or self._names_valves(column):
            return True
        texts = [text for at in self.in_column(column) if (text := self.cells.text(*at))]
        if {text.casefold().strip(" .") for text in texts} == {*_ENDS}:
            return True
        told = [which_of(text) or NOTHING for text in texts]
        sides = {w.side if w == Which(side=w.side) else "" for w in told}
        stages = {w.stage if w == Which(stage=w.stage) else "" for w in told}
        return any(len(each) > 1 and "" not in each for each in (sides, stages))

    def _carried_names(self) -> dict[int, Which]:
        """Which one rows are of that only say where, or of which valve, by a name above them.

        "Cyl 1 | IN" over " | EX" begins a cylinder, and so does "Cyl 1 | top".
        """
        found: dict[int, Which] = {}
        for column in self.names if not self.index else ():
            behind = [c for c in self.names if c > column and self._parts_each(c)]
            said = {row: which_of(self.cells.text(row, column)) for row in self.rows}
            named = {row: w for row, w in said.items() if (row, column) in self.kinds}
            if not behind or not all(w is not None and w.number for w in named.values()):
                continue
            last = NOTHING
            for row in self.rows:
                last = named.get(row) or last
                if row not in named and any((row, c) in self.kinds for c in behind):
                    found[row] = Which(last.number, last.last, last.bank, of=last.of)
        return found

    def _carry_down(self, places: Sequence[int]) -> None:
        """Take a number for the rows below it that only say where, or of which valve.

        "1 | top", " | bottom"; "3 | in", " | ex".
        """
        for column, told in self.index.items():
            last = NOTHING
            for row in self.rows:
                last = told.get(row, last)
                below = row not in told and (row, column) not in self.kinds
                if below and last.number and any((row, c) in self.kinds for c in places):
                    told[row] = last
                    self.begun_above.add(row)

    def _pairs_in(self, column: int) -> dict[int, Which]:
        """The pairs that a column counts: 1/2, 3/4, 5/6; {} for any other column."""
        texts = {at: self.cells.text(*at) for at in self.in_column(column)}
        told = {at: found for at, text in texts.items() if (found := _PAIR.fullmatch(text))}
        pairs = [(int(found["first"]), int(found["last"])) for found in told.values()]
        if len(pairs) < _FEWEST_COUNTED or len(told) < len(texts):
            return {}
        if pairs != [(n, n + 1) for n in range(1, 2 * len(pairs), 2)]:
            return {}
        of = next((counted_part(t) for t in self.head.texts.get(column, ())), "")
        return {at[0]: Which(*pair, of=of) for at, pair in zip(told, pairs, strict=True)}

    def _counted_with_a_word(self, column: int) -> dict[At, int]:
        """The numbers of a count that a word stands behind, by cell: "1 snout", 2, "3 flange"."""
        told = {
            at: _NUMBER_AND_WORD.fullmatch(self.cells.text(*at)) for at in self.in_column(column)
        }
        if any(self.kinds[at] not in VALUES for at, found in told.items() if found is None):
            return {}
        worded = {at: int(found["number"]) for at, found in told.items() if found}
        if not worded:
            return {}
        whole = [worded.get(at) or self.cells.whole_number(at) for at in sorted(told)]
        if whole != [*range(1, len(whole) + 1)]:
            return {}
        self.words_of_counts |= {*worded}
        return worded

    def _says_where(self, texts: Sequence[str], numbered: Sequence[At]) -> bool:
        """Whether a column says which one each row is of, in whatever order."""
        head = texts[0].casefold().strip(" .:#") if texts else ""
        if not numbered or head not in words_of("place_heads"):
            return False
        whole = map(self.cells.whole_number, numbered)
        return all(n is not None and n <= _MOST_OF_A_KIND for n in whole)

    def _counts_each_name(self, column: int, numbered: Sequence[At]) -> bool:
        """Whether a column counts from 1 below each name before it: Bore 1 2 3, Piston 1 2 3."""
        names = [self.cells.text(row, column - 1) for row, _ in self.in_column(column)]
        if len(names) != len(numbered) or not all(names):
            return False
        begins = [n for n, (a, b) in enumerate(pairwise(names), 1) if a != b]
        expected = [
            n - max((b for b in begins if b <= n), default=0) + 1 for n in range(len(names))
        ]
        if not begins or max(expected) <= 2:
            return False
        return [*map(self.cells.whole_number, numbered)] == expected

    def _numbers_names(self, column: int, columns: Sequence[int]) -> bool:
        """Whether a first column numbers the lines of a form, which measure different things."""
        rows = [row for row, _ in self.in_column(column)]
        if column != columns[0]:
            return False
        if len(rows) > _MOST_OF_A_KIND or any(
            self._tells_places(c) for c in columns if c != column
        ):
            return True
        names = [self.cells.text(row, column + 1) for row in rows]
        measured = [t for t in names if t and which_of(t) is None and meaning_of(t).candidates]
        return len({*measured}) * 2 > len(names) and len(measured) > 1

    def _tells_places(self, column: int) -> bool:
        """Whether a column says by texts of which one each row is: C1 C2 below "Repère"."""
        texts = [self.cells.text(*at) for at in self.in_column(column)]
        head = next(iter(self.head.texts.get(column, ())), "").casefold().strip(" .:#")
        coded = sum(_CODE.fullmatch(text) is not None for text in texts)
        return head in words_of("place_heads") and coded > 1 and coded * 2 > len(texts)

    def names_places(self, column: int) -> bool:
        """Whether all texts of a column are places on each part: top, middle, bottom."""
        texts = {at: self.cells.text(*at) for at in self.in_column(column)}
        told = [which_of(text) for text in texts.values() if text]
        if len(told) > 1 and all(w is not None and w.at and not w.number for w in told):
            return True
        return bool(_valves_by_hand(texts))

    def _names_valves(self, column: int) -> bool:
        """Whether all texts of a column say which valve of a cylinder each row is of: in, ex."""
        texts = [text for at in self.in_column(column) if (text := self.cells.text(*at))]
        if {text.casefold().strip(" .") for text in texts} in [{*valves} for valves in _VALVES]:
            return True
        sides = {w.side if w is not None and not w.number else "" for w in map(which_of, texts)}
        return {"exhaust"} < sides <= {"intake", "exhaust", EITHER}

    def _heads_the_next(self, column: int, columns: Sequence[int]) -> bool:
        """Whether a head over a count speaks of the column behind it, which has none."""
        behind = column + 1
        return behind in columns and behind not in self.head.texts

    def _sized(self, texts: Sequence[str]) -> bool:
        """Whether a head names a property that small whole numbers can be sizes of."""
        meaning = meaning_of(texts[0])
        return bool(meaning.candidates) and meaning.candidates[0].cost < 2

    def texts_before(self, row: int, column: int) -> list[tuple[str, At]]:
        """The texts before a value in its row with their cells, the nearest first."""
        told = self.told_before(column)
        if (row, told) not in self._texts:
            # Names between two columns of values are of both.
            telling = self.telling[:told] or self.names[:1]
            self._texts[row, told] = [
                (text, (row, at))
                for at in reversed(telling)
                if (text := self.cells.text(row, at)) and self._is_name(row, at, text)
                if (row, at) not in self.words_of_counts
            ]
        return self._texts[row, told]

    def _is_name(self, row: int, column: int, text: str) -> bool:
        """Whether a cell before a value names it: a text, or a unit that says what: "cc"."""
        kind = self.kinds.get(self.cells.down_from((row, column)))
        return kind == "text" or (kind == "unit" and bool(meaning_of(text).candidates))

    def which(self, row: int, column: int) -> Which:
        """Which one a row says that its value in a column is of."""
        told = self.told_before(column)
        if (row, told) not in self._whiches:
            whole, own = self._settled(self.first)[row], self._settled(column)[row]
            if own.side != whole.side and own.side in ("", EITHER):
                own = own._replace(side=whole.side, other=whole.other)
            self._whiches[row, told] = own.beside(Which(side=self.side))
        return self._whiches[row, told]

    def _settled(self, column: int) -> Mapping[int, Which]:
        """Which one each row says that its value in a column is of, told by all rows together."""
        told = self.told_before(column)
        if told not in self._settled_at:
            said = {row: self._said_by_row(row, column) for row in self.rows}
            # Below heads that count, front and rear are places on each.
            counted = any(w.number for w in self.head.index.values())
            self._settled_at[told] = self._rods(sided(said if counted else from_the_front(said)))
        return self._settled_at[told]

    def _rods(self, rows: Mapping[int, Which]) -> Mapping[int, Which]:
        """Which one rows are of, R1 and R2 below "Rods" no cylinders of a right bank."""
        over = (t for c in self.names for t in self.head.texts.get(c, ()))
        banks = {w.bank for w in rows.values() if w.number}
        if banks != {"R"} or not any(counted_part(text) == "rod" for text in over):
            return rows
        return {row: w._replace(bank="", of="rod") if w.number else w for row, w in rows.items()}

    def _counted(self, row: int, column: int) -> tuple[Which, bool]:
        """Which one the counts before a value say, and whether these count rows twice."""
        told, again = NOTHING, False
        for at in sorted((at for at in self.index if at < column), reverse=True):
            if row in self.index[at]:
                own = self.index[at][row]
                if not (told.number and own.number):
                    told, again = told.beside(own), again or at in self.again
            elif self.cells.text(row, at).casefold().strip(" .:") in CARDS:
                told = told.beside(Which(stage="target"))
            elif not told.number and (typed := which_of(self.cells.text(row, at))):
                # Among numbers that count a pair may stand, or a number as a text: "1-2".
                others = next((which.of for which in self.index[at].values()), "")
                told = told.beside(typed).beside(Which(of=others if typed.number else ""))
        return told, again

    def _said_by_row(self, row: int, column: int) -> Which:
        told, again = self._counted(row, column)
        nearest = 0
        for text, where in self.texts_before(row, column):
            if self.is_office(where[1]):
                continue
            if told.number and nearest and any(where[1] < c < nearest for c in self.values):
                break  # What names the rows of the table to the left names none of this.
            said = self.counted.get(where) or which_of(text)
            if where[1] in self.places and (code := _CODE.fullmatch(text)):
                said = Which(int(code["number"]))  # Its letter is the list's own.
            if said is None and where[1] in self.places and (own := _COUNTED.fullmatch(text)):
                of = counted_part(own["word"])
                said = Which(int(own["number"]), int(own["last"] or 0), of=of)
            if where not in self.counted and self._is_roman(said, text, where):
                said = Which(roman(text))
            placed = said is not None and (bool(said.of) or where[1] in self.places)
            if said is not None and said.number and placed and told.number and not told.of:
                told = told._replace(number=0, last=0)  # "Cyl 1" says more than a line's number.
            if said is not None and said.number and again and told.of in ("", said.of):
                # "Rod 2" says more than the second of two numbers for one throw.
                told, again = told._replace(number=0, last=0, of=""), False
            if said is not None:
                told, nearest = told.beside(said), where[1]
        told = told if told.number else told.beside(self._carried.get(row, NOTHING))
        return told.beside(Which(stage=self.stages[row])) if row in self.stages else told

    def _is_roman(self, said: Which | None, text: str, where: At) -> bool:
        """Whether a text is a Roman number: V says so below IV, and alone stands for vertical."""
        above = roman(self.cells.text(where[0] - 1, where[1]))
        return roman(text) > 0 and (said is None or 1 < roman(text) == above + 1)

    def unit_of(self, row: int) -> str:
        """The unit that stands in a row, "" where none does."""
        for column in self.units:
            if self.kinds.get((row, column)) == "unit":
                return self.cells.text(row, column)
        return ""

    @cached_property
    def _offices_above(self) -> frozenset[int]:
        """The columns below fields of jobs that stand a row above the heads of sizes."""
        above = min(self.head.rows) - 1
        columns = self.block.rows.get(above, ())
        fields = sum(self.cells.is_job_field(above, c) for c in columns)
        listed = fields >= _FEWEST_FIELDS
        return frozenset(c for c in columns if listed and c not in self.head.texts)

    @cached_property
    def places(self) -> frozenset[int]:
        """The columns whose heads say that they tell which one a row is of."""
        heads = {c: texts[0].casefold().strip(" .:#") for c, texts in self.head.texts.items()}
        return frozenset(c for c, head in heads.items() if head in words_of("place_heads"))

    def _is_of_people(self, text: str) -> bool:
        """Whether a head names a field of a job, initials or what else stands in a log."""
        plain = text.casefold().strip(" .:")
        if plain in words_of("log_heads") or self.cells.vocabulary.job_field(text):
            return True
        return self.lists_jobs and bool(self._fields_meant(text))

    def _fields_meant(self, text: str) -> set[str]:
        return {label.field for label in self.cells.vocabulary.job.labels(text)} - {OTHER}

    @cached_property
    def lists_jobs(self) -> bool:
        """Whether heads can be so many fields of jobs that all of them are.

        "No." and "By" are none where each row has its own unit and limit.
        """
        if self.head.is_list:
            return False
        texts = [own[0] for own in self.head.texts.values() if own]
        rebuilt = any(map(self.cells.vocabulary.job.is_rebuilt, texts))
        if {*_OF_A_JOB} <= {self.cells.vocabulary.job_field(text) for text in texts}:
            return True
        fields = len(set[str]().union(*map(self._fields_meant, texts)))
        return fields >= (_FEWEST_OF_REBUILDS if rebuilt else _FEWEST_OF_A_LIST)

    def is_office(self, column: int) -> bool:
        """Whether a column holds fields of jobs: customers, engines, names."""
        if column not in self._offices:
            texts = self.head.texts.get(column, ())
            named = any(map(self._is_of_people, texts))
            self._offices[column] = named or column in self._offices_above
        return self._offices[column]


def _are_large(sheet: Sheet, cells: Sequence[At]) -> bool:
    """Whether numbers are as large as a part, and no cut of one."""
    values = (sheet.cells[at].value for at in cells)
    return not any(isinstance(v, (int, float)) and abs(v) < _LEAST_OF_A_PART for v in values)


# No bore or journal is smaller, in inches or in millimeters.
_LEAST_OF_A_PART = 0.5
# What sizes say that stand below those as found.
_DONE = ("machined", "final")


def _counted(
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


def _are_sizes(sheet: Sheet, cells: Sequence[At]) -> bool:
    """Whether all cells hold numbers that are written as sizes are."""
    values = (sheet.cells[at].value for at in cells)
    return all(isinstance(v, float) and _is_a_size(v) for v in values)


def _is_a_size(value: float) -> bool:
    """Whether a number is written as a size is, and as no roughness: 9.01, .0052."""
    decimals = len(f"{value:.10g}".partition(".")[2])
    return decimals > 2 or (decimals == 2 and value > 1)


def _mains_and_pins(texts: Mapping[At, str]) -> dict[At, Which]:
    """The names of rows that number mains and their pins: "Pin 1" below "Main 1" is a crankpin."""
    told = {at: found for at, text in texts.items() if (found := _COUNTED.fullmatch(text))}
    of = {word: counted_part(word) for word in {found["word"] for found in told.values()}}
    if len(of) != 2 or {*of.values()} != {"main", "rod"}:
        return {}
    return {at: Which(int(one["number"]), of=of[one["word"]]) for at, one in told.items()}


def _valves_by_hand(texts: Mapping[At, str]) -> dict[At, Which]:
    """The names of rows that are a left and a right valve of either side: "IN L", "EX R"."""
    found = {}
    for at, text in texts.items():
        words = re.split(r"[\s./-]+", text.casefold().strip(" ."))
        sides = [_SIDE_IN_SHORT[w] for w in words if w in _SIDE_IN_SHORT]
        hands = [_HANDS[w] for w in words if w in _HANDS]
        if len(words) != len(_HAND_AND_SIDE) or not sides or not hands:
            return {}
        found[at] = Which(side=sides[0], at=(hands[0],))
    return found if len({*found.values()}) > 1 else {}


_HAND_AND_SIDE = ("side", "hand")
_SIDE_IN_SHORT = {word: side for side in ("intake", "exhaust") for word in words_of(side)}
_HANDS = {"l": "left", "lh": "left", "left": "left", "r": "right", "rh": "right", "right": "right"}


def _of_two(texts: Mapping[At, str]) -> dict[At, Which]:
    """Names of rows that are two of one kind of each cylinder: 1F and 1R, 2a and 2b."""
    told = {at: found for at, text in texts.items() if (found := _ONE_OF_TWO.fullmatch(text))}
    letters = {found["letter"].casefold() for found in told.values()}
    numbers = Counter(found["number"] for found in told.values())
    if len(numbers) < _FEWEST_COUNTED or letters not in _TWO_OF_A_KIND:
        return {}
    if {*numbers.values()} != {len(_TWO_OF_A_KIND[0])}:
        return {}
    return {
        at: Which(int(found["number"]), at=_ENDS.get(found["letter"].casefold(), ()))
        for at, found in told.items()
    }


def is_code(text: str) -> bool:
    """Whether a text is a short code with a number: "C1"."""
    return _CODE.fullmatch(text) is not None


def _bank(texts: Sequence[str]) -> str:
    """The bank that the head over a count names and no more: "L bank" over 1 2 3."""
    said = which_of(texts[0]) if texts else None
    return said.bank if said is not None and not said.number and not said.at else ""


def _counts_pistons(word: str) -> bool:
    """Whether a word before numbers counts pistons: "Kolben", or P in short."""
    return word in _PISTONS_IN_SHORT or meaning_of(word).part == "piston"


_PISTONS_IN_SHORT = ("p", "k")


def _repeats(counted: Collection[Which]) -> bool:
    """Whether a column counts several rows as one and the same."""
    return len({which.number for which in counted}) < len(counted)
