"""The end of a month: rollup, page, tables and a print of every build that left the shop."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from workbook_tools.books.layout import Layout
from workbook_tools.books.records import Book
from workbook_tools.findings.finding import Finding
from workbook_tools.reports.batch import read_builds
from workbook_tools.reports.data import csv_table
from workbook_tools.reports.html import fill, link, render_html
from workbook_tools.reports.month_sheet import month_sheet
from workbook_tools.reports.month_shown import ShownTable, gist, plain, shown_tables
from workbook_tools.reports.month_tables import Month, last_day, month_tables
from workbook_tools.reports.output import page_names
from workbook_tools.reports.pdf import pdf
from workbook_tools.reports.printed import shop_data
from workbook_tools.reports.shop import Shop
from workbook_tools.reports.summary import summarize

PAGE = "index.html"
BUILD_FOLDER = "builds"


@dataclass(frozen=True)
class MonthOutcome:
    """What a month came to, and where it lies."""

    month: Month
    unread: tuple[tuple[str, str], ...]
    page: Path

    @property
    def sentence(self) -> str:
        """The outcome in a few lines, for the end of a command."""
        told = ", ".join(f"{count} {what}" for what, count in gist(self.month))
        return f"{self.month.title}: {told}.\nOpen {self.page}"


def summarize_month(
    month: str,
    named: Sequence[Path],
    folder: Path,
    shop: Shop | None = None,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    layout: Layout | None = None,
) -> MonthOutcome:
    """Read the books that are named and write the month's files.

    month: as 2026-10; folder: where the files go, made where it is missing; each: hands the
    books on one by one, and may show progress. A book that cannot be read is listed with its
    reason. Raises MonthError for a month that is none, NoBooks where there is no book,
    TemplateError for a template of the shop's own that does not work.
    """
    last_day(month)
    batch = read_builds(named, layout, each)
    unread = [(path.name, reason) for path, reason in batch.unread]
    return write_month(month, batch.builds, folder, shop or Shop(), unread)


def write_month(
    month: str,
    builds: Sequence[tuple[Book, Sequence[Finding]]],
    folder: Path,
    shop: Shop,
    unread: Sequence[tuple[str, str]] = (),
) -> MonthOutcome:
    """Write a month's spreadsheet, page, print, CSV tables, and a page for each of its builds.

    builds: books with their findings, in any order; unread: (file, reason). The same books
    give the same bytes. Raises MonthError, TemplateError, and OSError where a file cannot be
    written.
    """
    ordered = sorted(builds, key=lambda build: (build[0].file_name, build[0].sha256))
    tables = month_tables(month, ordered, sorted(unread), shop.units)
    belong = sorted({*tables.builds["build"], *tables.open_jobs["build"]})
    names = page_names([ordered[at][0] for at in belong])
    pages = {
        f"{BUILD_FOLDER}/{name}.html": render_html(summarize(*ordered[at]), shop)
        for name, at in zip(names, belong, strict=True)
    }
    links = {
        at: f"./{BUILD_FOLDER}/" + link(f"{name}.html").removeprefix("./")
        for name, at in zip(names, belong, strict=True)
    }
    shown = shown_tables(tables, links)
    files: dict[str, bytes] = {
        **{name: text.encode("utf-8", "replace") for name, text in pages.items()},
        **{f"{key}.csv": text.encode("utf-8") for key, text in _csv_tables(tables).items()},
        f"month-{tables.name}.xlsx": month_sheet(tables, shop),
        f"month-{tables.name}.pdf": pdf("month.typ", _printed(tables, shown, shop), shop.templates),
        PAGE: fill(
            "month.html.jinja",
            shop.templates,
            month=tables,
            gist=gist(tables),
            tables=shown,
            shop=shop,
            csv_names=list(_csv_tables(tables)),
        ).encode("utf-8", "replace"),
    }
    for name, content in files.items():
        _write(folder / name, content)
    return MonthOutcome(tables, tuple(unread), folder / PAGE)


def _csv_tables(month: Month) -> Mapping[str, str]:
    """Every table of the month as CSV text, by name."""
    frames = {
        "builds": month.builds.drop(columns="build"),
        "open": month.open_jobs.drop(columns="build"),
        "fits": month.fits.drop(columns="digits"),
        "fit-readings": month.fit_readings,
        "findings": month.findings,
        "parts": month.parts,
        "signatures": month.signatures,
        "paperwork": month.paperwork,
        "unsettled": month.unsettled,
        "readings": month.readings,
    }
    return {
        name: csv_table(
            [str(column) for column in frame.columns],
            (["" if (v := plain(value)) is None else v for value in row]
             for row in frame.itertuples(index=False)),
        )
        for name, frame in frames.items()
    }  # fmt: skip


def _printed(month: Month, tables: Sequence[ShownTable], shop: Shop) -> dict[str, Any]:
    return {
        "paper": shop.paper,
        "shop": shop_data(shop),
        "title": month.title,
        "last_day": month.last_day.isoformat(),
        "units": month.units,
        "earlier": month.earlier,
        "later": month.later,
        "gist": [list(one) for one in gist(month)],
        "tables": [
            {
                "key": table.key,
                "title": table.title,
                "note": table.note,
                "nothing": table.nothing,
                "columns": [
                    {"name": c.name, "head": c.head, "style": c.style} for c in table.columns
                ],
                "rows": [[cell.text for cell in row] for row in table.rows],
            }
            for table in tables
        ],
    }


def _write(path: Path, content: bytes) -> None:
    """Write under another name first, then put the finished file in place."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
