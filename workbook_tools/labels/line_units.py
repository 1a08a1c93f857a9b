"""The unit of a line, by its label, its cells and the headings over it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from workbook_tools.labels.added_sizes import size_added_to
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.conventions import Stated, says_unless
from workbook_tools.labels.line import Option
from workbook_tools.labels.property_units import unit_of_property
from workbook_tools.labels.sizes import percent_of, si_factor
from workbook_tools.labels.vocabulary import unit_in
from workbook_tools.measurands import Measurand
from workbook_tools.quantities import LENGTH

# Units that are no words, at the end of a title.
_UNITS_IN_TITLES = (
    "mm", "cc", "nm", "kgm", "mkg", "kpm", "psi", "thou", "thous", "thousandths", "tenths",
    "inch", "inches", "hundertstel", "tausendstel", "centièmes", "centésimas", "centesimi",
    "milésimas",
)  # fmt: skip
# The whole unit, in meters, of a small one over several lines of which some are in the whole.
_WHOLE_OF = dict.fromkeys(("thou", "thous", "thousandths", "tenths"), 0.0254) | dict.fromkeys(
    ("hundertstel", "tausendstel", "centièmes", "centésimas", "centesimi", "milésimas"), 0.001
)
# "Rods, in" and "Rods - in" end with a unit, "check in" with a word.
_IN_AT_THE_END = re.compile(r"\w(?:,|\s[-–—]|:)\s*in\.?$", re.IGNORECASE)
_IN_BRACKETS_AT_THE_END = re.compile(r"[(\[](?P<units>[^()\[\]]*,[^()\[\]]*)[)\]]$")


def unit_of_line(
    stated: Stated, options: Sequence[Option], headings: Sequence[str], numbers: Sequence[float]
) -> str:
    """The unit of a line that says none itself: its property's, a heading's, or percent."""
    unit = unit_of_property(stated.units, options, [abs(n) for n in numbers])
    unit = unit or _unit_of_all(options, headings, numbers)
    return unit or (percent_of(options[0].term, numbers) if options else "")


def _unit_of_all(
    options: Sequence[Option], headings: Sequence[str], numbers: Sequence[float]
) -> str:
    """The unit of a line that has none of its own: one in both systems, else a heading's.

    None that makes sizes odd which are usual in its whole: "Piston to wall, thou" over bores.
    """
    bare = options[0].term.bare_units if options else ("", "%")
    if bare[0] and bare[0] == bare[1] and bare[0] != "%":
        return bare[0]
    # That of a title further up may be of another block: "Balance (grams)" over a cam card.
    for heading in headings[:2]:
        units = [u for u in _several_units(heading) or (unit_over(heading),) if u]
        # What it most likely is has the word: "(inches, psi)" over a compression.
        fits = (u for o in options for u in units if _measures_in(o.term, u))
        if fitting := next(fits, "" if options else next(iter(units), "")):
            return "" if _is_of_others(fitting, options, numbers) else fitting
    return ""


def _is_of_others(unit: str, options: Sequence[Option], numbers: Sequence[float]) -> bool:
    """Whether no size of a line is usual in the small unit over it, and all are in its whole."""
    whole = _WHOLE_OF.get(unit.casefold())
    if whole is None or not numbers or not options:
        return False
    most = max(o.weight for o in options)
    terms = [o.term for o in options if o.weight == most and o.term.kind is LENGTH]
    factors = [si_factor(term, unit, None) or 0.0 for term in terms]
    usual = any(t.is_usual(n * f) for t, f in zip(terms, factors, strict=True) for n in numbers)
    return not usual and any(all(t.is_usual(n * whole) for n in numbers) for t in terms)


def _measures_in(term: Measurand, unit: str) -> bool:
    return si_factor(term, unit, None) is not None


@lru_cache(maxsize=4096)
def _several_units(heading: str) -> tuple[str, ...]:
    """The units in the brackets that a heading ends with, () where it has not several."""
    inside = _IN_BRACKETS_AT_THE_END.search(heading)
    units = tuple(map(str.strip, inside["units"].split(","))) if inside else ()
    return units if len(units) > 1 and all(map(is_unit, units)) else ()


@lru_cache(maxsize=4096)
def unit_over(heading: str) -> str:
    """The unit that a heading ends with: in brackets, or as its last words."""
    if says_unless(heading) or _several_units(heading) or size_added_to(heading):
        return ""  # "Inches unless it says thou."; "Bores 4.155 + (tenths)" is of these alone.
    heading = heading.rstrip(" :")
    if heading.endswith((")", "]")):
        return unit_in(heading)
    if _IN_AT_THE_END.search(heading):
        return "in"
    words = heading.split()
    ends = (" ".join(words[-n:]) for n in (2, 1) if len(words) > n)
    return next((end for end in ends if _is_written(end)), "")


def _is_written(text: str) -> bool:
    """Whether the end of a heading is a unit and no word: not "in", "Bars" or "Pistons g"."""
    return is_unit(text) and (text.casefold() in _UNITS_IN_TITLES or not text.isalpha())
