"""Lists with a part, a size, a position, a value and its limits in each row, and job lists.

That shops keep such lists is common practice, no source.
"""

from __future__ import annotations

from workbook_tools.jobs.read import read_jobs


def test_a_head_that_says_value_between_part_and_limits(make_book):
    rows = [
        ["Job", "RC-7"],
        [],
        ["ref", "part", "item", "pos.", "value", "unit", "min", "max"],
        [1, "crank", "stroke", None, 63.5, "mm", None, None],
        [2, "cylinder", "bore", "cyl 1", 100.012, "mm", 100, 100.02],
        [3, "cylinder", "bore", "cyl 2", 100.014, "mm", 100, 100.02],
        [4, "piston", "diameter", "cyl 1", 99.951, "mm", 99.94, 99.96],
        [5, "piston", "diameter", "cyl 2", 99.949, "mm", 99.94, 99.96],
    ]
    (book,) = read_jobs(make_book({"S": rows}))
    found = {
        r.place.address: (r.measurand, r.part.number, r.value)
        for r in book.readings
        if r.state == "read" and r.place.address.startswith("E")
    }
    assert found == {
        "E4": ("stroke", 0, 63.5),
        "E5": ("bore", 1, 100.012),
        "E6": ("bore", 2, 100.014),
        "E7": ("piston_diameter", 1, 99.951),
        "E8": ("piston_diameter", 2, 99.949),
    }


def test_jobs_below_each_other_each_with_its_fields_in_one_row(make_book):
    rows = []
    for number, name in (("25-0611", "Huber"), ("25-0614", "Lang")):
        rows += [
            [f"Auftrag {number}", None, f"Kunde: {name}", None, "Motor: Zweizylinder 350"],
            ["Bearbeiter: Ralf M.", None, "Eingang: 02.06.2025", None, "fertig: 04.06.2025"],
            ["Zylinder", 1, 2],
            ["Bohrung mm", 59.52, 59.53],
            [],
        ]
    books = read_jobs(make_book({"S": rows}))
    assert [(b.job.number.text, b.job.customer.text) for b in books] == [
        ("25-0611", "Huber"),
        ("25-0614", "Lang"),
    ]
    assert [[r.value for r in b.readings] for b in books] == [[59.52, 59.53]] * 2
    assert [b.job.builder.text for b in books] == ["Ralf M.", "Ralf M."]


def test_crank_and_oil_in_a_table_of_bearings(make_book):
    rows = [
        ["Job", "1140"],
        [],
        ["MAINS (in)"],
        ["no.", "crank", "brg", "oil"],
        [1, 2.4484, 2.4510, 0.0026],
        [2, 2.4485, 2.4511, 0.0026],
        [3, 2.4484, 2.4509, 0.0025],
    ]
    (book,) = read_jobs(make_book({"S": rows}))
    found = {r.place.address: (r.measurand, r.state) for r in book.readings}
    assert found["B5"] == ("main_journal", "read")
    assert found["C5"] == ("main_bearing_bore", "read")
    assert found["D5"] == ("main_bearing_clearance", "read")


def test_rows_that_count_by_a_word_that_is_not_known(make_book):
    rows = [["Job", "9"], [], ["Nr.", "Bohrung mm"], ["Topf 1", 82.01], ["Topf 2", 82.02]]
    (book,) = read_jobs(make_book({"S": rows}))
    assert [(r.measurand, r.part.number) for r in book.readings] == [("bore", 1), ("bore", 2)]


def test_rows_below_a_gap_go_on_the_list_above(make_book):
    head = ["Job no", "Customer", "Engine", "Stroke mm", "Bore mm", "Piston mm"]
    rows = [
        head,
        ["K1", "Pralong", "single 125", 54.5, 54.02, 53.93],
        ["K2", "Vuibert", "single 125", 54.5, 54.04, 53.95],
        [],
        ["K3", "Pralong", "single 125", 54.5, 54.01, 53.92],
    ]
    books = read_jobs(make_book({"S": rows}))
    assert [b.job.number.text for b in books] == ["K1", "K2", "K3"]
    assert [[r.value for r in b.readings if r.measurand == "bore"] for b in books] == [
        [54.02], [54.04], [54.01],
    ]  # fmt: skip


def test_letters_before_numbers_count_what_the_head_before_them_names(make_book):
    rows = [
        ["Bon", "M-214"], [],
        ["Ligne", "P1", "P2", "P3", None, "Bielle", "B1", "B2"],
        ["Tourillon mm", 57.964, 57.965, 57.964, None, "Maneton mm", 47.975, 47.976],
        ["Ø coussinet mm", 58.012, 58.013, 58.012, None, "Ø coussinet mm", 48.026, 48.025],
    ]  # fmt: skip
    (book,) = read_jobs(make_book({"S": rows}))
    found = {r.place.address: (r.measurand, r.part.short) for r in book.readings}
    assert found["B4"] == ("main_journal", "Main 1")
    assert found["C5"] == ("main_bearing_bore", "Main 2")
    assert found["G4"] == ("rod_journal", "Rod 1")
    assert found["H5"] == ("rod_bearing_bore", "Rod 2")


def test_mains_and_rods_that_share_their_labels_in_a_log(make_book):
    rows = [["Job", "CP/2291"], [], ["Where", "What", "As found", "As built", "Units"]]
    for where, found, built in (("Main", 2.4936, 2.4842), ("Big end", 2.2433, 2.2340)):
        for number in (1, 2):
            rows += [
                [f"{where} {number}", "journal", found, built, "in"],
                [f"{where} {number}", "oil clearance", None, 2.5, "thou"],
            ]
    (book,) = read_jobs(make_book({"S": rows}))
    told = {r.place.address: r.measurand for r in book.readings if r.state == "read"}
    assert [told[f"D{row}"] for row in range(4, 12)] == [
        "main_journal", "main_bearing_clearance", "main_journal", "main_bearing_clearance",
        "rod_journal", "rod_bearing_clearance", "rod_journal", "rod_bearing_clearance",
    ]  # fmt: skip
