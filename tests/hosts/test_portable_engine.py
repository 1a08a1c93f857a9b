"""The add-in-free form of every function against its Python form, by a real engine."""

import math

import pytest
from each_case import each
from examples import example
from openpyxl import Workbook
from portable_engine import Engine
from portable_inputs import SKIPPED, faulty_calls, python_result, random_calls

from workbook_tools.catalog import ArgumentError, entries
from workbook_tools.hosts.portable import portability, portable
from workbook_tools.quantities import SYSTEMS, TEXT

# Valid random calls of each function: the first of those at length.
VALID = [100, pytest.param(1000, marks=pytest.mark.slow)]
FUNCTIONS = [f for f in entries() if not portability()[f.name]]
CASES = [(f, s) for f in FUNCTIONS for s in (SYSTEMS if f.takes_units else ("inch",))]
SPREAD = [f for f in FUNCTIONS if not f.result_block and not all(p.block for p in f.parameters)]

# What a formula of ours says of bad input; #NAME? or "not implemented" would say nothing of it.
ERRORS = ("#VALUE!", "#NUM!", "#DIV/0!")


@pytest.fixture(scope="session")
def engine(tmp_path_factory):
    """The engine with a book that `portable` has put every function into."""
    folder = tmp_path_factory.mktemp("engine")
    Workbook().save(folder / "empty.xlsx")
    portable(folder / "empty.xlsx", folder / "book.xlsx")
    running = Engine(folder / "book.xlsx")
    yield running
    running.stop()


def same(expected, got):
    """Whether the engine gives what Python gives, an error for an error."""
    if isinstance(expected, ArgumentError):
        return got in ERRORS
    if isinstance(expected, tuple):
        return all(
            same(e, g)
            for e_row, g_row in zip(expected, got, strict=True)
            for e, g in zip(e_row, g_row, strict=True)
        )
    if isinstance(expected, str):
        return got == expected
    if not isinstance(got, float):
        return False
    # One that ends where its digits do differs by half a unit of the twelfth of them at most.
    short = f"{got:.9g}" == f"{got:.15g}"
    return math.isclose(got, expected, rel_tol=5.1e-12 if short else 1e-12)


def by_shape(calls):
    """{shape of the result, None for one value: [(arguments, result)]}."""
    sorted_calls = {}
    for arguments, result in calls:
        shape = (len(result), len(result[0])) if isinstance(result, tuple) else None
        sorted_calls.setdefault(shape, []).append((arguments, result))
    return sorted_calls


def differing(engine, function, calls):
    """The calls in which the engine differs from Python, with what both give."""
    return [
        (arguments, expected, got)
        for shape, group in by_shape(calls).items()
        for (arguments, expected), got in zip(
            group, engine.calls(function.full_name, [a for a, _ in group], shape), strict=True
        )
        if not same(expected, got)
    ]


@pytest.mark.parametrize(
    ("name", "arguments", "cell"),
    [
        ("PISTON_CLEARANCE", [4.03, 4.0259], 0.0041),
        ("QUENCH", [-0.001, 0.0421], 0.0411),
        ("DECK_CLEARANCE", [9.025, 3.48, 5.7, 1.56], 0.025),
    ],
)
def test_a_result_ends_where_its_digits_do(engine, name, arguments, cell):
    assert engine.calls(f"ENG.{name}", [arguments], None) == [cell]


@pytest.mark.parametrize("valid", VALID)
@each(("function", "system"), CASES)
def test_random_calls_agree(engine, function, system, valid):
    accepted, refused = random_calls(function, system, valid, seed=20260401)
    assert len(accepted) == valid, "too few of the random calls are valid"
    assert differing(engine, function, accepted + refused) == []


@each("function", FUNCTIONS)
def test_faulty_calls_are_errors_in_both(engine, function):
    calls = [(c, python_result(function, c)) for c in faulty_calls(function)]
    assert sum(isinstance(result, ArgumentError) for _, result in calls) > len(calls) / 2
    assert differing(engine, function, calls) == []


@each("function", SPREAD)
def test_ranges_give_matching_arrays(engine, function):
    accepted, refused = random_calls(function, "inch", 12, seed=7)
    rows = [a for a, _ in accepted + refused]
    rows = [row + [SKIPPED] * (len(function.parameters) - len(row)) for row in rows]
    usual = example(function.name)
    columns = [
        usual[i] if p.block else tuple((usual[i] if r[i] is SKIPPED else r[i],) for r in rows)
        for i, p in enumerate(function.parameters)
    ]
    spoiled = next(i for i, p in enumerate(function.parameters) if not p.block)
    columns[spoiled] = ((None,), ("by eye",), ("=1/0",), *columns[spoiled][3:])
    result = python_result(function, columns)
    assert isinstance(result, tuple)
    assert any(not isinstance(cell, ArgumentError) for (cell,) in result)
    assert differing(engine, function, [(columns, result)]) == []


def test_a_row_and_a_column_give_a_table(engine):
    quench = next(f for f in FUNCTIONS if f.name == "QUENCH")
    columns = [((0.002, 0.005, None),), ((0.038,), (0.04,))]
    result = python_result(quench, columns)
    assert [len(row) for row in result] == [3, 3]
    assert differing(engine, quench, [(columns, result)]) == []


def test_a_text_with_its_own_unit_is_an_error_without_the_add_in(engine):
    for function in FUNCTIONS:
        measured = [i for i, p in enumerate(function.parameters) if p.kind is not TEXT]
        if not measured:
            continue
        arguments = list(example(function.name))
        text = f"{1.0} {function.parameters[measured[0]].kind.inch}"
        block = function.parameters[measured[0]].block
        arguments[measured[0]] = ((text,),) if block else text
        [got] = engine.calls(function.full_name, [arguments])
        assert got in ERRORS, function.name
