"""The choice of what each line measures, among all lines of a job together.

Every meaning of a line gets a sum of weights: words, sizes, and relations between lines (a
clearance that is the difference of two others). weights.toml holds the weights.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise

from workbook_tools.labels.arithmetic import OfTwo
from workbook_tools.labels.line import Line, Option, Reason, Weighed
from workbook_tools.labels.neighbor_lines import by_neighbors
from workbook_tools.labels.orders import out_of_order
from workbook_tools.labels.relations import (
    Relation,
    displacements,
    formulas,
    made_relations,
    relations,
)
from workbook_tools.labels.sizes import may_be_in_parts, si_of, size_weight
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    NO_SIZES,
    Match,
    Stage,
    begins_with_a_letter,
    meaning_of,
    without_unit,
)
from workbook_tools.labels.weights import weights
from workbook_tools.measurands import Measurand, find
from workbook_tools.quantities import COUNT, LENGTH, SYSTEMS, System

_CROWNS = {"crown_volume", "dish_volume", "dome_volume", "pocket_volume"}
# Where an engine has transfer ports its exhaust is timed by a port too, and by no valve.
_PORTS = {
    "exhaust_port_opening", "exhaust_port_duration", "intake_port_opening", "intake_port_duration",
}  # fmt: skip
_LETTERED = re.compile(r" (?:[a-cxy]|[12])$", re.IGNORECASE)
# More than any sum is behind another.
_FAR = 99


_WORKED_OUT = ("clearance", "gap", "side_clearance", "end_play")


def choose(
    lines: Sequence[Line],
    system: System | None,
    made: Mapping[int, OfTwo],
    in_other_jobs: Mapping[int, str] | None = None,
) -> None:
    """Choose what each line measures, all together: its match, score and reasons are set.

    made: the lines that the book's own formulas work others out from; in_other_jobs: what lines
    are in most other jobs of the file, which share a form with this one.
    """
    sums = [_own_sums(line, system) for line in lines]
    for number, name in (in_other_jobs or {}).items():
        if name in sums[number]:
            sums[number][name].add(
                weights().relations.same_words, "in most other jobs of the file it is that:"
            )
    _add_relations(sums, lines, system, made)
    taken: dict[tuple[str, Stage], list[Line]] = defaultdict(list)
    # What may be two things as well waits for what can be one of them only.
    surest = sorted(
        range(len(lines)), key=lambda n: (_is_tied(sums[n]), -max(_weights(sums[n]), default=0), n)
    )
    for number in surest:
        line, own = lines[number], sums[number]
        if not line.options:
            continue
        for name in own:
            there = (o for o in taken[name, line.stage] if o.key[0] == line.key[0])
            if any(_same_places(other, line) for other in there):
                own[name].add(weights().relations.taken, "another line is that:")
        best = _choose_of(line, own)
        # What is worked out of sizes, as their mean, takes nothing from them.
        is_own = bool(line.typed) or best.term.noun in _WORKED_OUT
        if line.chosen is not None and line.score >= weights().choice.to_read and is_own:
            taken[best.term.id, line.stage].append(line)
    _settle_crowns(lines)
    _settle_rings(lines)
    _settle_both_sides(lines)
    _settle_before_work(lines)
    _settle_limits(lines)


# What an engine has one of for all its valves.
_OF_BOTH_SIDES = ("rocker_ratio",)


def _settle_both_sides(lines: Sequence[Line]) -> None:
    """A rocker ratio that is told of no side is that of both."""
    for line in lines:
        pair = [one.term for one in line.ranked[:2]]
        alike = len({(term.property, term.noun) for term in pair}) == 1 < len(pair)
        if line.chosen is None or line.chosen.how != "proposal" or len(line.values) != 1:
            continue
        if alike and pair[0].property in _OF_BOTH_SIDES and line.score >= weights().choice.to_read:
            line.chosen, line.also = Match(pair[0], "synonym"), Match(pair[1], "synonym")


def _settle_before_work(lines: Sequence[Line]) -> None:
    """Bearings as found are those of the line that says the same of them after the work.

    "Journal before" above "Journal ground", which the bearings below prove to be mains.
    """
    after: dict[object, list[Line]] = defaultdict(list)
    for line in lines:
        if line.chosen and line.chosen.how != "proposal" and line.proven:
            after[_words_key(line)].append(line)
    for line in lines:
        same = after.get(_words_key(line), ())
        best = line.chosen.term if line.chosen and line.chosen.how == "proposal" else None
        if best is None or line.stage != "found" or line.score < weights().choice.to_read:
            continue
        there = [o.chosen for o in same if o.chosen and o.by_place.keys() == line.by_place.keys()]
        if best.of in BEARINGS and there and all(match.term is best for match in there):
            line.chosen = Match(best, "synonym")


def _settle_limits(lines: Sequence[Line]) -> None:
    """Limits of which nothing else says it are of what is measured under the same label."""
    sized: dict[tuple[object, str], dict[str, Match]] = defaultdict(dict)
    for line in lines:
        if line.chosen and line.chosen.how != "proposal" and line.stage not in NO_SIZES:
            sized[line.key[0], line.label][line.chosen.term.id] = line.chosen
    for line in lines:
        is_open = line.chosen is None or line.chosen.how == "proposal"
        of = sized.get((line.key[0], line.label), {})
        if is_open and line.stage in NO_SIZES and len(of) == 1:
            line.chosen = next(iter(of.values()))


def _settle_rings(lines: Sequence[Line]) -> None:
    """What is measured of a ring that no word tells from others is of the one ring there is."""
    for suffix in ("ring_gap", "ring_side_clearance"):
        of_rings = [line for line in lines if line.chosen and line.chosen.term.id.endswith(suffix)]
        alone = len(of_rings) == 1 or len({line.label for line in of_rings}) == 1
        # Beside a second ring that is named, one that nothing names is the top one.
        named = [o for o in of_rings if o.chosen and o.chosen.how != "proposal"]
        others_named = {o.chosen.term.id for o in named if o.chosen}
        beside = len(of_rings) - len(named) == 1 and others_named in (
            {f"second_{suffix}"}, {f"second_{suffix}", f"oil_{suffix}"}
        )  # fmt: skip
        for line in of_rings if alone or beside else ():
            first, *others = line.ranked
            tied = [o for o in others if o.weight == first.weight]
            top = first.term.id == f"top_{suffix}" and all(o.term.id.endswith(suffix) for o in tied)
            open_one = tied or (beside and line.chosen and line.chosen.how == "proposal")
            least = weights().choice.to_read_alone if beside else weights().choice.to_read
            if top and open_one and line.score >= least:
                line.chosen = Match(first.term, "synonym")


def _settle_crowns(lines: Sequence[Line]) -> None:
    """A crown that has nothing but pockets is dished by what they hold."""
    crowns = {line.chosen.term.id for line in lines if line.chosen} & _CROWNS
    whole = find("dish_volume")
    if crowns == {"pocket_volume"} and whole is not None:
        for line in lines:
            if line.chosen and line.chosen.term.id in crowns:
                line.chosen = replace(line.chosen, term=whole)


@dataclass
class _Sum:
    """What a meaning of a line has: the sum of its weights, with what each is for."""

    weight: int
    because: tuple[Reason, ...]

    def add(self, weight: int, what: str, proves: bool = False) -> None:
        self.weight += weight
        self.because += (Reason(what, weight, proves),)


def _is_tied(sums: Mapping[str, _Sum]) -> bool:
    """Whether two meanings of a line have most, and enough to be read."""
    first, *others = sorted(_weights(sums), reverse=True) or [0]
    return first >= weights().choice.to_read and others[:1] == [first]


def _weights(sums: Mapping[str, _Sum]) -> list[int]:
    return [one.weight for one in sums.values()]


def _own_sums(line: Line, system: System | None) -> dict[str, _Sum]:
    """What each meaning of a line has by its words and sizes alone."""
    sums = {}
    for option in line.options:
        own = sums[option.term.id] = _Sum(option.weight, (Reason("words", option.weight),))
        own.add(size_weight(option, line, line.system or system), "sizes")
    return sums


def _add_relations(
    sums: Sequence[dict[str, _Sum]], lines: Sequence[Line], system: System | None,
    made: Mapping[int, OfTwo],
) -> None:  # fmt: skip
    """Add what relations between the lines say, to each meaning the strongest one."""
    bonus: dict[tuple[int, str], Relation] = {}
    found = (*made_relations(lines, made), *relations(lines, system), *displacements(lines, system))
    for relation in found:
        for term in relation.terms:
            if term not in bonus or bonus[term].weight < relation.weight:
                bonus[term] = relation
    for (number, name), relation in bonus.items():
        sums[number][name].add(relation.weight, relation.words, proves=True)
    _less_for_others(sums, bonus, made)
    for number, name in _said_alike(lines, bonus):
        sums[number][name].add(
            weights().relations.same_words, "another line with its words is that:"
        )
    for number in _within_limits_beside(lines):
        lines[number].usual_here = True
        _take_as_usual(sums[number].values(), "within the book's own limits:")
    for number, name in _of_a_large_engine(lines, sums, system):
        lines[number].usual_here = True
        _take_as_usual([sums[number][name]], "the engine is larger than usual:")
    for number, name, weight, why in by_neighbors(lines):
        sums[number][name].add(weight, why)
    _less_out_of_order(sums, lines, system)
    _add_to_ports(sums, lines)


def _take_as_usual(sums: Iterable[_Sum], why: str) -> None:
    """Take doubtful sizes for usual ones, as what the book's own limits allow."""
    more = weights().sizes.fit - weights().sizes.doubtful
    for own in sums:
        if _is_doubtful(own):
            own.add(more, why)


def _is_doubtful(own: _Sum) -> bool:
    return any(reason.weight == weights().sizes.doubtful for reason in own.because)


def _add_to_ports(sums: Sequence[dict[str, _Sum]], lines: Sequence[Line]) -> None:
    if any(option.term.which == "transfer" for line in lines for option in line.options[:2]):
        for own in sums:
            for name in own.keys() & _PORTS:
                own[name].add(weights().relations.same_words, "the engine has transfer ports:")


# What is so many times the least is too wide a limit to tell what is usual.
_WIDEST_LIMITS = 10.0


def _within_limits_beside(lines: Sequence[Line]) -> Iterator[int]:
    """The lines whose sizes lie within the limits that stand beside them under the same label.

    The book says so what is usual of its engine: the dry lash of hydraulic lifters is wide.
    """
    ends: dict[tuple[object, str], dict[Stage, list[float]]] = defaultdict(dict)
    for line in lines:
        if line.stage in ("limit_low", "limit_high"):
            ends[line.key[0], line.label].setdefault(line.stage, []).extend(line.sizes)
    for number, line in enumerate(lines):
        limits = ends.get((line.key[0], line.label), {})
        low, high = limits.get("limit_low"), limits.get("limit_high")
        if not low or not high or line.stage in ("limit_low", "limit_high") or not line.sizes:
            continue
        least, most = min(low), max(high)
        within = sum(least <= size <= most for size in line.sizes)
        if 0 < least < most < _WIDEST_LIMITS * least and within * 2 > len(line.sizes):
            yield number


# Of so many kinds of parts formulas prove sizes larger than usual, and no single one is a slip.
_FEWEST_LARGE = 2


def _of_a_large_engine(
    lines: Sequence[Line], sums: Sequence[Mapping[str, _Sum]], system: System | None
) -> list[tuple[int, str]]:
    """The lines and meanings whose sizes are larger than usual, as those of a ship's engine are.

    Formulas of the book prove some of them: its liners and its crankpins are as large as they say.
    """
    large = [
        (number, option)
        for number, line in enumerate(lines)
        for option in line.options
        if option.term.kind is LENGTH and option.term.noun not in _WORKED_OUT
        if _is_doubtful(sums[number][option.term.id])
        if _is_larger(option.term, line, system)
    ]
    proven = {
        option.term.of
        for number, option in large
        if any(reason.proves for reason in sums[number][option.term.id].because)
    }
    return [(n, o.term.id) for n, o in large] if len(proven) >= _FEWEST_LARGE else []


def _is_larger(term: Measurand, line: Line, system: System | None) -> bool:
    """Whether all sizes of a line are larger than usual for a meaning, and possible."""
    told = [si_of(term, n, line.unit, line.system or system) for n in line.sizes]
    sizes = [size for size in told if size is not None]
    return bool(sizes) and all(term.usual[1] < s <= term.possible[1] for s in sizes)


def _less_out_of_order(
    sums: Sequence[dict[str, _Sum]], lines: Sequence[Line], system: System | None
) -> None:
    """Less for what cannot be beside the sizes of lines that leave no doubt."""
    so_far = [{name: one.weight for name, one in own.items()} for own in sums]
    for number, name, why in out_of_order(lines, so_far, system):
        sums[number][name].add(weights().orders.broken, why)


def _less_for_others(
    sums: Sequence[dict[str, _Sum]],
    proven: Mapping[tuple[int, str], Relation],
    made: Mapping[int, OfTwo],
) -> None:
    """Less for what follows from other sizes than those that the formula of a line takes."""
    for number in {number for number, _ in proven} & made.keys():
        for name in sums[number].keys() & _followers():
            if (number, name) not in proven:
                sums[number][name].add(weights().relations.taken, "its formula takes other sizes:")


@cache
def _followers() -> frozenset[str]:
    return frozenset(one.id for one, order in formulas() if len(order.names) == 2)


def _choose_of(line: Line, sums: Mapping[str, _Sum]) -> Option:
    """The meaning of a line that has most, set with its sum and reasons."""
    ranked = sorted(line.options, key=lambda o: (-sums[o.term.id].weight, o.cost))
    best = ranked[0]
    line.ranked = tuple(
        Weighed(o.term, sums[o.term.id].weight, sums[o.term.id].because) for o in ranked
    )
    line.score, line.because = sums[best.term.id].weight, sums[best.term.id].because
    margin = line.score - max((sums[o.term.id].weight for o in ranked[1:]), default=-_FAR)
    if margin < weights().choice.ahead_of_alike and _may_be_of_another(best, ranked, line):
        margin = 0
    line.chosen = _match(line, best, ranked, margin)
    return best


def _said_alike(
    lines: Sequence[Line], proven: Mapping[tuple[int, str], Relation]
) -> set[tuple[int, str]]:
    """What lines are whose words mean the same as those of a line that a relation proves.

    What their own sizes prove goes before that.
    """
    alike: dict[tuple[object, tuple[str, ...]], set[str]] = defaultdict(set)
    proof = {
        (n, name) for n, name in proven if proven[n, name].weight >= weights().relations.of_many
    }
    told = {number for number, _ in proven}
    for number, name in proof:
        alike[_words_key(lines[number])].add(name)
    return {
        (number, name)
        for number, line in enumerate(lines)
        for name in alike.get(_words_key(line), ())
        if len(alike[_words_key(line)]) == 1 and (number, name) not in proof
        if (number, name) in proven or number not in told
        if not _is_of_other_bearings(name, line)
    }


def _is_of_other_bearings(name: str, line: Line) -> bool:
    """Whether a line is told to be of other bearings than a measurand is."""
    term = find(name)
    return term is not None and bool(line.told) and term.of in BEARINGS and term.of != line.told


def _words_key(line: Line) -> tuple[object, tuple[str, ...]]:
    """What lines share whose words mean the same; words not understood may tell them apart."""
    unheard = meaning_of(line.label).unknown
    return line.key[0], (*sorted(o.term.id for o in line.options), *unheard)


def _match(line: Line, best: Option, ranked: Sequence[Option], margin: int) -> Match | None:
    if line.exact:
        return Match(best.term, "layout" if line.by_cell else "synonym")
    if len(line.sizes) > 1 and best.term.kind is LENGTH and _is_a_count(best, line):
        return None
    if len(line.sizes) > 1 and best.term.id == "cylinder_count":
        return None  # Which ones, and not how many.
    misspelt = bool(meaning_of(line.label).taken_for)
    needs, words = weights().choice, weights().words
    said = max(ranked, key=lambda o: o.weight)
    if misspelt and not line.proven and len(line.values) < needs.fewest_misspelt:
        # A word that is only like a known one, beside sizes that no engine has, says nothing.
        possible = line.score >= weights().sizes.doubtful
        return Match(best.term, "proposal", 95.0) if possible else None
    single = len(line.sizes) == 1
    if (
        said.cost == 0
        and said.term.kind is COUNT
        and best is not said
        and single
        and not line.proven
    ):
        # Its words say a count without a doubt, and its number has a fraction.
        return Match(best.term, "proposal", 50.0)
    if _is_read(line, best, margin):
        return Match(best.term, "synonym")
    if line.score < needs.to_read and may_be_in_parts(line, said.term):
        # "Main brg 2.7 2.5 2.6": clearances, in thousandths or hundredths.
        parts = next((o.term for o in ranked if o.term.noun == "clearance"), None)
        return Match(parts, "proposal", 50.0) if parts else None
    sure = said.weight >= words.said - needs.sure * words.a_step and _is_sure(said, ranked)
    slips = line.typed and _can_slip(line)
    if line.score < needs.to_read and sure and slips and _is_a_slip(said, line):
        # Its words leave no doubt, its sizes do: it is read, and they are asked about.
        return Match(said.term, "synonym")
    if line.score >= needs.to_ask and not _is_a_count(best, line):
        return Match(best.term, "proposal", float(min(95, max(50, line.score + 30))))
    return None


def _is_read(line: Line, best: Option, margin: int) -> bool:
    """Whether a meaning has enough, and is far enough ahead of the next one, to be read."""
    needs = weights().choice
    many = len(line.values) >= needs.fewest_misspelt and not _is_a_count(best, line)
    many = many or (bool(line.unit) and _is_alone(best, line))
    return (
        (line.score >= needs.to_read and margin >= needs.ahead)
        or (line.score >= needs.to_read_alone and margin >= needs.ahead and _is_alone(best, line))
        or (line.score >= needs.to_read_only and margin >= needs.far_alone and _is_usual(line))
        or (many and line.score >= needs.to_read_far and margin >= needs.far_ahead)
    )


def _is_alone(best: Option, line: Line) -> bool:
    """Whether no size of many fits what the words say more surely, and all fit this meaning.

    "Mains" over sizes of .0022 are no journals.
    """
    sizes = weights().sizes
    more = {o.term.id for o in line.options if o.weight >= best.weight} - {best.term.id}
    own = {one.term.id: one.because[1].weight for one in line.ranked}
    named = any(c.measurand == best.term.id for c in meaning_of(line.label).candidates)
    vague = named and all(o.cost >= weights().words.clear for o in line.options)
    impossible = all(own[name] == sizes.impossible for name in more)
    # A unit that is said leaves as little doubt as several sizes.
    several = (len(line.values) > 1 or bool(line.unit)) and not _is_a_count(best, line)
    fits = own[best.term.id] == sizes.fit and several
    return bool(more) and vague and impossible and fits


def _is_usual(line: Line) -> bool:
    """Whether sizes are usual for what is best and do not count, and no word says another thing.

    "Bore of the throttle" beside one number may, "g bore" too.
    """
    best = line.ranked[0]
    fits = best.because[1].weight == weights().sizes.fit
    counted = all(n.is_integer() for n in line.sizes) and not line.unit
    unheard = bool(meaning_of(line.label).unknown) and len(line.values) == 1
    return fits and not counted and not unheard and not begins_with_a_letter(line.label)


# By what a slip of the decimal point, the unit or the sign changes a number.
_SLIPS = (1.0, 10, 0.1, 100, 0.01, 1000, 0.001, 25.4, 1 / 25.4, -1)


def _can_slip(line: Line) -> bool:
    """Whether odd sizes of a line are a slip: those of limits, or of a step over or under the
    standard size, are of something else."""
    return line.stage not in (*NO_SIZES, "machined")


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
        # In a unit of another kind it is none of these; a rise is written as a temperature.
        return not (line.unit and line.sizes) or "temperature" in said.term.kind.name
    return any(said.term.is_usual(size * slip) for size in sizes for slip in _SLIPS)


# No engine has more of a part.
_MOST_OF_A_PART = 24


def _is_a_count(said: Option, line: Line) -> bool:
    """Whether numbers beside the name of parts alone say how many or which: main bearings 5."""
    counted = [n for n in line.sizes if 0 < n <= _MOST_OF_A_PART and n.is_integer()]
    counts_on = len(counted) == len(line.sizes) and all(b - a == 1 for a, b in pairwise(counted))
    return counts_on and not line.unit and said.cost > 0 and bool(counted)


def _may_be_of_another(best: Option, options: Sequence[Option], line: Line) -> bool:
    """Whether a bearing's size may as well be one of other bearings, which no number proves."""
    if best.term.of not in BEARINGS or best.term.of == line.told:
        return False
    if line.proven:
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
    if one.told and other.told and one.told != other.told:
        return False
    if one.sides.isdisjoint(other.sides) and one.sides and other.sides:
        return False
    if _LETTERED.sub("", one.label) == _LETTERED.sub("", other.label) != other.label:
        return False  # "Journal a" and "journal b" are two readings of one size.
    in_two_units = one.unit != other.unit and bool(one.unit and other.unit)
    if in_two_units and without_unit(one.label) == without_unit(other.label):
        return False  # "Bore, mm" and "Bore, in" are the same size twice.
    mine, theirs = one.by_place, other.by_place
    shared = mine.keys() & theirs.keys()
    return bool(shared) and any(abs(mine[k] - theirs[k]) > 1e-9 for k in shared)
