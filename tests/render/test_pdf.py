"""Printed summaries, read back by poppler's tools: what is on the page, and on what paper."""

import re
import shutil
import subprocess
from dataclasses import replace

import pytest
from pictures import PNG
from sample import inch_v8, metric_four

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Fastener, JobField, Office
from workbook_tools.render.pdf import pdf, summary_pdf
from workbook_tools.render.templates import TemplateError, template_folder
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize

needs_poppler = pytest.mark.needs("pdftotext")
SHOP = Shop("Example Engines", ("12 Example Lane", "Anytown"))


def printed(book, copy="customer", shop=SHOP, paper=None):
    return summary_pdf(summarize(book, check(book)), shop, copy, paper)


def said(tool, document, tmp_path):
    path = tmp_path / "page.pdf"
    path.write_bytes(document)
    target = ["-"] if tool == "pdftotext" else []
    done = subprocess.run([tool, path, *target], capture_output=True, text=True, check=True)
    return done.stdout


@needs_poppler
# ISO 216 A4 is 210 mm x 297 mm; letter is 8.5 in x 11 in, ANSI/ASME Y14.1 size A. In points.
@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595.28, 841.89))])
def test_paper_is_letter_or_a4(paper, size, tmp_path):
    told = said("pdfinfo", printed(inch_v8(), paper=paper), tmp_path)
    width, height = re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", told).groups()
    assert (float(width), float(height)) == pytest.approx(size, abs=0.01)


@needs_poppler
def test_the_customer_reads_sizes_and_no_cells_findings_or_file_hash(tmp_path):
    book = inch_v8()
    page = said("pdftotext", printed(book), tmp_path)
    for words in ("Example Engines", "24-031", "R. Example", "Running in", "Main 5"):
        assert words in page
    for kept in ("To do", "Findings", book.sha256[:16], "ENG.", "C14", "Shell wall"):
        assert kept not in page


@needs_poppler
def test_the_shop_reads_every_reading_with_its_cell(tmp_path):
    book = inch_v8()
    page = said("pdftotext", printed(book, "shop"), tmp_path)
    for words in ("Findings", "To do", "ENG.BEARING_CLEARANCE", "Shell wall", book.sha256):
        assert words in page
    for address in ("C30", "E34", "C10", "J10"):
        assert address in page


@needs_poppler
def test_least_and_largest_are_named_with_their_cylinder(tmp_path):
    page = " ".join(said("pdftotext", printed(inch_v8()), tmp_path).split())
    assert "3.9654 Cyl 3" in page
    assert "3.9657 in Cyl 5" in page


@needs_poppler
def test_a_customers_copy_has_one_or_two_pages(tmp_path):
    for book in (inch_v8(), metric_four()):
        told = said("pdfinfo", printed(book), tmp_path)
        assert int(re.search(r"Pages:\s+(\d+)", told)[1]) <= 2


@needs_poppler
def test_text_of_a_book_is_no_markup(tmp_path):
    hostile = '#panic("x") *a* _b_ $1+1$ <c> @d \\ `e` // f #import "x.typ" {{ g }}'
    book = inch_v8()
    book = replace(book, job=replace(book.job, customer=JobField(hostile), engine=JobField("{% h")))
    for copy in ("customer", "shop"):
        page = " ".join(said("pdftotext", printed(book, copy), tmp_path).split())
        assert hostile in page
        assert "{% h" in page


@needs_poppler
def test_only_the_fonts_that_come_along_are_used(tmp_path):
    told = said("pdffonts", printed(inch_v8(), "shop"), tmp_path)
    names = {line.split()[0].partition("+")[2] for line in told.splitlines()[2:]}
    assert names
    assert all(name.startswith(("LibertinusSerif", "DejaVuSansMono")) for name in names)


@needs_poppler
def test_what_may_be_retightened_is_printed_with_its_lubricant(tmp_path):
    place = Place("Assembly", "B8")
    rows = (("Lubricant", "engine oil"), ("Step 1 (N.m)", "8"), ("Step 2 (N.m)", "12"))
    office = Office(fasteners=(Fastener(place, "Oil pan", rows), Fastener(place, "Rod caps", rows)))
    page = said("pdftotext", printed(replace(metric_four(), office=office)), tmp_path)
    assert "Oil pan" in page
    assert "8, 12 N.m" in page
    assert page.count("8, 12 N.m") == 1
    assert "Not to be retightened by the owner: Rod caps" in " ".join(page.split())


def test_the_same_book_gives_the_same_bytes_and_another_book_others():
    for copy in ("customer", "shop"):
        assert printed(inch_v8(), copy) == printed(inch_v8(), copy)
    assert printed(inch_v8()) != printed(metric_four())
    assert b"CreationDate" not in printed(inch_v8())


@needs_poppler
def test_a_logo_is_on_the_page(tmp_path):
    shop = replace(SHOP, logo=PNG, logo_kind="image/png")
    path = tmp_path / "page.pdf"
    path.write_bytes(printed(inch_v8(), shop=shop))
    told = subprocess.run(["pdfimages", "-list", path], capture_output=True, text=True, check=True)
    assert len(told.stdout.splitlines()) == 3, told.stdout


def test_a_damaged_logo_is_named(tmp_path):
    shop = replace(SHOP, logo=PNG[:40] + b"damaged" + PNG[47:], logo_kind="image/png")
    with pytest.raises(TemplateError, match="the shop's logo cannot be read as a picture"):
        printed(inch_v8(), shop=shop)


@needs_poppler
def test_one_template_can_be_replaced_alone(tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    shutil.copy(template_folder() / "summary.typ", own / "summary.typ")
    text = (own / "summary.typ").read_text(encoding="utf-8")
    (own / "summary.typ").write_text(text.replace("Running in", "Our running in"), encoding="utf-8")
    page = said("pdftotext", printed(inch_v8(), shop=replace(SHOP, templates=own)), tmp_path)
    assert "Our running in" in page


@pytest.mark.parametrize(
    ("text", "line", "reason"),
    [
        ("\n\n#nothing()\n", 3, "unknown variable: nothing"),
        ("#let data = json(bytes(sys.inputs.data))\n#data.nobody\n", 2, "nobody"),
        ("#[", 1, "unclosed"),
        ('#import "absent.typ"\n', 1, "not found"),
    ],
)
def test_a_broken_template_of_the_shop_gives_template_line_and_reason(tmp_path, text, line, reason):
    (tmp_path / "summary.typ").write_text(text, encoding="utf-8")
    with pytest.raises(TemplateError) as told:
        printed(inch_v8(), shop=replace(SHOP, templates=tmp_path))
    assert str(told.value).startswith(f"template {tmp_path / 'summary.typ'}, line {line}: ")
    assert reason in told.value.reason


def test_a_template_that_is_mended_is_read_again(tmp_path):
    own = tmp_path / "page.typ"
    own.write_text("#oops", encoding="utf-8")
    with pytest.raises(TemplateError):
        pdf("page.typ", {}, tmp_path)
    own.write_text("mended", encoding="utf-8")
    assert pdf("page.typ", {}, tmp_path).startswith(b"%PDF-")
