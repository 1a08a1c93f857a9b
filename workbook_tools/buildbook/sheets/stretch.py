"""Single fasteners: rod bolts by stretch, both lengths kept, and the main fasteners of each cap."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.table import Cells, Column, table

TITLE = "Stretch"
_DONE = (
    Column("Done by", "sign"),
    Column("Seen by", "sign"),
    Column("Marked", "choice", words=("yes", "no"), required=True),
)


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Fasteners one by one", (9, 11, 11, 11, 9, 11, 11, 11, 9, 9, 9, 9))
    page.section(
        "Rod bolts, free and tightened",
        "Bolt and gauge cold, gauge zeroed on each bolt. A bolt that stays longer when it is "
        "loosened is thrown away. The bolt maker's stretch comes first: a rod bolt that fails "
        "can kill.",
    )
    length = q.alone(q.of("rod_bolt_length"))

    def stretch(bolt: str) -> Column:
        def formula(c: Cells) -> str:
            tight, free = c[f"{bolt}, tight length"], c[f"{bolt}, free length"]
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
                for bolt in ("One bolt", "Other bolt")
                for column in (
                    Column(f"{bolt}, free length", quantity=length),
                    Column(f"{bolt}, tight length", quantity=length),
                    stretch(bolt),
                )
            ),
            *_DONE,
        ),
    )
    page.gap()
    page.section(
        "Main caps, studs or bolts of each at final torque",
        "Left and right as seen from the front. A paint mark means final torque.",
    )
    table(
        page,
        "Main fasteners",
        "Main",
        draft.plan.main_rows,
        (
            Column("Left, done by", "sign"),
            Column("Right, done by", "sign"),
            *_DONE[1:],
        ),
    )
    page.finish()
