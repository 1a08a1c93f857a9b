"""Functions by what a builder would ask for: their own words, and the trade's words for them."""

from __future__ import annotations

from workbook_tools.catalog.registry import Function, entries
from workbook_tools.measurands import find
from workbook_tools.measurands.words import read_label

# Words a builder asks by that name no quantity, and the words of names and summaries they mean.
# Common practice, no source.
_ASKED_FOR = {
    "blow by": ("leakage", "ring gap"),
    "blower": ("boost", "boosted", "charge temperature"),
    "degreeing": ("centerline", "cam advance"),
    "detonation": ("knock", "dynamic compression", "compression temperature"),
    "dynamometer": ("power", "torque", "correction"),
    "dyno": ("power", "torque", "correction"),
    "fasteners": ("bolt", "preload"),
    "flexplate": ("external balance",),
    "header length": ("tuned length",),
    "injectors": ("injector",),
    "intercooler": ("charge temperature", "boost"),
    "octane": ("knock", "dynamic compression", "compression temperature"),
    "oil grade": ("viscosity",),
    "oil pressure": ("relief",),
    "oil pump": ("relief", "oil flow", "oil pump", "pump displacement"),
    "oil weight": ("viscosity",),
    "pinging": ("knock", "dynamic compression", "compression temperature"),
    "pulley": ("blower drive",),
    "runner length": ("tuned length", "runner"),
    "spring pressure": ("spring load", "spring rate", "open load"),
    "stripped threads": ("engagement",),
    "studs": ("bolt", "preload"),
    "supercharger": ("boost", "boosted", "charge temperature"),
    "turbo": ("boost", "boosted", "charge temperature"),
    "valve float": ("float speed", "spring margin", "spring force"),
    "vibration": ("shaking", "unbalance"),
    "weather": ("correction", "density"),
}
# A label that needs more steps than these to name a measurand names none for certain.
_NEAR = 4


def functions_about(asked: str) -> tuple[Function, ...]:
    """The functions that a builder may mean, the likeliest first.

    asked: words in any of the trade's languages: "squish", "spring pressure", "Quetschkante".
    First the one of that name, then those that give what is asked for, those whose name or summary
    has all the words, and those that take it. () where nothing fits. Raises nothing.
    """
    words = asked.lower().replace("_", " ").split()
    if not words:
        return ()
    also = _ASKED_FOR.get(" ".join(words), ())
    meant = set() if also else _measurands(asked)
    called = [f for f in entries() if f.name.lower() == "_".join(words)]
    giving = [f for f in entries() if f.measurand in meant]
    wanted = [words, *(more.split() for more in also)]
    about = [f for one in wanted for f in entries() if _has(f, one)]
    taking = [f for f in entries() if any(p.measurand in meant for p in f.parameters)]
    return tuple(dict.fromkeys((*called, *giving, *about, *taking)))


def related(function: Function) -> tuple[Function, ...]:
    """The functions next to one: what gives an argument of it, and what takes its result."""
    taken = {p.measurand for p in function.parameters if p.measurand}
    near = [f for f in entries() if f.measurand and f.measurand in taken]
    if function.measurand:
        near += [f for f in entries() if f.measurand == function.measurand]
        near += [
            f for f in entries() if any(p.measurand == function.measurand for p in f.parameters)
        ]
    return tuple(f for f in dict.fromkeys(near) if f is not function)


def _measurands(asked: str) -> set[str]:
    """The measurands, and the properties they are of, that words name."""
    named = {c.measurand for c in read_label(asked).candidates if c.cost <= _NEAR}
    return named | {one.property for name in named if (one := find(name))}


def _has(function: Function, words: list[str]) -> bool:
    """Whether a name or summary has each of the words, in one number or the other."""
    text = f"{function.name.replace('_', ' ')} {function.summary}".lower()
    return all(word in text or word.removesuffix("s") in text for word in words)
