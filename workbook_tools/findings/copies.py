"""Copies of one job: several books of a batch with its number, its customer and its readings."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from typing import Protocol

from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.records import Book
from workbook_tools.measurands import Position

# Books are copies where so much of the one with fewer readings stands in the other as well.
_ALIKE = 0.7
_FEWEST = 3
# A later copy with fewer readings than this part of another's is one that was not filled in.
_COMPLETE = 0.9
# Of the hash of each reading.
DIGEST_BYTES = 8


class OfAJob(Protocol):
    """A book's build, or what a batch keeps of it.

    saved: when, as the book says, "" where it does not; numbers: see `numbers_of`.
    """

    @property
    def file_name(self) -> str: ...  # noqa: D102
    @property
    def sha256(self) -> str: ...  # noqa: D102
    @property
    def part(self) -> str: ...  # noqa: D102
    @property
    def job(self) -> Job: ...  # noqa: D102
    @property
    def saved(self) -> str: ...  # noqa: D102
    @property
    def numbers(self) -> bytes: ...  # noqa: D102


@dataclass(frozen=True)
class Copies:
    """Books of one job by their numbers among all, and the one of them that counts, and why."""

    books: tuple[int, ...]
    counted: int
    why: str


# All cylinders of all books are the same few.
@lru_cache(maxsize=1024)
def _words(part: Position) -> str:
    return str(part)


def numbers_of(book: Book) -> bytes:
    """The readings of a book as sorted hashes of 8 bytes: what each measures, and how much."""
    told = {
        blake2b(
            repr((r.measurand, _words(r.part), r.stage, r.value)).encode(),
            digest_size=DIGEST_BYTES,
        ).digest()
        for r in book.readings
        if r.state == "read"
    }
    return b"".join(sorted(told))


def copies_of_jobs(books: Sequence[OfAJob]) -> tuple[Copies, ...]:
    """The books that are copies of one job, each group with the one that counts.

    The same file twice, or the same job number and customer with nearly the same readings. The
    one saved last counts, unless another is clearly more complete.
    """
    groups: dict[tuple[str, str], list[list[int]]] = {}
    for n, book in enumerate(books):
        number = book.job.number.text.casefold()
        of_file = groups.setdefault(("", f"{book.sha256} {book.part}"), [])
        of_number = groups.setdefault(("number", number), []) if number else []
        group = next(
            (g for g in (*of_file, *of_number) if any(_is_copy(books[m], book) for m in g)), None
        )
        if group is None:
            group = []
            of_file.append(group)
            if number:
                of_number.append(group)
        group.append(n)
    found = {id(g): g for listed in groups.values() for g in listed if len(g) > 1}
    return tuple(_counted(books, tuple(group)) for group in found.values())


def _is_copy(one: OfAJob, other: OfAJob) -> bool:
    if (one.sha256, one.part) == (other.sha256, other.part):
        return True
    if one.sha256 == other.sha256:
        return False  # Two jobs of one file.
    customers = {b.job.customer.text.casefold() for b in (one, other)} - {""}
    same, fewer = _shared(one, other)
    return len(customers) < 2 and fewer >= _FEWEST and same >= _ALIKE * fewer


def _shared(one: OfAJob, other: OfAJob) -> tuple[int, int]:
    """How many readings two books share, and how many the one with fewer has."""
    here, there = _hashes(one), _hashes(other)
    return len(here & there), min(len(here), len(there))


def _hashes(book: OfAJob) -> set[int]:
    return set(array("Q", book.numbers))


def _counted(books: Sequence[OfAJob], group: tuple[int, ...]) -> Copies:
    # Of equals the first by name, whatever order the books came in.
    named = sorted(group, key=lambda n: (books[n].file_name, books[n].sha256, n))
    most = max(len(books[n].numbers) for n in group)
    latest = max(named, key=lambda n: (books[n].saved, len(books[n].numbers)))
    if len(books[latest].numbers) >= _COMPLETE * most:
        times = {books[n].saved for n in group}
        why = "it was saved last" if len(times) > 1 else "of equals it is the first"
        if len(times) == 1 and len({len(books[n].numbers) for n in group}) > 1:
            why = "it is the more complete"
        return Copies(group, latest, why)
    fullest = max(named, key=lambda n: (len(books[n].numbers), books[n].saved))
    return Copies(group, fullest, "it is the more complete, though not the one saved last")


def check_copies(books: Sequence[OfAJob]) -> dict[int, tuple[Finding, ...]]:
    """A finding on each book that is one of several copies of a job, by its number in books."""
    found: dict[int, tuple[Finding, ...]] = {}
    for copies in copies_of_jobs(books):
        for n in copies.books:
            found[n] = (_finding(books, copies, n),)
    return found


def _finding(books: Sequence[OfAJob], copies: Copies, n: int) -> Finding:
    job = books[n].job
    listed = "; ".join(_told(books[m]) for m in copies.books)
    counts = "this one" if copies.counted == n else books[copies.counted].file_name
    whose = f"Job {job.number.text}" if job.number.text else "This job"
    return Finding(
        "copies-of-a-job",
        job.number.place,
        f"{whose} has {len(copies.books)} books with nearly the same readings: {listed}. Of these "
        f"{counts} counts in a month, since {copies.why}.",
        "Say which one holds, and take the others out of the folder.",
    )


def _told(book: OfAJob) -> str:
    saved = f", saved {book.saved.replace('T', ' ')}" if book.saved else ""
    count = len(book.numbers) // DIGEST_BYTES
    return f"{book.file_name}{saved}, {count} reading{'' if count == 1 else 's'}"


def aside(books: Sequence[OfAJob]) -> Iterator[tuple[int, int]]:
    """(a copy that does not count, the one that counts in its place), by their numbers."""
    for copies in copies_of_jobs(books):
        for n in copies.books:
            if n != copies.counted:
                yield n, copies.counted
