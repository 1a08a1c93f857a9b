"""The names of our functions in formula text, in every spelling that a file can hold."""

from __future__ import annotations

import re
from dataclasses import dataclass

from workbook_tools.catalog import PREFIX, find

# What programs put before a function's name: implicit intersection, a book's number or
# path, and the prefixes for functions that the program did not know.
_BEFORE = re.compile(
    r"^(?:@|\[\d+\]!|'[^']*'!|[^'!()]+!|_xll\.|_xludf\.|_xldudf_|_xlfn\.|_xlws\.)", re.IGNORECASE
)
_NAME = re.compile(rf"{PREFIX}[._]([A-Z0-9_.]+)", re.IGNORECASE)
_MENTION = re.compile(rf"{PREFIX}[._]\w+\s*\(", re.IGNORECASE)
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


@dataclass(frozen=True)
class CalledName:
    """The name of one of our functions where a formula calls it.

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


def called_names(formula: str) -> list[CalledName]:
    """The calls of ENG functions in a formula, in any spelling, from left to right."""
    found = []
    for piece in _PIECES.finditer(formula):
        if piece["ours"] and formula[piece.end() :].lstrip().startswith("("):
            spelled = piece["name"]
            function = find(spelled)
            found.append(
                CalledName(
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


def bare_name(spelled: str) -> str | None:
    """The bare, upper-case name of one of our functions, or None for any other name."""
    name = spelled
    while (shorter := _BEFORE.sub("", name, count=1)) != name:
        name = shorter
    found = _NAME.fullmatch(name)
    return found.group(1).upper() if found else None


def mentions_call(formula: str) -> bool:
    """A quick look whether a formula can hold a call at all."""
    return _MENTION.search(formula) is not None
