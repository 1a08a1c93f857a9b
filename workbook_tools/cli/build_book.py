"""The command that writes a build book."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Annotated, Literal

import typer

from workbook_tools.cli.shared import (
    app,
    count,
    examples,
    require_there,
)
from workbook_tools.terminal import Exit, fail, say


@app.command(
    epilog=examples("new 1042.xlsx --cylinders 8 --units inch", "new 1043.xlsx --like 1042.xlsx")
)
def new(
    book: Annotated[
        Path, typer.Argument(help="The new book; its name ends in .xlsx.", readable=False)
    ],
    cylinders: Annotated[
        int | None, typer.Option("--cylinders", min=1, max=16, help="The number of cylinders.")
    ] = None,
    system: Annotated[
        Literal["inch", "metric"] | None,
        typer.Option("--units", help="The units of numbers that are entered without one."),
    ] = None,
    layout: Annotated[
        Literal["inline", "v", "flat", "single"] | None,
        typer.Option(
            "--layout", help="The cylinder layout; chosen by the number of cylinders if left out."
        ),
    ] = None,
    valves: Annotated[
        int | None,
        typer.Option("--valves", help="Valves per cylinder, 2 or 4; 2 if left out."),
    ] = None,
    mains: Annotated[
        int | None,
        typer.Option(
            "--mains",
            help="The number of main bearings; one on each side of a crankpin if left out.",
        ),
    ] = None,
    rods: Annotated[
        int | None,
        typer.Option(
            "--rods-per-journal",
            help="Rods on each crankpin, 1 or 2; 2 in a V engine, else 1, if left out.",
        ),
    ] = None,
    without: Annotated[
        list[str] | None,
        typer.Option(
            "--without", help="A sheet to leave out: Balance, Stretch or Power; once for each."
        ),
    ] = None,
    scope: Annotated[
        Literal["heads", "short", "complete"] | None,
        typer.Option("--scope", help="How much of the engine is worked on; complete if left out."),
    ] = None,
    like: Annotated[
        Path | None,
        typer.Option(
            "--like",
            help="A book that this command wrote; its parts, bands, gauges and own sheets stay.",
            readable=False,
        ),
    ] = None,
) -> None:
    """Write an empty build book to fill in at the bench, or the next one like an older book."""
    from workbook_tools.batch.lost import Lost
    from workbook_tools.batch.workers import within_limits
    from workbook_tools.buildbook import BuildBookError, OlderBookError, new_book, new_like

    if like is None and (cylinders is None or system is None):
        raise fail("Missing options: give --cylinders and --units, or --like OLD.xlsx.", Exit.USAGE)
    plan = (cylinders, system, layout, valves, mains, rods, without, scope)
    if like is not None and any(word is not None for word in plan):
        raise fail("--like takes cylinders, units and so on from the older book.", Exit.USAGE)
    require_there(like)
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
                scope=scope or "complete",
            )
    except OlderBookError as reason:
        raise fail(str(reason), Exit.UNREAD) from None
    except BuildBookError as reason:
        raise fail(str(reason), Exit.USAGE) from None
    except Lost as reason:
        raise fail(f"{like}: {reason}. Nothing was written.", Exit.UNREAD) from None
    for line in (*report.left_out, *report.own):
        say(line, err=True)
    taken = f" {count(report.kept, 'cell')} taken over." if like else ""
    boxes = f"{report.boxes} boxes, {report.required} of them required"
    say(f"Wrote {report.path} with {count(len(report.sheets), 'sheet')}: {boxes}.{taken}")
