"""Camshaft card: what the maker says, what the wheel says, lash or preload of each valve."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, table

TITLE = "Camshaft"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Camshaft card", (10, 10, 10, 11, 9, 10, 10, 9, 11, 12))
    page.section(
        "Wheel readings, in crank degrees after top dead center",
        "In the direction of rotation, top dead center proved with a positive stop. 12 before top "
        "dead center is 348; 44 after bottom dead center is 224. Lobe separation is in cam "
        "degrees.",
    )
    lines = Lines(page, "Cam timing")
    lines.head(*JUDGED)
    lines.line("Cam, and timing set", None, role="spec")
    lines.line(
        "Lift at which the wheel was read",
        q.GAP,
        role="spec",
        note="at the lifter or at the valve: write it here, the maker's card says which",
    )
    centers = {kind: _lobe(draft, lines, kind) for kind in ("Intake", "Exhaust")}
    _phase(draft, lines, centers)
    page.gap()
    _lift(draft, page)
    page.gap()
    _lash(draft, page)
    page.finish()


def _lobe(draft: Draft, lines: Lines, kind: str) -> str:
    """Readings of one lobe; returns the cell of its centerline."""
    plan = draft.plan
    prompt = "Crank degrees after top dead center, 0 to 720."
    opens = lines.line(f"{kind} opens", q.of(f"{kind.lower()}_opening_reading"), prompt=prompt)
    closes = lines.line(f"{kind} closes", q.of(f"{kind.lower()}_closing_reading"), prompt=prompt)
    both = (opens, closes)
    lines.line(
        f"{kind} duration",
        q.of(f"{kind.lower()}_duration"),
        when_filled(plan.call("CAM_DURATION", *both), *both),
        judged=True,
    )
    return lines.line(
        f"{kind} centerline",
        q.of(f"{kind.lower()}_centerline"),
        when_filled(plan.call("LOBE_CENTERLINE", f'"{kind.lower()}"', *both), *both),
        judged=True,
    )


def _phase(draft: Draft, lines: Lines, centers: dict[str, str]) -> None:
    plan = draft.plan
    both = (centers["Intake"], centers["Exhaust"])
    separation = lines.line(
        "Lobe separation",
        q.of("lobe_separation"),
        when_filled(plan.call("LOBE_SEPARATION", *both), *both),
        judged=True,
    )
    phase = (separation, centers["Intake"])
    lines.line(
        "Cam advance",
        q.of("cam_advance"),
        when_filled(plan.call("CAM_ADVANCE", *phase), *phase),
        judged=True,
    )
    seat = lines.line(
        "Intake duration near the seat",
        q.of("intake_duration"),
        role="spec",
        note="from the card, at a lift where the valve is as good as closed",
    )
    closing = lines.line(
        "Intake closing, near the seat",
        q.of("intake_closing"),
        when_filled(plan.call("INTAKE_CLOSING", seat, centers["Intake"]), seat, centers["Intake"]),
        note="after bottom dead center",
    )
    ratio, stroke, rod = (draft.cells[n] for n in ("lowest ratio", "stroke", "rod length"))
    lines.line(
        "Trapped ratio, lowest cylinder",
        q.of("dynamic_ratio"),
        when_filled(
            plan.call("DYNAMIC_RATIO", ratio, stroke, rod, closing, 0), stroke, rod, ratio, closing
        ),
        judged=True,
    )


def _lift(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Lift")
    table_rows = ("Intake", "Exhaust")

    def lift(c: Cells) -> str:
        cells = (c["Lobe lift"], c["Rocker ratio"], c["Lash"])
        return when_filled(plan.call("VALVE_LIFT", *cells), *cells)

    table(
        page,
        "Lift",
        "Valve",
        table_rows,
        (
            Column("Lobe lift", quantity=q.of("lobe_lift")),
            Column(
                "Rocker ratio",
                quantity=q.of("rocker_ratio"),
                prompt="As measured; 1 for a direct follower.",
            ),
            Column("Lash", quantity=q.of("lash"), prompt="Type 0 for hydraulic lifters."),
            Column("Valve lift", "result", q.of("valve_lift"), formula=lift, judged=True),
            Column("Checked on cylinders", "text"),
            Column("By", "sign"),
        ),
    )


def _lash(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Lash of solid lifters, or preload of hydraulic ones, valve by valve")
    lines = Lines(page, "Lash")
    lines.line(
        "Which, and set",
        None,
        role="spec",
        words=("lash cold", "lash hot", "preload"),
        note="a card's lash is usually meant hot",
    )
    table(
        page,
        "Lash",
        "Cyl",
        plan.cylinder_rows,
        (
            *(
                Column(f"{group} lash or preload", quantity=q.GAP, judged=True)
                for group in plan.valve_groups
            ),
            Column("Set by", "sign"),
        ),
    )
