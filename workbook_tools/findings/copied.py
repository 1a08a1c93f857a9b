"""Copied readings: a row of readings that is identical in two jobs of a batch."""

from __future__ import annotations

import math
import re
from array import array
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, partial
from hashlib import blake2b
from itertools import pairwise
from sys import intern
from typing import NamedTuple, Protocol

from workbook_tools.books.places import order_of
from workbook_tools.findings.evidence import Evidence, evidence_of, measurands_of, number_at, spot
from workbook_tools.findings.finding import MOST_ALSO, Finding
from workbook_tools.findings.log_rows import fine_of, side_by_side
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.records import Book, Reading
from workbook_tools.quantities import ANGLE, CAM_ANGLE, COUNT, ROTATION

# How much the identical rows of two books must say together, in bits: that many would agree
# by chance once in four thousand comparisons. A row says the more the more its readings
# scatter; equal sizes, as of shells or gaskets, say nothing.
ENOUGH = 12.0
# For up to so many pairs of like rows in a batch, and for so many choices, in bits, of the rows
# that could agree: in more of them chance has more to try.
PAIRS = 10
CHOICE = 3.0
FEWEST = 4
# A row is compared with those of this many earlier books that have it.
MOST_HOLDERS = 20
_LIMITS = re.compile(
    r"\b(least|most|min(?:imum)?|max(?:imum)?|low|high|limit|wanted|target|spec|nominal|band)\b",
    re.IGNORECASE,
)


# Words for what is set, ordered or counted out, where no measurand says it.
_CHOSEN = re.compile(
    r"\b(?:nos?|number|qty|quantity|count|price|part|lash|preload|thickness|marked|catalog)\b",
    re.IGNORECASE,
)
# The readings of a job that stand alone, as in a log of a job a row: so many that are all the
# same are a copy, and what each of them says at least, in bits.
_FEWEST_ALONE, _BITS_ALONE = 8, 2.0
# In a log of a job a row nothing else is copied with them, as from a form.
_FEWEST_IN_LOG, _BITS_IN_LOG = 7, 2.2
# What a size with many digits says besides, where another engine has it.
_BITS_OF_FINE = 5.0
# Strokes of one kind of engine differ by less than this share, as they are written.
_SAME_STROKE = 0.02
_MEASURED = (
    "bore",
    "piston_diameter",
    "_clearance",
    "_gap",
    "_play",
    "_journal",
    "quench",
    "chamber_volume",
    "cranking_pressure",
)


class Block(NamedTuple):
    """A row of readings, as little of it as tells whether another book has the same.

    values: a hash of them in the order of their cylinders; readings: how many; size: about how
    large they are; bits: what they say together; stroke: of the engine in SI, where only engines
    of another stroke do not have the same by right, else 0.0.
    """

    name: str
    place: Place
    values: bytes
    readings: int
    size: str
    bits: float
    stroke: float = 0.0

    @property
    def like(self) -> tuple[str, int, str]:
        """What it has in common with rows of other engines of the same size."""
        return self.name.casefold(), self.readings, self.size

    @property
    def shared(self) -> Block:
        """The same with texts that all books share, so that many books take little room."""
        place = Place(intern(self.place.sheet), intern(self.place.address))
        return self._replace(name=intern(self.name), place=place, size=intern(self.size))


class Measured(Protocol):
    """A book, or what a batch keeps of one."""

    @property
    def file_name(self) -> str: ...  # noqa: D102
    @property
    def sha256(self) -> str: ...  # noqa: D102
    @property
    def part(self) -> str: ...  # noqa: D102
    @property
    def job(self) -> Job: ...  # noqa: D102


def check_batch(books: Sequence[Book]) -> dict[int, tuple[Finding, ...]]:
    """Findings that only several books together show, by the number of the book in books.

    A row of measured readings that another job's book has too, reading for reading. Books of
    one job, by number or by content, are one another's copies by right.
    """
    return check_blocks(books, [blocks_of(book) for book in books])


def check_blocks(
    books: Sequence[Measured], rows_of: Sequence[Sequence[Block]]
) -> dict[int, tuple[Finding, ...]]:
    """The same from each book's rows of readings, when the books themselves are gone."""
    blocks = [{b.values: b for b in own} for own in rows_of]
    alike = Counter(block.like for own in rows_of for block in own)
    holders: dict[bytes, list[int]] = {}
    found: dict[int, list[Finding]] = {}
    for n, one in enumerate(books):
        near = sorted({m for values in blocks[n] for m in holders.get(values, ())})
        for values in blocks[n]:
            # What many books hold in common is their form's, whoever had it first.
            if len(known := holders.setdefault(values, [])) < MOST_HOLDERS:
                known.append(n)
        for m in near:
            other = books[m]
            if _same_job(one, other):
                continue
            both = blocks[n].keys() & blocks[m].keys()
            both = {v for v in both if _may_be_copied(blocks[n][v], blocks[m][v])}
            if one.sha256 == other.sha256:
                # A sheet of a file that is no job's alone is read with each of them.
                both = {v for v in both if blocks[n][v].place != blocks[m][v].place}
            shared = sorted(both, key=partial(_weight, blocks[n]))
            if not shared:
                continue
            bits = sum(blocks[n][v].bits for v in shared)
            compared = len({b.like for b in rows_of[n]} & {b.like for b in rows_of[m]})
            enough = _enough(max(alike[blocks[n][v].like] for v in shared))
            choice = math.log2(math.comb(max(compared, len(shared)), len(shared)))
            if bits < enough + max(0.0, choice - CHOICE):
                continue
            for here, there in ((n, m), (m, n)):
                finding = _finding(shared, blocks[here], blocks[there], books[there])
                found.setdefault(here, []).append(finding)
    return {n: tuple(findings) for n, findings in found.items()}


def _may_be_copied(one: Block, other: Block) -> bool:
    """Whether rows that are the same are of engines that need not have the same."""
    return not one.stroke or not math.isclose(one.stroke, other.stroke, rel_tol=_SAME_STROKE)


def _enough(alike: int) -> float:
    """The bits that two books must share where so many in the batch have rows like theirs."""
    pairs = alike * (alike - 1) / 2
    return ENOUGH + max(0.0, math.log2(max(pairs, 1) / PAIRS))


def _same_job(one: Measured, other: Measured) -> bool:
    if (one.sha256, one.part) == (other.sha256, other.part):
        return True
    number = one.job.number.text.casefold()
    return bool(number) and number == other.job.number.text.casefold()


def blocks_of(book: Book) -> tuple[Block, ...]:
    """The rows of readings of a book that say something about the engine."""
    return tuple(_blocks(book))


def _blocks(book: Book) -> Iterator[Block]:
    evidence = evidence_of(book)
    yield from _alone(evidence)
    yield from _side_by_side(evidence)
    for row in (*evidence.rows, *_at_several_places(evidence)):
        if len({r.label.text for r in row if r.label is not None}) == 1:
            yield from _of_row(row)
    for row in _labeled_apart(evidence):
        yield from _of_row(row)


def _of_row(row: Sequence[Reading]) -> Iterator[Block]:
    """A row of readings, where it says something about the engine."""
    label = row[0].label
    if label is None or len(row) < FEWEST or not is_measured(row):
        return
    bits = _bits(row)
    if bits > 0:
        values = [round(r.number, 9) + 0.0 for r in _by_number(row)]
        told = blake2b(array("d", values).tobytes(), digest_size=16).digest()
        size = f"{sum(values) / len(values):.2g}"
        yield Block(label.text, row[0].place, told, len(values), size, bits)


def _labeled_apart(evidence: Evidence) -> Iterator[tuple[Reading, ...]]:
    """What is measured of several parts that have a label each: "top 1", "top 2"."""
    found: dict[tuple[str, str, str], list[Reading]] = {}
    for r in evidence.named:
        if r.label is not None and r.measurand and r.part.number and r.state == "read":
            found.setdefault((r.place.sheet, r.measurand, r.stage), []).append(r)
    for readings in found.values():
        labels = {r.label.text for r in readings if r.label}
        parts = {r.part.which for r in readings}
        if len(labels) == len(parts) == len(readings) >= FEWEST:
            yield tuple(sorted(readings, key=lambda r: r.part.number))


def _at_several_places(evidence: Evidence) -> Iterator[tuple[Reading, ...]]:
    """Lines of readings of which each part has several: a bore at three heights."""
    found: dict[tuple[str, str, str], list[Reading]] = {}
    for r in evidence.readings:
        if r.label is not None and r.label.position and r.state == "read":
            found.setdefault((r.place.sheet, r.label.text, r.stage), []).append(r)
    for readings in found.values():
        parts = {r.label.position for r in readings if r.label}
        if len(readings) >= FEWEST and 1 < len(parts) < len(readings):
            yield tuple(sorted(readings, key=lambda r: order_of(r.place)))


def _alone(evidence: Evidence) -> Iterator[Block]:
    """The measured readings of a job that stand alone, as one row."""
    single = all(r.part.number <= 1 for r in evidence.readings)
    found = sorted(
        (r.measurand, r.part.number, r.stage, round(r.number, 9), order_of(r.place), r)
        for r in evidence.readings
        if r.state == "read" and r.measurand.endswith(_MEASURED)
        if (single or not r.part.number)
        and r.stage in ("", "final", "machined", "found")
        and r.kind is not COUNT
    )
    kinds = {(measurand, stage) for measurand, _, stage, *_ in found}
    in_log = bool(evidence.book.part) and len({spot(r.place)[0] for *_, r in found}) == 1
    fewest, each = (_FEWEST_IN_LOG, _BITS_IN_LOG) if in_log else (_FEWEST_ALONE, _BITS_ALONE)
    worn = in_log and any(stage == "found" for _, stage in kinds)
    fewest -= worn
    if len(found) < fewest or len(kinds) < fewest - 2:
        return
    text = repr([(name, value) for name, _, _, value, _, _ in found])
    first = min((r for *_, r in found), key=lambda r: order_of(r.place))
    told = blake2b(text.encode(), digest_size=16).digest()
    # No two engines wear alike.
    bits = len(found) * each + (_BITS_OF_FINE - each if worn else 0)
    yield Block("Every measured reading", first.place, told, len(found), "", bits)


def _side_by_side(evidence: Evidence) -> Iterator[Block]:
    """The readings in the row of a log, a few at a time, for engines of another stroke."""
    stroke = next((s.si for s in evidence.of("stroke")), 0.0)
    for window in side_by_side(evidence) if stroke else ():
        text = repr([(r.measurand, r.stage, round(r.number, 9)) for r in window])
        told = blake2b(text.encode(), digest_size=16).digest()
        bits = len(window) * _BITS_IN_LOG + fine_of(window) * _BITS_OF_FINE
        name = window[0].label.text if window[0].label else window[0].measurand
        place = window[0].place
        yield Block(f"{name} and those behind it", place, told, len(window), "", bits, stroke)


def _by_number(row: Sequence[Reading]) -> Sequence[Reading]:
    """A row in the order of its cylinders, whatever order the sheet has: by bank or not."""
    counted = [number_at(r.label.position) if r.label else None for r in row]
    if None in counted or len(set(counted)) < len(row):
        return row  # L1 to L4 and R1 to R4, or readings of one cylinder.
    return [r for _, r in sorted(zip(counted, row, strict=True), key=lambda pair: pair[0] or 0)]


def is_measured(row: Sequence[Reading]) -> bool:
    """Whether a row is readings of parts: no limits, nothing chosen, no counting."""
    label = row[0].label
    limits = label is not None and _says_limits(label.text)
    return not (limits or _set_not_measured(row) or _numbers_parts(row))


_AS_SET = frozenset({ROTATION, ANGLE, CAM_ANGLE})


def _set_not_measured(row: Sequence[Reading]) -> bool:
    """Whether a row was chosen and not measured.

    The speeds of a power run, wheel angles, a lash or a spring as set, gaskets and shims as sold.
    """
    if all(r.kind in _AS_SET for r in row):
        return True
    label = row[0].label
    if label is not None and _says_chosen(label.text):
        return True
    measures = measurands_of(row[0].measurand)
    return bool(measures) and all(m.chosen for m in measures)


@lru_cache(maxsize=4096)
def _says_limits(text: str) -> bool:
    return _LIMITS.search(text) is not None


@lru_cache(maxsize=4096)
def _says_chosen(text: str) -> bool:
    return _CHOSEN.search(text) is not None


def _numbers_parts(row: Sequence[Reading]) -> bool:
    """Whether a row only counts, as which throw a rod is on: 1, 1, 2, 2 and no further."""
    if not all(r.number.is_integer() for r in row):
        return False
    return all(b.number - a.number in (0, 1) for a, b in pairwise(row))


def _bits(row: Sequence[Reading]) -> float:
    """How unlikely it is that another engine of the same size has these readings too.

    The entropy of the readings' own distribution, times their number. It leaves out how
    likely the same size is, and so errs towards saying too little.
    """
    values = [r.value for r in row]
    if len(set(values)) == len(row):
        return len(row) * math.log2(len(row))
    share = [c / len(row) for c in Counter(values).values()]
    return len(row) * -sum(p * math.log2(p) for p in share)


def _weight(rows: Mapping[bytes, Block], values: bytes) -> tuple[float, tuple[str, int, int]]:
    """What says most comes first; of what says as much, what stands first."""
    return -rows[values].bits, order_of(rows[values].place)


def _finding(
    shared: Sequence[bytes],
    here: Mapping[bytes, Block],
    there: Mapping[bytes, Block],
    other: Measured,
) -> Finding:
    first = here[shared[0]]
    listed = "; ".join(
        f"{here[v].name}, {here[v].readings} readings from {here[v].place}" for v in shared[:3]
    )
    more = f"; and {len(shared) - 3} rows more" if len(shared) > 3 else ""
    job = f", job {other.job.number.text}" if other.job.number.text else ""
    return Finding(
        "copied-readings",
        first.place,
        f"{listed}{more}: the same numbers, one by one, as in {other.file_name}{job} "
        f"({there[shared[0]].place}).",
        "Find out which engine was measured, and measure the other one.",
        tuple(here[v].place for v in shared[1 : MOST_ALSO + 1]),
    )
