"""What a code of a finding stands for, and the kinds that findings are told under."""

from __future__ import annotations

from typing import Literal, NamedTuple

FindingKind = Literal[
    "out of band",
    "close to the limit",
    "missing reading",
    "not signed",
    "stale result",
    "never calculated",
    "disagreement",
    "copied reading",
    "unit slip",
    "unreadable",
]


class Code(NamedTuple):
    """What a code stands for.

    kind: the heading it is told under; meaning: one line; settle: what ends it; example: one
    with numbers, a line.
    """

    kind: FindingKind
    meaning: str
    settle: str
    example: str
