"""Build books of many plans, empty and filled, as LibreOffice calculates and saves them."""

from __future__ import annotations

import importlib.util
import os
import sys
from pathlib import Path

import pytest
from build_books import PLANS, Calculated, name_of

from workbook_tools.buildbook.book import drafted, save
from workbook_tools.hosts import libreoffice

ROOT = Path(__file__).parents[2]


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
        draft = drafted(plan)
        save(draft, paths[0])
        typed = fill_build_books.entries(plan, draft.fields, fill_build_books.FOUR)
        for (sheet, address), content in typed.items():
            draft.workbook[sheet][address] = content
        save(draft, paths[1])
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
