"""Invented engines as builders' books of several layouts, with readings that scatter.

Sizes and scatter are drawn from what the trade calls usual (common practice, no source).
"""

from __future__ import annotations

import random
import zlib
from contextlib import suppress

from invented_engines import Engine, draw_engine, on_grid, ratio_of
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.jobs.read import read_whole


class Page:
    """A book on its way: cells by sheet, and where each reading and result stands."""

    def __init__(self, engine: Engine, rng: random.Random, job: str, layout: str) -> None:
        self.engine, self.rng, self.job, self.layout = engine, rng, job, layout
        self.cells: dict[str, dict[tuple[int, int], object]] = {}
        self.at: dict[tuple[str, int], tuple[str, str]] = {}
        self.metric = ',"metric"' if engine.system == "metric" else ""

    def put(self, sheet, row, column, content, key=None, n=0):
        """Write a cell; key and n name it for faults. Returns its address."""
        if content is not None:
            self.cells.setdefault(sheet, {})[row, column] = content
        address = f"{get_column_letter(column)}{row}"
        if key is not None:
            self.at[key, n] = (sheet, address)
        return address

    def ref(self, key, n=0, sheet=""):
        """The reference to a cell from a sheet."""
        title, address = self.at[key, n]
        return address if title == sheet else f"'{title}'!{address}"

    def get(self, key, n=0):
        title, address = self.at[key, n]
        return self.cells[title][coordinate_to_tuple(address)]

    def set(self, key, n, content):
        title, address = self.at[key, n]
        if content is None:
            del self.cells[title][coordinate_to_tuple(address)]
        else:
            self.cells[title][coordinate_to_tuple(address)] = content

    def place(self, key, n=0):
        return self.at[key, n]

    def write(self, key, n, content):
        """Write a cell whose place is known already."""
        title, address = self.at[key, n]
        self.cells.setdefault(title, {})[coordinate_to_tuple(address)] = content

    def has(self, key):
        return (key, 0) in self.at

    def book(self, name="book.xlsx"):
        """The book as it is read, calculated and saved first."""
        calculated = self._open(name, {})
        values = Recalculation(calculated)
        saved = {}
        for sheet in calculated.sheets:
            for (row, column), cell in sheet.cells.items():
                if cell.formula:
                    with suppress(CannotEvaluate):
                        saved[sheet.title, (row, column)] = values.value(sheet, row, column)
        return read_whole(self._open(name, saved))

    def _open(self, name, saved):
        sheets = []
        for title, cells in self.cells.items():
            made = {}
            for at, content in sorted(cells.items()):
                if isinstance(content, str) and content.startswith("="):
                    made[at] = Cell(saved.get((title, at)), content[1:])
                else:
                    made[at] = Cell(content)
            sheets.append(Sheet(title, made))
        content = repr(self.cells).encode()
        return OpenBook(name, f"{zlib.crc32(content):08x}", tuple(sheets), {})


_UNITS = {"bore": "L", "skirt": "L", "deck": "L", "chamber": "cc", "crown": "cc",
          "top gap": "L", "second gap": "L"}  # fmt: skip
_WORDS = {
    "bore": ("Bore", "Finished bore"), "skirt": ("Piston skirt", "Piston"),
    "deck": ("Deck clearance", "Deck, plus = below"), "chamber": ("Chamber", "Chamber volume"),
    "crown": ("Crown volume", "Piston crown"), "top gap": ("Top ring gap", "Top gap"),
    "second gap": ("Second ring gap", "2nd gap"), "clearance": ("Piston clearance", "Fit"),
    "quench": ("Quench", "Quench, cold"), "ratio": ("Ratio", "Compression"),
}  # fmt: skip
_SINGLES = (
    ("stroke", "Stroke", "L"), ("rod", "Rod length", "L"), ("height", "Compression height", "L"),
    ("deck height", "Deck height", "L"), ("gasket", "Gasket thickness, compressed", "L"),
    ("gasket bore", "Gasket bore", "L"), ("cylinders", "Number of cylinders", ""),
    ("stated", "Engine size", "D"), ("factor", "Ring gap factor", ""),
)  # fmt: skip


def _crown_word(page, engine):
    """Some books say dish or dome, most say crown volume."""
    value = engine.rows["crown"][0]
    return page.rng.choice(["Crown volume", "Crown volume", "Dish" if value > 0 else "Dome"])


def lay_out(engine: Engine, rng: random.Random, job: str, layout: str) -> Page:
    """A book of one engine: "down", "across", "banks" or "sheets"."""
    page = Page(engine, rng, job, layout)
    length = "mm" if engine.system == "metric" else "in"
    units = {"L": length, "cc": "cc", "D": "cc" if engine.system == "metric" else "cu in", "": ""}
    main = "Engine"
    page.put(main, 1, 1, "Build sheet of an invented shop")
    page.put(main, 2, 1, "Job no.")
    page.put(main, 2, 2, job, "job")
    page.put(main, 3, 1, "Date in")
    page.put(main, 3, 2, "2025-02-03")
    page.put(main, 3, 4, "Date out")
    page.put(main, 3, 5, "2025-03-14", "finished")
    page.put(main, 4, 1, "Built by")
    page.put(main, 4, 2, "R. Vandermoor")
    page.put(main, 4, 4, "Checked by")
    page.put(main, 4, 5, "I. T.", "checked")
    row = 6
    for key, label, kind in _SINGLES:
        own = units[kind]
        in_label = layout in ("down", "banks") and own
        page.put(main, row, 1, f"{label} ({own})" if in_label else label)
        page.put(main, row, 2, engine.one[key], key)
        if own and not in_label:
            page.put(main, row, 3, own)
        row += 1
    m = page.metric
    page.put(main, row, 1, "Deck clearance, from sizes")
    page.put(main, row, 2, f"=ENG.DECK_CLEARANCE({page.ref('deck height', 0, main)},"
             f"{page.ref('stroke', 0, main)},{page.ref('rod', 0, main)},"
             f"{page.ref('height', 0, main)}{m})", "stack")  # fmt: skip
    page.put(main, row + 1, 1, "Growth of the deck, cold to hot")
    page.put(main, row + 1, 2, 0.1 if engine.system == "metric" else 0.004, "growth")
    page.put(main, row + 2, 1, "Gasket volume")
    page.put(main, row + 2, 2, f"=ENG.GASKET_VOLUME({page.ref('gasket bore', 0, main)},"
             f"{page.ref('gasket', 0, main)}{m})", "gasket volume")  # fmt: skip
    table = "Cylinders" if layout == "sheets" else main
    if layout == "sheets":
        page.put(table, 1, 1, "Job no.")
        page.put(table, 1, 2, job, "job on cylinders")
    words = {key: rng.choice(names) for key, names in _WORDS.items()}
    words["crown"] = _crown_word(page, engine)
    _cylinder_table(page, table, row + 5, units, words)
    _summary(page, main, row + 3, table)
    bottom = "Bottom end"
    page.put(bottom, 1, 1, "Job no.")
    page.put(bottom, 1, 2, job, "job on bottom end")
    after = _bearing_table(page, bottom, 3, "Main", "main", engine.mains, length)
    _bearing_table(page, bottom, after + 2, "Rod", "pin", engine.cylinders, length)
    if layout == "sheets":
        _hand_over(page, units, words)
    _plan(page, main, row + 2)
    _valves_and_bolts(page, length)
    return page


def _plan(page, sheet, row):
    """The ratio that was planned, in more than half of the books; engines come near it."""
    if page.rng.random() < 0.6:
        word = page.rng.choice(["Ratio wanted", "Target ratio", "Compression ratio, wanted"])
        page.put(sheet, row, 4, word)
        wanted = ratio_of(page.engine, 0) + page.rng.gauss(0, 0.12)
        page.put(sheet, row, 5, on_grid(wanted, 0.1), "ratio wanted")


def _order(page):
    """Cylinders in the order of the table; banks of odd and even numbers in a V."""
    n = page.engine.cylinders
    if page.layout == "banks" and n in (6, 8):
        return [*range(0, n, 2), *range(1, n, 2)]
    return list(range(n))


def columns():
    return ("bore", "skirt", "clearance", "deck", "hot deck", "quench", "chamber", "crown",
            "ratio", "top gap", "second gap", "verdict")  # fmt: skip


def _formula(page, key, n, sheet):
    def at(name, which=n):
        return page.ref(name, which, sheet)

    m = page.metric
    single = {k: page.ref(k, 0, sheet) for k in ("stroke", "gasket", "gasket volume", "growth")}
    return {
        "clearance": f"=ENG.PISTON_CLEARANCE({at('bore')},{at('skirt')}{m})",
        "hot deck": f"=ENG.HOT_DECK_CLEARANCE({at('deck')},{single['growth']}{m})",
        "quench": f"=ENG.QUENCH({at('deck')},{single['gasket']}{m})",
        "ratio": f"=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME({at('bore')},{single['stroke']}{m}),"
        f"{at('chamber')},{single['gasket volume']},"
        f"ENG.DECK_VOLUME({at('bore')},{at('deck')}{m}),{at('crown')}{m})",
        "verdict": f"=ENG.VERDICT({at('clearance')},{page.ref('least', 0, sheet)},"
        f"{page.ref('most', 0, sheet)}{m})",
    }[key]


def _cylinder_table(page, sheet, top, units, words):
    engine = page.engine
    clearance = (
        sum(engine.rows["bore"]) / engine.cylinders - sum(engine.rows["skirt"]) / engine.cylinders
    )
    step = 0.001 if engine.system == "metric" else 0.0001
    page.put(sheet, top, 1, "Fit, least")
    page.put(sheet, top, 2, on_grid(clearance * 0.45, step), "least")
    page.put(sheet, top + 1, 1, "Fit, most")
    page.put(sheet, top + 1, 2, on_grid(clearance * 1.6, step), "most")
    top += 3
    words = {**words, "hot deck": "Deck clearance, hot", "verdict": "Verdict"}
    names = [k for k in columns() if k != "verdict" or page.rng.random() < 0.5]
    for key in names:
        for spot, n in enumerate(_order(page)):
            where = (top + names.index(key) + 1, 3 + spot) if page.layout == "across" else (
                top + 1 + spot, 2 + names.index(key))  # fmt: skip
            page.at[key, n] = (sheet, f"{get_column_letter(where[1])}{where[0]}")
    for index, key in enumerate(names):
        unit = units[_UNITS.get(key, "")] or (
            units["L"] if key in ("clearance", "quench", "hot deck") else ""
        )
        if page.layout == "across":
            page.put(sheet, top + 1 + index, 1, words[key], f"{key} head")
            page.put(sheet, top + 1 + index, 2, unit or None)
        else:
            head = f"{words[key]} ({unit})" if unit else words[key]
            page.put(sheet, top, 2 + index, head, f"{key} head")
        for n in range(engine.cylinders):
            content = engine.rows[key][n] if key in engine.rows else _formula(page, key, n, sheet)
            page.write(key, n, content)
    for spot, n in enumerate(_order(page)):
        if page.layout == "across":
            page.put(sheet, top, 3 + spot, n + 1, "number", n)
        else:
            page.put(sheet, top + 1 + spot, 1, f"Cyl {n + 1}", "number", n)
    page.put(sheet, top, 1, "Cylinder")
    if engine.cylinders > 2 and page.layout != "banks":
        last = engine.cylinders - 1
        low = top + len(names) + 2 if page.layout == "across" else top + engine.cylinders + 2
        area = f"{page.ref('bore', 0, sheet)}:{page.ref('bore', last, sheet)}"
        page.put(sheet, low, 1, "Bore, mean of all")
        page.put(sheet, low, 2, f"=ENG.MEAN_READING({area},{engine.cylinders}{page.metric})",
                 "mean bore")  # fmt: skip


def _summary(page, sheet, row, table):
    page.put(sheet, row, 1, "Displacement, computed")
    page.put(sheet, row, 2, f"=ENG.DISPLACEMENT({page.ref('bore', 0, sheet)},"
             f"{page.ref('stroke', 0, sheet)},{page.ref('cylinders', 0, sheet)}{page.metric})",
             "displacement")  # fmt: skip
    page.put(sheet, row, 4, "Top gap wanted")
    page.put(sheet, row, 5, f"=ENG.RING_GAP({page.ref('bore', 0, sheet)},"
             f"{page.ref('factor', 0, sheet)}{page.metric})", "gap wanted")  # fmt: skip


def _bearing_table(page, sheet, top, word, name, count, length):
    for column, head in enumerate(
        ("Journal", f"Housing bore ({length})", f"Shell wall ({length})",
         f"Journal diameter ({length})", f"{word} clearance ({length})"), 1
    ):  # fmt: skip
        page.put(sheet, top, column, head)
    for n in range(count):
        row = top + 1 + n
        page.put(sheet, row, 1, f"{word} {n + 1}")
        for column, key in enumerate((f"{name} housing", f"{name} wall", f"{name} journal"), 2):
            page.put(sheet, row, column, page.engine.rows[key][n], key, n)
        page.put(sheet, row, 5, f"=ENG.BEARING_CLEARANCE(B{row},C{row},D{row},{page.metric})"
                 if page.metric else f"=ENG.BEARING_CLEARANCE(B{row},C{row},D{row})",
                 f"{name} clearance", n)  # fmt: skip
    return top + count


def _hand_over(page, units, words):
    """A sheet for the customer with sizes typed once more, as shops do."""
    sheet = "Hand-over"
    page.put(sheet, 1, 1, "Sizes as built")
    page.put(sheet, 2, 1, f"Stroke ({units['L']})")
    page.put(sheet, 2, 2, page.engine.one["stroke"], "stroke again")
    page.put(sheet, 3, 1, "Mean piston speed")
    page.put(sheet, 3, 2, f"=ENG.MEAN_PISTON_SPEED(B2,6000{page.metric})")
    page.put(sheet, 5, 1, "Cylinder")
    page.put(sheet, 5, 2, f"{words['bore']} ({units['L']})")
    for n in range(page.engine.cylinders):
        page.put(sheet, 6 + n, 1, f"Cyl {n + 1}")
        page.put(sheet, 6 + n, 2, page.engine.rows["bore"][n], "bore again", n)


def _valves_and_bolts(page, length):
    """A sheet whose labels say how each number was taken: hot, rocked, per side, free, dry."""
    sheet, rng, m = "Valves and bolts", page.rng, page.metric
    metric = page.engine.system == "metric"
    mm, step = (25.4, 0.01) if metric else (1.0, 0.0005)
    fine = 0.002 if metric else 0.0001

    def size(inches, grid=step):
        return on_grid(inches * mm, grid)

    def line(row, label, content, key=None, unit=length):
        page.put(sheet, row, 1, f"{label} ({unit})" if unit else label, f"{key} head")
        page.put(sheet, row, 2, content, key)
        return f"B{row}"

    page.put(sheet, 1, 1, "Valves and bolts")
    least = line(2, "Guide clearance, least", size(0.0008, fine))
    most = line(3, "Guide clearance, most", size(0.0045, fine))
    page.put(sheet, 5, 1, "Valve")
    word = rng.choice(["Guide wobble", "Stem, rocked in its guide", "Wobble at the stem"])
    for column, head in enumerate(
        (f"{word} ({length})", f"Guide clearance ({length})", "Judged"), 2
    ):
        page.put(sheet, 5, column, head)
    for n in range(2):
        row = 6 + n
        page.put(sheet, row, 1, f"Valve {n + 1}")
        page.put(sheet, row, 2, size(rng.uniform(0.0024, 0.0042), fine), "wobble", n)
        page.put(sheet, row, 3, f"=B{row}/2", "guide clearance", n)
        page.put(sheet, row, 4, f"=ENG.VERDICT(C{row},{least},{most}{m})", "guide verdict", n)
    intake, exhaust = size(rng.uniform(0.010, 0.018)), size(rng.uniform(0.0185, 0.024))
    lash = rng.choice(["{} lash wanted, hot", "{} lash, hot, card", "Target {} lash hot"])
    line(10, lash.format("Intake"), intake)
    line(11, lash.format("Exhaust"), exhaust)
    # Half of the shops set it cold, to a figure that they worked out.
    cold = rng.random() < 0.5
    change = 0 if not cold else rng.choice([0.002, -0.004, -0.006])
    state = "cold" if cold else "hot"
    line(12, f"Intake lash, {state}", size(intake / mm + change), "intake lash")
    line(13, f"Exhaust lash, {state}", size(exhaust / mm + change), "exhaust lash")
    lobe = line(14, "Lobe lift", size(rng.uniform(0.28, 0.36)), "lobe")
    lift = f"=ENG.VALVE_LIFT({lobe},1.5,{page.ref('intake lash', 0, sheet)}{m})"
    line(15, f"Valve lift, {state}", lift, "lift")
    free = rng.choice(["Head gasket, free thickness", "Gasket thickness, uncompressed", "HG free"])
    line(17, free, size(page.engine.one["gasket"] / mm + 0.011), "free")
    line(18, "Piston clearance wanted, total", size(0.0032, fine), "fit wanted")
    line(19, "Piston clearance wanted, per side", size(0.0016, fine), "fit per side")
    hone = f"=ENG.HONE_TO_SIZE({page.ref('skirt', 0, sheet)},{page.ref('fit wanted', 0, sheet)}{m})"
    line(20, "Hone to", hone, "hone")
    closing = rng.randrange(50, 76, 2)
    line(22, "Intake closes after bottom center", closing, "closing", "deg")
    unit = rng.choice(["cam deg", "deg cam", "cam degrees"])
    line(23, "Intake closes, on the card", closing / 2, "closing on cam", unit)
    stroke, rod = page.ref("stroke", 0, sheet), page.ref("rod", 0, sheet)
    left = f"=ENG.EFFECTIVE_STROKE({stroke},{rod},{page.ref('closing', 0, sheet)},{m})"
    line(24, "Stroke left to compress", left if m else left[:-2] + ")", "stroke left")
    torque, unit = (60, "N.m") if metric else (45, "ft-lb")
    paste = rng.choice(["moly paste", "assembly paste", "moly", "anti-seize"])
    line(26, f"Rod bolt torque, {paste}", torque, "bolt torque", unit)
    line(27, f"Nut factor, {paste}", 0.12, "nut factor", "")
    line(28, "Rod bolt thread", size(0.375, 1.0 if metric else 0.001), "thread")
    load = f"=ENG.PRELOAD_FROM_TORQUE(B26,B28,B27{m})"
    line(29, "Rod bolt preload", load, "preload", "")
    heads = ("Fastener", "Lubricant", f"Torque ({unit})", "Done by")
    for column, head in enumerate(heads, 1):
        page.put(sheet, 31, column, head, "torque head" if column == 3 else None)
    for row, line_ in enumerate(
        (("Main caps", "engine oil", 70, "R. V."), ("Head bolts", paste, 65, "R. V.")), 32
    ):
        for column, content in enumerate(line_, 1):
            page.put(sheet, row, column, content, "fastener" if column == 1 else None, row - 32)


LAYOUTS = ("down", "across", "banks", "sheets")


def again(seed: int, n: int) -> Page:
    """The clean book of one engine in one of the layouts, made anew to put a fault in."""
    rng = random.Random(seed * 100_003 + n)
    return lay_out(draw_engine(rng), rng, f"INV-{n:03}", LAYOUTS[n % len(LAYOUTS)])
