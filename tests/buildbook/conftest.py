"""Build books of many plans, empty and filled, as LibreOffice calculates and saves them."""

from __future__ import annotations

import importlib.util
import os
from dataclasses import dataclass
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.buildbook import Plan, new_book, plan_for
from workbook_tools.hosts import libreoffice

ROOT = Path(__file__).parents[2]
# Each number of cylinders in both systems of units, each layout in both.
PLANS = (
    plan_for(1, "inch", "single"), plan_for(1, "metric", "single", valves=4),
    plan_for(2, "inch", "flat"), plan_for(2, "metric", "v"),
    plan_for(4, "inch", "v"), plan_for(4, "metric", "flat"),
    plan_for(6, "inch", "inline"), plan_for(6, "metric", "v", rods_per_journal=1, mains=4),
    plan_for(8, "inch", "v"), plan_for(8, "metric", "inline"),
    plan_for(12, "inch", "flat"), plan_for(12, "metric", "v", valves=4),
)  # fmt: skip


def name_of(plan: Plan) -> str:
    """A plan as a file name and a test's name."""
    return f"{plan.layout}_{plan.cylinders}_{plan.units}"


@pytest.fixture(scope="session")
def fill_build_books():
    """The script that fills the example books, which knows plausible readings."""
    spec = importlib.util.spec_from_file_location(
        "fill_build_books", ROOT / "example_books" / "fill_build_books.py"
    )
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@dataclass(frozen=True)
class Calculated:
    """One plan's book: as written, filled as written, and both as LibreOffice saved them."""

    plan: Plan
    written: Path
    filled: Path
    empty_saved: Path
    filled_saved: Path

    def formulas(self, path=None):
        """[(sheet, cell, formula text)] of a book."""
        book = openpyxl.load_workbook(path or self.written)
        found = []
        for sheet in book:
            for row in sheet.iter_rows():
                for cell in row:
                    text = getattr(cell.value, "text", cell.value)
                    if isinstance(text, str) and text.startswith("="):
                        found.append((sheet.title, cell.coordinate, text))
        return found


@pytest.fixture(scope="session")
def profile(tmp_path_factory):
    """A LibreOffice profile with the add-in; without the program the test is skipped."""
    try:
        libreoffice.find_office()
    except libreoffice.OfficeError as missing:
        if os.environ.get("CI") == "true":
            pytest.fail(str(missing))
        pytest.skip(str(missing))
    return libreoffice.fresh_profile(tmp_path_factory.mktemp("profile"))


@pytest.fixture(scope="session")
def written(tmp_path_factory, fill_build_books):
    """{plan: (empty book, filled book)}, both as our own code writes them."""
    folder = tmp_path_factory.mktemp("written")
    found = {}
    for plan in PLANS:
        paths = [folder / f"{name_of(plan)}_{state}.xlsx" for state in ("empty", "filled")]
        new_book(
            paths[0], plan.cylinders, plan.units, plan.layout, mains=plan.mains,
            rods_per_journal=plan.rods_per_journal, valves=plan.valves,
        )  # fmt: skip
        paths[1].write_bytes(paths[0].read_bytes())
        fill_build_books.fill(paths[1], plan, fill_build_books.FOUR)
        found[plan] = tuple(paths)
    return found


@pytest.fixture(scope="session")
def calculated(written, profile, tmp_path_factory):
    """{plan: Calculated}, from one start of LibreOffice."""
    folder = tmp_path_factory.mktemp("calculated")
    paths = [path for pair in written.values() for path in pair]
    saved = libreoffice.recalculate(paths, folder, profile, seconds=300)
    return {
        plan: Calculated(plan, *written[plan], *saved[2 * i : 2 * i + 2])
        for i, plan in enumerate(written)
    }


@pytest.fixture(params=PLANS, ids=name_of)
def book(request, calculated):
    """One plan's books after the other."""
    return calculated[request.param]
