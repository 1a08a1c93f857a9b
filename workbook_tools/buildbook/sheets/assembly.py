"""Assembly: every fastener group by pass, with its lubricant and its wrench, and two names."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import Column, table

TITLE = "Assembly"
_NONE = "A dash where there is no such pass."
GROUPS = (
    "Main caps",
    "Side bolts",
    "Rod caps",
    "Cam retainer",
    "Cam sprocket",
    "Oil pump",
    "Cylinder head",
    "Rocker bolts, cam caps",
    "Timing cover",
    "Oil pan",
    "Damper",
    "Flywheel, flex plate",
    "Intake manifold",
    "Exhaust manifold",
    "",
)
HEADS_ONLY = ("Cylinder head", "Rocker bolts, cam caps", "Intake manifold", "Exhaust manifold", "")
ODDS = (
    "Plugs counted",
    "Galleries brushed by",
    "Sealers, and where",
    "Assembly lubricant",
    "Oil and filter",
    "Wrench no., checked",
    "Turned by hand, torque",
    "Timing marks checked by",
)


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Assembly and torque", (4, 21, 15.5, 6, 16, *(7.5,) * 9))
    groups = HEADS_ONLY if draft.plan.scope == "heads" else GROUPS
    page.section(
        "Fasteners, by group and pass",
        "A fastener that fails can kill. Lubricant, passes and angle are the maker's for this "
        "fastener: a torque holds only for the lubricant that it was given with. Bolts tightened "
        "to yield are not used again. Each pass is signed when it is done; a paint mark means "
        "final torque, and nothing else.",
    )
    table(
        page,
        "Fasteners",
        "No.",
        [f"{i}" for i in range(1, len(groups) + 1)],
        (
            Column("Fasteners", "spec"),
            Column("Thread, length", "spec"),
            Column("How many", "spec", q.COUNT),
            Column("Lubricant, and where", "spec"),
            *(Column(f"Pass {i}", "spec", q.TIGHTENING) for i in (1, 2, 3)),
            Column("Then turn", "spec", q.of("bolt_angle")),
            Column("Pass 1 done by", "sign", prompt=_NONE, required=False),
            Column("Pass 2 done by", "sign", prompt=_NONE, required=False),
            Column("Final done by", "sign"),
            Column("Seen by", "sign"),
            Column("Marked", "choice", words=("yes", "no"), required=True),
        ),
        starts=[{"Fasteners": group} for group in groups],
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
        page.box(row, (1, 3, 5), left, of="Odds")
        page.box(row, (6, 9, page.columns), right, of="Odds")
