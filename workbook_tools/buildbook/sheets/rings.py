"""Rings: gap wanted from each cylinder's own bore, gap filed, side clearance."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import pulled, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.sheets.pistons import choices, usual
from workbook_tools.buildbook.table import Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Rings"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Rings", (9.5, 10.5, 10, 10, 10, 8, 10, 10, 10, 8, 10, 8, 9))
    top, second, widest = _wanted(draft, page)
    page.gap()
    _gaps(draft, page, top, second, widest)
    page.gap()
    _sides(draft, page)
    page.finish()


def _wanted(draft: Draft, page: Page) -> tuple[str, str, str]:
    """Factors of the top and the second ring, and the room above them."""
    plan = draft.plan
    page.section(
        "Gap wanted for each unit of bore",
        "The ring maker's card comes first. A gap too small lets the ends meet when hot, and the "
        "ring breaks the piston.",
    )
    lines = Lines(page, "Ring gap wanted")
    use = lines.line(
        "Use of the engine", None, role="spec", words=choices("RING_GAP_FACTOR", "use")
    )
    for ring in ("top", "second"):
        lines.line(
            f"Usual for this use, {ring} ring",
            q.of("ring_gap_factor"),
            when_filled(plan.call("RING_GAP_FACTOR", use, f'"{ring}"'), use),
            note="by the table of bands",
        )
    top, second = (
        lines.line(
            f"Taken for this engine, {ring} ring",
            q.of("ring_gap_factor"),
            role="spec",
            prompt="Gap for each unit of bore, such as 0.0045.",
            note="from the ring maker's card",
        )
        for ring in ("top", "second")
    )
    widest = lines.line(
        "Room above the wanted gap",
        q.alone(q.GAP),
        role="spec",
        start=plan.pick(0.006, 0.15),
        note="a filed gap may be wider by as much",
    )
    return top, second, widest


def _gaps(draft: Draft, page: Page, top: str, second: str, widest: str) -> None:
    plan = draft.plan
    page.section("End gaps, filed to each bore and checked square in it")
    bores = iter(draft.ranges["mean bore"])

    def wanted(factor: str) -> Column:
        name = "Top" if factor == top else "Second"
        return Column(
            f"{name} gap wanted",
            "result",
            q.of(f"{name.lower()}_ring_gap"),
            formula=lambda c: when_filled(
                plan.call("RING_GAP", c["Bore"], fixed(factor)),
                fixed(factor),
                c["Bore"],
            ),
        )

    def most(name: str) -> Column:
        return Column(
            f"{name} gap, most",
            "result",
            q.of(f"{name.lower()}_ring_gap"),
            formula=lambda c: when_filled(
                f"{c[f'{name} gap wanted']}+{fixed(widest)}",
                fixed(widest),
                c[f"{name} gap wanted"],
            ),
        )

    def verdict(name: str) -> Column:
        def formula(c: Cells) -> str:
            fitted, low, high = c[f"{name} gap"], c[f"{name} gap wanted"], c[f"{name} gap, most"]
            return when_filled(plan.call("VERDICT", fitted, low, high), fitted, low, high)

        return Column(f"{name} verdict", "verdict", formula=formula)

    gaps = table(
        page,
        "Rings",
        "Cyl",
        plan.cylinder_rows,
        (
            Column("Bore", "pulled", q.of("bore"), formula=lambda _c: pulled(next(bores))),
            wanted(top),
            most("Top"),
            Column("Top gap", quantity=q.of("top_ring_gap")),
            verdict("Top"),
            wanted(second),
            most("Second"),
            Column("Second gap", quantity=q.of("second_ring_gap")),
            verdict("Second"),
            Column(
                "Oil rail gap, least",
                quantity=q.of("oil_ring_gap"),
                judged=True,
                limits=usual(plan, "oil ring gap", "street"),
            ),
            Column("Filed by", "sign"),
        ),
    )
    page.verdicts += [c[f"{name} verdict"] for c in gaps.cells for name in ("Top", "Second")]


def _sides(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Side clearance of the rings in their grooves")

    def clearance(name: str) -> Column:
        def formula(c: Cells) -> str:
            sizes = (c[f"{name} groove"], c[f"{name} ring width"])
            return when_filled(plan.call("RING_SIDE_CLEARANCE", *sizes), *sizes)

        return Column(
            f"{name} side clearance",
            "result",
            q.of(f"{name.lower()}_ring_side_clearance"),
            formula=formula,
            judged=True,
            limits=Limits(plan.pick(0.0010, 0.03), plan.pick(0.0025, 0.07)),
        )

    table(
        page,
        "Ring sides",
        "Cyl",
        plan.cylinder_rows,
        (
            Column("Top groove", quantity=q.of("top_groove_width")),
            Column("Top ring width", quantity=q.of("top_ring_width")),
            clearance("Top"),
            Column("Second groove", quantity=q.of("second_groove_width")),
            Column("Second ring width", quantity=q.of("second_ring_width")),
            clearance("Second"),
            Column("Gaps set at, which way up", "text", span=3),
            Column("Fitted by", "sign"),
        ),
    )
