"""A metric inline four: cylinders and journals across, "metric" in one cell of the job's head."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from drawing import A4, Look, array, content_kind, judge, merge, put, section, set_up
from openpyxl import Workbook
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

LOOK = Look(font="Calibri", ink="23533B", tint="D9EADF", stripe="F3F8F5", size=11)
U = "Cylinders!$C$6"  # the cell that says "metric"
MM = "0.000"

BORES = {
    "top, thrust": (84.312, 84.310, 84.313, 84.311),
    "top, axial": (84.308, 84.307, 84.309, 84.308),
    "middle, thrust": (84.310, 84.309, 84.311, 84.310),
    "middle, axial": (84.307, 84.306, 84.308, 84.307),
    "bottom, thrust": (84.309, 84.308, 84.310, 84.309),
    "bottom, axial": (84.307, 84.305, 84.308, 84.306),
}


@dataclass
class _Page:
    """A sheet as it grows line by line: A item, B unit, then one column for each cylinder.

    across: how many columns of readings; behind them stand least, most and a note.
    """

    sheet: Worksheet
    row: int
    across: int

    def column(self, step: int) -> str:
        return get_column_letter(3 + step)

    def section(self, text: str) -> None:
        self.sheet.row_dimensions[self.row].height = 8
        self.row += 1
        section(self.sheet, LOOK, f"A{self.row}:{self.column(self.across + 2)}{self.row}", text)
        self.row += 1

    def numbers(self, word: str, count: int) -> None:
        """The row that numbers the columns."""
        put(self.sheet, LOOK, f"A{self.row}", word, "section")
        for step in range(count):
            put(self.sheet, LOOK, f"{self.column(step)}{self.row}", step + 1, "head")
        for step, text in enumerate(("Least", "Most", "Notes"), self.across):
            put(self.sheet, LOOK, f"{self.column(step)}{self.row}", text, "head")
        self.row += 1

    def _name(self, label: str, unit: str, note: str = "") -> None:
        put(self.sheet, LOOK, f"A{self.row}", label)
        if unit:
            put(self.sheet, LOOK, f"B{self.row}", unit, "unit")
        if note:
            put(self.sheet, LOOK, f"{self.column(self.across + 2)}{self.row}", note, "note")

    def one(
        self, label: str, content: object, unit: str = "", digits: str = MM, note: str = ""
    ) -> str:
        """A line with a single value; returns its cell."""
        self._name(label, unit, note)
        put(self.sheet, LOOK, f"C{self.row}", content, content_kind(content), digits)
        self.row += 1
        return f"$C${self.row - 1}"

    def typed(
        self, label: str, readings: Sequence[float], unit: str, digits: str = MM, note: str = ""
    ) -> int:
        """A line of readings; returns its row."""
        self._name(label, unit, note)
        for step, reading in enumerate(readings):
            put(self.sheet, LOOK, f"{self.column(step)}{self.row}", reading, "typed", digits)
        self.row += 1
        return self.row - 1

    def each(
        self, label: str, count: int, formula: Callable[[str], str], unit: str, digits: str = MM
    ) -> int:
        """A line with a formula in each column; returns its row."""
        self._name(label, unit)
        for step in range(count):
            at = self.column(step)
            put(self.sheet, LOOK, f"{at}{self.row}", formula(at), "result", digits)
        self.row += 1
        return self.row - 1

    def whole(self, label: str, count: int, formula: str, unit: str) -> int:
        """A line that one array formula fills; returns its row."""
        self._name(label, unit)
        array(self.sheet, LOOK, f"C{self.row}:{self.column(count - 1)}{self.row}", formula, MM)
        self.row += 1
        return self.row - 1

    def judged(self, row: int, count: int, least: float | int, most: float, digits: str) -> None:
        """Limits behind a line, and verdicts below it. An int for least is a line of limits."""
        low, high = self.column(self.across), self.column(self.across + 1)
        if isinstance(least, float):
            put(self.sheet, LOOK, f"{low}{row}", least, "typed", digits)
        put(self.sheet, LOOK, f"{high}{row}", most, "typed", digits)
        put(self.sheet, LOOK, f"A{self.row}", "Verdict")
        for step in range(count):
            at = self.column(step)
            limit = f"${low}{row}" if isinstance(least, float) else f"{at}{least}"
            verdict = f"=ENG.VERDICT({at}{row},{limit},${high}{row},{U})"
            put(self.sheet, LOOK, f"{at}{self.row}", verdict, "verdict")
        judge(self.sheet, [f"C{self.row}:{self.column(count - 1)}{self.row}"])
        self.row += 1


def _job(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "Quillfeather Engine Room", "banner")
    merge(sheet, "A1:I1", LOOK.ink)
    put(sheet, LOOK, "A2", "Measured at 20 deg C; clearances are total, not per side", "subtitle")
    merge(sheet, "A2:I2")
    fields = (
        ("Job number", "QER-0423", "Started", datetime.date(2025, 4, 14)),
        ("Customer", "Bastian Morrowdale", "Finished", datetime.date(2025, 5, 23)),
        ("Units", "metric", "Built by", "Jonas Pellam"),
        ("Engine", "metric inline four, iron block, 84.3 bore", "Use", "modified, circuit days"),
    )
    for row, (name, value, other, content) in enumerate(fields, 4):
        put(sheet, LOOK, f"A{row}", name)
        put(sheet, LOOK, f"C{row}", value, "text")
        merge(sheet, f"C{row}:F{row}")
        put(sheet, LOOK, f"G{row}", other)
        put(sheet, LOOK, f"H{row}", content, "text", "dd.mm.yyyy")
        merge(sheet, f"H{row}:I{row}")


def _cylinders(sheet: Worksheet) -> None:
    _job(sheet)
    page = _Page(sheet, row=8, across=4)
    page.section("Crank, rods, block")
    stroke = page.one("Stroke", 87.4, "mm", "0.00")
    rod = page.one("Rod length", 146.2, "mm", "0.00")
    height = page.one("Compression height", 31.15, "mm", "0.00")
    front = page.one("Deck height, front", 221.35, "mm", "0.00")
    rear = page.one("Deck height, rear", 221.36, "mm", "0.00")
    deck_height = page.one("Deck height, mean", f"=ENG.MEAN_READING({front}:{rear},2,{U})", "mm")
    stack = f"{deck_height},{stroke},{rod},{height}"
    page.one(
        "Deck clearance, calculated", f"=ENG.DECK_CLEARANCE({stack},{U})", "mm",
        note="plus = piston below the deck",
    )  # fmt: skip
    rise = page.one("Temperature rise", 65, "deg C", "0", note="20 to 85 deg C")
    growth = page.one(
        "Growth of the deck, cold to hot",
        f'=ENG.DECK_GROWTH({stack},{rise},"gray iron",,,"aluminum 4032",,{U})', "mm",
        note="estimate; minus = closes as it warms",
    )  # fmt: skip

    page.section("Bores and pistons")
    page.numbers("Cylinder", 4)
    rows = [page.typed(f"Bore, {place}", readings, "mm") for place, readings in BORES.items()]
    top, last = rows[0], rows[-1]
    bore = page.each(
        "Bore, mean of six", 4, lambda c: f"=ENG.MEAN_READING({c}{top}:{c}{last},6,{U})", "mm",
        "0.0000",
    )  # fmt: skip
    spread = page.each(
        "Bore, spread of six", 4, lambda c: f"=ENG.READING_SPREAD({c}{top}:{c}{last},6,{U})", "mm"
    )
    page.judged(spread, 4, 0.0, 0.015, MM)
    skirt = page.typed(
        "Piston skirt", (84.266, 84.265, 84.267, 84.266), "mm", note="at the maker's gauge point"
    )
    clearance = page.each(
        "Piston clearance", 4, lambda c: f"=ENG.PISTON_CLEARANCE({c}{bore},{c}{skirt},{U})", "mm",
        "0.0000",
    )  # fmt: skip
    page.judged(clearance, 4, 0.035, 0.052, MM)

    page.section("Deck and quench")
    wanted = page.one("Quench wanted, hot", 1.00, "mm", "0.00")
    gasket = page.one(
        "Gasket fitted, compressed", 0.70, "mm", "0.00", "0.65 / 0.70 / 0.75 on the shelf"
    )
    page.numbers("Cylinder", 4)
    pin_front = page.typed("Deck clearance, pin front", (0.31, 0.30, 0.30, 0.32), "mm", "0.00")
    pin_rear = page.typed("Deck clearance, pin rear", (0.29, 0.30, 0.32, 0.31), "mm", "0.00")
    deck = page.each(
        "Deck clearance", 4, lambda c: f"=ENG.MEAN_READING({c}{pin_front}:{c}{pin_rear},2,{U})",
        "mm",
    )  # fmt: skip
    page.each(
        "Gasket called for", 4,
        lambda c: f"=ENG.GASKET_FOR_QUENCH({wanted},{c}{deck},{growth},{U})", "mm",
    )  # fmt: skip
    quench = page.whole("Quench, cold", 4, f"=ENG.QUENCH(C{deck}:F{deck},{gasket},{U})", "mm")
    page.judged(quench, 4, 0.90, 1.10, "0.00")

    page.section("Volumes and ratio")
    page.numbers("Cylinder", 4)
    chamber = page.typed("Chamber", (42.0, 41.8, 41.9, 42.0), "cc", "0.0")
    crown = page.typed(
        "Crown volume", (3.5, 3.5, 3.5, 3.5), "cc", "0.0", note="reliefs, plus = adds volume"
    )
    gasket_bore = page.one("Gasket bore", 85.8, "mm", "0.0")
    gasket_volume = page.one(
        "Gasket volume", f"=ENG.GASKET_VOLUME({gasket_bore},{gasket},{U})", "cc", "0.00"
    )
    ratio = page.each(
        "Compression ratio", 4,
        lambda c: f"=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME({c}{bore},{stroke},{U}),"
        f"{c}{chamber},{gasket_volume},ENG.DECK_VOLUME({c}{bore},{c}{deck},{U}),{c}{crown},{U})",
        "", "0.00",
    )  # fmt: skip
    page.judged(ratio, 4, 10.3, 10.9, "0.0")

    page.section("Ring gaps")
    page.numbers("Cylinder", 4)
    for ring, fitted, most in (
        ("Top", (0.45, 0.46, 0.45, 0.45), 0.55),
        ("Second", (0.50, 0.50, 0.49, 0.50), 0.60),
    ):
        factor = page.one(
            f"{ring} ring, for each mm of bore",
            f'=ENG.RING_GAP_FACTOR("modified","{ring.lower()}")', digits="0.0000",
            note="starting point; as on the ring card",
        )  # fmt: skip
        least = page.whole(
            f"{ring} ring gap, least", 4, f"=ENG.RING_GAP(C{bore}:F{bore},{factor},{U})", "mm"
        )
        gap = page.typed(f"{ring} ring gap, fitted", fitted, "mm", "0.00")
        page.judged(gap, 4, least, most, "0.00")

    page.section("The engine")
    page.one(
        "Displacement", f"=ENG.DISPLACEMENT(AVERAGE(C{bore}:F{bore}),{stroke},4,{U})", "cc",
        "#,##0.0",
    )  # fmt: skip
    speed = page.one("Highest engine speed", 7000, "rpm", "#,##0")
    page.one("Mean piston speed", f"=ENG.MEAN_PISTON_SPEED({stroke},{speed},{U})", "m/s", "0.00")
    page.one("Rod to stroke", f"=ENG.ROD_STROKE_RATIO({rod},{stroke},{U})")
    widths = (34, 8, 11, 11, 11, 11, 10, 10, 36)
    set_up(sheet, widths, f"I{page.row}", A4, wide=False)


def _bottom_end(sheet: Worksheet) -> None:
    put(sheet, LOOK, "A1", "Bottom end", "banner")
    merge(sheet, "A1:J1", LOOK.ink)
    put(sheet, LOOK, "A2", "QER-0423. Caps torqued, square to the parting line", "subtitle")
    merge(sheet, "A2:J2")
    page = _Page(sheet, row=3, across=5)
    page.section("Main bearings")
    page.numbers("Journal", 5)
    housing = page.typed("Main housing bore", (60.512, 60.511, 60.513, 60.512, 60.511), "mm")
    upper = page.typed("Main shell wall, upper", (1.990,) * 5, "mm", note="grooved")
    lower = page.typed("Main shell wall, lower", (1.993,) * 5, "mm", note="plain")
    journal = page.typed("Main journal", (56.488, 56.486, 56.489, 56.487, 56.488), "mm")
    mains = page.each(
        "Main bearing clearance", 5,
        lambda c: f"=ENG.BEARING_CLEARANCE({c}{housing},{c}{upper},{c}{journal},{c}{lower},{U})",
        "mm",
    )  # fmt: skip
    page.judged(mains, 5, 0.030, 0.055, MM)
    page.section("Rod bearings")
    page.numbers("Cylinder", 4)
    big_end = page.typed("Rod housing bore", (52.308, 52.307, 52.309, 52.308), "mm")
    wall = page.typed("Rod shell wall", (1.487,) * 4, "mm")
    pin = page.typed("Rod journal", (49.290, 49.291, 49.290, 49.289), "mm")
    rods = page.each(
        "Rod bearing clearance", 4,
        lambda c: f"=ENG.BEARING_CLEARANCE({c}{big_end},{c}{wall},{c}{pin},,{U})", "mm",
    )  # fmt: skip
    page.judged(rods, 4, 0.028, 0.055, MM)
    page.section("For the hand-over sheet")
    page.one("Main clearance, mean of five", f"=ENG.MEAN_READING(C{mains}:G{mains},5,{U})", "mm")
    page.one("Rod clearance, mean of four", f"=ENG.MEAN_READING(C{rods}:F{rods},4,{U})", "mm")
    page.one("Oil", "10W-40, first fill 10W-30 for running in")
    put(
        sheet, LOOK, f"A{page.row + 1}",
        "Limits are those on the makers' cards; the part makers' figures come first.", "note",
    )  # fmt: skip
    set_up(sheet, (30, 7, 10, 10, 10, 10, 10, 9, 9, 16), f"J{page.row + 1}", A4, wide=True)


def make() -> Workbook:
    """The book, not yet calculated."""
    book = Workbook()
    book.active.title = "Cylinders"
    _cylinders(book.active)
    _bottom_end(book.create_sheet("Bottom end"))
    return book
