"""The V8 of the tests, summarized once."""

import pytest
from sample import inch_v8

from workbook_tools.findings import check
from workbook_tools.summary.summary import summarize


@pytest.fixture(scope="module")
def v8():
    made = inch_v8()
    return summarize(made, check(made))
