"""Crank: main and rod journals by place and axis, stroke, run-out."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.page import Page
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

    def readings(c: Cells) -> str:
        return block(c, first, other)

    def of_journal(function: str, *more: object) -> Column:
        journal = f"{kind.lower()}_journal"
        head, measurand = {
            "MEAN_READING": (f"Mean {kind.lower()} journal", journal),
            "JOURNAL_TAPER": ("Taper", f"{journal}_taper"),
            "JOURNAL_OUT_OF_ROUND": ("Out of round", f"{journal}_out_of_round"),
        }[function]
        mean = function == "MEAN_READING"
        return Column(
            head,
            "result",
            q.of(measurand),
            judged=not mean,
            limits=None if mean else limits_of(plan, f"journal {head.lower()}"),
            formula=lambda c: when_filled(plan.call(function, readings(c), *more), readings(c)),
        )

    journals = table(
        page,
        title,
        corner,
        rows,
        (
            Column(first, quantity=q.of(f"{kind.lower()}_journal"), lines=True),
            Column(other, quantity=q.of(f"{kind.lower()}_journal"), lines=True),
            of_journal("MEAN_READING", 4),
            of_journal("JOURNAL_TAPER"),
            of_journal("JOURNAL_OUT_OF_ROUND"),
        ),
        lines=PLACES,
    )
    draft.lend_column(
        title.lower(), page, [c[f"Mean {kind.lower()} journal"] for c in journals.cells]
    )
    if kind == "Rod":
        draft.lend("throws", page, journals.column("Mean rod journal"))


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
