"""How a sheet goes on paper: on one page where it stays legible, else broken between its groups."""

from __future__ import annotations

import math
from typing import Any, Protocol

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.pagebreak import Break
from openpyxl.worksheet.worksheet import Worksheet

from workbook_tools.buildbook import style
from workbook_tools.buildbook.plan import Plan


class Page(Protocol):
    """What has to be known of a sheet that goes on paper.

    row: the next free one; sections: where its groups begin; plain_rows: those that may grow.
    """

    sheet: Worksheet
    plan: Plan
    columns: int
    row: int
    sections: list[int]
    plain_rows: list[int]

    def width(self, first: int, last: int) -> float:
        """The width of columns from a first to a last one, in digits."""


# Inches across and down; a sheet goes on either paper, whichever is in the printer.
_SIZES = ((8.5, 11.0), (8.27, 11.69))
_LEAST_SCALE = 0.75
_MOST_STRETCH = 1.5
_MOST_WIDENING = 1.35
# A little less than all, since programs round heights and widths to pixels.
_SURE = 0.97
_PLAIN_HEIGHT = 16.0


def fill(page: Page) -> None:
    """Set the paper of a sheet, and give rows and columns the room that the paper has.

    Hands are dirty and pencils blunt: rows grow where one page has room for it.
    """
    sheet: Any = page.sheet
    heights = {r: sheet.row_dimensions[r].height or _PLAIN_HEIGHT for r in range(1, page.row)}
    used = page.width(1, page.columns) * style.DIGIT_WIDTH
    ways = {wide: _scale(page, wide, used, sum(heights.values())) for wide in (False, True)}
    if max(ways.values()) >= _LEAST_SCALE:
        _one_page(page, heights, used)
    else:
        _pages(page, heights, used)


def _scale(page: Page, wide: bool, used: float, height: float) -> float:
    """The smaller of the scales that one page of either paper takes."""
    return min(
        min(1.0, across / used, down * _SURE / height)
        for across, down in (_room(page, wide, size) for size in _SIZES)
    )


def _room(page: Page, wide: bool, size: tuple[float, float]) -> tuple[float, float]:
    """What a paper has between its margins, in points."""
    across, down = reversed(size) if wide else size
    margins = page.sheet.page_margins
    return (
        (across - margins.left - margins.right) * 72,
        (down - margins.top - margins.bottom) * 72,
    )


def _one_page(page: Page, heights: dict[int, float], used: float) -> None:
    sheet: Any = page.sheet
    size = page.plan.pick(*_SIZES)
    plain = sum(heights[r] for r in page.plain_rows)
    fixed = sum(heights.values()) - plain

    def fitted(wide: bool) -> tuple[float, float]:
        """How much higher plain rows become, and how much smaller all is printed."""
        room, height = _room(page, wide, size)
        share = (height / min(1.0, room / used) * _SURE - fixed) / plain if plain else 1.0
        higher = max(1.0, min(_MOST_STRETCH, share))
        # Rows may not grow at the price of a scale that is too small on the other paper.
        while higher > 1 and _scale(page, wide, used, fixed + plain * higher) < _LEAST_SCALE:
            higher = max(1.0, higher - 0.05)
        return higher, min(1.0, room / used, height / (fixed + plain * higher))

    def legible(wide: bool) -> float:
        # What is printed gains by its size, what is written by hand by the height of rows.
        if _scale(page, wide, used, fixed + plain) < _LEAST_SCALE:
            return 0.0
        higher, scale = fitted(wide)
        return scale * math.sqrt(higher)

    wide = legible(True) > legible(False)
    higher, scale = fitted(wide)
    for row in page.plain_rows:
        sheet.row_dimensions[row].height = round(heights[row] * higher, 1)
    # Sheets that are too high for the paper are printed smaller, and have room at the sides.
    room = min(_room(page, wide, one)[0] for one in _SIZES)
    wider = min(_MOST_WIDENING, room / scale / used * 0.995)
    for column in map(get_column_letter, range(1, page.columns + 1)):
        dimension = sheet.column_dimensions[column]
        dimension.width = round(dimension.width * max(1.0, wider), 2)
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.page_setup.fitToWidth = sheet.page_setup.fitToHeight = 1
    sheet.page_setup.orientation = "landscape" if wide else "portrait"


def _pages(page: Page, heights: dict[int, float], used: float) -> None:
    """Several pages, each with the sheet's head, none of which parts a group."""
    sheet: Any = page.sheet
    room = {wide: min(_room(page, wide, size)[0] for size in _SIZES) for wide in (False, True)}
    wide = room[False] / used < _LEAST_SCALE
    scale = min(1.0, room[wide] / used)
    down = min(_room(page, wide, size)[1] for size in _SIZES) * _SURE
    head = sum(heights[r] for r in range(1, 4))
    starts = [*page.sections[1:], page.row]
    groups = [
        sum(heights[r] for r in range(first, last))
        for first, last in zip(page.sections, starts, strict=True)
    ]
    # The highest group decides how large all can be printed.
    scale = min(scale, max(_LEAST_SCALE, down / (head + max(groups))))
    scale = math.floor(scale * 100) / 100
    left = down / scale - head
    for first, height in zip(page.sections, groups, strict=True):
        if height > left and first != page.sections[0]:
            sheet.row_breaks.append(Break(id=first - 1))
            left = down / scale - head
        left -= height
    sheet.print_title_rows = "1:3"
    sheet.page_setup.scale = int(scale * 100)
    sheet.page_setup.orientation = "landscape" if wide else "portrait"
