"""Items grouped into the rows of a summary: one item of the build, all its positions."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import NamedTuple

from workbook_tools.books.places import cells_of
from workbook_tools.formulas.references import Place
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Stage
from workbook_tools.summary.bands import Band, band_text
from workbook_tools.summary.cells import joined
from workbook_tools.summary.figures import Measure, apart, digits, figure
from workbook_tools.summary.item import RESULT, Item
from workbook_tools.summary.scale_strips import ScaleStrip, scale_strip


class Flag(NamedTuple):
    """A finding at a cell: its number on the page, its kind, whether it doubts the number there."""

    number: str
    kind: str
    doubts: bool = False


class Number(NamedTuple):
    """One number of a row, at one position, as shown.

    text: without its unit; typed_as: the text in the cell where that brought its own unit;
    verdict: "ok", "low", "high" or ""; band: its own limits where
    they differ from position to position; flags: findings at its cell that
    neither verdict nor state tells; told: the numbers of all findings at its cell; unsure: whether
    a limit lies within its uncertainty.
    """

    position: str
    value: float | None
    text: str
    typed_as: str
    state: str
    verdict: str
    band: str
    note: str
    flags: tuple[str, ...]
    place: Place
    told: tuple[str, ...] = ()
    unsure: bool = False


@dataclass(frozen=True)
class Extent:
    """The least and the largest of a row's numbers with their positions, and the mean.

    mean is "" where a reading is missing: a mean of fewer hides what was not measured.
    """

    least: str
    least_at: str
    largest: str
    largest_at: str
    mean: str
    equal: bool


@dataclass(frozen=True)
class Row:
    """An item of the build: one number, or one for each position.

    result: what the Result column says; band, verdict, states: the same for all positions
    together; worst: the verdict that sets the mark; sign: what a negative number means;
    measurand, stage: what it measures and when; low, high: the band's limits, of bands that
    differ the outermost; origin: who says the band; bands: that of each number; places: digits
    after the point; told: the numbers of the findings at any of its cells; measured: whether any
    of it is a number, so that its unit belongs beside it; alike: the positions of numbers that all
    say the same, "" where they differ in anything; uncertainty: of its results, in words, "" where
    it is not known.
    """

    label: str
    function: str
    unit: str
    numbers: tuple[Number, ...]
    result: str
    band: str
    verdict: str
    worst: str
    states: str
    cells: str
    sign: str
    extent: Extent | None
    measurand: str
    stage: Stage
    low: float | None
    high: float | None
    origin: str
    bands: tuple[Band | None, ...]
    places: int
    told: tuple[str, ...]
    measured: bool
    alike: str
    uncertainty: str = ""

    @property
    def stripped(self) -> bool:
        """Whether the row is drawn as a strip of positions.

        Numbers that nothing tells apart, and no band judges, need no drawing; nor do
        positions of which none has a number.
        """
        return len(self.numbers) > 1 and self.measured and not self.alike

    @cached_property
    def strip(self) -> ScaleStrip | None:
        """All positions on one line, None without a number."""
        return scale_strip(
            [number.position for number in self.numbers],
            [number.value for number in self.numbers],
            self.bands,
            least_span=10.0 ** (1 - self.places),
        )

    @property
    def notes(self) -> tuple[tuple[str, str], ...]:
        """(positions, note): each note once, with all the positions that it is about."""
        by_note: dict[str, list[str]] = {}
        for number in self.numbers:
            for note in (*number.flags, number.note):
                if note:
                    by_note.setdefault(note, []).append(number.position)
        several = len(self.numbers) > 1
        return tuple((", ".join(at) if several else "", note) for note, at in by_note.items())


_NUMBERED = re.compile(r"(.*?)(\d+)")
_CYLINDER = re.compile(r"^cyl(?:inder)?s?\.?\s*(?:no\.?|#)?\s*(?=\d)", re.IGNORECASE)
# The kinds that a verdict or a state already tells are not told twice.
_TOLD_BY_FLAG = ("close to the limit", "disagreement", "copied reading", "unit slip")


def rows(items: Sequence[Item], flags: Mapping[Place, Collection[Flag]]) -> tuple[Row, ...]:
    """Items of one section as rows, in the order in which each row first comes up.

    Items of one function with the same label and unit are one row where their positions
    differ and are of one sort: mains and rods are two rows, cylinders one. A position that
    comes again starts another row, as of a second set of readings.
    flags: findings by cell.
    """
    doubted = {
        place: doubts
        for place, found in flags.items()
        if (doubts := [flag.number for flag in found if flag.doubts])
    }
    groups: list[list[Item]] = []
    by_key: dict[tuple[str, ...], list[list[Item]]] = {}
    times: Counter[tuple[str, ...]] = Counter()
    for item in map(_at_one_name, items):
        key = (*_key(item), item.place.sheet)
        if not item.position:
            groups.append([item])
            continue
        of_key = by_key.setdefault(key, [])
        # A position stands in the first row at its first time, in the second at its second.
        here = (*key, item.position)
        nth = times[here]
        times[here] = nth + 1
        if nth == len(of_key):
            of_key.append([])
            groups.append(of_key[nth])
        of_key[nth].append(item)
    return tuple(_row(_by_position(group), flags, doubted) for group in _across_sheets(groups))


def _at_one_name(item: Item) -> Item:
    """The item with its cylinder named in short, and only there, so that a page has one form.

    "Crankpin 1" and "Crankpin 2" are one row of crankpins.
    """
    short, name = _at_one(item.position, item.label)
    if (short, name) == (item.position, item.label):
        return item
    return item._replace(position=short, label=name)


@lru_cache(maxsize=4096)
def _at_one(position: str, label: str) -> tuple[str, str]:
    short = _CYLINDER.sub("Cyl ", position)
    return short, Label(label, short).name


def _key(item: Item) -> tuple[str, ...]:
    noun = _noun(item.position)
    unit, kind = item.of.unit, item.of.kind.name
    return item.function, item.label, item.measurand, item.stage, unit, kind, noun


@lru_cache(maxsize=4096)
def _noun(position: str) -> str:
    """What a numbered position is one of ("Main 3" is a main), "" for any other.

    A letter alone is a bank, and the banks of an engine stand together.
    """
    found = _NUMBERED.fullmatch(position)
    noun = found[1].strip(" .#").casefold() if found else ""
    return noun if len(noun) > 1 else ""


def _across_sheets(groups: Sequence[list[Item]]) -> list[list[Item]]:
    """Groups of the same item joined where each sheet holds other positions, as of banks."""
    together: list[list[Item]] = []
    same: dict[tuple[str, ...], list[list[Item]]] = {}
    held: dict[tuple[str, ...], set[str]] = {}
    for group in groups:
        key = _key(group[0])
        of_key = same.setdefault(key, [])
        positions = {item.position for item in group}
        already = held.setdefault(key, set())
        if len(of_key) == 1 and "" not in positions | already and not positions & already:
            of_key[0].extend(group)
            already |= positions
            continue
        if not of_key:
            already |= positions
        of_key.append(list(group))
        together.append(of_key[-1])
    return together


def _told(
    item: Item, own: Collection[Flag], doubted: Mapping[Place, Sequence[str]]
) -> tuple[str, ...]:
    """The findings at an item's cell, and those that doubt a number which it is made from."""
    below = doubted and [
        number
        for place in item.rests_on
        for cell in cells_of(place)
        for number in doubted.get(cell, ())
    ]
    if not own and not below:
        return ()
    return tuple(dict.fromkeys((*(flag.number for flag in own), *below)))


def _by_position(group: Sequence[Item]) -> tuple[Item, ...]:
    """By number where all positions are numbered alike (Cyl 1, Cyl 2), else as they stand."""
    if len(group) < 2:
        return tuple(group)
    told = [_numbered(item.position) for item in group]
    if None in told or len({one[0] for one in told if one}) > 1:
        return tuple(group)
    numbers = {item.position: one[1] for item, one in zip(group, told, strict=True) if one}
    return tuple(sorted(group, key=lambda item: numbers[item.position]))


@lru_cache(maxsize=4096)
def _numbered(position: str) -> tuple[str, int] | None:
    """What a position is one of and its number, None where it has none: "Cyl 2"."""
    found = _NUMBERED.fullmatch(position)
    return (found[1], int(found[2])) if found else None


def _row(
    group: Sequence[Item],
    flags: Mapping[Place, Collection[Flag]],
    doubted: Mapping[Place, Sequence[str]],
) -> Row:
    """Items of a group as a row; doubted: the findings that doubt the number in a cell."""
    first = group[0]
    places = _digits(group)
    bands = tuple([i.band for i in group])
    stated = [band for band in bands if band is not None and band.stated]
    limits = {band and band_text(band, first.of, places) for band in bands}
    shared = len(limits) == 1
    low, high = _outermost(stated)
    numbers = tuple(
        [_number(item, shared, places, flags.get(item.place, ()), doubted) for item in group]
    )
    extent = _extent(group, numbers, places)
    band = (limits.pop() or "") if shared else _widest(stated, first.of, places)
    verdicts = {n.verdict for n in numbers}
    negative = any(i.value is not None and i.value < 0 for i in group)
    return Row(
        label=first.label,
        function=first.function if first.parameter == RESULT else "",
        unit=first.of.unit,
        numbers=numbers,
        result=_result(numbers, extent),
        band=band,
        verdict=_verdict(numbers),
        worst=next((v for v in ("low", "high", "ok") if v in verdicts), ""),
        states=_counted(
            numbers, lambda n: n.state, "same" if first.parameter == RESULT else "read"
        ),
        cells=joined(i.place for i in group),
        sign=_about_signs(first.help) if negative else "",
        extent=extent,
        measurand=first.measurand,
        stage=first.stage,
        low=low,
        high=high,
        origin="; ".join(dict.fromkeys(band.origin for band in stated)),
        bands=bands,
        places=places,
        told=tuple(dict.fromkeys([told for number in numbers for told in number.told])),
        measured=any(number.value is not None for number in numbers),
        alike="" if band else _alike(numbers, extent),
        uncertainty=_uncertainty(group),
    )


def _number(
    item: Item,
    shared: bool,
    places: int,
    flags: Collection[Flag],
    doubted: Mapping[Place, Sequence[str]],
) -> Number:
    value, band = item.value, item.band
    return Number(
        item.position,
        value,
        item.text if value is None else figure(value, item.of, places),
        "" if value is None else item.text,
        item.state,
        band.verdict if band and value is not None else "",
        "" if shared or band is None else band_text(band, item.of, places),
        item.note if item.saved is None else _note(item, places),
        _flagged(flags) if flags else (),
        item.place,
        _told(item, flags, doubted),
        item.unsure,
    )


def _uncertainty(group: Sequence[Item]) -> str:
    """The expanded uncertainty of a row's results, of several from the least to the largest."""
    known = [i.expanded for i in group if i.expanded is not None and i.parameter == RESULT]
    if not known:
        return ""
    told = dict.fromkeys(f"{float(f'{one:.2g}'):g}" for one in (min(known), max(known)))
    return f"U = {' to '.join(told)} {group[0].of.unit}".rstrip() + " (k = 2)"


def _flagged(found: Collection[Flag]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{f.number}: {f.kind}" for f in found if f.kind in _TOLD_BY_FLAG))


def _widest(stated: Sequence[Band], of: Measure, places: int) -> str:
    """Bands that differ, in one: the lowest and the highest limit of any of them."""
    if not stated:
        return ""
    low, high = _outermost(stated)
    told = band_text(replace(stated[0], low=low, high=high), of, places)
    return f"{told}, by position" if told else "by position"


def _outermost(stated: Sequence[Band]) -> tuple[float | None, float | None]:
    """The lowest and the highest limit of any band; None where one has none on that side."""
    lows = [b.low for b in stated if b.low is not None]
    highs = [b.high for b in stated if b.high is not None]
    return (
        min(lows) if lows and len(lows) == len(stated) else None,
        max(highs) if highs and len(highs) == len(stated) else None,
    )


@lru_cache(maxsize=1024)
def _about_signs(help: str) -> str:
    """The sentences of a help text that say what a sign means."""
    sentences = re.split(r"(?<=\.)\s+", help)
    return " ".join(s for s in sentences if re.search(r"positive|negative", s, re.IGNORECASE))


def _digits(group: Sequence[Item]) -> int:
    """Digits for a whole row: the kind's, more where a number looks like the limit it misses."""
    of, typed = group[0].of, group[0].typed
    measured = [i.value for i in group if i.value is not None]
    places = digits(measured, of, typed=typed)
    worth = [i.most_digits for i in group if i.most_digits is not None]
    if worth:
        places = min(places, max(worth))
    for item in group:
        if item.value is None:
            continue
        if item.band is not None and item.band.verdict in ("low", "high"):
            limit = item.band.low if item.band.verdict == "low" else item.band.high
            if limit is not None:
                places = apart(item.value, limit, of, places)
        if item.saved is not None:
            places = apart(item.value, item.saved, of, places)
    return places


def _note(item: Item, places: int) -> str:
    notes = [item.note] if item.note else []
    if item.saved is not None:
        shown = figure(item.saved, item.of, places)
        stands = item.value is not None
        notes.append(f"saved as {shown}" if stands else f"the book shows {shown} all the same")
    return "; ".join(notes)


def _result(numbers: Sequence[Number], extent: Extent | None) -> str:
    if len(numbers) == 1:
        return numbers[0].text
    if extent is None:
        texts = {n.text for n in numbers}
        return texts.pop() if len(texts) == 1 else ""
    return extent.least if extent.equal else f"{extent.least} to {extent.largest}"


def _extent(group: Sequence[Item], numbers: Sequence[Number], places: int) -> Extent | None:
    if len(group) < 2:
        return None
    measured = [n for n in numbers if n.value is not None]
    values = [n.value for n in numbers if n.value is not None]
    if not values:
        return None
    of = group[0].of
    least, largest = figure(min(values), of, places), figure(max(values), of, places)
    whole = len(measured) == len(group)
    # One digit more than the readings have: a mean of eight is finer than each of them.
    mean = figure(math.fsum(values) / len(values), of, places + 1) if whole else ""
    return Extent(
        least=least,
        least_at=_at(n.position for n in measured if n.text == least),
        largest=largest,
        largest_at=_at(n.position for n in measured if n.text == largest),
        mean=mean,
        equal=least == largest,
    )


def _alike(numbers: Sequence[Number], extent: Extent | None) -> str:
    """The positions of numbers that no band judges and that all say the same, else ""."""
    if extent is None or not extent.equal or any(n.state != numbers[0].state for n in numbers):
        return ""
    if any(n.note or n.flags or n.typed_as for n in numbers):
        return ""
    return f"alike at {', '.join(n.position for n in numbers)}"


def _at(positions: Iterable[str]) -> str:
    names = [f"no. {position}" if position.isdigit() else position for position in positions]
    if len(names) > 3:
        return f"{names[0]} and {len(names) - 1} more"
    return ", ".join(names)


def _verdict(numbers: Sequence[Number]) -> str:
    """The verdict on all positions together, and where it is not proved."""
    told = _counted(numbers, lambda n: n.verdict, "ok")
    unsure = [n.position for n in numbers if n.unsure]
    if not unsure:
        return told
    return f"{told}; cannot tell: {_at(unsure)}" if len(numbers) > 1 else f"{told}; cannot tell"


def _counted(numbers: Sequence[Number], told: Callable[[Number], str], usual: str) -> str:
    """What all positions say, what is unusual first: "ok", "low: Cyl 5; 7 of 8 ok"."""
    said = [told(n) for n in numbers]
    if said.count(said[0]) == len(said):
        return said[0]
    if usual not in said:
        usual = max(filter(None, said), key=said.count)
    parts = [
        f"{word}: {_at(n.position for n in numbers if told(n) == word)}"
        for word in dict.fromkeys(said)
        if word not in ("", usual)
    ]
    if usual in said:
        parts.append(f"{said.count(usual)} of {len(said)} {usual}")
    return "; ".join(parts)
