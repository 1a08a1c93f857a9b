"""A layout to start from: the answers to what a survey could not settle, as lines to put right."""

from __future__ import annotations

import glob
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from workbook_tools.jobs.questions import line_of_answer, text_of
from workbook_tools.jobs.records import Question
from workbook_tools.labels.candidates import Unknown
from workbook_tools.labels.vocabulary import plain, without_unit

HEAD = """\
## How your books are laid out, as far as that could be told. A line with ## explains; one with a
## single # is a guess: put it right and take the # away, as many of them as you can answer. What is
## not answered stays open, and what is not asked here is read from the books' own labels. Save the
## file as layout.toml in the folder of the books. All names that may stand behind "is":
## workbook-tools survey --names
"""


@dataclass(frozen=True)
class OpenEnds:
    """What is open in one book: its file's name, its questions, the labels that it leaves."""

    file: str
    questions: tuple[Question, ...]
    unknown: tuple[Unknown, ...]


def layout_of(books: Sequence[OpenEnds]) -> str:
    """A layout.toml to start from, valid however its lines are freed of their #.

    What a label means is asked once, and holds for all books; what only one book can answer
    stands in a table for its file.
    """
    shared = _shared(books)
    lines = [HEAD]
    if shared:
        lines += ["answers = [", *shared, "]", ""]
    for files, questions in _by_file(books):
        lines += ["[[book]]", f"files = [{', '.join(map(text_of, files))}]"]
        lines += _table(questions, "")
        answers = [line for q in questions if q.table == "answers" for line in _asked(q, "  ")]
        if answers:
            lines += ["answers = [", *dict.fromkeys(answers), "]"]
        job = _table(questions, "job")
        if job:
            lines += ["[book.job]", *job]
        lines.append("")
    return "\n".join(lines)


def is_of_one_book(question: Question) -> bool:
    """Whether a question can only be answered for one book: about its cells, units or job."""
    return question.table != "answers" or question.kind in ("size", "twice")


def _shared(books: Iterable[OpenEnds]) -> list[str]:
    """The lines of the list that holds for all books: each about other numbers."""
    asked: dict[str, list[str]] = {}
    unknown: dict[str, str] = {}
    for book in books:
        for question in book.questions:
            if not is_of_one_book(question):
                asked.setdefault(question.answer.partition(" is = ")[0], _asked(question, "  "))
        for label in (u.text for u in book.unknown):
            if plain(without_unit(label)):
                unknown.setdefault(plain(label), label)
    lines = [line for two in asked.values() for line in two]
    if unknown:
        lines.append("  ## Labels that are not known. Say what they are, where that matters:")
    for label in unknown.values():
        lines.append(f"  # {line_of_answer(label=label, **{'is': 'no reading'})}")
    return lines


def _by_file(books: Iterable[OpenEnds]) -> Iterable[tuple[list[str], list[Question]]]:
    """Files with the same questions of their own, in one table: no file stands in two."""
    alike: dict[tuple[Question, ...], list[str]] = defaultdict(list)
    for book in books:
        own = tuple(q for q in book.questions if is_of_one_book(q))
        # Cells of two books are two questions, their units are one.
        bare = (q if q.kind in ("size", "twice") else q._replace(places=(), costs=()) for q in own)
        if own:
            alike[tuple(dict.fromkeys(bare))].append(glob.escape(book.file))
    for questions, files in alike.items():
        yield list(dict.fromkeys(files)), list(questions)


def _table(questions: Iterable[Question], table: str) -> list[str]:
    found: dict[str, list[str]] = {}
    for question in questions:
        if question.table == table:
            # A key may stand in a table once.
            found.setdefault(question.answer.partition(" = ")[0], _asked(question, ""))
    return [line for lines in found.values() for line in lines]


def _asked(question: Question, indent: str) -> list[str]:
    instead = f" {question.instead[:1].upper()}{question.instead[1:]}." if question.instead else ""
    end = "" if question.text.endswith("?") else "."
    return [f"{indent}## {question.text}{end}{instead}", f"{indent}# {question.answer}"]
