"""Find the books in what a person names: files, and folders with everything below them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

# Kinds that cannot be read are taken too: opening them says so, silence would lose them.
BOOK_ENDINGS = (".xlsx", ".xlsm", ".xls", ".xlsb", ".ods", ".xltx", ".xltm")


@dataclass(frozen=True)
class Found:
    """The books found, in a stable order, and files left aside with the reason."""

    books: tuple[Path, ...]
    left_aside: tuple[tuple[Path, str], ...]


def _lock_owner(path: Path) -> str:
    """The book that a lock file belongs to, "" for any other file."""
    if path.name.startswith("~$"):
        return path.name[2:]
    if path.name.startswith(".~lock.") and path.name.endswith("#"):
        return path.name[7:-1]
    return ""


def _below(folder: Path) -> Iterator[Path]:
    """Files at any depth, in a stable order; what hidden folders hold is none of ours."""
    yield from sorted(
        p
        for p in folder.rglob("*")
        if p.is_file() and not any(n.startswith(".") for n in p.relative_to(folder).parts[:-1])
    )


def find_books(named: Iterable[Path]) -> Found:
    """The books that files and folders name, each once.

    named: files are taken whatever their ending, folders are searched for workbooks,
    subfolders included. Lock files, which a program leaves beside a book that is open, are
    left aside with a word. Raises FileNotFoundError for a name that does not exist.
    """
    books: dict[Path, Path] = {}
    left_aside: dict[Path, str] = {}
    for path in named:
        if not path.exists():
            raise FileNotFoundError(path)
        for file in _below(path) if path.is_dir() else [path]:
            owner = _lock_owner(file)
            if owner:
                left_aside[file] = f"a lock file: {owner} is open in a spreadsheet program"
            elif not path.is_dir() or file.suffix.lower() in BOOK_ENDINGS:
                books.setdefault(file.resolve(), file)
    return Found(tuple(books.values()), tuple(left_aside.items()))
