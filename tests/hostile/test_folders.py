"""Folders and files that are not what they seem: told of, and the books beside them read."""

import os
import shutil
import socket
import subprocess
import sys
import tempfile
from contextlib import contextmanager
from pathlib import Path

import pytest
from craft import good_book

from workbook_tools.batch.batch import summarize_books
from workbook_tools.batch.survey_text import survey
from workbook_tools.books.cells import BookError
from workbook_tools.books.folder import find_books
from workbook_tools.books.opening import read_cells
from workbook_tools.labels.layout import layouts_of
from workbook_tools.settings.shop import find_shop

pytestmark = pytest.mark.skipif("sys.platform == 'win32'", reason="needs links and rights of POSIX")
NOBODY = 65534


@contextmanager
def nobody():
    """Rights count for nothing with root, which tests in a container often are."""
    before = os.geteuid()
    if before == 0:
        os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(before)


@pytest.fixture
def folder():
    """A folder that everybody may write to, all the way up."""
    made = Path(tempfile.mkdtemp())
    made.chmod(0o777)
    # The program may lie where only root may look: all of it is loaded beforehand.
    books_in(made / "before", "good.xlsx")
    (made / "before" / "bad.xlsx").touch()
    summarize_books([made / "before"], made / "before")
    yield made
    for path in sorted(made.rglob("*")):
        if path.is_dir() and not path.is_symlink():
            path.chmod(0o777)
    shutil.rmtree(made)


def books_in(folder, *names):
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(good_book())
    return folder


def summarized(named, out):
    outcome = summarize_books(named, out)
    return outcome.read, {path.name: why for path, why in outcome.unread}


def test_a_subfolder_that_cannot_be_listed_is_told_of(folder):
    books_in(folder / "in", "a.xlsx", "closed/b.xlsx")
    (folder / "in" / "closed").chmod(0)
    with nobody():
        read, unread = summarized([folder / "in"], folder / "out")
        assert read == 1
        assert list(unread) == ["closed"]
        assert "the folder cannot be searched: Permission denied" in unread["closed"]
        # Alone, it is no empty folder either.
        read, unread = summarized([folder / "in" / "closed"], folder / "out2")
        assert (read, list(unread)) == (0, ["closed"])


def test_a_survey_tells_of_it_too(folder):
    books_in(folder, "in/a.xlsx", "in/closed/b.xlsx")
    (folder / "in" / "closed").chmod(0)
    survey([folder / "in" / "a.xlsx"])  # Loads what it needs.
    with nobody():
        found = survey([folder / "in"])
    problems = {book.path.name: book.problem for book in found.books}
    assert problems["a.xlsx"] == ""
    assert "the folder cannot be searched" in problems["closed"]


def test_a_folder_in_which_nothing_can_be_opened_costs_its_own_books(folder):
    """Without the right to enter it, its names can be listed and nothing else."""
    books_in(folder / "in", "a.xlsx", "shut/b.xlsx", "shut/below/c.xlsx")
    (folder / "in" / "shut").chmod(0o444)
    with nobody():
        for named, readable in (([folder / "in"], 1), ([folder / "in" / "shut"], 0)):
            assert find_shop(named) is None
            read, unread = summarized(named, folder / f"out{readable}")
            assert read == readable
            assert set(unread) == {"b.xlsx", "below"}
            assert all("Permission denied" in why for why in unread.values())


def test_a_book_named_in_a_folder_that_may_not_be_entered_is_told_of(folder):
    books_in(folder, "a.xlsx", "shut/b.xlsx")
    (folder / "shut").chmod(0)
    with nobody():
        named = [folder / "a.xlsx", folder / "shut" / "b.xlsx"]
        assert find_shop(named) is None
        read, unread = summarized(named, folder / "out")
    assert (read, list(unread)) == (1, ["b.xlsx"])


def test_linked_folders_are_searched_once_and_never_in_circles(tmp_path):
    books_in(tmp_path, "in/a.xlsx", "in/deep/b.xlsx", "elsewhere/c.xlsx", "elsewhere/d/e.xlsx")
    for link, target in (
        ("in/away", "elsewhere"),
        ("in/again", "elsewhere"),
        ("in/0 inner", "in/deep"),
        ("in/deep/top", "in"),
        ("in/deep/above", "."),
        ("elsewhere/d/round", "elsewhere"),
        ("elsewhere/d/home", "in"),
    ):
        (tmp_path / link).symlink_to(tmp_path / target)
    (tmp_path / "in" / "same.xlsx").symlink_to(tmp_path / "in" / "a.xlsx")
    found = find_books([tmp_path / "in"])
    names = [str(path.relative_to(tmp_path)) for path in found.books]
    # By the name that it has where it is, and of two links by the first.
    assert names == ["in/a.xlsx", "in/again/c.xlsx", "in/again/d/e.xlsx", "in/deep/b.xlsx"]
    assert {path.name for path, why in found.left_aside if "link back" in why} == {
        "top", "above", "home",
    }  # fmt: skip
    assert found.unread == ()
    assert find_books([tmp_path / "in"]) == found
    assert layouts_of(found.books, [tmp_path / "in"]) == {}


def test_links_that_lead_nowhere_are_told_of(tmp_path):
    books_in(tmp_path, "a.xlsx")
    (tmp_path / "2025").symlink_to(tmp_path / "a disk that is away")
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    (tmp_path / "b.xlsx").symlink_to(tmp_path / "gone.xlsx")
    (tmp_path / "c.xlsx").symlink_to(tmp_path / "c.xlsx")
    read, unread = summarized([tmp_path], tmp_path / "out")
    assert read == 1
    assert set(unread) == {"2025", "loop", "b.xlsx", "c.xlsx"}
    assert "the link cannot be followed: No such file" in unread["2025"]


def test_hidden_folders_stay_out_linked_or_not(tmp_path):
    books_in(tmp_path, "in/a.xlsx", "in/.old/b.xlsx", "c/d.xlsx")
    (tmp_path / "in" / ".linked").symlink_to(tmp_path / "c")
    assert [path.name for path in find_books([tmp_path / "in"]).books] == ["a.xlsx"]


def test_what_is_no_file_is_refused_and_never_waited_for(tmp_path):
    books_in(tmp_path, "good.xlsx")
    os.mkfifo(tmp_path / "pipe.xlsx")
    # A short path, as a socket's must be.
    with socket.socket(socket.AF_UNIX) as bound:
        here = Path.cwd()
        os.chdir(tmp_path)
        try:
            bound.bind("socket.xlsx")
        finally:
            os.chdir(here)
        (tmp_path / "device.xlsx").symlink_to("/dev/zero")
        named = [tmp_path, Path("/dev/null")]
        read, unread = summarized(named, tmp_path / "out")
    assert read == 1
    assert set(unread) == {"pipe.xlsx", "socket.xlsx", "device.xlsx", "null"}
    for why in unread.values():
        assert "a pipe, a socket or a device, not a file; give a book that is saved" in why
    for name in ("pipe.xlsx", "device.xlsx"):
        with pytest.raises(BookError, match="not a file"):
            read_cells(tmp_path / name)
    with pytest.raises(BookError, match="this is a folder, not a file"):
        read_cells(tmp_path)


def test_standard_input_is_refused_where_it_is_a_pipe(tmp_path):
    command = [sys.executable, "-m", "workbook_tools", "summarize", "/dev/stdin", "--afresh"]
    done = subprocess.run(
        [*command, "--out", tmp_path / "out"], input=good_book(), capture_output=True, timeout=60
    )
    assert done.returncode != 0
    assert b"NOT READ /dev/stdin: this is a pipe" in done.stderr


def test_a_file_of_gigabytes_is_refused_by_its_size_alone(tmp_path, monkeypatch):
    books_in(tmp_path, "good.xlsx")
    large = tmp_path / "large.xlsx"
    large.touch()
    os.truncate(large, 3 * 1024**3)

    opened = Path.open

    def never_the_large_one(self, *args, **kwargs):
        assert self != large
        return opened(self, *args, **kwargs)

    monkeypatch.setattr(Path, "open", never_the_large_one)
    monkeypatch.setattr("io.open", open)
    read, unread = summarized([tmp_path], tmp_path / "out")
    assert read == 1
    assert unread["large.xlsx"].startswith(
        "the file has 3,221 MB, more than the 200 MB of the largest that is read; copy its used"
    )


def test_a_file_that_holds_more_than_it_says_is_not_read_to_its_end():
    endless = Path("/proc/self/maps")
    if not endless.exists():
        pytest.skip("needs a file that does not tell its size")
    with pytest.raises(BookError, match="holds more than it says"):
        read_cells(endless)
