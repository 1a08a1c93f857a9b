"""Piston effort and what follows from it: signs, dead centers, refusals, both unit systems."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_inertia_relieves_the_piston_at_top_dead_center(eng):
    slow = eng("PISTON_EFFORT", 4.11, 900, 730, 3.54, 6, 1000, 0)
    fast = eng("PISTON_EFFORT", 4.11, 900, 730, 3.54, 6, 6500, 0)
    assert fast < slow
    assert eng("PISTON_EFFORT", 4.11, 0, 730, 3.54, 6, 6500, 0) == pytest.approx(
        -eng("RECIPROCATING_FORCE", 730, 3.54, 6, 6500, 0, "both")
    )


def test_an_exhaust_stroke_pulls_the_rod_and_leans_the_other_way(eng):
    effort = eng("PISTON_EFFORT", 4.11, 2, 730, 3.54, 6, 6500, 330)
    assert effort < 0
    assert eng("ROD_THRUST", effort, 3.54, 6, 330) < effort
    # The rod leans back as well, so the wall is pressed on the major thrust side.
    assert eng("SIDE_THRUST", effort, 3.54, 6, 330) > 0
    assert eng("SIDE_THRUST", effort, 3.54, 6, 30) < 0


@pytest.mark.parametrize("angle", [0, 180, 360])
def test_there_is_no_torque_and_no_side_thrust_at_a_dead_center(eng, angle):
    assert eng("CRANK_TORQUE", 8000, 3.54, 6, angle) == pytest.approx(0, abs=1e-8)
    assert eng("SIDE_THRUST", 8000, 3.54, 6, angle) == pytest.approx(0, abs=1e-8)


def test_both_systems_agree(eng):
    inch = eng("CRANK_TORQUE", 8000, 3.54, 6, 40)
    metric = eng("CRANK_TORQUE", "8000 lbf", "3.54 in", "6 in", 40, "metric")
    assert metric == pytest.approx(inch * 1.3558179483)


@pytest.mark.parametrize(
    ("name", "arguments", "words"),
    [
        ("SIDE_THRUST", (8000, 3.54, 1.5, 15), "rod_length: expected longer than half the stroke"),
        ("PISTON_EFFORT", (4.11, -20, 730, 3.54, 6, 6500, 15), "gas_pressure: expected a press"),
        ("CRANK_TORQUE", ("60 lbf.ft", 3.54, 6, 15), "piston_effort: expected a force"),
        ("CRANKPIN_LOAD", (8000, 0, 3.54, 6, 6500, 15), "big_end_mass: expected a mass above 0"),
    ],
)
def test_refusals(eng, name, arguments, words):
    with pytest.raises(ArgumentError, match=words):
        eng(name, *arguments)
