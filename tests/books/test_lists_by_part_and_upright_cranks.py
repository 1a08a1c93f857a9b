"""Lists whose heads only name parts, cranks that stand, and titles with several units.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import datetime

from small_sheet import in_words, told

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.vocabulary import meaning_of

DAY = datetime.datetime


def test_mains_and_pins_in_a_list_that_nothing_else_names_are_their_journals(make_book):
    heads = ["Auftrag", "Eingang", "Ausgang", "Kunde", "Motor"]
    heads += [f"HL {n}" for n in range(1, 6)] + [f"PL {n}" for n in range(1, 5)]
    rows = [
        [f"K41{n}", DAY(2025, n, 7), DAY(2025, n, 17), "Landtechnik", "Vierzylinder"]
        + [69.735 + n / 1e3] * 5
        + [59.741 - n / 1e3] * 4
        for n in (2, 3, 4)
    ]
    first, *_ = read_jobs(make_book({"Liste": [["Liste 2025 – Maße in mm"], [], heads, *rows]}))
    found = [in_words(r) for r in first.readings]
    assert "main_journal 5 69.737 mm" in found
    assert "rod_journal 4 59.739 mm" in found


def test_the_mains_of_a_crank_that_stands_are_counted_from_the_top(tmp_path):
    rows = [["Crankshaft, inches"], ["Main", "Main jrnl"]]
    rows += [["Upper", 1.4981], ["Ctr 1", 1.3746], ["Ctr 2", 1.3747], ["Lower", 1.4983]]
    found = told(tmp_path, rows)
    assert [found[f"B{row}"] for row in (7, 8, 9, 10)] == [
        "main_journal 1 1.4981 in",
        "main_journal 2 1.3746 in",
        "main_journal 3 1.3747 in",
        "main_journal 4 1.4983 in",
    ]


def test_of_several_units_in_a_title_each_line_has_the_one_that_fits(tmp_path):
    rows = [
        ["Cylinders (inches, psi)"],
        ["Cyl", "Bore", "Compression as recd", "Compression after"],
    ]
    rows += [
        [f"{n} {side}", 3.5000 + n / 1e4, 98 + n, 119 + n]
        for n, side in enumerate(("stbd", "port") * 3, 1)
    ]
    found = told(tmp_path, rows)
    assert found["B8"] == "bore 2 3.5002 in"
    assert found["C8"].startswith("cranking_pressure 2")
    assert found["D12"].startswith("cranking_pressure 6")
    assert found["D12"].endswith("125 psi")


def test_lash_shims_of_both_sides_are_two_lines(tmp_path):
    rows: list[list[object]] = [["Valve shims (mm)"]]
    for side, shim in (("INTAKE", 2.35), ("EXHAUST", 2.70)):
        rows += [[], [side, "Cyl 1", "Cyl 2", "Cyl 3", "Cyl 4"]]
        rows += [["Shim removed", *[shim + 0.05 * n for n in range(4)]]]
        rows += [["Shim fitted", *[shim - 0.05 * n for n in range(4)]]]
    found = told(tmp_path, rows)
    assert found["B8"].startswith("lash_shim_thickness 1")
    assert found["B12"].startswith("lash_shim_thickness 1")
    assert found["E12"].startswith("lash_shim_thickness 4")


def test_ring_gaps_of_two_rings_in_one_column_of_labels_are_two_lines(tmp_path):
    rows: list[list[object]] = [["Zylinder"]]
    for ring, gap in ((1, 0.44), (2, 0.49)):
        rows += [[f"Stoß R{ring} Zyl. {n}", "mm", gap - n / 100] for n in range(1, 5)]
    found = told(tmp_path, rows)
    assert found["C6"] == "top_ring_gap 1 0.43 mm"
    assert found["C13"] == "second_ring_gap 4 0.45 mm"


def test_german_letters_of_valve_timing_are_no_english_ones(tmp_path):
    assert meaning_of("EÖ vor OT").measurand == "intake_opening"
    assert meaning_of("AÖ vor UT").measurand == "exhaust_opening"
    assert meaning_of("EO bbdc").measurand == "exhaust_opening"
    rows = [["Steuerung"], ["EÖ vor OT", "°KW", 34], ["AS nach OT", "°KW", 32]]
    found = told(tmp_path, rows)
    assert found["C6"] == "intake_opening 34 deg"
    assert found["C7"] == "exhaust_closing 32 deg"
