"""What is kept in the user's folder: results of earlier runs, and what the program made of itself.

The program's own tables and page templates take a quarter of its start to read and to compile.
What came of them is kept by a hash of what it was made from, as Python keeps its own modules
compiled; so nothing kept can be out of date, and where it is gone or damaged it is made anew.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from platformdirs import user_cache_path

_OF_PROGRAM = "program"
_DIGEST = hashlib.sha256().digest_size


def usual_folder() -> Path | None:
    """Where results are kept for the current user, by the custom of each system.

    None where the user has no home.
    """
    try:
        folder = user_cache_path("workbook-tools", appauthor=False)
    except RuntimeError:
        return None
    return folder if folder.is_absolute() else None


def own_toml(text: str) -> dict[str, Any]:
    """The data of one of the program's own TOML files. Raises tomllib.TOMLDecodeError."""
    name = f"{hashlib.sha256(text.encode()).hexdigest()}.json"
    found = recall_made(name)
    if found is not None:
        kept: dict[str, Any] = json.loads(found)
        return kept
    data = tomllib.loads(text)
    # A date has no JSON; such a file is read as it is each time.
    with contextlib.suppress(TypeError):
        keep_made(name, json.dumps(data).encode())
    return data


def recall_made(name: str) -> bytes | None:
    """What was kept under a name that tells all that it was made from, None where nothing is."""
    folder = _folder_of_program()
    if folder is None:
        return None
    try:
        told = (folder / name).read_bytes()
    except OSError:
        return None
    digest, content = told[:_DIGEST], told[_DIGEST:]
    return content if hashlib.sha256(content).digest() == digest else None


def keep_made(name: str, content: bytes) -> None:
    """Keep something under such a name, where that can be."""
    folder = _folder_of_program()
    if folder is None:
        return
    part = folder / f".{name}.{os.getpid()}.part"
    with contextlib.suppress(OSError):
        try:
            part.write_bytes(hashlib.sha256(content).digest() + content)
            part.replace(folder / name)
        finally:
            part.unlink(missing_ok=True)


def made_files(folder: Path) -> Iterator[Path]:
    """All that the program keeps of itself in a user's folder. Raises OSError."""
    own = folder / _OF_PROGRAM
    if own.is_dir():
        yield from own.iterdir()


@cache
def _folder_of_program() -> Path | None:
    """The folder, made where it is missing; None where others than the user may write there."""
    usual = usual_folder()
    if usual is None:
        return None
    own = usual / _OF_PROGRAM
    try:
        for folder in (usual, own):
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        found = own.stat()
    except OSError:
        return None
    if os.name != "nt" and (found.st_uid != os.geteuid() or found.st_mode & 0o022):
        return None
    return own
