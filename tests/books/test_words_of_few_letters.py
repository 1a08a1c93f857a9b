"""Short words for rings, ports, lifts and sizes as found, in several languages.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

CYLINDERS = ["Cyl", 1, 2, 3, 4]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["cam F34"], ["in opens BTDC", 42], ["in lift mm", 10.9], ["ex lift mm", 10.7],
             ["lobe lift in mm", 10.2]],
            {"B7": "intake_valve_lift 10.9 mm", "B8": "exhaust_valve_lift 10.7 mm",
             "B9": "intake_lobe_lift 10.2 mm"},
            id="more than a lobe lifts",
        ),
        pytest.param(
            [["inches"], ["cyl", "top rg", "2nd rg"], [1, .018, .020], [2, .018, .020],
             [3, .019, .021]],
            {"B7": "top_ring_gap 1 0.018 in", "C9": "second_ring_gap 3 0.021 in"},
            id="rings",
        ),
        pytest.param(
            [CYLINDERS, ["last season bore", 3.8042, 3.804, "3.8062 scuffed", 3.8041]],
            {"B6": "bore 1 found 3.8042 in", "D6": "bore 3 found 3.8062 in"},
            id="last season",
        ),
        pytest.param(
            [["mm"], ["Cil.", "conicità trov.", "alesaggio finito"], [1, .04, 88.41],
             [2, .05, 88.41], [3, .04, 88.42]],
            {"B7": "bore_taper 1 found 0.04 mm"},
            id="Italian",
        ),
        pytest.param(
            [CYLINDERS, ["cc head + plug", 52.5, 52.5, 52.4, 52.5]],
            {"B6": "chamber_volume 1 52.5 cc"},
            id="with its plug",
        ),
        pytest.param(
            [["CILINDROS (mm)", "", "", "AROS / SALIENTE"],
             ["Cil.", "Pistón", "", "Cil.", "Aro 1", "Aro 2", "Engrase", "Saliente pistón"],
             [1, 93.43, "", 1, .38, .6, .32, .62], [2, 93.431, "", 2, .38, .62, .32, .62],
             [3, 93.43, "", 3, .4, .6, .33, .61]],
            {"E7": "top_ring_gap 1 0.38 mm", "G9": "oil_ring_gap 3 0.33 mm"},
            id="Spanish",
        ),
        pytest.param(
            [["mm"], ["Cyl", "Coupe SF", "Coupe SE"], [1, .35, .4], [2, .35, .4], [3, .36, .4]],
            {"B7": "top_ring_gap 1 0.35 mm", "C7": "second_ring_gap 1 0.4 mm"},
            id="French",
        ),
        pytest.param(
            [["Auslass öffnet", 82], ["ÜS öffnen", 116]],
            {"B6": "transfer_port_opening 116 deg"},
            id="German",
        ),
    ],
)  # fmt: skip
def test_short_words(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)
