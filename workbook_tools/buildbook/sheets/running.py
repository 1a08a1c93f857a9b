"""Running: priming, the first start, run-in, leakage and pressures, what was looked at after."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import limits_of
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import of_all
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import JUDGED, Column, Lines, Table, table

TITLE = "Running"


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Running", (11, 13, 10, 12, 10, 10, 10, 10, 17))
    _texts(
        page,
        "Priming and first start",
        "Ignition and fuel shut off while the engine is cranked for oil. First start outdoors or "
        "with the exhaust led away, guards on, a fire extinguisher at hand; stop at once without "
        "oil pressure.",
        (
            "Oil primed, came out at",
            "Pressure while priming",
            "Firing order proved on the leads",
            "Started on, ran for",
            "Run-in: speeds and minutes",
            "Full timing, at what speed",
        ),
    )
    page.gap()
    tests = _cylinders(draft, page)
    page.gap()
    _spreads(draft, page, tests)
    page.gap()
    _oil(page)
    page.gap()
    _texts(
        page,
        "After running",
        "",
        (
            "Leaks, noises, smoke",
            "Filter cut open, found",
            "Retightened, if its maker asks for it",
            "Lash checked again",
        ),
    )
    Lines(page, "Running").line("Run by", None, role="sign")
    page.finish()


def _texts(page: Page, title: str, note: str, labels: tuple[str, ...]) -> None:
    page.section(title, note)
    for label in labels:
        page.box(page.next(), (1, 4, page.columns), label, of=title)


def _cylinders(draft: Draft, page: Page) -> Table:
    page.section(
        "Leakage and cranking pressure",
        "Compressed air turns an engine: hold the crank and keep clear of it. Leakage: engine "
        "warm, one tester, one supply. Cranking: ignition and fuel shut off, since open plug holes "
        "blow fuel into the room; throttle open, all plugs out, same strokes and battery.",
    )
    return table(
        page,
        "Cylinders",
        "Cyl",
        draft.plan.cylinder_rows,
        (
            Column(
                "Leakage, percent",
                quantity=q.of("leakage"),
                judged=True,
                limits=limits_of(draft.plan, "leakage"),
                alike=False,
            ),
            Column("Cranking pressure", quantity=q.of("cranking_pressure"), judged=True),
            Column("Heard at", "text", span=2, prompt="Intake, exhaust, filler, radiator."),
        ),
    )


def _spreads(draft: Draft, page: Page, tests: Table) -> None:
    plan = draft.plan
    page.section("The whole engine")
    lines = Lines(page, "Running")
    lines.head(*JUDGED)
    leaks, pressures = tests.column("Leakage, percent"), tests.column("Cranking pressure")
    if plan.cylinders > 1:
        spread = of_all(plan, "LEAKAGE_SPREAD", leaks, plan.cylinders)
        lines.line(
            "Leakage, worst less best, percent",
            q.of("leakage_spread"),
            spread,
            judged=True,
            limits=limits_of(plan, "leakage spread"),
        )
        spread = of_all(plan, "PRESSURE_SPREAD", pressures, plan.cylinders)
        lines.line(
            "Cranking, weakest below best",
            q.share("cranking_pressure_spread"),
            spread,
            judged=True,
            limits=limits_of(plan, "cranking pressure spread"),
        )
    lines.line("Supply pressure of the leakage tester", q.PRESSURE)


def _oil(page: Page) -> None:
    page.section("Oil pressure, cold and hot: at idle, at half and at full speed")
    table(
        page,
        "Oil",
        "When",
        ("Cold start", "Hot idle", "Hot, half", "Hot, full"),
        (
            Column("Speed", quantity=q.of("engine_speed"), alike=False),
            Column("Oil temperature", quantity=q.of("oil_temperature"), alike=False),
            Column(
                "Coolant temperature",
                quantity=q.of("coolant_temperature"),
                required=False,
                alike=False,
            ),
            Column("Oil pressure", quantity=q.of("oil_pressure"), alike=False),
        ),
    )
