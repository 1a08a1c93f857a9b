"""What is found in books made on the spot."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def findings(make_book):
    """What is found in sheets of rows, without the remark that nothing was calculated."""

    def of(**sheets):
        book = read_book(make_book(sheets))
        found = [f for f in check(book) if f.place is not None]
        return {f"{f.place.sheet}!{f.place.address}": (f.kind, f.message) for f in found}

    return of
