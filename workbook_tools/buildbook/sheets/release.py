"""Release: every sheet counted up, open items, what was accepted outside its band, signatures."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import elsewhere
from workbook_tools.buildbook.page import HEADER_ROWS, Page
from workbook_tools.buildbook.style import Role
from workbook_tools.buildbook.table import Column, table

TITLE = "Release"


def build(draft: Draft) -> None:
    """Write the sheet."""
    judged = [page for page in draft.pages if page.verdicts and page.counted]
    page = draft.page(TITLE, "Release", (14, 11, 11, 11, 11, 14, 11, 11, 11))
    _count(page, judged)
    page.gap()
    page.section("Outside its band and accepted")
    table(
        page,
        "Accepted",
        "No.",
        [f"No. {i}" for i in range(1, 7)],
        (
            Column("What, and where", "text", span=3),
            Column("Value", "text"),
            Column("Why it may stay", "text", span=2),
            Column("Accepted by", "sign"),
            Column("On", "date"),
        ),
    )
    page.gap()
    page.section("Open items, to close before the engine leaves")
    table(
        page,
        "Open",
        "No.",
        [f"No. {i}" for i in range(1, 7)],
        (
            Column("What is open", "text", span=4),
            Column("Who", "sign"),
            Column("Until", "date"),
            Column("Closed by", "sign"),
            Column("On", "date"),
        ),
    )
    page.gap()
    _signatures(page)
    page.finish(wide=False)


def _count(page: Page, judged: list[Page]) -> None:
    page.section(
        "Verdicts on every sheet",
        "Waiting: a reading or its band is not filled in yet, or is no number. Look at "
        "the sheet for what is out, and why.",
    )
    row = page.next()
    for column, text in enumerate(("Sheet", "Within", "Below", "Above", "Waiting"), 1):
        page.put(row, column, text, "head")
    for other in judged:
        row = page.next()
        area = elsewhere(other.title, f"A{HEADER_ROWS + 1}:{_last(other)}")
        page.put(row, 1, other.title, "label")
        words = [f'SUMPRODUCT(({area}&""="{word}")*1)' for word in ("ok", "low", "high")]
        for column, word in enumerate(words, 2):
            page.put(row, column, f"={word}", "result", q.COUNT)
        page.put(row, 5, f"={len(other.verdicts)}-SUM(B{row}:D{row})", "result", q.COUNT)


def _last(page: Page) -> str:
    return str(page.sheet.print_area).rpartition(":")[2].replace("$", "")


def _signatures(page: Page) -> None:
    page.section("Handed over")
    for left, right in (
        ("Lead builder", "Date"),
        ("Seen by", "Date seen"),
        ("Goes out with", "Collected by"),
    ):
        row = page.next()
        page.sheet.row_dimensions[row].height = 24
        for label, first, start, last in ((left, 1, 2, 5), (right, 6, 7, page.columns)):
            page.put(row, first, label, "label")
            role: Role = "date" if label.startswith("Date") else "sign"
            page.enter(row, start, f"Handed over / {label}", role)
            page.spread(row, start, last)
