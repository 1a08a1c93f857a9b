"""Copied parts: a cylinder whose readings are those of its neighbor, line for line."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise

from workbook_tools.findings.copied import ENOUGH, is_measured
from workbook_tools.findings.evidence import Evidence, number_at, of_what
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.records import Reading

# Readings of fewer lines than these may agree where a gauge is coarse.
FEWEST_LINES = 5

Line = Mapping[int, Reading]


def check_copied_parts(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each cylinder, journal or valve that reads as the one before it.

    It does so in all lines, or in many that follow one another. What the equal readings of a
    line say together is how seldom two others of it are equal.
    """
    tables: dict[tuple[str, str], list[Line]] = defaultdict(list)
    for row in evidence.rows:
        label = row[0].label
        if label is None or not is_measured(row) or any(r.state != "read" for r in row):
            continue
        line = {n: r for r in row if r.label and (n := number_at(r.label.position)) is not None}
        if len(line) == len(row):
            tables[row[0].place.sheet, of_what(label.position)].append(line)
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
            if sum(_bits(line, before, after) for line in same) >= ENOUGH + choices:
                yield _finding(same, before, after, len(both))


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
