"""From the senses of a label's words to the measurands that it can mean, each with a cost.

The cost counts what had to be assumed: a less likely sense of a word, a part or noun that the
label does not say, a word left over. The measurand of least cost is the likeliest.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import combinations, islice, product
from typing import NamedTuple

from workbook_tools.measurands.lexicon import Rules, Sense, rules
from workbook_tools.measurands.table import of_part, parts_with

# Readings of one label that are tried at most, the likeliest first.
_MOST = 600
# Words that a label has at most, and a cost that no label has.
_LONGEST, _NEVER = 9, 1000
_LEFT_OVER = 4
# What it costs that a label says nothing of what the heading over it is about.
_NOT_BELOW = 2
# What is read from a tool that the label names.
_WITH_A_TOOL = 1
# And that a word which counts has no number beside it.
_UNCOUNTED = 2
_DEFAULT_NOUN, _DEFAULT_PART, _ANY_PART = 2, 1, 4
# Parts whose hole is the bore.
_BORES = {"cylinder", "bore", "liner"}
_GROUND = "machined"
_JOURNALS = {"main_bearing": "main_journal", "rod_bearing": "rod_journal", "bearing": "journal"}
# Stages and places that only a size has.
_OF_SIZES = {"found", "machined", "final", "top", "middle", "bottom", "thrust", "parallel"}


class Said(NamedTuple):
    """What one reading of a label says: the parts, nouns, and what stands beside them."""

    parts: tuple[str, ...] = ()
    nouns: tuple[str, ...] = ()
    which: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    conditions: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    sections: tuple[str, ...] = ()
    indexed: tuple[str, ...] = ()
    stages: tuple[str, ...] = ()
    numbers: tuple[str, ...] = ()
    free: tuple[str, ...] = ()


# What a reading of a label tells of each thing that a sense says.
_TOLD: Mapping[str, str] = {
    "part": "parts",
    "noun": "nouns",
    "which": "which",
    "at": "at",
    "condition": "conditions",
    "unit": "units",
    "section": "sections",
    "index": "indexed",
    "stage": "stages",
}


def said(senses: Iterable[Sense], numbers: Iterable[str] = (), free: Iterable[str] = ()) -> Said:
    """What senses say together, each thing once and in the order of the words.

    numbers: that stand among them; free: those of them beside no word that counts.
    """
    found: dict[str, dict[str, None]] = {}
    for sense in senses:
        for slot, value in sense.filled:
            if slot in _TOLD:
                found.setdefault(_TOLD[slot], {})[value] = None
    told = {name: tuple(values) for name, values in found.items()}
    return Said(**told, numbers=tuple(numbers), free=tuple(free))


class Composed(NamedTuple):
    """What words mean together.

    costs: of every measurand that they can mean, the least first; senses: of each word the one
    that the likeliest measurand takes, its first where there is no measurand.
    """

    costs: Mapping[str, int]
    senses: tuple[Sense, ...]


def compose(
    words: Sequence[Sequence[Sense]],
    numbers: Sequence[str] = (),
    free: Sequence[str] = (),
    heading: Said | None = None,
) -> Composed:
    """The measurands that words can mean, below a heading or alone.

    words: the senses of each, the likeliest first; numbers: those that stand among them. More
    words than a label has are a remark and mean none.
    """
    found: dict[str, int] = {}
    chosen = tuple(senses[0] for senses in words)
    words = _likeliest_beside(words, heading)
    readings = product(*(tuple(enumerate(senses)) for senses in words))
    least = _NEVER
    for picked in islice(readings, _MOST if len(words) <= _LONGEST else 0):
        base = sum(rank for rank, _ in picked)
        one = said((sense for _, sense in picked), numbers, free)
        for name, more in _below_or_alone(one, heading):
            found[name] = min(base + more, found.get(name, _NEVER))
            if base + more < least:
                least, chosen = base + more, tuple(sense for _, sense in picked)
    return Composed(dict(sorted(found.items(), key=lambda item: item[1])), chosen)


def _likeliest_beside(
    words: Sequence[Sequence[Sense]], heading: Said | None
) -> Sequence[Sequence[Sense]]:
    """The senses of each word, those first that the parts named beside it make likeliest.

    A word that is the only one to say something is told by the parts of the heading too.
    """
    if all(len(senses) < 2 for senses in words):
        return words
    likely = rules().beside
    first = [senses[0] for senses in words if senses]
    parts = {sense.part for sense in first}
    over = heading.parts if heading and sum(map(_says_something, first)) == 1 else ()
    if not any(sense.noun for sense in first):
        over = (*over, *parts)

    def unlikely(sense: Sense) -> bool:
        if sense.condition:
            return parts.isdisjoint(likely.get(sense.condition, ()))
        return not {*over} & {*likely.get(f"{sense.part} {sense.noun}", ())}

    return [s if len(s) < 2 else sorted(s, key=unlikely) for s in words]


def _says_something(sense: Sense) -> bool:
    return bool(sense.part or sense.noun or sense.which or sense.unit)


def _below_or_alone(one: Said, heading: Said | None) -> Iterator[tuple[str, int]]:
    """What a label means below a heading, and without one: the heading may be of another block."""
    yield from _measurands(one, heading)
    if heading:
        for name, cost in _measurands(one, None):
            yield name, cost + _NOT_BELOW


@lru_cache(maxsize=8192)
def _measurands(one: Said, heading: Said | None) -> tuple[tuple[str, int], ...]:
    """The measurands that a label means below a heading, with what each assumes."""
    return tuple(_worked_measurands(one, heading))


def _worked_measurands(one: Said, heading: Said | None) -> Iterator[tuple[str, int]]:
    rule = rules()
    alone = any(unit in rule.tell_alone for unit in one.units)
    if rule.never & set(one.sections) or not any(
        (one.parts, one.nouns, one.which, one.indexed, heading, alone)
    ):
        return
    # "Stretch gauge" is no gauge but what it shows.
    with_what = rule.tools if one.nouns else frozenset()
    cost = sum(_WITH_A_TOOL if section in with_what else _LEFT_OVER for section in one.sections)
    if one.indexed and not (one.numbers or one.indexed[0] in rule.counted):
        cost += _UNCOUNTED
    parts, dropped = _parts(one, heading, rule)
    for rank, which in enumerate(_whiches(one, heading, rule)):
        for noun, spare in _nouns(one, heading, parts, rule):
            for part, more in _with_default(parts, noun, one, rule):
                for name, cost_of_which in _named(part, noun, which, one, rule):
                    yield name, rank + cost + dropped + spare + more + cost_of_which


_OF_THRUST = {"bearing", "journal", "crank"}
# What stands over a label of one side of the valves, and says nothing of them.
_OF_NO_VALVE = ("cylinder", "bore", "piston", "head")


def _whiches(one: Said, heading: Said | None, rule: Rules) -> tuple[str, ...]:
    """The sides or rings that can be meant: the bottom ring may be the second, or the oil ring."""
    which = _which(one, heading, rule)
    last = which == rule.ring_places["bottom"] and "bottom" in one.at and not one.which
    return (rule.ring_places["middle"], which) if last else (which,)


def _which(one: Said, heading: Said | None, rule: Rules) -> str:
    """The side or ring that is meant; beside a ring, numbers and places say which."""
    if one.which:
        return one.which[0]
    about = {*one.parts, *(heading.parts if heading else ())}
    of_ring = about & {"ring", "groove"} or ("gap" in one.nouns and not one.parts)
    # "Top" below "Stoßspiel" or "Nutspiel" alone.
    if of_ring or (heading and not about and {"gap", "side_clearance"} & {*heading.nouns}):
        told = [rule.ring_numbers[n] for n in one.free if n in rule.ring_numbers]
        told += [rule.ring_places[place] for place in one.at if place in rule.ring_places]
        if "top" in one.at:
            return rule.ring_places["top"]  # The number in "top gap 2" is the cylinder's.
        if told:
            return told[0]
        if heading and not heading.which:
            over = [rule.ring_numbers[n] for n in heading.free if n in rule.ring_numbers]
            over += [rule.ring_places[place] for place in heading.at if place in rule.ring_places]
            over += [part for part in heading.parts if part in rule.ring_numbers.values()]
            if over:
                return over[0]
    return heading.which[0] if heading and heading.which else ""


def _parts(one: Said, heading: Said | None, rule: Rules) -> tuple[tuple[str, ...], int]:
    """The part that the label is about, () where it says none, and what that had to assume."""
    fits = rule.fits if "clearance" in (one.nouns or (heading.nouns if heading else ())) else {}
    parts = _combined(one.parts, {**rule.combine, **fits} if fits else rule.combine)
    cost = 0
    if (
        set(parts) <= {"cylinder"}
        and "gap" in one.nouns
        and _which(one, heading, rule) in rule.ring_numbers.values()
    ):
        parts = ("ring",)  # A first or top gap is a ring's, whatever stands over it.
    if heading:
        over = _combined(heading.parts, rule.combine)
        if not over and "thrust" in heading.at and set(parts) & _OF_THRUST:
            over = ("thrust_bearing",)  # "Brg width" below "Thrust".
        if not parts and one.nouns and one.which[:1] in (("intake",), ("exhaust",)):
            # "Spiel E" is a valve's, whatever stands over it.
            over = tuple(part for part in over if part not in _OF_NO_VALVE)
        below = _of_fit(parts, over, fits) or _below(parts, over, rule, "cylinder" in one.indexed)
        if _is_bore_beside_piston(parts, heading):
            parts = below = over = ("bore",)
        pairs = [frozenset((p, o)) for p in parts for o in over]
        belongs = any(rule.combine.get(pair) in parts or pair in rule.fits for pair in pairs)
        apart = over and below == parts and not set(parts) & set(over) and not belongs
        # Rings are a cylinder's, whether it or its piston heads them.
        of_cylinder = parts == ("ring",) and set(over) <= {"cylinder", "piston", "bore", "groove"}
        cost += _NOT_BELOW if apart and not of_cylinder else 0
        parts = below
        if not (one.parts or one.nouns) and _GROUND in one.stages:
            # Shells are bought: what is machined of a bearing is its journal.
            parts = tuple(_JOURNALS.get(part, part) for part in parts)
    left = list(parts or _unsaid_parts(one, heading, rule))
    for weak in rule.context:
        if len(left) > 1 and weak in left:
            left.remove(weak)
            cost += 1
    return tuple(left[:1]), cost + _LEFT_OVER * max(len(left) - 1, 0)


def _is_bore_beside_piston(parts: tuple[str, ...], heading: Said) -> bool:
    """Whether a cylinder is one of two that a heading names: "Cylinder" below "Bores, pistons"."""
    over = {*heading.parts}
    both = "piston" in over and not over.isdisjoint(_BORES) and not heading.nouns
    return both and bool(parts) and {*parts} <= _BORES


def _unsaid_parts(one: Said, heading: Said | None, rule: Rules) -> tuple[str, ...]:
    """The part that a side, a ring or a word that counts is of, where the label names none.

    What the heading measures tells it better than a count: "Cyl 3" below "Lash".
    """
    if one.which and not (one.nouns and one.which[0] in ("intake", "exhaust")):
        return rule.which_parts[one.which[0]][:1]
    if one.nouns or (heading and heading.nouns):
        return ()
    return tuple(rule.counted[what] for what in one.indexed[:1] if what in rule.counted)


def _combined(parts: Sequence[str], made_up: Mapping[frozenset[str], str]) -> tuple[str, ...]:
    """Parts with every two that make a third replaced by it: main, journal: main_journal."""
    for one, other in combinations(parts, 2):
        made = made_up.get(frozenset((one, other)))
        if made:
            rest = (part for part in parts if part not in (one, other))
            return _combined(tuple(dict.fromkeys((*rest, made))), made_up)
    return tuple(parts)


def _of_fit(
    parts: tuple[str, ...], over: tuple[str, ...], fits: Mapping[frozenset[str], str]
) -> tuple[str, ...]:
    """The part that a clearance is of between a label's part and the heading's, () for none."""
    made = (fits.get(frozenset((mine, other))) for mine in parts for other in over)
    return tuple(part for part in made if part)[:1]


def _below(
    parts: tuple[str, ...], over: tuple[str, ...], rule: Rules, by_cylinder: bool
) -> tuple[str, ...]:
    """A label's parts with those of the heading over it, where it needs them.

    by_cylinder: whether the label says that its part goes by the cylinder, as a wrist pin does.
    """
    if not parts:
        return over
    for mine in parts:
        for other in over:
            made = rule.combine.get(frozenset((mine, other)))
            own = mine in rule.general or mine in rule.taken_in.get(other, ())
            if made == "rod_journal" and by_cylinder:
                continue
            if made and (made != other or own):
                return tuple(made if part == mine else part for part in parts)
    return parts


def _nouns(
    one: Said, heading: Said | None, parts: tuple[str, ...], rule: Rules
) -> Iterator[tuple[str, int]]:
    """The nouns that can be meant, with what each assumes."""
    nouns = list(one.nouns or (heading.nouns if heading else ()))
    if not one.nouns:  # A shim below "Lash" has a thickness.
        yield from ((noun, n + bool(nouns)) for noun, n in _unsaid_nouns(one, parts, rule))
    cost = 0
    if heading and len(one.nouns) == 1 and not one.parts:
        special = set(heading.nouns) & {*rule.special.get(one.nouns[0], ())}
        for noun in special:  # "Clearance" below "Tappets" is their lash.
            yield noun, 0
        cost = len(special)
    for vague in rule.vague:
        if len(nouns) > 1 and vague in nouns:
            nouns.remove(vague)
            cost += 1
    for noun in nouns:
        yield noun, cost + _LEFT_OVER * (len(nouns) - 1)


def _unsaid_nouns(one: Said, parts: tuple[str, ...], rule: Rules) -> Iterator[tuple[str, int]]:
    """The nouns that a unit or a part alone stands for."""
    for unit in one.units:
        if unit in rule.unit_noun:
            yield rule.unit_noun[unit], 1
        elif unit in rule.unit_noun_of_part and one.parts:
            yield rule.unit_noun_of_part[unit], 1
    for part in parts:
        # A cylinder that was honed, or measured at the top, is its bore.
        worked = {*one.stages, *one.at} & _OF_SIZES and part in rule.worked
        nouns = ((rule.worked[part],) if worked else ()) + rule.default_noun.get(part, ())
        for rank, noun in enumerate(nouns):
            yield noun, _DEFAULT_NOUN + rank


def _with_default(
    parts: tuple[str, ...], noun: str, one: Said, rule: Rules
) -> Iterator[tuple[str, int]]:
    if parts:
        yield parts[0], 0
        return
    # The size of a hole or a pot is the bore's.
    counted = tuple(rule.counted[what] for what in one.indexed if what in rule.counted)
    wanted = rule.which_parts.get(one.which[0], ()) if one.which else ()
    of_side = rule.side_part.get(noun, ()) if wanted else ()
    default = (*of_side, *rule.default_part.get(noun, ()))
    likely = (*(p for p in counted if of_part(p, noun)), *default)
    for part in (*likely, *(p for p in parts_with(noun) if p not in likely)):
        rank = likely.index(part) if part in likely else _ANY_PART
        yield part, _DEFAULT_PART + rank + (0 if not wanted or part in wanted else 2)


def _named(part: str, noun: str, which: str, one: Said, rule: Rules) -> Iterator[tuple[str, int]]:
    """The measurands that the table has for a part and a noun, as said or as meant."""
    for rank, (true_part, true_noun) in enumerate(_meant(part, noun, one.conditions, rule)):
        several = of_part(true_part, true_noun)
        if not several and true_noun in rule.like_noun:
            several = of_part(true_part, rule.like_noun[true_noun])
        alike = [m for m in several if m.which == which]
        sided = any(m.which for m in several)
        for m in alike or several:
            if one.units and m.kind.name not in _kinds(one.units):
                continue
            # A seat's angle and a lash shim go by the side, though the table has only one.
            of_side = part in rule.which_parts.get(which, ()) and not sided
            unheard = bool(which) and not alike and bool(one.which) and not of_side
            yield m.id, rank + (2 if unheard else 0) + (1 if sided and not which else 0)


_SAME_KIND: Mapping[str, tuple[str, ...]] = {
    "volume": ("volume", "displacement"),
    "displacement": ("volume", "displacement"),
    "angle": ("angle", "cam angle"),
    "mass": ("mass", "force", "pressure"),
    "pressure": ("pressure", "stress", "barometric pressure"),
    "temperature": ("temperature", "temperature rise"),
    "number": ("number", "factor"),
}


def _kinds(units: Iterable[str]) -> set[str]:
    return {kind for unit in units for kind in _SAME_KIND.get(unit, (unit,))}


def _meant(part: str, noun: str, conditions: Iterable[str], rule: Rules) -> list[tuple[str, str]]:
    """What a part and a noun as said are in the table: (part, noun), the likeliest first."""
    spoken = f"{part} {noun}"
    several = rule.means.get(spoken, (spoken,))
    found = []
    for one in several:
        for condition in conditions:
            one = rule.with_condition.get(f"{one} {condition}", one)
            if one == spoken or one in several:
                one = rule.with_condition.get(f"{spoken} {condition}", one)
        true_part, _, true_noun = one.partition(" ")
        found.append((true_part, true_noun))
    return list(dict.fromkeys(found))
