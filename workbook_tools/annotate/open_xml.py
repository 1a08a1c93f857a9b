"""The sheet ENG of an annotated .xlsx or .xlsm, as the part of a workbook that it is."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.annotate.rows import TITLE, WIDTHS, Formula, Row, Text, formula_cells
from workbook_tools.hosts.archive import Archive, part_elements
from workbook_tools.hosts.markup import attribute, escaped, spliced
from workbook_tools.hosts.relations import (
    Parts,
    add_part,
    main_namespace,
    namespace,
    part_now,
    relations,
    within,
)

_SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"


def _sheet_xml(rows: Sequence[Row], main: str) -> bytes:
    """The sheet as a part. main: the namespace of the book's sheets."""
    columns = "".join(
        f'<col min="{n}" max="{n}" width="{width}" customWidth="1"/>'
        for n, width in enumerate(WIDTHS, 1)
    )
    data = "".join(_row(n, row) for n, row in enumerate(rows, 1) if row)
    return (
        '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
        f'<worksheet xmlns="{main}"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>'
        f"<cols>{columns}</cols><sheetData>{data}</sheetData>"
        '<pageSetup fitToHeight="0"/></worksheet>'
    ).encode()


def _row(number: int, row: Row) -> str:
    cells = "".join(
        _text(f"{letter}{number}", cell)
        if isinstance(cell, Text)
        else _formula(f"{letter}{number}", cell)
        for letter, cell in zip("ABCDE", row, strict=False)
        if cell is not None
    )
    return f'<row r="{number}">{cells}</row>'


def _text(address: str, cell: Text) -> str:
    words = f'<t xml:space="preserve">{escaped(cell.text)}</t>'
    # Bold by the text itself: the book's formats stay as they are.
    bold = f'<r><rPr><b/><sz val="11"/><rFont val="Calibri"/></rPr>{words}</r>'
    return f'<c r="{address}" t="inlineStr"><is>{bold if cell.bold else words}</is></c>'


def _formula(address: str, cell: Formula) -> str:
    value = cell.value
    kind = ' t="str"' if isinstance(value, str) else ""
    said = escaped(value) if isinstance(value, str) else repr(value)
    return f'<c r="{address}"{kind}><f>{escaped(cell.formula)}</f><v>{said}</v></c>'


def add_sheet(archive: Archive, parts: Parts, rows: Sequence[Row]) -> None:
    """Put the sheet last into a book that has none of its name."""
    part, new = add_part(
        archive, parts, archive.workbook, "worksheet", "xl/worksheets/sheet{}.xml", _SHEET_TYPE
    )
    parts[part] = _sheet_xml(rows, main_namespace(archive, parts))
    data = part_now(archive, parts, archive.workbook)
    found = part_elements(archive, archive.workbook, data, ("sheets", "sheet"))
    [listed] = [e for e in found if e.name == "sheets"]
    ids = [int(e.attributes.get("sheetId", "0")) for e in found if e.name == "sheet"]
    number = max(ids) + 1
    told = f"{attribute('name', TITLE)}{attribute('sheetId', str(number))}"
    text = (
        f'<{listed.prefix}sheet xmlns:r="{namespace(archive, parts)}"{told}'
        f"{attribute('r:id', new)}/>"
    )
    parts[archive.workbook] = spliced(data, [within(data, listed, text)])
    _extend_chain(archive, parts, number, tuple(formula_cells(rows)))


def _extend_chain(archive: Archive, parts: Parts, sheet: int, cells: Sequence[str]) -> None:
    """Add the new formulas to the order of calculation, where the book keeps one.

    Excel takes a list that lacks some for damage.
    """
    linked = relations(archive, parts, archive.workbook)
    chain = next((r.part for r in linked if r.kind == "calcChain"), None)
    if chain is None or not cells:
        return
    data = part_now(archive, parts, chain)
    [root] = part_elements(archive, chain, data, ("calcChain",))
    text = "".join(f'<{root.prefix}c r="{cell}" i="{sheet}"/>' for cell in cells)
    parts[chain] = spliced(data, [within(data, root, text)])
