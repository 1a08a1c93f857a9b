"""The pictures of the manual and the README, taken from the program as it stands now.

Needs LibreOffice, Chromium, Xvfb, pdftoppm, and Pillow (pip install pillow). Run, with the names
of pictures to take only those:

    python example_books/manual_pictures.py [summary month …]

They land in workbook_tools/manual/pictures, in 128 colors so that the package stays small. Look at
each: a picture of a page that is still being written shows nothing by itself.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet
from PIL import Image, ImageGrab

from workbook_tools.hosts.libreoffice.installation import Profile, install

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "example_books"
MANUAL = ROOT / "workbook_tools" / "manual"
PICTURES = MANUAL / "pictures"
SCREEN = ":77"
# A first start would show a tip and a bar with news over the book.
QUIET = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"
 xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Common/Misc"><prop oor:name="ShowTipOfTheDay" oor:op="fuse">
<value>false</value></prop></item>
<item oor:path="/org.openoffice.Setup/Product"><prop oor:name="ooSetupLastVersion" oor:op="fuse">
<value>99.9</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"
 oor:op="fuse"><value>0</value></prop></item>
<item
 oor:path="/org.openoffice.Office.Views/Windows/org.openoffice.Office.Views:WindowType['scalc/10336']/UserData">
<prop oor:name="Data" oor:op="fuse" oor:type="xs:string">
<value>V2,H,0,AL:(5,16,0/0/48/450,48;450)</value></prop></item>
</oor:items>
"""
_TUTORIAL_ROW = re.compile(r"^\| ([A-Z]\d+) \| (.*?) \| ?.*? ?\|$", re.MULTILINE)


def tool(*arguments: object) -> None:
    """Run this program's command line."""
    command = [sys.executable, "-m", "workbook_tools", *map(str, arguments)]
    subprocess.run(command, check=False, stdout=subprocess.DEVNULL, cwd=ROOT)


def keep(picture: Image.Image, name: str) -> None:
    """Write a picture in few colors."""
    few = picture.convert("RGB").quantize(128, method=Image.Quantize.MEDIANCUT, dither=0)
    few.save(PICTURES / f"{name}.png", optimize=True)


def of_page(page: Path, name: str, width: int, height: int) -> None:
    """The top of a page in a browser."""
    with tempfile.TemporaryDirectory() as folder:
        shot = Path(folder, "shot.png")
        subprocess.run(
            ["chromium", "--headless", "--no-sandbox", "--hide-scrollbars", f"--screenshot={shot}",
             f"--window-size={width},{height}", page.resolve().as_uri()],
            check=True,
            stderr=subprocess.DEVNULL,
        )  # fmt: skip
        keep(Image.open(shot), name)


def of_print(pdf: Path, name: str, number: int = 1) -> None:
    """One page of a print."""
    with tempfile.TemporaryDirectory() as folder:
        only = ["-f", str(number), "-l", str(number), "-r", "80", "-png", "-singlefile"]
        subprocess.run(["pdftoppm", *only, pdf, Path(folder, "page")], check=True)
        keep(Image.open(Path(folder, "page.png")), name)


def of_office(book: Path, name: str, profile: Profile) -> None:
    """A book in a window of LibreOffice, in which the worksheet functions are installed."""
    screen = subprocess.Popen(["Xvfb", SCREEN, "-screen", "0", "1010x760x24"])
    office = None
    try:
        time.sleep(1)
        office = subprocess.Popen(
            ["soffice", *profile.options, "--norestore", "--nologo", str(book)],
            env={**os.environ, "DISPLAY": SCREEN},
            stderr=subprocess.DEVNULL,
        )
        # A window that waits for nothing tells nobody; the sheet is there long before.
        time.sleep(25)
        picture = ImageGrab.grab(xdisplay=SCREEN)
        keep(picture.crop(picture.getbbox()), name)  # Around the window the screen is black.
    finally:
        if office is not None:
            subprocess.run(["pkill", "-f", profile.folder.name], check=False)
            office.wait(timeout=20)
        screen.terminate()
        screen.wait()


def show(sheet: Worksheet, top: int, chosen: str) -> None:
    """Let a sheet open at a row, with a cell chosen."""
    sheet.sheet_view.topLeftCell = f"A{top}"
    for selection in sheet.sheet_view.selection:
        selection.activeCell = selection.sqref = chosen


def tutorial_book(path: Path) -> Path:
    """The book that the tutorial has its reader type, with columns as wide as their texts."""
    book = openpyxl.Workbook()
    sheet = book.active
    for cell, typed in _TUTORIAL_ROW.findall((MANUAL / "tutorial.md").read_text("utf-8")):
        number = re.fullmatch(r"-?\d+(\.\d+)?", typed)
        sheet[cell] = float(typed) if number else typed
    for column, width in {"A": 28, "B": 26, "C": 18, "D": 16, "E": 14, "F": 10}.items():
        sheet.column_dimensions[column].width = width
    for row in sheet["B12:E15"]:
        for cell in row:
            cell.number_format = "0.0000"
    for at in ("B9", "B17", "B18", "B19", "B20", "B25"):
        sheet[at].number_format = {"B9": "0.0", "B25": "0.00"}.get(at, "0.0000")
    show(sheet, 4, "B19")
    book.save(path)
    return path


def example_book(path: Path) -> Path:
    """An example book, open where its hot quench is worked out."""
    book = openpyxl.load_workbook(EXAMPLES / "inch_v8.xlsx")
    show(book["Build sheet"], 27, "B39")
    book.save(path)
    return path


def build_book(path: Path) -> Path:
    """A filled build book, open where the deck was measured."""
    book = openpyxl.load_workbook(EXAMPLES / "build_book_inch_v8.xlsx")
    sheet = book["Deck"]
    book.active = book.sheetnames.index("Deck")
    for other in book.worksheets:
        other.sheet_view.tabSelected = other is sheet
    book.save(path)
    return path


def main(names: list[str]) -> None:
    """Take the pictures."""
    with tempfile.TemporaryDirectory(prefix="manual-pictures-") as name:
        folder = Path(name)
        summaries, month = folder / "summaries", folder / "month"
        example = example_book(folder / "inch_v8.xlsx")
        tool("summarize", EXAMPLES, "--out", summaries, "--pdf", "--customer")
        tool("month", "2025-01", "--to", "2025-12", EXAMPLES, "--out", month)
        tutorial = tutorial_book(folder / "T-1001.xlsx")
        tool("summarize", tutorial, "--out", folder / "tutorial", "--recalculate", "libreoffice")
        marked = folder / "troubled_six.xlsx"
        tool("check", EXAMPLES / "troubled_six.xlsx", "--marked", marked)
        profile = Profile(folder / "profile")
        settings = profile.folder / "user" / "registrymodifications.xcu"
        settings.parent.mkdir(parents=True)
        settings.write_text(QUIET, "utf-8")
        install(profile)
        take: dict[str, Callable[[str], None]] = {
            "summary": lambda n: of_page(summaries / "build_book_inch_v8.html", n, 1020, 1270),
            "customer": lambda n: of_page(
                summaries / "build_book_inch_v8-customer.html", n, 1020, 900
            ),
            "print": lambda n: of_print(summaries / "build_book_inch_v8-shop.pdf", n),
            "index": lambda n: of_page(summaries / "index.html", n, 1020, 700),
            "month": lambda n: of_page(month / "index.html", n, 1020, 1100),
            "tutorial_summary": lambda n: of_page(
                folder / "tutorial" / "T-1001.html", n, 1020, 1000
            ),
            "tutorial_sheet": lambda n: of_office(tutorial, n, profile),
            "libreoffice_book": lambda n: of_office(example, n, profile),
            "build_book": lambda n: of_office(build_book(folder / "new.xlsx"), n, profile),
            "marked": lambda n: of_office(marked, n, profile),
        }
        unknown = set(names) - set(take)
        if unknown:
            sys.exit(f"no picture {', '.join(sorted(unknown))}; there are {', '.join(take)}")
        if missing := [
            p for p in ("soffice", "chromium", "Xvfb", "pdftoppm") if not shutil.which(p)
        ]:
            sys.exit(f"not installed: {', '.join(missing)}")
        for one in names or take:
            take[one](one)


if __name__ == "__main__":
    main(sys.argv[1:])
