"""An item of a summary: one number or text of the book, and all that is known of it."""

from __future__ import annotations

from typing import NamedTuple

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import THE_ONLY_ONE
from workbook_tools.measurands import Position, Stage
from workbook_tools.summary.bands import Band
from workbook_tools.summary.figures import Measure

NOT_UNDERSTOOD = "Calls not understood"
# What an item of a result has in place of a parameter.
RESULT = "result"


class Item(NamedTuple):
    """One number or text of the book and all that is known of it.

    value: the bare number, None where there is none; text: what stands there in its place,
    or the words that the number was typed in ("38 thou"); saved: the saved number where it
    differs; state: of a result as recalculation says it, of a reading "read", "missing" or
    "refused"; help: what a sign means; typed: whether the number is a reading, or of
    readings, and keeps their digits; most_digits: that a mean of readings is worth;
    measurand, stage, part: what it measures, when it was taken and of which part, as far as
    anything says it; rests_on: the cells and ranges that a result takes; unsure: whether a limit
    lies within the uncertainty of the number; expanded: that uncertainty, where it is known.
    """

    section: str
    label: str
    position: str
    function: str
    parameter: str
    of: Measure
    place: Place
    state: str
    value: float | None = None
    text: str = ""
    saved: float | None = None
    note: str = ""
    band: Band | None = None
    help: str = ""
    typed: bool = True
    most_digits: int | None = None
    measurand: str = ""
    stage: Stage = ""
    part: Position = THE_ONLY_ONE
    rests_on: tuple[Place, ...] = ()
    unsure: bool = False
    expanded: float | None = None
