"""Derive from a job's readings what the book itself does not compute, and mark it so."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.books.cells import Trouble
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.arguments import Made, Network
from workbook_tools.jobs.batch_records import on_its_sheet
from workbook_tools.jobs.derivable import COUNTED, Derivable, derivables
from workbook_tools.jobs.engine_text import cylinders_in
from workbook_tools.jobs.known import Known, Remembered
from workbook_tools.jobs.paper_records import JobField
from workbook_tools.jobs.records import Lack, Record
from workbook_tools.jobs.sources import Readings, Source, shown
from workbook_tools.labels.candidate import part_of
from workbook_tools.labels.content import MISSING, how_to_settle
from workbook_tools.measurands import find
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import System


def derived_records(
    known: Sequence[Known],
    records: Sequence[Record],
    system: System,
    cylinders: int | None = None,
    remembered: Remembered | None = None,
    engine: JobField | None = None,
) -> tuple[tuple[Record, ...], tuple[Trouble, ...]]:
    """What the catalog gives for what is known of a job, and what could not be derived and why.

    records: the book's own calls; what one of them gives is carried on and not derived again;
    system: that the results are in; cylinders: how many the layout says there are, where it
    says so; remembered: from asking with most of the same readings; engine: what the book calls
    it, which may say how many. Each record is marked as
    computed by the batch. Where the builder wrote the same thing down, the record stands in
    that cell and its saved value is what was written.
    """
    listed = derivables()
    own = {way.function.name for entry in listed.entries for way in entry.ways}
    asked_of = (k for k in known if k.name in listed.names)
    given = [*asked_of, *(k for r in records if (k := _of_call(r, own)))]
    readings = Readings(given, system, cylinders, remembered)
    count, doubts = _cylinders(readings, engine)
    network = Network(readings, listed, count and readings.same(count))
    covered = _Covered(records)
    derived: list[Record] = []
    troubles: list[Trouble] = []
    for entry in listed.entries:
        if entry.step:
            continue
        found, open_ends = _results(network, entry, covered)
        derived += found
        troubles += open_ends
    if not covered.called("DISPLACEMENT"):
        troubles = [*doubts, *troubles]
    return tuple(map(on_its_sheet, derived)), tuple(troubles)


def _of_call(record: Record, functions: set[str]) -> Known | None:
    """What a call in the book gives, as a reading that others are derived from."""
    value, function, label = record.value, record.function, record.label
    if function is None or function.name not in functions or not record.whole or label is None:
        return None
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not record.measurand:
        return None
    if find(record.measurand) is None:
        return None
    return Known(
        record.measurand, label, record.part.which, " ".join(record.part.at), "", float(value),
        record.unit, function.result, record.place, typed=False, raw=value,
    )  # fmt: skip


class _Covered:
    """What the book's own calls give: the positions of each measurand."""

    def __init__(self, records: Sequence[Record]) -> None:
        self._calls: dict[str, list[Record]] = defaultdict(list)
        self._found: dict[tuple[str, tuple[str, ...]], list[str]] = {}
        for record in records:
            if record.function is not None:
                self._calls[record.function.name].append(record)

    def called(self, function: str) -> bool:
        """Whether the book calls a function anywhere."""
        return function in self._calls

    def any(self, entry: Derivable) -> bool:
        """Whether a call gives this measurand of any part."""
        return bool(self._positions(entry))

    def has(self, entry: Derivable, position: str, for_all: bool) -> bool:
        """Whether a call gives a result.

        for_all: whether the same arguments hold for every position. A single call without a
        position gives that, or what all of them are meant to be; several are results of
        positions that nothing tells apart.
        """
        positions = self._positions(entry)
        if not position or position in positions:
            return bool(positions)
        return positions.count("") > (0 if for_all or entry.target else 1)

    def _positions(self, entry: Derivable) -> list[str]:
        names = tuple(dict.fromkeys(way.function.name for way in entry.ways))
        found = self._found.get((entry.measurand.id, names))
        if found is None:
            found = self._found[entry.measurand.id, names] = [
                r.part.which
                for name in names
                for r in self._calls.get(name, ())
                if not r.measurand or is_one_of(entry.measurand.id, r.measurand)
            ]
        return found


def _results(
    network: Network, entry: Derivable, covered: _Covered
) -> tuple[list[Record], list[Trouble]]:
    """What is derived of one measurand at each position, and what stands in the way."""
    found: list[Record] = []
    open_ends: dict[tuple[str, str], list[tuple[str, Place | None]]] = {}
    tell = bool(entry.tell_with) and all(map(network.readings.has, entry.tell_with))
    if not tell and all(network.lacking(way) for way in entry.ways):
        return [], []
    any_made = False
    for position in network.positions(entry):
        if position and covered.has(entry, position, for_all=False):
            continue
        made = network.result(entry, position)
        any_made = any_made or made is not None
        if made is None:
            continue
        bad = made.open_end
        if made.record.value is None and tell and bad is not None:
            where = shown(entry.measurand.of, position) or "the engine"
            about = bad.about, bad.problem or MISSING
            open_ends.setdefault(about, []).append((where, bad.place))
        elif made.record.value is not None or (
            _is_told(made) and not _is_no_part(network, entry, made, position)
        ):
            found += _for_all(network, entry, made.record, position, covered)
    if covered.any(entry):
        return found, []  # The book's own calls give it: what the batch lacks is no news.
    if tell and not any_made:
        return found, _lacking(network, entry)
    return found, list(_told(entry, open_ends))


def _is_told(made: Made) -> bool:
    """Whether a result without a value is told: where a cell that it takes is at fault."""
    bad = made.open_end
    return bad is None or bad.place is not None


def _is_no_part(network: Network, entry: Derivable, made: Made, position: str) -> bool:
    """Whether an empty cell is of a rod or cylinder that the engine does not have.

    A table of mains and rods side by side has one row more than there are rods.
    """
    if entry.measurand.of not in ("cylinder", "rod") or not position.isdigit():
        return False
    bad, count = made.open_end, network.cylinders.value if network.cylinders else None
    empty = bad is not None and not bad.problem
    return empty and isinstance(count, int) and int(position) > count


def _for_all(
    network: Network, entry: Derivable, record: Record, position: str, covered: _Covered
) -> Iterator[Record]:
    """A result, or one for each cylinder where what it takes is written once for all."""
    numbers = _numbers(network) if not position and entry.measurand.of == "cylinder" else []
    if record.value is None or record.saved is not None or not numbers:
        if not covered.has(entry, position, for_all=False):
            yield record
        return
    for number in numbers:
        if not covered.has(entry, number, for_all=True):
            label = record.label and record.label._replace(position=shown("cylinder", number))
            yield record._replace(label=label, part=part_of("cylinder", number))


def _numbers(network: Network) -> list[str]:
    """The cylinders' numbers where readings count them from 1 without a gap."""
    counted = network.readings.positions(COUNTED)
    numbers = sorted(int(p) for p in counted if p.isdigit())
    if numbers and numbers == list(range(1, len(counted) + 1)):
        return [str(number) for number in numbers]
    count = network.cylinders
    return ["1"] if counted == [""] and count is not None and count.value == 1 else []


def _lacking(network: Network, entry: Derivable) -> list[Trouble]:
    """What a result that was to be expected lacks, in words."""
    words, advice = "", entry.advice
    lacking = network.lacking(entry.ways[0])
    cells: tuple[Place, ...] = ()
    if "cylinder_count" in lacking:
        words = "the book does not say how many cylinders"
        advice = "give them as cylinders = 8 in layout.toml"
    elif lacking:
        words = f"the book gives no {' and no '.join(lacking).replace('_', ' ')}"
    elif entry.mean_square and network.cylinders is not None:
        several = network.readings.mean_square(entry.mean_square)
        sizes = f"{entry.mean_square}s"
        count = f"for {network.cylinders.value} cylinders"
        cells = network.readings.without_value(entry.mean_square)
        at = f" ({cells[0].address})" if cells else ""
        words = (
            f"{several[0]} {sizes} {count}" if several else f"one of the {sizes}{at} has no value"
        )
    if not words:
        return []
    result = f"the {entry.title.lower()}"
    told = f"{result} was not computed: {words}"
    return [Lack(next(iter(cells), None), told, advice, result, cells, tuple(lacking))]


def _cylinders(readings: Readings, engine: JobField | None) -> tuple[Source | None, list[Trouble]]:
    """How many cylinders there are: as told, as written, or as many as there are readings of.

    Readings count them where they stand for 1, 2 and so on to the last one; where none is
    numbered, the name of the engine may say it: "V8".
    """
    if readings.cylinders is not None:
        return Source(str(readings.cylinders), readings.cylinders, None, None), []
    counted = [p for p in readings.positions(COUNTED) if any(c.isdigit() for c in p)]
    number = len(counted)
    written = readings.source("cylinder_count", "")
    if written is not None and isinstance(written.value, (int, float)) and not written.problem:
        doubt = Lack(
            written.place,
            f"the book says {written.value:g} cylinders and has readings of {number}",
            "look for a cylinder that was left out or read twice",
            cells=(written.place,) if written.place else (),
        )
        differ = number and number != written.value
        return written._replace(value=int(written.value)), [doubt] if differ else []
    digits = sorted(int(p) for p in counted if p.isdigit())
    named = cylinders_in(engine.text) if engine and number < 2 else None
    if engine and named and number <= (named == 1):
        return Source(str(named), named, engine.place, None), []
    if number < 2 or (digits and digits != list(range(1, number + 1))):
        return None, []
    return Source(str(number), number, None, None), []


def _told(
    entry: Derivable, open_ends: Mapping[tuple[str, str], list[tuple[str, Place | None]]]
) -> Iterator[Trouble]:
    """One trouble for each thing that stands in the way, of all the positions that it does."""
    for (name, problem), found in open_ends.items():
        wheres = list(dict.fromkeys(where for where, _ in found))
        cells = list(dict.fromkeys(place.address for _, place in found if place))
        at = f" ({', '.join(cells[:8])}{', …' if len(cells) > 8 else ''})" if cells else ""
        gap = " " if problem == MISSING else ": "
        what = f"{name.replace('_', ' ')}{at}{gap}{problem}" if name else problem
        told = f"no {entry.title.lower()} for {', '.join(wheres)}: {what}"
        advice = how_to_settle(problem).rstrip(".")
        result = f"the {entry.title.lower()} for {', '.join(wheres)}"
        places = tuple(dict.fromkeys(place for _, place in found if place))
        yield Lack(found[0][1], told, advice, result, places)
