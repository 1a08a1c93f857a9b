"""A book's file before anything in it is believed: an ordinary file, and not too large."""

from __future__ import annotations

import os
import stat
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from io import BufferedReader
from pathlib import Path

# A finished book is a few hundred kilobytes; these limits leave room for pictures and stop
# a file, and an archive that unpacks, before either fills all of the memory.
MOST_BYTES = 200_000_000
MOST_UNPACKED = 600_000_000
MOST_RATIO = 400


class UnfitFile(Exception):
    """A file that is not to be opened as a book: what is wrong, and what to do about it."""

    def __init__(self, message: str, advice: str) -> None:
        super().__init__(message, advice)
        self.message = message
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.message}; {self.advice}"


@contextmanager
def opened(path: Path) -> Iterator[BufferedReader]:
    """A book's file, open for reading only.

    Raises UnfitFile for a pipe, a device or a folder, and for more than MOST_BYTES; OSError
    where it cannot be opened.
    """
    # A pipe that nobody writes to would otherwise be waited for without end.
    waiting = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    _refuse_no_file(os.stat(path))
    with os.fdopen(os.open(path, os.O_RDONLY | waiting), "rb") as file:
        found = os.fstat(file.fileno())
        _refuse_no_file(found)
        if found.st_size > MOST_BYTES:
            raise UnfitFile(
                f"the file has {found.st_size / 1e6:,.0f} MB, more than the "
                f"{MOST_BYTES / 1e6:,.0f} MB of the largest that is read",
                "copy its used cells into a new book and give that",
            )
        yield file


def _refuse_no_file(found: os.stat_result) -> None:
    if not stat.S_ISREG(found.st_mode):
        kind = "a folder" if stat.S_ISDIR(found.st_mode) else "a pipe, a socket or a device"
        raise UnfitFile(f"this is {kind}, not a file", "give a book that is saved as a file")


def read_bytes(path: Path) -> bytes:
    """The bytes of a book's file. Raises UnfitFile and OSError as `opened` does."""
    with opened(path) as file:
        # As much room is set aside as is asked for, so no more than the file has.
        size = os.fstat(file.fileno()).st_size
        data = file.read(size)
        if file.read(1):
            raise UnfitFile(
                "the file holds more than it says, as one that is being written",
                "close it elsewhere, and run again",
            )
    return data


def check_unpacked(archive: zipfile.ZipFile, size: int) -> None:
    """Refuse an archive, of a size in bytes, that would unpack into all of the memory.

    Raises UnfitFile.
    """
    unpacked = sum(item.file_size for item in archive.infolist())
    if unpacked > MOST_UNPACKED or (unpacked > 50_000_000 and unpacked > size * MOST_RATIO):
        raise UnfitFile(
            f"the book would unpack to {unpacked / 1e6:,.0f} MB",
            "copy its used cells into a new book and give that",
        )
