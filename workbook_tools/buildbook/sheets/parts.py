"""Parts received: sizes as marked on the box and as measured out of it."""

from __future__ import annotations

from dataclasses import replace

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.table import Cells, Column, Lines, table

TITLE = "Parts"
PARTS = (
    "Block",
    "Crankshaft",
    "Connecting rods",
    "Rod bolts",
    "Pistons",
    "Piston pins",
    "Ring set",
    "Main bearing shells",
    "Rod bearing shells",
    "Cam bearings",
    "Camshaft",
    "Lifters or followers",
    "Pushrods",
    "Rockers",
    "Cylinder head",
    "Valves",
    "Valve springs, retainers",
    "Head gasket",
    "Other gaskets, seals",
    "Head bolts or studs",
    "Main bolts or studs",
    "Timing set",
    "Oil pump",
    "Flywheel, damper",
    "Other",
)
# What parts without a size to mark and measure have in its place.
_MARKED, _MEASURED = "Size marked", "Size measured"
# Undersizes are sizes too.
_SIZE = q.alone(replace(q.SIZE, plausible=((0, 20), (0, 500))))


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Parts received", (22, 15, 6, 11, 11, 11, 10, 32))
    page.section(
        "Sizes as marked on the box and as measured out of it",
        "Write the size that the part goes by: a journal's or a shell's undersize, a piston's "
        "diameter, a gasket's compressed thickness.",
    )

    def difference(c: Cells) -> str:
        return when_filled(f"{c[_MEASURED]}-{c[_MARKED]}", c[_MEASURED], c[_MARKED])

    table(
        page,
        "Parts",
        "Part",
        PARTS,
        (
            Column("Part number", "spec"),
            Column("Qty", "spec"),
            Column("State", "choice", words=("new", "used", "reworked", "customer's")),
            Column(_MARKED, "spec", _SIZE, prompt="As it stands on the box or on the part."),
            Column(
                _MEASURED,
                "reading",
                _SIZE,
                prompt="As measured, before it goes on the shelf.",
                required=False,
                alike=False,
            ),
            Column("Off by", "result", q.DIFFERENCE, formula=difference),
            Column("Short, damaged, remarks", "text"),
        ),
    )
    Lines(page, "Parts").line("Seen by", None, role="sign")
    page.finish()
