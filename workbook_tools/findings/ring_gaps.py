"""Ring gaps as fitted against the gap that the book works out from bore and factor."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence, Size, measurands_of
from workbook_tools.findings.finding import Finding, measured
from workbook_tools.jobs.records import Record
from workbook_tools.quantities import LENGTH, from_si, to_si

# A gap within these shares of the wanted one is a choice; half and double are slips. Second
# rings may be a half wider than the top ones (common practice), so that they have no most.
_LEAST, _MOST = 0.72, 1.62


def check_ring_gaps(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each measured gap that is far from the one that the book wants."""
    wanted = [(r, to_si(v, LENGTH, r.system)) for r, v in evidence.calls("RING_GAP") if v > 0]
    for gap in evidence.of("ring_gap") if wanted else ():
        if gap.typed:
            yield from _far_from_wanted(gap, wanted)


def _far_from_wanted(gap: Size, wanted: list[tuple[Record, float]]) -> Iterator[Finding]:
    record, goal = min(wanted, key=lambda w: abs(w[1] - gap.si))
    share = gap.si / goal
    second = all(m.which not in ("top", "") for m in measurands_of(gap.measurand))
    if gap.si <= 0 or (share >= _LEAST and (share <= _MOST or second)):
        return
    what = "The ring may butt when it is hot" if share < 1 else "More of the gas gets past it"
    in_unit = float(f"{from_si(goal, LENGTH, gap.system):.4g}")
    where = f" in {record.place.address}" if record.place.address else ""
    yield Finding(
        "ring-gap-not-as-wanted",
        gap.place,
        f"{gap.name} is {gap.shown}, {share:.0%} of the {measured(in_unit, gap.unit)} that bore "
        f"and factor give{where}. {what}.",
        "Measure the gap again, square in its own finished bore, and see whether the factor is "
        "the ring maker's.",
        tuple(dict.fromkeys(a.place for a in record.arguments if a.place)),
        rests_on=frozenset({gap.place}),
    )
