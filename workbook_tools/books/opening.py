"""Open a builder's book read-only: its cells with formulas and saved values, nothing else.

The file is read once, into memory, and never written. What is no readable workbook is
refused with one line that says what it is and what to do.
"""

from __future__ import annotations

import hashlib
import io
import zipfile
from pathlib import Path

from workbook_tools.books.cells import BookError, OpenBook
from workbook_tools.books.files import file_bytes
from workbook_tools.books.opendocument import read_opendocument
from workbook_tools.books.openxml import read_openxml
from workbook_tools.books.parts import check_parts, is_opendocument, readable, refuse_other_kinds
from workbook_tools.books.saved import saved_on


def _opendocument(path: Path, data: bytes, archive: zipfile.ZipFile) -> OpenBook:
    try:
        sheets, names = read_opendocument(archive)
    except (KeyError, ValueError, SyntaxError) as error:
        raise _unfit(error) from None
    sha256 = hashlib.sha256(data).hexdigest()
    return OpenBook(path.name, sha256, sheets, names, saved=saved_on(archive))


def _unfit(error: Exception) -> BookError:
    first = next(iter(str(error).splitlines()), "")[:200]
    return BookError(
        f"the book's parts do not fit together ({type(error).__name__}: {first})",
        "open it in a spreadsheet program and save it anew",
    )


def read_cells(path: Path) -> OpenBook:
    """Read every filled cell of a book.

    path: an .xlsx, .xlsm or .ods file; it is opened for reading only. Returns its sheets with
    formulas and saved values. Raises BookError where the file cannot be read as a book, and
    says why: not a workbook, locked, cut off, too large, not readable at all.
    """
    data = file_bytes(path)
    refuse_other_kinds(data)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            strict = check_parts(archive, len(data))
            if is_opendocument(archive):
                return _filled(_opendocument(path, data, archive))
            saved = saved_on(archive)
            slim = readable(archive, data, strict=strict)
    except BookError:
        raise
    except MemoryError:
        raise _too_large() from None
    except Exception as error:
        # zipfile has no one error for archives that are broken.
        raise BookError(
            f"the file is damaged or cut off ({error})",
            "copy it again, or open it and save it anew",
        ) from None
    try:
        sheets, names, from_1904 = read_openxml(slim)
    except BookError:
        raise
    except MemoryError:
        raise _too_large() from None
    except Exception as error:
        # Whatever openpyxl trips over in a broken part, the batch must go on with the rest.
        raise _unfit(error) from None
    sha256 = hashlib.sha256(data).hexdigest()
    return _filled(
        OpenBook(path.name, sha256, sheets, names, days_from_1904=from_1904, saved=saved)
    )


def _too_large() -> BookError:
    return BookError("the book is too large for this machine", "split it up")


def _filled(book: OpenBook) -> OpenBook:
    """The book, refused where nothing was read: a summary of nothing would look like a good one."""
    if not any(sheet.cells for sheet in book.sheets):
        raise BookError(
            "no filled cell was found on any sheet" if book.sheets else "the book has no worksheet",
            "open it in a spreadsheet program, look whether it is whole, and save it anew",
        )
    return book
