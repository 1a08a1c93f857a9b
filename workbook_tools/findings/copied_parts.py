"""Copied parts: a cylinder whose readings are those of its neighbor, a bank's of the other bank."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations, pairwise

from workbook_tools.books.places import order_of
from workbook_tools.findings.copied import ENOUGH, is_measured
from workbook_tools.findings.evidence import Evidence, number_at, of_what
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.records import Reading
from workbook_tools.quantities import COUNT

# Readings of fewer lines than these may agree where a gauge is coarse.
FEWEST_LINES = 5
# All readings of one size of a part, a bore at several heights, say as much where they are so
# many, and so many of them differ: a round bore reads the same everywhere.
_FEWEST_OF_ONE, _FEWEST_UNLIKE = 3, 3
# So much readings of one size say that are a copy, and of a bank, in bits: they are compared
# with one other only.
_ENOUGH_OF_ONE, _ENOUGH_OF_BANKS = 8.0, 8.0
# Cylinders of a bank at least.
_FEWEST_IN_BANK = 3

Line = Mapping[int, Reading]


def check_copied_parts(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each cylinder, journal or valve that reads as the one before it.

    It does so in all lines, or in many that follow one another. What the equal readings of a
    line say together is how seldom two others of it are equal.
    """
    tables: dict[tuple[object, ...], list[Line]] = defaultdict(list)
    for row in (one for whole in evidence.rows for one in _by_place_on_part(whole)):
        label = row[0].label
        if label is None or not is_measured(row) or any(r.state != "read" for r in row):
            continue
        line = {n: r for r in row if r.label and (n := number_at(r.label.position)) is not None}
        if len(line) == len(row):
            # Columns over the same rows are of one table: "Rod 1" and "Cyl 1" of one rod.
            along = _lies_along(row) or (of_what(label.position),)
            tables[row[0].place.sheet, *along].append(line)
    told = set()
    for finding in _of_one_size(tables.values()):
        told.add(finding.place)
        yield finding
    for lines in tables.values():
        numbers = sorted({n for line in lines for n in line})
        for before, after in pairwise(numbers):
            both = [line for line in lines if before in line and after in line]
            alike = _longest_run([line[before].si == line[after].si for line in both])
            # Chance has more to try where a run may begin and end anywhere.
            choices = math.log2(len(numbers)) + 2 * math.log2(1 + len(both) - len(alike))
            same = [both[n] for n in alike]
            if len(same) < FEWEST_LINES:
                continue
            enough = sum(_bits(line, before, after) for line in same) >= ENOUGH + choices
            if enough and same[0][after].place not in told:
                yield _finding(same, before, after, len(both))


def _by_place_on_part(row: Sequence[Reading]) -> Iterator[Sequence[Reading]]:
    """A row parted by where on each part it was read: bores at three heights, two ways each."""
    by_place: dict[tuple[str, ...], list[Reading]] = defaultdict(list)
    for reading in row:
        by_place[tuple(reading.part.at)].append(reading)
    return iter(by_place.values())


def _lies_along(row: Sequence[Reading]) -> tuple[object, ...]:
    """The rows that a line of a list goes down, () where it goes across: these are of one table."""
    cells = [order_of(r.place) for r in row]
    rows, columns = {r for _, r, _ in cells}, {c for _, _, c in cells}
    return (min(rows), max(rows)) if len(columns) == 1 < len(rows) else ()


def _of_one_size(tables: Iterable[Sequence[Line]]) -> Iterator[Finding]:
    """Parts of which all readings of one size, taken at several places, are those of the last."""
    for table in tables:
        sizes: dict[tuple[str, str], list[Line]] = defaultdict(list)
        for line in table:
            first = next(iter(line.values()))
            if first.measurand:
                sizes[first.measurand, first.stage].append(line)
        for lines in sizes.values():
            numbers = sorted({n for line in lines for n in line})
            for before, after in pairwise(numbers):
                both = [line for line in lines if before in line and after in line]
                if len(both) < _FEWEST_OF_ONE:
                    continue
                same = all(line[before].si == line[after].si for line in both)
                if not same or len({line[after].si for line in both}) < _FEWEST_UNLIKE:
                    continue
                choices = math.log2(len(numbers) - 1)
                said = sum(_bits(line, before, after) for line in both)
                if said >= _ENOUGH_OF_ONE + choices:
                    yield _finding(both, before, after, len(both))


def check_copied_banks(evidence: Evidence) -> Iterator[Finding]:
    """A finding where the readings of a bank are those of the other bank, one by one."""
    lines: dict[tuple[str, ...], dict[tuple[str, int], Reading]] = defaultdict(dict)
    for r in evidence.named:
        of_cylinders = r.part.of in ("cylinder", "valve", "") and r.part.number and r.measurand
        if of_cylinders and not r.part.last and r.state == "read" and not _is_set(r):
            label = r.label.text if r.label else ""
            key = (r.measurand, r.stage, " ".join(r.part.at), label)
            lines[key][r.part.bank, r.part.number] = r
    for pair_up in (_by_bank, _by_half, _by_turns):
        paired = [pairs for line in lines.values() if (pairs := pair_up(line))]
        same = [
            (_bits_of(pairs), pairs)
            for pairs in paired
            if all(one.si == other.si for one, other in pairs)
        ]
        # Of many lines some are the same by chance.
        choices = math.log2(len(paired)) if paired else 0.0
        if same and sum(bits for bits, _ in same) >= _ENOUGH_OF_BANKS + choices:
            yield _of_a_bank([pairs for _, pairs in sorted(same, key=lambda s: -s[0])])
            return


_SET_TO = re.compile(r"lash|shim|preload|torque|cylinder_count|gasket", re.IGNORECASE)


def _is_set(reading: Reading) -> bool:
    """Whether a number is what something was set to, or of what all were bought alike."""
    return _SET_TO.search(reading.measurand) is not None or reading.kind is COUNT


_Pairs = Sequence[tuple[Reading, Reading]]
_Parts = Mapping[tuple[str, int], Reading]


def _by_bank(line: _Parts) -> _Pairs:
    """The readings of one named bank with those of the other."""
    banks = sorted({bank for bank, _ in line})
    if len(banks) != 2 or not all(banks):
        return ()
    first, second = (sorted(n for b, n in line if b == bank) for bank in banks)
    if len(first) != len(second) or len(first) < _FEWEST_IN_BANK:
        return ()
    return [(line[banks[0], a], line[banks[1], b]) for a, b in zip(first, second, strict=True)]


def _by_half(line: _Parts) -> _Pairs:
    """The first half of the cylinders with the second: 1 to 4 and 5 to 8."""
    numbers = _counted(line)
    half = len(numbers) // 2
    return [(line["", n], line["", n + half]) for n in numbers[:half]]


def _by_turns(line: _Parts) -> _Pairs:
    """The odd cylinders with the even ones: 1 3 5 7 and 2 4 6 8."""
    return [(line["", n], line["", n + 1]) for n in _counted(line)[::2]]


def _counted(line: _Parts) -> Sequence[int]:
    """The numbers of the cylinders of two banks that are counted through, () for others."""
    numbers = sorted(n for bank, n in line if not bank)
    through = numbers == [*range(1, len(numbers) + 1)] and len(numbers) == len(line)
    return numbers if through and len(numbers) in (6, 8, 10, 12) else ()


def _bits_of(pairs: _Pairs) -> float:
    """How little it is to be expected that two banks read the same, by how one of them scatters."""
    own = [one.si for one, _ in pairs]
    others = [*combinations(own, 2)]
    equal = sum(a == b for a, b in others)
    return len(pairs) * math.log2((len(others) + 2) / (equal + 1)) if len({*own}) > 2 else 0.0


def _of_a_bank(lines: Sequence[_Pairs]) -> Finding:
    first = lines[0]
    label = first[0][1].label
    name = label.text if label else first[0][1].measurand
    more = f", and {len(lines) - 1} more lines are" if len(lines) > 1 else " is"
    ours = ", ".join(other.part.which for _, other in first)
    theirs = ", ".join(one.part.which for one, _ in first)
    return Finding(
        "copied-part",
        first[0][1].place,
        f"{name}{more} the same for the cylinders {ours} as for {theirs}, one by one.",
        "Measure this bank again: its readings look copied.",
        tuple(other.place for _, other in first[1:]),
    )


def _longest_run(alike: Sequence[bool]) -> range:
    """The longest run of lines that are alike, one after the other."""
    best, start = range(0), 0
    for n, same in enumerate((*alike, False)):
        if not same:
            best, start = max(best, range(start, n), key=len), n + 1
    return best


def _bits(line: Line, before: int, after: int) -> float:
    """How little it is to be expected that these two of a line are equal, by its other pairs."""
    others = [p for p in combinations(line, 2) if set(p) != {before, after}]
    equal = sum(line[a].si == line[b].si for a, b in others)
    return math.log2((len(others) + 2) / (equal + 1))


def _finding(lines: Sequence[Line], before: int, after: int, of: int) -> Finding:
    first, theirs = lines[0][after], lines[0][before]
    label = first.label
    said = f"all {of}" if len(lines) == of else f"{len(lines)}"
    return Finding(
        "copied-part",
        first.place,
        f"{label.position if label else after} has the same numbers as "
        f"{theirs.label.position if theirs.label else before} in {said} lines.",
        "Measure this one again: its readings look copied.",
        tuple(line[after].place for line in lines[1:]),
    )
