"""Friswell, Penny, Garvey & Lees, Dynamics of Rotating Machines: a short bearing."""

import math

from sources import printed

BOOK = "Friswell, Penny, Garvey & Lees, Dynamics of Rotating Machines"
SOURCE = printed(BOOK, "Ex. 5.5.1, p. 181", "as in the published tests of ROSS")


def test_example_5_5_1(agree, eng):
    # 100 by 30 mm, radial clearance 0.1 mm, 0.1 Pa.s, 157.1 rad/s, 525 N: 0.2663 by short
    # bearing theory, which makes too much of a bearing that is not quite short.
    rpm = 157.1 * 30 / math.pi
    got = eng("FILM_ECCENTRICITY", 525, 100, 30, 0.2, "0.1 Pa.s", rpm, "metric")
    agree("FILM_ECCENTRICITY", SOURCE, 0.2663, got, abs=0.012)
