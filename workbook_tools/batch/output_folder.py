"""The folder that output goes into, and its list of what was written there.

No file is overwritten that is not on the list as it is. The list is a small JSON file with
the hash of each file; until a run is over, what it has written stands in a journal beside it.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TextIO

from workbook_tools.batch.whole_file import here, sweep, whole_or_not, write_whole
from workbook_tools.books.own_output import own_output

LIST = "written-files.json"
_JOURNALS = f".{LIST}.*.part"
_SAYS = "Files that workbook-tools wrote into this folder, with their SHA-256."
# What our pages and data begin with: the first release's, which had no list, and today's.
_FIRST_PAGE = b'<meta name="color-scheme" content="light">\n<title>Build'
_DATA = (b'{\n"book": {"file": ', b'{\n"schema": "workbook-tools build ')
# The heads of the first release's tables, as they stay whatever today's are.
_FIRST_TABLES = (
    "file,job,sheet,cell,label,position,function,parameter,value,unit,state",
    "file,job,sheet,cell,kind,message,advice",
    "job,customer,engine,builder,started,promised,finished,days,late,"
    "results,findings,out of band,missing,file",
    "job,customer,engine,builder,started,age,promised,late,waiting for,findings,note,file",
    "fit,engine kind,builds,readings,mean,spread,least,least in,largest,largest in,unit,outside",
    "fit,engine kind,job,position,value,unit,file",
    "job,customer,part,the book says,sheet,cell,file",
    "job,customer,line,sheet,cell,file",
    "job,standing,parts,signatures,file",
    "job,what,why,file",
)
# The columns of a table that is written now.
Head = Sequence[str]


class OutputError(Exception):
    """A folder that output cannot go into; the message names the file and what to do."""


class OutputFolder:
    """A folder while output is written into it.

    Entered with `output_folder`, which has made sure that every file may be written.
    """

    def __init__(self, folder: Path, known: dict[str, dict[str, str]]) -> None:
        self.folder = folder
        # {file: {hash: the book that it was made from}}, the newest hash last.
        self._known = known
        self._journal: TextIO | None = None
        self._changed = False

    def write(self, name: str, content: bytes, book: str = "") -> Path:
        """Write a file whole or not at all.

        name: below the folder, with / between; book: the file name of that it was made from.
        """
        with self.stream(name, book) as write:
            write(content)
        return self.folder / name

    @contextmanager
    def stream(self, name: str, book: str = "") -> Iterator[Callable[[bytes], None]]:
        """What to call with each piece of a file, in place when all are written."""
        found = hashlib.sha256()

        def note() -> None:
            self._note(name, found.hexdigest(), book)

        with whole_or_not(self.folder / name, note) as file:

            def write(content: bytes) -> None:
                found.update(content)
                file.write(content)

            yield write

    def begin(self) -> TextIO:
        """The journal of this run, begun with what is known from earlier ones."""
        if self._journal is None:
            journal = f".{LIST}.{here()}.{os.getpid()}.part"
            self._journal = (self.folder / journal).open("w", encoding="utf-8")
            for one, hashes in self._known.items():
                self._journal.writelines(_line(one, h, b) for h, b in hashes.items())
            self._journal.flush()
        return self._journal

    def _note(self, name: str, sha256: str, book: str) -> None:
        """Remember a file before it is put in place, for a next run if this one is killed."""
        journal = self.begin()
        journal.write(_line(name, sha256, book))
        journal.flush()
        self._known.setdefault(name, {}).pop(sha256, None)
        self._known[name][sha256] = book

    def take_away(
        self, books: Collection[str], pages: Collection[str], kept: Collection[str]
    ) -> None:
        """Take away the files of an earlier run that were made from these books, but those kept.

        books: file names; pages: what their files are called where no list tells it; kept:
        files of this run. A file that was changed since stays.
        """
        for name, hashes in list(self._known.items()):
            made_from = list(hashes.values())[-1]
            mine = made_from in books if made_from else name.rpartition("/")[2] in pages
            path = self.folder / name
            if mine and name not in kept and _hash(path) in hashes:
                path.unlink(missing_ok=True)
                del self._known[name]
                self._changed = True

    def finish(self) -> None:
        """Write the list, and take the journal away."""
        if self._journal is not None or self._changed:
            with suppress(OutputError):  # What another run lists meanwhile stays listed.
                self._known = _known_files(self.folder) | self._known
            files = {
                name: dict(zip(("sha256", "book"), list(hashes.items())[-1], strict=True))
                for name, hashes in sorted(self._known.items())
                if (self.folder / name).is_file()
            }
            lines = ",\n".join(f"{json.dumps(n)}: {json.dumps(f)}" for n, f in files.items())
            text = f'{{"about": {json.dumps(_SAYS)},\n"files": {{\n{lines}\n}}}}\n'
            write_whole(self.folder / LIST, text.encode())
        if self._journal is not None:
            self._journal.close()
            with suppress(OSError):
                Path(self._journal.name).unlink()


@contextmanager
def output_folder(
    folder: Path, names: Iterable[str], below: Sequence[str] = (), heads: Sequence[Head] = ()
) -> Iterator[OutputFolder]:
    """A folder to write these files into, each once, made where it is missing.

    names: of all files that will be written, with / between; below: folders in it that
    some go into; heads: of the tables among them, by which one is known without the
    list. Raises OutputError before anything is written where one of them would
    replace a file that is not as this program wrote it, and OSError.
    """
    places = (folder, *(folder / one for one in below))
    known = _known_files(folder)
    interrupted = any(folder.glob(_JOURNALS))
    if interrupted or not (folder / LIST).exists():
        _add_marked(folder, places, known, heads)
    for name in names:
        _may_be_written(folder, name, known)
    for place in places:
        place.mkdir(parents=True, exist_ok=True)
    out = OutputFolder(folder, known)
    if interrupted:
        # What the journals tell must outlive them.
        out.begin()
    for place in places:
        sweep(place)
    try:
        yield out
    finally:
        out.finish()


def taken_over(folder: Path, heads: Sequence[Head] = ()) -> str:
    """What to say of a folder of output that has no list, as the first release's, else "".

    heads: as for output_folder.
    """
    if (folder / LIST).exists() or not folder.is_dir() or any(folder.glob(_JOURNALS)):
        return ""
    if not any(p.is_file() and _has_mark(p, heads) for p in sorted(folder.iterdir())):
        return ""
    return (
        f"{folder} holds files that an earlier release wrote; they are taken for output and "
        f"replaced. {LIST} there now lists what is."
    )


def _may_be_written(folder: Path, name: str, known: Mapping[str, Mapping[str, str]]) -> None:
    path = folder / name
    if not os.path.lexists(path) or (name in known and _hash(path) in known[name]):
        return
    why = "was changed since this program wrote it" if name in known else "is not of this program"
    raise OutputError(
        f"{path} {why} and would be overwritten. Move or rename it, or give --out another "
        "folder, best an empty one; nothing was written."
    )


def _add_marked(
    folder: Path,
    places: Iterable[Path],
    known: dict[str, dict[str, str]],
    heads: Sequence[Head],
) -> None:
    """Take files that say of themselves that they are ours for known as they are."""
    for place in places:
        for path in sorted(place.iterdir()) if place.is_dir() else ():
            if path.is_file() and _has_mark(path, heads):
                name = path.relative_to(folder).as_posix()
                known.setdefault(name, {}).setdefault(_hash(path), "")


def _known_files(folder: Path) -> dict[str, dict[str, str]]:
    """What the list and the journals of runs that are not over tell."""
    known: dict[str, dict[str, str]] = defaultdict(dict)
    try:
        for name, file in json.loads((folder / LIST).read_bytes())["files"].items():
            known[name][str(file["sha256"])] = str(file["book"])
    except (FileNotFoundError, NotADirectoryError):
        pass
    except (ValueError, KeyError, TypeError, AttributeError):
        raise OutputError(
            f"{folder / LIST} is no list of output that can be read. Move it away, or give "
            "--out another folder; nothing was written."
        ) from None
    for journal in sorted(folder.glob(_JOURNALS)):
        with suppress(OSError):
            for line in journal.read_text(encoding="utf-8", errors="replace").splitlines():
                with suppress(ValueError):  # The last line of a killed run may be cut off.
                    name, sha256, book = json.loads(line)
                    known[name].pop(sha256, None)
                    known[name][sha256] = book
    return dict(known)


def files_by_book(folder: Path) -> dict[str, tuple[str, ...]]:
    """The JSON files that were written into a folder, by the file name of their book.

    Raises OutputError where its list cannot be read.
    """
    found: dict[str, list[str]] = defaultdict(list)
    for name, hashes in sorted(_known_files(folder).items()):
        if name.endswith(".json"):
            found[list(hashes.values())[-1]].append(name)
    return {book: tuple(names) for book, names in found.items()}


def _line(name: str, sha256: str, book: str) -> str:
    return json.dumps([name, sha256, book]) + "\n"


def _hash(path: Path) -> str:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return ""


def _has_mark(path: Path, heads: Sequence[Head]) -> bool:
    """Whether a file says of itself that this program wrote it."""
    if path.suffix == ".xlsx":
        return bool(own_output(path))
    try:
        with path.open("rb") as file:
            start = file.read(2048)
            if path.suffix == ".pdf":
                return b"/Creator(Typst " in start + file.read()
    except OSError:
        return False
    if path.suffix == ".csv":
        first = start.decode("utf-8-sig", "replace").partition("\n")[0].strip().replace('"', "")
        return first in _FIRST_TABLES or first in {",".join(head) for head in heads}
    return _FIRST_PAGE in start or start.startswith(_DATA)
