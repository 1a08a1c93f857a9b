"""Assembly: every fastener group with its lubricant, steps, wrench, and two names."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import Column, table

TITLE = "Assembly"
GROUPS = (
    "Main caps",
    "Main caps, side bolts",
    "Rod caps",
    "Cam retainer",
    "Cam sprocket",
    "Oil pump",
    "Pickup",
    "Cylinder head",
    "Rockers, cam caps",
    "Timing cover",
    "Oil pan",
    "Damper",
    "Flywheel, flex plate",
    "Intake manifold",
    "Exhaust manifold",
    "Spark plugs",
    "",
    "",
)
ODDS = (
    "Plugs counted",
    "Galleries brushed by",
    "Sealers, and where",
    "Assembly lubricant",
    "Oil and filter",
    "Oil primed, came out at",
    "Turned by hand, torque",
    "Timing marks checked by",
)


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(
        TITLE, "Assembly and torque", (5, 20, 16, 7, 18, 9, 9, 9, 9, 10, 10, 10, 9, 11)
    )
    page.section(
        "Fasteners, each group signed when it is done and when it was seen",
        "A fastener that fails can kill. Lubricant, steps and angle are the maker's for this "
        "fastener: a torque holds only for the lubricant that it was given with. Bolts tightened "
        "to yield are not used again.",
    )
    table(
        page,
        "Fasteners",
        "No.",
        [f"{i}" for i in range(1, len(GROUPS) + 1)],
        (
            Column("Fasteners", "spec"),
            Column("Thread, length", "spec"),
            Column("How many", "spec", q.COUNT),
            Column("Lubricant, and where", "spec"),
            *(Column(f"Step {i}", "spec", q.TIGHTENING) for i in (1, 2, 3)),
            Column("Then turn", "spec", q.of("bolt_angle")),
            Column("Wrench no.", "text"),
            Column("Done by", "sign"),
            Column("Seen by", "sign"),
            Column("Marked", "choice", words=("yes", "no")),
            Column("On", "date"),
        ),
        starts=[{"Fasteners": group} for group in GROUPS],
    )
    page.gap()
    _odds(page)
    page.finish()


def _odds(page: Page) -> None:
    page.section("Sealers, fluids, odds and ends")
    half = -(-len(ODDS) // 2)
    for left, right in zip(ODDS[:half], ODDS[half:], strict=True):
        row = page.next()
        page.sheet.row_dimensions[row].height = 20
        for label, first, start, last in ((left, 1, 3, 6), (right, 7, 10, page.columns)):
            page.put(row, first, label, "label")
            page.spread(row, first, start - 1)
            page.enter(row, start, f"Odds / {label}", "text")
            page.spread(row, start, last)
