"""Connecting rods: big end, small end, length, width, twist."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import of_all
from workbook_tools.buildbook.table import Cells, Column, Lines, block, table

TITLE = "Rods"
_BEAM, _ASIDE, _OTHER = (
    "Big end, in line with the beam",
    "Big end, 45 deg to one side",
    "Big end, 45 deg to the other",
)


def build(draft: Draft) -> None:
    """Write the sheet."""
    plan = draft.plan
    page = draft.page(TITLE, "Connecting rods", (8, 13, 13, 13, 12, 9, 12, 12, 18))
    page.section(
        "Big ends with the caps tightened as they will run; bend and twist between the ends",
        "Grade marks on a rod are no cylinder numbers: write down where each rod goes.",
    )

    def readings(c: Cells) -> str:
        return block(c, _BEAM, _OTHER)

    rods = table(
        page,
        "Rods",
        "Rod",
        plan.rod_rows,
        (
            Column(_BEAM, quantity=q.of("rod_housing_bore")),
            Column(_ASIDE, quantity=q.of("rod_housing_bore")),
            Column(_OTHER, quantity=q.of("rod_housing_bore")),
            Column(
                "Big end out of round",
                "result",
                q.of("rod_housing_out_of_round"),
                judged=True,
                limits=limits_of(plan, "rod housing out of round"),
                formula=lambda c: of_all(plan, "READING_SPREAD", readings(c), 3),
            ),
            Column("Small end", quantity=q.of("small_end_bore")),
            Column("Length", quantity=q.of("rod_length"), required=False),
            Column("Its marks, cap's marks", "text"),
        ),
    )
    draft.lend_column("big end", page, [c[_BEAM] for c in rods.cells])
    draft.lend_column("small end", page, [c["Small end"] for c in rods.cells])
    if plan.cylinders > 1:
        page.gap()
        page.section("The set")
        lengths = rods.column("Length")
        spread = of_all(plan, "READING_SPREAD", lengths, plan.cylinders)
        Lines(page, "Rods").line("Length, spread", q.GAP, spread)
    Lines(page, "Rods").line("Read by", None, role="sign")
    page.finish()
