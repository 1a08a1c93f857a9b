"""What a check rests on. Its class is declared where it stands, and held as far as it can be.

    printed         a figure that a book or a standard prints, named by work and place
    open_data       a record of a named data set with its license
    independent     another way to the number by a named call of a library: integration, search,
                    solving, a property library; never the catalog's own equation written again
    from_memory     a figure or a formula of a known work that was not seen for the check
    practice        what the trade says: common practice, no source
    arithmetic      the catalog's own equation worked by us; holds units and signs, and is no
                    outside evidence

A function counts by the best class that one of its checks has.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from types import BuiltinFunctionType
from typing import Any

PRINTED = "printed value"
DATA = "open data"
INDEPENDENT = "independent method"
MEMORY = "from memory"
PRACTICE = "common practice, no source"
ARITHMETIC = "own arithmetic"
# From the strongest evidence to none.
CLASSES = (PRINTED, DATA, INDEPENDENT, MEMORY, PRACTICE, ARITHMETIC)
OUTSIDE = CLASSES[:3]

# Worked examples of textbooks, printed with their answers by an open repository of notebooks.
COMPANIONS = "as worked in the open FOSSEE Textbook Companions"

_PLACE = re.compile(
    r"\b(p|pp|ch|chapter|article|eq|eqs|equation|Ex|Example|Examples|Ill|Table|Tables|Annex|App"
    r"|Problem|problems)\b\.? ?[A-Z]?\.?[0-9]",
    re.IGNORECASE,
)
_OURS = {"workbook_tools", "conftest", "sources", "examples", "sample"}


@dataclass(frozen=True)
class Source:
    """Where the expected value of a check comes from: its class, and the words that name it."""

    kind: str
    text: str


def printed(work: str, place: str, seen_in: str = "") -> Source:
    """A printed figure: author and title or standard and year, then example, table or page.

    seen_in: where it was seen, if not in the work itself.
    """
    if "memory" in f"{work} {place}":
        raise ValueError(f"{work}, {place}: what is from memory is not a printed value")
    if not re.search(r"[A-Za-z]{3}", work) or not _PLACE.search(place):
        raise ValueError(f"{work}, {place}: expected a work, and the place in it with a number")
    return Source(PRINTED, ", ".join(filter(None, (work, place, seen_in))))


def open_data(name: str, license_name: str) -> Source:
    """A record of a public data set."""
    if not license_name:
        raise ValueError(f"{name}: expected the license of the data")
    return Source(DATA, f"{name}, {license_name}")


def independent(method: str, *by: Callable[..., Any]) -> Source:
    """Another way to the number, by these functions of libraries."""
    names = [_library_name(call) for call in by]
    if not names:
        raise ValueError(f"{method}: expected the library's function that does it")
    return Source(INDEPENDENT, f"{method} ({', '.join(names)})")


def _library_name(call: Callable[..., Any]) -> str:
    """The full name of a library's function; ours is not independent of us."""
    module = getattr(call, "__module__", None) or type(call).__module__
    if module.split(".")[0].startswith("test_") or module.split(".")[0] in _OURS:
        raise ValueError(f"{module}.{call!r} is ours")
    if not callable(call) or (isinstance(call, BuiltinFunctionType) and module == "math"):
        raise ValueError(f"{call!r}: expected a function that finds the number another way")
    name = getattr(call, "__name__", type(call).__name__)
    return f"{module.split('.')[0].lstrip('_')}.{name}"


def from_memory(work: str, place: str = "") -> Source:
    """A figure or formula of a known work, not seen for the check or only as others quote it."""
    return Source(MEMORY, ", ".join(filter(None, (work, place, "from memory"))))


def practice(what: str = "", *, memory: bool = False) -> Source:
    """What the trade says, with no source to name."""
    words = "; ".join(filter(None, (PRACTICE, what, "from memory" if memory else "")))
    return Source(PRACTICE, words)


def arithmetic(what: str = "") -> Source:
    """Our own arithmetic: it holds the way from cell to result, and is no outside evidence."""
    return Source(ARITHMETIC, ", ".join(filter(None, ("worked arithmetic, no source", what))))


def tally(checks: Iterable[tuple[str, str]], functions: Iterable[str]) -> list[str]:
    """The closing table, from (function, class) of every check and the names of all functions."""
    counted = list(checks)
    best: dict[str, str] = dict.fromkeys(functions, "no check")
    for kind in reversed(CLASSES):
        best |= {function: kind for function, of in counted if of == kind}
    lines = [f"{'class':28} {'checks':>7} {'functions by their best class':>30}"]
    for kind in (*CLASSES, "no check"):
        times = sum(of == kind for _, of in counted)
        lines.append(f"{kind:28} {times:>7} {sum(of == kind for of in best.values()):>30}")
    outside = [of for of in best.values() if of in OUTSIDE]
    lines.append(
        f"{len(outside)} of {len(best)} functions have a printed value, open data or an "
        "independent method. The others:"
    )
    return lines + [f"  {name:28} {of}" for name, of in sorted(best.items()) if of not in OUTSIDE]
