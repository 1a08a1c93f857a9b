"""The one-sheet spreadsheet, read back by openpyxl: numbers are numbers, texts are texts."""

import io
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from openpyxl import load_workbook
from sample import inch_v8, metric_four

from workbook_tools.findings import check
from workbook_tools.jobs.paper_records import JobField
from workbook_tools.jobs.read import read_book
from workbook_tools.render.cell_writer import NewBook, clean, number_format
from workbook_tools.render.sheet import summary_sheet
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.summary import summarize

# openpyxl reads all but the small drawings of readings by position.
pytestmark = pytest.mark.filterwarnings("ignore:Sparkline Group extension")

SHOP = Shop("Example Engines", ("12 Example Lane",))
HOSTILE = (
    '=HYPERLINK("http://example.com","x")',
    "+1+1",
    "@SUM(A1)",
    "{=1+1}",
    "-cmd|' /C calc'!A0",
    "http://example.com",
    "mailto:a@example.com",
    "internal:Sheet2!A1",
)

EXAMPLES = Path(__file__).parents[2] / "example_books"


def made(book, copy="shop", shop=SHOP):
    return summary_sheet(summarize(book, check(book)), shop, copy)


def cells(content):
    sheets = load_workbook(io.BytesIO(content)).worksheets
    return [c for sheet in sheets for row in sheet.iter_rows() for c in row if c.value is not None]


def row_of(content, item):
    sheet = load_workbook(io.BytesIO(content))["Appendix"]
    return next(
        [c.value for c in row] for row in sheet.iter_rows() if row[0].value == item and row[1].value
    )


def test_readings_are_numbers_with_the_digits_of_the_page():
    values = row_of(made(inch_v8()), "Bore")
    assert values[1] == pytest.approx(3.9654)
    assert values[2:5] == ["Cyl 3", pytest.approx(3.9657), "Cyl 5"]
    # The eight bores of the sample by cylinder, to the right.
    assert values[-8:] == pytest.approx(
        [3.9655, 3.9656, 3.9654, 3.9655, 3.9657, 3.9655, 3.9656, 3.9655]
    )
    bore = next(c for c in cells(made(inch_v8())) if c.value == 3.9654)
    assert bore.number_format == "0.0000"


def test_the_first_sheet_begins_with_the_word_and_tells_the_key_facts_as_numbers():
    book = inch_v8()
    summary = summarize(book, check(book))
    sheet = load_workbook(io.BytesIO(summary_sheet(summary, SHOP, "shop")))["Summary"]
    assert sheet["A1"].value == summary.standing.word.capitalize()
    told = {row[0].value: [c.value for c in row] for row in sheet.iter_rows()}
    for fact in summary.facts:
        values = [n.value for n in fact.row.numbers if n.value is not None]
        assert told[fact.name][1] in ([pytest.approx(min(values))] if values else ["no value"])
    for number, finding in zip(summary.numbers, summary.findings, strict=True):
        assert finding.message in told[number][1]


def test_a_missing_reading_is_a_word_and_no_zero():
    values = [c.value for c in cells(made(inch_v8()))]
    assert "no value" in values


def test_the_customers_sheet_has_no_cells_findings_or_single_readings():
    texts = [str(c.value) for c in cells(made(inch_v8(), "customer"))]
    assert "Running in" in texts
    assert not any("To do" in t or t.startswith(("ENG.", "Build!")) for t in texts)
    assert "Findings" not in texts
    (sheet,) = load_workbook(io.BytesIO(made(inch_v8(), "customer"))).worksheets
    assert sheet.max_column <= 9


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("copy", ["customer", "shop"])
def test_no_text_becomes_a_formula_or_a_link(text, copy):
    book = inch_v8()
    job = replace(book.job, customer=JobField(text), number=JobField(text))
    content = made(replace(book, job=job, file_name=text), copy, replace(SHOP, name=text))
    found = cells(content)
    assert [c for c in found if c.value == text]
    assert all(c.data_type != "f" and c.hyperlink is None for c in found)


def test_text_that_no_file_can_hold_is_made_holdable():
    new = NewBook("bell\x07", "half \ud800", "build summary")
    sheet = new.book.add_worksheet("Summary")
    new.put(sheet, 0, 0, "a\x00b\ud800c" + "x" * 40_000)
    new.put(sheet, 1, 0, float("nan"))
    (a1, a2) = cells(new.done())
    assert a1.value.startswith("a b?c")
    assert len(a1.value) == 32_767
    assert a2.value == "nan"
    assert clean("tab\tand\nline") == "tab\tand\nline"


def test_the_same_book_gives_the_same_bytes():
    assert made(inch_v8()) == made(inch_v8())
    assert made(inch_v8()) != made(metric_four())
    with zipfile.ZipFile(io.BytesIO(made(inch_v8()))) as archive:
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert b"2000-01-01T00:00:00Z" in archive.read("docProps/core.xml")


@pytest.mark.parametrize(
    ("shown", "numbers"),
    [("0.0400", "0.0000"), ("1,265.0", "#,##0.0"), ("8", "0"), ("-0.41", "0.00")],
)
def test_a_cell_shows_the_digits_of_the_page(shown, numbers):
    assert number_format(shown) == numbers


@pytest.mark.parametrize(
    "name", ["inch_v8", pytest.param("build_book_inch_v8", marks=pytest.mark.slow)]
)
def test_the_customers_sheet_says_how_its_numbers_are_meant(name):
    read = read_book(EXAMPLES / f"{name}.xlsx")
    told = customer_copy(summarize(read, check(read)))
    texts = " ".join(str(c.value) for c in cells(made(read, "customer")))
    assert "not a wear limit" in told.about_facts
    assert told.about_facts in texts
    assert "The makers of gaskets and fasteners come first." in told.about_torques
    assert (told.about_torques in texts) == bool(told.torques)
