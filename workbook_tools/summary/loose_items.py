"""Numbers of a book that no call of ours takes or gives, each as an item."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.book_limits import ranges_as_limits
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Reading, StatedResult
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Stage, find
from workbook_tools.measurands.words import read_label
from workbook_tools.quantities import READING
from workbook_tools.summary.cells import reading_order
from workbook_tools.summary.figures import measure
from workbook_tools.summary.item import Item
from workbook_tools.summary.items import reading_items, sheet_order

# What the words of a label do not say of sizes that are not the finished ones.
_STAGES = {"found": "as found", "target": "wanted"}
LOOSE = "In the book, in no formula of ours"


def loose_items(book: Book) -> tuple[Item, ...]:
    """Readings that no call takes, and what the builder's own formulas give.

    Limits are bands, and what is not understood is told by the coverage. Raises nothing.
    """
    told = {record.place for record in book.records} | {i.place for i in reading_items(book)}
    found = [*_readings(book, told), *_stated(book, told)]
    sheets = sheet_order(book)
    return tuple(sorted(found, key=lambda i: reading_order(i.place, sheets)))


def _readings(book: Book, told: set[Place]) -> Iterator[Item]:
    told = told | {r.place for r in ranges_as_limits(book)}
    for reading in book.readings:
        known = reading.measurand and reading.state in ("read", "refused")
        if known and reading.place not in told and not reading.stage.startswith("limit"):
            yield _item(reading, reading.state)._replace(
                text="" if reading.state == "read" else str(reading.raw),
                value=reading.value if reading.state == "read" else None,
                note=reading.reason,
            )


def _stated(book: Book, told: set[Place]) -> Iterator[Item]:
    for stated in book.stated:
        if stated.place not in told and not stated.stage.startswith("limit"):
            yield _item(stated, "as saved")


def _item(sized: Reading | StatedResult, state: str) -> Item:
    term = find(sized.measurand)
    label = sized.label or Label(term.name if term else sized.measurand)
    return Item(
        section=LOOSE,
        label=_with_stage(label.text, sized.stage),
        position=label.position or (sized.part.short if sized.part.which else ""),
        function="",
        parameter=sized.measurand,
        of=measure(sized.kind or READING, sized.unit, label, sized.system),
        place=sized.place,
        state=state,
        value=sized.value,
        help=term.sign if term else "",
        measurand=sized.measurand,
        stage=sized.stage,
        part=sized.part,
    )


def _with_stage(text: str, stage: Stage) -> str:
    """A label with its stage, where its own words do not say it."""
    said = _STAGES.get(stage, "")
    return f"{text}, {said}" if said and not read_label(text).stage else text
