"""Write spreadsheets for handing over: texts stay texts, and the same content the same bytes."""

from __future__ import annotations

import datetime
import io
import math
from collections.abc import Mapping
from typing import Any

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from workbook_tools.books.cells import LONGEST_TEXT
from workbook_tools.books.own_output import PROPERTY

# A book holds the time it was made at; two runs would differ by it.
_CREATED = datetime.datetime(2000, 1, 1)

INK, SOFT, RULE, OUT, LOOK, BAND = (
    "#1c2126",
    "#59626b",
    "#c3c9ce",
    "#9a1b1b",
    "#7a4f00",
    "#e3ebe6",
)


class NewBook:
    """A spreadsheet being written.

    title, author: its properties; what: which output it is, by which it is passed over when
    books are read; long: whether some sheets are too long for memory. A cell is written by
    `put`, which never makes a formula of a text, and styled by words: bold, soft, out, look,
    wrap, head, right, center, inset, top, and a number's format.
    """

    def __init__(self, title: str, author: str, what: str, *, long: bool = False) -> None:
        self._target = io.BytesIO()
        self.book = xlsxwriter.Workbook(
            self._target,
            {
                "in_memory": not long,
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
            },
        )
        self.book.set_properties(
            {"title": clean(title)[:255], "author": clean(author)[:255], "created": _CREATED}
        )
        self.book.set_custom_property(PROPERTY, what)
        self.book.set_calc_mode("auto")
        self._styles: dict[tuple[str, int, str], Format] = {}

    def sheet(self, title: str, *, long: bool = False) -> Worksheet:
        """A new sheet; the rows of a long one go to disk, and are written from top to bottom."""
        self.book.constant_memory = long
        made = self.book.add_worksheet(title)
        self.book.constant_memory = False
        return made

    def style(self, words: str = "", size: int = 10, numbers: str = "") -> Format:
        """The format of these words, made once."""
        key = (words, size, numbers)
        if key not in self._styles:
            look: dict[str, Any] = {"font_size": size, "font_color": INK, "valign": "vcenter"}
            for word in words.split():
                look |= _LOOKS[word]
            if numbers:
                look["num_format"] = numbers
            self._styles[key] = self.book.add_format(look)
        return self._styles[key]

    def put(
        self,
        sheet: Worksheet,
        row: int,
        column: int,
        value: object,
        words: str = "",
        size: int = 10,
        numbers: str = "",
    ) -> None:
        """Write a number, a date or a text into a cell; anything else as text.

        row, column: counted from 0. A number that no cell can hold is written as text.
        """
        style = self.style(words, size, numbers)
        # First what a month has hundreds of thousands of.
        if type(value) is str and value:
            sheet.write_string(row, column, clean(value)[:LONGEST_TEXT], style)
        elif isinstance(value, bool) or value is None:
            sheet.write_string(row, column, "" if value is None else str(value), style)
        elif isinstance(value, (int, float)) and math.isfinite(value):
            sheet.write_number(row, column, value, style)
        elif isinstance(value, datetime.date):
            dated = self.style(words, size, numbers or "yyyy-mm-dd")
            sheet.write_datetime(row, column, datetime.datetime(*value.timetuple()[:3]), dated)
        elif str(value) == "":
            sheet.write_blank(row, column, None, style)
        else:
            sheet.write_string(row, column, clean(str(value))[:LONGEST_TEXT], style)

    def done(self) -> bytes:
        """The finished file."""
        self.book.close()
        return self._target.getvalue()


_LOOKS: Mapping[str, Mapping[str, Any]] = {
    "bold": {"bold": True},
    "soft": {"font_color": SOFT},
    "italic": {"italic": True},
    "out": {"font_color": OUT, "bold": True},
    "look": {"font_color": LOOK},
    "wrap": {"text_wrap": True},
    "head": {
        "font_color": SOFT, "bottom": 1, "bottom_color": INK, "valign": "bottom", "text_wrap": True
    },
    "section": {"bold": True, "bottom": 1, "bottom_color": INK},
    "line": {"bottom": 1, "bottom_color": RULE},
    "right": {"align": "right"},
    "left": {"align": "left"},
    "center": {"align": "center"},
    "top": {"valign": "top"},
    "inset": {"align": "left", "indent": 1},
    "banded": {"bg_color": BAND},
    "unsure": {"bg_color": "#f6e9cc"},
    "unread": {"bg_color": "#f1d9d6"},
    "aside": {"bg_color": "#e9ebed"},
    "box": {"border": 1, "border_color": SOFT},
}  # fmt: skip


def clean(text: str) -> str:
    """A text without what no file can hold: halves of characters, and control characters."""
    if text.isprintable():
        return text
    whole = text.encode("utf-8", "replace").decode("utf-8")
    return "".join(c if c >= " " or c in "\n\t" else " " for c in whole)


def number_format(shown: str) -> str:
    """The cell format that shows a number with the digits of a text: "0.0400" is 0.0000."""
    _, point, after = shown.partition(".")
    places = sum(c.isdigit() for c in after) if point else 0
    grouped = "#,##0" if "," in shown else "0"
    return grouped + ("." + "0" * places if places else "")
