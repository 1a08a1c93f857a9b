"""Engine and customer in the title of a sheet: "Flat four 1700 rebuild for Ada Quill"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import SEPARATOR, engine_alone, is_engine, is_name
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.said_fields import TITLE_ROWS
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of
from workbook_tools.labels.which import which_of
from workbook_tools.measurands.tokens import phrase

_MOST_WORDS = 14
# A size of a part, which no engine is called by: "4.030", "72,51".
_YEAR = re.compile(r"(?:19|20)\d\d")
# Where a clause of a title ends: "single. One line per rebuild", "105 M (6 cyl)".
_CLAUSE = re.compile(r"(?<=[^\W\d_]{3})\.\s+(?=[^\W\d_]{2})|\s*[()]\s*")
# How many cylinders, which names no engine: "7 cyl", "6-cylinder".
_ONLY_CYLINDERS = re.compile(r"\d{1,2}[\s-]?(?:cyl|zyl|cil)\w*\.?", re.IGNORECASE)
_MEASURED = re.compile(r"\d[.,]\d{2}|(?<!\d)[.,]\d")


def with_title(book: OpenBook, job: Job, words: Vocabulary) -> Job:
    """The job with the engine and the customer of a title, where no label gives one of them.

    An engine has a number in its name; whose it is stands behind a word such as "for".
    """
    job = _with_names(book, job, words)
    if job.engine.text or job.engine.place:
        return job
    for sheet in book.sheets:
        for at, text in _titles(sheet, words):
            engine, customer = _named(text, words)
            if not engine:
                continue
            place = Place.at(sheet.title, *at)
            job = replace(job, engine=JobField(engine, place))
            if customer and not job.customer.text and not job.customer.place:
                job = replace(job, customer=JobField(customer, place))
            return job
    return job


# Two that run an engine together: "Ada & Len Quill", before what they run it in.
_TOGETHER = re.compile(
    r"(?P<names>[^\W\d_]+ (?:&|and|und|et|e|y) [^\W\d_]+ [^\W\d_]+)\s+[-–—]\s+(?P<rest>.+)"
)
_NAMES_TOGETHER = 3
# So many fields on a sheet make its title one of a job.
_FEWEST_FIELDS = 2
# What a shop is called by.
_FIRM = re.compile(
    r"\b(?:sons?|bro(?:ther)?s|racing|performance|motorsports?|engineering|garage|partners?|ltd|llc|inc|co"
    r"|gmbh|söhne|sohn|fils|figli|hijos|srl|sarl|team)\b",
    re.IGNORECASE,
)


def _with_names(book: OpenBook, job: Job, words: Vocabulary) -> Job:
    """The job with the two names that its title begins with, where no label gives a customer.

    Only beside other fields of a job: a shop's own name stands alone, or before what it does.
    """
    fields = [job.engine, job.builder, job.started, job.finished]
    if (
        job.customer.text
        or job.customer.place
        or sum(bool(one.text) for one in fields) < _FEWEST_FIELDS
    ):
        return job
    for sheet in book.sheets:
        for at, text in _titles(sheet, words):
            found = _TOGETHER.fullmatch(text.strip())
            if found and _are_names(found["names"], words) and _is_no_firm(text, words):
                return replace(job, customer=JobField(found["names"], Place.at(sheet.title, *at)))
    return job


def _are_names(text: str, words: Vocabulary) -> bool:
    """Whether two given names and that of a family are no words of the trade."""
    own = [word for word in text.split() if word[0].isupper()]
    if len(own) != _NAMES_TOGETHER or not is_name(text, words):
        return False
    meant = [meaning_of(word).candidates for word in own]
    if any(meant[:-1]) or any(which_of(word) for word in own[:-1]):
        return False  # "Front & Rear Bank"
    # A family may be called as another language begins a word of the trade.
    return not any(candidate.cost <= 1 for candidate in meant[-1])


def _is_no_firm(text: str, words: Vocabulary) -> bool:
    return not _FIRM.search(text) and not words.job.is_title(text)


def _titles(sheet: Sheet, words: Vocabulary) -> Iterator[tuple[tuple[int, int], str]]:
    """The texts that stand alone in the first rows of a sheet, or before labels of a job."""
    texts = {(row, column): text for row, column, text in sheet.texts if row <= TITLE_ROWS}
    filled = Counter(row for row, _ in sheet.cells)
    rows: set[int] = set()
    for (row, column), text in texts.items():
        behind = [c for r, c in texts if r == row and c > column]
        labeled = bool(behind) and bool(words.job.labels(texts[row, min(behind)]))
        first = row not in rows
        rows.add(row)
        # "Motor 35, 3 cyl | Ada Quill | 12 Nov"
        alone = filled[row] == 1 or (row == 1 and not _holds_numbers(sheet, row))
        if (alone or (first and labeled)) and first and len(text.split()) <= _MOST_WORDS:
            yield (row, column), text


def _holds_numbers(sheet: Sheet, row: int) -> bool:
    """Whether a row has numbers or formulas in it."""
    cells = [cell for (r, _), cell in sheet.cells.items() if r == row]
    return any(cell.formula or isinstance(cell.value, (int, float)) for cell in cells)


def _named(text: str, words: Vocabulary) -> tuple[str, str]:
    """The engine and the customer of a title, "" for what it does not name."""
    if _MEASURED.search(text):
        return "", ""
    before, customer = _parted(text, words)
    parts = [one for part in SEPARATOR.split(before) for one in _CLAUSE.split(part)]
    counted = any(_ONLY_CYLINDERS.match(part) for part in parts)
    engines = [e for part in parts if (e := _engine(part, words, counted=counted))]
    # "Motor 7 - Flat four 1700": the seventh of them, and what all of them are.
    kinds = [e for e in engines if not (len(e.split()) == 2 and _is_called(e.split(), words))]
    engines = kinds or engines
    if len(engines) != 1:
        return "", ""
    # "Motor 35, 3 cyl": a name that says so little has its cylinders with it.
    more = [part for part in parts if _ONLY_CYLINDERS.fullmatch(part)] if not kinds else []
    return ", ".join([*engines, *more]), customer


def _parted(text: str, words: Vocabulary) -> tuple[str, str]:
    """A title before a small word that says whose an engine is, and the name behind that word."""
    parts = text.split()
    for at in range(1, len(parts) - 1):
        name = " ".join(parts[at + 1 :])
        whose = any(one.field == "customer" for one in words.job.labels(parts[at]))
        if whose and parts[at].islower() and is_name(name, words):
            return " ".join(parts[:at]), name
    return text, ""


def _engine(part: str, words: Vocabulary, *, counted: bool) -> str:
    """The engine that a part of a title names without the words of titles around it.

    counted: whether another part says how many cylinders it has.
    """
    own = part.strip(" :!.").split()
    while own and _is_of_titles(own[-1], words):
        own.pop()
    of_title = 0
    while own and _begins_title(own, of_title, words):
        own.pop(0)
        of_title += 1
    if len(own) > 2 and _YEAR.fullmatch(own[-1]):
        own.pop()
    name = engine_alone(" ".join(own))
    own = name.split()
    labeled = own and words.job.labels(own[0]) and not _is_called(own, words)
    if _ONLY_CYLINDERS.match(name) or (counted and labeled):
        return ""  # "Job 4471, 6 cyl"
    named = len(own) > 1 and any(map(str.isdigit, name)) and (counted or is_engine(name))
    rest = " ".join(own[_is_called(own, words) :])
    unsaid = named and not words.job.is_title(rest) and words.match(name) is None
    return name if unsaid else ""


# "Rebuild of the flat four 1700"
_OF_TITLE = (
    *("of", "the", "a", "an", "our", "der", "die", "das", "des", "vom", "de", "du", "la", "le"),
    *("l", "del", "della", "el", "il", "lo", "di"),
)


def _begins_title(own: list[str], of_title: int, words: Vocabulary) -> bool:
    """Whether the first word of a name is of the title before it, of which so many were."""
    if of_title and own[0] in _OF_TITLE:
        return True
    return _is_of_titles(own[0], words) and not _is_called(own, words)


def _is_called(own: list[str], words: Vocabulary) -> bool:
    """Whether a name begins with the word for an engine and its number: "Motor 250 R2"."""
    return (
        len(own) > 1
        and own[1][0].isdigit()
        and not _YEAR.fullmatch(own[1])
        and words.job.field(own[0]) == "engine"
    )


def _is_of_titles(word: str, words: Vocabulary) -> bool:
    return not phrase(word) or words.job.is_title(word)
