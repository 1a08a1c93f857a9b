"""Which cylinder or main each candidate is of, by the heads of all that one label names."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence, Set
from functools import lru_cache

from workbook_tools.books.places import order_of
from workbook_tools.labels.candidate import Candidate, part_of
from workbook_tools.labels.label import Label
from workbook_tools.labels.layout import Form
from workbook_tools.labels.vocabulary import NO_SIZES
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.position import parse

_ENDS = ("front", "rear")
_FROM_THE_FIRST = "counted from the first"
# The mains of a crank that stands, as in an outboard.
_ENDS_OF_UPRIGHT = ("top", "bottom")
# What says which main it is, and not where on it.
_NO_PLACES = {*_ENDS, *_ENDS_OF_UPRIGHT, "middle"}
# The two cylinders of a twin, and how much of what each has one of tells that it is one.
_SIDES = {"L": "L1", "R": "R2"}
_FEWEST_OF_A_TWIN = 3
_OF_A_BORE = {"bore", "piston_diameter"}
# Fewer numbers side by side without heads may be anything.
_LEAST_IN_LINE = 3


def numbered(readings: list[Candidate], form: Form) -> list[Candidate]:
    """Readings with their cylinders named: a bank only where numbers repeat on both sides."""
    groups: dict[tuple[str, str], list[int]] = defaultdict(list)
    for index, reading in enumerate(readings):
        groups[reading.name, reading.stage].append(index)
    readings = [_on_a_side_of_it(reading) for reading in readings]
    result = list(readings)
    twin = _is_a_twin(readings)
    for alone in _once_for_all(readings, groups):
        readings[alone] = readings[alone]._replace(position="|")
    by_ends: dict[str, bool] = {}
    counted_from: dict[_Column, set[int]] = defaultdict(set)
    # What sizes are held against is counted as these are.
    for (name, stage), members in sorted(groups.items(), key=lambda g: g[0][1] in NO_SIZES):
        ends = list(_from_the_front([readings[i] for i in members]))
        if stage not in NO_SIZES:
            by_ends[name] = by_ends.get(name, False) or bool(ends)
        for which, counted in ends if by_ends.get(name, True) else ():
            told = readings[members[which]]
            at = " ".join(p for p in told.at.split() if p not in _NO_PLACES)
            note = "; ".join(n for n in (told.note, _FROM_THE_FIRST) if n)
            of: Of = "main" if told.of == "main" else "cylinder"
            told = told._replace(position=f"|{counted}", at=at, note=note, of=of)
            readings[members[which]] = told
            if of == "cylinder":
                counted_from[_column_of(told)].add(counted)
        heads = [tuple(readings[i].position.split("|")) for i in members]
        numbers = {(bank, number) for bank, number in heads if number}
        repeats = len({n for _, n in numbers}) < len(numbers)
        places = _places_in_line(readings, members)
        for index, (bank, number) in zip(members, heads, strict=True):
            reading = readings[index]
            position, note = position_in_form(bank, number, repeats, form), ""
            place, count = places.get(index, (0, 0))
            in_line = place and not position and not reading.at and reading.stage not in NO_SIZES
            if in_line and count < (len(_SIDES) if twin else _LEAST_IN_LINE):
                reading = reading._replace(which_open=True)
            elif in_line:
                position, note = str(place), "numbered as they stand: no head names the cylinders"
                reading = reading._replace(in_line=True)
            result[index] = named_by_position(reading, position, note)
    return _below_ends_of_a_twin(result, counted_from)


# A column of a sheet.
_Column = tuple[str, int]


def _column_of(reading: Candidate) -> _Column:
    return reading.place.sheet, order_of(reading.place)[2]


def _below_ends_of_a_twin(
    readings: Sequence[Candidate], counted: Mapping[_Column, Set[int]]
) -> list[Candidate]:
    """Readings, those of rods and crowns counted as the cylinders in their columns.

    counted: the cylinders of each column that were counted from the first.
    A twin's cylinders are front and rear, and below these heads all else is theirs too.
    """
    told = {column: next(iter(found)) for column, found in counted.items() if len(found) == 1}
    if sorted(told.values()) != [1, 2]:
        return list(readings)
    return [
        named_by_position(
            r._replace(at=" ".join(p for p in r.at.split() if p not in _ENDS), of=_of_each(r.of)),
            str(number), _FROM_THE_FIRST,
        )
        if not r.position and r.of in ("rod", "engine") and {*_ENDS} & {*r.at.split()}
        and (number := told.get(_column_of(r)))
        else r
        for r in readings
    ]  # fmt: skip


def _of_each(of: Of) -> Of:
    return "cylinder" if of == "engine" else of


def of_titled_sheets(readings: Sequence[Candidate]) -> list[Candidate]:
    """Readings, those that no head numbers by the title of their sheet: "Cyl 1", "Cyl 2".

    Only where several sheets are of one cylinder each.
    """
    titles = {r.place.sheet for r in readings}
    told = {title: said for title in titles if (said := which_of(title)) is not None}
    numbers = {t: w.number for t, w in told.items() if w.of == "cylinder" and w.number}
    if len({*numbers.values()}) < _FEWEST_SHEETS:
        return list(readings)
    return [
        r._replace(position=f"|{numbers[r.place.sheet]}")
        if r.position == "|" and r.place.sheet in numbers and r.of in _OF_ONE_CYLINDER
        else r
        for r in readings
    ]


_FEWEST_SHEETS = 2
# A cylinder has a rod.
_OF_ONE_CYLINDER = ("cylinder", "rod")


def _once_for_all(
    readings: Sequence[Candidate], groups: Mapping[tuple[str, str], Sequence[int]]
) -> Iterator[int]:
    """What is wanted that stands once, in the row of the first of many: "spec | .0040-.0050"."""
    for (name, stage), members in groups.items():
        if stage not in NO_SIZES or len(members) != 1:
            continue
        alone = readings[members[0]]
        sized = {
            r.position
            for r in readings
            if r.name == name and r.stage not in NO_SIZES and r.place.sheet == alone.place.sheet
        }
        first = alone.position.rpartition("|")[2] == "1" and alone.position in sized
        if first and len(sized) >= _LEAST_IN_LINE:
            yield members[0]


def _is_a_twin(readings: Sequence[Candidate]) -> bool:
    """Whether the cylinders that heads name are a first and a second and no more."""
    bores = {r.position for r in readings if r.name in _OF_A_BORE}
    numbers = {position.split("|")[-1] for position in bores}
    return numbers - {""} == {"1", "2"} or {*_SIDES} == {p.rstrip("|") for p in bores}


def of_a_twin(readings: Sequence[Candidate]) -> list[Candidate]:
    """Readings of an engine whose cylinders are left and right and no more, counted from the left.

    It has one bore on each side, as it has one of all else that a cylinder has one of, and no
    number of a cylinder stands in the book.
    """
    of_cylinders = [r for r in readings if r.of == "cylinder"]
    by_heads = (r for r in of_cylinders if not r.in_line)
    numbered_ones = [r for r in by_heads if any(map(str.isdigit, r.position))]
    sides: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for r in of_cylinders:
        if r.position in _SIDES and r.stage not in NO_SIZES:
            sides[r.name, r.stage, r.at].append(r.position)
    both = {name for (name, *_), found in sides.items() if sorted(found) == ["L", "R"]}
    single = all(len(found) == len({*found}) for found in sides.values())
    told = (len(both) >= _FEWEST_OF_A_TWIN and both & _OF_A_BORE) or both >= _OF_A_BORE
    if numbered_ones or not single or not told:
        return list(readings)
    return [
        named_by_position(r, _SIDES[r.position], "the left of two counted as the first")
        if r.position in _SIDES and r.of in ("cylinder", "rod")
        else r
        for r in readings
    ]


def _from_the_front(members: list[Candidate]) -> Iterator[tuple[int, int]]:
    """The numbers of cylinders or mains that are named by their ends: (index, number).

    Cylinders that are only front and rear are a twin's; mains between have their numbers, are
    counted on their own, "Ctr 1", or are the only one. The mains of a crank that stands are upper
    and lower.
    """
    of = members[0].of
    counted = [one.position.rpartition("|")[2] for one in members]
    between = {i: int(number) for i, number in enumerate(counted) if number.isdecimal()}
    centers = of == "main" and all("middle" in members[i].at.split() for i in between)
    both = _ENDS
    if centers and not any({*_ENDS} & {*one.at.split()} for one in members):
        both = _ENDS_OF_UPRIGHT
    ends = {
        i: end
        for i, one in enumerate(members)
        if one.position == "|" and (end := next((e for e in both if e in one.at.split()), ""))
    }
    if {*ends.values()} != {*both} or of not in ("cylinder", "main"):
        return
    numbers = sorted({*between.values()})
    middle = [i for i, one in enumerate(members) if i not in between and _is_of_the_center(one)]
    several = [*ends.values()]
    alike = [several.count(end) for end in both] == [len(middle)] * len(both)
    if of == "main" and not numbers and middle and alike:
        # "Front", "center" and "rear" of a crank with three mains.
        yield from ((index, 1 if end == both[0] else 3) for index, end in ends.items())
        yield from ((index, 2) for index in middle if members[index].position == "|")
        return
    first = 1 if centers and numbers[:1] == [1] else 2
    if numbers != [*range(first, first + len(numbers))] or (of == "main" and not numbers):
        return
    for index, end in ends.items():
        yield index, 1 if end == both[0] else len(numbers) + 2
    if first == 1:
        yield from ((index, number + 1) for index, number in between.items())


def _on_a_side_of_it(reading: Candidate) -> Candidate:
    """A reading of a main with its side as a place on it: a main is on no bank."""
    bank, _, number = reading.position.partition("|")
    side = _SIDES_OF_A_MAIN.get(bank) if reading.of == "main" and number else None
    if side is None:
        return reading
    return reading._replace(position=f"|{number}", at=" ".join(filter(None, (reading.at, side))))


_SIDES_OF_A_MAIN = {"L": "left", "R": "right"}


def _is_of_the_center(reading: Candidate) -> bool:
    """Whether a reading is of the middle one, as its place or a word of its label says."""
    words = reading.label.text.split()
    said = (parse(word) for word in words if not reading.at)
    return "middle" in reading.at.split() or any(w and tuple(w.at) == ("middle",) for w in said)


def position_in_form(bank: str, number: str, repeats: bool, form: Form) -> str:
    """Which one a bank and a number mean in the form's numbering of banks.

    repeats: whether the same numbers stand in both banks.
    """
    if bank.isdigit():
        bank = f"Bank {bank}" if not number else "ABCDEFGHI"[max(0, int(bank[0]) - 1)]
    order = {"L": form.left, "R": form.right}.get(bank, ())
    if number and order and (repeats or int(number) <= len(order)) and bank:
        if int(number) in order and not repeats:
            return number
        return str(order[int(number) - 1]) if int(number) <= len(order) else f"{bank}{number}"
    if bank and number:
        return f"{bank}{number}" if repeats or not number.isdigit() else number
    return number or bank


def _places_in_line(
    readings: Sequence[Candidate], members: Sequence[int]
) -> dict[int, tuple[int, int]]:
    """Of readings that stand in line under a label of their own: (place, how many)."""
    by_label: dict[str, list[int]] = defaultdict(list)
    # A range is no reading of the first: the limits stand before them.
    sized = (i for i in members if readings[i].content.kind != "range")
    for index in (i for i in sized if not readings[i].inline):
        by_label[readings[index].label.text].append(index)
    lines = [line for line in by_label.values() if _stand_in_line([readings[i] for i in line])]
    # Of several lines of one thing none says which is whose; and where some are counted by their
    # rows, as cylinders over "card", the others are of none.
    if len(lines) != 1 or any(readings[i].position.strip("|") for i in lines[0]):
        return {}
    return {index: (place, len(lines[0])) for place, index in enumerate(lines[0], 1)}


def _stand_in_line(several: list[Candidate]) -> bool:
    """Whether readings stand in one row or column under one label, one for each cylinder."""
    if len(several) < 2 or len({c.label.text for c in several}) > 1 or several[0].of == "engine":
        return False
    cells = [order_of(c.place) for c in several]
    return len({c[1] for c in cells}) == 1 or len({c[2] for c in cells}) == 1


def named_by_position(reading: Candidate, position: str, note: str = "") -> Candidate:
    """A candidate with its position, and its label in the same words."""
    shown = _shown(reading.of, position, reading.at)
    label = Label(reading.label.text, shown, reading.label.unit)
    if note:
        note = f"{reading.note}; {note}" if reading.note else note
    return reading._replace(position=position, label=label, note=note or reading.note)


@lru_cache(maxsize=1024)
def _shown(of: Of, position: str, at: str) -> str:
    """Which one and where on it, as a label of the book says it."""
    of = "cylinder" if of == "engine" else of
    shown = part_of(of, position).short if position.isdigit() else position
    return " ".join(p for p in (shown, at) if p)
