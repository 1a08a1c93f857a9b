"""What the engine says of expressions: each asked once, and many in one go.

One question costs far more than the expression in it, so a book's formulas are gone through
first and what they would ask is gathered. What waits for an answer is gone through again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import islice

from workbook_tools.books.engine import (
    NO_ROOM,
    CellKey,
    EngineError,
    evaluate,
    evaluate_together,
)

Cells = Mapping[CellKey, object]
_Key = tuple[object, ...]

# So few are no slower asked one by one, as a chain of cells has to be.
_FEWEST = 4
# So many at once, that no question takes the engine long.
_MOST_AT_ONCE = 2_000
_MOST_CELLS = 100_000


class NotYet(BaseException):
    """An answer is still to be asked for; no error, so that nothing takes it for one."""


@dataclass
class Answers:
    """The answers for one book; an answer depends on the expression and the values in it alone."""

    _known: dict[_Key, object] = field(default_factory=dict)
    _gathered: dict[_Key, tuple[str, Cells]] | None = None

    def value(self, expression: str, cells: Cells) -> object:
        """The value of an expression, as `engine.evaluate` gives it.

        Raises EngineError as it does, and NotYet while expressions are gathered.
        """
        key = _key(expression, cells)
        if key not in self._known:
            if self._gathered is not None:
                self._gathered[key] = expression, cells
                raise NotYet
            try:
                self._known[key] = evaluate(expression, cells)
            except EngineError as error:
                self._known[key] = error
        found = self._known[key]
        if isinstance(found, EngineError):
            raise found
        return found

    @contextmanager
    def gathering(self) -> Iterator[None]:
        """Gather what is asked inside, and have it answered in the end."""
        self._gathered = {}
        try:
            yield
            gathered = self._gathered
        finally:
            self._gathered = None
        if len(gathered) >= _FEWEST:
            for some in _at_once(gathered.items()):
                self._ask(some)

    def _ask(self, asked: Mapping[_Key, tuple[str, Cells]]) -> None:
        try:
            found = evaluate_together(list(asked.values()))
        except EngineError:
            return  # One of them is too much for the engine: each is asked alone.
        for key, value in zip(asked, found, strict=True):
            if value != NO_ROOM:
                self._known[key] = value


def _key(expression: str, cells: Cells) -> _Key:
    """What an answer depends on. The areas of an expression say whose values they are."""
    values = tuple(cells.values())
    # TRUE is not 1, which Python takes for the same.
    return expression, values, tuple(map(type, values))


def _at_once(
    gathered: Iterable[tuple[_Key, tuple[str, Cells]]],
) -> Iterator[dict[_Key, tuple[str, Cells]]]:
    """The expressions in portions that the engine answers in a moment."""
    left = iter(gathered)
    while some := dict(_portion(islice(left, _MOST_AT_ONCE))):
        yield some


def _portion(
    items: Iterable[tuple[_Key, tuple[str, Cells]]],
) -> Iterator[tuple[_Key, tuple[str, Cells]]]:
    count = 0
    for key, (expression, cells) in items:
        yield key, (expression, cells)
        count += len(cells)
        if count > _MOST_CELLS:
            return
