"""One of several alike: which one, when, in what unit; and several told by each other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from workbook_tools.labels.vocabulary import Stage


class Which(NamedTuple):
    """One of several alike: its number, bank and places on it, and what else a head says.

    side: words that tell an intake from an exhaust, or one ring from another; last: of a pair
    "1-2" its second; other: words that are not understood.
    """

    number: int = 0
    last: int = 0
    bank: str = ""
    at: tuple[str, ...] = ()
    of: str = ""
    side: str = ""
    stage: Stage = ""
    unit: str = ""
    other: str = ""

    @property
    def tells(self) -> bool:
        """Whether it tells one from the others."""
        return bool(self.number or self.bank or self.at or self.side)

    def beside(self, outer: Which) -> Which:
        """This head with what another one adds."""
        if outer is NOTHING:
            return self
        return Which(
            self.number or outer.number,
            self.last if self.number else outer.last,
            self.bank or outer.bank,
            tuple(dict.fromkeys((*outer.at, *self.at))) if outer.at or self.at else (),
            self.of or outer.of,
            self.side or outer.side,
            self.stage or outer.stage,
            self.unit or outer.unit,
            self.other or outer.other,
        )


NOTHING = Which()
# A letter that is the exhaust beside an I, and may be either side without one.
EITHER = "either side"
# When something was measured, and no wish or limit: "as received, top".
TAKEN = ("found", "machined", "final")
# After the work.
WORKED = ("machined", "final")
# As it came and as it goes out: what work is done says of no size when it was taken.
CAME_OR_GOES = ("found", "final")


def from_the_front(several: Mapping[int, Which]) -> dict[int, Which]:
    """The same with front and rear counted: a twin's cylinders, or the ends of a row of mains.

    Mains and rods in one list are counted apart; the mains of an upright crank have a top.
    """
    if whole := _from_end_to_end(several, "front", "rear"):
        return whole
    found: dict[int, Which] = {}
    for of in dict.fromkeys(w.of for w in several.values()):
        own = {n: w for n, w in several.items() if w.of == of}
        found |= _from_end_to_end(own, "front", "rear") or own
    if found == dict(several) and any(w.number for w in several.values()):
        found = _from_end_to_end(several, "top", "bottom") or found
    return {n: found[n] for n in several}


def _from_end_to_end(several: Mapping[int, Which], first: str, last: str) -> dict[int, Which]:
    """The same with two ends counted, {} where it is not the ends that have no number."""
    several = _with_center(several)
    ends = {n: next((e for e in (first, last) if e in w.at), "") for n, w in several.items()}
    named = {n: e for n, e in ends.items() if e and not several[n].number}
    between = sorted({w.number for w in several.values() if w.number})
    if {*named.values()} != {first, last} or between != [*range(2, 2 + len(between))]:
        return {}
    most = len(between) + 2
    return {
        n: w._replace(number=1 if named[n] == first else most, at=()) if n in named else w
        for n, w in several.items()
    }


def _with_center(several: Mapping[int, Which]) -> Mapping[int, Which]:
    """The same with the one between front and rear counted as the second of three."""
    places = [w.at for w in several.values() if not w.number and w.at]
    if sorted(set(places)) != [("front",), ("middle",), ("rear",)]:
        return several
    return {
        n: w._replace(number=2, at=()) if w.at == ("middle",) and not w.number else w
        for n, w in several.items()
    }


def sided(several: Mapping[int, Which]) -> dict[int, Which]:
    """The same with letters settled.

    An E beside an I is the exhaust, a B below an A a bank, an R or a B beside mains a rod, an R
    beside the front the rear.
    """
    lettered = {w.bank for w in several.values()} == {"", "R"}
    if lettered and any(w.at == ("front",) for w in several.values()):
        several = {
            n: w._replace(bank="", at=("rear",)) if w.bank and not w.number else w
            for n, w in several.items()
        }
    banks = {w.bank for w in several.values() if w.number and not w.of}
    if any(w.of == "main" for w in several.values()) and banks in ({"R"}, {"B"}):
        several = {
            n: w._replace(bank="", of="rod") if w.number and not w.of else w
            for n, w in several.items()
        }
    places = {place for which in several.values() for place in which.at}
    if any(w.bank == "A" for w in several.values()) and places == {"bottom"}:
        several = {
            n: w._replace(bank="B", at=()) if w.at == ("bottom",) else w for n, w in several.items()
        }
    sides = {which.side for which in several.values()}
    meant = "exhaust" if "intake" in sides else ""
    return {
        n: w._replace(side=meant, other=w.other if meant else "which side")
        if w.side == EITHER
        else w
        for n, w in several.items()
    }
