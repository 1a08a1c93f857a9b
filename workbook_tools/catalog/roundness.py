"""The shape of bores and journals: taper and out-of-round from a block of readings."""

from __future__ import annotations

from workbook_tools.catalog.blocks import (
    columns_in,
    require_filled,
    rows_in,
    widest_column,
    widest_row,
)
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Rows
from workbook_tools.catalog.measured import (
    BoreOutOfRound,
    Bores,
    BoreTaper,
    JournalOutOfRound,
    Journals,
    JournalTaper,
)
from workbook_tools.catalog.readings import smallest
from workbook_tools.catalog.registry import worksheet_function

BORES = "Pistons, bores, rings"
JOURNALS = "Bearings"


def _require_one_size(readings: Rows, difference: float, part: str) -> None:
    """Refuse readings that cannot all be of one bore or journal."""
    require(
        difference <= 0.05 * smallest(readings),
        "readings",
        f"sizes of one {part}, within 5 % of each other",
        "sizes further apart",
    )


@worksheet_function(BORES)
def bore_taper(readings: Bores) -> BoreTaper:
    """Bore taper: how much one bore changes down its length, on its worst axis.

    Parameters
    ----------
    readings
        at all places of one cylinder: a row for each height, a column for each axis. No cell may
        be empty.

    Equation
    --------
    taper = largest, over the axes, of (largest - smallest reading down that axis)

    Validity
    --------
    Two heights or more. Says nothing of the heights between the readings.

    Source
    ------
    common practice, no source (as factory service data define it)
    """
    require_filled(readings, "readings")
    require(rows_in(readings) >= 2, "readings", "two rows or more, one for each height", "one row")
    taper = widest_column(readings)
    _require_one_size(readings, taper, "bore")
    return taper


@worksheet_function(BORES)
def bore_out_of_round(readings: Bores) -> BoreOutOfRound:
    """Bore out-of-round: how much the axes of one bore differ, at its worst height.

    Parameters
    ----------
    readings
        at all places of one cylinder: a row for each height, a column for each axis. No cell may
        be empty.

    Equation
    --------
    out_of_round = largest, over the heights, of (largest - smallest reading at that height)

    Validity
    --------
    Two axes or more. A difference of two diameters: a three-lobed bore hides from it.

    Source
    ------
    common practice, no source (as factory service data define it)
    """
    require_filled(readings, "readings")
    require(
        columns_in(readings) >= 2,
        "readings",
        "two columns or more, one for each axis",
        "one column",
    )
    out_of_round = widest_row(readings)
    _require_one_size(readings, out_of_round, "bore")
    return out_of_round


@worksheet_function(JOURNALS)
def journal_taper(readings: Journals) -> JournalTaper:
    """Journal taper: how much one journal changes along its length, on its worst axis.

    Parameters
    ----------
    readings
        at all places of one journal: a row for each place along it, a column for each axis. No
        cell may be empty.

    Equation
    --------
    taper = largest, over the axes, of (largest - smallest reading along that axis)

    Validity
    --------
    Two places or more. Says nothing of the places between the readings.

    Source
    ------
    common practice, no source (as factory service data define it)
    """
    require_filled(readings, "readings")
    require(rows_in(readings) >= 2, "readings", "two rows or more, one for each place", "one row")
    taper = widest_column(readings)
    _require_one_size(readings, taper, "journal")
    return taper


@worksheet_function(JOURNALS)
def journal_out_of_round(readings: Journals) -> JournalOutOfRound:
    """Journal out-of-round: how much the axes of one journal differ, at its worst place.

    Parameters
    ----------
    readings
        at all places of one journal: a row for each place along it, a column for each axis. No
        cell may be empty.

    Equation
    --------
    out_of_round = largest, over the places, of (largest - smallest reading at that place)

    Validity
    --------
    Two axes or more. A difference of two diameters: a three-lobed journal hides from it.

    Source
    ------
    common practice, no source (as factory service data define it)
    """
    require_filled(readings, "readings")
    require(
        columns_in(readings) >= 2,
        "readings",
        "two columns or more, one for each axis",
        "one column",
    )
    out_of_round = widest_row(readings)
    _require_one_size(readings, out_of_round, "journal")
    return out_of_round
