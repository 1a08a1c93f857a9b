"""The work of a batch on a Dask cluster, for shops with many thousands of books."""

from __future__ import annotations

import threading
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from functools import partial
from itertools import islice
from typing import Any

from workbook_tools.batch.build import Result, Task, Wanted, refused, work
from workbook_tools.batch.cache import program
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.workers import Run, Worker
from workbook_tools.book_files import UnfitFile, read_bytes
from workbook_tools.render.templates import TemplateError


class ClusterError(Exception):
    """A cluster that cannot be used; the message says what to do."""


# Books that wait at the cluster for each of its threads, so that none is idle.
_WAITING_PER_THREAD = 3
SECONDS_TO_ANSWER = 10.0

# Of the machine in the cluster that this module was loaded on: a reader for each thread.
_readers = threading.local()


@contextmanager
def on_cluster(address: str, wanted: Wanted) -> Iterator[Run[Task, Result]]:
    """Work done by the cluster whose scheduler is at an address ("tcp://…").

    The same program must be installed on its machines; the books' bytes are sent to them, so
    that they need no folder in common; a shop's own templates and bands must lie where they
    lie here. Raises ClusterError where it cannot be reached or has no workers, or others, and
    TemplateError where a template does not work.
    """
    try:
        from distributed import Client
    except ImportError:
        raise ClusterError(
            "a cluster needs the package distributed; run pip install distributed"
        ) from None
    try:
        client: Any = Client(address, timeout=SECONDS_TO_ANSWER, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        raise ClusterError(f"no cluster answers at {address} ({error})") from None
    with client:
        theirs = set(client.run(program).values())
        if not theirs:
            raise ClusterError(f"the cluster has no workers; start one: dask worker {address}")
        if theirs != {program()}:
            raise ClusterError(
                "the cluster's machines have another version of this program, of Python or of a "
                "library; install the same on all of them"
            )
        common = client.scatter(wanted, broadcast=True)
        yield lambda tasks: _sent(client, common, tasks)


def _sent(client: Any, common: Any, tasks: Iterable[Task]) -> Iterator[tuple[int, Result]]:
    from distributed import as_completed

    threads = sum(client.nthreads().values())
    numbers = {}

    def send(task: Task, number: int) -> Any:
        # What cannot be read here is refused there, with its reason.
        with suppress(OSError, UnfitFile):
            task = replace(task, content=read_bytes(task.copy or task.path))
        future = client.submit(_read_there, task, common, pure=False)
        numbers[future.key] = number
        return future

    numbered = enumerate(tasks)
    first = [send(task, n) for n, task in islice(numbered, _WAITING_PER_THREAD * threads)]
    coming: Any = as_completed(first, loop=client.loop)  # type: ignore[no-untyped-call]
    for future in coming:
        number = numbers.pop(future.key)
        if future.status == "finished":
            result = future.result()
        else:
            why = f"the cluster could not read it ({future.exception()}); run again"
            result = Result(refused=why)
        if not isinstance(result, Result):
            raise TemplateError(*result)
        future.release()
        for n, task in islice(numbered, 1):
            coming.add(send(task, n))
        yield number, result


def _read_there(task: Task, wanted: Wanted) -> Result | tuple[str, int | None, str]:
    """Read one book on a machine of the cluster, in a process that can be lost.

    A template's error comes as (template, line, reason), which the way back cannot harm.
    """
    if getattr(_readers, "wanted", None) != wanted:
        _readers.wanted = wanted
        _readers.worker = Worker(partial(work, wanted=wanted))
    reader: Worker[Task, Result] = _readers.worker
    try:
        return reader.do(task)
    except Lost as reason:
        return refused(task, str(reason))
    except TemplateError as error:
        return str(error.template), error.line, error.reason
