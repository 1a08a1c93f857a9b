"""What the sign of a crown volume or a deck clearance means, by the builder's own formulas."""

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
_DECKS, _GASKETS = ("deck_clearance",), ("gasket_thickness",)
# The gasket may stand on another sheet: "=B8+Cover!C16".
_SUM_OF_TWO = re.compile(
    r"=?(?P<first>(?:[^-+*/(),;]+!)?[A-Z]{1,3}\d{1,5})(?P<sign>[-+])"
    r"(?P<second>(?:[^-+*/(),;]+!)?[A-Z]{1,3}\d{1,5})"
)
_CELL = re.compile(r"(?P<sign>[-+]?)\(?(?<![\w!'.:])(?P<address>[A-Z]{1,3}\d{1,5})(?![\w(:!])")
# What stands for all readings in the formula of a ratio.
_ONE_FOR_ALL = re.compile(
    r"=?(?:ROUND\()?(?:AVERAGE|SUM|MAX|MIN)\((?P<range>[^()]*)\)(?:/\d+)?(?:[,;]\d+\))?"
)


def with_signs(
    stated: Mapping[str, Stated], lines: Sequence[tuple[SheetText, Line]]
) -> dict[str, Stated]:
    """What holds on each sheet; where no text says what a sign means, as formulas say it.

    A crown volume that is added to a chamber's is room, where it is above zero: a dish. A deck
    clearance that is added to the gasket for the quench is below the deck where it is above zero.
    """
    sheets = {id(cells): cells for cells, _ in lines}
    of_sheets = [
        (cells, [line for other, line in lines if other is cells]) for cells in sheets.values()
    ]
    crowns = {sign for cells, those in of_sheets for sign in _signs_in(cells, those)}
    gaskets = {
        (cells.sheet.title, at)
        for cells, those in of_sheets
        for at in _cells_of(_GASKETS, those, {})
    }
    decks = {sign for cells, those in of_sheets for sign in _decks_in(cells, those, gaskets)}
    crown = next(iter(crowns)) if len(crowns) == 1 else ""
    deck = next(iter(decks)) if len(decks) == 1 else ""
    return {
        title: replace(one, crown=one.crown or crown, deck=one.deck or deck)
        for title, one in stated.items()
    }


def _decks_in(
    cells: SheetText, lines: Sequence[Line], gaskets: Set[tuple[str, At]]
) -> Iterator[str]:
    """What each formula of deck clearance and gasket says of the sign of the clearance."""
    decks = _cells_of(_DECKS, lines, {})
    for cell in cells.sheet.cells.values() if decks and gaskets else ():
        taken = _SUM_OF_TWO.fullmatch((cell.formula or "").replace("$", ""))
        if taken is None:
            continue
        title = cells.sheet.title
        first, second = (_on_sheet(taken[name], title) for name in ("first", "second"))
        if first[0] == title and first[1] in decks and second in gaskets and taken["sign"] == "+":
            yield "positive below"
        elif second[0] == title and second[1] in decks and first in gaskets:
            yield "positive below" if taken["sign"] == "+" else "negative below"


def _signs_in(cells: SheetText, lines: Sequence[Line]) -> Iterator[str]:
    """What each formula of a sheet that takes chambers and crowns says of the sign of these."""
    formulas = {at: c.formula.replace("$", "") for at, c in cells.sheet.cells.items() if c.formula}
    crowns = _cells_of(_CROWNS, lines, formulas) if formulas else set()
    chambers = _cells_of(_CHAMBERS, lines, formulas) if crowns else set()
    for at, formula in formulas.items() if chambers else ():
        if at in crowns or at in chambers:
            continue
        taken = [(one["sign"], _on_sheet(one["address"], "")[1]) for one in _CELL.finditer(formula)]
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


def _on_sheet(address: str, title: str) -> tuple[str, At]:
    """The sheet and the cell of an address in a formula on a sheet."""
    reference = read_reference(address)
    area = reference.area(title) if reference else None
    return (area.sheet, (area.top, area.left)) if area is not None else ("", (0, 0))
