"""What is made of results of functions of one's own: no number, a block, SI inside, a fault."""

import math

import pytest

from workbook_tools.catalog import ArgumentError, calculate, find, registry
from workbook_tools.catalog.kinds import Count, Length, Number, Reading, Readings
from workbook_tools.catalog.registry import worksheet_function


def call(name, *arguments):
    return calculate(find(name), arguments)


def message(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        call(name, *arguments)
    return str(raised.value)


@pytest.fixture
def catalog_of_our_own(monkeypatch):
    monkeypatch.setattr(registry, "_functions", {})

    def enter(python):
        lines = [f"{name}\n    It." for name in python.__annotations__ if name != "return"]
        python.__doc__ = (
            "Say it.\n\nParameters\n----------\n" + "\n".join(lines)
            + "\n\nEquation\n--------\ny = x\n\nSource\n------\nS"
        )  # fmt: skip
        worksheet_function("S")(python)

    return enter


def test_a_result_that_is_no_finite_number_is_refused(catalog_of_our_own):
    def power(x: Number, y: Number) -> Number:
        return x**y

    def logarithm(x: Number) -> Number:
        return math.log(x)

    def forever(x: Number) -> Number:
        return x * 1e308 * 10

    for python in (power, logarithm, forever):
        catalog_of_our_own(python)
    assert message("FOREVER", 1) == "ENG.FOREVER: expected a finite result, got inf"
    assert message("LOGARITHM", -1).startswith("ENG.LOGARITHM: expected values that have a result")
    assert message("POWER", 0, -1).startswith("ENG.POWER: expected values that have a result")
    assert message("POWER", 1e300, 2).startswith("ENG.POWER: expected values that have a result")
    assert message("POWER", -8, 0.5).startswith("ENG.POWER: expected values that have a result")


def test_a_block_result_takes_no_range_for_a_single_value(catalog_of_our_own):
    def times(x: Readings, y: Number) -> Readings:
        return tuple(tuple(y * cell for cell in row) for row in x)

    catalog_of_our_own(times)
    assert call("TIMES", ((1.0, 2.0), (3.0, 4.0)), 2).value == ((2.0, 4.0), (6.0, 8.0))
    assert message("TIMES", ((1.0,),), ((1,), (2,))) == (
        "y: expected a single cell, got a range of 2 rows and 1 column"
    )


def test_everything_inside_is_si(catalog_of_our_own):
    seen = []

    def watch(x: Length, y: Count, z: Reading, block: Readings = ((1.0,),)) -> Length:
        seen.append((x, y, z, block))
        return x

    catalog_of_our_own(watch)
    assert call("WATCH", 1, 2.0, 3).value == pytest.approx(1)
    assert call("WATCH", "25.4 mm", 2, "1 in", ((None, "2 in"),)).value == pytest.approx(1)
    assert seen == [
        (0.0254, 2, 3.0, ((1.0,),)),
        (pytest.approx(0.0254), 2, 1.0, ((None, 2.0),)),
    ]
    assert all(isinstance(count, int) for _, count, _, _ in seen)


def test_an_error_of_the_function_s_own_making_is_no_bad_input(catalog_of_our_own):
    def broken(x: Number) -> Number:
        return {}[x]

    catalog_of_our_own(broken)
    with pytest.raises(KeyError):
        call("BROKEN", 1)
