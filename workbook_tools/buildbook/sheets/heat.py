"""The warm engine: materials, temperature rises, and what the deck clearance grows by."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import choices
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import Lines

TITLE = "Heat"
# What a rise starts with in deg F and deg C, and what is said beside it: common practice from
# memory, and each can be typed over.
_RISES = (
    ("block rise", "Block and bore temperature rise", (120, 65), "block_temperature_rise",
     "over the shop; water-cooled, usual 100 to 130 deg F (55 to 70 deg C)"),
    ("rod rise", "Crank and rod temperature rise", (150, 85), "rod_temperature_rise",
     "as hot as the oil; usual 130 to 180 deg F (70 to 100 deg C)"),
    ("piston rise", "Piston temperature rise, pin to crown", (250, 140), "piston_temperature_rise",
     "usual 200 to 350 deg F (110 to 190 deg C)"),
    ("skirt rise", "Piston temperature rise, skirt", (125, 70), "piston_temperature_rise",
     "the wall cools it: little above the bore's, far below the crown's"),
    ("ring rise", "Ring temperature rise", (200, 110), "ring_temperature_rise",
     "between the bore's and the crown's"),
    ("housing rise", "Main housing temperature rise", (130, 70), "housing_temperature_rise",
     "of the block round the mains, and of its shells"),
)  # fmt: skip


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Warm engine", (12, 11, 11, 14, 9, 13, 13, 13))
    _materials(draft, page)
    page.gap()
    _rises(draft, page)
    page.gap()
    _growth(draft, page)
    page.gap()
    _speed(draft, page)
    page.finish()


def _materials(draft: Draft, page: Page) -> None:
    page.section(
        "What the parts are made of",
        "From the list of the material table. Their expansion decides what the engine grows by.",
    )
    words = choices("BLOCK_GROWTH", "block_material")
    common = tuple(word for word in words if "valve" not in word and "stainless" not in word)
    lines = Lines(page, "Materials")
    for part, note in (
        ("Block", "between crank and deck, and round the main bearings"),
        ("Crank", ""),
        ("Rods", ""),
        ("Pistons", "the piston maker names the alloy"),
        ("Rings", ""),
    ):
        cell = lines.line(f"Material of the {part.lower()}", None, role="spec", words=common,
                          note=note, short=True)  # fmt: skip
        draft.lend(f"{part.lower()} material", page, cell)


def _rises(draft: Draft, page: Page) -> None:
    plan = draft.plan
    page.section(
        "How much warmer than when they were measured",
        "Rises, not temperatures. The book starts with what is common practice, from memory: "
        "type over what you know better of this engine. Every hot figure in the book uses them.",
    )
    lines = Lines(page, "Rises")
    lines.head("Notes")
    for name, label, start, measurand, note in _RISES:
        cell = lines.line(label, q.of(measurand), role="spec", start=plan.pick(*start), note=note)
        draft.lend(name, page, cell)


def _growth(draft: Draft, page: Page) -> None:
    plan, cells = draft.plan, draft.cells
    page.section(
        "What the deck clearance grows by",
        "Plus: the clearance opens as the engine warms up. Free expansion of each part at the "
        "rises above; a figure known from this kind of engine comes first.",
    )
    lines = Lines(page, "Growth")
    lines.head("Notes")
    deck = cells["planned deck height"]
    block = (deck, cells["block rise"], cells["block material"])
    lines.line(
        "Block growth",
        q.of("block_growth"),
        when_filled(plan.call("BLOCK_GROWTH", *block), *block),
    )
    sizes = (deck, *(cells[n] for n in ("stroke", "rod length", "compression height")))
    rises = tuple(cells[f"{part} rise"] for part in ("block", "rod", "piston"))
    made = tuple(cells[f"{part} material"] for part in ("block", "crank", "rods", "pistons"))
    needed = (*sizes, *rises, *made)
    computed = lines.line(
        "Deck clearance growth, from sizes",
        q.of("deck_growth"),
        when_filled(plan.call("DECK_GROWTH_BY_PARTS", *needed), *needed),
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
    mass = lines.line(
        "Reciprocating mass of one cylinder",
        q.of("reciprocating_mass"),
        role="spec",
        note="piston, pin, rings, locks, small end; as weighed on the sheet Balance",
    )
    area = lines.line("Rod beam section", q.of("rod_area"), role="spec", note="mean along the beam")
    take_up = lines.line(
        "Bearing take-up",
        q.of("bearing_take_up"),
        role="spec",
        start=plan.pick(0.002, 0.05),
        note="clearances of main, rod and pin that the load takes up",
    )
    stroke, rod, speed = (cells[n] for n in ("stroke", "rod length", "speed"))
    sizes = (mass, stroke, rod, speed, area, cells["rods material"])
    stretch = lines.line(
        "Rod stretch",
        q.of("rod_stretch"),
        when_filled(plan.call("ROD_STRETCH", *sizes), *sizes),
        note="at top dead center between exhaust and intake",
    )
    draft.lend("stretch", page, stretch)
    draft.lend("take-up", page, take_up)
    draft.lend("reciprocating mass", page, mass)
