"""What the trade's words mean, by language: each word's senses, read from the files of words."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cache, cached_property
from hashlib import sha256
from importlib import resources
from itertools import product
from typing import Any

from workbook_tools.kept_files import keep_made, own_toml, recall_made
from workbook_tools.measurands.measurand import LANGUAGES, Language
from workbook_tools.measurands.table import all_measurands
from workbook_tools.measurands.tokens import phrase, spelled

Phrase = tuple[str, ...]
STAGES = (
    "found", "machined", "final", "target", "nominal", "limit_low", "limit_high", "limit",
)  # fmt: skip


@dataclass(frozen=True)
class Sense:
    """One meaning of a word or phrase: what it says of each thing a label can say.

    part, noun, which: of a measurand; at, bank, index: which one, and that the word counts
    cylinders, mains or rods; stage: when, or whose wish, one of STAGES; statistic: what is
    made from readings; condition: the state at measuring; section: no measurement at all;
    unit: the name of a kind of quantity.
    """

    part: str = ""
    noun: str = ""
    which: str = ""
    at: str = ""
    bank: str = ""
    index: str = ""
    stage: str = ""
    statistic: str = ""
    condition: str = ""
    section: str = ""
    unit: str = ""

    @cached_property
    def filled(self) -> tuple[tuple[str, str], ...]:
        """What it says, as (field, word), without the fields that it leaves open."""
        return tuple((name, value) for name, value in vars(self).items() if value)


@dataclass(frozen=True)
class Rules:
    """How senses become a measurand; the file compose.toml says what each is."""

    links: tuple[str, ...]
    fillers: frozenset[str]
    joints: frozenset[str]
    after: frozenset[str]
    stage_rank: tuple[str, ...]
    context: tuple[str, ...]
    vague: tuple[str, ...]
    never: frozenset[str]
    counts: frozenset[str]
    tools: frozenset[str]
    tell_alone: tuple[str, ...]
    plain_heads: frozenset[str]
    general: frozenset[str]
    taken_in: Mapping[str, tuple[str, ...]]
    of_bearings: Mapping[str, str]
    counted: Mapping[str, str]
    like_noun: Mapping[str, str]
    ring_numbers: Mapping[str, str]
    ring_places: Mapping[str, str]
    combine: Mapping[frozenset[str], str]
    fits: Mapping[frozenset[str], str]
    worked: Mapping[str, str]
    unit_noun: Mapping[str, str]
    unit_noun_of_part: Mapping[str, str]
    which_parts: Mapping[str, tuple[str, ...]]
    default_noun: Mapping[str, tuple[str, ...]]
    default_part: Mapping[str, tuple[str, ...]]
    side_part: Mapping[str, tuple[str, ...]]
    means: Mapping[str, tuple[str, ...]]
    with_condition: Mapping[str, str]
    same_word: Mapping[str, Mapping[str, str]]
    side_letters: Mapping[str, Mapping[str, str]]
    side_words: Mapping[str, Mapping[str, str]]
    part_letters: Mapping[str, Mapping[str, str]]
    beside: Mapping[str, tuple[str, ...]]
    faces: Mapping[str, Mapping[str, list[str]]]
    heights: Mapping[str, tuple[str, ...]]
    lifts: Mapping[str, tuple[str, ...]]
    special: Mapping[str, tuple[str, ...]]
    runs_in: tuple[Mapping[str, Any], ...]


def _data(name: str) -> dict[str, Any]:
    folder = resources.files("workbook_tools.measurands").joinpath("lexicon")
    return own_toml(folder.joinpath(f"{name}.toml").read_text("utf-8"))


@cache
def rules() -> Rules:
    """The rules of composition. Raises TypeError where the file lacks one or has more."""
    data = _data("compose")
    for key in ("combine", "fits"):
        data[key] = {frozenset((a, b)): made for a, b, made in data[key]}
    listed = (word for words in data["fillers"].values() for word in words)
    data["fillers"] = [even for word in listed for form in spelled(word) for even in form]
    for key in ("fillers", "joints", "after", "never", "counts", "tools", "general", "plain_heads"):
        data[key] = frozenset(data[key])
    for key in ("which_parts", "default_noun", "default_part", "side_part", "means", "taken_in",
                "beside", "heights", "lifts", "special"):  # fmt: skip
        data[key] = {name: tuple(values) for name, values in data[key].items()}
    data["same_word"] = {
        language: {
            short: " ".join(phrase(full))
            for full, shorts in full_words.items()
            for one in shorts
            for short in (" ".join(phrase(one)),)
        }
        for language, full_words in data["same_word"].items()
    }
    return Rules(**data)


def _languages(named: Iterable[str]) -> tuple[Language, ...]:
    unknown = sorted(set(named) - {*LANGUAGES, "any"})
    if unknown:
        raise ValueError(f"unknown languages {unknown}; known are {LANGUAGES} and any")
    return LANGUAGES if "any" in named else tuple(one for one in LANGUAGES if one in named)


def _sense(means: Mapping[str, str], file: str) -> Sense:
    unknown = sorted(set(means) - {field.name for field in fields(Sense)})
    if unknown:
        raise ValueError(f"{file}: a word means {unknown}, which no sense has")
    return Sense(**means)


_Spread = tuple[Language, str, Sense]


def _by_slot() -> Iterator[_Spread]:
    for file, slot in (("parts", "part"), ("nouns", "noun"), ("which", "which")):
        for value, groups in _data(file).items():
            yield from _spread(groups, Sense(**{slot: value}))
    states = _data("states")
    yield from _of_operations(states.pop("operation"))
    for slot, values in states.items():
        for value, groups in values.items():
            yield from _spread(groups, _sense({slot: value}, "states.toml"))


def _of_operations(data: Mapping[str, Mapping[str, list[str]]]) -> Iterator[_Spread]:
    """Stages said by an operation: final after it, found before it or after one pass of it."""
    for named, works in data["work"].items():
        before, after = data["before"].get(named, []), data["after"].get(named, [])
        numbered = [f"{one} {work}" for one in data["pass"].get(named, []) for work in works]
        passes = [*numbered, *(f"{one} {work}" for one in after for work in numbered)]
        for spoken, stage in (
            ([f"{one} {work}" for one in before for work in works], "found"),
            ([f"{one} {work}" for one in after for work in works], "final"),
            (passes, "found"),
        ):
            yield from _spread({named: spoken}, Sense(stage=stage))


def _spread(groups: Mapping[str, Iterable[str]], sense: Sense) -> Iterator[_Spread]:
    for named, listed in groups.items():
        for language in _languages([named]):
            for word in listed:
                yield language, word, sense


def _of_positions() -> Iterator[_Spread]:
    """Places and banks. Single letters mean a place only where a head says nothing else."""
    data = _data("positions")
    for slot in ("at", "bank"):
        for value, groups in data[slot].items():
            for language, word, sense in _spread(groups, _sense({slot: value}, "positions.toml")):
                if len("".join(phrase(word))) > 1:
                    yield language, word, sense


def _overriding() -> Iterator[tuple[Language, str, tuple[Sense, ...]]]:
    """Words that mean only what is listed, in rising order of weight."""
    for entry in _data("ambiguous")["word"]:
        senses = tuple(_sense(means, "ambiguous.toml") for means in entry["means"])
        for language in _languages(entry["languages"]):
            for word in entry["words"]:
                yield language, word, senses
    for entry in _data("phrases")["phrase"]:
        sense = _sense(entry["means"], "phrases.toml")
        for language in _languages(entry["languages"]):
            for word in entry["words"]:
                yield language, word, (sense,)


def _of_faces() -> Iterator[tuple[Language, str, tuple[Sense, ...]]]:
    """How far below a face of the block, or above it."""
    faces = rules().faces
    down, out = Sense(noun="down"), Sense(noun="protrusion")
    for side, sense in (("below", down), ("above", out)):
        for named, words in faces[side].items():
            for language in _languages([named]):
                for word in words:
                    for face in faces["face"][named]:
                        yield language, f"{word} {face}", (sense,)


def _of_fits() -> Iterator[tuple[Language, str, tuple[Sense, ...]]]:
    """What is in or on another part: how loose it is there."""
    for one in rules().runs_in:
        sense = (Sense(part=one["part"], noun=one.get("noun", "clearance")),)
        for language in _languages(one["languages"]):
            for inner, joint, outer in product(one["inner"], one["joints"], one["outer"]):
                yield language, f"{inner} {joint} {outer}", sense


def _of_table() -> Iterator[tuple[Language, str, tuple[Sense, ...]]]:
    """Every measurand's own name and words."""
    for one in all_measurands():
        sense = (Sense(part=one.part, noun=one.noun, which=one.which),)
        for language, listed in one.words.items():
            for word in listed:
                yield _languages([language])[0], word, sense
        if len(phrase(one.name)) > 1:
            yield "en", one.name, sense


Senses = Mapping[Language, Mapping[Phrase, tuple[Sense, ...]]]


@cache
def senses() -> Senses:
    """{language: {phrase: its senses, the likeliest first}}."""
    # Working twenty thousand phrases out takes longer than to read many a book.
    name = f"{_all_that_it_is_made_from()}.json"
    kept = recall_made(name)
    if kept is not None:
        return _from_text(kept)
    found = _worked_out()
    keep_made(name, _as_text(found))
    return found


def _all_that_it_is_made_from() -> str:
    """A hash of the words, of the table of measurands, and of what reads them."""
    room = resources.files("workbook_tools.measurands")
    made_from = sha256(unicodedata.unidata_version.encode())
    for folder in (room, room.joinpath("data"), room.joinpath("lexicon")):
        for file in sorted(folder.iterdir(), key=lambda f: f.name):
            if file.name.endswith((".py", ".toml")):
                made_from.update(file.name.encode() + file.read_bytes())
    return made_from.hexdigest()


def _as_text(found: Senses) -> bytes:
    """Senses as JSON: what phrases mean, each meaning once, and the phrases with its number.

    There are twenty times as many phrases as meanings.
    """
    numbers: dict[tuple[Sense, ...], int] = {}
    phrases = {
        language: {
            " ".join(form): numbers.setdefault(several, len(numbers))
            for form, several in listed.items()
        }
        for language, listed in found.items()
    }
    return json.dumps(
        [[[dict(one.filled) for one in several] for several in numbers], phrases]
    ).encode()


def _from_text(kept: bytes) -> Senses:
    each, phrases = json.loads(kept)
    known = [tuple([Sense(**filled) for filled in several]) for several in each]
    return {
        language: {tuple(form.split(" ")): known[number] for form, number in listed.items()}
        for language, listed in phrases.items()
    }


def _worked_out() -> Senses:
    found: dict[Language, dict[Phrase, tuple[Sense, ...]]] = {one: {} for one in LANGUAGES}
    for language, word, one in (*_of_positions(), *_by_slot()):
        for form in spelled(word):
            known = found[language].get(form, ())
            found[language][form] = known if one in known else (*known, one)
    for language, word, several in (*_of_table(), *_of_faces(), *_of_fits(), *_overriding()):
        for form in spelled(word):
            found[language][form] = several
    joints = rules().joints
    for listed in found.values():
        # Short forms leave out the words that join: "hauteur compression".
        for form, several in list(listed.items()):
            if len(form) < 3 or joints.isdisjoint(form) or not several[0].noun:
                continue
            bare = tuple(word for word in form if word not in joints)
            if len(bare) > 1:
                listed.setdefault(bare, several)
    return found


@cache
def unit_kinds() -> Mapping[Phrase, str]:
    """Spellings of units that labels have beside those of cells: {phrase: kind of quantity}."""
    return {
        phrase: kind
        for kind, listed in _data("units").items()
        for word in listed
        for phrase in spelled(word)
    }
