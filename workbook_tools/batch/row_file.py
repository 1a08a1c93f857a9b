"""Rows of a long table, laid on disk while it is put together."""

from __future__ import annotations

import pickle
from collections.abc import Iterable, Iterator, Sequence
from tempfile import TemporaryFile


class RowFile:
    """A table that takes no memory: rows are added, counted, and gone through as often as needed.

    columns: their names. What is added is plain data of one build, and the file is gone with
    the table. Raises OSError where the folder for temporary files is full.
    """

    def __init__(self, columns: Sequence[str]) -> None:
        self.columns = tuple(columns)
        self._file = TemporaryFile()  # noqa: SIM115 - it lives as long as the table
        self._count = 0

    def add(self, rows: Iterable[Sequence[object]]) -> None:
        """Add rows at the end."""
        some = [tuple(row) for row in rows]
        self._file.seek(0, 2)
        pickle.dump(some, self._file)
        self._count += len(some)

    def add_all(self, other: RowFile) -> None:
        """Add the rows of another table at the end."""
        for some in other.in_pieces():
            self.add(some)

    def __len__(self) -> int:
        return self._count

    def __iter__(self) -> Iterator[tuple[object, ...]]:
        return (row for some in self.in_pieces() for row in some)

    def in_pieces(self) -> Iterator[list[tuple[object, ...]]]:
        """The rows as they were added."""
        self._file.seek(0, 2)
        at, end = 0, self._file.tell()
        while at < end:
            # Somebody else may go through the rows meanwhile.
            self._file.seek(at)
            some = pickle.load(self._file)
            at = self._file.tell()
            yield some
