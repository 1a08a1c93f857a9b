"""Labels that go on behind their value: "Lash int | .014 | exh | .016", "Nm main | 105 | head"."""

from __future__ import annotations

from functools import lru_cache

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.measurands import find

_SIDES = ("intake", "exhaust")
# A label that goes on has so few words, and leaves so little to be assumed.
_MOST_WORDS, _MOST_ASSUMED = 7, 2
# What is named alone in a row behind a label of another part.
_PARTS = ("main", "rod", "head", "cam", "flywheel", "sump", "manifold", "big_end", "camshaft")


@lru_cache(maxsize=4096)
def goes_on(label: str, text: str) -> str:
    """A label with the side or the part that a text behind its value names in place of its own.

    "" where the text is a label of its own or the label names nothing that it could replace.
    """
    words = label.split()
    if not 1 < len(words) <= _MOST_WORDS or len(text.split()) > 1 or text.isdigit():
        return ""
    if text.casefold() == "in":
        return ""  # The unit of the size before it.
    side, part = _side(text), _part(text)
    for at, word in enumerate(words):
        mine, other = (_side(word), side) if side else (_part(word), part)
        if other and mine and mine != other:
            anew = " ".join([*words[:at], text.strip(":,"), *words[at + 1 :]])
            return anew if _measures_alike(label, anew) else ""
    return ""


def _side(text: str) -> str:
    """The side of the valves that a word names and no more."""
    word = text.casefold().strip(":,.()")
    return next((side for side in _SIDES if word in words_of(side)), "")


def _part(text: str) -> str:
    part = meaning_of(text.strip(":,.()")).part
    return part if part in _PARTS else ""


def _measures_alike(label: str, other: str) -> bool:
    """Whether two labels surely name the same property of two parts or sides."""
    firsts = [meaning_of(text).candidates[:1] for text in (label, other)]
    if not all(firsts) or any(first[0].cost > _MOST_ASSUMED for first in firsts):
        return False
    one, two = (find(first[0].measurand) for first in firsts)
    return one is not None and two is not None and one.noun == two.noun and one is not two
