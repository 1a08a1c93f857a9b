"""Calls of catalog functions in formula text as a file stores it, and where formulas stand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.catalog import find
from workbook_tools.hosts.archive import Archive, part_elements, parts_of_type, read_part
from workbook_tools.hosts.markup import Element, attribute_value

# A text, a name of ours with whatever stands before it, a quoted sheet, a table's columns in
# brackets, any other word: what is none of ours is passed over whole.
_PIECES = re.compile(
    r"""
    "(?:[^"]|"")*"
  | (?P<ours>
      (?P<book>'(?:[^']|'')*'!|\[[^\[\]]*\]!|[\w.]+!)?
      (?P<prefix>(?:_xll\.|_xludf\.|_xldudf_|_xlfn\.)*)
      (?P<name>ENG[._][A-Z_]+)
      (?![\w.\\?!])
    )
  | '(?:[^']|'')*'
  | \[(?:[^\[\]']|'.|\[(?:[^\[\]']|'.)*\])*\]
  | [\w.\\?]+
  | .
    """,
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)
# What stands before the "!" where a call goes to an add-in, and not to a sheet's own name.
_ADD_IN = re.compile(r"\[\d+\]!|.*\.(?:xlam?|xll|xls[mb]?)'?!", re.IGNORECASE | re.DOTALL)

# The elements that hold formulas, by the ending of a part's content type.
_ON_SHEETS = ("f", "formula", "formula1", "formula2", "cfvo")
_HOLDERS = {
    "worksheet+xml": _ON_SHEETS,
    "macrosheet+xml": _ON_SHEETS,
    "table+xml": ("calculatedColumnFormula", "totalsRowFormula"),
}


@dataclass(frozen=True)
class Call:
    """A call of an ENG function in a formula.

    start, end: of the name with all that stands before it; spelled: the name as written;
    name: the catalog's bare name, "" for a function that the catalog does not have; dotted:
    whether it is ENG.X and not ENG_X; book: "'C:\\x.xlam'!" or "[1]!" of an add-in, or a
    sheet's name with "!"; prefix: what a program has put before the name.
    """

    start: int
    end: int
    spelled: str
    name: str
    dotted: bool
    book: str
    prefix: str

    @property
    def in_add_in(self) -> bool:
        """Whether the call names the file of an add-in."""
        return _ADD_IN.fullmatch(self.book) is not None

    @property
    def plain(self) -> bool:
        """Whether it is ENG.X, with no add-in's file and no program's prefix before it."""
        return self.dotted and not self.prefix and not self.in_add_in


def calls(formula: str) -> list[Call]:
    """The calls of ENG functions in a formula, in any spelling, from left to right."""
    found = []
    for piece in _PIECES.finditer(formula):
        if piece["ours"] and formula[piece.end() :].lstrip().startswith("("):
            spelled = piece["name"]
            function = find(spelled)
            found.append(
                Call(
                    start=piece.start(),
                    end=piece.end(),
                    spelled=spelled,
                    name=function.name if function else "",
                    dotted=spelled[3] == ".",
                    book=piece["book"] or "",
                    prefix=piece["prefix"] or "",
                )
            )
    return found


def functions_named(formula: str) -> set[str]:
    """The catalog's functions that a formula calls, or hands on: MAP(A1:A9,B1:B9,ENG.QUENCH)."""
    found = (find(piece["name"]) for piece in _PIECES.finditer(formula) if piece["ours"])
    return {function.name for function in found if function}


def formula_elements(archive: Archive) -> Iterator[tuple[str, bytes, list[Element]]]:
    """(part, its bytes, its elements that hold a formula with ENG in it), part after part.

    Cells, conditional formats, validations, table columns and defined names are looked at.
    Raises EditError for a part that is no XML.
    """
    held = [
        (part, wanted) for kind, wanted in _HOLDERS.items() for part in parts_of_type(archive, kind)
    ]
    for part, wanted in [*held, (archive.workbook, ("definedName",))]:
        data = read_part(archive, part)
        # Most parts have none: they need no parser.
        if b"eng" not in data.lower():
            continue
        all_found = part_elements(archive, part, data, wanted)
        holders = (_holder(data, element) for element in all_found)
        found = [holder for holder in holders if "ENG" in holder.text.upper()]
        if found:
            yield part, data, found


def _holder(data: bytes, element: Element) -> Element:
    """What holds the formula: the element, or the value of a color scale's, data bar's or
    icon set's limit."""
    value = attribute_value(data, element, "val") if element.name == "cfvo" else None
    return value or element
