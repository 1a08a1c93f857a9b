"""Commands for the spreadsheet programs: LibreOffice, Excel, and books that carry the functions."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from workbook_tools.cli.settings_found import with_settings_of_books
from workbook_tools.cli.shared import (
    Commands,
    LayoutFile,
    app,
    copied,
    count,
    examples,
    require_there,
)
from workbook_tools.terminal import Exit, fail, say

if TYPE_CHECKING:
    from workbook_tools.annotate.text_numbers import TextNumber
    from workbook_tools.hosts.portable import PortableBook

libreoffice_app = typer.Typer(
    cls=Commands,
    no_args_is_help=True,
    help="Install the worksheet functions in LibreOffice, or remove them.",
)


app.add_typer(libreoffice_app, name="libreoffice")


@libreoffice_app.command("build")
def libreoffice_build(
    out_file: Annotated[
        Path | None,
        typer.Option(
            "--out", help="The file to write; engine-functions.oxt if left out.", readable=False
        ),
    ] = None,
) -> None:
    """Write the LibreOffice extension, to install by hand or on another machine."""
    from workbook_tools.hosts import libreoffice

    try:
        written = libreoffice.build(out_file or libreoffice.FILE_NAME)
    except libreoffice.OutError as reason:
        raise fail(str(reason), Exit.USAGE) from None
    except libreoffice.OfficeError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    say(f"Wrote {written}. Open it with LibreOffice to install it.")


@libreoffice_app.command("install")
def libreoffice_install() -> None:
    """Install the worksheet functions in LibreOffice."""
    from workbook_tools.hosts import libreoffice

    _say_done(libreoffice.install)


@libreoffice_app.command("remove")
def libreoffice_remove() -> None:
    """Remove the worksheet functions from LibreOffice."""
    from workbook_tools.hosts import libreoffice

    _say_done(libreoffice.remove)


def _say_done(change: Callable[[], str]) -> None:
    """Change what LibreOffice has, and say what was changed."""
    from workbook_tools.hosts.libreoffice import OfficeError

    try:
        say(change())
    except OfficeError as reason:
        say(str(reason), err=True)  # What LibreOffice says takes several lines.
        raise typer.Exit(Exit.UNREAD) from None


_MOST_TEXTS = 12

_Book = Annotated[
    Path, typer.Argument(help="The book, .xlsx or .xlsm, which is not changed.", readable=False)
]


_NewBook = Annotated[Path, typer.Option("--out", help="The new book to write.", readable=False)]


@app.command(
    epilog=examples(
        "portable 1042.xlsx --out 1042-excel.xlsx", "portable 1042.xlsx --out new.xlsx --only"
    )
)
@with_settings_of_books()
def portable(
    book: _Book,
    out_file: _NewBook,
    only: Annotated[
        bool, typer.Option("--only", help="Add only the functions that the book calls.")
    ] = False,
    remove: Annotated[bool, typer.Option("--remove", help="Remove the functions again.")] = False,
    replace: Annotated[
        bool,
        typer.Option(
            "--replace",
            help="Overwrite names of the book that are spelled like a function of ours.",
        ),
    ] = False,
    numbers: Annotated[
        bool,
        typer.Option(
            "--numbers",
            help="Put numbers in place of texts such as 38 thou, which need the add-in.",
        ),
    ] = False,
) -> None:
    """Copy a book so that its ENG formulas calculate in any current Excel, without an add-in."""
    from workbook_tools.annotate.text_numbers import portable_with_numbers, text_numbers
    from workbook_tools.hosts.portable import portable as write_portable

    require_there(book)
    if numbers and remove:
        raise fail("--remove takes the functions out: leave out --numbers.", Exit.USAGE)
    texts = () if remove else copied(text_numbers, book, out_file)
    changed = [one for one in texts if numbers and one.number is not None]
    _tell_texts([one for one in texts if one not in changed], offered=not numbers)
    if changed:
        write = partial(
            portable_with_numbers, out=out_file, numbers=changed, only=only, replace=replace
        )
    else:
        write = partial(write_portable, out=out_file, only=only, remove=remove, replace=replace)
    done = copied(write, book, out_file)
    for one in changed:
        say(f'{one.place}: "{one.text}" is now {one.number:.12g}')
    _tell_portable(done, out_file, removed=remove)
    say(f"Wrote {out_file}.")


def _tell_portable(done: PortableBook, out_file: Path, *, removed: bool) -> None:
    """Say what became of the functions in a copy."""
    for words, names in (
        ("added", done.added),
        ("brought up to date", done.renewed),
        ("removed", done.removed),
        ("overwritten, as asked", done.replaced),
        ("mended after another program had damaged them", done.mended),
    ):
        if names:
            say(f"{count(len(names), 'function')} {words}.")
    if removed and not done.removed:
        say("None of the functions was in the book.")
    if done.kept:
        say(
            "NOT ADDED, the book has a name of its own (--replace overwrites it): "
            + ", ".join(done.kept),
            err=True,
        )
    if done.on_a_sheet:
        say(
            "A sheet has a name of its own, which holds there (--replace removes it): "
            + ", ".join(done.on_a_sheet),
            err=True,
        )
    for name, why in done.not_portable:
        say(f"{name} needs the add-in: {why}.", err=True)
    if done.to_translate:
        say(
            f"{count(len(done.to_translate), 'function')} called as ENG_… or through an add-in's "
            "file; to spell them ENG.…: "
            f'workbook-tools translate "{out_file}" --to dot --out NEW{out_file.suffix}',
            err=True,
        )
    for name in done.unknown:
        say(f"{name} is no function of the catalog.", err=True)


def _tell_texts(texts: Sequence[TextNumber], *, offered: bool) -> None:
    """Warn of what will be #VALUE! where there is no add-in."""
    if not texts:
        return
    listed = ", ".join(f'{one.place} "{one.text}"' for one in texts[:_MOST_TEXTS])
    more = f" and {len(texts) - _MOST_TEXTS} more" if len(texts) > _MOST_TEXTS else ""
    say(
        f"{count(len(texts), 'number')} written as text, which without an add-in give #VALUE! "
        f"where a function takes them: {listed}{more}.",
        err=True,
    )
    if offered and any(one.number is not None for one in texts):
        say("With --numbers they become numbers in the copy.", err=True)
    elif any(one.number is None for one in texts):
        say("Write those that stand in formulas, or come from them, as numbers by hand.", err=True)


@app.command(
    epilog=examples(
        "annotate 1042.xlsx --out 1042-eng.xlsx", "annotate 1042.xlsx --out new.xlsx --replace"
    )
)
@with_settings_of_books("layout")
def annotate(
    book: Annotated[
        Path,
        typer.Argument(
            help="The book, .xlsx, .xlsm or .ods, which is not changed.", readable=False
        ),
    ],
    out_file: _NewBook,
    carry: Annotated[
        bool, typer.Option("--portable", help="Also add the functions, for any current Excel.")
    ] = False,
    replace: Annotated[
        bool,
        typer.Option(
            "--replace", help="Replace formulas by calls that give the same, and list each."
        ),
    ] = False,
    layout_file: LayoutFile = None,
) -> None:
    """Copy a book with a sheet ENG: each result by a call on its own cells, beside yours."""
    from workbook_tools.annotate import annotate as write_annotated
    from workbook_tools.labels.layout import LayoutError, layouts_of, read_layout

    require_there(book, layout_file)
    try:
        beside = layouts_of([book], [book]) if layout_file is None else {}
        layout = read_layout(layout_file) if layout_file else beside.get(book)
    except LayoutError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    write = partial(write_annotated, out=out_file, layout=layout, carry=carry, replace=replace)
    done = copied(write, book, out_file)
    agree = [line.agrees for line in done.lines]
    of_jobs = f" of {count(done.jobs, 'job')}" if done.jobs > 1 else ""
    say(
        f"{count(len(agree), 'result')}{of_jobs} on the sheet ENG: {agree.count(True)} as in "
        f"the book, {agree.count(False)} not, {agree.count(None)} that it does not have."
    )
    for line in done.lines:
        if line.agrees is False:
            say(
                f"  {line.label}: {line.value:.6g} {line.unit}".rstrip()
                + f"; in the book {line.said:.6g}"
            )
    if done.left_out:
        say(
            "Left out, as a call on the cells as they are would not give them (texts where numbers "
            f"should be): {', '.join(done.left_out)}."
        )
    if done.names:
        say(f"Named: {', '.join(done.names)}.")
    for one in done.replaced:
        say(f"{one.place}: {one.old} is now {one.new}")
    if replace:
        say(f"{count(len(done.replaced), 'formula')} replaced.")
    say(f"Wrote {out_file}.")


@app.command(epilog=examples("translate 1042.xlsx --to vba --out 1042-xlwings.xlsx"))
def translate(
    book: _Book,
    to: Annotated[
        Literal["vba", "dot"], typer.Option("--to", help="vba for ENG_QUENCH, dot for ENG.QUENCH.")
    ],
    out_file: _NewBook,
) -> None:
    """Copy a book with its calls spelled ENG_QUENCH (for xlwings) or ENG.QUENCH (elsewhere)."""
    from workbook_tools.hosts.translate import translate as write_translated

    require_there(book)
    done = copied(partial(write_translated, out=out_file, to=to), book, out_file)
    for name in done.unknown:
        say(f"{name} is no function of the catalog; left as it is.", err=True)
    say(f"{count(done.formulas, 'formula')} changed. Wrote {out_file}.")


excel_app = typer.Typer(
    cls=Commands,
    no_args_is_help=True,
    help="Connect Excel for Windows to the worksheet functions through xlwings.",
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
    """Undo what `excel connect` did."""
    _excel(undo=True)
