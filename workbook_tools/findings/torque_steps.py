"""Torque sheets: steps that fall, and dry threads where lubricated ones are usual."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import Fastener
from workbook_tools.measurands.tokens import phrase

_STEP = re.compile(
    r"\b(?:step|stage|torque|pass|stufe|schritt|étape|etape|passe|paso|etapa|fase|passo)\b",
    re.IGNORECASE,
)
_NOT_A_STEP = re.compile(r"\b(?:turn|angle|deg|winkel|°|wrench|tool|no)\b", re.IGNORECASE)
_LUBRICANT = re.compile(r"\blub|\bschmier|\boil\b|\bhuile|\blubri", re.IGNORECASE)
_THREADS = re.compile(r"\bdry\b|\boil|\blub|\bmoly|\bpaste|\bwet\b", re.IGNORECASE)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
# Of these the makers' figures are for lubricated threads nearly everywhere (common practice).
_HELD = (
    {"rod"}, {"rods"}, {"main"}, {"mains"}, {"head"}, {"heads"}, {"cylinder", "head"},
    {"pleuel"}, {"bielle"}, {"biella"}, {"biela"}, {"culasse"}, {"culata"}, {"testata"},
)  # fmt: skip
_OF_IT = {"side", "cover", "pan", "bleeder", "temperature", "plug", "exhaust", "intake"}
_DRY = {"dry", "trocken", "sec", "seco", "secco", "a sec"}


def check_torque_steps(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each group of fasteners whose steps fall, or that is held dry."""
    for fastener in evidence.book.office.fasteners:
        yield from _falling(fastener)
        yield from _dry(fastener)


def _falling(fastener: Fastener) -> Iterator[Finding]:
    steps = [
        (head, float(found[0].replace(",", ".")))
        for head, said in fastener.said
        if _STEP.search(head) and not _NOT_A_STEP.search(head)
        if (found := _NUMBER.fullmatch(said.strip().split(" ")[0] if said.strip() else ""))
    ]
    falls = [(a, b) for a, b in pairwise(steps) if b[1] < a[1]]
    if falls:
        listed = ", ".join(f"{number:g}" for _, number in steps)
        yield Finding(
            "torque-steps-fall",
            fastener.place,
            f"{fastener.name} ({fastener.place.address}) is tightened in steps of {listed}: "
            f"{falls[0][1][0]} is less than the step before it.",
            "Look up the maker's steps, and whether the fasteners were tightened by these.",
        )


def _dry(fastener: Fastener) -> Iterator[Finding]:
    words = set(phrase(fastener.name))
    held = any(group <= words for group in _HELD) and words.isdisjoint(_OF_IT)
    torque = any(_STEP.search(head) and any(map(str.isdigit, said)) for head, said in fastener.said)
    # What the figure's own head says of threads is compared by another check.
    said_of_figure = any(_STEP.search(h) and _THREADS.search(h) for h, _ in fastener.said)
    for head, said in fastener.said if held and torque and not said_of_figure else ():
        if _LUBRICANT.search(head) and not _STEP.search(head) and set(phrase(said)) & _DRY:
            yield Finding(
                "dry-threads",
                fastener.place,
                f"{fastener.name} ({fastener.place.address}) has {said} threads. Figures for bolts "
                "of rods, main caps and heads are nearly always for oil or a paste (common "
                "practice): dry, the same torque gives much less tension.",
                "Look up what the maker's figure is for, and tighten again if it is not for dry "
                "threads.",
            )
