"""Test record: leakage, cranking pressure, oil pressure, what was looked at after running."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import JUDGED, Column, Lines, Table, table

TITLE = "Test"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Test record", (9, 16, 10, 12, 12, 11, 10, 9, 9, 10))
    tests = _cylinders(draft, page)
    page.gap()
    _spreads(draft, page, tests)
    page.gap()
    _oil(page)
    page.gap()
    _after(page)
    page.finish()


def _cylinders(draft: Draft, page: Page) -> Table:
    page.section(
        "Leakage and cranking pressure",
        "Compressed air turns an engine: hold the crank and keep clear of it. Leakage: engine "
        "warm, one tester, one supply. Cranking: throttle open, all plugs out, same strokes and "
        "battery.",
    )
    return table(
        page,
        "Cylinders",
        "Cyl",
        draft.plan.cylinder_rows,
        (
            Column("Leakage, percent", quantity=q.of("leakage"), judged=True, limits=Limits(0, 10)),
            Column("Cranking pressure", quantity=q.of("cranking_pressure"), judged=True),
            Column("Heard at", "text", span=2, prompt="Intake, exhaust, filler, radiator."),
            Column("By", "sign"),
        ),
    )


def _spreads(draft: Draft, page: Page, tests: Table) -> None:
    plan = draft.plan
    page.section("The whole engine")
    lines = Lines(page, "Test")
    lines.head(*JUDGED)
    leaks, pressures = tests.column("Leakage, percent"), tests.column("Cranking pressure")
    if plan.cylinders > 1:
        spread = when_filled(plan.call("LEAKAGE_SPREAD", leaks, plan.cylinders), leaks)
        lines.line(
            "Leakage, worst less best, percent",
            q.of("leakage_spread"),
            spread,
            judged=True,
            limits=Limits(0, 5),
        )
        spread = when_filled(plan.call("PRESSURE_SPREAD", pressures, plan.cylinders), pressures)
        lines.line(
            "Cranking, weakest below best",
            q.share("cranking_pressure_spread"),
            spread,
            judged=True,
            limits=Limits(0, 0.10),
        )
    lines.line("Supply pressure of the leakage tester", q.PRESSURE)
    lines.line("Full timing, at what speed", None, role="text")


def _oil(page: Page) -> None:
    page.section("Oil pressure")
    table(
        page,
        "Oil",
        "No.",
        [f"No. {i}" for i in range(1, 5)],
        (
            Column("When", "spec"),
            Column("Speed", quantity=q.of("engine_speed")),
            Column("Oil temperature", quantity=q.of("oil_temperature")),
            Column("Coolant or head temperature", quantity=q.of("coolant_temperature")),
            Column("Oil pressure", quantity=q.of("oil_pressure")),
            Column("Minutes run", quantity=q.COUNT),
            Column("Read by", "sign"),
        ),
        starts=[
            {"When": text}
            for text in ("cold start", "hot idle", "hot, half speed", "hot, full speed")
        ],
    )


def _after(page: Page) -> None:
    page.section("After running")
    for label in (
        "Leaks, noises, smoke",
        "Filter cut open, found",
        "Retightened, if its maker asks for it",
        "Lash checked again",
    ):
        row = page.next()
        page.sheet.row_dimensions[row].height = 20
        page.put(row, 1, label, "label")
        page.spread(row, 1, 3)
        page.enter(row, 4, f"After running / {label}", "text")
        page.spread(row, 4, page.columns - 1)
        page.enter(row, page.columns, f"After running / {label}, by", "sign")
