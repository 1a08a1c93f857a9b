"""Where something was measured, limits, and rows that say it again, of builders' books.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which_told import which_of

JOB = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", "inline four"], ["Sizes in mm"], []]
CYLINDERS = ["mm", "Cyl 1", "Cyl 2", "Cyl 3", "Cyl 4"]
PINS = ["mm", "Pin 1", "Pin 2", "Pin 3", "Pin 4"]


def book_of(make_book, rows, **sheets):
    (book,) = read_jobs(make_book({"S": [*JOB, *rows], **sheets}))
    return book


def read(book):
    return {r.place.address: r for r in book.readings if r.state == "read"}


def outside(book):
    missed = [f for f in check(book) if "that the book itself gives" in f.message]
    return {f.place.address for f in missed if f.place}


@pytest.mark.parametrize(
    ("label", "bare"),
    [
        ("Alésage (à 40 du plan)", "Alésage"),
        ("Bohrung (20 von oben)", "Bohrung"),
        ("Alesaggio a 30 dal piano", "Alesaggio"),
        ("Bore (at 40 from deck)", "Bore"),
        ("End float, dial on flange", "End float"),
    ],
)
def test_where_something_was_measured_is_no_part_of_its_name(label, bare):
    there, alone = meaning_of(label), meaning_of(bare)
    assert there.candidates[0].measurand == alone.candidates[0].measurand
    assert there.stage == ""


def test_the_lift_that_timing_is_told_at_is_no_reading(make_book):
    rows = [["Distribution (à 1 mm de levée)"], ["AOA", 28, "°"], ["RFA", 64, "°"]]
    assert not [at for at in read(book_of(make_book, rows)) if at.startswith("A")]


@pytest.mark.parametrize(
    ("head", "stage"),
    [
        ("Soll min", "limit_low"), ("Soll max", "limit_high"), ("New min", "limit_low"),
        ("Neuf maxi", "limit_high"), ("nuevo mín", "limit_low"), ("As found max", "found"),
    ],
)  # fmt: skip
def test_the_least_that_is_wanted_is_a_limit(head, stage):
    told = which_of(head)
    assert told is not None
    assert told.stage == stage


def test_wanted_limits_judge_the_readings_of_their_row(make_book):
    rows = [
        ["mm", 1, 2, 3, 4, "Soll min", "Soll max"],
        ["Kolbenüberstand", 0.94, 0.95, 1.06, 0.93, 0.91, 1.0],
    ]
    assert outside(book_of(make_book, rows)) == {"D7"}


def test_a_range_beside_a_protrusion_has_its_sign(make_book):
    rows = [
        ["mm", 1, 2, 3, 4, "Soll"],
        ["Kolbenüberstand", 0.32, 0.30, 0.31, 0.47, "0,2-0,4"],
    ]
    assert outside(book_of(make_book, rows)) == {"E7"}


def test_of_limits_for_new_and_for_worn_parts_the_widest_holds(make_book):
    rows = [
        ["mm", "New max", "Service max", 1, 2, 3, 4],
        ["Exhaust stem clearance", 0.07, 0.12, 0.05, 0.09, 0.13, 0.06],
    ]
    assert outside(book_of(make_book, rows)) == {"F7"}


def test_a_fault_of_form_has_no_least(make_book):
    rows = [
        [*CYLINDERS, "min - max"],
        ["Bore", 72.006, 72.008, 72.005, 72.006, "72.000 - 72.012"],
        ["Bore taper", 0.004, 0.005, 0.004, 0.013, 0.01],
    ]
    assert outside(book_of(make_book, rows)) == {"E8"}


def test_what_is_wanted_in_the_row_of_a_difference_is_of_it(make_book):
    rows = [
        [*CYLINDERS, "target"],
        ["Bore", 81.012, 81.011, 81.012, 81.013],
        ["Forged piston", 80.929, 80.929, 80.927, 80.929],
        ["Clearance", *(f"={c}7-{c}8" for c in "BCDE"), "0.08-0.09"],
    ]
    named = {r.place.address: r.measurand for r in book_of(make_book, rows).readings}
    assert named["F9"] == "piston_clearance"


def test_a_bore_that_the_next_row_has_finished_was_found_so(make_book):
    rows = [
        CYLINDERS,
        ["Alésage relevé", 78.06, 78.05, 78.03, 78.02],
        ["Alésage fini", 78.508, 78.503, 78.503, 78.508],
    ]
    found = read(book_of(make_book, rows))
    assert {at: found[at].stage for at in ("B7", "B8")} == {"B7": "found", "B8": "final"}


def test_pairs_of_rods_are_a_head(make_book):
    rows = [
        ["Rod side, per pair"],
        ["1/2", "3/4", "5/6", "7/8"],
        [".018 in", ".019 in", ".018 in", ".020 in"],
    ]
    found = read(book_of(make_book, rows))
    assert {at: r.measurand for at, r in found.items()} == dict.fromkeys(
        ("A8", "B8", "C8", "D8"), "rod_side_clearance"
    )


def test_a_displacement_in_liters_is_of_no_left_bank(make_book):
    found = read(book_of(make_book, [["Stroke mm", 150, "Displ. L", 11.05]]))
    assert found["D6"].si == pytest.approx(11.05e-3)
    assert found["D6"].part.bank == ""


def test_what_one_cylinder_displaces_contradicts_nothing(make_book):
    rows = [
        CYLINDERS,
        ["Bore", 67.012, 67.013, 67.012, 67.011],
        ["Stroke", 42.5],
        ["Swept cc", 149.9],
    ]
    assert not [f for f in check(book_of(make_book, rows)) if f.place and f.place.address == "B9"]


@pytest.mark.parametrize(("summed", "told"), [(0.18, {"E3"}), (0.08, set())])
def test_a_second_sheet_repeats_the_first(make_book, summed, told):
    rows = [CYLINDERS, ["Liner protrusion", 0.06, 0.07, 0.06, 0.08]]
    other = [["Summary"], CYLINDERS, ["Liners above deck", 0.06, 0.07, 0.06, summed]]
    found = check(book_of(make_book, rows, Summary=other))
    assert {f.place.address for f in found if f.code == "entered-twice" and f.place} == told


def test_a_plan_is_no_second_record(make_book):
    rows = [["Compression ratio", 9.46]]
    for title, told in (("Plan", 0), ("Delivery check", 1)):
        book = book_of(make_book, rows, **{title: [["Comp. ratio", 9.96]]})
        assert len([f for f in check(book) if f.code == "entered-twice"]) == told


def test_shells_are_a_bore_by_their_sizes(make_book):
    rows = [
        PINS,
        ["pin", 54.978, 54.979, 54.978, 54.977],
        ["rod shell", 55.035, 55.036, 55.036, 55.034],
        ["clr", 0.057, 0.057, 0.058, 0.057],
    ]
    found = {at: r.measurand for at, r in read(book_of(make_book, rows)).items()}
    assert (found["B8"], found["B9"]) == ("rod_bearing_bore", "rod_bearing_clearance")


def test_the_unit_behind_a_size_is_no_intake(make_book):
    rows = [["Quench, cold", 0.036, "in", 0.032, 0.04]]
    named = {r.place.address: r.measurand for r in book_of(make_book, rows).readings}
    assert "intake_lash" not in named.values()


def test_the_inch_of_quebec(make_book):
    (side,) = read(book_of(make_book, [["Jeu lat. bielle (po)", 0.018]])).values()
    assert (side.measurand, side.unit) == ("rod_side_clearance", "in")
    ((_, torque),) = read(book_of(make_book, [["Couple culasse", "75 lbs-pi"]])).items()
    assert torque.si == pytest.approx(75 * 1.3558179, rel=1e-6)  # NIST SP 811, appendix B.8.
