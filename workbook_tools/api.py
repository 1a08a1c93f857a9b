"""For programs: read and check a book, summarize many, evaluate a formula, find functions.

What the commands find beside the books and in the folders above holds here too: shop.toml,
layout.toml, accepted.toml and bands.toml. What they tell on standard error goes to logging.
"""

from __future__ import annotations

import logging
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from workbook_tools.batch.batch import Outcome, summarize_books
from workbook_tools.books.bench import try_formula
from workbook_tools.catalog import Function, Result, entries, find
from workbook_tools.catalog.search import functions_about
from workbook_tools.findings import Finding
from workbook_tools.findings import check as _check
from workbook_tools.findings.codes import CODES
from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book
from workbook_tools.labels.layout import Layout, layouts_of, read_layout
from workbook_tools.settings.found import bands_of
from workbook_tools.settings.shop import Shop, shop_for

AnyPath = str | os.PathLike[str]
_log = logging.getLogger(__name__)


def read(path: AnyPath, *, layout: AnyPath | None = None) -> tuple[Book, ...]:
    """What stands in a book, one Book for each job in it; the file is only ever read.

    path: an .xlsx, .xlsm or .ods file; layout: a layout.toml for what the book does not say,
    where it is not the one found for the book. Raises BookError where it cannot be read as a
    book, LayoutError for such a layout, TableError for a bands.toml that cannot be used.

    >>> book, = read("example_books/inch_v8.xlsx")
    >>> [(r.value, r.unit, str(r.place)) for r in book.readings if r.measurand == "stroke"]
    [(3.41, 'in', "'Build sheet'!B11")]
    """
    file = Path(path)
    with bands_of([file], _log.warning):
        return read_jobs(file, given_layout(layout) or layouts_of([file], [file]).get(file))


def check(
    book: Book, *, file: AnyPath | None = None, shop: AnyPath | None = None
) -> tuple[Finding, ...]:
    """Every finding on a book, those about the engine first; those accepted say by whom.

    file: the one that the book was read from: a book in memory does not say where it lies, and
    what is found from there (accepted findings, gauges, the lists of a finished record, bands)
    does not hold without it; shop: a shop.toml in place of the one found. Raises ShopError for
    one that cannot be used, TableError for such a bands.toml.

    >>> book, = read("example_books/troubled_six.xlsx")
    >>> check(book)[0].kind
    'out of band'
    >>> len(check(book, file="example_books/troubled_six.xlsx")) == len(check(book))
    True
    """
    with shop_of([Path(file)] if file is not None else [], shop) as of_book:
        return _check(book, of_book.finished, of_book.accepted, of_book.gauges)


def summarize(
    paths: AnyPath | Iterable[AnyPath],
    out: AnyPath,
    *,
    layout: AnyPath | None = None,
    shop: AnyPath | None = None,
    processes: int = 0,
) -> Outcome:
    """Write a summary of each book in files and folders, and an index, into a folder.

    paths: a book, a folder of books, or several of them; out: the folder, made where it is
    missing; layout, shop: a layout.toml and a shop.toml for all books, in place of those found
    for them; processes: as many read books at once, 0 for this one alone. Raises NoBooks where
    there are no books, LayoutError, ShopError, TableError, and OutputError where a file that is
    not ours would be overwritten.
    """
    named = listed(paths)
    with shop_of(named, shop) as of_books:
        return summarize_books(
            named, Path(out), layout=given_layout(layout), shop=of_books, jobs=processes
        )


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


def listed(paths: AnyPath | Iterable[AnyPath]) -> list[Path]:
    """The files and folders that are named: one, or several."""
    return [Path(paths)] if isinstance(paths, (str, os.PathLike)) else [Path(p) for p in paths]


def given_layout(path: AnyPath | None) -> Layout | None:
    """The layout of a file that is named, None where none is."""
    return read_layout(Path(path)) if path is not None else None


@contextmanager
def shop_of(named: list[Path], shop: AnyPath | None) -> Iterator[Shop]:
    """The shop of books as the commands find it, with its bands in force meanwhile."""
    with bands_of(named, _log.warning):
        yield shop_for(named, Path(shop) if shop is not None else None, _log.warning, CODES)
