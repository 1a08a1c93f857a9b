"""The rollup of a month as one spreadsheet: a sheet for each table, and charts of its own."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import accumulate, islice
from typing import Any

from xlsxwriter.utility import xl_range_formula
from xlsxwriter.worksheet import Worksheet

from workbook_tools.books.own_output import MONTH
from workbook_tools.month.charts import Figure, figures
from workbook_tools.month.fit_points import FitSeries
from workbook_tools.month.glance import glance, undated
from workbook_tools.month.shown import (
    ROWS_SHOWN,
    ShownTable,
    gist,
    plain,
    shown_fit_means,
    shown_tables,
)
from workbook_tools.month.tables import Month
from workbook_tools.render.cell_writer import INK, SOFT, NewBook, number_format
from workbook_tools.settings.shop import Shop

# Widths of columns by what they hold; a table's own head may widen one.
_WIDTHS = {
    "customer": 22, "engine": 36, "engine kind": 22, "builder": 16, "file": 30, "message": 70,
    "advice": 50, "why": 60, "note": 28, "least in": 20, "largest in": 20, "fit": 24, "part": 34,
    "the book says": 34, "line": 26, "parts": 30, "signatures": 36, "what": 26, "kind": 20,
    "waiting for": 40, "open items": 30, "noticed": 50, "cells": 30, "of": 40, "sheet": 14,
    "label": 30, "function": 28, "parameter": 18,
}  # fmt: skip
# Readings, which a program opens in a moment; their CSV file holds all.
ROWS_ON_A_SHEET = 30_000
_WRAPPED = ("message", "advice", "why", "the book says", "of", "cells", "noticed", "waiting for")
_GREEN, _GRAY = "#1f5a3a", "#8a949c"
_MEANS_SHEET = "Fits by build"
# Charts of one printed page, and cells that one takes.
_CHARTS_ACROSS, _CHARTS_DOWN, _CHART_COLUMNS, _CHART_ROWS = 4, 4, 5, 13
_CHART_SIZE = {"width": 312, "height": 250}
_MOST_CHARTS = _CHARTS_ACROSS * _CHARTS_DOWN


# What is drawn: a series with the figure that it is a panel of.
Drawn = Sequence[tuple[Figure, FitSeries]]


def month_sheet(month: Month, shop: Shop) -> bytes:
    """The month's spreadsheet, as the bytes of an .xlsx file.

    Sheets: the first page, charts, one a table, the fits of each build and every reading in
    rows; of a very long table the first rows, and how many more its CSV file has. Readings,
    fits by build and paperwork are not printed, nor is a table without rows. No text of a
    book becomes a formula, and the same books give the same bytes. Raises nothing.
    """
    long = len(month.readings) > ROWS_ON_A_SHEET
    new = NewBook(f"Builds of {month.title}", shop.name, MONTH, long=long)
    first = new.sheet("Month")
    charts = new.sheet("Charts")
    charts.hide_gridlines(2)
    drawn = _drawn(month)
    means = shown_fit_means([one for _, one in drawn])
    for table in (*shown_tables(month), means):
        _table_sheet(new, new.sheet(table.title, long=long), table, shop)
    _readings_sheet(new, new.sheet("Readings", long=long), month, shop)
    _first_page(new, first, month, shop)
    _charts(new, charts, month, drawn, means, shop)
    return new.done()


def _drawn(month: Month) -> Drawn:
    """What is drawn here: as many panels as one page has, and the sheet of fits has rows for."""
    panels = [(figure, one) for figure in figures(month.series) for one in figure.series]
    rows = accumulate(len(one.points) for _, one in panels)
    return [
        panel
        for panel, last in zip(panels[:_MOST_CHARTS], rows, strict=False)
        if last <= ROWS_SHOWN
    ]


def _paper(sheet: Worksheet, shop: Shop, pages: int = 0) -> None:
    sheet.set_paper(9 if shop.paper == "a4" else 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, pages)
    sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
    sheet.set_footer("&L&8&A&R&8page &P of &N")


def _not_printed(sheet: Worksheet, columns: int) -> None:
    """Leave a sheet out of every print: its print area is a cell that nothing stands in."""
    sheet.print_area(0, columns + 1, 0, columns + 1)
    sheet.set_footer("")


# The first page has a grid of narrow columns, over which each table lays its own.
_GRID, _GRID_WIDTH = 24, 7.3


def _first_page(new: NewBook, sheet: Worksheet, month: Month, shop: Shop) -> None:
    sheet.hide_gridlines(2)
    sheet.set_column(0, _GRID - 1, _GRID_WIDTH)
    _paper(sheet, shop, 1)
    new.put(sheet, 0, 0, f"Builds of {month.title}", "bold", 16)
    sheet.set_row(0, 24)
    new.put(sheet, 1, 0, ", ".join(filter(None, (shop.name, *shop.address))), "soft")
    for n, (what, count) in enumerate(gist(month)):
        new.put(sheet, 2, 3 * n, count, "bold left", 14)
        new.put(sheet, 3, 3 * n, what, "soft", 9)
    new.put(
        sheet, 4, 0,
        f"Ages are counted to {month.last_day}. Fits and power in {month.units} units. Not in this "
        f"month: {month.earlier} finished earlier, {month.later} started later, {month.copies} "
        "that are copies of a job. Readings, fits by build and paperwork are on sheets that are "
        "not printed.",
        "soft", 9,
    )  # fmt: skip
    row = 5
    if month.undated:
        new.put(sheet, row, 0, undated(month), "bold", 9)
        row += 1
    tables = {table.key.removeprefix("first-"): table for table in glance(month)}
    half = _GRID // 2
    top = tables.get("released") or tables["months"]
    row = _small_table(new, sheet, row + 1, 0, _GRID, top)
    row = _small_table(new, sheet, row, 0, _GRID, tables["open"])
    left = _small_table(new, sheet, row, 0, half, tables["signatures"])
    right = _small_table(new, sheet, row, half, half, tables["findings"])
    last = _small_table(new, sheet, max(left, right), 0, _GRID, tables["fits"])
    sheet.print_area(0, 0, last - 1, _GRID - 1)


def _small_table(
    new: NewBook, sheet: Worksheet, row: int, column: int, width: int, table: ShownTable
) -> int:
    """Write a table of the first page, its columns merged of narrow ones; the row below it."""
    new.put(sheet, row, column, table.title, "bold", 11)
    row += 1
    if not table.rows:
        new.put(sheet, row, column, table.nothing, "soft italic", 9)
        return row + 2
    right = ["right" if c.style in ("count", "figure") else "inset" for c in table.columns]
    spans = _spans([_room(table, n) for n in range(len(table.columns))], width)
    if right[-1] == "right":
        # Figures stay beside the column before them.
        spans[-1] = (spans[-1][0], 1)
    for (at, wide), c, side in zip(spans, table.columns, right, strict=True):
        _spread(new, sheet, row, column + at, wide, c.head, f"head {side}")
    for cells in table.rows[: table.print_rows]:
        row += 1
        for (at, wide), cell, side in zip(spans, cells, right, strict=True):
            _spread(new, sheet, row, column + at, wide, cell.text, f"line {side}")
    if table.more:
        row += 1
        new.put(sheet, row, column, f"{table.more} more on the sheets behind.", "soft", 9)
    return row + 2


def _spread(
    new: NewBook, sheet: Worksheet, row: int, column: int, wide: int, text: str, words: str
) -> None:
    style = new.style(words, 9)
    if wide > 1:
        sheet.merge_range(row, column, row, column + wide - 1, "", style)
    new.put(sheet, row, column, text, words, 9)


def _room(table: ShownTable, column: int) -> int:
    """The letters that a column needs."""
    texts = [row[column].text for row in table.rows[: table.print_rows]]
    return max(len(table.columns[column].head), *map(len, texts)) + 2


def _spans(rooms: Sequence[int], width: int) -> list[tuple[int, int]]:
    """(first, how many) narrow columns for each: what it needs, the last taking the rest."""
    letters = _GRID_WIDTH * 1.25
    wide = [max(1, math.ceil(room / letters - 0.15)) for room in rooms]
    while sum(wide) > width and max(wide) > 1:
        wide[wide.index(max(wide))] -= 1
    wide[-1] += max(0, width - sum(wide))
    firsts = [sum(wide[:n]) for n in range(len(wide))]
    return list(zip(firsts, wide, strict=True))


def _table_sheet(new: NewBook, sheet: Worksheet, table: ShownTable, shop: Shop) -> None:
    """A table from cell A1 on, so that a filter or another program takes it as it is."""
    heads = [column.head for column in table.columns]
    _head(
        new,
        sheet,
        heads,
        [column.name for column in table.columns],
        len(table.rows),
        shop,
    )
    for at, column in enumerate(table.columns):
        if column.style in ("count", "figure"):
            new.put(sheet, 0, at, column.head, "head bold right", 9)
    for row, cells in enumerate(table.rows, 1):
        for at, (column, cell) in enumerate(zip(table.columns, cells, strict=True)):
            words = "top wrap" if column.name in _WRAPPED else "top"
            number = number_format(cell.text) if column.style == "figure" else ""
            new.put(sheet, row, at, cell.value, words, numbers=number)
    _tell_more(new, sheet, len(table.rows), table.count, table.key)
    if not table.rows:
        new.put(sheet, 1, 0, table.nothing, "soft italic")
    if not table.rows or not table.printed:
        _not_printed(sheet, len(heads))
    elif table.more:
        sheet.print_area(0, 0, table.print_rows, len(heads) - 1)
        more = f"{table.title}: the first {table.print_rows} of {table.count} rows"
        sheet.set_footer(f"&L&8{more.replace('&', '&&')}&R&8page &P of &N")


def _readings_sheet(new: NewBook, sheet: Worksheet, month: Month, shop: Shop) -> None:
    names = month.readings.columns
    heads = [name.capitalize() for name in names]
    rows = len(month.readings)
    _head(new, sheet, heads, names, min(rows, ROWS_ON_A_SHEET), shop)
    for row, cells in enumerate(islice(month.readings, ROWS_ON_A_SHEET), 1):
        for at, value in enumerate(cells):
            new.put(sheet, row, at, plain(value))
    _tell_more(new, sheet, ROWS_ON_A_SHEET, rows, "readings")
    _not_printed(sheet, len(names))


def _tell_more(new: NewBook, sheet: Worksheet, shown: int, rows: int, key: str) -> None:
    if rows > shown:
        more = f"{rows - shown} rows more are in {key}.csv"
        new.put(sheet, shown + 2, 0, more, "look bold")


def _head(
    new: NewBook,
    sheet: Worksheet,
    heads: Sequence[str],
    names: Sequence[str],
    rows: int,
    shop: Shop,
) -> None:
    for at, (head, name) in enumerate(zip(heads, names, strict=True)):
        new.put(sheet, 0, at, head, "head bold", 9)
        sheet.set_column(at, at, _WIDTHS.get(name, max(11, len(head) + 3)))
    sheet.freeze_panes(1, 1)
    sheet.repeat_rows(0)
    sheet.set_row(0, 28)
    if rows:
        sheet.autofilter(0, 0, rows, len(heads) - 1)
    _paper(sheet, shop)


def _charts(
    new: NewBook, sheet: Worksheet, month: Month, drawn: Drawn, means: ShownTable, shop: Shop
) -> None:
    made = [*_fit_charts(new, drawn, means)]
    across = min(_CHARTS_ACROSS, max(1, len(made)))
    new.put(sheet, 0, 0, f"Fits of {month.title}, build by build", "bold", 14)
    new.put(
        sheet, 1, 0,
        "Builds from left to right in the order in which they were finished: a line from the least "
        "to the largest reading, a dot at the mean; dashed: limits, from 20 builds on.",
        "soft", 9,
    )  # fmt: skip
    _paper(sheet, shop, 1)
    if not made:
        new.put(sheet, 2, 0, "Nothing to draw in this month.", "soft italic")
        _not_printed(sheet, _CHART_COLUMNS)
    for at, chart in enumerate(made):
        chart.set_size(_CHART_SIZE)
        row, column = 3 + at // across * _CHART_ROWS, at % across * _CHART_COLUMNS
        sheet.insert_chart(row, column, chart, {"object_position": 1})
    if made:
        rows = 3 + (len(made) - 1) // across * _CHART_ROWS + _CHART_ROWS
        sheet.print_area(0, 0, rows, across * _CHART_COLUMNS - 1)


def _fit_charts(new: NewBook, drawn: Drawn, means: ShownTable) -> Iterable[Any]:
    """A chart of each panel, from the rows of the sheet of fits by build."""
    columns = {column.name: n for n, column in enumerate(means.columns)}
    first = 1
    for figure, one in drawn:
        last = first + len(one.points) - 1
        yield _fit_chart(new, figure, one, (first, last), columns)
        first = last + 1


def _fit_chart(
    new: NewBook,
    figure: Figure,
    series: FitSeries,
    rows: tuple[int, int],
    columns: Mapping[str, int],
) -> Any:
    first, last = rows
    chart = new.book.add_chart({"type": "line"})

    def add(name: str, look: Mapping[str, Any]) -> None:
        chart.add_series(
            {
                "name": name,
                "categories": [_MEANS_SHEET, first, columns["job"], last, columns["job"]],
                "values": [_MEANS_SHEET, first, columns[name], last, columns[name]],
                **look,
            }
        )

    dot = {"type": "circle", "size": 5, "border": {"color": _GREEN}, "fill": {"color": _GREEN}}
    reach = {
        "type": "custom",
        "plus_values": _cells(rows, columns["above"]),
        "minus_values": _cells(rows, columns["below"]),
        "end_style": 0,
        "line": {"color": _GRAY, "width": 1},
    }
    add("mean", {"line": {"color": _GREEN, "width": 1}, "marker": dot, "y_error_bars": reach})
    plain_line = {"marker": {"type": "none"}}
    add("center", {"line": {"color": SOFT, "width": 0.75, "dash_type": "round_dot"}, **plain_line})
    if series.control.low is not None:
        for limit in ("low limit", "high limit"):
            add(limit, {"line": {"color": INK, "width": 0.75, "dash_type": "dash"}, **plain_line})
    digits = series.digits
    low, high, step = figure.scale
    chart.set_y_axis(
        {
            "num_format": "0." + "0" * digits if digits else "0",
            "min": low, "max": high, "major_unit": step, **_PLAIN,
        }
    )  # fmt: skip
    # Names of jobs stand below the scale and never across a line.
    chart.set_x_axis(
        {"label_position": "low", "num_font": {"size": 7, "color": SOFT, "rotation": -90}}
    )
    chart.set_legend({"none": True})
    return _titled(chart, f"{figure.title}: {series.kind}")


def _cells(rows: tuple[int, int], column: int) -> str:
    """Cells of the sheet of fits by build, as a chart names them."""
    return f"={xl_range_formula(_MEANS_SHEET, rows[0], column, rows[1], column)}"


_PLAIN: dict[str, Any] = {
    "num_font": {"size": 8, "color": SOFT},
    "line": {"color": "#c3c9ce"},
    "major_gridlines": {"visible": True, "line": {"color": "#e6e9eb", "width": 0.75}},
}


def _titled(chart: Any, title: str) -> Any:
    chart.set_title({"name": title, "name_font": {"size": 9, "bold": True}, "overlay": False})
    chart.set_chartarea({"border": {"none": True}})
    return chart
