"""Sections below titles in one table, heads over gaps, lists of work, units of ratios and heads.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["inches", 1, 2, 3, 4],
             ["Mains"],
             ["Journal", 2.4482, 2.4483, 2.4482, 2.4481],
             ["Shells in, bolted up", 2.4506, 2.4507, 2.4506, 2.4505],
             ["Rods"],
             ["Journal", 2.0992, 2.0993, 2.0992, 2.0991],
             ["Shells in, bolted up", 2.1013, 2.1014, 2.1013, 2.1012]],
            {"B7": "main_journal 1 2.4482 in", "B8": "main_bearing_bore 1 2.4506 in",
             "B10": "rod_journal 1 2.0992 in", "E11": "rod_bearing_bore 4 2.1012 in"},
            id="mains, then rods with the same words",
        ),
        pytest.param(
            [["Ring side clearance (in)"], ["Cyl", "Top", "2nd", "Oil"],
             [1, 0.0018, 0.0020, 0.0030], [2, 0.0018, 0.0021, 0.0031]],
            {"B7": "top_ring_side_clearance 1 0.0018 in",
             "C7": "second_ring_side_clearance 1 0.002 in",
             "D8": "oil_ring_side_clearance 2 0.0031 in"},
            id="rings below a title of their own",
        ),
        pytest.param(
            [["inches", "Found", "Grind lo", "Grind hi", "Ground"],
             ["Main 1", 2.4482, 2.4380, 2.4390, 2.4385], ["Main 2", 2.4483, 2.4380, 2.4390, 2.4386],
             ["Rod 1", 2.0992, 2.0890, 2.0900, 2.0895], ["Rod 2", 2.0993, 2.0890, 2.0900, 2.0896]],
            {"E6": "main_journal 1 machined 2.4385 in", "B8": "rod_journal 1 found 2.0992 in",
             "C8": "rod_journal 1 limit_low 2.089 in", "E9": "rod_journal 2 machined 2.0896 in"},
            id="what is ground of rods",
        ),
        pytest.param(
            [["Deck height (in)", "F found", "R found"],
             ["Left", 9.025, 9.024], ["Right", 9.026, 9.023]],
            {"B6": "deck_height L front found 9.025 in", "C6": "deck_height L rear found 9.024 in",
             "C7": "deck_height R rear found 9.023 in"},
            id="front and rear of banks",
        ),
        pytest.param(
            [["Compression ratio: 10.6:1"]], {"A5": "compression_ratio 10.6"}, id="ratio to one"
        ),
        pytest.param(
            [["mm sizes, inch lash"], ["Bore 1", 86.02], ["Bore 2", 86.03], ["Intake lash", 0.008]],
            {"B7": "bore 2 86.03 mm", "B8": "intake_lash 0.008 in"},
            id="inch lash",
        ),
        pytest.param(
            [["Piston out of block (mm)", 0.42]],
            {"B5": "deck_clearance -0.42 mm"},
            id="out of block",
        ),
        pytest.param(
            [["", "Found", "Final", "OK"],
             ["Bore 1 (in)", 4.0012, 4.0302, "x"],
             [],
             ["Deck height (in)", 9.025, 9.015, "x"],
             ["Main journal 1 (in)", 2.4482, 2.4382, "x"]],
            {"C8": "deck_height final 9.015 in", "B9": "main_journal 1 found 2.4482 in", "D9": ""},
            id="a form that goes on below a gap",
        ),
        pytest.param(
            [["Lager", "Zapfen alt", "Zapfen geschliffen", "Lagerbohrung", "Lagerspiel"],
             ["Nr.", "mm", "mm", "mm", "µm"],
             [1, 69.962, 69.721, 69.791, 70], [2, 69.958, 69.720, 69.792, 72],
             [3, 69.955, 69.721, 69.791, 70], [4, 69.960, 69.722, 69.792, 70]],
            {"C7": "main_journal 1 machined 69.721 mm", "D9": "main_bearing_bore 3 69.791 mm",
             "C10": "main_journal 4 machined 69.722 mm"},
            id="micrometers that are as many as millimeters",
        ),
        pytest.param(
            [["Cil.", "Alesaggio", "Rapporto"], ["n.", "mm", ":1"],
             [1, 65.012, 9.41], [2, 65.013, 9.36]],
            {"C7": "compression_ratio 1 9.41", "C8": "compression_ratio 2 9.36"},
            id="a ratio's unit",
        ),
        pytest.param(
            [["Stroke (mm)", None, 130, "Rod length (mm)", None, 215, None, "Displacement (cc)",
              None, 7686]],
            {"C5": "stroke 130 mm", "F5": "rod_length 215 mm", "J5": "displacement 7686 cc"},
            id="labels with gaps before their values",
        ),
        pytest.param(
            [["Zyl.", "Bohrung mm", "Hubraum cm³"], [1, 82.5, 448.77], [2, 82.5, 448.78]],
            {"C6": "cylinder_volume 1 448.77 cc", "C7": "cylinder_volume 2 448.78 cc"},
            id="what each cylinder sweeps",
        ),
        pytest.param(
            [["Cil.", "Camisa", "Pistón", "Juego", None, "Bancada", "antes", "rectif.", "cojinete"],
             [None, "0,05 a 0,12", None, "lím 0,16"],
             [1, 110.016, 109.885, 0.131, None, 1, 84.929, 84.720, 84.804],
             [2, 110.016, 109.886, 0.130, None, 2, 84.937, 84.722, 84.808],
             [3, 110.017, 109.883, 0.134, None, 3, 84.930, 84.723, 84.807]],
            {"B7": "bore 1 110.016 mm", "G7": "main_journal 1 found 84.929 mm",
             "I9": "main_bearing_bore 3 84.807 mm"},
            id="heads over a gap that the table beside fills",
        ),
        pytest.param(
            [["Operation", "Each", "Hrs"], ["Bore & hone per hole", 32, 0.4],
             ["Resize rod", 18, 0.25]],
            {"B6": "", "C6": "", "B7": "", "C7": ""},
            id="prices of work",
        ),
    ],
)  # fmt: skip
def test_sections_and_heads(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


def test_a_titled_list_beside_a_table_is_none_of_it(tmp_path: Path) -> None:
    rows: Rows = [
        ["MAINS", None, None, None, None, "ODDS & ENDS"],
        ["#", "before", "after grind", "brg in", "clr", "stroke", 4.39],
        [1, 2.9975, 2.9883, 2.9912, 0.0029, "rod c-c", 7.75],
        [2, 2.9962, 2.9882, 2.9913, 0.0031, "gskt thk", 0.051],
        [3, 2.9968, 2.9884, 2.9912, 0.0028, "gskt hole", 3.9],
        [4, 2.9971, 2.9883, 2.9911, 0.0028, "cu in", 300.7],
    ]
    expected = {
        "B7": "main_journal 1 found 2.9975 in",
        "C10": "main_journal 4 final 2.9883 in",
        "D8": "main_bearing_bore 2 2.9913 in",
        "G6": "stroke 4.39 in",
        "G10": "displacement 300.7 cu in",
    }
    check_told(tmp_path, rows, expected)


def test_a_size_in_the_label_of_a_row_says_where_it_was_measured(tmp_path: Path) -> None:
    rows: Rows = [
        ["Kolben Ø, 15 mm über Unterkante", None, None, 87.45],
        ["Bohrung", None, None, 87.5],
    ]
    check_told(tmp_path, rows, {"A5": "", "D5": "piston_diameter 87.45 mm"})


def test_names_with_their_numbers_below_a_table(tmp_path):
    rows = [
        ["Main shells on the shelf (in)"],
        [None, "wall A", 0.0942, "wall B", 0.0947, "wall C", 0.0952],
        ["Pair", "A, A", "A, B", "B, B", "B, C"],
        ["Both walls", 0.1884, 0.1889, 0.1894, 0.1899],
        ["Rod shells on the shelf (in)"],
        [None, "wall A", 0.0608, "wall B", 0.0613, "wall C", 0.0618],
        ["Pair", "A, A", "A, B", "B, B", "B, C"],
        ["Both walls", 0.1216, 0.1221, 0.1226, 0.1231],
    ]
    expected = {f"{c}6": f"main_shell_wall {w} in"
                for c, w in (("C", 0.0942), ("E", 0.0947), ("G", 0.0952))}  # fmt: skip
    expected |= {f"{c}10": f"rod_shell_wall {w} in"
                 for c, w in (("C", 0.0608), ("E", 0.0613), ("G", 0.0618))}  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_names_that_stand_where_a_form_above_has_its_limits(tmp_path):
    rows = [
        ["Item", "Value", "Least", "Most"],
        ["Bore (mm)", 81.01, 81.0, 81.02],
        ["Piston (mm)", 80.96, 80.95, 80.97],
        [],
        ["Main shell wall (mm)"],
        ["thin", 1.99, "thick", 2.01],
    ]
    found = check_told(tmp_path, rows, {})
    assert "limit" not in found.get("D10", ""), found


def test_rows_that_only_say_which_one_are_named_by_their_section(tmp_path):
    rows = [
        ["Pos", "Stelle", "Altmaß", "Neumaß", "Soll"],
        ["Ringstoß oben / Mitte / unten (mm)"],
        [1, "Zyl. 1 oben", None, 0.35],
        [2, "Zyl. 1 Mitte", None, 0.32],
        [3, "Zyl. 1 unten", None, 0.28],
        ["Kurbelwelle Hauptzapfen, geschliffen –0,25"],
        [4, "HL 1", 59.96, 59.733],
        [5, "HL 2", 59.95, 59.731],
        ["Hauptlager Spiel (Plastikfaden)"],
        [6, "HL 1", None, 0.056, "0,04–0,07"],
        [7, "HL 2", None, 0.052],
        ["Hubzapfen"],
        [8, "PL 1", 49.97, 49.73],
        [9, "PL 2", 49.95, 49.728],
    ]
    expected = {
        "D7": "top_ring_gap 1 final 0.35 mm",
        "D8": "second_ring_gap 1 final 0.32 mm",
        "D9": "oil_ring_gap 1 final 0.28 mm",
        "C11": "main_journal 1 found 59.96 mm",
        "D12": "main_journal 2 final 59.731 mm",
        "D14": "main_bearing_clearance 1 final 0.056 mm",
        "C17": "rod_journal 1 found 49.97 mm",
        "D18": "rod_journal 2 final 49.728 mm",
    }
    check_told(tmp_path, rows, expected)


def test_names_in_a_row_below_counted_journals(tmp_path):
    rows = [
        ["all sizes in inches"],
        ["Throws", "P1", "P2", "P3", "P4", "P5"],
        ["as rec'd (worst)", 2.3715, 2.3713, 2.3733, 2.3713, 2.3723],
        ["out of round rec'd", 0.001, 0.0014, 0.0014, 0.0013, 0.0018],
        ["ground", 2.3546, 2.3547, 2.3546, 2.3546, 2.3547],
        ["Fillet R", 0.156, "TIR ctr main rec'd", None, 0.0055],
        ["Stroke", 3.75, "Thrust width", None, 2.005],
    ]
    expected = {
        "C9": "rod_journal 2 machined 2.3547 in",
        "C8": "rod_journal_out_of_round 2 found 0.0014 in",
        "E10": "crank_runout middle found 0.0055 in",
        "B11": "stroke 3.75 in",
        "E11": "thrust_width 2.005 in",
    }
    check_told(tmp_path, rows, expected)


def test_a_label_that_says_what_it_counts_keeps_its_name(tmp_path):
    rows = [["Main clearance"], ["main jnl 1", "2.0008 in"], ["main jnl 2", "2.0006 in"]]
    check_told(tmp_path, rows, {"B6": "main_journal 1 2.0008 in"})


def test_the_unit_of_a_title_beside_a_head_over_nothing(tmp_path):
    rows = [
        ["all sizes in mm"],
        [],
        ["D. Tightened to (lb ft)", None, "Book figure"],
        ["Cylinder head nuts", 100],
        ["Big end bolts", 75],
    ]
    expected = {"B8": "head_bolt_torque 100 lbf.ft", "B9": "rod_bolt_torque 75 lbf.ft"}
    check_told(tmp_path, rows, expected)


def test_pins_beside_the_mains_of_a_crank(tmp_path):
    rows = [
        ["MAINS", None, None, None, "PINS"],
        ["No.", "As received", "Ground", None, "No.", "As received", "Ground"],
        *([n, 84.93 - n / 1e3, 84.49, None, n, 63.93 - n / 1e3, 63.488] for n in (1, 2, 3, 4)),
    ]
    expected = {
        "B7": "main_journal 1 found 84.929 mm",
        "F7": "rod_journal 1 found 63.929 mm",
        "G10": "rod_journal 4 machined 63.488 mm",
    }
    check_told(tmp_path, rows, expected)


def test_journals_in_a_list_whose_heads_say_nothing(tmp_path):
    rows = [
        ["Check", "Item", "Book", "Found", "Done"],
        [1, "Crank end float", "0.05 - 0.20", 0.12, "✓"],
        [2, "Crankpin 1", "32.982 - 33.000", 32.994, "✓"],
        [3, "Crankpin 2", "32.982 - 33.000", 32.990, "✓"],
        [4, "Main journal 1", "31.984 - 32.000", 31.993, "✓"],
        [5, "Main journal 2", "31.984 - 32.000", 31.991, "✓"],
    ]
    found = check_told(tmp_path, rows, {})
    assert [found[f"D{row}"].split()[:2] for row in (7, 10)] == [
        ["rod_journal", "1"],
        ["main_journal", "2"],
    ]


def test_valves_that_stand_back(tmp_path):
    rows = [["Zylinder", 1, 2], ["Einlassventil zurückstehend mm", 0.95, 0.91]]
    check_told(tmp_path, rows, {"B6": "intake_valve_recession 1 0.95 mm"})
