"""Letters, short words and marks of builders' books, read as a colleague who knows the shop would.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import pytest

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.letters import language_of, spelled_out

JOB = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", "inline four"], []]
FIRST = len(JOB) + 1


def read(make_book, rows, **more):
    (book,) = read_jobs(make_book({"S": [*JOB, *rows]}, **more))
    return {r.place.address: r for r in book.readings if r.state == "read"}


def told(make_book, rows, **more):
    return {at: (r.measurand, r.part.which) for at, r in read(make_book, rows, **more).items()}


FRENCH = [
    ["cotes en mm"],
    ["Alésage fini", 78.01],
    ["Tourillon rectifié", 54.79],
    ["Entraxe de bielle", 140],
]
GERMAN = [
    ["Maße in mm"],
    ["Bohrung gehont", 78.01],
    ["Hauptlagerzapfen", 54.79],
    ["Zylinderkopf", "neu"],
]


@pytest.mark.parametrize(
    ("rows", "intake"),
    [
        ([*FRENCH, ["Jeu soupape A", 0.3], ["Jeu soupape E", 0.4]], 0.3),
        ([*GERMAN, ["Ventilspiel A", 0.4], ["Ventilspiel E", 0.3]], 0.3),
    ],
)
def test_an_a_is_the_intake_in_french_and_the_exhaust_in_german(make_book, rows, intake):
    found = {r.measurand: r.value for r in read(make_book, rows).values()}
    assert found["intake_lash"] == intake
    assert found["exhaust_lash"] == 0.4


def test_letters_alone_go_by_the_language_of_their_sheet():
    texts = {(n, 1): text for n, text in enumerate(["Guide A", "Guide E", "P1", "P2"])}
    assert spelled_out(texts) == {}
    told = [row[0] for row in FRENCH]
    texts |= {(n + 9, 1): text for n, text in enumerate(told)}
    assert language_of(texts.values()) == "fr"
    assert spelled_out(texts) == {
        (0, 1): "Guide adm.", (1, 1): "Guide éch.", (2, 1): "palier 1", (3, 1): "palier 2",
    }  # fmt: skip


def test_a_b_without_an_a_is_no_bank():
    texts = dict(enumerate(["B1", "B2", "alesaggio canna", "perno di banco", "bronzina montata"]))
    assert spelled_out({(n, 1): text for n, text in texts.items()}) == {(0, 1): "1", (1, 1): "2"}


def test_in_and_out_over_dates_are_of_jobs_though_another_sheet_says_the_same_of_sizes():
    texts = {(1, 1): "clr in", (1, 2): "clr out"}
    staged = {(1, 1): "clr as found", (1, 2): "clr finished"}
    assert spelled_out(texts) == staged
    assert spelled_out(texts, {(1, 1)}) == {}
    assert spelled_out(texts, {(2, 1)}) == staged


def test_in_beside_out_is_before_the_work(make_book):
    rows = [["Bore & hone, mm", "in", "out"], ["cyl 1", 81.07, 81.51], ["cyl 2", 81.08, 81.51]]
    found = {at: (r.measurand, r.stage) for at, r in read(make_book, rows).items()}
    assert found[f"B{FIRST + 1}"] == ("bore", "found")
    assert found[f"C{FIRST + 1}"] == ("bore", "final")


def test_in_beside_ex_is_the_intake(make_book):
    rows = [["In stem clr mm", 0.034], ["Ex stem clr mm", 0.067], ["Seat width in", 1.1],
            ["Seat width ex", 1.4]]  # fmt: skip
    assert {r.measurand for r in read(make_book, rows).values()} == {
        "intake_stem_clearance", "exhaust_stem_clearance", "intake_seat_width",
        "exhaust_seat_width",
    }  # fmt: skip


def test_a_column_of_i_and_e_is_of_valves(make_book):
    rows = [["cyl", "valve", "guide mm", "stem mm", "clr"], [1, "I", 9.014, 8.973, 0.041],
            [1, "E", 9.016, 8.958, 0.058], [2, "I", 9.012, 8.972, 0.04],
            [2, "E", 9.015, 8.957, 0.058]]  # fmt: skip
    found = told(make_book, rows)
    assert found[f"D{FIRST + 1}"] == ("intake_stem_diameter", "1")
    assert found[f"D{FIRST + 4}"] == ("exhaust_stem_diameter", "2")


@pytest.mark.parametrize(
    ("label", "head", "second"),
    [
        ("Top ring gap", "2nd", "second_ring_gap"),
        ("Top ring gap thou", "2nd do.", "second_ring_gap"),
    ],
)
def test_a_head_that_only_says_second_is_of_the_ring_beside_it(make_book, label, head, second):
    thou = 1000 if "thou" in label else 1
    rows = [["Cyl", "Bore", label, head]]
    rows += [[n, 4.03, 0.017 * thou, 0.019 * thou] for n in (1, 2, 3)]
    assert told(make_book, rows)[f"D{FIRST + 2}"] == (second, "2")


def test_a_row_that_only_says_second_is_of_the_ring_above_it(make_book):
    rows = [["", 1, 2, 3], ["Top ring", 0.024, 0.0245, 0.024], ["Second", 0.028, 0.028, 0.0285]]
    rows += [["Bore", 4.1256, 4.1255, 4.1256]]
    assert told(make_book, rows)[f"C{FIRST + 2}"] == ("second_ring_gap", "2")


def test_two_sides_in_one_label_are_one_each(make_book):
    rows = [["Seitenspiel Pleuel li / re", "0,22/0,24"], ["Bohrung mm", "75,51"]]
    found = read(make_book, rows)
    sides = sorted(
        (r.part.bank, r.value) for r in found.values() if r.measurand == "rod_side_clearance"
    )
    assert len(found) >= 1
    (book,) = read_jobs(make_book({"S": [*JOB, *rows]}))
    both = [(r.part.bank, r.value) for r in book.readings if r.measurand == "rod_side_clearance"]
    assert sorted(both) == [("L", 0.22), ("R", 0.24)]
    assert sides


def test_a_twin_that_numbers_its_sides_once_has_them_numbered(make_book):
    valves = ["links E", "links A", "rechts E", "rechts A"]
    rows = [["Maß in mm", "links (1)", "rechts (2)"], ["Bohrung", 75.512, 75.514],
            ["Kolben", 75.462, 75.463], [], ["VENTILE", *valves],
            ["Ventilspiel kalt", 0.08, 0.1, 0.09, 0.11]]  # fmt: skip
    found = told(make_book, rows)
    row = FIRST + 5
    assert found[f"B{row}"] == ("intake_lash", "1")
    assert found[f"E{row}"] == ("exhaust_lash", "2")


def test_one_side_of_a_pair_and_what_it_measures_tell_a_comma(make_book):
    rows = [["Zyl.-Bohrung", "75,512"], ["Kolben Ø", "75,462"], ["Hub mm", "74"]]
    found = {r.measurand: r.value for r in read(make_book, rows).values()}
    assert found == {"bore": 75.512, "piston_diameter": 75.462, "stroke": 74}


def test_thousands_are_grouped_as_the_swiss_do(make_book):
    rows = [["Cylindrée cm³", "1'551"], ["Alésage", 85.52], ["Course", 90]]
    found = {r.measurand: r.value for r in read(make_book, rows).values()}
    assert found["displacement"] == 1551


def test_a_unit_of_two_words_may_have_a_remark_behind_it(make_book):
    rows = [["Bore", 3.2803], ["Head nuts", "50 lb. ft. cold"]]
    found = {r.measurand: r.value for r in read(make_book, rows).values()}
    assert found["head_bolt_torque"] == 50


def test_a_row_says_the_unit_of_all_its_numbers(make_book):
    rows = [["Bore", 4.03], ["Stroke", 3.48], []]
    rows += [["Hd bolts", 68, "Mains", 70, "Rods", 45, "all ft lb, oiled"]]
    assert {r.measurand for r in read(make_book, rows).values()} >= {
        "head_bolt_torque", "main_bolt_torque", "rod_bolt_torque"
    }  # fmt: skip


def test_clearances_of_an_inch_book_can_be_nothing_but_thousandths(make_book):
    rows = [["", 1, 2, 3, 4], ["Bore", 4.0252, 4.0256, 4.0254, 4.0255],
            ["Piston", 4.0197, 4.0203, 4.02, 4.02], ["Skirt clr", 5.5, 5.3, 5.4, 5.5],
            ["Top ring gap", 19, 20, 19, 20], ["Crank end float", 6]]  # fmt: skip
    found = read(make_book, rows)
    assert found[f"B{FIRST + 3}"].si == pytest.approx(5.5 * 25.4e-6)
    assert found[f"B{FIRST + 4}"].si == pytest.approx(19 * 25.4e-6)
    assert found[f"B{FIRST + 5}"].si == pytest.approx(6 * 25.4e-6)


def test_sizes_with_many_decimals_are_no_thousandths(make_book):
    rows = [["MAINS"], ["", 1, 2, 3], ["journal", 2.499, 2.4989, 2.499], [], ["BIG ENDS"],
            ["no.", "pin", "in rod", "oil"]]  # fmt: skip
    rows += [[n, 1.624, 1.6255, 0.0015] for n in (1, 2, 3, 4)]
    assert told(make_book, rows)[f"C{FIRST + 6}"] == ("rod_bearing_bore", "1")


def test_a_finish_is_in_the_unit_that_finishes_are_written_in(make_book):
    rows = [["Cylinder", "Bore mm", "Ra"], [1, 81.51, 0.5], [2, 81.51, 0.6], [3, 81.52, 0.5]]
    found = read(make_book, rows)
    assert found[f"C{FIRST + 1}"].si == pytest.approx(0.5e-6)


def test_stages_over_a_form_hold_below_its_gaps(make_book):
    rows = [["what", "was", "is now"], ["Bore 1", 3.7588, 3.781], ["Bore 2", 3.7602, 3.7812], [],
            ["Crank end float", 0.022, 0.006]]  # fmt: skip
    found = {at: r.stage for at, r in read(make_book, rows).items()}
    assert found[f"B{FIRST + 4}"] == "found"
    assert found[f"C{FIRST + 4}"] == "final"


def test_a_stage_may_stand_behind_its_number(make_book):
    found = read(make_book, [["Head thickness (in)", 3.51, "was", 3.489, "now"]])
    assert {r.stage: r.value for r in found.values()} == {"found": 3.51, "final": 3.489}


def test_a_smallest_size_of_each_journal_is_no_limit(make_book):
    rows = [["Main", "min dia in", "oval in"], [1, 2.648, 0.0004], [2, 2.6473, 0.0008],
            [3, 2.6465, 0.0014], [4, 2.6472, 0.0009]]  # fmt: skip
    assert read(make_book, rows)[f"B{FIRST + 1}"].stage == ""


def test_a_bore_and_a_stroke_tell_that_cc_are_those_of_the_engine(make_book):
    # pi/4 * 4.8522**2 * 5.404 = 99.93 cc.
    rows = [["Bore mm", 48.522], ["Stroke mm", 54.04], ["cc", 99.9], ["Head cc", 9.9]]
    found = {r.measurand: r.value for r in read(make_book, rows).values()}
    assert found["displacement"] == 99.9
    assert found["chamber_volume"] == 9.9


def test_shells_are_bought_and_journals_ground(make_book):
    rows = [["Hauptlager", "Zapfen vorher", "geschliffen", "Gasse m. Schale", "Laufspiel"]]
    rows += [[n, 99.943, 99.734, 99.819, 0.085] for n in (1, 2, 3)]
    found = told(make_book, rows)
    row = FIRST + 1
    assert [found[f"{c}{row}"][0] for c in "BCDE"] == [
        "main_journal", "main_journal", "main_bearing_bore", "main_bearing_clearance",
    ]  # fmt: skip


def test_a_micrometer_weighs_nothing(make_book):
    rows = [["pin no", "pin", "rod shell", "clr"]]
    rows += [[n, 54.978, 55.035, 0.057] for n in (1, 2, 3)]
    assert all("mass" not in r.measurand for r in read(make_book, rows).values())


def test_sheets_of_a_week_hold_readings(make_book):
    (book,) = read_jobs(make_book({"Semana 12": [*JOB, ["Bore mm", 86.01], ["Stroke mm", 86]]}))
    assert {r.measurand for r in book.readings} == {"bore", "stroke"}
