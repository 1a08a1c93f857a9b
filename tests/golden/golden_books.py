"""The books whose outputs are compared: example books, one engine in many layouts, faults.

`make_books` writes them into a folder, one folder inside it for each set. What they hold does
not change from run to run; their bytes may, by the library that writes them.
"""

from __future__ import annotations

import random
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import xlsxwriter
from openpyxl.utils.cell import coordinate_to_tuple

sys.path.insert(0, str(Path(__file__).parents[1] / "books"))
sys.path.insert(0, str(Path(__file__).parents[1] / "findings"))

import fault_set
import one_engine
import one_v8
from invented_books import Page, again

from workbook_tools.catalog import CellError

EXAMPLES = Path(__file__).parents[2] / "example_books"
SEED = 4
# As many kinds of fault as leave the test quick; other seeds draw others.
FAULTS = 16
# Clean books among the faulty ones, one in each layout.
CLEAN = range(4)


def make_books(folder: Path) -> Path:
    """Write all sets of books into a folder and return it."""
    examples = folder / "examples"
    (examples / "without_formulas").mkdir(parents=True)
    for path in sorted([*EXAMPLES.glob("*.xlsx"), *EXAMPLES.glob("*.ods")]):
        shutil.copyfile(path, examples / path.name)
    for path in sorted((EXAMPLES / "without_formulas").iterdir()):
        shutil.copyfile(path, examples / "without_formulas" / path.name)
    layouts = folder / "layouts"
    layouts.mkdir()
    for engine in (one_engine, one_v8):
        for layout in engine.LAYOUTS:
            engine.write(layouts / f"{engine.__name__}_{layout}.xlsx", layout)
    faults = folder / "faults"
    faults.mkdir()
    for name, page in _pages():
        _write(faults / f"{name}.xlsx", page)
    return folder


def _pages() -> Iterator[tuple[str, Page]]:
    """(name, page) of some clean books and of faults drawn at random, the engines taken in turn."""
    for n in CLEAN:
        yield f"clean_{again(SEED, n).layout}", again(SEED, n)
    names = random.Random(SEED).sample(sorted(fault_set.FAULTS), FAULTS)
    for first, name in enumerate(sorted(names)):
        fault = fault_set.FAULTS[name]
        # The first engine from there on that has what the fault is put into.
        for n in range(first, first + fault_set.ENGINES):
            page = again(SEED, n)
            if fault(page, random.Random(f"{SEED} {n} {name}")) is not None:
                yield "".join(c if c.isalnum() else "_" for c in name), page
                break


def _write(path: Path, page: Page) -> None:
    """Write an invented book as a program saves it that has calculated it."""
    saved = {r.place: r.saved for r in page.book().records if r.saved is not None}
    with xlsxwriter.Workbook(path) as book:
        for title, cells in page.cells.items():
            sheet = book.add_worksheet(title)
            values = {
                coordinate_to_tuple(place.address): value
                for place, value in saved.items()
                if place.sheet == title
            }
            for (row, column), content in sorted(cells.items()):
                if isinstance(content, str) and content.startswith("="):
                    value = values.get((row, column), "")
                    value = value.text if isinstance(value, CellError) else value
                    sheet.write_formula(row - 1, column - 1, content, None, value)
                elif isinstance(content, str):
                    sheet.write_string(row - 1, column - 1, content)
                else:
                    sheet.write(row - 1, column - 1, content)
