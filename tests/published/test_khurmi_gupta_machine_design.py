"""Khurmi & Gupta, A Textbook of Machine Design."""

import pytest
from sources import printed

SOURCE = printed("Khurmi & Gupta, A Textbook of Machine Design", "ch. 32, pp. 1136-1137")


@pytest.mark.parametrize(("factor", "gap"), [(0.002, 0.2), (0.003, 0.3), (0.004, 0.4)])
def test_closed_ring_gap_of_a_100_mm_bore(agree, eng, factor, gap):
    # "0.002 D to 0.004 D", for D = 100 mm 0.2 to 0.4 mm, 0.3 mm adopted.
    agree("RING_GAP", SOURCE, gap, eng("RING_GAP", 100, factor, "metric"))
