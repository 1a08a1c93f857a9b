"""The values of a table: whether its rows or its columns say what is measured, and of which."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.continued_labels import goes_on
from workbook_tools.labels.head import counted_part
from workbook_tools.labels.heads import says_where_alone
from workbook_tools.labels.labeled_values import is_of_notches, labeled_values
from workbook_tools.labels.named_heads import (
    ORDINAL,
    is_a_ring,
    is_journal,
    measuring_unit,
    names_a_bearing,
    names_a_part,
    names_a_ring,
    of_a_ring,
    stage_said,
)
from workbook_tools.labels.nominal_sizes import is_nominal
from workbook_tools.labels.options import bearing_told, side_said
from workbook_tools.labels.several_values import names_of
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.table_rows import TableRows, is_code
from workbook_tools.labels.titles import is_remark, surely_measures
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    NO_SIZES,
    meaning_of,
    noun_named,
    stage_of,
    unit_in,
)
from workbook_tools.labels.which import (
    EITHER,
    NOTHING,
    TAKEN,
    Which,
    roman,
    which_of,
    without_stage,
)
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts
from workbook_tools.measurands.words import Candidate
from workbook_tools.quantities import SYSTEMS

_PAIR = re.compile(r"\b(?:pair|pr|paire|par|paar|coppia)\b", re.IGNORECASE)
_THREAD = re.compile(r"M\d{1,2}(?:[.,]\d)?\s*[x×]", re.IGNORECASE)
# Heads that name a ring elsewhere.
_OF_BEARINGS = ("oil",)
# What is ground of a crankshaft whose heads only say when: "HL 1, found, ground".
_CRANK_PARTS = {"main": "Main journal", "rod": "Crankpin"}
# And of cylinders of which a row says no more than when: "Worn", "Honed to".
_STAGED_PARTS = {**_CRANK_PARTS, "cylinder": "Bore"}
_GRADE = re.compile(r"\s*\((?:std|standard)\.?\)$", re.IGNORECASE)
_REMARK = re.compile(r"\s*\([^()]*\)")
_MOST_OR_LEAST = re.compile(
    r"\b(?:max|min|largest|smallest|größter|kleinster|máx|mín)\b\.?", re.IGNORECASE
)
_RINGS_IN_ORDER = ["Top ring", "Second ring", "Oil ring"]
# What an engine gives on a test stand, where no more than the unit stands over it.
_METRIC_HORSEPOWER = ("cv", "ch")
_OF_A_RUN = {"torque": "Engine torque", "power": "Power"}
_SEVERAL = 2
_SIDES = {"intake", "exhaust"}
# How high on a bore; what only counts cylinders; and the parts that have bores alone.
_HEIGHTS = ("top", "middle", "bottom")
_OF_CYLINDERS = ("", "cylinder")
_OF_A_BLOCK = ("", "block", "cylinder", "liner")
# So many properties are never alike: a diameter, a clearance and a gap.
_THINGS = 3
_ALIKE = 1.01
_DASHES = " -–—"
# What a head leaves to be assumed at most, to tell that a row is of something else.
_SURE_OF_HEADS = 3
# What a head that measures without a doubt has at least, of 1.
_SURELY = 0.5
# A size and how far it is from round differ by more than so many times.
_FAR = 50
# Bolts that go by what they hold.
_BOLTS = ("rod_bolt", "main_bolt")
# A head for one side of each part; and what is measured there rather than so called.
_OF_A_SIDE = re.compile(
    r"[^\W\d_]{2,}\.? (?:side|end)|[^\W\d_]{3,}(?:seite|seitig)|(?:côté|lado|lato) [^\W\d_]{3,}",
    re.IGNORECASE,
)
_BESIDE = ("side_clearance", "end_play")
# What a crankpin runs in.
_SHELLS = ("bearing", "rod_bearing")
# How far from round and straight a journal is, by the sizes beside.
_SHAPES = ("out_of_round", "taper")
# The parts of a crankshaft that rows count.
_JOURNALS = {"main", "main_journal", "rod", "rod_journal", "pin", "journal"}


class TableValues:
    """The values of rows below a head; titles: over the table, the nearest first."""

    def __init__(self, rows: TableRows, titles: Sequence[str]) -> None:
        self.table = rows
        self.cells = rows.cells
        self.kinds = rows.kinds
        self.head = rows.head
        self.rows = rows.rows
        self.values = rows.values
        self.titles = titles
        self.only_which = not any(
            self.head.which(c) is None and c in self.head.texts for c in self.values
        )
        self.labels = self._labels_that_count()
        self.rings = self._heads_of_rings()
        self._names: dict[At, list[tuple[str, At]]] = {}
        self._names_in: dict[int, Counter[str]] = {}
        self._corners: dict[int, list[str]] = {}
        self._over: dict[int, dict[int, list[tuple[str, At]]]] = {}
        self._entered = {c for c in self.values if self._is_entered(c)}

    def spots(self) -> Iterator[Spot]:
        """Every value, and every empty cell beside others of its line."""
        by_rows = self._by_rows()
        for row in self.rows:
            if by_rows and self._is_of_no_valve(row):
                yield from self._of_each_cylinder(row)
                continue
            alone = self._is_of_no_part(row) if by_rows else self._own_label(row)
            if self._labels_its_values(row) or alone:
                yield from labeled_values(self.cells, self.table.block, row, self.titles)
                continue
            if not by_rows and self._is_of_one_thing(row):
                continue
            own = [] if by_rows else self._of_its_own(row)
            yield from own or self._below_heads(row, by_rows)

    def _below_heads(self, row: int, by_rows: bool) -> Iterator[Spot]:
        """The values of a row of the table, and its empty cells that wait for one."""
        names = self.table.texts_before(row, self.table.first)
        named = bool(names or self.table.index) and self._is_filled(row, by_rows)
        for column in self.values:
            at = row, column
            filled = at in self.kinds
            if filled and not self.cells.is_value(at):
                continue
            waits = named and column in self._entered and not self.cells.is_covered(at)
            if not filled and (not waits or self._is_told_elsewhere(row, column)):
                continue
            of_row = by_rows and not self._is_counted_apart(column)
            spot = self._by_row(row, column) if of_row else self._by_column(row, column)
            if spot is not None and by_rows and not of_row:
                spot = replace(spot, headings=self._titles())
            if spot is not None:
                spot = self._in_unit_of_corner(spot)
                nominal = self._nominal_before(row, column)
                yield replace(spot, nominal=nominal) if nominal else spot

    def _of_its_own(self, row: int) -> list[Spot]:
        """The values of a row that is none of those its table counts: one, perhaps with limits.

        "Crank end play | .007 | .004 | .010" below "Oil clearance | min | max" of mains.
        """
        if play := self._thrust_below_mains(row):
            return [play]
        texts = self.table.texts_before(row, self.table.first)
        filled = [c for c in self.values if self.cells.is_number((row, c))]
        stages = {c: w.stage for c in filled if (w := self.head.which(c)) and w.stage in NO_SIZES}
        if len(texts) != 1 or len(filled) - len(stages) != 1 or not stages:
            return []
        label, origin = texts[0]
        meaning = meaning_of(label)
        surely = bool(meaning.candidates) and meaning.candidates[0].cost <= 1
        counted = any(self.table.which(r, self.table.first).number for r in self.rows if r != row)
        if not surely or meaning.unknown or which_of(label) is not None or not counted:
            return []
        return [
            Spot(
                row, c, label, self._titles(), Which(stage=stages.get(c, "")), "",
                ("own", row, stages.get(c, "")), origin,
            )
            for c in filled
        ]  # fmt: skip

    def _thrust_below_mains(self, row: int) -> Spot | None:
        """The play of a crank in a row "Thrust" with one value, below those of its mains."""
        texts = self.table.texts_before(row, self.table.first)
        filled = [c for c in self.values if self.cells.is_number((row, c))]
        named = len(texts) == 1 and texts[0][0].casefold().strip(" .:") == "thrust"
        if not named or len(filled) != 1 or row != self.rows[-1]:
            return None
        above = {self.table.which(r, self.table.first).of for r in self.rows[:-1]}
        if above != {"main"}:
            return None
        return Spot(
            row, filled[0], "Thrust clearance", self._titles(), NOTHING, "",
            ("thrust", row), texts[0][1],
        )  # fmt: skip

    def _is_counted_apart(self, column: int) -> bool:
        """Whether a column stands beside its own count with a head, behind other values.

        "Mains | 1 | .0028" beside rows with names of their own.
        """
        counted = column - 1 in self.table.index and column - 1 in self.head.texts
        bare = column not in self.head.texts and column not in self.head.index
        return counted and bare and any(c < column - 1 for c in self.values)

    def _in_unit_of_corner(self, spot: Spot) -> Spot:
        """A value in the unit that stands where the heads of rows and columns meet, if it fits."""
        unit = self._unit_of_corner
        if not unit or spot.unit or spot.first_meant is None or unit_in(spot.label):
            return spot
        # A rod's big end is weighed where grams stand there.
        meant = meaning_of(f"{spot.label} ({unit})", spot.headings).candidates
        terms = (find(candidate.measurand) for candidate in meant)
        fits = any(term is not None and si_factor(term, unit, None) for term in terms)
        return replace(spot, unit=unit) if fits else spot

    @cached_property
    def _unit_of_corner(self) -> str:
        """The unit over the names or counts of the rows, "" where another text or none stands."""
        first = min(self.table.telling, default=0)
        texts = (*self.head.texts.get(first, ()), *self.head.corner_units)
        # "N." over numbers says that they count, and no newtons.
        return next((t for t in texts if is_unit(t) and t.casefold().strip(" .") != "n"), "")

    def _nominal_before(self, row: int, column: int) -> At | None:
        """The cell of the nominal size that a number of a row may be an amount over."""
        nearest = max((c for c in self._nominal if c < column), default=0)
        return (row, nearest) if self.cells.is_number((row, nearest)) else None

    @cached_property
    def _nominal(self) -> tuple[int, ...]:
        """The columns of nominal sizes."""
        heads = ((c, texts[0]) for c in self.values if (texts := self.head.texts.get(c)))
        return tuple(c for c, text in heads if is_nominal(text))

    def _is_of_one_thing(self, row: int) -> bool:
        """Whether the numbers of a row are alike under heads of things that never are."""
        return row in self._of_one_thing and len(self._of_one_thing) * 2 <= len(self.rows)

    @cached_property
    def _of_one_thing(self) -> frozenset[int]:
        """Rows whose numbers are alike; were it most, the heads would be misunderstood."""
        if len({noun for _, noun in self._nouns}) < _THINGS:
            return frozenset()
        return frozenset(r for r in self.rows if self.cells.ask(_are_alike, r, self._nouns))

    @cached_property
    def _nouns(self) -> tuple[tuple[int, str], ...]:
        """The columns whose heads name a property, with it."""
        named = {c: noun for c in self.values if (noun := self._noun_over(c))}
        units = {c: self._told_over(c, self.head.texts.get(c, ())).unit for c in named}
        # Micrometers of play are as many as millimeters of a journal, and no more alike.
        ((most, _),) = Counter(units.values()).most_common(1) or (("", 0),)
        return tuple((c, noun) for c, noun in named.items() if units[c] == most)

    def _noun_over(self, column: int) -> str:
        """The property that the head of a column names, "" where it names none."""
        own = [t for t in self.head.texts.get(column, ()) if which_of(t) is None]
        return noun_named(own[0]) if own else ""

    def _is_entered(self, column: int) -> bool:
        """Whether cells of a column are to be typed into: below a head, and no formulas."""
        if column not in self.head.index and column not in self.head.texts:
            return False
        return {self.kinds[at] for at in self.table.in_column(column)} != {"formula"}

    def _is_told_elsewhere(self, row: int, column: int) -> bool:
        """Whether an empty cell of a row waits for nothing: another column has that cylinder's.

        "Cyl 1" over "along | across", of which a deck clearance fills the first alone.
        """
        if column in self._of_mains_alone or self._stands_above(row, column):
            return True
        told = self.head.which(column)
        one = told and (told.number, told.bank, told.of)
        return bool(told and told.number and told.at) and any(
            (w := self.head.which(c)) is not None and (w.number, w.bank, w.of) == one
            for c in self.values
            if c != column and self.cells.is_number((row, c))
        )

    @cached_property
    def _of_mains_alone(self) -> frozenset[int]:
        """The last numbered columns, which only rows of mains fill: a four has a fifth of them."""
        counting = {c for c in self.values if (w := self.head.which(c)) and w.number and not w.of}
        for row in self.rows if counting else ():
            texts = [t for t, _ in self.table.texts_before(row, self.table.first)]
            if not any(map(_is_of_mains, texts)):
                last = max((c for c in counting if self.cells.is_number((row, c))), default=0)
                counting = {c for c in counting if c > last}
        return frozenset(
            c for c in counting if any(map(self.cells.is_number, self.table.in_column(c)))
        )

    def _stands_above(self, row: int, column: int) -> bool:
        """Whether a column is filled once for each number, in the first of its rows."""
        once = not any((r, column) in self.kinds for r in self.table.begun_above)
        return once and row in self.table.begun_above

    def _is_filled(self, row: int, by_rows: bool) -> bool:
        """Whether a row holds numbers, so that one that is missing in it was not measured."""
        held = any(self.cells.is_number((row, at)) for at in self.values)
        return held and (by_rows or self.table.which(row, self.table.first).tells)

    def _labels_its_values(self, row: int) -> bool:
        """Whether a text among the values of a row names the one behind it, or when it was so."""
        if any(self._is_stage_before_number(row, at) for at in self.values):
            return True
        if self._goes_on(row):
            return True
        return any(
            self.kinds.get((row, at)) == "text"
            and self.cells.is_number((row, at + 1))
            and which_of(text := self.cells.text(row, at)) is None
            and (candidates := meaning_of(text).candidates)
            and candidates[0].cost <= 2
            and not meaning_of(text).unknown
            for at in self.values
        )

    def _goes_on(self, row: int) -> bool:
        """Whether a text behind the first value goes on with the label: "Lash int | 14 | exh"."""
        texts = self.table.texts_before(row, self.table.first)
        first = next((c for c in self.values if self.cells.is_value((row, c))), 0)
        label = texts[0][0] if len(texts) == 1 and first else ""
        return any(
            self.kinds[row, at] in ("text", "unit")
            and self.cells.is_number((row, at + 1))
            and bool(goes_on(label, self.cells.text(row, at)))
            for at in self.table.block.rows[row]
            if label and at > first
        )

    def _is_stage_before_number(self, row: int, column: int) -> bool:
        """Whether a cell says when the number behind it was so: "Runout | .02 | before | .07"."""
        if self.kinds.get((row, column)) != "text" or not self.cells.is_number((row, column + 1)):
            return False
        said = which_of(self.cells.text(row, column))
        return said is not None and said.stage in TAKEN and not said.tells

    def _own_label(self, row: int) -> bool:
        """Whether a row below heads of columns is a label with one value of its own."""
        columns = self.table.block.rows[row]
        values = [c for c in columns if self.cells.is_value((row, c))]
        texts = self.table.texts_before(row, self.table.first)
        about = (*self.titles, self.cells.heading)
        if len(values) == _SEVERAL and texts and names_of(texts[0][0], _SEVERAL, about):
            return True
        if not texts or which_of(texts[0][0]) is not None:
            return False
        meaning = meaning_of(texts[0][0])
        if not meaning.candidates or meaning.candidates[0].cost > 2:
            return False
        return len(values) == 1 or self._fits_its_label_alone(row, meaning.candidates[0])

    def _fits_its_label_alone(self, row: int, named: Candidate) -> bool:
        """Whether sizes of a row are what its label surely names, and not what its heads do.

        "Sleeve standout | .002 | .0025 | .002" below "New sleeve | New piston | Clearance".
        """
        filled = tuple(c for c in self.values if self.cells.is_number((row, c)))
        heads = tuple(_first_meant(self.head.texts.get(c, ())) for c in filled)
        told = [head for head in heads if head]
        sure = named.cost <= 1 and len(told) > 1 and named.measurand not in told
        return sure and self.cells.ask(_are_of_one, row, filled, named.measurand, heads)

    def _is_of_no_part(self, row: int) -> bool:
        """Whether a row below heads that count has values of something that these do not count."""
        return self._is_of_no_bearing(row) or self._names_two(row) or self._says_notches(row)

    def _names_two(self, row: int) -> bool:
        """Whether a label names two sizes, which stand below the first two of more heads.

        "Tappets cold inlet / exhaust | 0.3 | 0.3" below 1 2 3 4.
        """
        counting = [c for c in self.values if (w := self.head.which(c)) and w.number]
        filled = [c for c in self.values if self.cells.is_number((row, c))]
        own = self._own_texts(row, self.table.first)
        if filled != counting[:_SEVERAL] or not own:
            return False
        names = names_of(own[0][0], _SEVERAL, (*self.titles, self.cells.heading))
        # Of a twin's two cylinders one cell would have both sides of each.
        sides = {side_said(name) for name in names} == _SIDES
        return bool(names) and (len(counting) > _SEVERAL or sides)

    def _says_notches(self, row: int) -> bool:
        """Whether a row says by its notches which gasket was taken, and how thick that is."""
        columns = [c for c in self.table.block.rows[row] if c >= self.table.first]
        marked = [c for c in columns if is_of_notches(self.cells.text(row, c))]
        sized = [c for c in columns if self.cells.is_number((row, c)) and c not in marked]
        return len(sized) == 1 and bool(marked) and marked[0] < sized[0]

    def _is_of_no_bearing(self, row: int) -> bool:
        """Whether a row below numbered bearings has one value, of something else than these."""
        columns = [c for c in self.values if self.cells.is_value((row, c))]
        own = self._own_texts(row, self.table.first)
        if len(columns) != 1 or columns != self.values[:1] or len(self.values) < 2 or not own:
            return False
        told = self.head.which(columns[0])
        candidates = meaning_of(own[0][0]).candidates
        term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 2 else None
        return bool(told and told.of in BEARINGS and term and term.of != told.of)

    def _is_of_no_valve(self, row: int) -> bool:
        """Whether a row below heads of valves has a value for each cylinder, and counts them."""
        own = self._own_texts(row, self.table.first)
        sides = {told.side for c in self.values if (told := self.head.which(c))}
        if not own or not {"intake", "exhaust"} <= sides:
            return False
        candidates = meaning_of(own[0][0]).candidates
        term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 2 else None
        return term is not None and term.of == "cylinder" and not term.which

    def _of_each_cylinder(self, row: int) -> Iterator[Spot]:
        """The values of a row below heads of valves, counted where each cylinder has one."""
        found = list(labeled_values(self.cells, self.table.block, row, self.titles))
        told = {told.number for c in self.values if (told := self.head.which(c))} - {0}
        numbers = sorted(told) if len(told) == len(found) else [0] * len(found)
        for spot, number in zip(found, numbers, strict=True):
            yield replace(spot, which=spot.which._replace(number=number)) if number else spot

    def _by_rows(self) -> bool:
        """Whether the names of rows say what is measured, and the heads of columns which one."""
        columns = [
            c for c in self.values if any(self.cells.is_value(a) for a in self.table.in_column(c))
        ]
        heads_tell = heads_measure = rows_tell = rows_measure = 0.0
        for column in columns:
            texts = self.head.texts.get(column, [])
            if self.head.which(column) is not None:
                heads_tell += 1 / len(columns)
            elif texts:
                said = [t for t in texts if which_of(t) is None]
                heads_measure += self._measures(said[0], said[1:]) / len(columns)
        rows = [r for r in self.rows if not self._continues(r)]
        for row in rows:
            named = self._own_texts(row, self.table.first)
            own = [(t, at) for t, at in named if not self.table.is_office(at[1])]
            office = len(named) - len(own)
            if office > 1 or (office and (len(own) != 1 or not self._measures(own[0][0], ()))):
                continue  # The row of a job names its engine and who built it.
            if own:
                rows_measure += self._measures(own[0][0], [t for t, _ in own[1:]]) / len(rows)
            elif self._is_of_a_crank and self.table.which(row, self.table.first).stage:
                rows_measure += 1 / len(rows)  # "Ground to" below "Pin 1", "Pin 2".
            elif self.table.which(row, self.table.first).tells:
                rows_tell += 1 / len(rows)
        across, down = heads_tell + rows_measure, heads_measure + rows_tell
        return rows_measure > 0 and across > down + 1e-9

    @cached_property
    def _is_of_a_crank(self) -> bool:
        """Whether the heads count mains or rods, and say no more."""
        told = [self.head.which(c) for c in self.values]
        return bool(told) and all(w is not None and w.number and w.of in _CRANK_PARTS for w in told)

    def _labels_that_count(self) -> frozenset[str]:
        """Names of rows that say which one and what: "Main journal 2", where no head says what."""
        if not self.only_which:
            return frozenset()
        texts = {t for row in self.rows for t, _ in self.table.texts_before(row, self.table.first)}
        if any(which_of(t) is None and not roman(t) for t in texts):
            return frozenset()
        # "As rec'd A" says when, and of what no more than "Limit low" does.
        texts = {t for t in texts if (w := which_of(t)) is None or w.tells or not w.stage}
        places = {
            t for t in texts if (w := which_of(t)) is not None and w.at and not (w.number or w.of)
        }
        if places:  # "2nd" behind "front" is a place too, and "top pin" no piston pin.
            texts = {t for t in texts - places if not ORDINAL.fullmatch(t)}
        # "R1" beside "M1" counts rods, and no rings.
        whiches = (self.table.which(row, self.table.first) for row in self.rows)
        if any(which.of == "rod" for which in whiches):
            texts = {t for t in texts if not is_code(t)}
        texts = {t for t in texts if len(t.strip(" .")) > 1}  # An A beside a B is no exhaust.
        named = {t for t in texts if (m := meaning_of(t).candidates) and m[0].cost <= 2}
        counted = {t: counts(re.sub(r"\d+", "", t).strip(" #.")) for t in named}
        return frozenset(t for t in named if counted[t] not in ("", "cylinder"))

    def _heads_of_rings(self) -> frozenset[str]:
        """Heads "Top" and "2nd" side by side over rows that are numbered: rings, and no places."""
        counted = any(self.table.which(row, self.table.first).number for row in self.rows)
        counted = counted or any(map(self.table.is_office, self.head.texts))  # A log of jobs.
        heads = {c: texts[0] for c in self.values if len(texts := self.head.texts.get(c, [])) == 1}
        ordinals = [t for t in heads.values() if ORDINAL.fullmatch(t)]
        about = (*self.titles, *self.head.corner)
        if not counted or len(ordinals) < 2 or any(map(names_a_part, about)):
            return frozenset()
        return frozenset(t for t in ordinals if names_a_ring(f"{t} ring", ()))

    def _own_texts(self, row: int, column: int) -> list[tuple[str, At]]:
        """The texts before a value in its row that say what is measured."""
        texts = self.table.texts_before(row, column)
        counted, codes = self.table.counted, self.table.places
        own = [
            (t, at)
            for t, at in texts
            if at not in counted and not (at[1] in codes and is_code(t)) and self._is_label(t)
            if not (self.table.lists_jobs and self.table.is_office(at[1]))
        ]
        if not own and (self.head.is_list or not self.table.has_measuring_heads):
            # In a list "Crankpin 1 ground" says what is measured too.
            own = [(t, at) for t, at in texts if names_a_bearing(t)]
        if not own and len(texts) == 1 and is_unit(texts[0][0]):
            # "cc" alone before a size of each cylinder.
            own = [(t, at) for t, at in texts if meaning_of(t).candidates]
        several = max(self._begins_at, self._list_of_a_part(column))
        begins = several if len(own) > 1 else self._list_begins(column)
        # Before a table that begins further right a label has its own value: it names no others.
        return [
            (t, at)
            for t, at in own
            if at[1] >= begins
            or not any(self.cells.is_value((row, c)) for c in range(at[1] + 1, begins))
        ]

    def _list_begins(self, column: int) -> int:
        """Where the list of a column begins whose head over the names says what is measured.

        "Stretch" over "rod 1", beside a list of torques.
        """
        nearest = max((c for c in self.table.names if c < column), default=0)
        head = self.head.texts.get(nearest, [""])[0]
        beside = any(c < nearest for c in self.values) and which_of(head) is None
        return nearest if head and beside and self._measures(head, ()) > _SURELY else 0

    def _list_of_a_part(self, column: int) -> int:
        """Where the list of a column begins whose head over the names says of which part it is.

        "Kurbelwelle" over "Axialspiel", beside a list of what cylinders have.
        """
        nearest = max((c for c in self.table.names if c < column), default=0)
        head = self.head.texts.get(nearest, [""])[0]
        beside = any(c < nearest for c in self.values) and which_of(head) is None
        meaning = meaning_of(head) if head and beside else None
        return nearest if meaning and meaning.part and not meaning.candidates else 0

    @cached_property
    def _begins_at(self) -> int:
        """The column of the text that names what the heads count: "Journal" before 1 2 3 4."""
        row = self.head.rows[-1]
        firsts = (c for c, which in sorted(self.head.index.items()) if which.number == 1)
        named = (c - 1 for c in firsts if counts(self.cells.text(row, c - 1)) is not None)
        return next(named, 0)

    def _is_label(self, text: str) -> bool:
        if _THREAD.match(text):
            return False
        said = which_of(text)
        if said is None:
            return not roman(text)
        # "Top ring" is a label where no head says what is measured.
        ring = said.side not in ("", "intake", "exhaust", EITHER)
        return text in self.labels or (ring and self.only_which)

    def _continues(self, row: int) -> bool:
        """Whether a row only says where on what the row above it measures."""
        own = self._own_texts(row, self.table.first)
        return not own and bool(self._labels_over(row, self.table.first))

    def _measures(self, text: str, headings: Sequence[str]) -> float:
        """How sure a text says what is measured, from 0 to 1."""
        meaning = meaning_of(text, (*headings, *self.head.corner, *self.titles))
        if not meaning.candidates:
            return 0.0
        return max(0.1, 1 - meaning.candidates[0].cost / 8 - len(meaning.unknown) / 4)

    def _titles(self) -> tuple[str, ...]:
        return (*self.titles, self.cells.heading)

    def _about_all(self, column: int, staged: bool, of_row: str = "") -> list[str]:
        """What the corner and the titles say of a row that only says which one, or when."""
        about = (t for t in (*self._corner(column), *self.head.corner) if not _is_a_bank(t))
        bare = [_REMARK.sub("", t) for t in about]
        named = [t for t in bare if counts(t) not in ("", "cylinder", "bearing")]
        told = self.head.which(column) if staged else None
        of = (told.of if told else "") or of_row
        of = of or ("cylinder" if told and "cylinder" in map(counts, bare) else "")
        if not of and staged and not named and self._names_pistons:
            of = "cylinder"  # "came in" and "finished" beside the pistons that go in.
        parts = [*named, *self._titles()[:2]]
        if of == "rod" and self.cells.ask(_is_of_a_crank):
            # "RODS" on a crankshaft's card only counts: what is ground there are its pins.
            parts = [t for t in named if counts(t) != "rod"]
        if of in _STAGED_PARTS and not any(map(names_a_part, parts)):
            named.insert(0, _STAGED_PARTS[of])
        return [*named, *self.titles]

    @cached_property
    def _names_pistons(self) -> bool:
        """Whether a row of the table names the size of pistons, and none the bores."""
        texts = [t for row in self.rows for t, _ in self.table.texts_before(row, self.table.first)]
        first = {c[0].measurand for t in texts if (c := meaning_of(t).candidates)}
        return "piston_diameter" in first and "bore" not in first

    def _names_of_values(self, row: int, column: int, unit: str) -> Sequence[tuple[str, At]]:
        """What names the values of a row, first the one that says what is measured.

        Not "oil" beside a bolt.
        """
        own = self._names_of(row, column)
        which = self.table.which(row, column)
        if not own and (which.tells or which.stage):
            staged = bool(which.stage or which.at)
            over = self.head.which(column)
            of_row = which.of if over is not None and over.stage and not which.stage else ""
            about = self._about_all(column, staged, of_row)
            if self._is_of_a_bore(which, over):
                about = ["Bore", *about]
            if not about and which.stage == "computed":
                return self.table.texts_before(row, column)[:1]  # "diff." below two sizes.
            return [(t, (row, column)) for t in about][:1]
        return sorted(own, key=lambda o: self._tells_less(o[0], unit)) if len(own) > 1 else own

    def _is_of_a_bore(self, which: Which, over: Which | None) -> bool:
        """Whether a row says no more than how high a size of a cylinder was taken, and which way.

        "Top, thrust" below "Cyl 1" and "Cylinder block, as found".
        """
        places = bool({*which.at} & {*_HEIGHTS}) or any(at.endswith(" port") for at in which.at)
        if not places or over is None or not over.number or which.of not in _OF_CYLINDERS:
            return False
        about = [t for t in (*self.head.corner, *self.titles[:1]) if which_of(t) is None]
        told = [m for t in about if counts(t) is None and not is_remark(t) for m in [meaning_of(t)]]
        named = any(m.candidates or m.part not in _OF_A_BLOCK for m in told)
        return over.of == "cylinder" and not named

    @cached_property
    def _are_beside_pistons(self) -> bool:
        """Whether columns that only count cylinders stand beside one of their piston's size.

        "Cyl 1 | Cyl 2 | Piston | Clearance" in a log of jobs: what was bored.
        """
        told = map(self.head.which, self.head.texts)
        bare = [w for w in told if w and w.number and w == Which(w.number, of=w.of)]
        heads = {t for texts in self.head.texts.values() for t in texts[:1] if not which_of(t)}
        named = {c[0].measurand for t in heads if (c := meaning_of(t).candidates)}
        of_cylinders = len(bare) > 1 and {w.of for w in bare} <= {*_OF_CYLINDERS}
        return of_cylinders and "piston_diameter" in named and "bore" not in named

    def _tells_less(self, name: str, unit: str) -> tuple[bool, bool]:
        return self._is_of_another_kind(name, unit), self._measures(name, ()) <= 0.2

    def _by_row(self, row: int, column: int) -> Spot | None:
        """A value whose row says what it is."""
        return self._shape_of_a_journal(row, column) or self._named_by_its_row(row, column)

    def _shape_of_a_journal(self, row: int, column: int) -> Spot | None:
        """A value below the head of a property, of a journal that its row only counts."""
        which = self.table.which(row, column)
        journal = self._journal_of(row, which) if self.head.which(column) is None else ""
        noun = self._property_of_rows(column) or self._property_beside_axes(column)
        if not journal or not noun:
            return None
        when = self._stage_over(column).beside(self._stage_before(column, noun))
        return Spot(
            row, column, noun, (journal, *self._titles()),
            when.beside(self._counted_in(row, which)), self.table.unit_of(row),
            ("property", column, self.head.rows[0], journal), (self.head.rows[-1], column),
        )  # fmt: skip

    def _named_by_its_row(self, row: int, column: int) -> Spot | None:
        """A value whose row names it, or of which a row above does."""
        which = self.table.which(row, column)
        told = self.head.which(column)
        unit = self.table.unit_of(row) or (told.unit if told else "") or which.unit
        own = self._names_of_values(row, column, unit)
        if not own:
            return None
        label, origin, others = own[0][0], own[0][1], own[1:]
        which = which.beside(self._told_apart(row, column, label))
        label = self._as_ground(self._as_measured(label, column), which)
        own = [(label, origin), *others]
        if told is None and (spot := self._by_both(row, column, own, which, unit)):
            return spot
        if told is None and (noun := self._property_of_rows(column)):
            # "Clearance" in a list of work: of what each row names.
            return Spot(
                row, column, noun, (label, *(t for t, _ in others), *self._titles()),
                self._stage_over(column).beside(which), unit,
                ("property", column, self.head.rows[0], label), (self.head.rows[-1], column),
            )  # fmt: skip
        if told is None and self._is_of_a_list(row, column):
            told = NOTHING
        if told is None:
            if (pair := self._pair_behind(row, column)) is not None:
                return pair
            headed = (c for c in self.values if c in self.head.texts or c in self.head.index)
            if column in self.head.texts or any(self.cells.is_number((row, c)) for c in headed):
                return None  # Behind the values of a row stand remarks.
            told = NOTHING
        told = self._of_its_own_bearing(label, told).beside(self._side_above(origin, which))
        corner = dict.fromkeys((*self._corner(column), *self.head.corner))
        headings = (*(t for t, _ in others), *corner, *self._titles())
        told = self._with_the_next(row, column, label, told)
        if which.stage in TAKEN and told.stage in TAKEN:
            told = told._replace(stage="")  # Each row says it: "as received" below "Reading".
        line: tuple[object, ...] = (
            "row", label, *(t for t, _ in others), self._begins_in, *self.titles[:1],
        )  # fmt: skip
        if self._is_of_either_bearing(label, origin):
            line = (*line, origin[0])  # "Shells in" below the mains, and again below the pins.
        return Spot(
            row, column, label, headings, told.beside(which), unit, (*line, origin[1]), origin
        )

    def _told_apart(self, row: int, column: int, label: str) -> Which:
        """The place that a row names which says nothing more, below what its table measures.

        "inner" and "outer" below "Rod bolt stretch".
        """
        if column not in self.head.index or self.table.which(row, column).tells:
            return NOTHING
        told = self.table.texts_before(row, column)
        names = [t for t, at in told if not self.table.is_office(at[1])]
        bare = names[0] if names and label not in names else ""
        if not bare.isalpha() or which_of(bare) is not None or meaning_of(bare).candidates:
            return NOTHING  # More than one word may be anything.
        return Which(at=(bare.casefold(),))

    def _is_of_a_list(self, row: int, column: int) -> bool:
        """Whether a value is of what its row names, whatever its head says.

        "On the card" beside "value", "Each" before "Qty" and "Total".
        """
        listed = self.head.is_list and column in self.head.texts
        another = listed and self.cells.is_number((row, column))
        return another or column == self._first_of_none_that_tells

    def _by_both(
        self, row: int, column: int, own: Sequence[tuple[str, At]], which: Which, unit: str
    ) -> Spot | None:
        """A value of which its row and the head of its column each say a part."""
        names, first = [t for t, _ in own], self.head.rows[0]
        if noun := self._property_of_rows(column):
            # "Clearance" in a list of work: of what each row names.
            return Spot(
                row, column, noun, (*names, *self._titles()),
                self._stage_over(column).beside(which), unit,
                ("property", column, first, names[0]), (self.head.rows[-1], column),
            )  # fmt: skip
        if part := self._parts_over.get(column):
            # "Height | 220.08 | 118.62" below "Block | Head"
            return Spot(
                row, column, names[0], (part, *names[1:], *self._titles()), which, unit,
                ("part", column, first, names[0]), own[0][1],
            )  # fmt: skip
        return None

    @cached_property
    def _first_of_none_that_tells(self) -> int:
        """The first column of numbers where no head says which one or when, 0 where one does."""
        heads = [c for c in self.values if c in self.head.texts or c in self.head.index]
        said = [w for c in heads if (w := self.head.which(c)) is not None]
        if not heads or any(w.tells or w.stage != "computed" for w in said):
            return 0
        numbers = (c for c in heads if any(map(self.cells.is_number, self.table.in_column(c))))
        first = next(numbers, 0)
        text = next(iter(self.head.texts.get(first, ())), "")
        return first if text and not meaning_of(text).candidates else 0

    def _as_measured(self, label: str, column: int) -> str:
        """A label without the grade of its part, of a size beside its limits: "Bore (std)"."""
        plain = [t.casefold() for t in self.head.texts.get(column, ())]
        return _GRADE.sub("", label) if plain == ["size"] else label

    def _as_ground(self, label: str, which: Which) -> str:
        """What is ground of a row that only says which one it is: "Rod 1" below "Ground"."""
        said = which_of(label)
        only = said is not None and said.number == which.number and said.of == which.of
        heads = {text.casefold() for texts in self.head.texts.values() for text in texts}
        ground = bool(heads & words_of("ground_sizes"))
        return _CRANK_PARTS[which.of] if only and ground and which.of in _CRANK_PARTS else label

    def _side_above(self, origin: At, which: Which) -> Which:
        """The side above, where a name stands below each: "In | shim | Ex | shim"."""
        row, column = origin
        name = self.cells.text(row, column)
        if which.side or self._named(column)[name] != len(_SIDES):
            return NOTHING
        alike = [r for r in self.rows if self.cells.text(r, column) == name]
        over = {r: which_of(self.cells.text(r - 1, column)) or NOTHING for r in alike}
        told = {w.side for w in over.values() if not w.number}
        return Which(side=over[row].side) if told == _SIDES and row in over else NOTHING

    def _of_its_own_bearing(self, label: str, told: Which) -> Which:
        """What heads of mains say over a row that is told to be of rods: the number alone."""
        own = bearing_told(label, (), NOTHING) if told.of in BEARINGS else ""
        return told._replace(of=own) if own else told

    def _is_of_either_bearing(self, label: str, origin: At) -> bool:
        """Whether a label may be of mains and of rods, and stands in more than one row."""
        if self._named(origin[1])[label] < _SEVERAL:
            return False
        measures = {find(c.measurand) for c in meaning_of(label).candidates[:2]}
        return {m.of for m in measures if m} == {*_CRANK_PARTS}

    def _named(self, column: int) -> Counter[str]:
        """How often each text stands in a column of the table."""
        if column not in self._names_in:
            self._names_in[column] = Counter(self.cells.text(row, column) for row in self.rows)
        return self._names_in[column]

    @cached_property
    def _begins_in(self) -> int:
        """The row of the heads, or of rows below a gap, which share no lines with others."""
        below = self.rows[0] - self.head.rows[-1] > 1 and self.rows[0] not in self.head.block.rows
        return self.rows[0] if below else self.head.rows[0]

    def _pair_behind(self, row: int, column: int) -> Spot | None:
        """A value right behind a label of its own, beside a table that has no heads over them."""
        heads = {*self.head.texts, *self.head.index}
        # Another list begins right behind it: "Torque | | Stretch | A | B".
        titled = column + 1 in self.table.names and column + 1 in heads
        if (
            column in heads
            or (column - 1 in heads and not titled)
            or self.kinds.get((row, column - 1)) != "text"
        ):
            return None
        label = self.cells.text(row, column - 1)
        candidates = meaning_of(label).candidates if which_of(label) is None else ()
        if not candidates or candidates[0].cost > 2 or not self.cells.is_number((row, column)):
            return None
        behind = self.cells.text(row, column + 1)
        return Spot(
            row, column, label, self._titles()[-1:], NOTHING, behind if is_unit(behind) else "",
            ((row, column - 1),), (row, column - 1),
        )  # fmt: skip

    def _journal_of(self, row: int, which: Which) -> str:
        """The journal that a row only counts, "" where it says more: "Main Fr", "Pin 1"."""
        texts = [t for t, _ in self.table.texts_before(row, self.table.first)]
        parts = {part for t in texts if (part := meaning_of(t).part)}
        if parts - _JOURNALS or any(map(stage_said, texts)):
            return ""
        counted = (of for t in texts if (of := counted_part(t)) and self._is_counted(t, which))
        return _CRANK_PARTS.get(which.of or next(counted, ""), "")

    @staticmethod
    def _is_counted(text: str, which: Which) -> bool:
        return bool(which.number or meaning_of(text).number)

    def _counted_in(self, row: int, which: Which) -> Which:
        """Which one a row is of, by a text that names a part with its number: "Pin 1"."""
        texts = (t for t, _ in self.table.texts_before(row, self.table.first))
        number = which.number or next((n for t in texts if (n := meaning_of(t).number)), 0)
        return which._replace(number=number)

    def _property_beside_axes(self, column: int) -> str:
        """The head of a column that names how far the sizes of two axes beside it are apart."""
        text = next(iter(self.head.texts.get(column, ())), "")
        before = [self.head.which(c) for c in (column - 2, column - 1)]
        axes = all(w is not None and w.at and not w.number for w in before)
        return text if axes and noun_named(text) in _SHAPES and not meaning_of(text).part else ""

    def _stage_before(self, column: int, noun: str) -> Which:
        """When the sizes before a column were taken of whose shape it tells, as its heads say."""
        told = self.head.which(column - 1) if noun_named(noun) in _SHAPES else None
        return Which(stage=told.stage) if told and told.stage in TAKEN else NOTHING

    def _property_of_rows(self, column: int) -> str:
        """The head of a column that names a property of what the rows name, and no part of its own.

        Only in a list whose other columns say when: as found, finished.
        """
        text = next(iter(self.head.texts.get(column, ())), "")
        meaning = meaning_of(text)
        named = bool(text) and not meaning.part and bool(meaning.candidates)
        return text if named and self._says_when else ""

    @cached_property
    def _says_when(self) -> bool:
        """Whether two columns say no more than when their sizes were taken."""
        told = (self.head.which(c) for c in self.values)
        return len({w.stage for w in told if w and w.stage and w.stage not in NO_SIZES}) > 1

    def _stage_over(self, column: int) -> Which:
        """When the sizes of a column were taken, as its heads say."""
        stages = (w for t in self.head.texts.get(column, ())[1:] if (w := which_of(t)) and w.stage)
        return next(stages, NOTHING)

    def _names_of(self, row: int, column: int) -> list[tuple[str, At]]:
        """The texts that name the values of a row, its own or those of a row above."""
        at = row, self.table.told_before(column)
        if at not in self._names:
            own = self._own_texts(row, column)
            said = self.table.which(row, column)
            if not own and (said.tells or said.stage in TAKEN):
                own = self._labels_over(row, column)
                other = (own[0][1][0], column) if own and said.stage in TAKEN else None
                if other and self.cells.ask(_is_far_from, (row, column), other):
                    own = []  # "ground" below "out of round" is of the sizes over both.
                own = own or self._label_below(row, column, said)
            if own and said.stage in TAKEN and own[0][1][0] != row:
                # "Bore as received" over "finished": when it was taken its own row says.
                own = [(without_stage(t).rstrip(_DASHES), o) for t, o in own]
            self._names[at] = own
        return self._names[at]

    def _is_of_another_kind(self, text: str, unit: str) -> bool:
        """Whether a text names nothing that is measured in a unit."""
        return bool(unit) and not meaning_of(f"{text} ({unit})").candidates

    def _labels_over(self, row: int, column: int) -> list[tuple[str, At]]:
        """The labels of the nearest row above that has one, where this one only says where."""
        told = self.table.told_before(column)
        if told not in self._over:
            over: dict[int, list[tuple[str, At]]] = {}
            nearest: list[tuple[str, At]] = []
            for own_row in self.rows:
                over[own_row] = nearest
                nearest = self._own_texts(own_row, column) or nearest
            self._over[told] = over
        own = self._over[told][row]
        if own and (label := goes_on(own[0][0], self.cells.text(row, own[0][1][1]))):
            return [(label, (row, own[0][1][1])), *own[1:]]  # "ex" below "stem in"
        if not own or (row, own[0][1][1]) not in self.kinds:
            return own
        # "– after" below "recession – before" in the same column is of the same.
        text = self.cells.text(row, own[0][1][1])
        earlier, later = stage_said(own[0][0]), stage_said(text.strip(_DASHES))
        dashed = text[:1] in ("-", "–", "—")
        same = later in TAKEN and (dashed or later != earlier in TAKEN)
        return own if same and own[0][1][0] == row - 1 else []

    def _label_below(self, row: int, column: int, said: Which) -> list[tuple[str, At]]:
        """What the row below measures, where it was worked to: "came in" over "honed to"."""
        later = next((r for r in self.rows if r > row), 0)
        own = self._own_texts(later, column) if later and said.stage == "found" else []
        worked = bool(own) and stage_said(own[0][0]) in ("final", "machined")
        if worked and meaning_of(own[0][0]).part == "piston":
            return []  # Pistons are bought: what came in is the block.
        return own if worked and not said.tells else []

    def _by_column(self, row: int, column: int) -> Spot | None:
        """A value whose column says what it is."""
        texts = self.head.texts.get(column)
        day = column in self.head.days
        own_count = day or column in self.head.index
        if not texts and column - 1 in self.table.index and not own_count:
            texts = self.head.texts.get(column - 1)
        if not texts and column not in self.head.index:
            return self._instead(row, column)
        texts = texts or []
        own = [t for t in texts if self._says_what(t) and not self._is_finish(t, column)]
        own = [self._without_most(row, column, own[0]), *own[1:]] if own else own
        own = ["Crankpin", *own[1:]] if own and self._is_a_crankpin(column, own[0]) else own
        place = own[:1] if column in self._only_apart else []
        own = [] if place else own
        rings = self._rings_over(column, texts)
        told = NOTHING if rings else self._told_over(column, texts)
        told = told.beside(Which(at=tuple(t.casefold() for t in place))) if place else told
        told = self._of_a_bolt(row, column, self._across(row, told))
        told = of_a_ring(told, texts, own)
        own = rings or own
        corner = [*dict.fromkeys((*self._corner(column), *self.head.corner))]
        by_row = self.table.which(row, column)
        which = told.beside(by_row)
        if by_row.stage in NO_SIZES:
            which = which._replace(stage=by_row.stage)  # The least below "measured" is a limit.
        unit = told.unit or self.table.unit_of(row)
        # What was taken on several days is of the same.
        line: tuple[object, ...] = ("column", 0 if day else column, self.head.rows[0])
        own, unit = self._given_over(texts, own, unit)
        if not own:
            about = self._about(row, column, told, corner)
            before = self._labeled_before(column)
            if before and names_a_ring(before, ()) and any(names_a_ring(t, ()) for t in texts):
                about = [before, *about]  # "Scraper" behind the gap of another ring.
            ring = next((t for t in texts if names_a_ring(t, about) or is_a_ring(t)), "")
            ring = ring or next((t for t in texts if " " in t and names_a_ring(t, ())), "")
            about = [self.titles[0], *about] if place else about
            own, corner = ([ring], about) if ring else (about[:1], about[1:])
            if ring and which_of(ring) is not None:
                which = of_a_ring(told, texts, [f"{ring} ring"]).beside(by_row)
            alone = measuring_unit(texts)
            if alone and (not any(map(names_a_part, about)) or not _is_in_unit(about[0], alone)):
                own = [alone]
            if not by_row.tells and (named := self._named_by_row(row, own)):
                own, corner = [named], [*own, *corner]
            line = (*line, *own)  # Below other titles the column measures something else.
        if not own:
            return None
        headings = (*own[1:], *corner, *self._titles())
        which = which.beside(Which(side=self._sides_before.get(column, "")))
        which = which.beside(self._told_apart(row, column, own[0]))
        which = self._as_pair(row, column, own[0], which)
        return Spot(
            row, column, own[0], headings, which, unit, line, (self.head.rows[-1], column),
        )  # fmt: skip

    def _across(self, row: int, told: Which) -> Which:
        """What heads say, A and B over counted journals for two ways across and no banks."""
        counted = self.table.which(row, self.table.first).number
        if told.bank not in ("A", "B") or told.number or not counted or not self._counts_journals:
            return told
        places = (at for at in told.at if at != "bottom")  # A "B" alone may be one.
        return told._replace(bank="", at=(*places, told.bank))

    def _of_a_bolt(self, row: int, column: int, told: Which) -> Which:
        """What heads say, "Bolt 2" over rows that count rods for one of a rod's, and no rod."""
        head = self.cells.text(self.head.rows[-1], column) if told.number else ""
        meaning = meaning_of(head) if head else None
        bolt = meaning is not None and meaning.part.endswith("bolt") and meaning.number
        counted = self.table.which(row, self.table.first)
        if not bolt or not counted.number or counted.of not in BEARINGS:
            return told
        return told._replace(number=0, at=(*told.at, head.casefold()))

    @cached_property
    def _only_apart(self) -> frozenset[int]:
        """The columns whose heads only tell them apart below a title that says what is measured.

        "inner | outer" below "Stretch": of each bolt of a rod.
        """
        own = {c: texts[0] for c in self.values if (texts := self.head.texts.get(c))}
        title = next(iter(self.titles), "")
        told = meaning_of(title).candidates if title and not meaning_of(title).unknown else ()
        counted = {w.of for row in self.rows if (w := self.table.which(row, self.table.first))}
        terms = [term for c in told if c.cost <= 1 and (term := find(c.measurand))]
        terms = [term for term in terms if term.of and counted == {term.of}]
        if not terms or any(term.noun in _BESIDE for term in terms):
            return frozenset()
        apart = {
            c
            for c, text in own.items()
            if which_of(text) is None
            if _OF_A_SIDE.fullmatch(text) or not meaning_of(text, (title,)).candidates
        }
        return frozenset(apart) if len({own[c] for c in apart}) >= _SEVERAL else frozenset()

    def _is_a_crankpin(self, column: int, label: str) -> bool:
        """Whether a pin is the crank's: below "Rods", beside what its bearing measures."""
        words = label.casefold().split()[:1]
        if words not in (["pin"], ["pins"]) or counts(next(iter(self.titles), "")) != "rod":
            return False
        behind = [t for c in self.values if c > column for t in self.head.texts.get(c, ())[:1]]
        return any(meaning_of(text).part in _SHELLS for text in behind)

    @cached_property
    def _sides_before(self) -> dict[int, str]:
        """The sides of heads that stand again behind one of each: "In height | shim | Ex …"."""
        own = {c: texts[0] for c, texts in self.head.texts.items() if texts}
        again = {c for c, text in own.items() if [*own.values()].count(text) == _SEVERAL}
        told: dict[int, str] = {}
        for column in sorted(own):
            side = side_said(own[column])
            told[column] = side or (told.get(column - 1, "") if column in again else "")
        sides = {told[c] for c in again}
        return {c: told[c] for c in again} if sides == {"intake", "exhaust"} else {}

    @cached_property
    def _parts_over(self) -> dict[int, str]:
        """The parts that heads name and no more, {} where any names something else."""
        own = {c: texts[0] for c in self.values if (texts := self.head.texts.get(c))}
        if len(own) < _SEVERAL or any(which_of(t) is not None for t in own.values()):
            return {}
        told = {c: meaning_of(text) for c, text in own.items()}
        parts = {m.part for m in told.values()}
        only = all(m.part and (not m.candidates or m.candidates[0].cost > 1) for m in told.values())
        return own if only and len(parts) == len(own) else {}

    @cached_property
    def _of_a_run(self) -> bool:
        """Whether rows go by the engine's speed, as those of a run on a test stand do."""
        heads = [texts[0] for texts in self.head.texts.values() if texts]
        first = [c[0].measurand for t in heads if (c := meaning_of(t).candidates)]
        return "engine_speed" in first

    def _rings_over(self, column: int, texts: Sequence[str]) -> list[str]:
        """The ring that the heads of a column are of, where heads list rings."""
        if not self.table.pistons:
            return [f"{t} ring" for t in texts if t in self.rings]
        if not texts and column in self.head.index:
            return _RINGS_IN_ORDER[self.head.index[column].number - 1 :][:1]
        return _RINGS_IN_ORDER[-1:] if texts and meaning_of(texts[0]).part == "oil" else []

    def _given_over(self, texts: Sequence[str], own: list[str], unit: str) -> tuple[list[str], str]:
        """What an engine gives in the unit over a column of a run, and that unit; else the same.

        "Nm" beside "rpm" is no torque of bolts.
        """
        if not texts or not self._of_a_run:
            return own, unit
        short = texts[0].casefold().strip(" .") in _METRIC_HORSEPOWER
        kind = meaning_of(texts[0]).unit if short or is_unit(texts[0]) else ""
        given = [_OF_A_RUN[kind]] if kind in _OF_A_RUN else own
        return given, "PS" if short else unit

    def _without_most(self, row: int, column: int, text: str) -> str:
        """A head without the word for the most of what was measured, where that is no limit.

        "Max. bore dia" over a number for each cylinder, where no other head is about the bore.
        """
        bare = _MOST_OR_LEAST.sub("", text).strip(" ,.:")
        if bare == text or not bare or not self.table.which(row, column).number:
            return text
        mine = {c.measurand for c in meaning_of(bare).candidates[:1]}
        others = [t for c, texts in self.head.texts.items() if c != column for t in texts[:1]]
        about = {c.measurand for t in others for c in meaning_of(t).candidates[:1]}
        limits = any((w := which_of(t)) and w.stage in NO_SIZES for t in others)
        if limits or not mine or mine & about:
            return text
        several = self.cells.ask(_holds_several, *self.table.in_column(column))
        return bare if several else text

    def _named_by_row(self, row: int, about: Sequence[str]) -> str:
        """What a row below the head of a unit is of, "" where it names no part: "Flywheel"."""
        own = [text for text, _ in self._own_texts(row, self.table.first)][:1]
        found = meaning_of(own[0], tuple(about)).candidates if own else ()
        return own[0] if found and found[0].cost == 0 else ""

    def _says_what(self, text: str) -> bool:
        """Whether a head says what is measured; oil beside bearings is no ring, but their play."""
        said = which_of(text)
        axial = said is not None and said.at == ("parallel",) and bool(meaning_of(text).candidates)
        oil = said is not None and said.side.casefold() in _OF_BEARINGS
        return said is None or ((oil or axial) and self._of_bearings)

    @cached_property
    def _of_bearings(self) -> bool:
        """Whether a table is about mains or rods, by its nearest title or what its rows count."""
        about = (*self.head.corner, *self.titles[:1], *self._corner(self.table.first))
        if any(self.table.which(row, self.table.first).of in BEARINGS for row in self.rows):
            return True
        return any(bearing_told(t, (), NOTHING) in BEARINGS for t in about)

    def _instead(self, row: int, column: int) -> Spot | None:
        """A value without a head right of one that is struck through stands in its place."""
        withdrawn = (row, column - 1) in self.cells.sheet.struck
        if not withdrawn or not self.cells.is_number((row, column)):
            return None
        before = self._by_column(row, column - 1)
        return None if before is None else replace(before, column=column)

    def _as_pair(self, row: int, column: int, label: str, which: Which) -> Which:
        """A value of a pair, beside the first of two rows: "Side (pair)"."""
        alone = which.number and not which.last and (row + 1, column) not in self.kinds
        pairs = _PAIR.search(label) is not None or column in self._every_other
        if not alone or row + 1 not in self.rows or not pairs:
            return which
        below = self.table.which(row + 1, column).number
        return which._replace(last=below) if below == which.number + 1 else which

    def _with_the_next(self, row: int, column: int, label: str, told: Which) -> Which:
        """A value of a pair, below the first of two heads: "side, per pair"."""
        alone = told.number and not told.last and (row, column + 1) not in self.kinds
        merged = self.cells.sheet.merged.get((row, column)) == (row, column + 1)
        if not alone or not (merged or _PAIR.search(label)):
            return told
        behind = self.head.which(column + 1)
        pair = behind is not None and behind.number == told.number + 1
        return told._replace(last=told.number + 1) if pair else told

    @cached_property
    def _every_other(self) -> frozenset[int]:
        """The columns with a size beside the first of every two rows, and no more."""
        firsts = {r for r in self.rows if self.table.which(r, self.table.first).number % 2}
        filled = {c: {r for r, _ in self.table.in_column(c)} for c in self.values}
        return frozenset(c for c, rows in filled.items() if len(rows) > 1 and rows == firsts)

    def _told_over(self, column: int, texts: Sequence[str]) -> Which:
        """What the heads of a column say of which one it is, when, and in what unit."""
        told = NOTHING
        for text in texts:
            said = Which(stage="final") if self._is_finish(text, column) else which_of(text)
            if said is not None:
                told = told.beside(said)
        settled = self.head.index.get(column)
        if settled is not None and settled.at == ("rear",) and not settled.bank:
            told = told._replace(bank="")  # An R beside the front.
        return told.beside(settled) if settled is not None else told

    def _about(self, row: int, column: int, told: Which, corner: Sequence[str]) -> list[str]:
        """What a column is about whose heads only say which one: the table says it."""
        office = self._over_office
        corner = [t for t in corner if not _is_a_bank(t)]
        corner.sort(key=lambda text: counts(text) is not None)  # "Big end ID" over "rod".
        if self.table.pistons:
            corner = [t for t in corner if meaning_of(t).part != "piston"]
        about = [t for t in corner if counts(t) != "cylinder" and t not in office]
        # "Rod" over numbers below a title that says what is measured of rods only counts.
        behind = [t for t in about if self._is_counted_by_title(t)]
        about = [t for t in about if t not in behind] + [*self._titles(), *behind]
        # A limit is of the sizes before it.
        if told.stage in NO_SIZES and (before := self._labeled_before(column)):
            about = [before, *about]
        if self._is_of_a_bore(self.table.which(row, column), told):
            return ["Bore", *about]
        if told.of in _OF_CYLINDERS and told.number and self._are_beside_pistons:
            return ["Bore", *about]
        counted = all(counts(t) is not None for t in corner)
        parts = any(names_a_part(t) for t in about if counts(t) != "cylinder")
        unnamed = counted and not parts and all(map(_says_only_when, self.titles))
        of = self.table.which(row, column).of
        if told.stage and (journal := next((t for t in self._over_index if is_journal(t)), "")):
            return [journal, *about]
        of_crank = told.stage or ((told.at or told.bank) and self._counts_journals)
        if of in _CRANK_PARTS and of_crank and not any(map(_names_another_part, about[:-1])):
            return [_CRANK_PARTS[of], *about]
        stage = told.stage or self.table.which(row, column).stage
        bare = _bearings_alone(about[0]) if stage in TAKEN and about else ""
        if bare and self._is_ground_down:
            return [_CRANK_PARTS[bare], *about]
        of_cylinders = bool(told.stage or told.at) and of in ("cylinder", "")
        if told.of in _CRANK_PARTS and told.number and not any(_is_of(told.of, t) for t in about):
            return [_CRANK_PARTS[told.of], *about]  # "HL 1" in a list that nothing else names.
        # A word that nobody knows says less than a title: "Corner" below "Deck height".
        about.sort(key=lambda text: not meaning_of(text).candidates)
        if not (about and unnamed and of_cylinders):
            return about
        heads = {text.casefold() for texts in self.head.texts.values() for text in texts}
        about = [t for t in about if not _says_only_when(t)]
        return ["Journal" if heads & words_of("ground_sizes") else "Bore", *about]

    @cached_property
    def _is_ground_down(self) -> bool:
        """Whether work made sizes smaller, by a step: what was ground is no hole."""
        stages = {c: w.stage for c in self.values if (w := self.head.which(c)) and not w.tells}
        before = [c for c, stage in stages.items() if stage == "found"]
        after = [c for c, stage in stages.items() if stage == "machined"]
        pairs = [((r, before[0]), (r, after[0])) for r in self.rows] if before and after else []
        if not pairs:
            by_row = {r: self.table.which(r, self.table.first).stage for r in self.rows}
            before = [r for r, stage in by_row.items() if stage == "found"]
            after = [r for r, stage in by_row.items() if stage == "machined"]
            if len(before) == len(after) == 1:
                pairs = [((before[0], c), (after[0], c)) for c in self.values]
        return bool(pairs) and self.cells.ask(_are_a_step_below, tuple(pairs))

    def _is_counted_by_title(self, text: str) -> bool:
        """Whether the nearest title surely names what is measured of what a text counts."""
        of = counts(text)
        told = (c for title in self.titles[:1] for c in meaning_of(title).candidates[:1])
        terms = (find(c.measurand) for c in told if c.cost == 0)
        return of in _CRANK_PARTS and any(term is not None and term.of == of for term in terms)

    @cached_property
    def _over_office(self) -> frozenset[str]:
        """The heads of what says whose a row is: in a log they say nothing of what is measured."""
        heads = self.head.texts.items()
        return frozenset(t for c, texts in heads if self.table.is_office(c) for t in texts)

    @cached_property
    def _counts_journals(self) -> bool:
        """Whether the head over what tells the rows apart names journals: "Jrnl" over M1 M2."""
        over = (t for c in self.table.telling for t in self.head.texts.get(c, ()))
        return any(map(is_journal, over))

    @cached_property
    def _over_index(self) -> Sequence[str]:
        """The heads over the columns that count the rows."""
        return [t for c in self.table.index for t in self.head.texts.get(c, ())]

    def _is_finish(self, text: str, column: int) -> bool:
        """Whether "Finish" over a column means its finished size, by its decimals."""
        if text.strip(" .").casefold() not in words_of("finish_heads"):
            return False
        return self.cells.ask(_is_of_sizes, tuple(self.table.in_column(column)))

    def _labeled_before(self, column: int) -> str:
        """The label of the nearest column on the left that has one."""
        for at in reversed([c for c in self.values if c < column]):
            own = [t for t in self.head.texts.get(at, ()) if which_of(t) is None]
            if own:
                return own[0]
        return ""

    @cached_property
    def _are_of_bolts(self) -> bool:
        """Whether the nearest title names bolts, so that rods or mains below it only count them."""
        return any(meaning_of(title).part in _BOLTS for title in self.titles[:1])

    def _is_over_units(self, column: int) -> bool:
        """Whether a head over the units of rows says what is measured: "Liner proud" over mm."""
        texts = self.head.texts.get(column, ()) if column in self.table.units else ()
        plain = {text.casefold().strip(" .:") for text in texts}
        return not plain & words_of("unit_heads") and any(map(surely_measures, texts))

    def _begins_with_a_place(self, column: int) -> bool:
        """Whether the first text below a head says where on a part: "Top" below "Height"."""
        first = next((self.cells.text(*at) for at in self.table.in_column(column)), "")
        said = which_of(first)
        return said is not None and bool(said.at)

    def _corner(self, column: int) -> list[str]:
        """The heads over the names and numbers of the rows."""
        told = self.table.told_before(column)
        if told not in self._corners:
            # A head with nothing below it speaks for the others: "Torque | mains | rods".
            alone = [c for c in self.head.texts if c < self.table.first]
            alone = [c for c in alone if not self.table.in_column(c) or self._is_over_units(c)]
            telling = sorted({*self.table.telling[:told], *alone})
            beside = [c for c in telling if not self.table.is_office(c)]
            texts = [
                t
                for c in reversed(beside)
                for t in self.head.texts.get(c, ())
                if not (c in self.table.index and counts(t) is None and _only_counts(t))
                if not (c in self.table.pistons and meaning_of(t).part == "piston")
                if meaning_of(t).part or _measures(t) or not self.table.names_places(c)
                if not (counts(t) is not None and self._are_of_bolts)
                if not (says_where_alone(t) and self._begins_with_a_place(c))
            ]
            # "Cyl" or "No." over the names of rows says nothing of what is measured.
            self._corners[told] = [
                t for t in dict.fromkeys(texts)
                if not is_unit(t) and counts(t) not in ("", "bearing") and not _says_where(t)
                if not _is_of_both_sides(t)
            ]  # fmt: skip
        return self._corners[told]


def _is_of_mains(text: str) -> bool:
    """Whether a text names first something of the mains."""
    candidates = meaning_of(text).candidates[:1]
    term = find(candidates[0].measurand) if candidates else None
    return term is not None and term.of == "main"


def _first_meant(texts: Sequence[str]) -> str:
    """What the first of some heads surely measures, "" where it is not sure."""
    candidates = meaning_of(texts[0]).candidates[:1] if texts else ()
    return candidates[0].measurand if candidates and candidates[0].cost <= _SURE_OF_HEADS else ""


def _are_of_one(
    sheet: Sheet, row: int, columns: tuple[int, ...], name: str, heads: tuple[str, ...]
) -> bool:
    """Whether the numbers of a row can be of one measurand, and not of that of each column."""
    sizes = [sheet.cells[row, c].value for c in columns]
    numbers = [n for n in sizes if isinstance(n, (int, float))]
    one, others = find(name), [find(head) if head else None for head in heads]
    if one is None or len(numbers) < len(columns):
        return False
    fits = False
    for system in SYSTEMS:
        factor = si_factor(one, "", system)
        if factor and all(one.is_possible(n * factor) for n in numbers):
            fits = True
        of_heads = (
            o is None or ((f := si_factor(o, "", system)) and o.is_possible(n * f))
            for n, o in zip(numbers, others, strict=True)
        )
        if all(of_heads):
            return False
    return fits


def _measures(text: str) -> bool:
    """Whether a head over places says by a property what is measured there: "Unbalance (oz-in)"."""
    candidates = meaning_of(text).candidates
    return bool(candidates) and candidates[0].cost <= 1 and which_of(text) is None


def _is_in_unit(text: str, unit: str) -> bool:
    """Whether a text names what may be measured in a unit: a valve is no volume."""
    return bool(meaning_of(f"{text} ({unit})").candidates)


def _says_where(text: str) -> bool:
    """Whether a head says that places stand below it: "Messebene"."""
    return text.casefold().strip(" .:#") in words_of("place_heads")


def _is_of_both_sides(text: str) -> bool:
    """Whether a head says that intakes and exhausts stand below it, and no more: "In/Ex"."""
    plain = "".join(text.casefold().split()).strip(".:")
    told = {w.side for part in text.split("/") if (w := which_of(part.strip())) is not None}
    return plain in words_of("both_sides") or told == _SIDES


def _only_counts(text: str) -> bool:
    """Whether a head over numbers counts a part that it names, and says no property: "Crankpin"."""
    candidates = meaning_of(text).candidates
    sized = bool(candidates) and (candidates[0].cost == 0 or bool(unit_in(text)))
    return bool(counted_part(text)) and not sized


def _is_of_a_crank(sheet: Sheet) -> bool:
    """Whether a text of a sheet names a crankshaft and nothing measured of it, or counts mains."""
    texts = [cell.value for cell in sheet.cells.values() if isinstance(cell.value, str)]
    short = [text for text in texts if len(text.split()) <= _WORDS_OF_A_TITLE]
    return any(
        counts(_REMARK.sub("", text)) == "main"
        or (meaning_of(text).part == "crank" and not meaning_of(text).candidates)
        for text in short
    )


# A longer text is a remark.
_WORDS_OF_A_TITLE = 5


def _is_far_from(sheet: Sheet, at: At, other: At) -> bool:
    """Whether the numbers of two cells are of other magnitudes."""
    held = [cell.value for cell in map(sheet.cells.get, (at, other)) if cell is not None]
    sizes = [abs(value) for value in held if isinstance(value, (int, float))]
    return len(sizes) > 1 and min(sizes) * _FAR < max(sizes)


def _holds_several(sheet: Sheet, *cells: At) -> bool:
    """Whether the numbers of cells are not all the same."""
    return len({sheet.cells[at].value for at in cells}) >= _SEVERAL


def _says_only_when(title: str) -> bool:
    """Whether a title only says what was done: "Rebore report"."""
    told = meaning_of(title)
    return stage_of(told) == "machined" and not (told.candidates or told.part or told.section)


def _is_a_bank(text: str) -> bool:
    """Whether a text names a bank and nothing else: "LEFT BANK"."""
    said = which_of(text)
    return said is not None and bool(said.bank) and not said.number


def _is_of(part: str, text: str) -> bool:
    """Whether a title names a part, or what may be measured of this one."""
    meaning = meaning_of(text)
    named = meaning.part not in ("", "crank", "engine")  # "Crank register" is over mains and pins.
    return named or any(one.measurand.startswith(part) for one in meaning.candidates)


def _names_another_part(text: str) -> bool:
    """Whether a text names a part, and does not only count the rows: "Mains"."""
    return names_a_part(text) and counts(text) is None


def _are_alike(sheet: Sheet, row: int, nouns: Sequence[tuple[int, str]]) -> bool:
    """Whether the first sizes in a row of each of several things are alike."""
    sizes: dict[str, float] = {}
    for column, noun in nouns:
        cell = sheet.cells.get((row, column))
        if cell and isinstance(cell.value, (int, float)) and cell.value:
            sizes.setdefault(noun, abs(cell.value))
    return len(sizes) >= _THINGS and max(sizes.values()) <= _ALIKE * min(sizes.values())


# How much smaller a reground journal is: more than a big end that was honed anew.
_LEAST_STEP, _MOST_STEP = 1.0015, 1.06


def _are_a_step_below(sheet: Sheet, pairs: Sequence[tuple[At, At]]) -> bool:
    """Whether the second size of each pair is the first less what a grinder takes off."""
    held = [[sheet.cells.get(at) for at in pair] for pair in pairs]
    sizes = [[c.value for c in pair if c and isinstance(c.value, (int, float))] for pair in held]
    both = [(one, other) for one, other in (pair for pair in sizes if len(pair) == _SEVERAL)]
    ground = [o > 0 and _LEAST_STEP < one / o < _MOST_STEP for one, o in both]
    return bool(both) and all(ground)


# What a text names that says no more than of which bearings it is.
_BEARINGS_ALONE = {
    "big_end": "rod", "rod_bearing": "rod", "main_bearing": "main", "main": "main",
}  # fmt: skip


def _bearings_alone(text: str) -> str:
    """The bearings that a text names, "" where it says what is measured of them."""
    meaning = meaning_of(text)
    alone = all(c.cost > 1 for c in meaning.candidates)
    return _BEARINGS_ALONE.get(meaning.part, "") if alone else ""


def _is_of_sizes(sheet: Sheet, column: Sequence[At]) -> bool:
    """Whether a number among cells is written as a size is, and as no roughness: 4.03, 0.005."""
    values = (sheet.cells[at].value for at in column)
    numbers = [v for v in values if isinstance(v, float) and not v.is_integer()]
    decimals = [(v, len(f"{v:.10g}".partition(".")[2])) for v in numbers]
    return any(many >= 3 or (many == 2 and v > 1) for v, many in decimals)
