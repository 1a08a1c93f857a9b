"""Cells that hold several sizes, each with its own name in the label: "Bore x stroke", "in/ex"."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.several_sizes import (
    named_sizes,
    placed_sizes,
    several_sizes,
    staged_size,
)
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts, numbers_listed

_JOINED = re.compile(r"\s*[/&+×*|]\s*|\s+(?:x|by|per|par|por|and|und|et|y|e)\s+", re.IGNORECASE)
_IN_BRACKETS = re.compile(r"[()\[\]]")
_MOST_WORDS_SHARED = 4
# A name that leaves more to be assumed is none of several.
_MOST_ASSUMED = 2


def apart(cells: SheetText, spot: Spot) -> Iterator[Spot]:
    """A spot, or one for each size that its cell holds, where the label names as many."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    raw = spot.inline or (cell.value if cell else None)
    placed = placed_sizes(raw) if isinstance(raw, str) else ()
    told = [(said, size) for which, size in placed if (said := which_of(which)) and said.number]
    if placed and len(told) == len(placed):
        for said, size in told:
            yield replace(spot, which=said.beside(spot.which), inline=size)
        return
    stage, size = staged_size(raw) if isinstance(raw, str) else ("", "")
    if size:
        yield replace(spot, which=spot.which._replace(stage=stage), inline=size)
        return
    named = named_sizes(raw) if isinstance(raw, str) else ()
    labels = _labels_with(spot.label, tuple(name for name, _ in named), spot.headings)
    if labels:
        for number, (label, (_, size)) in enumerate(zip(labels, named, strict=True)):
            yield replace(spot, label=label, line=(*spot.line, "part", number), inline=size)
        return
    sizes = several_sizes(raw) if isinstance(raw, str) else []
    both = _ends_of(spot.label) if len(sizes) == len(_ENDS) else None
    if both is not None:
        for (label, which), size in zip(both, sizes, strict=True):
            yield replace(spot, label=label, which=which.beside(spot.which), inline=size)
        return
    yield from _named_apart(spot, sizes)


def _named_apart(spot: Spot, sizes: Sequence[str]) -> Iterator[Spot]:
    """A spot, or one for each of its sizes where its label joins as many names."""
    count = len(sizes)
    labels = (
        (names_of(spot.label, count, spot.headings) or names_of(spot.label, count)) if sizes else ()
    )
    if not labels:
        yield spot
        return
    if (one := _counted_in_cell(labels, sizes)) is not None:
        yield replace(spot, label=labels[1], which=one.beside(spot.which), inline=sizes[1])
        return
    # "Guide 1 bore / stem" is of the first valve, stem and all.
    which = spot.which.beside(Which(number=spot.meaning.number))
    for number, (label, size) in enumerate(zip(labels, sizes, strict=True)):
        line = (*spot.line, "part", number)
        yield replace(spot, label=label, which=which, line=line, inline=size)


_COUNT = re.compile(r"([1-9]\d?)(?![\d.,])")


def _counted_in_cell(labels: Sequence[str], sizes: Sequence[str]) -> Which | None:
    """Which one the first of two numbers says whose name only counts: "Cyl/Bore | 1/ 3.7755"."""
    if len(labels) != len(_ENDS) or (of := counts(labels[0])) is None:
        return None
    number = _COUNT.match(sizes[0])
    return Which(int(number[1]), of=of) if number else None


@lru_cache(maxsize=4096)
def _labels_with(label: str, names: tuple[str, ...], headings: tuple[str, ...]) -> tuple[str, ...]:
    """A label with each of the names in its cell, () where they do not tell values apart."""
    labels = tuple(f"{label} {side}" for side in _sides(list(names)))
    return labels if len(names) > 1 and _assumed(labels, headings) is not None else ()


_ENDS = ("left_right", "front_rear")
_TWO_WORDS = re.compile(
    r"(?P<rest>.+?)[\s,(]+(?P<first>[^\W\d_]+)\.?\s*/\s*(?P<last>[^\W\d_]+)\.?\)?"
)


@lru_cache(maxsize=4096)
def _ends_of(label: str) -> tuple[tuple[str, Which], ...] | None:
    """A label of two ends, sides or stages for each, None for any other: "Side play l/r"."""
    if name := before_and_after(label):
        return (name, Which(stage="found")), (name, Which(stage="final"))
    told = _TWO_WORDS.fullmatch(label)
    pair = f"{told['first']}/{told['last']}".casefold() if told else ""
    if told is None or not meaning_of(told["rest"]).candidates:
        return None
    if pair in words_of("left_right"):
        return (told["rest"], Which(bank="L")), (told["rest"], Which(bank="R"))
    if pair in words_of("front_rear"):
        return (told["rest"], Which(number=1)), (told["rest"], Which(number=2))
    return None


_STAGES = "|".join(
    r"\.?\s*[/–-]\s*".join(map(re.escape, pair.split("/"))) for pair in words_of("before_after")
)
_BEFORE_AND_AFTER = re.compile(rf"(?P<name>.+?)[\s,:(]+(?:{_STAGES})\.?\)?", re.IGNORECASE)


def before_and_after(label: str) -> str:
    """What a label names before work and after it, "" where it names no such: "Height was/now"."""
    told = _BEFORE_AND_AFTER.fullmatch(label)
    name = told["name"].rstrip(" ,:(-–") if told else ""
    return name if name and meaning_of(name).candidates else ""


# Which ones the cells behind a label are of: "Chambers cc 1 3 5 7", "Chamber volumes 1-4".
_LISTED = re.compile(
    r"(?P<name>.*[^\W\d_]{2}.*?)[\s:,(#]+(?P<numbers>\d{1,2}(?:[\s,/&]+\d{1,2})+|\d{1,2}\s?[-–]\s?\d{1,2})"
    r"(?P<behind>\)?|\s*\([^()\d]*\))"
)


def listed(spots: Sequence[Spot]) -> list[Spot]:
    """Spots, those of the cells behind a label that lists as many numbers as one of these each."""
    by_label: dict[object, list[int]] = defaultdict(list)
    for number, spot in enumerate(spots):
        if spot.label[-1:].isdigit() or spot.label[-1:] == ")":
            by_label[spot.origin, spot.row, spot.label].append(number)
    found = list(spots)
    for several in by_label.values():
        name, numbers = _listed_in(spots[several[0]]) if len(several) > 1 else ("", ())
        if not numbers or len(numbers) != len(several):
            continue
        for number, place in zip(
            sorted(several, key=lambda n: spots[n].column), numbers, strict=True
        ):
            one = spots[number]
            if not one.which.number and not one.inline:
                which = one.which._replace(number=place)
                found[number] = replace(one, label=name, which=which)
    return found


def _listed_in(spot: Spot) -> tuple[str, Sequence[int]]:
    """What the label of a spot names, and the numbers that it lists."""
    if spot.headings and (numbers := numbers_listed(spot.label)):
        return spot.headings[0], numbers
    told = _LISTED.fullmatch(spot.label)
    if told is None:
        return "", ()
    return f"{told['name']}{told['behind'].lstrip(')')}", _numbers_listed(told["numbers"])


def _numbers_listed(text: str) -> Sequence[int]:
    """The numbers that a text lists: "1 3 5 7", "1-4"; none where they do not rise."""
    numbers = [int(n) for n in re.findall(r"\d+", text)]
    if re.search(r"[-–]", text):
        numbers = [*range(numbers[0], numbers[1] + 1)]
    return numbers if numbers == sorted({*numbers}) else ()


def beside(spots: Sequence[Spot]) -> list[Spot]:
    """Spots, those of two cells behind a label that names two each as one of these."""
    by_label: dict[object, list[int]] = defaultdict(list)
    for number, spot in enumerate(spots):
        if ("/" in spot.label or "," in spot.label) and not spot.inline:
            by_label[spot.origin, spot.row, spot.label].append(number)
    found = list(spots)
    for several in by_label.values():
        own = [spots[n] for n in several]
        if len(own) != len(_ENDS) or any(one.which != own[0].which for one in own):
            continue
        label = own[0].label
        both = _ends_of(label)
        named = names_of(label, len(own), own[0].headings) or names_of(label, len(own))
        names = [(name, NOTHING) for name in named]
        for count, (number, (name, which)) in enumerate(zip(several, both or names, strict=False)):
            one = spots[number]
            line = one.line if both else (*one.line, "part", count)
            found[number] = replace(one, label=name, which=which.beside(one.which), line=line)
    return found


@lru_cache(maxsize=4096)
def names_of(label: str, count: int, headings: tuple[str, ...] = ()) -> tuple[str, ...]:
    """So many names that a label joins, () where it does not: "Torque mains / rods".

    Words before the first and behind the last may be of all of them.
    """
    both = _SIDES_AT_THE_END.fullmatch(label) if count == len(_ENDS) else None
    if both and meaning_of(f"{both['name']} intake", headings).candidates:
        return f"{both['name']} intake", f"{both['name']} exhaust"
    joined = [part.split() for part in _JOINED.split(_IN_BRACKETS.sub(" ", label))]
    if count < 2 or len(joined) != count or not all(joined):
        return ()
    best: tuple[int, tuple[str, ...]] | None = None
    for before in range(min(len(joined[0]), _MOST_WORDS_SHARED + 1)):
        for behind in range(min(len(joined[-1]), _MOST_WORDS_SHARED + 1)):
            names = _shared(joined, before, behind)
            cost = _assumed(names, headings)
            if cost is not None and (best is None or cost < best[0]):
                best = cost, names
    return best[1] if best else ()


# "Tappets thou, hot: in, ex"
_SIDES_AT_THE_END = re.compile(
    r"(?P<name>.*[^\W\d_]{3}.*?)[\s:,(–-]+"
    + f"(?:{'|'.join(map(re.escape, words_of('intake')))})"
    + r"\.?\s*[/&+,]\s*"
    + f"(?:{'|'.join(map(re.escape, words_of('exhaust')))})"
    + r"\.?\)?",
    re.IGNORECASE,
)


def _shared(joined: Sequence[list[str]], before: int, behind: int) -> tuple[str, ...]:
    """Each name with the words that it shares, so many of the first and of the last."""
    first, last = joined[0], joined[-1]
    end = len(last) - behind
    alone = [first[before:], *joined[1:-1], last[:end]]
    sides = _sides([" ".join(words) for words in alone])
    return tuple(" ".join([*first[:before], side, *last[end:]]) for side in sides)


def _sides(names: list[str]) -> list[str]:
    """Names with short forms of the two sides of a valve train written out."""
    even = [name.casefold().strip(".,") for name in names]
    short = len(even) == 2 and "/".join(even) in words_of("both_sides")
    listed = len(even) == 2 and even[0] in words_of("intake") and even[1] in words_of("exhaust")
    return ["intake", "exhaust"] if short or listed else names


def _assumed(names: Sequence[str], headings: Sequence[str]) -> int | None:
    """How much names leave to be assumed, None where one names nothing or two the same."""
    told, cost = set(), 0
    for name in names:
        meaning = meaning_of(name, headings)
        which = which_of(name)
        if not meaning.candidates or meaning.unknown or which is not None:
            return None
        first = meaning.candidates[0]
        if first.cost > _MOST_ASSUMED:
            return None
        cost += first.cost
        told.add((first.measurand, meaning.at, meaning.number, meaning.bank))
    return cost if len(told) == len(names) else None
