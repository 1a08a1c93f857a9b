"""From a book file to records: every call found, traced, recomputed and compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from workbook_tools.books.calls import Call, Part, calls_in, mentions_call
from workbook_tools.books.candidate import Candidate
from workbook_tools.books.candidates import Candidates, propose
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.chosen import known
from workbook_tools.books.computing import computed_records
from workbook_tools.books.engine import CellKey
from workbook_tools.books.fresh import Fresh, recalculate
from workbook_tools.books.jobs import JobPart, job_of, split_jobs
from workbook_tools.books.labels import find_label
from workbook_tools.books.layout import NO_FORM, Form, Layout
from workbook_tools.books.office import read_office
from workbook_tools.books.opening import read_cells
from workbook_tools.books.readings import decide, part_of, position_of
from workbook_tools.books.recalculation import (
    Area,
    CannotEvaluate,
    Recalculation,
    agree,
    element,
    formula_cells,
    known_function,
    never_calculated,
)
from workbook_tools.books.records import (
    Argument,
    Book,
    Job,
    Label,
    Place,
    Record,
    StaleFormula,
    State,
    Trouble,
)
from workbook_tools.books.siblings import typed_over
from workbook_tools.books.signatures import job_numbers, unsigned_lines
from workbook_tools.catalog import OMITTED, ArgumentError, CellError, Function
from workbook_tools.units import READING, System


@dataclass
class _Tracing(Recalculation):
    """The whole file's values, together with what the cells of one job are called."""

    cells: OpenBook = field(kw_only=True)
    heads: Mapping[tuple[str, int, int], Candidate] = field(default_factory=dict)
    _labels: dict[tuple[str, int, int], Label | None] = field(default_factory=dict)

    def label(self, sheet: Sheet, row: int, column: int) -> Label | None:
        """What the job's book calls a cell; which one it is of as the heads of its table say."""
        key = (sheet.title, row, column)
        if key not in self._labels:
            own = find_label(self.cells.sheet(sheet.title) or sheet, row, column)
            self._labels[key] = _numbered(own, self.heads.get(key))
        return self._labels[key]

    def comes_to(self, formula: str, sheet: Sheet, row: int) -> object:
        """What a formula would come to on a sheet and row, None where that cannot be told."""
        try:
            return self.evaluate(self.parts(formula), sheet, row)
        except (ArgumentError, CannotEvaluate, ValueError, RecursionError):
            return None


def read_book(path: Path, layout: Layout | None = None) -> Book:
    """Read a finished book: its job, every typed number, and a record of every call in it.

    path: the book's file, which is opened for reading only; layout: the shop's own, for what
    formulas and labels do not say. Of a file with several jobs this is the whole: see
    read_jobs. Raises BookError where it cannot be read as a book.
    """
    jobs = read_jobs(path, layout)
    if len(jobs) == 1:
        return jobs[0]
    names = ", ".join(job.part for job in jobs)
    told = Trouble(None, f"the file holds {len(jobs)} jobs: {names}", "summarize them apart")
    book = read_cells(path)
    form = layout.form_of(book.file_name) if layout else NO_FORM
    whole = read_whole(book, form)
    return replace(whole, troubles=(*whole.troubles, told))


def read_whole(book: OpenBook, form: Form = NO_FORM) -> Book:
    """All cells of a book as one job."""
    return _job(book, JobPart("", book), form)


def read_jobs(path: Path, layout: Layout | None = None, name: str = "") -> tuple[Book, ...]:
    """Read each job of a file: one book where the file is one job, else one for each.

    name: of the builder's own file, where path is a copy of it under another name. The other
    parameters and errors are those of read_book. A job's part tells it from the others.
    """
    book = read_cells(path)
    book = replace(book, file_name=name or book.file_name)
    form = layout.form_of(book.file_name) if layout else NO_FORM
    return tuple(_job(book, part, form) for part in split_jobs(book, form))


def _job(book: OpenBook, part: JobPart, form: Form) -> Book:
    """One job of a book: of its cells alone, with the values of the whole file behind them."""
    job, refused_dates = job_of(part, form)
    candidates = propose(part.book, form)
    values = _Tracing(book, cells=part.book, heads=_surest(candidates))
    traced = _traced(values)
    decided = decide(part.book, candidates, traced.records, values.label)
    facts = known(decided.readings, decided.missing, decided.stated)
    computed, troubles = computed_records(facts, traced.records, decided.system, form.cylinders)
    return replace(
        traced,
        job=job,
        part=part.name,
        records=(*traced.records, *computed),
        readings=decided.readings,
        missing=decided.missing,
        no_readings=decided.no_readings,
        stated=decided.stated,
        troubles=(*traced.troubles, *refused_dates, *troubles),
    )


def _numbered(label: Label | None, candidate: Candidate | None) -> Label | None:
    """A label by the nearest texts, with the cylinder that the heads of its table number."""
    if candidate is None:
        return label
    if label is None:
        return candidate.label
    number = candidate.part.number
    if not number or candidate.in_line or position_of(label).number == number:
        return label
    return replace(label, position=candidate.label.position)


def _surest(candidates: Candidates) -> dict[tuple[str, int, int], Candidate]:
    """What known labels say of cells; the first where several name one."""
    found: dict[tuple[str, int, int], Candidate] = {}
    for candidate in (*candidates.calls, *candidates.readings):
        if candidate.how != "proposal":
            row, column = coordinate_to_tuple(candidate.place.address)
            found.setdefault((candidate.place.sheet, row, column), candidate)
    return found


def _traced(values: _Tracing) -> Book:
    """What a job's cells come to: every call traced, recomputed and compared."""
    cells = values.cells
    records: list[Record] = []
    troubles = list(cells.troubles)
    called = formula_cells(cells)
    for sheet, row, column, cell in called:
        place = Place(sheet.title, f"{get_column_letter(column)}{row}")
        try:
            parts = values.parts(cell.formula)
        except ValueError as error:
            troubles.append(Trouble(place, str(error), "correct the formula in the book"))
            continue
        try:
            records.extend(_cell_records(values, sheet, row, column, cell, parts))
        except RecursionError:
            troubles.append(Trouble(place, "its formula nests too deeply", "check it by hand"))
        except Exception as error:
            # Whatever one formula brings up costs that formula, and never the book.
            told = f"its formula cannot be followed here ({type(error).__name__}: {error})"
            troubles.append(Trouble(place, told, "check this cell by hand"))
    fresh = recalculate(values, called, calls_agree=all(r.state == "same" for r in records))
    return Book(
        file_name=cells.file_name,
        sha256=cells.sha256,
        job=Job(),
        records=tuple(replace(r, fresh=fresh.values.get(_key(r.place))) for r in records)
        if fresh.values
        else tuple(records),
        stale_formulas=tuple(_stale_formulas(values, fresh)),
        not_recalculated=tuple(
            (Place(sheet, f"{get_column_letter(column)}{row}"), why)
            for (sheet, row, column), why in sorted(fresh.failed.items())
        ),
        troubles=tuple(troubles),
        typed_over=tuple(typed_over(called, values.label, values.comes_to)),
        job_numbers=tuple(job_numbers(cells)),
        unsigned=tuple(unsigned_lines(cells)),
        office=read_office(cells),
    )


def _key(place: Place) -> CellKey:
    row, column = coordinate_to_tuple(place.address)
    return place.sheet, row, column


def _stale_formulas(values: _Tracing, fresh: Fresh) -> Iterator[StaleFormula]:
    """The ordinary formulas whose saved values are not what they come to."""
    for (title, row, column), value in sorted(fresh.values.items()):
        sheet = values.book.sheet(title)
        cell = sheet.cells.get((row, column)) if sheet else None
        if sheet is None or cell is None or mentions_call(cell.formula):
            continue
        if never_calculated(cell) or agree(cell.value, value):
            continue
        yield StaleFormula(
            Place(title, f"{get_column_letter(column)}{row}"),
            values.label(sheet, row, column),
            "=" + cell.formula,
            cell.value,
            value,
        )


def _cell_records(
    values: _Tracing, sheet: Sheet, row: int, column: int, cell: Cell, parts: tuple[Part, ...]
) -> Iterator[Record]:
    """A record of each call in one formula; of each element where the formula fills a range."""
    whole_value, whole_problem = _evaluate(values, parts, sheet, row)
    area = _filled_area(cell, row, column)
    several = (area[2] - area[0], area[3] - area[1]) != (0, 0)
    # A cell of a calculated array that holds nothing was given an empty text.
    blank = Cell("" if several and not never_calculated(cell) else None)
    for call in calls_in(parts):
        whole = len(parts) == 1 and parts[0].call is call
        for r in range(area[0], area[2] + 1):
            for c in range(area[1], area[3] + 1):
                offset = (r - area[0], c - area[1])
                here = cell if offset == (0, 0) else sheet.cells.get((r, c), blank)
                recomputed = element(whole_value, *offset)
                problem = whole_problem
                if isinstance(recomputed, ArgumentError):
                    recomputed, problem = None, recomputed
                spot = _Spot(sheet, row, (r, c), offset, several)
                compared = _compared(here, recomputed, problem)
                yield _record(values, spot, cell.formula, call, whole, compared)


def _filled_area(cell: Cell, row: int, column: int) -> tuple[int, int, int, int]:
    """(top, left, bottom, right) of the cells that a formula fills."""
    if not cell.area:
        return row, column, row, column
    left, top, right, bottom = range_boundaries(cell.area)
    return top or row, left or column, bottom or row, right or column


def _evaluate(
    values: _Tracing, parts: tuple[Part, ...], sheet: Sheet, row: int
) -> tuple[object, ArgumentError | CannotEvaluate | None]:
    try:
        return values.evaluate(parts, sheet, row), None
    except (ArgumentError, CannotEvaluate) as error:
        return None, error
    except RecursionError:
        return None, CannotEvaluate("it nests too deeply")
    except ArithmeticError:
        return None, CannotEvaluate("a number in it is beyond what a spreadsheet holds")


@dataclass(frozen=True)
class _Spot:
    """Where one result of a formula stands.

    row: of the formula itself; cell: (row, column) of this result; offset: from the
    formula's cell; several: whether the formula fills more than one cell.
    """

    sheet: Sheet
    row: int
    cell: tuple[int, int]
    offset: tuple[int, int]
    several: bool


@dataclass(frozen=True)
class _Compared:
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
    first = recomputed_first(recomputed)
    if never_calculated(cell):
        return _Compared(cell.value, first, "not saved")
    return _Compared(cell.value, first, "same" if agree(cell.value, first) else "stale")


def _record(
    values: _Tracing, spot: _Spot, formula: str, call: Call, whole: bool, compared: _Compared
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
    missing = False
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
        value, problem, blamed, missing = None, str(error), error.parameter, error.missing
        why = f"expected {error.expected}, got {error.got}"
        arguments = tuple(replace(a, problem=why) if a.name == blamed else a for a in arguments)
    except CannotEvaluate as error:
        problem = str(error)
    candidate = values.heads.get((sheet.title, row, column))
    return Record(
        place=Place(sheet.title, f"{get_column_letter(column)}{row}"),
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
        measurand=candidate.name if candidate and candidate.how != "proposal" else "",
        part=part_of(candidate, label),
    )


def _reading_unit(function: Function, own: Label | None, arguments: tuple[Argument, ...]) -> str:
    """The unit that labels give a reading, which can be of any kind; "" for other results.

    The cell's own label tells it where the reading is all that the cell holds, else the
    label of what was read.
    """
    if function.result != READING:
        return ""
    unit = own.unit if own else ""
    return unit or next((a.label.unit for a in arguments if a.label), "")


def recomputed_first(value: object) -> object:
    """A single value; of rows the top left one, which is what one cell shows."""
    while isinstance(value, tuple):
        value = value[0]
    return CellError("#VALUE!") if isinstance(value, ArgumentError) else value


def _system(values: _Tracing, call: Call, function: Function, spot: _Spot) -> System:
    """The unit system that a call names; inches where it names none or none that is known."""
    if not function.takes_units or len(call.arguments) <= len(function.parameters):
        return "inch"
    if not call.arguments[-1]:
        return "inch"
    value, _ = _evaluate(values, call.arguments[-1], spot.sheet, spot.row)
    return "metric" if isinstance(value, str) and value.strip().lower() == "metric" else "inch"


def _arguments(
    values: _Tracing, call: Call, function: Function, system: System, spot: _Spot
) -> Iterator[Argument]:
    """Each argument that was given, traced to its cell and label."""
    for parameter, parts in zip(function.parameters, call.arguments, strict=False):
        if not parts:
            continue
        text = "".join(part.text for part in parts)
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


def _formula_of(values: _Tracing, area: Area | None) -> str:
    """The formula of the single cell that an argument refers to, "" where that was typed."""
    if area is None or not area.single:
        return ""
    sheet = values.book.sheet(area.sheet)
    cell = sheet.cells.get((area.top, area.left)) if sheet else None
    return "=" + cell.formula if cell and cell.formula else ""


def _area(values: _Tracing, parts: tuple[Part, ...], spot: _Spot) -> Area | None:
    if len(parts) != 1 or parts[0].call is not None:
        return None
    try:
        return values.area(parts[0].text, spot.sheet, spot.row)
    except CannotEvaluate:
        return None


def _element_area(area: Area | None, row: int, column: int) -> Area | None:
    """The cell of a range that belongs to one element of a result."""
    if area is None or area.single:
        return area
    r = min(area.top + row, area.bottom) if area.bottom > area.top else area.top
    c = min(area.left + column, area.right) if area.right > area.left else area.left
    return Area(area.sheet, r, c, r, c)


def _label_of(values: _Tracing, area: Area | None) -> Label | None:
    if area is None:
        return None
    sheet = values.book.sheet(area.sheet)
    return values.label(sheet, area.top, area.left) if sheet else None
