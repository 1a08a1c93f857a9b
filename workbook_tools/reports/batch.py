"""A batch: read every book that is named, check it, write its summary, go on."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock

from workbook_tools.books.cells import BookError
from workbook_tools.books.folder import Found, find_books
from workbook_tools.books.layout import Layout
from workbook_tools.books.opening import cannot_open
from workbook_tools.books.reading import read_jobs
from workbook_tools.books.records import Book
from workbook_tools.findings import check, check_batch
from workbook_tools.findings.copied import check_blocks
from workbook_tools.findings.finding import Finding
from workbook_tools.reports.build import PLAIN_KINDS, Build, Task, Wanted, unforeseen
from workbook_tools.reports.html import Unreadable
from workbook_tools.reports.kept import forget_old, keep, key_for_batch, key_for_book, recall
from workbook_tools.reports.output import INDEX, write_outputs
from workbook_tools.reports.shop import Shop
from workbook_tools.reports.workers import Run, staff


class NoBooks(Exception):
    """Nothing to read where books were expected; the message says what was looked for."""


@dataclass(frozen=True)
class Outcome:
    """What a batch came to: how many books and findings, what was not read, where it lies."""

    read: int
    findings: int
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]
    index: Path

    @property
    def sentence(self) -> str:
        """The outcome in a line or two, for the end of a command."""
        books = "1 build" if self.read == 1 else f"{self.read} builds"
        found = {0: "no findings", 1: "1 finding"}.get(self.findings, f"{self.findings} findings")
        lost = f", {len(self.unread)} not read" if self.unread else ""
        return f"{books} summarized, {found}{lost}.\nOpen {self.index}"


@dataclass(frozen=True)
class ReadBuilds:
    """The builds of a batch with their findings, in the order of their files.

    unread: files that could not be read as books, with the reason; left_aside: lock files.
    """

    builds: tuple[tuple[Book, tuple[Finding, ...]], ...]
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]


def _as_it_comes(paths: Sequence[Path]) -> Iterable[Path]:
    return paths


def _found(named: Sequence[Path]) -> Found:
    try:
        found = find_books(named)
    except FileNotFoundError as missing:
        raise NoBooks(f"There is no file or folder {missing}.") from None
    if not found.books:
        where = ", ".join(str(path) for path in named)
        raise NoBooks(f"No books in {where}: looked for .xlsx, .xlsm and .ods files.")
    return found


def read_builds(
    named: Sequence[Path],
    layout: Layout | None = None,
    each: Callable[[Sequence[Path]], Iterable[Path]] = _as_it_comes,
    stand_ins: Mapping[Path, Path] | None = None,
) -> ReadBuilds:
    """Read every book in the files and folders named, each job of it, and hold them all.

    layout: the shop's own, for books that do not say everything; each: hands the books on
    one by one, and may show progress; stand_ins: recalculated copies to read in place of
    books, which are told of by their own name and content. A book that cannot be read is
    listed with its reason and never stops the others. Raises NoBooks where there is nothing
    to read.
    """
    found = _found(named)
    books: list[Book] = []
    unread: list[tuple[Path, str]] = []
    for path in each(found.books):
        try:
            read = read_jobs((stand_ins or {}).get(path, path), layout)
            if stand_ins and path in stand_ins:
                own = hashlib.sha256(path.read_bytes()).hexdigest()
                read = tuple(replace(job, file_name=path.name, sha256=own) for job in read)
        except BookError as error:
            unread.append((path, str(error)))
        except Exception as error:
            unread.append((path, unforeseen(error)))
        else:
            books.extend(read)
    together = check_batch(books)
    builds = tuple((book, check(book) + together.get(n, ())) for n, book in enumerate(books))
    return ReadBuilds(builds, tuple(unread), found.left_aside)


def summarize_books(
    named: Sequence[Path],
    folder: Path,
    each: Callable[[Sequence[Path]], Iterable[Path]] = _as_it_comes,
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

    folder: where the pages, data and tables go; made where it is missing. shop: who hands
    the summaries over; kinds: of files for each build; layout, each, stand_ins and NoBooks as
    for `read_builds`. jobs: processes that do the work, within limits of time and memory for
    each book; 0 does it in this one, without limits. cluster: the address of a Dask scheduler
    that does it instead. cache: where results are kept for the next run, None to keep none.
    However the work is done, and however often it was begun anew, the files are the same.
    Raises TemplateError for a template of the shop's own that does not work, ClusterError for
    a cluster that does not answer.
    """
    found = _found(named)
    wanted = Wanted(layout, shop or Shop(), tuple(kinds))
    with ExitStack() as stack:
        kept = cache or Path(stack.enter_context(TemporaryDirectory()))
        run = stack.enter_context(staff(jobs, cluster, wanted))
        batch = _Batch(found.books, stand_ins or {}, key_for_batch(wanted), kept, run)
        with _each_done(each, found.books) as done:
            batch.read(done)
        batch.read_together()
        builds = [(n, i) for n in sorted(batch.builds) for i in range(len(batch.builds[n]))]
        write_outputs(
            folder,
            [batch.builds[n][i] for n, i in builds],
            [Unreadable(found.books[n].name, why) for n, why in sorted(batch.refused.items())],
            wanted.shop,
            whole=lambda at: batch.whole(*builds[at]),
        )
    if cache is not None:
        forget_old(cache)
    return Outcome(
        read=len(builds),
        findings=sum(len(batch.builds[n][i].findings) for n, i in builds),
        unread=tuple((found.books[n], why) for n, why in sorted(batch.refused.items())),
        left_aside=found.left_aside,
        index=folder / INDEX,
    )


@contextmanager
def _each_done(
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


class _Batch:
    """Books on their way to builds; of each only its brief build stays in memory.

    builds: by the number of the file; refused: the reason, of files that gave none.
    """

    def __init__(
        self,
        books: Sequence[Path],
        copies: Mapping[Path, Path],
        batch_key: str,
        kept: Path,
        run: Run,
    ) -> None:
        self.books = books
        self.copies = copies
        self.batch_key = batch_key
        self.kept = kept
        self.run = run
        self.builds: dict[int, tuple[Build, ...]] = {}
        self.refused: dict[int, str] = {}
        self._keys: dict[int, str] = {}

    def read(self, done: Callable[[], object]) -> None:
        """Read every book, or recall what it gave before; done is called after each."""
        self._work(((n, self._task(n)) for n in range(len(self.books))), done)

    def read_together(self) -> None:
        """Compare the books with one another, and read those anew that this tells about."""
        at = [(n, i) for n in sorted(self.builds) for i in range(len(self.builds[n]))]
        flat = [self.builds[n][i] for n, i in at]
        together: dict[int, dict[int, tuple[Finding, ...]]] = {}
        for one, findings in check_blocks(flat, [build.blocks for build in flat]).items():
            n, i = at[one]
            together.setdefault(n, {})[i] = findings
        tasks = ((n, self._task(n, found)) for n, found in sorted(together.items()))
        self._work(tasks, lambda: None)

    def whole(self, n: int, i: int) -> Build:
        """A build with its files."""
        builds = recall(self.kept, self._keys[n], whole=True)
        if builds is None:
            # Someone cleared the folder meanwhile.
            raise OSError(f"{self.kept} was cleared before all was written; run again")
        return builds[i]

    def _task(
        self, n: int, together: Mapping[int, tuple[Finding, ...]] | None = None
    ) -> Task | None:
        """What there is to do for a file, None where it cannot be opened."""
        path = self.books[n]
        try:
            content = path.read_bytes()
        except OSError as error:
            self.refused[n] = str(cannot_open(error))
            return None
        own = hashlib.sha256(content).hexdigest()
        return Task(path, own, self.copies.get(path), together=together or {})

    def _work(self, tasks: Iterable[tuple[int, Task | None]], done: Callable[[], object]) -> None:
        numbers: list[int] = []

        def missing() -> Iterator[Task]:
            for n, task in tasks:
                if task is None:
                    done()
                    continue
                self._keys[n] = key_for_book(self.batch_key, task)
                found = recall(self.kept, self._keys[n], whole=False)
                if found is not None:
                    self.builds[n] = found
                    done()
                    continue
                numbers.append(n)
                yield task

        for at, result in self.run(missing()):
            n = numbers[at]
            if result.refused:
                self.builds.pop(n, None)
                self.refused[n] = result.refused
            else:
                keep(self.kept, self._keys[n], result.builds)
                self.builds[n] = tuple(build.brief for build in result.builds)
            done()
