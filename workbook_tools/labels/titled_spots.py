"""The spots whose labels only say which one, with what the title over them says is measured."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import Stage, meaning_of, plain
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find

# A title that leaves more to be assumed does not say what the rows below it measure.
_MOST_ASSUMED = 2
_RINGS = 3
# What a label says that only counts.
_COUNTED_ALONE = (
    "", "cylinder", "bore", "main", "rod", "bearing", "main_bearing", "rod_bearing", "cam_bearing",
)  # fmt: skip
# The places that a title lists, of which each row names one.
_LISTED_PLACES = re.compile(r"[\s,:]*(?P<places>[^\W\d_]+(?:\s*[/,]\s*[^\W\d_]+)+)\s*(?=[(\[]|$)")


def named_by_title(spot: Spot) -> Spot:
    """A spot whose label only says which one, with the title over it that says what is measured.

    "HL 1" below "Hauptzapfen", "Zyl. 1 oben" below "Ringstoß oben / Mitte / unten".
    """
    told = which_of(spot.label) if spot.label[-1:].isdigit() or spot.which.at else None
    if told is None or not told.number or not told.of or told.stage:
        return spot
    if meaning_of(spot.label).part not in _COUNTED_ALONE:
        return spot  # "main jnl 1" says more than which one.
    title = next((h for h in spot.headings[:-1] if _says_what(h)), "")
    if not title or not _names_rows(title) or _is_of_another_bearing(title, told):
        return spot
    at = told.at or spot.which.at
    place = spot.label.rpartition(str(told.number))[2].strip(" ,.:")
    listed = _LISTED_PLACES.search(title)
    places = re.split(r"\s*[/,]\s*", listed["places"].casefold()) if listed else []
    if listed and place.casefold() in places:
        # Of three rings the lowest is the oil ring.
        last = len(places) == _RINGS and place.casefold() == places[-1]
        place = "" if last else f" {place}"
        told = told._replace(at=(), side="oil" if last else told.side)
        at = ()
        title = f"{title[: listed.start()]}{place}{title[listed.end() :]}"
    return replace(
        spot,
        label=title,
        headings=spot.headings[-1:],
        which=told.beside(spot.which._replace(at=at)).beside(
            Which(stage=_stage_said(spot.headings))
        ),
        line=("titled", plain(title), spot.which.unit),
    )


def _stage_said(headings: Sequence[str]) -> Stage:
    """When the nearest title says that sizes were taken, one that says nothing else: "as found"."""
    said = which_of(headings[0])
    return said.stage if said is not None and not said.tells else ""


def _says_what(heading: str) -> bool:
    meaning = meaning_of(heading)
    return bool(meaning.candidates or meaning.part)


def _is_of_another_bearing(title: str, told: Which) -> bool:
    """Whether a title names what rods have of a label that counts the mains, or the like."""
    term = find(meaning_of(title).candidates[0].measurand)
    return term is not None and {term.of, told.of} == {"main", "rod"}


def _names_rows(title: str) -> bool:
    """Whether a title says without a doubt what is measured of the rows below it."""
    meaning = meaning_of(title)
    sure = bool(meaning.candidates) and meaning.candidates[0].cost <= _MOST_ASSUMED
    return sure and not meaning.unknown and which_of(title) is None
