"""Who does the work of a batch: this process, or processes on this machine within limits.

Each is a context manager that gives a function from tasks to (number of the task, answer),
in whatever order the answers come; tasks are drawn as they are needed.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import queue
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any, Generic, TypeVar

from workbook_tools.batch import forked
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.sweeps import few_sweeps
from workbook_tools.settings.folders import bands_file_now

# A finished book takes a tenth of a second; one with thousands of calls some seconds.
SECONDS_FOR_ONE_BOOK = 60.0
# The largest book that is read at all takes a fraction of it (bytes of address space).
MEMORY_FOR_ONE_BOOK = 4_000_000_000

T = TypeVar("T")
A = TypeVar("A")
Run = Callable[[Iterable[T]], Iterator[tuple[int, A]]]
Process = subprocess.Popen[bytes] | forked.Forked


def nothing() -> None:
    """What there is to prepare for most tasks."""


def staff(
    jobs: int,
    function: Callable[[T], A],
    lost: Callable[[T, str], A],
    prepare: Callable[[], object] = nothing,
) -> AbstractContextManager[Run[T, A]]:
    """Who does the work.

    jobs: processes on this machine, 0 for this one, in which a task has no limits; function:
    answers a task; lost: the answer to a task that was lost, with the reason; prepare: loads
    what every task needs, done once where processes are forked. All must be such that they can
    be pickled.
    """
    return on_processes(jobs, function, lost, prepare) if jobs else in_this_process(function)


@contextmanager
def in_this_process(function: Callable[[T], A]) -> Iterator[Run[T, A]]:
    """Work done here, one task after the other."""
    with few_sweeps():
        yield lambda tasks: ((n, function(task)) for n, task in enumerate(tasks))


@contextmanager
def on_processes(
    jobs: int,
    function: Callable[[T], A],
    lost: Callable[[T, str], A],
    prepare: Callable[[], object] = nothing,
) -> Iterator[Run[T, A]]:
    """Work done by processes of this machine; one that is lost costs the task it was at.

    Raises what the function raises.
    """
    workers = [Worker(function, prepare=prepare) for _ in range(jobs)]
    if forked.POSSIBLE:
        forked.prepare(_environment(), _bands())
    try:
        yield lambda tasks: _shared_out(workers, tasks, lost)
    finally:
        for worker in workers:
            worker.stop()


def within_limits(function: Callable[[T], A], task: T) -> A:
    """What a function answers to one task, in a process of its own, within limits.

    Raises Lost where the process does not come back, and what the function raises.
    """
    worker = Worker(function)
    try:
        return worker.do(task)
    finally:
        worker.stop()


class Worker(Generic[T, A]):
    """A process that does tasks, started on first need and again after it was lost."""

    def __init__(
        self,
        function: Callable[[T], A],
        seconds: float = SECONDS_FOR_ONE_BOOK,
        memory: int = MEMORY_FOR_ONE_BOOK,
        *,
        prepare: Callable[[], object] = nothing,
    ) -> None:
        self.function = function
        self.prepare = prepare
        self.seconds = seconds
        self.memory = memory
        self.process: Process | None = None

    def do(self, task: T) -> A:
        """The answer to a task. Raises Lost, and what the function raises."""
        late = threading.Event()
        watch = threading.Timer(self.seconds, self._end, [late])
        watch.daemon = True
        try:
            process = self.process = self.process or self._start()
            assert process.stdin is not None
            assert process.stdout is not None
            watch.start()
            process.stdin.write(pickle.dumps(task))
            process.stdin.flush()
            raised, answer = pickle.load(process.stdout)
        except Exception:
            # Of a process that was broken off in the middle anything may arrive.
            raise Lost(self._lost(late.is_set())) from None
        finally:
            watch.cancel()
        if late.is_set():
            # Its time ran out just after the answer.
            self.stop()
        if raised:
            raise answer
        given: A = answer
        return given

    def _start(self) -> Process:
        function = pickle.dumps(self.function)
        if forked.POSSIBLE:
            loading = pickle.dumps((self.function, self.prepare))
            process: Process = forked.start(loading, _environment(), _bands())
        else:
            process = _executed()
        assert process.stdin is not None
        process.stdin.write(pickle.dumps(self.memory) + function)
        return process

    def _lost(self, late: bool) -> str:
        """Why the process is no longer there, in words."""
        process, self.process = self.process, None
        if process is None:
            return "no process could be started to read it; run again"
        with contextlib.suppress(subprocess.TimeoutExpired):
            process.wait(timeout=2)
        _kill(process)
        code = process.wait()
        _close(process)
        if late:
            return f"reading it took longer than {self.seconds:g} seconds; split it up"
        if os.name != "nt" and code == -signal.SIGKILL:
            return "the process that read it was ended, perhaps for want of memory; run again"
        how = signal.strsignal(-code) if code < 0 else f"code {code}"
        return f"the process that read it broke down ({how}); save the book anew"

    def _end(self, late: threading.Event) -> None:
        late.set()
        if self.process is not None:
            _kill(self.process)

    def stop(self) -> None:
        """End the process, whatever it is doing."""
        process, self.process = self.process, None
        if process is not None:
            _kill(process)
            process.wait()
            _close(process)


def _environment() -> dict[str, str]:
    # numpy would set memory aside for threads that nothing here uses.
    return {**os.environ, "OPENBLAS_NUM_THREADS": "1"}


def _bands() -> tuple[str | None, bytes]:
    """The shop's own bands: the catalog has its words for a use from them when it is loaded."""
    file = bands_file_now()
    with contextlib.suppress(OSError):
        return file, Path(file).read_bytes() if file else b""
    return file, b""


def _executed() -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        # Without the current folder, in which anything may lie.
        [sys.executable, "-P", "-m", "workbook_tools.batch.worker"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        # Its own group, so that what it has started ends with it.
        start_new_session=True,
        env=_environment(),
    )


def _close(process: Process) -> None:
    for stream in (process.stdin, process.stdout):
        with contextlib.suppress(OSError):
            assert stream is not None
            stream.close()


def _kill(process: Process) -> None:
    if isinstance(process, subprocess.Popen) and os.name == "nt":
        process.kill()
        return
    # The group outlives its first process where that left others behind.
    with contextlib.suppress(OSError):
        os.killpg(process.pid, signal.SIGKILL)


def _shared_out(
    workers: list[Worker[T, A]], tasks: Iterable[T], lost: Callable[[T, str], A]
) -> Iterator[tuple[int, A]]:
    """Answers to tasks that each worker takes when it has time."""
    numbered = enumerate(tasks)
    drawing = threading.Lock()
    over = threading.Event()
    # Bounded, so that answers wait with the workers and not in memory.
    done: queue.Queue[Any] = queue.Queue(2 * len(workers))

    def hand_in(item: tuple[int, A] | BaseException | None) -> None:
        while not over.is_set():
            try:
                done.put(item, timeout=0.2)
            except queue.Full:
                continue
            return

    def answer(worker: Worker[T, A], task: T) -> A:
        try:
            return worker.do(task)
        except Lost as reason:
            return lost(task, str(reason))

    def attend(worker: Worker[T, A]) -> None:
        try:
            while not over.is_set():
                with drawing:
                    drawn = next(numbered, None)
                if drawn is None:
                    break
                hand_in((drawn[0], answer(worker, drawn[1])))
        except BaseException as error:
            hand_in(error)
        else:
            hand_in(None)

    threads = [threading.Thread(target=attend, args=(w,), daemon=True) for w in workers]
    for thread in threads:
        thread.start()
    try:
        busy = len(threads)
        while busy:
            item = done.get()
            if isinstance(item, BaseException):
                raise item
            if item is None:
                busy -= 1
            else:
                yield item
    finally:
        over.set()
