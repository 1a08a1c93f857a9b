"""What a line measures by the lines beside it, the sizes of others, and other jobs of its file.

That builders write so is common practice, no source; the proportions of journals and pins are
from memory.
"""

from __future__ import annotations

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.findings import check
from workbook_tools.jobs.engine_text import cylinders_in
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.candidates import propose
from workbook_tools.labels.orders import out_of_order

JOB = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", "inline four"], []]


def readings(make_book, rows, sheet="S"):
    (book,) = read_jobs(make_book({sheet: [*JOB, *rows]}))
    return {r.place.address: r for r in book.readings if r.state == "read"}


def measurands(make_book, rows):
    return {at: r.measurand for at, r in readings(make_book, rows).items()}


def test_pins_beside_mains_are_crankpins(make_book):
    rows = [["", "Mains", "Pins"], [1, 2.7488, 2.3741], [2, 2.7487, 2.3742], [3, 2.7488, 2.3741]]
    found = measurands(make_book, rows)
    assert (found["B6"], found["C6"]) == ("main_journal", "rod_journal")


def test_pins_of_pistons_stay_pins_beside_mains(make_book):
    rows = [["", "Mains", "Pins"], [1, 2.7488, 0.9273], [2, 2.7487, 0.9272], [3, 2.7488, 0.9273]]
    found = measurands(make_book, rows)
    assert (found["B6"], found["C6"]) == ("main_journal", "pin_diameter")


@pytest.mark.parametrize(("pin", "told"), [(0.9273, {"rod_journal"}), (9.2730, set())])
def test_an_order_speaks_only_where_another_meaning_keeps_it(make_book, pin, told):
    rows = [["", "Mains", "Pins"], *([n, 2.7488, pin] for n in (1, 2, 3))]
    found = propose(read_cells(make_book({"S": [*JOB, ["all sizes in inches"], *rows]})))
    lines = [one.line for one in found.lines]
    (mains,) = (n for n, line in enumerate(lines) if line.label == "Mains")
    (pins,) = (n for n, line in enumerate(lines) if line.label == "Pins")
    sums = [{o.term.id: o.weight for o in line.options} for line in lines]
    sums[mains] = {"main_journal": 100}
    against = {name for n, name, _ in out_of_order(lines, sums, "inch") if n == pins}
    assert against & {"pin_diameter", "rod_journal"} == told


@pytest.mark.parametrize(
    ("names", "sizes", "expected"),
    [
        (("Mains", "Rods"), (2.4480, 2.0990), ("main_journal", "rod_journal")),
        (("Mains", "Rods"), (0.0022, 0.0019), ("main_bearing_clearance", "rod_bearing_clearance")),
        (("Paliers", "Bielles"), (2.3610, 2.0450), ("main_journal", "rod_journal")),
    ],
)
def test_rods_are_measured_as_the_mains_beside_them(make_book, names, sizes, expected):
    rows = [["all sizes in inches"], ["", *names], *([n, *sizes] for n in (1, 2, 3, 4))]
    found = measurands(make_book, rows)
    assert (found["B7"], found["C7"]) == expected


def test_how_many_mains_there_are_is_no_clearance(make_book):
    assert "B5" not in measurands(make_book, [["Main bearings", 5]])


def test_a_bare_clearance_is_that_of_the_size_before_it(make_book):
    rows = [["", "1", "2"], ["Pistone (mm)", 67.462, 67.461], ["Gioco (mm)", 0.069, 0.071]]
    assert measurands(make_book, rows)["B7"] == "piston_clearance"


def test_a_bare_clearance_behind_nothing_is_asked_about(make_book):
    rows = [["", "1", "2"], ["Corsa (mm)", 66.0, 66.0], ["Gioco (mm)", 0.069, 0.071]]
    assert "B7" not in measurands(make_book, rows)


def test_roundness_between_found_and_finished_is_of_the_former(make_book):
    rows = [
        ["Bancada", 1, 2, 3],
        ["Llega (mín) mm", 69.948, 69.941, 69.937],
        ["Ovalado mm", 0.02, 0.03, 0.03],
        ["Rectificado mm", 69.722, 69.721, 69.722],
    ]
    stages = {at: r.stage for at, r in readings(make_book, rows).items()}
    assert (stages["B6"], stages["B7"], stages["B8"]) == ("found", "found", "machined")


def test_measured_beside_reground_is_as_found(make_book):
    rows = [
        ["cotes en mm"],
        ["Tourillon", "Ø relevé", "Ø rectifié"],
        [1, 81.965, 81.742],
        [2, 81.958, 81.741],
    ]
    stages = {at: r.stage for at, r in readings(make_book, rows).items()}
    assert (stages["B7"], stages["C7"]) == ("found", "machined")


def test_measured_alone_is_final(make_book):
    rows = [["Tourillon", "Ø relevé"], [1, 81.742], [2, 81.741], [3, 81.743]]
    assert all(r.stage != "found" for r in readings(make_book, rows).values())


def test_the_old_part_beside_the_new_one_is_as_found(make_book):
    rows = [["Zyl.", "Buchse alt", "Buchse neu", "Kolben", "Laufspiel"], ["", *["mm"] * 4]]
    rows += [[1, 98.31, 98.015, 97.878, 0.137], [2, 98.35, 98.014, 97.879, 0.135]]
    rows += [[3, 98.28, 98.016, 97.878, 0.138]]
    found = readings(make_book, rows)
    assert (found["B7"].measurand, found["B7"].stage) == ("bore", "found")
    assert (found["C7"].measurand, found["C7"].stage) == ("bore", "final")


def test_low_and_high_are_limits_and_no_readings(make_book):
    rows = [["all sizes in inches"], ["Check", "Pos", "Lo", "Hi", "Final"]]
    rows += [["Bore", n, 3.81, 3.8112, 3.8108 + n / 1e4] for n in (1, 2, 3)]
    stages = {at: r.stage for at, r in readings(make_book, rows).items()}
    assert (stages["C7"], stages["D7"], stages["E7"]) == ("limit_low", "limit_high", "final")


def test_a_label_of_one_side_is_of_that_valve(make_book):
    rows = [["Cyl", "Jeu adm", "Jeu éch"], *([n, 0.25, 0.3] for n in (1, 2, 3, 4))]
    found = measurands(make_book, [["Cotes en mm"], *rows])
    assert (found["B7"], found["C7"]) == ("intake_lash", "exhaust_lash")


def test_a_size_beside_every_second_rod_is_of_a_pair(make_book):
    rows = [["rod", "pin", "side"], [1, 1.8882, 0.017], [2, 1.8882, None], [3, 1.8881, 0.018]]
    rows += [[4, 1.8881, None]]
    found = readings(make_book, rows)
    assert (found["C6"].part.number, found["C6"].part.last) == (1, 2)


def test_a_list_of_work_tells_of_which_part_each_size_is(make_book):
    rows = [
        ["Opération", "Rep.", "Cote relevée", "Ovalis. relevée", "Cote finie", "Jeu"],
        ["Rectif. tourillon -0,25", "T1", 52.97, 0.01, 52.738, 0.052],
        ["Rectif. tourillon -0,25", "T2", 52.962, 0.015, 52.739, 0.052],
        ["Rectif. maneton -0,25", "M1", 45.955, 0.02, 45.732, 0.046],
        ["Rectif. maneton -0,25", "M2", 45.948, 0.025, 45.731, 0.048],
    ]
    found = readings(make_book, rows)
    told = {at: (r.measurand, r.part.number, r.stage) for at, r in found.items()}
    assert told["C6"] == ("main_journal", 1, "found")
    assert told["D6"] == ("main_journal_out_of_round", 1, "found")
    assert told["E7"] == ("main_journal", 2, "final")
    assert told["E8"] == ("rod_journal", 1, "final")
    assert told["F9"] == ("rod_bearing_clearance", 2, "machined")


def test_a_log_of_work_belongs_to_the_jobs_that_another_sheet_lists(make_book):
    jobs = [
        ["Job", "Customer", "Engine", "In", "Out"],
        ["T-101", "Hollis Farm", "tractor four", "2026-09-01", "2026-09-20"],
        ["T-102", "Brack", "inline six", "2026-09-04", "2026-09-25"],
    ]
    log = [["Job", "What", "Where", "Reading"]]
    for n in (1, 2, 3):
        log += [["T-101", "Bore (in)", n, 4.0305], ["T-102", "Main journal (in)", n, 2.7485]]
    read = read_jobs(make_book({"Jobs": jobs, "Log": log}))
    found = {
        b.job.number.text: [(r.measurand, r.part.number) for r in b.readings if r.state == "read"]
        for b in read
    }
    assert found == {
        "T-101": [("bore", 1), ("bore", 2), ("bore", 3)],
        "T-102": [("main_journal", 1), ("main_journal", 2), ("main_journal", 3)],
    }
    assert [b.job.finished.text for b in read] == ["2026-09-20", "2026-09-25"]


def test_a_column_means_in_one_job_what_it_means_in_most(make_book):
    head = ["Job", "Customer", "Engine", "Bore (in)", "Piston (in)", "Clr (in)"]
    rows = [
        [f"24-{n}", f"Owner {n}", "V8", 4.03 + n / 1e4, 4.0262 + n / 1e4, 0.0038] for n in range(6)
    ]
    rows[4][5] = 0.0062
    read = read_jobs(make_book({"2024": [head, *rows]}))
    clearances = [r for b in read for r in b.readings if r.measurand == "piston_clearance"]
    assert [r.state for r in clearances] == ["read"] * 6
    (told,) = [f for b in read for f in check(b) if f.code == "contradicts-its-sizes"]
    assert told.place.address == "F6"


def test_a_job_of_which_nothing_was_read_says_so(make_book):
    head = ["Job", "Customer", "Engine", "Bore (in)", "Piston (in)"]
    rows = [["24-1", "Hollis", "V8", 4.03, 4.0262], ["24-2", "Brack", "V8", None, None]]
    read = {b.job.number.text: b for b in read_jobs(make_book({"2024": [head, *rows]}))}
    assert [f.code for f in check(read["24-2"])] == ["nothing-read"]
    assert "nothing-read" not in [f.code for f in check(read["24-1"])]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("372 truck V8", 8), ("I-6 diesel", 6), ("tractor, 4 cil.", 4), ("Einzylinder 2T", 1),
        ("750 bicilindrico", 2), ("12.5 hp single OHV", 1), ("boxer twin", 2), ("125 TAG", None),
        ("four stroke twin", 2), ("single cam 1.6", None), ("monobloc D4", None), ("16v", None),
        ("V8 or inline six", None),
    ],
)  # fmt: skip
def test_cylinders_by_the_name_of_the_engine(text, count):
    assert cylinders_in(text) == count


def test_a_displacement_of_a_single_by_its_name(make_book):
    rows = [["Job", "5"], ["Customer", "Remo"], ["Engine", "500 mono 2 valve"], []]
    (book,) = read_jobs(make_book({"S": [*rows, ["Bore (mm)", 86.5], ["Stroke (mm)", 84.0]]}))
    (made,) = [r for r in book.records if r.name == "ENG.DISPLACEMENT"]
    # 86.5 mm squared by pi / 4 by 84 mm.
    assert made.value == pytest.approx(493.63, abs=0.01)


def test_a_protrusion_is_judged_by_the_limits_beside_it(make_book):
    rows = [["Cylindre", "mini", "maxi", 1, 2, 3, 4], ["Alésage (mm)", 88, 88.02] + [88.01] * 4]
    rows += [["Dépassement piston (mm)", 0.6, 0.85, 0.72, 0.98, 0.73, 0.71]]
    (book,) = read_jobs(make_book({"S": [*JOB, *rows]}))
    (told,) = [f for f in check(book) if f.code == "out-of-band"]
    assert (told.place.address, told.also[0].address) == ("E7", "C7")
    assert "above the most" in told.message


def test_a_size_per_pair_below_heads_that_count(make_book):
    rows = [["RODS", 1, 2, 3, 4], ["pin", 2.0994, 2.0994, 2.0993, 2.0993]]
    found = readings(make_book, [*rows, ["side, per pair", 0.016, None, 0.017, None]])
    parts = [(found[at].part.number, found[at].part.last) for at in ("B7", "D7")]
    assert parts == [(1, 2), (3, 4)]


def test_a_row_that_says_not_measured_heads_nothing(make_book):
    rows = [["alles mm", "Zyl. 1", "Zyl. 2"], ["Bohrung", 76.018, 76.021]]
    rows += [["Stoß Ölring", "n. gem.", "n. gem."], ["Kolben", 75.971, 75.972]]
    found = readings(make_book, rows)
    assert [(found[at].measurand, found[at].part.number) for at in ("B8", "C8")] == [
        ("piston_diameter", 1),
        ("piston_diameter", 2),
    ]


def test_labels_that_begin_below_a_table_end_it(make_book):
    rows = [["all sizes in inches"], ["RODS", 1, 2, 3, 4], ["pin", 2.0994, 2.0994, 2.0993, 2.0993]]
    rows += [["Stroke", 3.48, "Dur .050 int", 254], ["Rod c-c", 6.0, "Dur .050 exh", 260]]
    found = readings(make_book, rows)
    assert [found[f"{c}7"].part.number for c in "BCDE"] == [1, 2, 3, 4]
    assert (found["B8"].measurand, found["B9"].measurand) == ("stroke", "rod_length")


def test_before_the_work_in_a_label_says_more_than_a_head_of_actual_sizes(make_book):
    rows = [["alle Maße mm"], ["Messgröße", "min", "max", "Ist 1", "Ist 2", "Ist 3"]]
    rows += [["Hauptzapfen vor Schleifen", None, None, 75.958, 75.951, 75.94]]
    rows += [["Hauptzapfen geschliffen", 75.735, 75.75, 75.744, 75.745, 75.743]]
    stages = {at: r.stage for at, r in readings(make_book, rows).items()}
    assert (stages["D7"], stages["D8"]) == ("found", "final")


def test_letters_beside_the_number_of_a_cylinder_tell_its_valves(make_book):
    rows = [["alle Maße mm"], ["Ventil", "Schaft Ø", "Führung Ø", "Schaftspiel"]]
    rows += [["Zyl. 1 E", 7.970, 8.005, 0.035], ["Zyl. 1 A", 7.955, 8.006, 0.051]]
    rows += [["Zyl. 2 E", 7.971, 8.006, 0.035], ["Zyl. 2 A", 7.954, 8.005, 0.051]]
    found = measurands(make_book, rows)
    assert (found["B7"], found["B8"]) == ("intake_stem_diameter", "exhaust_stem_diameter")
    assert (found["D7"], found["D8"]) == ("intake_stem_clearance", "exhaust_stem_clearance")


def test_a_size_in_doubt_is_held_to_the_limits_beside_it(make_book):
    rows = [["all sizes in inches"], ["Item", "Reading", "Spec"], ["Bore", 3.4376, "3.437 - 3.438"]]
    rows += [["Ring gap, top", 0.013, ".010 - .020"], ["Ring gap, 2nd", 0.12, ".010 - .020"]]
    (book,) = read_jobs(make_book({"S": [*JOB, *rows]}))
    missed = [f for f in check(book) if "that the book itself gives" in f.message]
    assert [f.place.address for f in missed] == ["B9"]
