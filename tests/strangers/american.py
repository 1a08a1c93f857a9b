"""Four books from American shops: a ticket, a form, remarks, a month's list."""

from __future__ import annotations

import datetime

from .pen import Book


def ticket():
    b = Book(
        "s01",
        "block_ticket_5512.xlsx",
        8,
        "machine shop ticket; piston 5 slipped by a tenth of an inch",
    )
    p = b.sheet("5512", [20, 12, 12, 12, 12, 12, 14])
    p.put("A1", "PLATTE RIVER MACHINE   -  402 555 0143  - 118 Depot St", bold=True)
    p.put("A2", "Ticket #").field("B2", "number", "5512").put("D2", "Promised").put("E2", "2/14")
    p.put("A3", "Name").field("B3", "customer", "Dale Houska").put("D3", "Phone").put(
        "E3", "402-555-0188"
    )
    p.put("A4", "Engine").field("B4", "engine", "V8, 2 bolt mains").put("D4", "In")
    p.field("E4", "started", datetime.date(2025, 1, 27), shown="m/d/yy")
    p.put("A5", "Mach.").field("B5", "builder", "Rudy").put("D5", "Out")
    p.field("E5", "finished", datetime.date(2025, 2, 12), shown="m/d/yy")
    p.put(
        "A6",
        "WORK:  hot tank, mag, bore & hone 30 over w/ plate, line hone, deck .010, polish crank",
        bold=True,
    )
    p.heads("A8", "Cyl", "Came in", "Finish", "Piston", "Clr", "Top gap", "2nd gap")
    p.rows("A9", [[n] for n in range(1, 9)])
    p.down(
        "B9",
        "bore_found",
        "in",
        [3.9336, 3.9341, 3.9329, 3.9338, 3.9344, 3.9332, 3.9331, 3.9347],
        shown="0.0000",
    )
    bores, pistons = b.near(3.9602, 8, 0.0001), b.near(3.9563, 8, 0.0001)
    pistons[4] = 3.9564
    clearances = [round(bore - piston, 4) for bore, piston in zip(bores, pistons, strict=True)]
    pistons[4] = 4.0564
    p.down("C9", "bore", "in", bores, shown="0.0000")
    p.down("D9", "piston_diameter", "in", pistons, doubt={5}, shown="0.0000")
    p.down("E9", "piston_clearance", "in", clearances, shown=".0000", stated=True)
    p.down("F9", "top_ring_gap", "in", b.near(0.018, 8, 0.0005), shown=".0000")
    p.down("G9", "second_ring_gap", "in", b.near(0.02, 8, 0.0005), shown=".0000")
    p.plant("slipped_digit", "piston 5 typed 4.0564 for 3.9564", "D13", "E13", "C13")
    p.put("A18", "Mains", bold=True).put("A19", "line hone size")
    p.across("B19", "main_housing_bore", "in", b.near(2.5911, 5, 0.0001), shown="0.0000")
    p.put("A20", "crank mains").across(
        "B20", "main_journal", "in", b.near(2.3985, 5, 0.0001), shown="0.0000"
    )
    p.put("A21", "oil clr").across(
        "B21", "main_bearing_clearance", "in", b.near(0.0025, 5, 0.0001), shown=".0000", stated=True
    )
    p.put("A23", "Deck ht after cut").fact("B23", "deck_height", 9.315, "in", shown="0.000").put(
        "C23", "(was 9.325)"
    )
    p.put("A24", "Stroke").fact("B24", "stroke", 3.41, "in")
    p.put("A25", "crank end play").fact("B25", "crank_end_play", 0.006, "in", typed=".006")
    p.rows(
        "D23",
        [
            ["Bore & hone", 280],
            ["Line hone", 195],
            ["Deck", 140],
            ["Parts", 612.4],
            ["TOTAL", 1227.4],
        ],
    )
    p.put("A28", "Cust. furnished pistons, box marked 3960-A. Rings P/N 8-30-116. Call when done.")
    return b


def form():
    b = Book(
        "s02",
        "v8_build_sheet.xlsx",
        8,
        "one form with merged heads, banks L and R, ENG formulas",
        eng=True,
    )
    p = b.sheet("Build Sheet")
    p.merge("A1:L1", "A2:B2", "C2:D2", "E2:F2", "G2:H2", "A3:B3", "C3:D3", "E3:F3", "G3:H3")
    p.put("A1", "ENGINE BUILD SHEET  —  all dimensions in inches unless noted", bold=True)
    p.put("A2", "Job No").field("C2", "number", "K-2231").put("E2", "Customer").field(
        "G2", "customer", "Lindqvist Racing"
    )
    p.put("A3", "Engine").field("C3", "engine", "V8 street/strip").put("E3", "Assembled by").field(
        "G3", "builder", "T. Varga"
    )
    p.put("I2", "Start").field("J2", "started", datetime.date(2024, 9, 3), shown="mm/dd/yyyy")
    p.put("I3", "Finish").field("J3", "finished", datetime.date(2024, 10, 11), shown="mm/dd/yyyy")
    p.merge("B5:E5", "F5:I5").put("B5", "LEFT BANK", bold=True).put("F5", "RIGHT BANK", bold=True)
    sides = [f"L{n}" for n in range(1, 5)] + [f"R{n}" for n in range(1, 5)]
    p.put("A6", "CYLINDER").heads("B6", *sides)
    p.labels(
        "A7",
        "Bore",
        "Piston @ gauge pt.",
        "Piston clearance",
        "Deck (+ in the hole)",
        "Chamber cc",
        "Top ring gap",
        "2nd ring gap",
        "Quench",
        "Static C.R.",
    )
    p.across("B7", "bore", "in", b.near(4.185, 8, 0.0001), sides, shown="0.0000")
    p.across("B8", "piston_diameter", "in", b.near(4.1803, 8, 0.0001), sides, shown="0.0000")
    p.formulas_across(
        "B9", "=ENG.PISTON_CLEARANCE({c}7,{c}8)", 8, "piston_clearance", "in", sides, ".0000"
    )
    p.across("B10", "deck_clearance", "in", b.near(0.005, 8, 0.001, digits=3), sides, shown=".000")
    p.across("B11", "chamber_volume", "cc", b.near(72.2, 8, 0.1, digits=1), sides)
    p.across("B12", "top_ring_gap", "in", b.near(0.022, 8, 0.001, 1, 3), sides, shown=".000")
    p.across("B13", "second_ring_gap", "in", b.near(0.024, 8, 0.001, 1, 3), sides, shown=".000")
    p.formulas_across("B14", "=ENG.QUENCH({c}10,$C$19)", 8, "quench", "in", sides, ".000")
    ratio = (
        "=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME({c}7,$C$17),{c}11,"
        "ENG.GASKET_VOLUME($C$20,$C$19),ENG.DECK_VOLUME({c}7,{c}10),$C$21)"
    )
    p.formulas_across("B15", ratio, 8, "compression_ratio", "1", sides, "0.00")
    p.merge(*(f"A{r}:B{r}" for r in range(17, 24)))
    p.labels(
        "A17",
        "Stroke",
        "Rod length c-c",
        "Head gasket, compressed",
        "Gasket bore",
        "Piston dish (cc)",
        "Crank end play",
        "Rod side clr",
    )
    p.fact("C17", "stroke", 3.83, "in").fact("C18", "rod_length", 6.05, "in", shown="0.000")
    p.fact("C19", "gasket_thickness", 0.041, "in").fact(
        "C20", "gasket_bore", 4.25, "in", shown="0.000"
    )
    p.fact("C21", "crown_volume", 14, "cc").fact("C22", "crank_end_play", 0.0055, "in").fact(
        "C23", "rod_side_clearance", 0.017, "in"
    )
    p.put("E17", "Displacement, cu in").formula(
        "H17", "=ENG.DISPLACEMENT(B7,C17,8)", "displacement", "ci", shown="0.0"
    )
    p.put("E18", "Rod / stroke").formula(
        "H18", "=ENG.ROD_STROKE_RATIO(C18,C17)", "rod_stroke_ratio", "1", shown="0.00"
    )
    p.heads("A25", "BEARINGS", 1, 2, 3, 4, 5).labels(
        "A26", "Main journal", "Main brg I.D.", "Main clearance"
    )
    p.across("B26", "main_journal", "in", b.near(2.5877, 5, 0.0001), shown="0.0000")
    p.across("B27", "main_bearing_bore", "in", b.near(2.5902, 5, 0.0001), shown="0.0000")
    p.formulas_across("B28", "={c}27-{c}26", 5, "main_bearing_clearance", "in", shown=".0000")
    p.put("A30", "Rod clearance").across(
        "B30", "rod_bearing_clearance", "in", b.near(0.0024, 8, 0.0001), sides, shown=".0000"
    )
    p.put(
        "A32",
        "TQ:  mains 100 / 110 outer 2 bolt 50,  rods to stretch .0060-.0063,  heads 70 in 3 steps.",
    )
    return b


def remarks():
    b = Book(
        "s03",
        "notes_on_the_wrecker.xlsx",
        8,
        "remarks in a column; main 4 outside the limits that the book sets",
    )
    p = b.sheet("Sheet1", [90])
    p.sentence("A1", "Job 0917 - Wes Tarbell - big V8 for the wrecker")
    p.job.fields |= {
        "number": {"value": "0917", "cell": p.place("A1"), "also": ["917"]},
        "customer": {"value": "Wes Tarbell", "cell": p.place("A1")},
        "engine": {"value": "big V8 for the wrecker", "cell": p.place("A1"), "also": ["big V8"]},
    }
    p.put("A2", "started Mar 3 2025, done Mar 21 2025. Me.")
    p.job.fields["started"] = {"value": "2025-03-03", "cell": p.place("A2"), "also": ["Mar 3 2025"]}
    p.job.fields["finished"] = {
        "value": "2025-03-21",
        "cell": p.place("A2"),
        "also": ["Mar 21 2025"],
    }
    p.put("A4", "Everything in inches. Bored 60 over.")
    p.sentence("A5", "all bores 4.270, hit every one within 2 tenths", ("bore", 4.270, "in"))
    p.sentence(
        "A6",
        "pistons mic 4.2655 at the pin, so .0045 clearance",
        ("piston_diameter", 4.2655, "in"),
        ("piston_clearance", 0.0045, "in", None, "stated"),
    )
    p.sentence(
        "A7",
        "top rings .019, seconds .021, #6 second came out .024",
        ("top_ring_gap", 0.019, "in"),
        ("second_ring_gap", 0.021, "in"),
        ("second_ring_gap", 0.024, "in", 6),
    )
    p.put("A8", "mains, want .0024-.0030")
    for row, (number, clearance) in enumerate(
        [(1, 0.0026), (2, 0.0027), (3, 0.0027), (4, 0.0038), (5, 0.0029)], 9
    ):
        words = ("doubt",) if number == 4 else ()
        text = f"#{number} main {clearance:.4f}".replace("0.", ".") + (
            " ok" if number in (1, 4) else ""
        )
        p.sentence(f"A{row}", text, ("main_bearing_clearance", clearance, "in", number, *words))
    p.plant("out_of_own_limits", "main 4 .0038 called ok against .0024-.0030", "A12", "A8")
    p.sentence(
        "A14",
        "rods all .0025 except number 7 at .0028",
        ("rod_bearing_clearance", 0.0025, "in"),
        ("rod_bearing_clearance", 0.0028, "in", 7),
    )
    p.sentence("A15", "crank end play .007", ("crank_end_play", 0.007, "in"))
    p.put("A16", "side clearance on the rods .018 to .022").either("A16")
    p.sentence(
        "A17",
        "pistons .012 in the hole, .039 gasket, so quench is .051",
        ("deck_clearance", 0.012, "in"),
        ("gasket_thickness", 0.039, "in"),
        ("quench", 0.051, "in", None, "stated"),
    )
    p.sentence(
        "A18",
        "chambers cc'd at 112, flat tops w/ 2 reliefs 3cc",
        ("chamber_volume", 112, "cc"),
        ("crown_volume", 3, "cc"),
    )
    p.sentence("A19", "stroke is stock 3.940", ("stroke", 3.94, "in"))
    p.sentence(
        "A20",
        "torqued mains 110 ft lb, rods 50 ft lb and heads 75 ft lb",
        ("main_bolt_torque", 110, "lbf.ft"),
        ("rod_bolt_torque", 50, "lbf.ft"),
        ("head_bolt_torque", 75, "lbf.ft"),
    )
    p.sentence(
        "A21",
        "cranked 165 psi on all, 60 psi oil cold",
        ("cranking_pressure", 165, "psi"),
        ("oil_pressure", 60, "psi"),
    )
    p.put("A22", "he still owes 400 on the last one")
    p.either("A4", "A8")
    return b


MONTH = [
    # job, who, engine, in, out, cyl, bore, piston, main clr, rod clr, deck, quench, cc
    (
        "25-031",
        "Aldo's Towing",
        "5.5 truck",
        (2025, 5, 1),
        (2025, 5, 6),
        8,
        3.9605,
        3.9572,
        0.0024,
        0.0021,
        0.015,
        0.054,
        64.3,
    ),
    (
        "25-032",
        "Bree Natoma",
        "310 convertible",
        (2025, 5, 2),
        (2025, 5, 13),
        8,
        3.9101,
        3.9066,
        0.0022,
        0.0023,
        0.008,
        0.047,
        58.6,
    ),
    (
        "25-033",
        "County Fair Stock Cars",
        "2150 mini stock",
        (2025, 5, 5),
        (2025, 5, 15),
        4,
        3.7101,
        3.6781,
        0.0021,
        0.0020,
        0.002,
        0.041,
        51.2,
    ),
    (
        "25-034",
        "Bree Natoma",
        "211 six",
        (2025, 5, 9),
        (2025, 5, 23),
        6,
        3.6905,
        3.6883,
        0.0019,
        0.0018,
        0.019,
        0.058,
        52.8,
    ),
    (
        "25-035",
        "Gene Ostrander",
        "436 motor home",
        (2025, 5, 14),
        (2025, 5, 30),
        8,
        4.3301,
        4.3269,
        0.0027,
        0.0024,
        0.021,
        0.062,
        88.1,
    ),
]


def month_list():
    b = Book(
        "s04",
        "May_engines.xlsx",
        0,
        "a month, a job each row; piston of the third row has a digit slipped",
    )
    b.jobs.clear()
    p = b.sheet("MAY 25")
    p.put("A1", "May 2025   engines out the door     (Jody)", bold=True)
    p.heads(
        "A3",
        "Job",
        "Customer",
        "Engine",
        "In",
        "Out",
        "# cyl",
        "Bore",
        "Piston",
        "Main clr",
        "Rod clr",
        "Deck",
        "Quench",
        "cc",
        "Labor $",
        "Notes",
    )
    for row, values in enumerate(MONTH, 4):
        number, who, engine, started, out, cylinders, *sizes = values
        b.next_job(cylinders)
        p.field(f"A{row}", "number", number).field(f"B{row}", "customer", who).field(
            f"C{row}", "engine", engine
        )
        p.field(f"D{row}", "started", datetime.date(*started), shown="m/d").field(
            f"E{row}", "finished", datetime.date(*out), shown="m/d"
        )
        p.put(f"F{row}", cylinders)
        quantities = (
            "bore",
            "piston_diameter",
            "main_bearing_clearance",
            "rod_bearing_clearance",
            "deck_clearance",
            "quench",
        )
        for column, quantity, value in zip("GHIJKL", quantities, sizes, strict=False):
            wrong = quantity == "piston_diameter" and row == 6
            p.fact(
                f"{column}{row}", quantity, value, "in", doubt=wrong, stated=quantity == "quench"
            )
        p.fact(f"M{row}", "chamber_volume", sizes[-1], "cc").put(f"N{row}", 900 + 75 * row)
        if row == 6:
            p.plant("slipped_digit", "piston 3.6781 for 3.7071 in a 3.7101 bore", "H6", "G6")
    p.put("O5", "bal. crank too").put("O8", "pd cash").put("A10", "Total").put("N10", "=SUM(N4:N8)")
    return b
