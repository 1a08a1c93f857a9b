"""Which one a number is of: cylinder 3, main 2, the left bank, top of the bore across the crank."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from importlib import resources
from itertools import pairwise
from typing import Any

from workbook_tools.kept_files import own_toml
from workbook_tools.measurands.tokens import spelled, tokens

# What positions are of, in the order of sorting, and how each is written.
_SHORT: Mapping[str, str] = {
    "": "",
    "cylinder": "Cyl",
    "main": "Main",
    "rod": "Rod",
    "cam_bearing": "Cam bearing",
    "bearing": "Bearing",
    "valve": "Valve",
    "ring": "Ring",
    "fastener_group": "Bolt",
}
AT = (
    "top", "middle", "bottom", "thrust", "parallel", "vertical", "horizontal", "front", "rear",
)  # fmt: skip
_BANK = re.compile(r"[A-Z]|[1-9]")
_MOST = 99


@dataclass(frozen=True)
class Position:
    """Which one of several a number is of, and where on it.

    of: "cylinder", "main", "rod", "cam_bearing", "bearing", "valve", "ring",
    "fastener_group", or "" where only a number or a bank is told; number: from 1, 0 for
    none; last: of a pair that shares a part (rods 1-2), else 0; bank: "L", "R", "A", "B",
    "1", ... or ""; at: where on it, as AT names it where it does. With nothing told it is
    of the only one there is.
    """

    of: str = ""
    number: int = 0
    bank: str = ""
    at: tuple[str, ...] = ()
    last: int = 0

    def __post_init__(self) -> None:
        if self.of not in _SHORT:
            raise ValueError(f"of: expected one of {[*_SHORT]}, got {self.of!r}")
        if not 0 <= self.number <= _MOST or (self.last and not self.number < self.last <= _MOST):
            raise ValueError(f"number: expected 1 to {_MOST}, rising, got {self.number, self.last}")
        if self.bank and not _BANK.fullmatch(self.bank):
            raise ValueError(f"bank: expected a capital letter or a digit, got {self.bank!r}")

    @cached_property
    def which(self) -> str:
        """Which one, without of what and where: "3", "L2", "R", "1-2", "" for the only one."""
        digits = f"{self.number}-{self.last}" if self.last else str(self.number or "")
        return f"{self.bank}{digits}"

    @property
    def short(self) -> str:
        """As written on pages, and read back by parse: "Cyl L2 top", "Rod 1-2", "Bank R"."""
        digits = f"{self.number}-{self.last}" if self.last else str(self.number or "")
        if self.bank and digits and self.bank.isalpha():
            counted = f"{_SHORT[self.of]} {self.bank}{digits}"
        elif digits:
            bank = f"Bank {self.bank} " if self.bank else ""
            counted = f"{bank}{_SHORT[self.of] or '#'} {digits}".replace("# ", "#")
        else:
            bank = f"Bank {self.bank} " if self.bank else ""
            counted = f"{bank}{_SHORT[self.of]}"
        return " ".join((*counted.split(), *self.at))

    @property
    def order(self) -> tuple[int, str, int, int, tuple[int, ...]]:
        """What positions are sorted by: of what, bank, number, place."""
        at = tuple(AT.index(place) if place in AT else len(AT) for place in self.at)
        return [*_SHORT].index(self.of), self.bank, self.number, self.last, at


@dataclass(frozen=True)
class Piece:
    """A piece of a position's text: what kind of thing it says, and what."""

    says: str
    value: str


_GROUPS = ("of", "bank", "at", "ordinal", "number")


def listed(data: Mapping[str, Any]) -> Iterator[tuple[tuple[str, ...], Piece]]:
    """The phrases of the file of positions with what each says.

    Raises ValueError for an unknown group, or a phrase that says two things.
    """
    seen: dict[tuple[str, ...], Piece] = {}
    for says, values in data.items():
        if says == "fillers":
            continue
        if says not in _GROUPS:
            raise ValueError(f"positions.toml: unknown group {says!r}; known are {_GROUPS}")
        for value, languages in values.items():
            piece = Piece(says, value)
            for phrase in (p for ws in languages.values() for w in ws for p in spelled(w)):
                if seen.setdefault(phrase, piece) != piece:
                    raise ValueError(f"positions.toml: {' '.join(phrase)!r} says two things")
                yield phrase, piece


@cache
def phrases() -> Mapping[tuple[str, ...], Piece]:
    """The phrases that say which one, in five languages."""
    return dict(listed(_data()))


@cache
def _data() -> dict[str, Any]:
    folder = resources.files("workbook_tools.measurands").joinpath("lexicon")
    return own_toml(folder.joinpath("positions.toml").read_text("utf-8"))


@cache
def _first_of_several() -> frozenset[str]:
    """The words that phrases of several begin with."""
    return frozenset(phrase[0] for phrase in phrases() if len(phrase) > 1)


@cache
def _fillers() -> frozenset[str]:
    return frozenset(_data()["fillers"])


_NUMBER = re.compile(r"0?[1-9]\d?")
_SIDED = re.compile(r"(?P<side>[lrab])(?P<number>\d{1,2})|(?P<first>\d{1,2})(?P<last>[lrab])")
_LONGEST = 5


def parse(text: str) -> Position | None:
    """The position that a text names and nothing else, None for any other text.

    text: as a head of a row or column has it: "Cyl 3", "#3", "Zyl. 3", "Main 2", "L2", "3R",
    "Rod 1-2", "2nd main", "oben quer", "left bank", "Bank 2".
    """
    return _parse(text)


# "016" of ".016-.022" counts nothing.
_DECIMALS = re.compile(r"(?:^|[\s(\-–])[.,]\d|\d[.,]\d{2}")


@lru_cache(maxsize=8192)
def _parse(text: str) -> Position | None:
    if _DECIMALS.search(text):
        return None
    pieces = _pieces(list(tokens(text)))
    return _position(pieces) if pieces else None


# Which ones a row of values is of: "1-3-5-7", "Cyls 2/4/6/8".
# A number with what else it is called: "1 = G", "2 = rear".
_NAMED_TOO = re.compile(
    r"(?:no\.? ?|nr\.? ?|n° ?|#)?(?P<number>[1-9]|1\d) ?= ?[^\W\d_]{1,12}\.?", re.IGNORECASE
)


def number_named_too(text: str) -> int:
    """The number that a text gives another name, 0 where it does not: "1 = left"."""
    named = _NAMED_TOO.fullmatch(text) if "=" in text else None
    return int(named["number"]) if named else 0


_LISTED = re.compile(
    r"(?P<of>[^\W\d_]*)[.:#\s]*(?P<numbers>\d{1,2}(?:\s*[-–,/&\s]\s*\d{1,2}){2,})[:.]?"
)
_MOST_LISTED = 16


def numbers_listed(text: str) -> Sequence[int]:
    """The numbers that a text lists and nothing else, in ones or twos: "1-3-5-7"; else none."""
    told = _LISTED.fullmatch(text)
    if told is None or (told["of"] and counts(told["of"]) is None):
        return ()
    numbers = [int(n) for n in re.findall(r"\d+", told["numbers"])]
    steps = {b - a for a, b in pairwise(numbers)}
    return numbers if steps in ({1}, {2}) and numbers[0] > 0 and numbers[-1] <= _MOST_LISTED else ()


@lru_cache(maxsize=8192)
def counts(text: str) -> str | None:
    """What a text numbers where it says nothing else: "cylinder" for "Cyl.", "" for "No."."""
    even = [token for token in tokens(text) if token not in "-/&"]
    if not even or even[0] in _fillers():
        return None
    pieces = _pieces(even)
    if not pieces or any(piece.says not in ("of", "number") for piece in pieces):
        return None
    return next((piece.value for piece in pieces if piece.says == "of"), "")


def _pieces(even: list[str]) -> list[Piece] | None:
    """The pieces that tokens make, None where one of them says nothing of a position."""
    pieces: list[Piece] = []
    spot = 0
    while spot < len(even):
        for length in range(min(_LONGEST, len(even) - spot), 0, -1):
            piece = _piece(even[spot : spot + length])
            if piece:
                pieces.append(piece)
                break
        else:
            if even[spot] not in _fillers():
                return None
            length = 1
        spot += length
    return pieces


def _piece(even: list[str]) -> Piece | None:
    if len(even) == 3 and even[1] in "-/+&" and all(map(_NUMBER.fullmatch, even[::2])):
        # A clock's 12-6 is listed; any other two numbers are a pair.
        known = phrases().get((even[0], even[2]))
        return known or Piece("pair", f"{int(even[0])} {int(even[2])}")
    if len(even) == 1 and (sided := _SIDED.fullmatch(even[0])):
        side = (sided["side"] or sided["last"]).upper()
        return Piece("sided", f"{side} {int(sided['number'] or sided['first'])}")
    if len(even) == 1 and _NUMBER.fullmatch(even[0]):
        return Piece("count", str(int(even[0])))
    if even[0] in _fillers() or even[-1] in _fillers():
        return None
    phrase = tuple([token for token in even if token not in "-/&"])
    if len(phrase) > 1 and phrase[0] not in _first_of_several():
        return None
    known = phrases().get(phrase)
    if known is None and phrase and len(phrase[-1]) > 3:
        known = phrases().get((*phrase[:-1], phrase[-1].removesuffix("s")))
    return known


def _position(pieces: list[Piece]) -> Position | None:
    pieces = _with_numbered_banks(pieces)
    counted = any(a.says == "count" and b.says == "of" for a, b in pairwise(pieces))
    if counted and not any(piece.says == "number" for piece in pieces):
        return None  # "6 cyl" says how many there are.
    said: dict[str, set[str]] = {}
    for says, value in (part for piece in pieces for part in _parts(piece)):
        said.setdefault(says, set()).add(value)
    said.get("of", set()).discard("bank")
    if any(len(said.get(key, ())) > 1 for key in ("count", "bank", "last")):
        return None
    of = next((piece.value for piece in pieces if piece.says == "of" and piece.value != "bank"), "")
    if not said.keys() & {"count", "bank", "at"}:
        return None
    try:
        return Position(
            of=of,
            number=int(_only(said, "count") or 0),
            bank=_only(said, "bank"),
            at=tuple(place for place in AT if place in said.get("at", ())),
            last=int(_only(said, "last") or 0),
        )
    except ValueError:
        return None


def _with_numbered_banks(pieces: list[Piece]) -> list[Piece]:
    """Pieces with the number or letter behind "bank" taken for the bank."""
    taken = list(pieces)
    for spot, (before, piece) in enumerate(pairwise(pieces), start=1):
        if before == Piece("of", "bank") and piece.says in ("count", "bank"):
            taken[spot] = Piece("bank", piece.value)
    return taken


def _parts(piece: Piece) -> Iterator[tuple[str, str]]:
    """What a piece says, pairs and sides taken apart."""
    if piece.says == "pair":
        first, last = piece.value.split()
        yield "count", first
        yield "last", last
    elif piece.says == "sided":
        side, number = piece.value.split()
        yield "bank", side
        yield "count", number
    else:
        yield ("count" if piece.says == "ordinal" else piece.says), piece.value


def _only(said: Mapping[str, set[str]], key: str) -> str:
    return next(iter(said.get(key, ())), "")
