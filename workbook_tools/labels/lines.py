"""The lines of a sheet: spots that share a label, with their numbers and what they may mean."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache, lru_cache
from itertools import pairwise, takewhile

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import read_reference
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.labels.answered_spots import answered_spots
from workbook_tools.labels.answers import Answer
from workbook_tools.labels.arithmetic import of_two
from workbook_tools.labels.banks import bank_of_title
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_step, is_unit, with_point, without_tick
from workbook_tools.labels.conventions import Stated
from workbook_tools.labels.last_figures import last_figures
from workbook_tools.labels.line import InBook, Line, Option, Over
from workbook_tools.labels.nominal_sizes import over_nominal
from workbook_tools.labels.options import bearing_told, options_of
from workbook_tools.labels.property_units import unit_of_property
from workbook_tools.labels.relations import formulas
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.sizes import percent_of, si_factor
from workbook_tools.labels.spot import Spot, Told
from workbook_tools.labels.spots import spots
from workbook_tools.labels.sums import summed_once
from workbook_tools.labels.vocabulary import (
    NO_SIZES,
    Stage,
    meaning_of,
    plain,
    stage_of,
    unit_in,
)
from workbook_tools.labels.weights import weights
from workbook_tools.labels.which import which_of, without_stage
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.words import Meaning
from workbook_tools.quantities import System, UnreadableText, split_quantity

_FIRST_NUMBER = re.compile(
    r"[~<>≈±']?\s*(?:(?:(?P<whole>\d+)[ -])?(?P<over>\d+)/(?P<under>[1-9]\d*)"
    r"|(?P<number>[-+−–]?(?:\d+\.?\d*|\.\d+)))"
)

# Units that are no words, at the end of a title.
_UNITS_IN_TITLES = ("mm", "cc", "nm", "kgm", "mkg", "kpm", "psi", "thou", "inch", "inches")
# "Rods, in" and "Rods - in" end with a unit, "check in" with a word.
_IN_AT_THE_END = re.compile(r"\w(?:,|\s[-–—]|:)\s*in\.?$", re.IGNORECASE)
# What is noted of several readings in place of all of them.
_STANDS_FOR_READINGS = ("mean", "largest", "smallest")
_STAGES_OF_BLOCKS = ("found", "machined", "final", "target")


def spots_of_engine(
    cells: SheetText, answers: Sequence[Answer] = (), *, grams: bool = False
) -> list[Spot]:
    """The spots of a sheet that can be of an engine: no prices, no fields of jobs.

    answers: of the layout; what it says is something measured is kept wherever it stands; grams:
    whether the sheet says that all its numbers are.
    """
    vocabulary = cells.vocabulary
    elsewhere = vocabulary.is_elsewhere(cells.sheet.title)
    if elsewhere and not answers:
        return []
    prices = summed_once(cells)

    # Most spots share their words with others of their line.
    by_words: dict[tuple[str, tuple[str, ...]], bool] = {}

    def of_engine(spot: Spot) -> bool:
        if spot.told and spot.told.measurand:
            return True
        if elsewhere or (spot.row, spot.column) in prices:
            return False
        words = spot.label, spot.headings[:1]
        if words not in by_words:
            near = spot.headings[:1]
            priced = bool(near) and meaning_of(near[0]).section == "prices"
            over = near if priced or not _is_said(spot.label) else ()
            of_job = vocabulary.job_field(spot.label) or vocabulary.job.is_rebuilt(spot.label)
            by_words[words] = not of_job and not any(
                vocabulary.is_elsewhere(h) for h in (spot.label, *over)
            )
        return by_words[words]

    found = [s for s in answered_spots(cells, spots(cells), answers) if of_engine(s)]
    if grams:
        found = [spot if spot.unit else replace(spot, unit=_GRAMS) for spot in found]
    bank = bank_of_title(cells.sheet.title)
    found = [_of_bank(spot, bank) for spot in found] if bank else found
    return _all_as_found(found) if _is_of_what_came(cells, found) else found


def _is_of_what_came(cells: SheetText, found: Sequence[Spot]) -> bool:
    """Whether the name or the first text of a sheet says that all was measured as it came.

    "Strip report": nothing on it was worked, or is said to be so.
    """
    first = next((text for _, _, text in cells.sheet.texts), "")
    report = first.partition("(")[0] if _REPORT.search(first) else ""
    titles = (cells.sheet.title, report)
    if not any(stage_of(meaning_of(title)) == "found" for title in titles):
        return False
    said = {_stage_said(spot) for spot in found}
    heads = (
        t for _, _, t in cells.sheet.texts if t != first and len(t.split()) <= _WORDS_OF_A_HEAD
    )
    worked = (stage_of(meaning_of(text)) for text in heads)
    return not said & {*_WORKED} and not any(stage in _WORKED for stage in worked)


# A longer text is a remark or an opinion.
_WORDS_OF_A_HEAD = 4
# What a report on an engine that came in is called, beside when it was measured.
_REPORT = re.compile(
    r"report|inspection|survey|bericht|protokoll|rapport|constat|expertise|informe|inspección"
    r"|relazione|perizia|ispezione",
    re.IGNORECASE,
)
_WORKED = ("final", "machined")


def _all_as_found(found: Sequence[Spot]) -> list[Spot]:
    return [
        spot if _stage_said(spot) else replace(spot, which=spot.which._replace(stage="found"))
        for spot in found
    ]


def _stage_said(spot: Spot) -> Stage:
    """When a size was taken, as its heads or its label say."""
    return spot.which.stage or stage_of(spot.meaning)


_GRAMS = "g"
_ALL_IN_GRAMS = re.compile(
    rf"(?<![^\W_]){either_of('all_of_a_sheet')}\s+{either_of('grams')}(?![^\W_])"
)


def is_in_grams(sheet: Sheet) -> bool:
    """Whether the title of a sheet says that all its numbers are grams: "all weights in g"."""
    title = next((text.casefold() for _, _, text in sheet.texts), "").strip(" .:()")
    return _ALL_IN_GRAMS.search(title) is not None or title in words_of("grams")


def _of_bank(spot: Spot, bank: str) -> Spot:
    """A number that tells of no part as one of the bank that its sheet is named after."""
    which = spot.which_one
    if which.number or which.bank or which.at:
        return spot
    return replace(spot, which=spot.which._replace(bank=bank))


def _is_said(label: str) -> bool:
    """Whether a label leaves no doubt of what is measured: a stroke is none of "Parts"."""
    candidates = meaning_of(label).candidates
    return bool(candidates) and candidates[0].cost <= 1


def lines_of(
    cells: SheetText, found: Sequence[Spot], stated: Stated
) -> Iterator[tuple[list[Spot], Line]]:
    """The spots of a sheet by line, each with what its words may mean."""
    groups: dict[tuple[object, ...], list[Spot]] = defaultdict(list)
    found = _measured_before(found)
    by_cell = {(s.row, s.column): s for s in found if not s.inline}
    for spot in found:
        if not spot.is_computed and _is_typed_number(cells, spot):
            groups[spot.shared].append(spot)
            continue
        told = spot.told is not None and bool(spot.told.measurand)
        if not told and (read := _read_as_mean(cells, spot, by_cell)) is not None:
            # The mean of several readings of one bore is its size.
            groups[spot.shared].append(read)
            continue
        if spot.is_computed and not (
            told or spot.nominal or _stands_for_readings(cells, spot, found)
        ):
            left = _left_by_two(cells, spot, by_cell)
            if not left and not _is_difference_of_two(cells, spot):
                continue
            # "Difference" says nothing; what it is of may.
            label = left or _NO_MORE_THAN_THAT
            spot = replace(spot, label=label, headings=(), which=spot.which._replace(stage=""))
        if not told and (_is_of_its_column(cells, spot) or _is_a_step(cells, spot)):
            continue
        groups[spot.shared].append(spot)
    for key, members in groups.items():
        yield from _lines_of_a_label(cells, (cells.sheet.title, *key), members, stated)


def _lines_of_a_label(
    cells: SheetText, key: tuple[object, ...], members: list[Spot], stated: Stated
) -> Iterator[tuple[list[Spot], Line]]:
    """The line of spots that share a label, or one for each row where these are two things."""
    rows = _rows_apart(members) if key[1] == "row" else ()
    if not rows or meaning_of(members[0].label).candidates:
        line = _line(cells, key, members, stated)
        if not rows or not (_may_be_several(line) or _take_other_rows(cells, members)):
            yield members, line
            return
    for row in rows:
        yield row, _line(cells, (*key, row[0].row), row, stated)


def _is_typed_number(cells: SheetText, spot: Spot) -> bool:
    """Whether a cell holds a number as it was typed, as most do: no text and no formula."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    return cell is not None and not cell.formula and isinstance(cell.value, (int, float))


def _is_a_step(cells: SheetText, spot: Spot) -> bool:
    """Whether a text says by how much a machined size is under or over the standard one."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    text = cell.value if cell and not spot.inline else None
    return isinstance(text, str) and is_step(text) and spot.which.stage == "machined"


def _measured_before(found: Sequence[Spot]) -> Sequence[Spot]:
    """Spots, those as found whose label adds "measured" to that of what came after the work.

    "Tourillon relevé" above "Tourillon", where either may stand below a title that says ground.
    """
    told: dict[str, set[tuple[str, ...]]] = defaultdict(set)
    for spot in found:
        told[plain(spot.label)].add(spot.headings)
    for label, headings in list(told.items()):
        if _stage_at_end(label) in _WORKED and _without_measured(label) == label:
            # "Tourillon rectifié" is of the same too.
            told[plain(without_stage(label))] |= headings
    before = {
        label: bare
        for label in told
        if (bare := _without_measured(label)) != label and told.keys() & {bare}
        if told[label] & told[bare]
    }
    if not before:
        return found
    return [
        replace(spot, which=spot.which._replace(stage="found"))
        if plain(spot.label) in before and spot.which.stage in ("", *_WORKED)
        else spot
        for spot in found
    ]


# What work brings sizes to.
_WORKED = ("machined", "final")


@lru_cache(maxsize=4096)
def _stage_at_end(label: str) -> str:
    """The stage that a label ends with, "" where it ends with none."""
    bare = without_stage(label)
    said = which_of(label[len(bare) :]) if bare != label else None
    return said.stage if said is not None else ""


@lru_cache(maxsize=4096)
def _without_measured(label: str) -> str:
    words = label.split()
    return " ".join(word for word in words if word.strip(".,:()") not in words_of("measured"))


def _may_be_several(line: Line) -> bool:
    """Whether the words of a line leave open what it measures."""
    if not line.options:
        return True
    return len(line.options) > 1 and line.options[0].weight == line.options[1].weight


def _take_other_rows(cells: SheetText, members: Sequence[Spot]) -> bool:
    """Whether formulas of two rows of one label take different rows: each is of its own two."""
    taken: dict[int, tuple[int, int]] = {}
    for spot in members:
        cell = cells.sheet.cells.get((spot.row, spot.column))
        if cell and cell.formula and spot.row not in taken and (pair := of_two(cell.formula)):
            taken[spot.row] = pair[0][0], pair[2][0]
    return len({*taken.values()}) > 1


def _rows_apart(members: Sequence[Spot]) -> Sequence[list[Spot]]:
    """Spots of one label by row, () where no two rows are of the same parts.

    "Leaves" below the mains and again below the rods are two things.
    """
    rows: dict[int, list[Spot]] = defaultdict(list)
    for spot in members:
        rows[spot.row].append(spot)
    told = [{spot.which_one for spot in row} for row in rows.values()]
    return [*rows.values()] if any(one & other for one, other in pairwise(told)) else ()


_MEAN = re.compile(r"=?(?:ROUND\()?AVERAGE\((?P<range>[^()]*)\)(?:[,;]\d+\))?")
# Means of more, or fewer, are none of readings of one part.
_FEWEST_READINGS_OF_ONE, _MOST_READINGS_OF_ONE = 2, 6


def _read_as_mean(
    cells: SheetText, spot: Spot, by_cell: Mapping[tuple[int, int], Spot]
) -> Spot | None:
    """A spot as what it is the mean of, None where a formula takes no mean of one part's sizes."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    mean = _MEAN.fullmatch(cell.formula) if cell and cell.formula and not spot.inline else None
    reference = read_reference(mean["range"]) if mean else None
    area = reference.area(cells.sheet.title) if reference else None
    if area is None or area.sheet != cells.sheet.title or area.size > _MOST_READINGS_OF_ONE:
        return None
    taken = [by_cell.get((c.top, c.left)) for c in area.cells()]
    sizes = [s for s in taken if s is not None and not s.is_computed]
    if len(sizes) < max(len(taken), _FEWEST_READINGS_OF_ONE):
        return None
    parts = {(s.which_one.number, s.which_one.bank, s.first_meant) for s in sizes}
    number, _, meant = next(iter(parts))
    mine = spot.which_one
    placed = all(s.which_one.at for s in sizes)  # At places of the only one there is.
    mine_too = (mine.number, mine.bank) == (number, sizes[0].which_one.bank)
    same = (number or placed) and meant and mine_too
    may_be = {find(c.measurand) for c in sizes[0].meaning.candidates}
    # "Mean" says nothing by itself; the sheet's name is of all that stands on it.
    other = bool(meaning_of(spot.label).candidates) and spot.first_meant not in {None, *may_be}
    if len(parts) > 1 or not same or other:
        return None
    which = spot.which._replace(stage=sizes[0].which.stage)
    label = _label_of_all([s.label for s in sizes])
    return replace(spot, label=label, headings=sizes[0].headings, which=which)


def _label_of_all(labels: Sequence[str]) -> str:
    """What labels of several places share, if it says what the first does: "Bore" of "Bore top"."""
    words = [label.split() for label in labels]
    shared = " ".join(w[0] for w in takewhile(lambda w: len({*w}) == 1, zip(*words, strict=False)))
    first = meaning_of(labels[0]).candidates[:1]
    told = meaning_of(shared).candidates[:1] if shared else ()
    same = [c.measurand for c in told] == [c.measurand for c in first]
    return shared if told and same else labels[0]


# What a line is called whose head says no more.
_NO_MORE_THAN_THAT = "difference"


def _is_difference_of_two(cells: SheetText, spot: Spot) -> bool:
    """Whether a formula under a bare "Diff." takes one size from another beside it."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    pair = of_two(cell.formula) if cell and cell.formula and not spot.inline else None
    head = cells.text(*spot.origin)
    return pair is not None and pair[1] == "-" and meaning_of(head).statistic == "spread"


def _left_by_two(cells: SheetText, spot: Spot, by_cell: Mapping[tuple[int, int], Spot]) -> str:
    """The clearance that a typed number, called "diff.", is of two sizes before it."""
    row, column = spot.row, spot.column
    above = next((t for r in range(row - 1, 0, -1) if (t := cells.text(r, column))), "")
    texts = (above, *(cells.text(row, c) for c in range(1, column)))
    if not any(meaning_of(text).statistic == "spread" for text in texts if text):
        return ""
    for way in ((1, 0), (0, 1)):
        one, other = (by_cell.get((row - n * way[0], column - n * way[1])) for n in (2, 1))
        if one is None or other is None or one.first_meant is None or other.first_meant is None:
            continue
        numbers = [_typed(cells, s) for s in (one, other, spot)]
        whole = _difference_of(frozenset((one.first_meant.id, other.first_meant.id)))
        if whole and abs(abs(numbers[0] - numbers[1]) - numbers[2]) < _LAST_DIGIT:
            return whole
    return ""


# Sizes are typed to a ten-thousandth, and what they leave is rounded as they are.
_LAST_DIGIT = 1e-6


def _typed(cells: SheetText, spot: Spot) -> float:
    """The number that is typed in a cell, one that makes no difference for any other cell."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    value = cell.value if cell is not None and not cell.formula else None
    return float(value) if isinstance(value, (int, float)) else math.nan


@cache
def _difference_of(names: frozenset[str]) -> str:
    """The name of the clearance that is one of two measurands less the other, "" for none."""
    for one, order in formulas():
        if order.is_difference and one.noun == "clearance" and {*order.names} == names:
            return one.name
    return ""


_OTHER_CELLS = re.compile(r"[*^]|[A-Z]{1,3}\$?\d")
_OF_RANGE = re.compile(r"\b(?:AVERAGE|MAX|MIN|SUM|MEDIAN|STDEV)\w*\(([^()]*)\)")


def _is_of_its_column(cells: SheetText, spot: Spot) -> bool:
    """Whether a formula takes a mean, a sum or a spread of the numbers over it."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    formula = cell.formula if cell and not spot.inline else ""
    # How far a bore is from straight is what its heights over it differ by.
    of_places = spot.first_meant is not None and spot.first_meant.noun in _SHAPES
    taken = bool(formula) and _takes_its_column(formula, spot.row, spot.column)
    return taken and not (of_places and _names_surely(spot))


_SHAPES = ("taper", "out_of_round")


def _names_surely(spot: Spot) -> bool:
    """Whether a label itself says what is measured."""
    candidates = meaning_of(spot.label).candidates
    return bool(candidates) and candidates[0].cost <= 1


@lru_cache(maxsize=4096)
def _takes_its_column(formula: str, row: int, column: int) -> bool:
    if _OTHER_CELLS.search(_OF_RANGE.sub("", formula)):
        return False  # A displacement takes the mean of the bores over it, and a stroke.
    ranges = [read_reference(argument) for argument in _OF_RANGE.findall(formula)]
    areas = [reference.area("") for reference in ranges if reference is not None]
    return bool(areas) and all(
        area is not None and area.left == area.right == column and area.top < area.bottom < row
        for area in areas
    )


def _stands_for_readings(cells: SheetText, spot: Spot, found: Sequence[Spot]) -> bool:
    """Whether a mean or a largest size was typed, and nothing that it is made of."""
    mine, cell = spot.first_meant, cells.sheet.cells.get((spot.row, spot.column))
    alone = spot.meaning.statistic in _STANDS_FOR_READINGS
    if mine is None or not alone or cell is None or cell.formula:
        return False
    stage = spot.which.stage or _stage_of_kept(spot.meaning)
    return not any(
        other.first_meant is mine and other.origin != spot.origin and not other.is_computed
        for other in found
        if (other.which.stage or stage_of(other.meaning)) == stage and other.line[0] != "spoken"
    )


def _line(
    cells: SheetText, key: tuple[object, ...], members: Sequence[Spot], stated: Stated
) -> Line:
    first = members[0]
    by_layout = first.told or Told()
    read = [(s, *told) for s in members if (told := _number_at(cells, s)) is not None]
    unit = first.unit or unit_in(first.label) or next((own for *_, own in read if own), "")
    over = unit or next((u for h in first.headings[:2] if (u := _unit_over(h))), "")
    given, exact = options_of(first.label, first.headings, first.which, cells.vocabulary, over)
    options = list(given)
    if named := find(by_layout.measurand):
        options, exact = [Option(named, 0, weights().words.said + weights().words.own_word)], True
    if first.which.other:
        options = [o._replace(weight=o.weight - weights().words.odd) for o in options]
    before: Stage = "found" if first.is_before_work else ""
    stage = first.which.stage or before or stage_of(first.meaning)
    if stage == "final" and stage_of(first.meaning) == "found":
        stage = "found"  # "Journal before grinding" below a head of actual sizes.
    if stage == "final" and not first.which.stage and _says_no_more_than_measured(first.label):
        stage = _stage_over(first.headings) or stage
    if stage == "computed" and cells.sheet.title:
        stage = _stage_of_kept(first.meaning) or _stage_over(first.headings) or stage
    stage = stage or _stage_over(first.headings)
    if by_layout.stage is not None:
        stage = by_layout.stage
    held = cells.sheet.cells
    if stage in NO_SIZES and read and all(_is_difference(held[s.row, s.column]) for s, *_ in read):
        stage = ""  # The smallest clearance, worked out of two sizes, and none that is allowed.
    stage = _stage_of_each(stage, [n for _, n, *_ in read], members)
    title = cells.sheet.title
    unit = unit or unit_of_property(stated.units, options, [abs(n) for _, n, *_ in read])
    unit = unit or _unit_of_all(options, first.headings)
    unit = unit or (percent_of(options[0].term, [n for _, n, *_ in read]) if options else "")
    numbers = [(s, n) for s, n, *_ in read]
    amounts, options = _amounts(cells, numbers, options, unit, stated.system)
    if amounts:
        read = [(s, amounts.size((s.row, s.column), n), d, own) for s, n, d, own in read]
        unit = amounts.size_unit
    formulas = (held[s.row, s.column].formula for s, *_ in read if not s.inline)
    return Line(
        key=key,
        label=first.label,
        stage=_stage_of_kept(first.meaning) if stage == "computed" else stage,
        values=[(spot.which_one, number) for spot, number, *_ in read],
        unit=unit,
        options=options,
        system=stated.system,
        decimals=max((digits for *_, digits, _ in read), default=0),
        exact=exact,
        by_cell=by_layout.by_cell,
        told=bearing_told(first.label, first.headings, first.which),
        typed=[n for spot, n, *_ in read if not held[spot.row, spot.column].formula],
        # A line that may be nothing is part of no formula.
        cells=frozenset([(title, s.row, s.column) for s, *_ in read] if options else ()),
        referred=_referred(next(filter(None, formulas), ""), title),
        over=amounts,
        side=next((w.side for h in first.headings if (w := which_of(h)) and w.side in _VALVES), ""),
    )


def _amounts(
    cells: SheetText, told: Sequence[tuple[Spot, float]], options: list[Option], unit: str,
    system: System | None,
) -> tuple[Over | None, list[Option]]:  # fmt: skip
    """What the numbers of a line are amounts over, or the last figures of; and what it may be."""
    figures = last_figures(cells, told, options, unit)
    if figures is None:
        return over_nominal(cells, told, options, unit, system), options
    words = weights().words
    return figures[0], [Option(figures[1], 1, words.said - words.a_step)]


_VALVES = ("intake", "exhaust")


# So many numbered parts with as many sizes have no limit of their own each.
_FEWEST_OF_EACH = 3


def _stage_of_each(stage: Stage, numbers: Sequence[float], members: Sequence[Spot]) -> Stage:
    """The stage of a line, no limit and no nominal size where its numbers are those of parts."""
    first = members[0]
    if stage in ("limit_low", "limit_high") and _is_of_each(numbers, members):
        return _stage_over(first.headings)
    if first.meaning.stage == "nominal" and _differ_by_part(numbers, members):
        return first.which.stage or _stage_over(first.headings)
    return stage


def _is_of_each(numbers: Sequence[float], members: Sequence[Spot]) -> bool:
    """Whether numbers below "min" are the smallest of each part: a limit is one for all."""
    counted = {spot.which_one.number for spot in members if spot.which_one.number}
    return len({*numbers}) >= max(_FEWEST_OF_EACH, len(numbers) - 1) <= len(counted)


def _differ_by_part(numbers: Sequence[float], members: Sequence[Spot]) -> bool:
    """Whether numbers are of numbered parts and differ, as the nominal size of all never does.

    "Journals std, measured" are of standard size, and were measured.
    """
    counted = {spot.which_one.number for spot in members if spot.which_one.number}
    return len({*numbers}) > 1 and len(numbers) >= _FEWEST_OF_EACH <= len(counted)


_DIFFERENCE = re.compile(r"=\$?[A-Z]{1,3}(?P<row>\d+)-\$?[A-Z]{1,3}(?P<other>\d+)")


def _is_difference(cell: Cell) -> bool:
    """Whether a formula takes one cell of its row from another."""
    told = _DIFFERENCE.fullmatch(cell.formula or "")
    return told is not None and told["row"] == told["other"]


@lru_cache(maxsize=4096)
def _referred(formula: str, title: str) -> frozenset[InBook]:
    """The single cells that a formula of the builder's own refers to; title: its sheet's."""
    if not formula or mentions_call(formula):
        return frozenset()
    try:
        tokens = tokens_of(formula.removeprefix("="))
    except ValueError:
        return frozenset()
    named = (read_reference(token.value) for token in tokens if token.type == token.OPERAND)
    areas = (reference.area(title) for reference in named if reference is not None)
    return frozenset(
        (area.sheet, area.top, area.left)
        for area in areas
        if area is not None and (area.top, area.left) == (area.bottom, area.right)
    )


def _stage_of_kept(meaning: Meaning) -> Stage:
    """When a mean or a largest size was taken that stands for its readings."""
    return stage_of(meaning._replace(statistic=""))


def _unit_of_all(options: Sequence[Option], headings: Sequence[str]) -> str:
    """The unit of a line that has none of its own: one in both systems, else a heading's."""
    bare = options[0].term.bare_units if options else ("", "%")
    if bare[0] and bare[0] == bare[1] and bare[0] != "%":
        return bare[0]
    # That of a title further up may be of another block: "Balance (grams)" over a cam card.
    for heading in headings[:2]:
        units = [u for u in _several_units(heading) or (_unit_over(heading),) if u]
        # What it most likely is has the word: "(inches, psi)" over a compression.
        fits = (u for o in options for u in units if _measures_in(o.term, u))
        if fitting := next(fits, "" if options else next(iter(units), "")):
            return fitting
    return ""


def _measures_in(term: Measurand, unit: str) -> bool:
    return si_factor(term, unit, None) is not None


# A heading with so many words that nobody knows says when nothing was.
_A_SENTENCE = 3


@lru_cache(maxsize=4096)
def _stage_over(headings: tuple[str, ...]) -> Stage:
    """The stage that a heading gives its block; the last is the name of the sheet."""
    weak: Stage = ""
    for number, heading in enumerate(headings, 1):
        meaning = meaning_of(heading)
        stage = stage_of(meaning)
        of_sheet = number == len(headings)
        if stage == "final" and _is_measured_only(heading) and not of_sheet:
            # "Worst reading" on the sheet of what was found; of a sentence it says nothing.
            weak = weak or (stage if len(meaning.unknown) < _A_SENTENCE else "")
            continue
        wanted = stage == "target" and (meaning.unknown or of_sheet)
        # A sheet "Strip & build" holds what was found and what was built.
        several = of_sheet and meaning.unknown
        # "Hartfield Motor Machine" is the name of a shop.
        named = len(meaning.unknown) > 1 or bool(meaning.unknown and meaning.taken_for)
        if stage in _STAGES_OF_BLOCKS and not (wanted or several or named):
            return stage
    return weak


def _says_no_more_than_measured(label: str) -> bool:
    """Whether a label itself does not say that something is finished, whatever stands over it."""
    return stage_of(meaning_of(label)) != "final" or _is_measured_only(label)


def _is_measured_only(text: str) -> bool:
    """Whether the words of a text say that something was measured, and not that it is finished."""
    words = {word.strip(".,:()") for word in text.casefold().split()}
    return bool(words & words_of("measured"))


# What says that a unit holds for some numbers only.
_EXCEPT = re.compile(rf"\b{either_of('unless')}", re.IGNORECASE)


_IN_BRACKETS_AT_THE_END = re.compile(r"[(\[](?P<units>[^()\[\]]*,[^()\[\]]*)[)\]]$")


@lru_cache(maxsize=4096)
def _several_units(heading: str) -> tuple[str, ...]:
    """The units in the brackets that a heading ends with, () where it has not several."""
    inside = _IN_BRACKETS_AT_THE_END.search(heading)
    units = tuple(map(str.strip, inside["units"].split(","))) if inside else ()
    return units if len(units) > 1 and all(map(is_unit, units)) else ()


@lru_cache(maxsize=4096)
def _unit_over(heading: str) -> str:
    """The unit that a heading ends with: in brackets, or as its last words."""
    if _EXCEPT.search(heading) or _several_units(heading):
        return ""  # "Inches unless it says thou."
    heading = heading.rstrip(" :")
    if heading.endswith((")", "]")):
        return unit_in(heading)
    if _IN_AT_THE_END.search(heading):
        return "in"
    words = heading.split()
    ends = (" ".join(words[-n:]) for n in (2, 1) if len(words) > n)
    return next((end for end in ends if _is_written(end)), "")


def _is_written(text: str) -> bool:
    """Whether the end of a heading is a unit and no word: not "in", "Bars" or "Pistons g"."""
    return is_unit(text) and (text.casefold() in _UNITS_IN_TITLES or not text.isalpha())


def _number_at(cells: SheetText, spot: Spot) -> tuple[float, int, str] | None:
    """A cell's number as it stands, its decimals and the unit behind it; None for no number."""
    at = spot.row, spot.column
    cell = cells.sheet.cells.get(at)
    raw = spot.inline or (cell.value if cell else None)
    if at in cells.sheet.struck or isinstance(raw, bool):
        return None
    if isinstance(raw, (int, float)):
        shown = f"{raw:.6g}" if cell and cell.formula else f"{raw:.12g}"
        return float(raw), len(shown.partition(".")[2]) if "e" not in shown else 6, ""
    return _number_in(raw) if isinstance(raw, str) else None


def _number_in(raw: str) -> tuple[float, int, str] | None:
    text = with_point(without_tick(" ".join(raw.split())))
    try:
        number, unit = split_quantity(text)
    except UnreadableText:
        number, unit = text, None
    if unit is not None and not is_unit(unit):
        number, unit = text, None
    found = _FIRST_NUMBER.match(number)
    if found is None:
        return None
    behind = number[found.end() :].split()
    unit = unit or next((w for n in (2, 1) if is_unit(w := " ".join(behind[:n]))), "")
    if found["under"]:
        return float(found["whole"] or 0) + float(found["over"]) / float(found["under"]), 0, unit
    size = float(re.sub("[−–]", "-", found["number"]))
    return size, len(found["number"].partition(".")[2]), unit
