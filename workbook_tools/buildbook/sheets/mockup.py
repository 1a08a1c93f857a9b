"""Mock-up: side clearance, end play and valves, measured with parts hung loose."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Column, Lines, table

TITLE = "Mock-up"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Mock-up", (11.5, 11, 11, 11, 9, 11, 9, 11, 9, 11, 9))
    _valves(draft, page)
    page.gap()
    _sides(draft, page)
    page.gap()
    _other(draft, page)
    page.finish()


def _valves(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section(
        "Piston to valve, the least found within 15 degrees of top dead center, gasket in place",
        "Cold, slow and without lash: the running engine has less. Cam and piston makers' least "
        "clearances come first.",
    )
    least = usual(plan, draft.cells["use"], "intake valve to piston clearance")
    exhaust = usual(plan, draft.cells["use"], "exhaust valve to piston clearance")
    table(
        page,
        "Piston to valve",
        "Cyl",
        plan.cylinder_rows,
        (
            Column(
                "Intake valve, axial",
                quantity=q.of("intake_valve_to_piston"),
                judged=True,
                limits=least,
            ),
            Column(
                "Exhaust valve, axial",
                quantity=q.of("exhaust_valve_to_piston"),
                judged=True,
                limits=exhaust,
            ),
            Column(
                "Least radial",
                quantity=q.GAP,
                judged=True,
                limits=Limits(plan.pick(0.050, 1.25), plan.pick(0.300, 8.0)),
            ),
            Column("Measured by", "sign"),
        ),
    )


def _sides(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Rod side clearance, by journal, gauged all round")
    table(
        page,
        "Rod side",
        "Throw",
        plan.journal_rows,
        (
            Column("Side clearance, smallest", quantity=q.of("rod_side_clearance"), judged=True),
            Column("Side clearance, largest", quantity=q.of("rod_side_clearance"), judged=True),
            Column("Rods on it", "text"),
            Column("Measured by", "sign"),
        ),
    )


def _other(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Once for the engine")
    lines = Lines(page, "Mock-up")
    lines.head(*JUDGED)
    lines.line(
        "Crank end play, first reading",
        q.of("crank_end_play"),
        judged=True,
        limits=usual(plan, draft.cells["use"], "crank end play"),
    )
    lines.line(
        "Crank end play, another place",
        q.of("crank_end_play"),
        judged=True,
        limits=usual(plan, draft.cells["use"], "crank end play"),
    )
    lines.line("Cam end play", q.of("cam_end_play"), judged=True)
    lines.line(
        "Rod to cam or block, least",
        q.GAP,
        judged=True,
        limits=Limits(plan.pick(0.050, 1.3), plan.pick(0.300, 8.0)),
    )
    lines.line(
        "Pushrod length, or shim over the valve",
        q.LENGTH,
        note="checked with the gasket and the lifters that go in",
    )
