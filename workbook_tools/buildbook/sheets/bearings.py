"""Bearings: housing, both shells, journal; what is left, and a second look."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import pulled, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.sheets.pistons import choices
from workbook_tools.buildbook.table import Cells, Column, Lines, table

TITLE = "Bearings"


def build(draft: Draft) -> None:
    """Write the sheet."""
    plan = draft.plan
    page = draft.page(TITLE, "Bearings", (9, 11, 10, 10, 11, 11, 9, 12, 12, 9, 9))
    _start(draft, page)
    page.gap()
    journals = draft.ranges["main journals"]
    _bearings(draft, page, "Main bearings", "Main", plan.main_rows, journals, None)
    page.gap()
    throws = draft.ranges["rod journals"]
    _bearings(draft, page, "Rod bearings", "Rod", plan.rod_rows, throws, draft.ranges["big end"])
    page.finish()


def _start(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Where to start, if the bearing maker gives no figure")
    lines = Lines(page, "Bearing start")
    lines.head("Least", "Most", "", "Notes")
    uses = choices("BEARING_BAND", "use")
    # What is usual for mains in an aluminum block, cold, is too tight for rods.
    for name, parts, words in (
        ("main", "mains", uses),
        ("rod", "rods", tuple(use for use in uses if use != "aluminum block")),
    ):
        use = lines.line(f"Use of the engine, for {parts}", None, role="spec", words=words)
        journal = draft.ranges[f"{name} journals"][0]
        lines.usual(
            f"Usual clearance, {parts}",
            q.of(f"{name}_bearing_clearance"),
            plan.call("BEARING_BAND", journal, use),
            use,
            journal,
        )
    lines.line("Oil that the clearance is for", None, role="spec")


def _bearings(
    draft: Draft,
    page: Page,
    title: str,
    corner: str,
    rows: Sequence[str],
    journals: Sequence[str],
    housings: Sequence[str] | None,
) -> None:
    plan = draft.plan
    note = (
        "Housing without shells, caps tightened; walls by a ball anvil at the middle of the shell. "
    )
    if corner == "Rod":
        note += "Which throw a rod runs on: type its number."
    page.section(title, note)
    housing = f"{corner} housing bore"
    sizes = iter(housings or ())

    def clearance(c: Cells) -> str:
        typed = [c["Upper shell wall"], c["Lower shell wall"]]
        computed = [c["Journal size"]]
        (computed if housings else typed).append(c[housing])
        return when_filled(
            plan.call(
                "BEARING_CLEARANCE",
                c[housing],
                c["Upper shell wall"],
                c["Journal size"],
                c["Lower shell wall"],
            ),
            *typed,
            *computed,
        )

    if housings:
        first = Column(
            housing,
            "pulled",
            q.of(f"{corner.lower()}_housing_bore"),
            formula=lambda _c: pulled(next(sizes)),
        )
        where: tuple[Column, ...] = (
            Column(
                "On throw no.",
                quantity=q.numbered(plan.journals),
                prompt="1 is the throw at the front.",
            ),
        )
    else:
        first = Column(housing, quantity=q.of(f"{corner.lower()}_housing_bore"))
        where = ()
    by_row = iter(journals)

    def journal(c: Cells) -> str:
        if not housings:
            return pulled(next(by_row))
        number = c["On throw no."]
        # Each journal takes two rows of its sheet.
        return when_filled(f"INDEX({draft.cells['throws']},2*{number}-1)", number)

    table(
        page,
        title,
        corner,
        rows,
        (
            *where,
            first,
            Column("Upper shell wall", quantity=q.of(f"{corner.lower()}_shell_wall")),
            Column("Lower shell wall", quantity=q.of(f"{corner.lower()}_shell_wall")),
            Column("Journal size", "pulled", q.of(f"{corner.lower()}_journal"), formula=journal),
            Column(
                f"{corner} bearing clearance",
                "result",
                q.of(f"{corner.lower()}_bearing_clearance"),
                formula=clearance,
                judged=True,
            ),
            Column(
                "Measured with the shells in",
                quantity=q.of(f"{corner.lower()}_bearing_clearance"),
                judged=True,
                prompt="Bore gauge zeroed on the journal, or gauging strip.",
            ),
            Column("Seen by", "sign"),
        ),
    )
