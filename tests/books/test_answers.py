"""The engine is asked for many formulas at once, and each comes to what it comes to alone."""

from pathlib import Path

import pytest

from workbook_tools.books import answers, engine
from workbook_tools.books.answers import Answers, NotYet
from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.opening import read_cells
from workbook_tools.books.recalculation import Recalculation, formula_cells
from workbook_tools.catalog import ArgumentError

BUILD_BOOK = Path(__file__).parents[2] / "example_books" / "build_book_inch_v8.xlsx"


@pytest.fixture
def questions(monkeypatch):
    """How many formulas each question to the engine held."""
    asked, ask = [], engine._ask

    def counted(cells, formulas):
        asked.append(len(formulas))
        return ask(cells, formulas)

    monkeypatch.setattr(engine, "_ask", counted)
    return asked


def shown(values, sheet, row, column):
    try:
        return values.value(sheet, row, column)
    except (ArgumentError, CannotEvaluate) as error:
        return str(error)


def unsaved(book):
    """A book as a program writes it that does not calculate."""
    sheets = []
    for sheet in book.sheets:
        cells = {at: Cell(None, c.formula) if c.formula else c for at, c in sheet.cells.items()}
        sheets.append(Sheet(sheet.title, cells))
    return OpenBook(book.file_name, book.sha256, tuple(sheets), book.names)


def test_a_filled_build_book_takes_few_questions(questions):
    values = Recalculation(read_cells(BUILD_BOOK))
    called = formula_cells(values.book)
    values.ask_ahead(called)
    # What only waits for cells to be filled in is not asked for.
    assert 0 < sum(questions) < 100
    assert len(questions) < 10
    before = len(questions)
    for sheet, row, _, cell in called:
        values.evaluate(values.parts(cell.formula), sheet, row)
    assert len(questions) == before


def test_a_call_that_waits_for_cells_comes_to_what_the_engine_says():
    guard = "IF(COUNTBLANK(A{0})+COUNTBLANK(B{0}:C{0})=0,ENG.QUENCH(A{0},B{0}),{1})"
    rows = [(0.005, 0.038, 1), (None, 0.038, 1), (0.005, 0.038, ""), (0.005, -1, 1), (0, 0.038, 0)]
    cells = {(r, c): Cell(v) for r, row in enumerate(rows, 1) for c, v in enumerate(row, 1)}
    sheet = Sheet("Deck", {at: cell for at, cell in cells.items() if cell.value is not None})
    values = Recalculation(OpenBook("deck.xlsx", "", (sheet,), {}))

    def of(formula):
        try:
            return values.evaluate(values.parts(formula), sheet)
        except ArgumentError as refused:
            return str(refused)

    told = [of(guard.format(row, '""')) for row in range(1, 6)]
    # Another text behind the call leaves it to the engine.
    asked = [of(guard.format(row, '"" ')) for row in range(1, 6)]
    assert told == asked
    assert told[1:3] == ["", ""]
    assert told[0] == pytest.approx(0.043)


def test_cells_come_to_the_same_asked_at_once_or_one_by_one():
    # Of a book without saved results, where cells hang on one another.
    book = unsaved(read_cells(BUILD_BOOK))
    called = formula_cells(book)[:200]
    ahead, alone = Recalculation(book), Recalculation(book)
    ahead.ask_ahead(called)
    for sheet, row, column, _ in called:
        assert shown(ahead, sheet, row, column) == shown(alone, sheet, row, column)


def test_what_the_engine_cannot_take_at_once_is_asked_one_by_one(questions):
    known = Answers()
    with known.gathering():
        for text in ("1+1", "2+2", "3+3", "4+", "{1;2}"):
            with pytest.raises(NotYet):
                known.value(text, {})
    assert questions == [5]
    assert [known.value(text, {}) for text in ("1+1", "2+2")] == [2.0, 4.0]
    assert known.value("{1;2}", {}) == ((1.0,), (2.0,))


def test_true_is_not_asked_as_one():
    known, at = Answers(), ("S", 1, 1)
    assert known.value('S!A1&""', {at: 1.0}) == "1"
    assert known.value('S!A1&""', {at: True}) == "TRUE"


def test_a_great_many_are_asked_in_portions(questions, monkeypatch):
    monkeypatch.setattr(answers, "_MOST_AT_ONCE", 10)
    known = Answers()
    with known.gathering():
        for n in range(25):
            with pytest.raises(NotYet):
                known.value(f"{n}+1", {})
    assert questions == [10, 10, 5]
    assert [known.value(f"{n}+1", {}) for n in range(25)] == [n + 1 for n in range(25)]
