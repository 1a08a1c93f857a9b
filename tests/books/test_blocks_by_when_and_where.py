"""What a block measures where its heads only say when, where or of which bank.

Invented sheets; how such blocks are kept is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

from books.small_sheet import Rows, check_told


def test_a_block_that_came_in_and_left_is_bored(tmp_path: Path) -> None:
    rows: Rows = [
        ["BLOQUE (mm) a 0.50"], ["CIL", "ENTRA", "SALE", "PISTON"],
        [1, 74.09, 74.505, 74.463], [2, 74.08, 74.505, 74.46], [3, 74.08, 74.5, 74.459],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 found 74.09 mm", "C9": "bore 3 final 74.5 mm",
        "D8": "piston_diameter 2 74.46 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_wear_that_was_measured_along_and_across_is_of_bores(tmp_path: Path) -> None:
    rows: Rows = [
        ["USURE RELEVÉE (chemises démontées, mm)"],
        ["Cyl", "Haut long.", "Haut trav.", "Bas long.", "Bas trav."],
        [1, 102.14, 102.17, 102.04, 102.05], [2, 102.14, 102.16, 102.05, 102.04],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 top parallel found 102.14 mm", "E8": "bore 2 bottom thrust found 102.04 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_corner_says_that_all_was_found_so(tmp_path: Path) -> None:
    rows: Rows = [
        ["Barn find, flathead four, as it came", "1 (fan)", 2, 3, "4 (flywheel)"],
        ["Bore top (in)", 3.192, 3.196, 3.197, 3.19],
        ["Bore bot. (in)", 3.187, 3.188, 3.188, 3.187],
    ]  # fmt: skip
    expected = {"B6": "bore 1 top found 3.192 in", "E7": "bore 4 bottom found 3.187 in"}
    check_told(tmp_path, rows, expected)


def test_a_title_keeps_its_clause_that_says_when_and_drops_power_and_codes(tmp_path: Path) -> None:
    rows: Rows = [
        ["Standmotor 6 PS, Zylinder liegend, ausgelaufen (mm)"],
        ["Messung", "senkrecht", "waagrecht"], ["Bohrung", 130.42, 130.31], [],
        ["Crank R-4471, mm"], [None, "Worn", None, "Ground"],
        [None, "vert", "horiz", "vert", "horiz"],
        ["Main 1", 64.975, 64.977, 64.732, 64.732], ["Main 2", 64.96, 64.968, 64.729, 64.729],
    ]  # fmt: skip
    expected = {
        "B7": "bore vertical found 130.42 mm", "B12": "main_journal 1 vertical found 64.975 mm",
        "E13": "main_journal 2 horizontal machined 64.729 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_left_and_right_heads_are_banks_of_chambers(tmp_path: Path) -> None:
    rows: Rows = [
        ["Chambers cc'd"], ["Left head", None, "Right head", None],
        [1, 64.2, 2, 64.0], [3, 64.1, 4, 64.3], [5, 64.0, 6, 64.1],
    ]  # fmt: skip
    check_told(tmp_path, rows, {"B7": "chamber_volume 1 64.2 cc", "D9": "chamber_volume 6 64.1 cc"})


def test_a_head_alone_below_a_volume_has_one(tmp_path: Path) -> None:
    rows: Rows = [
        ["Brennraum ausgelitert, ccm"], ["Zyl.", "Kopf", "Kolbenmulde"],
        [1, 38.4, 6.2], [2, 38.5, 6.2], [3, 38.4, 6.3],
    ]  # fmt: skip
    expected = {"B7": "chamber_volume 1 final 38.4 cc", "C9": "dish_volume 3 final 6.3 cc"}
    check_told(tmp_path, rows, expected)


def test_a_price_numbers_nothing(tmp_path: Path) -> None:
    rows: Rows = [
        ["Rod", "big end (in)", "pin bush (in)", "fee"],
        [1, 2.2249, 0.9274, "$28"], [2, 2.2251, 0.9275, "$28"], [3, 2.225, 0.9274, "$28"],
    ]  # fmt: skip
    expected = {"B7": "rod_housing_bore 2 2.2251 in", "C8": "small_end_bore 3 0.9274 in"}
    check_told(tmp_path, rows, expected)


def test_sides_alone_below_a_title_of_valves_are_no_lash(tmp_path: Path) -> None:
    rows: Rows = [
        ["Ventilrückstand, Grenze 1,5"], ["Zyl", 1, 2, 3], ["EV", 0.8, 0.9, 0.8],
        ["AV", 1.0, 1.0, 1.6], [],
        ["Incasso valvole dal piano testa"],
        ["asp. cil. 1", 0.7, "mm"], ["scar. cil. 1", 0.85, "mm"],
    ]  # fmt: skip
    expected = {
        "B7": "intake_valve_recession 1 0.8 mm", "D8": "exhaust_valve_recession 3 1.6 mm",
        "B11": "intake_valve_recession 1 0.7 mm", "B12": "exhaust_valve_recession 1 0.85 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_tenths_over_a_size_with_a_remark_behind_it(tmp_path: Path) -> None:
    rows: Rows = [
        ['BORES   4.155 + (tenths)    read .5" down / mid / 4.5" down'],
        ["cyl", "top", "mid", "bot", "pstn size"], [1, 4, 3, 2, 4.1492], [3, 4, 2, 2, 4.1492],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 top 4.1554 in", "D8": "bore 3 bottom 4.1552 in",
        "E7": "piston_diameter 1 4.1492 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_out_of_round_in_three_letters(tmp_path: Path) -> None:
    rows: Rows = [
        [None, "as rec'd", "ground", "o-o-r"], ["M1", 2.4988, 2.4894, 0.0002],
        ["M2", 2.4978, 2.4891, 0.0001],
    ]  # fmt: skip
    expected = {
        "B6": "main_journal 1 found 2.4988 in", "D7": "main_journal_out_of_round 2 0.0001 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_lash_counts_no_valves_and_what_holds_for_all_is_no_title(tmp_path: Path) -> None:
    rows: Rows = [
        ["All mm and cc unless noted."], ["Gasket hole", 90.5], [],
        [None, "Inlet", "Exhaust"], ["Tappets, cold (thou)", 2, 4],
        ["Valve stem, 1 (in)", 0.3098, 0.3095],
    ]  # fmt: skip
    expected = {
        "B6": "gasket_bore 90.5 mm", "C9": "exhaust_lash 0.004 in",
        "B10": "intake_stem_diameter 1 0.3098 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_the_pin_of_a_rod_on_a_crankshafts_card(tmp_path: Path) -> None:
    rows: Rows = [
        ["CRANKSHAFT, polished only (in inches)"], ["Rod", "Pin dia", "Brg inside", "Oil clr"],
        [1, 1.999, 2.001, "=C7-B7"], [2, 1.9989, 2.0011, "=C8-B8"],
    ]  # fmt: skip
    check_told(
        tmp_path,
        rows,
        {"B7": "rod_journal 1 machined 1.999 in", "C7": "rod_bearing_bore 1 machined 2.001 in"},
    )


def test_a_pressure_below_a_head_says_how_it_was_tested(tmp_path: Path) -> None:
    rows: Rows = [
        ["Hole #", "Bore top", "Top gap", "Leakdown %"], [None, "in", "thou", "@100 psi"],
        [1, 3.9064, 18, 7], [2, 3.9063, 18, 4], [3, 3.9064, 17, 5],
    ]  # fmt: skip
    check_told(tmp_path, rows, {"D7": "leakage 1 7", "C8": "top_ring_gap 2 0.018 in"})


def test_a_note_explains_a_short_unit(tmp_path: Path) -> None:
    rows: Rows = [
        ["Cotes en mm sauf indication ; c = centièmes"], [],
        ["Cyl.", "Chemise neuve", "Piston jupe", "Jeu (c)", "Dépass. chemise (c)"],
        [1, 98.015, 97.899, 11.6, 6], [2, 98.015, 97.892, 12.3, 7], [3, 98.015, 97.892, 12.3, 6],
    ]  # fmt: skip
    expected = {"D8": "piston_clearance 1 0.116 mm", "E9": "liner_protrusion 2 0.07 mm"}
    check_told(tmp_path, rows, expected)


def test_ranges_in_words_below_a_table_are_its_limits(tmp_path: Path) -> None:
    rows: Rows = [
        ["c = centièmes"], [],
        ["Cyl.", "Chemise usée", "Chemise neuve", "Piston jupe", "Jeu (c)", "Dépass. chemise (c)",
         "Coupe feu"],
        [1, 98.1, 98.015, 97.899, 11.6, 6, 0.4], [2, 98.2, 98.015, 97.892, 12.3, 7, 0.42],
        ["Tolér.", None, None, None, "10 à 13", "3 à 10", "0,35-0,55"],
    ]  # fmt: skip
    found = check_told(tmp_path, rows, {"F9": "liner_protrusion 2 0.07 mm"})
    assert "lash" not in " ".join(found.values())
    assert found["F10"].startswith("refused: liner_protrusion")


def test_a_unit_over_numbers_that_measure_nothing_known(tmp_path: Path) -> None:
    rows: Rows = [["Qwzx (thou)"], ["Vfrt", 12, 14], ["Plmk", 3, 4]]
    check_told(tmp_path, rows, {})
