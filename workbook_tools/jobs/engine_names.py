"""Whether words without a label name an engine: cylinders, layout, size, fuel, and no limit."""

from __future__ import annotations

import re

from workbook_tools.jobs.field_values import engine_alone
from workbook_tools.labels.dates import leading_date
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.tokens import phrase
from workbook_tools.quantities import unit_expression

# How an engine is laid out, how many cylinders it has, what it burns, how it breathes.
_KIND = re.compile(
    r"(?<![\w-])(?:[vwrihl][\s-]?\d{1,2}(?![\d.,])|\d{1,2}[\s-]?(?:cyl|zyl|cil)[^\W\d_]*\.?"
    r"|v[\s-]?twin|(?:parallel |vertical )?twin(?![\s-](?:cam|carb|port|plug|turbo|choke)[^\W\d_]*)"
    r"|twin cam (?:four|six|eight)|single(?![\s-](?:cam|carb|plug|turbo))|triple"
    r"|(?:small|big|short|long)[\s-]?block|sbc|bbc|flathead|side[\s-]?valve|push[\s-]?rod"
    r"|flat[\s-](?:four|six|twin|4|6)|(?:in-?line|straight|slant)(?:[\s-](?:\d{1,2}(?![\d.,])|[^\W\d_]+))?"
    r"|\d{1,2} (?:en ligne|en línea|in linea)"
    r"|four(?![\s-](?:stroke|valve|bolt|speed))|five|six|eight|twelve|boxer|diesel|diésel|gasoil"
    r"|petrol|gasoline|benzin|benziner|essence|benzina|gasolina|nafta|turbo|turbodiesel"
    r"|(?:ein|zwei|drei|vier|fünf|sechs|acht|zwölf)zylinder[^\W\d_]*|reihen?(?:vier|sechs|drei|fünf)[^\W\d_]*"
    r"|(?:mono|bi|tri|quadri)?cylindres?|(?:mono|bi|tri|tetra|quadri)?cil[ií]ndr[^\W\d_]*"
    r"|bialbero|monoalbero|two[\s-]?stroke|four[\s-]?stroke|[24][\s-]?stroke|zweitakter|viertakter"
    r"|(?:d|s)?ohc|ohv)(?![\w-])",
    re.IGNORECASE,
)
# How large it is, as a number that stands in no range and is no part of another.
_SIZE = re.compile(
    r"(?<![\w.,/+#-])(?:[1-9]\d?[.,]\d{1,2}|[1-9]\d{1,3}|[1-9][.,]\d{3})"
    r"(?:\s?(?:l|lt|ltr|lit(?:er|re)s?|litros?|litri|cc|ccm|cm3|cm³|ci|cid|cu\.? ?in)"
    r"(?![^\W\d_])\.?)?"
    r"(?![\w.,/%°*-])",
    re.IGNORECASE,
)
# What an engine is bored to, or by how much: "383 small block .030 over", "V6 3.0, +0.5 pistons".
_OVERSIZE = re.compile(
    r"\s+(?:[+-]\s?[.,]?\d|(?:bored |now )?[.,]?\d[\d.,]*\s?(?:over|o/s|thou|mm|übermaß|os)\b).*",
    re.IGNORECASE,
)
# Whose it is or what it goes in: "six 230 for Grandpa's truck".
_FOR = re.compile(r"\s+(?:for|für|pour|para|per|in)\s+(?=[^\W\d_]).*", re.IGNORECASE)
# Two numbers that are the ends of what is allowed.
_RANGE = re.compile(r"\d\s?(?:-|–|…|\.\.|to|bis|à|a|until)\s?[.,]?\d", re.IGNORECASE)
_OF_ENGINES = re.compile(
    r"l|lt|ltr|liter|litre|liters|litres|litros?|litri|cc|ccm|ci|cid|hp|bhp|ps|cv|kw|cyl", re.I
)
_LIMITS = ("target", "limit")
# A word that could mean so much else says nothing.
_MOST_ASSUMED = 3


def has_kind(text: str) -> bool:
    """Whether a text has a word for the kind of an engine: its layout, cylinders or fuel."""
    return _KIND.search(text) is not None


def is_surely_engine(text: str) -> bool:
    """Whether a text names an engine by its kind and by its size."""
    return has_kind(text) and _SIZE.search(without_kind(text)) is not None


def without_kind(text: str) -> str:
    """A text without its words for the kind of an engine."""
    return _KIND.sub(" ", text)


def ends_with_kind(text: str) -> bool:
    """Whether the last words of a text are for the kind of an engine: "383 small block"."""
    return any(found.end() == len(text) for found in _KIND.finditer(text))


def is_no_engine(text: str, vocabulary: Vocabulary) -> bool:
    """Whether a text with a number in it cannot be the name of an engine.

    A limit or a range, "want 1.8 to 3.0", what came on a day, and without a word for its kind
    what is measured: "Spring seat lb ok 118-128?".
    """
    if "?" in text or _RANGE.search(text) or _has_date(text):
        return True
    own = [word.strip(".,:;") for word in text.split()]
    # "Mini stock 2.3 four" tells a class, "stock 4.000" a size.
    if any(_is_unit(one) or (_is_limit(one) and not is_surely_engine(text)) for one in own):
        return True
    return not has_kind(text) and any(_is_of_trade(word, vocabulary) for word in own)


def _has_date(text: str) -> bool:
    parts = text.split()
    return any(leading_date(" ".join(parts[at:])) for at in range(len(parts)))


def _is_limit(word: str) -> bool:
    told = which_of(word) if word.isalpha() else None
    return told is not None and told.stage in _LIMITS


def _is_unit(word: str) -> bool:
    """Whether a word is a unit that no engine's size or power is told in."""
    known = word.isalpha() and len(word) > 1 and word.islower()
    return known and not _OF_ENGINES.fullmatch(word) and unit_expression(word) is not None


def _is_of_trade(word: str, vocabulary: Vocabulary) -> bool:
    if not word.isalpha() or len(word) == 1:
        return False
    candidates = meaning_of(word).candidates
    named = bool(candidates) and candidates[0].cost <= _MOST_ASSUMED
    return (named or vocabulary.match(word) is not None) and not vocabulary.job.is_title(word)


def engine_told(text: str, vocabulary: Vocabulary) -> str:
    """An engine without its oversize, without whose it is and without what it is fitted in.

    "383 small block" of "383 small block .030 over"; the whole text where nothing else is told.
    """
    told = _OVERSIZE.sub("", text)
    without = _FOR.sub("", told)
    told = without if is_surely_engine(without) else told
    told = engine_alone(told)
    own = told.split()
    while len(own) > 1 and is_surely_engine(" ".join(own[:-1])) and _is_behind(own[-1], vocabulary):
        own.pop()
    return " ".join(own)


_LINKS = {"of", "the", "du", "de", "des", "del", "di", "aus", "vom", "der"}


def _is_behind(word: str, vocabulary: Vocabulary) -> bool:
    """Whether a word behind an engine tells what that goes in, or leads to it."""
    return word.casefold() in _LINKS or phrase(word) in vocabulary.job.fitted
