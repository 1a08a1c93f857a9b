"""Cards of one subject: a balance card, a dyno sheet, a cam-degreeing card, a torque log."""

from __future__ import annotations

import datetime

from .pen import Book


def balance():
    b = Book(
        "s21",
        "balance_card_TB-640.xlsx",
        8,
        "balance card with bobweight; nothing wrong in it",
        eng=True,
    )
    p = b.sheet("Balance", [26, 10, 10, 10, 10, 10, 10, 10, 10, 10])
    p.put("A1", "CRANK BALANCE CARD - TRUE SPIN BALANCING, bay 2", bold=True).put(
        "A2", "Card no."
    ).field("B2", "number", "TB-640").put("D2", "Cust.").field("E2", "customer", "Marlow Oval Team")
    p.put("A3", "Eng").field("B3", "engine", "V8 external").put("D3", "Oper.").field(
        "E3", "builder", "Tess"
    ).put("A4", "In").field("B4", "started", "2025-02-10").put("D4", "Out").field(
        "E4", "finished", "2025-02-12"
    )
    p.put("A5", "all weights in grams").heads("A6", "cyl", *range(1, 9), "match to")
    p.labels("A7", "Piston", "Pin", "Rod big end", "Rod small end")
    p.across(
        "B7", "piston_mass", "g", [438.6, 438.5, 438.6, 438.4, 438.5, 438.6, 438.5, 438.5]
    ).across("B8", "pin_mass", "g", [124.1, 124.0, 124.1, 124.1, 124.0, 124.1, 124.1, 124.0])
    p.across(
        "B9", "rod_big_end_mass", "g", [436.2, 436.3, 436.2, 436.1, 436.2, 436.2, 436.3, 436.2]
    ).across(
        "B10", "rod_small_end_mass", "g", [162.8, 162.7, 162.8, 162.8, 162.9, 162.8, 162.8, 162.7]
    )
    p.rows("J7", [["=MIN(B7:I7)"], ["=MIN(B8:I8)"], ["=MIN(B9:I9)"], ["=MIN(B10:I10)"]]).either(
        "J7", "J8", "J9", "J10"
    )
    p.labels(
        "A12",
        "BOBWEIGHT",
        "piston",
        "pin",
        "rings",
        "locks (pair)",
        "small end",
        "recip total",
        "big end",
        "bearing pair",
        "rotating total",
        "oil",
        "factor",
        "BOBWEIGHT g",
    )
    p.put("B13", "=J7").put("B14", "=J8").fact("B15", "ring_mass", 38.4, "g").fact(
        "B16", "pin_lock_mass", 3.2, "g"
    ).put("B17", "=J10").formula("B18", "=SUM(B13:B17)", "reciprocating_mass", "g", shown="0.0")
    p.put("B19", "=J9").fact("B20", "bearing_mass", 42.6, "g").formula(
        "B21", "=B19+B20", "rotating_mass", "g", shown="0.0"
    ).fact("B22", "oil_allowance", 4, "g").fact(
        "B23", "balance_factor", 0.5, "1", typed=0.5, shown="0%"
    )
    p.formula("B24", "=ENG.BOBWEIGHT(B21,B18,B23,2,B22)", "bobweight", "g", shown="0.0").either(
        "B13", "B14", "B17", "B19"
    )
    p.put("D14", "crank left: 3 holes front c/w 1/2 x 1.1, 1 slug rear").put(
        "D15", "residual front 0.2 oz-in, rear 0.3 oz-in @ 500 rpm"
    ).put("D17", "charge 265.00 + slug 38")
    return b


def dyno():
    b = Book(
        "s22",
        "Dyno pulls 4-12.xlsx",
        8,
        "dyno sheet: pulls, weather, leakage and pressures; nothing wrong in it",
        calculated=True,
    )
    p = b.sheet("Pull 6", [14, 12, 12, 12, 12, 12])
    p.put("A1", "ENGINE DYNO - cell 1", bold=True).put("A2", "Test #").field(
        "B2", "number", "D-412-6"
    ).put("D2", "Customer").field("E2", "customer", "Haglund & Daughter")
    p.put("A3", "Engine").field("B3", "engine", "372 spec late model").put("D3", "Operator").field(
        "E3", "builder", "Vic"
    ).put("A4", "Date").field("B4", "finished", datetime.date(2025, 4, 12), shown="m/d/yyyy")
    p.put("A6", "Baro inHg").put("B6", 29.21).put("C6", "Air F").put("D6", 78).put(
        "E6", "Vap inHg"
    ).put("F6", 0.48).either("B6", "D6", "F6")
    p.heads("A8", "RPM", "Torque lb-ft", "HP", "Oil psi", "Water F", "A/F")
    for row, (rpm, torque, oil) in enumerate(
        [
            (4000, 402, 58),
            (4500, 418, 60),
            (5000, 421, 61),
            (5500, 412, 63),
            (6000, 394, 64),
            (6500, 366, 64),
        ],
        9,
    ):
        p.put(f"A{row}", rpm).fact(f"B{row}", "engine_torque", torque, "lbf.ft").formula(
            f"C{row}", f"=B{row}*A{row}/5252", "power", "hp", shown="0.0"
        ).fact(f"D{row}", "oil_pressure", oil, "psi")
        p.put(f"E{row}", 172 + row).put(f"F{row}", round(12.6 + row / 100, 2)).either(
            f"A{row}", f"E{row}", f"F{row}"
        )
    p.put("A16", "peak").put("B16", "=MAX(B9:B14)").put("C16", "=MAX(C9:C14)", shown="0.0").either(
        "B16", "C16"
    )
    p.heads("A18", "Cyl", *range(1, 9)).labels("A19", "Leakdown % warm", "Cranking psi")
    p.across("B19", "leakage", "%", [3, 4, 3, 3, 5, 4, 3, 4]).across(
        "B20", "cranking_pressure", "psi", [188, 185, 190, 186, 184, 188, 190, 187]
    )
    p.put("A22", "Lash hot in").fact("B22", "intake_lash", 0.018, "in", typed='.018"').put(
        "A23", "Lash hot ex"
    ).fact("B23", "exhaust_lash", 0.02, "in", typed='.020"').put("A24", "Timing total").fact(
        "B24", "ignition_advance", 32, "deg", typed="32 deg"
    ).put("A25", "Plug gap").fact("B25", "spark_plug_gap", 0.035, "in", typed=".035 in")
    p.put(
        "A27",
        "Fuel 110 leaded. Pulls 1-3 break in, pull 5 aborted (belt). Rate 600/day, 1.5 days = 900.",
    )
    return b


def cam():
    b = Book(
        "s23",
        "cam card measured.xlsx",
        8,
        "cam degreed on the wheel; nothing wrong in it",
        eng=True,
    )
    p = b.sheet("Degree", [34, 12, 12, 24])
    p.put("A1", "CAM DEGREE SHEET", bold=True).put("A2", "Job #").field(
        "B2", "number", "CD-58"
    ).put("C2", "Name").field("D2", "customer", "Ozzie Trammel")
    p.put("A3", "Engine").field("B3", "engine", "386 V8").put("C3", "By").field(
        "D3", "builder", "Fern"
    ).put("A4", "Started").field("B4", "started", datetime.date(2025, 5, 19), shown="m/d/yyyy").put(
        "C4", "Finished"
    ).field("D4", "finished", datetime.date(2025, 5, 20), shown="m/d/yyyy")
    p.heads("A6", "at .050 tappet rise, cyl #1", "Intake", "Exhaust", "wheel reading, deg ATDC")
    p.labels(
        "A7",
        "Opens (wheel)",
        "Closes (wheel)",
        "Duration",
        "Centerline",
        "Lobe lift",
        "Rocker ratio (measured)",
        "Lash",
        "Net valve lift",
    )
    p.fact("B7", "intake_opening_reading", -10, "deg").fact(
        "C7", "exhaust_opening_reading", -232, "deg"
    ).fact("B8", "intake_closing_reading", 226, "deg").fact(
        "C8", "exhaust_closing_reading", 10, "deg"
    )
    p.formula("B9", "=ENG.CAM_DURATION(B7,B8)", "intake_duration", "deg").formula(
        "C9", "=ENG.CAM_DURATION(C7,C8)", "exhaust_duration", "deg"
    )
    p.formula("B10", '=ENG.LOBE_CENTERLINE("intake",B7,B8)', "intake_centerline", "deg").formula(
        "C10", '=ENG.LOBE_CENTERLINE("exhaust",C7,C8)', "exhaust_centerline", "deg"
    )
    p.fact("B11", "intake_lobe_lift", 0.353, "in").fact(
        "C11", "exhaust_lobe_lift", 0.36, "in", shown="0.000"
    ).fact("B12", "intake_rocker_ratio", 1.58, "1").fact(
        "C12", "exhaust_rocker_ratio", 1.57, "1"
    ).fact("B13", "intake_lash", 0.016, "in").fact("C13", "exhaust_lash", 0.018, "in")
    p.formula(
        "B14", "=ENG.VALVE_LIFT(B11,B12,B13)", "intake_valve_lift", "in", shown="0.000"
    ).formula("C14", "=ENG.VALVE_LIFT(C11,C12,C13)", "exhaust_valve_lift", "in", shown="0.000")
    p.labels("A16", "Lobe separation", "Installed advance", "Overlap @ .050").formula(
        "B16", "=ENG.LOBE_SEPARATION(B10,C10)", "lobe_separation", "deg"
    ).formula("B17", "=ENG.CAM_ADVANCE(B16,B10)", "cam_advance", "deg").formula(
        "B18", "=-B7+C8", "valve_overlap", "deg"
    )
    p.heads("A20", "Piston to valve, clay", "Intake", "Exhaust").put("A21", "cyl 1").fact(
        "B21", "intake_valve_to_piston", 0.118, "in", 1
    ).fact("C21", "exhaust_valve_to_piston", 0.142, "in", 1, typed=0.142).put("A22", "cyl 6")
    p.fact("B22", "intake_valve_to_piston", 0.12, "in", 6, shown="0.000").fact(
        "C22", "exhaust_valve_to_piston", 0.14, "in", 6, shown="0.000"
    ).put("A24", "Pushrod length").fact("B24", "pushrod_length", 7.62, "in", typed='7.620"').put(
        "A25", "Cam end play"
    ).fact("B25", "cam_end_play", 0.006, "in", typed='.006"')
    p.put(
        "A26",
        (
            "grind no. 264-372-10, dot to dot was 2 retarded, used 4 deg key. card "
            "says 106 ICL @ 110 LSA"
        ),
    )
    return b


def torques():
    b = Book(
        "s24",
        "Torque log 9-B.xlsx",
        4,
        "torque log with initials; the second head step was never signed",
    )
    p = b.sheet("Torque log", [30, 8, 14, 12, 12, 12, 12])
    p.put("A1", "ASSEMBLY TORQUE LOG", bold=True).put("A2", "Build").field(
        "B2", "number", "9-B"
    ).put("D2", "Customer").field("E2", "customer", "Rowan Motorsport")
    p.put("A3", "Engine").field("B3", "engine", "2.0 four, 16v").put("D3", "Builder").field(
        "E3", "builder", "A. Quist"
    ).put("A4", "Opened").field("B4", "started", "2025-03-24").put("D4", "Released").field(
        "E4", "finished", "2025-03-28"
    )
    p.heads("A6", "Fastener", "Qty", "Lube", "Nm", "Angle", "Done", "Seen")
    lines = [
        ("Main cap bolts", 10, "oil", "main_bolt_torque", 65, None, "AQ", "ML"),
        ("Rod bolts", 8, "moly", "rod_bolt_torque", 30, "90°", "AQ", "ML"),
        ("Head bolts step 1", 10, "oil", "head_bolt_torque", 30, None, "AQ", "ML"),
        ("Head bolts step 2", 10, "oil", "head_bolt_torque", 60, None, None, None),
        ("Head bolts step 3", 10, "", None, None, "90°", "AQ", "ML"),
        ("Flywheel bolts", 6, "threadlock", "flywheel_bolt_torque", 75, None, "AQ", "AQ"),
        ("Crank damper bolt", 1, "oil", "damper_bolt_torque", 180, None, "AQ", "ML"),
        ("Cam sprocket bolts", 2, "dry", "cam_bolt_torque", 50, None, "AQ", "ML"),
        ("Sump bolts", 18, "dry", None, 10, None, "AQ", ""),
        ("Oil drain plug", 1, "", None, 35, None, "AQ", ""),
    ]
    for row, (name, count, lube, quantity, torque, angle, done, seen) in enumerate(lines, 7):
        p.rows(f"A{row}", [[name, count, lube, None, angle, done, seen]])
        if quantity:
            p.fact(f"D{row}", quantity, torque, "Nm")
        elif torque:
            p.put(f"D{row}", torque).either(f"D{row}")
    p.plant(
        "unsigned_step",
        "head bolts step 2 has no initials on a released build",
        "F10",
        "G10",
        "A10",
        "D10",
    )
    p.put("A19", "Rod bolt stretch (mm)", bold=True).heads("A20", "Rod", 1, 2, 3, 4).labels(
        "A21", "bolt a", "bolt b"
    )
    p.across("B21", "rod_bolt_stretch", "mm", [0.152, 0.15, 0.155, 0.151]).across(
        "B22", "rod_bolt_stretch", "mm", [0.15, 0.153, 0.152, 0.15]
    )
    p.put("A24", "Crank end float after torque").fact(
        "D24", "crank_end_play", 0.11, "mm", typed="0.11 mm"
    ).put("A25", "Crank turns at 4 Nm / wrench no. 17, cal. due 2025-09")
    return b
