"""Find the books in what a person names: files, and folders with everything below them."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

# Kinds that cannot be read are taken too: opening them says so, silence would lose them.
BOOK_ENDINGS = (".xlsx", ".xlsm", ".xls", ".xlsb", ".ods", ".xltx", ".xltm")


@dataclass(frozen=True)
class Found:
    """The books found, in a stable order, and what else there was, with the reason.

    left_aside: files that are no books, and links that lead back; unread: folders that could
    not be searched, in which there may be more.
    """

    books: tuple[Path, ...]
    left_aside: tuple[tuple[Path, str], ...]
    unread: tuple[tuple[Path, str], ...] = ()


def _lock_owner(path: Path) -> str:
    """The book that a lock file belongs to, "" for any other file."""
    if path.name.startswith("~$"):
        return path.name[2:]
    if path.name.startswith(".~lock.") and path.name.endswith("#"):
        return path.name[7:-1]
    return ""


class _Search:
    """What stands in a folder at any depth, but for what hidden folders hold.

    Each folder is searched once, however many links lead to it; files: in a stable order once
    all is searched.
    """

    def __init__(self, folder: Path) -> None:
        self.files: list[Path] = []
        self.left_aside: dict[Path, str] = {}
        self.unread: dict[Path, str] = {}
        self._top = Path(os.path.realpath(folder))
        self._seen: set[Path] = set()
        self._links: list[Path] = []
        self._look_into(folder)
        # Folders first by the names that they have where they are.
        while self._links:
            link = self._links.pop(0)
            if self._top.is_relative_to(os.path.realpath(link)):
                self.left_aside[link] = "a link back to a folder that it stands in"
            else:
                self._look_into(link)
        self.files.sort()

    def _look_into(self, folder: Path) -> None:
        whole = Path(os.path.realpath(folder))
        if whole in self._seen:
            return
        self._seen.add(whole)
        try:
            with os.scandir(folder) as listed:
                entries = sorted(listed, key=lambda entry: entry.name)
        except OSError as error:
            why = f"the folder cannot be searched: {error.strerror or error}"
            self.unread[folder] = f"{why}; see that you may open it, and run again"
            return
        for entry in entries:
            self._take(entry, folder / entry.name)

    def _take(self, entry: os.DirEntry[str], path: Path) -> None:
        try:
            is_folder = entry.is_dir()
            # A link without an ending may stand for a folder, as one on a disk that is away.
            if entry.is_symlink() and not path.suffix:
                path.stat()
        except OSError as error:
            self.unread[path] = (
                f"the link cannot be followed: {error.strerror}; mend it, or take it out"
            )
            return
        if not is_folder:
            self.files.append(path)
        elif not entry.name.startswith("."):
            if entry.is_symlink():
                self._links.append(path)
            else:
                self._look_into(path)


def _is_folder(path: Path) -> bool:
    """Whether a path is a folder; one that may not be looked at is taken as a file.

    Raises FileNotFoundError for a name that does not exist.
    """
    try:
        path.stat()
    except (FileNotFoundError, NotADirectoryError):
        raise FileNotFoundError(path) from None
    except OSError:
        return False
    return path.is_dir()


def find_books(named: Iterable[Path]) -> Found:
    """The books that files and folders name, each once.

    named: files are taken whatever their ending, folders are searched for workbooks,
    subfolders and links included. Lock files, which a program leaves beside a book that is
    open, are left aside with a word. Raises FileNotFoundError for a name that does not exist.
    """
    books: dict[Path, Path] = {}
    left_aside: dict[Path, str] = {}
    unread: dict[Path, str] = {}
    for path in named:
        is_folder = _is_folder(path)
        files = [path]
        if is_folder:
            search = _Search(path)
            files = search.files
            left_aside |= search.left_aside
            unread |= search.unread
        for file in files:
            owner = _lock_owner(file)
            if owner:
                left_aside[file] = f"a lock file: {owner} is open in a spreadsheet program"
            elif not is_folder or file.suffix.lower() in BOOK_ENDINGS:
                books.setdefault(Path(os.path.realpath(file)), file)
    return Found(tuple(books.values()), tuple(left_aside.items()), tuple(unread.items()))
