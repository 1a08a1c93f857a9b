"""A build book while it is written: its sheets, and the cells that sheets lend each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from openpyxl import Workbook
from openpyxl.styles.cell_style import StyleArray
from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName

from workbook_tools.buildbook.formulas import elsewhere
from workbook_tools.buildbook.page import Field, Page
from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.style import Role

_BEFORE_NUMBER = '"Job "&IF(job_number="","not numbered",job_number)'


@dataclass
class Draft:
    """The workbook, its pages, and what has a name on one sheet and is used on another.

    cells: one cell each; ranges: one cell for each cylinder, rod or journal, in order.
    """

    plan: Plan
    workbook: Workbook
    pages: list[Page] = field(default_factory=list)
    looks: dict[tuple[Role, str, bool], StyleArray] = field(default_factory=dict)
    cells: dict[str, str] = field(default_factory=dict)
    ranges: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def page(self, title: str, heading: str, widths: Sequence[float]) -> Page:
        """A new sheet with its heading: job, units and numbering stand on every one."""
        sheet = self.workbook.create_sheet(title)
        for column, width in enumerate(widths, 1):
            sheet.column_dimensions[get_column_letter(column)].width = width
        page = Page(sheet, self.plan, title, len(widths), self.looks)
        middle = max(2, len(widths) // 2)
        page.put(1, 1, heading, "title")
        page.spread(1, 1, middle)
        job = f"={_BEFORE_NUMBER}" + '&IF(engine="",""," · "&engine)'
        page.put(1, middle + 1, job, "strip")
        page.spread(1, middle + 1, len(widths))
        page.put(2, 1, f'="{self.plan.pick(*_UNITS)}"', "strip")
        page.spread(2, 1, len(widths))
        page.put(
            3,
            1,
            '=IF(cylinder_numbering="","Cylinder numbering: not stated yet, see the sheet Job",'
            '"Cylinder numbering: "&cylinder_numbering)',
            "strip",
        )
        page.spread(3, 1, len(widths))
        for row, height in ((1, 25), (2, 14), (3, 14), (4, 6)):
            sheet.row_dimensions[row].height = height
        self.pages.append(page)
        return page

    def lend(self, name: str, page: Page, address: str) -> None:
        """Let other sheets use a cell by name."""
        self.cells[name] = elsewhere(page.title, address)

    def lend_column(self, name: str, page: Page, addresses: Sequence[str]) -> None:
        """Let other sheets use the cells of a column, one for each row."""
        self.ranges[name] = tuple(elsewhere(page.title, a) for a in addresses)

    def define(self, name: str, page: Page, address: str) -> None:
        """Give a cell a name that formulas and readers of the book can use."""
        text = elsewhere(page.title, address)
        self.workbook.defined_names[name] = DefinedName(name, attr_text=text)

    @property
    def fields(self) -> tuple[Field, ...]:
        """Every cell that is filled in at the bench, sheet by sheet."""
        return tuple(item for page in self.pages for item in page.fields)


_UNITS = (
    "Inches, cc, grams, lbf, lbf.ft, psi, deg F. Angles in crank degrees unless marked cam.",
    "Millimeters, cc, grams, N, N.m, kPa, deg C. Angles in crank degrees unless marked cam.",
)
