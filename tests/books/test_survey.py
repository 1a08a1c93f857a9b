"""The survey: what would be read, how sure that is, and a layout that answers its questions."""

import re

import one_engine
import pytest

from workbook_tools.books.layout import read_layout
from workbook_tools.books.reading import read_book
from workbook_tools.books.survey import starting_layout, survey
from workbook_tools.reports.survey_text import survey_text

OPEN = [
    ["Ticket", "24-9"],
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
    text = survey_text(survey([path]))
    assert "bore: 3.9052, 3.9055, 3.9051, 3.9058, 3.9054, 3.9053 in" in text
    assert "by its label 'Bore'; Sheet!B8:G8" in text
    assert "hidden row" in text
    assert "struck through" in text
    assert "The batch would compute: Displacement, Quench, Compression ratio" in text


def test_a_proposal_is_told_as_not_read(make_book):
    text = survey_text(survey([make_book({"A": OPEN})]))
    assert "NOT READ, only alike 'Bore dimeter' 95 of 100" in text
    assert "Labels not known, left alone: 'Ticket' (A!A1), 'Paint' (A!A10)" in text


def test_a_starting_layout_can_be_read_and_asks_what_is_open(make_book, tmp_path):
    found = survey([make_book({"A": OPEN})])
    path = tmp_path / "layout.toml"
    path.write_text(starting_layout(found), encoding="utf-8")
    assert read_layout(path).forms[0].files == ("book.xlsx",)
    asked = {q.answer.split(" =")[0] for q in found.books[0].questions}
    assert asked == {"units", "deck_sign", "crown_sign", "bore", "number", "dates", "cylinders"}


def test_after_the_corrections_nothing_is_asked_any_more(make_book, tmp_path):
    book = make_book({"A": OPEN})
    text = starting_layout(survey([book]))
    # What a builder does: take the # from the answers, and name the right cell.
    answer = r"^# (units|deck_sign|crown_sign|dates|bore|number|cylinders) ="
    text = re.sub(answer, r"\1 =", text, flags=re.MULTILINE)
    text = text.replace('"Sheet1!B2"', '"A!B1"')
    path = tmp_path / "layout.toml"
    path.write_text(text, encoding="utf-8")
    layout = read_layout(path)
    again = survey([book], layout)
    assert [q.text for q in again.books[0].questions] == []
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
    text = survey_text(found)
    assert "1 call of worksheet functions" in text
    assert "NOT READ: this is not a workbook" in text
    assert "no open questions" in text
    assert "[[book]]" not in starting_layout(found)


def test_a_survey_leaves_every_byte_and_says_the_same_twice(make_book):
    path = make_book({"A": OPEN})
    before, time = path.read_bytes(), path.stat().st_mtime_ns
    first, second = survey([path]), survey([path])
    assert survey_text(first) == survey_text(second)
    assert starting_layout(first) == starting_layout(second)
    assert (path.read_bytes(), path.stat().st_mtime_ns) == (before, time)
