"""The survey: what is open and what it costs, what is read, and a layout that answers it."""

import itertools
import re
import tomllib

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
ALIKE = [["Job no.", "7"], ["Cylinders", 4], ["Stroke", 3.5], ["Bore dimeter", 4.03]]


def uncommented(text, wanted=lambda line: True):
    """A layout with the # taken from the answers that are wanted."""
    return "\n".join(
        re.sub(r"^(\s*)# ", r"\1", line) if wanted(line) else line for line in text.split("\n")
    )


@pytest.fixture
def answered(tmp_path):
    def write(text):
        path = tmp_path / "answered" / "layout.toml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return read_layout(path)

    return write


def test_a_survey_tells_what_is_read_from_where_and_by_what(tmp_path):
    path = one_engine.write(tmp_path / "six.xlsx", "notes_among_numbers")
    text = survey([path]).text
    assert re.search(r"bore +3\.9052 … 3\.9053 in \(6\) +B8:G8", text)
    assert re.search(r"head gasket thickness +0\.043 in +B4", text[text.index("  Certain") :])
    assert "in a hidden row" in text
    assert "Computed from them: Displacement, Quench, Compression ratio" in " ".join(text.split())
    assert all(len(line) <= 80 for line in text.splitlines()[2:] if str(tmp_path) not in line)


def test_what_is_open_comes_first_with_its_cost_and_its_answer(make_book):
    text = survey([make_book({"A": OPEN})]).text
    first, rest = text.split("Labels beside numbers that are not known")
    assert "Is 'Bore dimeter' the bore? (1 cell, 1 book)" in first
    assert '{ label = "Bore dimeter", is = "bore" },' in first
    assert "Until then: no displacement, no compression ratio" in first
    assert "'Chit', 'Paint'" in rest
    assert rest.index("Read by evidence") < rest.index("Certain")


def test_a_question_costs_what_its_answer_lets_be_computed(make_book, answered):
    book = make_book({"S": ALIKE})
    [question] = survey_book(book).questions
    assert (question.guess, question.costs) == ("bore", ("displacement",))
    layout = answered(uncommented(survey([book]).layout))
    assert [r.name for r in read_book(book, layout).records] == ["ENG.DISPLACEMENT"]


def test_a_size_that_stands_twice_is_asked_about_where_results_hang_on_it(make_book, answered):
    rows = [["Job no.", 7], ["Cylinders", 4], ["Stroke (in)", 3.5], ["Bore (in)", 4.03], []]
    log = [["rpm", "oil pressure (psi)"], [900, 24], [3000, 62]]
    book = make_book({"S": [*rows, ["Bore size (in)", 4.1], [], *log]})
    [question] = survey_book(book).questions
    assert (question.kind, question.costs) == ("twice", ("displacement",))
    assert "4.03 in in S!B4, 4.1 in in S!B6" in question.text
    layout = answered(uncommented(survey([book]).layout))
    assert survey_book(book, layout).questions == ()
    assert [r.name for r in read_book(book, layout).records] == ["ENG.DISPLACEMENT"]


def test_two_numbers_of_one_label_are_told_apart_by_the_order_of_their_cells(make_book, answered):
    rows = [["Job no.", 7], ["Stroke (in)", 3.5], ["Bore (in)", 4.03], [], ["Bore (in)", 4.1]]
    book = make_book({"S": rows})
    first = survey_book(book).questions[0]
    assert (first.kind, [p.address for p in first.places]) == ("which one", ["B3", "B5"])
    done = read_book(book, answered(uncommented(survey([book]).layout, lambda s: "of =" in s)))
    assert {r.part.short: r.value for r in done.readings if r.measurand == "bore"} == {
        "Cyl 1": 4.03,
        "Cyl 2": 4.1,
    }


def test_a_label_is_asked_about_once_over_all_books(make_book):
    rows = ([*ALIKE, ["x", n]] for n in (1, 2, 3))
    books = [make_book({f"S{n}": r}, file_name=f"{n}.xlsx") for n, r in enumerate(rows)]
    found = survey(books)
    assert found.questions == 1
    assert "(3 cells, 3 books)" in found.text
    assert found.text.count('{ label = "Bore dimeter"') == 1
    assert found.layout.count('label = "Bore dimeter"') == 1


def test_the_answers_hold_for_all_books_and_nothing_is_asked_any_more(make_book, answered):
    books = [make_book({f"S{n}": ALIKE}, file_name=f"{n}.xlsx") for n in range(2)]
    layout = answered(uncommented(survey(books).layout))
    assert survey(books, layout).questions == 0


def test_after_the_corrections_nothing_is_asked_any_more(make_book, answered):
    book = make_book({"A": OPEN})
    text = survey([book]).layout
    assert {q.kind for q in survey_book(book).questions} == {
        "what", "deck sign", "crown sign", "job number", "dates", "cylinders",
    }  # fmt: skip
    # What a builder does: take the # from the answers, and name the right cell.
    layout = answered(uncommented(text).replace('"A!B2"', '"A!B1"').replace("s = 4", "s = 8"))
    assert survey_book(book, layout).questions == ()
    done = read_book(book, layout)
    assert (done.job.number.text, done.job.started.text) == ("24-9", "2024-04-03")
    by_name = {r.function.name: r for r in done.records}
    assert by_name["QUENCH"].value == pytest.approx(0.032)
    assert by_name["DISPLACEMENT"].value == pytest.approx(357.16, abs=0.01)
    assert by_name["COMPRESSION_RATIO"].value is not None
    paint = next(n for n in done.no_readings if n.place.address == "B10")
    assert paint.kind == "note"


def test_a_wrong_guess_is_answered_by_what_it_is(make_book, answered):
    rows = [*ALIKE[:3], ["Bore dimeter", 4.1], ["Bore", 4.03]]
    book = make_book({"S": rows})
    text = uncommented(survey([book]).layout).replace('is = "bore"', 'is = "gasket bore"')
    done = read_book(book, answered(text))
    assert done.questions == ()
    assert {r.measurand: r.value for r in done.readings if r.place.address in ("B4", "B5")} == {
        "gasket_bore": 4.1,
        "bore": 4.03,
    }


def test_a_layout_is_valid_however_its_lines_are_freed(make_book, answered):
    other = [["Job no.", "8"], ["Cylinders", 4], ["Bore", "40.3 in"], ["Bore dimeter", 4.0]]
    books = [
        make_book({"A": OPEN}, file_name="[1] open.xlsx"),
        make_book({'B "x"': other}, file_name="other.xlsx"),
        make_book({"S": ALIKE}, file_name="alike.xlsx"),
    ]
    text = survey(books).layout
    answers = [n for n, line in enumerate(text.split("\n")) if re.match(r"\s*# ", line)]
    assert len(answers) >= 8
    lines = text.split("\n")
    for chosen in (*itertools.combinations(answers, 2), answers, ()):
        freed = [re.sub("# ", "", s, count=1) if n in chosen else s for n, s in enumerate(lines)]
        tomllib.loads("\n".join(freed))
    # Somebody who takes a # from every line frees the answers alone.
    every = answered(re.sub(r"^(\s*)#", r"\1", text, flags=re.MULTILINE))
    assert every.form_of("[1] open.xlsx").cylinders == 4
    assert answered(text).forms[-1].answers == ()


def test_a_layout_read_again_asks_only_what_is_still_open(make_book, answered):
    book = make_book({"A": OPEN})
    layout = answered(uncommented(survey([book]).layout, lambda line: "sign" in line))
    left = survey([book], layout)
    assert left.questions == survey([book]).questions - 2
    assert "sign" not in left.layout


def test_what_no_engine_has_is_asked_about_as_no_reading(make_book, answered):
    rows = [["Job no.", 7], ["Cylinders", 4], ["Stroke (in)", 3.5], ["Bore (in)", 4.03], []]
    prices = [["Cyl", 1, 2], ["Bore", "280 in", "295 in"]]
    book = make_book({"S": [*rows, *prices]})
    [question] = survey_book(book).questions
    assert (question.kind, question.answer.partition("is = ")[2]) == ("size", '"no reading" },')
    layout = answered(uncommented(survey([book]).layout))
    assert survey_book(book, layout).questions == ()
    assert {n.place.address for n in read_book(book, layout).no_readings} >= {"B7", "C7"}


def test_a_book_with_calls_and_a_bad_file_are_told(make_book, tmp_path):
    rows = [["Job no.", "5"], ["Quench", "=ENG.QUENCH(0.01,0.04)"]]
    with_calls = make_book({"A": rows}, file_name="ours.xlsx")
    (tmp_path / "bad.xlsx").write_bytes(b"nothing")
    found = survey([with_calls, tmp_path / "bad.xlsx"])
    assert "1 call of worksheet functions" in found.text
    assert re.search(r"^NOT READ .*bad\.xlsx: this is not a workbook", found.text, re.MULTILINE)
    assert "no open questions" in found.text
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
    assert "No engine's bore is 40.3 in" in survey([path]).text
    path.with_name("layout.toml").write_text('answers = [{ cells = "S!B2", is = "bore" }]\n')
    assert "No engine's bore is 40.3 in" not in survey([path]).text
