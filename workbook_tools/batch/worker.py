"""The process that does tasks for `workers`: one after the other, within limits.

The process that takes the answers lives on when a book brings this one down; when that one
ends, so does this.
"""

from __future__ import annotations

import contextlib
import gc
import os
import pickle
import select
import signal
import sys
from typing import Any

from workbook_tools.batch.lost import TOO_LARGE, Lost, unforeseen
from workbook_tools.batch.own_process import load_openpyxl
from workbook_tools.batch.sweeps import few_sweeps, sweep_seldom

try:
    import resource
except ImportError:  # Windows has no such limits.
    resource = None  # type: ignore[assignment]

_MUCH_MORE = 1.2
OUT_OF_MEMORY = pickle.dumps((True, Lost(TOO_LARGE)))
"""Made in advance, for there is no memory to make it with when it is wanted."""


def main() -> None:
    """Answer tasks that come by standard input by standard output."""
    sweep_seldom()
    load_openpyxl()
    answers = os.dup(sys.stdout.fileno())
    # What a library prints must not get between the answers.
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    answer_tasks(sys.stdin.fileno(), answers)


def answer_tasks(tasks: int, answers: int) -> None:
    """Answer tasks that come by one pipe by another one, until the first is closed.

    tasks, answers: the numbers of the files. First come the limit of memory in bytes and the
    function, then the tasks, each pickled; the process must be the first of its group.
    """
    _end_with_parent(tasks, answers)
    with os.fdopen(tasks, "rb") as asked, os.fdopen(answers, "wb") as said:
        memory: int = pickle.load(asked)
        function: Any = pickle.load(asked)
        if resource is not None:
            with contextlib.suppress(ValueError, OSError):
                resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
                resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        with few_sweeps():
            while True:
                try:
                    task = pickle.load(asked)
                except EOFError:
                    return
                before = _most_memory()
                try:
                    answer = _answered(function, task)
                except MemoryError:
                    # There was none left even for saying so.
                    answer = OUT_OF_MEMORY
                said.write(answer)
                said.flush()
                if _most_memory() > _MUCH_MORE * before:
                    # The next one is to have the room that a large book took.
                    gc.collect()


def _most_memory() -> int:
    return 0 if resource is None else resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


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


def _end_with_parent(tasks: int, answers: int) -> None:
    """Leave a process behind that ends this one's whole group when the parent is gone.

    A thread would not do: this process may be busy for minutes in code that lets no other
    thread run, and so may a process that it has started. The parent alone holds the other
    end of the tasks, which closes however the parent ends.
    """
    if not hasattr(os, "fork") or os.fork():
        return
    watched = select.poll()
    watched.register(tasks, 0)
    # Nobody is to wait for this process to close its ends.
    os.close(answers)
    watched.poll()
    os.killpg(0, signal.SIGKILL)


if __name__ == "__main__":
    main()
