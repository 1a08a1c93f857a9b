"""A label's words in one even form: lower case, without accents, dots and punctuation."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

_NUMBER_SIGN = re.compile(r"\bn\s?[°º]|№|\bn\.\s?(?:[°ºo]\b\.?|(?=\d))")
_ORDINAL_MARK = re.compile(r"(?<=\d)\.?[°ºª]")
_DOTTED = re.compile(r"(?<![^\W\d_])([^\W\d_])\.(?=[^\W\d_](?![^\W\d_]))")
# Words written as one: MainJournal, cyl3; and no kW, nor 3rd.
_CAMEL = re.compile(r"[A-ZÀ-Þ](?<=[^\W\d_][a-zà-ÿ]{2}.)")
_GLUED = re.compile(r"\d(?<=[^\W\d_]{3}.)")
_TOKEN = re.compile(r"\d+(?:[.,]\d+)?(?:st|nd|rd|th)?\b|[^\W_]+|[#%&+/\-]")
_ALONE = {"ø": " ø ", "⌀": " ø ", "œ": "oe", "æ": "ae", "_": " ", "@": " at ", "–": "-", "—": "-"}
_OPENS = re.compile(r"\b([ae])\.?\s?ö\b")
# With and without, before what a German label names: "Bohrung o. Schalen", "m. Plastikfaden".
_WITH_OR_WITHOUT = re.compile(r"(?<=\w )([mo])\.\s?(?!Totp|Mitte)(?=[A-ZÄÖÜ][a-zäöüß]{3})")
_IN_FULL = {"m": "mit ", "o": "ohne "}
_GERMAN = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})


@lru_cache(maxsize=16384)
def tokens(text: str) -> tuple[str, ...]:
    """The words, numbers and signs of a text: "Ø Zyl.-Bohrung (oben)" is ø zyl - bohrung oben.

    A dotted abbreviation is one word (o.d. is od), a dot elsewhere only ends one. The signs
    kept are # % & + / -. Words written as one stand apart: "MainJournal2" is main journal 2.
    """
    # Each step is left out where a text has nothing for it: ten thousand words come by here.
    if not text.islower():
        text = _CAMEL.sub(_with_space, text)
    if " o." in text or " m." in text:
        text = _WITH_OR_WITHOUT.sub(lambda short: _IN_FULL[short[1]], text)
    even = text.casefold() if text.isalpha() else _GLUED.sub(_with_space, text).casefold()
    if not even.isascii() or "n." in even:
        even = _ORDINAL_MARK.sub("", _NUMBER_SIGN.sub(" no ", even))
    if not even.isascii() or "_" in even or "@" in even:
        for mark, meant in _ALONE.items():
            even = even.replace(mark, meant)
    if not even.isascii():
        # "EÖ" is no "E.O.", which opens the exhaust.
        even = _OPENS.sub(r"\1oe", even)
        decomposed = unicodedata.normalize("NFKD", even)
        even = "".join([c for c in decomposed if not unicodedata.combining(c)])
    return tuple(_TOKEN.findall(_DOTTED.sub(_first_group, even) if "." in even else even))


# A function is called for what is found only; a text with groups is looked through each time.
def _with_space(found: re.Match[str]) -> str:
    return f" {found[0]}"


def _first_group(found: re.Match[str]) -> str:
    return found[1]


_CUT = re.compile(r"([^\W\d_]{2,})\.")


@lru_cache(maxsize=8192)
def shortened(text: str) -> frozenset[str]:
    """The words of a text that a dot ends, as a short form has one: "Muñ. banc."."""
    return frozenset(word for found in _CUT.findall(text) for word in tokens(found))


@lru_cache(maxsize=16384)
def phrase(text: str) -> tuple[str, ...]:
    """The tokens of a text without its signs, "#" kept: what phrases are compared by."""
    return tuple(t for t in tokens(text) if t not in "%&+/-" or t == "%")


# The same word is listed for several languages.
@lru_cache(maxsize=16384)
def spelled(word: str) -> tuple[tuple[str, ...], ...]:
    """The even forms that a listed word can have: with umlauts dropped, and written out."""
    if word.isascii() and word.islower() and word.replace(" ", "").isalpha():
        # As most of ten thousand words are: small letters and nothing to even out.
        return (tuple(word.split()),)
    plain = phrase(word)
    written_out = phrase(word.casefold().translate(_GERMAN))
    return (plain,) if plain == written_out else (plain, written_out)


def phrases(words: Iterable[str]) -> frozenset[tuple[str, ...]]:
    """The even forms of all words of a list."""
    return frozenset(form for word in words for form in spelled(word))
