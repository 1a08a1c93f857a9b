"""Engine and customer in the title of a sheet: "Flat four 1700 rebuild for Ada Quill"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.engine_names import (
    ends_with_kind,
    engine_told,
    has_kind,
    is_no_engine,
    is_surely_engine,
    without_kind,
)
from workbook_tools.jobs.field_values import SEPARATOR, is_engine, is_name
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.said_fields import TITLE_ROWS
from workbook_tools.jobs.sure_names import is_surely_name, known_words, with_owner
from workbook_tools.jobs.title_facts import MOST_WORDS
from workbook_tools.labels.job_labels import OTHER
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.tokens import phrase

# A size of a part, which no engine is called by: "4.030", "72,51".
_YEAR = re.compile(r"(?:19|20)\d\d")
# Where a clause of a title ends: "single. One line per rebuild", "105 M (6 cyl)".
_CLAUSE = re.compile(
    r"(?<=[^\W\d_]{3})(?<!cyl)(?<!zyl)(?<!cil)(?<!fam)(?<!sig)(?<!mrs)(?<!sra)\.\s+(?=[^\W\d_]{2})"
    r"|\s*[()]\s*",
    re.IGNORECASE,
)
# How many cylinders, which names no engine: "7 cyl", "6-cylinder".
_ONLY_CYLINDERS = re.compile(r"\d{1,2}[\s-]?(?:cyl|zyl|cil)\w*\.?", re.IGNORECASE)
_MEASURED = re.compile(r"\d[.,]\d{2}|(?<!\d)[.,]\d")


def with_title(book: OpenBook, job: Job, words: Vocabulary) -> Job:
    """The job with the engine and the customer of a title, where no label gives one of them.

    An engine has a number in its name; whose it is stands behind a word such as "for". A title
    that names another engine than a label does says nothing of that one's owner.
    """
    job = _with_names(book, job, words)
    if _is_given(job.engine) and _is_given(job.customer):
        return job
    for sheet in book.sheets:
        known = known_words(book.file_name.rpartition(".")[0], sheet.title)
        for at, text in _titles(sheet, words):
            place = Place.at(sheet.title, *at)
            engine, customer = _named(text, words, known)
            if not engine or (_is_given(job.engine) and job.engine.place != place):
                continue
            if not customer:
                at, customer = _name_beside(sheet, at, words, known)
            if not _is_given(job.engine):
                job = replace(job, engine=JobField(engine, place))
            if customer and not _is_given(job.customer):
                job = replace(job, customer=JobField(customer, Place.at(sheet.title, *at)))
            return job
    return job


def _is_given(field: JobField) -> bool:
    return bool(field.text or field.place)


def _name_beside(
    sheet: Sheet, title: tuple[int, int], words: Vocabulary, known: frozenset[str]
) -> tuple[tuple[int, int], str]:
    """The one name in the row of a title that no label has before it, and where it stands."""
    row = [(column, text) for r, column, text in sheet.texts if r == title[0]]
    before = [(0, ""), *row]
    names = [
        ((title[0], column), text)
        for (_, label), (column, text) in zip(before, row, strict=False)
        if not words.job.labels(label) and is_surely_name(text, words, known)
    ]
    return names[0] if len(names) == 1 else (title, "")


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


_ROWS_OVER = 2


def _titles(sheet: Sheet, words: Vocabulary) -> Iterator[tuple[tuple[int, int], str]]:
    """The texts that stand alone in the first rows of a sheet, or before labels of a job."""
    first_row = min((row for row, _ in sheet.cells), default=1)
    last = first_row + TITLE_ROWS
    texts = {(row, column): text for row, column, text in sheet.texts if row < last}
    filled = Counter(row for row, _ in sheet.cells)
    rows: set[int] = set()
    for (row, column), text in texts.items():
        behind = [c for r, c in texts if r == row and c > column]
        labeled = bool(behind) and bool(words.job.labels(texts[row, min(behind)]))
        first = row not in rows
        rows.add(row)
        # "Motor 35, 3 cyl | Ada Quill | 12 Nov"
        alone = filled[row] == 1 or (row == first_row and not _holds_numbers(sheet, row))
        leads = first and (alone or labeled) and _is_short(text)
        # The name of a shop, or what the sheet is, may stand over it.
        if leads or (row <= first_row + _ROWS_OVER and _tells(sheet, row, column, words)):
            yield (row, column), text


def _is_short(text: str) -> bool:
    """Whether a text is no longer than a title; of several things the first is an engine."""
    parts = SEPARATOR.split(text)
    length = len(text.split())
    return length <= MOST_WORDS or (length <= 2 * MOST_WORDS and is_surely_engine(parts[0]))


def _tells(sheet: Sheet, row: int, column: int, words: Vocabulary) -> bool:
    """Whether a text within a row without numbers is an engine, and no value of another label."""
    before = sheet.cells.get((row, column - 1))
    labeled = before is not None and bool(words.job.labels(str(before.value)))
    text = str(sheet.cells[row, column].value)
    return not labeled and not _holds_numbers(sheet, row) and is_surely_engine(text)


def _holds_numbers(sheet: Sheet, row: int) -> bool:
    """Whether a row has numbers or formulas in it."""
    cells = sheet.rows.get(row, {}).values()
    return any(cell.formula or isinstance(cell.value, (int, float)) for cell in cells)


def _named(text: str, words: Vocabulary, known: frozenset[str]) -> tuple[str, str]:
    """The engine and the customer of a title, "" for what it does not name.

    known: words that the file or the sheet is named by, as after whose engine it is.
    """
    before, customer = _parted(text, words)
    pieces = [with_owner(part, words) for part in SEPARATOR.split(before)]
    customer = customer or next((owner for _, owner in pieces if owner), "")
    parts = [one for part, _ in pieces for one in _CLAUSE.split(part)]
    counted = any(_ONLY_CYLINDERS.match(part) and not _says_more(part) for part in parts)
    engines = [e for part in parts if (e := _engine(part, words, counted=counted))]
    # "Motor 7 - Flat four 1700": the seventh of them, and what all of them are.
    kinds = [e for e in engines if not (len(e.split()) == 2 and _is_called(e.split(), words))]
    engines = kinds or engines
    if len(engines) != 1:
        return "", ""
    # "Motor 35, 3 cyl": a name that says so little has its cylinders with it.
    more = [part for part in parts if _ONLY_CYLINDERS.fullmatch(part)] if not kinds else []
    if not customer and is_surely_engine(engines[0]):
        told = dict.fromkeys([*(_without_for(part, words) for part, _ in pieces), *parts])
        names = [part.strip(" .") for part in told if is_surely_name(part, words, known)]
        customer = names[0] if len(names) == 1 else ""
    return ", ".join([*engines, *more]), customer


def _without_for(part: str, words: Vocabulary) -> str:
    """A part of a title without the small word that says whose the engine is: "for Mrs Quill"."""
    word, _, name = part.strip().partition(" ")
    whose = any(one.field == "customer" for one in words.job.labels(word))
    return name if whose and word.islower() else part


def _says_more(part: str) -> bool:
    """Whether a part tells more of an engine than its cylinders: "3 cyl tractor diesel 2.6"."""
    return has_kind(_ONLY_CYLINDERS.sub(" ", part)) or is_surely_engine(part)


_OF_WHOM = re.compile(r"(?:is|of|de|di|del|von|vom)\s+")


def _parted(text: str, words: Vocabulary) -> tuple[str, str]:
    """A title before a small word that says whose an engine is, and the name behind that word."""
    parts = text.split()
    for at in range(1, len(parts) - 1):
        name = " ".join(parts[at + 1 :])
        whose = any(one.field == "customer" for one in words.job.labels(parts[at]))
        if whose and parts[at].islower() and is_name(name, words):
            name = _OF_WHOM.sub("", name)
            return " ".join(parts[:at]), name
    return text, ""


# "#211 Boxer 1600"
_NUMBERED = re.compile(r"^\s*#\d{2,6}\s+")


def _engine(part: str, words: Vocabulary, *, counted: bool) -> str:
    """The engine that a part of a title names without the words of titles around it.

    counted: whether another part says how many cylinders it has.
    """
    own = _NUMBERED.sub("", part).strip(" :!.").split()
    while own and _is_of_titles(own[-1], words) and not ends_with_kind(" ".join(own)):
        own.pop()
    of_title = 0
    while own and _begins_title(own, of_title, words):
        own.pop(0)
        of_title += 1
    if len(own) > 2 and _YEAR.fullmatch(own[-1]):
        own.pop()
    name = engine_told(" ".join(own), words)
    if _MEASURED.search(name) or is_no_engine(name, words):
        return ""
    own = name.split()
    labels = words.job.labels(own[0]) if own and not _is_called(own, words) else ()
    numbered = any(one.field in ("number", OTHER) for one in labels) and not has_kind(name)
    if (_ONLY_CYLINDERS.match(name) and not _says_more(name)) or numbered or (counted and labels):
        return ""  # "Job 4471, 6 cyl"
    named = len(own) > 1 and any(map(str.isdigit, name)) and (counted or is_engine(name))
    rest = " ".join(own[_is_called(own, words) :])
    unsaid = named and not words.job.is_title(without_kind(rest)) and words.match(name) is None
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
