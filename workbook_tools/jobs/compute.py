"""Compute from a book's readings what the book itself does not: by the catalog, and marked so."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.books.cells import Trouble
from workbook_tools.jobs.batch_records import batch_record, catalog_function
from workbook_tools.jobs.known import Known
from workbook_tools.jobs.ratios import compression_ratios
from workbook_tools.jobs.records import Record
from workbook_tools.jobs.sources import Readings, Source
from workbook_tools.labels.label import Label
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.position import parse
from workbook_tools.quantities import System, from_si


@dataclass(frozen=True)
class _Call:
    """A call to make for each position that its readings have.

    parameters: the readings, by parameter; recorded: the reading that a builder would write
    down for the same thing; unless: a reading that gives it better, by another call.
    """

    function: str
    title: str
    parameters: Mapping[str, str]
    recorded: str = ""
    per: Of = "cylinder"
    unless: str = ""


_BEARINGS: tuple[tuple[str, str, Of], ...] = (
    ("Main", "main", "main"), ("Rod", "rod", "rod"), ("Cam", "cam", "cam_bearing"),
)  # fmt: skip
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
        unless="main_bearing_bore",
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
        unless="rod_bearing_bore",
    ),
    *(
        _Call(
            "BEARING_CLEARANCE_FROM_BORE",
            f"{title} bearing clearance",
            {"bearing_bore": f"{part}_bearing_bore", "journal": f"{part}_journal"},
            f"{part}_bearing_clearance",
            per,
        )
        for title, part, per in _BEARINGS
    ),
    _Call(
        "PIN_CLEARANCE_IN_PISTON",
        "Pin clearance in the piston",
        {"pin_bore": "pin_bore", "pin_diameter": "pin_diameter"},
        "pin_clearance",
    ),
    _Call(
        "PIN_CLEARANCE_IN_ROD",
        "Pin clearance in the rod",
        {"small_end_bore": "small_end_bore", "pin_diameter": "pin_diameter"},
        "small_end_clearance",
        "rod",
    ),
    *(
        _Call(
            "VALVE_GUIDE_CLEARANCE",
            f"{side.capitalize()} guide clearance",
            {"guide_bore": f"{side}_guide_bore", "stem_diameter": f"{side}_stem_diameter"},
            f"{side}_stem_clearance",
            "valve",
        )
        for side in ("intake", "exhaust")
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
        better = call.unless and readings.has(call.unless)
        if not better and all(readings.has(name) for name in call.parameters.values()):
            found += _calls(readings, call)
    called = {r.function.name for r in records if r.function}
    troubles: list[Trouble] = []
    # Where the book's own calls give it, what the batch lacks for it is no news.
    untold: list[Trouble] = []
    displacement = _displacement(readings, untold if "DISPLACEMENT" in called else troubles)
    found = ([displacement] if displacement else []) + found
    found += compression_ratios(
        readings, found, untold if "COMPRESSION_RATIO" in called else troubles
    )
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
            record = batch_record(
                readings, call.function, call.title, given, position, call.per, recorded
            )
            # A guide's clearance may be an intake's or an exhaust's: the call says whose.
            yield replace(record, measurand=call.recorded) if call.recorded else record


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
        kind = catalog_function("DISPLACEMENT").parameters[0].kind
        label = Label(bore.label.text) if bore.label else None
        bare = from_si(number, kind, readings.system)
        bore = Source(f"mean square of {len(bores)} bores", bare, None, label)
    sources = {"bore": bore, "stroke": stroke, "cylinders": cylinders[1]}
    recorded = readings.recorded("displacement", "")
    return batch_record(readings, "DISPLACEMENT", "Displacement", sources, "", "engine", recorded)
