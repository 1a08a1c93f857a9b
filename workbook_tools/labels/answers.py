"""What a layout answers about numbers: what those of a label or a cell are, of which, in what unit.

    answers = [
      { label = "Dish in crown", is = "dish_volume" },
      { label = "Clr", below = "Mains", sheet = "Crank", is = "main_bearing_clearance" },
      { label = "Ticket no. of the grinder", is = "no reading" },
      { cells = "Crank!F7", is = "main_journal", of = "Main 3", stage = "machined", unit = "mm" },
      { cells = "Crank!C:C", stage = "found" },
    ]

Each says as little as it takes; the rest is found in the book. Of several about one number the one
that names fewer holds: a cell before a row, a row before a label.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, get_args

from workbook_tools.labels.content import is_unit, no_unit
from workbook_tools.labels.named_cells import NamedCells, cells_named, fault_of, lines_named
from workbook_tools.labels.vocabulary import plain, vocabulary, without_unit
from workbook_tools.measurands import Position, all_measurands
from workbook_tools.measurands.position import parse
from workbook_tools.measurands.stage import Stage
from workbook_tools.quantities.nearest import hint, nearest

NO_READING = "no reading"
# What a layout calls the stage of a number that was just measured.
NO_STAGE = "none"
STAGES = tuple(stage or NO_STAGE for stage in get_args(Stage))
# What a layout calls something that there is one of.
THE_ENGINE = "engine"
KEYS = ("label", "below", "sheet", "cells", "is", "of", "stage", "unit")


@dataclass(frozen=True)
class Answer:
    """What a layout says of some numbers.

    label: of those that it is about, below: a heading over them, sheet: where they stand, "" for
    any; cells: those it is about instead of a label's; measurand: what they are, NO_READING, or
    "" where that is not said; parts: which ones they are of, in the order of the cells, () where
    that is not said; stage: None where it is not said; unit: "" where it is not said.
    """

    label: str = ""
    below: str = ""
    sheet: str = ""
    cells: NamedCells | None = None
    measurand: str = ""
    parts: tuple[Position, ...] = ()
    stage: Stage | None = None
    unit: str = ""

    @property
    def narrowness(self) -> int:
        """How few numbers it is about: a larger one holds before a smaller one."""
        if self.cells is None:
            return bool(self.below) + bool(self.sheet)
        return 3 if self.cells.is_line else 4 + (self.cells.count == 1)

    @property
    def about(self) -> tuple[object, ...]:
        """The numbers that it is about, to compare answers by."""
        texts = (plain(self.label), plain(self.below), self.sheet.casefold())
        return (*texts, self.cells)

    def names(self, title: str, label: str, headings: Sequence[str]) -> bool:
        """Whether numbers with this label, below these headings, on this sheet are those."""
        if self.cells is not None or (self.sheet and self.sheet.casefold() != title.casefold()):
            return False
        if self.below and plain(self.below) not in map(plain, headings):
            return False
        words = plain(without_unit(label))
        bare = " ".join(word for word in words.split() if not word.strip("#").isdigit())
        return plain(without_unit(self.label)) in (words, bare)


def read_answers(entries: object) -> Iterator[Answer]:
    """The answers of a layout's list, in its order.

    Raises AnswerError for one that says nothing that can be followed.
    """
    if not isinstance(entries, list):
        raise AnswerError(0, 'expected a list: answers = [ { label = "…", is = "…" }, ]')
    seen: dict[tuple[object, ...], tuple[int, Answer]] = {}
    for number, entry in enumerate(entries, 1):
        try:
            answer = _answer(entry)
        except ValueError as error:
            raise AnswerError(number, str(error)) from None
        first, before = seen.setdefault(answer.about, (number, answer))
        if before.measurand and answer.measurand not in ("", before.measurand):
            told = f"answer {first} says {before.measurand}, this one {answer.measurand}"
            raise AnswerError(number, f"{told}, of the same numbers; keep one")
        yield answer


class AnswerError(ValueError):
    """An answer that cannot be followed: which one of the list, from 1 (0 for all), and why."""

    def __init__(self, number: int, reason: str) -> None:
        super().__init__(reason)
        self.number, self.reason = number, reason


def _answer(entry: object) -> Answer:
    """One entry as an answer. Raises ValueError with the reason."""
    if not isinstance(entry, Mapping):
        raise ValueError(f'expected {{ label = "…", is = "…" }}, got {entry!r}')
    for key, value in entry.items():
        if key not in KEYS:
            raise ValueError(f"{key}: no such key; {hint(key, KEYS)}")
        if not isinstance(value, str) and not (key == "of" and _are_texts(value)):
            raise ValueError(f"{key}: expected a text, got {value!r}")
    if ("label" in entry) == ("cells" in entry):
        raise ValueError("expected label or cells, one of the two")
    if not entry.keys() & {"is", "of", "stage", "unit"}:
        raise ValueError("expected what the numbers are: is, of, stage or unit")
    return Answer(**{f: v for f, v in _fields(entry) if v not in ("", ())})


def _are_texts(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(one, str) for one in value)


def _fields(entry: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    readers: Mapping[str, tuple[str, Callable[[Any], object]]] = {
        "cells": ("cells", _cells),
        "is": ("measurand", _measurand),
        "of": ("parts", lambda v: tuple(map(_part, [v] if isinstance(v, str) else v))),
        "stage": ("stage", _stage),
        "unit": ("unit", _unit),
    }
    for key, value in entry.items():
        field, read = readers.get(key, (key, str))
        yield field, read(value)
    if "label" in entry and not plain(without_unit(entry["label"])):
        raise ValueError(f"label: expected the words beside the numbers, got {entry['label']!r}")


def _cells(text: str) -> NamedCells:
    cells = cells_named(text) or lines_named(text)
    if cells is None:
        raise ValueError(f'cells: expected "Crank!F7", "Crank!F7:F11" or "Crank!F:F", got {text!r}')
    fault = fault_of(cells, text)
    if fault:
        raise ValueError(f"cells: {fault}")
    return cells


def _measurand(text: str) -> str:
    if text.casefold().strip() == NO_READING:
        return NO_READING
    term = vocabulary().term(text)
    if term is None:
        raise ValueError(f"is: {text!r} is not a reading that is known; {named_alike(text)}")
    return term.id


def _part(text: str) -> Position:
    if text.casefold().strip() == THE_ENGINE:
        return Position()
    part = parse(text)
    if part is None:
        raise ValueError(f'of: expected "Cyl 3", "Main 2", "L2" or "{THE_ENGINE}", got {text!r}')
    return part


def _stage(text: str) -> Stage:
    if text not in STAGES:
        raise ValueError(f"stage: expected one of {', '.join(STAGES)}, got {text!r}")
    return next(stage for stage in get_args(Stage) if (stage or NO_STAGE) == text)


def _unit(text: str) -> str:
    if not is_unit(text):
        raise ValueError(f"unit: {text!r} {no_unit(text)}")
    return text


def named_alike(name: str) -> str:
    """The measurand that is spelled most like a name, and where all are listed."""
    near = nearest(name, [m.id for m in all_measurands()], 0.4)
    return f"{f'the nearest is {near}; ' if near else ''}workbook-tools survey --names lists all"
