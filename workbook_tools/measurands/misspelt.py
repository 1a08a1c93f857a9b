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
def _listed_in(languages: tuple[Language, ...]) -> list[str]:
    """The words of languages that a misspelt one may be near to."""
    return sorted({w for language in languages for w in _long_words(language)})


@cache
def _by_first_letter(
    languages: tuple[Language, ...],
) -> Mapping[str, list[tuple[str, frozenset[str]]]]:
    """The same by their first letter, each with the letters that it has."""
    found: dict[str, list[tuple[str, frozenset[str]]]] = {}
    for word in _listed_in(languages):
        found.setdefault(word[0], []).append((word, frozenset(word)))
    return found


def _may_be_near(word: str, languages: tuple[Language, ...]) -> bool:
    """Whether a listed word shares letters enough to be near, as `fuzz.ratio` counts at most.

    Few words have such a one, and comparing letter by letter with all takes long.
    """
    mine = frozenset(word)
    for other, theirs in _by_first_letter(languages).get(word[0], ()):
        shared = min(len(word) - len(mine - theirs), len(other) - len(theirs - mine))
        if 200 * shared >= _ALIKE * (len(word) + len(other)):
            return True
    return False


@lru_cache(maxsize=8192)
def nearest_listed(word: str, languages: tuple[Language, ...]) -> str:
    """The one listed word that a misspelt one is nearest to, "" where none is near enough."""
    if len(word) < LEAST_LETTERS or not word.isalpha() or not _may_be_near(word, languages):
        return ""
    from rapidfuzz import fuzz, process

    listed = _listed_in(languages)
    alike = process.extract(word, listed, scorer=fuzz.ratio, score_cutoff=_ALIKE, limit=3)
    alike = [one for one in alike if one[0][0] == word[0]]
    if not alike:
        return ""
    best = [one[0] for one in alike if one[1] == alike[0][1]]
    meanings = {lookup((one,), languages) for one in best}
    return best[0] if len(meanings) == 1 else ""
