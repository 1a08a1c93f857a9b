"""One call of the catalog that the batch makes, as the record of a formula."""

from __future__ import annotations

import re
from collections.abc import Mapping

from workbook_tools.catalog import OMITTED, ArgumentError, calculate
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.derivable import Derivable, Way
from workbook_tools.jobs.known import Known, size
from workbook_tools.jobs.records import Argument, Record
from workbook_tools.jobs.sources import Source, shown
from workbook_tools.labels.candidate import part_of
from workbook_tools.labels.label import Label
from workbook_tools.quantities import Kind, System, from_si


def batch_record(
    entry: Derivable,
    way: Way,
    sources: Mapping[str, Source],
    position: str,
    system: System,
    recorded: Known | None = None,
) -> Record:
    """One call of the catalog, as the record of a formula that the batch made.

    The cells in its formula and arguments are named with their sheet: see on_its_sheet.
    """
    function, of = way.function, entry.measurand.of
    kinds: dict[str, Kind] = {p.name: p.kind for p in function.parameters}
    arguments = tuple(
        Argument(
            p, s.text, s.value, kinds[p].unit(system), s.place, s.label,
            s.problem if s.place is not None else "", by=s.by, parts=s.parts,
        )
        for p, s in sources.items()
    )  # fmt: skip
    units = ',"metric"' if system == "metric" and function.takes_units else ""
    omitted = len(function.parameters) - len(arguments) if units else 0
    inner = ",".join([*(a.text for a in arguments), *[""] * omitted])
    sheet = next((s.place.sheet for s in sources.values() if s.place), "")
    record = Record(
        place=recorded.place if recorded else Place(sheet, ""),
        label=Label(entry.title, shown(of, position)),
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
        measurand=entry.measurand.id,
        part=part_of("cylinder" if of == "ring" else of, position),
    )
    refused = next((p for p, s in sources.items() if s.problem), None)
    if refused is not None:
        told = f"{refused}: {sources[refused].problem}"
        return record._replace(problem=told, blamed=refused)
    return _computed(record, system)


def _computed(record: Record, system: System) -> Record:
    function = record.function
    assert function is not None
    values = [a.value for a in record.arguments]
    if function.takes_units:
        values += [OMITTED] * (len(function.parameters) - len(values)) + [system]
    try:
        result = calculate(function, values)
    except ArgumentError as error:
        blamed = tuple(
            a._replace(problem=error.why) if a.name == error.parameter else a
            for a in record.arguments
        )
        return record._replace(
            arguments=blamed,
            problem=str(error),
            blamed=error.parameter,
            missing=error.missing,
            impossible=error.impossible,
        )
    return record._replace(
        value=result.value, recomputed=result.value, unit=result.unit, state="computed"
    )


def on_its_sheet(record: Record) -> Record:
    """A record with the cells of its own sheet named without the sheet."""
    prefix = re.escape(str(Place(record.place.sheet, "A1")).removesuffix("A1"))
    return _without(record, re.compile(rf"(?<![\w'!.]){prefix}"))


def _without(record: Record, sheet: re.Pattern[str]) -> Record:
    formula = sheet.sub("", record.formula)
    if formula == record.formula:
        return record
    arguments = tuple(
        a._replace(text=sheet.sub("", a.text), by=_without(a.by, sheet) if a.by else None)
        for a in record.arguments
    )
    return record._replace(formula=formula, arguments=arguments)


def _in_unit(reading: Known, kind: Kind, system: System) -> float | None:
    """A reading that was written down, in the unit of the result that it is compared with."""
    written = size(reading)
    return None if written is None else float(f"{from_si(written, kind, system):.12g}")
