"""Open at release: a finished date although signatures are missing."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding


def check_release(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each line for a signature left open in a book that is dated finished.

    A missing reading says itself whether the engine is dated finished.
    """
    finished = evidence.finished_on
    for line in evidence.book.unsigned if finished else ():
        name = line.label.text if line.label else "The signature"
        yield Finding(
            "missing-signature",
            line.place,
            f"{name} ({line.place.address}) has nothing beside it. The engine is dated finished "
            f"({finished}).",
            "Have it signed by whoever did or saw it.",
        )
