"""What two copies of one record have in another way: numbers, signatures, findings, key facts."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

Data = Mapping[str, Any]
_ADDRESS = re.compile(r"\$?[A-Z]{1,3}\$?\d+")
_Key = Callable[[Data], tuple[Any, ...]]

# The lists of changes, in the order of a page.
LISTS = ("facts", "values", "signed", "gone", "found")


def changes(before: Data, now: Data) -> dict[str, list[dict[str, Any]]]:
    """The changes from one copy of a build's data to the next, by the names of LISTS.

    A number is known by its cell and label, or by its label alone where rows were moved. What
    was moved and is the same is no change. Raises nothing.
    """
    findings = list(_pairs(_open_findings(before), _open_findings(now), (_worded, _finding)))
    return {
        "facts": _changed(_facts(before), _facts(now), (_named,)),
        "values": _changed(_values(before), _values(now), (_labeled_cell, _labeled, _measured)),
        "signed": _changed(_signatures(before), _signatures(now), (_labeled_cell, _labeled)),
        "gone": [dict(was) for was, one in findings if was is not None and one is None],
        "found": [dict(one) for was, one in findings if was is None and one is not None],
    }


def joined(
    first: Mapping[str, Sequence[Data]], second: Mapping[str, Sequence[Data]]
) -> dict[str, list[dict[str, Any]]]:
    """Changes that follow each other told as one; what was changed back is none."""
    told: dict[str, list[dict[str, Any]]] = {
        name: _one_after_the_other(first[name], second[name])
        for name in ("facts", "values", "signed")
    }
    for name, other in (("gone", "found"), ("found", "gone")):
        undone = {_finding(one) for one in second[other]}
        told[name] = [dict(one) for one in first[name] if _finding(one) not in undone]
        before = {_finding(one) for one in first[other]}
        told[name] += [dict(one) for one in second[name] if _finding(one) not in before]
    return {name: told[name] for name in LISTS}


def _one_after_the_other(first: Sequence[Data], second: Sequence[Data]) -> list[dict[str, Any]]:
    by_key = {_place(one): dict(one) for one in first}
    for one in second:
        earlier = by_key.get(_place(one))
        by_key[_place(one)] = {**one, "was": earlier["was"] if earlier else one["was"]}
    return [one for one in by_key.values() if not _same(one["was"], one["is"])]


def _place(one: Data) -> tuple[Any, ...]:
    return one.get("name"), one.get("sheet"), one.get("cell"), one.get("label")


def _facts(data: Data) -> list[dict[str, Any]]:
    return [
        {
            "name": one["name"],
            "told": {name: one[name] for name in ("least", "largest", "unit")},
        }
        for one in data["facts"]
    ]


def _values(data: Data) -> list[dict[str, Any]]:
    """The fields of the job, the typed numbers, then the results."""
    fields = [
        {**_spot(field), "label": name.capitalize(), "measurand": "", "told": _told(field["text"])}
        for name, field in data["job"].items()
    ]
    numbers = [
        {
            **_spot(one),
            "label": one["label"],
            "measurand": one["measurand"],
            "told": _told(one["value"], one["unit"]),
        }
        for one in (*data["readings"], *data["results"])
        if not isinstance(one["value"], list)
    ]
    return [*fields, *numbers]


def _signatures(data: Data) -> list[dict[str, Any]]:
    return [
        {**_spot(one), "label": one["label"], "told": _told(one["said"])} for one in data["signed"]
    ]


def _spot(one: Data) -> dict[str, str]:
    return {"sheet": one["sheet"], "cell": one["cell"]}


def _told(value: Any, unit: str = "") -> dict[str, Any] | None:
    return None if value is None or value == "" else {"value": value, "unit": unit}


def _open_findings(data: Data) -> list[dict[str, Any]]:
    names = ("code", "kind", "sheet", "cell", "message")
    return [{name: one[name] for name in names} for one in data["findings"] if not one["accepted"]]


def _worded(one: Data) -> tuple[Any, ...]:
    """A finding by its words, which stay the same where rows were moved but for the cells."""
    return one["code"], one["sheet"], _ADDRESS.sub("", one["message"])


def _finding(one: Data) -> tuple[str, ...]:
    return one["code"], one["sheet"], one["cell"]


def _named(one: Data) -> tuple[Any, ...]:
    return (one["name"],)


def _labeled_cell(one: Data) -> tuple[Any, ...]:
    return one["sheet"], one["cell"], one["label"]


def _labeled(one: Data) -> tuple[Any, ...]:
    return one["sheet"], one["label"], one.get("measurand")


def _measured(one: Data) -> tuple[Any, ...]:
    return one["sheet"], one["cell"], one["measurand"]


def _changed(
    before: Sequence[Data], now: Sequence[Data], keys: Sequence[_Key]
) -> list[dict[str, Any]]:
    """Each that is told in another way, or by one copy only, with what it was and is."""
    changed = [
        {**{k: v for k, v in (one or earlier or {}).items() if k != "told"},
         "was": earlier["told"] if earlier else None, "is": one["told"] if one else None}
        for earlier, one in _pairs(before, now, keys)
    ]  # fmt: skip
    return [one for one in changed if not _same(one["was"], one["is"])]


def _pairs(
    before: Sequence[Data], now: Sequence[Data], keys: Sequence[_Key]
) -> Iterator[tuple[Data | None, Data | None]]:
    """What is the same thing in both, by the first key that knows it, in the order of now."""
    partner: dict[int, Data] = {}
    left, open_now = list(before), list(range(len(now)))
    for key in keys:
        known = _only(left, key)
        wanted = _only([now[n] for n in open_now], key)
        for n in open_now:
            own = key(now[n])
            if own in known and own in wanted:
                partner[n] = known[own]
        open_now = [n for n in open_now if n not in partner]
        taken = {id(one) for one in partner.values()}
        left = [one for one in left if id(one) not in taken]
    yield from ((partner.get(n), one) for n, one in enumerate(now))
    yield from ((one, None) for one in left)


def _only(some: Sequence[Data], key: _Key) -> dict[tuple[Any, ...], Data]:
    """Those that are the only one with their key."""
    counts = Counter(map(key, some))
    return {key(one): one for one in some if counts[key(one)] == 1}


def _same(was: Data | None, now: Data | None) -> bool:
    if was is None or now is None:
        return was is now
    return all(_alike(was[name], now[name]) for name in now)


def _alike(one: Any, other: Any) -> bool:
    numbers = isinstance(one, (int, float)) and isinstance(other, (int, float))
    if numbers and not isinstance(one, bool) and not isinstance(other, bool):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-12)
    return bool(one == other)
