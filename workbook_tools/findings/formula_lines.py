"""Formulas of a line that do not go on as the others do, and ranges that leave out a part of it."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import MOST_ALSO, Finding, named
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import CutRange, UnlikeFormula


def check_formula_lines(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each formula that takes other cells than its line, or too few of one."""
    unlike = {one.place for one in evidence.book.unlike}
    for one in evidence.book.unlike:
        yield _unlike(one)
    for cut in evidence.book.cut_ranges:
        if cut.place not in unlike:
            yield _cut_short(cut)


def _unlike(one: UnlikeFormula) -> Finding:
    known = isinstance(one.result, (int, float)) and not isinstance(one.result, bool)
    comes = f", which comes to {one.result:.6g}" if known else ""
    now = f" It says {one.value:.6g}." if known and isinstance(one.value, (int, float)) else ""
    here = frozenset({one.place})
    return Finding(
        "formula-unlike-siblings",
        one.place,
        f"{named(one.label, one.place)} takes {' and '.join(one.takes)}; as "
        f"{one.sibling.address} and {one.alike - 1} more of its line go on, it would take "
        f"{_listed(one.meant, one.place)}{comes}.{now}",
        "Copy the formula anew from the one beside it, or write beside it why it differs.",
        (*one.meant, one.sibling),
        explains=here,
        rests_on=here,
    )


def _cut_short(cut: CutRange) -> Finding:
    return Finding(
        "range-cut-short",
        cut.place,
        f"{named(cut.label, cut.place)} takes {_listed((cut.takes,), cut.place)} and leaves out "
        f"{_listed(cut.left_out, cut.place)} of the same line.",
        "Let the range reach over all readings, and count them anew.",
        cut.left_out[:MOST_ALSO],
        explains=frozenset({cut.place}),
    )


def _listed(places: tuple[Place, ...], of: Place) -> str:
    """Places as a formula in a cell would name them."""
    return " and ".join(p.address if p.sheet == of.sheet else str(p) for p in places)
