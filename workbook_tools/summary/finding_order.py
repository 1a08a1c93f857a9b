"""The order in which every page tells findings: by kind, then as the book is read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import get_args

from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.records import Book
from workbook_tools.summary.cells import reading_order
from workbook_tools.summary.items import sheet_order

KINDS: tuple[FindingKind, ...] = get_args(FindingKind)


@dataclass(frozen=True)
class FindingGroup:
    """Findings of one kind that follow one another and ask for the same thing to be done.

    told: each with its number on the page.
    """

    kind: FindingKind
    advice: str
    told: tuple[tuple[str, Finding], ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The findings without their numbers."""
        return tuple(finding for _, finding in self.told)


def counted_by_kind(findings: Iterable[Finding]) -> tuple[tuple[FindingKind, int], ...]:
    """(kind, how many are open), only kinds that there are; accepted ones are settled."""
    kinds = [finding.kind for finding in findings if finding.accepted is None]
    return tuple((kind, kinds.count(kind)) for kind in KINDS if kind in kinds)


def sorted_findings(book: Book, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings by kind, then as the book is read."""
    sheets = sheet_order(book)
    return tuple(
        sorted(
            findings,
            key=lambda f: (KINDS.index(f.kind), reading_order(f.place, sheets), f.message),
        )
    )


def grouped(findings: Iterable[Finding], numbers: Iterable[str]) -> tuple[FindingGroup, ...]:
    """Findings in their order, those that ask for the same thing told together.

    numbers: that of each finding.
    """
    told = zip(numbers, findings, strict=True)
    return tuple(
        FindingGroup(kind, advice, tuple(found))
        for (kind, advice), found in groupby(told, lambda one: (one[1].kind, one[1].advice))
    )
