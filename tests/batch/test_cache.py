"""Results that are kept: the user's own, of the very bytes that were read, and never a must."""

import io
import logging
import os
import random
import shutil
import stat

import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.batch import batch
from workbook_tools.batch.batch import read_builds, summarize_books
from workbook_tools.batch.build import Wanted
from workbook_tools.batch.cache import clear, contents, recall
from workbook_tools.cli import app
from workbook_tools.kept_files import usual_folder


def book_for(customer):
    workbook = openpyxl.Workbook()
    for row in (
        ["Customer", customer],
        ["Deck clearance (in)", 0.006],
        ["Gasket (in)", 0.038],
        ["Quench", "=ENG.QUENCH(B2,B3)"],
    ):
        workbook.active.append(row)
    written = io.BytesIO()
    workbook.save(written)
    return written.getvalue()


@pytest.fixture
def book(tmp_path):
    path = tmp_path / "books" / "job.xlsx"
    path.parent.mkdir()
    path.write_bytes(book_for("First"))
    return path


@pytest.fixture
def cache(tmp_path):
    return tmp_path / "home" / "cache"


def pages(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir()}


def test_a_book_saved_between_hash_and_reading_is_kept_as_what_was_read(
    book, cache, tmp_path, monkeypatch
):
    first = book.read_bytes()
    real = batch.key_for_book

    def save_meanwhile(*given):
        book.write_bytes(book_for("Ada Second"))
        return real(*given)

    monkeypatch.setattr(batch, "key_for_book", save_meanwhile)
    summarize_books([book], tmp_path / "meanwhile", cache=cache)
    monkeypatch.undo()
    assert b"Ada Second" in (tmp_path / "meanwhile" / "job.html").read_bytes()
    book.write_bytes(first)
    summarize_books([book], tmp_path / "again", cache=cache)
    summarize_books([book], tmp_path / "afresh")
    assert pages(tmp_path / "again") == pages(tmp_path / "afresh")


@pytest.mark.skipif("os.name == 'nt'", reason="folders there are the user's own by themselves")
def test_what_is_kept_is_for_the_user_alone(book, cache, tmp_path):
    summarize_books([book], tmp_path / "out", cache=cache)
    (kept,) = cache.iterdir()
    assert stat.S_IMODE(cache.stat().st_mode) == 0o700
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    # One of an earlier version, open to all, is mended.
    cache.chmod(0o755)
    kept.chmod(0o644)
    summarize_books([book], tmp_path / "out", cache=cache)
    assert stat.S_IMODE(cache.stat().st_mode) == 0o700
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600


@pytest.mark.skipif("os.name == 'nt'")
@pytest.mark.parametrize("way", ["a file", "of the system", "someone else's"])
@pytest.mark.parametrize("room", [0, 32_000_000])
def test_what_cannot_be_kept_is_not_kept_and_said_once(
    book, cache, tmp_path, monkeypatch, caplog, way, room
):
    monkeypatch.setattr(batch, "_MOST_IN_MEMORY", room)
    shutil.copyfile(book, book.with_name("other.xlsx"))
    cache.parent.mkdir()
    if way == "a file":
        cache.write_text("not a folder")
    elif way == "of the system":
        cache = type(cache)("/proc/workbook-tools")
    elif os.geteuid():
        pytest.skip("only root can give a folder away")
    else:
        cache.mkdir()
        os.chown(cache, 12345, 12345)
    summarize_books([book.parent], tmp_path / "out", cache=cache)
    (said,) = caplog.records
    assert said.levelno == logging.WARNING
    assert "Nothing is kept for the next run" in said.getMessage()
    caplog.clear()
    summarize_books([book.parent], tmp_path / "afresh")
    assert pages(tmp_path / "out") == pages(tmp_path / "afresh")
    if way == "someone else's":
        assert not list(cache.iterdir())


def test_a_folder_that_is_lost_on_the_way_stops_nothing(book, cache, tmp_path, caplog):
    for n in range(3):
        shutil.copyfile(book, book.with_name(f"job{n}.xlsx"))

    def each(paths):
        for n, path in enumerate(paths):
            if n == 1:
                shutil.rmtree(cache)
                cache.write_text("in its place")
            yield path

    done = summarize_books([book.parent], tmp_path / "out", each, cache=cache)
    assert done.read == 4
    assert len(caplog.records) == 1


def test_damage_in_any_byte_is_made_anew(book, cache, tmp_path):
    summarize_books([book], tmp_path / "afresh")
    summarize_books([book], tmp_path / "out", cache=cache)
    (kept,) = cache.iterdir()
    whole = kept.read_bytes()
    good = recall(cache, kept.name, whole=True)
    chance = random.Random(5)
    ends = [*range(len(whole) - 400, len(whole)), *range(60)]
    for at in [*ends, *chance.sample(range(len(whole)), 200)]:
        for flipped in (whole[at] ^ 1 << chance.randrange(8), 0xFF):
            kept.write_bytes(whole[:at] + bytes([flipped]) + whole[at + 1 :])
            for found in (
                recall(cache, kept.name, whole=True),
                recall(cache, kept.name, whole=False),
            ):
                assert found is None or [b.sha256 for b in found] == [b.sha256 for b in good]
    # A page alone is damaged: what the batch looks at first is whole.
    at = whole.index(b"<!doctype html") if b"<!doctype html" in whole else whole.index(b"<html")
    kept.write_bytes(whole[:at] + b"?" + whole[at + 1 :])
    shutil.rmtree(tmp_path / "out")
    summarize_books([book], tmp_path / "out", cache=cache)
    assert pages(tmp_path / "out") == pages(tmp_path / "afresh")


@pytest.mark.parametrize("jobs", [0, 1])
def test_what_is_cleared_before_it_is_written_is_made_anew(book, cache, monkeypatch, jobs):
    monkeypatch.setattr(batch, "_MOST_IN_MEMORY", 0)
    with read_builds([book], Wanted(), jobs=jobs, cache=cache) as done:
        assert clear(cache) == 1
        assert b"First" in done.whole(0).files[".html"]


def test_the_command_shows_and_empties_only_what_is_ours(book, tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "home"))
    folder = usual_folder()
    run = CliRunner().invoke
    assert "0 results, 0.0 MB" in run(app, ["cache"]).stdout
    summarize_books([book], tmp_path / "out", cache=folder)
    (folder / "notes.txt").write_text("the user's own")
    (folder / ("b" * 64)).symlink_to(folder / "notes.txt")
    number, size = contents(folder)
    assert (number, size > 10_000) == (1, True)
    shown = run(app, ["cache"])
    assert (shown.exit_code, f"{folder}: 1 result, " in shown.stdout) == (0, True)
    assert "1 result deleted" in run(app, ["cache", "--clear"]).stdout
    assert {p.name for p in folder.iterdir()} == {"notes.txt", "b" * 64}
    assert contents(folder) == (0, 0)


@pytest.mark.skipif("os.name == 'nt' or os.geteuid()", reason="takes another user's part")
def test_without_a_home_nothing_is_kept(monkeypatch):
    monkeypatch.delenv("HOME", raising=False)
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    monkeypatch.setattr(os, "getuid", lambda: 3_999_999)
    assert usual_folder() is None
    assert CliRunner().invoke(app, ["cache"]).stdout.startswith("Nothing is kept")
