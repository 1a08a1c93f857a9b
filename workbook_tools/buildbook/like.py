"""Start the next job from a finished book: what is no reading of the old one comes along."""

from __future__ import annotations

import os
from copy import copy
from dataclasses import replace
from pathlib import Path
from typing import Any
from zipfile import ZipFile

from openpyxl import Workbook, load_workbook
from openpyxl.cell.cell import MergedCell
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula

from workbook_tools.book_files import check_unpacked, opened
from workbook_tools.buildbook.book import BookReport, drafted, new_file, report, save
from workbook_tools.buildbook.page import Page
from workbook_tools.buildbook.plan import OlderBookError, Plan, plan_for
from workbook_tools.buildbook.style import KEPT

_NAMES = (
    "book_cylinders",
    "book_units",
    "book_layout",
    "book_mains",
    "book_rods_per_journal",
    "book_valves",
    "book_without",
)


def new_like(old: str | os.PathLike[str], path: str | os.PathLike[str]) -> BookReport:
    """Write the empty book of the next job, with what an old one has that is no reading.

    old: a build book of ours, which stays as it is; path: a new .xlsx file. The new book is
    written afresh; parts, makers' data, bands, gauges, numbering and firing order are copied into
    it, so that no reading, name or date can travel along. Sheets that the builder added come
    along without their typed numbers and dates. Sheets whose rows or columns were moved or
    renamed are left out, and the report says so. Raises
    OlderBookError where the old book is none of ours, BuildBookError where the new one
    cannot be written.
    """
    target = new_file(path)
    source = Path(old)
    book = _opened(source)
    plan = _plan_of(book, source)
    draft = drafted(plan)
    kept, left_out = 0, []
    for page in draft.pages:
        if not any(item.role in KEPT for item in page.fields):
            continue
        reason = _moved(book, page)
        if reason:
            left_out.append(reason)
            continue
        kept += _copy(book[page.title], page)
    own = [title for title in book.sheetnames if title not in draft.workbook.sheetnames]
    brought = tuple(_bring(book[title], draft.workbook.create_sheet(title)) for title in own)
    save(draft, target)
    return replace(report(draft, target), kept=kept, left_out=tuple(left_out), own=brought)


def _opened(source: Path) -> Workbook:
    if not source.exists():
        raise OlderBookError(f"{source}: there is no such file")
    try:
        with opened(source) as file, ZipFile(file) as archive:
            check_unpacked(archive, source.stat().st_size)
            return load_workbook(file)
    except Exception as error:
        raise OlderBookError(
            f"{source}: expected a build book in .xlsx, and it cannot be read ({error})"
        ) from None


def _plan_of(book: Workbook, source: Path) -> Plan:
    """What a book was made for, as it says itself on its sheet of notes."""
    found: dict[str, Any] = {}
    for name in _NAMES:
        defined = book.defined_names.get(name)
        if defined is None:
            raise OlderBookError(
                f"{source}: expected a book made by `workbook-tools new`, got one without the "
                f"name {name}"
            )
        title, address = next(iter(defined.destinations), (None, None))
        if title not in book.sheetnames or address is None:
            raise OlderBookError(f"{source}: the name {name} points to no cell any more")
        found[name] = book[title][address.replace("$", "")].value
    try:
        numbers = [
            int(str(found[n]).split()[0])
            for n in ("book_cylinders", "book_mains", "book_rods_per_journal", "book_valves")
        ]
    except (IndexError, ValueError):
        raise OlderBookError(
            f"{source}: expected numbers of cylinders, mains, rods and valves on the sheet Notes"
        ) from None
    scope = book.defined_names.get("book_scope")
    title, address = next(iter(scope.destinations)) if scope else ("", "")
    without = [name.strip() for name in str(found["book_without"] or "").split(",")]
    return plan_for(
        numbers[0],
        str(found["book_units"]),
        str(found["book_layout"]),
        mains=numbers[1],
        rods_per_journal=numbers[2],
        valves=numbers[3],
        without=tuple(name for name in without if name not in ("", "none")),
        scope=str(book[title][address.replace("$", "")].value) if title else "complete",
    )


def _moved(book: Workbook, page: Page) -> str:
    """Why a sheet of the old book cannot be copied from, "" where it can.

    Where the words beside and above the cells stand elsewhere, rows or columns were put in or
    taken out, or another version made the book: a band would come to a wrong reading.
    """
    if page.title not in book.sheetnames:
        return f"{page.title}: the sheet is not in the old book"
    for address in page.guides:
        expected, found = page.sheet[address].value, book[page.title][address].value
        if found != expected:
            return (
                f'{page.title}: {address} says "{found or ""}" where "{expected}" is expected, so '
                "rows or columns were moved or renamed, or another version made it; copy by hand"
            )
    return ""


def _copy(old: Any, page: Page) -> int:
    """Copy what is kept from an old sheet; returns how many cells held something."""
    kept = 0
    for item in page.fields:
        if item.role not in KEPT:
            continue
        value = old[item.address].value
        if isinstance(value, str) and value.startswith("="):
            continue
        page.sheet[item.address].value = value
        kept += value not in (None, "")
    return kept


def _bring(old: Any, new: Any) -> str:
    """Copy a sheet of the builder's own; returns what is said of it.

    Words and formulas come along. A number is a reading of the old job as far as anybody knows.
    """
    emptied = 0
    for row in old.iter_rows():
        for cell in row:
            if isinstance(cell, MergedCell):
                continue
            other = new.cell(cell.row, cell.column)
            if isinstance(cell.value, (str, ArrayFormula, DataTableFormula, type(None))):
                other.value = cell.value
            else:
                emptied += 1
            if cell.has_style:
                other.font, other.fill = copy(cell.font), copy(cell.fill)
                other.border, other.alignment = copy(cell.border), copy(cell.alignment)
                other.number_format = cell.number_format
    for area in old.merged_cells.ranges:
        new.merge_cells(area.coord)
    for letter, column in old.column_dimensions.items():
        new.column_dimensions[letter].width = column.width
    for number, line in old.row_dimensions.items():
        new.row_dimensions[number].height = line.height
    return f"{old.title}: your own sheet came along; {emptied} typed numbers and dates were emptied"
