"""The sheet ENG, names and calls in an OpenDocument spreadsheet (.ods): changes of content.xml.

The format is OASIS OpenDocument 1.2, part 1 (tables, named ranges) and part 2 (OpenFormula).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from openpyxl.formula.tokenizer import Token, Tokenizer

from workbook_tools.annotate.replaced import Replaced
from workbook_tools.annotate.rows import TITLE, WIDTHS, Formula, Row, Text
from workbook_tools.formulas.references import (
    Place,
    always_quoted,
    read_reference,
    unquoted,
)
from workbook_tools.hosts.archive import Archive, part_elements
from workbook_tools.hosts.markup import (
    Edit,
    Element,
    attribute,
    attribute_value,
    escaped,
    new_text,
    spliced,
)
from workbook_tools.hosts.relations import Parts, part_now, within

_OASIS = "urn:oasis:names:tc:opendocument:xmlns"
_FORMULAS = f'xmlns:of="{_OASIS}:of:1.2"'
_NAMESPACES = (
    f' xmlns:table="{_OASIS}:table:1.0" xmlns:office="{_OASIS}:office:1.0"'
    f' xmlns:text="{_OASIS}:text:1.0" {_FORMULAS}'
)
_STYLES = f' xmlns:style="{_OASIS}:style:1.0" xmlns:fo="{_OASIS}:xsl-fo-compatible:1.0"'
_BOLD, _COLUMN = "workbook-tools-bold", "workbook-tools-column"
_NUMBERS = range(1, len(WIDTHS) + 1)
_WIDE = 0.075  # inches that a character takes


def add_sheet(archive: Archive, parts: Parts, rows: Sequence[Row]) -> None:
    """Put the sheet last into a book that has none of its name."""
    data = part_now(archive, parts, archive.workbook)
    found = part_elements(archive, archive.workbook, data, ("automatic-styles", "table"))
    last = _of_book(found, "table")[-1]
    styles = [e for e in found if e.name == "automatic-styles"]
    edits = [Edit(last.end, last.end, _table(rows, styled=bool(styles)).encode())]
    edits += [within(data, element, _style_texts()) for element in styles[:1]]
    parts[archive.workbook] = spliced(data, edits)


def _of_book(found: Sequence[Element], name: str) -> list[Element]:
    """The elements of a name that are the book's own, not a chart's or a cell's."""
    return [e for e in found if e.name == name and e.parents[-1:] == ("spreadsheet",)]


def _style_texts() -> str:
    columns = "".join(
        f'<style:style{_STYLES} style:name="{_COLUMN}{n}" style:family="table-column">'
        f'<style:table-column-properties style:column-width="{width * _WIDE:.2f}in"/>'
        "</style:style>"
        for n, width in zip(_NUMBERS, WIDTHS, strict=True)
    )
    return (
        f'{columns}<style:style{_STYLES} style:name="{_BOLD}" style:family="table-cell">'
        '<style:text-properties fo:font-weight="bold"/></style:style>'
    )


def _table(rows: Sequence[Row], *, styled: bool) -> str:
    columns = "".join(
        f'<table:table-column table:style-name="{_COLUMN}{n}"/>'
        if styled
        else "<table:table-column/>"
        for n in range(1, len(WIDTHS) + 1)
    )
    lines = "".join(
        f"<table:table-row>{''.join(_cell(cell, styled) for cell in row or (None,))}"
        "</table:table-row>"
        for row in rows
    )
    return f'<table:table{_NAMESPACES} table:name="{TITLE}">{columns}{lines}</table:table>'


def _cell(cell: Text | Formula | None, styled: bool) -> str:
    if cell is None:
        return "<table:table-cell/>"
    if isinstance(cell, Text):
        style = f' table:style-name="{_BOLD}"' if cell.bold and styled else ""
        return _with_text(f'{style} office:value-type="string"', cell.text)
    told = attribute("table:formula", f"of:={open_formula(cell.formula)}")
    if isinstance(cell.value, str):
        return _with_text(f'{told} office:value-type="string"', cell.value)
    kind = f' office:value-type="float" office:value="{cell.value!r}"'
    return _with_text(told + kind, f"{cell.value:.6g}")


def _with_text(attributes: str, text: str) -> str:
    return f"<table:table-cell{attributes}><text:p>{escaped(text)}</text:p></table:table-cell>"


def open_formula(formula: str) -> str:
    """A formula as OpenFormula spells it: 'Build sheet'!B9,C9 as [$'Build sheet'.B9];[.C9]."""
    text = ""
    for token in Tokenizer("=" + formula).items:
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            text += _reference(token.value)
        elif token.type == Token.SEP:
            text += "|" if token.subtype == Token.ROW else ";"
        else:
            text += token.value
    return text


def _reference(text: str) -> str:
    # A name stands as it is.
    return f"[{_address(text)}]" if read_reference(text) else text


def _address(text: str) -> str:
    title, mark, cells = text.rpartition("!")
    first, colon, last = cells.partition(":")
    sheet = f"${always_quoted(unquoted(title))}" if mark else ""
    return f"{sheet}.{first}" + (f":.{last}" if colon else "")


def add_names(archive: Archive, parts: Parts, names: Mapping[str, str]) -> None:
    """Give cells names. names: each with its cell as .xlsx files have it."""
    data = part_now(archive, parts, archive.workbook)
    found = part_elements(archive, archive.workbook, data, ("table", "named-expressions"))
    text = "".join(
        f"<table:named-range{_NAMESPACES}{attribute('table:name', name)}"
        f"{attribute('table:base-cell-address', _address(cell))}"
        f"{attribute('table:cell-range-address', _address(cell))}/>"
        for name, cell in names.items()
    )
    there = _of_book(found, "named-expressions")
    if there:
        edit = within(data, there[0], text)
    else:
        end = _of_book(found, "table")[-1].end
        listed = f"<table:named-expressions{_NAMESPACES}>{text}</table:named-expressions>"
        edit = Edit(end, end, listed.encode())
    parts[archive.workbook] = spliced(data, [edit])


def replace_formulas(
    archive: Archive, parts: Parts, wanted: Sequence[Replaced]
) -> tuple[Replaced, ...]:
    """Write calls in place of formulas, and return those that could be written.

    Not those of arrays, nor one that stands in the file once for several cells.
    """
    data = part_now(archive, parts, archive.workbook)
    new = {one.place: one for one in wanted}
    edits: dict[Place, Edit] = {}
    # The prefix of formulas has to be known where they stand.
    known = _FORMULAS.encode() in data
    for place, element in _single_cells(archive, data):
        name = next((n for n in element.attributes if n.rpartition(":")[2] == "formula"), "")
        value = attribute_value(data, element, name) if name and known else None
        if place in new and value is not None:
            call = f"of:={open_formula(new[place].new[1:])}"
            edits[place] = new_text(data, value, call)
    parts[archive.workbook] = spliced(data, edits.values())
    return tuple(one for one in wanted if one.place in edits)


def _single_cells(archive: Archive, data: bytes) -> Iterator[tuple[Place, Element]]:
    """Each cell that an element stands for alone, with its place; no array's."""
    wanted = ("table", "table-row", "table-cell", "covered-table-cell")
    title, row, column, rows_alike = "", 1, 1, 0
    for element in part_elements(archive, archive.workbook, data, wanted):
        said = {name.rpartition(":")[2]: text for name, text in element.attributes.items()}
        if element.name == "table":
            title, row, rows_alike = said.get("name", ""), 1, 0
        elif element.name == "table-row":
            row, column = row + rows_alike, 1
            rows_alike = int(said.get("number-rows-repeated", "1"))
        else:
            alike = int(said.get("number-columns-repeated", "1"))
            if rows_alike == alike == 1 and "number-matrix-columns-spanned" not in said:
                yield Place.at(title, row, column), element
            column += alike
