"""How a build stands: one word, the counts behind it, and the numbers that its findings go by."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, get_args

from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.records import Book

Word = Literal["not read", "incomplete", "deviations", "not judged", "within"]
# The worst first.
WORDS: tuple[Word, ...] = get_args(Word)
# What a finding's number begins with, by its kind.
LETTERS: Mapping[FindingKind, str] = {
    "out of band": "D",
    "disagreement": "D",
    "unit slip": "D",
    "copied reading": "D",
    "missing reading": "M",
    "not signed": "U",
    "unreadable": "N",
    "stale result": "S",
    "never calculated": "S",
    "close to the limit": "C",
}
LETTER_WORDS: Mapping[str, str] = {
    "D": "deviation",
    "M": "missing",
    "U": "not signed",
    "N": "not read",
    "S": "stale or never calculated",
    "C": "close to a limit",
}
# A book of which less than this share of numbers was understood tells nothing of its engine.
_LEAST_READ = 0.5


@dataclass(frozen=True)
class Standing:
    """How a build stands.

    word: the worst that holds; deviations, missing, unsigned, not_read, stale, close: findings
    that are open; accepted: those that somebody accepted, and so are not; wanted, measured:
    readings that the book's results and tables want, and those taken.
    """

    word: Word
    deviations: int = 0
    missing: int = 0
    unsigned: int = 0
    not_read: int = 0
    stale: int = 0
    close: int = 0
    accepted: int = 0
    wanted: int = 0
    measured: int = 0

    @property
    def rank(self) -> tuple[int, ...]:
        """A key that sorts the worst build first."""
        counts = (
            self.deviations,
            self.missing,
            self.not_read,
            self.unsigned,
            self.stale,
            self.close,
        )
        return WORDS.index(self.word), *(-count for count in counts)

    @property
    def counts(self) -> tuple[str, ...]:
        """The counts in words, only what there is; what was measured always."""
        told = (
            (self.deviations, "deviation", "deviations"),
            (self.accepted, "accepted", "accepted"),
            (self.missing, "missing", "missing"),
            (self.unsigned, "not signed", "not signed"),
            (self.not_read, "not read", "not read"),
            (self.stale, "stale", "stale"),
            (self.close, "close to a limit", "close to a limit"),
        )
        some = tuple(f"{n:,} {one if n == 1 else many}" for n, one, many in told if n)
        if self.word == "not judged":
            some = ("no number has a band", *some)
        return (*(some or ("no deviation",)), f"measured {self.measured:,} of {self.wanted:,}")


def numbered(findings: Sequence[Finding]) -> tuple[str, ...]:
    """The number of each finding, in their order: D1, D2 for deviations, M1 for what is missing."""
    counted: Counter[str] = Counter()
    numbers = []
    for finding in findings:
        letter = LETTERS[finding.kind]
        counted[letter] += 1
        numbers.append(f"{letter}{counted[letter]}")
    return tuple(numbers)


def standing(
    book: Book,
    findings: Iterable[Finding],
    required: Mapping[str, Any],
    key: frozenset[str],
    judged: int,
) -> Standing:
    """How a build stands.

    required: what the book's results and tables want, as the data of a build has it; key: the
    measurands an engine is known by, which must not stay a question; judged: how many numbers
    a band judges, for without any nothing is known to be within. Raises nothing.
    """
    told = list(findings)
    letters = Counter(LETTERS[f.kind] for f in told if f.accepted is None)
    asked = sum(r.state == "asked" and r.measurand in key for r in book.readings)
    return Standing(
        word=_word(book, letters, asked, judged),
        deviations=letters["D"],
        missing=letters["M"],
        unsigned=letters["U"],
        not_read=letters["N"] + asked,
        stale=letters["S"],
        close=letters["C"],
        accepted=sum(f.accepted is not None for f in told),
        wanted=required["wanted"],
        measured=required["measured"],
    )


def _word(book: Book, letters: Mapping[str, int], asked: int, judged: int) -> Word:
    if not _is_read(book):
        return "not read"
    if asked or any(letters[letter] for letter in "MUNS"):
        return "incomplete"
    if letters["D"]:
        return "deviations"
    return "within" if judged else "not judged"


def _is_read(book: Book) -> bool:
    """Whether enough of a book was understood to say anything of the engine."""
    if not book.readings and not book.records:
        return False
    typed = len(book.readings)
    understood = sum(r.state != "not understood" for r in book.readings)
    return bool(book.records) or understood >= _LEAST_READ * typed
