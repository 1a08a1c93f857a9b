"""Which numbers of a summary make one row, and what a row says of all its positions."""

from one_book import book, quench, rows_of
from sample import across, call

from workbook_tools.formulas.references import Place
from workbook_tools.labels.label import Label
from workbook_tools.summary.summary import summarize


def test_cylinders_are_one_row_with_the_least_and_largest_named(v8):
    quench = rows_of(v8.sections)["Quench"]
    assert [n.position for n in quench.numbers] == [f"Cyl {i}" for i in range(1, 9)]
    assert [n.text for n in quench.numbers][:5] == [
        "0.0490",
        "0.0495",
        "0.0485",
        "0.0510",
        "0.0422",
    ]
    assert quench.result == "0.0422 to 0.0515"
    assert quench.unit == "in"
    assert quench.cells == "Build!C16:J16"
    extent = quench.extent
    assert (extent.least, extent.least_at) == ("0.0422", "Cyl 5")
    assert (extent.largest, extent.largest_at) == ("0.0515", "Cyl 8")
    # (0.0490 + 0.0495 + 0.0485 + 0.0510 + 0.0422 + 0.0495 + 0.04875 + 0.0515) / 8 by hand.
    assert extent.mean == "0.04874"


def grouped(*records):
    (section,) = summarize(book(*records), ()).sections
    return [[(n.position, n.text) for n in row.numbers] for row in section.rows]


def test_a_position_that_comes_again_starts_a_second_set():
    before = [quench(a, "Quench", 0.001, f"Cyl {i}") for i, a in enumerate(across("B", 3, 2), 1)]
    after = [quench(a, "Quench", 0.002, f"Cyl {i}") for i, a in enumerate(across("B", 9, 2), 1)]
    assert grouped(*before, *after) == [
        [("Cyl 1", "0.0410"), ("Cyl 2", "0.0410")],
        [("Cyl 1", "0.0420"), ("Cyl 2", "0.0420")],
    ]


def test_banks_on_two_sheets_are_one_row_but_two_sets_are_not():
    left = [quench("B3", "Quench", 0.001, "Cyl 1"), quench("C3", "Quench", 0.001, "Cyl 3")]
    right = [quench("B3", "Quench", 0.002, "Cyl 2", sheet="Right")]
    again = [quench("B3", "Quench", 0.003, "Cyl 1", sheet="Later")]
    assert grouped(*left, *right, *again) == [
        [("Cyl 1", "0.0410"), ("Cyl 2", "0.0420"), ("Cyl 3", "0.0410")],
        [("Cyl 1", "0.0430")],
    ]


def test_numbers_without_positions_or_with_other_labels_stay_apart():
    assert len(grouped(quench("B3", "Quench", 0.001), quench("B4", "Quench", 0.002))) == 2
    assert len(grouped(quench("B3", "One", 0.1, "1"), quench("B4", "Two", 0.1, "2"))) == 2
    metric = call("B5", "Quench", "QUENCH", 0.1, 1.0, "metric", position="Cyl 2")
    assert len(grouped(quench("B3", "Quench", 0.001, "Cyl 1"), metric)) == 2


def test_mains_and_rods_are_two_rows_and_banks_one():
    def one(address, position):
        return quench(address, "Housing", 0.01, position)

    apart = grouped(one("B3", "Main 1"), one("B4", "Main 2"), one("B5", "Rod 1"))
    assert [[p for p, _ in row] for row in apart] == [["Main 1", "Main 2"], ["Rod 1"]]
    banks = grouped(one("B3", "L1"), one("B4", "R1"))
    assert [[p for p, _ in row] for row in banks] == [["L1", "R1"]]


def test_ten_comes_after_two_and_unnumbered_positions_as_they_stand():
    order = ["Cyl 10", "Cyl 2", "Cyl 1"]
    records = [quench(a, "Q", 0.01, p) for a, p in zip(across("B", 3, 3), order, strict=True)]
    assert [p for p, _ in grouped(*records)[0]] == ["Cyl 1", "Cyl 2", "Cyl 10"]
    named = [
        quench(a, "Q", 0.01, p) for a, p in zip(across("B", 3, 2), ["Rear", "Front"], strict=True)
    ]
    assert [p for p, _ in grouped(*named)[0]] == ["Rear", "Front"]


def test_a_bare_number_as_position_is_named_as_one():
    records = [quench("B3", "Q", 0.01, "1"), quench("C3", "Q", 0.02, "2")]
    extent = summarize(book(*records), ()).sections[0].rows[0].extent
    assert (extent.least_at, extent.largest_at) == ("no. 1", "no. 2")


def test_a_call_without_a_label_has_its_functions_name():
    record = quench("B3", "x", 0.01)._replace(label=None)
    assert "Quench" in rows_of(summarize(book(record), ()).sections)
    half = record._replace(label=Label("", "Cyl 1"))
    assert "Quench" in rows_of(summarize(book(half), ()).sections)


def test_a_position_without_a_result_stays_in_its_row():
    records = [quench("B3", "Quench", 0.01, "Cyl 1"), quench("C3", "Quench", None, "Cyl 2")]
    (row,) = summarize(book(*records), ()).sections[0].rows
    assert [(n.position, n.text, n.state) for n in row.numbers] == [
        ("Cyl 1", "0.0500", "same"),
        ("Cyl 2", "", "error"),
    ]


def test_where_nothing_was_saved_the_rest_is_what_is_named():
    records = [quench(a, "Q", 0.01, f"Cyl {i}", saved=None) for i, a in enumerate("BCD", 1)]
    records = [r._replace(place=Place("Build", f"{r.place.address}3")) for r in records]
    records[1] = quench("C3", "Q", None, "Cyl 2")
    (row,) = summarize(book(*records), ()).sections[0].rows
    assert row.states == "error: Cyl 2; 2 of 3 not saved"


def test_a_plain_number_takes_no_unit_from_the_label_of_its_cell():
    record = call("B3", "Top gap", "RING_GAP_FACTOR", "street", "top")._replace(unit="mm")
    assert summarize(book(record), ()).sections[0].rows[0].unit == ""
