"""Formulas of the table of measurands that hold between the lines of a job."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import islice, product

from workbook_tools.labels.arithmetic import OfTwo
from workbook_tools.labels.line import At, Line, Option
from workbook_tools.labels.sizes import si_factor, si_of, size_weight
from workbook_tools.labels.vocabulary import NO_SIZES
from workbook_tools.labels.weights import weights
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.order import Order, evaluate
from workbook_tools.measurands.table import all_measurands, of_property
from workbook_tools.quantities import System

# Where all lines have one number for the whole engine.
_WHOLE: At = (0, "", "")


@dataclass(frozen=True)
class Relation:
    """A formula of the table of measurands that holds between lines: {line: measurand}."""

    terms: tuple[tuple[int, str], ...]
    weight: int
    words: str


@cache
def formulas() -> tuple[tuple[Measurand, Order], ...]:
    """The measurands that follow from two or three others, each with how."""
    return tuple(
        (one, order)
        for one in all_measurands()
        for order in one.orders
        if order.relation == "=" and 1 < len(order.names) <= 3 and "**" not in order.formula
    )


def relations(lines: Sequence[Line], system: System | None) -> list[Relation]:
    """The formulas that hold between the lines of a job, whatever their words."""
    by_name: dict[str, list[int]] = defaultdict(list)
    for number, line in enumerate(lines):
        for option in line.options:
            likely = option.weight > weights().relations.least_said
            if likely and line.stage not in NO_SIZES and not line.is_of_other_side(option.term):
                by_name[option.term.id].append(number)
    return [
        relation
        for one, order in formulas()
        for result in by_name.get(one.id, ())
        for inputs in _inputs(one, order, by_name)
        if (relation := _relation(one, order, lines, result, inputs, system)) is not None
    ]


# Cylinders of an engine at most, and how near their volume a displacement is stated.
_MOST_CYLINDERS, _STATED = 16, 0.012


# What a cylinder displaces of which words may say so.
_OF_ONE = "cylinder_volume"


def displacements(lines: Sequence[Line], system: System | None) -> Iterator[Relation]:
    """The displacements that a bore, a stroke and a whole number of cylinders give."""

    def sizes_of(name: str, line: Line) -> list[float]:
        term = next((o.term for o in line.options if o.term.id == name), None)
        told = [] if term is None or line.stage in NO_SIZES else line.sizes[:1]
        found = (si_of(term, n, line.unit, line.system or system) for n in told if term)
        return [size for size in found if size]

    named = []
    for name in ("displacement", "bore", "stroke"):
        named.append([(n, size) for n, line in enumerate(lines) for size in sizes_of(name, line)])
        if not named[-1]:
            return
    for (total, si), (bore, across), (stroke, along) in islice(
        product(*named), weights().relations.most_tried
    ):
        one = math.pi / 4 * across**2 * along
        count = round(si / one)
        if len({total, bore, stroke}) < len(named) or not 1 <= count <= _MOST_CYLINDERS:
            continue
        if abs(si / one - count) <= _STATED * count:
            of_one = count == 1 and any(o.term.id == _OF_ONE for o in lines[total].options)
            whole = _OF_ONE if of_one else "displacement"
            terms = ((total, whole), (bore, "bore"), (stroke, "stroke"))
            yield Relation(
                terms, weights().relations.of_few, f"bore and stroke of {count} give it:"
            )


def made_relations(lines: Sequence[Line], made: Mapping[int, OfTwo]) -> list[Relation]:
    """The formulas of the table that the book's own formulas are, by the lines that they take.

    made: the lines that lines are worked out from.
    """
    return [
        relation
        for number, of_two in made.items()
        for option in lines[number].options
        for order in option.term.orders
        for relation in _made(number, option.term, order, of_two, lines)
    ]


def _made(
    number: int, term: Measurand, order: Order, of_two: OfTwo, lines: Sequence[Line]
) -> Iterator[Relation]:
    if order.relation != "=" or len(order.names) != 2:
        return
    if order.formula != f" {of_two.sign} ".join(order.names):
        return
    pairs = [(of_two.first, of_two.second)]
    if of_two.sign == "+":
        pairs.append((of_two.second, of_two.first))
    for pair in pairs:
        told = [
            next((o.term.id for o in lines[n].options if o.term.id in _members(name, term)), "")
            for n, name in zip(pair, order.names, strict=True)
        ]
        if all(told):
            terms = ((number, term.id), *zip(pair, told, strict=True))
            has_it = "numbers have" if of_two.typed else "formula has"
            words = f"{term.name} = {order.formula}, as its {has_it} it:"
            yield Relation(terms, weights().relations.by_formula, words)


def may_be_what_their_formulas_give(lines: Sequence[Line], made: Mapping[int, OfTwo]) -> None:
    """Let a line whose words say nothing be what its own formula is for: bore less piston."""
    for number, of_two in made.items():
        line = lines[number]
        unsaid = all(_is_against(option, line) for option in line.options)
        if not unsaid or line.stage in NO_SIZES or of_two.sign != "-":
            continue
        by_formula = [
            term
            for term in all_measurands()
            for order in term.orders
            for _ in _made(number, term, order, of_two, lines)
        ]
        told = [term for term in by_formula if term.of == line.told]
        line.options = [_unsaid(term) for term in dict.fromkeys(told or by_formula)] or line.options
    for number, of_two in made.items():
        _name_what_is_taken(lines[number], of_two, lines)


def _unsaid(term: Measurand) -> Option:
    """What a line may be though its words say nothing."""
    of = weights().words
    return Option(term, of.vague, of.said - of.vague * of.a_step)


def _is_against(option: Option, line: Line) -> bool:
    """Whether the sizes of a line are against what its words say."""
    return option.weight + size_weight(option, line, line.system) <= 0


def _name_what_is_taken(result: Line, of_two: OfTwo, lines: Sequence[Line]) -> None:
    """Let the lines that a clearance takes be what it is of, where their words say nothing."""
    taken = [lines[of_two.first], lines[of_two.second]]
    open_ones = [all(_is_against(o, line) for o in line.options) for line in taken]
    if result.stage in NO_SIZES or of_two.sign != "-" or not any(open_ones):
        return
    for option in (o for o in result.options[:2] if o.cost <= 1):
        for order in option.term.orders:
            if not order.is_difference:
                continue
            for line, is_open, name in zip(taken, open_ones, order.names, strict=True):
                named = [find(member) for member in _members(name, option.term)]
                known = {o.term.id for o in line.options}
                if is_open and not known & {m.id for m in named if m}:
                    line.options += [_unsaid(m) for m in named if m and m.id not in known]


_Inputs = tuple[tuple[int, str], ...]


def _inputs(one: Measurand, order: Order, by_name: Mapping[str, Sequence[int]]) -> list[_Inputs]:
    """The lines that may be what a formula takes, in every combination."""
    choices = [
        [(n, m) for m in _members(name, one) for n in by_name.get(m, ())] for name in order.names
    ]
    return list(islice(product(*choices), weights().relations.most_tried))


def _relation(
    one: Measurand, order: Order, lines: Sequence[Line], result: int, inputs: _Inputs,
    system: System | None,
) -> Relation | None:  # fmt: skip
    """A formula as a relation of these lines, None where it does not hold."""
    numbers = [result, *(n for n, _ in inputs)]
    if len(set(numbers)) < len(numbers):
        return None
    holds = _holds(one, order, lines, numbers, [m for _, m in inputs], system)
    if not holds:
        return None
    words = f"{one.name} = {order.formula} in {holds} of {len(lines[result].values)}:"
    of = weights().relations
    weight = of.of_many if holds >= of.many else of.of_few
    # A difference of two is known by its form, whatever it comes to (made_relations).
    if len(inputs) > 2 and all(lines[n].cells & lines[result].referred for n, _ in inputs):
        words, weight = f"{words[:-1]}, by the book's own formula:", of.by_formula
    return Relation(((result, one.id), *inputs), weight, words)


def _members(name: str, beside: Measurand) -> tuple[str, ...]:
    if find(name) is not None:
        return (name,)
    return tuple(m.id for m in of_property(name) if m.of == beside.of)


def _holds(
    one: Measurand, order: Order, lines: Sequence[Line], numbers: Sequence[int],
    names: Sequence[str], system: System | None,
) -> int:  # fmt: skip
    """In how many places a formula holds, 0 where it does not in all but a few."""
    result = lines[numbers[0]]
    factor = si_factor(one, result.unit, result.system or system)
    inputs = [
        _input(name, find(taken), lines[n], system)
        for name, taken, n in zip(order.names, names, numbers[1:], strict=True)
    ]
    if factor is None or None in inputs:
        return 0
    slack = _slack(one, result, system)
    most = weights().relations.most_of
    held = told = 0
    for place, number in result.by_place.items():
        values = {}
        for name, to_si, known, lone in (one for one in inputs if one):
            size = known.get(place, lone)
            if size is None:
                break
            values[name] = size * to_si
        if len(values) < len(inputs):
            continue
        stated, worked = number * factor, _worked(order, values)
        if worked is None:
            return 0
        told += 1
        held += abs(worked - stated) <= slack + 1e-9 * abs(stated)
        if (told - held) * most > len(result.by_place):
            return 0  # The places that are left cannot make up for those where it does not.
    if told == 0 or held * most < told * (most - 1) or (told < most and held < told):
        return 0
    return held


def _input(
    name: str, term: Measurand | None, line: Line, system: System | None
) -> tuple[str, float, Mapping[At, float], float | None] | None:
    """What a formula takes from a line: what makes its numbers SI, and these by their places.

    The last is a lone number, which holds for every place. None where nothing makes them SI.
    """
    factor = si_factor(term, line.unit, line.system or system) if term else None
    if factor is None:
        return None
    known = dict(line.by_place)
    if len({at for _, _, at in known}) == 1:
        # Where all were taken at one place it tells none apart: "bottom of skirt".
        known |= {(number, bank, ""): n for (number, bank, _), n in line.by_place.items()}
    return name, factor, known, known.get(_WHOLE) if len(line.by_place) == 1 else None


def _worked(order: Order, values: Mapping[str, float]) -> float | None:
    try:
        return float(evaluate(order.formula, values))
    except (ArithmeticError, ValueError, KeyError):
        return None


def _slack(one: Measurand, line: Line, system: System | None) -> float:
    """How far a worked value may be off one written with so many decimals."""
    step = si_of(one, 10.0**-line.decimals, line.unit, line.system or system)
    return 1.01 * abs(step or 0.0)
