"""What sizes say: of a meaning of their line, and of the units of a book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cache

from workbook_tools.labels.line import Line, Option
from workbook_tools.labels.vocabulary import BEARINGS, NO_SIZES, meaning_of
from workbook_tools.labels.weights import weights
from workbook_tools.measurands import Measurand
from workbook_tools.quantities import (
    COUNT,
    FACTOR,
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    SYSTEMS,
    TEMPERATURE,
    System,
    UnreadableText,
    unit_named,
)

_INCH_OR_METRIC: Mapping[str, System] = {
    '"': "inch", "''": "inch", "in": "inch", "inch": "inch", "inches": "inch", "thou": "inch",
    "zoll": "inch", "mm": "metric", "um": "metric", "µm": "metric",
}  # fmt: skip


def si_of(term: Measurand, number: float, unit: str, system: System | None) -> float | None:
    """A number in SI as a measurand, None where its unit is not known or of another kind."""
    factor = si_factor(term, unit, system)
    return None if factor is None else number * factor


def si_factor(term: Measurand, unit: str, system: System | None) -> float | None:
    """What makes numbers SI as a measurand, None where their unit is not known or of another."""
    key = term.kind.name, term.bare_units, unit, system
    if key not in _factors:
        if len(_factors) >= _MOST_FACTORS:
            _factors.clear()
        _factors[key] = _worked_factor(term, unit, system)
    return _factors[key]


# Each meaning of a line is asked for it by each formula that it may be part of.
_factors: dict[tuple[str, tuple[str, str], str, System | None], float | None] = {}
_MOST_FACTORS = 4000


def _worked_factor(term: Measurand, unit: str, system: System | None) -> float | None:
    if term.kind is FACTOR and unit.strip() == PERCENT:
        return 0.01
    if not term.kind.si:
        return None if _is_measured_in(unit) else 1.0
    bare = term.bare_units[0] if term.bare_units[0] == term.bare_units[1] else ""
    spelled = unit or (term.bare_unit(system) if system else bare)
    if not spelled:
        return None
    try:
        kind, factor = unit_named(spelled, term.kind)[:2]
    except UnreadableText:
        return None
    if kind.si != term.kind.si:
        return None
    return factor if kind.name not in ("temperature",) else None


def _is_measured_in(unit: str) -> bool:
    """Whether a unit is one of lengths, pressures and the like, which no bare number has."""
    try:
        return bool(unit) and bool(unit_named(unit)[0].si)
    except UnreadableText:
        return False


def _is_of(term: Measurand, unit: str) -> bool:
    """Whether a unit is one of a measurand's kind, or of none that is known."""
    try:
        return unit_named(unit, term.kind)[0].si == term.kind.si
    except UnreadableText:
        return True


# Lobes seldom lift more (SI): a cam card says the lift at the valve.
_MOST_OF_LOBES = 0.0101
_LOBES = ("lobe", "cam", "tappet", "lifter")
# No instrument shows how rough a surface is with more decimals.
_MOST_OF_ROUGHNESS = 3


def size_weight(option: Option, line: Line, system: System | None) -> int:
    """What the sizes of a line say of one meaning."""
    of = weights().sizes
    if not line.values:
        return of.impossible if line.unit and not _is_of(option.term, line.unit) else 0
    # Of the steps of a torque only the last is the fastener's.
    numbers = [max(line.sizes)] if option.term.of == "fastener_group" else line.sizes
    unit = line.unit or pressure_unit(option.term, line)
    factor = si_factor(option.term, unit, system)
    known = [] if factor is None else [n * factor for n in numbers]
    if _is_of_other_digits(option.term, line):
        return of.impossible
    if known and min(known) >= _MOST_OF_LOBES and option.term.property == "lobe_lift":
        # So much lifts a valve, where no word says that it is the lobe's.
        return of.fit if meaning_of(line.label).part in _LOBES else of.doubtful
    if option.term.possible[0] >= 0:
        known = [abs(s) for s in known]
    if not known:
        # No unit: a meaning that no unit fits is none.
        if line.unit:
            # Degrees have no zero in common with SI: they fit a temperature and nothing else.
            degrees = option.term.kind is TEMPERATURE and _is_of(option.term, line.unit)
            return 0 if degrees else of.impossible
        return of.fit if any(_fit(option, line, s) > of.mostly for s in SYSTEMS) else of.doubtful
    term, least, most = option.term, min(known), max(known)
    within = term.possible[0] <= least and most <= term.possible[1] and not least <= 0 <= most
    if within and term.is_usual(least) and term.is_usual(most):
        return of.fit  # And so are all between.
    usual = sum(term.is_usual(s) for s in known) / len(known)
    possible = sum(term.is_possible(s) for s in known) / len(known)
    if possible <= of.mostly:
        return of.impossible
    return of.fit if usual > of.mostly else of.doubtful


def _is_of_other_digits(term: Measurand, line: Line) -> bool:
    """Whether the digits of sizes tell that they are of something else."""
    # What a formula gives has any number of digits.
    if line.decimals > _MOST_OF_SCALES and line.typed and term.kind in _COARSE:
        return True
    if term.noun == "finish" and line.decimals > _MOST_OF_ROUGHNESS:
        return True  # "Bore, finish hone 4.0202" is a size.
    if term.of in BEARINGS and term.noun in _SIZES_OF_BEARINGS and is_coarse(line.sizes):
        return True  # "Rod brg 2.7 2.5 2.6" is a clearance in thousandths.
    return term.kind is COUNT and any(not float(n).is_integer() for n in line.sizes)


# Bearings and journals are measured finer than with one digit behind the point.
_SIZES_OF_BEARINGS = ("diameter", "inside_diameter", "wall")
_LARGEST_IN_INCHES = 12


def is_coarse(sizes: Sequence[float]) -> bool:
    """Whether sizes differ, with no more than one digit behind the point, as no inches would."""
    differ = len({*sizes}) > 1 and max(sizes) < _LARGEST_IN_INCHES
    return differ and all(round(size, 1) == size for size in sizes)


def may_be_in_parts(line: Line, said: Measurand) -> bool:
    """Whether sizes are too coarse for the bearings that their words say: of parts of an inch."""
    metric = _INCH_OR_METRIC.get(line.unit.strip(" .").casefold()) == "metric"
    return not metric and said.of in BEARINGS and _is_of_other_digits(said, line)


def _fit(option: Option, line: Line, system: System) -> float:
    factor, sizes = si_factor(option.term, "", system), line.sizes
    if factor is None or not sizes:
        return 0.0
    return sum(option.term.is_usual(n * factor) for n in sizes) / len(sizes)


# Scales, dynos and gauges of pressure show no more decimals; what has more is a micrometer's.
_COARSE, _MOST_OF_SCALES = (MASS, POWER, PRESSURE), 2
# No clearance, gap or play is larger (SI); what is so many inches can only be thousandths.
_MOST_IN_THOU, _LEAST_IN_THOU = 0.0027, 0.2
_MOSTLY_IN_THOU = 0.75
# "Main brg" is its bore sooner than its clearance.
_STEPS_OF_COARSE = 3
# Nobody writes thousandths with more decimals: what has more is a size in inches.
_MOST_OF_THOU = 2


def is_in_thou(line: Line, beside_others: bool = False) -> bool:
    """Whether a line of an inch book, whose unit nobody says, can only be in thousandths.

    Its words mean a clearance, a gap or a play, which no engine has in inches so large;
    beside_others: where others of its sheet are, its words may leave more to be assumed. So they
    may where no other size of what they name is written so.
    """
    words = weights().words
    coarse = line.told in BEARINGS and is_coarse(line.sizes)
    steps = _STEPS_OF_COARSE if coarse else 1 + beside_others
    least = words.said - words.a_step * steps
    named = [o.term for o in line.options if o.weight >= least and o.term.kind is LENGTH]
    terms = [term for term in named if not _is_of_other_digits(term, line)]
    sizes = [abs(n) for n in line.sizes if n]
    if line.unit or line.system != "inch" or line.stage in NO_SIZES or not sizes:
        return False
    if line.decimals > _MOST_OF_THOU:
        return False
    inch = unit_named("in")[1]
    small = [t for t in terms if t.usual[1] <= _MOST_IN_THOU]
    fit = [
        n for n in sizes if n >= _LEAST_IN_THOU and not any(t.is_possible(n * inch) for t in terms)
    ]
    fit = [n for n in fit if any(t.is_usual(n * inch / 1000) for t in small)]
    # One of several may be a slip.
    return len(fit) == len(sizes) or (len(fit) >= _MOSTLY_IN_THOU * len(sizes) and len(fit) > 2)


# What shops tell pressures in, those of each system first.
_PRESSURES: Mapping[System | None, tuple[tuple[str, ...], ...]] = {
    "metric": (("bar", "kPa"), ("psi",)),
    "inch": (("psi",), ("bar", "kPa")),
    None: (("bar", "kPa", "psi"),),
}


# A gauge shows whole pounds and kilopascals: 81.04 is a size in millimeters.
_MOST_OF_GAUGES = 0


PERCENT = "%"


def percent_of(term: Measurand, sizes: Sequence[float]) -> str:
    """The sign of percent for bare shares that can be nothing else: a balance factor of 50."""
    if term.kind is not FACTOR or not sizes:
        return ""
    return PERCENT if all(n > term.possible[1] and term.is_usual(n / 100) for n in sizes) else ""


def pressure_unit(term: Measurand, line: Line) -> str:
    """The one unit that the sizes of a line fit as pressures, "" where it says one or none does."""
    if line.unit or term.kind is not PRESSURE or not line.sizes:
        return ""
    fine = line.decimals > _MOST_OF_GAUGES
    for units in _PRESSURES[line.system]:
        told = [u for u in units if u == "bar" or not fine]
        fitting = [u for u in told if all(term.is_usual(n * _factor(u)) for n in line.sizes)]
        if fitting:
            return fitting[0] if len(fitting) == 1 else ""
    return ""


@cache
def _factor(unit: str) -> float:
    return unit_named(unit)[1]


def vote(lines: Iterable[Line]) -> tuple[System | None, int]:
    """The system that lines without a unit can only be in, and how many sizes say so."""
    told: dict[System, list[tuple[str, int]]] = {"inch": [], "metric": []}
    stated: dict[System, list[tuple[str, int]]] = {"inch": [], "metric": []}
    sure: set[str] = set()
    for line in lines:
        best = _meant(line)
        if best is None or line.stage in NO_SIZES:
            continue
        size = best.term.id, len(line.values)
        if line.unit:
            system = _INCH_OR_METRIC.get(line.unit.strip(" .").casefold())
            if system:
                stated[system].append(size)
            continue
        fitting = _fitting(line)
        if len(fitting) == 1:
            told[fitting[0]].append(size)
            sure |= {best.term.id} if best.cost <= weights().units.sure else set()
    told = {s: _against(told, s, sure) for s in SYSTEMS}
    return _winner(told) or _winner({s: told[s] + stated[s] for s in SYSTEMS}) or (None, 0)


# So many sizes of one thing are no further apart than this factor.
_FEWEST_ALIKE, _MOST_APART = 3, 2.5


def _are_of_several_things(sizes: Sequence[float]) -> bool:
    """Whether numbers under one label are too far apart to be of one thing, and decide nothing."""
    known = [abs(size) for size in sizes if size]
    return len(known) >= _FEWEST_ALIKE and max(known) > _MOST_APART * min(known)


def settle_line_by_line(lines: Sequence[Line]) -> None:
    """Set the system of lines in a book of both: each as its sizes alone allow.

    One size alone, and sizes that both allow, are in what all others of their sheet are in.
    """
    told: dict[int, System] = {}
    for number, line in enumerate(lines):
        fitting = _fitting(line)
        if len(fitting) == 1:
            told[number] = fitting[0]
    of_sheet: dict[object, set[System]] = {}
    for number, system in told.items():
        if len(lines[number].values) > 1:
            of_sheet.setdefault(lines[number].key[0], set()).add(system)
    for number, line in enumerate(lines):
        here = of_sheet.get(line.key[0], set())
        own = {told[number]} if number in told else here
        if line.unit or line.system or len(own) != 1 or (len(line.values) < 2 and own != here):
            continue
        line.system = next(iter(own))


def _fitting(line: Line) -> Sequence[System]:
    """The systems that the sizes of a line allow whose unit nobody says."""
    best = _meant(line)
    if best is None or line.unit or line.stage in NO_SIZES or _are_of_several_things(line.sizes):
        return ()
    # Words that may as well mean another length decide nothing by the sizes of the first.
    meant = [o for o in line.options if o.weight == best.weight and o.term.kind is LENGTH]
    return [s for s in SYSTEMS if any(_fit(o, line, s) > weights().sizes.mostly for o in meant)]


def _meant(line: Line) -> Option | None:
    """The likeliest meaning of a line where it is a length, and its words say it well enough."""
    words = weights().words
    least = words.said - weights().units.said_enough * words.a_step
    said = (o for o in line.options if o.weight >= least)
    best = next((o for o in said if not may_be_in_parts(line, o.term)), None)
    return best if best is not None and best.term.kind is LENGTH else None


def _against(
    told: Mapping[System, list[tuple[str, int]]], system: System, sure: Iterable[str]
) -> list[tuple[str, int]]:
    """What speaks for a system: of things that speak for both only what is sure."""
    other: System = "metric" if system == "inch" else "inch"
    both = {name for name, _ in told[other]}
    if sum(n for _, n in told[system]) >= sum(n for _, n in told[other]):
        return told[system]
    return [(name, n) for name, n in told[system] if name in sure and name not in both]


def _winner(told: Mapping[System, list[tuple[str, int]]]) -> tuple[System, int] | None:
    """The system that the sizes speak for; a few may speak for the other, as slips do."""
    counts = {s: sum(n for _, n in told[s]) for s in SYSTEMS}
    first: System = "inch" if counts["inch"] >= counts["metric"] else "metric"
    other: System = "metric" if first == "inch" else "inch"
    things = len({name for name, _ in told[first]})
    least = weights().units
    few = counts[first] < least.fewest_sizes or things < least.fewest_things
    if few or len(told[other]) * least.one_against > len(told[first]):
        return None
    return first, counts[first]
