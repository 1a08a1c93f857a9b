"""The rollup of a month as one spreadsheet: a sheet for each table, and charts of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice
from typing import Any

from xlsxwriter.worksheet import Worksheet

from workbook_tools.books.own_output import MONTH
from workbook_tools.month.shown import ShownTable, gist, plain, shown_tables
from workbook_tools.month.tables import Month
from workbook_tools.render.cell_writer import SOFT, NewBook, number_format
from workbook_tools.settings.shop import Shop

# Widths of columns by what they hold; a table's own head may widen one.
_WIDTHS = {
    "customer": 22, "engine": 36, "engine kind": 22, "builder": 16, "file": 30, "message": 70,
    "advice": 50, "why": 60, "note": 28, "least in": 20, "largest in": 20, "fit": 24, "part": 34,
    "the book says": 34, "line": 26, "parts": 30, "signatures": 36, "what": 26, "kind": 20,
    "waiting for": 20, "sheet": 14, "label": 30, "function": 28, "parameter": 18,
}  # fmt: skip
# Rows of one table, which a program opens in a moment; its CSV file holds all.
ROWS_ON_A_SHEET = 50_000
_WRAPPED = ("message", "advice", "why", "the book says")
# How many charts stand side by side, and cells that one takes.
_CHARTS_ACROSS, _CHART_COLUMNS, _CHART_ROWS = 2, 8, 17
_GREEN = "#1f5a3a"
_FITS_SHEET = "Fits by engine kind"
# Sizes that an engine is ordered by: how they spread over engines tells nothing.
_SIZES = ("Displacement", "Finished bore", "Stroke")


def month_sheet(month: Month, shop: Shop) -> bytes:
    """The month's spreadsheet, as the bytes of an .xlsx file.

    Sheets: the month in numbers, its charts, one a table, and every reading in rows; of a very
    long table the first rows, and how many more its CSV file has. No text
    of a book becomes a formula, and the same books give the same bytes. Raises nothing.
    """
    new = NewBook(f"Builds of {month.title}", shop.name, MONTH)
    first = new.book.add_worksheet("Month")
    charts = new.book.add_worksheet("Charts")
    charts.hide_gridlines(2)
    sheets = {}
    for table in shown_tables(month):
        sheets[table.key] = new.book.add_worksheet(table.title)
        _table_sheet(new, sheets[table.key], table, shop)
    _readings_sheet(new, new.book.add_worksheet("Readings"), month, shop)
    _month_page(new, first, month, shop)
    _charts(new, charts, month, shop)
    return new.done()


def _paper(sheet: Worksheet, shop: Shop) -> None:
    sheet.set_paper(9 if shop.paper == "a4" else 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
    sheet.set_footer("&L&8&A&R&8page &P of &N")


def _month_page(new: NewBook, sheet: Worksheet, month: Month, shop: Shop) -> None:
    sheet.hide_gridlines(2)
    sheet.set_column(0, 0, 26)
    sheet.set_column(1, 1, 12)
    sheet.set_column(2, 2, 80)
    _paper(sheet, shop)
    new.put(sheet, 0, 0, f"Builds of {month.title}", "bold", 16)
    sheet.set_row(0, 24)
    new.put(sheet, 1, 0, ", ".join(filter(None, (shop.name, *shop.address))), "soft")
    row = 3
    for what, count in gist(month):
        new.put(sheet, row, 0, what[0].upper() + what[1:])
        new.put(sheet, row, 1, count, "bold right", 12)
        row += 1
    row += 1
    for text in (
        f"Ages are counted to {month.last_day}, the month's last day.",
        f"Fits of inch and metric books are told together, in {month.units} units.",
        f"Not in this month: {month.earlier} finished earlier, {month.later} started later, "
        f"{month.undated} without any date, {month.copies} that are copies of a job.",
    ):
        new.put(sheet, row, 0, text, "soft")
        row += 1
    row += 1
    for table in shown_tables(month):
        new.put(sheet, row, 0, table.title, "bold")
        new.put(sheet, row, 1, len(table.rows), "right")
        new.put(sheet, row, 2, table.note if table.rows else table.nothing, "soft")
        row += 1


def _table_sheet(new: NewBook, sheet: Worksheet, table: ShownTable, shop: Shop) -> None:
    """A table from cell A1 on, so that a filter or another program takes it as it is."""
    heads = [column.head for column in table.columns]
    _head(
        new,
        sheet,
        heads,
        [column.name for column in table.columns],
        min(len(table.rows), ROWS_ON_A_SHEET),
        shop,
    )
    for at, column in enumerate(table.columns):
        if column.style in ("count", "figure"):
            new.put(sheet, 0, at, column.head, "head bold right", 9)
    for row, cells in enumerate(table.rows[:ROWS_ON_A_SHEET], 1):
        for at, (column, cell) in enumerate(zip(table.columns, cells, strict=True)):
            words = "top wrap" if column.name in _WRAPPED else "top"
            number = number_format(cell.text) if column.style == "figure" else ""
            new.put(sheet, row, at, cell.value, words, numbers=number)
    _tell_more(new, sheet, len(table.rows), table.key)
    if not table.rows:
        new.put(sheet, 1, 0, table.nothing, "soft italic")


def _readings_sheet(new: NewBook, sheet: Worksheet, month: Month, shop: Shop) -> None:
    names = month.readings.columns
    heads = [name.capitalize() for name in names]
    rows = len(month.readings)
    _head(new, sheet, heads, names, min(rows, ROWS_ON_A_SHEET), shop)
    for row, cells in enumerate(islice(month.readings, ROWS_ON_A_SHEET), 1):
        for at, value in enumerate(cells):
            new.put(sheet, row, at, plain(value))
    _tell_more(new, sheet, rows, "readings")


def _tell_more(new: NewBook, sheet: Worksheet, rows: int, key: str) -> None:
    if rows > ROWS_ON_A_SHEET:
        more = f"{rows - ROWS_ON_A_SHEET} rows more are in {key}.csv"
        new.put(sheet, ROWS_ON_A_SHEET + 2, 0, more, "look bold")


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


def _charts(new: NewBook, sheet: Worksheet, month: Month, shop: Shop) -> None:
    new.put(sheet, 0, 0, f"Charts of {month.title}", "bold", 14)
    _paper(sheet, shop)
    # Breaks between rows of charts hold only where the page is not fitted to a width.
    sheet.set_print_scale(85)
    made = [*_counts(new, month), *_fit_charts(new, month)]
    if not made:
        new.put(sheet, 2, 0, "Nothing to draw in this month.", "soft italic")
    for at, chart in enumerate(made):
        row = 2 + at // _CHARTS_ACROSS * _CHART_ROWS
        chart.set_size({"width": 500, "height": 320})
        sheet.insert_chart(row, at % _CHARTS_ACROSS * _CHART_COLUMNS, chart)
    page = 2 * _CHART_ROWS
    sheet.set_h_pagebreaks(range(2 + page, 2 + len(made) // _CHARTS_ACROSS * _CHART_ROWS, page))


def _counts(new: NewBook, month: Month) -> Iterable[Any]:
    """How long each build took, and the ages of what is open."""
    for table, name, title, days in (
        (month.builds, "Builds finished", "Days from start to finish", 7),
        (month.open_jobs, "Open jobs", f"Age of open jobs on {month.last_day}, days", 5),
    ):
        if len(table):
            chart = new.book.add_chart({"type": "bar"})
            chart.add_series(
                {
                    "categories": [name, 1, 0, len(table), 0],
                    "values": [name, 1, days, len(table), days],
                    "fill": {"color": _GREEN},
                    "gap": 120,
                    "data_labels": {"value": True},
                }
            )
            chart.set_legend({"none": True})
            # Bars run upward; the first book belongs on top.
            chart.set_y_axis({"reverse": True, **_PLAIN})
            chart.set_x_axis({"visible": False, "min": 0, "major_gridlines": {"visible": False}})
            yield _titled(chart, title)


def _fit_charts(new: NewBook, month: Month) -> Iterable[Any]:
    """For each fit the least, the mean and the largest of every engine kind."""
    fits = [str(fit) for fit in month.fits["fit"]]
    for fit in dict.fromkeys(fits):
        first = fits.index(fit)
        last = first + fits.count(fit) - 1
        about = month.fits.iloc[first]
        if fit in _SIZES or max(month.fits["readings"].iloc[first : last + 1]) < 2:
            continue
        # The chart for a day's high, low and close draws any reach with a value in it.
        chart = new.book.add_chart({"type": "stock"})
        for head, column in (("largest", 8), ("least", 6), ("mean", 4)):
            mark = {
                "type": "diamond" if head == "mean" else "short_dash",
                "size": 9 if head == "mean" else 7,
                "fill": {"color": _GREEN},
                "border": {"color": _GREEN},
            }
            chart.add_series(
                {
                    "name": head,
                    "categories": [_FITS_SHEET, first + 1, 1, last + 1, 1],
                    "values": [_FITS_SHEET, first + 1, column, last + 1, column],
                    "line": {"none": True},
                    "marker": mark,
                }
            )
        chart.set_high_low_lines({"line": {"color": _GREEN, "width": 1.5}})
        digits = int(about["digits"])
        chart.set_y_axis({"num_format": "0." + "0" * digits if digits else "0", **_PLAIN})
        chart.set_x_axis(dict(_PLAIN))
        chart.set_legend({"none": True})
        unit = f", {about['unit']}" if about["unit"] else ""
        yield _titled(chart, f"{fit}{unit}: mean, from least to largest")


_PLAIN: dict[str, Any] = {
    "num_font": {"size": 9, "color": SOFT},
    "line": {"color": "#c3c9ce"},
    "major_gridlines": {"visible": True, "line": {"color": "#e6e9eb", "width": 0.75}},
}


def _titled(chart: Any, title: str) -> Any:
    chart.set_title({"name": title, "name_font": {"size": 11, "bold": True}, "overlay": False})
    chart.set_chartarea({"border": {"none": True}})
    return chart
