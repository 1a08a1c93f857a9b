"""Volumes and ratio: chambers, crowns and gasket, and the ratio of each cylinder."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, of_all, pulled, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, Table, table
from workbook_tools.formulas.references import fixed

TITLE = "Volumes"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Volumes and ratio", (9, 11, 11, 11, 11, 11, 10, 12.5, 11.5, 9, 8))
    gasket = _gasket(draft, page)
    page.gap()
    ratios = _ratios(draft, page, gasket)
    page.gap()
    _together(draft, page, ratios)
    page.finish()


def _gasket(draft: Draft, page: Page) -> str:
    """The gasket's sizes; returns the cell of its volume."""
    plan = draft.plan
    page.section("The same for every cylinder")
    lines = Lines(page, "Common volumes")
    lines.head("Notes")
    bore = lines.line(
        "Gasket bore",
        q.of("gasket_bore"),
        prompt="The gasket's own bore, not the cylinder's.",
        note="measure the fire ring at several places; it is larger than the cylinder bore",
    )
    thickness = lines.line(
        "Head gasket, compressed",
        q.of("gasket_thickness"),
        pulled(draft.cells["gasket"]),
        note="from the sheet Deck",
    )
    volume = lines.line(
        "Gasket volume",
        q.of("gasket_volume"),
        called(plan, "GASKET_VOLUME", bore, thickness),
    )
    draft.lend("gasket bore", page, bore)
    return volume


def _ratios(draft: Draft, page: Page, gasket: str) -> Table:
    plan = draft.plan
    volume = fixed(gasket)
    stroke = draft.cells["stroke"]
    page.section(
        "By cylinder",
        "Chamber: with the plug and the valves that are used in it. Crown: plus for a dish or "
        "valve reliefs, minus for a dome; type 0 for a flat crown.",
    )
    bores, decks = iter(draft.ranges["mean bore"]), iter(draft.ranges["deck"])

    def swept(c: Cells) -> str:
        return when_filled(plan.call("CYLINDER_VOLUME", c["Bore"], stroke), stroke, c["Bore"])

    def deck(c: Cells) -> str:
        return called(plan, "DECK_VOLUME", c["Bore"], c["Deck clearance"])

    def room(c: Cells) -> str:
        parts = (c["Chamber"], c["Crown"], c["Deck volume"])
        return when_filled("+".join(parts), *parts)

    def ratio(c: Cells) -> str:
        computed = (c["Swept volume"], volume, c["Deck volume"])
        return when_filled(
            plan.call(
                "COMPRESSION_RATIO",
                c["Swept volume"],
                c["Chamber"],
                volume,
                c["Deck volume"],
                c["Crown"],
            ),
            c["Chamber"],
            c["Crown"],
            *computed,
        )

    ratios = table(
        page,
        "Volumes",
        "Cyl",
        plan.cylinder_rows,
        (
            Column("Bore", "pulled", q.of("bore"), formula=lambda _c: pulled(next(bores))),
            Column(
                "Deck clearance",
                "pulled",
                q.of("deck_clearance"),
                formula=lambda _c: pulled(next(decks)),
            ),
            Column(
                "Chamber",
                quantity=q.alone(q.of("chamber_volume")),
                prompt="Filled once; again if it surprises.",
            ),
            Column(
                "Crown",
                quantity=q.alone(q.of("crown_volume")),
                prompt="Plus = dish or reliefs, minus = dome, 0 = flat.",
            ),
            Column("Swept volume", "result", q.of("cylinder_volume"), formula=swept),
            Column("Deck volume", "result", q.of("deck_volume"), formula=deck),
            Column("Room less the gasket", "result", q.VOLUME, formula=room),
            Column(
                "Compression ratio", "result", q.of("compression_ratio"), formula=ratio, judged=True
            ),
            # Words to the left of a number would be taken for its name.
        ),
    )
    for head, name in (
        ("Chamber", "chamber"),
        ("Crown", "crown"),
        ("Swept volume", "swept"),
        ("Deck volume", "deck volume"),
        ("Room less the gasket", "room"),
    ):
        draft.lend_column(name, page, [c[head] for c in ratios.cells])
    low, high = ratios.bands["Compression ratio"]
    draft.lend("least ratio", page, low)
    draft.lend("most ratio", page, high)
    return ratios


def _together(draft: Draft, page: Page, ratios: Table) -> None:
    plan = draft.plan
    page.section("All cylinders together")
    lines = Lines(page, "All cylinders")
    lines.head(*JUDGED)
    chambers, values = ratios.column("Chamber"), ratios.column("Compression ratio")
    number = plan.cylinders
    lines.line(
        "Chamber, mean",
        q.of("chamber_volume"),
        of_all(plan, "MEAN_READING", chambers, number),
    )
    if number > 1:
        spread = of_all(plan, "READING_SPREAD", chambers, number)
        lines.line("Chamber, spread", q.VOLUME, spread, judged=True)
    for label, function in (("Lowest ratio", "MIN"), ("Highest ratio", "MAX")):
        address = lines.line(
            label, q.of("compression_ratio"), when_filled(f"{function}({values})", values)
        )
        if function == "MIN":
            draft.lend("lowest ratio", page, address)
    bores = ratios.column("Bore")
    mean = plan.call("MEAN_READING", bores, number)
    stroke = draft.cells["stroke"]
    lines.line(
        "Displacement, measured bores",
        q.of("displacement"),
        when_filled(plan.call("DISPLACEMENT", mean, stroke, number), stroke, bores),
    )
