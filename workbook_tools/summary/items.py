"""What a book gives to report, one item a number: results of calls, and the readings behind."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache

from workbook_tools.books.places import corners, spread
from workbook_tools.books.recalculation import agree
from workbook_tools.catalog import CellError, Function, Parameter
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import (
    Argument,
    Book,
    Reading,
    Record,
    StatedResult,
)
from workbook_tools.jobs.verdicts import argument_of, is_judge, is_verdict, judged_by
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position
from workbook_tools.quantities import READING, TEXT, Kind, System
from workbook_tools.summary.bands import (
    Band,
    band_of,
    band_of_nested,
    bands_by_place,
    fills_its_cell,
)
from workbook_tools.summary.cells import reading_order
from workbook_tools.summary.figures import Measure, digits, measure, number_in, words
from workbook_tools.summary.item import NOT_UNDERSTOOD, RESULT, Item

_CALLED = re.compile(r"\b(\w+)\s*\(")


@lru_cache(maxsize=8)
def sheet_order(book: Book) -> tuple[str, ...]:
    """The sheets that calls stand on or refer to, in the order in which they come up."""
    titles = [record.place.sheet for record in book.records]
    titles += [a.place.sheet for r in book.records for a in r.arguments if a.place is not None]
    return tuple(dict.fromkeys(titles))


@lru_cache(maxsize=8)
def in_order(book: Book) -> tuple[Record, ...]:
    """The book's records as the book is read; those of one cell as they stand in it."""
    sheets = sheet_order(book)
    return tuple(sorted(book.records, key=lambda r: reading_order(r.place, sheets)))


def function_words(name: str) -> str:
    """A function's name as words: "RING_GAP" is "Ring gap"."""
    return name.replace("_", " ").capitalize()


@lru_cache(maxsize=8)
def judged_cells(book: Book) -> dict[Place, tuple[Record, Band]]:
    """The cells that the book's calls judge, each with the call and its band."""
    return bands_by_place(book, in_order(book), dict(book.origins))


def result_items(book: Book) -> tuple[Item, ...]:
    """The results of the book's calls, each with its band where a VERDICT judges it.

    A call inside the formula of another is no number of the book and is left out. A verdict
    that judges a result or a reading is told with that number; one that judges anything
    else stands for itself, with the value that it judges.
    """
    records = in_order(book)
    by_cell: dict[Place, list[Record]] = {}
    for record in records:
        by_cell.setdefault(record.place, []).append(record)
    judged = judged_cells(book)
    origins = dict(book.origins)
    readings = {item.place for item in reading_items(book)}
    told = {id(judge) for place, (judge, _) in judged.items() if place in readings}
    verdicts = {place: [*filter(is_verdict, cell)] for place, cell in by_cell.items()}
    items: list[Item] = []
    for record in (r for cell in by_cell.values() for r in _outermost(cell)):
        judge = judged.get(record.place)
        if judge is None or not fills_its_cell(record):
            nested = verdicts[record.place]
            judge = band_of_nested(record, nested, origins) if nested else None
        if judge is not None:
            told.add(id(judge[0]))
        items.append(_with_band(_result_item(record), judge[1] if judge else None))
    items += [
        _verdict_alone(r, _result_item(r), origins)
        for r in records
        if is_verdict(r) and id(r) not in told
    ]
    sheets = sheet_order(book)
    return tuple(sorted(items, key=lambda i: reading_order(i.place, sheets)))


def _outermost(cell: Sequence[Record]) -> Sequence[Record]:
    """The calls of one cell that no other call of it contains, verdicts left aside."""
    calls = [record for record in cell if not is_verdict(record)]
    whole = [record for record in calls if record.whole]
    if whole:
        return whole
    inside = [_called_inside(record) for record in calls]
    holders = Counter(name for names in inside for name in names)
    return [
        record
        for record, names in zip(calls, inside, strict=True)
        # A call that holds another of its own name is not inside itself.
        if record.function is None
        or holders[record.function.name] == (record.function.name in names)
    ]


def _called_inside(record: Record) -> set[str]:
    """The names of the functions that are called in a call's arguments."""
    return {
        name.upper()
        for argument in record.arguments
        if argument.place is None
        for name in _CALLED.findall(argument.text)
    }


def _verdict_alone(record: Record, item: Item, origins: Mapping[Place, str]) -> Item:
    """A verdict as a row of its own: the value that it judges, against its band."""
    judged = argument_of(record, "value")
    if judged is None:
        return item
    return item._replace(
        value=number_in(judged.value, READING, record.system),
        text="",
        of=measure(READING, "", judged.label or record.label, record.system),
        band=next((band_of(one, origins) for one in judged_by(record)), None),
        typed=True,
    )


def with_own_bands(
    items: Iterable[Item], own: Mapping[tuple[Place, str, Position], Band]
) -> tuple[Item, ...]:
    """Items with the band that the book writes beside them, where no call judges them."""
    return tuple(
        item if item.band else _with_band(item, own.get((item.place, item.measurand, item.part)))
        for item in items
    )


def _with_band(item: Item, band: Band | None) -> Item:
    if band is None:
        return item
    notes = [item.note] if item.note else []
    if item.value is not None and band.problem:
        notes.append(f"not judged: {band.problem}")
    elif item.value is not None and band.state == "stale":
        notes.append(f"the verdict saved in {band.place.address} differs")
    return item._replace(band=band, note="; ".join(notes))


def _result_item(record: Record) -> Item:
    """What one call gives, without its band."""
    function, label = record.function, record.label
    kind = function.result if function else READING
    title = _title(record)
    if label and label.text and not fills_its_cell(record):
        title = f"{title}: {_name(record).lower()}"
    number = None if isinstance(record.value, str) else number_in(record.value, kind, record.system)
    note = record.problem or _stale_text(record) or _cell_text(record)
    of_the_cell = record.whole or record.state == "as saved"
    saved = number_in(record.saved, kind, record.system) if of_the_cell else None
    stale = record.state == "stale" and not isinstance(record.saved, str)
    doubted = record.value is None and saved is not None and bool(record.blamed)
    if record.value is None and saved is not None and not doubted:
        # What is out of reach of recalculation is still told, as what it is. What rests on
        # a missing or impossible reading is not: the program may have counted it as zero.
        number = saved
        note = f"as saved, not recomputed: {record.problem}"
    return Item(
        section=function.section if function else NOT_UNDERSTOOD,
        label=title,
        position=label.position if label else "",
        function=function.full_name if function else record.name,
        parameter=RESULT,
        of=_measure_of_result(record, kind),
        place=record.place,
        state=record.state,
        value=number,
        text="" if number is not None else words(record.value),
        saved=saved if stale or doubted else None,
        note=note,
        help=function.result_help if function else "",
        typed=kind is READING,
        most_digits=_digits_of_a_mean(record),
        measurand=record.measurand,
        part=record.part,
        rests_on=tuple([a.place for a in record.arguments if a.place]),
    )


def _digits_of_a_mean(record: Record) -> int | None:
    """One digit more than the readings have, as a mean is finer than each of them."""
    if record.function is None or record.function.name != "MEAN_READING":
        return None
    given = argument_of(record, "readings")
    if given is None or not isinstance(given.value, tuple):
        return None
    cells = [cell for row in given.value for cell in row]
    numbers = [float(c) for c in cells if isinstance(c, (int, float)) and not isinstance(c, bool)]
    of = measure(READING, "", given.label, "inch")
    return digits(numbers, of, typed=True) + 1 if numbers else None


def _name(record: Record) -> str:
    return function_words(record.function.name if record.function else record.name)


def _title(record: Record) -> str:
    """What the book calls a call's cell, the function's name where it says nothing."""
    return record.label.text if record.label and record.label.text else _name(record)


def _measure_of_result(record: Record, kind: Kind) -> Measure:
    """What a result is of, with or without a value; a label's unit counts only for readings."""
    system: System = "metric" if record.system == "metric" else "inch"
    unit = record.unit if kind is READING else kind.unit(system)
    return measure(kind, unit, record.label, system)


def _cell_text(record: Record) -> str:
    """What the cell shows, where that is not the call's own value or no longer stands."""
    cell = record.recomputed
    if not fills_its_cell(record):
        shown = f"{cell:.6g}" if isinstance(cell, (int, float)) else words(cell)
        return f"the cell's formula makes {shown} of it"
    if record.whole and isinstance(record.fresh, (int, float)) and not agree(cell, record.fresh):
        return f"recalculated from the readings up, {record.fresh:.6g}"
    return ""


def _stale_text(record: Record) -> str:
    """What was saved, where that is no number to show beside the recomputed one."""
    if record.state != "stale":
        return ""
    if not record.whole:
        return f"the cell was saved as {words(record.saved)}, not {words(record.recomputed)}"
    if isinstance(record.saved, (str, bool, CellError)):
        return f"saved as {words(record.saved)}"
    return ""


@lru_cache(maxsize=8)
def reading_items(book: Book) -> tuple[Item, ...]:
    """The readings that results rest on: arguments that came from cells, each cell once.

    Limits of a verdict are bands and no readings; a cell that holds a result of a call is
    that result.
    """
    records = in_order(book)
    told = {record.place for record in records}
    known: tuple[Reading | StatedResult, ...] = (*book.stated, *book.readings)
    meant = {one.place: one for one in known}
    labels = {w.place: w.label for w in book.readings if w.label}
    labels |= {a.place: a.label for r in records for a in r.arguments if a.place and a.label}
    judged = judged_cells(book)
    found: list[Item] = []
    # A function of a subject says what a reading is; a mean or a verdict takes any reading.
    for record in sorted(records, key=_takes_any_reading):
        for given in record.arguments:
            if given.place is None or given.place in told:
                continue
            for item in _readings_of(record, given, given.place, labels, told):
                band = judged.get(item.place)
                found.append(_with_band(_as_known(item, meant), band[1] if band else None))
                told.add(item.place)
    sheets = sheet_order(book)
    return tuple(sorted(found, key=lambda i: reading_order(i.place, sheets)))


def _as_known(item: Item, meant: Mapping[Place, Reading | StatedResult]) -> Item:
    known = meant.get(item.place)
    if known is None or not known.measurand:
        return item
    return item._replace(measurand=known.measurand, stage=known.stage, part=known.part)


def _takes_any_reading(record: Record) -> bool:
    return record.function is None or record.function.parameters[0].kind is READING


def _readings_of(
    record: Record,
    given: Argument,
    at: Place,
    labels: Mapping[Place, Label],
    told: Collection[Place],
) -> Iterator[Item]:
    """The readings that one argument brings, without cells that are told already.

    at: the cell or range that it refers to.
    """
    if given.name == "units":
        return
    if is_judge(record) and given.name in ("low", "high"):
        return
    function = record.function
    declared = _parameter(function, given.name)
    kind = declared.kind if declared else READING
    is_text = kind == TEXT
    cells = spread(at, given.value)
    for place, value in cells:
        if place in told:
            continue
        empty = value is None or value == ""
        if empty and len(cells) > 1 and not (record.missing and record.blamed == given.name):
            continue
        label = labels.get(place) or given.label
        name = label.text if label and label.text else function_words(given.name)
        if len(cells) > 1 and place not in labels and not _labels_the_range(given):
            name = f"{_title(record)}: {function_words(given.name).lower()}"
        number = None if is_text else number_in(value, kind, record.system)
        state = _reading_state(given, value, number, is_text, len(cells))
        bare = isinstance(value, (int, float)) or _is_bare(value)
        yield Item(
            section=function.section if function else NOT_UNDERSTOOD,
            label=name,
            position=_position(label, place, place in labels or len(cells) == 1),
            function=function.full_name if function else record.name,
            parameter=given.name,
            of=measure(kind, given.unit, label, record.system),
            place=place,
            state=state,
            value=number,
            text="" if number is not None and bare else words(value),
            note=given.problem if state == "refused" else "",
            help=declared.help if declared else "",
            measurand=declared.measurand if declared else "",
        )


def _labels_the_range(given: Argument) -> bool:
    """Whether the label of a range's first cell is that of all its cells.

    It is for cells side by side, and where the label leaves it to the position to say which
    one of several; below each other, each cell has a label of its own.
    """
    edges = corners(given.place.address) if given.place else None
    across = edges is not None and edges[0] == edges[2]
    return given.label is not None and (across or bool(given.label.position))


def _position(label: Label | None, place: Place, own: bool) -> str:
    """The position a cell's own label gives; in a range with one label, the address."""
    if own:
        return label.position if label else ""
    return place.address


def _parameter(function: Function | None, name: str) -> Parameter | None:
    declared: Sequence[Parameter] = function.parameters if function else ()
    return next((p for p in declared if p.name == name), None)


def _is_bare(value: object) -> bool:
    """Whether a text is a number without a unit of its own."""
    if not isinstance(value, str):
        return False
    return not any(c.isalpha() or c in "\"'°”″:" for c in value)


def _reading_state(
    given: Argument, value: object, number: float | None, is_text: bool, cells: int
) -> str:
    if value is None or value == "":
        return "missing"
    if given.problem and (cells == 1 or number is None):
        return "refused"
    return "read" if number is not None or is_text else "refused"
