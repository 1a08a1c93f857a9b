"""Commands about the worksheet functions: try one, look one up, the bands in force."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from workbook_tools.cli.settings_found import with_settings_of_books
from workbook_tools.cli.shared import app, examples, require_there
from workbook_tools.terminal import Exit, fail, say, shown

# The catalog takes longer to load than most commands take.
if TYPE_CHECKING:
    from workbook_tools.catalog import Function, Result


def _cell_text(value: object, result: Result) -> str:
    from workbook_tools import quantities as units
    from workbook_tools.catalog import ArgumentError, CellError

    if isinstance(value, ArgumentError):
        return f"no result ({value})"
    if isinstance(value, CellError):
        return value.text
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    if not result.kind.has_units:
        return f"{value:.10g}" + (f" {result.unit}" if result.unit else "")
    return units.show(float(value), result.kind, result.system)


@app.command(
    epilog=examples(
        """evaluate 'QUENCH(0.002, "38 thou")'""", "evaluate --book 1042.xlsx 'Build!B12'"
    )
)
@with_settings_of_books()
def evaluate(
    formula: Annotated[
        str,
        typer.Argument(help="The formula as in a cell; with --book also a cell, as Build!B12."),
    ],
    book: Annotated[
        Path | None,
        typer.Option("--book", help="The book whose cells the formula names.", readable=False),
    ] = None,
) -> None:
    """Try a formula without a spreadsheet: print its result with the unit, or why it has none."""
    from workbook_tools.books.bench import CannotEvaluate, try_formula
    from workbook_tools.catalog import ArgumentError
    from workbook_tools.catalog.table_rows import TableError
    from workbook_tools.catalog.tables import current

    require_there(book)
    try:
        current()
        result = _in_book(formula, book) if book else try_formula(formula)
    except TableError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except (ArgumentError, CannotEvaluate) as reason:
        raise fail(f"No result: {reason}", Exit.FINDINGS) from None
    _say_result(result)


def _in_book(asked: str, path: Path) -> Result:
    """What a cell of a book, or a formula on its cells, comes to; says what from."""
    from workbook_tools.books.bench import CannotEvaluate, try_in_book
    from workbook_tools.books.cells import BookError
    from workbook_tools.books.opening import read_cells

    try:
        tried = try_in_book(read_cells(path), asked)
    except BookError as reason:
        raise fail(f"{path}: {reason}.", Exit.UNREAD) from None
    say(shown(f"={tried.formula}"))
    width = max((len(one.parameter) for one in tried.given), default=0)
    for one in tried.given:
        content = _content(one.value)
        told = content if content == one.text else f"{one.text}  {content}"
        say(shown(f"  {one.parameter:{width}}  {told}"))
    if tried.result is None:
        raise CannotEvaluate(tried.problem)
    return tried.result


def _content(value: object) -> str:
    if value is None:
        return "empty"
    number = isinstance(value, float) and not isinstance(value, bool)
    return f"{value:.10g}" if number else str(value)


def _say_result(result: Result) -> None:
    from workbook_tools.catalog import ArgumentError, CellError

    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    for row in rows:
        say("\t".join(_cell_text(value, result) for value in row))
    if any(isinstance(value, (ArgumentError, CellError)) for row in rows for value in row):
        raise typer.Exit(Exit.FINDINGS)


@app.command(
    epilog=examples(
        "functions QUENCH",
        "functions squish",
        'functions "spring pressure"',
        "functions --book functions.xlsx",
    )
)
def functions(
    name: Annotated[
        str, typer.Argument(help="A function, with or without ENG., or words to look for.")
    ] = "",
    as_json: Annotated[bool, typer.Option("--json", help="Print the catalog as JSON.")] = False,
    book: Annotated[
        Path | None,
        typer.Option(
            "--book",
            help="Write a workbook of all functions, each with an example to try.",
            readable=False,
        ),
    ] = None,
) -> None:
    """Show the reference of one worksheet function, or list all, or those about something."""
    from workbook_tools.catalog import find
    from workbook_tools.catalog.reference import MOST_RELATED, as_data, by_section, describe
    from workbook_tools.catalog.search import related
    from workbook_tools.hosts.portable import portability

    if book is not None:
        _write_book(book)
        return
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
        near = related(function)
        if near:
            say("\nSee also")
            _list(near[:MOST_RELATED])
        return
    _list_functions(by_section())


def _write_book(out_file: Path) -> None:
    from workbook_tools.functions_book import write_functions_book
    from workbook_tools.hosts.archive import EditError

    try:
        write_functions_book(out_file)
    except EditError as reason:
        raise fail(str(reason), Exit.USAGE) from None
    say(f"Wrote {out_file}: change its boxes and watch the results.")


def _list_functions(sections: Mapping[str, Sequence[Function]]) -> None:
    for section, members in sections.items():
        say(section)
        _list(members)
        say("")
    say("More about one of them: workbook-tools functions QUENCH")


def _list_functions_about(words: str) -> None:
    """List the functions that a builder may mean by these words, the likeliest first."""
    from workbook_tools.catalog.search import functions_about

    found = functions_about(words)
    if not found:
        raise fail(_no_such_function(words), Exit.USAGE)
    _list(found)
    say(f"\nMore about one of them: workbook-tools functions {found[0].name}")


def _list(functions: Sequence[Function]) -> None:
    for function in functions:
        say(f"  {function.full_name:30} {function.summary}")


def _no_such_function(name: str) -> str:
    from workbook_tools.catalog import entries
    from workbook_tools.quantities.nearest import nearest

    near = nearest(name, [f.name for f in entries()])
    hint = f"the nearest is ENG.{near}" if near else "`workbook-tools functions` lists all"
    return f"There is no function {name!r}; {hint}."


@app.command(epilog=examples("bands", "bands --init"))
def bands(
    start: Annotated[
        bool,
        typer.Option("--init", help="Write a commented bands.toml for rows of the shop's own."),
    ] = False,
) -> None:
    """Show the bands and materials in force, ours and the shop's own, each with its origin."""
    from workbook_tools.catalog.table_rows import TableError
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
