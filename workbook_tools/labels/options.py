"""What the words of a line may mean, each meaning with the weight of its words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache

from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.conventions import says_unless
from workbook_tools.labels.last_figures import without_bases
from workbook_tools.labels.line import Option
from workbook_tools.labels.relations import formulas
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    Vocabulary,
    begins_with_a_letter,
    meaning_of,
    noun_named,
    plain,
    unit_in,
    without_unit,
)
from workbook_tools.labels.weights import weights
from workbook_tools.labels.which import EITHER, NOTHING, TAKEN, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.lexicon import rules
from workbook_tools.measurands.position import counts
from workbook_tools.measurands.words import Candidate, Meaning
from workbook_tools.quantities import LENGTH, MASS, VOLUME

# A ring that is counted: "Stoßspiel II".
_RING = re.compile(r"(.*[^\W\d_]{3}) (I{1,3})")
# A step over or under the standard size: "rebore +0.40", "grind -.010".
_STEP = re.compile(r"(?<=[^\d,:=] )[+\-−–]\s?\d*[.,]\d+\b")
# What a sign means is no part of the name: "(+ = below)", "(neg = dish)".
SIGN_RULE = re.compile(
    r"[(\[](?:[^()\[\]]*(?:[=+]|[-−–]\s*[)\]]|\b(?:neg|pos|plus|minus|moins|meno|menos|negativ)\b)"
    rf"|[-−]\s?(?:{either_of('piston_below')}|{either_of('piston_above')})\b)[^()\[\]]*[)\]]?",
    re.IGNORECASE,
)


# What is measured of a piston whose sign says how it stands: "Piston at TDC (+ = below barrel)".
_DECK = "deck clearance"
_BELOW_OR_ABOVE = re.compile(rf"\b(?:{either_of('piston_below')}|{either_of('piston_above')})\b")


def _says_where_pistons_stand(label: str) -> bool:
    """Whether a label names a piston and no size of it, and a sign that is below or above."""
    rule = SIGN_RULE.search(label)
    if rule is None or not _BELOW_OR_ABOVE.search(rule[0].casefold()):
        return False
    meaning = meaning_of(SIGN_RULE.sub(" ", label).strip())
    unsaid = bool(meaning.candidates) and meaning.candidates[0].cost > _NAMES_IT
    return meaning.part == "piston" and unsaid and not meaning.unknown


def _as_dome(label: str, unit: str) -> str:
    """A label with the dome that stands up by a volume: "Piston crown stands up (cc)"."""
    in_unit = unit_in(label) or unit
    name = without_unit(label)
    kind = meaning_of(f"volume ({in_unit})").unit if in_unit else ""
    first = next(iter(meaning_of(name).candidates), None) if kind == VOLUME.name else None
    stands = first is not None and first.measurand == "piston_protrusion"
    return f"piston dome ({in_unit})" if stands else label


_FROM_DEAD_CENTER = re.compile(
    r"\s(?:[ab]?[tb]dc|[vn]?\.?[ou]t|[adp]?pm[hbsi])[\s.)]*$", re.IGNORECASE
)


def _as_opening(label: str) -> str:
    """A port's angle from a dead center as where it opens: "Transfers ATDC" is no duration."""
    first = (
        next(iter(meaning_of(label).candidates), None) if _FROM_DEAD_CENTER.search(label) else None
    )
    term = find(first.measurand) if first is not None else None
    return f"{label} opening" if term is not None and term.property == "port_duration" else label


_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")

# A participle says how something was made and not what it is: "bush reamed", "Auge gerieben".
_PARTICIPLE = re.compile(
    r"\b(?:[^\W\d_]{3,}(?:ed|iert|ée?s?|[ai]d[oa]s?|[au]t[oaie])|(?:ge|ver|auf|ein|ab|an)[^\W\d_]{3,}(?:t|en))\b"
)
_SIDES_OF_VALVES = ("intake", "exhaust")

# A heading that names a property with more steps than this names none.
_NAMES_A_PROPERTY = 6
# A label with so few steps to a meaning names it by itself.
_NAMES_IT = 1
# So many rings have a gap.
_RINGS = 3
# More steps than any meaning has.
_NEVER = 9


@lru_cache(maxsize=2048)
def options_of(
    label: str, headings: tuple[str, ...], which: Which, vocabulary: Vocabulary, unit: str = ""
) -> tuple[tuple[Option, ...], bool]:
    """What a label below headings may mean, likeliest first; and whether a shop's word says it.

    headings: the nearest first, the name of the sheet last; unit: of the column or row.
    """
    words = weights().words
    own = vocabulary.own(label)
    if own is not None:
        return (Option(own, 0, words.said + words.own_word),), True
    if "‰" in label or _is_noted(label):
        return (), False  # A share of something, which no size is; or what no measurand is.
    label = without_bases(label).strip() or label
    # "All mm and cc unless noted" is no title.
    headings = (*(h for h in headings[:-1] if not says_unless(h)), *headings[-1:])
    label = _RING.sub(lambda m: f"{m[1]} {len(m[2])}", label) if _is_of_rings(label) else label
    label = _DECK if _says_where_pistons_stand(label) else _as_opening(_as_dome(label, unit))
    label = _STEP.sub(" ", SIGN_RULE.sub(" ", label)).strip() or label
    if which.side in _SIDES_OF_VALVES:
        label = _BRACKETS.sub(_kept_unless_of_both, label).strip() or label
    label, headings, which = _of_what_its_title_measures(label, headings, which)
    label = _of_a_titled_gap(label, headings)
    headings = (*headings[:-1], *map(_without_unheard, headings[-1:]))
    told = bearing_told(label, headings, which)
    if _is_below_a_camshaft(headings):
        # Whatever counts bearings below the title of a camshaft counts its own.
        headings = tuple(heading for heading in headings if counts(heading) != "bearing")
        bearing = "bearing" in (which.of, counts(re.sub(r"[#\d]", "", label).strip()))
        if told in BEARINGS or bearing or meaning_of(label).part in _BEARING_PARTS:
            told, headings = "cam_bearing", ("cam", *headings)
        which = which._replace(of=told) if which.of in BEARINGS else which
    headings = _over_a_volume(label, headings)
    if which.of in _HEADED_BY:
        headings = _below_its_index(label, headings, which)
    label, headings, which, others = _as_of(told, label, headings, which)
    options: list[Option] = []
    for text in (label, *_with_unit(label, headings, unit)):
        options = _either(options, _by_words(text, headings, which))
    if first := _clause_before_remarks(label):
        less = words.in_brackets
        clause = _by_words(first, headings, which)
        options = _either(options, [o._replace(weight=o.weight - less) for o in clause])
    for text in others:
        alike = _by_words(text, headings, which)
        options = _either(options, [o._replace(weight=o.weight - words.a_step) for o in alike])
    options = _by_what_counts(options, label, headings)
    options = _weighed_by_place(options, label, headings, which, told)
    options = _of_bolts(options, label, told)
    return tuple(sorted(options, key=lambda o: -o.weight)[: words.most_options]), False


def _of_bolts(options: list[Option], label: str, told: str) -> list[Option]:
    """What a torque may be that bolts are turned to: beside mains or rods it is theirs."""
    if not _tightens().search(label.casefold()):
        return options
    words = weights().words
    clear = words.said - words.clear * words.a_step
    return [
        o._replace(weight=max(o.weight, clear)) if o.term.id == f"{told}_bolt_torque" else o
        for o in options
        if o.term.id != "engine_torque"
    ]


@cache
def _tightens() -> re.Pattern[str]:
    """What says that a torque is that of bolts, and none that an engine gives."""
    return re.compile(rf"\b{either_of('tightening')}")


def _is_noted(label: str) -> bool:
    """Whether a label names what is noted and measured by nothing: "Intake runner volume"."""
    meaning = meaning_of(label)
    return meaning.section == "notes" and not meaning.candidates and not meaning.part


@lru_cache(maxsize=1024)
def _without_unheard(title: str) -> str:
    """The name of a sheet without words that say nothing: "Head A near" is the head A."""
    unheard = meaning_of(title).unknown
    return " ".join(w for w in title.split() if plain(w) not in unheard) if unheard else title


def _is_below_a_camshaft(headings: Sequence[str]) -> bool:
    """Whether the nearest heading that names a shaft or its bearings names a camshaft or its."""
    for heading in headings:
        if meaning_of(heading).part in _OF_CAMSHAFTS:
            return True
        if counts(heading) != "bearing" and bearing_told(heading, (), NOTHING) in ("main", "rod"):
            break
    return any(meaning_of(heading).part == "cam" for heading in headings)


_OF_CAMSHAFTS = ("cam", "cam_bearing", "cam_housing", "cam_journal")
_BEARING_PARTS = ("bearing", "housing", "journal", "main", "main_bearing", "main_housing")


def _of_what_its_title_measures(
    label: str, headings: tuple[str, ...], which: Which
) -> tuple[str, tuple[str, ...], Which]:
    """The title in place of a label that only says which side, where the title says what.

    "Inlet" and "Exhaust" below "Guide clearance" or "Rocker bush clearance" are no lash.
    """
    said = which_of(label) if headings[1:] else None
    own = meaning_of(label)
    if headings[1:] and own.part in ("port", "valve") and own.candidates:
        # "Inlet port" names what a valve was tested by, and measures nothing by itself.
        which_valve = side_said(label) or (said.side if said else "")
        said = Which(side=which_valve) if own.candidates[0].cost > 1 else said
    if said is None or not said.side or said.stage or said.unit:
        return label, headings, which
    first = find(own.candidates[0].measurand) if own.candidates else None
    told = said.side if said.side in _SIDES_OF_VALVES else first.which if first else ""
    side = which.side if which.side in _SIDES_OF_VALVES else told
    if side not in _SIDES_OF_VALVES:
        return label, headings, which
    over = [n for n, h in enumerate(headings[:-1]) if counts(h) is None][:1]
    if not over or not _surely_measures(headings[over[0]], label):
        return label, headings, which
    title = headings[over[0]]
    term = find(meaning_of(title).candidates[0].measurand)
    side = side if term is not None and term.which else ""
    return title, headings[over[0] + 1 :], which._replace(side=side)


def _surely_measures(title: str, label: str) -> bool:
    """Whether a title says what is measured of the valve that a label below it names."""
    meaning = meaning_of(title)
    likeliest = meaning.candidates[0].cost if meaning.candidates else _NEVER
    term = find(meaning.candidates[0].measurand) if meaning.candidates else None
    of_valves = term is not None and bool(term.which)
    most = weights().words.vague if _is_only_which(label) else 1 + of_valves
    return likeliest <= most and len(meaning.unknown) <= (likeliest == 0)


def _of_a_titled_gap(label: str, headings: tuple[str, ...]) -> str:
    """The title in place of a bare gap below one that surely measures another than of rings.

    "Spalt gesamt" below "Spaltmaß OT".
    """
    own = meaning_of(label)
    bare = not own.part and bool(own.candidates) and own.candidates[0].cost > _NAMES_IT
    if not bare or noun_named(label) != "gap":
        return label
    may = {c.measurand for c in own.candidates}
    for title in headings[:-1]:
        over = meaning_of(title)
        if (
            any(c.cost == 0 and c.measurand in may for c in over.candidates[:1])
            and not over.unknown
        ):
            return title
    return label


def _is_only_which(label: str) -> bool:
    """Whether a label says which valve of which cylinder and nothing else: "asp. cil. 1"."""
    told = which_of(label)
    return told is not None and bool(told.number)


# What a remark stands behind: "Gasket, in modern material", "Stroke - as the maker has it".
_CLAUSE = re.compile(r"\s*(?:[,;:]\s|\s[-–—]\s)\s*")
# A remark has so many words that are not understood, or says nothing measured.
_CLEAR = 2


def _clause_before_remarks(label: str) -> str:
    """The first clause of a label where it says what is measured and the rest is a remark, else "".

    "Head nuts, three times round and again hot".
    """
    first, *rest = _CLAUSE.split(label, maxsplit=1)
    meaning = meaning_of(first) if rest and first else None
    if meaning is None or not meaning.candidates or meaning.unknown:
        return ""
    behind = meaning_of(rest[0])
    said = bool(behind.candidates) and behind.candidates[0].cost <= _CLEAR and not behind.unknown
    whole = meaning_of(label)
    least = whole.candidates[0].cost if whole.candidates else _NEVER
    remark = bool(whole.unknown) or least > meaning.candidates[0].cost + _CLEAR
    return first if meaning.candidates[0].cost <= _CLEAR and remark and not said else ""


def _over_a_volume(label: str, headings: tuple[str, ...]) -> tuple[str, ...]:
    """Headings without what counts cylinders over a bare volume, which is no cylinder's swept one.

    "CCs" below "Cyl".
    """
    if noun_named(label) != "volume" or meaning_of(label).part:
        return headings
    return tuple(heading for heading in headings if counts(heading) != "cylinder")


def _by_what_counts(options: list[Option], label: str, headings: tuple[str, ...]) -> list[Option]:
    """Options with those that a word for cylinders adds, over a label or as one."""
    words = weights().words
    if any(counts(h) == "cylinder" for h in headings) and _is_any_by_itself(label, options):
        options = _as_any_clearance(options)
    if counts(label) == "cylinder" and _COUNT is not None:
        # "Zylinder" beside a small number says how many: the word has no other plural.
        options = _either(options, [Option(_COUNT, 1, words.said - words.a_step)])
    return options


def _is_any_by_itself(label: str, options: Sequence[Option]) -> bool:
    """Whether a label is a piston's clearance only by what counts cylinders over it."""
    own = meaning_of(label)
    least = min((c.cost for c in own.candidates), default=_NEVER)
    meant = max(options, key=lambda o: o.weight, default=None)
    is_piston = meant is not None and meant.term.id == "piston_clearance"
    return is_piston and not own.part and least > weights().words.clear


def _as_any_clearance(options: Sequence[Option]) -> list[Option]:
    """The options of a bare clearance below what counts cylinders: of the piston, or of another.

    Which two sizes it is worked out from says so.
    """
    words = weights().words
    less = [o._replace(weight=o.weight - 2 * words.a_step) for o in options]
    weight = words.said - words.a_step * words.a_difference
    return _either(less, [Option(t, words.a_difference, weight) for t in _differences()])


def _weighed_by_place(
    options: list[Option], label: str, headings: tuple[str, ...], which: Which, told: str
) -> list[Option]:
    """Options with more or less weight by the side, the sheet, the stage and the parts told."""
    words = weights().words
    options = _of_a_side(options, which.side or side_said(label))
    if headings and meaning_of(headings[-1]).part == "head":
        options = _either([], map(_on_a_sheet_of_heads, options))
    if _OTHER_JOB.match(label):
        options = [o._replace(weight=o.weight - words.odd) for o in options]
    options = [*options, *_as_differences(options)]
    of_crank = any(meaning_of(heading).part == "crank" for heading in headings)
    if which.stage == "machined" or (which.stage in TAKEN and of_crank):
        options = _as_ground(options, label)
    on_its_card = of_crank and not any(map(_is_of_rods, headings))
    if on_its_card or (of_crank and which.stage in TAKEN):
        options = _of_either_bearing(_as_pins(options, label), label)
    if told:
        less = words.elsewhere
        # "Bore, new liners" is of no rod, whatever table it stands below.
        meaning = meaning_of(label)
        surely = meaning.candidates if meaning.part == "liner" else ()
        own = {c.measurand for c in surely if c.cost <= _NAMES_IT}
        if on_its_card and not which.number:
            own.add("crank_end_play")  # It stands below the pins too.
        options = [
            o
            if o.term.id in own and o.term.of not in BEARINGS
            else o._replace(weight=o.weight - less * _is_another(o.term, told))
            for o in options
        ]
    return options


def _kept_unless_of_both(bracket: re.Match[str]) -> str:
    """What stands in brackets, nothing where it names both sides: "Closes (in ABDC, ex ATDC)"."""
    words = {word.strip(".,:;") for word in bracket[1].casefold().split()}
    both = bool(words & words_of("intake")) and bool(words & words_of("exhaust"))
    return " " if both else bracket[0]


def _as_of(
    told: str, label: str, headings: tuple[str, ...], which: Which
) -> tuple[str, tuple[str, ...], Which, tuple[str, ...]]:
    """What texts say of mains or rods: label, headings, which one, and other readings of the label.

    A rod's pin is its crankpin, and may be the piston's after all.
    """
    others: tuple[str, ...] = ()
    if told == "rod":
        others = (label,)
        label, *over = (_with_crankpins(text) for text in (label, *headings))
        headings = tuple(over)
        others = tuple(text for text in others if text != label)
    if told in BEARINGS or which.of == "bearing":
        label = _of_bearings(label)
        if which.side not in _SIDES_OF_VALVES:
            which = which._replace(side="")  # Oil is no ring there.
    return label, headings, which, others


def _with_unit(label: str, headings: Sequence[str], unit: str) -> tuple[str, ...]:
    """The label with the unit of its column or row, which may say more.

    "Compression" in bar is a pressure, "Springs open" in pounds a load.
    """
    named = unit and not unit_in(label) and any(map(_names_something, (label, *headings[:1])))
    return (f"{label} ({unit})",) if named else ()


def _is_inside(first: Measurand, other: Measurand) -> bool:
    """Whether a label names the inside of what goes around a journal that is the other."""
    inside = first.noun == "inside_diameter" and first.of in BEARINGS
    return inside and other.noun == "diameter" and other.part.endswith("journal")


def _by_words(label: str, headings: Sequence[str], which: Which) -> list[Option]:
    """The meanings of a label below all headings, below some, and alone: each at its likeliest."""
    words = weights().words
    sides = (which.side,) if which.side else ()
    near = tuple(headings[:-1])
    alone = meaning_of(label, sides).candidates
    # What a part alone stands for is no clearer than what a heading says of its volume or weight.
    most = words.clear - bool(meaning_of(label).part and any(map(_names_no_length, near)))
    clear = {c.measurand for c in alone} if alone and alone[0].cost <= most else set()
    certain = bool(clear) and alone[0].cost == 0 and all(c.cost > words.clear for c in alone[1:])
    brought = {n for h in headings if clear and (n := _noun(h))}
    found: dict[str, tuple[int, int]] = {}
    # A bare clearance or shim on the intake's side is a valve's.
    unsaid = not alone or alone[0].cost >= words.vague
    vague = which.side in _SIDES_OF_VALVES and unsaid
    first = find(alone[0].measurand) if alone else None
    of_cylinder = (
        which.of == "cylinder"
        and unsaid
        and first is not None
        and first.noun == "diameter"
        and not meaning_of(label).part
    )
    # Where the nearest heading completes a label, those further up add nothing else to it.
    nearest = meaning_of(label, (*sides, *near[:1])).candidates if not clear and near[1:] else ()
    completed = bool(nearest) and nearest[0].cost <= 1
    enough = {c.measurand for c in nearest} if completed else set()
    # The sheet's name says less than a heading, and no heading less than either.
    for over, extra in (
        *([(("valve", *near), 0)] if vague else []),
        *([(("cylinder", *near), 0)] if of_cylinder else []),
        (near, 0),
        (near[:1], 0),
        (tuple(headings), 0 if _leaves_its_part_open(label, headings) else words.by_title),
        ((), words.without_headings if near else 0),
    ):
        meaning = meaning_of(label, (*sides, *over))
        unheard = _unheard(meaning, label)
        by_title = bool(over) and len(over) > len(near)
        for one in meaning.candidates:
            term = find(one.measurand)
            if term is not None and first is not None and _is_inside(first, term):
                continue  # "Rod bore" below "Crank" is no journal.
            if by_title and found and not _fits_title(one.measurand, term, alone, label, headings):
                continue
            brings = term is not None and (certain or term.noun in brought)
            other = clear and one.measurand not in clear and brings
            further = enough and len(over) > 1 and one.measurand not in enough
            cost = one.cost + extra + (words.other_than_alone if other or further else 0)
            if one.measurand not in found or cost < found[one.measurand][0]:
                found[one.measurand] = (cost, unheard)
    return [
        Option(term, cost, words.said - words.a_step * cost - unheard)
        for name, (cost, unheard) in found.items()
        if (term := find(name)) is not None
    ]


def _names_no_length(heading: str) -> bool:
    """Whether a heading surely measures a volume, a weight, or the like, and no length."""
    candidates = meaning_of(heading).candidates
    term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 1 else None
    return term is not None and term.kind is not LENGTH


def _leaves_its_part_open(label: str, headings: Sequence[str]) -> bool:
    """Whether a label says no part of its property, and the name of its sheet does: "Bend"."""
    meaning = meaning_of(label)
    open_part = bool(meaning.candidates) and not meaning.part and not meaning.at
    return open_part and bool(headings) and meaning_of(headings[-1]).part not in ("", "engine")


def _names_something(text: str) -> bool:
    meaning = meaning_of(text)
    return bool(meaning.part or meaning.candidates)


def _either(some: Sequence[Option], others: Iterable[Option]) -> list[Option]:
    """The options of both, each with the weight that is more."""
    best: dict[str, Option] = {}
    for one in (*some, *others):
        if one.term.id not in best or one.weight > best[one.term.id].weight:
            best[one.term.id] = one
    return list(best.values())


def _of_a_side(options: list[Option], side: str) -> list[Option]:
    """The options with less weight for those of the other valves than a head or a label names."""
    if side not in _SIDES_OF_VALVES or all(o.term.which != side for o in options):
        return options
    less, parts = weights().words.elsewhere, rules().which_parts[side]
    # No valve has a ring.
    options = [o for o in options if o.term.part != "ring"]
    # A lash shim is of either valve, and has no side of its own.
    of_valves = {o.term.id for o in options if not o.term.which and o.term.part in parts}
    return [
        o if o.term.which == side or o.term.id in of_valves else o._replace(weight=o.weight - less)
        for o in options
    ]


def _as_ground(options: list[Option], label: str) -> list[Option]:
    """The options of a column of ground sizes below no more than the name of a bearing.

    Shells are bought: what is machined of a bearing is its journal.
    """
    meaning = meaning_of(label)
    if not meaning.part.endswith("bearing") or meaning.statistic or not options:
        return options
    less = weights().words.a_step
    found = []
    for option in options:
        journal = find(option.term.id.replace("_bearing_bore", "_journal"))
        if option.term.id.endswith("_bearing_bore") and journal is not None:
            found.append(Option(journal, option.cost, option.weight))
            option = option._replace(weight=option.weight - less)
        found.append(option)
    return _either([], found)


def _is_of_rods(heading: str) -> bool:
    """Whether a heading is about rods, and does not only name what may be of the crank's pins."""
    return counts(heading) == "rod" and meaning_of(heading).part not in ("big_end", "rod_journal")


def _as_pins(options: list[Option], label: str) -> list[Option]:
    """The options of sizes on a crankshaft's card that only count big ends: of its pins."""
    less, found = weights().words.a_step, []
    named = meaning_of(label)
    for option in options:
        name = option.term.id.replace("rod_housing_bore", "rod_journal")
        pin = find(name.replace("rod_housing_", "rod_journal_"))
        # "Big end bore" is of the rods even there.
        says_bore = option.term.id == "rod_housing_bore" and option.cost <= _NAMES_IT
        told = (named.part == "big_end" or not named.part) and not says_bore
        if told and pin is not None and pin is not option.term:
            found.append(Option(pin, option.cost, option.weight))
            option = option._replace(weight=option.weight - less)
        found.append(option)
    return _either([], found)


def _of_either_bearing(options: list[Option], label: str) -> list[Option]:
    """The options of a bare clearance on a crankshaft's card: of its mains, or of its big ends.

    The sizes that it is worked out from say so: "Running clearance" below those of the big ends.
    """
    mains = next((o for o in options if o.term.id == "main_bearing_clearance"), None)
    rods = find("rod_bearing_clearance")
    if mains is None or rods is None or meaning_of(label).part:
        return options
    less = weights().choice.ahead_of_alike
    return _either(options, [Option(rods, mains.cost, mains.weight - less)])


@lru_cache(maxsize=4096)
def _is_of_rings(label: str) -> bool:
    """Whether a label that ends with a Roman number is of rings."""
    return _RING.fullmatch(label) is not None and meaning_of(label).part == "ring"


@lru_cache(maxsize=4096)
def side_said(label: str) -> str:
    """The side of the valves that a label itself names, "" where it names none."""
    names = [c.measurand for c in meaning_of(label).candidates[:1]]
    first = find(names[0]) if names else None
    words = (which_of(word) for word in label.split())
    said = {w.side for w in words if w is not None and w.side}
    # A letter may be of either side: what the whole label means tells.
    return first.which if first is not None and said and said <= {first.which, EITHER} else ""


def _is_any_clearance(options: Sequence[Option]) -> bool:
    """Whether a label says no more than that it is a clearance, or a gap of any ring."""
    if all(o.term.noun == "gap" for o in options):
        return len(options) >= _RINGS and len({o.cost for o in options}) == 1
    vague = weights().words.vague
    return all(o.term.noun == "clearance" and o.cost >= vague for o in options)


def _as_differences(options: Sequence[Option]) -> list[Option]:
    """More meanings of a label that says no more than that it is a clearance."""
    words = weights().words
    if not options or not _is_any_clearance(options):
        return []
    here = {o.term.id for o in options}
    # A gap is a ring's unless a formula says otherwise.
    less = 2 * words.a_step * (options[0].term.noun == "gap")
    weight = min(o.weight for o in options) - less
    return [Option(t, words.a_difference, weight) for t in _differences() if t.id not in here]


@cache
def _differences() -> tuple[Measurand, ...]:
    """The clearances that are the difference of two sizes."""
    return tuple(
        one
        for one, order in formulas()
        if one.noun == "clearance" and len(order.names) == 2 and "-" in order.formula
    )


# What heads a line whose index counts these: "Rod 1, Rod 2" over "Clearance".
_HEADED_BY = {"main": "main", "rod": "rod", "cam_bearing": "cam"}


def _below_its_index(label: str, headings: Sequence[str], which: Which) -> tuple[str, ...]:
    """Headings with none about other bearings; what the index counts, where none says it."""
    titles = [h for h in headings[:-1] if bearing_told(h, (), NOTHING) in ("", which.of)]
    said = any(bearing_told(text, (), NOTHING) for text in (label, *titles))
    return (*(() if said else (_HEADED_BY[which.of],)), *titles, *headings[-1:])


@lru_cache(maxsize=2048)
def bearing_told(label: str, headings: tuple[str, ...], which: Which) -> str:
    """Of mains, rods or cam bearings: what the label, the heads or the nearest heading says."""
    if which.of in BEARINGS:
        return which.of
    for text in (label, *headings):
        counted = counts(text) if text is label else counts(text.partition("/")[0].strip())
        if counted in BEARINGS:
            return counted
        if which.number and text is not label and text.casefold() == "pins":
            return "rod"  # A piston's pins stand in a table of pistons.
        told: dict[str, int] = {}
        for one in meaning_of(text).candidates:
            term = find(one.measurand)
            weighed = term is not None and term.kind is MASS  # Of no bearing, though of its pin.
            told.setdefault(term.of if term and not weighed else "", one.cost)
        first = next(iter(told), "")
        others = [cost for of, cost in told.items() if of in BEARINGS and of != first]
        apart = min(others, default=_NEVER) - told.get(first, _NEVER)
        if first in BEARINGS and told[first] <= weights().words.clear and apart >= 2:
            return first
    return "cylinder" if which.of == "cylinder" else ""


# A long number before a name is of another job, or of a part: "7719 bore".
_OTHER_JOB = re.compile(r"#?\d{4,} [^\W\d_]{3}")
_PINS = re.compile(r"\bpins?\b", re.IGNORECASE)
# One of a piston where no rod is about, and as plain on a crank's card.
_PIN_DIAMETER = re.compile(r"pins? dia", re.IGNORECASE)


def _with_crankpins(text: str) -> str:
    """A text about rods whose pins are crankpins, unless it says that they are a piston's."""
    meaning = meaning_of(text)
    either = any(find(c.measurand) is _CRANKPIN for c in meaning.candidates)
    either = either or bool(_PIN_DIAMETER.match(text))
    return _PINS.sub("crankpin", text) if meaning.part == "pin" and either else text


_CRANKPIN = find("rod_journal")
_COUNT = find("cylinder_count")


def _of_bearings(label: str) -> str:
    """A label in a table of bearings with what it leaves out: crank journal, oil clearance."""
    meaning = meaning_of(without_unit(label))
    left_out = rules().of_bearings.get(meaning.part, "")
    first = meaning.candidates[0] if meaning.candidates else None
    term = find(first.measurand) if first else None
    named = first and term and (first.cost < weights().words.clear or term.of in BEARINGS)
    return f"{label} {left_out}" if left_out and not named and not meaning.unknown else label


def _on_a_sheet_of_heads(option: Option) -> Option:
    """What a sheet named after heads measures: their faces, and nothing of crank or block."""
    term = option.term
    face = find(f"head_{term.id.removeprefix('deck_')}") if term.part == "deck" else None
    if face is not None:
        return option._replace(term=face)
    less = weights().words.elsewhere if term.part in _NOT_IN_A_HEAD else 0
    return option._replace(weight=option.weight - less)


_NOT_IN_A_HEAD = ("crank", "flywheel", "block", "liner")


def _is_another(term: Measurand, told: str) -> bool:
    """Whether something is of other parts than those told: masses go by any number."""
    if term.kind is MASS:
        return False
    if told == "cylinder":
        return term.of in BEARINGS
    if term.part == "journal":
        return False  # Of mains or of rods: how smooth they are.
    return (term.of in BEARINGS or term.part in ("bore", "ring")) and term.of != told


def _fits_title(
    name: str, term: Measurand | None, alone: Sequence[Candidate], label: str,
    headings: Sequence[str],
) -> bool:  # fmt: skip
    """Whether the name of a sheet may add a meaning: of a part that both make together.

    So may its own part to a label that names none: "Thick found" on the sheet of a head.
    """
    if term is None or not alone or any(c.measurand == name for c in alone):
        return True
    mine, theirs = find(alone[0].measurand), meaning_of(headings[-1]).part
    if theirs == term.part and _leaves_its_part_open(label, headings):
        return True
    made = rules().combine.get(frozenset((mine.part if mine else "", theirs)))
    return made == term.part


def _noun(heading: str) -> str:
    """The property that a heading names, "" where it names none."""
    candidates = meaning_of(heading).candidates
    term = find(candidates[0].measurand) if candidates else None
    return term.noun if term and candidates[0].cost <= _NAMES_A_PROPERTY else ""


def _unheard(meaning: Meaning, label: str) -> int:
    """What words take that are not understood: less in brackets, where remarks stand."""
    words = weights().words
    inside = " ".join(_BRACKETS.findall(label)).casefold()
    done = {plain(word) for word in _PARTICIPLE.findall(label.casefold())}
    each = (
        words.in_brackets if word in inside else words.how_done if word in done else words.unheard
        for word in meaning.unknown
    )  # fmt: skip
    letter = words.unheard * begins_with_a_letter(label)
    return sum(each) + letter + words.misspelt * len(meaning.taken_for)
