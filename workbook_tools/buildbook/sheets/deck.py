"""Deck and quench: the deck measured at each cylinder, and the quench cold, hot and at speed."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of, usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, of_all, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, Table, block, table
from workbook_tools.formulas.references import fixed

TITLE = "Deck"
ONE, OTHER = "Deck, rocked one way", "Deck, rocked the other way"
_PROMPT = "Plus = below the deck, minus = above. 0 if level."


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Deck and quench", (9, 11, 11, 11, 9, 10, 9, 10, 9, 10, 9))
    _growth(draft, page)
    page.gap()
    _speed(draft, page)
    page.gap()
    limits = _wanted(draft, page)
    page.gap()
    decks = _decks(draft, page, limits)
    page.gap()
    _together(draft, page, decks)
    page.finish()


def _wanted(draft: Draft, page: Page) -> dict[str, str]:
    """What is wanted of the quench, and the gasket that is fitted."""
    plan = draft.plan
    page.section("What is wanted, and the gasket that is fitted")
    lines = Lines(page, "Quench wanted")
    lines.head("Notes")
    wanted = lines.line(
        "Quench wanted, hot",
        q.alone(q.of("hot_quench")),
        role="spec",
        required=True,
        note="warm, at rest",
    )
    off = lines.line(
        "Hot quench may be off by",
        q.alone(q.GAP),
        role="spec",
        start=plan.pick(0.004, 0.10),
        note="to either side",
    )
    least = lines.line(
        "Closest allowed, at rest",
        q.of("quench"),
        role="spec",
        required=True,
        note="cold as well as warm, at rest: the piston and rod makers' figure",
    )
    running = lines.line(
        "Running quench, least allowed",
        q.of("running_quench"),
        role="spec",
        note="with rod stretch and bearing take-up off, at the highest speed",
    )
    gasket = lines.line(
        "Head gasket, compressed",
        q.of("gasket_thickness"),
        prompt="Thickness under the torqued head, not as sold.",
        note="the one that is fitted; the sheet Gasket says which to order",
    )
    for name, address in (
        ("wanted quench", wanted),
        ("least quench", least),
        ("least running quench", running),
        ("quench off", off),
        ("gasket", gasket),
    ):
        draft.lend(name, page, address)
    return {"wanted": wanted, "off": off, "least": least, "running": running, "gasket": gasket}


def _decks(draft: Draft, page: Page, limits: dict[str, str]) -> Table:
    plan, cells = draft.plan, draft.cells
    page.section(
        "Deck clearance and quench, cylinder by cylinder",
        "Sign: plus with the piston below the deck, minus above it (out of the hole); type 0 where "
        "it is level. Bridge and indicator over the pin at top dead center, zeroed on the deck: "
        "press the crown one way, read, press it the other way, read.",
    )
    gasket, growth = fixed(limits["gasket"]), cells["growth"]
    wanted, off = fixed(limits["wanted"]), fixed(limits["off"])
    stretch, take_up = cells["stretch"], cells["take-up"]

    def readings(c: Cells) -> str:
        return block(c, ONE, OTHER)

    def hot(c: Cells) -> str:
        return called(plan, "HOT_QUENCH", c["Deck clearance"], gasket, growth)

    def running(c: Cells) -> str:
        return called(plan, "RUNNING_QUENCH", c["Quench, hot"], stretch, take_up)

    def cold(c: Cells) -> str:
        return called(plan, "QUENCH", c["Deck clearance"], gasket)

    def mean(c: Cells) -> str:
        return of_all(plan, "MEAN_READING", readings(c), 2)

    decks = table(
        page,
        "Deck",
        "Cyl",
        plan.cylinder_rows,
        (
            Column(ONE, quantity=q.of("deck_clearance"), prompt=_PROMPT),
            Column(OTHER, quantity=q.of("deck_clearance"), prompt=_PROMPT),
            Column("Deck clearance", "result", q.of("deck_clearance"), judged=True, formula=mean),
            Column(
                "Quench, cold",
                "result",
                q.of("quench"),
                judged=True,
                limits=usual(plan, cells["use"], "quench"),
                formula=cold,
            ),
            Column(
                "Quench, hot",
                "result",
                q.of("hot_quench"),
                judged=True,
                limits=Limits(
                    when_filled(f"{wanted}-{off}", wanted, off),
                    when_filled(f"{wanted}+{off}", wanted, off),
                    "as wanted above",
                    typed=False,
                ),
                formula=hot,
            ),
            Column(
                "Quench, running",
                "result",
                q.of("running_quench"),
                judged=True,
                limits=Limits(
                    when_filled(fixed(limits["running"]), fixed(limits["running"])),
                    when_filled(wanted, wanted),
                    "as wanted above",
                    typed=False,
                ),
                formula=running,
            ),
        ),
    )
    draft.lend_column("deck", page, [c["Deck clearance"] for c in decks.cells])
    return decks


def _together(draft: Draft, page: Page, decks: Table) -> None:
    plan = draft.plan
    page.section("The bridge, the spread, and the sign")
    lines = Lines(page, "Decks together")
    lines.head(*JUDGED)
    small = plan.pick(0.0005, 0.01)
    lines.line(
        "Bridge set on the deck again, reads",
        q.DIFFERENCE,
        judged=True,
        limits=Limits(-small, small, "off more: zero it, read all again"),
        prompt="After the last cylinder. It should still read 0.",
    )
    measured = decks.column("Deck clearance")
    mean = lines.line(
        "Deck clearance, mean",
        q.of("deck_clearance"),
        of_all(plan, "MEAN_READING", measured, plan.cylinders),
    )
    if plan.cylinders > 1:
        lines.line(
            "Deck clearance, spread",
            q.GAP,
            of_all(plan, "READING_SPREAD", measured, plan.cylinders),
            judged=True,
            limits=limits_of(plan, "deck clearance spread"),
        )
    heights = draft.ranges["deck height"]
    stack = [draft.cells[name] for name in ("stroke", "rod length", "compression height")]
    expected = f"AVERAGE({','.join(heights)})"
    sizes = lines.line(
        "Deck clearance, from the sizes",
        q.of("deck_clearance"),
        when_filled(plan.call("DECK_CLEARANCE", expected, *stack), *heights, *stack),
    )
    off = plan.pick(0.010, 0.25)
    turned = f"AND(ABS({mean}+{sizes})<ABS({mean}-{sizes}),ABS({mean}-{sizes})>{off / 4:g})"
    far = f"ABS({mean}-{sizes})>{off:g}"
    said = (
        f'IF({turned},"turned? The sizes say the other sign: plus is below the deck",'
        f'IF({far},"far apart: look at sizes and readings","agrees with the sizes"))'
    )
    lines.said("Sign", when_filled(said, mean, sizes))
    lines.line("Measured by", None, role="sign")


def _growth(draft: Draft, page: Page) -> None:
    plan, cells = draft.plan, draft.cells
    page.section(
        "What the deck clearance grows by",
        "Plus: the clearance opens as the engine warms up. Free expansion of each part at the "
        "sheet Heat's rises; a figure known from this kind of engine comes first.",
    )
    lines = Lines(page, "Growth")
    lines.head("Notes")
    deck = cells["planned deck height"]
    block = (deck, cells["block rise"], cells["block material"])
    lines.line(
        "Block growth",
        q.of("block_growth"),
        called(plan, "BLOCK_GROWTH", *block),
    )
    sizes = (deck, *(cells[n] for n in ("stroke", "rod length", "compression height")))
    rises = tuple(cells[f"{part} rise"] for part in ("block", "rod", "piston"))
    made = tuple(cells[f"{part} material"] for part in ("block", "crank", "rods", "pistons"))
    needed = (*sizes, *rises, *made)
    computed = lines.line(
        "Deck clearance growth, from sizes",
        q.of("deck_growth"),
        called(plan, "DECK_GROWTH_BY_PARTS", *needed),
        note="the block's growth less that of crank, rod and piston",
    )
    known = lines.line(
        "Deck clearance growth, known",
        q.alone(q.of("deck_growth")),
        role="spec",
        note="where it is known better; leave empty otherwise",
    )
    taken = lines.line(
        "Deck clearance growth, taken",
        q.of("deck_growth"),
        f'=IF({known}<>"",{known},{computed})',
        note="every hot quench uses it",
    )
    draft.lend("growth", page, taken)


def _speed(draft: Draft, page: Page) -> None:
    plan, cells = draft.plan, draft.cells
    page.section(
        "At the highest speed",
        "An estimate: the beam's own mass, bending and the crank take more. A rod or a bolt that "
        "fails can kill: the rod and bolt makers' limits come first.",
    )
    lines = Lines(page, "Speed")
    lines.head("Notes")
    area = lines.line(
        "Rod beam section", q.of("rod_area"), role="spec", required=True, note="mean along the beam"
    )
    take_up = lines.line(
        "Bearing take-up",
        q.of("bearing_take_up"),
        role="spec",
        start=plan.pick(0.002, 0.05),
        note="clearances of main, rod and pin that the load takes up",
    )
    stroke, rod, speed = (cells[n] for n in ("stroke", "rod length", "speed"))
    mass = cells["reciprocating mass"]
    sizes = (mass, stroke, rod, speed, area, cells["rods material"])
    stretch = lines.line(
        "Rod stretch",
        q.of("rod_stretch"),
        called(plan, "ROD_STRETCH", *sizes),
        note="at top dead center between exhaust and intake",
    )
    draft.lend("stretch", page, stretch)
    draft.lend("take-up", page, take_up)
