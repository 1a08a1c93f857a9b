"""What a command says on the terminal, and the code that it ends with."""

from __future__ import annotations

import io
import re
import signal
import sys
from enum import IntEnum
from types import FrameType

import typer


class Exit(IntEnum):
    """How every command ends: the one table, as the manual has it.

    A number above 128 is the custom of shells for a command that a signal stopped.
    """

    DONE = 0
    FINDINGS = 1
    USAGE = 2
    UNREAD = 3
    INTERRUPTED = 128 + signal.SIGINT
    TERMINATED = 128 + signal.SIGTERM


# Control characters but the tab and the end of a line, marks that turn the direction of
# writing, and separators of lines: a name that holds them could give a terminal orders, or
# show a text that is not there.
_UNSEEN = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")


def shown(name: object) -> str:
    """A name, or another text from outside, in one line that gives a terminal no orders."""
    return _escaped(str(name)).replace("\n", "\\n").replace("\t", "\\t")


def _escaped(text: str) -> str:
    return _UNSEEN.sub(lambda found: ascii(found[0])[1:-1], text)


def say(text: str, *, err: bool = False) -> None:
    """Print lines, without control characters that came with a name."""
    typer.echo(_escaped(text), err=err)


def fail(message: str, code: Exit) -> typer.Exit:
    """Say in a line what went wrong; what to raise to end the command with this code."""
    say(shown(message), err=True)
    return typer.Exit(code)


_STOPPING = ("SIGINT", "SIGTERM", "SIGHUP")


def end_tidily() -> None:
    """Make signals that stop a program unwind it, so that its temporary files go with it."""
    for name in _STOPPING:
        number = getattr(signal, name, None)
        # Whoever started this with nohup wants it to outlive the terminal.
        if number is not None and signal.getsignal(number) != signal.SIG_IGN:
            signal.signal(number, _stop)


def _stop(number: int, _: FrameType | None) -> None:
    # What follows is cleaning up, which no second signal may cut short.
    for name in _STOPPING:
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.SIG_IGN)
    say("Stopped. Run it again to go on.", err=True)
    sys.exit(Exit.INTERRUPTED if number == signal.SIGINT else Exit.TERMINATED)


def show_what_the_console_can() -> None:
    """Let a console of another alphabet than the book's show what it can."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
