"""Files that are written whole or not at all, whoever else writes into the folder."""

from __future__ import annotations

import hashlib
import os
import platform
import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path
from typing import BinaryIO

# Nobody writes one file for so long, and no clocks of machines differ so much.
_SECONDS_BEYOND_DOUBT = 2 * 86_400


def write_whole(path: Path, content: bytes) -> Path:
    """Write a file whole or not at all. Raises OSError, with the path."""
    with whole_or_not(path) as file:
        file.write(content)
    return path


def write_new(path: Path, content: bytes) -> Path:
    """Write a file that must not be there yet, whole or not at all.

    Raises FileExistsError, and OSError where it cannot be written.
    """
    if os.path.lexists(path):
        raise FileExistsError(17, "the file is there already", str(path))
    return write_whole(path, content)


@contextmanager
def whole_or_not(path: Path, before: Callable[[], object] | None = None) -> Iterator[BinaryIO]:
    """A file to write under another name first, which is put in place when it is finished.

    before: called when it is on the disk and not yet in place. Raises OSError, with the path.
    """
    part = path.with_name(f".{path.name}.{here()}.{os.getpid()}.part")
    try:
        with part.open("wb") as file:
            yield file
            file.flush()
            # Else a power cut may leave the new name with nothing behind it.
            os.fsync(file.fileno())
        if before:
            before()
        part.replace(path)
    except BaseException as error:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        if isinstance(error, OSError):
            # A full disk does not say where.
            error.filename = error.filename or str(path)
        raise


@cache
def here() -> str:
    """A few digits for the machine, and the container on it, whose process numbers hold.

    Another start of the same machine is another one.
    """
    told = [platform.node(), str(uuid.getnode())]
    with suppress(OSError):
        told.append(Path("/proc/sys/kernel/random/boot_id").read_text(encoding="ascii"))
        told.append(os.readlink("/proc/self/ns/pid"))
    return hashlib.sha256("\n".join(told).encode("utf-8", "replace")).hexdigest()[:10]


def sweep(folder: Path) -> None:
    """Take away what runs that were killed have left unfinished, only where that is sure.

    What another machine left there, or a process without a number, goes when it is old
    beyond doubt.
    """
    for part in folder.glob(".*.part"):
        if _is_left(part):
            with suppress(OSError):  # Another run, or a program that looks at it, may hold it.
                part.unlink()


def _is_left(part: Path) -> bool:
    pieces = part.name.split(".")
    if len(pieces) > 3 and pieces[-3] == here() and pieces[-2].isdigit():
        return not _is_running(int(pieces[-2]))
    try:
        return part.stat().st_mtime < time.time() - _SECONDS_BEYOND_DOUBT
    except OSError:
        return False


def _is_running(process: int) -> bool:
    if os.name == "nt":
        # There a signal of 0 would end it.
        return False
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
