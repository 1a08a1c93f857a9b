"""What the office reads in a book: real workbooks, written here and read back."""

import datetime

import pytest
from openpyxl import Workbook

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.paperwork import read_office


@pytest.fixture
def office(tmp_path):
    def read(rows, more=()):
        book = Workbook()
        for sheet_rows in (rows, *more):
            sheet = book.active if sheet_rows is rows else book.create_sheet()
            for row in sheet_rows:
                sheet.append(row)
        path = tmp_path / "book.xlsx"
        book.save(path)
        return read_office(read_cells(path))

    return read


def test_what_is_said_once_is_read_from_its_label(office):
    said = office(
        [
            ["Promised", datetime.datetime(2026, 10, 20)],
            ["Status: waiting for machine"],
            ["Use", None, "tow, diesel"],
            ["Fuel", "premium"],
            ["Oil", "10W-30"],
            ["Firing order", "1-3-4-2"],
        ]
    )
    assert said.promised.text == "2026-10-20"
    assert said.waiting.text == "waiting for machine"
    assert (said.use.text, said.use.place.address) == ("tow, diesel", "C3")
    assert (said.fuel.text, said.oil.text) == ("premium", "10W-30")
    assert said.firing_order.text == "1-3-4-2"


def test_a_number_under_oil_is_a_reading_and_no_grade(office):
    assert office([["Oil", 58], ["Fuel", 43.5]]).oil.text == ""


@pytest.mark.parametrize(
    ("rows", "parts"),
    [
        ([["Parts to order: head gasket"]], [("head gasket", "to order")]),
        ([["To order", "timing chain"]], [("timing chain", "to order")]),
        (
            [["Back-ordered"], ["rod bolts", "8"], ["oil pump"], [None], ["not a part"]],
            [("rod bolts", "8"), ("oil pump", "to order")],
        ),
        (
            [["Part", "Qty", "Short"], ["Ring set", 1, "second rings"], ["Pistons", 8, "none"]],
            [("Ring set", "short: second rings")],
        ),
        (
            [
                ["No.", "Part", "Ordered", "Received"],
                [1, "Main shells", "2026-09-30", None],
                [2, "Rod shells", "2026-09-30", "2026-10-04"],
                [3, "Gaskets", None, None],
            ],
            [("Main shells", "ordered 2026-09-30, not received")],
        ),
        (
            [["To order", "How many", "From"], ["Cam bearings", 5, "the usual"]],
            [("Cam bearings", "5")],
        ),
        ([["Parts to order: none"]], []),
        ([["Part", "Size marked", "Size measured"], ["Pistons", 4.03, 4.0266]], []),
    ],
)
def test_parts_to_order_are_what_the_book_says(office, rows, parts):
    assert [(line.part, line.said) for line in office(rows).parts] == parts


def test_a_book_without_a_list_is_told_from_one_that_needs_nothing(office):
    assert office([["Part", "Shortage"], ["Pistons", "no"]]).part_lists == 1
    assert office([["Bore", 4.03]]).part_lists == 0


def test_a_table_of_fasteners_is_read_row_by_row(office):
    said = office(
        [
            ["Fasteners", "Lubricant", "Step 1 (N.m)", "Then turn (deg)"],
            ["Cylinder head", "engine oil", 30, 90],
            ["Oil pan", "dry", 10, None],
        ]
    )
    assert [f.name for f in said.fasteners] == ["Cylinder head", "Oil pan"]
    assert said.fasteners[0].said == (
        ("Lubricant", "engine oil"),
        ("Step 1 (N.m)", "30"),
        ("Then turn (deg)", "90"),
    )
    assert said.fasteners[1].said == (("Lubricant", "dry"), ("Step 1 (N.m)", "10"))


OPEN_HEADS = ["No.", "What is open", "Who", "Until", "Closed by", "On"]


@pytest.mark.parametrize(
    ("rows", "items"),
    [
        (
            [
                ["Open items, to close before the engine leaves"],
                OPEN_HEADS,
                ["No. 1", "Valve springs short", "RL", datetime.datetime(2026, 11, 20)],
                ["No. 2", "Oil filter to cut open", "RL", None, "RL", datetime.date(2026, 11, 9)],
                ["No. 3"],
            ],
            [("Valve springs short", "RL", "2026-11-20")],
        ),
        ([["To do: second set of rings"]], [("second set of rings", "", "")]),
        ([["Open items", "none"]], []),
        ([["Still open"], ["Damper to balance"]], [("Damper to balance", "", "")]),
        (
            [["Noch offen", "Wer", "Erledigt am"], ["Kolbenringe fehlen", "AB", "nein"]],
            [("Kolbenringe fehlen", "AB", "")],
        ),
        ([["Open height", 1.34]], []),
    ],
)  # fmt: skip
def test_open_items_are_those_that_nothing_says_are_closed(office, rows, items):
    assert [(one.what, one.who, one.until) for one in office(rows).open_items] == items


@pytest.mark.parametrize(
    ("rows", "hours"),
    [
        ([["Labor hours", 34.5]], "34.5"),
        ([["Total hours, h", "41 h"]], "41"),
        ([["Work", "Hours"], ["hone", 4.5], ["assemble", 6], ["sum", None]], "10.5"),
        ([["Hours or miles run", 1240]], ""),
        ([["Hours", 1240], ["Bore", 4.03]], ""),
    ],
)  # fmt: skip
def test_hours_are_those_of_work_and_not_of_the_engine(office, rows, hours):
    assert office(rows).hours.text == hours
