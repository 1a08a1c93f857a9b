"""Values that stand in a formula as they are, read and written: 0.044, "38 thou", {1,2;3,4}."""

from __future__ import annotations

import re
from functools import lru_cache

from openpyxl.formula.tokenizer import Token, Tokenizer

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")


@lru_cache(maxsize=4096)
def read_literal(text: str) -> tuple[bool, object]:
    """(True, value) of a number, text, TRUE, FALSE or array; (False, None) of anything else."""
    even = text.strip()
    if _NUMBER.fullmatch(even):
        return True, float(even)
    if len(even) > 1 and even[0] == even[-1] == '"' and '"' not in even[1:-1].replace('""', ""):
        return True, even[1:-1].replace('""', '"')
    if even.upper() in ("TRUE", "FALSE"):
        return True, even.upper() == "TRUE"
    if even.startswith("{") and even.endswith("}"):
        return _array_constant(even)
    if even.endswith("%") and _NUMBER.fullmatch(even[:-1]):
        return True, float(even[:-1]) / 100
    return False, None


def _array_constant(text: str) -> tuple[bool, object]:
    """(True, rows) of an array constant such as {1,2;3,4}, (False, None) of other text."""
    rows: list[tuple[object, ...]] = []
    row: list[object] = []
    sign = ""
    for token in Tokenizer("=" + text).items:
        if token.type == Token.OP_PRE:
            sign = token.value
        elif token.type == Token.OPERAND:
            known, value = read_literal(sign + token.value)
            if not known:
                return False, None
            row.append(value)
            sign = ""
        elif token.subtype == Token.ROW:
            rows.append(tuple(row))
            row = []
    rows.append(tuple(row))
    return (True, tuple(rows)) if len({len(r) for r in rows}) == 1 else (False, None)


def literal(value: object) -> str:
    """A number, a text or rows of them as they stand in a formula."""
    if isinstance(value, str):
        return _element(value)
    if isinstance(value, tuple):
        return "{" + ";".join(",".join(map(_element, row)) for row in value) + "}"
    return f"({value!r})"


def _element(value: object) -> str:
    return '"' + value.replace('"', '""') + '"' if isinstance(value, str) else repr(value)
