"""A number of cylinders that is not the one that a book has readings of, or says."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator
from statistics import median

from workbook_tools.findings.evidence import Evidence, Size, near
from workbook_tools.findings.finding import Finding, measured
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.engine_text import cylinders_in

# So many things must be measured of just as many cylinders.
_FEWEST_ROWS = 3
# As many rows, for each of those, may go on further: they may be of mains, and say so nowhere.
_STRAY = 0.2
# As near, in cylinders, what bore and stroke make of a displacement must be to a whole number of
# them for this to be the one that it was worked out with.
_WHOLE = 0.02


def check_cylinder_count(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each count that differs from the cylinders that were measured.

    Half as many readings may be those of one bank: then the engine's name has to tell.
    """
    rows = _measured(evidence)
    named = cylinders_in(evidence.book.job.engine.text)
    if not rows:
        yield from _not_as_said(evidence, named)
    yield from _of_displacement(evidence, rows or named or 0)
    for count, place, said in _counts(evidence) if rows else ():
        half = count == 2 * rows and named != rows
        if count != rows and count != named and not half:
            yield Finding(
                "wrong-cylinder-count",
                place,
                f"{said} {count} cylinders, and the rows of readings are of cylinders 1 to {rows}.",
                "Count the cylinders, and correct the number or add the readings.",
                explains=frozenset({place}),
            )


def _of_displacement(evidence: Evidence, cylinders: int) -> Iterator[Finding]:
    """A finding for each displacement that bore and stroke give with another number of them."""
    said = {round(s.number) for s in evidence.of("cylinder_count") if s.typed}
    for size in evidence.finished("displacement") if cylinders else ():
        one = _of_one_cylinder(evidence, size)
        count = round(size.si / one) if one else 0
        # The volume of one is often told besides; a number that the book says, at its cell.
        if count < 2 or count in said or count == cylinders or size.place in evidence.called:
            continue
        if abs(size.si / one - count) <= _WHOLE:
            yield Finding(
                "wrong-cylinder-count",
                size.place,
                f"{size.name} is {measured(size.number, size.unit)}, which bore and stroke give "
                f"with {count} cylinders; the engine has {cylinders}.",
                "Count the cylinders, and work the displacement out again.",
                explains=frozenset({size.place}),
            )


def _of_one_cylinder(evidence: Evidence, displacement: Size) -> float:
    """The volume (SI) that a piston sweeps, 0.0 where bore or stroke is not known for sure."""
    sheet = displacement.place.sheet
    bores = [s.si for s in near(evidence.finished("bore"), sheet)]
    strokes = {s.si for s in near(evidence.finished("stroke"), sheet)}
    if not bores or len(strokes) != 1:
        return 0.0
    return math.pi / 4 * median(bores) ** 2 * strokes.pop()


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
    for reading in evidence.named:
        if reading.part.of == "cylinder" and reading.part.number and reading.measurand:
            found[reading.measurand].add(reading.part.number)
    whole = Counter(max(n) for n in found.values() if n == {*range(1, max(n) + 1)})
    most, rows = whole.most_common(1)[0] if whole else (0, 0)
    beyond = sum(max(numbers) > most for numbers in found.values())
    several = most > 1 and rows >= max(_FEWEST_ROWS, len(found) / 2) and beyond <= rows * _STRAY
    return most if several and not any(r.part.bank for r in evidence.readings) else 0


def _counts(evidence: Evidence) -> Iterator[tuple[int, Place, str]]:
    """The numbers of cylinders that a book has: (number, cell, how it is told).

    Those that its calls take, and those that it says.
    """
    told: set[Place] = set()
    for record in evidence.book.records:
        if record.function is None or record.computed_by_batch or not record.place.address:
            continue
        for argument in record.arguments:
            number = argument.value
            if argument.name == "cylinders" and isinstance(number, (int, float)):
                place = argument.place or record.place
                yield int(number), place, f"{record.name} in {record.place.address} takes"
                told.add(place)
    for size in evidence.of("cylinder_count"):
        if size.typed and size.place not in told:
            yield round(size.number), size.place, f"{size.name} says"
