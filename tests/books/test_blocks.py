"""What stands together on a sheet: parted by empty rows, and by columns with own labels."""

import pytest
from each_case import each

from workbook_tools.books.cells import Cell
from workbook_tools.labels.blocks import blocks
from workbook_tools.labels.cell_kinds import kind_of, kind_of_text


def parted(*rows):
    """The blocks of rows of cells, each as (first row, last row, first column, last column)."""
    kinds = {
        (r, c): kind_of(Cell(value))
        for r, row in enumerate(rows, 1)
        for c, value in enumerate(row, 1)
        if value not in ("", None)
    }
    return [(min(b.rows), max(b.rows), b.left, b.right) for b in blocks(kinds)]


def test_an_empty_row_parts_blocks():
    assert parted(["Bore", 4.0], ["Stroke", 3.5], [], ["Pin", 0.9]) == [(1, 2, 1, 2), (4, 4, 1, 2)]


@pytest.mark.parametrize(
    ("left", "right"),
    [("Bore", "Stroke"), ("Bohrung", "Hub"), ("Alésage", "Course"), ("Calibre", "Carrera"),
     ("Alesaggio", "Corsa")],
)  # fmt: skip
def test_tables_side_by_side_are_two(left, right):
    rows = [[left, 86.0, "", right, 77.0], [f"{left} 2", 86.1, "", f"{right} 2", 77.1]]
    assert parted(*rows) == [(1, 2, 1, 2), (1, 2, 4, 5)]


def test_labels_apart_from_their_values_stay_with_them():
    assert parted(["Bore", "", "", 4.0], ["Stroke", "", "", 3.5]) == [(1, 2, 1, 4)]


def test_a_table_whose_rows_are_numbered_further_left_is_one():
    rows = [["Cyl", "Bore", "", "Skirt"], [1, 4.01, "", 4.006], [2, 4.02, "", 4.016]]
    assert parted(*rows) == [(1, 3, 1, 4)]


def test_numbers_that_count_the_rows_behind_an_empty_column_are_of_their_table():
    rows = [["Apoyo", "", "Muñón", "Holgura"], [1, "", 94.97, 0.098], [2, "", 94.96, 0.099]]
    assert parted(*rows) == [(1, 3, 1, 4)]
    rows = [["Piston", "", "Stroke", 94.0], [1, "", "Rod", 150.0], [2, "", "Gasket", 1.2]]
    assert len(parted(*rows)) == 2


def test_a_remark_in_a_column_of_its_own_is_parted_from_no_numbers():
    assert parted(["Bore", 4.0, "", "all good"], ["Stroke", 3.5]) == [(1, 2, 1, 4)]


@each(
    ("text", "kind"),
    [
        ("4.030", "measured"), ("38 thou", "measured"), ("0,05 mm", "measured"),
        ("mm", "unit"), ("ft-lb", "unit"), ("m", "text"), ("JP", "text"),
        ("n/a", "nothing"), ("ok", "nothing"), ("k.A.", "nothing"), ("s/d", "nothing"),
        ("12.03.2025", "date"), ("3rd May 2024", "date"),
        ("1 in", "text"), ("2 ex", "text"), ("1st ring", "text"), ("1. Zylinder", "text"),
        ("Bohrung", "text"), ("1 rough", "text"),
        ("the third one was polished twice until it was good and is fine now", "remark"),
    ],
)  # fmt: skip
def test_a_cell_is_of_one_kind(text, kind):
    assert kind_of_text(text) == kind
