"""Sound archives with hostile content: survived with their limits, or refused with a reason."""

import csv
import re
import socket
import time
import zipfile
from contextlib import suppress
from pathlib import Path

import openpyxl
import pytest
from craft import SHEET, archive, good_book, parts, reader, result_of, with_cell, with_part

from workbook_tools.batch.batch import summarize_books
from workbook_tools.batch.build import Task
from workbook_tools.books.cells import LONGEST_TEXT, BookError
from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.read import read_book


@pytest.fixture
def book(tmp_path):
    def write(content, name="book.xlsx"):
        path = tmp_path / name
        path.write_bytes(content)
        return path

    return write


def summarized(path, out):
    outcome = summarize_books([path], out)
    assert (outcome.read, outcome.unread) == (1, ())
    return {p.name: p for p in out.iterdir()}


EVIL = [
    "=cmd|' /C calc'!A0",
    "@SUM(1+1)*cmd",
    "+1+cmd",
    "-1+cmd",
    "\t=1+1",
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "</style><script>alert(1)</script>",
    "javascript:alert(1)",
    "{{ 7*7 }}{% raw %}",
    "#import sys",
    "\u202egnp.exe",
]


@pytest.mark.parametrize("text", EVIL)
def test_formulas_and_markup_in_cells_stay_text_in_every_output(tmp_path, text):
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    for row in (["Job no.", "x"], ["Customer", "x"], ["x", 0.006], ["Gasket", 0.038]):
        sheet.append(row)
    sheet["B1"].value = sheet["B2"].value = sheet["A3"].value = text
    for cell in ("B1", "B2", "A3"):
        sheet[cell].data_type = "s"
    sheet["B5"] = "=ENG.QUENCH(B3,B4)"
    sheet["B6"] = "=ENG.QUENCH(A3,B4)"
    path = tmp_path / "evil.xlsx"
    workbook.save(path)
    out = tmp_path / "out"
    outcome = summarize_books([path], out, kinds=("html", "json", "xlsx"))
    assert outcome.read == 1
    for page in out.glob("*.html"):
        html = page.read_text("utf-8")
        assert "<script" not in html.lower().replace(_own_scripts(html), "")
        assert not re.search(r"<[^>]*\sonerror", html)
        assert 'href="javascript' not in html
    for table in out.glob("*.csv"):
        for row in csv.reader(table.open(encoding="utf-8")):
            assert not any(re.match(r"\s*[=+@\t]|-\D", cell) for cell in row), row
    for made in out.glob("*.xlsx"):
        with zipfile.ZipFile(made) as sheets:
            for name in sheets.namelist():
                if name.startswith("xl/worksheets/sheet"):
                    assert b"cmd" not in b"".join(re.findall(rb"<f>.*?</f>", sheets.read(name)))


def _own_scripts(html):
    found = re.search(r"<script>.*?</script>", html, re.DOTALL)
    return found[0].lower() if found and "alert" not in found[0] else "\0"


def test_macros_are_carried_by_no_output_and_change_nothing(tmp_path, book):
    named = parts(good_book())
    named["xl/vbaProject.bin"] = b'\xd0\xcf\x11\xe0 Sub Auto_Open() : Shell "calc" : End Sub'
    types = "[Content_Types].xml"
    named[types] = (
        named[types]
        .replace(b"spreadsheetml.sheet.main+xml", b"ms-excel.sheet.macroEnabled.main+xml")
        .replace(
            b"application/vnd.openxmlformats-officedocument.ms-excel", b"application/vnd.ms-excel"
        )
    )
    out = summarized(book(archive(named), "book.xlsm"), tmp_path / "out")
    assert not any(b"Auto_Open" in path.read_bytes() for path in out.values())


def test_external_links_are_never_followed(tmp_path, book, monkeypatch):
    def refuse(*_):
        raise AssertionError("a book was let out to the net")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    named = parts(with_cell(good_book(), b'<c r="B40"><f>[1]Other!A1</f><v>7</v></c>'))
    named["xl/externalLinks/externalLink1.xml"] = (
        b'<externalLink xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" '
        b'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">'
        b'<externalBook r:id="rId1"/></externalLink>'
    )
    named["xl/externalLinks/_rels/externalLink1.xml.rels"] = (
        b'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        b'<Relationship Id="rId1" TargetMode="External" Target="http://example.invalid/o.xlsx" '
        b'Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/'
        b'externalLinkPath"/></Relationships>'
    )
    summarized(book(archive(named)), tmp_path / "out")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (rb'<dimension ref="[^"]*"/>', b'<dimension ref="A1:XFD1048576"/>'),
        (rb"<sheetData>", b'<cols><col min="1" max="999999999" hidden="1"/></cols><sheetData>'),
        (rb"</sheetData>", b'</sheetData><mergeCells><mergeCell ref="A1:XFD9999"/></mergeCells>'),
        (rb'<f>(ENG.QUENCH\(B4,B5\))</f>', rb'<f t="array" ref="B6:XFD1048576">\1</f>'),
        (rb"<f>AVERAGE\(B6:E6\)</f>", b"<f>SUM(A:XFD)+ENG.QUENCH(A1:XFD1048576,B5)</f>"),
        (rb'<row r="7"', b'<row r="1048576"'),
    ],
    ids=["dimension", "hidden columns", "merged", "array", "whole sheet", "last row"],
)  # fmt: skip
def test_absurd_dimensions_cost_neither_time_nor_memory(tmp_path, book, old, new):
    made = with_part(good_book(), SHEET, lambda xml: re.sub(old, new, xml, count=1))
    assert made != good_book()
    started = time.process_time()
    summarized(book(made), tmp_path / "out")
    assert time.process_time() - started < 5


@pytest.mark.parametrize("reference", ["ZZZZ1", "A99999999999", "A0", "1A", "", "A-1"])
def test_a_cell_that_stands_nowhere_is_read_or_refused(book, reference):
    made = with_cell(good_book(), f'<c r="{reference}"><v>1</v></c>'.encode())
    with suppress(BookError):
        read_book(book(made))


def test_ten_thousand_names_cost_little(tmp_path, book):
    names = b"".join(
        b'<definedName name="n%d">n%d</definedName>' % (n, n + 1) for n in range(10_000)
    )
    made = with_part(
        good_book(),
        "xl/workbook.xml",
        lambda xml: xml.replace(b"</definedNames>", names + b"</definedNames>"),
    )
    made = with_cell(made, b'<c r="B40"><f>ENG.QUENCH(n1,0.04)</f><v>1</v></c>')
    started = time.process_time()
    summarized(book(made), tmp_path / "out")
    assert time.process_time() - started < 5


def test_a_text_is_no_longer_than_a_cell_can_hold(book):
    text = b"x" * 5_000_000
    made = with_cell(good_book(), b'<c r="B40" t="inlineStr"><is><t>' + text + b"</t></is></c>")
    opened = read_cells(book(made))
    assert len(opened.sheets[0].cells[40, 2].value) == LONGEST_TEXT


@pytest.fixture(scope="module")
def worker():
    """One for all of these books: it is there for the next one after each of them."""
    made = reader(seconds=30)
    yield made
    made.stop()


@pytest.mark.parametrize(
    "formula",
    [
        "ENG.QUENCH(" * 5_000 + "1,1" + ")" * 5_000,
        "IF(" * 8_000 + "1" + ",1)" * 8_000,
        "(" * 100_000,
        "-" * 100_000 + "ENG.QUENCH(1,1)",
        '"' * 99_999 + "ENG.QUENCH(1,1)",
        "ENG.QUENCH(1,1)" + "+ENG.QUENCH(1,1)" * 300,
        "{" * 10_000 + "ENG.QUENCH(1,1)",
    ],
    ids=["calls", "ifs", "brackets", "signs", "quotes", "a long sum", "braces"],
)
def test_endless_formulas_cost_their_cell_and_no_more(worker, book, formula):
    text = formula.replace('"', "&quot;").encode()
    made = with_cell(good_book(), b'<c r="B40"><f>' + text + b"</f><v>1</v></c>")
    result = result_of(worker, Task(book(made), ""))
    assert not result.refused
    assert result.builds[0].results >= 4


def test_deeply_nested_elements_are_read_or_refused(worker, book):
    made = with_cell(good_book(), b"<a>" * 200_000 + b"</a>" * 200_000)
    result_of(worker, Task(book(made), ""))
    assert result_of(worker, Task(book(good_book()), "")).builds


def test_cells_that_refer_to_each_other_in_a_long_chain_are_survived(worker, book):
    rows = b"".join(
        b'<row r="%d"><c r="A%d"><f>ENG.QUENCH(A%d,0.01)</f></c></row>' % (n, n, n + 1)
        for n in range(100, 1_300)
    )
    made = with_part(
        good_book(), SHEET, lambda xml: xml.replace(b"</sheetData>", rows + b"</sheetData>")
    )
    result = result_of(worker, Task(book(made), ""))
    assert result.builds or "longer than 30 seconds" in result.refused


@pytest.mark.slow
def test_calls_without_end_cost_the_time_of_one_book(book):
    rows = b"".join(
        b'<row r="%d">' % n
        + b"".join(b'<c r="%s%d"><f>ENG.QUENCH(0.01,0.03)</f><v>0.04</v></c>' % (c, n)
                   for c in (b"A", b"B", b"C", b"D", b"E", b"F", b"G", b"H"))
        + b"</row>"
        for n in range(100, 40_000)
    )  # fmt: skip
    made = with_part(
        good_book(), SHEET, lambda xml: xml.replace(b"</sheetData>", rows + b"</sheetData>")
    )
    worker = reader(seconds=3)
    try:
        assert "longer than 3 seconds" in result_of(worker, Task(book(made), "")).refused
        worker.seconds = 60  # The next one starts anew, on a machine as busy as it may be.
        assert result_of(worker, Task(book(good_book()), "")).builds
    finally:
        worker.stop()


@pytest.mark.skipif("sys.platform != 'linux'")
@pytest.mark.slow
def test_strings_without_end_cost_the_memory_of_one_book(book):
    import resource

    strings = b"".join(b"<si><t>%-60d</t></si>" % n for n in range(1_200_000))
    good = book(good_book(), "good.xlsx")
    made = with_part(
        good_book(), "xl/sharedStrings.xml", lambda xml: xml.replace(b"</sst>", strings + b"</sst>")
    )
    first = reader()
    try:
        assert result_of(first, Task(good, "")).builds
        pages = Path(f"/proc/{first.process.pid}/statm").read_text().split()[0]
    finally:
        first.stop()
    # Little more than a good book needs.
    worker = reader(memory=int(pages) * resource.getpagesize() + 60_000_000)
    try:
        assert re.search("memory|too large", result_of(worker, Task(book(made), "")).refused)
        assert result_of(worker, Task(good, "")).builds
    finally:
        worker.stop()
