"""The command that shows how books are read: what is open, what is read, and why."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from workbook_tools.cli.settings_found import with_settings_of_books
from workbook_tools.cli.shared import (
    Processes,
    app,
    copies_to_read,
    cores,
    count,
    examples,
    refusals,
    require_there,
    tell_not_read,
    with_progress,
)
from workbook_tools.terminal import Exit, fail, say, shown

if TYPE_CHECKING:
    from workbook_tools.labels.layout import Layout


@app.command(
    epilog=examples(
        "survey 2024 --out layout.toml",
        "survey 1042.xlsx --explain 'Crank!F7'",
        "survey --names gasket",
        "survey 1042.xlsx --marked review.xlsx",
        "survey review.xlsx --out layout.toml",
    )
)
@with_settings_of_books("layout")
def survey(
    books: Annotated[
        list[Path] | None,
        typer.Argument(
            help="Book files, or folders of books; with --names words to look for.",
            readable=False,
        ),
    ] = None,
    layout_file: Annotated[
        Path | None,
        typer.Option(
            "--layout",
            help="The layout.toml to use, in place of the one found for the books.",
            readable=False,
        ),
    ] = None,
    out_file: Annotated[
        Path | None,
        typer.Option("--out", help="Write a layout.toml to start from.", readable=False),
    ] = None,
    cell: Annotated[
        str,
        typer.Option("--explain", help="Say why one cell is read as it is, such as 'Crank!F7'."),
    ] = "",
    names: Annotated[
        bool,
        typer.Option(
            "--names", help="List the names that a layout may use, or those about the words."
        ),
    ] = False,
    marked: Annotated[
        Path | None,
        typer.Option(
            "--marked",
            help="Write a copy of one book to correct in a spreadsheet: what each number is taken "
            "for, with lists to choose from.",
            readable=False,
        ),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print the builds as JSON, without results.")
    ] = False,
    processes: Processes = None,
) -> None:
    """Show what is left to settle in books, what that costs, and what would be read from them."""
    from workbook_tools.books.own_output import REVIEW, own_output
    from workbook_tools.labels.layout import read_layout

    given = list(books or ())
    _refuse_together(
        cell=cell, names=names, json=as_json, out=out_file is not None, marked=marked is not None
    )
    if names:
        _list_names([str(word) for word in given])
        return
    if not given:
        raise fail("Name books or folders of books: workbook-tools survey BOOKS...", Exit.USAGE)
    require_there(layout_file)
    with refusals(given), tempfile.TemporaryDirectory() as folder:
        layout = read_layout(layout_file) if layout_file else None
        copies = copies_to_read(given, Path(folder), calculate=False)
        if marked is not None:
            _write_marked(given, marked, layout, copies)
        elif out_file is not None and len(given) == 1 and own_output(given[0]) == REVIEW:
            _write_corrections(given[0], out_file)
        elif cell:
            _explain(given, cell, layout, copies)
        elif as_json:
            _survey_as_json(given, layout, copies, processes or cores())
        else:
            _survey(given, layout, copies, out_file, processes or cores())


def _refuse_together(**asked: object) -> None:
    """End the command where it is asked for two things at once."""
    options = {"cell": "--explain", "names": "--names", "json": "--json"}
    options |= {"out": "--out", "marked": "--marked"}
    said = [options[name] for name, wanted in asked.items() if wanted]
    if len(said) > 1:
        raise fail(f"Say {' or '.join(said)}: one of them at a time.", Exit.USAGE)


def _list_names(words: Sequence[str]) -> None:
    from workbook_tools.labels.layout_names import allowed_names
    from workbook_tools.measurands import all_measurands

    found = list(allowed_names(words))
    if not found:
        about = " ".join(words)
        from workbook_tools.quantities.nearest import nearest

        near = nearest(about, (m.id for m in all_measurands()), 0.5)
        told = f"the nearest is {near}; " if near else ""
        message = f"No name is about {shown(about)}; {told}--names without a word lists all."
        raise fail(message, Exit.USAGE)
    say("\n".join(found))


def _the_only(books: Sequence[Path], option: str) -> Path:
    """The one book that an option is about. Ends the command where there are more."""
    if len(books) != 1 or books[0].is_dir():
        raise fail(f"{option} is about one book: name its file alone.", Exit.USAGE)
    require_there(books[0])
    return books[0]


def _write(file: Path, content: bytes) -> None:
    """Write a new file. Ends the command where that cannot be."""
    from workbook_tools.batch.whole_file import write_new

    try:
        write_new(file, content)
    except OSError as error:
        message = f"{file}: {error.strerror}; nothing is overwritten."
        raise fail(message, Exit.USAGE) from None


def _write_marked(
    books: Sequence[Path], marked: Path, layout: Layout | None, copies: Mapping[Path, Path]
) -> None:
    from workbook_tools.batch.review_copy import review_copy
    from workbook_tools.books.cells import BookError
    from workbook_tools.labels.layout import layouts_of

    path = _the_only(books, "--marked")
    if marked.suffix.casefold() != ".xlsx":
        raise fail(f"{marked}: give the copy a name that ends with .xlsx.", Exit.USAGE)
    layout = layout or layouts_of([path], [path]).get(path)
    try:
        _write(marked, review_copy(path, layout, copies.get(path)))
    except BookError as reason:
        raise fail(f"NOT READ {path}: {reason}", Exit.UNREAD) from None
    say(
        f"Wrote {marked}. Correct it in a spreadsheet, on its first sheet, and save it; then: "
        f"workbook-tools survey {marked} --out layout.toml"
    )


def _write_corrections(path: Path, out_file: Path) -> None:
    from workbook_tools.batch.review_answers import corrections
    from workbook_tools.books.cells import BookError

    try:
        found = corrections(path)
    except BookError as reason:
        raise fail(f"NOT READ {path}: {reason}", Exit.UNREAD) from None
    if not found.numbers:
        raise fail(f"{path}: nothing was corrected in it, so that nothing is written.", Exit.USAGE)
    _write(out_file, found.layout.encode("utf-8", "replace"))
    say(f"Wrote {out_file}, with corrections of {count(found.numbers, 'number')}.")


def _explain(
    books: Sequence[Path], cell: str, layout: Layout | None, copies: Mapping[Path, Path]
) -> None:
    from workbook_tools.books.cells import BookError
    from workbook_tools.jobs.explained import NoSuchCell, explained
    from workbook_tools.labels.layout import layouts_of

    path = _the_only(books, "--explain")
    layout = layout or layouts_of([path], [path]).get(path)
    try:
        say("\n".join(explained(path, cell, layout, copies.get(path))))
    except NoSuchCell as reason:
        raise fail(f"{path}: {reason}.", Exit.USAGE) from None
    except BookError as reason:
        raise fail(f"NOT READ {path}: {reason}", Exit.UNREAD) from None


def _survey(
    books: Sequence[Path],
    layout: Layout | None,
    copies: Mapping[Path, Path],
    out_file: Path | None,
    jobs: int,
) -> None:
    from workbook_tools.batch.survey_text import survey as survey_books

    found = survey_books(books, layout, with_progress, stand_ins=copies, jobs=jobs)
    say(found.text)
    if out_file is not None:
        _write(out_file, found.layout.encode("utf-8", "replace"))
        say(
            f"Wrote {out_file}. Answer its open questions; then give --layout {out_file}, or save "
            "it as layout.toml in the folder of the books, where it is used without being named."
        )
    unread = sum(bool(book.problem) for book in found.books)
    if unread:
        raise fail(f"{count(unread, 'book')} not read; see above.", Exit.UNREAD)


def _survey_as_json(
    books: Sequence[Path], layout: Layout | None, copies: Mapping[Path, Path], jobs: int
) -> None:
    from workbook_tools.batch.survey_data import survey_data
    from workbook_tools.render.data import builds_json

    found = survey_data(books, layout, with_progress, stand_ins=copies, jobs=jobs)
    tell_not_read(found.left_aside, found.unread)
    # JSON is UTF-8 (RFC 8259), whatever the console shows.
    typer.echo(builds_json(found.builds).encode("utf-8", "replace"), nl=False)
    if found.unread:
        raise typer.Exit(Exit.UNREAD)
