"""The calculation engine runs in a process of its own that can be killed and replaced."""

import pytest

from workbook_tools.books import engine
from workbook_tools.catalog import CellError


def test_expressions_with_cells_of_several_sheets():
    cells = {("Deck", 1, 1): 2.0, ("Left, bank", 2, 2): 3.0, ("Deck", 3, 1): "x"}
    assert engine.evaluate("A1*2+'Left, bank'!B2", "Deck", cells) == 7.0
    assert engine.evaluate('IF(A1>1,A3&"y",0)', "Deck", cells) == "xy"
    assert engine.evaluate("A1>1", "Deck", cells) is True


def test_errors_are_values_and_unknown_functions_are_not():
    assert engine.evaluate("A1+1", "S", {("S", 1, 1): CellError("#DIV/0!")}) == CellError("#DIV/0!")
    with pytest.raises(engine.EngineError, match="does not know"):
        engine.evaluate("GETPIVOTDATA_X(A1)", "S", {})


def test_a_stuck_worker_is_replaced(monkeypatch):
    monkeypatch.setattr(engine, "SECONDS_FOR_ONE", 0.0)
    with pytest.raises(engine.EngineError, match="too long"):
        engine.evaluate("1+1", "S", {})
    monkeypatch.undo()
    assert engine.evaluate("1+1", "S", {}) == 2


def test_a_worker_that_died_costs_one_answer():
    assert engine.evaluate("1+1", "S", {}) == 2
    engine._running[0].process.kill()
    engine._running[0].process.wait()
    with pytest.raises(engine.EngineError, match="stopped it"):
        engine.evaluate("1+1", "S", {})
    assert engine.evaluate("2+2", "S", {}) == 4
