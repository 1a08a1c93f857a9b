"""Places in short, where several beside each other tell them apart: F C R, LF RF LR RR, T1 T2."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import lru_cache

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.runs import roman
from workbook_tools.labels.which import NOTHING
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.measurand import Language
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.words import read_label

# Three in a row from end to end.
_FROM_END_TO_END = ("FCR", "FMR", "RCF", "RMF")
_ENDS = {"F": "front", "C": "center", "M": "center", "R": "rear"}
# The four corners of a face, in any order.
_CORNERS = (
    {"lf": "left front", "rf": "right front", "lr": "left rear", "rr": "right rear"},
    {"fl": "left front", "fr": "right front", "rl": "left rear", "rr": "right rear"},
    {"vl": "left front", "vr": "right front", "hl": "left rear", "hr": "right rear"},
    {"avg": "left front", "avd": "right front", "arg": "left rear", "ard": "right rear"},
    {"dx ant": "right front", "sx ant": "left front", "dx post": "right rear",
     "sx post": "left rear"},
)  # fmt: skip
# Two axes across a bore or a journal: "axis A" and "axis B", "sens 1" and "sens 2", "Bore X top".
_AXIS = re.compile(
    r"(?P<before>.*?)[\s(]*\b(?:axis|axe|eje|achse|asse|dir|direction|dirección|direzione|richtung"
    r"|sens|plane|plan|plano|ebene)\.?\s*(?P<letter>[A12BXY])\)?"
    r"|(?P<size>.*\b(?:dia\.?|diameter|diámetro|diametro|diam\.?|diamètre|durchmesser|ø))"
    r"\s*(?P<end>[ABXY])"
    r"|(?P<place>.*[^\W\d_]{2,}\.?)\s+(?:at |@ ?)?(?P<degrees>0|90)\s?°?"
    r"|(?P<part>.*[^\W\d_]{3,}\.?(?:\s#?\d{1,2})?)\s+(?P<axis>[XY])(?:[-–][XY])?"
    r"(?P<behind>\s[^\W\d_]{3,}\.?)?",
    re.IGNORECASE,
)
_BOTH = ({"A", "B"}, {"1", "2"}, {"X", "Y"}, {"0", "90"})
_FIRST = ("A", "1", "X", "0")
# A height in a bore with the axis behind it: "T1", "T2", "M1", "M2", "B1", "B2".
_HEIGHT_AND_AXIS = re.compile(r"(?P<height>[TMBHCSIOU])[-/ .]?(?P<axis>[12XYABab])")
_HEIGHTS = (
    {"T": "top", "M": "middle", "B": "bottom"},
    {"H": "top", "M": "middle", "B": "bottom"},
    {"O": "top", "M": "middle", "U": "bottom"},
    {"S": "top", "M": "middle", "I": "bottom"},
    {"S": "top", "C": "middle", "I": "bottom"},
    {"T": "top", "B": "bottom"},
    {"O": "top", "U": "bottom"},
)


def places_spelled_out(texts: Mapping[At, str], language: Language | None) -> dict[At, str]:
    """The texts of a sheet that name a place in short, spelled out where others tell it."""
    sides = _sides(texts, _LETTERS_OF_SIDES[language]) if language in _LETTERS_OF_SIDES else ()
    return dict(sides) | {
        at: place
        for find in (
            _ends_in_line,
            _ends_around_numbers,
            _ends_behind_numbers,
            _roman_numbers,
            _near_and_off,
            _along_and_across,
            _port_and_starboard,
            _around_a_wall,
            _corners_in_line,
            _heights_in_line,
            _axes,
            _bare_axes,
            _ways_below_heights,
            _ways_before_heights,
            _twos_in_a_row,
            _readings_in_a_row,
            _numbered_readings,
            _initials_in_a_row,
        )
        for at, place in find(texts)
    }


def _ends_in_line(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """F, C and R beside or below each other, as of the mains of a crankshaft."""
    for (row, column), text in texts.items():
        for down, right in ((1, 0), (0, 1)) if text in ("F", "R") else ():
            line = [(row + n * down, column + n * right) for n in range(3)]
            letters = [texts.get(at, "") for at in line]
            if "".join(letters) in _FROM_END_TO_END and all(len(letter) == 1 for letter in letters):
                yield from ((at, _ENDS[texts[at]]) for at in line)


# So many mains may stand between the ends of a crankshaft.
_MOST_BETWEEN = 5


def _ends_around_numbers(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """F and R with numbers between them: "F", 2, 3, "R"."""
    for (row, column), text in texts.items():
        for down, right in ((1, 0), (0, 1)) if text == "F" else ():
            line = [(row + n * down, column + n * right) for n in range(1, _MOST_BETWEEN + 2)]
            behind = next(((n, at) for n, at in enumerate(line) if at in texts), None)
            if behind is not None and behind[0] and texts[behind[1]] == "R":
                yield (row, column), "front"
                yield behind[1], "rear"


# A main with its end of the crank behind its number: "1 vol.", "V (distr.)".
_NUMBER_AND_END = re.compile(
    rf"(?P<number>\d{{1,2}}|[IVX]{{1,4}})[.)]?\s*[\s(\-–](?P<end>{either_of('ends_of_cranks')})\.?\)?",
    re.IGNORECASE,
)


def _ends_behind_numbers(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """The numbers of mains of which those at two places at least say where: "1 vol.", "3 distr.".

    Rows are counted by such a number as it stands, unless it is a Roman one.
    """
    for line in _lines(texts, _NUMBER_AND_END):
        across = len({row for row, _ in line}) == 1
        told = [(at, one) for at in line if (one := _NUMBER_AND_END.fullmatch(line[at]))]
        counted = [roman(one["number"]) or int(one["number"]) for _, one in told]
        ends = {one["end"].casefold() for _, one in told}
        if len(ends) > 1 and min(counted) == 1 and len({*counted}) == len(told):
            for (at, one), number in zip(told, counted, strict=True):
                if across or roman(one["number"]):
                    yield at, f"#{number}"


# A part with its number in Roman figures: "Lager II", "Cyl. III".
_ROMAN_NUMBER = re.compile(r"(?P<part>[^\W\d_]{2,}\.?)\s(?P<number>[IVX]{1,4})\.?")


def _roman_numbers(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """The parts beside or below each other that Roman figures count from the first on."""
    for line in _lines(texts, _ROMAN_NUMBER):
        parts: dict[str, dict[At, int]] = defaultdict(dict)
        for at in sorted(line):
            if (one := _ROMAN_NUMBER.fullmatch(line[at])) and counts(one["part"]):
                parts[one["part"]][at] = roman(one["number"])
        for part, numbers in parts.items():
            if [*numbers.values()] == [*range(1, len(numbers) + 1)] != [1]:
                yield from ((at, f"{part} {number}") for at, number in numbers.items())


# The side at the curb and the one at the middle of the road, as mechanics in Britain say it.
_NEAR_OR_OFF = re.compile(r"(?P<near>n/s|near ?side)|(?:o/s|off ?side)", re.IGNORECASE)


def _near_and_off(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """The near side and the off side beside or below each other: the left and the right."""
    for line in _lines(texts, _NEAR_OR_OFF):
        near = {at for at, text in line.items() if text[0] in "Nn"}
        if near and near != {*line}:
            yield from ((at, "left" if at in near else "right") for at in line)


# Two ways across a bore, where a length and a drive stand elsewhere.
_ALONG_OR_ACROSS = re.compile(rf"(?:{either_of('along')}|{either_of('across')})\.?", re.IGNORECASE)


def _along_and_across(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """ "Long." beside or below "Transv.": in line with the crank and square to it."""
    for line in _lines(texts, _ALONG_OR_ACROSS):
        along = {
            at for at, text in line.items() if text.casefold().strip(" .") in words_of("along")
        }
        if along and along != {*line}:
            yield from ((at, "longitudinal" if at in along else "transversal") for at in line)


_PORT_OR_STARBOARD = re.compile(r"port|stbd\.?|starboard|stb\.?", re.IGNORECASE)


def _port_and_starboard(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Port beside or below starboard: the left, and no channel for gas."""
    for line in _lines(texts, _PORT_OR_STARBOARD):
        port = {at for at, text in line.items() if text.casefold() == "port"}
        if port and port != {*line}:
            yield from ((at, "left" if at in port else "right") for at in line)


# Around the wall of a cylinder: the thrust side and the one across from it, front and rear.
_AROUND = {"T": "thrust", "NT": "non-thrust", "AT": "non-thrust", "F": "front", "R": "rear"}
_AROUND_A_WALL = re.compile("|".join(_AROUND))


def _around_a_wall(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """T and NT beside each other, with F and R or without."""
    for line in _lines(texts, _AROUND_A_WALL):
        if {"thrust", "non-thrust"} <= {_AROUND[text] for text in line.values()}:
            yield from ((at, _AROUND[text]) for at, text in line.items())


def _lines(texts: Mapping[At, str], wanted: re.Pattern[str]) -> Iterator[dict[At, str]]:
    """The texts of each row, and of each column, that fit a pattern."""
    found = [(at, text) for at, text in texts.items() if wanted.fullmatch(text)]
    for way in (0, 1) if found else ():
        lines: dict[int, dict[At, str]] = defaultdict(dict)
        for at, text in found:
            lines[at[way]][at] = text
        yield from lines.values()


# The left and the right in a sheet of a language: gauche and droite, izquierda and derecha.
_LETTERS_OF_SIDES: Mapping[Language | None, Mapping[str, str]] = {
    "fr": {"G": "gauche", "D": "droite"},
    "es": {"I": "izquierdo", "D": "derecho"},
}
_ENDS_WITH_A_LETTER = re.compile(r"(?P<before>(?:.*[\s(/-])?)(?P<letter>[GDI])(?P<behind>\)?)")


def _sides(texts: Mapping[At, str], sides: Mapping[str, str]) -> Iterator[tuple[At, str]]:
    """Texts that end with the letter of a side, where the same words end with the other too."""
    told = {at: one for at, text in texts.items() if (one := _ENDS_WITH_A_LETTER.fullmatch(text))}
    letters: dict[str, set[str]] = defaultdict(set)
    for one in told.values():
        letters[one["before"].casefold()].add(one["letter"])
    for at, one in told.items():
        if letters[one["before"].casefold()] == {*sides}:
            yield at, f"{one['before']}{sides[one['letter']]}{one['behind']}"


_CORNER = re.compile(r"[A-Za-z]{1,3}[/. ]{0,2}[A-Za-z]{1,4}\.?")
_FEWEST_CORNERS = 4


@lru_cache(maxsize=4096)
def _names_of_corner(text: str) -> tuple[str, str]:
    """How a text may be written among the names of corners."""
    even = text.casefold()
    return even.strip("."), re.sub(r"[/. ]", "", even)


def _corners_in_line(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """The four corners of a face beside or below each other."""
    for line in _lines(texts, _CORNER):
        for corners in _CORNERS if len(line) >= _FEWEST_CORNERS else ():
            short = {
                at: name
                for at, text in line.items()
                for name in _names_of_corner(text)
                if name in corners
            }
            if {*short.values()} == {*corners}:
                yield from ((at, corners[name]) for at, name in short.items())


def _heights_in_line(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Heights with an axis behind them, each height with the same two: "T1", "T2", "B1", "B2"."""
    for line in _lines(texts, _HEIGHT_AND_AXIS):
        told = {at: _HEIGHT_AND_AXIS.fullmatch(text) for at, text in line.items()}
        axes: dict[str, set[str]] = defaultdict(set)
        for one in told.values():
            axes[one["height"] if one else ""].add(one["axis"].upper() if one else "")
        names = next((heights for heights in _HEIGHTS if {*heights} == {*axes}), {})
        if names and all(both in _BOTH for both in axes.values()):
            for at, one in told.items():
                if one:
                    yield at, f"{names[one['height']]} {_name_of_axis(one['axis'])}"


_LETTERS = "ABCD"
_BEHIND_THEM = "E"
_FEWEST_LETTERS = 3


def _readings_in_a_row(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Heads A, B, C and D side by side: four readings of one size."""
    for (row, column), text in texts.items():
        if text != "A":
            continue
        many = 1
        while many < len(_LETTERS) and texts.get((row, column + many)) == _LETTERS[many]:
            many += 1
        goes_on = texts.get((row, column + many)) == _BEHIND_THEM
        for n in range(many if many >= _FEWEST_LETTERS and not goes_on else 0):
            yield (row, column + n), f"reading {_LETTERS[n]}"


# Who measured, by two or three letters, and whom a note of the sheet names: "JM = John".
_INITIALS = re.compile(r"[A-Z]{2,3}")
_EXPLAINED = re.compile(r"\b(?P<letters>[A-Z]{2,3}) ?[=:] ?[A-Z][a-z]+\b")


def _initials_in_a_row(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Heads "JM" and "PB", both again in their row: readings of one size by two people.

    A note says who they are.
    """
    people = {found for text in texts.values() for found in _EXPLAINED.findall(text)}
    rows: dict[int, list[At]] = defaultdict(list)
    for at, text in texts.items() if len(people) > 1 else ():
        if text in people and _INITIALS.fullmatch(text):
            rows[at[0]].append(at)
    for line in rows.values():
        letters = sorted({texts[at] for at in line})
        again = len(line) >= 2 * len(letters)
        for at in line if 1 < len(letters) <= len(_LETTERS) and again else ():
            yield at, f"reading {_LETTERS[letters.index(texts[at])]}"


_NUMBERED_READING = re.compile(r"(?:read|rdg)\.?\s*#?(?P<number>[1-4])", re.IGNORECASE)


def _numbered_readings(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Heads "Read 1" and "Read 2" side by side: readings of one size."""
    for (row, column), text in texts.items():
        told = _NUMBERED_READING.fullmatch(text)
        beside = (texts.get((row, column + n), "") for n in (-1, 1))
        if told and any(map(_NUMBERED_READING.fullmatch, beside)):
            yield (row, column), f"reading {_LETTERS[int(told['number']) - 1]}"


# One of two valves of a cylinder: "1a", "1b".
_OF_TWO = re.compile(r"(?P<number>\d{1,2})\s?(?P<letter>[abAB])")


def _twos_in_a_row(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Heads that count two of each cylinder: "1a | 1b | 2a | 2b"."""
    rows: dict[int, dict[At, re.Match[str]]] = defaultdict(dict)
    for at, text in texts.items():
        if told := _OF_TWO.fullmatch(text):
            rows[at[0]][at] = told
    for row in rows.values():
        letters: dict[str, set[str]] = defaultdict(set)
        for told in row.values():
            letters[told["number"]].add(told["letter"].upper())
        if len(letters) > 1 and all(both == {"A", "B"} for both in letters.values()):
            yield from ((at, f"#{told['number']}") for at, told in row.items())


def _axes(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Labels that end with one of two axes, where the same words have the other too."""
    told = {at: one for at, text in texts.items() if (one := _axis_in(text))}
    letters: dict[str, set[str]] = defaultdict(set)
    named = {at: (_before_axis(one) + _behind_axis(one)).casefold() for at, one in told.items()}
    for at, one in told.items():
        letters[named[at]].add(_letter_of_axis(one))
    for at, one in told.items():
        if letters[named[at]] in _BOTH:
            before = _before_axis(one).rstrip(" ,;:–-")
            axis = f"axis {_name_of_axis(_letter_of_axis(one))}"
            yield at, f"{before} {axis}{_behind_axis(one)}".strip()


def _bare_axes(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Heads X and Y side by side, where an X alone may be a tick."""
    for (row, column), text in texts.items():
        if text in ("X", "Y") and {text, texts.get((row, column + 1))} == {"X", "Y"}:
            yield (row, column), f"axis {text}"
            yield (row, column + 1), f"axis {'Y' if text == 'X' else 'X'}"


# A pattern that tries a text from each of its letters.
@lru_cache(maxsize=4096)
def _axis_in(text: str) -> re.Match[str] | None:
    return _AXIS.fullmatch(text)


# One of two ways across a bore in short: "PP", "A", "l.".
_WAY = re.compile(r"[^\W\d_]{1,3}\.?")
_ON_A_BORE = {("top",), ("middle",), ("bottom",)}
_FEWEST_HEIGHTS = 2


def _ways_below_heights(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """The same two short heads below each of several heights in a bore, whatever they stand for."""
    pairs: dict[int, list[At]] = defaultdict(list)
    for (row, column), text in texts.items():
        over = parse(text) if (row + 1, column) in texts and len(text) > 1 else None
        if over is not None and over.at in _ON_A_BORE and not (over.number or over.of):
            pairs[row + 1].append((row + 1, column))
    for begun in pairs.values():
        told = {(texts[row, column], texts.get((row, column + 1), "")) for row, column in begun}
        one, other = next(iter(told))
        alike = len(told) == 1 and len(begun) >= _FEWEST_HEIGHTS and one != other
        if alike and not any(map(_says_more, (one, other))):
            for row, column in begun:
                yield (row, column), "reading A"
                yield (row, column + 1), "reading B"


def _ways_before_heights(texts: Mapping[At, str]) -> Iterator[tuple[At, str]]:
    """Two short names in turn down a column, left of heads that are heights in a bore."""
    heights: dict[int, set[tuple[str, ...]]] = defaultdict(set)
    first: dict[int, int] = {}
    for (row, column), text in texts.items():
        over = parse(text) if len(text) > 1 else None
        if over is not None and over.at in _ON_A_BORE and not (over.number or over.of):
            heights[row].add(over.at)
            first[row] = min(column, first.get(row, column))
    for row, told in heights.items():
        column = first[row] - 1
        names: list[str] = []
        while name := texts.get((row + 1 + len(names), column), ""):
            names.append(name)
        both = names[:2]
        in_turn = len(names) > len(both) == len({*both}) == 2 and names == both * (len(names) // 2)
        if len(told) >= _FEWEST_HEIGHTS and in_turn and not any(map(_says_more, both)):
            for n in range(len(names)):
                yield (row + 1 + n, column), f"reading {'AB'[n % 2]}"


def _says_more(text: str) -> bool:
    """Whether a head is longer than the name of a way, or says by itself what, when or where."""
    said = which_of(text) or NOTHING
    measured = any(c.cost <= 1 for c in read_label(text).candidates)
    # Another height it cannot be below one: a B is no bottom.
    placed = said.at not in _ON_A_BORE and said.at
    known = placed or said.stage or said.side in ("intake", "exhaust")
    return not _WAY.fullmatch(text) or measured or bool(known)


def _before_axis(told: re.Match[str]) -> str:
    return told["before"] or told["size"] or told["place"] or told["part"] or ""


def _behind_axis(told: re.Match[str]) -> str:
    return told["behind"] or ""


def _letter_of_axis(told: re.Match[str]) -> str:
    letter = told["letter"] or told["end"] or told["degrees"] or told["axis"]
    return letter.upper()


def _name_of_axis(letter: str) -> str:
    return "X" if letter.upper() in _FIRST else "Y"
