"""What a book states against what its own sizes give: one check for every measurand.

A stated number must agree with what its sizes give within what the decimals allow; of what is
advertised rather than measured, within what the trade rounds it by. Where it does not, the one
slip that would make both agree is looked for: a digit, a turn of the micrometer, a unit, a side
counted for both, a sign, two sizes exchanged, those of two cylinders too, another number of
cylinders.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import permutations

from workbook_tools.findings.evidence import RATIO_SLACK, Evidence, Size
from workbook_tools.findings.finding import Finding, shown
from workbook_tools.findings.practice_limits import may_be_older
from workbook_tools.findings.relations import ADVERTISED, Relation, relations
from workbook_tools.findings.slips import slip, slip_of_rough
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.resolution import resolution
from workbook_tools.measurands import find
from workbook_tools.quantities import COUNT, MASS, from_si

# Of a row this share must agree, for the others to be slips and not another meaning.
_MOST_AGREE = 0.5
# A number without others beside it is doubted only where it is this far off, as a share.
_FAR_ALONE = 0.005
# A clearance beside the two sizes that it is the difference of may be off by this share of it.
_TOO_MUCH = 0.3
# And by more than rounding makes, so many times.
_FAR_APART = 1.5
# A stated size is rounded, and so are bore and stroke beside it (0.01 in on 3 in is 0.3 %);
# a slip of one digit or one oversize is more than this.
_DISPLACEMENT_SLACK = 0.02
_SIZES_SLACK = 0.005
# And parts weigh more than their whole where it is by this share.
_HEAVIER = 0.02
# More sizes than these are not listed one by one.
_MOST_LISTED = 4
_CODES = dict(zip(ADVERTISED, ("stated-displacement", "stated-ratio"), strict=True))


def check_proof(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each measured number that the sizes it follows from contradict."""
    held = [r for found in relations(evidence) for r in found if r.holds]
    book = evidence.book
    # What a cell that is typed over or was not calculated should be is told of it as such.
    frozen = {t.place for t in book.typed_over} | {f.place for f in book.stale_formulas}
    taken = {s.place: s.takes for s in book.stated if s.takes}
    for found in relations(evidence):
        measured = [
            r
            for r in found
            if not (_is_advertised(r) or _holds_with_less(r, held) or _is_of_one(r) or _is_older(r))
        ]
        agreeing = sum(r.holds for r in measured)
        apart = [
            r
            for r in measured
            if not (r.holds or r.stated.place in frozen or _takes_others(r, taken))
        ]
        if agreeing and (pair := _exchanged_pair(apart)):
            yield pair
            continue
        if agreeing and agreeing >= _MOST_AGREE * len(measured):
            yield from (_finding(r) for r in apart)
        elif len(measured) == 1 and apart and _is_far(apart[0]):
            yield _finding(apart[0])
        elif not agreeing and len(apart) > 1 and all(map(_is_less_than_parts, apart)):
            yield _finding(apart[0], len(apart) - 1)


def _holds_with_less(relation: Relation, held: Sequence[Relation]) -> bool:
    """Whether a number agrees without one of the sizes, as a lift without its lash."""
    return not relation.holds and any(
        other.stated is relation.stated and other.sizes.keys() < relation.sizes.keys()
        for other in held
    )


def _takes_others(relation: Relation, taken: Mapping[Place, frozenset[Place]]) -> bool:
    """Whether the book's own formula takes other sizes: a mean of two bores, a lift less lash."""
    own = taken.get(relation.stated.place, frozenset())
    return bool(own) and own != {size.place for size in relation.sizes.values()}


def _is_older(relation: Relation) -> bool:
    """Whether a clearance is held to an old size that the new part does not go into at all."""
    return relation.worked < 0 < relation.stated.si and any(
        may_be_older(one, other) for one, other in permutations(relation.sizes.values(), 2)
    )


def check_advertised(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each advertised displacement and ratio that the sizes do not come to."""
    for found in relations(evidence):
        for relation in filter(_is_advertised, found):
            if _is_of_one(relation):
                continue
            slack = _rounded_by(relation.stated)
            if abs(relation.worked - relation.stated.si) > slack:
                yield _of_advertised(relation, slack)


def _is_of_one(relation: Relation) -> bool:
    """Whether a displacement is that of one cylinder: "Swept cc"."""
    count = next((size for size in relation.sizes.values() if size.kind is COUNT), None)
    if relation.term.id != "displacement" or count is None or count.number <= 1:
        return False
    off = abs(relation.stated.si * count.number - relation.worked)
    return off <= _DISPLACEMENT_SLACK * relation.worked


def _is_advertised(relation: Relation) -> bool:
    return relation.stated.typed and relation.term.id in ADVERTISED


def _rounded_by(stated: Size) -> float:
    """How far an advertised number may be off, in SI."""
    if stated.measurand == "compression_ratio":
        return RATIO_SLACK
    # A small engine's size in whole cubic inches is rounded by more than that alone.
    step = min(1.0, resolution([stated.number]))
    return max(_DISPLACEMENT_SLACK, _SIZES_SLACK + step / 2 / stated.number) * stated.si


def _is_less_than_parts(relation: Relation) -> bool:
    """Whether something weighs less than what it is made of, whatever else it may mean."""
    less = relation.worked > relation.stated.si * (1 + _HEAVIER)
    return relation.term.kind is MASS and less


def _is_far(relation: Relation) -> bool:
    """Whether a lone number is so far off that a slip, or an older size, must be in it."""
    stated = relation.stated
    if abs(relation.worked - stated.si) <= _FAR_ALONE * abs(stated.si):
        return False
    if slip(relation) or not stated.typed:
        return True
    # No way of measuring makes a third of a clearance.
    off = abs(relation.worked - stated.si)
    much = max(_TOO_MUCH * stated.si, _FAR_APART * relation.slack)
    return relation.term.noun == "clearance" and off > much


def _finding(relation: Relation, more: int = 0) -> Finding:
    """What is told of a relation that does not hold, and of so many more like it."""
    stated, words = relation.stated, slip(relation)
    if more:
        words = f" It is so with {more} more of the line."
    advice = "Look up the first record of each, and measure again before anything is changed."
    if not stated.typed and not words:
        words = " Its formula was last calculated with other numbers."
        advice = "Open the book, let it calculate, and save it."
    places = _places(relation)
    return Finding(
        "contradicts-its-sizes",
        stated.place,
        f"{stated.name} is {stated.shown}, but {_given(relation)}.{words}",
        advice,
        places,
        explains=frozenset({stated.place, *places}),
        # What a formula takes wrongly is told of the formula.
        rests_on=frozenset() if stated.typed else frozenset({stated.place}),
    )


def _exchanged_pair(apart: Sequence[Relation]) -> Finding | None:
    """Two positions that agree with what is stated once they exchange one of their sizes.

    None where it is not two that are apart, or no exchange helps.
    """
    if len(apart) != 2:
        return None
    one, other = apart
    found = [
        (mine, theirs)
        for key, mine in one.sizes.items()
        if (theirs := other.sizes.get(key)) and mine.place != theirs.place
        if _gives(one, {key: theirs}) and _gives(other, {key: mine})
    ]
    if not found:
        return None
    said = ", or ".join(
        f"{mine.name} {mine.shown} and {theirs.name} {theirs.shown}" for mine, theirs in found
    )
    places = tuple(dict.fromkeys(size.place for pair in found for size in pair))
    stated = (one.stated.place, other.stated.place)
    return Finding(
        "contradicts-its-sizes",
        places[0],
        f"{one.stated.name} is {one.stated.shown}, but {_given(one)}; {other.stated.name} is "
        f"{other.stated.shown}, but {_given(other)}. Both agree if exchanged: {said}.",
        "Measure both parts again, and see which stands in which place.",
        (*places[1:], *stated),
        explains=frozenset((*places, *stated)),
    )


def _gives(relation: Relation, changed: Mapping[str, Size]) -> bool:
    """Whether the stated number follows from the sizes with some of them changed."""
    sizes = {**relation.sizes, **changed}
    worked = relation.work({key: size.si for key, size in sizes.items()})
    return worked is not None and abs(worked - relation.stated.si) <= relation.slack


def _of_advertised(relation: Relation, slack: float) -> Finding:
    stated = relation.stated
    off = relation.worked / stated.si - 1
    near = replace(relation, slack=min(slack, abs(relation.worked - stated.si) / 3))
    code = _CODES[relation.term.id]
    places = _places(relation)
    is_size = relation.term.id == "displacement"
    return Finding(
        code,
        stated.place,
        f"{stated.name} is {stated.shown}, but {_given(relation)}, "
        f"{abs(off):.1%} {'more' if off > 0 else 'less'}.{slip_of_rough(near)}",
        "Measure bore and stroke, count the cylinders, and correct what is wrong."
        if is_size
        else "Find out which one was measured; advertised ratios are seldom what is built.",
        places,
        explains=frozenset(places) if is_size else frozenset(),
        rests_on=frozenset({stated.place, *places}),
    )


def _places(relation: Relation) -> tuple[Place, ...]:
    """The other cells: the call's, where it stands in one, and those of its sizes."""
    made = [relation.by.place] if relation.by is not None else []
    cells = (*made, *(s.place for s in relation.sizes.values()))
    return tuple(dict.fromkeys(c for c in cells if c.address and c != relation.stated.place))


def _given(relation: Relation) -> str:
    """What the sizes give, with the sizes where they are few."""
    stated, sizes = relation.stated, relation.sizes
    worked = from_si(relation.worked, stated.kind, stated.system)
    number = shown(_rounded(worked, stated), stated.unit)
    made = relation.by
    where = f" ({made.place.address})" if made and not made.computed_by_batch else ""
    if len(sizes) > _MOST_LISTED:
        return f"the {len(sizes)} sizes that it follows from give {number}{where}"
    return f"{', '.join(_named(k, s, stated) for k, s in sizes.items())} give {number}{where}"


def _named(key: str, size: Size, stated: Size) -> str:
    """A size as the book calls it, or by what it measures where it has no cell of its own."""
    if size.label is not None and size.place != stated.place and size.place.address:
        return f"{size.name} {size.shown}"
    term = find(size.measurand)
    return f"{(term.name if term else key).lower()} {size.shown}"


def _rounded(worked: float, stated: Size) -> float:
    """A worked number with a digit more than the stated one is written with."""
    digits = len(f"{stated.number:.6g}".partition(".")[2])
    return round(worked, min(6, digits + 1))
