"""The examples that all hosts are tested with: complete, valid, and about one engine each."""

import pytest
from examples import EXAMPLES, example, shortest, takes_options

from workbook_tools import quantities
from workbook_tools.catalog import ArgumentError, calculate, entries, find

NAMES = [function.name for function in entries()]


@pytest.mark.parametrize("name", NAMES)
def test_every_function_has_a_complete_example(name):
    function = find(name)
    assert len(example(name)) == function.most, function.signature


def test_every_example_is_of_a_function():
    assert set(EXAMPLES) <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_an_example_in_metric_units_describes_the_same_engine(name):
    function = find(name)
    inch = calculate(function, example(name, "inch"))
    metric = calculate(function, example(name, "metric"))

    def same(left, right):
        if isinstance(left, ArgumentError) or isinstance(right, ArgumentError):
            pytest.fail(f"{name}: {left}; {right}")
        if isinstance(left, tuple):
            assert len(left) == len(right)
            for one, other in zip(left, right, strict=True):
                same(one, other)
        elif isinstance(left, str):
            assert left == right
        else:
            si = quantities.to_si(left, inch.kind, "inch")
            assert quantities.to_si(right, metric.kind, "metric") == pytest.approx(
                si, rel=1e-8, abs=1e-12
            )

    same(inch.value, metric.value)


@pytest.mark.parametrize("name", [f.name for f in entries() if takes_options(f)])
def test_optional_arguments_can_be_left_out(name):
    assert calculate(find(name), shortest(name)).value is not None
