"""The customer's copy as a page: what an owner is told, and nothing of the shop's own."""

from __future__ import annotations

from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from workbook_tools.books.reading import read_book
from workbook_tools.books.records import JobField
from workbook_tools.findings import check
from workbook_tools.reports.customer import customer_copy
from workbook_tools.reports.handover import build_files
from workbook_tools.reports.shop import Shop
from workbook_tools.reports.summary import summarize
from workbook_tools.reports.templates import TemplateError

EXAMPLES = Path(__file__).parents[2] / "example_books"


class Text(HTMLParser):
    def __init__(self, page):
        super().__init__()
        self.words, self.tags, self.style = [], [], False
        self.feed(page)
        self.text = " ".join(" ".join(self.words).split())

    def handle_starttag(self, tag, attributes):
        self.tags.append(tag)
        self.style = tag == "style"

    def handle_endtag(self, tag):
        self.style = False

    def handle_data(self, data):
        if not self.style:
            self.words.append(data)


def page_of(book, shop=None):
    files = build_files("job", book, check(book), shop or Shop(), ("customer",))
    assert list(files) == ["job-customer.html"]
    return files["job-customer.html"].decode()


@pytest.fixture(scope="module", params=["build_book_inch_v8", "troubled_six", "flat_twin"])
def book(request):
    return read_book(EXAMPLES / f"{request.param}.xlsx")


def test_it_tells_all_that_the_customers_copy_has(book):
    told = customer_copy(book, summarize(book, check(book)))
    text = Text(page_of(book)).text
    assert told.fits
    for fit in told.fits:
        assert fit.fit.name in text
        assert fit.row.result in text
        if fit.row.extent and not fit.row.extent.equal:
            assert f"{fit.row.extent.least} at {fit.row.extent.least_at}" in text
            assert f"{fit.row.extent.largest} at {fit.row.extent.largest_at}" in text
    said = [*told.facts, *told.break_in, *((t.name, t.steps) for t in told.torques)]
    said += [(", ".join(c.functions), c.text) for c in told.cautions]
    assert said
    for name, words in said:
        assert " ".join(name.split()) in text
        assert " ".join(words.split()) in text
    assert ("Outside its band:" in text) == bool(told.outside)
    assert ("Without a value in the book:" in text) == bool(told.missing)
    assert (told.no_torques in text) if not told.torques else "cold" in text


def test_it_tells_nothing_of_the_shops_own(book):
    page = page_of(book)
    text = Text(page).text
    assert book.sha256 not in page
    assert book.file_name not in text
    assert not any(finding.message in text for finding in check(book))
    assert not any(r.place.address and str(r.place) in text for r in book.records)
    assert "script" not in Text(page).tags
    assert page == page_of(book)


def test_what_a_book_says_stays_text():
    book = read_book(EXAMPLES / "inch_v8.xlsx")
    evil = '</style><script>alert(1)</script>"{{ 7*7 }}'
    shop = Shop(name=evil, address=(evil,))
    parsed = Text(page_of(replace(book, job=replace(book.job, number=JobField(evil))), shop))
    assert "script" not in parsed.tags
    assert parsed.text.count("alert(1)") >= 3
    assert "49" not in parsed.text.split("Sizes and clearances")[0]


def test_a_shops_own_template_is_used_and_a_broken_one_is_named(tmp_path):
    book = read_book(EXAMPLES / "inch_v8.xlsx")
    own = tmp_path / "customer.html.jinja"
    own.write_text("{{ shop.name }}: {{ told.fits | length }} fits\n")
    assert page_of(book, Shop(name="Q", templates=tmp_path)).startswith("Q: ")
    other = tmp_path / "other"
    other.mkdir()
    (other / "customer.html.jinja").write_text("<p>\n{{ told.nothing_like_it }}\n")
    with pytest.raises(TemplateError) as refused:
        page_of(book, Shop(templates=other))
    assert refused.value.line == 2
    assert "customer.html.jinja" in str(refused.value)
