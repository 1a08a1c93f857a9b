"""What a label says of the job: its number, customer, engine, builder, start or finish."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from importlib import resources
from typing import NamedTuple

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.tokens import phrase, spelled
from workbook_tools.measurands.words import read_label

# What stands at the head of a job and is none of its fields.
OTHER = "other"
# A label of a job's field has no more letters and words than this.
_MOST_LETTERS = 40
_MOST_WORDS = 5
# What may stand on either side of the word of a number, and of that of a date.
_NUMBERED = {"no", "nr", "n", "num", "number", "nummer", "numero", "#"}
_DATED = {"date", "dat", "datum", "data", "fecha", "on", "am", "le", "il", "el", "vom"}
_IDLE = {
    *("the", "de", "d", "du", "del", "di", "of", "den", "it", "lo", "la", "des", "der", "l"),
    *("della", "dello", "dell"),
}
_LEAST_LIKELY = 90
_KIND_OF_WORDS = {"number": "number", "started": "date", "finished": "date"}
# What explains a label; with a number in it it tells one club, boat or car from the next.
_BRACKETED = re.compile(r"[(\[][^()\[\]\d]*[)\]]")
# "Invoice £" stands beside what a job cost.
_MONEY = re.compile(r"[$€£]|\b(?:eur|usd|gbp|chf|euros?|dollars?)\b", re.IGNORECASE)
# A label with words that a dot cuts short, the first of them to three letters or more.
_IN_SHORT = re.compile(r"(?=.*[^\W\d_]\.)[^\W\d_]{3,}\.?(?:[\s-]+[^\W\d_]+\.?)*[\s:]*")
_WORD_IN_SHORT = re.compile(r"([^\W\d_]+)(\.?)")


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
    day_first, month_first, elsewhere, oneself, driven, fitted, no_name, first_days, last_days,
    runs, rebuilt: words of sheets, of titles and others, as told in the file; listed: the
    phrases of labels as they are listed, by how many words they have.
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
    oneself: frozenset[tuple[str, ...]]
    driven: frozenset[tuple[str, ...]]
    fitted: frozenset[tuple[str, ...]]
    no_name: frozenset[tuple[str, ...]]
    first_days: frozenset[tuple[str, ...]]
    last_days: frozenset[tuple[str, ...]]
    runs: frozenset[tuple[str, ...]]
    rebuilt: frozenset[tuple[str, ...]]
    listed: Mapping[int, Sequence[tuple[tuple[str, ...], JobLabel]]] = field(repr=False)
    _read: dict[str, tuple[JobLabel, ...]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def labels(self, text: str) -> tuple[JobLabel, ...]:
        """What a whole text can name of a job, the surest first; () for any other text."""
        if len(text) > _MOST_LETTERS:
            return ()
        if text not in self._read:
            found = self._labels(text)
            if found and _MONEY.search(text):
                found = (JobLabel(OTHER, False, 0, frozenset()),)
            self._read[text] = found
        return self._read[text]

    def is_title(self, text: str) -> bool:
        """Whether a text has a word of titles, which a customer's name has not."""
        return any(word in self.titles for word in phrase(text))

    def is_date(self, text: str) -> bool:
        """Whether a label says that it is of a date, and no more."""
        words = phrase(text)
        return bool(words) and _DATED.issuperset(words)

    def is_rebuilt(self, text: str) -> bool:
        """Whether a label is the word for a rebuild, with or without that for a number."""
        words = phrase(text)
        return tuple(word for word in words if word not in _NUMBERED) in self.rebuilt

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
        if phrase(text) in self.oneself:
            # "Me = Pim" is a label, the builder "me" is none.
            mine = text.rstrip().endswith(("=", ":"))
            return (JobLabel("builder", False, 0, frozenset()),) if mine else ()
        found = self._of(phrase(text))
        if not found and (bare := _BRACKETED.sub(" ", text)) != text:
            found = self._of(phrase(bare))
        found = found or self._of_short(text)
        if found or "/" not in text:
            return found or self._of_engine(phrase(text))
        # "Customer / team": two words for one thing; of "car / owner" only one is sure.
        parts = [self._of(phrase(part)) for part in text.split("/")]
        sure = [part for part in parts if part and part[0].sure]
        fields = {label.field for part in (sure or parts) for label in part[:1]}
        if all(parts) and not sure and fields == {"customer", "engine"}:
            # Of "car / crew" the crew is whose the engine is.
            return next(part for part in parts if part[0].field == "customer")
        return (sure or parts)[0] if all(parts) and len(fields) == 1 else ()

    def _of_engine(self, words: tuple[str, ...]) -> tuple[JobLabel, ...]:
        """What a label says of an engine that it names, or of what that drives.

        "Tractor belongs to", "Dueño de la moto", "Motor angekommen".
        """
        for noun, rest in ((words[:1], words[1:]), (words[-1:], words[:-1])):
            named = [one for one in self.words.get(_key("", noun), ()) if one.field == "engine"]
            while rest and noun == words[-1:] and rest[-1] in _IDLE:
                rest = rest[:-1]
            if not named or not rest:
                continue
            found = [
                label
                for label in self._of(rest)
                if (label.field in ("customer", "builder") and (label.sure or len(rest) > 1))
                # "Head done", "crank in" stand over sizes too; only an engine comes and goes.
                or (label.field in ("started", "finished") and named[0].sure)
            ]
            if found and found[0].field != OTHER:
                return (found[0]._replace(sure=False, rank=_LEAST_LIKELY),)
        return ()

    def _of_short(self, text: str) -> tuple[JobLabel, ...]:
        """What a label with words cut by a dot can be short for: "Fahrzeugbes.", "gem. v.".

        All fields that it can name, those with a sure word first; of what can also be none of
        them only the dates, as their values tell them.
        """
        if not _IN_SHORT.fullmatch(text):
            return ()
        cut = [(plain, dot) for w, dot in _WORD_IN_SHORT.findall(text) for plain in phrase(w)]
        if len(cut) == 1 and read_label(text).candidates:
            return ()
        first = cut[0][0] if cut else ""
        known = [
            lb
            for own, lb in self.listed.get(len(cut), ())
            if own[0].startswith(first) and _is_short_for(cut, own)
        ]
        fields = dict.fromkeys(lb.field for lb in sorted(known, key=lambda lb: not lb.sure))
        if OTHER in fields:
            fields = {name: None for name in fields if _KIND_OF_WORDS.get(name) == "date"}
        return tuple(
            JobLabel(
                name,
                False,
                _LEAST_LIKELY + at,
                frozenset(one for lb in known if lb.field == name for one in lb.languages),
            )
            for at, name in enumerate(fields)
        )

    def _of(self, words: tuple[str, ...]) -> tuple[JobLabel, ...]:
        if not words or len(words) > _MOST_WORDS:
            return ()
        keys = dict.fromkeys(_key(name, words) for name in ("", "number", "started"))
        found = [label for key in keys for label in self.words.get(key, ())]
        if not found and _is_some_number(words):
            found = [JobLabel("number", False, _LEAST_LIKELY, frozenset())]
        return tuple(
            sorted(found, key=lambda label: (not label.sure, label.field == OTHER, label.rank))
        )


def _is_short_for(cut: Sequence[tuple[str, str]], words: tuple[str, ...]) -> bool:
    """Whether words can be cut to these, each with the dot that ends it or "" behind it."""
    pairs = zip(cut, words, strict=True)
    return all(word.startswith(said) if dot else word == said for (said, dot), word in pairs)


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
    listed_as: dict[int, list[tuple[tuple[str, ...], JobLabel]]] = {}
    for name, entry in data["job"].items():
        for sure, listed in ((True, entry["words"]), (False, entry["hints"])):
            for language, own in listed.items():
                for rank, word in enumerate(own):
                    for key, holds in _keys(name, word, sure):
                        label = JobLabel(name, holds, rank, frozenset((language,)))
                        _add(words.setdefault(key, []), label)
                    for said in spelled(word):
                        label = JobLabel(name, sure, rank, frozenset((language,)))
                        listed_as.setdefault(len(said), []).append((said, label))
    for own in data["other"].values():
        for word in own:
            for phrased in spelled(word):
                other = JobLabel(OTHER, False, 0, frozenset())
                _add(words.setdefault(_key("", phrased), []), other)
                listed_as.setdefault(len(phrased), []).append((phrased, other))
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
        oneself=frozenset(phrase(word) for word in data["oneself"]["words"]),
        driven=_spelled(data["driven"]["words"]),
        fitted=_spelled(data["fitted"]["words"]),
        no_name=_spelled(data["no_name"]["words"]),
        first_days=_spelled(data["days"]["first"]),
        last_days=_spelled(data["days"]["last"]),
        runs=_spelled(data["days"]["run"]),
        rebuilt=_spelled(data["rebuilt"]["words"]),
        listed=listed_as,
        nothing=_spelled(data["nothing"]["words"]),
    )


def _spelled(words: Iterable[str]) -> frozenset[tuple[str, ...]]:
    return frozenset(key for word in words for key in spelled(word))


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
