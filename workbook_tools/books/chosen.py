"""Which of a book's readings are computed with, and which contradict one another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace

from workbook_tools.books.candidates import Candidate
from workbook_tools.books.content import Field, Value, si


def usable(readings: Iterable[Candidate]) -> dict[str, dict[str, tuple[Candidate, ...]]]:
    """The readings to compute with: {name: {position: readings of that one}}.

    Targets, means beside their readings and proposals are left out; a size that hardly can
    be has no value until the layout names its cell. A finished size goes before one without a
    stage, that before an incoming one. Where one reading stands in two places with two values,
    neither is taken.
    """
    by_name: dict[str, list[Candidate]] = defaultdict(list)
    for reading in readings:
        if reading.how != "proposal" and reading.stage not in ("target", "computed"):
            known = replace(reading, value=None) if reading.far_from_usual else reading
            by_name[reading.name].append(known)
    chosen: dict[str, dict[str, tuple[Candidate, ...]]] = {}
    for name, found in by_name.items():
        stages = {r.stage for r in found if r.value is not None} or {r.stage for r in found}
        stage = next(s for s in ("finished", "", "incoming") if s in stages)
        kept = [r for r in found if r.stage == stage]
        if stage == "finished" and any(not r.at and not r.position for r in kept):
            kept = [r for r in found if r.stage in ("finished", "")] if len(kept) == 1 else kept
        by_position: dict[str, list[Candidate]] = defaultdict(list)
        for reading in kept:
            by_position[reading.position].append(reading)
        if len(by_position) > 1 and "" in by_position:
            # One number beside a set of them is their mean, their limit, or the catalog's.
            del by_position[""]
        chosen[name] = {p: rs for p, many in by_position.items() if (rs := _agreed(many))}
    return {name: positions for name, positions in chosen.items() if positions}


def contradictions(readings: Iterable[Candidate]) -> tuple[tuple[Candidate, Candidate], ...]:
    """Pairs of readings that should be one and have two values."""
    seen: dict[tuple[str, str, str, str], Candidate] = {}
    pairs = []
    for reading in readings:
        if reading.value is None or reading.how == "proposal":
            continue
        if reading.stage in ("target", "computed"):
            continue
        key = (reading.name, reading.position, reading.at, reading.stage)
        first = seen.setdefault(key, reading)
        if first is not reading and not same_size(first, reading):
            pairs.append((first, reading))
    return tuple(pairs)


def same_size(one: Candidate, other: Candidate) -> bool:
    """Whether two readings are one size, perhaps in two units and rounded."""
    sizes = [size(r) for r in (one, other)]
    if sizes[0] is None or sizes[1] is None:
        return False
    return abs(sizes[0] - sizes[1]) <= 2e-4 * max(abs(sizes[0]), abs(sizes[1]))


def size(reading: Candidate) -> float | None:
    """A reading in SI, None where it has no value."""
    if reading.value is None:
        return None
    return si(Value(reading.value, reading.unit), Field(reading.name, reading.kind))


def _agreed(many: list[Candidate]) -> tuple[Candidate, ...]:
    """Readings of one position: one for each place on it; none where two contradict."""
    by_at: dict[str, list[Candidate]] = defaultdict(list)
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
