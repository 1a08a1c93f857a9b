"""Coverage of the product's own processes, which it kills where they could end by themselves."""

from __future__ import annotations

import contextlib
import os
import subprocess

import pytest

from workbook_tools.batch.workers import Worker
from workbook_tools.books import engine

SECONDS = 5


def _ending(stop):
    """A `stop` before which the end of its input lets a process end and tell what it ran."""

    def let_end_and_stop(worker):
        if worker.process is not None:
            with contextlib.suppress(OSError, subprocess.TimeoutExpired):
                worker.process.stdin.close()
                worker.process.wait(SECONDS)
        stop(worker)

    return let_end_and_stop


@pytest.fixture(scope="session", autouse=True)
def _processes_tell_what_they_ran():
    """Only where coverage is measured: without it, they are killed as with any user."""
    if "COVERAGE_PROCESS_CONFIG" not in os.environ:
        yield
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Worker, "stop", _ending(Worker.stop))
        patch.setattr(engine._Worker, "stop", _ending(engine._Worker.stop))
        yield
        # Before the measurements are put together, not when this process ends.
        engine._stop_all()
