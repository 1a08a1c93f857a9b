"""Pistons and pins: skirt against its own bore cold and hot, pin against piston and rod."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, pulled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import Cells, Column, Lines, table
from workbook_tools.formulas.references import fixed

TITLE = "Pistons"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(
        TITLE, "Pistons and pins", (9, 10.5, 10.5, 10, 9, 10, 9, 10.5, 10, 10, 9, 10, 9)
    )
    limits, pin = _start(draft, page)
    page.gap()
    _table(draft, page, limits, pin)
    page.finish()


def _start(draft: Draft, page: Page) -> tuple[Limits, str]:
    """Returns the band of the kind of piston that is planned, and the cell of the pin's size."""
    plan = draft.plan
    page.section(
        "What the table of bands has for this use and this kind of piston",
        "The limits under the table start with it. The card in the piston box comes first: type "
        "its limits over them.",
    )
    lines = Lines(page, "Piston start")
    lines.head("Least", "Most", "Notes")
    use, bore = draft.cells["use"], draft.cells["bore"]
    kind = draft.cells["kind"]
    call = plan.call("PISTON_CLEARANCE_BAND", bore, use, kind)
    band = lines.usual("Usual piston clearance", q.of("piston_clearance"), call, bore, use, kind)
    lines.line(
        "Height of the gauge point on the skirt",
        q.LENGTH,
        role="spec",
        note="as the piston maker names it; over or under the coating?",
    )
    pin = lines.line(
        "Pin diameter, nominal", q.of("pin_diameter"), role="spec", note="its bands go by it"
    )
    return band, fixed(pin)


def _table(draft: Draft, page: Page, limits: Limits, pin: str) -> None:
    plan, cells, use = draft.plan, draft.cells, draft.cells["use"]
    page.section(
        "Each piston in its own bore, skirt at the gauge point, square to the pin",
        "Hot: by the materials and the rises of the sheet Heat, expanding freely. Near zero or "
        "below it the piston seizes: look at the rises, then at the clearance.",
    )
    bores, ends = iter(draft.ranges["mean bore"]), iter(draft.ranges["small end"])
    heat = tuple(cells[n] for n in ("block rise", "skirt rise", "block material",
                                    "pistons material"))  # fmt: skip

    def clearance(c: Cells) -> str:
        return called(plan, "PISTON_CLEARANCE", c["Bore"], c["Piston skirt"])

    def hot(c: Cells) -> str:
        return called(plan, "HOT_PISTON_CLEARANCE", c["Bore"], c["Piston skirt"], *heat)

    def in_piston(c: Cells) -> str:
        return called(plan, "PIN_CLEARANCE_IN_PISTON", c["Pin bore"], c["Pin"])

    def in_rod(c: Cells) -> str:
        return called(plan, "PIN_CLEARANCE_IN_ROD", next(ends), c["Pin"])

    high = str(limits.high).removeprefix("=")
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
                limits=limits,
            ),
            Column(
                "Piston clearance, hot",
                "result",
                q.of("hot_piston_clearance"),
                formula=hot,
                judged=True,
                limits=Limits(0, f"={high}", "no seizing", typed=False),
            ),
            Column("Pin bore", quantity=q.of("pin_bore"), prompt="In the piston."),
            Column("Pin", quantity=q.of("pin_diameter")),
            Column(
                "Pin clearance in the piston",
                "result",
                q.of("pin_clearance"),
                formula=in_piston,
                judged=True,
                limits=usual(plan, use, "pin clearance in the piston", size=pin),
            ),
            Column(
                "Pin clearance in the rod",
                "result",
                q.of("small_end_clearance"),
                formula=in_rod,
                judged=True,
                limits=usual(plan, use, "pin clearance in the rod", size=pin),
            ),
        ),
    )
    Lines(page, "Pistons").line("Read by", None, role="sign")
