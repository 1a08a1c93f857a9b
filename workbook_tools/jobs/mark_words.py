"""Words of places for initials, signatures and ticks, and of what stands in them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache, lru_cache
from importlib import resources
from typing import Literal, NamedTuple

from workbook_tools.jobs.paper_records import MarkState
from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.tokens import phrase, phrases

# Words before the name of a mark: "Timing marks checked by"; a longer entry is no name.
MOST_WORDS = 3
LONGEST = 60
_BRACKETED = re.compile(r"[(\[][^()\[\]]*[)\]]")
_NOT_TICKED = frozenset("?☐✗✘")

# by: somebody's name or initials; done: a tick; may be: a tick or a number.
Sort = Literal["by", "done", "may be"]


class _Words(NamedTuple):
    signs: frozenset[tuple[str, ...]]
    others: frozenset[tuple[str, ...]]
    done: frozenset[tuple[str, ...]]
    may_be: frozenset[tuple[str, ...]]
    acts: frozenset[tuple[str, ...]]
    by: frozenset[str]
    no: frozenset[tuple[str, ...]]
    not_needed: frozenset[tuple[str, ...]]
    not_rows: frozenset[tuple[str, ...]]
    things: frozenset[tuple[str, ...]]
    dates: frozenset[tuple[str, ...]]
    remarks: frozenset[str]
    accepted: frozenset[str]
    value: frozenset[str]
    why: frozenset[str]
    deviation: frozenset[str]
    did: Mapping[str, frozenset[tuple[str, ...]]]


@cache
def mark_words() -> _Words:
    """The words that come with the program."""
    text = resources.files("workbook_tools.jobs").joinpath("marks.toml").read_text("utf-8")
    data = own_toml(text)

    def of(*names: str) -> frozenset[tuple[str, ...]]:
        return phrases(word for name in names for own in data[name].values() for word in own)

    def single(name: str) -> frozenset[str]:
        return frozenset(word for key in of(name) for word in key)

    return _Words(
        signs=of("sign"),
        others=of("others"),
        done=of("done"),
        may_be=of("done_or_size"),
        acts=of("done", "done_or_size", "acts"),
        by=single("by"),
        no=of("no"),
        not_needed=of("not_needed"),
        not_rows=of("not_rows"),
        things=of("things"),
        dates=of("dates"),
        remarks=single("remarks"),
        accepted=single("accepted"),
        value=single("value"),
        why=single("why"),
        deviation=single("deviation"),
        did={did: phrases(words) for did, words in data["did"].items()},
    )


@lru_cache(maxsize=4096)
def sort_of(text: str) -> Sort | None:
    """What a text is the name of, None where it is no mark."""
    if len(text) > LONGEST:
        return None
    words, said = mark_words(), phrase(_BRACKETED.sub(" ", text))
    if said in words.signs or (len(said) == 1 and said[0] in words.by):
        return "by"
    if said in words.done:
        return "done"
    if said in words.may_be:
        return "may be"
    return "by" if _ends_as_mark(said) else None


def _ends_as_mark(said: Sequence[str]) -> bool:
    """Whether a text ends as "checked by" or "initials", with a few words before that."""
    words = mark_words()
    for at in range(min(MOST_WORDS + 1, len(said))):
        before, rest = tuple(said[:at]), tuple(said[at:])
        if before[-1:] in words.others or before[-2:] in words.others:
            return False
        if len(rest) > 1 and rest[-1] in words.by and rest[:-1] in words.acts:
            return True
        if at and len(rest[0]) > 3 and rest in words.signs:
            return True
    return False


def did_of(text: str) -> str:
    """What whoever signs under a text did: "Measured", "Released"; "" where it does not say."""
    said = phrase(text)
    starts = [said[:end] for end in range(1, MOST_WORDS + 1)]
    return next((d for d, words in mark_words().did.items() if words & set(starts)), "")


def is_index(text: str) -> bool:
    """Whether a text only numbers a row: "No. 3", "12", "a"."""
    words = phrase(text)
    rest = [w for w in words if w not in ("no", "nr", "num", "pos", "item", "line", "#")]
    return all(w.isdigit() or len(w) == 1 for w in rest)


def is_idle(head: str) -> bool:
    """Whether a head is that of a column of days or remarks."""
    said, words = phrase(head), mark_words()
    # "Date seen" is another line, "On bench" is not.
    dated = said in words.dates or (said[:1] in words.dates and len(said[0]) > 3)
    return dated or any(word in words.remarks for word in said)


def state_of_text(text: str) -> MarkState:
    """Whether a text that stands in the place of a mark is one, or says that it was not done."""
    words, said = mark_words(), phrase(text)
    if said in words.not_needed:
        return "made"
    if said in words.no:
        return "no"
    if not said:
        return "no" if _NOT_TICKED & set(text) else "made"
    begun = said[:1] in words.no and len(said[0]) > 1 and not any(c.isdigit() for c in text)
    return "no" if begun and len(said) <= MOST_WORDS else "made"
