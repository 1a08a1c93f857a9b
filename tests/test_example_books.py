"""The example books: read whole, the clean ones without a finding, the troubled one with its own.

What must come out of the readings is worked out here by hand where it is asserted, not taken
from the books' own results.
"""

import hashlib
import math
import re
from pathlib import Path

import openpyxl
import pytest
from example_builds import example_book

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

FOLDER = Path(__file__).parents[1] / "example_books"
CLEAN = ("inch_v8", "metric_inline_four", "flat_twin")
# How many calls there are; a call in an array formula counts once for each of its cells.
CALLS = {"inch_v8": 145, "metric_inline_four": 97, "flat_twin": 52, "troubled_six": 58}
_CALL = re.compile(r"ENG\.[A-Z_]+\(")


@pytest.fixture(scope="module")
def books():
    return {name: example_book(name) for name in CALLS}


def _formulas(path):
    """(formula text, number of cells it fills) of every formula, as openpyxl has them."""
    for sheet in openpyxl.load_workbook(path):
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type != "f":
                    continue
                if isinstance(cell.value, str):
                    yield cell.value, 1
                else:
                    low, high = cell.value.ref.split(":")
                    rows = sheet[low].row, sheet[high].row
                    columns = sheet[low].column, sheet[high].column
                    yield (
                        cell.value.text,
                        (rows[1] - rows[0] + 1) * (columns[1] - columns[0] + 1),
                    )


def test_every_book_in_the_folder_is_tested():
    # The filled build books are held by tests/buildbook.
    found = {path.stem for path in FOLDER.glob("*.xlsx")}
    assert {name for name in found if not name.startswith("build_book_")} == set(CALLS)


@pytest.mark.parametrize("name", CALLS)
def test_every_call_is_found(books, name):
    in_file = sum(
        len(_CALL.findall(text)) * cells for text, cells in _formulas(FOLDER / f"{name}.xlsx")
    )
    calls = [record for record in books[name].records if not record.computed_by_batch]
    assert len(calls) == in_file == CALLS[name]
    assert books[name].troubles == ()


@pytest.mark.parametrize("name", CALLS)
def test_reading_leaves_the_book_as_it_was(name):
    path = FOLDER / f"{name}.xlsx"
    before = hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns
    assert read_book(path).sha256 == before[0]
    assert (hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns) == before


@pytest.mark.parametrize("name", CLEAN)
def test_a_clean_book_is_the_same_throughout_and_has_no_finding(books, name):
    calls = [record for record in books[name].records if not record.computed_by_batch]
    assert {(r.state, r.problem) for r in calls} == {("same", "")}
    assert check(books[name]) == ()
    verdicts = [r.value for r in books[name].records if r.name == "ENG.VERDICT"]
    assert set(verdicts) == {"ok"}


@pytest.mark.parametrize(
    ("name", "job"),
    [
        ("inch_v8", ("QER-0418", "Wendeline Strandquist", "inch V8, aluminum block, 3.965 bore",
                     "Ines Tarrow", "2025-03-03", "2025-04-11")),
        ("metric_inline_four", ("QER-0423", "Bastian Morrowdale",
                                "metric inline four, iron block, 84.3 bore", "Jonas Pellam",
                                "2025-04-14", "2025-05-23")),
        ("flat_twin", ("QER-0431", "Sunniva Callowhill", "metric flat twin, air cooled, 91 bore",
                       "Ines Tarrow", "2025-05-05", "2025-06-13")),
        ("troubled_six", ("QER-0409", "Corwin Ashgrove",
                          "inch inline six, iron block, 3.905 bore", "T. Pellam", "2025-02-10",
                          "2025-03-28")),
    ],
)  # fmt: skip
def test_the_job_is_found_in_every_layout(books, name, job):
    found = books[name].job
    assert job == (
        found.number.text, found.customer.text, found.engine.text, found.builder.text,
        found.started.text, found.finished.text,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("name", "place", "label", "unit"),
    [
        # Label left of the value, unit behind it.
        ("inch_v8", "'Build sheet'!B39", "Quench, hot", "in"),
        ("inch_v8", "'Build sheet'!B15", "Displacement", "cu in"),
        # Cylinders down, units in the heads.
        ("inch_v8", "Cylinders!D12", "Piston clearance, Cyl 7", "in"),
        ("inch_v8", "Cylinders!J13", "Ratio, Cyl 8", ""),
        ("inch_v8", "Bearings!E17", "Rod bearing clearance, Rod 3", "in"),
        # Cylinders and journals across, units beside the labels.
        ("metric_inline_four", "Cylinders!E28", "Bore, mean of six, Cylinder 3", "mm"),
        ("metric_inline_four", "Cylinders!F43", "Quench, cold, Cylinder 4", "mm"),
        ("metric_inline_four", "'Bottom end'!G10", "Main bearing clearance, Journal 5", "mm"),
        # Left and right of a twin are counted; units stand behind both.
        ("flat_twin", "Cylinders!C8", "Deck clearance, R2", "mm"),
        # Front and rear of a row of two mains are counted, so that every table has the same.
        ("flat_twin", "Crankcase!E7", "Main bearing clearance, Main 2", "mm"),
        ("flat_twin", "Heads!B10", "Deck volume, L1", "cc"),
        ("flat_twin", "Customer!B7", "Mean piston speed", "m/s"),
        ("troubled_six", "'Top end'!G18", "Gasket that gives it, Cyl 4", "in"),
    ],
)
def test_results_are_named_as_their_book_names_them(books, name, place, label, unit):
    record = next(r for r in books[name].records if str(r.place) == place)
    assert (str(record.label), record.unit) == (label, unit)


@pytest.mark.parametrize("name", CALLS)
def test_every_result_has_a_label_and_every_size_a_unit(books, name):
    without = {"ratio", "factor", "text"}
    for record in books[name].records:
        assert record.label is not None, record.place
        assert record.label.text, record.place
        assert record.function is not None
        ratio = "atio" in record.label.text
        if record.value is not None and record.function.result.name not in without and not ratio:
            assert record.unit, (record.place, record.name)


@pytest.mark.parametrize("name", CALLS)
def test_every_cell_that_a_call_reads_has_a_label(books, name):
    for record in books[name].records:
        for argument in record.arguments:
            if argument.place is not None:
                assert argument.label is not None, (record.place, argument.name)
                assert argument.label.text, (record.place, argument.name)


def test_no_position_comes_twice_in_one_row_of_results(books):
    for name in CALLS:
        seen = set()
        for r in books[name].records:
            if r.whole and r.label.position and r.name != "ENG.VERDICT":
                key = (r.place.sheet, r.name, r.label.text, r.label.position)
                assert key not in seen, key
                seen.add(key)


def _value(book, place, name=None):
    return next(
        r.value for r in book.records if str(r.place) == place and name in (None, r.function.name)
    )


def test_the_v8_hangs_together(books):
    """The trade's own case (common practice, no source): 0.002 in above the deck cold, about
    0.004 in of growth, 0.040 in wanted, hence a gasket of 0.038 in; the rest is arithmetic."""
    v8 = books["inch_v8"]
    assert _value(v8, "'Build sheet'!B28") == pytest.approx(-0.002, abs=1e-4)
    assert 0.003 < _value(v8, "'Build sheet'!B32") < 0.005
    assert _value(v8, "'Build sheet'!B35") == pytest.approx(0.038, abs=5e-4)
    assert _value(v8, "'Build sheet'!B15") == pytest.approx(
        8 * math.pi / 4 * 3.965**2 * 3.41, rel=1e-4
    )
    assert _value(v8, "'Build sheet'!B19") == pytest.approx(2 * 3.41 / 12 * 6200)
    cc = 16.387064
    swept = math.pi / 4 * 3.965**2 * 3.41 * cc
    above = 60.14 + math.pi / 4 * cc * (4.035**2 * 0.038 - 3.965**2 * 0.00196) + 5
    assert _value(v8, "'Build sheet'!B46") == pytest.approx(1 + swept / above, abs=0.005)
    assert _value(v8, "Bearings!E17", "BEARING_CLEARANCE") == pytest.approx(
        2.1639 - 2 * 0.0605 - 2.0406
    )


def test_the_metric_books_hang_together(books):
    four, twin = books["metric_inline_four"], books["flat_twin"]
    assert _value(four, "Cylinders!F43") == pytest.approx((0.32 + 0.31) / 2 + 0.70)
    assert _value(four, "'Bottom end'!G10") == pytest.approx(60.511 - 1.990 - 1.993 - 56.488)
    assert _value(twin, "Cylinders!C8", "DECK_CLEARANCE") == pytest.approx(
        198.46 - 40.3 - 125 - 32.9
    )
    assert _value(twin, "Heads!C7") == pytest.approx(198.46 - 40.3 - 125 - 32.9 + 0.85)
    assert _value(twin, "Customer!B7") == pytest.approx(2 * 0.0806 * 6800 / 60)
    assert {r.system for b in (four, twin) for r in b.records if r.function.takes_units} == {
        "metric"
    }


def test_the_troubled_book_has_its_findings_and_no_others(books):
    found = [(f.kind, str(f.place)) for f in check(books["troubled_six"])]
    assert sorted(found) == [
        ("disagreement", "'Bottom end'!D9"),  # The journal whose clearance is out of band.
        ("missing reading", "'Top end'!D9"),
        ("missing reading", "'Top end'!F19"),
        ("out of band", "'Bottom end'!E9"),
        ("stale result", "'Bottom end'!E19"),
        ("unreadable", "'Top end'!C16"),
    ]


def test_the_troubled_book_says_what_is_wrong_in_words(books):
    said = {str(f.place): f.message for f in check(books["troubled_six"])}
    assert "Gasket fitted, compressed (D9) is empty" in said["'Top end'!D9"]
    assert "Deck clearance, Cyl 5 (F19) is empty, yet G19 shows 0.038" in said["'Top end'!F19"]
    assert "0.0034 in, above its band of 0.0018 to 0.0028 in" in said["'Bottom end'!E9"]
    assert "saved as 0.0022" in said["'Bottom end'!E19"]
    assert "it is 0.0025" in said["'Bottom end'!E19"]
    assert "Skirt, Cyl 2 (C16)" in said["'Top end'!C16"]
    assert "'mic again, warm'" in said["'Top end'!C16"]


def test_a_text_with_its_own_unit_is_read_as_one(books):
    """38 thou less 2 thou of deck; 59,8 cc and 0,85 mm with a decimal comma."""
    six, twin = books["troubled_six"], books["flat_twin"]
    assert _value(six, "'Top end'!G15") == pytest.approx(0.036)
    texts = {a.value for r in (*six.records, *twin.records) for a in r.arguments}
    assert {"38 thou", "59,8 cc", "0,85 mm"} <= {t for t in texts if isinstance(t, str)}


@pytest.mark.parametrize("name", CALLS)
def test_each_sheet_prints_on_one_page(name):
    for sheet in openpyxl.load_workbook(FOLDER / f"{name}.xlsx"):
        assert sheet.print_area, sheet.title
        assert sheet.sheet_properties.pageSetUpPr.fitToPage, sheet.title
        assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight or 1) == (1, 1)
