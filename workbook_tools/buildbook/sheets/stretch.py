"""Rod bolt stretch: both lengths of every bolt kept, the difference judged."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.table import Cells, Column, table

TITLE = "Stretch"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Rod bolt stretch", (9, 11, 11, 11, 9, 11, 11, 11, 9, 10))
    page.section(
        "Length of each rod bolt free and tightened",
        "Bolt and gauge cold, gauge zeroed on each bolt. A bolt that stays longer when it is "
        "loosened is thrown away. The bolt maker's stretch comes first: a rod bolt that fails "
        "can kill.",
    )

    def stretch(bolt: str) -> Column:
        def formula(c: Cells) -> str:
            tight, free = c[f"{bolt}, tight"], c[f"{bolt}, free"]
            return when_filled(f"{tight}-{free}", tight, free)

        return Column(
            f"{bolt}, stretch", "result", q.of("rod_bolt_stretch"), formula=formula, judged=True
        )

    table(
        page,
        "Stretch",
        "Rod",
        draft.plan.rod_rows,
        (
            *(
                column
                for bolt in ("Bolt A", "Bolt B")
                for column in (
                    Column(f"{bolt}, free", quantity=q.alone(q.of("rod_bolt_length"))),
                    Column(f"{bolt}, tight", quantity=q.alone(q.of("rod_bolt_length"))),
                    stretch(bolt),
                )
            ),
            Column("Read by", "sign"),
        ),
    )
    page.finish()
