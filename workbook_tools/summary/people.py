"""Who measured, assembled, checked and released an engine, as its book says."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from workbook_tools.jobs.mark_words import did_of
from workbook_tools.jobs.paper_records import Mark

ORDER = ("Measured", "Assembled", "Checked", "Released")
# Longer texts are remarks; a tick names nobody.
_LONGEST = 30
_TICK = re.compile(r"yes|y|x|ok|done|ja|oui|sí|si|✓|✔|true", re.IGNORECASE)


@dataclass(frozen=True)
class Signed:
    """What was done, by whom (each name once, who signed most first), and places left empty."""

    did: str
    names: tuple[str, ...]
    empty: int


def people(marks: Iterable[Mark]) -> tuple[Signed, ...]:
    """Who did what, one for each of ORDER. Raises nothing."""
    names: dict[str, Counter[str]] = {did: Counter() for did in ORDER}
    empty: Counter[str] = Counter()
    for mark in marks:
        did = did_of(mark.label.text)
        if not did:
            continue
        if mark.state == "empty":
            empty[did] += 1
        elif mark.state == "made" and _is_name(mark.said):
            names[did][mark.said] += 1
    return tuple(
        Signed(did, tuple(name for name, _ in names[did].most_common()), empty[did])
        for did in ORDER
    )


def _is_name(said: str) -> bool:
    return 0 < len(said) <= _LONGEST and not _TICK.fullmatch(said)
