"""Numbers judged by the limits that the book itself writes beside them, without a call of ours."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workbook_tools.findings.book_limits import OwnLimits, own_limits, size_in_si, stands_above
from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import (
    MEASURE_FINER,
    MORE,
    Finding,
    cannot_tell,
    result_named,
    shown,
)
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Reading
from workbook_tools.jobs.uncertainty import Key, Uncertainty, key_of
from workbook_tools.quantities import from_si


def check_own_limits(evidence: Evidence, uncertain: Mapping[Key, Uncertainty]) -> Iterator[Finding]:
    """A finding for each size outside the least or the most beside it, or too near to tell.

    uncertain: the expanded uncertainty of each number that it is known of.
    """
    told: set[tuple[Place, Place, str]] = set()
    for size, own in own_limits(evidence):
        call = size.call
        if call is not None and not size.place.address and call.measurand != size.measurand:
            continue  # A mean that a call takes: the sizes that it is of are told themselves.
        unsure = _cannot_tell(size, own, uncertain)
        about = own.missed or (unsure and (own.low or own.high))
        if not about:
            continue
        # A clearance that stands in a cell and is made by a call too is one deviation.
        key = (size.place, about.place, size.shown)
        if not size.place.address or key not in told:
            told.add(key)
            yield _outside(size, about, unsure) if own.missed else _too_near(size, own, unsure)


def _cannot_tell(size: Size, own: OwnLimits, uncertain: Mapping[Key, Uncertainty]) -> str:
    """A sentence where a limit lies within the uncertainty of the size, else ""."""
    call = size.call
    # The call that a typed size is given to is another than the one that makes it.
    makes_it = call is not None and (call.place, call.measurand) == (size.place, size.measurand)
    known = uncertain.get(key_of(call) if call is not None and makes_it else size.place)
    if known is None:
        return ""
    value, low, high = (
        None if si is None else from_si(si, size.kind, size.system)
        for si in (size.si, *(limit and size_in_si(limit) for limit in (own.low, own.high)))
    )
    return "" if value is None else cannot_tell(known, known.unproved(value, low, high))


def _outside(size: Size, limit: Reading, unsure: str) -> Finding:
    where = "below the least" if limit.stage == "limit_low" else "above the most"
    own, bound = (from_si(si, size.kind, size.system) for si in (size.si, size_in_si(limit)))
    written = -own if stands_above(size, limit) else own
    off = shown(float(f"{abs(written - bound):.4g}"), size.unit)
    place, name = _told_of(size)
    outside = (
        f"{off} {where} that the book itself gives, {limit.shown} ({limit.place.address}). {unsure}"
    ).rstrip()
    return Finding(
        "out-of-band",
        place,
        f"{name} is {size.shown}, {outside}",
        "Measure again; correct the part, or say beside it who accepts it and why.",
        (limit.place,),
        aside=f"{size.shown} is {outside}",
    )


def _too_near(size: Size, own: OwnLimits, unsure: str) -> Finding:
    place, name = _told_of(size)
    ends = {"least": own.low, "most": own.high}
    limits = [f"the {w} is {r.shown} ({r.place.address})" for w, r in ends.items() if r]
    return Finding(
        "cannot-tell",
        place,
        f"{name}{MORE} is {size.shown}, ok by simple acceptance: {', '.join(limits)}. {unsure}",
        MEASURE_FINER,
        tuple(r.place for r in ends.values() if r),
        group=("cannot-tell", size.measurand),
    )


def _told_of(size: Size) -> tuple[Place, str]:
    """The cell that a size is told at and what it is called.

    What the batch computes stands in no cell, and is told at one that it takes.
    """
    if size.call is None or size.place.address:
        return size.place, size.name
    place = next((a.place for a in size.call.arguments if a.place), size.place)
    return place, result_named(size.call, place)
