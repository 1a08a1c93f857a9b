"""Notes as shops in Britain and elsewhere write them: what is measured, of which one, and when.

How people write is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_sheet import Rows, check_told, told

CASES = [
    pytest.param(
        [["", "Came in", "Ovality (thou)", "Ground to"], ["Main Fr", 2.1236, 1.5, 2.1035],
         ["Main Ctr", 2.1231, 2, 2.1034], ["Main Rr", 2.1238, 1, 2.1035],
         ["Pin 1", 1.7502, 2.5, 1.7305], ["Pin 2", 1.7503, 2, 1.7304]],
        {"C6": "main_journal_out_of_round 1 found 0.0015 in",
         "C10": "rod_journal_out_of_round 2 found 0.002 in",
         "D8": "main_journal 3 machined 2.1035 in"},
        id="the ovality of journals that rows count",
    ),
    pytest.param(
        [["No.", "Journal", "Position", "X", "Y", "Ovality"],
         [1, "Main", 1, 62.985, 62.981, 0.004], [2, "Main", 2, 62.984, 62.979, 0.005],
         [3, "Crank pin", 1, 52.968, 52.959, 0.009], [4, "Crank pin", 2, 52.97, 52.962, 0.008]],
        {"F6": "main_journal_out_of_round 1 0.004 mm",
         "F9": "rod_journal_out_of_round 2 0.008 mm"},
        id="the ovality beside two axes",
    ),
    pytest.param(
        [["Guides and stems"], ["", "Inlet", "", "", "Exhaust"],
         ["Cyl", "Guide", "Stem", "Clce", "Guide", "Stem"],
         [1, 0.3145, 0.3127, 0.0018, 0.3149, 0.3122], [2, 0.3144, 0.3127, 0.0017, 0.315, 0.3121]],
        {"B8": "intake_guide_bore 1 0.3145 in", "D9": "intake_stem_clearance 2 0.0017 in",
         "F8": "exhaust_stem_diameter 1 0.3122 in"},
        id="a side over heads of its own",
    ),
    pytest.param(
        [["Tappet gap (cold)", "IN 0.20, EX 0.25 by the book"], ["", "Found", "Left at"],
         ["1I", 0.18, 0.2], ["1E", 0.31, 0.25], ["2I", 0.22, 0.2], ["2E", 0.27, 0.25]],
        {"B7": "intake_lash 1 found 0.18 mm", "C10": "exhaust_lash 2 final 0.25 mm"},
        id="what the book calls for beside a title",
    ),
    pytest.param(
        [["bores lh bank", "", "", "bores rh bank"], [1, 3.5015, "", 2, 3.5014],
         [3, 3.5014, "", 4, 3.5016], [5, 3.5016, "", 6, 3.5015], [7, 3.5015, "", 8, 3.5014]],
        {"B6": "bore 1 3.5015 in", "B9": "bore 7 3.5015 in", "E7": "bore 4 3.5016 in"},
        id="banks of odd and even numbers",
    ),
    pytest.param(
        [["Bore gauge readings - block as received, mm"], ["", "Top", "", "Bot", ""],
         ["Cyl", "Thrust", "Axial", "Thrust", "Axial"], [1, 88.14, 88.09, 88.08, 88.06],
         [2, 88.17, 88.11, 88.1, 88.07]],
        {"B8": "bore 1 top thrust found 88.14 mm", "E9": "bore 2 bottom parallel found 88.07 mm"},
        id="when is said before the units",
    ),
    pytest.param(
        [["main", "jrnl", "oil clr"], ["F", 2.748, 0.0023], [2, 2.7481, 0.0022],
         [3, 2.7481, 0.0024], ["R", 2.748, 0.0024]],
        {"B6": "main_journal 1 2.748 in", "B9": "main_journal 4 2.748 in",
         "C9": "main_bearing_clearance 4 0.0024 in"},
        id="front and rear around numbered mains",
    ),
    pytest.param(
        [["HEAD", "N/S", "O/S"], ["Height before", 118.02, 117.98],
         ["Height after", 117.87, 117.86]],
        {"B6": "head_height L found 118.02 mm", "C7": "head_height R final 117.86 mm"},
        id="near side and off side",
    ),
    pytest.param(
        [["Vacuum test of valves (kPa pulled)"], ["hole", "int", "exh"], [1, 78, 74], [2, 80, 76]],
        {"B7": "intake_valve_vacuum 1 78 kPa", "C8": "exhaust_valve_vacuum 2 76 kPa"},
        id="a word behind a unit in brackets",
    ),
    pytest.param(
        [["all sizes in inches"], [], ["piston height to deck, -ve = down the hole"],
         ["", "#1", "#2"], ["LH", -0.008, -0.007]],
        {"B9": "deck_clearance 1 0.008 in"},
        id="a sign in short",
    ),
    pytest.param(
        [["Wall thickness, sonic. Each hole thrust/non-thrust/front/rear in turn, thou"],
         ["cyl", "T", "NT", "F", "R"], [1, 182, 171, 160, 164], [2, 190, 168, 158, 161]],
        {"B7": "cylinder_wall 1 thrust 0.182 in", "C7": "cylinder_wall 1 non-thrust 0.171 in",
         "E8": "cylinder_wall 2 rear 0.161 in"},
        id="around a wall",
    ),
    pytest.param(
        [["Piston to bore (hundredths of mm)"], ["Cyl no", "New", "Old"], ["I", 4, 14],
         ["II", 5, 16]],
        {"B7": "piston_clearance 1 final 0.04 mm", "C8": "piston_clearance 2 found 0.16 mm"},
        id="hundredths in words",
    ),
    pytest.param(
        [["Inlet valves: below face", "1 = 1.15 mm", "2 = 1.20 mm"],
         ["chamber cc:", "1/ 28.2", "2/ 28.3"]],
        {"C5": "intake_valve_recession 2 1.2 mm", "B6": "chamber_volume 1 28.2 cc"},
        id="one counted size in a cell",
    ),
    pytest.param(
        [["Big-end bolts. Length, free & tightened"], ["Rod", "Free", "Tight", "Stretch"],
         [1, 46.21, 46.36, 0.15], [2, 46.2, 46.35, 0.15]],
        {"B7": "rod_bolt_length 1 46.21 mm", "C8": "rod_bolt_tight_length 2 46.35 mm"},
        id="rods that only count their bolts",
    ),
    pytest.param(
        [["Installed spring heights"], ["", "cyl 1", "cyl 2"], ["In", 36.2, 36.0],
         ["shim", 0.5, 0.3], ["Ex", 35.9, 36.0], ["shim", 0.5, 0.8]],
        {"B7": "intake_spring_height 1 36.2 mm", "C8": "intake_spring_shim 2 0.3 mm",
         "C10": "exhaust_spring_shim 2 0.8 mm"},
        id="what stands below each side",
    ),
    pytest.param(
        [["rpm", "bhp", "lbf.ft", "BSFC lb/hp.h"], [4500, 128, 149, 0.49], [5500, 161, 154, 0.48]],
        {"C6": "engine_torque 149 lbf.ft", "B7": "power 161 hp"},
        id="torque by its unit in a run",
    ),
    pytest.param(
        [["Marine diesel. Bumping clearance by lead wire, mm"],
         ["cyl / wire", "fwd", "aft", "port", "stbd"], [1, 1.62, 1.64, 1.6, 1.62],
         [2, 1.58, 1.6, 1.57, 1.57]],
        {"B7": "quench 1 front 1.62 mm", "D8": "quench L2 1.57 mm"},
        id="sides of a ship",
    ),
    pytest.param(
        [["Rebore report"], ["Cyl.", "T", "M", "B", "Taper"], [1, 81.51, 81.51, 81.5, 0.01],
         [2, 81.51, 81.5, 81.5, 0.01]],
        {"B7": "bore 1 top machined 81.51 mm", "E8": "bore_taper 2 machined 0.01 mm"},
        id="a title that only says what was done",
    ),
    pytest.param(
        [["Ring groove side clce (feeler)"], ["Piston", 1, 2, 3], ["Top", 0.06, 0.06, 0.07],
         ["Second", 0.05, 0.05, 0.05], ["Oil", 0.04, 0.04, 0.04]],
        {"B7": "top_ring_side_clearance 1 0.06 mm", "C8": "second_ring_side_clearance 2 0.05 mm",
         "D9": "oil_ring_side_clearance 3 0.04 mm"},
        id="rings whose title is of their grooves",
    ),
    pytest.param(
        [["Dry liners"], ["Cylinder", "Liner O/D", "Nip (mm)"], [1, 103.26, 0.05],
         [2, 103.25, 0.04]],
        {"C7": "liner_interference 1 0.05 mm"},
        id="the nip of a liner",
    ),
    pytest.param(
        [["Pre-combustion chambers, height above head face, mm"], [1, 2, 3], [0.02, 0.03, 0.02]],
        {"B7": "prechamber_protrusion 2 0.03 mm"},
        id="a part in a title, and what of it",
    ),
    pytest.param(
        [["Fit-up record"], ["", "A", "B", "C", "D", "E", "F"],
         ["big end oil clr", 0.002, 0.0021, 0.0019, 0.002, 0.002, 0.0021],
         ["A = No.1 cyl, F = No.6"]],
        {"B7": "rod_bearing_clearance 1 0.002 in", "G7": "rod_bearing_clearance 6 0.0021 in"},
        id="letters that a note explains",
    ),
    pytest.param(
        [["Twin crank, inches"], ["Crankpin T/S", 1.6233, "Crankpin D/S", 1.6234],
         ["(T/S = right, D/S = left)"]],
        {"B6": "rod_journal R 1.6233 in", "D6": "rod_journal L 1.6234 in"},
        id="sides that a note explains",
    ),
    pytest.param(
        [["New pistons. c/h = compression ht"], ["cyl", "c/h", "gudgeon"], [1, 1.75, 0.8123],
         [2, 1.7505, 0.8124]],
        {"B7": "compression_height 1 final 1.75 in", "C8": "pin_diameter 2 final 0.8124 in"},
        id="a short name that the title explains",
    ),
    pytest.param(
        [["Oil clearances"], ["", "M1", "M2", "M3"], ["mm", 0.041, 0.043, 0.046],
         ["", "R1", "R2", ""], ["mm", 0.038, 0.037, ""]],
        {"B9": "rod_bearing_clearance 1 0.038 mm"},
        id="rods counted below mains",
    ),
    pytest.param(
        [["Sleeve job:"], ["Sleeve No.", "Dia X", "Dia Y", "Dia X", "Dia Y"],
         ["", "(30 mm down)", "(30 mm down)", "(90 mm down)", "(90 mm down)"],
         [1, 110.02, 110.01, 110.02, 110.02], [2, 110.03, 110.01, 110.02, 110.02]],
        {"B8": "bore 1 thrust 30 mm down 110.02 mm",
         "E9": "bore 2 parallel 90 mm down 110.02 mm"},
        id="depths in brackets below heads",
    ),
    pytest.param(
        [["CAMSHAFT", ""], ["jnl 1", 47.93], ["jnl 2", 47.43], ["jnl 3", 46.92]],
        {"B6": "cam_journal 1 47.93 mm"},
        id="journals of a camshaft",
    ),
    pytest.param(
        [["Leak test (%)"], ["cyl", "at strip", "after bedding in"], [1, 22, 6], [2, 18, 5],
         [3, 40, 7], [4, 21, 6]],
        {"B7": "leakage 1 found 22", "B9": "leakage 3 found 40", "C7": "leakage 1 final 6"},
        id="counted rows of which one is the sum of two",
    ),
    pytest.param(
        [["Item", "Spec", "Actual"], ["Bore (std)", "73.00 - 73.02", 73.01],
         ["Crank end float", "0.05 - 0.25", 0.12]],
        {"C6": "bore 73.01 mm", "C7": "crank_end_play 0.12 mm"},
        id="a grade in a list of actual sizes",
    ),
    pytest.param(
        [["Crank pins"], ["Pin", "Read 1", "Read 2"], [1, 47.735, 47.733], [2, 47.736, 47.733]],
        {"B7": "rod_journal 1 A 47.735 mm", "C8": "rod_journal 2 B 47.733 mm"},
        id="numbered readings",
    ),
    pytest.param(
        [["Guide wear, by rocking the valves over. Ex only"], ["cyl", 1, 2],
         ["new guides", 0.0018, 0.002]],
        {"B7": "exhaust_stem_clearance 1 final 0.0018 in"},
        id="a title of one side only",
    ),
    pytest.param(
        [["Shims"], ["", "EX 1", "EX 2"], ["gap as found", 0.15, 0.12],
         ["shim fitted", 2.6, 2.55], ["gap now", 0.2, 0.22]],
        {"B7": "exhaust_lash 1 found 0.15 mm", "C9": "exhaust_lash 2 final 0.22 mm"},
        id="gaps below heads of valves",
    ),
    pytest.param(
        [["Faces. bank", "L", "R", "(thou)"], ["deck twist over all", 1, 2],
         ["deck taken off", 12, 10]],
        {"B7": "deck_cut L 0.012 in", "C7": "deck_cut R 0.01 in"},
        id="small sizes below banks",
    ),
    pytest.param(
        [["Springs on the rig", "In seat @1.44", "In open @1.02"], ["cyl 1", "92 lb", "198 lb"],
         ["cyl 2", "94 lb", "201 lb"]],
        {"B6": "spring_seat_load 1 409.236 N", "C7": "spring_open_load 2 894.093 N"},
        id="loads at a height",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("rows", "expected"), CASES)
def test_notes_are_read(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


def test_a_day_is_no_diameter(tmp_path: Path) -> None:
    rows = [["Valve", "dia", "margin"], ["INLETS"], [1, 1.5, 0.045], [2, 1.501, 0.044]]
    assert told(tmp_path, rows)["B7"] == "intake_valve_head_diameter 1 1.5 in"


def test_the_book_in_a_title_is_no_stage(tmp_path: Path) -> None:
    rows = [["inch book, all dimensions inch"], ["Item", "Std", "Actual"], ["Stroke", 3.48, 3.486]]
    assert told(tmp_path, rows)["C7"] == "stroke 3.486 in"
