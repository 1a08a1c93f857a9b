"""Who does the work of a batch: this process, processes on this machine, or a cluster.

Each is a context manager that gives a function from tasks to (number of the task, result),
in whatever order the results come; tasks are drawn as they are needed.
"""

from __future__ import annotations

import contextlib
import gc
import os
import pickle
import queue
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager

from workbook_tools.reports.build import Result, Task, Wanted, work
from workbook_tools.reports.templates import TemplateError

# A finished book takes a tenth of a second; one with thousands of calls some seconds.
SECONDS_FOR_ONE_BOOK = 60.0
# The largest book that is read at all takes a fraction of it (bytes of address space).
MEMORY_FOR_ONE_BOOK = 4_000_000_000
_OBJECTS_BETWEEN_SWEEPS = 100_000

Run = Callable[[Iterable[Task]], Iterator[tuple[int, Result]]]


def staff(jobs: int, cluster: str, wanted: Wanted) -> AbstractContextManager[Run]:
    """Who does the work.

    jobs: processes on this machine, 0 for this one, in which a book has no limits; cluster:
    the address of a Dask scheduler ("tcp://…"), which then does the work instead.
    """
    if cluster:
        from workbook_tools.reports.cluster import on_cluster

        return on_cluster(cluster, wanted)
    return on_processes(jobs, wanted) if jobs else in_this_process(wanted)


@contextmanager
def in_this_process(wanted: Wanted) -> Iterator[Run]:
    """Work done here, one book after the other."""
    with few_sweeps():
        yield lambda tasks: ((n, work(task, wanted)) for n, task in enumerate(tasks))


@contextmanager
def few_sweeps() -> Iterator[None]:
    """Look for rubbish seldom: a book's many small objects live as long as the book does."""
    usual = gc.get_threshold()
    # What is there by now stays: the program itself.
    gc.freeze()
    gc.set_threshold(_OBJECTS_BETWEEN_SWEEPS, *usual[1:])
    try:
        yield
    finally:
        gc.set_threshold(*usual)
        gc.unfreeze()


@contextmanager
def on_processes(jobs: int, wanted: Wanted) -> Iterator[Run]:
    """Work done by processes of this machine; one that is lost costs the book it was at.

    Raises TemplateError where a template does not work.
    """
    workers = [Worker(wanted) for _ in range(jobs)]
    try:
        yield lambda tasks: _shared_out(workers, tasks)
    finally:
        for worker in workers:
            worker.stop()


class Worker:
    """A process that reads books, started on first need and again after it was lost."""

    def __init__(
        self,
        wanted: Wanted,
        seconds: float = SECONDS_FOR_ONE_BOOK,
        memory: int = MEMORY_FOR_ONE_BOOK,
    ) -> None:
        self.wanted = wanted
        self.seconds = seconds
        self.memory = memory
        self.process: subprocess.Popen[bytes] | None = None

    def do(self, task: Task) -> Result:
        """The result of a task. Raises TemplateError, and nothing for whatever a book does."""
        late = threading.Event()
        watch = threading.Timer(self.seconds, self._end, [late])
        watch.daemon = True
        try:
            process = self.process = self.process or self._start()
            assert process.stdin is not None
            assert process.stdout is not None
            watch.start()
            pickle.dump(task, process.stdin)
            process.stdin.flush()
            answer = pickle.load(process.stdout)
        except (OSError, EOFError, pickle.UnpicklingError):
            return Result(refused=self._lost(late.is_set()))
        finally:
            watch.cancel()
        if late.is_set():
            # Its time ran out just after the answer.
            self.stop()
        if isinstance(answer, Result):
            return answer
        raise TemplateError(*answer)

    def _start(self) -> subprocess.Popen[bytes]:
        process = subprocess.Popen(
            # Without the current folder, in which anything may lie.
            [sys.executable, "-P", "-m", "workbook_tools.reports.worker"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            # Its own group, so that what it has started ends with it.
            start_new_session=True,
            # numpy would set memory aside for threads that nothing here uses.
            env={**os.environ, "OPENBLAS_NUM_THREADS": "1"},
        )
        assert process.stdin is not None
        pickle.dump((self.wanted, self.memory), process.stdin)
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
        for stream in (process.stdin, process.stdout):
            with contextlib.suppress(OSError):
                assert stream is not None
                stream.close()
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
            for stream in (process.stdin, process.stdout):
                with contextlib.suppress(OSError):
                    assert stream is not None
                    stream.close()


def _kill(process: subprocess.Popen[bytes]) -> None:
    if os.name == "nt":
        process.kill()
        return
    # The group outlives its first process where that left others behind.
    with contextlib.suppress(OSError):
        os.killpg(process.pid, signal.SIGKILL)


def _shared_out(workers: list[Worker], tasks: Iterable[Task]) -> Iterator[tuple[int, Result]]:
    """Results of tasks that each worker takes when it has time."""
    numbered = enumerate(tasks)
    drawing = threading.Lock()
    over = threading.Event()
    # Bounded, so that results wait with the workers and not in memory.
    done: queue.Queue[tuple[int, Result] | BaseException | None] = queue.Queue(2 * len(workers))

    def hand_in(item: tuple[int, Result] | BaseException | None) -> None:
        while not over.is_set():
            try:
                done.put(item, timeout=0.2)
            except queue.Full:
                continue
            return

    def attend(worker: Worker) -> None:
        try:
            while not over.is_set():
                with drawing:
                    drawn = next(numbered, None)
                if drawn is None:
                    break
                hand_in((drawn[0], worker.do(drawn[1])))
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
