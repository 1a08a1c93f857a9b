"""Values behind their own labels in a row, where no head stands over them."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from openpyxl.utils import column_index_from_string

from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.continued_labels import goes_on
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.which import EITHER, NOTHING, WORKED, Which, sided
from workbook_tools.labels.which_told import which_of, without_stage
from workbook_tools.labels.written_limits import is_written_limit, without_limit
from workbook_tools.measurands import find
from workbook_tools.measurands.heights import without_grade
from workbook_tools.measurands.lexicon import rules
from workbook_tools.quantities import MASS

_REFERENCE = re.compile(r"\b\$?([A-Z]{1,3})\$?(\d{1,7})\b")
# A step over the standard size is none of its own: "piston +0,50".
_SAYS_A_SIZE = re.compile(r"[^\W\d_]{3,} -?\d*[.,]\d{2,}\b")
# A value of a row: its column, its label with its cell, the labels that take it in, its unit.
_Labeled = tuple[int, str, At, tuple[str, ...], str]


# Valves with their numbers: "I1", "E1".
_SIDES = ("intake", "exhaust", EITHER)
# What stands before a size that work brought to another.
_AS_FOUND, _FINISHED = "as found", "finished"
_IN = re.compile(r"(?P<name>.*[^\W\d_]{3}) in", re.IGNORECASE)


def says_a_size(text: str) -> bool:
    """Whether a text holds a size of its own, so that it names nothing behind it."""
    return _SAYS_A_SIZE.search(without_grade(without_limit(text))) is not None


def labeled_values(
    cells: SheetText, block: Block, row: int, titles: Sequence[str]
) -> Iterator[Spot]:
    """The values of a row behind their own labels; titles: of the block, the nearest first.

    What the end of the row says of all of it holds: "all ft lb".
    """
    unit = _unit_of_all(cells.text(row, block.rows[row][-1]))
    found = [*_labeled(cells, block, row, titles)]
    found = _in_unit_of_last(found)
    told = sided({n: spot.which for n, spot in enumerate(found)})
    for spot in (replace(spot, which=told[n]) for n, spot in enumerate(found)):
        yield replace(spot, unit=spot.unit or unit) if unit else spot


def _in_unit_of_last(found: Sequence[Spot]) -> list[Spot]:
    """Values in the unit behind the last of their label: "before | 0.3 | after | 0.1 | mm"."""
    units = {spot.label: spot.unit for spot in found[-1:]}
    return [
        replace(s, unit=units[s.label]) if not s.unit and units.get(s.label) else s for s in found
    ]


_OF_ALL = re.compile(
    r"(?:all|alle|alles|tous|toutes|todos|todas|tutti|tutte)\s+(?:in\s+)?(?P<unit>[^,;(]+)", re.I
)


def _unit_of_all(text: str) -> str:
    """The unit that a text says of everything before it, "" where it says none."""
    told = _OF_ALL.match(text)
    unit = told["unit"].strip() if told else ""
    return unit if unit and is_unit(unit) else ""


def _labeled(cells: SheetText, block: Block, row: int, titles: Sequence[str]) -> Iterator[Spot]:
    label, origin, unit = "", (row, 0), ""
    last = row, _last_said(cells, block, row)
    others: list[str] = []
    over_row = ""
    found: list[_Labeled] = []
    for column in block.rows[row]:
        kind, text = cells.kinds[row, column], cells.text(row, column)
        made = bool(label and found) and _is_made_of(cells, (row, column), row, found)
        ticked = text in _DONE and bool(found)
        if made or ticked or (label and is_of_notches(text)):
            continue
        if cells.is_value((row, column)) and label:
            found.append((column, label, origin, tuple(others), unit))
        elif _is_unit_of_found(cells, (row, column), bool(found), label):
            found = [(c, la, o, ot, u or text) for c, la, o, ot, u in found]
            if not found:
                # "cu in" alone says what is measured.
                alone = not label and _says_what(text)
                label, origin, unit = (text, (row, column), "") if alone else (label, origin, text)
        elif kind in _TEXTS and text:
            said = which_of(text) if not is_written_limit(text) else None
            if (again := _said_again(cells, (row, column), last, found, said)) is not None:
                yield from _told(row, again.before, (*titles, cells.heading))
                origin = origin if again.when else (row, column)
                label, others, found = again.label, [*again.when, *others], []
                continue
            if staged := _staged(found, said, text, column):
                found = staged
                continue
            other_side = said is not None and said.tells and not said.stage and not _of_ring(text)
            other_side = other_side and not _are_of_both_bearings(label, text)
            apart = bool(found) and not others and _counts_anew(label, said)
            if label and other_side and not apart and not _means_all_else(text, titles):
                # "Tappets | inlet | 12 | exhaust | 15": another side of the same.
                yield from _told(row, found, (*titles, cells.heading))
                others, found = [*(_without_places(others) if found else others), text], []
                continue
            # "second .030" speaks for itself, and names nothing behind it.
            text, about = _behind_a_size(text)
            yield from _told(row, found, (*titles, cells.heading))
            over_row = over_row if found or not (unit_in(label) or _names_a_part(label)) else label
            others = about if apart else [*about, *_beside(label, text, over_row, bool(found))]
            label, origin, unit, found = text, (row, column), "", []
    yield from _told(row, found, (*titles, cells.heading))


_CLAUSE_BEHIND = re.compile(r"(?P<work>.*\d)[,;]\s+(?P<name>[^\W\d_][^\d]{4,})")
# A clause that leaves more to be assumed names nothing.
_MOST_ASSUMED = 2


def _behind_a_size(text: str) -> tuple[str, list[str]]:
    """What a text names, "" where it speaks of a size of its own, and what that clause is about.

    Behind that size it may name the next one: "Head skimmed .006, height now".
    """
    if not says_a_size(text):
        return text, []
    told = _CLAUSE_BEHIND.fullmatch(text)
    meant = meaning_of(told["name"], (told["work"],)).candidates if told else ()
    if told is None or not meant or meant[0].cost > _MOST_ASSUMED:
        return "", []
    return told["name"], [told["work"]]


def _last_said(cells: SheetText, block: Block, row: int) -> int:
    """The last column of a row that holds a number or says which one or when.

    Remarks, and units behind the last number, are of what stands before them.
    """
    columns = block.rows[row]
    told = {c: which_of(text) for c in columns if (text := cells.text(row, c))}
    said = (
        c for c in reversed(columns) if c not in told or not (told[c] is None or _is_unit(told[c]))
    )
    return next(said, columns[-1])


def _is_unit(told: Which | None) -> bool:
    """Whether a text says a unit and no more."""
    return told is not None and bool(told.unit) and told == Which(unit=told.unit)


_TEXTS = ("text", "remark", "unit")
# Behind a number it says that this was done.
_DONE = ("✓", "✔", "☑")
_NOTCHES = re.compile(rf"\d{{1,2}}\s+{either_of('notches')}", re.IGNORECASE)


def is_of_notches(text: str) -> bool:
    """Whether a text says by how many notches or holes a gasket is marked: "2 notches"."""
    return _NOTCHES.fullmatch(text.strip(" .")) is not None


def _counts_anew(label: str, said: Which | None) -> bool:
    """Whether a text says all that a label does, which only says which one: "Cyl 1", "Cyl 2"."""
    first = which_of(label)
    if first is None or said is None or not first.tells or not (said.of or said.side):
        return False  # "2 =" behind "Mains: 1 =" is of the same.
    told = ((first.number, said.number), (first.side, said.side), (first.bank, said.bank))
    return all(own or not before for before, own in (*told, (first.at, said.at)))


def _as_found(found: Sequence[_Labeled], later: Which | None) -> list[_Labeled]:
    """Values with "as found" where the text behind them says to what work brought them."""
    if later is None or later.stage not in WORKED:
        return [*found]
    return [(c, label, at, (*others, _AS_FOUND), u) for c, label, at, others, u in found]


def _beside(label: str, text: str, over_row: str, used: bool) -> list[str]:
    """What else a label is to be understood by: one before it without a value, or the row's first.

    "Nuts, lb.ft | head | 38 | mains | 45": the first says the unit of all.
    """
    if _are_of_both_bearings(label, text):
        return []
    if label and text and (not used or _takes_in(label, text)):
        return [label]
    return [over_row] if over_row and text and _is_in_its_unit(text, over_row) else []


def _is_in_its_unit(label: str, over: str) -> bool:
    """Whether a label names something in the unit, or of the part, that its row begins with.

    "Head gasket | bore | 4.166 | thk | .040".
    """
    unit = unit_in(over)
    if not unit:
        of_part = meaning_of(label, (over,)).candidates if not meaning_of(label).part else ()
        return bool(of_part) and of_part[0].cost == 0
    return not unit_in(label) and bool(meaning_of(f"{label} ({unit})", (over,)).candidates)


def _without_places(texts: Sequence[str]) -> list[str]:
    return [text for text in texts if which_of(text) is None]


def _names_a_part(label: str) -> bool:
    """Whether a label says of what the others in its row are, and not what is measured of it."""
    meaning = meaning_of(label)
    alone = not meaning.candidates or meaning.candidates[0].cost > 1
    return bool(label and meaning.part) and alone and which_of(label) is None


# Behind a size these are its unit, whatever they may be short for alone.
_INCHES = ("in", "inch", "inches")


def _is_unit_of_found(cells: SheetText, at: At, found: bool, label: str) -> bool:
    """Whether a cell is the unit of what stands before it, and no label as CID may be."""
    text = cells.text(*at)
    unit = cells.kinds[at] == "unit" or bool(text and is_unit(text) and (found or label))
    names = _says_what(text) and text.casefold().strip(" .") not in _INCHES
    return unit and not (found and names and cells.is_value((at[0], at[1] + 1)))


def _of_ring(text: str) -> bool:
    """Whether a text names a ring of its own, and no other side of what stands before it."""
    return meaning_of(text).part == "ring"


def _are_of_both_bearings(label: str, text: str) -> bool:
    """Whether a text counts a rod behind a main, or the other way: "#1 main | .0025 | #1 rod"."""
    both = {one.of for one in map(which_of, (label, text)) if one is not None and one.number}
    return both == {"main", "rod"}


def _means_all_else(text: str, titles: Sequence[str]) -> bool:
    """Whether a word that may name a ring is a mass of its own below a title: a bobweight's oil."""
    first = next(iter(meaning_of(text, tuple(titles)).candidates), None)
    term = find(first.measurand) if first is not None and first.cost == 0 else None
    return term is not None and term.kind is MASS and not term.which and term.part != "ring"


def _staged(
    found: Sequence[_Labeled], said: Which | None, text: str, column: int
) -> list[_Labeled]:
    """Values with the stage that stands right behind the last: "Thickness | 3.510 | was"."""
    if said is None or not said.stage or said.tells or not found or found[-1][0] != column - 1:
        return []
    if says_a_size(text):
        return []  # "at most .003" is what the value may be.
    *before, (at, name, cell, over, own) = found
    return [*before, (at, name, cell, (text, *over), own)]


class _Again(NamedTuple):
    """Values before a text that says of what, or when, the next ones of their label were taken."""

    before: list[_Labeled]
    label: str
    when: tuple[str, ...] = ()


def _said_again(
    cells: SheetText, at: At, last: At, found: Sequence[_Labeled], said: Which | None
) -> _Again | None:
    """What a text between two numbers of one label says of both, None where it says nothing.

    "Runout before | 3 | after | 1", "Deck height in | 214.62 | out | 214.5", "Lash int | 14 | exh".
    """
    text = cells.text(*at)
    if found and (label := goes_on(found[-1][1], text)):
        return _Again([*found], label)
    if found and (before := _before(found, text)):
        return _Again(before, before[-1][1], (_FINISHED,))
    into = _IN.fullmatch(found[-1][1]) if found else None
    if into is not None and text.casefold().strip(" .:") == "out":
        before = [(c, into["name"], o, (*ot, _AS_FOUND), u) for c, _, o, ot, u in found]
        return _Again(before, into["name"], (_FINISHED,))
    if found and _is_stage_before(cells, at, last, said):
        _, name, _, others, _ = found[-1]
        when = which_of(name)
        if others and when is not None and when.stage and not when.tells:
            return _Again([*found], others[0], (text,))  # "Warp | found | 0.12 | now | 0.03"
        return _Again(_as_found(found, said), without_stage(name), (text,))
    return None


def _before(found: Sequence[_Labeled], text: str) -> list[_Labeled]:
    """Values as found where the text behind them is what comes after the word that names them.

    "Height, before | 133.02 | after", "Height | before | 133.02 | after": in French and
    elsewhere the first word alone may be a place.
    """
    pairs, after = words_of("before_after"), text.casefold().strip(" .:()")
    _, label, _, others, _ = found[-1]
    if others and f"{label.casefold().strip(' .:()')}/{after}" in pairs:
        return [(c, ot[0], o, (_AS_FOUND, *ot[1:]), u) for c, _, o, ot, u in found]
    if others and f"{others[0].casefold().strip(' .:()')}/{after}" in pairs:
        return [(c, la, o, (_AS_FOUND, *ot[1:]), u) for c, la, o, ot, u in found]
    name = _named_before(label, after, pairs)
    return [(c, name, o, (_AS_FOUND, *ot), u) for c, _, o, ot, u in found] if name else []


def _named_before(label: str, after: str, pairs: Collection[str]) -> str:
    """What a label names before the word that says before, "" where it ends with none."""
    last = re.split(r"[\s,:(]+", label.strip(" .,:)"))[-1]
    name = label[: label.rindex(last)].rstrip(" ,:(-–") if last else ""
    return name if f"{last.casefold()}/{after}" in pairs else ""


def _is_stage_before(cells: SheetText, at: At, last: At, said: Which | None) -> bool:
    """Whether a text says the stage of the number behind it, in a row that ends with a number."""
    staged = said is not None and bool(said.stage) and not said.tells
    return staged and cells.is_number((at[0], at[1] + 1)) and cells.is_number(last)


def _says_what(unit: str) -> bool:
    """Whether a unit alone says what is measured: "cu in", "CID", "hp"."""
    meaning = meaning_of(unit)
    return meaning.unit in rules().tell_alone or bool(meaning.candidates and not meaning.unit)


def _is_made_of(cells: SheetText, at: At, row: int, found: Sequence[_Labeled]) -> bool:
    """Whether a formula works something out of a number that stands before it in its row."""
    formula = cells.sheet.cells[at].formula
    if not formula:
        return False
    taken = {
        column_index_from_string(letters)
        for letters, number in _REFERENCE.findall(formula)
        if int(number) == row
    }
    return bool(taken) and any(column in taken for column, *_ in found)


def _told(row: int, found: Sequence[_Labeled], titles: Sequence[str]) -> Iterator[Spot]:
    for column, label, origin, others, unit in found:
        beside = next((w for o in others if (w := which_of(o)) is not None), NOTHING)
        about = (*(o for o in others if which_of(o) is None), *titles)
        own = which_of(label)
        if own is not None and own.number and own.side in _SIDES:
            beside = beside.beside(own)  # "I1", which names nothing by itself.
        yield Spot(row, column, label, about, beside, unit, (origin,), origin)


def _takes_in(label: str, text: str) -> bool:
    """Whether a text behind a label's value is of the same part: "bore" behind a gasket."""
    both, first = meaning_of(text, (label,)).candidates, meaning_of(label).candidates
    if not both or not first:
        return False
    mine, theirs = find(both[0].measurand), find(first[0].measurand)
    return mine is not None and theirs is not None and mine.part == theirs.part
