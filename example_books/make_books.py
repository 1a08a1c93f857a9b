"""Make the example books: drawn with openpyxl, then calculated and saved by LibreOffice.

They carry saved values, as finished books do. Run with LibreOffice installed:

    python example_books/make_books.py

Running it again gives the same bytes, with the same LibreOffice.
"""

from __future__ import annotations

import datetime
import re
import sys
import tempfile
import zipfile
from pathlib import Path

import flat_twin
import inch_v8
import metric_four
import troubled_six
from openpyxl import Workbook, load_workbook

from workbook_tools.hosts import libreoffice

HERE = Path(__file__).parent
# Name of the file, the book, and the day on which its builder saved it last.
BOOKS = (
    ("inch_v8", inch_v8.make, datetime.date(2025, 4, 11)),
    ("metric_inline_four", metric_four.make, datetime.date(2025, 5, 23)),
    ("flat_twin", flat_twin.make, datetime.date(2025, 6, 13)),
    ("troubled_six", troubled_six.make, datetime.date(2025, 3, 28)),
)


def _change_late(parts: dict[str, bytes], book: Workbook) -> None:
    """Type another number into a saved book's cell, without calculating it again."""
    title, address, before, after = troubled_six.LATE_CHANGE
    name = f"xl/worksheets/sheet{book.sheetnames.index(title) + 1}.xml"
    pattern = rf'(<c r="{address}"[^>]*><v>){before:g}(</v></c>)'.encode()
    changed, times = re.subn(pattern, rb"\g<1>%s\g<2>" % f"{after:g}".encode(), parts[name])
    if times != 1:
        raise SystemExit(f"{title}!{address} was not found with {before:g}")
    parts[name] = changed


def _finish(calculated: Path, target: Path, saved_on: datetime.date) -> None:
    """Copy a calculated book, with the builder's own date in place of today's."""
    with zipfile.ZipFile(calculated) as source:
        parts = {item.filename: source.read(item) for item in source.infolist()}
    parts["docProps/core.xml"] = re.sub(
        rb"(<dcterms:(created|modified) [^>]*>)[^<]*",
        rb"\g<1>%sT16:30:00Z" % saved_on.isoformat().encode(),
        parts["docProps/core.xml"],
    )
    # Without a window LibreOffice forgets that the books are drawn without grid lines.
    for name in parts:
        if name.startswith("xl/worksheets/"):
            parts[name] = parts[name].replace(b'showGridLines="true"', b'showGridLines="false"')
    if target.stem == "troubled_six":
        _change_late(parts, load_workbook(calculated))
    with zipfile.ZipFile(target, "w") as archive:
        for name, content in parts.items():
            day = (saved_on.year, saved_on.month, saved_on.day, 16, 30, 0)
            item = zipfile.ZipInfo(name, day)
            item.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(item, content)


def make_all(folder: Path) -> list[Path]:
    """Make all books in a folder, over what is there. Returns their files."""
    with tempfile.TemporaryDirectory() as scratch:
        drawn = []
        for name, make, _ in BOOKS:
            book = make()
            book.properties.creator = "Quillfeather Engine Room"
            drawn.append(Path(scratch) / f"{name}.xlsx")
            book.save(drawn[-1])
        profile = libreoffice.fresh_profile(Path(scratch) / "profile")
        calculated = libreoffice.recalculate(drawn, Path(scratch) / "calculated", profile)
        targets = [folder / path.name for path in calculated]
        for path, target, (_, _, saved_on) in zip(calculated, targets, BOOKS, strict=True):
            _finish(path, target, saved_on)
    return targets


if __name__ == "__main__":
    try:
        for made in make_all(HERE):
            print(made)
    except libreoffice.OfficeError as reason:
        sys.exit(str(reason))
