"""Letters that stand for a word of the sheet's language, spelled out: A, E, P1, M2, HL 3."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping
from functools import lru_cache

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.cell_words import is_second_ring
from workbook_tools.labels.dittos import of_another
from workbook_tools.labels.legends import said_by_legends
from workbook_tools.labels.place_letters import places_spelled_out
from workbook_tools.measurands.lexicon import rules
from workbook_tools.measurands.lookup import own_words, side_of_letter
from workbook_tools.measurands.measurand import Language
from workbook_tools.measurands.position import parse
from workbook_tools.measurands.tokens import tokens
from workbook_tools.measurands.words import read_label

# So many words of a language alone tell that a sheet is in it, of those of any language this share.
_FEWEST, _MOST_OF_ALL = 3, 0.6
# A letter at the end of a label, or behind a side: "Guide A", "links E".
_ENDS = re.compile(r"(?P<before>.*?[\s.,:/-]|)(?P<letter>[AESIaesi])\.?")
# And at its beginning: "A Führung".
_BEGINS = re.compile(r"(?P<letter>[AESI])\.?(?P<behind>[\s-][^\W\d_]{2}.*)")
_IN_OR_EX = re.compile(r"(?<![^\W_])(?:in|exh?|exhaust)(?![^\W_])\.?", re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_]")
_IN_OR_OUT = re.compile(
    r"(?P<before>(?:.*[\s,./-])?)(?P<side>in|rec['’]?v?d|received|out|vor|nach|av|ap|bef|aft)\.?"
    r"(?P<unit>\s*%|\s*\([^()]{1,6}\)|)",
    re.IGNORECASE,
)
_BEFORE = re.compile(
    r"(?P<what>.*[^\W\d_]\s)avant(?P<unit>,?\s*[(\[]?(?:mm|bars?|1/100)[)\]]?)?", re.IGNORECASE
)
_AFTER = re.compile(r"\bapr[èe]s\b", re.IGNORECASE)
# Short for a ring in German, and for a bank in French.
_RING = re.compile(r"\bRg\.?\s?(?=\d)")
_SECOND = re.compile(r"(?:2nd|second|lower|2)\.?", re.IGNORECASE)
_TOP = re.compile(r"(?:top|first|1st|upper)(?P<rest>\s.+)", re.IGNORECASE)
_STAGED = {
    "in": "as found", "out": "finished", "vor": "vorher", "nach": "nachher",
    "av": "avant travaux", "ap": "après travaux", "bef": "before", "aft": "after",
}  # fmt: skip
_BOTH = ({"in", "out"}, {"vor", "nach"}, {"av", "ap"}, {"bef", "aft"})
_COUNTED = re.compile(r"(?P<letters>[A-Za-z]{1,2})[ .]?(?P<number>\d{1,2})")
# Letters of an intake and an exhaust, as a pair of labels has them.
_PAIRS = ({"a", "e"}, {"a", "s"}, {"i", "e"})


def language_of(texts: Iterable[str], fewest: int = _FEWEST) -> Language | None:
    """The language that texts are in by the words that no other language has, None where unsure.

    fewest: so many of them at least.
    """
    words = {word for text in texts for word in tokens(text)}
    told = Counter(own_words()[word] for word in words if word in own_words())
    if not told:
        return None
    language, most = told.most_common(1)[0]
    return language if most >= fewest and most >= _MOST_OF_ALL * told.total() else None


# A sheet with more texts is a log, of which no other book has the like.
_MOST_KEPT = 1_000


def spelled_out(texts: Mapping[At, str], dated: Collection[At] = ()) -> dict[At, str]:
    """The texts of a sheet whose letters its language spells out, as if they were.

    dated: the cells that have a date below or beside them, which are heads of jobs. Only where
    both valves are told so, and where letters count at least two parts: an A alone is a bank,
    and an M a size.
    """
    if len(texts) > _MOST_KEPT:
        return _spelled_out(texts, dated)
    return {**_kept(tuple(texts.items()), frozenset([at for at in dated if at in texts]))}


# The books of a month come from one form, so that most of their sheets say the same.
@lru_cache(maxsize=128)
def _kept(texts: tuple[tuple[At, str], ...], dated: frozenset[At]) -> Mapping[At, str]:
    return _spelled_out(dict(texts), dated)


def _spelled_out(texts: Mapping[At, str], dated: Collection[At]) -> dict[At, str]:
    language = language_of(texts.values())
    told = _dittos(texts) | said_by_legends(texts)
    texts = {**texts, **told}
    found = told | _intakes(texts) | _before_and_after(texts, dated) | _works(texts)
    found |= (
        _rings_behind(texts)
        | _compression_rings(texts)
        | _rings_and_when(texts)
        | _second_rings(texts)
        | _ends_of_rods(texts)
        | places_spelled_out(texts, language)
    )
    if language in (None, "en"):
        found |= _valves_of_rows(texts)
    if language is None:
        return found | _valves_below_heads(texts)
    if language == "de":
        rings = {at: _RING.sub("Ring ", text) for at, text in texts.items()}
        found |= {at: text for at, text in rings.items() if text != texts[at]}
        found |= _valves_of_cylinders(texts)
    found |= _numbered_valves(texts, language)
    return found | _valves(texts, language) | _counted(texts, language)


_SMALL_END = re.compile(r"S\.?\s?E\.?(?P<behind>\s.*)?")
_BIG_END = re.compile(r"B\.?\s?E\.?(?:\s.*)?")


def _ends_of_rods(texts: Mapping[At, str]) -> dict[At, str]:
    """The small ends of rods beside or below big ends in short: "BE | SE"."""
    found = {}
    for (row, column), text in texts.items():
        small = _SMALL_END.fullmatch(text) if text[:1] == "S" else None
        near = ((row, column - 1), (row - 1, column), (row, column + 1), (row + 1, column))
        if small and any(_BIG_END.fullmatch(texts.get(at, "")) for at in near):
            found[row, column] = f"small end{small['behind'] or ''}"
    return found


def _intakes(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels that say "in" where others say "ex" in its place, or below it: no inches."""
    told = [(at, one) for at, text in texts.items() for one in _IN_OR_EX.finditer(text)]
    exhausts = {_around(one) for _, one in told if not _is_in(one)}
    found: dict[At, str] = {}
    for at, one in told:
        around = _around(one)
        below = texts.get((at[0] + 1, at[1]), "").casefold().strip(" .")
        other = around in exhausts or (not around[1] and below in words_of("exhaust"))
        if _is_in(one) and other and _WORD.search("".join(around)):
            text = texts[at]
            written = "inlet" if text[: one.start()].strip() else "Inlet"
            found[at] = f"{text[: one.start()]}{written}{text[one.end() :]}"
    return found


def _is_in(side: re.Match[str]) -> bool:
    return side[0].casefold().rstrip(".") == "in"


def _around(side: re.Match[str]) -> tuple[str, str]:
    """What stands before and behind a word in its text."""
    return side.string[: side.start()].casefold(), side.string[side.end() :].casefold()


# In French what was before the work has the word for the front: "avant" over "rectifié -0,25".
_WORKED = re.compile(
    r"(?:rectifié|meulé|réalésé|alésé|usiné|surfacé|honé|poli)e?s?\b", re.IGNORECASE
)


def _before_and_after(texts: Mapping[At, str], dated: Collection[At]) -> dict[At, str]:
    """The heads of a row that end with "in" where one beside them ends with "out"; and others.

    A shop that machines what others bring measures it when it comes in and when it goes out. In
    a column "av." and "ap." say it of each row.
    """
    found = {
        cell: _staged(texts[cell], side)
        for pair in _in_and_out(texts, dated)
        if {*pair} in _BOTH
        for side, cell in pair.items()
    }
    columns: dict[int, dict[At, str]] = defaultdict(dict)
    for cell, text in texts.items():
        side = text.strip(" .").casefold()
        if side in ("av", "ap", "avant"):
            columns[cell[1]][cell] = _STAGED[side[:2]]
        elif _AFTER.match(text) or _WORKED.match(text):
            columns[cell[1]].setdefault(cell, text)
    for staged in columns.values():
        found |= staged if len({*staged.values()}) > 1 else {}
    return found


def _in_and_out(texts: Mapping[At, str], dated: Collection[At]) -> list[dict[str, At]]:
    """The labels of one name with their sides, by pairs beside or below each other."""
    # Two of one name side by side are of two tables: "clr in | clr out | … | clr in | clr out".
    last: dict[tuple[str, int, str], dict[str, At]] = {}
    pairs: list[dict[str, At]] = []
    for (row, column), text in sorted(texts.items()):
        told = _IN_OR_OUT.fullmatch(text)
        if told is None or (row, column) in dated:
            continue
        side = told["side"].casefold()
        side = "in" if side.startswith("rec") else side
        name = told["before"].casefold().strip()
        lines = [("row", row, name), ("column", column, name)]
        # "In" right above "Out" names rows of what came and what went.
        beside = (texts.get((row + down, column), "") for down in (-1, 1))
        named = name or any(map(_IN_OR_OUT.fullmatch, beside))
        for line in lines if named else lines[:1]:
            pair = last.get(line)
            if pair is None or side in pair:
                pair = last[line] = {}
                pairs.append(pair)
            pair[side] = row, column
    return pairs


def _works(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels that say before the work where the one below says after: no front."""
    found: dict[At, str] = {}
    for (row, column), text in texts.items():
        below = texts.get((row + 1, column), "")
        told = _BEFORE.fullmatch(text) if below else None
        worked = told and below.startswith(told["what"]) and _WORKED.search(below)
        if told and (worked or _AFTER.search(below)):
            unit = told["unit"] or ""
            found[row, column] = f"{told['what']}avant travaux{unit}"
            if _AFTER.fullmatch(below):
                found[row + 1, column] = f"{told['what']}{below} travaux"
    return found


def _second_rings(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels that only say second below one of the top ring: "Top ring", "Second"."""
    found: dict[At, str] = {}
    for (row, column), text in texts.items():
        above = texts.get((row - 1, column), "")
        if _SECOND.fullmatch(text) and above.casefold().strip(" .") in words_of("top_rings"):
            what = _said_of_rings(texts, (row - 1, column))
            found |= {(row - 1, column): f"Top {what}", (row, column): f"2nd {what}"}
            if texts.get((row + 1, column), "").casefold().strip(" .") in words_of("oil_rings"):
                found[row + 1, column] = f"Oil {what}"
            continue
        told = _TOP.fullmatch(above) if _SECOND.fullmatch(text) else None
        meant = [c.measurand for c in read_label(above).candidates[:1]] if told else []
        if told and any(name.startswith("top_ring") for name in meant):
            found[row, column] = f"2nd{told['rest']}"
    return found


# A title stands no more rows above the first ring.
_MOST_ROWS_TO_A_TITLE = 3


def _said_of_rings(texts: Mapping[At, str], top: At) -> str:
    """What the text before the name of a top ring, or the title over it, says is measured."""
    row, column = top
    before = [(row, c) for c in range(column - 1, 0, -1)]
    over = [
        (r, c) for r in range(row - 1, row - 1 - _MOST_ROWS_TO_A_TITLE, -1) for c in (1, column)
    ]
    for at in (*before, *over):
        candidates = read_label(texts[at]).candidates[:1] if at in texts else ()
        for told in (c.measurand for c in candidates if c.cost <= _MOST_ASSUMED):
            if ending := next((e for e in _OF_RINGS if told.endswith(e)), ""):
                return _OF_RINGS[ending]
    return _OF_RINGS["ring_gap"]


# What is measured of a ring, and how its label ends.
_OF_RINGS = {"ring_gap": "ring gap", "ring_side_clearance": "ring side clearance"}
# A label that leaves more to be assumed says nothing of the one behind it.
_MOST_ASSUMED = 2


def _rings_behind(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels of rings that leave what is measured to one before: "Top gap", "2nd", "Oil"."""
    found: dict[At, str] = {}
    others = {at for at, text in texts.items() if _is_another_ring(_without_bracket(text)[0])}
    before = {(row - n, column) for row, column in others for n in (1, 2)}
    before |= {(row, column - n) for row, column in others for n in (1, 2)}
    for (row, column), text in texts.items():
        what = _told_of_ring(text, "top_") if (row, column) in before else ""
        for down, right in ((1, 0), (0, 1)) if what else ():
            at = row + down, column + right
            name, unit = _without_bracket(texts.get(at, ""))
            if is_second_ring(name):
                found[at] = f"2nd {what}{unit}"
            if at in found or _told_of_ring(name, "second_"):
                at = at[0] + down, at[1] + right
            name, unit = _without_bracket(texts.get(at, ""))
            if _is_oil_ring(name):
                found[at] = f"Oil {what}{unit}"
    return found


def _is_another_ring(name: str) -> bool:
    """Whether a label names a ring behind the top one, and not what is measured of it."""
    return is_second_ring(name) or _is_oil_ring(name)


def _is_oil_ring(name: str) -> bool:
    return name.casefold().strip(" .") in words_of("oil_rings")


_COMPRESSION_RING = re.compile(
    r"(?:compr?|compression|komp|verd)\.?\s*(?:rings?\s*)?(?P<number>[12])", re.IGNORECASE
)


def _compression_rings(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels of compression rings 1 and 2 behind or below a word for rings: no ratio."""
    told = {at: one for at, text in texts.items() if (one := _COMPRESSION_RING.fullmatch(text))}
    found: dict[At, str] = {}
    for (row, column), one in told.items():
        second = (row + 1, column)
        if one["number"] != "1" or second not in told or told[second]["number"] != "2":
            continue
        about = [texts.get((row, column - 1), ""), texts.get((row - 1, column), "")]
        if any(read_label(text).part == "ring" for text in about if text):
            what = _said_of_rings(texts, (row, column))
            found |= {(row, column): f"Top {what}", second: f"2nd {what}"}
            if _is_oil_ring(texts.get((row + 2, column), "")):
                found[row + 2, column] = f"Oil {what}"
    return found


def _without_bracket(text: str) -> tuple[str, str]:
    """A text without the unit in brackets behind it, and that: "Second (thou)"."""
    name, bracket, unit = text.partition(" (")
    return (name, f" ({unit}") if bracket and unit.endswith(")") else (text, "")


# The signs of what stands above: "ditto", three pairs of marks.
_DITTO = re.compile(
    r"(?:(?:ditto|dito|dto|idem|ídem|do)\b\.?|(?:[\"″〃“”]\s*|''\s*)+|[-–]\s?[\"″]\s?[-–])[\s,:]*(?P<own>.*)",
    re.IGNORECASE,
)
# The same of another one: "#2 ditto" below "#1 piston at the skirt".
_DITTO_OF_ANOTHER = re.compile(
    r"(?P<which>(?:#|no\.? ?)?\d{1,2})[ .:-]+(?:ditto|dito|dto|idem|same|do\.)[ .:]*", re.IGNORECASE
)
_WHICH_FIRST = re.compile(r"(?:#|no\.? ?)?\d{1,2}(?=[ .:-]+[^\W\d_]{2})", re.IGNORECASE)
_LAST_CLAUSE = re.compile(r"(?P<first>.*\S),\s+[^,]+")


def _dittos(texts: Mapping[At, str]) -> dict[At, str]:
    """The labels that repeat the one above but for where it was: "ditto, bottom"."""
    found: dict[At, str] = {}
    for (row, column), text in sorted(texts.items()):
        above = found.get((row - 1, column)) or texts.get((row - 1, column), "")
        another = _DITTO_OF_ANOTHER.fullmatch(text) if above else None
        if another and _WHICH_FIRST.match(above):
            found[row, column] = _WHICH_FIRST.sub(another["which"], above, count=1)
            continue
        told = _DITTO.fullmatch(text)
        own = told["own"].strip() if told else ""
        if own and (other := _of_another(texts, (row, column), above, own)):
            found[row, column] = other
            continue
        if told is None or not _WORD.search(above):
            continue
        first = _LAST_CLAUSE.fullmatch(above)
        name = first["first"] if first and own else above
        found[row, column] = f"{name}, {own}" if own else above
    return found


def _of_another(texts: Mapping[At, str], at: At, above: str, own: str) -> str:
    """The label above a ditto of another part or side, or before it in its row, with its own words.

    "Spring height in | … | idem ex": where what stands above is of the same side, a ditto of it
    would say nothing.
    """
    before = max((c for r, c in texts if r == at[0] and c < at[1]), default=0)
    labels = (above, texts.get((at[0], before), ""))
    return next((told for label in labels if label and (told := of_another(label, own))), "")


# The top ring and the second one with no more than when: "top IN", "2nd OUT".
_RING_AND_WHEN = re.compile(
    r"(?P<ring>top|1st|2nd|second|oil)\.?\s+(?P<when>in|out|found|before|after|new|as found|final"
    r"|finished|was|now|old)\.?", re.IGNORECASE,
)  # fmt: skip
_NAMES_OF_RINGS = {"top": "Top", "1st": "Top", "2nd": "2nd", "second": "2nd", "oil": "Oil"}


def _rings_and_when(texts: Mapping[At, str]) -> dict[At, str]:
    """The heads of a row that name a ring and when it was measured, where a second one is so."""
    rows: dict[int, dict[At, re.Match[str]]] = defaultdict(dict)
    for at, text in texts.items():
        if told := _RING_AND_WHEN.fullmatch(text):
            rows[at[0]][at] = told
    found: dict[At, str] = {}
    for row in rows.values():
        rings = {_NAMES_OF_RINGS[told["ring"].casefold()] for told in row.values()}
        for at, told in row.items() if {"Top", "2nd"} <= rings else ():
            when = _STAGED.get(told["when"].casefold(), told["when"])
            found[at] = f"{_NAMES_OF_RINGS[told['ring'].casefold()]} ring gap {when}"
    return found


@lru_cache(maxsize=4096)
def _told_of_ring(text: str, which: str) -> str:
    """What a label says is measured of a ring, "" where it is about another or none."""
    candidates = read_label(text).candidates if text else ()
    name = candidates[0].measurand if candidates and candidates[0].cost <= _MOST_ASSUMED else ""
    return _OF_RINGS.get(name.removeprefix(which), "") if name.startswith(which) else ""


# What comes out of an engine is the old one, and what goes in the new one.
_CHANGED = re.compile(
    r"\b(?:shim|pad|pastille|plättchen|scheibe|pastiglia|pastilla)s?\b", re.IGNORECASE
)


def _staged(text: str, side: str) -> str:
    told = _IN_OR_OUT.fullmatch(text)
    if told and _CHANGED.search(told["before"]) and side in ("in", "out"):
        side = "in" if side == "out" else "out"
    return f"{told['before']}{_STAGED[side]}{told['unit']}".strip() if told else text


# So many rows over the letters of valves their title stands.
_ROWS_TO_A_TITLE = 2


def _valves_of_rows(texts: Mapping[At, str]) -> dict[At, str]:
    """The letters of both valves side by side, where the few words over them tell a language.

    "Ventilspiel" over "Zyl. | E | A" says enough in a sheet that is in English otherwise.
    """
    found: dict[At, str] = {}
    rows: dict[int, dict[At, str]] = defaultdict(dict)
    for at, text in texts.items():
        if text.casefold() in ("a", "e", "s", "i"):
            rows[at[0]][at] = text
    for row, letters in rows.items():
        if {text.casefold() for text in letters.values()} in _PAIRS:
            over = range(row - _ROWS_TO_A_TITLE, row + 1)
            near = language_of((t for (r, _), t in texts.items() if r in over), fewest=1)
            found |= _valves(letters, near) if near not in (None, "en") else {}
    return found


def _valves(texts: Mapping[At, str], language: Language) -> dict[At, str]:
    sides = rules().side_letters.get(language, {})
    ends: dict[str, dict[str, list[At]]] = defaultdict(lambda: defaultdict(list))
    for at, text in texts.items():
        if sides and (told := _ENDS.fullmatch(text)):
            ends[told["before"].casefold()][told["letter"].casefold()].append(at)
    found = _valves_named_first(texts, language, sides)
    for before, by_letter in ends.items():
        if {*by_letter} not in _PAIRS or not {*by_letter} <= {*sides}:
            continue
        for letter, cells in by_letter.items():
            # Words that tell stay as they stand, and so does what they name on the pages.
            is_told = side_of_letter(letter, tokens(before)) == sides[letter]
            if not is_told or parse(before.strip()) is not None:
                word = rules().side_words[language][sides[letter]]
                found |= {at: texts[at][: len(before)] + word for at in cells}
    return found


def _valves_named_first(
    texts: Mapping[At, str], language: Language, sides: Mapping[str, str]
) -> dict[At, str]:
    """The labels that begin with the letter of a valve, where both are named so."""
    begins: dict[str, dict[str, list[At]]] = defaultdict(lambda: defaultdict(list))
    for at, text in texts.items():
        if sides and (told := _BEGINS.fullmatch(text)):
            begins[told["behind"].casefold()][told["letter"].casefold()].append(at)
    return {
        at: f"{rules().side_words[language][sides[letter]]}{texts[at][1:].lstrip('.')}"
        for by_letter in begins.values()
        if {*by_letter} in _PAIRS and {*by_letter} <= {*sides}
        for letter, cells in by_letter.items()
        for at in cells
    }


# The two valves of a numbered cylinder: "Zyl. 1 EV", "AV 2".
_EV_OR_AV = re.compile(
    r"(?P<before>(?:zyl\.?\s*)?\d{1,2}[.\s]*|)(?P<valve>EV|AV)(?P<behind>\s*\d{0,2})", re.IGNORECASE
)


def _valves_of_cylinders(texts: Mapping[At, str]) -> dict[At, str]:
    """The names of valves by cylinder with their sides written out."""
    words = {"ev": "Einl.", "av": "Ausl."}
    told = {at: one for at, text in texts.items() if (one := _EV_OR_AV.fullmatch(text))}
    counted = {at: one for at, one in told.items() if one["before"] or one["behind"].strip()}
    both = {one["valve"].casefold() for one in counted.values()} == {*words}
    return {
        at: f"{one['before'].strip()} {words[one['valve'].casefold()]}{one['behind']}".strip()
        for at, one in counted.items()
        if both
    }


def _numbered_valves(texts: Mapping[At, str], language: Language) -> dict[At, str]:
    """The names A1 to A4 and S1 to S4 of as many intake and exhaust valves."""
    sides = rules().side_letters.get(language, {})
    named: dict[str, dict[At, int]] = defaultdict(dict)
    for at, text in texts.items():
        told = _COUNTED.fullmatch(text)
        if told and told["letters"].casefold() in sides:
            named[told["letters"].casefold()][at] = int(told["number"])
    numbers = [{*cells.values()} for cells in named.values()]
    if {*named} not in _PAIRS or numbers[0] != numbers[1] or not {1, 2} <= numbers[0]:
        return {}
    words = rules().side_words[language]
    return {
        at: f"{words[sides[letter]]} {number}"
        for letter, cells in named.items()
        for at, number in cells.items()
    }


def _valves_below_heads(texts: Mapping[At, str]) -> dict[At, str]:
    """The names A1 and E1 of valves where the heads right over them say in what language."""
    named = {at for at, text in texts.items() if _A_OR_E.fullmatch(text)}
    if not named:
        return {}
    (first, column), *_ = sorted(named)
    over = [text for (row, c), text in texts.items() if first - 2 <= row < first and c >= column]
    words = {word for text in over for word in tokens(text)}
    told = {own_words()[word] for word in words if word in own_words()}
    language = next(iter(told), None)
    if language is None or len(told) > 1:
        return {}
    return _numbered_valves({at: texts[at] for at in named}, language)


_A_OR_E = re.compile(r"[AE] ?\d{1,2}")


def _counted(texts: Mapping[At, str], language: Language) -> dict[At, str]:
    words = rules().part_letters.get(language, {})
    counted: dict[str, dict[At, int]] = defaultdict(dict)
    for at, text in texts.items():
        if told := _COUNTED.fullmatch(text):
            counted[told["letters"].casefold()][at] = int(told["number"])
    found: dict[At, str] = {}
    for letters, cells in counted.items():
        word = words.get(letters)
        if word is None or not {1, 2} <= {*cells.values()}:
            continue
        # A B beside an A is a bank.
        if letters == "b" and "a" in counted:
            continue
        found |= {at: f"{word} {number}".strip() for at, number in cells.items()}
    return found
