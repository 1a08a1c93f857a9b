"""Lists of prices beside tables, ranges as limits, heads of ends and of numbered cylinders.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told

from workbook_tools.measurands.position import parse


def test_a_shopping_list_beside_a_table_is_none_of_it(tmp_path: Path) -> None:
    rows = [
        ["hole", "bore", "piston", "clr", "notes", "shopping", "price"],
        ["#1", 4.0312, 4.0283, 0.0029, None, "main brgs", 71.5],
        ["#2", 4.0311, 4.0284, 0.0027, "light scratch", "rod brgs", 58],
        ["#3", 4.0313, 4.0283, 0.0030, None, "gasket set", 84.95],
        ["#4", 4.0312, 4.0282, 0.0030, None, "oil pump", 46],
    ]
    # The list begins above the table's heads.
    wider = [[None] * 5 + ["shopping", "price"], *([None] * 5 + ["rings", 64] for _ in "12")]
    rows[0][5:] = ["timing set", 39.5]
    found = told(tmp_path, [*wider, *rows])
    assert found["B9"] == "bore 1 4.0312 in"
    assert found["D12"] == "piston_clearance 4 0.003 in"
    assert not {at for at, words in found.items() if at[0] in "FG" and "bearing" in words}


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm", "F int", "F exh", "R int", "R exh"],
             ["Stem", 7.884, 7.871, 7.884, 7.869], ["Guide", 7.927, 7.935, 7.930, 7.935]],
            {"B6": "intake_stem_diameter 1 7.884 mm", "E7": "exhaust_guide_bore 2 7.935 mm"},
            id="front and rear by letters",
        ),
        pytest.param(
            [["CILINDROS", "Nº 1 entró", "Nº 1 salió", "Nº 2 entró", "Nº 2 salió"],
             ["Camisa, Ø interior (mm)", 94.21, 94.03, 94.25, 94.04],
             ["Pistón, Ø falda (mm)", 93.80, 93.90, "roto", 93.89]],
            {"B6": "bore 1 found 94.21 mm", "E6": "bore 2 final 94.04 mm",
             "C7": "piston_diameter 1 final 93.9 mm"},
            id="before and after by cylinder",
        ),
        pytest.param(
            [["inches", "limits", "as found", "final"], ["Top gap 1", ".016-.022", .0175, .018],
             ["Top gap 2", ".016-.022", .018, .0185], ["Top gap 3", ".016-.022", .0175, .0185]],
            {"C6": "top_ring_gap 1 found 0.0175 in", "C7": "top_ring_gap 2 found 0.018 in",
             "D8": "top_ring_gap 3 final 0.0185 in"},
            id="the number behind a top gap",
        ),
    ],
)  # fmt: skip
def test_heads_say_which_one(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("text", [".016-.022", "3,75-3,80", "0.12", ".5-.6"])
def test_a_size_counts_nothing(text: str) -> None:
    assert parse(text) is None


def test_limits_before_a_line_without_heads_are_not_its_first(tmp_path: Path) -> None:
    rows = [["Main journal (mm)", "82,98-83,00", 82.99, 82.994, 82.989, 82.99]]
    expected = {"C5": "main_journal 1 82.99 mm", "F5": "main_journal 4 82.99 mm"}
    check_told(tmp_path, rows, expected)
