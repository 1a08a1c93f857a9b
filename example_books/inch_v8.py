"""An inch V8 with an aluminum block: labels left of values, a table for the cylinders."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from drawing import (
    LETTER,
    Look,
    array,
    content_kind,
    heads,
    judge,
    merge,
    put,
    section,
    set_up,
    stripe,
)
from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

LOOK = Look(font="Arial", ink="1F3A5F", tint="DCE6F1", stripe="F4F7FB")

_INCHES = "0.0000"
DECK_HEIGHTS = {
    "left front": 8.7352, "left rear": 8.7348, "right front": 8.7351, "right rear": 8.7353,
}  # fmt: skip
BORES = (3.9651, 3.9650, 3.9652, 3.9650, 3.9651, 3.9653, 3.9649, 3.9651)
PISTONS = (3.9609, 3.9610, 3.9610, 3.9609, 3.9608, 3.9611, 3.9608, 3.9609)
DECKS = (-0.0020, -0.0018, -0.0022, -0.0019, -0.0021, -0.0020, -0.0017, -0.0020)
CHAMBERS = (60.2, 60.0, 60.1, 60.3, 60.0, 60.2, "60.1 cc", 60.2)
TOP_GAPS = (0.0185, 0.0190, 0.0185, 0.0185, 0.0190, 0.0185, 0.0180, 0.0185)
SECOND_GAPS = (0.0215, 0.0210, 0.0215, 0.0210, 0.0215, 0.0220, 0.0215, 0.0215)
MAINS = (
    (2.5849, 2.3961), (2.5848, 2.3959), (2.5850, 2.3961), (2.5849, 2.3960), (2.5848, 2.3960),
)  # fmt: skip
RODS = (
    (2.1638, 2.0407), (2.1637, 2.0407), (2.1639, 2.0406), (2.1638, 2.0406),
    (2.1638, 2.0408), (2.1637, 2.0408), (2.1639, 2.0407), (2.1638, 2.0407),
)  # fmt: skip


def _job(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "Quillfeather Engine Room", "title")
    merge(sheet, "A1:G1")
    put(sheet, LOOK, "A2", "Build sheet. Inches and cc; all parts measured at 70 deg F", "subtitle")
    merge(sheet, "A2:G2")
    fields = (
        ("Job no.", "QER-0418", "Date in", datetime.date(2025, 3, 3)),
        ("Customer", "Wendeline Strandquist", "Date out", datetime.date(2025, 4, 11)),
        ("Engine", "inch V8, aluminum block, 3.965 bore", "Builder", "Ines Tarrow"),
        ("Use", "street, premium fuel, no boost", "Checked by", "J. Pellam"),
    )
    for row, (name, value, other, content) in enumerate(fields, 4):
        put(sheet, LOOK, f"A{row}", name)
        put(sheet, LOOK, f"B{row}", value, "text")
        merge(sheet, f"B{row}:D{row}")
        put(sheet, LOOK, f"E{row}", other)
        put(sheet, LOOK, f"F{row}", content, "text", "yyyy-mm-dd")
        merge(sheet, f"F{row}:G{row}")


@dataclass
class _Sheet:
    """The build sheet as it grows line by line; each line gives its row, for formulas."""

    sheet: Worksheet
    row: int = 9

    def section(self, text: str) -> None:
        section(self.sheet, LOOK, f"A{self.row}:G{self.row}", text)
        self.row += 1

    def line(
        self,
        label: str,
        content: object,
        unit: str = "",
        digits: str = _INCHES,
        band: tuple[float, float] | None = None,
        note: str = "",
    ) -> str:
        """One label with its value, unit, band, verdict and note; returns the value's cell."""
        row = self.row
        put(self.sheet, LOOK, f"A{row}", label)
        put(self.sheet, LOOK, f"B{row}", content, content_kind(content), digits)
        if unit:
            put(self.sheet, LOOK, f"C{row}", unit, "unit")
        if band:
            put(self.sheet, LOOK, f"D{row}", band[0], "typed", digits)
            put(self.sheet, LOOK, f"E{row}", band[1], "typed", digits)
            put(self.sheet, LOOK, f"F{row}", f"=ENG.VERDICT(B{row},D{row},E{row})", "verdict")
        if note:
            put(self.sheet, LOOK, f"G{row}", note, "note")
        self.row += 1
        return f"B{row}"


def _build_sheet(sheet: Worksheet) -> dict[str, str]:
    """The first sheet; returns the cells that the cylinders' sheet refers to."""
    _job(sheet)
    heads(sheet, LOOK, 8, ("Item", "This engine", "Unit", "Least", "Most", "Verdict", "Notes"))
    page = _Sheet(sheet)
    page.section("Combination")
    bore = page.line("Bore, mean of eight", "=ENG.MEAN_READING(Cylinders!B6:B13,8)", "in")
    stroke = page.line("Stroke", 3.41, "in", "0.000")
    rod = page.line("Rod length", 5.85, "in", "0.000")
    height = page.line("Compression height", 1.182, "in", "0.000", note="pin center to flat")
    number = page.line("Number of cylinders", 8, digits="0")
    page.line("Displacement", f"=ENG.DISPLACEMENT({bore},{stroke},{number})", "cu in", "0.0")
    page.line("Bore to stroke", f"=ENG.BORE_STROKE_RATIO({bore},{stroke})", digits="0.000")
    page.line("Rod to stroke", f"=ENG.ROD_STROKE_RATIO({rod},{stroke})", digits="0.000")
    speed = page.line(
        "Highest engine speed", 6200, "rpm", "#,##0", note="limiter, agreed with customer"
    )
    page.line("Mean piston speed", f"=ENG.MEAN_PISTON_SPEED({stroke},{speed})", "ft/min", "#,##0")

    page.section("Deck heights, crank centerline to deck")
    corners = [
        page.line(f"Deck height, {corner}", reading, "in")
        for corner, reading in DECK_HEIGHTS.items()
    ]
    block = f"{corners[0]}:{corners[-1]}"
    deck_height = page.line("Deck height, mean", f"=ENG.MEAN_READING({block},4)", "in")
    page.line("Deck height, spread", f"=ENG.READING_SPREAD({block},4)", "in", band=(0, 0.002))
    page.line(
        "Deck clearance, calculated",
        f"=ENG.DECK_CLEARANCE({deck_height},{stroke},{rod},{height})",
        "in",
        note="minus = piston above the deck",
    )
    deck = page.line(
        "Deck clearance, measured", "=ENG.MEAN_READING(Cylinders!F6:F13,8)", "in",
        band=(-0.004, 0.002), note="bridge over the pin, all eight",
    )  # fmt: skip

    page.section("Hot deck and gasket")
    material = page.line("Block material", "aluminum")
    rise = page.line("Temperature rise, block", 105, "deg F", "0", note="70 to 175 deg F")
    growth = page.line(
        "Growth of the deck, cold to hot",
        f"=ENG.DECK_GROWTH({deck_height},{stroke},{rod},{height},{rise},{material})",
        "in", band=(0.003, 0.005), note="estimate; ours open 3 to 5 thou",
    )  # fmt: skip
    page.line("Deck clearance, hot", f"=ENG.HOT_DECK_CLEARANCE({deck},{growth})", "in")
    wanted = page.line("Quench wanted, hot", 0.040, "in", "0.000")
    page.line("Gasket called for", f"=ENG.GASKET_FOR_QUENCH({wanted},{deck},{growth})", "in")
    gasket = page.line("Gasket chosen, compressed", 0.038, "in", "0.000", note="both banks")
    gasket_bore = page.line("Gasket bore", 4.035, "in", "0.000")
    page.line("Quench, cold", f"=ENG.QUENCH({deck},{gasket})", "in", band=(0.032, 0.040))
    page.line(
        "Quench, hot", f"=ENG.QUENCH(ENG.HOT_DECK_CLEARANCE({deck},{growth}),{gasket})", "in",
        band=(0.038, 0.043),
    )  # fmt: skip

    page.section("Volumes and ratio")
    swept = page.line(
        "Swept volume of a cylinder", f"=ENG.CYLINDER_VOLUME({bore},{stroke})", "cc", "0.00"
    )
    chamber = page.line(
        "Chamber, mean of eight", "=ENG.MEAN_READING(Cylinders!I6:I13,8)", "cc", "0.00"
    )
    gasket_volume = page.line(
        "Gasket volume", f"=ENG.GASKET_VOLUME({gasket_bore},{gasket})", "cc", "0.00"
    )
    deck_volume = page.line(
        "Deck volume", f"=ENG.DECK_VOLUME({bore},{deck})", "cc", "0.00",
        note="minus = piston above the deck",
    )  # fmt: skip
    crown = page.line("Crown volume", 5.0, "cc", "0.00", note="valve reliefs, plus = adds volume")
    others = f"{gasket_volume},{deck_volume},{crown}"
    page.line(
        "Compression ratio", f"=ENG.COMPRESSION_RATIO({swept},{chamber},{others})", digits="0.00",
        band=(10.2, 10.8), note="premium fuel, aluminum heads",
    )  # fmt: skip
    page.line("Lowest of eight", "=MIN(Cylinders!J6:J13)", digits="0.00")
    page.line("Highest of eight", "=MAX(Cylinders!J6:J13)", digits="0.00")
    page.line(
        "Chamber for 10.5 to 1", f"=ENG.CHAMBER_FOR_RATIO(10.5,{swept},{others})", "cc", "0.00",
        note="no milling needed",
    )  # fmt: skip
    last = page.row
    judge(sheet, [f"F9:F{last}"])
    put(
        sheet, LOOK, f"A{last + 1}",
        "Limits are from the cards that came with the parts. Where a part maker says otherwise, "
        "the part maker is right.", "note",
    )  # fmt: skip
    merge(sheet, f"A{last + 1}:G{last + 1}")
    set_up(sheet, (32, 13, 8, 10, 12, 10, 36), f"G{last + 1}", LETTER, wide=False)
    cells = {
        "growth": growth, "gasket": gasket, "swept": swept, "gasket volume": gasket_volume,
        "crown": crown,
    }  # fmt: skip
    return {name: "'Build sheet'!" + _fixed(cell) for name, cell in cells.items()}


def _fixed(cell: str) -> str:
    return f"${cell[0]}${cell[1:]}"


def _cylinders(sheet: Worksheet, build: dict[str, str]) -> None:
    put(sheet, LOOK, "A1", "Cylinders and rings", "title")
    merge(sheet, "A1:J1")
    put(
        sheet, LOOK, "A2",
        "Job QER-0418. Odd cylinders on the left as seen from the driver's seat, 1 in front",
        "subtitle",
    )  # fmt: skip
    merge(sheet, "A2:J2")
    section(sheet, LOOK, "A4:J4", "Bores, pistons, deck, chambers")
    heads(
        sheet, LOOK, 5,
        ("Cyl", "Bore (in)", "Piston skirt (in)", "Piston clearance (in)", "Verdict",
         "Deck clearance (in)", "Quench, hot (in)", "Verdict", "Chamber (cc)", "Ratio"),
    )  # fmt: skip
    readings = zip(BORES, PISTONS, DECKS, CHAMBERS, strict=True)
    for number, (bore, piston, deck, chamber) in enumerate(readings, 1):
        row = 5 + number
        put(sheet, LOOK, f"A{row}", number, "number")
        put(sheet, LOOK, f"B{row}", bore, "typed", "0.0000")
        put(sheet, LOOK, f"C{row}", piston, "typed", "0.0000")
        put(sheet, LOOK, f"D{row}", f"=ENG.PISTON_CLEARANCE(B{row},C{row})", "result", "0.0000")
        put(sheet, LOOK, f"E{row}", f"=ENG.VERDICT(D{row},D$14,D$15)", "verdict")
        put(sheet, LOOK, f"F{row}", deck, "typed", "0.0000")
        put(
            sheet, LOOK, f"G{row}",
            f"=ENG.QUENCH(ENG.HOT_DECK_CLEARANCE(F{row},{build['growth']}),{build['gasket']})",
            "result", "0.0000",
        )  # fmt: skip
        put(sheet, LOOK, f"H{row}", f"=ENG.VERDICT(G{row},G$14,G$15)", "verdict")
        put(sheet, LOOK, f"I{row}", chamber, "typed", "0.0")
    array(
        sheet, LOOK, "J6:J13",
        f"=ENG.COMPRESSION_RATIO({build['swept']},I6:I13,{build['gasket volume']},"
        f"ENG.DECK_VOLUME(B6:B13,F6:F13),{build['crown']})", "0.00",
    )  # fmt: skip
    stripe(sheet, LOOK, "A6:J13")
    for row, name, clearance, hot in ((14, "Least", 0.0036, 0.038), (15, "Most", 0.0050, 0.043)):
        put(sheet, LOOK, f"A{row}", name, "note")
        put(sheet, LOOK, f"D{row}", clearance, "typed", "0.0000")
        put(sheet, LOOK, f"G{row}", hot, "typed", "0.0000")

    section(sheet, LOOK, "A17:J17", "Ring gaps, filed to each bore")
    for row, ring, formula in (
        (18, "Top", '=ENG.RING_GAP_FACTOR("street","top")'),
        (19, "Second", '=ENG.RING_GAP_FACTOR("street","second")'),
    ):
        put(sheet, LOOK, f"A{row}", f"{ring} ring, gap for each inch of bore")
        merge(sheet, f"A{row}:C{row}")
        put(sheet, LOOK, f"D{row}", formula, "result", "0.0000")
    put(sheet, LOOK, "E18", "starting point; the card in the box says the same", "note")
    heads(
        sheet, LOOK, 20,
        ("Cyl", "Top gap, least (in)", "Top gap, fitted (in)", "Top gap, most (in)", "Verdict",
         "Second gap, least (in)", "Second gap, fitted (in)", "Second gap, most (in)", "Verdict"),
    )  # fmt: skip
    for number, (top, second) in enumerate(zip(TOP_GAPS, SECOND_GAPS, strict=True), 1):
        row = 20 + number
        put(sheet, LOOK, f"A{row}", number, "number")
        put(sheet, LOOK, f"C{row}", top, "typed", "0.0000")
        put(sheet, LOOK, f"D{row}", 0.0210, "typed", "0.0000")
        put(sheet, LOOK, f"E{row}", f"=ENG.VERDICT(C{row},B{row},D{row})", "verdict")
        put(sheet, LOOK, f"G{row}", second, "typed", "0.0000")
        put(sheet, LOOK, f"H{row}", 0.0245, "typed", "0.0000")
        put(sheet, LOOK, f"I{row}", f"=ENG.VERDICT(G{row},F{row},H{row})", "verdict")
    array(sheet, LOOK, "B21:B28", "=ENG.RING_GAP(B6:B13,D18)", "0.0000")
    array(sheet, LOOK, "F21:F28", "=ENG.RING_GAP(B6:B13,D19)", "0.0000")
    stripe(sheet, LOOK, "A21:I28")
    judge(sheet, ["E6:E13", "H6:H13", "E21:E28", "I21:I28"])
    put(sheet, LOOK, "A30", "No. 7 top ring set close on purpose: bore 7 is the smallest.", "note")
    set_up(sheet, (9, *([14] * 9)), "J30", LETTER, wide=True)


def _bearings(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "Main and rod bearings", "title")
    merge(sheet, "A1:H1")
    put(
        sheet, LOOK, "A2",
        "Job QER-0418. Housings with caps torqued, square to the parting line; clearance is total",
        "subtitle",
    )  # fmt: skip
    merge(sheet, "A2:H2")
    tables = (
        (4, "Main bearings", "Main", MAINS, 0.0935, 0.0015, 0.0023),
        (13, "Rod bearings", "Rod", RODS, 0.0605, 0.0017, 0.0026),
    )
    for top, title, word, sizes, wall, least, most in tables:
        section(sheet, LOOK, f"A{top}:H{top}", title)
        heads(
            sheet, LOOK, top + 1,
            ("Bearing", "Housing bore (in)", "Shell wall (in)", "Journal diameter (in)",
             f"{word} bearing clearance (in)", "Least (in)", "Most (in)", "Verdict"),
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
    judge(sheet, ["H6:H10", "H15:H22"])
    put(sheet, LOOK, "A24", "Main clearance, mean of five")
    merge(sheet, "A24:D24")
    put(sheet, LOOK, "E24", "=ENG.MEAN_READING(E6:E10,5)", "result", "0.0000")
    put(sheet, LOOK, "F24", "in", "unit")
    put(sheet, LOOK, "A25", "Rod clearance, mean of eight")
    merge(sheet, "A25:D25")
    put(sheet, LOOK, "E25", "=ENG.MEAN_READING(E15:E22,8)", "result", "0.0000")
    put(sheet, LOOK, "F25", "in", "unit")
    put(
        sheet, LOOK, "A27",
        "Shells dry, same pair of gauges for housing and journal. Oil 10W-30. Seen a second time "
        "by J. Pellam, 2025-04-02.", "note",
    )  # fmt: skip
    set_up(sheet, (12, 13, 12, 14, 14, 11, 11, 10), "H27", LETTER, wide=False)


def make() -> Workbook:
    """The book, not yet calculated."""
    book = Workbook()
    book.active.title = "Build sheet"
    build = _build_sheet(book.active)
    _cylinders(book.create_sheet("Cylinders"), build)
    _bearings(book.create_sheet("Bearings"))
    return book
