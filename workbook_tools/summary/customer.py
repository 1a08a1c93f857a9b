"""The customer's copy: what an owner is told about an engine, and how to bring it into use."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from workbook_tools.jobs.records import Fastener
from workbook_tools.summary.fits import KeyFit, key_fits, unmeasured_fits
from workbook_tools.summary.items import function_words
from workbook_tools.summary.summary import Caution, Summary


@dataclass(frozen=True)
class Torque:
    """What an owner may retighten: as the book gives it, each column in words."""

    name: str
    thread: str
    lubricant: str
    steps: str


@dataclass(frozen=True)
class CustomerCopy:
    """What the customer's copy says besides the job.

    facts: (what, as the book says it); fits: key sizes and clearances, those outside their
    band and those without a value; torques: of fasteners an owner may retighten; no_torques:
    what is said where the book gives none; about_fits, about_torques: how they are meant, and
    who comes first; break_in: (heading, text) in the order of doing;
    cautions: each text once, with what it is about.
    """

    facts: tuple[tuple[str, str], ...]
    fits: tuple[KeyFit, ...]
    outside: tuple[str, ...]
    missing: tuple[str, ...]
    torques: tuple[Torque, ...]
    no_torques: str
    about_fits: str
    about_torques: str
    break_in: tuple[tuple[str, str], ...]
    cautions: tuple[Caution, ...]


# Fasteners that can be reached and are retightened on an engine in use. What is inside, what
# holds rotating parts and what is tightened to yield is not for an owner's wrench.
_RETIGHTENED = re.compile(
    r"manifold|header|valve cover|rocker cover|cam cover|oil pan|sump|drain plug|spark plug"
    r"|carburetor|throttle body|thermostat|water pump|engine mount|cylinder head|head bolts?"
    r"|head nuts?|head studs?",
    re.IGNORECASE,
)
_HEAD = re.compile(r"\bheads?\b", re.IGNORECASE)
_STEP = re.compile(r"step|stage|torque|lbf|ft|n\.?m", re.IGNORECASE)
_TURN = re.compile(r"turn|angle", re.IGNORECASE)
_LUBRICANT = re.compile(r"lubricant|lube|oil", re.IGNORECASE)
_THREAD = re.compile(r"thread|size", re.IGNORECASE)
_UNIT = re.compile(r"[(\[]\s*([^()\[\]]+?)\s*[)\]]")

_ABOUT_FITS = (
    "As measured or computed from measurements on the finished parts. Clearances are total, "
    "across the diameter. A band is what this engine was built to; it is not a wear limit."
)
_ABOUT_TORQUES = (
    "As tightened here, cold. A torque holds only for the lubricant it is given with. What is not "
    "listed is not to be retightened by the owner. The makers of gaskets and fasteners come first."
)
_NO_TORQUES = "The book gives no torques. Ask the shop before anything is retightened."

# Common practice, no source; every paragraph leaves the last word to the part makers.
BREAK_IN: tuple[tuple[str, str], ...] = (
    (
        "Whose word counts",
        "These notes are general. Where the maker of the rings, camshaft, bearings, gaskets "
        "or oil says otherwise, that maker is right; so are local rules and the hand of "
        "whoever tunes the engine.",
    ),
    (
        "Before the first start",
        "Fill oil and coolant, bleed the coolant, and turn the oil pump until pressure shows "
        "at the gauge and oil reaches the valve gear. Check timing, fuel for leaks, belts and "
        "hoses. Have an extinguisher within reach, work in the open or with the exhaust led "
        "out, and keep hands and clothes clear of belts and fan.",
    ),
    (
        "First start",
        "Watch the oil pressure: none within a few seconds, stop at once and find out why. A "
        "camshaft with flat followers must not idle; its maker gives the speed and the time. "
        "Stop for leaks, noises and rising temperature.",
    ),
    (
        "First hours",
        "Rings seat under load, so drive with a changing, moderate load, neither long at idle "
        "nor at full speed, as the ring maker says. Let oil and coolant warm up before any "
        "load.",
    ),
    (
        "Afterwards",
        "Change oil and filter early, when the ring or oil maker says, and have the filter "
        "cut open. Have lash checked, and retighten only what a part maker asks for, as "
        "that maker says: many head gaskets must not be retightened.",
    ),
)


def customer_copy(summary: Summary) -> CustomerCopy:
    """What the customer's copy of a build says. Raises nothing: what is missing is said."""
    office = summary.office
    facts = (
        ("Use", office.use.text),
        ("Fuel", office.fuel.text),
        ("Oil", office.oil.text),
        ("Valve lash", office.lash.text),
        ("Firing order", office.firing_order.text),
    )
    fits = key_fits(summary)
    torques = tuple(_torques(office.fasteners))
    return CustomerCopy(
        facts=tuple((name, text) for name, text in facts if text),
        fits=fits,
        outside=tuple(found.fit.name for found in fits if found.row.worst in ("low", "high")),
        missing=unmeasured_fits(summary),
        torques=torques,
        no_torques="" if torques else _NO_TORQUES,
        about_fits=" ".join(
            (_ABOUT_FITS, *(f"{f.fit.name}: {f.row.sign}" for f in fits if f.row.sign))
        ),
        about_torques=_ABOUT_TORQUES,
        break_in=BREAK_IN,
        cautions=tuple(_about(fits, summary.cautions)),
    )


def _about(fits: Iterable[KeyFit], cautions: Iterable[Caution]) -> Iterable[Caution]:
    """The cautions that belong to what the copy tells, not to how the shop worked it out."""
    told = {function_words(f.row.function.removeprefix("ENG.")) for f in fits if f.row.function}
    for caution in cautions:
        named = tuple(name for name in caution.functions if name in told)
        if named:
            yield Caution(named, caution.text)


def _torques(fasteners: Iterable[Fastener]) -> Iterable[Torque]:
    for fastener in fasteners:
        if not _RETIGHTENED.search(fastener.name):
            continue
        thread, lubricant, unit = "", "", ""
        steps: list[str] = []
        turns: list[str] = []
        for head, text in fastener.said:
            plain = _UNIT.sub("", head).strip()
            if _LUBRICANT.search(plain):
                lubricant = text
            elif _THREAD.match(plain):
                thread = text
            elif _TURN.search(plain):
                turns += [f"then turn {text} {_unit(head) or 'deg'}"] if text != "0" else []
            elif _STEP.search(head) and any(c.isdigit() for c in text):
                steps.append(text)
                unit = unit or _unit(head)
        if steps or turns:
            told = f"{', '.join(steps)} {unit}".strip()
            name = fastener.name
            if _HEAD.search(name):
                name += " (only if the gasket maker asks for it)"
            if turns:
                # Often to yield, and then never a second time.
                name += " (tightened by angle: never again without its maker's word)"
            yield Torque(name, thread, lubricant, ", ".join(filter(None, (told, *turns))))


def _unit(head: str) -> str:
    found = _UNIT.search(head)
    return found[1] if found else ""
