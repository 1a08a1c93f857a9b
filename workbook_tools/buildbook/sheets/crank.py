"""Crank: main and rod journals by place and axis, stroke, run-out."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.roundness import round_columns
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, block, table

TITLE = "Crank"
PLACES = ("front end", "rear end")


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Crankshaft", (10, 9, 11, 11, 10, 10, 8, 10, 8, 9))
    _journals(draft, page, "Main journals", "Main", draft.plan.main_rows)
    page.gap()
    _journals(draft, page, "Rod journals", "Throw", draft.plan.journal_rows)
    page.gap()
    _other(draft, page)
    page.finish()


def _journals(draft: Draft, page: Page, title: str, corner: str, rows: Sequence[str]) -> None:
    plan = draft.plan
    page.section(title, "Each journal at both ends, clear of the fillets, on two axes.")
    kind = title.split()[0]
    first, other = f"{kind} journal, first axis", f"{kind} journal, square to it"
    journal = f"{kind.lower()}_journal"
    mean = f"Mean {kind.lower()} journal"

    def readings(c: Cells) -> str:
        return block(c, first, other)

    journals = table(
        page,
        title,
        corner,
        rows,
        (
            Column(first, quantity=q.of(journal), lines=True),
            Column(other, quantity=q.of(journal), lines=True),
            *round_columns(plan, journal, "journal", mean, readings, 2 * len(PLACES)),
        ),
        lines=PLACES,
    )
    draft.lend_column(title.lower(), page, [c[mean] for c in journals.cells])
    if kind == "Rod":
        draft.lend("throws", page, journals.column(mean))


def _other(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("The whole crank")
    lines = Lines(page, "Crank")
    lines.head(*JUDGED)
    lines.line(
        "Run-out at the middle main",
        q.of("crank_runout"),
        judged=True,
        limits=limits_of(plan, "crank runout"),
        prompt="Two full turns.",
    )
    lines.line("Stroke, smallest of all throws", q.of("stroke"))
    lines.line("Stroke, largest of all throws", q.of("stroke"))
    lines.line("Cracks, fillets, plugs: who looked", None, role="text", required=True)
    lines.line("Read by", None, role="sign")
