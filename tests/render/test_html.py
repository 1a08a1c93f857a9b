"""Pages: self-contained, escaped, the same for the same book; templates only place things."""

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from jinja2 import Environment, nodes
from sample import call, cell, inch_v8, metric_four

from workbook_tools.findings import check
from workbook_tools.findings.codes import CODES
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.records import Book
from workbook_tools.render.html import (
    IndexEntry,
    Unreadable,
    breakable,
    css_text,
    environment,
    kind_counted,
    render_html,
    render_index,
)
from workbook_tools.render.templates import template_folder
from workbook_tools.summary.finding_order import KINDS
from workbook_tools.summary.scale_strips import Mark, ScaleStrip
from workbook_tools.summary.summary import summarize

VOID = {"meta", "link", "br", "wbr", "img", "input", "hr", "col"}


class Page(HTMLParser):
    """The page's texts by element, and whether every element is closed where it should be."""

    def __init__(self, text):
        super().__init__()
        self.open, self.texts, self.attributes, self.tags = [], [], [], []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, *pair) for pair in attrs]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, *pair) for pair in attrs]

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if data.strip() and "style" not in self.open:
            self.texts.append(" ".join(data.split()))

    @property
    def text(self):
        return " ".join(self.texts)


@pytest.fixture(scope="module")
def page():
    made = inch_v8()
    return render_html(summarize(made, check(made)))


def test_the_page_is_whole_and_says_what_it_must(page):
    text = Page(page).text
    for wanted in (
        "24-031", "R. Example", "V8, 3.965 x 3.410 in, iron block", "2024-04-19",
        "Incomplete 2 deviations · 1 missing · 1 stale · measured",
        "0.0422 Cyl 5", "0.0515 in Cyl 8", "mean 0.04874",
        "0.0430 to 0.0550", "low: Cyl 5; 7 of 8 ok", "saved as 9.87", "typed 41 thou",
        "24-031 small V8.xlsx", "5b1f" * 16, "workbook-tools",
    ):  # fmt: skip
        assert wanted in text, wanted


def test_what_is_to_be_done_for_several_cells_is_said_once(page):
    assert page.count("Measure it again") == 1
    text = Page(page).text
    first, last = (text.index(f"Build! {a}") for a in ("G16", "F34"))
    assert (
        text.index("2 out of band", text.index("Findings"))
        < first
        < last
        < text.index("Measure it again")
    )


def test_the_first_page_comes_before_results_readings_cautions(page):
    titles = re.findall(r"<h2[^>]*>(.*?)</h2>", page)
    assert titles == [
        "Key facts", "Findings", "Read and recomputed", "Signed",
        "Appendix: every reading and result, with its cell",
        "Results", "Measurements", "What was recomputed",
        "Cells that wait for a number", "Cautions",
    ]  # fmt: skip


def test_the_page_needs_nothing_else(page):
    index = render_index([IndexEntry(summarize(inch_v8(), ()), "a.html")])
    for text in (page, index):
        assert not re.search(r"https?://|url\(|@import|<script|<link|<img", text)
        assert not [
            a for a in Page(text).attributes if a[1] in ("src", "srcset") or a[1][:2] == "on"
        ]


HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "=1+1",
    "{{ 7*7 }}",
    "a&amp;b",
)


@pytest.mark.parametrize("text", HOSTILE)
def test_cell_text_is_shown_as_text_wherever_it_comes_from(text):
    record = call(
        "B4", text, "QUENCH", cell("B3", text, text, text), 0.04, position=text, sheet=text
    )
    named = Job(**{n: JobField(text) for n in vars(Job())})
    finding = Finding("unusable-cell", record.place, text, text)
    summary = summarize(Book(text, text, named, (record,)), [finding])
    index = render_index([IndexEntry(summary, "x.html")], [Unreadable(text, text)])
    for markup in (render_html(summary), index):
        parsed = Page(markup)
        assert "script" not in parsed.tags
        assert "img" not in parsed.tags
        assert " ".join(text.split()) in parsed.text
        # Nothing of it may end the style sheet early either.
        assert markup.count("</style>") == 1


def test_a_css_string_holds_any_text():
    assert css_text('24-"1\\</style>') == "24-\\22 1\\5c \\3c \\2f style\\3e "
    assert css_text("Job 24-031") == "Job 24-031"


def test_addresses_and_names_may_break_and_stay_escaped():
    assert breakable("Deck!B7") == "Deck!<wbr>B7"
    assert breakable("ENG.RING_GAP") == "ENG.RING_<wbr>GAP"
    assert breakable("<b>!A1") == "&lt;b&gt;!<wbr>A1"


def test_kinds_are_counted_in_words():
    assert kind_counted(1, "missing reading") == "1 missing reading"
    assert kind_counted(2, "missing reading") == "2 missing readings"
    assert kind_counted(2, "out of band") == "2 out of band"


def test_every_finding_kind_has_a_mark():
    assert {code.kind for code in CODES.values()} == {*KINDS}
    for code in CODES:
        summary = summarize(Book("a", "0", Job()), [Finding(code, None, "m", "a")])
        assert re.search(r'<li class="(stop|look|gap)">', render_html(summary)), code


@pytest.mark.parametrize("verdict", ["low", "high"])
def test_a_verdict_is_told_in_words_and_shape_not_only_in_color(verdict):
    record = call("B4", "Quench", "QUENCH", 0.004, 0.04)
    limits = (0.05, 0.06) if verdict == "low" else (0.01, 0.02)
    judge = call("B5", "v", "VERDICT", (record.place, record.value, record.label), *limits)
    markup = render_html(summarize(Book("a", "0", Job(), (record, judge)), ()))
    cell_text = re.search(r'<td data-name="Verdict".*?</td>', markup, re.DOTALL)[0]
    assert verdict in Page(cell_text).text
    assert "<path" in cell_text


def component(file, name, *arguments):
    module = environment(None).get_template(f"parts/{file}.html.jinja").make_module()
    return " ".join(str(getattr(module, name)(*arguments)).split())


def test_marks_of_different_meaning_have_different_shapes():
    shapes = ("ok", "low", "high", "open")
    marks = [Mark("Cyl 1", 50.0, 8.0, shape, beyond=False) for shape in shapes]
    strips = [
        component("first_page", "scale_strip", ScaleStrip((mark,), None, ())) for mark in marks
    ]
    assert len({re.sub(r' class="\w+"', "", drawn) for drawn in strips}) == len(shapes)
    words = [component("marks", "finding_mark", weight) for weight in ("stop", "look", "gap")]
    assert len({re.sub(r' class="[\w ]+"', "", drawn) for drawn in words}) == 3


def test_a_strip_shades_its_band_and_sets_each_mark_where_it_stands():
    strip = ScaleStrip(
        (Mark("Main 4", 96.0, 2.0, "high", beyond=True),), (25.0, 75.0), (25.0, 75.0)
    )
    drawn = component("first_page", "scale_strip", strip)
    assert '<path class="band" d="M25.0 0H75.0V16H25.0z"/>' in drawn
    assert drawn.count('class="edge"') == 2
    assert '<g transform="translate(96.0 2.0)"><path class="out"' in drawn


def test_templates_do_no_arithmetic():
    arithmetic = (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow)
    files = sorted(template_folder().rglob("*.jinja"))
    assert len(files) >= 4
    for file in files:
        tree = Environment().parse(file.read_text("utf-8"))
        assert list(tree.find_all(arithmetic)) == [], file
        filters = {f.name for f in tree.find_all(nodes.Filter)}
        assert filters.isdisjoint({"round", "int", "float", "abs", "sum", "safe"}), file


def test_the_index_lists_every_build_and_every_file_that_was_none():
    made = [inch_v8(), metric_four()]
    entries = [
        IndexEntry(summarize(book, check(book)), page)
        for book, page in zip(made, ("24-031 small V8.html", "four.html"), strict=True)
    ]
    markup = render_index(entries, [Unreadable("old.xls", "this is an old .xls book")])
    text = Page(markup).text
    assert "2 builds summarized, 55 results, 4 findings; 1 file could not be read" in text
    assert "2 out of band" in text
    assert "old.xls this is an old .xls book" in text
    assert 'href="./24-031%20small%20V8.html"' in markup
    assert "No book was read." in Page(render_index([])).text


def test_only_what_is_short_is_kept_on_one_line_of_the_index():
    job = inch_v8().job
    long = replace(job, number=replace(job.number, text="24-031 / " * 4))
    kept = [
        render_index([IndexEntry(summarize(replace(inch_v8(), job=j), ()), "a.html")])
        for j in (job, long)
    ]
    assert [page.count('class="short"') for page in kept] == [2, 1]


def test_the_index_names_the_file_where_a_book_gives_no_job_number():
    summary = summarize(Book("loose.xlsx", "0", Job()), ())
    assert ">loose.xlsx</a>" in render_index([IndexEntry(summary, "loose.html")])
