"""A motorcycle single, a kart two-stroke, a superbike's shims, a V-twin in two columns."""

from __future__ import annotations

import datetime

from .pen import Book


def single():
    b = Book(
        "s05",
        "enduro_450_rebuild.xlsx",
        1,
        "single in metric with the builder's own arithmetic; nothing wrong in it",
    )
    p = b.sheet("450", [34, 14, 10, 28])
    p.put("A1", "450 single - top and bottom end", bold=True)
    p.put("A2", "Job").field("B2", "number", "M-118").put("C2", "Rider").field(
        "D2", "customer", "Pia Sorensby"
    )
    p.put("A3", "Bike / engine").field("B3", "engine", "450 enduro, 4 valve").put(
        "C3", "Tech"
    ).field("D3", "builder", "Niko")
    p.put("A4", "Date in").field("B4", "started", datetime.date(2025, 4, 8), shown="dd/mm/yyyy")
    p.put("C4", "Date out").field("D4", "finished", datetime.date(2025, 4, 17), shown="dd/mm/yyyy")
    p.put("A5", "Hours on engine").put("B5", 146)
    p.heads("A7", "What", "Reading", "Unit", "Remarks")
    p.labels(
        "A8",
        "Cylinder bore (plated)",
        "Piston dia., 10 mm up the skirt",
        "Piston to wall",
        "Stroke",
        "Con rod length",
        "Ring gap, top ring",
        "Ring gap, oil rails",
        "Squish (solder)",
        "Piston pin",
        "Small end eye",
        "Pin play",
        "Big end side clearance",
        "Crank run out, left",
        "Base gasket",
        "Head gasket, compressed",
        "Combustion chamber, burette",
        "Valve lash IN",
        "Valve lash EX",
        "Leak down",
        "Compression",
    )
    p.rows("C8", [[u] for u in ["mm"] * 15 + ["cc", "mm", "mm", "%", "bar"]])
    p.fact("B8", "bore", 94.512, "mm", shown="0.000").fact(
        "B9", "piston_diameter", 94.468, "mm", shown="0.000"
    )
    p.formula("B10", "=B8-B9", "piston_clearance", "mm", shown="0.000").fact(
        "B11", "stroke", 64.1, "mm"
    ).fact("B12", "rod_length", 109, "mm")
    p.fact("B13", "top_ring_gap", 0.32, "mm").fact("B14", "oil_ring_gap", 0.45, "mm").fact(
        "B15", "quench", 0.95, "mm"
    )
    p.fact("B16", "pin_diameter", 17.998, "mm", shown="0.000").fact(
        "B17", "small_end_bore", 18.018, "mm", shown="0.000"
    )
    p.formula("B18", "=B17-B16", "pin_clearance", "mm", shown="0.000").fact(
        "B19", "rod_side_clearance", 0.38, "mm"
    )
    p.fact("B20", "crank_runout", 0.02, "mm").fact("B21", "base_gasket_thickness", 0.4, "mm").fact(
        "B22", "gasket_thickness", 0.55, "mm"
    )
    p.fact("B23", "chamber_volume", 38.6, "cc").fact("B24", "intake_lash", 0.12, "mm").fact(
        "B25", "exhaust_lash", 0.18, "mm"
    )
    p.fact("B26", "leakage", 6, "%").fact("B27", "cranking_pressure", 9.8, "bar")
    p.put("D20", "limit 0.05").put("D9", "size A, new").put("D24", "spec 0.10-0.15").put(
        "D25", "spec 0.15-0.20"
    ).put("D13", "max 0.50")
    p.put("A29", "Capacity").formula(
        "B29", "=PI()/4*(B8/10)^2*(B11/10)", "displacement", "cc", shown="0.0"
    ).put("C29", "cc")
    p.put("A31", "Torques").rows("A32", [["Head nuts"], ["Rotor nut"], ["Clutch nut"]])
    p.fact("B32", "head_bolt_torque", 52, "Nm").put("C32", "Nm").put("B33", 60).put(
        "C33", "Nm"
    ).put("B34", 80).put("C34", "Nm").either("B33", "B34")
    return b


def kart():
    b = Book(
        "s06",
        "kart125_barrel3.xlsx",
        1,
        "two-stroke with port timing; nothing wrong in it",
        eng=True,
    )
    p = b.sheet("Barrel 3", [30, 12, 12])
    p.put("A1", "KART 125 / barrel no. 3 / round 4", bold=True)
    p.labels("A2", "Sheet", "Driver", "Motor", "Prepared by", "Begun", "Ready")
    p.field("B2", "number", "K125-3-4").field("B3", "customer", "O. Marchetti").field(
        "B4", "engine", "125 reed kart"
    ).field("B5", "builder", "Gus")
    p.field("B6", "started", datetime.date(2025, 6, 2), shown="yyyy-mm-dd").field(
        "B7", "finished", datetime.date(2025, 6, 5), shown="yyyy-mm-dd"
    )
    p.labels(
        "A9",
        "bore mm",
        "stroke mm",
        "piston mm",
        "clearance mm",
        "rod mm",
        "ring gap mm",
        "squish mm",
        "head volume cc (to plug)",
        "swept cc",
        "exhaust opens ATDC",
        "transfers open ATDC",
        "mean piston speed at 14200",
        "ignition mm BTDC",
    )
    p.fact("B9", "bore", 54.47, "mm", shown="0.00").fact("B10", "stroke", 53.6, "mm").fact(
        "B11", "piston_diameter", 54.39, "mm", shown="0.00"
    )
    p.formula(
        "B12", '=ENG.PISTON_CLEARANCE(B9,B11,"metric")', "piston_clearance", "mm", shown="0.000"
    ).fact("B13", "rod_length", 109, "mm")
    p.fact("B14", "top_ring_gap", 0.22, "mm").fact("B15", "quench", 0.98, "mm").fact(
        "B16", "chamber_volume", 10.4, "cc"
    )
    p.formula("B17", '=ENG.CYLINDER_VOLUME(B9,B10,"metric")', "cylinder_volume", "cc", shown="0.00")
    p.fact("B18", "exhaust_port_opening", 86, "deg").fact(
        "B19", "transfer_port_opening", 116, "deg"
    ).put("C18", "deg").put("C19", "deg")
    p.formula("B20", '=ENG.MEAN_PISTON_SPEED(B10,14200,"metric")').put("B21", 2.4).either(
        "B20", "B21"
    )
    p.put("C22", "jet 158 / plug 10").put(
        "A24", "Barrels 1 and 2: see old file. Squish checked with 1.5 solder both sides."
    )
    return b


def shims():
    b = Book(
        "s18",
        "superbike_shims.xlsx",
        4,
        (
            "shim table of sixteen valves; exhaust of cylinder 3 outside the "
            "book's own limits, marked OK"
        ),
    )
    p = b.sheet("ValveClearance")
    p.put("A1", "Valve clearance record", bold=True).put("A2", "W/O").field(
        "B2", "number", "2025-0461"
    ).put("D2", "Owner").field("E2", "customer", "Hana Mizuki")
    p.put("A3", "Model").field("B3", "engine", "1000 inline four").put("D3", "Technician").field(
        "E3", "builder", "Kei"
    )
    p.put("A4", "Received").field("B4", "started", "2025/05/12").put("D4", "Completed").field(
        "E4", "finished", "2025/05/14"
    )
    for key, day in (("started", "2025-05-12"), ("finished", "2025-05-14")):
        known = b.jobs[0].fields[key]
        known["also"], known["value"] = [known["value"]], day
    p.put("A5", "Odometer 31 204 km").put(
        "D5", "Standard  IN 0.15 - 0.22   EX 0.20 - 0.27  (mm, cold)"
    )
    p.merge("B7:C7", "D7:E7", "F7:G7", "H7:I7").put("A7", "Cylinder").rows(
        "B7", [["#1", None, "#2", None, "#3", None, "#4"]], bold=True
    )
    p.heads("A8", "", "L", "R", "L", "R", "L", "R", "L", "R")
    cylinders = [1, 1, 2, 2, 3, 3, 4, 4]
    p.put("A9", "INTAKE", bold=True).labels(
        "A10", "clearance before", "shim before", "shim after", "clearance after"
    )
    p.across(
        "B10",
        "intake_lash_found",
        "mm",
        [0.13, 0.15, 0.14, 0.12, 0.15, 0.14, 0.13, 0.16],
        cylinders,
    )
    p.across(
        "B11",
        "lash_shim_thickness_found",
        "mm",
        [2.60, 2.55, 2.60, 2.65, 2.55, 2.60, 2.60, 2.50],
        cylinders,
        shown="0.00",
    )
    p.across(
        "B12",
        "lash_shim_thickness",
        "mm",
        [2.55, 2.50, 2.55, 2.60, 2.50, 2.55, 2.55, 2.50],
        cylinders,
        shown="0.00",
    )
    p.across(
        "B13", "intake_lash", "mm", [0.18, 0.20, 0.19, 0.17, 0.20, 0.19, 0.18, 0.16], cylinders
    )
    p.put("A14", "EXHAUST", bold=True).labels(
        "A15", "clearance before", "shim before", "shim after", "clearance after"
    )
    p.across(
        "B15",
        "exhaust_lash_found",
        "mm",
        [0.19, 0.21, 0.18, 0.20, 0.17, 0.19, 0.22, 0.21],
        cylinders,
    )
    p.across(
        "B16",
        "lash_shim_thickness_found",
        "mm",
        [2.70, 2.65, 2.70, 2.70, 2.75, 2.70, 2.65, 2.65],
        cylinders,
        shown="0.00",
    )
    p.across(
        "B17",
        "lash_shim_thickness",
        "mm",
        [2.65, 2.65, 2.65, 2.65, 2.75, 2.65, 2.65, 2.65],
        cylinders,
        shown="0.00",
    )
    p.across(
        "B18", "exhaust_lash", "mm", [0.24, 0.21, 0.23, 0.25, 0.17, 0.24, 0.22, 0.21], cylinders
    )
    p.job.facts[-4]["doubt"] = True
    p.rows("J7", [["check"]] + [[None]] * 5 + [["OK"]] + [[None]] * 4 + [["OK"]])
    p.plant("out_of_own_limits", "exhaust 3 L left at 0.17 against 0.20-0.27", "F18", "F15", "D5")
    p.put("A20", "Spark plug gap").fact("B20", "spark_plug_gap", 0.8, "mm", typed="0.8 mm").put(
        "A21", "Idle rpm"
    ).put("B21", 1250)
    p.put("A22", "Compression kPa x100").across(
        "B22", "cranking_pressure", "bar", [14.2, 14.0, 14.3, 14.1], skip=2
    )
    p.either("B21", "D5", "A5", "J13", "J18")
    return b


def twin():
    b = Book(
        "s27",
        "vtwin 94 front rear.xlsx",
        2,
        "front and rear in two columns, remarks between; nothing wrong in it",
    )
    p = b.sheet("Motor", [28, 12, 12, 30])
    p.put("A1", "V twin 94 in. stroker").put("D1", "Hollow Creek Cycle, tel 5550147")
    p.put("A2", "ticket").field("B2", "number", "HC-0312").put("A3", "belongs to").field(
        "B3", "customer", "Big Lou Desmarais"
    )
    p.put("A4", "motor").field("B4", "engine", "94 inch air cooled").put("A5", "by").field(
        "B5", "builder", "Wade"
    )
    p.put("A6", "in").field("B6", "started", datetime.date(2025, 2, 3), shown="d-mmm-yy").put(
        "A7", "out"
    ).field("B7", "finished", datetime.date(2025, 3, 1), shown="d-mmm-yy")
    p.heads("B9", "FRONT", "REAR", "notes")
    p.labels(
        "A10",
        "bore",
        "pistion",
        "fit",
        "top ring",
        "2nd ring",
        "oil rails",
        "deck (below)",
        "chamber cc",
        "valve seat width int",
        "valve seat width ex",
        "int guide clearence",
        "ex guide clearence",
        "spring seat lbs",
        "installed height int",
        "leak down %",
    )
    sides = [1, 2]
    p.across("B10", "bore", "in", [3.6052, 3.6054], sides).across(
        "B11", "piston_diameter", "in", [3.6017, 3.6018], sides
    )
    p.formulas_across("B12", "={c}10-{c}11", 2, "piston_clearance", "in", sides, ".0000")
    p.across("B13", "top_ring_gap", "in", [0.017, 0.018], sides).across(
        "B14", "second_ring_gap", "in", [0.018, 0.018], sides
    )
    p.across("B15", "oil_ring_gap", "in", [0.021, 0.022], sides).across(
        "B16", "deck_clearance", "in", [0.009, 0.010], sides, shown=".000"
    )
    p.across("B17", "chamber_volume", "cc", [86.2, 86.0], sides).across(
        "B18", "intake_seat_width", "in", [0.06, 0.062], sides
    )
    p.across("B19", "exhaust_seat_width", "in", [0.078, 0.08], sides).across(
        "B20", "intake_stem_clearance", "in", [0.0016, 0.0017], sides
    )
    p.across("B21", "exhaust_stem_clearance", "in", [0.0024, 0.0025], sides).across(
        "B22", "spring_seat_load", "lbf", [120, 122], sides
    )
    p.across("B23", "intake_spring_height", "in", [1.46, 1.455], sides).across(
        "B24", "leakage", "%", [5, 6], sides
    )
    p.put("D10", "80 over, new barrels").put("D13", "filed").put("D17", "w/ plug in")
    p.put("A26", "stroke").fact("B26", "stroke", 4.605, "in").put("A27", "rods").fact(
        "B27", "rod_length", 7.36, "in"
    )
    p.put("A28", "crank pin side play").fact("B28", "rod_side_clearance", 0.014, "in").put(
        "A29", "flywheel runout left / right"
    )
    p.fact("B29", "flywheel_runout", 0.001, "in").fact("C29", "flywheel_runout", 0.0015, "in")
    p.put("A30", "displacement").formula(
        "B30", "=3.1416*B10^2/4*B26*2", "displacement", "ci", shown="0.0"
    ).put("C30", "cu in")
    return b
