"""An inch inline six that left the shop with holes in its book: cylinders down, items across.

What is wrong with it, on purpose: the gasket was never entered; deck clearance of cylinder 5
was never taken, so that a program counts it as 0; a remark stands where the skirt of piston
2 belongs; main 4 is out of its band; and rod journal 3 was typed again after the book was
calculated for the last time, so that its clearance is stale (see LATE_CHANGE).
"""

from __future__ import annotations

import datetime

from drawing import LETTER, Look, heads, judge, merge, put, section, set_up, stripe
from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

LOOK = Look(font="Liberation Sans", ink="4A4A4A", tint="E6E6E6", stripe="F7F7F2")

# Sheet, cell, what was typed first, what was typed after the book was saved.
LATE_CHANGE = ("Bottom end", "D19", 2.0390, 2.0387)

BORES = (3.9050, 3.9052, 3.9051, 3.9053, 3.9051, 3.9050)
SKIRTS = (3.9031, "mic again, warm", 3.9032, 3.9033, 3.9031, 3.9031)
DECKS = (0.0020, 0.0025, 0.0015, 0.0020, None, 0.0025)
TOP_GAPS = (0.0180, 0.0185, 0.0185, 0.0190, "18.5 thou", 0.0185)
CHAMBERS = (68.0, 67.8, 68.2, 68.0, 67.9, 68.1)
MAINS = (
    (2.5585, 2.3685), (2.5586, 2.3685), (2.5587, 2.3685), (2.5592, 2.3678),
    (2.5586, 2.3684), (2.5586, 2.3685), (2.5585, 2.3683),
)  # fmt: skip
RODS = (
    (2.1592, 2.0390), (2.1593, 2.0391), (2.1592, 2.0390), (2.1591, 2.0389), (2.1592, 2.0389),
    (2.1593, 2.0391),
)  # fmt: skip


def _job(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "QUILLFEATHER ENGINE ROOM", "title")
    merge(sheet, "A1:J1")
    lines = (
        ("A2", "Job no.: QER-0409", "A2:C2"),
        ("D2", "Customer: Corwin Ashgrove", "D2:F2"),
        ("G2", "Date in:", ""),
        ("A3", "Engine: inch inline six, iron block, 3.905 bore", "A3:F3"),
        ("G3", "Date out:", ""),
        ("A4", "Builder: T. Pellam", "A4:C4"),
        ("D4", "tow and work, regular fuel", "D4:F4"),
    )
    for at, text, area in lines:
        put(sheet, LOOK, at, text, "text")
        if area:
            merge(sheet, area)
    for at, day in (("H2", datetime.date(2025, 2, 10)), ("H3", datetime.date(2025, 3, 28))):
        put(sheet, LOOK, at, day, "text", "m/d/yyyy")


def _top_end(sheet: Worksheet) -> None:
    _job(sheet)
    section(sheet, LOOK, "A6:J6", "SIZES")
    sizes = (
        ("Stroke (in)", 3.640, "0.000", "Chamber, mean (cc)", "=ENG.MEAN_READING(J15:J20,6)",
         "0.0"),
        ("Quench wanted", "38 thou", "", "Crown volume (cc)", 12.0, "0.0"),
        ("Gasket fitted, compressed (in)", None, "0.000", "Gasket volume (cc)",
         "=ENG.GASKET_VOLUME(D10,D9)", "0.00"),
        ("Gasket bore (in)", 3.990, "0.000", "Deck volume (cc)",
         "=ENG.DECK_VOLUME(AVERAGE(B15:B20),AVERAGE(F15:F20))", "0.00"),
        ("Displacement (cu in)", "=ENG.DISPLACEMENT(AVERAGE(B15:B20),D7,6)", "0.0",
         "Compression ratio",
         "=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME(AVERAGE(B15:B20),D7),I7,I9,I10,I8)", "0.00"),
    )  # fmt: skip
    for row, (label, content, digits, other, value, other_digits) in enumerate(sizes, 7):
        put(sheet, LOOK, f"A{row}", label)
        merge(sheet, f"A{row}:C{row}")
        kind = "result" if str(content).startswith("=") else "typed"
        put(sheet, LOOK, f"D{row}", content, kind, digits)
        put(sheet, LOOK, f"F{row}", other)
        merge(sheet, f"F{row}:H{row}")
        kind = "result" if str(value).startswith("=") else "typed"
        put(sheet, LOOK, f"I{row}", value, kind, other_digits)
    section(sheet, LOOK, "A13:J13", "CYLINDERS")
    heads(
        sheet, LOOK, 14,
        ("Cyl", "Bore (in)", "Skirt (in)", "Piston clearance (in)", "Verdict",
         "Deck clearance (in)", "Gasket that gives it (in)", "Quench (in)", "Top gap (in)",
         "Chamber (cc)"),
    )  # fmt: skip
    readings = zip(BORES, SKIRTS, DECKS, TOP_GAPS, CHAMBERS, strict=True)
    for number, (bore, skirt, deck, gap, chamber) in enumerate(readings, 1):
        row = 14 + number
        put(sheet, LOOK, f"A{row}", number, "number")
        put(sheet, LOOK, f"B{row}", bore, "typed", "0.0000")
        put(sheet, LOOK, f"C{row}", skirt, "typed", "0.0000")
        put(sheet, LOOK, f"D{row}", f"=ENG.PISTON_CLEARANCE(B{row},C{row})", "result", "0.0000")
        put(sheet, LOOK, f"E{row}", f"=ENG.VERDICT(D{row},$D$22,$D$23)", "verdict")
        put(sheet, LOOK, f"F{row}", deck, "typed", "0.0000")
        put(sheet, LOOK, f"G{row}", f"=ENG.GASKET_FOR_QUENCH($D$8,F{row})", "result", "0.0000")
        put(sheet, LOOK, f"H{row}", f"=ENG.QUENCH(F{row},$D$9)", "result", "0.0000")
        put(sheet, LOOK, f"I{row}", gap, "typed", "0.0000")
        put(sheet, LOOK, f"J{row}", chamber, "typed", "0.0")
    stripe(sheet, LOOK, "A15:J20")
    put(sheet, LOOK, "A21", "Top gap wanted, all six (in)")
    merge(sheet, "A21:C21")
    put(
        sheet, LOOK, "D21",
        '=ENG.RING_GAP(AVERAGE(B15:B20),ENG.RING_GAP_FACTOR("street","top"))', "result", "0.0000",
    )  # fmt: skip
    for row, word, limit in ((22, "least", 0.0014), (23, "most", 0.0026)):
        put(sheet, LOOK, f"A{row}", f"Piston clearance, {word} (in)")
        merge(sheet, f"A{row}:C{row}")
        put(sheet, LOOK, f"D{row}", limit, "typed", "0.0000")
    judge(sheet, ["E15:E20"])
    put(sheet, LOOK, "A25", "5: bridge was on loan, deck to be done. Gasket: see box??", "note")
    merge(sheet, "A25:J25")
    set_up(sheet, (7, 11, 16, 14, 10, 14, 14, 12, 13, 14), "J25", LETTER, wide=True)


def _bottom_end(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "BOTTOM END", "title")
    merge(sheet, "A1:H1")
    put(sheet, LOOK, "A2", "QER-0409, inches, total clearance, caps torqued", "subtitle")
    merge(sheet, "A2:H2")
    tables = (
        (4, "MAINS", "Main", MAINS, 0.0940, 0.0018, 0.0028),
        (15, "RODS", "Rod", RODS, 0.0590, 0.0015, 0.0030),
    )
    for top, title, word, sizes, wall, least, most in tables:
        section(sheet, LOOK, f"A{top}:H{top}", title)
        heads(
            sheet, LOOK, top + 1,
            (word, "Housing (in)", "Shell (in)", "Journal size (in)", f"{word} clearance (in)",
             "Least (in)", "Most (in)", "Verdict"),
        )  # fmt: skip
        for number, (housing, journal) in enumerate(sizes, 1):
            row = top + 1 + number
            put(sheet, LOOK, f"A{row}", f"{word} {number}")
            for column, value in zip("BCDFG", (housing, wall, journal, least, most), strict=True):
                put(sheet, LOOK, f"{column}{row}", value, "typed", "0.0000")
            put(
                sheet, LOOK, f"E{row}", f"=ENG.BEARING_CLEARANCE(B{row},C{row},D{row})", "result",
                "0.0000",
            )  # fmt: skip
            put(sheet, LOOK, f"H{row}", f"=ENG.VERDICT(E{row},F{row},G{row})", "verdict")
        stripe(sheet, LOOK, f"A{top + 2}:H{top + 1 + len(sizes)}")
    judge(sheet, ["H6:H12", "H17:H22"])
    put(sheet, LOOK, "A24", "Rod 3 pin done again after polish. Main 4 - ask Ines before it goes",
        "note")  # fmt: skip
    merge(sheet, "A24:H24")
    set_up(sheet, (10, 13, 12, 14, 15, 11, 11, 10), "H24", LETTER, wide=False)


def make() -> Workbook:
    """The book as it was before the late change, not yet calculated."""
    book = Workbook()
    book.active.title = "Top end"
    _top_end(book.active)
    _bottom_end(book.create_sheet("Bottom end"))
    return book
