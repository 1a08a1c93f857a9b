"""Notes: signs and units, what the looks of cells mean, what the book was made for."""

from __future__ import annotations

from openpyxl.styles import Alignment

from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Page, lines_of

TITLE = "Notes"
_SIGNS = (
    (
        "Deck clearance",
        "Plus with the piston below the deck at top dead center, minus above it. "
        "Type 0 where it is level: an empty cell is not a zero.",
    ),
    (
        "Crown volume",
        "Plus for a dish or valve reliefs, minus for a dome. Type 0 for a flat crown.",
    ),
    ("Clearances", "Always total, across the diameter, never per side."),
    ("Gasket thickness", "As compressed under the torqued head. Gasket bore: the gasket's own."),
    (
        "Wheel angles",
        "Crank degrees after top dead center in the direction of rotation. Lobe "
        "separation alone is in cam degrees.",
    ),
    ("Spring loads", "Forces, though many call them pressures."),
    ("Lash and preload", "Say whether lash is meant hot or cold. Type 0 only if 0 was measured."),
)
_USE = (
    (
        "Boxes",
        "Fill in what stands in a box: those with a heavy left edge are needed for the job, the "
        "others where they apply. A number alone is in the unit of its head. One in another unit "
        "may take it along, as in 2.5 thou, where the cell says so and the add-in is installed.",
    ),
    ("Gray", "Computed, and locked. Review, Unprotect sheet opens it: there is no password."),
    (
        "Least, Most",
        "Bands, yours to change. Those marked as common practice are starting points: "
        "the part maker's limits come first. Write beside them who they are from.",
    ),
    (
        "Verdicts",
        "\u2713 ok, \u25bc low, \u25b2 high. A blank verdict waits for its reading or its band; "
        "an error such as #VALUE! tells that something it needs is no number.",
    ),
    (
        "A question",
        "Right of a table, beside its row: a reading there is many times the others. Look at the "
        "decimal point and the unit.",
    ),
    (
        "A reading",
        "A missing one is left empty, never 0. One that surprises is taken again with "
        "another gauge; note the first in the margin.",
    ),
    (
        "Next job",
        "Start it with  workbook-tools new --like THIS.xlsx NEXT.xlsx : parts, bands, gauges, "
        "numbering, firing order and sheets of your own come along, readings, names and dates do "
        "not.",
    ),
    (
        "Without an add-in",
        "Formulas that begin with ENG. work in a current Excel as they are. In "
        "LibreOffice install the add-in first, and let a copy go to Excel users from the original.",
    ),
)


def build(draft: Draft) -> None:
    """Write the sheet."""
    plan = draft.plan
    page = draft.page(TITLE, "Notes: signs and units", (20, 14, 14, 14, 14, 14))
    _paragraphs(page, "Signs, and what a number means", _SIGNS)
    page.gap()
    _paragraphs(page, "How this book is used", _USE)
    page.gap()
    page.section("What this book was made for")
    for label, name, value in (
        ("Units", "book_units", plan.units),
        ("Cylinders", "book_cylinders", plan.cylinders),
        ("Layout", "book_layout", plan.layout),
        ("The crank runs in", "book_mains", f"{plan.mains} main bearings"),
        ("Rods on a journal", "book_rods_per_journal", plan.rods_per_journal),
        ("Each cylinder has", "book_valves", f"{plan.valves} valves"),
        ("Sheets left out", "book_without", ", ".join(plan.without) or "none"),
        ("Scope", "book_scope", plan.scope),
    ):
        row = page.next()
        page.put(row, 1, label, "label")
        draft.define(name, page, page.put(row, 2, value, "label"))
    page.gap()
    page.note(
        "Where a wrong number can hurt someone, the makers of the parts, local codes and licensed "
        "practice decide, not this book."
    )
    page.finish()


def _paragraphs(page: Page, title: str, entries: tuple[tuple[str, str], ...]) -> None:
    page.section(title)
    for term, text in entries:
        row = page.next(plain=False)
        page.put(row, 1, term, "row")
        page.put(row, 2, text, "label")
        for column in (1, 2):
            page.sheet.cell(row, column).alignment = Alignment(
                "left", "top", wrap_text=column == 2, indent=1
            )
        page.spread(row, 2, page.columns)
        lines = lines_of(text, page.width(2, page.columns) * 1.25)
        page.sheet.row_dimensions[row].height = 6 + 12.5 * lines
