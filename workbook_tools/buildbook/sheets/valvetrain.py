"""Valvetrain: pushrod, lash or preload, and the room between valve and piston round overlap."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of, usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Valvetrain"
# Crank degrees from the top dead center between exhaust and intake stroke.
_SWEEP = (-20, -15, -10, -5, 0, 5, 10, 15, 20)
_VALVES = ("Intake", "Exhaust")


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Valvetrain", (13.5, 12, 12, 12, 10, 11, 11, 9, 17))
    _pushrods(draft, page)
    page.gap()
    _lash(draft, page)
    if draft.plan.scope != "heads":
        page.gap()
        _pistons(draft, page)
    page.finish()


def _pushrods(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section(
        "Pushrod length by the checking pushrod, and lifter preload by turns",
        "Gasket and lifters as they will run, rocker at its right height. Leave empty what this "
        "engine has not got. Length over ends and over gauge balls differ: order by the maker's "
        "own way of measuring.",
    )
    lines = Lines(page, "Pushrods")
    lines.head("Notes")

    def typed(label: str, measurand: str, note: str = "") -> str:
        return lines.line(label, q.of(measurand), required=False, note=note)

    checker = typed("Checking pushrod, closed", "pushrod_checker_length")
    turns = typed("Turns out to zero lash", "adjuster_turns")
    pitch = typed("Its thread pitch", "adjuster_pitch", "what one turn adds")
    preload = typed("Lifter preload wanted", "lifter_preload", "0 for a solid lifter")
    needed = (checker, turns, pitch, preload)
    lines.line(
        "Pushrod length to order",
        q.of("pushrod_length"),
        called(plan, "PUSHROD_LENGTH", *needed),
    )
    nut = typed("Turns of the nut past zero lash", "adjuster_turns", "rockers on studs")
    stud = typed("Pitch of the stud", "adjuster_pitch")
    ratio = typed("Rocker ratio", "rocker_ratio")
    by_turns = (nut, stud, ratio)
    lines.line(
        "Lifter preload, by the turns",
        q.of("lifter_preload"),
        called(plan, "LIFTER_PRELOAD", *by_turns),
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
        required=True,
    )
    lines.line("Set by", None, role="sign")
    table(
        page,
        "Lash",
        "Cyl",
        plan.cylinder_rows,
        [
            Column(f"{group} lash or preload", quantity=q.GAP, judged=True)
            for group in plan.valve_groups
        ],
    )


def _pistons(draft: Draft, page: Page) -> None:
    """The sweep of both valves on one cylinder."""
    plan, use = draft.plan, draft.cells["use"]
    page.section(
        "Valve to piston, swept round overlap on one cylinder",
        "Drop: how far the closed valve can be pushed at top dead center, gasket in place. Cold, "
        "slow and without lash: the running engine has less, and a valve that meets its piston "
        "wrecks it. Check with clay too; the cam and piston makers' least clearances come first.",
    )
    lines = Lines(page, "Valve to piston")
    drops = {
        valve: fixed(
            lines.line(f"{valve} valve drop to the piston", q.of(f"{valve.lower()}_valve_drop"))
        )
        for valve in _VALVES
    }
    angle = fixed(
        lines.line(
            "Valve stem angle",
            q.of("stem_angle"),
            role="spec",
            start=0,
            note="against the cylinder's axis",
        )
    )
    stroke, rod = draft.cells["stroke"], draft.cells["rod length"]
    where = iter([degrees for degrees in _SWEEP for _valve in _VALVES])

    def room(valve: str) -> Column:
        def formula(c: Cells) -> str:
            lift = c[f"{valve} lift"]
            call = plan.call("PISTON_TO_VALVE", drops[valve], lift, next(where), stroke, rod, angle)
            return when_filled(call, drops[valve], lift, angle, stroke, rod)

        return Column(
            f"{valve} valve to piston",
            "result",
            q.of(f"{valve.lower()}_valve_to_piston"),
            formula=formula,
        )

    sweep = table(
        page,
        "Sweep",
        "Crank",
        [_named(degrees) for degrees in _SWEEP],
        [
            column
            for valve in _VALVES
            for column in (
                Column(f"{valve} lift", quantity=q.of("valve_lift_at_angle"), alike=False),
                room(valve),
            )
        ],
    )
    lines.head(*JUDGED)
    for valve in _VALVES:
        column = sweep.column(f"{valve} valve to piston")
        lines.line(
            f"{valve} valve to piston, least",
            q.of(f"{valve.lower()}_valve_to_piston"),
            when_filled(f"MIN({column})", column),
            judged=True,
            limits=usual(plan, use, f"{valve.lower()} valve to piston clearance", "steel"),
        )
    for valve in _VALVES:
        lines.line(
            f"{valve} valve to pocket, radial",
            q.of(f"{valve.lower()}_valve_to_pocket"),
            judged=True,
            limits=limits_of(plan, "piston to valve, radial"),
        )
    lines.line("Measured on cylinder, by", None, role="text", required=True)


def _named(degrees: int) -> str:
    if degrees == 0:
        return "at TDC"
    return f"{abs(degrees)} deg {'before' if degrees < 0 else 'after'}"
