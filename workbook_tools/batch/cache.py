"""Results kept from one run to the next: each by everything that it was made from.

A result is one archive in a folder, named by a hash of the book, the program, and whatever
else went into it, so that nothing kept can be out of date. It holds data and pages only.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import re
import time
import zipfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from platform import python_version
from typing import Any

from workbook_tools.batch.build import Build, Tables, Task, Wanted
from workbook_tools.book_files import opened
from workbook_tools.findings.copied import Block
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Acceptance, Job, JobField
from workbook_tools.kept_files import made_files
from workbook_tools.render.templates import template_folder
from workbook_tools.settings.folders import bands_file
from workbook_tools.summary.month_facts import MonthFacts, PeakRow
from workbook_tools.summary.month_fits import FitRow
from workbook_tools.summary.standing import Standing

# What nobody asked for in so many days is taken away.
DAYS_KEPT = 60
_HEAD = "build.json"
_OURS = re.compile(r"[0-9a-f]{64}|\.[0-9a-f]{64}\.\d+\.part")
_LIBRARIES = ("openpyxl", "ironcalc", "jinja2", "pint", "rapidfuzz", "typst", "XlsxWriter")


class NotKept(Exception):
    """A folder that results cannot be kept in; the message says why."""


def make_own(folder: Path) -> None:
    """Make a folder for results, or one that is there, the user's own: they are customers' data.

    Raises NotKept where that cannot be.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if os.name != "nt":
            _close_to_others(folder)
        if not os.access(folder, os.W_OK | os.X_OK):
            raise NotKept(f"{folder} cannot be written")
    except FileExistsError:
        raise NotKept(f"{folder} is no folder") from None
    except OSError as error:
        raise NotKept(f"{folder}: {error.strerror}") from None


def _close_to_others(folder: Path) -> None:
    found = folder.stat()
    if found.st_uid != os.geteuid():
        raise NotKept(f"{folder} belongs to someone else")
    if found.st_mode & 0o077:
        folder.chmod(0o700)
        for entry in _entries(folder):
            Path(entry.path).chmod(0o600)


def _entries(folder: Path) -> Iterator[os.DirEntry[str]]:
    """What lies in a folder that is ours by its name: results, and pieces of broken runs."""
    with os.scandir(folder) as listed:
        for entry in listed:
            if _OURS.fullmatch(entry.name) and entry.is_file(follow_symlinks=False):
                yield entry


def contents(folder: Path) -> tuple[int, int]:
    """How many results are kept in a folder, and their bytes. Raises OSError."""
    sizes = []
    if folder.exists():
        for entry in _entries(folder):
            # Another run may just have taken it away.
            with contextlib.suppress(FileNotFoundError):
                sizes.append(entry.stat(follow_symlinks=False).st_size)
    return len(sizes), sum(sizes)


def clear(folder: Path) -> int:
    """Take away every result kept in a folder, and nothing else; how many. Raises OSError.

    What the program keeps of itself there goes too, uncounted.
    """
    number = 0
    if folder.exists():
        for entry in _entries(folder):
            Path(entry.path).unlink(missing_ok=True)
            number += 1
        for path in made_files(folder):
            path.unlink(missing_ok=True)
    return number


@cache
def program() -> str:
    """A hash of the program itself: its files, the libraries it rests on, the templates."""
    # It takes long to load, and only where results are kept is this asked.
    from importlib.metadata import version

    found = hashlib.sha256()
    for name in _LIBRARIES:
        found.update(f"{name} {version(name)}\n".encode())
    found.update(python_version().encode())
    for path in _files(Path(__file__).resolve().parents[1]):
        found.update(path.read_bytes())
    for path in _files(template_folder()):
        found.update(path.read_bytes())
    return found.hexdigest()


def _files(folder: Path) -> Iterator[Path]:
    for path in sorted(folder.rglob("*")):
        if path.is_file() and path.suffix != ".pyc":
            yield path


def key_for_batch(wanted: Wanted) -> str:
    """A hash of what all books of a batch have in common."""
    found = hashlib.sha256(program().encode())
    found.update(
        repr((wanted.layout, wanted.shop, wanted.kinds, wanted.month, wanted.rows)).encode()
    )
    if wanted.shop.templates is not None:
        for path in _files(wanted.shop.templates):
            found.update(f"{path}\n".encode() + path.read_bytes())
    bands = bands_file()
    with contextlib.suppress(OSError):
        found.update(Path(bands).read_bytes() if bands else b"")
    return found.hexdigest()


def digest(path: Path) -> str:
    """A hash of a file's content, in hex. Raises OSError, and UnfitFile as `opened` does."""
    with opened(path) as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def key_for_book(batch: str, task: Task) -> str:
    """A hash of what a book's result is made from, that of the batch with it."""
    copy = digest(task.copy) if task.copy else ""
    layout = repr(task.layout) if task.layout else ""
    together, earlier = sorted(task.together.items()), sorted(task.earlier.items())
    told = (batch, task.sha256, copy, task.path.name, layout, together, earlier)
    return hashlib.sha256(repr(told).encode()).hexdigest()


def keep(folder: Path, key: str, builds: tuple[Build, ...]) -> None:
    """Keep the builds of a book. Raises OSError where the folder cannot be written."""
    part = folder / f".{key}.{os.getpid()}.part"
    try:
        part.unlink(missing_ok=True)
        own = os.open(part, os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
        with os.fdopen(own, "w+b") as file, zipfile.ZipFile(file, "w") as archive:
            archive.writestr(_HEAD, json.dumps([_told(build) for build in builds]))
            for n, build in enumerate(builds):
                for ending, content in build.files.items():
                    archive.writestr(f"{n}/{ending}", content)
        part.replace(folder / key)
    finally:
        part.unlink(missing_ok=True)


def recall(folder: Path, key: str, *, whole: bool) -> tuple[Build, ...] | None:
    """The builds kept under a key, None where there are none or they are damaged.

    whole: with files and lines of tables, not only what Build.brief has.
    """
    path = folder / key
    try:
        with zipfile.ZipFile(path) as archive:
            # The pages too: what is damaged in them would show only when all else is done.
            if archive.testzip() is not None:
                return None
            told = json.loads(archive.read(_HEAD))
            if not whole:
                with contextlib.suppress(OSError):
                    os.utime(path)
                return tuple(_build(data).brief for data in told)
            return tuple(
                _build(data, {e: archive.read(f"{n}/{e}") for e in data["files"]})
                for n, data in enumerate(told)
            )
    except Exception:
        # zipfile and json have no one error for flipped bits; it is made anew.
        return None


def forget_old(folder: Path) -> None:
    """Take away results that nobody asked for in a long time, and pieces of broken runs."""
    oldest = time.time() - DAYS_KEPT * 86_400
    with contextlib.suppress(OSError):
        for entry in _entries(folder):
            # What was begun yesterday and is not in place was never finished.
            begun = entry.name.endswith(".part") and entry.stat().st_mtime < time.time() - 86_400
            if begun or entry.stat().st_mtime < oldest:
                Path(entry.path).unlink(missing_ok=True)
        for path in made_files(folder):
            # Of an earlier release, mostly; what is still good is soon made again.
            if path.stat().st_mtime < oldest:
                path.unlink(missing_ok=True)


def _told(build: Build) -> dict[str, Any]:
    return {
        "file_name": build.file_name,
        "sha256": build.sha256,
        "part": build.part,
        "job": {name: [f.text, _spot(f.place)] for name, f in vars(build.job).items()},
        "standing": vars(build.standing),
        "results": build.results,
        "findings": [_finding_told(f) for f in build.findings],
        "blocks": [[b.name, _spot(b.place), b.values.hex(), *b[3:]] for b in build.blocks],
        "files": list(build.files),
        "readings_csv": build.readings_csv,
        "findings_csv": build.findings_csv,
        "month": vars(build.month) if build.month else None,
        "tables": build.tables,
        "saved": build.saved,
        "numbers": build.numbers.hex(),
    }


def _finding_told(f: Finding) -> list[Any]:
    accepted = [_spot(f.accepted.place), *f.accepted[1:]] if f.accepted else None
    return [f.code, _spot(f.place), f.message, f.advice, [_spot(p) for p in f.also], accepted]


def _finding(
    code: str,
    at: list[str] | None,
    message: str,
    advice: str,
    also: list[list[str]],
    accepted: list[Any] | None,
) -> Finding:
    by = Acceptance(_place(accepted[0]), *accepted[1:]) if accepted else None
    return Finding(code, _place(at), message, advice, tuple(Place(*p) for p in also), by)


def _spot(place: Place | None) -> list[str] | None:
    return None if place is None else [place.sheet, place.address]


def _place(told: list[str] | None) -> Place | None:
    return None if told is None else Place(*told)


def _build(told: dict[str, Any], files: dict[str, bytes] | None = None) -> Build:
    return Build(
        file_name=told["file_name"],
        sha256=told["sha256"],
        part=told["part"],
        job=Job(**{name: JobField(text, _place(at)) for name, (text, at) in told["job"].items()}),
        standing=Standing(**told["standing"]),
        results=told["results"],
        findings=tuple(_finding(*finding) for finding in told["findings"]),
        blocks=tuple(
            Block(name, Place(*at), bytes.fromhex(values), *rest)
            for name, at, values, *rest in told["blocks"]
        ),
        files=files or {},
        readings_csv=told["readings_csv"],
        findings_csv=told["findings_csv"],
        month=_month(told["month"]) if told["month"] else None,
        tables=Tables(*(tuple(map(tuple, t)) for t in told["tables"])) if told["tables"] else None,
        saved=told["saved"],
        numbers=bytes.fromhex(told["numbers"]),
    )


def _month(told: dict[str, Any]) -> MonthFacts:
    facts: dict[str, Any] = {
        name: tuple(map(tuple, fact)) if isinstance(fact, list) else fact
        for name, fact in told.items()
    }
    facts["acceptances"] = tuple(told["acceptances"])
    facts["fits"] = tuple(FitRow(*fit) for fit in facts["fits"])
    facts["peaks"] = tuple(PeakRow(*peak) for peak in facts["peaks"])
    return MonthFacts(**facts)
