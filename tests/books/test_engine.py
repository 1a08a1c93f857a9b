"""The calculation engine runs in a process of its own that can be killed and replaced."""

import signal
import sys

import pytest

from workbook_tools.books import engine
from workbook_tools.catalog import CellError


def test_expressions_with_cells_of_several_sheets():
    cells = {("Deck", 1, 1): 2.0, ("Left, bank", 2, 2): 3.0, ("Deck", 3, 1): "x"}
    assert engine.evaluate("Deck!A1*2+'Left, bank'!B2", cells) == 7.0
    assert engine.evaluate('IF(Deck!A1>1,Deck!A3&"y",0)', cells) == "xy"
    assert engine.evaluate("Deck!A1>1", cells) is True


def test_an_expression_with_many_results_gives_rows():
    cells = {("S", 1, 1): 2.0, ("S", 2, 1): 3.0}
    assert engine.evaluate("S!A1:A2*2", cells) == ((4.0,), (6.0,))


def test_formulas_follow_one_another_whatever_their_order():
    cells = {("S", 1, 1): 2.0}
    formulas = {
        ("S", 1, 3): "S!B1+1",
        ("S", 1, 2): "S!A1*2",
        ("S", 2, 1): "S!A3",
        ("S", 3, 1): "S!A2",
    }
    found = engine.evaluate_formulas(cells, formulas)
    assert (found["S", 1, 3], found["S", 1, 2]) == (5.0, 4.0)
    assert "circle" in str(found["S", 2, 1])


def test_errors_are_values_and_unknown_functions_are_not():
    assert engine.evaluate("S!A1+1", {("S", 1, 1): CellError("#DIV/0!")}) == CellError("#DIV/0!")
    with pytest.raises(engine.EngineError, match="does not know"):
        engine.evaluate("GETPIVOTDATA_X(1)", {})


@pytest.mark.skipif(sys.platform == "win32", reason="no signal stops a process there")
def test_a_stuck_worker_is_replaced(monkeypatch):
    assert engine.evaluate("1+1", {}) == 2
    engine._running[0].process.send_signal(signal.SIGSTOP)
    monkeypatch.setattr(engine, "SECONDS_FOR_ONE", 0.2)
    with pytest.raises(engine.EngineError, match="too long"):
        engine.evaluate("1+1", {})
    monkeypatch.undo()
    assert engine.evaluate("1+1", {}) == 2


def test_a_worker_that_died_costs_one_answer():
    assert engine.evaluate("1+1", {}) == 2
    engine._running[0].process.kill()
    engine._running[0].process.wait()
    with pytest.raises(engine.EngineError, match="stopped it"):
        engine.evaluate("1+1", {})
    assert engine.evaluate("2+2", {}) == 4


def test_expressions_asked_together_give_what_each_gives_alone():
    cells = {("S", 1, 1): 2.0, ("S", 2, 1): 3.0, ("S", 3, 1): CellError("#DIV/0!")}
    alone = [
        "S!A1+S!A2", "S!A1>1", '"x"&S!A1', "S!A3", "NO_SUCH_FUNCTION(S!A1)", "{1,2,3}*S!A1",
        "SUM(S!A1:A2)", "S!A2",
    ]  # fmt: skip
    together = engine.evaluate_together([(text, cells) for text in alone])
    for text, found in zip(alone, together, strict=True):
        if isinstance(found, engine.EngineError):
            with pytest.raises(engine.EngineError, match="does not know"):
                engine.evaluate(text, cells)
        else:
            assert found == engine.evaluate(text, cells), text
    assert sum(isinstance(found, engine.EngineError) for found in together) == 1


@pytest.mark.parametrize("place", range(3))
def test_several_rows_have_no_room_beside_other_expressions(place):
    asked = [("1+1", {}), ("2+2", {})]
    asked.insert(place, ("{1;2}", {}))
    found = engine.evaluate_together(asked)
    assert found.pop(place) == engine.NO_ROOM
    assert found == [2.0, 4.0]
