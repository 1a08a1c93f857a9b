"""The lines of a sheet: spots that share a label, with their numbers and what they may mean."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from workbook_tools.labels.answered_spots import answered_spots
from workbook_tools.labels.answers import Answer
from workbook_tools.labels.content import is_unit, with_point
from workbook_tools.labels.conventions import Stated
from workbook_tools.labels.line import Line, Option
from workbook_tools.labels.options import bearing_told, options_of
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot, Told
from workbook_tools.labels.spots import spots
from workbook_tools.labels.sums import summed
from workbook_tools.labels.vocabulary import (
    Stage,
    begins_with_a_letter,
    meaning_of,
    plain,
    stage_of,
    unit_in,
)
from workbook_tools.labels.weights import weights
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.measurands import Measurand, find
from workbook_tools.quantities import UnreadableText, split_quantity

_FIRST_NUMBER = re.compile(
    r"[~<>≈±']?\s*(?:(?:(?P<whole>\d+)[ -])?(?P<over>\d+)/(?P<under>[1-9]\d*)"
    r"|(?P<number>[-+−–]?(?:\d+\.?\d*|\.\d+)))"
)

_LETTER = re.compile(r"\b[A-Z]\b")

_STAGES_OF_BLOCKS = ("found", "machined", "final", "target")


def spots_of_engine(cells: SheetText, answers: Sequence[Answer] = ()) -> list[Spot]:
    """The spots of a sheet that can be of an engine: no prices, no fields of jobs.

    answers: of the layout; what it says is something measured is kept wherever it stands.
    """
    vocabulary = cells.vocabulary
    elsewhere = vocabulary.is_elsewhere(cells.sheet.title)
    if elsewhere and not answers:
        return []
    prices = summed(cells)

    def of_engine(spot: Spot) -> bool:
        if spot.told and spot.told.measurand:
            return True
        if elsewhere or (spot.row, spot.column) in prices or vocabulary.job_field(spot.label):
            return False
        return not any(vocabulary.is_elsewhere(h) for h in (spot.label, *spot.headings[:1]))

    return [s for s in answered_spots(cells, list(spots(cells)), answers) if of_engine(s)]


def lines_of(
    cells: SheetText, found: Sequence[Spot], stated: Stated
) -> Iterator[tuple[list[Spot], Line]]:
    """The spots of a sheet by line, each with what its words may mean."""
    groups: dict[tuple[object, ...], list[Spot]] = defaultdict(list)
    alone = {s for s in found if _is_computed(s) and _is_a_mean_alone(cells, s, found)}
    for spot in found:
        which = spot.which
        told = spot.told is not None and bool(spot.told.measurand)
        if _is_computed(spot) and spot not in alone and not told:
            continue
        key = (*_line_key(spot), which.side, which.stage, which.other)
        groups[(*key, spot.told) if spot.told else key].append(spot)
    for key, members in groups.items():
        yield members, _line(cells, (cells.sheet.title, *key), members, stated)


def _is_computed(spot: Spot) -> bool:
    """Whether a number is a mean or a sum of others."""
    meaning = meaning_of(spot.label, spot.headings)
    first = _first_meant(spot)
    # The total clearance of a bearing is that across its diameter.
    across = meaning.statistic == "sum" and first is not None and first.noun == "clearance"
    return spot.which.stage == "computed" or (bool(meaning.statistic) and not across)


def _first_meant(spot: Spot) -> Measurand | None:
    candidates = meaning_of(spot.label, spot.headings).candidates
    return find(candidates[0].measurand) if candidates else None


def _is_a_mean_alone(cells: SheetText, spot: Spot, found: Sequence[Spot]) -> bool:
    """Whether a mean was typed, and nothing that it is the mean of."""
    mine, cell = _first_meant(spot), cells.sheet.cells.get((spot.row, spot.column))
    of_mean = meaning_of(spot.label, spot.headings).statistic == "mean"
    if mine is None or not of_mean or cell is None or cell.formula or spot.which != NOTHING:
        return False
    return not any(s is not spot and _first_meant(s) is mine for s in found)


def _line(
    cells: SheetText, key: tuple[object, ...], members: Sequence[Spot], stated: Stated
) -> Line:
    first = members[0]
    by_layout = first.told or Told()
    read = [(s, *told) for s in members if (told := _number_at(cells, s)) is not None]
    unit = first.unit or unit_in(first.label) or next((own for *_, own in read if own), "")
    options, exact = options_of(first.label, first.headings, first.which, cells.vocabulary, unit)
    if named := find(by_layout.measurand):
        options, exact = [Option(named, 0, weights().words.said + weights().words.own_word)], True
    if first.which.other:
        options = [replace(o, weight=o.weight - weights().words.odd) for o in options]
    stage = first.which.stage or stage_of(meaning_of(first.label, first.headings))
    stage = stage or _stage_over(first.headings)
    if by_layout.stage is not None:
        stage = by_layout.stage
    formulas = {s for s, *_ in read if cells.sheet.cells[s.row, s.column].formula}
    return Line(
        key=key,
        label=first.label,
        stage="" if stage == "computed" else stage,
        values=[(which_of_spot(spot), number) for spot, number, *_ in read],
        unit=unit or _unit_of_all(options, first.headings),
        options=options,
        system=stated.system,
        decimals=max((digits for *_, digits, _ in read), default=0),
        exact=exact,
        by_cell=by_layout.by_cell,
        told=bearing_told(first.label, first.headings, first.which),
        typed=[number for spot, number, *_ in read if spot not in formulas],
    )


def _unit_of_all(options: Sequence[Option], headings: Sequence[str]) -> str:
    """The unit of a line that has none of its own: one in both systems, else a heading's."""
    bare = options[0].term.bare_units if options else ("", "%")
    if bare[0] and bare[0] == bare[1] and bare[0] != "%":
        return bare[0]
    return next((u for h in headings[:2] if (u := _bracketed(h))), "")


def _line_key(spot: Spot) -> tuple[object, ...]:
    """What spots of one line share: labels that differ only in a number are of one line."""
    if len(spot.line) == 1 or spot.line[0] == "inline":
        meaning = meaning_of(spot.label, spot.headings)
        if meaning.number:
            return "numbered", re.sub(r"\d+", "", plain(spot.label)), spot.headings[:1]
    return spot.line


def which_of_spot(spot: Spot) -> Which:
    """Which one a spot is of, by the layout, by its heads, else by its own label."""
    if spot.told and spot.told.which:
        return spot.which
    meaning = meaning_of(spot.label, spot.headings)
    bank = "" if begins_with_a_letter(spot.label) else meaning.bank
    # A lone letter in a label names a valve or a bank, and no place: "Intake B".
    at = meaning_of(_LETTER.sub(" ", spot.label), spot.headings).at if meaning.at else ()
    return spot.which.beside(Which(meaning.number, 0, bank, at))


def _stage_over(headings: Sequence[str]) -> Stage:
    """The stage that a heading gives its block; the last is the name of the sheet."""
    for number, heading in enumerate(headings, 1):
        meaning = meaning_of(heading)
        stage = stage_of(meaning)
        wanted = stage == "target" and (meaning.unknown or number == len(headings))
        if stage in _STAGES_OF_BLOCKS and not wanted:
            return stage
    return ""


def _bracketed(heading: str) -> str:
    """The unit of length that a heading ends with in brackets."""
    return unit_in(heading) if heading.endswith((")", "]")) else ""


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
    text = with_point(" ".join(raw.split()))
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
    unit = unit or next((w for w in behind[:1] if is_unit(w)), "")
    if found["under"]:
        return float(found["whole"] or 0) + float(found["over"]) / float(found["under"]), 0, unit
    size = float(re.sub("[−–]", "-", found["number"]))
    return size, len(found["number"].partition(".")[2]), unit
