"""A metric flat twin over several sheets: the job in defined names, left and right across."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from drawing import A4, Look, array, content_kind, heads, judge, merge, put, section, set_up
from openpyxl import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.worksheet import Worksheet

LOOK = Look(font="Cambria", ink="6B2F2A", tint="F1E4DE", stripe="FAF5F2", size=11)
MM = "0.000"
_SIDES = "BC"


@dataclass
class _Page:
    """A sheet as it grows line by line: A item, B left, C right, D unit, then limits, notes."""

    sheet: Worksheet
    row: int = 4

    def section(self, text: str) -> None:
        if self.row > 4:
            self.row += 1
        section(self.sheet, LOOK, f"A{self.row}:G{self.row}", text)
        heads(
            self.sheet, LOOK, self.row + 1,
            ("Item", "Left", "Right", "Unit", "Least", "Most", "Notes"),
        )  # fmt: skip
        self.row += 2

    def _line(self, label: str, unit: str, note: str) -> int:
        put(self.sheet, LOOK, f"A{self.row}", label)
        if unit:
            put(self.sheet, LOOK, f"D{self.row}", unit, "unit")
        if note:
            put(self.sheet, LOOK, f"G{self.row}", note, "note")
        self.row += 1
        return self.row - 1

    def typed(
        self, label: str, pair: Sequence[object], unit: str, digits: str = MM, note: str = ""
    ) -> int:
        """A reading on each side; returns its row."""
        for side, reading in zip(_SIDES, pair, strict=True):
            put(self.sheet, LOOK, f"{side}{self.row}", reading, "typed", digits)
        return self._line(label, unit, note)

    def each(
        self,
        label: str,
        formula: Callable[[str], str],
        unit: str,
        digits: str = MM,
        band: tuple[float, float] | None = None,
        note: str = "",
    ) -> int:
        """A formula on each side, judged in the line below where a band is given."""
        for side in _SIDES:
            put(self.sheet, LOOK, f"{side}{self.row}", formula(side), "result", digits)
        row = self._line(label, unit, note)
        if band:
            self.judged(row, f"$E{row}", band, digits)
            put(self.sheet, LOOK, f"E{row}", band[0], "typed", digits)
        return row

    def judged(self, row: int, least: str, band: tuple[float, float], digits: str) -> None:
        """Verdicts below a line; least is a cell, "@" in it stands for the side."""
        put(self.sheet, LOOK, f"F{row}", band[1], "typed", digits)
        for side in _SIDES:
            low = least.replace("@", side)
            verdict = f'=ENG.VERDICT({side}{row},{low},$F{row},"metric")'
            put(self.sheet, LOOK, f"{side}{self.row}", verdict, "verdict")
        judge(self.sheet, [f"B{self.row}:C{self.row}"])
        self._line("Verdict", "", "")


def _start(sheet: Worksheet, title: str, words: str) -> _Page:
    put(sheet, LOOK, "A1", title, "title")
    merge(sheet, "A1:G1")
    put(sheet, LOOK, "A2", words, "subtitle")
    merge(sheet, "A2:G2")
    return _Page(sheet)


def _finish(page: _Page, wide: bool = True) -> None:
    set_up(page.sheet, (34, 12, 12, 8, 10, 10, 40), f"G{page.row}", A4, wide)


def _name(book: Workbook, name: str, sheet: Worksheet, cell: str) -> None:
    place = f"'{sheet.title}'!${cell[0]}${cell[1:]}"
    book.defined_names[name] = DefinedName(name, attr_text=place)


def _job(book: Workbook, sheet: Worksheet) -> None:
    """A card with each field under its name, and the sizes that all sheets use by name."""
    put(sheet, LOOK, "A1", "Quillfeather Engine Room", "banner")
    merge(sheet, "A1:C1", LOOK.ink)
    put(sheet, LOOK, "A2", "Job card. Millimeters, cc, deg C throughout", "subtitle")
    merge(sheet, "A2:C2")
    fields = (
        ("A4", "Job", "job_number", "QER-0431"),
        ("B4", "Customer", "customer", "Sunniva Callowhill"),
        ("C4", "Engine", "engine", "metric flat twin, air cooled, 91 bore"),
        ("A7", "Builder", "builder", "Ines Tarrow"),
        ("B7", "Taken in", "started", datetime.date(2025, 5, 5)),
        ("C7", "Handed over", "finished", datetime.date(2025, 6, 13)),
    )
    for at, label, name, content in fields:
        below = f"{at[0]}{int(at[1:]) + 1}"
        put(sheet, LOOK, at, label, "subtitle")
        put(sheet, LOOK, below, content, "text", "yyyy-mm-dd")
        _name(book, name, sheet, below)
    section(sheet, LOOK, "A10:C10", "Sizes for both cylinders")
    sizes = (
        ("Stroke", "stroke", 80.6, "mm", "0.00"),
        ("Rod length", "rod_length", 125.0, "mm", "0.00"),
        ("Compression height", "compression_height", 32.9, "mm", "0.00"),
        ("Gasket bore", "gasket_bore", 92.5, "mm", "0.0"),
        ("Gasket, compressed", "gasket_thickness", "0,85 mm", "", ""),
        ("Crown volume", "crown_volume", 2.5, "cc", "0.0"),
        ("Speed limit", "speed_limit", 6800, "rpm", "#,##0"),
    )
    for row, (label, name, content, unit, digits) in enumerate(sizes, 11):
        put(sheet, LOOK, f"A{row}", label)
        put(sheet, LOOK, f"B{row}", content, "typed", digits)
        if unit:
            put(sheet, LOOK, f"C{row}", unit, "label")
        _name(book, name, sheet, f"B{row}")
    put(sheet, LOOK, "C15", "mean of four, from an old gasket", "note")
    put(
        sheet, LOOK, "A19",
        "Left and right as seen from the rider's seat. Crown volume is plus for reliefs.", "note",
    )  # fmt: skip
    merge(sheet, "A19:C19")
    set_up(sheet, (24, 28, 42), "C19", A4, wide=False)


def _bearings(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "Crankcase", "title")
    merge(sheet, "A1:H1")
    put(sheet, LOOK, "A2", "Case bolted up dry at 20 deg C; all sizes in mm", "subtitle")
    merge(sheet, "A2:H2")
    tables = (
        (4, "Main bearings", ("Front", "Rear"), ((64.020, 59.955), (64.018, 59.957)), 2.005,
         0.040, 0.070),
        (10, "Rod bearings", ("Left", "Right"), ((52.018, 47.980), (52.019, 47.979)), 1.995,
         0.035, 0.065),
    )  # fmt: skip
    for top, title, names, sizes, wall, least, most in tables:
        section(sheet, LOOK, f"A{top}:H{top}", title)
        word = title.split()[0]
        heads(
            sheet, LOOK, top + 1,
            ("Bearing", f"{word} housing (mm)", f"{word} shell wall (mm)",
             f"{word} journal diameter (mm)", f"{word} bearing clearance (mm)", "Least (mm)",
             "Most (mm)", "Verdict"),
        )  # fmt: skip
        for row, (name, (housing, journal)) in enumerate(zip(names, sizes, strict=True), top + 2):
            put(sheet, LOOK, f"A{row}", name)
            for column, value in zip("BCDFG", (housing, wall, journal, least, most), strict=True):
                put(sheet, LOOK, f"{column}{row}", value, "typed", MM)
            put(
                sheet, LOOK, f"E{row}", f'=ENG.BEARING_CLEARANCE(B{row},C{row},D{row},,"metric")',
                "result", MM,
            )  # fmt: skip
            put(sheet, LOOK, f"H{row}", f'=ENG.VERDICT(E{row},F{row},G{row},"metric")', "verdict")
        judge(sheet, [f"H{top + 2}:H{top + 3}"])
    put(
        sheet, LOOK, "A15",
        "Rod nuts tightened and stretched as the rod maker's sheet says, seen by J. Pellam.",
        "note",
    )  # fmt: skip
    set_up(sheet, (12, 14, 14, 17, 17, 11, 11, 10), "H15", A4, wide=True)


def _cylinders(sheet: Worksheet) -> dict[str, int]:
    page = _start(sheet, "Cylinders", "Each bore square to the pin; deck from the crank centerline")
    page.section("Deck, base gaskets in place")
    front = page.typed("Deck height, front", (198.42, 198.46), "mm", "0.00")
    rear = page.typed("Deck height, rear", (198.44, 198.46), "mm", "0.00")
    deck = page.each(
        "Deck clearance",
        lambda c: f'=ENG.DECK_CLEARANCE(ENG.MEAN_READING({c}{front}:{c}{rear},2,"metric"),stroke,'
        'rod_length,compression_height,"metric")',
        "mm", band=(0.15, 0.35), note="plus = piston below the deck; 0.25 base gasket",
    )  # fmt: skip
    page.section("Bores and pistons")
    top = page.typed("Bore, top", (91.014, 91.012), "mm")
    page.typed("Bore, middle", (91.012, 91.011), "mm")
    bottom = page.typed("Bore, bottom", (91.012, 91.010), "mm")
    bore = page.each(
        "Bore, mean", lambda c: f'=ENG.MEAN_READING({c}{top}:{c}{bottom},3,"metric")', "mm"
    )
    skirt = page.typed("Piston skirt", (90.944, 90.943), "mm", note="12 mm up from the skirt's end")
    page.each(
        "Piston clearance",
        lambda c: f'=ENG.PISTON_CLEARANCE({c}{bore},{c}{skirt},"metric")', "mm",
        band=(0.050, 0.090),
    )  # fmt: skip
    page.section("Ring gaps")
    gaps = (("top", (0.48, 0.49), 0.60), ("second", (0.50, 0.49), 0.62))
    for ring, fitted, most in gaps:
        least = page.row
        array(
            sheet, LOOK, f"B{least}:C{least}",
            f'=ENG.RING_GAP(B{bore}:C{bore},ENG.RING_GAP_FACTOR("air cooled","{ring}"),"metric")',
            MM,
        )  # fmt: skip
        page._line(f"{ring.capitalize()} ring gap, least", "mm", "as on the ring card")
        gap = page.typed(f"{ring.capitalize()} ring gap, fitted", fitted, "mm", "0.00")
        page.judged(gap, f"@{least}", (0, most), "0.00")
    _finish(page)
    return {"deck": deck, "bore": bore}


def _heads(sheet: Worksheet, rows: dict[str, int]) -> int:
    page = _start(sheet, "Heads and ratio", "Burette, plug and valves in place, level on the bench")
    page.section("Quench and ratio")
    deck = [f"Cylinders!{side}{rows['deck']}" for side in _SIDES]
    bore = [f"Cylinders!{side}{rows['bore']}" for side in _SIDES]
    chamber = page.typed("Chamber", (59.5, "59,8 cc"), "cc", "0.0", "bathtub, two readings each")
    page.each(
        "Quench", lambda c: f'=ENG.QUENCH({deck[_SIDES.index(c)]},gasket_thickness,"metric")',
        "mm", band=(0.95, 1.25),
    )  # fmt: skip
    gasket_volume = page.each(
        "Gasket volume", lambda _: '=ENG.GASKET_VOLUME(gasket_bore,gasket_thickness,"metric")',
        "cc", "0.00",
    )  # fmt: skip
    deck_volume = page.each(
        "Deck volume",
        lambda c: f'=ENG.DECK_VOLUME({bore[_SIDES.index(c)]},{deck[_SIDES.index(c)]},"metric")',
        "cc", "0.00",
    )  # fmt: skip
    ratio = page.each(
        "Compression ratio",
        lambda c: f'=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME({bore[_SIDES.index(c)]},stroke,'
        f'"metric"),{c}{chamber},{c}{gasket_volume},{c}{deck_volume},crown_volume,"metric")',
        "", "0.00", band=(8.3, 8.9), note="regular fuel",
    )  # fmt: skip
    _finish(page)
    return ratio


def _result(sheet: Worksheet, rows: dict[str, int], ratio: int) -> None:
    put(sheet, LOOK, "A1", "For the customer", "title")
    merge(sheet, "A1:C1")
    bore = f"Cylinders!B{rows['bore']}:C{rows['bore']}"
    lines = (
        ("Job", "=job_number", "", ""),
        ("Customer", "=customer", "", ""),
        ("Engine", "=engine", "", ""),
        ("Displacement", f'=ENG.DISPLACEMENT(AVERAGE({bore}),stroke,2,"metric")', "cc", "#,##0.0"),
        ("Mean piston speed", '=ENG.MEAN_PISTON_SPEED(stroke,speed_limit,"metric")', "m/s", "0.00"),
        ("Rod to stroke", '=ENG.ROD_STROKE_RATIO(rod_length,stroke,"metric")', "", "0.000"),
        ("Ratio, mean of both", f'=ENG.MEAN_READING(Heads!B{ratio}:C{ratio},2,"metric")', "",
         "0.00"),
        ("Main clearance, mean of two", '=ENG.MEAN_READING(Crankcase!E6:E7,2,"metric")', "mm", MM),
        ("Rod clearance, mean of two", '=ENG.MEAN_READING(Crankcase!E12:E13,2,"metric")', "mm", MM),
        ("Oil", "20W-50, change at 500 km", "", ""),
    )  # fmt: skip
    for row, (label, content, unit, digits) in enumerate(lines, 3):
        put(sheet, LOOK, f"A{row}", label)
        put(sheet, LOOK, f"B{row}", content, content_kind(content), digits)
        if unit:
            put(sheet, LOOK, f"C{row}", unit, "unit")
    put(
        sheet, LOOK, "A14",
        "Limits are those of the part makers, whose instructions come first.", "note",
    )  # fmt: skip
    set_up(sheet, (30, 40, 10), "C14", A4, wide=False)


def make() -> Workbook:
    """The book, not yet calculated."""
    book = Workbook()
    book.active.title = "Job"
    _job(book, book.active)
    _bearings(book.create_sheet("Crankcase"))
    rows = _cylinders(book.create_sheet("Cylinders"))
    ratio = _heads(book.create_sheet("Heads"), rows)
    _result(book.create_sheet("Customer"), rows, ratio)
    return book
