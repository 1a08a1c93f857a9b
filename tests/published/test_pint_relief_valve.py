"""Pascal's and Hooke's laws with pint's units: an oil relief valve."""

import math

import pint
import pytest

SOURCE = "Pascal's law, pint"


@pytest.mark.parametrize(("pounds", "inches"), [(10.6, 0.5), (21.0, 0.625)])
def test_opening_pressure(agree, eng, pounds, inches):
    unit = pint.UnitRegistry()
    area = math.pi / 4 * (inches * unit.inch) ** 2
    expected = (pounds * unit.lbf / area).to("psi").magnitude
    agree("RELIEF_PRESSURE", SOURCE, expected, eng("RELIEF_PRESSURE", pounds, inches))


def test_shim_raises_the_spring_s_load_as_much_as_needed(agree, eng):
    # From 55 to 65 psi on a 0.5 in plunger, spring of 20 lbf/in.
    unit = pint.UnitRegistry()
    more = 10 * unit.psi * math.pi / 4 * (0.5 * unit.inch) ** 2
    expected = (more / (20 * unit.lbf / unit.inch)).to("inch").magnitude
    agree("RELIEF_SHIM", SOURCE, expected, eng("RELIEF_SHIM", 55, 65, 20, 0.5))
    agree("RELIEF_SHIM", SOURCE, -expected, eng("RELIEF_SHIM", 65, 55, 20, 0.5))
