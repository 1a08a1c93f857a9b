"""Where settings that nobody named are looked for: from the books upward."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from workbook_tools.settings.folders import BANDS_FILE, BANDS_VARIABLE


def folders_up(folder: Path, named: Iterable[Path]) -> tuple[Path, ...]:
    """A folder and those above it whose settings its books may use, the nearest first.

    named: the files and folders on the command line. The last one is the user's home where the
    folder lies in it, else the folder that was named. Above those anybody may have written, and
    so has whoever made a link that leads elsewhere: of that only the folder itself is taken.
    """
    whole = Path(os.path.realpath(folder))
    up = (whole, *whole.parents)
    ends = [*_home(), *(Path(os.path.realpath(folder_of(path))) for path in named)]
    last = max((up.index(end) for end in ends if end in up), default=0)
    # As it was named, which is how its user knows it.
    return (folder, *up[1 : last + 1])


def folder_of(path: Path) -> Path:
    """The folder that is named, or in which the file that is named lies."""
    # Not Path.is_dir, which ends with an error where it may not look.
    return path if os.path.isdir(path) else path.parent


def _home() -> tuple[Path, ...]:
    """The user's home, none where there is none, or where it is the whole machine."""
    try:
        home = Path(os.path.realpath(Path.home()))
    except RuntimeError:
        return ()
    return () if home == Path(home.anchor) else (home,)


def files_up(name: str, folder: Path, named: Iterable[Path]) -> tuple[Path, ...]:
    """The files of a name in a folder and those above it, as far as folders_up, nearest first."""
    return tuple(file for at in folders_up(folder, named) if os.path.isfile(file := at / name))


def nearest_of_each(name: str, named: Iterable[Path]) -> tuple[Path, ...]:
    """The nearest file of a name for each file and folder that was named, each file once."""
    paths = list(named)
    folders = dict.fromkeys(map(folder_of, paths))
    nearest = [file for folder in folders for file in files_up(name, folder, paths)[:1]]
    return tuple({os.path.realpath(file): file for file in reversed(nearest)}.values())[::-1]


@contextmanager
def bands_of(
    books: Sequence[Path], tell: Callable[[str], object] = lambda _: None
) -> Iterator[tuple[Path, ...]]:
    """Let the bands.toml of the books' shop hold, where the environment names no other.

    To be entered before the catalog is loaded, whose words for a use come from it too. Of
    several none is taken, since all books that are read together are judged alike, and tell is
    given a line that says so. Gives the file that holds, where one was found.
    """
    found = () if os.environ.get(BANDS_VARIABLE) else nearest_of_each(BANDS_FILE, books)
    if len(found) != 1:
        if found:
            told = ", ".join(str(path) for path in found)
            tell(f"Not used, as the books have several: {told}. {BANDS_VARIABLE} can name one.")
        yield ()
        return
    os.environ[BANDS_VARIABLE] = str(found[0])
    try:
        yield found
    finally:
        del os.environ[BANDS_VARIABLE]
