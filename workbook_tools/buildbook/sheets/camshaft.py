"""Camshaft: degreed against the card, straight up or advanced, and the lift that it gives."""

from __future__ import annotations

from dataclasses import replace

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.quantities import Quantity
from workbook_tools.buildbook.table import Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Camshaft"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Camshaft card", (11, 11, 11, 12, 10, 12, 12, 10, 14))
    page.section(
        "Wheel readings, in crank degrees after top dead center",
        "In the direction of rotation, top dead center proved with a positive stop. 12 before top "
        "dead center is 348; 44 after bottom dead center is 224. Lobe separation is in cam "
        "degrees.",
    )
    lines = Lines(page, "Cam timing")
    lines.line("Cam, and timing set", None, role="spec")
    lines.line(
        "Checking lift of the degree wheel",
        q.GAP,
        role="spec",
        note="at the lifter or at the valve: write it here, the maker's card says which",
    )
    off = lines.line(
        "May be off the card by",
        replace(q.of("cam_advance"), digits=("0.0", "0.0")),
        role="spec",
        start=1,
        note="crank degrees",
    )
    lines.head("On the card", "Verdict", "")
    card = _Card(draft, lines, fixed(off))
    centers = {kind: card.lobe(kind) for kind in ("Intake", "Exhaust")}
    _phase(draft, card, centers)
    lines.line("Degreed by", None, role="sign")
    page.gap()
    _lift(draft, page)
    page.finish()


class _Card:
    """Lines of results that are compared with the maker's card."""

    def __init__(self, draft: Draft, lines: Lines, off: str) -> None:
        self.draft, self.lines, self.off = draft, lines, off

    def against(self, label: str, quantity: Quantity, formula: str) -> str:
        """A result beside the card's figure; returns the address of the result."""
        page = self.lines.page
        value = self.lines.line(label, quantity, formula)
        row, column = page.row - 1, self.lines.label_columns + 3
        where = f"{self.lines.name} / {label}, on the card"
        said = page.enter(row, column, where, "spec", quantity)
        call = self.draft.plan.call("VERDICT", value, f"{said}-{self.off}", f"{said}+{self.off}")
        verdict = page.put(row, column + 1, when_filled(call, value, said, self.off), "verdict")
        page.verdicts.append(verdict)
        return value

    def lobe(self, kind: str) -> str:
        """Readings of one lobe; returns the cell of its centerline."""
        plan, lines = self.draft.plan, self.lines
        prompt = "Crank degrees after top dead center, 0 to 720."
        both = tuple(
            lines.line(
                f"{kind} {what}", q.alone(q.of(f"{kind.lower()}_{reading}_reading")), prompt=prompt
            )
            for what, reading in (("opens", "opening"), ("closes", "closing"))
        )
        self.against(
            f"{kind} duration",
            q.of(f"{kind.lower()}_duration"),
            called(plan, "CAM_DURATION", *both),
        )
        return self.against(
            f"{kind} centerline",
            q.of(f"{kind.lower()}_centerline"),
            when_filled(plan.call("LOBE_CENTERLINE", f'"{kind.lower()}"', *both), *both),
        )


def _phase(draft: Draft, card: _Card, centers: dict[str, str]) -> None:
    plan, lines = draft.plan, card.lines
    both = (centers["Intake"], centers["Exhaust"])
    separation = card.against(
        "Lobe separation",
        q.of("lobe_separation"),
        called(plan, "LOBE_SEPARATION", *both),
    )
    phase = (separation, centers["Intake"])
    advance = lines.line(
        "Cam advance",
        q.of("cam_advance"),
        called(plan, "CAM_ADVANCE", *phase),
    )
    by = f'TEXT(ABS({advance}),"0.0")&" deg"'
    said = (
        f'IF(ABS({advance})<0.5,"straight up",IF({advance}>0,"advanced by ","retarded by ")&{by})'
    )
    lines.said("The cam stands", when_filled(said, advance))
    if "lowest ratio" not in draft.cells:
        return
    seat = lines.line(
        "Intake duration near the seat",
        q.of("intake_duration"),
        role="spec",
        note="from the card, at a lift where the valve is as good as closed",
    )
    closing = lines.line(
        "Intake closing, near the seat",
        q.of("intake_closing"),
        called(plan, "INTAKE_CLOSING", seat, centers["Intake"]),
        note="after bottom dead center",
    )
    ratio, stroke, rod = (draft.cells[n] for n in ("lowest ratio", "stroke", "rod length"))
    needed = (ratio, stroke, rod, closing)
    lines.line(
        "Trapped ratio, lowest cylinder",
        q.of("dynamic_ratio"),
        when_filled(plan.call("DYNAMIC_RATIO", *needed, 0), *needed),
    )


def _lift(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Lift")

    def lift(c: Cells) -> str:
        return called(plan, "VALVE_LIFT", c["Lobe lift"], c["Rocker ratio"], c["Lash"])

    table(
        page,
        "Lift",
        "Valve",
        ("Intake", "Exhaust"),
        (
            Column("Lobe lift", quantity=q.of("lobe_lift")),
            Column(
                "Rocker ratio",
                quantity=q.of("rocker_ratio"),
                prompt="As measured; 1 for a direct follower.",
            ),
            Column("Lash", quantity=q.of("lash"), prompt="Type 0 for hydraulic lifters."),
            Column("Valve lift", "result", q.of("valve_lift"), formula=lift),
            Column("Checked on cylinders", "text", span=2),
        ),
    )
