"""A number of cylinders that is not the one that a book has readings of, or says."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.engine_text import cylinders_in

# So many things must be measured of just as many cylinders.
_FEWEST_ROWS = 3


def check_cylinder_count(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each count that differs from the cylinders that were measured.

    Half as many readings may be those of one bank: then the engine's name has to tell.
    """
    measured = _measured(evidence)
    named = cylinders_in(evidence.book.job.engine.text)
    if not measured:
        yield from _not_as_said(evidence, named)
    for count, place, said in _counts(evidence) if measured else ():
        half = count == 2 * measured and named != measured
        if count != measured and count != named and not half:
            yield Finding(
                "wrong-cylinder-count",
                place,
                f"{said} {count} cylinders, and the rows of readings are of cylinders 1 to "
                f"{measured}.",
                "Count the cylinders, and correct the number or add the readings.",
            )


def _not_as_said(evidence: Evidence, named: int | None) -> Iterator[Finding]:
    """A finding for each call with another number in its formula than a cell of the book says."""
    said = {s.number: s for s in evidence.of("cylinder_count") if s.typed}
    if len(said) != 1:
        return
    (stated,) = said.values()
    for count, place, told in _counts(evidence):
        if count not in (stated.number, named) and place != stated.place:
            yield Finding(
                "wrong-cylinder-count",
                place,
                f"{told} {count} cylinders, and {stated.name} says {stated.number:g}.",
                "Count the cylinders, and let the formula refer to the cell.",
                (stated.place,),
            )


def _measured(evidence: Evidence) -> int:
    """How many cylinders the readings number, 0 where they do not agree."""
    found: dict[str, set[int]] = defaultdict(set)
    for reading in evidence.readings:
        if reading.part.of == "cylinder" and reading.part.number and reading.measurand:
            found[reading.measurand].add(reading.part.number)
    most = max((max(numbers) for numbers in found.values()), default=0)
    whole = [numbers for numbers in found.values() if numbers == {*range(1, most + 1)}]
    several = most > 1 and len(whole) >= max(_FEWEST_ROWS, len(found) / 2)
    return most if several and not any(r.part.bank for r in evidence.readings) else 0


def _counts(evidence: Evidence) -> Iterator[tuple[int, Place, str]]:
    """The numbers of cylinders that calls of the book take: (number, cell, how it is told)."""
    for record in evidence.book.records:
        if record.function is None or record.computed_by_batch or not record.place.address:
            continue
        for argument in record.arguments:
            number = argument.value
            if argument.name == "cylinders" and isinstance(number, (int, float)):
                place = argument.place or record.place
                yield int(number), place, f"{record.name} in {record.place.address} takes"
