"""A survey of books as data: what each build's file of data would hold, without results."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from workbook_tools.batch.batch import each_done, named_books
from workbook_tools.batch.lost import TOO_LARGE, unforeseen
from workbook_tools.batch.workers import staff
from workbook_tools.books.cells import BookError
from workbook_tools.catalog import tables
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.layout import Layout, layouts_of
from workbook_tools.measurands.lexicon import senses
from workbook_tools.summary.summary import summarize


@dataclass(frozen=True)
class SurveyData:
    """The builds as data, in the order of their files, each without results.

    unread: files that could not be read, with the reason; left_aside: lock files, own output.
    """

    builds: tuple[dict[str, Any], ...]
    unread: tuple[tuple[Path, str], ...] = ()
    left_aside: tuple[tuple[Path, str], ...] = ()


# A book, its layout, and the copy to read in its place.
_Asked = tuple[Path, Layout | None, Path | None]
# The builds of a file, or why there are none.
_Answer = tuple[tuple[dict[str, Any], ...], str]


def survey_data(
    named: Sequence[Path],
    layout: Layout | None = None,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    *,
    stand_ins: Mapping[Path, Path] | None = None,
    jobs: int = 0,
) -> SurveyData:
    """The data of every build in the files and folders named; nothing is written.

    The arguments, and what is raised, are those of `survey`.
    """
    found = named_books(named)
    tables.current()
    beside = {} if layout else layouts_of(found.books, named)
    copies = stand_ins or {}
    tasks = [(path, layout or beside.get(path), copies.get(path)) for path in found.books]
    answers: dict[int, _Answer] = {}
    with each_done(each, found.books) as done, staff(jobs, _surveyed, _lost, senses) as run:
        for n, answer in run(tasks):
            answers[n] = answer
            done()
    lost = tuple((path, answers[n][1]) for n, path in enumerate(found.books) if answers[n][1])
    builds = tuple(build for n in sorted(answers) for build in answers[n][0])
    return SurveyData(builds, found.unread + lost, found.left_aside)


def _surveyed(asked: _Asked) -> _Answer:
    try:
        path, layout, copy = asked
        books = read_jobs(copy or path, layout, path.name)
        return tuple({**summarize(b, check(b)).data, "results": []} for b in books), ""
    except BookError as error:
        return (), str(error)
    except MemoryError:
        return (), TOO_LARGE
    except Exception as error:
        # Whatever a strange book brings out, it must not cost the others.
        return (), unforeseen(error, "it could not be surveyed")


def _lost(_: _Asked, reason: str) -> _Answer:
    return (), reason
