"""What a book calls its cells: labels beside and above, units, cylinders, and job fields."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator
from functools import lru_cache

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.labels.label import Label
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.words import says_which
from workbook_tools.quantities import SPELLINGS, UnreadableText, even_unit, split_quantity

# How far to look. A label further off than this belongs to something else.
MOST_LEFT = 24
MOST_UP = 60
# Larger numbers number no cylinders.
MOST_COUNTED = 16

_UNIT_IN_BRACKETS = re.compile(r"\s*[(\[]\s*([^()\[\]]{1,12}?)\s*[)\]]\s*:?\s*$")
_UNIT_AFTER_COMMA = re.compile(r",\s*([^,]{1,8})$")
_ORDINAL = re.compile(r"\d+(?:st|nd|rd|th)\b", re.IGNORECASE)
_NO_LABEL = {"", "-", "--", "ok", "low", "high", "x", "n/a", "na", "tbd", "?"}


def known_unit(text: str) -> str:
    """The text as a unit if it is one that can stand in a label or a unit column, else ""."""
    return text.strip() if even_unit(text) in SPELLINGS else ""


@lru_cache(maxsize=4096)
def is_quantity(text: str) -> bool:
    """Whether a text is one number with at most one unit."""
    try:
        split_quantity(text)
    except UnreadableText:
        return False
    return True


def _text_of(cell: Cell | None) -> str | None:
    """A cell's text where it can be a label: typed text that is neither value nor unit."""
    if cell is None or cell.formula or not isinstance(cell.value, str):
        return None
    return _as_label(cell.value)


@lru_cache(maxsize=4096)
def _as_label(content: str) -> str | None:
    text = " ".join(content.split())
    if text.lower().strip(" .:") in _NO_LABEL or known_unit(text):
        return None
    if is_quantity(text) and parse(text) is None and not _ORDINAL.match(text):
        return None
    return text


@lru_cache(maxsize=4096)
def split_unit(text: str) -> tuple[str, str]:
    """A label's name and the unit it carries: "Bore (mm)" is ("Bore", "mm")."""
    for pattern in (_UNIT_IN_BRACKETS, _UNIT_AFTER_COMMA):
        found = pattern.search(text)
        if found and known_unit(found[1]):
            return text[: found.start()].strip(" :"), found[1]
    return text.strip(" :"), ""


def _unit_beside(sheet: Sheet, row: int, column: int) -> str:
    """A unit to the right, in the next cell or behind further values of the row; "" if none."""
    end = _end_of_values(sheet, row, column)
    cell = sheet.cells.get((row, end)) if end - column <= MOST_LEFT else None
    return "" if cell is None else known_unit(str(cell.value))


def _end_of_values(sheet: Sheet, row: int, column: int) -> int:
    """The first column to the right where no value stands, as far as there is need to look."""
    known = sheet.ends.get((row, column), column + 1)
    end = known
    while end - column <= MOST_LEFT:
        cell = sheet.cells.get((row, end))
        if cell is None or not _holds_value(cell):
            break
        end += 1
    if end > known:
        for before in range(column, end):
            sheet.ends[row, before] = end
    return end


def _holds_value(cell: Cell) -> bool:
    """Whether a cell holds a value: a number, a formula, or a text such as "62,3 cc"."""
    return bool(cell.formula) or not isinstance(cell.value, str) or is_quantity(cell.value)


def _left(sheet: Sheet, row: int, column: int) -> tuple[str, int, str] | None:
    """The nearest label to the left, how many values stand between, and the unit behind it."""
    found = _remembered_left(sheet, row, column)
    return None if found is None else (found[1], found[2], found[4])


def _remembered_left(sheet: Sheet, row: int, column: int) -> tuple[int, str, int, int, str] | None:
    if (row, column) not in sheet.lefts:
        sheet.lefts[row, column] = _label_left(sheet, row, column)
    return sheet.lefts[row, column]


def _label_left(sheet: Sheet, row: int, column: int) -> tuple[int, str, int, int, str] | None:
    """(column, text, values between, cells between, unit) of the nearest label to the left.

    What was found for a cell further left holds for this one too, and may lie too far off.
    """
    beside = sheet.cells.get((row, column - 1))
    if beside is not None and isinstance(beside.value, float) and (row, column - 1) in sheet.lefts:
        # One more number of a row, as most cells are.
        near = sheet.lefts[row, column - 1]
        if near is None or near[0] < column - MOST_LEFT:
            return None
        return near[0], near[1], near[2] + 1, near[3] + 1, near[4] if near[3] else ""
    values, cells, unit = 0, 0, ""
    for at in range(column - 1, max(0, column - 1 - MOST_LEFT), -1):
        cell = sheet.cells.get((row, at))
        text = _text_of(cell)
        if text is not None and not _is_remark(sheet, row, at):
            return at, text, values, cells, unit
        if cell is not None:
            # A unit column is no value; one behind a value is that value's own.
            unit = known_unit(cell.value) if isinstance(cell.value, str) else ""
            values += not unit
            cells += 1
        if (row, at) in sheet.lefts:
            found = sheet.lefts[row, at]
            if found is None or found[0] < column - MOST_LEFT:
                return None
            own = found[4] if found[3] else unit
            return found[0], found[1], values + found[2], cells + found[3], own
    return None


def _above(sheet: Sheet, row: int, column: int) -> str | None:
    """The nearest label above."""
    head = _remembered_head(sheet, row, column)
    return None if head is None or head[0] < row - MOST_UP else head[1]


def _remembered_head(sheet: Sheet, row: int, column: int) -> tuple[int, str] | None:
    if (row, column) not in sheet.heads:
        sheet.heads[row, column] = _head(sheet, row, column)
    return sheet.heads[row, column]


def _head(sheet: Sheet, row: int, column: int) -> tuple[int, str] | None:
    """(row, text) of the nearest label above, as far as there is need to look.

    What was found for a cell higher up holds for this one too, and may lie too far off.
    """
    heads = sheet.heads
    for at in range(row - 1, max(0, row - 1 - MOST_UP), -1):
        cell = sheet.cells.get((at, column))
        if (at, column) in heads and cell is not None and _is_a_size(cell):
            return heads[at, column]  # One more number of a column.
        text = _text_of(cell)
        if text is None and cell is not None and _heads_a_column(sheet, cell, at, column):
            return at, _with_row_name(sheet, at, column, f"{cell.value:g}")
        if text is not None and not _is_remark(sheet, at, column):
            if _is_a_value(sheet, at, column):
                return None
            return at, _with_row_name(sheet, at, column, text)
        if (at, column) in heads:
            return heads[at, column]
    return None


def _is_a_size(cell: Cell) -> bool:
    """Whether a cell plainly holds a number that counts nothing."""
    return isinstance(cell.value, float) and (bool(cell.formula) or not cell.value.is_integer())


def _is_a_value(sheet: Sheet, row: int, column: int) -> bool:
    """Whether a text is what a label to its left says ("Customer | Mara Holt"), not a head.

    A head stands over a column that has a sibling: something to its right, or below its
    left neighbor a cylinder's number or a value.
    """
    if _text_of(sheet.cells.get((row, column - 1))) is None:
        return False
    if (row, column + 1) in sheet.cells:
        return False
    below = sheet.cells.get((row + 1, column - 1))
    text = _text_of(below)
    if below is None or text is None:
        return below is None
    return not is_position(text) and not _is_remark(sheet, row + 1, column - 1)


def _is_remark(sheet: Sheet, row: int, column: int) -> bool:
    """Whether a text stands where a table has values ("mic again"), so that it names nothing."""
    text = _text_of(sheet.cells.get((row, column)))
    if text is None or is_position(text):
        return False
    beside = [sheet.cells.get((row + step, column)) for step in (-1, 1)]
    values = sum(cell is not None and _holds_value(cell) for cell in beside)
    if not values:
        return False
    before = sheet.cells.get((row, column - 1))
    if values == 2 and before is not None and _holds_value(before):
        return True
    return _in_numbered_row(sheet, row, column) or _in_numbered_column(sheet, row, column)


def _in_numbered_row(sheet: Sheet, row: int, column: int) -> bool:
    """Whether a cell follows, without a gap, on the number or name of a cylinder or journal."""
    first = column
    while (row, first - 1) in sheet.cells:
        first -= 1
    if first == column:
        return False
    text = _text_of(sheet.cells[row, first])
    if text is not None:
        return _is_one_of_several(text)
    return _numbered_row(sheet, row, column) is not None


def _in_numbered_column(sheet: Sheet, row: int, column: int) -> bool:
    """Whether a cell stands under a head that is a cylinder's or journal's number or side."""
    for at in range(row - 1, max(0, row - 1 - MOST_UP), -1):
        cell = sheet.cells.get((at, column))
        if cell is None:
            continue
        text = _text_of(cell)
        if _heads_a_column(sheet, cell, at, column) or (text and _is_one_of_several(text)):
            return True
    return False


def _is_one_of_several(text: str) -> bool:
    """Whether a text is one cylinder, journal or side ("Main 4", "left"), not the word alone."""
    where = parse(text)
    # "Rod journal, first axis" is measured, and where.
    measured = where is not None and where.of and not (where.number or where.bank)
    return is_position(text) and counts(text) is None and not measured


def _with_row_name(sheet: Sheet, row: int, column: int, text: str) -> str:
    """A bare number in a column head with the word that its row starts with: "Cylinder 3"."""
    if not _is_bare_number(text):
        return text
    near = _left(sheet, row, column)
    if near is None or not counts(near[0]):
        return text
    return f"{_without_sign(near[0])} {text.lstrip('# ')}"


def _is_bare_number(text: str) -> bool:
    return re.fullmatch(r"#?\s*\d{1,2}", text) is not None


def _without_sign(text: str) -> str:
    """A word that counts without the sign of a number behind it: "Cyl" of "Cyl. No."."""
    return re.sub(r"(?:[\s.:#]|\bno\b|\bnr\b)+$", "", text, flags=re.IGNORECASE)


def _heads_a_column(sheet: Sheet, cell: Cell, row: int, column: int) -> bool:
    """Whether a bare small number is a column head: cylinders 1 2 3 4 across, a text before."""
    if cell.formula or not isinstance(cell.value, (int, float)) or isinstance(cell.value, bool):
        return False
    if not 1 <= cell.value <= MOST_COUNTED or cell.value != int(cell.value):
        return False
    steps = steps_beside(sheet, cell.value, row, column)
    counted = [abs(step) in (1, 2) for step in steps]
    # Where the second bank begins the numbers fall back: 1 3 5 7 2 4 6 8.
    falls_back = [step < 0 for step in steps]
    steady = all(c or f for c, f in zip(counted, falls_back, strict=True))
    return any(counted) and steady and _are_unlike(sheet, row, column)


def _are_unlike(sheet: Sheet, row: int, column: int) -> bool:
    """Whether the numbers side by side around a cell differ, as those of one bank do.

    "Tappet (thou) | 2 | 4 | 2 | 4" counts nothing.
    """
    values = [sheet.cells[row, column].value]
    for side in (-1, 1):
        at = column + side
        while (beside := sheet.cells.get((row, at))) and isinstance(beside.value, (int, float)):
            values.append(beside.value)
            at += side
    banks = len(values) - len({*values})
    return not banks or values.count(1) > 1


def steps_beside(sheet: Sheet, number: float, row: int, column: int) -> list[float]:
    """How far the numbers left and right of one are from it, in the direction of reading."""
    steps = []
    for side in (-1, 1):
        beside = sheet.cells.get((row, column + side))
        value = beside.value if beside is not None else None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            steps.append((value - number) * side)
    return steps


@lru_cache(maxsize=4096)
def is_position(text: str) -> bool:
    """Whether a text says which one (cylinder 3, top, front) rather than what."""
    if parse(text) is not None or says_which(text):
        return True
    return counts(text) in ("cylinder", "bearing")


def find_label(sheet: Sheet, row: int, column: int) -> Label | None:
    """What the book calls a cell, None where no text stands near it.

    The nearest text to the left names it. In a table, where other values stand between or
    where that text only numbers a cylinder or a journal, the column's head is added.
    """
    # Asked of each number of a book: what its neighbors found is looked up here, not in a call.
    at, lefts, heads = (row, column), sheet.lefts, sheet.heads
    if at not in lefts:
        lefts[at] = _label_left(sheet, row, column)
    near = lefts[at]
    left = (near[1], near[2], near[4]) if near else _numbered_row(sheet, row, column)
    if at not in heads:
        heads[at] = _head(sheet, row, column)
    head = heads[at]
    above = None if head is None or head[0] < row - MOST_UP else head[1]
    if left is None and above is None:
        return None
    unit = _unit_beside(sheet, row, column)
    if left is None or above is None:
        text, _, behind = left or (above or "", 0, "")
        return _label_by_one(text, unit, behind)
    text, between, behind = left
    in_table = between > 0 or _next_is_value(sheet, row, column)
    return _label_by_both(text, above, unit, behind, between > 0, in_table)


def sources_of(sheet: Sheet, row: int, column: int) -> Iterator[tuple[int, int]]:
    """The cells that the label of a cell comes from, once it was found."""
    near = sheet.lefts.get((row, column))
    if near is not None:
        yield row, near[0]
    # Where no text stands to the left, a number may that has a head of its own.
    for at in (column,) if near else range(max(1, column - MOST_LEFT), column + 1):
        head = sheet.heads.get((row, at))
        if head is not None:
            yield head[0], at
            beside = sheet.lefts.get((head[0], at))
            if beside is not None:
                yield head[0], beside[0]


@lru_cache(maxsize=4096)
def look_of(text: str) -> Hashable:
    """All of a text that says which of those near a cell is its label: it need not be the one."""
    label = _as_label(text)
    number = label is not None and (
        is_position(label), counts(label), _is_one_of_several(label), _is_bare_number(label)
    )  # fmt: skip
    return is_quantity(text), known_unit(text), number


@lru_cache(maxsize=4096)
def _label_by_one(text: str, beside: str, behind: str) -> Label:
    """A label by a lone text; beside, behind: units to the value's right and left."""
    name, own = split_unit(text)
    return Label(name, unit=beside or own or behind)


@lru_cache(maxsize=4096)
def _label_by_both(
    left: str, above: str, beside: str, behind: str, apart: bool, in_table: bool
) -> Label:
    """A label by the texts left and above; apart: values stand between it and the left one."""
    left_name, left_unit = split_unit(left)
    left_unit = left_unit or behind
    above_name, above_unit = split_unit(above)
    above_numbers = is_position(above_name)
    if is_position(left_name) and not above_numbers:
        return Label(above_name, left_name, beside or above_unit)
    if not apart and not (above_numbers and in_table):
        # A lone value beside its name; what stands further up belongs to something else.
        return Label(left_name, unit=beside or left_unit)
    return Label(left_name, above_name, beside or left_unit or above_unit)


def _numbered_row(sheet: Sheet, row: int, column: int) -> tuple[str, int, str] | None:
    """The row's number where its first cell numbers cylinders or journals: "Cyl 2"."""
    filled = [c for c in range(max(1, column - MOST_LEFT), column) if (row, c) in sheet.cells]
    if not filled:
        return None
    first = min(filled)
    cell = sheet.cells[row, first]
    if cell.formula or not isinstance(cell.value, (int, float)) or isinstance(cell.value, bool):
        return None
    head = _above(sheet, row, first)
    if head is None or not is_position(head) or not 1 <= cell.value <= MOST_COUNTED:
        return None
    return f"{_without_sign(head)} {cell.value:g}", len(filled) - 1, ""


def _next_is_value(sheet: Sheet, row: int, column: int) -> bool:
    """Whether the next cell to the right holds a value too."""
    cell = sheet.cells.get((row, column + 1))
    return cell is not None and _holds_value(cell)
