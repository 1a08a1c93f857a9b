"""The band of anything that the tables have one for, by the name of what is measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, LengthBand, LengthFromZero, Use
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Readings"


@dataclass(frozen=True)
class _Usual:
    """Where the band of something measured stands.

    measured: the name of a measurand; table; conditions: those that its name says; of: whose
    size it goes with, "" for none; made: the condition that the argument made is for, with the
    words for it, the usual one first.
    """

    measured: str
    table: str
    conditions: tuple[tuple[str, str], ...] = ()
    of: str = ""
    made: tuple[str, tuple[str, ...]] = ("", ("any",))


_PISTONS = ("piston", ("cast", "hypereutectic", "forged 4032", "forged 2618"))
_RODS = ("rod", ("steel", "aluminum"))
_CAMS = ("cam", ("standard lash", "tight lash", "bucket"))
_VALVES = ("intake", "exhaust")
_USUAL = (
    _Usual("piston clearance", "piston clearance factor", (), "bore", _PISTONS),
    *(
        _Usual(f"{ring} ring gap", "ring gap factor", (("ring", ring),), "bore")
        for ring in ("top", "second")
    ),
    _Usual("oil ring gap", "oil ring gap"),
    _Usual("main bearing clearance", "bearing clearance factor", (), "journal"),
    _Usual("rod bearing clearance", "bearing clearance factor", (), "journal"),
    _Usual("crank end play", "crank end play"),
    _Usual("rod side clearance", "rod side clearance", (), "", _RODS),
    *(
        _Usual(f"pin clearance in the {part}", "pin clearance factor", (("part", part),), "pin")
        for part in ("piston", "rod")
    ),
    *(_Usual(f"{v} stem clearance", "stem clearance", (("valve", v),)) for v in _VALVES),
    _Usual("quench", "quench", (), "", _RODS),
    *(
        _Usual(f"{v} valve to piston clearance", "piston to valve", (("valve", v),), "", _RODS)
        for v in _VALVES
    ),
    _Usual("coil bind margin", "coil bind margin"),
    _Usual("retainer to seal clearance", "retainer to seal"),
    *(_Usual(f"{v} lash", "lash", (("valve", v),), "", _CAMS) for v in _VALVES),
    _Usual("cam bearing clearance", "cam bearing clearance"),
    _Usual("cam end play", "cam end play"),
)

Banded = Annotated[str, quantities.TEXT, Choice(tuple(one.measured for one in _USUAL))]
_MADE = dict.fromkeys(word for one in _USUAL for word in one.made[1] if word != "any")
Made = Annotated[str, quantities.TEXT, Choice(("any", *_MADE))]


@worksheet_function(SECTION)
def band(measured: Banded, use: Use, size: LengthFromZero = 0.0, made: Made = "any") -> LengthBand:
    """Band of a clearance, a gap or a play, from the table of bands.

    Parameters
    ----------
    measured
        What is measured: "crank end play", "intake stem clearance", "quench".
    size
        The bore for pistons and rings, the journal for bearings, the pin for pins. Left out for all
        else, or 0.
    made
        The kind of piston for its clearance; "steel" or "aluminum" rods for quench, rod side
        clearance and valve to piston clearance; "standard lash", "tight lash" or "bucket" for lash.
        Left out, or "any": cast, steel, standard lash.

    Returns
    -------
    Three cells beside each other: low, high, and where the band comes from.

    Equation
    --------
    low = low base + size * low factor, high = high base + size * high factor of the table's row for
    this use, or for the use that this one is like; rows that go with no size are the limits as
    they stand

    Validity
    --------
    A starting point where no maker names a figure. The third cell says whose row it is, and whether
    the size lies beyond those that the row comes from. Where practice names only a least
    clearance the upper limit is far off, and only a check against slips.

    Source
    ------
    makers' service ranges for service, stock, motorcycle, diesel, air cooled and two-stroke, else
    common practice, no source; each row of the table names its origin

    Caution
    -------
    The part maker's figure comes first: too little clearance seizes or breaks what runs in it.
    For lash it is the camshaft maker's, who also says whether it is hot or cold.
    """
    require(
        measured != "rod bearing clearance" or use != "aluminum block",
        "use",
        'another use for rods, such as "street": "aluminum block" is for mains measured cold',
    )
    usual = next(one for one in _USUAL if one.measured == measured)
    field, words = usual.made
    word = words[0] if made == "any" else made
    require(
        word in words, "made", f"one of any, {', '.join(words)}" if field else '"any", or nothing'
    )
    conditions = {**dict(usual.conditions), "use": use, **({field: word} if field else {})}
    row = tables.find_band(usual.table, **conditions)
    require(row is not None, "use", tables.NO_ROW)
    assert row is not None
    diameter = f"the diameter of the {usual.of}"
    require(size > 0 or not usual.of, "size", diameter, "nothing", missing=True)
    require(size <= row.largest, "size", tables.TOO_LARGE)
    low, high = row.limits(size)
    return ((low, high, tables.told(row, use, size if usual.of else None)),)
