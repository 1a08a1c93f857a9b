"""A spreadsheet engine in a process of its own, which evaluates calls of defined names.

IronCalc can hang or crash, so the process can be killed; it knows the book's path only.
"""

from __future__ import annotations

import multiprocessing

import ironcalc

SECONDS = 60


def reference(row, column, height=1, width=1):
    first = f"{ironcalc.column_name_from_number(column)}{row}"
    last = f"{ironcalc.column_name_from_number(column + width - 1)}{row + height - 1}"
    return first if (height, width) == (1, 1) else f"{first}:{last}"


def _put(model, row, column, value):
    if isinstance(value, bool):
        model.update_cell_with_bool(0, row, column, value)
    elif isinstance(value, (int, float)):
        model.update_cell_with_number(0, row, column, float(value))
    elif isinstance(value, str) and value.startswith("="):
        model.update_cell_with_formula(0, row, column, value)
    elif isinstance(value, str):
        model.update_cell_with_text(0, row, column, value)


def evaluate(book, name, calls, shape=(1, 1)):
    """Results of calls of a name; each argument is a cell's content or rows of them.

    None is an empty cell, ... an omitted argument, a text starting with "=" a formula. With a
    shape of more than one cell every call is an array formula, and its result rows.
    """
    model = ironcalc.load_from_xlsx(str(book), "en", "UTC", "en")
    places, row = [], 1
    for arguments in calls:
        height, column, texts = shape[0], 1, []
        for value in arguments:
            if value is ...:
                texts.append("")
                continue
            rows = value if isinstance(value, tuple) else ((value,),)
            for r, line in enumerate(rows):
                for c, cell in enumerate(line):
                    _put(model, row + r, column + c, cell)
            texts.append(reference(row, column, len(rows), len(rows[0])))
            column += len(rows[0])
            height = max(height, len(rows))
        formula = f"={name}({','.join(texts)})"
        if shape == (1, 1):
            model.update_cell_with_formula(0, row, 200, formula)
        else:
            model.set_user_array_formula(0, row, 200, shape[1], shape[0], formula)
        places.append(row)
        row += height
    model.evaluate()
    if shape == (1, 1):
        return [model.get_cell_value(0, row, 200) for row in places]
    return [
        tuple(
            tuple(model.get_cell_value(0, row + r, 200 + c) for c in range(shape[1]))
            for r in range(shape[0])
        )
        for row in places
    ]


class Engine:
    """The process; `calls` raises multiprocessing.TimeoutError where it does not answer."""

    def __init__(self, book):
        self.book = book
        self.pool = multiprocessing.get_context("spawn").Pool(1)

    def calls(self, name, calls, shape=(1, 1)):
        return self.pool.apply_async(evaluate, (self.book, name, calls, shape)).get(SECONDS)

    def stop(self):
        self.pool.terminate()
        self.pool.join()
