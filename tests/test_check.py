"""Findings in the terminal: lines, data, what is told and what is left out."""

import csv
import io
import json
import os
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.cli import app

ROWS = [
    ["Deck clearance (in)", 0.01],
    ["Gasket, compressed (in)", None],
    ["Quench (in)", "=ENG.QUENCH(B1,B2)"],
    ["Other quench (in)", "=ENG.QUENCH(0.01,0.03)"],
]
SAVED = {"B3": "#VALUE!", "B4": 0.041}


@pytest.fixture(autouse=True)
def _kept_apart(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    for variable in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.setenv(variable, str(tmp_path / "cache"))


@pytest.fixture
def run():
    return lambda *words: CliRunner().invoke(app, ["check", "--processes", "1", *words])


@pytest.fixture
def books(make_book, tmp_path):
    """Two books of one name in two folders, one with findings and one without."""
    folder = Path("books")
    for name in ("a", "b"):
        (folder / name).mkdir(parents=True)
    make_book({"Top end": ROWS}, {"Top end": SAVED}).rename(folder / "a" / "job.xlsx")
    make_book({"Top end": ROWS[3:]}, {"Top end": {"B1": 0.04}}).rename(folder / "b" / "job.xlsx")
    return folder


def test_a_finding_is_a_line_with_its_place_code_numbers_and_what_to_do(run, books):
    done = run(str(books))
    missing, stale, last = done.stdout.splitlines()
    at = os.path.join("books", "a", "job.xlsx") + ":'Top end'!"
    assert missing.startswith(f"{at}B2: missing-reading (missing reading): Gasket")
    assert missing.endswith("B3 has no result without it. Measure it and enter it.")
    assert stale.startswith(f"{at}B4: stale-result (stale result): ")
    assert "saved as 0.041; recomputed from the same cells it is 0.04." in stale
    assert last.startswith("2 builds with 3 results and ")
    assert last.endswith(": 2 findings (1 missing reading, 1 stale result).")
    assert (done.exit_code, done.stderr) == (1, "")


def test_nothing_is_written_but_the_cache_and_the_next_run_says_the_same_from_it(run, books):
    before = {path: path.read_bytes() for path in Path(".").rglob("*") if path.is_file()}
    first = run(str(books))
    kept = {path for path in Path("cache").rglob("*") if path.is_file()}
    assert len(kept) == 2
    times = {path: path.stat().st_ino for path in kept}
    again = run(str(books))
    assert (again.stdout, again.exit_code) == (first.stdout, first.exit_code)
    assert {
        path: path.stat().st_ino for path in Path("cache").rglob("*") if path.is_file()
    } == times
    after = {path: path.read_bytes() for path in Path(".").rglob("*") if path.is_file()}
    assert {path: data for path, data in after.items() if path not in kept} == before


def test_json_and_csv_hold_the_same_and_the_talk_is_beside_them(run, books):
    as_json = run(str(books), "--format", "json")
    data = json.loads(as_json.stdout)
    assert [(f["code"], f["sheet"], f["cell"]) for f in data["findings"]] == [
        ("missing-reading", "Top end", "B2"),
        ("stale-result", "Top end", "B4"),
    ]
    assert (data["builds"], data["results"], data["not_read"]) == (2, 3, [])
    # In CSV the message says it, as in findings.csv.
    assert [finding.pop("accepted") for finding in data["findings"]] == [False, False]
    as_csv = run(str(books), "--format", "csv")
    rows = list(csv.DictReader(io.StringIO(as_csv.stdout)))
    assert [{**row, "cells": row["cells"].split("; ")} for row in rows] == data["findings"]
    assert as_json.stderr == as_csv.stderr
    assert as_csv.stderr.endswith("2 findings (1 missing reading, 1 stale result).\n")


def test_a_book_that_cannot_be_opened_is_in_the_data_and_the_others_are_checked(run, books):
    (books / "a" / "bad.xlsx").write_bytes(b"PK\x03\x04 cut off")
    done = run(str(books), "--format", "json")
    data = json.loads(done.stdout)
    assert [Path(one["file"]).name for one in data["not_read"]] == ["bad.xlsx"]
    assert (len(data["findings"]), done.exit_code) == (2, 3)
    assert "; 1 not read." in done.stderr


@pytest.mark.parametrize(
    ("words", "told", "code"),
    [
        (["--select", "stale-result"], ["stale-result"], 1),
        (["--ignore", "stale-result"], ["missing-reading"], 1),
        (["--select", "stale-result, out-of-band"], ["stale-result"], 1),
        (["--select", "stale-result", "--ignore", "stale-result"], [], 0),
        (["--ignore", "stale-result,missing-reading"], [], 0),
    ],
)
def test_codes_are_selected_and_ignored_and_what_is_left_out_is_told(run, books, words, told, code):
    done = run(str(books), *words, "--format", "json")
    data = json.loads(done.stdout)
    assert [f["code"] for f in data["findings"]] == told
    assert (data["left_out"], done.exit_code) == (2 - len(told), code)
    assert f"{2 - len(told)} left out as asked" in done.stderr


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such terminal")
def test_lines_fit_a_terminal(books):
    import fcntl
    import pty
    import struct
    import termios

    near, far = pty.openpty()
    fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 60, 0, 0))
    command = [sys.executable, "-m", "workbook_tools", "check", "books/a/job.xlsx"]
    environment = {k: v for k, v in os.environ.items() if k not in ("COLUMNS", "LINES")}
    done = subprocess.run(command, stdout=far, stderr=subprocess.PIPE, env=environment)
    os.close(far)
    shown = b""
    try:
        while piece := os.read(near, 65536):
            shown += piece
    except OSError:
        pass  # The end of a terminal that nobody writes to any more.
    os.close(near)
    lines = shown.decode().splitlines()
    assert done.returncode == 1
    assert max(map(len, lines[:-1])) <= 60
    assert lines[0].startswith("books/a/job.xlsx:'Top end'!B2:")
    assert lines[1].startswith("    ")


def test_a_marked_copy_has_each_finding_as_a_note_on_its_cell(run, books):
    book = books / "a" / "job.xlsx"
    done = run(str(book), "--marked", "marked.xlsx")
    assert done.exit_code == 1
    assert "2 cells marked" in done.stderr
    notes = {c.coordinate: c.comment.text for c in _cells("marked.xlsx") if c.comment}
    lines = [line.partition(": ")[2] for line in done.stdout.splitlines()[:2]]
    assert notes.keys() == {"B2", "B4"}
    assert notes["B2"].startswith("missing reading (missing-reading): ")
    for line, text in zip(lines, notes.values(), strict=True):
        assert text.partition(": ")[2].partition(" See ")[0] == line.partition("): ")[2]


def test_only_one_book_can_be_marked_and_nothing_is_overwritten(run, books):
    assert run(str(books), "--marked", "marked.xlsx").exit_code == 2
    book = books / "a" / "job.xlsx"
    taken = run(str(book), "--marked", str(books / "b" / "job.xlsx"))
    assert taken.exit_code == 2
    assert "exists already" in taken.stderr


def _cells(path):
    return [cell for row in openpyxl.load_workbook(path).active.iter_rows() for cell in row]
