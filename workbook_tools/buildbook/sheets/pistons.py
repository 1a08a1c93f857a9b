"""Pistons and pins: skirt against its own bore, pin against piston and rod."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import pulled, when_filled
from workbook_tools.buildbook.page import COMMON, Limits, Page
from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.table import Cells, Column, Lines, table
from workbook_tools.catalog import find
from workbook_tools.catalog.usual_bands import band
from workbook_tools.quantities import LENGTH, from_si

TITLE = "Pistons"


def choices(name: str, parameter: str) -> tuple[str, ...]:
    """The words that a worksheet function takes for a parameter."""
    function = find(name)
    assert function is not None
    found = next(p for p in function.parameters if p.name == parameter)
    return found.choices


def usual(plan: Plan, measured: str, use: str = "service") -> Limits:
    """The band that the tables have for what goes with no size, in the two digits that it has."""
    ((*limits, origin),) = band(measured, use)
    low, high = (
        float(f"{from_si(limit, LENGTH, plan.units):.2g}")
        for limit in limits
        if not isinstance(limit, str)
    )
    return Limits(low, high, COMMON if origin.startswith(COMMON) else origin.split(" of ")[0])


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Pistons and pins", (10, 12, 11, 11, 9, 11, 11, 11, 9, 12.5, 9))
    _start(draft, page)
    page.gap()
    _table(draft, page)
    page.finish()


def _start(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section(
        "Where to start, if the piston maker gives no figure",
        "What the table of bands has for the nominal bore. The card in the piston box comes first: "
        "type its limits under the table.",
    )
    lines = Lines(page, "Piston start")
    lines.head("Least", "Most", "", "Notes")
    use = lines.line(
        "Use of the engine", None, role="spec", words=choices("PISTON_CLEARANCE_BAND", "use")
    )
    kind = lines.line(
        "Kind of piston", None, role="spec", words=choices("PISTON_CLEARANCE_BAND", "piston")
    )
    bore = draft.cells["bore"]
    call = plan.call("PISTON_CLEARANCE_BAND", bore, use, kind)
    lines.usual("Usual piston clearance", q.of("piston_clearance"), call, bore, use, kind)
    lines.line(
        "Height of the gauge point on the skirt",
        q.LENGTH,
        role="spec",
        note="as the piston maker names it; over or under the coating?",
    )


def _table(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Each piston in its own bore, skirt at the gauge point, square to the pin")
    bores = iter(draft.ranges["mean bore"])

    def clearance(c: Cells) -> str:
        return when_filled(
            plan.call("PISTON_CLEARANCE", c["Bore"], c["Piston skirt"]),
            c["Piston skirt"],
            c["Bore"],
        )

    def fit(c: Cells) -> str:
        return when_filled(f"{c['Pin bore']}-{c['Pin']}", c["Pin bore"], c["Pin"])

    table(
        page,
        "Pistons",
        "Cyl",
        plan.cylinder_rows,
        (
            Column("Bore", "pulled", q.of("bore"), formula=lambda _c: pulled(next(bores))),
            Column("Piston skirt", quantity=q.of("piston_diameter")),
            Column(
                "Piston clearance",
                "result",
                q.of("piston_clearance"),
                formula=clearance,
                judged=True,
            ),
            Column("Pin bore", quantity=q.alone(q.of("pin_bore")), prompt="In the piston."),
            Column("Pin", quantity=q.alone(q.of("pin_diameter"))),
            Column("Pin clearance", "result", q.of("pin_clearance"), formula=fit, judged=True),
            Column("Compression height", quantity=q.of("compression_height")),
            Column("Read by", "sign"),
        ),
    )
