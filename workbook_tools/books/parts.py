"""The parts of a book's archive: checked before any of them is parsed, then made readable.

A workbook (ISO/IEC 29500-2) and an OpenDocument spreadsheet (OASIS OpenDocument 1.2, part 3)
are ZIP archives of XML parts. What no spreadsheet program writes is refused, because readers
differ in what they make of it, or because it unfolds to any size.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable
from functools import lru_cache
from itertools import chain
from pathlib import Path
from xml.parsers import expat

from workbook_tools.book_files import UnfitFile, check_unpacked, read_bytes
from workbook_tools.books.cells import BookError
from workbook_tools.books.opendocument import MIMETYPES

# Elements within one another; libxml2 has the same limit. Time grows with the square of it.
DEEPEST = 256
# A sheet part larger than this is first rid of its formatted blank cells.
LARGE_PART = 2_000_000
_CHUNK = 65_536
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)

# The namespaces of ISO/IEC 29500-1 (Strict) beside those of ISO/IEC 29500-4 (Transitional).
_STRICT = "http://purl.oclc.org/ooxml/"
_STRICT_BYTES = _STRICT.encode()
_TRANSITIONAL = {
    b"spreadsheetml/main": b"http://schemas.openxmlformats.org/spreadsheetml/2006/main",
    b"officeDocument/relationships": (
        b"http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    ),
}
_STRICT_NAME = re.compile(
    rb"(?<=[\"'])" + re.escape(_STRICT_BYTES) + rb"(%s)" % b"|".join(_TRANSITIONAL)
)


_BY_OFFICE = "install LibreOffice, through which it is read, or open it and save it as .xlsx"
_OLE = b"\xd0\xcf\x11\xe0"
_LOCKED = "EncryptedPackage".encode("utf-16-le")


def is_binary(path: Path) -> bool:
    """Whether a file is a .xls or .xlsb book by its content, which an office program reads."""
    try:
        data = read_bytes(path)
        if data.startswith(_OLE):
            return _LOCKED not in data
        if not data.startswith(b"PK") or path.suffix.lower() != ".xlsb":
            return False
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return any(name.endswith("workbook.bin") for name in archive.namelist())
    except (OSError, UnfitFile, zipfile.BadZipFile, NotImplementedError):
        return False  # Reading it says what is wrong with it.


def _save_anew(message: str) -> BookError:
    return BookError(message, "open it in a spreadsheet program and save it anew")


def refuse_other_kinds(data: bytes) -> None:
    """Name, by their content, the files that are no .xlsx or .xlsm workbook."""
    if not data:
        raise BookError("the file is empty", "look for a whole copy")
    if data.startswith(_OLE):
        if _LOCKED in data:
            raise BookError(
                "the book is locked with a password",
                "save a copy without a password (File, Info or Save As, Tools) and give that",
            )
        raise BookError("this is an old .xls book", _BY_OFFICE)
    if not data.startswith(b"PK"):
        raise BookError("this is not a workbook", "give .xlsx, .xlsm or .ods files")


def is_opendocument(archive: zipfile.ZipFile) -> bool:
    """Whether an archive says that it is an OpenDocument spreadsheet."""
    if "mimetype" not in archive.namelist():
        return False
    with archive.open("mimetype") as part:
        return part.read(200).strip() in MIMETYPES


def check_parts(archive: zipfile.ZipFile, size: int) -> bool:
    """Refuse an archive that is no workbook, or one that no spreadsheet program wrote.

    size: of the archive, bytes. Returns whether it is written in the namespaces of Strict.
    Raises BookError, and what zipfile raises for a damaged archive.
    """
    _refuse_bombs(archive, size)
    names = set(archive.namelist())
    if any(name.endswith("workbook.bin") for name in names):
        raise BookError("this is a binary .xlsb book", _BY_OFFICE)
    if "[Content_Types].xml" not in names and not is_opendocument(archive):
        raise BookError("this is an archive but not a workbook", "give .xlsx, .xlsm or .ods files")
    _refuse_doubles(archive)
    strict = [_is_strict(archive, item) for item in archive.infolist()]
    return any(strict)


def _refuse_bombs(archive: zipfile.ZipFile, size: int) -> None:
    try:
        check_unpacked(archive, size)
    except UnfitFile as unfit:
        raise BookError(unfit.message, unfit.advice) from None
    for item in archive.infolist():
        # Both standards know no other; the library bounds what others unpack to only afterward.
        if item.compress_type not in _METHODS:
            raise _save_anew(f"the book's part {item.filename} is packed in an unusual way")


def _refuse_doubles(archive: zipfile.ZipFile) -> None:
    """Refuse two parts of one name; whatever their case, they are one (ISO/IEC 29500-2)."""
    seen: set[str] = set()
    for item in archive.infolist():
        name = item.filename.replace("\\", "/").lstrip("/").casefold()
        if name in seen:
            raise _save_anew(f"the book holds its part {item.filename} twice")
        seen.add(name)


def _is_strict(archive: zipfile.ZipFile, item: zipfile.ZipInfo) -> bool:
    """Whether a part is in the namespaces of Strict; False for a picture or another kind.

    Raises BookError where the part declares a document type, whose entities can unfold to any
    size, or has elements too deep within one another. XML that is broken is left to its reader.
    """
    with archive.open(item) as part:
        chunk = part.read(_CHUNK)
        if not chunk.replace(b"\0", b"").lstrip(b"\xef\xbb\xbf\xfe\xff \t\r\n").startswith(b"<"):
            return False
        if len(chunk) < _CHUNK:
            # A whole part: the styles of a program are the same in all of its books.
            strict, wrong = _look_through_small(chunk)
        else:
            strict, wrong = _look_through(chain((chunk,), iter(lambda: part.read(_CHUNK), b"")))
    if wrong:
        raise _save_anew(f"the book's part {item.filename} {wrong}")
    return strict


@lru_cache(maxsize=64)
def _look_through_small(part: bytes) -> tuple[bool, str]:
    return _look_through((part,))


_ALL_BUT_ANGLES = bytes(set(range(256)) - set(b"<>"))
_UTF8 = re.compile(
    rb"""\s*<\?xml [^<>]*encoding=["'](?:utf-8|us-ascii)["'][^<>]*\?>""", re.IGNORECASE
)


def _is_shallow(part: bytes) -> bool:
    """Whether a part is plainly not strict, not deep and without a document type.

    Said from a count of its tags alone, where these cannot be hidden: every "<" has its ">",
    there are no comments and no declarations, and each byte is its own character.
    """
    angles = part.translate(None, _ALL_BUT_ANGLES)
    plain = angles == b"<>" * (len(angles) // 2) and b"<!" not in part and b"\0" not in part
    if not plain or part.count(b"<?") > 1 or _STRICT_BYTES in part or not _UTF8.match(part):
        return False
    depth = 0
    # No element lies deeper than all tags that open before the row ends, were none to close.
    for piece in part.split(b"</row>"):
        opened = piece.count(b"<") - piece.count(b"</") - piece.count(b"/>")
        if depth + opened > DEEPEST:
            return False
        depth += opened - piece.count(b"</") - 1
    return True


class _Refused(Exception):
    """What is wrong with a part, behind its name."""


def _look_through(chunks: Iterable[bytes]) -> tuple[bool, str]:
    """Whether XML is in the namespaces of Strict, and why it is not to be read, "" where it is."""
    if isinstance(chunks, tuple) and _is_shallow(*chunks):
        return False, ""
    strict, depth = False, 0

    def start(_: str, attributes: list[str]) -> None:
        nonlocal strict, depth
        depth += 1
        if depth == 1:
            strict = any(value.startswith(_STRICT) for value in attributes)
        elif depth > DEEPEST:
            raise _Refused(f"has more than {DEEPEST} elements within one another")

    def end(_: str) -> None:
        nonlocal depth
        depth -= 1

    def declared(*_: object) -> None:
        raise _Refused("declares a document type")

    parser = expat.ParserCreate()
    parser.ordered_attributes = True
    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.StartDoctypeDeclHandler = declared
    try:
        for chunk in chunks:
            parser.Parse(chunk)
        # From its release 2.6 on, expat may put off what began in an earlier chunk.
        parser.Parse(b"", True)
    except expat.ExpatError:
        pass
    except _Refused as refused:
        return strict, str(refused)
    return strict, ""


_BLANK_CELL = re.compile(rb"<c\s[^<>]*/>")
_BLANK_ROW = re.compile(rb"<row\s[^<>]*(?:/>|>\s*</row>)")
# A cell or row that does not say where it is stands after the one before, blank or not.
_UNPLACED = re.compile(rb"<(?:c|row)(?=[\s/>])(?![^<>]*\sr\s*=)")


def _without_blanks(part: bytes) -> bytes:
    return part if _UNPLACED.search(part) else _BLANK_ROW.sub(b"", _BLANK_CELL.sub(b"", part))


def _transitional(part: bytes) -> bytes:
    return _STRICT_NAME.sub(lambda found: _TRANSITIONAL[found[1]], part)


def readable(archive: zipfile.ZipFile, data: bytes, *, strict: bool) -> bytes:
    """The archive as openpyxl can read it: Transitional, large sheets without blank cells.

    Formatting a million rows leaves a million cells that hold nothing; reading each of them
    would take minutes. data: the archive's own bytes, which come back where nothing is to be
    changed.
    """
    large = {
        item.filename
        for item in archive.infolist()
        if item.file_size > LARGE_PART and re.match(r"xl/worksheets/[^/]+\.xml$", item.filename)
    }
    if not large and not strict:
        return data
    changed = io.BytesIO()
    with zipfile.ZipFile(changed, "w", zipfile.ZIP_STORED) as target:
        for item in archive.infolist():
            part = archive.read(item)
            if item.filename in large:
                part = _without_blanks(part)
            target.writestr(item.filename, _transitional(part) if strict else part)
    return changed.getvalue()
