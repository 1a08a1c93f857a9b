"""A formula as it is copied from one cell to another, its references moved along."""

from __future__ import annotations

from openpyxl.formula.tokenizer import Token
from openpyxl.formula.translate import Translator, TranslatorError

from workbook_tools.formulas.tokens import tokens_of


def moved(formula: str, origin: str, to: str) -> str:
    """A formula or reference (without "=") as it is copied to another cell.

    origin, to: addresses of the cells. "" where a reference would leave the sheet.
    """
    try:
        translated = Translator("=" + formula, origin=origin).translate_formula(to)
    except TranslatorError:
        return ""
    return str(translated).removeprefix("=")


def pattern(formula: str, at: str, other: str, there: str) -> tuple[tuple[str, bool], ...] | None:
    """A formula's parts, each with whether it moves along, where two formulas are alike.

    formula, other: without "="; at, there: the addresses of their cells. A reference of the
    one must be that of the other, moved along, or the same cell: builders write B9 as often as
    $B$9 for a size of the whole engine. None where they are not alike.
    """
    try:
        ours, theirs = tokens_of(formula), tokens_of(other)
    except ValueError:
        return None
    if len(ours) != len(theirs):
        return None
    parts = []
    for one, two in zip(ours, theirs, strict=True):
        stays = one.value == two.value
        if not stays and (one.subtype != Token.RANGE or moved(one.value, at, there) != two.value):
            return None
        parts.append((one.value, one.subtype == Token.RANGE and not stays))
    return tuple(parts)


def filled(parts: tuple[tuple[str, bool], ...], origin: str, to: str) -> str:
    """The formula that a pattern gives in another cell."""
    return "".join(moved(part, origin, to) if moves else part for part, moves in parts)
