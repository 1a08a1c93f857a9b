"""What the office needs of a book: promises, parts to order, fasteners."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.books.cells import OpenBook, Sheet, is_typed_text
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import cell_text
from workbook_tools.jobs.list_words import ListWord, is_word, office_field, says_nothing
from workbook_tools.jobs.open_items import hours_booked, open_items
from workbook_tools.jobs.paper_records import Fastener, JobField, Office, PartLine
from workbook_tools.measurands.tokens import phrase

# How far a table goes on below its head, and to the right of its first column.
_MOST_ROWS = 200
_MOST_COLUMNS = 20
_LISTS: tuple[ListWord, ...] = ("order_list", "part", "fasteners")
# A fastener's name longer than this is a sentence.
_LONGEST_NAME = 60


def read_office(book: OpenBook) -> Office:
    """What a book says for the office; whatever it does not say is left empty."""
    fields: dict[str, JobField] = {}
    parts: list[PartLine] = []
    fasteners: list[Fastener] = []
    lists = 0
    for sheet in book.sheets:
        for row, column, content in sheet.texts:
            if len(content) > 200 or not _tells(content):
                continue
            text, colon, rest = " ".join(content.split()).partition(":")
            words = text.strip(" .")
            _note_field(fields, sheet, row, column, words, rest)
            if is_word(words, "order_list") and not is_typed_text(sheet, row, column - 1):
                lists += 1
                parts += _listed(sheet, row, column, rest if colon else "")
            elif is_word(words, "part"):
                heads = _heads(sheet, row, column)
                if any(_is_short(h) or is_word(h, "ordered") for h in heads.values()):
                    lists += 1
                    parts += _short(sheet, row, column, heads)
            elif is_word(words, "fasteners"):
                fasteners += _fasteners(sheet, row, column)
    return Office(
        **fields,
        parts=tuple(parts),
        part_lists=lists,
        fasteners=tuple(fasteners),
        open_items=tuple(open_items(book)),
        hours=hours_booked(book),
    )


# The books of a month have the same labels.
@lru_cache(maxsize=4096)
def _tells(content: str) -> bool:
    """Whether a text names something of the office, or heads a list."""
    words = " ".join(content.split()).partition(":")[0].strip(" .")
    return bool(office_field(words)) or any(is_word(words, name) for name in _LISTS)


def _note_field(
    fields: dict[str, JobField], sheet: Sheet, row: int, column: int, words: str, rest: str
) -> None:
    name = office_field(words)
    if not name or name in fields:
        return
    if words.lower() == "why" and "gasket" not in sheet.title.lower():
        return
    if rest.strip():
        fields[name] = JobField(rest.strip(), Place.at(sheet.title, row, column))
        return
    for at in range(column + 1, column + 5):
        said = cell_text(sheet.cells.get((row, at)))
        if said and not says_nothing(said, "all_there") and _can_be(name, said):
            fields[name] = JobField(said, Place.at(sheet.title, row, at))
            return


def _can_be(name: str, said: str) -> bool:
    """Whether a text can be what a label asks for: a lone number under Oil is a reading."""
    return name in ("promised", "firing_order", "revision", "revised") or any(
        c.isalpha() for c in said
    )


def _heads(sheet: Sheet, row: int, column: int) -> dict[int, str]:
    """The texts of a row of heads by column, on both sides of a cell."""
    reach = range(max(1, column - _MOST_COLUMNS), column + _MOST_COLUMNS + 1)
    found = {c: sheet.cells.get((row, c)) for c in reach if c != column}
    return {
        c: " ".join(cell.value.split())
        for c, cell in found.items()
        if cell is not None and isinstance(cell.value, str)
    }


def _listed(sheet: Sheet, row: int, column: int, rest: str) -> Iterator[PartLine]:
    """What a line or a list headed "to order" names: after the colon, beside it, or below it."""
    # Two texts beside it are the heads of further columns.
    heads = is_typed_text(sheet, row, column + 1) and is_typed_text(sheet, row, column + 2)
    beside = rest.strip() or ("" if heads else cell_text(sheet.cells.get((row, column + 1))))
    if beside:
        if not says_nothing(beside, "all_there"):
            place = Place.at(sheet.title, row, column if rest.strip() else column + 1)
            yield PartLine(place, beside, "to order")
        return
    for at in range(row + 1, row + _MOST_ROWS):
        said = cell_text(sheet.cells.get((at, column)))
        if not said:
            return
        if not says_nothing(said, "all_there"):
            more = cell_text(sheet.cells.get((at, column + 1)))
            yield PartLine(Place.at(sheet.title, at, column), said, more or "to order")


def _is_short(head: str) -> bool:
    """Whether a column says what is short: "Short, damaged" too."""
    return is_word(head, "short") or phrase(head)[:1] == ("short",)


def _short(sheet: Sheet, row: int, column: int, heads: dict[int, str]) -> Iterator[PartLine]:
    """The parts of a table that it says are short, to order, or ordered and not received."""
    short = [c for c, head in heads.items() if _is_short(head)]
    ordered = [c for c, head in heads.items() if is_word(head, "ordered")]
    received = [c for c, head in heads.items() if is_word(head, "received")]
    for at in range(row + 1, row + _MOST_ROWS):
        part = cell_text(sheet.cells.get((at, column)))
        if not part:
            if not any((at, c) in sheet.cells for c in heads):
                return
            continue
        for c in short:
            said = cell_text(sheet.cells.get((at, c)))
            if not says_nothing(said, "all_there"):
                yield PartLine(Place.at(sheet.title, at, c), part, f"{heads[c].lower()}: {said}")
        for c in ordered:
            said = cell_text(sheet.cells.get((at, c)))
            arrived = any(cell_text(sheet.cells.get((at, r))) for r in received)
            if not says_nothing(said, "all_there") and received and not arrived:
                yield PartLine(Place.at(sheet.title, at, c), part, f"ordered {said}, not received")


def _fasteners(sheet: Sheet, row: int, column: int) -> Iterator[Fastener]:
    """The rows of a table of fasteners, each with what the columns to its right say."""
    heads = {c: head for c, head in _heads(sheet, row, column).items() if c > column}
    if len(heads) < 2:
        return
    for at in range(row + 1, row + _MOST_ROWS):
        name = cell_text(sheet.cells.get((at, column)))
        if not name or len(name) > _LONGEST_NAME:
            return
        said = tuple((head, cell_text(sheet.cells.get((at, c)))) for c, head in heads.items())
        yield Fastener(
            Place.at(sheet.title, at, column), name, tuple(pair for pair in said if pair[1])
        )
