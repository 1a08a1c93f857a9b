"""Addresses in every form that a formula has, against openpyxl's reading of the same."""

import pytest
from each_case import each
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils.cell import quote_sheetname, range_boundaries

from workbook_tools.formulas.references import (
    Area,
    Place,
    Reference,
    always_quoted,
    area_address,
    fixed,
    read_reference,
    unquoted,
)

ROWS = st.integers(1, 1_048_576)
COLUMNS = st.integers(1, 16_384)
TITLES = st.text(st.characters(exclude_characters="[]:*?/\\\0", codec="utf-8"), min_size=1)


@pytest.mark.parametrize(
    ("text", "reference"),
    [
        ("B7", Reference("", 7, 2, 7, 2)),
        ("$b$7", Reference("", 7, 2, 7, 2)),
        ("B$3:$I3", Reference("", 3, 2, 3, 9)),
        ("I9:B3", Reference("", 3, 2, 9, 9)),
        ("B:D", Reference("", None, 2, None, 4)),
        ("$7:3", Reference("", 3, None, 7, None)),
        ("Bores!C5", Reference("Bores", 5, 3, 5, 3)),
        ("'Main bearings'!C5:C9", Reference("Main bearings", 5, 3, 9, 3)),
        ("'Owner''s book'!XFD1048576", Reference("Owner's book", 1048576, 16384, 1048576, 16384)),
    ],
)
def test_references_as_formulas_write_them(text, reference):
    assert read_reference(text) == reference


@each(
    "text",
    ["", "bore", "B", "7", "B0", "B07", "ABCD1", "B7:", "B7:C", "B7,C7", "#REF!", "[1]Sheet1!B7",
     "Sizes[Bore]", "B7 ", "Sheet1!", "!B7", "Sheet1:Sheet3!B7:B", "B123456789", "1.5"],
)  # fmt: skip
def test_what_is_no_reference(text):
    assert read_reference(text) is None


@given(ROWS, COLUMNS, ROWS, COLUMNS, TITLES)
def test_an_area_s_text_is_read_back_and_is_what_openpyxl_reads(row, column, last, right, title):
    area = Area(title, min(row, last), min(column, right), max(row, last), max(column, right))
    bounds = (area.left, area.top, area.right, area.bottom)
    assert range_boundaries(area.address) == bounds
    assert range_boundaries(fixed(area.address)) == bounds
    for text in (str(area), f"{always_quoted(title)}!{fixed(area.address)}"):
        if "!" not in title or text.startswith("'"):
            assert read_reference(text).area("another") == area
    assert always_quoted(title) == quote_sheetname(title)
    assert unquoted(always_quoted(title)) == title


def test_a_whole_column_reaches_as_far_as_its_sheet():
    column = read_reference("C:B")
    assert column.area("Bores") is None
    assert column.area_within("Bores", 40, 9) == Area("Bores", 1, 2, 40, 3)
    assert read_reference("5:7").area_within("Bores", 40, 9) == Area("Bores", 5, 1, 7, 9)


def test_a_place_in_numbers_and_an_area_as_a_place():
    assert Place("Bores", "B3:I4").area == Area("Bores", 3, 2, 4, 9)
    assert Area("Bores", 3, 2, 4, 9).place == Place("Bores", "B3:I4")
    assert Place("Bores", "").area is None
    assert Place("Bores", "B:B").area is None
    assert str(Area("Main bearings", 3, 2, 3, 2)) == "'Main bearings'!B3"


def test_the_cells_of_an_area_row_by_row():
    area = Area("Bores", 3, 2, 4, 3)
    assert [cell.address for cell in area.cells()] == ["B3", "C3", "B4", "C4"]
    assert area.size == 4
    assert not area.single
    assert area_address(3, 2, 3, 2) == "B3"


@given(ROWS, COLUMNS)
def test_a_place_of_a_row_and_a_column_is_read_back_as_these(row, column):
    place = Place.at("Deck", row, column)
    assert place.area == Area("Deck", row, column, row, column)
    assert range_boundaries(place.address) == (column, row, column, row)


def test_a_place_is_named_as_people_write_it():
    assert Place.at("Deck", 7, 28) == Place("Deck", "AB7")
    assert str(Place.at("Main bearings", 3, 2)) == "'Main bearings'!B3"
