"""Missing readings: a measurement that a result needs and nobody took."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.findings.finding import Finding


def blamed_argument(record: Record) -> Argument | None:
    """The argument that a record's problem is about, where it was given at all."""
    return next((a for a in record.arguments if a.name == record.blamed), None)


def failures(book: Book) -> tuple[Record, ...]:
    """Records without a value; of calls within calls only the one that the trouble is in."""
    # An outer call comes before the calls in its arguments and takes over their problem; an
    # inner call that has a value only stands in a cell that has none.
    found: dict[tuple[Place, str, Place | None], Record] = {}
    for record in book.records:
        # What the batch would compute stands in no cell; the cell it needs tells it apart.
        argument = blamed_argument(record) if record.computed_by_batch else None
        key = record.place, record.problem, argument.place if argument else None
        if record.problem and (key not in found or record.value is None):
            found[key] = record
    return tuple(found.values())


def released(book: Book) -> str:
    """When the engine was finished, as the book says it, "" where it gives no date."""
    text = book.job.finished.text
    return text if any(c.isdigit() for c in text) else ""


def _row_of(record: Record) -> tuple[str, str, str]:
    """What a result has in common with its siblings: sheet, function and the item's name."""
    return record.place.sheet, record.name, record.label.text if record.label else ""


_OF_THE_ENGINE = re.compile(
    r"(?:cyl|main|rod|journal|bearing|pin|throw|bore)\w*\W*\d|[LR]\s?\d", re.IGNORECASE
)


def _begun(record: Record) -> bool:
    """Whether a guarded row is one that the engine has, and not a spare line of a form.

    It is where any of its cells is filled, and where it is a cylinder's or a journal's.
    """
    if record.label and _OF_THE_ENGINE.match(record.label.position):
        return True
    return any(a.value not in (None, "") and not _blank_rows(a.value)
               for a in record.arguments if a.place is not None)  # fmt: skip


def _blank_rows(value: object) -> bool:
    return isinstance(value, tuple) and all(
        cell is None or cell == "" for row in value for cell in row
    )


def check_missing(book: Book) -> Iterator[Finding]:
    """A finding for each empty cell that a call needs, once a cell, with all that need it."""
    waiting: dict[tuple[str, str], list[Record]] = {}
    filled = {_row_of(r) for r in book.records if r.value is not None}
    for record in failures(book):
        # A formula that blanks itself is only missed where its siblings have results: a
        # whole row of blanks is a part that this engine has not, or work not begun.
        guarded = record.state != "error"
        if record.missing and (not guarded or (_row_of(record) in filled and _begun(record))):
            argument = blamed_argument(record)
            place = argument.place if argument and argument.place else record.place
            waiting.setdefault((place.sheet, place.address), []).append(record)
    for records in waiting.values():
        yield _finding(records, released(book))


def _may_be_zero(record: Record) -> bool:
    parameters = record.function.parameters if record.function else ()
    return any(p.name == record.blamed and p.limits.allow_zero for p in parameters)


def _finding(records: list[Record], finished: str) -> Finding:
    first = records[0]
    argument = blamed_argument(first)
    place = argument.place if argument and argument.place else first.place
    name = str(argument.label) if argument and argument.label else first.blamed.replace("_", " ")
    where = f"{name} ({place.address})"
    needed = ", ".join(f"{r.name} in {r.place.address}" for r in records[:4])
    if len(records) > 4:
        needed += f" and {len(records) - 4} more"
    shown = next((r for r in records if isinstance(r.saved, (int, float))), None)
    if argument is not None and ":" in place.address:
        message = f"{where}: {argument.problem}; it is needed by {needed}."
    elif shown is not None:
        message = (
            f"{where} is empty, yet {shown.place.address} shows {shown.saved:.6g}: the program "
            f"counted the empty cell as 0. It is needed by {needed}."
        )
    else:
        verb = "has" if len(records) == 1 else "have"
        message = f"{where} is empty; {needed} {verb} no result without it."
    if finished:
        message += f" The engine is dated finished ({finished})."
    return Finding(
        "missing reading",
        place,
        message,
        "Measure it and enter it; if zero was measured, type 0."
        if _may_be_zero(first)
        else "Measure it and enter it.",
    )
