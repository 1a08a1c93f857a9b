"""Readings of books without worksheet functions: one engine, written down in many ways."""

import math

import openpyxl
import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.findings import check
from workbook_tools.findings.evidence import Evidence
from workbook_tools.jobs.known import contradictions, known, usable
from workbook_tools.jobs.read import read_book, read_jobs
from workbook_tools.jobs.survey import survey_book
from workbook_tools.labels.candidates import propose
from workbook_tools.labels.layout import read_layout
from workbook_tools.labels.vocabulary import NO_SIZES
from workbook_tools.quantities import from_si


def facts(book):
    """What is known of a job to compute with."""
    return known(book.readings, book.missing, book.stated)


def read(make_book, *rows, **more):
    return {
        (r.name, r.position): r
        for r in propose(read_cells(make_book({"A": rows}, **more))).readings
    }


def test_a_missing_cylinder_is_seen_and_nothing_computed_for_it(make_book):
    path = make_book(
        {
            "A": [
                ["Cyl", 1, 2, 3, 4],
                ["Deck clearance (in)", 0.005, None, 0.006, None],
                ["Gasket thickness (in)", 0.04],
                ["Bore (in)", 4, 4, 4],
                ["Stroke (in)", 3.5],
            ]
        }
    )
    book = read_book(path)
    quench = [r for r in book.records if r.function.name == "QUENCH"]
    assert [r.state for r in quench] == ["computed", "error", "computed", "error"]
    assert [r.missing for r in quench] == [False, True, False, True]
    assert str(quench[1].arguments[0].place) == "A!C2"
    assert not [r for r in book.records if r.function.name == "DISPLACEMENT"]
    assert any("displacement was not computed" in t.message for t in book.troubles)


def test_a_recorded_value_stands_beside_the_computed_one(make_book):
    book = read_book(
        make_book(
            {
                "A": [
                    ["All dims inch"],
                    ["Deck clearance", 0.005],
                    ["Gasket thickness", 0.04],
                    ["Quench", 0.054],
                ]
            }
        )
    )
    (record,) = book.records
    assert (record.saved, record.state, str(record.place)) == (0.054, "computed", "A!B4")
    assert record.value == pytest.approx(0.045)


def test_what_a_call_gives_is_not_computed_again_and_the_rest_is(make_book):
    rows = [
        ["Deck clearance (in)", 0.005],
        ["Gasket (in)", 0.04],
        ["Quench", "=ENG.QUENCH(B1,B2)"],
        ["Bore (in)", 4.0],
        ["Piston (in)", 3.996],
    ]
    book = read_book(make_book({"A": rows}))
    assert [(r.name, r.computed_by_batch) for r in book.records] == [
        ("ENG.QUENCH", False),
        ("ENG.PISTON_CLEARANCE", True),
    ]
    assert [r.measurand for r in book.readings] == [
        "deck_clearance",
        "gasket_thickness",
        "bore",
        "piston_diameter",
    ]


def test_a_unit_said_nowhere_is_refused_and_two_systems_are_none(make_book):
    assert "says the unit" in read(make_book, ["Bore", 4.03])["bore", ""].content.reason
    both = read(make_book, ["All sizes in inch"], ["All sizes in mm"], ["Bore", 4.03])
    assert both["bore", ""].value is None


def test_what_only_resembles_a_label_is_proposed_and_not_used(make_book):
    path = make_book({"A": [["Bore dimeter (in)", 4.03]]})
    found = propose(read_cells(path))
    (reading,) = found.readings
    assert (reading.how, reading.name) == ("proposal", "bore")
    assert reading.likeness < 100
    (decided,) = read_book(path).readings
    assert (decided.measurand, decided.state) == ("bore", "asked")
    assert not usable(facts(read_book(path)))


def test_two_values_of_one_reading_are_a_contradiction_and_neither_is_used(make_book):
    rows = [["Stroke (in)", 3.5], [], ["Notes"], ["Crank stroke (in)", 3.48]]
    path = make_book({"A": rows})
    found = propose(read_cells(path))
    ((one, other),) = contradictions(found.readings)
    assert {one.value, other.value} == {3.5, 3.48}
    assert "stroke" not in usable(facts(read_book(path)))


def test_a_formula_that_was_never_calculated_is_no_reading(make_book):
    assert (
        "never calculated" in read(make_book, ["Bore (in)", "=4+0.03"])["bore", ""].content.reason
    )
    saved = read(make_book, ["Bore (in)", "=4+0.03"], saved={"A": {"B1": 4.03}})["bore", ""]
    assert (saved.value, saved.typed) == (4.03, False)


@pytest.mark.parametrize(
    ("words", "deck"),
    [
        ("plus = piston below the deck", -0.008),
        ("minus = piston above the deck", -0.008),
        ("Sign: plus with the piston below the deck, minus above it", -0.008),
        ("+ is out of the hole", 0.008),
        ("read with a bridge", None),
    ],
)
def test_a_sign_rule_written_in_the_book_holds(make_book, words, deck):
    found = read(make_book, ["Deck clearance (in)", -0.008], [words])
    assert found["deck_clearance", ""].value == deck


def named(make_book, rows, merged=()):
    """{name: [sizes as typed]} that the labels of one sheet name, in the order of its cells."""
    path = make_book({"S": rows})
    if merged:
        book = openpyxl.load_workbook(path)
        for area in merged:
            book["S"].merge_cells(area)
        book.save(path)
    found = {}
    for reading in propose(read_cells(path)).readings:
        found.setdefault(reading.name, []).append(reading.content.raw)
    return found


def test_a_remark_between_two_cylinders_ends_no_table(make_book):
    rows = [
        ["cyl", "bore", "top gap", "2nd gap", "cc chamber", "p/w clr"],
        ["#", "in", "in", "in", "cc", "thou"],
        [1, 4.0012, 0.016, 0.018, 46.2, 4.2],
        [2, 4.0010, 0.0165, 0.0185, 46.0, 3.9],
        ["mic'd twice"],
        [3, 4.0011, 0.0162, 0.0182, 46.3, 4.1],
    ]
    assert named(make_book, rows) == {
        "bore": [4.0012, 4.0010, 4.0011],
        "top_ring_gap": [0.016, 0.0165, 0.0162],
        "second_ring_gap": [0.018, 0.0185, 0.0182],
        "chamber_volume": [46.2, 46.0, 46.3],
        "piston_clearance": [4.2, 3.9, 4.1],
    }


def test_a_bore_behind_the_gasket_is_the_gaskets(make_book):
    rows = [["Bore", "4.030 in"], ["Head gasket", "0.039 in", "bore", "4.100 in"]]
    found = named(make_book, rows)
    assert (found["bore"], found["gasket_bore"]) == (["4.030 in"], ["4.100 in"])


def test_blocks_side_by_side_are_told_apart_by_their_own_titles(make_book):
    rows = [
        ["", "MAIN JOURNALS", None, None, "", "ROD JOURNALS"],
        ["No.", "Housing", "Crank", "Shell", " ", "Big end", "Crank pin", "Shell"],
        [1, 2.8410, 2.6480, 0.0954, "", 2.2248, 2.0988, 0.0619],
        [2, 2.8412, 2.6481, 0.0955, "", 2.2249, 2.0989, 0.0618],
        ["all inch"],
    ]
    assert named(make_book, rows, ("B1:D1", "F1:H1")) == {
        "main_housing_bore": [2.8410, 2.8412],
        "main_journal": [2.6480, 2.6481],
        "main_shell_wall": [0.0954, 0.0955],
        "rod_housing_bore": [2.2248, 2.2249],
        "rod_journal": [2.0988, 2.0989],
        "rod_shell_wall": [0.0619, 0.0618],
    }


def test_a_headings_unit_holds_for_its_block(make_book):
    rows = [
        ["FINISH HONE (in)", None, "L1", "L2", "R1", "R2"],
        ["Bore", "top", 4.1255, 4.1256, 4.1257, 4.1255],
        ["", "bot", 4.1253, 4.1254, 4.1255, 4.1254],
        ["Deck height in hole", None, 0.010, 0.011, 0.009, 0.010],
        [],
        ["Chambers (cc)", None, 76.5],
        ["Bore of the throttle", None, 1.9],
        [],
        ["Stroke", None, 3.75],
    ]
    path = make_book({"S": rows})
    found = propose(read_cells(path))
    units = {(r.name, r.unit) for r in found.readings if r.how != "proposal"}
    assert units == {
        ("bore", "in"),
        ("deck_clearance", "in"),
        ("chamber_volume", "cc"),
        # Its own unit is not written; the sizes of the book leave only inches.
        ("stroke", "in"),
    }
    # Parted from the table by an empty row, one number is for all cylinders.
    assert [r.position for r in found.readings if r.name == "chamber_volume"] == [""]
    asked = [r.label.text for r in found.readings if r.how == "proposal"]
    assert asked == ["Bore of the throttle"]


def test_numbers_of_cylinders_beside_their_values_are_no_values(make_book):
    rows = [
        ["Bohrung mm", None, "Kolben mm"],
        ["1", "89,52", "1", "89,47"],
        ["2", "89,51", "2", "89,46"],
        ["3", "89,53", "3", "89,47"],
    ]
    assert named(make_book, rows) == {
        "bore": ["89,52", "89,51", "89,53"],
        "piston_diameter": ["89,47", "89,46", "89,47"],
    }


def test_abbreviations_are_read_as_what_they_are_short_for(make_book):
    rows = [
        ["item", "actual", "min", "max", "ok?"],
        ["main clr #1", "0.0024 in", 0.0018, 0.0030, "y"],
        ["main clr #2", "0.0025 in", 0.0018, 0.0030, "y"],
        ["Comp. gasket thk", "0.051 in"],
    ]
    readings = propose(read_cells(make_book({"S": rows}))).readings
    measured = [(r.name, r.position, r.value) for r in readings if r.stage not in NO_SIZES]
    assert measured == [
        ("main_bearing_clearance", "1", 0.0024),
        ("main_bearing_clearance", "2", 0.0025),
        ("gasket_thickness", "", 0.051),
    ]


def test_a_size_that_hardly_can_be_is_not_computed_with_until_the_layout_says_so(make_book):
    rows = [["Cylinders", 4], ["Bore", "40.3 in"], ["Stroke", "3.48 in"]]
    path = make_book({"S": rows})
    assert not read_book(path).records
    asked = [q.text for q in survey_book(path).questions]
    assert "No engine's bore is 40.3 in. Is it a reading?" in asked
    layout = path.with_name("layout.toml")
    layout.write_text('[readings]\nbore = "S!B2"\n')
    assert [r.function.name for r in read_book(path, read_layout(layout)).records] == [
        "DISPLACEMENT"
    ]
    again = survey_book(path, read_layout(layout))
    assert not any(q.kind == "size" for q in again.questions)


def test_a_unit_alone_in_its_row_speaks_of_the_whole_sheet(make_book):
    rows = [["", "TOP", "2ND"], ["Cyl 1", 0.021, 0.024], ["Cyl 2", 0.0215, 0.024], ["inches"]]
    found = propose(read_cells(make_book({"Ring gaps": rows})))
    assert (found.system, {r.unit for r in found.readings}) == ("inch", {"in"})
    column = [["Bore"], ["mm"], [86.01], [86.02]]
    other = propose(read_cells(make_book({"S": [*column, [], ["Stroke", 3.4]]})))
    assert [r.value for r in other.readings if r.name == "stroke"] == [None]


def test_a_log_with_a_row_for_each_job_counts_cylinders_and_numbers_none(make_book):
    rows = [
        ["Job", "Customer", "Engine", "Bore in", "Stroke in", "Cyls", "Chamber cc"],
        ["25-01", "A. Rowe", "I4", 3.445, 3.40, 4, 41.0],
        ["25-02", "B. Lund", "V8", 4.030, 3.48, 8, 64.0],
    ]
    first, second = read_jobs(make_book({"2025 log": rows}))
    for job, bore, stroke, cylinders in ((first, 3.445, 3.40, 4), (second, 4.030, 3.48, 8)):
        assert {r.part.which for r in job.readings} == {""}
        [record] = job.records
        assert record.value == pytest.approx(math.pi / 4 * bore**2 * stroke * cylinders)
    assert survey_book(make_book({"2025 log": rows})).jobs[0].unknown == ()


def test_a_title_over_numbered_heads_names_what_stands_in_its_table(make_book):
    rows = [
        ["Crank - main journals (inch)"],
        ["", "#1", "#2", "#3"],
        ["Vertical", 2.6478, 2.6479, 2.6478],
        ["Horizontal", 2.6477, 2.6478, 2.6478],
        [],
        ["Block - main bore (inch)"],
        ["", "#1", "#2", "#3"],
        ["Vertical", 2.8408, 2.8409, 2.8408],
        ["Shell wall", 0.0953, 0.0953, 0.0952],
    ]
    assert named(make_book, rows) == {
        "main_journal": [2.6478, 2.6479, 2.6478, 2.6477, 2.6478, 2.6478],
        "main_housing_bore": [2.8408, 2.8409, 2.8408],
        "main_shell_wall": [0.0953, 0.0953, 0.0952],
    }


def test_heads_typed_as_text_are_no_readings_and_remarks_behind_a_unit_no_second_one(make_book):
    rows = [
        ["Chamber", "1", "2", "3", "4"],
        ["poured", "64.2cc", "64.0cc", "64.3cc", "64.1cc"],
        [],
        ["No. of cyl", 4],
        ["Crown", 5, "cc", "flat with reliefs"],
    ]
    assert named(make_book, rows) == {
        "chamber_volume": ["64.2cc", "64.0cc", "64.3cc", "64.1cc"],
        "cylinder_count": [4],
        "crown_volume": [5],
    }


def test_what_is_open_about_all_cylinders_is_found_once_with_what_to_do(make_book):
    rows = [
        ["Bore", '3.905"', "Stroke", '3.62"'],
        ["Cylinder", 1, 2, 3],
        ["Deck (in)", "+.012", "+.011", "+.013"],
        ["Chamber cc", 62.1, 62.0, 62.3],
        ["Gasket", ".041 in crushed", "gasket bore", "4.0 in"],
        ["Dish", "3.5cc"],
    ]
    found = {f.message: f for f in check(read_book(make_book({"S": rows})))}
    why = "below or above the deck? the book does not say what the sign means"
    assert set(found) == {
        "Deck, Cylinder 1 (B3 and 2 more, to D3) cannot be used by the batch for "
        f"ENG.QUENCH: {why}. The compression ratio for Cyl 1, Cyl 2, Cyl 3 waits for it too.",
    }
    for finding in found.values():
        assert str(finding.place) == "S!B3"
        assert "layout.toml" in finding.advice


def test_a_reading_that_was_never_taken_is_to_be_measured(make_book):
    rows = [
        ["Bore", '3.905"', "Stroke", '3.62"'],
        ["Cylinder", 1, 2],
        ["Deck in the hole (in)", 0.012, 0.011],
        ["Chamber cc", 62.1, None],
        ["Gasket", ".041 in crushed", "gasket bore", "4.0 in"],
        ["Dish", "3.5cc"],
    ]
    found = {f.message: f.advice for f in check(read_book(make_book({"S": rows})))}
    assert found["No compression ratio for Cyl 2: chamber volume (C4) is missing."] == (
        "Measure it and enter it."
    )


def test_rods_of_a_bank_are_counted_as_the_cylinders_are(make_book):
    bores = [["Cyl", "Bank", "Bore (mm)"]]
    bores += [[n, "A" if n <= 6 else "B", 81.010 + n / 1e3] for n in range(1, 13)]
    pins = [["Conrod", "Crankpin (mm)"]]
    pins += [[f"{bank}{n}", 43.61] for bank in "AB" for n in range(1, 7)]
    found = propose(read_cells(make_book({"Block": bores, "Crank": pins}))).readings
    told = [r.position for r in found if r.name == "rod_journal"]
    assert told == [str(n) for n in range(1, 13)]


@pytest.mark.parametrize(
    ("unit", "sizes"), [("in", (0.0035, 0.0045)), ("thou", (3.5, 4.5)), ("µm", (88.9, 114.3))]
)
def test_what_only_a_verdict_takes_is_a_size_in_whatever_unit_its_label_has(written, unit, sizes):
    least, most = (s * x for s, x in zip(sizes, (0.8, 1.2), strict=True))
    book = written(
        ["Cyl", 1, 2],
        [f"Piston clearance ({unit})", *sizes],
        ["Least", least],
        ["Most", most],
        ["Verdict", "=ENG.VERDICT(B2,$B$3,$B$4)", "=ENG.VERDICT(C2,$B$3,$B$4)"],
    )
    read = [r for r in book.readings if r.measurand == "piston_clearance"]
    # The limits are bare, and stay in the unit of the number beside them.
    assert [(r.value, r.unit) for r in read] == [(size, unit) for size in sizes]
    assert [r.si for r in read] == pytest.approx([88.9e-6, 114.3e-6])
    found = Evidence(book).of("piston_clearance")
    assert [s.si for s in found] == pytest.approx([88.9e-6, 114.3e-6])
    assert [from_si(s.si, s.kind, s.system) for s in found] == pytest.approx(
        [s.number for s in found]
    )
