"""Judging a value against its band."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Count, Reading, Readings, Text
from workbook_tools.catalog.readings import largest, require_all, smallest
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Readings"


@worksheet_function(SECTION)
def verdict(value: Reading, low: Reading, high: Reading) -> Text:
    """Whether a value lies within its band.

    Parameters
    ----------
    value
        The value to judge, of any kind.
    low
        Lower limit, in the same unit. Type 0 for a limit of 0; an empty cell is not 0.
    high
        Upper limit, in the same unit.

    Returns
    -------
    "ok", "low" or "high". A value on a limit is ok.

    Equation
    --------
    "low" if value < low, "high" if value > high, else "ok"

    Validity
    --------
    A value within a billionth of a limit counts as on it, so that the last digits of a
    computed value do not decide. In LibreOffice it takes single cells, not ranges; JUDGE
    takes a whole range everywhere.

    Source
    ------
    common practice, no source (comparison)

    Caution
    -------
    A verdict is as good as its band. The part maker's limits come first.
    """
    require(low <= high, "low", "no more than the upper limit")
    slack = 1e-9 * max(abs(low), abs(high))
    return "low" if value < low - slack else "high" if value > high + slack else "ok"


@worksheet_function(SECTION)
def judge(readings: Readings, expected: Count, low: Reading, high: Reading) -> Text:
    """Whether a whole range of readings lies within a band, none of them missing.

    Parameters
    ----------
    readings
        The range of readings, of any one kind. A text with its own unit is converted to the unit
        of bare numbers; any other text is refused.
    expected
        How many readings there must be. One too few or too many is an error.
    low
        Lower limit, in the same unit. Type 0 for a limit of 0; an empty cell is not 0.
    high
        Upper limit, in the same unit.

    Returns
    -------
    "ok" where every reading is within the band, else "low", "high" or "low and high".

    Equation
    --------
    the verdicts of the smallest and of the largest reading, together

    Validity
    --------
    A reading within a billionth of a limit counts as on it.

    Source
    ------
    common practice, no source (comparison)

    Caution
    -------
    A verdict is as good as its band. The part maker's limits come first.
    """
    require_all(readings, expected)
    under = verdict(smallest(readings), low, high) == "low"
    over = verdict(largest(readings), low, high) == "high"
    return "low and high" if under and over else "low" if under else "high" if over else "ok"
