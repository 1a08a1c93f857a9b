"""Bearings: what their functions refuse, and that inverse functions agree."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_one_thicker_half_shell_closes_the_bearing_once_and_two_twice(eng):
    # Housing 2.6410, shells 0.0950, journal 2.4486 in.
    alike = eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.4486)
    one = eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.4486, 0.0955)
    both = eng("BEARING_CLEARANCE", 2.6410, 0.0955, 2.4486)
    assert (alike, one, both) == pytest.approx((0.0024, 0.0019, 0.0014), abs=1e-12)


def test_an_interference_is_a_negative_clearance(eng):
    assert eng("BEARING_CLEARANCE", 2.6380, 0.0950, 2.4486) == pytest.approx(-0.0006, abs=1e-12)


def test_a_journal_of_another_size_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"journal: expected a size within 2 %.*got 2.1"):
        eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.1)
    # 0.051 in on 2.400 in is just beyond, 0.046 in on 2.405 in just within.
    with pytest.raises(ArgumentError, match="journal: expected a size within 2 %"):
        eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.400)
    assert eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.405) == pytest.approx(0.046)


def test_no_heat_changes_nothing(eng):
    cold = eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.4486, 0.0955)
    args = (2.6410, 0.0950, 2.4486, 0, 0, "aluminum", "alloy steel", "steel", 0.0955)
    assert eng("HOT_BEARING_CLEARANCE", *args) == pytest.approx(cold, rel=1e-12)


def test_an_aluminum_housing_opens_and_an_iron_one_does_not(eng):
    heat = (64.020, 2.005, 59.955, 80, 80)
    aluminum = eng("HOT_BEARING_CLEARANCE", *heat, "aluminum", "steel", "steel", 2.005, "metric")
    iron = eng("HOT_BEARING_CLEARANCE", *heat, "gray iron", "steel", "steel", 2.005, "metric")
    assert aluminum > 0.09
    assert iron == pytest.approx(0.055, abs=0.003)


def test_shells_differ_only_as_far_as_allowed(eng):
    walls = ((0.0940, 0.0950, 0.0960),)
    # Wanted 0.0014: only 0.0950 with 0.0960 hits it, but they differ by 0.001.
    near = eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.0014, walls)[0]
    assert near == pytest.approx((0.0950, 0.0950, 0.0024))
    wider = eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.0014, walls, 0.001)[0]
    assert wider == pytest.approx((0.0950, 0.0960, 0.0014))
    equal = eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.0022, ((0.0950, 0.0951),), 0)[0]
    assert equal == pytest.approx((0.0951, 0.0951, 0.0022))


def test_of_equally_near_pairs_the_halves_alike_are_taken(eng):
    # 0.0948 with 0.0952 and 0.0950 twice leave the same clearance.
    for walls in ((0.0948, 0.0950, 0.0952), (0.0952, 0.0950, 0.0948)):
        got = eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.0024, (walls,))[0]
        assert got == pytest.approx((0.0950, 0.0950, 0.0024))


def test_a_wanted_clearance_in_another_unit_is_refused(eng):
    with pytest.raises(ArgumentError, match="clearance: expected 2 % of the journal at most"):
        eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.06, ((0.0950, 0.0955),))


def test_no_shell_fits(eng):
    with pytest.raises(ArgumentError, match="shell_walls: expected walls that leave room"):
        eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.0022, ((0.0980, 0.0990),))
    with pytest.raises(ArgumentError, match="shell_walls: expected at least one wall"):
        eng("SHELL_FOR_CLEARANCE", 2.6410, 2.4486, 0.0022, ((None, None),))


def test_one_rod_counted_instead_of_two_is_refused(eng):
    with pytest.raises(ArgumentError, match="rod_width: expected a width that fills the journal"):
        eng("ROD_SIDE_CLEARANCE", 1.895, 0.940)
    # A single's rod, guided by its piston, may have a fifth of the width; no more.
    assert eng("ROD_SIDE_CLEARANCE", 17, 14, 1, "metric") == pytest.approx(3)
    with pytest.raises(ArgumentError, match="rod_width: expected a width that fills the journal"):
        eng("ROD_SIDE_CLEARANCE", 17, 13, 1, "metric")


def test_a_thrust_bearing_of_another_crank_is_refused(eng):
    with pytest.raises(ArgumentError, match="bearing_width: expected a width near"):
        eng("END_PLAY", 1.1855, 1.06)
    assert eng("END_PLAY", 1.1855, 1.07) == pytest.approx(0.1155)
