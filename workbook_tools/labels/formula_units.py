"""The unit that the builder's own formula gives: (bore - piston) * 1000 is in thou."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from workbook_tools.labels.line import Line
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.spot import Spot
from workbook_tools.quantities import LENGTH, System

# What a whole difference, or a mean of some, is taken times: "=(B3-B4)*1000", "=1000*(B3-B4)".
_TIMES = re.compile(
    r"=?(?:ABS\(|ROUND\()*"
    r"(?:\((?P<inside>[^()]*(?:\([^()]*\)[^()]*)*)\)\s*(?P<how>[*/])\s*(?P<by>[\d.]+)"
    r"|(?P<first>[\d.]+)\s*\*\s*\((?P<within>[^()]*(?:\([^()]*\)[^()]*)*)\))"
    r"(?:\s*[,;]\s*-?\d+)?\)*",
    re.IGNORECASE,
)
# What makes millimeters thousandths of an inch, wherever it stands in a formula.
_TO_THOU = re.compile(r"/\s*0?\.0254(?!\d)|\*\s*39\.37\d*(?!\d)")
_OF_PARTS: dict[tuple[System, float], str] = {
    ("inch", 1000.0): "thou", ("inch", 10000.0): "tenth",
    ("metric", 100.0): "1/100 mm", ("metric", 1000.0): "um",
}  # fmt: skip
# From the one system to the other.
_CONVERTED: dict[float, tuple[System, str]] = {
    25.4: ("inch", "mm"),
    round(1 / 25.4, 6): ("metric", "in"),
}


def settle_unit_by_formula(cells: SheetText, spots: Sequence[Spot], line: Line) -> None:
    """Set the unit of a line that has none where its formulas say it, and its sizes fit."""
    if line.unit or not line.values or line.typed or line.over is not None:
        return
    formulas = [
        cell.formula
        for spot in spots
        if (cell := cells.sheet.cells.get((spot.row, spot.column))) and cell.formula
    ]
    units = {unit_given(formula, line.system) for formula in formulas}
    unit = next(iter(units)) if len(units) == 1 else ""
    if unit and any(_fits(line, n, unit) for n in range(min(2, len(line.options)))):
        line.unit = unit


def _fits(line: Line, number: int, unit: str) -> bool:
    """Whether most sizes of a line are possible in a unit as one of its meanings."""
    term = line.options[number].term
    factor = si_factor(term, unit, None) if term.kind is LENGTH else None
    sizes = [size for size in line.sizes if size]
    fitting = sum(term.is_possible(size * factor) for size in sizes) if factor else 0
    return 2 * fitting > len(sizes)


@lru_cache(maxsize=4096)
def unit_given(formula: str, system: System | None) -> str:
    """The unit that a formula of sizes of a system makes of theirs, "" where it keeps it."""
    if _TO_THOU.search(formula):
        return "thou"
    told = _TIMES.fullmatch(formula.replace("$", ""))
    if told is None or system is None:
        return ""
    within = told["inside"] or told["within"]
    try:
        by = float(told["by"] or told["first"])
    except ValueError:
        return ""
    if told["how"] == "/":
        by = round(1 / by, 6) if by else 0.0
    if not re.search(r"[A-Z]{1,3}\d+", within, re.IGNORECASE) or not re.search("[-+]", within):
        return ""
    of, unit = _CONVERTED.get(by, ("", ""))
    return unit if of == system else _OF_PARTS.get((system, by), "")
