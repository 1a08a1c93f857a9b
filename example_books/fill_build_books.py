"""Two build books as the invented shop "Quillfeather Engine Room" would hand them in.

    python example_books/fill_build_books.py

Both are started empty, filled at their named cells, calculated and saved by LibreOffice with
the add-in, and given the functions as names again, which LibreOffice damages. The readings
are made up; `entries` gives plausible ones for any build book.
"""

from __future__ import annotations

import datetime
import re
import sys
import tempfile
import zipfile
from collections.abc import Mapping
from pathlib import Path

import openpyxl
from bench_readings import (
    BOTH,
    FASTENERS,
    FOUR,
    HEIGHTS,
    INCH,
    METRIC,
    NONE,
    PARTS,
    SCATTER,
    SIZES,
    V8,
    Values,
)

from workbook_tools.buildbook import Field, Plan, fields, new_book, plan_for
from workbook_tools.hosts.libreoffice import fresh_profile, recalculate
from workbook_tools.hosts.portable import portable

HERE = Path(__file__).parent
# The rows of the sweep of the valves, in crank degrees.
SWEEP = [f"{degrees} deg before" for degrees in (20, 15, 10, 5)]
OIL = ["Cold start", "Hot idle", "Hot, half", "Hot, full"]
SWEEP += ["at TDC", *(f"{degrees} deg after" for degrees in (5, 10, 15, 20))]


def entries(
    plan: Plan, cells: tuple[Field, ...], texts: Mapping[str, object]
) -> dict[tuple[str, str], object]:
    """{(sheet, address): content} of plausible readings, bands, names and dates for a plan.

    texts: what is typed on the job sheet, by the names of its cells.
    """
    numbers = {**BOTH, **(METRIC if plan.metric else INCH)}
    found = {}
    for cell in cells:
        name = cell.name.split(" / ")[-1]
        typed = texts.get(name) if cell.role in ("text", "spec", "sign", "date") else None
        content = typed or _content(plan, cell, numbers)
        if cell.sheet == "Release" and isinstance(content, datetime.date):
            content = texts["Finished"]
        if content is not None:
            found[cell.sheet, cell.address] = content
    return found


def _content(plan: Plan, cell: Field, numbers: Values) -> object:
    *before, last = cell.name.split(" / ")
    # Many valves have sheets of their own, and the decks of many cylinders.
    sheet = "Heads" if cell.sheet.endswith(" valves") else cell.sheet
    sheet = "Block" if sheet == "Decks" else sheet
    row = int(found[1]) - 1 if (found := re.search(r"(\d+)$", " ".join(before[1:2]))) else 0
    if before[:1] and before[0].startswith("Combination ") and cell.sheet == "Plan":
        given = numbers.get(("Plan", last))
        one = int(before[0][-1]) - 1
        return given[one] if isinstance(given, tuple) else given
    if (cell.sheet, before[:1], len(before)) == ("Parts", ["Parts"], 2):
        return _part(plan, before[1], last)
    if (cell.sheet, before[:1]) == ("Assembly", ["Fasteners"]):
        return _fastener(plan, row, last)
    if before[:1] in (["Accepted"], ["Open"]):
        return None
    if (cell.sheet, before[:1]) == ("Job", ["Gauges"]) and row >= len(BOTH["Job", "Gauge"]):
        return None
    if cell.role == "sign" and (cell.sheet, last) not in numbers:
        return "IT" if last != "Seen by" and last != "Second pair of eyes" else "JP"
    if cell.role == "date":
        return datetime.date(2025, 5, 6)
    if cell.role in ("band", "origin"):
        head, _, end = last.rpartition(", ")
        given = _given(numbers, sheet, head, "|")
        if not (isinstance(given, tuple) and len(given) == 3 and isinstance(given[2], str)):
            return None
        return dict(zip(("least", "most", "band from"), given, strict=True))[end]
    if last == "On throw no.":
        return row // plan.rods_per_journal + 1
    if cell.sheet == "Bearings" and before[:1] and last.endswith("shell wall"):
        last = f"{before[0].split()[0]} {last}"
    if before[-1:] and before[-1].endswith(" shelf"):
        last = f"{before[-1]} {last}"
    if before[1:2] == ["Exhaust"]:
        row = 1
    if before[:1] == ["Sweep"]:
        row = SWEEP.index(before[1])
    if before[:1] == ["Oil"]:
        row = OIL.index(before[1])
    given = _given(numbers, sheet, last, "")
    # From the first on, three readings come again in the next three, as if they were copied.
    scattered = row + 11 if len(plan.cylinder_rows) == 6 else row
    if callable(given):
        # One head stands over every cylinder of an engine with one bank.
        told = given(0 if last == "Head no." and len(plan.bank_rows) == 1 else row)
        return given(scattered) if isinstance(told, (int, float)) else told
    if isinstance(given, tuple):
        if len(given) == 2 and before[-1] in HEIGHTS:
            base, step = given
            return round(base + step * (HEIGHTS[before[-1]] + SCATTER[scattered % len(SCATTER)]), 4)
        return given[row] if row < len(given) else None
    return given


def _given(numbers: Values, sheet: str, name: str, mark: str) -> object:
    """The value of a name, or of the end of one: "Intake guide" is a "guide"."""
    name = re.sub(r"(Intake|Exhaust) [AB] ", r"\1 ", name)
    for key in (
        name,
        name.split(", ")[-1],
        name.partition(" ")[2],
        name.partition(" ")[2].partition(" ")[2],
    ):
        for marked in (key + mark, key if mark else ""):
            if (sheet, marked) in numbers:
                return numbers[sheet, marked]
    return None


def _part(plan: Plan, name: str, last: str) -> object:
    if name not in PARTS:
        return None
    number, many, whose, state = PARTS[name]
    if name in NONE[plan.units]:
        return {"Short, damaged, remarks": "none"}.get(last)
    return {
        "Part number": number, "Qty": many or plan.cylinders,
        "State": "customer's" if whose == "customer" else state,
        **SIZES[plan.units].get(name, {}),
    }.get(last)  # fmt: skip


def _fastener(plan: Plan, row: int, last: str) -> object:
    """A cell of the torque sheet, whose rows are used from the top."""
    names = list(FASTENERS[plan.units])
    if row >= len(names):
        return "" if last == "Fasteners" else None
    thread, many, lubricant, *steps, angle = FASTENERS[plan.units][names[row]]
    given = {
        "Fasteners": names[row], "Thread, length": thread, "How many": many,
        "Lubricant, and where": lubricant, "Then turn": angle or None,
        "Final done by": "IT", "Seen by": "JP", "Marked": "yes",
    }  # fmt: skip
    for number, step in enumerate(steps, 1):
        given[f"Pass {number}"] = step or None
        given[f"Pass {number} done by"] = "IT" if step else "-"
    return given.get(last)


def fill(path: Path, plan: Plan, texts: Mapping[str, object]) -> None:
    """Fill a build book that was just started."""
    book = openpyxl.load_workbook(path)
    for (sheet, address), content in entries(plan, fields(plan), texts).items():
        book[sheet][address] = content
    book.save(path)


EXAMPLES = {
    "build_book_inch_v8.xlsx": (plan_for(8, "inch", "v"), V8),
    "build_book_metric_four.xlsx": (plan_for(4, "metric", "inline", valves=4), FOUR),
}


def restore_views(path: Path, source: Path) -> None:
    """Give sheets their frozen rows back: without a window LibreOffice saves none."""
    pattern = re.compile(rb"<sheetViews>.*?</sheetViews>", re.DOTALL)
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(path) as new:
        parts = {item: new.read(item) for item in new.infolist()}
        for item, data in parts.items():
            if item.filename.startswith("xl/worksheets/sheet"):
                view = pattern.search(old.read(item.filename))
                parts[item] = pattern.sub(lambda _found, v=view: v[0], data)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for item, data in parts.items():
            target.writestr(item, data)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder)
        started = []
        for name, (plan, texts) in EXAMPLES.items():
            path = there / name
            new_book(path, plan.cylinders, plan.units, plan.layout, valves=plan.valves)
            fill(path, plan, texts)
            started.append(path)
        calculated = recalculate(started, there / "calculated", fresh_profile(there / "profile"))
        for path, source in zip(calculated, started, strict=True):
            target = HERE / path.name
            target.unlink(missing_ok=True)
            restore_views(path, source)
            portable(path, target)
            print(target)


if __name__ == "__main__":
    sys.exit(main())
