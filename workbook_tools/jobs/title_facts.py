"""Numbers of jobs in short in a title or beside it: "V8 5.7 - Ada Quill - #118"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.books.cells import Sheet
from workbook_tools.jobs.engine_names import is_surely_engine
from workbook_tools.jobs.field_values import SEPARATOR, fitting
from workbook_tools.jobs.said_in_text import At, Said, number_alone, number_within
from workbook_tools.labels.vocabulary import Vocabulary

# So many words a title has at most; more are a note.
MOST_WORDS = 14
# A shop that cuts the number short: "#118", "No. 44/23", "N° 12-3".
_MARKED = re.compile(r"(?:#|№|n[°º]\s?|(?:no|nr|num)\.?\s+)\s?(?P<code>[\w/.-]*\d[\w/.-]*)", re.I)
_BEFORE = re.compile(r"\s*#(?P<code>\d{2,6})\s+(?P<rest>.+)")
# "eng 7 build 3": which engine of a team, and how often it was apart.
_COUNTED_BUILD = re.compile(
    r"(?P<of>[^\W\d_]+)\.?\s+#?\d{1,3}\s+(?P<build>[^\W\d_]+)\.?\s+#?\d{1,3}"
)


def title_numbers(sheet: Sheet, words: Vocabulary) -> Iterator[Said]:
    """The numbers of jobs in titles that name an engine, or beside those: of labels the weakest."""
    rows: dict[int, list[tuple[int, str]]] = {}
    for row, column, text in sheet.texts:
        rows.setdefault(row, []).append((column, text))
    for row, own in rows.items():
        if not any(_is_title(text) for _, text in own):
            continue
        if found := next((one for one in _found_in(own, words) if one), None):
            at: At = (row, found[0][0])
            if len({number for _, number in found}) == 1:
                yield Said("number", found[0][1], at, at, True, 0, True)


_Found = list[tuple[int, str]]


def _found_in(row: _Found, words: Vocabulary) -> Iterator[_Found]:
    """The numbers of a row of titles, each with its column: those that surely are one first."""
    parts = [(c, part) for c, text in row for part in SEPARATOR.split(text)]
    yield [(c, one) for c, text in row if (one := number_within(text, words))]
    marked = [(c, part, one) for c, part in parts if (one := _marked(part, words))]
    # "#1" with a cell of its own counts what stands below it.
    cells = {text for _, text in row}
    yield [(c, one) for c, part, one in marked if len(one) > 1 or part not in cells]
    yield [(c, one) for c, part in parts if (one := _in_words(part, words))]


# The books of a month come from one form: most of their texts are the same.
@lru_cache(maxsize=8192)
def _is_title(text: str) -> bool:
    parts = SEPARATOR.split(text)
    return len(text.split()) <= MOST_WORDS and any(is_surely_engine(part) for part in parts)


def _marked(text: str, words: Vocabulary) -> str:
    """The number of a text that is no more than that, or "#211" before an engine."""
    found = _MARKED.fullmatch(text.strip(" ."))
    if found is None and (found := _BEFORE.match(text)) and not is_surely_engine(found["rest"]):
        return ""
    return fitting("number", found["code"], words) if found else ""


def _in_words(text: str, words: Vocabulary) -> str:
    """The number in a text beside an engine's title, which says in words that it is one."""
    counted = _COUNTED_BUILD.fullmatch(text.strip())
    if counted and words.job.is_rebuilt(counted["build"]):
        engine = any(label.field == "engine" for label in words.job.labels(counted["of"]))
        return text.strip() if engine else ""
    return number_alone(text.strip(), words)
