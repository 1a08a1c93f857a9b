"""What cells are called is kept for later books, and is what finding it anew gives."""

import random
from collections import defaultdict
from dataclasses import replace
from pathlib import Path

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.labels import kept_labels
from workbook_tools.labels.cell_kinds import MOST_LETTERS
from workbook_tools.labels.kept_labels import SheetLabels
from workbook_tools.labels.nearest_text import find_label, look_of

EXAMPLES = Path(__file__).parents[2] / "example_books"
SHEETS = [
    sheet
    for path in sorted(EXAMPLES.glob("*.xlsx"))
    for sheet in read_cells(path).sheets
    if 0 < len(sheet.cells) < 900
]


def another_job(sheet, pick):
    """A sheet of the same form: other sizes, and texts of all books in place of its own."""
    recounted = pick.random() < 0.2
    alike = defaultdict(list)
    for one in SHEETS:
        for *_, text in one.texts:
            alike[look_of(text)].append(text)
    cells = {}
    for at, cell in sheet.cells.items():
        value = cell.value
        if isinstance(value, float) and not value.is_integer():
            value = value + pick.choice([0, 1e-3, 1e-5])
        elif isinstance(value, int) and recounted and pick.random() < 0.1:
            value = pick.randint(1, 40)
        elif isinstance(value, str) and len(value) <= MOST_LETTERS and pick.random() < 0.3:
            value = pick.choice(alike[look_of(value)] or [value])
        cells[at] = cell._replace(value=value)
    return replace(sheet, cells=cells)


@pytest.mark.parametrize("seed", range(3))
def test_every_cell_of_a_later_book_is_called_as_if_it_were_the_first(seed):
    kept_labels._kept_of.cache_clear()
    pick = random.Random(seed)
    for sheet in SHEETS:
        for _ in range(4):
            other = another_job(sheet, pick)
            labels = SheetLabels(other)
            places = [*other.cells, (1, 1), (3, 30)]
            pick.shuffle(places)
            first = replace(other)
            for at in places:
                anew = find_label(first, *at)
                assert labels.label(*at) == anew, (other.title, at)
    assert kept_labels._kept_of.cache_info().hits > len(SHEETS) // 2
