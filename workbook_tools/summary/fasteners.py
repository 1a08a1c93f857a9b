"""Fasteners as tightened: what each column of a book's list says, by what it is about."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Fastener

_UNIT = re.compile(r"[(\[]\s*([^()\[\]]+?)\s*[)\]]")
# What a head is about, the surest first; steps of tightening are what is left with a number.
_ABOUT: dict[str, re.Pattern[str]] = {
    "done": re.compile(
        r"(?:.*\b)?(?:done|tightened|torqued|assembled) by|initials|by\b", re.IGNORECASE
    ),
    "seen": re.compile(r"(?:seen|checked|witnessed) by|second (?:check|person)", re.IGNORECASE),
    "marked": re.compile(r"marked|paint(?: mark)?|witness mark", re.IGNORECASE),
    "on": re.compile(r"on$|date", re.IGNORECASE),
    "wrench": re.compile(r"wrench|tool", re.IGNORECASE),
    "count": re.compile(r"how many|qty|quantity|number of", re.IGNORECASE),
    "lubricant": re.compile(r"lubricant|lube|oil", re.IGNORECASE),
    "thread": re.compile(r"thread|size", re.IGNORECASE),
    "turn": re.compile(r"(?:then )?turn|angle", re.IGNORECASE),
    "stretch": re.compile(r"stretch|elongation", re.IGNORECASE),
}
_STEP = re.compile(r"step|stage|torque|lbf|ft|n\.?m", re.IGNORECASE)


@dataclass(frozen=True)
class FastenerLine:
    """A group of fasteners, each column in words; "" where the book says nothing.

    steps: torque in steps with its unit, then the turn; turned: whether a turn is among them.
    """

    place: Place
    name: str
    thread: str = ""
    count: str = ""
    lubricant: str = ""
    steps: str = ""
    stretch: str = ""
    wrench: str = ""
    done: str = ""
    seen: str = ""
    marked: str = ""
    on: str = ""
    turned: bool = False

    @property
    def tightened(self) -> str:
        """The steps, and the stretch where it was measured."""
        stretch = f"stretch {self.stretch}" if self.stretch else ""
        return ", ".join(filter(None, (self.steps, stretch)))


@dataclass
class _Said:
    columns: dict[str, str] = field(default_factory=dict)
    steps: list[str] = field(default_factory=list)
    turns: list[str] = field(default_factory=list)
    unit: str = ""


def fastener_lines(fasteners: Iterable[Fastener]) -> tuple[FastenerLine, ...]:
    """What a book says of each group of its fasteners. Raises nothing."""
    return tuple(_line(fastener) for fastener in fasteners)


def _line(fastener: Fastener) -> FastenerLine:
    told = _Said()
    for head, text in fastener.said:
        _note(told, head, text)
    torque = f"{', '.join(told.steps)} {told.unit}".strip()
    return FastenerLine(
        place=fastener.place,
        name=fastener.name,
        steps=", ".join(filter(None, (torque, *told.turns))),
        turned=bool(told.turns),
        **told.columns,
    )


def _note(told: _Said, head: str, text: str) -> None:
    plain = _UNIT.sub("", head).strip()
    unit = found[1] if (found := _UNIT.search(head)) else ""
    about = next((name for name, pattern in _ABOUT.items() if pattern.match(plain)), "")
    if about == "turn":
        if text != "0":
            told.turns.append(f"then turn {text} {unit or 'deg'}")
    elif about == "stretch":
        told.columns.setdefault(about, f"{text} {unit}".strip())
    elif about:
        before = told.columns.get(about, "")
        # A pass that a fastener does not have is struck out.
        if text not in (*before.split(", "), "-", "–"):
            told.columns[about] = ", ".join(filter(None, (before, text)))
    elif _STEP.search(head) and any(c.isdigit() for c in text):
        told.steps.append(text)
        told.unit = told.unit or unit
