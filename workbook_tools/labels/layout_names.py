"""The names that a layout may use: of measurands, parts, stages and units."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from workbook_tools.labels.answers import NO_READING, STAGES, THE_ENGINE
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.measurands import Measurand, all_measurands
from workbook_tools.measurands.tokens import tokens
from workbook_tools.quantities import SPELLINGS, TEMPERATURE, UnreadableText, unit_named

_OF = {
    "engine": "", "bank": "each bank", "cylinder": "each cylinder", "main": "each main",
    "rod": "each rod", "cam_bearing": "each cam bearing", "bearing": "each bearing",
    "valve": "each valve", "ring": "each ring", "fastener_group": "each group of bolts",
}  # fmt: skip
# Of so many names one line each is still read.
_MOST_SPELLINGS = 6
_WIDTH = 80


def allowed_names(words: Sequence[str] = ()) -> Iterator[str]:
    """Every name that a layout may use, in lines of text; with words only those about them.

    words: of any of the five languages, or parts of a name: "gasket", "Bohrung", "main".
    """
    text = " ".join(words).casefold().replace("_", " ").strip()
    found = [m for m in all_measurands() if not text or _is_about(m, text)]
    title = ""
    for one in found:
        if one.title != title:
            title = one.title
            yield f"{title}"
        units = " or ".join(dict.fromkeys(u for u in one.bare_units if u))
        about = ", ".join(t for t in (one.name, units, _OF[one.of]) if t)
        yield from _wrapped(f"  {one.id:<31} {about}", 34)
    more = list(_others(text))
    if found and more:
        yield ""
    for line in more:
        yield from _wrapped(line, 2)


def _wrapped(line: str, indent: int) -> list[str]:
    return wrap(line, _WIDTH, subsequent_indent=" " * indent, break_on_hyphens=False)


def _is_about(one: Measurand, text: str) -> bool:
    """Whether all words stand in a name, or mean it in one of the languages."""
    named = f"{one.id} {one.name} {one.title}".casefold().replace("_", " ")
    if all(word in named for word in text.split()):
        return True
    return any(c.measurand == one.id for c in meaning_of(text).candidates)


def _others(text: str) -> Iterator[str]:
    """What stands behind is besides measurands, and behind of, stage and unit."""
    listed = (
        ("is", (NO_READING,), "a number that measures nothing of an engine"),
        ("of", ("Cyl 3", "Main 2", "Rod 1", "Cam bearing 4", "Valve 1", "L2", "Bank R",
                "Cyl 3 top thrust", THE_ENGINE), "and the like; or a list of them"),
        ("stage", STAGES, "when it was measured, or what for"),
    )  # fmt: skip
    for key, names, about in listed:
        if not text or any(text in name.casefold() for name in (key, *names)):
            yield f"{key} = " + ", ".join(f'"{name}"' for name in names) + f": {about}"
    for kind, spellings in _units().items():
        if not text or text == "unit" or text in kind or text in map(str.casefold, spellings):
            more = ", …" if len(spellings) > _MOST_SPELLINGS else ""
            named = ", ".join(f'"{s}"' for s in spellings[:_MOST_SPELLINGS])
            yield f"unit, {kind}: {named}{more}"


def _units() -> dict[str, list[str]]:
    """The spellings of units by kind of quantity."""
    found: dict[str, list[str]] = {}
    for spelling in SPELLINGS:
        if is_unit(spelling) and tokens(spelling):
            found.setdefault(_kind_of(spelling), []).append(spelling)
    return found


def _kind_of(spelling: str) -> str:
    try:
        return unit_named(spelling)[0].name
    except UnreadableText:
        return TEMPERATURE.name  # A scale, which is no factor of another.
