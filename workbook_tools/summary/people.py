"""Who measured, assembled, checked and released an engine, as its book says."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from workbook_tools.jobs.records import Mark

# What whoever stands beside or below such words did, in five languages.
_DID: dict[str, re.Pattern[str]] = {
    "Released": re.compile(
        r"lead builder|release|approved|passed|signed off|sign-?off|handed over|freigegeben"
        r"|libéré|liberado|rilasciato",
        re.IGNORECASE,
    ),
    "Checked": re.compile(
        r"seen|checked|witness|inspected|second|geprüft|gesehen|contrôlé|vu par|revisado|visto"
        r"|controllato|verificato",
        re.IGNORECASE,
    ),
    "Measured": re.compile(
        r"read|measured|weighed|gauged|gemessen|gewogen|mesuré|pesé|medido|pesado|misurato",
        re.IGNORECASE,
    ),
    "Assembled": re.compile(
        r"done|assembled|fitted|filed|set|torqued|built|montiert|eingestellt|monté|réglé"
        r"|montado|ajustado|montato|registrato",
        re.IGNORECASE,
    ),
}
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
        did = next((d for d, p in _DID.items() if p.match(mark.label.text)), "")
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
