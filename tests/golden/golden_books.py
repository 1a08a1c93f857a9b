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
from openpyxl import Workbook
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
FAULTS = 12
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
    jobs = folder / "jobs"
    jobs.mkdir()
    _write_jobs(jobs / "read_by_label.xlsx", formula="")
    _write_jobs(jobs / "with_calls.xlsx", formula="=ENG.RING_GAP(B6,0.0045)")
    faults = folder / "faults"
    faults.mkdir()
    for name, page in _pages():
        _write(faults / f"{name}.xlsx", page)
    return folder


def _write_jobs(path: Path, formula: str) -> None:
    """Write a file with a job on each sheet; formula: one more line for each, of its first bore."""
    book = Workbook()
    book.remove(book.active)
    for number, fuel, promised, bores in (
        ("24-101", "91 octane", "2025-03-20", (4.0302, 4.0304, 4.0301, 4.0303)),
        ("24-102", "race fuel 110", "2025-04-20", (3.9057, 3.9055, 3.9058, 3.9052)),
        ("24-103", "E85", "", (3.7886, 3.7883, 3.7881, 3.7884)),
    ):
        sheet = book.create_sheet(number)
        rows = [
            ("Job no.", number),
            ("Customer", f"Customer of {number}, {path.stem}"),
            ("Started", "2025-02-03"),
            ("Promised", promised or None),
            ("Fuel", fuel),
            ("Bore (in)", *bores),
            ("Deck clearance (in)", *(round(bore / 400, 4) for bore in bores)),
            ("Gasket thickness, compressed (in)", 0.041),
            ("Stroke (in)", 3.48),
            ("Part", "Shortage"),
            (f"Ring set for {number}", "yes" if promised else "no"),
            (),
            ("Checked by", None if promised else "R. Dell"),
            (),
            ("Fastener", "Size", "Torque (lbf.ft)", "Lubricant"),
            ("Head bolts", "7/16-14", float(number[-1]) + 60, "moly paste"),
        ]
        if formula:
            rows.append(("Top ring gap wanted (in)", formula))
        for row in rows:
            sheet.append(row)
    book.save(path)


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
        # One engine with one fault after the other: no copies of one customer's job.
        owner = book.add_worksheet("Owner")
        owner.write_row(0, 0, ["Customer", f"Owner of {path.stem}"])
