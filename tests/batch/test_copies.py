"""Copies of one job in a folder: noticed, asked about, counted once, and never lost."""

from __future__ import annotations

import csv
import io
import json
import re
import zipfile

import openpyxl
import pytest

from workbook_tools.batch.batch import summarize_books
from workbook_tools.month.month import summarize_month

BORES = (4.0301, 4.0303, 4.0302, 4.0305)


def write(path, saved, number="1042", customer="Ada Quill", bores=BORES, finished=None):
    """A book that says when it was saved."""
    workbook = openpyxl.Workbook()
    for row in (
        ["Job", number, "Customer", customer],
        ["Started", "2026-10-01", "Finished", finished],
        ["Cylinder", 1, 2, 3, 4],
        ["Bore (in)", *bores],
        ["Piston (in)", *(round(b - 0.004, 4) for b in BORES)],
    ):
        workbook.active.append(row)
    workbook.save(path)
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    core = parts["docProps/core.xml"].decode()
    # openpyxl writes the time of the day; a spreadsheet program the builder's.
    core = re.sub(r"(<dcterms:modified[^>]*>)[^<]*", rf"\g<1>{saved}T10:00:00Z", core)
    parts["docProps/core.xml"] = core.encode()
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)


def summaries(folder, out):
    summarize_books([folder], out)
    builds = {}
    for path in out.glob("*.json"):
        data = json.loads(path.read_text("utf-8"))
        if "book" in data:
            builds[data["book"]["file"]] = data
    return builds


def told(build):
    return [f["message"] for f in build["findings"] if f["code"] == "copies-of-a-job"]


@pytest.fixture
def books(tmp_path):
    folder = tmp_path / "books"
    folder.mkdir()
    return folder


def test_copies_of_a_job_are_both_written_and_each_says_which_one_counts(books, tmp_path):
    write(books / "1042.xlsx", "2026-10-05")
    write(books / "1042 final.xlsx", "2026-10-20", bores=(*BORES[:3], 4.0306))
    write(books / "1043.xlsx", "2026-10-21", number="1043", customer="Ivo Sand")
    builds = summaries(books, tmp_path / "out")
    assert len(builds) == 3
    (first,), (second,) = told(builds["1042.xlsx"]), told(builds["1042 final.xlsx"])
    assert "1042 final.xlsx counts in a month, since it was saved last" in first
    assert "this one counts in a month" in second
    assert "saved 2026-10-05" in first
    assert not told(builds["1043.xlsx"])
    index = (tmp_path / "out" / "index.html").read_text("utf-8")
    assert index.count("a copy of the job; 1042 final.xlsx counts") == 1


def test_a_later_copy_that_was_hardly_filled_in_does_not_count(books, tmp_path):
    write(books / "1042.xlsx", "2026-10-05")
    write(books / "1042 (2).xlsx", "2026-10-20", bores=(*BORES[:1], None, None, None))
    builds = summaries(books, tmp_path / "out")
    (message,) = told(builds["1042 (2).xlsx"])
    assert "1042.xlsx counts in a month, since it is the more complete" in message


@pytest.mark.parametrize(
    "other",
    [
        {"customer": "Ivo Sand"},
        {"number": "1043"},
        {"bores": (4.1, 4.1002, 4.1004, 4.1001), "number": "1044"},
    ],
)
def test_another_job_is_no_copy(books, tmp_path, other):
    write(books / "a.xlsx", "2026-10-05")
    write(books / "b.xlsx", "2026-10-06", **other)
    assert not any(map(told, summaries(books, tmp_path / "out").values()))


def test_a_month_counts_copies_once_and_says_so(books, tmp_path):
    write(books / "1042.xlsx", "2026-10-05")
    write(books / "1042 final.xlsx", "2026-10-20", finished="2026-10-19")
    summarize_month("2026-10", [books], tmp_path / "out")

    def rows(name):
        text = (tmp_path / "out" / name).read_text("utf-8")
        return list(csv.DictReader(io.StringIO(text)))

    assert [row["file"] for row in rows("builds.csv")] == ["1042 final.xlsx"]
    assert rows("open.csv") == []
    (copy,) = [row for row in rows("unsettled.csv") if row["what"] == "copy"]
    assert (copy["file"], "1042 final.xlsx, which counts" in copy["why"]) == ("1042.xlsx", True)
    assert not [row for row in rows("unsettled.csv") if row["what"] == "job number"]
    assert "1 that are copies of a job" in (tmp_path / "out" / "index.html").read_text("utf-8")


def test_the_same_file_twice_is_one_job_though_it_gives_no_number(books, tmp_path):
    write(books / "a.xlsx", "2026-10-05", number=None, finished="2026-10-19")
    (books / "b.xlsx").write_bytes((books / "a.xlsx").read_bytes())
    done = summarize_month("2026-10", [books], tmp_path / "out")
    assert (len(done.month.builds), done.month.copies) == (1, 1)
