"""Books saved as .ods by a real LibreOffice are read like their .xlsx siblings."""

from pathlib import Path

import pytest

from workbook_tools.books.reading import read_book
from workbook_tools.findings import check

pytestmark = pytest.mark.libreoffice

FOLDER = Path(__file__).parents[2] / "example_books"


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


@pytest.mark.parametrize("name", ["inch_v8", "flat_twin", "metric_inline_four"])
def test_a_book_saved_as_ods_reads_as_it_does_from_xlsx(name, recalculated):
    path = FOLDER / f"{name}.xlsx"
    before, after = read_book(path), read_book(recalculated(path, "ods"))
    assert after.job == before.job
    assert [_told(r) for r in after.records] == [_told(r) for r in before.records]
    assert check(after) == check(before)


def test_error_values_are_read_as_errors(recalculated):
    book = read_book(recalculated(FOLDER / "troubled_six.xlsx", "ods"))
    missing = {f.place.address for f in check(book) if f.kind == "missing reading"}
    assert missing == {"D9", "F19"}
    assert not [r for r in book.records if r.state == "stale"]
