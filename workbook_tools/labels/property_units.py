"""The units that a sheet says some properties are in: "sizes in mm, clearances in thou"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache

from workbook_tools.labels.cell_texts import either_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.line import Option
from workbook_tools.labels.sizes import is_coarse, si_factor
from workbook_tools.labels.vocabulary import BEARINGS, meaning_of
from workbook_tools.measurands import Measurand, find
from workbook_tools.quantities import LENGTH, SYSTEMS, System

_MOST_LETTERS = 100
_CLAUSES = re.compile(r"\s*[;.–(]\s+|[()]|\s+[-–]\s+")
_IN = re.compile(
    r"(?:all |alle |tous les |todos los |tutti i )?(?P<what>[^\d=:]{3,}?) (?:are |sind |sont )?"
    r"(?:in|en) (?P<unit>[^ ].*)",
    re.IGNORECASE,
)
# What stands behind a part of a unit: "hundredths of a millimeter".
_OF_A_UNIT = re.compile(
    r" (?:of an? |di |de |d'|v\. )?(?:mm|millim\w+|inch|in|pollic\w+|pulg\w+|pouces?|zoll)$",
    re.IGNORECASE,
)
_METRIC = re.compile(r"\b(?:mm\b|millim)", re.IGNORECASE)
_INCHES = re.compile(r"\binch", re.IGNORECASE)
# "mm sizes, inch lash": several units, each before what is in it.
_UNIT_FIRST = re.compile(
    r"(?:^|[\s/–-])(?P<unit>mm|inch|thou|cc)\s(?P<what>[^\W\d]+(?: [^\W\d]+)?)\s*$"
)
_OF_SIZES = ("mm", "in")
_OF_INCHES = ("thou", "tenth")
_SHORT = {"inch": "in"}
_AND = re.compile(r"\s*[,&/+]\s*| (?:and|und|et|y|e) ")
# Nouns that stand for those of all parts where no part is named: "clearances", "sizes".
_ALL_SMALL = "clearances"
# "All in thousandths" is said of clearances and gaps: no bore is.
_IN_PARTS = re.compile(
    r"(?:all|everything|figures|readings|numbers)(?: (?:are|is))?(?: in)? "
    r"(?P<unit>thou(?:s|sandths)?|tenths|\.001s?|ten-thousandths)\.?", re.IGNORECASE,
)  # fmt: skip
_SAID_OF_ALL = {"clearance", "diameter"}
# "Clearances in thou unless it says otherwise"
_UNLESS = re.compile(rf"[\s,;(]+{either_of('unless')}\b[\s:]*(?P<what>.*)$", re.IGNORECASE)
# "everything else in thou", "sonst mm": what holds for all that no other word names.
ALL_ELSE = "all else"
_ELSE = re.compile(
    rf"(?:and |und |et |y |e |,)?\s*{either_of('all_else')}(?: (?:is|are|ist|sind|est|es|è))?"
    r"(?: (?:in|en))?\s*[:=]?\s*(?P<unit>\S.*)",
    re.IGNORECASE,
)
# "clearances thou", "clr cols are thou", "gaps = thou": no word stands before the unit.
_BARE = re.compile(
    r"(?:all |alle )?(?P<what>[^\W\d][^\d=:]*?)(?P<says>\s*[=:]| cols?\.?| columns?| figures)?"
    r"(?P<are> are| sind| sont| son| sono)?\s+(?:in |en )?\(?(?P<unit>[^\s()]+(?: mm| in)?)\)?",
    re.IGNORECASE,
)
# Several are named so: "clearances", "gaps", "jeux", "Spiele", "giochi". One is a column's.
_SEVERAL = re.compile(r"(?:[sx]|spiele|giochi|luci)$", re.IGNORECASE)
# What all goes by the name of clearances.
_CLEARANCES = ("clearance", "side_clearance", "hot_clearance", "end_play", "gap", "lash")


def units_of_properties(texts: Iterable[str]) -> Mapping[str, str]:
    """The unit of each property that texts say one for: {"out_of_round": "1/100 mm"}."""
    found: dict[str, str] = {}
    for text in texts:
        if len(text) < _MOST_LETTERS:
            found |= dict(said_in(text))
    return found


def said_in(text: str) -> Sequence[tuple[str, str]]:
    """The nouns that a text says the unit of, each with it."""
    return [(noun, unit) for what, unit in _told_in(text) for noun in _nouns(what)]


@lru_cache(maxsize=16384)
def _told_in(text: str) -> Sequence[tuple[str, str]]:
    """What a text says the unit of, in its words, with the unit."""
    behind = _UNLESS.search(text)
    excepted = tuple(_told_bare(behind["what"])) if behind else ()
    return (*_told_before(_UNLESS.sub("", text)), *excepted)


def _told_before(text: str) -> Sequence[tuple[str, str]]:
    """What a text says the unit of before any exception that it makes."""
    if parts := _IN_PARTS.fullmatch(text.strip()):
        return ((_ALL_SMALL, "thou" if parts["unit"].startswith(".") else parts["unit"].lower()),)
    if not re.search(r"\b(?:in|en)\b", text) and not _ELSE.search(text):
        first = [_UNIT_FIRST.search(clause) for clause in text.split(",")]
        several = [(one["what"], _unit(one["unit"], False)) for one in first if one]
        named = [(what, unit) for what, unit in several if unit] if len(several) > 1 else []
        return named or tuple(_told_bare(text))
    found: list[tuple[str, str]] = []
    metric, of_all = _is_metric(text), _ELSE.search(text)
    for clause in _CLAUSES.split(text):
        listed: list[str] = []
        for piece in clause.split(","):
            if (of_rest := _ELSE.fullmatch(piece.strip())) and (
                unit := _unit(of_rest["unit"], metric)
            ):
                found.append((ALL_ELSE, unit))
                continue
            told = _IN.fullmatch(piece.strip()) or (of_all and _BARE.fullmatch(piece.strip()))
            unit = _unit(told["unit"], metric) if told else ""
            if not unit and is_unit(piece.rpartition(" ")[2]):
                continue  # "All diameters mm" says its own.
            listed += _AND.split(told["what"] if told and unit else piece.strip())
            if unit:
                found += [(what.strip(), unit) for what in listed if _nouns(what.strip())]
                listed = []
    return tuple(found) or tuple(_told_bare(text))


def _is_metric(text: str) -> bool:
    return _METRIC.search(text) is not None and _INCHES.search(text) is None


_PIECES = re.compile(r"\s*[,;.–(]\s+|\s+[-–]\s+|\s{2,}")


def _told_bare(text: str) -> Iterator[tuple[str, str]]:
    """What a text says the units of with no word before them: "inches, clearances thou".

    No head of a column: it names several things that have no part, and a small unit.
    """
    metric = _is_metric(text)
    for piece in _PIECES.split(text):
        told = _BARE.fullmatch(piece.strip(" .)"))
        unit = _unit(told["unit"], metric) if told else ""
        if told is None or not unit or unit in _OF_SIZES:
            continue
        names = [name.strip() for name in _AND.split(told["what"])]
        several = told["are"] or told["says"] or len(names) > 1 or _SEVERAL.search(names[-1])
        if several and all(_nouns(one) and not meaning_of(one).part for one in names):
            yield from ((one, unit) for one in names)


def _nouns(what: str) -> Sequence[str]:
    """The nouns of what words name, () where they name nothing measured."""
    if what == ALL_ELSE:
        return (ALL_ELSE,)
    meaning = meaning_of(what)
    term = find(meaning.candidates[0].measurand) if meaning.candidates else None
    if term is None or meaning.unknown:
        return ()
    return _CLEARANCES if term.noun == "clearance" else (term.noun,)


def says_units(text: str) -> bool:
    """Whether a text says what some properties are measured in, and is no title.

    "Main clearances in thou" over a table is its title, "clearances in thou" is none.
    """
    told = _told_in(text) if len(text) < _MOST_LETTERS else ()
    return len(told) > 1 or any(
        _SAID_OF_ALL & {*_nouns(what)} and not meaning_of(what).part for what, _ in told
    )


def _unit(text: str, metric: bool) -> str:
    """The unit that a text names, "" where it names none.

    metric: whether hundredths are those of a millimeter.
    """
    text = text.strip(" .)!")
    part = _OF_A_UNIT.sub("", text)
    named = (text, part, f"{part} mm") if metric else (text, part)
    return next((_SHORT.get(unit, unit) for unit in named if unit and is_unit(unit)), "")


def unit_of_property(
    units: Mapping[str, str], options: Sequence[Option], sizes: Sequence[float]
) -> str:
    """The unit that a sheet says for what a line most likely is, "" where its sizes do not fit.

    Nor where they are usual without it: "clearances in thou", and a deck clearance of .012.
    """
    for option in options:
        rest = units.get(ALL_ELSE, "") if option.term.kind is LENGTH else ""
        unit = units.get(option.term.noun, "" if rest in _OF_SIZES else rest)
        # Thousandths are of an inch: no bare size beside them is in millimeters.
        systems: Sequence[System] = ("inch",) if unit in _OF_INCHES else SYSTEMS
        if not unit and option.term.of in BEARINGS and is_coarse(sizes):
            continue  # "Rod brg 2.7 2.5" is the inside of none.
        if unit not in _OF_SIZES and any(_fits(option.term, "", sizes, s) for s in systems):
            return ""
        if unit and _fits(option.term, unit, sizes, None):
            return unit
    return ""


def _fits(term: Measurand, unit: str, sizes: Sequence[float], system: System | None) -> bool:
    """Whether most sizes are usual in a unit, or in the bare one of a system."""
    factor = si_factor(term, unit, system)
    usual = 0 if factor is None else sum(term.is_usual(abs(size) * factor) for size in sizes)
    return 2 * usual > len(sizes)
