"""A drag engine: units, part numbers and prices mixed on one sheet."""

from __future__ import annotations

from .pen import Book


def drag():
    b = Book(
        "s29",
        "Drag 575 notes + money.xlsx",
        8,
        "mixed units, prices and part numbers; a gasket in mm in an inch cell",
        eng=True,
    )
    p = b.sheet("575", [26, 12, 8, 30])
    p.put("A1", "575 pump gas bracket motor", bold=True)
    p.put("A2", "Work order:").field("B2", "number", "RM-575-2").put("A3", "Owner:").field(
        "B3", "customer", "Curt Bellweather"
    )
    p.put("A4", "Eng.").field("B4", "engine", "575 tall deck").put("A5", "Bldr").field(
        "B5", "builder", "Ray M"
    )
    p.put("A6", "date in").field("B6", "started", "2024-11-04").put("A7", "ship date").field(
        "B7", "finished", "2025-01-17"
    )
    p.heads("A9", "Item", "Meas", "unit", "part no / remark", "$")
    p.labels(
        "A10",
        "Bore (all 8 same, plate honed)",
        "Piston",
        "Stroke",
        "Rod",
        "Deck",
        "Gasket thk",
        "Gasket bore",
        "Dome",
        "Chamber",
        "Pin",
        "Pin fit",
        "Rod bolt stretch",
        "Main clearence avg",
        "Rod clearance avg",
        "Base circle lash, int",
        "Lash exh",
        "Springs seat",
        "Springs open",
        "Installed ht",
        "Head bolts",
    )
    units = [
        "in",
        "in",
        "in",
        "in",
        "in",
        "in",
        "in",
        "cc",
        "cc",
        "mm",
        "thou",
        "in",
        "thou",
        "thou",
        "in",
        "in",
        "lb",
        "lb",
        "in",
        "ft-lb",
    ]
    p.rows("C10", [[u] for u in units])
    p.fact("B10", "bore", 4.53, "in", shown="0.000").fact(
        "B11", "piston_diameter", 4.5235, "in"
    ).fact("B12", "stroke", 4.46, "in", shown="0.000")
    p.fact("B13", "rod_length", 6.66, "in", shown="0.000").fact(
        "B14", "deck_clearance", 0.01, "in", shown=".000"
    )
    p.fact("B15", "gasket_thickness", 1.3, "in", doubt=True).plant(
        "millimeters_for_inches", "1.3 mm gasket in an inch line (.051)", "B15", "C15"
    )
    p.fact("B16", "gasket_bore", 4.6, "in").fact("B17", "dome_volume", 21, "cc").fact(
        "B18", "chamber_volume", 116.5, "cc"
    )
    p.fact("B19", "pin_diameter", 25.146, "mm").fact("B20", "pin_clearance", 0.9, "thou").fact(
        "B21", "rod_bolt_stretch", 0.0062, "in"
    )
    p.fact("B22", "main_bearing_clearance", 3.1, "thou").fact(
        "B23", "rod_bearing_clearance", 2.9, "thou"
    )
    p.fact("B24", "intake_lash", 0.02, "in", shown=".000").fact(
        "B25", "exhaust_lash", 0.022, "in", shown=".000"
    )
    p.fact("B26", "spring_seat_load", 270, "lbf").fact("B27", "spring_open_load", 710, "lbf").fact(
        "B28", "spring_height", 1.95, "in", shown="0.000"
    )
    p.fact("B29", "head_bolt_torque", 75, "lbf.ft")
    p.rows(
        "D10",
        [
            ["block s/n 4471-T"],
            ["90210-60, 8 pcs"],
            [None],
            ["6.660 H beam"],
            [None],
            ["MLS 1.3"],
            [None],
            ["w/ 2 notches"],
        ],
    )
    p.rows("E10", [[2150], [1089.95], [1640], [1020], [None], [212.5]]).put(
        "D31", "parts so far"
    ).put("E31", "=SUM(E10:E29)")
    p.put("A33", "piston clr").formula(
        "B33", "=ENG.PISTON_CLEARANCE(B10,B11)", "piston_clearance", "in", shown=".0000"
    )
    p.put("A34", "cubes").formula(
        "B34", "=ENG.DISPLACEMENT(B10,B12,8)", "displacement", "ci", shown="0.0"
    )
    p.put("A35", "FPM @ 6800").formula("B35", "=ENG.MEAN_PISTON_SPEED(B12,6800)").put(
        "A36", "rod ratio"
    )
    p.formula("B36", "=ENG.ROD_STROKE_RATIO(B13,B12)", "rod_stroke_ratio", shown="0.00")
    p.put("A38", "call Curt at 555 0102 before the tear down, shop 555-0139 ext 14")
    p.either("B35")
    return b
