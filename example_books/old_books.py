"""Two older books of an invented shop without any worksheet function, and how they are made.

An inch V8: labels left, banks side by side, remarks among the numbers, a reading struck
through, words of the shop's own. A metric inline four: cylinders down, German labels, decimal
commas typed as text. without_formulas/layout.toml says what their labels do not. Run:

    python example_books/old_books.py

Running it again gives the same bytes.
"""

from __future__ import annotations

import datetime
import zipfile
from collections.abc import Callable
from pathlib import Path

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.worksheet import Worksheet

FOLDER = Path(__file__).parent / "without_formulas"
SHOP = "Harrow Fold Engine Works"

# Cylinders 1 3 5 7 stand left, 2 4 6 8 right.
BORES = (4.0105, 4.0108, 4.0103, 4.0106), (4.0104, 4.0107, 4.0105, 4.0106)
SKIRTS = (4.0070, 4.0072, 4.0069, 4.0071), (4.0070, 4.0071, 4.0070, 4.0072)
# The shop writes a piston above the deck as plus.
DECKS = (-0.0080, -0.0075, -0.0085, -0.0080), (-0.0070, -0.0075, -0.0070, -0.0080)
TOP_GAPS = (0.0185, 0.0190, 0.0185, 0.0180), (0.0185, 0.0185, 0.0190, 0.0185)
HOUSINGS = (2.6960, 2.6958, 2.6962, 2.6959, 2.6961)
JOURNALS = (2.5036, 2.5033, 2.5035, 2.5036, 2.5033)

BOHRUNGEN = ("82,512", "82,510", "82,513", "82,511")
KOLBEN = ("82,455", "82,455", "82,457", "82,456")
UEBERSTAND = ("0,12", "0,14", "0,11", "0,13")
BRENNRAUM = ("38,4", "38,2", "38,5", "38,4")


def _write(sheet: Worksheet, rows: list[list[object]], font: str) -> None:
    thin = Border(bottom=Side(style="thin", color="BBBBBB"))
    for row in rows:
        sheet.append(row)
    for cells in sheet.iter_rows():
        for cell in cells:
            if cell.value is not None:
                cell.font = Font(name=font, size=10, bold=isinstance(cell.value, str))
                cell.border = thin


def _title(sheet: Worksheet, area: str, color: str) -> None:
    sheet.merge_cells(area)
    cell = sheet[area.split(":")[0]]
    cell.font = Font(size=14, bold=True, color="FFFFFF")
    cell.fill = PatternFill("solid", start_color=color, end_color=color)
    cell.alignment = Alignment(horizontal="center")


def inch_v8() -> Workbook:
    """The inch V8, a job of the spring of 2024."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Build"
    rows: list[list[object]] = [
        [SHOP.upper()],
        ["Ticket", "24-031", None, "Customer", "Odell Farm Trucks"],
        ["Engine", "inch V8, iron heads", None, "Built by", "HF"],
        ["Date in", "3/4/24", None, "Date out", "5/2/24"],
        [],
        ["Stroke", 3.57, "in", "turned, all four throws the same"],
        ["Rod", 5.94, "in c-c"],
        ["Chambers", "64.5 cc", None, "poured twice"],
        ["Valve reliefs", "6 cc"],
        ["Gasket", ".041 crushed", None, "Fire ring", 4.136],
        [],
        ["", "LEFT BANK", None, None, None, "RIGHT BANK"],
        ["Cylinder", 1, 3, 5, 7, 2, 4, 6, 8],
        ["Hole size", *BORES[0], *BORES[1], "rough honed first, see below"],
        ["first hone", 4.0090, 4.0091, 4.0089, 4.0090, 4.0089, 4.0091, 4.0090, 4.0090],
        ["Skirt", *SKIRTS[0], *SKIRTS[1]],
        ["Deck", *DECKS[0], *DECKS[1], "bridge over the pin"],
        ["Top gap", *TOP_GAPS[0], *TOP_GAPS[1]],
        ["", None, "checked square", None, None, None, None, "filed again"],
        [],
        ["MAINS"],
        ["Main", 1, 2, 3, 4, 5],
        ["Housing", *HOUSINGS],
        ["Shell", *[0.0950] * 5],
        ["Journal", *JOURNALS],
        ["Journal target", *[2.5035] * 5],
        [],
        ["Least quench", ".048", "in"],
    ]
    _write(sheet, rows, "Liberation Serif")
    _title(sheet, "A1:I1", "3B4A3F")
    sheet.merge_cells("B12:E12")
    sheet.merge_cells("F12:I12")
    for cell in sheet[15]:
        cell.font = Font(name="Liberation Serif", size=10, strike=True, color="999999")
    sheet.row_dimensions[19].hidden = True
    sheet.column_dimensions["A"].width = 16
    return book


def metric_four() -> Workbook:
    """The metric inline four, a job of the summer of 2024."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Motor"
    rows: list[list[object]] = [
        ["MOTORBLATT"],
        ["Auftrag Nr.", "24-058", None, "Kunde", "Bootswerft Ellernsiel"],
        ["Motor", "Vierzylinder, Grauguss", None, "Monteur", "LK"],
        ["Beginn", "17.06.2024", None, "Ausgang", "05.07.2024"],
        ["alle Maße in mm, Volumen in ccm"],
        [],
        ["Hub", "88,0"],
        ["Dichtungsbohrung", "84,0"],
        ["Dichtung gepresst", "1,20"],
        ["Kolbenmulde ccm", "4,5"],
        [],
        ["Zyl.", "Bohrung", "Kolbenmaß", "Kolbenüberstand", "Brennraum (ccm)", "Bemerkung"],
    ]
    remarks = ("", "nachgemessen", "", "")
    columns = zip(BOHRUNGEN, KOLBEN, UEBERSTAND, BRENNRAUM, remarks, strict=True)
    rows += [[number, *line] for number, line in enumerate(columns, 1)]
    rows += [["Soll", "82,51", "82,45", "0,13", "38,4"]]
    _write(sheet, rows, "Liberation Sans")
    _title(sheet, "A1:F1", "2F3E55")
    for letter, width in zip("ABCDEF", (20, 22, 12, 18, 18, 20), strict=True):
        sheet.column_dimensions[letter].width = width
    sheet.protection.sheet = True
    return book


BOOKS: tuple[tuple[str, Callable[[], Workbook], datetime.datetime], ...] = (
    ("old_inch_v8", inch_v8, datetime.datetime(2024, 5, 2, 16, 30)),
    ("old_metric_four", metric_four, datetime.datetime(2024, 7, 5, 16, 30)),
)


def make_all(folder: Path) -> list[Path]:
    """Make both books in a folder, over what is there. Returns their files."""
    made = []
    for name, make, saved_on in BOOKS:
        book = make()
        book.properties.creator = SHOP
        book.properties.created = book.properties.modified = saved_on
        path = folder / f"{name}.xlsx"
        book.save(path)
        _with_dates_of(path, saved_on)
        made.append(path)
    return made


def _with_dates_of(path: Path, saved_on: datetime.datetime) -> None:
    """Give every part of a book the day that it was saved on, and its own record of that too."""
    with zipfile.ZipFile(path) as source:
        parts = {item.filename: source.read(item) for item in source.infolist()}
    stamp = saved_on.isoformat().encode() + b"Z"
    core = parts["docProps/core.xml"]
    before, _, rest = core.partition(b"<dcterms:modified")
    opening, _, tail = rest.partition(b">")
    parts["docProps/core.xml"] = (
        before + b"<dcterms:modified" + opening + b">" + stamp + b"<" + tail.partition(b"<")[2]
    )
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in parts.items():
            item = zipfile.ZipInfo(name, saved_on.timetuple()[:6])
            item.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(item, content)


if __name__ == "__main__":
    for made in make_all(FOLDER):
        print(made)
