"""Ordinary spreadsheet expressions, evaluated by IronCalc in a process that can be killed.

The engine sees only the expression and the cells it names, never a book. It is started on
first need, answers one request at a time, and is replaced when it crashes or takes too long.
"""

from __future__ import annotations

import atexit
import contextlib
import json
import queue
import subprocess
import sys
import threading
from collections.abc import Mapping, Sequence
from typing import IO, Any

from workbook_tools.books.engine_process import SCRATCH
from workbook_tools.catalog import CellError

SECONDS_FOR_ONE = 10.0

# (sheet title, row, column) of a cell.
CellKey = tuple[str, int, int]


class EngineError(Exception):
    """The engine gave no result: it does not know the expression, or it crashed on it."""


class _Worker:
    """A running engine process, with a thread that listens so that waiting can end."""

    def __init__(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-I", "-m", "workbook_tools.books.engine_process"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
        )
        self.answers: queue.Queue[str] = queue.Queue()
        threading.Thread(target=self._listen, args=(self.process.stdout,), daemon=True).start()

    def _listen(self, stream: IO[str]) -> None:
        for line in stream:
            self.answers.put(line)
        self.answers.put("")

    def ask(self, request: str) -> str:
        """One answer line, "" when the process ended or time ran out."""
        assert self.process.stdin is not None
        try:
            self.process.stdin.write(request + "\n")
            self.process.stdin.flush()
            return self.answers.get(timeout=SECONDS_FOR_ONE)
        except (OSError, queue.Empty):
            return ""

    def stop(self) -> None:
        """End the process, whatever it is doing."""
        self.process.kill()
        with contextlib.suppress(OSError):
            if self.process.stdin:
                self.process.stdin.close()
        self.process.wait()


_running: list[_Worker] = []


def _stop_all() -> None:
    while _running:
        _running.pop().stop()


atexit.register(_stop_all)


# What an expression of several rows gives that is evaluated together with others.
NO_ROOM = CellError("#SPILL!")


def evaluate(expression: str, cells: Mapping[CellKey, object]) -> object:
    """The value of a spreadsheet expression.

    expression: without "=", in file style (English names, comma between arguments), each
    reference with its sheet; cells: the values of the cells it names, by (sheet, row,
    column). Returns a number, text, bool, CellError, or rows of them. Raises EngineError
    where the engine cannot say.
    """
    (value,) = _ask(cells, {(SCRATCH, 1, 1): expression})
    if isinstance(value, EngineError):
        raise value
    return value


def evaluate_together(
    asked: Sequence[tuple[str, Mapping[CellKey, object]]],
) -> list[object]:
    """The values of many expressions about cells of one book, each as for `evaluate`.

    asked: each expression with the values of the cells it names; a cell has the same value in
    all of them. Returns an EngineError in place of a value that the engine cannot tell, and
    NO_ROOM in place of several rows. Raises EngineError where the engine was lost altogether.
    """
    cells = {key: value for _, named in asked for key, value in named.items()}
    formulas = {(SCRATCH, row, 1): text for row, (text, _) in enumerate(asked, 1)}
    return _ask(cells, formulas)


def evaluate_formulas(
    cells: Mapping[CellKey, object], formulas: Mapping[CellKey, str]
) -> dict[CellKey, object]:
    """The values of formulas that refer to one another and to cells with known values.

    cells, formulas: by (sheet, row, column); formulas as for `evaluate`. Returns a value for
    each formula, an EngineError in place of one that the engine cannot tell. Raises
    EngineError where the engine was lost altogether.
    """
    return dict(zip(formulas, _ask(cells, formulas), strict=True))


def _ask(cells: Mapping[CellKey, object], formulas: Mapping[CellKey, str]) -> list[object]:
    request = json.dumps(
        {
            "sheets": list(dict.fromkeys(title for title, *_ in [*cells, *formulas])),
            "cells": [
                [*key, {"error": v.text} if isinstance(v, CellError) else v]
                for key, v in cells.items()
                if v is not None and isinstance(v, (bool, int, float, str, CellError))
            ],
            "formulas": [[*key, text] for key, text in formulas.items()],
        }
    )
    if not _running:
        _running.append(_Worker())
    line = _running[0].ask(request)
    if not line:
        _stop_all()
        raise EngineError("it took the calculation engine too long, or stopped it")
    answer: dict[str, Any] = json.loads(line)
    if "failed" in answer:
        raise EngineError(answer["failed"])
    return [_received(value) for value in answer["values"]]


def _received(value: Any) -> object:
    if isinstance(value, list):
        rows = tuple(tuple(_received(cell) for cell in row) for row in value)
        return rows[0][0] if len(rows) == 1 and len(rows[0]) == 1 else rows
    if isinstance(value, dict):
        return EngineError(value["failed"]) if "failed" in value else CellError(value["error"])
    return value
