"""What a book states against what its own sizes give: one check for every measurand.

The table of measurands says which sizes a number follows from (a clearance is a bore less a
piston). Where all of them stand in the book for one position, the stated number must agree
within what the decimals allow. Where it does not, the one slip that would make them agree is
looked for: a digit, a turn of the micrometer, a side counted for both, a sign, two exchanged.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from workbook_tools.findings.evidence import Evidence, Size, resolution
from workbook_tools.findings.finding import Finding, shown
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.order import Order, evaluate
from workbook_tools.measurands.table import all_measurands, of_property
from workbook_tools.quantities import LENGTH, from_si, to_si

# A relation of this many inputs at most: more of them carry too much rounding.
_MOST_INPUTS = 4
# Of a row this share must agree, for the others to be slips and not another meaning.
_MOST_AGREE = 0.5
# A number without others beside it is doubted only where it is this far off, as a share.
_FAR_ALONE = 0.005
# As much may the bores of one engine differ, for one of them to stand for all.
_ALIKE = 0.001
# A length that is never above this (SI) is read to a thousandth of an inch at least.
_SMALL = 0.012
_FINEST = {"inch": 0.001, "metric": 0.01}
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


@dataclass(frozen=True)
class Relation:
    """A stated number with what its inputs give, of one position; slack: what decimals allow."""

    term: Measurand
    order: Order
    stated: Size
    inputs: tuple[tuple[str, Size], ...]
    worked: float
    slack: float

    @property
    def holds(self) -> bool:
        """Whether both agree."""
        return abs(self.worked - self.stated.si) <= self.slack


def check_proof(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each stated number that the sizes it follows from contradict."""
    steps = _steps(evidence)
    for term, order in _orders():
        relations = list(_relations(evidence, term, order, steps))
        apart = [r for r in relations if not r.holds]
        agreeing = len(relations) - len(apart)
        if not apart:
            continue
        if agreeing >= _MOST_AGREE * len(relations) and agreeing:
            yield from (_finding(r) for r in apart)
        elif len(relations) == 1 and _is_far(apart[0]):
            yield _finding(apart[0])


def _is_far(relation: Relation) -> bool:
    """Whether a lone number is so far off that a slip, or an older size, must be in it."""
    stated = relation.stated
    if abs(relation.worked - stated.si) <= _FAR_ALONE * abs(stated.si):
        return False
    return bool(_slip(relation)) or not stated.typed


@cache
def _orders() -> tuple[tuple[Measurand, Order], ...]:
    return tuple(
        (one, order)
        for one in all_measurands()
        for order in one.orders
        if order.relation == "=" and 1 < len(order.names) <= _MOST_INPUTS
    )


def _relations(
    evidence: Evidence, term: Measurand, order: Order, steps: Mapping[tuple[str, str], float]
) -> Iterator[Relation]:
    """The relation at each position where all of it stands in the book."""
    stated = [s for s in _read(evidence, term.id) if s.call is None and s.measurand == term.id]
    inputs = {name: _by_position(evidence, name, term) for name in order.names}
    if not stated or not all(inputs.values()):
        return
    for size in stated:
        maker = evidence.makers.get(size.place)
        if maker is not None and not maker.computed_by_batch:
            continue  # A call of ours is recomputed already.
        if size.typed and term.id == "displacement":
            continue  # An advertised size is rounded by more than its digits say.
        found = [(name, _at(inputs[name], size)) for name in order.names]
        if any(s is None for _, s in found):
            continue
        given = tuple((name, s) for name, s in found if s is not None)
        worked = _worked(order, {name: s.si for name, s in given})
        if worked is None:
            continue
        yield Relation(term, order, size, given, worked, _slack(order, size, given, worked, steps))


def _read(evidence: Evidence, name: str) -> Iterator[Size]:
    """The finished sizes of a measurand that were read without a question."""
    for size in evidence.finished(name):
        reading = evidence.by_place.get(size.place)
        if reading is None or reading.state == "read":
            yield size


def _by_position(
    evidence: Evidence, name: str, term: Measurand
) -> Mapping[tuple[int, str], Sequence[Size]]:
    """The finished sizes of a measurand, or of the property as the same part has it."""
    names = [name] if find(name) else [m.id for m in of_property(name) if m.of == term.of]
    found: dict[tuple[int, str], list[Size]] = defaultdict(list)
    for one in names:
        for size in _read(evidence, one):
            found[size.part.number, size.part.bank].append(size)
    return found


def _at(sizes: Mapping[tuple[int, str], Sequence[Size]], stated: Size) -> Size | None:
    """The size of the same position, or the one that there is for all; None where two differ."""
    here = sizes.get((stated.part.number, stated.part.bank)) or sizes.get((0, ""))
    if here is None and not stated.part.number:
        # Of the whole engine: any of them stands for the others, where all are nearly alike.
        every = [s for several in sizes.values() for s in several]
        least, most = min(s.si for s in every), max(s.si for s in every)
        here = every[:1] if most - least <= _ALIKE * abs(most) else None
    if not here:
        return None
    same = [s for s in here if s.place.sheet == stated.place.sheet] or list(here)
    first = same[0]
    if any(abs(s.si - first.si) > 1e-9 + 1e-7 * abs(first.si) for s in same):
        return None
    return first


def _worked(order: Order, values: Mapping[str, float]) -> float | None:
    try:
        worked = float(evaluate(order.formula, values))
    except (ArithmeticError, ValueError, KeyError):
        return None
    return worked


def _slack(
    order: Order, stated: Size, inputs: Sequence[tuple[str, Size]], worked: float,
    steps: Mapping[tuple[str, str], float],
) -> float:  # fmt: skip
    """How far both may be apart by the decimals that they are written with."""
    slack = steps.get(_line(stated), 0.0) / 2
    values = {name: s.si for name, s in inputs}
    for name, size in inputs:
        moved = _worked(order, {**values, name: values[name] + steps.get(_line(size), 0.0) / 2})
        slack += abs((moved if moved is not None else worked) - worked)
    return 1.05 * slack + 1e-9 * abs(worked)


def _line(size: Size) -> tuple[str, str]:
    return size.place.sheet, size.measurand


def _steps(evidence: Evidence) -> Mapping[tuple[str, str], float]:
    """The finest digit that each measurand is written with on a sheet, in SI."""
    written: dict[tuple[str, str], list[Size]] = defaultdict(list)
    for size in evidence.sizes:
        if size.typed:
            written[_line(size)].append(size)
    steps = {}
    for line, sizes in written.items():
        first = sizes[0]
        step = resolution([s.number for s in sizes if s.unit == first.unit])
        if first.kind is LENGTH and (term := find(first.measurand)) and term.usual[1] < _SMALL:
            step = min(step, _FINEST[first.system])  # ".030" is no reading to a hundredth.
        origin = to_si(0.0, first.kind, first.system)
        steps[line] = abs(to_si(step, first.kind, first.system) - origin)
    return steps


def _finding(relation: Relation) -> Finding:
    stated = relation.stated
    worked = from_si(relation.worked, stated.kind, stated.system)
    from_what = ", ".join(_given(name, s, stated) for name, s in relation.inputs)
    slip = _slip(relation)
    advice = "Look up the first record of each, and measure again before anything is changed."
    if not stated.typed and not slip:
        slip = " Its formula was last calculated with other numbers."
        advice = "Open the book, let it calculate, and save it."
    return Finding(
        "contradicts-its-sizes",
        stated.place,
        f"{stated.name} is {stated.shown}, but {from_what} give "
        f"{shown(_rounded(worked, stated), stated.unit)}.{slip}",
        advice,
        tuple(s.place for _, s in relation.inputs if s.place != stated.place),
        explains=frozenset({stated.place, *(s.place for _, s in relation.inputs)}),
    )


def _given(name: str, size: Size, stated: Size) -> str:
    """An input as the book calls it, or by what it measures where it has no cell of its own."""
    if size.label is not None and size.place != stated.place:
        return f"{size.name} {size.shown}"
    term = find(size.measurand)
    return f"{(term.name if term else name).lower()} {size.shown}"


def _rounded(worked: float, stated: Size) -> float:
    """A worked number with a digit more than the stated one is written with."""
    digits = len(f"{stated.number:.6g}".partition(".")[2])
    return round(worked, min(6, digits + 1))


def _slip(relation: Relation) -> str:
    """The one slip that would make both agree, in words; "" where none would."""
    stated = relation.stated
    for factor, words in _FACTORS:
        if abs(stated.si * factor - relation.worked) <= relation.slack * max(1, abs(factor)):
            return f" They agree if {stated.name} {words}."
    values = {name: s.si for name, s in relation.inputs}
    for name, size in relation.inputs:
        for number, words in _misread(size):
            si = to_si(number, size.kind, size.system)
            worked = _worked(relation.order, {**values, name: si})
            if worked is not None and abs(worked - stated.si) <= relation.slack:
                return f" They agree if {size.name} is {shown(number, size.unit)} ({words})."
    own = [*_misread(stated), *((n, "one digit misread") for n in _other_digit(stated))]
    for number, words in own:
        if abs(to_si(number, stated.kind, stated.system) - relation.worked) <= relation.slack:
            return f" They agree if {stated.name} is {shown(number, stated.unit)} ({words})."
    return ""


def _misread(size: Size) -> Iterator[tuple[float, str]]:
    """What a number can have been before one slip of hand or eye, and which slip that is."""
    if not size.typed:
        return
    for number in _exchanged(size.number):
        yield number, "two digits exchanged"
    if size.kind is LENGTH:
        for turn in _TURNS.get(size.system, ()):
            for sign in (1, -1):
                yield round(size.number + sign * turn, 6), "one turn of the micrometer"
    yield size.number * 10, "the decimal point slipped"
    yield size.number / 10, "the decimal point slipped"


def _exchanged(number: float) -> Iterator[float]:
    text = f"{number:.8g}"
    for at in range(len(text)):
        for behind in range(at + 1, min(at + 3, len(text))):
            if text[at].isdigit() and text[behind].isdigit() and text[at] != text[behind]:
                between = text[at + 1 : behind]
                yield float(text[:at] + text[behind] + between + text[at] + text[behind + 1 :])


def _other_digit(size: Size) -> Iterator[float]:
    text = f"{size.number:.8g}" if size.typed else ""
    for at, digit in enumerate(text):
        if digit.isdigit():
            for other in "0123456789":
                if other != digit:
                    yield float(text[:at] + other + text[at + 1 :])
