"""What a label means: its words by slot, and from them the measurands that it can be of.

The longest known phrase is taken first, German compounds are taken apart, a misspelt word is
taken for the one known word that it is nearest to. What several words mean together is
decided by composing; what stays open is left open, for the size, the unit and the book to
decide.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import chain, pairwise, zip_longest
from typing import NamedTuple

from workbook_tools.measurands.composing import compose, said
from workbook_tools.measurands.compounds import senses_of_compound
from workbook_tools.measurands.headings import said_over
from workbook_tools.measurands.heights import is_height, without_height
from workbook_tools.measurands.lexicon import Phrase, Sense, rules
from workbook_tools.measurands.lookup import (
    joints_within,
    languages_of,
    lookup,
    only_joins,
    reach_of,
    side_of_letter,
    singular,
    unit_kind,
    without_joints,
)
from workbook_tools.measurands.measurand import LANGUAGES, Language
from workbook_tools.measurands.misspelt import nearest_listed
from workbook_tools.measurands.position import AT, Piece, Position, phrases
from workbook_tools.measurands.short_forms import by_consonants, cut_short
from workbook_tools.measurands.table import find
from workbook_tools.measurands.tokens import phrase as phrase_of
from workbook_tools.measurands.tokens import shortened, tokens

_LONGEST = 6
# A smaller number before a unit may still say which one: "Piston 1 mm".
_LEAST_LENGTH = 9
# How much more a candidate may cost than the likeliest.
_WIDEST = 4
# A meaning of such a cost is hardly what a label means.
_FAR_FETCHED = 4
# So much of one thing for one of another: lb/in.
_PER = re.compile(r"(?<![^\W_])(?:lbs?|kg|n|cc|g)/(?:in(?:ch)?|mm|min)\b", re.IGNORECASE)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]+)[)\]]")
# "Rectifié à" joins the size that follows, and is no side.
_TO_A_SIZE = re.compile(r"\sà\s*:?\s*$", re.IGNORECASE)
# Of a size, ".010", which says not which one.
_BEHIND_A_POINT = re.compile(r"0\d\d+")
# A letter and a number say which one: L2, B3, or M2 and C4 for a main and a cylinder.
_LETTERED = re.compile(r"[labmzc][1-9]\d?|r(?:[4-9]|[1-9]\d)")
_LETTERS: Mapping[str, tuple[Sense, ...]] = {
    side: (Sense(bank=side.upper()),) for side in "labr"
} | {"m": (Sense(index="main"),), "z": (Sense(index="cylinder"),), "c": (Sense(index="cylinder"),)}


class Candidate(NamedTuple):
    """A measurand that a label can mean; cost: what had to be assumed, 0 for nothing."""

    measurand: str
    cost: int


class Meaning(NamedTuple):
    """What a label means.

    candidates: the likeliest first; number, bank, at: which one, as far as the label says;
    stage: when it was taken or whose wish it is; statistic: what is made of readings;
    conditions: the states at measuring; section: what it is about that is no measurement;
    part: the first part it names; unit: the kind of quantity that a unit in it says;
    taken_for: words that were read as others, with those; unknown: words not understood.
    """

    candidates: tuple[Candidate, ...] = ()
    number: int = 0
    bank: str = ""
    at: tuple[str, ...] = ()
    stage: str = ""
    statistic: str = ""
    conditions: tuple[str, ...] = ()
    section: str = ""
    part: str = ""
    unit: str = ""
    taken_for: tuple[tuple[str, str], ...] = ()
    unknown: tuple[str, ...] = ()

    @property
    def measurand(self) -> str:
        """The one measurand that it means, "" where several are as likely or none is."""
        least = [c.measurand for c in self.candidates if c.cost == self.candidates[0].cost]
        return least[0] if len(least) == 1 else ""

    def position(self) -> Position | None:
        """Which one the label says the number is of, None where it does not."""
        if not (self.number or self.bank or self.at):
            return None
        one = find(self.measurand)
        of = one.of if one and one.of not in ("engine", "bank") else ""
        return Position(of=of, number=self.number, bank=self.bank, at=self.at)


class _Word(NamedTuple):
    """A word or phrase of a label with its senses; a number has none."""

    text: str
    senses: tuple[Sense, ...] = ()
    number: str = ""
    taken_for: str = ""


def read_label(
    text: str, headings: Sequence[str] = (), languages: Sequence[Language] = LANGUAGES
) -> Meaning:
    """What a label can mean, alone or below headings.

    text: as it stands in the book, unit and all; headings: over it, the nearest first;
    languages: that the book may be in, the likeliest first. A text that means no measurand
    has no candidates.
    """
    meaning = _read_label(text, tuple(headings), tuple(languages))
    least = meaning.candidates[0].cost if meaning.candidates else _FAR_FETCHED
    if least < _FAR_FETCHED or meaning.section:
        return meaning
    name, comma, _ = text.partition(", ")
    if comma and not _BRACKETS.search(text):
        # So may what stands behind a comma: "End float, dial on flange".
        alone = _read_label(name, tuple(headings), tuple(languages))
        clear = alone.candidates and alone.candidates[0].cost <= 1 and not alone.unknown
        return alone if clear else meaning
    if not _BRACKETS.search(text):
        return meaning
    # What stands in brackets may be no more than where: "Bore (across ports)".
    bare = _read_label(_BRACKETS.sub(_kept_unit, text), tuple(headings), tuple(languages))
    if not bare.candidates or bare.candidates[0].cost > _FAR_FETCHED // 2:
        return meaning
    return meaning._replace(candidates=bare.candidates, part=bare.part)


def _kept_unit(bracket: re.Match[str]) -> str:
    return bracket[0] if unit_kind(tuple(tokens(bracket[1])) or ("",)) else " "


class _Told(NamedTuple):
    """What the words of a label say by themselves, whatever stands over it.

    words: those that count, and senses: of each that has any; numbers: that say which one;
    bound: those of them behind a word that counts; free: those behind none.
    """

    words: Sequence[_Word]
    senses: tuple[tuple[Sense, ...], ...]
    numbers: tuple[str, ...]
    bound: tuple[str, ...]
    free: tuple[str, ...]


@lru_cache(maxsize=8192)
def _told_in(text: str, languages: tuple[Language, ...]) -> _Told:
    """What the words of a label say by themselves: it is read alone, and below headings."""
    heard = _with_counts(_heard(_words(text, languages)))
    counted = tuple(_counted(heard))
    # No engine has more cylinders: "piston, 20 from the skirt".
    far = {number for number, beside in counted if not beside and int(number) > _MOST_CYLINDERS}
    return _Told(
        words=heard,
        senses=tuple([word.senses for word in heard if word.senses]),
        numbers=tuple([number for number, _ in counted if number not in far]),
        bound=tuple([number for number, beside in counted if beside]),
        free=tuple([n for n, beside in counted if not beside and n not in far]),
    )


@lru_cache(maxsize=8192)
def _read_label(text: str, headings: Phrase, languages: tuple[Language, ...]) -> Meaning:
    where = without_height(text)
    bare = where.strip() or headings or is_height(text)
    heard, known, numbers, bound, free = _told_in(where if bare else text, languages)
    heads = [_words(h, languages) for h in headings]
    over = said_over([[(w.text, w.senses) for w in words if w.senses] for words in heads])
    if over and all(w.number for w in heads[0]):
        over = over._replace(free=tuple(w.number for w in heads[0]))  # "2º" over rings.
    if over and (over.parts or over.nouns) and _is_of_a_cylinder(heard):
        # "Cyl 3" below "Liner protrusion" only counts.
        known, bound, free = ((_COUNTS_CYLINDERS,),), numbers, ()
    # A heading speaks for a number or a height below it, and for nothing where nothing is said.
    speaks = known or numbers or (not heard and bool(text.strip()) and not where.strip())
    # Beside a word that is not understood a unit alone says nothing either: "Room (cc)".
    bare_unit = all(slot == "unit" for sense in chain(*known) for slot, _ in sense.filled)
    speaks = speaks and not (
        known and bare_unit and any(not w.senses and not w.number for w in heard)
    )
    composed = compose(known, numbers, free, over if speaks else None)
    found, first = _near_the_least(composed.costs), composed.senses
    about = said(first)
    ring = _of_ring(found) and not about.which
    spent = set(rules().ring_places) if ring else set()
    by_number = ring and "top" not in about.at
    return Meaning(
        candidates=tuple(Candidate(name, cost) for name, cost in found.items()),
        number=_number(bound) or (0 if by_number else _number(numbers)),
        bank=next((s.bank for s in first if s.bank), "") or _numbered_bank(heard),
        at=tuple(place for place in AT if place in about.at and place not in spent),
        stage=_stage(first),
        statistic=next((s.statistic for s in first if s.statistic), ""),
        conditions=about.conditions,
        section=next(iter(about.sections), ""),
        part=next(iter(about.parts), ""),
        unit=next(iter(about.units), ""),
        taken_for=tuple((w.text, w.taken_for) for w in heard if w.taken_for),
        unknown=tuple(w.text for w in heard if not (w.senses or w.number)),
    )


def _is_of_a_cylinder(heard: Sequence[_Word]) -> bool:
    """Whether a label says no more than which cylinder: "Cyl 3"."""
    alone = [word.senses[0] for word in heard if word.senses] == [_CYLINDER]
    return alone and len(heard) == 2 and bool(heard[-1].number)


_CYLINDER, _COUNTS_CYLINDERS = Sense(part="cylinder"), Sense(index="cylinder")


def _with_counts(heard: Sequence[_Word]) -> list[_Word]:
    """The words with a cylinder as what counts where its number stands right behind it.

    What such a label says of a side is of a valve, of a gap of a ring: "Cyl 2 inlet lash",
    "1° segm. cil 2".
    """
    senses = [sense for word in heard for sense in word.senses]
    named = any(s.which or s.part == "ring" for s in senses) or (
        any(s.noun == "gap" for s in senses) and any(s.at == "top" for s in senses)
    )
    return [
        word._replace(senses=(_COUNTS_CYLINDERS,))
        if named and word.senses == (_CYLINDER,) and behind is not None and behind.number
        else word
        for word, behind in zip_longest(heard, heard[1:])
        if word is not None
    ]


def _counted(heard: Sequence[_Word]) -> Iterator[tuple[str, bool]]:
    """The numbers that say which one, and whether a word that counts stands before: "cyl 3".

    None of a length, "20 mm from the bottom", and none of a bank.
    """
    for before, word, behind in zip_longest((None, *heard[:-1]), heard, heard[1:]):
        if word is None or not word.number or (before is not None and _says_bank(before)):
            continue
        measured = behind is not None and any(s.unit for s in behind.senses)
        if not measured or int(word.number) < _LEAST_LENGTH:
            beside = before is not None and any("cylinder" in s.index for s in before.senses)
            yield word.number, beside


def _numbered_bank(heard: Sequence[_Word]) -> str:
    """The number behind the word for a bank: "deck height, bank 2"."""
    return next((w.number for before, w in pairwise(heard) if w.number and _says_bank(before)), "")


def _says_bank(word: _Word) -> bool:
    return phrases().get((word.text,)) == Piece("of", "bank")


_TAKEN = {"found", "machined", "final"}
_EXTREMES = {"limit_low", "limit_high"}


@lru_cache(maxsize=4096)
def says_which(text: str) -> bool:
    """Whether a text only tells one of several alike: "intake", "top ring"."""
    words = _words(text, LANGUAGES)
    return bool(words) and all(
        any(s.which and s == Sense(which=s.which) for s in word.senses) for word in words
    )


def _near_the_least(found: Mapping[str, int]) -> dict[str, int]:
    most = min(found.values(), default=0) + _WIDEST
    return {name: cost for name, cost in found.items() if cost <= most}


def _of_ring(found: Mapping[str, int]) -> bool:
    """Whether the likeliest measurand is a ring's: then numbers and places say which ring."""
    first = find(next(iter(found), ""))
    return first is not None and first.of == "ring"


def _number(numbers: Sequence[str]) -> int:
    counted = [int(n) for n in numbers if 0 < int(n) < 100]
    return counted[0] if len(counted) == 1 else 0


def _stage(chosen: Iterable[Sense]) -> str:
    stages = {sense.stage for sense in chosen if sense.stage}
    if stages & _TAKEN:
        stages -= _EXTREMES  # "As found max" is the largest that was found, and no limit.
    elif stages & _EXTREMES:
        stages -= {"target"}  # The least that is wanted is a limit.
    return next((stage for stage in rules().stage_rank if stage in stages), "")


def _heard(words: Sequence[_Word]) -> list[_Word]:
    """The words that count: parts named after "with" are a state of measuring."""
    heard: list[_Word] = []
    after = False
    for word in words:
        if word.text in rules().after:
            after = True
            continue
        if after and any(s.part for s in word.senses) and any(h.senses for h in heard):
            continue
        heard.append(word)
    return heard


# How a sum is worked out, in its label: "rotating 2x(430+42)+4".
_WORKED_OUT = re.compile(
    r"(?:\b\d+\s?[x×*]\s?)?\(\d[\d.,]*(?:\s?\+\s?\d[\d.,]*)+\)(?:\s?[+*x×/]\s?\d[\d.,]*)*"
    r"|\b\d[\d.,]*(?:\s?\+\s?\d[\d.,]*){2,}"
)
# "deck all 8" is of no cylinder 8.
_OF_ALL = re.compile(
    r"[\s,(]+(?:all|alle|tou[ts]e?s? les|tutt[ie] (?:e|gli|i|le)|tod[oa]s l[oa]s)"
    r"\s\d{1,2}\b(?![.,]\d)\)?",
    re.IGNORECASE,
)
_MOST_CYLINDERS = 24
# Shorter words are of no language for sure.
_LEAST_OF_A_WORD = 3


# A label is read below several headings, and each of these over several labels.
@lru_cache(maxsize=8192)
def _words(text: str, languages: tuple[Language, ...]) -> tuple[_Word, ...]:
    """The longest known phrases of a text, in its order; a unit in brackets stands first."""
    found: list[_Word] = []
    for bracket in [*_BRACKETS.finditer(text)]:
        phrase = tuple(t for t in tokens(bracket[1]) if t not in "&+/-")
        # Beside a valve, (in) is the intake, and (MLS) what a gasket is made of.
        named = bracket[1].isupper() and _lists_alone(phrase, languages)
        if phrase not in ((), ("in",)) and not named and (kind := unit_kind(phrase)):
            found.append(_Word(bracket[1], (Sense(unit=kind),)))
            text = text.replace(bracket[0], " ")
    for per in _PER.findall(text):  # As one word, lest lb/in is a torque.
        if kind := unit_kind((per.casefold(),)):
            found.append(_Word(per, (Sense(unit=kind),)))
            text = text.replace(per, " ")
    text = _WORKED_OUT.sub(" ", text) if "+" in text else text
    text = _OF_ALL.sub(" ", _OVER.sub(" ", _TO_A_SIZE.sub("", text)))
    text = _HYPHENATED.sub(lambda cut: _joined(cut, languages), text) if "-" in text else text
    even = [t for t in tokens(text) if t not in "&+/-"]
    cut = shortened(text)
    spot = 0
    while spot < len(even):
        length, word = _longest(even, spot, languages, cut)
        if word:
            found.append(word)
        spot += length
    if text.endswith(" I") and any(s.noun == "gap" or s.part == "ring" for s in _senses(found)):
        found[-1] = _Word("i", number="1")  # Before II and III, and no intake.
    # A capital: a small one joins words in some languages.
    capitals = {letter.casefold() for letter in _CAPITAL.findall(text)}
    joints = {w for w in _JOINING if w in even[1:-1] and w not in capitals}
    long = [w for w in even if len(w) >= _LEAST_OF_A_WORD] if joints else ()
    if long and languages_of(long) <= _WHERE_THEY_JOIN:
        found = [word for word in found if word.text not in joints]
    if capitals.isdisjoint(word.text for word in found):
        return tuple(found)
    told = {s.which for w in found if len(w.text) >= _LEAST_OF_A_SIDE for s in w.senses}
    said = told & {"intake", "exhaust"}
    whole = next(iter(said)) if len(said) == 1 else ""
    return tuple(_with_side(word, even, whole) if word.text in capitals else word for word in found)


# Letters of valves that join words where they are small: "jeu à régler", "gioco e tolleranza".
_JOINING = ("a", "e")
_WHERE_THEY_JOIN = {"fr", "es", "it"}
# Shorter words for a side are letters: "ex".
_LEAST_OF_A_SIDE = 2


# A word parted by hand at the end of a line in a narrow cell: "Kolbenrück-stand".
_HYPHENATED = re.compile(r"([^\W\d_]{3,})-([a-zäöüßéèàçñ]{3,})")


def _joined(cut: re.Match[str], languages: tuple[Language, ...]) -> str:
    """A parted word as one where that is known and its beginning is not."""
    word = f"{cut[1]}{cut[2]}"
    known = lookup(phrase_of(word), languages) and not lookup(phrase_of(cut[1]), languages)
    return word if known else cut[0]


def _lists_alone(phrase: Phrase, languages: tuple[Language, ...]) -> bool:
    """Whether a list has a phrase that says nothing of what is measured."""
    return lookup(phrase, languages) == (Sense(),)


def _senses(words: Iterable[_Word]) -> Iterator[Sense]:
    return (sense for word in words for sense in word.senses)


# How far a size is over or under the standard one, and no number of a cylinder: "(+.50)", "-20".
_OVER = re.compile(
    r"[+\-−–]\s?\d*[.,]\d+|(?<=[^\W\d_]\s)[+\-−–]\d{2,3}\b"
    r"|\b\d+(?:[.,]\d+)? ?(?:to|zu|:) ?1\b"  # A ratio: "chamber for 10.5 to 1".
)
_CAPITAL = re.compile(r"(?<!\w)[A-Z](?!\w)")


def _with_side(word: _Word, even: Sequence[str], whole: str) -> _Word:
    """A letter for a valve as the language of the words beside it has it.

    whole: the side that a word beside it says, which a letter then says of another language.
    """
    if not any(sense.which in ("intake", "exhaust") for sense in word.senses):
        return word
    side = whole or side_of_letter(word.text, [w for w in even if len(w) >= _LEAST_OF_A_WORD])
    return word._replace(senses=(Sense(which=side),)) if side else word


def _longest(
    even: Sequence[str], spot: int, languages: tuple[Language, ...], cut: frozenset[str]
) -> tuple[int, _Word | None]:
    """The longest known phrase at a spot; cut: the words that end with the dot of a short form."""
    reach, most = reach_of(languages).get(even[spot], 2), min(_LONGEST, len(even) - spot)
    window = even[spot : spot + most]
    if most > reach and cut.isdisjoint(window) and not joints_within(window):
        most = reach  # As of most words: no list has so long a phrase.
    for length in range(most, 0, -1):
        phrase = tuple(even[spot : spot + length])
        joints, is_cut = joints_within(phrase), not cut.isdisjoint(phrase)
        if length - joints > reach and not is_cut:
            continue
        if length == 1 and only_joins(even, spot):
            return 1, None
        meant = lookup(phrase, languages)
        # Words cut short, or joined by others than the listed phrase has.
        other = not meant and (is_cut or joints)
        if other and not _begins_within(even, spot, length, languages):
            meant = _in_short(phrase, languages, cut) or lookup(without_joints(phrase), languages)
        if meant:
            return length, _Word(" ".join(phrase), meant)
    return 1, _single(even[spot], languages, even[spot] in cut)


def _begins_within(
    even: Sequence[str], spot: int, length: int, languages: tuple[Language, ...]
) -> bool:
    """Whether a listed phrase begins within a run of words and goes on behind it."""
    end = spot + length
    reach = reach_of(languages)
    return any(
        lookup(tuple(even[begin:behind]), languages)
        for begin in range(spot + 1, end)
        for behind in range(
            end + 1, min(begin + min(_LONGEST, reach.get(even[begin], 2)), len(even)) + 1
        )
    )


def _in_short(
    phrase: Phrase, languages: tuple[Language, ...], cut: frozenset[str]
) -> tuple[Sense, ...]:
    """The senses of a phrase with words cut short, of which one at least is not known as it is."""
    short = cut & {*phrase}
    if all(lookup((word,), languages) for word in short):
        return ()
    return cut_short(phrase, languages, short)


@lru_cache(maxsize=8192)
def _single(word: str, languages: tuple[Language, ...], is_cut: bool) -> _Word | None:
    """A word that no list has as it stands; None for one that only joins others."""
    if word in rules().fillers or word == "#":
        return None
    if _BEHIND_A_POINT.fullmatch(word):
        return _Word(word, (Sense(),))
    if numbered := _numbered(word):
        return numbered
    for form in singular(word):
        if meant := lookup((form,), languages):
            return _Word(word, meant)
    compound = senses_of_compound(word, is_cut) if "de" in languages else ()
    if meant := compound or by_consonants(word, languages):
        return _Word(word, meant)
    near = nearest_listed(word, languages)
    if near:
        return _Word(word, lookup((near,), languages), taken_for=near)
    return _Word(word)


# From two up to eight; an i and a v are more often something else.
_ROMAN = ("ii", "iii", "iv", "", "vi", "vii", "viii")


def _numbered(word: str) -> _Word | None:
    """A word that is a number or an ordinal, or ends with one: 3, L2, second."""
    if word.isdecimal():
        return _Word(word, number=str(int(word)))
    if word in _ROMAN:
        return _Word(word, number=str(_ROMAN.index(word) + 2))
    if _LETTERED.fullmatch(word):
        return _Word(word, _LETTERS.get(word[0], ()), number=str(int(word[1:])))
    if word in ("r1", "r2", "r3"):
        which = rules().ring_numbers[word[1]]
        return _Word(word, (Sense(which=which), Sense(bank="R")), number=word[1])
    piece = phrases().get((word,))
    return _Word(word, number=piece.value) if piece and piece.says == "ordinal" else None
