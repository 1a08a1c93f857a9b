"""The two older books without formulas: read with the shop's layout, computed by the batch.

Results are worked out here from the sizes typed in the books: areas, differences, volumes.
"""

import json
from math import pi
from pathlib import Path

import pytest

from workbook_tools.batch.batch import summarize_books
from workbook_tools.batch.survey_text import survey
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book
from workbook_tools.labels.layout import Layout, LayoutError, layouts_of, read_layout

FOLDER = Path(__file__).parents[2] / "example_books" / "without_formulas"
LAYOUT = FOLDER / "layout.toml"
CC_IN_CUBIC_INCH = 16.387064


@pytest.fixture(scope="module", params=["old_inch_v8", "old_metric_four"])
def book(request):
    return read_book(FOLDER / f"{request.param}.xlsx", read_layout(LAYOUT))


def results(book):
    found = {}
    for record in book.records:
        assert record.state == "computed", record.problem
        position = record.label.position.removeprefix("Cyl ").removeprefix("Main ")
        found.setdefault(record.function.name, {})[position] = record.value
    return found


def area(bore):
    return pi / 4 * bore**2


def test_the_inch_v8_comes_to_what_its_sizes_make():
    found = results(read_book(FOLDER / "old_inch_v8.xlsx", read_layout(LAYOUT)))
    cylinders = (1, 3, 5, 7, 2, 4, 6, 8)
    bores = (4.0105, 4.0108, 4.0103, 4.0106, 4.0104, 4.0107, 4.0105, 4.0106)
    skirts = (4.0070, 4.0072, 4.0069, 4.0071, 4.0070, 4.0071, 4.0070, 4.0072)
    decks = (0.0080, 0.0075, 0.0085, 0.0080, 0.0070, 0.0075, 0.0070, 0.0080)
    assert found["DISPLACEMENT"][""] == pytest.approx(sum(area(b) * 3.57 for b in bores))
    for n, bore, skirt, deck in zip(map(str, cylinders), bores, skirts, decks, strict=True):
        assert found["PISTON_CLEARANCE"][n] == pytest.approx(bore - skirt)
        assert found["QUENCH"][n] == pytest.approx(deck + 0.041)
        swept = area(bore) * 3.57
        rest = area(4.136) * 0.041 + area(bore) * deck + (64.5 + 6) / CC_IN_CUBIC_INCH
        assert found["COMPRESSION_RATIO"][n] == pytest.approx((swept + rest) / rest)
    housings = (2.6960, 2.6958, 2.6962, 2.6959, 2.6961)
    journals = (2.5036, 2.5033, 2.5035, 2.5036, 2.5033)
    clearances = [h - 2 * 0.095 - j for h, j in zip(housings, journals, strict=True)]
    assert list(found["BEARING_CLEARANCE"].values()) == pytest.approx(clearances)


def test_the_metric_four_comes_to_what_its_sizes_make():
    found = results(read_book(FOLDER / "old_metric_four.xlsx", read_layout(LAYOUT)))
    bores, pistons = (82.512, 82.510, 82.513, 82.511), (82.455, 82.455, 82.457, 82.456)
    proud, chambers = (0.12, 0.14, 0.11, 0.13), (38.4, 38.2, 38.5, 38.4)
    assert found["DISPLACEMENT"][""] == pytest.approx(sum(area(b) * 88 / 1000 for b in bores))
    for n, (bore, piston, up, chamber) in enumerate(
        zip(bores, pistons, proud, chambers, strict=True), 1
    ):
        assert found["PISTON_CLEARANCE"][str(n)] == pytest.approx(bore - piston)
        assert found["QUENCH"][str(n)] == pytest.approx(1.2 - up)
        swept = area(bore) * 88 / 1000
        rest = (area(84) * 1.2 - area(bore) * up) / 1000 + chamber + 4.5
        assert found["COMPRESSION_RATIO"][str(n)] == pytest.approx((swept + rest) / rest)


def test_jobs_are_read_with_their_days(book):
    assert book.job.number.text in ("24-031", "24-058")
    days = (book.job.started.text, book.job.finished.text)
    assert days in (("2024-03-04", "2024-05-02"), ("2024-06-17", "2024-07-05"))


def test_nothing_is_asked_and_nothing_found_amiss(book):
    assert check(book) == ()
    assert not book.troubles


def test_with_the_layout_no_question_is_open_and_without_it_some_are():
    assert survey([FOLDER], read_layout(LAYOUT)).questions == 0
    # The layout beside the books is found by itself.
    assert survey([FOLDER]).questions == 0
    assert survey([FOLDER], Layout()).questions >= 1


def test_the_nearest_layout_holds_and_none_from_above_what_was_named(tmp_path):
    inner = tmp_path / "shop" / "2024"
    inner.mkdir(parents=True)
    book = inner / "job.xlsx"
    for folder, cylinders in ((tmp_path, 12), (tmp_path / "shop", 8)):
        (folder / "layout.toml").write_text(f"cylinders = {cylinders}\n")
    found = layouts_of([book], [tmp_path / "shop"])
    assert found[book].form_of("job.xlsx").cylinders == 8
    assert layouts_of([book], [book]) == {}
    (inner / "layout.toml").write_text("cylinders = 4\n")
    assert layouts_of([book], [book])[book].form_of("job.xlsx").cylinders == 4
    (inner / "layout.toml").write_text("cylinder = 4\n")
    with pytest.raises(LayoutError, match=r"2024.layout\.toml, line 1, cylinder: .*cylinders"):
        layouts_of([book], [book])


@pytest.mark.parametrize("jobs", [0, 2])
def test_a_batch_takes_the_layout_beside_the_books(tmp_path, jobs):
    copy = tmp_path / "000001.xlsx"
    copy.write_bytes((FOLDER / "old_inch_v8.xlsx").read_bytes())
    outcome = summarize_books(
        [FOLDER], tmp_path / "out", jobs=jobs, stand_ins={FOLDER / "old_inch_v8.xlsx": copy}
    )
    assert (outcome.read, outcome.findings, outcome.unread) == (2, 0, ())
    for name, results in (("old_inch_v8", 31), ("old_metric_four", 13)):
        told = json.loads((tmp_path / "out" / f"{name}.json").read_text("utf-8"))
        assert [c["state"] for c in told["results"]] == ["computed"] * results
