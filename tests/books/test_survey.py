"""The survey: what would be read, how sure that is, and a layout that answers its questions."""

import re

import one_engine
import pytest

from workbook_tools.batch.survey_text import survey
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.survey import survey_book
from workbook_tools.labels.layout import read_layout

OPEN = [
    ["Chit", "24-9"],
    ["Bore dimeter", 4.03],
    ["Stroke", 3.5],
    ["Piston cc", -5],
    ["Deck", -0.008],
    ["Chamber", 64],
    ["Gasket bore", 4.1],
    ["Gasket thickness", 0.04],
    ["Started", "3/4/24"],
    ["Paint", 3],
]


def test_a_survey_tells_what_is_read_from_where_and_how_sure(tmp_path):
    path = one_engine.write(tmp_path / "six.xlsx", "notes_among_numbers")
    text = survey([path]).text
    assert "bore: 3.9052, 3.9055, 3.9051, 3.9058, 3.9054, 3.9053 in" in text
    assert "by its label 'Bore'; Sheet!B8:G8" in text
    assert "hidden row" in text
    assert "struck through" in text
    assert "The batch would compute: Displacement, Quench, Compression ratio" in text


def test_a_proposal_is_told_as_not_read(make_book):
    text = survey([make_book({"A": OPEN})]).text
    assert "NOT READ, only alike 'Bore dimeter' 95 of 100" in text
    assert "Labels not known, left alone: 'Chit' (A!A1), 'Paint' (A!A10)" in text


def test_a_starting_layout_can_be_read_and_asks_what_is_open(make_book, tmp_path):
    book = make_book({"A": OPEN})
    path = tmp_path / "layout.toml"
    path.write_text(survey([book]).layout, encoding="utf-8")
    assert read_layout(path).forms[0].files == ("book.xlsx",)
    asked = {q.answer.split(" =")[0] for q in survey_book(book).questions}
    # Its sizes leave only inches, so that no unit is asked for.
    assert asked == {"deck_sign", "crown_sign", "bore", "number", "dates", "cylinders"}


def test_after_the_corrections_nothing_is_asked_any_more(make_book, tmp_path):
    book = make_book({"A": OPEN})
    text = survey([book]).layout
    # What a builder does: take the # from the answers, and name the right cell.
    answer = r"^# (units|deck_sign|crown_sign|dates|bore|number|cylinders) ="
    text = re.sub(answer, r"\1 =", text, flags=re.MULTILINE)
    text = text.replace('"Sheet1!B2"', '"A!B1"')
    path = tmp_path / "layout.toml"
    path.write_text(text, encoding="utf-8")
    layout = read_layout(path)
    again = survey_book(book, layout)
    assert [q.text for q in again.questions] == []
    done = read_book(book, layout)
    assert done.job.number.text == "24-9"
    assert done.job.started.text == "2024-04-03"
    by_name = {r.function.name: r for r in done.records}
    assert by_name["QUENCH"].value == pytest.approx(0.032)
    assert by_name["DISPLACEMENT"].value == pytest.approx(357.16, abs=0.01)
    assert by_name["COMPRESSION_RATIO"].value is not None


def test_a_book_with_calls_needs_no_layout_and_a_bad_file_is_told(make_book, tmp_path):
    with_calls = make_book({"A": [["Quench", "=ENG.QUENCH(0.01,0.04)"]]}, file_name="ours.xlsx")
    (tmp_path / "bad.xlsx").write_bytes(b"nothing")
    found = survey([with_calls, tmp_path / "bad.xlsx"])
    text = found.text
    assert "1 call of worksheet functions" in text
    assert "NOT READ: this is not a workbook" in text
    assert "no open questions" in text
    assert "[[book]]" not in found.layout


def test_a_survey_leaves_every_byte_and_says_the_same_twice(make_book):
    path = make_book({"A": OPEN})
    before, time = path.read_bytes(), path.stat().st_mtime_ns
    first, second = survey([path]), survey([path])
    assert first.text == second.text
    assert first.layout == second.layout
    assert (path.read_bytes(), path.stat().st_mtime_ns) == (before, time)


def test_the_layout_beside_a_book_is_found_by_itself(make_book):
    path = make_book({"S": [["Cylinders", 4], ["Bore", "40.3 in"], ["Stroke", "3.48 in"]]})
    assert "can the bore be 40.3 in?" in survey([path]).text
    path.with_name("layout.toml").write_text('[readings]\nbore = "S!B2"\n')
    assert "can the bore be 40.3 in?" not in survey([path]).text
