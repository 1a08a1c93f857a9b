"""The command line: thin, one function a command. The only place that prints or exits."""

from __future__ import annotations

import os

from workbook_tools.batch.own_process import own_process
from workbook_tools.batch.sweeps import sweep_seldom
from workbook_tools.cli import (
    books,
    build_book,
    checks,
    doctor,
    functions,
    manual,
    programs,
    survey,
)
from workbook_tools.cli.shared import app
from workbook_tools.terminal import end_tidily, show_what_the_console_can

__all__ = [
    "app",
    "books",
    "build_book",
    "checks",
    "doctor",
    "functions",
    "main",
    "manual",
    "programs",
    "survey",
]


def main() -> None:
    """Entry point of the `workbook-tools` command."""
    show_what_the_console_can()
    end_tidily()
    # Nothing here calculates in threads, which numpy would start with its first import; a
    # process without threads can be forked.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    own_process()
    sweep_seldom()
    app()
