"""The next job from a finished book: parts and bands come along, nothing stale does."""

from __future__ import annotations

import datetime
import hashlib
import re

import openpyxl
import pytest

from workbook_tools.buildbook import BuildBookError, fields, new_book, new_like, plan_for

# Few rows: what comes along goes cell by cell.
PLAN = plan_for(2, "metric", "inline", valves=4)
KEPT, EMPTIED = ("spec", "band", "origin"), ("reading", "text", "date", "sign", "choice")


@pytest.fixture(scope="module")
def old(tmp_path_factory, fill_build_books):
    path = tmp_path_factory.mktemp("old") / "old.xlsx"
    new_book(path, 2, "metric", valves=4)
    fill_build_books.fill(path, PLAN, fill_build_books.FOUR)
    return path


def fingerprint(path):
    return hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns


@pytest.fixture(scope="module")
def as_written(old):
    """The old book before anything was made like it."""
    return fingerprint(old)


@pytest.fixture(scope="module")
def report(old, as_written, tmp_path_factory):
    """What was told of the next book after the old one as it is."""
    return new_like(old, tmp_path_factory.mktemp("new") / "new.xlsx")


@pytest.fixture(scope="module")
def after(report):
    """The next book."""
    return openpyxl.load_workbook(report.path)


CHANGED = {
    "Bores / Taper, most": "1.1 thou", "Bores / Taper, band from": "the machinist",
    "Decks / Out of flat, most": None,
}  # fmt: skip


def block_cell(book, name):
    """A cell of the sheet Block, by its name."""
    return book["Block"][next(f.address for f in fields(PLAN) if f.name == name)]


def first_band(book):
    """The first cell of a book for a band."""
    found = next(f for f in fields(PLAN) if f.role == "band")
    return book[found.sheet][found.address]


@pytest.fixture(scope="module")
def altered(old, tmp_path_factory):
    """(what was told, the next book) after one that its builder has changed here and there."""
    folder = tmp_path_factory.mktemp("altered")
    book = openpyxl.load_workbook(old)
    for name, value in CHANGED.items():
        block_cell(book, name).value = value
    first_band(book).value = "='[other.xlsx]Sheet'!A1"
    own = book.create_sheet("Porting")
    own["A1"], own["B1"], own["C1"] = "Port volume, cc", 172.5, "=B1*2"
    own["A2"], own["B2"] = "Flowed on", datetime.date(2025, 5, 2)
    own.column_dimensions["A"].width = 31
    book["Crank"].insert_rows(8)
    book.save(folder / "altered.xlsx")
    told = new_like(folder / "altered.xlsx", folder / "new.xlsx")
    return told, openpyxl.load_workbook(told.path)


def test_parts_and_bands_stay_and_all_else_is_emptied(old, report, after):
    before = openpyxl.load_workbook(old)
    kept = 0
    for item in fields(PLAN):
        was, now = before[item.sheet][item.address].value, after[item.sheet][item.address].value
        if item.role in KEPT:
            assert (now or None) == (was or None), (item.sheet, item.name)
            # What the book starts with itself needs no taking over.
            kept += was not in (None, "") and not str(was).startswith("=")
        else:
            assert item.role in EMPTIED
            assert now is None, (item.sheet, item.name, now)
    assert report.kept == kept > 100
    assert report.left_out == ()
    assert report.plan == PLAN


@pytest.mark.slow
def test_a_book_that_libreoffice_saved_is_like_the_one_it_opened(old, report, tmp_path, profile):
    from workbook_tools.hosts import libreoffice

    [saved] = libreoffice.recalculate([old], tmp_path / "saved", profile)
    reports = [report, new_like(saved, tmp_path / "new.xlsx")]
    first, second = (openpyxl.load_workbook(each.path) for each in reports)
    assert [r.left_out for r in reports] == [(), ()]
    for item in fields(PLAN):
        values = [b[item.sheet][item.address].value for b in (first, second)]
        assert values[0] == values[1], (item.sheet, item.name)


def test_bands_that_the_builder_changed_or_emptied_stay_so(altered):
    _, new = altered
    for name, value in CHANGED.items():
        assert block_cell(new, name).value == value


def test_no_date_and_no_name_of_the_old_job_is_anywhere_in_the_new_book(after):
    stale = ("QER-0447", "Thessaly", "Tarrow", "casting 22-4417")
    for sheet in after:
        for row in sheet.iter_rows():
            for cell in row:
                assert not any(word in str(cell.value) for word in stale)
                assert not isinstance(cell.value, (datetime.date, datetime.datetime))


def test_the_old_book_stays_as_it_is(old, as_written, report):
    assert report.path != old
    assert fingerprint(old) == as_written


def test_a_sheet_whose_rows_were_moved_is_left_out_and_said(altered):
    [said] = altered[0].left_out
    assert re.match(r'Crank: A\d+ says ".*" where ".*" is expected', said)


def test_sheets_gauges_and_counting_of_ones_own_come_along(altered):
    told, new = altered
    assert told.own == (
        "Porting: your own sheet came along; 2 typed numbers and dates were emptied",
    )
    brought = new["Porting"]
    assert [brought[a].value for a in ("A1", "B1", "C1", "B2")] == [
        "Port volume, cc", None, "=B1*2", None,
    ]  # fmt: skip
    assert brought.column_dimensions["A"].width == 31
    job = {f.name: new["Job"][f.address].value for f in fields(PLAN) if f.sheet == "Job"}
    assert job["Firing order"] == "1-3-4-2"
    assert job["Cylinder 1 is, and counting goes"].startswith("at the timing end")
    assert job["Gauges / No. 1 / Gauge"] == "bore gauge"
    assert job["Gauges / No. 1 / Checked on"] is None


def test_a_formula_typed_where_a_band_was_does_not_travel(altered):
    assert "other.xlsx" not in str(first_band(altered[1]).value)


def test_a_book_that_is_none_of_ours_is_refused(tmp_path):
    openpyxl.Workbook().save(tmp_path / "other.xlsx")
    with pytest.raises(BuildBookError, match="expected a book made by `workbook-tools new`"):
        new_like(tmp_path / "other.xlsx", tmp_path / "new.xlsx")
    (tmp_path / "broken.xlsx").write_bytes(b"no zip")
    with pytest.raises(BuildBookError, match="cannot be read"):
        new_like(tmp_path / "broken.xlsx", tmp_path / "new.xlsx")
    with pytest.raises(BuildBookError, match="no such file"):
        new_like(tmp_path / "none.xlsx", tmp_path / "new.xlsx")
    assert not (tmp_path / "new.xlsx").exists()


def test_nothing_is_overwritten(old):
    with pytest.raises(BuildBookError, match="exists already"):
        new_like(old, old)
