"""What the words of a label mean as they stand: in each language, as a unit, or joining others."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from itertools import chain

from workbook_tools.measurands.compounds import senses_of_compound
from workbook_tools.measurands.lexicon import Phrase, Sense, rules, senses, unit_kinds
from workbook_tools.measurands.measurand import LANGUAGES, Language
from workbook_tools.quantities import READING, UnreadableText, unit_expression, unit_named

# So many letters a word has at least that another may be taken for.
LEAST_LETTERS = 5


def only_joins(even: Sequence[str], spot: int) -> bool:
    """Whether a word with a meaning in one language joins words of another: spinotto in biella.

    Of the word behind it, or before the last, only other languages know the meaning.
    """
    word = even[spot]
    if word not in rules().fillers or not spot:
        return False
    beside = even[spot + 1] if spot + 1 < len(even) else even[spot - 1]
    known = {language for language in LANGUAGES if _is_known(beside, language)}
    return bool(known) and not any((word,) in senses()[language] for language in known)


def languages_of(words: Iterable[str]) -> frozenset[Language]:
    """The languages that all words may be of which any language knows; all where none is known."""
    found = frozenset(LANGUAGES)
    for word in words:
        known = frozenset(one for one in LANGUAGES if _is_known(word, one))
        found = found & known or found
    return found


@cache
def own_words() -> Mapping[str, Language]:
    """The longer words that lists of one language have alone, with it."""
    found: dict[str, Language | None] = {}
    for language in LANGUAGES:
        for word in {word for phrase in senses()[language] for word in phrase}:
            if len(word) >= LEAST_LETTERS - 1:
                found[word] = None if word in found else language
    return {word: language for word, language in found.items() if language is not None}


def side_of_letter(letter: str, words: Iterable[str]) -> str:
    """The valve that a letter stands for beside words of one language, "" where they do not tell.

    An A is the intake in French, and the exhaust in German.
    """
    meant = {rules().side_letters.get(one, {}).get(letter) for one in languages_of(words)}
    side = next(iter(meant), None)
    return side or "" if len(meant) == 1 else ""


@lru_cache(maxsize=8192)
def _is_known(word: str, language: Language) -> bool:
    """Whether a language has a word, or in German the words of a compound."""
    listed = any((form,) in senses()[language] for form in (word, *singular(word)))
    return listed or (language == "de" and bool(senses_of_compound(word, False)))


@lru_cache(maxsize=16384)
def lookup(phrase: Phrase, languages: tuple[Language, ...]) -> tuple[Sense, ...]:
    """The senses of a phrase: as written, with short words written out, as a unit."""
    found: list[tuple[Sense, ...]] = []
    for language in languages:
        listed = senses()[language]
        meant = listed.get(phrase)
        short = rules().same_word.get(language, {})
        if meant is None and not short.keys().isdisjoint(phrase):
            written_out = tuple(part for word in phrase for part in short.get(word, word).split())
            meant = listed.get(written_out)
        if meant is not None:
            found.append(meant)
    if not found:
        kind = unit_kind(phrase)
        return (Sense(unit=kind),) if kind else ()
    # Most words are of one language, and no list has a sense twice.
    return found[0] if len(found) == 1 else tuple(dict.fromkeys(chain.from_iterable(found)))


def without_joints(phrase: Phrase) -> Phrase:
    """A phrase without the words between its first and last that only join: vor dem Honen."""
    inner = (word for word in phrase[1:-1] if word not in rules().joints)
    return (phrase[0], *inner, phrase[-1]) if len(phrase) > 2 else phrase


@lru_cache(maxsize=16384)
def unit_kind(phrase: Phrase) -> str:
    """The kind of quantity that a phrase is a unit of, "" where it is none."""
    if phrase in unit_kinds():
        return unit_kinds()[phrase]
    text = " ".join(phrase)
    if phrase[0] == "in" and phrase[-1].isdigit():
        return ""  # "Guide in 3": the third intake.
    if phrase[0].isdigit() or len(phrase) > 2 or unit_expression(text, READING.name) is None:
        return ""
    try:
        return unit_named(text)[0].name
    except UnreadableText:
        return ""


# A participle of a Romance language: rectificada, levigate, spianati.
_PARTICIPLE = re.compile(r"(.{4,}[dt])(?:a|as|os|i|e)")


def singular(word: str) -> Iterator[str]:
    """What a word may be the plural of, or another case or gender of."""
    if of_another := _PARTICIPLE.fullmatch(word):
        yield f"{of_another[1]}o"
    for ending in ("s", "es", "n", "en", "e"):
        if word.endswith(ending) and len(word) - len(ending) >= LEAST_LETTERS - 1:
            yield word.removesuffix(ending)


@cache
def reach_of(languages: tuple[Language, ...]) -> Mapping[str, int]:
    """{word: how many words the longest phrase has that begins with it}, where more than two.

    So that runs of words which no list can have are not looked up.
    """
    found = {phrase[0]: len(phrase) for phrase in unit_kinds() if len(phrase) > 2}
    for language in languages:
        own: dict[str, int] = {}
        for phrase in senses()[language]:
            if len(phrase) > 2:
                own[phrase[0]] = max(len(phrase), own.get(phrase[0], 0))
        for short, full in rules().same_word.get(language, {}).items():
            own[short] = max(own.get(short, 2), own.get(full.split()[0], 2))
        for word, most in own.items():
            found[word] = max(most, found.get(word, 2))
    return found


def joints_within(phrase: Sequence[str]) -> int:
    """How many words within a phrase only join."""
    return sum([word in rules().joints for word in phrase[1:-1]]) if len(phrase) > 2 else 0
