"""The manual, opened in a browser or written to a file."""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import typer

from workbook_tools.cli.shared import app, examples
from workbook_tools.terminal import Exit, fail, say


@app.command(epilog=examples("manual", "manual --out manual.html"))
def manual(
    out_file: Annotated[
        Path | None,
        typer.Option(
            "--out", help="Write the manual to this file instead of opening it.", readable=False
        ),
    ] = None,
) -> None:
    """Open the manual in the browser: one page that needs no network, with a search."""
    import webbrowser

    from platformdirs import user_data_path

    from workbook_tools.render.manual import manual_html

    target = out_file or user_data_path("workbook-tools", appauthor=False) / "manual.html"
    try:
        if out_file is None:
            target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(manual_html(commands_text()), encoding="utf-8", newline="\n")
    except OSError as error:
        raise fail(f"{target} cannot be written: {error.strerror}.", Exit.USAGE) from None
    say(f"Wrote {target}.")
    if out_file is None and not webbrowser.open(target.resolve().as_uri()):
        say("No browser could be started: open the file yourself.", err=True)


def commands_text() -> str:
    """The chapter about the commands, as Markdown, from their own help."""
    lines = ["# Commands", "", "`workbook-tools COMMAND -h` prints the same.", ""]
    for name, command in _commands(typer.main.get_command(app), ""):
        lines += [f"## {name}", "", *_help(command), ""]
    lines += ["How every command ends is told [here](batches.md#how-a-command-ends).", ""]
    return "\n".join(lines)


def _commands(group: Any, before: str) -> Iterator[tuple[str, Any]]:
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from _commands(command, f"{before}{name} ")
        else:
            yield f"{before}{name}", command


def _help(command: Any) -> Iterator[str]:
    yield inspect.cleandoc(command.help or "")
    lines = (command.epilog or "").splitlines()[2:]
    if lines:
        yield from ("", "```sh", *(line.strip() for line in lines), "```")
    rows = [(_spelled(one), one.help or "") for one in command.params if one.name != "help"]
    if rows:
        yield ""
        yield "| argument or option | meaning |"
        yield "| --- | --- |"
        yield from (f"| `{name}` | {' '.join(help_text.split())} |" for name, help_text in rows)


def _spelled(parameter: Any) -> str:
    if parameter.param_type_name == "argument":
        return str(parameter.name).upper()
    return ", ".join(parameter.opts)
