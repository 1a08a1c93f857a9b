"""What a build book is made for: cylinders, units, layout, and what follows from them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeVar, get_args

from workbook_tools.catalog import PREFIX, find
from workbook_tools.quantities import System

T = TypeVar("T")
Layout = Literal["inline", "v", "flat", "single"]
LAYOUTS: tuple[Layout, ...] = get_args(Layout)
SYSTEMS: tuple[System, ...] = ("inch", "metric")
MOST_CYLINDERS = 16
Scope = Literal["complete", "short", "heads"]
# What is done of an engine, with the sheets of it; a complete job has them all.
SCOPES: dict[Scope, tuple[str, ...]] = {
    "complete": (),
    "short": (
        "Job", "Plan", "Heat", "Parts", "Block", "Decks", "Crank", "Rods", "Pistons", "Deck",
        "Gasket", "Bottom end", "Bearings", "Rings", "Balance", "Assembly", "Stretch", "Release",
        "Notes",
    ),
    "heads": ("Job", "Parts", "Heads", "Valvetrain", "Assembly", "Release", "Notes"),
}  # fmt: skip
# Work that not every engine gets: a book can be made without these sheets.
OPTIONAL_SHEETS = ("Balance", "Stretch", "Power")


class BuildBookError(ValueError):
    """A book that cannot be made as asked; the message says what was expected and what came."""


class OlderBookError(BuildBookError):
    """An older book that cannot be read as one to take over from."""


@dataclass(frozen=True)
class Plan:
    """The numbers that decide how many rows a book has; nothing about the engine's inside.

    cylinders; units: "inch" or "metric"; layout: "inline", "v", "flat" or "single"; mains:
    main bearings; rods_per_journal: rods that share one crank journal; valves: of each
    cylinder, 2 or 4; without: sheets left out, of OPTIONAL_SHEETS; scope: what is done, of SCOPES.
    """

    cylinders: int
    units: System
    layout: Layout
    mains: int
    rods_per_journal: int
    valves: int
    without: tuple[str, ...] = ()
    scope: Scope = "complete"

    def has(self, title: str) -> bool:
        """Whether a book of this plan has a sheet."""
        sheets = SCOPES[self.scope]
        return title not in self.without and (not sheets or title in sheets)

    @property
    def metric(self) -> bool:
        """Whether bare numbers are millimeters and not inches."""
        return self.units == "metric"

    @property
    def cylinder_rows(self) -> tuple[str, ...]:
        """The names of the cylinders, in the order of their numbers."""
        return tuple(f"Cyl {i}" for i in range(1, self.cylinders + 1))

    @property
    def rod_rows(self) -> tuple[str, ...]:
        """The names of the rods; each carries the number of its cylinder."""
        return tuple(f"Rod {i}" for i in range(1, self.cylinders + 1))

    @property
    def main_rows(self) -> tuple[str, ...]:
        """The names of the main bearings, from the front."""
        return tuple(f"Main {i}" for i in range(1, self.mains + 1))

    @property
    def journal_rows(self) -> tuple[str, ...]:
        """The names of the rod journals, from the front."""
        return tuple(f"Throw {i}" for i in range(1, self.journals + 1))

    @property
    def journals(self) -> int:
        """How many rod journals the crank has."""
        return -(-self.cylinders // self.rods_per_journal)

    @property
    def bank_rows(self) -> tuple[str, ...]:
        """The names of the banks; the builder says which is which."""
        return ("Bank 1", "Bank 2") if self.layout in ("v", "flat") else ("Bank 1",)

    @property
    def valve_groups(self) -> tuple[str, ...]:
        """The kinds of valve that each cylinder has one of."""
        if self.valves == 2:
            return ("Intake", "Exhaust")
        return ("Intake A", "Intake B", "Exhaust A", "Exhaust B")

    def pick(self, inch: T, metric: T) -> T:
        """The one of two values that goes with the book's units."""
        return metric if self.metric else inch

    def call(self, name: str, *arguments: object) -> str:
        """A call of a worksheet function as text, with the units that the book is in.

        A metric call names every argument before its units, so that none can slip.
        """
        function = find(name)
        if function is None:
            raise KeyError(name)
        given = [str(argument) for argument in arguments]
        if self.metric and function.takes_units and name not in ("VERDICT", "JUDGE"):
            if len(given) != len(function.parameters):
                raise ValueError(f"{name}: {function.signature}, got {given}")
            given.append('"metric"')
        return f"{PREFIX}.{name}({','.join(given)})"


def plan_for(
    cylinders: int,
    units: str,
    layout: str | None = None,
    *,
    mains: int | None = None,
    rods_per_journal: int | None = None,
    valves: int = 2,
    without: tuple[str, ...] = (),
    scope: str = "complete",
) -> Plan:
    """A plan, with what is usual for a layout where nothing was said.

    layout: left out, "single" for one cylinder and "inline" for more. mains: left out, one
    more than there are rod journals. rods_per_journal: left out, 2 in a V engine and 1 in
    any other. Raises BuildBookError with the name of what cannot be.
    """
    layout = layout or ("single" if cylinders == 1 else "inline")
    _expect(1 <= cylinders <= MOST_CYLINDERS, "cylinders", f"1 to {MOST_CYLINDERS}", cylinders)
    _expect(units in SYSTEMS, "units", "inch or metric", units)
    _expect(layout in LAYOUTS, "layout", ", ".join(LAYOUTS), layout)
    if layout == "single":
        _expect(cylinders == 1, "cylinders", "1 with the layout single", cylinders)
    if layout in ("v", "flat"):
        _expect(
            cylinders % 2 == 0, "cylinders", f"an even number with the layout {layout}", cylinders
        )
    usual = 2 if layout == "v" else 1
    rods = usual if rods_per_journal is None else rods_per_journal
    _expect(rods in (1, 2), "rods per journal", "1 or 2", rods)
    journals = -(-cylinders // rods)
    bearings = journals + 1 if mains is None else mains
    _expect(2 <= bearings <= MOST_CYLINDERS + 1, "mains", f"2 to {MOST_CYLINDERS + 1}", bearings)
    _expect(valves in (2, 4), "valves", "2 or 4 a cylinder", valves)
    wrong = [name for name in without if name not in OPTIONAL_SHEETS]
    _expect(not wrong, "without", "any of " + ", ".join(OPTIONAL_SHEETS), ", ".join(wrong))
    _expect(scope in SCOPES, "scope", ", ".join(SCOPES), scope)
    left_out = tuple(name for name in OPTIONAL_SHEETS if name in without)
    return Plan(
        cylinders,
        "metric" if units == "metric" else "inch",
        next(item for item in LAYOUTS if item == layout),
        bearings,
        rods,
        valves,
        left_out,
        next(item for item in SCOPES if item == scope),
    )


def _expect(right: bool, what: str, expected: str, got: object) -> None:
    if not right:
        raise BuildBookError(f"{what}: expected {expected}, got {got}")
