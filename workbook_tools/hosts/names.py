"""Defined names and the calculation setting in a workbook's main part."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from workbook_tools.hosts.archive import Archive, EditError, part_elements
from workbook_tools.hosts.markup import (
    Edit,
    Element,
    attribute,
    attribute_value,
    escaped,
    spliced,
)

# What stands before the defined names and before the calculation setting: the schema fixes
# the order (ECMA-376 Part 1, 18.2.27, CT_Workbook).
_BEFORE_NAMES = ("sheets", "functionGroups", "externalReferences")
_BEFORE_SETTING = (*_BEFORE_NAMES, "definedNames")


@dataclass(frozen=True)
class Name:
    """A defined name to be written: what it is called, its comment, its formula without "="."""

    name: str
    comment: str
    text: str


def _top(archive: Archive, data: bytes, wanted: Collection[str]) -> list[Element]:
    """Elements right below the root of the main part."""
    found = part_elements(archive, archive.workbook, data, wanted)
    return [e for e in found if len(e.parents) == 1]


def _behind(archive: Archive, data: bytes, before: Sequence[str]) -> Element:
    """The last of the elements that must stand before a new one."""
    found = _top(archive, data, before)
    if not found:
        raise EditError(f"{archive.path}: its main part {archive.workbook} has no sheets.")
    return max(found, key=lambda e: e.end)


def calculated_on_opening(archive: Archive, data: bytes) -> bytes:
    """The main part, with the setting that every cell is calculated when the book is opened."""
    wanted = 'fullCalcOnLoad="1"'
    for setting in _top(archive, data, ("calcPr",)):
        old = attribute_value(data, setting, "fullCalcOnLoad")
        if old is None:
            at = setting.start + len(f"<{setting.prefix}calcPr")
            return spliced(data, [Edit(at, at, f" {wanted}".encode())])
        if old.text in ("1", "true"):
            return data
        return spliced(data, [Edit(old.inner, old.inner_end, b"1")])
    last = _behind(archive, data, _BEFORE_SETTING)
    new = f"<{last.prefix}calcPr {wanted}/>".encode()
    return spliced(data, [Edit(last.end, last.end, new)])


def defined_names(archive: Archive, data: bytes) -> list[Element]:
    """The defined names of a book, each with its attributes and its text."""
    return [
        e
        for e in part_elements(archive, archive.workbook, data, ("definedName",))
        if e.parents[1:] == ("definedNames",)
    ]


def with_names(
    archive: Archive, data: bytes, drop: Collection[Element], add: Sequence[Name]
) -> bytes:
    """The main part without some defined names and with others behind those that stay."""
    edits = [Edit(e.start, e.end, b"") for e in drop]
    lists = _top(archive, data, ("definedNames",))
    if lists and len(drop) == len(defined_names(archive, data)) and not add:
        # The schema knows no empty list of names.
        return spliced(data, [Edit(lists[0].start, lists[0].end, b"")])
    if add:
        beside = lists[0] if lists else _behind(archive, data, _BEFORE_NAMES)
        prefix = beside.prefix
        text = "".join(
            f"<{prefix}definedName{attribute('name', n.name)}{attribute('comment', n.comment)}>"
            f"{escaped(n.text)}</{prefix}definedName>"
            for n in add
        )
        if not lists or lists[0].empty_tag:
            text = f"<{prefix}definedNames>{text}</{prefix}definedNames>"
        if not lists:
            edits.append(Edit(beside.end, beside.end, text.encode()))
        elif lists[0].empty_tag:
            edits.append(Edit(beside.start, beside.end, text.encode()))
        else:
            edits.append(Edit(beside.inner_end, beside.inner_end, text.encode()))
    return spliced(data, edits)
