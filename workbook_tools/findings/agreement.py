"""Two cells that should agree and do not: one item on two sheets, one job number and another."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations

from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import JobField
from workbook_tools.jobs.records import Reading
from workbook_tools.jobs.resolution import resolution
from workbook_tools.measurands import Position, find

# What stays the same through a whole job, whoever asks for it.
_CONSTANTS = ("stroke", "rod_length", "cylinder_count")
# What is measured or chosen once, under whatever name.
_ONE_OF = (
    "crank_end_play", "cam_end_play", "gasket_thickness", "gasket_bore", "rod_length", "stroke",
    "lobe_separation", "intake_rocker_ratio", "exhaust_rocker_ratio", "compression_ratio",
    "head_height",
)  # fmt: skip
# A gasket as it came, and as it is between block and head.
_FREE = re.compile(r"\b(?:free|new|un\w*|non|nicht|ohne|neu|frei\w*|libre|libero|sin|nuev\w*)\b")
_PRESSED = re.compile(r"comp|crush|squeez|gepr|press|serr|écras|schiacc|aplast|apret")
# So many of one part on two sheets, all but one alike, are a copy.
_FEWEST_COPIED = 4
# Names of sheets that hold what is planned: no "Planschleifen", which grinds a face.
_PLAN = re.compile(
    r"(?:plan\w{0,4}|geplant|soll\w*|entwurf|prévu\w*|proyecto|progetto|target\w*)(?!\w)",
    re.IGNORECASE,
)
_DONE = ("", "final", "machined")


def check_agreement(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each pair of cells that should say the same and does not."""
    yield from _twice_entered(evidence)
    yield from _constants(evidence)
    yield from _on_two_sheets(evidence)
    yield from _copied_to_another_sheet(evidence)
    yield from _job_numbers(evidence)


def _twice_entered(evidence: Evidence) -> Iterator[Finding]:
    """A row of readings that stands in the book twice, the same but for one of them."""
    tables: dict[tuple[str, str], list[tuple[Reading, ...]]] = {}
    for row in evidence.rows:
        label = row[0].label
        if label is not None and len(row) > 3 and len({r.label and r.label.text for r in row}) == 1:
            tables.setdefault((label.text.casefold(), label.unit), []).append(row)
    for same in tables.values():
        values = [{r.value for r in row} for row in same]
        for n, first in enumerate(same):
            for m in range(n + 1, len(same)):
                if len(values[n] & values[m]) > 1:
                    yield from _one_apart(first, same[m])


def _one_apart(first: Sequence[Reading], second: Sequence[Reading]) -> Iterator[Finding]:
    there = {r.label.position: r for r in second if r.label is not None}
    pairs = [(r, there[r.label.position]) for r in first if r.label and r.label.position in there]
    apart = [(a, b) for a, b in pairs if not math.isclose(a.number, b.number, rel_tol=1e-9)]
    alike = {a.number for a, b in pairs if math.isclose(a.number, b.number, rel_tol=1e-9)}
    if len(apart) != 1 or len(pairs) < 4 or len(alike) < 2:
        return
    one, other = apart[0]
    if (one.stage, one.part.at) != (other.stage, other.part.at):
        return  # A bore at two heights, or a journal found and polished, may well be the same.
    yield Finding(
        "entered-twice",
        other.place,
        f"{other.name} on {other.place.sheet} is {other.shown}, on {one.place.sheet} "
        f"({one.place.address}) it is {one.shown}; the other {len(pairs) - 1} readings are the "
        "same in both.",
        "Find the first record of this reading, and let one cell refer to the other.",
        (one.place,),
    )


def _constants(evidence: Evidence) -> Iterator[Finding]:
    """One size of the whole engine, entered twice under the same name and differently."""
    if len({f.text for f in evidence.book.job_numbers}) > 1:
        return  # Several jobs in one book each have their own.
    first: dict[tuple[str, str], Size] = {}
    for size in (s for name in _CONSTANTS for s in evidence.of(name) if s.typed):
        if size.label is None or size.label.position:
            continue
        known = first.setdefault((size.measurand, size.label.text.casefold()), size)
        if not math.isclose(known.si, size.si, rel_tol=1e-6):
            yield Finding(
                "entered-twice",
                size.place,
                f"{size.name} on {size.place.sheet} is {size.shown}; on {known.place.sheet} "
                f"({known.place.address}) it is {known.shown}.",
                "Correct the wrong one, and let one cell refer to the other.",
                (known.place,),
            )


def _on_two_sheets(evidence: Evidence) -> Iterator[Finding]:
    """What there is one of in an engine, measured once on each of two sheets, and differently.

    Rounding is no difference, nor is what was found before the work, or is wanted.
    """
    if len({f.text for f in evidence.book.job_numbers}) > 1:
        return
    found: dict[str, list[Size]] = defaultdict(list)
    for size in evidence.sizes:
        known = size.typed and size.sure and size.stage in _DONE and _is_of_whole(size)
        if known and not evidence.is_in_a_sentence(size) and not _is_planned(size):
            found[size.measurand].append(size)
    for sizes in found.values():
        sheets = {s.place.sheet for s in sizes}
        names = {s.label.text.casefold() for s in sizes if s.label}
        told = len(names) == 1 and sizes[0].measurand in _CONSTANTS
        if told or len(sizes) != 2 or len(sheets) != 2 or _is_the_same(*sizes):
            continue
        if sizes[0].measurand == "gasket_thickness" and _is_one_free(*sizes):
            continue
        first, second = sizes
        yield Finding(
            "entered-twice",
            second.place,
            f"{second.name} on {second.place.sheet} is {second.shown}; on {first.place.sheet}, "
            f"{first.name} is {first.shown}.",
            "Find the first record of it, and let one cell refer to the other.",
            (first.place,),
        )


def _copied_to_another_sheet(evidence: Evidence) -> Iterator[Finding]:
    """A size of one of several that another sheet has otherwise, where it repeats all others."""
    found: dict[str, dict[str, dict[Position, Size]]] = defaultdict(lambda: defaultdict(dict))
    for size in evidence.sizes:
        known = size.typed and size.sure and size.part.number and size.stage in _DONE
        if known and not _is_planned(size):
            found[size.measurand][size.place.sheet][size.part] = size
    for sheets in found.values():
        for one, other in combinations(sheets.values(), 2):
            both = [part for part in one if part in other]
            apart = [part for part in both if not _is_the_same(one[part], other[part])]
            alike = {one[part].si for part in both if part not in apart}
            if len(apart) != 1 or len(both) < _FEWEST_COPIED or len(alike) < 2:
                continue
            labels = {s.label.text.casefold() for s in (one[both[0]], other[both[0]]) if s.label}
            if len(labels) < 2:
                continue  # Of one label the same is told already.
            first, second = one[apart[0]], other[apart[0]]
            yield Finding(
                "entered-twice",
                second.place,
                f"{second.name} on {second.place.sheet} is {second.shown}; on {first.place.sheet}, "
                f"{first.name} is {first.shown}. The other {len(both) - 1} are the same on both.",
                "Find the first record of it, and let one cell refer to the other.",
                (first.place,),
            )


def _is_one_free(one: Size, other: Size) -> bool:
    """Whether one gasket may be as it came, and the other as it is pressed together."""
    texts = [s.label.text.casefold() if s.label else "" for s in (one, other)]
    if any(_FREE.search(text) for text in texts):
        return True
    pressed = [_PRESSED.search(text) is not None for text in texts]
    thicker = one.si > other.si
    return pressed == [not thicker, thicker]


def _is_planned(size: Size) -> bool:
    """Whether a size stands on a sheet of what is planned, and not of what was built."""
    return _PLAN.match(size.place.sheet) is not None


def _is_of_whole(size: Size) -> bool:
    """Whether there is one of it in an engine, and its words name none of several."""
    term = find(size.measurand)
    if term is None or size.part.which or (size.label is not None and size.label.position):
        return False
    return size.measurand in _ONE_OF


def _is_the_same(one: Size, other: Size) -> bool:
    """Whether two numbers are the same, give or take what the coarser is rounded by."""
    steps = [resolution([s.number]) / abs(s.number) for s in (one, other) if s.number]
    return abs(one.si - other.si) <= 0.51 * max(steps, default=0.0) * abs(one.si) + 1e-12


def _job_numbers(evidence: Evidence) -> Iterator[Finding]:
    """A sheet with another job's number, in a book whose sheets refer to each other."""
    book = evidence.book
    linked = {
        (r.place.sheet, a.place.sheet)
        for r in book.records
        for a in r.arguments
        if a.place is not None and a.place.sheet != r.place.sheet
    }
    for n, field in enumerate(book.job_numbers[1:], 1):
        for other in book.job_numbers[:n]:
            if field.text.casefold() == other.text.casefold() or not _linked(field, other, linked):
                continue
            yield Finding(
                "job-number",
                field.place,
                f"{_sheet(field)} gives the job number {field.text}, {_sheet(other)} gives "
                f"{other.text}, and one takes numbers from the other.",
                "See whether the sheet was left from another job, and correct the number.",
                (other.place,) if other.place else (),
            )
            break


def _sheet(field: JobField) -> str:
    return f"sheet {field.place.sheet}" if field.place else "the book"


def _linked(one: JobField, other: JobField, linked: set[tuple[str, str]]) -> bool:
    if one.place is None or other.place is None:
        return False
    here, there = one.place.sheet, other.place.sheet
    return (here, there) in linked or (there, here) in linked
