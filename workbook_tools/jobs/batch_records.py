"""One call of the catalog that the batch makes, as the record of a formula."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from workbook_tools.catalog import OMITTED, ArgumentError, Function, calculate, find
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.known import Known, size
from workbook_tools.jobs.records import Argument, Record
from workbook_tools.jobs.sources import Readings, Source, shown
from workbook_tools.labels.candidate import part_of
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.parts import of_one_part
from workbook_tools.quantities import Kind, System, from_si


def catalog_function(name: str) -> Function:
    """The function of a name that is in the catalog."""
    function = find(name)
    assert function is not None, f"{name} is not in the catalog"
    return function


def batch_record(
    readings: Readings,
    name: str,
    title: str,
    sources: Mapping[str, Source],
    position: str,
    per: Of,
    recorded: Known | None = None,
) -> Record:
    """One call of the catalog, as the record of a formula that the batch made."""
    function = catalog_function(name)
    system = readings.system
    kinds: dict[str, Kind] = {p.name: p.kind for p in function.parameters}
    arguments = tuple(
        Argument(p, s.text, s.value, kinds[p].unit(system), s.place, s.label, s.problem)
        for p, s in sources.items()
    )
    inner = ",".join(a.text for a in arguments)
    units = ',"metric"' if system == "metric" and function.takes_units else ""
    sheet = next((s.place.sheet for s in sources.values() if s.place), "")
    record = Record(
        place=recorded.place if recorded else Place(sheet, ""),
        label=Label(title, shown(per, position)),
        formula=f"={function.full_name}({inner}{units})",
        function=function,
        name=function.full_name,
        arguments=arguments,
        saved=_in_unit(recorded, function.result, system) if recorded else None,
        recomputed=None,
        value=None,
        unit="",
        state="error",
        system=system,
        computed_by_batch=True,
        measurand=_measurand(name, part_of(per, position)),
        part=part_of(per, position),
    )
    refused = next((a for a in arguments if a.problem), None)
    if refused is not None:
        return replace(record, problem=f"{refused.name}: {refused.problem}", blamed=refused.name)
    values = [a.value for a in arguments]
    if function.takes_units:
        values += [OMITTED] * (len(function.parameters) - len(arguments)) + [system]
    try:
        result = calculate(function, values)
    except ArgumentError as error:
        blamed = tuple(
            replace(a, problem=error.why) if a.name == error.parameter else a for a in arguments
        )
        return replace(
            record,
            arguments=blamed,
            problem=str(error),
            blamed=error.parameter,
            missing=error.missing,
            impossible=error.impossible,
        )
    return replace(
        record, value=result.value, recomputed=result.value, unit=result.unit, state="computed"
    )


# The gap that a factor gives is taken for the top ring's.
_RESULTS = {"RING_GAP": "top_ring_gap"}


def _measurand(function: str, part: Position) -> str:
    return _RESULTS.get(function) or of_one_part(catalog_function(function).measurand, "", part)


def _in_unit(reading: Known, kind: Kind, system: System) -> float | None:
    """A reading that was written down, in the unit of the result that it is compared with."""
    written = size(reading)
    return None if written is None else float(f"{from_si(written, kind, system):.12g}")
