"""What each line of numbers may measure, and the choice among all lines of a job together.

Every meaning of a line gets a sum of integer weights: words, sizes, and relations between
lines (a clearance that is the difference of two others). The weights stand at the top.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import islice, product

from workbook_tools.labels.vocabulary import (
    BEARINGS,
    NO_SIZES,
    Match,
    Stage,
    Vocabulary,
    begins_with_a_letter,
    meaning_of,
)
from workbook_tools.labels.which import Which
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.lexicon import rules
from workbook_tools.measurands.order import Order, evaluate
from workbook_tools.measurands.position import counts
from workbook_tools.measurands.table import all_measurands, of_property
from workbook_tools.measurands.words import Candidate
from workbook_tools.quantities import LENGTH, SYSTEMS, System, UnreadableText, unit_named

# The weights, each family once: what words say, what they leave to be assumed, what the sizes
# say, and what other lines say.
WORDS, A_STEP, UNHEARD, IN_BRACKETS, MISSPELT = 60, 10, 18, 4, 18
SIZES_FIT, SIZES_DOUBTFUL, SIZES_IMPOSSIBLE = 15, -30, -90
RELATION, RELATION_OF_FEW = 35, 20
TAKEN = -35
SAME_WORDS = 20
# What it takes from a bearing's size that a heading is about other bearings.
ELSEWHERE = 25
# What it takes from a line that its heads say something that is not understood.
ODD = 45
# What a meaning needs to be read, and to be asked about; and how far before the next it is.
TO_READ, TO_ASK, AHEAD, AHEAD_OF_ALIKE = 38, 14, 6, 12
# Of a relation all but one in this many must hold.
_MOST_OF = 4
_MOST_TRIED = 64
# What a sign means is no part of the name: "(+ = below)", "(neg = dish)".
_SIGN_RULE = re.compile(
    r"[(\[][^()\[\]]*(?:[=+]|[-−–]\s*[)\]]|\b(?:neg|pos|plus|minus|moins|meno|menos|negativ)\b)"
    r"[^()\[\]]*[)\]]?",
    re.IGNORECASE,
)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")


_INCH_OR_METRIC: Mapping[str, System] = {
    '"': "inch", "''": "inch", "in": "inch", "inch": "inch", "inches": "inch", "thou": "inch",
    "zoll": "inch", "mm": "metric", "um": "metric", "µm": "metric",
}  # fmt: skip


@dataclass(frozen=True)
class Option:
    """One thing that a line may measure: by its words, with what they leave to be assumed."""

    term: Measurand
    cost: int
    weight: int


@dataclass
class Line:
    """Numbers that share a label: what they may be, and what was chosen.

    values: (which one, number as it stands) of each; unit: as stated, "" where nothing
    states one; system: whose bare units it is in; decimals: written behind the point.
    """

    key: tuple[object, ...]
    label: str
    stage: Stage
    values: list[tuple[Which, float]]
    unit: str
    options: list[Option] = field(default_factory=list)
    system: System | None = None
    decimals: int = 0
    exact: bool = False
    told: str = ""
    chosen: Match | None = None
    score: int = 0
    because: tuple[str, ...] = ()
    typed: list[float] = field(default_factory=list)

    @property
    def sizes(self) -> list[float]:
        """The typed numbers, else what formulas come to."""
        return self.typed or [n for _, n in self.values]


def options_of(
    label: str, headings: Sequence[str], which: Which, vocabulary: Vocabulary
) -> tuple[list[Option], bool]:
    """What a label below headings may mean, likeliest first; and whether a shop's word says it."""
    own = vocabulary.match(label)
    if vocabulary.words and own is not None and not own.options and own.how == "synonym":
        return [Option(own.term, 0, WORDS + 40)], True
    label = _SIGN_RULE.sub(" ", label).strip() or label
    found: dict[str, tuple[int, int]] = {}
    sides = (which.side,) if which.side else ()
    near = tuple(headings[:-1])
    alone = meaning_of(label, sides).candidates
    clear = {c.measurand for c in alone} if alone and alone[0].cost <= 2 else set()
    brought = {n for h in headings if clear and (n := _noun(h))}
    # The sheet's name says less than a heading, and no heading less than either.
    for over, extra in ((near, 0), (near[:1], 0), (tuple(headings), 2), ((), 1 if near else 0)):
        meaning = meaning_of(label, (*sides, *over))
        unheard = sum(_unheard(word, label) for word in meaning.unknown)
        unheard += UNHEARD * begins_with_a_letter(label)
        unheard += MISSPELT * len(meaning.taken_for)
        by_title = over and len(over) > len(near)
        for one in meaning.candidates:
            term = find(one.measurand)
            if by_title and found and not _fits_title(one.measurand, term, alone, headings[-1]):
                continue
            other = clear and one.measurand not in clear and term and term.noun in brought
            cost = one.cost + extra + (2 if other else 0)
            if one.measurand not in found or cost < found[one.measurand][0]:
                found[one.measurand] = (cost, unheard)
    options = [
        Option(term, cost, WORDS - A_STEP * cost - unheard)
        for name, (cost, unheard) in found.items()
        if (term := find(name)) is not None
    ]
    if which.side in ("intake", "exhaust") and any(o.term.which == which.side for o in options):
        options = [
            o if o.term.which == which.side else replace(o, weight=o.weight - ELSEWHERE)
            for o in options
        ]
    told = bearing_told(label, headings, which)
    if options and all(o.term.noun == "clearance" and o.cost >= 4 for o in options):
        here = {o.term.id for o in options}
        weight = min(o.weight for o in options)
        options += [Option(t, 6, weight) for t in _differences() if t.id not in here]
    if told:
        options = [
            replace(o, weight=o.weight - ELSEWHERE * _is_another(o.term, told)) for o in options
        ]
    return sorted(options, key=lambda o: -o.weight)[:16], False


@cache
def _differences() -> tuple[Measurand, ...]:
    """The clearances that are the difference of two sizes."""
    return tuple(
        one
        for one, order in _formulas()
        if one.noun == "clearance" and len(order.names) == 2 and "-" in order.formula
    )


def bearing_told(label: str, headings: Sequence[str], which: Which) -> str:
    """Of mains, rods or cam bearings: what the label, the heads or the nearest heading says."""
    if which.of in BEARINGS:
        return which.of
    for text in (label, *headings):
        counted = counts(text)
        if counted in BEARINGS:
            return counted
        told: dict[str, int] = {}
        for one in meaning_of(text).candidates:
            term = find(one.measurand)
            told.setdefault(term.of if term else "", one.cost)
        first = next(iter(told), "")
        others = [cost for of, cost in told.items() if of in BEARINGS and of != first]
        apart = min(others, default=9) - told.get(first, 9)
        if first in BEARINGS and told[first] <= 2 and apart >= 2:
            return first
    return "cylinder" if which.of == "cylinder" else ""


def _is_another(term: Measurand, told: str) -> bool:
    """Whether something is of other parts than those told."""
    if told == "cylinder":
        return term.of in BEARINGS
    return (term.of in BEARINGS or term.part == "bore") and term.of != told


def _fits_title(name: str, term: Measurand | None, alone: Sequence[Candidate], title: str) -> bool:
    """Whether the name of a sheet may add a meaning: of a part that both make together."""
    if term is None or not alone or any(c.measurand == name for c in alone):
        return True
    mine, theirs = find(alone[0].measurand), meaning_of(title).part
    made = rules().combine.get(frozenset((mine.part if mine else "", theirs)))
    return made == term.part


def _noun(heading: str) -> str:
    """The property that a heading names, "" where it names none."""
    candidates = meaning_of(heading).candidates
    term = find(candidates[0].measurand) if candidates else None
    return term.noun if term and candidates[0].cost <= 6 else ""


def _unheard(word: str, label: str) -> int:
    """What a word that is not understood takes: less in brackets, where remarks stand."""
    inside = " ".join(_BRACKETS.findall(label)).casefold()
    return IN_BRACKETS if word in inside else UNHEARD


def si_of(term: Measurand, number: float, unit: str, system: System | None) -> float | None:
    """A number in SI as a measurand, None where its unit is not known or of another kind."""
    if not term.kind.si:
        return number
    bare = term.bare_units[0] if term.bare_units[0] == term.bare_units[1] else ""
    spelled = unit or (term.bare_unit(system) if system else bare)
    if not spelled:
        return None
    if spelled == "uin":
        return number * 2.54e-8
    try:
        kind, factor = unit_named(spelled)[:2]
    except UnreadableText:
        return None
    if kind.si != term.kind.si:
        return None
    return number * factor if kind.name not in ("temperature",) else None


def size_weight(option: Option, line: Line, system: System | None) -> int:
    """What the sizes of a line say of one meaning."""
    if not line.values:
        return 0
    sizes = [si_of(option.term, n, line.unit, system) for n in line.sizes]
    known = [abs(s) if option.term.possible[0] >= 0 else s for s in sizes if s is not None]
    if not known:
        # No unit: a meaning that no unit fits is none.
        fits = [s for s in SYSTEMS if not line.unit and _fit(option, line, s) > 0.5]
        return SIZES_FIT if fits else SIZES_DOUBTFUL if not line.unit else SIZES_IMPOSSIBLE
    usual = sum(option.term.is_usual(s) for s in known) / len(known)
    possible = sum(option.term.is_possible(s) for s in known) / len(known)
    if possible <= 0.5:
        return SIZES_IMPOSSIBLE
    return SIZES_FIT if usual > 0.5 else SIZES_DOUBTFUL


def _fit(option: Option, line: Line, system: System) -> float:
    sizes = [si_of(option.term, n, "", system) for n in line.sizes]
    fits = [option.term.is_usual(s) for s in sizes if s is not None]
    return sum(fits) / len(fits) if fits else 0.0


def vote(lines: Iterable[Line]) -> tuple[System | None, int]:
    """The system that lines without a unit can only be in, and how many sizes say so."""
    told: dict[System, list[tuple[str, int]]] = {"inch": [], "metric": []}
    stated: dict[System, list[tuple[str, int]]] = {"inch": [], "metric": []}
    for line in lines:
        best = [o for o in line.options if o.weight >= WORDS - 4 * A_STEP][:1]
        if not best or best[0].term.kind is not LENGTH or line.stage in NO_SIZES:
            continue
        size = best[0].term.id, len(line.values)
        if line.unit:
            system = _INCH_OR_METRIC.get(line.unit.strip(" .").casefold())
            if system:
                stated[system].append(size)
            continue
        fitting = [s for s in SYSTEMS if _fit(best[0], line, s) > 0.5]
        if len(fitting) == 1:
            told[fitting[0]].append(size)
    return _winner(told) or _winner({s: told[s] + stated[s] for s in SYSTEMS}) or (None, 0)


def _winner(told: Mapping[System, list[tuple[str, int]]]) -> tuple[System, int] | None:
    """The system that the sizes speak for; a few may speak for the other, as slips do."""
    counts = {s: sum(n for _, n in told[s]) for s in SYSTEMS}
    first: System = "inch" if counts["inch"] >= counts["metric"] else "metric"
    other: System = "metric" if first == "inch" else "inch"
    things = len({name for name, _ in told[first]})
    if counts[first] < 2 or things < 2 or len(told[other]) * 6 > len(told[first]):
        return None
    return first, counts[first]


@dataclass(frozen=True)
class Relation:
    """A formula of the table of measurands that holds between lines: {line: measurand}."""

    terms: tuple[tuple[int, str], ...]
    weight: int
    words: str


@cache
def _formulas() -> tuple[tuple[Measurand, Order], ...]:
    return tuple(
        (one, order)
        for one in all_measurands()
        for order in one.orders
        if order.relation == "=" and 1 < len(order.names) <= 3 and "**" not in order.formula
    )


def _members(name: str, beside: Measurand) -> tuple[str, ...]:
    if find(name) is not None:
        return (name,)
    return tuple(m.id for m in of_property(name) if m.of == beside.of)


def relations(lines: Sequence[Line], system: System | None) -> list[Relation]:
    """The formulas that hold between the lines of a job, whatever their words."""
    by_name: dict[str, list[int]] = defaultdict(list)
    for number, line in enumerate(lines):
        for option in line.options:
            if option.weight > -20 and line.stage not in ("target", "limit_low", "limit_high"):
                by_name[option.term.id].append(number)
    return [
        relation
        for one, order in _formulas()
        for result in by_name.get(one.id, ())
        for inputs in _inputs(one, order, by_name)
        if (relation := _relation(one, order, lines, result, inputs, system)) is not None
    ]


_Inputs = tuple[tuple[int, str], ...]


def _inputs(one: Measurand, order: Order, by_name: Mapping[str, Sequence[int]]) -> list[_Inputs]:
    """The lines that may be what a formula takes, in every combination."""
    choices = [
        [(n, m) for m in _members(name, one) for n in by_name.get(m, ())] for name in order.names
    ]
    return list(islice(product(*choices), _MOST_TRIED))


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
    words = f"{one.name} = {order.formula} in {holds} of {len(lines[result].values)}"
    weight = RELATION if holds >= 3 else RELATION_OF_FEW
    return Relation(((result, one.id), *inputs), weight, words)


def _holds(
    one: Measurand, order: Order, lines: Sequence[Line], numbers: Sequence[int],
    names: Sequence[str], system: System | None,
) -> int:  # fmt: skip
    """In how many places a formula holds, 0 where it does not in all but a few."""
    result = lines[numbers[0]]
    held = told = 0
    keyed = [_by_place(lines[n]) for n in numbers[1:]]
    slack = _slack(one, result, system)
    for place, number in _by_place(result).items():
        stated = si_of(one, number, result.unit, result.system or system)
        values = {}
        for name, formula_name, line, known in zip(
            names, order.names, (lines[n] for n in numbers[1:]), keyed, strict=True
        ):
            term = find(name)
            value = known.get(place, known.get((0, "", ""), None) if len(known) == 1 else None)
            if value is None or term is None:
                break
            size = si_of(term, value, line.unit, line.system or system)
            if size is None:
                break
            values[formula_name] = size
        else:
            if stated is None:
                return 0
            told += 1
            try:
                worked = float(evaluate(order.formula, values))
            except (ArithmeticError, ValueError, KeyError):
                return 0
            held += abs(worked - stated) <= slack + 1e-9 * abs(stated)
    if told == 0 or held * _MOST_OF < told * (_MOST_OF - 1) or (told < 4 and held < told):
        return 0
    return held


def _by_place(line: Line) -> Mapping[tuple[int, str, str], float]:
    return {(w.number, w.bank, " ".join(w.at)): n for w, n in line.values}


def _slack(one: Measurand, line: Line, system: System | None) -> float:
    """How far a worked value may be off one written with so many decimals."""
    step = si_of(one, 10.0**-line.decimals, line.unit, line.system or system)
    return 1.01 * abs(step or 0.0)


def choose(lines: Sequence[Line], system: System | None) -> None:
    """Choose what each line measures, all together: its match, score and reasons are set."""
    sums = [_own_sums(line, system) for line in lines]
    _add_relations(sums, lines, system)
    taken: dict[tuple[str, Stage], list[Line]] = defaultdict(list)
    surest = sorted(range(len(lines)), key=lambda n: (-max(_weights(sums[n]), default=0), n))
    for number in surest:
        line, own = lines[number], sums[number]
        if not line.options:
            continue
        for name in own:
            there = (o for o in taken[name, line.stage] if o.key[0] == line.key[0])
            if any(_same_places(other, line) for other in there):
                own[name].add(TAKEN, "another line is that")
        best = _choose_of(line, own)
        if line.chosen is not None and line.score >= TO_READ:
            taken[best.term.id, line.stage].append(line)


@dataclass
class _Sum:
    """What a meaning of a line has: the sum of its weights, with what each is for."""

    weight: int
    because: tuple[str, ...]

    def add(self, weight: int, why: str) -> None:
        self.weight += weight
        self.because += (f"{why} {weight:+d}",)


def _weights(sums: Mapping[str, _Sum]) -> list[int]:
    return [one.weight for one in sums.values()]


def _own_sums(line: Line, system: System | None) -> dict[str, _Sum]:
    """What each meaning of a line has by its words and sizes alone."""
    sums = {}
    for option in line.options:
        own = sums[option.term.id] = _Sum(option.weight, (f"words {option.weight:+d}",))
        own.add(size_weight(option, line, line.system or system), "sizes")
    return sums


def _add_relations(
    sums: Sequence[dict[str, _Sum]], lines: Sequence[Line], system: System | None
) -> None:
    """Add what relations between the lines say, to each meaning the strongest one."""
    bonus: dict[tuple[int, str], Relation] = {}
    for relation in relations(lines, system):
        for term in relation.terms:
            if term not in bonus or bonus[term].weight < relation.weight:
                bonus[term] = relation
    for (number, name), relation in bonus.items():
        sums[number][name].add(relation.weight, relation.words)
    for number, name in _said_alike(lines, bonus):
        sums[number][name].add(SAME_WORDS, "another line with its words is that")


def _choose_of(line: Line, sums: Mapping[str, _Sum]) -> Option:
    """The meaning of a line that has most, set with its sum and reasons."""
    ranked = sorted(line.options, key=lambda o: (-sums[o.term.id].weight, o.cost))
    best = ranked[0]
    line.score, line.because = sums[best.term.id].weight, sums[best.term.id].because
    margin = line.score - max((sums[o.term.id].weight for o in ranked[1:]), default=-99)
    if margin < AHEAD_OF_ALIKE and _may_be_of_another(best, ranked, line):
        margin = 0
    line.chosen = _match(line, best, ranked, margin)
    return best


def _said_alike(
    lines: Sequence[Line], proven: Mapping[tuple[int, str], Relation]
) -> set[tuple[int, str]]:
    """What lines are whose words mean the same as those of a line that a relation proves."""
    alike: dict[tuple[object, tuple[str, ...]], set[str]] = defaultdict(set)
    proof = {(n, name) for n, name in proven if proven[n, name].weight == RELATION}
    for number, name in proof:
        alike[_words_key(lines[number])].add(name)
    return {
        (number, name)
        for number, line in enumerate(lines)
        for name in alike.get(_words_key(line), ())
        if len(alike[_words_key(line)]) == 1 and (number, name) not in proof
    }


def _words_key(line: Line) -> tuple[object, tuple[str, ...]]:
    return line.key[0], tuple(sorted(o.term.id for o in line.options))


def _match(line: Line, best: Option, ranked: Sequence[Option], margin: int) -> Match | None:
    options = tuple((o.term, o.cost) for o in ranked)
    if line.exact:
        return Match(best.term, "synonym")
    misspelt = bool(meaning_of(line.label).taken_for)
    proven = any("=" in why for why in line.because)
    if misspelt and not proven and len(line.values) < 3:
        return Match(best.term, "proposal", 95.0, options)
    if line.score >= TO_READ and margin >= AHEAD:
        return Match(best.term, "synonym", options=options)
    said = max(ranked, key=lambda o: o.weight)
    sure = said.weight >= WORDS - 2 * A_STEP and _is_sure(said, ranked)
    if line.score < TO_READ and sure and _is_a_slip(said, line):
        # Its words leave no doubt, its sizes do: it is read, and they are asked about.
        return Match(said.term, "synonym", options=options)
    if line.score >= TO_ASK and not _is_a_count(best, line):
        return Match(best.term, "proposal", float(min(95, max(50, line.score + 30))), options)
    return None


_SLIPS = (1.0, 10, 0.1, 100, 0.01, 1000, 0.001, 25.4, 1 / 25.4, -1)


def _is_a_slip(said: Option, line: Line) -> bool:
    """Whether numbers could be sizes of what their label says but for a slip, or are none."""
    if _is_a_count(said, line):
        return False
    sizes = [
        size
        for system in ((line.system,) if line.system or line.unit else SYSTEMS)
        for n in line.sizes
        if (size := si_of(said.term, n, line.unit, system)) is not None
    ]
    if not sizes:
        return True
    return any(said.term.is_usual(size * slip) for size in sizes for slip in _SLIPS)


# No engine has more of a part.
_MOST_OF_A_PART = 24


def _is_a_count(said: Option, line: Line) -> bool:
    """Whether a number beside the name of parts alone says how many there are: main bearings 5."""
    counted = [n for n in line.sizes if 0 < n <= _MOST_OF_A_PART and n.is_integer()]
    alone = len(line.sizes) == 1 and not line.unit
    return alone and said.cost > 0 and bool(counted)


def _may_be_of_another(best: Option, options: Sequence[Option], line: Line) -> bool:
    """Whether a bearing's size may as well be one of other bearings, which no number proves."""
    if best.term.of not in BEARINGS or best.term.of == line.told:
        return False
    if any("=" in why for why in line.because):
        return False
    return any(
        o.term.of in BEARINGS
        and o.term.of != best.term.of
        and o.term.property == best.term.property
        for o in options
    )


def _is_sure(said: Option, options: Sequence[Option]) -> bool:
    return all(o is said or o.weight < said.weight for o in options)


def _same_places(one: Line, other: Line) -> bool:
    """Whether two lines are of the same ones, with other numbers."""
    mine, theirs = _by_place(one), _by_place(other)
    shared = mine.keys() & theirs.keys()
    return bool(shared) and any(abs(mine[k] - theirs[k]) > 1e-9 for k in shared)
