"""Commands that read books: summaries, a month, and what they keep."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from workbook_tools.terminal import (
    Exit,
    fail,
    say,
    shown,
)

if TYPE_CHECKING:
    from workbook_tools.batch.batch import Outcome
    from workbook_tools.month.month import MonthOutcome

from workbook_tools.cli.settings_found import with_settings_of_books
from workbook_tools.cli.shared import (
    Afresh,
    Books,
    Cluster,
    LayoutFile,
    Processes,
    Recalculate,
    ShopFile,
    app,
    copies_to_read,
    cores,
    count,
    examples,
    refusals,
    require_there,
    warn,
    with_progress,
)


@app.command(
    epilog=examples(
        "summarize jobs --out summaries",
        "summarize 1042.xlsx --out summaries --pdf --customer",
    )
)
@with_settings_of_books("shop", "layout", "accepted")
def summarize(
    books: Books,
    out_folder: Annotated[
        Path, typer.Option("--out", help="The folder to write the summaries into.", readable=False)
    ],
    layout_file: LayoutFile = None,
    shop_file: ShopFile = None,
    with_customer: Annotated[
        bool, typer.Option("--customer", help="Also write each customer's copy, as a page.")
    ] = False,
    with_pdf: Annotated[
        bool,
        typer.Option("--pdf", help="Also write the shop's and the customer's copy as PDF files."),
    ] = False,
    with_xlsx: Annotated[
        bool,
        typer.Option(
            "--xlsx", help="Also write the shop's and the customer's copy as .xlsx files."
        ),
    ] = False,
    recalculate: Recalculate = None,
    processes: Processes = None,
    cluster: Cluster = "",
    afresh: Afresh = False,
) -> None:
    """Read finished books, recompute and check them, and write a summary of each."""
    from workbook_tools.batch.batch import summarize_books
    from workbook_tools.batch.build import PLAIN_KINDS
    from workbook_tools.findings.codes import CODES
    from workbook_tools.kept_files import usual_folder
    from workbook_tools.labels.layout import read_layout
    from workbook_tools.settings.shop import shop_for

    require_there(layout_file, shop_file)
    asked = (("customer", with_customer), ("pdf", with_pdf), ("xlsx", with_xlsx))
    kinds = [*PLAIN_KINDS, *(kind for kind, wanted in asked if wanted)]
    with refusals(books), tempfile.TemporaryDirectory() as copies:
        outcome = summarize_books(
            books,
            out_folder,
            with_progress,
            layout=read_layout(layout_file) if layout_file else None,
            shop=shop_for(books, shop_file, warn, CODES),
            kinds=kinds,
            stand_ins=copies_to_read(books, Path(copies), calculate=recalculate is not None),
            jobs=processes or cores(),
            cluster=cluster,
            cache=None if afresh else usual_folder(),
        )
    _tell_passed_over(outcome)
    for path, why in outcome.unread:
        say(f"NOT READ {shown(path)}: {shown(why)}.", err=True)
    say(outcome.sentence)
    if outcome.unread:
        raise typer.Exit(Exit.UNREAD)


def _tell_passed_over(outcome: Outcome | MonthOutcome) -> None:
    for path, why in outcome.left_aside:
        say(f"Skipped {shown(path)}: {shown(why)}.", err=True)
    if outcome.taken_over:
        say(outcome.taken_over, err=True)


@app.command(
    epilog=examples(
        "month 2026-10 jobs --out october", "month 2026-01 jobs --to 2026-12 --out the-year"
    )
)
@with_settings_of_books("shop", "layout", "accepted")
def month(
    which: Annotated[
        str,
        typer.Argument(
            metavar="MONTH", help="The month, as 2026-10; with --to the first of several."
        ),
    ],
    books: Books,
    out_folder: Annotated[
        Path,
        typer.Option("--out", help="The folder to write the month's files into.", readable=False),
    ],
    last: Annotated[
        str, typer.Option("--to", metavar="MONTH", help="The last of several months, as 2026-12.")
    ] = "",
    layout_file: LayoutFile = None,
    shop_file: ShopFile = None,
    recalculate: Recalculate = None,
    processes: Processes = None,
    cluster: Cluster = "",
    afresh: Afresh = False,
) -> None:
    """Sum up one month or several: builds, open jobs, findings, power, fits, parts, signatures."""
    from workbook_tools.findings.codes import CODES
    from workbook_tools.kept_files import usual_folder
    from workbook_tools.labels.layout import read_layout
    from workbook_tools.month.month import summarize_month
    from workbook_tools.settings.shop import shop_for

    require_there(layout_file, shop_file)
    with refusals(books), tempfile.TemporaryDirectory() as copies:
        outcome = summarize_month(
            which,
            books,
            out_folder,
            shop_for(books, shop_file, warn, CODES),
            with_progress,
            read_layout(layout_file) if layout_file else None,
            stand_ins=copies_to_read(books, Path(copies), calculate=recalculate is not None),
            jobs=processes or cores(),
            cluster=cluster,
            cache=None if afresh else usual_folder(),
            to=last,
        )
    _tell_passed_over(outcome)
    for name, why in outcome.unread:
        say(f"NOT READ {shown(name)}: {shown(why)}.", err=True)
    say(outcome.sentence)
    if outcome.unread:
        raise typer.Exit(Exit.UNREAD)


@app.command(epilog=examples("init jobs"))
def init(
    folder: Annotated[
        Path, typer.Argument(help="The folder of the shop's books.", readable=False)
    ] = Path("."),
) -> None:
    """Write a commented shop.toml: the shop's name, address, logo, paper and units."""
    from workbook_tools.settings.shop import write_shop

    try:
        say(f"Wrote {write_shop(folder)}. Fill it in; the summaries then carry it.")
    except OSError as error:
        message = f"{folder / 'shop.toml'}: {error.strerror}; nothing was written."
        raise fail(message, Exit.USAGE) from None


@app.command(epilog=examples("cache", "cache --clear"))
def cache(
    empty: Annotated[bool, typer.Option("--clear", help="Delete all of them.")] = False,
) -> None:
    """Show where results of earlier runs are kept, how many and how large; or delete them."""
    from workbook_tools.batch.cache import clear, contents
    from workbook_tools.kept_files import usual_folder

    folder = usual_folder()
    if folder is None:
        say("Nothing is kept: the user has no home folder.")
        return
    try:
        if empty:
            say(f"{count(clear(folder), 'result')} deleted from {folder}.")
            return
        number, size = contents(folder)
    except OSError as error:
        raise fail(f"{folder}: {error.strerror}; look whose it is.", Exit.UNREAD) from None
    say(f"{folder}: {count(number, 'result')}, {size / 1e6:.1f} MB.")
