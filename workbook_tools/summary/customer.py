"""The customer's copy: what an owner is told about an engine, and how to bring it into use."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from workbook_tools.summary.fasteners import FastenerLine, fastener_lines
from workbook_tools.summary.items import function_words
from workbook_tools.summary.key_facts import KeyFact
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

    changed: what changed since the last copy; said: (what, as the book says it); groups: the
    key facts under their headings; outside, doubted, missing: those outside their band, those
    that a finding doubts, and those without a value; torques: of fasteners an owner may
    retighten, untouched: the names of all others; no_torques: what is said where the book gives
    none; about_facts, about_torques: how they are meant, and who comes first; released: by whom
    and on what day, a sentence; break_in: (heading, text) in the order of doing; cautions: each
    text once, with what it is about.
    """

    changed: str
    said: tuple[tuple[str, str], ...]
    groups: tuple[tuple[str, tuple[KeyFact, ...]], ...]
    outside: tuple[str, ...]
    doubted: tuple[str, ...]
    missing: tuple[str, ...]
    torques: tuple[Torque, ...]
    untouched: tuple[str, ...]
    no_torques: str
    about_facts: str
    about_torques: str
    released: str
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

_ABOUT_FACTS = (
    "As measured or computed from measurements on the finished parts. Clearances are total, "
    "across the diameter. A band is what this engine was built to, and who gave it stands beside "
    "it; it is not a wear limit. In a strip the shaded middle is the band, and each mark is one "
    "position."
)
_ABOUT_TORQUES = (
    "As tightened here, cold. A torque holds only for the lubricant it is given with. The makers "
    "of gaskets and fasteners come first."
)
_NO_TORQUES = "The book gives no torques. Ask the shop before anything is retightened."

# Common practice, no source; every paragraph leaves the last word to the part makers.
BREAK_IN: tuple[tuple[str, str], ...] = (
    (
        "Who to follow",
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
    said = (
        ("Use", office.use.text),
        ("Fuel", office.fuel.text),
        ("Oil", office.oil.text),
        ("Valve lash", office.lash.text),
        ("Firing order", office.firing_order.text),
    )
    facts = summary.facts
    lines = fastener_lines(office.fasteners)
    torques = tuple(_torques(lines))
    released = next(one.names for one in summary.people if one.did == "Released")
    own = summary.revision.facts_told if summary.revision else ""
    return CustomerCopy(
        changed=" ".join(filter(None, (office.changed.text, own))),
        said=tuple((name, text) for name, text in said if text),
        groups=summary.fact_groups,
        outside=tuple(fact.name for fact in facts if fact.row.worst in ("low", "high")),
        doubted=tuple(fact.name for fact in facts if _is_doubted(fact)),
        missing=tuple(fact.name for fact in facts if not fact.row.measured),
        torques=torques,
        untouched=tuple(
            dict.fromkeys(line.name for line in lines if not _RETIGHTENED.search(line.name))
        ),
        no_torques="" if torques else _NO_TORQUES,
        about_facts=" ".join(
            (_ABOUT_FACTS, *(_about_sign(fact) for fact in facts if fact.row.sign))
        ),
        about_torques=_ABOUT_TORQUES,
        released=_released(", ".join(released), summary.job.finished.text),
        break_in=BREAK_IN,
        cautions=tuple(_about(facts, summary.cautions)),
    )


def _released(by: str, on: str) -> str:
    """Who released an engine and when, as far as the book says it."""
    day = f" on {on}" if on else ""
    if by:
        return f"Released by {by}{day}, as the book says."
    return f"Finished{day}; the book does not say who released it." if on else "Not released."


def _is_doubted(fact: KeyFact) -> bool:
    """Whether a finding doubts a number that its band, if it has one, does not."""
    deviations = any(number.startswith("D") for number in fact.row.told)
    return deviations and fact.row.measured and fact.row.worst not in ("low", "high")


def _about(facts: Iterable[KeyFact], cautions: Iterable[Caution]) -> Iterable[Caution]:
    """The cautions that belong to what the copy tells, not to how the shop worked it out."""
    told = {function_words(f.row.function.removeprefix("ENG.")) for f in facts if f.row.function}
    for caution in cautions:
        named = tuple(name for name in caution.functions if name in told)
        if named:
            yield Caution(named, caution.text)


def _torques(lines: Iterable[FastenerLine]) -> Iterable[Torque]:
    for line in lines:
        if not line.steps or not _RETIGHTENED.search(line.name):
            continue
        name = line.name
        if _HEAD.search(name):
            name += " (only if the gasket maker asks for it)"
        if line.turned:
            # Often to yield, and then never a second time.
            name += " (tightened by angle: never again without its maker's word)"
        yield Torque(name, line.thread, line.lubricant, line.steps)


def _about_sign(fact: KeyFact) -> str:
    """What a sign means: "Deck clearance, positive: piston below the deck"."""
    sign = fact.row.sign
    return f"{fact.name}, {sign[:1].lower()}{sign[1:]}"
