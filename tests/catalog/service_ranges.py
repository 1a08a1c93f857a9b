"""Makers' service ranges, and the bands that they give: a plain fit, made to be checked.

A band is two lines over the size. A line's form is chosen beforehand (how much of it grows with
the size, around a usual size); only its height is fitted: the low line to what four of five ranges
begin above, the high one to what four of five end below (nine of ten where there are few engines),
both moved outward the more, the fewer engines there are.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

import numpy as np

DATA = Path(__file__).with_name("data") / "service_ranges.csv"
TO_MM = {"mm": 1.0, "in": 25.4, "": float("nan")}
MANY = 10  # engines


class Range(NamedTuple):
    """One maker's range in mm; size is NaN where the document does not give it."""

    engine: int
    kind: str
    measurand: str
    size: float
    low: float
    high: float
    note: str

    @property
    def middle(self):
        return (self.low + self.high) / 2


def kind_of(words):
    """The use that bands know a kind of engine by, from the words for it."""
    words = words.lower()
    cycle = "two-stroke" if "two-stroke" in words else ""
    cooled = "air cooled" if "air-cooled" in words or "air cooled" in words else ""
    if cycle or cooled:
        return f"{cooled} {cycle}".strip()
    if "diesel" in words:
        return "diesel"
    if "outboard" in words:
        return "outboard"
    return "motorcycle" if "motorcycle" in words or "scooter" in words else "service"


def ranges():
    """Every range of the table."""
    with DATA.open(encoding="utf-8", newline="") as file:
        return [
            Range(
                int(row["engine_no"]),
                kind_of(row["kind_of_engine"]),
                row["measurand"],
                float(row["size"] or "nan") * TO_MM[row["size_unit"]],
                float(row["low_mm"]),
                float(row["high_mm"]),
                row["note"],
            )
            for row in csv.DictReader(file)
        ]


@dataclass(frozen=True)
class Group:
    """Ranges that one band is for: what is measured, in which kinds of engine ("" for all).

    usual_size: in mm; grows: the share of the limits that goes with the size; without: words in
    the note of a range that is of another make; left: the share of ranges that may begin below
    or end above, where it is not the usual one.
    """

    measurands: tuple[str, ...]
    usual_size: float
    grows: float
    kinds: tuple[str, ...] = ()
    without: str = ""
    left: float | None = None

    def members(self):
        return [
            r
            for r in ranges()
            if r.measurand in self.measurands
            and (not self.kinds or r.kind in self.kinds)
            and (not self.grows or not np.isnan(r.size))
            and not (self.without and self.without in r.note)
        ]

    def shape(self, size):
        """How the limits go with the size; the usual size where they do not."""
        return (1 - self.grows) * self.usual_size + (self.grows * size if self.grows else 0.0)

    def fit(self, members):
        """Low and high per unit of the shape."""
        shape = np.array([self.shape(r.size) for r in members])
        engines = len({r.engine for r in members})
        left = self.left if self.left is not None else 0.2 if engines > MANY else 0.1
        low = np.quantile(np.array([r.low for r in members]) / shape, left)
        high = np.quantile(np.array([r.high for r in members]) / shape, 1 - left)
        return low / (1 + 1 / engines), high * (1 + 1 / engines)

    def limits(self, members, size):
        """Low and high in mm that a fit to these ranges gives for a size."""
        low, high = self.fit(members)
        return low * self.shape(size), high * self.shape(size)


_SPARK = ("service", "motorcycle", "outboard")
# Rows of the tables that are fitted: (measured, use) as ENG.BAND takes them.
GROUPS = {
    ("piston clearance", "service"): Group(("piston to bore clearance",), 90, 0.5, _SPARK),
    ("piston clearance", "diesel"): Group(("piston to bore clearance",), 90, 0.5, ("diesel",)),
    ("top ring gap", "service"): Group(("top ring gap",), 90, 0.5, _SPARK),
    ("top ring gap", "diesel"): Group(("top ring gap",), 90, 0.5, ("diesel",)),
    ("second ring gap", "service"): Group(("second ring gap",), 90, 0.5, _SPARK),
    # Two schools: some diesels have a second gap like the top one, some three times as wide.
    ("second ring gap", "diesel"): Group(
        ("second ring gap", "third ring gap"), 90, 0.5, ("diesel",), left=0.05
    ),
    ("oil ring gap", "service"): Group(("oil ring gap",), 90, 0),
    ("main bearing clearance", "service"): Group(
        ("main bearing clearance", "rod bearing clearance"), 60, 0.5, _SPARK
    ),
    ("main bearing clearance", "diesel"): Group(
        ("main bearing clearance", "rod bearing clearance"), 60, 0.5, ("diesel",)
    ),
    ("crank end play", "service"): Group(("crank end play",), 60, 0),
    ("rod side clearance", "service"): Group(("rod side clearance",), 60, 0, (), "roller big end"),
    ("pin clearance in the rod", "service"): Group(("pin clearance in rod",), 20, 0.5),
    ("pin clearance in the piston", "service"): Group(("pin clearance in piston",), 20, 0),
    ("intake stem clearance", "service"): Group(("valve guide clearance intake",), 7, 0),
    ("exhaust stem clearance", "service"): Group(("valve guide clearance exhaust",), 7, 0),
}

# What ENG.BAND calls what the makers' documents measure.
BAND_OF = {
    "piston to bore clearance": "piston clearance",
    "top ring gap": "top ring gap",
    "second ring gap": "second ring gap",
    "third ring gap": "second ring gap",
    "oil ring gap": "oil ring gap",
    "main bearing clearance": "main bearing clearance",
    "rod bearing clearance": "rod bearing clearance",
    "crank end play": "crank end play",
    "rod side clearance": "rod side clearance",
    "pin clearance in piston": "pin clearance in the piston",
    "pin clearance in rod": "pin clearance in the rod",
    "valve guide clearance intake": "intake stem clearance",
    "valve guide clearance exhaust": "exhaust stem clearance",
}
