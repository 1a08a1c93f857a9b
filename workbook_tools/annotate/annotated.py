"""Write a copy of a builder's book with the catalog's results beside the builder's own."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.annotate import open_document, open_xml
from workbook_tools.annotate.lines import Line, field_names, result_lines, result_records
from workbook_tools.annotate.replaced import Replaced, replace_formulas, replacements
from workbook_tools.annotate.rows import TITLE, Results, Row, sheet_rows
from workbook_tools.books.cells import BookError, OpenBook
from workbook_tools.books.opening import read_cells
from workbook_tools.hosts.archive import (
    Archive,
    EditError,
    open_archive,
    open_opendocument,
    write_copy,
)
from workbook_tools.hosts.names import Name, with_names
from workbook_tools.hosts.portable import portable
from workbook_tools.hosts.relations import Parts, part_now
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.layout import Layout

_COMMENT = "A field of the job, as summaries read it."


@dataclass(frozen=True)
class AnnotatedBook:
    """What became of a book.

    lines: the results on the new sheet; names: the fields that were named, with their cells;
    replaced: the formulas that calls took the place of; jobs: how many the file holds; left_out:
    results that the batch has and a call on the cells as they are would not give.
    """

    book: Path
    out: Path
    lines: tuple[Line, ...]
    names: dict[str, str]
    replaced: tuple[Replaced, ...]
    jobs: int = 1
    left_out: tuple[str, ...] = ()


def annotate(
    book: Path,
    out: Path,
    *,
    layout: Layout | None = None,
    carry: bool = False,
    replace: bool = False,
) -> AnnotatedBook:
    """Write a copy of a book with a sheet of ENG calls on the builder's own cells.

    book: .xlsx, .xlsm or .ods, which stays as it is; out: a new file with the same ending;
    carry: put the functions in as well, for an Excel without an add-in; replace: put calls in
    place of the builder's arithmetic where they give the same. Of a file with several jobs the
    sheet has each job's results; their fields get no names, as a name is of one cell. Raises
    EditError where the book cannot be read or changed, or gives nothing to annotate.
    """
    is_open_document = book.suffix.lower() == ".ods"
    if is_open_document and carry:
        raise EditError(
            f"{book}: only .xlsx and .xlsm can carry the functions, for Excel. Leave out "
            "--portable: in LibreOffice the sheet calculates once the add-in is installed."
        )
    archive = open_opendocument(book) if is_open_document else open_archive(book)
    try:
        jobs = read_jobs(book, layout)
        cells = read_cells(book)
    except BookError as error:
        raise EditError(f"{book}: {error}") from None
    _require_no_sheet(book, cells)
    given = [(job, *result_records(job, cells)) for job in jobs]
    results = [Results(job.part, result_lines(fit, cells)) for job, fit, _ in given]
    lines = tuple(line for one in results for line in one.lines)
    names = field_names(jobs[0], cells) if len(jobs) == 1 else {}
    if not lines and not names:
        raise EditError(
            f"{book}: nothing in it is understood that the functions could take; "
            "`workbook-tools survey` shows what is lacking."
        )
    parts: Parts = {}
    wanted = [r for job, fit, _ in given for r in replacements(job, fit, cells) if replace]
    put = open_document.replace_formulas if is_open_document else replace_formulas
    done = put(archive, parts, wanted) if wanted else ()
    _add(archive, parts, sheet_rows(results, replaced=bool(done)) if lines else (), names)
    if carry:
        with tempfile.TemporaryDirectory() as folder:
            first = Path(folder) / f"annotated{out.suffix}"
            write_copy(archive, first, parts)
            portable(first, out, only=True)
    else:
        write_copy(archive, out, parts)
    unfit = tuple(str(r.label or r.name) for _, _, records in given for r in records)
    return AnnotatedBook(book, out, lines, names, done, len(jobs), unfit)


def _require_no_sheet(book: Path, cells: OpenBook) -> None:
    if any(sheet.title.upper() == TITLE for sheet in cells.sheets):
        raise EditError(
            f"{book}: has a sheet {TITLE} already. Annotate the book as it was without "
            "that sheet, or give that sheet another name."
        )


def _add(archive: Archive, parts: Parts, rows: Sequence[Row], names: dict[str, str]) -> None:
    """Put the sheet and the names into a book of either kind."""
    if archive.path.suffix.lower() == ".ods":
        if rows:
            open_document.add_sheet(archive, parts, rows)
        if names:
            open_document.add_names(archive, parts, names)
        return
    if rows:
        open_xml.add_sheet(archive, parts, rows)
    if names:
        main = part_now(archive, parts, archive.workbook)
        new = [Name(name, _COMMENT, text) for name, text in names.items()]
        parts[archive.workbook] = with_names(archive, main, (), new)
