"""What a field of a job can be: a text is taken for one only where its kind fits."""

from __future__ import annotations

import datetime
import re
from collections.abc import Sequence

from workbook_tools.books.cells import Cell
from workbook_tools.catalog import CellError
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import Field, is_measured
from workbook_tools.labels.dates import is_date_without_day, leading_date, read_date
from workbook_tools.labels.job_labels import JobLabel, is_nothing
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.tokens import phrase
from workbook_tools.quantities import TEXT, UnreadableText, split_quantity, unit_expression

DATES = ("started", "finished")
_LONGEST = {"number": 24, "customer": 60, "builder": 40, "engine": 80}
_LONGEST_DATE = 60
_MOST_WORDS_OF_A_NUMBER = 3
_DECIMAL = re.compile(r"\d*[.,]\d+|\d+[.,]\d{3,}")
_COUNTED = re.compile(
    r"(?:cyl|zyl|cil|main|rod|brg|rev|page|seite)\w*\.?\s|\d+ (?:of|von|de|di|sur) ", re.IGNORECASE
)
# "CR-A": the first of two engines of a shop that numbers none.
_LETTERS = re.compile(r"[A-Z]{1,4}-[A-Z]{1,2}")
_MONEY = re.compile(r"[$€£]\s*\d|\d\s*[$€£]|\b(?:eur|usd|chf|gbp)\b", re.IGNORECASE)
# Engines are called by their size alone: "350".
_SIZE_OF_ENGINE = re.compile(r"[1-9]\d{2,3}")
# A number of a job at the beginning of a text, and whether more of the text follows.
_CODE = re.compile(r"#?\s*(?P<code>(?=[\w./-]*\d)\w[\w./-]*)(?P<rest>.*)", re.DOTALL)
# What parts one thing from the next in a line, and not the parts of a number: "2,0 Benziner".
SEPARATOR = re.compile(r"\s*(?:[|·;\n•]|(?<!\d),|,(?!\d))\s*|\s+[/–—-]+\s+|\s*[–—]\s*|\s{2,}")


def field_text(value: object) -> str:
    """A job field's content as text, "" of an error; dates so that none can be misread."""
    if value is None or isinstance(value, CellError):
        return ""
    if isinstance(value, datetime.datetime):
        return value.date().isoformat() if value.time() == datetime.time() else value.isoformat(" ")
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return " ".join(str(value).split())


def cell_text(cell: Cell | None) -> str:
    """A cell of a list as text: dates without a time; "" of an empty cell, TRUE and an error."""
    value = cell.value if cell else None
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return f"{value:.10g}"
    return " ".join(value.split()) if isinstance(value, str) else ""


def fitting(name: str, value: object, vocabulary: Vocabulary, *, sure: bool = True) -> str:
    """What a cell says as a field of a job, "" where that cannot be such.

    sure: whether the label means nothing else. Names and engines stay as they are written; a
    label, a state ("ok", "tbc"), a price or a measurement is none of them.
    """
    text = field_text(value)
    if not text or isinstance(value, bool) or len(text) > _LONGEST.get(name, _LONGEST_DATE):
        return ""
    if name in DATES:
        return _date(value, text, sure=sure)
    if name == "builder" and phrase(text) in vocabulary.job.oneself and "." not in text:
        # Where somebody writes who did it "io" is neither "i.o." nor the intake's opening.
        return text
    labels = () if text in _NAMES_TOO else vocabulary.job.labels(text)
    if isinstance(value, datetime.date) or is_nothing(text) or labels:
        return ""
    if any(text.casefold().strip(" .:") in words_of(heads) for heads in _HEADS):
        return ""  # "What | Which | Reading": of a list, and nobody's name.
    if name == "number":
        named = " " in text and vocabulary.match(text) is not None
        return text if _is_number(value, text) and not named else ""
    if name == "engine" and _SIZE_OF_ENGINE.fullmatch(text):
        return text if sure else ""
    if not sure and which_of(text) is not None:
        return ""  # "Crank | No 1 (LH) | No 2 (RH)" heads a table.
    named = isinstance(value, str) and _is_name(name, text, vocabulary)
    return text if named else ""


def may_say(label: JobLabel, meant: Sequence[JobLabel], value: object) -> bool:
    """Whether a label with these meanings can say this one of a value.

    An engine's tag is a number where it is a code, "KT-1", and else the engine: "Wren 200 #1".
    """
    if label.sure or label.field != "number" or all(one.field != "engine" for one in meant):
        return True
    return len(field_text(value).split()) == 1


_HEADS = ("place_heads", "value_heads", "unit_heads", "date_heads")

# A rebuild of an engine that a shop counts: "Rev. 2", "Aufbau 3", "#4".
_REBUILD = re.compile(r"(?P<word>[^\W\d_]*)\.?\s*(?:n[°ºo]\.?\s*)?#?(?P<number>\d{1,2})")


def rebuild_of(value: object) -> tuple[str, int] | None:
    """The word and the number of a rebuild that a cell counts, None of any other cell.

    Only where several stand side by side is that the number of a job: a revision of a form is
    written so too.
    """
    found = _REBUILD.fullmatch(field_text(value))
    return (found["word"].casefold(), int(found["number"])) if found else None


def _date(value: object, text: str, *, sure: bool) -> str:
    if isinstance(value, datetime.date):
        return text
    if isinstance(value, (int, float)):
        told = read_date(value, Field(kind=TEXT)) if sure else None
        return text if told is not None and told.text else ""
    if is_date_without_day(text):
        return text
    date = leading_date(text)
    rest = text[len(date) :]
    return date if date and (not rest or SEPARATOR.match(rest) or rest[0] in " (.") else ""


def _is_number(value: object, text: str) -> bool:
    """Whether this can be the number of a job: a code with a digit, and no measurement."""
    if isinstance(value, float) and not value.is_integer():
        return False
    if isinstance(value, (int, float)):
        return value >= 1
    words = [word for word in text.split() if any(map(str.isalnum, word))]
    coded = any(c.isdigit() for c in text) or _LETTERS.fullmatch(text)
    if not coded or len(words) > _MOST_WORDS_OF_A_NUMBER:
        return False
    if (
        leading_date(text) == text
        or _DECIMAL.fullmatch(text)
        or _MONEY.search(text)
        or _COUNTED.match(text)
    ):
        return False
    return not (is_measured(text) and _has_unit(text))


def _has_unit(text: str) -> bool:
    try:
        return split_quantity(text)[1] is not None
    except UnreadableText:
        return False


def _is_name(name: str, text: str, vocabulary: Vocabulary) -> bool:
    """Whether a text can name somebody, or an engine."""
    letters, digits = sum(map(str.isalpha, text)), sum(map(str.isdigit, text))
    if not letters or _MONEY.search(text) or is_measured(text) or leading_date(text) == text:
        return False
    # Below "Unit" stands in which unit a table measures as often as what came in.
    if name in ("engine", "customer") and unit_expression(text) is not None:
        return False
    if name != "engine" and digits > (letters if name == "customer" else 0):
        return False
    match = vocabulary.match(text)
    if match is None or match.how == "proposal" or (name == "engine" and digits > 0):
        return True
    if not text.istitle() or name not in ("builder", "customer"):
        return False
    # Ivo is a name, and IVO the intake's opening; Fermín is no clip of a pin.
    candidates = meaning_of(text).candidates
    unsure = name == "builder" and text.isalpha() and bool(candidates) and candidates[0].cost > 1
    return unsure or text.upper() in _CAPITALS


def number_key(text: str, vocabulary: Vocabulary) -> str:
    """What tells one number of a job from another: without the words that say that it is one.

    "OT 2207" on one sheet and 2207 on the next are of one job.
    """
    words = text.split()
    while len(words) > 1 and any(
        one.field == "number" for one in vocabulary.job.labels(words[0].strip(".:#"))
    ):
        words = words[1:]
    return " ".join(words).lstrip("#").casefold()


def leading_number(text: str) -> tuple[str, str]:
    """(number, rest) of a text that begins with a job's number: "1042 – Smith"; else ("", text)."""
    found = _CODE.fullmatch(text.strip())
    if not found:
        return "", text
    code, rest = found["code"].rstrip("./-"), found["rest"]
    ends = not rest.strip() or rest[:1] == ")" or SEPARATOR.match(rest)
    if not ends or not _is_number(code, code):
        return "", text
    return code, rest


# Words by which a text without a label is told to be an engine, and not its owner.
_ENGINE = re.compile(
    r"\b(?:[vwrhi][\s-]?\d{1,2}|\d{1,2}[\s-]?(?:cyl|zyl|cil)\w*|twin|v-?twin|single|triple|flat|inline|straight"
    r"|four|five|six|eight|twelve|boxer|diesel|turbo|reihe\w*|ein\w*zylinder|\w+zylinder|\w*cylindres?"
    r"|\w*cilindr\w*|motor|moteur|motore|engine|bialbero|block|head|crank"
    r"|\d[.,]\d\s?(?:l|ltr|liter|litre|litres)?|\d{3,4}\s?(?:cc|ccm|ci|cid|cm3)?)\b",
    re.IGNORECASE,
)
_LABELED_SIZE = re.compile(r":\s*[.,]?\d")
# "al" is a label of a day in two languages.
_NAMES_TOO = ("Al",)
_CAPITALS = ("IVO", "IVC", "EVO", "EVC", "LSA", "ICL", "ECL")
_BETWEEN_NAMES = (
    *("of", "de", "di", "von", "van", "der", "den", "del", "della", "du", "la", "le", "the"),
    *("y", "e", "et", "und", "and", "&"),
)
_MOST_WORDS_OF_A_NAME = 5


def is_engine(text: str) -> bool:
    """Whether a text without a label tells of an engine: its form, size or cylinders."""
    if _LABELED_SIZE.search(text):
        return False  # "Reliefs: 5.2 cc"
    return _ENGINE.search(text) is not None and len(text) <= _LONGEST["engine"]


# What an engine of a title is out of, or whose: "250 six out of the ute".
_OUT_OF = re.compile(
    r"\s+(?:out of|off|from|that|which|of (?:the|an?|my|his|her|our)|aus|von|vom|der|du|de|de la"
    r"|des|della|dalla|dal|del|di)\s+(?=[^\W\d_]).*",
    re.IGNORECASE,
)


def engine_alone(text: str) -> str:
    """An engine without what it came out of; the whole text where no engine is left of it."""
    alone = _OUT_OF.sub("", text)
    told = len(alone.split()) > 1 and any(map(str.isdigit, alone))
    return alone if told and is_engine(alone) else text


def is_name(text: str, vocabulary: Vocabulary) -> bool:
    """Whether a text without a label can only be somebody's name."""
    words = text.replace(".", ". ").split()
    if not 1 <= len(words) <= _MOST_WORDS_OF_A_NAME or any(map(str.isdigit, text)):
        return False
    if vocabulary.job.is_title(text) or vocabulary.job.labels(text) or is_nothing(text):
        return False
    if not all(w[0].isupper() or w.lower() in _BETWEEN_NAMES for w in words):
        return False
    return not (text.isupper() and len(text) > 4) and _is_name("customer", text, vocabulary)
