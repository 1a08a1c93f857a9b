"""Find calls of worksheet functions in formula text, in every spelling a file can hold."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from openpyxl.formula.tokenizer import Token

from workbook_tools.catalog import PREFIX, ArgumentError, Function, entries, find
from workbook_tools.formulas.call_names import bare_name
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.quantities.nearest import nearest

# Calls within calls: Excel allows 64 levels (from memory).
_DEEPEST = 64


class Part(NamedTuple):
    """A stretch of a formula: plain text, or a call of a worksheet function."""

    text: str
    call: Call | None = None


class Call(NamedTuple):
    """A call as it stands in a formula.

    name: bare and upper-case ("QUENCH"); spelled: as in the file; arguments: each a tuple
    of parts, empty for an argument that is left blank; text: the whole call.
    """

    name: str
    spelled: str
    arguments: tuple[tuple[Part, ...], ...]
    text: str


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


def known_function(call: Call) -> Function:
    """The catalog's function of a call. Raises ArgumentError, with the nearest name, if none."""
    function = find(call.name)
    if function is None:
        near = nearest(call.name, [f.name for f in entries()], 0.5)
        hint = f"the nearest is {PREFIX}.{near}" if near else "see `workbook-tools functions`"
        raise ArgumentError(
            call.spelled, f"a function of the catalog ({hint})", "a name that is not in it"
        )
    return function
