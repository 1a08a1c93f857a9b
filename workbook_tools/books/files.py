"""The bytes of a book's file, looked at before it is opened."""

from __future__ import annotations

from pathlib import Path

from workbook_tools.book_files import UnfitFile, read_bytes
from workbook_tools.books.cells import BookError


def cannot_open(error: OSError | UnfitFile) -> BookError:
    """Why a file cannot be opened, and what to do."""
    if isinstance(error, UnfitFile):
        return BookError(error.message, error.advice)
    return BookError(
        f"the file cannot be opened: {error.strerror or error}",
        "close it elsewhere, check the connection, and run again",
    )


def file_bytes(path: Path) -> bytes:
    """All that a file holds, opened for reading only.

    Raises BookError where it cannot be opened, is no file (reading a pipe or a device may
    never end), or is larger than any book that is read.
    """
    try:
        return read_bytes(path)
    except (OSError, UnfitFile) as error:
        raise cannot_open(error) from None
