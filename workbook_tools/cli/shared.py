"""What several commands take and how they refuse: options, progress, messages."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal, TypeVar

import typer
import typer.core

from workbook_tools import __version__
from workbook_tools.terminal import Exit, fail, say, shown

_Copy = TypeVar("_Copy")


class Commands(typer.core.TyperGroup):
    """Lists each command with the first sentence of its help, whole."""

    # Any: releases of typer differ in which click they stand on.
    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """Write the list of commands."""
        told = [(name, self.get_command(ctx, name)) for name in self.list_commands(ctx)]
        rows = [(name, _first_sentence(one.help or "")) for name, one in told if one]
        with formatter.section("Commands"):
            formatter.write_dl(rows)

    # Any: see above.
    def invoke(self, ctx: Any) -> Any:
        """Run a command; a value that an option does not take is told in one form."""
        try:
            return super().invoke(ctx)
        except Exception as error:
            told = getattr(error, "message", None)
            if isinstance(told, str) and getattr(error, "param", None) is not None:
                error.message = _plain_words(told)  # type: ignore[attr-defined]
            raise


_NOT_ONE_OF = re.compile(r"'(?P<got>.*)' is not one of (?P<words>.*?)\.?")
# What typer's library says of numbers, lately and before, and how it is said here.
_OF_NUMBERS = (
    (re.compile(r".* is not a valid integer.*"), "expected a whole number"),
    (re.compile(r".* is not in the range x>=(\d+)\.?"), r"expected at least \1"),
    (re.compile(r".* is not in the range x<=(\d+)\.?"), r"expected at most \1"),
    (re.compile(r".* is not in the range (\d+)<=x<=(\d+)\.?"), r"expected \1 to \2"),
    (re.compile(r"Input should be a valid integer.*"), "expected a whole number"),
    (re.compile(r"Input should be greater than or equal to (\S+)"), r"expected at least \1"),
    (re.compile(r"Input should be less than or equal to (\S+)"), r"expected at most \1"),
)


def _plain_words(told: str) -> str:
    """What is wrong with a value, as people say it, with the word that was likely meant."""
    told = told.removeprefix("Value error, ")
    found = _NOT_ONE_OF.fullmatch(told)
    if found:
        words = [word.strip("' ") for word in found["words"].split(",")]
        from workbook_tools.quantities.nearest import nearest

        near = nearest(found["got"], words)
        meant = f" Did you mean {near!r}?" if near else ""
        return f"{found['got']!r} is not one of {', '.join(map(repr, words))}.{meant}"
    for pattern, words_for in _OF_NUMBERS:
        told = pattern.sub(words_for, told)
    return told


def _first_sentence(text: str) -> str:
    first = " ".join(text.split("\n\n")[0].split())
    return re.split(r"(?<=[.?!]) ", first)[0]


app = typer.Typer(
    name="workbook-tools",
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Worksheet functions for engine building, and checked summaries of the books that use "
    "them.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


def examples(*lines: str) -> str:
    """The end of a command's help: examples, a line each."""
    told = "\n".join(f"  workbook-tools {line}" for line in lines)
    return f"\b\nExamples:\n{told}" if len(lines) > 1 else f"\b\nExample:\n{told}"


def _tell_version(wanted: bool) -> None:
    if wanted:
        say(f"workbook-tools {__version__}")
        raise typer.Exit


@app.callback()
def _before_all(
    _version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_tell_version, is_eager=True, help="Show the version and exit."
        ),
    ] = False,
) -> None:
    pass


# Whether a file can be read is told by what reads it, so that one of them stops no batch.
Books = Annotated[
    list[Path], typer.Argument(help="Book files, or folders of books.", readable=False)
]

LayoutFile = Annotated[
    Path | None,
    typer.Option(
        "--layout",
        help="The layout.toml to use, in place of the one found for the books.",
        readable=False,
    ),
]

ShopFile = Annotated[
    Path | None,
    typer.Option(
        "--shop",
        help="The shop.toml to use, in place of the one found; its templates hold too.",
        readable=False,
    ),
]

Recalculate = Annotated[
    Literal["libreoffice"] | None,
    typer.Option("--recalculate", help="Have this program recalculate the books first."),
]

Processes = Annotated[
    int | None,
    typer.Option(
        "--processes",
        min=1,
        help="How many processes read books at once; as many as there are cores if left out.",
    ),
]

Cluster = Annotated[
    str,
    typer.Option(
        "--cluster", help="A Dask scheduler whose workers read the books, as tcp://HOST:8786."
    ),
]

Afresh = Annotated[
    bool, typer.Option("--afresh", help="Neither use nor keep results of earlier runs.")
]


def cores() -> int:
    """The cores that this process may use, or as many as PYTHON_CPU_COUNT says.

    Python has that variable from 3.13 on; here it holds for every Python.
    """
    said = os.environ.get("PYTHON_CPU_COUNT", "")
    if said.isdecimal() and int(said):
        return int(said)
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:
        return os.cpu_count() or 1


@contextmanager
def refusals(books: Sequence[Path]) -> Iterator[None]:
    """Turn what a batch of these books cannot start with into a message and an exit code."""
    from workbook_tools.batch.batch import NoBooks
    from workbook_tools.batch.cluster import ClusterError
    from workbook_tools.batch.output_folder import OutputError
    from workbook_tools.catalog.table_rows import TableError
    from workbook_tools.catalog.tables import current
    from workbook_tools.labels.layout import LayoutError
    from workbook_tools.month.period import MonthError
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


def warn(line: str) -> None:
    """Tell something beside the result."""
    say(shown(line), err=True)


def tell_not_read(
    left_aside: Iterable[tuple[Path, str]], unread: Iterable[tuple[Path, str]]
) -> None:
    """Tell which files were passed over and which books could not be read, each with why."""
    for path, why in left_aside:
        warn(f"Skipped {path}: {why}.")
    for path, why in unread:
        warn(f"NOT READ {path}: {why}.")


def require_there(*named: Path | None) -> None:
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


def with_progress(paths: Sequence[Path], doing: str = "Reading books") -> Iterable[Path]:
    """Books one by one, with a bar on a terminal and nothing in a pipe."""
    from rich.console import Console
    from rich.progress import track

    terminal = Console(stderr=True)
    if not terminal.is_terminal:
        return paths
    return track(paths, doing, console=terminal, transient=True)


def copies_to_read(named: Sequence[Path], folder: Path, *, calculate: bool) -> dict[Path, Path]:
    """Copies to read in place of books: those that LibreOffice calculated, where that is asked.

    Without being asked of .xls and .xlsb books alone, which can be read in no other way; where
    LibreOffice is missing, reading them says that it would be needed.
    """
    from workbook_tools.books.folder import find_books
    from workbook_tools.books.own_output import without_own_output
    from workbook_tools.books.parts import is_binary
    from workbook_tools.hosts import libreoffice

    try:
        found = without_own_output(find_books(named)).books
        books = found if calculate else [book for book in found if is_binary(book)]
        if not books:
            return {}
        doing = "Calculating books" if calculate else "Reading old books through LibreOffice"
        done = libreoffice.recalculate_each(books, folder, partial(with_progress, doing=doing))
    except FileNotFoundError:
        return {}  # Reading the books says which is missing.
    except libreoffice.OfficeError as reason:
        say(str(reason), err=True)
        if not calculate:
            return {}
        raise typer.Exit(Exit.UNREAD) from None
    for book, why in done.refused.items():
        taken = "Taken as saved" if calculate else "Not opened by LibreOffice"
        say(f"{taken}, {shown(book)}: {shown(why)}", err=True)
    return done.copies


def copied(write: Callable[[Path], _Copy], book: Path, out_file: Path) -> _Copy:
    """What became of a book of which a copy is written, in a process with limits."""
    from workbook_tools.batch.lost import Lost
    from workbook_tools.batch.workers import within_limits
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


def count(number: int, noun: str) -> str:
    """A number with its noun: "1 book", "3 books"."""
    return f"1 {noun}" if number == 1 else f"{number} {noun}s"
