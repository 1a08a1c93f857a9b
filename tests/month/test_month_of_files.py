"""A month read from books: the same however the work is done, whatever a book or process does."""

import csv
import hashlib
import io
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from month_files import SHOP, content
from openpyxl import Workbook

from workbook_tools.batch import whole_file
from workbook_tools.batch.batch import NoBooks, summarize_books
from workbook_tools.batch.workers import Worker
from workbook_tools.month.month import summarize_month
from workbook_tools.month.period import MonthError


def test_books_are_read_and_one_bad_book_never_stops_the_others(tmp_path):
    books = tmp_path / "books"
    books.mkdir()
    book = Workbook()
    for row in (["Job", "24-040"], ["Started", "2024-04-02"], ["Finished", "2024-04-20"]):
        book.active.append(row)
    book.save(books / "good.xlsx")
    (books / "bad.xlsx").write_bytes(b"no book")
    before = (books / "good.xlsx").read_bytes()
    outcome = summarize_month("2024-04", [books], tmp_path / "out", SHOP)
    assert list(outcome.month.builds["job"]) == ["24-040"]
    assert [file for file, _ in outcome.unread] == ["bad.xlsx"]
    assert "1 builds finished" not in outcome.sentence
    assert outcome.sentence.startswith("April 2024: 1 build finished, ")
    assert outcome.page.is_file()
    assert (books / "good.xlsx").read_bytes() == before


def test_no_books_and_no_month_are_told(tmp_path):
    with pytest.raises(NoBooks, match="No books in"):
        summarize_month("2024-04", [tmp_path], tmp_path / "out")
    with pytest.raises(NoBooks, match="There is no file or folder"):
        summarize_month("2024-04", [tmp_path / "none"], tmp_path / "out")
    with pytest.raises(MonthError):
        summarize_month("April", [tmp_path], tmp_path / "out")


DECKS = [[0.0051 + 0.0003 * ((job * n) % 7) for n in range(1, 9)] for job in range(1, 7)]


def write_book(path, job, decks, started="2026-09-20", finished="", customer="A. Customer"):
    """A book with dates, a row of deck readings with their quench, a part and a signature."""
    workbook = Workbook()
    sheet = workbook.active
    for row in (
        ["Job no.", job],
        ["Customer", customer],
        ["Engine", "inch V8, iron"],
        ["Started", started],
        ["Finished", finished],
        [],
        ["Cylinder", *range(1, len(decks) + 1)],
        ["Deck clearance (in)", *decks],
        ["Gasket (in)", *[0.038] * len(decks)],
        ["Quench", *(f"=ENG.QUENCH({c}8,{c}9)" for c in "BCDEFGHI"[: len(decks)])],
    ):
        sheet.append(row)
    workbook.create_sheet("Parts").append(["To order", "timing chain"])
    workbook.create_sheet("Release").append(["Checked by", None])
    path.parent.mkdir(parents=True, exist_ok=True)
    workbook.save(path)


@pytest.fixture
def books(tmp_path):
    """Builds of October 2026, two with the same readings, books beside them, one that is none."""
    folder = tmp_path / "books"
    for n, days in enumerate(
        [
            {"finished": "2026-10-05"},
            {"finished": "2026-10-30"},
            {},
            {"finished": "2026-09-28"},
            {"started": "2026-11-03"},
            {"finished": "10/11/2026"},
        ]
    ):
        write_book(folder / f"job{n}.xlsx", f"26-{n:03}", DECKS[n], **days)
    write_book(folder / "other" / "job0.xlsx", "26-006", DECKS[0], finished="2026-10-06")
    (folder / "broken.xlsx").write_bytes(b"PK\x03\x04 no book")
    return folder


def october(books, out, **how):
    summarize_month("2026-10", [books], out, SHOP, **how)
    return content(out)


def rows(files, name):
    return list(csv.DictReader(io.StringIO(files[name].decode())))


@pytest.mark.slow
def test_the_month_is_the_same_however_the_work_is_done(books, tmp_path):
    cache = tmp_path / "cache"
    here = october(books, tmp_path / "here")
    # Two books have one name; their contents, times of saving among them, tell which is first.
    assert {row["job"] for row in rows(here, "builds.csv")} == {"26-000", "26-006", "26-001"}
    assert [row["job"] for row in rows(here, "open.csv")] == ["26-002"]
    assert len(rows(here, "parts.csv")) == len(rows(here, "signatures.csv")) == 4
    copied = {row["job"] for row in rows(here, "findings.csv") if row["kind"] == "copied reading"}
    assert copied == {"26-000", "26-006"}
    # What a batch has kept of the same books is not enough for a month.
    summarize_books([books], tmp_path / "batch", shop=SHOP, kinds=("html",), cache=cache)
    ways = {
        "processes": {"jobs": 2},
        "kept": {"jobs": 2, "cache": cache},
        "recalled": {"jobs": 2, "cache": cache},
        "recalled here": {"cache": cache},
    }
    for way, how in ways.items():
        assert october(books, tmp_path / way, **how) == here, way


def test_a_month_is_told_from_what_was_kept_for_another(books, tmp_path):
    cache = tmp_path / "cache"
    october(books, tmp_path / "october", cache=cache)
    kept = {path.name for path in cache.iterdir()}
    summarize_month("2026-09", [books], tmp_path / "september", SHOP, cache=cache)
    assert {path.name for path in cache.iterdir()} == kept
    summarize_month("2026-09", [books], tmp_path / "anew", SHOP)
    assert content(tmp_path / "september") == content(tmp_path / "anew")


@pytest.mark.filterwarnings("ignore")
@pytest.mark.slow
def test_a_cluster_gives_the_same_month(books, tmp_path):
    import distributed

    here = october(books, tmp_path / "here")
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as cluster:
        assert october(books, tmp_path / "there", cluster=cluster.scheduler_address) == here


@pytest.mark.skipif("sys.platform == 'win32'")
@pytest.mark.slow
def test_a_book_whose_process_is_lost_costs_only_itself(tmp_path, monkeypatch):
    books = tmp_path / "books"
    for name in ("first-1", "last-1"):
        write_book(books / f"{name}.xlsx", name, DECKS[0], finished="2026-10-05")
    workbook = Workbook()
    for _ in range(20_000):
        workbook.active.append(["Quench", "=ENG.QUENCH(0.01,0.03)"])
    workbook.save(books / "is slow.xlsx")
    started, start = [], Worker._start

    def noted(worker):
        started.append(start(worker))
        return started[-1]

    def each(paths):
        assert [path.name for path in paths] == ["first-1.xlsx", "is slow.xlsx", "last-1.xlsx"]
        yield paths[0]
        # The first is read, so the process is at the second.
        threading.Timer(0.5, os.kill, (started[0].pid, signal.SIGSEGV)).start()
        yield from paths[1:]

    monkeypatch.setattr(Worker, "_start", noted)
    files = october(books, tmp_path / "out", each=each, jobs=1)
    assert len(started) == 2
    assert [row["job"] for row in rows(files, "builds.csv")] == ["first-1", "last-1"]
    (lost,) = [row for row in rows(files, "unsettled.csv") if row["what"] == "file not read"]
    assert lost["file"] == "is slow.xlsx"
    assert "broke down (Segmentation fault)" in lost["why"]


RUN = (
    "import sys; from pathlib import Path; from test_month import october\n"
    "a, b, c = map(Path, sys.argv[1:]); october(a, b, cache=c, jobs=2)\n"
)


@pytest.mark.skipif("sys.platform == 'win32'")
@pytest.mark.slow
@pytest.mark.parametrize("at", ["half kept", "the first page", "the first table"])
def test_a_month_that_is_killed_can_be_made_again(tmp_path, at):
    books, out, cache = tmp_path / "books", tmp_path / "out", tmp_path / "cache"
    for n in range(24):
        write_book(books / f"job{n:02}.xlsx", f"26-{n:03}", DECKS[n % 6], finished="2026-10-05")
    here = Path(__file__).parent
    env = os.environ | {"PYTHONPATH": f"{here}:{here.parent}"}
    killed = subprocess.Popen([sys.executable, "-c", RUN, books, out, cache], env=env)
    watched, enough = {
        "half kept": (cache, 12), "the first page": (out / "builds", 1), "the first table": (out, 2)
    }[at]  # fmt: skip
    while killed.poll() is None:
        if watched.is_dir() and sum(1 for _ in watched.iterdir()) >= enough:
            killed.kill()
            break
        time.sleep(0.001)
    killed.wait()
    assert october(books, out, cache=cache) == october(books, tmp_path / "clean")


def test_pieces_of_a_killed_run_are_swept_away(books, tmp_path):
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    (tmp_path / "out" / "builds").mkdir(parents=True)
    for piece in (".index.html", "builds/.job0.html"):
        (tmp_path / "out" / f"{piece}.{whole_file.here()}.{ended.pid}.part").write_bytes(
            b"half a fi"
        )
    assert october(books, tmp_path / "out") == october(books, tmp_path / "clean")


def test_a_recalculated_copy_is_read_in_place_of_its_book(books, tmp_path):
    copy, own = tmp_path / "copies" / "job0.xlsx", books / "job0.xlsx"
    write_book(copy, "26-000", DECKS[0], finished="2026-10-05", customer="From the copy")
    files = october(own, tmp_path / "out", stand_ins={own: copy}, jobs=1)
    (row,) = rows(files, "builds.csv")
    assert (row["customer"], row["file"]) == ("From the copy", "job0.xlsx")
    assert hashlib.sha256(own.read_bytes()).hexdigest() in files["builds/job0.html"].decode()


def test_readings_of_a_month_do_not_stay_in_memory(tmp_path):
    from workbook_tools.batch.row_file import RowFile

    rows = RowFile(("job", "value"))
    rows.add([("1", 0.5), ("2", None)])
    rows.add([])
    rows.add([("3", 7)])
    assert len(rows) == 3
    # Two at once, as a table beside a chart.
    assert list(zip(rows, rows, strict=True)) == [
        (r, r) for r in (("1", 0.5), ("2", None), ("3", 7))
    ]
    assert not any(isinstance(held, (list, dict)) for held in vars(rows).values())
