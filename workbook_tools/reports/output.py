"""Write a batch's pages and tables: safe names, and never half a file."""

from __future__ import annotations

import os
import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from workbook_tools.books.records import Book
from workbook_tools.reports.build import Build
from workbook_tools.reports.data import FINDING_COLUMNS, READING_COLUMNS, csv_rows
from workbook_tools.reports.html import IndexEntry, Unreadable, render_index
from workbook_tools.reports.shop import Shop

INDEX = "index.html"
READINGS = "readings.csv"
FINDINGS = "findings.csv"

LONGEST_NAME = 60
# Characters of the content hash that tell books of one name apart.
HASH_DIGITS = 10
# Names that a system keeps for itself, and that of the batch's own page.
_RESERVED = re.compile(r"index|con|prn|aux|nul|com\d|lpt\d", re.IGNORECASE)


def page_names(books: Sequence[Book | Build]) -> tuple[str, ...]:
    """A file name without ending for each book, made from its own file name.

    Only letters, digits, hyphens and underscores are left of it, so no name can leave the
    folder. Books whose names come out alike are told apart by their content hash, and
    copies of one book by a number: the same books have the same names in every run.
    """
    plain = [_plain_name(book.file_name, book.part) for book in books]
    alike = Counter(name.casefold() for name in plain)
    told = [
        f"{name}-{book.sha256[:HASH_DIGITS]}" if alike[name.casefold()] > 1 else name
        for name, book in zip(plain, books, strict=True)
    ]
    taken: set[str] = set()
    names = []
    for name in told:
        unique, count = name, 1
        while unique.casefold() in taken:
            count += 1
            unique = f"{name}-{count}"
        taken.add(unique.casefold())
        names.append(unique)
    return tuple(names)


def _plain_name(file_name: str, part: str = "") -> str:
    last = re.split(r"[/\\]", unicodedata.normalize("NFC", file_name))[-1]
    stem = last.rpartition(".")[0] or last
    stem = f"{stem}-{part}" if part else stem
    plain = re.sub(r"[^\w-]+", "-", stem).strip("-_")[:LONGEST_NAME].rstrip("-_")
    # "job-customer" is what the customer's copy of "job" is called.
    plain = re.sub(r"-(customer|shop)$", r"_\1", plain, flags=re.IGNORECASE)
    if not plain or _RESERVED.fullmatch(plain):
        return f"book-{plain}".rstrip("-")
    return plain


def write_outputs(
    folder: Path,
    builds: Sequence[Build],
    unreadable: Iterable[Unreadable] = (),
    shop: Shop | None = None,
    whole: Callable[[int], Build] | None = None,
) -> tuple[Path, ...]:
    """Write the files of each build, and the index and tables of the batch.

    folder: made where it is missing; builds: with pages among their files, for the index to
    lead to; shop: who hands the summaries over; whole: gives a build with its files by its
    number, where builds are brief. Returns the files in the order written, the index last.
    Each is written whole or not at all. Raises OSError where that cannot be done.
    """
    folder.mkdir(parents=True, exist_ok=True)
    sweep(folder)
    written: list[Path] = []
    names = page_names(builds)
    with (
        _whole_or_not(folder / READINGS) as readings,
        _whole_or_not(folder / FINDINGS) as findings,
    ):
        readings.write(_encoded(csv_rows([READING_COLUMNS])))
        findings.write(_encoded(csv_rows([FINDING_COLUMNS])))
        for number, name in enumerate(names):
            build = whole(number) if whole else builds[number]
            for ending, content in build.files.items():
                written.append(write_whole(folder / f"{name}{ending}", content))
            readings.write(_encoded(build.readings_csv))
            findings.write(_encoded(build.findings_csv))
    entries = [IndexEntry(build, f"{name}.html") for name, build in zip(names, builds, strict=True)]
    index = _encoded(render_index(entries, tuple(unreadable), shop))
    written += [folder / READINGS, folder / FINDINGS, write_whole(folder / INDEX, index)]
    return tuple(written)


def _encoded(text: str) -> bytes:
    return text.encode("utf-8", "replace")


def write_whole(path: Path, content: bytes) -> Path:
    """Write a file whole or not at all."""
    with _whole_or_not(path) as file:
        file.write(content)
    return path


@contextmanager
def _whole_or_not(path: Path) -> Iterator[BinaryIO]:
    """A file to write under another name first, which is put in place when it is finished."""
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("wb") as file:
            yield file
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def sweep(folder: Path) -> None:
    """Take away what runs that were killed have left unfinished."""
    for part in folder.glob(".*.part"):
        number = part.suffixes[-2].lstrip(".") if len(part.suffixes) > 1 else ""
        if number.isdigit() and not _is_running(int(number)):
            with suppress(OSError):  # Another run, or a program that looks at it, may hold it.
                part.unlink()


def _is_running(process: int) -> bool:
    if os.name == "nt":
        # There a signal of 0 would end it.
        return False
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
