"""Write a copy of a builder's book with the catalog's results beside the builder's own."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.annotate.lines import Line, field_names, result_lines
from workbook_tools.annotate.replaced import Replaced, replace_formulas, replacements
from workbook_tools.annotate.sheet import add_sheet
from workbook_tools.books.cells import BookError
from workbook_tools.books.opening import read_cells
from workbook_tools.hosts.archive import EditError, open_archive, write_copy
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
    replaced: the formulas that calls took the place of.
    """

    book: Path
    out: Path
    lines: tuple[Line, ...]
    names: dict[str, str]
    replaced: tuple[Replaced, ...]


def annotate(
    book: Path,
    out: Path,
    *,
    layout: Layout | None = None,
    carry: bool = False,
    replace: bool = False,
) -> AnnotatedBook:
    """Write a copy of a book with a sheet of ENG calls on the builder's own cells.

    book: .xlsx or .xlsm, which stays as it is; out: a new file with the same ending; carry: put
    the functions in as well, for an Excel without an add-in; replace: put calls in place of
    the builder's arithmetic where they give the same. Raises EditError where the book cannot
    be read or changed, or gives nothing to annotate.
    """
    archive = open_archive(book)
    try:
        jobs = read_jobs(book, layout)
        cells = read_cells(book)
    except BookError as error:
        raise EditError(f"{book}: {error}") from None
    if len(jobs) != 1:
        raise EditError(
            f"{book}: holds {len(jobs)} jobs. Put each into a book of its own, and annotate that."
        )
    [job] = jobs
    lines, names = result_lines(job, cells), field_names(job, cells)
    if not lines and not names:
        raise EditError(
            f"{book}: nothing in it is understood that the functions could take; "
            "`workbook-tools survey` shows what is lacking."
        )
    parts: Parts = {}
    done = replace_formulas(archive, parts, replacements(job, cells)) if replace else ()
    if lines:
        add_sheet(archive, parts, lines, replaced=bool(done))
    if names:
        main = part_now(archive, parts, archive.workbook)
        new = [Name(name, _COMMENT, text) for name, text in names.items()]
        parts[archive.workbook] = with_names(archive, main, (), new)
    if carry:
        with tempfile.TemporaryDirectory() as folder:
            first = Path(folder) / f"annotated{out.suffix}"
            write_copy(archive, first, parts)
            portable(first, out, only=True)
    else:
        write_copy(archive, out, parts)
    return AnnotatedBook(book, out, lines, names, done)
