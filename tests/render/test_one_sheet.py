"""The print of a whole job: one sheet first, few pages to the appendix, two for the customer."""

import subprocess

import pytest
from example_builds import example_summary

from workbook_tools.render.pdf import summary_pdf
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize

MOST_PAGES = 4

pytestmark = pytest.mark.needs("pdftotext")


@pytest.fixture(scope="module")
def v8():
    return example_summary("build_book_inch_v8")


def pages(document, tmp_path):
    path = tmp_path / "page.pdf"
    path.write_bytes(document)
    done = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True)
    return done.stdout.split("\f")[:-1]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_first_page_holds_the_engine_and_its_signatures(paper, v8, tmp_path):
    told = pages(summary_pdf(v8, Shop(), "shop", paper), tmp_path)
    first, second = told[0], told[1]
    assert first.startswith("Within")
    for words in ("Worst clearance", "Key facts", "Most power", "Findings", "Released"):
        assert words in first
    assert second.startswith("Fasteners")
    before = next(n for n, page in enumerate(told) if page.startswith("Appendix"))
    assert before <= MOST_PAGES


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_customers_copy_has_two_pages(paper, v8, tmp_path):
    first, second = pages(summary_pdf(v8, Shop(), "customer", paper), tmp_path)
    assert "Signature" in first
    assert second.startswith("What may be retightened")
    assert "Running in" in second


def test_lists_that_the_first_page_has_room_for_stand_on_it(written, tmp_path):
    book = written(
        ["", "Cyl 1", "Cyl 2"],
        ["Bore as found (in)", 4.0012, 4.0016],
        ["Bore finished (in)", 4.0301, 4.0302],
    )
    summary = summarize(book, ())
    first = pages(summary_pdf(summary, Shop(), "shop", "letter"), tmp_path)[0]
    assert "Found against final" in first
    assert "0.0289 removed" in first or "0.0286 removed" in first
