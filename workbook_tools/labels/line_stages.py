"""When the sizes of a line were taken, by its label, its heads and its numbers."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from workbook_tools.books.cells import Cell
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot, Told
from workbook_tools.labels.vocabulary import NO_SIZES, Stage, meaning_of, plain, stage_of
from workbook_tools.labels.which import CAME_OR_GOES, WORKED
from workbook_tools.labels.which_told import which_of, without_stage
from workbook_tools.measurands.words import Meaning

_STAGES_OF_BLOCKS = ("found", "machined", "final", "target")
_CLAUSES = re.compile(r",\s+|\s[-–—]\s")
# What work brings sizes to.
# So many numbered parts with as many sizes have no limit of their own each.
_FEWEST_OF_EACH = 3
_DIFFERENCE = re.compile(r"=\$?[A-Z]{1,3}(?P<row>\d+)-\$?[A-Z]{1,3}(?P<other>\d+)")
# A heading with so many words that nobody knows says when nothing was.
_A_SENTENCE = 3


def measured_before(found: Sequence[Spot]) -> Sequence[Spot]:
    """Spots, those as found whose label adds "measured" to that of what came after the work.

    "Tourillon relevé" above "Tourillon", where either may stand below a title that says ground;
    "EV ist" beside "EV eingestellt".
    """
    told: dict[str, set[tuple[str, ...]]] = defaultdict(set)
    written = {}
    for spot in found:
        told[plain(spot.label)].add(spot.headings)
        written[plain(spot.label)] = spot.label  # "EV eingest.", whose point says that it is short.
    for label, headings in list(told.items()):
        if _stage_at_end(written[label]) in WORKED and _without_measured(label) == label:
            # "Tourillon rectifié" is of the same too.
            told[plain(without_stage(written[label]))] |= headings
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
        if plain(spot.label) in before and spot.which.stage in ("", *WORKED)
        else spot
        for spot in found
    ]


@lru_cache(maxsize=4096)
def _stage_at_end(label: str) -> str:
    """The stage that a label ends with, "" where it ends with none."""
    bare = without_stage(label)
    said = which_of(label[len(bare) :]) if bare != label else None
    return said.stage if said is not None else ""


@lru_cache(maxsize=4096)
def _without_measured(label: str) -> str:
    words, before = label.split(), words_of("measured") | words_of("as_it_is")
    return " ".join(word for word in words if word.strip(".,:()") not in before)


def stage_of_line(
    cells: SheetText, members: Sequence[Spot], told: Sequence[tuple[Spot, float]]
) -> Stage:
    """When the sizes of a line were taken, or that they are limits or wishes.

    told: the members that hold a number, with it.
    """
    first = members[0]
    by_layout = first.told or Told()
    before: Stage = "found" if first.is_before_work else ""
    stage = first.which.stage or before or stage_of(first.meaning)
    if stage == "final" and stage_of(first.meaning) == "found":
        stage = "found"  # "Journal before grinding" below a head of actual sizes.
    if stage == "final" and not first.which.stage and _says_no_more_than_measured(first.label):
        stage = _stage_over(first.headings) or stage
    if stage == "computed" and cells.sheet.title:
        stage = stage_of_kept(first.meaning) or _stage_over(first.headings) or stage
    stage = stage or _stage_over(first.headings)
    if by_layout.stage is not None:
        stage = by_layout.stage
    held = cells.sheet.cells
    if stage in NO_SIZES and told and all(_is_difference(held[s.row, s.column]) for s, _ in told):
        stage = ""  # The smallest clearance, worked out of two sizes, and none that is allowed.
    return _stage_of_each(stage, [n for _, n in told], members)


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


def _is_difference(cell: Cell) -> bool:
    """Whether a formula takes one cell of its row from another."""
    told = _DIFFERENCE.fullmatch(cell.formula or "")
    return told is not None and told["row"] == told["other"]


def stage_of_kept(meaning: Meaning) -> Stage:
    """When a mean or a largest size was taken that stands for its readings."""
    return stage_of(meaning._replace(statistic=""))


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
        if named and stage in CAME_OR_GOES and not of_sheet and stage == _stage_of_clause(heading):
            return stage
    return weak


@lru_cache(maxsize=2048)
def _stage_of_clause(heading: str) -> Stage:
    """The stage that a clause of a heading says and nothing else: "Barn find, as it came"."""
    for clause in _CLAUSES.split(heading)[1:]:
        said = which_of(clause)
        if said is not None and said.stage in CAME_OR_GOES and not said.tells:
            return said.stage
    return ""


def _says_no_more_than_measured(label: str) -> bool:
    """Whether a label itself does not say that something is finished, whatever stands over it."""
    return stage_of(meaning_of(label)) != "final" or _is_measured_only(label)


def _is_measured_only(text: str) -> bool:
    """Whether the words of a text say that something was measured, and not that it is finished."""
    words = {word.strip(".,:()") for word in text.casefold().split()}
    return bool(words & words_of("measured"))
