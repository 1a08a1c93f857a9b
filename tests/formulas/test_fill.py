"""A formula copied along: its references move as a spreadsheet program moves them."""

import pytest

from workbook_tools.formulas.fill import filled, moved, pattern


@pytest.mark.parametrize(
    ("formula", "to", "copied"),
    [
        ("B3-B$4*$C5", "C4", "C4-C$4*$C6"),
        ("ENG.QUENCH(B3,$B$9)", "B6", "ENG.QUENCH(B6,$B$9)"),
        ("'Main bearings'!B3", "D3", "'Main bearings'!D3"),
        ('IF(B3="B3","",B3)', "C3", 'IF(C3="B3","",C3)'),
    ],
)
def test_references_move_and_fixed_ones_stay(formula, to, copied):
    assert moved(formula, "B3", to) == copied


def test_a_reference_that_leaves_the_sheet_is_no_formula():
    assert moved("A1", "B3", "A1") == ""


def test_two_cells_of_a_filled_row_are_alike_and_the_third_follows():
    alike = pattern("ENG.QUENCH(B3,B9)", "B4", "ENG.QUENCH(C3,B9)", "C4")
    assert alike is not None
    assert filled(alike, "B4", "D4") == "ENG.QUENCH(D3,B9)"


@pytest.mark.parametrize("other", ["ENG.QUENCH(D3,B9)", "C3-B9", "ENG.QUENCH(C3,B9)*2"])
def test_formulas_that_are_no_copies_are_not_alike(other):
    assert pattern("ENG.QUENCH(B3,B9)", "B4", other, "C4") is None
