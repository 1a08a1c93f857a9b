"""A shop's layout.toml: where its books keep their readings, in which units, with which signs.

Keys at the top hold for every book; a [[book]] table with `files` holds for the books whose
names match, and takes over the rest from the top:

    units = "inch"                      # what a bare number means: "inch" or "metric"
    decimal_comma = true                # 1.234,5 is 1234.5
    dates = "day first"                 # or "month first"
    cylinders = 8
    deck_sign = "positive below"        # or "negative below" the deck
    crown_sign = "positive dish"        # or "negative dish"
    jobs = "sheets"                     # several jobs in one book: "sheets", "blocks", "rows"
    skip_sheets = ["Prices"]
    ignore_labels = ["Deck paint"]      # labels that are no readings, whatever they resemble
    answers = [                         # what numbers are: see answers.py
      { label = "Dish in crown", is = "dish_volume" },
      { cells = "Crank!F7", is = "main_journal", of = "Main 3", stage = "machined", unit = "mm" },
    ]
    [banks]                             # which cylinders stand in the left and right columns
    left = [1, 3, 5, 7]
    right = [2, 4, 6, 8]
    [job]
    number = "Front!B3"                 # a cell, or a label: "Ticket"
    [readings]
    bore = "Block!C5:J5"                # cells, or labels: ["pot size", "pot dia"]
    "gasket bore" = { cells = "Parts!D9", unit = "mm" }
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from fnmatch import fnmatch
from functools import cached_property
from pathlib import Path
from typing import Any, Literal, NoReturn, get_args

from workbook_tools.labels.answers import NO_READING, Answer, AnswerError, named_alike, read_answers
from workbook_tools.labels.content import is_unit, no_unit
from workbook_tools.labels.named_cells import NamedCells, cells_named, fault_of
from workbook_tools.labels.vocabulary import Vocabulary, vocabulary
from workbook_tools.quantities import System
from workbook_tools.quantities.nearest import hint
from workbook_tools.settings.found import files_up

LAYOUT_FILE = "layout.toml"
JobScheme = Literal["one", "sheets", "blocks", "rows"]
DECK_SIGNS = ("positive below", "negative below")
CROWN_SIGNS = ("positive dish", "negative dish")


class LayoutError(Exception):
    """A layout that cannot be followed: file, line, key, and the reason."""

    def __init__(self, file: str, line: int, key: str, reason: str) -> None:
        where = f"{file}, line {line}" if line else file
        super().__init__(f"{where}, {key}: {reason}" if key else f"{where}: {reason}")
        self.line, self.key, self.reason = line, key, reason


@dataclass(frozen=True)
class Cells(NamedCells):
    """Cells of one reading, with what the layout says of them."""

    unit: str = ""
    cylinders: tuple[int, ...] = ()


@dataclass(frozen=True)
class Form:
    """How the books of one form are to be read; what is left out is found in the book."""

    files: tuple[str, ...] = ("*",)
    units: System | None = None
    decimal_comma: bool = False
    day_first: bool | None = None
    cylinders: int | None = None
    deck_sign: str = ""
    crown_sign: str = ""
    jobs: JobScheme | None = None
    skip_sheets: tuple[str, ...] = ()
    answers: tuple[Answer, ...] = ()
    left: tuple[int, ...] = ()
    right: tuple[int, ...] = ()
    job: Mapping[str, Cells] = field(default_factory=dict)
    job_words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    readings: Mapping[str, tuple[Cells, ...]] = field(default_factory=dict)
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def vocabulary(self) -> Vocabulary:
        """The trade's words with the shop's own."""
        return self._vocabulary

    @cached_property
    def _vocabulary(self) -> Vocabulary:
        return vocabulary().with_words(self.words).with_job_words(self.job_words)


NO_FORM = Form()


@dataclass(frozen=True)
class Layout:
    """A shop's forms of books; the first whose `files` match a book is the book's."""

    forms: tuple[Form, ...] = ()

    def form_of(self, file_name: str) -> Form:
        """The form of a book of this name."""
        for form in self.forms:
            if any(fnmatch(file_name.casefold(), f.casefold()) for f in form.files):
                return form
        return NO_FORM


def read_layout(path: Path) -> Layout:
    """Read a layout.toml.

    Raises LayoutError, with file, line, key and reason, for a file that cannot be read, a key
    that is not known, or a value that is not what the key takes.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "not a text file in UTF-8"
        raise LayoutError(str(path), 0, "", f"cannot be read: {reason}") from None
    try:
        return _layout(path, text)
    except (RecursionError, ValueError, OverflowError):
        raise LayoutError(
            str(path), 0, "", "a value is nested too deep or has too many digits"
        ) from None


def _layout(path: Path, text: str) -> Layout:
    try:
        data = tomllib.loads(text)
    except ValueError as error:
        # Not only its own error: a number of thousands of digits gives another.
        found = re.search(r"line (\d+)", str(error))
        reason = re.sub(r"\s*\(at .*\)", "", str(error))
        raise LayoutError(str(path), int(found[1]) if found else 0, "", reason) from None
    reader = _Reader(str(path), text)
    books = data.pop("book", [])
    if not isinstance(books, list) or not all(isinstance(b, dict) for b in books):
        reader.fail("book", "expected [[book]] tables, with two brackets")
    shared = reader.form(data, NO_FORM)
    forms = []
    for number, entry in enumerate(books, 1):
        reader.book = number
        if "files" not in entry:
            reader.fail("files", 'expected the names of the books it is for, as ["V8*.xlsx"]')
        forms.append(reader.form(entry, shared))
    return Layout((*forms, shared))


def find_layouts(books: Iterable[Path], named: Iterable[Path]) -> dict[Path, Path]:
    """The layout.toml of each book that has one in its folder or in one above, the nearest.

    named: the files and folders that the books were found by; how far up is said by
    `folders_up`.
    """
    tops = list(named)
    nearest: dict[Path, Path | None] = {}
    found = {}
    for book in books:
        folder = book.parent
        if folder not in nearest:
            nearest[folder] = next(iter(files_up(LAYOUT_FILE, folder, tops)), None)
        path = nearest[folder]
        if path is not None:
            found[book] = path
    return found


def layouts_of(books: Iterable[Path], named: Iterable[Path]) -> dict[Path, Layout]:
    """The layout of each book for which find_layouts has one. Raises LayoutError as read_layout."""
    found = find_layouts(books, named)
    read = {path: read_layout(path) for path in dict.fromkeys(found.values())}
    return {book: read[path] for book, path in found.items()}


@dataclass
class _Reader:
    """Takes a layout's values with checks that say where a wrong one stands."""

    file: str
    text: str
    book: int = 0

    def fail(self, key: str, reason: str) -> NoReturn:
        raise LayoutError(self.file, self._line(key), key, reason)

    def _line(self, key: str) -> int:
        """The line of a key: within its table, and within the [[book]] being read."""
        table, _, last = key.rpartition(".")
        here, books = "", 0
        pattern = re.compile(rf"""\s*["']?{re.escape(last)}["']?\s*=""")
        for number, line in enumerate(self.text.splitlines(), 1):
            head = re.match(r"\s*\[+\s*([^\[\]]+?)\s*\]+", line)
            if head and "=" not in line:
                here = head[1].replace('"', "").removeprefix("book.").removeprefix("book")
                books += line.strip().startswith("[[")
                if here == key or (head[1] == last and books == self.book):
                    return number
            elif books == self.book and here == table and pattern.match(line):
                return number
        return 0

    def form(self, data: Mapping[str, Any], base: Form) -> Form:
        """A form from a table, on top of what holds for all."""
        readers: dict[str, Callable[[Form, Any], Form]] = {
            "files": lambda f, v: replace(f, files=self.texts("files", v)),
            "units": lambda f, v: replace(f, units=self.one_of("units", v, get_args(System))),
            "decimal_comma": lambda f, v: replace(f, decimal_comma=self.yes_no("decimal_comma", v)),
            "dates": lambda f, v: replace(
                f, day_first=self.one_of("dates", v, ("day first", "month first")) == "day first"
            ),
            "cylinders": lambda f, v: replace(f, cylinders=self.whole("cylinders", v)),
            "deck_sign": lambda f, v: replace(f, deck_sign=self.one_of("deck_sign", v, DECK_SIGNS)),
            "crown_sign": lambda f, v: replace(
                f, crown_sign=self.one_of("crown_sign", v, CROWN_SIGNS)
            ),
            "jobs": lambda f, v: replace(f, jobs=self.one_of("jobs", v, get_args(JobScheme))),
            "ignore_labels": self.ignored,
            "answers": self.answers,
            "skip_sheets": lambda f, v: replace(f, skip_sheets=self.texts("skip_sheets", v)),
            "banks": self.banks,
            "job": self.job,
            "readings": self.readings,
        }
        form = base
        for key, value in data.items():
            if key not in readers:
                self.fail(key, f"no such key; {hint(key, readers)}")
            form = readers[key](form, value)
        return form

    def one_of(self, key: str, value: Any, words: tuple[str, ...]) -> Any:
        if value not in words:
            named = " or ".join(f'"{word}"' for word in words)
            self.fail(key, f"expected {named}, got {_shown(value)}")
        return value

    def yes_no(self, key: str, value: Any) -> bool:
        if not isinstance(value, bool):
            self.fail(key, f"expected true or false, got {_shown(value)}")
        return bool(value)

    def whole(self, key: str, value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= 64:
            self.fail(key, f"expected a whole number from 1 to 64, got {_shown(value)}")
        return int(value)

    def texts(self, key: str, value: Any) -> tuple[str, ...]:
        listed = [value] if isinstance(value, str) else value
        if (
            not isinstance(listed, list)
            or not listed
            or not all(isinstance(t, str) for t in listed)
        ):
            self.fail(key, f'expected a text or a list as ["…", "…"], got {_shown(value)}')
        return tuple(listed)

    def numbers(self, key: str, value: Any) -> tuple[int, ...]:
        if not isinstance(value, list):
            self.fail(key, f"expected a list of cylinders as [1, 3, 5, 7], got {_shown(value)}")
        return tuple(self.whole(key, number) for number in value)

    def table(self, key: str, value: Any) -> Mapping[str, Any]:
        if not isinstance(value, dict):
            self.fail(key, f"expected a table [{key}], got {_shown(value)}")
        return dict(value)

    def banks(self, form: Form, value: Any) -> Form:
        table = self.table("banks", value)
        for side in table:
            if side not in ("left", "right"):
                self.fail(f"banks.{side}", "expected left or right")
        left, right = (self.numbers(f"banks.{s}", table.get(s, [])) for s in ("left", "right"))
        twice = set(left) & set(right) or {
            n for n in (*left, *right) if (*left, *right).count(n) > 1
        }
        if twice:
            self.fail("banks.left", f"cylinder {min(twice)} stands twice")
        return replace(form, left=left, right=right)

    def job(self, form: Form, value: Any) -> Form:
        known = list(vocabulary().job.names)
        places, words = dict(form.job), dict(form.job_words)
        for name, entry in self.table("job", value).items():
            key = f"job.{name}"
            if name not in known:
                self.fail(key, f"no field of a job; {hint(name, known)}")
            for text in self.texts(key, entry):
                cells = self.named(key, text)
                if cells is None:
                    words[name] = (*words.get(name, ()), text)
                elif ":" in cells.range:
                    self.fail(key, f"expected one cell, got {_shown(text)}")
                else:
                    places[name] = cells
        return replace(form, job=places, job_words=words)

    def readings(self, form: Form, value: Any) -> Form:
        cells, words = dict(form.readings), dict(form.words)
        for name, entry in self.table("readings", value).items():
            key = f"readings.{name}"
            term = vocabulary().term(name)
            if term is None:
                self.fail(key, f"not a reading that is known; {named_alike(name)}")
            name = term.id
            if isinstance(entry, dict):
                cells[name] = (self.cells(key, entry),)
                continue
            for text in self.texts(key, entry):
                named = self.named(key, text)
                if named is not None:
                    cells[name] = (*cells.get(name, ()), named)
                else:
                    words[name] = (*words.get(name, ()), text)
        return replace(form, readings=cells, words=words)

    def named(self, key: str, text: str) -> Cells | None:
        """A text as cells that a sheet has, and not too many of them; None for a label."""
        cells = cells_named(text)
        if cells is None:
            return None
        fault = fault_of(cells, text)
        if fault:
            self.fail(key, fault)
        return Cells(cells.sheet, cells.range)

    def ignored(self, form: Form, value: Any) -> Form:
        labels = self.texts("ignore_labels", value)
        none = (Answer(label=label, measurand=NO_READING) for label in labels)
        return replace(form, answers=(*form.answers, *none))

    def answers(self, form: Form, value: Any) -> Form:
        try:
            return replace(form, answers=(*form.answers, *read_answers(value)))
        except AnswerError as error:
            key = f"answer {error.number}" if error.number else "answers"
            line = self._line_of_answer(error.number)
            raise LayoutError(self.file, line, key, error.reason) from None

    def _line_of_answer(self, number: int) -> int:
        """The line of an answer of the list: each begins with a brace, and remarks with a #."""
        first = self._line("answers")
        lines = enumerate(self.text.splitlines()[max(0, first - 1) :], max(1, first))
        begun = [n for n, line in lines for _ in range(line.partition("#")[0].count("{"))]
        return begun[number - 1] if 0 < number <= len(begun) else first

    def cells(self, key: str, entry: Mapping[str, Any]) -> Cells:
        for part in entry:
            if part not in ("cells", "unit", "cylinders"):
                self.fail(key, f"{part}: no such key; {hint(part, ('cells', 'unit', 'cylinders'))}")
        named = self.named(key, str(entry.get("cells", "")))
        if named is None:
            self.fail(key, f'expected cells = "Sheet!B3:I3", got {_shown(entry.get("cells"))}')
        unit = entry.get("unit", "")
        if unit and not (isinstance(unit, str) and is_unit(unit)):
            self.fail(key, f"{_shown(unit)} {no_unit(unit)}")
        cylinders = self.numbers(key, entry["cylinders"]) if "cylinders" in entry else ()
        return replace(named, unit=unit, cylinders=cylinders)


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return "nothing" if value is None else repr(value)
