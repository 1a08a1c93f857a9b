"""ISO 898-1: stress areas and proof loads of metric bolts, as reproduced in several tables."""

import pytest
from sources import from_memory, printed

SOURCE = printed("ISO 898-1", "Tables 4 to 7", "as several handbooks reproduce them")
MEMORY = from_memory("ISO 898-1")

# Thread: stress area in mm2, proof loads in kN for classes 8.8, 10.9 and 12.9, as printed.
COARSE = {
    "M6": (20.1, 11.6, 16.7, 19.5),
    "M8": (36.6, 21.2, 30.4, 35.5),
    "M10": (58.0, 33.7, 48.1, 56.3),
    "M12": (84.3, 48.9, 70.0, 81.8),
    "M14": (115, 66.7, 95.5, 112),
}
LARGE_FROM_MEMORY = {
    "M16": 157, "M18": 192, "M22": 303, "M24": 353, "M27": 459, "M30": 561, "M33": 694, "M36": 817,
    "M39": 976,
}  # fmt: skip
FINE_FROM_MEMORY = {"M8x1": 39.2, "M10x1.25": 61.2, "M12x1.5": 88.1, "M12x1.25": 92.1}


@pytest.mark.parametrize("thread", COARSE)
def test_stress_area(agree, eng, thread):
    got = eng("THREAD_STRESS_AREA", thread, "metric")
    agree("THREAD_STRESS_AREA", SOURCE, COARSE[thread][0], got, rel=4e-3)


@pytest.mark.parametrize("thread", LARGE_FROM_MEMORY)
def test_stress_area_of_large_studs(agree, eng, thread):
    # Whole square millimeters: the coarse pitch of each is put to the test too.
    got = eng("THREAD_STRESS_AREA", thread, "metric")
    agree("THREAD_STRESS_AREA", MEMORY, LARGE_FROM_MEMORY[thread], got, abs=0.6)


@pytest.mark.parametrize("thread", FINE_FROM_MEMORY)
def test_stress_area_of_fine_threads(agree, eng, thread):
    got = eng("THREAD_STRESS_AREA", thread, "metric")
    agree("THREAD_STRESS_AREA", MEMORY, FINE_FROM_MEMORY[thread], got, abs=0.05)


@pytest.mark.parametrize(("diameter", "pitch", "area"), [(6, 1, 20.1), (10, 1.5, 58.0)])
def test_area_from_diameter_and_pitch(agree, eng, diameter, pitch, area):
    got = eng("THREAD_AREA_FROM_PITCH", diameter, pitch, "metric", "metric")
    agree("THREAD_AREA_FROM_PITCH", SOURCE, area, got, abs=0.05)


@pytest.mark.parametrize("thread", COARSE)
def test_proof_load(agree, eng, thread):
    # Printed loads come from rounded areas and are rounded up or down to three figures. A
    # class stands in its cell as a number as often as as a text.
    for grade, kilonewtons in zip((8.8, "10.9", 12.9), COARSE[thread][1:], strict=True):
        got = eng("PROOF_LOAD", thread, grade, "metric") / 1000
        agree("PROOF_LOAD", SOURCE, kilonewtons, got, rel=8e-3)


def test_class_eight_has_a_higher_proof_stress_above_sixteen_millimeters(agree, eng):
    small = eng("PROOF_LOAD", "M16", 8.8, "metric") / eng("THREAD_STRESS_AREA", "M16", "metric")
    large = eng("PROOF_LOAD", "M18", 8.8, "metric") / eng("THREAD_STRESS_AREA", "M18", "metric")
    agree("PROOF_LOAD", SOURCE, 580, small)
    agree("PROOF_LOAD", SOURCE, 600, large)


# Proof loads of M10 in kN, as printed.
OTHER_CLASSES_FROM_MEMORY = {
    "4.6": 13.1, "4.8": 18.0, "5.6": 16.2, "5.8": 22.0, "6.8": 25.5, "9.8": 37.7,
}  # fmt: skip


@pytest.mark.parametrize("grade", OTHER_CLASSES_FROM_MEMORY)
def test_proof_load_of_other_classes(agree, eng, grade):
    got = eng("PROOF_LOAD", "M10", grade, "metric") / 1000
    agree("PROOF_LOAD", MEMORY, OTHER_CLASSES_FROM_MEMORY[grade], got, rel=8e-3)
