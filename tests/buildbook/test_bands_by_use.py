"""The bands of a book are those of the catalog, whatever use is typed on the job sheet."""

from __future__ import annotations

import ironcalc
import openpyxl
import pytest

from workbook_tools.buildbook import plan_for
from workbook_tools.buildbook.bands import among, limits_of, uses, usual
from workbook_tools.buildbook.book import drafted
from workbook_tools.catalog import tables
from workbook_tools.catalog.usual_bands import band

MEASURED = (
    ("crank end play", 0.0),
    ("quench", 0.0),
    ("coil bind margin", 0.0),
    ("exhaust stem clearance", 0.0),
    ("pin clearance in the piston", 0.9271),
)


def test_each_use_gives_its_row_and_one_of_no_table_gives_none(tmp_path):
    plan = plan_for(8, "inch", "v")
    book = openpyxl.Workbook()
    sheet = book.active
    words = (*uses(), "weekend trips")
    for row, use in enumerate(words, 1):
        sheet.cell(row, 1, use.upper())
        sheet.cell(row, 2, f'=IF({among(f"A{row}", uses())},LOWER(A{row}),"")')
        for column, (measured, size) in enumerate(MEASURED):
            sheet.cell(row, 40, size)
            limits = usual(plan, f"B{row}", measured, size=f"AN{row}" if size else "")
            sheet.cell(row, 3 + 2 * column, limits.low)
            sheet.cell(row, 4 + 2 * column, limits.high)
    book.save(tmp_path / "bands.xlsx")
    engine = ironcalc.load_from_xlsx(str(tmp_path / "bands.xlsx"), "en", "UTC", "en")
    engine.evaluate()
    for row, use in enumerate(words, 1):
        for column, (measured, size) in enumerate(MEASURED):
            got = [engine.get_cell_value(0, row, 3 + i + 2 * column) for i in (0, 1)]
            if use not in uses():
                assert got == ["", ""], use
                continue
            # The table itself, which the tests of the catalog hold to makers' ranges.
            ((low, high, _origin),) = band(measured, use, size * 0.0254)
            assert got == pytest.approx([low / 0.0254, high / 0.0254], rel=0.06), (measured, use)


# What is no limit of a part: that the bridge still reads zero, and that tightening moved nothing.
OF_NO_TABLE = ("Bridge set on the deck again", "End play lost by tightening")


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_no_limit_is_typed_in_a_sheet_alone(units):
    plan = plan_for(8, units, "v")
    draft = drafted(plan)
    known = {0.0}
    for row in tables.read_tables().bands.values():
        if not row.conditions:
            limits = limits_of(plan, row.table)
            known |= {limits.low, limits.high}
    bands = [
        item
        for item in draft.fields
        if item.role == "band" and not any(words in item.name for words in OF_NO_TABLE)
    ]
    starts = {b: draft.workbook[b.sheet][b.address].value for b in bands}
    typed = {b: start for b, start in starts.items() if isinstance(start, (int, float))}
    assert len(typed) > 20
    assert [(b.sheet, b.name) for b, start in typed.items() if start not in known] == []
