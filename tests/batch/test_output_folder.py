"""The shop's own files are never overwritten, and what was written is told apart from books."""

import csv
import io
import json
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from sample import inch_v8, metric_four
from typer.testing import CliRunner

from workbook_tools.batch.build import build_of
from workbook_tools.batch.output import write_outputs
from workbook_tools.batch.output_folder import LIST, OutputError, output_folder
from workbook_tools.books.folder import find_books
from workbook_tools.books.own_output import BUILD_SUMMARY, MONTH, own_output, without_own_output
from workbook_tools.buildbook import new_book
from workbook_tools.cli import app
from workbook_tools.findings import check
from workbook_tools.hosts.portable import portable
from workbook_tools.render.handover import KINDS, build_files, endings
from workbook_tools.render.html import Unreadable
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize

EXAMPLES = Path(__file__).parents[2] / "example_books"


@pytest.fixture(autouse=True)
def _kept_apart(monkeypatch, tmp_path_factory):
    """What a run keeps for the next is kept for this test alone."""
    cache = str(tmp_path_factory.mktemp("cache"))
    monkeypatch.setenv("XDG_CACHE_HOME", cache)
    monkeypatch.setenv("LOCALAPPDATA", cache)


@pytest.fixture
def run():
    runner = CliRunner()
    return lambda *words: runner.invoke(app, [str(word) for word in words])


@pytest.fixture
def shop_folder(tmp_path):
    """A folder of books: a finished one, and one by hand that is named like a summary of it."""
    folder = tmp_path / "c"
    folder.mkdir()
    shutil.copy(EXAMPLES / "inch_v8.xlsx", folder / "1042.xlsx")
    shutil.copy(EXAMPLES / "flat_twin.xlsx", folder / "1042-customer.xlsx")
    return folder


def content(folder):
    files = (p for p in sorted(folder.rglob("*")) if p.is_file())
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in files}


def build(book=None, kinds=("html", "json"), **also):
    book = book or inch_v8()
    return build_of(book, check(book), Shop(), kinds, **also)


def test_no_book_of_the_shops_is_overwritten_by_a_summary(run, shop_folder):
    before = content(shop_folder)
    done = run("summarize", shop_folder, "--out", shop_folder, "--xlsx")
    assert done.exit_code == 2
    assert f"{shop_folder / '1042-customer.xlsx'} is not of this program" in done.output
    assert "--out another folder" in done.output
    assert content(shop_folder) == before


@pytest.mark.parametrize(
    "name",
    [
        "month-2025-04.xlsx",
        *(pytest.param(n, marks=pytest.mark.slow) for n in ("parts.csv", "builds/1042.html")),
    ],
)
def test_no_file_of_the_shops_is_overwritten_by_a_month(run, shop_folder, name):
    (shop_folder / name).parent.mkdir(exist_ok=True)
    shutil.copy(EXAMPLES / "flat_twin.xlsx", shop_folder / name)
    before = content(shop_folder)
    done = run("month", "2025-04", shop_folder, "--out", shop_folder)
    assert done.exit_code == 2
    assert name in done.output
    assert content(shop_folder) == before


def test_a_file_that_was_changed_since_is_not_overwritten(tmp_path):
    write_outputs(tmp_path, [build()])
    write_outputs(tmp_path, [build()])
    (tmp_path / "index.html").write_text("notes of my own")
    before = content(tmp_path)
    with pytest.raises(OutputError, match=r"index\.html was changed since"):
        write_outputs(tmp_path, [build(metric_four())])
    assert content(tmp_path) == before


@pytest.mark.parametrize("text", ["{}", "[]", "my list", '{"files": {"a": 1}}'])
def test_a_file_of_the_lists_name_that_is_no_list_stays(tmp_path, text):
    (tmp_path / LIST).write_text(text)
    with pytest.raises(OutputError, match=LIST):
        write_outputs(tmp_path, [build()])
    assert content(tmp_path) == {LIST: text.encode()}


def test_the_list_holds_every_file_with_its_hash(tmp_path):
    write_outputs(tmp_path, [build()])
    listed = json.loads((tmp_path / LIST).read_text("utf-8"))["files"]
    assert {*listed, LIST} == {*content(tmp_path)}
    assert listed["24-031-small-V8.html"]["book"] == "24-031 small V8.xlsx"


@pytest.mark.parametrize(
    "command", [["summarize"], pytest.param(["month", "2025-04"], marks=pytest.mark.slow)]
)
def test_output_of_the_first_release_is_taken_over_and_that_is_said_once(run, tmp_path, command):
    out = tmp_path / "out"
    kinds = ["--xlsx", "--pdf", "--customer"] if command == ["summarize"] else []
    words = (*command, EXAMPLES / "inch_v8.xlsx", "--out", out, *kinds)
    assert run(*words).exit_code == 0
    made = content(out)
    (out / LIST).unlink()
    first = run(*words)
    assert first.exit_code == 0
    assert "an earlier release wrote" in first.output
    assert content(out) == made
    assert "an earlier release" not in run(*words).output


def test_a_file_without_our_mark_is_not_taken_over_with_the_rest(tmp_path):
    write_outputs(tmp_path, [build()])
    (tmp_path / LIST).unlink()
    (tmp_path / "readings.csv").write_text("job,reading\n1,2\n")
    with pytest.raises(OutputError, match=r"readings\.csv"):
        write_outputs(tmp_path, [build()])


@pytest.mark.skipif("sys.platform == 'win32'")
def test_a_run_that_was_killed_can_be_run_again(tmp_path):
    code = (
        "import os, signal, sys; from pathlib import Path\n"
        "from workbook_tools.batch.output_folder import output_folder\n"
        "with output_folder(Path(sys.argv[1]), ['a.html', 'b.html', 'c.html']) as out:\n"
        "    out.write('a.html', b'new a', 'a.xlsx')\n"
        "    with out.stream('b.html') as write:\n"
        "        write(b'half of b')\n"
        "        os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    with output_folder(tmp_path, ["a.html", "b.html"]) as out:
        out.write("a.html", b"old a", "a.xlsx")
        out.write("b.html", b"old b", "b.xlsx")
    killed = subprocess.run([sys.executable, "-c", code, str(tmp_path)], check=False)
    assert killed.returncode == -signal.SIGKILL
    assert (tmp_path / "a.html").read_bytes() == b"new a"
    with output_folder(tmp_path, ["a.html", "b.html"]) as out:
        out.write("b.html", b"newer b", "b.xlsx")
    assert {*content(tmp_path)} == {"a.html", "b.html", LIST}
    with output_folder(tmp_path, ["a.html", "b.html"]) as out:
        out.write("a.html", b"newer a", "a.xlsx")


@pytest.mark.slow
def test_pages_of_a_book_that_is_unreadable_now_go(run, tmp_path):
    books, out = tmp_path / "in", tmp_path / "out"
    books.mkdir()
    shutil.copy(EXAMPLES / "inch_v8.xlsx", books)
    shutil.copy(EXAMPLES / "flat_twin.xlsx", books)
    for listed in (True, False):
        shutil.copy(EXAMPLES / "inch_v8.xlsx", books)
        run("summarize", books, "--out", out, "--xlsx", "--customer")
        if not listed:
            (out / LIST).unlink()
        (out / "flat_twin.json").with_suffix(".txt").write_text("a note")
        (books / "inch_v8.xlsx").write_bytes(b"PK\3\4 cut off")
        done = run("summarize", books, "--out", out, "--xlsx", "--customer")
        assert "NOT READ" in done.output
        assert not list(out.glob("inch_v8*"))
        assert len(list(out.glob("flat_twin*"))) == 6


def test_a_page_of_an_unreadable_book_that_somebody_changed_stays(tmp_path):
    write_outputs(tmp_path, [build()])
    page = tmp_path / "24-031-small-V8.html"
    page.write_text("with notes")
    write_outputs(tmp_path, [], [Unreadable("24-031 small V8.xlsx", "cut off")])
    assert page.read_text() == "with notes"
    assert not page.with_suffix(".json").exists()


@pytest.mark.slow
def test_pages_of_a_build_in_the_month_go_when_its_book_is_unreadable(run, tmp_path):
    books, out = tmp_path / "in", tmp_path / "out"
    books.mkdir()
    shutil.copy(EXAMPLES / "inch_v8.xlsx", books)
    run("month", "2025-04", books, "--out", out)
    assert (out / "builds" / "inch_v8.html").exists()
    (books / "inch_v8.xlsx").write_bytes(b"PK\3\4 cut off")
    run("month", "2025-04", books, "--out", out)
    assert not (out / "builds" / "inch_v8.html").exists()


@pytest.mark.slow
def test_output_among_the_books_is_passed_over_and_that_is_said(run, tmp_path):
    books = tmp_path / "in"
    books.mkdir()
    shutil.copy(EXAMPLES / "inch_v8.xlsx", books)
    for _ in range(3):
        done = run("summarize", books, "--out", books / "summaries", "--xlsx")
        assert "1 build summarized" in done.output
    told = "2 build summaries that this program wrote"
    assert f"Skipped {books / 'summaries'}: {told}" in done.output
    for _ in range(2):
        done = run("month", "2025-04", books, "--out", books / "month")
        assert "1 build finished" in done.output or "1 job open" in done.output
        assert told in done.output
    assert "a summary of a month that this program wrote" in done.output
    assert told in run("survey", books).output
    shutil.copy(books / "summaries" / "inch_v8-shop.xlsx", tmp_path / "1042.xlsx")
    alone = run("summarize", tmp_path / "1042.xlsx", "--out", tmp_path / "o")
    assert alone.exit_code == 2
    assert "a build summary that this program wrote" in alone.output


def workbook(**properties):
    """A workbook as another program saves it, with these properties."""
    book = openpyxl.Workbook()
    for name, value in properties.items():
        setattr(book.properties, name, value)
    saved = io.BytesIO()
    book.save(saved)
    return saved


def test_output_is_known_after_another_program_saved_it(tmp_path):
    (data,) = (
        c for e, c in build(kinds=("xlsx",)).files.items() if e == "-customer.xlsx"
    )  # fmt: skip
    assert own_output(io.BytesIO(data)) == BUILD_SUMMARY
    saved = io.BytesIO()
    openpyxl.load_workbook(io.BytesIO(data)).save(saved)
    assert own_output(saved) == BUILD_SUMMARY


def test_output_of_the_first_release_is_known_by_its_title_and_time():
    import datetime

    then = datetime.datetime(2000, 1, 1)
    assert own_output(workbook(title="Build summary, job 1042", created=then)) == BUILD_SUMMARY
    assert own_output(workbook(title="Builds of April 2025", created=then)) == MONTH
    assert own_output(workbook(title="Builds of April 2025")) == ""
    assert own_output(workbook(title="Job 1042", created=then)) == ""


def test_books_from_this_program_stay_books(tmp_path):
    new_book(tmp_path / "new.xlsx", 4, "metric")
    portable(EXAMPLES / "inch_v8.xlsx", tmp_path / "portable.xlsx")
    (tmp_path / "damaged.xlsx").write_bytes(b"PK\3\4 cut off")
    found = find_books([tmp_path])
    assert without_own_output(found) == found
    assert len(found.books) == 3


def test_the_names_of_all_kinds_of_files_are_known_before_they_are_made():
    book = inch_v8()
    for kinds in (KINDS, ("html",), ("xlsx", "json")):
        assert tuple(build_files("", summarize(book, check(book)), Shop(), kinds)) == endings(kinds)


@pytest.mark.skipif("sys.platform != 'linux'")
@pytest.mark.slow
def test_a_file_name_of_another_alphabet_stops_neither_a_month_nor_a_summary(run, tmp_path):
    name = os.fsdecode(b"caf\xe9 1042.xlsx")
    shutil.copy(EXAMPLES / "inch_v8.xlsx", tmp_path / name)
    month = run("month", "2025-04", tmp_path / name, "--out", tmp_path / "m")
    assert month.exception is None
    assert "April 2025" in month.output
    with (tmp_path / "m" / "paperwork.csv").open(encoding="utf-8") as file:
        assert [row["file"] for row in csv.DictReader(file)] == ["caf? 1042.xlsx"]
    assert run("summarize", tmp_path / name, "--out", tmp_path / "o").exception is None


@pytest.mark.skipif("sys.platform == 'win32'")
@pytest.mark.slow
def test_a_user_without_a_home_keeps_nothing_and_gets_summaries(tmp_path):
    code = (
        "import pathlib, sys\n"
        "def no_home(*args): raise RuntimeError('Could not determine home directory.')\n"
        "pathlib.Path.home = no_home\n"
        "from workbook_tools.cli import main\n"
        "main()\n"
    )
    hidden = ("HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "LOCALAPPDATA")
    done = subprocess.run(
        [sys.executable, "-c", code, "summarize", str(EXAMPLES / "inch_v8.xlsx"),
         "--out", str(tmp_path / "o")],
        env={name: value for name, value in os.environ.items() if name not in hidden},
        capture_output=True,
        text=True,
        check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "1 build summarized" in done.stdout


@pytest.mark.skipif("not Path('/dev/full').exists()")
def test_a_full_disk_is_told_with_the_path(tmp_path):
    page = tmp_path / "a.html"
    with (
        output_folder(tmp_path, ["a.html"]) as out,
        pytest.raises(OSError, match="space") as full,
        out.stream("a.html"),
    ):
        Path("/dev/full").write_bytes(b"x")
    assert full.value.filename == str(page)
    assert content(tmp_path) == {}


@pytest.mark.slow
def test_a_survey_that_broke_off_does_not_block_the_next(tmp_path, monkeypatch, run):
    from workbook_tools.batch import whole_file

    target = tmp_path / "layout.toml"
    words = ("survey", EXAMPLES / "flat_twin.xlsx", "--out", target)
    with monkeypatch.context() as broken:
        broken.setattr(whole_file.os, "fsync", _no_space)
        assert run(*words).exit_code != 0
    assert not list(tmp_path.iterdir())
    assert run(*words).exit_code == 0
    before = target.read_bytes()
    assert run(*words).exit_code != 0
    assert target.read_bytes() == before


def _no_space(_):
    raise OSError(28, "No space left on device")


def test_every_file_is_on_the_disk_before_it_is_in_place(tmp_path, monkeypatch):
    from workbook_tools.batch import whole_file

    synced, there = [], []
    usual = os.fsync

    def fsync(number):
        synced.append(os.fstat(number).st_ino)
        there.append((tmp_path / "index.html").exists())
        usual(number)

    monkeypatch.setattr(whole_file.os, "fsync", fsync)
    write_outputs(tmp_path, [build()])
    assert not any(there[:-1])
    assert {p.stat().st_ino for p in tmp_path.iterdir()} == set(synced)
