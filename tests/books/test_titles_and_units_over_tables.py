"""Titles before the units of a table, rows of units over heads, and numbers that carry down.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import datetime

import pytest
from small_sheet import in_words, told

from workbook_tools.jobs.read import read_jobs

DAY = datetime.datetime
SIZES = (4.0308, 0.039, 64.2, 9.8, 2.8, 2.2, 5, 65)


@pytest.mark.parametrize(
    ("title", "side"),
    [
        ("Soupapes d'admission – cotes en mm", "intake"),
        ("Soupapes d'échappement (cotes en mm)", "exhaust"),
    ],
)
def test_a_title_says_what_is_measured_before_it_says_the_units(tmp_path, title, side):
    rows = [[title], [], ["Cylindre", "Ø queue", "Ø guide", "Jeu", "Ø tête"]]
    rows += [[n, 5.970 + n / 1e3, 6.005, 0.035 - n / 1e3, 33.48] for n in range(1, 5)]
    found = told(tmp_path, rows)
    assert found["C8"].endswith(f"{side}_guide_bore 1 6.005 mm")
    # A head of a valve, and no end of a rod, though "Cylindre" stands nearer.
    assert found["E8"].endswith(f"{side}_valve_head_diameter 1 33.48 mm")


def test_units_over_heads_hold_up_to_the_next_one(make_book):
    units = ["", "", "", "", "", "inches", "", "cc", "", "thousandths", "", "", "ft-lb"]
    heads = ["Job", "Customer", "Engine", "In", "Out", "Bore", "Gskt thk", "Chamber", "CR"]
    heads += ["Mains", "Rods", "End play", "Head tq"]
    rows = [
        [f"25-10{n}", name, "Darrow 355", DAY(2025, n, 6), DAY(2025, n, 24), *SIZES]
        for n, name in enumerate(("Montalvo", "Kirkendoll"), 1)
    ]
    first, *_ = read_jobs(make_book({"Log": [["Engine log"], units, heads, *rows]}))
    found = {r.measurand: in_words(r) for r in first.readings}
    assert found["main_bearing_clearance"] == "main_bearing_clearance 0.0028 in"
    assert found["rod_bearing_clearance"] == "rod_bearing_clearance 0.0022 in"
    assert found["crank_end_play"] == "crank_end_play 0.005 in"
    # What has no unit takes none from its neighbors.
    assert found["compression_ratio"].startswith("compression_ratio 9.8")
    assert found["gasket_thickness"] == "gasket_thickness 0.039 in"


def test_a_cylinder_carries_down_over_the_heights_of_its_bore(tmp_path):
    rows = [["Cilindros: diámetro en mm"], [], ["Cilindro", "Altura", "Eje X", "Eje Y", "Pistón"]]
    for n in (1, 2, 3, 4):
        rows += [[n, "arriba", 81.022, 81.012, 80.976]]
        rows += [[None, "centro", 81.019, 81.008], [None, "abajo", 81.020, 81.012]]
    found = told(tmp_path, rows)
    assert found["C8"] == "bore 1 top thrust 81.022 mm"
    assert found["C9"] == "bore 1 middle thrust 81.019 mm"
    assert found["D13"] == "bore 2 bottom parallel 81.012 mm"
    assert found["E8"].startswith("piston_diameter 1")


def test_the_total_of_gaskets_is_how_thick_they_are(tmp_path):
    rows = [["Hub (mm)", 54.4], ["Fußdichtung gesamt (mm)", 0.40]]
    assert told(tmp_path, rows)["B6"] == "base_gasket_thickness 0.4 mm"


def test_a_roster_joins_the_rows_of_its_other_sheets(make_book):
    roster = [["Bench", "Student", "Engine", "Torn down", "Ran"]]
    roster += [
        [f"SE-0{n}", name, "Brindle 5 hp", DAY(2025, 2, 3), DAY(2025, 4, 14)]
        for n, name in enumerate(("Aiden K.", "Briseis M.", "Cody W."), 1)
    ]
    sizes = [["Bench", "Bore", "Piston"], ["limits", "2.562-2.566", "2.556 min"]]
    sizes += [[f"SE-0{n}", 2.5646 - n / 1e4, 2.5602] for n in (1, 2, 3)]
    jobs = list(read_jobs(make_book({"Roster": roster, "Cylinder": sizes})))
    assert [job.job.number.text for job in jobs] == ["SE-01", "SE-02", "SE-03"]
    bores = [[r.value for r in job.readings if r.measurand == "bore"][-1:] for job in jobs]
    assert bores == [[2.5645], [2.5644], [2.5643]]


def test_a_phone_beside_a_job_is_no_second_job(make_book):
    form = [
        ["TOLLIVER BEND MACHINE - WORK ORDER"],
        [],
        ["W.O. #", "24-0618", "Phone", "555-0142"],
        ["Customer", "Dale Winnick", "Quoted", 2140],
        ["Engine", "Corvane 2.4 four", "Deposit", 500],
        ["Date in", DAY(2024, 6, 11)],
    ]
    block = [["Cyl", "Finish bore", "Piston size"], *([n, 3.7306, 3.728] for n in (1, 2, 3, 4))]
    (job,) = read_jobs(make_book({"Work Order": form, "Block": block}))
    assert job.job.number.text == "24-0618"
    assert sum(r.measurand == "bore" for r in job.readings) == 4
