"""A call with what stands in cells: read, checked, worked through, given back, or refused."""

import math

import pytest
from each_case import each
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from workbook_tools import quantities
from workbook_tools.catalog import (
    OMITTED,
    ArgumentError,
    CellError,
    calculate,
    entries,
    find,
)
from workbook_tools.catalog.kinds import Rows


def call(name, *arguments):
    return calculate(find(name), arguments)


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        call(name, *arguments)
    return raised.value


def message(name, *arguments):
    return str(refusal(name, *arguments))


def test_the_result_carries_its_unit_kind_and_system():
    result = call("QUENCH", 0.002, 0.038)
    assert result.value == pytest.approx(0.040)
    assert (result.kind, result.unit, result.system) == (quantities.LENGTH, "in", "inch")
    result = call("QUENCH", 0.05, 0.96, "metric")
    assert result.value == pytest.approx(1.01)
    assert (result.unit, result.system) == ("mm", "metric")


@pytest.mark.parametrize(
    ("arguments", "value"),
    [
        ((0.002, "38 thou"), 0.040),
        (("2 thou", "0,9652 mm"), 0.040),
        (("0.0508 mm", "38 thou", "inch"), 0.040),
        ((0, 0.8, "inch"), 0.8),
        (("2 thou", 0.9652, "metric"), 1.016),
        ((0.002, 0.038, OMITTED), 0.040),
        ((0.002, 0.038, "Inch"), 0.040),
        ((((0.002,),), ((0.038,),), (("inch",),)), 0.040),
    ],
)
def test_numbers_texts_and_units_mix(arguments, value):
    assert call("QUENCH", *arguments).value == pytest.approx(value, rel=1e-12)


def test_no_inches_beside_millimeters_go_unseen():
    # The same two numbers under the other system are another length altogether.
    assert call("CYLINDER_VOLUME", 8.5, 8.5).value == pytest.approx(
        25.4**3 * call("CYLINDER_VOLUME", 8.5, 8.5, "metric").value
    )


@each(
    ("arguments", "expected"),
    [
        ((None, 0.038), "deck_clearance: expected a length, got an empty cell"),
        (("", 0.038), "deck_clearance: expected a length, got an empty cell"),
        ((0.002, None), "gasket_thickness: expected a length above 0, got an empty cell"),
        ((0.002, 0), "gasket_thickness: expected a length above 0, got 0"),
        ((0.002, 0.0), "gasket_thickness: expected a length above 0, got 0"),
        ((0.002, -0.038), "gasket_thickness: expected a length above 0, got -0.038"),
        ((0.002, True), "gasket_thickness: expected a length above 0, got TRUE"),
        ((False, 0.038), "deck_clearance: expected a length, got FALSE"),
        (
            (0.002, CellError("#DIV/0!")),
            "gasket_thickness: expected a length above 0, got the error #DIV/0!",
        ),
        (
            (0.002, "see notes"),
            "gasket_thickness: expected a length above 0, got 'see notes': it is not one number "
            "with at most one unit",
        ),
        (
            (0.002, "63 cc"),
            "gasket_thickness: expected a length above 0, got '63 cc': 'cc' is not a unit of "
            "length",
        ),
        ((0.002, "0 mm"), "gasket_thickness: expected a length above 0, got '0 mm'"),
        ((0.002, math.nan), "gasket_thickness: expected a length above 0, got nan"),
        ((0.002, math.inf), "gasket_thickness: expected a length above 0, got inf"),
        ((-math.inf, 0.038), "deck_clearance: expected a length, got -inf"),
        (
            (0.002, "1e999"),
            "gasket_thickness: expected a length above 0, got '1e999': the number is larger "
            "than any that can be kept",
        ),
        (
            (0.002, object),
            "gasket_thickness: expected a length above 0, got <class 'object'>, which is no number",
        ),
        ((0.002, 0.038, ""), 'units: expected "inch" or "metric", got an empty cell'),
        ((0.002, 0.038, None), 'units: expected "inch" or "metric", got an empty cell'),
        ((0.002, 0.038, 0.0), 'units: expected "inch" or "metric", got 0'),
        ((0.002, 0.038, "mm"), 'units: expected "inch" or "metric", got \'mm\''),
        (
            (0.002, 0.038, (("inch",), ("metric",))),
            'units: expected "inch" or "metric", got a range of 2 rows and 1 column',
        ),
        ((OMITTED, 0.038), "deck_clearance: expected a length, got nothing"),
        (
            (0.002,),
            "ENG.QUENCH: expected 2 to 3 arguments: "
            "ENG.QUENCH(deck_clearance, gasket_thickness, [units]), got 1",
        ),
        (
            (0.002, 0.038, "inch", 1),
            "ENG.QUENCH: expected 2 to 3 arguments: "
            "ENG.QUENCH(deck_clearance, gasket_thickness, [units]), got 4",
        ),
    ],
)
def test_bad_input_says_parameter_expectation_and_content(arguments, expected):
    assert message("QUENCH", *arguments) == expected


@pytest.mark.parametrize(
    ("name", "arguments", "expected"),
    [
        (
            "COMPRESSION_RATIO",
            (700, 64, 9, 1, -80),
            "chamber_volume: expected large enough that chamber, gasket, deck and crown together "
            "stay above 0, got 64",
        ),
        (
            "COMPRESSION_RATIO",
            (700, 64, -1, 1),
            "gasket_volume: expected a volume 0 or more, got -1",
        ),
        (
            "CHAMBER_FOR_RATIO",
            (1, 700, 9, 1),
            "compression_ratio: expected a ratio above 1 and 50 at most, got 1",
        ),
        (
            "CHAMBER_FOR_RATIO",
            ("1:1", 700, 9, 1),
            "compression_ratio: expected a ratio above 1 and 50 at most, got '1:1'",
        ),
        (
            "DISPLACEMENT",
            (4, 3.41, 7.5),
            "cylinders: expected a whole number 1 or more, got 7.5",
        ),
        ("DISPLACEMENT", (4, 3.41, 0), "cylinders: expected a whole number 1 or more, got 0"),
        ("DISPLACEMENT", (4, 3.41, "V8"), None),
        (
            "DECK_CLEARANCE",
            (9, 3.5, 1.75, 1.5),
            "rod_length: expected longer than half the stroke, got 1.75",
        ),
        (
            "PISTON_POSITION",
            (3.41, 5.85, 721),
            "crank_angle: expected an angle from -720 to 720 deg, got 721",
        ),
        (
            "DECK_GROWTH",
            (9, 3.41, 5.85, 1.56, 1801, "steel"),
            "temperature_rise: expected a temperature rise from -1800 to 1800 deg F, got 1801",
        ),
        (
            "DECK_GROWTH",
            (9, 3.41, 5.85, 1.56, 110, 5),
            "block_material: expected one of "
            + ", ".join(f'"{m}"' for m in find("DECK_GROWTH").parameters[5].choices)
            + ", got 5",
        ),
    ],
)
def test_limits_are_told_in_the_book_s_units(name, arguments, expected):
    if expected is None:
        assert message(name, *arguments).startswith("cylinders: expected a whole number 1 or more,")
    else:
        assert message(name, *arguments) == expected


def test_a_missing_reading_is_told_from_a_wrong_one():
    assert refusal("QUENCH", None, 0.038).missing
    assert refusal("QUENCH", "", 0.038).missing
    assert refusal("QUENCH", OMITTED, 0.038).missing
    assert refusal("QUENCH", 0.002, 0.038, None).missing
    assert not refusal("QUENCH", 0.002, 0).missing
    assert not refusal("QUENCH", 0.002, "TBD").missing


def test_an_argument_left_out_has_its_default_but_an_empty_cell_has_not():
    full = call("COMPRESSION_RATIO", 700, 64, 9, 1, 0).value
    assert call("COMPRESSION_RATIO", 700, 64, 9, 1).value == full
    assert call("COMPRESSION_RATIO", 700, 64, 9, 1, OMITTED, "metric").value == full
    assert refusal("COMPRESSION_RATIO", 700, 64, 9, 1, None).missing


def test_words_are_taken_in_any_case_and_spacing():
    arguments = (9, 3.41, 5.85, 1.56, 110)
    plain = call("DECK_GROWTH", *arguments, "gray iron").value
    assert call("DECK_GROWTH", *arguments, " Gray  IRON ").value == plain


def test_a_range_gives_a_range_element_by_element():
    result = call("QUENCH", ((0.001,), (0.002,), ("3 thou",)), 0.038)
    assert [row[0] for row in result.value] == pytest.approx([0.039, 0.040, 0.041])
    result = call("QUENCH", ((0.001, 0.002),), ((0.038, 0.040),))
    assert result.value[0] == pytest.approx([0.039, 0.042])


def test_a_row_against_a_column_gives_a_table():
    result = call("QUENCH", ((0.001, 0.002, 0.003),), ((0.038,), (0.040,)))
    assert len(result.value) == 2
    assert result.value[0] == pytest.approx([0.039, 0.040, 0.041])
    assert result.value[1] == pytest.approx([0.041, 0.042, 0.043])


def test_ranges_that_do_not_fit_are_refused():
    expected = "gasket_thickness: expected a range of 3 rows and 1 column, as beside it, got "
    got = message("QUENCH", ((1,), (2,), (3,)), ((1,), (2,)))
    assert got == expected + "2 rows and 1 column"


def test_a_bad_element_is_an_error_in_its_place_and_spoils_no_other():
    result = call("QUENCH", ((0.001,), (None,), ("std",), (CellError("#N/A"),)), 0.038)
    good, empty, note, failed = (row[0] for row in result.value)
    assert good == pytest.approx(0.039)
    assert str(empty) == "deck_clearance: expected a length, got an empty cell"
    assert empty.missing
    assert str(note).startswith("deck_clearance: expected a length, got 'std': ")
    assert str(failed) == "deck_clearance: expected a length, got the error #N/A"


def test_a_block_names_the_bad_cell():
    cells = ((1.0, 2.0), (3.0, "std"))
    assert message("MEAN_READING", cells, 4) == (
        "readings: expected a number, got 'std': it is not one number with at most one unit "
        "in row 2, column 2 of the range"
    )


def test_readings_with_their_own_unit_become_the_bare_unit():
    result = call("MEAN_READING", (("2 thou",), (0.003,), ("0.1016 mm",)), 3)
    assert result.value == pytest.approx(0.003)
    assert result.unit == "in"
    result = call("MEAN_READING", (("2 thou",), (0.1016,)), 2, "metric")
    assert result.value == pytest.approx(0.0762)
    assert result.unit == "mm"


def test_bare_readings_keep_their_number_and_have_no_unit():
    result = call("MEAN_READING", ((2.0,), (4.0,)), 2)
    assert (result.value, result.unit) == (3.0, "")


def test_readings_of_two_kinds_are_refused():
    assert message("MEAN_READING", (("2 thou",), ("63 cc",)), 2) == (
        "readings: expected readings that all have the unit in, got '63 cc'"
    )


ANYTHING = st.one_of(
    st.none(),
    st.booleans(),
    st.floats(),
    st.integers(-1000, 1000),
    st.text(max_size=6),
    st.sampled_from(["38 thou", "63 cc", "steel", "metric", "1e999", "10:1"]),
    st.just(OMITTED),
    st.just(CellError("#REF!")),
    st.just(((1.0, None), ("x", 2.0))),
    st.just(((1.0,), (2.0,))),
)


def singles(value):
    if isinstance(value, tuple):
        for part in value:
            yield from singles(part)
    else:
        yield value


@pytest.mark.parametrize("function", list(entries()), ids=lambda f: f.name)
@settings(
    # For each of a few hundred functions.
    max_examples=15,
    deadline=None,
    derandomize=True,
    # Loading pint on the first text takes longer than a draw may on a busy machine.
    suppress_health_check=[HealthCheck.too_slow],
)
@given(data=st.data())
def test_whatever_stands_in_the_cells_there_is_a_result_or_a_clear_refusal(function, data):
    arguments = [data.draw(ANYTHING) for _ in range(data.draw(st.integers(0, function.most + 1)))]
    blamed = {function.full_name, "units", *(p.name for p in function.parameters)}
    try:
        result = calculate(function, arguments)
    except ArgumentError as error:
        refused = error.parameter
    else:
        refused = None
    if refused is not None:
        assert refused in blamed
        return
    for value in singles(result.value):
        assert isinstance(value, (float, str, ArgumentError))
        assert not isinstance(value, float) or math.isfinite(value)


def test_rows_stay_tuples_of_rows():
    result: Rows = call("QUENCH", ((0.001, 0.002),), 0.038).value
    assert isinstance(result, tuple)
    assert isinstance(result[0], tuple)


def test_units_in_an_optional_arguments_place_are_pointed_out():
    function = find("BEARING_CLEARANCE")
    with pytest.raises(ArgumentError, match="units come last; keep the optional"):
        calculate(function, [64.0, 2.0, 59.95, "metric"])


@each("function", list(entries()))
def test_an_integer_beyond_all_floats_is_refused(function):
    for n in range(len(function.parameters)):
        given = [1.0] * len(function.parameters)
        given[n] = 10**400
        with pytest.raises(ArgumentError):
            calculate(function, given)
