"""The process that reads books for a batch: one after the other, within limits.

Started by `workers`, which hands it tasks by its standard input and takes the results from
its standard output, and which lives on when a book brings this process down.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import sys

from workbook_tools.reports.build import Result, Wanted, work
from workbook_tools.reports.templates import TemplateError
from workbook_tools.reports.workers import few_sweeps


def main() -> None:
    """Answer tasks until input ends."""
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # What a library prints must not get between the answers.
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    wanted: Wanted
    wanted, memory = pickle.load(sys.stdin.buffer)
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    with few_sweeps():
        while True:
            try:
                task = pickle.load(sys.stdin.buffer)
            except EOFError:
                return
            answer: Result | tuple[str, int | None, str]
            try:
                answer = work(task, wanted)
            except TemplateError as error:
                answer = (str(error.template), error.line, error.reason)
            pickle.dump(answer, answers)
            answers.flush()


if __name__ == "__main__":
    main()
