"""Units that a sentence says for all but what it names, and those that formulas give.

That builders write so is common practice, no source; the sizes are invented, and sound with each
other.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.formula_units import unit_given
from workbook_tools.labels.property_units import units_of_properties

CYLINDERS = ["Cyl", 1, 2, 3]
INCHES = ["Bore", 4.031, 4.031, 4.0312]
METRIC = ["Bore", 82.02, 82.02, 82.03]


@pytest.mark.parametrize(
    ("said", "rows", "expected"),
    [
        pytest.param(
            "Bores in mm, everything else in thou unless I say so.",
            [METRIC, ["Top ring gap", 12, 12, 13], ["Piston below block", 20, 22, 21],
             ["Crank end float", 4]],
            {"B7": "bore 1 82.02 mm", "B8": "top_ring_gap 1 0.012 in",
             "C9": "deck_clearance 2 0.022 in", "B10": "crank_end_play 0.004 in"},
            id="everything else",
        ),
        pytest.param(
            "Bores, pistons: inch. Everything else thou.",
            [INCHES, ["piston in the hole", 8, 9, 8], ["valve lash int", 14, 14, 14]],
            {"B7": "bore 1 4.031 in", "C8": "deck_clearance 2 0.009 in",
             "B9": "intake_lash 1 0.014 in"},
            id="behind colons",
        ),
        pytest.param(
            "clearances and gaps thou",
            [INCHES, ["Piston clr", 4, 4, 4.5], ["Top gap", 18, 18, 19]],
            {"B7": "bore 1 4.031 in", "D8": "piston_clearance 3 0.0045 in",
             "B9": "top_ring_gap 1 0.018 in"},
            id="no word before the unit",
        ),
        pytest.param(
            "inches, clearances thou",
            [["2nd ring gap", 11, 11, 12], ["rod side", 15, 16, 15], ["crank float", 0.006]],
            {"B7": "second_ring_gap 1 0.011 in", "B9": "crank_end_play 0.006 in"},
            id="a unit alone before",
        ),
        pytest.param(
            "mm everywhere except clearances in 1/100",
            [METRIC, ["Piston clearance", 4, 4, 5]],
            {"B7": "bore 1 82.02 mm", "D8": "piston_clearance 3 0.05 mm"},
            id="except",
        ),
        pytest.param(
            "gaps in thou, rest in mm",
            [METRIC, ["Top gap", 18, 18, 19], ["Main oil clearance", .05, .05, .06]],
            {"B8": "top_ring_gap 1 0.018 in", "D9": "main_bearing_clearance 3 0.06 mm"},
            id="the rest",
        ),
        pytest.param(
            "Bohrung und Kolben in mm, alles andere in 1/100",
            [["Bohrung", 86.02, 86.02, 86.03], ["Kolbenrückstand", 35, 40, 35],
             ["Stößelspiel Einlass", 10, 10, 10]],
            {"B7": "bore 1 86.02 mm", "C8": "deck_clearance 2 0.4 mm",
             "D9": "intake_lash 3 0.1 mm"},
            id="German",
        ),
        pytest.param(
            "alésages en mm, tout le reste en centièmes",
            [["Alésage", 82.02, 82.02, 82.03], ["Retrait piston", 35, 40, 35]],
            {"B7": "bore 1 82.02 mm", "C8": "deck_clearance 2 0.4 mm"},
            id="French",
        ),
        pytest.param(
            "cilindros en mm, lo demás en centésimas",
            [["Diámetro cilindro", 82.02, 82.02, 82.03], ["Juego axial cigüeñal", 12]],
            {"D7": "bore 3 82.03 mm", "B8": "crank_end_play 0.12 mm"},
            id="Spanish",
        ),
        pytest.param(
            "alesaggi in mm, il resto in centesimi",
            [["Alesaggio", 82.02, 82.02, 82.03], ["Gioco assiale albero motore", 12]],
            {"D7": "bore 3 82.03 mm", "B8": "crank_end_play 0.12 mm"},
            id="Italian",
        ),
    ],
)  # fmt: skip
def test_units_said_in_one_sentence(
    tmp_path: Path, said: str, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, [[said], CYLINDERS, *rows], expected)


@pytest.mark.parametrize(
    "said",
    ["JOBS 23/24   sizes inch, clr cols are thou", "clearances: thou", "clr = thou",
     "Bores mm, clearances thou", "inches except clearances (thou)"],
)  # fmt: skip
def test_clearances_in_thou(said: str) -> None:
    assert units_of_properties([said])["clearance"] == "thou"


@pytest.mark.parametrize("head", ["Top ring gap thou", "Lash thou", "Main clearance mm"])
def test_the_head_of_a_column_says_no_unit_for_all(head: str) -> None:
    assert not units_of_properties([head])


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["inches"], CYLINDERS, ["bore", 2.836, 2.8361, 2.8362],
             ["piston", 2.8318, 2.8318, 2.8319],
             ["so", "=(B7-B8)*1000", "=(C7-C8)*1000", "=(D7-D8)*1000"]],
            {"B9": "result: piston_clearance"},
            id="no word for it",
        ),
        pytest.param(
            [["inches"], CYLINDERS, ["big end jnl", 1.614, 1.6141, 1.614],
             ["shell in rod", 1.6155, 1.6155, 1.6155],
             ["clr", "=(B8-B7)*1000", "=(C8-C7)*1000", "=(D8-D7)*1000"]],
            {"C9": "result: rod_bearing_clearance"},
            id="bearings",
        ),
        pytest.param(
            [["mm"], CYLINDERS, ["Bore", 86.02, 86.02, 86.03], ["Piston", 85.97, 85.97, 85.98],
             ["Clearance, thou", "=(B7-B8)/0.0254", "=(C7-C8)/0.0254", "=(D7-D8)/0.0254"],
             ["Clearance", "=(B7-B8)*100", "=(C7-C8)*100", "=(D7-D8)*100"]],
            {"B10": "result: piston_clearance"},
            id="hundredths",
        ),
    ],
)  # fmt: skip
def test_results_in_the_unit_that_their_formula_gives(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("bores", "pistons", "clearances", "expected"),
    [
        ((86.01, 86.015), (85.965, 85.965), (45, 50), "piston_clearance 2 0.05 mm"),
        ((4.0305, 4.0305), (4.0265, 4.026), (4, 4.5), "piston_clearance 2 0.0045 in"),
    ],
)
@pytest.mark.parametrize("said", ["milésimas", "millièmes", "millesimi", "Tausendstel"])
def test_thousandths_are_of_what_the_book_measures_in(
    tmp_path: Path, said: str, bores: Rows, pistons: Rows, clearances: Rows, expected: str
) -> None:
    rows = [["Cilindro", 1, 2], ["Bore", *bores], ["Piston", *pistons]]
    check_told(tmp_path, [*rows, [f"Piston clearance ({said})", *clearances]], {"C8": expected})


@pytest.mark.parametrize(
    ("formula", "system", "unit"),
    [
        ("=(B3-B4)*1000", "inch", "thou"),
        ("=1000*(B3-B4)", "inch", "thou"),
        ("=ROUND((B3-$C$4)*1000,1)", "inch", "thou"),
        ("=((B3+C3)/2-D3)*1000", "inch", "thou"),
        ("=(B3-B4)/0.001", "inch", "thou"),
        ("=(B3-B4)/0.0254", "metric", "thou"),
        ("=B19+$B$22/0.0254", "metric", "thou"),
        ("=(B3-B4)*100", "metric", "1/100 mm"),
        ("=(B3-B4)*1000", "metric", "um"),
        ("=(B3-B4)*25.4", "inch", "mm"),
        ("=(B3-B4)/25.4", "metric", "in"),
        ("=B3*1000", "inch", ""),
        ("=(B3-B4)*1000", None, ""),
        ("=(B3-B4)*2", "inch", ""),
        ("=B3-B4", "inch", ""),
    ],
)
def test_units_of_formulas(formula: str, system: str | None, unit: str) -> None:
    assert unit_given(formula, system) == unit  # type: ignore[arg-type]
