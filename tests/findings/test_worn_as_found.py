"""Worn parts as they came in: more play and ovality than a new part has, and no slips.

That worn parts have so much is common practice, no source.
"""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    ("stage", "told"),
    [pytest.param("As found", False, id="worn"), pytest.param("Final", True, id="finished")],
)
def test_more_ovality_than_usual_is_none_of_a_worn_crankpin(
    findings, stage: str, told: bool
) -> None:
    rows = [
        ["", "No. 1", "No. 2", "No. 3", "No. 4"],
        ["Crankpin in", 1.6219, 1.6212, 1.6215, 1.6220],
        [f"Crankpin out of round {stage.lower()}, in", 0.0008, 0.0035, 0.0007, 0.0008],
    ]
    found = findings(S=rows)
    assert any("out of round" in text and "no usual" in text for _, text in found.values()) is told


def test_worn_and_unworn_ends_of_bores_are_no_exchanged_digits(findings) -> None:
    rows = [
        [
            "Cylinder",
            "As received, top of ring travel",
            "As received, unworn bottom",
            "As fitted",
            "Piston skirt",
        ],
        ["No. 1", 2.9612, 2.9534, 2.9931, 2.9901],
        ["No. 2", 2.9621, 2.9536, 2.9932, 2.9902],
        ["No. 3", 2.9626, 2.9535, 2.9930, 2.9901],
        ["No. 4", 2.9609, 2.9533, 2.9931, 2.9900],
    ]
    assert not [text for _, text in findings(S=rows).values() if "exchanged" in text]
