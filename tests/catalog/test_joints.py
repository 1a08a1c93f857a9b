"""Clamped parts: what is refused, both unit systems, signs, and how the functions chain."""

import pytest

from workbook_tools.catalog import ArgumentError


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("JOINT_RATE", (0.5, 0.5, 1, 1, "steel", "steel"), "face"),
        ("JOINT_RATE", (0, 0.5, 1, 1, "steel", "steel"), "hole"),
        ("JOINT_RATE", (0.5, 0.75, 1, 1, "steel", "cheese"), "thread_material"),
        ("BOLT_SHARE", (1.5e6, 0), "joint_rate"),
        ("LOAD_FROM_HEAT", (1.5e6, 4e6, 0, 100, 100, "steel", "aluminum"), "grip"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter


def test_the_order_of_the_parts_does_not_matter(eng):
    one = eng("JOINT_RATE", 11, 17, 40, 12, "aluminum", "gray iron", "metric")
    other = eng("JOINT_RATE", 11, 17, 12, 40, "gray iron", "aluminum", "metric")
    assert one == pytest.approx(other)
    inch = eng("JOINT_RATE", "11 mm", "17 mm", "40 mm", "12 mm", "aluminum", "gray iron")
    assert inch == pytest.approx(one * 5.710147)


def test_a_cut_in_one_material_changes_nothing(eng):
    whole = eng("JOINT_RATE", 11, 17, 52, 0, "aluminum", "steel", "metric")
    cut = eng("JOINT_RATE", 11, 17, 37, 15, "aluminum", "aluminum", "metric")
    assert whole == pytest.approx(cut)


def test_steel_studs_in_an_aluminum_joint_gain_warm_and_lose_cold(eng):
    joint = eng("JOINT_RATE", 11, 17, 85, 5, "aluminum", "aluminum", "metric")
    stud = (320e3, joint, 90)
    warm = eng("LOAD_FROM_HEAT", *stud, 80, 80, "alloy steel", "aluminum", "metric")
    cold = eng("LOAD_FROM_HEAT", *stud, -40, -40, "alloy steel", "aluminum", "metric")
    assert warm > 0 > cold
    assert warm == pytest.approx(-2 * cold)


def test_a_share_goes_into_the_margins(eng):
    share = eng("BOLT_SHARE", 1.5e6, 4e6)
    assert eng("JOINT_MARGIN", 10000, 4000, share) == pytest.approx(10000 / 4000 * 5.5 / 4)
