"""Bottom end: the crank's thrust, rod side clearance, the oil pump's relief."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of, usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Column, Lines, table

TITLE = "Bottom end"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Bottom end", (11, 11, 11, 11, 9, 11, 11, 9, 19))
    _thrust(draft, page)
    page.gap()
    _sides(draft, page)
    page.gap()
    _relief(draft, page)
    page.gap()
    _other(draft, page)
    page.finish()


def _thrust(draft: Draft, page: Page) -> None:
    plan, use = draft.plan, draft.cells["use"]
    page.section(
        "Crank thrust, set before the main caps are tightened",
        "Caps snug: drive the crank back and forth with a soft hammer, so that the halves of the "
        "thrust bearing line up; hold it forward, tighten the mains, measure again.",
    )
    lines = Lines(page, "Thrust")
    lines.head(*JUDGED)
    band = usual(plan, use, "crank end play")
    play = q.alone(q.of("crank_end_play"))
    before, after = (
        lines.line(f"Crank end play, {when} tightening", play, judged=True, limits=band)
        for when in ("before", "after")
    )
    lines.line(
        "End play lost by tightening",
        q.DIFFERENCE,
        when_filled(f"{before}-{after}", before, after),
        judged=True,
        limits=Limits(plan.pick(-0.001, -0.025), plan.pick(0.001, 0.025), "else line up again"),
    )
    lines.line("Driven back and forth by", None, role="sign")


def _sides(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Rod side clearance, by journal, the smallest all round")
    table(
        page,
        "Rod side",
        "Throw",
        plan.journal_rows,
        (
            Column(
                "Rod side clearance",
                quantity=q.of("rod_side_clearance"),
                judged=True,
                limits=usual(plan, draft.cells["use"], "rod side clearance", "steel"),
            ),
        ),
    )


def _relief(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section(
        "Oil pump: the relief spring, and the shim for the pressure that is wanted",
        "Plus: shim to add; minus: to take out. Too little pressure starves bearings, too much "
        "bursts filters and shears drives: the engine maker's figure comes first.",
    )
    lines = Lines(page, "Relief")
    lines.head("Notes")

    def typed(label: str, measurand: str, note: str = "") -> str:
        return lines.line(label, q.of(measurand), required=False, note=note)

    load = typed("Relief spring load", "relief_spring_load", "as fitted, valve shut")
    rate = typed("Relief spring rate", "relief_spring_rate")
    plunger = typed("Relief plunger diameter", "relief_plunger_diameter")
    wanted = lines.line("Relief pressure wanted", q.of("relief_pressure"), role="spec")
    pressure = lines.line(
        "Relief pressure, starts to open",
        q.of("relief_pressure"),
        called(plan, "RELIEF_PRESSURE", load, plunger),
    )
    needed = (pressure, wanted, rate, plunger)
    lines.line(
        "Relief shim",
        q.of("relief_shim_thickness"),
        called(plan, "RELIEF_SHIM", *needed),
    )


def _other(draft: Draft, page: Page) -> None:
    plan, use = draft.plan, draft.cells["use"]
    page.section("Once for the engine")
    lines = Lines(page, "Bottom end")
    lines.head(*JUDGED)
    lines.line(
        "Cam end play",
        q.of("cam_end_play"),
        judged=True,
        limits=usual(plan, use, "cam end play"),
        required=False,
    )
    lines.line(
        "Rod to cam or block, least",
        q.GAP,
        judged=True,
        limits=limits_of(plan, "rod to cam"),
    )
    lines.line("Measured by", None, role="sign")
