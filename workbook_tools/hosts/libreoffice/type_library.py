"""The type library that tells LibreOffice the add-in's methods.

A binary UNOIDL file, as LibreOffice's own unoidl-write makes it from an interface
definition. Written here from the catalog, so that neither a user nor a build needs the SDK
and the library can never lag behind the catalog.

Source: LibreOffice, unoidl/source/unoidlprovider.cxx, "New binary format".
"""

from __future__ import annotations

import struct
from collections.abc import Iterable

from workbook_tools.catalog import Function
from workbook_tools.quantities import TEXT

MODULE = "workbooktools"
INTERFACE = "XWorksheetFunctions"
# A table: a single value arrives as 1x1, and an empty cell, alone or in a range, as "".
TABLE = "[][]any"
# The only type that LibreOffice lets a formula leave out.
OPTIONAL = "any"
# A cell itself, and the document that it stands in, which LibreOffice hands over unasked.
CELL = "com.sun.star.table.XCellRange"
DOCUMENT = "com.sun.star.beans.XPropertySet"

_HEADER = b"UNOIDL\xff\x00"
_MODULE_KIND, _INTERFACE_KIND = 0, 5
_IN = 0
_BY_OFFSET = 0x80000000


class _Writer:
    """Bytes under construction; a string that was written before is referred to."""

    def __init__(self) -> None:
        self.data = bytearray()
        self._seen: dict[str, int] = {}

    def byte(self, value: int) -> None:
        self.data.append(value)

    def number(self, value: int) -> None:
        self.data += struct.pack("<I", value)

    def name(self, text: str) -> int:
        at = len(self.data)
        self.data += text.encode("ascii") + b"\0"
        return at

    def string(self, text: str) -> None:
        if text in self._seen:
            self.number(self._seen[text] | _BY_OFFSET)
            return
        self._seen[text] = len(self.data)
        self.number(len(text))
        self.data += text.encode("ascii")


def parameter_types(function: Function) -> list[tuple[str, str]]:
    """(name, UNO type) of each argument; the format's names take no underscore."""
    if function.sees_cell:
        return [(_camel(p.name), CELL) for p in function.parameters]
    types = [(_camel(p.name), OPTIONAL if p.optional else TABLE) for p in function.parameters]
    return [*types, ("units", OPTIONAL)] if function.takes_units else types


def method_types(function: Function) -> list[tuple[str, str]]:
    """(name, UNO type) of all that the method takes: the arguments, and what comes unasked."""
    unasked = [("document", DOCUMENT)] if function.sees_cell else []
    return [*unasked, *parameter_types(function)]


def result_type(function: Function) -> str:
    """The UNO type of a result: a table, which shows its first value in a single cell.

    A text must not come as a table: LibreOffice finds such a text equal to no other, so that
    IF(ENG.VERDICT(...)="ok",...) would always say no. `any` takes a plain text.
    """
    return OPTIONAL if function.result is TEXT and not function.result_block else TABLE


def _camel(name: str) -> str:
    first, *others = name.split("_")
    return first + "".join(part.capitalize() for part in others)


def type_library(functions: Iterable[Function], banner: bytes = b"") -> bytes:
    """The library of one interface with a method for each catalog function.

    functions: catalog entries, in the order in which they are to stand; banner: free bytes
    behind the header, which say who wrote the file.
    """
    listed = list(functions)
    out = _Writer()
    out.data += _HEADER + bytes(8) + banner
    interface = len(out.data)
    out.byte(_INTERFACE_KIND)
    out.number(1)
    out.string("com.sun.star.uno.XInterface")
    out.number(0)  # optional bases
    out.number(0)  # attributes
    out.number(len(listed))
    for function in listed:
        out.string(function.name)
        out.string(result_type(function))
        arguments = method_types(function)
        out.number(len(arguments))
        for name, uno_type in arguments:
            out.byte(_IN)
            out.string(name)
            out.string(uno_type)
        out.number(0)  # exceptions
    interface_name = out.name(INTERFACE)
    module = len(out.data)
    out.byte(_MODULE_KIND)
    out.number(1)
    out.number(interface_name)
    out.number(interface)
    module_name = out.name(MODULE)
    root = len(out.data)
    out.number(module_name)
    out.number(module)
    struct.pack_into("<II", out.data, len(_HEADER), root, 1)
    return bytes(out.data)
