"""Heads: faces, guides and stems, springs at their installed height."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import elsewhere, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Heads"
WIDTHS = (9, 10, 10, 10, 8.5, 10, 8.5, 9, 8.5, 9, 8.5, 10, 8.5)
# More rows of valves than this get sheets of their own.
MOST_ROWS = 24


def build(draft: Draft) -> None:
    """Write the sheet, and sheets of their own for valves that would make it too small to read."""
    plan = draft.plan
    page = draft.page(TITLE, "Heads, valves, springs", WIDTHS)
    bind, lifts = _springs(draft, page)
    apart = plan.cylinders * len(plan.valve_groups) > MOST_ROWS
    if not apart:
        for group in plan.valve_groups:
            page.gap()
            _valves(draft, page, group, fixed(bind), fixed(lifts[group.split()[0]]))
    page.gap()
    _faces(draft, page)
    page.finish()
    for kind in lifts if apart else ():
        other = draft.page(f"{kind} valves", f"{kind} valves, springs", WIDTHS)
        for group in (g for g in plan.valve_groups if g.startswith(kind)):
            _valves(draft, other, group, elsewhere(TITLE, bind), elsewhere(TITLE, lifts[kind]))
            other.gap()
        other.finish()


def _springs(draft: Draft, page: Page) -> tuple[str, dict[str, str]]:
    """Spring data; returns the cells of the coil bind height and of the lifts."""
    plan = draft.plan
    page.section("Springs, as the cam maker's card asks for them")
    lines = Lines(page, "Springs")
    lines.head(*JUDGED)
    installed = lines.line("Installed height wanted", q.of("spring_height"), role="spec")
    height = lines.line("Open height", q.of("spring_open_height"), role="spec")
    bind = lines.line("Coil bind height, measured", q.of("coil_bind_height"))
    lifts = {
        kind: lines.line(
            f"{kind} valve lift",
            q.of(f"{kind.lower()}_valve_lift"),
            role="spec",
            note="at the valve, less the lash",
        )
        for kind in ("Intake", "Exhaust")
    }
    seat = lines.line("Load of one spring, installed", q.of("spring_seat_load"))
    opened = lines.line("Load of the same, open", q.of("spring_open_load"))
    sizes = (seat, installed, opened, height)
    lines.line(
        "Spring rate",
        q.of("spring_rate"),
        when_filled(plan.call("SPRING_RATE", *sizes), *sizes),
        judged=True,
    )
    lines.line(
        "Retainer to seal, at full lift, least",
        q.of("retainer_to_seal"),
        judged=True,
        limits=usual(plan, draft.cells["use"], "retainer to seal clearance"),
    )
    return bind, lifts


def _valves(draft: Draft, page: Page, group: str, bind: str, lift: str) -> None:
    plan = draft.plan
    page.section(f"{group} valves")
    kind = group.split()[0]
    stems = usual(plan, draft.cells["use"], f"{kind.lower()} stem clearance")
    guide, stem = f"{group} guide", f"{group} stem"

    def fit(c: Cells) -> str:
        return when_filled(f"{c[guide]}-{c[stem]}", c[guide], c[stem])

    def margin(c: Cells) -> str:
        height = c[f"{group} installed height"]
        cells = (height, bind, lift)
        return when_filled(plan.call("COIL_BIND_MARGIN", *cells), *cells)

    table(
        page,
        f"{group} valves",
        "Cyl",
        plan.cylinder_rows,
        (
            Column(
                guide,
                quantity=q.alone(q.of(f"{kind.lower()}_guide_bore")),
                prompt="At its widest place.",
            ),
            Column(
                stem,
                quantity=q.alone(q.of(f"{kind.lower()}_stem_diameter")),
                prompt="At its thinnest place.",
            ),
            Column(
                f"{group} stem clearance",
                "result",
                q.of(f"{kind.lower()}_stem_clearance"),
                formula=fit,
                judged=True,
                limits=stems,
            ),
            Column(
                f"{group} installed height",
                quantity=q.of(f"{kind.lower()}_spring_height"),
                judged=True,
            ),
            Column(f"{group} seat load", quantity=q.of("spring_seat_load"), judged=True),
            Column(f"{group} open load", quantity=q.of("spring_open_load"), judged=True),
            Column(
                f"{group} coil bind margin",
                "result",
                q.of("coil_bind_margin"),
                formula=margin,
                judged=True,
                limits=usual(plan, draft.cells["use"], "coil bind margin"),
            ),
        ),
    )


def _faces(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Head faces")
    table(
        page,
        "Head faces",
        "Bank",
        plan.bank_rows,
        (
            Column("Thickness, front", quantity=q.of("head_height")),
            Column("Thickness, rear", quantity=q.of("head_height")),
            Column(
                "Out of flat",
                quantity=q.of("head_flatness"),
                judged=True,
                limits=Limits(0, plan.pick(0.003, 0.05)),
            ),
            # Words to the left of a number would be taken for its name.
            Column("Head no.", "text"),
            Column("Cracks, pressure test, seats tight", "text", span=6),
            Column("Seen by", "sign"),
        ),
    )
