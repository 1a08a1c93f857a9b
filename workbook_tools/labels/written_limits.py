"""Limits that are written beside a row's numbers or within a label, as a range or as one end.

"allowed 0.024 – 0.048" or "max .05" behind a row, "Clearance (.0010-.0025)" over a column.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import UNSIGNED, is_unit, plain_number, with_point
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import NO_SIZES, meaning_of, stage_of, unit_in
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find

_UNIT = r"(?:\s?[^\W\d_/]+(?:[.\-·/][^\W\d_]+)?|\s?[\"°%])?"
_RANGE = re.compile(
    rf"(?P<before>.*?)(?P<open>[(\[])?\s*(?P<low>(?<![\d.,]){UNSIGNED})(?P<unit>{_UNIT})\s*"
    rf"(?:-|–|—|÷|…|\.\.\.?|{either_of('up_to')})\s*(?P<high>{UNSIGNED})(?P<last>{_UNIT})\s*"
    r"(?P<close>[)\]])?(?P<behind>[^\d]*)"
)
_END = re.compile(
    rf"(?P<before>.*?)(?P<open>[(\[])?\s*(?P<limit>(?P<first>\b[^\W\d_]+\b\.?|[<>≤≥])\s*[:=]?\s*"
    rf"{UNSIGNED}(?P<unit>{_UNIT})|(?<![\d.,]){UNSIGNED}(?P<of_last>{_UNIT})\s+(?P<last>[^\W\d_]+)\.?)"
    r"\s*(?P<close>[)\]])?"
)
# What a size may be, and what more of it.
_RANGE_AND_MORE = re.compile(
    rf"(?P<name>\D*[^\W\d_]{{3}}\D*?)\s[(\[]?(?P<range>{UNSIGNED}{_UNIT}\s*(?:-|–|—|{either_of('up_to')})"
    rf"\s*{UNSIGNED}{_UNIT})[)\]]?[,;]\s(?P<more>.*\d.*)"
)
_AT_MOST = re.compile(rf"\b{either_of('at_most')}\s*(?=[\d.,])", re.IGNORECASE)
_AT_LEAST = re.compile(rf"\b{either_of('at_least')}\s*(?=[\d.,])", re.IGNORECASE)
_SIGNS = ("<", ">", "≤", "≥")
_DIGIT = re.compile(r"\d")
# The kinds of cells that hold texts.
_OF_TEXTS = ("text", "remark", "measured")
# What is longer explains something.
_LONGEST = 80
_POINT = re.compile(r"[.,]\d")
# More steps to a meaning name no property.
_NAMES_A_PROPERTY = 6
# What is wanted without a word for it: how far parts are apart.
_PLAYS = {"clearance", "side_clearance", "gap", "lash", "end_play"}


class Written(NamedTuple):
    """The words beside a limit, "(" where it stands alone in brackets, and the limit itself."""

    words: str
    limit: str


_NOTHING = Written("", "")


@lru_cache(maxsize=4096)
def range_in(text: str) -> Written:
    """The one range that a text holds, with what it says besides; empty for any other text.

    The range has digits behind a point: "3-4" says which ones, "10-32" a thread.
    """
    found = _RANGE.fullmatch(text.strip()) if len(text) <= _LONGEST else None
    if found is None or not _POINT.search(found["low"] + found["high"]):
        return _NOTHING
    unit, last = found["unit"].strip(), found["last"].strip()
    if _POINT.search(found["before"]) or any(one and not is_unit(one) for one in (unit, last)):
        return _NOTHING
    if bool(found["open"]) != bool(found["close"]) or not _rises(found["low"], found["high"]):
        return _NOTHING
    words = f"{found['before']} {found['behind']}".strip(" :=,;")
    size = f"{found['low']} {unit or last}".strip()
    told = f"{size} to {found['high']} {last or unit}".strip()
    return Written(words or found["open"] or "", told)


def _rises(low: str, high: str) -> bool:
    """Whether two numbers are the least and the most: "9.7 to 1" is a ratio."""
    return plain_number(with_point(low)) < plain_number(with_point(high))


@lru_cache(maxsize=4096)
def end_in(text: str) -> Written:
    """The least or the most that a text holds, with what it says besides: "max .05"."""
    text = _AT_LEAST.sub("min ", _AT_MOST.sub("max ", text))
    found = _END.fullmatch(text.strip()) if len(text) <= _LONGEST else None
    if found is None or bool(found["open"]) != bool(found["close"]):
        return _NOTHING
    if _POINT.search(found["before"]):
        return _NOTHING
    side = found["first"] or found["last"]
    if (found["last"] or "").casefold() in words_of("judgments"):
        return _NOTHING  # "120 low" is a reading that somebody judged.
    unit = (found["unit"] or found["of_last"] or "").strip()
    stage = "limit_high" if side in _SIGNS else stage_of(meaning_of(side))
    if stage not in ("limit_low", "limit_high", "target") or (unit and not is_unit(unit)):
        return _NOTHING
    # "limit .002" does not say of which end: what is wanted is the size alone.
    told = found["limit"].strip()
    told = told.removeprefix(side).removesuffix(side).strip(" :=") if stage == "target" else told
    return Written(found["before"].strip(" :=,;") or found["open"] or "", told)


def limit_in(text: str) -> Written:
    """The range or the end of one that a text holds, empty for any other text."""
    return range_in(text) if range_in(text).limit else end_in(text)


def _says_limits(words: str) -> bool:
    """Whether words beside a range say that it is wanted or allowed; so do brackets alone."""
    said = which_of(words) if words not in ("(", "[") else None
    return words in ("(", "[") or (said is not None and said.stage == "target")


def is_written_limit(text: str) -> bool:
    """Whether a text says no more than what the numbers beside it may be."""
    told = limit_in(text)
    alone = not told.words and bool(end_in(text).limit)
    return bool(told.limit) and (alone or _says_limits(told.words))


def without_limit(label: str) -> str:
    """A label without the limit that it ends with: "Bore taper (max .0005)", "Taper max .0005"."""
    for opening, closing in ("()", "[]"):
        bare, bracket, behind = label.rpartition(opening)
        told = limit_in(bracket + behind) if bare and behind.endswith(closing) else _NOTHING
        if told.limit and told.words == opening:
            return bare.strip()
    words, limit = limit_in(label)
    if not limit:
        return _before_several_limits(label)
    if not meaning_of(words).candidates:
        return label
    return _with_unit_of(limit, words)


def _before_several_limits(label: str) -> str:
    """A label without a range and what else is allowed: "Rise .003-.006, .001 max spread"."""
    told = _RANGE_AND_MORE.fullmatch(label)
    name = told["name"].rstrip(" :,;(–-") if told else ""
    limit = range_in(told["range"]).limit if told else ""
    if told is None or not limit or not meaning_of(name).candidates:
        return label
    more = stage_of(meaning_of(told["more"])) in NO_SIZES
    return _with_unit_of(limit, name) if more else label


def _with_unit_of(limit: str, name: str) -> str:
    """What a label names before a limit, in the unit of this."""
    unit = limit.rpartition(" ")[2]
    return f"{name} ({unit})" if is_unit(unit) and not unit_in(name) else name


def with_written_limits(cells: SheetText, spots: Sequence[Spot]) -> list[Spot]:
    """Spots with one for each range that is a limit of theirs, as of a target."""
    texts = {at: t for at, kind in cells.kinds.items() if kind in _OF_TEXTS
             if _DIGIT.search(t := cells.text(*at)) and limit_in(t).limit}  # fmt: skip
    if not texts:
        return list(spots)
    spots = [_without_limit(spot) for spot in spots]
    by_row: dict[int, list[Spot]] = defaultdict(list)
    by_origin: dict[At, list[Spot]] = defaultdict(list)
    for spot in spots:
        by_row[spot.row].append(spot)
        if spot.origin != (spot.row, spot.column):
            by_origin[spot.origin].append(spot)
    below: dict[At, Spot] = {}
    for at, text in texts.items():
        if of := _of_the_table_above(cells, at, text, by_row):
            below[at] = of
    spots = [spot for spot in spots if (spot.row, spot.column) not in below]
    found = {(spot.row, spot.column, spot.inline) for spot in spots}
    more: list[Spot] = []
    for (row, column), text in texts.items():
        told = limit_in(text).limit
        of = below.get((row, column)) or _limited(cells, row, column, text, by_row, by_origin)
        if of is not None and (row, column, "") not in found:
            limit = Which(stage="target", side=of.which.side, of=of.which.of)
            more.append(replace(of, row=row, column=column, which=limit, inline=told))
    return [*(_as_limit(cells, spot, by_row[spot.row]) for spot in spots), *more]


def _as_limit(cells: SheetText, spot: Spot, row: Sequence[Spot]) -> Spot:
    """A spot that holds a range behind a number with the same label, as of a target.

    So does one behind a title: "MAINS | clearance .0020 to .0030".
    """
    words, told = limit_in(spot.inline or cells.text(spot.row, spot.column))
    if not told or words or spot.which.stage:
        return spot
    wanted = Which(stage="target", of=spot.which.of)
    if title := _title_before(cells, spot):
        line = ("limit", spot.row, spot.column)
        return replace(spot, headings=(title, *spot.headings[-1:]), which=wanted, line=line)
    before = (s for s in _before(row, spot.column) if cells.is_number((s.row, s.column)))
    beside = next(before, None)
    if beside is None or (beside.label, beside.line) != (spot.label, spot.line):
        return spot
    return replace(spot, which=wanted, inline=told)


def _title_before(cells: SheetText, spot: Spot) -> str:
    """The title that stands before a sentence with a range, in a row without numbers."""
    if not spot.inline or spot.origin != (spot.row, spot.column):
        return ""
    held = [column for (row, column) in cells.kinds if row == spot.row]
    title = cells.text(spot.row, min(held)) if min(held) < spot.column else ""
    alone = not any(cells.is_number((spot.row, column)) for column in held)
    return title if title and alone and not limit_in(title).limit else ""


def _without_limit(spot: Spot) -> Spot:
    label = without_limit(spot.label)
    return spot if label == spot.label else replace(spot, label=label)


def _directly_above(
    cells: SheetText, row: int, column: int, by_row: Mapping[int, Sequence[Spot]]
) -> Spot | None:
    """The number that a limit stands right below, at the end of a column of such."""
    column_ends = all(cells.is_number((row - n, column)) for n in range(1, _FEWEST_ROWS + 1))
    if not column_ends or cells.is_number((row, column - 1)):
        return None
    above = (s for s in by_row.get(row - 1, ()) if s.column == column)
    return next((s for s in above if s.which.stage in ("", "final")), None)


def _limited(
    cells: SheetText,
    row: int,
    column: int,
    text: str,
    by_row: dict[int, list[Spot]],
    by_origin: dict[At, list[Spot]],
) -> Spot | None:
    """A number that a range is a limit of, None where it is of none."""
    if is_written_limit(text):
        if above := _directly_above(cells, row, column, by_row):
            return above
        beside = list(_before(by_row.get(row, ()), column))
        over = [s for c in (column, column - 1) for s in by_origin.get((row, c), ())]
        return next(iter((*beside, *over)), None)
    own = meaning_of(limit_in(text).words).candidates
    return next(iter(by_origin.get((row, column), ())), None) if own else None


# So few rows may stand between a table and a limit below it.
_MOST_ROWS_BELOW = 2
# So many rows of one column make a table.
_FEWEST_ROWS = 3


def _of_the_table_above(
    cells: SheetText, at: At, text: str, by_row: Mapping[int, Sequence[Spot]]
) -> Spot | None:
    """A number of the table that a row with nothing but limits stands below, as their words say.

    "ovality max 0.008" is of the column of ovality; "want 1.8 to 3.0" of the one that has such
    numbers.
    """
    row, _ = at
    if any(cells.is_number((row, c)) for r, c in cells.kinds if r == row):
        return None
    last = next((r for r in range(row - 1, row - 1 - _MOST_ROWS_BELOW, -1) if by_row.get(r)), 0)
    above = [s for s in by_row.get(last, ()) if s.which.stage not in NO_SIZES]
    rows = [*range(last, last - _FEWEST_ROWS, -1)]
    above = [s for s in above if all(cells.is_number((r, s.column)) for r in rows)]
    words, told = limit_in(text)
    nouns = _nouns(words.rpartition(", ")[2])
    if nouns:
        meant = [s for s in above if nouns & _nouns(s.label)]
    elif _says_limits(words):
        plays = [s for s in above if _nouns(s.label) & _PLAYS]
        meant = [s for s in plays if _lie_within(cells, s, rows, told)]
    else:
        return None
    return meant[0] if len(meant) == 1 else None


def _nouns(text: str) -> set[str]:
    """The properties that a text names with few steps to be assumed."""
    meaning = meaning_of(text)
    named = [find(c.measurand) for c in meaning.candidates if c.cost <= _NAMES_A_PROPERTY]
    return {term.noun for term in named if term is not None}


def _lie_within(cells: SheetText, spot: Spot, rows: Sequence[int], told: str) -> bool:
    """Whether most numbers of a column lie within a range."""
    ends = [plain_number(with_point(found)) for found in re.findall(UNSIGNED, told)]
    numbers = [cells.sheet.cells[row, spot.column].value for row in rows]
    held = [n for n in numbers if isinstance(n, (int, float)) and ends[0] <= n <= ends[-1]]
    return len(ends) == 2 and len(held) * 2 > len(rows)


def _before(spots: Sequence[Spot], column: int) -> Iterator[Spot]:
    """The spots of a row before a column, the nearest first."""
    before = [s for s in spots if s.column < column and s.which.stage in ("", "final")]
    return iter(sorted(before, key=lambda s: -s.column))
