"""Bands that a book starts with, out of the catalog's tables, by the use typed on the job sheet."""

from __future__ import annotations

from itertools import groupby

from workbook_tools.buildbook.page import COMMON, Limits
from workbook_tools.buildbook.plan import Plan
from workbook_tools.catalog import find, tables
from workbook_tools.catalog.usual_bands import band
from workbook_tools.quantities import LENGTH, from_si

# What a formula may hold in one text.
_TEXT_MOST = 255
_MAINS_ONLY = "aluminum block"


def choices(name: str, parameter: str) -> tuple[str, ...]:
    """The words that a worksheet function takes for a parameter."""
    function = find(name)
    assert function is not None
    found = next(p for p in function.parameters if p.name == parameter)
    return found.choices


def uses() -> tuple[str, ...]:
    """What an engine can be built for; the rule of mains in an aluminum block is no use."""
    return tuple(use for use in choices("BEARING_BAND", "use") if use != _MAINS_ONLY)


def among(cell: str, words: tuple[str, ...]) -> str:
    """A condition: whether a cell holds one of some words, in any case."""
    texts, held = [], ";"
    for word in words:
        if len(held) + len(word) + 1 > _TEXT_MOST:
            texts.append(held)
            held = ";"
        held += f"{word};"
    places = [f'ISNUMBER(FIND(";"&LOWER({cell})&";","{text}"))' for text in (*texts, held)]
    return places[0] if len(places) == 1 else f"OR({','.join(places)})"


def usual(plan: Plan, use: str, measured: str, made: str = "any", size: str = "") -> Limits:
    """The band of something measured, for whatever use a cell holds.

    use: that cell; measured, made: as for the worksheet function BAND; size: the cell of the size
    that the band goes with, "" where it goes with none.
    """
    found = {word: _row(plan, measured, word, made, size) for word in uses()}
    groups = [
        (limits, tuple(words))
        for limits, words in groupby(sorted(found, key=found.__getitem__), found.__getitem__)
    ]
    # What most uses have stands last and needs no list.
    groups.sort(key=lambda group: len(group[1]))
    empty = f'OR({use}="",{size}="")' if size else f'{use}=""'

    def formula(part: int) -> str:
        *others, (last, _words) = groups
        text = last[part]
        for limits, words in others:
            if limits[part] != last[part]:
                text = f"IF({among(use, words)},{limits[part]},{text})"
        return f'=IF({empty},"",{text})'

    return Limits(formula(0), formula(1), formula(2))


def limits_of(plan: Plan, table: str) -> Limits:
    """The band of a table whose only row goes with no use and no size."""
    row = tables.find_band(table)
    assert row is not None
    low, high = (
        float(f"{from_si(end, LENGTH, plan.units) if row.unit else end:.2g}")
        for end in (row.low or 0.0, row.high or 0.0)
    )
    return Limits(low, high, _whose(row.origin))


def _row(plan: Plan, measured: str, use: str, made: str, size: str) -> tuple[str, str, str]:
    """Low, high and where they are from, as parts of a formula."""
    if size:
        # Limits go straight up with the size: two sizes, in SI, tell base and factor.
        ((*near, origin),), ((*far, _same),) = (band(measured, use, d, made) for d in (0.02, 0.03))
        low, high = (_line(plan, a, b, size) for a, b in zip(near, far, strict=True))
    else:
        ((*limits, origin),) = band(measured, use, 0.0, made)
        # In the two digits that a table has.
        low, high = (
            f"{float(f'{from_si(float(limit), LENGTH, plan.units):.2g}'):g}" for limit in limits
        )
    return low, high, f'"{_whose(str(origin))}"'


def _whose(origin: str) -> str:
    """Whose a band is, in the few words that its cell has room for."""
    return COMMON if origin.startswith(COMMON) else origin.split(" of ")[0]


def _line(plan: Plan, near: object, far: object, size: str) -> str:
    factor = (float(str(far)) - float(str(near))) / 0.01
    base = from_si(float(str(near)) - 0.02 * factor, LENGTH, plan.units)
    # A band is no closer than what a gauge tells.
    return f"ROUND({base:.3g}+{factor:.3g}*{size},{plan.pick(5, 4)})"
