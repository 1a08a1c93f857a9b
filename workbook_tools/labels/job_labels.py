"""What a label says of the job: its number, customer, engine, builder, start or finish."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from importlib import resources
from typing import NamedTuple

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.tokens import phrase, spelled

# What stands at the head of a job and is none of its fields.
OTHER = "other"
# A label of a job's field has no more letters and words than this.
_MOST_LETTERS = 40
_MOST_WORDS = 5
# What may stand on either side of the word of a number, and of that of a date.
_NUMBERED = {"no", "nr", "n", "num", "number", "nummer", "numero", "#"}
_DATED = {"date", "datum", "data", "fecha", "on", "am", "le", "il", "el", "vom"}
_IDLE = {"the", "de", "d", "du", "del", "di", "of", "den"}
_LEAST_LIKELY = 90
_KIND_OF_WORDS = {"number": "number", "started": "date", "finished": "date"}
_BRACKETED = re.compile(r"[(\[][^()\[\]]*[)\]]")


class JobLabel(NamedTuple):
    """One thing that a text can name: a field of the job, or OTHER.

    sure: whether it holds wherever it stands; rank: how likely among the field's own words,
    from 0; languages: those that have the word, for a field's.
    """

    field: str
    sure: bool
    rank: int
    languages: frozenset[str]


_Words = Mapping[tuple[str, ...], tuple[JobLabel, ...]]


@dataclass(frozen=True)
class JobWords:
    """The words for the fields of a job, the trade's and a shop's own.

    names: those that a book may define for cells, by field; words: labels by their phrases;
    nothing: what stands in a field that is not filled in; left_over, titles, counted,
    day_first, month_first, elsewhere: words of sheets, of titles and others, as told in the file.
    """

    names: Mapping[str, tuple[str, ...]]
    words: _Words
    nothing: frozenset[tuple[str, ...]]
    left_over: frozenset[tuple[str, ...]]
    titles: frozenset[str]
    counted: frozenset[str]
    day_first: frozenset[tuple[str, ...]]
    month_first: frozenset[tuple[str, ...]]
    elsewhere: frozenset[str]
    _read: dict[str, tuple[JobLabel, ...]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def labels(self, text: str) -> tuple[JobLabel, ...]:
        """What a whole text can name of a job, the surest first; () for any other text."""
        if len(text) > _MOST_LETTERS:
            return ()
        if text not in self._read:
            self._read[text] = self._labels(text)
        return self._read[text]

    def is_title(self, text: str) -> bool:
        """Whether a text has a word of titles, which a customer's name has not."""
        return any(word in self.titles for word in phrase(text))

    def is_left_over(self, title: str) -> bool:
        """Whether a sheet's name says that it is a form, or of another job."""
        words = phrase(title)
        return any(
            words[n : n + 2] in self.left_over or words[n : n + 1] in self.left_over
            for n in range(len(words))
        )

    def field(self, text: str) -> str:
        """The field that a text names wherever it stands, "" for any other text."""
        return next((label.field for label in self.labels(text) if label.sure), "")

    def with_more(self, more: Mapping[str, Iterable[str]]) -> JobWords:
        """The same with a shop's own words for some of the fields."""
        words = dict(self.words)
        for name, own in more.items():
            for word in own:
                words[_key(name, phrase(word))] = (JobLabel(name, True, 0, frozenset()),)
        return replace(self, words=words)

    def _labels(self, text: str) -> tuple[JobLabel, ...]:
        found = self._of(phrase(text)) or self._of(phrase(_BRACKETED.sub(" ", text)))
        if found or "/" not in text:
            return found
        # "Customer / team": two words for one thing; of "car / owner" only one is sure.
        parts = [self._of(phrase(part)) for part in text.split("/")]
        sure = [part for part in parts if part and part[0].sure]
        fields = {label.field for part in (sure or parts) for label in part[:1]}
        return (sure or parts)[0] if all(parts) and len(fields) == 1 else ()

    def _of(self, words: tuple[str, ...]) -> tuple[JobLabel, ...]:
        if not words or len(words) > _MOST_WORDS:
            return ()
        keys = dict.fromkeys(_key(name, words) for name in ("", "number", "started"))
        found = [label for key in keys for label in self.words.get(key, ())]
        if not found and _is_some_number(words):
            found = [JobLabel("number", False, _LEAST_LIKELY, frozenset())]
        return tuple(sorted(found, key=lambda label: (not label.sure, label.field == OTHER)))


def _is_some_number(words: tuple[str, ...]) -> bool:
    """Whether a label ends or begins as that of a number, of what can be a job: "Ledger No."."""
    # A lone n is as likely somebody's initial, and what is "No. 304" is the number itself.
    first, last = words[0], words[-1]
    marked = {first, last} & _NUMBERED - {"n"} or last in ("ref", "id")
    if not marked or any(word.isdecimal() for word in words):
        return False
    rest = [word for word in words if word not in _NUMBERED and word not in _IDLE]
    return 0 < len(rest) <= 2 and not any(w in job_words().counted for w in rest)


def _key(name: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """The phrase of a label in one form: whether it says "number" or "date", and the rest."""
    kind = _KIND_OF_WORDS.get(name, "")
    if not kind:
        return ("", *words)
    marks = _NUMBERED if kind == "number" else _DATED
    rest = tuple([word for word in words if word not in marks and word not in _IDLE])
    return (kind, *rest) if marks.isdisjoint(words) else (kind, *rest, f"with {kind}")


def _keys(name: str, word: str, sure: bool) -> Iterator[tuple[tuple[str, ...], bool]]:
    """The forms that a listed word can have, each with whether it holds wherever it stands."""
    for words in spelled(word):
        key = _key(name, words)
        yield key, sure
        if key[0] and not key[-1].startswith("with "):
            # "Date received" is sure where "received" is not; "order no" is the parts' or ours.
            yield (*key, f"with {key[0]}"), sure or key[0] == "date"


@cache
def job_words() -> JobWords:
    """The words that come with the program."""
    text = resources.files("workbook_tools.labels").joinpath("job_words.toml").read_text("utf-8")
    data = own_toml(text)
    words: dict[tuple[str, ...], list[JobLabel]] = {}
    for name, entry in data["job"].items():
        for sure, listed in ((True, entry["words"]), (False, entry["hints"])):
            for language, own in listed.items():
                for rank, word in enumerate(own):
                    for key, holds in _keys(name, word, sure):
                        label = JobLabel(name, holds, rank, frozenset((language,)))
                        _add(words.setdefault(key, []), label)
    for own in data["other"].values():
        for word in own:
            for phrased in spelled(word):
                said = words.setdefault(_key("", phrased), [])
                _add(said, JobLabel(OTHER, False, 0, frozenset()))
    return JobWords(
        names={name: tuple(entry["names"]) for name, entry in data["job"].items()},
        words={key: tuple(said) for key, said in words.items()},
        left_over=frozenset(phrase(word) for word in data["left_over"]["words"]),
        titles=frozenset(
            w for word in data["titles"]["words"] for key in spelled(word) for w in key
        ),
        counted=frozenset(data["counted"]["words"]),
        day_first=frozenset(phrase(word) for word in data["english"]["day_first"]),
        month_first=frozenset(phrase(word) for word in data["english"]["month_first"]),
        elsewhere=frozenset(data["elsewhere"]),
        nothing=frozenset(key for word in data["nothing"]["words"] for key in spelled(word)),
    )


def _add(said: list[JobLabel], label: JobLabel) -> None:
    """One more meaning of a phrase, or one more language of one that it has."""
    for n, known in enumerate(said):
        if known.field == label.field:
            said[n] = JobLabel(
                known.field,
                known.sure or label.sure,
                min(known.rank, label.rank),
                known.languages | label.languages,
            )
            return
    said.append(label)


@lru_cache(maxsize=4096)
def is_nothing(text: str) -> bool:
    """Whether a text only says that a field is not filled in, or how it stands."""
    words = phrase(text)
    return not any(c.isalnum() for c in text) or words in job_words().nothing
