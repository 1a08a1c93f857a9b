"""For programs: read and check a book, summarize many, evaluate a formula, find functions."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from workbook_tools.batch.batch import Outcome, summarize_books
from workbook_tools.books.bench import try_formula
from workbook_tools.catalog import Function, Result, entries, find
from workbook_tools.catalog.search import functions_about
from workbook_tools.findings import Finding
from workbook_tools.findings import check as _check
from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book
from workbook_tools.labels.layout import Layout, read_layout

_Path = str | os.PathLike[str]


def read(path: _Path, *, layout: _Path | None = None) -> tuple[Book, ...]:
    """What stands in a book, one Book for each job in it; the file is only ever read.

    path: an .xlsx, .xlsm or .ods file; layout: a layout.toml for what the book does not say.
    Raises BookError where it cannot be read as a book, LayoutError for such a layout.

    >>> book, = read("example_books/inch_v8.xlsx")
    >>> [(r.value, r.unit, str(r.place)) for r in book.readings if r.measurand == "stroke"]
    [(3.41, 'in', "'Build sheet'!B11")]
    """
    return read_jobs(Path(path), _layout(layout))


def check(book: Book) -> tuple[Finding, ...]:
    """Every finding on a book, those about the engine first. Raises nothing.

    >>> book, = read("example_books/troubled_six.xlsx")
    >>> check(book)[0].kind
    'out of band'
    """
    return _check(book)


def summarize(
    paths: _Path | Iterable[_Path], out: _Path, *, layout: _Path | None = None, processes: int = 0
) -> Outcome:
    """Write a summary of each book in files and folders, and an index, into a folder.

    paths: a book, a folder of books, or several of them; out: the folder, made where it is
    missing; layout: a layout.toml for all books; processes: as many read books at once, 0 for
    this one alone. Raises NoBooks where there are no books, LayoutError, and OutputError where
    a file that is not ours would be overwritten.
    """
    named = [paths] if isinstance(paths, (str, os.PathLike)) else list(paths)
    own = _layout(layout)
    return summarize_books([Path(p) for p in named], Path(out), layout=own, jobs=processes)


def evaluate(formula: str) -> Result:
    """The result of a formula that names no cells, with its unit.

    formula: as in a cell, with or without "=". Raises ArgumentError where a function refuses
    its input, CannotEvaluate where the text is no formula that can be worked out.

    >>> result = evaluate('ENG.QUENCH(0.002, "38 thou")')
    >>> round(result.value, 4), result.unit
    (0.04, 'in')
    """
    return try_formula(formula)


def functions(asked: str = "") -> tuple[Function, ...]:
    """The worksheet functions: all, the one of a name, or those that words may mean.

    asked: "QUENCH", "ENG.QUENCH", or what a builder would ask: "squish". Raises nothing.

    >>> functions("squish")[0].full_name
    'ENG.QUENCH'
    """
    if not asked:
        return tuple(entries())
    one = find(asked)
    return (one,) if one else functions_about(asked)


def _layout(path: _Path | None) -> Layout | None:
    return read_layout(Path(path)) if path is not None else None
