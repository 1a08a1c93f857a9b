"""Every command that reads a book refuses a hostile one in a line, and holds to its limits."""

import os
import zipfile
from pathlib import Path

import pytest
from craft import good_book, with_cell
from typer.testing import CliRunner

from workbook_tools.batch.workers import Worker
from workbook_tools.book_files import MOST_BYTES
from workbook_tools.cli import app


@pytest.fixture
def run(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    runner = CliRunner()
    return lambda *words: runner.invoke(app, [str(word) for word in words])


def commands(book, folder):
    return {
        "summarize": ["summarize", book, "--out", folder / "out"],
        "survey": ["survey", book],
        "portable": ["portable", book, "--out", folder / "portable.xlsx"],
        "translate": ["translate", book, "--to", "vba", "--out", folder / "vba.xlsx"],
        "new": ["new", folder / "new.xlsx", "--like", book],
    }


NAMES = list(commands(Path(), Path()))


@pytest.mark.parametrize("name", NAMES)
def test_a_file_too_large_to_be_a_book_is_not_opened(run, tmp_path, name):
    book = tmp_path / "sparse.xlsx"
    with book.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    done = run(*commands(book, tmp_path)[name])
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code
    assert "more than the 200 MB of the largest that is read" in done.output
    assert list(tmp_path.glob("*.xlsx")) == [book]


@pytest.mark.skipif("os.name == 'nt'", reason="has no such pipes")
@pytest.mark.parametrize("name", NAMES)
def test_a_pipe_that_nobody_writes_to_is_not_waited_for(run, tmp_path, name):
    book = tmp_path / "pipe.xlsx"
    os.mkfifo(book)
    done = run(*commands(book, tmp_path)[name])
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code
    assert "this is a pipe" in done.output


@pytest.mark.parametrize("name", NAMES)
def test_an_archive_that_unpacks_into_all_of_the_memory_is_refused(run, tmp_path, name):
    book = tmp_path / "bomb.xlsx"
    book.write_bytes(good_book())
    with zipfile.ZipFile(book, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/media/image1.png", bytes(60_000_000))
    done = run(*commands(book, tmp_path)[name])
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code
    assert "would unpack to 60 MB" in done.output


@pytest.mark.parametrize("name", [n for n in NAMES if n != "summarize"])
def test_a_book_that_takes_too_long_is_left_and_nothing_stays_behind(
    run, tmp_path, monkeypatch, name
):
    monkeypatch.setattr(Worker.__init__, "__defaults__", (0.0001, 4_000_000_000))
    book = tmp_path / "book.xlsx"
    book.write_bytes(good_book())
    done = run(*commands(book, tmp_path)[name])
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code
    assert "longer than 0.0001 seconds" in done.output
    assert [p for p in tmp_path.iterdir() if p.is_file()] == [book]


def test_a_survey_goes_on_after_a_book_that_nobody_can_follow(run, tmp_path):
    nested = "ENG.MEAN_READING(" * 300 + "1" + ")" * 300
    cell = f'<c r="A9"><f>{nested}</f></c>'
    (tmp_path / "deep.xlsx").write_bytes(with_cell(good_book(), cell.encode()))
    (tmp_path / "good.xlsx").write_bytes(good_book())
    (tmp_path / "none.xlsx").write_bytes(b"nothing")
    done = run("survey", tmp_path)
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code == 3
    assert f"NOT READ {tmp_path / 'none.xlsx'}: this is not a workbook" in done.stdout
    assert f"{tmp_path / 'good.xlsx'}\n  4 calls of worksheet functions" in done.stdout
    assert "3 books, " in done.stdout
    assert "not read; see above" in done.stderr
