"""Gasket choice: the thicknesses on sale, and what each would give."""

from __future__ import annotations

from collections.abc import Callable

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import elsewhere, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import Cells, Column, Lines, Table, table
from workbook_tools.formulas.references import cell_address

TITLE = "Gasket"
OFFERS = 5


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Gasket choice", (10, 12, 11, 11, 11, 11, 11, 10, 11, 11, 12))
    offers = _offers(draft, page)
    page.gap()
    _ratios(draft, page, offers)
    page.gap()
    _choice(draft, page, offers)
    page.counted = False
    page.finish()


def _offers(draft: Draft, page: Page) -> Table:
    plan = draft.plan
    page.section(
        "Gaskets on sale, and the quench that each would give",
        "Tightest and loosest are the cylinders with the least and the most deck clearance. The "
        "words beside them use the bands of the sheets Mock-up and Volumes.",
    )
    decks = draft.ranges["deck"]
    column = f"{decks[0]}:{decks[-1].partition('!')[2]}"
    low, high = draft.cells["least quench"], draft.cells["most quench"]

    def quench(end: str) -> Callable[[Cells], str]:
        return lambda c: when_filled(
            plan.call("QUENCH", f"{end}({column})", c["Compressed thickness"]),
            c["Compressed thickness"],
            column,
        )

    # Plain words: a gasket that is not taken must not count as a reading out of its band.
    def fits(c: Cells) -> str:
        judged = f'IF({c[tight]}<{low},"low",IF({c[loose]}>{high},"high","ok"))'
        return when_filled(judged, low, high, c[tight], c[loose])

    def volume(c: Cells) -> str:
        cells = (c["Bore of the gasket"], c["Compressed thickness"])
        return when_filled(plan.call("GASKET_VOLUME", *cells), *cells)

    tight, loose = "Tightest quench", "Loosest quench"
    found = table(
        page,
        "Offers",
        "No.",
        [f"No. {i}" for i in range(1, OFFERS + 1)],
        (
            Column(
                "Compressed thickness",
                "spec",
                q.of("gasket_thickness"),
                prompt="Under the torqued head, not as sold.",
            ),
            Column(
                "Bore of the gasket",
                "spec",
                q.of("gasket_bore"),
                prompt="Larger than the cylinder bore.",
            ),
            Column("Gasket volume", "result", q.of("gasket_volume"), formula=volume),
            Column(tight, "result", q.of("quench"), formula=quench("MIN")),
            Column(loose, "result", q.of("quench"), formula=quench("MAX")),
            Column("Quench fits", "verdict", formula=fits),
            # Words to the left of a number would be taken for its name.
            Column("Part number", "spec", span=2),
            Column("Price, delivery", "text", span=2),
        ),
    )
    page.verdicts += [c["Quench fits"] for c in found.cells]
    return found


def _ratios(draft: Draft, page: Page, offers: Table) -> None:
    plan = draft.plan
    page.section("The compression ratio that each gasket would give, cylinder by cylinder")
    parts = [draft.ranges[name] for name in ("swept", "chamber", "deck volume", "crown")]
    rows = iter(zip(*parts, strict=True))
    current: dict[str, tuple[str, ...]] = {}

    def ratio(number: int) -> Callable[[Cells], str]:
        volume = elsewhere(page.title, offers.cells[number]["Gasket volume"]).partition("!")[2]

        def formula(_c: Cells) -> str:
            if number == 0:
                current["row"] = next(rows)
            swept, chamber, deck, crown = current["row"]
            return when_filled(
                plan.call("COMPRESSION_RATIO", swept, chamber, volume, deck, crown),
                chamber,
                crown,
                swept,
                volume,
                deck,
            )

        return formula

    found = table(
        page,
        "Ratios",
        "Cyl",
        plan.cylinder_rows,
        [
            Column(
                f"Ratio with no. {i + 1}",
                "result",
                q.of("compression_ratio"),
                formula=ratio(i),
                span=2,
            )
            for i in range(OFFERS)
        ],
    )
    for text, function in (("Lowest", "MIN"), ("Highest", "MAX")):
        row = page.next()
        page.put(row, 1, text, "note")
        for i in range(OFFERS):
            column = found.column(f"Ratio with no. {i + 1}")
            formula = when_filled(f"{function}({column})", column)
            page.put(row, 2 + 2 * i, formula, "result", q.of("compression_ratio"))
            page.spread(row, 2 + 2 * i, 3 + 2 * i)
    lowest, highest, verdict = page.row - 2, page.row - 1, page.next()
    page.put(verdict, 1, "Ratio fits", "note")
    low, high = draft.cells["least ratio"], draft.cells["most ratio"]
    for place in range(2, 2 + 2 * OFFERS, 2):
        ends = cell_address(lowest, place), cell_address(highest, place)
        judged = f'IF({ends[0]}<{low},"low",IF({ends[1]}>{high},"high","ok"))'
        formula = when_filled(judged, low, high, *ends)
        page.verdicts.append(page.put(verdict, place, formula, "verdict"))
        page.spread(verdict, place, place + 1)


def _choice(draft: Draft, page: Page, offers: Table) -> None:
    page.section("Chosen")
    lines = Lines(page, "Choice")
    number = lines.line(
        "Gasket taken, number above",
        q.numbered(OFFERS),
        note="type its thickness on the sheet Mock-up, its bore on the sheet Volumes",
    )
    for what, head, name in (
        ("thickness", "Compressed thickness", "gasket"),
        ("bore", "Bore of the gasket", "gasket bore"),
    ):
        used, row = draft.cells[name], page.row
        chosen = f"INDEX({offers.column(head)},{number})"
        lines.line(
            f"Its {what}",
            q.of("gasket_thickness") if what == "thickness" else q.of("gasket_bore"),
            when_filled(f'IF({chosen}="","",{chosen})', number),
        )
        value = cell_address(row, 4)
        said = f'IF({value}={used},"as used in this book","not the one used in this book")'
        page.put(row, 6, f'=IF(COUNT({value},{used})=2,{said},"")', "verdict")
        page.spread(row, 6, 8)
    for label in ("Why this one", "If none fits: what is changed instead"):
        row = page.next()
        page.sheet.row_dimensions[row].height = 24
        page.put(row, 1, label, "label")
        page.spread(row, 1, 3)
        page.enter(row, 4, f"Choice / {label}", "text")
        page.spread(row, 4, page.columns)
    row = page.next()
    page.put(row, 1, "Decided by", "label")
    page.spread(row, 1, 3)
    page.enter(row, 4, "Choice / Decided by", "sign")
    page.spread(row, 4, 5)
