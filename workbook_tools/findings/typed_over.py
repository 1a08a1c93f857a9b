"""Typed over: a constant where its siblings have a formula, so that the answer is frozen."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding, named


def check_typed_over(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each number typed into a row of formulas."""
    for typed in evidence.book.typed_over:
        result, sibling = typed.result, typed.sibling
        known = isinstance(result, (int, float)) and not isinstance(result, bool)
        if sibling.sheet == typed.place.sheet:
            comes = f", which comes to {result:.6g}" if known else ""
            has = f"beside it has a formula; here it would be {typed.formula}{comes}"
        else:
            # The very same formula, which may take many cells.
            has = f"on {sibling.sheet} has a formula, which comes to {result:.6g} here"
        yield Finding(
            "typed-over",
            typed.place,
            f"{named(typed.label, typed.place)} is a typed {typed.value:.6g} where "
            f"{sibling.address} {has}.",
            "Copy the formula back into the cell, or write beside it why the number stands.",
            (sibling,),
        )
