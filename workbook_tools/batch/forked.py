"""Worker processes forked from one that has the program loaded, where a system lets them.

Loading the program takes longer than reading most books. On Linux one process does it once
for all the workers of a program, also of later batches and in place of those that were lost.
"""

from __future__ import annotations

import os
import pickle
import signal
import socket
import subprocess
import sys
import threading
import time
import weakref
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import IO, Any

from workbook_tools.batch.own_process import is_own_process
from workbook_tools.batch.ready import START, STATUS, serve_in_fork

POSSIBLE = sys.platform == "linux"

# What counts when Python and the program are loaded, by how the names of variables begin.
_FOR_LOADING = ("COVERAGE", "LANG", "LC_", "LD_", "PYTHON", "TZ")
_SECONDS_BETWEEN_LOOKS = 0.005


@dataclass(frozen=True)
class _Ready:
    """The process that is forked. loaded_with: what counted when it loaded the program."""

    asked: socket.socket
    answers: IO[bytes]
    loaded_with: object

    def ask(self, what: bytes, told: object, files: Sequence[int] = ()) -> Any:
        """What it answers. Raises OSError or EOFError where it is gone."""
        if files:
            socket.send_fds(self.asked, [what], files)
        else:
            self.asked.sendall(what)
        self.asked.sendall(pickle.dumps(told))
        return pickle.load(self.answers)


# One question at a time; what is ready.
_lock = threading.Lock()
_ready: _Ready | None = None


@dataclass
class Forked:
    """A worker process; what it has is what `subprocess.Popen` has by the same name."""

    pid: int
    stdin: IO[bytes]
    stdout: IO[bytes]
    ready: _Ready
    returncode: int | None = None

    def wait(self, timeout: float = float("inf")) -> int:
        """The exit code, once it has ended. Raises TimeoutExpired after so many seconds."""
        until = time.monotonic() + timeout
        while self.returncode is None:
            self.returncode = self._status()
            if self.returncode is None:
                if time.monotonic() > until:
                    raise subprocess.TimeoutExpired("worker", timeout)
                time.sleep(_SECONDS_BETWEEN_LOOKS)
        return self.returncode

    def _status(self) -> int | None:
        try:
            with _lock:
                status: int | None = self.ready.ask(STATUS, self.pid)
        except (OSError, EOFError):
            # Nobody can tell any more: as good as ended by whoever ended the other.
            return -signal.SIGKILL
        return status


def prepare(environment: Mapping[str, str], loaded_with: object) -> None:
    """Fork this process now for all workers to come, where it may be and has no threads yet.

    environment, loaded_with: as for `start`.
    """
    if is_own_process():
        with _lock:
            _ready_with(environment, loaded_with)


def start(loading: bytes, environment: Mapping[str, str], loaded_with: object) -> Forked:
    """A worker, to be sent its limit of memory, its function, and tasks.

    loading: its function and what prepares for it, pickled, so that what they need is loaded
    once; environment: what holds for the worker, besides the folder that this process is in
    and the rights that it gives to new files; loaded_with: what counts when the program is
    loaded, besides some of the environment. Raises OSError or EOFError where none can be started.
    """
    global _ready
    told = (dict(environment), _mask(), loading)
    with _lock:
        try:
            return _forked(_ready_with(environment, loaded_with), told)
        except (OSError, EOFError):
            # Somebody ended it; another takes its place.
            _ready = None
            return _forked(_ready_with(environment, loaded_with), told)


def _forked(ready: _Ready, told: object) -> Forked:
    with ExitStack() as theirs, ExitStack() as ours:
        tasks, to_it = os.pipe()
        theirs.callback(os.close, tasks)
        stdin = ours.enter_context(os.fdopen(to_it, "wb"))
        from_it, answers = os.pipe()
        theirs.callback(os.close, answers)
        stdout = ours.enter_context(os.fdopen(from_it, "rb"))
        folder = os.open(".", os.O_PATH)
        theirs.callback(os.close, folder)
        process = ready.ask(START, told, (tasks, answers, folder))
        ours.pop_all()
        return Forked(process, stdin, stdout, ready)


def _ready_with(environment: Mapping[str, str], loaded_with: object) -> _Ready:
    """The process that is ready, another one where something else counts by now."""
    global _ready
    known = tuple(sorted(p for p in environment.items() if p[0].startswith(_FOR_LOADING)))
    if _ready is None or _ready.loaded_with != (known, loaded_with):
        _ready = _loaded((known, loaded_with))
    return _ready


def _loaded(count: object) -> _Ready:
    """A new process that is ready."""
    sys.stdout.flush()
    sys.stderr.flush()
    here, there = socket.socketpair()
    with there:
        wait: Callable[[], object]
        if is_own_process() and len(os.listdir("/proc/self/task")) == 1:
            process = os.fork()
            if not process:
                serve_in_fork(there, here)
            wait = partial(os.waitpid, process, 0)
        else:
            wait = subprocess.Popen(
                # Without the current folder, in which anything may lie.
                [sys.executable, "-P", "-m", "workbook_tools.batch.ready", str(there.fileno())],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                # What a terminal sends to stop a program is for that alone.
                start_new_session=True,
                pass_fds=[there.fileno()],
                env={**os.environ, "OPENBLAS_NUM_THREADS": "1"},
            ).wait
    ready = _Ready(here, here.makefile("rb"), count)
    weakref.finalize(ready, _let_end, here, ready.answers, wait)
    return ready


def _let_end(asked: socket.socket, answers: IO[bytes], wait: Callable[[], object]) -> None:
    answers.close()
    asked.close()
    with suppress(ChildProcessError):
        wait()


def _forget() -> None:
    """In a process that a program forks by itself: what is ready is ready for the program."""
    global _lock, _ready
    _lock, _ready = threading.Lock(), None


if POSSIBLE:
    os.register_at_fork(after_in_child=_forget)


def _mask() -> int:
    """The rights that new files do not get."""
    told = Path("/proc/self/status").read_text(encoding="utf-8", errors="replace")
    return int(told.partition("\nUmask:")[2].split()[0], 8)
