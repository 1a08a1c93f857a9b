"""A finding: one thing that a summary has to warn about, and how several become one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.codes import CODES
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Acceptance
from workbook_tools.jobs.records import Record
from workbook_tools.jobs.uncertainty import Uncertainty
from workbook_tools.labels.label import Label

# What a message says of the others of its group stands here; no cell can hold this.
MORE = "\0"
# What such findings say of a cell may be why it is out of its limits.
_CAUSES: tuple[FindingKind, ...] = ("unit slip", "disagreement")
# A finding names no more other cells than these.
MOST_ALSO = 5


@dataclass(frozen=True)
class Finding:
    """code: one of CODES; the cell it is about, None for the whole book; one sentence; what to do.

    also: the other cells that it is about; accepted: who has accepted it, None while it is open.
    Until it is settled: group: what it has in common
    with others that are told as one; explains: cells of which no weaker finding needs to be
    told; rests_on: cells that an explanation of makes it needless; waits: the result that there
    is none of, told with what explains it; aside: what it says where another finding tells why its
    cell is as it is. Raises ValueError for an unknown code.
    """

    code: str
    place: Place | None
    message: str
    advice: str
    also: tuple[Place, ...] = ()
    accepted: Acceptance | None = None
    group: tuple[str, ...] = field(default=(), compare=False, repr=False)
    explains: frozenset[Place] = field(default=frozenset(), compare=False, repr=False)
    rests_on: frozenset[Place] = field(default=frozenset(), compare=False, repr=False)
    waits: str = field(default="", compare=False, repr=False)
    aside: str = field(default="", compare=False, repr=False)

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise ValueError(f"code: expected one of {sorted(CODES)}, got {self.code!r}")

    @property
    def kind(self) -> FindingKind:
        """What it is told under."""
        return CODES[self.code].kind

    @property
    def places(self) -> tuple[Place, ...]:
        """Every cell that it is about."""
        return (*((self.place,) if self.place else ()), *self.also)


def settle(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings that need to be told, those of a group as one.

    findings: the stronger ones first. What a stronger one explains is left out.
    """
    found = _with_causes(list(findings))
    explained: dict[Place, int] = {}
    for n, finding in enumerate(found):
        for place in finding.explains:
            explained.setdefault(place, n)
    groups: dict[tuple[str, ...], list[Finding]] = {}
    waiting: dict[int, list[str]] = {}
    for n, finding in enumerate(found):
        by = min((explained.get(place, n) for place in finding.rests_on), default=n)
        if by >= n:
            groups.setdefault(finding.group or (str(n),), []).append(finding)
        elif finding.waits:
            waiting.setdefault(by, []).append(finding.waits)
    for n, results in waiting.items():
        cause = found[n]
        several = groups.get(cause.group or (str(n),), [])
        # What explains it may be explained itself by what is told.
        if cause in several:
            several[several.index(cause)] = replace(cause, message=cause.message + _wait(results))
    return tuple(map(_as_one, groups.values()))


def _with_causes(findings: Sequence[Finding]) -> list[Finding]:
    """The findings, where one on the same cell tells why another is so, both as that one."""
    asides = {f.place: f for f in reversed(findings) if f.aside}
    told: list[Finding] = []
    gone: set[int] = set()
    for finding in findings:
        aside = asides.get(finding.place)
        if aside is None or finding.aside or finding.kind not in _CAUSES:
            told.append(finding)
            continue
        gone.add(id(asides.pop(finding.place)))
        told.append(
            replace(
                finding,
                message=f"{finding.message} {aside.aside}",
                also=tuple(dict.fromkeys((*aside.also, *finding.also))),
                explains=finding.explains | aside.explains,
            )
        )
    return [f for f in told if id(f) not in gone]


def _wait(results: Sequence[str]) -> str:
    """A sentence on results that have no value for the same cause."""
    listed = " and ".join(results)
    return f" {listed[0].upper()}{listed[1:]} wait{'s' * (len(results) == 1)} for it too."


def _as_one(group: Sequence[Finding]) -> Finding:
    first = group[0]
    alike = len({f.place for f in group}) - 1
    more = f" (and {alike} more like it)" if alike else ""
    places = (*(f.place for f in group[1:]), *first.also, *(p for f in group[1:] for p in f.also))
    also = tuple(dict.fromkeys(p for p in places if p is not None and p != first.place))
    return replace(
        first,
        message=first.message.replace(MORE, more),
        also=also[:MOST_ALSO],
        group=(),
        explains=frozenset(),
        rests_on=frozenset(),
        waits="",
        aside="",
    )


def named(label: Label | None, place: Place) -> str:
    """What the book calls a cell, with its address."""
    return f"{label} ({place.address})" if label else place.address


def result_named(record: Record, place: Place) -> str:
    """What the book calls a result; what the batch computes is told at a cell that it takes."""
    if record.place.address:
        return named(record.label, place)
    return f"{record.label or record.name}, worked out from {place.address} and others,"


def shown(value: float, unit: str = "") -> str:
    """A number with its unit, as people write it."""
    text = f"{value:.6g}"
    return f"{text} {unit}" if unit else text


def measured(value: float, unit: str) -> str:
    """A number that was worked out with its unit, with the digits that can be measured."""
    return f"{measurable(value, unit)} {unit}".strip()


# Decimals that a builder's gauges give, by unit.
_DECIMALS = {"in": 4, "mm": 3, "cc": 1, "g": 1, "psi": 1, "deg": 1, "lbf": 1, "N": 0, "lbf.ft": 1}
_MOST_MORE = 2


def measurable(value: float, unit: str, others: Sequence[float] = ()) -> str:
    """A number with as many digits as can be measured in its unit, up to six significant.

    others: numbers that it is compared with; where it would read like one of them that it is
    not, it gets a digit or two more.
    """
    full = f"{value:.6g}"
    decimals = _DECIMALS.get(unit)
    if decimals is None or "e" in full or len(full.partition(".")[2]) <= decimals:
        return full
    for more in range(_MOST_MORE + 1):
        text = f"{value:.{decimals + more}f}"
        if all(f"{other:.{decimals + more}f}" != text for other in others):
            break
    return text.rstrip("0").rstrip(".")


def call_of(record: Record) -> str:
    """A call with its cell; what the batch computes stands in none."""
    return f"{record.name} in {record.place.address}" if record.place.address else record.name


# What to do where a limit lies within the uncertainty of what it judges.
MEASURE_FINER = (
    "Measure it with a gauge of less uncertainty, or agree with the customer who bears that."
)


def cannot_tell(known: Uncertainty, side: str) -> str:
    """A sentence on the limit that lies within the uncertainty of a number (ISO 14253-1).

    Then neither that it keeps the limit nor that it does not is proved; the verdict stands as
    simple acceptance gives it.
    """
    if not side:
        return ""
    return (
        f"Its {side} limit lies within the expanded uncertainty of {known.shown} (k = 2): "
        "cannot tell."
    )


_SENTENCE = re.compile(
    r"\b(?:is|are|was|were|says?|means?|meant|usually|write|see)\b|[;!?]", re.IGNORECASE
)


def words_of(label: Label | None) -> str:
    """The words of a label with its position; "" for a sentence that only stands near a cell.

    "A card's lash is usually meant hot" says nothing of the number below it.
    """
    return "" if label is None else _unless_sentence(str(label))


@lru_cache(maxsize=4096)
def _unless_sentence(text: str) -> str:
    return "" if _SENTENCE.search(text) else text
