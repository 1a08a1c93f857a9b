"""Where sizes stop being those of one part: just within each limit, and just beyond it.

Metric; the size that is tried stands for ... in the call.
"""

import pytest
from each_case import each

from workbook_tools.catalog import ArgumentError

IRON = ("gray iron", "gray iron")
LIMITS = [
    ("PISTON_CLEARANCE", (100, ...), "piston_diameter", 98.01, 97.99),
    ("PISTON_CLEARANCE", (100, ...), "piston_diameter", 101.99, 102.01),
    ("HOT_PISTON_CLEARANCE", (100, ..., 80, 80, *IRON), "piston_diameter", 98.01, 97.99),
    ("HOT_PISTON_CLEARANCE", (100, ..., 80, 80, *IRON), "piston_diameter", 101.99, 102.01),
    ("PISTON_SIZE_FOR_CLEARANCE", (100, ...), "clearance", 1.99, 2.01),
    ("HONE_TO_SIZE", (100, ...), "clearance", 1.99, 2.01),
    ("RING_GAP", (100, ...), "factor", 0.012, 0.0121),
    ("RING_GAP_AFTER_HONE", (..., 100, 100), "ring_gap", 4.99, 5.01),
    ("RING_GAP_AFTER_HONE", (0.4, 100, ...), "new_bore", 104.9, 105.1),
    ("RING_GAP_AFTER_HONE", (0.4, 100, ...), "new_bore", 95.1, 94.9),
    ("HOT_RING_GAP", (..., 100, 80, 180, *IRON), "ring_gap", 4.99, 5.01),
    ("RING_SIDE_CLEARANCE", (2, ...), "ring_width", 1.01, 0.99),
    ("RING_SIDE_CLEARANCE", (2, ...), "ring_width", 2.99, 3.01),
    ("RING_BACK_CLEARANCE", (100, ..., 4), "groove_diameter", 99.99, 100),
    ("RING_LAND_VOLUME", (100, ..., 6), "land_diameter", 90.1, 89.9),
    ("RING_LAND_VOLUME", (100, ..., 6), "land_diameter", 99.99, 100),
    ("BORE_TAPER", (((100,), (...,)),), "readings", 104.9, 105.1),
    ("BORE_OUT_OF_ROUND", (((100, ...),),), "readings", 104.9, 105.1),
    ("JOURNAL_TAPER", (((100,), (...,)),), "readings", 104.9, 105.1),
    ("JOURNAL_OUT_OF_ROUND", (((100, ...),),), "readings", 104.9, 105.1),
    ("ROD_STROKE_RATIO", (..., 86), "rod_length", 43.01, 43),
    # 1 kg at 50 mm and 100 rad/s pulls with 625 N: steel stretches 1 % at 0.3019 sq mm.
    ("ROD_STRETCH", (1000, 100, 200, "100 rad/s", ..., "steel"), "rod_area", 0.303, 0.301),
    # A hundredth of the ratio above 1 is little to compress, but some.
    ("CRANKING_PRESSURE", (..., 0, 1.2), "dynamic_ratio", 1.01, 1),
]


def filled(arguments, size):
    return tuple(
        filled(part, size) if isinstance(part, tuple) else size if part is ... else part
        for part in arguments
    )


@each(("name", "arguments", "parameter", "within", "beyond"), LIMITS)
def test_limit(eng, name, arguments, parameter, within, beyond):
    assert isinstance(eng(name, *filled(arguments, within), "metric"), float)
    with pytest.raises(ArgumentError) as raised:
        eng(name, *filled(arguments, beyond), "metric")
    assert raised.value.parameter == parameter
