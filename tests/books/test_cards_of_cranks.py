"""A crank's card: journals at both ends and across, found and ground, with how far from round."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_ends_over_counted_journals_are_places_on_each(tmp_path: Path) -> None:
    """Front and rear over M1 M2 M3 number nothing, and o/r is out of round."""
    rows: Rows = [
        [None, "AS RECEIVED", None, None, "GROUND front end", None, "GROUND rear end"],
        ["Jrnl", "vert", "horiz", "o/r", "vert", "horiz", "vert", "horiz"],
        ["M1", 2.4544, 2.455, "=ABS(B7-C7)", 2.4454, 2.4454, 2.4453, 2.4454],
        ["M2", 2.4541, 2.455, "=ABS(B8-C8)", 2.4455, 2.4454, 2.4454, 2.4454],
        ["M3", 2.4541, 2.4547, "=ABS(B9-C9)", 2.4454, 2.4455, 2.4454, 2.4455],
        [],
        ["P1", 2.0421, 2.0423, "=ABS(B11-C11)", 2.0333, 2.0334, 2.0333, 2.0333],
        ["P2", 2.0421, 2.0427, "=ABS(B12-C12)", 2.0334, 2.0333, 2.0334, 2.0334],
    ]
    # common practice, no source
    expected = {
        "B8": "main_journal 2 vertical found 2.4541 in",
        "D8": "result: main_journal_out_of_round",
        "E8": "main_journal 2 front vertical machined 2.4455 in",
        "G7": "main_journal 1 rear vertical machined 2.4453 in",
        "H12": "rod_journal 2 rear horizontal machined 2.0334 in",
    }
    check_told(tmp_path, rows, expected)


def test_a_standard_size_stands_behind_a_title(tmp_path: Path) -> None:
    """Mains and rods side by side, each below its name with the size of new ones."""
    rows: Rows = [
        ["MAINS std 2.8750", None, None, None, None, "RODS std 2.2490"],
        ["Jrnl", "Polished", "Brg ID", "Oil clr", None, "Jrnl", "Polished", "Brg ID", "Oil clr"],
        [1, 2.8742, 2.8778, 0.0036, None, 1, 2.2482, 2.2514, 0.0032],
        [2, 2.8741, 2.8778, 0.0037, None, 2, 2.2483, 2.2513, 0.003],
        [3, 2.8742, 2.878, 0.0038, None, 3, 2.2483, 2.2513, 0.003],
        [4, 2.874, 2.8779, 0.0039],
    ]
    # common practice, no source
    expected = {
        "A5": "main_journal target 2.875 in",
        "B8": "main_journal 2 machined 2.8741 in",
        "D8": "main_bearing_clearance 2 0.0037 in",
        "G8": "rod_journal 2 machined 2.2483 in",
        "I8": "rod_bearing_clearance 2 0.003 in",
    }
    check_told(tmp_path, rows, expected, title="Crank")


def test_big_ends_that_a_grinder_made_smaller_are_crankpins(tmp_path: Path) -> None:
    """What is found and ground a step smaller is no hole; a big end honed anew is one."""
    rows: Rows = [
        ["Big ends, inches"], ["No", "found", "ground -20", "shell in rod"],
        [1, 2.0486, 2.0291, 2.0313], [2, 2.0483, 2.0293, 2.0314], [],
        ["Big ends"], ["No", "found", "resized"], [1, 2.1756, 2.1752], [2, 2.1757, 2.1752],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "rod_journal 1 found 2.0486 in",
        "C8": "rod_journal 2 machined 2.0293 in",
        "D8": "rod_bearing_bore 2 2.0314 in",
        "B12": "rod_housing_bore 1 found 2.1756 in",
    }
    check_told(tmp_path, rows, expected)


def test_big_ends_across_that_became_smaller_are_crankpins(tmp_path: Path) -> None:
    """The same with found and ground in rows."""
    rows: Rows = [
        ["Big ends (in)"], ["", 1, 2, 3, 4],
        ["Found", 2.0998, 2.0997, 2.0998, 2.0997], ["Ground", 2.0892, 2.0893, 2.0892, 2.0891],
    ]  # fmt: skip
    # common practice, no source
    expected = {"B7": "rod_journal 1 found 2.0998 in", "E8": "rod_journal 4 machined 2.0891 in"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "found", "ground"),
    [("Pleuellager", "vorgefunden", "geschliffen"), ("Têtes de bielle", "trouvé", "rectifié")],
)
def test_bearings_that_were_ground_smaller_are_journals(
    tmp_path: Path, title: str, found: str, ground: str
) -> None:
    """In other words for the same."""
    rows: Rows = [[title], ["N°", found, ground], [1, 54.98, 54.48], [2, 54.97, 54.48]]
    # common practice, no source
    expected = {"B7": "rod_journal 1 found 54.98 mm", "C8": "rod_journal 2 machined 54.48 mm"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "names",
    [
        ("Vorderes Hauptlager Zapfen", "Mittleres Hauptlager Zapfen", "Hinteres Hauptlager Zapfen"),
        ("Palier avant", "Palier central", "Palier arrière"),
    ],
)
def test_three_mains_by_their_names(tmp_path: Path, names: tuple[str, ...]) -> None:
    """As a form in another language calls them."""
    rows: Rows = [[name, 54.985 - n / 1000, "mm"] for n, name in enumerate(names)]
    # common practice, no source
    expected = {"B6": "main_journal 2 54.984 mm", "B7": "main_journal 3 54.983 mm"}
    check_told(tmp_path, rows, expected)


def test_the_center_of_three_mains_is_the_second(tmp_path: Path) -> None:
    """A form with a line for each: front, center and rear."""
    rows: Rows = [
        ["Front main journal", '1.9737"', None, "Front main bearing, line bored", '1.9760"'],
        ["Running clearance, front", "2.3 thou"],
        ["Centre main journal", '1.9736"', None, "Centre main bearing, line bored", '1.9758"'],
        ["Running clearance, centre", "2.2 thou"],
        ["Rear main journal", '1.9736"', None, "Rear main bearing, line bored", '1.9758"'],
        ["Running clearance, rear", "2.2 thou"],
    ]
    # common practice, no source
    expected = {
        "B5": "main_journal 1 1.9737 in",
        "B7": "main_journal 2 1.9736 in",
        "E9": "main_bearing_bore 3 final 1.9758 in",
        "B8": "main_bearing_clearance 2 0.0022 in",
    }
    check_told(tmp_path, rows, expected)


def test_a_poured_big_end_fits_its_pin(tmp_path: Path) -> None:
    """With no room for a shell what is bored is the bearing itself."""
    rows: Rows = [
        ["Crankpin No. 1", '1.6483"', None, "Big end No. 1, bored", '1.6500"'],
        ["Crankpin No. 2", '1.6483"', None, "Big end No. 2, bored", '1.6502"'],
    ]
    # common practice, no source
    check_told(tmp_path, rows, {"E6": "rod_bearing_bore 2 machined 1.6502 in"})


@pytest.mark.parametrize(("first", "second"), [("1-2", "3-4"), ("#1-#2", "#3-#4")])
def test_pairs_below_a_title_are_of_rods_on_one_throw(
    tmp_path: Path, first: str, second: str
) -> None:
    """Below a table of the rods, whose heads do not hold for them."""
    rows: Rows = [
        ["rod", "brg I.D.", "pin"], [1, 2.0115, 2.009], [2, 2.0115, 2.0091], [3, 2.0114, 2.009],
        [4, 2.0115, 2.009], [], ["Side clr per pair"], [first, 0.014], [second, 0.015],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B12": "rod_side_clearance 1-2 0.014 in",
        "B13": "rod_side_clearance 3-4 0.015 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("one", "other", "second"), [("A", "B", "B"), ("vert", "horiz", "horizontal")]
)
def test_ways_across_counted_journals_are_places(
    tmp_path: Path, one: str, other: str, second: str
) -> None:
    """A card that says no more than which journal and which way."""
    rows: Rows = [
        ["Jrnl", one, other, "o/r"], ["M1", 2.4544, 2.455, 0.0006], ["M2", 2.4541, 2.455, 0.0009],
        ["M3", 2.4541, 2.4547, 0.0006], ["P1", 2.0541, 2.0547, 0.0006],
        ["P2", 2.0541, 2.0547, 0.0006],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C7": f"main_journal 2 {second} 2.455 in",
        "C10": f"rod_journal 2 {second} 2.0547 in",
        "D8": "main_journal_out_of_round 3 0.0006 in",
    }
    check_told(tmp_path, rows, expected)


def test_left_and_right_of_a_main_are_no_banks(tmp_path: Path) -> None:
    """The line bore is measured at three angles."""
    rows: Rows = [
        ["LINE BORE", "found", "vert", "45 left", "45 right"],
        ["M1", 2.6526, 2.6528, 2.6527, 2.6528], ["M2", 2.6541, 2.6527, 2.6527, 2.6529],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "D6": "main_housing_bore 1 left 2.6527 in",
        "E7": "main_housing_bore 2 right 2.6529 in",
    }
    check_told(tmp_path, rows, expected)


def test_numbered_pins_below_the_title_of_a_crank_are_its_own(tmp_path: Path) -> None:
    """No pistons stand there."""
    rows: Rows = [
        ["CRANKSHAFT - ground"], ["Journal", 1, 2, 3], ["Main", 1.9799, 1.9800, 1.9799],
        ["Clearance", 0.0021, 0.0020, 0.0022], ["Pin", 1, 2, 3, 4],
        ["Clearance", 0.0018, 0.0017, 0.0018, 0.0018],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"C10": "rod_bearing_clearance 2 machined 0.0017 in"})


def test_v_and_h_behind_one_name_are_two_ways_across(tmp_path: Path) -> None:
    """Where no V stands beside it an H may be a height."""
    rows: Rows = [
        ["Rod", "BE bore V", "BE bore H"], [1, 54.006, 54.009], [2, 54.007, 54.008],
        [3, 54.006, 54.008],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B6": "rod_housing_bore 1 vertical 54.006 mm",
        "C7": "rod_housing_bore 2 horizontal 54.008 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_bare_clearance_on_the_card_is_of_the_bearings_that_it_is_worked_out_from(
    tmp_path: Path,
) -> None:
    """ "Running clearance" below "Crank" is a main's, and a big end's behind its sizes."""
    rows: Rows = [
        ["CRANK", "No 1 (LH)", "No 2 (RH)"], ["Big end journal ground -20", 1.6036, 1.6035],
        ["Shell bore, nipped up", 1.6051, 1.6052], ["Running clearance", "1.5 thou", "1.7 thou"],
        [], ["CRANK", 1, 2, 3], ["Main journal", 2.2491, 2.2492, 2.249],
        ["Main bearing bore", 2.251, 2.2511, 2.251], ["Clearance", 0.0019, 0.0019, 0.002],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B8": "rod_bearing_clearance 1 0.0015 in", "C8": "rod_bearing_clearance 2 0.0017 in",
        "D13": "main_bearing_clearance 3 0.002 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)
