"""Release: every sheet counted up, open items, what was accepted outside its band, signatures."""

from __future__ import annotations

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import elsewhere
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.style import Role
from workbook_tools.buildbook.table import Column, table
from workbook_tools.formulas.references import area_address

TITLE = "Release"
# Of one row of a table; between two tables there are more.
_MOST_LINES = 3


def build(draft: Draft) -> None:
    """Write the sheet."""
    judged = [page for page in draft.pages if page.verdicts and page.counted]
    page = draft.page(TITLE, "Release", (15, 10, 10, 10, 10, 14, 11, 11, 11))
    _count(page, judged)
    page.gap()
    page.section("Outside its band and accepted")
    table(
        page,
        "Accepted",
        "No.",
        [f"No. {i}" for i in range(1, 4)],
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
        [f"No. {i}" for i in range(1, 4)],
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
    page.finish()


def _count(page: Page, judged: list[Page]) -> None:
    page.section(
        "Verdicts on every sheet",
        "Waiting: a reading or its band is not filled in yet, or is no number. Look at "
        "the sheet for what is out, and why.",
    )
    row = page.next()
    heads = ("Sheet", "Within", "Below", "Above", "Waiting")
    for column, text in enumerate(heads, 1):
        page.put(row, column, text, "head")
    for other in judged:
        row = page.next()
        areas = [elsewhere(other.title, cells) for cells in _areas(other.verdicts)]
        page.put(row, 1, other.title, "label")
        for column, word in enumerate(("ok", "low", "high"), 2):
            counts = "+".join(_count_of(cells, word) for cells in areas)
            page.put(row, column, f"={counts}", "result", q.COUNT)
        page.put(row, 5, f"={len(other.verdicts)}-SUM(B{row}:D{row})", "result", q.COUNT)


def _count_of(cells: str, word: str) -> str:
    """How many of some cells are a word; an error among them is none."""
    # Not every engine counts in a range of one cell.
    return f'COUNTIF({cells},"{word}")' if ":" in cells else f'IFERROR(({cells}="{word}")*1,0)'


def _areas(verdicts: list[str]) -> list[str]:
    """The ranges that hold a sheet's verdicts and nothing that is typed.

    Rows of a table follow one another closely, further down in it where they have lines.
    """
    places = sorted((column, row) for row, column in map(coordinate_to_tuple, verdicts))
    areas: list[list[tuple[int, int]]] = []
    for column, row in places:
        if areas and areas[-1][-1][0] == column and row - areas[-1][-1][1] <= _MOST_LINES:
            areas[-1].append((column, row))
        else:
            areas.append([(column, row)])
    return [area_address(found[0][1], found[0][0], found[-1][1], found[-1][0]) for found in areas]


def _signatures(page: Page) -> None:
    page.section("Handed over")
    for left, right in (
        ("Lead builder", "Date"),
        ("Seen by", "Date seen"),
        ("Goes out with", "Collected by"),
        ("Photos kept at", "Date collected"),
    ):
        row = page.next()
        page.sheet.row_dimensions[row].height = 24
        for label, places in ((left, (1, 2, 5)), (right, (6, 7, page.columns))):
            role: Role = "date" if label.startswith("Date") else "sign"
            page.box(row, places, label, role, of="Handed over")
