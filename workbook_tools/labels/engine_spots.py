"""The spots of a sheet that can be of an engine, with what the whole sheet says of them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.answered_spots import answered_spots
from workbook_tools.labels.answers import Answer
from workbook_tools.labels.banks import bank_of_title
from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.computed_spots import says_surely
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.spots import spots
from workbook_tools.labels.sums import summed_once
from workbook_tools.labels.vocabulary import Stage, meaning_of, stage_of
from workbook_tools.labels.which import WORKED

# A longer text is a remark or an opinion.
_WORDS_OF_A_HEAD = 4
# What a report on an engine that came in is called, beside when it was measured.
_REPORT = re.compile(
    r"report|inspection|survey|bericht|protokoll|rapport|constat|expertise|informe|inspección"
    r"|relazione|perizia|ispezione",
    re.IGNORECASE,
)
_GRAMS = "g"
_ALL_IN_GRAMS = re.compile(
    rf"(?<![^\W_]){either_of('all_of_a_sheet')}\s+{either_of('grams')}(?![^\W_])"
)


def spots_of_engine(
    cells: SheetText, answers: Sequence[Answer] = (), *, grams: bool = False
) -> list[Spot]:
    """The spots of a sheet that can be of an engine: no prices, no fields of jobs.

    answers: of the layout; what it says is something measured is kept wherever it stands; grams:
    whether the sheet says that all its numbers are.
    """
    vocabulary = cells.vocabulary
    elsewhere = vocabulary.is_elsewhere(cells.sheet.title)
    if elsewhere and not answers:
        return []
    prices = summed_once(cells)

    # Most spots share their words with others of their line.
    by_words: dict[tuple[str, tuple[str, ...]], bool] = {}

    def of_engine(spot: Spot) -> bool:
        if spot.told and spot.told.measurand:
            return True
        if elsewhere or (spot.row, spot.column) in prices:
            return False
        words = spot.label, spot.headings[:1]
        if words not in by_words:
            near = spot.headings[:1]
            priced = bool(near) and meaning_of(near[0]).section == "prices"
            over = near if priced or not says_surely(spot.label) else ()
            of_job = vocabulary.job_field(spot.label) or vocabulary.job.is_rebuilt(spot.label)
            by_words[words] = not of_job and not any(
                vocabulary.is_elsewhere(h) for h in (spot.label, *over)
            )
        return by_words[words]

    found = [s for s in answered_spots(cells, spots(cells), answers) if of_engine(s)]
    if grams:
        found = [spot if spot.unit else replace(spot, unit=_GRAMS) for spot in found]
    bank = bank_of_title(cells.sheet.title)
    found = [_of_bank(spot, bank) for spot in found] if bank else found
    return _all_as_found(found) if _is_of_what_came(cells, found) else found


def _is_of_what_came(cells: SheetText, found: Sequence[Spot]) -> bool:
    """Whether the name or the first text of a sheet says that all was measured as it came.

    "Strip report": nothing on it was worked, or is said to be so.
    """
    first = next((text for _, _, text in cells.sheet.texts), "")
    report = first.partition("(")[0] if _REPORT.search(first) else ""
    titles = (cells.sheet.title, report)
    if not any(stage_of(meaning_of(title)) == "found" for title in titles):
        return False
    said = {_stage_said(spot) for spot in found}
    heads = (
        t for _, _, t in cells.sheet.texts if t != first and len(t.split()) <= _WORDS_OF_A_HEAD
    )
    worked = (stage_of(meaning_of(text)) for text in heads)
    return not said & {*WORKED} and not any(stage in WORKED for stage in worked)


def _all_as_found(found: Sequence[Spot]) -> list[Spot]:
    return [
        spot if _stage_said(spot) else replace(spot, which=spot.which._replace(stage="found"))
        for spot in found
    ]


def _stage_said(spot: Spot) -> Stage:
    """When a size was taken, as its heads or its label say."""
    return spot.which.stage or stage_of(spot.meaning)


def is_in_grams(sheet: Sheet) -> bool:
    """Whether the title of a sheet says that all its numbers are grams: "all weights in g"."""
    title = next((text.casefold() for _, _, text in sheet.texts), "").strip(" .:()")
    return _ALL_IN_GRAMS.search(title) is not None or title in words_of("grams")


def _of_bank(spot: Spot, bank: str) -> Spot:
    """A number that tells of no part as one of the bank that its sheet is named after."""
    which = spot.which_one
    if which.number or which.bank or which.at:
        return spot
    return replace(spot, which=spot.which._replace(bank=bank))
