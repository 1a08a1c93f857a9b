"""Find calls of worksheet functions in formula text, in every spelling a file can hold."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from openpyxl.formula.tokenizer import Token, Tokenizer

from workbook_tools.books.lets import without_lets
from workbook_tools.catalog import PREFIX

# Calls within calls: Excel allows 64 levels (its specifications and limits).
_DEEPEST = 64

# What programs put before a function's name: implicit intersection, a book's number or
# path, and the prefixes for functions that the program did not know.
_BEFORE = re.compile(
    r"^(?:@|\[\d+\]!|'[^']*'!|[^'!()]+!|_xll\.|_xludf\.|_xldudf_|_xlfn\.|_xlws\.)", re.IGNORECASE
)
_NAME = re.compile(rf"{PREFIX}[._]([A-Z0-9_.]+)", re.IGNORECASE)
_SPACED_CALL = re.compile(rf"(\b{PREFIX}[._]\w+)\s+\(", re.IGNORECASE)
_MENTION = re.compile(rf"{PREFIX}[._]\w+\s*\(", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """A stretch of a formula: plain text, or a call of a worksheet function."""

    text: str
    call: Call | None = None


@dataclass(frozen=True)
class Call:
    """A call as it stands in a formula.

    name: bare and upper-case ("QUENCH"); spelled: as in the file; arguments: each a tuple
    of parts, empty for an argument that is left blank; text: the whole call.
    """

    name: str
    spelled: str
    arguments: tuple[tuple[Part, ...], ...]
    text: str


def bare_name(spelled: str) -> str | None:
    """The bare, upper-case name of one of our functions, or None for any other name."""
    name = spelled
    while (shorter := _BEFORE.sub("", name, count=1)) != name:
        name = shorter
    found = _NAME.fullmatch(name)
    return found.group(1).upper() if found else None


def mentions_call(formula: str) -> bool:
    """A quick look whether a formula can hold a call at all."""
    return _MENTION.search(formula) is not None


def _close_gaps(formula: str) -> str:
    """`ENG.QUENCH (A1)` without its space, texts in quotes left alone."""
    pieces = re.split(r'("(?:[^"]|"")*")', formula)
    pieces[::2] = [_SPACED_CALL.sub(r"\1(", piece) for piece in pieces[::2]]
    return "".join(pieces)


@lru_cache(maxsize=4096)
def parse(formula: str) -> tuple[Part, ...]:
    """A formula (without "=") as parts, calls of our functions set apart.

    Raises ValueError where the text is no formula that can be cut into tokens.
    """
    tokens = tokens_of(formula)
    parts, end = _parts(tokens, 0)
    if end != len(tokens):
        raise ValueError("the formula has a bracket too many")
    return parts


@lru_cache(maxsize=4096)
def tokens_of(formula: str) -> tuple[Token, ...]:
    """A formula (without "=") as openpyxl's tokens, each LET written out.

    Raises ValueError where the text is no formula.
    """
    try:
        return without_lets(tuple(Tokenizer("=" + _close_gaps(formula)).items))
    except Exception as error:
        # The tokenizer raises what it likes at text that is no formula.
        raise ValueError(f"the formula cannot be read: {error}") from None


def _parts(tokens: tuple[Token, ...], at: int, level: int = 0) -> tuple[tuple[Part, ...], int]:
    """Parts from a token on; within a call, up to the separator or bracket that ends them."""
    parts: list[Part] = []
    text = ""
    depth = 0
    while at < len(tokens):
        token = tokens[at]
        if (
            level
            and depth == 0
            and (
                (token.type == Token.SEP and token.subtype == Token.ARG)
                or token.subtype == Token.CLOSE
            )
        ):
            break
        name = None
        if token.type == Token.FUNC and token.subtype == Token.OPEN:
            name = bare_name(token.value[:-1])
        if name is not None:
            call, at = _call(tokens, at, name, level + 1)
            if text:
                parts.append(Part(text))
                text = ""
            parts.append(Part(call.text, call))
            continue
        depth += (token.subtype == Token.OPEN) - (token.subtype == Token.CLOSE)
        text += token.value
        at += 1
    if text:
        parts.append(Part(text))
    return tuple(parts), at


def _call(tokens: tuple[Token, ...], at: int, name: str, level: int) -> tuple[Call, int]:
    spelled = tokens[at].value[:-1]
    if level > _DEEPEST:
        raise ValueError(f"the formula nests calls too deeply: more than {_DEEPEST} levels")
    arguments: list[tuple[Part, ...]] = []
    at += 1
    while True:
        parts, at = _parts(tokens, at, level)
        arguments.append(_trimmed(parts))
        if at >= len(tokens):
            raise ValueError(f"the call of {spelled} is not closed")
        token = tokens[at]
        at += 1
        if token.subtype == Token.CLOSE:
            break
    if len(arguments) == 1 and not arguments[0]:
        arguments = []
    inner = ",".join("".join(part.text for part in argument) for argument in arguments)
    return Call(name, spelled, tuple(arguments), f"{spelled}({inner})"), at


def _trimmed(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Parts without the white space around them."""
    if len(parts) == 1 and parts[0].call is None:
        text = parts[0].text.strip()
        return (Part(text),) if text else ()
    return tuple(p for p in parts if p.call or p.text.strip())


def calls_in(parts: tuple[Part, ...]) -> Iterator[Call]:
    """All calls, each before those in its arguments."""
    for part in parts:
        if part.call is not None:
            yield part.call
            for argument in part.call.arguments:
                yield from calls_in(argument)
