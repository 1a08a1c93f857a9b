"""The revision of a record that is given out again: its number, its day, and what changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, NamedTuple

from workbook_tools.summary.changes import Data, changes, joined
from workbook_tools.summary.key_facts import KeyFact
from workbook_tools.summary.key_facts import facts as known_facts
from workbook_tools.summary.rows import Row

# So many changes stand on a page; the data has them all.
_MOST_TOLD = 40
_MOST_FACTS = 6
# Digits of a number that the page has no longer.
_UNKNOWN_DIGITS = 4
# Digits after the point at which two numbers are told apart at the latest.
_MOST_DIGITS = 9


class Change(NamedTuple):
    """One change, in words: of what, in which cell, what it was and what it is."""

    what: str
    cell: str
    was: str
    now: str


@dataclass(frozen=True)
class Revision:
    """The revision of a record.

    number: 2 for the second copy; on: the day that its book was saved, "" where that does not
    say it; released: whether the book is dated finished; counts: in words; facts: key facts
    that changed; changes: everything, those that no page has room for left out.
    """

    number: int
    on: str
    released: bool
    counts: str
    facts: tuple[Change, ...]
    changes: tuple[Change, ...]

    @property
    def name(self) -> str:
        """What it is called: "revision 2 of 2026-03-01"."""
        number = f"revision {self.number}" if self.released else f"draft of revision {self.number}"
        return f"{number} of {self.on}" if self.on else number

    @property
    def facts_told(self) -> str:
        """The key facts that changed, a sentence for whoever owns the engine."""
        if not self.facts:
            return "no key fact."
        told = [f"{c.what} {c.was or 'no value'} → {c.now or 'no value'}" for c in self.facts]
        rest = len(told) - _MOST_FACTS
        more = [f"and {rest} more"] if rest > 0 else []
        return "; ".join((*told[:_MOST_FACTS], *more)) + "."


def is_released(data: Data) -> bool:
    """Whether a build is dated finished."""
    return bool(data["job"]["finished"]["text"])


def revision_data(earlier: Data | None, data: Data, saved: str) -> dict[str, Any] | None:
    """The revision of a build as its data has it, None for a first copy.

    earlier: the data of the copy before, which tells nothing where it is of another job; data:
    of this one, without its revision; saved: when the book was saved. Only a book that was
    changed after it was released makes a new revision. Until it is released anew, all its
    changes are told as one. Raises nothing.
    """
    if earlier is None or earlier["job"]["number"]["text"] != data["job"]["number"]["text"]:
        return None
    before: dict[str, Any] | None = earlier["revision"]
    if earlier["book"]["sha256"] == data["book"]["sha256"]:
        return before
    since = changes(earlier, data)
    if is_released(earlier):
        if not any(since.values()):
            return before
        return {"number": before["number"] + 1 if before else 2, "on": saved[:10], **since}
    if before is None:
        return None
    return {"number": before["number"], "on": saved[:10], **joined(before, since)}


def revision(
    told: Data | None, released: bool, rows: Sequence[Row], facts: Sequence[KeyFact]
) -> Revision | None:
    """A revision in words; rows, facts: the build's, whose digits its numbers have."""
    if told is None:
        return None
    digits = {
        (n.place.sheet, n.place.address): _digits(n.text)
        for row in rows
        for n in row.numbers
        if n.value is not None
    }
    known = {fact.name: fact for fact in facts}
    changed = (_fact(one, known.get(one["name"])) for one in told["facts"])
    return Revision(
        number=told["number"],
        on=told["on"],
        released=released,
        counts=_counts(told),
        facts=tuple(change for change in changed if change.was != change.now),
        changes=_listed(told, digits),
    )


def _listed(told: Data, digits: Mapping[tuple[str, str], int]) -> tuple[Change, ...]:
    def cell(one: Data) -> str:
        return f"{one['sheet']}!{one['cell']}" if one["cell"] else one["sheet"]

    every = [
        *(Change("Finding gone", cell(one), one["message"], "") for one in told["gone"]),
        *(Change("New finding", cell(one), "", one["message"]) for one in told["found"]),
        *(
            Change(f"Signed: {one['label']}", cell(one), _text(one["was"]), _text(one["is"]))
            for one in told["signed"]
        ),
        *(
            Change(one["label"], cell(one), *_pair(one, digits.get((one["sheet"], one["cell"]))))
            for one in told["values"]
        ),
    ]
    rest = len(every) - _MOST_TOLD
    more = [Change(f"and {rest} more, in the JSON", "", "", "")] if rest > 0 else []
    return (*every[:_MOST_TOLD], *more)


def _counts(told: Data) -> str:
    added = sum(one["was"] is None for one in told["signed"])
    other = len(told["signed"]) - added
    counted = (
        (len(told["values"]), "value changed", "values changed"),
        (added, "signature added", "signatures added"),
        (other, "signature changed", "signatures changed"),
        (len(told["gone"]), "finding gone", "findings gone"),
        (len(told["found"]), "new finding", "new findings"),
    )
    some = [f"{n:,} {one if n == 1 else many}" for n, one, many in counted if n]
    return ", ".join(some) or "nothing that is compared"


def _fact(one: Data, fact: KeyFact | None) -> Change:
    places = _digits(fact.row.result.split(" to ")[0]) if fact else None
    sides = ("largest",) if one["name"] in _largest_alone() else ("least", "largest")
    return Change(one["name"], "", *(_extent(one[at], sides, places) for at in ("was", "is")))


def _extent(told: Data | None, sides: Sequence[str], places: int | None) -> str:
    if told is None or told["least"] is None:
        return ""
    ends = dict.fromkeys(_shown(told[side], places) for side in sides)
    return f"{' to '.join(ends)} {told['unit']}".strip()


@cache
def _largest_alone() -> frozenset[str]:
    """The key facts of which only the largest number counts."""
    return frozenset(fact.name for fact in known_facts() if fact.most)


def _pair(one: Data, places: int | None) -> tuple[str, str]:
    """What a number was and is, with as many digits as tell the two apart."""
    was, now = _text(one["was"], places), _text(one["is"], places)
    finer = places or 0
    while was == now and finer < _MOST_DIGITS:
        finer += 1
        was, now = _text(one["was"], finer), _text(one["is"], finer)
    return was, now


def _text(told: Data | None, places: int | None = None) -> str:
    if told is None:
        return ""
    return f"{_shown(told['value'], places)} {told['unit']}".strip()


def _shown(value: Any, places: int | None) -> str:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    return f"{value:.{_UNKNOWN_DIGITS}g}" if places is None else f"{value:,.{places}f}"


def _digits(text: str) -> int:
    """Digits after the point of a number as shown."""
    return len(text.partition(".")[2])
