"""The gasket's bore against the cylinder's, and bores taken one for the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from workbook_tools.findings.evidence import Evidence, Size, near
from workbook_tools.findings.finding import Finding, call_of

# A gasket bore is usually 0.030 to 0.200 in above the cylinder's (common practice, no source).
# Less than this share above it, a third of the least, the two are one number; beyond the other
# share, it is likely another engine's.
LEAST_ABOVE = 0.0025
MOST_ABOVE = 0.12


def check_gasket(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each gasket bore that is not above the finished bores, or far above them."""
    bores = [b for b in evidence.finished("bore") if b.si > 0]
    gaskets = {g.place: g for g in evidence.of("gasket_bore") if g.si > 0}
    for place, gasket in gaskets.items():
        same = next((b for b in bores if b.place == place), None)
        if same is not None:
            yield _one_cell(gasket, same)
        elif bores:
            yield from _compared(gasket, near(bores, place.sheet))


def _one_cell(gasket: Size, bore: Size) -> Finding:
    used = " and ".join(
        f"the {whose} in {call_of(s.call)}"
        for whose, s in (("cylinder's bore", bore), ("gasket's", gasket))
        if s.call
    )
    return Finding(
        "gasket-bore-is-bore",
        gasket.place,
        f"{gasket.name} is {used}. The gasket's volume comes out too small and the ratio too high.",
        "Measure the bore of the gasket's fire ring and enter it in its own cell.",
        tuple(s.call.place for s in (bore, gasket) if s.call and s.call.place.address),
    )


def _compared(gasket: Size, bores: Sequence[Size]) -> Iterator[Finding]:
    largest, smallest = (pick(bores, key=lambda b: b.si) for pick in (max, min))
    if gasket.si < largest.si * (1 + LEAST_ABOVE):
        verb = "as good as equal to" if gasket.si >= largest.si else "smaller than"
        yield Finding(
            "gasket-bore-not-above-bore",
            gasket.place,
            f"{gasket.name}, {gasket.shown}, is {verb} the finished bore {largest.name}, "
            f"{largest.shown}: the fire ring would hang into the cylinder, or one bore was typed "
            "for the other.",
            "Measure the bore of the gasket's fire ring; do not run a ring in the bore.",
            (largest.place,),
            rests_on=frozenset({gasket.place, largest.place}),
        )
    elif gasket.si > smallest.si * (1 + MOST_ABOVE):
        yield Finding(
            "gasket-bore-far-above-bore",
            gasket.place,
            f"{gasket.name}, {gasket.shown}, is {gasket.si / smallest.si - 1:.0%} above the "
            f"finished bore {smallest.name}, {smallest.shown}; a gasket of another engine?",
            "Measure the bore of the gasket's fire ring and check its number.",
            (smallest.place,),
            rests_on=frozenset({gasket.place, smallest.place}),
        )
