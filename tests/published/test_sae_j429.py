"""SAE J429 grades, by Shigley & Mischke, Mechanical Engineering Design, 5e 1989, p. 341."""

import pytest
from sources import printed

SOURCE = printed("SAE J429, in Shigley & Mischke, Mechanical Engineering Design, 5e 1989", "p. 341")


# Tensile stress areas in sq in: Shigley, 9e, Table 8-2; of 1 in and above from memory.
AREAS = {
    "1/4-20": 0.0318, "3/4-10": 0.334, "7/16-20": 0.1187, "1-8": 0.606, "1 1/8-12": 0.856,
    "1-1/2-12": 1.581,
}  # fmt: skip


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
def test_proof_load_is_the_printed_stress_on_the_printed_area(agree, eng, thread, grade, ksi):
    got = eng("PROOF_LOAD", thread, grade)
    agree("PROOF_LOAD", SOURCE, 1000 * ksi * AREAS[thread], got, rel=2.5e-3)
