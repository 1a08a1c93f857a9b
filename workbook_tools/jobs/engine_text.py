"""How many cylinders the words for an engine say: "V8", "inline four", "3 cil.", "Einzylinder"."""

from __future__ import annotations

import re
import unicodedata

# Forms of engines with a number, and numbers of cylinders.
_IN_DIGITS = re.compile(
    r"\b(?:v|w|r|l|i|h|b|inline|straight|flat|reihen|boxer)[\s-]?(\d{1,2})\b(?![.,/]\d)(?!\s?v\b)"
    r"|\b(\d{1,2})[\s-]?(?:cyl|zyl|cil)\w*",
    re.IGNORECASE,
)
# Beginnings of words by their number; without accents and case.
_IN_WORDS = {
    1: ("single", "mono", "einzyl", "ein zyl", "one cyl", "one lung", "un cyl", "un cil"),
    2: ("twin", "bicyl", "bicil", "zweizyl", "two cyl", "deux cyl", "due cil", "dos cil", "v-twin"),
    3: ("triple", "tricyl", "tricil", "dreizyl", "three cyl", "trois cyl", "tre cil", "tres cil"),
    4: ("four", "vierzyl", "quattro cil", "quatre cyl", "cuatro cil", "quadricil", "tetracil"),
    5: ("five", "funfzyl", "cinq cyl", "cinque cil", "cinco cil"),
    6: ("six", "sechszyl", "sei cil", "seis cil"),
    8: ("eight", "achtzyl", "huit cyl", "otto cil", "ocho cil"),
    12: ("twelve", "zwolfzyl", "douze cyl", "dodici cil", "doce cil"),
}
# "Four stroke", "single cam", "twin carb", "monoblock" count something else.
_OF_ELSE = (
    r"stroke|cycle|cam|valve|carb|plug|spark|turbo|barrel|speed|overhead|ohc|bloc|bloq|choke|bolt|ring"
    r"|row|port|temps|tempi|tiempos|takt|soupape|valvol|valvul|ventil|disc|shaft|cv"
)
_IN_WORDS_OF = {
    number: re.compile(
        rf"(?<![^\W\d_])(?:{'|'.join(words)})(?!{_OF_ELSE})[^\W\d_]*(?![^\W\d_])(?![\s-]*(?:{_OF_ELSE}))"
    )
    for number, words in _IN_WORDS.items()
}
_MOST = 16


def cylinders_in(text: str) -> int | None:
    """How many cylinders the words for an engine say that it has, None where they do not."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    found = {int(n) for m in _IN_DIGITS.finditer(plain) for n in m.groups() if n}
    found |= {number for number, words in _IN_WORDS_OF.items() if words.search(plain)}
    return next(iter(found)) if len(found) == 1 and 0 < min(found) <= _MOST else None
