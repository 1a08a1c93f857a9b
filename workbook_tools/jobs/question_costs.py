"""What each question about a job costs: the results that are not computed until it is answered."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from workbook_tools.jobs.derivable import derivables
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.records import Evidence, Question, Reading, Record
from workbook_tools.labels.candidates import Candidates
from workbook_tools.labels.layout import Form
from workbook_tools.labels.sizes import si_factor
from workbook_tools.measurands import find
from workbook_tools.quantities import System

# An engine of so many cylinders, to see what is computed once their number is known.
_SOME_CYLINDERS = 4
_COSTS_NOTHING = ("job number", "dates")
# A result: what, of what there are several, and which one.
_Result = tuple[str, str, str]
# What these readings, with so many cylinders, give.
Compute = Callable[[Sequence[Reading], int | None], Sequence[Record]]


@dataclass(frozen=True)
class Asked:
    """A job as far as it is read: what its questions are asked of.

    readings: every typed number; candidates: what its labels say; form: of its layout; system:
    that most of it is in; records: what its calls and the batch give; sheet: the title of its
    first sheet.
    """

    readings: tuple[Reading, ...]
    candidates: Candidates
    job: Job
    form: Form
    system: System
    records: tuple[Record, ...]
    sheet: str

    @property
    def by_calls(self) -> bool:
        """Whether worksheet functions of ours say what matters of it."""
        return any(not record.computed_by_batch for record in self.records)


def with_costs(asked: Asked, found: Sequence[Question], compute: Compute) -> Iterator[Question]:
    """Questions with the results that are not computed until each is answered."""
    now = _computed(asked.records)
    # Most that stands twice is a torque, say, which nothing is worked out from.
    of_results = {r.place for r in asked.readings if r.measurand in derivables().names}
    every = frozenset(
        q
        for q in found
        if q.kind not in _COSTS_NOTHING
        if q.kind == "cylinders" or not of_results.isdisjoint(q.places)
    )

    @cache
    def given(answered: frozenset[Question]) -> Mapping[_Result, None]:
        return _computed(_answered(asked, answered, compute)) if answered else now

    gained = [result for result in given(every) if result not in now]
    for question in found:
        costs: Counter[tuple[str, str]] = Counter()
        if question in every:
            alone, others = given(frozenset({question})), every - {question}
            needs = (r for r in gained if r not in alone and r not in given(others))
            lacking = [*(r for r in alone if r not in now), *needs]
            costs.update((title, of) for title, of, _ in lacking)
        yield question._replace(costs=tuple(_counted(t, of, n) for (t, of), n in costs.items()))


def _counted(title: str, of: str, number: int) -> str:
    """A result and of how many it is: "compression ratio of 8 cylinders"."""
    title = title[:1].lower() + title[1:]
    if number == 1:
        return title
    return f"{title} of {number} {of.replace('_', ' ') or 'part'}s"


def _computed(records: Iterable[Record]) -> dict[_Result, None]:
    """The results that have a value, in order."""
    return {
        (r.label.text, r.part.of, r.part.short): None
        for r in records
        if r.value is not None and r.label is not None
    }


def _answered(asked: Asked, questions: Collection[Question], compute: Compute) -> Sequence[Record]:
    """What is computed where these questions are answered as they are put."""
    none = {q.places[-1] for q in questions if q.kind == "twice"}
    places = {place for q in questions if q.kind != "twice" for place in q.places}
    readings = [r for r in asked.readings if r.place not in none]
    readings = [_as_asked(r, asked.system) if r.place in places else r for r in readings]
    cylinders = asked.form.cylinders
    if any(q.kind == "cylinders" for q in questions):
        bores = sum(r.measurand == "bore" and r.state == "read" for r in readings)
        cylinders = bores if bores > 1 else _SOME_CYLINDERS
    return compute(readings, cylinders)


def _as_asked(reading: Reading, system: System) -> Reading:
    """A reading as if the builder had said that it is what it is taken for."""
    term = find(reading.measurand)
    if term is None or reading.value is None or reading.state != "asked":
        return reading
    unit = reading.unit or (term.bare_unit(system) if term.kind.has_units else "")
    if reading.unit and si_factor(term, unit, system) is None:
        return reading  # In a unit of another kind it is nothing that can be computed with.
    told = (Evidence("layout", ""),)
    return reading._replace(
        state="read", reason="", kind=term.kind, unit=unit, evidence=told, system=system
    )
