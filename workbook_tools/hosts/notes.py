"""Notes on cells in a copy of a book: the cell, its value and format stay as they were.

A note is a comment of the kind that every program shows (ECMA-376 Part 1, 18.7), with the box
that belongs to it. A cell that has a note already gets more lines in it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from workbook_tools.formulas.references import Area, Place
from workbook_tools.hosts.archive import Archive, open_archive, part_elements, write_copy
from workbook_tools.hosts.markup import Edit, Element, escaped, spliced
from workbook_tools.hosts.relations import (
    Parts,
    add_part,
    main_namespace,
    namespace,
    part_now,
    relations,
    sheet_parts,
    within,
)

AUTHOR = "workbook-tools"
_COMMENTS_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
_BOXES_TYPE = "application/vnd.openxmlformats-officedocument.vmlDrawing"
# Where a sheet's notes are named: behind all of these (ECMA-376 Part 1, 18.3.1.99).
_BEFORE_NOTES = (
    "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection "
    "protectedRanges scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells "
    "phoneticPr conditionalFormatting dataValidations hyperlinks printOptions pageMargins "
    "pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches ignoredErrors "
    "smartTags drawing"
)
_NO_BOXES = (
    '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office"'
    ' xmlns:x="urn:schemas-microsoft-com:office:excel"><o:shapelayout v:ext="edit">'
    '<o:idmap v:ext="edit" data="1"/></o:shapelayout></xml>'
)
_BOX_TYPE = (
    '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" '
    'path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/>'
    '<v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>'
)
_NAMESPACES = (
    ' xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office"'
    ' xmlns:x="urn:schemas-microsoft-com:office:excel"'
)
# Columns that a box is wide.
_WIDE = 4


def write_with_notes(book: Path, out: Path, notes: Mapping[Place, str]) -> tuple[Place, ...]:
    """Write a copy of a book with notes on cells, all else byte for byte the same.

    Returns the cells with a threaded comment, which a current Excel shows in place of the note
    (MS-XLSX, threaded comments; from memory).

    notes: the text for each cell; of a range the first cell gets it. A note on a sheet that is
    not there is left out. Raises EditError where the book cannot be read or changed, or the copy
    not written.
    """
    archive = open_archive(book)
    parts: Parts = {}
    by_sheet: dict[str, dict[Area, str]] = {}
    for place, text in notes.items():
        area = place.area
        if area is not None:
            cell = Area(place.sheet, area.top, area.left, area.top, area.left)
            own = by_sheet.setdefault(place.sheet, {})
            own[cell] = f"{own[cell]}\n\n{text}" if cell in own else text
    hidden: list[Area] = []
    for title, part in sheet_parts(archive, parts).items():
        if title in by_sheet:
            threads = _threads(archive, parts, part)
            hidden += [cell for cell in by_sheet[title] if cell.address in threads]
            _put_on_sheet(archive, parts, part, by_sheet[title])
    write_copy(archive, out, parts)
    return tuple(cell.place for cell in hidden)


def _threads(archive: Archive, parts: Parts, sheet: str) -> set[str]:
    """The addresses of the cells that have a threaded comment."""
    return {
        element.attributes.get("ref", "")
        for relation in relations(archive, parts, sheet)
        if relation.kind == "threadedComment"
        for element in part_elements(
            archive, relation.part, part_now(archive, parts, relation.part), ("threadedComment",)
        )
    }


def _put_on_sheet(archive: Archive, parts: Parts, sheet: str, notes: Mapping[Area, str]) -> None:
    comments = next(
        (r.part for r in relations(archive, parts, sheet) if r.kind == "comments"), None
    )
    if comments is None:
        comments, _ = add_part(
            archive, parts, sheet, "comments", "xl/comments{}.xml", _COMMENTS_TYPE
        )
        parts[comments] = (
            '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
            f'<comments xmlns="{main_namespace(archive, parts)}">'
            "<authors></authors><commentList></commentList></comments>"
        ).encode()
    new = _put_texts(archive, parts, comments, notes)
    if new:
        _put_boxes(archive, parts, sheet, new)


def _put_texts(
    archive: Archive, parts: Parts, comments: str, notes: Mapping[Area, str]
) -> list[Area]:
    """Write the texts, and return the cells that had no note before."""
    data = part_now(archive, parts, comments)
    found = part_elements(
        archive, comments, data, ("authors", "author", "commentList", "comment", "text")
    )
    by_cell = {e.attributes.get("ref", ""): e for e in found if e.name == "comment"}
    [authors] = [e for e in found if e.name == "authors"]
    [listed] = [e for e in found if e.name == "commentList"]
    author = sum(e.name == "author" for e in found)
    p = listed.prefix
    edits, fresh, text = [], [], ""
    for cell, words in sorted(notes.items()):
        old = by_cell.get(cell.address)
        own = [e for e in found if e.name == "text" and old and old.start < e.start < old.end]
        if own:
            edits.append(within(data, own[0], _run(p, f"\n\n{words}")))
        else:
            fresh.append(cell)
            text += (
                f'<{p}comment ref="{cell.address}" authorId="{author}">'
                f"<{p}text>{_run(p, words)}</{p}text></{p}comment>"
            )
    if fresh:
        edits.append(within(data, listed, text))
        edits.append(within(data, authors, f"<{p}author>{AUTHOR}</{p}author>"))
    parts[comments] = spliced(data, edits)
    return fresh


def _run(prefix: str, words: str) -> str:
    p = prefix
    return f'<{p}r><{p}t xml:space="preserve">{escaped(words)}</{p}t></{p}r>'


def _put_boxes(archive: Archive, parts: Parts, sheet: str, cells: Sequence[Area]) -> None:
    data = part_now(archive, parts, sheet)
    named = [
        e for e in part_elements(archive, sheet, data, ("legacyDrawing",)) if len(e.parents) == 1
    ]
    boxes = _boxes_part(archive, parts, sheet, named[0]) if named else None
    if boxes is None:
        boxes, new = add_part(
            archive, parts, sheet, "vmlDrawing", "xl/drawings/vmlDrawing{}.vml", _BOXES_TYPE
        )
        parts[boxes] = _NO_BOXES.encode()
        last = max(
            (
                e
                for e in part_elements(archive, sheet, data, _BEFORE_NOTES.split())
                if len(e.parents) == 1
            ),
            key=lambda e: e.end,
        )
        # The prefix is declared here, as not every program's sheets have it.
        text = f'<{last.prefix}legacyDrawing xmlns:r="{namespace(archive, parts)}" r:id="{new}"/>'
        parts[sheet] = spliced(data, [Edit(last.end, last.end, text.encode())])
    drawn = part_now(archive, parts, boxes)
    # The boxes of old programs are not always well-formed: they are added to as a text.
    ids = [int(n) for n in re.findall(rb'id="_x0000_s(\d+)"', drawn)]
    first = max([1024, *ids]) + 1
    shapes = "".join(_box(first + n, cell) for n, cell in enumerate(cells))
    if b"_x0000_t202" not in drawn:
        shapes = _BOX_TYPE.replace("<v:shapetype", f"<v:shapetype{_NAMESPACES}", 1) + shapes
    end = drawn.rindex(b"</")
    parts[boxes] = drawn[:end] + shapes.encode() + drawn[end:]


def _boxes_part(archive: Archive, parts: Parts, sheet: str, named: Element) -> str | None:
    """The part that a sheet's element names by the id of a relation."""
    ids = {v for k, v in named.attributes.items() if k.rpartition(":")[2] == "id"}
    return next((r.part for r in relations(archive, parts, sheet) if r.id in ids), None)


def _box(number: int, cell: Area) -> str:
    """The box of one note, beside its cell, shown when the pointer rests on it."""
    row, column = cell.top - 1, cell.left - 1
    top = max(row - 1, 0)
    anchor = f"{column + 1}, 15, {top}, 10, {column + 1 + _WIDE}, 15, {top + 8}, 4"
    return (
        f'<v:shape{_NAMESPACES} id="_x0000_s{number}" type="#_x0000_t202" '
        'style="position:absolute;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">'
        '<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/>'
        '<v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto">'
        '<div style="text-align:left"></div></v:textbox><x:ClientData ObjectType="Note">'
        f"<x:MoveWithCells/><x:SizeWithCells/><x:Anchor>{anchor}</x:Anchor>"
        f"<x:AutoFill>False</x:AutoFill><x:Row>{row}</x:Row><x:Column>{column}</x:Column>"
        "</x:ClientData></v:shape>"
    )
