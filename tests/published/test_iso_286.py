"""ISO 286-1 and ISO 286-2: limits of sizes, and the fits that they make (from memory).

A fit is the size of the hole less that of the shaft: clearance above zero, interference below.
"""

import pytest
from sources import from_memory

# Function, size in mm, deviations in micrometers of hole and of shaft.
FITS = [
    ("FIT", 25, "H7/g6", (0, 21), (-20, -7)),
    ("FIT", 25, "H7/p6", (0, 21), (22, 35)),
    ("FIT", 40, "H7/s6", (0, 25), (43, 59)),
    ("BEARING_CLEARANCE_FROM_BORE", 60, "H7/f7", (0, 30), (-60, -30)),
    ("PIN_CLEARANCE_IN_PISTON", 22, "G6/h5", (7, 20), (-9, 0)),
    ("PIN_CLEARANCE_IN_ROD", 22, "H7/p6", (0, 21), (22, 35)),
    ("VALVE_GUIDE_CLEARANCE", 8, "H7/f7", (0, 15), (-28, -13)),
]


@pytest.mark.parametrize(("name", "size", "fit", "hole", "shaft"), FITS)
def test_least_and_largest_fit(agree, eng, name, size, fit, hole, shaft):
    for deviation, other in ((hole[0], shaft[1]), (hole[1], shaft[0])):
        got = eng(name, size + deviation / 1000, size + other / 1000, "metric")
        source = from_memory("ISO 286-2", f"limit deviations of {size} {fit}")
        agree(name, source, (deviation - other) / 1000, got, abs=1e-12)
