"""The strangers' books, annotated: what they calculated they calculate still, and are read as well.

Proof that a copy changes nothing: the same values, before and after, by LibreOffice with the
add-in and by IronCalc with nothing but the book.
"""

import ironcalc
import openpyxl
import pytest
from strangers.books import write_all

from workbook_tools.annotate import annotate
from workbook_tools.annotate.annotated import TITLE
from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.portable import portable
from workbook_tools.jobs.read import read_jobs

pytestmark = pytest.mark.slow
# A book of the old kind cannot be changed.
ENDINGS = (".xlsx", ".ods")


@pytest.fixture(scope="module")
def books(profile, tmp_path_factory):
    """[(book, annotated with calls in place of arithmetic, what became of it)]."""
    folder = tmp_path_factory.mktemp("strangers")
    write_all(folder / "made", profile)
    found = []
    for book in sorted((folder / "made" / "books").iterdir()):
        if book.suffix in ENDINGS:
            out = folder / book.name
            found.append((book, out, annotate(book, out, replace=True)))
    return found


def test_most_get_results_and_some_calls_in_place_of_arithmetic(books):
    assert len(books) == 29
    assert sum(bool(report.lines) for *_, report in books) >= 20
    assert sum(len(report.replaced) for *_, report in books) >= 40
    assert {report.jobs for *_, report in books} == {1, 2, 5}


def values(path):
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in openpyxl.load_workbook(path, data_only=True)
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


def same(value):
    return pytest.approx(value, rel=1e-9, abs=1e-12) if isinstance(value, float) else value


def test_libreoffice_calculates_the_same_before_and_after(books, profile, tmp_path):
    before, after = (
        libreoffice.recalculate(paths, tmp_path / name, profile, seconds=300)
        for name, paths in (
            ("before", [book for book, *_ in books]),
            ("after", [out for _, out, _ in books]),
        )
    )
    for (book, _, report), old_path, new_path in zip(books, before, after, strict=True):
        old, new = values(old_path), values(new_path)
        for cell, value in old.items():
            assert new.pop(cell) == same(value), f"{book.name} {cell}"
        assert {sheet for sheet, _ in new} <= {TITLE}, book.name
        # Each line of the sheet calculates, to what it was written with.
        calculated = [value for (_, at), value in new.items() if at[0] == "C" and int(at[1:]) > 5]
        assert calculated == [same(line.value) for line in report.lines], book.name


def test_ironcalc_calculates_the_same_before_and_after(books, tmp_path):
    compared = 0
    for book, _, report in books:
        if book.suffix != ".xlsx" or not report.lines:
            continue
        before, after = tmp_path / f"before {book.name}", tmp_path / book.name
        portable(book, before)  # Some call our functions already.
        annotate(book, after, replace=True, carry=True)
        models = [ironcalc.load_from_xlsx(str(path), "en", "UTC", "en") for path in (before, after)]
        for model in models:
            model.evaluate()
        for number, sheet in enumerate(openpyxl.load_workbook(book)):
            for row in sheet.iter_rows():
                for cell in row:
                    at = number, cell.row, cell.column
                    old, new = (model.get_cell_value(*at) for model in models)
                    assert new == same(old), f"{book.name} {sheet.title}!{cell.coordinate}"
                    compared += isinstance(old, float)
    assert compared > 1000


def test_it_is_read_as_well_as_before(books):
    for book, out, _ in books:
        for old, new in zip(read_jobs(book), read_jobs(out), strict=True):
            assert {r.place for r in old.readings} <= {r.place for r in new.readings}, book.name
            assert len(new.no_readings) <= len(old.no_readings), book.name
            assert len(new.questions) <= len(old.questions), book.name
            calls = [record for record in new.records if record.place.sheet == TITLE]
            assert {record.state for record in calls} <= {"same"}, book.name
