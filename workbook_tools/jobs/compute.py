"""Compute from a book's readings what the book itself does not: by the catalog, and marked so."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.books.cells import Trouble
from workbook_tools.catalog import OMITTED, ArgumentError, Function, calculate, find
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.known import Known, size
from workbook_tools.jobs.records import Argument, Record
from workbook_tools.jobs.sources import Readings, Source, shown
from workbook_tools.labels.candidate import part_of
from workbook_tools.labels.content import MISSING, how_to_settle
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.parts import of_one_part
from workbook_tools.measurands.position import parse
from workbook_tools.quantities import Kind, System, from_si


@dataclass(frozen=True)
class _Call:
    """A call to make for each position that its readings have.

    parameters: the readings, by parameter; recorded: the reading that a builder would write
    down for the same thing.
    """

    function: str
    title: str
    parameters: Mapping[str, str]
    recorded: str = ""
    per: Of = "cylinder"


_CALLS = (
    _Call(
        "PISTON_CLEARANCE",
        "Piston clearance",
        {"bore": "bore", "piston_diameter": "piston_diameter"},
        "piston_clearance",
    ),
    _Call(
        "QUENCH",
        "Quench",
        {"deck_clearance": "deck_clearance", "gasket_thickness": "gasket_thickness"},
        "quench",
    ),
    _Call("RING_GAP", "Top ring gap by factor", {"bore": "bore", "factor": "ring_gap_factor"}),
    _Call(
        "RING_SIDE_CLEARANCE",
        "Ring side clearance",
        {"groove_width": "top_groove_width", "ring_width": "top_ring_width"},
    ),
    _Call(
        "BEARING_CLEARANCE",
        "Main bearing clearance",
        {
            "housing_bore": "main_housing_bore",
            "shell_wall": "main_shell_wall",
            "journal": "main_journal",
        },
        "main_bearing_clearance",
        "main",
    ),
    _Call(
        "BEARING_CLEARANCE",
        "Rod bearing clearance",
        {
            "housing_bore": "rod_housing_bore",
            "shell_wall": "rod_shell_wall",
            "journal": "rod_journal",
        },
        "rod_bearing_clearance",
        "rod",
    ),
    _Call(
        "ROD_STROKE_RATIO",
        "Rod to stroke ratio",
        {"rod_length": "rod_length", "stroke": "stroke"},
        per="engine",
    ),
)
_DECK = _Call(
    "DECK_CLEARANCE",
    "Deck clearance",
    {
        "deck_height": "deck_height",
        "stroke": "stroke",
        "rod_length": "rod_length",
        "compression_height": "compression_height",
    },
)
_RATIO = ("bore", "stroke", "chamber_volume", "gasket_bore", "gasket_thickness", "deck_clearance")


def _function(name: str) -> Function:
    function = find(name)
    assert function is not None, f"{name} is not in the catalog"
    return function


def computed_records(
    known: Sequence[Known], records: Sequence[Record], system: System, cylinders: int | None = None
) -> tuple[tuple[Record, ...], tuple[Trouble, ...]]:
    """What the catalog gives for what is known of a job, and what could not be computed and why.

    records: the book's own calls; what one of them gives is not computed again; system: that
    the results are in; cylinders: how many the layout says there are, where it says so.
    Each record is marked as computed by the batch. Where the builder wrote the same thing
    down, the record stands in that cell and its saved value is what was written.
    """
    readings = Readings(known, system, cylinders)
    found: list[Record] = []
    if not readings.has("deck_clearance") and all(
        readings.has(n) for n in _DECK.parameters.values()
    ):
        found += _calls(readings, _DECK)
    for call in _CALLS:
        if all(readings.has(name) for name in call.parameters.values()):
            found += _calls(readings, call)
    called = {r.function.name for r in records if r.function}
    troubles: list[Trouble] = []
    # Where the book's own calls give it, what the batch lacks for it is no news.
    untold: list[Trouble] = []
    displacement = _displacement(readings, untold if "DISPLACEMENT" in called else troubles)
    found = ([displacement] if displacement else []) + found
    found += _ratios(readings, found, untold if "COMPRESSION_RATIO" in called else troubles)
    covered = _covered(records)
    return tuple(r for r in found if not _is_covered(r, covered)), tuple(troubles)


def _covered(records: Sequence[Record]) -> dict[str, set[str]]:
    """The positions for which the book's own calls give each function's result."""
    covered: dict[str, set[str]] = {}
    for record in records:
        if record.function is not None:
            position = record.label.position if record.label else ""
            covered.setdefault(record.function.name, set()).add(which(position))
    return covered


def _is_covered(record: Record, covered: Mapping[str, set[str]]) -> bool:
    positions = covered.get(record.function.name if record.function else "", set())
    own = which(record.label.position if record.label else "")
    return bool(positions) and ("" in positions or not own or own in positions)


def which(position: str) -> str:
    """Which one a label's position names, without its word: "3" of "Cyl 3"."""
    position_named = parse(position)
    return position_named.which if position_named else ""


def _calls(readings: Readings, call: _Call) -> Iterator[Record]:
    names = list(call.parameters.values())
    for position in readings.positions(names):
        sources = {p: readings.source(name, position) for p, name in call.parameters.items()}
        given = {p: s for p, s in sources.items() if s is not None}
        if len(given) == len(sources):
            recorded = readings.recorded(call.recorded, position) if call.recorded else None
            yield _record(readings, call.function, call.title, given, position, call.per, recorded)


def _record(
    readings: Readings,
    name: str,
    title: str,
    sources: Mapping[str, Source],
    position: str,
    per: Of,
    recorded: Known | None = None,
) -> Record:
    """One call of the catalog, as the record of a formula that the batch made."""
    function = _function(name)
    system = readings.system
    kinds: dict[str, Kind] = {p.name: p.kind for p in function.parameters}
    arguments = tuple(
        Argument(p, s.text, s.value, kinds[p].unit(system), s.place, s.label, s.problem)
        for p, s in sources.items()
    )
    inner = ",".join(a.text for a in arguments)
    units = ',"metric"' if system == "metric" and function.takes_units else ""
    sheet = next((s.place.sheet for s in sources.values() if s.place), "")
    record = Record(
        place=recorded.place if recorded else Place(sheet, ""),
        label=Label(title, shown(per, position)),
        formula=f"={function.full_name}({inner}{units})",
        function=function,
        name=function.full_name,
        arguments=arguments,
        saved=_in_unit(recorded, function.result, system) if recorded else None,
        recomputed=None,
        value=None,
        unit="",
        state="error",
        system=system,
        computed_by_batch=True,
        measurand=_measurand(name, part_of(per, position)),
        part=part_of(per, position),
    )
    refused = next((a for a in arguments if a.problem), None)
    if refused is not None:
        return replace(record, problem=f"{refused.name}: {refused.problem}", blamed=refused.name)
    values = [a.value for a in arguments]
    if function.takes_units:
        values += [OMITTED] * (len(function.parameters) - len(arguments)) + [system]
    try:
        result = calculate(function, values)
    except ArgumentError as error:
        blamed = tuple(
            replace(a, problem=f"expected {error.expected}, got {error.got}")
            if a.name == error.parameter
            else a
            for a in arguments
        )
        return replace(
            record,
            arguments=blamed,
            problem=str(error),
            blamed=error.parameter,
            missing=error.missing,
        )
    return replace(
        record, value=result.value, recomputed=result.value, unit=result.unit, state="computed"
    )


# The gap that a factor gives is taken for the top ring's.
_RESULTS = {"RING_GAP": "top_ring_gap"}


def _measurand(function: str, part: Position) -> str:
    return _RESULTS.get(function) or of_one_part(_function(function).measurand, "", part)


def _in_unit(reading: Known, kind: Kind, system: System) -> float | None:
    """A reading that was written down, in the unit of the result that it is compared with."""
    written = size(reading)
    return None if written is None else float(f"{from_si(written, kind, system):.12g}")


def _cylinders(readings: Readings, troubles: list[Trouble]) -> tuple[int, Source] | None:
    """How many cylinders there are: as told, as written, or as many as there are readings of."""
    if readings.cylinders is not None:
        told = float(readings.cylinders)
        return readings.cylinders, Source(str(readings.cylinders), told, None, None)
    counted = [
        p
        for name in ("bore", "chamber_volume", "deck_clearance", "piston_diameter")
        for p in readings.positions([name])
        if p and any(c.isdigit() for c in p)
    ]
    number = len(set(counted))
    written = readings.source("cylinder_count", "")
    if written is not None and isinstance(written.value, float):
        if number and number != written.value:
            troubles.append(
                Trouble(
                    written.place,
                    f"the book says {written.value:g} cylinders and has readings of {number}",
                    "look for a cylinder that was left out or read twice",
                )
            )
        return int(written.value), written
    if number < 2:
        return None
    return number, Source(str(number), float(number), None, None)


def _displacement(readings: Readings, troubles: list[Trouble]) -> Record | None:
    """The displacement; of unequal bores by the bore whose area is their areas' mean."""
    if not readings.has("bore") or not readings.has("stroke"):
        return None
    cylinders = _cylinders(readings, troubles)
    if cylinders is None:
        troubles.append(
            Trouble(
                None,
                "the displacement was not computed: the book does not say how many cylinders",
                "give them as cylinders = 8 in layout.toml",
            )
        )
        return None
    bores, stroke = readings.sizes("bore"), readings.source("stroke", "")
    if bores is None or stroke is None or len(bores) not in (1, cylinders[0]):
        found = 0 if bores is None else len(bores)
        words = "one of the bores has no value" if bores is None else f"{found} bores"
        troubles.append(
            Trouble(
                None,
                f"the displacement was not computed: {words} for {cylinders[0]} cylinders",
                "measure and enter every bore",
            )
        )
        return None
    bore = readings.source("bore", readings.positions(["bore"])[0])
    assert bore is not None
    if len(bores) > 1:
        number = math.sqrt(sum(b * b for b in bores) / len(bores))
        kind = _function("DISPLACEMENT").parameters[0].kind
        label = Label(bore.label.text) if bore.label else None
        bare = from_si(number, kind, readings.system)
        bore = Source(f"mean square of {len(bores)} bores", bare, None, label)
    sources = {"bore": bore, "stroke": stroke, "cylinders": cylinders[1]}
    recorded = readings.recorded("displacement", "")
    return _record(readings, "DISPLACEMENT", "Displacement", sources, "", "engine", recorded)


def _ratios(
    readings: Readings, before: Sequence[Record], troubles: list[Trouble]
) -> Iterator[Record]:
    """The compression ratio of each cylinder, from the volumes that its readings make."""
    if not readings.has("chamber_volume") or not readings.has("stroke"):
        return
    decks = {r.label.position: r for r in before if r.name == "ENG.DECK_CLEARANCE" and r.label}
    crowns = [n for n in ("crown_volume", "dish_volume", "dome_volume") if readings.has(n)]
    if not crowns and readings.has("pocket_volume"):
        crowns = ["pocket_volume"]  # A flat crown with nothing but pockets for the valves.
    lacking = [n for n in _RATIO if not readings.has(n) and not (n == "deck_clearance" and decks)]
    lacking += [] if crowns else ["crown_volume"]
    if lacking:
        named = ", no ".join(lacking).replace("_", " ")
        troubles.append(
            Trouble(
                None,
                f"the compression ratio was not computed: no {named} was found",
                "name the cell in layout.toml; a flat crown is 0 cc, a level piston 0",
            )
        )
        return
    open_ends: dict[tuple[str, str], list[tuple[str, Place | None]]] = {}
    for position in readings.positions([*_RATIO, *crowns]):
        sources = _volumes(readings, position, decks, crowns)
        if isinstance(sources, _Obstacle):
            where = shown("cylinder", position) or "the engine"
            about = sources.name, sources.problem
            open_ends.setdefault(about, []).append((where, sources.place))
            continue
        recorded = readings.recorded("compression_ratio", position)
        yield _record(
            readings,
            "COMPRESSION_RATIO",
            "Compression ratio",
            sources,
            position,
            "cylinder",
            recorded,
        )
    for (name, problem), found in open_ends.items():
        wheres = list(dict.fromkeys(where for where, _ in found))
        cells = list(dict.fromkeys(place.address for _, place in found if place))
        at = f" ({', '.join(cells[:8])}{', …' if len(cells) > 8 else ''})" if cells else ""
        gap = " " if problem == MISSING else ": "
        what = f"{name.replace('_', ' ')}{at}{gap}{problem}" if name else problem
        told = f"no compression ratio for {', '.join(wheres)}: {what}"
        troubles.append(Trouble(found[0][1], told, how_to_settle(problem).rstrip(".")))


@dataclass(frozen=True)
class _Obstacle:
    """What stands in the way of a result: a reading, where, and what is wrong with it."""

    name: str
    problem: str
    place: Place | None = None


def _volumes(
    readings: Readings, position: str, decks: Mapping[str, Record], crowns: Sequence[str]
) -> dict[str, Source] | _Obstacle:
    """The volumes of one cylinder by parameter, or what stands in the way of one."""
    given: dict[str, Source] = {}
    for name in (n for n in _RATIO if readings.has(n)):
        source = readings.source(name, position)
        if source is None or source.value is None or source.problem:
            return _Obstacle(name, _problem(source), source.place if source else None)
        given[name] = source
    if "deck_clearance" not in given:
        deck = decks.get(shown("cylinder", position)) or next(iter(decks.values()))
        given["deck_clearance"] = Source(deck.formula[1:], deck.value, None, deck.label)
    inside = {
        "cylinder_volume": ("CYLINDER_VOLUME", ("bore", "stroke")),
        "gasket_volume": ("GASKET_VOLUME", ("gasket_bore", "gasket_thickness")),
        "deck_volume": ("DECK_VOLUME", ("bore", "deck_clearance")),
    }
    volumes: dict[str, Source] = {}
    for parameter, (name, names) in inside.items():
        sources = [given[n] for n in names]
        try:
            result = calculate(_function(name), [*(s.value for s in sources), readings.system])
        except ArgumentError as error:
            return _Obstacle("", str(error))
        text = f"ENG.{name}({','.join(s.text for s in sources)})"
        volumes[parameter] = Source(
            text, result.value, None, Label(name.replace("_", " ").capitalize())
        )
    crown = _crown(readings, position, crowns)
    if isinstance(crown, _Obstacle):
        return crown
    return {
        "cylinder_volume": volumes["cylinder_volume"],
        "chamber_volume": given["chamber_volume"],
        "gasket_volume": volumes["gasket_volume"],
        "deck_volume": volumes["deck_volume"],
        "crown_volume": crown,
    }


def _problem(source: Source | None) -> str:
    return source.problem if source and source.problem else MISSING


def _crown(readings: Readings, position: str, names: Sequence[str]) -> Source | _Obstacle:
    """What the crown adds: dish and reliefs less the dome."""
    sources = []
    for name in names:
        source = readings.source(name, position)
        if source is None or not isinstance(source.value, (int, float)) or source.problem:
            return _Obstacle(name, _problem(source), source.place if source else None)
        sources.append(source)
    if len(sources) == 1:
        return sources[0]
    total = sum(s.value for s in sources if isinstance(s.value, (int, float)))
    return Source("+".join(s.text for s in sources), total, None, sources[0].label)
