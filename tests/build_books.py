"""Build books of many plans, and what is read from them again and again."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.buildbook import Plan, plan_for
from workbook_tools.jobs.read import read_book

# Each number of cylinders in both systems of units, each layout in both.
PLANS = (
    plan_for(1, "inch", "single"), plan_for(1, "metric", "single", valves=4),
    plan_for(2, "inch", "flat"), plan_for(2, "metric", "v"),
    plan_for(4, "inch", "v"), plan_for(4, "metric", "flat"),
    plan_for(6, "inch", "inline"), plan_for(6, "metric", "v", rods_per_journal=1, mains=4),
    plan_for(8, "inch", "v"), plan_for(8, "metric", "inline"),
    plan_for(12, "inch", "flat"), plan_for(12, "metric", "v", valves=4),
)  # fmt: skip

# The example books are a V8 in inches and an inline four besides.
FEW = (PLANS[5],)

# The one that is also calculated with odd content.
CHANGED = PLANS[5]


def of_each(plans):
    """The plans as parameters of a test, those that only a long run takes marked as slow."""
    return [
        pytest.param(p, id=name_of(p), marks=[] if p in FEW else pytest.mark.slow) for p in plans
    ]


def name_of(plan: Plan) -> str:
    """A plan as a file name and a test's name."""
    return f"{plan.layout}_{plan.cylinders}_{plan.units}"


def formulas_in(path):
    """[(sheet, cell, formula text)] of a book."""
    found = []
    for sheet in openpyxl.load_workbook(path):
        for row in sheet.iter_rows():
            for cell in row:
                text = getattr(cell.value, "text", cell.value)
                if isinstance(text, str) and text.startswith("="):
                    found.append((sheet.title, cell.coordinate, text))
    return found


def values_in(path):
    """{(sheet, cell): value} as saved."""
    book = openpyxl.load_workbook(path, data_only=True)
    return {(s.title, c.coordinate): c.value for s in book for row in s.iter_rows() for c in row}


@dataclass
class Calculated:
    """One plan's book: as written, filled as written, and both as LibreOffice saved them.

    Of CHANGED also, as saved: filled with a word in every cell that takes one, and with a
    reading that is no number.
    """

    plan: Plan
    written: Path
    filled: Path
    empty_saved: Path
    filled_saved: Path
    words_saved: Path | None = None
    odd_saved: Path | None = None

    @cached_property
    def formulas(self):
        """[(sheet, cell, formula text)] as our code writes them."""
        return formulas_in(self.written)

    @cached_property
    def titles(self):
        """The sheets in their order."""
        return openpyxl.load_workbook(self.written, read_only=True).sheetnames

    @cached_property
    def values(self):
        """{(sheet, cell): value} of the filled book as LibreOffice saved it."""
        return values_in(self.filled_saved)

    @cached_property
    def read(self):
        """The filled book as the batch tool reads it."""
        return read_book(self.filled_saved)
