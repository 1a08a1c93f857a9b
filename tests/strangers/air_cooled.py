"""Two air-cooled engines: a flat four with ENG formulas, a flat six with hidden roughing sizes."""

from __future__ import annotations

import datetime

from .pen import Book


def flat_four():
    b = Book(
        "s08",
        "AC4 2030cc.xlsx",
        4,
        "cylinder 3 deck typed with a minus among pistons that all stand below",
        eng=True,
    )
    p = b.sheet("Long block", [36, 11, 11, 11, 11])
    p.put("A1", "Sandhill Air-Cooled  -- long block sheet", bold=True).put("A2", "Job:").field(
        "B2", "number", "AC-0219"
    ).put("D2", "For:").field("E2", "customer", "Jorge Almanza")
    p.put("A3", "Engine:").field("B3", "engine", "2030 flat four").put("D3", "By:").field(
        "E3", "builder", "Lupe"
    )
    p.put("A4", "Start:").field("B4", "started", datetime.date(2025, 3, 3), shown="m/d/yy").put(
        "D4", "Done:"
    ).field("E4", "finished", datetime.date(2025, 4, 10), shown="m/d/yy")
    p.put("A5", "metric, mm, unless it says inch").heads("A6", "", "#1", "#2", "#3", "#4")
    p.labels(
        "A7",
        "Barrel I.D.",
        "Piston O.D.",
        "Piston/barrel clearance",
        "Deck, below top of barrel",
        "Barrel shim (base)",
        "Ring gap top",
        "Ring gap 2nd",
        "Chamber cc",
        "C/R",
        "Piston g",
        "Valve adj in (inch)",
        "Valve adj ex (inch)",
    )
    p.across("B7", "bore", "mm", [91.31, 91.312, 91.31, 91.311], shown="0.000").across(
        "B8", "piston_diameter", "mm", [91.255, 91.256, 91.255, 91.254], shown="0.000"
    )
    p.formulas_across(
        "B9",
        '=ENG.PISTON_CLEARANCE({c}7,{c}8,"metric")',
        4,
        "piston_clearance",
        "mm",
        shown="0.000",
    )
    p.across("B10", "deck_clearance", "mm", [1.4, 1.42, -1.4, 1.41], doubt={3}).plant(
        "wrong_sign", "deck of 3 typed -1.40; all stand below", "D10", "D15"
    )
    p.across("B11", "base_gasket_thickness", "mm", [0.5, 0.5, 0.5, 0.5]).across(
        "B12", "top_ring_gap", "mm", [0.38, 0.4, 0.38, 0.39]
    ).across("B13", "second_ring_gap", "mm", [0.42, 0.42, 0.4, 0.41])
    p.across("B14", "chamber_volume", "cc", [54.1, 54.0, 54.2, 54.1])
    ratio = (
        '=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME({c}7,$B$21,"metric"),{c}14,'
        '0,ENG.DECK_VOLUME({c}7,{c}10,"metric"),0,"metric")'
    )
    p.formulas_across("B15", ratio, 4, "compression_ratio", shown="0.00")
    p.across("B16", "piston_mass", "g", [412.5, 412.7, 412.4, 412.6]).across(
        "B17", "intake_lash", "in", [0.006] * 4, typed=lambda v: '.006"'
    ).across(
        "B18",
        "exhaust_lash",
        "in",
        [0.006, 0.006, 0.008, 0.006],
        typed=lambda v: f'.{v * 1000:03.0f}"',
    )
    p.put("A20", "Crank & case", bold=True).labels(
        "A21",
        "Stroke",
        "Rod length",
        "Crank end play",
        "Main oil clr #1",
        "Main oil clr #2",
        "Main oil clr #3",
        "Main oil clr #4",
        "Rod oil clr",
        "Rod side clr",
        "Size",
    )
    p.fact("B21", "stroke", 77.5, "mm").fact(
        "B22", "rod_length", 5.45, "in", typed="5.450 in"
    ).fact("B23", "crank_end_play", 0.12, "mm").down(
        "B24", "main_bearing_clearance", "mm", [0.07, 0.06, 0.065, 0.08]
    )
    p.across("B28", "rod_bearing_clearance", "mm", [0.05, 0.052, 0.048, 0.05]).across(
        "B29", "rod_side_clearance", "mm", [0.25, 0.22, 0.24, 0.25]
    ).formula("B30", '=ENG.DISPLACEMENT(B7,B21,4,"metric")', "displacement", "cc", shown="0").put(
        "C30", "cc"
    )
    p.put(
        "A32",
        (
            "#3 is at the back left. Case savers in. Heads 18 ft-lb. Oil pump 26 "
            "mm. Tin and fan: customer."
        ),
    )
    return b


def flat_six():
    b = Book(
        "s09",
        "flat6_3.0_record.xlsx",
        6,
        "left and right banks; roughing sizes in a hidden column and rows; nothing wrong in it",
        calculated=True,
    )
    p = b.sheet("Cylinders", [14, 12, 12, 12, 12, 12, 12, 12])
    p.put("A1", "Flat six, 3.0, six singles").put("A2", "Record").field(
        "B2", "number", "F6/2025/02"
    ).put("D2", "Keeper").field("E2", "customer", "M. Vanterpool")
    p.put("A3", "Motor").field("B3", "engine", "3.0 flat six air cooled").put(
        "D3", "Assembler"
    ).field("E3", "builder", "Henk / Joss")
    p.put("A4", "From").field("B4", "started", "2025-01-13").put("D4", "To").field(
        "E4", "finished", "2025-03-07"
    )
    p.heads(
        "A6",
        "Cylinder",
        "rough bore",
        "Bore",
        "Piston",
        "Clearance",
        "Top gap",
        "2nd gap",
        "Wt piston",
    )
    p.put("A7", "").rows("B7", [["mm", "mm", "mm", "mm", "mm", "mm", "g"]])
    row = 8
    for side in "LR":
        p.rows(f"A{row}", [[f"{side}{n}"] for n in (1, 2, 3)])
        at = [f"{side}{n}" for n in (1, 2, 3)]
        p.rows(f"B{row}", [[v] for v in b.near(93.52, 3, 0.01, digits=2)]).either(
            *(f"B{r}" for r in range(row, row + 3))
        )
        p.down(f"C{row}", "bore", "mm", b.near(93.612, 3, 0.002, digits=3), at, shown="0.000").down(
            f"D{row}",
            "piston_diameter",
            "mm",
            b.near(93.572, 3, 0.002, digits=3),
            at,
            shown="0.000",
        )
        p.formulas_down(f"E{row}", "=C{r}-D{r}", 3, "piston_clearance", "mm", at, "0.000").down(
            f"F{row}", "top_ring_gap", "mm", b.near(0.32, 3, 0.01, digits=2), at
        )
        p.down(f"G{row}", "second_ring_gap", "mm", b.near(0.36, 3, 0.01, digits=2), at).down(
            f"H{row}", "piston_mass", "g", b.near(438.2, 3, 0.1, digits=1), at
        )
        row += 4
    p.put("A16", "mean").put("C16", "=AVERAGE(C8:C10,C12:C14)", shown="0.000").put(
        "E16", "=AVERAGE(E8:E10,E12:E14)", shown="0.000"
    ).put("H16", "=AVERAGE(H8:H10,H12:H14)").either("C16", "E16", "H16")
    p.put("A18", "rough hone 1").rows(
        "B18", [[93.555, 93.556, 93.555, 93.557, 93.555, 93.556]]
    ).put("A19", "rough hone 2").rows("B19", [[93.585, 93.586, 93.585, 93.584, 93.585, 93.586]])
    p.hide(rows=(18, 19), columns=("B",)).either(*(f"{c}{r}" for r in (18, 19) for c in "BCDEFG"))
    p = b.sheet("Crankcase", [30, 12, 12, 12, 12, 12, 12, 12, 12])
    p.heads("A1", "Main", 1, 2, 3, 4, 5, 6, 7, 8).labels(
        "A2", "Case bore (mm)", "Main journal (mm)", "Oil clearance (mm)"
    )
    p.across(
        "B2", "main_housing_bore", "mm", b.near(63.51, 8, 0.002, digits=3), shown="0.000"
    ).across("B3", "main_journal", "mm", b.near(58.482, 8, 0.001, digits=3), shown="0.000").across(
        "B4", "main_bearing_clearance", "mm", b.near(0.05, 8, 0.002, digits=3), shown="0.000"
    )
    p.heads("A6", "Rod", 1, 2, 3, 4, 5, 6).labels(
        "A7", "Crankpin (mm)", "Oil clearance (mm)", "Side play (mm)", "Big end g", "Small end g"
    )
    p.across("B7", "rod_journal", "mm", b.near(54.482, 6, 0.001, digits=3), shown="0.000").across(
        "B8", "rod_bearing_clearance", "mm", b.near(0.052, 6, 0.002, digits=3), shown="0.000"
    ).across("B9", "rod_side_clearance", "mm", b.near(0.3, 6, 0.01, digits=2))
    p.across("B10", "rod_big_end_mass", "g", b.near(402.1, 6, 0.1, digits=1)).across(
        "B11", "rod_small_end_mass", "g", b.near(176.3, 6, 0.1, digits=1)
    )
    p.put("A13", "Stroke").fact("B13", "stroke", 72.2, "mm", typed="72.2 mm").put(
        "A14", "Rod, centers"
    ).fact("B14", "rod_length", 129.6, "mm", typed="129.6 mm").put("A15", "Crank float").fact(
        "B15", "crank_end_play", 0.14, "mm", typed="0.14 mm"
    )
    p.put("A16", "Deck height, all").fact(
        "B16", "deck_clearance", 1.1, "mm", typed="1.1 mm below"
    ).put("A17", "Chambers").sentence(
        "B17", "89.5 cc, all six within 0.3", ("chamber_volume", 89.5, "cc")
    )
    p.put("A18", "Crown").fact("B18", "dome_volume", 22, "cc", typed="22 cc dome").put(
        "A20",
        (
            "Through bolts 35 Nm, then 45; heads 33 Nm. p/n 411-xx studs. Casing "
            "halves matched 2025-01-20."
        ),
    ).either("A20")
    return b
