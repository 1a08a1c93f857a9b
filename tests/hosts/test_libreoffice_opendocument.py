"""Books saved as .ods by a real LibreOffice are read like their .xlsx siblings."""

from pathlib import Path

import pytest

from workbook_tools.findings import check
from workbook_tools.hosts import libreoffice
from workbook_tools.jobs.read import read_book

FOLDER = Path(__file__).parents[2] / "example_books"
NAMES = ["inch_v8", "flat_twin", "metric_inline_four"]


def _told(record):
    return (
        str(record.place),
        str(record.label),
        record.name,
        record.state,
        record.unit,
        pytest.approx(record.value) if isinstance(record.value, float) else record.value,
        [(a.name, str(a.place), str(a.label)) for a in record.arguments],
    )


@pytest.fixture(scope="module")
def as_ods(profile, tmp_path_factory):
    """{name: the example book saved as .ods}, from one start of LibreOffice."""
    paths = [FOLDER / f"{name}.xlsx" for name in (*NAMES, "troubled_six")]
    saved = libreoffice.recalculate(paths, tmp_path_factory.mktemp("ods"), profile, to="ods")
    return {path.stem: path for path in saved}


@pytest.mark.parametrize("name", NAMES)
def test_a_book_saved_as_ods_reads_as_it_does_from_xlsx(name, as_ods):
    before, after = read_book(FOLDER / f"{name}.xlsx"), read_book(as_ods[name])
    assert after.job == before.job
    assert [_told(r) for r in after.records] == [_told(r) for r in before.records]
    assert check(after) == check(before)


def test_error_values_are_read_as_errors(as_ods):
    book = read_book(as_ods["troubled_six"])
    missing = {f.place.address for f in check(book) if f.kind == "missing reading"}
    assert missing == {"D9", "F19"}
    assert not [r for r in book.records if r.state == "stale"]
