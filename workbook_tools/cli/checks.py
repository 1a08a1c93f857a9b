"""Commands about findings: check books with nothing written, and what a finding means."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from workbook_tools.cli.settings_found import with_settings_of_books
from workbook_tools.cli.shared import (
    Afresh,
    Books,
    Cluster,
    LayoutFile,
    Processes,
    Recalculate,
    app,
    copied,
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
    from workbook_tools.batch.check import Checked

_NARROWEST = 40


@app.command(
    epilog=examples(
        "check jobs",
        "check jobs --select out-of-band,missing-reading --format csv",
        "check 1042.xlsx --marked review.xlsx",
    )
)
@with_settings_of_books("shop", "layout", "accepted")
def check(
    books: Books,
    form: Annotated[
        Literal["text", "json", "csv"], typer.Option("--format", help="How to print the findings.")
    ] = "text",
    select: Annotated[
        str,
        typer.Option(
            "--select", metavar="CODE[,CODE]", help="Report only findings with these codes."
        ),
    ] = "",
    ignore: Annotated[
        str,
        typer.Option(
            "--ignore", metavar="CODE[,CODE]", help="Leave out findings with these codes."
        ),
    ] = "",
    marked: Annotated[
        Path | None,
        typer.Option(
            "--marked",
            metavar="COPY",
            help="Also write a copy of the one book with each finding as a note on its cell.",
            readable=False,
        ),
    ] = None,
    layout_file: LayoutFile = None,
    recalculate: Recalculate = None,
    processes: Processes = None,
    cluster: Cluster = "",
    afresh: Afresh = False,
) -> None:
    """Check books and print what was found, a line each. Nothing else is written.

    The exit code is 0 where no finding is open, 1 where one is, 3 where a book was not read.
    """
    from workbook_tools.batch.check import check_books
    from workbook_tools.findings.codes import CODES
    from workbook_tools.kept_files import usual_folder
    from workbook_tools.labels.layout import read_layout
    from workbook_tools.settings.shop import shop_for

    require_there(layout_file)
    if marked is not None and (len(books) != 1 or books[0].is_dir()):
        raise fail("--marked writes a copy of one book: name that book alone.", Exit.USAGE)
    codes = (_codes(select) or set(CODES)) - _codes(ignore)
    with refusals(books), tempfile.TemporaryDirectory() as copies:
        checked = check_books(
            books,
            with_progress,
            layout=read_layout(layout_file) if layout_file else None,
            shop=shop_for(books, codes=CODES),
            codes=codes,
            stand_ins=copies_to_read(books, Path(copies), calculate=recalculate is not None),
            jobs=processes or cores(),
            cluster=cluster,
            cache=None if afresh else usual_folder(),
        )
    tell_not_read(checked.left_aside, checked.unread)
    _print(checked, form)
    if marked is not None and not checked.unread:
        _mark(books[0], marked, checked)
    if checked.unread:
        raise typer.Exit(Exit.UNREAD)
    if checked.open_findings:
        raise typer.Exit(Exit.FINDINGS)


def _mark(book: Path, out_file: Path, checked: Checked) -> None:
    """Write a copy of a book with the findings on its cells."""
    from functools import partial

    from workbook_tools.batch.check import finding_notes
    from workbook_tools.hosts.notes import write_with_notes

    notes, no_cell = finding_notes(checked)
    hidden = copied(partial(write_with_notes, out=out_file, notes=notes), book, out_file)
    where = f"{count(len(notes), 'cell')} marked with what was found"
    left = f"; {count(no_cell, 'finding')} of no one cell are not in it" if no_cell else ""
    say(f"Wrote {out_file}: {where}{left}.", err=True)
    if hidden:
        cells = ", ".join(map(str, hidden))
        say(f"Excel shows the threaded comments of these cells, not the notes: {cells}.", err=True)


def _codes(listed: str) -> set[str]:
    """The codes in a list with commas. Ends the command for one that there is not."""
    named = {code.strip() for code in listed.split(",") if code.strip()}
    for code in sorted(named):
        _require_known(code)
    return named


def _require_known(code: str) -> None:
    from workbook_tools.findings.codes import CODES

    if code in CODES:
        return
    from workbook_tools.quantities.nearest import nearest

    near = nearest(code, CODES)
    hint = f"the nearest is {near}" if near else "`workbook-tools findings` lists all"
    raise fail(f"No finding has the code {code!r}; {hint}.", Exit.USAGE)


def _print(checked: Checked, form: str) -> None:
    from workbook_tools.batch.check import check_csv, check_json, check_lines

    if form == "text":
        for line in check_lines(checked):
            say(_fitted(shown(line)))
        say(checked.sentence)
        return
    data = check_json(checked) if form == "json" else check_csv(checked)
    # JSON is UTF-8 (RFC 8259), whatever the console shows.
    typer.echo(data.encode("utf-8", "replace"), nl=False)
    say(checked.sentence, err=True)


def _fitted(line: str) -> str:
    """A line as wide as the terminal, what goes on indented; as it is in a pipe."""
    if not sys.stdout.isatty():
        return line
    from shutil import get_terminal_size

    return fill(
        line,
        max(get_terminal_size().columns, _NARROWEST),
        subsequent_indent="    ",
        break_long_words=False,
        break_on_hyphens=False,
    )


@app.command(epilog=examples("findings", "findings out-of-band"))
def findings(
    code: Annotated[str, typer.Argument(help="A code, as check and findings.csv have it.")] = "",
) -> None:
    """Explain what the codes of findings mean: all of them by kind, or one with an example."""
    from workbook_tools.findings.codes import CODES
    from workbook_tools.summary.finding_order import KINDS

    if code:
        _require_known(code)
        told = CODES[code]
        say(
            f"{code} ({told.kind})\n\n{told.meaning}\n\nExample\n  {told.example}\n\n"
            f"To settle it\n  {told.settle}"
        )
        return
    width = max(map(len, CODES))
    for kind in KINDS:
        say(kind)
        for name, told in CODES.items():
            if told.kind == kind:
                say(f"  {name:{width}}  {told.meaning}")
        say("")
    say("More about one of them: workbook-tools findings out-of-band")
