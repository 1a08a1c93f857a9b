"""A number of one job that a slip parts from those of all other jobs of its file."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence, Size, measurands_of
from workbook_tools.findings.finding import Finding, measured
from workbook_tools.findings.slips import digits_exchanged
from workbook_tools.jobs.records import Beside
from workbook_tools.labels.label import Label
from workbook_tools.measurands import find
from workbook_tools.quantities import LENGTH, TEMPERATURE, from_si, to_si

# So many other jobs to compare with, at least.
_FEWEST = 4
# So far from the nearest of them a number must lie, as a factor.
_FAR = 3.0
# So alike the others are, and so far off it is as a share, where two digits exchanged are told.
_ALIKE, _APART = 0.02, 0.005
_OF_LENGTHS = (
    (25.4, "wrong-unit", "millimeters stand where inches belong"),
    (1 / 25.4, "wrong-unit", "inches stand where millimeters belong"),
    (1000.0, "thousandths", "thousandths stand where whole units belong"),
)
_OF_ALL = (
    (10.0, "slipped-decimal", "the decimal point is one place too far right"),
    (0.1, "slipped-decimal", "the decimal point is one place too far left"),
)


def check_beside(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each number that is as those of all other jobs with one slip undone."""
    near = evidence.book.beside
    others = {(b.measurand, b.which, b.stage): b for b in near if b.cell is None}
    strange = [(size, b) for b in near if (size := _as_theirs(evidence, b)) is not None]
    known = ((s, others.get((s.measurand, s.part.which, s.stage))) for s in evidence.sizes)
    for size, found in (*strange, *(known if others else ())):
        if found is None or found.many < _FEWEST or not size.typed or size.kind is TEMPERATURE:
            continue
        if slip := _slip(size, found.least, found.most):
            yield _finding(size, found, *slip)


def _as_theirs(evidence: Evidence, others: Beside) -> Size | None:
    """A number that is not understood as what the others of its column are."""
    reading = evidence.by_place.get(others.cell) if others.cell else None
    term = find(others.measurand)
    if reading is None or term is None:
        return None
    kind, system = term.kind, others.system
    return Size(
        reading.place, Label(term.name), others.measurand, reading.part, others.stage,
        reading.number, to_si(reading.number, kind, system), kind, system, kind.unit(system),
        typed=True,
    )  # fmt: skip


def _slip(size: Size, least: float, most: float) -> tuple[str, float, str] | None:
    """The code, the number with the slip undone and the slip; None where there is none."""
    if least <= 0 or size.si <= 0:
        return None  # What may be on either side of zero has no factor.
    # A depth that may be on either side of zero can be as near to that as any.
    small = size.si < least / _FAR and not any(m.signed for m in measurands_of(size.measurand))
    if size.si > _FAR * most or small:
        for factor, code, words in (*_OF_ALL, *(_OF_LENGTHS if size.kind is LENGTH else ())):
            if least <= size.si / factor * 1.0001 and size.si / factor <= most * 1.0001:
                return code, size.number / factor, words
    apart = max(least - size.si, size.si - most)
    if most > least * (1 + _ALIKE) or apart < max(_APART * least, 2 * _FAR * (most - least)):
        return None
    for number in digits_exchanged(size.number):
        if least * 0.9999 <= size.si * number / size.number <= most * 1.0001:
            return "digits-exchanged", number, "two of its digits are exchanged"
    return None


def _finding(size: Size, others: Beside, code: str, undone: float, words: str) -> Finding:
    here = frozenset({size.place})
    low, high = (
        measured(from_si(si, size.kind, size.system), size.unit)
        for si in (others.least, others.most)
    )
    said = low if low == high else f"between {low} and {high}"
    return Finding(
        code,
        size.place,
        f"{size.name} is {size.shown}; the other {others.many} jobs of the file have {said}. It "
        f"fits if {words} ({measured(undone, size.unit)}).",
        "Look at the first record of the job, and measure again before it is changed.",
        explains=here,
        rests_on=here,
    )
