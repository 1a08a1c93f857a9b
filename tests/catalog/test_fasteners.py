"""Bolts: how a thread is written, what is refused, and that inverse functions agree."""

import pytest
from each_case import each

from workbook_tools.catalog import ArgumentError


@each(
    ("written", "same"),
    [
        ("0.4375-20", "7/16-20"),
        ('7/16"-20 UNF', "7/16-20"),
        (" 7/16 - 20 ", "7/16-20"),
        ("1 1/8-12", "1.125-12"),
        ("1-1/8-12", "1.125-12"),
        ("M10", "M10x1.5"),
        ("m10 X 1,25", "M10x1.25"),
        ("M10×1.25", "M10x1.25"),
        ("M10-1.25", "M10x1.25"),
        ("M10x1.25-6g", "M10x1.25"),
        ("M10 - 5g6g", "M10x1.5"),
        ("M30", "M30x3.5"),
        ("7/16-20 UNF-2A", "7/16-20"),
        ("7/16-20UNJF 3B", "7/16-20"),
        ("#10-32", "0.190-32"),
        ("No. 8-32 UNC", "0.164-32"),
    ],
)
def test_spellings_of_a_thread(eng, written, same):
    assert eng("THREAD_STRESS_AREA", written) == eng("THREAD_STRESS_AREA", same)


@pytest.mark.parametrize(
    "text", ["7/16", "10x1.25", "1/4-0", "1/0-20", "rod bolt", "M", "-20", "#11-20"]
)
def test_no_thread(eng, text):
    with pytest.raises(ArgumentError, match=r'thread: expected a thread such as "7/16-20"'):
        eng("THREAD_STRESS_AREA", text)


def test_a_size_without_a_usual_pitch_asks_for_it(eng):
    with pytest.raises(ArgumentError, match=r'thread: expected its pitch too, such as "M11x1.25"'):
        eng("THREAD_STRESS_AREA", "M11")
    assert eng("THREAD_STRESS_AREA", "M11x1.5", "metric") > 0


def test_a_numbered_size_without_its_sign_is_told_of_it(eng):
    with pytest.raises(ArgumentError, match=r"thread: .*a numbered size has its sign"):
        eng("THREAD_STRESS_AREA", "10-32")


@pytest.mark.parametrize("text", ["M10x9", "M1.25x10", "7/16-2"])
def test_diameter_and_pitch_that_do_not_fit(eng, text):
    with pytest.raises(ArgumentError, match="thread: expected a pitch between"):
        eng("THREAD_STRESS_AREA", text)


def test_designation_and_sizes_give_one_area(eng):
    assert eng("THREAD_AREA_FROM_PITCH", 7 / 16, 1 / 20, "inch") == pytest.approx(
        eng("THREAD_STRESS_AREA", "7/16-20"), rel=1e-12
    )
    assert eng("THREAD_AREA_FROM_PITCH", 10, 1.25, "metric", "metric") == pytest.approx(
        eng("THREAD_STRESS_AREA", "M10x1.25", "metric"), rel=1e-12
    )
    with pytest.raises(ArgumentError, match="pitch: expected 30 % of the diameter at most"):
        eng("THREAD_AREA_FROM_PITCH", 10, 3.1, "metric", "metric")


def test_an_unknown_grade_is_answered_with_the_known_ones(eng):
    with pytest.raises(ArgumentError, match=r'grade: expected one of "4.6".*"grade 8", got 9.9'):
        eng("PROOF_LOAD", "M10", 9.9)


def test_a_shop_s_own_grade(eng, tmp_path, monkeypatch):
    shop = tmp_path / "bands.toml"
    shop.write_text(
        '[[band]]\ntable = "proof stress"\ngrade = "12.9"\nsize = "any"\nlow = 1000\n'
        'unit = "MPa"\norigin = "our bolt maker"\n'
    )
    monkeypatch.setenv("WORKBOOK_TOOLS_BANDS", str(shop))
    area = eng("THREAD_STRESS_AREA", "M10", "metric")
    assert eng("PROOF_LOAD", "M10", 12.9, "metric") == pytest.approx(1000 * area)


def test_the_step_in_proof_stress_is_at_16_mm_for_a_class_and_at_1_in_for_a_grade(eng):
    # ISO 898-1: class 8.8 has 580 MPa up to 16 mm, 600 above; SAE J429: grade 5 has 85 ksi up to
    # 1 in, 74 above.
    for thread, stress in (("5/8-18", 580), ("3/4-16", 600), ("7/8-14", 600), ("M18x1.5", 600)):
        area = eng("THREAD_STRESS_AREA", thread, "metric")
        assert eng("PROOF_LOAD", thread, 8.8, "metric") == pytest.approx(stress * area)
    assert eng("PROOF_LOAD", "3/4-16", "8.8") == pytest.approx(32459, abs=5)
    for thread, stress in (("3/4-16", 85e3), ("1-12", 85e3), ("1 1/8-12", 74e3)):
        area = eng("THREAD_STRESS_AREA", thread)
        assert eng("PROOF_LOAD", thread, "grade 5") == pytest.approx(stress * area)


def test_margins_say_what_the_load_leaves(eng):
    # The whole load on the bolt and the whole load from the joint, unless shares are given.
    assert eng("BOLT_MARGIN", 12000, 8000, 2000) == pytest.approx(1.2)
    assert eng("JOINT_MARGIN", 8000, 2000) == pytest.approx(4.0)
    with pytest.raises(ArgumentError, match="bolt_share: expected below 1"):
        eng("JOINT_MARGIN", 8000, 2000, 1)


def test_rod_bolts_share_the_load(eng):
    two = eng("ROD_BOLT_LOAD", 600, 86, 145, 7000, 2, 0, "metric")
    four = eng("ROD_BOLT_LOAD", 600, 86, 145, 7000, 4, 0, "metric")
    assert two == pytest.approx(2 * four, rel=1e-12)
    assert eng("ROD_BOLT_LOAD", 600, "86 mm", "145 mm", 7000) * 4.4482216 == pytest.approx(two)


def test_a_rod_shorter_than_the_throw_is_refused(eng):
    with pytest.raises(ArgumentError, match="rod_length: expected longer than half the stroke"):
        eng("ROD_BOLT_LOAD", 600, 86, 43, 7000, 2, 0, "metric")


def test_threads_beyond_the_standards_have_no_proof_load(eng):
    assert eng("PROOF_LOAD", "M39", 10.9) > 0
    with pytest.raises(ArgumentError, match="thread: expected a thread of 39 mm"):
        eng("PROOF_LOAD", "M39.1x4", 10.9)


@pytest.mark.parametrize(
    ("thread", "grade", "most"),
    [("M18", "9.8", "16 mm"), ("7/8-9", "grade 2", "0.75 in")],
)
def test_a_thread_beyond_its_grade_is_refused(eng, thread, grade, most):
    with pytest.raises(ArgumentError, match=f"a thread of {most} at most, which {grade} is for"):
        eng("PROOF_LOAD", thread, grade)
    assert eng("PROOF_LOAD", {"9.8": "M16", "grade 2": "3/4-10"}[grade], grade) > 0
