"""Write a batch's pages and tables: safe names, and never half a file."""

from __future__ import annotations

import os
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path

from workbook_tools.books.records import Book
from workbook_tools.findings.finding import Finding
from workbook_tools.reports.data import findings_csv, readings_csv
from workbook_tools.reports.handover import build_files
from workbook_tools.reports.html import IndexEntry, Unreadable, render_index
from workbook_tools.reports.shop import Shop
from workbook_tools.reports.summary import summarize

INDEX = "index.html"
READINGS = "readings.csv"
FINDINGS = "findings.csv"
# What every batch has of each build; prints and sheets come on request.
PLAIN_KINDS = ("html", "json")

LONGEST_NAME = 60
# Characters of the content hash that tell books of one name apart.
HASH_DIGITS = 10
# Names that a system keeps for itself, and that of the batch's own page.
_RESERVED = re.compile(r"index|con|prn|aux|nul|com\d|lpt\d", re.IGNORECASE)


def page_names(books: Sequence[Book]) -> tuple[str, ...]:
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
    if not plain or _RESERVED.fullmatch(plain):
        return f"book-{plain}".rstrip("-")
    return plain


def write_outputs(
    folder: Path,
    builds: Sequence[tuple[Book, Sequence[Finding]]],
    unreadable: Iterable[Unreadable] = (),
    shop: Shop | None = None,
    kinds: Sequence[str] = PLAIN_KINDS,
) -> tuple[Path, ...]:
    """Write the files of each build, and the index and tables of the batch.

    folder: made where it is missing; shop: who hands the summaries over; kinds: of files for
    each build, as for `build_files`, html among them for the index to lead to. Returns the
    files in the order written, the index last. Each is written whole or not at all. Raises
    OSError where that cannot be done.
    """
    folder.mkdir(parents=True, exist_ok=True)
    written: list[Path] = []
    entries: list[IndexEntry] = []

    def write(name: str, content: str | bytes) -> None:
        data = content.encode("utf-8", "replace") if isinstance(content, str) else content
        written.append(_write(folder / name, data))

    names = page_names([book for book, _ in builds])
    for name, (book, findings) in zip(names, builds, strict=True):
        for file_name, content in build_files(name, book, findings, shop or Shop(), kinds).items():
            write(file_name, content)
        entries.append(IndexEntry(summarize(book, findings), f"{name}.html"))
    write(READINGS, readings_csv(book for book, _ in builds))
    write(FINDINGS, findings_csv(builds))
    write(INDEX, render_index(entries, tuple(unreadable), shop))
    return tuple(written)


def _write(path: Path, content: bytes) -> Path:
    """Write under another name first, then put the finished file in place."""
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return path
