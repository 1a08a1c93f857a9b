"""The end of a month: rollup, page, tables and a print of every build that left the shop."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from functools import partial
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pandas as pd
from markupsafe import Markup

from workbook_tools.batch.batch import read_builds
from workbook_tools.batch.build import Build, Wanted
from workbook_tools.batch.build_file import Builds
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.output import READINGS, page_names, usual_files
from workbook_tools.batch.output_folder import output_folder, taken_over
from workbook_tools.batch.row_file import RowFile
from workbook_tools.batch.workers import within_limits
from workbook_tools.labels.layout import Layout
from workbook_tools.month.charts import HEIGHT, LEFT, RIGHT, WIDTH, Figure, figures
from workbook_tools.month.glance import elsewhere, glance, undated
from workbook_tools.month.period import Period, period
from workbook_tools.month.printed_findings import grouped_findings
from workbook_tools.month.sheet import month_sheet
from workbook_tools.month.shown import ShownTable, gist, plain, shown_tables
from workbook_tools.month.tables import (
    FIT_MEANS,
    FIT_READINGS,
    HEADS,
    Month,
    mean_rows,
    month_tables,
)
from workbook_tools.render.data import csv_rows
from workbook_tools.render.html import fill, fill_in_pieces, link
from workbook_tools.render.pdf import pdf
from workbook_tools.render.printed import shop_data
from workbook_tools.settings.shop import Shop

PAGE = "index.html"
BUILD_FOLDER = "builds"
FIT_READINGS_FILE, FIT_MEANS_FILE = "fit-readings.csv", "fit-means.csv"
# Tables that are too long for memory.
LONG = (READINGS, FIT_READINGS_FILE, FIT_MEANS_FILE)
# Builds whose print takes little memory; rows and bytes that are written at once.
_MANY, _ROWS_AT_ONCE, _PIECE = 300, 1000, 1 << 20
# Type of the charts' texts: that of a page, and that of a print.
_PAGE_FONT, _PRINT_FONT = "inherit", "Libertinus Serif"


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
        where = elsewhere(self.month)
        return f"{self.month.title}: {told}.\n{where + chr(10) if where else ''}Open {self.page}"


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
    to: str = "",
) -> MonthOutcome:
    """Read the books that are named and write the month's files.

    month: as 2026-10; to: the last month of several, "" for the one alone; folder: where the
    files go, made where it is missing; layout: the shop's own, for books that do not say
    everything; all else as for `read_builds`. A book that cannot be read is listed with its
    reason. However the work is done, and however often it was begun anew, the files are the
    same. Raises MonthError for a month that is none, and what `read_builds` raises.
    """
    months = period(month, to)
    shop = shop or Shop()
    wanted = Wanted(layout, shop, ("html",), month=True)
    with read_builds(
        named, wanted, each, stand_ins=stand_ins, jobs=jobs, cluster=cluster, cache=cache
    ) as batch:
        unread = [(path.name, reason) for path, reason in batch.unread]
        first = taken_over(folder, HEADS)
        done = write_month(months, batch.builds, folder, shop, unread, batch.whole)
        return replace(done, left_aside=batch.left_aside, taken_over=first)


def write_month(
    months: Period,
    builds: Sequence[Build],
    folder: Path,
    shop: Shop,
    unread: Sequence[tuple[str, str]] = (),
    whole: Callable[[int], Build] | None = None,
) -> MonthOutcome:
    """Write a month's spreadsheet, page, print, CSV tables, and a page for each of its builds.

    builds: with their pages and what a month needs, in any order; unread: (file, reason);
    whole: gives a build with these by its number, where builds are brief. The same builds
    give the same bytes. Raises TemplateError, OutputError where a file that is
    not ours would be replaced, and OSError where one cannot be written.
    """
    order = sorted(range(len(builds)), key=lambda n: (builds[n].file_name, builds[n].sha256))
    ordered = Builds(len(order), lambda n: builds[order[n]])

    def whole_of(at: int) -> Build:
        return whole(order[at]) if whole else ordered[at]

    tables = month_tables(months, ordered, sorted(unread), shop.units, whole_of, shop.engine_kinds)
    belong = sorted({*tables.builds["build"], *tables.open_jobs["build"]})
    their = Builds(len(belong), lambda n: ordered[belong[n]])
    pages = {at: f"{name}.html" for name, at in zip(page_names(their), belong, strict=True)}
    links = {at: f"./{BUILD_FOLDER}/" + link(page).removeprefix("./") for at, page in pages.items()}
    shown = shown_tables(tables, links)
    drawn = figures(tables.series)
    csv_tables = _csv_tables(tables)
    page = fill_in_pieces(
        "month.html.jinja",
        shop.templates,
        month=tables,
        gist=gist(tables),
        first=glance(tables, links),
        undated=undated(tables),
        elsewhere=elsewhere(tables),
        figures=[Markup(one) for one in _pictures(drawn, _PAGE_FONT, shop)],
        tables=shown,
        shop=shop,
        csv_names=[*csv_tables, *(name.removesuffix(".csv") for name in LONG)],
    )
    # Each in pieces, none of which is made before it is wanted.
    files: dict[str, Iterable[bytes]] = {
        **{f"{key}.csv": _whole_csv(table) for key, table in csv_tables.items()},
        f"month-{tables.name}.xlsx": map(month_sheet, [tables], [shop]),
        f"month-{tables.name}.pdf": map(_print, [tables], [shown], [drawn], [shop], [len(builds)]),
        PAGE: (piece.encode("utf-8", "replace") for piece in page),
    }
    places = {at: f"{BUILD_FOLDER}/{page}" for at, page in pages.items()}
    below = [BUILD_FOLDER] if pages else []
    # What may fail is done before anything is written.
    with (
        _laid_aside(files) as made,
        output_folder(folder, (*files, *LONG, *places.values()), below, HEADS) as out,
    ):
        for at, place in places.items():
            out.write(place, whole_of(at).files[".html"], ordered[at].file_name)
        for name in files:
            with out.stream(name) as write, (made / name).open("rb") as content:
                for piece in iter(partial(content.read, _PIECE), b""):
                    write(piece)
        for name, columns, rows in (
            (READINGS, tables.readings.columns, tables.readings),
            (FIT_READINGS_FILE, FIT_READINGS, tables.fit_reading_rows()),
            (FIT_MEANS_FILE, FIT_MEANS[:-1], _fit_means(tables)),
        ):
            with out.stream(name) as write:
                for piece in _csv_pieces(columns, rows):
                    write(piece)
        books = {*(ordered[at].file_name for at in belong), *(file for file, _ in unread)}
        out.take_away(books, usual_files(books), {*files, *LONG, *places.values()})
    return MonthOutcome(tables, tuple(unread), folder / PAGE)


def _fit_means(month: Month) -> Iterator[Sequence[object]]:
    """The rows of every fit of every build, without the digits that only a page needs."""
    for one in month.series:
        for row in mean_rows(one):
            yield row[:-1]


def _csv_bytes(rows: Iterable[Sequence[object]]) -> bytes:
    shown = (["" if (v := plain(value)) is None else v for value in row] for row in rows)
    return csv_rows(shown).encode("utf-8", "replace")


def _csv_tables(month: Month) -> Mapping[str, pd.DataFrame | RowFile]:
    """The tables that the month has as CSV files, by name, but those too long for memory."""
    named: dict[str, pd.DataFrame | RowFile] = {
        "builds": month.builds.drop(columns="build"),
        "open": month.open_jobs.drop(columns="build"),
        "open-items": month.open_items,
        "power": month.power.drop(columns="build"),
        "fits": month.fits.drop(columns="digits"),
        "findings": month.findings,
        "parts": month.parts,
        "signatures": month.signatures,
        "paperwork": month.paperwork,
        "unsettled": month.unsettled,
    }
    if month.period.is_range:
        return {"months": month.months, **named}
    return named


def _whole_csv(table: pd.DataFrame | RowFile) -> Iterator[bytes]:
    if isinstance(table, RowFile):
        return _csv_pieces(table.columns, table)
    return _csv_pieces(list(map(str, table)), table.itertuples(index=False, name=None))


def _csv_pieces(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> Iterator[bytes]:
    yield _csv_bytes([columns])
    left = iter(rows)
    while some := list(islice(left, _ROWS_AT_ONCE)):
        yield _csv_bytes(some)


@contextmanager
def _laid_aside(files: Mapping[str, Iterable[bytes]]) -> Iterator[Path]:
    """A folder, for as long as it is wanted, with files of these pieces."""
    with TemporaryDirectory() as folder:
        for name, pieces in files.items():
            with Path(folder, name).open("wb") as file:
                file.writelines(pieces)
        yield Path(folder)


def _print(
    month: Month,
    tables: Sequence[ShownTable],
    drawn: Sequence[Figure],
    shop: Shop,
    builds: int,
) -> bytes:
    """The month's print; of many builds it is set in a process that takes its memory along."""
    data = _printed(month, tables, drawn, shop)
    made = partial(pdf, "month.typ", override=shop.templates)
    if builds > _MANY:
        with suppress(Lost):
            return within_limits(made, data)
    return made(data)


def _pictures(drawn: Sequence[Figure], font: str, shop: Shop) -> list[str]:
    """The panels of all charts as SVG, those of one fit beside each other."""
    sizes = {"width": WIDTH, "height": HEIGHT, "left": LEFT, "end": WIDTH - RIGHT}
    return [
        fill("parts/fit_chart.svg.jinja", shop.templates, panel=panel, font=font, **sizes)
        for figure in drawn
        for panel in figure.panels
    ]


def _printed(
    month: Month, tables: Sequence[ShownTable], drawn: Sequence[Figure], shop: Shop
) -> dict[str, Any]:
    return {
        "paper": shop.paper,
        "shop": shop_data(shop),
        "title": month.title,
        "last_day": month.last_day.isoformat(),
        "units": month.units,
        "earlier": month.earlier,
        "later": month.later,
        "undated": undated(month),
        "elsewhere": elsewhere(month),
        "copies": month.copies,
        "gist": [list(one) for one in gist(month)],
        "first": [_printed_table(table) for table in glance(month)],
        "figures": _pictures(drawn, _PRINT_FONT, shop),
        "tables": [
            _printed_table(grouped_findings(table) if table.key == "findings" else table)
            for table in tables
            if table.printed
        ],
    }


def _printed_table(table: ShownTable) -> dict[str, Any]:
    return {
        "key": table.key,
        "title": table.title,
        "note": table.note,
        "nothing": table.nothing,
        "columns": [{"name": c.name, "head": c.head, "style": c.style} for c in table.columns],
        "rows": [[cell.text for cell in row] for row in table.rows[: table.print_rows]],
        "more": table.more,
    }
