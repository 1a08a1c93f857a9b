"""Build books of many plans, empty and filled, as LibreOffice calculates and saves them."""

from __future__ import annotations

import functools
import importlib.util
import sys
from pathlib import Path

import pytest
from build_books import CHANGED, FEW, PLANS, Calculated, name_of, of_each

from workbook_tools.buildbook import new_book
from workbook_tools.buildbook.book import drafted, save
from workbook_tools.hosts import libreoffice

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def empty_v8(tmp_path_factory):
    """The file of an inch V8's build book as it is made, which no test changes."""
    made = tmp_path_factory.mktemp("new") / "job.xlsx"
    new_book(made, 8, "inch", "v")
    return made


@pytest.fixture(scope="session")
def fill_build_books():
    """The script that fills the example books, which knows plausible readings."""
    folder = ROOT / "example_books"
    spec = importlib.util.spec_from_file_location(
        "fill_build_books", folder / "fill_build_books.py"
    )
    module = importlib.util.module_from_spec(spec)
    sys.path.insert(0, str(folder))
    try:
        spec.loader.exec_module(module)
    finally:
        sys.path.remove(str(folder))
    return module


@pytest.fixture(scope="session")
def written(fill_build_books, tmp_path_factory):
    """written(plan): the paths of its empty and its filled book as our own code writes them.

    Of CHANGED also those with odd content.
    """
    return functools.cache(lambda plan: _written(plan, fill_build_books, tmp_path_factory))


@pytest.fixture(scope="session")
def calculated(written, profile, tmp_path_factory):
    """calculated(plan): its books, from one start of LibreOffice for a few plans or all others."""
    found = {}

    def books_of(plan):
        if plan not in found:
            plans = [p for p in PLANS if (p in FEW) == (plan in FEW)]
            made = [written(p) for p in plans]
            saved = libreoffice.recalculate(
                [path for pair in made for path in pair],
                tmp_path_factory.mktemp("calculated"),
                profile,
                seconds=300,
            )
            calculated = iter(saved)
            for each, paths in zip(plans, made, strict=True):
                found[each] = Calculated(each, *paths[:2], *(next(calculated) for _ in paths))
        return found[plan]

    return books_of


def _written(plan, fill_build_books, tmp_path_factory):
    """The books of a plan, as our own code writes them."""
    folder = tmp_path_factory.mktemp("written")
    paths = [folder / f"{name_of(plan)}_{state}.xlsx" for state in ("empty", "filled")]
    draft = drafted(plan)
    save(draft, paths[0])
    typed = fill_build_books.entries(plan, draft.fields, fill_build_books.FOUR)
    for (sheet, address), content in typed.items():
        draft.workbook[sheet][address] = content
    save(draft, paths[1])
    return [*paths, *_changed(draft, folder)] if plan == CHANGED else paths


def _changed(draft, folder):
    """A filled book with a word in every cell that takes one; with a reading that is no number."""
    paths = [folder / "words.xlsx", folder / "odd.xlsx"]
    name = "Deck / Cyl 2 / Deck, rocked one way"
    spot = next(f for f in draft.fields if f.name == name)
    reading = draft.workbook[spot.sheet][spot.address]
    reading.value, before = "not yet", reading.value
    save(draft, paths[1])
    reading.value = before
    for item in draft.fields:
        if item.quantity is None and item.role in ("text", "sign", "choice", "origin", "spec"):
            cell = draft.workbook[item.sheet][item.address]
            # What functions look up stays.
            if item.role != "spec" or cell.value is None:
                cell.value = "typed here"
    save(draft, paths[0])
    return paths


@pytest.fixture(params=of_each(PLANS))
def book(request, calculated):
    """One plan's books after the other."""
    return calculated(request.param)
