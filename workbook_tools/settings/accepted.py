"""Findings that a shop has accepted, from the accepted.toml of its books."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable
from pathlib import Path
from typing import Any, NamedTuple

from workbook_tools.settings.found import files_up, folder_of
from workbook_tools.settings.toml_file import SettingsError, TomlFile, read_toml

ACCEPTED_FILE = "accepted.toml"
_NEEDED = ("job", "cell", "who", "when", "why")
_KNOWN = (*_NEEDED, "code")


class Accepted(NamedTuple):
    """One finding that is accepted: of which job and cell, by whom, when and why.

    code: of the finding, "" for whatever is found at the cell.
    """

    job: str
    cell: str
    who: str
    when: str
    why: str
    code: str = ""


def accepted_of(named: Iterable[Path], codes: Collection[str] = ()) -> tuple[Accepted, ...]:
    """What every accepted.toml of the books that are named accepts, the nearest file's first.

    named: files and folders; looked for in each folder itself and beside each file, and in the
    folders above as far as `folders_up` goes; codes: that findings have, () to take any.
    Raises SettingsError, with file, line and reason,
    for a file that cannot be used.
    """
    files = found_accepted(named)
    return tuple(one for file in files for one in _read(read_toml(file), codes))


def found_accepted(named: Iterable[Path]) -> tuple[Path, ...]:
    """The files that accepted_of reads, each once."""
    paths = list(named)
    folders = dict.fromkeys(map(folder_of, paths))
    found = [file for folder in folders for file in files_up(ACCEPTED_FILE, folder, paths)]
    return tuple({os.path.realpath(file): file for file in reversed(found)}.values())[::-1]


def _read(file: TomlFile, codes: Collection[str]) -> list[Accepted]:
    for key in file.data:
        if key != "accepted":
            raise SettingsError(file.name, file.line_of(key), f"{key}: expected [[accepted]]")
    listed = file.data.get("accepted", [])
    if not isinstance(listed, list) or not all(isinstance(one, dict) for one in listed):
        line = file.line_of("accepted")
        raise SettingsError(file.name, line, "accepted: expected a [[accepted]] for each finding")
    return [_one(file, number, one, codes) for number, one in enumerate(listed)]


def _one(file: TomlFile, number: int, entry: dict[str, Any], codes: Collection[str]) -> Accepted:
    # Loaded here, for every command's start loads this module.
    from workbook_tools.quantities.nearest import hint, nearest

    line = file.line_of("accepted", number)
    for key in entry:
        if key not in _KNOWN:
            where = file.line_of("accepted", number, key)
            raise SettingsError(file.name, where, f"{key}: no such key; {hint(key, _KNOWN)}")
    for key in _NEEDED:
        if not str(entry.get(key, "")).strip():
            reason = f"{key} is missing; an accepted finding has {', '.join(_NEEDED)}"
            raise SettingsError(file.name, line, reason)
    if "!" not in str(entry["cell"]):
        where = file.line_of("accepted", number, "cell")
        reason = f"cell: expected sheet and cell as in Rings!E16, got {entry['cell']!r}"
        raise SettingsError(file.name, where, reason)
    code = str(entry.get("code", "")).strip()
    if code and codes and code not in codes:
        where = file.line_of("accepted", number, "code")
        near = nearest(code, codes)
        more = f"the nearest is {near}" if near else "workbook-tools findings lists all"
        raise SettingsError(file.name, where, f"code: no finding has the code {code!r}; {more}")
    return Accepted(**{key: str(entry.get(key, "")).strip() for key in _KNOWN})
