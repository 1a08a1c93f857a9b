"""Unreadable: a cell that holds something a call cannot use, or a call that cannot be made."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.places import cells_of
from workbook_tools.findings.evidence import (
    Evidence,
    blamed_argument,
    measurand_taken,
    measurands_of,
    parameter_of,
)
from workbook_tools.findings.finding import Finding, call_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument, Lack, Record
from workbook_tools.labels.content import how_to_settle

# Sizes of which a call says that no engine has them, or that they do not fit their mate.
_SIZES = {
    "bore", "piston_diameter", "journal", "bearing_bore", "housing_bore", "stroke",
    "pin_diameter", "pin_bore", "small_end_bore", "opening_reading", "closing_reading",
}  # fmt: skip
_CHECK = "Check the number, its unit and its decimal point."


def _follows_from_another(record: Record, failed: set[Place]) -> bool:
    """Whether a call failed only because a cell that it refers to failed before it."""
    argument = blamed_argument(record)
    if argument is None or argument.place is None or "the error" not in record.problem:
        return False
    # A formula of the builder's own hands on the error of a call that failed elsewhere.
    handed_on = argument.formula or ":" in argument.place.address
    if handed_on and "#VALUE!" in record.problem and failed - {record.place}:
        return True
    # Nearly always one cell; of a range its own cells are looked up, and not all that failed.
    return argument.place in failed or any(c in failed for c in cells_of(argument.place))


def check_unreadable(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each cell that a call refuses, at that cell, and for troubled formulas."""
    book = evidence.book
    failed = {r.place for r in book.records if r.state == "error" or r.problem}
    refused: dict[tuple[object, str], list[Record]] = {}
    for record in evidence.failures:
        if record.missing or _follows_from_another(record, failed):
            continue
        argument = blamed_argument(record)
        place = argument.place if argument and argument.place else record.place
        if argument is not None and argument.label and record.computed_by_batch:
            # All that one label names are open for one reason.
            about = (place.sheet, argument.label.text), argument.problem
            refused.setdefault(about, []).append(record)
        else:
            refused.setdefault((place, record.problem), []).append(record)
    known = {(r.place.sheet, r.label.text) for r in evidence.readings if r.label and r.measurand
             and r.state in ("read", "asked")}  # fmt: skip
    for records in refused.values():
        if not _is_no_such_line(records, known):
            yield _finding(evidence, records)
    yield from _troubles(evidence)


def _is_no_such_line(records: list[Record], known: set[tuple[str, str]]) -> bool:
    """Whether only the batch takes a line for something, and can read none of its cells as that."""
    first = blamed_argument(records[0])
    if first is None or first.place is None or first.label is None or len(records) < 2:
        return False
    alone = all(record.computed_by_batch for record in records)
    return alone and (first.place.sheet, first.label.text) not in known


def _troubles(evidence: Evidence) -> Iterator[Finding]:
    """What reading the book ran into; what has no result for one cause waits for that."""
    empty: dict[str, list[Place]] = {}
    for record in evidence.failures:
        argument = blamed_argument(record)
        parameter = parameter_of(record, argument) if argument is not None else None
        if record.missing and argument is not None and argument.place and parameter is not None:
            for one in measurands_of(measurand_taken(parameter)):
                empty.setdefault(one.id, []).append(argument.place)
    for trouble in evidence.book.troubles:
        cells: list[Place] = []
        waits = ""
        if isinstance(trouble, Lack):
            # Only where each of what lacks is an empty cell is it told with these.
            nowhere = [empty.get(name, []) for name in trouble.measurands]
            cells = [*trouble.cells, *(p for places in nowhere for p in places[:1])]
            cells = cells if all(nowhere) else []
            waits = trouble.result
        yield Finding(
            "book-trouble",
            trouble.place,
            f"{_sentence(trouble.message)}.",
            f"{_sentence(trouble.advice)}.",
            explains=frozenset(cells),
            rests_on=frozenset(cells),
            waits=waits,
        )


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _finding(evidence: Evidence, records: list[Record]) -> Finding:
    record = records[0]
    argument = blamed_argument(record)
    if not record.blamed and record.state == "as saved":
        # The formula may be as good as any: it is this tool that cannot follow it.
        return Finding(
            "not-recomputed",
            record.place,
            f"{record.name} in {record.place.address} could not be recomputed, and its saved "
            f"value is shown: {record.problem}.",
            "Check it by hand, or name the cells that it takes in the formula itself.",
        )
    if argument is None or argument.place is None:
        return Finding(
            "no-result",
            record.place,
            f"{record.name} in {record.place.address} has no result: {record.problem}.",
            "Correct the formula in the book.",
        )
    name = str(argument.label) if argument.label else argument.name.replace("_", " ")
    given = [blamed_argument(r) for r in records]
    cells = list(dict.fromkeys(a.place for a in given if a and a.place))
    no_size = _is_no_such_size(evidence, records, argument)
    # Of two that do not fit either may be wrong.
    mates = [a.place for a in record.arguments if a.name in _SIZES and a.place] if no_size else []
    others = f" and {len(cells) - 1} more, to {cells[-1].address}" if len(cells) > 1 else ""
    return Finding(
        "does-not-fit" if no_size else "unusable-cell",
        argument.place,
        f"{name} ({argument.place.address}{others}) cannot be used by {_calls(records)}: "
        f"{argument.problem}.",
        _CHECK if record.impossible else how_to_settle(argument.problem),
        (*cells[1:], *(m for m in mates if m not in cells)),
        explains=frozenset(cells),
        # What slip it is may have been told already.
        rests_on=frozenset(cells) if record.impossible or len(cells) == 1 else frozenset(),
    )


def _is_no_such_size(evidence: Evidence, records: list[Record], argument: Argument) -> bool:
    """Whether a plain size is refused as it cannot be one of this engine."""
    number = isinstance(argument.value, (int, float)) and not isinstance(argument.value, bool)
    if not number or argument.place is None or argument.name not in _SIZES:
        return False
    reading = evidence.by_place.get(argument.place)
    is_bare = reading is not None and reading.state == "asked" and not reading.unit
    return (
        not is_bare  # A size without a unit is asked about, and wrong in no way yet.
        and not evidence.is_withdrawn(argument.place)
        and not any(_is_caged(evidence, record) for record in records)
        and not any(_mate_fits_none(evidence, record) for record in records)
    )


# Of so many parts alike, none is wrong where one size fits none of them.
_FEWEST_ALIKE = 3


def _mate_fits_none(evidence: Evidence, record: Record) -> bool:
    """Whether what the batch takes as a size's mate fits none of several, and is another thing."""
    blamed = blamed_argument(record)
    if not record.computed_by_batch or blamed is None:
        return False
    mates = {a.place for a in record.arguments if a.name in _SIZES and a is not blamed}
    same = [
        r
        for r in evidence.book.records
        if r.function is record.function and mates & {a.place for a in r.arguments if a.place}
    ]
    parts = {a.place for r in same for a in r.arguments if a.name == blamed.name}
    return len(parts) >= _FEWEST_ALIKE and all(r.value is None for r in same)


# A pin in a needle cage is smaller than its rod's bore by this share at least.
_CAGED = 0.1


def _is_caged(evidence: Evidence, record: Record) -> bool:
    """Whether a pin is so much smaller than its rod's bore that needles run between them.

    Where another pin of the engine fits its rod, none does.
    """
    if record.function is not None and evidence.calls(record.function.name):
        return False
    sizes = {a.name: a.value for a in record.arguments}
    bore, pin = sizes.get("small_end_bore"), sizes.get("pin_diameter")
    return (
        isinstance(bore, (int, float))
        and isinstance(pin, (int, float))
        and (bore > pin * (1 + _CAGED))
    )


def _calls(records: list[Record]) -> str:
    if not records[0].place.address:
        functions = " and ".join(dict.fromkeys(r.name for r in records))
        return f"the batch for {functions}"
    named = ", ".join(map(call_of, records[:3]))
    return f"{named} and {len(records) - 3} more" if len(records) > 3 else named
