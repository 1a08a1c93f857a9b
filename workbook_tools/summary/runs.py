"""The engine run: power and torque by speed with their peaks, and oil pressure by state."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from workbook_tools.jobs.paper_records import FormCell, FormRow
from workbook_tools.jobs.records import Book
from workbook_tools.quantities import POWER as POWER_KIND
from workbook_tools.quantities import READING, Kind
from workbook_tools.quantities import TORQUE as TORQUE_KIND
from workbook_tools.summary.figures import Measure, figure, measure
from workbook_tools.summary.item import Item

RUN = "Run on the dynamometer and on the stand"
What = Literal["power", "torque"]
_MEASURANDS: dict[What, str] = {"power": "power", "torque": "engine_torque"}
_KINDS: dict[What, Kind] = {"power": POWER_KIND, "torque": TORQUE_KIND}


@dataclass(frozen=True)
class Peak:
    """The most of a run, and the speed that it comes at."""

    value: float
    unit: str
    speed: float
    text: str

    @property
    def words(self) -> str:
        """As it is said: "438.3 hp at 6,100 rpm"."""
        return f"{self.text} {self.unit} at {self.speed:,.0f} rpm"


@dataclass(frozen=True)
class PowerRun:
    """A power run: its most power and torque, and whether these are corrected, to what.

    pulls: (speed in rpm, torque, power), None where the book has none.
    """

    corrected: bool
    standard: str
    power: Peak | None
    torque: Peak | None
    pulls: tuple[tuple[float, float | None, float | None], ...]

    @property
    def words(self) -> str:
        """How the figures are meant."""
        if not self.corrected:
            return "as measured, not corrected for the weather"
        return f"corrected to {self.standard}" if self.standard else "corrected"

    @property
    def data(self) -> dict[str, Any]:
        """The run as the data of a build has it."""
        return {
            "corrected": self.corrected,
            "standard": self.standard,
            "peak_power": _peak_data(self.power),
            "peak_torque": _peak_data(self.torque),
            "pulls": [{"rpm": s, "torque": t, "power": p} for s, t, p in self.pulls],
        }


def _peak_data(peak: Peak | None) -> dict[str, Any] | None:
    return {"value": peak.value, "unit": peak.unit, "rpm": peak.speed} if peak else None


def power_run(book: Book) -> PowerRun | None:
    """The power run of a book, from its corrected columns where it has any; None without one."""
    pulls = [row for row in book.forms if row.form == "pull"]
    if not pulls:
        return None
    corrected = any(row.cell(f"{what}_corrected") for row in pulls for what in _MEASURANDS)
    told = [
        (speed.number, _best(row, "torque", corrected), _best(row, "power", corrected))
        for row in pulls
        if (speed := row.cell("speed")) is not None and speed.number is not None
    ]
    now = {r.place: r.recomputed for r in book.records if isinstance(r.recomputed, float)}
    rows = tuple(
        (speed, _value(torque, now), _value(power, now))
        for speed, torque, power in told
        if _value(torque, now) is not None or _value(power, now) is not None
    )
    if not rows:
        return None
    return PowerRun(
        corrected=corrected,
        standard=_named(book.office.corrected_to.text) if corrected else "",
        torque=_peak([(s, t) for s, t, _ in rows], [t for _, t, _ in told], TORQUE_KIND),
        power=_peak([(s, p) for s, _, p in rows], [p for _, _, p in told], POWER_KIND),
        pulls=rows,
    )


_BODIES = re.compile(r"\b(?:sae|iso|din|jis|ece|eec|en|j\d+)\b", re.IGNORECASE)


def _named(standard: str) -> str:
    """A standard as it is written, of a cell that has it as the functions take it."""
    capitals = _BODIES.sub(lambda found: found[0].upper(), standard)
    inches = re.sub(r"\binhg\b", "inHg", capitals, flags=re.IGNORECASE)
    return re.sub(r"(\d ?)f$", r"\1F", inches)


def _best(row: FormRow, what: What, corrected: bool) -> FormCell | None:
    return row.cell(f"{what}_corrected") if corrected else row.cell(what)


def _value(cell: FormCell | None, now: dict[Any, float]) -> float | None:
    """What a cell comes to: as a call of ours gives it, else as it was saved."""
    return None if cell is None else now.get(cell.place, cell.number)


def _peak(
    measured: Sequence[tuple[float, float | None]], cells: Sequence[FormCell | None], kind: Kind
) -> Peak | None:
    found = [(value, -speed) for speed, value in measured if value is not None]
    unit = next((cell.unit for cell in cells if cell is not None and cell.unit), "")
    if not found:
        return None
    value, speed = max(found)
    of = _measure(kind, unit)
    return Peak(value, of.unit or unit, -speed, figure(value, of))


def _measure(kind: Kind, unit: str) -> Measure:
    """What a number below a head with this unit is of."""
    told = measure(READING, unit, None, "inch")
    return told if told.kind is not READING else Measure(kind, "inch", unit)


def run_items(book: Book) -> tuple[Item, ...]:
    """Power, torque and oil pressure as items, each at its speed or state."""
    return tuple(_items(book))


def _items(book: Book) -> Iterator[Item]:
    run = power_run(book)
    rows = [row for row in book.forms if row.form == "pull"] if run else []
    corrected = run is not None and run.corrected
    for what, kind in _KINDS.items():
        for row in rows:
            cell, speed = _best(row, what, corrected), row.cell("speed")
            if cell is None or cell.number is None or speed is None or speed.number is None:
                continue
            label = what.capitalize() + (", corrected" if corrected else "")
            at = f"{speed.number:,.0f} rpm"
            yield _item(cell, label, at, _measure(kind, cell.unit), _MEASURANDS[what])
    for row in (row for row in book.forms if row.form == "run"):
        cell = row.cell("oil_pressure")
        if cell is not None and cell.number is not None:
            of = measure(READING, cell.unit, None, "inch")
            yield _item(cell, "Oil pressure", row.text("when"), of, "oil_pressure")


def _item(cell: FormCell, label: str, position: str, of: Measure, measurand: str) -> Item:
    return Item(
        section=RUN,
        label=label,
        position=position,
        function="",
        parameter=measurand,
        of=of,
        place=cell.place,
        state="read",
        value=cell.number,
        typed=False,
        measurand=measurand,
    )
