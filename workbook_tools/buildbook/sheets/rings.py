"""Rings: gap wanted from each cylinder's own bore, gap filed, cold and hot, side clearance."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of, usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, pulled, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Rings"
_RINGS = ("Top", "Second")


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Rings", (9.5, 10.5, 10, 10, 8, 10, 10, 10, 8, 10, 10, 8, 9))
    factors, room = _wanted(draft, page)
    page.gap()
    _gaps(draft, page, factors, room)
    page.gap()
    _sides(draft, page)
    page.finish()


def _wanted(draft: Draft, page: Page) -> tuple[dict[str, str], str]:
    """Factors of the top and the second ring, and the room above them."""
    plan, use = draft.plan, draft.cells["use"]
    page.section(
        "Gap wanted for each unit of bore",
        "The ring maker's card comes first. A gap too small lets the ends meet when hot, and the "
        "ring breaks the piston.",
    )
    lines = Lines(page, "Ring gap wanted")
    known = {
        ring: lines.line(
            f"Usual for this use, {ring.lower()} ring",
            q.of("ring_gap_factor"),
            when_filled(plan.call("RING_GAP_FACTOR", use, f'"{ring.lower()}"'), use),
            note="by the table of bands",
        )
        for ring in _RINGS
    }
    taken = {
        ring: fixed(
            lines.line(
                f"Taken for this engine, {ring.lower()} ring",
                q.of("ring_gap_factor"),
                role="spec",
                start=pulled(known[ring]),
                prompt="Gap for each unit of bore, such as 0.0045.",
                note="type the ring maker's over it",
            )
        )
        for ring in _RINGS
    }
    widest = lines.line(
        "Room above the wanted gap",
        q.alone(q.GAP),
        role="spec",
        start=plan.pick(0.006, 0.15),
        note="a filed gap may be wider by as much",
    )
    return taken, fixed(widest)


def _gaps(draft: Draft, page: Page, factors: dict[str, str], room: str) -> None:
    plan, cells = draft.plan, draft.cells
    page.section(
        "End gaps, filed to each bore and checked square in it",
        "Hot: by the materials and the rises of the sheet Heat.",
    )
    bores = iter(draft.ranges["mean bore"])
    heat = tuple(cells[n] for n in ("block rise", "ring rise", "block material", "rings material"))

    def of_ring(name: str) -> tuple[Column, ...]:
        gap, wanted = f"{name} gap", f"{name} gap wanted"

        def least(c: Cells) -> str:
            return called(plan, "RING_GAP", c["Bore"], factors[name])

        def verdict(c: Cells) -> str:
            call = plan.call("VERDICT", c[gap], c[wanted], f"{c[wanted]}+{room}")
            return when_filled(call, c[gap], c[wanted], room)

        def hot(c: Cells) -> str:
            return called(plan, "HOT_RING_GAP", c[gap], c["Bore"], *heat)

        of = f"{name.lower()}_ring_gap"
        return (
            Column(wanted, "result", q.of(of), formula=least),
            Column(gap, quantity=q.of(of)),
            Column(f"{name} verdict", "verdict", formula=verdict),
            Column(f"{name} gap, hot", "result", q.of(f"hot_{of}"), formula=hot),
        )

    gaps = table(
        page,
        "Rings",
        "Cyl",
        plan.cylinder_rows,
        (
            Column("Bore", "pulled", q.of("bore"), formula=lambda _c: pulled(next(bores))),
            *of_ring("Top"),
            *of_ring("Second"),
            Column(
                "Oil rail gap, least",
                quantity=q.of("oil_ring_gap"),
                judged=True,
                limits=usual(plan, cells["use"], "oil ring gap"),
                required=False,
            ),
        ),
    )
    page.verdicts += [c[f"{name} verdict"] for c in gaps.cells for name in _RINGS]
    Lines(page, "Rings").line("Filed by", None, role="sign")


def _sides(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Side clearance of the rings in their grooves")
    lines = Lines(page, "Ring sides")
    widths = {
        name: fixed(
            lines.line(
                f"{name} ring width",
                q.of(f"{name.lower()}_ring_width"),
                note="of the set; the rings of one set are alike",
            )
        )
        for name in _RINGS
    }

    def clearance(name: str) -> Column:
        def formula(c: Cells) -> str:
            return called(plan, "RING_SIDE_CLEARANCE", c[f"{name} groove"], widths[name])

        return Column(
            f"{name} side clearance",
            "result",
            q.of(f"{name.lower()}_ring_side_clearance"),
            formula=formula,
            judged=True,
            limits=limits_of(plan, "ring side clearance"),
        )

    table(
        page,
        "Ring sides",
        "Cyl",
        plan.cylinder_rows,
        [
            column
            for name in _RINGS
            for column in (
                Column(
                    f"{name} groove", quantity=q.of(f"{name.lower()}_groove_width"), required=False
                ),
                clearance(name),
            )
        ],
    )
    lines.line("Gaps set at, which way up", None, role="text")
    lines.line("Fitted by", None, role="sign")
