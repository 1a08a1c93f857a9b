"""A build's summary as a spreadsheet: numbers stay numbers, one line an item, for any program."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from xlsxwriter.utility import xl_range
from xlsxwriter.worksheet import Worksheet

from workbook_tools.books.own_output import BUILD_SUMMARY
from workbook_tools.render.cell_writer import NewBook, number_format
from workbook_tools.render.first_sheet import FirstSheet
from workbook_tools.render.printed import Copy
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.rows import Number, Row
from workbook_tools.summary.summary import Section, Summary

_HEADS = ("Item", "Value, or least", "where", "Largest", "where", "Mean", "Unit", "Band", "Verdict")
_SHOP_HEADS = ("State", "Cell", "By position")
_WIDTHS = (30, 10, 11, 10, 11, 10, 6, 17, 14)
_SHOP_WIDTHS = (11, 15, 15)
_POSITION_WIDTH = 8
APPENDIX = "Appendix"
# Positions beside each other before a row goes on below.
ACROSS = 8


def summary_sheet(summary: Summary, shop: Shop, copy: Copy) -> bytes:
    """The spreadsheet of a build, as the bytes of an .xlsx file.

    copy: "customer" holds key sizes, torques, break-in and cautions on one sheet; "shop" the
    first page on one sheet, and every result and reading with its cell on another. No text of
    the book becomes a formula, and the same summary gives the same bytes. Raises nothing.
    """
    number = summary.job.number.text
    title = f"Build summary, job {number}" if number else f"Build summary, {summary.file_name}"
    new = NewBook(title, shop.name, BUILD_SUMMARY)
    first = new.book.add_worksheet("Summary")
    if copy == "customer":
        page = _Page(new, first, copy)
        page.head(summary, shop)
        _customer(page, summary)
    else:
        page = _Page(new, new.book.add_worksheet(APPENDIX), copy)
        page.text("Appendix: every reading and result, with its cell", "bold")
        _appendix(page, summary)
        FirstSheet(new, first, summary, shop, page.ranges)
    page.foot(summary)
    return new.done()


def _customer(page: _Page, summary: Summary) -> None:
    told = customer_copy(summary)
    changed = [("Changed since the last copy", told.changed)] if told.changed else []
    for name, text in (*changed, *told.said):
        page.pair(name, text)
    page.heads("Key facts")
    page.items([(fact.name, fact.row) for _, facts in told.groups for fact in facts])
    page.pair("Note", told.about_facts)
    for names, before, after, words in (
        (told.outside, "Outside its band", " Ask the shop about it.", "out"),
        (told.doubted, "In doubt", " The shop has to settle this.", "out"),
        (told.missing, "Without a value in the book", "", "look"),
    ):
        if names:
            page.text(f"{before}: {', '.join(names)}.{after}", words)
    page.title("Release")
    page.text(told.released)
    page.text("Signature ______________________________", "soft")
    page.title("What may be retightened")
    if told.no_torques:
        page.text(told.no_torques)
    for torque in told.torques:
        how = ", ".join(filter(None, (torque.thread, torque.lubricant)))
        page.pair(torque.name, f"{torque.steps} ({how})" if how else torque.steps)
    if told.torques:
        page.pair("Note", told.about_torques)
    others = f"{', '.join(told.untouched)}, and whatever else" if told.untouched else "Whatever"
    page.pair("Not by the owner", f"{others} is not listed above.")
    page.title("Running in")
    for name, text in told.break_in:
        page.pair(name, text)
    if told.cautions:
        page.title("Cautions")
    for caution in told.cautions:
        page.pair(", ".join(caution.functions), caution.text)


def _appendix(page: _Page, summary: Summary) -> None:
    page.heads("Results")
    page.sections(summary.sections)
    if summary.absent:
        page.text(f"Nothing in this book for: {', '.join(summary.absent)}.", "soft")
    page.heads("Measurements")
    page.sections(summary.readings)
    rest = summary.recomputed.rest
    if rest or summary.troubles:
        page.title("Not the same, or not recomputed")
    for one in rest:
        page.pair(str(one.place), f"{one.label} {one.formula}: {one.state} {one.reason}".strip())
    for trouble in summary.troubles:
        page.pair(str(trouble.place or ""), f"{trouble.message}; {trouble.advice}.")
    _left_over(page, summary)
    if summary.cautions:
        page.title("Cautions")
    for caution in summary.cautions:
        page.pair(", ".join(caution.functions), caution.text)


def _left_over(page: _Page, summary: Summary) -> None:
    """Cells that wait for a number, and numbers that were not understood."""
    empty = summary.data["required"]["missing"]
    if empty:
        page.title("Cells that wait for a number")
    for one in empty:
        page.pair(f"{one['sheet']}!{one['cell']}", one["label"])
    strange = summary.data["coverage"]["not_understood"]
    if strange:
        page.title("Numbers that were not understood")
    for one in strange:
        page.pair(f"{one['sheet']}!{one['cell']}", f"{one['value']} {one['near']}".strip())


class _Page:
    """The sheet as it grows downward."""

    def __init__(self, new: NewBook, sheet: Worksheet, copy: Copy) -> None:
        self.new = new
        self.sheet = sheet
        self.shop_copy = copy == "shop"
        self.at = 0
        # Where the numbers of each row stand by position, for drawings on the first sheet.
        self.ranges: dict[int, str] = {}
        self.names = (*_HEADS, *_SHOP_HEADS) if self.shop_copy else _HEADS
        for column, width in enumerate((*_WIDTHS, *_SHOP_WIDTHS)[: len(self.names)]):
            sheet.set_column(column, column, width)
        # Every single reading stands to the right of all else, and only in the shop's copy.
        self.first = len(self.names)
        self.across = ACROSS if self.shop_copy else 0
        if self.across:
            sheet.set_column(self.first, self.first + ACROSS - 1, _POSITION_WIDTH)
            sheet.set_landscape()
        sheet.hide_gridlines(2)
        sheet.fit_to_pages(1, 0)
        sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)

    def put(self, column: int, value: object, words: str = "", size: int = 10) -> None:
        self.new.put(self.sheet, self.at, column, value, words, size)

    def head(self, summary: Summary, shop: Shop) -> None:
        self.sheet.set_paper(9 if shop.paper == "a4" else 1)
        self.put(0, shop.name or "Build summary", "bold", 16)
        self.sheet.set_row(self.at, 24)
        self.at += 1
        self.put(0, summary.title, "soft")
        self.put(1, ", ".join(shop.address), "soft")
        self.at += 2
        job = summary.job
        for name in ("number", "customer", "engine", "builder", "started", "finished"):
            text = getattr(job, name).text
            label = "Job" if name == "number" else name.capitalize()
            self.put(0, label, "soft")
            self.put(1, text or "not in the book", "bold" if text else "soft italic")
            self.at += 1

    def foot(self, summary: Summary) -> None:
        self.at += 1
        self.text(f"From {summary.file_name}, SHA-256 {summary.sha256}", "soft")
        if through := summary.read_through:
            self.text(through[0].upper() + through[1:], "soft")
        self.text(f"Made with workbook-tools {summary.tool_version}", "soft")
        self.sheet.print_area(0, 0, self.at, self.first + self.across - 1)
        self.sheet.set_footer("&L&8&F&R&8page &P of &N")

    def title(self, text: str) -> None:
        self.at += 1
        self.put(0, text, "bold", 12)
        self.at += 1

    def heads(self, text: str) -> None:
        self.title(text)
        for column, name in enumerate(self.names):
            self.put(column, name, "head right" if column in (1, 3, 5) else "head", 8)
        for column in range(self.first, self.first + self.across):
            self.put(column, "", "head", 8)
        self.at += 1

    def pair(self, name: str, text: str) -> None:
        self.put(0, name, "bold top wrap")
        style = self.new.style("wrap top")
        self.sheet.merge_range(self.at, 1, self.at, self.first - 1, "", style)
        self.new.put(self.sheet, self.at, 1, text, "wrap top")
        # Merged cells do not grow by themselves; a letter of text takes about this much width.
        room = sum((*_WIDTHS, *_SHOP_WIDTHS)[1 : len(self.names)]) * 1.2
        lines = max(1, math.ceil(len(text) / room), math.ceil(len(name) / 28))
        self.sheet.set_row(self.at, 13.5 * lines + 2)
        self.at += 1

    def text(self, text: str, words: str = "") -> None:
        self.put(0, text, words)
        self.at += 1

    def sections(self, sections: Iterable[Section]) -> None:
        for section in sections:
            self.put(0, section.title, "section")
            self.at += 1
            self.items([(row.label, row) for row in section.rows])

    def items(self, rows: Sequence[tuple[str, Row]]) -> None:
        above: tuple[str, ...] = ()
        for name, row in rows:
            positions = tuple(n.position for n in row.numbers)
            if self.across and row.stripped and positions != above and len(positions) <= ACROSS:
                for step, position in enumerate(positions):
                    self.put(self.first + step, position, "soft right", 8)
                self.sheet.set_row(self.at, 11)
                self.at += 1
                above = positions
            self.item(name, row)

    def item(self, name: str, row: Row) -> None:
        self.put(0, name, "bold wrap" if len(name) > 36 else "bold")
        values = [n.value for n in row.numbers if n.value is not None]
        extent, shown = row.extent, next((n.text for n in row.numbers if n.value is not None), "")
        if not values:
            self.put(1, row.result or "no value", "italic right")
        elif extent is None:
            self._number(1, values[0], shown)
        else:
            self._number(1, min(values), shown)
            if not extent.equal:
                self.put(2, extent.least_at, "soft", 8)
                self._number(3, max(values), shown)
                self.put(4, extent.largest_at, "soft", 8)
            if extent.mean:
                self._number(5, sum(values) / len(values), extent.mean)
        self.put(6, row.unit if values else "", "soft")
        self.put(7, row.band, "soft")
        self.put(8, row.verdict, "out" if row.worst in ("low", "high") else "")
        if self.shop_copy:
            self.put(9, row.states, "soft" if row.states in ("same", "read") else "look", 8)
            self.put(10, row.cells, "soft", 8)
        if self.across and row.stripped:
            self._positions(row)
        else:
            self.at += 1
        if self.shop_copy and row.uncertainty:
            self.put(0, row.uncertainty, "soft", 8)
            self.at += 1
        for at, note in row.notes if self.shop_copy else ():
            self.put(0, f"{at}: {note}" if at else note, "look", 8)
            self.at += 1

    def _positions(self, row: Row) -> None:
        many = len(row.numbers) > ACROSS
        if not many:
            self.sheet.set_row(self.at, 21)
            last = self.first + len(row.numbers) - 1
            drawn = f"{APPENDIX}!{xl_range(self.at, self.first, self.at, last)}"
            self.ranges[id(row)] = drawn
            self.sheet.add_sparkline(
                self.at,
                self.first - 1,
                {"range": drawn, "markers": True, "series_color": "#1c2126", "weight": 1.25},
            )
        for start in range(0, len(row.numbers), ACROSS):
            if many:
                for step, number in enumerate(row.numbers[start : start + ACROSS]):
                    self.put(self.first + step, number.position, "soft right", 7)
                self.at += 1
            for step, number in enumerate(row.numbers[start : start + ACROSS]):
                self._position(self.first + step, number)
            self.at += 1

    def _position(self, column: int, number: Number) -> None:
        if number.value is None:
            self.put(column, number.text or "no value", "look right", 8)
        else:
            words = "out right" if number.verdict in ("low", "high") else "right"
            self._number(column, number.value, number.text, words)

    def _number(self, column: int, value: float, shown: str, words: str = "right") -> None:
        self.new.put(self.sheet, self.at, column, value, words, numbers=number_format(shown))
