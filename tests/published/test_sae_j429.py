"""SAE J429 grades, by Shigley & Mischke, Mechanical Engineering Design, 5e 1989, p. 341."""

import pytest

SOURCE = "SAE J429, by Shigley & Mischke 5e 1989, p. 341"


@pytest.mark.parametrize(
    ("thread", "grade", "ksi"),
    [
        ("1/4-20", "grade 2", 55),
        ("3/4-10", "grade 2", 55),
        ("1/4-20", "grade 5", 85),
        ("7/16-20", "grade 5", 85),
        ("1-8", "grade 5", 85),
        ("1 1/8-12", "grade 5", 74),
        ("7/16-20", "grade 7", 105),
        ("7/16-20", "grade 8", 120),
        ("1-1/2-12", "grade 8", 120),
    ],
)
def test_proof_stress(agree, eng, thread, grade, ksi):
    got = eng("PROOF_LOAD", thread, grade) / eng("THREAD_STRESS_AREA", thread) / 1000
    agree("PROOF_LOAD", SOURCE, ksi, got)
