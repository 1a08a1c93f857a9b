"""Heavier engines: a diesel six, a tractor, the two engines of a boat."""

from __future__ import annotations

import datetime

from .pen import Book


def diesel():
    b = Book(
        "s07",
        "WO-70418 diesel liner kit.xlsx",
        6,
        "unit, min and max columns; liner 4 above the book's own maximum, ticked",
    )
    p = b.sheet("Measurements", [30, 8, 9, 9, 9, 9, 9, 9, 9, 9, 9])
    p.put("A1", "HEAVY ENGINE OVERHAUL RECORD", bold=True)
    p.put("A2", "Work order no.").field("C2", "number", "70418").put("F2", "Client").field(
        "H2", "customer", "Northern Aggregates Pty"
    )
    p.put("A3", "Engine type").field("C3", "engine", "6 cyl 11 litre, loader").put(
        "F3", "Fitter"
    ).field("H3", "builder", "S. Okoro")
    p.put("A4", "Opened").field(
        "C4", "started", datetime.date(2025, 3, 11), shown="dd.mm.yyyy"
    ).put("F4", "Closed")
    p.field("H4", "finished", datetime.date(2025, 4, 4), shown="dd.mm.yyyy").put(
        "A5", "Machine hours"
    ).put("C5", 18204)
    p.heads(
        "A7",
        "Description",
        "Unit",
        "Min",
        "Max",
        "Cyl 1",
        "Cyl 2",
        "Cyl 3",
        "Cyl 4",
        "Cyl 5",
        "Cyl 6",
        "OK",
    )
    rows = [
        (
            "Liner protrusion",
            "mm",
            0.05,
            0.12,
            "liner_protrusion",
            [0.08, 0.09, 0.08, 0.15, 0.1, 0.09],
        ),
        ("Liner bore, fitted", "mm", 124.0, 124.03, "bore", b.near(124.014, 6, 0.002, digits=3)),
        (
            "Piston skirt dia",
            "mm",
            123.86,
            123.89,
            "piston_diameter",
            b.near(123.876, 6, 0.002, digits=3),
        ),
        (
            "Ring gap, 1st compression",
            "mm",
            0.35,
            0.55,
            "top_ring_gap",
            b.near(0.44, 6, 0.02, digits=2),
        ),
        (
            "Ring gap, 2nd compression",
            "mm",
            0.6,
            0.85,
            "second_ring_gap",
            b.near(0.7, 6, 0.02, digits=2),
        ),
        ("Ring gap, oil control", "mm", 0.3, 0.55, "oil_ring_gap", b.near(0.42, 6, 0.02, digits=2)),
        (
            "Piston projection above block",
            "mm",
            0.1,
            0.5,
            "piston_protrusion",
            b.near(0.31, 6, 0.02, digits=2),
        ),
        (
            "Big end oil clearance",
            "mm",
            0.06,
            0.12,
            "rod_bearing_clearance",
            b.near(0.086, 6, 0.002, digits=3),
        ),
        ("Rod side float", "mm", 0.15, 0.4, "rod_side_clearance", b.near(0.25, 6, 0.02, digits=2)),
        (
            "Injector opening press.",
            "bar",
            245,
            255,
            "injector_pressure",
            [250, 248, 250, 251, 250, 249],
        ),
        (
            "Valve recession inlet",
            "mm",
            0.9,
            1.4,
            "intake_valve_recession",
            b.near(1.1, 6, 0.05, digits=2),
        ),
        (
            "Valve recession exh",
            "mm",
            0.9,
            1.4,
            "exhaust_valve_recession",
            b.near(1.15, 6, 0.05, digits=2),
        ),
        (
            "Compression test, warm",
            "bar",
            26,
            None,
            "cranking_pressure",
            [28.5, 28, 28.5, 29, 28, 28.5],
        ),
    ]
    for row, (label, unit, low, high, quantity, values) in enumerate(rows, 8):
        p.rows(f"A{row}", [[label, unit, low, high]]).across(
            f"E{row}", quantity, unit, values, doubt={4} if row == 8 else ()
        ).put(f"K{row}", "✓")
    p.plant(
        "out_of_own_limits", "liner 4 stands 0.15 proud against 0.05-0.12, ticked", "H8", "D8", "K8"
    )
    p.heads("A23", "Main bearings", "Unit", "Min", "Max", 1, 2, 3, 4, 5, 6, 7)
    p.rows("A24", [["Main journal", "mm", 97.98, 98.0], ["Main oil clearance", "mm", 0.07, 0.13]])
    p.across("E24", "main_journal", "mm", b.near(97.99, 7, 0.003, digits=3), shown="0.000").across(
        "E25", "main_bearing_clearance", "mm", b.near(0.095, 7, 0.003, digits=3)
    )
    p.rows("A26", [["Crankshaft end float", "mm", 0.1, 0.35]]).fact(
        "E26", "crank_end_play", 0.22, "mm"
    ).put("A27", "Head gasket grade fitted").put("E27", "3 notch")
    p.rows("A28", [["Cyl. head bolts, step 1", "Nm"], ["step 2", "Nm"], ["then", "deg"]]).put(
        "E28", 100
    ).put("E29", 200).put("E30", 90)
    p.either("E28", "E29", "E30", "E27").put(
        "A32",
        "Kit p/n 88-4410-07 / invoice 20931 / liner o-rings lubed, counterbores cut 0.2 & shimmed",
    )
    return b


def tractor():
    b = Book(
        "s10",
        "tractor four.xls",
        4,
        "old .xls; inches, one line in mm, a clearance typed in thou in an inch table",
        calculated=True,
    )
    p = b.sheet("Sheet1", [28, 11, 11, 11, 11])
    p.put("A1", "BAKKE FARM REPAIR").put("A2", "Job no").field("B2", "number", "1388").put(
        "A3", "For"
    ).field("B3", "customer", "Merlin Aas")
    p.put("A4", "Tractor").field("B4", "engine", "4 cyl gas, 3 mains").put("A5", "Done by").field(
        "B5", "builder", "Orrin"
    )
    p.put("A6", "Brought in").field("B6", "started", "11/18/2024").put("A7", "Picked up").field(
        "B7", "finished", "12/20/2024"
    )
    for key, day in (("started", "2024-11-18"), ("finished", "2024-12-20")):
        known = b.jobs[0].fields[key]
        known["also"], known["value"] = [known["value"]], day
    p.put("A9", "all inch").heads("B9", "1", "2", "3", "4")
    p.labels(
        "A10",
        "Sleeve bore",
        "Piston",
        "Sleeve stand out",
        "Rod brg clearance",
        "Main clearance (3 mains)",
        "Top ring gap",
        "Valve lash int",
        "Valve lash exh",
    )
    p.across("B10", "bore", "in", b.near(3.9105, 4, 0.0002)).across(
        "B11", "piston_diameter", "in", b.near(3.9062, 4, 0.0002)
    )
    p.across("B12", "liner_protrusion", "in", [0.003, 0.0035, 0.003, 0.0025]).across(
        "B13", "rod_bearing_clearance", "in", [0.002, 0.0022, 2.1, 0.002], doubt={3}
    )
    p.plant("thou_for_inch", "rod 3 typed 2.1 (thou) among inches", "D13").across(
        "B14", "main_bearing_clearance", "in", [0.003, 0.0028, 0.003]
    )
    p.across("B15", "top_ring_gap", "in", [0.014, 0.013, 0.014, 0.015]).across(
        "B16", "intake_lash", "in", [0.015] * 4
    ).across("B17", "exhaust_lash", "in", [0.018] * 4)
    p.put("A19", "Stroke").fact("B19", "stroke", 3.375, "in", typed="3-3/8").put(
        "A20", "Head gasket, crushed"
    ).fact("B20", "gasket_thickness", 1.5, "mm", typed="1.5mm")
    p.put("A21", "Crank end play").fact("B21", "crank_end_play", 0.008, "in").put(
        "A22", "Head bolts"
    ).fact("B22", "head_bolt_torque", 65, "lbf.ft", typed="65 ft lb")
    p.put("A23", "Rod bolts").fact("B23", "rod_bolt_torque", 40, "lbf.ft", typed="40 ft lb").put(
        "A24", "Oil press. hot"
    ).fact("B24", "oil_pressure", 28, "psi", typed="28 lbs")
    p.put("D19", "sleeves 186.40").put("D20", "gasket set 71.15").put("D21", "water pump 54")
    return b


def _marine(b, p, number, side, spread):
    p.put("A1", "M.V. Petrel - repower, sheet " + side, bold=True).put("A2", "JOB").field(
        "B2", "number", number
    )
    p.put("A3", "Owner").field("B3", "customer", "Harbor Pilots Coop").put("A4", "Engine").field(
        "B4", "engine", f"V8 inboard {side.lower()}"
    )
    p.put("A5", "Rotation").put("B5", "LH" if side == "PORT" else "RH").put("D2", "Tech").field(
        "E2", "builder", "Ines"
    )
    p.put("D3", "In").field("E3", "started", datetime.date(2024, 2, 5), shown="mmm d, yyyy").put(
        "D4", "Out"
    ).field("E4", "finished", datetime.date(2024, 3, 22), shown="mmm d, yyyy")
    p.heads(
        "A7", "Cyl", "Bore", "Piston", "Clearance", "Ring 1", "Ring 2", "Rod clr", "Leak %"
    ).rows("A8", [[n] for n in range(1, 9)])
    p.down("B8", "bore", "in", b.near(4.0507 + spread, 8, 0.0001), shown="0.0000").down(
        "C8", "piston_diameter", "in", b.near(4.0466 + spread, 8, 0.0001), shown="0.0000"
    )
    p.formulas_down("D8", "=B{r}-C{r}", 8, "piston_clearance", "in", shown="0.0000").down(
        "E8", "top_ring_gap", "in", b.near(0.024, 8, 0.001, 1, 3)
    )
    p.down("F8", "second_ring_gap", "in", b.near(0.026, 8, 0.001, 1, 3)).down(
        "G8", "rod_bearing_clearance", "in", b.near(0.0023, 8, 0.0001), shown="0.0000"
    )
    p.down("H8", "leakage", "%", b.near(4, 8, 1, 1, 0)).put("A16", "avg").put(
        "B16", "=AVERAGE(B8:B15)", shown="0.0000"
    ).put("D16", "=AVERAGE(D8:D15)", shown="0.0000").either("B16", "D16")


def marine():
    b = Book(
        "s11",
        "Petrel port+stbd.xlsx",
        8,
        "two engines in one book, a sheet each; one main clearance is that of one side",
    )
    p = b.sheet("PORT")
    _marine(b, p, "PB-77P", "PORT", 0)
    p.heads("A18", "Main", 1, 2, 3, 4, 5).put("A19", "Main clr (total)").across(
        "B19", "main_bearing_clearance", "in", [0.0025, 0.0026, 0.0012, 0.0026, 0.0027], doubt={3}
    )
    p.plant(
        "per_side",
        "main 3 of the port engine .0012, half of its neighbors: measured per side",
        "D19",
    ).put("A20", "Thrust").fact("B20", "crank_end_play", 0.006, "in")
    b.next_job(8)
    p = b.sheet("STBD")
    _marine(b, p, "PB-77S", "STARBOARD", 0.0002)
    p.heads("A18", "Main", 1, 2, 3, 4, 5).put("A19", "Main clr (total)").across(
        "B19", "main_bearing_clearance", "in", b.near(0.0026, 5, 0.0001)
    )
    p.put("A20", "Thrust").fact("B20", "crank_end_play", 0.0065, "in")
    return b
