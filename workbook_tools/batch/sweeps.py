"""How often garbage is looked for while books are read."""

from __future__ import annotations

import atexit
import gc
from collections.abc import Iterator
from contextlib import contextmanager

_OBJECTS_BETWEEN_SWEEPS = 300_000


def sweep_seldom() -> None:
    """Look for garbage seldom from now on, in a process that runs this program alone.

    What it loads stays: looking through that again and again takes a tenth of its start. Nor is
    it looked through at the end, when all of it goes: of large books that took half a second.
    """
    gc.set_threshold(_OBJECTS_BETWEEN_SWEEPS)
    atexit.register(gc.freeze)


@contextmanager
def few_sweeps() -> Iterator[None]:
    """Look for garbage seldom: a book's many small objects live as long as the book does."""
    usual = gc.get_threshold()
    # What is there by now stays: the program itself.
    gc.freeze()
    gc.set_threshold(_OBJECTS_BETWEEN_SWEEPS, *usual[1:])
    try:
        yield
    finally:
        gc.set_threshold(*usual)
        gc.unfreeze()
