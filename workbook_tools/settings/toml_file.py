"""A TOML file of settings: read whole, or refused with file, line and reason."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

# Deeper than this no file of settings goes; what is nested to exhaust a reader does.
MOST_NESTED = 16
# TOML has whole numbers of 64 bits.
_LARGEST = 2**63

KeyPath = tuple[str | int, ...]
_NESTED = f"its values are nested more than {MOST_NESTED} deep"


class SettingsError(ValueError):
    """A file of settings that cannot be used: file, line (0 for the whole file), reason."""

    def __init__(self, file: str, line: int, reason: str) -> None:
        super().__init__(f"{file}, line {line}: {reason}" if line else f"{file}: {reason}")
        self.file = file
        self.line = line
        self.reason = reason


@dataclass(frozen=True)
class TomlFile:
    """The content of a file, and the text that it was read from."""

    name: str
    text: str
    data: Mapping[str, Any]

    def line_of(self, *path: str | int) -> int:
        """The line where a key or table stands, that of the nearest one around it, or 0.

        path: keys, and for a table of a [[list]] its number from 0: ("band", 2, "low").
        """
        lines: dict[KeyPath, int] = {}
        for number, here in _keys(self.text):
            lines.setdefault(here, number)
        around = (path[:length] for length in range(len(path), 0, -1))
        return next((lines[part] for part in around if part in lines), 0)

    def has_head(self, name: str) -> bool:
        """Whether each table of a list stands under a head of its own, as [[name]]."""
        lines = (line for line in self.text.splitlines() if line.lstrip().startswith("["))
        heads = {path for _, path in _keys("\n".join(lines))}
        return all((name, number) in heads for number, _ in enumerate(self.data[name]))


_HEAD = re.compile(r"\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?")
_KEY = re.compile(r"""\s*((?:[\w-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[\w-]+|"[^"]*"|'[^']*'))*)\s*=""")
_PART = re.compile(r"""[\w-]+|"[^"]*"|'[^']*'""")


def _parts(text: str) -> list[str]:
    return [part.strip("\"'") for part in _PART.findall(text)]


def _keys(text: str) -> Iterator[tuple[int, KeyPath]]:
    """(line, path) of every head and key, in the order of the lines."""
    table: KeyPath = ()
    lists: dict[KeyPath, int] = {}
    for number, line in enumerate(text.splitlines(), 1):
        if head := _HEAD.fullmatch(line):
            *outer, last = _parts(head[2]) or [""]
            table = ()
            for part in outer:
                table = (*table, part)
                table = (*table, lists[table]) if table in lists else table
            table = (*table, last)
            if head[1] == "[[":
                yield number, table
                lists[table] = lists.get(table, -1) + 1
                table = (*table, lists[table])
            yield number, table
        elif key := _KEY.match(line):
            yield number, (*table, *_parts(key[1]))


def read_toml(path: str | Path) -> TomlFile:
    """A file of settings. Raises SettingsError with file, line and reason.

    A text in UTF-8, with the mark that some editors put before it, or without.
    """
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except OSError as error:
        raise SettingsError(str(path), 0, f"cannot be read: {error.strerror or error}") from error
    except UnicodeDecodeError as error:
        line = error.object.count(b"\n", 0, error.start) + 1
        reason = f"not a UTF-8 text: {error.reason}; save the file as UTF-8"
        raise SettingsError(str(path), line, reason) from None
    return parse_toml(text, str(path))


def parse_toml(
    text: str, name: str, loads: Callable[[str], dict[str, Any]] = tomllib.loads
) -> TomlFile:
    """A text as a file of settings of this name. Raises SettingsError as read_toml does.

    loads: what reads TOML.
    """
    try:
        file = TomlFile(name, text, loads(text))
    except RecursionError:
        raise SettingsError(name, 0, _NESTED) from None
    except ValueError as error:
        # Not only tomllib's own error: a number of thousands of digits raises another.
        found = re.search(r"line (\d+)", str(error))
        last = text.count("\n") + 1
        raise SettingsError(name, int(found[1]) if found else last, f"not TOML: {error}") from None
    for key, value in file.data.items():
        reason = _fault(value)
        if reason:
            raise SettingsError(name, file.line_of(key), f"{key}: {reason}")
    return file


def _fault(value: object) -> str:
    """Why a value is none that settings can have, "" where it is one."""
    waiting = [(value, 1)]
    while waiting:
        one, depth = waiting.pop()
        if depth > MOST_NESTED:
            return _NESTED
        if isinstance(one, int) and not -_LARGEST <= one < _LARGEST:
            return "it holds a number larger than any that can be kept"
        inside: Iterable[object] = ()
        if isinstance(one, dict):
            inside = one.values()
        elif isinstance(one, list):
            inside = one
        waiting += [(part, depth + 1) for part in inside]
    return ""
