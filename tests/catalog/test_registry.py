"""One decorated function is a whole catalog entry, or is refused when the module loads."""

import inspect
import re

import pytest
from each_case import each

from workbook_tools import quantities
from workbook_tools.catalog import entries, find, registry
from workbook_tools.catalog.kinds import (
    Count,
    Length,
    Material,
    Number,
    Reading,
    Readings,
    SignedLength,
    Text,
    Volume,
)
from workbook_tools.catalog.registry import worksheet_function

ALL = list(entries())


@pytest.fixture
def empty_catalog(monkeypatch):
    monkeypatch.setattr(registry, "_functions", {})


def sleeve_wall(outside: Length, inside: Length, taken: SignedLength = 0.0) -> SignedLength:
    """Wall of a sleeve.

    A second paragraph is not part of the summary.

    Parameters
    ----------
    outside
        Outside diameter
        of the sleeve.
    inside
        Bore of the sleeve.
    taken
        Off the wall, 0 if left out.

    Returns
    -------
    Half the difference.

    Equation
    --------
    wall = (outside - inside) / 2
    - taken

    Source
    ------
    common practice, no source

    Caution
    -------
    Sound the wall.
    """
    return (outside - inside) / 2 - taken


def documented(text, function):
    function.__doc__ = text
    return function


GOOD = """Say it.

Parameters
----------
x
    It.

Equation
--------
y = x

Source
------
S"""


def test_everything_comes_from_the_function_itself(empty_catalog):
    assert worksheet_function("Sleeves")(sleeve_wall) is sleeve_wall
    function = find("ENG.SLEEVE_WALL")
    assert (function.name, function.full_name) == ("SLEEVE_WALL", "ENG.SLEEVE_WALL")
    assert function.section == "Sleeves"
    assert function.summary == "Wall of a sleeve."
    assert function.signature == "ENG.SLEEVE_WALL(outside, inside, [taken], [units])"
    assert (function.required, function.most) == (2, 4)
    assert function.result is quantities.LENGTH
    assert function.result_help == "Half the difference."
    assert function.equation == "wall = (outside - inside) / 2\n- taken"
    assert function.validity == ""
    assert function.source == "common practice, no source"
    assert function.caution == "Sound the wall."
    outside, inside, taken = function.parameters
    assert outside.help == "Outside diameter of the sleeve."
    assert (outside.sign, inside.sign, taken.sign) == ("above zero", "above zero", "either sign")
    assert (outside.optional, taken.optional, taken.default) == (False, True, 0.0)


@pytest.mark.parametrize("spelling", ["QUENCH", "ENG.QUENCH", "eng.quench", "ENG_QUENCH", "Quench"])
def test_a_function_is_found_in_any_spelling(spelling):
    assert find(spelling).name == "QUENCH"


def test_an_unknown_name_is_not_found():
    assert find("ENG.SQUISHY") is None


def test_units_are_taken_only_where_they_change_something(empty_catalog):
    def twice(x: Number) -> Number:
        return 2 * x

    def same(x: Reading) -> Text:
        return str(x)

    for python in (twice, same):
        worksheet_function("S")(documented(GOOD, python))
    assert not find("TWICE").takes_units
    assert find("SAME").takes_units
    assert find("TWICE").signature == "ENG.TWICE(x)"


def test_a_block_and_a_choice_are_marked(empty_catalog):
    def first(x: Readings) -> Reading:
        return x[0][0]

    def of(x: Material) -> Number:
        return len(x)

    worksheet_function("S")(documented(GOOD, first))
    worksheet_function("S")(documented(GOOD, of))
    assert find("FIRST").parameters[0].block
    assert find("FIRST").parameters[0].sign == ""
    assert "gray iron" in find("OF").parameters[0].choices
    assert find("OF").parameters[0].sign == ""


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        (GOOD.replace("Source", "Sauce"), "no docstring section is called 'Sauce'"),
        (GOOD.replace("\nS", "\n") + "\n", "lacks its Source"),
        (GOOD.replace("y = x", ""), "lacks its Equation"),
        (GOOD.replace("Say it.", ""), "lacks its summary"),
        (GOOD.replace("\nx\n", "\nz\n"), r"describes \['z'\], the function takes \['x'\]"),
        (None, "lacks its summary"),
    ],
)
def test_a_docstring_that_lacks_something_is_refused(empty_catalog, text, reason):
    def wrong(x: Length) -> Length:
        return x

    with pytest.raises(ValueError, match=reason):
        worksheet_function("S")(documented(text, wrong))
    assert find("WRONG") is None


def test_a_name_twice_is_refused(empty_catalog):
    worksheet_function("Sleeves")(sleeve_wall)
    with pytest.raises(ValueError, match="SLEEVE_WALL is in the catalog already"):
        worksheet_function("Sleeves")(sleeve_wall)


@pytest.mark.parametrize("name", ["ab1", "x", "h2", "_private", "trailing_"])
def test_a_name_that_reads_as_a_cell_is_refused(empty_catalog, name):
    def wrong(x: Length) -> Length:
        return x

    wrong.__name__ = name
    with pytest.raises(ValueError, match="expected letters and _ only"):
        worksheet_function("S")(documented(GOOD, wrong))


@pytest.mark.parametrize("name", ["ab1", "r1c1", "rc", "x10"])
def test_a_parameter_that_reads_as_a_cell_is_refused(empty_catalog, name):
    namespace = {"Length": Length}
    exec(f"def wrong({name}: Length) -> Length:\n    return {name}", namespace)
    with pytest.raises(ValueError, match=f"{name} reads as a cell reference"):
        worksheet_function("S")(
            documented(GOOD.replace("\nx\n", f"\n{name}\n"), namespace["wrong"])
        )


def test_a_parameter_or_result_without_a_kind_is_refused(empty_catalog):
    def parameter(x: float) -> Length:
        return x

    def result(x: Length) -> float:
        return x

    with pytest.raises(TypeError, match=r"parameter, x: expected a type of the catalog"):
        worksheet_function("S")(documented(GOOD, parameter))
    with pytest.raises(TypeError, match=r"RESULT, result: expected a type of the catalog"):
        worksheet_function("S")(documented(GOOD, result))


def test_the_order_is_that_of_writing(empty_catalog):
    def second(x: Length) -> Length:
        return x

    def first(x: Volume) -> Count:
        return x

    worksheet_function("S")(documented(GOOD, second))
    worksheet_function("S")(documented(GOOD, first))
    assert [f.name for f in entries()] == ["SECOND", "FIRST"]


@each("function", ALL)
def test_every_entry_tells_a_builder_enough(function):
    assert function.summary.endswith(".") or function.summary.endswith(")")
    assert "\n" not in function.summary
    assert function.source
    for parameter in function.parameters:
        assert parameter.help, parameter.name
        assert parameter.help.endswith("."), parameter.name


@each("function", ALL)
def test_every_signed_length_says_what_the_sign_means(function):
    for parameter in function.parameters:
        if parameter.sign == "either sign" and parameter.kind in (
            quantities.LENGTH,
            quantities.VOLUME,
        ):
            assert re.search("positive|negative|either sign", parameter.help, re.IGNORECASE), (
                parameter.name
            )


@each("function", ALL)
def test_every_default_is_a_value_that_could_be_given(function):
    for parameter in function.parameters:
        if not parameter.optional:
            continue
        if parameter.kind is quantities.TEXT:
            assert isinstance(parameter.default, str)
            assert not parameter.choices or parameter.default in parameter.choices
        else:
            assert isinstance(parameter.default, (int, float, tuple))
    optional = [p.optional for p in function.parameters]
    assert optional == sorted(optional), "a required parameter after an optional one"


@each("function", ALL)
def test_the_python_function_keeps_its_name_and_place(function):
    assert function.python.__name__ == function.name.lower()
    assert inspect.getmodule(function.python).__name__.startswith("workbook_tools.catalog.")
