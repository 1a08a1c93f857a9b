"""The process in which the calculation engine answers: requests come and answers go as lines.

It imports the engine and nothing of the catalog, so that it starts in a moment.
"""

from __future__ import annotations

import contextlib
import json
import sys
from typing import Any

# Where expressions are put: a sheet that no book can have.
SCRATCH = "\u00a0expression\u00a0"


def _answer(request: dict[str, Any]) -> dict[str, Any]:
    """Evaluate one request."""
    import ironcalc

    model = ironcalc.create("book", "en", "UTC", "en")
    sheets = {title: number for number, title in enumerate(request["sheets"])}
    for title, number in sheets.items():
        if number:
            model.add_sheet(title)
        else:
            model.rename_sheet(0, title)
    for title, row, column, value in request["cells"]:
        _put(model, (sheets[title], row, column), value)
    for title, row, column, text in request["formulas"]:
        model.update_cell_with_formula(sheets[title], row, column, "=" + text)
    if len(request["formulas"]) > 1 and SCRATCH in sheets:
        # No expression fills the rows below it, the last as little as the others.
        model.update_cell_with_text(sheets[SCRATCH], len(request["formulas"]) + 1, 1, "end")
    model.evaluate()
    values = []
    alone = len(request["formulas"]) == 1
    for title, row, column, _ in request["formulas"]:
        first = _result(model, sheets[title], row, column)
        whole = title == SCRATCH and not (isinstance(first, dict) and "failed" in first)
        values.append(_spilled(model, sheets[title], row, alone) if whole else first)
    return {"values": values}


def _put(model: Any, spot: tuple[int, int, int], value: Any) -> None:
    """Put a value as it was sent into a cell of the engine's model."""
    if isinstance(value, bool):
        model.update_cell_with_bool(*spot, value)
    elif isinstance(value, (int, float)):
        model.update_cell_with_number(*spot, float(value))
    elif isinstance(value, dict):
        model.update_cell_with_formula(*spot, _raising(value["error"]))
    else:
        model.update_cell_with_text(*spot, value)


def _result(model: Any, sheet: int, row: int, column: int) -> Any:
    """The value of a cell as it is sent back."""
    value = model.get_cell_value(sheet, row, column)
    if not str(model.get_cell_type(sheet, row, column)).endswith("ErrorValue"):
        return value
    if value in ("#NAME?", "#ERROR!", "#N/IMPL!"):
        return {"failed": "it uses a function or a name that the engine does not know"}
    if value == "#CIRC!":
        return {"failed": "the cells refer to each other in a circle"}
    return {"error": str(value)}


def _spilled(model: Any, sheet: int, row: int, alone: bool) -> list[list[Any]]:
    """The rows of values that an expression comes to; only one where it is not alone."""
    width = height = 1
    while model.get_cell_value(sheet, row, width + 1) is not None:
        width += 1
    while alone and model.get_cell_value(sheet, row + height, 1) is not None:
        height += 1
    return [
        [_result(model, sheet, row + down, column) for column in range(1, width + 1)]
        for down in range(height)
    ]


def _raising(error: str) -> str:
    """A formula that gives this error value."""
    known = {"#DIV/0!": "=1/0", "#N/A": "=NA()", "#NUM!": "=SQRT(-1)", "#REF!": '=INDIRECT("")'}
    return known.get(error, '=1+"x"')


def _serve() -> None:
    """Answer requests, one line each, until input ends."""
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (3_000_000_000, 3_000_000_000))
    for line in sys.stdin:
        try:
            answer = _answer(json.loads(line))
        except BaseException as error:
            # The engine's panics are no ordinary exceptions.
            answer = {"failed": f"the engine refused it ({str(error)[:120]})"}
        print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    _serve()
