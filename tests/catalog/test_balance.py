"""Balance: what must not be missing, and how its functions hang together."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_a_part_that_was_not_weighed_is_named(eng):
    with pytest.raises(ArgumentError, match=r"reciprocating: .*row 1, column 2 .* is empty"):
        eng("BOBWEIGHT", 512.9, ((512.4, None, 41.8),), 0.5)
    with pytest.raises(ArgumentError, match=r"rotating: .*row 2, column 1 .* is empty"):
        eng("BOBWEIGHT", ((468.3,), (None,)), 861.9, 0.5)


def test_factor_is_a_share_not_a_percentage(eng):
    with pytest.raises(ArgumentError, match=r"factor: expected .* from 0 to 1, got 50"):
        eng("BOBWEIGHT", 512.9, 861.9, 50)


def test_no_reciprocating_share_leaves_the_rotating_parts(eng):
    assert eng("BOBWEIGHT", 512.9, 861.9, 0, 1) == pytest.approx(512.9)


def test_two_rods_on_a_journal_if_left_out(eng):
    assert eng("BOBWEIGHT", 512.9, 861.9, 0.5) == pytest.approx(2 * (512.9 + 0.5 * 861.9))


def test_a_grade_coarser_than_the_standard_s_is_refused(eng):
    assert eng("PERMISSIBLE_UNBALANCE", 25000, 3500, 4000, "metric") > 0
    with pytest.raises(ArgumentError, match="grade: expected a grade of 4000 at most"):
        eng("PERMISSIBLE_UNBALANCE", 25000, 3500, 4001, "metric")


def test_permissible_unbalance_pulls_alike_for_one_mass_and_speed(eng):
    # e * omega is the grade: at twice the speed half the unbalance is permitted.
    slow = eng("PERMISSIBLE_UNBALANCE", 25000, 3500, 16, "metric")
    fast = eng("PERMISSIBLE_UNBALANCE", 25000, 7000, 16, "metric")
    assert slow == pytest.approx(2 * fast, rel=1e-12)


def test_drill_that_cannot_do_it(eng):
    with pytest.raises(ArgumentError, match="drill_diameter: expected a larger drill"):
        eng("DRILL_DEPTH", 100, 3, 0.5)
    with pytest.raises(ArgumentError, match="drill_diameter: expected a smaller drill"):
        eng("DRILL_DEPTH", 0.001, 3, 0.5)
    for angle in (44, 181):
        with pytest.raises(ArgumentError, match="point_angle: expected an angle from 45 to 180"):
            eng("DRILL_DEPTH", 1, 3, 0.5, "steel", angle)
    assert eng("DRILL_DEPTH", 1, 3, 0.5, "steel", 45) < eng("DRILL_DEPTH", 1, 3, 0.5, "steel", 180)


def test_a_light_slug_is_refused(eng):
    with pytest.raises(ArgumentError, match="material: expected a material heavier than the crank"):
        eng("SLUG_GAIN", 1, 1, "aluminum")


def test_gain_of_a_slug_is_its_mass_less_the_metal_drilled_out(eng):
    slug = eng("SLUG_MASS", 1, 1, "heavy metal")
    hole = eng("SLUG_MASS", 1, 1, "ductile iron")
    assert eng("SLUG_GAIN", 1, 1, "heavy metal", "ductile iron") == pytest.approx(slug - hole)


def test_both_orders_are_their_sum(eng):
    crank = (600, 86, 145, 7000, 40)
    first, second, both = (
        eng("RECIPROCATING_FORCE", *crank, order, "metric") for order in ("first", "second", "both")
    )
    assert both == pytest.approx(first + second, rel=1e-12)
    assert eng("RECIPROCATING_FORCE", 600, 3.4, 5.7, 7000, 40) == pytest.approx(
        eng("RECIPROCATING_FORCE", 600, 3.4, 5.7, 7000, 40, "both"), rel=1e-12
    )


def test_mass_spread_wants_every_part(eng):
    with pytest.raises(ArgumentError, match="masses: expected a reading in every cell") as error:
        eng("MASS_SPREAD", ((512.4, None),))
    assert error.value.missing
