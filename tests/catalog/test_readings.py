"""Blocks of readings: how many there must be, and which is missing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.catalog import ArgumentError, calculate, find
from workbook_tools.catalog.readings import found, mean, taken


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        calculate(find(name), arguments)
    return raised.value


@pytest.mark.parametrize("name", ["MEAN_READING", "READING_SPREAD"])
@pytest.mark.parametrize(
    ("readings", "expected", "message", "missing"),
    [
        (
            ((1.0,), (None,), (3.0,)), 3,
            "expected 3 readings, got 2 readings; row 2, column 1 of the range is empty", True,
        ),
        (
            ((1.0, 2.0), (3.0, "")), 4,
            "expected 4 readings, got 3 readings; row 2, column 2 of the range is empty", True,
        ),
        (
            ((None,), (None,)), 2,
            "expected 2 readings, got 0 readings; row 1, column 1 of the range is empty", True,
        ),
        (
            None, 1,
            "expected 1 reading, got 0 readings; row 1, column 1 of the range is empty", True,
        ),
        (((1.0,), (2.0,)), 3, "expected 3 readings, got 2 readings", True),
        (((1.0,), (2.0,)), 1, "expected 1 reading, got 2 readings", False),
        (5.0, 2, "expected 2 readings, got 1 reading", True),
    ],
)  # fmt: skip
def test_a_wrong_number_of_readings(name, readings, expected, message, missing):
    error = refusal(name, readings, expected)
    assert str(error) == f"readings: {message}"
    assert error.missing is missing


def test_empty_cells_between_the_readings_do_not_matter(eng):
    # A range drawn across a spacer column still holds the four that were to be taken.
    cells = ((1.0, None, 2.0), (3.0, None, 6.0))
    assert eng("MEAN_READING", cells, 4) == 3.0
    assert eng("READING_SPREAD", cells, 4) == 5.0


def test_a_zero_is_a_reading_and_an_empty_cell_is_none(eng):
    assert eng("MEAN_READING", ((0.0,), (0.004,)), 2) == 0.002
    assert refusal("MEAN_READING", ((None,), (0.004,)), 2).missing


def test_a_single_cell_is_a_block_of_one(eng):
    assert eng("MEAN_READING", 4.030, 1) == 4.030
    assert eng("READING_SPREAD", "4.030", 1) == 0.0


@given(st.floats(-1e6, 1e6), st.integers(1, 40))
def test_the_mean_of_equal_readings_is_the_reading(value, count):
    assert mean(((value,),) * count) == value


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=30))
def test_the_mean_lies_between_the_smallest_and_the_largest(values):
    assert min(values) - 1e-9 <= mean((tuple(values),)) <= max(values) + 1e-9


def test_what_is_found():
    assert taken(((1.0, None), (2.0, 3.0))) == (1.0, 2.0, 3.0)
    assert found(((1.0,),)) == "1 reading"
    assert found(((1.0, 2.0), (3.0, 4.0))) == "4 readings"
