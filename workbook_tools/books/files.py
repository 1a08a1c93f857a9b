"""The bytes of a book's file, looked at before it is opened."""

from __future__ import annotations

import stat
from pathlib import Path

from workbook_tools.books.cells import BookError

# Pictures can make a finished book of a few hundred kilobytes a hundred times as large.
LARGEST_FILE = 200_000_000


def cannot_open(error: OSError) -> BookError:
    """Why a file cannot be opened, and what to do."""
    return BookError(
        f"the file cannot be opened: {error.strerror or error}",
        "close it elsewhere, check the connection, and run again",
    )


def file_bytes(path: Path) -> bytes:
    """All that a file holds, opened for reading only.

    Raises BookError where it cannot be opened, is no file (reading a pipe or a device may
    never end), or is larger than LARGEST_FILE bytes.
    """
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):
            kind = "a folder" if stat.S_ISDIR(found.st_mode) else "a pipe, a socket or a device"
            raise BookError(f"this is {kind}, not a file", "give a book that is saved as a file")
        if found.st_size > LARGEST_FILE:
            raise _too_large(found.st_size)
        with path.open("rb") as file:
            content = file.read(found.st_size + 1)
    except OSError as error:
        raise cannot_open(error) from None
    if len(content) > found.st_size:
        raise BookError(
            "the file holds more than it says, as one that is being written",
            "close it elsewhere, and run again",
        )
    return content


def _too_large(size: int) -> BookError:
    return BookError(
        f"the file has {size / 1e6:,.0f} MB, more than the {LARGEST_FILE / 1e6:,.0f} MB of the "
        "largest that is read",
        "copy its used cells into a new book and give that",
    )
