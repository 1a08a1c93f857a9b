"""Lists in sentences: places, sides and names behind their numbers, ratios, and a title over them.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told
from each_case import each

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.cell_figures import angle_from_dead_center
from workbook_tools.labels.sentences import mentions


@each(
    ("text", "found"),
    [
        ("Lash 0.35 inlet 0.40 exhaust", [("Lash inlet", 0, "0.35"), ("Lash exhaust", 0, "0.40")]),
        ("lash .012 int and .014 exh cold", [("lash int", 0, ".012"), ("lash exh", 0, ".014")]),
        ("stem clearance 0.03 mm inlet, 0.05 mm exhaust",
         [("stem clearance inlet", 0, "0.03 mm"), ("stem clearance exhaust", 0, "0.05 mm")]),
        # Sides before their numbers stay there.
        ("inlet 0.35 exhaust 0.40", [("inlet", 0, "0.35"), ("exhaust", 0, "0.40")]),
        ("Bore 4.0015 with a 3.997 piston, that is .0045 loose",
         [("Bore", 0, "4.0015"), ("piston", 0, "3.997"), ("loose", 0, ".0045")]),
        ("Bores 1) 4.031 2) 4.032 3) 4.033",
         [("Bores", 1, "4.031"), ("Bores", 2, "4.032"), ("Bores", 3, "4.033")]),
        ("deck .010 on 1 and .012 on 4", [("deck", 1, ".010"), ("deck", 4, ".012")]),
        ("end gap .018 on 1, .019 on 2", [("end gap", 1, ".018"), ("end gap", 2, ".019")]),
        ("Leakdown 4%, 5%, 6%",
         [("Leakdown", 1, "4 %"), ("Leakdown", 2, "5 %"), ("Leakdown", 3, "6 %")]),
        ("Piston 3.997, bore 4.0015, gives .0045",
         [("Piston", 0, "3.997"), ("bore", 0, "4.0015"), ("clearance", 0, ".0045")]),
        # A unit of torque behind the last is of all, inches and meters are not.
        ("bolts 55 and 60 ft-lb, rods 45",
         [("bolts", 1, "55 ft-lb"), ("bolts", 2, "60 ft-lb"), ("rods", 0, "45 ft-lb")]),
        ("gap .018 and 0.020 in", [("gap", 1, ".018"), ("gap", 2, "0.020 in")]),
    ],
)  # fmt: skip
def test_what_stands_behind_a_number(text: str, found: Sequence[tuple[str, int, str]]) -> None:
    assert [(m.label, m.which.number, m.text) for m in mentions(text)] == found


@each(("text", "places"), [("deck .010 on 4 mm", [1, 2]), ("lash .010 in 1", [1, 2])])
def test_a_size_behind_on_counts_nothing(text: str, places: Sequence[int]) -> None:
    assert [m.which.number for m in mentions(text)] == places


@each(
    ("text", "labels"),
    [
        ("comes to 10.6:1 with these", ["compression ratio"]),
        ("10.6 : 1", ["compression ratio"]),
        ("comes to 10,6 to 1", ["compression ratio"]),
        # Another ratio has a name of its own.
        ("rocker ratio 1.6:1", ["rocker ratio", "rocker ratio"]),
    ],
)
def test_a_ratio_to_one_is_that_of_compression(text: str, labels: Sequence[str]) -> None:
    assert [m.label.removeprefix("comes to ") for m in mentions(text)] == labels


@pytest.mark.parametrize(
    "text", ["This comes to 10.6:1 with that gasket", "Works out: 10.6:1", "Worked out: 10.6 : 1"]
)
def test_a_cell_with_a_ratio(tmp_path: Path, text: str) -> None:
    check_told(tmp_path, [[text]], {"A5": "compression_ratio 10.6"})


def test_a_title_is_what_numbers_without_a_name_are_of() -> None:
    assert mentions(".018, .019, .020") == []
    found = [(m.label, m.which.number) for m in mentions(".018, .019, .020", "Top ring gaps")]
    assert found == [("Top ring gaps", 1), ("Top ring gaps", 2), ("Top ring gaps", 3)]


@pytest.mark.parametrize(
    ("title", "reading"),
    [("Top ring gaps", "top_ring_gap 0.018 in"), ("Top ring gaps - filed", "top_ring_gap 0.018 in"),
     ("Gaps of all top rings", "")],
)  # fmt: skip
def test_a_title_over_sentences(tmp_path: Path, title: str, reading: str) -> None:
    assert told(tmp_path, [[title], ["all at .018 in"]]).get("A6", "") == reading


@pytest.mark.parametrize(
    ("text", "angle"),
    [("44 BTDC", 44), ("72 abdc", 72), ("62 nUT", 62), ("24,5 vOT", 24.5), ("92 PMS", None),
     ("40 after TDC", None), ("12 OT", None)],
)  # fmt: skip
def test_an_angle_without_a_sign_of_degrees(text: str, angle: float | None) -> None:
    found = angle_from_dead_center(text)
    assert (found[0] if found else None) == angle


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Intake opens", "44 BTDC"], ["Intake closes", "72 ABDC"],
             ["Exhaust opens", "76 BBDC"], ["Exhaust closes", "40 ATDC"]],
            {"B5": "intake_opening 44 deg", "B6": "intake_closing 72 deg",
             "B7": "exhaust_opening 76 deg", "B8": "exhaust_closing 40 deg"},
            id="English",
        ),
        pytest.param(
            [["Einlass öffnet", "24 vOT"], ["Einlass schließt", "62 nUT"],
             ["Auslass öffnet", "66 vUT"], ["Auslass schließt", "20 nOT"]],
            {"B5": "intake_opening 24 deg", "B6": "intake_closing 62 deg",
             "B7": "exhaust_opening 66 deg", "B8": "exhaust_closing 20 deg"},
            id="German",
        ),
    ],
)  # fmt: skip
def test_angles_of_valves_without_signs(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_the_dead_center_is_kept_in_words(make_book: Callable[..., Path]) -> None:
    (job,) = read_jobs(make_book({"Cam": [["Intake opens", "44 BTDC"]]}))
    assert [r.note for r in job.readings] == ["before top dead center"]
