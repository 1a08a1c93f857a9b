"""The sheet ENG of an annotated book, as the part of a workbook that it is."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.annotate.lines import Line
from workbook_tools.hosts.archive import Archive, EditError, part_elements
from workbook_tools.hosts.markup import attribute, escaped, spliced
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

TITLE = "ENG"
_SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
_HEADS = ("Result", "Unit", "By ENG", "In the book", "Compared")
_ABOUT = (
    "Results by ENG functions",
    "Written by workbook-tools annotate. Each call takes the book's own cells.",
    "Without the functions it shows an error; the rest of the book works as it did.",
)
_REPLACED = "Without the functions it shows an error, as do the cells whose formula it replaced."
_FIRST = 6  # the row of the first result
_WIDTHS = (36, 8, 12, 12, 10)


def _sheet_xml(lines: Sequence[Line], main: str, *, replaced: bool) -> bytes:
    """The sheet with a line for each result. main: the namespace of the book's sheets."""
    about = (*_ABOUT[:-1], _REPLACED) if replaced else _ABOUT
    rows = [_row(n, _text(f"A{n}", text, bold=n == 1)) for n, text in enumerate(about, 1)]
    at = _FIRST - 1
    heads = zip("ABCDE", _HEADS, strict=True)
    rows.append(_row(at, "".join(_text(f"{c}{at}", head, bold=True) for c, head in heads)))
    rows += [_row(n, _line(n, line)) for n, line in enumerate(lines, _FIRST)]
    columns = "".join(
        f'<col min="{n}" max="{n}" width="{width}" customWidth="1"/>'
        for n, width in enumerate(_WIDTHS, 1)
    )
    return (
        '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
        f'<worksheet xmlns="{main}"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>'
        f"<cols>{columns}</cols><sheetData>{''.join(rows)}</sheetData>"
        '<pageSetup fitToHeight="0"/></worksheet>'
    ).encode()


def _row(number: int, cells: str) -> str:
    return f'<row r="{number}">{cells}</row>'


def _text(address: str, text: str, *, bold: bool = False) -> str:
    words = f'<t xml:space="preserve">{escaped(text)}</t>'
    # Bold by the text itself: the book's formats stay as they are.
    inside = f'<r><rPr><b/><sz val="11"/><rFont val="Calibri"/></rPr>{words}</r>' if bold else words
    return f'<c r="{address}" t="inlineStr"><is>{inside}</is></c>'


def _formula(address: str, formula: str, value: float | str) -> str:
    kind = ' t="str"' if isinstance(value, str) else ""
    said = escaped(value) if isinstance(value, str) else repr(value)
    return f'<c r="{address}"{kind}><f>{escaped(formula)}</f><v>{said}</v></c>'


def _line(n: int, line: Line) -> str:
    cells = _text(f"A{n}", line.label)
    if line.unit:
        cells += _text(f"B{n}", line.unit)
    cells += _formula(f"C{n}", line.call, line.value)
    if line.said is None:
        return cells
    test = f'IF(ABS(C{n}-D{n})<={line.slack:.6g},"agrees","differs")'
    told = "agrees" if line.agrees else "differs"
    return cells + _formula(f"D{n}", line.figure, line.said) + _formula(f"E{n}", test, told)


def _formula_cells(lines: Sequence[Line]) -> list[str]:
    """The addresses of the sheet's formulas."""
    return [
        f"{column}{n}"
        for n, line in enumerate(lines, _FIRST)
        for column in ("C" if line.said is None else "CDE")
    ]


def add_sheet(
    archive: Archive, parts: Parts, lines: Sequence[Line], *, replaced: bool = False
) -> None:
    """Put the sheet last into the book. Raises EditError where it has one of that name.

    replaced: whether calls stand in the book's own cells too.
    """
    titles = sheet_parts(archive, parts)
    if any(title.upper() == TITLE for title in titles):
        raise EditError(
            f"{archive.path}: has a sheet {TITLE} already. Annotate the book as it was without "
            "that sheet, or give that sheet another name."
        )
    part, new = add_part(
        archive, parts, archive.workbook, "worksheet", "xl/worksheets/sheet{}.xml", _SHEET_TYPE
    )
    parts[part] = _sheet_xml(lines, main_namespace(archive, parts), replaced=replaced)
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
    _extend_chain(archive, parts, number, _formula_cells(lines))


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
