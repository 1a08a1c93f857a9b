"""British books: a vintage four in thou and fractions, a racing six, a flat twin left half done."""

from __future__ import annotations

import datetime

from .pen import Book


def vintage():
    b = Book(
        "s12",
        "Vintage light car engine.xlsx",
        4,
        "thou and fractions typed as text; nothing wrong in it",
    )
    p = b.sheet("Engine", [38, 16, 16, 16, 16])
    p.put("A1", "Hargreave & Son, Old Forge  -  engine record", bold=True).put(
        "A2", "Ledger No."
    ).field("B2", "number", "VC/44").put("C2", "Owner").field("D2", "customer", "Dr. P. Ashlocke")
    p.put("A3", "Engine").field("B3", "engine", "1926 light car, side valve four").put(
        "C3", "Fitter"
    ).field("D3", "builder", "Mr. Tolley")
    p.put("A4", "Commenced").field("B4", "started", "4th March 2024").put("C4", "Completed").field(
        "D4", "finished", "19th July 2024"
    )
    for key, day in (("started", "2024-03-04"), ("finished", "2024-07-19")):
        known = b.jobs[0].fields[key]
        known["also"], known["value"] = [known["value"]], day
    p.put("A6", "No. 1 at the radiator end.").heads("B6", "No. 1", "No. 2", "No. 3", "No. 4")
    p.labels(
        "A7",
        "Bore, after honing",
        "Piston clearance at skirt",
        "Gap, top ring",
        "Gap, middle ring",
        "Gap, scraper",
        "Big end clearance",
        "Tappet, inlet",
        "Tappet, exhaust",
    )
    p.across("B7", "bore", "in", [2.3304, 2.3306, 2.3305, 2.3304], typed=lambda v: f'{v:.4f}"')
    for row, quantity, values in (
        (8, "piston_clearance", [3, 3, 3.5, 3]),
        (9, "top_ring_gap", [9, 10, 9, 9]),
        (10, "second_ring_gap", [9, 9, 10, 9]),
        (11, "oil_ring_gap", [8, 8, 8, 9]),
        (12, "rod_bearing_clearance", [1.5, 1.5, 2, 1.5]),
        (13, "intake_lash", [4] * 4),
        (14, "exhaust_lash", [6] * 4),
    ):
        p.across(f"B{row}", quantity, "thou", values, typed=lambda v: f"{v:g} thou")
    p.labels(
        "A16",
        "Stroke",
        "Connecting rod centres",
        "Gudgeon pin dia.",
        "Inlet valve stem",
        "Head gasket",
        "Crank end float",
        "Main clearance, front",
        "Main clearance, rear",
        "Plug gap",
        "Oil pressure, running",
        "Head nuts",
    )
    p.fact("B16", "stroke", 3.5, "in", typed='3 1/2"').fact(
        "B17", "rod_length", 7.125, "in", typed='7 1/8"'
    ).fact("B18", "pin_diameter", 0.625, "in", typed='5/8"').fact(
        "B19", "intake_stem_diameter", 0.3125, "in", typed='5/16"'
    )
    p.fact("B20", "gasket_thickness", 0.0625, "in", typed='1/16" copper').fact(
        "B21", "crank_end_play", 5, "thou", typed="5 thou"
    ).fact("B22", "main_bearing_clearance", 2, "thou", "front", typed="2 thou").fact(
        "B23", "main_bearing_clearance", 2.5, "thou", "rear", typed="2½ thou"
    )
    p.fact("B24", "spark_plug_gap", 18, "thou", typed="18 thou").fact(
        "B25", "oil_pressure", 12, "psi", typed="12 lb./sq.in."
    ).fact("B26", "head_bolt_torque", 25, "lbf.ft", typed="25 lb.ft")
    p.put(
        "A28",
        (
            "White metal re-run by Dunmoor Bearings, their invoice 1187, £410.00. "
            'Valves 1 1/4" head, 45 deg.'
        ),
    )
    return b


def racing():
    b = Book(
        "s17",
        "Historic junior engine 7.xlsx",
        4,
        "racing four; cylinder 2 has bore and piston exchanged",
        eng=True,
    )
    p = b.sheet("Build 7", [34, 11, 11, 11, 11, 20])
    p.put("A1", "Ferndale Motor Engineering - historic junior engine no. 7", bold=True).put(
        "A2", "Build ref:"
    ).field("B2", "number", "HJ7/B3").put("D2", "Entrant:").field(
        "E2", "customer", "Calloway Historics"
    )
    p.put("A3", "Unit:").field("B3", "engine", "1100 pushrod four").put("D3", "Built by:").field(
        "E3", "builder", "R. Penhale"
    )
    p.put("A4", "Strip:").field(
        "B4", "started", datetime.date(2025, 2, 17), shown="dd mmm yyyy"
    ).put("D4", "Signed off:").field(
        "E4", "finished", datetime.date(2025, 3, 14), shown="dd mmm yyyy"
    )
    p.heads("A6", 'Cylinder (dims ")', 1, 2, 3, 4, "Limits")
    p.labels(
        "A7",
        "Bore",
        "Piston",
        "Running clearance",
        "Top gap",
        "Second gap",
        "Down the bore at TDC",
        "Chamber, cc",
        "Squish",
        "Inlet valve lift",
        "Exhaust valve lift",
        "Inlet valve to piston",
        "Exhaust valve to piston",
        "Rod side float",
    )
    bores, pistons = [3.2852, 3.2821, 3.2852, 3.2853], [3.2822, 3.2853, 3.2821, 3.2823]
    p.across("B7", "bore", "in", bores, doubt={2}, shown="0.0000").across(
        "B8", "piston_diameter", "in", pistons, doubt={2}, shown="0.0000"
    ).plant("exchanged", "bore and piston of 2 exchanged", "C7", "C8", "C9")
    p.across(
        "B9", "piston_clearance", "in", [0.003, 0.0032, 0.0031, 0.003], stated=True, shown="0.0000"
    ).across("B10", "top_ring_gap", "in", [0.014, 0.014, 0.015, 0.014]).across(
        "B11", "second_ring_gap", "in", [0.013, 0.014, 0.013, 0.013]
    )
    p.across("B12", "deck_clearance", "in", [0.01, 0.009, 0.01, 0.011]).across(
        "B13", "chamber_volume", "cc", [24.6, 24.5, 24.6, 24.5]
    ).formulas_across("B14", "=ENG.QUENCH({c}12,$B$23)", 4, "quench", "in", shown="0.000")
    p.across("B15", "intake_valve_lift", "in", [0.375, 0.376, 0.374, 0.375]).across(
        "B16", "exhaust_valve_lift", "in", [0.362, 0.361, 0.362, 0.36]
    ).across("B17", "intake_valve_to_piston", "in", [0.07, 0.072, 0.07, 0.069], shown="0.000")
    p.across("B18", "exhaust_valve_to_piston", "in", [0.095, 0.096, 0.094, 0.095]).across(
        "B19", "rod_side_clearance", "in", [0.01, 0.011, 0.01, 0.01]
    ).rows(
        "F7",
        [
            ["3.2845 - 3.2860"],
            [None],
            [".0025 - .0035"],
            [".013 min"],
            [None],
            [None],
            ["within 0.3"],
            [".040 - .055"],
        ],
    )
    p.labels(
        "A21",
        "Stroke",
        "Rod centres",
        "Gasket, nipped",
        "Gasket bore",
        "Piston crown vol. cc (+ dish)",
        "CR no. 1",
        "Crank end float",
        "cc of engine",
    ).fact("B21", "stroke", 1.98, "in", shown="0.000")
    p.fact("B22", "rod_length", 4.955, "in").fact("B23", "gasket_thickness", 0.035, "in").fact(
        "B24", "gasket_bore", 3.33, "in", shown="0.000"
    ).fact("B25", "crown_volume", 1.2, "cc").fact("B27", "crank_end_play", 0.004, "in")
    p.formula(
        "B26",
        (
            "=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME(B7,B21),B13,"
            "ENG.GASKET_VOLUME(B24,B23),ENG.DECK_VOLUME(B7,B12),B25)"
        ),
        "compression_ratio",
        "1",
        1,
        shown="0.00",
    )
    p.formula("B28", "=PI()/4*(B7*2.54)^2*B21*2.54*4", "displacement", "cc", shown="0")
    p.heads("A30", "Mains", "Front", "Centre", "Rear").labels(
        "A31", "Journal", "Shell bore, nipped", "Clearance"
    ).across(
        "B31",
        "main_journal",
        "in",
        [1.9603, 1.9604, 1.9603],
        [1, 2, 3],
        shown="0.0000",
    )
    p.across(
        "B32",
        "main_bearing_bore",
        "in",
        [1.9623, 1.9624, 1.9625],
        [1, 2, 3],
        shown="0.0000",
    ).formulas_across(
        "B33",
        "={c}32-{c}31",
        3,
        "main_bearing_clearance",
        "in",
        [1, 2, 3],
        "0.0000",
    )
    p.heads("A35", "Big ends", 1, 2, 3, 4).put("A36", "Pin").put("A37", "Clearance").across(
        "B36", "rod_journal", "in", [1.6554, 1.6554, 1.6553, 1.6554], shown="0.0000"
    ).across("B37", "rod_bearing_clearance", "in", [0.0021, 0.0021, 0.0022, 0.002], shown="0.0000")
    p.put(
        "A39",
        (
            "Cam 301-R, timed 104 full lift. Head torqued 45 lb.ft. Mains 60, rods "
            "40 (oiled threads). Sump plug wired."
        ),
    ).either("A39")
    return b


def half_done():
    b = Book(
        "s30",
        "flat twin - waiting on pistons.xlsx",
        2,
        "an open job: much of it still to come; nothing wrong in it",
    )
    b.jobs[0].finished = False
    p = b.sheet("Twin", [32, 14, 14, 34])
    p.put("A1", "FLAT TWIN 800 – top end").put("A2", "Job").field("B2", "number", "31/25").put(
        "A3", "Customer"
    ).field("B3", "customer", "N. Fairbrother").put("A4", "Engine").field(
        "B4", "engine", "800 flat twin, air cooled"
    )
    p.put("A5", "Started").field(
        "B5", "started", datetime.date(2025, 9, 1), shown="dd/mm/yyyy"
    ).put("A6", "Finished").put("B6", "waiting on pistons").put("A7", "Fitter").field(
        "B7", "builder", "Morag"
    )
    p.heads("A9", "mm", "LH", "RH", "remarks")
    p.labels(
        "A10",
        "Barrel bore",
        "Piston dia",
        "Clearance",
        "Ring gap top",
        "Ring gap second",
        "Deck height (piston below barrel top)",
        "Chamber cc",
        "Exhaust guide bore",
        "Exhaust valve stem",
        "Inlet valve seat width",
        "Exhaust valve seat width",
        "Head nuts",
    )
    sides = ["L", "R"]
    p.across("B10", "bore", "mm", [81.41, 81.412], sides, shown="0.000").rows(
        "B11", [["tbc", "tbc"], ["", ""], ["tbc", "tbc"], ["?", "tbc"], ["n/a yet", ""]]
    ).across("B16", "chamber_volume", "cc", [58.4, 58.6], sides)
    p.across("B17", "exhaust_guide_bore", "mm", [8.035, 8.034], sides, shown="0.000").across(
        "B18", "exhaust_stem_diameter", "mm", [7.965, 7.966], sides, shown="0.000"
    ).across("B19", "intake_seat_width", "mm", [1.5, 1.5], sides).across(
        "B20", "exhaust_seat_width", "mm", [1.8, 1.9], sides
    )
    p.put("D11", "ordered 12/9, 2nd o/s, ref 80-442").put("B21", "see manual").put(
        "A23", "Crank end float"
    ).fact("B23", "crank_end_play", 0.12, "mm").put("A24", "Rod side float").across(
        "B24", "rod_side_clearance", "mm", [0.18, 0.2], sides
    )
    p.put("A25", "Stroke").fact("B25", "stroke", 76.4, "mm").legit(
        "still to come", *(f"{c}{r}" for c in "BC" for r in range(11, 16)), "B21", "B6"
    )
    return b
