"""What the heads of a list of jobs name: which column or row holds which field of a job."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.jobs.field_values import DATES, fitting, may_say
from workbook_tools.jobs.said_fields import is_plain
from workbook_tools.labels.job_labels import OTHER, JobLabel
from workbook_tools.labels.vocabulary import Vocabulary

# Columns of readings that make a list of rows with numbers one of jobs.
_FEWEST_READINGS = 2
# So many fields behind it make a first column one of numbers of jobs, by its first rows.
_FIELDS_BEHIND, _ROWS_TO_TELL = 3, 4
# Rows of limits that may stand between the heads of a list and its first row.
_MOST_LIMITS = 3
# So many fields make dates behind words that nobody knows those of jobs, in lines so near to them.
_FIELDS_BESIDE, _NEAR = 2, 2

# Somebody's name in capitals: "BK".
_INITIALS = re.compile(r"[A-ZÄÖÜÉ]{2,3}")

Labels = Mapping[int, tuple[JobLabel, ...]]
# The first values that a line of a list has below or beside its head.
Values = Callable[[int], Sequence[object]]


def values_below(sheet: Sheet, row: int) -> Values:
    """The first values of a list's columns, below the row of its heads and rows of limits."""
    rows = _first_rows(sheet, row)

    def below(column: int) -> list[object]:
        cells = (sheet.cells.get((r, column)) for r in rows)
        return [c.value for c in cells if c is not None and c.value is not None]

    return below


def _first_column(sheet: Sheet, row: int) -> int:
    """The first column that a row has something in, the first of all where it has nothing."""
    return min(sheet.rows.get(row, ()), default=1)


def _first_rows(sheet: Sheet, head: int) -> Sequence[int]:
    """The first rows of a list: those that its first column has something in, if there are some.

    Between heads and rows may stand what all rows are held against: "Spec min", "max".
    """
    first = _first_column(sheet, head)
    rows = range(head + 1, head + 1 + _ROWS_TO_TELL)
    filled = [r for r in rows if (cell := sheet.cells.get((r, first))) and cell.value is not None]
    if not filled or filled[0] > head + 1 + _MOST_LIMITS:
        return rows
    return range(filled[0], filled[0] + _ROWS_TO_TELL)


def values_beside(sheet: Sheet, column: int) -> Values:
    """The first values of a list's rows, beside the column of its heads."""

    def beside(row: int) -> list[object]:
        columns = range(column + 1, column + 1 + _ROWS_TO_TELL)
        cells = (sheet.cells.get((row, c)) for c in columns)
        return [c.value for c in cells if c is not None and c.value is not None]

    return beside


def as_values_tell(labels: Labels, values: Values, vocabulary: Vocabulary) -> Labels:
    """What heads name, without the fields that the first value of their line cannot be.

    "End" is when a job was finished, or the crankshaft's play; "Head" what was worked on, or 64 cc.
    """
    held = {at: values(at) for at in labels}
    fit = {at: _fit(said, held[at][:1], vocabulary) for at, said in labels.items()}
    # A "Bench" over codes is nobody's name where "Pupil" beside it stands over names.
    told = {
        one.field
        for at, said in fit.items()
        for one in said
        if held[at] and _holds(one, held[at], vocabulary)
    }
    return {
        at: tuple(
            one
            for one in said
            if one.sure or one.field not in told or _holds(one, held[at], vocabulary)
        )
        for at, said in fit.items()
    }


def _holds(one: JobLabel, values: Sequence[object], vocabulary: Vocabulary) -> bool:
    """Whether a line with a head has no values yet, or one that its field can have."""
    fits = (fitting(one.field, value, vocabulary, sure=one.sure) for value in values[:1])
    return not values or any(fits)


def _fit(
    said: tuple[JobLabel, ...], first: Sequence[object], vocabulary: Vocabulary
) -> tuple[JobLabel, ...]:
    fit = tuple(
        one
        for one in said
        if one.field == OTHER
        or any(
            may_say(one, said, value) and fitting(one.field, value, vocabulary, sure=one.sure)
            for value in first
        )
    )
    measured = any(isinstance(value, (int, float)) for value in first)
    named = {one.field for one in fit} - {OTHER}
    kept = [one for one in said if one.sure and one.field not in DATES] if measured else said
    return fit if named or not first else tuple(kept)


def with_unnamed(
    fields: Mapping[str, int], heads: Mapping[int, str], values: Values, vocabulary: Vocabulary
) -> dict[str, int]:
    """The fields of a list with dates, and initials of who did it, that no word of ours heads.

    heads: the texts of all heads, "" where a line has none.
    """
    found = _with_dates(fields, heads, values, vocabulary)
    if "builder" in fields or len(fields) < _FIELDS_BESIDE:
        return found
    signed = [
        at
        for at, text in sorted(heads.items())
        if not text and _are_initials(values(at), vocabulary)
    ]
    return {**found, "builder": signed[0]} if len(signed) == 1 else found


def _are_initials(values: Sequence[object], vocabulary: Vocabulary) -> bool:
    signs = [
        _INITIALS.fullmatch(value) if isinstance(value, str) else None
        for value in values
        if fitting("builder", value, vocabulary)
    ]
    return len(signs) > 1 and len(signs) == len(values) and all(signs)


def _with_dates(
    fields: Mapping[str, int], heads: Mapping[int, str], values: Values, vocabulary: Vocabulary
) -> dict[str, int]:
    """The fields of a list with dates behind words that nobody knows: when jobs began and ended.

    Of two such lines the first is when they began; one beside a known date is the other.
    """
    known = [name for name in DATES if name in fields]
    if len(fields) < _FIELDS_BESIDE or len(known) == len(DATES):
        return dict(fields)
    first, last = min(fields.values()) - _NEAR, max(fields.values()) + _NEAR
    free = [
        at
        for at, text in sorted(heads.items())
        if first <= at <= last and at not in fields.values() and (not text or is_plain(text))
        if _says_not_when(text, vocabulary) and _are_dates(values(at), vocabulary)
    ]
    if not known and len(free) == len(DATES):
        return {**fields, **dict(zip(DATES, free, strict=True))}
    if len(known) == 1 and len(free) == 1:
        began = known[0] == DATES[0]
        if (fields[known[0]] < free[0]) == began:
            return {**fields, DATES[1] if began else DATES[0]: free[0]}
    return dict(fields)


def _says_not_when(text: str, vocabulary: Vocabulary) -> bool:
    """Whether nobody knows a head, or it says no more than that a date stands below."""
    return not vocabulary.job.labels(text) or vocabulary.job.is_date(text)


def _are_dates(values: Sequence[object], vocabulary: Vocabulary) -> bool:
    return bool(values) and all(fitting(DATES[0], v, vocabulary, sure=False) for v in values)


def has_values(sheet: Sheet, row: int, fields: Mapping[str, int], vocabulary: Vocabulary) -> bool:
    """Whether labels have what they say beside them, and so are no heads."""
    for name in ("number", *DATES):
        cell = sheet.cells.get((row, fields[name] + 1)) if name in fields else None
        if cell is not None and fitting(name, cell.value, vocabulary):
            return True
    return False


def numbered_by_first_column(
    sheet: Sheet, row: int, fields: Mapping[str, int], vocabulary: Vocabulary
) -> dict[str, int]:
    """The fields of a list with the number of its jobs, where a first column holds numbers.

    Its own head names no reading, and no field that its cells could be: "Inv", "Ref.", "Bench"
    over codes, which are nobody's name.
    """
    first = _first_column(sheet, row)
    head = sheet.cells.get((row, first))
    text = head.value if head else None
    below = values_below(sheet, row)(first)
    others = {
        name: column
        for name, column in fields.items()
        if column != first or any(fitting(name, value, vocabulary) for value in below)
    }
    if "number" in fields or len(others) < _FIELDS_BEHIND or first in others.values():
        return dict(fields)
    if not isinstance(text, str) or _names_reading(vocabulary, text):
        return dict(fields)
    held = [fitting("number", value, vocabulary) for value in below]
    near = min(others.values()) == first + 1
    told = near and len(held) > 1 and all(held) and len(set(held)) == len(held)
    return {**others, "number": first} if told else dict(fields)


def fields_of(named: Labels) -> dict[str, int]:
    """The column of each field that a row of heads names; sure words before others.

    "Who" beside "Customer" is the builder: a word that may be either says what is left.
    """
    said = {c: [one for one in labels if one.field != OTHER] for c, labels in named.items()}
    order = sorted(
        (not labels[0].sure, len({one.field for one in labels}), labels[0].rank, c)
        for c, labels in said.items()
        if labels
    )
    found: dict[str, int] = {}
    for *_, column in order:
        free = (one.field for one in said[column] if one.field not in found)
        if field := next(free, ""):
            found[field] = column
    return found


def key_of(fields: Mapping[str, int], named: Labels) -> str:
    """The field that tells the jobs of a list apart: their number, else their customer."""
    if "number" in fields:
        return "number"
    sure = any(label.sure for label in named.get(fields.get("customer", 0), ()))
    return "customer" if sure and len(fields) > 2 else ""


def is_of_jobs(
    sheet: Sheet, row: int, named: Labels, fields: Mapping[str, int], vocabulary: Vocabulary
) -> bool:
    """Whether a row of heads is one of jobs, and no table of cylinders or of work done."""
    sure = {
        name
        for name, c in fields.items()
        if any(said.sure and said.field == name for said in named.get(c, ()))
    }
    others = [name for name in fields if name not in ("number", "builder")]
    held = sheet.rows.get(row, {}).values()
    heads = [cell.value for cell in held if isinstance(cell.value, str)]
    readings = sum(_names_reading(vocabulary, str(head)) for head in heads)
    if "number" in sure and (readings >= _FEWEST_READINGS or len(others) >= 2):
        return True
    head = sheet.cells.get((row, fields.get("number", 0)))
    rebuilt = head is not None and vocabulary.job.is_rebuilt(str(head.value))
    if others and readings and ("number" in sure or rebuilt):
        return True  # "Rebuild | Date in | Bore"
    return len(others) >= 2 and ("customer" in fields or "engine" in sure)


def _names_reading(vocabulary: Vocabulary, text: str) -> bool:
    match = vocabulary.match(text)
    return match is not None and match.how != "proposal"
