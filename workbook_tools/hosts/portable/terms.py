"""Pieces of formula text: how they bind, how constants are written, how they are put together."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any


class NotPortable(Exception):
    """Source that has no formula text; the message says why, for the reference."""


# How tightly a piece of formula text binds. A worksheet binds the sign of -a^2 to a, unlike
# Python, so a sign is always kept apart from a power.
COMPARE, ADD, MULTIPLY, POWER, SIGN, ATOM = range(1, 7)

BAD = "#VALUE!"
DIGITS = 15
LONGEST_LITERAL = 255  # Excel takes no text in quotation marks that is longer.
_NO_CONSTANT = object()


@dataclass(frozen=True)
class Term:
    """A piece of formula text and what the compiler knows about its value.

    binds: how tightly its outermost operator binds; words: the words it can be, where it is
    a text parameter with choices, or the numbers, where it is a row of a table; is_text: whether
    it is a text; constant: its value where that is known; omitted: the test whether it was left
    out, where its default is None.
    """

    text: str
    binds: int = ATOM
    words: tuple[Any, ...] = ()
    is_text: bool = False
    constant: Any = _NO_CONSTANT
    omitted: str = ""

    @property
    def known(self) -> bool:
        """Whether the value is a constant."""
        return self.constant is not _NO_CONSTANT

    def at_least(self, binds: int) -> str:
        """The text, in parentheses unless it binds at least so tightly."""
        return self.text if self.binds >= binds else f"({self.text})"


def literal(value: object) -> Term:
    """A constant as formula text."""
    if value is None:
        return Term(BAD, constant=None)
    if isinstance(value, bool):
        return Term("TRUE" if value else "FALSE", constant=value)
    if isinstance(value, str):
        return Term(_quoted(value), is_text=True, constant=value)
    if isinstance(value, (int, float)) and math.isfinite(value):
        text = _number(float(value))
        return Term(text, SIGN if text.startswith("-") else ATOM, constant=value)
    raise NotPortable(f"it uses {value!r}, which a worksheet cannot hold")


def _quoted(value: str) -> str:
    """A text in quotation marks, or several joined where it is too long for one."""
    starts = range(0, len(value) or 1, LONGEST_LITERAL)
    parts = [value[at : at + LONGEST_LITERAL].replace('"', '""') for at in starts]
    text = "&".join(f'"{part}"' for part in parts)
    return f"({text})" if len(parts) > 1 else text


def _number(value: float) -> str:
    """A number as text that gives this very float.

    A worksheet reads 15 digits of a constant. A factor that needs more is written as what it
    is (5/9, PI()/180), or as the sum of its first 15 digits and the rest.
    """
    text = repr(value).upper().removesuffix(".0")
    if len(re.sub(r"E.*|[^0-9]", "", text).strip("0")) <= DIGITS:
        return text
    for base, base_text in ((1.0, ""), (math.pi, "PI()")):
        ratio = Fraction(value / base).limit_denominator(1000)
        top, bottom = ratio.numerator, ratio.denominator
        if base * top / bottom == value:
            above = base_text if top == 1 and base_text else f"{top}*{base_text}".rstrip("*")
            below = "" if bottom == 1 else f"/{bottom}"
            return f"({above}{below})"
    first = float(f"{value:.{DIGITS}g}")
    rests = (float(f"{value - first:.{digits}g}") for digits in range(1, DIGITS))
    rest = next(r for r in rests if first + r == value)
    return f"({_number(first)}{'+' if rest > 0 else ''}{_number(rest)})"


def either(test: str, value: str, other: str) -> str:
    """IF as formula text."""
    return f"IF({test},{value},{other})"


def guarded(checks: Sequence[str], result: str) -> str:
    """A result that is an error unless all checks hold, element by element."""
    return either("*".join(checks), result, BAD) if checks else result


def function_text(parameters: Sequence[str], result: str) -> str:
    """LAMBDA as stored, or the result alone where there are no parameters."""
    return f"_xlfn.LAMBDA({','.join([*parameters, result])})" if parameters else result


def let(bindings: Iterable[tuple[str, str]], result: str) -> str:
    """LET as stored, or the result alone where nothing is bound."""
    pairs = "".join(f"{name},{text}," for name, text in bindings)
    return f"_xlfn.LET({pairs}{result})" if pairs else result


_REFERENCE = re.compile(r"[A-Z]{1,3}[0-9]+|R[0-9]*(C[0-9]*)?|C[0-9]*|TRUE|FALSE|PI")


@dataclass
class Definition:
    """The LET of one worksheet function while it is being written.

    bindings: name and text in order; every name in the text is used once only, whatever
    its case, and none can be read as a cell. open: the functions being written.
    """

    bindings: list[tuple[str, str]] = field(default_factory=list)
    _taken: set[str] = field(default_factory=set)
    _shared: dict[object, str] = field(default_factory=dict)
    open: list[Callable[..., Any]] = field(default_factory=list)

    def fresh(self, name: str) -> str:
        """A name that is free and no cell reference, as stored in the file."""
        free = f"{name}_" if _REFERENCE.fullmatch(name.upper()) else name
        for number in itertools.count(2):
            if free.upper() not in self._taken:
                self._taken.add(free.upper())
                return f"_xlpm.{free}"
            free = f"{name}_{number}"
        raise AssertionError

    def bind(self, name: str, text: str) -> str:
        """Bind a new name to a text in the LET; the name as stored."""
        stored = self.fresh(name)
        self.bindings.append((stored, text))
        return stored

    def shared(self, key: object, name: str, make: Callable[[], str]) -> str:
        """The name of a LAMBDA that is bound where first needed, for all later uses."""
        if key not in self._shared:
            self._shared[key] = self.bind(name, make())
        return self._shared[key]
