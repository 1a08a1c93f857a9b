"""Bench work without an engine round it: a pair of heads, a crank to grind."""

from __future__ import annotations

import datetime

from .pen import Book


def head():
    b = Book(
        "s19",
        "heads_only_ticket.xlsx",
        8,
        "head job with a spring table; one installed height slipped by a tenth",
    )
    p = b.sheet("Head Job", [10, 10, 10, 10, 10, 10, 10, 10, 10])
    p.put("A1", "CYLINDER HEAD WORK ORDER", bold=True).put("A2", "No.").field(
        "B2", "number", "H-905"
    ).put("D2", "Name").field("E2", "customer", "Stillwater Speed")
    p.put("A3", "Heads").field("B3", "engine", "alum wedge pair").put("D3", "Bench").field(
        "E3", "builder", "Coby"
    )
    p.put("A4", "Rec'd").field("B4", "started", datetime.date(2025, 7, 7), shown="m/d/yyyy").put(
        "D4", "Done"
    ).field("E4", "finished", datetime.date(2025, 7, 18), shown="m/d/yyyy")
    p.put(
        "A5",
        (
            "[x] clean [x] pressure test [x] bowl blend [ ] CNC   both heads "
            "milled .012, flat within .0015"
        ),
    )
    for top, side, numbers in ((7, "LEFT HEAD", [1, 3, 5, 7]), (21, "RIGHT HEAD", [2, 4, 6, 8])):
        p.put(f"A{top}", side, bold=True).heads(
            f"B{top}", *(f"{n}{v}" for n in numbers for v in ("I", "E"))
        )
        both = [n for n in numbers for _ in "IE"]
        p.labels(
            f"A{top + 1}",
            "Guide ID",
            "Stem OD",
            "Clear.",
            "Seat width",
            "Inst. ht",
            "Shim",
            "Seat lb",
            "Open lb",
            "Runout seat",
        )
        for column, offset, valve in (("B", 0, "intake"), ("C", 1, "exhaust")):
            at, more = both[offset::2], {"skip": 2}
            stems = b.near(0.3414 - 0.0004 * offset, 4, 0.0001)
            fits = [
                round(0.0013 + 0.0005 * offset + 0.0001 * b.chance.randint(0, 2), 4) for _ in at
            ]
            p.across(
                f"{column}{top + 1}",
                f"{valve}_guide_bore",
                "in",
                [round(s + f, 4) for s, f in zip(stems, fits, strict=True)],
                at,
                shown="0.0000",
                **more,
            )
            p.across(
                f"{column}{top + 2}",
                f"{valve}_stem_diameter",
                "in",
                stems,
                at,
                shown="0.0000",
                **more,
            )
            p.across(
                f"{column}{top + 3}",
                f"{valve}_stem_clearance",
                "in",
                fits,
                at,
                shown=".0000",
                stated=True,
                **more,
            )
            p.across(
                f"{column}{top + 4}",
                f"{valve}_seat_width",
                "in",
                b.near(0.06 + 0.02 * offset, 4, 0.002, 1, 3),
                at,
                shown=".000",
                **more,
            )
            heights = b.near(1.8, 4, 0.005, 1, 3)
            if top == 21 and offset:
                heights[1] = 1.9
            p.across(
                f"{column}{top + 5}",
                f"{valve}_spring_height",
                "in",
                heights,
                at,
                shown="0.000",
                doubt={4} if heights[1] == 1.9 else (),
                **more,
            )
            p.across(
                f"{column}{top + 6}",
                f"{valve}_spring_shim",
                "in",
                [0.03, 0.015, 0.03, 0.03],
                at,
                shown=".000",
                **more,
            )
            p.across(
                f"{column}{top + 7}", "spring_seat_load", "lbf", b.near(135, 4, 1, 2, 0), at, **more
            )
            p.across(
                f"{column}{top + 8}", "spring_open_load", "lbf", b.near(352, 4, 2, 2, 0), at, **more
            )
            p.across(
                f"{column}{top + 9}",
                "seat_runout",
                "in",
                [0.001, 0.0005, 0.001, 0.001],
                at,
                shown=".0000",
                **more,
            )
    p.plant("slipped_digit", "installed height of 4E 1.900 for 1.800", "E26")
    p.put("A33", "Chambers cc").across(
        "B33",
        "chamber_volume",
        "cc",
        [63.8, 64.0, 63.9, 64.0, 64.1, 63.9, 64.0, 63.8],
        [1, 3, 5, 7, 2, 4, 6, 8],
    )
    p.put("A32", "cyl").rows("B32", [[1, 3, 5, 7, 2, 4, 6, 8]])
    p.put("A35", "Labor 385.00   valves 16 @ 21.50 = 344.00   seals 38.00   tax 6.25%")
    return b


def crank():
    b = Book(
        "s20",
        "crank_grind_ticket_2077.xlsx",
        6,
        (
            "worn and reground stages beside each other; main 5 ground a whole "
            "thimble turn too small on paper"
        ),
    )
    p = b.sheet("Crank", [14, 11, 11, 11, 11, 11, 11])
    p.put("A1", "CRANKSHAFT GRINDING", bold=True).put("A2", "Ticket").field(
        "B2", "number", "2077"
    ).put("D2", "Shop/Cust").field("E2", "customer", "Ridgeway Diesel Repair")
    p.put("A3", "Crank from").field("B3", "engine", "six, 7 main, forged").put(
        "D3", "Grinder"
    ).field("E3", "builder", "Ansel")
    p.put("A4", "Recd").field("B4", "started", "2025-08-04").put("D4", "Finished").field(
        "E4", "finished", "2025-08-08"
    )
    p.merge("B6:D6", "E6:F6").put("B6", "AS RECEIVED", bold=True).put(
        "E6", "AFTER GRIND", bold=True
    )
    p.heads("A7", "MAINS", "vert", "horiz", "out of rd", "size", "under")
    worn = b.near(2.9978, 7, 0.0002)
    oval = [round(0.0001 * b.chance.randint(2, 9), 4) for _ in worn]
    p.rows("A8", [[n] for n in range(1, 8)]).down(
        "B8", "main_journal_found", "in", worn, shown="0.0000"
    )
    p.down(
        "C8",
        "main_journal_found",
        "in",
        [round(w - o, 4) for w, o in zip(worn, oval, strict=True)],
        shown="0.0000",
    )
    p.formulas_down("D8", "=B{r}-C{r}", 7, "main_journal_out_of_round_found", "in", shown=".0000")
    ground = [2.9885, 2.9884, 2.9885, 2.9885, 2.9635, 2.9884, 2.9885]
    p.down("E8", "main_journal", "in", ground, shown="0.0000", doubt={5}).rows("F8", [[".010"]] * 7)
    p.plant(
        "micrometer_turn",
        "main 5 written 2.9635 for 2.9885, one turn of the thimble",
        "E12",
        "B12",
        "C12",
    )
    p.heads("A17", "PINS", "vert", "horiz", "taper", "size", "under").rows(
        "A18", [[n] for n in range(1, 7)]
    )
    p.down("B18", "rod_journal_found", "in", b.near(2.3738, 6, 0.0002), shown="0.0000").down(
        "C18", "rod_journal_found", "in", b.near(2.3731, 6, 0.0002), shown="0.0000"
    )
    p.down(
        "D18",
        "rod_journal_taper_found",
        "in",
        [0.0004, 0.0003, 0.0005, 0.0004, 0.0002, 0.0006],
        shown=".0000",
    )
    p.down("E18", "rod_journal", "in", b.near(2.3644, 6, 0.0001, 1), shown="0.0000").rows(
        "F18", [[".010"]] * 6
    )
    p.put("A26", "Runout at center main").fact(
        "D26", "crank_runout", 0.0015, "in", shown=".0000"
    ).put("A27", "Thrust width").fact("D27", "thrust_width", 1.2015, "in", shown="0.0000")
    p.put("A28", "Stroke checked").fact("D28", "stroke", 4.125, "in", shown="0.000").put(
        "A29", "Finish Ra"
    ).fact("D29", "journal_finish", 8e-6, "in", typed="8 µin").put(
        "A30", "Mag'd OK / shot peen no / polish 2 step / fillets .125 R"
    )
    p.put("A31", "CHARGE").put("B31", 365, shown='"$"0.00').either(
        *(f"F{r}" for r in [*range(8, 15), *range(18, 24)])
    )
    return b
