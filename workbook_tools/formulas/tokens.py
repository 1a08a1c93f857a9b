"""A formula cut into tokens, with each LET written out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from openpyxl.formula.tokenizer import Token, Tokenizer

from workbook_tools.catalog import PREFIX
from workbook_tools.formulas.lets import without_lets

# No more than letters of a name, a number or an address: nothing that ends or begins a token.
_PLAIN = re.compile(r"[A-Za-z0-9_.$]+")
_SPACED_CALL = re.compile(rf"(\b{PREFIX}[._]\w+)\s+\(", re.IGNORECASE)


def _close_gaps(formula: str) -> str:
    """`ENG.QUENCH (A1)` without its space, texts in quotes left alone."""
    pieces = re.split(r'("(?:[^"]|"")*")', formula)
    pieces[::2] = [_SPACED_CALL.sub(r"\1(", piece) for piece in pieces[::2]]
    return "".join(pieces)


class _InRuns(Tokenizer):
    """openpyxl's tokenizer, which goes letter by letter, with plain letters taken in one step."""

    def check_scientific_notation(self) -> bool:
        """Whether something was added to a token; asked before each step."""
        plain = _PLAIN.match(self.formula, self.offset)
        if plain is None:
            return bool(super().check_scientific_notation())  # type: ignore[no-untyped-call]
        self.token.append(plain[0])
        self.offset = plain.end()
        return True


@lru_cache(maxsize=4096)
def tokens_of(formula: str) -> tuple[Token, ...]:
    """A formula (without "=") as openpyxl's tokens, each LET written out.

    Raises ValueError where the text is no formula.
    """
    try:
        return without_lets(_with_cells(formula))
    except Exception as error:
        # The tokenizer raises what it likes at text that is no formula.
        raise ValueError(f"the formula cannot be read: {error}") from None


# In place of an address: no file can hold it, and it neither begins nor ends a token.
_BLANK = "\0"
_CELL = re.compile(rf"((?<![\w.$])\$?[A-Za-z]{{1,3}}\$?\d{{1,7}}(?![\w.$(])|{_BLANK})")


def _with_cells(formula: str) -> tuple[Token, ...]:
    """A formula's tokens: those of its form, with the addresses of its own put back."""
    pieces = _CELL.split(formula)
    try:
        tokens = _tokens_of_form(_BLANK.join(pieces[::2]))
    except Exception:
        return tuple(_InRuns("=" + _close_gaps(formula)).items)  # For an error that quotes it.
    cells = iter(pieces[1::2])
    return tuple([_filled(token, cells) if _BLANK in token.value else token for token in tokens])


def _filled(token: Token, cells: Iterator[str]) -> Token:
    first, *others = token.value.split(_BLANK)
    value = "".join([first, *(f"{next(cells)}{text}" for text in others)])
    return Token(value, token.type, token.subtype)


# Formulas copied down a column differ in nothing but addresses.
@lru_cache(maxsize=1024)
def _tokens_of_form(formula: str) -> tuple[Token, ...]:
    return tuple(_InRuns("=" + _close_gaps(formula)).items)
