"""Processes that work within limits: they end with their parent, and cost one task at most."""

import json
import os
import subprocess
import sys
import time
from functools import partial
from pathlib import Path

import pytest

from workbook_tools.batch.workers import Lost, Worker, staff, within_limits
from workbook_tools.render.html import fill
from workbook_tools.render.templates import TemplateError

PARENT = """
import re, subprocess, sys, threading
from functools import partial
from workbook_tools.batch.workers import Worker
worker = Worker({function})
threading.Thread(target=worker.do, args=({task},), daemon=True).start()
while worker.process is None: pass
print(worker.process.pid, flush=True)
threading.Event().wait()
"""


def running(group):
    """The processes of a group that have not ended."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, pgrp = stat.read_text().rpartition(")")[2].split()[:3]
        except (OSError, ValueError):
            continue
        if int(pgrp) == group and state not in "ZX":
            found.append(int(stat.parent.name))
    return found


@pytest.mark.skipif("sys.platform != 'linux'", reason="looks into /proc")
@pytest.mark.parametrize(
    ("function", "task"),
    [
        # Runs for years in C and lets no other thread of its process run.
        ('partial(re.fullmatch, "(a*)*b")', '"a" * 60'),
        # Waits for a process of its own.
        ("subprocess.call", '["sleep", "600"]'),
    ],
    ids=["busy in C", "with a child"],
)
def test_a_process_ends_with_its_parent_and_takes_its_children_along(function, task):
    with subprocess.Popen(
        [sys.executable, "-c", PARENT.format(function=function, task=task)],
        stdout=subprocess.PIPE,
        text=True,
    ) as parent:
        group = int(parent.stdout.readline())
        # Until it is at the task: its own imports are done, and its child is there.
        time.sleep(2)
        assert running(group)
        parent.kill()
    for _ in range(100):
        if not (left := running(group)):
            break
        time.sleep(0.1)
    for process in left:
        os.kill(process, 9)
    assert not left


@pytest.mark.parametrize(
    ("function", "task", "words"),
    [
        (json.loads, "[" * 100_000, "RecursionError.*report it"),
        (sys.exit, 3, "SystemExit"),
        (os._exit, 3, "broke down .code 3"),
        (int, "no number\nat all", "ValueError: .*no number"),
    ],
    ids=["recursion", "exit", "gone", "value"],
)
def test_whatever_a_task_brings_out_is_a_line_and_the_next_is_answered(function, task, words):
    worker = Worker(function)
    try:
        with pytest.raises(Lost, match=words) as lost:
            worker.do(task)
        assert "\n" not in str(lost.value)
        if function is int:
            assert worker.do("7") == 7
        if function is json.loads:
            assert worker.do("[7]") == [7]
    finally:
        worker.stop()


@pytest.mark.skipif("sys.platform != 'linux'", reason="the limit is one of Linux")
def test_a_task_that_wants_too_much_memory_is_told_so():
    with pytest.raises(Lost, match="more memory"):
        within_limits(bytearray, 10**11)


def test_errors_of_this_program_come_through_as_they_are(tmp_path):
    (tmp_path / "summary.html.jinja").write_text("\n\n{{ nonsense( }}")
    with pytest.raises(TemplateError) as error:
        within_limits(partial(fill, override=tmp_path), "summary.html.jinja")
    assert error.value.template == tmp_path / "summary.html.jinja"
    assert error.value.line == 3


def test_lost_tasks_are_answered_for_and_the_others_go_on():
    with staff(2, os.path.getsize, lambda task, why: f"{task}: {why}") as run:
        answers = dict(run(["/nowhere", __file__, "/nowhere else"]))
    assert answers[1] == os.path.getsize(__file__)
    assert answers[0].startswith("/nowhere: it could not be read (FileNotFoundError")
    assert answers[2].startswith("/nowhere else: it could not be read (FileNotFoundError")
