"""Where a sheet says something of a job: beside or below a label, or in one cell with it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.catalog import CellError
from workbook_tools.jobs.field_values import DATES, fitting, is_engine, may_say
from workbook_tools.jobs.paper_records import JobField
from workbook_tools.jobs.said_in_text import At, Said, said_in_text
from workbook_tools.jobs.title_facts import title_numbers
from workbook_tools.labels.job_labels import OTHER, JobLabel
from workbook_tools.labels.vocabulary import Vocabulary, vocabulary
from workbook_tools.measurands.tokens import phrase

# How far right of its label a value may stand, past empty cells.
_MOST_RIGHT = 5
# A word that also means something else holds so many rows from one that does not.
_NEAR = 12
# In rows so near to one that does not, any text can be a label.
_IN_HEAD = 2
# So many such words together hold without one.
_ENOUGH_HINTS = 3
# The rank of an engine's number that is its job's: any other number of a job comes before it.
OF_ENGINE = 1000
# Rows that the titles of a sheet stand in.
TITLE_ROWS = 5


def job_numbers(book: OpenBook) -> Iterator[JobField]:
    """The job number that each sheet gives, the first on it, for the sheets that give one."""
    for sheet in book.sheets:
        said = said_fields(sheet, vocabulary())
        found = next((one for one in said if one.name == "number" and one.sure and one.text), None)
        if found is not None:
            yield found.field(sheet)


# Asked several times of each sheet of a book; no book has more sheets than a book of forms.
@lru_cache(maxsize=64)
def said_fields(sheet: Sheet, vocabulary: Vocabulary) -> tuple[Said, ...]:
    """All that a sheet says of jobs, in reading order; of several jobs where it holds several."""
    head = _Head(sheet, vocabulary)
    found = [*head.labeled(), *head.in_one_cell()]
    if not any(said.name == "number" and said.sure for said in found):
        found += title_numbers(sheet, vocabulary)
    held = _held(found, head)
    if not any(said.name == "number" for said in found):
        # A shop that numbers its engines has no other number of a job.
        others = {said.name for said in held}
        sure = {said.name for said in held if said.sure}
        serial = [*head.labeled(serial=True)]
        # Cards side by side have one each.
        beside = [said for said in serial if said.label[0] == serial[0].label[0]]
        enough = _ENOUGH_HINTS if sure else _ENOUGH_HINTS + 1
        if len(others) >= enough or _are_of_cards(beside, held):
            held = _held(found + beside, head)
    held += head.date_behind_number(held)
    held = _with_number(_with_owner(held + head.dates_beside(held), sheet, vocabulary))
    return tuple(sorted(held, key=lambda said: (said.label, said.at)))


def _are_of_cards(numbers: list[Said], held: list[Said]) -> bool:
    """Whether each of several numbers side by side heads a card with other fields of a job."""
    if not 1 < len(numbers) == len({said.text for said in numbers}):
        return False
    columns = [said.label[1] for said in numbers]
    below = [
        {said.name for said in held if said.label[1] == c and said.label[0] > numbers[0].label[0]}
        for c in columns
    ]
    return all(below) and all(names == below[0] for names in below)


def _with_owner(held: list[Said], sheet: Sheet, vocabulary: Vocabulary) -> list[Said]:
    """What is said, with whose an engine is where only what it is in tells that.

    "Unit: truck 114" beside "Engine: straight six" in the book of a fleet.
    """
    named = {said.name for said in held}
    engines = {said.text for said in held if said.name == "engine" and said.sure}
    if not engines or "customer" in named or len(named) < _ENOUGH_HINTS:
        return held
    texts = {at: sheet.cells[at].value for at in {said.label for said in held}}
    return [
        said._replace(name="customer")
        if said.name == "engine"
        and not said.sure
        and said.text not in engines
        and phrase(str(texts[said.label])) in vocabulary.job.driven
        else said
        for said in held
    ]


# "KT-1": how a team calls one of its engines, and no kind of engine.
_CALLED = re.compile(r"[A-Z]{1,4}-\d{1,4}")
_YEAR = re.compile(r"(?:19|20)\d\d\b")


def _with_number(held: list[Said]) -> list[Said]:
    """What is said, with an engine's code as the job's number where another field tells the engine.

    "Eng: KT-1" beside "Car: 357 late model", in a book that has no other number.
    """
    if any(said.name == "number" for said in held):
        return held
    engines = [said for said in held if said.name == "engine" and said.text]
    coded = [said for said in engines if said.sure and _CALLED.fullmatch(said.text)]
    told = [s for s in engines if s not in coded and is_engine(_YEAR.sub("", s.text))]
    if len(coded) != 1 or not told:
        return held
    number = coded[0]._replace(name="number", rank=OF_ENGINE)
    return [number if said is coded[0] else said for said in held]


def _held(found: list[Said], head: _Head) -> list[Said]:
    """What sure words say, and others where they can only be those of fields."""
    sure = [said for said in found if said.sure]
    return [said for said in found if said.sure or _holds(said, sure, found, head)]


def _holds(said: Said, sure: list[Said], found: list[Said], head: _Head) -> bool:
    """Whether a word that means other things as well is that of a field here."""
    row = said.label[0]
    in_row = [s for s in sure if s.label[0] == row]
    if said.label == said.at and said.name in DATES:
        return True  # "started 3/18/2024"
    if in_row:
        return True
    in_head = any(abs(s.label[0] - row) <= _IN_HEAD for s in sure) or _is_head(row, found)
    in_column = any(abs(s.label[0] - row) <= _IN_HEAD and s.label[1] == said.label[1] for s in sure)
    if said.beside and (in_column or (said.name in DATES and in_head)) and head.is_apart(said):
        return True  # Beside another table, or with a word on it further right.
    if said.beside and said.name == "number" and head.is_of_several(said, found):
        return True  # Cards side by side, each with its number.
    if not said.beside and said.name in DATES and in_head and head.is_of_labels(row):
        return True  # "Rec'd | Done | Phone", with what they say below.
    if not said.beside or not head.is_accounted(row, in_head=in_head):
        return False
    if said.name in DATES or any(abs(s.label[0] - row) <= _NEAR for s in sure):
        return True
    near = {s.name for s in found if abs(s.label[0] - row) <= _NEAR / 2}
    return len(near) >= _ENOUGH_HINTS


def _is_head(row: int, found: list[Said]) -> bool:
    """Whether words for so many fields stand together that a sure one need not be among them."""
    near = {s.name for s in found if s.beside and abs(s.label[0] - row) <= _IN_HEAD}
    return len(near) > _ENOUGH_HINTS


class _Head:
    """The labels of job fields of one sheet, with what stands around them."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        words = vocabulary.job
        self.labels: dict[At, tuple[JobLabel, ...]] = {
            (row, column): labels
            for row, column, text in sheet.texts
            if (labels := words.labels(text))
        }
        self._rows: dict[int, list[int]] = {row: [] for row, _ in self.labels}
        for row, column in sheet.cells:
            if row in self._rows:
                self._rows[row].append(column)

    def labeled(self, *, serial: bool = False) -> Iterator[Said]:
        """What labels say that have a cell of their own.

        serial: instead of that the numbers of engines, which may be those of their jobs.
        """
        for at, meant in self._meant().items():
            of_engine = len(meant) < len(self.labels[at]) and meant[0].field == "number"
            if serial and not of_engine:
                continue
            for place, beside in self._places(at):
                said = self._said(at, meant, place, beside=beside)
                if said is None:
                    continue
                # A serial number's label may head a list of jobs, or say what its sheet is named.
                if serial or not of_engine or said.text == self.sheet.title.strip():
                    yield said._replace(sure=True, rank=OF_ENGINE) if of_engine else said
                break

    def _meant(self) -> dict[At, list[JobLabel]]:
        """The fields that each label can name; of one that can name two first what others do not.

        "Operator" beside "Fitter" is who had the engine, alone who did the work.
        """
        meant = {at: [one for one in own if one.field != OTHER] for at, own in self.labels.items()}
        meant = {at: own for at, own in meant.items() if own}
        if all(len(own) == 1 for own in meant.values()):
            return meant
        known = {
            own[0].field
            for at, own in meant.items()
            if len(own) == 1 and any(self._said(at, own, p, beside=b) for p, b in self._places(at))
        }
        return {
            at: sorted(own, key=lambda label: label.field in known) for at, own in meant.items()
        }

    def is_of_several(self, said: Said, found: Sequence[Said]) -> bool:
        """Whether one label stands over several jobs of a sheet, each with another number."""
        text = self.sheet.cells[said.label].value
        alike = [
            one.text
            for one in found
            if one.name == said.name and one.beside and self.sheet.cells[one.label].value == text
        ]
        near = (one for one in found if one.beside and abs(one.label[0] - said.label[0]) <= _NEAR)
        fields = {one.name for one in near}
        return 1 < len(alike) == len(set(alike)) and len(fields) > _ENOUGH_HINTS

    def _places(self, at: At) -> Iterator[tuple[At, bool]]:
        """Where a label's value can stand, the likelier place first."""
        beside, below = self.right_of(at), self._below(at)
        places = [(beside, True), (below, False)]
        if self._is_of_calendar(at):
            return
        if self._is_head(at, beside):
            places.reverse()
        for place, is_beside in places:
            if place is not None and place not in self.labels:
                yield place, is_beside

    def right_of(self, at: At) -> At | None:
        """The next filled cell right of one, within reach."""
        _, right = self.sheet.merged.get(at, at)
        columns = range(right + 1, right + 1 + _MOST_RIGHT)
        found = [(at[0], c) for c in columns if (at[0], c) in self.sheet.cells]
        return self._in_its_place(found) if found else None

    def _in_its_place(self, found: Sequence[At]) -> At:
        """The first of several cells, or what stands behind it where it is struck through."""
        struck, labels = self.sheet.struck, self.labels
        for at, last in zip(found, (None, *found), strict=False):
            if at not in struck and (last is None or (at[1] == last[1] + 1 and at not in labels)):
                return at
            if at not in struck:
                break
        return found[0]

    def _left_of(self, at: At) -> At | None:
        columns = range(at[1] - 1, max(0, at[1] - 1 - _MOST_RIGHT), -1)
        return next(((at[0], c) for c in columns if (at[0], c) in self.sheet.cells), None)

    def _below(self, at: At) -> At | None:
        """The cell under a label, None where it is one of a list of several."""
        bottom, _ = self.sheet.merged.get(at, at)
        first, second = (bottom + 1, at[1]), (bottom + 2, at[1])
        cell = self.sheet.cells.get(first)
        if cell is None:
            return None
        next_line = (first[0], at[1] + 1) in self.sheet.cells and not self._is_head(
            at, self.right_of(at)
        )
        if next_line:
            return None  # The next line, with what that says beside it.
        name = self.labels[at][0].field
        under = self.sheet.cells.get(second)
        if name == OTHER or under is None or under.value == cell.value:
            return first
        return None if fitting(name, under.value, self.vocabulary) else first

    def _is_of_calendar(self, at: At) -> bool:
        """Whether a label is one of the heads of a calendar: "Date | Track | Engine | Lap".

        Which engine ran on which day says of no job which engine it was.
        """
        row, _ = at
        return any(
            r == row and (r, c) != at and self._has_days_below(r, c) for r, c in self.labels
        ) and isinstance(self._value((row + 1, at[1])), (int, float))

    def _has_days_below(self, row: int, column: int) -> bool:
        head = str(self._value((row, column)))
        below = [self._value((r, column)) for r in (row + 1, row + 2)]
        days = all(value and fitting("started", value, self.vocabulary) for value in below)
        return days and self.vocabulary.job.is_date(head)

    def _value(self, at: At) -> object:
        cell = self.sheet.cells.get(at)
        return cell.value if cell else None

    def _is_head(self, at: At, beside: At | None) -> bool:
        """Whether a label is one of several side by side, with what they say below."""
        left = self._left_of(at)
        return beside in self.labels or (left in self.labels and self.right_of(left) == at)

    def _said(self, at: At, meant: list[JobLabel], place: At, *, beside: bool) -> Said | None:
        cell = self.sheet.cells[place]
        for label in meant:
            if not may_say(label, meant, cell.value):
                continue
            text = fitting(label.field, cell.value, self.vocabulary, sure=label.sure)
            if text or (label.sure and isinstance(cell.value, CellError)):
                return Said(
                    label.field, text, at, place, label.sure, label.rank, beside, label.languages
                )
        return None

    def date_behind_number(self, held: list[Said]) -> list[Said]:
        """The day a job began, behind its number where one label names both: "Nr. / Datum"."""
        if any(said.name == DATES[0] for said in held):
            return []
        for said in held:
            named = self.sheet.cells.get(said.label) if said.name == "number" else None
            parts = re.split(r"\s*[/,+&]\s*", str(named.value)) if named else []
            place = (said.at[0], said.at[1] + 1)
            cell = self.sheet.cells.get(place)
            dated = len(parts) > 1 and self.vocabulary.job.is_date(parts[-1])
            beside = cell if dated and said.at != said.label else None
            date = fitting(DATES[0], beside.value, self.vocabulary) if beside else ""
            if date:
                return [said._replace(name=DATES[0], text=date, at=place)]
        return []

    def dates_beside(self, held: list[Said]) -> list[Said]:
        """Dates at the head of a job behind words that nobody knows: it began and was finished.

        "Hauled | 8 Jan | Back aboard | 12 Apr": of two the first is when it began; of one beside
        a known date it is the other.
        """
        rows = {said.label[0] for said in held if said.name not in DATES}
        known = [said for said in held if said.name in DATES]
        if len({said.name for said in held}) < _ENOUGH_HINTS or len(known) > 1:
            return []
        found = []
        for row, column, text in self.sheet.texts:
            place = (row, column + 1)
            cell = self.sheet.cells.get(place)
            near = any(abs(row - at) <= _IN_HEAD for at in rows)
            if not near or cell is None or not self._may_date(row, column, text, known):
                continue
            if date := fitting("started", cell.value, self.vocabulary):
                found.append(Said("", date, (row, column), place, False, 0, True, frozenset()))
        if not known and len(found) == len(DATES):
            return [one._replace(name=name) for one, name in zip(found, DATES, strict=True)]
        if len(known) == 1 and len(found) == 1:
            first = min((*known, *found), key=lambda one: one.at)
            other = DATES[1] if known[0].name == DATES[0] else DATES[0]
            in_order = (first is known[0]) == (known[0].name == DATES[0])
            return [found[0]._replace(name=other)] if in_order else []
        return []

    def _may_date(self, row: int, column: int, text: str, known: list[Said]) -> bool:
        """Whether a label can be that of a date of a job: nobody knows it.

        What says no more than "Date" is the first day where another label tells the last one.
        """
        if (row, column) not in self.labels:
            return is_plain(text)
        last = next((said for said in known if said.name == DATES[1]), None)
        return last is not None and self.vocabulary.job.is_date(text) and (row, column) < last.label

    def is_of_labels(self, row: int) -> bool:
        """Whether all texts of a row are labels of a job, several of them."""
        columns = self._rows.get(row, ())
        return len(columns) > 1 and all((row, column) in self.labels for column in columns)

    def is_apart(self, said: Said) -> bool:
        """Whether a label and what it says stand together between empty cells."""
        (row, left), right = said.label, said.at[1]
        _, right = self.sheet.merged.get(said.at, (row, right))
        return (
            said.at[0] == row
            and right == said.at[1]
            and (row, left - 1) not in self.sheet.cells
            and (row, right + 1) not in self.sheet.cells
        )

    def is_accounted(self, row: int, *, in_head: bool) -> bool:
        """Whether all of a row are labels of a job and what each says.

        in_head: whether it stands among rows that are, where any text can be a label.
        """
        labeled = False
        columns = self._rows.get(row, [])
        for column in columns:
            value = self.sheet.cells[row, column].value
            if (row, column) in self.labels:
                labeled = True
            elif labeled and value is not None:
                labeled = False
            elif in_head and isinstance(value, str):
                labeled = True
            else:
                # "Revision | 2/2024 | after the race": the last may only be a remark.
                return column == columns[-1] and len(columns) > 2 and _is_remark(value)
        return True

    def in_one_cell(self) -> Iterator[Said]:
        """What stands in one cell with its label: "Job: 1042", "started 3/18/2024"."""
        labels = self.vocabulary.job.labels
        named = [(row, t.partition(":")) for row, _, t in self.sheet.texts if ":" in t]
        # "Order 25-0611" beside "Customer: Smith" gives the number of one more job.
        heads = {row for row, (field, _, value) in named if value.strip() and labels(field)}
        heads |= {row for (row, _), own in self.labels.items() if any(o.sure for o in own)}
        for row, column, text in self.sheet.texts:
            if (row, column) not in self.labels:
                in_head = row in heads or row <= TITLE_ROWS
                yield from said_in_text(text, (row, column), self.vocabulary, in_head=in_head)


_MOST_WORDS_OF_A_LABEL = 4
_FEWEST_WORDS_OF_A_REMARK = 2


def _is_remark(value: object) -> bool:
    return isinstance(value, str) and len(value.split()) >= _FEWEST_WORDS_OF_A_REMARK


def is_plain(text: str) -> bool:
    """Whether a text can be the label of a date: a few words without a number."""
    words = text.strip(" :").split()
    return 0 < len(words) <= _MOST_WORDS_OF_A_LABEL and not any(map(str.isdigit, text))


def likeliest(
    sheets: Mapping[str, Sequence[Said]], name: str, first: str = ""
) -> tuple[str, Said] | None:
    """The sheet and the place that say a field of one job best.

    first: the sheet that has the job's number, before others; on one sheet a sure word comes
    before others, and of these the likelier. Of who built it a sure word comes before the sheet.
    """
    found = [
        (title != first, not said.sure, _likelihood(said), title, said)
        for title, all_of in sheets.items()
        for said in all_of
        if said.name == name
    ]
    if not first:
        found = [(False, *one[1:]) for one in found]
    if name == "builder":
        # Who ground the crank is on its card, with the number; who built it perhaps on another.
        found = [(not said.sure, other, rank, t, said) for other, _, rank, t, said in found]
    # Of equals the first in the order of the sheets, in which min keeps them.
    best = min(found, key=lambda one: one[:3], default=None)
    return (best[3], best[4]) if best else None


def _likelihood(said: Said) -> int:
    """How likely a word says a field, from 0; of sure words all alike, but for a few.

    "Le" makes a word of a date sure, and says not which of two tells when a job was done.
    """
    ranked = not said.sure or said.name in DATES or said.rank >= OF_ENGINE
    return said.rank if ranked else 0
