"""Calculate and save books with LibreOffice and the add-in, in a profile of its own."""

from __future__ import annotations

import os
import shutil
import zipfile
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from workbook_tools.book_files import UnfitFile, check_unpacked, opened
from workbook_tools.hosts.libreoffice.installation import Profile, install
from workbook_tools.hosts.libreoffice.office import OfficeError, find_office, run

Format = Literal["xlsx", "ods", "pdf"]
_FILTERS: dict[Format, str] = {
    "xlsx": "xlsx:Calc MS Excel 2007 XML",
    "ods": "ods:calc8",
    "pdf": "pdf:calc_pdf_Export",
}

# Books that one start of LibreOffice calculates, and what it may take for each.
_AT_ONCE = 25
_SECONDS_TO_START = 60.0
_SECONDS_FOR_ONE_BOOK = 20.0

# Settings of the profile: node of the configuration, property, value.
_SETTINGS = (
    # LibreOffice keeps the values that a book was saved with, unless told to calculate on load.
    ("Office.Calc/Formula/Load", "OOXMLRecalcMode", "0"),
    ("Office.Calc/Formula/Load", "ODFRecalcMode", "0"),
    # Books come from anywhere: no macro runs, no link is followed, and what would be fetched
    # all the same is asked of a proxy that does not answer. Versions pass over settings that
    # they do not know.
    ("Office.Common/Security/Scripting", "MacroSecurityLevel", "3"),
    ("Office.Common/Security/Scripting", "DisableMacrosExecution", "true"),
    ("Office.Common/Security/Scripting", "BlockUntrustedRefererLinks", "true"),
    ("Office.Common/Security/Scripting", "DisableActiveContent", "true"),
    ("Office.Common/Security/Scripting", "DisableOLEAutomation", "true"),
    ("Office.Calc/Content/Update", "Link", "2"),
    ("Inet/Settings", "ooInetProxyType", "2"),
    ("Inet/Settings", "ooInetNoProxy", ""),
    *(
        ("Inet/Settings", f"ooInet{kind}Proxy{key}", value)
        for kind in ("HTTP", "HTTPS", "FTP")
        # The port that discards what it is sent (RFC 863), and that nothing listens on.
        for key, value in (("Name", "127.0.0.1"), ("Port", "9"))
    ),
)


def _settings() -> str:
    """The profile's file of settings."""
    items = "".join(
        f'<item oor:path="/org.openoffice.{node}"><prop oor:name="{name}" oor:op="fuse">'
        f"<value>{value}</value></prop></item>\n"
        for node, name, value in _SETTINGS
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<oor:items xmlns:oor="http://openoffice.org/2001/registry">\n'
        f"{items}</oor:items>\n"
    )


def fresh_profile(folder: str | os.PathLike[str]) -> Profile:
    """A new profile with the add-in installed, which calculates every cell and fetches nothing.

    folder: where to make it; created if it does not exist, and refused with OfficeError if
    a profile is there already. Raises OfficeError as `install` does.
    """
    profile = Profile(Path(folder))
    settings = profile.folder / "user" / "registrymodifications.xcu"
    if settings.exists():
        raise OfficeError(f"{profile.folder} holds a LibreOffice profile already: name a new one")
    settings.parent.mkdir(parents=True, exist_ok=True)
    settings.write_text(_settings(), encoding="utf-8")
    install(profile)
    return profile


def recalculate(
    books: Iterable[str | os.PathLike[str]],
    out_dir: str | os.PathLike[str],
    profile: Profile,
    to: Format = "xlsx",
    seconds: float = 120.0,
) -> list[Path]:
    """Open books in LibreOffice, calculate them, and save them elsewhere.

    books: files that LibreOffice can open, with different names; out_dir: another folder
    than theirs, created if missing; to: the format to save in; seconds: time for all of
    them together. One start of LibreOffice does all books.

    Returns the new files in the order of the books. Raises OfficeError where a book would
    be overwritten, or was not saved, or the time is over; ValueError for two books of one
    name.
    """
    sources = [Path(book).resolve() for book in books]
    target = Path(out_dir).resolve()
    results = [target / f"{source.stem}.{to}" for source in sources]
    if not sources:
        return []
    if len(set(results)) < len(results):
        raise ValueError("expected books with different names, got " + ", ".join(map(str, sources)))
    for source, result in zip(sources, results, strict=True):
        if source.parent == target:
            raise OfficeError(f"{source} would be saved over or beside: name another out_dir")
        result.unlink(missing_ok=True)
    target.mkdir(parents=True, exist_ok=True)
    command = [find_office().program("soffice"), *profile.options, "--headless", "--norestore"]
    command += ["--convert-to", _FILTERS[to], "--outdir", str(target), *map(str, sources)]
    done = run(command, seconds, profile.temporary())
    missing = [s for s, r in zip(sources, results, strict=True) if not r.exists()]
    if missing:
        raise OfficeError(
            f"LibreOffice did not save {', '.join(map(str, missing))}: {done.stdout.strip()}"
        )
    return results


@dataclass(frozen=True)
class Recalculated:
    """Calculated copies by the book that each was made from, and why others have none."""

    copies: dict[Path, Path]
    refused: dict[Path, str]


def recalculate_each(
    books: Sequence[Path],
    folder: Path,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
) -> Recalculated:
    """Calculate many books, of any folders and names, so that one bad book costs no other.

    folder: an empty one, for a profile and the copies; each: hands the books on one by one,
    and may show progress. Nothing is written beside the books, not even a lock. Raises
    OfficeError where LibreOffice is missing or refuses the add-in.
    """
    profile = fresh_profile(folder / "profile")
    copies: dict[Path, Path] = {}
    refused: dict[Path, str] = {}
    waiting: list[tuple[Path, Path]] = []

    def calculate() -> None:
        copied = [copy for _, copy in waiting]
        time = _SECONDS_TO_START + _SECONDS_FOR_ONE_BOOK * len(waiting)
        with suppress(OfficeError):
            recalculate(copied, folder / "calculated", profile, seconds=time)
        for book, copy in waiting:
            made = folder / "calculated" / f"{copy.stem}.xlsx"
            try:
                if not made.exists():
                    recalculate([copy], folder / "calculated", profile, seconds=time)
            except OfficeError as reason:
                refused[book] = str(reason).replace(str(copy), book.name)
            else:
                copies[book] = made
        waiting.clear()

    for number, book in enumerate(each(books)):
        copy = folder / "copied" / f"{number:06}{book.suffix.lower()}"
        copy.parent.mkdir(exist_ok=True)
        try:
            _copy_checked(book, copy)
        except OSError as error:
            refused[book] = f"it cannot be read: {error.strerror}"
            continue
        except (UnfitFile, zipfile.BadZipFile, NotImplementedError) as unfit:
            refused[book] = str(unfit)
            continue
        waiting.append((book, copy))
        if len(waiting) == _AT_ONCE:
            calculate()
    calculate()
    return Recalculated(copies, refused)


def _copy_checked(book: Path, copy: Path) -> None:
    with opened(book) as source, copy.open("wb") as target:
        shutil.copyfileobj(source, target)
    if zipfile.is_zipfile(copy):
        with zipfile.ZipFile(copy) as archive:
            check_unpacked(archive, copy.stat().st_size)
