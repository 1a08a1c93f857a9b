"""Processes that work within limits: they end with their parent, and cost one task at most."""

import json
import os
import signal
import subprocess
import sys
import tempfile
import time
from functools import partial
from pathlib import Path

import pytest

from workbook_tools.api import evaluate
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.workers import Worker, staff, within_limits
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
        ready = parent_of(group)
        parent.kill()
    for _ in range(100):
        if not (left := running(group) + running(ready)):
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
        # The system's own, which what measures coverage leaves as it is.
        (sys.modules[os.name]._exit, 3, "broke down .code 3"),
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


def parent_of(process):
    return int(Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[1])


@pytest.fixture
def doing():
    """Start a worker for a function; all are stopped at the end."""
    workers = []

    def started(function):
        workers.append(Worker(function))
        return workers[-1]

    yield started
    for worker in workers:
        worker.stop()


def test_a_process_works_with_what_holds_when_it_is_started(doing, monkeypatch, tmp_path):
    """However long ago the process that it is forked from was started."""
    doing(str).do(1)
    monkeypatch.setenv("OF_A_SHOP", "here")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    assert doing(os.getenv).do("OF_A_SHOP") == "here"
    assert doing(os.path.abspath).do("a") == str(tmp_path / "a")
    assert doing(partial(getattr, Path)).do("cwd")() == tmp_path
    if os.name != "nt":
        assert Path(doing(tempfile.mkdtemp).do("made")).parent == tmp_path
    monkeypatch.delenv("OF_A_SHOP")
    assert doing(os.getenv).do("OF_A_SHOP") is None


@pytest.mark.skipif("os.name == 'nt'", reason="has no such rights")
def test_new_files_get_the_rights_that_they_get_here(doing, tmp_path):
    doing(str).do(1)
    before = os.umask(0o077)
    try:
        doing(Path.touch).do(tmp_path / "own")
    finally:
        os.umask(before)
    doing(Path.touch).do(tmp_path / "usual")
    assert (tmp_path / "own").stat().st_mode & 0o777 == 0o600
    assert (tmp_path / "usual").stat().st_mode & 0o777 == 0o666 & ~before


def test_a_process_has_the_words_of_the_shops_own_bands(doing, monkeypatch, tmp_path):
    call = 'ENG.RING_GAP_FACTOR("plowing match", "top")'
    with pytest.raises(Exception, match="plowing match"):
        doing(evaluate).do(call)
    own = tmp_path / "bands.toml"
    own.write_text('[[use]]\nname = "plowing match"\nmeaning = "a contest"\nlike = "street"\n')
    monkeypatch.setenv("WORKBOOK_TOOLS_BANDS", str(own))
    street = evaluate('ENG.RING_GAP_FACTOR("street", "top")').value
    assert doing(evaluate).do(call).value == street


@pytest.mark.skipif("sys.platform != 'linux'", reason="looks into /proc")
def test_processes_are_forked_from_one_that_another_takes_the_place_of(doing):
    first, second = doing(str), doing(str)
    assert (first.do(1), second.do(2)) == ("1", "2")
    ready = parent_of(first.process.pid)
    assert ready != os.getpid()
    assert parent_of(second.process.pid) == ready
    os.kill(ready, signal.SIGKILL)
    # What is at work goes on, and can be ended; of what ends by itself nobody knows how.
    assert first.do(3) == "3"
    first.stop()
    os.kill(second.process.pid, signal.SIGSEGV)
    with pytest.raises(Lost, match="was ended"):
        second.do(4)
    assert first.do(5) == "5"
    assert parent_of(first.process.pid) not in (ready, os.getpid())


PROGRAM = """
import os, signal, sys
from pathlib import Path
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.own_process import own_process
from workbook_tools.batch.workers import Worker, staff
print("said once", end=" ")
signal.signal(signal.SIGTERM, lambda *_: sys.exit(7))
own_process()
with staff(2, Path.read_text, lambda task, why: why) as run:
    answers = dict(run([Path("/proc/self/stat")] * 4))
ready = {told.rpartition(")")[2].split()[1] for told in answers.values()}
assert len(ready) == 1, answers
print(Path(f"/proc/{ready.pop()}/cmdline").read_bytes() == Path("/proc/self/cmdline").read_bytes())
worker = Worker(signal.raise_signal)
try:
    worker.do(signal.SIGTERM)
except Lost as why:
    print(why)
worker.stop()
"""


@pytest.mark.skipif("sys.platform != 'linux'", reason="looks into /proc")
def test_a_program_that_is_ours_alone_is_forked_itself():
    ran = subprocess.run(
        [sys.executable, "-W", "error", "-c", PROGRAM], capture_output=True, text=True, timeout=60
    )
    assert ran.stderr == ""
    assert ran.stdout.startswith("said once True\nthe process that read it broke down (Terminated)")
    assert ran.stdout.count("said once") == 1
    assert ran.returncode == 0
