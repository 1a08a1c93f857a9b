"""The titles of a block, and the block with what stands over the rows of it that were reached."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import VALUES
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.head import Head
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.titles import (
    MOST_WORDS_OF_A_TITLE,
    before_units,
    first_clause,
    is_of_units,
    leads_with_a_name,
    names_one_thing,
    without_limit_behind,
)
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.labels.written_limits import limit_in

# What a sentence tells that is no title: "skimmed, now at 0.02".
_ENDS_WITH_A_SIZE = re.compile(r"[^\W\d_]{2,}\s+\d*[.,]\d{2,}$")
# What counts the parts of a form, before their titles.
_LETTER_OF_A_PART = re.compile(r"(?:[A-Z]|[IVX]{1,4}|\d{1,2}(?=[.)]))[.)]?")
# So many side by side are a row of their own.
_FEWEST_BESIDE = 3
# A text with more than one tells what others are called for: "IN 0.20, EX 0.25".
_SIZE = re.compile(r"(?<![\d.,])\d*[.,]\d{2,}\b")
# "Guide wear by rocking. Ex only"
_ONE_SIDE = re.compile(r"\b([^\W\d_]{2,8})\.? only\b", re.IGNORECASE)


@dataclass(frozen=True, eq=False)
class ReachedBlock:
    """A block with what stands over the rows of it that were reached.

    rows: all of its rows; above: heads of a table above it; titles: over the rows reached, the
    nearest first; side: the intake or exhaust that a title names; head: over the rows reached,
    None where they stand below none; card: which one their labels are of; known: the heads found
    so far, by where they begin.
    """

    cells: SheetText
    block: Block
    rows: Sequence[int]
    above: Head | None = None
    titles: Sequence[str] = ()
    side: str = ""
    head: Head | None = None
    card: Which = NOTHING
    known: dict[int, Head | None] = field(default_factory=dict)


def is_of_job(reached: ReachedBlock, row: int) -> bool:
    """Whether the texts of a row are fields of the job with their values: "Customer: Smith"."""
    texts = [reached.cells.text(row, c) for c in reached.block.rows[row]]
    named = [text.partition(":") for text in texts]
    told = [field for field, colon, value in named if colon and value.strip()]
    filled = len(told) > 1 and len(told) >= len(texts) - 1
    return filled and any(map(reached.cells.vocabulary.job_field, told))


def is_title(reached: ReachedBlock, row: int) -> bool:
    """Whether a row holds one text alone that stands over what is below it."""
    if title_behind_letter(reached, row):
        return True
    columns = reached.block.rows[row]
    dated = _is_behind_a_date(reached, row)
    columns = columns[1:] if dated else columns
    if len(columns) == 2 and _says_no_head(reached, row, columns[1]):
        columns = columns[:1]
    if len(columns) != 1 or reached.cells.kinds[row, columns[0]] not in ("text", "remark"):
        return False
    text = reached.cells.text(row, columns[0])
    if not text or _ENDS_WITH_A_SIZE.search(without_limit_behind(text)):
        return False
    # A text alone under values, and not where the names of rows stand, is a remark.
    first = dated or row == reached.rows[0]
    return (
        first
        or columns[0] == reached.block.left
        or (row - 1, columns[0]) not in reached.cells.kinds
    )


def _is_behind_a_date(reached: ReachedBlock, row: int) -> bool:
    """Whether a row holds a date and a text: "3 Feb | Mic'd the cylinders"."""
    kinds = [reached.cells.kinds[row, c] for c in reached.block.rows[row]]
    return kinds in (["date", "text"], ["date", "remark"])


def _says_no_head(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a text beside a title heads nothing: a remark, a limit, or nothing below it."""
    said = reached.cells.text(row, column)
    if _is_remark(reached, row, column) or limit_in(said).limit:
        return True
    if reached.cells.kinds[row, column] == "text" and len(_SIZE.findall(said)) > 1:
        return True
    below = [r for r in reached.rows if r > row]
    text = reached.cells.kinds[row, column] in ("text", "remark")
    return text and bool(below) and not any((r, column) in reached.cells.kinds for r in below)


def title_behind_letter(reached: ReachedBlock, row: int) -> str:
    """The title of a part of a form behind the letter that counts it: "B | PISTONS"."""
    columns = reached.block.rows[row]
    if len(columns) != 2 or columns[0] != reached.block.left:
        return ""
    letter, title = (reached.cells.text(row, c) for c in columns)
    is_text = reached.cells.kinds[row, columns[1]] == "text"
    counted = _LETTER_OF_A_PART.fullmatch(letter) and is_text and which_of(title) is None
    below = reached.cells.text(row + 1, columns[0])
    of_rows = _LETTER_OF_A_PART.fullmatch(below) and measures(reached, title)
    return title if counted and not of_rows else ""


def _is_remark(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a cell holds a sentence, with nothing below it that it could head."""
    words = reached.cells.text(row, column).split()
    is_text = reached.cells.kinds[row, column] in ("text", "remark")
    below = reached.cells.kinds.get((row + 1, column))
    heads = below in (*VALUES, "unit") or which_of(reached.cells.text(row + 1, column)) is not None
    return is_text and len(words) > _FEWEST_BESIDE and not heads


def with_title(reached: ReachedBlock, row: int) -> ReachedBlock:
    """A block with a row taken for the title of what stands below it."""
    letter = title_behind_letter(reached, row)
    first = reached.block.rows[row][1 if _is_behind_a_date(reached, row) else 0]
    text = letter or reached.cells.text(row, first)
    of_units = is_of_units(text) or is_unit(text.strip("[]()"))  # "[mm]" below heads.
    if of_units and (name := before_units(text)):
        text, of_units = name, False
    limited = without_limit_behind(text)
    of_a_limit = limited != text and len(limited.split()) <= MOST_WORDS_OF_A_TITLE
    kind = reached.cells.kinds[row, first]
    long = row == reached.rows[0] and (names_one_thing(text) or leads_with_a_name(text))
    if not (of_a_limit or kind == "text" or long) or of_units:
        return reached
    said = which_of(text)
    if said is not None and said.side:
        return replace(reached, side=said.side)
    only = _ONE_SIDE.search(text)
    side = which_of(only[1]) if only else None
    titles = (first_clause(text), *_titles_kept(reached, said))[:2]
    return replace(reached, titles=titles, side=side.side if side else "")


def _titles_kept(reached: ReachedBlock, said: Which | None) -> Sequence[str]:
    """The titles so far, without one that says when, where the next one says it again."""
    before = which_of(reached.titles[0]) if reached.titles else None
    again = said is not None and said.stage and before is not None and before.stage
    return reached.titles[1:] if again else reached.titles


def is_title_of_rows(reached: ReachedBlock, row: int) -> bool:
    """Whether a text alone says what the rows below it measure, and heads nothing."""
    columns = reached.block.rows[row]
    return columns == (reached.block.left,) and measures(
        reached, reached.cells.text(row, columns[0])
    )


def measures(reached: ReachedBlock, text: str) -> bool:
    """Whether a text below the titles of a block can name something measured."""
    return bool(meaning_of(text, tuple(reached.titles)).candidates)
