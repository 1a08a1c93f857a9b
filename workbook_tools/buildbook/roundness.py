"""Columns of what the readings of a bore or of a journal come to: mean, taper, out of round."""

from __future__ import annotations

from collections.abc import Callable

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of
from workbook_tools.buildbook.formulas import of_all
from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.table import Cells, Column


def round_columns(
    plan: Plan, measurand: str, shape: str, mean: str, readings: Callable[[Cells], str], many: int
) -> tuple[Column, ...]:
    """The columns of the mean, the taper and the out of round, the last two judged.

    measurand: of the diameter; shape: "bore" or "journal", whose limits and functions they go by;
    mean: the head of the first; readings: the range of a row's readings; many: how many they are.
    """

    def of(function: str, *more: int) -> Callable[[Cells], str]:
        return lambda c: of_all(plan, function, readings(c), *more)

    def judged(head: str) -> Column:
        name = head.lower().replace(" ", "_")
        return Column(
            head,
            "result",
            q.of(f"{measurand}_{name}"),
            judged=True,
            limits=limits_of(plan, f"{shape} {head.lower()}"),
            formula=of(f"{shape}_{name}".upper()),
        )

    return (
        Column(mean, "result", q.of(measurand), formula=of("MEAN_READING", many)),
        judged("Taper"),
        judged("Out of round"),
    )
