"""What a line measures by the lines that stand beside it in its table."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.line import InBook, Line, Option
from workbook_tools.labels.relations import formulas
from workbook_tools.labels.sizes import si_factor, size_weight
from workbook_tools.labels.vocabulary import BEARINGS, NO_SIZES, meaning_of
from workbook_tools.labels.weights import weights
from workbook_tools.labels.which_told import so_many, without_stage
from workbook_tools.measurands import find
from workbook_tools.quantities import MASS

# How far a bore or a journal is from round.
_ROUNDNESS = ("out_of_round", "taper")


def found_by_others(lines: Sequence[Line]) -> None:
    """Say of a roundness between sizes as found and as finished that it is of the former.

    Whatever is worked out of sizes as found alone is of these too.
    """
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for line in lines:
        if line.stage or not line.options:
            continue
        of = {by_cell[cell].stage if cell in by_cell else "" for cell in line.referred}
        if of == {"found"} and not line.typed:
            line.stage = "found"
        if line.options[0].term.noun not in _ROUNDNESS:
            continue
        before, after = (_standing_past_limits(line, by_cell, step) for step in (-1, 1))
        # Between them may stand to what it was ground: "-.010".
        after = after or _standing(line, by_cell, 2)
        if before is None or after is None or before.stage != "found":
            continue
        if after.stage in ("final", "machined"):
            line.stage = "found"


# How machining moves a size, and by how much at least (SI): a bore grows, a journal is ground.
_WORKED = {"bore": 1, "journal": -1}
_LEAST_WORKED = 8e-5


def found_before_work(lines: Sequence[Line]) -> None:
    """Say of sizes that the next line has again, all of them machined, that they were found so."""
    by_cell = {cell: line for line in lines for cell in line.cells}
    for line in lines:
        way = _WORKED.get(line.chosen.term.property, 0) if line.chosen else 0
        after = _standing(line, by_cell, 1) if way and line.stage in ("", "final") else None
        worked = after is not None and after.stage in ("", "final", "machined")
        if after is None or not (worked and line.chosen and after.chosen):
            continue
        mine, theirs = line.by_place, after.by_place
        same = after.chosen.term is line.chosen.term and after.label != line.label
        if not same or len(mine) < 2 or mine.keys() != theirs.keys():
            continue
        if line.unit and after.unit and after.unit != line.unit:
            continue
        to_si = si_factor(line.chosen.term, line.unit, line.system) or 0.0
        if all(way * (theirs[one] - mine[one]) * to_si >= _LEAST_WORKED for one in mine):
            line.stage = "found"


# What work takes off or leaves, as a share of the size: more than the clearance of a piston.
_LEAST_CUT, _MOST_CUT = 0.002, 0.025
_FEWEST_ALIKE = 3


def may_be_as_found(lines: Sequence[Line]) -> None:
    """Let sizes that no word tells be those that the next line has again, bored or ground.

    "Wear, taken at the top" over "Bored to": each is nearly as large, and smaller by what was cut.
    """
    by_cell = {cell: line for line in lines for cell in line.cells}
    for line in lines:
        after = _below_or_behind(line, by_cell) if line.stage in ("", "found") else None
        first = after.options[0] if after is not None and after.options else None
        way = _WORKED.get(first.term.property, 0) if first else 0
        if after is None or first is None or not way or after.stage not in ("machined", "final"):
            continue
        if line.unit and line.unit != after.unit:
            continue
        # Shells are bought: "Hauptlager, alt" over "geschliffen" is the journal as it came.
        own = line.options[0] if line.options else None
        shells = line.label == after.label and own and own.term.property == "bearing_bore"
        unknown = len(line.typed) >= _FEWEST_ALIKE and not any(o.weight > 0 for o in line.options)
        if not (shells or unknown):
            continue
        mine, theirs = ({(w.number, w.bank): n for w, n in of.values} for of in (line, after))
        if mine.keys() <= theirs.keys() and all(
            n > 0 and _LEAST_CUT <= way * (theirs[one] / n - 1) <= _MOST_CUT
            for one, n in mine.items()
        ):
            line.options, line.stage = [first], "found"


def _below_or_behind(line: Line, by_cell: Mapping[InBook, Line]) -> Line | None:
    """The line next to a line, below it where it has no more than one cell."""
    if len(line.cells) != 1:
        return _standing(line, by_cell, 1)
    ((sheet, row, column),) = line.cells
    return by_cell.get((sheet, row + 1, column))


def may_be_what_they_limit(lines: Sequence[Line]) -> None:
    """Let what is wanted or allowed be what the numbers with its label in its row may be.

    In their unit too, where it has none of its own.
    """
    by_row: dict[tuple[str, str, int], list[Line]] = defaultdict(list)
    for line in lines:
        if line.options and line.stage not in NO_SIZES:
            for sheet, row in {(sheet, row) for sheet, row, _ in line.cells}:
                by_row[line.label, sheet, row].append(line)
    for line in lines:
        if line.options and line.stage in NO_SIZES and line.first_cell is not None:
            sheet, row, _ = line.first_cell
            beside = by_row[line.label, sheet, row]
            if len(beside) == 1 and {r for _, r, _ in line.cells} == {row}:
                line.options = list(beside[0].options)
                line.unit = line.unit or beside[0].unit


def are_what_they_limit(lines: Sequence[Line]) -> None:
    """Say of limits in words, which have no size of their own, that they are of their column."""
    by_rest: dict[tuple[object, ...], Line] = {}
    for line in lines:
        if line.stage not in NO_SIZES and line.chosen and line.chosen.how != "proposal":
            by_rest.setdefault(_without_its_stage(line), line)
    for line in lines:
        of = by_rest.get(_without_its_stage(line)) if line.stage in NO_SIZES else None
        if of is not None and not line.values:
            line.chosen, line.unit = of.chosen, line.unit or of.unit


def _without_its_stage(line: Line) -> tuple[object, ...]:
    """What a line shares with the others of its label: its key, which ends with stage and part."""
    return (*line.key[:-3], *line.key[-2:])


# No size of a part in inches is as large as a torque, and none is typed so round.
_LEAST_TORQUE = 5


def go_on_with_torques(lines: Sequence[Line]) -> None:
    """Let parts below a torque that says its unit be fasteners: "Rods" below "Studs, ft lb".

    Each goes on below the last one in the same column.
    """
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    alone = [line for line in lines if line.options and len(line.cells) == 1 and line.typed]
    for line in sorted(alone, key=lambda line: min(line.cells)):
        ((sheet, row, column),) = line.cells
        over = by_cell.get((sheet, row - 1, column))
        bolts = over.options[0].term.property == "bolt_torque" if over else False
        round_one = line.typed[0] >= _LEAST_TORQUE and line.typed[0].is_integer()
        if over is None or not bolts or not over.unit or line.unit or not round_one:
            continue
        meant = meaning_of(line.label, (f"torque ({over.unit})",)).candidates
        terms = [term for c in meant if (term := find(c.measurand)) and c.cost == 0]
        if line.options[0].cost >= weights().words.clear and terms:
            line.options = [Option(terms[0], 1, weights().words.said - weights().words.a_step)]
            line.unit = over.unit


def by_neighbors(lines: Sequence[Line]) -> Iterator[tuple[int, str, int, str]]:
    """(line, meaning, weight, why) of what lines may be beside others of their table."""
    of = weights().relations
    for told, weight in (
        (_measured_alike, of.alike),
        (_behind_its_sizes, of.behind),
        (_of_the_part_before, of.alike),
        (_finish_of_journals, of.alike),
        (_of_a_crank, of.behind),
        (_pins_of_a_crank, of.alike),
        (_shells_of_journals, of.alike),
        (_machined_beside, of.behind),
        (_among_weights, of.behind),
        (_around_journals, of.alike),
        (_as_on_the_other_side, of.behind),
        (_bores_of_pistons, of.behind),
        (_standing_proud_of_a_block, of.behind),
    ):
        for number, name, why in told(lines):
            yield number, name, weight, why
    yield from _tested(lines)


# So many journals tell what goes around them.
_FEWEST_AROUND = 2


def _around_journals(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where holes that may have shells or none fit the journals as they are.

    "Big end 1, bored": with no room for a shell it is the bearing itself, poured and bored.
    """
    for of in ("rod", "main"):
        bearing, play = find(f"{of}_bearing_bore"), find(f"{of}_bearing_clearance")
        journal = find(f"{of}_journal")
        if bearing is None or play is None or journal is None:
            continue
        held = [
            {n: size * factor for (n, *_), size in line.by_place.items() if n}
            for line in lines
            if line.options and line.options[0].term is journal and line.stage in _AS_RUN
            if (factor := si_factor(journal, line.unit, line.system))
        ]
        for number, line in enumerate(lines):
            may_be = {o.term.id for o in line.options}
            factor = si_factor(bearing, line.unit, line.system)
            if not {bearing.id, f"{of}_housing_bore"} <= may_be or not factor:
                continue
            mine = {n: size * factor for (n, *_), size in line.by_place.items() if n}
            for theirs in held:
                both = mine.keys() & theirs.keys()
                fits = all(play.is_usual(mine[n] - theirs[n]) for n in both)
                if len(both) >= _FEWEST_AROUND and fits:
                    yield number, bearing.id, f"it fits around {journal.name.lower()}s:"


# When an engine is built with its sizes.
_AS_RUN = ("", "final", "machined")


# No shell has more clearance on its journal (SI).
_MOST_CLEARANCE = 3e-4


def _shells_of_journals(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where the bore of some shells stands behind journals that fit it."""
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for number, line in enumerate(lines):
        bores = [o.term for o in line.options if o.term.property == "bearing_bore"]
        before = _standing(line, by_cell, -1) if len(bores) > 1 else None
        size = before.options[0].term if before is not None else None
        if before is None or size is None or size.property != "journal":
            continue
        shells, journals = line.by_place, before.by_place
        to_si = si_factor(size, line.unit or before.unit, line.system) or 0.0
        if not shells or not all(
            0 <= (bore - journals.get(one, bore + 1)) * to_si <= _MOST_CLEARANCE
            for one, bore in shells.items()
        ):
            continue
        for term in bores:
            if term.of == size.of:
                yield number, term.id, f"{before.label!r}, which fits it, stands before it:"


# Machining a part takes less than this share of a size.
_NEAR = 0.015


def _machined_beside(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where bare sizes as found stand before the same as machined.

    "MAINS | came in | line honed": what was honed came in too.
    """
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for number, line in enumerate(lines):
        bare = line.options and line.options[0].cost >= weights().words.clear
        after = _standing(line, by_cell, 1) if bare and line.stage == "found" else None
        if after is None or after.stage not in ("machined", "final"):
            continue
        mine, theirs = line.by_place, after.by_place
        if mine.keys() != theirs.keys() or after.options[0].cost >= weights().words.clear:
            continue
        near = all(abs(mine[one] - theirs[one]) <= _NEAR * abs(theirs[one]) for one in mine)
        if near and after.options[0].term in [option.term for option in line.options]:
            name = after.options[0].term.id
            yield number, name, f"{after.label!r} beside it is nearly as large:"


# So many weights make a table of weights.
_FEWEST_WEIGHTS = 3


def _among_weights(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where something bare stands among the weights of parts: "Brg pr"."""
    weighed: dict[object, set[int]] = defaultdict(set)
    for number, line in enumerate(lines):
        first = _first_that_fits(line) if line.options else None
        if first is not None and first.term.kind is MASS and line.stage not in NO_SIZES:
            weighed[_table_of(line)].add(number)
    if not weighed:
        return
    for number, line in enumerate(lines):
        beside = weighed.get(_table_of(line), set()) - {number}
        of_two = any(w.strip("().") in words_of("pairs") for w in line.label.casefold().split())
        if len(beside) < _FEWEST_WEIGHTS - of_two or line.unit:
            continue
        for option in line.options:
            if option.term.kind is MASS:
                yield number, option.term.id, "it stands among the weights of other parts:"


def _table_of(line: Line) -> object:
    """The rows that a line goes down, or the columns that it goes across, by its sheet."""
    sheet = line.first_cell[0] if line.first_cell else ""
    rows, columns = {r for _, r, _ in line.cells}, {c for _, _, c in line.cells}
    if len(columns) == 1 < len(rows):
        return sheet, "rows", min(rows)
    return sheet, "columns", tuple(sorted(columns))


_CRANKPIN = "rod_journal"
# The pins of few pistons are so thick (SI).
_THICK_PIN = 0.045


def _pins_of_a_crank(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where bare pins came in or were ground beside mains that were too.

    Or are thicker than the pins of most pistons are, and nothing says that they are of one.
    """
    ground = {
        (line.key[0], line.stage)
        for line in lines
        if line.stage in ("found", "machined") and line.options and line.values
        if line.options[0].term.id == "main_journal"
    }
    for number, line in enumerate(lines):
        bare = (
            meaning_of(line.label).part == "pin" and (so_many(line.label) or line.label).isalpha()
        )
        crankpin = next((o.term for o in line.options if o.term.id == _CRANKPIN), None)
        if not bare or crankpin is None:
            continue
        factor = si_factor(crankpin, line.unit, line.system) or 0.0
        if (line.key[0], line.stage) in ground:
            yield number, _CRANKPIN, "mains of a crank stand beside it:"
        elif line.sizes and min(line.sizes) * factor > _THICK_PIN:
            yield number, _CRANKPIN, "few pistons have so thick a pin:"


def _measured_alike(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where a line that names no more than mains or rods stands beside
    another such one: what fits the sizes of one is the same of the other.
    """
    bare = [
        (number, line)
        for number, line in enumerate(lines)
        if line.options and line.values and line.options[0].cost >= weights().words.clear
        if line.stage not in NO_SIZES
    ]
    fits = {number: _first_that_fits(line) for number, line in bare}
    givers = [
        (number, line, fit)
        for number, line in bare
        if (fit := fits[number]) is not None and fit.term.of in BEARINGS and fit.term.property
    ]
    takers = [one for one in bare if any(o.term.of in BEARINGS for o in one[1].options)]
    for number, line in takers:
        mine = fits[number]
        for other_number, other, theirs in givers:
            beside = other_number != number and other.stage == line.stage
            if not beside or (mine is not None and mine.cost <= theirs.cost):
                continue
            first = theirs.term
            meant = [
                o.term
                for o in line.options
                if o.term.of in BEARINGS and o.term.of != first.of
                if o.term.property == first.property
            ]
            if meant and _same_table(other, line):
                for term in meant:
                    yield number, term.id, f"{other.label!r} beside it is {first.name}:"


def _as_on_the_other_side(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where the same words of the other valves are too large for the first.

    "Lift in | 10.2", which no lobe has, over "Lift ex | 9.8".
    """
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for number, line in enumerate(lines):
        for other in _beside_of_a_word(line, by_cell) if line.options else ():
            fit = _first_that_fits(other)
            if fit is None or fit is other.options[0] or not fit.term.which:
                continue
            for option in line.options:
                term = option.term
                same = (term.property, term.noun) == (fit.term.property, fit.term.noun)
                if same and term.which and term.which != fit.term.which:
                    yield number, term.id, f"{other.label!r} beside it is {fit.term.name}:"


# How much larger a bore is than its piston, as a share of it: a clearance, and no step.
_MOST_CLEAR = 0.004


def _bores_of_pistons(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where a bare cylinder beside a piston is as much larger as it runs."""
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for number, line in enumerate(lines):
        bore = next((o for o in line.options[1:] if o.term.id == "bore"), None)
        for other in _next_to(line, by_cell) if bore is not None else ():
            piston = other.options[0].term.id == "piston_diameter" and other.stage == line.stage
            mine, theirs = line.sizes, other.sizes
            if (
                piston
                and len(mine) == len(theirs)
                and all(0 < a - b <= _MOST_CLEAR * a for a, b in zip(mine, theirs, strict=True))
            ):
                yield number, "bore", f"{other.label!r} beside it is its piston:"


_PROUD = "liner_protrusion"


def _standing_proud_of_a_block(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where what stands proud, of no part, is listed with sizes of liners."""
    of_liners = [o for o in lines if o.options and meaning_of(o.label).part == "liner"]
    for number, line in enumerate(lines) if of_liners else ():
        proud = next((o for o in line.options[1:] if o.term.id == _PROUD), None)
        if proud is None or meaning_of(line.label).part or not line.sizes:
            continue
        listed = [o for o in of_liners if o.key[0] == line.key[0] and _same_rows(o, line)]
        if listed and size_weight(proud, line, line.system) > 0:
            yield number, _PROUD, f"{listed[0].label!r} beside it is of liners:"


def _next_to(line: Line, by_cell: Mapping[InBook, Line]) -> list[Line]:
    """The lines in the next rows and columns of a line's."""
    near = [_standing(line, by_cell, step) for step in (-1, 1)]
    if len(line.cells) == 1:
        ((sheet, row, column),) = line.cells
        near += [by_cell.get((sheet, row + step, column)) for step in (-1, 1)]
    return [other for other in near if other is not None]


def _beside_of_a_word(line: Line, by_cell: Mapping[InBook, Line]) -> Iterator[Line]:
    """The lines next to a line whose labels differ from its own by one word."""
    words = line.label.split()
    for other in _next_to(line, by_cell):
        theirs = other.label.split() if other.stage == line.stage else []
        alike = len(words) == len(theirs) > 1
        if alike and sum(a != b for a, b in zip(words, theirs, strict=True)) == 1:
            yield other


# Words for a clearance that may be any.
_PLAYS = ("clearance", "lash", "gap")


def _behind_its_sizes(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where a bare clearance stands behind a size that it follows from."""
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for number, line in enumerate(lines):
        first = line.options[0] if line.options else None
        if first is None or first.term.noun not in _PLAYS or first.cost < weights().words.clear:
            continue
        before = _standing(line, by_cell, -1)
        size = _first_that_fits(before) if before is not None else None
        if before is None or size is None or size is not before.options[0]:
            continue
        for option in line.options:
            taken = any(size.term.id in names for names in _taken_by(option.term.id))
            if taken and not line.is_of_other_side(option.term):
                yield number, option.term.id, f"{before.label!r}, which it is of, stands before it:"


@cache
def _taken_by(name: str) -> tuple[tuple[str, ...], ...]:
    """The sizes that a difference is taken of, by each of its formulas of two."""
    return tuple(
        order.names for one, order in formulas() if one.id == name and len(order.names) == 2
    )


def _standing(line: Line, by_cell: Mapping[InBook, Line], step: int) -> Line | None:
    """The line whose numbers stand in the next column or row of a line's.

    step: -1 for left of them or over them, 1 for right of them or below them.
    """
    if not line.cells:
        return None
    sheet, row, column = min(line.cells)
    down = len({c for _, _, c in line.cells}) == 1
    across = len({r for _, r, _ in line.cells}) == 1
    if down and (beside := by_cell.get((sheet, row, column + step))) not in (None, line):
        return beside
    return by_cell.get((sheet, row + step, column)) if across and not down else None


# So many limits may stand between two sizes: a least and a most, and what is wanted.
_MOST_LIMITS = 3


def _standing_past_limits(line: Line, by_cell: Mapping[InBook, Line], step: int) -> Line | None:
    """The next line that is of sizes, with limits between left out."""
    beside = _standing(line, by_cell, step)
    for _ in range(_MOST_LIMITS):
        if beside is None or beside.stage not in NO_SIZES:
            return beside
        beside = _standing(beside, by_cell, step)
    return None


def _first_that_fits(line: Line) -> Option | None:
    """The likeliest meaning of a line that its sizes are usual for."""
    return next((o for o in line.options if size_weight(o, line, line.system) > 0), None)


def _same_table(one: Line, other: Line) -> bool:
    """Whether two lines stand beside each other in one table, as rows or as columns of it."""
    if not one.cells or not other.cells or min(one.cells)[0] != min(other.cells)[0]:
        return False
    rows = _apart([r for _, r, _ in one.cells], [r for _, r, _ in other.cells])
    columns = _apart([c for *_, c in one.cells], [c for *_, c in other.cells])
    return min(rows, columns) == 0 and max(rows, columns) <= 1


def _apart(some: Sequence[int], others: Sequence[int]) -> int:
    """How many rows or columns apart two runs of them are, 0 where they overlap."""
    return max(0, min(others) - max(some), min(some) - max(others))


_RATIO, _PRESSURE = "compression_ratio", "cranking_pressure"
_FEWEST_TESTED = 3


# No engine that runs is tested with less, in psi.
_LEAST_PSI = 25
_INCHES = ("in", "inch", "inches", "thou", '"')


def _tested(lines: Sequence[Line]) -> Iterator[tuple[int, str, int, str]]:
    """(line, meaning, weight, why) where "Compression" was typed for each cylinder: a test.

    A ratio is the engine's, or worked out; beside a leak-down it is a test for sure, and so it
    is where it was taken before the work.
    """
    of = weights().relations
    leaks = [line for line in lines if line.options and line.options[0].term.id == "leakage"]
    taken = [line for line in lines if line.stage == "found" and _is_either(line)]
    found = {without_stage(line.label) for line in taken}
    for number, line in enumerate(lines):
        places = {which.number for which, _ in line.values if which.number}
        again = line.stage == "found" or without_stage(line.label) in found
        if not _is_either(line) or line.referred or (len(places) < _FEWEST_TESTED and not again):
            continue
        # Shops that measure in inches test in psi: 9.8 is no test.
        inch = line.system == "inch" or any(
            o.unit in _INCHES and _same_table(o, line) for o in lines
        )
        ratio = inch and not line.unit and max(line.sizes) < _LEAST_PSI
        if not ratio or again:
            yield number, _RATIO, of.of_each, "typed for each cylinder:"
        if again or any(_same_table(leak, line) for leak in leaks):
            yield number, _PRESSURE, of.alike, "a test stands beside it:"


def _is_either(line: Line) -> bool:
    """Whether a line may be a compression ratio as well as a test's pressure."""
    return {option.term.id for option in line.options} >= {_RATIO, _PRESSURE}


def _of_the_part_before(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where a property that several parts have stands behind a size of one.

    "Side" behind the clearance of a rod is the rod's, and no ring's.
    """
    by_cell = {cell: line for line in lines for cell in line.cells if line.options}
    for number, line in enumerate(lines):
        if len(line.options) < 2 or line.options[0].cost < weights().words.clear:
            continue
        first = line.options[0].term
        tied = [o.term for o in line.options if o.weight == line.options[0].weight]
        if any(term.noun != first.noun for term in tied) or len({t.of for t in tied}) < 2:
            continue
        before = _clear_before(line, by_cell)
        beside = before.options[0].term if before is not None else None
        for term in tied if beside is not None else ():
            if beside and beside.of == term.of:
                yield number, term.id, f"what stands before it is of the same part, {beside.name}:"


# So many lines before one that says no more than its property may say as little.
_MOST_BEFORE = 3


def _clear_before(line: Line, by_cell: Mapping[InBook, Line]) -> Line | None:
    """The nearest line before another whose words say what it measures, None for none near."""
    before: Line | None = line
    for _ in range(_MOST_BEFORE):
        before = _standing(before, by_cell, -1) if before is not None else None
        if before is not None and before.options[0].cost < weights().words.clear:
            return before
    return None


_FINISHES = {"bore_finish", "journal_finish"}


# How straight a crank is, and what else such a word may be of: a head, a deck, a rod, a cam.
_RUNOUT = "crank_runout"
_STRAIGHT = {
    "crank_runout", "head_flatness", "deck_flatness", "rod_bend", "cam_runout", "seat_runout",
    "flywheel_runout",
}  # fmt: skip
_STRAIGHT_PARTS = {"head", "rod", "big_end", "small_end", "chamber", "valve", "deck"}


def _finish_of_journals(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where a roughness stands in a table of journals."""
    for number, line in enumerate(lines):
        if not {option.term.id for option in line.options} >= _FINISHES:
            continue
        beside = [o for o in lines if o is not line and o.options and _same_rows(o, line)]
        first = {o.options[0].term.property for o in beside}
        if "journal" in first and "bore" not in first:
            yield number, "journal_finish", "journals stand beside it:"


def _of_a_crank(lines: Sequence[Line]) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where how straight something is stands on a sheet of journals."""
    sheets: dict[str, set[str]] = defaultdict(set)
    for line in lines:
        if _RUNOUT in {option.term.id for option in line.options}:
            continue  # What is asked about says nothing of itself.
        if line.options and line.cells and line.options[0].cost <= weights().words.clear:
            term = line.options[0].term
            journal = term.property == "journal" and term.of in BEARINGS
            sheets[min(line.cells)[0]].add("journal" if journal else term.part)
    for number, line in enumerate(lines):
        names = {option.term.id for option in line.options}
        beside = sheets[min(line.cells)[0]] if line.cells else set()
        if {_RUNOUT} < names <= _STRAIGHT and "journal" in beside and not beside & _STRAIGHT_PARTS:
            yield number, _RUNOUT, "journals stand on its sheet, and no head or rod:"


def _same_rows(one: Line, other: Line) -> bool:
    """Whether two lines are columns over the same rows, or rows below the same columns."""
    for n in (1, 2):
        mine, theirs = ({at[n] for at in line.cells} for line in (one, other))
        if len(mine) > 1 and mine == theirs:
            return bool(one.cells) and min(one.cells)[0] == min(other.cells)[0]
    return False
