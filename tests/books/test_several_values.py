"""Cells that hold several sizes, each with its own name in the label.

How shops write such cells is common practice, no source.
"""

from __future__ import annotations

import pytest
from small_sheet import all_told

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.several_sizes import several_sizes
from workbook_tools.labels.several_values import names_of


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("4.030 x 3.75", ["4.030", "3.75"]),
        ("86 x 78,4 mm", ["86 mm", "78,4 mm"]),
        ('4.030" x 3.750"', ['4.030 "', '3.750 "']),
        (".010/.012", [".010", ".012"]),
        ("248 / 254", ["248", "254"]),
        ("65/45 ft-lb", ["65 ft-lb", "45 ft-lb"]),
        ("Ø86 × 78.4", ["86", "78.4"]),
        (".018/.020/.015", [".018", ".020", ".015"]),
        # Which ones, fractions and dates hold no sizes.
        ("1/2", []),
        ("7/16", []),
        ("1-7/8", []),
        ("3 & 4", []),
        ("11/32", []),
        ("4.030", []),
        ("std/.010", []),
    ],
)
def test_sizes_beside_each_other_in_one_text(text, sizes):
    assert several_sizes(text) == sizes


@pytest.mark.parametrize(
    ("label", "count", "names"),
    [
        ("Bore x stroke", 2, ("Bore", "stroke")),
        ("Bohrung x Hub", 2, ("Bohrung", "Hub")),
        ("Alésage x course", 2, ("Alésage", "course")),
        ("Alesaggio per corsa", 2, ("Alesaggio", "corsa")),
        ("Main / rod clearance", 2, ("Main clearance", "rod clearance")),
        ("Ring gaps top/2nd", 2, ("Ring gaps top", "Ring gaps 2nd")),
        ("Valve lash in/ex", 2, ("Valve lash intake", "Valve lash exhaust")),
        ("Ventilspiel E/A", 2, ("Ventilspiel intake", "Ventilspiel exhaust")),
        ("Lash", 2, ()),
        ("Bore x stroke", 3, ()),
        ("Nuts / bolts", 2, ()),
    ],
)
def test_the_names_that_a_label_joins(label, count, names):
    assert names_of(label, count) == names


def test_each_size_is_read_by_its_own_name(make_book):
    rows = [
        ["Job", "1204", "Engine", "V8"],
        ["Bore x stroke (in)", "4.030 x 3.75"],
        ["Valve lash in/ex (in)", ".010/.012"],
        ["Main / rod clearance (in)", ".0025 / .0022"],
        ["Torque mains/rods", "65/45 ft-lb"],
    ]
    (book,) = read_jobs(make_book({"S": rows}))
    told = {r.measurand: (r.place.address, r.value, r.state) for r in book.readings}
    assert told == {
        "bore": ("B2", 4.03, "read"),
        "stroke": ("B2", 3.75, "read"),
        "intake_lash": ("B3", 0.01, "read"),
        "exhaust_lash": ("B3", 0.012, "read"),
        "main_bearing_clearance": ("B4", 0.0025, "read"),
        "rod_bearing_clearance": ("B4", 0.0022, "read"),
        "main_bolt_torque": ("B5", 65, "read"),
        "rod_bolt_torque": ("B5", 45, "read"),
    }


def test_the_same_in_the_columns_of_a_list(make_book):
    rows = [["Cyl", "Bore x stroke (mm)"], [1, "86 x 78.4"], [2, "84 x 88"]]
    (book,) = read_jobs(make_book({"S": [["Job", "7"], [], *rows]}))
    told = [(r.measurand, r.value) for r in book.readings]
    assert sorted(told) == [("bore", 84), ("bore", 86), ("stroke", 78.4), ("stroke", 88)]


def test_names_in_the_cell_join_its_label(tmp_path):
    rows = [
        ["Bore", "4.0310 in"],
        ["Valve lash", "in .010 ex .012"],
        ["Ring gaps", "top .018 2nd .020"],
        ["Valve to piston (in)", "int .095 exh .120"],
        ["Piston to valve (in)", ".095 IN .120 EX"],
        ["Spring loads", "130 seat / 340 open"],
        ["Head bolts", "torqued in 3 steps"],
    ]
    expected = {
        "B6": ["intake_lash 0.01 in", "exhaust_lash 0.012 in"],
        "B7": ["top_ring_gap 0.018 in", "second_ring_gap 0.02 in"],
        "B8": ["intake_valve_to_piston 0.095 in", "exhaust_valve_to_piston 0.12 in"],
        "B9": ["intake_valve_to_piston 0.095 in", "exhaust_valve_to_piston 0.12 in"],
        "B10": ["spring_seat_load 130 lbf", "spring_open_load 340 lbf"],
        "B11": [],
    }
    assert {at: all_told(tmp_path, rows).get(at, []) for at in expected} == expected


def test_letters_of_sides_before_their_sizes(tmp_path):
    rows = [["Bohrung (mm)", "81,01"], ["Ventilspiel", "E 0,15 A 0,20"]]
    assert all_told(tmp_path, rows)["B6"] == ["intake_lash 0.15 mm", "exhaust_lash 0.2 mm"]


def test_capitals_for_an_event_are_no_word_between(tmp_path):
    rows = [["Nockenwelle", "EÖ 5° v OT, ES 47° n UT"]]
    assert all_told(tmp_path, rows)["B5"] == ["intake_opening 5 deg", "intake_closing 47 deg"]
