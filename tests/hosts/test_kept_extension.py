"""The extension that is kept to be opened with LibreOffice: fresh, and enough by itself."""

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.catalog import entries
from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.libreoffice import office as programs
from workbook_tools.hosts.libreoffice.carried import VERSIONS

FOLDER = Path(__file__).parents[2] / "example_books" / "functions"
KEPT = FOLDER / libreoffice.FILE_NAME
ANEW = "run python example_books/functions_book.py"


def members(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


def library_of(name, libraries):
    """The library that a member is of, "" for one of this project."""
    folder, _, rest = name.partition("/")
    top = rest.partition("/")[0].removesuffix(".py").replace("-", "_").lower()
    known = {library.replace("-", "_").lower(): library for library in libraries}
    return known.get(top, "") if folder in ("licenses", "pythonpath") else ""


def test_the_kept_extension_is_fresh(tmp_path):
    kept, made = members(KEPT), members(libreoffice.build(tmp_path / KEPT.name))
    # The libraries inside are those of whoever built it last: elsewhere others are installed.
    inside, here = (json.loads(of.pop(VERSIONS)) for of in (kept, made))
    assert inside.keys() == here.keys()
    other = {library for library in inside if inside[library] != here[library]}

    def compared(of):
        return {name: data for name, data in of.items() if library_of(name, inside) not in other}

    assert compared(kept).keys() == compared(made).keys(), ANEW
    changed = [name for name, data in compared(kept).items() if made[name] != data]
    assert changed == [], ANEW
    assert "pythonpath/workbook_tools/catalog/quench.py" in compared(kept)


@pytest.fixture(scope="module")
def alone(office, tmp_path_factory):
    """A new profile into which the kept file was opened, and nothing else of ours."""
    home = tmp_path_factory.mktemp("home")
    profile = libreoffice.Profile(home / "profile")
    command = [office.program("unopkg"), "add", "--suppress-license", str(KEPT)]
    if sys.platform != "win32" and os.geteuid() == 0:
        command.insert(2, "--shared")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("HOME", str(home))
        done = programs.run([*command, *profile.options], 120, profile.temporary())
        assert done.returncode == 0, done.stdout
        yield profile


def test_the_python_of_libreoffice_has_nothing_of_ours(alone, office_python, tmp_path):
    # Otherwise what follows would prove nothing.
    for module in ("workbook_tools", "platformdirs"):
        done = subprocess.run(
            [office_python, "-c", f"import {module}"],
            cwd=tmp_path,
            env=programs.environment(),
            capture_output=True,
            text=True,
            check=False,
        )
        assert f"No module named '{module}'" in done.stderr


@pytest.mark.slow
def test_by_itself_it_calculates_every_function(alone, tmp_path):
    book = openpyxl.load_workbook(FOLDER / "functions.xlsx")
    book.save(tmp_path / "functions.xlsx")  # This drops the saved results.
    [after] = libreoffice.recalculate([tmp_path / "functions.xlsx"], tmp_path / "out", alone)
    told = openpyxl.load_workbook(after, data_only=True)
    number = sum(not function.sees_cell for function in entries())
    texts = [cell.value for cell in told["Start"]["B"]]
    assert f"{number} of {number} agree" in texts
    reasons = [cell.value for cell in told["Reasons"]["D"] if cell.value]
    assert any("gasket_thickness" in str(text) for text in reasons)
