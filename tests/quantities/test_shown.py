"""Numbers as they are shown: with their unit, rounded, by the names of unit systems."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools import quantities
from workbook_tools.quantities import (
    UnreadableText,
    show,
    system_named,
    unit_named,
)


@pytest.mark.parametrize(("word", "system"), [("inch", "inch"), (" Metric ", "metric")])
def test_unit_systems_by_name(word, system):
    assert system_named(word) == system


@pytest.mark.parametrize("word", ["", "mm", "imperial", "inches"])
def test_another_word_is_no_unit_system(word):
    with pytest.raises(UnreadableText, match='units are "inch" or "metric"'):
        system_named(word)


def test_a_table_s_unit():
    assert unit_named("thou") == (quantities.LENGTH, 2.54e-5)
    assert unit_named("psi")[0] is quantities.PRESSURE
    with pytest.raises(UnreadableText, match="'deg F' is not a unit that a table can have"):
        unit_named("deg F")
    with pytest.raises(UnreadableText, match="'furlong' is not a unit"):
        unit_named("furlong")


@pytest.mark.parametrize(
    ("value", "kind", "system", "text"),
    [
        (0.04, quantities.LENGTH, "inch", "0.0400 in"),
        (0.96, quantities.LENGTH, "metric", "0.960 mm"),
        (1234.5, quantities.DISPLACEMENT, "metric", "1,234.5 cc"),
        (0.0, quantities.LENGTH, "inch", "0.0000 in"),
        (3.07e-16, quantities.LENGTH, "inch", "0.0000 in"),
        (-3.07e-16, quantities.LENGTH, "metric", "0.000 mm"),
        (0.00001, quantities.LENGTH, "inch", "1e-05 in"),
        (-0.00001, quantities.LENGTH, "inch", "-1e-05 in"),
        (-0.002, quantities.LENGTH, "inch", "-0.0020 in"),
        (10.25, quantities.RATIO, "inch", "10.25"),
        (8, quantities.COUNT, "inch", "8"),
        (1e18, quantities.MASS, "inch", "1e+18 g"),
    ],
)
def test_shown_with_its_unit(value, kind, system, text):
    assert show(value, kind, system) == text


@given(
    st.one_of(
        st.floats(-1e14, 1e14),
        st.floats(-10, 10),
        # Halfway between two numbers that are shown, where the ways to round differ.
        st.builds(lambda n: (2 * n + 1) / 20_000, st.integers(-100_000, 100_000)),
        st.builds(lambda n: n / 2**12, st.integers(-100_000, 100_000)),
    )
)
def test_numbers_are_rounded_half_up_in_the_digits_that_a_spreadsheet_keeps(value):
    kept = Decimal(f"{value:.15g}")
    rounded = kept.quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)
    if rounded:
        assert show(value, quantities.LENGTH, "inch") == f"{rounded:,} in"
