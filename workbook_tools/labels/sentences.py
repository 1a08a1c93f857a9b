"""Numbers within a sentence: "bore 1 4.0305, piston 4.026 -> .0045", "mains 65 / rods 45 ft-lb".

A sentence is taken apart into words and numbers; each number belongs to the words before it,
and to what the sentence began with. What the words mean is decided like that of any label.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.last_figures import without_bases
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.heights import without_grade, without_lift
from workbook_tools.measurands.position import counts
from workbook_tools.quantities import LENGTH

_TOKEN = re.compile(
    r"(?P<position>(?:\#|n[o°º]\.?\s?)\d{1,2}(?:\s?[&+]\s?\d{1,2})?|\b\d{1,2}\s?&\s?\d{1,2}\b"
    r"|(?<=\bpair )\d{1,2}-\d{1,2}\b|(?<=[\s(])\d{1,2}\)(?=\s*\d))"
    r"|(?P<ordinal>\b\d(?:st|nd|rd|th|er|e|º|ª|°)\b)"
    r"|(?P<fraction>(?<![\w.,/])(?:\d{1,2}[ -])?\d{1,2}/(?:2|4|8|16|32|64)\b)"
    r"|(?P<number>(?<![\w.,])[-+−–~]?(?:\d+[.,]\d+|[.,]\d+|\d+)(?![\w]*[./]\d))"
    r"|(?P<arrow>->|=>|=|→)"
    r"|(?P<stop>[;:/]|,(?!\d)|\s-\s)"
    r"|(?P<word>[^\W\d_][^\s,;:=/()\"]*|°|%|\"|[^\W\d_]+)",
)
_BETWEEN, _JOINING = words_of("between"), words_of("joining")
_WHERE, _RESULTS = words_of("where"), words_of("results")
_UP_TO = {("word", word) for word in words_of("up_to")}
_TORQUE = re.compile(r"(?:ft|lb|in|lbf|n|kg|kgf|m)[.\-·]?\s?(?:lbf?s?|ft|m|in)?s?", re.IGNORECASE)
_FROM_WHERE = {"btdc", "atdc", "abdc", "bbdc", "vot", "not", "nut", "vut"}
_SIDE_WORDS = (words_of("intake") | words_of("exhaust")) - {"i", "in"}
# Before a number with its name behind it: "with a 3.997 piston", "that is .0045 loose".
_ARTICLES = ("a", "an", "that", "is", "un", "une", "una", "ein", "eine", "einem")
_MOST_COUNTED = 16
_SMALL_UNITS = ("thou", "µm", "um")
_FEWEST_LISTED = 3
_FEWEST_LETTERS = 2


@dataclass(frozen=True)
class Mention:
    """A number within a sentence: the words that it belongs to, which one, and its text."""

    label: str
    about: tuple[str, ...]
    which: Which
    text: str


@dataclass
class _State:
    title: str = ""
    words: list[str] = field(default_factory=list)
    label: str = ""
    about: list[str] = field(default_factory=list)
    which: Which = NOTHING
    behind: bool = False
    counted: bool = False  # The last number is the next in line, for want of a word.
    left: str = ""
    listed: set[int] = field(default_factory=set)  # Those behind no more than a comma.
    found: list[Mention] = field(default_factory=list)


# One sentence ends and another begins; a point behind a short form ends none.
_END = re.compile(
    r"(?:(?<=[^\W\d_]{4})|(?<=\d)|(?<=\bmm)|(?<=\bin)|(?<=\bft)|(?<=\bcc)|(?<=\bNm)|(?<=\bTDC)"
    r"|(?<=\bBDC)|(?<=\blb)|(?<=\bpsi)|(?<=\bbar))\.\s+(?=[A-ZÀ-Þ])"
)
# Units of torque written as two words.
_TWO_WORDS = re.compile(
    r"(?:(?<=\d )|(?<=\())(lbf?s?|ft|in|foot|n|kgf?|m)[ ](lbf?s?|ft|in|m|kgf?|pounds?)\b(?![ ]lb)",
    re.IGNORECASE,
)


# How fast the car went: "22 psi at 30 m.p.h."
_ON_THE_ROAD = re.compile(
    r"[ ,]+(?:at|@|bei|à|a)?\s*\d{1,3}\s*(?:m\.?\s?p\.?\s?h\b|km\s?/\s?h|kmh)\.?", re.IGNORECASE
)
# ".004-.005" is a range and no negative number.
_RANGE = re.compile(r"(?<![\w.,])(\d*[.,]\d+)[-–](\d*[.,]\d+)(?!\w|[.,]\d)")
# "65 ft lbs in 3 pulls" is no torque of 3.
_IN_STEPS = re.compile(
    rf",?\s+(?:(?:in|en|à)\s+)?\d\s+{either_of('steps_of_torque')}", re.IGNORECASE
)
# The length of a rod: "center to center".
_CENTERS = re.compile(r"\b(?:cent(?:er|re)|c)[ -]to[ -](?:cent(?:er|re)|c)\b", re.IGNORECASE)
# How far a bore is over the standard one, and no size: "Zylinderbohrungen Übermaß 0,5".
_OVERSIZE = re.compile(
    r"\b(?:(?:über|unter)ma(?:ß|ss)|(?:over|under)size|sobremedida|maggiorazione|magg\.|majoration)"
    r"\s*:?\s*[+-]?\d*[.,]?\d+(?:\s?mm\b)?",
    re.IGNORECASE,
)
# "He says 4.5 is right for split skirts": of no skirt of this engine.
_RIGHT_FOR = re.compile(
    rf"(?<![\w.,])\d*[.,]?\d+(?:\s?[^\W\d_]{{1,5}}|\s?\")?\s+{either_of('right_for')}.*",
    re.IGNORECASE,
)
# A shaft that runs out is no engine that runs.
_RUNS_OUT = re.compile(r"\b(?:runs|ran|running) out\b(?: by)?", re.IGNORECASE)
# "1/16 = .062": the same size again.
_TWICE = re.compile(r"(?<![\w.,/])\d{1,2}/(?:2|4|8|16|32|64)\s*=\s*(?=\d*[.,]\d)")
# "3.17 in the middle" says where, and no unit.
_WITHIN = re.compile(r"(?<=\d )in (?=(?:the|an?|its|each|this|all)\b)", re.IGNORECASE)


def mentions(text: str, title: str = "") -> list[Mention]:
    """The numbers that sentences name; [] where they hold none with words before it.

    title: what stands over the sentences, "" for nothing.
    """
    return [mention for sentence in _END.split(text) for mention in _of_sentence(sentence, title)]


# "Compression ratio: 10.6:1" counts nothing.
_NAMED_RATIO = re.compile(r"(?P<label>[^\d:]+):\s*(?P<number>\d+[.,]\d+)\s?:\s?1$")


# "Bore number 1 finished at 3.7505".
_NUMBER_IN_WORDS = re.compile(
    r"\b(?:number|nummer|numéro|número|numero) (?=\d{1,2}\b(?![.,]\d))", re.IGNORECASE
)


def _of_sentence(text: str, title: str) -> list[Mention]:
    text = _NUMBER_IN_WORDS.sub("#", _RIGHT_FOR.sub("", _OVERSIZE.sub("", text)))
    text = _CENTERS.sub("c-c", _RUNS_OUT.sub("runout", text))
    text = _IN_STEPS.sub("", _ON_THE_ROAD.sub("", without_bases(text)))
    text = _RANGE.sub(r"\1 - \2", _TWICE.sub("", text))
    text = _WITHIN.sub("", _TWO_WORDS.sub(r"\1.\2", without_lift(without_grade(text))))
    text = text.rstrip().removesuffix(".")
    if (ratio := _NAMED_RATIO.match(text)) and meaning_of(ratio["label"]).candidates:
        text = f"{ratio['label']} {ratio['number']}"
    tokens = [(m.lastgroup or "", m[0].strip()) for m in _TOKEN.finditer(_RATIO.sub(_ratio, text))]
    tokens = _with_sides_before(tokens)
    state = _State(title=title)
    for at, (kind, word) in enumerate(tokens):
        if (kind == "arrow" and _is_beside_its_place(tokens, at)) or _is_more(tokens, at):
            continue
        gives = bool(state.found) and not state.words and word.casefold() in _RESULTS
        if kind == "arrow" or gives:
            named = [m.label for m in state.found] or state.words
            state.about = [*dict.fromkeys((*state.about, *named))][-3:]
            state.words, state.label = ["clearance"], ""
        elif kind in ("word", "ordinal"):
            _take_word(state, word)
        elif kind == "position" or _is_number_of_part(state, tokens, at):
            _take_position(state, word)
        elif kind in ("number", "fraction"):
            _take_number(state, word, tokens, at)
        elif kind == "stop":
            _stop(state, word)
    _take_words_behind(state)
    return _with_units_behind(_listed_by_number(state))


def _is_more(tokens: Sequence[tuple[str, str]], at: int) -> bool:
    """Whether a number is how much larger than the one before it a size may be: "98,00 +0,02"."""
    (before, size), (kind, word) = tokens[at - 1] if at else ("", ""), tokens[at]
    return kind == before == "number" and word.startswith("+") and size[:1].isdigit()


# "comes to 10.6:1" says of what by how it is written; a rocker's says it in words.
_RATIO = re.compile(r"(?P<before>^|.*?)(?P<ratio>\b\d{1,2}(?:[.,]\d{1,2})?)\s?(?::|to)\s?1\b")


def _ratio(found: re.Match[str]) -> str:
    before = found["before"].rstrip()
    named = bool(meaning_of(before.rpartition(",")[2]).candidates)
    return found[0] if named else f"{before} compression ratio {found['ratio']}"


def _with_sides_before(tokens: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Tokens with the sides before their numbers where they stand behind both.

    "0.35 inlet 0.40 exhaust" says of each number behind it which side it is of.
    """
    sides = [at for at, token in enumerate(tokens) if _is_side(token)]
    groups = [(*_behind_a_number(tokens, at), at) for at in sides]
    told = [group for group in groups if group[0] is not None]
    if len(told) != 2 or len(sides) != 2:
        return tokens
    first, last = told
    begin = first[0]
    while begin and tokens[begin - 1][0] == "word":
        begin -= 1
    name = tokens[begin : first[0]]
    moved = list(tokens)
    for begins, _, side in (last, first):
        of_last = name if begins == last[0] else []
        moved[begins : side + 1] = [*of_last, tokens[side], *tokens[begins:side]]
    return moved


def _is_side(token: tuple[str, str]) -> bool:
    word = token[1].casefold().strip(".,")
    return token[0] == "word" and word in _SIDE_WORDS


# Where the number and its unit before a side begin and end; None where none stands there.
def _behind_a_number(tokens: list[tuple[str, str]], side: int) -> tuple[int | None, int]:
    at = side - 1
    if at > 0 and tokens[at][0] == "word" and _unit(tokens[at][1]):
        at -= 1
    return (at if at >= 0 and tokens[at][0] in ("number", "fraction") else None), side


def _listed_by_number(state: _State) -> list[Mention]:
    """Many numbers between commas are counted as they stand: "bores 86.01, 86.02, 86.01"."""
    found = list(state.found)
    first = 0
    for at in range(1, len(found) + 1):
        goes_on = at in state.listed and at < len(found) and found[at].label == found[first].label
        if goes_on:
            continue
        listed = found[first:at]
        if len(listed) >= _FEWEST_LISTED and not any(m.which.number for m in listed):
            found[first:at] = [
                replace(m, which=m.which._replace(number=n)) for n, m in enumerate(listed, 1)
            ]
        first = at
    return found


def _take_word(state: _State, word: str) -> None:
    unit = _unit(word)
    if word.casefold().strip(".") in _BETWEEN and not unit and not _is_short_form(word):
        return
    if state.behind and not state.words and unit and not _has_unit(state.found[-1].text):
        last = state.found[-1]
        state.found[-1] = replace(last, text=f"{last.text} {unit}")
        return
    if word.casefold() in _WHERE and state.behind and not state.words:
        return
    said = which_of(word)
    told = said is not None and bool(said.bank or said.at) and not state.words
    if told and (state.found or state.which.number):
        return
    state.words.append(word)


def _is_short_form(word: str) -> bool:
    """Whether a word in capitals is what is measured in short: "EÖ 5° v OT, ES 47° n UT"."""
    if not word.isupper() or len(word) < _FEWEST_LETTERS:
        return False
    candidates = meaning_of(word).candidates
    return bool(candidates) and candidates[0].cost <= 1


def _unit(word: str) -> str:
    """A word as a unit that is known, "" where it is none; degrees may say from where."""
    if word.casefold() in _FROM_WHERE or word == "%":
        return word
    return next(
        (w for w in (word, word.replace("-", " "), word.replace("-", ".")) if is_unit(w)), ""
    )


def _has_unit(text: str) -> bool:
    return re.search(r"[^\W\d_]|[\"%°]", text) is not None


def _take_position(state: _State, word: str) -> None:
    free = not state.words or state.words[-1] == "pair"
    last = state.found[-1] if state.found else None
    if last and free and state.behind and (state.counted or not last.which.number):
        state.found[-1] = replace(last, which=_numbered(last.which, word))
        state.counted = False
        return
    state.which = _numbered(state.which, word)


def _numbered(which: Which, word: str) -> Which:
    numbers = [int(n) for n in re.findall(r"\d+", word)]
    return Which(numbers[0], numbers[1] if len(numbers) > 1 else 0, which.bank)


def _goes_on_with_the_last(
    state: _State, word: str, tokens: list[tuple[str, str]], at: int
) -> bool:
    """Whether a number is told of the size before it: ".010 on 1", "12 to 14"."""
    if _is_on_which(state, word, tokens, at):
        state.found[-1] = replace(state.found[-1], which=_numbered(state.found[-1].which, word))
        state.words, state.counted = [], False
        return True
    ranges = at > 1 and tokens[at - 1] == ("stop", "-") and tokens[at - 2][0] == "number"
    if state.found and not state.words and at and (ranges or tokens[at - 1] in _UP_TO):
        last = state.found[-1]
        state.found[-1] = replace(last, text=f"{last.text} to {word}")
        return True
    return False


def _is_number_of_part(state: _State, tokens: list[tuple[str, str]], at: int) -> bool:
    """Whether a whole number behind the name of one part says which, and a size follows later.

    "Piston 1 across the skirt is 3.7465", "Sleeve 2 stands 2.5 thou above the block".
    """
    kind, word = tokens[at]
    if (
        not state.words
        or kind != "number"
        or not word.isdecimal()
        or not 1 <= int(word) <= _MOST_COUNTED
    ):
        return False
    if state.words[-1].endswith("s") or meaning_of(state.words[-1]).part not in _OF_ONE_CYLINDER:
        return False
    behind = [*itertools.takewhile(lambda token: token[0] == "word", tokens[at + 1 :])]
    end = at + 1 + len(behind)
    if not behind or _unit(behind[0][1]) or tokens[end : end + 1] == []:
        return False
    unit = _unit(tokens[end + 1][1]) if end + 1 < len(tokens) else ""
    return tokens[end][0] == "number" and (_has_point(tokens, end) or bool(unit))


# What a cylinder has one of, and a crank one for each.
_OF_ONE_CYLINDER = (
    "piston",
    "bore",
    "liner",
    "rod",
    "rod_journal",
    "chamber",
    "injector",
    "spark_plug",
)


def _take_number(state: _State, word: str, tokens: list[tuple[str, str]], at: int) -> None:
    if _is_position(state, word, tokens, at):
        state.which = Which(int(word), bank=state.which.bank)
        named = " ".join(state.words)
        if state.words and not state.about:
            state.about = [named]
            state.label, state.words = named, []
        elif state.words and (of := counts(named)):
            # "Ring gap: cylinder 1 .016" measures no cylinder.
            state.which = Which(int(word), bank=state.which.bank, of=of)
            state.label, state.words = state.about[-1], []
        return
    before = tokens[at - 1] if at else ("", "")
    if _goes_on_with_the_last(state, word, tokens, at):
        return
    named = state.left if before == ("stop", ",") else ""
    label = " ".join(state.words) or named or state.label
    if not label and state.about:
        label = state.about[-1]
    if not label and not state.found:
        label = state.title
    state.counted = False
    if before == ("stop", ",") and not state.words and _is_what_two_give(state, tokens, at):
        state.about = [*dict.fromkeys(m.label for m in state.found)][-3:]
        label = "clearance"
    elif before == ("stop", ",") and not state.words and not named:
        state.listed.add(len(state.found))
    if label:
        _add_mention(state, label, word)
    state.words = []


def _add_mention(state: _State, label: str, word: str) -> None:
    """Take a number for one of what a label, and what was told before it, says."""
    # What a sentence began with is told of all in it; else its first number's name is.
    first = (state.found[0].label,) if state.found and not state.about else ()
    meaning = meaning_of(label)
    begun = (state.left,) if state.left and meaning.candidates and not meaning.part else ()
    others = (*reversed(state.about), *first, *begun)
    about = tuple(dict.fromkeys(a for a in others if a != label))
    which = state.which
    if state.found and state.behind and not state.words and not which.number:
        which, state.counted = _next_in_line(state, label), True
    state.found.append(Mention(label, about, which, re.sub("[−–]", "-", word)))
    state.label, state.behind = label, True


def _next_in_line(state: _State, label: str) -> Which:
    """Numbers one behind the other are counted as they stand."""
    same = [m for m in state.found if m.label == label]
    if len(same) == 1 and not same[0].which.number:
        state.found[state.found.index(same[0])] = replace(same[0], which=Which(1))
    return Which(len(same) + 1)


def _is_position(state: _State, word: str, tokens: list[tuple[str, str]], at: int) -> bool:
    """Whether a whole number behind a name says which one: another number or a colon follows."""
    if not word.isdecimal() or not 1 <= int(word) <= _MOST_COUNTED:
        return False
    behind = at + 1
    if tokens[at - 1 : at] in ([("stop", ":")], [("stop", ",")]) and _has_point(tokens, behind):
        return True
    while tokens[behind : behind + 1] and tokens[behind][0] == "word":
        said = tokens[behind][1].casefold()
        if said not in _BETWEEN or said in _JOINING:
            break
        behind += 1
    following = tokens[behind : behind + 2]
    if _is_beside_its_place(tokens, behind):
        return bool(state.words or state.found or state.about)
    if following[:1] == [("stop", ":")]:
        return bool(state.words or state.found)
    if not state.words or not following:
        return False
    if following[0][0] == "number":
        return True
    counted = counts(" ".join(state.words)) is not None
    return counted and following[0][0] == "word" and not _unit(following[0][1])


def _has_point(tokens: list[tuple[str, str]], at: int) -> bool:
    """Whether a size with a point stands at a place of a sentence: "1 .022, 2 .023"."""
    return at < len(tokens) and tokens[at][0] == "number" and not tokens[at][1].isdecimal()


def _is_on_which(state: _State, word: str, tokens: list[tuple[str, str]], at: int) -> bool:
    """Whether a whole number says which one the number before it is of: ".010 on 1"."""
    whole = word.isdecimal() and 1 <= int(word) <= _MOST_COUNTED
    before = tokens[at - 1] if at else ("", "")
    behind = tokens[at + 1] if at + 1 < len(tokens) else ("", "")
    on = before[0] == "word" and before[1].casefold() in _WHERE - {"in"}
    unit = behind[0] == "word" and _unit(behind[1])
    return whole and on and not unit and state.behind and bool(state.found) and not state.words


def _is_what_two_give(state: _State, tokens: list[tuple[str, str]], at: int) -> bool:
    """Whether thou stand behind two sizes: "journal 2.1150, shell 2.1172, 2.2 thou"."""
    unit = tokens[at + 1][1].casefold() if at + 1 < len(tokens) else ""
    named = {m.label for m in state.found}
    bare = not any(_has_unit(m.text) for m in state.found[-2:])
    return unit in _SMALL_UNITS and len(named) > 1 and bare


def _is_beside_its_place(tokens: list[tuple[str, str]], at: int) -> bool:
    """Whether an equals sign stands between which one and its size: "1=85.95"."""
    if not 0 < at < len(tokens) - 1 or tokens[at] != ("arrow", "="):
        return False
    (before, place), (behind, size) = tokens[at - 1], tokens[at + 1]
    whole = before == "number" and place.isdecimal() and 1 <= int(place) <= _MOST_COUNTED
    return whole and behind == "number" and not size.isdecimal()


def _take_words_behind(state: _State) -> None:
    """Words behind a number are of its name where with them it says more: 35 thou below deck."""
    if not (state.behind and state.words and state.found):
        return
    last, state.words = state.found[-1], _before_a_clause(state.words)
    longer = f"{last.label} {' '.join(state.words)}"
    alone, both = meaning_of(last.label), meaning_of(longer)
    behind = meaning_of(" ".join(state.words))
    unnamed = not alone.candidates and bool(alone.unknown) and not behind.unknown
    named_behind = (last.label.split()[-1] in _ARTICLES or unnamed) and bool(behind.candidates)
    if named_behind:
        longer, both = " ".join(state.words), behind
    if both.unknown or not both.candidates:
        return
    surer = (
        named_behind or not alone.candidates or both.candidates[0].cost < alone.candidates[0].cost
    )
    if surer or (both.stage and not alone.stage):
        state.found[-1] = replace(last, label=longer)
        state.words = []


def _before_a_clause(words: list[str]) -> list[str]:
    """Words up to one that begins another clause: "hollow when he came in"."""
    begun = (n for n, word in enumerate(words) if n and word.casefold() in words_of("clauses"))
    return words[: next(begun, len(words))]


def _stop(state: _State, word: str) -> None:
    if word != ":":
        _take_words_behind(state)
        state.left = "" if state.behind else " ".join(state.words)
        state.words, state.behind = [], False
    elif state.words:
        state.about = [" ".join(state.words)]
        state.label, state.words = state.about[0], []


def _with_units_behind(found: list[Mention]) -> list[Mention]:
    """A unit behind the last of several numbers without one is of all of them, as of torques."""
    with_unit = [m for m in found if _has_unit(m.text)]
    if len(with_unit) != 1 or len(found) < 2:
        return found
    unit = with_unit[0].text.partition(" ")[2]
    if not unit or not _TORQUE.fullmatch(unit) or unit.casefold() in ("in", "m"):
        return found
    return [m if m is with_unit[0] else replace(m, text=f"{m.text} {unit}") for m in found]


def spoken(text: str, title: str = "") -> Iterator[Mention]:
    """The numbers of a sentence that are written as sizes: with a point, or with a unit."""
    found = mentions(text, title)
    listed = _whole_numbers_listed(found)
    for mention in found:
        last = mention.label.casefold().split()[-1:]
        hole = bool(words_of("of_gaskets").intersection(last))
        if counts(mention.label) == "cylinder" and not mention.which.number and not hole:
            continue  # "6 cyl 11 liter" measures no cylinder, and a hole one of a gasket.
        if re.search(r"[.,]\d", mention.text) or _has_unit(mention.text) or mention in listed:
            yield mention


# So many whole numbers behind a name are sizes of each: "compression cranking 160 158 162 160".
_FEWEST_WHOLE, _LEAST_WHOLE, _CLEAR = 3, 20, 2


def _whole_numbers_listed(found: Sequence[Mention]) -> Sequence[Mention]:
    """The whole numbers that stand one behind the other, from the first of several alike on."""
    label = next((m.label for m in found if m.which.number == 1), "")
    listed = [m for m in found if m.label == label and m.text.isdecimal()]
    counted = [m.which.number for m in listed] == [*range(1, len(listed) + 1)]
    if not label or len(listed) < _FEWEST_WHOLE or len(listed) < len(found) or not counted:
        return ()
    candidates = meaning_of(label).candidates
    term = find(candidates[0].measurand) if candidates and candidates[0].cost <= _CLEAR else None
    large = all(int(m.text) >= _LEAST_WHOLE for m in listed)
    return listed if large and term is not None and term.kind is not LENGTH else ()
