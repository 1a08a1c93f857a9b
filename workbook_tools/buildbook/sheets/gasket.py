"""Gasket choice: those on the shelf, the quench and the ratio of each, and which to order."""

from __future__ import annotations

from collections.abc import Callable

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, pulled, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.table import Cells, Column, Lines, Table, table
from workbook_tools.formulas.references import fixed

TITLE = "Gasket"
OFFERS = 5
_THICKNESS, _BORE, _VOLUME = "Compressed thickness", "Gasket bore", "Gasket volume"
_WHICH = "Cylinder no."
_VOLUMES = (
    ("Swept volume", "swept", "cylinder_volume"),
    ("Chamber", "chamber", "chamber_volume"),
    ("Deck volume", "deck volume", "deck_volume"),
    ("Crown", "crown", "crown_volume"),
)
_COLD, _HOT, _LOOSEST, _RUNNING = (
    "Quench, cold, tightest",
    "Quench, hot, tightest",
    "Quench, hot, loosest",
    "Quench, running, tightest",
)


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Gasket choice", (8, 11, 10, 10, 10, 10, 10, 9, 10, 10, 11, 12))
    decks = _decks(draft, page)
    page.gap()
    rooms = _rooms(draft, page) if "room" in draft.ranges else ()
    shelf = _shelf(draft, page, decks, rooms)
    page.gap()
    _order(draft, page, shelf, decks)
    page.counted = False
    page.finish()


def _decks(draft: Draft, page: Page) -> dict[str, str]:
    """What the choice goes by: the tightest and the loosest cylinder, and the growth."""
    page.section("What the choice goes by")
    lines = Lines(page, "Choice")
    decks = draft.ranges["deck"]
    column = f"{decks[0]}:{decks[-1].partition('!')[2]}"
    deck, growth = q.of("deck_clearance"), draft.cells["growth"]
    found = {
        "tightest": lines.line(
            "Deck clearance, tightest", deck, when_filled(f"MIN({column})", column)
        ),
        "loosest": lines.line(
            "Deck clearance, loosest", deck, when_filled(f"MAX({column})", column)
        ),
        "growth": lines.line("Deck clearance growth", q.of("deck_growth"), pulled(growth)),
        "wanted": lines.line(
            "Quench wanted, hot", q.of("hot_quench"), pulled(draft.cells["wanted quench"])
        ),
    }
    return {name: fixed(address) for name, address in found.items()}


def _shelf(draft: Draft, page: Page, decks: dict[str, str], rooms: tuple[Cells, ...]) -> Table:
    plan, cells = draft.plan, draft.cells
    page.section(
        "Gaskets on the shelf, judged cold, hot and at speed",
        "Fits: the tightest cylinder keeps the least quench cold, hot and running, and no hot "
        "quench is further from the one wanted than the sheet Deck allows.",
    )

    def cold(c: Cells) -> str:
        return called(plan, "QUENCH", decks["tightest"], c[_THICKNESS])

    def hot(end: str) -> Callable[[Cells], str]:
        def formula(c: Cells) -> str:
            return called(plan, "HOT_QUENCH", decks[end], c[_THICKNESS], decks["growth"])

        return formula

    def running(c: Cells) -> str:
        return called(plan, "RUNNING_QUENCH", c[_HOT], cells["stretch"], cells["take-up"])

    least, moving = cells["least quench"], cells["least running quench"]
    wanted, off = decks["wanted"], cells["quench off"]

    # Plain words: a gasket that is not taken must not count as a reading out of its band.
    def fits(c: Cells) -> str:
        close = f"OR({c[_COLD]}<{least},{c[_HOT]}<{least},{c[_HOT]}<{wanted}-{off}"
        low = f'IF(AND({c[_RUNNING]}<>"",{moving}<>""),{c[_RUNNING]}<{moving},FALSE)'
        judged = f'IF({close},{low}),"low",IF({c[_LOOSEST]}>{wanted}+{off},"high","ok"))'
        return when_filled(judged, least, wanted, off, c[_COLD], c[_HOT], c[_LOOSEST])

    def volume(c: Cells) -> str:
        return called(plan, "GASKET_VOLUME", c[_BORE], c[_THICKNESS])

    columns = [
        Column(
            _THICKNESS,
            "spec",
            q.of("gasket_thickness"),
            prompt="Under the torqued head, not as sold.",
        ),
        Column(_BORE, "spec", q.of("gasket_bore"), prompt="Larger than the cylinder bore."),
        Column(_COLD, "result", q.of("quench"), formula=cold),
        Column(_HOT, "result", q.of("hot_quench"), formula=hot("tightest")),
        Column(_LOOSEST, "result", q.of("hot_quench"), formula=hot("loosest")),
        Column(_RUNNING, "result", q.of("running_quench"), formula=running),
        Column("Fits", "verdict", formula=fits),
    ]
    if rooms:
        columns += [
            Column(_VOLUME, "result", q.of("gasket_volume"), formula=volume),
            Column(
                "Ratio, lowest", "result", q.of("compression_ratio"), formula=_ratio(plan, rooms[0])
            ),
            Column(
                "Ratio, highest",
                "result",
                q.of("compression_ratio"),
                formula=_ratio(plan, rooms[1]),
            ),
        ]
    # Words to the left of a number would be taken for its name.
    columns.append(Column("Part number", "spec"))
    found = table(page, "Offers", "No.", [f"No. {i}" for i in range(1, OFFERS + 1)], columns)
    page.verdicts += [c["Fits"] for c in found.cells]
    return found


def _rooms(draft: Draft, page: Page) -> tuple[Cells, ...]:
    """The volumes of the cylinders with the most and with the least room above their piston."""
    page.section("The cylinders whose ratio is the lowest and the highest")

    def whole(name: str) -> str:
        cells = draft.ranges[name]
        return f"{cells[0]}:{cells[-1].partition('!')[2]}" if len(cells) > 1 else cells[0]

    # Not every engine looks something up in a range of one cell.
    several = len(draft.ranges["room"]) > 1
    ends = iter(
        [
            f"MATCH({end}({whole('room')}),{whole('room')},0)" if several else "1"
            for end in ("MAX", "MIN")
        ]
    )

    def own(name: str) -> Callable[[Cells], str]:
        def formula(c: Cells) -> str:
            cells = draft.ranges[name]
            found = f"INDEX({whole(name)},{c[_WHICH]})" if len(cells) > 1 else cells[0]
            return when_filled(found, c[_WHICH], whole(name))

        return formula

    columns = [
        Column(
            _WHICH,
            "pulled",
            q.numbered(draft.plan.cylinders),
            formula=lambda _c: when_filled(next(ends), whole("room")),
        )
    ]
    for head, name, measurand in _VOLUMES:
        columns.append(Column(head, "pulled", q.of(measurand), formula=own(name)))
    return table(page, "Rooms", "Room", ("Most", "Least"), columns).cells


def _ratio(plan: Plan, room: Cells) -> Callable[[Cells], str]:
    """The ratio of a cylinder with each gasket."""
    swept, chamber, deck, crown = (fixed(room[head]) for head, _name, _measurand in _VOLUMES)

    def formula(c: Cells) -> str:
        call = plan.call("COMPRESSION_RATIO", swept, chamber, c[_VOLUME], deck, crown)
        return when_filled(call, c[_VOLUME], swept, chamber, deck, crown)

    return formula


def _order(draft: Draft, page: Page, shelf: Table, decks: dict[str, str]) -> None:
    plan, cells = draft.plan, draft.cells
    page.section(
        "The one to order",
        "The thickness that brings the hot quench of the tightest cylinder nearest to the one "
        "wanted, and leaves the least quench. The piston and rod makers' figures come first.",
    )
    lines = Lines(page, "Order")
    length = q.of("gasket_thickness")
    exact = (decks["wanted"], decks["tightest"], decks["growth"])
    lines.line(
        "Thickness that would be exact",
        length,
        called(plan, "GASKET_FOR_QUENCH", *exact),
    )
    thicknesses = shelf.column(_THICKNESS)
    needed = (*exact, thicknesses, cells["least quench"])
    order = lines.line(
        "Gasket to order, compressed",
        length,
        when_filled(
            plan.call("NEAREST_GASKET", *needed),
            *exact,
            cells["least quench"],
            shelf.cells[0][_THICKNESS],
        ),
    )
    lines.said("Why", _why(draft, shelf, decks, order), rows=2)
    fitted = cells["gasket"]
    said = f'IF(ROUND({fitted}-{order},5)=0,"the one to order","another than the one to order")'
    lines.said("The gasket fitted is", f'=IF(COUNT({fitted},{order})=2,{said},"")')
    for label in ("Another taken, why", "None fits: changed instead"):
        row = page.next()
        page.sheet.row_dimensions[row].height = 22
        page.box(row, (1, 4, page.columns), label, of="Choice")
    lines.line("Decided by", None, role="sign")


def _why(draft: Draft, shelf: Table, decks: dict[str, str], order: str) -> str:
    """A sentence with the numbers that the choice rests on."""
    plan = draft.plan
    plain = plan.pick("0.0000", "0.000")
    unit = q.of("quench").unit(plan)

    def number(cell: str, digits: str = plain) -> str:
        return f'TEXT({cell},"{digits}")'

    where = f"MATCH({order},{shelf.column(_THICKNESS)},0)"

    def of_it(head: str) -> str:
        return f"INDEX({shelf.column(head)},{where})"

    parts = [
        '"Order the "',
        number(order, plan.pick("0.000", "0.00")),
        f'" {unit} gasket: the piston stands "',
        number(f"ABS({decks['tightest']})"),
        f'IF({decks["tightest"]}<0," out of the hole"," in the hole")',
        f'IF({decks["growth"]}<0,", the clearance closes by ",", the clearance grows by ")',
        number(f"ABS({decks['growth']})"),
        '", and so the hot quench is "',
        number(of_it(_HOT)),
        '" where "',
        number(decks["wanted"]),
        f'" {unit} is wanted; cold it is "',
        number(of_it(_COLD)),
        f'IF({of_it(_RUNNING)}="","",", at speed "&{number(of_it(_RUNNING))})',
    ]
    if "Ratio, lowest" in shelf.columns:
        ratios = (of_it("Ratio, lowest"), of_it("Ratio, highest"))
        said = f'", ratio "&{number(ratios[0], "0.00")}&" to "&{number(ratios[1], "0.00")}'
        parts.append(f'IF({ratios[0]}="","",{said})')
    sentence = "&".join(parts) + '&"."'
    none = '"None on the shelf leaves the least quench: look for a thicker one."'
    return f'=IF(ISERROR({order}),{none},IF({order}="","",{sentence}))'
