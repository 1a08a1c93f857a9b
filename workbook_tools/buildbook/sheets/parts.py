"""Parts received: sizes as marked on the box and as measured out of it."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.table import Cells, Column, table

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
    "Thrust washers",
    "Cam bearings",
    "Camshaft",
    "Lifters or followers",
    "Pushrods",
    "Rockers",
    "Cylinder head",
    "Intake valves",
    "Exhaust valves",
    "Valve springs",
    "Retainers and locks",
    "Head gasket",
    "Other gaskets, seals",
    "Head bolts or studs",
    "Main bolts or studs",
    "Timing set",
    "Oil pump",
    "Flywheel, damper",
    "Core plugs, dowels",
    "",
    "",
)
# What parts without a size to mark and measure have in its place.
_MARKED, _MEASURED = "Size marked", "Size measured"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Parts received", (5, 15, 6, 11, 11, 20, 10, 10, 9, 10, 10, 9, 22, 8))
    page.section(
        "Sizes as marked on the box and as measured out of it",
        "Write the size that the part goes by: a journal's or a shell's undersize, a piston's "
        "diameter, a gasket's compressed thickness. Least and Most are for the measured size.",
    )

    def difference(c: Cells) -> str:
        return when_filled(f"{c[_MEASURED]}-{c[_MARKED]}", c[_MEASURED], c[_MARKED])

    def verdict(c: Cells) -> str:
        # Plain, since many parts have no size: a part without one is no missing reading.
        size, least, most = c[_MEASURED], c["Least"], c["Most"]
        judged = f'IF({size}<{least},"low",IF({size}>{most},"high","ok"))'
        return f'=IF(COUNT({size},{least},{most})=3,{judged},"")'

    parts = table(
        page,
        "Parts",
        "No.",
        [f"{i}" for i in range(1, len(PARTS) + 1)],
        (
            Column("Part number", "spec"),
            Column("Qty", "spec"),
            Column("Whose", "choice", words=("shop", "customer")),
            Column("State", "choice", words=("new", "used", "reworked")),
            Column("Part", "spec"),
            Column(
                _MARKED, "spec", q.alone(q.SIZE), prompt="As it stands on the box or on the part."
            ),
            Column(
                _MEASURED,
                "reading",
                q.alone(q.SIZE),
                prompt="As measured, before it goes on the shelf.",
            ),
            Column("Off by", "result", q.DIFFERENCE, formula=difference),
            Column("Least", "band", q.alone(q.SIZE)),
            Column("Most", "band", q.alone(q.SIZE)),
            Column("Verdict", "verdict", formula=verdict),
            Column("Short, damaged, remarks", "text"),
            Column("Seen by", "sign"),
        ),
        starts=[{"Part": part} for part in PARTS],
    )
    page.verdicts += [c["Verdict"] for c in parts.cells]
    page.counted = False
    page.finish()
