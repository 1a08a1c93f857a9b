"""What short forms stand for: words cut short with a dot (muñ. banc.), or without vowels (gskt)."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from workbook_tools.measurands.lexicon import Phrase, Sense, senses
from workbook_tools.measurands.measurand import Language

# So many consonants tell a word, and so many things a short form may stand for.
_LEAST_CONSONANTS, _MOST_MEANT = 3, 3
_VOWELS = frozenset("aeiouy")
_NO_VOWELS = str.maketrans("", "", "aeiouy")
_DOUBLED = re.compile(r"(.)\1")


@lru_cache(maxsize=8192)
def cut_short(
    phrase: Phrase, languages: tuple[Language, ...], cut: frozenset[str]
) -> tuple[Sense, ...]:
    """The senses of the phrases that begin like one with words cut short: "haut. compr."

    cut: its words with a dot. Phrases that mean too many things say nothing: ().
    """
    first = phrase[0]
    # Most listed phrases are told apart by their first word.
    return _senses_of(
        (listed, several)
        for language in languages
        for listed, several in _by_beginning(language).get((len(phrase), first[:2]), ())
        if (listed[0].startswith(first) if first in cut else listed[0] == first)
        and all(
            full.startswith(word) if word in cut else full == word
            for word, full in zip(phrase, listed, strict=True)
        )
    )


@cache
def _by_beginning(
    language: Language,
) -> dict[tuple[int, str], list[tuple[Phrase, tuple[Sense, ...]]]]:
    """The phrases of so many words that begin with a letter or two, in the order of the lists."""
    found: dict[tuple[int, str], list[tuple[Phrase, tuple[Sense, ...]]]] = {}
    for listed, several in senses()[language].items():
        for beginning in {listed[0][:1], listed[0][:2]}:
            found.setdefault((len(listed), beginning), []).append((listed, several))
    return found


def _senses_of(alike: Iterable[tuple[Phrase, tuple[Sense, ...]]]) -> tuple[Sense, ...]:
    """The senses of phrases that a short form may stand for, the shortest first."""
    found = sorted(alike, key=lambda one: (len(" ".join(one[0])), one[0]))
    likeliest = dict.fromkeys(several[0] for _, several in found)
    if len(likeliest) > _MOST_MEANT:
        return ()
    told = dict.fromkeys((*likeliest, *(s for _, several in found[:1] for s in several)))
    # What is about no measurement is the last that a short form stands for: "del." is in front.
    return tuple(sorted(told, key=lambda sense: bool(sense.section)))


def by_consonants(word: str, languages: tuple[Language, ...]) -> tuple[Sense, ...]:
    """The senses of the words that these are the consonants of, where all mean one thing."""
    if len(word) < _LEAST_CONSONANTS or _VOWELS & {*word}:
        return ()
    alike = [one for language in languages for one in _words_of_consonants(language).get(word, ())]
    return _senses_of(alike) if len({several[0] for _, several in alike}) == 1 else ()


@cache
def _words_of_consonants(
    language: Language,
) -> dict[str, list[tuple[Phrase, tuple[Sense, ...]]]]:
    """{consonants: the words that have them}; the first letter counts whatever it is."""
    found: dict[str, list[tuple[Phrase, tuple[Sense, ...]]]] = {}
    for listed, several in senses()[language].items():
        if len(listed) == 1:
            rest = _DOUBLED.sub(lambda pair: pair[1], listed[0][1:].translate(_NO_VOWELS))
            found.setdefault(listed[0][0] + rest, []).append((listed, several))
    return found
