"""One sheet of a build book: cells by what they are for, laid out from the top down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from copy import copy
from dataclasses import dataclass, field
from textwrap import wrap
from typing import Any

from openpyxl.styles import Protection
from openpyxl.styles.cell_style import StyleArray
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple
from openpyxl.worksheet.dimensions import ColumnDimension
from openpyxl.worksheet.worksheet import Worksheet

from workbook_tools.buildbook import style
from workbook_tools.buildbook.entry import validation
from workbook_tools.buildbook.formulas import when_filled
from workbook_tools.buildbook.paper import fill
from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.quantities import Quantity
from workbook_tools.buildbook.style import Role
from workbook_tools.formulas.references import area_address, cell_address

LETTER, A4 = 1, 9
# In pixels, for the columns of a small screen; in percent.
_SCREEN, _LEAST_ZOOM, _MOST_ZOOM = 1280, 80, 110
LAST_COLUMN = 16_384
HEADER_ROWS = 3
ROW_HEIGHT = 16.0
COMMON = "common practice"
# Cells that are typed into show what was typed.
_TYPED: tuple[Role, ...] = ("reading", "spec", "band")
_Key = tuple[str, Role, Quantity | None, str, tuple[str, ...]]
# What these say tells where a cell belongs.
_GUIDES: tuple[Role, ...] = ("label", "head", "row")


@dataclass(frozen=True)
class Field:
    """A cell that is filled in at the bench, by the name it has on its sheet.

    required: a job is not complete without it, and the cell looks so.
    """

    sheet: str
    name: str
    address: str
    role: Role
    quantity: Quantity | None
    required: bool = False


@dataclass(frozen=True)
class Limits:
    """A band as the book starts with it, and who it is from: figures, or formulas for them.

    typed: whether it can be typed over where it stands.
    """

    low: float | str
    high: float | str
    origin: str = COMMON
    typed: bool = True

    @property
    def note(self) -> str:
        """What is said at the cells of a band: whose it is, and whose comes first."""
        of_use = "the table of bands, by the use on the sheet Job"
        whose = of_use if self.origin.startswith("=") else self.origin
        return f"Starts with: {whose}. The part maker's limit comes first."


@dataclass
class Page:
    """A sheet as it grows.

    row: the next free one; verdicts: their cells; counted: whether the release sheet counts
    them, which says nothing where most of them may stay blank; plain_rows: rows of readings;
    guides: cells with the words that say what the cells beside and below them are.
    """

    sheet: Worksheet
    plan: Plan
    title: str
    columns: int
    looks: dict[tuple[Role, str, bool], StyleArray]
    fields: list[Field] = field(default_factory=list)
    row: int = HEADER_ROWS + 2
    verdicts: list[str] = field(default_factory=list)
    counted: bool = True
    plain_rows: list[int] = field(default_factory=list)
    guides: list[str] = field(default_factory=list)
    sections: list[int] = field(default_factory=list)
    _checks: dict[_Key, list[str]] = field(default_factory=dict)

    # -- cells

    def put(
        self,
        row: int,
        column: int,
        content: object,
        role: Role,
        quantity: Quantity | None = None,
        *,
        required: bool = False,
    ) -> str:
        """Write one cell; returns its address."""
        cell: Any = self.sheet.cell(row, column)
        cell.value = content
        self._dress(cell, role, quantity, required)
        address = cell_address(row, column)
        if role in _GUIDES and isinstance(content, str):
            self.guides.append(address)
        return address

    def _dress(self, cell: Any, role: Role, quantity: Quantity | None, required: bool) -> None:
        """Give a cell its look; looks are kept, since making one takes openpyxl long."""
        digits = quantity.format(self.plan, typed=role in _TYPED) if quantity else ""
        known = self.looks.get((role, digits, required))
        if known is None:
            cell.font = style.font(role)
            cell.fill = style.fill(role)
            cell.border = style.border(role, required)
            cell.alignment = style.alignment(role, numeric=quantity is not None)
            cell.protection = style.protection(role)
            cell.number_format = digits or (style.DATE_FORMAT if role == "date" else "General")
            self.looks[role, digits, required] = copy(cell._style)
        else:
            cell._style = copy(known)

    def enter(
        self,
        row: int,
        column: int,
        name: str,
        role: Role,
        quantity: Quantity | None = None,
        *,
        prompt: str = "",
        words: Sequence[str] = (),
        start: object = None,
        required: bool | None = None,
    ) -> str:
        """A cell to be filled in, with its check; name: what it is called on this sheet.

        required: left out, readings and signatures are.
        """
        must = role in ("reading", "sign") if required is None else required
        address = self.put(row, column, start, role, quantity, required=must)
        self.fields.append(Field(self.title, name, address, role, quantity, must))
        key = (name.split(" / ")[-1], role, quantity, prompt, tuple(words))
        self._checks.setdefault(key, []).append(address)
        return address

    def box(
        self,
        row: int,
        places: tuple[int, int, int],
        label: str,
        role: Role = "text",
        *,
        of: str = "",
        prompt: str = "",
        words: Sequence[str] = (),
        required: bool | None = None,
    ) -> str:
        """A label with a box beside it; returns the address of the box.

        places: the columns of the label, of the box, and of the box's end; of: the group that the
        label belongs to, in the box's name.
        """
        first, start, last = places
        self.put(row, first, label, "label")
        self.spread(row, first, start - 1)
        name = f"{of} / {label}" if of else label
        address = self.enter(row, start, name, role, prompt=prompt, words=words, required=required)
        self.spread(row, start, last)
        return address

    def spread(self, row: int, first: int, last: int, below: int = 0) -> None:
        """Merge cells to the right, and downward, in the look of the first."""
        if first == last and not below:
            return
        origin: Any = self.sheet.cell(row, first)
        for r in range(row, row + below + 1):
            for c in range(first, last + 1):
                other: Any = self.sheet.cell(r, c)
                other._style = copy(origin._style)
        # Not by merge_cells, which works out borders that all cells have already.
        self.sheet.merged_cells.add(area_address(row, first, row + below, last))

    def width(self, first: int, last: int) -> float:
        """The width of some columns together, in characters."""
        sheet = self.sheet
        letters = map(get_column_letter, range(first, last + 1))
        return sum(sheet.column_dimensions[letter].width for letter in letters)

    # -- checks

    def _add_checks(self) -> None:
        """One check for each run of cells below each other: its formula goes by the first."""
        for (name, role, quantity, prompt, words), addresses in self._checks.items():
            for first, cells in _runs(addresses):
                check = validation(self.plan, name, role, quantity, prompt, words, first)
                if check is not None:
                    check.add(cells)
                    self.sheet.add_data_validation(check)

    # -- rows

    def next(self, rows: int = 1, plain: bool = True) -> int:
        """The next free row; plain ones grow where the paper has room, others do not."""
        row = self.row
        self.row += rows
        for r in range(row, self.row):
            self.sheet.row_dimensions[r].height = ROW_HEIGHT
        if plain:
            self.plain_rows += range(row, self.row)
        return row

    def section(self, text: str, note: str = "") -> None:
        """A section's name over the width of the sheet, with a note below it."""
        row = self.next(plain=False)
        self.sections.append(row)
        self.put(row, 1, text, "section")
        self.spread(row, 1, self.columns)
        if note:
            self.note(note)

    def note(self, text: str) -> None:
        """A line of small print over the width of the sheet, as high as it needs."""
        row = self.next(plain=False)
        self.put(row, 1, text, "note")
        self.spread(row, 1, self.columns)
        lines = lines_of(text, self.width(1, self.columns) * 1.12)
        self.sheet.row_dimensions[row].height = 3 + 12 * lines

    def gap(self) -> None:
        """A little air before the next section."""
        row = self.next(plain=False)
        self.sheet.row_dimensions[row].height = 7

    def judge(self, row: int, column: int, value: str, low: str, high: str) -> str:
        """A verdict on a cell that waits for the cell and both limits."""
        formula = when_filled(self.plan.call("VERDICT", value, low, high), value, low, high)
        address = self.put(row, column, formula, "verdict")
        self.verdicts.append(address)
        return address

    # -- the whole sheet

    def finish(self) -> None:
        """Print area, paper, what stays in view, locks, and the marks of verdicts."""
        sheet: Any = self.sheet
        last = self.row - 1
        sheet.print_area = area_address(1, 1, last, self.columns)
        sheet.page_setup.paperSize = self.plan.pick(LETTER, A4)
        sheet.print_options.horizontalCentered = True
        margins = sheet.page_margins
        margins.left, margins.right, margins.top, margins.bottom = 0.5, 0.4, 0.45, 0.6
        margins.header = margins.footer = 0.3
        sheet.oddFooter.left.text = "&A"
        sheet.oddFooter.center.text = "Read by ________  Date ________"
        sheet.oddFooter.right.text = "&P / &N"
        sheet.freeze_panes = cell_address(HEADER_ROWS + 1, 1)
        first = self.fields[0].address if self.fields else cell_address(HEADER_ROWS + 2, 1)
        for selection in sheet.sheet_view.selection:
            selection.activeCell = selection.sqref = first
        sheet.sheet_view.showGridLines = False
        sheet.protection.sheet = True
        sheet.protection.formatCells = sheet.protection.formatColumns = False
        sheet.protection.formatRows = False
        self._add_checks()
        fill(self)
        shown = self.width(1, self.columns) * style.DIGIT_WIDTH / 0.75
        zoom = 5 * int(_SCREEN / shown * 20)
        sheet.sheet_view.zoomScale = max(_LEAST_ZOOM, min(_MOST_ZOOM, zoom))
        if self.verdicts:
            where = " ".join(self.verdicts)
            for rule in style.verdict_rules():
                sheet.conditional_formatting.add(where, rule)
        _unlock_blank_cells(sheet, self.columns)


def _runs(addresses: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Cells that stand below each other, as their first and their range."""
    run: list[tuple[int, int]] = []
    for place in (*map(coordinate_to_tuple, addresses), (0, 0)):
        if run and place != (run[-1][0] + 1, run[-1][1]):
            (top, column), bottom = run[0], run[-1][0]
            yield cell_address(top, column), area_address(top, column, bottom, column)
            run = []
        run.append(place)


def lines_of(text: str, width: float) -> int:
    """How many lines a text takes in cells of a width in characters."""
    return len(wrap(text, max(4, int(width)))) or 1


def _unlock_blank_cells(sheet: Worksheet, used: int) -> None:
    """Leave the margins open: what no formula holds can be written on."""
    widths = {c: sheet.column_dimensions[get_column_letter(c)].width for c in range(1, used + 1)}
    for column, width in widths.items():
        letter = get_column_letter(column)
        sheet.column_dimensions[letter] = ColumnDimension(sheet, index=letter, width=width)
        sheet.column_dimensions[letter].protection = Protection(locked=False)
    rest = get_column_letter(used + 1)
    sheet.column_dimensions[rest] = ColumnDimension(
        sheet, index=rest, min=used + 1, max=LAST_COLUMN, width=9
    )
    sheet.column_dimensions[rest].protection = Protection(locked=False)
