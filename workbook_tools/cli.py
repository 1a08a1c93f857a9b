"""The command line: thin, one function a command. The only place that prints or exits."""

from __future__ import annotations

import io
import json
import os
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Annotated, Literal, TypeVar

import typer

from workbook_tools import units
from workbook_tools.books.bench import CannotEvaluate, try_formula
from workbook_tools.catalog import ArgumentError, CellError, Function, Result, entries, find
from workbook_tools.catalog.reference import as_data, by_section, describe

app = typer.Typer(
    name="workbook-tools",
    help="Worksheet functions for engine building, and checked summaries of the books that use "
    "them.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


def _fail(message: str, code: int = 1) -> typer.Exit:
    typer.echo(message, err=True)
    return typer.Exit(code)


def _count(number: int, noun: str) -> str:
    return f"1 {noun}" if number == 1 else f"{number} {noun}s"


def _cell_text(value: object, result: Result) -> str:
    if isinstance(value, ArgumentError):
        return f"no result ({value})"
    if isinstance(value, CellError):
        return value.text
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    if not result.kind.has_units:
        return f"{value:.10g}" + (f" {result.unit}" if result.unit else "")
    return units.show(float(value), result.kind, result.system)


@app.command()
def evaluate(
    formula: Annotated[str, typer.Argument(help="As in a cell: 'ENG.QUENCH(0.002, \"38 thou\")'")],
) -> None:
    """Try a formula without a spreadsheet: prints its result with the unit, or why it has none."""
    try:
        result = try_formula(formula)
    except (ArgumentError, CannotEvaluate) as reason:
        raise _fail(f"No result. {reason}") from None
    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    for row in rows:
        typer.echo("\t".join(_cell_text(value, result) for value in row))
    if any(isinstance(value, (ArgumentError, CellError)) for row in rows for value in row):
        raise typer.Exit(1)


@app.command()
def functions(
    name: Annotated[
        str, typer.Argument(help="One function, ENG.QUENCH or QUENCH, or a word to look for")
    ] = "",
    as_json: Annotated[bool, typer.Option("--json", help="The catalog as data")] = False,
) -> None:
    """The reference of one worksheet function, or a list of all, or of those about something."""
    from workbook_tools.hosts.portable import portability

    reasons = portability()
    if as_json:
        wanted = find(name) if name else None
        data = [d for d in as_data(reasons) if not wanted or d["name"] == wanted.full_name]
        if name and wanted is None:
            raise _fail(_no_such_function(name))
        typer.echo(json.dumps(data if not name else data[0], indent=2, ensure_ascii=False))
        return
    if name:
        function = find(name)
        if function is None:
            _list_functions_about(name)
            return
        typer.echo(describe(function))
        reason = reasons.get(function.name, "")
        typer.echo("\nWithout an add-in\n  " + (f"Not available: {reason}" if reason else "Yes"))
        return
    _list_functions(by_section())


def _list_functions(sections: Mapping[str, Sequence[Function]]) -> None:
    for section, members in sections.items():
        typer.echo(section)
        for function in members:
            typer.echo(f"  {function.full_name:30} {function.summary}")
        typer.echo()
    typer.echo("More about one of them: workbook-tools functions QUENCH")


def _list_functions_about(words: str) -> None:
    """List the functions whose name or summary has all of these words."""
    wanted = words.lower().replace("_", " ").split()
    found = {
        section: [
            f
            for f in members
            if all(w in f"{f.name.replace('_', ' ')} {f.summary}".lower() for w in wanted)
        ]
        for section, members in by_section().items()
    }
    found = {section: members for section, members in found.items() if members}
    if not found:
        raise _fail(_no_such_function(words))
    _list_functions(found)


def _no_such_function(name: str) -> str:
    from rapidfuzz import fuzz, process

    names = [f.name for f in entries()]
    near = process.extractOne(name.upper(), names, scorer=fuzz.ratio, score_cutoff=60)
    if near is None:
        return f"There is no function {name!r}; `workbook-tools functions` lists all."
    return f"There is no function {name!r}; the nearest name is ENG.{near[0]}."


@app.command()
def bands(
    start: Annotated[
        bool, typer.Option("--init", help="Write a commented file for rows of the shop's own")
    ] = False,
) -> None:
    """The bands and materials in force, ours and the shop's own, each with its origin."""
    from workbook_tools.catalog.tables import TableError
    from workbook_tools.catalog.tables_shown import start_shop_file, tables_text

    try:
        if start:
            typer.echo(f"Wrote {start_shop_file()}. Fill it in; all functions then use it.")
        else:
            typer.echo(tables_text())
    except TableError as reason:
        raise _fail(str(reason)) from None
    except OSError as error:
        raise _fail(f"{error.filename}: {error.strerror}; it stays as it is.") from None


_Books = Annotated[list[Path], typer.Argument(help="Book files, or folders of books")]
_LayoutFile = Annotated[
    Path | None,
    typer.Option("--layout", help="The shop's layout.toml, if it is not beside the books"),
]
_ShopFile = Annotated[
    Path | None, typer.Option("--shop", help="The shop.toml, if it is not beside the books")
]
_Recalculate = Annotated[
    Literal["libreoffice"] | None,
    typer.Option("--recalculate", help="Have a program calculate the books first"),
]
_Processes = Annotated[
    int | None,
    typer.Option(
        "--processes", min=1, help="Processes that read books at once; as many as there are cores"
    ),
]
_Cluster = Annotated[
    str,
    typer.Option("--cluster", help="A Dask scheduler that shares the books out: tcp://HOST:8786"),
]
_Afresh = Annotated[
    bool, typer.Option("--afresh", help="Use and keep no results of earlier runs of these books")
]


def _cores() -> int:
    """The cores that this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:
        return os.cpu_count() or 1


@contextmanager
def _refusals() -> Iterator[None]:
    """Turn what a batch cannot start with into a message and an exit code."""
    from workbook_tools.books.layout import LayoutError
    from workbook_tools.reports.batch import NoBooks
    from workbook_tools.reports.cluster import ClusterError
    from workbook_tools.reports.month_tables import MonthError
    from workbook_tools.reports.shop import ShopError
    from workbook_tools.reports.templates import TemplateError

    try:
        yield
    except (NoBooks, MonthError) as reason:
        raise _fail(str(reason), 2) from None
    except (LayoutError, ShopError, TemplateError, ClusterError) as reason:
        raise _fail(str(reason)) from None
    except (FileExistsError, NotADirectoryError) as error:
        raise _fail(f"{error.filename} is a file; give --out a folder.", 2) from None
    except PermissionError as error:
        raise _fail(
            f"{error.filename2 or error.filename} cannot be written: {error.strerror}. Close it in "
            "other programs, or choose another folder; then run again."
        ) from None
    except OSError as error:
        where = f"{error.filename}: " if error.filename else ""
        raise _fail(f"{where}{error.strerror or error}; nothing more was written.") from None
    except KeyboardInterrupt:
        raise _fail("Stopped. Run it again to go on.", 130) from None


def _with_progress(paths: Sequence[Path], doing: str = "Reading books") -> Iterable[Path]:
    """Books one by one, with a bar on a terminal and nothing in a pipe."""
    from rich.console import Console
    from rich.progress import track

    terminal = Console(stderr=True)
    return track(
        paths,
        doing,
        console=terminal,
        disable=not terminal.is_terminal,
        transient=True,
    )


@app.command()
def summarize(
    books: _Books,
    out_folder: Annotated[Path, typer.Option("--out", help="Folder for the summaries")],
    layout_file: _LayoutFile = None,
    shop_file: _ShopFile = None,
    with_customer: Annotated[
        bool, typer.Option("--customer", help="Also write each customer's copy as a page")
    ] = False,
    with_pdf: Annotated[
        bool, typer.Option("--pdf", help="Also print each: the customer's copy and the shop's")
    ] = False,
    with_xlsx: Annotated[
        bool, typer.Option("--xlsx", help="Also put each on a worksheet, for customer and shop")
    ] = False,
    recalculate: _Recalculate = None,
    processes: _Processes = None,
    cluster: _Cluster = "",
    afresh: _Afresh = False,
) -> None:
    """Read finished books, recompute and check them, and write a summary of each."""
    from workbook_tools.books.layout import read_layout
    from workbook_tools.reports.batch import summarize_books
    from workbook_tools.reports.build import PLAIN_KINDS
    from workbook_tools.reports.kept import usual_folder
    from workbook_tools.reports.shop import shop_for

    asked = (("customer", with_customer), ("pdf", with_pdf), ("xlsx", with_xlsx))
    kinds = [*PLAIN_KINDS, *(kind for kind, wanted in asked if wanted)]
    with _refusals(), tempfile.TemporaryDirectory() as copies:
        outcome = summarize_books(
            books,
            out_folder,
            _with_progress,
            layout=read_layout(layout_file) if layout_file else None,
            shop=shop_for(books, shop_file),
            kinds=kinds,
            stand_ins=_recalculated(books, Path(copies)) if recalculate else None,
            jobs=processes or _cores(),
            cluster=cluster,
            cache=None if afresh else usual_folder(),
        )
    for path, why in outcome.left_aside:
        typer.echo(f"Skipped {path}: {why}.", err=True)
    for path, why in outcome.unread:
        typer.echo(f"NOT READ {path}: {why}.", err=True)
    typer.echo(outcome.sentence)
    if outcome.unread:
        raise typer.Exit(1)


def _recalculated(named: Sequence[Path], folder: Path) -> dict[Path, Path]:
    """Copies of books that LibreOffice calculated; books it cannot calculate are left out."""
    from workbook_tools.books.folder import find_books
    from workbook_tools.hosts import libreoffice

    try:
        done = libreoffice.recalculate_each(
            find_books(named).books, folder, partial(_with_progress, doing="Calculating books")
        )
    except FileNotFoundError:
        return {}  # Reading the books says which is missing.
    except libreoffice.OfficeError as reason:
        raise _fail(str(reason)) from None
    for book, why in done.refused.items():
        typer.echo(f"Taken as saved, {book}: {why}", err=True)
    return done.copies


@app.command()
def month(
    which: Annotated[str, typer.Argument(metavar="MONTH", help="Year and month: 2026-10")],
    books: _Books,
    out_folder: Annotated[Path, typer.Option("--out", help="Folder for the month's files")],
    layout_file: _LayoutFile = None,
    shop_file: _ShopFile = None,
    recalculate: _Recalculate = None,
    processes: _Processes = None,
    cluster: _Cluster = "",
    afresh: _Afresh = False,
) -> None:
    """Sum up a month: builds released, open jobs, findings, fits, parts and signatures."""
    from workbook_tools.books.layout import read_layout
    from workbook_tools.reports.kept import usual_folder
    from workbook_tools.reports.month import summarize_month
    from workbook_tools.reports.shop import shop_for

    with _refusals(), tempfile.TemporaryDirectory() as copies:
        outcome = summarize_month(
            which,
            books,
            out_folder,
            shop_for(books, shop_file),
            _with_progress,
            read_layout(layout_file) if layout_file else None,
            stand_ins=_recalculated(books, Path(copies)) if recalculate else None,
            jobs=processes or _cores(),
            cluster=cluster,
            cache=None if afresh else usual_folder(),
        )
    for name, why in outcome.unread:
        typer.echo(f"NOT READ {name}: {why}.", err=True)
    typer.echo(outcome.sentence)
    if outcome.unread:
        raise typer.Exit(1)


@app.command()
def new(
    book: Annotated[Path, typer.Argument(help="The new book, a name that ends in .xlsx")],
    cylinders: Annotated[
        int | None, typer.Option("--cylinders", min=1, max=16, help="How many there are")
    ] = None,
    system: Annotated[
        Literal["inch", "metric"] | None,
        typer.Option("--units", help="What numbers without a unit are meant in"),
    ] = None,
    layout: Annotated[
        Literal["inline", "v", "flat", "single"] | None,
        typer.Option("--layout", help="How the cylinders stand; told by their number if left out"),
    ] = None,
    valves: Annotated[
        int | None,
        typer.Option("--valves", help="Of each cylinder: 2, as when left out, or 4"),
    ] = None,
    mains: Annotated[
        int | None,
        typer.Option("--mains", help="Main bearings; one at each side of a journal if left out"),
    ] = None,
    rods: Annotated[
        int | None,
        typer.Option("--rods-per-journal", help="1 or 2; 2 in a V engine and else 1 if left out"),
    ] = None,
    without: Annotated[
        list[str] | None,
        typer.Option("--without", help="A sheet to leave out: Balance, Stretch or Power"),
    ] = None,
    like: Annotated[
        Path | None,
        typer.Option("--like", help="A build book of ours: its parts and bands are taken over"),
    ] = None,
) -> None:
    """Write an empty build book to fill in at the bench, or the next one like an older one."""
    from workbook_tools.buildbook import BuildBookError, new_book, new_like
    from workbook_tools.reports.workers import Lost, within_limits

    if like is None and (cylinders is None or system is None):
        raise _fail("Say --cylinders and --units, or --like an older build book.", 2)
    plan = (cylinders, system, layout, valves, mains, rods, without)
    if like is not None and any(word is not None for word in plan):
        raise _fail("--like takes cylinders, units, layout and so on from the older book.", 2)
    try:
        if like is not None:
            report = within_limits(partial(new_like, path=book), like)
        else:
            assert cylinders is not None
            report = new_book(
                book,
                cylinders,
                str(system),
                layout,
                mains=mains,
                rods_per_journal=rods,
                valves=2 if valves is None else valves,
                without=tuple(without or ()),
            )
    except BuildBookError as reason:
        raise _fail(str(reason)) from None
    except Lost as reason:
        raise _fail(f"{like}: {reason}. Nothing was written.") from None
    for line in report.left_out:
        typer.echo(line, err=True)
    taken = f" {_count(report.kept, 'cell')} taken over." if like else ""
    typer.echo(f"Wrote {report.path} with {_count(len(report.sheets), 'sheet')}.{taken}")


@app.command()
def survey(
    books: Annotated[list[Path], typer.Argument(help="Book files, or folders of books")],
    layout_file: Annotated[
        Path | None, typer.Option("--layout", help="A layout.toml that is there already")
    ] = None,
    out_file: Annotated[
        Path | None, typer.Option("--out", help="Write a layout.toml to start from")
    ] = None,
    processes: _Processes = None,
) -> None:
    """Show what would be read from each book, how sure that is, and what is left to settle."""
    from workbook_tools.books.layout import read_layout
    from workbook_tools.reports.survey_text import survey as survey_books

    with _refusals():
        found = survey_books(
            books,
            read_layout(layout_file) if layout_file else None,
            _with_progress,
            jobs=processes or _cores(),
        )
    typer.echo(found.text)
    if out_file is not None:
        try:
            with out_file.open("x", encoding="utf-8") as file:
                file.write(found.layout)
        except OSError as error:
            raise _fail(f"{out_file}: {error.strerror}; nothing is overwritten.") from None
        typer.echo(
            f"Wrote {out_file}. Settle its open questions; then give --layout {out_file}, or lay "
            "it beside the books as layout.toml, where it is found by itself."
        )
    unread = sum(bool(book.problem) for book in found.books)
    if unread:
        raise _fail(f"{_count(unread, 'book')} not read; see above.", 3)


@app.command()
def init(
    folder: Annotated[Path, typer.Argument(help="The folder of the shop's books")] = Path("."),
) -> None:
    """Write a commented shop.toml: the shop's name, address, logo, paper and units."""
    from workbook_tools.reports.shop import write_shop

    try:
        typer.echo(f"Wrote {write_shop(folder)}. Fill it in; the summaries then carry it.")
    except OSError as error:
        raise _fail(f"{folder / 'shop.toml'}: {error.strerror}; it stays as it is.") from None


@app.command()
def cache(
    empty: Annotated[bool, typer.Option("--clear", help="Take away all that is kept")] = False,
) -> None:
    """Show where results of earlier runs are kept, how many, how large; or take them away."""
    from workbook_tools.reports.kept import clear, contents, usual_folder

    folder = usual_folder()
    if folder is None:
        typer.echo("Nothing is kept: the user has no home folder.")
        return
    try:
        if empty:
            typer.echo(f"{_count(clear(folder), 'result')} taken away from {folder}.")
            return
        number, size = contents(folder)
    except OSError as error:
        raise _fail(f"{folder}: {error.strerror}; look whose it is.") from None
    typer.echo(f"{folder}: {_count(number, 'result')}, {size / 1e6:.1f} MB.")


libreoffice_app = typer.Typer(no_args_is_help=True, help="The worksheet functions in LibreOffice.")
app.add_typer(libreoffice_app, name="libreoffice")


@libreoffice_app.command("build")
def libreoffice_build(
    out_file: Annotated[Path, typer.Option("--out", help="The extension file to write")] = Path(
        "workbook-tools.oxt"
    ),
) -> None:
    """Write the LibreOffice extension, for installing by hand or on another machine."""
    from workbook_tools.hosts import libreoffice

    try:
        written = libreoffice.build(out_file)
    except libreoffice.OfficeError as reason:
        raise _fail(str(reason)) from None
    typer.echo(f"Wrote {written}. Open it with LibreOffice to install it.")


@libreoffice_app.command("install")
def libreoffice_install() -> None:
    """Install the worksheet functions into LibreOffice."""
    from workbook_tools.hosts import libreoffice

    try:
        typer.echo(libreoffice.install())
    except libreoffice.OfficeError as reason:
        raise _fail(str(reason)) from None


@libreoffice_app.command("remove")
def libreoffice_remove() -> None:
    """Remove the worksheet functions from LibreOffice."""
    from workbook_tools.hosts import libreoffice

    try:
        typer.echo(libreoffice.remove())
    except libreoffice.OfficeError as reason:
        raise _fail(str(reason)) from None


_Book = Annotated[Path, typer.Argument(help="The book, .xlsx or .xlsm; it stays as it is")]
_NewBook = Annotated[Path, typer.Option("--out", help="The new book to write")]


_Copy = TypeVar("_Copy")


def _copied(write: Callable[[Path], _Copy], book: Path, out_file: Path) -> _Copy:
    """What became of a book of which a copy is written, in a process with limits."""
    from workbook_tools.hosts.archive import EditError, sweep
    from workbook_tools.reports.workers import Lost, within_limits

    try:
        return within_limits(write, book)
    except EditError as reason:
        raise _fail(str(reason)) from None
    except Lost as reason:
        sweep(out_file)
        raise _fail(f"{book}: {reason}. Nothing was written.") from None


@app.command()
def portable(
    book: _Book,
    out_file: _NewBook,
    only: Annotated[
        bool, typer.Option("--only", help="Only the functions that the book calls")
    ] = False,
    remove: Annotated[bool, typer.Option("--remove", help="Take the functions out again")] = False,
    replace: Annotated[
        bool,
        typer.Option("--replace", help="Overwrite names of the same spelling that are not ours"),
    ] = False,
) -> None:
    """Copy a book so that its ENG formulas calculate in any current Excel, without an add-in."""
    from workbook_tools.hosts.portable import portable as write_portable

    write = partial(write_portable, out=out_file, only=only, remove=remove, replace=replace)
    done = _copied(write, book, out_file)
    for words, names in (
        ("added", done.added),
        ("brought up to date", done.renewed),
        ("taken out", done.removed),
        ("overwritten, as asked", done.replaced),
        ("mended after another program had damaged them", done.mended),
    ):
        if names:
            typer.echo(f"{_count(len(names), 'function')} {words}.")
    if remove and not done.removed:
        typer.echo("None of the functions was in the book.")
    if done.kept:
        typer.echo(
            "NOT ADDED, the book has a name of its own (--replace overwrites it): "
            + ", ".join(done.kept),
            err=True,
        )
    if done.on_a_sheet:
        typer.echo(
            "A sheet has a name of its own, which holds there (--replace takes it out): "
            + ", ".join(done.on_a_sheet),
            err=True,
        )
    for name, why in done.not_portable:
        typer.echo(f"{name} needs the add-in: {why}.", err=True)
    if done.to_translate:
        typer.echo(
            f"{_count(len(done.to_translate), 'function')} called as ENG_… or through an add-in's "
            "file; to spell them ENG.…: "
            f'workbook-tools translate "{out_file}" --to dot --out NEW{out_file.suffix}',
            err=True,
        )
    for name in done.unknown:
        typer.echo(f"{name} is no function of the catalog.", err=True)
    typer.echo(f"Wrote {out_file}.")


@app.command()
def translate(
    book: _Book,
    to: Annotated[
        Literal["vba", "dot"], typer.Option("--to", help="vba: ENG_QUENCH; dot: ENG.QUENCH")
    ],
    out_file: _NewBook,
) -> None:
    """Copy a book with its calls spelled ENG_QUENCH (for xlwings) or ENG.QUENCH (for all else)."""
    from workbook_tools.hosts.translate import translate as write_translated

    done = _copied(partial(write_translated, out=out_file, to=to), book, out_file)
    for name in done.unknown:
        typer.echo(f"{name} is no function of the catalog; left as it is.", err=True)
    typer.echo(f"{_count(done.formulas, 'formula')} changed. Wrote {out_file}.")


excel_app = typer.Typer(
    no_args_is_help=True, help="The functions in Excel for Windows, by xlwings."
)
app.add_typer(excel_app, name="excel")


def _excel(undo: bool) -> None:
    from workbook_tools.hosts import excel

    try:
        report = excel.disconnect() if undo else excel.connect()
    except excel.ExcelError as reason:
        raise _fail(str(reason)) from None
    for line in report.changed + report.next_steps:
        typer.echo(line)


@excel_app.command("connect")
def excel_connect() -> None:
    """Let Excel for Windows find the worksheet functions, for the current user."""
    _excel(undo=False)


@excel_app.command("disconnect")
def excel_disconnect() -> None:
    """Undo `excel connect`."""
    _excel(undo=True)


def main() -> None:
    """Entry point of the `workbook-tools` command."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        # A console of another alphabet than the book's shows what it can.
        sys.stdout.reconfigure(errors="backslashreplace")
    app()
