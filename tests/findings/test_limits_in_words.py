"""Limits that a keeper writes in words: below a table, for each side, once for a column.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest

PINS = [
    ["Crankpin (mm)", "found", "ground", "ovality", "shell bore", "clearance"],
    *([n, 51.95, 51.736, oval, 51.782, 0.046] for n, oval in enumerate((0.003, 0.022, 0.004), 1)),
]
VALVES = [
    ["Piston to valve (clay, min .080 in / .100 ex)"],
    ["cyl", "Intake", "Exhaust"],
    *([n, *of] for n, of in ((1, (0.112, 0.131)), (4, (0.108, 0.078)), (7, (0.070, 0.130)))),
]
RINGS = [
    ["Ring gaps, inch", "min .016 top / .014 2nd"],
    ["cyl", "top", "2nd"],
    *([n, *of] for n, of in ((1, (0.017, 0.015)), (2, (0.015, 0.015)), (3, (0.017, 0.013)))),
]
LINERS = [
    ["Cylinder", "Bore (mm)", "Liner protrusion", None],
    [None, None, "front", "rear"],
    *([n, 128.01, *of] for n, of in enumerate([(0.05, 0.05), (0.06, 0.06), (0.12, 0.06)], 1)),
    ["Target", None, "0.03-0.08", "0.03-0.08"],
]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param([*PINS, ["ovality max 0.008"]], {"D3": "0.008 mm (A5)"}, id="below a table"),
        pytest.param(
            [["Main (in)", "crank", "shell ID", "clr thou"],
             [1, 2.7398, 2.7421, 2.3], [2, 2.7397, 2.7421, 2.4], [3, 2.7398, 2.7440, 4.2],
             ["want 1.8 to 3.0"]],
            {"D4": "0.003 in (A5)"},
            id="what is wanted, below clearances",
        ),
        pytest.param(VALVES, {"C4": "0.1 in (A1)", "B5": "0.08 in (A1)"}, id="of each side"),
        pytest.param(RINGS, {"B4": "0.016 in (B1)", "C5": "0.014 in (B1)"}, id="of each ring"),
        pytest.param(LINERS, {"C5": "0.08 mm (C6)"}, id="a row of what is wanted at two ends"),
        pytest.param(
            [["Cyl", "P/W in", "spec"], [1, 0.0045, ".0040-.0050"], [2, 0.0046], [3, 0.0055]],
            {"B4": "0.005 in (C2)"},
            id="once for a column",
        ),
        pytest.param(
            [["Deck clearance, in", 0.004, "no more than .003"]],
            {"B1": "0.003 in (C1)"},
            id="no more than",
        ),
        pytest.param(
            [["Deck clearance, in", 0.004, "at most .003"]],
            {"B1": "0.003 in (C1)"},
            id="at most",
        ),
        pytest.param(
            [["Bore taper, not over .0005 in", 0.0002, 0.0003, 0.0008, 0.0003]],
            {"D1": "0.0005 in (A1)"},
            id="at the end of a label",
        ),
        pytest.param(
            [["Bore taper, limit .0005 in", 0.0002, 0.0003, 0.0008, 0.0003]],
            {"D1": "0.0005 in (A1)"},
            id="the limit of a fault is the most",
        ),
    ],
)  # fmt: skip
def test_what_is_outside_a_limit_in_words_is_told(
    findings, rows: Sequence[Sequence[object]], expected: dict[str, str]
) -> None:
    found = {
        at.partition("!")[2]: message
        for at, (kind, message) in findings(S=rows).items()
        if kind == "out of band"
    }
    assert {at: limit in found.get(at, "") for at, limit in expected.items()} == dict.fromkeys(
        expected, True
    ), found
    assert found.keys() == expected.keys()


def test_two_gaps_in_thousandths_are_no_fraction(findings) -> None:
    rows = [["mm unless noted", 1, 2, 3, "spec"],
            ["Top ring gap", "16 thou", "16 thou", "17 thou", "16/18 thou"]]  # fmt: skip
    assert "unit slip" not in {kind for kind, _ in findings(S=rows).values()}
