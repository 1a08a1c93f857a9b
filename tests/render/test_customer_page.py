"""The customer's copy as a page: what an owner is told, and nothing of the shop's own."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from html.parser import HTMLParser

import pytest
from example_builds import example_book, example_summary
from pictures import PNG
from test_pdf import needs_poppler, said

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Fastener, JobField, Office
from workbook_tools.labels.label import Label
from workbook_tools.render.handover import build_files
from workbook_tools.render.templates import TemplateError
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.fasteners import fastener_lines
from workbook_tools.summary.summary import summarize

EVIL = "</style><script>alert(1)</script>\"{{ 7*7 }}'"
# What the pages of the shop's own copy say, and an owner is not told.
SHOPS_OWN = ("Findings", "Measurements", "SHA-256", "Recomputed", "ENG.", "What was recomputed")


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


def page_of(summary, shop=None):
    files = build_files("job", summary, shop or Shop(), ("customer",))
    assert list(files) == ["job-customer.html"]
    return files["job-customer.html"].decode()


@pytest.fixture(scope="module", params=["build_book_inch_v8", "troubled_six", "flat_twin"])
def name(request):
    return request.param


@pytest.fixture(scope="module")
def summary(name):
    return example_summary(name)


@pytest.fixture(scope="module")
def page(summary):
    return page_of(summary)


def test_it_tells_all_that_the_customers_copy_has(summary, page):
    told = customer_copy(summary)
    text = Text(page).text
    facts = [fact for _, some in told.groups for fact in some]
    assert facts
    for fact in facts:
        extent = fact.row.extent
        assert fact.name in text
        assert (fact.gaps in text) if fact.gaps else True
        shown = [fact.one] if fact.one else [extent.least, extent.largest]
        assert all(number in text for number in shown)
        assert fact.row.band in text
        assert fact.row.origin in text
    said = [*told.said, *told.break_in, *((t.name, t.steps) for t in told.torques)]
    said += [(", ".join(c.functions), c.text) for c in told.cautions]
    assert said
    for name, words in said:
        assert " ".join(name.split()) in text
        assert " ".join(words.split()) in text
    assert ("Outside its band:" in text) == bool(told.outside)
    assert ("Without a value in the book:" in text) == bool(told.missing)
    assert (told.no_torques in text) if not told.torques else "cold" in text


@needs_poppler
def test_its_words_and_numbers_are_those_of_the_customers_print(summary, tmp_path):
    # Read back by poppler's pdftotext, without the foot of each page.
    files = build_files("job", summary, Shop("Example Engines"), ("customer", "pdf"))
    lines = said("pdftotext", files["job-customer.pdf"], tmp_path).splitlines()
    foot = re.compile(r"page \d+ of \d+|.*\.xlsx")
    printed = " ".join(line for line in lines if not foot.fullmatch(line))
    page = Text(files["job-customer.html"].decode()).text

    def words(text):
        return {word.strip(".,:;").casefold() for word in re.findall(r"[\w.,:;'/+-]+", text)}

    assert len(words(printed)) > 200
    assert words(printed) - words(page) == set()
    numbers = {word for word in words(page) - words(printed) if any(c.isdigit() for c in word)}
    assert numbers == set()


def test_it_tells_nothing_of_the_shops_own(name, summary, page):
    book = example_book(name)
    text = Text(page).text
    shops = Text(build_files("job", summary, Shop(), ("html",))["job.html"].decode()).text
    assert all(words in shops and words not in text for words in SHOPS_OWN)
    measured = {row.label for section in summary.readings for row in section.rows}
    measured -= {name for fact in summary.facts for name in (fact.name, fact.row.label)}
    measured -= {line.name for line in fastener_lines(book.office.fasteners)}
    assert len(measured) > 3
    assert not [label for label in measured if len(label) > 10 and label in text]
    assert book.sha256 not in page
    assert book.file_name not in text
    found = check(book)
    assert not any(one.message in text or str(one.place) in text for one in found if one.place)
    assert "script" not in Text(page).tags


def test_it_is_one_file_and_the_same_each_time(summary):
    shop = Shop("Example Engines", ("12 Example Lane", "Anytown"), PNG, "image/png")
    page = page_of(summary, shop)
    parsed = Text(page)
    assert {"link", "script", "iframe"}.isdisjoint(parsed.tags)
    assert re.findall(r"""(?:src|href)=["']?(\w+:)""", page) == ["data:"]
    assert "Example Engines 12 Example Lane Anytown" in parsed.text
    assert page == page_of(summary, shop)


def test_no_column_stands_without_a_word(summary, page):
    told = customer_copy(summary)
    heads = re.findall(r'<th scope="col">([^<]*)</th>', page)
    assert all(heads)
    assert ("Thread" in heads) == any(torque.thread for torque in told.torques)


def test_it_says_who_released_the_engine_and_what_an_owner_leaves_alone():
    text = Text(page_of(example_summary("build_book_inch_v8"))).text
    assert "Released by IT on 2025-05-28" in text
    assert "Not to be retightened by the owner: Main caps, Side bolts, Rod caps" in text
    assert "438.3 hp at 6,100 rpm, corrected to SAE J1349" in text
    assert "common practice" in text


def test_a_torque_without_its_lubricant_says_so():
    book = example_book("inch_v8")
    pan = Fastener(Place("Assembly", "B8"), "Oil pan", (("Step 1 (lbf.ft)", "8"),))
    book = replace(book, office=Office(fasteners=(pan,)))
    text = Text(page_of(summarize(book, check(book)))).text
    assert "Oil pan not in the book 8 lbf.ft" in text


def test_what_a_book_says_stays_text():
    evil = JobField(EVIL)
    book = example_book("inch_v8")
    job = replace(book.job, **{field.name: evil for field in fields(book.job)})
    steps = (("Lubricant", EVIL), ("Thread", EVIL), ("Step 1 (lbf.ft)", EVIL + "8"))
    office = Office(
        use=evil,
        fuel=evil,
        oil=evil,
        lash=evil,
        firing_order=evil,
        fasteners=(Fastener(Place("Assembly", "B8"), "Oil pan " + EVIL, steps),),
    )
    records = tuple(
        r._replace(label=Label(r.label.text, r.label.position and EVIL + r.label.position))
        if r.label
        else r
        for r in book.records
    )
    shop = Shop(name=EVIL, address=(EVIL,))
    book = replace(book, job=job, office=office, records=records)
    page = page_of(summarize(book, check(book)), shop)
    parsed = Text(page)
    assert "script" not in parsed.tags
    assert "49" not in parsed.text.split("Key facts")[0]
    # Shop and address, six fields of the job, five facts, four columns of a torque.
    assert parsed.text.count(EVIL) >= 17
    assert EVIL + "Cyl" in parsed.text


def test_a_shops_own_template_is_used_and_a_broken_one_is_named(tmp_path):
    summary = example_summary("inch_v8")
    own = tmp_path / "customer.html.jinja"
    own.write_text("{{ shop.name }}: {{ told.groups | length }} groups\n")
    assert page_of(summary, Shop(name="Q", templates=tmp_path)).startswith("Q: ")
    other = tmp_path / "other"
    other.mkdir()
    (other / "customer.html.jinja").write_text("<p>\n{{ told.nothing_like_it }}\n")
    with pytest.raises(TemplateError) as refused:
        page_of(summary, Shop(templates=other))
    assert refused.value.line == 2
    assert "customer.html.jinja" in str(refused.value)
