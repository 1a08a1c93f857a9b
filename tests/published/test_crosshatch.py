"""The crosshatch as the angle between two scratches, followed along the wall by numpy."""

import numpy as np
import pytest
from sources import independent

from workbook_tools.catalog import ArgumentError


@pytest.mark.parametrize(
    ("bore", "turns", "strokes", "length"),
    [(104.4, 170, 60, 140), (86, 300, 48, 95), (130, 40, 55, 210)],
)
def test_two_scratches(agree, eng, bore, turns, strokes, length):
    # One whole stroke in small steps: where a grit is on the wall, in space.
    seconds = np.linspace(0, 60 / strokes, 400001)
    share = seconds * strokes / 60
    along = length * (1 - np.abs(2 * share - 1))
    around = 2 * np.pi * turns / 60 * seconds
    way = np.stack([bore / 2 * np.cos(around), bore / 2 * np.sin(around), along])
    steps = np.gradient(way, axis=1)

    def scratch(at):
        # A tangent turned back to the same line of the wall.
        angle = around[at]
        step = steps[:, at] / np.linalg.norm(steps[:, at])
        sideways = np.array([-np.sin(angle), np.cos(angle), 0])
        return np.array([step @ sideways, step[2]])

    up, down = scratch(100000), scratch(300000)
    crossing = np.degrees(np.arccos(up @ down))
    source = independent("angle between two tangents of the way", np.gradient)
    got = eng("CROSSHATCH_ANGLE", bore, turns, strokes, length, "metric")
    agree("CROSSHATCH_ANGLE", source, float(crossing), got, rel=1e-6)
    inch = eng("CROSSHATCH_ANGLE", bore / 25.4, turns, strokes, length / 25.4)
    assert inch == pytest.approx(got)


@pytest.mark.parametrize(
    ("arguments", "parameter"),
    [((4.11, 0, 60, 5.5), "hone_speed"), ((4.11, 170, 60, -1), "stroke_length"),
     ((4110, 170, 60, 5.5), "bore")],
)  # fmt: skip
def test_what_is_refused(eng, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng("CROSSHATCH_ANGLE", *arguments)
    assert refused.value.parameter == parameter
