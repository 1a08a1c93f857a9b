"""Write a build book: every sheet, the names, and the functions that need no add-in."""

from __future__ import annotations

import os
import re
import tempfile
import zipfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import ModuleType

from openpyxl import Workbook

from workbook_tools.buildbook import style
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.page import Field
from workbook_tools.buildbook.plan import BuildBookError, Plan, plan_for
from workbook_tools.buildbook.sheets import (
    assembly,
    balance,
    bearings,
    block,
    bottom,
    camshaft,
    combinations,
    crank,
    deck,
    gasket,
    heads,
    heat,
    job,
    notes,
    parts,
    pistons,
    power,
    release,
    rings,
    rods,
    running,
    stretch,
    valvetrain,
    volumes,
)
from workbook_tools.hosts.archive import EditError
from workbook_tools.hosts.portable import portable

_TYPED_NOTHING = re.compile(rb' t="n" ?/>')
_TIMES = re.compile(rb"<dcterms:(created|modified)\b.*?</dcterms:\1>")
_NO_TIME = (1980, 1, 1, 0, 0, 0)
# In the order of the work.
SHEETS: tuple[ModuleType, ...] = (
    job,
    heat,
    combinations,
    parts,
    block,
    crank,
    rods,
    pistons,
    bearings,
    rings,
    deck,
    volumes,
    gasket,
    balance,
    heads,
    bottom,
    camshaft,
    valvetrain,
    assembly,
    stretch,
    running,
    power,
    release,
    notes,
)


@dataclass(frozen=True)
class BookReport:
    """A new book: where it is, what it is for, its sheets, and what came from an older one.

    boxes: cells that can be filled in, bands among them; required: those that a job needs;
    kept: how many cells were taken over; left_out: what could not be, and why; own: what is said
    of each sheet of the builder's own that came along.
    """

    path: Path
    plan: Plan
    sheets: tuple[str, ...]
    boxes: int
    required: int
    kept: int = 0
    left_out: tuple[str, ...] = ()
    own: tuple[str, ...] = ()


def new_book(
    path: str | os.PathLike[str],
    cylinders: int,
    units: str,
    layout: str | None = None,
    *,
    mains: int | None = None,
    rods_per_journal: int | None = None,
    valves: int = 2,
    without: tuple[str, ...] = (),
    scope: str = "complete",
) -> BookReport:
    """Write an empty build book for one engine.

    path: a new .xlsx file in a folder that exists; the rest as for `plan_for`. Raises
    BuildBookError where the book cannot be as asked or the file exists already.
    """
    plan = plan_for(
        cylinders,
        units,
        layout,
        mains=mains,
        rods_per_journal=rods_per_journal,
        valves=valves,
        without=without,
        scope=scope,
    )
    target = new_file(path)
    draft = drafted(plan)
    save(draft, target)
    return report(draft, target)


def report(draft: Draft, target: Path) -> BookReport:
    """What there is to say of a book that was just saved."""
    cells = draft.fields
    needed = sum(cell.required for cell in cells)
    return BookReport(target, draft.plan, tuple(draft.workbook.sheetnames), len(cells), needed)


@cache
def fields(plan: Plan) -> tuple[Field, ...]:
    """Every cell that is filled in at the bench in a book of this plan."""
    return drafted(plan).fields


def drafted(plan: Plan) -> Draft:
    """All sheets of a book, not saved yet."""
    workbook = Workbook()
    workbook.remove(workbook.worksheets[0])
    style.plain(workbook)
    workbook.properties.creator = "workbook-tools"
    draft = Draft(plan, workbook)
    for sheet in SHEETS:
        if plan.has(sheet.TITLE):
            sheet.build(draft)
    if plan.has(combinations.TITLE):
        # The plan takes rises from the sheet that it stands before.
        workbook.move_sheet(combinations.TITLE, -1)
    return draft


def new_file(path: str | os.PathLike[str]) -> Path:
    """The path, once it is sure that a new book can be written there."""
    target = Path(path)
    if target.suffix.lower() != ".xlsx":
        raise BuildBookError(f"{target}: expected a name that ends in .xlsx")
    if os.path.lexists(target):
        raise BuildBookError(
            f"{target}: exists already. Name another file: nothing is overwritten."
        )
    if not target.parent.is_dir():
        raise BuildBookError(f"{target}: there is no folder {target.parent}")
    return target


def save(draft: Draft, target: Path) -> None:
    """Save a draft with the functions as defined names beside the job's."""
    with tempfile.TemporaryDirectory() as folder:
        plain = Path(folder) / "book.xlsx"
        draft.workbook.save(plain)
        _tidy(plain)
        try:
            portable(plain, target)
        except EditError as reason:
            raise BuildBookError(str(reason)) from None
        except OSError as error:
            raise BuildBookError(f"{target}: cannot be written ({error.strerror})") from None


def _tidy(path: Path) -> None:
    """Take from a book what openpyxl adds: times, and the type of a number in empty cells.

    Some engines read a typed empty cell as 0, and an empty cell here is no reading.
    """
    with zipfile.ZipFile(path) as archive:
        parts = [(item, archive.read(item)) for item in archive.infolist()]
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for item, data in parts:
            if item.filename.startswith("xl/worksheets/"):
                data = _TYPED_NOTHING.sub(b"/>", data)
            if item.filename == "docProps/core.xml":
                data = _TIMES.sub(b"", data)
            item.date_time = _NO_TIME
            archive.writestr(item, data)
