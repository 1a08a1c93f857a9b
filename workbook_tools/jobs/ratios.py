"""The compression ratio of each cylinder, from the volumes that its readings make."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.books.cells import Trouble
from workbook_tools.catalog import ArgumentError, calculate
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.batch_records import batch_record, catalog_function
from workbook_tools.jobs.records import Record
from workbook_tools.jobs.sources import Readings, Source, shown
from workbook_tools.labels.content import MISSING, how_to_settle
from workbook_tools.labels.label import Label

_RATIO = ("bore", "stroke", "chamber_volume", "gasket_bore", "gasket_thickness", "deck_clearance")


def compression_ratios(
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
        yield batch_record(
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
            result = calculate(
                catalog_function(name), [*(s.value for s in sources), readings.system]
            )
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
