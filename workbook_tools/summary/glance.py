"""What a stranger to an engine looks for first: its ratio, its quench, its worst clearance."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from workbook_tools.summary.key_facts import KeyFact, shortened
from workbook_tools.summary.rows import Number, Row

RATIO = "Compression ratio"
# Cold is what a rule measures; a book that only works out the warm engine still has a quench.
QUENCHES = {"Quench, cold": "Quench", "Quench, hot": "Quench, hot",
            "Quench, at speed": "Quench, at speed"}  # fmt: skip


class Glance(NamedTuple):
    """One thing told at a glance: its name, the number with its unit, and what is said of it.

    verdict: what its band says, "" where none judges it.
    """

    name: str
    text: str
    said: str
    verdict: str


def glance(facts: Sequence[KeyFact]) -> tuple[Glance, ...]:
    """The ratio, the quench and the worst clearance of a build, as its key facts tell them.

    The worst clearance is the one farthest outside its band, or within it nearest to a limit,
    in shares of the band's width. Raises nothing: what a book lacks is said.
    """
    known = {fact.name: fact for fact in facts}
    quenches = [known[name] for name in QUENCHES if name in known]
    quench = next((fact for fact in quenches if fact.row.measured), next(iter(quenches), None))
    return (
        _told("Ratio", known.get(RATIO)),
        _told(QUENCHES[quench.name] if quench and quench.row.measured else "Quench", quench),
        _worst([fact for fact in facts if fact.clearance]),
    )


def _told(name: str, fact: KeyFact | None) -> Glance:
    if fact is None or not fact.row.measured:
        return Glance(name, "", "no value" if fact else "not in the book", "")
    text = f"{fact.row.result} {fact.unit}".strip()
    return Glance(name, text, fact.verdict, fact.row.worst)


def _worst(clearances: Sequence[KeyFact]) -> Glance:
    judged = [
        (_room(number, fact.row), order, fact, number)
        for order, fact in enumerate(clearances)
        for number in fact.row.numbers
        if number.value is not None and (number.verdict or _doubts(number))
    ]
    if not judged:
        said = "none has a band" if clearances else "not in the book"
        return Glance("Worst clearance", "", said, "")
    _, _, fact, number = min(judged, key=lambda one: one[:2])
    where = f"{shortened(number.position)}, " if len(fact.row.numbers) > 1 else ""
    band = number.band or fact.row.band
    if not number.verdict:
        said = f"{fact.name}, {where}in doubt: {', '.join(_doubts(number))}"
        return Glance("Worst clearance", f"{number.text} {fact.unit}".strip(), said, "")
    verdict = f"within {band}" if number.verdict == "ok" else f"{number.verdict}, band {band}"
    said = f"{fact.name}, {where}{verdict}"
    return Glance("Worst clearance", f"{number.text} {fact.unit}".strip(), said, number.verdict)


def _doubts(number: Number) -> tuple[str, ...]:
    """The findings that doubt a number."""
    return tuple(told for told in number.told if told.startswith("D"))


def _room(number: Number, row: Row) -> float:
    """How far inside its band a number is, in shares of the band; negative outside it.

    What a finding doubts and no band judges comes before all that is within.
    """
    if not number.verdict:
        return 0.0
    value = number.value or 0.0
    low, high = row.low, row.high
    least = math.inf if low is None else value - low
    most = math.inf if high is None else high - value
    width = high - low if low is not None and high is not None else abs(low or high or 0.0)
    room = min(least, most) / width if width > 0 else math.inf
    # Where bands differ from position to position, the row has only the outermost.
    return min(room, 0.0) - 1.0 if number.verdict in ("low", "high") else max(room, 0.0)
