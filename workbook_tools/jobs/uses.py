"""What the calls of a book take its cells for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from functools import cache

from workbook_tools.books.places import cells_of
from workbook_tools.catalog import Parameter, find
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Record, Use
from workbook_tools.measurands import Position
from workbook_tools.quantities import TEXT, System


@cache
def declared(function: str) -> Mapping[str, Parameter]:
    """The parameters of a function of the catalog, by their names; function: its name."""
    found = find(function)
    return {p.name: p for p in found.parameters} if found else {}


def uses_by_place(records: Sequence[Record]) -> dict[Place, list[Use]]:
    """What the calls of a book take each cell for."""
    found: dict[Place, list[Use]] = defaultdict(list)
    for record in records:
        parameters = declared(record.function.name) if record.function else {}
        for argument in record.arguments:
            parameter = parameters.get(argument.name)
            if parameter is None or argument.place is None or parameter.kind is TEXT:
                continue
            system: System = "metric" if record.system == "metric" else "inch"
            use = Use(record.name, parameter, system, argument.unit, record)
            for place in cells_of(argument.place):
                found[place].append(use)
    return dict(found)


def system_of_calls(records: Sequence[Record]) -> System:
    """The unit system that most of a book's calls with lengths take."""
    systems = [r.system for r in records if r.function and r.function.takes_units]
    return "metric" if systems.count("metric") * 2 > len(systems) else "inch"


# What is read several times over is the same thing as the mean of it.
_MEAN = "MEAN_READING"


def with_means_named(records: Sequence[Record]) -> list[Record]:
    """Records, each mean of readings with what other calls take its cell for.

    A mean of readings may be of anything; what is worked out of it tells of what it is.
    """
    means = [r for r in records if is_mean(r) and not r.measurand and r.whole]
    uses = uses_by_place(records) if means else {}
    named = {}
    for record in means:
        sure = [u for u in uses.get(record.place, ()) if u.parameter.measurand]
        if len({u.parameter.measurand for u in sure}) == 1:
            unit = record.unit or sure[0].unit
            parts = {use.record.part for use in sure}
            part = _numbered(record.part, parts)
            label = record.label
            if label is not None and part != record.part:
                label = label._replace(position=part.which)
            named[record.place] = record._replace(
                measurand=sure[0].parameter.measurand, unit=unit, part=part, label=label
            )
    return [named.get(r.place, r) if r.whole else r for r in records]


def _numbered(part: Position, parts: Collection[Position]) -> Position:
    """A side with the number that it has in the one result that is worked out of it."""
    alike = [one for one in parts if one.bank == part.bank and one.number and part.bank]
    return alike[0] if len(alike) == 1 and not part.number else part


def is_mean(record: Record) -> bool:
    """Whether a call gives the mean of several readings of one thing."""
    return record.function is not None and record.function.name == _MEAN
