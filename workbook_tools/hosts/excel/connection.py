"""Set up xlwings for the worksheet functions of the current user, and undo it.

Two things are changed: Excel's start folder gets xlwings' add-in, and xlwings' settings file
names the Python and the module to use. What was there before is kept in a record beside the
settings, so that disconnecting puts it back.
"""

from __future__ import annotations

import hashlib
import importlib.util
import json
import os
import shutil
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from workbook_tools.hosts.excel import settings
from workbook_tools.hosts.excel.names import INSTALLATION, MODULE

ADDIN = "xlwings.xlam"
_MODULES = "UDF MODULES"
_INTERPRETER = "INTERPRETER_WIN"
_BOOKS_FOLDER = "ADD_WORKBOOK_TO_PYTHONPATH"


class ExcelError(RuntimeError):
    """Why Excel could not be connected or disconnected, and what to do."""


@dataclass(frozen=True)
class Places:
    """Where xlwings and Excel look.

    user_folder: holds `.xlwings`, with xlwings' settings and our record; start_folder:
    Excel opens every file in it when it starts.
    """

    user_folder: Path
    start_folder: Path

    @property
    def settings(self) -> Path:
        """xlwings' settings of the user."""
        return self.user_folder / ".xlwings" / "xlwings.conf"

    @property
    def record(self) -> Path:
        """What `connect` found and what it set."""
        return self.settings.with_name("workbook-tools.json")

    @property
    def addin(self) -> Path:
        """xlwings' add-in where Excel starts it."""
        return self.start_folder / ADDIN

    @property
    def earlier_addin(self) -> Path:
        """Another version of the add-in that was there before; not where Excel would open it."""
        return self.settings.with_name(f"{ADDIN}.before")


@dataclass(frozen=True)
class Report:
    """What was changed, line by line, and what the user has to do or know next."""

    changed: tuple[str, ...]
    next_steps: tuple[str, ...]


def users_places() -> Places:
    """The places of the current user. Raises ExcelError elsewhere than on Windows."""
    if sys.platform != "win32":
        raise ExcelError(
            "Excel can call Python only on Windows. Here, write the functions into a copy of the "
            "book: workbook-tools portable BOOK.xlsx --out NEW.xlsx. They need no add-in."
        )
    roaming = Path(os.environ["APPDATA"])
    return Places(Path(os.environ["USERPROFILE"]), roaming / "Microsoft" / "Excel" / "XLSTART")


def connect(places: Places | None = None, interpreter: Path | None = None) -> Report:
    """Let Excel for Windows find the worksheet functions, for the current user.

    places: where to look, the user's own if left out; interpreter: the Python that Excel is
    to start, the running one if left out. Doing it again brings everything up to date.
    Returns what was changed. Raises ExcelError, which says what to do, elsewhere than on
    Windows, where xlwings is missing, or where Excel holds a file open.
    """
    places = places or users_places()
    interpreter = interpreter or Path(sys.executable)
    source = _addin_of_xlwings()
    _require_library(interpreter)
    found = settings.read(places.settings)
    wanted = {_INTERPRETER: str(interpreter), _MODULES: _with_module(found.get(_MODULES, ""))}
    if not places.settings.exists():
        # No book of the user needs modules beside it yet, and looking for the book's folder
        # keeps Python from starting where a book lies on OneDrive or SharePoint.
        wanted[_BOOKS_FOLDER] = "False"
    record = _read_record(places)
    _write_record(places, _new_record(record, found, wanted, places, source))
    changed = [] if record else [f"noted in {places.record} what was there before"]
    changed += _place_addin(source, places, record)
    changed += _set(places.settings, found, wanted)
    restart = "Restart Excel." if changed else "Excel was connected already: nothing changed."
    next_steps = [restart, "In each book: the steps in the manual (workbook-tools manual), once."]
    if _MODULES not in found:
        next_steps.append(
            "xlwings now looks for functions in workbook-tools and no longer in a module named "
            f'after the book; a book with its own module names it as "{_MODULES}" in a sheet '
            "xlwings.conf."
        )
    return Report(tuple(changed), tuple(next_steps))


def disconnect(places: Places | None = None) -> Report:
    """Undo `connect`: put the settings and the add-in back as they were before.

    places: as for `connect`. What has been changed by others since then is left and named.
    Returns what was changed. Raises ExcelError elsewhere than on Windows, or where Excel
    holds a file open.
    """
    places = places or users_places()
    record = _read_record(places)
    if not record:
        return Report((), (f"Excel was not connected: {places.record} is not there.",))
    changed, left = _remove_addin(places, record)
    found = settings.read(places.settings)
    wanted: dict[str, str | None] = {}
    for key, was in record["settings"].items():
        if found.get(key) == was["set"]:
            wanted[key] = was["before"]
        elif key == _MODULES:
            rest = _without_module(found.get(key, ""))
            wanted[key] = rest if rest or was["before"] is not None else None
        elif key in found:
            left.append(f'{key} stays "{found[key]}": it was changed after connecting.')
    changed += _set(places.settings, found, wanted)
    _file_work(places.record.unlink)
    changed.append(f"removed {places.record}")
    if not any(places.record.parent.iterdir()):
        places.record.parent.rmdir()
    kept = "Books keep their ENG_ functions, which no longer calculate."
    return Report(tuple(changed), ("Restart Excel.", kept, *left))


def _addin_of_xlwings() -> Path:
    spec = importlib.util.find_spec("xlwings")
    if spec is None or spec.origin is None:
        raise ExcelError(f"xlwings is not installed: run {INSTALLATION}.")
    return Path(spec.origin).with_name("addin") / ADDIN


def _require_library(interpreter: Path) -> None:
    """The add-in's VBA loads a library of xlwings from beside the interpreter or one above."""
    folders = (interpreter.parent, interpreter.parent.parent)
    if not any(any(folder.glob("xlwings64-*.dll")) for folder in folders):
        raise ExcelError(
            f"xlwings' library (xlwings64-*.dll) lies neither in {folders[0]} nor in "
            f"{folders[1]}, where Excel looks for it. Make a virtual environment, run "
            f"{INSTALLATION} in it, and connect from there."
        )


def _modules(value: str) -> list[str]:
    return [name.strip() for name in value.split(";") if name.strip()]


def _with_module(value: str) -> str:
    names = _modules(value)
    return ";".join(names if MODULE in names else [*names, MODULE])


def _without_module(value: str) -> str:
    return ";".join(name for name in _modules(value) if name != MODULE)


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""


def _read_record(places: Places) -> dict[str, Any]:
    if not places.record.exists():
        return {}
    try:
        record: dict[str, Any] = json.loads(places.record.read_text(encoding="utf-8"))
    except ValueError:
        raise ExcelError(
            f"{places.record} is damaged, so that what was there before connecting is not known. "
            f"Delete it, look through {places.settings}, and try again."
        ) from None
    return record


def _write_record(places: Places, record: dict[str, Any]) -> None:
    places.record.parent.mkdir(parents=True, exist_ok=True)
    places.record.write_text(json.dumps(record, indent=1), encoding="utf-8")


def _new_record(
    earlier: dict[str, Any],
    found: dict[str, str],
    wanted: dict[str, str],
    places: Places,
    source: Path,
) -> dict[str, Any]:
    """What is there now and what is going to be; what we set ourselves is no "before"."""
    kept = dict(earlier.get("settings", {}))
    for key, value in wanted.items():
        ours = key in kept and found.get(key) == kept[key]["set"]
        kept[key] = {"before": kept[key]["before"] if ours else found.get(key), "set": value}
    there, new = _digest(places.addin), _digest(source)
    # An add-in that was there already, the same to the last byte, is not ours to remove.
    placed = new if there != new or there == earlier.get("addin") else ""
    return {"settings": kept, "addin": placed}


def _place_addin(source: Path, places: Places, earlier: dict[str, Any]) -> list[str]:
    there, new = _digest(places.addin), _digest(source)
    if there == new:
        return []
    changed = []
    if there and there != earlier.get("addin"):
        _file_work(shutil.copyfile, places.addin, places.earlier_addin)
        changed.append(f"kept the add-in that was there as {places.earlier_addin}")
    places.start_folder.mkdir(parents=True, exist_ok=True)
    _file_work(shutil.copyfile, source, places.addin)
    return [*changed, f"put xlwings' add-in at {places.addin}"]


def _remove_addin(places: Places, record: dict[str, Any]) -> tuple[list[str], list[str]]:
    """Take away what `connect` put there; what was changed, and what was left and why."""
    if not record["addin"] or not places.addin.exists():
        return [], []
    if _digest(places.addin) != record["addin"]:
        return [], [f"{places.addin} stays: it was changed after connecting."]
    if places.earlier_addin.exists():
        _file_work(shutil.copyfile, places.earlier_addin, places.addin)
        _file_work(places.earlier_addin.unlink)
        return [f"put the earlier add-in back at {places.addin}"], []
    _file_work(places.addin.unlink)
    return [f"removed {places.addin}"], []


def _set(path: Path, found: dict[str, str], wanted: Any) -> list[str]:
    """Write the settings that differ, and say how each was changed."""
    changes = {key: value for key, value in wanted.items() if found.get(key) != value}
    if not changes:
        return []
    try:
        _file_work(settings.write, path, changes)
    except UnicodeEncodeError as error:
        raise ExcelError(
            f"{error.object!r} has letters that xlwings' settings cannot hold: install Python in "
            "a folder whose name has none of them, and connect from there."
        ) from None
    return [
        f"{path}: {key} "
        + ("removed" if value is None else f'set to "{value}"')
        + (f', was "{found[key]}"' if key in found else "")
        for key, value in changes.items()
    ]


def _file_work(work: Any, *arguments: Any) -> None:
    try:
        work(*arguments)
    except PermissionError as error:
        raise ExcelError(f"{error.filename} is in use: close Excel and try again.") from None
