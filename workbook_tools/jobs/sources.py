"""The readings that a computation takes, looked up by name and position."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.known import Known, size, usable
from workbook_tools.labels.label import Label
from workbook_tools.quantities import System

_PER_WORD = {
    "engine": "", "cylinder": "Cyl", "main": "Main", "rod": "Rod", "cam_bearing": "Cam bearing",
    "valve": "Valve",
}  # fmt: skip


@dataclass(frozen=True)
class Source:
    """What one argument is taken from: a reading, the mean of several, or a call inside.

    value: a number in its bare unit or a text with its own; None where it is missing, and
    then the problem, if there is one, says what stands there.
    """

    text: str
    value: object
    place: Place | None
    label: Label | None
    problem: str = ""


class Readings:
    """The readings to compute with, looked up by name and position."""

    def __init__(self, known: Iterable[Known], system: System, cylinders: int | None) -> None:
        self.cylinders = cylinders
        self.system: System = system
        self._by_name = usable(known)
        # A protrusion is read with the sign of a deck clearance: above the deck is negative.
        if "piston_protrusion" in self._by_name:
            self._by_name.setdefault("deck_clearance", self._by_name["piston_protrusion"])

    def has(self, name: str) -> bool:
        """Whether there is any reading of this name, with or without a value."""
        return name in self._by_name

    def positions(self, names: Sequence[str]) -> list[str]:
        """The positions that readings of these names have, in the order of the book."""
        found = {p: None for name in names for p in self._by_name.get(name, {}) if p}
        return list(found) or [""]

    def at(self, name: str, position: str) -> tuple[Known, ...]:
        """The readings of one position: its own, its bank's, or the one for all."""
        own = self._by_name.get(name, {})
        bank = "".join(c for c in position if c.isalpha())
        return own.get(position) or own.get(bank) or own.get("") or ()

    def source(self, name: str, position: str) -> Source | None:
        """What an argument takes from the readings of a position, None where there are none."""
        readings = self.at(name, position)
        if not readings:
            return None
        first = readings[0]
        missing = next((r for r in readings if r.value is None), None)
        if missing is not None:
            value = missing.raw if isinstance(missing.raw, (str, int, float)) else None
            problem = missing.problem if value is not None else ""
            return Source(missing.place.address, value, missing.place, missing.label, problem)
        if len(readings) == 1:
            return Source(first.place.address, self._bare(first), first.place, first.label)
        mean = sum(r.value or 0.0 for r in readings) / len(readings)
        several = replace(first, value=mean)
        cells = ", ".join(dict.fromkeys(r.place.address for r in readings))
        label = replace(first.label, position=first.label.position or position)
        return Source(f"mean of {cells}", self._bare(several), None, label)

    def _bare(self, reading: Known) -> object:
        """A reading as a number where its unit is the system's own, else with its unit."""
        assert reading.value is not None
        if reading.unit == reading.kind.unit(self.system):
            return reading.value
        return f"{reading.value:.12g} {reading.unit}".strip()

    def sizes(self, name: str) -> list[float] | None:
        """Every reading of a name in SI, its position's mean; None where one has no value."""
        sizes = []
        for readings in self._by_name.get(name, {}).values():
            several = [size(r) for r in readings]
            if any(s is None for s in several):
                return None
            sizes.append(sum(s for s in several if s is not None) / len(several))
        return sizes or None

    def recorded(self, name: str, position: str) -> Known | None:
        """The value that the builder wrote down for a position, if it is one."""
        own = self._by_name.get(name, {}).get(position, ())
        return own[0] if len(own) == 1 and own[0].value is not None else None


def shown(per: str, position: str) -> str:
    """A position as people say it: "Cyl 3", "Main 2", "L2"."""
    word = _PER_WORD[per]
    return f"{word} {position}" if position.isdigit() and word else position
