"""The one slip that would make a stated number and its sizes agree, in words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from workbook_tools.findings.evidence import Size, measurands_of
from workbook_tools.findings.finding import measured
from workbook_tools.findings.relations import Relation
from workbook_tools.quantities import COUNT, LENGTH, to_si

_TURNS = {"inch": (0.025, 0.1), "metric": (0.5,)}
_FACTORS = (
    (2.0, "is one side of it, and both together are meant"),
    (0.5, "is twice what is meant"),
    (-1.0, "has its sign the wrong way round"),
    (10.0, "has its decimal point one place too far left"),
    (0.1, "has its decimal point one place too far right"),
    (1000.0, "stands in whole units where thousandths belong"),
    (0.001, "stands in thousandths"),
)
_INCH = 25.4
_MOST_CYLINDERS = 16


def slip(relation: Relation) -> str:
    """A sentence that says by which one slip both would agree, "" where by none."""
    found = next((words for works, words in _slips(relation) if works), "")
    return f" They agree {found}." if found else ""


def slip_of_rough(relation: Relation) -> str:
    """The same of a number that is only stated roughly, which misread digits do not explain."""
    found = [words for works, words in (*_exchanged(relation), *_counted(relation)) if works]
    found += [words for works, words in _turned(relation) if works]
    return f" They agree {' or '.join(found)}." if found else ""


def _slips(relation: Relation) -> Iterator[tuple[bool, str]]:
    stated = relation.stated
    for factor, words in _FACTORS:
        off = abs(stated.si * factor - relation.worked)
        yield off <= relation.slack * max(1, abs(factor)), f"if {stated.name} {words}"
    yield from _exchanged(relation)
    for key, size in relation.sizes.items():
        for number, words in _misread(size):
            si = to_si(number, size.kind, size.system)
            told = f"if {size.name} is {measured(number, size.unit)} ({words})"
            yield _agrees(relation, {key: si}), told
    yield from _turned(relation)
    yield from _counted(relation)
    for number, words in (*_misread(stated), *_other_digit(stated)):
        off = abs(to_si(number, stated.kind, stated.system) - relation.worked)
        told = measured(number, stated.unit)
        yield off <= relation.slack, f"if {stated.name} is {told} ({words})"


def _agrees(relation: Relation, changed: dict[str, float], share: float = 1.0) -> bool:
    values = {key: size.si for key, size in relation.sizes.items()} | changed
    worked = relation.work(values)
    return worked is not None and abs(worked - relation.stated.si) <= relation.slack * share


def _exchanged(relation: Relation) -> Iterator[tuple[bool, str]]:
    """Two sizes of one kind, each typed for the other."""
    for (one, first), (other, second) in combinations(relation.sizes.items(), 2):
        if first.kind is second.kind and first.si != second.si:
            words = f"if {_named(first)} and {_named(second)} are exchanged"
            yield _agrees(relation, {one: second.si, other: first.si}), words


def _named(size: Size) -> str:
    return size.measurand.replace("_", " ")


def _counted(relation: Relation) -> Iterator[tuple[bool, str]]:
    """Another number of cylinders, or of whatever else is counted."""
    for key, size in relation.sizes.items():
        for count in range(1, _MOST_CYLINDERS + 1) if size.kind is COUNT else ():
            if count != size.number:
                what = _named(size).removesuffix("_count").removesuffix(" count")
                words = f"with {count} {what if what.endswith('s') else what + 's'}"
                # One cylinder more of sixteen is a small step: half of what is allowed.
                yield _agrees(relation, {key: float(count)}, 0.5), words


def _turned(relation: Relation) -> Iterator[tuple[bool, str]]:
    """A size that may be below zero, with its sign the wrong way round."""
    for key, size in relation.sizes.items():
        if size.si and any(m.signed for m in measurands_of(size.measurand)):
            words = f"if {size.name} has its sign the wrong way round"
            yield _agrees(relation, {key: -size.si}), words


def _misread(size: Size) -> Iterator[tuple[float, str]]:
    """What a number can have been before one slip of hand or eye, and which slip that is."""
    if not size.typed:
        return
    for number in digits_exchanged(size.number):
        yield number, "two digits exchanged"
    if size.kind is LENGTH:
        for turn in _TURNS.get(size.system, ()):
            for sign in (1, -1):
                yield round(size.number + sign * turn, 6), "one turn of the micrometer"
        for factor in (_INCH, 1 / _INCH):
            yield round(size.number * factor, 6), "inches and millimeters taken for each other"
    yield size.number * 10, "the decimal point slipped"
    yield size.number / 10, "the decimal point slipped"


def digits_exchanged(number: float, step: float = 0.0) -> Iterator[float]:
    """A number with two of its digits exchanged that stand side by side or about a third.

    step: the one that it was written in, whose last digits may be zeros: 4.035 was 4.0350.
    """
    text = f"{number:.8g}"
    decimals = round(-math.log10(step)) if 0 < step < 1 else 0
    if len(text.partition(".")[2]) < decimals and "e" not in text:
        text = f"{number:.{decimals}f}"
    for at in range(len(text)):
        for behind in range(at + 1, min(at + 3, len(text))):
            if text[at].isdigit() and text[behind].isdigit() and text[at] != text[behind]:
                between = text[at + 1 : behind]
                yield float(text[:at] + text[behind] + between + text[at] + text[behind + 1 :])


def _other_digit(size: Size) -> Iterator[tuple[float, str]]:
    text = f"{size.number:.8g}" if size.typed else ""
    for at, digit in enumerate(text):
        if digit.isdigit():
            for other in "0123456789":
                if other != digit:
                    yield float(text[:at] + other + text[at + 1 :]), "one digit misread"
