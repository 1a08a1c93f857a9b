"""Balance card: weights by cylinder, bobweight, what is left in the crank."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, of_all, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, Table, table
from workbook_tools.formulas.references import fixed

TITLE = "Balance"
# What is weighed for each cylinder, and once for all; with its measurand.
_OWN = {
    "Piston": "piston_mass",
    "Pin": "pin_mass",
    "Small end": "rod_small_end_mass",
    "Big end": "rod_big_end_mass",
}
_SAME = {"Ring set": "ring_mass", "Locks, both": "pin_lock_mass", "Shells, pair": "bearing_mass"}
_SUMS = {
    "Reciprocating": ("Piston", "Pin", "Small end", "Ring set", "Locks, both"),
    "Rotating": ("Big end", "Shells, pair"),
}


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Balance card", (11, 12, 12, 12, 9, 12, 12, 10, 17))
    weights = _weights(draft, page)
    page.gap()
    _set(draft, page, weights)
    page.finish()


def _weights(draft: Draft, page: Page) -> Table:
    page.section(
        "Weights after matching",
        "Each part weighed two or three times, the rods at each end separately. Locks: both of a "
        "piston together.",
    )
    lines = Lines(page, "One of each")
    same = {
        part: fixed(lines.line(part, q.alone(q.of(mass)), note="of one cylinder; they are alike"))
        for part, mass in _SAME.items()
    }

    def total(parts: Iterable[str]) -> Callable[[Cells], str]:
        def formula(c: Cells) -> str:
            cells = [c.get(part, same.get(part, "")) for part in parts]
            return when_filled("+".join(cells), *cells)

        return formula

    columns = [Column(part, quantity=q.alone(q.of(mass))) for part, mass in _OWN.items()]
    for head, parts in _SUMS.items():
        columns.append(Column(head, "result", q.of(f"{head.lower()}_mass"), formula=total(parts)))
    return table(page, "Weights", "Cyl", draft.plan.cylinder_rows, columns)


def _set(draft: Draft, page: Page, weights: Table) -> None:
    plan = draft.plan
    page.section("The set, the bobweight, and what is left")
    lines = Lines(page, "Balance")
    lines.head(*JUDGED)
    for part in _OWN if plan.cylinders > 1 else ():
        column = weights.column(part)
        lines.line(
            f"{part}, heaviest less lightest",
            q.MASS,
            called(plan, "MASS_SPREAD", column),
            judged=True,
        )
    means = {}
    for head in _SUMS:
        column = weights.column(head)
        means[head] = lines.line(
            f"{head}, mean of one cylinder",
            q.of(f"{head.lower()}_mass"),
            of_all(plan, "MEAN_READING", column, plan.cylinders),
        )
    factor = lines.line(
        "Share of the reciprocating mass",
        q.of("balance_factor"),
        role="spec",
        required=True,
        prompt="0.5 in most 90-degree V engines with two rods on a journal; 0 where the "
        "reciprocating parts balance each other. Ask the crank's maker.",
        note="from the crank maker; type 0 for a crank that is spun bare",
    )
    oil = lines.line(
        "Oil on one journal",
        q.of("oil_allowance"),
        role="spec",
        required=True,
        prompt="Type 0 for none.",
        note="0 for none",
    )
    needed = (means["Rotating"], means["Reciprocating"], factor, oil)
    lines.line(
        "Bobweight for one journal",
        q.of("bobweight"),
        when_filled(plan.call("BOBWEIGHT", *needed[:3], plan.rods_per_journal, oil), *needed),
        note=f"{plan.rods_per_journal} rod{'s' * (plan.rods_per_journal > 1)} on a journal",
    )
    mass = lines.line("Crank, with the bobweights on it", q.of("crank_mass"))
    grade = lines.line(
        "Balance quality grade G", q.of("balance_grade"), role="spec", note="the number after the G"
    )
    speed = draft.cells["speed"]
    permitted = lines.line(
        "Permitted by the grade, both planes",
        q.of("permissible_unbalance"),
        called(plan, "PERMISSIBLE_UNBALANCE", mass, speed, grade),
    )
    for end in ("front", "rear"):
        lines.line(
            f"Unbalance left at the {end}",
            q.of("crank_unbalance"),
            judged=True,
            limits=Limits(
                0,
                when_filled(f"ROUND({permitted}/2,{plan.pick(2, 1)})", permitted),
                "half of the permitted",
            ),
        )
    lines.line("Drilled, added, balanced outside", None, role="text")
    lines.line("Weighed by", None, role="sign")
