"""Openings and closings that no pair of cams has; limits are common practice, no source."""

import pytest


def told(findings, opens, closes, lets_go, shuts):
    heads = ("Intake opens (deg BTDC)", "Intake closes (deg ABDC)", "Exhaust opens (deg BBDC)",
             "Exhaust closes (deg ATDC)")  # fmt: skip
    rows = [list(row) for row in zip(heads, (opens, closes, lets_go, shuts), strict=True)]
    return {at: message for at, (_, message) in findings(S=rows).items()}


@pytest.mark.parametrize(
    "events",
    [
        (18, 48, 52, 14),  # a single of a trail motorcycle
        (-10, 45, 50, 10),  # a side-valve engine of old
        (38, 78, 82, 36),  # near the seat, a race cam
        (-3, 37, 46, -6),  # at 0.050 in, a mild cam
        (12, 82, 56, 8),  # closes late, to save fuel
        (58, 92, 95, 55),  # a drag race cam near the seat
    ],
)
def test_cams_that_exist_are_not_doubted(findings, events):
    assert told(findings, *events) == {}


@pytest.mark.parametrize(
    ("events", "cell", "words"),
    [
        ((22, 5, 55, 16), "S!B2", "one place too far left (50 deg)"),
        ((22, 500, 55, 16), "S!B2", "one place too far right and less was meant (50 deg)"),
        ((220, 50, 55, 16), "S!B1", "one place too far right and less was meant (22 deg)"),
        ((18, 48, 5.2, 14), "S!B3", "one place too far left (52 deg)"),
    ],
)
def test_a_decimal_point_of_one_event(findings, events, cell, words):
    found = told(findings, *events)
    assert list(found) == [cell]
    assert words in found[cell]


def test_events_that_no_slip_of_the_point_mends(findings):
    (message,) = told(findings, 18, 48, 94, 28).values()
    assert "the intake is open for 246 deg and the exhaust for 302" in message
    assert "no pair of cams" in message
