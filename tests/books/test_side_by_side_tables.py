"""Tables side by side, heads over heads that say when, and what a sheet's own name and title say.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, in_words

from workbook_tools.jobs.read import read_jobs

MAINS = [[1, 2.4482, .0024], [2, 2.4481, .0025], [3, 2.4482, .0024], [4, 2.4482, .0024],
         [5, 2.4481, .0025]]  # fmt: skip
RODS = [[1, 2.0992, .0021], [2, 2.0991, .0022], [3, 2.0992, .0021], [4, 2.0991, .0021],
        []]  # fmt: skip
OF_EACH = ["No.", "Journal (in)", "Clearance (in)"]


def beside(left: Sequence[Sequence[object]], right: Sequence[Sequence[object]]) -> Rows:
    return [[*one, *other] for one, other in zip(left, right, strict=True)]


def test_a_table_that_counts_its_rows_anew_is_one_of_its_own(tmp_path: Path) -> None:
    titles = ["Mains", None, None, "Rods"]
    rows: Rows = [titles, [*OF_EACH, *OF_EACH], *beside(MAINS, RODS)]
    expected = {
        "B7": "main_journal 1 2.4482 in", "C8": "main_bearing_clearance 2 0.0025 in",
        "B11": "main_journal 5 2.4481 in", "E7": "rod_journal 1 2.0992 in",
        "F8": "rod_bearing_clearance 2 0.0022 in", "E10": "rod_journal 4 2.0991 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [[None, "Smontaggio", None, "Montaggio"],
             ["Cil.", "Canna (mm)", "Pistone (mm)", "Canna (mm)", "Pistone (mm)"],
             [1, 80.12, 79.91, 80.51, 80.46], [2, 80.13, 79.90, 80.51, 80.46]],
            {"B7": "bore 1 found 80.12 mm", "C8": "piston_diameter 2 found 79.9 mm",
             "D7": "bore 1 final 80.51 mm", "E8": "piston_diameter 2 final 80.46 mm"},
            id="Italian",
        ),
        pytest.param(
            [[None, "As found", None, "Final"],
             ["Main", "Journal (in)", "Clearance (in)", "Journal (in)", "Clearance (in)"],
             [1, 2.4472, .0042, 2.4382, .0024], [2, 2.4471, .0043, 2.4381, .0025]],
            {"B7": "main_journal 1 found 2.4472 in",
             "C8": "main_bearing_clearance 2 found 0.0043 in",
             "D7": "main_journal 1 final 2.4382 in",
             "E8": "main_bearing_clearance 2 final 0.0025 in"},
            id="English",
        ),
        pytest.param(
            [["inches"], ["As found", None, "Final"], ["Bore 1", "Bore 2", "Bore 1", "Bore 2"],
             [4.0052, 4.0042, 4.0302, 4.0301]],
            {"A8": "bore 1 found 4.0052 in", "B8": "bore 2 found 4.0042 in",
             "C8": "bore 1 final 4.0302 in", "D8": "bore 2 final 4.0301 in"},
            id="without a first column",
        ),
    ],
)  # fmt: skip
def test_a_row_that_says_when_stands_over_heads(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("before", "after"),
    [("Ausbau", "Endmontage"), ("Entró", "Salió"), ("Desarme", "Montaje"),
     ("Smontaggio", "Assemblaggio"), ("As rec'd", "Finished"), ("As recvd", "Honed")],
)  # fmt: skip
def test_words_for_before_and_after(tmp_path: Path, before: str, after: str) -> None:
    rows: Rows = [["Bore (mm)", before, after], ["Cyl 1", 80.12, 80.51], ["Cyl 2", 80.13, 80.52]]
    expected = {"B6": "bore 1 found 80.12 mm", "C7": "bore 2 final 80.52 mm"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("came", ["rec'd", "received", "recvd", "Bore rec'd"])
def test_what_was_received_went_out_finished(tmp_path: Path, came: str) -> None:
    out = "Bore out" if "Bore" in came else "out"
    rows: Rows = [["Cyl (in)", came, out], [1, 4.0052, 4.0302], [2, 4.0053, 4.0303]]
    check_told(tmp_path, rows, {"B6": "bore 1 found 4.0052 in", "C7": "bore 2 final 4.0303 in"})


@pytest.mark.parametrize(
    ("title", "rows", "told"),
    [
        pytest.param("Strip", [["Worst reading"], ["Bore 1 (mm)", 86.12]],
                     "bore 1 found 86.12 mm", id="a title says reading"),
        pytest.param("Strip", [["Cyl", "Bore reading (mm)"], [1, 86.12], [2, 86.14]],
                     "bore 1 found 86.12 mm", id="a head says reading"),
        pytest.param("Build", [["Cyl", "Bore reading (mm)"], [1, 86.12], [2, 86.14]],
                     "bore 1 final 86.12 mm", id="a reading when built"),
        pytest.param("Strip", [["Cyl", "Bore finished (mm)"], [1, 86.12], [2, 86.14]],
                     "bore 1 final 86.12 mm", id="finished all the same"),
        pytest.param("Sheet", [["Worst reading"], ["Bore 1 (mm)", 86.12]],
                     "bore 1 final 86.12 mm", id="a sheet that says nothing"),
    ],
)  # fmt: skip
def test_a_reading_on_a_sheet_of_what_was_found_was_found(
    tmp_path: Path, title: str, rows: Rows, told: str
) -> None:
    check_told(tmp_path, rows, {"B6": told}, title)


LATER = [["No.", "Housing (in)"], [1, 2.2252], [2, 2.2253]]
TABLE = [["No.", "Journal (in)"], [1, 2.0992], [2, 2.0991], [], *LATER]


@pytest.mark.parametrize(
    ("title", "first", "of_rods"),
    [
        pytest.param("Sheet1", ["Rods"], True, id="over all"),
        pytest.param("Mains", ["Rods"], False, id="the name of the sheet comes first"),
        pytest.param("Sheet1", ["Rods", "ok"], False, id="beside another"),
        pytest.param("Sheet1", ["Rods 2"], False, id="a number"),
        pytest.param("Sheet1", ["Rods and all of the rods"], False, id="a sentence"),
    ],
)
def test_the_first_text_is_the_heading_where_the_name_says_nothing(
    make_book: Callable[..., Path], title: str, first: Sequence[str], of_rods: bool
) -> None:
    (job,) = read_jobs(make_book({title: [first, *TABLE]}))
    told = {r.place.address: in_words(r) for r in job.readings}
    assert (told["B7"] == "rod_housing_bore 1 2.2252 in") == of_rods
    assert "housing_bore 1 2.2252 in" in told["B7"]


def test_when_of_a_first_text_holds_for_its_table_only(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["As found"], [], ["Bore (in)", 4.0278], [], ["Stroke (in)", 3.48]]
    (job,) = read_jobs(make_book({"Sheet1": rows}))
    assert [in_words(r) for r in job.readings] == ["bore found 4.0278 in", "stroke 3.48 in"]
