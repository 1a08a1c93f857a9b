"""Matching: shape of the answer and what is refused. Optimality: tests/published."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_answer_lies_beside_the_bores(eng):
    # Bores down a column, pistons across a row: the largest piston for the largest bore.
    bores = ((4.0300,), (4.0315,), (4.0305,))
    pistons = ((4.0275, 4.0268, 4.0200, 4.0262),)
    assert eng("PISTONS_TO_BORES", bores, pistons, 0.0040) == ((4,), (1,), (2,))


def test_equal_pistons_are_each_used_once(eng):
    got = eng("PISTONS_TO_BORES", ((4.03, 4.03, 4.03),), ((4.026, 4.026, 4.026),), 0.004)
    assert sorted(got[0]) == [1, 2, 3]


def test_too_few_pistons(eng):
    with pytest.raises(ArgumentError, match="pistons: expected as many as bores or more, got 1"):
        eng("PISTONS_TO_BORES", ((4.03, 4.03),), 4.026, 0.004)


def test_a_bore_that_was_not_measured_is_named(eng):
    with pytest.raises(ArgumentError, match=r"bores: .*row 1, column 2 of the range is empty"):
        eng("PISTONS_TO_BORES", ((4.03, None),), ((4.026, 4.027),), 0.004)
    with pytest.raises(ArgumentError, match=r"pistons: .*row 1, column 2 of the range is empty"):
        eng("PISTONS_TO_BORES", ((4.03, 4.03),), ((4.026, None, 4.027),), 0.004)


def test_pistons_in_another_unit_are_refused(eng):
    with pytest.raises(ArgumentError, match=r"pistons: .*got 102.3 in row 1.*perhaps 102.3 mm"):
        eng("PISTONS_TO_BORES", ((4.03, 4.031),), ((102.3, 102.4),), 0.004)
    with pytest.raises(ArgumentError, match=r"pistons: .*within 2 % .*got none for bore 1 of the"):
        eng("PISTONS_TO_BORES", ((4.03, 4.031),), ((3.9, 3.91),), 0.004)
    with pytest.raises(ArgumentError, match="clearance: expected 2 % of the smallest bore at most"):
        eng("PISTONS_TO_BORES", ((4.03, 4.031),), ((4.026, 4.027),), 0.13)


def test_two_percent_is_the_limit_of_a_fit(eng):
    assert eng("PISTONS_TO_BORES", ((4.0, 4.1),), ((3.93, 4.02),), 0.079) == ((1, 2),)
    with pytest.raises(ArgumentError, match="clearance: expected 2 % of the smallest bore at most"):
        eng("PISTONS_TO_BORES", ((4.0, 4.1),), ((3.93, 4.02),), 0.081)
    with pytest.raises(ArgumentError, match=r"pistons: .*got none for bore 2 of the range"):
        eng("PISTONS_TO_BORES", ((4.0, 4.1),), ((3.93, 4.01),), 0.079)


def test_other_pistons_on_the_shelf_do_no_harm(eng):
    shelf = ((3.7, 4.0265, 4.0257, 4.2),)
    assert eng("PISTONS_TO_BORES", ((4.0300, 4.0306),), shelf, 0.004) == ((3, 2),)


def test_a_part_weighed_in_another_unit_is_refused(eng):
    with pytest.raises(ArgumentError, match="second_masses: expected parts of one kind"):
        eng("PARTS_TO_SETS", ((560.2, 559.8),), ((548, 0.551),))
    with pytest.raises(ArgumentError, match="first_masses: expected parts of one kind"):
        eng("PARTS_TO_SETS", ((0.56, 559.8),), ((548, 551),))


def test_the_heavy_rod_takes_the_light_piston(eng):
    assert eng("PARTS_TO_SETS", ((600.0, 602.0, 601.0),), ((510.0, 511.0, 512.0),)) == ((3, 1, 2),)


@pytest.mark.parametrize("blamed", ["first_masses", "second_masses"])
def test_a_part_that_was_not_weighed_is_named(eng, blamed):
    whole, short = ((600.0, 602.0),), ((510.0, None),)
    masses = (short, whole) if blamed == "first_masses" else (whole, short)
    with pytest.raises(ArgumentError, match=rf"{blamed}: .*row 1, column 2 of the range is empty"):
        eng("PARTS_TO_SETS", *masses)


def test_sets_need_as_many_of_both(eng):
    with pytest.raises(ArgumentError, match="second_masses: expected as many parts"):
        eng("PARTS_TO_SETS", ((600.0, 602.0),), ((510.0, 511.0, 512.0),))
