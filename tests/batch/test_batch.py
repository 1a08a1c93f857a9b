"""Batches: the same files however the work is done, and one bad book costs one book."""

import hashlib
import os
import signal
import subprocess
import sys
import threading
import time
from functools import partial
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.batch import batch, build, last_books
from workbook_tools.batch.batch import summarize_books
from workbook_tools.batch.build import Task, Wanted, work
from workbook_tools.batch.cache import keep
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.workers import Worker
from workbook_tools.findings import check, check_batch
from workbook_tools.jobs.read import read_jobs
from workbook_tools.kept_files import usual_folder
from workbook_tools.labels.layout import Form, Layout
from workbook_tools.render.data import findings_csv
from workbook_tools.render.templates import TemplateError
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize


def write_book(path, job, decks, customer="A. Customer"):
    """A book with a row of deck readings and their quench."""
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    for row in (
        ["Job no.", job],
        ["Customer", customer],
        ["Cylinder", *range(1, len(decks) + 1)],
        ["Deck clearance (in)", *decks],
        ["Gasket (in)", *[0.038] * len(decks)],
    ):
        sheet.append(row)
    for n in range(len(decks)):
        letter = chr(ord("B") + n)
        sheet[f"{letter}6"] = f"=ENG.QUENCH({letter}4,{letter}5)"
    sheet["A6"] = "Quench"
    path.parent.mkdir(parents=True, exist_ok=True)
    workbook.save(path)


DECKS = [[0.0051 + 0.0003 * ((job * n) % 7) for n in range(1, 9)] for job in range(1, 7)]


@pytest.fixture
def books(tmp_path):
    """Six books, the last two with the readings of the first, one file that is no book."""
    folder = tmp_path / "books"
    for n, decks in enumerate([*DECKS[:4], DECKS[0], DECKS[0]]):
        write_book(folder / f"job{n}.xlsx", f"26-{n:03}", decks)
    (folder / "broken.xlsx").write_bytes(b"PK\x03\x04 no book")
    return folder


def content(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir()}


def test_the_files_are_the_same_however_the_work_is_done(books, tmp_path):
    before = {p: (p.read_bytes(), p.stat().st_mtime_ns) for p in books.iterdir()}
    cache = tmp_path / "cache"
    ways = {
        "here": {},
        "processes": {"jobs": 2},
        "kept": {"jobs": 2, "cache": cache},
        "recalled": {"jobs": 2, "cache": cache},
        "recalled here": {"cache": cache},
    }
    outcomes = {}
    for way, how in ways.items():
        outcomes[way] = summarize_books([books], tmp_path / way, **how)
        assert content(tmp_path / way) == content(tmp_path / "here"), way
        assert outcomes[way].findings == outcomes["here"].findings
        assert outcomes[way].unread == outcomes["here"].unread
    assert len(outcomes["here"].unread) == 1
    assert outcomes["here"].read == 6
    assert {p: (p.read_bytes(), p.stat().st_mtime_ns) for p in books.iterdir()} == before


@pytest.mark.parametrize("room", [0, 60_000])
def test_results_that_memory_has_no_room_for_are_laid_aside(books, tmp_path, monkeypatch, room):
    summarize_books([books], tmp_path / "roomy")
    monkeypatch.setattr(batch, "_MOST_IN_MEMORY", room)
    kept = []
    monkeypatch.setattr(batch, "keep", lambda *a: kept.append(a) or keep(*a))
    summarize_books([books], tmp_path / "narrow")
    assert content(tmp_path / "narrow") == content(tmp_path / "roomy")
    # Three of the six books are read twice, since they have one another's readings.
    assert len(kept) == 9 if room == 0 else 0 < len(kept) < 9


def test_copied_readings_are_told_on_the_pages_of_all_that_have_them(books, tmp_path):
    summarize_books([books], tmp_path / "out", jobs=2)
    for copier in ("job0", "job4", "job5"):
        assert "the same numbers" in (tmp_path / "out" / f"{copier}.html").read_text("utf-8")
    for other in ("job1", "job2", "job3"):
        assert "the same numbers" not in (tmp_path / "out" / f"{other}.html").read_text("utf-8")
    # The same findings as of books that are all held in memory.
    held = [book for n in range(6) for book in read_jobs(books / f"job{n}.xlsx")]
    together = check_batch(held)
    assert set(together) == {0, 4, 5}
    found = [summarize(b, check(b) + together.get(n, ())) for n, b in enumerate(held)]
    assert (tmp_path / "out" / "findings.csv").read_text("utf-8") == findings_csv(found)


def test_a_book_that_others_tell_about_is_read_once(books, tmp_path, monkeypatch):
    read = []

    def read_noted(path, *args):
        read.append(path.name)
        return read_jobs(path, *args)

    monkeypatch.setattr(build, "read_jobs", read_noted)
    summarize_books([books], tmp_path / "once")
    assert sorted(read) == ["broken.xlsx", *(f"job{n}.xlsx" for n in range(6))]
    # The same where there is no room for any: the three with the same readings are read again.
    monkeypatch.setattr(last_books, "_MOST_KEPT", 0)
    summarize_books([books], tmp_path / "again")
    assert content(tmp_path / "again") == content(tmp_path / "once")
    assert sorted(read[7:]) == sorted([*read[:7], "job0.xlsx", "job4.xlsx", "job5.xlsx"])


def test_of_the_last_books_the_oldest_are_forgotten_and_one_that_was_saved_is_not_known(
    books, monkeypatch
):
    first, second, third = (
        ((book, ()),) for n in range(3) for book in read_jobs(books / f"job{n}.xlsx")
    )
    sizes = [len(book.readings) + len(book.records) for ((book, _),) in (first, second, third)]
    monkeypatch.setattr(last_books, "_MOST_KEPT", sizes[1] + sizes[2])
    last = last_books.LastBooks()
    for path, checked in (("first", first), ("second", second), ("third", third)):
        last.keep(Path(path), checked)
    assert last.find(Path("first"), first[0][0].sha256) is None
    assert last.find(Path("second"), second[0][0].sha256) == second
    assert last.find(Path("second"), third[0][0].sha256) is None


def test_a_second_run_reads_only_what_changed(books, tmp_path):
    cache = tmp_path / "cache"
    summarize_books([books], tmp_path / "out", cache=cache)
    first = {p.name for p in cache.iterdir()}
    summarize_books([books], tmp_path / "out", cache=cache)
    assert {p.name for p in cache.iterdir()} == first
    write_book(books / "job3.xlsx", "26-003", DECKS[5])
    summarize_books([books], tmp_path / "out", cache=cache)
    assert len({p.name for p in cache.iterdir()} - first) == 1
    assert f"{DECKS[5][0]:.4f}" in (tmp_path / "out" / "job3.html").read_text("utf-8")


@pytest.mark.parametrize(
    "changed",
    [
        {"shop": Shop(name="Another shop")},
        {"layout": Layout((Form(files=("*",), units="metric"),))},
        {"kinds": ("html", "json", "xlsx")},
    ],
    ids=["shop", "layout", "kinds"],
)
def test_what_was_kept_for_other_settings_is_not_used(books, tmp_path, changed):
    cache = tmp_path / "cache"
    summarize_books([books], tmp_path / "plain", cache=cache)
    summarize_books([books], tmp_path / "changed", cache=cache, **changed)
    summarize_books([books], tmp_path / "anew", **changed)
    assert content(tmp_path / "changed") == content(tmp_path / "anew")


def test_bands_of_the_shop_are_part_of_what_is_kept(books, tmp_path, monkeypatch):
    cache = tmp_path / "cache"
    summarize_books([books], tmp_path / "out", cache=cache)
    first = len(list(cache.iterdir()))
    bands = tmp_path / "bands.toml"
    bands.write_text("")
    monkeypatch.setenv("WORKBOOK_TOOLS_BANDS", str(bands))
    summarize_books([books], tmp_path / "out", cache=cache)
    bands.write_text("# another\n")
    summarize_books([books], tmp_path / "out", cache=cache)
    assert len(list(cache.iterdir())) >= 2 * first


@pytest.mark.parametrize("damage", [b"", b"PK", b"not an archive at all"])
def test_a_damaged_result_is_made_anew(books, tmp_path, damage):
    cache = tmp_path / "cache"
    summarize_books([books], tmp_path / "first", cache=cache)
    for kept in cache.iterdir():
        kept.write_bytes(damage)
    summarize_books([books], tmp_path / "second", cache=cache)
    assert content(tmp_path / "second") == content(tmp_path / "first")


RUN = (
    "import sys; from pathlib import Path\n"
    "from workbook_tools.batch.batch import summarize_books\n"
    "a, b, c = map(Path, sys.argv[1:]); summarize_books([a], b, cache=c, jobs=2)\n"
)


@pytest.mark.skipif("sys.platform == 'win32'")
@pytest.mark.parametrize(
    "at",
    [
        pytest.param("the first kept", marks=pytest.mark.slow),
        "half kept",
        pytest.param("the first page", marks=pytest.mark.slow),
    ],
)
def test_a_run_that_is_killed_can_be_run_again(tmp_path, at):
    books, out, cache = tmp_path / "books", tmp_path / "out", tmp_path / "cache"
    for n in range(24):
        write_book(books / f"job{n:02}.xlsx", f"26-{n:03}", DECKS[n % 6])
    killed = subprocess.Popen([sys.executable, "-c", RUN, books, out, cache])
    watched, enough = {
        "the first kept": (cache, 1), "half kept": (cache, 12), "the first page": (out, 2),
    }[at]  # fmt: skip
    while killed.poll() is None:
        if watched.is_dir() and sum(1 for _ in watched.iterdir()) >= enough:
            killed.kill()
            break
        time.sleep(0.002)
    killed.wait()
    summarize_books([books], out, cache=cache)
    summarize_books([books], tmp_path / "clean")
    assert content(out) == content(tmp_path / "clean")


@pytest.mark.parametrize(
    ("how", "words"),
    [("SIGTERM", "code 15")]
    if os.name == "nt"
    else [
        ("SIGKILL", "want of memory"),
        pytest.param("SIGSEGV", "Segmentation", marks=pytest.mark.slow),
    ],
)
def test_a_process_that_is_lost_costs_the_book_it_was_at(tmp_path, how, words):
    slow, good = tmp_path / "slow.xlsx", tmp_path / "good.xlsx"
    write_book(good, "26-001", DECKS[0])
    workbook = openpyxl.Workbook()
    for _ in range(20_000):
        workbook.active.append(["Quench", "=ENG.QUENCH(0.01,0.03)"])
    workbook.save(slow)
    worker = Worker(partial(work, wanted=Wanted()))
    try:
        assert worker.do(Task(good, "")).builds
        threading.Timer(0.5, os.kill, (worker.process.pid, getattr(signal, how))).start()
        with pytest.raises(Lost, match=words):
            worker.do(Task(slow, ""))
        assert worker.do(Task(good, "")).builds
    finally:
        worker.stop()


@pytest.mark.slow
def test_a_book_that_is_never_done_is_left_out_and_listed(tmp_path, monkeypatch):
    from workbook_tools.batch import workers

    books = tmp_path / "books"
    write_book(books / "good.xlsx", "26-001", DECKS[0])
    workbook = openpyxl.Workbook()
    for _ in range(60_000):
        workbook.active.append(["=ENG.QUENCH(0.01,0.03)"])
    workbook.save(books / "endless.xlsx")
    monkeypatch.setattr(workers.Worker.__init__, "__defaults__", (3.0, 4_000_000_000))
    outcome = summarize_books([books], tmp_path / "out", jobs=2)
    assert outcome.read == 1
    assert "longer than 3 seconds" in outcome.unread[0][1]
    assert "endless.xlsx" in (tmp_path / "out" / "index.html").read_text("utf-8")


def test_a_template_that_does_not_work_stops_the_batch_with_its_line(books, tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "summary.html.jinja").write_text("\n{{ nonsense( }}")
    with pytest.raises(TemplateError, match="line 2"):
        summarize_books(
            [books], tmp_path / "out", shop=Shop(templates=tmp_path / "mine"), jobs=2
        )  # fmt: skip


def test_progress_is_told_once_a_book(books, tmp_path):
    told = []

    def each(paths):
        for path in paths:
            yield path
            told.append(path)

    for how in ({"jobs": 2, "cache": tmp_path / "cache"}, {"cache": tmp_path / "cache"}):
        told.clear()
        summarize_books([books], tmp_path / "out", each, **how)
        assert sorted(told) == sorted(books.iterdir())


def test_a_folder_of_modules_does_not_change_what_a_worker_runs(books, tmp_path, monkeypatch):
    (books / "json.py").write_text("raise SystemExit('run from a folder of books')")
    monkeypatch.chdir(books)
    assert summarize_books([books], tmp_path / "out", jobs=1).read == 6


def test_a_recalculated_copy_is_read_in_place_of_its_book(books, tmp_path):
    copy = tmp_path / "copies" / "job0.xlsx"
    write_book(copy, "26-000", DECKS[4], customer="From the copy")
    own = books / "job0.xlsx"
    summarize_books([own], tmp_path / "out", stand_ins={own: copy}, jobs=1)
    page = (tmp_path / "out" / "job0.html").read_text("utf-8")
    assert "From the copy" in page
    assert hashlib.sha256(own.read_bytes()).hexdigest() in page


@pytest.mark.skipif("sys.platform != 'linux'")
def test_results_are_kept_where_the_system_keeps_such_things(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert usual_folder() == tmp_path / "workbook-tools"


@pytest.mark.filterwarnings("ignore")
@pytest.mark.slow
def test_a_cluster_gives_the_same_files(books, tmp_path):
    import distributed

    summarize_books([books], tmp_path / "here")
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as cluster:
        outcome = summarize_books(
            [books], tmp_path / "there", cluster=cluster.scheduler_address
        )  # fmt: skip
    assert content(tmp_path / "there") == content(tmp_path / "here")
    assert len(outcome.unread) == 1


def test_a_cluster_that_does_not_answer_is_named(books, tmp_path, monkeypatch):
    from workbook_tools.batch import cluster

    monkeypatch.setattr(cluster, "SECONDS_TO_ANSWER", 0.5)
    with pytest.raises(cluster.ClusterError, match=r"no cluster answers at tcp://127\.0\.0\.1:9"):
        summarize_books([books], tmp_path / "out", cluster="tcp://127.0.0.1:9")


def test_an_unreadable_file_is_told_as_reading_it_tells(tmp_path):
    gone = tmp_path / "books" / "gone.xlsx"
    write_book(gone, "1", DECKS[0])
    write_book(tmp_path / "books" / "there.xlsx", "2", DECKS[1])

    def each(paths):
        gone.unlink(missing_ok=True)
        return iter(paths)

    outcome = summarize_books([tmp_path / "books"], tmp_path / "out", each)
    assert outcome.read == 1
    assert "cannot be opened" in outcome.unread[0][1]
