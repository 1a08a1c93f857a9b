"""Numbers told by what stands beside them: heights, torques, machined sizes, sums, cards.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, all_told, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bore (in)", 4.03], [], ["Spring tester, lb"], [None, "@1.800", "@1.250"],
             [1, 118, 305], [2, 119, 307], [3, 120, 306]],
            {"B9": "spring_seat_load 1 118 lbf", "C11": "spring_open_load 3 306 lbf"},
            id="springs loaded at two heights",
        ),
        pytest.param(
            [["Balance", "g"], ["rod, big end + shells", 482.5], ["rod small end", 161],
             ["piston", 512], ["pin", 128]],
            {"B6": "rod_big_end_mass 482.5 g"},
            id="a big end weighed with its shells",
        ),
        pytest.param(
            [["Deck height (in)"], ["Corner", "Found", "Decked"], ["LF", 9.035, 9.02],
             ["RF", 9.036, 9.02], ["LR", 9.034, 9.02], ["RR", 9.037, 9.02]],
            {"B7": "deck_height L1 found 9.035 in", "C7": "deck_height L1 machined 9.02 in"},
            id="decked to a height beside the one as found",
        ),
        pytest.param(
            [["Valve clearance to piston (in)"], [None, "in"], ["PtoV int", 0.098],
             ["PtoV exh", 0.122]],
            {"B7": "intake_valve_to_piston 0.098 in", "B8": "exhaust_valve_to_piston 0.122 in"},
            id="PtoV",
        ),
        pytest.param(
            [["Head studs ft lb", 75], ["Mains", 90], ["Rods", 45], ["Oil psi, hot", 32]],
            {"B6": "main_bolt_torque 90 lbf.ft", "B7": "rod_bolt_torque 45 lbf.ft",
             "B8": "oil_pressure 32 psi"},
            id="parts below a torque",
        ),
        pytest.param(
            [["MAINS (in)", "came in", "line honed"], ["#1", 2.8416, 2.8408],
             ["#2", 2.8419, 2.8409], ["#3", 2.8424, 2.8415]],
            {"B6": "main_housing_bore 1 found 2.8416 in",
             "C6": "main_housing_bore 1 final 2.8408 in"},
            id="housings as they came in beside those line honed",
        ),
        pytest.param(
            [["MAINS (in)", "as rec'd", "out of rd", "grind to", "finished"],
             ["M1", 2.3979, 0.0003, "-.010", 2.3886], ["M2", 2.3976, 0.0006, "-.010", 2.3887],
             ["M3", 2.3971, 0.0011, "-.010", 2.3886]],
            {"C6": "main_journal_out_of_round 1 found 0.0003 in"},
            id="how far from round before the grinding",
        ),
        pytest.param(
            [["Ventilspiel mm"], ["Zyl.", "E", "A"], [1, 0.18, 0.28], [2, 0.22, 0.28],
             [3, 0.18, 0.33]],
            {"B7": "intake_lash 1 0.18 mm", "C7": "exhaust_lash 1 0.28 mm"},
            id="Einlass and Auslass in short",
        ),
        pytest.param(
            [["Cyl", "Lobe lift in", "Lobe lift ex"], [1, 0.3125, 0.3185], [2, 0.312, 0.3185],
             [3, 0.3115, 0.318], ["card", 0.312, 0.318]],
            {"B8": "intake_lobe_lift 3 0.3115 in", "B9": "intake_lobe_lift target 0.312 in"},
            id="the card's row below cylinders",
        ),
        pytest.param(
            [["grams"], ["rings", 42], ["clips", 2], ["pin", 118], ["slug", 505],
             ["rotating 2x(430+42)+4", 948]],
            {"B10": "rotating_mass 948 g"},
            id="a sum within a label",
        ),
        pytest.param(
            [["stroke (in)", 3.48], ["deck all 8 (in)", 0.01]],
            {"B6": "deck_clearance 0.01 in"},
            id="all eight are no number eight",
        ),
        pytest.param(
            [["Bore (in)", 4.03], [], ["CHARGES", "hot tank", "deck", "line hone"],
             [None, 95, 180, 210], ["total", 485]],
            {"B8": "not understood: 95", "C8": "not understood: 180", "D8": "not understood: 210"},
            id="charges",
        ),
        pytest.param(
            [["BIELLES", 1, 2, 3, 4], ["Maneton", 68.993, 68.993, 68.994, 68.999],
             ["Alésage (mm), chemises neuves", 114.02, 114.023, 114.022, 114.021]],
            {"B7": "bore 1 final 114.02 mm"},
            id="new liners below a table of rods",
        ),
        pytest.param(
            [["Rebore card", "+.040"], [], [None, "Cyl 1", "Cyl 2", "Cyl 3", "Cyl 4"],
             ["Taper worn", 0.0055, 0.005, 0.005, 0.006],
             ["Bored & honed", 2.8203, 2.8202, 2.8203, 2.8204],
             ["Piston", 2.818, 2.818, 2.8181, 2.818], ["2nd ring thou", 10, 10, 11, 10]],
            {"B8": "bore_taper 1 found 0.0055 in", "C9": "bore 2 final 2.8202 in",
             "D11": "second_ring_gap 3 0.011 in"},
            id="a card of reboring",
        ),
        pytest.param(
            [["Grundzapfen (mm)", "vorher"], ["I", 53.962], ["II", 53.955], ["III", 53.948],
             ["IV", 53.958], ["V", 53.96]],
            {"B9": "main_journal 4 found 53.958 mm", "B10": "main_journal 5 found 53.96 mm"},
            id="the fifth of Roman numbers",
        ),
        pytest.param(
            [["Cotes en mm"], [None, "avant", None, "après"],
             [None, "Cyl. 1", "Cyl. 2", "Cyl. 1", "Cyl. 2"],
             ["Alésage", 69.06, 69.075, 69.505, 69.504]],
            {"C8": "bore 2 found 69.075 mm", "D8": "bore 1 final 69.505 mm"},
            id="before and after over groups of cylinders",
        ),
        pytest.param(
            [["BANCADA (mm)", 1, 2, 3], ["Muñequilla antes", 76.18, 76.172, 76.165]],
            {"B6": "main_journal 1 found 76.18 mm"},
            id="journals below the word for mains",
        ),
        pytest.param(
            [["Zylinderkopf (mm)", "vorher", "nachher"], ["Bauhöhe", 121.42, 121.22]],
            {"B6": "head_height found 121.42 mm", "C6": "head_height final 121.22 mm"},
            id="how high a head is built",
        ),
        pytest.param(
            [["ALÉSAGE ET PIERRAGE (mm)"], ["Cylindre", 1, 2, 3, 4],
             ["Relevé avant (haut)", 78.09, 78.11, 78.1, 78.12],
             ["Alésage fini", 78.525, 78.524, 78.525, 78.526]],
            {"B7": "bore 1 top found 78.09 mm", "C8": "bore 2 final 78.524 mm"},
            id="taken before, and at no front",
        ),
        pytest.param(
            [["2218 crank - std, polished only"],
             ["mm", "size", "shell bore", "clr"], ["Main 1", 53.97, 54.012, 0.042],
             ["Main 2", 53.97, 54.013, 0.043], ["Main 3", 53.969, 54.012, 0.043],
             ["Pin 1", 47.772, 47.818, 0.046], ["Pin 2", 47.772, 47.818, 0.046]],
            {"B7": "main_journal 1 machined 53.97 mm", "B11": "rod_journal 2 machined 47.772 mm"},
            id="a crank of standard size",
        ),
        pytest.param(
            [["Salientes en centésimas de mm, lo demás en mm"],
             ["Cil.", "Camisa", "Pistón", "Holgura", "Sal. camisa"],
             [1, 105.013, 104.893, 0.12, 6], [2, 105.013, 104.892, 0.121, 7],
             [3, 105.012, 104.893, 0.119, 6]],
            {"C7": "piston_diameter 1 104.893 mm"},
            id="a unit for one column and another for the rest",
        ),
        pytest.param(
            [["Pleuel Nr.", "Gewicht unten g", "Gewicht oben g"], [1, 412, 168], [2, 412, 168],
             [3, 413, 168]],
            {"B6": "rod_big_end_mass 1 412 g", "C8": "rod_small_end_mass 3 168 g"},
            id="weights of both ends of rods",
        ),
        pytest.param(
            [["Zylinderbohrungen (mm)"], ["Nr.", "Verschleiß", "gehont"], [1, 84.09, 84.271],
             [2, 84.12, 84.272], [3, 84.11, 84.27]],
            {"B7": "bore 1 found 84.09 mm", "C7": "bore 1 final 84.271 mm"},
            id="sizes of wear",
        ),
        pytest.param(
            [["mains (mm)", "crank", "shell id", None, "ends", "crank", "shell id", "side"],
             [1, 53.975, 54.032, None, 1, 47.982, 48.034, 0.28, "stroke", 72.75],
             [2, 53.976, 54.03, None, 2, 47.981, 48.033, 0.3, "rod", 127],
             [3, 53.974, 54.031, None, 3, 47.982, 48.032, 0.28, "end float", 0.12],
             [4, 53.975, 54.031, None, 4, 47.983, 48.034, 0.28, "head nm", 82]],
            {"F6": "rod_journal 1 47.982 mm", "J6": "stroke 72.75 mm",
             "J8": "crank_end_play 0.12 mm"},
            id="ends beside mains, and a form behind both without a gap",
        ),
        pytest.param(
            [["Bore", '4.125"'], ["hole", 1, 2, 3, 4], ["top ring gap, thou", 18, 19, 18, 17],
             ["mid ring", 36, 35, 36, 37]],
            {"B8": "second_ring_gap 1 0.036 in"},
            id="the ring in the middle",
        ),
    ],
)  # fmt: skip
def test_numbers_are_told_by_what_stands_beside_them(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_what_a_formula_gives_may_have_any_number_of_digits(tmp_path: Path) -> None:
    rows = [["Weights in grams"], ["big end", 318.4], ["little end", 128.5], ["piston", 262],
            ["Bobweight", "=B6+(B7+B8)*72/100"]]  # fmt: skip
    check_told(tmp_path, rows, {"B9": "result: bobweight"})


def test_the_name_of_an_engine_measures_no_cylinder(tmp_path: Path) -> None:
    rows = [["Moteur", "4 cyl. essence 2,0 l 16 soupapes"], ["Alésage (mm)", 86.5]]
    check_told(tmp_path, rows, {"B5": ""})


def test_two_sizes_with_a_dash_in_a_sentence_are_a_range(tmp_path: Path) -> None:
    rows = [["mains (in)", "ground", "brg bore"], [1, 3.2579, 3.2614], [2, 3.258, 3.2615],
            [3, 3.2579, 3.2614], ["oil clr mains .0026-.0046, rods .0016-.0035"]]  # fmt: skip
    for text in all_told(tmp_path, rows).get("A9", ["asked: main_bearing_clearance"]):
        assert text.startswith(("asked", "refused"))
