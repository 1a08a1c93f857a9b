"""Names without a label beside an engine, or behind what was done: those that are surely names."""

from __future__ import annotations

import re

from workbook_tools.jobs.engine_names import has_kind, is_surely_engine
from workbook_tools.jobs.field_values import is_name
from workbook_tools.labels.job_labels import is_nothing
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.tokens import phrase

_HONORIFIC = re.compile(
    r"(?:mr|mrs|ms|miss|dr|sir|herr|frau|hr|fr|fam|familie|m|mme|mlle|sr|sra|srta|don|doña|sig"
    r"|sig\.ra|signor|signora|oom|uncle)\.?",
    re.IGNORECASE,
)
_INITIALS = re.compile(r"(?:[A-Z]\.?){1,3}")
_SURE_WORDS = 2
# A word with so little to be assumed is one of the trade.
_MOST_ASSUMED = 2
_FEWEST_LETTERS = 3
_MOST_WORDS_OF_A_NAME = 4


def is_surely_name(text: str, words: Vocabulary, known: frozenset[str] = frozenset()) -> bool:
    """Whether a text beside an engine can only be whose it is.

    Two names, or one behind "Mr"; a single one only where it is known, as a file or a sheet is
    named after it. known: such words.
    """
    text = text.strip(" .")
    own = text.split()
    if len(own) > 1 and own[0].islower() and _HONORIFIC.fullmatch(own[0]):
        text = f"{own[0].capitalize()} {' '.join(own[1:])}"  # "sig. Ferrante"
    if not 0 < len(own) <= _MOST_WORDS_OF_A_NAME or not is_name(text, words) or text.isupper():
        return False
    named = [one for one in own if not _HONORIFIC.fullmatch(one) and not _INITIALS.fullmatch(one)]
    named = [one for one in named if one[0].isupper()]
    # "Loon Bay Marine" is a firm, "Marine" none.
    if len(named) > _SURE_WORDS and phrase(named[-1]) in words.job.fitted:
        named = named[:-1]
    if not named or any(_is_of_trade(one, words) for one in named):
        return False
    # "DIN Norm": only one letter is surely an initial.
    short = any(len(one.strip(".")) == 1 or _HONORIFIC.fullmatch(one) for one in own)
    return len(named) >= _SURE_WORDS or short or own[0].casefold() in known


def is_called(text: str, words: Vocabulary) -> bool:
    """Whether a text is how somebody in a shop signs: initials, a name, two of them."""
    parts = re.split(r"\s*[+&/]\s*|\s+", text.strip())
    return all(_is_initials(one, words) or _is_given_name(one, words) for one in parts)


def _is_initials(word: str, words: Vocabulary) -> bool:
    """Whether a word is somebody's initials, and no "OK", "LH" or "STD"."""
    said = is_nothing(word) or which_of(word) or phrase(word) in words.job.no_name
    return _INITIALS.fullmatch(word) is not None and not said


def _is_given_name(word: str, words: Vocabulary) -> bool:
    named = len(word) >= _FEWEST_LETTERS and word.istitle() and word.isalpha()
    return named and is_name(word, words) and not _is_of_trade(word, words)


def _is_of_trade(word: str, words: Vocabulary) -> bool:
    """Whether a word means something on a sheet that is no name."""
    plain = phrase(word.strip(".,'’"))
    if plain in words.job.no_name or plain in words.job.fitted or plain in words.job.driven:
        return True
    candidates = meaning_of(word).candidates
    told = bool(candidates) and candidates[0].cost <= _MOST_ASSUMED
    return bool(told or which_of(word) or words.job.labels(word) or has_kind(word))


# Whose an engine is behind it: "Boxer 1,7 für Fam. Ostrow".
_OWNED = re.compile(
    r"(?P<engine>.*\S)\s+(?:for|of|owned by|für|von|pour|de|para|per|di|del)\s+(?P<name>.+)",
    re.IGNORECASE,
)


def with_owner(text: str, words: Vocabulary) -> tuple[str, str]:
    """An engine and whose it is by the words behind it; the whole text where they tell nobody."""
    found = _OWNED.fullmatch(text.strip())
    if found and is_surely_engine(found["engine"]) and is_surely_name(found["name"], words):
        return found["engine"], found["name"]
    return text, ""


def known_words(*names: str) -> frozenset[str]:
    """The words that a file and its sheets are named by."""
    return frozenset(one.casefold() for name in names for one in re.findall(r"[^\W\d_]{3,}", name))
