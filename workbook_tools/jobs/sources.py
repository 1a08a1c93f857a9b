"""What the arguments of a computation are taken from: a job's readings, by name and position."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import isclose
from typing import NamedTuple

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.formulas.references import Place, cell_address
from workbook_tools.jobs.known import NOT_MEASURED, Known, Remembered, same_size, size, usable
from workbook_tools.jobs.records import Record
from workbook_tools.labels.label import Label
from workbook_tools.quantities import Kind, System, UnreadableText, from_si, read_text

_PER_WORD = {"engine": "", "main": "Main", "rod": "Rod", "valve": "Valve", "ring": "Cyl",
             "cylinder": "Cyl", "cam_bearing": "Cam bearing", "bank": "Bank"}  # fmt: skip


class Source(NamedTuple):
    """What one argument is taken from: a reading, several of them, or a call inside.

    text: as a formula on any sheet has it; value: a number in its bare unit or a text with
    its own, rows of numbers for a block; None where it is missing, and then the problem, if
    there is one, says what stands there. about: the reading that a problem is of; by and
    parts are those of an Argument.
    """

    text: str
    value: object
    place: Place | None
    label: Label | None
    problem: str = ""
    about: str = ""
    by: Record | None = None
    parts: tuple[tuple[Place, float], ...] = ()

    @property
    def usable(self) -> bool:
        """Whether it can be computed with."""
        return self.value is not None and not self.problem


class Readings:
    """The readings to compute with, looked up by name and position."""

    def __init__(
        self,
        known: Iterable[Known],
        system: System,
        cylinders: int | None,
        remembered: Remembered | None = None,
    ) -> None:
        self.cylinders = cylinders
        self.system: System = system
        facts = list(known)
        self.remembered = remembered or Remembered()
        self._by_name = usable(facts, self.remembered)
        self._sources: dict[tuple[str, str], Source | None] = {}
        measured = [k for k in facts if k.stage not in NOT_MEASURED]
        self._read = {k.name for k in measured if k.value is not None or k.problem}
        # A protrusion is read with the sign of a deck clearance: above the deck is negative.
        if "piston_protrusion" in self._by_name:
            self._by_name.setdefault("deck_clearance", self._by_name["piston_protrusion"])
        if "piston_protrusion" in self._read:
            self._read.add("deck_clearance")

    def has(self, name: str) -> bool:
        """Whether there is any reading of this name, with or without a value."""
        return name in self._by_name

    @property
    def names(self) -> frozenset[str]:
        """The names of all readings."""
        return frozenset(self._by_name)

    def was_read(self, name: str) -> bool:
        """Whether anything is written under this name, be it refused or contradicted."""
        return name in self._read

    def positions(self, names: Iterable[str]) -> list[str]:
        """The positions that readings of these names have, in the order of the book."""
        found = {p: None for name in names for p in self._by_name.get(name, {}) if p}
        return list(found) or [""]

    def at(self, name: str, position: str) -> tuple[Known, ...]:
        """The readings of one position: its own, its bank's, or the one for all."""
        own = self._by_name.get(name, {})
        bank = "".join(c for c in position if c.isalpha())
        return own.get(position) or own.get(bank) or own.get("") or ()

    def outlives(self, result: str, names: Iterable[str], position: str) -> bool:
        """Whether a result that the book states is of later than a size as found that gives it."""
        stated = self.at(result, position)
        later = bool(stated) and all(r.stage != "found" for r in stated)
        return later and any(r.stage == "found" for name in names for r in self.at(name, position))

    def without_value(self, name: str) -> tuple[Place, ...]:
        """The cells of a name that are empty or cannot be used."""
        several = (r for readings in self._by_name.get(name, {}).values() for r in readings)
        return tuple(r.place for r in several if r.value is None)

    def source(self, name: str, position: str) -> Source | None:
        """What an argument takes from the readings of a position, None where there are none."""
        key = name, position
        if key not in self._sources:
            readings = self.at(name, position)
            self._sources[key] = self._remembered_of(readings, position) if readings else None
        return self._sources[key]

    def _remembered_of(self, readings: tuple[Known, ...], position: str) -> Source:
        what = "source", position, self.system
        return self.remembered.once(what, (readings,), lambda: self._of(readings, position))

    def same(self, source: Source) -> Source:
        """A source without a call inside as it was first made of the same readings."""
        return self.remembered.once(source, (), lambda: source)

    def agreed(self, name: str) -> Source | None:
        """What an argument of the whole engine takes: the one reading, or one of several alike."""
        several = [r for readings in self._by_name.get(name, {}).values() for r in readings]
        if not several or any(not same_size(several[0], r) for r in several[1:]):
            return None
        return self._of(several[:1], "")

    def block(self, name: str) -> Source | None:
        """The readings of all positions as one range, None where they do not stand in one."""
        several = [r for readings in self._by_name.get(name, {}).values() for r in readings]
        if len(several) < 2 or any(r.value is None or r.value != r.raw for r in several):
            return None
        area = _area([r.place for r in several])
        if area is None or any(self._bare(r) != r.raw for r in several):
            return None
        row = tuple(r.value for r in several)
        rows = (row,) if _is_row(several) else tuple((value,) for value in row)
        return Source(str(area), rows, area, several[0].label)

    def _of(self, readings: Sequence[Known], position: str) -> Source:
        first = readings[0]
        lacking = next((r for r in readings if r.value is None), None)
        if lacking is not None:
            value = lacking.raw if isinstance(lacking.raw, (str, int, float)) else None
            problem = lacking.problem if value is not None else ""
            return Source(
                str(lacking.place), value, lacking.place, lacking.label, problem, lacking.name
            )
        if len(readings) == 1:
            return Source(self._text(first), self._bare(first), first.place, first.label)
        mean = sum(from_si(_si(r), first.kind, self.system) for r in readings) / len(readings)
        label = Label(first.label.text, first.label.position or position, first.label.unit)
        parts = tuple((r.place, 1 / len(readings)) for r in readings)
        return Source(f"AVERAGE({self._listed(readings)})", mean, None, label, parts=parts)

    def _listed(self, readings: Sequence[Known]) -> str:
        """Readings as the arguments of AVERAGE or SUMSQ: their cells where these are bare."""
        cells = [str(r.place) for r in readings]
        if any(self._text(r) != cell for r, cell in zip(readings, cells, strict=True)):
            return ",".join(f"{from_si(_si(r), r.kind, self.system):.10g}" for r in readings)
        area = _area([r.place for r in readings])
        return str(area) if area else ",".join(cells)

    def mean_square(self, name: str) -> tuple[int, Source] | None:
        """All sizes of a name as one whose square is the mean of theirs, and how many there are.

        None where there are none, or one of them has no value.
        """
        positions = self._by_name.get(name, {})
        sizes = [[size(r) for r in several] for several in positions.values()]
        if not sizes or any(s is None for several in sizes for s in several):
            return None
        means = [sum(s for s in several if s is not None) / len(several) for several in sizes]
        if len(means) == 1:
            source = self.source(name, next(iter(positions)))
            return (1, source) if source else None
        first = next(iter(positions.values()))[0]
        number = from_si((sum(m * m for m in means) / len(means)) ** 0.5, first.kind, self.system)
        if all(len(several) == 1 for several in positions.values()):
            listed = self._listed([several[0] for several in positions.values()])
        else:
            listed = ",".join(f"{from_si(m, first.kind, self.system):.10g}" for m in means)
        text = f"SQRT(SUMSQ({listed})/{len(means)})"
        # d rms / d bore = bore / (n rms); of several readings of one bore each has its share.
        square = sum(m * m for m in means)
        parts = tuple(
            (r.place, mean / (square * len(means)) ** 0.5 / len(several))
            for mean, several in zip(means, positions.values(), strict=True)
            for r in several
        )
        return len(means), Source(text, number, None, Label(first.label.text), parts=parts)

    def _bare(self, reading: Known) -> object:
        """A reading as a number where its unit is the system's own, else with its unit."""
        assert reading.value is not None
        if reading.unit == reading.kind.unit(self.system):
            return reading.value
        return f"{reading.value:.12g} {reading.unit}".strip()

    def _text(self, reading: Known) -> str:
        """What a formula takes a reading from: its cell, as it stands there or with its unit.

        A cell that says more than the number is no argument; the number stands for it.
        """
        cell, bare = str(reading.place), self._bare(reading)
        as_text = f'"{bare}"' if isinstance(bare, str) else f"{bare:.12g}"
        raw = reading.raw
        if isinstance(raw, bool) or not isinstance(raw, (int, float, str)):
            return as_text
        given = raw if isinstance(raw, str) else f"{raw!r}"
        sized = size(reading)
        if sized is None or _is(given, sized, reading.kind, self.system):
            return cell
        if isinstance(raw, str):
            return as_text
        unit = reading.unit
        for sign, behind in ((1, unit), (-1, ""), (-1, unit)):
            if _is(f"{sign * raw!r} {behind}".strip(), sized, reading.kind, self.system):
                minus = "-" if sign < 0 else ""
                return f'{minus}{cell}&" {behind}"' if behind else f"{minus}{cell}"
        return as_text

    def recorded(self, name: str, position: str) -> Known | None:
        """The value that the builder wrote down for a position, if it is one."""
        own = self._by_name.get(name, {}).get(position, ())
        return own[0] if len(own) == 1 and own[0].value is not None else None


def _si(reading: Known) -> float:
    sized = size(reading)
    assert sized is not None
    return sized


def _is(text: str, sized: float, kind: Kind, system: System) -> bool:
    """Whether a text in a cell would be read as this size, in SI."""
    try:
        return isclose(read_text(text, kind, system), sized, rel_tol=1e-9, abs_tol=1e-15)
    except UnreadableText:
        return False


def _area(places: Sequence[Place]) -> Place | None:
    """The range that cells fill side by side, None where they fill none."""
    spots = [coordinate_to_tuple(p.address) for p in places]
    if len({p.sheet for p in places}) != 1 or len(set(spots)) != len(spots):
        return None
    rows, columns = ([spot[i] for spot in spots] for i in (0, 1))
    tall, wide = max(rows) - min(rows) + 1, max(columns) - min(columns) + 1
    if min(tall, wide) != 1 or tall * wide != len(spots):
        return None
    first = cell_address(min(rows), min(columns))
    last = cell_address(max(rows), max(columns))
    return Place(places[0].sheet, first if first == last else f"{first}:{last}")


def _is_row(readings: Sequence[Known]) -> bool:
    return len({coordinate_to_tuple(r.place.address)[0] for r in readings}) == 1


def shown(per: str, position: str) -> str:
    """A position as people say it: "Cyl 3", "Main 2", "L2"."""
    word = _PER_WORD.get(per, "")
    return f"{word} {position}" if position.isdigit() and word else position
