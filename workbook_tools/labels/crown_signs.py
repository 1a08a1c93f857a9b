"""What the sign of a crown volume means, where the builder's own formulas add it to a chamber."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import replace

from workbook_tools.formulas.references import read_reference
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.conventions import Stated
from workbook_tools.labels.line import Line
from workbook_tools.labels.sheet_text import SheetText

_CROWNS = ("crown_volume",)
_CHAMBERS = ("chamber_volume", "combustion_volume")
_CELL = re.compile(r"(?P<sign>[-+]?)\(?(?<![\w!'.:])(?P<address>[A-Z]{1,3}\d{1,5})(?![\w(:!])")
# What stands for all readings in the formula of a ratio.
_ONE_FOR_ALL = re.compile(
    r"=?(?:ROUND\()?(?:AVERAGE|SUM|MAX|MIN)\((?P<range>[^()]*)\)(?:/\d+)?(?:[,;]\d+\))?"
)


def with_crown_sign(
    stated: Mapping[str, Stated], lines: Sequence[tuple[SheetText, Line]]
) -> dict[str, Stated]:
    """What holds on each sheet; where no text says what a crown's sign means, as formulas say it.

    A volume that is added to a chamber's is room, where it is above zero: a dish.
    """
    sheets = {id(cells): cells for cells, _ in lines}
    said = {
        sign
        for cells in sheets.values()
        for sign in _signs_in(cells, [line for other, line in lines if other is cells])
    }
    if len(said) != 1:
        return dict(stated)
    sign = next(iter(said))
    return {t: one if one.crown else replace(one, crown=sign) for t, one in stated.items()}


def _signs_in(cells: SheetText, lines: Sequence[Line]) -> Iterator[str]:
    """What each formula of a sheet that takes chambers and crowns says of the sign of these."""
    formulas = {at: c.formula.replace("$", "") for at, c in cells.sheet.cells.items() if c.formula}
    crowns = _cells_of(_CROWNS, lines, formulas) if formulas else set()
    chambers = _cells_of(_CHAMBERS, lines, formulas) if crowns else set()
    for at, formula in formulas.items() if chambers else ():
        if at in crowns or at in chambers:
            continue
        taken = [(one["sign"], _at(one["address"])) for one in _CELL.finditer(formula)]
        if any(sign != "-" and cell in chambers for sign, cell in taken):
            yield from (
                "negative dish" if sign == "-" else "positive dish"
                for sign, cell in taken
                if cell in crowns
            )


def _cells_of(names: Sequence[str], lines: Sequence[Line], formulas: Mapping[At, str]) -> Set[At]:
    """The cells of a sheet that hold sizes of some measurands, or the mean of them all."""
    own = {
        (row, column)
        for line in lines
        if line.chosen is not None and line.chosen.term.id in names
        for _, row, column in line.cells
    }
    means = set()
    for at, formula in formulas.items():
        mean = _ONE_FOR_ALL.fullmatch(formula)
        reference = read_reference(mean["range"]) if mean else None
        area = reference.area("") if reference and not reference.sheet else None
        if area is not None and {(c.top, c.left) for c in area.cells()} <= own:
            means.add(at)
    return own | means


def _at(address: str) -> At:
    reference = read_reference(address)
    area = reference.area("") if reference else None
    return (area.top, area.left) if area is not None else (0, 0)
