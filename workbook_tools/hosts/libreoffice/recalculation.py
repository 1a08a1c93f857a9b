"""Calculate and save books with LibreOffice and the add-in, in a profile of its own."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Literal

from workbook_tools.hosts.libreoffice.installation import Profile, install
from workbook_tools.hosts.libreoffice.office import OfficeError, find_office, run

Format = Literal["xlsx", "ods", "pdf"]
_FILTERS: dict[Format, str] = {
    "xlsx": "xlsx:Calc MS Excel 2007 XML",
    "ods": "ods:calc8",
    "pdf": "pdf:calc_pdf_Export",
}

# LibreOffice keeps the values that a book was saved with, unless told to calculate on load.
_SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">\
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">\
<prop oor:name="ODFRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def fresh_profile(folder: str | os.PathLike[str]) -> Profile:
    """A new profile with the add-in installed, which calculates every cell on load.

    folder: where to make it; created if it does not exist, and refused with OfficeError if
    a profile is there already. Raises OfficeError as `install` does.
    """
    profile = Profile(Path(folder))
    settings = profile.folder / "user" / "registrymodifications.xcu"
    if settings.exists():
        raise OfficeError(f"{profile.folder} holds a LibreOffice profile already: name a new one")
    settings.parent.mkdir(parents=True, exist_ok=True)
    settings.write_text(_SETTINGS, encoding="utf-8")
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
    done = run(command, seconds)
    missing = [s for s, r in zip(sources, results, strict=True) if not r.exists()]
    if missing:
        raise OfficeError(
            f"LibreOffice did not save {', '.join(map(str, missing))}: {done.stdout.strip()}"
        )
    return results
