"""What labels mean in a shop's books: its own words, then the lexicon of measurands.

A label that can mean one thing is read; where a word is misspelt or not known, or where several
things are as likely, it is proposed and never read.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from typing import Literal

from workbook_tools.labels.cell_kinds import MOST_LETTERS
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import in_pounds, is_measured, is_unit
from workbook_tools.labels.job_labels import JobWords, job_words
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.heights import without_grade
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.tokens import phrase, tokens
from workbook_tools.measurands.words import Meaning, read_label
from workbook_tools.quantities import FORCE, MASS, PRESSURE, UnreadableText, unit_named

Stage = Literal["", "found", "machined", "final", "target", "limit_low", "limit_high", "computed"]
How = Literal["exact word", "synonym", "proposal", "layout"]
# Stages of numbers that nobody measured.
NO_SIZES: tuple[Stage, ...] = ("target", "limit_low", "limit_high", "computed")
# How much a label may leave to be assumed, to be read and to be asked about.
_SURE, _WORTH_ASKING = 3, 4
# What a label leaves to be assumed that names a part and no property.
_PART_ALONE = 2
# What each word that is not understood takes from how alike a label is, of 100.
_LESS = 5.0
# Parts that are alike, so that a property alone does not say of which it is.
BEARINGS = ("main", "rod", "cam_bearing")
_STAGES: Mapping[str, Stage] = {
    "found": "found", "machined": "machined", "final": "final", "target": "target",
    "nominal": "target", "limit": "target", "limit_low": "limit_low", "limit_high": "limit_high",
}  # fmt: skip


_MONEY = ("$", "€", "£")


@dataclass(frozen=True)
class Match:
    """What a label means, and how sure that is; likeness of 100 for a proposal."""

    term: Measurand
    how: How
    likeness: float = 100.0


@dataclass(frozen=True, eq=False)
class Vocabulary:
    """A shop's own words and those of job fields, beside the lexicon of measurands.

    words: {a shop's word: measurand}.
    """

    job: JobWords
    words: Mapping[str, str] = field(default_factory=dict)

    def term(self, name: str) -> Measurand | None:
        """The measurand of this name, or the one that this word can only mean."""
        named = find(name.strip().replace(" ", "_"))
        match = None if named else self.match(name)
        return match.term if match and match.how != "proposal" else named

    def match(self, text: str) -> Match | None:
        """What a label means by itself, None where it means nothing.

        Sure where one measurand is the likeliest and every word is understood.
        """
        own = self.own(text)
        return Match(own, "synonym") if own is not None else _as_said(text)

    def own(self, text: str) -> Measurand | None:
        """The measurand that the shop's own word stands for, with or without a number."""
        if not self.words:
            return None
        words = plain(without_unit(text))
        bare = " ".join(word for word in words.split() if not word.strip("#").isdigit())
        name = self.words.get(words) or self.words.get(bare)
        return find(name) if name else None

    def is_elsewhere(self, heading: str) -> bool:
        """Whether numbers under a heading, or on a sheet of this name, are counts and prices."""
        meaning = meaning_of(heading)
        # Notes and tools stand beside readings; the other sections hold none.
        priced = meaning.section not in ("", "notes", "tools") and not meaning.unknown
        # "Week 12" is when its jobs were done.
        priced &= meaning.section != "schedule" or not any(map(str.isdigit, heading))
        return plain(heading) in self.job.elsewhere or (priced and not meaning.candidates)

    def is_aside(self, head: str) -> bool:
        """Whether a column with this head holds remarks, counts or prices beside readings."""
        meaning = meaning_of(head)
        noted = meaning.section == "notes" and not meaning.candidates
        return noted or self.is_priced(head)

    def is_priced(self, head: str) -> bool:
        """Whether a column with this head holds counts or prices."""
        return _is_of_money(head) or self.is_elsewhere(head)

    def with_words(self, more: Mapping[str, Iterable[str]]) -> Vocabulary:
        """The vocabulary with a shop's own words for some measurands."""
        if not more:
            return self
        own = {plain(word): name for name, words in more.items() for word in words}
        return replace(self, words={**self.words, **own})

    def with_job_words(self, more: Mapping[str, Iterable[str]]) -> Vocabulary:
        """The vocabulary with a shop's own words for some of the job's fields."""
        return replace(self, job=self.job.with_more(more)) if more else self

    def job_field(self, text: str) -> str:
        """The job field that a label names wherever it stands, "" for any other text."""
        return self.job.field(text)


def _is_of_money(head: str) -> bool:
    """Whether a head has the sign of a currency and no number: "£ each"."""
    return any(sign in head for sign in _MONEY) and not any(map(str.isdigit, head))


def meaning_of(text: str, headings: Sequence[str] = ()) -> Meaning:
    """What the lexicon says of a label; (in) is taken as its unit, and not as the intake."""
    return _meaning_of(text, tuple(headings))


def noun_named(text: str) -> str:
    """The property that a text most likely names, "" where it names none."""
    candidates = meaning_of(text).candidates
    term = find(candidates[0].measurand) if candidates else None
    return term.noun if term else ""


@lru_cache(maxsize=16384)
def _meaning_of(text: str, headings: tuple[str, ...]) -> Meaning:
    text = _LOOSE_OR_TIGHT.sub(r"\g<of>", text)
    text = f"{text[: -len(in_grams(text))]} (g)" if in_grams(text) else text
    text = f"{text[:-1].strip()} (L)" if in_liters(text) else text
    text = _in_pounds(text) if "#" in text else text
    text = _COMPLETE_WITH.sub("with", text) if "/" in text or "+" in text else text
    text = _IN_HOLE.sub("#", text)
    ring, cylinder = ring_of_cylinder(text)
    text = f"{ring} #{cylinder}" if ring else text
    bare, parts = _in_parts(text)
    text = f"{bare} (mm)" if parts else text
    text = _PER_PRODUCT.sub(r" (\1)", _AT_A_HEIGHT.sub(r"\1", text))
    text = _AT_SPEED.sub("", _IN.sub("(inch)", text)) or text
    if (found := _IN_LAST.fullmatch(text)) and not _is_of_valves(found["name"]):
        text = f"{found['name']} (inch)"
    text = _ALONG_ENGINE.sub("", text) or text
    text = _MERCURY.sub("inHg", _PLASTIC_GAUGE.sub("plastic gage", _in_degrees(text)))
    told = read_label(text, headings)
    if not told.candidates and (found := _LAST_LETTER.search(text)):
        # Behind what is no temperature it is a letter that counts or a place: "wall C", "play (F)".
        return read_label(text[: found.start()], headings)
    return told


# How two parts fit, as lists of limits have it: "Piston fit, skirt (L)" is loose, in no liters.
_LOOSE_OR_TIGHT = re.compile(r"(?<=\bfit)(?P<of>[^()]*?)\s*\([LT]\)$", re.IGNORECASE)
# Of which cylinder, and nothing deep in one: "top ring in hole 3", "piston for 1, at the skirt".
_IN_HOLE = re.compile(
    r"\b(?:in (?:hole|pot|cyl)|for(?=\s#?\d{1,2}(?:,|$)))\.?\s+#?(?=\d{1,2}\b)", re.IGNORECASE
)


_RING_AND_CYLINDER = re.compile(
    r"(?P<ring>.*?[^\W\d_]{3,}\.?)[\s,;:–-]+(?P<of>[^\W\d_]{3,}\.?\s*#?\d{1,2})"
)


def ring_of_cylinder(text: str) -> tuple[str, int]:
    """The ring that a label names, and of which cylinder: "Top ring, cyl 1"; else ("", 0)."""
    told = _RING_AND_CYLINDER.fullmatch(text)
    ring, of = (parse(told["ring"]), parse(told["of"])) if told else (None, None)
    if told is None or ring is None or of is None or (ring.of, of.of) != ("ring", "cylinder"):
        return "", 0
    return told["ring"], of.number


_LAST_LETTER = re.compile(r"(?: C| \([FC]\))$")


# "Bore, in" is in inches, "Lash, in" an intake's.
_IN_LAST = re.compile(r"(?P<name>.*[^\W\d_]{3}[)]?), in\.?", re.IGNORECASE)


def _is_of_valves(text: str) -> bool:
    """Whether a text may be of intake or exhaust, or means nothing alone."""
    terms = [find(c.measurand) for c in read_label(text).candidates[:2]]
    return not terms or any(term is not None and bool(term.which) for term in terms)


# In what order sizes stand, and none of its places: "Main clearances, front to rear".
_ALONG_ENGINE = re.compile(
    r"[\s,;:(–-]+(?:front (?:to|-) (?:rear|back)|f (?:to|-) r|front-to-(?:rear|back))\)?$",
    re.IGNORECASE,
)
# At what speed something was measured: "Pression d'huile 1500 tr/min".
# "Oil temp F", "Water C": no letter that counts.
_IN_DEGREES = re.compile(
    r"(?P<name>.*\b(?:temp(?:erat\w*|\.)?|water|air|coolant|wasser\w*|luft\w*|eau|air|agua|aire|acqua))"
    r"\.?[ ,]+°?(?P<degrees>[CF])\.?",
    re.IGNORECASE,
)
# Inches of mercury, as gauges are marked: '"Hg', "in.Hg".
_MERCURY = re.compile(r"(?:\"|(?<![^\W_])in\.?)\s?hg\b\.?", re.IGNORECASE)
# A thread that is squeezed between journal and shell, by whatever name.
_PLASTIC_GAUGE = re.compile(r"\bplastic?[ -]?(?:gau?ge)?\b\.?(?=$|[\s,;:(/])", re.IGNORECASE)


def _in_degrees(text: str) -> str:
    """A label of a temperature with its unit in brackets."""
    told = _IN_DEGREES.fullmatch(text)
    return f"{told['name']} (deg {told['degrees'].upper()})" if told else text


# At what height a spring was loaded: "open @1.02".
_AT_A_HEIGHT = re.compile(
    r"\b(seat|seated|closed|shut|installed|open|nose)\s*@\s*\d*[.,]\d{1,3}(?:\s?(?:mm|in|\"))?$",
    re.IGNORECASE,
)
# A unit that the lexicon would take for words: "BSFC lb/hp.h".
_PER_PRODUCT = re.compile(r"(?<=\w) ([^\W\d_]+/[^\W\d_]+[.·][^\W\d_]+)$")
_AT_SPEED = re.compile(
    r"[\s,]+(?:(?:at|@|bei|à|a)\s*)?\d{3,5}\s*"
    r"(?:r\.?p\.?m\.?|tr/?mi?n|t/?mi?n|u/?min|1/min|giri|g/min|revs?)(?=\W|$)",
    re.IGNORECASE,
)

# "Big end c/w shell", "big end + shells": complete with it.
_COMPLETE_WITH = re.compile(
    r"\bc\s?/\s?w\b|\+(?= ?(?:shells?|brgs?|bearings?|bolts?|nuts?|locks?|clips)\b)", re.IGNORECASE
)


def _in_pounds(text: str) -> str:
    """A label with "load" and its unit for the # behind the name of a spring's load: "seat #"."""
    before, _, behind = text.partition("#")
    words = before.casefold().split()
    named = any(" ".join(words[-n:]) in words_of("loads") for n in (1, 2) if words)
    counts_on = behind.strip()[:1].isdigit()
    return f"{before}load {behind.strip()} (lb)" if named and not counts_on else text


def in_grams(text: str) -> str:
    """What says grams at the end of a label, "" where nothing does or it may mean left."""
    found = _GRAMS.search(text) if "g" in text[-4:] else None
    left = found is None or counts(text[: found.start()]) == "cylinder"
    return "" if found is None or left else found[0]


@lru_cache(maxsize=4096)
def in_liters(text: str) -> bool:
    """Whether the L at the end of a label is a unit, as in "Displ. L", and no left bank."""
    if text[-2:] not in (" L", " l"):
        return False
    first = read_label(text[:-2]).candidates[:1]
    return bool(first) and first[0].measurand == "displacement"


@lru_cache(maxsize=8192)
def _as_said(text: str) -> Match | None:
    """What the words of a label mean."""
    meaning = meaning_of(text)
    first = meaning.candidates[0] if meaning.candidates else None
    if first is None or first.cost > _WORTH_ASKING or not _is_label(text, meaning):
        return None
    options = [(one, c.cost) for c in meaning.candidates if (one := find(c.measurand))]
    term = options[0][0]
    others = len(meaning.unknown) + len(meaning.taken_for) + begins_with_a_letter(text)
    if others:
        return Match(term, "proposal", 100 - _LESS * others)
    if first.cost > _SURE or not _is_likeliest(options):
        return Match(term, "proposal", 100 - _LESS)
    exact = phrase(without_unit(text)) == phrase(term.name)
    return Match(term, "exact word" if exact else "synonym")


def begins_with_a_letter(text: str) -> bool:
    """Whether a lone letter begins a label, which may stand for a word: "g bore"."""
    words = tokens(text)
    if text.lstrip()[:1] in "Øø":
        return False  # The sign of a diameter.
    if len(words) > 2 and words[1] == "to" and len(words[2]) == 1:
        return False  # "V to P clr", "P to W": two words in short.
    return len(words) > 1 and len(words[0]) == 1 and words[0].isalpha() and words[1].isalpha()


def _is_label(text: str, meaning: Meaning) -> bool:
    """Whether a text can name a number: no sentence, no name or number with a known letter."""
    text = without_grade(text)
    if len(text) > MOST_LETTERS or is_measured(text) or re.search(r"\d{3}|\d[.,]\d", text):
        return False
    words = [t for t in tokens(text) if t.isalpha()]
    understood = [w for w in words if w not in meaning.unknown]
    if len(understood) <= len(meaning.unknown):
        return False
    sure = meaning.candidates[0].cost == 0
    if not sure and not meaning.unit and _says_only_cylinder(text):
        return False
    return sure or any(len(word) > 2 for word in understood)


def _says_only_cylinder(text: str) -> bool:
    """Whether a text names the cylinder and nothing of it that was measured."""
    first = next(iter(meaning_of(text).candidates), None)
    term = find(first.measurand) if first else None
    if term is None or first is None:
        return counts(text) == "cylinder"
    return term.part == "cylinder" and term.noun != "count" and first.cost >= _PART_ALONE


def _is_likeliest(options: Sequence[tuple[Measurand, int]]) -> bool:
    """Whether the first of several meanings is likelier than every other.

    A clearance, a journal or a shell is as likely another bearing's where the label does not
    say of which.
    """
    term, least = options[0]
    for other, cost in options[1:]:
        alike = term.of in BEARINGS and other.property == term.property
        if cost == least or (alike and cost == least + 1):
            return False
    return True


# What is bought in sets: where one number stands for it, it is for all cylinders.
_PARTS_IN_SETS = ("gasket", "crown", "dish", "dome", "pocket")
_IN_SETS = ("rod_length", "compression_height", "ring_gap_factor")


def is_one_for_all(term: Measurand) -> bool:
    """Whether one number without a cylinder is that of all of them."""
    of_all = term.of in ("engine", "bank", "fastener_group")
    return of_all or term.part in _PARTS_IN_SETS or term.id in _IN_SETS


def stage_of(meaning: Meaning) -> Stage:
    """When a size was taken, or that it is wanted, a limit, or worked out of others."""
    stage = _STAGES.get(meaning.stage, "")
    # "As found, smallest" is one of several readings, which are not in the book.
    return "computed" if meaning.statistic and not (stage and meaning.statistic in _ONE) else stage


def stage_said(text: str) -> Stage:
    """When a size was taken, as a text says."""
    return stage_of(meaning_of(text))


_ONE = ("smallest", "largest")


_IN_BRACKETS = re.compile(r"[(\[][^()\[\]]*[)\]]")
_NO_WORDS = re.compile(r"[^\w#]+")


@lru_cache(maxsize=8192)
def plain(text: str) -> str:
    """A label's words alone: lower case, without brackets around units, without punctuation."""
    text = _IN_BRACKETS.sub(" ", text.casefold())
    return " ".join(_NO_WORDS.sub(" ", text).replace("_", " ").split())


_BRACKET = re.compile(r"[(\[]\s*([^()\[\]]+?)\s*[)\]]")
_IN = re.compile(r"[(\[]\s*(?:in|po)\.?\s*[)\]]", re.IGNORECASE)
# Grams, and no left side: "Big end g".
# "g" behind two letters may be a bank, but for the two ends of a rod: "B/E g".
_GRAMS = re.compile(
    r"(?:(?<=[^\W\d_]{3})|(?<=\b[BSbs][/.][Ee])|(?<=\b[BS]E)),?(?: g\.?| ?[(\[]g[)\]])$"
)
_AFTER = re.compile(r"(?:,|\s-|\sin|:)\s*([^\s,:]{1,6}|cu in|lb ft)\s*:?$", re.IGNORECASE)
# Units that can mean nothing else, wherever they stand in a label: "cc chamber".
_VOLUMES = ("cc", "ccm", "ml")
# The same at the end of a label, whatever its other words are short for: "Kolben Gr. mm".
_NOTHING_ELSE = (*_VOLUMES, "mm", "µm", "bar", "psi", "cm3", "cm³")


# The lower limit in short, and no degrees: "Lim. inf."
_INFERIOR = re.compile(r"\binf\.?$", re.IGNORECASE)


@lru_cache(maxsize=8192)
def unit_in(text: str) -> str:
    """The unit that a label carries: "mm" of "Bore (mm)" or "Bore mm", "" where it has none."""
    return "" if _INFERIOR.search(text) else _taken_apart(text)[1]


# "Top half, mm and cc" says the unit of none.
_OF_TWO_UNITS = re.compile(
    r"[\s,;:–-]*[(\[]?(?<![^\W_])(?:mm|in|cc|thou)\s*(?:,|/|&|\+|and|und|et|y|e)\s*"
    r"(?:mm|in|cc|thou)[)\]]?$",
    re.IGNORECASE,
)


def without_two_units(title: str) -> str:
    """A title without the units at its end, of which each holds for some numbers below it."""
    return _OF_TWO_UNITS.sub("", title) or title


def without_unit(text: str) -> str:
    """A label without the unit that it carries."""
    return _taken_apart(text)[0]


# A size that a head says its numbers are so many of: "x .001", "in .0001", "(1/100 mm)".
_PARTS = re.compile(
    r"(?P<open>[(\[])?\s*(?P<by>[x×*]|(?<=\s)in(?=\s))?\s*"
    r"(?:(?P<over>1\s*/\s*10{2,4})|(?P<point>0?[.,]0{1,3}1)(?P<several>\s?\"?'?s)?)\s*"
    r"(?P<unit>mm|in(?:ch)?(?:es)?|\"|''|zoll)?\.?(?P<shut>\s*[)\]])?\s*:?$",
    re.IGNORECASE,
)
# What such a size is called, by its parts of one and whether it is of a millimeter.
_PARTS_NAMED = {
    (100, True): "hundredths mm", (1000, True): "um",
    (1000, False): "thou", (10000, False): "tenth",
}  # fmt: skip


# The same in words: "en centièmes", "(hundredths of a mm)".
_HUNDREDTHS = re.compile(
    r"[\s,;:–-]+[(\[]?(?:(?:in|en)\s+)?"
    r"(?:hundredths?|hundertsteln?|centièmes|centésimas|centesimi)"
    r"(?:\s+(?:of(?: a)?|de|di|d'un)?\s*(?:mm|millimet(?:er|re)))?[)\]]?$",
    re.IGNORECASE,
)


def _in_parts(text: str) -> tuple[str, str]:
    """A label without the size that its numbers are so many of, and that size as a unit."""
    if (words := _HUNDREDTHS.search(text)) and words.start():
        return text[: words.start()], _PARTS_NAMED[100, True]
    found = _PARTS.search(text) if "1" in text else None
    if found is None or not text[: found.start()].strip():
        return text, ""
    marked = found["by"] or found["over"] or (found["open"] and found["shut"])
    marked = marked or found["several"]
    if not marked:
        return text, ""  # "Gap .001" may well say the gap.
    digits = found["over"] or found["point"]
    parts = 10 ** (digits.count("0") if found["over"] else len(digits.lstrip("0")) - 1)
    said = (found["unit"] or "").casefold()
    metric = said == "mm" or (not said and parts == 100)  # No inch shop counts in hundredths.
    unit = _PARTS_NAMED.get((parts, metric), "")
    return (text[: found.start()].strip(" ,;:"), unit) if unit else (text, "")


def counts_parts(text: str) -> bool:
    """Whether a label says what size its numbers are so many of: "Fit .001s"."""
    return bool(_in_parts(text)[1])


# Cubic centimeters as they were once written.
_DOTTED_VOLUME = re.compile(r"(?<!\w)c\.\s?c\.?(?!\w)", re.IGNORECASE)


# How far readings are from each other, which says the unit of none: "all within half a thou".
_SO_ALIKE = re.compile(
    r"[\s,;(–-]+(?:all\s+)?(?:within|alike to)\s+(?:an?|one|two|half|\.?\d)\b.*$", re.IGNORECASE
)


# "Lash, thou, in" is of the intake: it has its unit already.
_INTAKE_BEHIND_UNIT = re.compile(
    r"(?P<name>.*[^\W\d_]{3}),? (?P<unit>thou|mm),? in\.?", re.IGNORECASE
)


def _ends_with_another_meaning(label: str) -> tuple[str, str] | None:
    """A label and its unit where its end only looks like a bank or a unit: "Displ. L"."""
    if in_liters(label):
        return label[:-2].strip(), "L"
    side = _INTAKE_BEHIND_UNIT.fullmatch(label)
    return (f"{side['name']} in", side["unit"]) if side else None


# A unit that names what it is a unit of: no other volume of an engine is told in it.
_LITERS = frozenset({"liter", "liters", "litre", "litres", "litros", "litri"})


# The unit that sizes are not in: "Nm, not ft-lb", "(kg/cm² no, ¡bar!)".
_NOT_IN = re.compile(
    r"[\s,;:]*\b(?:not|nicht|pas|non)(?: in| en)? (?P<unit>[^\s,;:()!]{2,})(?:[\s,;:]+(?=\S))?"
    r"|(?P<before>[^\s,;:()¡]{2,}) (?:not|no|nicht|pas)(?:[,;:]\s*|(?=\)|$))",
    re.IGNORECASE,
)
_NO_UNITS = ("in", "no")


def _without_denied(text: str) -> str:
    """A text without the unit that it says its sizes are not in."""
    told = _NOT_IN.search(text)
    unit = (told["unit"] or told["before"]) if told else ""
    if told is None or unit.casefold() in _NO_UNITS or not is_unit(unit):
        return text
    before, behind = text[: told.start()], text[told.end() :]
    joint = " " if before and behind[:1].isalnum() and not before.endswith("(") else ""
    return f"{before}{joint}{behind}".replace("¡", "")


@lru_cache(maxsize=8192)
def _taken_apart(text: str) -> tuple[str, str]:
    text = _without_denied(text)
    text = _LOOSE_OR_TIGHT.sub(r"\g<of>", text)
    text = _in_degrees(_AT_SPEED.sub("", text) or text)
    text = _SO_ALIKE.sub("", text) or text
    rest, parts = _in_parts(text.replace("!", "").strip())
    if parts:
        return rest, parts
    if told := _ends_with_another_meaning(rest):
        return told
    rest = _DOTTED_VOLUME.sub("cc", text.replace("!", "")).strip(" :.")
    for found in _BRACKET.finditer(rest):
        unit, comma, remark = found[1].strip(" +").partition(",")
        # Alone it is the number of an order, "PO".
        unit = "in" if unit.strip().lower() == "po" else unit.strip()
        if unit in ("F", "C") and not read_label(rest).candidates:
            continue  # Of what is no temperature it is a place or a bank.
        # "(kPa pulled)": a word behind the unit says how.
        first, _, word = unit.partition(" ")
        plain = len(first) > 1 and first.lower() != "in"
        if plain and word.isalpha() and is_unit(first) and not is_unit(unit):
            unit, remark = first, f"{word} {remark}".strip()
        if is_unit(unit) or (not comma and unit.lower() in ("inch", "inches", "metric", "%")):
            left = f"{rest[: found.start()]}{remark} {rest[found.end() :]}"
            return " ".join(left.split()), unit
    after = _AFTER.search(rest)
    if (
        after
        and is_unit(after[1])
        and after[1].casefold() != "foot"
        and len(rest[: after.start()].strip()) > 2
    ):
        return rest[: after.start()].strip(), after[1]
    head, _, last = rest.rpartition(" ")
    if head and (last.lower() in _NOTHING_ELSE or _is_taken_as_unit(last, rest)):
        return head, last
    first, _, tail = rest.partition(" ")
    if tail and (first.lower() in _VOLUMES or _is_unit_before_when(first, tail)):
        return tail, first
    return _inner_unit(rest)


def _is_unit_before_when(first: str, tail: str) -> bool:
    """Whether a label is a unit and when the sizes were taken: "psi before"."""
    if len(first) <= len("in") or not is_unit(first):
        return False
    said = read_label(tail)
    return bool(said.stage) and not (said.candidates or said.part or said.unknown)


def _inner_unit(text: str) -> tuple[str, str]:
    """A label without a unit that stands among its words, and the unit: "Deck thou (down)".

    Of two words too: "Head lb ft". What is shorter than two letters or says "in" may be a word.
    """
    if text.casefold() in _LITERS:
        return text, "L"
    words = text.split()
    for many in (2, 1):
        for first in range(1, len(words) - many + 1):
            unit = " ".join(words[first : first + many]).rstrip(",;:")
            long = len(unit) > 2 or unit.lower() in ("mm", "nm", "um", "µm", "lb")
            if long and _is_taken_as_unit(unit, text):
                return " ".join([*words[:first], *words[first + many :]]), unit
    return text, ""


def _is_taken_as_unit(word: str, text: str) -> bool:
    """Whether a word is a unit in this text: the last of "Lash in" is a valve."""
    if not is_unit(word):
        return False
    said = read_label(text)
    meant = find(said.candidates[0].measurand) if said.candidates else None
    if in_pounds(word):
        return meant is not None and meant.kind in (MASS, FORCE, PRESSURE)
    try:
        kind = unit_named(word)[0].name
    except UnreadableText:
        return False
    if kind == MASS.name and meant is not None and meant.kind is FORCE:
        return True  # A spring's load in kilograms.
    # "Comp psi" is one word to the lexicon, which says pressure.
    sure = len(word) > 2 or word.casefold() in _SURE_IF_SHORT
    return kind == said.unit or (sure and meant is not None and kind == meant.kind.name)


# Short units that are no word.
_SURE_IF_SHORT = ("um", "mm", "cc")


@cache
def vocabulary() -> Vocabulary:
    """The vocabulary that comes with the program."""
    return Vocabulary(job_words())
