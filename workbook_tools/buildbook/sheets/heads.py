"""Heads: faces, guides and stems, installed heights, and the spring from its seat to full lift."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of, usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, elsewhere, of_all, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Heads"
WIDTHS = (11, 11, 11, 11, 9, 12, 9, 12, 9, 12, 9, 9)
# More rows of valves than this get sheets of their own.
MOST_ROWS = 16
_LIFTS = {
    "Seat": "0",
    "1/4 lift": "0.25",
    "1/2 lift": "0.5",
    "3/4 lift": "0.75",
    "Full lift": "1",
}
_Spring = dict[str, str]


def build(draft: Draft) -> None:
    """Write the sheet, and sheets of their own for valves that would make it too small to read."""
    plan = draft.plan
    page = draft.page(TITLE, "Heads, valves, springs", WIDTHS)
    spring = _springs(draft, page)
    page.gap()
    _to_full_lift(draft, page, spring)
    apart = plan.cylinders * len(plan.valve_groups) > MOST_ROWS
    if not apart:
        for group in plan.valve_groups:
            page.gap()
            _valves(draft, page, group, {k: fixed(v) for k, v in spring.items()})
    page.gap()
    _faces(draft, page)
    if plan.scope == "heads":
        page.gap()
        _chambers(draft, page)
    Lines(page, "Heads").line("Measured by", None, role="sign")
    page.finish()
    own = {k: elsewhere(TITLE, v) for k, v in spring.items()}
    for kind in ("Intake", "Exhaust") if apart else ():
        other = draft.page(f"{kind} valves", f"{kind} valves, springs", WIDTHS)
        for group in (g for g in plan.valve_groups if g.startswith(kind)):
            _valves(draft, other, group, own)
            other.gap()
        other.finish()


def _springs(draft: Draft, page: Page) -> _Spring:
    """Spring data; returns the cells that others go by."""
    plan, use = draft.plan, draft.cells["use"]
    page.section("Springs, as the cam maker's card asks for them, and one on the tester")
    lines = Lines(page, "Springs")
    lines.head(*JUDGED)
    found = {
        "installed": lines.line(
            "Installed height wanted", q.alone(q.of("spring_height")), role="spec", required=True
        )
    }
    for kind in ("Intake", "Exhaust"):
        found[kind] = lines.line(
            f"{kind} valve lift",
            q.alone(q.of(f"{kind.lower()}_valve_lift")),
            role="spec",
            required=True,
            note="at the valve, less the lash",
        )
    found["bind"] = lines.line("Coil bind height, measured", q.alone(q.of("coil_bind_height")))
    height = lines.line("Open height on the tester", q.of("spring_open_height"))
    # No band beside it: N, its unit, would be read as the number of a job.
    found["seat"] = lines.line("Load of one spring, installed", q.of("spring_seat_load"))
    opened = lines.line("Load of the same, open", q.of("spring_open_load"))
    sizes = (found["seat"], found["installed"], opened, height)
    found["rate"] = lines.line(
        "Spring rate", q.of("spring_rate"), called(plan, "SPRING_RATE", *sizes)
    )
    coils = [
        lines.line(label, quantity, required=False)
        for label, quantity in (
            ("Valve spring mass", q.of("spring_mass")),
            ("Active coils", q.of("spring_active_coils")),
            ("Total coils", q.of("spring_total_coils")),
        )
    ]
    lines.line(
        "Spring surge",
        q.of("spring_surge"),
        called(plan, "SPRING_SURGE", found["rate"], *coils),
        note="Hz; the spring makers limit the speed, not this figure",
    )
    lines.line(
        "Retainer to seal, at full lift, least",
        q.of("retainer_to_seal"),
        judged=True,
        limits=usual(plan, use, "retainer to seal clearance"),
    )
    return found


def _to_full_lift(draft: Draft, page: Page, spring: _Spring) -> None:
    """Load and room from the closed valve to the open one, by the larger lift."""
    plan = draft.plan
    page.section(
        "The spring from its seat to full lift",
        "At the installed height wanted and the larger of the two lifts. Too little load lets a "
        "valve float into the piston: the cam maker's loads come first.",
    )
    ends = (fixed(spring["Intake"]), fixed(spring["Exhaust"]))
    shares = iter([share for share in _LIFTS.values() for _column in range(2)])
    height, bind, seat, rate = (fixed(spring[k]) for k in ("installed", "bind", "seat", "rate"))

    def lift() -> str:
        return f"{next(shares)}*MAX({','.join(ends)})"

    def load(_c: Cells) -> str:
        return when_filled(plan.call("SPRING_LOAD", seat, rate, lift()), seat, rate, *ends)

    def margin(_c: Cells) -> str:
        return when_filled(f"{height}-{bind}-{lift()}", height, bind, *ends)

    table(
        page,
        "To full lift",
        "Valve",
        list(_LIFTS),
        (
            Column("Spring load", "result", q.of("spring_open_load"), formula=load),
            Column("Still to go to coil bind", "result", q.GAP, formula=margin),
        ),
    )


def _valves(draft: Draft, page: Page, group: str, spring: _Spring) -> None:
    plan, use = draft.plan, draft.cells["use"]
    page.section(f"{group} valves")
    kind = group.split()[0]
    guide, stem, height = f"{group} guide", f"{group} stem", f"{group} installed height"

    def fit(c: Cells) -> str:
        return called(plan, "VALVE_GUIDE_CLEARANCE", c[guide], c[stem])

    def margin(c: Cells) -> str:
        return called(plan, "COIL_BIND_MARGIN", c[height], spring["bind"], spring[kind])

    table(
        page,
        f"{group} valves",
        "Cyl",
        plan.cylinder_rows,
        (
            Column(
                guide, quantity=q.of(f"{kind.lower()}_guide_bore"), prompt="At its widest place."
            ),
            Column(
                stem,
                quantity=q.of(f"{kind.lower()}_stem_diameter"),
                prompt="At its thinnest place.",
            ),
            Column(
                f"{group} stem clearance",
                "result",
                q.of(f"{kind.lower()}_stem_clearance"),
                formula=fit,
                judged=True,
                limits=usual(plan, use, f"{kind.lower()} stem clearance"),
            ),
            Column(height, quantity=q.of(f"{kind.lower()}_spring_height"), judged=True),
            Column(
                f"{group} coil bind margin",
                "result",
                q.of("coil_bind_margin"),
                formula=margin,
                judged=True,
                limits=usual(plan, use, "coil bind margin"),
            ),
            Column(f"{group} seat load", quantity=q.of("spring_seat_load"), required=False),
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
            Column("Thickness", quantity=q.of("head_height"), required=False),
            Column(
                "Out of flat",
                quantity=q.of("head_flatness"),
                judged=True,
                limits=limits_of(plan, "head flatness"),
            ),
            # Words to the left of a number would be taken for its name.
            Column("Head no.", "text"),
            Column("Cracks, pressure test, seats tight", "text", span=6),
        ),
    )


def _chambers(draft: Draft, page: Page) -> None:
    """Chambers, where no sheet of volumes has them."""
    plan = draft.plan
    page.section("Chambers, with the plug and the valves that are used in them")
    chambers = table(
        page,
        "Chambers",
        "Cyl",
        plan.cylinder_rows,
        (Column("Chamber volume", quantity=q.of("chamber_volume")),),
    )
    if plan.cylinders > 1:
        column = chambers.column("Chamber volume")
        lines = Lines(page, "Chambers")
        lines.line(
            "Chambers, spread",
            q.VOLUME,
            of_all(plan, "READING_SPREAD", column, plan.cylinders),
        )
