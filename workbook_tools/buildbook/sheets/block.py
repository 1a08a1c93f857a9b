"""Block: bores by height and axis, deck heights at the corners, what is looked at once."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, of_all
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.roundness import round_columns
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, block, table

TITLE = "Block"
WIDTHS = (9.5, 10.5, 11, 11, 10, 10, 9, 10, 9, 9)
# The bores of more than these get a sheet of their own.
MOST_CYLINDERS = 8
# And of more than these, two tables: one would be too high for a page.
MOST_ROWS = 12
HEIGHTS = ("top", "middle", "bottom")
_ACROSS, _ALONG = "Bore, across the crank", "Bore, along the crank"


def build(draft: Draft) -> None:
    """Write the sheet, and one for the decks where many bores would make them hard to read."""
    apart = draft.plan.cylinders > MOST_CYLINDERS
    page = draft.page(TITLE, "Block: bores" if apart else "Block: bores and decks", WIDTHS)
    _bores(draft, page)
    if apart:
        page.finish()
        page = draft.page("Decks", "Block: decks and housings", WIDTHS)
    else:
        page.gap()
    _decks(draft, page)
    page.gap()
    _other(draft, page)
    page.finish()


def _bores(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section(
        "Finished bores",
        "Read with the torque plate on if the bore was honed with one. Heights: top and bottom "
        "of ring travel, and midway. A reading that surprises is taken again.",
    )

    def readings(c: Cells) -> str:
        return block(c, _ACROSS, _ALONG)

    columns = (
        Column(
            _ACROSS,
            quantity=q.of("bore"),
            lines=True,
            prompt="Thrust axis, square to the crank.",
        ),
        Column(_ALONG, quantity=q.of("bore"), lines=True, prompt="Axis along the crank."),
        *round_columns(plan, "bore", "bore", "Mean bore", readings, 2 * len(HEIGHTS)),
    )
    found: list[str] = []
    for first in range(0, plan.cylinders, MOST_ROWS):
        if first:
            page.section("Finished bores, continued")
        rows = plan.cylinder_rows[first : first + MOST_ROWS]
        bores = table(
            page, "Bores" if not first else "More bores", "Cyl", rows, columns, lines=HEIGHTS
        )
        found += [c["Mean bore"] for c in bores.cells]
    draft.lend_column("mean bore", page, found)
    Lines(page, "Bores").line("Read by", None, role="sign")


def _decks(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("Deck heights, crank centerline to deck, at the four corners of each bank")
    corners = (
        "Deck height, front intake side",
        "Deck height, front exhaust side",
        "Deck height, rear intake side",
        "Deck height, rear exhaust side",
    )

    def readings(c: Cells) -> str:
        return block(c, corners[0], corners[-1])

    decks = table(
        page,
        "Decks",
        "Bank",
        plan.bank_rows,
        (
            *(Column(corner, quantity=q.of("deck_height")) for corner in corners),
            Column(
                "Mean deck height",
                "result",
                q.of("deck_height"),
                formula=lambda c: of_all(plan, "MEAN_READING", readings(c), 4),
            ),
            Column(
                "Deck height spread",
                "result",
                q.GAP,
                judged=True,
                limits=limits_of(plan, "deck height spread"),
                formula=lambda c: of_all(plan, "READING_SPREAD", readings(c), 4),
            ),
            Column(
                "Out of flat",
                quantity=q.of("deck_flatness"),
                judged=True,
                limits=limits_of(plan, "deck flatness"),
                prompt="Largest feeler under a straightedge.",
            ),
        ),
    )

    draft.lend_column("deck height", page, [c["Mean deck height"] for c in decks.cells])


def _other(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section("The whole block")
    lines = Lines(page, "Block")
    lines.head(*JUDGED)
    lines.line(
        "Main housings, out of round",
        q.of("main_housing_out_of_round"),
        judged=True,
        limits=limits_of(plan, "main housing out of round"),
        prompt="The worst, bare, caps tightened: upright and 45 degrees to both sides.",
    )
    lines.line(
        "Main housings, out of line",
        q.GAP,
        judged=True,
        limits=limits_of(plan, "main housing line"),
        prompt="Over the whole length, caps tightened.",
    )
    planned = [draft.cells[name] for name in ("stroke", "rod length", "compression height")]
    for bank, height in zip(plan.bank_rows, draft.ranges["deck height"], strict=True):
        own = height.partition("!")[2]
        lines.line(
            f"Deck clearance from sizes, {bank.lower()}"
            if len(plan.bank_rows) > 1
            else "Deck clearance from sizes",
            q.of("deck_clearance"),
            called(plan, "DECK_CLEARANCE", own, *planned),
            note="of the combination as planned; measure it at the mock-up",
        )
    lines.line("Lifter bore, largest", q.of("lifter_bore"), required=False)
    lines.line("Cracks, pressure test: who, how", None, role="text", required=True)
