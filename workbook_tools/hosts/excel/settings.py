"""xlwings' settings file: lines of "KEY","value", also read and written by its add-in's VBA."""

from __future__ import annotations

import locale
import re
from collections.abc import Mapping
from pathlib import Path

_LINE = re.compile(r'\s*"([^"]*)"\s*,\s*"([^"]*)"\s*')


def _text(path: Path) -> str:
    # VBA reads and writes in the system's own code page. Bytes that mean nothing in it, and
    # line ends, go back as they came.
    if not path.exists():
        return ""
    return path.read_bytes().decode(locale.getencoding(), "surrogateescape")


def read(path: Path) -> dict[str, str]:
    """The settings, {} where there is no file. Keys in upper case, as the add-in spells them."""
    found: dict[str, str] = {}
    for line in _text(path).splitlines():
        match = _LINE.fullmatch(line)
        if match:
            # The add-in takes the first line of a key.
            found.setdefault(match[1].upper(), match[2])
    return found


def write(path: Path, changes: Mapping[str, str | None]) -> None:
    """Change settings and leave every other line as it is.

    changes: new values by key, None to remove. A file left without a line is removed.
    Raises UnicodeEncodeError where a value does not fit the system's code page.
    """
    waiting = dict(changes)
    lines = []
    for line in _text(path).splitlines(keepends=True):
        match = _LINE.fullmatch(line)
        key = match[1].upper() if match else ""
        if key not in changes:
            lines.append(line)
        elif (value := waiting.pop(key, None)) is not None:
            lines.append(_line(key, value))
    if lines and not lines[-1].endswith(("\n", "\r")):
        lines[-1] += "\r\n"
    lines += [_line(key, value) for key, value in waiting.items() if value is not None]
    if not lines:
        path.unlink(missing_ok=True)
        return
    # Encoded before the file is opened: a value that does not fit leaves it as it was.
    data = "".join(lines).encode(locale.getencoding(), "surrogateescape")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)


def _line(key: str, value: str) -> str:
    return f'"{key}","{value}"\r\n'
