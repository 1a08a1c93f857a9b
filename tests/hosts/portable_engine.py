"""A spreadsheet engine in a process of its own, which evaluates calls of defined names.

IronCalc can hang or crash, so that its process can be killed; it knows the book only.
"""

from __future__ import annotations

import multiprocessing

import ironcalc

SECONDS = 60
RESULTS = 200  # the column of the results

_models = {}


def _place(row, column, rows):
    first = f"{ironcalc.column_name_from_number(column)}{row}"
    last_column = ironcalc.column_name_from_number(column + len(rows[0]) - 1)
    last = f"{last_column}{row + len(rows) - 1}"
    return first if first == last else f"{first}:{last}"


def _put(model, row, column, value):
    if isinstance(value, bool):
        model.update_cell_with_bool(0, row, column, value)
    elif isinstance(value, (int, float)):
        model.update_cell_with_number(0, row, column, float(value))
    elif isinstance(value, str) and value.startswith("="):
        model.update_cell_with_formula(0, row, column, value)
    elif isinstance(value, str):
        model.update_cell_with_text(0, row, column, value)


def evaluate(book, name, calls, shape):
    """Results of calls of a name, each a value, or rows of them where a shape is given.

    An argument is a cell's content or rows of them. None is an empty cell, ... an omitted
    argument, a text starting with "=" a formula. With a shape, every call is an array formula.
    """
    if book not in _models:
        _models[book] = ironcalc.load_from_xlsx(str(book), "en", "UTC", "en")
    model = _models[book]
    places, row = [], 1
    for arguments in calls:
        height, column, texts = (shape or (1, 1))[0], 1, []
        for value in arguments:
            if value is ...:
                texts.append("")
                continue
            rows = value if isinstance(value, tuple) else ((value,),)
            for r, line in enumerate(rows):
                for c, cell in enumerate(line):
                    _put(model, row + r, column + c, cell)
            texts.append(_place(row, column, rows))
            column += len(rows[0])
            height = max(height, len(rows))
        formula = f"={name}({','.join(texts)})"
        if shape:
            model.set_user_array_formula(0, row, RESULTS, shape[1], shape[0], formula)
        else:
            model.update_cell_with_formula(0, row, RESULTS, formula)
        places.append(row)
        row += height
    model.evaluate()
    height, width = shape or (1, 1)
    results = [
        tuple(
            tuple(model.get_cell_value(0, row + r, RESULTS + c) for c in range(width))
            for r in range(height)
        )
        for row in places
    ]
    model.delete_rows(0, 1, row)
    return results if shape else [rows[0][0] for rows in results]


class Engine:
    """The process. `start` sends calls and gives what collects their results, which raises
    multiprocessing.TimeoutError where the engine does not answer."""

    def __init__(self, book):
        self.book = book
        self.pool = multiprocessing.get_context("spawn").Pool(1)

    def start(self, name, calls, shape=None):
        pending = self.pool.apply_async(evaluate, (self.book, name, calls, shape))
        return lambda: pending.get(SECONDS)

    def calls(self, name, calls, shape=None):
        return self.start(name, calls, shape)()

    def stop(self):
        self.pool.terminate()
        self.pool.join()
