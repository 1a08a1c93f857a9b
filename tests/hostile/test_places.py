"""Sheets whose cells and rows do not say where they are (ISO/IEC 29500-1, 18.3.1.4 and 18.3.1.73).

The address is optional; a cell without one stands right of the one before, a row below it.
"""

import random
import re

import pytest
from craft import SHEET, good_book, with_part

from workbook_tools.books.opening import read_cells
from workbook_tools.books.parts import LARGE_PART

COUNT = 20


def cells_of(tmp_path, rows):
    data = re.compile(rb"<sheetData>.*</sheetData>", re.DOTALL)
    path = tmp_path / "book.xlsx"
    made = b"<sheetData>" + rows + b"</sheetData>"
    path.write_bytes(with_part(good_book(), SHEET, lambda xml: data.sub(lambda _: made, xml)))
    return {at: cell.value for at, cell in read_cells(path).sheets[0].cells.items()}


def rows_of(pick, placed):
    """Random rows with blanks, and what stands where; placed: how often an address is told."""
    made, there = [], {}
    for r in range(1, pick.randint(3, 30)):
        cells = []
        for c in range(1, pick.randint(1, 12)):
            # After one that is told, the next ones count on from it.
            at = f' r="{chr(64 + c)}{r}"' if pick.random() < placed else ""
            if pick.random() < 0.5:
                cells.append(f'<c{at} s="1"/>' if pick.random() < 0.5 else f"<c{at}></c>")
            else:
                there[r, c] = pick.randint(1, 999)
                cells.append(f"<c{at}><v>{there[r, c]}</v></c>")
        at = f' r="{r}"' if pick.random() < placed else ""
        made.append(f"<row{at}>{''.join(cells)}</row>" if cells else f"<row{at}/>")
    return "".join(made).encode(), there


@pytest.mark.parametrize("placed", [0, 0.5, 1])
@pytest.mark.parametrize("large", [False, True], ids=["small", "large"])
def test_cells_stand_where_they_are_counted_to(tmp_path, placed, large):
    pick = random.Random(f"{placed} {large} 20261128")
    # Blank rows that make the part one of those that are rid of blanks.
    tail = b'<row r="5000"/>' + b'<row><c s="1"/><c s="1"/></row>' * (LARGE_PART // 30)
    if placed == 1:
        blank = b'<row r="%d"><c r="A%d" s="1"/></row>'
        tail = b"".join(blank % (n, n) for n in range(5_000, 5_000 + LARGE_PART // 30))
    for _ in range(1 if large else COUNT):
        rows, there = rows_of(pick, placed)
        assert cells_of(tmp_path, rows + tail if large else rows) == there


def test_an_attribute_that_only_ends_as_an_address_is_none(tmp_path):
    blank = b'<row xr="1"><c cr="B1" s="1"/><c><v>7</v></c></row>'
    filler = b"<row r='%d'><c r='A%d' s='1'/></row>"
    rows = blank + b"".join(filler % (n, n) for n in range(2, LARGE_PART // 30))
    assert cells_of(tmp_path, rows) == {(1, 2): 7}
