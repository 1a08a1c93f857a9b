"""Texts that call the pistons flat: their crowns add nothing to the volume."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from workbook_tools.labels.cell_kinds import VALUES
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import NOTHING

_FLAT = re.compile(rf"\b{either_of('crown_flat')}", re.IGNORECASE)
_CROWNS = ("crown", "piston")
_VOLUMES = ("crown_volume", "dish_volume", "dome_volume", "pocket_volume")
# Flat but for what was cut into them, or with a volume of their own: that is read as it stands.
_NOT_ALL = re.compile(
    r"[1-9]|\b(?:deck|block|to|with|vr)\b|\b(?:valve|pocket|notch)|taschen|encoches|cajeras|incavi"
    rf"|\b{either_of('crown_adds')}|\b{either_of('crown_takes')}",
    re.IGNORECASE,
)
_NONE_CUT = re.compile(r"\b(?:no|without|ohne|sans|sin|senza)\s+(?:valve\s+)?\w+", re.IGNORECASE)
_CROWN = "crown volume (cc)"
_LONGEST = 80
# "Flat washers below the piston studs" are no flat pistons.
_MOST_OTHERS = 2


def flat_crowns(cells: SheetText, found: Sequence[Spot]) -> Iterator[Spot]:
    """The first text of a sheet that calls the pistons flat, none where a volume is measured.

    "Piston crown: flat top", "Kolben sind flach"; a cell "flat" beside "Piston crown".
    """
    if any(map(_is_volume, {spot.label for spot in found})):
        return
    for (row, column), kind in cells.kinds.items():
        if kind not in ("text", "remark") or cells.kinds.get((row, column + 1)) in VALUES:
            continue
        text = cells.text(row, column)
        label = _label(cells, row, column, text) if _says_flat(text) else ""
        if label:
            yield Spot(
                row, column, label, (cells.heading,), NOTHING, "",
                ("flat", row, column), (row, column), "0 cc",
            )  # fmt: skip
            return


def _says_flat(text: str) -> bool:
    if len(text) > _LONGEST or _FLAT.search(text) is None:
        return False
    return _NOT_ALL.search(_NONE_CUT.sub("", text)) is None


def _label(cells: SheetText, row: int, column: int, text: str) -> str:
    """What a text calls flat, as a label of its crown; "" where that is no piston."""
    beside = cells.text(row, column - 1) if column > 1 else ""
    if "top" in text.casefold() and not beside:
        return _CROWN  # Of "flat tops" there are none but pistons.
    for clause in re.split(r"[.;,|]", text):
        if not _FLAT.search(clause):
            continue
        words, rest = (t.replace(":", " ").split() for t in (clause, _FLAT.sub(" ", clause)))
        others = [word for word in rest if not _is_piston(word)]
        if any(map(_is_piston, words)) and len(others) <= _MOST_OTHERS:
            return _CROWN
    if text.casefold().strip(" .:!") in words_of("crown_flat"):
        return beside if _is_volume(beside) else _CROWN if _is_piston(beside) else ""
    return ""


def _is_piston(text: str) -> bool:
    return bool(text) and meaning_of(text.strip(" :")).part in _CROWNS


def _is_volume(text: str) -> bool:
    named = meaning_of(text).candidates[:1] if text else ()
    return any(c.measurand in _VOLUMES for c in named)
