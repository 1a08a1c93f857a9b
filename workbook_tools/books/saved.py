"""When a book was last saved, as the book itself says it."""

from __future__ import annotations

import contextlib
import re
import zipfile
from pathlib import Path

# Where ISO/IEC 29500-2 (core properties) and OpenDocument (metadata) keep the time of saving.
_PARTS = (
    ("docProps/core.xml", re.compile(rb"<[\w:]*modified\b[^>]*>\s*([^<]{4,40})<")),
    ("meta.xml", re.compile(rb"<dc:date\b[^>]*>\s*([^<]{4,40})<")),
)
_MOST_BYTES = 100_000
_TIME = re.compile(r"\d{4}-\d\d-\d\d(?:T\d\d:\d\d(?::\d\d)?)?")


def saved_on(archive: zipfile.ZipFile) -> str:
    """The time of saving as 2026-03-01T10:20:30, "" where the book does not say it."""
    names = set(archive.namelist())
    for name, pattern in _PARTS:
        if name not in names or archive.getinfo(name).file_size > _MOST_BYTES:
            continue
        with contextlib.suppress(zipfile.BadZipFile, OSError, UnicodeDecodeError):
            found = pattern.search(archive.read(name))
            time = _TIME.match(found[1].decode("ascii")) if found else None
            if time:
                return time[0]
    return ""


def saved_by(path: Path) -> str:
    """The same of a file, "" of one that is no archive."""
    unfit = contextlib.suppress(OSError, zipfile.BadZipFile, NotImplementedError)
    with unfit, zipfile.ZipFile(path) as archive:
        return saved_on(archive)
    return ""
