"""Machinery's Handbook, cutting speeds: surface speed of a turning diameter (from memory)."""

import pytest
from sources import from_memory

SOURCE = from_memory("Machinery's Handbook", "cutting speeds and rpm")


@pytest.mark.parametrize(
    ("diameter", "rpm", "speed"), [(1.0, 382, 100), (2.0, 191, 100), (0.5, 764, 100), (3.0, 76, 60)]
)
def test_surface_speed(agree, eng, diameter, rpm, speed):
    # The table's rpm are rounded to a whole turn.
    got = eng("JOURNAL_SPEED", diameter, rpm)
    agree("JOURNAL_SPEED", SOURCE, speed, got, rel=0.006)
