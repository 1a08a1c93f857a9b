"""Sentences in the margin: a column of remarks beside tables, which name nothing in their rows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.labels.cell_kinds import At, CellKind
from workbook_tools.labels.content import is_unit

_OF_TEXTS = ("text", "remark", "measured")
# So many sentences with sizes make a margin; labels hold none.
_FEWEST_SENTENCES = 2
# "rods 45 ft lb w/ cotters": a word, and a size with a point or a unit.
_SIZE = re.compile(r"(?P<size>\d*[.,]\d+|\d+)\s*(?P<unit>[^\W\d_]+(?:[ .\-·]?[^\W\d_]+)?)?")
_WORD = re.compile(r"[^\W\d_]{2,}")
_FEWEST_WORDS, _FEWEST_DIGITS = 2, 2


def notes_in_margin(texts: Mapping[At, str], kinds: Mapping[At, CellKind]) -> frozenset[At]:
    """The cells of columns that hold texts only, some of them sizes in sentences, before a gap.

    Behind the gap stand rows that begin with names of their own.
    """
    columns = sorted({column for _, column in kinds})
    with_texts = {column for _, column in texts}
    return frozenset(
        at
        for column in columns
        if column in with_texts
        for rows in _runs(column, texts, kinds)
        for at in _noted(rows, column, columns, texts, kinds)
    )


def _runs(column: int, texts: Mapping[At, str], kinds: Mapping[At, CellKind]) -> list[list[int]]:
    """The rows of a column that hold a text with nothing on either side, up to others."""
    runs: list[list[int]] = [[]]
    near = (column - 1, column, column + 1)
    for row in sorted({row for row, c in kinds if c in near}):
        text = (row, column) in texts and kinds[row, column] in _OF_TEXTS
        if text and not {(row, c) for c in near if c != column} & kinds.keys():
            runs[-1].append(row)
        elif runs[-1]:
            runs.append([])
    return [rows for rows in runs if len(rows) >= _FEWEST_SENTENCES]


def _noted(
    rows: list[int], column: int, columns: Sequence[int], texts: Mapping[At, str],
    kinds: Mapping[At, CellKind],
) -> Iterator[At]:  # fmt: skip
    """The cells of a margin, none where a run of texts is none."""
    if sum(_is_sentence(texts, row, column) for row in rows) < _FEWEST_SENTENCES:
        return
    filled = (c for c in columns if c > column + 1 and any((row, c) in kinds for row in rows))
    after = next(filled, 0)
    beside = [kinds[row, after] for row in rows if (row, after) in kinds]
    if not after or 2 * beside.count("text") < len(beside):
        return
    for row in rows:
        if {(row, after), (row, after + 1)} & kinds.keys() or _is_sentence(texts, row, column):
            yield row, column


def _is_sentence(texts: Mapping[At, str], row: int, column: int) -> bool:
    """Whether a text says a size: with a word more than it takes to name it, or with a unit."""
    text = texts.get((row, column), "")
    sizes = [one for one in _SIZE.finditer(text) if re.search(r"[.,]\d", one["size"]) or _unit(one)]
    return len(sizes) > 0 and len(_WORD.findall(text)) >= _FEWEST_WORDS


def _unit(found: re.Match[str]) -> bool:
    unit = found["unit"] or ""
    if len(found["size"]) < _FEWEST_DIGITS:
        return False  # "chamber 1 cc" says which one.
    return bool(unit) and (is_unit(unit) or is_unit(unit.split(" ")[0]))
