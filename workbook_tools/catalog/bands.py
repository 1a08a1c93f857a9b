"""Judging a value against its band."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Reading, Text
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
    computed value do not decide.

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
