"""A shop's layout.toml: what it settles, and errors that name file, line, key and reason."""

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.read import read_book, read_jobs
from workbook_tools.labels.candidates import propose
from workbook_tools.labels.layout import LayoutError, read_layout
from workbook_tools.labels.named_cells import cells_named
from workbook_tools.labels.vocabulary import vocabulary


@pytest.fixture
def layout(tmp_path):
    def write(text):
        path = tmp_path / "layout.toml"
        path.write_text(text, encoding="utf-8")
        return read_layout(path)

    return write


def values(path, layout):
    found = propose(read_cells(path), layout.form_of(path.name))
    return {(r.name, r.position): (r.value, r.unit, r.how) for r in found.readings}


def test_a_layout_gives_cells_units_and_words(make_book, layout):
    path = make_book({"Data": [["x", 101.5, 101.6], ["Pot size", 4.0], ["y", "24-7"], ["z", 88.9]]})
    ours = layout(
        'units = "inch"\n[job]\nnumber = "Data!B3"\n[readings]\n'
        '"piston diameter" = { cells = "Data!B1:C1", unit = "mm", cylinders = [1, 3] }\n'
        'bore = "pot size"\nstroke = { cells = "Data!B4", unit = "mm" }\n'
    )
    assert values(path, ours) == {
        ("piston_diameter", "1"): (101.5, "mm", "layout"),
        ("piston_diameter", "3"): (101.6, "mm", "layout"),
        ("bore", ""): (4.0, "in", "synonym"),
        ("stroke", ""): (88.9, "mm", "layout"),
    }
    assert read_book(path, ours).job.number.text == "24-7"


def test_cells_of_a_layout_go_before_labels(make_book, layout):
    path = make_book({"Data": [["Stroke (in)", 3.5], ["as ground (in)", 3.48]]})
    ours = layout('[readings]\nstroke = { cells = "Data!B2", unit = "in" }\n')
    assert values(path, ours) == {("stroke", ""): (3.48, "in", "layout")}


def test_a_form_holds_for_the_books_it_names(make_book, layout):
    rows = {"A": [["Bore", 92.0]]}
    ours = layout('units = "inch"\n[[book]]\nfiles = ["twin*"]\nunits = "metric"\n')
    twin, other = make_book(rows, file_name="Twin 3.xlsx"), make_book(rows, file_name="six.xlsx")
    assert values(twin, ours)["bore", ""][:2] == (92.0, "mm")
    assert values(other, ours)["bore", ""][1] == "in"


def test_signs_commas_and_dates_are_settled_by_a_layout(make_book, layout):
    path = make_book(
        {"A": [["Deck", -0.2], ["Piston cc", 5], ["Bore", "1.092,075"], ["Started", "3/4/24"]]}
    )
    ours = layout(
        'units = "metric"\ndecimal_comma = true\ndates = "day first"\n'
        'deck_sign = "negative below"\ncrown_sign = "negative dish"\n'
    )
    found = values(path, ours)
    assert found["deck_clearance", ""][0] == pytest.approx(0.2)
    assert found["crown_volume", ""][0] == -5
    assert found["bore", ""][0] == pytest.approx(1092.075)
    assert read_book(path, ours).job.started.text == "2024-04-03"


def test_banks_without_numbers_get_them_from_the_layout(make_book, layout):
    path = make_book(
        {
            "A": [
                ["", "Left", None, "Right"],
                ["Cyl", 1, 2, 1, 2],
                ["Bore (in)", 4.01, 4.02, 4.03, 4.04],
            ]
        }
    )
    ours = layout("[banks]\nleft = [1, 3]\nright = [2, 4]\n")
    found = values(path, ours)
    assert {p: v[0] for (_, p), v in found.items()} == {"1": 4.01, "3": 4.02, "2": 4.03, "4": 4.04}
    unnamed = values(path, layout(""))
    assert {p for _, p in unnamed} == {"L1", "L2", "R1", "R2"}


def test_jobs_and_sheets_can_be_told(make_book, layout):
    path = make_book(
        {"Dell": [["Bore (in)", 4.0]], "Okoro": [["Bore (in)", 4.1]], "Costs": [["a"]]}
    )
    ours = layout('jobs = "sheets"\nskip_sheets = ["Costs"]\n')
    assert [j.part for j in read_jobs(path, ours)][:2] == ["Dell", "Okoro"]


def test_ignored_labels_are_no_readings(make_book, layout):
    path = make_book({"A": [["Deck", 3], ["Bore dimeter", 4.0]]})
    assert not values(path, layout('units = "inch"\nignore_labels = ["deck", "Bore dimeter"]\n'))


CRANK = [
    ["Mains", "", "", "Prices"],
    ["No.", "Main journal", "Bearing bore", "Ticket"],
    [1, 2.2486, 2.2510, 7],
    [2, 2.2485, 2.2510, 8],
    [],
    ["Odd thing", 0.012, 0.013],
    [],
    ["Loose", 4.03],
]


def told(path, ours):
    """{cell: (measurand, which one, stage, value, unit)} of each number that is read."""
    return {
        r.place.address: (r.measurand, r.part.short, r.stage, r.value, r.unit)
        for r in read_book(path, ours).readings
        if r.state == "read"
    }


@pytest.mark.parametrize(
    ("answer", "cells"),
    [
        (
            '{ label = "Odd thing", is = "top_ring_gap", of = ["Cyl 1", "Cyl 2"] }',
            {
                "B6": ("top_ring_gap", "Cyl 1", "", 0.012, "in"),
                "C6": ("top_ring_gap", "Cyl 2", "", 0.013, "in"),
            },
        ),
        (
            '{ cells = "S!B6:C6", is = "Rod side clearance", of = "Rod 2", stage = "found" }',
            {
                "B6": ("rod_side_clearance", "Rod 2", "found", 0.012, "in"),
                "C6": ("rod_side_clearance", "Rod 2", "found", 0.013, "in"),
            },
        ),
        (
            '{ cells = "S!B:B", stage = "machined" }',
            {
                "B3": ("main_journal", "Main 1", "machined", 2.2486, "in"),
                "B4": ("main_journal", "Main 2", "machined", 2.2485, "in"),
            },
        ),
        (
            '{ cells = "3:3", of = "Main 4" }',
            {
                "B3": ("main_journal", "Main 4", "", 2.2486, "in"),
                "B4": ("main_journal", "Main 2", "", 2.2485, "in"),
            },
        ),
        (
            '{ label = "loose", is = "crank_end_play", unit = "thou", of = "engine" }',
            {"B8": ("crank_end_play", "", "", 0.00403, "in")},
        ),
        (
            '{ cells = "S!D3", is = "main_bearing_clearance", unit = "tenths" }',
            {"D3": ("main_bearing_clearance", "Main 1", "", 0.0007, "in")},
        ),
    ],
)
def test_an_answer_says_of_a_label_cell_row_column_or_block_what_it_is(
    make_book, layout, answer, cells
):
    path = make_book({"S": CRANK})
    found = told(path, layout(f'units = "inch"\nanswers = [\n  {answer},\n]\n'))
    assert {cell: found.get(cell) for cell in cells} == {
        cell: (*what[:3], pytest.approx(what[3]), what[4]) for cell, what in cells.items()
    }


def test_of_several_answers_the_narrowest_holds_and_no_reading_leaves_out(make_book, layout):
    path = make_book({"S": CRANK})
    ours = layout(
        'units = "inch"\nanswers = [\n'
        '  { cells = "S!B4", is = "rod_journal", of = "Rod 1" },\n'
        '  { cells = "S!B3:B4", stage = "final" },\n'
        '  { label = "Main journal", below = "Mains", stage = "found" },\n'
        '  { label = "Bearing bore", is = "no reading" },\n]\n'
        '[[book]]\nfiles = ["book*"]\nanswers = [{ label = "Loose", is = "bore" }]\n'
    )
    found = told(path, ours)
    assert found["B3"][:3] == ("main_journal", "Main 1", "final")
    assert found["B4"][:3] == ("rod_journal", "Rod 1", "final")
    assert found["B8"][0] == "bore"
    assert not {"C3", "C4"} & found.keys()
    none = {n.place.address: n.kind for n in read_book(path, ours).no_readings}
    assert (none["C3"], none["C4"]) == ("note", "note")


@pytest.mark.parametrize(
    ("answer", "reason"),
    [
        ('{ label = "x" }', "what the numbers are: is, of, stage or unit"),
        ('{ is = "bore" }', "label or cells, one of the two"),
        ('{ label = "x", cells = "A1", is = "bore" }', "one of the two"),
        ('{ label = "x", is = "bor" }', "the nearest is bore; workbook-tools survey --names"),
        ('{ label = "x", what = "bore" }', "what: no such key"),
        ('{ label = "x", stage = "new" }', "expected one of none, found"),
        ('{ label = "x", unit = "parsec" }', "not a unit"),
        ('{ label = "x", of = "somewhere" }', 'expected "Cyl 3"'),
        ('{ label = "x", of = 3 }', "expected a text"),
        ('{ cells = "Bore", is = "bore" }', 'expected "Crank!F7"'),
        ('{ cells = "C5:A1", is = "bore" }', "upper left cell first"),
        ('{ label = "(mm)", is = "bore" }', "the words beside the numbers"),
        ('{ label = "Odd", is = "bore" },\n  { label = "odd:", is = "stroke" }', "keep one"),
    ],
)
def test_an_answer_that_cannot_be_followed_names_its_line(layout, answer, reason):
    with pytest.raises(LayoutError) as caught:
        layout(f'answers = [\n  # {{ label = "a" }},\n  {answer},\n]\n')
    assert reason in caught.value.reason
    assert caught.value.line == (4 if "\n" in answer else 3)


@pytest.mark.parametrize(
    ("text", "line", "key", "reason"),
    [
        ("units = inch", 1, "", "value"),
        ('units = "imperial"', 1, "units", 'expected "inch" or "metric"'),
        ('\nunit = "inch"', 2, "unit", "no such key; the nearest is units"),
        ("cylinders = 0", 1, "cylinders", "from 1 to 64"),
        ('cylinders = "8"', 1, "cylinders", "from 1 to 64"),
        ("decimal_comma = 1", 1, "decimal_comma", "true or false"),
        ('[readings]\nbor = "C5"', 2, "readings.bor", "the nearest is bore"),
        ("[readings]\nbore = 4.0", 2, "readings.bore", "a text or a list"),
        (
            '[readings]\n"gasket bore" = { cell = "A!B2" }',
            2,
            "readings.gasket bore",
            "nearest is cells",
        ),
        (
            '[readings]\nbore = { cells = "A!B2", unit = "parsec" }',
            2,
            "readings.bore",
            "not a unit",
        ),
        ('[job]\nnummer = "B2"', 2, "job.nummer", "no field of a job"),
        ('[job]\nnumber = "A!B2:C2"', 2, "job.number", "one cell"),
        ("[banks]\nleft = [1, 2]\nright = [2, 3]", 2, "banks.left", "cylinder 2 stands twice"),
        ("[banks]\nmiddle = [1]", 2, "banks.middle", "left or right"),
        ('units = "inch"\n[[book]]\nunits = "metric"', 2, "files", "names of the books"),
        (
            'units = "inch"\n[[book]]\nfiles = ["a"]\n[[book]]\nfiles = ["b"]\nunits = "m"',
            6,
            "units",
            'expected "inch"',
        ),
        ('[[book]]\nfiles = ["a"]\n[book.readings]\nborre = "B2"', 4, "readings.borre", "nearest"),
    ],
)
def test_a_bad_layout_names_file_line_key_and_reason(layout, text, line, key, reason):
    with pytest.raises(LayoutError) as caught:
        layout(text)
    error = caught.value
    assert reason in error.reason
    assert error.key == key
    if key != "files":
        assert error.line == line
        assert f"layout.toml, line {line}" in str(error)


def test_a_layout_that_is_not_there_or_no_text_is_said(tmp_path):
    with pytest.raises(LayoutError, match=r"none\.toml: cannot be read"):
        read_layout(tmp_path / "none.toml")
    (tmp_path / "bad.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(LayoutError, match="UTF-8"):
        read_layout(tmp_path / "bad.toml")


def test_cells_and_labels_are_told_apart():
    assert cells_named("'Block 1'!$B$3:C4").sheet == "Block 1"
    assert cells_named("B3").range == "B3"
    assert cells_named("pot size") is None
    assert cells_named("Bore") is None


def test_a_shops_word_goes_before_the_lexicon_and_a_measurand_is_found_by_its_name():
    words = vocabulary().with_words({"crank_end_play": ["rod"]})
    assert vocabulary().match("Rod").term.id == "rod_length"
    assert words.match("Rod 2 (in)").term.id == "crank_end_play"
    assert vocabulary().term("gasket bore").id == "gasket_bore"
    assert vocabulary().term("bor") is None
