"""Each result comes from its own cylinder's, rod's and journal's readings, and from no other's.

Every reading is different here and every rod runs on another throw than its number says, so
that a formula which takes a cell of another row shows.
"""

from __future__ import annotations

import functools
import math
import random
import re
from statistics import fmean

import ironcalc
import pytest

from workbook_tools.buildbook import plan_for
from workbook_tools.buildbook.book import drafted, save

V8 = plan_for(8, "inch", "v")
V10 = plan_for(10, "metric", "v", valves=4, rods_per_journal=1, mains=6)
HEIGHTS, ENDS = ("top", "middle", "bottom"), ("front end", "rear end")


class Built:
    """A book of which each reading is its own: what was typed, and what came out."""

    def __init__(self, plan, typed, sheets):
        self.plan, self.typed, self.sheets = plan, typed, sheets

    def read(self, sheet, *names):
        """What was typed into a cell."""
        return self.typed[sheet, " / ".join(names)]

    def result(self, sheet, row_name, head, section=None):
        """What stands in the row of a name, in the column of a head, after a section's name."""
        column, reached = None, section is None
        for row in self.sheets[sheet].iter_rows(min_row=4):
            if not reached:
                reached = row[0].value == section
                continue
            for cell in row:
                if re.sub(r" \([^)]*\)$", "", str(cell.value)) == head:
                    column = cell.column
            if column and row[0].value == row_name:
                return self.sheets[sheet].cell(row[0].row, column).value
        raise KeyError((sheet, row_name, head))


@pytest.fixture(scope="module")
def built(fill_build_books, tmp_path_factory):
    """built(plan): Built, calculated by the names inside, which give what LibreOffice gives."""
    folder = tmp_path_factory.mktemp("own")

    @functools.cache
    def of(plan):
        chance = random.Random(20)
        draft = drafted(plan)
        entries = fill_build_books.entries(plan, draft.fields, fill_build_books.FOUR)
        throws = [i // plan.rods_per_journal + 1 for i in range(plan.cylinders)]
        chance.shuffle(throws)
        typed = {}
        for item in draft.fields:
            content = entries.get((item.sheet, item.address))
            last = item.name.rpartition(" / ")[2]
            if last == "On throw no.":
                content = throws.pop()
            elif isinstance(content, float) and item.role in ("reading", "spec"):
                content = round(content * (1 + chance.uniform(-1, 1) * 2e-4), 8)
            if content is not None:
                draft.workbook[item.sheet][item.address] = content
                typed[item.sheet, item.name] = content
        path = folder / f"{plan.cylinders}.xlsx"
        save(draft, path)
        return Built(plan, typed, with_values(draft.workbook, path))

    return of


def with_values(workbook, path):
    """A workbook with what its formulas come to in place of them."""
    engine = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    engine.evaluate()
    for number, sheet in enumerate(workbook):
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    cell.value = engine.get_cell_value(number, cell.row, cell.column)
    return workbook


@pytest.fixture(
    params=[pytest.param(V8, id="v8"), pytest.param(V10, id="v10", marks=pytest.mark.slow)]
)
def book(request, built):
    """One plan's book after the other."""
    return built(request.param)


def mean_bore(book, i):
    """Of six readings."""
    axes = ("Bore, across the crank", "Bore, along the crank")
    return fmean(
        book.read("Block", "Bores", f"Cyl {i}", height, axis) for height in HEIGHTS for axis in axes
    )


def mean_journal(book, kind, row):
    """Of four readings."""
    axes = (f"{kind} journal, first axis", f"{kind} journal, square to it")
    title = f"{kind} journals"
    return fmean(book.read("Crank", title, row, end, axis) for end in ENDS for axis in axes)


def mean_deck(book, i):
    """Of two readings."""
    return fmean(
        book.read("Deck", "Deck", f"Cyl {i}", f"Deck, rocked {way} way")
        for way in ("one", "the other")
    )


def disc(book, diameter, height):
    """The volume of a round disc in cc."""
    unit = 1 if book.plan.metric else 25.4
    return math.pi / 4 * (diameter * unit) ** 2 * height * unit / 1000


def exact(value):
    """Equal but for the last digits."""
    return pytest.approx(value, rel=1e-9, abs=1e-12)


def test_clearances_are_of_their_own_hole_and_shaft(book):
    # common practice, no source: what a hole is larger than its shaft, shells taken away.
    for i in range(1, book.plan.cylinders + 1):
        row, rod = f"Cyl {i}", f"Rod {i}"
        skirt = book.read("Pistons", "Pistons", row, "Piston skirt")
        assert book.result("Pistons", row, "Piston clearance") == exact(mean_bore(book, i) - skirt)
        throw = f"Throw {book.read('Bearings', 'Rod bearings', rod, 'On throw no.')}"
        left = book.read("Rods", "Rods", rod, "Big end, in line with the beam")
        left -= mean_journal(book, "Rod", throw)
        for wall in ("Upper shell wall", "Lower shell wall"):
            left -= book.read("Bearings", "Rod bearings", rod, wall)
        assert book.result("Bearings", rod, "Rod bearing clearance") == exact(left)
    for row in book.plan.main_rows:
        left = book.read("Bearings", "Main bearings", row, "Main housing bore")
        left -= mean_journal(book, "Main", row)
        for wall in ("Upper shell wall", "Lower shell wall"):
            left -= book.read("Bearings", "Main bearings", row, wall)
        assert book.result("Bearings", row, "Main bearing clearance") == exact(left)


def test_quench_and_ratio_are_of_their_own_cylinder(book):
    # Heywood, Internal Combustion Engine Fundamentals, chapter 2: (displaced + clearance) over
    # clearance; quench is deck clearance and gasket (common practice, no source).
    gasket = book.read("Deck", "Quench wanted", "Head gasket, compressed")
    fitted = disc(book, book.read("Volumes", "Common volumes", "Gasket bore"), gasket)
    stroke = book.read("Plan", "Combination 1", "Stroke")
    for i in range(1, book.plan.cylinders + 1):
        row, deck = f"Cyl {i}", mean_deck(book, i)
        assert book.result("Deck", row, "Quench, cold") == exact(deck + gasket)
        room = disc(book, mean_bore(book, i), deck)
        room += sum(book.read("Volumes", "Volumes", row, part) for part in ("Chamber", "Crown"))
        swept = disc(book, mean_bore(book, i), stroke)
        ratio = book.result("Volumes", row, "Compression ratio")
        assert ratio == exact((swept + room + fitted) / (room + fitted))
    decks = [mean_deck(book, i) for i in range(1, book.plan.cylinders + 1)]
    for number in range(1, 6):
        thickness = book.read("Gasket", "Offers", f"No. {number}", "Compressed thickness")
        for head, deck in (("Quench, cold, tightest", min(decks)),):
            assert book.result("Gasket", f"No. {number}", head) == exact(deck + thickness)


def test_decks_come_from_their_own_bank(book):
    # common practice, no source: deck height less half the stroke, the rod and the piston.
    corners = ("front intake side", "front exhaust side", "rear intake side", "rear exhaust side")
    sheet = "Decks" if "Decks" in book.sheets.sheetnames else "Block"
    stack = book.read("Plan", "Combination 1", "Stroke") / 2
    for part in ("Rod length, center to center", "Compression height"):
        stack += book.read("Plan", "Combination 1", part)
    for bank in book.plan.bank_rows:
        height = fmean(book.read(sheet, "Decks", bank, f"Deck height, {c}") for c in corners)
        row = f"Deck clearance from sizes, {bank.lower()}"
        assert book.result(sheet, row, "Value", "The whole block") == exact(height - stack)


def test_rings_are_of_their_own_bore(book):
    # common practice, no source: a factor times the bore, and the room of a groove.
    for i in range(1, book.plan.cylinders + 1):
        row = f"Cyl {i}"
        for ring in ("Top", "Second"):
            factor = book.read(
                "Rings", "Ring gap wanted", f"Taken for this engine, {ring.lower()} ring"
            )
            wanted = book.result("Rings", row, f"{ring} gap wanted")
            assert wanted == exact(mean_bore(book, i) * factor)
            groove = book.read("Rings", "Ring sides", row, f"{ring} groove")
            width = book.read("Rings", "Ring sides", f"{ring} ring width")
            assert book.result("Rings", row, f"{ring} side clearance") == exact(groove - width)


def test_valves_are_of_their_own_guide_and_spring(book):
    # common practice, no source: hole less shaft; height left over when bound and lifted.
    bind = book.read("Heads", "Springs", "Coil bind height, measured")
    for group in book.plan.valve_groups:
        kind, title = group.split()[0], f"{group} valves"
        sheet = f"{kind} valves" if f"{kind} valves" in book.sheets.sheetnames else "Heads"
        lift = book.read("Heads", "Springs", f"{kind} valve lift")
        for i in range(1, book.plan.cylinders + 1):
            row = f"Cyl {i}"
            guide, stem, height = (book.read(sheet, title, row, f"{group} {part}")
                                   for part in ("guide", "stem", "installed height"))  # fmt: skip
            found = book.result(sheet, row, f"{group} stem clearance", title)
            assert found == exact(guide - stem)
            found = book.result(sheet, row, f"{group} coil bind margin", title)
            assert found == exact(height - bind - lift)


def test_weights_and_stretch_are_of_their_own_rod(book):
    # Bevan, The Theory of Machines, chapter 14: what reciprocates and what turns.
    for i in range(1, book.plan.cylinders + 1):
        row, rod = f"Cyl {i}", f"Rod {i}"
        for head, parts, same in (
            ("Reciprocating", ("Piston", "Pin", "Small end"), ("Ring set", "Locks, both")),
            ("Rotating", ("Big end",), ("Shells, pair",)),
        ):
            total = sum(book.read("Balance", "Weights", row, part) for part in parts)
            total += sum(book.read("Balance", "One of each", part) for part in same)
            assert book.result("Balance", row, head) == exact(total)
        for bolt in ("One bolt", "Other bolt"):
            tight, free = (book.read("Stretch", "Stretch", rod, f"{bolt}, {state} length")
                           for state in ("tight", "free"))  # fmt: skip
            assert book.result("Stretch", rod, f"{bolt}, stretch") == exact(tight - free)
