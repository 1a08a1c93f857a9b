"""A batch: read every book that is named, check it, write its summary, go on."""

from __future__ import annotations

import logging
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, ExitStack, contextmanager
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock

from workbook_tools.batch.build import (
    PLAIN_KINDS,
    Build,
    Result,
    Task,
    Wanted,
    prepare,
    refused,
    work,
)
from workbook_tools.batch.build_file import BuildFile
from workbook_tools.batch.cache import (
    NotKept,
    digest,
    forget_old,
    keep,
    key_for_batch,
    key_for_book,
    make_own,
    recall,
)
from workbook_tools.batch.earlier import EarlierCopies
from workbook_tools.batch.last_books import LastBooks
from workbook_tools.batch.output import HEADS, INDEX, write_outputs
from workbook_tools.batch.output_folder import taken_over
from workbook_tools.batch.workers import Run, staff
from workbook_tools.book_files import UnfitFile
from workbook_tools.books.files import cannot_open
from workbook_tools.books.folder import Found, find_books
from workbook_tools.books.own_output import without_own_output
from workbook_tools.catalog import tables
from workbook_tools.findings.copied import Block, check_blocks
from workbook_tools.findings.copies import check_copies
from workbook_tools.findings.finding import Finding
from workbook_tools.labels.layout import Layout, layouts_of
from workbook_tools.render.html import Unreadable
from workbook_tools.settings.shop import Shop

_log = logging.getLogger(__name__)


class NoBooks(Exception):
    """Nothing to read where books were expected; the message says what was looked for."""


@dataclass(frozen=True)
class Outcome:
    """What a batch came to: how many books and findings, what was not read, where it lies.

    taken_over: what to say of output of the first release, "" where there was none.
    """

    read: int
    findings: int
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]
    index: Path
    taken_over: str = ""

    @property
    def sentence(self) -> str:
        """The outcome in a line or two, for the end of a command."""
        books = "1 build" if self.read == 1 else f"{self.read} builds"
        found = {0: "no findings", 1: "1 finding"}.get(self.findings, f"{self.findings} findings")
        lost = f", {len(self.unread)} not read" if self.unread else ""
        return f"{books} summarized, {found}{lost}.\nOpen {self.index}"


@dataclass(frozen=True)
class ReadBuilds:
    """The brief builds of a batch, in the order of their files.

    paths: the file of each build; whole: gives a build with all that it was read for, by its
    number; unread: files that could not be read as books and folders that could not be
    searched, with the reason; left_aside: lock files, and own output.
    """

    builds: Sequence[Build]
    paths: tuple[Path, ...]
    whole: Callable[[int], Build]
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]


def named_books(named: Sequence[Path]) -> Found:
    """The books in the files and folders named. Raises NoBooks where there is none."""
    try:
        found = find_books(named)
    except FileNotFoundError as missing:
        raise NoBooks(f"There is no file or folder {missing}.") from None
    found = without_own_output(found)
    if not found.books and not found.unread:
        aside = "".join(f" Skipped {path}: {why}." for path, why in found.left_aside)
        raise NoBooks(no_books(named) + aside)
    return found


def no_books(named: Sequence[Path]) -> str:
    """What to say where files and folders that are named hold no books."""
    where = ", ".join(str(path) for path in named)
    return f"No books in {where}: looked for .xlsx, .xlsm and .ods files."


@contextmanager
def read_builds(
    named: Sequence[Path],
    wanted: Wanted,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    *,
    stand_ins: Mapping[Path, Path] | None = None,
    jobs: int = 0,
    cluster: str = "",
    cache: Path | None = None,
    earlier: EarlierCopies | None = None,
) -> Iterator[ReadBuilds]:
    """Read every book in the files and folders named, each job of it, and check it.

    wanted: its layout, where it has one, holds for all books, else that beside each. each:
    hands the books on one by one, and may show progress; stand_ins: recalculated copies to
    read in place of books, which are told of by their own name and content. jobs: processes
    that do the work, within limits of time and memory for each book; 0 does it in this one,
    without limits. cluster: the address of a Dask scheduler that does it instead. cache: where
    results are kept for the next run, None to keep none. earlier: the copies given out before,
    None where nothing is told of them. A book that cannot be read is listed
    with its reason and never stops the others. Raises NoBooks where there is nothing to read,
    LayoutError for a layout beside the books that cannot be followed, TableError for bands of
    the shop's own that cannot be used, TemplateError for a
    template of the shop's own that does not work, ClusterError for a cluster that does not
    answer.
    """
    found = named_books(named)
    tables.current()  # Each book would be refused for a fault of the shop's own bands.
    layouts = {} if wanted.layout else layouts_of(found.books, named)
    with ExitStack() as stack:
        with _staff(jobs, cluster, wanted) as run:
            batch = _Batch(
                found.books, layouts, stand_ins or {}, wanted, cache, run, stack, earlier
            )
            with each_done(each, found.books) as done:
                batch.read(done)
            batch.read_together()
        # Nobody waits with the memory of a book while pages are written.
        batch.run = partial(_by_others, jobs, cluster, wanted)
        at = batch.builds.places
        yield ReadBuilds(
            builds=batch.builds.at(at),
            paths=tuple(found.books[n] for n, _ in at),
            whole=lambda number: batch.whole(*at[number]),
            unread=found.unread
            + tuple((found.books[n], why) for n, why in sorted(batch.refused.items())),
            left_aside=found.left_aside,
        )
    if batch.cache is not None:
        forget_old(batch.cache)


def _staff(jobs: int, cluster: str, wanted: Wanted) -> AbstractContextManager[Run[Task, Result]]:
    """Who does the work: the cluster whose scheduler is named, or this machine."""
    if cluster:
        from workbook_tools.batch.cluster import on_cluster

        return on_cluster(cluster, wanted)
    return staff(jobs, partial(work, wanted=wanted, last=LastBooks()), refused, prepare)


def _by_others(
    jobs: int, cluster: str, wanted: Wanted, tasks: Iterable[Task]
) -> Iterator[tuple[int, Result]]:
    """The work done by those who are called for it alone."""
    with _staff(jobs, cluster, wanted) as run:
        yield from run(tasks)


def summarize_books(
    named: Sequence[Path],
    folder: Path,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    *,
    layout: Layout | None = None,
    shop: Shop | None = None,
    kinds: Sequence[str] = PLAIN_KINDS,
    stand_ins: Mapping[Path, Path] | None = None,
    jobs: int = 0,
    cluster: str = "",
    cache: Path | None = None,
) -> Outcome:
    """Summarize every book in the files and folders named.

    folder: where the pages, data and tables go; made where it is missing. layout: the shop's
    own, for books that do not say everything; shop: who hands the summaries over; kinds: of
    files for each build; all else, and what is raised, as for `read_builds`. A released record
    of which the folder holds a copy gets a revision where its book was changed. However the
    work is done, and however often it was begun anew, the files are the same. Raises also
    OutputError where a file that is not ours would be replaced.
    """
    wanted = Wanted(layout, shop or Shop(), tuple(kinds))
    with read_builds(
        named,
        wanted,
        each,
        stand_ins=stand_ins,
        jobs=jobs,
        cluster=cluster,
        cache=cache,
        earlier=EarlierCopies(folder),
    ) as batch:
        unreadable = [Unreadable(path.name, why) for path, why in batch.unread]
        first = taken_over(folder, HEADS)
        write_outputs(folder, batch.builds, unreadable, wanted.shop, batch.whole, wanted.kinds)
    return Outcome(
        read=len(batch.builds),
        findings=sum(len(build.findings) for build in batch.builds),
        unread=batch.unread,
        left_aside=batch.left_aside,
        index=folder / INDEX,
        taken_over=first,
    )


@contextmanager
def each_done(
    each: Callable[[Sequence[Path]], Iterable[Path]], books: Sequence[Path]
) -> Iterator[Callable[[], object]]:
    """What to call after each book, from whatever thread, so that progress shows."""
    handed = iter(each(books))
    one_at_a_time = Lock()
    next(handed, None)

    def done() -> None:
        with one_at_a_time:
            next(handed, None)

    yield done


# Bytes of finished files that wait in memory to be written; more are laid aside on disk.
_MOST_IN_MEMORY = 32_000_000


class _Batch:
    """Books on their way to builds; of each its rows to compare stay in memory until all are read.

    builds: the brief ones by the number of the file; refused: the reason, of files that gave
    none. cache: where results lie for the next run, None for nowhere; stack: takes away at the
    end what is laid aside for this run.
    """

    def __init__(
        self,
        books: Sequence[Path],
        layouts: Mapping[Path, Layout],
        copies: Mapping[Path, Path],
        wanted: Wanted,
        cache: Path | None,
        run: Run[Task, Result],
        stack: ExitStack,
        earlier: EarlierCopies | None,
    ) -> None:
        self.books = books
        self.layouts = layouts
        self.copies = copies
        # Within one run the program and what is wanted of it are the same for all.
        self.batch_key = key_for_batch(wanted) if cache is not None else ""
        self.cache = cache
        self.run = run
        self.stack = stack
        self.earlier = earlier
        self._names = Counter(book.name for book in books)
        self.builds = BuildFile()
        self._blocks: dict[int, list[tuple[Block, ...]]] = {}
        self.refused: dict[int, str] = {}
        self._keys: dict[int, str] = {}
        self._together: dict[int, Mapping[int, tuple[Finding, ...]]] = {}
        self._whole: dict[int, tuple[Build, ...]] = {}
        self._room = _MOST_IN_MEMORY
        self._aside: Path | None = None
        self._keeping = cache is not None
        if cache is not None:
            try:
                make_own(cache)
            except NotKept as reason:
                self.cache = None
                self._keep_nothing(reason)

    def _keep_nothing(self, reason: Exception) -> None:
        self._keeping = False
        _log.warning("Nothing is kept for the next run: %s", reason)

    def read(self, done: Callable[[], object]) -> None:
        """Read every book, or recall what it gave before; done is called after each."""
        self._work(((n, self._task(n)) for n in range(len(self.books))), done)

    def read_together(self) -> None:
        """Compare the books with one another, and read those anew that this tells about."""
        at = self.builds.places
        flat = self.builds.at(at)
        together: dict[int, dict[int, tuple[Finding, ...]]] = {}
        copied = check_blocks(flat, [self._blocks[n][i] for n, i in at])
        copies = check_copies(flat)
        for one in sorted({*copied, *copies}):
            n, i = at[one]
            together.setdefault(n, {})[i] = (*copied.get(one, ()), *copies.get(one, ()))
        self._together.update(together)
        # Nobody asks for the rows again: of many books they take much room.
        self._blocks.clear()
        self._work(((n, self._task(n)) for n in sorted(together)), lambda: None)

    def whole(self, n: int, i: int) -> Build:
        """A build with its files."""
        builds = self._whole.get(n) or self._recalled(n, whole=True)
        if builds is None:
            # Someone cleared the folder meanwhile.
            self._work([(n, self._task(n))], lambda: None)
            builds = self._whole.get(n) or self._recalled(n, whole=True)
        if builds is None:
            reason = self.refused.get(n, "what it gave is gone")
            raise OSError(f"{self.books[n]}: {reason}; run again")
        return builds[i]

    def _recalled(self, n: int, *, whole: bool) -> tuple[Build, ...] | None:
        for folder in (self.cache, self._aside):
            found = recall(folder, self._keys[n], whole=whole) if folder else None
            if found is not None:
                return found
        return None

    def _lay_aside(self, n: int, builds: tuple[Build, ...]) -> None:
        """Put whole builds where they wait to be written."""
        self._room += sum(build.size for build in self._whole.pop(n, ()))
        size = sum(build.size for build in builds)
        if size <= self._room:
            self._whole[n] = builds
            self._room -= size
        if self.cache is not None and self._keeping:
            try:
                keep(self.cache, self._keys[n], builds)
            except OSError as error:
                self._keep_nothing(error)
        if not self._keeping and n not in self._whole:
            if self._aside is None:
                self._aside = Path(self.stack.enter_context(TemporaryDirectory()))
            keep(self._aside, self._keys[n], builds)

    def _keep_brief(self, n: int, builds: Sequence[Build]) -> None:
        self._blocks[n] = [build.blocks for build in builds]
        self.builds.put(n, [replace(build, blocks=()) for build in builds])

    def _task(self, n: int) -> Task | None:
        """What there is to do for a file, None where it cannot be opened."""
        path = self.books[n]
        try:
            own = digest(path)
        except (OSError, UnfitFile) as error:
            self._refuse(n, str(cannot_open(error)))
            return None
        return Task(
            path,
            own,
            self.layouts.get(path),
            self.copies.get(path),
            together=self._together.get(n, {}),
            earlier=self._earlier_copies(path.name, own),
        )

    def _earlier_copies(self, name: str, sha256: str) -> Mapping[str, str]:
        if self.earlier is None:
            return {}
        return self.earlier.of(name, sha256, alone=self._names[name] == 1)

    def _refuse(self, n: int, reason: str) -> None:
        self.builds.take_out(n)
        self.refused[n] = reason

    def _take(self, n: int, task: Task, result: Result) -> None:
        """Take the result of a task: lay its builds aside, or note why there are none."""
        if result.refused:
            self._refuse(n, result.refused)
            return
        # The book may have been saved since the task was made: what counts is what was read.
        read = result.builds[0].sha256
        before = self.builds.of(n)
        if before and before[0].sha256 != read:
            self._refuse(n, "the file was saved while the batch ran; run again")
            return
        self._keys[n] = key_for_book(self.batch_key, replace(task, sha256=read))
        self._lay_aside(n, result.builds)
        self._keep_brief(n, [build.brief for build in result.builds])

    def _work(self, tasks: Iterable[tuple[int, Task | None]], done: Callable[[], object]) -> None:
        numbers: list[int] = []
        at_work: dict[int, Task] = {}

        def missing() -> Iterator[Task]:
            for n, task in tasks:
                if task is None:
                    done()
                    continue
                self._keys[n] = key_for_book(self.batch_key, task)
                found = self._recalled(n, whole=False)
                if found is not None:
                    self._keep_brief(n, found)
                    done()
                    continue
                at_work[len(numbers)] = task
                numbers.append(n)
                yield task

        for at, result in self.run(missing()):
            self._take(numbers[at], at_work.pop(at), result)
            done()
