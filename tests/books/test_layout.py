"""A shop's layout.toml: what it settles, and errors that name file, line, key and reason."""

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.read import read_book, read_jobs
from workbook_tools.labels.candidates import propose
from workbook_tools.labels.layout import LayoutError, cells_named, read_layout
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


@pytest.mark.parametrize(
    ("text", "line", "key", "reason"),
    [
        ("units = inch", 1, "", "value"),
        ('units = "imperial"', 1, "units", 'expected "inch" or "metric"'),
        ('\nunit = "inch"', 2, "unit", "not known here"),
        ("cylinders = 0", 1, "cylinders", "from 1 to 64"),
        ('cylinders = "8"', 1, "cylinders", "from 1 to 64"),
        ("decimal_comma = 1", 1, "decimal_comma", "true or false"),
        ('[readings]\nbor = "C5"', 2, "readings.bor", "the nearest is bore"),
        ("[readings]\nbore = 4.0", 2, "readings.bore", "a text or a list"),
        ('[readings]\n"gasket bore" = { cell = "A!B2" }', 2, "readings.gasket bore", "cell is not"),
        (
            '[readings]\nbore = { cells = "A!B2", unit = "parsec" }',
            2,
            "readings.bore",
            "not a unit",
        ),
        ('[job]\nnummer = "B2"', 2, "job.nummer", "not a field of a job"),
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
