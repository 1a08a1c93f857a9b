"""Open at release: a finished date although signatures or ticks are missing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Mark
from workbook_tools.labels.vocabulary import meaning_of

# So many of the open places of one head are named, the others are counted.
_MOST_NAMED = 4


# So many marks of one head show that the others were forgotten.
_FEWEST_SIGNED = 2


def check_release(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each line or head of which marks are open in a book that is dated finished.

    A missing reading says itself whether the engine is dated finished.
    """
    finished = evidence.finished_on
    heads: dict[Place, list[Mark]] = {}
    for mark in evidence.book.marks if finished else ():
        heads.setdefault(mark.head, []).append(mark)
    for marks in heads.values():
        for state, code in (("empty", "missing-signature"), ("no", "marked-not-done")):
            missing = [mark for mark in marks if mark.state == state and not _is_as_found(mark)]
            few = state == "empty" and 0 < len(marks) - len(missing) < _FEWEST_SIGNED
            if missing and not few:
                yield _finding(code, missing, len(marks), finished)


def _is_as_found(mark: Mark) -> bool:
    """Whether a mark is of a row as found, which was not good and is why the work was done."""
    return mark.state == "no" and meaning_of(mark.label.position).stage == "found"


def _finding(code: str, missing: Sequence[Mark], all_of_head: int, finished: str) -> Finding:
    first = missing[0]
    name = first.label.text
    places = ", ".join(map(_named, missing[:_MOST_NAMED]))
    rest = len(missing) - _MOST_NAMED
    more = f" and {rest} more" if rest > 0 else ""
    if first.place == first.head and code == "missing-signature":
        text = f"{name} ({first.place.address}) has nothing beside it."
    elif first.place == first.head:
        text = f"{name} ({first.place.address}) says {first.said}."
    elif code == "missing-signature":
        text = f"{name} is empty for {len(missing)} of {all_of_head}: {places}{more}."
    else:
        text = f"{name} says {first.said} for {places}{more}."
    return Finding(
        code,
        first.place,
        f"{text} The engine is dated finished ({finished}).",
        "Have it signed by whoever did or saw it."
        if code == "missing-signature"
        else "Have it done and say so, or say why it is not needed.",
        tuple(mark.place for mark in missing[1:]),
    )


def _named(mark: Mark) -> str:
    address = mark.place.address
    return f"{mark.label.position} ({address})" if mark.label.position else address
