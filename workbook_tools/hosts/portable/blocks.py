"""How the named operations on a block of readings are written as formulas.

A block arrives here as an array of SI numbers with "" where nothing was measured. The
catalog's own functions on blocks work through rows and cells; their formulas say the same
and are held to them by the tests.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from workbook_tools.catalog import blocks, readings

_SPREAD = "_xlfn.LAMBDA(_xlpm.line,MAX(_xlpm.line)-MIN(_xlpm.line))"

# A number is what sorts below every text: that also holds inside an array.
BLOCK_OPERATIONS: dict[Callable[..., Any], str] = {
    readings.number: 'SUM(({0}<"")*1)',
    readings.mean: "AVERAGE({0})",
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
}
