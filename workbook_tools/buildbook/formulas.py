"""Formulas that wait: nothing is computed before every cell that it needs is filled."""

from __future__ import annotations

from workbook_tools.buildbook.plan import Plan
from workbook_tools.formulas.references import fixed, quoted


def elsewhere(title: str, address: str) -> str:
    """An address on another sheet."""
    return f"{quoted(title)}!{fixed(address)}"


def when_filled(formula: str, *needed: str) -> str:
    """A formula that stays blank as long as one of the cells it needs is blank.

    needed: cells and ranges, typed or computed. Anything in them counts as filled, so that a
    text that is no number shows as an error and not as a gap.
    """
    counts = "+".join(f"COUNTBLANK({cell})" for cell in dict.fromkeys(needed))
    return f'=IF({counts}=0,{formula},"")'


def called(plan: Plan, name: str, *cells: str) -> str:
    """A call of a worksheet function that stays blank as long as one of its cells is."""
    return when_filled(plan.call(name, *cells), *cells)


def of_all(plan: Plan, name: str, readings: str, *more: object) -> str:
    """A call over a range of readings that stays blank as long as one of them is."""
    return when_filled(plan.call(name, readings, *more), readings)


def pulled(reference: str) -> str:
    """What another cell shows, blank while that one is."""
    return f'=IF({reference}="","",{reference})'
