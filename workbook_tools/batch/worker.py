"""The process that does tasks for `workers`: one after the other, within limits.

It takes tasks by its standard input and gives the answers by its standard output. The process
that started it lives on when a book brings this one down; when that one ends, so does this.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import select
import signal
import sys
from typing import Any

from workbook_tools.batch.workers import TOO_LARGE, Lost, few_sweeps, unforeseen

OUT_OF_MEMORY = pickle.dumps((True, Lost(TOO_LARGE)))
"""Made in advance, for there is no memory to make it with when it is wanted."""


def main() -> None:
    """Answer tasks until input ends."""
    _end_with_parent()
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # What a library prints must not get between the answers.
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    memory: int = pickle.load(sys.stdin.buffer)
    function: Any = pickle.load(sys.stdin.buffer)
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
            try:
                answer = _answered(function, task)
            except MemoryError:
                # There was none left even for saying so.
                answer = OUT_OF_MEMORY
            answers.write(answer)
            answers.flush()


def _answered(function: Any, task: Any) -> bytes:
    """Whether the function raised, and its answer or error, pickled."""
    try:
        return pickle.dumps((False, function(task)))
    except MemoryError:
        return OUT_OF_MEMORY
    except BaseException as error:
        # Whatever a strange book brings out: a fault, a library's panic, its way out of the
        # program. Only errors of this program's own say by themselves what to do.
        if type(error).__module__.startswith("workbook_tools."):
            with contextlib.suppress(Exception):
                return pickle.dumps((True, error))
        return pickle.dumps((True, Lost(unforeseen(error, "it could not be read"))))


def _end_with_parent() -> None:
    """Leave a process behind that ends this one's whole group when the parent is gone.

    A thread would not do: this process may be busy for minutes in code that lets no other
    thread run, and so may a process that it has started. The parent alone holds the other
    end of standard input, which closes however the parent ends.
    """
    if not hasattr(os, "fork") or os.fork():
        return
    watched = select.poll()
    watched.register(sys.stdin.fileno(), 0)
    # Nobody is to wait for this process to close its ends.
    os.close(sys.stdout.fileno())
    watched.poll()
    os.killpg(0, signal.SIGKILL)


if __name__ == "__main__":
    main()
