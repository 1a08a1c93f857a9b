"""Books made on the spot: saved values are put beside formulas, as a program saves them."""

import re
import zipfile

import openpyxl
import pytest
from openpyxl.worksheet.formula import ArrayFormula

from workbook_tools.jobs.read import read_book


@pytest.fixture
def make_book(tmp_path):
    """make_book({"Sheet": [[…], …]}, saved={"Sheet": {"B3": 0.04}}, names={…}) -> path."""

    def make(sheets, saved=None, names=None, file_name="book.xlsx"):
        workbook = openpyxl.Workbook()
        workbook.remove(workbook.active)
        for title, rows in sheets.items():
            sheet = workbook.create_sheet(title)
            for row in rows:
                sheet.append(row)
            for cells in sheet.iter_rows():
                for cell in cells:
                    if isinstance(cell.value, str) and cell.value.startswith("{="):
                        formula, _, area = cell.value[1:].rpartition("} ")
                        sheet[cell.coordinate] = ArrayFormula(area, formula)
        for name, text in (names or {}).items():
            from openpyxl.workbook.defined_name import DefinedName

            workbook.defined_names[name] = DefinedName(name, attr_text=text)
        path = tmp_path / file_name
        workbook.save(path)
        if saved:
            _save_values(path, list(sheets), saved)
        return path

    return make


def _save_values(path, titles, saved):
    """Put results into a book's formula cells."""
    with zipfile.ZipFile(path) as source:
        parts = {item: source.read(item) for item in source.infolist()}
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for item, content in parts.items():
            found = re.fullmatch(r"xl/worksheets/sheet(\d+)\.xml", item.filename)
            if found:
                text = content.decode()
                for address, value in saved.get(titles[int(found[1]) - 1], {}).items():
                    text = _with_value(text, address, value)
                content = text.encode()
            target.writestr(item, content)


def _with_value(text, address, value):
    kind = ""
    if isinstance(value, str):
        kind = ' t="e"' if value.startswith("#") else ' t="str"'
    pattern = rf'<c r="{address}"[^>]*>(<f[^>]*>.*?</f>)<v ?/?>(?:</v>)?</c>'
    changed, count = re.subn(pattern, rf'<c r="{address}"{kind}>\1<v>{value}</v></c>', text)
    assert count == 1, f"no formula at {address}"
    return changed


@pytest.fixture
def records(make_book):
    """The records of a book made on the spot, by address on its first sheet."""

    def read(rows, saved=None, names=None):
        path = make_book({"Sheet": rows}, {"Sheet": saved or {}}, names)
        return {r.place.address: r for r in read_book(path).records}

    return read


@pytest.fixture
def written(make_book):
    """written([…], […]) -> the book with these rows on its first sheet, as read."""
    return lambda *rows: read_book(make_book({"Sheet": rows}))
