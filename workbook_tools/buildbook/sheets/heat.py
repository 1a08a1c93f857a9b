"""The warm engine: what the parts are made of, and how much warmer they run."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import choices
from workbook_tools.buildbook.draft import Draft
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
                          note=note, short=True, required=True)  # fmt: skip
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
