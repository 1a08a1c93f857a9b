"""Paper and screen of a build book: margins, widths, heads, pages."""

from __future__ import annotations

import zipfile
from xml.etree import ElementTree

import openpyxl
import pytest

from workbook_tools.buildbook import plan_for
from workbook_tools.buildbook.book import drafted


@pytest.fixture(scope="module")
def book(empty_v8):
    return openpyxl.load_workbook(empty_v8)


def test_blank_margins_can_be_written_on(book):
    for sheet in book:
        for letter in ("A", "XFD"):
            column = openpyxl.utils.column_index_from_string(letter)
            [found] = [d for d in sheet.column_dimensions.values() if d.min <= column <= d.max]
            assert not found.protection.locked


def test_every_sheet_says_its_job_units_and_numbering(book):
    for sheet in book:
        header = " ".join(str(c.value) for row in sheet["A1:Z3"] for c in row if c.value)
        assert "job_number" in header
        assert "Inches" in header
        assert "cylinder_numbering" in header


def test_every_sheet_has_its_paper_and_stays_in_view(book):
    for sheet in book:
        assert sheet.print_area
        assert sheet.page_setup.paperSize == 1  # letter
        assert sheet.sheet_properties.pageSetUpPr.fitToPage or sheet.print_title_rows == "$1:$3"
        assert sheet.freeze_panes == "A4"


def test_column_widths_go_by_the_font_of_the_sheets(empty_v8):
    # ECMA-376 part 1, 18.3.1.13: a width counts digits of the Normal style's font. One that is
    # not installed would be stood in for by a wider one, and paper and screen would differ.
    with zipfile.ZipFile(empty_v8) as archive:
        styles = ElementTree.fromstring(archive.read("xl/styles.xml"))
    space = {"m": styles.tag[1:].partition("}")[0]}
    [normal] = styles.findall("m:cellStyles/m:cellStyle[@name='Normal']", space)
    looks = styles.findall("m:cellStyleXfs/m:xf", space)
    fonts = styles.findall("m:fonts/m:font/m:name", space)
    used = {fonts[int(xf.get("fontId"))].get("val") for xf in (looks[int(normal.get("xfId"))],
            styles.find("m:cellXfs/m:xf", space))}  # fmt: skip
    assert used == {"Arial"}


@pytest.mark.parametrize("cylinders", [1, 6, 8, 16])
def test_a_sheet_is_legible_on_letter_and_on_a4(cylinders):
    # ANSI letter and ISO 216 A4, in points, less the margins.
    for sheet in drafted(plan_for(cylinders, "inch", valves=4)).workbook:
        across, down = 8.27, 11.0
        if sheet.page_setup.orientation == "landscape":
            across, down = 11.0, 8.27
        margins = sheet.page_margins
        room = [(across - margins.left - margins.right) * 72,
                (down - margins.top - margins.bottom) * 72]  # fmt: skip
        area = sheet[sheet.print_area.replace("$", "").rpartition("!")[2]]
        wide = sum(sheet.column_dimensions[c.column_letter].width for c in area[0]) * 5.56
        heights = [sheet.row_dimensions[row[0].row].height or 15 for row in area]
        if sheet.sheet_properties.pageSetUpPr.fitToPage:
            assert min(room[0] / wide, room[1] / sum(heights)) >= 0.745, sheet.title
            continue
        scale = sheet.page_setup.scale / 100
        assert scale >= 0.74, sheet.title
        assert wide * scale <= room[0] + 1
        ends = [*(brk.id for brk in sheet.row_breaks.brk), len(heights)]
        for first, last in zip([3, *ends], ends, strict=False):
            assert (sum(heights[first:last]) + sum(heights[:3])) * scale <= room[1], sheet.title


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_no_word_of_a_head_is_broken_by_its_column(units):
    # A digit of the sheets' font is 0.556 of its size wide, a bold letter about 0.6 of it: a
    # head's 8.5 points make a letter 0.92 of a digit of 10 points, which widths count.
    for page in drafted(plan_for(12, units, "v", valves=4)).pages:
        merged = {area.min_row * 1000 + area.min_col: area for area in page.sheet.merged_cells}
        for row in page.sheet.iter_rows(min_row=4, max_col=page.columns):
            for cell in row:
                if not (cell.font.b and cell.font.sz == 8.5 and isinstance(cell.value, str)):
                    continue
                area = merged.get(cell.row * 1000 + cell.column)
                width = page.width(cell.column, area.max_col if area else cell.column)
                longest = max(map(len, cell.value.split()))
                assert longest * 0.92 <= width, (page.title, cell.coordinate, cell.value)
