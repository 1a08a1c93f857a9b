"""The trade's words for readings and job fields, read from vocabulary.toml.

A word that is listed is read; a word that only resembles one is proposed and never read.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, cached_property, lru_cache
from importlib import resources
from typing import Any, Literal

from workbook_tools.books.content import is_unit
from workbook_tools.quantities import KINDS, Kind, to_si

Per = Literal["engine", "cylinder", "main", "rod"]
Stage = Literal["", "incoming", "finished", "target", "computed"]
How = Literal["exact word", "synonym", "proposal", "layout"]
# How alike a word must be to be proposed, of 100.
ALIKE = 84


@dataclass(frozen=True)
class Term:
    """A reading of the vocabulary: its name, kind, and the words that mean it.

    under: words that mean it only below a heading of that subject; likely: what is usual,
    in SI; zero: whether zero can be a reading.
    """

    name: str
    kind: Kind
    per: Per
    words: frozenset[str] = field(repr=False)
    under: Mapping[str, frozenset[str]] = field(default_factory=dict, repr=False)
    likely: tuple[float, float] | None = None
    zero: bool = False


@dataclass(frozen=True)
class ParsedLabel:
    """A label taken apart: its words, the unit it carries, which one it is of, and the stage."""

    words: str
    unit: str = ""
    position: str = ""
    stage: Stage = ""


@dataclass(frozen=True)
class Match:
    """What a label means, and how sure that is; likeness of 100 for a proposal."""

    term: Term
    how: How
    likeness: float = 100.0


@dataclass(frozen=True)
class Vocabulary:
    """All terms, the subjects and stages that headings name, and the words of job fields."""

    terms: tuple[Term, ...]
    subjects: Mapping[str, frozenset[str]]
    stages: Mapping[str, Stage]
    job_words: Mapping[str, tuple[str, ...]]
    job_names: Mapping[str, tuple[str, ...]]
    elsewhere: frozenset[str]
    abbreviations: Mapping[str, str]
    ignored: frozenset[str] = frozenset()

    def term(self, name: str) -> Term | None:
        """The term of this name, or the one that this word can only mean."""
        named = next((t for t in self.terms if t.name == name.strip().replace(" ", "_")), None)
        return named or self.by_word.get(plain(name))

    @cached_property
    def by_word(self) -> Mapping[str, Term]:
        """The term of each word that can mean nothing else."""
        return {word: term for term in self.terms for word in term.words}

    @cached_property
    def by_subject(self) -> Mapping[str, Mapping[str, Term]]:
        """The terms that a word means, by the subject of the heading over it."""
        found: dict[str, dict[str, Term]] = {}
        for term in self.terms:
            for subject, words in term.under.items():
                for word in words:
                    found.setdefault(word, {})[subject] = term
        return found

    def spelled_out(self, words: str) -> str:
        """The words of a label with abbreviations written in full: "main clearance"."""
        return " ".join(self.abbreviations.get(word, word) for word in words.split())

    def match(self, words: str, subjects: Iterable[str] = ()) -> Match | None:
        """The reading that words mean below headings of these subjects, None if none is sure.

        subjects: of the headings over the label, the nearest first.
        """
        meanings = self.by_subject.get(words, {})
        for subject in subjects:
            if subject in meanings:
                return Match(meanings[subject], "synonym")
        term = self.by_word.get(words)
        return Match(term, "exact word" if words == term.name else "synonym") if term else None

    def propose(self, words: str) -> Match | None:
        """The reading whose words are most like these, for a person to confirm."""
        from rapidfuzz import fuzz, process

        if len(words) < 5 or words in self.stages or not re.search(r"[^\W\d_]{4}", words):
            return None
        every = {word: term for word, term in self.by_word.items() if len(word) > 4}
        best = process.extractOne(
            words, every.keys(), scorer=fuzz.token_sort_ratio, score_cutoff=ALIKE
        )
        return Match(every[best[0]], "proposal", float(best[1])) if best else None

    def subject_of(self, heading: str) -> str:
        """The part that a heading is about, "" where it names none."""
        words = plain(heading)
        for subject, named in self.subjects.items():
            if words in named:
                return subject
        for subject, named in self.subjects.items():
            if any(re.search(rf"\b{re.escape(word)}\b", words) for word in named):
                return subject
        return ""

    def stage_of(self, heading: str) -> Stage:
        """The stage that a heading or the head of a column names, "" where it names none."""
        words = plain(heading)
        if words in self.stages:
            return self.stages[words]
        named = [w for w in self.stages if len(w) > 3 and re.search(rf"\b{re.escape(w)}\b", words)]
        return self.stages[max(named, key=len)] if named else ""

    def with_words(self, more: Mapping[str, Iterable[str]]) -> Vocabulary:
        """The vocabulary with a shop's own words for some of its readings."""
        changed = tuple(
            replace(t, words=t.words | {plain(w) for w in more[t.name]}) if t.name in more else t
            for t in self.terms
        )
        return replace(self, terms=changed)

    def without(self, labels: Iterable[str]) -> Vocabulary:
        """The vocabulary for books in which these labels are no readings."""
        return replace(self, ignored=self.ignored | {plain(label) for label in labels})

    def with_job_words(self, more: Mapping[str, Iterable[str]]) -> Vocabulary:
        """The vocabulary with a shop's own words for some of the job's fields."""
        words = {
            name: (*known, *(plain(w) for w in more.get(name, ())))
            for name, known in self.job_words.items()
        }
        return replace(self, job_words=words)

    def job_field(self, text: str) -> str:
        """The job field that a label names, "" for any other text."""
        words = text.strip(" :.").lower()
        return next((n for n, known in self.job_words.items() if words in known), "")


@lru_cache(maxsize=8192)
def plain(text: str) -> str:
    """A label's words alone: lower case, without brackets around units, without punctuation."""
    text = re.sub(r"[(\[][^()\[\]]*[)\]]", " ", text.casefold())
    return " ".join(re.sub(r"[^\w#]+", " ", text).replace("_", " ").split())


_BRACKET = re.compile(r"[(\[]\s*([^()\[\]]+?)\s*[)\]]")
_AFTER = re.compile(r"(?:,|\s-|\sin|:)\s*([^\s,:]{1,6}|cu in|lb ft)\s*:?$", re.IGNORECASE)
_WHICH = re.compile(
    r"\b(?:(?:cyl(?:inder)?|zyl(?:inder)?|journal|main|rod|pin|throw|lager)s?\.?\s*(?:no\.?\s*)?#?\s*"
    r"|#\s*|no\.?\s*)(\d{1,2})\b|(?<![\d.,/\w])#?(\d{1,2})$|#(\d{1,2})\b|\b([LRAB])(\d)\b",
    re.IGNORECASE,
)


@lru_cache(maxsize=8192)
def parse_label(text: str) -> ParsedLabel:
    """A label taken apart; the stage is filled in by the vocabulary that reads it."""
    unit = ""
    rest = text.strip()
    for found in _BRACKET.finditer(rest):
        if is_unit(found[1]) or found[1].lower() in ("inch", "inches", "metric", "%"):
            unit = found[1]
            rest = rest[: found.start()] + " " + rest[found.end() :]
            break
    if not unit:
        after = _AFTER.search(rest)
        if after and is_unit(after[1]) and len(rest[: after.start()].strip()) > 2:
            unit, rest = after[1], rest[: after.start()]
    position = ""
    rest = rest.strip(" :.")
    which = _WHICH.search(rest)
    if which and which.span() != (0, len(rest)):
        position = "".join(g for g in which.groups() if g).upper()
        word = re.match(r"main|rod|lager|journals?|pin|throw", which[0], re.IGNORECASE)
        kept = word[0] if word else ""
        rest = f"{rest[: which.start()]} {kept} {rest[which.end() :]}"
    return ParsedLabel(plain(rest), unit, position)


def staged(vocabulary: Vocabulary, parsed: ParsedLabel) -> ParsedLabel:
    """A label without the word of its stage ("bore target"), which is told apart."""
    words = parsed.words.split()
    if len(words) > 1:
        for cut, kept in (
            (" ".join(words[:2]), words[2:]), (" ".join(words[-2:]), words[:-2]),
            (words[0], words[1:]), (words[-1], words[:-1]),
        ):  # fmt: skip
            if kept and cut in vocabulary.stages:
                return replace(parsed, words=" ".join(kept), stage=vocabulary.stages[cut])
    return parsed


_NEW = {
    "groove width": "top_groove_width",
    "ring width": "top_ring_width",
    "cylinders": "cylinder_count",
    "main housing": "main_housing_bore",
    "main shell": "main_shell_wall",
    "main clearance": "main_bearing_clearance",
    "rod housing": "rod_housing_bore",
    "rod shell": "rod_shell_wall",
    "rod clearance": "rod_bearing_clearance",
    "oil rail gap": "oil_ring_gap",
    "end play": "crank_end_play",
    "piston weight": "piston_mass",
}


@cache
def vocabulary() -> Vocabulary:
    """The vocabulary that comes with the program."""
    text = resources.files("workbook_tools.books").joinpath("vocabulary.toml").read_text("utf-8")
    data = tomllib.loads(text)
    stages: dict[str, Stage] = {}
    for word in data["stages"]["incoming"]:
        stages[word] = "incoming"
    for word in data["stages"]["finished"]:
        stages[word] = "finished"
    for word in data["targets"]["words"]:
        stages[word] = "target"
    for word in data["targets"]["computed"]:
        stages[word] = "computed"
    return Vocabulary(
        terms=tuple(
            _term(_NEW.get(name, name.replace(" ", "_")), entry)
            for name, entry in data["readings"].items()
        ),
        subjects={name: frozenset(words) for name, words in data["subjects"].items()},
        stages=stages,
        job_words={name: tuple(entry["words"]) for name, entry in data["job"].items()},
        elsewhere=frozenset(data["elsewhere"]["words"]),
        abbreviations=data["abbreviations"],
        job_names={name: tuple(entry["names"]) for name, entry in data["job"].items()},
    )


def _term(name: str, entry: Mapping[str, Any]) -> Term:
    kind = KINDS[entry["kind"]]
    likely = None
    if "likely" in entry:
        low, high = entry["likely"]
        likely = (to_si(low, kind, "inch"), to_si(high, kind, "inch"))
    return Term(
        name=name,
        kind=kind,
        per=entry["per"],
        words=frozenset(entry["words"]),
        under={subject: frozenset(words) for subject, words in entry.get("under", {}).items()},
        likely=likely,
        zero=bool(entry.get("zero", False)),
    )
