"""How Python's operations, and the catalog's named ones on blocks, are written as formulas.

A block arrives here as an array of SI numbers with "" where nothing was measured. The
catalog's own functions on blocks work through rows and cells; their formulas say the same
and are held to them by the tests.
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable
from typing import Any

from workbook_tools.catalog import blocks, readings
from workbook_tools.catalog.quench import thickness_nearest
from workbook_tools.hosts.portable.terms import ADD, MULTIPLY

SIMPLE_CALLS: dict[Callable[..., Any], str] = {
    abs: "ABS({})",
    float: "{}",
    math.fabs: "ABS({})",
    math.sqrt: "SQRT({})",
    math.sin: "SIN({})",
    math.cos: "COS({})",
    math.tan: "TAN({})",
    math.asin: "ASIN({})",
    math.acos: "ACOS({})",
    math.atan: "ATAN({})",
    math.atan2: "ATAN2({1},{0})",
    math.exp: "EXP({})",
    math.log: "LN({})",
    math.log10: "LOG10({})",
    math.floor: "INT({})",
    math.ceil: "(-INT(-({})))",
    math.sinh: "SINH({})",
    math.cosh: "COSH({})",
    math.tanh: "TANH({})",
}
OPERATORS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", ADD),
    ast.Sub: ("-", ADD),
    ast.Mult: ("*", MULTIPLY),
    ast.Div: ("/", MULTIPLY),
}
COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "=",
    ast.NotEq: "<>",
}
_SPREAD = "_xlfn.LAMBDA(_xlpm.line,MAX(_xlpm.line)-MIN(_xlpm.line))"

# Of the numbers on a shelf, those that are at least the least; how far each is from the wanted
# one, to the nanometer; of those with the smallest miss the largest. 0 where there is none.
# MAP keeps the shelf apart from a range of wanted sizes; both its arrays need one shape.
_NEAREST = (
    "_xlfn.MAP(({1})+({2})*0,({2})+({1})*0,_xlfn.LAMBDA(_xlpm.wanted_size,_xlpm.least_size,"
    '_xlfn.LET(_xlpm.on_shelf,IF({0}<"",IF({0}>=_xlpm.least_size-1E-09,{0},""),""),'
    '_xlpm.miss,IF(_xlpm.on_shelf<"",INT(ABS(_xlpm.on_shelf-_xlpm.wanted_size)*1E9+0.5),""),'
    'MAX(0,IF(_xlpm.miss=MIN(_xlpm.miss),_xlpm.on_shelf,"")))))'
)

# A number is what sorts below every text: that also holds inside an array.
BLOCK_OPERATIONS: dict[Callable[..., Any], str] = {
    readings.number: 'SUM(({0}<"")*1)',
    # From the smallest on, so that the mean of equal readings is that reading to the digit.
    readings.mean: '(MIN({0})+AVERAGE(IF({0}<"",{0}-MIN({0}),"")))',
    readings.smallest: "MIN({0})",
    readings.largest: "MAX({0})",
    blocks.require_filled: '(SUM(({0}<"")*1)=ROWS({0})*COLUMNS({0}))',
    blocks.rows_in: "ROWS({0})",
    blocks.columns_in: "COLUMNS({0})",
    blocks.total: "SUM({0})",
    blocks.spread: "(MAX({0})-MIN({0}))",
    blocks.widest_row: f"MAX(_xlfn.BYROW({{0}},{_SPREAD}))",
    blocks.widest_column: f"MAX(_xlfn.BYCOL({{0}},{_SPREAD}))",
    blocks.length_over_square: "SUM(_xlfn.TOROW({0})/_xlfn.TOROW({1})^2)",
    thickness_nearest: _NEAREST,
}
