"""Notes of heads, camshafts and what goes with them: titles, sides, valves and rings in words."""

from pathlib import Path

from small_sheet import check_told


def test_rows_that_say_which_side_measure_what_their_title_says(tmp_path: Path) -> None:
    rows = [
        ["Stem to guide, rocked and halved"],
        ["", "No.1", "No.2"],
        ["Inlet", 0.04, 0.05],
        ["Exhaust", 0.06, 0.05],
    ]
    expected = {
        "B7": "intake_stem_clearance 1 0.04 mm",
        "C8": "exhaust_stem_clearance 2 0.05 mm",
    }
    check_told(tmp_path, rows, expected)


def test_sides_written_out_count_with_their_numbers(tmp_path: Path) -> None:
    rows = [
        ["Führungen", "Schaft Ø", "Führung Ø", "Spiel"],
        ["Einlass Zyl. 1", 6.97, 7.01, 0.04],
        ["Auslass Zyl. 1", 6.95, 7.01, 0.06],
    ]
    expected = {
        "B6": "intake_stem_diameter 1 6.97 mm",
        "D7": "exhaust_stem_clearance 1 0.06 mm",
    }
    check_told(tmp_path, rows, expected)


def test_letters_of_valves_are_in_the_language_of_the_heads_over_them(tmp_path: Path) -> None:
    rows = [
        ["Guides", "Alésage guide", "Ø queue", "Jeu"],
        ["A1", 7.02, 6.98, 0.04],
        ["E1", 7.03, 6.97, 0.06],
        ["A2", 7.02, 6.98, 0.04],
        ["E2", 7.02, 6.96, 0.06],
    ]
    expected = {"D6": "intake_stem_clearance 1 0.04 mm", "D9": "exhaust_stem_clearance 2 0.06 mm"}
    check_told(tmp_path, rows, expected)


def test_names_with_their_numbers_in_a_row_are_one_of_each(tmp_path: Path) -> None:
    rows = [["Compression, bar"], ["Cyl 1", 11.4, "Cyl 2", 11.6], ["Cyl 3", 11.5, "Cyl 4", 11.2]]
    expected = {
        "B6": "cranking_pressure 1 1140 kPa",
        "D6": "cranking_pressure 2 1160 kPa",
        "D7": "cranking_pressure 4 1120 kPa",
    }
    check_told(tmp_path, rows, expected)


def test_heads_over_unmerged_columns_say_the_side_of_all(tmp_path: Path) -> None:
    rows = [
        ["Valve seats", "Intake", "", "Exhaust", ""],
        ["Cyl", "seat width", "head dia", "seat width", "head dia"],
        [1, 1.4, 39.5, 1.7, 33.0],
        [2, 1.5, 39.5, 1.7, 33.0],
    ]
    expected = {
        "B7": "intake_seat_width 1 1.4 mm",
        "C7": "intake_valve_head_diameter 1 39.5 mm",
        "D8": "exhaust_seat_width 2 1.7 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_head_again_behind_each_side_is_of_that_side(tmp_path: Path) -> None:
    rows = [
        ["Cyl", "Int inst ht", "shim", "Exh inst ht", "shim"],
        [1, 1.812, 0.015, 1.809, 0.03],
        [2, 1.810, 0.015, 1.811, 0.03],
        [3, 1.811, 0.03, 1.810, 0.045],
    ]
    expected = {"C6": "intake_spring_shim 1 0.015 in", "E6": "exhaust_spring_shim 1 0.03 in"}
    check_told(tmp_path, rows, expected)


def test_rows_in_firing_order_count(tmp_path: Path) -> None:
    rows = [["Cyl", "Cranking psi"], [1, 164], [3, 166], [4, 165], [2, 163]]
    check_told(
        tmp_path,
        rows,
        {"B7": "cranking_pressure 3 166 psi", "B9": "cranking_pressure 2 163 psi"},
    )


def test_pistons_in_rows_below_rings_say_whose_they_are(tmp_path: Path) -> None:
    rows = [
        ["Stoßspiel Kolbenringe", "1. Nut", "2. Nut", "Ölabstreifer"],
        ["Kolben 1", 0.31, 0.36, 0.26],
        ["Kolben 2", 0.32, 0.37, 0.3],
    ]
    expected = {
        "B6": "top_ring_gap 1 0.31 mm",
        "C7": "second_ring_gap 2 0.37 mm",
        "D6": "oil_ring_gap 1 0.26 mm",
    }
    check_told(tmp_path, rows, expected)


def test_bearings_below_a_title_of_the_camshaft_are_its_own(tmp_path: Path) -> None:
    rows = [
        ["Cam journals"],
        ["Jnl no.", "Bearing ID", "Journal OD"],
        [1, 27.021, 26.965],
        [2, 27.02, 26.964],
        [3, 27.023, 26.965],
    ]
    expected = {"B7": "cam_bearing_bore 1 27.021 mm", "C9": "cam_journal 3 26.965 mm"}
    check_told(tmp_path, rows, expected)


def test_newton_meters_beside_the_speed_are_of_the_engine(tmp_path: Path) -> None:
    rows = [["Banco"], ["RPM", "CV", "Nm"], [2500, 48, 135], [3500, 72, 144], [4500, 90, 141]]
    expected = {"B7": "power 35.3039 kW", "C7": "engine_torque 135 N.m"}
    check_told(tmp_path, rows, expected)


def test_hundredths_in_words_are_the_unit(tmp_path: Path) -> None:
    rows = [
        ["Tappet gaps, hundredths of a mm"],
        ["Cyl no", "In", "Ex"],
        [1, 20, 30],
        [2, 20, 31],
        [3, 19, 30],
    ]
    expected = {"B7": "intake_lash 1 0.2 mm", "C8": "exhaust_lash 2 0.31 mm"}
    check_told(tmp_path, rows, expected)


def test_parts_over_columns_are_what_the_rows_measure(tmp_path: Path) -> None:
    rows = [
        ["", "Block", "Kopf"],
        ["Höhe Eingang", 221.08, 119.62],
        ["abgenommen", 0.1, 0.15],
    ]
    expected = {"B6": "deck_height found 221.08 mm", "C7": "head_cut 0.15 mm"}
    check_told(tmp_path, rows, expected)


def test_a_title_in_a_later_clause_says_what_is_measured(tmp_path: Path) -> None:
    rows = [
        ["Zylinderkopf eines Schleppers 2 Zyl., Ventilrückstand nach Sitzbearbeitung"],
        ["", "EV", "AV"],
        ["Zyl. 1", 0.96, 1.07],
        ["Zyl. 2", 0.95, 1.05],
    ]
    expected = {
        "B7": "intake_valve_recession 1 final 0.96 mm",
        "C8": "exhaust_valve_recession 2 final 1.05 mm",
    }
    check_told(tmp_path, rows, expected)


def test_places_across_bores_in_short(tmp_path: Path) -> None:
    rows = [
        ["Canne usate"],
        ["Cil.", "Alto trasv.", "Alto long.", "Basso trasv."],
        [1, 81.09, 81.06, 81.03],
        [2, 81.11, 81.07, 81.03],
    ]
    expected = {
        "B7": "bore 1 top thrust found 81.09 mm",
        "C8": "bore 2 top parallel found 81.07 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_title_holds_for_the_same_heads_beside_it(tmp_path: Path) -> None:
    rows = [
        ["Valve lash cold"],
        ["L bank", "Int", "Exh", "", "R bank", "Int", "Exh"],
        [1, 0.011, 0.013, "", 1, 0.011, 0.013],
        [2, 0.01, 0.013, "", 2, 0.012, 0.013],
        [3, 0.011, 0.012, "", 3, 0.011, 0.012],
    ]
    rows = [[cell or None for cell in row] for row in rows]
    expected = {"B7": "intake_lash L1 0.011 in", "G8": "exhaust_lash R2 0.013 in"}
    check_told(tmp_path, rows, expected)


def test_readings_that_happen_to_be_a_firing_order_do_not_count(tmp_path: Path) -> None:
    rows = [["Cyl", 1, 2, 3, 4], ["Leak %", 1, 3, 4, 2], ["Cranking psi", 164, 166, 165, 163]]
    check_told(tmp_path, rows, {"C6": "leakage 2 3", "C7": "cranking_pressure 2 166 psi"})
