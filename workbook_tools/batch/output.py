"""Write a batch's pages and tables: safe names, and never half a file."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from workbook_tools.batch.build import PLAIN_KINDS, Build
from workbook_tools.batch.output_folder import output_folder
from workbook_tools.findings.copies import aside
from workbook_tools.jobs.records import Book
from workbook_tools.render.data import csv_rows
from workbook_tools.render.handover import endings
from workbook_tools.render.html import IndexEntry, Unreadable, render_index
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS

INDEX = "index.html"
HEADS = (READING_COLUMNS, FINDING_COLUMNS)
READINGS = "readings.csv"
FINDINGS = "findings.csv"

LONGEST_NAME = 60
# Most file systems hold 255 bytes, and a name gets a hash, a copy's name and endings.
_MOST_BYTES = 120
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


def usual_files(books: Iterable[str]) -> set[str]:
    """What the files of books with these file names are called where no two are alike."""
    return {f"{_plain_name(book)}{ending}" for book in books for ending in endings()}


def _plain_name(file_name: str, part: str = "") -> str:
    last = re.split(r"[/\\]", unicodedata.normalize("NFC", file_name))[-1]
    stem = last.rpartition(".")[0] or last
    stem = f"{stem}-{part}" if part else stem
    plain = re.sub(r"[^\w-]+", "-", stem).strip("-_")[:LONGEST_NAME]
    plain = plain.encode("utf-8", "replace")[:_MOST_BYTES].decode("utf-8", "ignore").rstrip("-_")
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
    kinds: Sequence[str] = PLAIN_KINDS,
) -> tuple[Path, ...]:
    """Write the files of each build, and the index and tables of the batch.

    folder: made where it is missing; builds: with pages among their files, for the index to
    lead to; shop: who hands the summaries over; whole: gives a build with its files by its
    number, where builds are brief; kinds: of files that each has. Returns the files in the
    order written, the index last. Each is written whole or not at all, and pages that an
    earlier run wrote of these books and that are no longer among them go. Raises OutputError
    where one would replace a file that is not ours, and OSError where it cannot be written.
    """
    unread = tuple(unreadable)
    names = page_names(builds)
    targets = [f"{name}{ending}" for name in names for ending in endings(kinds)]
    written: list[Path] = []
    with output_folder(folder, (*targets, READINGS, FINDINGS, INDEX), heads=HEADS) as out:
        with out.stream(READINGS) as readings, out.stream(FINDINGS) as findings:
            for write, head in zip((readings, findings), HEADS, strict=True):
                write(_encoded(csv_rows([head])))
            for number, name in enumerate(names):
                build = whole(number) if whole else builds[number]
                for ending, content in build.files.items():
                    written.append(out.write(f"{name}{ending}", content, build.file_name))
                readings(_encoded(build.readings_csv))
                findings(_encoded(build.findings_csv))
        counted = dict(aside(builds))
        entries = [
            IndexEntry(build, f"{name}.html", builds[counted[n]].file_name if n in counted else "")
            for n, (name, build) in enumerate(zip(names, builds, strict=True))
        ]
        index = _encoded(render_index(entries, unread, shop))
        written += [folder / READINGS, folder / FINDINGS, out.write(INDEX, index)]
        books = {*(b.file_name for b in builds), *(u.file_name for u in unread)}
        kept = {f"{name}{ending}" for name in names for ending in endings()}
        out.take_away(books, usual_files(books), {*kept, READINGS, FINDINGS, INDEX})
    return tuple(written)


def _encoded(text: str) -> bytes:
    return text.encode("utf-8", "replace")
