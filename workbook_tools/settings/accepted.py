"""Findings that a shop has accepted, from an accepted.toml beside the books."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Any, NamedTuple

from workbook_tools.settings.toml_file import SettingsError, TomlFile, nearest, read_toml

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


def accepted_beside(named: Iterable[Path]) -> tuple[Accepted, ...]:
    """What the accepted.toml of each folder that is named, or that a named file is in, accepts.

    Raises SettingsError, with file, line and reason, for one that cannot be used.
    """
    folders = dict.fromkeys(p if os.path.isdir(p) else p.parent for p in named)
    files = [f for folder in folders if os.path.isfile(f := folder / ACCEPTED_FILE)]
    return tuple(one for file in files for one in _read(read_toml(file)))


def _read(file: TomlFile) -> list[Accepted]:
    for key in file.data:
        if key != "accepted":
            raise SettingsError(file.name, file.line_of(key), f"{key}: expected [[accepted]]")
    listed = file.data.get("accepted", [])
    if not isinstance(listed, list) or not all(isinstance(one, dict) for one in listed):
        line = file.line_of("accepted")
        raise SettingsError(file.name, line, "accepted: expected a [[accepted]] for each finding")
    return [_one(file, number, one) for number, one in enumerate(listed)]


def _one(file: TomlFile, number: int, entry: dict[str, Any]) -> Accepted:
    line = file.line_of("accepted", number)
    for key in entry:
        if key not in _KNOWN:
            where = file.line_of("accepted", number, key)
            raise SettingsError(file.name, where, f"{key}: no such key; {nearest(key, _KNOWN)}")
    for key in _NEEDED:
        if not str(entry.get(key, "")).strip():
            reason = f"{key} is missing; an accepted finding has {', '.join(_NEEDED)}"
            raise SettingsError(file.name, line, reason)
    if "!" not in str(entry["cell"]):
        where = file.line_of("accepted", number, "cell")
        reason = f"cell: expected sheet and cell as in Rings!E16, got {entry['cell']!r}"
        raise SettingsError(file.name, where, reason)
    return Accepted(**{key: str(entry.get(key, "")).strip() for key in _KNOWN})
