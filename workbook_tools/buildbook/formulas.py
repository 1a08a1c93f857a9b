"""Formulas that wait: nothing is computed before every cell that it needs is filled."""

from __future__ import annotations

from collections.abc import Sequence

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries


def at(row: int, column: int) -> str:
    """A cell's address."""
    return f"{get_column_letter(column)}{row}"


def area(top: int, left: int, bottom: int, right: int) -> str:
    """A range's address, or the cell's where it is one."""
    first, last = at(top, left), at(bottom, right)
    return first if first == last else f"{first}:{last}"


def fixed(address: str) -> str:
    """An address that stays where it is when a formula is copied."""
    parts = []
    for part in address.replace("$", "").split(":"):
        letters = part.rstrip("0123456789")
        parts.append(f"${letters}${part[len(letters):]}")
    return ":".join(parts)


def elsewhere(title: str, address: str) -> str:
    """An address on another sheet."""
    quoted = title if title.isalnum() else "'" + title.replace("'", "''") + "'"
    return f"{quoted}!{fixed(address)}"


def cells_in(reference: str) -> int:
    """How many cells a reference names."""
    left, top, right, bottom = range_boundaries(reference.rpartition("!")[2].replace("$", ""))
    assert None not in (left, top, right, bottom)
    return (right - left + 1) * (bottom - top + 1)  # type: ignore[operator]


def when_filled(formula: str, typed: Sequence[str] = (), computed: Sequence[str] = ()) -> str:
    """A formula that stays blank until the cells it needs hold something.

    typed: readings, where anything counts, so that a text that is no number shows as an
    error and not as a gap; computed: results, where only a number counts.
    """
    # A cell that is named twice is counted once.
    typed, computed = tuple(dict.fromkeys(typed)), tuple(dict.fromkeys(computed))
    needed = sum(map(cells_in, (*typed, *computed)))
    counts = []
    if typed:
        counts.append(f"COUNTA({','.join(typed)})")
    if computed:
        counts.append(f"COUNT({','.join(computed)})")
    return f'=IF({"+".join(counts)}={needed},{formula},"")'


def pulled(reference: str) -> str:
    """What another cell shows, blank while that one is."""
    return f'=IF({reference}="","",{reference})'
