"""The user-defined functions that xlwings offers to Excel: one for each catalog entry.

xlwings imports this module in its Python server and finds ENG_QUENCH and all others in it,
real functions with the signature, the texts and the category of the catalog entry. It needs
xlwings and, on Windows, pywin32.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from workbook_tools.hosts.excel.names import INSTALLATION

try:
    import pythoncom
    import xlwings
    from win32com.client import VARIANT
    from xlwings import udfs
except ImportError as missing:
    raise ImportError(
        "Excel's functions need xlwings and pywin32, and Windows: there, run "
        f"{INSTALLATION}. Elsewhere, and without an add-in: workbook-tools portable"
    ) from missing

from workbook_tools.catalog import OMITTED, ArgumentError, CellError, Function, calculate, entries
from workbook_tools.hosts.excel import seen_cells, wrapper
from workbook_tools.hosts.excel.names import about, argument_help, category, vba_name
from workbook_tools.quantities.noise import ended

# Error values as xlwings shows them with err_to_str, and the numbers of those that it does
# not know (#SPILL!, #CALC!, …): Excel's error 2000 and up, in COM's facility for controls.
_ERRORS = {"#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"}
_ERROR_NUMBERS = range(-2146828288 + 2000, -2146828288 + 2100)
_VALUE_ERROR = -2146826273  # #VALUE!
# Those that Excel itself passes where xlwings does not convert them.
_NAMED_ERRORS = xlwings._xlwindows.cell_errors  # type: ignore[attr-defined]


def _content(cell: Any) -> Any:
    """What stands in a cell, as the catalog takes it."""
    if isinstance(cell, Decimal):  # a cell formatted as currency
        return float(cell)
    if isinstance(cell, str) and cell in _ERRORS:
        return CellError(cell)
    if type(cell) is int and cell in _NAMED_ERRORS:
        return CellError(_NAMED_ERRORS[cell])
    if isinstance(cell, int) and cell in _ERROR_NUMBERS:
        return CellError(f"number {cell - _ERROR_NUMBERS.start + 2000}")
    return cell


def _argument(given: Any) -> Any:
    """A range as rows of cells; OMITTED as it is; None where Excel passes an empty place."""
    if not isinstance(given, list):
        return given
    return tuple(tuple(_content(cell) for cell in row) for row in given)


def _shown(value: Any) -> Any:
    """A result as Excel takes it, with an error value where there is none."""
    if isinstance(value, tuple):
        return [[_shown(cell) for cell in row] for row in value]
    if isinstance(value, Exception):
        return VARIANT(pythoncom.VT_ERROR, _VALUE_ERROR)
    return ended(value) if isinstance(value, float) else value


def _offered(function: Function) -> Callable[..., Any]:
    def call(*given):  # type: ignore[no-untyped-def]  # noqa: ANN002, ANN202 - xlwings reads hints
        if function.sees_cell:
            return seen_cells.reason_of(given[0].api, _content)
        try:
            value: Any = calculate(function, [_argument(part) for part in given]).value
        except ArgumentError as error:
            value = error
        return _shown(value)

    helps = argument_help(function)
    optional = {p.name for p in function.parameters if p.optional} | {"units"}
    call.__name__ = call.__qualname__ = vba_name(function)
    call.__doc__ = about(function)
    call.__signature__ = inspect.Signature(  # type: ignore[attr-defined]
        [
            inspect.Parameter(
                name,
                inspect.Parameter.POSITIONAL_OR_KEYWORD,
                default=OMITTED if name in optional else inspect.Parameter.empty,
            )
            for name in helps
        ]
    )
    for name, text in helps.items():
        if function.sees_cell:
            xlwings.arg(name, xlwings.Range, doc=text)(call)
            continue
        # Two dimensions always: a row and a column must not look alike.
        xlwings.arg(name, ndim=2, err_to_str=True, doc=text)(call)
    # Last: each description of an argument would put the category back to xlwings' own.
    offered: Callable[..., Any] = xlwings.func(category=category(function))(call)
    return offered


wrapper.correct(udfs)
globals().update({vba_name(function): _offered(function) for function in entries()})
