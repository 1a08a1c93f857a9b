"""A report of this installation, to read or to send along with a question."""

from __future__ import annotations

import platform
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from workbook_tools import __version__
from workbook_tools.cli.settings_found import settings_of
from workbook_tools.cli.shared import app, cores, count, examples, warn
from workbook_tools.settings.found import bands_of
from workbook_tools.terminal import say, shown


@app.command(epilog=examples("doctor > report.txt", "doctor jobs"))
def doctor(
    folder: Annotated[
        Path,
        typer.Argument(help="A folder of books whose settings to report.", readable=False),
    ] = Path("."),
) -> None:
    """Report what is installed and which settings are in force, to send with a question.

    Nothing is changed, and nothing is sent anywhere.
    """
    with bands_of([folder], warn) as bands:
        _report(folder, bands)


def _report(folder: Path, bands: Sequence[Path]) -> None:
    rows = (
        ("workbook-tools", f"{__version__}, in {Path(__file__).parents[1]}"),
        ("Python", f"{platform.python_version()}, {sys.executable}"),
        ("system", f"{platform.system()} {platform.release()}, {count(cores(), 'core')}"),
        ("functions", _functions()),
        ("bands", _bands()),
        ("settings", _settings(folder, bands)),
        ("LibreOffice", _libreoffice()),
        ("add-in", _add_in()),
        ("kept results", _kept()),
    )
    for name, told in rows:
        say(f"{name:15} {shown(told)}")


def _functions() -> str:
    from workbook_tools.catalog import entries

    return f"{count(len(list(entries())), 'function')} in the catalog"


def _bands() -> str:
    from workbook_tools.catalog.table_rows import TableError
    from workbook_tools.catalog.tables import current
    from workbook_tools.settings.folders import bands_file

    try:
        current()
    except TableError as reason:
        return f"CANNOT BE USED: {reason}"
    own = bands_file()
    return f"those of {own} before those of the catalog" if own else "those of the catalog"


def _settings(folder: Path, bands: Sequence[Path]) -> str:
    found = [*settings_of([folder], ("shop", "layout", "accepted")), *bands]
    return ", ".join(map(str, found)) or f"none are found for books in {folder.resolve()}"


def _libreoffice() -> str:
    from workbook_tools.hosts.libreoffice import OfficeError, find_office
    from workbook_tools.hosts.libreoffice.office import python_version

    try:
        office = find_office()
        version = python_version(office)
    except OfficeError as reason:
        return f"not found: {reason}"
    python = f", its Python {'.'.join(map(str, version))}" if version else ", no Python of its own"
    return f"{office.programs}{python}"


def _add_in() -> str:
    from workbook_tools.hosts.libreoffice import OfficeError, find_office
    from workbook_tools.hosts.libreoffice.installation import is_installed

    try:
        there = is_installed(find_office())
    except OfficeError as reason:
        return f"cannot be told: {reason}"
    return "installed" if there else "not installed; `workbook-tools libreoffice install` does it"


def _kept() -> str:
    from workbook_tools.batch.cache import contents
    from workbook_tools.kept_files import usual_folder

    folder = usual_folder()
    if folder is None:
        return "none: the user has no home folder"
    try:
        number, size = contents(folder)
    except OSError as error:
        return f"{folder}: {error.strerror}"
    return f"{count(number, 'result')}, {size / 1e6:.1f} MB, in {folder}"
