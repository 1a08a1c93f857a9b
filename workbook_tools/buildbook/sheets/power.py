"""Power run: the day's air, and the best pull brought to a standard's air."""

from __future__ import annotations

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import choices
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.table import Cells, Column, Lines, table

TITLE = "Power"


def build(draft: Draft) -> None:
    """Write the sheet."""
    plan = draft.plan
    page = draft.page(TITLE, "Power run", (10, 11, 11, 12, 10, 10, 10, 10, 10, 12))
    page.section("The day's air, in the test room")
    lines = Lines(page, "Air")
    lines.head("Notes")
    words = choices("WEATHER_CORRECTION", "standard")
    standard = lines.line("Corrected to", None, role="spec", words=words)
    barometer = lines.line("Barometer, not brought to sea level", q.of("barometric_pressure"))
    warmth = lines.line("Air temperature", q.of("air_temperature"))
    humidity = lines.line(
        "Relative humidity", q.share("relative_humidity"), prompt="As 45 %, or 0.45."
    )
    air = (standard, barometer, warmth, humidity)
    factor = lines.line(
        "Correction factor",
        q.of("weather_correction"),
        when_filled(plan.call("WEATHER_CORRECTION", *air), *air),
        note="multiply measured torque and power by it",
    )
    page.gap()
    page.section("Pulls")

    def power(c: Cells) -> str:
        cells = (c["Torque"], c["Speed"])
        return when_filled(plan.call("POWER", *cells), *cells)

    def corrected(head: str, typed: bool) -> Column:
        def formula(c: Cells) -> str:
            given, computed = ((c[head],), (factor,)) if typed else ((), (c[head], factor))
            return when_filled(f"{c[head]}*{factor}", *given, *computed)

        return Column(
            f"{head}, corrected",
            "result",
            q.of("engine_torque") if typed else q.of("power"),
            formula=formula,
        )

    table(
        page,
        "Pulls",
        "No.",
        [f"No. {i}" for i in range(1, 11)],
        (
            Column("Speed", quantity=q.of("engine_speed")),
            Column("Torque", quantity=q.of("engine_torque")),
            Column("Power", "result", q.of("power"), formula=power),
            corrected("Torque", typed=True),
            corrected("Power", typed=False),
            Column("Oil pressure", quantity=q.of("oil_pressure")),
            Column("Remarks", "text", span=3),
        ),
    )
    page.finish()
