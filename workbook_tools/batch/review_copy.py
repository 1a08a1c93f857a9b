"""A copy of a book to review in a spreadsheet: what each number is taken for, to be corrected.

Its cells are tinted by how they are read, each with a note. The first sheet lists every number
with drop-down lists for what it is, of which part, when and in which unit. The book itself
stays as it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from xlsxwriter.worksheet import Worksheet

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.books.opening import read_cells
from workbook_tools.books.own_output import REVIEW
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.questions import label_said, text_of, which_said
from workbook_tools.jobs.read import JobRead, jobs_with_candidates
from workbook_tools.jobs.records import Reading
from workbook_tools.labels.answers import NO_READING, NO_STAGE, STAGES, THE_ENGINE
from workbook_tools.labels.layout import NO_FORM, Layout
from workbook_tools.measurands import all_measurands, find
from workbook_tools.render.cell_writer import NewBook

LIST, NAMES = "Review", "Names"
# What stands about a number that a formula of ours takes, which holds before any correction.
BY_FORMULA = "by a formula"
# The heads of the list; the last five columns are hidden, and hold what stood there at first.
HEADS = (
    "Sheet", "Cell", "Stands there", "Label", "How it is read", "What it is", "Of which", "Stage",
    "Unit", "Why",
)  # fmt: skip
KEPT = ("What it is, before", "Of which, before", "Stage, before", "Unit, before", "About")
ASKED = ("What it is", "Of which", "Stage", "Unit")
FIRST_ROW = 5
_WIDTHS = (14, 7, 13, 26, 15, 30, 14, 11, 9, 60)
_UNITS = (
    "in", "thou", "mm", "um", "cc", "cu in", "g", "kg", "lb", "lbf", "N", "lbf.ft", "lbf.in",
    "N.m", "lbf/in", "N/mm", "psi", "bar", "kPa", "deg", "rpm", "deg F", "deg C",
)  # fmt: skip
_TINTS = {
    "read": "banded", "asked": "unsure", "refused": "unread", "not understood": "unread",
    "no reading": "aside",
}  # fmt: skip
_ORDER = ("asked", "not understood", "refused", "read", "no reading")
_STATES = {"asked": "not sure"}
_MOST_OF_A_PART = 16


@dataclass(frozen=True)
class _Number:
    """A number of the list: where it stands, what it is taken for and why.

    about: the part of a layout's answer that names its label, BY_FORMULA where that holds before
    all answers, "" where it has none.
    """

    place: Place
    raw: object
    label: str
    state: str
    what: str
    which: str
    stage: str
    unit: str
    why: str
    about: str


def review_copy(path: Path, layout: Layout | None = None, copy: Path | None = None) -> bytes:
    """The review copy of a book, as the bytes of an .xlsx file.

    layout, copy: as for `survey_book`. The same book gives the same bytes. Raises BookError for
    a file that cannot be read.
    """
    book = read_cells(copy or path)
    form = layout.form_of(path.name) if layout else NO_FORM
    numbers = [n for job in jobs_with_candidates(book, form) for n in _numbers(job)]
    # What may have to be corrected stands first.
    numbers.sort(key=lambda number: _ORDER.index(number.state))
    new = NewBook(f"Review of {path.name}", "", REVIEW)
    titles = _titles(book)
    listed = new.book.add_worksheet(_unused(LIST, titles))
    _write_list(new, listed, path.name, numbers, _unused(NAMES, titles))
    by_place: dict[Place, list[_Number]] = {}
    for number in numbers:
        by_place.setdefault(number.place, []).append(number)
    for sheet, title in zip(book.sheets, titles, strict=True):
        _write_sheet(new, new.book.add_worksheet(title), sheet, by_place)
    names = new.book.add_worksheet(_unused(NAMES, titles))
    for column, listed_names in enumerate(_lists()):
        for row, name in enumerate(listed_names):
            new.put(names, row, column, name)
        names.set_column(column, column, 34)
    return new.done()


def _titles(book: OpenBook) -> list[str]:
    """Titles that a worksheet can have, one for each sheet of the book."""
    titles: list[str] = []
    for sheet in book.sheets:
        even = "".join("_" if c in "[]:*?/\\" else c for c in sheet.title).strip("'")[:31]
        titles.append(_unused(even or "Sheet", titles))
    return titles


def _unused(title: str, titles: Sequence[str]) -> str:
    taken = {t.casefold() for t in titles}
    tried, number = title, 2
    while tried.casefold() in taken:
        tried, number = f"{title[:27]} {number}", number + 1
    return tried


def _lists() -> tuple[Sequence[str], Sequence[str], Sequence[str], Sequence[str]]:
    """What each drop-down list offers."""
    names = sorted((m.name for m in all_measurands()), key=str.casefold)
    parts = [
        f"{word} {n}" for word in ("Cyl", "Main", "Rod") for n in range(1, _MOST_OF_A_PART + 1)
    ]
    return (NO_READING, *names), (THE_ENGINE, *parts), STAGES, _UNITS


def _numbers(job: JobRead) -> Iterator[_Number]:
    """Every typed number of a job, in the order of the book."""
    lines = job.candidates.lines
    at = {place: (line, spot) for line in lines for place, spot in line.places.items()}
    for reading in job.book.readings:
        about = BY_FORMULA if reading.uses else ""
        if reading.place in at and not reading.uses:
            said = label_said(*at[reading.place], lines)
            about = ", ".join(f"{key} = {text_of(text)}" for key, text in said.items())
        yield _of_reading(reading, about)
    for none in job.book.no_readings:
        if none.kind != "date":
            yield _Number(
                none.place, none.value, "", "no reading", NO_READING, "", NO_STAGE, "",
                "numbers its row or column" if none.kind == "index" else none.kind, "",
            )  # fmt: skip


def _of_reading(reading: Reading, about: str) -> _Number:
    term = find(reading.measurand)
    name = term.name if term else ""
    sure = reading.state == "read"
    label = reading.label.text if reading.label else ""
    evidence = "; ".join(dict.fromkeys(e.words for e in reading.evidence if e.words != label))
    guess = f"perhaps {name}; " if name and not sure else ""
    reason = f"{reading.reason}; " if reading.reason else ""
    return _Number(
        reading.place,
        reading.raw,
        label,
        reading.state,
        name if sure else "",
        which_said(reading.part),
        reading.stage or NO_STAGE,
        reading.unit,
        f"{guess}{reason}{evidence}".strip("; "),
        about,
    )


def _write_list(
    new: NewBook, sheet: Worksheet, file: str, numbers: Sequence[_Number], names: str
) -> None:
    new.put(sheet, 0, 0, "Review of what the numbers of a book are", "bold", 13)
    new.put(sheet, 1, 0, "Book")
    new.put(sheet, 1, 1, file, "bold")
    new.put(
        sheet, 2, 0,
        "Correct the four boxed columns, where something is wrong or empty; choose from the lists "
        "or type. Save, then: workbook-tools survey THIS.xlsx --out layout.toml", "soft",
    )  # fmt: skip
    for column, (head, width) in enumerate(zip(HEADS, _WIDTHS, strict=True)):
        new.put(sheet, FIRST_ROW - 2, column, head, "head")
        sheet.set_column(column, column, width)
    for column, head in enumerate(KEPT, len(HEADS)):
        new.put(sheet, FIRST_ROW - 2, column, head, "head")
    sheet.set_column(len(HEADS), len(HEADS) + len(KEPT) - 1, 12, None, {"hidden": True})
    for row, number in enumerate(numbers, FIRST_ROW - 1):
        tint = _TINTS.get(number.state, "")
        shown = (number.place.sheet, number.place.address, number.raw, number.label)
        state = _STATES.get(number.state, number.state)
        by_formula = number.about == BY_FORMULA
        for column, value in enumerate((*shown, f"{state} {BY_FORMULA}" if by_formula else state)):
            new.put(sheet, row, column, value, f"{tint} left")
        told = (number.what, number.which, number.stage, number.unit)
        for column, value in enumerate(told, len(shown) + 1):
            new.put(sheet, row, column, value, "soft" if by_formula else "box")
            new.put(sheet, row, column + len(told) + 1, value)
        new.put(sheet, row, len(HEADS) - 1, number.why, "soft")
        new.put(sheet, row, len(HEADS) + len(told), number.about)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.freeze_panes(FIRST_ROW - 1, 2)
    last = FIRST_ROW - 2 + len(numbers)
    if numbers:
        sheet.autofilter(FIRST_ROW - 2, 0, last, len(HEADS) - 1)
        for column, offered in enumerate(_lists()):
            letter = "ABCD"[column]
            sheet.data_validation(
                FIRST_ROW - 1, column + 5, last, column + 5,
                {
                    "validate": "list",
                    "source": f"='{names}'!${letter}$1:${letter}${len(offered)}",
                    "error_type": "stop" if column in (0, 2) else "information",
                    "error_title": "Not in the list",
                    "error_message": "Choose from the list.",
                },
            )  # fmt: skip


def _write_sheet(
    new: NewBook, sheet: Worksheet, source: Sheet, numbers: Mapping[Place, Sequence[_Number]]
) -> None:
    """A sheet of the book, its values tinted by how they are read and noted."""
    for (row, column), cell in source.cells.items():
        here = numbers.get(Place.at(source.title, row, column), ())
        tint = _TINTS.get(here[0].state, "") if here else ""
        new.put(sheet, row - 1, column - 1, cell.value, f"{tint} left".strip())
        if here:
            note = "\n".join(_note(number) for number in here)
            sheet.write_comment(row - 1, column - 1, note[:1000], {"x_scale": 2, "author": ""})
    for number in sorted(source.hidden_rows):
        sheet.set_row(number - 1, None, None, {"hidden": True})
    for number in sorted(source.hidden_columns):
        sheet.set_column(number - 1, number - 1, None, None, {"hidden": True})
    widths: dict[int, int] = {}
    for row, column, text in source.texts:
        if (row, column) not in source.merged:
            widths[column] = max(widths.get(column, 0), min(len(text), 30))
    for column, width in widths.items():
        if column not in source.hidden_columns:
            sheet.set_column(column - 1, column - 1, max(9, width + 1))


def _note(number: _Number) -> str:
    """What a number is taken for, in a note on its cell."""
    stage = "" if number.stage == NO_STAGE else number.stage.replace("_", " ")
    what = ", ".join(t for t in (number.what, number.which, stage, number.unit) if t)
    return f"{_STATES.get(number.state, number.state)}: {what or '?'}\n{number.why}".strip()
