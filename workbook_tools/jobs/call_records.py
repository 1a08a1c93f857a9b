"""Every call in the cells of a job: traced to its arguments, recomputed and compared."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import Cell, Sheet, Trouble
from workbook_tools.books.engine import CellKey
from workbook_tools.books.fresh import recalculate
from workbook_tools.books.places import order_of
from workbook_tools.books.recalculation import (
    Recalculation,
    agree,
    element,
    first,
    formula_cells,
)
from workbook_tools.books.unsaved_cells import never_calculated
from workbook_tools.catalog import OMITTED, ArgumentError, Function, find
from workbook_tools.formulas.calls import Call, Part, calls_in, known_function
from workbook_tools.formulas.references import Area, Place
from workbook_tools.jobs.cut_ranges import cut_ranges
from workbook_tools.jobs.readings import part_of, position_of
from workbook_tools.jobs.records import (
    Argument,
    CutRange,
    Record,
    StaleFormula,
    State,
    TypedOver,
    UnlikeFormula,
)
from workbook_tools.jobs.split import JobPart
from workbook_tools.jobs.stale_formulas import stale_formulas
from workbook_tools.jobs.typed_over import typed_over
from workbook_tools.jobs.unlike_formulas import unlike_formulas
from workbook_tools.jobs.uses import with_means_named
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.kept_labels import SheetLabels
from workbook_tools.labels.label import Label
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import Position
from workbook_tools.measurands.parts import of_one_part
from workbook_tools.quantities import READING, System

# What a function for any bearing may be of.
_BEARINGS = ("main", "rod", "cam_bearing")


@dataclass
class Tracing(Recalculation):
    """A job's values together with what its cells are called, each looked up once."""

    part: JobPart = field(kw_only=True)
    heads: Mapping[tuple[str, int, int], Candidate] = field(default_factory=dict)
    _labels: dict[tuple[str, int, int], Label | None] = field(default_factory=dict)
    _labels_of: dict[Sheet, SheetLabels] = field(default_factory=dict)
    # By title: the cells that are the job's own, and what the sheet that names them calls them.
    _named_by: dict[str, tuple[Container[tuple[int, int]], SheetLabels | None]] = field(
        default_factory=dict
    )

    def label(self, sheet: Sheet, row: int, column: int) -> Label | None:
        """What the job's book calls a cell; which one it is of as the heads of its table say."""
        key = (sheet.title, row, column)
        labels = self._labels
        if key not in labels:
            own = self._as_labeled(sheet, row, column).label(row, column)
            candidate = self.heads.get(key)
            labels[key] = own if candidate is None else _numbered(own, candidate)
        return labels[key]

    def value(self, sheet: Sheet, row: int, column: int) -> object:
        """A cell's value. Raises CannotEvaluate for one of another job of the file."""
        if self.part.of_another(sheet.title, row, column):
            cell = Place.at(sheet.title, row, column)
            raise CannotEvaluate(f"{cell} is a cell of another job of the file")
        return super().value(sheet, row, column)

    def _as_labeled(self, sheet: Sheet, row: int, column: int) -> SheetLabels:
        """The sheet as it is read for the label of a cell: a job's row has its heads over it."""
        named = self._named_by.get(sheet.title)
        if named is None:
            own = self.part.own.sheet(sheet.title)
            named_by = self.part.book.sheet(sheet.title) if own else None
            labels = self._labels_on(named_by) if named_by is not None else None
            named = self._named_by[sheet.title] = own.cells if own else (), labels
        own_cells, found = named
        if found is not None and (row, column) in own_cells:
            return found
        return self._labels_on(sheet)

    def _labels_on(self, sheet: Sheet) -> SheetLabels:
        if sheet not in self._labels_of:
            self._labels_of[sheet] = SheetLabels(sheet)
        return self._labels_of[sheet]

    def comes_to(self, formula: str, sheet: Sheet, row: int) -> object:
        """What a formula would come to on a sheet and row, None where that cannot be told."""
        try:
            return self.evaluate(self.parts(formula), sheet, row)
        except (ArgumentError, CannotEvaluate, ValueError):
            return None


def _numbered(label: Label | None, candidate: Candidate) -> Label:
    """A label by the nearest texts, with the cylinder that the heads of its table number."""
    if label is None:
        return candidate.label
    said, number = which_of(label.text), candidate.part.number
    if said is not None and said.number and number:
        # The heads of its table name the one it is of, and its column what it is.
        return candidate.label
    if not number or candidate.in_line or position_of(label).number == number:
        return label
    return label._replace(position=candidate.label.position)


@dataclass(frozen=True)
class Calls:
    """What the calls of a job come to, and what stands between them and the typed numbers.

    The fields are those of a Book.
    """

    records: tuple[Record, ...]
    stale_formulas: tuple[StaleFormula, ...]
    not_recalculated: tuple[tuple[Place, str], ...]
    typed_over: tuple[TypedOver, ...]
    unlike: tuple[UnlikeFormula, ...]
    cut_ranges: tuple[CutRange, ...]
    troubles: tuple[Trouble, ...]


def traced_calls(values: Tracing) -> Calls:
    """Every call in a job's cells, traced, recomputed and compared.

    Raises nothing: a formula that cannot be followed is told with its cell.
    """
    records: list[Record] = []
    troubles: list[Trouble] = []
    called = formula_cells(values.book)
    values.ask_ahead(called)
    for sheet, row, column, cell in called:
        place = Place.at(sheet.title, row, column)
        try:
            parts = values.parts(cell.formula)
        except ValueError as error:
            troubles.append(Trouble(place, str(error), "correct the formula in the book"))
            continue
        try:
            records.extend([*_cell_records(values, sheet, row, column, cell, parts)])
        except Exception as error:
            # What no one thought of costs this cell, not the book.
            told = f"the formula could not be followed ({type(error).__name__}: {error})"
            troubles.append(Trouble(place, told[:300], "write it in a simpler way, cell by cell"))
    records = with_means_named(records)
    whole = values.part.whole or values.book
    agree = all(r.state == "same" for r in records)
    fresh = recalculate(values, called, calls_agree=agree, one_job=not values.part.taken)
    return Calls(
        records=tuple(r._replace(fresh=fresh.values.get(_key(r.place))) for r in records)
        if fresh.values
        else tuple(records),
        stale_formulas=tuple(stale_formulas(values.part, fresh, values.label)),
        not_recalculated=tuple(
            (Place.at(sheet, row, column), why)
            for (sheet, row, column), why in sorted(fresh.failed.items())
        ),
        typed_over=tuple(typed_over(whole, values.book, values.label, values.comes_to)),
        unlike=tuple(unlike_formulas(whole, values.book, values.label, values.comes_to)),
        cut_ranges=tuple(cut_ranges(values.book, values.label)),
        troubles=tuple(troubles),
    )


def _key(place: Place) -> CellKey:
    row, column = coordinate_to_tuple(place.address)
    return place.sheet, row, column


def _cell_records(
    values: Tracing, sheet: Sheet, row: int, column: int, cell: Cell, parts: tuple[Part, ...]
) -> Iterator[Record]:
    """A record of each call in one formula; of each element where the formula fills a range."""
    whole_value, whole_problem = _evaluate(values, parts, sheet, row)
    area = _filled_area(cell, row, column)
    several = (area[2] - area[0], area[3] - area[1]) != (0, 0)
    # A cell of a calculated array that holds nothing was given an empty text.
    blank = Cell("" if several and not never_calculated(cell) else None)
    outer = [part.call for part in parts if part.call]
    for call in calls_in(parts):
        if (function := find(call.name)) and function.sees_cell:
            continue  # Words about a cell are no result, and each program has its own.
        whole = len(parts) == 1 and parts[0].call is call
        # What the cell is labeled is not what a call within another, or beside one, gives.
        named = len(outer) == 1 and outer[0] is call
        for r in range(area[0], area[2] + 1):
            for c in range(area[1], area[3] + 1):
                offset = (r - area[0], c - area[1])
                here = cell if offset == (0, 0) else sheet.cells.get((r, c), blank)
                recomputed = element(whole_value, *offset)
                problem = whole_problem
                if isinstance(recomputed, ArgumentError):
                    recomputed, problem = None, recomputed
                spot = _Spot(sheet, row, (r, c), offset, several, named)
                compared = _compared(here, recomputed, problem)
                yield _record(values, spot, cell.formula, call, whole, compared)


def _filled_area(cell: Cell, row: int, column: int) -> tuple[int, int, int, int]:
    """(top, left, bottom, right) of the cells that a formula fills."""
    if not cell.area:
        return row, column, row, column
    left, top, right, bottom = range_boundaries(cell.area)
    return top or row, left or column, bottom or row, right or column


def _evaluate(
    values: Tracing, parts: tuple[Part, ...], sheet: Sheet, row: int
) -> tuple[object, ArgumentError | CannotEvaluate | None]:
    try:
        return values.evaluate(parts, sheet, row), None
    except (ArgumentError, CannotEvaluate) as error:
        return None, error


class _Spot(NamedTuple):
    """Where one result of a formula stands.

    row: of the formula itself; cell: (row, column) of this result; offset: from the
    formula's cell; several: whether the formula fills more than one cell; named: whether the
    cell's label names it.
    """

    sheet: Sheet
    row: int
    cell: tuple[int, int]
    offset: tuple[int, int]
    several: bool
    named: bool


class _Compared(NamedTuple):
    """What a cell has saved against what its whole formula comes to now."""

    saved: object
    recomputed: object
    state: State
    problem: str = ""


def _compared(
    cell: Cell, recomputed: object, problem: ArgumentError | CannotEvaluate | None
) -> _Compared:
    if problem is not None:
        told = isinstance(problem, CannotEvaluate) and isinstance(cell.value, (int, float, str))
        return _Compared(cell.value, None, "as saved" if told else "error", str(problem))
    shown = first(recomputed)
    if never_calculated(cell):
        return _Compared(cell.value, shown, "not saved")
    return _Compared(cell.value, shown, "same" if agree(cell.value, shown) else "stale")


def _record(
    values: Tracing, spot: _Spot, formula: str, call: Call, whole: bool, compared: _Compared
) -> Record:
    """The record of one call, with what its cell has saved."""
    sheet = spot.sheet
    row, column = spot.cell
    label = values.label(sheet, row, column)
    function: Function | None = None
    arguments: tuple[Argument, ...] = ()
    system: System = "inch"
    value: object = None
    unit = problem = blamed = ""
    missing = impossible = False
    try:
        function = known_function(call)
        system = _system(values, call, function, spot)
        arguments = tuple(_arguments(values, call, function, system, spot))
        result = values.call(call, sheet, spot.row)
        value = element(result.value, *spot.offset)
        if isinstance(value, ArgumentError):
            raise value
        unit = result.unit or _reading_unit(function, label if whole else None, arguments)
    except ArgumentError as error:
        value, problem, blamed = None, str(error), error.parameter
        missing, impossible = error.missing, error.impossible
        arguments = tuple(
            a._replace(problem=error.why) if a.name == blamed else a for a in arguments
        )
    except CannotEvaluate as error:
        problem = str(error)
    candidate = values.heads.get((sheet.title, row, column))
    part = part_of(candidate, label)
    return Record(
        place=Place.at(sheet.title, row, column),
        label=label,
        formula="=" + formula,
        function=function,
        name=function.full_name if function else call.spelled,
        arguments=arguments,
        saved=compared.saved,
        recomputed=compared.recomputed,
        value=value,
        unit=unit,
        state=compared.state,
        problem=problem or compared.problem,
        system=system,
        whole=whole,
        blamed=blamed,
        missing=missing,
        impossible=impossible,
        measurand=_measures(
            function, candidate if spot.named else None, _of_bearing(values, part, arguments)
        ),
        part=part,
    )


def _measures(function: Function | None, candidate: Candidate | None, part: Position) -> str:
    """What a call's result measures: as its function says, of the part that its label names."""
    by_label = candidate.name if candidate and candidate.how != "proposal" else ""
    if function is None or not function.measurand:
        return by_label
    if by_label == f"hot_{function.measurand}":
        # Computed of hot sizes, as its label says; the call is the same as for cold ones.
        return by_label
    return of_one_part(function.measurand, by_label, part)


def _of_bearing(values: Tracing, part: Position, arguments: Sequence[Argument]) -> Position:
    """Where a result belongs: to a rod, where most cells of its call are sizes of rods."""
    if part.of in _BEARINGS:
        return part
    places = [order_of(a.place) for a in arguments if a.place]
    heads = [values.heads[place].of for place in places if place in values.heads]
    bearings = [of for of in heads if of in _BEARINGS]
    of = Counter(bearings).most_common() if bearings else []
    if not of or (len(of) > 1 and of[0][1] == of[1][1]):
        return part
    return replace(part, of=of[0][0])


def _reading_unit(function: Function, own: Label | None, arguments: tuple[Argument, ...]) -> str:
    """The unit that labels give a reading, which can be of any kind; "" for other results.

    The cell's own label tells it where the reading is all that the cell holds, else the
    label of what was read.
    """
    if function.result != READING:
        return ""
    unit = own.unit if own else ""
    return unit or next((a.label.unit for a in arguments if a.label), "")


def _system(values: Tracing, call: Call, function: Function, spot: _Spot) -> System:
    """The unit system that a call names; inches where it names none or none that is known."""
    if not function.takes_units or len(call.arguments) <= len(function.parameters):
        return "inch"
    if not call.arguments[-1]:
        return "inch"
    value, _ = _evaluate(values, call.arguments[-1], spot.sheet, spot.row)
    return "metric" if isinstance(value, str) and value.strip().lower() == "metric" else "inch"


def _arguments(
    values: Tracing, call: Call, function: Function, system: System, spot: _Spot
) -> Iterator[Argument]:
    """Each argument that was given, traced to its cell and label."""
    for parameter, parts in zip(function.parameters, call.arguments, strict=False):
        if not parts:
            continue
        text = "".join([part.text for part in parts])
        value, problem = _evaluate(values, parts, spot.sheet, spot.row)
        area = _area(values, parts, spot)
        if value is OMITTED:
            continue
        if spot.several and not parameter.block:
            value = element(value, *spot.offset)
            area = _element_area(area, *spot.offset)
        yield Argument(
            name=parameter.name,
            text=text,
            value=None if isinstance(value, ArgumentError) else value,
            unit=parameter.kind.unit(system),
            place=area.place if area else None,
            label=_label_of(values, area),
            problem=str(problem) if problem else "",
            formula=_formula_of(values, area),
        )


def _formula_of(values: Tracing, area: Area | None) -> str:
    """The formula of the single cell that an argument refers to, "" where that was typed."""
    if area is None or not area.single:
        return ""
    sheet = values.book.sheet(area.sheet)
    cell = sheet.cells.get((area.top, area.left)) if sheet else None
    return "=" + cell.formula if cell and cell.formula else ""


def _area(values: Tracing, parts: tuple[Part, ...], spot: _Spot) -> Area | None:
    if len(parts) != 1 or parts[0].call is not None:
        return None
    try:
        return values.areas.find(parts[0].text, spot.sheet, spot.row)
    except CannotEvaluate:
        return None


def _element_area(area: Area | None, row: int, column: int) -> Area | None:
    """The cell of a range that belongs to one element of a result."""
    if area is None or area.single:
        return area
    r = min(area.top + row, area.bottom) if area.bottom > area.top else area.top
    c = min(area.left + column, area.right) if area.right > area.left else area.left
    return Area(area.sheet, r, c, r, c)


def _label_of(values: Tracing, area: Area | None) -> Label | None:
    if area is None:
        return None
    sheet = values.book.sheet(area.sheet)
    return values.label(sheet, area.top, area.left) if sheet else None
