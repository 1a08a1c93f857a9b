"""Two build books as the invented shop "Quillfeather Engine Room" would hand them in.

    python example_books/fill_build_books.py

Both are started empty, filled at their named cells, calculated and saved by LibreOffice with
the add-in, and given the functions as names again, which LibreOffice damages. The readings
are made up; `entries` gives plausible ones for any build book.
"""

from __future__ import annotations

import datetime
import re
import sys
import tempfile
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

import openpyxl

from workbook_tools.buildbook import Field, Plan, fields, new_book, plan_for
from workbook_tools.hosts.libreoffice import fresh_profile, recalculate
from workbook_tools.hosts.portable import portable

HERE = Path(__file__).parent
# The last digit of a reading moves a little from one cylinder to the next.
SCATTER = (0, 1, -1, 0, 1, -1, 1, 0, -1, 1, 0, -1, 1, 0, -1, 0, 1)
SPEEDS = (2500, 3000, 3500, 4000, 4500, 5000, 5500, 5800, 6100, 6400)
HEIGHTS = {"top": 2, "middle": 1, "bottom": 1, "front end": 1, "rear end": 0}

Value = object
Values = Mapping[tuple[str, str], Value]


def near(base: float, step: float, digits: int = 4) -> Callable[[int], float]:
    """Readings round a size, one step up or down from cylinder to cylinder."""
    return lambda i: round(base + step * SCATTER[i % len(SCATTER)], digits)


def band(low: float, high: float, origin: str = "the maker's card") -> tuple[float, float, str]:
    """A band that somebody typed."""
    return low, high, origin


PARTS = {
    "Block": ("QF-100", 1, "customer", "reworked"), "Crankshaft": ("QF-210", 1, "shop", "new"),
    "Connecting rods": ("QF-220", 0, "shop", "new"), "Pistons": ("QF-300", 0, "shop", "new"),
    "Ring set": ("QF-310", 1, "shop", "new"), "Main bearing shells": ("QF-410", 1, "shop", "new"),
    "Rod bearing shells": ("QF-420", 1, "shop", "new"), "Camshaft": ("QF-500", 1, "shop", "new"),
    "Valve springs": ("QF-520", 0, "shop", "new"), "Head gasket": ("QF-600", 1, "shop", "new"),
    "Cylinder head": ("QF-510", 1, "customer", "reworked"),
    "Oil pump": ("QF-700", 1, "shop", "new"),
}  # fmt: skip


def _size(marked: float, measured: float, least: float, most: float) -> dict[str, float]:
    return {"Size marked": marked, "Size measured": measured, "Least": least, "Most": most}


SIZES = {
    "inch": {
        "Pistons": _size(4.0270, 4.0269, 4.0265, 4.0275),
        "Main bearing shells": _size(0.0947, 0.0947, 0.0945, 0.0949),
        "Rod bearing shells": _size(0.0613, 0.0613, 0.0611, 0.0615),
        "Head gasket": _size(0.0360, 0.0362, 0.0350, 0.0370),
    },
    "metric": {
        "Pistons": _size(82.460, 82.460, 82.450, 82.470),
        "Main bearing shells": _size(2.002, 2.002, 1.998, 2.006),
        "Rod bearing shells": _size(1.539, 1.539, 1.535, 1.543),
        "Head gasket": _size(0.80, 0.80, 0.78, 0.83),
    },
}

# Fasteners: thread, how many, lubricant, steps, angle; in the order of the sheet.
FASTENERS = {
    "inch": {
        "Main caps": ("1/2-13 x 3.6", 10, "engine oil", 30, 50, 70, 0),
        "Main caps, side bolts": ("3/8-16 x 1.5", 10, "engine oil", 15, 25, 30, 0),
        "Rod caps": ("7/16-20 x 1.6", 16, "bolt maker's paste", 25, 45, 0, 0),
        "Cam retainer": ("1/4-20 x 0.75", 2, "threadlocker", 9, 0, 0, 0),
        "Cam sprocket": ("5/16-18 x 0.8", 3, "threadlocker", 15, 20, 0, 0),
        "Oil pump": ("7/16-14 x 2.5", 1, "engine oil", 40, 65, 0, 0),
        "Cylinder head": ("7/16-14 x 3.9", 34, "sealer on thread", 25, 45, 65, 0),
        "Damper": ("7/16-20 x 2.2", 1, "engine oil", 40, 70, 0, 0),
    },
    "metric": {
        "Main caps": ("M10x1.25 x 80", 10, "engine oil", 25, 45, 60, 0),
        "Rod caps": ("M9x1 x 42", 8, "engine oil", 15, 30, 0, 60),
        "Cam sprocket": ("M10x1.25 x 30", 2, "dry", 40, 65, 0, 0),
        "Oil pump": ("M8 x 35", 4, "dry", 15, 24, 0, 0),
        "Cylinder head": ("M11x1.25 x 145", 10, "engine oil", 30, 50, 0, 90),
        "Rockers, cam caps": ("M7 x 40", 20, "engine oil", 6, 12, 14, 0),
        "Damper": ("M14x1.5 x 50", 1, "engine oil", 60, 120, 0, 0),
    },
}  # fmt: skip

# By (sheet, last part of a cell's name): a value, one for each cylinder, or a band.
INCH: Values = {
    ("Job", "Nominal finished bore"): 4.030, ("Job", "Stroke"): 3.480,
    ("Job", "Rod length, center to center"): 6.000, ("Job", "Compression height"): 1.245,
    ("Job", "Highest engine speed"): 6400, ("Job", "Room temperature for measuring"): 69,
    ("Block", "Bore, across the crank"): (4.0300, 0.0001),
    ("Block", "Bore, along the crank"): (4.0299, 0.0001),
    ("Block", "Taper"): band(0, 0.0006, "shop rule"),
    ("Block", "Out of round"): band(0, 0.0006, "shop rule"),
    ("Block", "Deck height, front intake side"): near(9.0005, 0.0002),
    ("Block", "Deck height, front exhaust side"): 9.0008,
    ("Block", "Deck height, rear intake side"): near(9.0010, 0.0002),
    ("Block", "Deck height, rear exhaust side"): 9.0004,
    ("Block", "Out of flat"): near(0.0010, 0.0002),
    ("Crank", "Main journal, first axis"): (2.4490, 0.0001),
    ("Crank", "Main journal, square to it"): (2.4489, 0.0001),
    ("Crank", "Rod journal, first axis"): (2.1000, 0.0001),
    ("Crank", "Rod journal, square to it"): (2.0999, 0.0001),
    ("Crank", "Run-out at the middle main"): 0.0007,
    ("Crank", "Stroke, smallest of all throws"): 3.480,
    ("Crank", "Stroke, largest of all throws"): 3.481,
    ("Rods", "Big end, in line with the beam"): near(2.2250, 0.0001),
    ("Rods", "Big end, 45 deg to one side"): 2.2252,
    ("Rods", "Big end, 45 deg to the other"): 2.2251, ("Rods", "Small end"): near(0.9278, 0.0001),
    ("Rods", "Width"): 0.940, ("Rods", "Length"): near(6.000, 0.001, 3),
    ("Rods", "Bend or twist"): near(0.0008, 0.0002),
    ("Pistons", "Use of the engine"): "street", ("Pistons", "Kind of piston"): "forged 4032",
    ("Pistons", "Height of the gauge point on the skirt"): 0.500,
    ("Pistons", "Piston skirt"): near(4.0269, 0.0001),
    ("Pistons", "Piston clearance"): band(0.0025, 0.0040),
    ("Pistons", "Pin bore"): near(0.9277, 0.0001),
    ("Pistons", "Pin"): 0.9271, ("Pistons", "Pin clearance"): band(0.0003, 0.0010),
    ("Pistons", "Compression height"): near(1.245, 0.001, 3),
    ("Heads", "Installed height wanted"): 1.900, ("Heads", "Open height"): 1.340,
    ("Heads", "Coil bind height, measured"): 1.220, ("Heads", "Intake valve lift"): 0.560,
    ("Heads", "Exhaust valve lift"): 0.565, ("Heads", "Load of one spring, installed"): 145,
    ("Heads", "Load of the same, open"): 370, ("Heads", "Spring rate"): band(380, 430),
    ("Heads", "guide"): near(0.3438, 0.0001), ("Heads", "Intake stem"): 0.3424,
    ("Heads", "Exhaust stem"): 0.3418,
    ("Heads", "installed height"): near(1.900, 0.002, 3), ("Heads", "seat load"): near(145, 2, 0),
    ("Heads", "open load"): near(370, 3, 0),
    ("Heads", "installed height|"): band(1.885, 1.915), ("Heads", "seat load|"): band(130, 160),
    ("Heads", "open load|"): band(350, 390), ("Heads", "Out of flat"): near(0.0012, 0.0003),
    ("Heads", "Thickness, front"): 5.120, ("Heads", "Thickness, rear"): 5.121,
    ("Mock-up", "Head gasket, compressed"): 0.036,
    ("Mock-up", "Deck, one side of the pin"): near(0.0062, 0.0004),
    ("Mock-up", "Deck, other side of the pin"): near(0.0058, 0.0004),
    ("Mock-up", "Deck clearance"): band(0.002, 0.010, "shop rule"),
    ("Mock-up", "Quench, cold"): band(0.036, 0.048, "shop rule, steel rods"),
    ("Mock-up", "Intake valve, axial"): near(0.112, 0.003, 3),
    ("Mock-up", "Exhaust valve, axial"): near(0.139, 0.003, 3),
    ("Mock-up", "Least radial"): near(0.072, 0.002, 3),
    ("Mock-up", "Side clearance, smallest"): near(0.0150, 0.0005),
    ("Mock-up", "Side clearance, largest"): near(0.0170, 0.0005),
    ("Mock-up", "Side clearance, smallest|"): band(0.010, 0.025, "the rod maker's card"),
    ("Mock-up", "Side clearance, largest|"): band(0.010, 0.025, "the rod maker's card"),
    ("Mock-up", "Crank end play, first reading"): 0.0058,
    ("Mock-up", "Crank end play, another place"): 0.0061,
    ("Mock-up", "Cam end play"): 0.0050, ("Mock-up", "Cam end play|"): band(0.002, 0.010),
    ("Mock-up", "Rod to cam or block, least"): 0.082,
    ("Mock-up", "Pushrod length, or shim over the valve"): 7.850,
    ("Volumes", "Gasket bore"): 4.100, ("Volumes", "Chamber"): near(64.0, 0.2, 1),
    ("Volumes", "Crown"): 6.0,
    ("Volumes", "Compression ratio"): band(9.8, 10.6, "premium fuel, agreed"),
    ("Volumes", "Chamber, spread"): band(0, 1.0, "shop rule"),
    ("Gasket", "Compressed thickness"): (0.027, 0.036, 0.040, 0.045, 0.051),
    ("Gasket", "Bore of the gasket"): 4.100,
    ("Gasket", "Gasket taken, number above"): 2,
    ("Bearings", "Use of the engine"): "street",
    ("Bearings", "Oil that the clearance is for"): "10W-30",
    ("Bearings", "Main housing bore"): near(2.6410, 0.0001),
    ("Bearings", "Main Upper shell wall"): 0.0947,
    ("Bearings", "Main Lower shell wall"): 0.0947, ("Bearings", "Rod Upper shell wall"): 0.0613,
    ("Bearings", "Rod Lower shell wall"): 0.0613,
    ("Bearings", "Main bearing clearance"): band(0.0018, 0.0032),
    ("Bearings", "Rod bearing clearance"): band(0.0016, 0.0030),
    ("Bearings", "Measured with the shells in"): near(0.0024, 0.0001),
    ("Bearings", "Measured with the shells in|"): band(0.0016, 0.0032),
    ("Rings", "Use of the engine"): "street", ("Rings", "Taken for this engine, top ring"): 0.0045,
    ("Rings", "Taken for this engine, second ring"): 0.0050,
    ("Rings", "Top gap"): near(0.0205, 0.0005),
    ("Rings", "Second gap"): near(0.0230, 0.0005),
    ("Rings", "Oil rail gap, least"): near(0.0220, 0.001),
    ("Rings", "Top groove"): near(0.0642, 0.0001), ("Rings", "Second groove"): near(0.0642, 0.0001),
    ("Rings", "Top ring width"): 0.0624, ("Rings", "Second ring width"): 0.0624,
    ("Balance", "Share of the reciprocating mass"): 0.5, ("Balance", "Oil on one journal"): 4,
    ("Balance", "Unbalance left at the front"): 0.21,
    ("Balance", "Unbalance left at the rear"): 0.26,
    ("Camshaft", "Lift at which the wheel was read"): 0.050, ("Camshaft", "Intake opens"): 350,
    ("Camshaft", "Intake closes"): 226,
    ("Camshaft", "Intake duration"): band(234, 238),
    ("Camshaft", "Intake centerline"): band(106, 110),
    ("Camshaft", "Exhaust opens"): 128, ("Camshaft", "Exhaust closes"): 6,
    ("Camshaft", "Exhaust duration"): band(236, 240),
    ("Camshaft", "Exhaust centerline"): band(111, 115),
    ("Camshaft", "Lobe separation"): band(109, 112),
    ("Camshaft", "Cam advance"): band(1, 4, "shop rule"),
    ("Camshaft", "Intake duration near the seat"): 284,
    ("Camshaft", "Trapped ratio, lowest cylinder"): band(6.8, 8.4, "shop rule, pump fuel"),
    ("Camshaft", "Lobe lift"): (0.3670, 0.3700), ("Camshaft", "Rocker ratio"): (1.528, 1.526),
    ("Camshaft", "Lash"): 0,
    ("Camshaft", "Valve lift"): band(0.550, 0.575), ("Camshaft", "Which, and set"): "preload",
    ("Camshaft", "lash or preload"): near(0.040, 0.003, 3),
    ("Camshaft", "lash or preload|"): band(0.020, 0.060),
    ("Stretch", "free"): near(1.6000, 0.0005), ("Stretch", "tight"): near(1.6058, 0.0005),
    ("Stretch", "stretch|"): band(0.0050, 0.0066),
    ("Test", "Cranking pressure"): near(186, 2, 0),
    ("Test", "Cranking pressure|"): band(165, 205, "as cranked here before"),
    ("Test", "Supply pressure of the leakage tester"): 100,
    ("Test", "Speed"): (900, 850, 3200, 6200), ("Test", "Oil temperature"): (66, 205, 212, 220),
    ("Test", "Coolant or head temperature"): (66, 182, 184, 188),
    ("Test", "Oil pressure"): (64, 24, 56, 62),
    ("Power", "Corrected to"): "sae j1349", ("Power", "Barometer, not brought to sea level"): 29.32,
    ("Power", "Air temperature"): 74,
    ("Power", "Torque"): (368, 388, 402, 412, 416, 411, 398, 388, 374, 356),
    ("Power", "Oil pressure"): near(60, 1, 0),
}  # fmt: skip

METRIC: Values = {
    ("Job", "Nominal finished bore"): 82.500, ("Job", "Stroke"): 85.00,
    ("Job", "Rod length, center to center"): 140.00, ("Job", "Compression height"): 31.20,
    ("Job", "Highest engine speed"): 7000, ("Job", "Room temperature for measuring"): 20,
    ("Block", "Bore, across the crank"): (82.504, 0.002),
    ("Block", "Bore, along the crank"): (82.502, 0.002),
    ("Block", "Deck height, front intake side"): near(213.82, 0.005, 3),
    ("Block", "Deck height, front exhaust side"): 213.83,
    ("Block", "Deck height, rear intake side"): near(213.83, 0.005, 3),
    ("Block", "Deck height, rear exhaust side"): 213.815,
    ("Block", "Out of flat"): near(0.020, 0.005, 3),
    ("Crank", "Main journal, first axis"): (54.990, 0.002),
    ("Crank", "Main journal, square to it"): (54.988, 0.002),
    ("Crank", "Rod journal, first axis"): (47.880, 0.002),
    ("Crank", "Rod journal, square to it"): (47.878, 0.002),
    ("Crank", "Run-out at the middle main"): 0.015,
    ("Crank", "Stroke, smallest of all throws"): 85.00,
    ("Crank", "Stroke, largest of all throws"): 85.02,
    ("Rods", "Big end, in line with the beam"): near(51.000, 0.002, 3),
    ("Rods", "Big end, 45 deg to one side"): 51.006,
    ("Rods", "Big end, 45 deg to the other"): 51.004, ("Rods", "Small end"): near(20.010, 0.001, 3),
    ("Rods", "Width"): 24.80, ("Rods", "Length"): near(140.00, 0.01, 3),
    ("Rods", "Bend or twist"): near(0.020, 0.004, 3),
    ("Pistons", "Use of the engine"): "street", ("Pistons", "Kind of piston"): "cast",
    ("Pistons", "Height of the gauge point on the skirt"): 12.0,
    ("Pistons", "Piston skirt"): near(82.460, 0.002, 3),
    ("Pistons", "Piston clearance"): band(0.030, 0.055),
    ("Pistons", "Pin bore"): near(20.008, 0.001, 3),
    ("Pistons", "Pin"): 19.998, ("Pistons", "Pin clearance"): band(0.004, 0.016),
    ("Pistons", "Compression height"): near(31.20, 0.01, 2),
    ("Heads", "Installed height wanted"): 38.0, ("Heads", "Open height"): 27.5,
    ("Heads", "Coil bind height, measured"): 24.8, ("Heads", "Intake valve lift"): 10.5,
    ("Heads", "Exhaust valve lift"): 10.0, ("Heads", "Load of one spring, installed"): 250,
    ("Heads", "Load of the same, open"): 640, ("Heads", "Spring rate"): band(34, 40),
    ("Heads", "guide"): near(6.020, 0.002, 3), ("Heads", "Intake stem"): 5.980,
    ("Heads", "Exhaust stem"): 5.970,
    ("Heads", "installed height"): near(38.0, 0.1, 2), ("Heads", "seat load"): near(250, 4, 0),
    ("Heads", "open load"): near(640, 6, 0),
    ("Heads", "installed height|"): band(37.6, 38.4), ("Heads", "seat load|"): band(230, 270),
    ("Heads", "open load|"): band(600, 680), ("Heads", "Out of flat"): near(0.020, 0.005, 3),
    ("Heads", "Thickness, front"): 132.40, ("Heads", "Thickness, rear"): 132.42,
    ("Mock-up", "Head gasket, compressed"): 0.80,
    ("Mock-up", "Deck, one side of the pin"): near(0.22, 0.02, 3),
    ("Mock-up", "Deck, other side of the pin"): near(0.20, 0.02, 3),
    ("Mock-up", "Deck clearance"): band(0.05, 0.40, "shop rule"),
    ("Mock-up", "Quench, cold"): band(0.85, 1.20, "shop rule, steel rods"),
    ("Mock-up", "Intake valve, axial"): near(2.6, 0.1, 2),
    ("Mock-up", "Exhaust valve, axial"): near(3.2, 0.1, 2),
    ("Mock-up", "Least radial"): near(1.8, 0.05, 2),
    ("Mock-up", "Side clearance, smallest"): near(0.20, 0.01, 3),
    ("Mock-up", "Side clearance, largest"): near(0.23, 0.01, 3),
    ("Mock-up", "Side clearance, smallest|"): band(0.15, 0.30, "the rod maker's card"),
    ("Mock-up", "Side clearance, largest|"): band(0.15, 0.30, "the rod maker's card"),
    ("Mock-up", "Crank end play, first reading"): 0.14,
    ("Mock-up", "Crank end play, another place"): 0.15,
    ("Mock-up", "Cam end play"): 0.12, ("Mock-up", "Cam end play|"): band(0.07, 0.20),
    ("Mock-up", "Rod to cam or block, least"): 2.4,
    ("Mock-up", "Pushrod length, or shim over the valve"): 2.85,
    ("Volumes", "Gasket bore"): 83.5, ("Volumes", "Chamber"): near(42.0, 0.2, 1),
    ("Volumes", "Crown"): 3.0,
    ("Volumes", "Compression ratio"): band(9.2, 10.6, "premium fuel, agreed"),
    ("Volumes", "Chamber, spread"): band(0, 1.0, "shop rule"),
    ("Gasket", "Compressed thickness"): (0.60, 0.80, 1.00, 1.20, 1.40),
    ("Gasket", "Bore of the gasket"): 83.5,
    ("Gasket", "Gasket taken, number above"): 2,
    ("Bearings", "Use of the engine"): "street",
    ("Bearings", "Oil that the clearance is for"): "5W-40",
    ("Bearings", "Main housing bore"): near(59.040, 0.002, 3),
    ("Bearings", "Main Upper shell wall"): 2.002,
    ("Bearings", "Main Lower shell wall"): 2.002, ("Bearings", "Rod Upper shell wall"): 1.539,
    ("Bearings", "Rod Lower shell wall"): 1.539,
    ("Bearings", "Main bearing clearance"): band(0.028, 0.064),
    ("Bearings", "Rod bearing clearance"): band(0.024, 0.064),
    ("Bearings", "Measured with the shells in"): near(0.046, 0.002, 3),
    ("Bearings", "Measured with the shells in|"): band(0.026, 0.064),
    ("Rings", "Use of the engine"): "street", ("Rings", "Taken for this engine, top ring"): 0.0045,
    ("Rings", "Taken for this engine, second ring"): 0.0050,
    ("Rings", "Top gap"): near(0.43, 0.01, 3),
    ("Rings", "Second gap"): near(0.48, 0.01, 3),
    ("Rings", "Oil rail gap, least"): near(0.60, 0.02, 3),
    ("Rings", "Top groove"): near(1.25, 0.002, 3), ("Rings", "Second groove"): near(1.55, 0.002, 3),
    ("Rings", "Top ring width"): 1.20, ("Rings", "Second ring width"): 1.50,
    ("Balance", "Share of the reciprocating mass"): 0, ("Balance", "Oil on one journal"): 0,
    ("Balance", "Unbalance left at the front"): 90, ("Balance", "Unbalance left at the rear"): 120,
    ("Camshaft", "Lift at which the wheel was read"): 1.0, ("Camshaft", "Intake opens"): 352,
    ("Camshaft", "Intake closes"): 222,
    ("Camshaft", "Intake duration"): band(228, 232),
    ("Camshaft", "Intake centerline"): band(105, 109),
    ("Camshaft", "Exhaust opens"): 136, ("Camshaft", "Exhaust closes"): 4,
    ("Camshaft", "Exhaust duration"): band(226, 230),
    ("Camshaft", "Exhaust centerline"): band(108, 112),
    ("Camshaft", "Lobe separation"): band(107, 110),
    ("Camshaft", "Cam advance"): band(0, 3, "shop rule"),
    ("Camshaft", "Intake duration near the seat"): 268,
    ("Camshaft", "Trapped ratio, lowest cylinder"): band(7.0, 9.0, "shop rule, pump fuel"),
    ("Camshaft", "Lobe lift"): (10.75, 10.30), ("Camshaft", "Rocker ratio"): (1, 1),
    ("Camshaft", "Lash"): (0.25, 0.30),
    ("Camshaft", "Valve lift"): band(9.5, 11.0), ("Camshaft", "Which, and set"): "lash cold",
    ("Camshaft", "lash or preload"): near(0.26, 0.01, 3),
    ("Camshaft", "lash or preload|"): band(0.20, 0.34),
    ("Stretch", "free"): near(44.000, 0.010, 3), ("Stretch", "tight"): near(44.150, 0.010, 3),
    ("Stretch", "stretch|"): band(0.13, 0.17),
    ("Test", "Cranking pressure"): near(1280, 15, 0),
    ("Test", "Cranking pressure|"): band(1150, 1400, "as cranked here before"),
    ("Test", "Supply pressure of the leakage tester"): 690,
    ("Test", "Speed"): (1100, 950, 3500, 6800), ("Test", "Oil temperature"): (19, 96, 100, 105),
    ("Test", "Coolant or head temperature"): (19, 84, 85, 88),
    ("Test", "Oil pressure"): (460, 170, 390, 430),
    ("Power", "Corrected to"): "iso 1585", ("Power", "Barometer, not brought to sea level"): 99.4,
    ("Power", "Air temperature"): 22,
    ("Power", "Torque"): (158, 166, 172, 177, 181, 184, 183, 180, 176, 170),
    ("Power", "Oil pressure"): near(420, 8, 0),
}  # fmt: skip

# The same in both systems of units.
BOTH: Values = {
    ("Balance", "Piston"): near(412.0, 0.2, 1), ("Balance", "Pin"): near(98.0, 0.2, 1),
    ("Balance", "Ring set"): 34.2, ("Balance", "Locks, both"): 2.0,
    ("Balance", "Small end"): near(160.0, 0.2, 1),
    ("Balance", "Big end"): near(405.0, 0.2, 1), ("Balance", "Shells, pair"): 40.6,
    ("Balance", "Crank, with the bobweights on it"): 24_000,
    ("Balance", "Balance quality grade G"): 16,
    ("Test", "Leakage, percent"): near(4.0, 1.0, 1), ("Test", "Minutes run"): (1, 12, 20, 24),
    ("Power", "Relative humidity"): 0.46, ("Power", "Speed"): SPEEDS,
}  # fmt: skip


def entries(
    plan: Plan, cells: tuple[Field, ...], texts: Mapping[str, object]
) -> dict[tuple[str, str], object]:
    """{(sheet, address): content} of plausible readings, bands, names and dates for a plan.

    texts: what is typed on the job sheet, by the names of its cells.
    """
    numbers = {**BOTH, **(METRIC if plan.metric else INCH)}
    found = {}
    for cell in cells:
        name = cell.name.split(" / ")[-1]
        typed = texts.get(name) if cell.role in ("text", "sign", "date") else None
        content = typed or _content(plan, cell, numbers)
        if content is not None:
            found[cell.sheet, cell.address] = content
    return found


def _content(plan: Plan, cell: Field, numbers: Values) -> object:
    *before, last = cell.name.split(" / ")
    row = int(found[1]) - 1 if (found := re.search(r"(\d+)$", " ".join(before[1:2]))) else 0
    if (cell.sheet, before[:1]) == ("Parts", ["Parts"]):
        return _part(plan, row, last)
    if (cell.sheet, before[:1]) == ("Assembly", ["Fasteners"]):
        return _fastener(plan, row, last)
    if before[:1] in (["Accepted"], ["Open"]):
        return None
    if cell.role == "sign":
        return "IT" if last != "Seen by" and last != "Second pair of eyes" else "JP"
    if cell.role == "date":
        return datetime.date(2025, 5, 6)
    if cell.role in ("band", "origin"):
        head, _, end = last.rpartition(", ")
        given = _given(numbers, cell.sheet, head, "|")
        if not (isinstance(given, tuple) and len(given) == 3 and isinstance(given[2], str)):
            return None
        return dict(zip(("least", "most", "band from"), given, strict=True))[end]
    if last == "On throw no.":
        return row // plan.rods_per_journal + 1
    if cell.sheet == "Bearings" and before[:1] and last.endswith("shell wall"):
        last = f"{before[0].split()[0]} {last}"
    if before[1:2] == ["Exhaust"]:
        row = 1
    given = _given(numbers, cell.sheet, last, "")
    if callable(given):
        return given(row)
    if isinstance(given, tuple):
        if len(given) == 2 and before[-1] in HEIGHTS:
            base, step = given
            return round(base + step * (HEIGHTS[before[-1]] + SCATTER[row % len(SCATTER)]), 4)
        return given[row] if row < len(given) else None
    return given


def _given(numbers: Values, sheet: str, name: str, mark: str) -> object:
    name = re.sub(r"(Intake|Exhaust) [AB] ", r"\1 ", name)
    """The value of a name, or of the end of one: "Intake guide" is a "guide"."""
    for key in (
        name,
        name.split(", ")[-1],
        name.partition(" ")[2],
        name.partition(" ")[2].partition(" ")[2],
    ):
        for marked in (key + mark, key if mark else ""):
            if (sheet, marked) in numbers:
                return numbers[sheet, marked]
    return None


def _part(plan: Plan, row: int, last: str) -> object:
    names = list(PARTS)
    if row >= len(names):
        return "" if last == "Part" else None
    number, many, whose, state = PARTS[names[row]]
    return {
        "Part": names[row], "Part number": number, "Qty": many or plan.cylinders, "Whose": whose,
        "State": state, "Seen by": "IT", **SIZES[plan.units].get(names[row], {}),
    }.get(last)  # fmt: skip


def _fastener(plan: Plan, row: int, last: str) -> object:
    """A cell of the torque sheet, whose rows are used from the top."""
    names = list(FASTENERS[plan.units])
    if row >= len(names):
        return "" if last == "Fasteners" else None
    thread, many, lubricant, *steps, angle = FASTENERS[plan.units][names[row]]
    given = {
        "Fasteners": names[row], "Thread, length": thread, "How many": many,
        "Lubricant, and where": lubricant, "Then turn": angle or None, "Wrench no.": "TW-2",
        "Done by": "IT", "Seen by": "JP", "Marked": "yes", "On": datetime.date(2025, 5, 20),
    }  # fmt: skip
    for number, step in enumerate(steps, 1):
        given[f"Step {number}"] = step or None
    return given.get(last)


def fill(path: Path, plan: Plan, texts: Mapping[str, object]) -> None:
    """Fill a build book that was just started."""
    book = openpyxl.load_workbook(path)
    for (sheet, address), content in entries(plan, fields(plan), texts).items():
        book[sheet][address] = content
    book.save(path)


V8 = {
    "Job number": "QER-0431",
    "Customer": "Corvin Ashgrove",
    "Engine": "inch V8, iron block, 4.030 bore",
    "Started": datetime.date(2025, 4, 14), "Promised": datetime.date(2025, 6, 6),
    "Finished": datetime.date(2025, 5, 28),
    "Builder": "Ines Tarrow",
    "Second pair of eyes": "J. Pellam",
    "Use": "street, weekend trips",
    "Fuel": "premium, no boost",
    "Casting, serial no.": "casting 0815-B",
    "Cylinder 1 is, and counting goes": "front left; odd numbers left, even numbers right, front to rear, seen "
    "from the driver's seat",
    "The front is the end with": "the damper", "Rotation, seen from the front": "clockwise",
    "Firing order": "1-8-4-3-6-5-7-2", "Bank 1 is, with cylinders": "left: 1, 3, 5, 7",
    "Bank 2 is, with cylinders": "right: 2, 4, 6, 8",
}  # fmt: skip
FOUR = {
    "Job number": "QER-0432",
    "Customer": "Thessaly Wrenfield",
    "Engine": "metric inline four, aluminum head",
    "Started": datetime.date(2025, 4, 22), "Promised": datetime.date(2025, 6, 13),
    "Finished": datetime.date(2025, 6, 3),
    "Builder": "Ines Tarrow",
    "Second pair of eyes": "J. Pellam",
    "Use": "street", "Fuel": "premium, no boost", "Casting, serial no.": "casting 22-4417",
    "Cylinder 1 is, and counting goes": "at the timing end, counted toward the flywheel",
    "The front is the end with": "the timing drive", "Rotation, seen from the front": "clockwise",
    "Firing order": "1-3-4-2",
}  # fmt: skip
EXAMPLES = {
    "build_book_inch_v8.xlsx": (plan_for(8, "inch", "v"), V8),
    "build_book_metric_four.xlsx": (plan_for(4, "metric", "inline", valves=4), FOUR),
}


def restore_views(path: Path, source: Path) -> None:
    """Give sheets their frozen rows back: without a window LibreOffice saves none."""
    pattern = re.compile(rb"<sheetViews>.*?</sheetViews>", re.DOTALL)
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(path) as new:
        parts = {item: new.read(item) for item in new.infolist()}
        for item, data in parts.items():
            if item.filename.startswith("xl/worksheets/sheet"):
                view = pattern.search(old.read(item.filename))
                parts[item] = pattern.sub(lambda _found, v=view: v[0], data)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for item, data in parts.items():
            target.writestr(item, data)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder)
        started = []
        for name, (plan, texts) in EXAMPLES.items():
            path = there / name
            new_book(path, plan.cylinders, plan.units, plan.layout, valves=plan.valves)
            fill(path, plan, texts)
            started.append(path)
        calculated = recalculate(started, there / "calculated", fresh_profile(there / "profile"))
        for path, source in zip(calculated, started, strict=True):
            target = HERE / path.name
            target.unlink(missing_ok=True)
            restore_views(path, source)
            portable(path, target)
            print(target)


if __name__ == "__main__":
    sys.exit(main())
