"""Why a cell is read as it is, or is no reading; and the names that a layout may use."""

import pytest

from workbook_tools.jobs.explained import NoSuchCell, explained
from workbook_tools.labels.layout import read_layout
from workbook_tools.labels.layout_names import allowed_names
from workbook_tools.measurands import all_measurands

CRANK = [
    ["Job no.", "77", "Customer", "R. Vale"],
    ["Mains (in)"],
    ["No.", "Journal", "Brg bore", "Clr", "min", "max"],
    [1, 2.2486, 2.2510, "=C4-B4", 0.002, 0.003],
    [2, 2.2485, 2.2510, "=C5-B5", 0.002, 0.003],
    [3, 2.2487, 2.2511, "=C6-B6", 0.002, 0.003],
    [],
    ["Rod side", 0.014],
    ["Paint", 3],
    ["Quench", "=ENG.QUENCH(0.002,B11)"],
    ["Gasket", 0.038],
]


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    from openpyxl import Workbook

    book = Workbook()
    book.active.title = "Crank"
    for row in CRANK:
        book.active.append(row)
    path = tmp_path_factory.mktemp("explained") / "crank.xlsx"
    book.save(path)
    return lambda cell: " ".join("\n".join(explained(path, cell)).split())


def test_a_reading_has_its_sum_and_the_runner_up_and_by_how_much(told):
    text = told("Crank!B4")
    assert "read as main journal diameter of Main 1, 2.2486 in." in text
    assert "'Journal' in B3" in text
    assert "2 more with this label" in text
    assert "main bearing bore - main journal, as its formula has it" in text
    first = int(text.partition(" sum ")[2].split()[0])
    less, after = text.partition(" next, ")[2].split()[0], text.partition(" less ")[2].split()[0]
    assert first - int(less) == int(after)
    assert '{ cells = "Crank!B4", is = "rod_journal" },' in text


def test_the_line_that_is_shown_settles_it(told, tmp_path):
    line = next(part for part in told("B4").split("  ") if "answers" in part)
    answer = line[line.index('{ cells = "Crank!B4"') :]
    path = tmp_path / "layout.toml"
    path.write_text(f"answers = [\n{answer}\n]\n", encoding="utf-8")
    assert read_layout(path).forms[-1].answers[0].measurand == "rod_journal"


@pytest.mark.parametrize(
    ("cell", "why"),
    [
        ("A4", "no reading. It only numbers the cells"),
        ("B3", "is a label: it names 3 numbers, from B4 to B6"),
        ("A2", "is a heading: over or beside"),
        ("D4", "the book's own formula: main bearing clearance of Main 1"),
        ("E4", "It is a limit: readings are judged by it"),
        ("B10", "a call of ENG.QUENCH"),
        ("B11", "ENG.QUENCH in Crank!B10 takes it as gasket_thickness"),
        ("B11", "if that is wrong, correct the formula"),
        ("B9", "'Paint' in A9 meaning none: no word of the label is known"),
        ("B1", "a field of the job: number"),
        ("C1", "names a field of the job: customer"),
        ("Z99", "It is empty, and nothing is expected there"),
    ],
)
def test_what_is_no_reading_says_why(told, cell, why):
    assert why in told(cell)


@pytest.mark.parametrize(
    ("cell", "reason"),
    [("Krank!B4", "nearest is Crank"), ("B4:B6", "expected one cell"), ("bore", "expected one")],
)
def test_what_is_no_cell_is_refused(told, cell, reason):
    with pytest.raises(NoSuchCell, match=reason):
        told(cell)


def test_every_name_of_the_table_is_listed_and_found_by_words_of_any_language():
    every = list(allowed_names())
    listed = {line.split()[0] for line in every if line.startswith("  ")}
    assert {m.id for m in all_measurands()} <= listed
    assert all(len(line) <= 80 for line in every)
    assert any("gasket_bore" in line for line in allowed_names(["gasket"]))
    assert any("gasket_bore" in line for line in allowed_names(["Bohrung"]))
    assert not any("stroke" in line for line in allowed_names(["gasket"]))
    assert next(iter(allowed_names(["stage"]))).startswith('stage = "none", "found"')
    assert list(allowed_names(["xyzzy"])) == []
