"""The end of a month: rollup, page, tables and a print of every build that left the shop."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from workbook_tools.batch.batch import read_builds
from workbook_tools.batch.build import Build, Wanted
from workbook_tools.batch.output import READINGS, page_names, usual_files
from workbook_tools.batch.output_folder import output_folder, taken_over
from workbook_tools.labels.layout import Layout
from workbook_tools.month.sheet import month_sheet
from workbook_tools.month.shown import ShownTable, gist, plain, shown_tables
from workbook_tools.month.tables import Month, last_day, month_tables
from workbook_tools.render.data import csv_rows, csv_table
from workbook_tools.render.html import fill, link
from workbook_tools.render.pdf import pdf
from workbook_tools.render.printed import shop_data
from workbook_tools.settings.shop import Shop

PAGE = "index.html"
BUILD_FOLDER = "builds"
# Of each table what a person prints, some pages; the rest is told by its number.
ROWS_IN_PRINT = 200


@dataclass(frozen=True)
class MonthOutcome:
    """What a month came to, and where it lies."""

    month: Month
    unread: tuple[tuple[str, str], ...]
    page: Path
    left_aside: tuple[tuple[Path, str], ...] = ()
    taken_over: str = ""

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
    *,
    jobs: int = 0,
    cluster: str = "",
    cache: Path | None = None,
    stand_ins: Mapping[Path, Path] | None = None,
) -> MonthOutcome:
    """Read the books that are named and write the month's files.

    month: as 2026-10; folder: where the files go, made where it is missing; layout: the
    shop's own, for books that do not say everything; all else as for `read_builds`. A book
    that cannot be read is listed with its reason. However the work is done, and however often
    it was begun anew, the files are the same. Raises MonthError for a month that is none, and
    what `read_builds` raises.
    """
    last_day(month)
    shop = shop or Shop()
    wanted = Wanted(layout, shop, ("html",), month=True)
    with read_builds(
        named, wanted, each, stand_ins=stand_ins, jobs=jobs, cluster=cluster, cache=cache
    ) as batch:
        unread = [(path.name, reason) for path, reason in batch.unread]
        first = taken_over(folder)
        done = write_month(month, batch.builds, folder, shop, unread, batch.whole)
        return replace(done, left_aside=batch.left_aside, taken_over=first)


def write_month(
    month: str,
    builds: Sequence[Build],
    folder: Path,
    shop: Shop,
    unread: Sequence[tuple[str, str]] = (),
    whole: Callable[[int], Build] | None = None,
) -> MonthOutcome:
    """Write a month's spreadsheet, page, print, CSV tables, and a page for each of its builds.

    builds: with their pages and what a month needs, in any order; unread: (file, reason);
    whole: gives a build with these by its number, where builds are brief. The same builds
    give the same bytes. Raises MonthError, TemplateError, OutputError where a file that is
    not ours would be replaced, and OSError where one cannot be written.
    """
    order = sorted(range(len(builds)), key=lambda n: (builds[n].file_name, builds[n].sha256))
    ordered = [builds[n] for n in order]

    def whole_of(at: int) -> Build:
        return whole(order[at]) if whole else ordered[at]

    tables = month_tables(month, ordered, sorted(unread), shop.units, whole_of)
    belong = sorted({*tables.builds["build"], *tables.open_jobs["build"]})
    pages = {
        at: f"{name}.html"
        for name, at in zip(page_names([ordered[at] for at in belong]), belong, strict=True)
    }
    links = {at: f"./{BUILD_FOLDER}/" + link(page).removeprefix("./") for at, page in pages.items()}
    shown = shown_tables(tables, links)
    csv_tables = _csv_tables(tables)
    files: dict[str, bytes] = {
        **{f"{key}.csv": text.encode("utf-8", "replace") for key, text in csv_tables.items()},
        f"month-{tables.name}.xlsx": month_sheet(tables, shop),
        f"month-{tables.name}.pdf": pdf("month.typ", _printed(tables, shown, shop), shop.templates),
        PAGE: fill(
            "month.html.jinja",
            shop.templates,
            month=tables,
            gist=gist(tables),
            tables=shown,
            shop=shop,
            csv_names=[*csv_tables, READINGS.removesuffix(".csv")],
        ).encode("utf-8", "replace"),
    }
    places = {at: f"{BUILD_FOLDER}/{page}" for at, page in pages.items()}
    below = [BUILD_FOLDER] if pages else []
    with output_folder(folder, (*files, READINGS, *places.values()), below) as out:
        for at, place in places.items():
            out.write(place, whole_of(at).files[".html"], ordered[at].file_name)
        for name, content in files.items():
            out.write(name, content)
        with out.stream(READINGS) as write:
            write(_csv_bytes([tables.readings.columns]))
            for row in tables.readings:
                write(_csv_bytes([row]))
        books = {*(ordered[at].file_name for at in belong), *(file for file, _ in unread)}
        out.take_away(books, usual_files(books), {*files, READINGS, *places.values()})
    return MonthOutcome(tables, tuple(unread), folder / PAGE)


def _csv_bytes(rows: Iterable[Sequence[object]]) -> bytes:
    shown = (["" if (v := plain(value)) is None else v for value in row] for row in rows)
    return csv_rows(shown).encode("utf-8", "replace")


def _csv_tables(month: Month) -> Mapping[str, str]:
    """The tables of the month as CSV text, by name; its readings are too many for one text."""
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
        "undated": month.undated,
        "copies": month.copies,
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
                "rows": [[cell.text for cell in row] for row in table.rows[:ROWS_IN_PRINT]],
                "more": max(0, len(table.rows) - ROWS_IN_PRINT),
            }
            for table in tables
        ],
    }
