"""Months that follow one another, and what is none."""

import pytest

from workbook_tools.month.period import MonthError, period


def test_a_range_has_its_months_and_a_name_and_a_title():
    told = period("2025-11", "2026-02")
    assert told.months == ("2025-11", "2025-12", "2026-01", "2026-02")
    assert told.name == "2025-11-to-2026-02"
    assert told.title == "November 2025 to February 2026"
    assert (str(told.first), str(told.last)) == ("2025-11-01", "2026-02-28")
    assert period("2026-01", "2026-11").title == "January to November 2026"


def test_a_range_of_one_month_is_that_month():
    assert period("2026-10", "2026-10") == period("2026-10")
    assert period("2026-10").months == ("2026-10",)
    assert not period("2026-10").is_range


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        ("2026-10", "2026-09", "last month: expected 2026-10 or a later one, got '2026-09'"),
        ("2026-10", "11", "last month: expected a year and a month as 2026-10, got '11'"),
        ("1990-01", "2026-10", "months: expected at most 120, got 442 from 1990-01 to 2026-10"),
    ],
)
def test_a_range_that_is_none_is_told(first, last, said):
    with pytest.raises(MonthError) as told:
        period(first, last)
    assert str(told.value) == said
