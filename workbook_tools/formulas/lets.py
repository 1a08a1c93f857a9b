"""LET in a formula: the names that it gives, put back as what they stand for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from openpyxl.formula.tokenizer import Token

_LET = ("LET(", "_XLFN.LET(")
# Names that use one another can double a formula with each; beyond this it stays as it is.
_MOST_TOKENS = 4000

_Tokens = tuple[Token, ...]


def without_lets(tokens: _Tokens) -> _Tokens:
    """A formula's tokens with each LET written out, so that its calls name their own cells.

    tokens: as openpyxl cuts a formula. A LET that is none, or that would grow beyond reason,
    is left as it stands, and its names then cannot be followed.
    """
    while True:
        starts = [n for n, token in enumerate(tokens) if _is_let(token)]
        if not starts:
            return tokens
        # The last one to begin has no other inside.
        written = _written_out(tokens, starts[-1])
        if written is None or len(written) > _MOST_TOKENS:
            return tokens
        tokens = written


def _is_let(token: Token) -> bool:
    return token.type == Token.FUNC and token.subtype == Token.OPEN and token.value.upper() in _LET


def _written_out(tokens: _Tokens, start: int) -> _Tokens | None:
    arguments, end = _arguments(tokens, start + 1)
    if end == len(tokens) or len(arguments) < 3 or len(arguments) % 2 == 0:
        return None
    meant: dict[str, _Tokens] = {}
    for name, value in zip(arguments[:-1:2], arguments[1::2], strict=True):
        if len(name) != 1 or name[0].type != Token.OPERAND or not value:
            return None
        meant[_name(name[0])] = _as_one(_replaced(value, meant))
        if len(meant[_name(name[0])]) > _MOST_TOKENS:
            return None
    body = _as_one(_replaced(arguments[-1], meant))
    return tokens[:start] + body + tokens[end + 1 :] if body else None


def _arguments(tokens: _Tokens, at: int) -> tuple[list[_Tokens], int]:
    """The arguments of a function from after its bracket, and where its closing one stands."""
    found: list[list[Token]] = [[]]
    depth = 0
    while at < len(tokens):
        token = tokens[at]
        if depth == 0 and token.subtype == Token.CLOSE:
            break
        if depth == 0 and token.type == Token.SEP and token.subtype == Token.ARG:
            found.append([])
        else:
            depth += (token.subtype == Token.OPEN) - (token.subtype == Token.CLOSE)
            found[-1].append(token)
        at += 1
    return [_trimmed(one) for one in found], at


def _trimmed(tokens: Sequence[Token]) -> _Tokens:
    """Tokens without the white space around them."""
    inside = [n for n, token in enumerate(tokens) if token.type != Token.WSPACE]
    return tuple(tokens[inside[0] : inside[-1] + 1]) if inside else ()


def _name(token: Token) -> str:
    return str(token.value).lower().removeprefix("_xlpm.")


def _replaced(tokens: _Tokens, meant: Mapping[str, _Tokens]) -> _Tokens:
    """Tokens with names put back as what they stand for."""
    found: list[Token] = []
    for token in tokens:
        is_name = token.type == Token.OPERAND and token.subtype == Token.RANGE
        found.extend(meant.get(_name(token), (token,)) if is_name else (token,))
    return tuple(found)


def _as_one(tokens: _Tokens) -> _Tokens:
    """Tokens that stay together wherever they are put: in brackets, unless they are one."""
    if len(tokens) < 2:
        return tokens
    if tokens[0].subtype == Token.OPEN:
        _, end = _arguments(tokens, 1)
        if end == len(tokens) - 1:
            return tokens
    return (Token("(", Token.PAREN, Token.OPEN), *tokens, Token(")", Token.PAREN, Token.CLOSE))
