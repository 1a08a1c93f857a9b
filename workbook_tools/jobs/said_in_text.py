"""What a text says of a job where labels stand within it: "Job: 1042", "in 3/4, out 3/20"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.books.cells import Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.engine_names import engine_told, is_surely_engine
from workbook_tools.jobs.field_values import (
    DATES,
    SEPARATOR,
    engine_alone,
    fitting,
    is_engine,
    is_name,
    leading_number,
)
from workbook_tools.jobs.paper_records import JobField
from workbook_tools.jobs.sure_names import is_called, with_owner
from workbook_tools.labels.dates import leading_date
from workbook_tools.labels.job_labels import OTHER, JobLabel
from workbook_tools.labels.vocabulary import Vocabulary
from workbook_tools.measurands.tokens import phrase

At = tuple[int, int]


class Said(NamedTuple):
    """One field of a job as a sheet says it once.

    label: the cell of its label; at: that of the text; sure: whether the label means nothing
    else; rank: how likely among the words of its field; beside: whether the text stands right
    of the label, or with it in one cell; languages: of the label.
    """

    name: str
    text: str
    label: At
    at: At
    sure: bool
    rank: int
    beside: bool
    languages: frozenset[str] = frozenset()

    def field(self, sheet: Sheet) -> JobField:
        """The field with the place that it was read from."""
        return JobField(self.text, Place.at(sheet.title, *self.at))


# Where a label can begin in a text: at its start, behind a separator, before a colon, or between
# two numbers ("in 3/4/25 out 3/20/25").
_START = re.compile(
    rf"^\s*|(?:{SEPARATOR.pattern})|\s+(?=[^\s:]+(?:\s[^\s:]+)?:)"
    r"|(?<=\d)\.?\s+(?=[^\W\d_]+ [^\s]*\d)"
)
_BEHIND = re.compile(r"\s*[:=]\s*|\.?\s+")
_PIECE = re.compile(
    r"[^\W\d_][\w.'’/&#°º-]*(?:\s(?:[nN][°ºo]\.?(?!\w)|[^\W\d_][\w.'’/&-]*|[#№])){0,3}"
)
_MOST_LETTERS = 300


class _Start(NamedTuple):
    """A label within a text: where it begins, where its value does, and how they are parted."""

    begin: int
    end: int
    labels: tuple[JobLabel, ...]
    colon: bool


def said_in_text(text: str, at: At, vocabulary: Vocabulary, *, in_head: bool) -> Iterator[Said]:
    """The fields that a text with labels in it gives, and what stands unlabeled behind a number.

    in_head: whether it stands where the head of a job can be.
    """
    if len(text) > _MOST_LETTERS:
        return
    starts = _starts(text, vocabulary)
    ends = [*(start.begin for start in starts), len(text)][1:]
    if in_head:
        yield from _signed(
            [(s, text[s.begin : e]) for s, e in zip(starts, ends, strict=True)], at, vocabulary
        )
    for start, end in zip(starts, ends, strict=True):
        given = _trimmed(text[start.end : end])
        for label in start.labels:
            if label.field == OTHER:
                continue
            # "RO 2288 / Marchbank / V-twin": several in one cell leave no doubt of the first.
            several = start.begin == 0 and label.field == "number" and _fields(given) > 1
            sure = in_head and (label.sure or several)
            yield from _of_label(given, label, at, vocabulary, colon=start.colon, in_head=sure)
            break


# Who did it behind the day that it was done: "tore down 6/10/2024 (Chet)", "in 3/4/24 by Al".
_BY = r"(?:by|von|durch|par|por|da)"
_BEHIND_A_DAY = re.compile(
    rf"\s*\((?P<bracketed>[^()\d]+)\)|[,.]?\s+{_BY}\s+(?P<named>[^\d,]+)|[,.]?\s+(?P<short>[A-Z]{{2,3}})"
)
_ENDS_WITH_BY = re.compile(rf".*\b{_BY}\W*", re.IGNORECASE | re.DOTALL)
_MOST_WORDS_OF_NAMES = 3
# What comes of a text that only looks like a field is the last to be one.
BY_THE_WAY = 1001


def _signed(pieces: Sequence[tuple[_Start, str]], at: At, vocabulary: Vocabulary) -> Iterator[Said]:
    """Who did a work that a text tells in short: "assembled TW", "tore down 6/10/2024 (Chet)".

    pieces: each label within the text with what is said from there on.
    """
    names = {name for start, piece in pieces if (name := _signature(start, piece))}
    if len(names) == 1 and is_called(name := names.pop(), vocabulary):
        yield Said("builder", name, at, at, True, BY_THE_WAY, True)


def _signature(start: _Start, piece: str) -> str:
    """What stands in one piece of a text where a name can stand."""
    if start.colon:
        return ""
    fields = {label.field for label in start.labels}
    label, given = piece[: start.end - start.begin], piece[start.end - start.begin :]
    day = leading_date(given) if fields & {*DATES} else ""
    if day:
        found = _BEHIND_A_DAY.fullmatch(" ".join(given.split())[len(day) :].rstrip(" ."))
        return next((one.strip() for one in found.groups() if one), "") if found else ""
    done = "builder" in fields and (DATES[1] in fields or _ENDS_WITH_BY.fullmatch(label))
    return given.strip() if done and len(given.split()) <= _MOST_WORDS_OF_NAMES else ""


def _fields(text: str) -> int:
    """How many texts stand behind a job's number in one cell with it."""
    rest = leading_number(text)[1]
    return sum(bool(_trimmed(part)) for part in SEPARATOR.split(rest)) if rest else 0


@lru_cache(maxsize=16384)
def _starts(text: str, vocabulary: Vocabulary) -> tuple[_Start, ...]:
    """The labels within a text, in order."""
    starts: list[_Start] = []
    taken = 0
    for found in _START.finditer(text):
        if found.end() < taken:
            continue
        start = _label_at(text, found.end(), vocabulary)
        if start is not None:
            taken = start.end
            starts.append(start._replace(begin=found.start()))
    return tuple(starts)


def _label_at(text: str, begin: int, vocabulary: Vocabulary) -> _Start | None:
    """The longest label that a text has at one place, with what follows it."""
    piece = _PIECE.match(text, begin)
    words = piece[0] if piece else ""
    padded = f"{text} "
    while words:
        end = begin + len(words)
        mark = _BEHIND.match(padded, end)
        colon = mark is not None and (":" in mark[0] or "=" in mark[0])
        labels = vocabulary.job.labels(f"{words}:" if colon else words)
        labels = labels or _of_part(words, vocabulary)
        if mark and labels:
            return _Start(begin, min(mark.end(), len(text)), labels, colon)
        words = words.rpartition(" ")[0]
    return None


# How likely a part's day is that of its job: of all the last.
_OF_PART = 500


def _of_part(words: str, vocabulary: Vocabulary) -> tuple[JobLabel, ...]:
    """The day that a part came, which is the first of a job that is of no more: "crank landed"."""
    part, _, verb = words.partition(" ")
    if not verb or not any(one.field == "engine" for one in vocabulary.job.labels(part)):
        return ()
    told = vocabulary.job.labels(verb)
    came = {one.field for one in told} == {DATES[0]} and len(verb) > _LONGEST_PREPOSITION
    return (told[0]._replace(sure=False, rank=_OF_PART),) if came else ()


# "Head in" stands over sizes too.
_LONGEST_PREPOSITION = 3


def _trimmed(text: str) -> str:
    return text.strip(" \t\n|/·;,–—-•")


def _name_alone(given: str, vocabulary: Vocabulary) -> str:
    """Whose it is behind a label without a sign: up to the next label, "" of a sentence.

    "customer Hugo Fane engine 500 single", "owner says 40k miles".
    """
    own = given.split()
    labels = [at for at, word in enumerate(own) if at and word.islower()]
    end = next((at for at in labels if vocabulary.job.field(own[at])), len(own))
    return "" if given[:1].islower() else " ".join(own[:end])


_IS = re.compile(r"is\s+(?=[A-Z])")


def _of_label(
    given: str, label: JobLabel, at: At, vocabulary: Vocabulary, *, colon: bool, in_head: bool
) -> Iterator[Said]:
    """What a label in a text says, and what stands unlabeled behind a job's number."""
    name, rest = label.field, ""
    if name == "number":
        number, rest = leading_number(given)
        given = number if colon or in_head else ""
    elif name == "engine" and is_surely_engine(given) and (colon or (in_head and label.sure)):
        yield from _of_engine(given, label, at, vocabulary, colon=colon)
        return
    elif name not in DATES and not colon and (not in_head or name == "engine"):
        return
    if name == "customer" and not colon:
        given = _name_alone(_IS.sub("", given), vocabulary)
    text = fitting(name, given, vocabulary, sure=label.sure)
    if not text:
        return
    yield Said(name, text, at, at, label.sure, label.rank, True, label.languages)
    if name == "number" and rest:
        yield from _unlabeled(rest, at, vocabulary)


def _of_engine(
    given: str, label: JobLabel, at: At, vocabulary: Vocabulary, *, colon: bool
) -> Iterator[Said]:
    """An engine behind its label in a text, and whose it is where that stands behind it."""
    engine, owner = with_owner(given, vocabulary)
    if owner or not colon:
        engine = engine_told(engine, vocabulary)
    text = fitting("engine", engine, vocabulary, sure=label.sure)
    if text:
        yield Said("engine", text, at, at, label.sure, label.rank, True, label.languages)
    if owner:
        yield Said("customer", owner, at, at, True, BY_THE_WAY, True)


def _unlabeled(rest: str, at: At, vocabulary: Vocabulary) -> Iterator[Said]:
    """Customer and engine of a title behind the job's number: "1042 / flat four / Miller"."""
    parts = [part for part in (_trimmed(p) for p in SEPARATOR.split(rest)) if part]
    engines = [engine_alone(part) for part in parts if is_engine(part)]
    names = [part for part in parts if not is_engine(part) and is_name(part, vocabulary)]
    if len(parts) > 2:
        return
    for name, told in (("customer", names), ("engine", engines)):
        if len(told) == 1:
            yield Said(name, told[0], at, at, True, 99, True)


def number_alone(text: str, vocabulary: Vocabulary) -> str:
    """The number of a text that is no more than that: "fiche 77", "No. 44/23"."""
    start = _label_at(text, 0, vocabulary)
    if start is None or start.labels[0].field != "number":
        return ""
    if not vocabulary.job.counted.isdisjoint(phrase(text[: start.end])):
        return ""  # "Page 12"
    code, rest = leading_number(text[start.end :])
    return "" if rest.strip(" .") or len(code) < _FEWEST_SIGNS else code


# A number of one sign counts rebuilds, cylinders or pages.
_FEWEST_SIGNS = 2


# "See job 88", "same as job 88"
_OF_ANOTHER = re.compile(r"\b(?:see|as|like|siehe|wie|voir|comme|ver|como|vedi|come)\W+$", re.I)


def number_within(text: str, vocabulary: Vocabulary) -> str:
    """The job's number that a title brings with it: "Bearing clearances for job 25-140"."""
    for word in re.finditer(r"(?<!\w)[^\W\d_]", text):
        if _OF_ANOTHER.search(text[: word.start()]):
            continue
        start = _label_at(text, word.start(), vocabulary)
        if start is not None and start.labels[0].sure and start.labels[0].field == "number":
            code = re.match(r"#?(?=[\w/-]*\d)[\w/-]{2,20}(?![\w.,])", text[start.end :])
            if code:
                return code[0].strip("#")
    return ""
