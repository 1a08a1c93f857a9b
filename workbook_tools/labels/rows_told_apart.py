"""The names of rows that only tell them apart below a title that says what is measured."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from workbook_tools.labels.content import is_unit
from workbook_tools.labels.table import Table, told_once
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import Measurand, find

# A title that leaves more to be assumed, or has more words that are not understood, may not say
# what the rows below it measure.
_MOST_ASSUMED, _A_REMARK = 1, 1
_OF_A_CYLINDER = ("", "cylinder", "valve", "ring")


@told_once
def rows_told_apart(table: Table) -> Mapping[str, Which]:
    """What such names tell: "psi wet" the unit and how, "Other side" where.

    {} where a head says what is measured or a row does, or where the heads count other parts.
    """
    if not _heads_count(table):
        return {}
    texts = dict.fromkeys(
        t for row in table.rows for t in _names(table, row) if which_of(t) is None
    )
    told = {text: _apart(text) for text in texts}
    if any(one is None for one in told.values()):
        return {}
    return {text: one for text, one in told.items() if one is not None}


def _names(table: Table, row: int) -> list[str]:
    columns: Sequence[int] = [c for c in table.names if c < table.first]
    return [text for c in columns if (text := table.cells.text(row, c)).strip(" :.-")]


def _heads_count(table: Table) -> bool:
    """Whether every head over numbers counts what the title measures, and says no more."""
    told = [
        table.head.which(c)
        for c in table.values
        if any(table.cells.is_number((row, c)) for row in table.rows)
    ]
    counts = [w for w in told if w is not None and w.number]
    about = (*table.titles[:1], *table.head.corner)
    terms = next((terms for text in about if (terms := _measured(text))), [])
    return (
        bool(counts)
        and None not in told
        and any(_is_of(t.of, {w.of for w in counts}) for t in terms)
    )


def _is_of(of: str, counted: set[str]) -> bool:
    return counted <= ({*_OF_A_CYLINDER} if of in _OF_A_CYLINDER else {of, ""})


def _measured(title: str) -> list[Measurand]:
    meaning = meaning_of(title)
    surely = len(meaning.unknown) <= _A_REMARK
    near = [c for c in meaning.candidates if c.cost <= _MOST_ASSUMED] if surely else []
    return [term for c in near if (term := find(c.measurand)) is not None]


def _apart(text: str) -> Which | None:
    """What a name says that is of no measurand: a unit, a word for where or how."""
    first, _, rest = text.partition(" ")
    if is_unit(text):
        return Which(unit=text)
    if is_unit(first) and rest and which_of(rest) is None and not meaning_of(rest).candidates:
        return Which(unit=first, at=(rest.casefold(),))
    meaning = meaning_of(text)
    named = meaning.part or (meaning.candidates and not meaning.unknown)
    if named or any(c.isdigit() for c in text):
        return None
    return Which(at=(re.sub(r"\s+", " ", text.casefold()),))
