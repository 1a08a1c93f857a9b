"""Khurmi & Gupta, Theory of Machines, chapter 15: inertia force of the reciprocating parts."""

import math

SOURCE = "Khurmi & Gupta, Theory of Machines"


def test_example_15_6(agree, eng):
    # 180 kg, stroke 200 mm, rod 400 mm, 500 rpm, 60 deg: 18.53 kN with a rounded 52.4 rad/s.
    got = eng("RECIPROCATING_FORCE", 180000, 200, 400, 500, 60, "both", "metric") / 1000
    agree("RECIPROCATING_FORCE", f"{SOURCE}, Ex. 15.6, p. 532", 18.53, got, rel=2e-3)


def test_example_15_11(agree, eng):
    # A vertical engine: bore 100, stroke 120, rod 250 mm, 1.1 kg, 2000 rpm, 20 deg, 700 kPa:
    # gas and weight less inertia leave 2255.6 N.
    inertia = eng("RECIPROCATING_FORCE", 1100, 120, 250, 2000, 20, "both", "metric")
    got = 700e3 * math.pi / 4 * 0.1**2 + 1.1 * 9.81 - inertia
    agree("RECIPROCATING_FORCE", f"{SOURCE}, Ex. 15.11, p. 537", 2255.6, got, rel=1e-3)


def test_load_of_one_bolt_at_the_dead_center(agree, eng):
    # The chapter's inertia force m r omega**2 (cos + cos 2 / n) at 0 deg, with the figures of
    # its Example 15.11: n = 250 / 60.
    omega = 2000 * math.pi / 30
    force = 1.1 * 0.060 * omega**2 * (1 + 60 / 250)
    got = eng("ROD_BOLT_LOAD", 1100, 120, 250, 2000, 2, 0, "metric")
    agree("ROD_BOLT_LOAD", f"{SOURCE}, ch. 15, inertia force", force / 2, got)
