"""Missing readings: a measurement that a result needs and nobody took."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.books.places import cells_of, places_named, spread
from workbook_tools.findings.evidence import Evidence, blamed_argument, spot
from workbook_tools.findings.finding import MORE, Finding, call_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument, Record
from workbook_tools.jobs.verdicts import is_judge, judged_argument


def _row_of(record: Record) -> tuple[str, str, str]:
    """What a result has in common with its siblings: sheet, function and the item's name."""
    return record.place.sheet, record.name, record.label.text if record.label else ""


_OF_THE_ENGINE = re.compile(
    r"(?:cyl|main|rod|journal|bearing|pin|throw|bore)\w*\W*\d|[LR]\s?\d", re.IGNORECASE
)


# A verdict that waits for its band waits for nothing that was to be measured.
_LIMITS = ("low", "high")


def _item_of(record: Record) -> tuple[str, str]:
    """The sheet and the item that a result is of: of a verdict, what it judges."""
    judged = judged_argument(record)
    label = judged.label if judged is not None else record.label
    return record.place.sheet, label.text if label else ""


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


def check_missing(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each empty cell that a call needs, once a cell, with all that need it.

    A computed cell that is empty waits for others; the finding is for those, wherever its
    formulas lead to them.
    """
    if not evidence.failures:
        return
    waiting: dict[Place, list[Record]] = {}
    valued = [r for r in evidence.book.records if r.value is not None]
    filled, items = {_row_of(r) for r in valued}, {_item_of(r) for r in valued}
    beside = _lines_of_readings(evidence) if evidence.finished_on else frozenset()
    for record in evidence.failures:
        # A formula that blanks itself is only missed where its siblings have results, or other
        # readings of a finished engine stand in its line: a whole row of blanks is a part that
        # this engine has not, or work not begun.
        guarded = record.state != "error"
        told = _row_of(record) in filled or _is_beside(record, beside)
        told = told and not (is_judge(record) and record.blamed in _LIMITS)
        if record.missing and (not guarded or (told and _begun(record))):
            argument = blamed_argument(record)
            place = argument.place if argument and argument.place else record.place
            waiting.setdefault(place, []).append(record)
    formulas = _formulas(evidence.book.records) if any(map(_is_computed, waiting.values())) else {}
    behind = {place: _behind(place, formulas, waiting) for place in waiting}
    for place, records in waiting.items():
        if not behind[place]:
            later = sum(len(waiting[p]) for p, roots in behind.items() if place in roots)
            all_empty = _item_of(records[0]) not in items
            yield _finding(records, later, evidence.finished_on, all_empty=all_empty)


def _lines_of_readings(evidence: Evidence) -> frozenset[tuple[str, int]]:
    """The lines of sheets that hold readings of the engine's parts: sheet and row."""
    return frozenset(
        (r.place.sheet, spot(r.place)[0])
        for r in evidence.readings
        if r.label and r.label.position and not r.stage.startswith("limit")
    )


def _is_beside(record: Record, lines: frozenset[tuple[str, int]]) -> bool:
    """Whether the empty cell that a result needs stands in a line of other readings."""
    argument = blamed_argument(record)
    place = argument.place if argument is not None and not argument.formula else None
    return place is not None and (place.sheet, spot(place)[0]) in lines


def _is_computed(records: list[Record]) -> bool:
    """Whether the empty cell that records need is a formula's."""
    argument = blamed_argument(records[0])
    return argument is not None and bool(argument.formula)


def _formulas(records: Sequence[Record]) -> dict[Place, str]:
    """The formulas that are known of a book's cells."""
    found = {a.place: a.formula for r in records for a in r.arguments if a.place and a.formula}
    return found | {r.place: r.formula for r in records}


def _behind(
    place: Place, formulas: Mapping[Place, str], waiting: Mapping[Place, list[Record]]
) -> frozenset[Place]:
    """The missing cells that a computed cell waits for, none where it is no such cell."""
    if not _is_computed(waiting[place]):
        return frozenset()
    needs = {r.place: missed for missed, records in waiting.items() for r in records}
    roots: set[Place] = set()
    seen, open_ = {place}, [place]
    while open_:
        at = open_.pop()
        named = [needs[at]] if at in needs else list(places_named(formulas.get(at, ""), at.sheet))
        for missed in named:
            if missed in waiting and missed != place:
                roots.add(missed)
                if not _is_computed(waiting[missed]):
                    continue
            fresh = [cell for cell in cells_of(missed) if cell not in seen]
            seen.update(fresh)
            open_ += fresh
    return frozenset(roots)


def _may_be_zero(record: Record) -> bool:
    parameters = record.function.parameters if record.function else ()
    return any(p.name == record.blamed and p.limits.allow_zero for p in parameters)


def _finding(records: list[Record], later: int, finished: str, *, all_empty: bool) -> Finding:
    """A finding for an empty cell; all_empty: whether all of its item are, and told as one."""
    first = records[0]
    argument = blamed_argument(first)
    place = argument.place if argument and argument.place else first.place
    message = _message(records, argument, place)
    if later:
        message += f" {later} more result{'s wait' if later > 1 else ' waits'} for it."
    if finished:
        message += f" The engine is dated finished ({finished})."
    if _is_computed(records):
        advice = f"Enter what its formula needs: {argument.formula if argument else ''}"
    elif _may_be_zero(first):
        advice = "Measure it and enter it; if zero was measured, type 0."
    else:
        advice = "Measure it and enter it."
    needed = tuple(dict.fromkeys(r.place for r in records if r.place.address))
    sheet, item = _item_of(first)
    return Finding(
        "missing-reading",
        place,
        message,
        advice,
        needed,
        group=("missing", sheet, item) if all_empty else (),
        explains=frozenset({place}),
        rests_on=frozenset({place}),
    )


def _message(records: list[Record], argument: Argument | None, place: Place) -> str:
    """What is empty, and what has no result without it."""
    name = str(argument.label) if argument and argument.label else _words(records[0].blamed)
    needed = ", ".join(call_of(r) for r in records[:4])
    if len(records) > 4:
        needed += f" and {len(records) - 4} more"
    shown = next((r for r in records if isinstance(r.saved, (int, float))), None)
    if argument is not None and ":" in place.address:
        empty = [p.address for p, value in spread(place, argument.value) if value in (None, "")]
        if len(empty) == 1:
            return f"{name} ({empty[0]} of {place.address}) is empty; it is needed by {needed}."
        return f"{name} ({place.address}): {argument.problem}; it is needed by {needed}."
    if shown is not None:
        return (
            f"{name} ({place.address}) is empty, yet {shown.place.address} shows "
            f"{shown.saved:.6g}: the program counted the empty cell as 0. It is needed by {needed}."
        )
    verb = "has" if len(records) == 1 else "have"
    return f"{name} ({place.address}) is empty{MORE}; {needed} {verb} no result without it."


def _words(name: str) -> str:
    return name.replace("_", " ")


def check_nothing_read(evidence: Evidence) -> Iterator[Finding]:
    """A finding for a job of which nothing measured was found: its page must not look clean."""
    book = evidence.book
    named = next((g for g in (book.job.number, book.job.customer, book.job.engine) if g.text), None)
    read = any(r.measurand or r.uses for r in book.readings)
    if named is None or read or book.records or book.stated or book.not_recalculated:
        return
    count = len(book.no_readings)
    none = "no number that measures something stands there"
    found = f"of its numbers ({count}) none is understood" if count else none
    advice = (
        "Enter the readings; if they stand in the book, `workbook-tools survey` says what to do."
    )
    yield Finding(
        "nothing-read", named.place, f"Nothing was read of job {named.text}: {found}.", advice
    )
