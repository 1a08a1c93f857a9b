"""Numbers of jobs in short in a title or beside it: "V8 5.7 - Ada Quill - #118"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.books.cells import Sheet
from workbook_tools.jobs.engine_names import is_surely_engine
from workbook_tools.jobs.field_values import SEPARATOR, fitting
from workbook_tools.jobs.said_in_text import At, Said, number_within
from workbook_tools.labels.vocabulary import Vocabulary

# So many words a title has at most; more are a note.
MOST_WORDS = 14
# A shop that cuts the number short: "#118", "No. 44/23", "N° 12-3".
_MARKED = re.compile(r"(?:#|№|n[°º]\s?|(?:no|nr|num)\.?\s+)\s?(?P<code>[\w/.-]*\d[\w/.-]*)", re.I)
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
        column, title = own[0]
        if not _is_title(title):
            continue
        found = [
            (column, one) for part in SEPARATOR.split(title)[1:] if (one := _marked(part, words))
        ]
        found += [(c, one) for c, text in own if (one := number_within(text, words))]
        found += [(c, one) for c, text in own[1:] if (one := _number(text, words))]
        if len(found) == 1:
            at: At = (row, found[0][0])
            yield Said("number", found[0][1], at, at, True, 0, True)


def _is_title(text: str) -> bool:
    parts = SEPARATOR.split(text)
    return len(text.split()) <= MOST_WORDS and any(is_surely_engine(part) for part in parts)


def _marked(text: str, words: Vocabulary) -> str:
    found = _MARKED.fullmatch(text.strip(" ."))
    return fitting("number", found["code"], words) if found else ""


def _number(text: str, words: Vocabulary) -> str:
    """The number of a cell beside an engine's title, which says in short that it is one."""
    if marked := _marked(text, words):
        return marked if len(marked) > 1 else ""
    counted = _COUNTED_BUILD.fullmatch(text.strip())
    if counted and words.job.is_rebuilt(counted["build"]) and words.job.labels(counted["of"]):
        engine = any(label.field == "engine" for label in words.job.labels(counted["of"]))
        return text.strip() if engine else ""
    return ""
