"""Key fits of a build: which row of a summary tells the bore, the quench, a bearing clearance."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.quantities import (
    ANGLE,
    DISPLACEMENT,
    LENGTH,
    NUMBER,
    PRESSURE,
    RATIO,
    Kind,
)
from workbook_tools.summary.rows import Row
from workbook_tools.summary.summary import Summary


@dataclass(frozen=True)
class Fit:
    """A size or clearance that an engine is known by.

    functions: catalog functions whose result it is, by bare name; among: what label and
    positions of such a result must say, where the function alone does not tell; words:
    labels of readings that mean it; never: what makes it another thing; measurand: what it
    measures, by the table of measurands.
    """

    name: str
    kind: Kind
    functions: tuple[str, ...] = ()
    among: str = ""
    words: str = ""
    never: str = ""
    measurand: str = ""

    def takes(self, row: Row) -> bool:
        """Whether a row of a summary is this fit, with a value or without."""
        label = row.label.casefold()
        if re.search(_NEVER, label):
            return False
        about = " ".join((label, *(n.position.casefold() for n in row.numbers)))
        if self.never and re.search(self.never, about):
            return False
        function = row.function.removeprefix("ENG.")
        if function in self.functions:
            return re.search(self.among, about) is not None
        return bool(self.words) and function in _READINGS and bool(re.search(self.words, label))


# Results that are readings still, under whatever label; "" is a reading itself.
_READINGS = ("", "MEAN_READING", "VERDICT")
# Labels of what was wanted, allowed or worked out for another state of the engine.
_NEVER = (
    r"\b(?:wanted|usual|called for|least of|lowest|highest|tightest|loosest|growth|hot|spread"
    r"|heaviest|taper|round|for each|with no|for the first|worst|weakest)\b"
)
_BOUNDS = r"\b(?:least|most|min|max)\b"

_BEARING = ("BEARING_CLEARANCE", "BEARING_CLEARANCE_FROM_BORE")

FITS: tuple[Fit, ...] = (
    Fit("Displacement", DISPLACEMENT, ("DISPLACEMENT",)),
    Fit(
        "Finished bore",
        LENGTH,
        words=r"^(?:mean |finished )?bore(?:s|,? (?:size|mean|finished)\b.*)?$",
    ),
    Fit("Stroke", LENGTH, words=r"^(?:crank )?stroke$"),
    Fit("Compression ratio", RATIO, ("COMPRESSION_RATIO",)),
    Fit("Quench, cold", LENGTH, ("QUENCH",), measurand="quench"),
    Fit(
        "Deck clearance",
        LENGTH,
        ("DECK_CLEARANCE",),
        words=r"^deck clearance",
        measurand="deck_clearance",
    ),
    Fit(
        "Piston clearance",
        LENGTH,
        ("PISTON_CLEARANCE",),
        words=r"^piston clearance",
        measurand="piston_clearance",
    ),
    Fit(
        "Top ring gap",
        LENGTH,
        words=r"^top (?:ring )?(?:end )?gap",
        never=_BOUNDS,
        measurand="top_ring_gap",
    ),
    Fit(
        "Second ring gap",
        LENGTH,
        words=r"^second (?:ring )?(?:end )?gap",
        never=_BOUNDS,
        measurand="second_ring_gap",
    ),
    Fit(
        "Main bearing clearance",
        LENGTH,
        _BEARING,
        among=r"\bmain|front|rear",
        words=r"^mains? (?:bearing )?clearance",
        never=r"\brod|\bbig end",
        measurand="main_bearing_clearance",
    ),
    Fit(
        "Rod bearing clearance",
        LENGTH,
        _BEARING,
        among=r"\brod|\bbig end",
        words=r"^(?:rods?|big end) (?:bearing )?clearance",
        never=r"\bmain",
        measurand="rod_bearing_clearance",
    ),
    Fit(
        "Crank end play",
        LENGTH,
        ("END_PLAY",),
        words=r"^(?:crank(?:shaft)? )?end ?play",
        never=r"\bcam",
        measurand="crank_end_play",
    ),
    Fit(
        "Rod side clearance",
        LENGTH,
        ("ROD_SIDE_CLEARANCE",),
        words=r"^(?:rod )?side clearance",
        never=r"\bring|\btop|\bsecond",
        measurand="rod_side_clearance",
    ),
    Fit("Intake lash or preload", LENGTH, words=r"^intake (?:valve )?(?:lash|preload)"),
    Fit("Exhaust lash or preload", LENGTH, words=r"^exhaust (?:valve )?(?:lash|preload)"),
    Fit("Intake centerline", ANGLE, ("LOBE_CENTERLINE",), among=r"\bintake"),
    Fit("Cam advance", ANGLE, ("CAM_ADVANCE",)),
    Fit(
        "Leakage, percent",
        NUMBER,
        words=r"^leak(?:age|.?down)",
        never=r"supply|pressure",
        measurand="leakage",
    ),
    Fit(
        "Cranking pressure",
        PRESSURE,
        words=r"^cranking (?:pressure|compression)",
        measurand="cranking_pressure",
    ),
)


@dataclass(frozen=True)
class KeyFit:
    """A fit with the row of the summary that tells it best."""

    fit: Fit
    row: Row


def key_fits(summary: Summary) -> tuple[KeyFit, ...]:
    """The key fits that a build's summary holds, in the order of the work on an engine.

    Where several rows tell the same fit, every cylinder comes before a mean that hides the
    worst, then a judged row before one that is not, then measured before calculated.
    Raises nothing.
    """
    return tuple(
        KeyFit(fit, max(measured, key=worth))
        for fit, rows in _rows_by_fit(summary)
        if (measured := [row for row in rows if row.measured])
    )


def unmeasured_fits(summary: Summary) -> tuple[str, ...]:
    """The fits that a book has cells for, and a value in none of them. Raises nothing."""
    return tuple(
        fit.name
        for fit, rows in _rows_by_fit(summary)
        if rows and not any(row.measured for row in rows)
    )


def _rows_by_fit(summary: Summary) -> Iterator[tuple[Fit, list[Row]]]:
    rows = [row for section in (*summary.sections, *summary.readings) for row in section.rows]
    for fit in FITS:
        yield fit, [row for row in rows if fit.takes(row)]


def worth(row: Row) -> tuple[bool, bool, bool, int, bool]:
    """How well a row tells a fit: of several the largest is taken. Raises nothing."""
    count = sum(n.value is not None for n in row.numbers)
    # A block of which no label says where each reading was taken stands behind its means.
    told_apart = any(n.position != n.place.address for n in row.numbers)
    calculated = "calculated" in row.label.casefold()
    return told_apart, count > 1, bool(row.verdict), count, not calculated
