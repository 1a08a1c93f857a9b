"""Where a result ends."""

import math

import pytest

from workbook_tools.quantities.noise import ended


@pytest.mark.parametrize(
    ("number", "cell"),
    [
        (4.03 - 4.0259, 0.0041),
        (0.1 + 0.2, 0.3),
        (-1234.5600000000013, -1234.56),
        (0.0, 0.0),
        (1 / 3, 1 / 3),
        (math.pi * 1e9, math.pi * 1e9),
        (0.0041000004, 0.0041000004),
    ],
)
def test_the_noise_of_sums_is_left_off_and_nothing_else(number, cell):
    assert ended(number) == cell
