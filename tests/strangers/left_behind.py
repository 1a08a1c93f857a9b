"""What is left in books: another job's sheets, struck-through values, readings at nine places."""

from __future__ import annotations

import datetime

from .pen import Book


def copied():
    b = Book(
        "s25",
        "6017 Vasquez.xlsx",
        4,
        ("made from the last job's book: its sheets still hold job 6009, the bearings unchanged"),
    )
    p = b.sheet("Block", [26, 12, 12, 12, 12])
    p.put("A1", "job").field("B1", "number", "6017").put("A2", "customer").field(
        "B2", "customer", "Vasquez"
    ).put("A3", "engine").field("B3", "engine", "2.4 twin cam")
    p.put("A4", "builder").field("B4", "builder", "Dov").put("A5", "in").field(
        "B5", "started", datetime.date(2025, 6, 9), shown="yyyy-mm-dd"
    ).put("A6", "out").field("B6", "finished", datetime.date(2025, 6, 27), shown="yyyy-mm-dd")
    p.heads("A8", "cylinder", 1, 2, 3, 4).labels(
        "A9",
        "bore mm",
        "piston mm",
        "skirt clearance mm",
        "top gap mm",
        "second gap mm",
        "deck mm (below)",
    )
    p.across("B9", "bore", "mm", [88.521, 88.52, 88.522, 88.521]).across(
        "B10", "piston_diameter", "mm", [88.48, 88.481, 88.48, 88.479]
    ).across("B11", "piston_clearance", "mm", [0.041, 0.039, 0.042, 0.042], stated=True)
    p.across("B12", "top_ring_gap", "mm", [0.33, 0.32, 0.34, 0.33]).across(
        "B13", "second_ring_gap", "mm", [0.38, 0.38, 0.4, 0.39]
    ).across("B14", "deck_clearance", "mm", [0.05, 0.06, 0.05, 0.07])
    p.put("A16", "stroke mm").fact("B16", "stroke", 96.7, "mm").put("A17", "gasket mm").fact(
        "B17", "gasket_thickness", 0.7, "mm"
    )
    q = b.sheet("Bearings", [26, 12, 12, 12, 12, 12])
    q.rows(
        "A1",
        [
            ["job", "6009"],
            ["customer", "Tamsin Oakes"],
            ["engine", "2.4 twin cam"],
            [None],
            ["main", 1, 2, 3, 4, 5],
            ["journal mm", 56.482, 56.481, 56.483, 56.482, 56.48],
            ["clearance mm", 0.032, 0.035, 0.031, 0.034, 0.033],
        ],
    )
    q.rows(
        "A9",
        [
            ["rod", 1, 2, 3, 4],
            ["pin mm", 49.481, 49.48, 49.482, 49.481],
            ["clearance mm", 0.036, 0.035, 0.038, 0.036],
        ],
    )
    q = b.sheet("Heads", [26, 12, 12, 12, 12])
    q.rows(
        "A1",
        [
            ["job", "6009"],
            ["customer", "Tamsin Oakes"],
            [None],
            ["chamber", 1, 2, 3, 4],
            ["cc", 51.2, 51.1, 51.3, 51.2],
            ["in. date", datetime.date(2025, 5, 2)],
        ],
    )
    b.ignore_sheets = ["Bearings", "Heads"]
    p.job.planted.append(
        {
            "kind": "left_behind",
            "cells": [f"Bearings!{c}" for c in ("B1", "B2", "A1")]
            + ["Heads!B1", "Heads!B2", "Block!B1"],
            "what": "two sheets still carry job 6009",
        }
    )
    return b


def struck():
    b = Book(
        "s26",
        "Job 88-4 six.xlsx",
        6,
        "first readings struck through, the second beside them; nothing wrong in it",
        calculated=True,
    )
    p = b.sheet("Bores & fits", [16, 11, 11, 11, 11, 11, 11, 30])
    p.put("A1", "Straight six 3.0 - bores and fits", bold=True).put("A2", "Job no:").field(
        "B2", "number", "88-4"
    ).put("D2", "Client:").field("E2", "customer", "Ellerby Estate")
    p.put("A3", "Engine:").field("B3", "engine", "3.0 straight six").put("D3", "Machinist:").field(
        "E3", "builder", "Jude"
    ).put("A4", "Started:").field(
        "B4", "started", datetime.date(2025, 5, 6), shown="d mmmm yyyy"
    ).put("D4", "Finished:").field(
        "E4", "finished", datetime.date(2025, 5, 23), shown="d mmmm yyyy"
    )
    p.put("A5", "mm; a struck out figure was taken again, the new one stands beside it")
    p.heads("A7", "Cyl", "Bore", "again", "Piston", "again", "Clearance", "Top gap", "note").rows(
        "A8", [[n] for n in range(1, 7)]
    )
    bores, pistons = b.near(85.012, 6, 0.002, digits=3), b.near(84.968, 6, 0.002, digits=3)
    for row, (bore, piston) in enumerate(zip(bores, pistons, strict=True), 8):
        number, first, second = row - 7, "B", "D"
        if number in (2, 5):
            p.put(f"B{row}", round(bore + 0.1, 3), strike=True).either(f"B{row}").put(
                f"H{row}", "mis-read, done again"
            )
            first = "C"
        if number == 4:
            p.put(f"D{row}", 84.698, strike=True).either(f"D{row}")
            second = "E"
        p.fact(f"{first}{row}", "bore", bore, "mm", number, shown="0.000").fact(
            f"{second}{row}", "piston_diameter", piston, "mm", number, shown="0.000"
        )
        p.formula(
            f"F{row}",
            f"={first}{row}-{second}{row}",
            "piston_clearance",
            "mm",
            number,
            shown="0.000",
        ).fact(f"G{row}", "top_ring_gap", b.near(0.34, 1, 0.01, digits=2)[0], "mm", number)
    p.put("A15", "mean").put("F15", "=AVERAGE(F8:F13)", shown="0.000").put(
        "G15", "=AVERAGE(G8:G13)", shown="0.00"
    ).put("A16", "max - min").put("F16", "=MAX(F8:F13)-MIN(F8:F13)", shown="0.000").either(
        "F15", "G15", "F16"
    )
    p.heads("A18", "Main", *range(1, 8)).labels("A19", "Journal", "Brg bore", "Clearance")
    p.across("B19", "main_journal", "mm", b.near(61.484, 7, 0.001, digits=3), shown="0.000").across(
        "B20", "main_bearing_bore", "mm", b.near(61.532, 7, 0.002, digits=3), shown="0.000"
    ).formulas_across("B21", "={c}20-{c}19", 7, "main_bearing_clearance", "mm", shown="0.000")
    p.put("A23", "Stroke").fact("B23", "stroke", 87.2, "mm").put("A24", "Capacity cc").formula(
        "B24", "=PI()/4*(B8/10)^2*B23/10*6", "displacement", "cc", shown="0"
    )
    p.put("A26", "Liners none. Invoice 2025/311. Mobile 0555 010 101.")
    return b


def nine_places():
    b = Book(
        "s28",
        "V6 block inspection.xlsx",
        6,
        "bores at three heights and two axes; rods by pairs; nothing wrong in it",
        eng=True,
    )
    p = b.sheet("Inspection", [20, 11, 11, 11, 11, 11, 11, 12])
    p.put("A1", "60° V6 - INSPECTION AFTER HONE", bold=True).put("A2", "Order").field(
        "B2", "number", "V6-0093"
    ).put("D2", "Company").field("E2", "customer", "Tidewater Pumps")
    p.put("A3", "Engine").field("B3", "engine", "3.5 V6 pump engine").put("D3", "Inspector").field(
        "E3", "builder", "Imani"
    ).put("A4", "In").field("B4", "started", datetime.date(2025, 10, 6), shown="mm/dd/yyyy").put(
        "D4", "Out"
    ).field("E4", "finished", datetime.date(2025, 10, 15), shown="mm/dd/yyyy")
    sides = ["L1", "L2", "L3", "R1", "R2", "R3"]
    p.put("A6", "BORE inch").heads("B6", *sides)
    row = 7
    for axis in ("thrust", "axial"):
        for height in ("top", "middle", "bottom"):
            p.put(f"A{row}", f"{height} {axis}").across(
                f"B{row}", "bore", "in", b.near(3.6624, 6, 0.0001, 1), sides, shown="0.0000"
            )
            row += 1
    p.put("A13", "mean").formulas_across(
        "B13", "=AVERAGE({c}7:{c}12)", 6, "bore", "in", sides, "0.0000"
    )
    p.put("A14", "max-min").formulas_across(
        "B14", "=MAX({c}7:{c}12)-MIN({c}7:{c}12)", 6, shown="0.0000"
    ).either(*(f"{c}14" for c in "BCDEFG"))
    p.put("A15", "Piston").across(
        "B15", "piston_diameter", "in", b.near(3.6603, 6, 0.0001), sides, shown="0.0000"
    )
    p.put("A16", "Clearance").formulas_across(
        "B16", "=ENG.PISTON_CLEARANCE({c}13,{c}15)", 6, "piston_clearance", "in", sides, "0.0000"
    )
    p.put("A17", "within .0015-.0028?").formulas_across(
        "B17", "=ENG.VERDICT({c}16,0.0015,0.0028)", 6
    )
    p.put("A19", "RODS").heads("B19", "1-2", "3-4", "5-6").put(
        "A20", "side clearance (pair)"
    ).across(
        "B20",
        "rod_side_clearance",
        "in",
        [0.012, 0.013, 0.011],
        ["1-2", "3-4", "5-6"],
        shown="0.000",
    )
    p.put("A21", "rod").heads("B21", 1, 2, 3, 4, 5, 6).labels(
        "A22", "housing", "shell wall", "crankpin", "oil clearance"
    )
    p.across("B22", "rod_housing_bore", "in", b.near(2.0747, 6, 0.0001, 1), shown="0.0000").across(
        "B23",
        "rod_shell_wall",
        "in",
        [0.0614, 0.0614, 0.0613, 0.0614, 0.0614, 0.0613],
        shown="0.0000",
    ).across("B24", "rod_journal", "in", b.near(1.9492, 6, 0.0001, 1), shown="0.0000")
    p.formulas_across(
        "B25",
        "=ENG.BEARING_CLEARANCE({c}22,{c}23,{c}24)",
        6,
        "rod_bearing_clearance",
        "in",
        shown="0.0000",
    )
    p.put("A27", "front / rear deck height L").fact(
        "B27", "deck_height", 8.936, "in", shown="0.000"
    ).fact("C27", "deck_height", 8.937, "in", shown="0.000").put(
        "A28", "front / rear deck height R"
    ).fact("B28", "deck_height", 8.936, "in", shown="0.000").fact(
        "C28", "deck_height", 8.935, "in", shown="0.000"
    )
    p.put(
        "A30",
        (
            "gauge: ring 3.6620 s/n 114. 68 F. Block tag 0093 stays with caps. "
            "Ship via freight, 412 lb."
        ),
    )
    return b
