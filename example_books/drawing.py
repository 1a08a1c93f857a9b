"""How the example books are drawn: kinds of cells, section bands, stripes, page setup."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.formula import ArrayFormula
from openpyxl.worksheet.worksheet import Worksheet

LETTER, A4 = 1, 9
_OK, _OUT = "1E6B3A", "A01C1C"


@dataclass(frozen=True)
class Look:
    """One builder's taste: font, color of titles, of section bands, of striped rows."""

    font: str
    ink: str
    tint: str
    stripe: str
    size: int = 10


def _fill(color: str) -> PatternFill:
    return PatternFill("solid", start_color=color, end_color=color)


def _line(color: str, style: str = "thin") -> Side:
    return Side(style=style, color=color)


def put(
    sheet: Worksheet, look: Look, at: str, value: object, kind: str = "label", digits: str = ""
) -> None:
    """Write one cell.

    kind: "title", "banner" (a title on color), "subtitle", "section", "head", "number"
    (of a cylinder or journal), "label", "typed" (a reading), "text" (typed words), "result",
    "verdict", "unit" or "note"; digits: number format.
    """
    cell = sheet[at]
    cell.value = value
    larger = {"title": 8, "banner": 6, "subtitle": -1, "note": -1}
    colors = {
        "title": look.ink, "banner": "FFFFFF", "subtitle": "666666", "section": look.ink,
        "unit": "777777", "typed": "1F3C78", "text": "1F3C78", "note": "666666",
    }  # fmt: skip
    sides = {
        "typed": "right", "result": "right", "verdict": "center", "head": "center",
        "unit": "center", "number": "center",
    }  # fmt: skip
    cell.font = Font(
        name=look.font,
        size=look.size + larger.get(kind, 0),
        bold=kind in ("title", "banner", "section", "head", "number", "verdict"),
        italic=kind in ("note", "subtitle"),
        color=colors.get(kind, "222222"),
    )
    cell.alignment = Alignment(
        horizontal=sides.get(kind, "left"),
        vertical="center",
        wrap_text=kind == "head",
        indent=1 if kind in ("banner", "label", "section", "typed", "result") else 0,
    )
    if kind in ("typed", "text"):
        cell.border = Border(bottom=_line("B9C2D0"))
    elif kind == "head":
        cell.border = Border(bottom=_line(look.ink, "medium"))
    if digits:
        cell.number_format = digits


def merge(sheet: Worksheet, area: str, color: str = "") -> None:
    """Merge a range, in one color where one is given."""
    sheet.merge_cells(area)
    if color:
        for row in sheet[area]:
            for cell in row:
                cell.fill = _fill(color)


def section(sheet: Worksheet, look: Look, area: str, text: str) -> None:
    """A band of color with a section's name, over the width of the sheet."""
    put(sheet, look, area.split(":")[0], text, "section")
    merge(sheet, area, look.tint)


def heads(sheet: Worksheet, look: Look, row: int, texts: Sequence[object]) -> None:
    """A row of column heads from column A on; None leaves a cell out."""
    for column, text in enumerate(texts, 1):
        if text is not None:
            put(sheet, look, sheet.cell(row, column).coordinate, text, "head")
    sheet.row_dimensions[row].height = 30 if any(len(str(t)) > 13 for t in texts) else 20


def array(sheet: Worksheet, look: Look, area: str, formula: str, digits: str) -> None:
    """One array formula that fills a range."""
    first = area.split(":")[0]
    for row in sheet[area]:
        for cell in row:
            put(sheet, look, cell.coordinate, None, "result", digits)
    sheet[first] = ArrayFormula(area, formula)


def content_kind(content: object) -> str:
    """The kind of cell that a content asks for: "result", "text" or "typed"."""
    if isinstance(content, str):
        return "result" if content.startswith("=") else "text"
    return "typed"


def stripe(sheet: Worksheet, look: Look, area: str) -> None:
    """Every other row of a table in a pale color."""
    for row in list(sheet[area])[1::2]:
        for cell in row:
            cell.fill = _fill(look.stripe)


def judge(sheet: Worksheet, areas: Iterable[str]) -> None:
    """Verdicts in green where they say ok, in red where they do not."""
    for area in areas:
        rules = sheet.conditional_formatting
        rules.add(area, CellIsRule("equal", ['"ok"'], font=Font(color=_OK, bold=True)))
        for word in ("low", "high"):
            rules.add(
                area,
                CellIsRule(
                    "equal", [f'"{word}"'], font=Font(color=_OUT, bold=True), fill=_fill("F6D5D5")
                ),
            )


def set_up(sheet: Worksheet, widths: Sequence[float], last: str, paper: int, wide: bool) -> None:
    """Column widths, even row heights, and a print area that fits on one page."""
    for column, width in zip("ABCDEFGHIJKLMNOP", widths, strict=False):
        sheet.column_dimensions[column].width = width
    for row in range(1, sheet[last].row + 1):
        # A height of its own for each row: nothing then hangs on the fonts of a machine.
        if sheet.row_dimensions[row].height is None:
            sheet.row_dimensions[row].height = 15.5
    sheet.row_dimensions[1].height = 30
    sheet.sheet_view.showGridLines = False
    sheet.print_area = f"A1:{last}"
    sheet.page_setup.paperSize = paper
    sheet.page_setup.orientation = "landscape" if wide else "portrait"
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.page_setup.fitToWidth = sheet.page_setup.fitToHeight = 1
    sheet.print_options.horizontalCentered = True
    for side in ("left", "right", "top", "bottom"):
        setattr(sheet.page_margins, side, 0.5)
    sheet.oddFooter.left.text = "&A"
    sheet.oddFooter.right.text = "Page &P of &N"
