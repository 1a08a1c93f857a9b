"""Why a cell is read as it is: the sum of its evidence and what comes next; or why it is none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, replace
from pathlib import Path
from textwrap import wrap

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.opening import read_cells
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.questions import label_said, line_of_answer, which_said, words_of
from workbook_tools.jobs.read import JobRead, jobs_with_candidates
from workbook_tools.jobs.records import NoReadingKind, Reading
from workbook_tools.labels.candidates import FoundLine
from workbook_tools.labels.cell_kinds import CellKind, kind_of
from workbook_tools.labels.layout import NO_FORM, Form, Layout
from workbook_tools.labels.line import Weighed
from workbook_tools.labels.named_cells import cells_named
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.spots import spots
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.weights import weights
from workbook_tools.labels.which_told import which_of
from workbook_tools.quantities import UnreadableText, split_quantity
from workbook_tools.quantities.nearest import hint

_NAME, _WIDTH, _MOST_SHOWN = 14, 80, 200
_MOST_CALLS = 2
_NO_READING: dict[NoReadingKind, str] = {
    "index": "It only numbers the cells of its row or column.",
    "date": "It is a date.",
    "price": "It stands among prices or other numbers that measure nothing of an engine.",
    "count": "It stands among counts or other numbers that measure nothing of an engine.",
    "note": "The layout says so.",
}
_STAGES = {
    "target": "It is a size that is wanted, and not one that was measured.",
    "limit_low": "It is a limit: readings are judged by it.",
    "limit_high": "It is a limit: readings are judged by it.",
}


class NoSuchCell(ValueError):
    """What was asked about is no cell of the book."""


def explained(
    path: Path, cell: str, layout: Layout | None = None, copy: Path | None = None
) -> tuple[str, ...]:
    """What a cell is, by what evidence, and what else it might be, in lines of text.

    cell: "Crank!F7", or an address on the first sheet; layout, copy: as for
    survey_book. Raises NoSuchCell for another text or a sheet that the book has not, BookError
    for a file that cannot be read.
    """
    book = replace(read_cells(copy or path), file_name=path.name)
    form = layout.form_of(path.name) if layout else NO_FORM
    place = _place(book, cell)
    job = _job_of(tuple(jobs_with_candidates(book, form)), place)
    sheet = book.sheet(place.sheet)
    assert sheet is not None
    at = coordinate_to_tuple(place.address)
    raw = sheet.cells.get(at, Cell(None))
    shown = f"={raw.formula}" if raw.formula else "" if raw.value is None else str(raw.value)
    lines = [f"{place}: {_short(' '.join(shown.split())) or 'empty'}"]
    readings = [r for r in job.book.readings if r.place == place]
    if readings:
        for reading in readings:
            lines += _of_reading(reading, job, sheet, at, form)
    else:
        lines += _of_no_reading(place, raw, job, sheet, at, form)
    return tuple(part for line in lines for part in _wrapped(line))


def _short(text: str) -> str:
    return text if len(text) <= _MOST_SHOWN else f"{text[:_MOST_SHOWN]}…"


def _wrapped(line: str) -> list[str]:
    """A line in the width of a terminal; a line of a layout stays whole, to be copied."""
    if line.startswith("  {"):
        return [line]
    indent = " " * (_NAME + 3) if line.startswith("  ") else ""
    return wrap(line, _WIDTH, subsequent_indent=indent, break_on_hyphens=False) or [""]


def _place(book: OpenBook, cell: str) -> Place:
    title, mark, address = cell.strip().rpartition("!")
    named = cells_named(f"{title}{mark}{address.upper()}")
    if named is None or named.count != 1:
        raise NoSuchCell(f'expected one cell, as "Crank!F7", got {cell!r}')
    sheet = named.sheet_in(book)
    if sheet is None:
        told = hint(named.sheet, [s.title for s in book.sheets])
        raise NoSuchCell(f"there is no sheet {named.sheet!r}; {told}")
    return Place(sheet.title, named.range)


def _job_of(jobs: Sequence[JobRead], place: Place) -> JobRead:
    """The job of a file that a cell belongs to, else the first."""
    for job in jobs:
        own = job.part.own.sheet(place.sheet)
        if own is not None and coordinate_to_tuple(place.address) in own.cells:
            return job
    return jobs[0]


def _of_reading(
    reading: Reading, job: JobRead, sheet: Sheet, at: tuple[int, int], form: Form
) -> Iterator[str]:
    found, spot = _found(job, reading)
    yield _state(reading)
    if reading.stage in _STAGES:
        yield _STAGES[reading.stage]
    if sheet.hidden or at[0] in sheet.hidden_rows or at[1] in sheet.hidden_columns:
        yield "It is hidden."
    yield ""
    calls = [e.words for e in reading.evidence if e.how == "call"]
    for words in calls[:_MOST_CALLS]:
        yield _line("formula", words)
    if len(calls) > _MOST_CALLS:
        yield _line("", f"and {len(calls) - _MOST_CALLS} more")
    if found is None or spot is None:
        yield from _unspoken(reading, sheet, at, form)
        return
    yield from _texts(reading, found, spot, job)
    chosen = next(
        (w for w in found.line.ranked if found.line.chosen and w.term == found.line.chosen.term),
        None,
    )
    ranked = found.line.ranked
    if not ranked:
        yield _line("meaning", "none: no word of the label is known")
    first = chosen or (ranked[0] if ranked else None)
    if first:
        yield from _sum("sum", first)
        others = [w for w in ranked if w is not first]
        if others:
            yield from _sum(f"next, {first.weight - others[0].weight} less", others[0])
        else:
            yield _line("next", "nothing else has these words")
    yield from _to_settle(reading, found, spot, job)


def _state(reading: Reading) -> str:
    """What a number is, in a sentence."""
    part = f" of {which}" if (which := which_said(reading.part)) else ""
    stage = f", {reading.stage.replace('_', ' ')}" if reading.stage else ""
    what = f"{words_of(reading.measurand)}{part}{stage}" if reading.measurand else ""
    reason = f": {reading.reason}" if reading.reason else ""
    if reading.state == "read":
        return f"It is read as {what or 'a number'}, {reading.shown}."
    if reading.state == "asked":
        return f"It may be {what}, and is asked about{reason}."
    if reading.state == "refused":
        return f"It would be {what or 'a number'}, and is refused{reason}."
    return "It is not understood: nothing says for sure enough what it measures."


def _found(job: JobRead, reading: Reading) -> tuple[FoundLine | None, Spot | None]:
    """The line of a reading; of a cell that says several things that of this one."""
    here = [f for f in job.candidates.lines if reading.place in f.places]
    same = [f for f in here if f.line.chosen and f.line.chosen.term.id == reading.measurand]
    for found in (*same, *here):
        return found, found.places[reading.place]
    return None, None


def _texts(reading: Reading, found: FoundLine, spot: Spot, job: JobRead) -> Iterator[str]:
    """What speaks of a cell: its label, heads, unit, siblings."""
    title = found.cells.sheet.title
    where = Place.at(title, *spot.origin)
    yield _line("label", f"{spot.label!r} in {where.address}")
    above = [h for h in spot.headings if h != title]
    if above:
        yield _line("below", ", ".join(map(repr, above)))
    if spot.told:
        yield _line("layout", "it names this " + ("cell" if spot.told.by_cell else "label"))
    if reading.unit:
        yield _line("unit", f"{reading.unit}, {_unit_from(reading, found, spot, job)}")
    if which_said(reading.part):
        by = "by its head" if spot.which.number else "by its label or its place in the line"
        yield _line("which one", f"{reading.part.short}, {by}")
    others = len(found.line.values) - 1
    if others > 0:
        yield _line("siblings", f"{others} more with this label in its line")


def _unit_from(reading: Reading, found: FoundLine, spot: Spot, job: JobRead) -> str:
    if isinstance(reading.raw, str):
        try:
            if split_quantity(reading.raw)[1]:
                return "in the cell itself"
        except UnreadableText:
            pass
    if spot.told and spot.told.unit:
        return "by the layout"
    if spot.unit:
        return "by a head, or a cell beside it"
    if unit_in(spot.label):
        return "by its label"
    if found.line.by_size:
        return "which its sizes fit"
    if found.line.unit:
        return "by its heads or others of its line"
    if reading.measurand and _has_one_unit(reading):
        return "as it always is"
    return f"by {job.candidates.system_from}" if job.candidates.system_from else "not said"


def _has_one_unit(reading: Reading) -> bool:
    return reading.kind is not None and reading.kind.inch == reading.kind.metric


def _sum(head: str, weighed: Weighed) -> Iterator[str]:
    yield _line(head, f"{weighed.weight:4d}  {words_of(weighed.term.id)}")
    for reason in weighed.because:
        words = reason.what.rstrip(":").replace("_", " ")
        if words == "words":
            words += f", of {weights().words.said} where they leave nothing to be assumed"
        yield _line("", f"{reason.weight:+4d}  {words}")


def _to_settle(reading: Reading, found: FoundLine, spot: Spot, job: JobRead) -> Iterator[str]:
    """The line of a layout that says it: of all with this label, and of the cell alone."""
    ranked = [w.term.id for w in found.line.ranked]
    settled = reading.state == "read"
    if reading.uses:
        yield ""
        yield "What a formula takes it for holds: if that is wrong, correct the formula."
        return
    name = next((n for n in ranked if n != reading.measurand or not settled), "no reading")
    yield ""
    yield (
        "If that is wrong, a line in answers = [ … ] of layout.toml says so:"
        if settled
        else "A line in answers = [ … ] of layout.toml settles it:"
    )
    said = label_said(found, spot, job.candidates.lines)
    yield f"  {line_of_answer(**said, **{'is': name})}"
    yield f"  {line_of_answer(cells=str(reading.place), **{'is': name})}"


def _unspoken(reading: Reading, sheet: Sheet, at: tuple[int, int], form: Form) -> Iterator[str]:
    """Why nothing was weighed for a number."""
    cells = SheetText(sheet, form.vocabulary())
    spot = next((s for s in spots(cells) if (s.row, s.column) == at), None)
    if reading.evidence:
        pass
    elif spot is None:
        near = f"; the nearest text is {reading.label.text!r}" if reading.label else ""
        yield _line("label", f"none: no text is taken to speak of it{near}")
    elif spot.which.stage == "computed" or meaning_of(spot.label, spot.headings).statistic:
        yield _line("label", f"{spot.label!r} says that it is a mean, a sum or a range of others")
    else:
        yield _line("label", f"{spot.label!r} is none of an engine's")
    yield ""
    yield "A line in answers = [ … ] of layout.toml says what it is:"
    name = reading.measurand or "no reading"
    yield f"  {line_of_answer(cells=str(reading.place), **{'is': name})}"


def _of_no_reading(
    place: Place, cell: Cell, job: JobRead, sheet: Sheet, at: tuple[int, int], form: Form
) -> Iterator[str]:
    """Why a cell is no reading, and the line that makes it one where it holds a number."""
    yield from _why_none(place, cell, job, sheet, at, form)
    kind = kind_of(cell)
    if kind in ("number", "measured") and at not in sheet.struck:
        yield ""
        yield "If it is one, a line in answers = [ … ] of layout.toml says so:"
        yield f"  {line_of_answer(cells=str(place), **{'is': 'bore'})}"
        yield "with what it is in place of bore: workbook-tools survey --names"


def _why_none(
    place: Place, cell: Cell, job: JobRead, sheet: Sheet, at: tuple[int, int], form: Form
) -> Iterator[str]:
    book = job.book
    stated = next((s for s in book.stated if s.place == place), None)
    record = next((r for r in book.records if r.place == place and not r.computed_by_batch), None)
    none = next((n for n in book.no_readings if n.place == place), None)
    field = next((f.name for f in fields(book.job) if getattr(book.job, f.name).place == place), "")
    if sheet.title.casefold() in (t.casefold() for t in form.skip_sheets):
        yield "It is not read: the layout passes its sheet over."
    elif place.sheet not in {s.title for s in job.part.book.sheets}:
        yield "It is not read: its sheet is a form, or an old one, or of another job."
    elif at in sheet.struck:
        yield "It is not read: it is struck through."
    elif record is not None:
        yield f"It is a result: a call of {record.name}."
    elif stated is not None:
        part = f" of {which}" if (which := which_said(stated.part)) else ""
        yield f"It is a result of the book's own formula: {words_of(stated.measurand)}{part}."
    elif cell.formula:
        yield "It is a formula, of which no label says what it gives."
    elif field:
        yield f"It is a field of the job: {field}."
    elif none is not None:
        yield f"It is no reading. {_NO_READING[none.kind]}"
    else:
        yield _of_text(place, cell, job, sheet, at, form)


_OF_KIND: dict[CellKind, str] = {
    "nothing": "It holds a word or a mark in place of a number.",
    "date": "It is a date.",
    "unit": "It is a unit, of the numbers beside or below it.",
}


def _of_text(
    place: Place, cell: Cell, job: JobRead, sheet: Sheet, at: tuple[int, int], form: Form
) -> str:
    """What an empty cell, a text or a date is."""
    missing = next((m for m in job.book.missing if m.place == place), None)
    kind = kind_of(cell)
    if missing is not None:
        part = f" of {which}" if (which := which_said(missing.part)) else ""
        return f"It holds no number, and is missed: {words_of(missing.measurand)}{part}."
    if kind is None:
        return "It is empty, and nothing is expected there."
    return _OF_KIND.get(kind) or _of_words(cell, sheet, at, form)


def _of_words(cell: Cell, sheet: Sheet, at: tuple[int, int], form: Form) -> str:
    """What a text is: the name of a job's field, a label, a head, a remark."""
    text = " ".join(str(cell.value).split())
    if form.vocabulary().job_field(text):
        return f"It names a field of the job: {form.vocabulary().job_field(text)}."
    found = list(spots(SheetText(sheet, form.vocabulary())))
    named = [s for s in found if s.origin == at]
    if named:
        return f"It is a label: it names {_cells(sheet, named)}."
    under = [s for s in found if text in s.headings]
    if under:
        return f"It is a heading: over or beside {_cells(sheet, under)}."
    if which_of(text) is not None:
        return "It says which one, when, or in what unit the numbers beside or below it are."
    if kind_of(cell) == "remark":
        return "It is a remark, and no number in it has a label."
    return "It is a text, and no number is taken to be named by it."


def _cells(sheet: Sheet, found: Iterable[Spot]) -> str:
    """Cells in words: the first, the last and how many."""
    places = [Place.at(sheet.title, s.row, s.column).address for s in found]
    if len(places) == 1:
        return f"the number in {places[0]}"
    return f"{len(places)} numbers, from {places[0]} to {places[-1]}"


def _line(head: str, text: str) -> str:
    return f"  {head:<{_NAME}} {text}".rstrip()
