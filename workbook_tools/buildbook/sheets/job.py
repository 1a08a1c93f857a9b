"""The job sheet: who, what engine, what for, how it is counted, which gauges."""

from __future__ import annotations

from openpyxl.styles import Alignment

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import among, uses
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.style import Role
from workbook_tools.buildbook.table import Column, Lines, table

TITLE = "Job"
FUELS = ("regular", "premium", "ethanol blend", "race gasoline", "methanol", "diesel", "propane")
_PAIRS: tuple[tuple[tuple[str, Role, str], tuple[str, Role, str]], ...] = (
    (("Job number", "text", "job_number"), ("Started", "date", "started")),
    (("Customer", "text", "customer"), ("Promised", "date", "promised")),
    (("Engine", "text", "engine"), ("Finished", "date", "finished")),
    (("Casting, serial no.", "text", ""), ("Builder", "sign", "builder")),
    (("Use", "text", "engine_use"), ("Second pair of eyes", "sign", "")),
    (("Fuel", "text", ""), ("Came in with", "text", "")),
    (("Hours or miles run", "text", ""), ("Complaint, damage", "text", "")),
    (("Agreed, on what day", "text", ""), ("Reuse decided by", "text", "")),
)


_REQUIRED = ("Job number", "Customer", "Engine", "Started", "Finished", "Builder", "Use", "Fuel")


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Job sheet", (10, 11, 9, 12, 9, 10, 10, 8, 11, 11))
    _who(draft, page)
    page.gap()
    _counting(draft, page)
    page.gap()
    _gauges(page)
    page.gap()
    Lines(page, "Measuring").line(
        "Room temperature for measuring",
        q.TEMPERATURE,
        prompt="Parts, gauges and setting standard share it.",
    )
    page.finish()


def _who(draft: Draft, page: Page) -> None:
    page.section("The job")
    lists = {"Use": uses(), "Fuel": FUELS}
    prompts = {
        "Use": "What the engine is built for: every sheet takes its bands by it. Typed freely it "
        "gives none.",
        "Fuel": "From the list, or in your own words.",
    }
    for pair in _PAIRS:
        row = page.next()
        page.sheet.row_dimensions[row].height = 20
        for (label, role, name), first in zip(pair, (1, 6), strict=True):
            address = page.box(
                row,
                (first, first + 2, first + 4),
                label,
                role,
                words=lists.get(label, ()),
                prompt=prompts.get(label, ""),
                required=label in _REQUIRED,
            )
            page.sheet[address].alignment = Alignment("left", "center", wrap_text=True, indent=1)
            if name:
                draft.define(name, page, address)
    _use(draft, page)


def _use(draft: Draft, page: Page) -> None:
    """The use that bands go by, and what is said where the tables do not know the one typed."""
    row = page.next()
    known = among("TRIM(engine_use)", uses())
    page.put(row, 1, "Bands go by", "label")
    page.spread(row, 1, 2)
    address = page.put(row, 3, f'=IF({known},LOWER(TRIM(engine_use)),"")', "said")
    page.spread(row, 3, 5)
    said = "no band: choose a use from the list, or type the bands"
    page.put(row, 6, f'=IF(OR(engine_use="",{known}),"","{said}")', "doubt")
    page.spread(row, 6, page.columns)
    draft.lend("use", page, address)


def _counting(draft: Draft, page: Page) -> None:
    page.section(
        "How this engine is counted",
        "Nothing here is taken for granted: write down which cylinder is number 1, from where "
        "left and right are said, and the firing order from the engine or its maker's book.",
    )
    lines: list[tuple[str, str]] = [
        ("Cylinder 1 is, and counting goes", "cylinder_numbering"),
        ("The front is the end with", ""),
        ("Rotation, seen from the front", ""),
        ("Firing order", "firing_order"),
    ]
    lines += [(f"{bank} is, with cylinders", "") for bank in draft.plan.bank_rows] * (
        len(draft.plan.bank_rows) > 1
    )
    for label, name in lines:
        row = page.next()
        page.sheet.row_dimensions[row].height = 19
        # The next engine of a kind is counted as the last was.
        address = page.box(row, (1, 4, page.columns), label, "spec", required=bool(name))
        if name:
            draft.define(name, page, address)


def _gauges(page: Page) -> None:
    page.section("Gauges used, and the standard they were checked against")
    table(
        page,
        "Gauges",
        "No.",
        [f"No. {i}" for i in range(1, 5)],
        (
            Column("Gauge", "spec", span=3),
            Column("Its number", "spec", span=1),
            Column("Checked against", "spec", span=2),
            Column("Read, off by", "text", span=1),
            Column("Checked on", "date", span=2),
        ),
    )
