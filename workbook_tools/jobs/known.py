"""Which of a book's readings are computed with, and which contradict one another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, field
from operator import is_not
from typing import Any, NamedTuple, TypeVar

from workbook_tools.books.places import order_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Reading, StatedResult
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.content import Field, Value, si
from workbook_tools.labels.label import Label
from workbook_tools.labels.vocabulary import NO_SIZES
from workbook_tools.measurands import Stage, find
from workbook_tools.quantities import Kind

NOT_MEASURED = ("target", "limit_low", "limit_high")
# Of sizes of several stages the later one holds.
_ORDER: tuple[Stage, ...] = ("final", "machined", "", "found")


class Known(NamedTuple):
    """A reading, a builder's own result or an empty cell, as computations look it up.

    position: "3", "L2", "L", "" where there is one for all; value: None where it cannot be
    used, and then problem says why, "" for a cell that is empty.
    """

    name: str
    label: Label
    position: str
    at: str
    stage: Stage
    value: float | None
    unit: str
    kind: Kind
    place: Place
    typed: bool
    raw: object
    problem: str = ""


_Worked = TypeVar("_Worked")


@dataclass
class Remembered:
    """What was worked out of a job's readings, where they are asked again with a few changed.

    facts: by the id of a reading, which is kept so that no other has its id; groups: what is
    computed with of each measurand, with what is known of it; worked: what was worked out of
    other objects, by what it is and the ids of these, which are kept too.
    """

    facts: dict[int, tuple[Reading, Known | None]] = field(default_factory=dict)
    groups: dict[str, tuple[list[Known], dict[str, tuple[Known, ...]]]] = field(
        default_factory=dict
    )
    worked: dict[tuple[Hashable, ...], tuple[Sequence[object], Any]] = field(default_factory=dict)

    def once(self, what: Hashable, of: Sequence[object], work: Callable[[], _Worked]) -> _Worked:
        """What is worked out of these very objects, the same one whenever it is asked for."""
        key = what, *map(id, of)
        if key not in self.worked:
            self.worked[key] = of, work()
        found: _Worked = self.worked[key][1]
        return found

    def fact(self, reading: Reading) -> Known | None:
        """A reading as computations look it up, None where it is of no use to them."""
        if id(reading) not in self.facts:
            use = reading.measurand and not _only_alike(reading)
            self.facts[id(reading)] = reading, _of_reading(reading) if use else None
        return self.facts[id(reading)][1]

    def group(self, name: str, found: list[Known]) -> dict[str, tuple[Known, ...]]:
        """What to compute with of one measurand, by position."""
        before, usable = self.groups.get(name, ([], {}))
        if len(before) != len(found) or any(map(is_not, before, found)):
            usable = _usable_of(found)
            self.groups[name] = found, usable
        return usable


def known(
    readings: Iterable[Reading],
    missing: Iterable[Reading],
    stated: Iterable[StatedResult],
    remembered: Remembered | None = None,
) -> list[Known]:
    """What a job's readings and own results say, in the order of the book, measurands only."""
    fact = (remembered or Remembered()).fact
    found = [k for r in (*readings, *missing) if r.measurand and (k := fact(r)) is not None]
    found += [
        Known(
            s.measurand, s.label, s.part.which, " ".join(s.part.at), s.stage, s.value, s.unit,
            s.kind, s.place, typed=False, raw=s.value,
        )
        for s in stated
    ]  # fmt: skip
    return sorted(found, key=lambda k: order_of(k.place))


def _only_alike(reading: Reading) -> bool:
    """Whether only a label that resembles a known one says what a number is."""
    return all(e.how == "proposal" for e in reading.evidence)


def _of_reading(reading: Reading) -> Known:
    usable_now = reading.state == "read"
    return Known(
        name=reading.measurand,
        label=reading.label or Label(reading.measurand.replace("_", " ").capitalize()),
        position=reading.part.which,
        at=" ".join(reading.part.at),
        stage=reading.stage,
        value=reading.value if usable_now else None,
        unit=reading.unit,
        kind=reading.kind or _kind(reading.measurand),
        place=reading.place,
        typed=True,
        raw=reading.raw,
        problem="" if usable_now else reading.reason,
    )


def _kind(measurand: str) -> Kind:
    named = find(measurand)
    assert named is not None, f"{measurand} is not in the table of measurands"
    return named.kind


def usable(
    known: Iterable[Known], remembered: Remembered | None = None
) -> dict[str, dict[str, tuple[Known, ...]]]:
    """What to compute with: {measurand: {position: what is known of that one}}.

    Targets and limits are left out. A finished size goes before one without a stage, that
    before one as found. Where one reading stands in two places with two values, neither is
    taken.
    """
    by_name: dict[str, list[Known]] = defaultdict(list)
    for one in known:
        if one.stage not in NOT_MEASURED:
            by_name[one.name].append(one)
    group = (remembered or Remembered()).group
    return {n: positions for n, found in by_name.items() if (positions := group(n, found))}


def _usable_of(found: Sequence[Known]) -> dict[str, tuple[Known, ...]]:
    """What to compute with of all that is known of one measurand."""
    stages = {r.stage for r in found if r.value is not None} or {r.stage for r in found}
    stage = next(s for s in _ORDER if s in stages)
    kept = [r for r in found if r.stage == stage]
    if stage == "final" and any(not r.at and not r.position for r in kept):
        kept = [r for r in found if r.stage in ("final", "")] if len(kept) == 1 else kept
    by_position: dict[str, list[Known]] = defaultdict(list)
    for one in kept:
        by_position[one.position].append(one)
    if len(by_position) > 1 and "" in by_position:
        # One number beside a set of them is their mean, their limit, or the catalog's.
        del by_position[""]
    return {p: rs for p, many in by_position.items() if (rs := _agreed(many))}


def contradictions(readings: Iterable[Candidate]) -> tuple[tuple[Candidate, Candidate], ...]:
    """Pairs of readings that should be one and have two values."""
    seen: dict[tuple[str, str, str, str], Candidate] = {}
    pairs = []
    for reading in readings:
        if reading.value is None or reading.how == "proposal":
            continue
        if reading.stage in NO_SIZES:
            continue
        key = (reading.name, reading.position, reading.at, reading.stage)
        first = seen.setdefault(key, reading)
        if first is not reading and not same_size(first, reading):
            pairs.append((first, reading))
    return tuple(pairs)


def same_size(one: Candidate | Known, other: Candidate | Known) -> bool:
    """Whether two readings are one size, perhaps in two units and rounded."""
    sizes = [size(r) for r in (one, other)]
    if sizes[0] is None or sizes[1] is None:
        return False
    return abs(sizes[0] - sizes[1]) <= 2e-4 * max(abs(sizes[0]), abs(sizes[1]))


def size(reading: Candidate | Known) -> float | None:
    """A reading in SI, None where it has no value."""
    if reading.value is None:
        return None
    return si(Value(reading.value, reading.unit), Field(reading.name, reading.kind))


def _agreed(many: list[Known]) -> tuple[Known, ...]:
    """Readings of one position: one for each place on it; none where two contradict."""
    if len(many) == 1:
        return tuple(many)
    by_at: dict[str, list[Known]] = defaultdict(list)
    for reading in many:
        by_at[reading.at].append(reading)
    if len(by_at) > 1 and "" in by_at and all(r.value is not None for r in many):
        del by_at[""]
    kept = []
    for same in by_at.values():
        valued = sorted((r for r in same if r.value is not None), key=lambda r: not r.typed)
        if not valued:
            kept.append(same[0])
        elif all(same_size(valued[0], other) for other in valued[1:]):
            kept.append(valued[0])
        else:
            return ()
    return tuple(kept)
