"""Which measurand a property stands for: the journal of a main, of a rod or of a camshaft."""

from __future__ import annotations

from functools import lru_cache

from workbook_tools.measurands.position import Position
from workbook_tools.measurands.table import of_property


def of_one_part(name: str, by_label: str, part: Position) -> str:
    """The measurand that a measurand or property stands for: as a label says, or the position.

    A function is written for a property that several parts have: the journal of a main or a
    rod. Where nothing tells which, the property's own name stands.
    """
    return _of_one_part(name, by_label, part.of)


@lru_cache(maxsize=4096)
def _of_one_part(name: str, by_label: str, of: str) -> str:
    members = of_property(name)
    if any(one.id == by_label for one in members):
        return by_label
    here = [one for one in members if of and one.of == of] or members
    return here[0].id if len(here) == 1 else name


def is_one_of(measurand: str, other: str) -> bool:
    """Whether a measurand is the other one, of one part: a main journal is a journal."""
    return measurand == other or any(m.id == measurand for m in of_property(other))
