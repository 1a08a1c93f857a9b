"""The brief builds of a batch, laid on disk: there may be many thousands of them."""

from __future__ import annotations

import pickle
from collections.abc import Callable, Sequence
from tempfile import SpooledTemporaryFile
from threading import Lock
from typing import overload

from workbook_tools.batch.build import Build

# Bytes of builds that stay in memory: those of an ordinary month.
_IN_MEMORY = 8_000_000


class BuildFile:
    """Brief builds by the number of the file that they are of.

    Raises OSError where the folder for temporary files is full.
    """

    def __init__(self) -> None:
        self._file = SpooledTemporaryFile(_IN_MEMORY)  # noqa: SIM115 - it lives as long as they
        self._at: dict[int, tuple[int, ...]] = {}
        # Threads that attend to workers put builds here as the one that waits for them does.
        self._one_at_a_time = Lock()

    def put(self, number: int, builds: Sequence[Build]) -> None:
        """Keep the builds of a file, in place of those that it had."""
        at = []
        with self._one_at_a_time:
            self._file.seek(0, 2)
            for build in builds:
                at.append(self._file.tell())
                pickle.dump(build, self._file, pickle.HIGHEST_PROTOCOL)
        self._at[number] = tuple(at)

    def take_out(self, number: int) -> None:
        """Keep nothing of a file."""
        self._at.pop(number, None)

    def of(self, number: int) -> tuple[Build, ...]:
        """The builds of a file, none where it has none."""
        return tuple(self._read(at) for at in self._at.get(number, ()))

    @property
    def places(self) -> tuple[tuple[int, int], ...]:
        """(number of the file, which of its builds) of each build, in the order of the files."""
        return tuple((n, i) for n in sorted(self._at) for i in range(len(self._at[n])))

    def at(self, places: Sequence[tuple[int, int]]) -> Builds:
        """The builds at some places."""

        def fetched(n: int) -> Build:
            number, which = places[n]
            return self._read(self._at[number][which])

        return Builds(len(places), fetched)

    def _read(self, at: int) -> Build:
        with self._one_at_a_time:
            self._file.seek(at)
            build: Build = pickle.load(self._file)
        return build


class Builds(Sequence[Build]):
    """So many builds, each of which is fetched whenever it is asked for."""

    def __init__(self, count: int, fetched: Callable[[int], Build]) -> None:
        self._count = count
        self._fetched = fetched

    def __len__(self) -> int:
        return self._count

    @overload
    def __getitem__(self, at: int) -> Build: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Build]: ...
    def __getitem__(self, at: int | slice) -> Build | Sequence[Build]:
        numbers = range(self._count)[at]
        if isinstance(numbers, int):
            return self._fetched(numbers)
        return Builds(len(numbers), lambda n: self._fetched(numbers[n]))
