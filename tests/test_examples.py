"""The examples that all hosts are tested with: complete, valid, and about one engine each."""

import re

import pytest
from each_case import each
from examples import EXAMPLES, example, shortest, takes_options

from workbook_tools import evaluate, quantities
from workbook_tools.catalog import ArgumentError, calculate, entries, find
from workbook_tools.catalog.worked_examples import worked_examples

NAMES = [function.name for function in entries()]


@each("name", NAMES)
def test_every_function_has_a_complete_example(name):
    function = find(name)
    assert len(example(name)) == function.most, function.signature


def test_every_example_is_of_a_function():
    assert set(EXAMPLES) <= set(NAMES)


@each("name", NAMES)
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


@each("name", [f.name for f in entries() if takes_options(f)])
def test_optional_arguments_can_be_left_out(name):
    assert calculate(find(name), shortest(name)).value is not None


def test_each_worked_example_typed_as_it_is_shown_gives_what_is_shown():
    for function in entries():
        shown = worked_examples(function)
        systems = 0 if function.sees_cell else 1 + function.takes_units
        assert len(shown) == systems, function.name
        for formula, given in shown:
            result = evaluate(formula)
            rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
            for cell in (cell for row in rows for cell in row):
                if isinstance(cell, float):
                    told = [float(n) for n in re.findall(r"-?\d[\d.]*(?:e[-+]?\d+)?", given)]
                    assert any(n == pytest.approx(cell, rel=1e-5) for n in told), formula
                else:
                    assert str(cell) in given, formula
            assert result.unit in given, formula
