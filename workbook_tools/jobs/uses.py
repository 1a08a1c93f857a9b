"""What the calls of a book take its cells for."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.books.places import cells_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Record, Use
from workbook_tools.quantities import TEXT, System


def uses_by_place(records: Sequence[Record]) -> dict[Place, list[Use]]:
    """What the calls of a book take each cell for."""
    found: dict[Place, list[Use]] = {}
    for record in records:
        declared = {p.name: p for p in record.function.parameters} if record.function else {}
        for argument in record.arguments:
            parameter = declared.get(argument.name)
            if parameter is None or argument.place is None or parameter.kind is TEXT:
                continue
            system: System = "metric" if record.system == "metric" else "inch"
            use = Use(record.name, parameter, system, argument.unit, record)
            for place in cells_of(argument.place):
                found.setdefault(place, []).append(use)
    return found


def system_of_calls(records: Sequence[Record]) -> System:
    """The unit system that most of a book's calls with lengths take."""
    systems = [r.system for r in records if r.function and r.function.takes_units]
    return "metric" if systems.count("metric") * 2 > len(systems) else "inch"
