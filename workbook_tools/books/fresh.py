"""Recalculate what feeds the calls, from the typed readings up.

A call that agrees with its argument cells proves nothing where those cells are formulas that
were never recalculated. Here the ordinary formulas between the readings and the calls are
computed by the engine and the calls by the catalog, in turn, until nothing changes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field

from workbook_tools.books import engine
from workbook_tools.books.areas import CannotEvaluate, cells_within
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.engine import CellKey, EngineError
from workbook_tools.books.expressions import refuse_unseen_cells, with_areas
from workbook_tools.books.recalculation import Recalculation, agree, first
from workbook_tools.books.unsaved_cells import never_calculated
from workbook_tools.catalog import ArgumentError, CellError
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Area
from workbook_tools.formulas.tokens import tokens_of

# What gives another value at every recalculation is no sign of a stale book.
_VOLATILE = ("NOW(", "TODAY(", "RAND(", "RANDBETWEEN(", "RANDARRAY(", "CELL(", "INFO(")
# Calls and formulas that feed each other settle in two or three rounds; a loop never does.
_MOST_ROUNDS = 12


@dataclass(frozen=True)
class Fresh:
    """What recalculation from the readings up gives.

    values: of the formula cells that feed calls, and of the cells with calls; failed: the
    ordinary formulas that could not be recalculated, with the reason.
    """

    values: Mapping[CellKey, object] = field(default_factory=dict)
    failed: Mapping[CellKey, str] = field(default_factory=dict)


@dataclass
class _Freshly(Recalculation):
    """A book's values with freshly computed ones in place of saved ones."""

    fresh: Mapping[CellKey, object] = field(default_factory=dict)

    def value(self, sheet: Sheet, row: int, column: int) -> object:
        key = (sheet.title, row, column)
        return self.fresh[key] if key in self.fresh else super().value(sheet, row, column)


@dataclass(frozen=True)
class _Feed:
    """The cells that calls depend on: ordinary formulas in the engine's form, and inputs.

    needs: the cells that each formula refers to; chained: whether any call refers to a cell
    that holds another call; unfollowed: the cells with calls of which not all needs are known.
    """

    formulas: Mapping[CellKey, str]
    inputs: Mapping[CellKey, object]
    needs: Mapping[CellKey, Set[CellKey]]
    failed: Mapping[CellKey, str]
    chained: bool
    unfollowed: Set[CellKey]


def _for_engine(
    values: Recalculation, formula: str, sheet: Sheet, row: int
) -> tuple[str, list[Area]]:
    """A formula with its references spelled out, and the areas that it refers to.

    Raises CannotEvaluate for a reference that cannot be followed, ValueError for a text that
    is no formula.
    """

    def area_of(reference: str) -> Area:
        area = values.areas.find(reference, sheet, row)
        if area is None:
            raise CannotEvaluate(f"{reference!r} cannot be followed")
        return area

    tokens = tokens_of(formula)
    refuse_unseen_cells(tokens, in_place=True)
    return with_areas(tokens, area_of)


def _feed(values: Recalculation, called: Sequence[tuple[Sheet, int, int, Cell]]) -> _Feed:
    """Everything that the calls of a book depend on."""
    book = values.book
    chained = False
    formulas: dict[CellKey, str] = {}
    inputs: dict[CellKey, object] = {}
    needs: dict[CellKey, Set[CellKey]] = {}
    failed: dict[CellKey, str] = {}
    unfollowed: set[CellKey] = set()
    waiting = list(called)
    calls = {(s.title, r, c) for s, r, c, _ in called}
    seen = set(calls)
    while waiting:
        sheet, row, column, cell = waiting.pop()
        key = (sheet.title, row, column)
        call = mentions_call(cell.formula)
        try:
            text, areas = _for_engine(values, cell.formula, sheet, row)
        except (CannotEvaluate, ValueError) as error:
            areas = []
            if call:
                unfollowed.add(key)
            else:
                failed[key] = str(error)
        else:
            if not call:
                formulas[key] = text
        # A set would not keep the order, and the engine is to get the same request every time.
        needs[key] = dict.fromkeys(k for area in areas for k in cells_within(book, area)).keys()
        for needed in needs[key]:
            if needed in seen:
                chained = chained or needed in calls
                continue
            seen.add(needed)
            target = book.sheet(needed[0])
            assert target is not None
            found = target.cells[needed[1:]]
            if found.formula and not found.area and not is_volatile(found):
                waiting.append((target, needed[1], needed[2], found))
            else:
                inputs[needed] = found.value
    return _Feed(formulas, inputs, needs, failed, chained, unfollowed)


def is_volatile(cell: Cell) -> bool:
    """Whether a formula gives another value at every recalculation."""
    return any(name in cell.formula.upper() for name in _VOLATILE)


def recalculate(
    values: Recalculation,
    called: Sequence[tuple[Sheet, int, int, Cell]],
    calls_agree: bool,
    one_job: bool,
) -> Fresh:
    """Recalculate a book from its typed readings up.

    values: the book's saved values; called: its cells with calls; calls_agree: whether every
    call was found to agree with what was saved, so that only ordinary formulas can be out of
    step; one_job: whether no cell is another job's, which values would not take. Returns the
    fresh values of formulas that feed calls and of the calls' own cells; nothing where no
    formula stands between readings and calls. What the engine cannot compute keeps its saved
    value and is listed with the reason.
    """
    book = values.book
    formulas = sum(bool(c.formula) for sheet in book.sheets for c in sheet.cells.values())
    if calls_agree and formulas == len(called):
        return Fresh({}, {})  # The calls rest on nothing but typed readings and one another.
    feed = _feed(values, called)
    if not feed.formulas and (calls_agree or not feed.chained):
        return Fresh({}, feed.failed)
    fresh: dict[CellKey, object] = {}
    failed = dict(feed.failed)
    for _ in range(_MOST_ROUNDS):
        known = {
            (s.title, r, c): fresh.get((s.title, r, c), cell.value) for s, r, c, cell in called
        }
        if feed.formulas:
            try:
                fresh.update(_ordinary(feed, {**feed.inputs, **known}, book, failed))
            except EngineError as error:
                return Fresh({}, dict.fromkeys(feed.formulas, str(error)))
        now = _Freshly(book, fresh=dict(fresh), answers=values.answers)
        alone = [(_key(one), one) for one in called if not one[3].area]
        again = {key for key, _ in alone}
        if one_job:
            # From the cells that it was computed of before a call gives the same again.
            moved = _moved(book, fresh)
            again = {key for key in again if key in feed.unfollowed or feed.needs[key] & moved}
        now.ask_ahead(one for key, one in alone if key in again)
        for key, (sheet, row, _, cell) in alone:
            fresh[key] = _call_value(now if key in again else values, sheet, row, cell)
        # From the same results of calls the same would follow again.
        if all(agree(value, fresh.get(key, value)) for key, value in known.items()):
            break
    return Fresh(fresh, failed)


def _moved(book: OpenBook, fresh: Mapping[CellKey, object]) -> Set[CellKey]:
    """The cells whose fresh value is not just what they have saved, or that have none saved."""
    moved = {
        key
        for key, value in fresh.items()
        if type(saved := _saved(book, key)) is not type(value) or saved != value
    }
    return moved | {
        (sheet.title, *at)
        for sheet in book.sheets
        for at, cell in sheet.cells.items()
        if cell.formula and never_calculated(cell)
    }


def _key(one: tuple[Sheet, int, int, Cell]) -> CellKey:
    sheet, row, column, _ = one
    return sheet.title, row, column


def _ordinary(
    feed: _Feed, known: Mapping[CellKey, object], book: OpenBook, failed: dict[CellKey, str]
) -> dict[CellKey, object]:
    """The values of the ordinary formulas; those the engine cannot tell are added to failed.

    An unknown function spoils all that follows from it, so only the first of a chain is
    taken as saved, and the rest is tried again. Raises EngineError.
    """
    while True:
        saved = {key: _saved(book, key) for key in failed}
        wanted = {k: t for k, t in feed.formulas.items() if k not in failed}
        found = engine.evaluate_formulas({**known, **saved}, wanted)
        spoiled = {k: str(v) for k, v in found.items() if isinstance(v, EngineError)}
        if not spoiled:
            return found
        first = {k: why for k, why in spoiled.items() if not feed.needs[k] & spoiled.keys()}
        # In a circle each waits for another: all of them are taken as saved.
        failed.update(first or spoiled)


def _saved(book: OpenBook, key: CellKey) -> object:
    sheet = book.sheet(key[0])
    cell = sheet.cells.get(key[1:]) if sheet else None
    return cell.value if cell else None


def _call_value(values: Recalculation, sheet: Sheet, row: int, cell: Cell) -> object:
    try:
        return first(values.evaluate(values.parts(cell.formula), sheet, row))
    except (ArgumentError, CannotEvaluate, ValueError):
        return CellError("#VALUE!")
