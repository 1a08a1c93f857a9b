"""The one known word that a misspelt one is nearest to."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache, lru_cache

from workbook_tools.measurands.lexicon import senses
from workbook_tools.measurands.lookup import LEAST_LETTERS, lookup
from workbook_tools.measurands.measurand import Language

# How alike a misspelt word must be, of 100.
_ALIKE = 86.0


@cache
def _long_words(language: Language) -> tuple[str, ...]:
    return tuple(p[0] for p in senses()[language] if len(p) == 1 and len(p[0]) >= LEAST_LETTERS)


@cache
def _by_length(languages: tuple[Language, ...]) -> Mapping[int, list[str]]:
    """The words of languages that a misspelt one may be near to, by how many letters they have."""
    found: dict[int, list[str]] = {}
    for word in {w for language in languages for w in _long_words(language)}:
        found.setdefault(len(word), []).append(word)
    return found


@cache
def _of_like_length(letters: int, languages: tuple[Language, ...]) -> list[str]:
    """Those of them that a word of so many letters can be near enough to.

    As `fuzz.ratio` counts, each letter that one has more than the other makes them less alike.
    """
    return sorted(
        word
        for other, words in _by_length(languages).items()
        if 200 * min(other, letters) >= _ALIKE * (other + letters)
        for word in words
    )


@cache
def _letters_of(languages: tuple[Language, ...]) -> Mapping[tuple[str, int], list[frozenset[str]]]:
    """{(first letter, how many letters): the letters of each word}."""
    found: dict[tuple[str, int], list[frozenset[str]]] = {}
    for letters, words in _by_length(languages).items():
        for word in words:
            found.setdefault((word[0], letters), []).append(frozenset(word))
    return found


def _may_be_near(word: str, languages: tuple[Language, ...]) -> bool:
    """Whether a listed word that begins alike shares letters enough to be near at most.

    Few words have such a one, and comparing letter by letter with all takes long.
    """
    mine, long, listed = frozenset(word), len(word), _letters_of(languages)
    for other in range(long * 3 // 4, long * 4 // 3 + 1):
        enough = _ALIKE * (long + other) / 200
        for theirs in listed.get((word[0], other), ()):
            if len(mine - theirs) <= long - enough and len(theirs - mine) <= other - enough:
                return True
    return False


@lru_cache(maxsize=8192)
def nearest_listed(word: str, languages: tuple[Language, ...]) -> str:
    """The one listed word that a misspelt one is nearest to, "" where none is near enough."""
    if len(word) < LEAST_LETTERS or not word.isalpha() or not _may_be_near(word, languages):
        return ""
    from rapidfuzz import fuzz, process

    listed = _of_like_length(len(word), languages)
    alike = process.extract(word, listed, scorer=fuzz.ratio, score_cutoff=_ALIKE, limit=3)
    alike = [one for one in alike if one[0][0] == word[0]]
    if not alike:
        return ""
    best = [one[0] for one in alike if one[1] == alike[0][1]]
    meanings = {lookup((one,), languages) for one in best}
    return best[0] if len(meanings) == 1 else ""
