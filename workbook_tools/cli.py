"""The command line: thin, one function a command. The only place that prints or exits."""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, TypeVar

import typer

from workbook_tools import quantities as units
from workbook_tools.books.bench import CannotEvaluate, try_formula
from workbook_tools.catalog import ArgumentError, CellError, Function, Result, entries, find
from workbook_tools.catalog.reference import as_data, by_section, describe
from workbook_tools.catalog.tables import TableError, current
from workbook_tools.terminal import (
    Exit,
    end_tidily,
    fail,
    say,
    show_what_the_console_can,
    shown,
)

if TYPE_CHECKING:
    from workbook_tools.batch.batch import Outcome
    from workbook_tools.books.layout import Layout
    from workbook_tools.month.month import MonthOutcome

app = typer.Typer(
    name="workbook-tools",
    help="Worksheet functions for engine building, and checked summaries of the books that use "
    "them.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


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
        current()
        result = try_formula(formula)
    except TableError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except (ArgumentError, CannotEvaluate) as reason:
        raise fail(f"No result. {reason}", Exit.FINDINGS) from None
    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    for row in rows:
        say("\t".join(_cell_text(value, result) for value in row))
    if any(isinstance(value, (ArgumentError, CellError)) for row in rows for value in row):
        raise typer.Exit(Exit.FINDINGS)


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
            raise fail(_no_such_function(name), Exit.USAGE)
        say(json.dumps(data if not name else data[0], indent=2, ensure_ascii=False))
        return
    if name:
        function = find(name)
        if function is None:
            _list_functions_about(name)
            return
        say(describe(function))
        reason = reasons.get(function.name, "")
        say("\nWithout an add-in\n  " + (f"Not available: {reason}" if reason else "Yes"))
        return
    _list_functions(by_section())


def _list_functions(sections: Mapping[str, Sequence[Function]]) -> None:
    for section, members in sections.items():
        say(section)
        for function in members:
            say(f"  {function.full_name:30} {function.summary}")
        say("")
    say("More about one of them: workbook-tools functions QUENCH")


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
        raise fail(_no_such_function(words), Exit.USAGE)
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
    from workbook_tools.catalog.tables_shown import start_shop_file, tables_text

    try:
        if start:
            say(f"Wrote {start_shop_file()}. Fill it in; all functions then use it.")
        else:
            say(tables_text())
    except TableError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except OSError as error:
        message = f"{error.filename}: {error.strerror}; nothing was written."
        raise fail(message, Exit.USAGE) from None


# Whether a file can be read is told by what reads it, so that one of them stops no batch.
_Books = Annotated[
    list[Path], typer.Argument(help="Book files, or folders of books", readable=False)
]
_LayoutFile = Annotated[
    Path | None,
    typer.Option(
        "--layout", help="The shop's layout.toml, if it is not beside the books", readable=False
    ),
]
_ShopFile = Annotated[
    Path | None,
    typer.Option(
        "--shop",
        help="The shop.toml, if it is not beside the books, or if its templates are to be used",
        readable=False,
    ),
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
def _refusals(books: Sequence[Path]) -> Iterator[None]:
    """Turn what a batch of these books cannot start with into a message and an exit code."""
    from workbook_tools.batch.batch import NoBooks
    from workbook_tools.batch.cluster import ClusterError
    from workbook_tools.batch.output_folder import OutputError
    from workbook_tools.books.layout import LayoutError
    from workbook_tools.catalog.tables import TableError
    from workbook_tools.month.tables import MonthError
    from workbook_tools.render.templates import TemplateError
    from workbook_tools.settings.shop import ShopError

    try:
        current()
        yield
    except (NoBooks, MonthError, OutputError) as reason:
        raise fail(str(reason), Exit.USAGE) from None
    except (LayoutError, ShopError, TemplateError, ClusterError, TableError) as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except (FileExistsError, NotADirectoryError) as error:
        raise fail(f"{error.filename} is a file; give --out a folder.", Exit.USAGE) from None
    except (PermissionError, FileNotFoundError) as error:
        if error.filename in [str(path) for path in books]:
            message = f"{error.filename} cannot be read: {error.strerror}."
            raise fail(message, Exit.UNREAD) from None
        raise fail(
            f"{error.filename2 or error.filename} cannot be written: {error.strerror}. Close it in "
            "other programs, or choose another folder; then run again.",
            Exit.USAGE,
        ) from None
    except OSError as error:
        where = f"{error.filename}: " if error.filename else ""
        message = f"{where}{error.strerror or error}; nothing more was written."
        raise fail(message, Exit.UNREAD) from None


def _warn(line: str) -> None:
    say(shown(line), err=True)


def _require_there(*named: Path | None) -> None:
    """End the command where a file that it was told of is missing."""
    for path in named:
        if path is None:
            continue
        try:
            is_there = path.exists() and not path.is_dir()
        except OSError as error:
            raise fail(f"{path} cannot be read: {error.strerror}.", Exit.UNREAD) from None
        if not is_there:
            raise fail(f"There is no file {path}.", Exit.USAGE)


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
    out_folder: Annotated[
        Path, typer.Option("--out", help="Folder for the summaries", readable=False)
    ],
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
    from workbook_tools.batch.batch import summarize_books
    from workbook_tools.batch.build import PLAIN_KINDS
    from workbook_tools.batch.cache import usual_folder
    from workbook_tools.books.layout import read_layout
    from workbook_tools.settings.shop import shop_for

    _require_there(layout_file, shop_file)
    asked = (("customer", with_customer), ("pdf", with_pdf), ("xlsx", with_xlsx))
    kinds = [*PLAIN_KINDS, *(kind for kind, wanted in asked if wanted)]
    with _refusals(books), tempfile.TemporaryDirectory() as copies:
        outcome = summarize_books(
            books,
            out_folder,
            _with_progress,
            layout=read_layout(layout_file) if layout_file else None,
            shop=shop_for(books, shop_file, _warn),
            kinds=kinds,
            stand_ins=_recalculated(books, Path(copies)) if recalculate else None,
            jobs=processes or _cores(),
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


def _recalculated(named: Sequence[Path], folder: Path) -> dict[Path, Path]:
    """Copies of books that LibreOffice calculated; books it cannot calculate are left out."""
    from workbook_tools.books.folder import find_books
    from workbook_tools.books.own_output import without_own_output
    from workbook_tools.hosts import libreoffice

    try:
        done = libreoffice.recalculate_each(
            without_own_output(find_books(named)).books,
            folder,
            partial(_with_progress, doing="Calculating books"),
        )
    except FileNotFoundError:
        return {}  # Reading the books says which is missing.
    except libreoffice.OfficeError as reason:
        say(str(reason), err=True)
        raise typer.Exit(Exit.UNREAD) from None
    for book, why in done.refused.items():
        say(f"Taken as saved, {shown(book)}: {shown(why)}", err=True)
    return done.copies


@app.command()
def month(
    which: Annotated[str, typer.Argument(metavar="MONTH", help="Year and month: 2026-10")],
    books: _Books,
    out_folder: Annotated[
        Path, typer.Option("--out", help="Folder for the month's files", readable=False)
    ],
    layout_file: _LayoutFile = None,
    shop_file: _ShopFile = None,
    recalculate: _Recalculate = None,
    processes: _Processes = None,
    cluster: _Cluster = "",
    afresh: _Afresh = False,
) -> None:
    """Sum up a month: builds released, open jobs, findings, fits, parts and signatures."""
    from workbook_tools.batch.cache import usual_folder
    from workbook_tools.books.layout import read_layout
    from workbook_tools.month.month import summarize_month
    from workbook_tools.settings.shop import shop_for

    _require_there(layout_file, shop_file)
    with _refusals(books), tempfile.TemporaryDirectory() as copies:
        outcome = summarize_month(
            which,
            books,
            out_folder,
            shop_for(books, shop_file, _warn),
            _with_progress,
            read_layout(layout_file) if layout_file else None,
            stand_ins=_recalculated(books, Path(copies)) if recalculate else None,
            jobs=processes or _cores(),
            cluster=cluster,
            cache=None if afresh else usual_folder(),
        )
    _tell_passed_over(outcome)
    for name, why in outcome.unread:
        say(f"NOT READ {shown(name)}: {shown(why)}.", err=True)
    say(outcome.sentence)
    if outcome.unread:
        raise typer.Exit(Exit.UNREAD)


@app.command()
def new(
    book: Annotated[
        Path, typer.Argument(help="The new book, a name that ends in .xlsx", readable=False)
    ],
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
        typer.Option(
            "--like",
            help="A build book of ours: its parts and bands are taken over",
            readable=False,
        ),
    ] = None,
) -> None:
    """Write an empty build book to fill in at the bench, or the next one like an older one."""
    from workbook_tools.batch.workers import Lost, within_limits
    from workbook_tools.buildbook import BuildBookError, OlderBookError, new_book, new_like

    if like is None and (cylinders is None or system is None):
        raise fail("Say --cylinders and --units, or --like an older build book.", Exit.USAGE)
    plan = (cylinders, system, layout, valves, mains, rods, without)
    if like is not None and any(word is not None for word in plan):
        raise fail("--like takes cylinders, units and so on from the older book.", Exit.USAGE)
    _require_there(like)
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
    except OlderBookError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except BuildBookError as reason:
        raise fail(str(reason), Exit.USAGE) from None
    except Lost as reason:
        raise fail(f"{like}: {reason}. Nothing was written.", Exit.UNREAD) from None
    for line in report.left_out:
        say(line, err=True)
    taken = f" {_count(report.kept, 'cell')} taken over." if like else ""
    say(f"Wrote {report.path} with {_count(len(report.sheets), 'sheet')}.{taken}")


@app.command()
def survey(
    books: _Books,
    layout_file: Annotated[
        Path | None,
        typer.Option("--layout", help="A layout.toml that is there already", readable=False),
    ] = None,
    out_file: Annotated[
        Path | None, typer.Option("--out", help="Write a layout.toml to start from", readable=False)
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print the builds as JSON, without results, instead")
    ] = False,
    processes: _Processes = None,
) -> None:
    """Show what would be read from each book, how sure that is, and what is left to settle."""
    from workbook_tools.batch.survey_text import survey as survey_books
    from workbook_tools.batch.whole_file import write_new
    from workbook_tools.books.layout import read_layout

    if as_json and out_file is not None:
        raise fail(
            "Say --json or --out: a layout to start from is written without --json.", Exit.USAGE
        )
    _require_there(layout_file)
    with _refusals(books):
        layout = read_layout(layout_file) if layout_file else None
        if as_json:
            _survey_as_json(books, layout, processes or _cores())
            return
        found = survey_books(
            books,
            layout,
            _with_progress,
            jobs=processes or _cores(),
        )
    say(found.text)
    if out_file is not None:
        try:
            write_new(out_file, found.layout.encode("utf-8", "replace"))
        except OSError as error:
            message = f"{out_file}: {error.strerror}; nothing is overwritten."
            raise fail(message, Exit.USAGE) from None
        say(
            f"Wrote {out_file}. Settle its open questions; then give --layout {out_file}, or lay "
            "it beside the books as layout.toml, where it is found by itself."
        )
    unread = sum(bool(book.problem) for book in found.books)
    if unread:
        raise fail(f"{_count(unread, 'book')} not read; see above.", Exit.UNREAD)


def _survey_as_json(books: Sequence[Path], layout: Layout | None, jobs: int) -> None:
    from workbook_tools.batch.survey_data import survey_data
    from workbook_tools.render.data import builds_json

    found = survey_data(books, layout, _with_progress, jobs=jobs)
    for path, why in found.left_aside:
        say(f"Skipped {shown(path)}: {shown(why)}.", err=True)
    for path, why in found.unread:
        say(f"NOT READ {shown(path)}: {shown(why)}.", err=True)
    # JSON is UTF-8 (RFC 8259), whatever the console shows.
    typer.echo(builds_json(found.builds).encode("utf-8", "replace"), nl=False)
    if found.unread:
        raise typer.Exit(Exit.UNREAD)


@app.command()
def init(
    folder: Annotated[
        Path, typer.Argument(help="The folder of the shop's books", readable=False)
    ] = Path("."),
) -> None:
    """Write a commented shop.toml: the shop's name, address, logo, paper and units."""
    from workbook_tools.settings.shop import write_shop

    try:
        say(f"Wrote {write_shop(folder)}. Fill it in; the summaries then carry it.")
    except OSError as error:
        message = f"{folder / 'shop.toml'}: {error.strerror}; nothing was written."
        raise fail(message, Exit.USAGE) from None


@app.command()
def cache(
    empty: Annotated[bool, typer.Option("--clear", help="Take away all that is kept")] = False,
) -> None:
    """Show where results of earlier runs are kept, how many, how large; or take them away."""
    from workbook_tools.batch.cache import clear, contents, usual_folder

    folder = usual_folder()
    if folder is None:
        say("Nothing is kept: the user has no home folder.")
        return
    try:
        if empty:
            say(f"{_count(clear(folder), 'result')} taken away from {folder}.")
            return
        number, size = contents(folder)
    except OSError as error:
        raise fail(f"{folder}: {error.strerror}; look whose it is.", Exit.UNREAD) from None
    say(f"{folder}: {_count(number, 'result')}, {size / 1e6:.1f} MB.")


libreoffice_app = typer.Typer(no_args_is_help=True, help="The worksheet functions in LibreOffice.")
app.add_typer(libreoffice_app, name="libreoffice")


@libreoffice_app.command("build")
def libreoffice_build(
    out_file: Annotated[
        Path, typer.Option("--out", help="The extension file to write", readable=False)
    ] = Path("workbook-tools.oxt"),
) -> None:
    """Write the LibreOffice extension, for installing by hand or on another machine."""
    from workbook_tools.hosts import libreoffice

    try:
        written = libreoffice.build(out_file)
    except libreoffice.OutError as reason:
        raise fail(str(reason), Exit.USAGE) from None
    except libreoffice.OfficeError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    say(f"Wrote {written}. Open it with LibreOffice to install it.")


@libreoffice_app.command("install")
def libreoffice_install() -> None:
    """Install the worksheet functions into LibreOffice."""
    from workbook_tools.hosts import libreoffice

    try:
        say(libreoffice.install())
    except libreoffice.OfficeError as reason:
        say(str(reason), err=True)  # What LibreOffice says takes several lines.
        raise typer.Exit(Exit.UNREAD) from None


@libreoffice_app.command("remove")
def libreoffice_remove() -> None:
    """Remove the worksheet functions from LibreOffice."""
    from workbook_tools.hosts import libreoffice

    try:
        say(libreoffice.remove())
    except libreoffice.OfficeError as reason:
        say(str(reason), err=True)  # What LibreOffice says takes several lines.
        raise typer.Exit(Exit.UNREAD) from None


_Book = Annotated[
    Path, typer.Argument(help="The book, .xlsx or .xlsm; it stays as it is", readable=False)
]
_NewBook = Annotated[Path, typer.Option("--out", help="The new book to write", readable=False)]


_Copy = TypeVar("_Copy")


def _copied(write: Callable[[Path], _Copy], book: Path, out_file: Path) -> _Copy:
    """What became of a book of which a copy is written, in a process with limits."""
    from workbook_tools.batch.workers import Lost, within_limits
    from workbook_tools.hosts.archive import EditError, OutError, sweep

    try:
        return within_limits(write, book)
    except OutError as reason:
        raise fail(str(reason), Exit.USAGE) from None
    except EditError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except Lost as reason:
        sweep(out_file)
        raise fail(f"{book}: {reason}. Nothing was written.", Exit.UNREAD) from None


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

    _require_there(book)
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
            say(f"{_count(len(names), 'function')} {words}.")
    if remove and not done.removed:
        say("None of the functions was in the book.")
    if done.kept:
        say(
            "NOT ADDED, the book has a name of its own (--replace overwrites it): "
            + ", ".join(done.kept),
            err=True,
        )
    if done.on_a_sheet:
        say(
            "A sheet has a name of its own, which holds there (--replace takes it out): "
            + ", ".join(done.on_a_sheet),
            err=True,
        )
    for name, why in done.not_portable:
        say(f"{name} needs the add-in: {why}.", err=True)
    if done.to_translate:
        say(
            f"{_count(len(done.to_translate), 'function')} called as ENG_… or through an add-in's "
            "file; to spell them ENG.…: "
            f'workbook-tools translate "{out_file}" --to dot --out NEW{out_file.suffix}',
            err=True,
        )
    for name in done.unknown:
        say(f"{name} is no function of the catalog.", err=True)
    say(f"Wrote {out_file}.")


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

    _require_there(book)
    done = _copied(partial(write_translated, out=out_file, to=to), book, out_file)
    for name in done.unknown:
        say(f"{name} is no function of the catalog; left as it is.", err=True)
    say(f"{_count(done.formulas, 'formula')} changed. Wrote {out_file}.")


excel_app = typer.Typer(
    no_args_is_help=True, help="The functions in Excel for Windows, by xlwings."
)
app.add_typer(excel_app, name="excel")


def _excel(undo: bool) -> None:
    from workbook_tools.hosts import excel

    try:
        report = excel.disconnect() if undo else excel.connect()
    except excel.ExcelError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    for line in report.changed + report.next_steps:
        say(line)


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
    show_what_the_console_can()
    end_tidily()
    app()
