"""Deck and quench: the deck measured at each cylinder, and the quench cold, hot and at speed."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import usual
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Cells, Column, Lines, Table, block, table
from workbook_tools.formulas.references import fixed

TITLE = "Deck"
ONE, OTHER = "Deck, rocked one way", "Deck, rocked the other way"
_PROMPT = "Plus = below the deck, minus = above. 0 if level."


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Deck and quench", (9, 11, 11, 11, 9, 10, 9, 10, 9, 10, 9))
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
        "Quench wanted, hot", q.alone(q.of("hot_quench")), role="spec", note="warm, at rest"
    )
    off = lines.line(
        "Hot quench may be off by",
        q.alone(q.GAP),
        role="spec",
        start=plan.pick(0.004, 0.10),
        note="to either side",
    )
    least = lines.line(
        "Least quench allowed",
        q.of("quench"),
        role="spec",
        note="cold as well as warm, at rest: the piston and rod makers' figure",
    )
    running = lines.line(
        "Least quench allowed, running",
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
        needed = (c["Deck clearance"], gasket, growth)
        return when_filled(plan.call("HOT_QUENCH", *needed), *needed)

    def running(c: Cells) -> str:
        needed = (c["Quench, hot"], stretch, take_up)
        return when_filled(plan.call("RUNNING_QUENCH", *needed), *needed)

    def cold(c: Cells) -> str:
        needed = (c["Deck clearance"], gasket)
        return when_filled(plan.call("QUENCH", *needed), *needed)

    def mean(c: Cells) -> str:
        return when_filled(plan.call("MEAN_READING", readings(c), 2), readings(c))

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
        when_filled(plan.call("MEAN_READING", measured, plan.cylinders), measured),
    )
    if plan.cylinders > 1:
        lines.line(
            "Deck clearance, spread",
            q.GAP,
            when_filled(plan.call("READING_SPREAD", measured, plan.cylinders), measured),
            judged=True,
            limits=Limits(0, plan.pick(0.003, 0.08), "common practice"),
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
