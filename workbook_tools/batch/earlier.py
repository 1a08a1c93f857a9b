"""Copies of records that were given out before: what an output folder holds of a book."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from workbook_tools.batch.output_folder import OutputError, files_by_book
from workbook_tools.summary.build_data import SCHEMA
from workbook_tools.summary.revision import is_released

# What a later copy is compared by.
_COMPARED = ("book", "job", "facts", "readings", "results", "findings", "signed", "revision")
# Of a book that is the same, only how it was told.
_KEPT = ("book", "job", "revision")


class EarlierCopies:
    """The data of builds in an output folder, looked up by their books."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        try:
            self._files: Mapping[str, tuple[str, ...]] = files_by_book(folder)
        except OutputError:
            # Whoever writes into the folder is told.
            self._files = {}

    def of(self, book: str, sha256: str, *, alone: bool) -> dict[str, str]:
        """{part: data as JSON} of a book's earlier copies that a later one has to name.

        book: its file name; sha256: of its content now; alone: whether no other book of the
        batch has this name, else only a copy of the very same book is its own.
        """
        found: dict[str, list[dict[str, Any]]] = {}
        for name in self._files.get(book, ()):
            data = _read(self.folder / name)
            if data is not None:
                found.setdefault(data["book"]["part"], []).append(data)
        told: dict[str, str] = {}
        for part, copies in found.items():
            same = [data for data in copies if data["book"]["sha256"] == sha256]
            if same and same[0]["revision"]:
                told[part] = _json(same[0], _KEPT)
            elif not same and alone and len(copies) == 1 and _counts(copies[0]):
                told[part] = _json(copies[0], _COMPARED)
        return told


def _counts(data: Mapping[str, Any]) -> bool:
    """Whether a copy was given out, or rests on one that was."""
    return is_released(data) or data["revision"] is not None


def _read(path: Path) -> dict[str, Any] | None:
    """The data of a build, None where it is none or of another release."""
    try:
        data = json.loads(path.read_bytes())
    except (OSError, ValueError):
        return None
    known = isinstance(data, dict) and data.get("schema") == SCHEMA
    return data if known and all(name in data for name in _COMPARED) else None


def _json(data: Mapping[str, Any], names: tuple[str, ...]) -> str:
    return json.dumps({name: data[name] for name in names}, ensure_ascii=False)
