"""The builder's arithmetic, with calls in its place where all its siblings give the same."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.annotate.lines import cell_of, is_number
from workbook_tools.books.cells import OpenBook
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Place
from workbook_tools.hosts.archive import Archive, part_elements
from workbook_tools.hosts.markup import Edit, Element, escaped, spliced
from workbook_tools.hosts.relations import Parts, part_now, sheet_parts
from workbook_tools.jobs.records import Book, Record


@dataclass(frozen=True)
class Replaced:
    """A formula and the call in its place, both with "="."""

    place: Place
    old: str
    new: str


def replacements(book: Book, results: Sequence[Record], cells: OpenBook) -> tuple[Replaced, ...]:
    """The formulas of a job that a call can take the place of.

    results: those of the job whose calls give them from its cells. Only where every result of
    the same measurand on the sheet is the same to the last digit by its call: one that differs
    speaks against all of them.
    """
    groups: dict[tuple[str, str], list[Record]] = defaultdict(list)
    for record in results:
        if record.place.address and record.saved is not None:
            groups[record.place.sheet, record.measurand].append(record)
    found = []
    for (sheet, measurand), records in groups.items():
        there = {s.place for s in book.stated if (s.place.sheet, s.measurand) == (sheet, measurand)}
        covered = {record.place for record in records}
        if there <= covered and all(_is_same(r, cells) for r in records):
            found += [new for r in records if (new := _replaced(r, cells))]
    return tuple(found)


def _is_same(record: Record, cells: OpenBook) -> bool:
    """Whether a call gives what its cell holds, in the unit of the cell."""
    own = cell_of(cells, record.place)
    if own is None or not is_number(own.value) or not is_number(record.value):
        return False
    held, value = float(own.value), float(record.value)  # type: ignore[arg-type]
    return math.isclose(held, value, rel_tol=1e-9, abs_tol=1e-12)


def _replaced(record: Record, cells: OpenBook) -> Replaced | None:
    own = cell_of(cells, record.place)
    if own is None or not own.formula or own.area or mentions_call(own.formula):
        return None
    if record.place.address in re.findall(r"[A-Z]{1,3}\d+", record.formula):
        return None
    return Replaced(record.place, f"={own.formula}", record.formula)


def replace_formulas(
    archive: Archive, parts: Parts, wanted: Sequence[Replaced]
) -> tuple[Replaced, ...]:
    """Write calls in place of formulas, and return those that could be written.

    Not those of arrays, nor one that shares its formula with a cell that keeps it.
    """
    done: list[Replaced] = []
    titles = sheet_parts(archive, parts)
    for title in dict.fromkeys(one.place.sheet for one in wanted):
        own = {one.place.address: one for one in wanted if one.place.sheet == title}
        part = titles[title]
        data = part_now(archive, parts, part)
        formulas = _formulas(archive, part, data)
        shared: dict[str, set[str]] = defaultdict(set)
        for address, element in formulas.items():
            if element.attributes.get("t") == "shared":
                shared[element.attributes.get("si", "")].add(address)
        kept = {a: e for a, e in formulas.items() if a in own and _is_free(e, shared, own)}
        edits = [
            Edit(e.start, e.end, f"<{e.prefix}f>{escaped(own[a].new[1:])}</{e.prefix}f>".encode())
            for a, e in kept.items()
        ]
        if edits:
            parts[part] = spliced(data, edits)
            done += [own[a] for a in own if a in kept]
    return tuple(done)


def _formulas(archive: Archive, part: str, data: bytes) -> dict[str, Element]:
    """The formula of each cell by its address."""
    found: dict[str, Element] = {}
    cell: Element | None = None
    for element in part_elements(archive, part, data, ("c", "f")):
        if element.name == "c":
            cell = element
        elif cell is not None and cell.start < element.start < cell.end:
            found[cell.attributes.get("r", "")] = element
    return found


def _is_free(element: Element, shared: Mapping[str, set[str]], own: Mapping[str, object]) -> bool:
    kind = element.attributes.get("t", "normal")
    if kind == "shared":
        return shared[element.attributes.get("si", "")] <= own.keys()
    return kind == "normal"
