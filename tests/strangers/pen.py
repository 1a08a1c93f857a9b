"""The pen that strangers' books are written with: one stroke gives a cell and what is true of it.

A page writes cells as a builder would type them. Where a cell holds something that a careful
colleague would take from it, the same call says what: measurand, value, unit, which cylinder or
journal. So what is written and what is true of it cannot drift apart.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field

from openpyxl import Workbook
from openpyxl.styles import Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_from_string, coordinate_to_tuple

# What one of a unit is in SI; exact by definition, the pound force by standard gravity.
SI = {
    "in": 0.0254, "thou": 2.54e-5, "mm": 1e-3, "cmm": 1e-5, "um": 1e-6, "cc": 1e-6, "1": 1.0,
    "ci": 0.0254**3, "g": 1e-3, "lbf": 4.4482216152605, "Nm": 1.0, "kgm": 9.80665,
    "lbf.ft": 1.3558179483314004, "%": 0.01, "psi": 6894.757293168361, "bar": 1e5,
    "deg": math.pi / 180, "hp": 745.6998715822702,
}  # fmt: skip


@dataclass
class Job:
    """What is true of one job of a book."""

    cylinders: int = 0
    fields: dict = field(default_factory=dict)
    facts: list = field(default_factory=list)
    derived: list = field(default_factory=list)
    planted: list = field(default_factory=list)
    legit: list = field(default_factory=list)
    finished: bool = True


@dataclass
class Book:
    """A stranger's book while it is written."""

    ident: str
    file: str
    cylinders: int = 0
    note: str = ""
    eng: bool = False
    calculated: bool = False
    workbook: Workbook = field(default_factory=Workbook)
    jobs: list[Job] = field(default_factory=list)
    # Cells that may be taken or left: headings of a table, roughing sizes, another job's sheets.
    either: list = field(default_factory=list)
    ignore_sheets: list = field(default_factory=list)

    def __post_init__(self):
        self.workbook.remove(self.workbook.active)
        self.jobs.append(Job(self.cylinders))
        self.chance = random.Random(self.ident)

    @property
    def name(self):
        return f"{self.ident}_{self.file}"

    def sheet(self, title, widths=()):
        page = Page(self, self.workbook.create_sheet(title))
        for number, width in enumerate(widths, 1):
            page.cells.column_dimensions[get_column_letter(number)].width = width
        return page

    def next_job(self, cylinders=0):
        """All that is written from here on is of another job."""
        job = Job(cylinders or self.cylinders)
        self.jobs.append(job)
        return job

    def near(self, size, count, step, spread=2, digits=4):
        """Readings as a set of parts has them: a few steps to either side of a size."""
        return [
            round(size + step * self.chance.randint(-spread, spread), digits) for _ in range(count)
        ]


class Page:
    """A sheet and the strokes of the pen on it."""

    def __init__(self, book, cells):
        self.book, self.cells = book, cells

    @property
    def job(self):
        return self.book.jobs[-1]

    def place(self, cell):
        return f"{self.cells.title}!{cell}"

    def put(self, cell, value, bold=False, shown=None, fill=None, strike=False, note=None):
        """A cell of which nothing is to be taken. shown: its number format."""
        target = self.cells[cell]
        target.value = value
        if bold or strike:
            target.font = Font(bold=bold, strike=strike)
        if shown:
            target.number_format = shown
        if fill:
            target.fill = PatternFill("solid", start_color=fill)
        if isinstance(value, str) and value.startswith("="):
            self.book.calculated = True
        return self

    def rows(self, cell, rows, bold=False):
        """A block of such cells; None leaves one empty."""
        row, column = coordinate_to_tuple(cell)
        for down, values in enumerate(rows):
            for along, value in enumerate(values):
                if value is not None:
                    self.put(f"{get_column_letter(column + along)}{row + down}", value, bold)
        return self

    def labels(self, cell, *texts, bold=False):
        """Labels under one another."""
        return self.rows(cell, [[text] for text in texts], bold)

    def heads(self, cell, *texts, bold=True):
        """Labels side by side."""
        return self.rows(cell, [texts], bold)

    def field(self, cell, key, value, typed=None, also=(), shown=None):
        """A field of the job. typed: what the cell holds where it holds more than the value."""
        self.put(cell, value if typed is None else typed, shown=shown)
        known = {
            "value": value if isinstance(value, str) else str(value)[:10],
            "cell": self.place(cell),
        }
        self.job.fields[key] = known | ({"also": list(also)} if also else {})
        return self

    def _true(self, cell, quantity, value, unit, at, doubt, stated):
        fact = {"quantity": quantity, "value": value, "unit": unit}
        fact |= {"si": None if value is None else value * SI[unit], "cell": self.place(cell)}
        fact |= {"at": at} if at is not None else {}
        fact |= {"doubt": True} if doubt else {}
        fact |= {"stated": True} if stated else {}
        self.job.facts.append(fact)

    def fact(self, cell, quantity, value, unit, at=None, *, typed=None, shown=None, doubt=False,
             stated=False, **looks):  # fmt: skip
        """A cell that holds a measurement, typed as the number itself or as `typed` has it."""
        self.put(cell, value if typed is None else typed, shown=shown, **looks)
        self._true(cell, quantity, value, unit, at, doubt, stated)
        return self

    def sentence(self, cell, text, *facts):
        """A text with several facts in it: (quantity, value, unit[, at[, "stated"|"doubt"]])."""
        self.put(cell, text)
        for quantity, value, unit, *rest in facts:
            words = rest[1:] if rest else []
            at = rest[0] if rest else None
            self._true(cell, quantity, value, unit, at, "doubt" in words, "stated" in words)
        return self

    def formula(self, cell, text, quantity=None, unit="1", at=None, *, shown=None, doubt=False):
        """A formula of the builder's; what it gives is known once the book is calculated."""
        self.put(cell, text, shown=shown)
        if quantity:
            self._true(cell, quantity, None, unit, at, doubt, True)
        return self

    def _along(self, cell, values, step, at, doubt):
        _, row = coordinate_from_string(cell)
        _, first = coordinate_to_tuple(cell)
        places = at or range(1, len(values) + 1)
        for number, (value, place) in enumerate(zip(values, places, strict=True)):
            right, below = step[0] * number, step[1] * number
            yield f"{get_column_letter(first + right)}{row + below}", value, place, place in doubt

    def down(
        self,
        cell,
        quantity,
        unit,
        values,
        at=None,
        doubt=(),
        shown=None,
        skip=1,
        typed=None,
        **more,
    ):
        """A column of measurements, 1, 2, 3 … unless `at` tells; None leaves a cell empty."""
        self._series(cell, quantity, unit, values, (0, skip), at, doubt, shown, typed, more)
        return self

    def across(
        self,
        cell,
        quantity,
        unit,
        values,
        at=None,
        doubt=(),
        shown=None,
        skip=1,
        typed=None,
        **more,
    ):
        """A row of measurements."""
        self._series(cell, quantity, unit, values, (skip, 0), at, doubt, shown, typed, more)
        return self

    def _series(self, cell, quantity, unit, values, step, at, doubt, shown, typed, more):
        for place, value, part, doubtful in self._along(cell, values, step, at, doubt):
            if value is not None:
                text = typed(value) if typed else None
                self.fact(
                    place,
                    quantity,
                    value,
                    unit,
                    part,
                    typed=text,
                    shown=shown,
                    doubt=doubtful,
                    **more,
                )

    def formulas_down(
        self, cell, text, count, quantity=None, unit="1", at=None, shown=None, doubt=()
    ):
        """A formula copied down; {r} is the row."""
        return self._formulas(cell, text, count, (0, 1), quantity, unit, at, shown, doubt)

    def formulas_across(
        self, cell, text, count, quantity=None, unit="1", at=None, shown=None, doubt=()
    ):
        """A formula copied to the right; {c} is the column."""
        return self._formulas(cell, text, count, (1, 0), quantity, unit, at, shown, doubt)

    def _formulas(self, cell, text, count, step, quantity, unit, at, shown, doubt):
        for place, _, part, doubtful in self._along(cell, [None] * count, step, at, doubt):
            column, row = coordinate_from_string(place)
            filled = text.format(r=row, c=column, p=row - 1)
            self.formula(place, filled, quantity, unit, part, shown=shown, doubt=doubtful)
        return self

    def merge(self, *ranges):
        for area in ranges:
            self.cells.merge_cells(area)
        return self

    def hide(self, rows=(), columns=()):
        for row in rows:
            self.cells.row_dimensions[row].hidden = True
        for column in columns:
            self.cells.column_dimensions[column].hidden = True
        return self

    def plant(self, kind, what, *cells):
        """A mistake that stands in the book, and the cells of which a warning may speak."""
        self.job.planted.append(
            {"kind": kind, "cells": [self.place(c) for c in cells], "what": what}
        )
        return self

    def legit(self, what, *cells):
        """Cells at which a finding is in order."""
        self.job.legit.append({"cells": [self.place(c) for c in cells], "what": what})
        return self

    def either(self, *cells):
        """Numbers that may be taken or left."""
        self.book.either += [self.place(c) for c in cells]
        return self
