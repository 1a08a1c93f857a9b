"""Numbers outside the limits that the book itself writes beside them, without a call of ours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import Finding, named, shown
from workbook_tools.jobs.records import Reading
from workbook_tools.quantities import from_si

_JUDGED = ("", "final", "machined")


def check_own_limits(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each size that lies outside the least or the most beside it."""
    limits = _limits(evidence)
    judged: dict[str, list[tuple[Size, Reading | None]]] = defaultdict(list)
    for size in evidence.sizes:
        if size.sure and size.stage in _JUDGED and size.measurand in limits:
            judged[size.measurand].append((size, _missed(size, limits[size.measurand])))
    for sizes in judged.values():
        # Limits that three sizes or more all miss are of something else.
        if len(sizes) < 3 or not all(limit for _, limit in sizes):
            yield from (_finding(size, limit) for size, limit in sizes if limit)


def _missed(size: Size, limits: Mapping[str, Sequence[Reading]]) -> Reading | None:
    """The limit that a size lies outside of."""
    low, high = (_nearest(limits[end], size) for end in ("low", "high"))
    if low is not None and high is not None and _si(low) > _si(high):
        return None  # Not a least and a most, whatever their heads say.
    slack = 1e-9 + 1e-6 * abs(size.si)
    if low is not None and size.si < _si(low) - slack:
        return low
    return high if high is not None and size.si > _si(high) + slack else None


def _finding(size: Size, limit: Reading) -> Finding:
    where = "below the least" if size.si < _si(limit) else "above the most"
    own, bound = (from_si(si, size.kind, size.system) for si in (size.si, _si(limit)))
    off = shown(float(f"{abs(own - bound):.4g}"), size.unit)
    return Finding(
        "out-of-band",
        size.place,
        f"{size.name} is {size.shown}, {off} {where} that the book itself gives, "
        f"{limit.shown} ({limit.place.address}).",
        "Measure again; correct the part, or say beside it who accepts it and why.",
        (limit.place,),
    )


def _limits(evidence: Evidence) -> Mapping[str, Mapping[str, Sequence[Reading]]]:
    """The limits that the book writes, by measurand.

    Those that calls judge by are told there; of those asked about it is not known whose they are.
    """
    found: dict[str, dict[str, list[Reading]]] = defaultdict(lambda: {"low": [], "high": []})
    for reading in evidence.readings:
        end = {"limit_low": "low", "limit_high": "high"}.get(reading.stage)
        known = reading.state == "read" and reading.si is not None and not reading.uses
        if end and reading.measurand and known:
            found[reading.measurand][end].append(reading)
    return found


def _nearest(limits: Sequence[Reading], size: Size) -> Reading | None:
    """The limit of the same position, else the one limit that there is on the sheet."""
    here = [r for r in limits if r.place.sheet == size.place.sheet]
    same = [r for r in here if r.part.number == size.part.number and r.part.bank == size.part.bank]
    if same:
        return same[0] if len({r.si for r in same}) == 1 else None
    values = {r.si for r in here}
    return here[0] if len(values) == 1 and not any(r.part.number for r in here) else None


def _si(reading: Reading) -> float:
    assert reading.si is not None, f"{named(reading.label, reading.place)} has no unit"
    return reading.si
