"""Pistons and bores: what their functions refuse, and that inverse functions agree."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_a_piston_of_another_size_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"piston_diameter: expected a size within 2 %"):
        eng("PISTON_CLEARANCE", 4.030, 3.400)


def test_clearance_of_a_row_of_cylinders(eng):
    got = eng("PISTON_CLEARANCE", ((4.0305, 4.0310),), ((4.0265, 4.0268),))
    assert got[0] == pytest.approx((0.0040, 0.0042), abs=1e-12)
