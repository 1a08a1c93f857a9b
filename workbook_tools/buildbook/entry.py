"""Checks of what is typed: words to choose from, a date, a number that can be meant."""

from __future__ import annotations

from collections.abc import Sequence

from openpyxl.worksheet.datavalidation import DataValidation

from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.quantities import Quantity
from workbook_tools.buildbook.style import Role

_TITLE_MOST, _PROMPT_MOST = 32, 255
# Characters that a program takes in the list of a cell; a shop's own uses may be too many.
_LIST_MOST = 255
# So many times larger or smaller than the others, a reading is asked about.
_TIMES = 7


def validation(
    plan: Plan,
    name: str,
    role: Role,
    quantity: Quantity | None,
    prompt: str,
    words: Sequence[str],
    cell: str,
) -> DataValidation | None:
    """The check of a cell: words to choose from, a date, or a number that can be meant."""
    if words and sum(map(len, words)) + len(words) < _LIST_MOST:
        check = DataValidation(
            "list",
            formula1='"' + ",".join(words) + '"',
            errorStyle="stop" if role == "choice" else "warning",
        )
        check.errorTitle = "Choose from the list"
        check.error = f"{name}: expected one of {', '.join(words)}."[:_PROMPT_MOST]
        prompt = prompt or "Choose from the list."
    elif role == "date":
        check = DataValidation("date", operator="greaterThan", formula1="36526")
        check.errorTitle = "A date is expected"
        check.error = f"{name}: type a date, for example 2031-04-17."
        prompt = prompt or "A date, for example 2031-04-17."
    elif quantity is not None:
        check = _number(plan, name, quantity, cell)
        unit = quantity.unit(plan)
        prompt = f"{prompt} {f'Unit: {unit}.' if unit else ''}".strip()
    elif prompt:
        check = DataValidation(None)
    else:
        return None
    check.allowBlank = True
    # A list that is no choice between two words can be typed over.
    check.showErrorMessage = not words or role == "choice"
    check.showInputMessage = True
    check.promptTitle = name[:_TITLE_MOST]
    if prompt:
        check.prompt = prompt[:_PROMPT_MOST]
    return check


def _number(plan: Plan, name: str, quantity: Quantity, cell: str) -> DataValidation:
    low, high = quantity.range(plan)
    unit = quantity.unit(plan)
    meant = f"AND(ISNUMBER({cell}),{cell}>={low:g},{cell}<={high:g})"
    if quantity.other(plan):
        # A number with its unit beside it is what the message below proposes.
        begins = f'ISNUMBER(FIND(LEFT(TRIM({cell}),1),"0123456789.+-"))'
        meant = f"OR({meant},AND(ISTEXT({cell}),{begins}))"
    check = DataValidation("custom", formula1=meant, errorStyle="warning")
    check.errorTitle = "Is that what you mean?"
    shown, other = (f" {unit}" if unit else ""), quantity.other(plan)
    check.error = (
        f"{name}: expected a number from {low:g} to {high:g}{shown}. Look at the decimal point"
        + (
            f" and the unit; another unit is written beside its number, as in {other}."
            if other
            else "."
        )
    )[:_PROMPT_MOST]
    return check


def doubt(cell: str, column: str, head: str) -> str:
    """Text that asks about a reading which is many times its neighbors; as part of a formula.

    cell; column: all readings of the kind, the cell among them; head: what they are.
    """
    middle = f"SMALL({column},INT((COUNT({column})+1)/2))"
    far = f"OR({cell}>{_TIMES}*{middle},{_TIMES}*{cell}<{middle})"
    counted = f"AND(ISNUMBER({cell}),COUNT({column})>1)"
    return f'IF({counted},IF(AND({middle}>0,{far}),"{head}? ",""),"")'
