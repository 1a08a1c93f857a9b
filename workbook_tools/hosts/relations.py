"""What belongs to what in a workbook's package: relations of parts, their types, the sheets.

A part that is changed or added stands in a mapping of parts to bytes, which is what a copy is
written with; each function here adds to it.
"""

from __future__ import annotations

import posixpath
from dataclasses import dataclass

from workbook_tools.hosts.archive import Archive, EditError, part_elements, read_part
from workbook_tools.hosts.markup import Edit, Element, attribute, spliced

# The two forms of the standard (ECMA-376): namespaces of relations in parts, which a kind of
# relation begins with, and of the parts of a spreadsheet.
_TRANSITIONAL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_STRICT = "http://purl.oclc.org/ooxml/officeDocument/relationships"
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
_TYPES = "[Content_Types].xml"
_NO_RELATIONS = (
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    f'<Relationships xmlns="{_PACKAGE}"></Relationships>'
).encode()

Parts = dict[str, bytes]


@dataclass(frozen=True)
class Relation:
    """A relation of a part: its id, the last word of its type, the part that it leads to."""

    id: str
    kind: str
    part: str


def part_now(archive: Archive, parts: Parts, name: str) -> bytes:
    """The bytes of a part, as changed so far."""
    return parts[name] if name in parts else read_part(archive, name)


def _is_strict(archive: Archive, parts: Parts) -> bool:
    return _STRICT_MAIN.encode() in part_now(archive, parts, archive.workbook)[:4000]


def main_namespace(archive: Archive, parts: Parts) -> str:
    """The namespace of this book's sheets and what belongs to them."""
    return _STRICT_MAIN if _is_strict(archive, parts) else _MAIN


def namespace(archive: Archive, parts: Parts) -> str:
    """The namespace of relations in this book's parts."""
    return _STRICT if _is_strict(archive, parts) else _TRANSITIONAL


def _relations_part(part: str) -> str:
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")


def _there(archive: Archive, parts: Parts, name: str) -> str | None:
    """The name of a part as the package spells it, None where there is none."""
    if name in parts:
        return name
    return next((own for own in archive.types if own.lower() == name.lower()), None)


def relations(archive: Archive, parts: Parts, part: str) -> list[Relation]:
    """The relations of a part to others in the package."""
    name = _there(archive, parts, _relations_part(part))
    if name is None:
        return []
    data = part_now(archive, parts, name)
    found = []
    for element in part_elements(archive, name, data, ("Relationship",)):
        said = element.attributes
        if said.get("TargetMode") == "External":
            continue
        target = said.get("Target", "")
        full = target.lstrip("/") if target.startswith("/") else posixpath.join(
            posixpath.dirname(part), target
        )  # fmt: skip
        path = posixpath.normpath(full)
        kind = said.get("Type", "").rpartition("/")[2]
        found.append(Relation(said.get("Id", ""), kind, _there(archive, parts, path) or path))
    return found


def add_part(
    archive: Archive, parts: Parts, owner: str, kind: str, pattern: str, content_type: str
) -> tuple[str, str]:
    """Give a part a new one that belongs to it; return the name, and the relation's id.

    kind: of the relation, as "comments"; pattern: of the name, as "xl/comments{}.xml". What the
    new part holds is for the caller to write under its name.
    """
    name = _free_name(archive, parts, pattern)
    _declare_type(archive, parts, name, content_type)
    return name, _relate(archive, parts, owner, kind, name)


def _relate(archive: Archive, parts: Parts, part: str, kind: str, to: str) -> str:
    name = _there(archive, parts, _relations_part(part)) or _relations_part(part)
    known = name in parts or name in archive.types
    data = part_now(archive, parts, name) if known else _NO_RELATIONS
    taken = {
        e.attributes.get("Id", "").lower()
        for e in part_elements(archive, name, data, ("Relationship",))
    }
    new = next(f"rId{n}" for n in range(1, len(taken) + 2) if f"rid{n}" not in taken)
    target = posixpath.relpath(to, posixpath.dirname(part) or ".")
    told = f"{namespace(archive, parts)}/{kind}"
    [root] = part_elements(archive, name, data, ("Relationships",))
    text = (
        f"<{root.prefix}Relationship{attribute('Id', new)}{attribute('Type', told)}"
        f"{attribute('Target', target)}/>"
    )
    parts[name] = spliced(data, [within(data, root, text)])
    return new


def within(data: bytes, element: Element, text: str) -> Edit:
    """The change that puts a text last into an element, whether it is empty or not."""
    if not element.empty_tag:
        return Edit(element.inner_end, element.inner_end, text.encode())
    start = data[element.start : element.end].rstrip()[:-2].rstrip().decode()
    name = f"{element.prefix}{element.name}"
    return Edit(element.start, element.end, f"{start}>{text}</{name}>".encode())


def _declare_type(archive: Archive, parts: Parts, part: str, content_type: str) -> None:
    data = part_now(archive, parts, _TYPES)
    [root] = part_elements(archive, _TYPES, data, ("Types",))
    told = f"{attribute('PartName', '/' + part)}{attribute('ContentType', content_type)}"
    edit = within(data, root, f"<{root.prefix}Override{told}/>")
    parts[_TYPES] = spliced(data, [edit])


def _free_name(archive: Archive, parts: Parts, pattern: str) -> str:
    taken = {name.lower() for name in (*archive.types, *parts)}
    number = 1
    while pattern.format(number).lower() in taken:
        number += 1
    return pattern.format(number)


def sheet_parts(archive: Archive, parts: Parts) -> dict[str, str]:
    """The part of each sheet by the sheet's title, in the order of the book."""
    data = part_now(archive, parts, archive.workbook)
    by_id = {r.id: r.part for r in relations(archive, parts, archive.workbook)}
    found = {}
    for element in part_elements(archive, archive.workbook, data, ("sheet",)):
        ids = [v for k, v in element.attributes.items() if k.rpartition(":")[2] == "id"]
        part = by_id.get(ids[0]) if ids else None
        if part is None:
            raise EditError(f"{archive.path}: is damaged: a sheet has no part of its own.")
        found[element.attributes.get("name", "")] = part
    return found
