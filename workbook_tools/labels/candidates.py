"""What a sheet's labels and a shop's layout say of each cell, before anything is decided."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.books.cells import OpenBook
from workbook_tools.books.places import order_of
from workbook_tools.formulas.references import Place
from workbook_tools.labels.arithmetic import made_of
from workbook_tools.labels.banks import numbers_of_banks, without_bank
from workbook_tools.labels.candidate import Candidate, field_of
from workbook_tools.labels.cell_candidates import (
    candidates_at,
    chosen,
    neighbors,
    numbers_by_label,
)
from workbook_tools.labels.choice import choose
from workbook_tools.labels.conventions import Stated, stated_in
from workbook_tools.labels.differences import typed_differences
from workbook_tools.labels.engine_spots import is_in_grams, spots_of_engine
from workbook_tools.labels.formula_units import settle_unit_by_formula
from workbook_tools.labels.layout import NO_FORM, Form
from workbook_tools.labels.layout_candidates import by_layout
from workbook_tools.labels.line import Line
from workbook_tools.labels.lines import lines_of
from workbook_tools.labels.neighbor_lines import (
    are_what_they_limit,
    found_before_work,
    found_by_others,
    go_on_with_torques,
    may_be_as_found,
    may_be_what_they_limit,
)
from workbook_tools.labels.numbering import numbered, of_a_twin, of_titled_sheets
from workbook_tools.labels.relations import may_be_what_their_formulas_give
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.signs_in_formulas import with_signs
from workbook_tools.labels.sizes import is_in_thou, pressure_unit, settle_line_by_line, vote
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.sums import summed_once
from workbook_tools.labels.vocabulary import NO_SIZES, is_one_for_all
from workbook_tools.labels.weights import weights
from workbook_tools.quantities import LENGTH, THOUSANDTHS, System

_UNITS_OF: dict[System, str] = {"inch": "inches", "metric": "millimeters"}


@dataclass(frozen=True)
class Unknown:
    """A label beside a number that the vocabulary does not know."""

    text: str
    place: Place


FormKey = tuple[str, str, int]


@dataclass(frozen=True)
class FoundLine:
    """A line with the spots that share it, and the sheet that they stand on."""

    cells: SheetText
    spots: list[Spot]
    line: Line

    @property
    def places(self) -> dict[Place, Spot]:
        """The cells of its spots."""
        return {Place.at(self.cells.sheet.title, s.row, s.column): s for s in self.spots}

    @property
    def form_keys(self) -> tuple[FormKey, FormKey]:
        """What the line shares with those of other jobs on the same form: label, column or row."""
        first = self.spots[0]
        label = self.line.label
        return (label, "column", first.column), (label, "row", first.row)

    @property
    def is_read(self) -> bool:
        """Whether what was chosen is read without a question."""
        return self.is_taken and self.line.chosen is not None and self.line.chosen.how == "synonym"

    @property
    def is_taken(self) -> bool:
        """Whether something was chosen; of a sentence only what is sure is taken."""
        match = self.line.chosen
        return match is not None and not (self.spots[0].inline and match.how == "proposal")

    @property
    def filled(self) -> list[Spot]:
        """The spots that are told: an empty one only where it waits for a reading."""
        assert self.line.chosen is not None
        term = self.line.chosen.term
        stepped = term.of == "fastener_group"  # So many steps as it takes.
        alone = is_one_for_all(term) and (stepped or len(self.line.values) == 1)
        # What is read against its sizes says nothing of the empty cells beside it.
        doubted = not self.line.exact and self.line.score < weights().choice.to_ask
        if not alone and not doubted and self.line.stage not in NO_SIZES:
            return self.spots
        return [s for s in self.spots if (s.row, s.column) in self.cells.kinds]


@dataclass(frozen=True)
class Candidates:
    """What labels say: candidates in reading order, labels not known, and the book's system.

    calls: those of cells with worksheet functions, whose values the functions tell; counted:
    the cells that only number heads, and no_engine: those under headings of counts and prices;
    told_none: those that the layout says are no readings; lines: all that was weighed.
    """

    readings: tuple[Candidate, ...]
    unknown: tuple[Unknown, ...]
    system: System | None
    system_from: str
    calls: tuple[Candidate, ...] = ()
    counted: frozenset[Place] = frozenset()
    no_engine: frozenset[Place] = frozenset()
    told_none: frozenset[Place] = frozenset()
    lines: tuple[FoundLine, ...] = ()


# So many jobs settle what a label means on their form: this share of those in which it is read,
# and this one of all.
_FEWEST_JOBS, _MOST_JOBS_AGREE, _LEAST_SHARE = 3, 0.7, 0.4


def settled_by_jobs(jobs: Sequence[Candidates]) -> dict[FormKey, str]:
    """What labels at a row or a column measure in most jobs of a file, which share a form."""
    found: dict[FormKey, Counter[str]] = defaultdict(Counter)
    for job in jobs:
        for line in job.lines:
            for key in line.form_keys if line.line.values else ():
                chosen = line.line.chosen
                found[key][chosen.term.id if chosen and line.is_read else ""] += 1
    settled = {}
    for key, names in found.items():
        of_all, unread = names.total(), names.pop("", 0)
        name, count = next(iter(names.most_common(1)), ("", 0))
        agree = count >= _MOST_JOBS_AGREE * (of_all - unread) and count >= _LEAST_SHARE * of_all
        if agree and count >= _FEWEST_JOBS:
            settled[key] = name
    return settled


def differs(job: Candidates, settled: Mapping[FormKey, str]) -> bool:
    """Whether a label of a job was not read as most jobs of its file have it."""
    return any(
        name and not (line.is_read and line.line.chosen and line.line.chosen.term.id == name)
        for line in job.lines
        if line.line.values
        for name in (settled.get(key, "") for key in line.form_keys)
    )


def propose(
    book: OpenBook,
    form: Form = NO_FORM,
    settled: Mapping[FormKey, str] | None = None,
    around: OpenBook | None = None,
) -> Candidates:
    """What labels or the form of the book say of its cells, in the order of the book.

    settled: what labels measure in the other jobs of the file; around: the book with what is of
    no job, which may say the units of all. Raises nothing: what cannot be read is a candidate
    without a value, with the reason.
    """
    vocabulary = form.vocabulary()
    skipped = {title.casefold() for title in form.skip_sheets}
    sheets = [
        SheetText(sheet, vocabulary)
        for sheet in book.sheets
        if sheet.title.casefold() not in skipped
    ]
    grams = {sheet.title for sheet in (around or book).sheets if is_in_grams(sheet)}
    spots = [
        (cells, spots_of_engine(cells, form.answers, grams=cells.sheet.title in grams))
        for cells in sheets
    ]
    lines, stated = _lines(spots, _stated(book, around, form), settled or {})
    stated = with_signs(stated, [(found.cells, found.line) for found in lines])
    named = [
        candidate
        for found in lines
        if found.is_taken
        for candidate in _candidates_of(found, form, stated, book)
    ]
    named = _in_order(_numbered_by_sheet(of_titled_sheets(named), form), book)
    banks = numbers_of_banks(spot for _, of_sheet in spots for spot in of_sheet)
    if banks:
        named = [without_bank(candidate, banks) for candidate in named]
    if form.cylinders in (None, 2):
        named = of_a_twin(named)
    laid_out = list(by_layout(book, vocabulary, form, stated))
    given = {candidate.name for candidate in laid_out}
    named = [c for c in named if c.name not in given] + laid_out
    readings = _each_once([c for c in named if not c.of_call])
    system, source = _system_of(stated.values(), readings)
    return Candidates(
        readings,
        tuple(_unknown(lines)),
        system,
        source,
        tuple(c for c in named if c.of_call),
        frozenset(Place.at(t.sheet.title, *at) for t in sheets for at in t.indexes),
        frozenset(_no_engine(sheets)),
        frozenset(Place.at(t.sheet.title, *at) for t in sheets for at in t.no_readings),
        tuple(lines),
    )


def _stated(book: OpenBook, around: OpenBook | None, form: Form) -> dict[str, Stated]:
    """What holds on each sheet, by its own texts and those that are of no job."""
    own = stated_in(book, form)
    wider = stated_in(around, form) if around is not None else {}
    found = {}
    for title, said in own.items():
        more = wider.get(title, said)
        found[title] = replace(said, units={**more.units, **said.units})
        if said.system is None and more.system is not None:
            found[title] = replace(found[title], system=more.system, system_from=more.system_from)
    return found


def _each_once(candidates: Sequence[Candidate]) -> tuple[Candidate, ...]:
    """Candidates without those that come again; two of different cells are never the same."""
    if len({c.place for c in candidates}) == len(candidates):
        return tuple(candidates)
    return tuple(dict.fromkeys(candidates))


def _lines(
    spots: Sequence[tuple[SheetText, list[Spot]]],
    stated: dict[str, Stated],
    settled: Mapping[FormKey, str],
) -> tuple[list[FoundLine], dict[str, Stated]]:
    """The lines of a book with what each measures, and what holds on each sheet."""
    found = [
        FoundLine(cells, members, line)
        for cells, of_sheet in spots
        for members, line in lines_of(cells, of_sheet, stated[cells.sheet.title])
    ]
    lines = [one.line for one in found]
    found_by_others(lines)
    may_be_as_found(lines)
    may_be_what_they_limit(lines)
    go_on_with_torques(lines)
    stated = _with_vote(stated, lines)
    for one in found:
        one.line.system = stated[one.cells.sheet.title].system
        if one.line.system == "inch" and one.line.unit.casefold() in THOUSANDTHS:
            one.line.unit = "thou"
    settle_line_by_line(lines)
    in_thou = {id(one.cells) for one in found if is_in_thou(one.line)}
    for one in found:
        if is_in_thou(one.line, id(one.cells) in in_thou):
            one.line.unit = "thou"
    in_other_jobs = {
        number: name
        for number, one in enumerate(found)
        if settled and (name := next((settled[k] for k in one.form_keys if k in settled), ""))
    }
    made = {
        **typed_differences([(one.cells, one.spots, one.line) for one in found]),
        **made_of([(one.cells, one.spots) for one in found]),
    }
    may_be_what_their_formulas_give(lines, made)
    for one in found:
        settle_unit_by_formula(one.cells, one.spots, one.line)
    choose(lines, None, made, in_other_jobs)
    found_before_work(lines)
    are_what_they_limit(lines)
    for one in found:
        _settle_unit(one.line, stated[one.cells.sheet.title])
    return found, stated


def _settle_unit(line: Line, stated: Stated) -> None:
    """Say the unit of a line that its sizes say, where nothing else does."""
    if line.chosen is None or line.unit:
        return
    term = line.chosen.term
    line.unit = pressure_unit(term, line)
    if stated.system is None and line.system is not None and term.kind is LENGTH:
        line.unit = term.bare_unit(line.system)
    line.by_size = bool(line.unit)


def _candidates_of(
    found: FoundLine, form: Form, stated: dict[str, Stated], book: OpenBook
) -> list[Candidate]:
    sheet, line = found.cells.sheet, found.line
    assert line.chosen is not None
    if line.also is not None:
        of_one = replace(found, line=replace(line, also=None))
        other = replace(found, line=replace(line, chosen=line.also, also=None))
        return [c for one in (of_one, other) for c in _candidates_of(one, form, stated, book)]
    taken = chosen(found.filled, line)
    near = numbers_by_label(sheet, taken)
    unit = line.over.unit if line.over else line.unit
    expected = field_of(line.chosen.term, unit, stated[sheet.title], form, book.days_from_1904)
    return [
        candidate
        for one in taken
        for candidate in candidates_at(
            sheet, one, expected._replace(neighbors=neighbors(one, near))
        )
    ]


def _unknown(lines: Iterable[FoundLine]) -> list[Unknown]:
    """The labels of lines of which nothing says what they measure."""
    firsts = [(found.cells.sheet, found.spots[0]) for found in lines if not found.line.chosen]
    return [
        Unknown(first.label, Place.at(sheet.title, *first.origin))
        for sheet, first in firsts
        if not first.inline and not first.which.stage
    ]


def _no_engine(sheets: Iterable[SheetText]) -> set[Place]:
    """The numbers under headings of counts and prices, and those that a total adds up."""
    found = set()
    for cells in sheets:
        title = cells.sheet.title
        found |= {Place.at(title, *at) for at in (*summed_once(cells), *cells.aside)}
        if cells.vocabulary.is_elsewhere(title):
            numbers = (at for at, k in cells.kinds.items() if k in ("number", "measured"))
            found |= {Place.at(title, *at) for at in numbers}
    return found


def _with_vote(stated: dict[str, Stated], lines: Sequence[Line]) -> dict[str, Stated]:
    """What sheets state; where none states its units, with those that the sizes can only be in."""
    if all(one.system for one in stated.values()):
        return stated
    system, count = vote(lines)
    if system is None:
        return stated
    source = f"{count} sizes, which are usual only in {_UNITS_OF[system]}"
    return {
        t: one if one.system else replace(one, system=system, system_from=source)
        for t, one in stated.items()
    }


def _numbered_by_sheet(named: list[Candidate], form: Form) -> list[Candidate]:
    """Readings with their cylinders named, sheet by sheet."""
    groups: dict[str, list[Candidate]] = defaultdict(list)
    for candidate in named:
        groups[candidate.place.sheet].append(candidate)
    return [c for found in groups.values() for c in numbered(found, form)]


def _in_order(named: list[Candidate], book: OpenBook) -> list[Candidate]:
    order = {sheet.title: n for n, sheet in enumerate(book.sheets)}

    def key(candidate: Candidate) -> tuple[int, int, int]:
        _, row, column = order_of(candidate.place)
        return order.get(candidate.place.sheet, 0), row, column

    return sorted(named, key=key)


def _system_of(
    stated: Iterable[Stated], readings: Iterable[Candidate]
) -> tuple[System | None, str]:
    """The one system that the sheets are in, else the one of most readings; and who says so."""
    systems = dict.fromkeys((one.system, one.system_from) for one in stated if one.system)
    if len({system for system, _ in systems}) == 1:
        return next(iter(systems))
    return _system_used(readings)


def _system_used(readings: Iterable[Candidate]) -> tuple[System | None, str]:
    """The system that most readings are in, by their own units."""
    units = [r.unit for r in readings if r.value is not None]
    inch, metric = units.count("in") + units.count("cu in"), units.count("mm")
    if inch == metric:
        return None, ""
    return ("inch" if inch > metric else "metric"), "the units of its readings"
