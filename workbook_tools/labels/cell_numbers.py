"""The number of a cell as it stands, with its decimals and its unit."""

from __future__ import annotations

import re

from workbook_tools.labels.content import is_unit, with_point, without_tick
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.quantities import UnreadableText, split_quantity

_FIRST_NUMBER = re.compile(
    r"[~<>≈±']?\s*(?:(?:(?P<whole>\d+)[ -])?(?P<over>\d+)/(?P<under>[1-9]\d*)"
    r"|(?P<number>[-+−–]?(?:\d+\.?\d*|\.\d+)))"
)


def number_at(cells: SheetText, spot: Spot) -> tuple[float, int, str] | None:
    """A cell's number as it stands, its decimals and the unit behind it; None for no number."""
    at = spot.row, spot.column
    cell = cells.sheet.cells.get(at)
    raw = spot.inline or (cell.value if cell else None)
    if at in cells.sheet.struck or isinstance(raw, bool):
        return None
    if isinstance(raw, (int, float)):
        shown = f"{raw:.6g}" if cell and cell.formula else f"{raw:.12g}"
        return float(raw), len(shown.partition(".")[2]) if "e" not in shown else 6, ""
    return _number_in(raw) if isinstance(raw, str) else None


def _number_in(raw: str) -> tuple[float, int, str] | None:
    text = with_point(without_tick(" ".join(raw.split())))
    try:
        number, unit = split_quantity(text)
    except UnreadableText:
        number, unit = text, None
    if unit is not None and not is_unit(unit):
        number, unit = text, None
    found = _FIRST_NUMBER.match(number)
    if found is None:
        return None
    behind = number[found.end() :].split()
    unit = unit or next((w for n in (2, 1) if is_unit(w := " ".join(behind[:n]))), "")
    if found["under"]:
        return float(found["whole"] or 0) + float(found["over"]) / float(found["under"]), 0, unit
    size = float(re.sub("[−–]", "-", found["number"]))
    return size, len(found["number"].partition(".")[2]), unit
