"""Verdicts: on a limit is ok, and a band the wrong way round is refused."""

import pytest

from workbook_tools.catalog import ArgumentError, calculate, find


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        calculate(find(name), arguments)
    return raised.value


@pytest.mark.parametrize(
    ("value", "low", "high", "word"),
    [
        (0.0399, 0.040, 0.045, "low"),
        (0.040, 0.040, 0.045, "ok"),
        (0.045, 0.040, 0.045, "ok"),
        (0.0451, 0.040, 0.045, "high"),
        (0, 0, 0, "ok"),
        (1e-12, 0, 0, "high"),
        (-0.002, -0.003, -0.001, "ok"),
        (-0.004, -0.003, -0.001, "low"),
        ("38 thou", 0.035, 0.045, "ok"),
        (0.038, "35 thou", "1.143 mm", "ok"),
        (0.038, "40 thou", "45 thou", "low"),
        ("350 cu in", 340, 360, "ok"),
        ("29.9 inHg", 29, 31, "ok"),
    ],
)
def test_verdict(eng, value, low, high, word):
    assert eng("VERDICT", value, low, high) == word


def test_the_last_digits_of_a_computed_value_do_not_decide(eng):
    # -0.002 + 0.042 is a hair above 0.04 in binary, 0.1 + 0.2 above 0.3.
    assert 0.1 + 0.2 > 0.3
    assert eng("VERDICT", 0.1 + 0.2, 0.1, 0.3) == "ok"
    assert eng("VERDICT", 0.3 - 1e-13, 0.3, 0.5) == "ok"
    assert eng("VERDICT", 0.3 - 1e-8, 0.3, 0.5) == "low"


def test_metric_text_beside_bare_numbers(eng):
    assert eng("VERDICT", "0.038 in", 0.9, 1.1, "metric") == "ok"
    assert eng("VERDICT", "0.038 in", 0.9, 1.1) == "low"


def test_a_band_the_wrong_way_round_is_refused():
    error = refusal("VERDICT", 0.04, 0.045, 0.035)
    assert str(error) == "low: expected no more than the upper limit, got 0.045"
    assert (
        str(refusal("JUDGE", ((1.0,),), 1, 3, 2))
        == "low: expected no more than the upper limit, got 3"
    )


def test_an_empty_cell_has_no_verdict():
    assert refusal("VERDICT", None, 1, 2).missing
    assert refusal("VERDICT", 1, None, 2).missing
    assert refusal("VERDICT", 1, 0, None).missing


def test_readings_of_two_kinds_have_no_verdict():
    assert str(refusal("VERDICT", "38 thou", "60 cc", "70 cc")) == (
        "low: expected readings that all have the unit in, got '60 cc'"
    )


def test_a_range_of_values_gives_a_range_of_words(eng):
    words = eng("VERDICT", ((0.034,), (0.040,), (0.050,)), 0.035, 0.045)
    assert words == (("low",), ("ok",), ("high",))


def test_judge_needs_every_reading():
    error = refusal("JUDGE", ((1.0,), (None,)), 2, 0.5, 1.5)
    assert error.missing
    assert str(error) == (
        "readings: expected 2 readings, got 1 reading; row 2, column 1 of the range is empty"
    )
    assert not refusal("JUDGE", ((1.0,), (1.1,)), 1, 0.5, 1.5).missing


@pytest.mark.parametrize(
    ("readings", "word"),
    [
        ((1.0, 1.5, 0.5), "ok"),
        ((1.0, 1.5, 0.4), "low"),
        ((1.0, 1.6, 0.5), "high"),
        ((0.4, 1.6, 1.0), "low and high"),
    ],
)
def test_judge(eng, readings, word):
    assert eng("JUDGE", (readings,), 3, 0.5, 1.5) == word
    assert eng("JUDGE", tuple((r,) for r in readings), 3, 0.5, 1.5) == word
