"""The example books in a real LibreOffice: it gives what they were saved with."""

import math
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.hosts import libreoffice

FOLDER = Path(__file__).parents[2] / "example_books"
NAMES = sorted(path.stem for path in FOLDER.glob("*.xlsx"))


def _saved(path):
    """{(sheet, cell): saved value} of every formula cell, arrays cell by cell."""
    values = openpyxl.load_workbook(path, data_only=True)
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in values
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


@pytest.fixture(scope="module")
def calculated(profile, tmp_path_factory):
    """{name: the example book as LibreOffice calculated it}, from one start."""
    paths = [FOLDER / f"{name}.xlsx" for name in NAMES]
    saved = libreoffice.recalculate(paths, tmp_path_factory.mktemp("saved"), profile)
    return dict(zip(NAMES, saved, strict=True))


@pytest.mark.parametrize("name", NAMES)
def test_libreoffice_calculates_the_saved_values_again(name, calculated):
    before, after = _saved(FOLDER / f"{name}.xlsx"), _saved(calculated[name])
    assert before.keys() == after.keys()
    differing = {
        place
        for place, value in before.items()
        if not (
            math.isclose(value, after[place], rel_tol=1e-12, abs_tol=1e-13)
            if isinstance(value, int | float) and isinstance(after[place], int | float)
            else value == after[place]
        )
    }
    stale = {("Bottom end", "E19")} if name == "troubled_six" else set()
    assert differing == stale


@pytest.mark.slow
def test_making_the_books_again_gives_the_committed_content(tmp_path, office, monkeypatch):
    monkeypatch.syspath_prepend(str(FOLDER))
    from make_books import make_all

    for made in make_all(tmp_path):
        assert _content(made) == _content(FOLDER / made.name), made.name


def _content(path):
    """Formulas and values of a book; floats to the digits that every LibreOffice agrees on."""
    found = {}
    for only_values in (False, True):
        for sheet in openpyxl.load_workbook(path, data_only=only_values):
            for row in sheet.iter_rows():
                for cell in row:
                    value = cell.value
                    if hasattr(value, "text"):
                        value = value.text, value.ref
                    if isinstance(value, float):
                        value = float(f"{value:.12g}")
                    found[only_values, sheet.title, cell.coordinate] = value
    return found
