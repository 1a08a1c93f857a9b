"""Where formulas stand in a file: the elements of its parts that hold one."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.hosts.archive import Archive, part_elements, parts_of_type, read_part
from workbook_tools.hosts.markup import Element, attribute_value

# The elements that hold formulas, by the ending of a part's content type.
_ON_SHEETS = ("f", "formula", "formula1", "formula2", "cfvo")
_HOLDERS = {
    "worksheet+xml": _ON_SHEETS,
    "macrosheet+xml": _ON_SHEETS,
    "table+xml": ("calculatedColumnFormula", "totalsRowFormula"),
}


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
