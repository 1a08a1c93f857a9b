"""Rows whose names, numbers or states a sheet says once: in a legend, or beyond a gap.

How people lay out such cards is from memory of the trade.
"""

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["U = usé   R = rectifié   cotes mm"], [],
             ["Tourillon", "", "axe A", "axe B"],
             [1, "U", 79.935, 79.970], ["", "R", 79.725, 79.723],
             [2, "U", 79.945, 79.965], ["", "R", 79.724, 79.726]],
            {"C8": "main_journal 1 thrust found 79.935 mm",
             "D9": "main_journal 1 parallel machined 79.723 mm",
             "C10": "main_journal 2 thrust found 79.945 mm",
             "C11": "main_journal 2 thrust machined 79.724 mm"},
            id="states that a legend explains",
        ),
        pytest.param(
            [["valve", "stem", "guide", "", "", "seat wide", "tappet hot"],
             ["1 intake", .3715, .3738, "", "", .076, .014],
             ["1 exhaust", .3710, .3744, "", "", .076, .016],
             ["2 intake", .3714, .3741, "", "", .079, .014],
             ["2 exhaust", .3709, .3747, "", "", .084, .016]],
            {"B6": "intake_stem_diameter 1 0.3715 in", "F7": "exhaust_seat_width 1 0.076 in",
             "G8": "intake_lash 2 0.014 in", "G9": "exhaust_lash 2 0.016 in"},
            id="columns beyond a gap",
        ),
        pytest.param(
            [["CRANKSHAFT CARD"], ["", "worn", "ground", "shell ID", "oil clearance"],
             ["main, front", 2.6221, 2.6041, 2.6065, .0024],
             ["main, center", 2.6219, 2.6041, 2.6067, .0026],
             ["main, rear", 2.6204, 2.6040, 2.6066, .0026],
             ["pin 1", 2.2977, 2.2791, 2.2815, .0024],
             ["pin 2", 2.2972, 2.2791, 2.2816, .0025]],
            {"B7": "main_journal 1 found 2.6221 in", "D8": "main_bearing_bore 2 2.6067 in",
             "C10": "rod_journal 1 machined 2.2791 in", "D11": "rod_bearing_bore 2 2.2816 in",
             "E11": "rod_bearing_clearance 2 0.0025 in"},
            id="crankpins below mains that are not numbered",
        ),
        pytest.param(
            [["MAINS", "Removed", "Re-ground -.020", "Oil clearance"],
             ["No. 1", 3.7460, 3.7291, .0034], ["No. 2", 3.7472, 3.7293, .0033],
             ["No. 3", 3.7461, 3.7290, .0031]],
            {"B6": "main_journal 1 found 3.746 in", "C7": "main_journal 2 machined 3.7293 in"},
            id="as removed",
        ),
        pytest.param(
            [["", *["bancata destra"] * 3, *["bancata sinistra"] * 3],
             ["CILINDRI  (mm)", 1, 2, 3, 4, 5, 6],
             ["Canna levigata", 80.014, 80.015, 80.017, 80.015, 80.013, 80.016]],
            {"B7": "bore 1 final 80.014 mm", "G7": "bore 6 final 80.016 mm"},
            id="numbers behind a word with a unit",
        ),
        pytest.param(
            [['Rebored +20. Readings are tenths of a thou over 2.8150"'],
             ["", "Left", "", "Right"],
             ["Barrel bores", "fore/aft", "across", "fore/aft", "across"],
             ["top", 2, 3, 3, 2], ["middle", 6, 6, 4, 6], ["bottom", 6, 5, 3, 5]],
            {"B8": "bore L top parallel 2.8152 in", "C10": "bore L bottom thrust 2.8155 in"},
            id="tenths over a size that a sentence says",
        ),
        pytest.param(
            [["VILEBREQUIN  manetons", 1, 2, 3], ["avant", 43.95, 43.94, 43.96],
             ["rectifié -0,25", 43.729, 43.730, 43.728],
             ["bielle, alésage coussinet", 43.772, 43.771, 43.772]],
            {"B6": "rod_journal 1 found 43.95 mm", "C7": "rod_journal 2 machined 43.73 mm",
             "D8": "rod_bearing_bore 3 43.772 mm"},
            id="before the work and no front",
        ),
        pytest.param(
            [["Cyl", "old liner, worst", "", "New liner"], ["", "P-S", "F-A"],
             [1, 118.21, 118.15, 118.016], [2, 118.22, 118.16, 118.013],
             ["No 2 old liner cavitated through to 3 mm of the bore."]],
            {"B7": "bore 1 thrust found 118.21 mm", "C8": "bore 2 parallel found 118.16 mm"},
            id="the worst of a part that a remark names too",
        ),
        pytest.param(
            [["", "Journal", "Brg i.d.", "Oil clr"],
             ["Main 1", 2.4887, 2.4912, .0025], ["Main 2", 2.4886, 2.4911, .0025], [],
             ["Rod 1", 2.1092, 2.1114, .0022], ["Rod 2", 2.1091, 2.1113, .0022]],
            {"B6": "main_journal 1 2.4887 in", "B9": "rod_journal 1 2.1092 in",
             "C10": "rod_bearing_bore 2 2.1113 in", "D10": "rod_bearing_clearance 2 0.0022 in"},
            id="rods below a gap under the heads of mains",
        ),
        pytest.param(
            [["Journal", "worn", "", "ground", ""], ["", "min", "max", "A", "B"],
             ["Main 1", 2.4902, 2.4910, 2.4733, 2.4733],
             ["Main 2", 2.4905, 2.4913, 2.4732, 2.4732]],
            {"B7": "main_journal 1 found 2.4902 in", "C8": "main_journal 2 found 2.4913 in"},
            id="least and most as worn",
        ),
        pytest.param(
            [["Cyl", "Worn bore (in)", "Finish 3.7500 + (tenths)", "Piston o.d. (in)"],
             [1, 3.7529, 2, 3.7469], [2, 3.7527, 4, 3.7468]],
            {"C6": "bore 1 3.7502 in", "C7": "bore 2 3.7504 in"},
            id="tenths in brackets",
        ),
        pytest.param(
            [["Hauteur culasse reçue", 88.34], ["Hauteur culasse surfacée", 88.12],
             ["Culasse surfacée de", 0.22]],
            {"B5": "head_height found 88.34 mm", "B6": "head_height machined 88.12 mm",
             "B7": "head_cut 0.22 mm"},
            id="a height after a cut",
        ),
        pytest.param(
            [["Bore", 3.71], ["stroke", 3.86], ["cc each", 683.8], ["litres", 4.103]],
            {"B8": "displacement 4103 cc"},
            id="liters say in what they are",
        ),
    ],
)  # fmt: skip
def test_what_is_said_once_holds_for_all_rows(
    rows: Rows, expected: dict[str, str], tmp_path: Path
) -> None:
    check_told(tmp_path, rows, expected)
