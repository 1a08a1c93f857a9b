"""Formulas that wait: nothing is computed before every cell that it needs is filled."""

from __future__ import annotations

from openpyxl.utils import get_column_letter


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
        parts.append(f"${letters}${part[len(letters) :]}")
    return ":".join(parts)


def elsewhere(title: str, address: str) -> str:
    """An address on another sheet."""
    quoted = title if title.isalnum() else "'" + title.replace("'", "''") + "'"
    return f"{quoted}!{fixed(address)}"


def when_filled(formula: str, *needed: str) -> str:
    """A formula that stays blank as long as one of the cells it needs is blank.

    needed: cells and ranges, typed or computed. Anything in them counts as filled, so that a
    text that is no number shows as an error and not as a gap.
    """
    counts = "+".join(f"COUNTBLANK({cell})" for cell in dict.fromkeys(needed))
    return f'=IF({counts}=0,{formula},"")'


def pulled(reference: str) -> str:
    """What another cell shows, blank while that one is."""
    return f'=IF({reference}="","",{reference})'
