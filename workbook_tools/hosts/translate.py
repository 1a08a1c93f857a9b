"""The two spellings of a call: ENG.QUENCH everywhere, ENG_QUENCH where VBA holds the function.

Only formulas change: cells, conditional formats, validations, table columns and defined
names. A text within a formula stays, and so does every saved value: the function is the
same by either name. The book is marked to be calculated when it is opened next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from workbook_tools.catalog import PREFIX
from workbook_tools.formulas.call_names import CalledName, called_names
from workbook_tools.hosts.archive import open_archive, read_part, write_copy
from workbook_tools.hosts.formula_elements import formula_elements
from workbook_tools.hosts.markup import new_text, spliced
from workbook_tools.hosts.names import calculated_on_opening

Spelling = Literal["vba", "dot"]


@dataclass(frozen=True)
class Translation:
    """What became of a book.

    formulas: how many were changed; functions: the functions called in them, by the new
    name; unknown: ENG names that the catalog does not have, left as they were.
    """

    book: Path
    out: Path
    to: Spelling
    formulas: int
    functions: tuple[str, ...]
    unknown: tuple[str, ...]


def _spelled(call: CalledName, to: Spelling) -> str:
    """A call's name in the wanted spelling, with what must stay before it."""
    if to == "dot":
        # A path to an add-in, or a prefix that some program left, would keep it from working.
        return ("" if call.in_add_in else call.book) + f"{PREFIX}.{call.name}"
    return call.book + f"{PREFIX}_{call.name}"


def _is_due(call: CalledName, to: Spelling) -> bool:
    if not call.name:
        return False
    if to == "dot":
        return not call.plain
    return call.dotted


def _rewritten(formula: str, due: Sequence[CalledName], to: Spelling) -> str:
    pieces, done = [], 0
    for call in due:
        pieces += [formula[done : call.start], _spelled(call, to)]
        done = call.end
    return "".join([*pieces, formula[done:]])


def translate_formula(formula: str, to: Spelling) -> str:
    """A formula with its calls in the wanted spelling; anything else in it stays."""
    return _rewritten(formula, [c for c in called_names(formula) if _is_due(c, to)], to)


def translate(book: Path, out: Path, to: Spelling = "dot") -> Translation:
    """Write a copy of a book in which calls are spelled ENG.X ("dot") or ENG_X ("vba").

    out: a new file with the book's ending. Raises EditError where the book cannot be read
    or changed, or the copy not written; the book itself is never touched.
    """
    archive = open_archive(book)
    changed: dict[str, bytes] = {}
    functions: set[str] = set()
    unknown: set[str] = set()
    formulas = 0
    for part, data, found in formula_elements(archive):
        edits = []
        for element in found:
            here = called_names(element.text)
            unknown |= {call.spelled for call in here if not call.name}
            due = [call for call in here if _is_due(call, to)]
            if not due:
                continue
            formulas += 1
            functions |= {_spelled(call, to).rpartition("!")[2] for call in due}
            edits.append(new_text(data, element, _rewritten(element.text, due, to)))
        if edits:
            changed[part] = spliced(data, edits)
    if changed:
        main = changed.get(archive.workbook) or read_part(archive, archive.workbook)
        changed[archive.workbook] = calculated_on_opening(archive, main)
    write_copy(archive, out, changed)
    return Translation(
        book=book,
        out=out,
        to=to,
        formulas=formulas,
        functions=tuple(sorted(functions)),
        unknown=tuple(sorted(unknown)),
    )
