"""A workbook as the zip archive that it is: read some parts, write a copy with few changed.

A copy keeps every other member byte for byte, in its order, with its date and its way of
compression. The original is only read; the copy appears under its name when it is complete.
"""

from __future__ import annotations

import hashlib
import os
import posixpath
import re
import shutil
import tempfile
import zipfile
import zlib
from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.book_files import UnfitFile, check_unpacked, opened
from workbook_tools.hosts.markup import Element, MarkupError, elements

_EARLIEST = (1980, 1, 1, 0, 0, 0)  # the earliest time that a zip can hold
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_MAIN_TYPES = (
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
    "application/vnd.openxmlformats-officedocument.spreadsheetml.template.main+xml",
    "application/vnd.ms-excel.sheet.macroEnabled.main+xml",
    "application/vnd.ms-excel.template.macroEnabled.main+xml",
    "application/vnd.ms-excel.addin.macroEnabled.main+xml",
)
# Where an OpenDocument book has its sheets (OASIS OpenDocument 1.2, part 3).
_CONTENT = "content.xml"
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, KeyError)


class EditError(Exception):
    """A book that cannot be changed, or not so; the message says what to do."""


class OutError(EditError):
    """A copy that cannot be written as asked, for whatever is in the book."""


@dataclass(frozen=True)
class Archive:
    """A workbook's archive. workbook: name of its main part; types: content type by part."""

    path: Path
    workbook: str
    types: Mapping[str, str]


def _inside(path: Path, name: str, reason: object) -> EditError:
    return EditError(f"{path}: its part {name} cannot be used: {reason}")


def _opened(path: Path) -> zipfile.ZipFile:
    try:
        with opened(path) as file:
            start = file.read(8)
            size = file.seek(0, os.SEEK_END)
    except OSError as error:
        raise EditError(f"{path}: cannot be read: {error.strerror}") from None
    except UnfitFile as unfit:
        raise EditError(f"{path}: {unfit}.") from None
    if start == _OLE:
        raise EditError(
            f"{path}: is protected by a password, or of the old .xls kind. Save it in Excel "
            "without a password to open it, as .xlsx or .xlsm, and try again."
        )
    try:
        archive = zipfile.ZipFile(path)
    except (*_BROKEN, OSError) as error:
        raise EditError(
            f"{path}: is not an .xlsx or .xlsm workbook, or damaged ({error}). Open it in Excel "
            "and save it again."
        ) from None
    try:
        check_unpacked(archive, size)
    except UnfitFile as unfit:
        archive.close()
        raise EditError(f"{path}: {unfit}.") from None
    return archive


def _types(path: Path, archive: zipfile.ZipFile) -> dict[str, str]:
    data = _member(path, archive, "[Content_Types].xml")
    try:
        found = elements(data, ("Default", "Override"))
    except MarkupError as reason:
        raise _inside(path, "[Content_Types].xml", reason) from None
    by_ending = {
        e.attributes.get("Extension", "").lower(): e.attributes.get("ContentType", "")
        for e in found
        if e.name == "Default"
    }
    by_name = {
        e.attributes.get("PartName", "").lstrip("/").lower(): e.attributes.get("ContentType", "")
        for e in found
        if e.name == "Override"
    }
    return {
        name: by_name.get(name.lower(), by_ending.get(name.rpartition(".")[2].lower(), ""))
        for name in archive.namelist()
    }


def _member(path: Path, archive: zipfile.ZipFile, name: str) -> bytes:
    names = {n.lower(): n for n in archive.namelist()}
    try:
        return archive.read(names[name.lower()])
    except KeyError:
        raise EditError(
            f"{path}: is not an .xlsx or .xlsm workbook: it has no {name}. Save it as one of these."
        ) from None
    except _BROKEN as error:
        raise _inside(path, name, error) from None


def _main_part(path: Path, archive: zipfile.ZipFile) -> str:
    """The name of the workbook part, which the package's relations tell."""
    data = _member(path, archive, "_rels/.rels")
    try:
        relations = elements(data, ("Relationship",))
    except MarkupError as reason:
        raise _inside(path, "_rels/.rels", reason) from None
    for relation in relations:
        if relation.attributes.get("Type", "").endswith("/officeDocument"):
            target = posixpath.normpath(relation.attributes.get("Target", "").lstrip("/"))
            for name in archive.namelist():
                if name.lower() == target.lower():
                    return name
    raise EditError(f"{path}: is no workbook: its package names no main part.")


def open_archive(path: Path) -> Archive:
    """Look into a book and find its main part. Nothing is changed.

    Raises EditError for what is no such workbook, is encrypted, signed, damaged, or open in
    another program.
    """
    _require_closed(path)
    with _opened(path) as archive:
        if any(name.lower().startswith("_xmlsignatures/") for name in archive.namelist()):
            raise EditError(
                f"{path}: is signed, and any change would break the signature. Remove the "
                "signature in Excel (File, Info, View Signatures), and sign the copy."
            )
        # Names that differ only in case are the same (ECMA-376 Part 2, part names; from memory).
        names = Counter(name.lower() for name in archive.namelist())
        twice = [name for name, count in names.items() if count > 1]
        if twice:
            raise EditError(
                f"{path}: is damaged: it holds {twice[0]} twice. Save it in Excel anew."
            )
        main = _main_part(path, archive)
        types = _types(path, archive)
    if types[main] not in _MAIN_TYPES:
        raise EditError(
            f"{path}: is a package of another kind ({types[main] or 'none named'}); only .xlsx "
            "and .xlsm workbooks can be changed. Save it in Excel as one of these."
        )
    return Archive(path, main, types)


def open_opendocument(path: Path) -> Archive:
    """Look into an .ods book, whose cells stand in one part. Nothing is changed.

    Raises EditError as open_archive does.
    """
    _require_closed(path)
    with _opened(path) as archive:
        names = archive.namelist()
    if any(re.fullmatch(r"META-INF/.*signatures.*\.xml", name) for name in names):
        raise EditError(
            f"{path}: is signed, and any change would break the signature. Remove the signature "
            "in LibreOffice (File, Digital Signatures), and sign the copy."
        )
    if names.count(_CONTENT) != 1:
        raise EditError(f"{path}: is no .ods workbook: it has no {_CONTENT}. Save it as one.")
    return Archive(path, _CONTENT, dict.fromkeys(names, ""))


def _require_closed(path: Path) -> None:
    for lock in (path.with_name(f"~${path.name}"), path.with_name(f".~lock.{path.name}#")):
        if lock.exists():
            raise EditError(
                f"{path}: is open in another program ({lock.name} lies beside it). Save and "
                "close it there; if it is closed already, delete that file."
            )


def read_part(archive: Archive, name: str) -> bytes:
    """The bytes of a part. Raises EditError where it is missing or damaged."""
    with _opened(archive.path) as source:
        return _member(archive.path, source, name)


def parts_of_type(archive: Archive, *endings: str) -> list[str]:
    """The parts whose content type ends so ("worksheet+xml"), in the archive's order."""
    return [name for name, kind in archive.types.items() if kind.endswith(endings)]


def part_elements(
    archive: Archive, name: str, data: bytes, wanted: Collection[str]
) -> list[Element]:
    """The elements of these names in a part's bytes. Raises EditError for no XML in UTF-8."""
    try:
        return elements(data, wanted)
    except MarkupError as reason:
        raise _inside(archive.path, name, reason) from None


def _check_target(path: Path, out: Path) -> None:
    if out.resolve() == path.resolve():
        raise OutError(f"{out}: is the book itself. Name another file: the book stays as it is.")
    if out.suffix.lower() != path.suffix.lower():
        raise OutError(f"{out}: a copy of {path.name} needs the same ending, {path.suffix}")
    # Of os.path, as those of Path raise where a folder may not be looked into.
    if os.path.lexists(out):
        raise OutError(f"{out}: exists already. Name another file, or delete that one first.")
    if not os.path.isdir(out.parent):
        raise OutError(f"{out}: there is no folder {out.parent}")


def write_copy(archive: Archive, out: Path, changed: Mapping[str, bytes]) -> None:
    """Write a copy of a book in which some parts have other bytes, or are new and come last.

    out: a file that does not exist yet, with the book's ending, in a folder that exists.
    Raises EditError, and leaves nothing behind, where it cannot be written or a member of
    the book cannot be read.
    """
    _check_target(archive.path, out)
    try:
        handle, name = tempfile.mkstemp(
            dir=out.parent, prefix=f".{_part_name(out)}.", suffix=".part"
        )
        os.close(handle)
    except OSError as error:
        raise OutError(f"{out}: cannot be written: {error.strerror}") from None
    unfinished = Path(name)
    try:
        _copy(archive, unfinished, changed)
        shutil.copymode(archive.path, unfinished)
        unfinished.replace(out)
    except _BROKEN as error:
        raise EditError(f"{archive.path}: is damaged: {error}") from None
    except OSError as error:
        raise OutError(f"{out}: cannot be written: {error.strerror or error}") from None
    finally:
        unfinished.unlink(missing_ok=True)


def _part_name(out: Path) -> str:
    """What an unfinished copy is known by; short, as the name of the copy may be the longest."""
    return hashlib.sha256(os.fsencode(out.name)).hexdigest()[:16]


def sweep(out: Path) -> None:
    """Take away what writing a copy has left where its process was ended."""
    for part in out.parent.glob(f".{_part_name(out)}.*.part"):
        part.unlink(missing_ok=True)


def _copy(archive: Archive, target: Path, changed: Mapping[str, bytes]) -> None:
    with _opened(archive.path) as source, zipfile.ZipFile(target, "w") as copy:
        copy.comment = source.comment
        for old in source.infolist():
            new = zipfile.ZipInfo(old.filename, old.date_time)
            for field in ("compress_type", "comment", "extra", "create_system", "create_version",
                          "external_attr", "internal_attr"):  # fmt: skip
                setattr(new, field, getattr(old, field))
            if old.filename in changed:
                copy.writestr(new, changed[old.filename])
            else:
                new.file_size = old.file_size  # So that zip64 is used where the size asks for it.
                with source.open(old) as reader, copy.open(new, "w") as writer:
                    shutil.copyfileobj(reader, writer)
            # Where there was none, zipfile puts one of its own: the directory comes last.
            new.external_attr = old.external_attr
        here = set(source.namelist())
        for name, data in changed.items():
            if name not in here:
                added = zipfile.ZipInfo(name, _EARLIEST)
                added.compress_type = zipfile.ZIP_DEFLATED
                copy.writestr(added, data)
    with zipfile.ZipFile(target) as copy, _opened(archive.path) as source:
        for old, new in zip(source.infolist(), copy.infolist(), strict=False):
            if old.filename not in changed and (old.filename, old.CRC) != (new.filename, new.CRC):
                raise zipfile.BadZipFile(f"{old.filename} did not arrive as it was")
