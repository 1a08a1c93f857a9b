"""A crank's card: journals at both ends and across, found and ground, with how far from round."""

from __future__ import annotations

from pathlib import Path

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
