"""Power run: the day's air, each pull brought to a standard's air, and the peaks."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import choices
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, when_filled
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.table import Cells, Column, Lines, Table, table
from workbook_tools.formulas.references import fixed

TITLE = "Power"


def build(draft: Draft) -> None:
    """Write the sheet."""
    plan = draft.plan
    page = draft.page(TITLE, "Power run", (10, 12, 12, 13, 11, 12, 13, 13))
    page.section(
        "The day's air, in the test room",
        "An engine on a brake can burst: guards in place, nobody beside it, fuel and exhaust led "
        "away, a fire extinguisher at hand.",
    )
    lines = Lines(page, "Air")
    lines.head("Notes")
    words = choices("WEATHER_CORRECTION", "standard")
    standard = lines.line("Corrected to", None, role="spec", words=words)
    barometer = lines.line(
        "Barometer, not brought to sea level", q.of("barometric_pressure"), required=False
    )
    warmth = lines.line("Air temperature", q.of("air_temperature"), required=False)
    humidity = lines.line(
        "Relative humidity",
        q.share("relative_humidity"),
        prompt="As 45 %, or 0.45.",
        required=False,
    )
    air = (standard, barometer, warmth, humidity)
    factor = lines.line(
        "Correction factor",
        q.of("weather_correction"),
        called(plan, "WEATHER_CORRECTION", *air),
        note="of the power; the columns below are corrected by it",
    )
    page.gap()
    page.section("Pulls")
    pulls = _pulls(draft, page, fixed(factor))
    page.gap()
    _peaks(page, pulls)
    page.finish()


def _pulls(draft: Draft, page: Page, factor: str) -> Table:
    plan = draft.plan

    def power(c: Cells) -> str:
        return called(plan, "POWER", c["Torque"], c["Speed"])

    def corrected(c: Cells) -> str:
        needed = (c["Torque"], c["Speed"], factor)
        return when_filled(plan.call("POWER", f"{c['Torque']}*{factor}", c["Speed"]), *needed)

    def torque(c: Cells) -> str:
        return called(plan, "TORQUE", c["Power, corrected"], c["Speed"])

    return table(
        page,
        "Pulls",
        "No.",
        [f"No. {i}" for i in range(1, 11)],
        (
            Column("Speed", quantity=q.of("engine_speed"), required=False, alike=False),
            Column("Torque", quantity=q.alone(q.of("engine_torque")), required=False),
            Column("Power", "result", q.of("power"), formula=power),
            Column("Power, corrected", "result", q.of("power"), formula=corrected),
            Column("Torque, corrected", "result", q.of("engine_torque"), formula=torque),
        ),
    )


def _peaks(page: Page, pulls: Table) -> None:
    page.section("Peaks, corrected")
    lines = Lines(page, "Peaks")
    speeds = pulls.column("Speed")
    for what in ("Power", "Torque"):
        column = pulls.column(f"{what}, corrected")
        peak = lines.line(
            f"Peak {what.lower()}, corrected",
            q.of("power" if what == "Power" else "engine_torque"),
            f'=IF(COUNT({column})=0,"",MAX({column}))',
        )
        lines.line(
            f"Speed of the peak {what.lower()}",
            q.of("engine_speed"),
            f'=IF({peak}="","",INDEX({speeds},MATCH({peak},{column},0)))',
        )
    lines.line("Run by", None, role="sign", required=False)
